"""Several of a kind in made-up jobs, where one is usual: certificates, trainings, people who are told, papers,
records of an owner; and the same said in other words."""
from datetime import date

import owners
from draft import move, pick

SPELT = (  # topics as people write them; some of no task of the rule
    "Signs, Containment, Practices, Waste, Cleaning", "SIGNS; WASTE; CLEANING", "carrying; lifting",
    "señales; CONTENCIÓN; basura; limpieza; practicas", "signs; containments; practices; waste; cleanin")


def again(fact, **other):
    """The same line once more, but for this."""
    return {**{k: v for k, v in fact.items() if k != "entry"}, **other}


# ---- people ---------------------------------------------------------------------------------------------

def second_certificate(d, r):
    """Another one after it, before it or beside it; the first may end while the work goes on."""
    fact = pick(d, r, "certificate")
    if fact is None:
        return
    edge = r.choice((d.start, d.start, d.end, d.last_logged(), move(d.start, -40)))
    more = again(fact, number=fact["number"] + "b", issued=move(edge, r.choice((-1, 0, 0, 1, 2))))
    if fact["discipline"] in ("renovator", "dust-technician"):
        more["hands_on"] = r.choice(("yes", "no", "no", None))
        fact["hands_on"] = r.choice(("yes", "no", None, None))
    if r.random() < 0.7:
        fact["expires"] = move(edge, r.choice((-1, -1, -1, 0, -2)))
    more["expires"] = move(edge, r.choice((400, 1000, 1800)))
    d.add("certificate", **more)


def two_terms(d, r):
    """One certificate on two devices: of one day, or of another year, with another end or kind of course; some are renewals."""
    fact = pick(d, r, "certificate")
    if fact is None:
        return
    if r.random() < 0.4:
        issued = fact["issued"]
        expires = r.choice((move(d.start, r.choice((-1, 0, 400))), fact["expires"]))
    else:
        fact["expires"] = move(d.start, r.choice((364, 365, 366, -40, 500)))
        issued = move(d.start, r.choice((-1, 0, 0, -30)))
        expires = move(issued, r.choice((900, 1800)))
    more = again(fact, issued=issued, expires=expires)
    if fact["discipline"] in ("renovator", "dust-technician"):
        more["hands_on"] = r.choice(("yes", "yes", "no", None))
    d.add("certificate", **more)


def followed_online(d, r):
    """The renovator's or the technician's course runs out about the start; the next one was online, and of the first nobody says."""
    fact = next((c for c in d.all("certificate") if c["holder"] == r.choice(("rosa", "rosa", "rosa", d.sampler))), None)
    if fact is None or fact["discipline"] == "inspector":
        return
    fact.update(hands_on=r.choice((None, None, "no", "yes")), expires=move(d.start, -r.choice((0, 1, 1, 5))))
    issued = move(fact["expires"], -r.choice((0, 1, 20)))
    d.add("certificate", **again(fact, number=fact["number"] + "b", issued=issued, expires=move(issued, 1000),
                                 hands_on=r.choice(("no", "no", "no", None, "yes"))))


def worker_certified(d, r):
    """The worker becomes a renovator, before the work or while it goes on; some were never trained."""
    issued = move(d.start, r.choice((-20, -1, 0, 1)))
    d.add("certificate", holder=r.choice(("lee", "lee", "kim")), discipline="renovator", number="C-lee",
          issuer="Training Example", issued=issued, expires=move(issued, 1000), hands_on="yes")
    if r.random() < 0.6:
        d.facts[:] = [f for f in d.facts if f["entry"] != "training"]


def second_training(d, r):
    """What was taught, in two parts, by two people, on two days."""
    fact = pick(d, r, "training")
    if fact is None:
        return
    topics = fact["topics"].replace(",", ";").split(";")
    at = r.randrange(len(topics) + 1)
    fact["topics"] = "; ".join(topics[:at]).strip(" ;") or "carrying"
    d.add("training", **again(fact, topics="; ".join(topics[at:]).strip(" ;") or "carrying", on=move(d.start, r.choice((-5, -1, 0, 1))),
                              trainer=r.choice(("rosa", "omar", "omar", "kim"))))


def topics_spelt(d, r):
    fact = pick(d, r, "training")
    if fact:
        fact["topics"] = r.choice(SPELT)


def relieved(d, r):
    """The renovator's certificate ends while the work goes on; another one takes over, in time or not."""
    held = next((c for c in d.all("certificate") if c["holder"] == "rosa"), None)
    if held is None:
        return
    ended = r.choice((d.start, d.end, move(d.end, -1), move(d.start, -1)))
    held["expires"] = ended
    d.add("assignment", person="omar", duty="renovator", on=move(ended, r.choice((0, 1, 1, 1, 2))))
    next_held = next((c for c in d.all("certificate") if c["holder"] == "omar"), {})
    if r.random() < 0.4:
        next_held["expires"] = move(r.choice((d.end, d.last_logged())), r.choice((-1, 0, 0, 1)))
    over = move(ended, r.choice((1, 1, 1, 0, 2)))
    for f in d.all("tick", "verification", "practice", "certification"):
        for option in ("person", "renovator"):
            if f.get(option) == "rosa" and f["on"] >= over:
                f[option] = "omar"


def another_worker(d, r):
    """Somebody else works, assigned in time, late or not at all, trained or not."""
    if r.random() < 0.8:
        d.add("assignment", person="kim", duty=r.choice(("worker", "worker", "worker", "renovator")),
              on=move(d.start, r.choice((-1, 0, 1, 30))))
    if r.random() < 0.7:
        d.add("training", worker="kim", trainer=r.choice(("rosa", "omar")), topics="signs; containment; practices; "
              "waste; cleaning", on=move(d.start, r.choice((-1, 0, 1))))
    for f in d.all("tick", "practice"):
        if f.get("person") == "lee" and r.random() < 0.3:
            f["person"] = "kim"


# ---- who is told --------------------------------------------------------------------------------------------

def second_party(d, r):
    """A second owner, occupant, representative, group of units or of parents: told as the first was, later, or not."""
    fact = pick(d, r, "party")
    if fact is None:
        return
    d.add("party", **again(fact, id=fact["id"] + "-too", name=fact["name"] + " Second"))
    late = r.choice((0, 0, 0, 1, 5, 30))
    for n in [n for n in d.all("notice") if n["party"] == fact["id"]]:
        if r.random() < 0.8:
            said = {k: move(n[k], late) for k in ("on", "signed_on") if k in n}
            d.add("notice", **again(n, party=fact["id"] + "-too", **said))
    for h in [h for h in d.all("handover") if h["party"] == fact["id"]]:
        if r.random() < 0.6:
            d.add("handover", **again(h, party=fact["id"] + "-too"))
        if r.random() < 0.3:
            d.facts.remove(h)


def second_notice(d, r):
    """The same paper once more, earlier or later, or in another way."""
    fact = pick(d, r, "notice")
    if fact is None:
        return
    more = again(fact, on=move(fact["on"], r.choice((-70, -7, -1, 0, 1, 3))))
    if "signed_on" in more:
        more["signed_on"] = more["on"]
    if r.random() < 0.4:
        more["of_change"] = r.choice(("yes", "no"))
    for option in ("statement", "tells_work", "tells_dates", "tells_pamphlet", "tells_records", "receipt"):
        if option in more and r.random() < 0.15:
            del more[option]
    if "work_until" in more and r.random() < 0.6:
        more.update(work_from=move(d.start, r.choice((-3, 0, 1))), work_until=move(d.end, r.choice((-1, 0, 3))))
    d.add("notice", **more)


def notice_says(d, r):
    """What a notice to many says, and a further one of a change."""
    found = [n for n in d.all("notice") if "tells_work" in n]
    if found:
        fact = r.choice(found)
        option = r.choice(("tells_work", "tells_dates", "tells_pamphlet", "tells_records", "statement", "work_from",
                           "work_until", "of_change"))
        if option.startswith("work_"):
            fact[option] = move(d.start if option == "work_from" else d.end, r.choice((-2, -1, 0, 1, 2)))
        else:
            fact[option] = r.choice((None, "no", "yes"))


def paper_of(d, r):
    """The paper names another unit, another street, or was signed by somebody else, also of the
    firm; or what was mailed or posted names a place."""
    others = [n for n in d.all("notice") if "unit" not in n]
    if others and r.random() < 0.3:
        r.choice(others).update(unit=r.choice(("12 Sample Lane", "7 Other St", "7 Other St, 2B")))
        return
    papers = [n for n in d.all("notice") if "unit" in n]
    if papers:
        names = [f[option] for f in d.all("party", "person") for option in ("name", "id")]
        names += [f["name"] for f in d.all("firm")]
        if d.all("party") and d.all("person") and r.random() < 0.2:
            r.choice(d.all("party"))["name"] = r.choice([f["name"] for f in d.all("person")])
        r.choice(papers).update(r.choice((
            {"unit": "12 Sample Lane"}, {"unit": "12 Sample Lane, 2B"}, {"unit": "12 Sample Lane, 3C"}, {"unit": "3C"}, {"unit": "2B"},
            {"unit": "12 Sample Lane, unit 3c"}, {"unit": "7 Other St"}, {"unit": "2nd floor, 12 Sample Lane"}, {"signer": r.choice(names)},
            {"signer": r.choice(names).upper()}, {"signer": "Bob Other"}, {"signer": "Bob Other, for Owner Sample"})))


def elsewhere(d, r):
    """The firm's certificate counts in one state; the owner has another address; a refresher stands alone; a
    certificate of an impossible term."""
    held = {c["holder"]: c for c in d.all("certificate")}
    owner = next((p for p in d.all("party") if p["role"] == "owner"), None)
    what = r.choice(("programs", "owner", "refresher", "term"))
    if what == "programs" and "firm" in held:
        held["firm"]["programs"] = r.choice(("US-WI", "US-WI,US", "US", "US-OH"))
        d.house["place"] = r.choice((None, "US-OH", "US-WI", "US-OH-TOWN"))
    elif what == "owner" and owner:
        owner["address"] = r.choice(("9 Sample Hill", "12 Sample Lane, upstairs", "PO Box 9"))
        d.house["owner_occupied"] = r.choice(("yes", d.house.get("owner_occupied")))
    elif what == "refresher" and "rosa" in held:
        held["rosa"]["hands_on"] = r.choice(("no", None))
    elif what == "term" and "ines" in held:
        held["ines"].update(issued=date(r.choice((1990, 1996, 2015, 2021)), 9, r.choice((1, 14, 20))),
                            expires=move(d.start, 900))


def unit_spelt(d, r):
    """A unit in other letters, or no unit at all."""
    found = [f for f in d.all("party", "area", "vacancy", "house") if f.get("unit")]
    if found:
        r.choice(found)["unit"] = r.choice(("2b", "2-B", "2 B", "3C", None))


def language(d, r):
    """The contract or a paper is in another language, or nobody says in which."""
    fact = pick(d, r, "notice", "notice", "house")
    if fact:
        fact["language"] = r.choice(("es", "es", "en", None))


def own_steps(d, r):
    """The firm asks more than the rule, and somebody who was never taught does it, or nobody."""
    area = pick(d, r, "area")
    d.add("own_step", id="shoe-covers", phase=r.choice(("contain", "work", "clean")), side="both", text="put on shoe covers",
          **{"from": move(d.start, -100)})
    if r.random() < 0.7:
        d.add("tick", area=area["id"], step="shoe-covers", person=r.choice(("kim", "lee")), on=d.start, time="08:30",
              state=r.choice(("done", "undone")), reason="as the firm asks")


def second_change(d, r):
    """One more change of the work after a first one, told with it or anew."""
    first = next(iter(d.all("scope_change")), None)
    if first is None:
        return
    on = move(first["on"], r.choice((-1, 1, 2)))
    d.add("scope_change", what="the porch as well", on=on)
    for n in [n for n in d.all("notice") if n.get("of_change") == "yes"]:
        if r.random() < 0.5:
            d.add("notice", **again(n, on=move(on, -r.choice((0, 1, 2)))))


# ---- papers and days ------------------------------------------------------------------------------------------

def said_again(d, r):
    """Completion, invoice, certification, an emergency, an occupancy once more, on another day."""
    fact = pick(d, r, "completion", "invoice", "certification", "emergency", "occupancy")
    if fact is None:
        return
    day = "on" if "on" in fact else "from"
    more = again(fact, **({day: move(fact[day], r.choice((-2, -1, 1, 3)))} if fact.get(day) else {}))
    if fact["entry"] == "emergency":
        more.update(r.choice(({}, {"waived": "signs"}, {"cause": "elevated-blood-lead"}, {"reason": None})))
    d.add(fact["entry"], **more)


WAYS = ((second_certificate, 5), (two_terms, 4), (followed_online, 4), (worker_certified, 2), (second_training, 3), (topics_spelt, 2), (relieved, 3),
        (another_worker, 3), (second_party, 4), (second_notice, 4), (notice_says, 2), (paper_of, 7), (elsewhere, 6), (unit_spelt, 2),
        (second_change, 2), (language, 3), (own_steps, 2), (said_again, 2)) + owners.WAYS
