/* One certificate logged with two terms, by two devices or twice by one. 40 CFR 745.86(a), (b)(6),
 * 745.90(a)(4): the copy that is kept shows one term. */
#include "core/two_terms.h"

#include "core/text.h"

/* A renewal may keep the number. It is had in the last year of the one before it: what overlaps by
 * more is no renewal, and one of the days is wrong. Common practice, no source. */
enum { RENEWED_AHEAD = 366 };

bool mf_one_certificate(const mf_certificate *a, const mf_certificate *b)
{
    return a != b && a->discipline == b->discipline && mf_given(a->number) &&
           mf_same(a->holder, b->holder) && mf_same_room(a->number, b->number) &&
           mf_same_room(a->issuer, b->issuer);
}

/* Of one day of issue, and another end or another kind of course. What is not said contradicts
 * nothing. */
static bool differ(const mf_certificate *a, const mf_certificate *b)
{
    bool ends = a->expires != MF_DAY_NONE && b->expires != MF_DAY_NONE && a->expires != b->expires;
    bool courses =
        a->hands_on != MF_UNKNOWN && b->hands_on != MF_UNKNOWN && a->hands_on != b->hands_on;
    return ends || courses;
}

bool mf_two_terms(const mf_certificate *a, mf_day a_last, const mf_certificate *b, mf_day b_last)
{
    if (a->issued == MF_DAY_NONE || b->issued == MF_DAY_NONE)
        return false;
    if (a->issued == b->issued)
        return differ(a, b);
    mf_day first = a->issued > b->issued ? a->issued : b->issued;
    mf_day last = a_last < b_last ? a_last : b_last;
    return last != MF_DAY_NONE && (int64_t)last - first >= RENEWED_AHEAD;
}
