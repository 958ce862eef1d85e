/* verify.c - cleaning verification: where each sill and section stands, what may follow now,
 * and how long the wait before a dry cloth still is. */
#include "field/page.h"
#include <mistfold/clean.h>
#include <mistfold/cleared.h>
#include <mistfold/place.h>

#include <stdio.h>
#include <string.h>

enum { DAY_MINUTES = 24 * 60 };

typedef struct may {
    mf_wipe_event event;
    mf_cloth cloth;
} may;

/* All that can be logged of a section, and of an area; what may be is core's to say. */
static const may wipes[] = {
    {MF_VER_WET_MATCH, MF_CLOTH_NEW},        {MF_VER_WET_DARKER, MF_CLOTH_NEW},
    {MF_VER_WET_MATCH, MF_CLOTH_FRESH_FOLD}, {MF_VER_WET_DARKER, MF_CLOTH_FRESH_FOLD},
    {MF_VER_RECLEANED, MF_CLOTH_NONE},       {MF_VER_SEEN_DRY, MF_CLOTH_NONE},
    {MF_VER_DRY_WIPE, MF_CLOTH_NEW}};
static const may looks[] = {{MF_VER_LOOK_CLEAN, MF_CLOTH_NONE}, {MF_VER_LOOK_DIRTY, MF_CLOTH_NONE}};

static const char *word(const char *field, int value)
{
    return mf_field_named(mf_kind_named("verification"), field)->choices[value];
}

static json_t *may_of(const mf_field_page *page, const may *it)
{
    char id[60];
    json_t *one = json_object();
    bool cloth = it->cloth != MF_CLOTH_NONE;
    const char *name = word("event", (int)it->event);
    snprintf(id, sizeof id, "field.event.%s%s%s", name, cloth ? "." : "",
             cloth ? word("cloth", (int)it->cloth) : "");
    mf_field_put(one, "event", name);
    mf_field_put(one, "cloth", cloth ? word("cloth", (int)it->cloth) : "");
    mf_field_put(one, "says", mf_field_words(page, id));
    return one;
}

/* What may be logged now. */
static json_t *may_follow(const mf_field_page *page, const mf_job *job, const may *all, size_t n,
                          mf_verification event)
{
    json_t *out = json_array();
    event.on = page->today;
    event.at_minute = page->minute;
    for (size_t i = 0; i < n; i++) {
        event.event = all[i].event;
        event.cloth = all[i].cloth;
        if (mf_verification_may(job, &event) == MF_VR_NONE)
            json_array_append_new(out, may_of(page, &all[i]));
    }
    return out;
}

static void put_minute(json_t *out, const char *name, int64_t when)
{
    char text[MF_MINUTE_TEXT];
    mf_minute_text((int32_t)(when % DAY_MINUTES), text);
    mf_field_put(out, name, text);
}

/* The hour runs from the cloth that was darker, whatever the phone did in between. */
static void put_wait(const mf_field_page *page, const mf_job *job, const mf_ver_section *at,
                     json_t *out)
{
    if (at->state != MF_VS_WAITING || at->wait_from == MF_NUM_NONE)
        return;
    const mf_limit *wait = mf_limit_for(job, MF_LIMIT_DRY_WAIT, page->today);
    int64_t until = at->wait_from + wait->value;
    int64_t left = until - ((int64_t)page->today * DAY_MINUTES + page->minute);
    json_t *one = json_object();
    put_minute(one, "from", at->wait_from);
    put_minute(one, "until", until);
    mf_field_put_number(one, "left", left > 0 ? left : 0);
    mf_field_put_number(one, "whole", wait->value);
    mf_field_put_is(one, "dry", at->dry_seen != MF_NUM_NONE);
    json_object_set_new(out, "wait", one);
}

static json_t *section_of(const mf_field_page *page, const mf_job *job, const mf_area *area,
                          const mf_surface *surface, int64_t section)
{
    mf_ver_section at;
    json_t *one = json_object();
    const mf_verification event = {.area = area->id, .surface = surface->id, .section = section};
    mf_verification_replay(job, area, surface, section, &at);
    mf_field_put(one, "surface", surface->id);
    mf_field_put(one, "place", surface->place);
    mf_field_put_number(one, "section", section);
    mf_field_put_number(one, "sections", mf_sections_of(job, surface));
    mf_field_put(one, "state", mf_ver_state_name(at.state));
    mf_field_put(one, "says", mf_words_ver_state(page->lang, at.state));
    mf_field_put_number(one, "wet", at.wet);
    mf_field_put_number(one, "dry", at.dry);
    mf_field_put(one, "refused",
                 at.refused == MF_VR_NONE ? "" : mf_words_refusal(page->lang, at.refused));
    put_wait(page, job, &at, one);
    json_object_set_new(one, "may",
                        may_follow(page, job, wipes, sizeof wipes / sizeof wipes[0], event));
    return one;
}

static json_t *sections_of(const mf_field_page *page, const mf_job *job, const mf_area *area)
{
    json_t *all = json_array();
    for (size_t i = 0; i < job->n_surface; i++) {
        const mf_surface *it = &job->surface[i];
        int64_t n = strcmp(it->area, area->id) == 0 ? mf_sections_of(job, it) : 0;
        for (int64_t k = 1; k <= n; k++)
            json_array_append_new(all, section_of(page, job, area, it, k));
    }
    return all;
}

/* As the question of the signs finds it: cloths by the wrong hands show nothing, and why is said.
 */
static void put_area(const mf_field_page *page, const mf_job *job, const mf_area *area, json_t *out)
{
    char why[MF_FIELD_SENTENCE] = "";
    mf_ver_area whole;
    const mf_verification look = {.area = area->id, .surface = ""};
    const mf_area_check check = mf_check_area(job, area, page->today);
    if (check.lacks)
        mf_words_asked(page->lang, &check.lacking, why, sizeof why);
    mf_verification_area(job, area, &whole);
    mf_field_put_is(out, "looked", whole.looked_clean);
    mf_field_put(out, "says", mf_words_cleared(page->lang, check.how));
    mf_field_put(out, "why", why);
    mf_field_put_is(out, "verified", check.how != MF_CLEARED_NOT);
    mf_field_put_number(out, "clean", (int64_t)whole.n_clean);
    json_object_set_new(out, "sections", sections_of(page, job, area));
    json_object_set_new(out, "look",
                        may_follow(page, job, looks, sizeof looks / sizeof looks[0], look));
}

mf_status mf_field_verify(mf_field_page *page, json_t *out, mf_err *err)
{
    mf_job_fold *fold = NULL;
    const mf_area *area = NULL;
    mf_status status = mf_field_job(page, page->today, &fold, NULL, err);
    if (status == MF_OK)
        status = mf_field_area(page, &fold->job, &area, err);
    if (status == MF_OK)
        put_area(page, &fold->job, area, out);
    mf_job_fold_free(fold);
    return status;
}
