"""40 CFR 745.84: who must be told before the work, how and when."""
import re

from begins import first_day, first_there
from cover import is_housing, owes_to_facility
from emergency import waived
from facts import DAY, unaccented

MOST_DAYS = 60  # 745.84(a), (b), (c)
MAIL_DAYS = 7   # 745.84(a)(1)(ii) and where it is said again


def named(unit):
    """A unit's name as people mean it: capitals, blanks and dashes make no other unit."""
    return "".join(c for c in (unit or "").lower() if c.isalnum()) or None


# ---- where the work is ---------------------------------------------------------------------------

def unit_of_area(job, area):
    """The unit an interior area of a multi-unit building lies in."""
    return named(area.unit or job.house.unit)


def is_common(area):
    return area.common == "yes" or (area.side == "exterior" and area.unit is None)


def in_common(job, area):
    """Not inside a unit alone; of an area of which nobody said where it lies it may be."""
    return job.house.building == "multi-unit" and (is_common(area) or unit_of_area(job, area) is None)


def common_days(job):
    """The days of work that (b) tells of: not those inside a unit alone."""
    areas = {a.id: a for a in job.all("area")}
    return [p.on for p in job.all("practice") if p.planned != "yes"
            and (p.area not in areas or in_common(job, areas[p.area]))]


def commons(job):
    """Areas that are common, or may be."""
    return any(in_common(job, a) for a in job.all("area"))


def common_areas(job):
    return job.house.building == "multi-unit" and any(is_common(a) for a in job.all("area"))


def units_worked_in(job):
    """Units of a multi-unit building; None stands for an area of which nobody said. An area
    that is said to be both is both."""
    if job.house.building != "multi-unit":
        return set()
    return {unit_of_area(job, a) for a in job.all("area") if a.unit or not is_common(a)}


def begins_in(job, unit, asked=None, area=None):
    """Of the work in a unit (None = where nobody said)."""
    return first_there(job, lambda a: (a.unit or not is_common(a)) and unit_of_area(job, a) == named(unit), asked, area)


def begins_in_common(job, asked=None, area=None):
    return first_there(job, lambda a: in_common(job, a), asked, area)


def occupants_of(job, unit):
    return [p for p in job.all("party", role="occupant")
            if not unit or named(p.unit or job.house.unit) == named(unit)]


def vacant(job, unit, first):
    """Nobody lives there since a day not after the beginning, and nobody is listed; in a dwelling, which is one
    unit, of whatever unit."""
    listed = job.all("party", role="occupant") if job.house.building == "dwelling" else occupants_of(job, unit)
    return not listed and any(
        v.on <= first and v.said_by and named(v.unit or job.house.unit) == named(unit)
        for v in job.all("vacancy"))


# ---- one delivery ---------------------------------------------------------------------------------

def in_window(day, first, ahead):
    """At most 60 days before the beginning and at least so many days ahead of it."""
    return day is not None and ahead * DAY <= first - day <= MOST_DAYS * DAY


def acknowledged(job, notice, first):
    """745.84(a)(1)(i), (d): a written acknowledgment, signed and dated before the work, that
    states the receipt before it and the address of the unit, in the right language."""
    return (in_window(notice.on, first, 1) and notice.signed_on is not None
            and notice.on <= notice.signed_on < first and bool(notice.signer)
            and notice.states_receipt == "yes" and bool(notice.unit)
            and language_serves(job, notice))


def language_serves(job, notice):
    """745.84(d)(3): the language of the contract; in housing in which the owner does not live that
    of the pamphlet will do, which is the same here."""
    contract, paper = job.house.language, notice.language
    if job.house.owner_occupied != "yes" and is_housing(job):
        return True
    return contract is None or paper is None or contract == paper


def mailed(notice, first):
    """745.84(a)(1)(ii), (a)(2)(ii): a certificate of mailing, 7 days before."""
    return in_window(notice.on, first, MAIL_DAYS) and notice.receipt == "yes"


def self_certified(notice, first):
    """745.84(a)(2)(i), (c)(1)(ii)(A): address, day, method, who delivered, why there is no
    acknowledgment, signed and dated."""
    return (in_window(notice.on, first, 1) and bool(notice.unit) and bool(notice.how)
            and bool(notice.deliverers) and bool(notice.reason) and bool(notice.signer)
            and notice.signed_on is not None and notice.on <= notice.signed_on < first)


def tells_all(notice):
    """745.84(b)(2)(i)-(ii), (c)(2): work and places, dates, pamphlet, records."""
    over = notice.work_until is not None and notice.work_until < notice.on  # no "expected ending date"
    return not over and all(x == "yes" for x in (notice.tells_work, notice.tells_dates,
                                                 notice.tells_pamphlet, notice.tells_records))


def posted(notice, first):
    """745.84(b)(2)(ii), (c)(2)(ii): signs while the work goes on, from its first day."""
    return in_window(notice.on, first, 0) and tells_all(notice)


# ---- whose paper it is ----------------------------------------------------------------------------

def names_unit(text, unit):
    """Whether a paper names the unit, as one word or more."""
    words = re.findall(r"[a-z0-9]+", (text or "").lower())
    return any("".join(words[n:m]) == unit for n in range(len(words)) for m in range(n + 1, n + 4))


def of_other_unit(job, notice, party):
    """745.84(a)(2)(i), (d)(1): "the address of the unit": that of an occupant's own; of several units the house alone
    names none."""
    own = named(party.unit or job.house.unit) if party.role == "occupant" else None
    units = {named(f.unit) for f in job.all("area") + job.all("party") + [job.house]} - {None, own}
    return own is not None and not names_unit(notice.unit, own) and (
        job.house.building == "multi-unit" or any(names_unit(notice.unit, u) for u in units))


def streets(text):
    """The parts of an address that are a number and a name."""
    parts = [re.findall(r"[a-z0-9]+", p) for p in (text or "").lower().split(",")]
    return {" ".join(p[:3]) for p in parts if len(p) > 2 and re.fullmatch(r"\d+", p[0])}


def of_other_house(job, notice, party):
    """745.84(d)(1): "the address of the unit undergoing renovation". Mail goes where the owner, a
    representative or a parent is; what goes to an occupant or hangs on a wall is at the house."""
    own, paper = streets(job.house.address), streets(notice.unit)
    if party.role == "parents" and notice.method != "posted":
        return False
    if notice.method == "mailed" and party.role in ("owner", "facility"):
        return False
    if notice.method == "mailed" and party.role == "occupant" and paper & streets(party.address):
        return False
    return bool(own and paper) and not own & paper


def of_no_unit_here(job, notice, party):
    """(d)(1) once more: a unit in which nobody works is not the one undergoing renovation."""
    own = named(party.unit or job.house.unit) if party.role == "occupant" else named(job.house.unit)
    if party.role not in ("owner", "occupant", "facility") or own is None or names_unit(notice.unit, own):
        return False
    if notice.method == "mailed" and party.role != "occupant":
        return False
    rest = [p.strip().lower() for p in (notice.unit or "").split(",")]
    units = {re.sub(r"^unit ", "", p) for p in rest if re.fullmatch(r"(unit )?[0-9]{1,2}[a-z]", p)}
    worked = {named(a.unit or job.house.unit) for a in job.all("area")}
    return bool(units) and not units & worked


def leaves_units_out(job, notice, party):
    """(b)(2)(i): "to each affected unit": a paper that names some, or all but some, was not given to the others; who is to be
    told are the units of the name, or else all."""
    if party.role != "units" or notice.method == "posted":
        return False
    if set(re.findall(r"\w+", (notice.unit or "").lower())) & {"floor", "but", "except", "not", "only", "without"}:
        return True
    units, own = (set(re.findall(r"\b[0-9]{1,2}[a-z]\b", (text or "").lower())) for text in (notice.unit, party.unit or party.name))
    listed = [p.unit for p in job.all("party", role="occupant") if p.unit]
    return bool(units) and (not own <= units if own else len(units) == 1 or not all(names_unit(notice.unit, named(u)) for u in listed))


def elsewhere(job, notice, party):
    return of_other_house(job, notice, party) or leaves_units_out(job, notice, party)


BY_WHAT_RIGHT = re.compile(  # common practice, no source
    r"\b(co owner|owner|landlord|manager|agent|trustee|representative|attorney|guardian|tenant|occupant|resident|adult|"
    r"spouse|wife|husband|mother|father|parent|signed|propietari[oa]|administrador|inquilin[oa]|madre|padre)\b")
NOBODY_SIGNED = re.compile(r"\b(refused|unsigned|not|no signature|missing|absent|later|without|to be|by phone|minor|child|years? old)\b")


def behind(signer):
    """What stands behind the name."""
    return " ".join(words((re.split("[,;/(]", signer or "", maxsplit=1) + [""])[1]))


def not_signed(notice):
    return bool(NOBODY_SIGNED.search(" ".join(words(notice.signer))))


def signed_by_firm(job, notice, party):
    """(a)(1)(i), (a)(2)(i): the owner or occupant acknowledges, which neither the firm nor who works for it can do;
    but an owner may be of the firm, and signs by the own hand, or be the firm."""
    signer = re.split("[,;/(]", notice.signer or "", maxsplit=1)[0].strip().lower()
    if signer in of_the_firm(job):
        return signer not in {party.name.lower(), party.id.lower()} and not is_the_firm(job, party)
    names = [p.name for p in job.all("person")] + [f.name for f in job.all("firm")]
    return any(n and " %s " % " ".join(words(n)) in " %s " % behind(notice.signer) for n in names)


def of_the_firm(job):
    ours = {n.lower() for p in job.all("person") for n in (p.name, p.id) if n}
    return ours | {f.name.lower() for f in job.all("firm") if f.name}


def is_the_firm(job, party):
    return party.name.lower() in {f.name.lower() for f in job.all("firm") if f.name}


def words(text):
    return re.findall(r"[^\W_]+", unaccented(text or ""))


def signed_by_other(job, notice, party):
    """(a)(1)(i), (a)(2)(i): the owner, or an adult of the unit; who signs for one says by what right and for whom."""
    if party.role not in ("owner", "occupant"):
        return False
    alike = [p for p in job.all("party", role=party.role) if named(p.unit) == named(party.unit)]
    signer = re.split("[,;/(]", notice.signer or "", maxsplit=1)
    said = behind(notice.signer)
    if any(words(signer[0]) == words(n) for n in (party.name, party.id)):
        return bool(said) and not BY_WHAT_RIGHT.search(said) and not any(words(n) == words(signer[1]) for p in alike
                                                                         for n in (p.name, p.id))
    if any(words(signer[0]) == words(n) for p in alike for n in (p.name, p.id)):
        return False
    if is_the_firm(job, party) and (notice.signer or "").strip().lower() in of_the_firm(job):
        return False  # somebody of the firm, which is the owner
    right, name = words(signer[1]) if len(signer) > 1 else [], words(party.name)
    at = [i for i in range(len(right)) if right[i:i + len(name)] == name]
    return not at or len(right) < len(name) + 2 or not BY_WHAT_RIGHT.search(said)


def signed_by_party(job, notice):
    """(a)(2)(i): the signature is that of the firm, and none of those who are told."""
    signer = (notice.signer or "").strip().lower()
    return any(signer in (p.name.lower(), p.id.lower()) for p in job.all("party"))


def told_person(job, party, first):
    """745.84(a)(1), (a)(2), (c)(1): one delivery to this person serves."""
    for n in job.all("notice", party=party.id):
        if n.method in ("acknowledged", "self-certified") and of_other_unit(job, n, party):
            continue
        if of_other_house(job, n, party) or of_no_unit_here(job, n, party):
            continue
        if n.method == "acknowledged" and (not_signed(n) or signed_by_firm(job, n, party) or signed_by_other(job, n, party)):
            continue
        if n.method == "acknowledged" and acknowledged(job, n, first):
            return True
        if n.method == "mailed" and mailed(n, first):
            return True
        if n.method == "self-certified" and party.role != "owner" and self_certified(n, first) and \
                not signed_by_party(job, n):
            return True
    return False


def unit_notices(job, party, first):
    """745.84(b)(2)(i): written notices to the units that serve for the beginning."""
    return [n for n in written_to(job, party, first) if tells_all(n)]


def written_to(job, party, first):
    """In time, whatever they tell."""
    return [n for n in job.all("notice", party=party.id)
            if n.statement == "yes" and not elsewhere(job, n, party)
            and ((n.method == "unit-notice" and in_window(n.on, first, 1))
                 or (n.method == "mailed" and mailed(n, first)))]


def told_units(job, party, first):
    """745.84(b)(2)-(3): written notice or signs, and a signed statement of the steps."""
    return bool(unit_notices(job, party, first)) or any(
        n.method == "posted" and n.statement == "yes" and posted(n, first)
        and not of_other_house(job, n, party)
        for n in job.all("notice", party=party.id))


def told_parents(job, party, first):
    """745.84(c)(2)-(3): by mail or hand to each, or signs; and a signed statement. Post to
    parents has neither the seven days nor the certificate."""
    for n in job.all("notice", party=party.id):
        if n.statement != "yes" or not tells_all(n) or of_other_house(job, n, party):
            continue
        if n.method == "posted" and posted(n, first):
            return True
        if n.method in ("mailed", "unit-notice") and in_window(n.on, first, 1):
            return True
    return False


# ---- who must be told --------------------------------------------------------------------------------

def each_told(job, role, told, first):
    parties = job.all("party", role=role)
    return bool(parties) and all(told(job, p, first) for p in parties)


def one_told(job, parties, first):
    return any(told_person(job, p, first) for p in parties)


def owner_told(job, first):
    """745.84(a)(1), (b)(1), (c)(1)(i)."""
    return each_told(job, "owner", told_person, first)


def owner_lives(job):
    """745.84(a)(2): the word of it, which an owner's other address or somebody of the same unit contradicts."""
    house = job.house
    if house.owner_occupied != "yes" or not is_housing(job):
        return house.owner_occupied == "yes"
    others = occupants_of(job, house.unit) if house.building == "multi-unit" and house.unit else \
        job.all("party", role="occupant") if house.building == "dwelling" else []
    own = streets(house.address)
    away = any(streets(o.address) and own and not streets(o.address) & own for o in job.all("party", role="owner"))
    return not others and not away


def occupant_told(job, first):
    """745.84(a)(2): an adult occupant of a dwelling in which the owner does not live."""
    if owner_lives(job) or vacant(job, job.house.unit, first):
        return True
    return one_told(job, job.all("party", role="occupant"), first)


def unit_told(job, unit, first):
    """745.84(a)(2): an adult occupant of each unit worked in."""
    if unit is None:
        return False
    if owner_lives(job) and named(unit) == named(job.house.unit):
        return True
    return vacant(job, unit, first) or one_told(job, occupants_of(job, unit), first)


def facility_told(job, first):
    """745.84(c)(1)(ii): a representative, unless the facility owns the building."""
    if owner_lives(job):
        return True
    return each_told(job, "facility", told_person, first)


def untold(job, first, areas=None, asked=None, area=None):
    """Everybody who had to be told before the work and was not: paragraphs. 745.82(b). That it is not said where
    an area lies is asked of those that are meant; who is told of it, of all. Each unit by the beginning of the work
    in it, and the owner by all of them: of each unit the owner is the owner, too."""
    areas = job.all("area") if areas is None else areas
    if waived(job, "pamphlet"):
        return []
    gaps = []
    units = {unit: begins_in(job, unit, asked, area) for unit in units_worked_in(job)}
    common = begins_in_common(job, asked, area)
    if not all(owner_told(job, day) for day in {first, *units.values(), *([common] if commons(job) else [])}):
        gaps.append("745.84(a)(1), (b)(1) owner")
    if job.house.building == "dwelling" and not occupant_told(job, first):
        gaps.append("745.84(a)(2) occupant")
    if job.house.building != "multi-unit":
        gaps += ["745.84(b) %s is said to be in a unit or common, and there are none" % a.id
                 for a in areas if a.unit or a.common == "yes"]
    else:
        gaps += ["745.84(a)(2), (b) %s is said to be in a unit and common" % a.id
                 for a in areas if a.unit and a.common == "yes"]
    gaps += ["745.84(a)(2) unit %s" % unit for unit, day in units.items() if not unit_told(job, unit, day)]
    if common_areas(job) and not each_told(job, "units", told_units, common):
        gaps.append("745.84(b)(2)-(3) units")
    if owes_to_facility(job):
        if not facility_told(job, first):
            gaps.append("745.84(c)(1) facility")
        if not each_told(job, "parents", told_parents, first):
            gaps.append("745.84(c)(2)-(3) parents")
    return gaps


# ---- changes ---------------------------------------------------------------------------------------

def change_notices(job, role, before):
    """745.84(b)(4): further written notices delivered before the day, with "revised information on the
    ongoing or planned activities": what else the first notice holds need not be told once more."""
    found = []
    for party in job.all("party", role=role):
        for n in job.all("notice", party=party.id, of_change="yes"):
            if n.on < before and reached(job, n, party) and "yes" in (n.tells_work, n.tells_dates):
                found.append(n)
    return found


def covers(notice, day):
    """Whether the told days, where they are told, hold the day."""
    return (notice.work_from is None or notice.work_from <= day) and \
        (notice.work_until is None or day <= notice.work_until)


def changes_untold(job, first, days):
    """745.84(b)(4): where units had written notice, work beyond what it told needs a further
    written notice to units and owner first."""
    if not common_areas(job) or waived(job, "pamphlet"):
        return []
    served = [n for p in job.all("party", role="units") for n in written_to(job, p, first)]
    written = [n for n in served if n.of_change != "yes"] or served
    if not written:
        return []
    gaps = []
    for change in job.all("scope_change"):
        at_first = change.on <= min(n.on for n in written)  # it told the work as it was then
        if change.on <= job.today and not at_first and not further(job, change.on, None):
            gaps.append("745.84(b)(4) scope of %s" % change.on)
    for day in days:
        beyond = [p for p in job.all("party", role="units") if first_notices(job, p, first)
                  and not all(covers(n, day) for n in first_notices(job, p, first))]
        owners = job.all("party", role="owner")
        if not all(stands_for(job, p, first, day) for p in job.all("party", role="units")) or (
                beyond and not (owners and all(told_anew(job, p, day) for p in owners))):
            gaps.append("745.84(b)(4) day %s" % day)
    return gaps


def first_notices(job, party, first):
    """The written initial notification, whether it tells all or signs serve beside it; of two of one day nobody
    knows which came first."""
    served = written_to(job, party, first)
    written = [n for n in served if n.of_change != "yes"] or served
    return [n for n in written if n.on == min(m.on for m in written)]


def dated_before(notices, day):
    """The last that tells days, before the day."""
    dated = [n for n in notices if (n.work_from or n.work_until) and n.tells_dates != "no" and n.on < day]
    return dated and [n for n in dated if n.on == max(m.on for m in dated)][-1]


def stands_for(job, party, first, day):
    """What the units were told last, before the day, holds it; signs tell while the work goes on."""
    served = written_to(job, party, first)
    last = served and dated_before([n for n in job.all("notice", party=party.id)
                                    if n in served or (n.of_change == "yes" and reached(job, n, party))
                                    or (n.method == "mailed" and n.statement == "yes" and in_window(n.on, first, MAIL_DAYS)
                                        and not elsewhere(job, n, party))], day)  # the receipt is another matter
    return not last or covers(last, day)


def reached(job, notice, party):
    """(b)(4): "written notice" to the owner and each affected unit, of this house; nobody need sign for it."""
    return notice.method != "posted" and not elsewhere(job, notice, party) and not of_no_unit_here(job, notice, party) \
        and not (notice.method in ("acknowledged", "self-certified") and of_other_unit(job, notice, party))


def told_anew(job, owner, day):
    last = dated_before([n for n in job.all("notice", party=owner.id, of_change="yes") if reached(job, n, owner)], day)
    return bool(last) and covers(last, day)


def further(job, before, day):
    """A further notice to units and one to the owner."""
    return all(any((day is None or covers(n, day))
                   for n in change_notices(job, role, before))
               for role in ("units", "owner"))

