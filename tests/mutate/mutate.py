"""Does a test notice? Each comparison of the judgment, each number and comparison of
the limits, each side, condition and duty of the steps and each gate and condition of
the requirements is turned round in turn, the one file compiled, and the tests of core
run until one fails.

usage: mutate.py [WORD...]     from the top of the checkout; WORD = part of a file's name

What no test notices is printed, unless tests/mutate/equivalent.txt says why it may be.
Fails when there is such a survivor, or when changes are left. How long: about a second
a change; the tests that noticed a change of the same file before run first.

MUTATE_JOBS=2      so many changes at a time (one folder each under build/mutate)
MUTATE_SECONDS=600 stop then; the next run goes on. What a test noticed is kept in
                   build/mutate/noticed.txt and not tried again while the changed file is
                   the same and the test that noticed has not changed either.
MUTATE_BY=oracle   by the answers to MUTATE_ORACLE=3000 made-up jobs of tests/oracle alone,
                   which the second reading of the rule answers likewise. A change that turns no
                   answer round, but the reasons, numbers or warnings beside it, is counted apart:
                   the second reading has no words of its own to hold them against
"""
import collections
import concurrent.futures
import glob
import hashlib
import itertools
import os
import queue
import re
import resource
import subprocess
import sys
import threading
import time

OUT = "build/mutate"
LISTED = "tests/mutate/equivalent.txt"
# A change may make an endless loop: so much of the processor is told from a slow machine.
CPU_S, LIMIT_S = 20, 3600
JOBS = int(os.environ.get("MUTATE_JOBS", "1"))
SECONDS = float(os.environ.get("MUTATE_SECONDS", "inf"))
BY_ORACLE = os.environ.get("MUTATE_BY") == "oracle"
ORACLE_JOBS = os.environ.get("MUTATE_ORACLE", "3000")
NOTICED = f"{OUT}/noticed-by-oracle.txt" if BY_ORACLE else f"{OUT}/noticed.txt"
FLAGS = ("-std=c11 -O0 -fPIC -w -Iinclude -Isrc -Ibuild/gen -Itests -D_POSIX_C_SOURCE=200809L "
         '-DMF_VERSION="mutate" -DMF_FONT_DIR="none" '
         f'-DMF_TESTS="{os.getcwd()}/tests" -DMF_SAMPLE="{os.getcwd()}/sample-data"').split()
LIBS = "-lcmocka -lgsl -lgslcblas -lsqlite3 -lcrypto -ljansson -lutf8proc -lm".split()

BESIDE = "oracle-beside"  # notices what is said beside an answer, too

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


def compiled(source, to, *more):
    return sh("gcc", *FLAGS, *more, "-c", source, "-o", to)


def must(done):
    if done.returncode != 0:
        sys.exit(f"{' '.join(done.args)}\n{done.stderr.decode()}")


def link(objects, folder):
    return sh("gcc", "-shared", "-o", f"{folder}/libcore.so", *objects)


def build():
    """The core as a shared library, so that the tests need not be linked again."""
    os.makedirs(f"{OUT}/tests", exist_ok=True)
    sh("make", "-s", "build/gen/words_data.c")
    objects = {}
    for source in sorted(glob.glob("src/core/*.c")):
        objects[source] = f"{OUT}/{os.path.basename(source)[:-2]}.o"
        must(compiled(source, objects[source], *["-O1"] * BY_ORACLE))  # it is run on many jobs
    must(link(objects.values(), OUT))
    rest = []
    rooms = [f"src/{room}/*.c" for room in ("base", "words", "journal", "book", "field")]
    sources = [source for pattern in [*rooms, "tests/support/*.c"] for source in sorted(glob.glob(pattern))]
    for source in [*sources, "build/gen/words_data.c"]:
        rest.append(f"{OUT}/tests/{source.replace('/', '-')}.o")
        must(compiled(source, rest[-1]))
    sh("rm", "-f", f"{OUT}/rest.a")
    must(sh("ar", "rcs", f"{OUT}/rest.a", *rest))
    return objects, oracle() if BY_ORACLE else tests_of_core()


def program_of(source, program):
    return sh("gcc", *FLAGS, source, "-o", program, f"{OUT}/rest.a", f"-L{OUT}", "-lcore", f"{OUT}/rest.a",
              *LIBS, f"-Wl,-rpath,{os.getcwd()}/{OUT}")


ANSWER, ASKED, SAID = (f"{os.getcwd()}/{OUT}/tests/oracle-{end}" for end in ("answer", "jobs", "said"))


def oracle():
    """The program that is asked, its questions, and what it says of them unchanged."""
    must(program_of("tests/oracle/answer.c", ANSWER))
    with open(ASKED, "w", encoding="utf-8") as file:
        subprocess.run([sys.executable, "tests/oracle/jobs.py", "--seed", "1", "--jobs", ORACLE_JOBS], stdout=file,
                       check=True)
    must(sh("sh", "-c", f"LD_LIBRARY_PATH={OUT} {ANSWER} -n < {ASKED} > {SAID}"))
    return [ANSWER, BESIDE]


def asked(folder):
    """The first of ANSWER, BESIDE that is other with the libcore.so of the folder; None when all is said as
    before. Nothing more is asked once an answer is another one."""
    beside = False
    with open(ASKED, "rb") as jobs, open(SAID, "rb") as before, subprocess.Popen(
            [ANSWER, "-n"], stdin=jobs, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, preexec_fn=limit_cpu,
            env=dict(os.environ, LD_LIBRARY_PATH=folder)) as running:
        for was, said in itertools.zip_longest(before, running.stdout):
            if was != said and (None in (was, said) or was[:1] != b" "):
                running.kill()
                return ANSWER
            beside = beside or was != said
    return BESIDE if beside else None


def tests_of_core():
    tests = []
    for source in sorted(glob.glob("tests/core/test_*.c")):
        program = f"{OUT}/tests/{os.path.basename(source)[:-2]}"
        done = program_of(source, program)
        if done.returncode == 0:
            tests.append(program)
        else:
            print(f"not built: {source}: {done.stderr.decode()[:300]}")
    return tests


def limit_cpu():
    resource.setrlimit(resource.RLIMIT_CPU, (CPU_S, CPU_S))


def passes(program, folder):
    """Whether the test is content with the libcore.so of the folder."""
    try:
        return subprocess.run([program], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, timeout=LIMIT_S,
                              preexec_fn=limit_cpu,
                              env=dict(os.environ, LD_LIBRARY_PATH=folder)).returncode == 0
    except subprocess.TimeoutExpired:
        return False


def listed():
    why = {}
    for line in open(LISTED, encoding="utf-8"):
        if line.strip() and not line.startswith("#"):
            name, _, reason = line.strip().partition(" ## ")
            why[name] = reason
    return why


def digest(*parts):
    return hashlib.sha256("\0".join(parts).encode()).hexdigest()[:16]


def read(path):
    with open(path, encoding="utf-8") as file:
        return file.read()


class Trial:
    """One change after the other, several at a time, and what came of each."""

    def __init__(self):
        self.objects, tests = build()
        self.tests, self.took = [], {}
        for test in tests:
            began = time.time()
            if BY_ORACLE or passes(test, OUT):
                self.took[test] = time.time() - began
                self.tests.append(test)
            else:
                print(f"left out, as it fails before anything is changed: {test}", flush=True)
        self.began = time.time()
        self.killed = collections.defaultdict(collections.Counter)
        self.lock, self.folders = threading.Lock(), queue.Queue()
        for job in range(JOBS):
            self.folders.put(f"{OUT}/{job}")
            os.makedirs(f"{OUT}/{job}", exist_ok=True)
        self.source_of = {test: digest(self.source(test)) for test in self.tests}
        self.known = set(read(NOTICED).split("\n")) if os.path.exists(NOTICED) else set()

    @staticmethod
    def source(test):
        if BY_ORACLE:
            return ORACLE_JOBS + "".join(read(path) for path in sorted(glob.glob("tests/oracle/*.py")))
        return read(f"tests/core/{os.path.basename(test)}.c")

    def order(self, path):
        stem = os.path.basename(path).split(".")[0]
        with self.lock:
            before = dict(self.killed[path])
        return sorted(self.tests, key=lambda t: (-before.get(t, 0), stem not in t, self.took[t]))

    @staticmethod
    def came(test):
        return "beside" if test == BESIDE else "noticed"

    def noticed_before(self, key):
        for test, source in self.source_of.items():
            if f"{key} {test} {source}" in self.known:
                return self.came(test)
        return None

    def notice(self, path, key, test):
        with self.lock:
            self.killed[path][test] += 1
            with open(NOTICED, "a", encoding="utf-8") as file:
                file.write(f"{key} {test} {self.source_of[test]}\n")

    def changed(self, path, whole, folder):
        """The object of the changed file, or None when it is no program."""
        base = os.path.basename(path)
        trial = f"{folder}/{base}"
        with open(trial, "w", encoding="utf-8") as file:
            file.write(whole)
        if base in HOME:
            home = read(f"src/core/{HOME[base]}").replace(f'"core/{base}"', f'"{os.getcwd()}/{trial}"')
            trial = f"{folder}/{HOME[base]}"
            with open(trial, "w", encoding="utf-8") as file:
                file.write(home)
        return f"{folder}/changed.o" if compiled(trial, f"{folder}/changed.o").returncode == 0 else None

    def one(self, path, whole, key, name):
        """'noticed', 'beside', 'survived', 'no program' or 'left'."""
        before = self.noticed_before(key)
        if before:
            return name, before
        if time.time() - self.began > SECONDS:
            return name, "left"
        folder = self.folders.get()
        try:
            fresh = self.changed(path, whole, folder)
            if fresh is None:
                return name, "no program"
            home = f"src/core/{HOME.get(os.path.basename(path), os.path.basename(path))}"
            must(link([fresh if o == self.objects[home] else o for o in self.objects.values()], folder))
            test = asked(folder) if BY_ORACLE else next((t for t in self.order(path) if not passes(t, folder)), None)
            if test is None:
                return name, "survived"
            self.notice(path, key, test)
            return name, self.came(test)
        finally:
            self.folders.put(folder)


def everything(words):
    for path in sorted(glob.glob("src/core/*.c") + glob.glob("src/core/audit_list.inc")):
        if words and not any(word in os.path.basename(path) for word in words):
            continue
        for text, start, end, new in changes(path):
            whole = text[:start] + new + text[end:]
            yield path, whole, digest(path, whole), name_of(path, text, start, end, new)


def main():
    words, why = sys.argv[1:], listed()
    trial = Trial()
    counts, survivors, met = collections.Counter(), [], set()
    with concurrent.futures.ThreadPoolExecutor(JOBS) as pool:
        for done in [pool.submit(trial.one, *change) for change in everything(words)]:
            name, came = done.result()
            if came == "survived":
                met.add(name)
                came = "equal" if name in why else "survived"
            if came == "survived":
                survivors.append(name)
                print(f"not noticed: {name}", flush=True)
            counts[came] += 1
    n = sum(counts.values()) - counts["no program"]
    print(f"{n} changes, {counts['noticed']} noticed, {counts['beside']} beside an answer, {counts['equal']} listed "
          f"as equal, {counts['survived']} not noticed, {counts['left']} left; {time.time() - trial.began:.0f} s")
    if not words and not counts["left"]:
        for name in why:
            if name not in met:
                print(f"listed, but noticed or gone: {name}")
    sys.exit(1 if survivors or n == 0 or counts["left"] else 0)


if __name__ == "__main__":
    main()
