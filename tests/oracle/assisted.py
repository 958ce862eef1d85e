"""24 CFR part 35 for assisted housing, on top of the renovation rule: 35.115, 35.140, 35.1340,
35.1345, 35.1350. Asked only of jobs under the renovation rule."""
import beside
import clean
import contain
import dust
import small
from cover import all_openings_told, area_of, begin, begun_at, disturbed_components, may_be_one, named_rooms, room_of, shown_free, work_days, work_listed
from facts import DAY, Fact, alike, once
from people import assessor, certified

INSIDE, OUTSIDE = 2, 20              # sq ft, 35.1350(d)
EIGHT_HOURS, FIVE_DAYS, MARGIN = 480, 5, 10  # 35.1345(a)(2)(iii)-(iv)
NEAR = 5                             # ft, 35.1340(g)(2)


def counted(job):
    """35.115(a)(4)-(5): what is shown to be free is not."""
    return [c for c in disturbed_components(job) if not shown_free(job, c)]


def exempt(job):
    """35.115(a)(1)-(3): zero bedrooms, or for the elderly without a child."""
    house = job.house
    studio = house.zero_bedroom == "yes" and not beside.bedroom_listed(job)
    return studio or (house.elder_or_disabled == "yes" and house.child_under_6 == "no")


@once
def holds(job):
    return job.house.assisted == "yes" and not exempt(job) and not de_minimis(job)


def de_minimis(job):
    """35.1350(d): 2 sq ft in a room, 20 outside, and a tenth of a small type of component."""
    if not all_openings_told(job) or not work_listed(job):
        return False  # nobody knows how much that is
    rooms, anywhere = {}, 0
    for c in counted(job):
        area, room = area_of(job, c), room_of(job, c)
        if area is None or (small.is_small(c) and not small.within_tenth(job, c, counted(job))):
            return False
        if room is None:  # in which room nobody said: in any
            anywhere += area
        else:
            rooms[room] = rooms.get(room, 0) + area
    names = named_rooms(job)
    rooms = {room: sum(n for other, n in rooms.items() if other == room or (
        "outside" not in (room, other) and may_be_one(names[room], names[other]))) for room in rooms}
    for c in counted(job):  # more was worked dry there than is listed
        room = room_of(job, c)
        dry = beside.worked_dry(job, "outside" if room == "outside" else beside.room_said(job, c))
        if room is None:
            anywhere = max(anywhere, dry)
        else:
            rooms[room] = max(rooms[room], dry)
    return anywhere <= INSIDE and all(
        n <= OUTSIDE if room == "outside" else n + anywhere <= INSIDE for room, n in rooms.items())


# ---- before demo -----------------------------------------------------------------------------------

def hours_inside(job, day):
    """(iii): "within one period of 8 daytime hours", as far as the times of the work inside are logged."""
    outside = [a.id for a in job.all("area") if a.side == "exterior"]
    said = [t for p in job.all("practice") if p.planned != "yes" and p.on == day and p.area not in outside
            for t in (p.began, p.time) if t is not None]
    at_night = any(t < 6 * 60 or t > 21 * 60 for t in said)  # "daytime": common practice, no source
    return EIGHT_HOURS + 1 if at_night else max(said) - min(said) if said else 0


def stays_safely(job, o):
    """35.1345(a)(2)."""
    inside = any(a.side == "interior" for a in job.all("area"))
    if o.stay == "relocated":
        return True
    if o.stay == "exterior":
        return not inside and o.sealed == "yes" and o.free_entry == "yes"
    if o.stay == "one-day":
        return o.minutes is not None and max(o.minutes, hours_inside(job, o.get("from"))) <= EIGHT_HOURS \
            and o.other_hazard == "no" \
            and o.get("from") is not None and o.get("from") == o.until
    if o.stay == "few-days":
        return o.margin is not None and o.margin >= MARGIN and o.reachable == "yes" \
            and o.other_hazard == "no" and o.get("from") is not None and o.until is not None \
            and (o.until - o.get("from")) // DAY < FIVE_DAYS
    return False  # no-hazard: lead is presumed


def cleaning_days(job):
    """"Will be completed within": until inside is clean the hazard is there, (iii)-(iv). Of places outside nobody asks."""
    outside = [a.id for a in job.all("area", side="exterior")]
    done = [t for t in job.all("tick") if t.state == "done" and t.step in contain.CLEANING]
    done += [v for v in job.all("verification") if v.event == "recleaned"]
    return [x.on for x in done if x.area not in outside]


def in_days(job, o, today):
    """Of an open job its planned end too: (iii)-(iv) say how long treatment "will" take."""
    outside = [a.id for a in job.all("area", side="exterior")] if o.sealed == "yes" and o.free_entry == "yes" else []
    days = [p.on for p in job.all("practice") if p.planned != "yes" and p.area not in outside]  # (ii): but for those
    days += cleaning_days(job)
    days += [job.today] if today else [] if work_days(job) else [begin(job)]
    if not days:
        return True
    if job.house.end and not job.all("completion"):
        days = days + [max(min(days), job.house.end)]
    return not (o.get("from") and min(days) < o.get("from")) and not (o.until and max(days) > o.until)


def occupants(job, today):
    """35.1345(a)."""
    found = job.all("occupancy")  # one: of two, each is asked of its own
    gaps = [] if any(o.kept_out == "yes" for o in found) else ["24 CFR 35.1345(a)(1) kept out"]
    if not any(stays_safely(job, o) and (o.stay == "exterior" or in_days(job, o, today)) for o in found):
        gaps.append("24 CFR 35.1345(a)(2) where they stay")
    return gaps


def same_room(one, other):
    """"In any one interior room or space"; the exterior is one."""
    return one.side == other.side and (one.side == "exterior" or alike(one.place) == alike(other.place))


def dry_spots(job, area):
    """35.140(e): sq ft "totaling", but what lies by an outlet; None = nobody says how much."""
    ids = [a.id for a in job.all("area") if same_room(a, area)]
    spots = [p.spot for p in job.all("practice") if p.area in ids and p.planned != "yes" and dry(p)]
    return None if None in spots else sum(spots)


def dry(practice):
    return practice.method in ("dry-scrape", "dry-sand") and practice.near_outlet != "yes"


def prohibited(job, practice, area):
    """35.140(d)-(f); a gun with the spot scraped dry is in (e)."""
    if dry(practice):
        total = practice.spot if practice.planned == "yes" else dry_spots(job, area)
        return total is None or total > (OUTSIDE if area.side == "exterior" else INSIDE)
    return practice.method == "stripper" and practice.ventilated != "yes"


def methods(job, areas):
    areas = {a.id: a for a in areas}
    return ["24 CFR 35.140 %s" % p.method for p in job.all("practice")
            if p.area in areas and prohibited(job, p, areas[p.area])]


def signs_there(job, areas):
    """35.1345(b)(2)."""
    return ["24 CFR 35.1345(b)(2) %s sign" % a.id for a in areas
            if not contain.step_ok(job, a, "signs-assisted")]


HOLD_DUST = ("isolate", "ducts", "doors-closed", "floor-sheet", "ground-sheet")


def prepared(job, areas):
    """35.1345(b)(1), 35.1350(b): "prepared to prevent the release of leaded dust"; an emergency
    frees of 745.85 and not of this."""
    return ["24 CFR 35.1345(b) %s %s" % (a.id, s) for a in areas for s in contain.contain_steps(a)
            if s in HOLD_DUST and not contain.step_ok(job, a, s)]


def before_demo(job, areas, today=False):
    return occupants(job, today) + methods(job, areas) + signs_there(job, areas) + prepared(job, areas)


# ---- clearance, 35.1340 --------------------------------------------------------------------------------

@once
def crew(job):
    """(f): those who did the hazard reduction."""
    who = {t.person for t in job.all("tick")} | {t.renovator for t in job.all("tick")}
    who |= {p.person for p in job.all("practice") if p.planned != "yes"}
    return who | {a.person for a in job.all("assignment")}


def examiner(job, sample):
    """(b)(1), (f): independent; a technician's work is approved and signed by an inspector or
    assessor. Who employs the sampler must be said."""
    if sample.sampler in crew(job) or sample.employer not in ("owner", "independent"):
        return False
    return assessor(job, sample.sampler, sample.on) or (
        sample.approved_by not in crew(job) and assessor(job, sample.approved_by, sample.on))


def assessed(job, area):
    """(b)(2)(ii): looked over by an examiner after the cleaning, and after what a failed sample made
    be cleaned again: no words that were seen let the look stand."""
    found = clean.looks(job, area)
    if not found or found[-1].event != "look-clean":
        return False
    last = clean.last_cleaning(job, area)
    return any(v.event == "look-clean" and v.person not in crew(job)
               and certified(job, v.person, dust.SAMPLERS, v.on)
               and clean.after_work(job, area, v) and (last is None or clean.after(v, last))
               for v in found)


def inside(job, area):
    """Of a room alone: (g)(1)."""
    return [s for s in dust.samples(job, area) if s.outside is None and not dust.of_another_area(job, area, s)]


def outside(job, area):
    """(g)(2): a floor sampled within five feet outside the area, by the last sample of its place."""
    return any(s.surface == "floor" and s.outside is not None and s.outside <= NEAR
               for s in dust.samples(job, area) if not dust.superseded(job, area, s))


def found_beside(job, given_up):
    """(e): where the work was called off nothing is cleaned, but what was sampled there once work had begun may be the
    dust of it: after a failure that is cleaned, not sampled until it passes."""
    gaps = []
    for area in [a for a in given_up if a.side == "interior"]:
        found = dust.samples(job, area)
        beforehand = all(clean.earlier_surely(s, begun) for s in found for begun in beginnings(job))
        again = any(not dust.below(s) and t.surface == s.surface for n, s in enumerate(found) for t in found[n + 1:])
        if again and not beforehand:
            gaps.append("24 CFR 35.1340(e) %s not cleaned between the samples" % area.id)
    return gaps


def beginnings(job):
    """Of each day of work, with the time at which it is said to have begun."""
    return [Fact(on=p.on, time=begun_at(p)) for p in job.all("practice") if p.planned != "yes"]


def clearance(job, areas):
    """(b)(2), (d)-(g)."""
    gaps = []
    for area in areas:
        if not assessed(job, area):
            gaps.append("24 CFR 35.1340(b)(2)(ii) %s nobody looked" % area.id)
        if area.side == "exterior":
            continue
        gaps += dust.cleared(job, area)
        if not any(s.surface == "floor" for s in inside(job, area)):
            gaps.append("24 CFR 35.1340(g)(1) %s no floor of it" % area.id)
        if not outside(job, area):
            gaps.append("24 CFR 35.1340(g)(2) %s no floor outside it" % area.id)
        if not all(examiner(job, s) for s in dust.samples(job, area) if not dust.superseded(job, area, s)):
            gaps.append("24 CFR 35.1340(b)(1), (f) %s examiner" % area.id)
    return gaps
