#!/usr/bin/env python3
"""Writes a segment of a book's chain as anybody can who has the book and no key of the writer:

  segment.py BOOK DEVICE FROM SHARE WRITER [--unsigned]

into SHARE/WRITER, under the name that fits its bytes. --unsigned leaves out how the device
signed its chain."""
import hashlib
import json
import os
import sqlite3
import sys


def canonical(value):
    return json.dumps(value, sort_keys=True, separators=(",", ":"), ensure_ascii=False)


book, device, first, share, writer = sys.argv[1:6]
db = sqlite3.connect(book)
rows = db.execute(
    "SELECT logged_at, body, device, job, kind, prev, seq, who, hash FROM entry"
    " WHERE device = ? AND seq >= ? ORDER BY seq", (device, int(first))).fetchall()
signed = db.execute("SELECT key || ' ' || value FROM meta WHERE key LIKE 'signed ' || ? || ' %'",
                    (device,)).fetchall()
if "--unsigned" in sys.argv:
    signed = []
lines = [canonical({"at": "2026-09-20T12:00:00Z", "entries": 1, "head": "", "job": "",
                    "needs": [], "signed": [s[0] for s in signed], "writer": []})]
for at, body, dev, job, kind, prev, seq, who, digest in rows:
    line = canonical({"at": at, "body": json.loads(body), "device": dev, "job": job, "kind": kind,
                      "prev": prev, "seq": seq, "who": who})
    lines.append('{"hash":"%s","line":%s}' % (digest, line))
last = rows[-1]
lines.append(canonical({"heads": [{"device": device, "hash": last[8], "seq": last[6]}]}))
text = ("\n".join(lines) + "\n").encode()
os.makedirs(os.path.join(share, writer), exist_ok=True)
name = "%s.%s-%d.%s.entries" % (device, first, last[6], hashlib.sha256(text).hexdigest())
with open(os.path.join(share, writer, name), "wb") as out:
    out.write(text)
