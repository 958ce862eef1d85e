/* hold.c - the entries that are held, and the job they make. */
#include "base/fail.h"
#include "field/page.h"
#include "field/sha256.h"
#include "journal/earlier.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { FIRM, JOB };

static bool copy_line(mf_arena *arena, mf_line *out, const mf_line *line)
{
    *out = (mf_line){.device = mf_arena_text(arena, line->device),
                     .seq = line->seq,
                     .at = mf_arena_text(arena, line->at),
                     .who = mf_arena_text(arena, line->who),
                     .kind = mf_arena_text(arena, line->kind),
                     .job = mf_arena_text(arena, line->job),
                     .body = mf_arena_text(arena, line->body),
                     .prev = mf_arena_text(arena, line->prev),
                     .hash = mf_arena_text(arena, line->hash)};
    return out->device != NULL && out->at != NULL && out->who != NULL && out->kind != NULL &&
           out->job != NULL && out->body != NULL && out->prev != NULL && out->hash != NULL;
}

mf_status mf_field_hold(mf_field_page *page, const mf_line *line, bool own, mf_err *err)
{
    char id[MF_ENTRY_ID];
    mf_field_line *grown = mf_grown(page->at, page->n, &page->cap, sizeof *grown);
    if (grown == NULL)
        return mf_fail_memory(err);
    page->at = grown;
    grown += page->n;
    mf_line_id(line, id);
    grown->own = own;
    grown->id = mf_arena_text(&page->arena, id);
    if (grown->id == NULL || !copy_line(&page->arena, &grown->line, line))
        return mf_fail_memory(err);
    page->n++;
    return MF_OK;
}

const mf_field_line *mf_field_held(const mf_field_page *page, const char *id)
{
    for (size_t i = 0; i < page->n; i++)
        if (strcmp(page->at[i].id, id) == 0)
            return &page->at[i];
    return NULL;
}

const mf_field_line *mf_field_last(const mf_field_page *page)
{
    for (size_t i = page->n; i > 0; i--)
        if (page->at[i - 1].own)
            return &page->at[i - 1];
    return NULL;
}

size_t mf_field_count_own(const mf_field_page *page)
{
    size_t n = 0;
    for (size_t i = 0; i < page->n; i++)
        n += page->at[i].own;
    return n;
}

mf_status mf_field_keep(mf_field_page *page, const char sha256[MF_HASH_HEX], const void *bytes,
                        size_t len, mf_err *err)
{
    mf_field_content *grown =
        mf_grown(page->content, page->n_content, &page->cap_content, sizeof *grown);
    if (grown == NULL)
        return mf_fail_memory(err);
    page->content = grown;
    grown += page->n_content;
    grown->bytes.data = malloc(len + 1);
    if (grown->bytes.data == NULL)
        return mf_fail_memory(err);
    memcpy(grown->bytes.data, bytes, len);
    grown->bytes.len = len;
    mf_hash_copy(grown->sha256, sha256);
    page->n_content++;
    return MF_OK;
}

void mf_field_drop(mf_field_page *page)
{
    mf_field_forget(page);
    for (size_t i = 0; i < page->n_content; i++)
        mf_bytes_free(&page->content[i].bytes);
    free(page->content);
    free(page->at);
    mf_arena_free(&page->arena);
    page->content = NULL;
    page->at = NULL;
    page->n = page->cap = page->n_content = page->cap_content = 0;
    page->job = NULL;
    page->device[0] = '\0';
    page->sent = 0;
    page->cut = false;
}

mf_status mf_field_head(const mf_field_page *page, char out[MF_HASH_HEX], mf_err *err)
{
    mf_entries_heads heads = {0};
    mf_buf text = {0};
    bool good = true;
    for (size_t i = 0; good && i < page->n; i++)
        good = mf_entries_head_note(&heads, &page->at[i].line);
    mf_entries_heads_sort(heads.at, heads.n);
    for (size_t i = 0; i < heads.n; i++)
        mf_buf_printf(&text, "%s %s\n", heads.at[i].device, heads.at[i].hash);
    mf_field_sha256(mf_buf_str(&text), text.len, out);
    good = good && !text.failed;
    mf_buf_free(&text);
    free(heads.at);
    return good ? MF_OK : mf_fail_memory(err);
}

/* ---- the job ----------------------------------------------------------------------------- */

static mf_status add_lines(const mf_field_page *page, mf_job_fold *fold, mf_err *err)
{
    mf_status status = MF_OK;
    for (size_t i = 0; status == MF_OK && i < page->n; i++)
        status = mf_job_fold_add(fold, &page->at[i].line, err);
    return status;
}

/* Whether it is the first line of a job other than the one that is loaded. */
static bool begins_other(const mf_field_page *page, size_t at)
{
    const char *job = page->at[at].line.job;
    if (job[0] == '\0' || strcmp(job, page->job) == 0)
        return false;
    for (size_t i = 0; i < at; i++)
        if (strcmp(page->at[i].line.job, job) == 0)
            return false;
    return true;
}

static mf_status add_other(const mf_field_page *page, mf_earliers *all, const char *job,
                           mf_err *err)
{
    mf_job_fold *fold = mf_job_fold_new(job, mf_earlier_wants);
    if (fold == NULL)
        return mf_fail_memory(err);
    mf_status status = add_lines(page, fold, err);
    if (status == MF_OK)
        status = mf_earlier_add(all, fold, err);
    mf_job_fold_free(fold);
    return status;
}

static mf_status add_earlier(const mf_field_page *page, mf_job_fold *fold, mf_err *err)
{
    mf_earliers all = {.to = fold};
    mf_status status = MF_OK;
    if (fold->job.n_house == 0)
        return MF_OK;
    for (size_t i = 0; status == MF_OK && i < page->n; i++)
        if (begins_other(page, i))
            status = add_other(page, &all, page->at[i].line.job, err);
    return mf_earlier_end(&all, status, err);
}

/* The clock of the phone: the house is where it is. */
static mf_clock clock_of(const mf_field_page *page)
{
    enum { DAY = MF_DAY_TEXT - 1, A_DAY = 24 * 60 };
    const char *at = mf_field_text(page, "at");
    char day[MF_DAY_TEXT], time[MF_MINUTE_TEXT];
    if (strlen(at) < DAY + MF_MINUTE_TEXT)
        return (mf_clock){.at = NULL};
    snprintf(day, sizeof day, "%.10s", at);
    snprintf(time, sizeof time, "%.5s", at + DAY + 1);
    int64_t days = (int64_t)page->today - mf_day_parse(day, NULL);
    return (mf_clock){at, days * A_DAY + page->minute - mf_minute_parse(time)};
}

mf_status mf_field_job(const mf_field_page *page, mf_day until, mf_job_fold **out, size_t *left_out,
                       mf_err *err)
{
    size_t later = 0;
    mf_job_fold *fold = *out = mf_job_fold_new(page->job, NULL);
    if (fold == NULL)
        return mf_fail_memory(err);
    fold->job.clock = clock_of(page);
    mf_status status = add_lines(page, fold, err);
    if (status == MF_OK)
        status = mf_job_fold_finish(fold, err);
    if (status == MF_OK)
        status = add_earlier(page, fold, err);
    if (status == MF_OK && until != MF_DAY_NONE)
        status = mf_job_fold_until(fold, until, &later, err);
    if (left_out != NULL)
        *left_out = later;
    if (status == MF_OK)
        return MF_OK;
    mf_job_fold_free(fold);
    *out = NULL;
    return status;
}

/* ---- what a draft is checked against ------------------------------------------------------- */

static mf_status known(const mf_job_fold **out, void *data, const char *job, mf_err *err)
{
    mf_field_page *page = data;
    mf_job_fold **kept = &page->known[job[0] == '\0' ? FIRM : JOB];
    mf_status status = MF_OK;
    if (*kept == NULL) {
        *kept = mf_job_fold_new(job, NULL);
        status = *kept == NULL ? mf_fail_memory(err) : add_lines(page, *kept, err);
        if (status == MF_OK)
            status = mf_job_fold_correct(*kept, err);
    }
    *out = *kept;
    return status;
}

mf_folds mf_field_folds(mf_field_page *page)
{
    return (mf_folds){known, page};
}

void mf_field_forget(mf_field_page *page)
{
    for (int i = FIRM; i <= JOB; i++) {
        mf_job_fold_free(page->known[i]);
        page->known[i] = NULL;
    }
}
