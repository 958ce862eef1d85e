"""Rewrites a book as somebody would who knows how it is made: one word in an entry becomes
another, all hashes after it are computed anew, and what earlier checks noted is forgotten.

usage: rewrite.py BOOK OLD NEW      (then: mistfold book rebuild)
"""
import hashlib
import json
import sqlite3
import sys

NAMES = ("device", "seq", "at", "who", "kind", "job", "body", "prev", "hash")


def main():
    book, old, new = sys.argv[1:]
    db = sqlite3.connect(book)
    guards = []
    for name, in db.execute("SELECT name FROM sqlite_schema WHERE type = 'trigger'").fetchall():
        text, = db.execute("SELECT sql FROM sqlite_schema WHERE name = ?", (name,)).fetchone()
        if " ON entry" in text:
            db.execute(f"DROP TRIGGER {name}")
            guards.append(text)
    last = {}
    rows = db.execute("SELECT rowid, device, seq, logged_at, who, kind, job, body, prev, hash "
                      "FROM entry ORDER BY rowid").fetchall()
    for row in rows:
        entry = dict(zip(NAMES, row[1:]))
        body = entry["body"].replace(old, new)
        line = {k: v for k, v in entry.items() if k != "hash"}
        line["body"] = json.loads(body)
        line["prev"] = last.get(entry["device"], "0" * 64)
        text = json.dumps(line, sort_keys=True, separators=(",", ":"), ensure_ascii=False)
        last[entry["device"]] = hashlib.sha256(text.encode()).hexdigest()
        db.execute("UPDATE entry SET body = ?, prev = ?, hash = ? WHERE rowid = ?",
                   (body, line["prev"], last[entry["device"]], row[0]))
    for text in guards:
        db.execute(text)
    db.execute("DELETE FROM verified")  # what the last check saw
    db.commit()
    db.execute("PRAGMA wal_checkpoint(TRUNCATE)")


main()
