"""Made-up whole jobs from a seed, as text (facts.py says how it reads).

    python3 jobs.py --seed 1 --jobs 3      the first three jobs of seed 1

Half of the jobs are nearly right: a whole correct job of which nothing to three things
are spoilt. The rest are spoilt in more places. Each job is drawn from the seed and its
number alone. People, houses and numbers are invented.
"""
import argparse
import random
from datetime import date

import dusty
import edges
import helped
import spoil
import telling
from draft import Draft, move as days

STAGES = ("planned", "contained", "working", "cleaned", "verified", "completed", "handed-over")
STARTS = ("2026-09-14",) * 6 + ("2026-01-10", "2026-01-11", "2026-03-02", "2026-01-12", "2025-06-09", "2025-01-13", "2025-01-10")
WINDOW = (("sash", "interior"), ("interior-sill", "interior"), ("apron", "interior"),
          ("interior-casing", "interior"), ("stop", "interior"), ("jamb", "interior"),
          ("trough", "interior"), ("exterior-sill", "exterior"), ("exterior-casing", "exterior"))
DOOR = (("door-slab", "interior"), ("jamb", "interior"), ("stop", "interior"),
        ("interior-casing", "interior"), ("threshold", "interior"), ("exterior-casing", "exterior"))
MORE_ROOMS = ("bath", "bedroom", "bedroom 2", "pantry", "dining room", "kitchen, west end", "bathroom", "bed room", "bed2",
              "bedroom two", "2nd bedroom", "kitch", "toilet", "WC", "foyer", "entry", "hall", "corridor", "segundo dormitorio")
TOPICS = ("signs; containment; practices; waste; cleaning",) * 4 + (
    "Signs, Containment, Practices, Waste, Cleaning", "letreros; contención; prácticas; desechos; limpieza",
    "LETREROS; CONTENCIÓN; PRÁCTICAS; RESIDUOS; LIMPIEZA", "plastic and flap; allowed methods ; waste;cleaning ; signs;",
    "plástico y cortina, métodos permitidos, basura, limpieza, letreros")


# ---- who and where ---------------------------------------------------------------------------------

def people(d, r):
    """The firm, its renovators, a worker, an inspector, a technician."""
    issued = days(d.start, -r.choice((30, 300, 800)))
    d.add("firm", name="Example Windows", address="1 Sample St")
    for who in ("rosa", "omar", "lee", "kim", "ines", "dana"):
        d.add("person", id=who, name=who.title() + " Sample")
    held = (("firm", "firm"), ("rosa", "renovator"), ("omar", "renovator"), ("ines", "inspector"),
            ("dana", "dust-technician"))
    for holder, discipline in held:
        hands_on = {"hands_on": "yes"} if discipline in ("renovator", "dust-technician") else {}
        d.add("certificate", holder=holder, discipline=discipline, number="C-" + holder,
              issuer="Training Example", issued=issued, expires=days(issued, 1800), **hands_on)
    d.add("assignment", person="rosa", duty="renovator", on=days(d.start, -r.choice((0, 1, 5))))
    if r.random() < 0.3:
        d.add("assignment", person="omar", duty="renovator", on=days(d.start, -1))
    d.add("assignment", person="lee", duty="worker", on=days(d.start, -1))
    d.add("training", worker="lee", trainer="rosa", topics=r.choice(TOPICS),
          on=days(d.start, -r.choice((0, 1, 20))))


PLACES = (("rented", 26), ("owned", 16), ("unit", 12), ("common", 12), ("unit-and-common", 10),
          ("facility", 12), ("other", 12))


def house(d, r):
    """The house and the kind of work."""
    d.case = r.choices([p for p, _ in PLACES], [w for _, w in PLACES])[0]
    d.case = r.choice(d.wants["case"]) if "case" in d.wants else d.case
    building = {"rented": "dwelling", "owned": "dwelling", "facility": "facility",
                "other": "other"}.get(d.case, "multi-unit")
    d.work = r.choice((("window-replacement",), ("window-replacement",), ("door-replacement",),
                       ("repair",), ("repair",), ("window-replacement", "repair"), ("demolition",),
                       ("other",)))
    said = {"unit": "2B"} if d.case in ("unit", "unit-and-common") and r.random() < 0.6 else {}
    if r.random() < 0.9:
        said["year_built"] = r.choice((1926, 1950, 1977))
    if r.random() < 0.7:
        said["language"] = "en"
    d.unit = said.get("unit", "2B")
    d.add("house", id="J-1", address="12 Sample Lane", building=building,
          owner_occupied="yes" if d.case == "owned" else "no", work=",".join(d.work),
          description="work on openings", start=d.start, end=d.end, **said)
    if d.case == "other" and r.random() < 0.6:
        visits(d, r)
    if d.case == "other" and r.random() < 0.5:
        d.house["visits_all_by"] = "the office"


def visits(d, r):
    """Two days a week of one child, at the limits of a facility."""
    week = days(d.start, -(d.start.weekday() + 1))  # a Sunday
    length = r.choice((180, 180, 179, 240))
    weeks = r.choice((9, 10, 10, 12))
    second = r.choice((2, 3, 6, 7))
    for n in (1, second):
        d.add("visit", child="c1", born=days(d.start, -r.choice((1000, 1500, 2100))),
              on=days(week, n - 7 * 20), minutes=length, weekly_until=days(week, n - 7 * 20 + 7 * (weeks - 1)))


def areas(d, r):
    """Work areas: inside, perhaps outside, in a unit or common."""
    d.areas = []
    inside = {"unit": [("A1", "kitchen", "unit")], "common": [("A1", "stair hall", "common")],
              "unit-and-common": [("A1", "kitchen", "unit"), ("A3", "stair hall", "common")]}
    for name, place, where in inside.get(d.case, [("A1", "kitchen", None)]):
        said = {"common": "yes"} if where == "common" else {}
        if where == "unit" and ("unit" not in d.house or r.random() < 0.5):
            said["unit"] = "2B"
        one_area(d, r, name, "interior", place, said)
    if d.case == "unit" and r.random() < 0.3:
        one_area(d, r, "A4", "interior", "bedroom", {"unit": "3C"})
    d.outside = r.random() < 0.35
    if d.outside:
        said = {"storeys": r.choice((1, 2))}
        if r.random() < 0.7:
            said["line"] = r.choice(("4", "9.99", "10", "10.01", "40"))
        one_area(d, r, "A2", "exterior", "north", said)


def one_area(d, r, name, side, place, said):
    for word in ("objects", "ducts", "doors_used") + (("carpet",) if side == "interior" else ()):
        if r.random() < 0.7:
            said[word] = r.choice(("no", "no", "yes"))
    if side == "interior":
        d.floor[name] = said.get("carpet") != "yes" or r.random() < 0.5
        if place != "stair hall" or r.random() < 0.5:
            said["countertops"] = "no"
    d.areas.append(d.add("area", id=name, side=side, place=place, length="14", width="12", **said))


# ---- what is disturbed, what was tested ------------------------------------------------------------------

def openings(d, r):
    """Openings of each inside area and their parts, walls."""
    d.small = r.random() < 0.25
    n = 1
    d.many = False
    for area in [a for a in d.areas if a["side"] == "interior"]:
        more = r.sample(MORE_ROOMS, r.choice((1, 1, 2, 3, 4))) if r.random() < 0.15 else []
        d.many = d.many or bool(more)
        kinds = ["window"] if "door-replacement" not in d.work else ["door"]
        if "repair" in d.work and r.random() < 0.5:
            kinds = []
        kinds = kinds + [k for k in ("window", "door") if r.random() < 0.15]
        rooms = [None] * len(kinds) + more
        for kind, room in zip(kinds + [r.choice(kinds or ["door", "window"]) for _ in more], rooms):
            one_opening(d, r, area, kind, "%s%02d" % (kind[0].upper(), n), room)
            n += 1
        if not kinds or r.random() < 0.3:
            one_part(d, r, area["place"].replace(" ", "-") + ".wall", "", "wall", "interior", area["place"], False)
    if d.outside and not any(area.get("openings") for area in d.areas if area["side"] == "exterior"):
        one_part(d, r, "north.wall", "", "wall", "exterior", "north", False)


def one_opening(d, r, area, kind, name, room):
    new = (kind + "-replacement") in d.work
    said = {"replaced": r.choice(("yes", "yes", "no"))} if r.random() < 0.4 else {}
    if not new and said.get("replaced") == "yes":
        said = {}
    new = new and said.get("replaced") != "no"
    outside = d.outside and area["id"] == "A1"
    parts = list(WINDOW if kind == "window" else DOOR)
    absent = []
    if r.random() < 0.3:
        absent = [p for p in parts if p[0] in ("apron", "trough")][:r.choice((1, 2))]
    if not outside and r.random() < 0.5:
        absent += [p for p in parts if p[1] == "exterior"]
        said["absent"] = ",".join(["exterior"] + [p[0] for p in absent if p[1] != "exterior"])
    elif absent:
        said["absent"] = ",".join(p[0] for p in absent)
    usual = r.choice((area["place"], area["place"], "bath")) if area.get("openings") else area["place"]
    d.add("opening", id=name, kind=kind, room=room or usual, elevation="north", **said)
    for a in d.areas:
        if a is area or (outside and a["id"] == "A2"):
            a["openings"] = ",".join(filter(None, [a.get("openings"), name]))
    for part, side in [p for p in parts if p not in absent]:
        one_part(d, r, name + "." + part, name, part, side, None, new,
                 side == "interior" or outside)


def one_part(d, r, name, opening, part, side, room, new, reached=True):
    """One component; where it is not reached it stays as it is."""
    said = {"opening": opening} if opening else {"room": room}
    if not reached:
        said["affected"] = "no"
    elif new and r.random() < 0.5:
        said.update(removed="yes", whole=r.choice(("3", "6", "12")))
    elif d.small:
        said["disturbed"] = r.choice(("0.5", "0.75", "1", "2"))
    else:
        said["disturbed"] = r.choice(("4", "6", "8", "21"))
    if "disturbed" in said and not new and r.random() < (0.97 if d.small else 0.5):
        said["removed"] = "no"
    elif "disturbed" in said and r.random() < 0.5:
        said["whole"] = r.choice(("1", "2", "5", "7"))
    if reached and not new and d.small and r.random() < 0.3:
        said["affected"] = "no"
    if r.random() < 0.1:
        said["painted"] = "no"
    d.add("component", id=name, type=part, side=side, substrate="wood", **said)


def tests(d, r):
    """Of some jobs every part is shown free, of some a few; few find lead."""
    ways = r.choices(("none", "some", "all"), (40, 30, 30))[0]
    by = r.choice(("kit", "chip", "determination", "mixed"))
    whole, same_day = None, None
    if r.random() < 0.15:  # of the day on which the work begins
        same_day = r.choice(({"time": "07:05"}, {"time": "07:05"}, {"time": "08:05"}, {"time": "09:30"}, {}))
    for c in [f for f in d.facts if f["entry"] == "component"]:
        if ways == "none" or (ways == "some" and r.random() < 0.5):
            continue
        how = r.choice(("kit", "chip", "determination")) if by == "mixed" else by
        on = days(d.start, -r.choice((3, 10, 40)))
        if whole and how != "determination" and c.get("opening") == whole.get("opening") and r.random() < 0.3:
            c["part_of"], c["refinished"] = whole["id"], "no"
            if r.random() < 0.5:
                c["type"] = whole["type"]
            continue
        one_test(d, r, c["id"], how, on)
        if same_day:
            d.facts[-1].update(on=d.start, **same_day)
        whole = c if how != "determination" else whole


def one_test(d, r, component, how, on):
    if how == "kit":
        if r.random() < 0.03:  # another one could not tell, before it on that day
            d.add("kit_test", component=component, tester="rosa", maker="Kitmaker", model="K-1",
                  recognized="yes", result="inconclusive", on=on, substrates="wood,drywall")
        d.add("kit_test", component=component, tester="rosa", maker="Kitmaker", model="K-1",
              recognized="yes", result=r.choice(("negative",) * 19 + ("positive",)), on=on,
              substrates="wood,drywall")
    elif how == "chip":
        said = r.choice(({"weight": "400"}, {"result": "0.2"}, {"weight": "4999", "result": "0.9"}))
        d.add("chip", component=component, sampler="rosa", laboratory="Sample Lab",
              lab_address="9 Sample Ave", nllap="yes", on=on, **said)
    else:
        d.add("determination", component=component, assessor="ines", report="R-7",
              method="each component tested", copy_held="yes", on=on)


# ---- the work --------------------------------------------------------------------------------------------------

def tick(d, area, step, on, time, **said):
    said.setdefault("state", "done")
    who = said.pop("person", "lee")
    d.add("tick", area=area["id"], step=step, person=who, renovator="rosa", on=on, time=time, **said)


def contain(d, r, area, on):
    from contain import contain_steps
    from facts import Fact
    from fractions import Fraction
    fact = Fact({k.replace("_", "-"): v for k, v in area.items()})
    for n in ("line", "storeys"):
        if n in fact:
            fact[n] = Fraction(fact[n])
    steps = contain_steps(fact)
    if r.random() < 0.08:
        tick(d, area, "vertical-barrier", on, "07:10")
    for i, step in enumerate(steps):
        said = {}
        if step == "floor-sheet":
            said["measured"] = r.choice(("6", "6", "7.5"))
        if step == "ground-sheet":
            line = fact.line
            said["measured"] = area["line"] if line is not None and line < 10 and r.random() < 0.3 else r.choice(("10", "12"))
        said.update(left_out(r, area, step))
        tick(d, area, step, on, "07:%02d" % (20 + i), **said)


def left_out(r, area, step):
    """A step not needed, where nothing speaks against it."""
    openings = area.get("openings") or ""
    grounds = {
        "objects": area.get("objects") is None and "none-present",
        "ducts": area.get("ducts") is None and "none-present",
        "windows-closed": "W" not in openings and "none-present",
        "doors-closed": "D" not in openings and area.get("doors_used") == "no" and "none-present",
        "doors-used": area.get("doors_used") is None and "not-used",
        "openings-below": area.get("storeys") is None and "one-story",
        "waste-chute": "not-used",
    }
    ground = grounds.get(step)
    chance = 0.7 if step == "waste-chute" else 0.3
    if not ground or r.random() > chance:
        return {}
    return {"state": "not-needed", "ground": ground, "reason": "there is none"}


def work(d, r, area, on):
    tick(d, area, "barriers-whole", on, "08:00")
    method = r.choice(("hand",) * 6 + ("dry-scrape", "machine", "heat-gun", "demolition"))
    said = {"machine": {"hepa": "yes"}, "heat-gun": {"temp": r.choice(("1099", "900"))}}.get(method, {})
    if r.random() < 0.93:
        said["time"] = r.choice(("12:50",) * 18 + ("14:00", "15:25", "16:40"))
    if r.random() < 0.8:
        said["began"] = r.choice(("08:05",) * 18 + ("07:21", "12:55"))
    d.add("practice", area=area["id"], method=method, person="lee", on=on, **said)
    if area["side"] == "interior":
        tick(d, area, "leave-clean", on, "13:00")
    tick(d, area, "waste-contained", on, "13:10")
    tick(d, area, "waste-chute", on, "13:20", **left_out(r, area, "waste-chute"))
    tick(d, area, "waste-daily", on, "13:30")


def clean(d, r, area, on):
    tick(d, area, "chips", on, "14:00")
    tick(d, area, "sheeting", on, "14:10")
    if area["side"] == "exterior":
        tick(d, area, "clean-outside", on, "14:20")
    else:
        tick(d, area, "walls", on, "14:20")
        tick(d, area, "surfaces", on, "14:30")
        if area.get("carpet") != "no":
            gone = {} if area.get("carpet") == "yes" or r.random() < 0.5 else {
                "state": "not-needed", "ground": "none-present", "reason": "no carpet"}
            tick(d, area, "carpet", on, "14:35", **gone)
        all_carpet = {} if d.floor[area["id"]] else {
            "state": "not-needed", "ground": "all-carpet", "reason": "all carpet"}
        tick(d, area, "mop", on, "14:40", **all_carpet)
        tick(d, area, "margin", on, "14:45", measured=r.choice(("2", "3")))
        tick(d, area, "divider", on, "14:50")
    tick(d, area, "waste-transport", on, "15:00")


def event(d, area, kind, on, minute, **said):
    d.add("verification", area=area["id"], event=kind, person="rosa", on=on,
          time="%02d:%02d" % divmod(minute, 60), **said)


def surfaces(d, r, area):
    """Sills, floors, a countertop: what verification wipes."""
    made = [(n + "-sill", "sill", "3") for n in (area.get("openings") or "").split(",") if n[:1] == "W"]
    if d.floor[area["id"]]:
        made.append((area["id"] + "-floor", "floor", r.choice(("12", "40", "40.01", "79.9", "80", "168"))))
    if r.random() < 0.2:
        made.append((area["id"] + "-counter", "countertop", "10"))
    return [d.add("surface", id=i, area=area["id"], kind=k, place=i, size=s,
                  note="cabinets stand on the rest" if k == "floor" and r.random() < 0.93 else None) for i, k, s in made]


def verify(d, r, area, on):
    at = 15 * 60 + 30
    if r.random() < 0.1:
        event(d, area, "look-dirty", on, 15 * 60 + 10)
    event(d, area, "look-clean", on, at)
    if area["side"] == "exterior":
        return
    for s in surfaces(d, r, area):
        n = 1 if s["kind"] == "sill" or float(s["size"]) <= 40 else int(float(s["size"]) // 40) + 1
        waits = []
        for section in range(1, n + 1):
            at = wipe(d, r, area, s, section, on, at + 1, waits)
        dried(d, r, area, waits, on, at)


def dried(d, r, area, waits, on, at):
    """Seen dry, then the dry cloth: one section after the other or all at once, now and then too soon after the last
    water."""
    together = r.random() < 0.8
    for n, (how, dark) in enumerate(waits):
        seen = at + 50 if together else dark + 50
        event(d, area, "seen-dry", on, seen + (0 if together else n), **how)
    for how, dark in waits:
        event(d, area, "dry-wipe", on, (at if together else dark) + r.choice((60, 66, 80)), cloth="new", **how)
    if len(waits) > 1 and r.random() < 0.2:  # one of them seen dry after the dry cloth of another
        late = next(f for f in d.all("verification")[::-1] if f["event"] == "seen-dry")
        late["time"] = "%02d:%02d" % divmod(at + r.choice((61, 90)), 60)


def wipe(d, r, area, s, section, on, at, waits):
    how = {"surface": s["id"], "section": section}
    if r.random() < 0.8:
        event(d, area, "wet-match", on, at, cloth="new", **how)
        return at
    event(d, area, "wet-darker", on, at, cloth="new", **how)
    event(d, area, "recleaned", on, at + 5, **how)
    fold = "fresh-fold" if s["kind"] == "sill" and r.random() < 0.5 else "new"
    if r.random() < 0.5:
        event(d, area, "wet-match", on, at + 6, cloth=fold, **how)
        return at + 6
    event(d, area, "wet-darker", on, at + 6, cloth=fold, **how)
    waits.append((how, at + 6))
    return at + 7


# ---- the end --------------------------------------------------------------------------------------------------------

def end(d, r):
    done = days(d.last, r.choice((0, 0, 1, 3)))
    d.add("completion", on=done)
    d.add("certification", person="rosa", on=days(done, r.choice((0, 1, 4))))
    due = days(done, 30)
    if r.random() < 0.5:
        due = days(done, r.choice((4, 10, 20, 40)))
        d.add("invoice", on=due)
        due = min(due, days(done, 30))
    return done, due


def hand_over(d, r, done, due):
    sampled = any(f["entry"] == "dust_sample" for f in d.facts)
    for p in [f for f in d.facts if f["entry"] == "party" and f["role"] != "parents"]:
        said = {"dust_report": "yes"} if sampled else {}
        what = r.choice(("record", "summary", "record", "our own form"))
        if what == "our own form":
            said["information"] = "yes"
        on = due if r.random() < 0.3 else days(done, int((due - done).days * r.random()))
        d.add("handover", party=p["id"], what=what, how="by mail", on=on, **said)


# ---- one job ----------------------------------------------------------------------------------------------------------

def worked_days(d, r):
    """First and last day in a work area: mostly those of the whole work."""
    if len(d.areas) == 1 or r.random() < 0.7:
        return d.start, d.end
    some = sorted(days(d.start, r.randrange((d.end - d.start).days + 1)) for _ in range(2))
    return some[0], some[1]


def correct(r, stage, **wants):
    """A whole job as far as a stage, nothing wrong with it."""
    d = Draft(date.fromisoformat(r.choice(STARTS)), r.choice(wants.get("days", (0, 0, 1, 2))), wants)
    d.further_tells = r.choice((("yes", "yes"), ("yes", "no"), (None, "yes"), ("yes", None), ("no", None)))
    people(d, r)
    house(d, r)
    areas(d, r)
    openings(d, r)
    tests(d, r)
    telling.told(d, r)
    reached = STAGES.index(stage)
    helps = d.case in ("rented", "owned", "unit", "common") and r.random() < wants.get("helps", 0.15)
    dust = helps or r.random() < wants.get("dust", 0.7 if d.many else 0.3)
    d.sampler, last = r.choice(("ines", "dana")), d.end
    for area in d.areas:
        begun, done = worked_days(d, r)
        if reached >= 1:
            contain(d, r, area, begun)
        for n in range((done - begun).days + 1 if reached >= 2 else 0):
            work(d, r, area, days(begun, n))
        if reached >= 3:
            clean(d, r, area, done)
        if reached >= 4 and dust and area["side"] == "interior":
            if r.random() < 0.6:
                event(d, area, "look-clean", done, 15 * 60 + 30)
            surfaces(d, r, area)
            last = max(last, dusty.sample(d, r, area, done))
        elif reached >= 4:
            verify(d, r, area, done)
        elif area["side"] == "interior":
            surfaces(d, r, area)
    d.last = last
    if helps:
        helped.assist(d, r, reached)
    if reached >= 5:
        done, due = end(d, r)
    if reached >= 6:
        hand_over(d, r, done, due)
    return d


def question_day(d, r):
    """Before, at and after the events; mostly when all of them are known."""
    if d.asked_on:
        return d.asked_on
    known, changes = d.last_logged(), [f["on"] for f in d.all("scope_change")]
    if changes and r.random() < 0.3:
        return r.choice(changes)
    if r.random() < 0.01:  # when the records need be kept no longer
        return days(known, 1097)
    return r.choice((known, known, days(known, 1), days(known, r.randrange(0, 40)), d.start,
                     days(d.start, r.randrange(-3, 5)), days(d.start, r.randrange(-70, 90)),
                     days(d.end, r.choice((30, 31, 40)))))


def job(seed, number):
    r = random.Random("%d/%d" % (seed, number))
    edge, own = edges.edge(seed, number)
    if edge is not None:
        d = edge.made(own, correct)
    else:
        d = correct(r, r.choices(STAGES, (10, 12, 12, 10, 12, 12, 32))[0])
        n = r.choice((0, 0, 1, 1, 1, 2, 2, 3)) if r.random() < 0.55 else r.randrange(1, 10)
        for _ in range(n):
            spoil.spoil(d, r)
    d.in_order()
    text = d.text()
    return "job %d\ntoday %s\n%s" % (number, question_day(d, r).isoformat(), text)


def main():
    p = argparse.ArgumentParser(description=__doc__)
    p.add_argument("--seed", type=int, default=1)
    p.add_argument("--jobs", type=int, default=1)
    p.add_argument("--job", type=int)
    a = p.parse_args()
    for number in [a.job] if a.job is not None else range(a.jobs):
        print(job(a.seed, number), end="")


if __name__ == "__main__":
    main()
