"""Ways in which a job goes wrong: unsaid, out of order, out of date, by the wrong hands,
at a limit, contradicted."""
import re
from datetime import date

import apart
import closing
import dusty
import helped
import at_end
import hurried
import meanwhile
import placed
import roomy
import several
import unitwise
from draft import move, pick

NEEDED = {
    "fixture": ("area", "what", "wall", "at"),  # options that the program asks for: a line without them is never logged
    "firm": ("name", "address"), "person": ("id", "name"),
    "certificate": ("holder", "discipline", "number", "issuer", "issued", "expires"),
    "house": ("id", "address", "building", "owner_occupied", "work", "description", "start"),
    "party": ("id", "role", "name"), "vacancy": ("on", "said_by"),
    "opening": ("id", "kind", "room", "elevation"),
    "component": ("id", "type", "side", "substrate", "room"),
    "visit": ("child", "on", "minutes"), "kit_test": ("component", "tester", "maker", "model", "recognized",
                                                              "result", "on"),
    "chip": ("component", "sampler", "laboratory", "lab_address", "nllap", "on"),
    "determination": ("assessor", "report", "copy_held", "on"),
    "notice": ("party", "method", "on"), "scope_change": ("what", "on"),
    "assignment": ("person", "duty", "on"), "training": ("worker", "trainer", "topics", "on"),
    "area": ("id", "side", "place", "length", "width"),
    "surface": ("id", "area", "kind", "place", "size"),
    "tick": ("area", "step", "state", "person", "on"),
    "practice": ("area", "method", "person", "on"),
    "verification": ("area", "event", "person", "on", "time", "section"),
    "dust_sample": ("area", "place", "surface", "sampler", "laboratory", "nllap", "required", "on"),
    "completion": ("on",), "invoice": ("on",), "handover": ("party", "what", "how", "on"),
    "certification": ("person", "on"), "emergency": ("nature", "on", "cause"),
    "instrument": ("serial", "film", "cal_low", "cal_high"),
    "reading": ("number", "instrument", "operator", "purpose", "component", "substrate", "result", "on"),
    "own_step": ("id", "phase", "side", "text", "from"),
    "occupancy": ("stay",), "owner_record": ("report", "assessor", "discipline", "on"), "local_limit": ("limit", "value", "place", "status", "citation"),
}
LEFT_ALONE = {"language"}


# ---- unsaid -----------------------------------------------------------------------------------------

def unsaid(d, r):
    """One option of one line is not said."""
    kind = r.choice(sorted({f["entry"] for f in d.facts}))
    fact = pick(d, r, kind)
    free = [o for o in fact if o not in NEEDED[kind] and o != "entry" and o not in LEFT_ALONE]
    if free:
        del fact[r.choice(sorted(free))]


def not_logged(d, r):
    """A whole line is missing."""
    kind = r.choice(sorted({f["entry"] for f in d.facts} - {"house", "firm", "person", "area"}))
    fact = pick(d, r, kind)
    d.facts.remove(fact)
    if kind == "surface":  # and nothing of what was done there
        d.facts[:] = [f for f in d.facts if f.get("surface") != fact["id"] or f["entry"] != "verification"]


# ---- out of date, out of order -----------------------------------------------------------------------

def other_day(d, r):
    fact = pick(d, r, r.choice(("notice", "tick", "practice", "verification", "dust_sample",
                                "handover", "certification", "assignment", "training",
                                "kit_test", "chip", "determination", "completion")))
    if fact:
        fact["on"] = move(fact["on"], r.choice((-3, -1, -1, 1, 1, 2, 7)))
        if "signed_on" in fact and r.random() < 0.7:
            fact["signed_on"] = fact["on"]


def whole_step_later(d, r):
    """A step of the list was done another day in one area."""
    step = pick(d, r, "tick")
    if step:
        step["on"] = move(step["on"], r.choice((-1, 1, 2)))


def notice_limits(d, r):
    """60 and 61 days, 7 and 6 days, the day before, the day itself."""
    fact = pick(d, r, "notice")
    if fact:
        fact["on"] = move(d.start, -r.choice((0, 1, 6, 7, 59, 60, 61)))
        if "signed_on" in fact:
            fact["signed_on"] = move(fact["on"], r.choice((0, 0, 0, 1)))


def certificate_ends(d, r):
    """It ends on the last day, the day before it, or began later than it should."""
    fact = pick(d, r, "certificate")
    if fact is None:
        return
    edge = r.choice((d.start, d.end, d.last_logged()))
    if r.random() < 0.7:
        fact["expires"] = move(edge, r.choice((-1, 0, 1)))
    else:
        fact["issued"] = move(d.start, r.choice((-1, 0, 1)))


def long_certificate(d, r):
    """The course or approval lies five years back, or three without hands-on part."""
    fact = pick(d, r, "certificate")
    if fact is None or fact["discipline"] == "inspector":
        return
    years = 5
    if fact["discipline"] == "renovator" and r.random() < 0.5:
        fact["hands_on"], years = "no", 3
    fact["issued"] = move(date(d.start.year - years, d.start.month, d.start.day), r.choice((-1, 0, 1)))
    fact["expires"] = move(d.start, 2000)


def renewal(d, r):
    """The firm's certificate ran out while a renewal is pending; or it was changed."""
    fact = next((c for c in d.all("certificate") if c["holder"] == "firm"), None)
    if fact is None:
        return
    if r.random() < 0.5:
        fact["expires"] = move(d.start, -r.choice((1, 20)))
        fact["renewal_sent"] = move(fact["expires"], -r.choice((89, 90, 91)))
        if r.random() < 0.3:
            fact["renewal_decided"] = move(d.start, -r.choice((5, 10)))
    else:
        fact["changed"] = move(r.choice((d.start, d.start, d.end, d.last)), -r.choice((60, 89, 90, 91, 120)))
        if r.random() < 0.5:
            fact["amended"] = move(fact["changed"], r.choice((30, 90, 100)))


def dates_at_the_end(d, r):
    """Completion before the last work, handover late, an early invoice."""
    fact = pick(d, r, "handover", "completion", "invoice", "certification")
    if fact is None:
        return
    if fact["entry"] == "handover":
        fact["on"] = move(d.end, r.choice((0, 29, 30, 31, 32, 33, 34)))
    elif fact["entry"] == "invoice":
        fact["on"] = move(d.end, r.choice((3, 5, 29, 30, 31)))
    else:
        fact["on"] = move(fact["on"], r.choice((-1, -2, 1, 2)))


# ---- the wrong hands ------------------------------------------------------------------------------------

def wrong_person(d, r):
    fact = pick(d, r, r.choice(("tick", "tick", "practice", "verification", "dust_sample", "kit_test",
                                "chip", "determination", "training", "certification")))
    if fact is None:
        return
    option = {"dust_sample": "sampler", "kit_test": "tester", "chip": "sampler",
              "determination": "assessor", "training": "trainer"}.get(fact["entry"], "person")
    if fact["entry"] == "tick" and r.random() < 0.5:
        option = "renovator"
    fact[option] = r.choice(("lee", "kim", "omar", "ines", "rosa"))


def topics(d, r):
    fact = pick(d, r, "training")
    if fact:
        names = ["signs", "containment", "practices", "waste", "cleaning"]
        names.remove(r.choice(names))
        fact["topics"] = "; ".join(names)


def cleaned_between(d, r):
    """Somebody else cleans again between the cloths, and it is done once more, there or as a step, or not."""
    found = [v for v in d.all("verification") if v["event"] == "recleaned"]
    if not found:
        return
    fact = r.choice(found)
    fact["person"] = r.choice(("lee", "kim", "kim", "omar", "ines"))
    if r.random() < 0.3:
        d.add("training", worker="kim", trainer="rosa", topics=r.choice(("cleaning", "signs; containment")),
              on=move(fact["on"], r.choice((-1, 0, 1))))
    if r.random() < 0.6:
        who, hour = r.choice(("lee", "lee", "rosa", "kim")), r.choice(("05:00", "23:00"))
        if r.random() < 0.3:  # in the minute of the first, or in no order that is said
            d.add("verification", **several.again(fact, person=who))
        else:
            d.add("tick", area=fact["area"], step=r.choice(("mop", "surfaces")), person=who, renovator="rosa",
                  on=move(fact["on"], r.choice((-1, 0, 0, 1))), time=hour, state="done")


# ---- numbers at limits --------------------------------------------------------------------------------------

def measured(d, r):
    found = [t for t in d.all("tick") if "measured" in t]
    if found:
        fact = r.choice(found)
        fact["measured"] = r.choice({"floor-sheet": ("5.99", "6", "6.01"), "ground-sheet": ("9.99", "10"),
                                     "margin": ("1.99", "2", "2.01")}[fact["step"]])


def sizes(d, r):
    fact = pick(d, r, "component", "surface")
    if fact is None:
        return
    if fact["entry"] == "surface":  # never fewer sections than were wiped
        sizes_up = ("39.99", "40", "40.01", "79.99", "80", "120")
        fact["size"] = r.choice([s for s in sizes_up if float(s) >= float(fact["size"])] or [fact["size"]])
    else:
        option = "whole" if fact.get("removed") == "yes" else "disturbed"
        fact[option] = r.choice(("0", "1", "5.99", "6", "6.01", "20", "20.01"))


def paint_numbers(d, r):
    fact = pick(d, r, "chip", "kit_test")
    if fact is None:
        return
    if fact["entry"] == "kit_test":
        fact["result"] = r.choice(("positive", "inconclusive"))
    else:
        fact.update(r.choice(({"weight": "4999"}, {"weight": "5000"}, {"weight": "0.49%"},
                              {"weight": "0.5%"}, {"result": "0.99"}, {"result": "1.0"},
                              {"composite": 2})))


def wait_numbers(d, r):
    fact = next((v for v in d.all("verification") if v["event"] == "dry-wipe"), None)
    if fact:
        hour, minute = map(int, fact["time"].split(":"))
        at = hour * 60 + minute - r.choice((5, 6, 7, 20, 21))
        fact["time"] = "%02d:%02d" % divmod(at, 60)


def cleaning_order(d, r):
    """The walls last, a floor first."""
    found = [t for t in d.all("tick") if t["step"] in ("walls", "surfaces", "mop", "carpet")]
    if found:
        r.choice(found)["time"] = r.choice(("14:15", "14:22", "14:47"))


def year(d, r):
    d.house["year_built"] = r.choice((1977, 1978, 1979, 1990))


def methods(d, r):
    fact = pick(d, r, "practice")
    if fact and "planned" not in fact:  # a plan to use them is refused when it is logged
        fact.update(r.choice(({"method": "open-flame"}, {"method": "machine", "hepa": "no"},
                              {"method": "machine"}, {"method": "heat-gun", "temp": 1100},
                              {"method": "heat-gun", "temp": 1099}, {"method": "heat-gun"},
                              {"method": "blasting", "hepa": "yes"}, {"method": "blasting"})))


def cloth(d, r):
    found = [v for v in d.all("verification") if "cloth" in v]
    if found:
        fact = r.choice(found)
        fact.update(r.choice(({"cloth": "fresh-fold"}, {"cloth": "none"}, {"event": "wet-darker"},
                              {"event": "dry-wipe"})))


# ---- the house -------------------------------------------------------------------------------------------------

def house_facts(d, r):
    d.house.update(r.choice((
        {"elder_or_disabled": "yes", "child_under_6": "no"}, {"elder_or_disabled": "yes"},
        {"elder_or_disabled": "yes", "child_under_6": "yes"},
        {"zero_bedroom": "yes", "child_under_6": "no"}, {"zero_bedroom": "yes"},
        {"for_compensation": "no"}, {"for_compensation": "no", "owner_occupied": "yes"},
        {"children_visit": "no"}, {"children_visit": "yes"},
        {"visits_all_by": None}, {"visits_all_by": "the office"}, {"child_under_6": "yes"},
        {"owner_occupied": "yes"}, {"year_built": None},
        {"work": "repair"}, {"work": "window-replacement"}, {"work": "demolition,repair"},
        {"building": "dwelling"}, {"building": "facility"})))
    if "zero_bedroom" in d.house and d.house["building"] != "dwelling":
        del d.house["zero_bedroom"]
    if "zero_bedroom" in d.house and r.random() < 0.7:
        no_bedroom(d, r.choice(("alcove", "alcove", "RECÁMARA", "bed room")))


def no_bedroom(d, name):
    """Its rooms have other names; some are bedrooms all the same."""
    for fact in d.facts:
        fact.update({k: re.sub("(?i)bedroom", name, said) for k, said in fact.items() if isinstance(said, str)})


def start_moves(d, r):
    """The planned start is moved; what was logged stays."""
    d.house["start"] = move(d.start, r.choice((-1, 1, 3, 8, 40)))


def other_device(d, r):
    """Another device says something else of the house."""
    if d.rival is None:
        d.rival = dict(d.house)
        d.rival.update(r.choice(({"year_built": 1980}, {"owner_occupied": "no"},
                                 {"owner_occupied": "yes"}, {"building": "facility"},
                                 {"for_compensation": "no"}, {"start": move(d.start, 2)},
                                 {"unit": r.choice(("3C", "2b"))})))


# ---- more of something, and bad news -----------------------------------------------------------------------------

def undone(d, r):
    fact = pick(d, r, "tick")
    if fact:
        d.add("tick", **{**{k: v for k, v in fact.items() if k not in ("entry", "ground", "measured")},
                         "state": "undone", "reason": "it came loose",
                         "time": "%02d:59" % r.choice((7, 12, 16))})


def not_needed(d, r):
    """A step is said not to be needed that is, or on a ground that the job contradicts."""
    found = [t for t in d.all("tick") if t["step"] in (
        "signs", "isolate", "objects", "ducts", "windows-closed", "doors-closed", "doors-used",
        "windows-outside", "doors-outside", "openings-below", "walls", "mop", "carpet")]
    if found:
        fact = r.choice(found)
        ground = {"openings-below": "one-story", "mop": "all-carpet", "doors-used": "not-used"}
        fact.update(state="not-needed", ground=ground.get(fact["step"], "none-present"),
                    reason="there is none")
        fact.pop("measured", None)


def extra_part(d, r):
    """A further component of which little is said, or an opening without any."""
    area = pick(d, r, "area")
    n = len(d.facts)
    if r.random() < 0.5:
        d.add("opening", id="X%d" % n, kind=r.choice(("window", "door")), room=area["place"],
              elevation="north")
        if r.random() < 0.6:
            area["openings"] = ",".join(filter(None, [area.get("openings"), "X%d" % n]))
    else:
        said = r.choice(({}, {"disturbed": "1"}, {"affected": "no"}, {"painted": "no"},
                         {"removed": "yes"}, {"removed": "yes", "whole": "7"}))
        d.add("component", id="part%d" % n, type=r.choice(("wall", "baseboard")), side=area["side"],
              room=r.choice((area["place"], "attic")), substrate="wood", **said)


def part_removed(d, r):
    """A part of an opening comes off after all; or is replaced after all."""
    fact = pick(d, r, "component", "opening")
    if fact is None:
        return
    if fact["entry"] == "opening":
        fact["replaced"] = r.choice(("yes", "no"))
    else:
        fact["removed"] = "yes"
        fact["whole"] = r.choice((None, "2", "6", "7"))


def refinished(d, r):
    found = [c for c in d.all("component") if "part_of" in c]
    if found:
        r.choice(found)["refinished"] = r.choice((None, "yes"))


def extra_area(d, r):
    """Somebody has to be told of another unit, or common area."""
    area = pick(d, r, "area")
    if d.house["building"] == "multi-unit":
        area.update(r.choice(({"common": "yes"}, {"unit": "4D", "common": None}, {"common": None})))


def occupants(d, r):
    """A second occupant; a unit said to be empty."""
    if r.random() < 0.5 and not any(p["id"] == "guest" for p in d.all("party")):
        d.add("party", id="guest", role="occupant", name="Guest Sample",
              **({"unit": r.choice(("2B", "3C"))} if d.house["building"] == "multi-unit" else {}))
    else:
        said = {"unit": "2B"} if d.house["building"] == "multi-unit" else {}
        d.add("vacancy", on=move(d.start, r.choice((-5, 0, 1))), said_by="the owner", **said)
        if r.random() < 0.7:
            for f in d.all("party"):
                if f["role"] == "occupant":
                    d.facts.remove(f)


def scope(d, r):
    """The work goes beyond what was told, with or without further notices."""
    on = move(d.start, r.choice((0, 1, 2)))
    d.add("scope_change", what="the hall as well", on=on)
    for name, method in (("units", "unit-notice"), ("owner", "acknowledged")):
        if r.random() < 0.6:
            further_notice(d, r, name, method, move(on, -r.choice((0, 1, 1, 2))))


def further_notice(d, r, name, method, on):
    told = d.further_tells  # what the further notices of this job are about
    said = dict(statement="yes", tells_work=told[0], tells_dates=told[1], tells_pamphlet="yes",
                tells_records="yes", of_change="yes", work_from=d.start, work_until=move(d.end, 5))
    if method == "acknowledged":
        said.update(signed_on=on, signer="Owner Sample", unit="12 Sample Lane", states_receipt="yes")
    elif r.random() < 0.1:
        said["unit"] = r.choice(("12 Sample Lane", "3C", "2B, 3C"))
    d.add("notice", party=name, method=method, on=on, **said)


def beyond_told(d, r):
    """The work lasts longer than the units were told, with a further notice in time, on the day, or none."""
    found = [n for n in d.all("notice") if n["party"] == "units"]
    for n in found:
        n.update(work_from=d.start, work_until=move(d.end, -1))
    for name, method in (("units", "unit-notice"), ("owner", "acknowledged")):
        if found and r.random() < 0.85:
            further_notice(d, r, name, method, move(d.end, -r.choice((0, 1, 1, 2))))


def other_method(d, r):
    fact = pick(d, r, "notice")
    if fact:
        fact["method"] = r.choice(("acknowledged", "mailed", "self-certified", "posted", "unit-notice"))


def told_days(d, r):
    found = [n for n in d.all("notice") if "work_until" in n]
    if found:
        fact = r.choice(found)
        fact.update(r.choice(({"work_until": move(d.end, -1)}, {"work_from": move(d.start, 1)},
                              {"work_until": move(d.end, 1)})))


def handed_over_otherwise(d, r):
    fact = pick(d, r, "handover")
    if fact:
        fact.update(r.choice(({"what": "a letter", "information": None}, {"information": "no"},
                              {"dust_report": None}, {"dust_report": "no"})))


def handed_over_twice(d, r):
    """Another paper before or after it, that told something or nothing."""
    fact = pick(d, r, "handover")
    if fact:
        more = {k: v for k, v in fact.items() if k != "entry"}
        more.update(on=move(fact["on"], r.choice((-20, -3, 0, 2, 40))),
                    **r.choice(({}, {"what": "a letter", "information": None}, {"information": "no"},
                                {"dust_report": None})))
        d.add("handover", **more)


def planned_method(d, r):
    area = pick(d, r, "area")
    d.add("practice", area=area["id"], method=r.choice(("hand", "demolition")),
          person="lee", on=move(d.start, -2), planned="yes")


def worked_later(d, r):
    """Work, or a sample, or a look after all was done."""
    fact = pick(d, r, "practice")
    if fact:
        d.add("practice", **{**{k: v for k, v in fact.items() if k != "entry"},
                             "on": move(d.end, r.choice((0, 1, 2)))})


WAYS = ((unsaid, 24), (not_logged, 10), (other_day, 8), (whole_step_later, 3), (notice_limits, 5),
        (certificate_ends, 4), (long_certificate, 3), (renewal, 2), (dates_at_the_end, 4),
        (wrong_person, 7), (topics, 4), (cleaned_between, 3), (measured, 3), (sizes, 4), (paint_numbers, 3),
        (wait_numbers, 2), (cleaning_order, 2), (year, 2), (methods, 3), (cloth, 3), (house_facts, 5),
        (start_moves, 2), (other_device, 2), (undone, 3), (not_needed, 3), (extra_part, 4),
        (part_removed, 3), (refinished, 1), (extra_area, 3), (occupants, 3), (scope, 3),
        (other_method, 2), (told_days, 2), (handed_over_otherwise, 2), (handed_over_twice, 2), (planned_method, 2),
         (worked_later, 2)) + dusty.WAYS + hurried.WAYS + at_end.WAYS + helped.WAYS + placed.WAYS + several.WAYS + \
    roomy.WAYS + closing.WAYS + meanwhile.WAYS + apart.ALL


OF_UNITS = ((scope, 4), (beyond_told, 4), (told_days, 4), (several.second_change, 4), (several.second_notice, 4), (several.second_party, 2),
            (several.notice_says, 3), (worked_later, 2))


def spoil(d, r):
    """One thing goes wrong; where there is nothing of the kind, another one. Who is told of common areas has ways
    of its own to go wrong, and so has assisted housing."""
    before = d.text()
    for _ in range(6):
        ways = OF_UNITS if d.case in ("common", "unit-and-common") and r.random() < 0.25 else WAYS
        ways = unitwise.WAYS if len(d.areas) > 1 and d.house["building"] == "multi-unit" and r.random() < 0.2 else ways
        ways = helped.WAYS if d.house.get("assisted") == "yes" and r.random() < 0.3 else ways
        way = r.choices([w for w, _ in ways], [n for _, n in ways])[0]
        way(d, r)
        if d.text() != before:
            return
