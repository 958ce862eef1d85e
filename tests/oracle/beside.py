"""40 CFR 745.82(a), 745.83, 745.103: what a job tells beside its list of components, and against the
word that would take the house out of the rule.

"Each component" that is affected is shown free; of what is on no list nothing is shown.
"""
import re

import cover
from facts import alike, once, unaccented

WINDOW = re.compile(r"\b(windows?|windowsills?|sash(es)?|casements?|ventanas?|ventanal(es)?)\b")
REPLACED = re.compile(r"\b(replac(e|es|ed|ing|ements?)|new|reemplazar|cambiar|sustituir)\b")
WITH_COUNTERTOPS = ("shower room", "lavadero", "lavanderia", "kitchen", "kitch", "kitchenette", "pantry", "bath", "bathroom", "powder room", "restroom",
                    "washroom", "laundry", "utility room", "cocina", "cocineta", "bano", "lavatory", "lav", "toilet", "wc",
                    "water closet", "aseo", "bathrm", "galley",
                    "bar", "en suite", "ensuite", "servicio", "servicios", "sanitario", "scullery", "kuche")
COUNTERTOPS = re.compile(r"(?<![a-z0-9])(counter( ?tops?|s)?|mostrador(es)?|encimeras?)(?![a-z0-9])")


def words(text):
    return " %s " % " ".join("".join(c if c.isalnum() else " " for c in unaccented(text)).split())


def in_place(area, room):
    """The place of an area may be of the room, whatever it says of it."""
    return bool(alike(room)) and words(room) in words(area.place)


def is_place(area, room):
    """It is the room, or names it beside others: "kitchen and dining room"; the bedroom is not in "bedroom 2"."""
    joined = re.split(r"[,;/&+()]| and | y ", area.place or "")
    from spelt import same
    return bool(alike(room)) and (same(room, area.place) or alike(room) in {alike(area.place)} | {alike(part.strip()) for part in joined})


def room_said(job, component):
    opening = cover.opening_of(job, component)
    return component.room or (opening.room if opening else None)


def lies_in(job, area, component):
    through = component.opening and component.opening in area.ids("openings")
    return component.side == area.side and (bool(through) or is_place(area, room_said(job, component)))


def touched(component):
    return component.affected != "no" or component.removed == "yes"


def called_window(component):
    """745.83: replaced is what comes off, whatever type it was logged as; these types are of windows and of more."""
    return component.type in ("other", "jamb", "stop", "apron", "interior-casing", "exterior-casing") and any(
        WINDOW.search(words(name)) for name in (component.label, component.id))


def described_windows_listed(job):
    """Windows that the job is said to replace are on the list, as openings or as parts."""
    said = words(job.house.description)
    if not WINDOW.search(said) or not REPLACED.search(said):
        return True
    return bool(job.all("opening", kind="window")) or any(cover.of_a_window(job, c) for c in job.all("component"))


# ---- where and what ---------------------------------------------------------------------------------------

def painted_part_in(job, area):
    return any(lies_in(job, area, c) for c in cover.disturbed_components(job))


def part_in(job, area):
    """A work area may hold a side of an opening on which nothing is painted."""
    return any(touched(c) and (lies_in(job, area, c) or (c.opening and c.opening in area.ids("openings")))
               for c in job.all("component"))


def part_for(job, kind):
    """Of demolition, repair or other work: something beside what is replaced."""
    for c in job.all("component"):
        opening = cover.opening_of(job, c)
        replacement = opening is not None and cover.replaced(job, opening) and \
            opening.kind + "-replacement" in job.house.ids("work")
        if touched(c) and not replacement and not (kind == "demolition" and c.removed == "no"):
            return True
    return False


@once
def nothing_beside(job):
    """No method, work area, kind of work or change of it without a component on the list. Where the work was called off
    nothing is disturbed, 745.83, and an older plan was given up."""
    from called import working  # which itself asks what is disturbed
    areas = {a.id: a for a in job.all("area")}
    off = {a.id for a in job.all("area")} - {a.id for a in working(job, job.all("area"))}
    return (all(p.area in off or (p.area in areas and painted_part_in(job, areas[p.area])) for p in job.all("practice"))
            and all(part_in(job, a) for a in job.all("area") if a.id not in off)
            and all(part_for(job, k) for k in ("demolition", "repair", "other") if k in job.house.ids("work"))
            and all(s.listed == "yes" for s in job.all("scope_change")) and described_windows_listed(job))


def worked_dry(job, room):
    """Sq ft in the room, or outside; what lies nobody knows where counts everywhere."""
    areas = {a.id: a for a in job.all("area")}
    total = {True: 0, False: 0}  # what was planned is not disturbed once more by the work
    for p in job.all("practice"):
        a = areas.get(p.area)
        here = a is None or ("outside" == room if a.side == "exterior" else
                             room != "outside" and (not room or in_place(a, room)))
        total[p.planned == "yes"] += (p.spot or 0) if here else 0
    return max(total.values())


# ---- the house -----------------------------------------------------------------------------------------------

def roles(job):
    return {p.role for p in job.all("party")}


def somebody_lives_there(job):
    """"Other" is no housing; these say that it is."""
    house = job.house
    exempt_kind = "yes" in (house.elder_or_disabled, house.zero_bedroom)
    return ("yes" in (house.child_under_6, house.owner_occupied, house.assisted)
            or (exempt_kind and house.child_under_6 != "no")
            or bool(job.all("occupancy") or job.all("vacancy") or roles(job) & {"occupant", "units"}))


def contradicted(job):
    """What is said elsewhere of a child who lives there, or of children who are looked after."""
    return (any(e.cause == "elevated-blood-lead" for e in job.all("emergency"))
            or bool(roles(job) & {"parents", "facility"})
            or (job.house.building == "other" and somebody_lives_there(job)))


BEDROOM = re.compile(  # common practice, no source
    r"\b(bed ?rooms?|bdrm|bed rm|br|bedrm|nursery|recamara|dormitorio|alcoba|cuarto de dormir|sleeping room)\b")


def bedroom_listed(job):
    """745.83 "zero-bedroom dwelling": the living area is not separated from the sleeping area; a bedroom is."""
    names = [f.room for f in job.all("component") + job.all("opening")] + [a.place for a in job.all("area")]
    return any(BEDROOM.search(unaccented((name or "").lower())) for name in names)


def paid(job):
    """Wages of own staff; rent of others than the owner, who is presumed to live elsewhere where the list of people
    says so."""
    from told import owner_lives  # which asks cover.py, and that this module
    house = job.house
    if house.building in ("facility", "other") or house.children_visit == "yes":
        return True
    if job.all("vacancy") or roles(job) & {"occupant", "units"} or not owner_lives(job):
        return True
    return house.building == "multi-unit" and (
        not house.unit or any(a.common == "yes" or (a.unit and a.unit != house.unit) for a in job.all("area")))


# ---- 745.85(b)(1)(ii)(B) ----------------------------------------------------------------------------------------

def countertops_listed(job, area):
    """Countertops are wiped; that a kitchen or a bath has none is to be said, and holds while none is on the list of
    parts."""
    if job.all("surface", area=area.id, kind="countertop"):
        return True
    part = any(c.type == "other" and lies_in(job, area, c) and
               any(COUNTERTOPS.search(unaccented(name or "")) for name in (c.label, c.id))
               for c in job.all("component"))
    if area.countertops is not None or part:
        return area.countertops == "no" and not part
    rooms = [area.place] + [room_said(job, c) for c in job.all("component") if lies_in(job, area, c)] + \
        [o.room for o in job.all("opening") if o.id in area.ids("openings")]
    return not any(words(name) in words(room) for room in rooms if room for name in WITH_COUNTERTOPS)


# ---- 24 CFR part 35 ------------------------------------------------------------------------------------------------

def assisted_unsaid(job):
    """35.115, 35.1345: occupants are moved out, or the sign is up, as for assisted housing alone."""
    signs = [t for t in job.all("tick") if t.step == "signs-assisted" and t.state == "done"]
    gap = job.house.assisted is None and (job.all("occupancy") or signs)
    return ["24 CFR 35.115 is it assisted?"] if gap else []
