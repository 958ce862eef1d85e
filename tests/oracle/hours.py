"""40 CFR 745.85(a)(1), (a)(2) within a day: what was down, or too short, for a while. No dust leaves "while the
renovation is being performed"; signs "must remain in place [...] until the renovation and the post-renovation cleaning
verification have been completed". A while begins with an entry after which the thing does not stand, and ends with the
next one after which it does. What no entry puts right again is told by its own step."""
import assisted
import contain
import limits
from clean import earlier_surely
from emergency import step_waived

SHEETS = {"floor-sheet": contain.FLOOR_FT, "ground-sheet": contain.GROUND_FT}


def in_turn(job, one, other):
    """The one does not come after the other: by what is said of day and time, else as it was logged."""
    if earlier_surely(one, other) or earlier_surely(other, one):
        return earlier_surely(one, other)
    lines = job.all("tick")
    return lines.index(one) <= lines.index(other)


def last_of(job, found):
    last = None
    for t in found:
        if last is None or in_turn(job, last, t):
            last = t
    return last


def short(job, area, tick, day):
    """(a)(2)(i)(D), (ii)(C): of itself, without a barrier it may end at."""
    if tick.step not in SHEETS or tick.state != "done" or tick.measured is None:
        return False
    at_line = tick.step == "ground-sheet" and area.line is not None and tick.measured >= area.line
    return not at_line and not limits.holds(job, tick.step, day, tick.measured, SHEETS[tick.step], "at-least")


def of_the_step(job, area, step):
    barrier = ("vertical-barrier",) if step in SHEETS else ()
    return [t for t in job.all("tick", area=area.id) if t.step in (step,) + barrier]


def stands(job, area, step, entry, day):
    """After an entry: True, False, or None where it was never set up."""
    by_then = [t for t in of_the_step(job, area, step) if in_turn(job, t, entry)]
    own = last_of(job, [t for t in by_then if t.step == step])
    if own is None:
        return None
    if own.state == "undone":
        return contain.down_by_right(job, area, own)
    if not short(job, area, own, day):
        return True
    barrier = last_of(job, [t for t in by_then if t.step != step])
    return barrier is not None and (barrier.state == "done" or (
        barrier.state == "undone" and contain.came_down_late(job, area, own, barrier)))


def whiles(job, area, step, day):
    """From which entry to which the step did not stand."""
    entries = of_the_step(job, area, step)
    if not any(t.state == "undone" or short(job, area, t, day) for t in entries):
        return
    for fell in entries:
        if stands(job, area, step, fell, day) is not False:
            continue
        up = None
        for t in entries:
            if not in_turn(job, t, fell) and stands(job, area, step, t, day) and (up is None or in_turn(job, t, up)):
                up = t
        if up is not None:
            yield fell, up


def said(work):
    """Beginning and end; of an end before its beginning nothing is known."""
    if None not in (work.began, work.time) and work.time < work.began:
        return None, None
    return work.began, work.time


def at(fact, day):
    """Minutes from the beginning of a day, None = of that day and not said."""
    if fact.on == day:
        return fact.time
    return float("-inf") if fact.on < day else float("inf")


def of_no_hour(fell, work):
    """Undone on the day of the work, nobody says when: what was logged next may have been done before."""
    return fell.state == "undone" and fell.on == work.on and fell.time is None


def overlaps(fell, up, work, sign):
    """Whether paint was disturbed meanwhile: True, False, or None where the times do not tell. A sign stays after it.
    The first and the last minute of the work are of the work: who undid a thing in them undid it while that went on."""
    day = work.on
    began, over = said(work)
    down, back = at(fell, day), at(up, day)
    since = None not in (down, began) and down >= began
    early = back is not None and not since and (back == float("-inf") or (began is not None and back <= began))
    if early and not of_no_hour(fell, work):
        return False
    if not sign and down is not None and (down == float("inf") or (over is not None and down > over)):
        return False
    if sign:
        fell_in_time = True
    elif over is not None:
        fell_in_time = down is not None and down <= over
    else:
        fell_in_time = down is not None and (down == float("-inf") or (began is not None and down <= began))
    if since or back is None:
        back_later = since
    elif back == float("inf"):
        back_later = True
    else:
        back_later = back > began if began is not None else over is not None and back >= over
    return True if fell_in_time and back_later else None


def held_against(job, area, step, fell, up, work):
    """What fell on the day of work and may have been down meanwhile was, until somebody says the times; what is set up on
    that day is taken to have come first."""
    sign = step in contain.SIGNS
    if not sign and up.on != work.on:
        return False
    meanwhile = overlaps(fell, up, work, sign)
    if meanwhile is not None:
        return meanwhile
    before = [t for t in of_the_step(job, area, step) if t is not fell and in_turn(job, t, fell)]
    return fell.on == work.on and (step == "barriers-whole" or of_no_hour(fell, work) or
                                   any(stands(job, area, step, t, work.on) for t in before))


def down(job, area):
    gaps = []
    steps = contain.wanted_steps(job, area) + ["barriers-whole"] + ["signs-assisted"] * assisted.holds(job)
    for work in contain.practices(job, area):
        for step in steps:
            if step != "signs-assisted" and step_waived(job, step, work.on):
                continue
            if any(held_against(job, area, step, fell, up, work) for fell, up in whiles(job, area, step, work.on)):
                gaps.append("%s %s %s down on %s" % (contain.PARAGRAPH[step], area.id, step, work.on))
    return gaps
