"""Runs the cases of the catalogue of messages and checks that each brings up its text:
in one line on standard error, with exit status 1 to 4.

usage: catalogue.py CATALOGUE PROGRAM, in an empty folder
"""
import glob
import os
import re
import subprocess
import sys

from messages import catalogue

HERE = os.path.dirname(os.path.abspath(__file__))


def words_of(text):
    """The words of an id such as refuse.planned, which stand in forms/; else the text."""
    if not re.fullmatch(r"[a-z]+(\.[a-z-]+)+", text):
        return text
    for path in glob.glob(f"{HERE}/../../forms/*.words"):
        found = re.search(rf"^\[{re.escape(text)}\]\nen  (.*)$", open(path, encoding="utf-8").read(), re.M)
        if found:
            return found.group(1)
    return text


def pattern(text):
    """The text with anything in place of what is printed into it."""
    text = words_of(text)
    parts = re.split(r"%[-0-9.*]*(?:ll|z|l)?[a-zA-Z]", text.replace("\\\\", "\\"))
    return re.compile(".*".join(re.escape(part) for part in parts))


def main():
    os.environ.update(M=sys.argv[2], T=f"python3 {HERE}/drive.py", MISTFOLD_BOOK="b.book",
                      MISTFOLD_BY="rosa", XDG_CONFIG_HOME="/nonexistent", MISTFOLD_LANG="en")
    for line in open(sys.argv[1], encoding="utf-8"):
        if line.startswith("& "):
            subprocess.run(["sh", "-ec", line[2:]], check=True, stdout=subprocess.DEVNULL)
    bad = ran = 0
    for text, case in catalogue(sys.argv[1]):
        if not case.startswith("$ "):
            continue
        ran += 1
        done = subprocess.run(["sh", "-c", case[2:]], capture_output=True, text=True)
        at_terminal = "$T " in case
        said = done.stdout if at_terminal else done.stderr
        lines = [line for line in said.split("\n") if line.startswith("mistfold: ")]
        good = len(lines) == 1 and pattern(text).search(lines[0])
        if not at_terminal:
            good = good and 1 <= done.returncode <= 4 and said.count("\n") == 1
        if not good:
            bad += 1
            print(f"{text}\n  {case}\n  exit {done.returncode}: {said[-400:]}")
    print(ran, "cases,", bad, "bad")
    return 1 if bad else 0


sys.exit(main())
