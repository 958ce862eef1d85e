"""What is left at the end of made-up jobs: waste of the cleaning, 745.85(a)(4)(ii)-(iii); the floor and sills nobody
listed, (b)(1)(ii); dust cleaned again at an unsaid time, (b)(1)(i); what the plan alone shows, (a)(2)(i)(B)-(C)."""
from draft import move, pick
from wiped import fails, wipe

TAKES_UP = ("chips", "sheeting", "divider")


def taken_up_later(d, r):
    """The sheeting of an area comes up a day later; somebody speaks of the waste of that day, or nobody."""
    area = pick(d, r, "area")
    found = [f for f in d.all("tick") if f["step"] in TAKES_UP and area and f["area"] == area["id"]]
    if not found:
        return
    last = found[-1]
    last["on"] = move(last["on"], 1)
    if r.random() < 0.5:
        d.add("tick", area=area["id"], step="waste-daily", state="done", person="lee", renovator="rosa",
              on=move(last["on"], r.choice((0, 0, 1, -1))), time="17:00")


def bags_open(d, r):
    """Waste found open after all, and closed away again, or not."""
    fact = next((f for f in reversed(d.all("tick")) if f["step"].startswith("waste") and f["state"] == "done"), None)
    if not fact:
        return
    on = move(max(d.last_logged(), fact["on"]), r.choice((0, 0, 1, -1)))
    said = dict(area=fact["area"], step=fact["step"], person="lee", renovator="rosa")
    d.add("tick", state="undone", reason="bags open on the lawn", on=on, time="17:30", **said)
    if r.random() < 0.4:
        d.add("tick", state="done", on=on, time="17:40", **said)


def ticked_early(d, r):
    """A step of waste was ticked with the rest of the list in the morning, or in the midst of the work."""
    found = [f for f in d.all("tick") if f["step"].startswith("waste") and f["state"] == "done"]
    if found:
        fact = r.choice(found)
        fact["time"] = r.choice(("07:50", "08:05", "08:30", "12:49", "12:50", "13:05", None))
        if r.random() < 0.3:
            fact["on"] = move(fact["on"], r.choice((-1, 1)))


def rest_unsaid(d, r):
    fact = pick(d, r, "surface")
    if fact:
        fact.pop("note", None)


def window_beside(d, r):
    """Another window of a room, on the list of no work area, or of the next one."""
    area = pick(d, r, "area")
    if area and area["side"] == "interior" and not any(f["id"] == "W91" for f in d.all("opening")):
        d.add("opening", id="W91", kind="window", room=r.choice((area["place"], area["place"] + ", south half")),
              elevation="south", replaced="no", **r.choice(({}, {}, {"absent": "interior-sill"})))
        d.add("component", id="W91.sash", opening="W91", type="sash", side="interior", substrate="wood", affected="no")


def recleaned_at(d, r):
    """A look found dust; what was cleaned for it has a time, or none, or lies elsewhere."""
    look = next((f for f in d.all("verification") if f["event"] == "look-clean"), None)
    if not look or not look.get("time"):
        return
    hour = int(look["time"][:2])
    d.add("verification", area=look["area"], event="look-dirty", person="rosa", on=look["on"], time="%02d:51" % (hour - 1))
    step = r.choice(("surfaces", "walls", "mop", "clean-outside"))
    d.add("tick", area=look["area"], step=step, state="done", person="lee", renovator="rosa", on=look["on"],
          time=r.choice((None, "%02d:55" % (hour - 1), "%02d:55" % (hour - 1), "%02d:45" % (hour - 1))))


def folded_first(d, r):
    """A fold of the used cloth for the first wet wipe of a sill."""
    fact = next((f for f in d.all("verification") if "sill" in f.get("surface", "") and f["event"].startswith("wet")), None)
    if fact:
        fact["cloth"] = "fresh-fold"


def drawn(d, r):
    """The plan shows a vent or a flap."""
    area = pick(d, r, "area")
    if area:
        d.add("fixture", area=area["id"], what=r.choice(("duct", "flap")), wall="north", at="2")


def went_on(d, r):
    """Of an emergency: it was longer ago, or it is said until when responding took."""
    for f in d.all("emergency"):
        f["on"] = move(d.start, r.choice((-1, -5, -7, -8, -30)))
        if r.random() < 0.5:
            f["until"] = move(d.start, r.choice((-1, 0, 1, 3)))


def called_off(d, r):
    """The owner cancels: before anything hangs or lies there, when it does, or with work logged all the same."""
    d.house["called_off"] = move(d.start, r.choice((-3, -1, 0, 0, 1)))
    kept, done = r.choice(((), ("tick",), ("tick", "practice"), ("dust_sample",), ("completion",))), \
        ("tick", "practice", "verification", "dust_sample", "completion", "certification", "invoice", "handover")
    if r.random() < 0.8:
        d.facts[:] = [f for f in d.facts if f["entry"] not in done or f["entry"] in kept]
    if d.rival is not None and r.random() < 0.5:
        d.rival["called_off"] = d.house["called_off"]


def area_off(d, r):
    """The work in one area is given up: before it was begun, when it was contained, or with work or parts left in it."""
    area = pick(d, r, "area")
    if area is None:
        return
    area["called_off"] = move(d.start, r.choice((-3, 0, 0, 1, 2)))
    openings = [x for x in (area.get("openings") or "").split(",") if x]
    for c in d.all("component"):
        there = c.get("opening") in openings if c.get("opening") else c.get("room") == area["place"]
        if there and r.random() < 0.95:
            c["affected"] = "no"
            c.pop("removed", None)
    for o in d.all("opening"):
        if o["id"] in openings and r.random() < 0.9:
            o["replaced"] = "no"
    kept = r.choice(((), (), ("tick",), ("practice",), ("verification",), ("dust_sample",)))
    done = ("tick", "practice", "verification", "dust_sample")
    cleaned = ("chips", "sheeting", "divider", "walls", "surfaces", "carpet", "mop", "margin", "clean-outside",
               "waste-contained", "waste-chute", "waste-daily", "waste-transport", "leave-clean", "waste-at-end")
    contained = r.random() < 0.5
    d.facts[:] = [f for f in d.facts if f["entry"] not in done or f.get("area") != area["id"] or f["entry"] in kept
                  or (contained and f["entry"] == "tick" and f["step"] not in cleaned)]
    if r.random() < 0.3:
        d.add("practice", area=area["id"], method="hand", person="lee", planned="yes",
              on=move(area["called_off"], r.choice((-2, -1, 0, 1))))


def room_given_up(d, r):
    """A room in which nothing was ever listed is called off; what is left may be minor, 745.83."""
    if any(a["id"] == "A19" for a in d.all("area")):
        return
    on = move(d.start, r.choice((-3, -1, 0, 1)))
    d.add("area", id="A19", side="interior", place="den", length="10", width="10", called_off=on)
    told = r.choice(("nothing", "nothing", "let alone", "part", "plan", "work", "samples", "samples"))
    begun = r.choice((move(d.start, -4), move(d.start, -4), d.start, move(d.start, 1)))
    for time in ("16:00", "17:00") if told == "samples" else ():
        wipe(d, {"id": "A19"}, "floor", "den", move(d.start, -4) if time == "16:00" else begun, time, required="no",
             **fails(r, "floor", begun))
    if told in ("let alone", "part"):
        d.add("component", id="den.wall", type="wall", side="interior", room="den", substrate="plaster", disturbed="0.5",
              removed="no", **({"affected": "no"} if told == "let alone" else {}))
    if told in ("plan", "work"):
        d.add("practice", area="A19", method="hand", person="lee", on=move(on, r.choice((-1, 0))),
              **({"planned": "yes"} if told == "plan" else {}))
    if r.random() < 0.8:
        little_left(d)


def little_left(d):
    d.house["work"] = "repair"
    d.facts[:] = [f for f in d.facts if f["entry"] != "scope_change"]
    for o in d.all("opening"):
        o["replaced"] = "no"
    for c in d.all("component"):
        c["disturbed"], c["removed"] = "0.5", "no"
    for p in d.all("practice"):
        p["method"] = "hand"


WAYS = ((taken_up_later, 4), (bags_open, 4), (ticked_early, 5), (rest_unsaid, 3), (window_beside, 3), (recleaned_at, 4), (folded_first, 2),
        (drawn, 3), (went_on, 3), (called_off, 5), (area_off, 6), (room_given_up, 5))
