"""Dust samples of made-up jobs, 745.85(c), and what goes wrong with them."""
import joint
from draft import move, pick
from wiped import LEVELS, NUMBERS, capitals, fails, level, passes, unsay, wipe, again


def windows(area, letters="WX"):
    return [n for n in (area.get("openings") or "").split(",") if n[:1] in letters and n]


# ---- samples as they should be -------------------------------------------------------------------------

def sample(d, r, area, on):
    """The floor, in and outside it, and where there is a window a sill and a trough, of each room; some
    failed at first. The day of the last sample."""
    last, at = on, r.choice(("16:00", "16:00", "15:50", "17:30"))
    for surface, names in places(d, r, area):
        one = one_place if len(names) == 1 else joint.sample
        last = max(last, one(d, r, area, surface, names, on, at))
    if r.random() < 0.97:
        last = max(last, one_place(d, r, area, "floor", ["hall by " + area["id"]], on, at,
                                   outside=r.choice(("3", "3", "5", "2", "30"))))
    if r.random() < 0.3:
        wipe(d, area, "floor", "blank", on, at, blank="yes", result="<2")
    return last


def places(d, r, area):
    """What is sampled, and where: several places of one kind may be one sample."""
    rooms = sorted({o["room"] for o in d.all("opening") if o["id"] in windows(area, "WDX")} or {area["place"]})
    if len(rooms) == 1:
        floors = list(r.choice((("floor",), ("floor",), ("by the door", "middle"))))
    else:
        floors = [r.choice((room, room + " floor", room.upper())) for room in rooms]
    others = [a["place"] for a in d.areas if a is not area and a["side"] == "interior"]
    if others and r.random() < 0.08:  # by the name of a room that is not of this work area, alone or with its own
        floors[0] = r.choice(("%s", "%s floor", "%s and " + area["place"])) % r.choice(others)
    found = []
    for surface, names in (("floor", floors), ("sill", windows(area)), ("trough", windows(area))):
        if surface != "floor":
            names = [name + " " + surface for name in names]
        together = len(rooms) > 1 and r.random() < 0.5
        found += [(surface, some) for some in (joint.groups(r, names) if together else [[n] for n in names])]
    return found


def one_place(d, r, area, surface, names, on, at, **where):
    place = names[0]
    failures = r.choice((0,) * 8 + (1, 1, 2)) if d.floor[area["id"]] or surface != "floor" else 0
    for _ in range(failures):
        wipe(d, area, surface, place, on, at, **where, **fails(r, surface, on))
        on, at = again(d, r, area, surface, on, where.get("outside"))
        place = capitals(r, place)
    wipe(d, area, surface, place, on, at, **where, **passes(r, surface, on))
    return on


# ---- what goes wrong -------------------------------------------------------------------------------------

def numbers(d, r):
    """At a level, of this day or of the other."""
    fact = pick(d, r, "dust_sample")
    if fact is None:
        return
    edge = r.choice(LEVELS[fact["surface"]])
    unsay(fact)["result"] = r.choice(("%d" % edge, "%d.9" % (edge - 1), "<%d" % edge, "<%d" % (edge + 1),
                               ">%d" % (edge - 1)))


def signs(d, r):
    """Less or more than so much, of a result, of a mass, of both."""
    fact = pick(d, r, "dust_sample")
    if fact is None:
        return
    edge = level(fact["surface"], fact["on"])
    edge = r.choice((edge - 1, edge, edge, edge + 1))
    said = r.choice(({"mass": ">%d" % edge}, {"mass": "<%d" % edge}, {"mass": str(edge), "qualifier": "over"},
                     {"mass": str(edge), "qualifier": "under"}, {"result": str(edge), "qualifier": "over"},
                     {"result": str(edge), "qualifier": "under"}, {"result": ">%d" % edge, "mass": str(edge)},
                     {"mass": ">%d" % edge, "result": str(edge)}, {"result": str(edge), "mass": str(edge)}))
    unsay(fact).update({"length": "12", "width": "12"} if "mass" in said else {}, **said)


def composites(d, r):
    """Two to five wipes, at the level of as many."""
    fact = pick(d, r, "dust_sample")
    if fact is None:
        return
    wipes = r.choice((1, 2, 3, 4, 5))
    edge = r.choice(LEVELS[fact["surface"]]) * 2 / wipes
    unsay(fact)["wipes"] = wipes
    if r.random() < 0.5:
        fact["result"] = r.choice(("%g" % round(edge, 2), "%g" % round(edge - 0.1, 2), "<%g" % round(edge, 2)))
    else:
        fact.update(length="12", width="6", mass="%g" % round(r.choice((edge, edge - 0.1)) / 2 * wipes, 2))


def by_inches(d, r):
    """Mass and area, at the level; one of them not said."""
    fact = pick(d, r, "dust_sample")
    if fact is None:
        return
    edge = r.choice(LEVELS[fact["surface"]])
    unsay(fact).update(length=r.choice(("12", "24", "6")), width="6")
    fact["mass"] = "%g" % round(edge * int(fact["length"]) * 6 / 144 + r.choice((-0.1, 0, 0.1)), 2)
    if r.random() < 0.3:
        del fact[r.choice(("length", "width", "mass"))]


def times(d, r):
    """An hour and less after the cleaning, before it, not said, another day."""
    fact = pick(d, r, "dust_sample")
    if fact is None:
        return
    if r.random() < 0.6:
        fact["time"] = r.choice((None, "08:59", "09:59", "10:00", "14:50", "15:30", "15:49", "15:50",
                                 "15:59", "16:00"))
    else:
        fact["on"] = move(fact["on"], r.choice((-1, -1, 1)))


def words(d, r):
    """Not required, another laboratory, a blank, another place, another surface."""
    fact = pick(d, r, "dust_sample")
    if fact:
        fact.update(r.choice(({"required": "no"}, {"nllap": "no"}, {"blank": "yes"}, {"blank": "no"},
                              {"place": "by the stove"}, {"place": "kitchen and bath"}, {"place": "bath 2"},
                              {"place": "kitchen floor"}, {"place": "stair hall"}, {"wipes": 2, "place": "kitchen and bath"},
                              {"outside": r.choice((None, "3", "6", "30"))}, {"sampler": r.choice(("kim", "rosa", "omar", "dana"))},
                              {"surface": r.choice(("floor", "sill", "trough"))})))


def of_another_room(d, r):
    """Logged for one work area, by the name of a room or an opening of another one, alone or with its own."""
    fact = pick(d, r, "dust_sample")
    others = [a for a in d.areas if fact and a["id"] != fact["area"]
              and (a["side"] == "interior" or r.random() < 0.2)]
    if others:
        area = r.choice(others)
        own = [a["place"] for a in d.all("area") if a["id"] == fact["area"]]
        names = [area["place"]] + [n for n in (area.get("openings") or "").split(",") if n]
        fact["place"] = r.choice(("%s", "%s floor", "%s and " + own[0])) % r.choice(names)


def several_in_one(d, r):
    """Two samples that are one, of as many wipes, or of one."""
    fact = pick(d, r, "dust_sample")
    found = [f for f in d.all("dust_sample") if fact and f is not fact and f["area"] == fact["area"]
             and f["surface"] == fact["surface"] and f.get("outside") == fact.get("outside") and "blank" not in f]
    if found:
        other = r.choice(found)
        fact["place"] = "%s and %s" % (fact["place"], other["place"])
        unsay(fact).update(r.choice((passes, fails))(r, fact["surface"], fact["on"], r.choice((2, 2, None))))
        if r.random() < 0.8:
            d.facts.remove(other)


def in_capitals(d, r):
    """A place or a room in other letters."""
    fact = pick(d, r, r.choice(("dust_sample", "dust_sample", "opening", "component", "area")))
    option = fact and next((o for o in ("place", "room") if fact.get(o)), None)
    if option:
        fact[option] = r.choice((str.upper, str.capitalize))(fact[option])


def failed_too(d, r):
    """One more sample that fails, of the same place or another, before or after."""
    fact = pick(d, r, "dust_sample")
    if fact is None:
        return
    more = {k: v for k, v in fact.items() if k not in ("entry", *NUMBERS)}
    more["result"] = ">%d" % level(fact["surface"], fact["on"])
    more["on"] = move(fact["on"], r.choice((-1, 0, 0, 1)))
    more["time"] = r.choice((None, "08:00", "15:55", fact.get("time"), "18:00"))
    if r.random() < 0.3:
        more["place"] = "under the table"
    if r.random() < 0.3:
        more["required"] = "no"
    d.add("dust_sample", **more)


def cleaned_again(d, r):
    """Something is cleaned again after the samples, or the cleaning between them is gone."""
    fact = pick(d, r, "dust_sample")
    if fact is None:
        return
    last = max(f["on"] for f in d.all("dust_sample") if f["area"] == fact["area"])
    ticks = [t for t in d.all("tick") if t["area"] == fact["area"] and t["step"] in ("mop", "surfaces")
             and t["on"] > d.end]
    if ticks and r.random() < 0.6:
        tick = r.choice(ticks)
        if r.random() < 0.4:
            d.facts.remove(tick)
        else:
            tick.update(r.choice(({"time": None}, {"time": "10:05"}, {"on": move(tick["on"], -1)},
                                  {"step": "surfaces"}, {"step": "mop"}, {"state": "undone", "reason": "not yet"},
                                  {"step": "walls"})))
        return
    d.add("tick", area=fact["area"], step=r.choice(("mop", "surfaces", "walls", "margin")), person="lee",
          renovator="rosa", on=r.choice((fact["on"], last, move(last, 1))),
          time=r.choice(("17:00", "18:30", "09:30")), state="done")


def in_one_minute(d, r):
    """Cleaned in the minute of a sample, or an hour before it."""
    fact = pick(d, r, "dust_sample")
    ticks = [t for t in d.all("tick") if fact and t["area"] == fact["area"]
             and t["step"] in ("mop", "surfaces", "carpet")]
    if ticks and fact.get("time"):
        r.choice(ticks).update(on=fact["on"], time=r.choice((fact["time"], "16:50", "15:00")))


def logged_otherwise(d, r):
    """Logged before or after the others of its day."""
    fact = pick(d, r, r.choice(("dust_sample", "dust_sample", "tick", "verification")))
    if fact:
        fact["_logged"] = r.choice(("", "~"))


def dust_seen(d, r):
    """In an area that samples clear somebody saw dust, and it was cleaned or not."""
    fact = pick(d, r, "dust_sample")
    if fact is None:
        return
    d.add("verification", area=fact["area"], event="look-dirty", person="rosa", on=fact["on"],
          time=r.choice(("15:20", "15:40", "19:00")))
    if r.random() < 0.4:
        d.add("verification", area=fact["area"], event="look-clean", person=r.choice(("rosa", "lee", "ines")),
              on=fact["on"], time=r.choice(("15:45", "19:30")))


def signs_down(d, r):
    """What contained the area comes down, after it was cleared or verified, or before."""
    fact = pick(d, r, "dust_sample", "verification")
    ticks = [t for t in d.all("tick") if fact and t["area"] == fact["area"] and t["on"] == d.start
             and t["step"] in ("signs", "signs-language", "isolate", "ducts", "doors-closed", "windows-outside")]
    if ticks:
        tick = r.choice(ticks)
        d.add("tick", area=tick["area"], step=tick["step"], person="lee", renovator="rosa", state="undone",
              reason="all is clean", on=move(d.last, r.choice((0, 0, 1))), time=r.choice(("15:35", "17:00", "20:00")))


def wiped_as_well(d, r):
    """Samples that nobody required, beside the cloths or in place of them."""
    area = pick(d, r, "area")
    looked = [v for v in d.all("verification") if v["area"] == area["id"]]
    on = max((v["on"] for v in looked), default=None)
    if on is None or area["side"] != "interior":
        return
    for surface in r.choice((("floor",), ("sill",), ("floor", "sill", "trough"))):
        wipe(d, area, surface, surface, on, "19:00", required=r.choice(("no", "no", "yes")),
             **(passes(r, surface, on) if r.random() < 0.6 else {"result": "9000"}))


WAYS = ((numbers, 3), (signs, 5), (of_another_room, 6), (several_in_one, 2), (in_capitals, 3), (composites, 2), (by_inches, 2), (times, 3), (words, 3), (failed_too, 2),
        (cleaned_again, 3), (wiped_as_well, 2), (in_one_minute, 2), (logged_otherwise, 3),
        (dust_seen, 2), (signs_down, 3))
