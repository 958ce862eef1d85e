/* Assisted housing, stricter limits and emergencies for the job of fixture_job.h. */
#include "support/fixture_job.h"

#include <mistfold/contain.h>
#include <mistfold/kind.h>
#include <mistfold/place.h>
#include <stdlib.h>
#include <string.h>

#define SRC(id)                                                                                    \
    {                                                                                              \
        id, "", "rosa", ""                                                                         \
    }

static void must(bool holds)
{
    if (!holds)
        abort();
}

/* The sign of 24 CFR 35.1345(b)(2), posted with the others. */
static void warn(fixture *fx, const char *area)
{
    must(fx->job.n_tick < FX_TICKS);
    fx->tick[fx->job.n_tick] = *fx_tick(fx, area, "signs");
    fx->tick[fx->job.n_tick].src.entry = "t/2";
    fx->tick[fx->job.n_tick++].step = "signs-assisted";
}

/* The inspector who samples the area looks it over as well. */
static void look(fixture *fx, const char *area)
{
    fx_add_verification(fx, (mf_verification){.src = SRC("v/8"),
                                              .area = area,
                                              .surface = "",
                                              .event = MF_VER_LOOK_CLEAN,
                                              .person = "ines",
                                              .on = fx_day("2026-09-16"),
                                              .at_minute = 700});
}

void fx_times(fixture *fx)
{
    static const int at[] = {
        [MF_PHASE_CONTAIN] = 420, [MF_PHASE_WORK] = 470, [MF_PHASE_CLEAN] = 480};
    for (size_t i = 0; i < fx->job.n_tick; i++)
        fx->tick[i].at_minute = at[mf_step_named(fx->tick[i].step)->phase];
    for (size_t i = 0; i < fx->job.n_practice; i++) {
        fx->practice[i].began_minute = 430;
        fx->practice[i].at_minute = 465;
    }
    fx->kit_test[0].at_minute = fx->chip[0].at_minute = MF_MINUTE_NONE;
    fx->determination[0].at_minute = MF_MINUTE_NONE;
}

void fx_sample_outside(fixture *fx, const char *area, const char *place)
{
    mf_dust_sample sample = fx->dust_sample[0];
    sample.src.entry = "ds/4";
    sample.area = area;
    sample.place = place;
    sample.loading_ng_ft2 = 1000;
    sample.outside_ft_100 = 300;
    fx_add_sample(fx, sample);
}

/* By hand: what it says of wet or dry would have to be known here. */
void fx_assisted(fixture *fx)
{
    fx_good(fx);
    fx->house.assisted = MF_YES;
    fx->chip[0].sampler = "ines"; /* an inspector's testing, 24 CFR 35.110 */
    fx->determination[fx->job.n_determination] = fx->determination[0]; /* of what she tested */
    fx->determination[fx->job.n_determination].src.entry = "d/2";
    fx->determination[fx->job.n_determination].method = "";
    fx->determination[fx->job.n_determination++].component = "";
    for (size_t i = 0; i < fx->job.n_practice; i++)
        fx->practice[i].method = MF_METHOD_DEMOLITION;
    static const char *const places[] = {"kitchen floor", "W01 sill", "W01 trough"};
    for (size_t i = 0; i < 3; i++) {
        mf_dust_sample kitchen = fx->dust_sample[i];
        kitchen.area = "A1";
        kitchen.place = places[i];
        fx_add_sample(fx, kitchen);
    }
    fx_sample_outside(fx, "A1", "hall by the kitchen");
    for (size_t i = 0; i < fx->job.n_area; i++)
        warn(fx, fx->area[i].id);
    look(fx, "A3");
    look(fx, "A1");
    look(fx, "A2");
    fx->job.n_occupancy = 1;
    fx->occupancy[0] = (mf_occupancy){.src = SRC("oc/1"),
                                      .stay = MF_STAY_RELOCATED,
                                      .kept_out = MF_YES,
                                      .from = fx_day("2026-09-14"),
                                      .until = fx_day("2026-09-16"),
                                      .minutes = MF_NUM_NONE,
                                      .margin_ft_100 = MF_NUM_NONE};
}

void fx_assisted_repair(fixture *fx)
{
    fx_assisted(fx);
    fx->house.work = "repair";
    fx->chip[fx->job.n_chip = 0].sampler = "rosa";
    fx->job.n_determination = fx->job.n_reading = fx->job.n_kit_test = 0;
    for (size_t i = 0; i < fx->job.n_component; i++) {
        fx->component[i].type = MF_COMP_WALL;
        fx->component[i].disturbed_sqft_100 = 0;
        fx->component[i].whole_sqft_100 = MF_NUM_NONE;
    }
}

void fx_assisted_minor(fixture *fx)
{
    fx_assisted(fx);
    fx->house.work = "repair";
    for (size_t i = 0; i < fx->job.n_practice; i++) {
        fx->practice[i].method = MF_METHOD_STRIPPER;
        fx->practice[i].ventilated = MF_YES;
    }
    for (size_t i = 0; i < fx->job.n_component; i++) {
        fx->component[i].disturbed_sqft_100 = 400;
        fx->component[i].removed = MF_NOT;
    }
    fx->component[3].disturbed_sqft_100 = 100; /* with the sash 5 in the kitchen */
}

mf_local_limit *fx_add_local(fixture *fx, mf_limit_id id, mf_local_cmp comparison,
                             const char *value)
{
    must(fx->job.n_local_limit < FX_FEW);
    mf_local_limit *it = &fx->local_limit[fx->job.n_local_limit++];
    *it = (mf_local_limit){.src = SRC("ll/1"),
                           .row = {.id = id,
                                   .from = MF_DAY_NONE,
                                   .until = MF_DAY_NONE,
                                   .place = "US-XX",
                                   .citation = "Invented Code 1.2",
                                   .status = MF_VERIFIED,
                                   .note = ""},
                           .comparison = comparison,
                           .value = value,
                           .built_before = MF_NUM_NONE};
    mf_local_limit_fill(it);
    fx->house.place = "US-XX";
    return it;
}

void fx_add_emergency(fixture *fx, mf_cause cause, const char *waived, const char *reason)
{
    must(fx->job.n_emergency < FX_FEW);
    fx->house.emergency = MF_YES;
    fx->emergency[fx->job.n_emergency++] = (mf_emergency){.src = SRC("em/1"),
                                                          .nature = "a storm broke both windows",
                                                          .on = fx_day("2026-09-14"),
                                                          .cause = cause,
                                                          .waived = waived,
                                                          .reason = reason,
                                                          .until = MF_DAY_NONE,
                                                          .blood_lead_100 = MF_NUM_NONE};
}

/* ---- adding -------------------------------------------------------------------- */

void fx_add_verification(fixture *fx, mf_verification event)
{
    must(fx->job.n_verification < FX_FEW);
    fx->verification[fx->job.n_verification++] = event;
}

void fx_add_sample(fixture *fx, mf_dust_sample sample)
{
    must(fx->job.n_dust_sample < FX_FEW);
    fx->dust_sample[fx->job.n_dust_sample++] = sample;
}

/* ---- finding and dropping ------------------------------------------------------ */

mf_tick *fx_tick(fixture *fx, const char *where, const char *step)
{
    for (size_t i = 0; i < fx->job.n_tick; i++) {
        if (strcmp(fx->tick[i].area, where) == 0 && strcmp(fx->tick[i].step, step) == 0)
            return &fx->tick[i];
    }
    abort();
}

mf_verification *fx_look(fixture *fx, const char *where)
{
    for (size_t i = 0; i < fx->job.n_verification; i++) {
        if (strcmp(fx->verification[i].area, where) == 0 &&
            fx->verification[i].event == MF_VER_LOOK_CLEAN)
            return &fx->verification[i];
    }
    abort();
}

mf_party *fx_party(fixture *fx, const char *id)
{
    for (size_t i = 0; i < fx->job.n_party; i++) {
        if (strcmp(fx->party[i].id, id) == 0)
            return &fx->party[i];
    }
    abort();
}

mf_notice *fx_notice(fixture *fx, const char *party)
{
    for (size_t i = 0; i < fx->job.n_notice; i++) {
        if (strcmp(fx->notice[i].party, party) == 0)
            return &fx->notice[i];
    }
    abort();
}

void fx_drop_party(fixture *fx, const char *id)
{
    *fx_party(fx, id) = fx->party[fx->job.n_party - 1];
    fx->job.n_party--;
}

void fx_drop_handover(fixture *fx, const char *party)
{
    size_t kept = 0;
    for (size_t i = 0; i < fx->job.n_handover; i++) {
        if (strcmp(fx->handover[i].party, party) != 0)
            fx->handover[kept++] = fx->handover[i];
    }
    must(kept < fx->job.n_handover);
    fx->job.n_handover = kept;
}

/* ---- for the papers ------------------------------------------------------------------ */

static void fill_texts(mf_job *job, const mf_kind *kind)
{
    static const char *const no_text = "";
    unsigned char *list;
    size_t n;
    memcpy(&list, (unsigned char *)job + kind->list_offset, sizeof list);
    memcpy(&n, (unsigned char *)job + kind->list_offset + sizeof list, sizeof n);
    for (size_t i = 0; i < n; i++)
        for (size_t k = 0; k < kind->n_fields; k++) {
            const mf_field *field = &kind->fields[k];
            unsigned char *at = list + i * kind->size + field->offset;
            const char *text;
            if (field->type != MF_F_TEXT && field->type != MF_F_ID && field->type != MF_F_IDS)
                continue;
            memcpy(&text, at, sizeof text);
            if (text == NULL)
                memcpy(at, &no_text, sizeof no_text);
        }
}

void fx_texts(fixture *fx)
{
    size_t n;
    const mf_kind *kinds = mf_kinds(&n);
    for (size_t i = 0; i < n; i++)
        fill_texts(&fx->job, &kinds[i]);
}

void fx_copies(fixture *fx)
{
    static const char *const of[] = {"c/2", "c/3"};
    for (size_t i = 0; i < sizeof of / sizeof of[0]; i++)
        fx->attachment[fx->job.n_attachment++] = (mf_attachment){.src = SRC("at/1"),
                                                                 .about = of[i],
                                                                 .sha256 = "",
                                                                 .media = MF_MEDIA_PDF,
                                                                 .size = 1000,
                                                                 .name = "certificate.pdf",
                                                                 .note = ""};
}
