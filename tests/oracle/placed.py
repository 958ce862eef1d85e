"""Stricter limits of a state, a town or a contract in made-up jobs, and numbers at them: the
states are, their limits are not."""
from draft import move, pick
from wiped import unsay

ROWS = (  # limit, stricter values, comparison
    ("minor-interior", ("1", "2", "3"), ("below", None)), ("minor-exterior", ("10", "20"), ("below",)),
    ("dust-floor", ("3", "4.9"), (None,)), ("dust-sill", ("20", "39.9"), (None,)),
    ("dust-trough", ("50",), (None,)), ("floor-sheet", ("7", "8"), (None,)), ("clean-margin", ("3",), (None,)),
    ("handover-days", ("10", "20"), (None,)), ("paint-weight", ("2500", "600"), (None,)),
    ("paint-loading", ("0.5",), (None,)),
)


def limit(d, r):
    """A row, of the place of the job or of another, in force or not."""
    name, values, how = r.choice(ROWS)
    where = r.choice(("US-OH", "US-OH-TOWN", "J-1", "US-ME"))
    d.house["place"] = r.choice(("US-OH", "US-OH-TOWN", "US-OH-TOWN,US-NV", "US-OH", None))
    said = {"comparison": r.choice(how)}
    edge = r.choice((d.start, d.end, move(d.end, 1), move(d.start, -30)))
    if name != "handover-days":  # of which day it is, nobody says
        said.update(r.choice(({}, {}, {"from": edge}, {"until": edge})))
    if r.random() < 0.2:
        said["built_before"] = r.choice((1950, 1951, 1978))
    d.add("local_limit", limit=name, value=r.choice(values), place=where, status="verified",
          citation="its own text", **said)


def at_it(d, r):
    """A number at such a limit."""
    row = pick(d, r, "local_limit")
    if row is None:
        return
    if row["limit"].startswith("minor"):
        fact = pick(d, r, "component")
        if fact:
            fact["whole" if fact.get("removed") == "yes" else "disturbed"] = row["value"]
    elif row["limit"].startswith("dust"):
        found = [s for s in d.all("dust_sample") if row["limit"].endswith(s["surface"])]
        if found:
            fact = r.choice(found)
            unsay(fact)["result"] = r.choice((row["value"], "<" + row["value"]))
    elif row["limit"] in ("floor-sheet", "clean-margin"):
        step = {"floor-sheet": "floor-sheet", "clean-margin": "margin"}[row["limit"]]
        for t in d.all("tick"):
            if t["step"] == step and "measured" in t:
                t["measured"] = r.choice((row["value"], row["value"], "2.5"))


WAYS = ((limit, 7), (at_it, 5))
