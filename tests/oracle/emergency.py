"""40 CFR 745.82(b) and 745.86(b)(6): emergencies, and what was not followed because of one."""
from cover import work_days
from facts import DAY, once

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


def over_after(e):
    """"To the extent necessary to respond": until the day that is said; unsaid, as long as a pamphlet takes by mail,
    745.84(a)(1)(ii), for then people could have been told as of any renovation."""
    return e.until or e.on + 7 * DAY


@once
def waived(job, what, day=None):
    """It need not be followed. Of two records that differ none frees of more than both. The information of
    745.84 does "not apply to emergency renovations", whatever else was left out, and why."""
    found = job.all("emergency")
    return bool(found) and job.house.emergency != "no" and all(
        e.nature and of_this_work(job, e) and (what == "pamphlet" or (
            written(e) and what in waived_by(e) and (day is None or day <= over_after(e))))
        for e in found)


def lacked_until(job):
    """Of the job as a whole: its last day of work, or today while there may be more."""
    worked = max(work_days(job), default=None)
    if job.all("completion"):
        return worked or job.house.start
    return max(d for d in (job.today, job.house.start, worked) if d)


def step_waived(job, step, day=None):
    """The step of a list that belongs to what was not followed; cleaning is never."""
    if step in ("signs", "signs-language"):
        return waived(job, "signs", day)
    if step.startswith("waste"):
        return waived(job, "waste", day)
    return waived(job, "containment", day)


def beyond(job):
    """745.82(b): more left out than it frees of."""
    return ["745.82(b) interim controls are freed of telling alone" for e in job.all("emergency")
            if set(e.ids("waived")) - set(waived_by(e))]


def gaps(job):
    """745.86(b)(6): what was not followed has a reason, and is not beyond the paragraph. A job
    that is called an emergency and followed all needs none."""
    return beyond(job) + ["745.86(b)(6) why it was necessary" for e in job.all("emergency")
                          if e.ids("waived") and not e.reason]
