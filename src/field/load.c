/* load.c - what is taken in, and what is told of it: the job, its people, the banner. */
#include "base/fail.h"
#include "field/page.h"
#include "field/sha256.h"
#include <mistfold/person.h>

#include <stdio.h>
#include <string.h>

/* ---- taking in ------------------------------------------------------------------------- */

static mf_status take_part(mf_field_page *page, const mf_entries_reader *r, mf_entries_part part,
                           bool own, mf_err *err)
{
    if (part == MF_PART_CONTENT)
        return mf_field_keep(page, r->sha256, r->bytes.data, r->bytes.len, err);
    if (own && strcmp(r->line.device, page->device) != 0)
        return mf_failf(err, MF_INPUT, r->name, "", "take the page from the office again",
                        "it has an entry of %s, which was not made here", r->line.device);
    return mf_field_hold(page, &r->line, own, err);
}

static mf_status take_all(mf_field_page *page, mf_entries_reader *r, bool own, mf_err *err)
{
    mf_entries_part part = MF_PART_LINE;
    mf_status status = MF_OK;
    while (status == MF_OK && part != MF_PART_END) {
        status = mf_entries_file_next(r, &part, err);
        if (status == MF_OK && part != MF_PART_END)
            status = take_part(page, r, part, own, err);
    }
    return status;
}

static mf_status take_file(mf_field_page *page, mf_err *err)
{
    mf_entries_reader r = {0};
    mf_status status =
        mf_entries_file_begin(&r, "entries", page->bytes, page->len, &mf_field_hash, err);
    if (status == MF_OK)
        status = take_all(page, &r, false, err);
    if (status == MF_OK) {
        page->cut = r.cut;
        page->made = mf_arena_text(&page->arena, r.made);
        page->from = mf_arena_text(&page->arena, r.from);
        page->job = mf_arena_text(&page->arena, r.job);
        if (page->made == NULL || page->from == NULL || page->job == NULL)
            status = mf_fail_memory(err);
    }
    mf_entries_file_free(&r);
    return status;
}

mf_status mf_field_load(mf_field_page *page, json_t *out, mf_err *err)
{
    mf_field_drop(page);
    mf_status status = take_file(page, err);
    if (status == MF_OK)
        status = mf_field_show_job(page, out, err);
    if (status != MF_OK)
        mf_field_drop(page);
    return status;
}

/* Two that write under one name are a fork, which no book takes in. */
mf_status mf_field_device(mf_field_page *page, json_t *out, mf_err *err)
{
    const char *name = mf_field_text(page, "device");
    bool used = !mf_is_device(name) || mf_field_count_own(page) > 0;
    for (size_t i = 0; i < page->n; i++)
        used = used || strcmp(page->at[i].line.device, name) == 0;
    if (used)
        return mf_failf(err, MF_INPUT, "device", "each install has a name of its own",
                        "draw another name", "the name %.40s cannot be this install's", name);
    snprintf(page->device, sizeof page->device, "%s", name);
    mf_field_put(out, "device", page->device);
    return MF_OK;
}

mf_status mf_field_again(mf_field_page *page, json_t *out, mf_err *err)
{
    mf_entries_reader r = {0};
    mf_buf text = {0};
    mf_entries_put_first(&text, page->made, "", page->job);
    mf_buf_add(&text, page->bytes, page->len);
    mf_status status = text.failed ? mf_fail_memory(err)
                                   : mf_entries_file_begin(&r, "this phone", mf_buf_str(&text),
                                                           text.len, &mf_field_hash, err);
    if (status == MF_OK)
        status = take_all(page, &r, true, err);
    if (status == MF_OK && text.len > 0 && mf_buf_str(&text)[text.len - 1] != '\n')
        status =
            mf_fail(err, MF_INPUT, "this phone", "the last entry kept here is not whole", "", "");
    mf_entries_file_free(&r);
    mf_buf_free(&text);
    return status == MF_OK ? mf_field_show_job(page, out, err) : status;
}

/* ---- telling ----------------------------------------------------------------------------------
 */

static json_t *people_of(const mf_field_page *page, const mf_job *job)
{
    json_t *all = json_array();
    for (size_t i = 0; i < job->n_person; i++) {
        const mf_person *it = &job->person[i];
        json_t *one = json_object();
        mf_field_put(one, "id", it->id);
        mf_field_put(one, "name", it->name);
        mf_field_put_is(one, "renovator",
                        mf_certified(job, it->id, MF_DISC_RENOVATOR, page->today, NULL) != NULL);
        json_array_append_new(all, one);
    }
    return all;
}

static json_t *areas_of(const mf_field_page *page, const mf_job *job)
{
    json_t *all = json_array();
    for (size_t i = 0; i < job->n_area; i++) {
        const mf_area *it = &job->area[i];
        json_t *one = json_object();
        mf_field_put(one, "id", it->id);
        mf_field_put(one, "place", it->place);
        mf_field_put(
            one, "side",
            mf_field_words(page, it->side == MF_SIDE_INTERIOR ? "side.interior" : "side.exterior"));
        json_array_append_new(all, one);
    }
    return all;
}

static int64_t not_sent(const mf_field_page *page)
{
    int64_t n = 0;
    for (size_t i = 0; i < page->n; i++)
        n += page->at[i].own && page->at[i].line.seq > page->sent;
    return n;
}

static void put_job(const mf_field_page *page, const mf_job *job, json_t *out)
{
    char day[MF_DAY_TEXT] = "";
    mf_field_put(out, "job", page->job);
    mf_field_put(out, "made", page->made);
    mf_field_put(out, "from", page->from);
    mf_field_put(out, "device", page->device);
    mf_field_put_is(out, "cut", page->cut);
    mf_field_put_number(out, "entries", (int64_t)(page->n - mf_field_count_own(page)));
    mf_field_put_number(out, "added", (int64_t)mf_field_count_own(page));
    mf_field_put_number(out, "unsent", not_sent(page));
    mf_field_put(out, "address", job->n_house == 0 ? "" : job->house[0].address);
    mf_field_put(out, "work", job->n_house == 0 ? "" : job->house[0].description);
    if (job->n_house > 0 && job->house[0].start != MF_DAY_NONE)
        mf_day_text(job->house[0].start, day);
    mf_field_put(out, "start", day);
    mf_field_put(out, "caution", mf_field_words(page, "caution.short"));
    json_object_set_new(out, "people", people_of(page, job));
    json_object_set_new(out, "areas", areas_of(page, job));
}

mf_status mf_field_show_job(mf_field_page *page, json_t *out, mf_err *err)
{
    char head[MF_HASH_HEX];
    mf_job_fold *fold = NULL;
    mf_status status = mf_field_head(page, head, err);
    if (status == MF_OK)
        status = mf_field_job(page, MF_DAY_NONE, &fold, NULL, err);
    if (status == MF_OK && fold->job.n_house == 0)
        status = mf_failf(err, MF_INPUT, "entries", "", "take the page from the office again",
                          "there is no job %.40s in it", page->job);
    if (status == MF_OK) {
        mf_field_put(out, "head", head);
        put_job(page, &fold->job, out);
    }
    mf_job_fold_free(fold);
    return status;
}
