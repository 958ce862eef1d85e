"""What must hold of the program's answers whatever the job, without a second reading:

(a) saying less makes no answer better, unless what was left out was itself bad news
    (LINES, OPTIONS: which, and why);
(b) another device's word on the house makes no answer better;
(c) a yes is of its day: no yes before what it rests on, nor after it ran out.

Better means: a no turns into a yes, or a job under the rule is freed.
"""
import io
import random

import facts
import jobs
import people
import program
from facts import DAY

CHUNK = 20  # jobs at a time: each has many variants
QUESTIONS = ("demo", "signs", "handover", "inspection")

# ---- bad news: leaving it out may help ---------------------------------------------------------------

ALL = ""
LINES = {  # kind: (words one of which such a line has, why)
    "component": ((ALL,), "a part to be shown free, counted, and held by a work area"),
    "opening": ((ALL,), "its parts must be listed, a work area must hold it"),
    "area": ((ALL,), "to be contained, cleaned and verified; its unit must be told"),
    "surface": ((ALL,), "to be verified"),
    "visit": ((ALL,), "makes the building a facility"),
    "scope_change": ((ALL,), "people must be told of it"),
    "assignment": ((ALL,), "whoever is assigned must be certified or trained"),
    "practice": ((ALL,), "work needs containment before and cleaning after it; some is prohibited"),
    "completion": ((ALL,), "a completed job is no longer worked on, and the record falls due"),
    "invoice": ((ALL,), "the record falls due with it"),
    "verification": ((ALL,), "dust seen, a darker cloth, a step out of order"),
    "dust_sample": ((ALL,), "a sample that fails, or was not taken as it must"),
    "kit_test": ((ALL,), "a positive; a test whose record is not whole"),
    "chip": ((ALL,), "a positive; a test whose record is not whole"),
    "determination": ((ALL,), "contradicted by a positive"),
    "tick": (("undone", "sheeting", "barriers-whole", "--step surfaces", "--step mop", "signs-assisted"),
             "undone; the containment folded; cleaned after the samples"),
    "emergency": ((ALL,), "left out beyond what it frees of, or for no reason that is told"),
    "notice": (("--method unit-notice", "--method mailed"), "written notice binds to what it told"),
    "party": (("--role units", "guest", "-too", "--role occupant", "--role parents", "--role facility"),
              "somebody more who must be told and handed the record; who lives or comes there, or pays rent"),
    "vacancy": ((ALL,), "a dwelling, and one that is let"),
    "certificate": (("--hands-on no",), "a course that the next one may not be like"),
    "owner_record": ((ALL,), "a record that is not whole"),
    "reading": ((ALL,), "a positive"),
    "occupancy": ((ALL,), "of several each must do"),
    "local_limit": ((ALL,), "a limit that is stricter"),
    "fixture": ((ALL,), "a vent or flap that must be closed"),
}
OPTIONS = {
    ("area", "line"): "near the property line; not said is far, as its help says",
    ("area", "unit"): "whom the area makes the firm tell",
    ("area", "common"): "whom the area makes the firm tell",
    ("area", "openings"): "what must be listed and verified there",
    ("house", "unit"): "the unit where nobody said another",
    ("house", "language"): "what the acknowledgment is held against",
    ("house", "end"): "no answer rests on it",
    ("area", "called-off"): "nothing is asked of it then",
    ("house", "called-off"): "nothing may be torn out then",
    ("house", "emergency"): "no is bad news; yes must be documented",
    ("area", "countertops"): "what must be listed and wiped there",
    ("practice", "spot"): "how much is disturbed",
    ("practice", "began"): "not said, what was set up that day is taken to have come first",
    ("practice", "time"): "not said, what is done when the day is over is taken to have come after it",
    ("house", "child-under-6"): "yes is bad news: somebody lives there",
    ("house", "children-visit"): "yes is bad news: a facility",
    ("house", "elder-or-disabled"): "somebody lives there",
    ("house", "zero-bedroom"): "somebody lives there",
    ("house", "assisted"): "24 CFR part 35 asks more",
    ("emergency", "until"): "over sooner than is presumed",
    ("occupancy", "from"): "days of the work that are not among them",
    ("occupancy", "until"): "days of the work that are not among them",
    ("emergency", "waived"): "left out beyond what it frees of",
    ("party", "unit"): "the unit of the job then",
    ("vacancy", "unit"): "the unit of the job then",
    ("notice", "work-from"): "not told is a warning",
    ("notice", "work-until"): "not told is a warning",
    ("notice", "language"): "what is held against the contract",
    ("notice", "of-change"): "the first notice then",
    ("certificate", "changed"): "a change that must be amended",
    ("certificate", "hands-on"): "no is bad news of a course that follows another one",
    ("certificate", "renewal-decided"): "the decision ends the old certificate",
    ("component", "removed"): "what comes off counts whole, and replaces a window",
    ("component", "room"): "the room it counts in",
    ("component", "opening"): "the opening it belongs to",
    ("component", "disturbed"): "over the limit",
    ("component", "whole"): "over the limit",
    ("opening", "replaced"): "a replaced opening needs all its parts listed",
    ("visit", "weekly-until"): "fewer visits",
    ("chip", "weight"): "a positive, and the loading is negative",
    ("chip", "result"): "a positive, and the weight is negative",
    ("chip", "composite"): "several chips in one",
    ("dust_sample", "result"): "a result that fails",
    ("dust_sample", "qualifier"): "over: and the number is below the level",
    ("dust_sample", "wipes"): "not said is one, as its help says: half of fewer",
    ("dust_sample", "time"): "not said is a warning",
    ("dust_sample", "blank"): "yes: it stands for no place",
    ("tick", "time"): "not said is a warning where samples wait for it",
    ("tick", "ground"): "the reason alone says it then",
    ("component", "affected"): "no: and nothing else is listed that the work touches",
    ("component", "painted"): "no: and nothing else is listed that the work touches",
    ("handover", "information"): "no is bad news; a record says it otherwise",
}


def lines_of(text):
    return text.splitlines(keepends=True)


def kind_of(line):
    return line.split()[1] if line.startswith("add ") else ""


def without_line(lines, i):
    return lines[:i] + lines[i + 1:]


def options_of(line):
    """(option, words before it, words after it) of a line."""
    words = line.rstrip("\n").split(" --")
    return [(w.split(" ", 1)[0], " --".join(words[:i] + words[i + 1:]) + "\n")
            for i, w in enumerate(words) if i > 0]


def number_of(line):
    words = line.split()
    return words[words.index("--number") + 1] if kind_of(line) == "certificate" and "--number" in words else ""


def bad_news(line, lines):
    """Somebody who lives where nobody was said to live is, too, and what was cleaned after samples."""
    words, _ = LINES.get(kind_of(line), ((), ""))
    if any("--discipline " + d in line for d in people.OF_COURSES) and "--hands-on" not in line:
        return True  # as one without
    if kind_of(line) == "certificate" and sum(number_of(other) == number_of(line) for other in lines) > 1:
        return True  # one number with two terms: it holds where both do
    kinds = {kind_of(other) for other in lines}
    news = ["--role occupant"] * ("vacancy" in kinds) + \
        ["--step margin", "--step walls"] * ("dust_sample" in kinds)
    return any(word in line for word in list(words) + news)


def over_before_it_began(line):
    """Of work whose end lies before its beginning neither is believed: less said contradicts nothing."""
    said = dict(zip(line.split(), line.split()[1:]))
    return kind_of(line) == "practice" and "" < said.get("--time", "") < said.get("--began", "")


def less_said(r, lines):
    """(what, lines): each line left out, and some of the options."""
    out = []
    needed = jobs.spoil.NEEDED
    for i, line in enumerate(lines):
        kind = kind_of(line)
        if kind in ("", "firm", "person"):
            continue
        if kind != "house" and not bad_news(line, lines):
            out.append(("line " + line.strip(), without_line(lines, i)))
        for option, rest in options_of(line):
            bad = (kind, option) in OPTIONS or over_before_it_began(line)
            if option.replace("-", "_") in needed[kind] or bad or r.random() > 0.2:
                continue
            out.append(("--%s of %s" % (option, line.strip()), lines[:i] + [rest] + lines[i + 1:]))
    return out


RIVALS = ("--year-built 1926", "--year-built 1990", "--owner-occupied yes", "--owner-occupied no",
          "--building dwelling", "--building facility", "--building other --children-visit no",
          "--building other --visits-all-by office",
          "--for-compensation no", "--child-under-6 no --elder-or-disabled yes")


def with_option(line, said):
    words = said.split()
    for option, word in zip(words[::2], words[1::2]):
        rest = [new for name, new in options_of(line) if "--" + name == option]
        line = (rest[0] if rest else line).rstrip("\n") + " %s %s\n" % (option, word)
    return line


def other_houses(lines):
    """(what, lines): another device says something else of the house."""
    i = next(n for n, line in enumerate(lines) if kind_of(line) == "house")
    if any(line.startswith("device") for line in lines):
        return []
    return [("another device says " + said,
             lines[:i + 1] + ["device tablet\n", with_option(lines[i], said)] + lines[i + 1:])
            for said in RIVALS]


def on_day(lines, day):
    return [("today %s\n" % day if line.startswith("today") else line) for line in lines]


def other_days(text, lines, answers):
    """(what, question, lines): days on which a yes of today cannot be one."""
    job = next(facts.read_jobs(io.StringIO(text)))
    out = []
    if answers["rule"] == "no" or len(job.all("house")) > 1:
        return out
    firm = [c for c in job.all("certificate", holder="firm") if c.renewal_sent is None]
    looks = [v.on for v in job.all("verification", event="look-clean")]
    looks += [s.on for s in job.all("dust_sample")]
    folded = [t.on for t in job.all("tick", step="sheeting", state="done")]
    completed = [c.on for c in job.all("completion")]
    days = [("demo", job.house.start - DAY, "before the start")]
    if not job.all("emergency"):
        for c in firm:
            days += [("demo", day, "beside the firm's certificate") for day in (c.expires + DAY, c.issued - DAY)
                     if not any(o.issued <= day <= o.expires for o in firm)]
    sheeted, folding = ([(t.on, t.time or 0) for t in job.all("tick", state="done") if t.step in steps]
                        for steps in (("floor-sheet", "ground-sheet"), ("sheeting",)))
    anew = bool(sheeted and folding) and max(sheeted) > min(folding)
    if len(folded) == len(job.all("area")) and not job.all("tick", state="undone") \
            and not job.all("emergency") and not anew:
        days += [("demo", max(folded + looks) + DAY, "after the containment was folded")]
    days += [("demo", max(c, job.today) + DAY, "after the completion") for c in completed]
    days += [("signs", min(looks) - DAY, "before anybody looked or sampled")] if looks else []
    days += [("handover", min(completed) - DAY, "before the completion")] if completed else []
    days += [("inspection", min(completed) - DAY, "before the completion")] if completed else []
    return [("%s (%s)" % (why, day), q, on_day(lines, day)) for q, day, why in days
            if answers[q] == "yes"]


# ---- asking ------------------------------------------------------------------------------------------------

def ask(path, variants):
    """The answers to each of many texts, given as lines."""
    text = []
    for n, lines in enumerate(variants):
        text += ["job %d\n" % n] + lines[1:]
    out = [None] * len(variants)
    for line in program.run(path, "".join(text)):
        number, *words = line.split()
        out[int(number)] = dict(w.split("=") for w in words)
    return out


def better(before, after):
    """Questions that are answered better than before."""
    if before["rule"] == "yes" and after["rule"] == "no":
        return ["rule"]
    return [q for q in QUESTIONS if before[q] == "no" and after[q] == "yes"]


def one_job(path, seed, number):
    """Violations of one job: (property, what, questions)."""
    text = jobs.job(seed, number)
    lines = lines_of(text)
    r = random.Random("%d/%d/properties" % (seed, number))
    answers = ask(path, [lines])[0]
    less, houses = less_said(r, lines), other_houses(lines)
    days = other_days(text, lines, answers)
    variants = [v[-1] for v in less + houses + days]
    found = ask(path, variants) if variants else []
    out = []
    for name, group in (("a", less), ("b", houses)):
        for what, _ in group:
            after = found.pop(0)
            wrong = better(answers, after)
            if wrong:
                out.append((name, what, wrong))
    for what, question, _ in days:
        after = found.pop(0)
        if after["rule"] == "yes" and after[question] == "yes":
            out.append(("c", what, [question]))
    return out


def chunk(work):
    path, seed, numbers = work
    return [(n, v) for n in numbers for v in one_job(path, seed, n)]


def check(a):
    found = list(program.of_chunks(a, CHUNK, chunk))
    for number, (name, what, wrong) in found[:a.show]:
        print("-- job %d of seed %d, property %s: better %s: %s"
              % (number, a.seed, name, ", ".join(wrong), what))
    count = {name: sum(v[0] == name for _, v in found) for name in "abc"}
    print("%d jobs of seed %d: property a broken %d times, b %d, c %d"
          % (a.jobs - a.first, a.seed, count["a"], count["b"], count["c"]))
    return 1 if found else 0
