"""Checks that what the README shows of the program is what the demo printed.

usage: readme.py README.md DEMO.LOG; prints how many commands were found
"""
import re
import sys


def squeeze(text):
    return " ".join(text.split())


def main():
    readme = open(sys.argv[1], encoding="utf-8").read()
    demo = squeeze(open(sys.argv[2], encoding="utf-8").read())
    n = 0
    for block in re.findall(r"(?:^    .*\n|^\n(?=    ))+", readme, flags=re.M):
        for shown in block.split("    $ mistfold ")[1:]:
            for part in re.split(r"\n\s*\n", shown.split("\n", 1)[1]):
                if part.strip():
                    assert squeeze(part) in demo, f"the demo does not print:\n{part}"
            n += 1
    print(n, "commands")


main()
