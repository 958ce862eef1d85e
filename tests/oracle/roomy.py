"""Rooms of which a work area is a piece, or whose windows, doors and ducts another list names."""


def left_out(d, area, step):
    """The step is said not to be needed, as nothing of it were there."""
    for t in d.all("tick"):
        if t["area"] == area["id"] and t["step"] == step:
            t.update(state="not-needed", ground="none-present", reason="there is none")


def inside(d, r):
    found = [a for a in d.areas if a["side"] == "interior"]
    return r.choice(found) if found else None


IN_OTHER_WORDS = {"kitchen": ("kitch", "cocina", "kitchen (north)"), "bedroom": ("bed room", "dormitorio", "bedroom 2"),
                  "stair hall": ("hallway stairs", "stair hallway"), "hall": ("hallway", "hall upstairs")}


def spelled(r, place):
    if r.random() < 0.3:
        return r.choice(IN_OTHER_WORDS.get(place, (place,)))
    return r.choice((place, place, place.title(), place + ", west end", "hall and " + place, place + " 2"))


def unlisted_of_the_room(d, r):
    """A window or a door of the room in no list, and the step that closes it is left out."""
    area = inside(d, r)
    kind = r.choice(("window", "door"))
    if area is None or any(o[:1] == kind[0].upper() for o in (area.get("openings") or "").split(",")):
        return
    place = area["place"]
    if r.random() < 0.5:
        d.add("opening", id="Y%d" % r.randrange(10000), kind=kind, room=spelled(r, place), elevation="west", replaced="no")
        d.add("component", id=d.facts[-1]["id"] + ".jamb", opening=d.facts[-1]["id"], type="jamb", side="interior", substrate="wood", affected="no")
    else:
        d.add("component", id="y%d" % r.randrange(10000), type=r.choice(("sash", "trough") if kind == "window" else ("door-slab", "jamb")),
              side="interior", room=spelled(r, place), substrate="wood", affected="no")
    if kind == "door" and r.random() < 0.7:
        area["doors_used"] = "no"
    left_out(d, area, kind + "s-closed")


def duct_on_the_list(d, r):
    """A part of no other sort, by its name a duct opening or nearly so, in or beside a room that is said to have none."""
    area = inside(d, r)
    if area is None:
        return
    called = r.choice(("air duct", "HVAC Vent", "heat registers", "rejilla de ventilación", "Ductos", "return air", "Venetian blind", "mantel", ""))
    if r.random() < 0.6:
        area["ducts"] = r.choice(("no", None))
    ident = r.choice(("kitchen.vent", "x%d" % r.randrange(10000)))
    d.add("component", id=ident, type=r.choice(("other",) * 5 + ("wall",)), label=called or None, side=r.choice(("interior",) * 5 + ("exterior",)),
          room=r.choice((spelled(r, area["place"]), "attic")), substrate="metal", affected="no")
    if r.random() < 0.5:
        left_out(d, area, "ducts")


def piece_of_the_room(d, r):
    """A second work area of the room, perhaps of another unit, has the windows, the ducts, the door in use."""
    area = inside(d, r)
    if area is None:
        return
    said = {k: area[k] for k in ("unit", "common") if k in area}
    if d.house["building"] == "multi-unit" and r.random() < 0.5:
        said = r.choice(({"unit": "3C", "common": "no"}, {"common": "yes"}, {"unit": "2b"}, {}))
        if r.random() < 0.5:
            area.setdefault("common", "no")
    other = d.add("area", id="A%d" % (6 + len(d.all("area"))), side="interior", place=spelled(r, area["place"]), length="5", width="5", **said)
    if r.random() < 0.7:
        other["openings"], area["openings"] = area.get("openings"), None
    for word in ("ducts", "doors_used"):
        other[word] = r.choice(("yes", "no", None))
        if r.random() < 0.6:
            area[word] = r.choice((None, "no"))
    for step in ("windows-closed", "doors-closed", "ducts"):
        if r.random() < 0.6:
            left_out(d, area, step)


def in_other_words(d, r):
    """A part of the room is listed there by another word for it."""
    area = inside(d, r)
    parts = [c for c in d.all("component") if area and c.get("room") == area["place"]]
    if parts:
        r.choice(parts)["room"] = r.choice(IN_OTHER_WORDS.get(area["place"], (area["place"],)))


SIDES = ("north", "north elevation", "north side", "N", "N side", "lado norte", "Norte", "northeast corner", "all sides", "porch",
         "front", "rear", "south", "east side", "south and west", "side A", "B", "siding on the south")


def of_a_side(d, r):
    """What is outside is called by its side in other words, and an opening is listed on a side in others."""
    found = [a for a in d.areas if a["side"] == "exterior"]
    if not found:
        return
    area, kind = r.choice(found), r.choice(("window", "door"))
    if r.random() < 0.6:
        was, area["place"] = area["place"], r.choice(SIDES)
        for c in d.all("component"):
            if c.get("room") == was and c["side"] == "exterior":
                c["room"] = area["place"]
    d.add("opening", id="Z%d" % r.randrange(10000), kind=kind, room="attic", elevation=r.choice(SIDES), replaced="no")
    d.add("component", id=d.facts[-1]["id"] + ".jamb", opening=d.facts[-1]["id"], type="jamb", side="interior", substrate="wood", affected="no")
    if kind == "door":
        area["doors_used"] = "no"
    left_out(d, area, kind + "s-outside")


def line_unsaid(d, r):
    """Nobody gave the distance to the property line, or it moves."""
    found = [a for a in d.areas if a["side"] == "exterior"]
    if found:
        r.choice(found)["line"] = r.choice((None, None, "9", "11"))


def window_by_name(d, r):
    """A part that only its name calls a window, or a description that speaks of one; little work otherwise."""
    if r.random() < 0.5:
        d.house["description"] = r.choice(("replace the hall window", "new windows", "cambiar la ventana", "paint the window", "replace trim"))
        return
    d.add("component", id=r.choice(("z1", "hall.window")), type=r.choice(("other", "other", "jamb", "wall")), side="interior",
          label=r.choice(("window, whole", "Ventana", "mantel", "windowless wall")), room=r.choice(("kitchen", "foyer", "toilet")),
          substrate="wood", disturbed="2", whole="2", removed=r.choice(("yes", "yes", "no", None)))


WAYS = ((window_by_name, 3), (unlisted_of_the_room, 3), (duct_on_the_list, 2), (piece_of_the_room, 3), (in_other_words, 1), (of_a_side, 3), (line_unsaid, 1))
