/* Local rows: reading them, holding them against the federal ones, and finding
 * the strictest that holds for a job. */
#include <mistfold/place.h>

#include "core/limit_rows.h"
#include "core/places.h"
#include "core/text.h"

/* ---- reading ----------------------------------------------------------------- */

static mf_field_type type_of(mf_unit unit)
{
    switch (unit) {
    case MF_UNIT_UG_CM2:
        return MF_F_LOADING;
    case MF_UNIT_PPM:
        return MF_F_PPM;
    case MF_UNIT_NG_FT2:
        return MF_F_DUST;
    case MF_UNIT_SQFT_100:
    case MF_UNIT_FT_100:
    case MF_UNIT_PERCENT_100:
    case MF_UNIT_UG_DL_100:
        return MF_F_HUNDREDTHS;
    case MF_UNIT_DAYS:
    case MF_UNIT_YEARS:
    case MF_UNIT_MINUTES:
    case MF_UNIT_DEG_F:
    case MF_UNIT_CALENDAR_YEAR:
    case MF_UNIT_COUNT:
    case MF_UNIT_IN_1600: /* measured, never a limit */
    case MF_UNIT_NG:
        break;
    }
    return MF_F_INT;
}

/* No limit of any place comes near these, and no date runs out of the calendar. */
static int64_t most_of(mf_unit unit)
{
    switch (unit) {
    case MF_UNIT_YEARS:
        return 1000;
    case MF_UNIT_DAYS:
        return 100000;
    case MF_UNIT_UG_CM2:
    case MF_UNIT_PPM:
    case MF_UNIT_NG_FT2:
    case MF_UNIT_SQFT_100:
    case MF_UNIT_FT_100:
    case MF_UNIT_PERCENT_100:
    case MF_UNIT_UG_DL_100:
    case MF_UNIT_MINUTES:
    case MF_UNIT_DEG_F:
    case MF_UNIT_CALENDAR_YEAR:
    case MF_UNIT_COUNT:
    case MF_UNIT_IN_1600: /* measured, never a limit */
    case MF_UNIT_NG:
        break;
    }
    return 1000000000;
}

mf_slip mf_limit_value(mf_limit_id id, const char *text, int64_t *out)
{
    const mf_limit *federal = mf_limit_on(id, MF_DAY_NONE);
    mf_parsed parsed = {0};
    if (federal == NULL)
        return MF_SLIP_NUMBER;
    const mf_field field = {.name = "value",
                            .option = "value",
                            .type = type_of(federal->unit),
                            .flags = MF_F_NEEDED,
                            .max = most_of(federal->unit)};
    mf_slip slip = mf_field_parse(&field, text, "", MF_DAY_NONE, &parsed);
    *out = parsed.number;
    return slip;
}

/* What of the row comes from elsewhere; false when it cannot be understood. */
static bool complete(mf_local_limit *local, const mf_limit *federal)
{
    static const mf_cmp meant[] = {
        [MF_BELOW] = MF_LT, [MF_UP_TO] = MF_LE, [MF_AT_LEAST] = MF_GE, [MF_ABOVE] = MF_GT};
    mf_limit *row = &local->row;
    bool said = local->comparison > MF_AS_FEDERAL && local->comparison <= MF_ABOVE;
    row->cmp = said ? meant[local->comparison] : federal->cmp;
    row->unit = federal->unit;
    row->says = federal->says;
    return mf_limit_value(row->id, mf_or_empty(local->value), &row->value) == MF_SLIP_NONE;
}

void mf_local_limit_fill(mf_local_limit *local)
{
    const mf_limit *federal = mf_limit_on(local->row.id, MF_DAY_NONE);
    local->row.name = "";
    local->row.says = "";
    local->row.note = mf_or_empty(local->row.note);
    if (federal != NULL && complete(local, federal))
        local->row.name = federal->name;
}

/* ---- holding it against the federal rows --------------------------------------- */

static bool looks_down(mf_cmp cmp)
{
    return cmp == MF_LT || cmp == MF_LE;
}

static bool before(mf_day a, mf_day b)
{
    return a != MF_DAY_NONE && b != MF_DAY_NONE && a < b;
}

static bool meet(const mf_limit *a, const mf_limit *b)
{
    return !before(a->until, b->from) && !before(b->until, a->from);
}

mf_local_fault mf_local_limit_check(const mf_local_limit *local, const mf_limit **federal)
{
    const mf_limit *row = &local->row, *now = mf_limit_on(row->id, MF_DAY_NONE);
    if (federal != NULL)
        *federal = now;
    if (mf_limit_stricter(row->id) == MF_STRICTER_NEVER)
        return MF_LOCAL_NEVER;
    if (!mf_given(row->name))
        return MF_LOCAL_VALUE;
    if (looks_down(row->cmp) != looks_down(now->cmp))
        return MF_LOCAL_OTHER;
    if (before(row->until, row->from))
        return MF_LOCAL_DATES;
    if (mf_same(row->place, "US"))
        return MF_LOCAL_FEDERAL;
    for (size_t i = 0; i < mf_limit_table_count; i++) {
        const mf_limit *it = &mf_limit_table[i];
        if (it->id != row->id || !meet(it, row) || mf_limit_as_strict(row, it))
            continue;
        if (federal != NULL)
            *federal = it;
        return MF_LOCAL_LOOSER;
    }
    return MF_LOCAL_GOOD;
}

/* ---- where it holds -------------------------------------------------------------- */

bool mf_local_limit_holds(const mf_job *job, const mf_local_limit *local)
{
    if (job->n_house == 0 || !mf_given(local->row.name))
        return false;
    const mf_house *house = &job->house[0];
    const char *place = mf_or_empty(local->row.place);
    if (local->built_before != MF_NUM_NONE && house->year_built != MF_NUM_NONE &&
        house->year_built >= local->built_before)
        return false;
    return mf_same_but_case(place, house->id) || mf_place_among(mf_or_empty(house->place), place) ||
           (mf_place_names_state(place, strlen(place)) && mf_place_unread(job));
}

/* A row that is not as strict as the federal one is passed over, however it came
 * into the book. */
const mf_limit *mf_limit_for(const mf_job *job, mf_limit_id id, mf_day day)
{
    const mf_limit *best = mf_limit_on(id, day);
    if (job == NULL || best == NULL)
        return best;
    for (size_t i = 0; i < job->n_local_limit; i++) {
        const mf_local_limit *it = &job->local_limit[i];
        if (it->row.id == id && mf_day_within(it->row.from, it->row.until, day) &&
            mf_local_limit_holds(job, it) && mf_limit_as_strict(&it->row, best) &&
            !mf_limit_as_strict(best, &it->row))
            best = &it->row;
    }
    return best;
}
