"""24 CFR 35.1350(d)(3): "10 percent of the total surface area on an interior or exterior type of component with a
small surface area. Examples include window sills, baseboards, and trim." What is not known to be large is small,
whatever it was logged as."""
import re

from cover import area_of
from facts import unaccented

LARGE = {"wall", "walls", "ceiling", "ceilings", "floor", "floors", "siding", "clapboards", "stucco", "plaster",
         "roof", "pared", "techo", "piso", "fachada"}
WHICH = {"north", "south", "east", "west", "front", "rear", "upper", "lower", "wood", "the", "of", "exterior", "interior"}
TRIM = {"sill", "sills", "trim", "molding", "baseboard", "casing", "rail", "sash", "jamb", "stop", "apron", "threshold",
        "cornice", "frame", "moldura", "zocalo"}


def words(component):
    return re.findall(r"[^\W_]+", unaccented(component.label))


def is_small(component):
    said = set(words(component))
    if component.type == "wall":
        return bool(said & TRIM)
    return component.type != "other" or not (said & LARGE and said <= LARGE | WHICH)


def of_type(job, component):
    """All of that type there; of what is called otherwise, or nothing, each is a type of its own."""
    named = component.type not in ("other", "wall")
    return [c for c in job.all("component") if c.type == component.type and c.side == component.side and (
        named or c.id == component.id or (component.label and words(c) == words(component)))]


def within_tenth(job, component, counted):
    """Of all of its type that are listed: where one of them is of no known size, nobody can say."""
    alike = of_type(job, component)
    sizes = [c.whole for c in alike] + [area_of(job, c) for c in alike if c in counted]
    if None in sizes or sum(c.whole for c in alike) < 1 / 100:
        return False
    return sum(area_of(job, c) for c in alike if c in counted) * 10 <= sum(c.whole for c in alike)
