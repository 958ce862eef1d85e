"""What others determined of the paint of made-up jobs, 745.82(a)(1): a report of several parts, an owner's record."""
from draft import move, pick


def of_several(d, r):
    """One report instead of one for each part; a part of it is left out or not."""
    found = d.all("determination")
    if not found:
        return
    ids = [f["component"] for f in found if f.get("component")]
    if not ids:
        return
    if len(ids) > 1 and r.random() < 0.3:
        ids.remove(r.choice(ids))
    report = {k: v for k, v in found[0].items() if k not in ("entry", "component", "components")}
    d.facts[:] = [f for f in d.facts if f["entry"] != "determination"]
    d.add("determination", components=",".join(ids), **report)


def owner_record(d, r):
    """What the owner had determined before, of some parts or of all, in place of the tests or beside them."""
    if r.random() < 0.7:
        d.facts[:] = [f for f in d.facts if f["entry"] not in ("kit_test", "chip", "determination")]
        for f in d.all("component"):
            f.pop("part_of", None)
    on = move(d.start, -r.choice((0, 100, 900)))
    named = [f["id"] for f in d.all("component") if r.random() < 0.95]
    said = {"components": ",".join(named)} if named and r.random() < 0.9 else {}
    d.add("owner_record", report="R-1", assessor="Ines Sample", discipline=r.choice(("inspector", "risk-assessor")),
          number="I-7", issuer="Agency Example", on=on, expires=move(on, r.choice((0, 300, 300, -1))), copy_held="yes",
          **said)


def record_short(d, r):
    fact = pick(d, r, "owner_record")
    if fact:
        fact.update(r.choice(({"number": None}, {"issuer": None}, {"expires": None}, {"copy_held": None},
                              {"copy_held": "no"}, {"discipline": "renovator"}, {"on": move(d.start, 1)},
                              {"components": None}, {"expires": move(fact["on"], -1)})))


def read(d, r):
    """Somebody read parts with an instrument: alone that frees nothing, and lead that it finds is lead."""
    if not d.all("instrument"):
        d.add("instrument", serial="X-1", film="1.0", cal_low="0.8", cal_high="1.2")
    under = ("wood",) if r.random() < 0.5 else ("wood",) * 6 + ("metal",)  # as it was read
    for f in d.all("component"):
        if r.random() < 0.3:
            d.add("reading", number=len(d.facts), instrument="X-1", operator=r.choice(("ines", "rosa")), purpose="paint",
                  component=f["id"], substrate=r.choice(under), result=r.choice(("0.1",) * 20 + ("0.9", "0.5", "1.0", "-0.2")),
                  on=move(d.start, -r.choice((0, 2, 9))), time="10:00")


WAYS = ((read, 2), (of_several, 3), (owner_record, 3), (record_short, 2))
