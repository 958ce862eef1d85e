"""Stricter limits of a place or a contract: rows beside the federal ones; each in force must hold."""

HOLDS = {"below": lambda n, limit: n < limit, "up-to": lambda n, limit: n <= limit,
         "at-least": lambda n, limit: n >= limit, "above": lambda n, limit: n > limit}


def of_place(job, row):
    """US-NY holds for US-NY-NYC; a contract for its job."""
    return row.place == job.house.id or any(
        place == row.place or place.startswith(row.place + "-") for place in job.house.ids("place"))


def in_force(job, row, day):
    year, before = job.house.year_built, row.built_before
    return (row.get("from") is None or row.get("from") <= day) and (row.until is None or day <= row.until) \
        and (before is None or year is None or year < before)


def rows(job, name, day):
    return [r for r in job.all("local_limit", limit=name) if of_place(job, r) and in_force(job, r, day)]


def local(job, name, day, as_federal):
    """(value, comparison) of each row of the place."""
    return [(r.value, as_federal if r.comparison in (None, "as-federal") else r.comparison)
            for r in rows(job, name, day)]


def hold(number, limits):
    return all(HOLDS[how](number, limit) for limit, how in limits)


def holds(job, name, day, number, federal, how):
    return hold(number, [(federal, how)] + local(job, name, day, how))
