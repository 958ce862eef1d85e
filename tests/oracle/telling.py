"""Owner, occupants, units, facility and parents of a made-up job, and how they are told."""
from draft import move as days


def told(d, r):
    """Owner, occupants, units, facility and parents, each told in a lawful way."""
    party(d, r, "owner", "owner")
    if d.case == "rented":
        party(d, r, "tenant", "occupant")
    if d.case in ("unit", "unit-and-common"):
        for unit in sorted({a.get("unit") or d.unit for a in d.areas
                            if a["side"] == "interior" and a.get("common") != "yes"}):
            said = {} if unit == d.house.get("unit") and r.random() < 0.4 else {"unit": unit}
            if r.random() < 0.1:
                d.add("vacancy", unit=unit, on=days(d.start, -r.choice((0, 30))), said_by="the owner")
            else:
                party(d, r, "tenant-" + unit, "occupant", **said)
    if d.case in ("common", "unit-and-common") or (d.case == "unit" and d.outside):
        party(d, r, "units", "units")
    if d.case in ("facility", "other"):
        party(d, r, "daycare", "facility")
        party(d, r, "parents", "parents")


def party(d, r, name, role, **said):
    d.add("party", id=name, role=role, name=name.title() + " Sample", address="12 Sample Lane", **said)
    method = r.choice({"owner": ("acknowledged", "mailed"), "units": ("unit-notice", "mailed", "posted"),
                       "parents": ("mailed", "posted")}.get(
                           role, ("acknowledged", "mailed", "self-certified")))
    notice(d, r, name, role, method)


def notice(d, r, name, role, method, **said):
    on = days(d.start, -r.choice((7, 10, 20, 60)) if method == "mailed" else
              0 if method == "posted" else -r.choice((1, 3, 20, 60)))
    if role in ("units", "parents"):
        said.update(statement="yes", tells_work="yes", tells_dates="yes", tells_pamphlet="yes",
                    tells_records="yes")
        if method != "posted" and role == "units" and r.random() < 0.7:
            said.update(work_from=d.start, work_until=days(d.end, r.choice((0, 0, 5))))
        elif r.random() < 0.3:  # a sign tells the end
            said.update(work_until=days(d.end, r.choice((0, -1, 5))))
    if role == "units" and r.random() < 0.1:  # of the house, of one unit, of several
        said["unit"] = r.choice(("12 Sample Lane", "unit 2B", "12 Sample Lane, 3C", "2B, 3C"))
    if method == "acknowledged":
        said.update(signed_on=on, signer=signer(r, name), unit=paper(d, r, name), states_receipt="yes")
    if method == "self-certified":
        said.update(signed_on=on, signer="for the firm", unit=paper(d, r, name), reason="refused",
                    deliverers="Lee", how="under the door")
    if method == "mailed":
        said["receipt"] = "yes"
    if r.random() < 0.5 and method in ("acknowledged", "self-certified"):
        said["language"] = "en"
    d.add("notice", party=name, method=method, on=on, **said)


def signer(r, name):
    """The recipient, or somebody who says for whom and by what right."""
    own = name.title() + " Sample"
    return own if r.random() < 0.7 else r.choice((own.upper(), own + ", signed at home", "Bob Other, agent for " + own) * 3 + (
        own + " (refused to sign)", own + ", by Rosa Sample", own + ", manager", "Bob Other, neighbor for " + own, own + ", Friday"))


def paper(d, r, name):
    """The address as a paper names it, with the unit of whom it is for."""
    unit = name[len("tenant-"):] if name.startswith("tenant-") else d.house.get("unit")
    forms = ("12 Sample Lane",) if unit is None else (
        "12 Sample Lane", "12 Sample Lane, %s", "%s, 12 Sample Lane", "12 Sample Lane, unit %s", "%s")
    form = r.choice(forms if not name.startswith("tenant") or r.random() < 0.1 else forms[1:] or forms)
    return form % r.choice((unit, unit.lower())) if "%" in form else form
