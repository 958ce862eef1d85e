"""Jobs that tell of work beside their list of components, or against a word of the house (beside.py)."""
from draft import move, pick


def worked_elsewhere(d, r):
    """A room that no component is of, with or without work in it."""
    if any(a["id"] == "B1" for a in d.all("area")):
        return
    d.add("area", id="B1", side="interior", place=r.choice(("bath", "hall", "kitchen and bath", "bedroom 3", "kitchen 2",
                                                                  "Kitchen, west end", "hall by the kitchen")), length="9", width="7",
          countertops=r.choice(("no", "no", "yes")))
    if r.random() < 0.6:
        d.add("practice", area="B1", method="hand", person="lee", on=d.start)


def scraped(d, r):
    """More dry work, or as much, than is listed in the room."""
    fact = pick(d, r, "area")
    if fact:
        d.add("practice", area=fact["id"], method=r.choice(("dry-scrape", "dry-sand")), spot=r.choice(("2", "6", "6.01", "20", "20.5")),
              person="lee", on=d.start)


def another_kind(d, r):
    works = [w for w in ("demolition", "repair", "other") if w not in d.house["work"]]
    if works:
        d.house["work"] += "," + r.choice(works)


def change_of_work(d, r):
    d.add("scope_change", what="the bath ceiling too", on=d.start, **r.choice(({}, {"listed": "yes"}, {"listed": "no"})))


def countertops(d, r):
    fact = pick(d, r, "area")
    if fact and fact["side"] == "interior":
        fact["countertops"] = r.choice((None, None, "yes", "no"))
        if fact["countertops"] is None:
            del fact["countertops"]
        if r.random() < 0.4:
            d.add("component", id=r.choice(("CT1", "countertop")), type="other", side="interior", affected="no",
                  label=r.choice(("Counter top", "ENCIMERA", "counter", "cabinet", "countertop")), substrate="wood",
                  room=r.choice((fact["place"], fact["place"], "attic")))
        if r.random() < 0.3:
            name = r.choice(("galley", "WC", "Aseo", "half bathrm", "lavatory", "Servicio", "wet bar", "en suite"))
            fact["place"] = name


def kit_unsaid(d, r):
    fact = pick(d, r, "kit_test")
    if fact:
        fact.pop("substrates", None)


def word_of_the_house(d, r):
    """A word that takes the house out, and perhaps an entry against it."""
    d.house.update(r.choice((
        {"building": "other", "children_visit": "no"},
        {"building": "other", "children_visit": "no", "child_under_6": "no"},
        {"building": "dwelling", "elder_or_disabled": "yes", "child_under_6": "no"},
        {"for_compensation": "no", "owner_occupied": "yes"})))
    if d.house["building"] != "dwelling":
        d.house.pop("zero_bedroom", None)
    if r.random() < 0.6:
        for f in d.all("party"):
            if f["role"] in ("occupant", "units", "parents", "facility"):
                d.facts.remove(f)
    if r.random() < 0.4:
        d.add("party", id="somebody", role=r.choice(("occupant", "parents", "facility", "units")), name="Somebody Sample")
    if r.random() < 0.2:
        d.add("emergency", nature="a child's blood", on=move(d.start, -2), cause="elevated-blood-lead", blood_lead="8")


def moved_out(d, r):
    """As of assisted housing, which nobody called it."""
    d.add("occupancy", stay="relocated", kept_out="yes", **{"from": d.start}, until=d.end)


ALL = ((worked_elsewhere, 2), (scraped, 3), (another_kind, 2), (change_of_work, 1), (countertops, 3), (kit_unsaid, 2),
       (word_of_the_house, 5), (moved_out, 1))
