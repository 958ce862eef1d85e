"""What was down or too short for a while in made-up jobs, 745.85(a)(1)-(2): within the hours of work, before, after, or
at an hour that nobody said."""
from draft import move, pick

HOURS = ("07:50", "08:00", "08:05", "08:06", "10:00", "12:50", "13:00", "13:45", "14:20", "15:20", "18:00")
STEPS = ("signs", "signs-language", "isolate", "egress", "objects", "ducts", "windows-closed", "doors-closed", "doors-used",
         "floor-sheet", "windows-outside", "doors-outside", "openings-below", "doors-used-outside", "ground-sheet",
         "line-containment", "barriers-whole", "vertical-barrier", "signs-assisted")


def at_some_time(d, fact, r, time):
    if r.random() < 0.15:
        time = None
    return {**fact, "time": time, "_logged": time or r.choice(("00:00", "23:59"))}


def down_for_a_while(d, r):
    """Undone, or measured again and short, and put right again."""
    found = [t for t in d.all("tick") if t["step"] in STEPS and t.get("state") == "done"]
    worked = pick(d, r, "practice")
    if not found or not worked:
        return
    fact = r.choice(found)
    fell, back = sorted(r.choices(HOURS, k=2))
    on = worked["on"] if r.random() < 0.9 else move(worked["on"], r.choice((-1, 1)))
    same = {k: v for k, v in fact.items() if k not in ("entry", "measured", "time") and k[0] != "_"}
    if "measured" in fact and r.random() < 0.5:
        d.add("tick", **at_some_time(d, {**same, "on": on, "measured": r.choice(("4", "5.99"))}, r, fell))
    else:
        d.add("tick", **at_some_time(d, {**same, "on": on, "state": "undone", "reason": "it came loose"}, r, fell))
    if r.random() < 0.85:
        again = {"measured": fact["measured"]} if "measured" in fact else {}
        d.add("tick", **at_some_time(d, {**same, **again, "on": on if r.random() < 0.9 else move(on, 1)}, r, back))


def short_to_a_barrier(d, r):
    """A sheet that ends at a barrier, which was sealed before the work or later."""
    found = [t for t in d.all("tick") if t["step"] in ("floor-sheet", "ground-sheet") and "measured" in t]
    if found:
        fact = r.choice(found)
        fact["measured"] = "4"
        barrier = {k: v for k, v in fact.items() if k not in ("entry", "measured", "step") and k[0] != "_"}
        d.add("tick", **{**barrier, "step": "vertical-barrier", "time": r.choice(("07:10", "07:10", "07:55", "10:00", "18:00"))})
        if r.random() < 0.6:  # and comes down, when all is clean or before; the sheet is laid once more, or not
            on, time = move(max(d.last_logged(), fact["on"]), r.choice((0, 0, 1, 1, -1))), r.choice(("12:00", "14:05", "17:30", None))
            d.add("tick", **{**barrier, "step": "vertical-barrier", "on": on, "time": time, "state": "undone", "reason": "taken down"})
            if r.random() < 0.2:
                d.add("tick", **{**barrier, "step": fact["step"], "measured": "4", "on": on, "time": "18:00"})


WAYS = ((down_for_a_while, 8), (short_to_a_barrier, 2))
