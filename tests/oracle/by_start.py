"""What goes by the planned start though a stricter limit of the place holds from a later day of work: nobody can say of
the whole job by which of the two it complied, 745.86(a)."""
import beside
import limits
from cover import work_days

LIMITS = ("year-built", "paint-loading", "paint-weight", "property-line", "section-undivided", "section-part", "child-age",
          "zero-bedroom-child", "visit-days", "visit-minutes", "visit-week", "visit-year", "assisted-interior",
          "assisted-exterior", "assisted-part", "blood-lead")
SMALL = ("minor-interior", "minor-exterior")  # these go by each day until the planned end


def strict(row):
    """Of those that are made up a lower value is the stricter one."""
    return row.value, row.comparison != "below"


def changed(job):
    start, done = job.house.start, work_days(job)
    until = max(done) if done else job.today
    for row in job.all("local_limit"):
        since, slipped = row.get("from"), not done and job.house.end is not None
        if start is None or since is None or not start < since <= until or row not in limits.rows(job, row.limit, since):
            continue
        if row.limit in LIMITS or (row.limit in SMALL and slipped and since > job.house.end):
            before = limits.rows(job, row.limit, start)
            if not before or strict(row) < min(map(strict, before)):
                return ["745.86(a) %s from %s" % (row.limit, since)]
    return []


def unsaid(job):
    """What is asked whether or not the rule covers the work."""
    return beside.assisted_unsaid(job) + changed(job)
