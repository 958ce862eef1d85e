"""Times that cannot be, 745.86(a): later than the moment asked, or than the moment at which they were logged. The clock
or the zone of a device was wrong, and nobody knows when that was done: it shows no order and no wait. Of clocks five
minutes are let pass, and an hour where it was logged on another day, as zones have a summer time (common practice, no
source; docs/sources.md)."""
APART, SUMMER, FARTHEST = 5, 60, 14 * 60
TIMED = ("tick", "practice", "verification", "dust_sample", "kit_test", "chip", "determination", "reading")


def said_utc(fact, ahead):
    """At the earliest: of a day alone its first minute."""
    return fact.on.toordinal() * 1440 + max(fact.time or 0, fact.began or 0) - ahead - APART


def cannot_be(fact, clock):
    if fact.on is None or fact.planned == "yes":
        return False
    said = said_utc(fact, clock.ahead)
    if said > clock.now or fact.logged is None:
        return said > clock.now
    same_day = (fact.logged + clock.ahead) // 1440 == (clock.now + clock.ahead) // 1440
    return said > fact.logged + (0 if same_day else SUMMER)


def wrong(job):
    """The clock of the one who asks is held against them, if it is told."""
    clock = job.one("clock")
    if clock is None or abs(clock.ahead) > FARTHEST:
        return []
    return ["745.86(a) %s of %s cannot have been then" % (f.entry, f.on) for kind in TIMED for f in job.all(kind)
            if cannot_be(f, clock)][:1]
