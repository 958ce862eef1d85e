"""Does a test notice? Each comparison of the judgement, each number and comparison of
the limits, each side, condition and duty of the steps and each gate and condition of
the requirements is turned round in turn, the one file compiled, and the tests of core
run until one fails.

usage: mutate.py [WORD...]     from the top of the checkout; WORD = part of a file's name

What no test notices is printed, unless tests/mutate/equivalent.txt says why it may be.
Fails when there is such a survivor. How long: about half a second a change; the tests
that noticed a change of the same file before run first.
"""
import collections
import glob
import os
import re
import subprocess
import sys
import time

OUT = "build/mutate"
LISTED = "tests/mutate/equivalent.txt"
LIMIT_S = 20  # a change may make an endless loop
FLAGS = ("-std=c11 -O0 -fPIC -w -Iinclude -Isrc -Ibuild/gen -Itests -D_POSIX_C_SOURCE=200809L "
         '-DMF_VERSION="mutate" -DMF_FONT_DIR="none" '
         f'-DMF_TESTS="{os.getcwd()}/tests" -DMF_SAMPLE="{os.getcwd()}/sample-data"').split()
LIBS = "-lcmocka -lgsl -lgslcblas -lsqlite3 -lcrypto -ljansson -lutf8proc -lm".split()

FLIP = {"<": "<=", "<=": "<", ">": ">=", ">=": ">", "==": "!=", "!=": "=="}
COMPARISON = re.compile(r"(?<![-<>=!+*/%&|^])(<=|>=|==|!=|<|>)(?![<>=])")
IN_ROWS = {
    "limit_rows.c": [
        (re.compile(r'(?<=, )\d+(?=, MF_UNIT)'), lambda t: [str(int(t) + 1), str(int(t) - 1)]),
        (re.compile(r"\bMF_(LT|LE|GE|GT)\b"),
         lambda t: [{"MF_LT": "MF_LE", "MF_LE": "MF_LT", "MF_GE": "MF_GT", "MF_GT": "MF_GE"}[t]]),
        (re.compile(r"(?<= = )\d{5}\b"), lambda t: [str(int(t) + 1), str(int(t) - 1)]),
    ],
    "contain_rows.c": [
        (re.compile(r"(?<=, )(IN|OUT|BOTH)(?=,)"),
         lambda t: {"IN": ["OUT", "BOTH"], "OUT": ["IN", "BOTH"], "BOTH": ["IN", "OUT"]}[t]),
        (re.compile(r"\bMF_WHEN_(?!ALWAYS)\w+"), lambda t: ["MF_WHEN_ALWAYS"]),
        (re.compile(r"(?<=, )MF_LIMIT_\w+(?=,)"), lambda t: ["-1"]),
        (re.compile(r"\b(PRESENT|BY_HAND)(?=, (MAY_SKIP|MUST)\})"),
         lambda t: ["BY_HAND" if t == "PRESENT" else "PRESENT"]),
        (re.compile(r"\b(MAY_SKIP|MUST)(?=\})"), lambda t: ["MUST" if t == "MAY_SKIP" else "MAY_SKIP"]),
    ],
    "audit_list.inc": [
        (re.compile(r"\b(RULE|DEMO|SIGNS|HANDOVER|INSPECTION)\b"), lambda t: ["0"]),
        (re.compile(r"\bmf_if_(?!always\b)\w+"), lambda t: ["mf_if_always"]),
    ],
}
# An .inc file is compiled with what includes it.
HOME = {"audit_list.inc": "audit_rows.c"}


def blanked(text):
    """Comments, strings, includes and the heads of counting loops as blanks: what is
    changed there changes nothing, or the tests' hardware."""
    def blank(m):
        return re.sub(r"[^\n]", " ", m.group(0))
    text = re.sub(r'/\*.*?\*/|"(?:\\.|[^"\\\n])*"|\'(?:\\.|[^\'\\])*\'|^#[^\n]*', blank, text,
                  flags=re.S | re.M)
    return re.sub(r"\bfor \([^;]*;[^;]*;", blank, text)


def changes(path):
    """(start, end, new) for each change of the file."""
    text = open(path, encoding="utf-8").read()
    bare = blanked(text)
    rules = IN_ROWS.get(os.path.basename(path))
    if rules is None:
        for m in COMPARISON.finditer(bare):
            yield text, m.start(), m.end(), FLIP[m.group(0)]
        return
    for pattern, others in rules:
        for m in pattern.finditer(bare):
            for new in others(m.group(0)):
                yield text, m.start(), m.end(), new


def name_of(path, text, start, end, new):
    """file: the line with [old -> new]; the same after the file is moved about."""
    begin = text.rfind("\n", 0, start) + 1
    stop = text.find("\n", end)
    line = text[begin:start] + f"[{text[start:end]} -> {new}]" + text[end:stop]
    return f"{os.path.basename(path)}: {' '.join(line.split())}"


def sh(*args):
    return subprocess.run(args, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE)


def compiled(source, to):
    return sh("gcc", *FLAGS, "-c", source, "-o", to)


def must(done):
    if done.returncode != 0:
        sys.exit(f"{' '.join(done.args)}\n{done.stderr.decode()}")


def link(objects):
    return sh("gcc", "-shared", "-o", f"{OUT}/libcore.so", *objects)


def build():
    """The core as a shared library, so that the tests need not be linked again."""
    os.makedirs(f"{OUT}/tests", exist_ok=True)
    os.makedirs(f"{OUT}/tmp", exist_ok=True)
    sh("make", "-s", "build/gen/words_data.c")
    objects = {}
    for source in sorted(glob.glob("src/core/*.c")):
        objects[source] = f"{OUT}/{os.path.basename(source)[:-2]}.o"
        must(compiled(source, objects[source]))
    must(link(objects.values()))
    rest = []
    for source in sorted(glob.glob("src/base/*.c") + glob.glob("src/words/*.c") + glob.glob("src/book/*.c")
                         + glob.glob("tests/support/*.c")) + ["build/gen/words_data.c"]:
        rest.append(f"{OUT}/tests/{source.replace('/', '-')}.o")
        must(compiled(source, rest[-1]))
    sh("rm", "-f", f"{OUT}/rest.a")
    must(sh("ar", "rcs", f"{OUT}/rest.a", *rest))
    tests = []
    for source in sorted(glob.glob("tests/core/test_*.c")):
        program = f"{OUT}/tests/{os.path.basename(source)[:-2]}"
        done = sh("gcc", *FLAGS, source, "-o", program, f"{OUT}/rest.a", f"-L{OUT}", "-lcore", f"{OUT}/rest.a",
                  *LIBS, f"-Wl,-rpath,{os.getcwd()}/{OUT}")
        if done.returncode == 0:
            tests.append(program)
        else:
            print(f"not built: {source}: {done.stderr.decode()[:300]}")
    return objects, tests


def passes(program):
    try:
        return subprocess.run([program], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
                              timeout=LIMIT_S).returncode == 0
    except subprocess.TimeoutExpired:
        return False


def order(tests, took, killed, path):
    stem = os.path.basename(path).split(".")[0]
    return sorted(tests, key=lambda t: (-killed[path][t], stem not in t, took[t]))


def listed():
    why = {}
    for line in open(LISTED, encoding="utf-8"):
        if line.strip() and not line.startswith("#"):
            name, _, reason = line.strip().partition(" ## ")
            why[name] = reason
    return why


def main():
    objects, tests = build()
    took, killed = {}, collections.defaultdict(collections.Counter)
    for test in list(tests):
        began = time.time()
        if passes(test):
            took[test] = time.time() - began
        else:
            print(f"left out, as it fails before anything is changed: {test}")
            tests.remove(test)
    words, why = sys.argv[1:], listed()
    n = noticed = 0
    survivors, met = [], set()
    began = time.time()
    for path in sorted(glob.glob("src/core/*.c") + glob.glob("src/core/audit_list.inc")):
        base = os.path.basename(path)
        if words and not any(word in base for word in words):
            continue
        home = f"src/core/{HOME.get(base, base)}"
        for text, start, end, new in changes(path):
            n += 1
            name = name_of(path, text, start, end, new)
            changed = text[:start] + new + text[end:]
            trial = f"{OUT}/tmp/{base}"
            open(trial, "w", encoding="utf-8").write(changed)
            source = trial
            if base in HOME:
                source = f"{OUT}/tmp/{HOME[base]}"
                whole = open(home, encoding="utf-8").read()
                open(source, "w", encoding="utf-8").write(
                    whole.replace(f'"core/{base}"', f'"{os.getcwd()}/{trial}"'))
            changed_object = f"{OUT}/tmp/changed.o"
            if compiled(source, changed_object).returncode != 0:
                n -= 1  # no program
                continue
            must(link([changed_object if o == objects[home] else o for o in objects.values()]))
            for test in order(tests, took, killed, path):
                if not passes(test):
                    killed[path][test] += 1
                    noticed += 1
                    break
            else:
                met.add(name)
                if name not in why:
                    survivors.append(name)
                    print(f"not noticed: {name}", flush=True)
    link(objects.values())
    print(f"{n} changes, {noticed} noticed, {n - noticed - len(survivors)} listed as equal, "
          f"{len(survivors)} not noticed; {time.time() - began:.0f} s")
    if not words:
        for name in why:
            if name not in met:
                print(f"listed, but noticed or gone: {name}")
    sys.exit(1 if survivors or n == 0 else 0)


if __name__ == "__main__":
    main()
