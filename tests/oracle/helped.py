"""Assisted housing among made-up jobs, 24 CFR part 35: as it should be, and short of it."""
from draft import move, pick


def assist(d, r, reached):
    """A whole job becomes one of assisted housing."""
    d.house["assisted"] = "yes"
    stay = r.choice(("relocated", "relocated", "one-day", "few-days"))
    said = {"one-day": {"minutes": r.choice((480, 300)), "other_hazard": "no"},
            "few-days": {"margin": r.choice(("10", "12")), "reachable": "yes", "other_hazard": "no"}}.get(stay, {})
    d.add("occupancy", stay=stay, kept_out="yes", **{"from": d.start}, until=d.end, **said)
    for area in d.areas if reached >= 1 else ():
        d.add("tick", area=area["id"], step="signs-assisted", person="lee", renovator="rosa", on=d.start,
              time="07:15", state="done")
    for f in d.all("practice"):
        if f["method"] == "dry-scrape":
            f.update(r.choice(({"spot": "2"}, {"near_outlet": "yes"}, {"method": "hand"})))
    for f in d.all("dust_sample"):
        if f.get("outside") == "30" and r.random() < 0.9:  # 24 CFR 35.1340(g)(2)
            f["outside"] = "5"
        f["employer"] = r.choice(("independent", "independent", "owner"))
        if d.sampler == "dana":
            f["approved_by"] = "ines"
    if reached >= 3 and d.end > d.start and r.random() < 0.2 and all(
            any(f["on"] < d.end for f in d.all("practice") if f["area"] == a["id"]) for a in d.areas):
        no_work_on_the_last_day(d)  # it is for the cleaning
    for area in d.areas if reached >= 4 else ():
        d.add("verification", area=area["id"], event="look-clean", person=d.sampler, on=d.end, time="15:35")


def no_work_on_the_last_day(d):
    d.facts[:] = [f for f in d.facts if f["entry"] != "practice" or f["on"] != d.end]


# ---- what goes wrong -------------------------------------------------------------------------------------

def said_of_it(d, r):
    d.house["assisted"] = r.choice((None, "no", "yes"))


def stay(d, r):
    fact = pick(d, r, "occupancy")
    if fact:
        fact.update(r.choice((
            {"kept_out": None}, {"kept_out": "no"}, {"stay": "no-hazard"}, {"stay": "exterior", "sealed": "yes",
                                                                             "free_entry": "yes"},
            {"stay": "one-day", "minutes": 481}, {"stay": "few-days", "margin": "9.99"}, {"reachable": None},
            {"other_hazard": "yes"}, {"other_hazard": None},
            {"until": move(fact.get("from") or d.start, r.choice((4, 5, 6)))},
            {"from": move(d.start, 1)}, {"from": None}, {"until": None},
            {"from": move(d.start, 1), "sealed": "yes", "free_entry": "yes"},
            {"from": move(d.start, 1), "sealed": "yes"})))


def clearance(d, r):
    fact = pick(d, r, "dust_sample")
    if fact and d.house.get("assisted"):
        fact.update(r.choice(({"employer": "firm"}, {"employer": "owner"}, {"approved_by": None},
                              {"approved_by": "rosa"}, {"sampler": "dana"}, {"sampler": "rosa"})))


def outside(d, r):
    found = [f for f in d.all("dust_sample") if f.get("outside")]
    if found:
        r.choice(found).update(r.choice(({"outside": "5"}, {"outside": "5.01"}, {"outside": None}, {"result": "5"},
                                         {"surface": "sill"}, {"blank": "yes"})))


def looks(d, r):
    found = [v for v in d.all("verification") if v["person"] in ("ines", "dana")]
    if found:
        fact = r.choice(found)
        fact.update(r.choice(({"person": "kim"}, {"person": "rosa"}, {"time": "14:30"}, {"on": move(fact["on"], -1)},
                              {"on": move(fact["on"], 1)})))


def dry(d, r):
    fact = pick(d, r, "practice")
    if fact and d.house.get("assisted") and "planned" not in fact:
        fact.update(r.choice(({"method": "dry-scrape"}, {"method": "dry-scrape", "spot": "2.01"},
                              {"method": "dry-scrape", "spot": "20"}, {"method": "dry-sand", "spot": "1"},
                              {"method": "stripper"}, {"method": "stripper", "ventilated": "yes"})))


def long_day(d, r):
    """They stay for the work of one day, which took longer than it was meant to, or just not."""
    stays, work = d.all("occupancy"), [p for p in d.all("practice") if "planned" not in p]
    if not stays or not work:
        return
    day = work[0]["on"]
    stays[-1].update(stay="one-day", minutes=r.choice((400, 480)), other_hazard="no", until=day, **{"from": day})
    for p in work:
        if r.random() < 0.7:
            p.update(on=day, began=r.choice(("08:00", "07:59", "09:00", "05:59", None)), time=r.choice(("16:00", "16:01", "17:00", "15:00", "13:00", None)))


def cleaned_later(d, r):
    """All work is over by the day before; they come back before the cleaning."""
    stays = d.all("occupancy")
    if stays and d.end > d.start:
        no_work_on_the_last_day(d)
        stays[-1]["until"] = move(d.end, -1)


CALLED = ("window sill", "picture rail trim", "North wall", "ceiling", "wood siding", "the north", "mantel", "Techo",
          "cornice, 2nd floor", None)


def small_part(d, r):
    """Little of it is disturbed; some is logged as other than what it is, some as what is no small part."""
    for house in (d.house, d.rival):
        if house is not None:  # both devices say so
            house.update(assisted="yes", work="repair")
    sizes = r.choice((("0.5", "5"), ("0.51", "5"), ("1", "5"), ("1", None), ("2", "20"), ("2", "200")))
    for fact in d.all("component"):
        fact.update(removed="no", disturbed=sizes[0], whole=sizes[1])
        if r.random() < 0.5 and not fact.get("opening"):
            fact.update(type=r.choice(("other", "other", "wall", "baseboard")), label=r.choice(CALLED))
        elif r.random() < 0.2:
            fact["whole"] = r.choice((None, "1", "40"))
    for fact in d.all("opening"):
        fact["replaced"] = "no"


WAYS = ((small_part, 3), (long_day, 3), (cleaned_later, 6), (said_of_it, 1), (stay, 3), (clearance, 3), (outside, 3), (looks, 2), (dry, 2))
