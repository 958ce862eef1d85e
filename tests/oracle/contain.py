"""40 CFR 745.85(a): signs, containment, methods, waste and cleaning of a work area."""
import limits
import spelt
from cover import USUAL_PARTS, accounted, disturbed_components, replaced
from emergency import step_waived, waived
from facts import DAY, Fact, alike, once
from people import may_do, renovator
from present import beside, duct_of_the_room, near, of_the_room

FLOOR_FT, GROUND_FT, LINE_FT, MARGIN_FT = 6, 10, 10, 2  # (a)(2)(i)(D), (ii)(C)-(D), (a)(5)(ii)
END_OF_DAY = 24 * 60
LAST_MINUTE = END_OF_DAY - 1
HEAT_GUN_F = 1100                                       # (a)(3)(iii)

PARAGRAPH = {
    "signs-assisted": "24 CFR 35.1345(b)(2)",
    "signs": "745.85(a)(1)", "signs-language": "745.85(a)(1)", "isolate": "745.85(a)(2)",
    "egress": "745.85(a)(2)", "objects": "745.85(a)(2)(i)(A)", "ducts": "745.85(a)(2)(i)(B)",
    "windows-closed": "745.85(a)(2)(i)(C)", "doors-closed": "745.85(a)(2)(i)(C)",
    "doors-used": "745.85(a)(2)(i)(C)", "floor-sheet": "745.85(a)(2)(i)(D)",
    "windows-outside": "745.85(a)(2)(ii)(A)", "doors-outside": "745.85(a)(2)(ii)(A)",
    "openings-below": "745.85(a)(2)(ii)(A)", "doors-used-outside": "745.85(a)(2)(ii)(B)",
    "ground-sheet": "745.85(a)(2)(ii)(C)", "line-containment": "745.85(a)(2)(ii)(D)",
    "barriers-whole": "745.85(a)(2)", "leave-clean": "745.85(a)(2)(i)(E)",
    "waste-contained": "745.85(a)(4)(i)", "waste-chute": "745.85(a)(4)(i)",
    "waste-daily": "745.85(a)(4)(ii)", "waste-transport": "745.85(a)(4)(iii)",
    "chips": "745.85(a)(5)(i)(A)", "sheeting": "745.85(a)(5)(i)(B)",
    "divider": "745.85(a)(5)(i)(B)", "walls": "745.85(a)(5)(ii)(A)",
    "surfaces": "745.85(a)(5)(ii)(B)-(C)", "carpet": "745.85(a)(5)(ii)(B)",
    "mop": "745.85(a)(5)(ii)(C)", "margin": "745.85(a)(5)(ii)", "clean-outside": "745.85(a)(5)",
}
WORK_STEPS = ("barriers-whole", "leave-clean", "waste-contained", "waste-chute", "waste-daily",
              "waste-transport")
TOPIC = {"signs": "signs", "signs-assisted": "signs", "signs-language": "signs", "waste-contained": "waste",
         "waste-chute": "waste", "waste-daily": "waste", "waste-transport": "waste",
         "barriers-whole": "containment", "leave-clean": "containment"}


# ---- which steps an area needs -------------------------------------------------------------------

def contain_steps(area):
    """(a)(1) and (a)(2); what is not said of the area is there."""
    steps = ["signs", "signs-language", "isolate", "egress"]
    if area.side == "interior":
        steps += ["objects"] * (area.objects != "no") + ["ducts"] * (area.ducts != "no")
        steps += ["windows-closed", "doors-closed"]
        return steps + ["doors-used"] * (area.doors_used != "no") + ["floor-sheet"]
    steps += ["windows-outside", "doors-outside"]
    steps += ["openings-below"] * (area.storeys is None or area.storeys > 1)
    steps += ["doors-used-outside"] * (area.doors_used != "no") + ["ground-sheet"]
    near = area.line is None or area.line <= LINE_FT  # what nobody measured may be within
    return steps + ["line-containment"] * near


def work_steps(area):
    """(a)(2), (a)(2)(i)(E), (a)(4)."""
    return [s for s in WORK_STEPS if area.side == "interior" or s != "leave-clean"]


def clean_steps(area):
    """(a)(5)."""
    if area.side == "exterior":
        return ["chips", "sheeting", "clean-outside"]
    steps = ["chips", "sheeting", "walls", "surfaces"] + ["carpet"] * (area.carpet != "no")
    return steps + ["mop", "margin", "divider"]


def lacked_until(job, area):
    """What was not done went on lacking until the last work there, or today while there may be more."""
    worked = max((p.on for p in practices(job, area)), default=None)
    if not may_go_on(job, area):
        return worked or job.house.start
    return max(d for d in (job.today, job.house.start, worked) if d)


@once
def asked_steps(job, area):
    """But those of which an emergency frees, 745.82(b); what the plan shows is there, whatever the area says."""
    return [s for s in wanted_steps(job, area) if not step_waived(job, s, lacked_until(job, area))]


def wanted_steps(job, area):
    steps = contain_steps(area)
    inside = area.side == "interior"
    if inside and (drawn(job, area, "duct") or duct_of_the_room(job, area)) and "ducts" not in steps:
        steps.append("ducts")
    used = "doors-used" if inside else "doors-used-outside"
    return steps + [used] * (drawn(job, area, "flap") and used not in steps)


def drawn(job, area, what):
    return bool(job.all("fixture", area=area.id, what=what))


@once
def asked_at_work(job, area):
    return [s for s in work_steps(area) if not step_waived(job, s, lacked_until(job, area))]


CLEANING = ("chips", "sheeting", "divider", "walls", "surfaces", "carpet", "mop", "margin", "clean-outside")


def topic_of(step):
    if step in TOPIC:
        return TOPIC[step]
    return "cleaning" if step in CLEANING else "containment"


# ---- what may be left out ---------------------------------------------------------------------------

def bare_floor(job, area):
    return area.carpet == "no" or bool(job.all("surface", area=area.id, kind="floor"))


PLASTIC = ("ducts", "doors-closed", "doors-used", "doors-used-outside", "floor-sheet", "ground-sheet", "vertical-barrier",
           "line-containment", "sheeting", "divider")


def sheet_there(job, area):
    """745.82(b): an emergency frees of containment, never of cleaning; what nobody had to lay, and nobody says was up, is
    not folded, 745.85(a)(5)(i)(B)."""
    day = max((p.on for p in practices(job, area)), default=job.house.start)
    return not waived(job, "containment", day) or any(
        t.state == "done" and t.step in PLASTIC for t in job.all("tick", area=area.id))


# step: grounds it takes, and what in the job speaks against leaving it out
LEFT_OUT = {
    "objects": (("none-present",), lambda job, a: a.objects == "yes"),
    "ducts": (("none-present",), lambda job, a: a.ducts == "yes" or beside(job, a, "ducts") or
              drawn(job, a, "duct") or duct_of_the_room(job, a)),
    "windows-closed": (("none-present",), lambda job, a: of_the_room(job, a, "window")),
    "doors-closed": (("none-present",), lambda job, a: a.doors_used == "yes" or
                     beside(job, a, "doors-used") or of_the_room(job, a, "door")),
    "doors-used": (("none-present", "not-used"), lambda job, a: a.doors_used == "yes" or drawn(job, a, "flap")),
    "windows-outside": (("none-present",), lambda job, a: near(job, a, "window")),
    "doors-outside": (("none-present",), lambda job, a: a.doors_used == "yes" or near(job, a, "door")),
    "openings-below": (("none-present", "one-story"),
                       lambda job, a: a.storeys is not None and a.storeys > 1),
    "doors-used-outside": (("none-present", "not-used"), lambda job, a: a.doors_used == "yes" or drawn(job, a, "flap")),
    "floor-sheet": (("impossible",), lambda job, a: False),
    "ground-sheet": (("impossible",), lambda job, a: False),
    "waste-chute": (("none-present", "not-used"), lambda job, a: False),
    "carpet": (("none-present",), lambda job, a: a.carpet == "yes"),
    "mop": (("all-carpet",), bare_floor),
    "divider": (("none-present",), lambda job, a: False),
    "sheeting": (("none-present",), lambda job, a: sheet_there(job, a)),
}


def lawfully_left_out(job, area, tick):
    """Not needed, on a ground that the step takes and nothing contradicts."""
    if tick.step not in LEFT_OUT:
        return False
    grounds, contradicted = LEFT_OUT[tick.step]
    if contradicted(job, area):
        return False
    if tick.ground in (None, "own-words", "impossible") and not tick.reason:
        return False
    if tick.ground in (None, "own-words"):
        return True
    return tick.ground in grounds


# ---- the state of a step -----------------------------------------------------------------------------

@once
def ticks(job, area, step, until=None):
    """In the order of their times; one without a time comes after what was logged before it on its day."""
    found, place, latest = [t for t in job.all("tick", area=area.id, step=step) if until is None or t.on <= until], {}, {}
    for t in found:
        place[t] = latest.get(t.on, -1) if t.time is None else t.time
        latest[t.on] = max(place[t], latest.get(t.on, -1))
    return sorted(found, key=lambda t: (t.on, place[t]))


def present(job, tick):
    """745.90(b)(3): a certified renovator is named as present, or did it."""
    return any(renovator(job, p, tick.on) for p in (tick.renovator, tick.person))


@once
def may_go_on(job, area):
    """Paint may still be disturbed there: neither completed nor cleaned since the last work."""
    worked = max((p.on for p in practices(job, area)), default=None)
    return not job.all("completion") and not (worked and any(
        t.state == "done" and t.on >= worked for s in clean_steps(area) for t in ticks(job, area, s)))


def far_enough(job, area, tick, until):
    """(a)(2)(i)(D), (ii)(C), (a)(5)(ii): the measured extent, by the limits of the day asked while it lies
    there; sheeting may end at a sealed barrier, ground sheeting at the property line."""
    asked = {"floor-sheet": FLOOR_FT, "ground-sheet": GROUND_FT, "margin": MARGIN_FT}
    if tick.step not in asked:
        return True
    if tick.measured is None:
        return False
    name = "clean-margin" if tick.step == "margin" else tick.step
    day = until or (max(job.today, tick.on) if tick.step != "margin" and may_go_on(job, area) else tick.on)
    if limits.holds(job, name, day, tick.measured, asked[tick.step], "at-least"):
        return True
    if tick.step == "margin":
        return False
    if tick.step == "ground-sheet" and area.line is not None and \
            area.line < GROUND_FT and tick.measured >= area.line:
        return True
    return to_a_barrier(job, area, tick, until)


def to_a_barrier(job, area, sheet, until):
    """(a)(2)(i)(D), (ii)(C): which stands, or stood until all was clean and came down by right, after the sheet was laid."""
    from clean import earlier_surely
    found = ticks(job, area, "vertical-barrier", until)
    if not found or found[-1].state == "done":
        return step_done(job, area, "vertical-barrier", until)
    up = [t for t in found if t.state == "done" and not earlier_surely(found[-1], t)]
    return found[-1].state == "undone" and bool(up) and present(job, up[-1]) and \
        came_down_late(job, area, sheet, found[-1])


def came_down_late(job, area, sheet, barrier):
    from clean import earlier_surely
    folded = taken_down_when_clean(job, area, barrier) or folded_for_cleaning(job, area, barrier)
    return stood_once(job, area, barrier) and folded and not earlier_surely(barrier, sheet)


SIGNS = ("signs", "signs-language", "signs-assisted")


def folded_for_cleaning(job, area, tick):
    """(a)(5)(i)(B): "remove the protective sheeting" is part of the cleaning; once all work was over and that begun,
    what contained the area comes down with it. Signs stay, (a)(1)."""
    from clean import after_work, earlier_surely
    cleaning = [t for s in clean_steps(area) for t in ticks(job, area, s)
                if t.state == "done" and after_work(job, area, t)]
    folded = ticks(job, area, "sheeting")[-1:]
    if tick.step in SIGNS or not cleaning or not practices(job, area):
        return False
    began = min(cleaning, key=lambda t: t.when())
    if not folded or folded[0].state != "done" or folded[0].on < began.on:
        return False
    return after_work(job, area, tick) and not earlier_surely(tick, began)


@once
def taken_down_when_clean(job, area, tick):
    """(a)(1), (b)(1)(iii): signs and barriers have done their duty once the area was shown to
    be clean; of one day the times must say so."""
    import clean  # which ask this module what was done
    import dust
    sampled = dust.sampled(job, area)
    shown = dust.samples(job, area) if sampled else job.all("verification", area=area.id)
    return bool(shown) and not dust.shown_clean(job, area) and all(
        clean.earlier_surely(s, tick) or (not sampled and at_once(s, tick)) for s in shown)


def stood_once(job, area, tick):
    """What nobody says was ever up did not come down: "not needed", and then undone, is neither."""
    from clean import earlier_surely
    return any(t.state == "done" and not earlier_surely(tick, t) for t in ticks(job, area, tick.step))


def down_by_right(job, area, tick):
    """Waste is contained until it is off the site, (a)(4)(iii), clean or not."""
    if tick.step.startswith("waste") or not stood_once(job, area, tick):
        return False
    contained = tick.step in contain_steps(area) or tick.step == "barriers-whole"
    return taken_down_when_clean(job, area, tick) or (contained and folded_for_cleaning(job, area, tick))


def at_once(one, other):
    """In the same minute: nothing says that the cloth came later."""
    return one.on == other.on and one.time is not None and one.time == other.time


def step_ok(job, area, step, until=None):
    """The last word on the step: done as it must be, or lawfully left out."""
    found = ticks(job, area, step, until)
    if not found:
        return False
    tick = found[-1]
    if tick.state == "not-needed":
        return lawfully_left_out(job, area, tick)
    if tick.state != "done":
        return step not in clean_steps(area) and down_by_right(job, area, tick)
    if step in WORK_STEPS:
        return True
    return present(job, tick) and far_enough(job, area, tick, until)


def step_done(job, area, step, until=None):
    found = ticks(job, area, step, until)
    return bool(found) and found[-1].state == "done" and step_ok(job, area, step, until)


def by_crew(job, area, steps):
    """745.89(d)(1), 745.90(b)(2): whoever did a step was certified or taught it by then."""
    for step in steps:
        if step not in clean_steps(area) and waived(job, "training", lacked_until(job, area)):
            continue
        found = ticks(job, area, step)
        if found and found[-1].state == "done" and not may_do(job, found[-1].person, topic_of(step), found[-1].on):
            return False
    return True


def contained_by_crew(job, area):
    """The signs of part 35 are those of 745.85(a)(1) as well."""
    return by_crew(job, area, contain_steps(area) + ["signs-assisted"])


def disturbed_by_crew(job, area):
    """745.89(d)(1), 745.90(b)(2): whoever disturbed paint was taught how by then; whoever is to, by now. Of an
    emergency each day's work is asked by its own day, 745.82(b)."""
    needed = [(p.person, max(p.on, job.today) if p.planned == "yes" else p.on) for p in job.all("practice", area=area.id)]
    return all(may_do(job, person, "practices", day) or waived(job, "training", day) for person, day in needed)


# ---- containment over time ----------------------------------------------------------------------------

def last_when(found):
    return max((t.when() for t in found), default=None)


@once
def taken_down(job, area, before=None):
    """When the sheeting was last folded, or the area verified or cleared, before some work (its day and the last
    minute of it that is said); None = never."""
    from clean import earlier
    down = [t for s in ("sheeting", "divider") for t in ticks(job, area, s) if t.state == "done"]
    down += [v for v in job.all("verification", area=area.id) if v.event != "look-dirty"]
    down += [s for s in job.all("dust_sample", area=area.id, required="yes") if s.blank != "yes"]
    return max((at_the_latest(f) for f in down if before is None or earlier(f, before)), default=None)


def at_the_latest(fact):
    """What has no time may have been at the end of its day."""
    return (fact.on, END_OF_DAY if fact.time is None else fact.time)


def still_up(job, area):
    """(a)(2): laid after it was last taken down, and not found torn since it was last found
    whole; 745.82(b). The sign of 24 CFR 35.1345(b)(2) came down with the others."""
    import assisted  # which asks this module
    if step_waived(job, "isolate", job.today):
        return True
    if step_waived(job, "isolate", lacked_until(job, area)) and not ticks(job, area, "isolate"):
        return False  # the emergency is over, and nobody contained the area since
    down = taken_down(job, area)
    if down is not None:
        again = [s for s in wanted_steps(job, area) if not step_waived(job, s, job.today)]
        for step in again + ["signs-assisted"] * assisted.holds(job):
            laid = last_when(ticks(job, area, step))
            if laid is None or laid <= down:
                return False
    whole = ticks(job, area, "barriers-whole")
    return not whole or whole[-1].state != "undone"


def contained(job, area, until=None):
    """Paragraphs of (a)(1)-(2) that the area does not meet (on a day)."""
    return ["%s %s %s" % (PARAGRAPH[s], area.id, s) for s in asked_steps(job, area)
            if not step_ok(job, area, s, until)]


@once
def practices(job, area):
    return [p for p in job.all("practice", area=area.id) if p.planned != "yes"]


def contained_first(job, area):
    """(a)(1)-(2), 745.86(b)(6): before the work, and at the end of each day of it."""
    return all(stood_on(job, area, p) and not laid_later(job, area, p) for p in practices(job, area))


def moment(practice, which):
    """The first or the last minute of which it is said that work went on."""
    said = [m for m in (practice.began, practice.time) if m is not None]
    return Fact(on=practice.on, time=which(said) if said else None)


def laid_later(job, area, practice):
    """(a)(2): "before beginning"; by the times, on the day of the work or later. There is waste, or something to clean, when
    work has begun, whatever its own hours say."""
    import assisted  # which asks this module
    from clean import earlier_surely
    work, asked = moment(practice, min), asked_steps(job, area) + ["signs-assisted"] * assisted.holds(job)
    if practice.began is not None and practice.time is not None and practice.time < practice.began:
        work = Fact(on=practice.on, time=practice.time)
    shown = [t.time for s in ("waste-daily", "waste-contained") + CLEANING for t in ticks(job, area, s)
             if t.state == "done" and t.on == practice.on and t.time is not None]
    work = Fact(on=practice.on, time=min(shown + ([] if work.time is None else [work.time]), default=None))
    found = [[t for t in ticks(job, area, s) if t.state != "undone"] for s in asked]
    return work.time is not None and any(f and earlier_surely(work, f[0]) for f in found)


def stood_on(job, area, practice):
    """What was ticked at all; what never was is missing anyhow. It was laid anew when it had come
    down before the work was over."""
    day = practice.on
    down = taken_down(job, area, moment(practice, max))
    asked = [s for s in wanted_steps(job, area) if ticks(job, area, s) and not step_waived(job, s, day)]
    return all(step_ok(job, area, s, day) for s in asked) and (down is None or all(
        any(t.state != "undone" and t.on <= day and t.when() > down for t in ticks(job, area, s))
        for s in asked))


def kept_whole(job, area):
    """(a)(2): on each day of work somebody looked, and found the barriers whole."""
    return all(step_waived(job, "barriers-whole", p.on) or last_word(job, area, "barriers-whole", p.on)
               for p in practices(job, area))


def said_on(job, area, step, day):
    return [t for t in ticks(job, area, step) if t.on == day and t.state != "not-needed"]


def last_word(job, area, step, day):
    """Done was the last that was said of it that day; or it came down when all was clean."""
    said = said_on(job, area, step, day)
    return bool(said) and (said[-1].state == "done" or down_by_right(job, area, said[-1]))


def undone_on_a_work_day(job, area):
    """(a)(2)(i)(E), (a)(4)(i): what was undone on a day of work and not done again by its end."""
    for step in set(work_steps(area)) - {"barriers-whole", "waste-daily"}:
        for p in practices(job, area):
            if step_waived(job, step, p.on):
                continue
            said = [t for t in ticks(job, area, step) if t.on <= p.on]
            if said and said[-1].state == "undone" and not down_by_right(job, area, said[-1]):
                return True
    return False


def waste_each_day(job, area):
    """(a)(4)(ii): at the conclusion of each work day: not while the work of that day surely went on."""
    return all(step_waived(job, "waste-daily", p.on) or closed_after_night(job, area, p.on) or (
        last_word(job, area, "waste-daily", p.on) and not work_later(job, area, said_on(job, area, "waste-daily", p.on)[-1]))
        for p in practices(job, area))


def closed_after_night(job, area, day):
    """A shift past midnight is written down as two, and concludes on the day after: then, not after another shift."""
    work = [p for p in practices(job, area) if p.on == day]
    after = [p for p in practices(job, area) if p.on == day + DAY]
    night = [p for p in after if p.began == 0 and p.time]
    if not night or not any(p.time == LAST_MINUTE for p in work) or any(p.began is None for p in work + after):
        return False
    if any(p.time is None for p in after) or night[-1].time + END_OF_DAY - min(p.began for p in work) > 12 * 60:
        return False
    return any(t.time is not None and t.time >= night[-1].time and all(p.time <= night[-1].time or p.began >= t.time for p in after)
               for t in said_on(job, area, "waste-daily", day + DAY) if t.state == "done")


def work_later(job, area, fact):
    """By the times, on the day of the fact."""
    from clean import earlier_surely
    return any(p.on == fact.on and earlier_surely(fact, moment(p, max)) for p in practices(job, area))


def no_work_yet(job, area, fact):
    from clean import earlier_surely
    def began(p):
        odd = None not in (p.began, p.time) and p.time < p.began
        return Fact(on=p.on, time=p.time) if odd else moment(p, min)
    work = practices(job, area)
    return bool(work) and all(earlier_surely(fact, began(p)) for p in work)


def waste_too_early(job, area, step):
    """(a)(4)(i), (iii): waste is kept in when there is all of it, and carried away when there is some."""
    if step not in ("waste-contained", "waste-transport") or not ticks(job, area, step):
        return False
    last = ticks(job, area, step)[-1]
    return last.state == "done" and (no_work_yet(job, area, last) or (
        step == "waste-contained" and work_later(job, area, last)))


def waste_at_end(job, area):
    """(a)(4)(ii): "and at the conclusion of the renovation": debris and sheeting are taken up after the work, and
    are waste as well; by days, but after the days of work not before any of it was taken up."""
    from clean import earlier_surely
    up = [t for s in ("chips", "sheeting", "divider") for t in ticks(job, area, s) if t.state == "done"]
    stored = [t for t in ticks(job, area, "waste-daily") if t.state == "done"]
    if not up or not stored:
        return True
    day, last = max(t.on for t in up), stored[-1]
    work = practices(job, area)
    early = work and max(p.on for p in work) < day and last.on == day and all(earlier_surely(last, t) for t in up if t.on == day)
    return (last.on >= day and not early) or waived(job, "waste", day)


# ---- areas, methods ----------------------------------------------------------------------------------

def in_an_area(job, component):
    """(a)(2): the work area holds it."""
    for area in job.all("area", side=component.side):
        if component.opening and component.opening in area.ids("openings"):
            return True
        if not component.opening and component.room and spelt.same(component.room, area.place):
            return True
    return False


@once
def outside_areas(job):
    """745.83 "work area", (a)(2): it holds the dust and debris of the renovation, with lead or
    without. What the work disturbs in no work area; openings of which nobody said what
    happens to them."""
    gaps = [c.id for c in disturbed_components(job) if not in_an_area(job, c)]
    listed = {x for a in job.all("area") for x in a.ids("openings")}
    gaps += [o.id for o in job.all("opening")
             if o.id not in listed and not job.all("component", opening=o.id)]
    gaps += ["the %s of %s" % (side, o.id) for o in job.all("opening") if replaced(job, o)
             for side in ("interior", "exterior") if side_presumed(job, o, side)
             and not any(o.id in a.ids("openings") for a in job.all("area", side=side))]
    return gaps


def side_presumed(job, opening, side):
    """Parts of that side that are neither listed nor said to be absent are presumed to be
    disturbed (a decision, docs/sources.md); what is of no side is looked for inside."""
    outside = {p for p in USUAL_PARTS[opening.kind] if p.startswith("exterior")}
    usual = outside if side == "exterior" else set(USUAL_PARTS[opening.kind]) - outside
    return not accounted(job, opening) >= usual


def prohibited(practice):
    """(a)(3)(i)-(iii)."""
    if practice.method == "open-flame":
        return True
    if practice.method in ("machine", "blasting"):
        return practice.hepa != "yes"
    if practice.method == "heat-gun":
        return practice.temp is None or practice.temp >= HEAT_GUN_F
    return False
