"""Emergencies of made-up jobs, 745.82(b): what was not followed, and what is written of it."""
from draft import move, pick

STEPS = {
    "signs": ("signs", "signs-language"),
    "containment": ("isolate", "egress", "objects", "ducts", "windows-closed", "doors-closed", "doors-used",
                    "floor-sheet", "windows-outside", "doors-outside", "openings-below", "doors-used-outside",
                    "ground-sheet", "line-containment", "barriers-whole", "leave-clean"),
    "waste": ("waste-contained", "waste-chute", "waste-daily", "waste-transport"),
}
WORDS = ("pamphlet", "signs", "containment", "waste", "training", "certification")


def drop(d, left):
    d.facts[:] = [f for f in d.facts if not left(f)]


def not_followed(d, r, word):
    """Something of it is missing."""
    if word == "pamphlet":
        drop(d, lambda f: f["entry"] == "notice")
    elif word in STEPS:
        some = r.random() < 0.5
        gone = [s for s in STEPS[word] if not some or r.random() < 0.4]
        drop(d, lambda f: f["entry"] == "tick" and f["step"] in gone)
        if word == "containment" and r.random() < 0.6:
            no_plastic(d, r)
    elif word == "training":
        for f in d.all("tick", "practice"):
            if f.get("step") not in ("chips", "sheeting", "walls", "surfaces", "carpet", "mop", "margin",
                                     "divider", "clean-outside"):
                f["person"] = r.choice(("kim", "lee"))
    else:
        gone = r.choice(("firm", "present", "assignment"))
        if gone == "firm":
            drop(d, lambda f: f["entry"] == "certificate" and f["holder"] == "firm")
        elif gone == "assignment":
            for f in d.all("assignment"):
                f["on"] = move(d.end, r.choice((0, 1)))
        else:
            for f in d.all("tick"):
                if f["step"] in STEPS["containment"] + STEPS["signs"]:
                    f.pop("renovator", None)


def no_plastic(d, r):
    """Nothing was there to fold, they say; sometimes a tick of plastic is left all the same."""
    if r.random() < 0.7:
        drop(d, lambda f: f["entry"] == "tick" and (
            f["step"] in STEPS["containment"] or f["step"] in ("vertical-barrier", "divider")))
    for f in d.all("tick"):
        if f["step"] == "sheeting":
            f.update(state="not-needed", ground=r.choice(("none-present", "none-present", "own-words", "all-carpet")))
            if f["ground"] == "own-words":
                f["reason"] = "none was laid"
    for area in d.all("area"):
        if area["side"] == "interior":
            on = max(d.last_logged(), d.start)
            d.add("tick", area=area["id"], step="divider", state="not-needed", ground="none-present", person="lee", on=on)


def emergency(d, r):
    """As it should be written down, or short of it."""
    words = [w for w in WORDS if r.random() < 0.4]
    for word in words:
        not_followed(d, r, word)
    if r.random() < 0.2:
        not_followed(d, r, r.choice(WORDS))
    if r.random() < 0.2 and words:
        words.remove(r.choice(words))
    d.house["emergency"] = r.choice(("yes", "yes", "yes", None, "no"))
    if r.random() < 0.1:
        return
    cause = r.choice(("sudden-event",) * 5 + ("elevated-blood-lead",))
    said = {"waived": ",".join(words)} if words else {}
    if r.random() < 0.85:
        said["reason"] = "open to the rain"
    if r.random() < 0.3:
        said["until"] = move(d.start, r.choice((-1, 0, 1, 5, 20)))
    d.add("emergency", nature="a storm broke the windows", cause=cause,
          on=move(d.start, r.choice((0, 0, -1, -1, -3, -7, -8))), **said)


def cleaned_badly(d, r):
    """Of an emergency too the cleaning is owed."""
    fact = pick(d, r, "tick")
    if fact and fact["step"] in ("walls", "surfaces", "mop", "sheeting", "chips"):
        fact["person"] = r.choice(("kim", "omar"))


WAYS = ((emergency, 10), (cleaned_badly, 1))
