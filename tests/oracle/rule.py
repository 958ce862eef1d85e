"""The renovation rule, 40 CFR 745.80 to 745.90 and 745.103, a second time.

Written from the paragraphs alone, by somebody who did not write the program and has not
read it, to be compared with it (compare.py). Strict: what is not said is unknown and
frees nobody. Left out: instruments, assisted housing where the rule does not hold.

    python3 rule.py < jobs      prints "N rule=yes demo=no signs=no ..." for each job
    python3 rule.py -v < jobs   and the paragraphs behind each no
"""
import sys

import assisted
import by_start
import called
import clean
import clocks
import contain
import cover
import dust
import emergency
import hours
import limits
import people
import told
from emergency import waived
from facts import DAY, alike, read_jobs

YES, NO, NOT_YET = "yes", "no", "not-yet"
HANDOVER_DAYS = 30  # 745.86(c)(1)
QUESTIONS = ("rule", "demo", "signs", "handover", "inspection")


class Answer:
    """What is missing (no), what is owed later (not yet); neither: yes."""

    def __init__(self, missing=(), later=()):
        self.missing, self.later = list(missing), list(later)

    @property
    def word(self):
        return NO if self.missing else NOT_YET if self.later else YES


# ---- is it under the rule? ---------------------------------------------------------------------------

def rule(job):
    exempt = cover.exemption(job)
    return Answer([exempt] if exempt else [])


# ---- may demo start? ----------------------------------------------------------------------------------

def days_between(first, last):
    return [first + n * DAY for n in range((last - first).days + 1)]


def certificates_for_demo(job):
    """745.81(a)(2)-(3), 745.89(a), (d)(1)-(2), 745.90(a): firm and renovator from the start to
    the day asked, workers trained."""
    first = cover.begin(job)
    days = days_between(min(first, job.today), job.today)
    gaps = []
    certified = not waived(job, "certification", emergency.lacked_until(job))
    if certified and not people.firm_certified(job, days):
        gaps.append("745.89(a) firm")
    if certified and not people.renovator_in_charge(job, days):
        gaps.append("745.89(d)(2) renovator")
    if not waived(job, "training", emergency.lacked_until(job)) and not people.workers_trained(job, min(first, job.today), job.today):
        gaps.append("745.89(d)(1) workers")
    return gaps


def work_known(job):
    """745.83 "work area", 745.85(a)(2): it is said what the work disturbs, and a work area
    holds it."""
    gaps = called.all_off(job) if job.all("area") else ["745.85(a)(2) no work area"]
    if not cover.disturbed_components(job) and not contain.outside_areas(job):
        gaps.append("745.83 what is disturbed is not said")
    if not cover.on_schedule(job):
        gaps.append("745.82(a), 745.83 what is replaced is not on the schedule")
    if cover.lead_off_the_list(job):
        gaps.append("745.82(a), 745.83 a part with lead is on no list")
    return gaps + ["745.85(a)(2) %s in no work area" % x for x in contain.outside_areas(job)]


def areas_for_demo(job, areas):
    """745.85(a)(1)-(3): contained, still contained, by the right people, first."""
    gaps, whole = work_known(job), areas == job.all("area")
    areas = called.working(job, areas)
    ids = [a.id for a in areas]
    given_up = [a.id for a in job.all("area") if called.area_off(job, a)]
    for area in areas:
        gaps += contain.contained(job, area)
        if not contain.still_up(job, area):
            gaps.append("745.85(a)(2) %s taken down or torn" % area.id)
        if not contain.contained_by_crew(job, area):
            gaps.append("745.89(d)(1) %s contained by strangers" % area.id)
        if not contain.disturbed_by_crew(job, area):
            gaps.append("745.89(d)(1) %s disturbed by strangers" % area.id)
    gaps += ["745.85(a)(3) %s" % p.method for p in job.all("practice")
             if contain.prohibited(p) and (p.area in ids or (whole and p.area not in given_up))]
    return gaps


def reached_from(job, area):
    """The work area, and those that hold the other side of what is torn out in it, docs/sources.md."""
    out = {o.id for o in job.all("opening") if o.id in area.ids("openings") and cover.replaced(job, o)}
    return [a for a in job.all("area") if a is area or out & set(a.ids("openings"))]


def demo(job, area=None):
    """The renovation may go on today, in one work area or in all: told, certified, trained, contained."""
    areas = job.all("area") if area is None else reached_from(job, area)
    if cover.exemption(job):
        return Answer(by_start.unsaid(job) + called.said(job) + called.off_there(job, area, areas))
    gaps = called.said(job) + called.off_there(job, area, areas)
    if job.all("completion"):
        gaps.append("745.83 renovation is completed")
    if job.today < job.house.start:
        gaps.append("745.84 before the day that people were told")
    gaps += emergency.beyond(job) + by_start.unsaid(job)
    first = told.first_day(job, job.today)
    common = told.begins_in_common(job, job.today, area)
    gaps += told.untold(job, first, areas, job.today, area)
    today = [job.today] if any(told.in_common(job, a) for a in areas) else []
    gaps += told.changes_untold(job, common, told.common_days(job) + today)
    if assisted.holds(job):
        gaps += assisted.before_demo(job, called.working(job, areas), True)
    return Answer(gaps + certificates_for_demo(job) + areas_for_demo(job, areas))


# ---- may the signs come down? ---------------------------------------------------------------------------

def signs(job, area=None):
    """745.85(a)(1), (b)(1)(iii): every work area, or the one, cleaned and verified, or cleared."""
    if cover.exemption(job):
        return Answer(by_start.unsaid(job))
    asked, areas = area, job.all("area") if area is None else [area]
    gaps = by_start.unsaid(job) + (called.all_off(job) if areas else ["745.85(a)(2) no work area"])
    areas = called.working(job, areas)
    if area is None:
        gaps += ["745.85(a)(2) %s in no work area" % x for x in contain.outside_areas(job)]
    for area in areas:
        gaps += dust.signs_may_come_down(job, area)
        if not contain.by_crew(job, area, contain.clean_steps(area)) or not clean.recleaned_by_crew(job, area):
            gaps.append("745.90(b)(2) %s cleaned by strangers" % area.id)
    if assisted.holds(job):
        given_up = [a for a in (job.all("area") if asked is None else [asked]) if a not in areas]
        gaps += assisted.clearance(job, areas) + assisted.found_beside(job, given_up)
    return Answer(gaps)


# ---- has everybody got what is due? ----------------------------------------------------------------------

def last_activity(job):
    """Day of the last work, cleaning, verification or sample; None before any."""
    days = list(cover.work_days(job))
    for area in job.all("area"):
        days += [t.on for s in contain.clean_steps(area) for t in contain.ticks(job, area, s)
                 if t.state == "done"]
    days += [v.on for v in job.all("verification")] + [s.on for s in job.all("dust_sample")]
    return max(days, default=None)


def ended(job):
    """The end of the renovation: its completion, or what was done later."""
    completion = job.one("completion")
    if completion is None:
        return None
    return max([completion.on] + [d for d in [last_activity(job)] if d])


def last_day_to_hand_over(job):
    """745.86(c)(1): with the final invoice or within 30 days of the completion that was logged,
    whichever is earlier."""
    days = [i.on for i in job.all("invoice")]
    for completion in job.all("completion"):
        local = limits.local(job, "handover-days", completion.on, "up-to")
        days.append(completion.on + int(min([HANDOVER_DAYS] + [v for v, _ in local])) * DAY)
    return min(days, default=None)


def may_be_given(job):
    """Of the whole renovation, so not before its end; before that with the final invoice, of what there is."""
    days = [i.on for i in job.all("invoice")]
    return ended(job) or min(days, default=None)


def informs(h):
    """745.86(c)(1), (c)(3): the record and the summary tell of the tests and the work; of others it is said."""
    return h.information == "yes" or (h.information is None and h.what in ("record", "summary"))


def last_day_of_the_whole(job, parties, due):
    """745.86(c)(1): who got what there was with a final invoice that came before the end is owed the rest within the
    days from the completion; nobody else has longer than to the earlier day."""
    completion, invoice, end = job.one("completion"), job.one("invoice"), ended(job)
    ids = {p.id for p in parties}
    if completion is None or invoice is None or invoice.on >= end or \
            not any(h.party in ids and h.on == invoice.on and informs(h) for h in job.all("handover")):
        return due
    local = limits.local(job, "handover-days", completion.on, "up-to")
    return completion.on + int(min([HANDOVER_DAYS] + [v for v, _ in local])) * DAY


def handed_over(job, party, due):
    """745.86(c)(1), (c)(3), (d): the information, of the whole renovation, and the dust report where samples stood for
    the verification, in one paper or two; not after the last day. The report is whole when the last sample was taken,
    whenever the work is completed."""
    sampled = [s.on for s in job.all("dust_sample", required="yes")] if cover.exemption(job) is None else []
    given = [h for h in job.all("handover", party=party.id) if h.on <= due]
    told_all = any(informs(h) and may_be_given(job) <= h.on for h in given)
    return told_all and (not sampled or any(h.dust_report == "yes" and h.on >= max(sampled) for h in given))


def owed_to(job):
    """745.86(c)(1)(i)-(ii), (c)(2): groups of parties, of each of which one is enough: one adult of a unit, but each
    owner, each facility, "occupants of all of the affected units"."""
    first = told.first_day(job)
    groups = each_of(job, "owner", "(c)(1)(i) owner")
    lives = told.owner_lives(job)
    if job.house.building == "dwelling" and not lives and \
            not told.vacant(job, job.house.unit, first):
        groups.append(("(c)(1)(ii) occupant", job.all("party", role="occupant")))
    for unit in told.units_worked_in(job):
        if unit is None:  # of an area nobody said; it may be common
            groups += [("(c)(1)(ii) unit unsaid", []), *each_of(job, "units", "(c)(2) units")]
        elif not (lives and unit == told.named(job.house.unit)) and not told.vacant(job, unit, told.begins_in(job, unit)):
            groups.append(("(c)(1)(ii) unit %s" % unit, told.occupants_of(job, unit)))
    if told.common_areas(job):
        groups += each_of(job, "units", "(c)(2) units")
    if cover.owes_to_facility(job) and not lives:  # the facility is the owner's
        groups += each_of(job, "facility", "(c)(1)(ii) facility")
    return groups


def each_of(job, role, name):
    return [(name, [p]) for p in job.all("party", role=role)] or [(name, [])]


def owes_records(job):
    """The subpart's information is owed for work under the rule, and the tests for work that
    a renovator's kit or chip frees (745.86(b)(1), (c)(1))."""
    exempt = cover.exemption(job)
    return exempt is None or ("free" in exempt and bool(job.all("kit_test") + job.all("chip")))


def handover(job):
    if not owes_records(job):
        return Answer()
    due, gaps, later = last_day_to_hand_over(job), [], []
    if ended(job) is None:  # past the last day nothing shows that what was given told of all of it
        (later if due is None or job.today <= due else gaps).append("745.86(c)(1) not completed")
    if due is None:
        return Answer(later=later)
    for name, parties in owed_to(job):
        whole_by = last_day_of_the_whole(job, parties, due)
        if not any(handed_over(job, p, whole_by) for p in parties):
            (later if job.today <= due else gaps).append("745.86" + name)
    return Answer(gaps, later)


# ---- would the file stand up? ---------------------------------------------------------------------------

def test_records(job):
    """745.86(b)(1)(i)-(iii), (b)(6)(iii)-(iv)."""
    gaps = ["745.86(b)(1)(ii) kit" for k in job.all("kit_test") if not (k.maker and k.model)]
    gaps += ["745.86(b)(1)(iii) chip" for c in job.all("chip")
             if not (c.laboratory and c.lab_address) or (c.weight is None and c.result is None)]
    return gaps + ["745.86(b)(1)(i) determination" for d in job.all("determination") + job.all("owner_record")
                   if d.copy_held != "yes"] + [
        "745.86(b)(1)(i) of which components" for o in job.all("owner_record") if not o.ids("components")]


def paint_contradicted(job):
    """745.86(a): a file that says of a component both that it has no lead paint and that it
    has."""
    return ["745.86(a) paint of %s" % c.id for c in cover.disturbed_components(job)
            if cover.lead_found(job, c) and (c.painted == "no" or cover.found_negative(job, c))]


def people_on_record(job, first, last):
    """745.86(b)(6), (b)(6)(i), 745.89(d)(1)-(2), 745.90(b)(2), (b)(7)."""
    gaps, days = [], days_between(first, max(first, last))
    certified = not waived(job, "certification", emergency.lacked_until(job))
    if certified and not people.firm_certified(job, days):
        gaps.append("745.89(a) firm")
    if certified and not people.renovator_in_charge(job, days):
        gaps.append("745.89(d)(2) renovator")
    if not waived(job, "training", emergency.lacked_until(job)) and not people.workers_trained(job, first, last):
        gaps.append("745.89(d)(1) workers")
    if not people.taught_for_tasks(job, tasks(job)):
        gaps.append("745.90(b)(2) tasks not taught")
    for a in job.all("assignment", duty="renovator"):
        if a.on > job.today:
            continue  # not assigned yet
        if a.on > last and job.all("completion") and not people.had_a_part(job, a.person):
            continue  # 745.89(d)(2): assigned to no renovation
        if not any(c.number for c in job.all("certificate", holder=a.person)):
            gaps.append("745.86(b)(6) copy of %s's certificate" % a.person)
    return gaps


def done_of_the_rule(job):
    """What a firm asks beyond the rule is no task of it."""
    own = {s.id for s in job.all("own_step")}
    return [t for t in job.all("tick", state="done") if t.step not in own]


def tasks(job):
    """Who did which task when."""
    done = [(t.person, contain.topic_of(t.step), t.on) for t in done_of_the_rule(job)]
    done += [(v.person, "cleaning", v.on) for v in job.all("verification", event="recleaned")]
    if waived(job, "training", emergency.lacked_until(job)):  # but for cleaning, 745.82(b)
        done = [task for task in done if task[1] == "cleaning"]
    return done + [(p.person, "practices", p.on) for p in job.all("practice")
                   if p.planned != "yes" and not waived(job, "training", p.on)]


def area_on_record(job, area):
    """745.85(a), 745.86(b)(6)(ii), (v)-(vii)."""
    gaps = contain.contained(job, area)
    if not contain.contained_first(job, area):
        gaps.append("745.85(a)(1)-(2) %s contained after the work began" % area.id)
    gaps += hours.down(job, area)
    gaps += ["%s %s %s" % (contain.PARAGRAPH[s], area.id, s) for s in contain.asked_at_work(job, area)
             if not contain.step_ok(job, area, s) or contain.waste_too_early(job, area, s)]
    if not contain.kept_whole(job, area):
        gaps.append("745.85(a)(2) %s barriers each day" % area.id)
    if contain.undone_on_a_work_day(job, area):
        gaps.append("745.85(a)(2)(i)(E), (a)(4)(i) %s undone on a day of work" % area.id)
    if not contain.waste_each_day(job, area):
        gaps.append("745.85(a)(4)(ii) %s waste each day" % area.id)
    if not contain.waste_at_end(job, area):
        gaps.append("745.85(a)(4)(ii) %s waste of the cleaning" % area.id)
    methods = contain.practices(job, area)
    if not methods:
        gaps.append("745.85(a)(3) %s methods not said" % area.id)
    gaps += ["745.85(a)(3) %s" % p.method for p in methods if contain.prohibited(p)]
    return gaps


def directed(job):
    """745.86(b)(6), 745.90(b)(1), (b)(4): each task was done or directed, and the verification
    done, by the renovator assigned to the job; to clean again between the cloths is a task."""
    ticks = done_of_the_rule(job)
    return all(any(people.assigned_renovator(job, p, t.on) for p in (t.renovator, t.person))
               for t in ticks) and \
        all(people.assigned_renovator(job, v.person, v.on) for v in job.all("verification")
            if v.event != "recleaned" and not no_part(job, v)
            and not any(s.area == v.area for s in job.all("dust_sample")))  # 745.85(c)


def no_part(job, v):
    """A clean look of one who is no certified renovator is no part of the verification."""
    return v.event == "look-clean" and not people.renovator(job, v.person, v.on)


def completion_agrees(job):
    """Nothing was done after the completion that the due dates count from."""
    completion, last = job.one("completion"), last_activity(job)
    return completion is None or last is None or last <= completion.on


CERTIFIED = {"assignment", "training", "area", "surface", "tick", "practice", "emergency", "verification",
             "dust_sample", "kit_test", "chip", "opening", "component"}


def of_the_work(job, fact):
    """745.86(b)(6)(i)-(viii): who was assigned and trained, what was done in the areas, kits and
    chips; the windows, doors and parts of which that is said, but what is let alone; no plan, nothing of the firm's own,
    and not that a clean area was opened."""
    if fact.entry == "component":
        return fact.affected != "no"
    if fact.entry == "tick":
        area = job.one("area", id=fact.area)
        down = fact.state == "undone" and area is not None and contain.down_by_right(job, area, fact)
        return not down and fact.step not in {s.id for s in job.all("own_step")}
    return fact.entry in CERTIFIED and fact.planned != "yes"


def logged_after(job, certification):
    place = next(i for i, f in enumerate(job.facts) if f is certification)
    return any(of_the_work(job, f) for f in job.facts[place + 1:])


def led_by(job, person):
    return any(person in (t.renovator, t.person) and any(
        a.duty == "renovator" and a.on <= t.on for a in job.all("assignment", person=person))
        for t in done_of_the_rule(job))


def led_by_another(job, c):
    """745.86(b)(6): it is the certification of the renovator who performed or directed the work; who
    took over from one who may not certify any more certifies for both."""
    leaders = {a.person for a in job.all("assignment", duty="renovator") if led_by(job, a.person)}
    return c.person not in leaders and any(people.renovator(job, p, c.on) for p in leaders)


def certification(job):
    """745.86(b)(6): by the assigned certified renovator, of the whole renovation as it is on file."""
    return any(people.assigned_renovator(job, c.person, c.on) and c.on >= ended(job) and
               not led_by_another(job, c) and not logged_after(job, c)
               for c in job.all("certification"))


def outside_the_rule(job):
    """745.86(b)(1): of an exempt job only the tests that free it are on file."""
    free = "free" in cover.exemption(job)
    given = handover(job)
    gaps = (test_records(job) if free else []) + given.missing + by_start.unsaid(job)
    return Answer(gaps, given.later)


def inspection(job):
    if cover.exemption(job):
        return outside_the_rule(job)
    first = told.first_day(job)
    last = max([first] + [d for d in [last_activity(job), ended(job)] if d])
    gaps = told.untold(job, first) + told.changes_untold(job, told.begins_in_common(job), told.common_days(job))
    gaps += work_known(job) + emergency.gaps(job) + called.contradicted(job)
    gaps += people_on_record(job, cover.begin(job), last) + test_records(job) + paint_contradicted(job)
    gaps += signs(job).missing
    if assisted.holds(job):
        gaps += assisted.before_demo(job, called.working(job, job.all("area")))
    for area in called.working(job, job.all("area")):
        gaps += area_on_record(job, area)
        if not contain.contained_by_crew(job, area):
            gaps.append("745.89(d)(1) %s contained by strangers" % area.id)
    if not directed(job):
        gaps.append("745.86(b)(6) not directed")
    if not job.all("completion"):
        gaps.append("745.86(a), (c)(1) not completed: no last day can be shown")
    if not completion_agrees(job):
        gaps.append("745.86(a) completed before the last work")
    if job.all("completion") and not certification(job):
        gaps.append("745.86(b)(6) certification")
    given = handover(job)
    return Answer(gaps + given.missing, given.later)


# ---- two devices -------------------------------------------------------------------------------------------

ANSWERS = {"rule": rule, "demo": demo, "signs": signs, "handover": handover,
           "inspection": inspection}


def stricter(answers):
    """Of what devices say differently the answer that is worse; under the rule is."""
    missing = [m for a in answers for m in a.missing]
    later = [m for a in answers for m in a.later]
    return Answer(missing, later)


def two_houses(jobs):
    """Devices name another address or unit: of which of the two the other lines are nobody knows, so who is owed
    what neither, and no later day mends that."""
    return any(len({alike(j.house.get(option)) for j in jobs} - {""}) > 1 for option in ("address", "unit"))


def two_people(jobs):
    """One id of two names: whose the notice and the record were that name it nobody knows, where any is owed."""
    names = {}
    for p in jobs[0].all("party"):
        names.setdefault(p.id, set()).add(p.name)
    return any(len(found - {None}) > 1 for found in names.values()) and any(owes_records(j) for j in jobs)


def answers(job):
    """The five answers of a job on its day."""
    job = job.as_of_today()
    if not job.house:
        return {}
    jobs = job.each_device()
    out = {q: stricter([ANSWERS[q](j) for j in jobs]) for q in QUESTIONS}
    stopped = all(called.off(j) for j in jobs)
    times = [] if stopped else clocks.wrong(job)
    for q in ("signs", "handover", "inspection") if stopped else ():
        out[q] = Answer(called.off(job))
    areas = job.all("area")
    for area in areas if len(areas) > 1 else ():
        for q, of in (("demo", demo), ("signs", signs)):
            out["%s@%s" % (q, area.id)] = Answer(called.off(job)) if stopped else stricter([of(j, area) for j in jobs])
    for q in set(out) - {"rule"}:
        out[q].missing += times
    if two_houses(jobs):
        for q in set(out) - {"rule"}:
            out[q].missing.append("745.86(a) one number for two houses")
    for q in set(out) - {"rule"} if two_people(jobs) else ():
        out[q].missing.append("745.86(a) two parties of one id")
    if len(jobs) > 1:
        out["inspection"].missing.append("745.86(a) devices disagree")
        freed = [rule(j).missing for j in jobs]
        out["rule"] = Answer([] if [] in freed else freed[0])
    return out


def line(job, found):
    return "%d %s" % (job.number, " ".join("%s=%s" % (q, found[q].word) for q in found))


def main():
    for job in read_jobs(sys.stdin):
        found = answers(job)
        print(line(job, found))
        if "-v" in sys.argv:
            for q in found:
                for gap in found[q].missing:
                    print("   %s no: %s" % (q, gap))
                for gap in found[q].later:
                    print("   %s later: %s" % (q, gap))


if __name__ == "__main__":
    main()
