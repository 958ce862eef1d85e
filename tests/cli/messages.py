"""The catalogue of messages: every text with which the program can fail.

usage: messages.py SOURCE-FOLDER             prints the texts, a line each
       messages.py SOURCE-FOLDER CATALOGUE   checks that the catalogue has each once

In the catalogue a line "= TEXT" is followed by "$ COMMAND" (the command that brings it
up, run by test_catalogue) or "! REASON" (why no command can).
"""
import os
import re
import sys


def arguments(text, at):
    """The arguments of the call whose "(" stands at text[at]."""
    depth, quoted, out, word = 0, False, [], ""
    i = at
    while True:
        c = text[i]
        if quoted:
            word += c
            if c == "\\":
                word += text[i + 1]
                i += 1
            elif c == '"':
                quoted = False
        elif c == '"':
            quoted = True
            word += c
        elif c in "({[":
            depth += 1
            word += c if depth > 1 else ""
        elif c in ")}]":
            depth -= 1
            if depth == 0:
                return out + [word]
            word += c
        elif c == "," and depth == 1:
            out.append(word)
            word = ""
        else:
            word += c
        i += 1


def literals(argument):
    """The texts an argument may be: neighbors joined, "a ? b : c" gives two."""
    for part in re.split(r"[?:](?=(?:[^\"]*\"[^\"]*\")*[^\"]*$)", argument):
        text = "".join(re.findall(r'"((?:[^"\\]|\\.)*)"', part))
        if text:
            yield text.replace('\\"', '"')


def messages(folder):
    found = {}
    for base, _, names in os.walk(folder):
        for name in sorted(names):
            if not name.endswith(".c") or name == "fail.c":
                continue
            text = open(os.path.join(base, name), encoding="utf-8").read()
            for match in re.finditer(r"\b(mf_failf?|wrong)\(", text):
                args = arguments(text, match.end() - 1)
                at = {"mf_fail": 3, "mf_failf": 5, "wrong": 1}[match.group(1)]
                if len(args) <= at or args[0].startswith(("mf_err *", "const char *")):
                    continue
                for literal in literals(args[at]):
                    found.setdefault(literal, os.path.relpath(os.path.join(base, name), folder))
    return found


def catalogue(path):
    rows = []
    for line in open(path, encoding="utf-8"):
        if line.startswith("= "):
            rows.append([line[2:].rstrip("\n"), None])
        elif line[:2] in ("$ ", "! ") and rows:
            rows[-1][1] = line.rstrip("\n")
    return rows


def main():
    found = messages(sys.argv[1])
    if len(sys.argv) == 2:
        for text, where in sorted(found.items(), key=lambda row: (row[1], row[0])):
            print(f"{where}\t{text}")
        return 0
    rows = catalogue(sys.argv[2])
    texts = [text for text, _ in rows]
    bad = [f"not in the catalogue: {text} ({where})" for text, where in found.items()
           if text not in texts]
    bad += [f"no such message any more: {text}" for text in texts if text not in found]
    bad += [f"no case: {text}" for text, case in rows if case is None]
    bad += [f"twice: {text}" for text in set(texts) if texts.count(text) > 1]
    print("\n".join(bad) or f"{len(rows)} messages")
    return 1 if bad else 0


if __name__ == "__main__":
    sys.exit(main())
