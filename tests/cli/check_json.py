"""Runs every command of docs/json.md and checks what it prints against the table
below it: each member is there, of its type, and none is there that is not documented.

usage: check_json.py docs/json.md PROGRAM; prints how many commands and values were checked.
"""
import json
import os
import re
import shlex
import subprocess
import sys

SAMPLE = os.path.join(os.path.dirname(os.path.abspath(__file__)), "../../sample-data")
TYPES = {"string": str, "integer": int, "boolean": bool, "any": dict, "list": list}


def sections(text):
    for part in re.split(r"^## ", text, flags=re.M)[1:]:
        command = re.match(r"`mistfold (.*)`\n", part).group(1)
        rows = dict(re.findall(r"^\| ([a-z_.0-9\[\]-]+) \| ([a-z ]+) \|$", part, flags=re.M))
        rows.pop("member", None)
        yield command, bool(re.search(r"^A list", part, flags=re.M)), rows


def flatten(value, rows, path=""):
    for name, member in value.items():
        full = path + name
        if rows.get(full, "").startswith(("any", "list")) or not isinstance(member, (dict, list)):
            yield full, member
        elif isinstance(member, dict):
            yield from flatten(member, rows, full + ".")
        else:
            for one in member:
                yield from flatten(one, rows, full + "[].")


def check(value, rows, command):
    seen, n = set(), 0
    for name, member in flatten(value, rows):
        assert name in rows, f"{command}: {name} is not documented"
        types = [None if t == "null" else TYPES[t] for t in rows[name].split(" or ")]
        good = member is None and None in types or any(
            t is not None and type(member) is t for t in types)
        assert good, f"{command}: {name} is {member!r}, not {rows[name]}"
        seen.add(name)
        n += 1
    assert seen == set(rows), f"{command}: lacks {set(rows) - seen}"
    return n


def main():
    commands = values = 0
    for command, is_list, rows in sections(open(sys.argv[1], encoding="utf-8").read()):
        with open(f"{SAMPLE}/passphrase.txt", "rb") as passphrase:
            done = subprocess.run([sys.argv[2]] + shlex.split(command), stdin=passphrase,
                                  capture_output=True, text=True)
        assert done.returncode in (0, 1), f"{command}: {done.stderr}"
        answer = json.loads(done.stdout)
        assert isinstance(answer, list) == is_list and answer, f"{command}: a list or not, or empty"
        commands += 1
        values += sum(check(one, rows, command) for one in (answer if is_list else [answer]))
    print(commands, "commands", values, "values")


main()
