/* Each work area with its containment list as ticked, and the work practices. */
#include "paper/plan.h"
#include "paper/record.h"
#include "paper/steps.h"

#include <string.h>

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
    static const char *const exterior[] = {"openings",      "size",       "storeys",
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

static void practices(mf_rec *rec, const mf_area *area)
{
    static const mf_col cols[] = {{"col.method", 26, false},
                                  {"col.day", 11, false},
                                  {"col.person", 18, false},
                                  {"col.judged", 18, false},
                                  {"col.note", 27, false}};
    mf_table table = mf_table_of(rec, cols, 5);
    bool any = false;
    for (size_t i = 0; i < rec->job->n_practice; i++) {
        const mf_practice *used = &rec->job->practice[i];
        if (strcmp(used->area, area->id) != 0)
            continue;
        if (!any)
            mf_subhead(rec, "practices");
        any = true;
        bool bad = mf_practice_refused(rec->job, used);
        const char *method = mf_enum(rec, MF_FAM_METHOD, (int)used->method);
        if (used->method == MF_METHOD_HEAT_GUN && used->temp_f != MF_NUM_NONE)
            method = mf_join(rec, method, ", ", mf_number_words(rec, used->temp_f, MF_UNIT_DEG_F));
        if (used->method == MF_METHOD_MACHINE)
            method =
                mf_join(rec, method, ", ",
                        mf_phrase(rec, used->shroud_and_hepa == MF_YES ? "shroud" : "no-shroud"));
        const mf_cell cells[5] = {mf_traced(rec, mf_plain(method), &used->src),
                                  mf_plain(mf_day_words(rec, used->on)),
                                  mf_plain(mf_person_words(rec, used->person)),
                                  mf_marked(bad ? MF_MARK_CROSS : MF_MARK_TICK,
                                            mf_phrase(rec, bad ? "prohibited" : "permitted")),
                                  mf_plain(used->note)};
        mf_table_row(&table, cells);
    }
    if (any)
        mf_table_end(&table);
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
        mf_plan_draw(rec, area, 200);
        mf_takeoff_draw(rec, area);
        mf_steps_table(rec, area, (1U << MF_PHASE_CONTAIN) | (1U << MF_PHASE_WORK));
        practices(rec, area);
    }
}
