"""40 CFR 745.89 and 745.90: who is certified, trained, assigned, present."""

import datetime
import re

from facts import DAY, once, unaccented

TOPICS = {  # 745.85: signs, containment, practices, waste, cleaning; the words of the option's help and the form
    "signs": ("signs", "letreros"),
    "containment": ("containment", "contencion", "plastic and flap", "plastico y cortina", "plastico y solapa"),
    "practices": ("practices", "practicas", "allowed methods", "metodos permitidos"),
    "waste": ("waste", "desechos", "residuos", "basura"), "cleaning": ("cleaning", "limpieza"),
}

ASSESSORS = ("inspector", "risk-assessor")
FIRST_PROGRAM = datetime.date(1996, 8, 29)  # 61 FR 45778, recalled
OF_COURSES = ("renovator", "dust-technician")  # 745.90(a)(4); of whom the three years are was not seen whole


def years_later(day, years):
    try:
        return day.replace(year=day.year + years)
    except ValueError:  # 29 February
        return day.replace(year=day.year + years, month=3, day=1)


def last_day(certificate):
    """745.89(a), 745.90(a)(4): the printed day, and never longer than 5 years from approval
    or from the course; 3 from a renovator's or technician's course without a hands-on part, or of which
    nobody says that it had one. An inspector's and a risk assessor's 5 (745.226(e), recalled)."""
    printed = certificate.expires
    short = certificate.discipline in OF_COURSES and certificate.hands_on != "yes"
    return min(printed, years_later(certificate.issued, 3 if short else 5))


def renewal_holds(certificate, day):
    """745.89(b)(1)(i): a renewal postmarked 90 days ahead keeps the firm certified until the
    agency decides."""
    sent, decided = certificate.renewal_sent, certificate.renewal_decided
    if certificate.discipline != "firm" or sent is None:
        return False
    ahead = certificate.issued <= sent <= last_day(certificate) - 90 * DAY
    return ahead and (decided is None or day <= decided)


def amended_in_time(certificate, day):
    """745.89(c): within 90 days of a change, or no work until it is amended."""
    changed, amended = certificate.changed, certificate.amended
    if changed is None or day <= changed + 90 * DAY:
        return True
    return amended is not None and changed <= amended <= day


@once
def refreshes(job, certificate):
    """745.90(a)(4): a course without a hands-on part refreshes one that has not ended, and that was not without
    one itself: the next one must have it. Of which nobody said that it had one, it had none."""
    if certificate.discipline not in OF_COURSES or certificate.hands_on == "yes":
        return True
    before = [c for c in job.all("certificate", holder=certificate.holder, discipline=certificate.discipline)
              if c.issued < certificate.issued]
    latest = max((c.issued for c in before), default=None)
    if not before:  # an initial course has a hands-on part
        return certificate.hands_on != "no"
    ends = [min(last_day(o) for o in before if o is c or contradicts(o, c)) for c in before]  # the stricter of two
    return max(ends) >= certificate.issued and all(c.hands_on == "yes" for c in before if c.issued == latest)


def contradicts(one, other):
    """The copy of 745.86(b)(6) shows one term. Two entries of one certificate that begin on one day and differ, or
    overlap by more than the last year, in which one is renewed (common practice): which of them is true, who knows?"""
    said = all(c.number and c.issued and c.expires for c in (one, other))
    if one is other or not said or any(
            getattr(one, of) != getattr(other, of) for of in ("holder", "discipline", "number", "issuer")):
        return False
    if one.issued == other.issued:
        return one.expires != other.expires or {one.hands_on, other.hands_on} == {"yes", "no"}
    return min(last_day(one), last_day(other)) - max(one.issued, other.issued) > 365 * DAY


def valid(job, certificate, day):
    """By each of the entries that contradict each other about it."""
    return valid_alone(job, certificate, day) and all(
        valid_alone(job, c, day) for c in job.all("certificate", holder=certificate.holder)
        if contradicts(certificate, c))


def valid_alone(job, certificate, day):
    if certificate.issued is None or certificate.expires is None or day < certificate.issued:
        return False
    if certificate.discipline in ASSESSORS and certificate.issued < FIRST_PROGRAM:
        return False
    return (day <= last_day(certificate) or renewal_holds(certificate, day)) and refreshes(job, certificate)


@once
def certified(job, holder, disciplines, day):
    return any(c.discipline in disciplines and valid(job, c, day)
               for c in job.all("certificate", holder=holder))


def renovator(job, person, day):
    """745.90(a): a certified renovator on that day."""
    return person is not None and certified(job, person, ("renovator",), day)


def assessor(job, person, day):
    """745.226: a certified inspector or risk assessor on that day."""
    return person is not None and certified(job, person, ("inspector", "risk-assessor"), day)


@once
def assigned_renovator(job, person, day):
    """745.89(d)(2), 745.90(b): a certified renovator, assigned to this job by that day."""
    return renovator(job, person, day) and any(
        a.duty == "renovator" and a.on <= day for a in job.all("assignment", person=person))


@once
def topics_taught(job, worker, day):
    """745.90(b)(2): what a certified renovator has taught the worker by that day."""
    taught = set()
    for training in job.all("training", worker=worker):
        if training.on <= day and renovator(job, training.trainer, training.on):
            taught |= {topic_of(t) for t in re.split("[;,]", training.topics or "") if t.strip()}
    return taught


def topic_of(text):
    """As people write it, in English or Spanish, with accents or without; else the word itself, which is no topic
    of the rule."""
    bare = unaccented(text.strip())
    return next((topic for topic, words in TOPICS.items() if bare in words), bare)


@once
def may_do(job, person, topic, day):
    """745.90(b)(2): "the work practices ... that they will be using in performing their assigned tasks": certified,
    or taught this one by then."""
    return person is not None and (renovator(job, person, day) or topic in topics_taught(job, person, day))


@once
def may_work(job, person, day):
    """745.89(d)(1): certified, or trained by a certified renovator, before the task."""
    return person is not None and (renovator(job, person, day) or bool(topics_taught(job, person, day)))


def worked_on(job):
    """The days on which something was done."""
    done = job.all("tick", state="done") + job.all("verification") + job.all("dust_sample")
    return {it.on for it in done} | {p.on for p in job.all("practice") if p.planned != "yes"}


def counts_here(job, certificate):
    """745.81(a), 745.89(a): under EPA's program, or one of a place where the house stands."""
    programs = certificate.ids("programs")
    places = job.house.ids("place")
    return not programs or "US" in programs or any(
        place == p or place.startswith(p + "-") for p in programs for place in places)


def firm_certified(job, days):
    """745.89(a), 745.81(a)(2): the firm, on each of the days; 745.89(c): amended on each day of
    work and on the last."""
    firms = [c for c in job.all("certificate", holder="firm")
             if c.discipline == "firm" and counts_here(job, c)]
    amended = all(amended_in_time(c, day) or said_anew(firms, c, day) for c in firms
                  for day in worked_on(job) & set(days) | set(days[-1:]) if valid(job, c, day))
    return amended and all(any(valid(job, c, day) for c in firms) for day in days)


def said_anew(firms, changed, day):
    """A certificate that was issued after the change says what is new."""
    return any(changed.changed < c.issued <= day for c in firms)


def renovator_in_charge(job, days):
    """745.89(d)(1)-(2): on each of the days a renovator is assigned, and whoever is assigned
    as one by then is certified, or was until another one was there."""
    assigned = job.all("assignment", duty="renovator")
    return all(any(a.on <= day for a in assigned) for day in days) and all(
        certified_throughout(job, a, days) or relieved(job, a, assigned, days) for a in assigned)


def certified_throughout(job, assignment, days):
    return all(renovator(job, assignment.person, day) for day in days if day >= assignment.on)


def relieved(job, own, assigned, days):
    """The certificate ended, nothing was done any more, and another renovator had been assigned
    by the day after, certified from then on."""
    mine = [day for day in days if day >= own.on]
    ended = next(day for day in mine if not renovator(job, own.person, day))
    rest = [day for day in days if day >= ended]
    others = [a for a in assigned if a.person != own.person and a.on <= ended]
    return ended != mine[0] and last_act(job, own.person) < ended and any(
        all(renovator(job, a.person, day) for day in rest) for a in others)


def last_act(job, person):
    done = [t.on for t in job.all("tick") if person in (t.person, t.renovator)]
    done += [f.on for kind in ("verification", "practice") for f in job.all(kind, person=person)]
    return max(done, default=datetime.date.min)


def had_a_part(job, person):
    """Led, did, verified, taught or certified something."""
    return last_act(job, person) > datetime.date.min or any(
        person in (f.person, f.trainer) for f in job.all("training") + job.all("certification"))


def workers_trained(job, first, day):
    """745.89(d)(1): every worker who is assigned by that day, or has done something already, from the first day or
    from the assignment on."""
    acted = {t.person for t in job.all("tick") + job.all("verification")}
    acted |= {p.person for p in job.all("practice") if p.planned != "yes"}
    return all(may_work(job, a.person, max(a.on, first))
               for a in job.all("assignment", duty="worker") if a.on <= day or a.person in acted)


def taught_for_tasks(job, tasks):
    """745.90(b)(2), 745.86(b)(6)(i): each worker was taught the tasks he or she did; tasks
    are (person, topic, day)."""
    for person, topic, day in tasks:
        if not may_do(job, person, topic, day):
            return False
    return True
