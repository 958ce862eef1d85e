"""Work in a building of several units that begins in one of them, or in what is common, later than elsewhere; and
whom that is told to then."""
from draft import move

WORK = ("tick", "practice", "verification", "dust_sample")


def shift(d, areas, by):
    """What was done there, so many days later."""
    for f in d.all(*WORK):
        if f.get("area") in areas and "on" in f:
            f["on"] = move(f["on"], by)
    last = max([f["on"] for f in d.all(*WORK) if "on" in f], default=d.end)
    for f in d.all("completion", "certification", "invoice", "handover"):
        f["on"] = max(f["on"], last)
    d.end = max(d.end, last)


def where(d, r):
    """One area, and those of its unit: most of them in a unit."""
    area = r.choice([a for a in d.areas if a["side"] == "interior"] or d.areas)
    unit = area.get("unit") or d.unit
    return [a["id"] for a in d.areas if a.get("common") == area.get("common") and (a.get("unit") or d.unit) == unit], \
        "units" if area.get("common") == "yes" else "tenant-" + unit


def told_again(d, r, name, by):
    """Its people, and perhaps the owner, are told once more or only then."""
    for party in (name, "owner"):
        for n in [n for n in d.all("notice") if n["party"] == party]:
            more = {k: v for k, v in n.items() if k != "entry"}
            on = move(d.start, by - r.choice((0, 1, 1, 3, 7, 60)))
            more.update(on=on, **({"signed_on": on} if "signed_on" in n else {}))
            if r.random() < (0.6 if party == name else 0.7):
                d.add("notice", **more)
                if party == name and r.random() < 0.5:
                    d.facts.remove(n)


def begins_later(d, r):
    areas, name = where(d, r)
    by = r.choice((1, 1, 2, 5, 20, 59, 61))
    shift(d, areas, by)
    if r.random() < 0.8:
        told_again(d, r, name, by)


def still_to_come(d, r):
    """Nothing is done there yet, but perhaps planned."""
    areas, name = where(d, r)
    if r.random() < 0.4:
        d.facts[:] = [f for f in d.facts if f["entry"] != "completion"]
    gone = ("practice", "verification") if r.random() < 0.6 else ("practice",)
    clean = r.random() < 0.6
    d.facts[:] = [f for f in d.facts if f.get("area") not in areas or not (
        f["entry"] in gone or (clean and f["entry"] == "tick"))]
    if r.random() < 0.5:
        d.add("practice", area=areas[0], method="hand", person="lee", planned="yes", on=move(d.start, r.choice((0, 1, 2, 5, 30))))
    if r.random() < 0.6:
        told_again(d, r, name, r.choice((1, 2, 5)))


def empty_from(d, r):
    """Its people have gone since some day, or were never there."""
    areas, name = where(d, r)
    unit = name.removeprefix("tenant-")
    if name == "units":
        return
    by = r.choice((0, 1, 2))
    shift(d, areas, by)
    d.facts[:] = [f for f in d.facts if f.get("party") != name and f.get("id") != name]
    d.add("vacancy", unit=unit, on=move(d.start, by + r.choice((-1, 0, 0, 1))), said_by="the owner")


WAYS = ((begins_later, 6), (still_to_come, 3), (empty_from, 2))
