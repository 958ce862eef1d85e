"""A made-up job while it is being made: lines by kind and option."""
from datetime import date, datetime, time, timedelta

# Kinds in the order they are written; within one kind by day and time, as they were logged.
BY_DAY = ("tick", "practice", "verification", "dust_sample", "notice", "handover", "training")


def word(text):
    text = text.isoformat() if isinstance(text, date) else str(text)
    return '"%s"' % text if " " in text or text == "" else text


def pick(d, r, *entries):
    found = d.all(*entries) if entries else d.facts
    return r.choice(found) if found else None


def move(day, n):
    return day + timedelta(days=n)


def stamp(day, minutes):
    """UTC, of a day and its minutes, which may lie beyond it."""
    return (datetime.combine(day, time()) + timedelta(minutes=minutes)).strftime("%Y-%m-%dT%H:%M:%SZ")


class Draft:
    def __init__(self, start, more_days, wants=None):
        self.wants, self.asked_on, self.clock = wants or {}, None, None
        self.start, self.end = start, start + timedelta(days=more_days)
        self.facts, self.floor, self.house, self.areas, self.rival = [], {}, {}, [], None
        self.further_tells = ("yes", "yes")

    def add(self, entry, **said):
        fact = dict(entry=entry, **said)
        self.facts.append(fact)
        if entry == "house":
            self.house = fact
        return fact

    def all(self, *entries):
        return [f for f in self.facts if f["entry"] in entries]

    def in_order(self):
        """Lines of one kind in the order of their days and times; some were logged first or last of
        their day ("_logged")."""
        rank = {}
        for f in self.facts:
            rank.setdefault(f["entry"], len(rank))

        def key(f):
            if "_before" in f:  # logged before all of that kind
                return (rank.get(f["_before"], 0) - 0.5, "", "")
            if f["entry"] not in BY_DAY:
                return (rank[f["entry"]], "", "")
            at = f.get("time") if "_logged" not in f else f["_logged"]
            return (rank[f["entry"]], str(f.get("on") or ""), str(at or ""))
        self.facts.sort(key=key)

    def last_logged(self):
        days = [f["on"] for f in self.facts if isinstance(f.get("on"), date) and
                f["entry"] not in ("assignment", "scope_change", "visit")]
        return max(days, default=self.start)

    def text(self):
        lines = [] if self.clock is None else ["clock %s %d\n" % (stamp(*self.clock[:2]), self.clock[2])]
        for f in self.facts:
            if "_stamp" in f:
                lines.append("logged %s\n" % stamp(*f["_stamp"]))
            lines.append(self.line(f))
            if f["entry"] == "house" and self.rival:
                lines.append("device tablet\n" + self.line(self.rival))
        return "".join(lines)

    @staticmethod
    def line(fact):
        said = " ".join("--%s %s" % (k.replace("_", "-"), word(v)) for k, v in fact.items()
                        if k != "entry" and k[0] != "_" and v is not None)
        return "add %s %s\n" % (fact["entry"], said)
