"""40 CFR 745.84(a), (b): the days of notices are counted to the beginning of renovation activities in the unit of
whom they are for, or in common areas, and not to the day on which the job began elsewhere."""
from cover import begin, work_days

CLEANING = ("chips", "sheeting", "divider", "walls", "surfaces", "carpet", "mop", "margin", "clean-outside")


def first_day(job, asked=None):
    """The beginning that the notices had to come before: as logged; else as planned, or the
    day asked about when the start has slipped."""
    if work_days(job):
        return min(work_days(job))
    return max(begin(job), asked) if asked else begin(job)


def lies(job, ident, there):
    """Whether an area lies there, by any of its entries; what is not listed may lie anywhere."""
    found = [a for a in job.all("area") if a.id == ident]
    return not found or any(there(a) for a in found)


def first_there(job, there, asked=None, area=None):
    """The day on which work began there; before it did, it may begin on the day asked about, or on its planned
    day where somebody asks about another area."""
    if job.house.building != "multi-unit":
        return first_day(job, asked)
    work = [p for p in job.all("practice") if lies(job, p.area, there)]
    done = [p.on for p in work if p.planned != "yes"]
    if done:
        return min(done)
    seen = [v for v in job.all("verification") if lies(job, v.area, there)]
    seen += [t for t in job.all("tick") if t.step in CLEANING and t.state == "done" and lies(job, t.area, there)]
    if job.all("completion") or seen:
        return first_day(job, asked)
    plans = [p.on for p in work if p.planned == "yes"] if area is not None and not lies(job, area.id, there) else []
    return max(job.today, min(plans, default=job.house.start))
