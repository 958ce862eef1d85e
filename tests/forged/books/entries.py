#!/usr/bin/env python3
"""Writes a file of entries as a phone does, with right hashes, saying whatever is asked for.

  entries.py FILE JOB DEVICE WHO KIND BODY [KIND BODY ...]

@FILE as BODY: an attachment of those bytes; their line is written in front of its entry.
DEVICE/SEQ/HASH as DEVICE: behind that entry of it.
JOB/OTHER as JOB: the file is of JOB, its entries of OTHER; - = of the firm.
"""
import base64
import hashlib
import json
import sys


def canonical(value):
    return json.dumps(value, sort_keys=True, separators=(",", ":"), ensure_ascii=False)


def main(path, job, device, who, *what):
    job, _, other = job.partition("/")
    at = "2026-09-22T12:00:00Z"
    device, seq, prev = (device.split("/") + ["0", "0" * 64])[:3]
    seq = int(seq)
    out = [canonical({"at": at, "entries": 1, "head": "", "job": job})]
    for kind, body in zip(what[::2], what[1::2]):
        if body.startswith("@"):
            data = open(body[1:], "rb").read()
            sha = hashlib.sha256(data).hexdigest()
            out.append('{"attachment":"%s","base64":"%s"}' % (sha, base64.b64encode(data).decode()))
            body = canonical({"media": "pdf", "name": body[1:], "sha256": sha, "size": len(data)})
        seq += 1
        line = canonical({"at": at, "body": json.loads(body), "device": device, "job": "" if other == "-" else other or job,
                          "kind": kind, "prev": prev, "seq": seq, "who": who})
        prev = hashlib.sha256(line.encode()).hexdigest()
        out.append('{"hash":"%s","line":%s}' % (prev, line))
    out.append(canonical({"heads": [{"device": device, "hash": prev, "seq": seq}]}))
    open(path, "w", encoding="utf-8").write("\n".join(out) + "\n")


main(*sys.argv[1:])
