/* Of which house and unit a delivery's paper is, and who signed it. 40 CFR 745.84(d)(1),
 * (a)(1)(i), (a)(2)(i): "the address of the unit", and the owner or occupant acknowledges. */
#include "core/notice_paper.h"

#include "core/address.h"
#include "core/area_rooms.h"
#include "core/occupied_units.h"
#include "core/signer.h"
#include "core/text.h"

/* ---- which place -------------------------------------------------------------------------- */

/* What the paper says behind the street of the job; NULL = it is of another street, or says
 * a unit alone. "12 Sample Lane" may stand for "12 Sample Lane, Exampleton", and a floor or a
 * name may stand before it. */
static const char *behind_street(const mf_job *job, const char *paper)
{
    const char *address = job->n_house == 0 ? "" : mf_or_empty(job->house[0].address);
    enum { STREET = 200 };
    char street[STREET];
    size_t len = strcspn(address, ",");
    if (!mf_has_words(address) || len >= STREET)
        return paper;
    memcpy(street, address, len);
    street[len] = '\0';
    for (const char *at = paper; at != NULL; at = strchr(at, ',')) {
        at += *at == ',';
        const char *rest = mf_after(at, street);
        if (rest != NULL)
            return rest;
    }
    return mf_after(address, paper) != NULL ? "" : NULL;
}

/* Whether the paper names the unit: alone, before the address or behind it. */
static bool names_unit(const mf_job *job, const char *paper, const char *unit)
{
    const char *behind = behind_street(job, paper), *rest = mf_after(paper, unit);
    if (behind != NULL && mf_has_part(behind, unit))
        return true;
    return rest != NULL && (!mf_has_words(rest) || behind_street(job, rest) != NULL);
}

/* Which other unit of the job it names: one worked in, or where somebody lives; NULL = none. */
static const char *other_unit_named(const mf_job *job, const char *paper, const char *own)
{
    const char *unit;
    for (size_t i = 0; i < mf_units_most(job); i++) {
        if (mf_unit_at(job, i, &unit) && mf_given(unit) && !mf_same_unit(unit, own) &&
            names_unit(job, paper, unit))
            return unit;
    }
    for (size_t i = 0; i < job->n_party; i++) {
        unit = job->party[i].unit;
        if (mf_given(unit) && !mf_same_unit(unit, own) && names_unit(job, paper, unit))
            return unit;
    }
    return NULL;
}

/* The unit of whom it was for: of an occupant the own one, else that of the job; "" = none. */
static const char *own_unit(const mf_job *job, const mf_party *party)
{
    const char *unit = party->role == MF_ROLE_OCCUPANT ? mf_or_empty(mf_unit_of(job, party)) : "";
    return mf_given(unit) || job->n_house == 0 ? unit : mf_or_empty(job->house[0].unit);
}

/* An occupant's paper is of the own unit, that of others of one that is worked in. A unit that
 * nobody ever named in this job is another one, too. */
static bool of_other_unit(const mf_job *job, const mf_party *party, const char *paper)
{
    const char *own = own_unit(job, party);
    const char *other = other_unit_named(job, paper, own);
    if (!mf_given(own) || names_unit(job, paper, own))
        return false;
    if (other != NULL)
        return party->role == MF_ROLE_OCCUPANT || !mf_unit_worked(job, other);
    return mf_units_named(paper, job->house[0].address) > 0;
}

/* How much of the text is a word with a number in it, "2A" or "104"; 0 = none is left. *at is moved
 * to it. */
static size_t next_numbered(const char **at)
{
    for (;;) {
        while (**at != '\0' && !mf_in_word(**at))
            (*at)++;
        size_t len = 0;
        while (mf_in_word((*at)[len]))
            len++;
        if (len == 0 || strcspn(*at, "0123456789") < len)
            return len;
        *at += len;
    }
}

/* Whether the paper names each unit of those words: "2A and 2B" on "2A, 2B". */
static bool names_each(const char *paper, const char *units)
{
    enum { UNIT = 40 };
    size_t n = 0;
    for (size_t len; (len = next_numbered(&units)) > 0; units += len, n++) {
        char unit[UNIT];
        if (len >= UNIT)
            return false;
        memcpy(unit, units, len);
        unit[len] = '\0';
        if (!mf_has_part(paper, unit))
            return false;
    }
    return n > 0;
}

/* "2A-2D", "units 1A to 4B": more than are named. */
static bool is_range(const char *units)
{
    static const char *const until[] = {"to", "through", "thru", "hasta", "al"};
    size_t len = next_numbered(&units);
    const char *behind = units + len;
    return len > 0 && next_numbered(&units) > 0 &&
           (behind[strspn(behind, " ")] == '-' ||
            mf_words_hold_one(behind, until, sizeof until / sizeof until[0]));
}

/* Whether each unit of which somebody is on the list is named. */
static bool names_each_listed(const mf_job *job, const char *paper)
{
    for (size_t i = 0; i < job->n_party; i++) {
        const mf_party *it = &job->party[i];
        if (it->role == MF_ROLE_OCCUPANT && mf_given(it->unit) && !mf_has_part(paper, it->unit))
            return false;
    }
    return true;
}

static bool says_but(const char *paper)
{
    static const char *const but[] = {"but",   "except",  "not",   "only", "without", "floor",
                                      "salvo", "excepto", "menos", "sin",  "piso",    "solo"};
    return mf_words_hold_one(paper, but, sizeof but / sizeof but[0]);
}

/* A written notice goes "to each affected unit" (745.84(b)(2)(i)): of a paper that names some
 * nobody knows that the others had theirs. Who is to be told are the units of the name, or all. */
static bool leaves_units_out(const mf_job *job, const mf_party *party, const mf_notice *notice)
{
    const char *paper = notice->unit;
    const char *own = mf_or_empty(mf_given(party->unit) ? party->unit : party->name), *at = own;
    size_t n = mf_units_named(paper, job->house[0].address);
    if (notice->method == MF_DELIVERY_POSTED)
        return false;
    if (says_but(paper))
        return true;
    if (n == 0)
        return false;
    if (is_range(own))
        return !is_range(paper) || (!mf_has_part(paper, own) && !mf_has_part(own, paper));
    if (next_numbered(&at) > 0)
        return !names_each(paper, own);
    return n == 1 || !names_each_listed(job, paper);
}

/* What an occupant of a building of several units signs, or is certified to have had, says which of
 * them it is of. */
static bool of_no_unit(const mf_job *job, const mf_party *party, const mf_notice *notice)
{
    bool signed_ =
        notice->method == MF_DELIVERY_ACKNOWLEDGED || notice->method == MF_DELIVERY_SELF_CERTIFIED;
    const char *own = own_unit(job, party);
    return signed_ && party->role == MF_ROLE_OCCUPANT &&
           job->house[0].building == MF_BUILDING_MULTI && mf_given(own) &&
           !names_unit(job, notice->unit, own);
}

/* Mail goes where somebody is: only what was mailed to an occupant went to the house. Parents live
 * elsewhere; what hangs on the wall for them does not. */
static bool of_the_house(const mf_party *party, const mf_notice *notice)
{
    bool hangs = notice->method == MF_DELIVERY_POSTED;
    switch (party->role) {
    case MF_ROLE_OWNER:
    case MF_ROLE_FACILITY:
        return notice->method != MF_DELIVERY_MAILED;
    case MF_ROLE_OCCUPANT:
        return notice->method != MF_DELIVERY_MAILED ||
               !mf_may_be_one_place(notice->unit, "", party->address, "");
    case MF_ROLE_PARENTS:
        return hangs;
    case MF_ROLE_UNITS:
        break;
    }
    return true;
}

const char *mf_paper_elsewhere(const mf_job *job, const mf_party *party, const mf_notice *notice,
                               const char **asks)
{
    const char *paper = mf_or_empty(notice->unit);
    *asks = NULL;
    if (job->n_house == 0 || !mf_has_words(paper) || !of_the_house(party, notice))
        return NULL;
    if (mf_other_street(paper, job->house[0].address))
        return "paper-other-house";
    if (party->role == MF_ROLE_UNITS)
        return leaves_units_out(job, party, notice) ? "paper-one-unit" : NULL;
    if (party->role == MF_ROLE_PARENTS)
        return NULL; /* any unit of the building may be named */
    if (of_other_unit(job, party, paper))
        return "paper-other-unit";
    if (of_no_unit(job, party, notice))
        return "paper-no-unit";
    const char *own = own_unit(job, party);
    bool named = names_unit(job, paper, own) || other_unit_named(job, paper, own) != NULL;
    if (!named && behind_street(job, paper) == NULL)
        *asks = "paper-other-place";
    return NULL;
}

/* ---- which hand --------------------------------------------------------------------------- */

/* How much of a text is the name: "Ida Sample, manager" and "Ida Sample (owner)" are Ida Sample. */
static size_t name_length(const char *text)
{
    size_t n = strcspn(text, ",;/(");
    while (n > 0 && text[n - 1] == ' ')
        n--;
    return n;
}

static bool is_name(const char *text, const char *name)
{
    size_t n = 0, len = name_length(mf_or_empty(name));
    while (n < len && mf_lower(text[n]) == mf_lower(name[n]))
        n++;
    return len > 0 && n == len && name_length(text) == len;
}

static bool is_party(const mf_party *party, const char *signer)
{
    return is_name(signer, party->name) || is_name(signer, party->id) ||
           mf_same_room(signer, party->name);
}

static size_t count_words(const char *text)
{
    size_t n = 0;
    for (size_t i = 0; text[i] != '\0'; i++)
        n += mf_in_word(text[i]) && (i == 0 || !mf_in_word(text[i - 1]));
    return n;
}

/* Who rents signs for no owner, and who lets for no occupant, 745.84(a)(1)(i), (a)(2)(i). */
static bool of_other_side(const mf_party *party, const char *right)
{
    return (party->role == MF_ROLE_OWNER && mf_says_signer_rents(right)) ||
           (party->role == MF_ROLE_OCCUPANT && mf_says_signer_lets(right));
}

/* "Bob Other, agent for Ida Sample": behind the name, by what right and for whom. "For" and the
 * name alone say no right. */
static bool signs_for(const mf_party *party, const char *signer)
{
    const char *name = mf_or_empty(party->name), *right = strpbrk(signer, ",;/(");
    return right != NULL && mf_has_part(right, name) &&
           count_words(right) >= count_words(name) + 2 && mf_says_what_signer_is(right) &&
           !of_other_side(party, right);
}

static bool is_firm(const mf_job *job, const char *name)
{
    for (size_t i = 0; i < job->n_firm; i++)
        if (is_name(name, job->firm[i].name))
            return true;
    return false;
}

/* The firm, or somebody who works with it. */
static bool of_firm(const mf_job *job, const char *name)
{
    if (is_firm(job, name))
        return true;
    for (size_t i = 0; i < job->n_person; i++)
        if (is_name(name, job->person[i].name) || is_name(name, job->person[i].id))
            return true;
    return false;
}

/* Another of the role on the list: an owner too, or an adult of the same unit. */
static bool of_alike(const mf_job *job, const mf_party *party, const char *signer)
{
    for (size_t i = 0; i < job->n_party; i++) {
        const mf_party *it = &job->party[i];
        if (it->role == party->role && mf_same_unit(it->unit, party->unit) && is_party(it, signer))
            return true;
    }
    return false;
}

/* The firm signs its own certification: owner or occupant cannot (745.84(a)(1)(i), (a)(2)(i)). */
static bool of_any_party(const mf_job *job, const char *signer)
{
    for (size_t i = 0; i < job->n_party; i++)
        if (is_party(&job->party[i], signer))
            return true;
    return false;
}

/* "Ida Sample, by Rosa Muestra": behind the name stands somebody of the firm. */
static bool behind_it_firm(const mf_job *job, const char *signer)
{
    const char *rest = strpbrk(signer, ",;/(");
    bool found = false;
    for (size_t i = 0; rest != NULL && i < job->n_person; i++)
        found = found || (mf_given(job->person[i].name) && mf_has_part(rest, job->person[i].name));
    for (size_t i = 0; rest != NULL && i < job->n_firm; i++)
        found = found || (mf_given(job->firm[i].name) && mf_has_part(rest, job->firm[i].name));
    return found;
}

/* What stands behind the own name is what the signer is, the own unit, or another of the role. */
static bool clear_behind(const mf_job *job, const mf_party *party, const char *signer)
{
    const char *rest = strpbrk(signer, ",;/(");
    if (rest == NULL || count_words(rest) == 0)
        return true;
    if (mf_says_what_signer_is(rest))
        return party->role != MF_ROLE_OWNER || !mf_says_signer_rents(rest);
    rest += strspn(rest, " ,;/(");
    return of_alike(job, party, rest) || (mf_given(party->unit) && mf_has_part(rest, party->unit));
}

/* Of an owner or an occupant, who sign themselves; a facility is told by whoever represents it
 * (745.84(c)(1)(ii)). */
static const char *wrong_hand(const mf_job *job, const mf_party *party, const char *signer)
{
    if (is_party(party, signer))
        return clear_behind(job, party, signer) ? NULL : "paper-signer-unclear";
    return of_alike(job, party, signer) || signs_for(party, signer) ? NULL : "paper-other-signer";
}

/* "Certify in writing that a pamphlet has been delivered", 745.84(a)(2)(i). */
static const char *not_delivered(const mf_notice *notice)
{
    bool none = mf_says_nobody(notice->deliverers) || mf_says_undelivered(notice->how) ||
                mf_says_undelivered(notice->reason);
    return none ? "paper-not-delivered" : NULL;
}

/* Nobody acknowledges to the firm what the firm itself signs; but an owner may be of the firm and
 * sign by his own name, or be the firm. */
const char *mf_paper_wrong_signer(const mf_job *job, const mf_party *party, const mf_notice *notice,
                                  const char **asks)
{
    const char *signer = mf_or_empty(notice->signer);
    *asks = NULL;
    if (!mf_given(signer))
        return NULL;
    if (notice->method == MF_DELIVERY_SELF_CERTIFIED)
        return of_any_party(job, signer) ? "paper-certified-by-party" : not_delivered(notice);
    if (notice->method != MF_DELIVERY_ACKNOWLEDGED)
        return NULL;
    if (mf_says_unsigned(signer))
        return "paper-not-signed";
    if (strchr(signer, '?') != NULL) /* a doubt of whoever wrote it down */
        return "paper-signer-unclear";
    bool own = is_party(party, signer), firm = of_firm(job, signer);
    if (firm && (own || is_firm(job, mf_or_empty(party->name))))
        *asks = "paper-signer-of-both";
    if (firm)
        return *asks == NULL ? "paper-signed-by-firm" : NULL;
    if (behind_it_firm(job, signer))
        return "paper-signed-by-firm";
    if (party->role == MF_ROLE_OWNER || party->role == MF_ROLE_OCCUPANT)
        return wrong_hand(job, party, signer);
    bool known = own || of_alike(job, party, signer) || signs_for(party, signer);
    if (!known && of_any_party(job, signer))
        *asks = "paper-other-signer";
    return NULL;
}

bool mf_paper_serves(const mf_job *job, const mf_party *party, const mf_notice *notice)
{
    const char *asks;
    return mf_paper_elsewhere(job, party, notice, &asks) == NULL &&
           mf_paper_wrong_signer(job, party, notice, &asks) == NULL;
}
