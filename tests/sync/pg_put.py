#!/usr/bin/env python3
"""Puts a segment into a store as somebody can who has a login of the server and not the program:

  pg_put.py LOGIN FIRM SEGMENT-FILE [--without-segment]

SEGMENT-FILE is named WRITER/CHAIN.FROM-TO.SHA256.entries. Prints what the server says when it
refuses, and ends with 1. Everything is done by psql."""
import json
import os
import subprocess
import sys

login, firm, path = sys.argv[1:4]
writer, file = path.split("/")[-2:]
chain, span, digest, _ = file.split(".")
text = open(path, encoding="utf-8").read()
lines = text.splitlines(keepends=True)


def quoted(value):
    return "'" + value.replace("'", "''") + "'"


sql = ["SET standard_conforming_strings = on; BEGIN;"]
for line in lines[1:-1]:
    row = json.loads(line)
    entry = row["line"]
    body = line[line.index(',"body":') + 8:line.index(',"device":"' + chain)]
    sql.append(
        "INSERT INTO mistfold.entry (firm, device, seq, at, who, kind, job, body, hash) VALUES (%s, %s,"
        " %d, %s, %s, %s, %s, %s, decode('%s', 'hex')) ON CONFLICT DO NOTHING;" % (
            firm, quoted(chain), entry["seq"], quoted(entry["at"]), quoted(entry["who"]),
            quoted(entry["kind"]), quoted(entry["job"]), quoted(body), row["hash"]))
if "--without-segment" not in sys.argv:
    first, last = span.split("-")
    sql.append("INSERT INTO mistfold.segment VALUES (%s, %s, %s, %s, %s, decode('%s', 'hex'), %d, %s, %s);"
               % (firm, quoted(chain), first, last, quoted(writer), digest, len(text.encode()),
                  quoted(lines[0]), quoted(lines[-1])))
sql.append("COMMIT;")
done = subprocess.run([os.environ["PG_BIN"] + "/psql", "-Xqv", "ON_ERROR_STOP=1", "-h", os.environ["PG"],
                       "-U", login, "firm"], input="\n".join(sql), text=True, capture_output=True)
print(done.stdout + done.stderr, end="")
sys.exit(1 if done.returncode else 0)
