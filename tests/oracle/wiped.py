"""One wipe of a made-up job after another: results below a level and at it, and what is cleaned again."""
from datetime import date

from draft import move

NEW = date(2026, 1, 12)
LEVELS = {"floor": (5, 10), "sill": (40, 100), "trough": (100, 400)}
CLEANED_BY = {"floor": ("mop",), "sill": ("surfaces",), "trough": ("surfaces",)}
NUMBERS = ("result", "mass", "length", "width", "wipes", "qualifier")


def level(surface, on):
    return LEVELS[surface][on < NEW]


def unsay(fact):
    """Its numbers, before others are said."""
    for option in NUMBERS:
        fact.pop(option, None)
    return fact


def again(d, r, area, surface, on, outside=None):
    """Cleaned again the next day, as far as it lies, and when it is sampled."""
    on = move(on, 1)
    for step in CLEANED_BY[surface] if outside is None else ("margin",):
        said = {"measured": r.choice((outside, outside, "2", "40"))} if outside else {}
        d.add("tick", area=area["id"], step=step, person="lee", renovator="rosa", on=on,
              time="09:00", state="done", **said)
    return on, r.choice(("10:00", "11:30"))


def wipe(d, area, surface, place, on, at, **said):
    said = {"required": "yes", **said}
    d.add("dust_sample", area=area["id"], place=place, surface=surface, sampler=d.sampler,
          laboratory="Sample Lab", nllap="yes", on=on, time=at, **said)


def capitals(r, place):
    """The same place in other letters."""
    return r.choice((place,) * 4 + (place.upper(), place.capitalize()))


def of_several(r, most, wipes):
    """So much in each half of a composite: as reported, or the mass of all wipes together, each of half a foot."""
    if r.random() < 0.7:
        return {"result": "%g" % round(most * 2 / wipes, 2), "wipes": wipes}
    return {"mass": "%g" % round(most, 2), "length": "12", "width": "6", "wipes": wipes}


def passes(r, surface, on, wipes=None):
    """A result below the level: as reported, by its bound, by mass and area, of a composite."""
    most = level(surface, on)
    if wipes:
        return of_several(r, most - 0.4, wipes)
    kind = r.randrange(10)
    if kind == 0:
        return {"mass": "%d.9" % (most - 1), "length": "12", "width": "12"}
    if kind == 1:  # a quarter of a square foot
        return {"mass": str((most - 1) / 4), "length": "6", "width": "6"}
    if kind == 2:
        return of_several(r, most - 0.4, r.choice((2, 3, 4)))
    if kind == 3:  # the mass of all wipes together
        wipes = r.choice((2, 4))
        return {"mass": str((most - 1) * 2 / 4), "length": "6", "width": "6", "wipes": wipes}
    if kind == 4:  # less than the level on a square foot
        return r.choice(({"mass": "<%d" % most}, {"mass": str(most), "qualifier": "under"})) | {
            "length": "12", "width": "12"}
    return {"result": r.choice(("%d.9" % (most - 1), "1.5", "<%d" % most, "<2"))}


def fails(r, surface, on, wipes=None):
    """At the level or over it."""
    most = level(surface, on)
    if wipes is None and r.random() < 0.2:
        wipes = r.choice((2, 4))  # in one place
    if wipes:
        return of_several(r, most, wipes)
    return r.choice(({"result": str(most)}, {"result": ">%d" % most}, {"result": "%d.5" % most},
                     {"mass": r.choice((">%d", "%d")) % most, "length": "12", "width": "12"},
                     {"mass": str(most), "length": "12", "width": "12", "qualifier": "over"}))
