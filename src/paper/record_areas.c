/* Each work area with its containment list as ticked, and the work practices. */
#include "paper/claims.h"
#include "paper/days.h"
#include "paper/plan.h"
#include "paper/record.h"
#include "paper/steps.h"

static const char *size_words(mf_rec *rec, const mf_area *area)
{
    if (area->length_ft_100 == MF_NUM_NONE)
        return mf_phrase(rec, "not-given");
    const char *length = mf_number_words(rec, area->length_ft_100, MF_UNIT_FT_100);
    if (area->width_ft_100 == MF_NUM_NONE)
        return length;
    return mf_fill(rec, "size-by", length, mf_number_words(rec, area->width_ft_100, MF_UNIT_FT_100),
                   NULL);
}

/* Of a multi-unit building: in which unit, or that it is common, as it was said. */
static const char *unit_words(mf_rec *rec, const mf_area *area)
{
    const char *words = "";
    if (*area->unit != '\0')
        words = mf_fill(rec, "of-unit", area->unit, NULL, NULL);
    if (area->common != MF_UNKNOWN)
        words = mf_join(rec, words, ", ",
                        mf_phrase(rec, area->common == MF_YES ? "common" : "not-common"));
    return mf_stated(rec, words);
}

static void area_facts(mf_rec *rec, const mf_area *area)
{
    static const char *const interior[] = {"openings", "size",       "objects",
                                           "ducts",    "doors-used", "unit-or-common"};
    static const char *const exterior[] = {"openings",      "size",       "stories",
                                           "property-line", "doors-used", "unit-or-common"};
    bool outside = area->side == MF_SIDE_EXTERIOR;
    const char *storeys = area->storeys == MF_NUM_NONE
                              ? mf_phrase(rec, "not-given")
                              : mf_print(rec, "%lld", (long long)area->storeys);
    const char *line = area->line_ft_100 == MF_NUM_NONE
                           ? mf_phrase(rec, "not-given")
                           : mf_number_words(rec, area->line_ft_100, MF_UNIT_FT_100);
    const char *values[6] = {mf_stated(rec, mf_list_words(rec, area->openings)),
                             size_words(rec, area),
                             outside ? storeys : mf_tri_words(rec, area->objects),
                             outside ? line : mf_tri_words(rec, area->ducts),
                             mf_tri_words(rec, area->doors_used),
                             unit_words(rec, area)};
    bool many = rec->house.building == MF_BUILDING_MULTI;
    mf_pairs(rec, outside ? exterior : interior, values, many ? 6 : 5);
}

static const char *method_words(mf_rec *rec, const mf_practice *used)
{
    const char *method = mf_enum(rec, MF_FAM_METHOD, (int)used->method);
    if (used->method == MF_METHOD_HEAT_GUN && used->temp_f != MF_NUM_NONE)
        return mf_join(rec, method, ", ", mf_number_words(rec, used->temp_f, MF_UNIT_DEG_F));
    if (used->method == MF_METHOD_MACHINE)
        return mf_join(rec, method, ", ",
                       mf_phrase(rec, used->shroud_and_hepa == MF_YES ? "shroud" : "no-shroud"));
    return method;
}

static void practice_row(mf_rec *rec, mf_table *table, size_t i)
{
    const mf_practice *used = &rec->job->practice[i];
    bool bad = mf_claim_prohibited(rec, used);
    const mf_cell cells[6] = {mf_bold(used->area),
                              mf_traced(rec, mf_plain(method_words(rec, used)), &used->src),
                              mf_plain(mf_when_words(rec, used->on, used->at_minute)),
                              mf_plain(mf_person_words(rec, used->person)),
                              mf_marked(bad ? MF_MARK_CROSS : MF_MARK_TICK,
                                        mf_phrase(rec, bad ? "prohibited" : "permitted")),
                              mf_plain(used->note)};
    mf_table_row(table, cells);
}

/* Of all areas, in the order logged. */
static void practices(mf_rec *rec)
{
    static const mf_col cols[] = {{"col.area", 8, false},    {"col.method", 21, false},
                                  {"col.day", 17, false},    {"col.person", 17, false},
                                  {"col.judged", 14, false}, {"col.note", 23, false}};
    if (rec->job->n_practice == 0)
        return;
    mf_subhead(rec, "practices");
    mf_rows(rec, cols, 6, rec->job->n_practice, practice_row, NULL);
}

void mf_record_areas(mf_rec *rec)
{
    mf_section(rec, "areas");
    if (rec->job->n_area == 0)
        mf_none(rec, "no-areas");
    for (size_t i = 0; i < rec->job->n_area; i++) {
        const mf_area *area = &rec->job->area[i];
        mf_page_heading(&rec->page, MF_ST_HEAD, mf_area_words(rec, area));
        area_facts(rec, area);
        if (!mf_area_off_line(rec, area))
            mf_plan_draw(rec, area, 175);
        mf_steps_table(rec, area, (1U << MF_PHASE_CONTAIN) | (1U << MF_PHASE_WORK));
    }
    practices(rec);
}
