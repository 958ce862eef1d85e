#!/usr/bin/env python3
"""Rewrites a book as somebody would who wants it to have said something else all along:
changes entries, makes every hash of their chain anew, puts the guards back.

  rewrite.py BOOK set ENTRY FIELD VALUE [--heads]   one field of one entry, VALUE as JSON
  rewrite.py BOOK drop-field ENTRY FIELD
  rewrite.py BOOK column ENTRY COLUMN VALUE [--heads]   who, logged_at, kind or job of it
  rewrite.py BOOK replace COLUMN OLD NEW            in every entry; COLUMN may be body, too
  rewrite.py BOOK drop N                            takes the last N entries of each device
  rewrite.py BOOK add KIND BODY [JOB]               one more entry at the end of the device
  rewrite.py BOOK add-as DEVICE KIND BODY JOB       the first entry of another device

--heads: the heads that the entries of seals name are made to fit the new chain, too.
"""
import hashlib
import json
import sqlite3
import sys


COLUMN = {"logged_at": 2, "who": 3, "kind": 4, "job": 5, "body": 6}


def canonical(value):
    return json.dumps(value, sort_keys=True, separators=(",", ":"), ensure_ascii=False)


def head_of(last):
    return hashlib.sha256("".join(f"{d} {h}\n" for d, h in sorted(last.items())).encode()).hexdigest()


def chain(rows, heads):
    last, out, new = {}, [], {}
    for device, seq, at, who, kind, job, body in rows:
        if heads and kind == "sealed":
            said = json.loads(body)
            said["head"] = new.get(said["head"], said["head"])
            body = canonical(said)
        prev = last.get(device, "0" * 64)
        line = "{" + f'"at":{canonical(at)},"body":{body},"device":{canonical(device)},' \
            f'"job":{canonical(job)},"kind":{canonical(kind)},"prev":"{prev}","seq":{seq},' \
            f'"who":{canonical(who)}' + "}"
        last[device] = hashlib.sha256(line.encode()).hexdigest()
        out.append((device, seq, at, who, kind, job, body, prev, last[device]))
        if heads:
            new[heads.pop(0)] = head_of(last)
    return out


def old_heads(book):
    last, heads = {}, []
    for device, value in book.execute("SELECT device, hash FROM entry ORDER BY rowid"):
        last[device] = value
        heads.append(head_of(last))
    return heads


def main(path, what, *args):
    fit = "--heads" in args
    args = [a for a in args if a != "--heads"]
    book = sqlite3.connect(path)
    heads = old_heads(book) if fit else None
    rows = [list(r) for r in book.execute(
        "SELECT device, seq, logged_at, who, kind, job, body FROM entry ORDER BY rowid")]
    if what == "set":
        for row in rows:
            if f"{row[0]}/{row[1]}" == args[0]:
                body = json.loads(row[6])
                body[args[1]] = json.loads(args[2])
                row[6] = canonical(body)
    elif what == "drop-field":
        for row in rows:
            if f"{row[0]}/{row[1]}" == args[0]:
                body = json.loads(row[6])
                body.pop(args[1], None)
                row[6] = canonical(body)
    elif what == "column":
        for row in rows:
            if f"{row[0]}/{row[1]}" == args[0]:
                row[COLUMN[args[1]]] = args[2]
    elif what == "replace":
        for row in rows:
            row[COLUMN[args[0]]] = row[COLUMN[args[0]]].replace(args[1], args[2])
    elif what == "drop":
        most = {r[0]: r[1] for r in rows}
        rows = [r for r in rows if r[1] <= most[r[0]] - int(args[0])]
    elif what == "add":
        last = rows[-1]
        rows.append([last[0], last[1] + 1, last[2], last[3], args[0],
                     args[2] if len(args) > 2 else last[5], args[1]])
    elif what == "add-as":
        last = rows[-1]
        rows.append([args[0], 1, last[2], last[3], args[1], args[3], args[2]])
    guards = book.execute("SELECT name, sql FROM sqlite_schema WHERE type = 'trigger'").fetchall()
    for name, _ in guards:
        book.execute(f"DROP TRIGGER {name}")
    book.execute("DELETE FROM entry")
    book.executemany("INSERT INTO entry (device, seq, logged_at, who, kind, job, body, prev, hash)"
                     " VALUES (?,?,?,?,?,?,?,?,?)", chain(rows, heads))
    kept = [json.loads(r[6])["sha256"] for r in rows if r[4] == "attachment"]
    for (sha256,) in book.execute("SELECT sha256 FROM content").fetchall():
        if sha256 not in kept:
            book.execute("DELETE FROM content WHERE sha256 = ?", (sha256,))
    book.execute("DELETE FROM verified")
    for _, sql in guards:
        book.execute(sql)
    book.commit()


main(*sys.argv[1:])
