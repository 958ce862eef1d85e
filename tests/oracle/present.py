"""What is in the room of a work area, 745.85(a)(2)(i): "in the work area" a window is closed, and a step of a
window is left out where there is none. A window of the room is there whichever list names it."""
import spelt
from facts import alike, once

PARTS = {"window": ("sash", "trough", "interior-sill", "exterior-sill"), "door": ("door-slab", "threshold")}


def apart(job, one, other):
    """Known to lie in two units, or one of them in a unit and the other in what is common."""
    from told import unit_of_area
    if "yes" in (one.common, other.common):
        return "no" in (one.common, other.common)
    units = (unit_of_area(job, one), unit_of_area(job, other))
    return None not in units and units[0] != units[1]


def elsewhere(job, area, opening):
    """Only areas of other units list it: a room there has the same name."""
    listing = [a for a in job.all("area", side=area.side) if opening.id in a.ids("openings")]
    return bool(listing) and all(apart(job, area, a) for a in listing)


def named_in(job, place, room):
    """The place is the room, a piece of it, or several rooms with it: "kitchen, west end"."""
    from dust import holds_words  # which asks contain.py, and that this module
    if not room:
        return False
    longer = [s for o in job.all("opening") for s in holds_words(place, o.room)]
    return alike(room) == alike(place) or any(
        not any(o[0] == s[0] and o[1] > s[1] for o in longer) for s in holds_words(place, room))


def may_be_in(job, area, room):
    """By its words the room may be the area's, and is not another area by them: "bedroom 2" beside "bedroom"."""
    if not room or not area.place:
        return False
    if spelt.same(room, area.place):
        return True
    if any(spelt.same(a.place, room) and not apart(job, area, a) for a in job.all("area", side=area.side) if a.id != area.id):
        return False
    own_name = any(spelt.same(o.room, area.place) for o in job.all("opening"))  # the bedroom beside "bedroom 2"
    return spelt.within(room, area.place) or (spelt.may_be(room, area.place) and not own_name)


def inside_lists(job):
    return {x for a in job.all("area", side="interior") for x in a.ids("openings")} | {
        f.opening for a in job.all("area", side="interior") for f in job.all("fixture", area=a.id, what="opening")}


def in_room(job, area, opening, own):
    """What another work area lists is that one's, unless the words leave no doubt of the room."""
    room = opening.room
    return (named_in(job, area.place, room) or any(spelt.same(room, x.room) for x in own)
            or bool(room and area.place and spelt.same(room, area.place))
            or (may_be_in(job, area, room) and opening.id not in inside_lists(job)))


def holds_part(job, area, room):
    return named_in(job, area.place, room) or may_be_in(job, area, room)


@once
def of_the_room(job, area, kind):
    """An opening of that kind in a room of the area; or a part that only such a one has, of no opening of the list."""
    own = [o for o in job.all("opening") if o.id in area.ids("openings")]
    if any(o.kind == kind for o in own):
        return True
    if area.side == "interior" and any(
            in_room(job, area, o, own) and not elsewhere(job, area, o) for o in job.all("opening", kind=kind)):
        return True
    return any(c.type in PARTS[kind] and job.one("opening", id=c.opening) is None and holds_part(job, area, c.room)
               for c in job.all("component", side=area.side))


def near(job, area, kind):
    """(a)(2)(ii)(A), "within 20 feet": how far one is nobody logs, so all of a side of the house are, that the work
    is on by its place or by an opening of it."""
    own = [o.id for o in job.all("opening") if o.id in area.ids("openings")]
    own += [f.opening for f in job.all("fixture", area=area.id, what="opening")]
    sides = [area.place] + [o.elevation for o in job.all("opening") if o.id in own]
    return of_the_room(job, area, kind) or any(
        o.elevation and any(spelt.may_be_one_side(o.elevation, s) for s in sides) for o in job.all("opening", kind=kind))


DUCT = ("duct vent register grille diffuser ducto conducto rejilla respiradero").split()
DUCT_WORDS = {w + end for w in DUCT for end in ("", "s")} | {"ductwork", "ventilation", "hvac", "ventilacion", "difusor", "difusores", "grate", "grates", "supply", "exhaust", "extractor", "extractores"}
DUCT_NAMES = ("air return", "return air", "air intake", "toma de aire", "retorno de aire")


@once
def duct_of_the_room(job, area):
    """(B), all duct openings: what is called one, of no other sort, is one; closing it is never wrong."""
    from dust import holds_words, words_of

    def is_called(text):
        return bool(DUCT_WORDS & set(words_of(text))) or any(holds_words(text, name) for name in DUCT_NAMES)
    return area.side == "interior" and any(
        c.type == "other" and (is_called(c.label) or is_called(c.id)) and holds_part(job, area, room_of(job, c))
        for c in job.all("component", side=area.side))


def room_of(job, component):
    """Its own, or that of its opening."""
    opening = job.one("opening", id=component.opening)
    return component.room or (opening.room if opening else None)


def beside(job, area, option):
    """Another work area of the same room has it."""
    return any(a.get(option) == "yes" and spelt.same(a.place, area.place) and not apart(job, area, a)
               for a in job.all("area", side=area.side) if a.id != area.id)
