"""40 CFR 745.85(c) and 745.227(e)(8): dust samples in place of the cleaning verification."""
import re
from fractions import Fraction

import beside
import limits
import spelt
from clean import after_work, cleaned, cleaned_after_it, earlier_surely, looks, verified
from contain import clean_steps, practices, ticks
from emergency import waived
from facts import alike, date, once, unaccented
from people import certified

WAIT = 60              # minutes after the final cleaning, 745.227(e)(8)(iv)
MOST_WIPES = 4         # in a composite sample, 745.63, 745.227(g)
SAMPLERS = ("inspector", "risk-assessor", "dust-technician")  # 745.85(c)(2)
LEVELS = (             # ug/sq ft, 745.227(e)(8)(viii): from a day on, floor, sill, trough
    (date("2026-01-12"), {"floor": 5, "sill": 40, "trough": 100}),
    (date("2021-03-08"), {"floor": 10, "sill": 100, "trough": 400}),
    (date("1900-01-01"), {"floor": 40, "sill": 250, "trough": 400}),
)
CLEANED_BY = {"floor": ("mop", "carpet"), "sill": ("surfaces",), "trough": ("surfaces",)}


@once
def samples(job, area):
    """A blank touched nothing. Each with the levels of its place on its day."""
    found = [s for s in job.all("dust_sample", area=area.id) if s.blank != "yes"]
    for s in found:
        s["of-place"] = [v for v, _ in limits.local(job, "dust-" + s.surface, s.on, "below")]
    return found


# ---- the number, (e)(8)(vii) -------------------------------------------------------------------------

def wipes(sample):
    return int(sample.wipes or 1)


def loadings(sample):
    """What was reported and what mass and area wiped come to, which is that of all wipes, each
    with "less than" or "more than": that is of the report, where there is one."""
    found = []
    if sample.result is not None:
        found.append((sample.result, sample.qualifier))
    if sample.mass is not None and sample.length and sample.width:
        by_area = sample.mass * 144 / (sample.length * sample.width * wipes(sample))
        found.append((by_area, "exact" if found else sample.qualifier))
    return found


def level(sample):
    """Of the day; for a composite divided by half the number of subsamples."""
    of_day = min([next(rows[sample.surface] for day, rows in LEVELS if sample.on >= day)]
                 + (sample.of_place or []))
    return of_day if wipes(sample) == 1 else Fraction(2 * of_day) / wipes(sample)


def below(sample):
    """Below the level; "less than" counts by its bound, "more than" never."""
    found = loadings(sample)
    return bool(found) and wipes(sample) <= MOST_WIPES and all(
        number < level(sample) if how != "under" else number <= level(sample)
        for number, how in found) and not any(how == "over" for _, how in found)


def above(sample):
    """It is known to have failed, which is more than not known to have passed."""
    return any(number >= level(sample) and how != "under" for number, how in loadings(sample))


# ---- who, where to, when -----------------------------------------------------------------------------

def sampled_well(job, area, sample):
    """(c)(1)-(2), 745.90(c)(1): by the right people, to a recognized laboratory, after the work
    and an hour after the final cleaning."""
    return (sample.nllap == "yes" and certified(job, sample.sampler, SAMPLERS, sample.on)
            and after_work(job, area, sample) and waited(job, area, sample))


def waited(job, area, sample):
    """(e)(8)(iv): no sooner than an hour after the final cleaning, by whatever step that was ticked."""
    return all(an_hour_before(t, sample) for step in {*clean_steps(area), "clean-outside"}
               for t in ticks(job, area, step) if t.state == "done"
               and not of_another(job, area, t, sample))


def an_hour_before(tick, sample):
    """Of one day the times must say so."""
    if tick.on != sample.on:
        return tick.on < sample.on
    return None not in (tick.time, sample.time) and sample.time - tick.time >= WAIT


def of_another(job, area, tick, sample):
    """(e)(8)(vii): only the components that a failed sample stands for are cleaned and sampled
    again; the samples of others, taken before, stand. What is sampled after a cleaning waits its hour, (iv)."""
    return earlier_surely(sample, tick) and any(cleans_again(job, area, f, tick) and not same_place(f, sample)
                                                for f in samples(job, area))


def cleans(tick, sample):
    """The step cleans what the sample was of; outside the area the margin does, as far as it was cleaned."""
    if sample.outside is not None:
        return tick.step == "margin" and tick.measured is not None and tick.measured >= sample.outside
    return tick.step in CLEANED_BY[sample.surface]


def same_place(one, other):
    """By its words, in capitals or not, its surface and its distance outside."""
    return same_surface(one, other) and one.place.casefold() == other.place.casefold()


def same_surface(one, other):
    return (one.surface, one.outside) == (other.surface, other.outside)


def represented(job, area, sample):
    """(e)(8)(vii), "the components represented by the failed sample": each opening that its words name, and each
    other room. A composite that names none may be of any room of its area."""
    openings = openings_named(job, sample)
    others = rooms_named(job, sample) - {alike(o.room) for o in openings}
    if not openings and not unlisted_named(job, sample) and not others and wipes(sample) > 1 and sample.outside is None:
        others = set(rooms(job, area))
    return openings + unlisted_named(job, sample) + sorted(others)


def unlisted_named(job, sample):
    """What lists of areas and parts call an opening, and no entry of one tells of its room."""
    known = {o.id for o in job.all("opening")}
    called = {c.opening for c in job.all("component") if c.opening} | {i for a in job.all("area") for i in a.ids("openings")}
    return [(name,) for name in sorted(called - known) if holds_words(sample.place, name)]


def names(job, sample, component):
    """An opening by itself or by its room, or a room."""
    if isinstance(component, tuple):
        return component in unlisted_named(job, sample)
    if isinstance(component, str):
        return component in rooms_named(job, sample)
    room = alike(component.room)
    by_itself = openings_named(job, sample)
    return component in by_itself or (room in rooms_named(job, sample) and room not in {alike(o.room) for o in by_itself})


def taken_anew(job, area, old, later_in):
    """The later ones stand for it: of the same place, or of each component, one wipe for one room. What lies in other
    work areas alone is taken anew in each of them: of which piece of a room it was nobody knows."""
    of, later = represented(job, area, old), later_in(area)
    named = openings_named(job, old) or unlisted_named(job, old) or rooms_named(job, old)
    if len(of) < 2 or not named:
        enough = min(wipes(old), max(1, len(of)))
        if any(same_place(s, old) and wipes(s) >= enough for s in later):
            return True
    by_each = len(of) > 1 or (named and wipes(old) > 1)
    return bool(by_each) and all(any(same_surface(s, old) and names(job, s, c) and a_wipe_each(job, s) for s in later_in(a))
                                 for c in of for a in elsewhere(job, area, old, c) or [area])


def lies_in(job, area, sample, component):
    """A floor lies in its room, what else is wiped in its opening."""
    if isinstance(component, tuple):
        return False
    if isinstance(component, str) or sample.surface == "floor":
        room = component if isinstance(component, str) else alike(component.room)
        return room in {*rooms(job, area), alike(area.place)}
    return component.id in area.ids("openings")


def elsewhere(job, area, sample, component):
    """The other work areas in which it lies, where it does not lie in its own."""
    if sample.outside is not None or lies_in(job, area, sample, component):
        return []
    return [a for a in job.all("area", side="interior") if lies_in(job, a, sample, component)]


def of_one_each(job, sample):
    """A wipe is of one room, as many as a composite has; which one it was of two, nobody knows."""
    return len(rooms_named(job, sample)) <= wipes(sample)


def a_wipe_each(job, sample):
    """Of a floor one a room; of sills and troughs one an opening that is named, and a room that is named without any."""
    named = openings_named(job, sample) if sample.surface != "floor" else []
    return len(named) + len(rooms_named(job, sample) - {alike(o.room) for o in named}) <= wipes(sample)


def cleans_again(job, area, failed, tick):
    """The cleaning, once more, of what a sample stood for that had failed."""
    return above(failed) and cleans(tick, failed) and earlier_surely(failed, tick) and \
        any(t.state == "done" and earlier_surely(t, tick) for t in ticks(job, area, tick.step))


def again(job, area, tick):
    """It cleans what a sample found, and nothing else has to be cleaned again."""
    return any(cleans_again(job, area, f, tick) for f in samples(job, area))


# ---- each place, (c)(3) --------------------------------------------------------------------------------

def made_good(job, area, failed):
    """Cleaned again, and sampled again in the same place, as is required, with a result that is below."""
    def again(of):
        cleaning = [t for step in clean_steps(of) for t in ticks(job, of, step)
                    if cleans(t, failed) and t.state == "done" and earlier_surely(failed, t)]
        return [s for s in samples(job, of) if earlier_surely(failed, s)
                and (below(s) or (same_place(s, failed) and made_good(job, of, s)))
                and (s.required == "yes" or failed.required != "yes") and any(an_hour_before(t, s) for t in cleaning)]
    return taken_anew(job, area, failed, again)


def superseded(job, area, sample):
    """Later samples of the same place, that are required too, count for it."""
    return taken_anew(job, area, sample, lambda of: [s for s in samples(job, of)
                                                     if s.required == "yes" and earlier_surely(sample, s)])


def failed(job, area):
    """Samples at or above the level that nothing made good."""
    return [s for s in samples(job, area) if not below(s) and not made_good(job, area, s)]


def rooms(job, area):
    """Each with the windows of it: those of the openings and the parts in the area."""
    place = alike(area.place)
    found = {place: [] for c in job.all("component") if not c.opening and c.side == "interior" and alike(c.room) == place}
    for o in job.all("opening"):
        if o.id in area.ids("openings"):
            found.setdefault(alike(o.room), []).extend([o] if o.kind == "window" else [])
    listed = {x for a in job.all("area", side="interior") for x in a.ids("openings")}
    beside_it = [o for o in job.all("opening", kind="window") if o.room and alike(o.room) == place and o.id not in listed]
    if found and place in found:  # the room has its other windows too, (e)(8)(v)(A)
        found[place].extend(beside_it)
    return found or {place: beside_it}


@once
def names_of_rooms(job):
    """How the rooms are called that openings lie in and areas are."""
    names = {}
    for text in [o.room for o in job.all("opening")] + [a.place for a in job.all("area") if alike(a.place) in rooms(job, a)
                                                        and a.side == "interior"]:
        names.setdefault(alike(text), set()).add(text)
    return names


def words_of(text):
    return re.findall(r"\w+", unaccented(text))


def holds_words(text, part):
    """Where in the words of a place those of a room stand."""
    words, named = words_of(text), words_of(part)
    return [(n, n + len(named)) for n in range(len(words)) if named and words[n:n + len(named)] == named]


@once
def rooms_named(job, sample):
    """By its name or by an opening of it."""
    return by_name(job, sample) | {alike(o.room) for o in openings_named(job, sample)}


@once
def by_name(job, sample):
    """Unless that is part of a longer one."""
    spans = {room: [s for name in names for s in holds_words(sample.place, name)]
             for room, names in names_of_rooms(job).items()}
    inside = {room: [s for s in found if not any(o[0] <= s[0] and s[1] <= o[1] and o != s for more in spans.values() for o in more)]
              for room, found in spans.items()}
    return {room for room, found in inside.items() if found}


@once
def openings_named(job, sample):
    return [o for o in job.all("opening") if holds_words(sample.place, o.id)]


def of_another_area(job, area, sample):
    """Inside, its place names a room of another work area and none of this one, or one wipe names both: nobody knows
    that this one was sampled."""
    own = by_name(job, sample) & (set(rooms(job, area)) | {alike(area.place)}) | rooms_by_opening(job, area, sample)
    others = {room for a in job.all("area") if a is not area for room in rooms(job, a)
              if a.side == "interior" or room != alike(a.place)} & by_name(job, sample)
    others |= {room for a in job.all("area", side="interior") if a is not area for room in rooms_by_opening(job, a, sample)}
    return sample.outside is None and bool(others - own) and not (own and of_one_each(job, sample))


def rooms_by_opening(job, area, sample):
    """Those of openings in the list of the area that the words name."""
    return {alike(o.room) for o in openings_named(job, sample) if o.id in area.ids("openings")}


def wanted(job, windows):
    """(e)(8)(v)(A), 745.90(c)(1): the floor; one sill and one trough where there are any."""
    return {"floor"} | {surface for surface, part in (("sill", "interior-sill"), ("trough", "trough"))
                        if any(there(job, o, part) for o in windows)}


def required(job, area):
    """(c)(1): what nothing requires stands for no verification; 24 CFR 35.1340 requires them, unless it is said of
    some and not of others."""
    from assisted import holds  # which asks this module what is clear
    found = samples(job, area)
    return [s for s in found if s.required == "yes"] or (found if holds(job) else [])


def counted(job, area):
    return [s for s in required(job, area) if s.outside is None and not of_another_area(job, area, s)]


def unsampled(job, area):
    """(e)(8)(v)(A): of each of no less than four rooms, of all where they are fewer. A wipe is of one room, as many
    as a composite has."""
    of = rooms(job, area)
    if len(in_one_way(job, of)) == 1:
        windows = [o for its in of.values() for o in its]
        return ["no %s" % p for p in wanted(job, windows) if not any(
            s.surface == p and of_one_each(job, s) for s in counted(job, area))]
    least = {p for windows in of.values() for p in wanted(job, windows)}  # "(if available)": of the area, some
    if not all(any(s.surface == p for s in counted(job, area)) for p in least):
        return ["nowhere"]
    done, all_of_them = 0, in_one_way(job, of)
    for spellings in all_of_them:
        windows = [o for room in spellings for o in of[room]]
        done += all(any(s.surface == p and spellings & (by_name(job, s) | rooms_by_opening(job, area, s)) and of_one_each(job, s)
                        for s in counted(job, area)) for p in wanted(job, windows))
    return [] if done == len(all_of_them) or done >= 4 else ["not each room"]


def in_one_way(job, keys):
    """Those that are one, whichever way each is written: "bath 2" and "bathroom two" are."""
    written, found = names_of_rooms(job), {}
    for key in keys:
        name = min((spelt.words(beside.words(n)) - {"room"} for n in written.get(key, {key})), key=sorted)
        found.setdefault(frozenset(name), set()).add(key)
    return list(found.values())


def outside_floor(job, area):
    """(e)(8)(v)(A): "from the floor outside the containment area"; (B) is for work without one, 745.82(b)."""
    return waived(job, "containment", max((p.on for p in practices(job, area)), default=None)) or any(
        s.surface == "floor" and s.outside is not None for s in required(job, area))


def there(job, opening, part):
    return part not in opening.ids("absent") or bool(job.all("component", opening=opening.id, type=part))


def cleared(job, area):
    """Paragraphs of (c) that are not met: of each place wiped the last sample counts, and a
    failed one needs cleaning before the next."""
    gaps = ["745.90(c)(1), 745.227(e)(8)(v) %s %s sampled" % (area.id, p) for p in sorted(unsampled(job, area))]
    if not outside_floor(job, area):
        gaps.append("745.227(e)(8)(v)(A) %s no floor outside sampled" % area.id)
    gaps += ["745.227(e)(8)(v)(A) %s %s of another work area" % (area.id, s.place) for s in required(job, area)
             if of_another_area(job, area, s)]
    gaps += ["745.85(c)(3) %s %s" % (area.id, s.place) for s in failed(job, area)]
    for s in samples(job, area):
        if not superseded(job, area, s) and not sampled_well(job, area, s):
            gaps.append("745.85(c)(1)-(2) %s %s" % (area.id, s.place))
    return gaps


def sampled(job, area):
    """(c)(1): the contract or the law requires samples. Others are nobody's condition."""
    return area.side == "interior" and any(s.required == "yes" for s in samples(job, area))


@once
def shown_clean(job, area):
    """(b), (c): what is missing of the clearance, where that is required; else of the
    verification."""
    return cleared(job, area) if sampled(job, area) else verified(job, area)


def dust_left(job, area, found):
    """Dust that was seen is cleaned, whatever stands for the verification."""
    return bool(found) and (found[-1].event == "look-dirty" or any(
        look.event == "look-dirty" and not cleaned_after_it(job, area, look, found[-1]) for look in found))


@once
def signs_may_come_down(job, area):
    """745.85(a)(1), (a)(5), (b)(1)(iii), (b)(2), (c): cleaned, and verified or cleared."""
    gaps, found = cleaned(job, area), looks(job, area)
    if sampled(job, area) and dust_left(job, area, found):
        gaps.append("745.85(a)(5), (b)(1)(i) %s dust seen" % area.id)
    return gaps + shown_clean(job, area)
