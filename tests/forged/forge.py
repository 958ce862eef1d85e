"""Writes an entry into a book as another program could, with the right hash and chain, so
that nothing but what it says is wrong with it; the derived tables are then made anew.

usage: forge.py BOOK NAME=VALUE..., of device at who job kind body. Values are written with
Python's escapes: \\x1b, \\u202e; \\udcff is the byte ff, which is no UTF-8.
"""
import hashlib
import json
import sqlite3
import sys


def raw(text):
    return text.encode("utf-8", "surrogateescape")


def main():
    book = sqlite3.connect(sys.argv[1])
    book.text_factory = bytes
    entry = {"device": "o", "at": "2026-09-14T08:00:00Z", "who": "rosa", "job": "", "kind": "person",
             "body": '{"id":"z","name":"Z"}'}
    for word in sys.argv[2:]:
        name, value = word.split("=", 1)
        entry[name] = value.encode("latin-1", "backslashreplace").decode("unicode_escape")
    device = raw(entry["device"])
    last = book.execute("SELECT seq, hash FROM entry WHERE device = CAST(? AS TEXT) ORDER BY seq DESC",
                        (device,)).fetchone() or (0, b"0" * 64)
    line = "{" + ",".join([
        '"at":' + quoted(entry["at"]), '"body":' + entry["body"], '"device":' + quoted(entry["device"]),
        '"job":' + quoted(entry["job"]), '"kind":' + quoted(entry["kind"]),
        '"prev":"' + last[1].decode() + '"', '"seq":%d' % (last[0] + 1), '"who":' + quoted(entry["who"])]) + "}"
    digest = hashlib.sha256(raw(line)).hexdigest()
    book.execute("INSERT INTO entry (device, seq, logged_at, who, kind, job, body, prev, hash) VALUES ("
                 "CAST(? AS TEXT), ?, CAST(? AS TEXT), CAST(? AS TEXT), CAST(? AS TEXT), CAST(? AS TEXT),"
                 " CAST(? AS TEXT), CAST(? AS TEXT), ?)",
                 (device, last[0] + 1, raw(entry["at"]), raw(entry["who"]), raw(entry["kind"]), raw(entry["job"]),
                  raw(entry["body"]), last[1], digest))
    book.execute("UPDATE meta SET value = 'x' WHERE key IN ('derived', 'quick')")
    book.commit()


def quoted(text):
    """RFC 8785, 3.2.2.2."""
    return json.dumps(text, ensure_ascii=False)


main()
