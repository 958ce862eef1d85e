"""A job as plain facts, read from lines of text:

    job 17
    today 2026-09-14
    add house --id J-1 --year-built 1926 ...
    device tablet
    add house --id J-1 --year-built 1980 ...
    clock 2026-09-14T16:00:00Z -240        when it is where it is asked, and how far its zone is ahead
    logged 2026-09-14T12:09:00Z            when the next line was

A fact is what one line says, by option; what it does not say is None. Nothing
is judged here. Numbers are exact fractions, days are dates, yes and no stay
words.
"""
import datetime
import itertools
import re
import unicodedata
from fractions import Fraction

DAY = datetime.timedelta(days=1)

DATES = {
    "on", "signed-on", "issued", "expires", "renewal-sent", "renewal-decided", "changed",
    "amended", "start", "end", "called-off", "born", "weekly-until", "work-from", "work-until",
    "from", "until",
}
NUMBERS = {
    "year-built", "disturbed", "whole", "line", "size", "measured", "minutes", "section",
    "temp", "composite", "storeys", "storey", "length", "width", "mass", "wipes",
    "spot", "margin", "outside", "value", "built-before",
}
# Days that cannot lie in the future when they are logged: a book asked for an earlier
# day does not have the line yet.
LOGGED_AFTER = {
    "certificate": ("issued",),
    "notice": ("on", "signed-on"), "training": ("on",), "tick": ("on",), "practice": ("on",),
    "verification": ("on",), "dust_sample": ("on",), "completion": ("on",), "invoice": ("on",),
    "handover": ("on",), "certification": ("on",), "kit_test": ("on",), "chip": ("on",),
    "determination": ("on",), "reading": ("on",), "owner_record": ("on",), "emergency": ("on",), "vacancy": ("on",), "visit": ("born",),
}

# A device refuses a second one; two devices may have logged one each.
ONCE = ("house", "completion", "invoice", "occupancy")

# What befell a thing later on: on a day before, it is not said of it.
SAID_LATER = {"certificate": ("renewal-sent", "renewal-decided", "changed", "amended"), "house": ("called-off",), "area": ("called-off",)}


def once(fn):
    """A question asked of a job has one answer: it is worked out once."""
    def asked(job, *args):
        key = (fn, args)
        if key not in job.known:
            job.known[key] = fn(job, *args)
        return job.known[key]
    asked.__doc__ = fn.__doc__
    return asked


def date(text):
    return datetime.date.fromisoformat(text)


def minute(text):
    return int(text[:2]) * 60 + int(text[3:])


def parts_per_million(text):
    return Fraction(text[:-1]) * 10000 if text.endswith("%") else Fraction(text)


def value(option, text):
    if text == "none" and option != "cloth":
        return None
    if option in DATES:
        return date(text)
    if option in NUMBERS:
        return Fraction(text)
    if option in ("time", "began"):
        return minute(text)
    if option == "weight":
        return parts_per_million(text)
    return text


class Fact(dict):
    """One line; fact.on, fact.signed_on: None when it was not said."""

    def __getattr__(self, name):
        return self.get(name.replace("_", "-") if "_" in name else name)

    __hash__ = object.__hash__

    def __eq__(self, other):
        return self is other

    def ids(self, option):
        return [x for x in (self.get(option) or "").split(",") if x]

    def logged_by(self, today):
        days = [self.get(option) for option in LOGGED_AFTER.get(self.entry, ())]
        return all(day is None or day <= today for day in days)

    def said_by(self, today):
        """The line without what befell it after the day."""
        later = [o for o in SAID_LATER.get(self.entry, ()) if self.get(o) is not None and self[o] > today]
        return Fact({o: said for o, said in self.items() if o not in later}) if later else self

    def when(self):
        """Day and minute; a line without a time sorts first on its day."""
        return (self.on, -1 if self.time is None else self.time)


class Job:
    """The lines of one job by kind: job.all("tick")."""

    def __init__(self, number, today, facts, text=""):
        self.number, self.today, self.facts, self.text = number, today, facts, text
        self.by_kind, self.known = {}, {}
        for fact in facts:
            self.by_kind.setdefault(fact.entry, []).append(fact)

    def all(self, entry, /, **said):
        """Lines of a kind that say this of their options."""
        key = (entry, tuple(said.items()))
        if key not in self.known:
            self.known[key] = [fact for fact in self.by_kind.get(entry, ())
                               if all(fact.get(option.replace("_", "-")) == word
                                      for option, word in said.items())]
        return self.known[key]

    def one(self, entry, /, **said):
        found = self.all(entry, **said)
        return found[-1] if found else None

    @property
    def house(self):
        return self.one("house")

    def as_of_today(self):
        """The job as the book has it today."""
        kept = [fact.said_by(self.today) for fact in self.facts if fact.logged_by(self.today)]
        return Job(self.number, self.today, kept, self.text)

    def each_device(self):
        """One job for each way to take what devices say differently of what there is once."""
        said = []
        for entry in ONCE:
            differing = []
            for fact in self.all(entry):
                if dict(fact) not in [dict(f) for f in differing]:
                    differing.append(fact)
            said.append(differing or [None])
        others = [fact for fact in self.facts if fact.entry not in ONCE]
        return [Job(self.number, self.today, others + [fact for fact in chosen if fact], self.text)
                for chosen in itertools.product(*said)]


WORD = re.compile(r'"([^"]*)"|(\S+)')
SIGNS = ("exact", "under", "over")  # of two that are said of one sample the later of these counts


def say_of_dust(fact, option, text):
    """A number with its sign, or the word for it."""
    sign = text if option == "qualifier" else {"<": "under", ">": "over"}.get(text[0], "exact")
    fact["qualifier"] = max(fact.qualifier or "exact", sign, key=SIGNS.index)
    if option != "qualifier":
        fact[option] = Fraction(text.lstrip("<>"))


def alike(text):
    """The name of a room as people mean it: capitals, accents, blanks and dashes make no other room."""
    return "".join(c for c in unaccented(text) if c.isalnum())


def unaccented(text):
    return "".join(c for c in unicodedata.normalize("NFD", (text or "").casefold()) if not unicodedata.combining(c))


def read_fact(line):
    words = [quoted or plain for quoted, plain in WORD.findall(line)]
    fact = Fact(entry=words[1])
    for option, text in zip(words[2::2], words[3::2]):
        option = option[2:]
        if fact.entry == "dust_sample" and option in ("result", "mass", "qualifier"):
            say_of_dust(fact, option, text)
        elif option == "value" and fact.entry == "local_limit":
            fact[option] = Fraction(text)
        elif option == "result" and fact.entry in ("chip", "reading"):
            fact[option] = Fraction(text)
        else:
            fact[option] = value(option, text)
    return fact


def utc(stamp):
    """Minutes of what is said of UTC."""
    return date(stamp[:10]).toordinal() * 1440 + minute(stamp[11:16])


def read_jobs(lines):
    """Yields every job of a text."""
    number, today, facts, text, logged = None, None, [], [], None
    for line in lines:
        word = line.split(" ", 1)[0].strip()
        if word == "job":
            if number is not None:
                yield Job(number, today, facts, "".join(text))
            number, today, facts, text = int(line.split()[1]), None, [], []
        elif word == "today":
            today = date(line.split()[1])
        elif word == "add":
            facts.append(read_fact(line))
            if logged is not None:
                facts[-1]["logged"], logged = logged, None
        elif word == "logged":
            logged = utc(line.split()[1])
        elif word == "clock":
            facts.append(Fact(entry="clock", now=utc(line.split()[1]), ahead=int(line.split()[2])))
        text.append(line)
    if number is not None:
        yield Job(number, today, facts, "".join(text))
