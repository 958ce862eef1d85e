"""Made-up jobs that are right but for one thing, which few others meet: a time at the very minute, a day that is the
last of two things at once, entries in another order than their times. Each is drawn from a stream of its own."""
import random

from draft import move, pick


class Edge:
    """What the job must be for it, and what is done to it."""

    def __init__(self, way, stage=None, **wants):
        self.way, self.stage, self.wants = way, stage or ("working", "verified", "completed", "handed-over"), wants

    def made(self, r, correct):
        """A job that it changes; else, after some, one that it does not."""
        for _ in range(5):
            d = correct(r, r.choice(self.stage), **self.wants)
            for work in d.all("practice"):  # nothing else is wrong with it
                work.update(began="08:05", time="12:50")
            before = d.text()
            self.way(d, r)
            if d.text() != before:
                break
        if d.asked_on is None and r.random() < 0.85:
            d.asked_on = d.last_logged()
        return d


def edge(seed, number):
    """One job in four has one: (it, its stream), or (None, None)."""
    r = random.Random("%d/%d/edges" % (seed, number))
    if r.random() >= 0.25:
        return None, None
    return r.choices([e for e, _ in EDGES], [n for _, n in EDGES])[0], r


def at(minutes):
    return "%02d:%02d" % divmod(minutes, 60)


def minutes(time):
    return int(time[:2]) * 60 + int(time[3:])


# ---- clocks ------------------------------------------------------------------------------------------------

def logged_before(d, r):
    """One thing was logged before its time, by minutes, or by an hour on the day on which clocks are set."""
    timed = [f for f in d.all("tick", "practice", "verification", "dust_sample") if f.get("time")]
    if not timed:
        return
    d.asked_on, ahead = d.last_logged(), r.choice((0, -240, 330))
    d.clock = (d.asked_on, 23 * 60 + 50 - ahead, ahead)
    if r.random() < 0.2:  # what is said of the last day is still to come
        d.clock = (d.asked_on, r.choice((13, 15, 16)) * 60 - ahead, ahead)
    for fact in r.sample(timed, min(3, len(timed))):
        before = r.choice((-30, 0, 5)) if r.random() < 0.6 else r.choice((6, 30, 65, 66, 120))
        fact["_stamp"] = (fact["on"], minutes(fact["time"]) - before - ahead)


# ---- days ----------------------------------------------------------------------------------------------------

def limit_after_the_end(d, r):
    """Nothing is begun yet when the planned end is over and a stricter limit of small areas holds."""
    d.house["place"] = "US-OH"
    limit, value = r.choice((("minor-interior", "2"), ("minor-exterior", "10"), ("paint-weight", "2500")))
    d.add("local_limit", limit=limit, value=value, place="US-OH", status="verified", citation="its own text",
          **{"from": r.choice((d.start, d.end, move(d.end, 1), move(d.end, 1), move(d.end, 2)))})
    d.asked_on = move(d.end, r.choice((0, 1, 2, 3)))


def changed_and_ended(d, r):
    """The firm's certificate was not amended after a change, and ends on the day on which all was done."""
    day = d.last_logged()
    for c in d.all("certificate"):
        if c["holder"] == "firm":
            c.update(expires=move(day, r.choice((0, 0, 0, 1))), changed=move(day, -r.choice((90, 91, 91, 95))))
            c["issued"] = min(c["issued"], move(c["changed"], -1))
    d.asked_on = day


# ---- within a day --------------------------------------------------------------------------------------------

CONTAINS = ("isolate", "egress", "objects", "ducts", "windows-closed", "doors-closed", "doors-used", "floor-sheet",
            "windows-outside", "doors-outside", "openings-below", "ground-sheet", "line-containment")


def up_at_the_minute(d, r):
    """Down since the day before, or since no hour that is said, and up again in the minute in which work began or ended."""
    work = pick(d, r, "practice")
    found = [t for t in d.all("tick") if work and t["area"] == work["area"] and t["state"] == "done"
             and t["step"] in CONTAINS + ("signs", "signs-language")]
    if not found or not work.get("time"):
        return
    fact, sign = r.choice(found), r.random() < 0.25
    if sign:
        fact = r.choice([t for t in found if t["step"].startswith("signs")] or found)
    elif r.random() < 0.6:
        work.pop("began", None)
    same = {k: v for k, v in fact.items() if k not in ("entry", "time")}
    fell = {**same, "state": "undone", "reason": "it came loose", "on": work["on"], "time": None, "_logged": "07:59"}
    if not sign and r.random() < 0.7:
        fact["on"] = min(fact["on"], move(work["on"], -1))
        fell.update(on=move(work["on"], -1), time="18:00", _logged="18:00")
    fell.pop("measured", None)
    d.add("tick", **fell)
    back = minutes(work.get("began") or work["time"]) + r.choice((-1, 0, 0, 0, 1))
    d.add("tick", **{**same, "on": work["on"], "time": at(back)})


def set_up_late(d, r):
    """The hours of the work are not said, but those of its waste; something that contains it was set up about then."""
    from helped import no_work_on_the_last_day
    no_work_on_the_last_day(d)  # it is for the cleaning
    area = pick(d, r, "area")
    first = [t for t in d.all("tick") if t["area"] == area["id"] and t["step"] in CONTAINS and t["state"] == "done"]
    for p in d.all("practice"):
        if p["area"] == area["id"]:
            p.pop("time", None)
            p.pop("began", None)
    waste = [t for t in d.all("tick") if t["area"] == area["id"] and t["step"] == "waste-contained"]
    if first and waste:
        t, undone = r.choice(first), r.random() < 0.3
        t.update(time=r.choice(("13:09", "13:11", "13:11", "13:25", "13:40")), on=waste[0]["on"])
        if undone:  # what was found open is no waste of that hour
            waste[0].update(state="undone", reason="bags open")
            again = {k: v for k, v in waste[0].items() if k not in ("entry", "reason")}
            d.add("tick", **{**again, "state": "done", "time": "13:15"})


def contained_anew(d, r):
    """Cleaned, perhaps verified, and contained once more for what is still to do; a step of it was forgotten, or laid
    too soon."""
    area, day = pick(d, r, "area"), d.last_logged()
    steps = [t for t in d.all("tick") if t["area"] == area["id"] and t["on"] <= d.start and t["time"] < "08:00"]
    on = move(day, r.choice((0, 1, 1)))
    for t in steps:
        again = {k: v for k, v in t.items() if k != "entry"}
        again.update(on=on, time=r.choice(("20:30", "20:30", "20:45")))
        if r.random() > 0.3 / len(steps):
            d.add("tick", **again)
        elif r.random() < 0.5:
            d.add("tick", **{**again, "on": day, "time": r.choice(("13:50", "14:10", "14:50"))})
    d.asked_on = on
    if r.random() < 0.3:
        d.add("practice", area=area["id"], method="hand", person="lee", on=on, began="21:00", time="21:30")


# ---- samples and looks ---------------------------------------------------------------------------------------

def failed_that_day(d, r):
    """One place failed, was cleaned and sampled again on one day; logged in another order than the times say."""
    fact = pick(d, r, "dust_sample")
    if fact is None or fact.get("blank") or fact.get("outside"):
        return
    same = {k: v for k, v in fact.items() if k not in ("entry", "mass", "length", "width", "wipes", "qualifier")}
    d.add("dust_sample", **{**same, "result": "900", "time": "16:05", "_logged": r.choice(("16:05", "~"))})
    d.add("tick", area=fact["area"], step="mop" if fact["surface"] == "floor" else "surfaces", person="lee",
          renovator="rosa", on=fact["on"], time=r.choice(("16:30", "16:30", "17:30")), state="done")
    fact.update(time=r.choice(("17:30", "17:31", "17:30", None)), _logged=r.choice(("16:00", "~", "17:30")))


def looked_at_one_thing(d, r):
    """Who clears looked at one sill, or one floor, and not at the place; or saw dust on it."""
    inside = [a["id"] for a in d.areas if a["side"] == "interior"]
    looks = [v for v in d.all("verification") if v["person"] == d.sampler and v["area"] in inside]
    if not looks:
        return
    look = r.choice(looks)
    surface = [s["id"] for s in d.all("surface") if s["area"] == look["area"]]
    same = {k: v for k, v in look.items() if k != "entry"}
    if surface and r.random() < 0.5:
        look["surface"] = r.choice(surface)
    elif surface:
        d.add("verification", **{**same, "event": r.choice(("look-dirty", "look-dirty", "look-clean")),
                                 "surface": r.choice((*surface, None)), "time": r.choice(("15:25", "15:40", same["time"]))})
        if r.random() < 0.5:
            d.facts.remove(look)
            d.facts.append(look)


# ---- of one moment -------------------------------------------------------------------------------------------

OTHERWISE = {
    "tick": lambda r, f: r.choice(({"state": "undone", "reason": "it came loose"}, {"person": "omar"}, {"measured": "1"}
                                   if "measured" in f else {"renovator": "lee"})),
    "verification": lambda r, f: {"event": r.choice({"look-clean": ("look-dirty", "look-clean"), "look-dirty": ("look-clean",),
                                                     "wet-match": ("wet-darker",), "wet-darker": ("wet-match",)}.get(
                                                         f["event"], (f["event"],)))},
    "dust_sample": lambda r, f: r.choice(({"result": "900"}, {"result": "900", "required": "no"}, {"nllap": "no"}, {"sampler": "kim"})),
    "practice": lambda r, f: r.choice(({"method": "open-flame"}, {"person": "kim"}, {"began": None}, {"time": None})),
    "notice": lambda r, f: r.choice(({"tells_dates": "no"}, {"receipt": "no"}, {"signer": None}, {"language": "es"}, {"statement": "no"})),
    "handover": lambda r, f: r.choice(({"information": "no"}, {"what": "a letter"}, {"dust_report": "no"})),
    "training": lambda r, f: r.choice(({"topics": "signs"}, {"trainer": "kim"})),
    "certificate": lambda r, f: r.choice(({"number": "C-2"}, {"number": None}, {"expires": move(f["issued"], 30)})),
    "assignment": lambda r, f: {"person": r.choice(("omar", "kim", "rosa"))},
    "certification": lambda r, f: {"person": r.choice(("omar", "lee"))},
}


def twice(d, r):
    """Logged twice of one moment, before or after it, and once otherwise."""
    fact = pick(d, r, r.choice(("tick", "verification", "verification", "dust_sample", *OTHERWISE)))
    if fact is None:
        return
    numbers = ("mass", "length", "width", "wipes", "qualifier")
    other = {k: v for k, v in fact.items() if k not in (("entry", *numbers) if fact["entry"] == "dust_sample" else ("entry",))}
    other = {**other, **OTHERWISE[fact["entry"]](r, fact)}
    d.add(fact["entry"], **other)
    if r.random() < 0.5:  # the one as it should be is logged last
        d.facts.remove(fact)
        d.facts.append(fact)


def in_one_minute(d, r):
    """Two things of one area in the same minute, which came one after the other."""
    fact = pick(d, r, "tick", "verification", "dust_sample", "practice")
    others = [f for f in d.all("tick", "verification", "dust_sample", "practice")
              if fact and f is not fact and f["area"] == fact["area"] and f["on"] == fact["on"] and f.get("time")]
    if others:
        other = r.choice(others)
        fact["time"] = other["began"] if other.get("began") and r.random() < 0.5 else other["time"]
        if fact.get("began") and r.random() < 0.5:
            fact["began"] = fact["time"]


# ---- papers --------------------------------------------------------------------------------------------------

def signed_in_both_languages(d, r):
    """An occupant signed in one language before the work began anywhere, and in another before it began in the unit."""
    area = next((a for a in d.areas if a.get("common") != "yes" and a["side"] == "interior"), None)
    unit = area and (area.get("unit") or d.unit)
    first = next((n for n in d.all("notice") if n["party"] == "tenant-%s" % unit), None)
    if first is None:
        return
    from unitwise import shift
    d.house.update(language="en", owner_occupied="yes")
    shift(d, [area["id"]], 3)
    for k in ("receipt", "how", "deliverers", "reason"):
        first.pop(k, None)
    first.update(method="acknowledged", signer=first["party"].title() + " Sample", states_receipt="yes",
                 unit="12 Sample Lane, %s" % unit, language=r.choice(("es", "es", "en")))
    early, late = move(d.start, -3), move(d.start, r.choice((1, 2)))
    first.update(on=early, signed_on=early)
    more = {k: v for k, v in first.items() if k != "entry"}
    d.add("notice", **{**more, "on": late, "signed_on": late, "language": r.choice(("en", "en", "es"))})


def topics_with_blanks(d, r):
    """Blanks and signs at the end of the list, and one topic fewer."""
    for t in d.all("training"):
        names = ["signs", "containment", "practices", "waste", "cleaning"]
        if r.random() < 0.7:
            names.remove(r.choice(names))
        t["topics"] = r.choice(("; ", " , ", " ;")).join(names) + r.choice((" ", "; ", " ;; "))


EDGES = (
    (Edge(logged_before), 8),
    (Edge(limit_after_the_end, stage=("planned", "contained")), 4),
    (Edge(changed_and_ended, days=(0,), stage=("contained", "working", "working", "handed-over")), 5),
    (Edge(up_at_the_minute, stage=("working", "completed", "handed-over")), 10),
    (Edge(set_up_late, stage=("working", "completed", "handed-over", "handed-over"), days=(1, 2)), 7),
    (Edge(contained_anew, stage=("cleaned", "verified")), 8),
    (Edge(failed_that_day, stage=("verified", "completed"), dust=1), 8),
    (Edge(looked_at_one_thing, stage=("verified",), dust=1, helps=1, case=("rented", "owned")), 8),
    (Edge(signed_in_both_languages, stage=("working", "completed"), case=("unit-and-common",)), 5),
    (Edge(topics_with_blanks), 3),
    (Edge(twice), 14),
    (Edge(in_one_minute), 10),
)
