"""40 CFR 745.82(b) and 745.86(b)(6): emergencies, and what was not followed because of one."""
from cover import work_days
from facts import once

WORDS = ("pamphlet", "signs", "containment", "waste", "training", "certification")


def written(e):
    """745.86(b)(6): the nature, and which provisions were not followed; "to the extent
    necessary" has a reason."""
    return bool(e.nature and e.reason and e.ids("waived"))


def of_this_work(job, e):
    """A "sudden, unexpected event" from which the work results comes before it, and before the day for
    which it was planned."""
    return e.on <= (min(work_days(job)) if work_days(job) else job.house.start)


def waived_by(e):
    """"Emergency renovations other than interim controls" are freed of more than of telling."""
    freed = WORDS if e.cause == "sudden-event" else WORDS[:1]
    return [w for w in e.ids("waived") if w in freed]


@once
def waived(job, what):
    """It need not be followed. Of two records that differ none frees of more than both. The information of
    745.84 does "not apply to emergency renovations", whatever else was left out, and why."""
    found = job.all("emergency")
    return bool(found) and job.house.emergency != "no" and all(
        e.nature and of_this_work(job, e) and (what == "pamphlet" or (written(e) and what in waived_by(e)))
        for e in found)


def step_waived(job, step):
    """The step of a list that belongs to what was not followed; cleaning is never."""
    if step in ("signs", "signs-language"):
        return waived(job, "signs")
    if step.startswith("waste"):
        return waived(job, "waste")
    return waived(job, "containment")


def beyond(job):
    """745.82(b): more left out than it frees of."""
    return ["745.82(b) interim controls are freed of telling alone" for e in job.all("emergency")
            if set(e.ids("waived")) - set(waived_by(e))]


def gaps(job):
    """745.86(b)(6): what was not followed has a reason, and is not beyond the paragraph. A job
    that is called an emergency and followed all needs none."""
    return beyond(job) + ["745.86(b)(6) why it was necessary" for e in job.all("emergency")
                          if e.ids("waived") and not e.reason]
