"""A job that was called off before any work: nobody is to do it, so nothing of it may be torn out, 745.85(a).
What was logged of work is believed before the word that there was none, 745.86(a)."""
import beside
import spelt
from contain import WORK_STEPS
from cover import disturbed_components, replaced
from facts import alike, once
from told import named

CLEANING = ("chips", "sheeting", "divider", "walls", "surfaces", "carpet", "mop", "margin", "clean-outside")


def begun(job):
    """Paint was disturbed, or what comes after that was done or said."""
    done = [t.step for t in job.all("tick", state="done")]
    return (any(p.planned != "yes" for p in job.all("practice"))
            or any(s in CLEANING or (s in WORK_STEPS and s != "barriers-whole") for s in done)
            or any(s.required == "yes" and s.blank != "yes" for s in job.all("dust_sample"))
            or any(job.all(kind) for kind in ("verification", "completion", "certification", "invoice")))


def said(job):
    """Nothing may be torn out, whatever was logged: of two words that contradict each other the stricter one."""
    on = job.house.called_off
    return ["745.85(a) called off"] if on is not None and on <= job.today else []


def off(job):
    """745.83, 745.85(a): no renovation is to begin; nothing was modified, so no signs, record or copy is owed for it,
    and nothing of it can be shown to have been done right."""
    return [] if begun(job) else said(job)


def in_it(area, component):
    if component.side != area.side:
        return False
    if component.opening:
        return component.opening in area.ids("openings")
    return bool(component.room) and spelt.same(component.room, area.place)


def still_to_do(job, area):
    """A part there is disturbed or comes off, an opening there is replaced, or nobody said what happens to it."""
    drawn = {f.opening for f in job.all("fixture", area=area.id) if f.opening}
    openings = [o for o in job.all("opening") if o.id in area.ids("openings") or o.id in drawn]
    parts = disturbed_components(job) + job.all("component", removed="yes")
    return any(in_it(area, c) for c in parts) or any(
        replaced(job, o) or not job.all("component", opening=o.id) for o in openings)


@once
def area_off(job, area):
    """Nothing was modified there, 745.83, and nothing will be: no sign, containment or cleaning is owed of it."""
    return said_off(job, area) and not goes_on(job, area) and not room_worked_in(job, area)


def said_off(job, area):
    return area.called_off is not None and area.called_off <= job.today


def goes_on(job, area):
    """Nobody called the area off, or what was logged, or is to be done, tells otherwise. Of a sample that nobody says was
    not required, it may have been."""
    done = [t.step for t in job.all("tick", state="done", area=area.id)]
    return (not said_off(job, area) or any(p.planned != "yes" for p in job.all("practice", area=area.id))
            or any(s in CLEANING or (s in WORK_STEPS and s != "barriers-whole") for s in done)
            or any(s.required != "no" and s.blank != "yes" for s in job.all("dust_sample", area=area.id))
            or bool(job.all("verification", area=area.id)) or still_to_do(job, area) or planned_since(job, area))


def planned_since(job, area):
    """A plan is given up with the area; one of the day on which that was said, or later, is to work there."""
    given_up = min(a.called_off for a in job.all("area", id=area.id) if a.called_off is not None)
    return any(p.on >= given_up for p in job.all("practice", area=area.id, planned="yes"))


def contradicted(job):
    """745.86(a): records that contradict each other show nothing, whoever certified them."""
    of_job = ["745.86(a) called off, and begun"] if said(job) and begun(job) else []
    return of_job + ["745.86(a) %s called off, and not so" % a.id for a in job.all("area")
                     if said_off(job, a) and not area_off(job, a)]


def one_room(name, other):
    """Of "kitchen" and "kitchen, west end" nobody said that they are two rooms."""
    one, two = (spelt.words(beside.words(n or ""), loosely=True) for n in (name, other))
    return bool(one and two and (one <= two or two <= one))


def room_worked_in(job, area):
    """Dust does not end at a line in a room, 745.83 "work area"; another area there is not called off."""
    def rooms(a):
        return [o.room for o in job.all("opening") if o.id in a.ids("openings")]
    for other in job.all("area", side="interior"):
        if area.side != "interior" or other.id == area.id or not goes_on(job, other):
            continue
        units = [named(a.unit or job.house.unit) for a in (area, other)]
        if None not in units and units[0] != units[1]:
            continue
        if one_room(area.place, other.place) or any(one_room(room, other.place) for room in rooms(area)) or any(
                one_room(room, area.place) for room in rooms(other)) or any(
                one_room(r, s) for r in rooms(area) for s in rooms(other)):
            return True
    return False


def working(job, areas):
    """The work areas that are left of these."""
    return [a for a in areas if not area_off(job, a)]


def all_off(job):
    return ["745.85(a) each work area called off"] if job.all("area") and not working(job, job.all("area")) else []


def off_there(job, area, reached):
    """Whoever asks of the one area hears that nothing may be torn out in it, as of a job that was called off; where work is
    logged there all the same, or still to be done, so does whoever asks of the job, or of an area that opens into it."""
    said_so = [a for a in (job.all("area") if area is None else reached) if a.called_off is not None and a.called_off <= job.today]
    return ["745.85(a)(2) %s called off" % a.id for a in said_so if a is area or not area_off(job, a)]
