"""40 CFR 745.82, 745.83 and 745.103: is the house and the work under the rule?

Each exemption must be shown; what nobody said frees nobody.
"""
import beside
import limits
import spelt
from facts import DAY, alike, date, once
from people import FIRST_PROGRAM, assessor, renovator, years_later

ZERO_BEDROOM_CHILD_FROM = date("2025-01-13")  # 89 FR 89416
MINOR_INSIDE, MINOR_OUTSIDE = 6, 20           # sq ft, 745.83
LEAD_LOADING, LEAD_WEIGHT = 1, 5000           # mg/cm2 and ppm, 745.103

USUAL_PARTS = {  # of an opening that is replaced; common practice
    "window": ("sash", "interior-sill", "apron", "interior-casing", "stop", "jamb", "trough",
               "exterior-sill", "exterior-casing"),
    "door": ("door-slab", "jamb", "stop", "interior-casing", "exterior-casing", "threshold"),
}
OF_A_WINDOW = ("sash", "trough", "interior-sill", "exterior-sill")  # wherever it is listed
SIDE_PARTS = {
    "interior": ("interior-sill", "apron", "interior-casing"),
    "exterior": ("exterior-sill", "exterior-casing"),
}


# ---- the paint, 745.82(a)(1)-(3) ------------------------------------------------------------

@once
def work_days(job):
    return [p.on for p in job.all("practice") if p.planned != "yes"]


@once
def begin(job):
    """First day of the work: as logged, else as planned."""
    return min(work_days(job) + [job.house.start])


def came_first(job, fact):
    """"Has determined": before the renovation begins, wherever, of one day by the times of both, and no later than
    completion. The work that is logged tells when it began; of completed work of which none is logged, the planned
    day does, and of that no time is said."""
    work = [p for p in job.all("practice") if p.planned != "yes"]
    if any(fact.on > c.on for c in job.all("completion")):
        return False
    if not work:
        return fact.on < job.house.start or (fact.on == job.house.start and not job.all("completion"))
    return all(fact.on < p.on or (fact.on == p.on and None not in (fact.time, begun_at(p)) and fact.time < begun_at(p))
               for p in work)


def begun_at(practice):
    """An end before the beginning says nothing of either."""
    odd = None not in (practice.time, practice.began) and practice.time < practice.began
    return None if odd else practice.began


def chip_limits(job, chip):
    """(found, limits) by weight and by loading."""
    said = [(chip.weight, "paint-weight", LEAD_WEIGHT), (chip.result, "paint-loading", LEAD_LOADING)]
    return [(found, [federal] + [v for v, _ in limits.local(job, name, chip.on, "at-least")])
            for found, name, federal in said if found is not None]


def chip_positive(job, chip):
    """745.103: at or above either limit."""
    return any(found >= least for found, of in chip_limits(job, chip) for least in of)


def chip_negative(job, chip):
    """Below the limits, and so far below that no chip of a composite can reach one."""
    n, said = chip.composite or 1, chip_limits(job, chip)
    return bool(said) and all(found * n < least for found, of in said for least in of)


@once
def lead_found(job, component):
    """A positive from anybody counts."""
    kits = job.all("kit_test", component=component.id)
    return (any(k.result == "positive" for k in kits)
            or any(chip_positive(job, c) for c in job.all("chip", component=component.id))
            or any(read_positive(job, r) for r in job.all("reading", component=component.id)))


def read_positive(job, reading):
    """745.103, of an instrument without a range in which it cannot tell."""
    most = [LEAD_LOADING] + [v for v, _ in limits.local(job, "paint-loading", reading.on, "at-least")]
    return any(reading.result >= level for level in most)


def found_negative(job, component):
    """745.82(a): somebody's test or determination says the contrary."""
    return (any(k.result == "negative" for k in job.all("kit_test", component=component.id))
            or any(chip_negative(job, c) for c in job.all("chip", component=component.id))
            or any(component.id in [d.component] + d.ids("components") or read_free(job, d, component)
                   for d in job.all("determination")))


def read_free(job, determination, component):
    """One that names nothing is of all that its assessor read as negative."""
    d = determination
    return not d.component and not d.ids("components") and any(
        not read_positive(job, r) for r in job.all("reading", component=component.id, operator=d.assessor))


@once
def determined_free(job, component):
    """745.82(a)(1): a certified inspector's or risk assessor's written determination that
    names it, made before the work, of which the firm holds a copy; it says how the components
    were tested or, by which documented method, sampled."""
    for d in job.all("determination"):
        named = d.component == component.id or component.id in d.ids("components")
        if (named and d.copy_held == "yes" and d.method and came_first(job, d)
                and assessor(job, d.assessor, d.on)):
            return True
    return False


def owner_record_free(job, component):
    """The same, where the owner has it from before: who signed was certified on that day, with a number to look it
    up by; it names the part. It tells of the federal levels, and nothing of a place's lower ones."""
    lower = any(limits.rows(job, name, job.house.start) for name in ("paint-weight", "paint-loading"))
    return not lower and any(
        o.discipline in ("inspector", "risk-assessor") and o.number and o.expires is not None
        and o.on <= o.expires <= years_later(o.on, 5) and o.on >= FIRST_PROGRAM  # 745.226(e)
        and o.copy_held == "yes" and came_first(job, o)
        and component.id in o.ids("components")
        for o in job.all("owner_record"))


def kit_free(job, component):
    """745.82(a)(2): a certified renovator, a recognized kit, before the work."""
    tests = job.all("kit_test", component=component.id)
    if any(o.result == "inconclusive" for o in tests):
        return False  # what a kit could not tell no other kit settles
    for k in tests:
        fits = component.substrate in k.ids("substrates")  # recognized for it, which somebody must have said
        if any(limits.rows(job, name, k.on) for name in ("paint-weight", "paint-loading")):
            continue  # it was recognized at the federal levels (745.88) and tells nothing of lower ones
        if (k.result == "negative" and k.recognized == "yes" and fits and came_first(job, k)
                and renovator(job, k.tester, k.on)):
            return True
    return False


def chip_free(job, component):
    """745.82(a)(3): a certified renovator, a recognized laboratory, before the work."""
    return any(chip_negative(job, c) and c.nllap == "yes" and came_first(job, c)
               and renovator(job, c.sampler, c.on)
               for c in job.all("chip", component=component.id))


def whole_of(job, component):
    """745.82(a)(2)-(3): the parts of one integrated whole, by the part that was tested."""
    root = component.part_of
    return [c for c in job.all("component") if root in (c.id, c.part_of)]


def one_whole(job, a, b):
    """On one side of one opening, or of one room, of one kind and one known substrate: what hangs inside
    and what hangs outside, or a sash and its jamb, is no whole like "the individual stair treads and
    risers"."""
    if a.opening or b.opening:
        together = a.opening == b.opening
    else:
        together = room_of(job, a) == room_of(job, b)
    known = not disputed(job, a) and not disputed(job, b)
    return together and a.type == b.type and a.side == b.side and a.substrate == b.substrate and known


def whole_free(job, component):
    """One kit test or chip stands for the whole, unless the part looks separately repainted
    or refinished, or lead was found on a part."""
    tested = job.one("component", id=component.part_of) if component.part_of else None
    if tested is None or component.refinished != "no" or tested.refinished == "yes":
        return False
    if tested.painted == "no":  # no paint of it was tested
        return False
    if any(lead_found(job, part) for part in whole_of(job, component)):
        return False
    if not one_whole(job, tested, component):
        return False
    return kit_free(job, tested) or chip_free(job, tested)


def lead_on_its_whole(job, component):
    """What one test of it may free, one test of it finds, whatever else is said of the part."""
    of_it = component.refinished == "no" and component.painted != "no" and component.part_of
    return bool(of_it) and (any(k.result == "positive" for k in job.all("kit_test", component=of_it))
                            or any(chip_positive(job, c) for c in job.all("chip", component=of_it)))


@once
def shown_free(job, component):
    """None of it is lead-based paint, as 745.82(a) wants it shown; a kit or chip that found lead on the whole that it is
    a part of found it here."""
    if lead_found(job, component) or lead_on_its_whole(job, component):
        return False
    if chip_free(job, component) or whole_free(job, component):
        return True
    return not disputed(job, component) and (determined_free(job, component) or kit_free(job, component)
                                             or owner_record_free(job, component))


@once
def disputed(job, component):
    """Its entry and a reading of it disagree about what is under the paint, on which the result of an instrument and
    the recognition of a kit depend."""
    return any(r.substrate != component.substrate for r in job.all("reading", component=component.id))


# ---- what the work disturbs, 745.83 "renovation" -----------------------------------------------

def disturbed(job, component):
    """Its paint is disturbed: what comes off is, and what is not said is."""
    painted = component.painted != "no" or lead_found(job, component)
    return painted and (component.affected != "no" or component.removed == "yes")


@once
def disturbed_components(job):
    return [c for c in job.all("component") if disturbed(job, c)]


def opening_of(job, component):
    return job.one("opening", id=component.opening) if component.opening else None


@once
def replaced(job, opening):
    """An opening is replaced when that is said, or a component of it comes off, or nothing
    is said of it and the kinds of work say so."""
    parts = job.all("component", opening=opening.id)
    if opening.replaced == "yes" or any(c.removed == "yes" for c in parts):
        return True
    return opening.replaced is None and opening.kind + "-replacement" in job.house.ids("work")


def listed(job, opening):
    return bool(job.all("component", opening=opening.id))


def taken_out(job, opening):
    """The sash of a window, or the slab of a door, that is replaced is affected (745.82(a)); it
    is neither kept nor absent."""
    main = "sash" if opening.kind == "window" else "door-slab"
    its = [c for c in job.all("component", opening=opening.id) if c.type == main]
    if not its:
        return main not in opening.ids("absent")
    return any(c.affected != "no" or c.removed == "yes" for c in its)


def complete(job, opening):
    """Each usual part is listed, or it is said not to be there."""
    works = job.house.ids("work")
    said = opening.replaced or ("yes" if opening.kind + "-replacement" in works else "no")
    if said == "yes" and not taken_out(job, opening):
        return False
    return accounted(job, opening).issuperset(USUAL_PARTS[opening.kind])


def accounted(job, opening):
    """The parts that are listed, or said not to be there."""
    there = {c.type for c in job.all("component", opening=opening.id)}
    for word in opening.ids("absent"):
        there |= set(SIDE_PARTS.get(word, (word,)))
    return there


def on_schedule(job):
    """Windows or doors that are to be replaced are on the schedule."""
    works = job.house.ids("work")
    return all(any(o.kind == kind and replaced(job, o) for o in job.all("opening"))
               for kind in ("window", "door") if kind + "-replacement" in works)


def all_openings_told(job):
    """Whether it is said of each opening what the work does to its paint."""
    return beside.nothing_beside(job) and on_schedule(job) and all(listed(job, o) and (complete(job, o) or not replaced(job, o))
               for o in job.all("opening"))


def lead_off_the_list(job):
    """Lead was found on a part that the job does not list."""
    ids = {c.id for c in job.all("component")}
    tests = [k for k in job.all("kit_test") if k.result == "positive"]
    tests += [c for c in job.all("chip") if chip_positive(job, c)]
    tests += [r for r in job.all("reading") if read_positive(job, r)]
    return any(t.component not in ids for t in tests)


# ---- the exemptions ------------------------------------------------------------------------------

def built_later(job):
    """745.103: constructed before 1978; a year that is not known is presumed to be."""
    return job.house.year_built is not None and job.house.year_built >= 1978


def not_for_pay(job):
    """745.82(a): renovation for compensation; rent is compensation, and so is what was invoiced
    whatever was said of it."""
    return not job.all("invoice") and job.house.for_compensation == "no" and \
        job.house.owner_occupied == "yes" and not beside.paid(job)


def is_housing(job):
    return job.house.building in ("dwelling", "multi-unit")


def no_target_housing(job):
    """745.103: housing for the elderly or disabled, or of zero bedrooms, where no child
    under 6 lives or is expected to."""
    house = job.house
    if not is_housing(job) or is_facility(job) or beside.contradicted(job):
        return False
    studio = house.zero_bedroom == "yes" and not beside.bedroom_listed(job)
    if studio and max([house.start] + work_days(job)) < ZERO_BEDROOM_CHILD_FROM:
        return True
    return house.child_under_6 == "no" and (studio or house.elder_or_disabled == "yes")


def visits_of(job, child):
    """Minutes by day of one child while under 6, 745.83 "child-occupied facility"."""
    minutes = {}
    for v in job.all("visit", child=child):
        day, until = v.on, v.weekly_until or v.on
        while day <= until:
            if v.born is None or day < years_later(v.born, 6):
                minutes[day] = minutes.get(day, 0) + v.minutes
            day += 7 * DAY
    return minutes


def regular_visits(minutes):
    """745.83: on two days of a week from Sunday on, 3 hours each, 6 hours in the week and 60
    in a year."""
    weeks = {}
    for day, length in minutes.items():
        sunday = day - DAY * ((day.weekday() + 1) % 7)
        if length >= 180:
            weeks.setdefault(sunday, []).append(length)
    often = any(len(w) >= 2 and sum(w) >= 360 for w in weeks.values())
    years = [sum(m for day, m in minutes.items() if first <= day < years_later(first, 1))
             for first in minutes]
    return often and max(years, default=0) >= 3600


def is_facility(job):
    """745.83: a child-occupied facility may be in target housing too."""
    if job.house.building == "facility":
        return True
    children = {v.child for v in job.all("visit")}
    if any(regular_visits(visits_of(job, c)) for c in children):
        return True
    return job.house.children_visit == "yes" and not all_visits_counted(job)


def all_visits_counted(job):
    """745.83 goes by the visits of a week and of a year: those that somebody says are all of
    them. Visits on a list of which nobody says so leave open what else comes."""
    return bool(job.all("visit")) and bool(job.house.visits_all_by)


def owes_to_facility(job):
    """745.84(c), 745.86(c)(1)(ii)."""
    return not is_housing(job) or is_facility(job)


def no_facility(job):
    """745.83: neither housing nor, by the visits of children, a facility. Presumed to be one
    while neither all visits are counted nor any is denied."""
    if job.house.building != "other" or is_facility(job) or beside.contradicted(job):
        return False
    if job.all("visit"):
        return all_visits_counted(job)
    return job.house.children_visit == "no"


def work_listed(job):
    """What the work touches is on the list: a job that touches nothing on it touches
    something else."""
    return any(c.affected != "no" or c.removed == "yes" for c in job.all("component"))


def nothing_painted(job):
    """745.83 "renovation": no painted surface is disturbed."""
    return work_listed(job) and not disturbed_components(job) and all_openings_told(job) and \
        not lead_off_the_list(job)


def all_free(job):
    """745.82(a)(1)-(3): every component that the work affects is shown free."""
    affected = disturbed_components(job)
    return bool(affected) and all(shown_free(job, c) for c in affected) and \
        all_openings_told(job) and not lead_off_the_list(job)


def restricted_method(practice):
    """745.83: a practice that 745.85(a)(3) prohibits or restricts; demolition."""
    return practice.method in ("open-flame", "machine", "heat-gun", "blasting", "demolition")


def window_replacement(job):
    """745.83: what is done decides, whatever the job is called."""
    if "window-replacement" in job.house.ids("work"):
        return True
    if any(c.removed == "yes" and opening_of(job, c) is None and (c.type in OF_A_WINDOW or beside.called_window(c))
           for c in job.all("component")):
        return True
    return any(o.kind == "window" and replaced(job, o) for o in job.all("opening"))


def comes_off(job, component):
    """What nobody says to stay of an opening that is replaced comes off with it."""
    opening = opening_of(job, component)
    if component.removed is None and opening is not None:
        return replaced(job, opening)
    return component.removed == "yes"


def removal_unsaid(job, component):
    """Whether it comes off nobody said, neither of it nor of its opening."""
    return component.removed is None and component.affected != "no" and not comes_off(job, component)


def minor_area(job, component):
    """745.83: the entire surface of what is removed, and so of what may be."""
    if not removal_unsaid(job, component):
        return area_of(job, component)
    if None in (component.whole, component.disturbed):
        return None
    return max(component.whole, component.disturbed)


def of_a_window(job, component):
    opening = opening_of(job, component)
    of_none = component.type in OF_A_WINDOW or beside.called_window(component)
    return of_none if opening is None else opening.kind == "window"


def area_of(job, component):
    """745.83: what is removed counts whole, the rest as far as it is disturbed."""
    if not comes_off(job, component):
        return component.disturbed
    if component.whole is None:
        return None
    return max(component.whole, component.disturbed or 0)


def room_of(job, component):
    if component.side == "exterior":
        return "outside"
    opening = opening_of(job, component)
    return alike(component.room or (opening.room if opening else None)) or None


def named_rooms(job):
    """The rooms of what is disturbed, each with the names it has."""
    rooms = {}
    for c in disturbed_components(job):
        rooms.setdefault(room_of(job, c), set()).add(
            "outside" if c.side == "exterior" else beside.room_said(job, c) or "")
    return rooms


def may_be_one(names, others):
    """Of "kitchen" and "kitchen, west end" nobody said that they are two rooms."""
    sets = [[spelt.words(beside.words(n), loosely=True) for n in each] for each in (names, others)]
    return any(one and two and (one <= two or two <= one) for one in sets[0] for two in sets[1])


def minor(job):
    """745.83 "minor repair and maintenance": up to 6 sq ft a room and 20 outside."""
    if window_replacement(job) or "demolition" in job.house.ids("work"):
        return False
    if any(restricted_method(p) for p in job.all("practice")) or lead_off_the_list(job):
        return False
    if not work_listed(job) or not on_schedule(job):
        return False
    if not all_openings_told(job):
        return False
    if any(removal_unsaid(job, c) and of_a_window(job, c) for c in job.all("component")):
        return False  # it may be window replacement
    rooms, somewhere = {"": 0}, 0
    for c in disturbed_components(job):
        area, room = minor_area(job, c), room_of(job, c)
        if area is None:
            return False
        if room is None:
            somewhere += area  # it may be in any room
        else:
            rooms[room] = rooms.get(room, 0) + area
    written, names_of = dict(rooms), named_rooms(job)
    for room, names in names_of.items():
        if room is None:
            rooms[""] = somewhere
        elif room != "outside":
            rooms[room] = somewhere + sum(n for other, n in written.items() if other not in ("", "outside") and
                                          (other == room or may_be_one(names, names_of[other])))
        dry = max(beside.worked_dry(job, name) for name in names)
        rooms[room or ""] = max(rooms[room or ""], dry)  # where more was worked dry than is listed
    return all(limits.holds(job, "minor-exterior", day, total, MINOR_OUTSIDE, "up-to") if room == "outside"
               else limits.holds(job, "minor-interior", day, total, MINOR_INSIDE, "up-to")
               for room, total in rooms.items() for day in days_of_limits(job))


def days_of_limits(job):
    """The planned start, and each day of the job on which a limit comes into force."""
    ends = [c.on for c in job.all("completion")] or [job.house.end]
    shown = work_days(job) + [f.on for kind in ("verification", "dust_sample") for f in job.all(kind)]
    shown += [t.on for t in job.all("tick") if t.step in ("chips", "sheeting", "walls", "surfaces", "carpet", "mop",
                                                           "margin", "divider", "clean-outside")]
    last = date("9999-12-31") if None in ends else max(ends + shown)
    return [job.house.start] + [r.get("from") for r in job.all("local_limit")
                                if r.get("from") and job.house.start < r.get("from") <= last]


EXEMPTIONS = (
    ("745.103 year", built_later), ("745.82(a) pay", not_for_pay),
    ("745.103 housing", no_target_housing), ("745.83 facility", no_facility),
    ("745.83 nothing painted", nothing_painted), ("745.83 minor", minor),
    ("745.82(a)(1)-(3) free", all_free),  # of renovations, which minor work is not
)


@once
def exemption(job):
    """The first exemption that is shown, or None: under the rule."""
    for name, shown in EXEMPTIONS:
        if shown(job):
            return name
    return None
