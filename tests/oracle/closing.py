"""Ways in which the end of a made-up job goes wrong: what the certification came before, whose
it is, and what was handed over with a final invoice that came first."""
from draft import move, pick


def certified_too_soon(d, r):
    """Logged before entries that it should certify; sometimes once more after them."""
    fact = pick(d, r, "certification")
    if fact is None:
        return
    later = [f["entry"] for f in d.all("tick", "verification", "dust_sample", "practice", "training", "kit_test",
                                        "opening", "component")]
    if not later:
        return
    if r.random() < 0.4:
        d.add("certification", person=fact["person"], on=move(fact["on"], r.choice((0, 0, 1))))
    fact["_before"] = r.choice(later)


def certified_by_another(d, r):
    """Omar certifies, who may have been assigned, and may have led a step; Rosa may have left."""
    fact = pick(d, r, "certification")
    if fact is None:
        return
    if not any(a["person"] == "omar" for a in d.all("assignment")) and r.random() < 0.8:
        d.add("assignment", person="omar", duty="renovator", on=move(d.start, -1))
    fact["person"] = "omar"
    step = pick(d, r, "tick")
    if step is not None and r.random() < 0.4:
        step[r.choice(("renovator", "person"))] = "omar"
    if r.random() < 0.3:
        for c in d.all("certificate"):
            if c["holder"] == "rosa":
                c["expires"] = move(fact["on"], r.choice((-1, 0)))
    if r.random() < 0.2:
        d.add("certification", person="rosa", on=fact["on"])


def invoiced_first(d, r):
    """The final invoice before the end, what there was with it, and the whole later or never."""
    given, invoice = d.all("handover"), d.all("invoice")
    if not given:
        return
    on = move(d.last, -r.choice((0, 1, 2)))
    if invoice:
        invoice[0]["on"] = on
    else:
        d.add("invoice", on=on)
    for fact in given:
        more = {k: v for k, v in fact.items() if k != "entry"}
        if r.random() < 0.9:
            fact["on"] = move(on, r.choice((0, 0, 0, 1)))
        if r.random() < 0.7:
            d.add("handover", **{**more, "on": move(d.last, r.choice((0, 1, 5, 29, 30, 31, 32)))})


WAYS = ((certified_too_soon, 3), (certified_by_another, 3), (invoiced_first, 3))
