"""40 CFR 745.85(a)(5) and (b): cleaning and its verification."""
import datetime

import beside
import spelt
from contain import PARAGRAPH, clean_steps, lawfully_left_out, practices, step_ok, ticks
from facts import alike, once
from people import may_do, renovator
from present import inside_lists, may_be_in

UNDIVIDED = 40     # sq ft, (b)(1)(ii)(B)
WAIT = 60          # minutes, (b)(1)(ii)(A)(3), (B)(2)
WATER = ("wet-match", "wet-darker", "recleaned")


def minutes(fact):
    return fact.on.toordinal() * 1440 + fact.time


# ---- cleaning, (a)(5) ------------------------------------------------------------------------------

def over(practice):
    """When the work of a day was over; an end before its beginning says nothing."""
    odd = None not in (practice.time, practice.began) and practice.time < practice.began
    return None if odd else practice.time


def after_work(job, area, fact):
    """"After the renovation has been completed", (a)(5): it came after all work there; of one day the times must
    say so."""
    return all(p.on < fact.on or (p.on == fact.on and None not in (over(p), fact.time) and over(p) < fact.time)
               for p in practices(job, area))


def cleaned(job, area):
    """Paragraphs of (a)(5) that are not met: each step, and after the last work."""
    gaps = []
    for step in clean_steps(area):
        found = ticks(job, area, step)
        if not step_ok(job, area, step):
            gaps.append("%s %s %s" % (PARAGRAPH[step], area.id, step))
        elif found[-1].state == "done" and not after_work(job, area, found[-1]):
            gaps.append("%s %s %s before the last work" % (PARAGRAPH[step], area.id, step))
    if low_before_high(job, area):
        gaps.append("745.85(a)(5)(ii) %s from low to high" % area.id)
    return gaps


ORDER = (("walls", "surfaces"), ("walls", "carpet"), ("walls", "mop"), ("surfaces", "carpet"), ("surfaces", "mop"),
         ("chips", "carpet"), ("chips", "mop"), ("sheeting", "carpet"), ("sheeting", "mop"))


def low_before_high(job, area):
    """(a)(5)(ii): from higher to lower: walls, remaining surfaces, then the floor, carpet or
    not, off which debris and sheeting are, (i)(A)-(B); but what is cleaned again. A tick without a time is taken
    to have its place on its day. The plastic toward clean rooms remains "until after the cleaning and removal of
    other sheeting", (i)(B): what is cleaned once more after that does not matter."""
    import dust  # which asks this module what was cleaned
    done = {s: [t for t in ticks(job, area, s) if t.state == "done" and ticks(job, area, s)[-1].state == "done"]
            for s in clean_steps(area)}
    first = {s: [t for t in found if not dust.again(job, area, t) and not seen_first(job, area, t, found)]
             for s, found in done.items()}
    wrong = any(first.get(high) and done.get(low) and earlier(done[low][-1], first[high][-1])
                for high, low in ORDER)
    return wrong or any(found and done.get("divider") and earlier(done["divider"][-1], found[0])
                        for step, found in done.items() if step != "divider")


def seen_first(job, area, tick, found):
    """(b)(1)(i): "removed by re-cleaning": the dust that a look since the work had found, of what was clean before."""
    worked = max((p.on for p in practices(job, area)), default=datetime.date.min)
    return any(v.event == "look-dirty" and earlier_surely(v, tick) and any(
        earlier_surely(t, v) and t.on >= worked for t in found) for v in looks(job, area))


def earlier(one, other):
    if one.on != other.on or None in (one.time, other.time):
        return one.on < other.on
    return one.time < other.time


def earlier_surely(one, other):
    return one.on < other.on or (one.on == other.on and None not in (one.time, other.time)
                                 and one.time < other.time)


def recleaned_by_crew(job, area):
    """745.89(d)(1), 745.90(b)(2): to clean again what a cloth found dirty is cleaning. What was done by somebody who
    was not taught it is done once more, there, or as a step of (a)(5)(ii)."""
    again = job.all("verification", area=area.id, event="recleaned")
    floors = {s.id for s in job.all("surface", area=area.id, kind="floor")}
    for v in again:
        same = [w for w in again if (w.surface, w.section) == (v.surface, v.section)]
        same += [t for t in ticks(job, area, "mop" if v.surface in floors else "surfaces") if t.state == "done"]
        if not may_do(job, v.person, "cleaning", v.on) and not any(
                earlier_surely(v, w) and may_do(job, w.person, "cleaning", w.on) for w in same):
            return False
    return True


@once
def last_cleaning(job, area):
    found = [t for s in clean_steps(area) for t in ticks(job, area, s) if t.state == "done"]
    return max(found, key=lambda t: t.when(), default=None)


# ---- the visual inspection, (b)(1)(i), (b)(2) ----------------------------------------------------------

def looks(job, area):
    """In order of time. "That dust, debris or residue" is gone from the work area, (b)(1)(i), is not seen on one thing in
    it; that there is some is."""
    found = [v for v in job.all("verification", area=area.id)
             if v.event == "look-dirty" or (v.event == "look-clean" and not v.surface)]
    return sorted(found, key=lambda v: v.when())


def own_looks(job, area):
    """Of the verification: a clean look of one who is no certified renovator is no part of it;
    dust is dust whoever sees it."""
    return [v for v in looks(job, area) if v.event == "look-dirty" or renovator(job, v.person, v.on)]


@once
def clean_look(job, area):
    """The last look, when it found the area clean, after the cleaning and the work."""
    found = own_looks(job, area)
    if not found or found[-1].event != "look-clean":
        return None
    look, cleaning = found[-1], last_cleaning(job, area)
    if not after_work(job, area, look):
        return None
    if any(d.event == "look-dirty" and not cleaned_after_it(job, area, d, look) for d in found):
        return None
    if cleaning is not None and not after(look, cleaning):
        return None
    return look


def cleaned_after_it(job, area, dirty, look):
    """"Must be removed by re-cleaning and another visual inspection must be performed": something
    was cleaned between the two looks; of one day the times must say so."""
    cleaned = [t for s in clean_steps(area) for t in ticks(job, area, s) if t.state == "done"]
    cleaned += job.all("verification", area=area.id, event="recleaned")
    return any(after(c, dirty) and after(look, c) for c in cleaned)


def after(event, earlier):
    """Not before it; on one day the times must say so."""
    if event.on != earlier.on:
        return event.on > earlier.on
    return earlier.time is not None and event.time is not None and event.time >= earlier.time


# ---- cloths, (b)(1)(ii) --------------------------------------------------------------------------------

def sections(surface):
    """(b)(1)(ii)(B): more than 40 sq ft in parts of less than 40; a sill is one."""
    if surface.kind == "sill" or surface.size <= UNDIVIDED:
        return 1
    return int(surface.size // UNDIVIDED) + 1


def wiped_clean(job, area, surface, section):
    """Wet cloth; re-clean and a second wet cloth; an hour or until dry, and a dry cloth. What
    cannot have followed shows nothing, and leaves it open what was done until the section
    passes after it."""
    look = clean_look(job, area)
    begun = look and begin_of_round(job, area)
    events = sorted((v for v in job.all("verification", area=area.id, surface=surface.id)
                     if v.event not in ("look-clean", "look-dirty")), key=lambda v: v.when())
    state, dark, odd = "unwiped", None, False
    for n, v in enumerate(events):
        if (v.section or 1) != section:
            if surface.kind != "sill" and v.event in WATER and state in ("waiting", "dry"):
                state, dark = "waiting", v
            continue
        by_right = v.event == "recleaned" or renovator(job, v.person, v.on)  # it is cleaning
        if look is None or not by_right:
            return False
        if v.when() < begun:  # nobody had seen it clean
            odd = True
            continue
        if v.event == "seen-dry" and state == "waiting":
            state = "dry"
            continue
        if v.event == "dry-wipe" and surface.kind != "sill" and wet_beside(events[:n], section, begun):
            odd = True
            continue
        following, since = next_state(state, dark, surface, v)
        odd = following == "nobody knows" or (odd and following != "clean")
        if following != "nobody knows":
            state, dark = following, since
    return state == "clean" and not odd


def wet_beside(events, section, begun):
    """(B)(2): "until the entire surface within the work area has dried completely": another section waits for its dry
    cloth, and nobody saw it dry."""
    last, before = {}, {}
    for v in events:
        if v.when() >= begun:
            other = v.section or 1
            before[other], last[other] = last.get(other), v.event
    return any(last[s] == "wet-darker" and before[s] == "recleaned" for s in last if s != section)


def begin_of_round(job, area):
    """The first look that found it clean since the last that did not, and since the work."""
    found = own_looks(job, area)
    dirty = max((n for n, v in enumerate(found) if v.event == "look-dirty"), default=-1)
    return next(v.when() for v in found[dirty + 1:] if after_work(job, area, v))


def next_state(state, dark, surface, v):
    """(A)(1)-(4), (B)(1)-(3)."""
    wet = v.event == "wet-darker" or (v.event == "wet-match" and unused(surface, v, state))  # dust, by any cloth
    if state in ("unwiped", "recleaned") and wet:
        if v.event == "wet-match":
            return "clean", dark
        return ("dark" if state == "unwiped" else "waiting"), v
    if state == "dark" and v.event == "recleaned":
        return "recleaned", dark
    if state == "dry" and v.event == "dry-wipe" and v.cloth == "new" and dark.time is not None and \
            minutes(v) - minutes(dark) >= WAIT:
        return "clean", dark
    return "nobody knows", dark


def unused(surface, event, state):
    """(A)(2), (B), (B)(1): a new cloth for each section and each wipe; on a sill a fresh fold
    will do for the second."""
    return event.cloth == "new" or (surface.kind == "sill" and state == "recleaned" and event.cloth == "fresh-fold")


def in_room_of_the_area(job, area):
    """Windows on no list of an area inside, of a room that may be the one that the area is, or be in it."""
    return [o for o in job.all("opening", kind="window") if may_be_in(job, area, o.room)
            and spelt.within(o.room, area.place) and o.id not in inside_lists(job)]


def windows_beside(job, area):
    """(b)(1)(ii)(A): "each windowsill in the work area": where that is the room, those of its other windows too."""
    return [o for o in in_room_of_the_area(job, area) if ("interior-sill" not in o.ids("absent")
                                       or job.all("component", opening=o.id, type="interior-sill"))]


def rooms_without_floor(job, area, floors):
    """(b)(1)(ii)(B): "uncarpeted floors ... within the work area", of each room that it holds a window, a door or a part
    of, but what its place names; a note says what takes up the rest."""
    rooms = [f.room for f in job.all("opening") if f.id in area.ids("openings")] + [
        f.room for f in job.all("component") if f.opening in area.ids("openings")]
    said = [words_of_room(f.place) for f in [area] + floors]
    return [] if any(f.note for f in floors) else [
        r for r in rooms if r and not any(p and (p <= words_of_room(r) or words_of_room(r) <= p) for p in said)]


def words_of_room(name):
    return spelt.words(beside.words(name or ""))


def surfaces_listed(job, area):
    """(b)(1)(ii): each windowsill, and the uncarpeted floors, are on the list."""
    windows = [o for o in job.all("opening", kind="window") if o.id in area.ids("openings")]
    with_sill = [o for o in windows if "interior-sill" not in o.ids("absent")
                 or job.all("component", opening=o.id, type="interior-sill")]
    sills = job.all("surface", area=area.id, kind="sill")
    windows_named = {o.id for o in job.all("opening")}  # two of one window are one sill
    named = {s.place for s in sills if s.place in windows_named}
    if len(named) + sum(s.place not in windows_named for s in sills) < len(with_sill) + len(windows_beside(job, area)):
        return False
    floors = job.all("surface", area=area.id, kind="floor")
    if area.carpet == "no" and area.length and area.width and not any(f.note for f in floors) and \
            sum(f.size for f in floors) < area.length * area.width:
        return False  # nobody says what takes up the rest
    if area.carpet != "yes" and floors and rooms_without_floor(job, area, floors):
        return False
    if not sills and not windows and not any(t.state == "not-needed" and lawfully_left_out(job, area, t)
                             for t in ticks(job, area, "windows-closed")[-1:]):
        return False  # nobody says that there is no window
    carpeted = area.carpet == "yes" and any(
        t.state == "not-needed" for t in ticks(job, area, "mop")[-1:])
    if not beside.countertops_listed(job, area):
        return False
    return carpeted or bool(job.all("surface", area=area.id, kind="floor"))


def verified(job, area):
    """Paragraphs of (b) that the area does not meet."""
    if clean_look(job, area) is None:
        return ["745.85(b)(%s) %s look" % ("2" if area.side == "exterior" else "1)(i", area.id)]
    if area.side == "exterior":
        return []
    gaps = []
    if not surfaces_listed(job, area):
        gaps.append("745.85(b)(1)(ii) %s surfaces not listed" % area.id)
    known = {s.id for s in job.all("surface", area=area.id)}
    if any(v.surface not in known for v in job.all("verification", area=area.id)
           if v.event in ("wet-match", "wet-darker", "recleaned", "seen-dry", "dry-wipe")):
        gaps.append("745.85(b)(1)(ii) %s nobody says what was wiped" % area.id)
    for surface in job.all("surface", area=area.id):
        for section in range(1, sections(surface) + 1):
            if not wiped_clean(job, area, surface, section):
                gaps.append("745.85(b)(1)(ii) %s section %d" % (surface.id, section))
    return gaps
