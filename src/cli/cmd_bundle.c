/* job bundle: what an inspector takes along and checks with stock tools. */
#include "base/fail.h"
#include "base/file.h"
#include "cli/bundle.h"
#include "cli/compare.h"
#include "cli/pick.h"

#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef struct bundle {
    mf_cli *cli;
    mf_job *job;
    mf_book_report checked;
    mf_entries entries;
    mf_pack *pack;
    mf_bytes record;
    size_t attachments;
    mf_err altered; /* what is wrong with the book; the summary says that something is */
} bundle;

/* ---- the record ---------------------------------------------------------------------------- */

static const mf_sealed *sealed_as(const mf_job *job, const char *sha256)
{
    for (size_t i = 0; i < job->n_sealed; i++)
        if (strcmp(job->sealed[i].sha256, sha256) == 0)
            return &job->sealed[i];
    return NULL;
}

/* What the record holds must stand in the book, or the folder would contradict itself. */
static mf_status compare_record(bundle *b, const mf_seal_check *check, mf_err *err)
{
    mf_compared found = {.tell = NULL};
    mf_status status = mf_cli_compare(&found, b->cli, &b->record, check, err);
    if (status == MF_OK)
        status = mf_cli_contradicts(&found, err);
    if (status == MF_OK && mf_cli_uncompared(&found) != NULL)
        mf_cli_note(b->cli, "%s", mf_cli_uncompared(&found));
    mf_cli_compared_free(&found);
    return status;
}

/* A record of another job, or one that was changed, has no place here. */
static mf_status read_record(bundle *b, const char *path, mf_err *err)
{
    mf_seal_check check = {0};
    char sha256[MF_FINGERPRINT_HEX];
    mf_status status = mf_file_read(&b->record, path, MF_PAPER_FILE_MAX, err);
    if (status != MF_OK)
        return status;
    mf_sha256_hex(b->record.data, b->record.len, sha256);
    if (sealed_as(b->job, sha256) == NULL)
        return mf_failf(err, MF_INPUT, path, "the book notes the SHA-256 of each record it seals",
                        "give the file that \"paper record --key\" wrote, or seal a new one",
                        "no entry of job %.40s says that this file was sealed", b->job->id);
    status = mf_cli_verify(&check, &b->record, err);
    if (status == MF_NO && err != NULL)
        err->status = status = MF_INPUT;
    if (status == MF_OK)
        status = compare_record(b, &check, err);
    return status == MF_NO ? mf_cli_at(err, path) : status;
}

/* ---- the summary ------------------------------------------------------------------------------
 */

static bool house_held(const bundle *b)
{
    return mf_entries_hold(&b->entries, &b->job->house[0].src);
}

static void add_house(mf_buf *out, const mf_house *house)
{
    char start[MF_DAY_TEXT];
    mf_day_text(house->start, start);
    mf_buf_printf(out, "address      %s%s%s\n", house->address, house->unit[0] ? ", " : "",
                  house->unit);
    if (house->year_built != MF_NUM_NONE)
        mf_buf_printf(out, "built        %" PRId64 "\n", house->year_built);
    mf_buf_printf(out, "work         %s\nstart        %s\n", house->description, start);
}

static void add_job(mf_buf *out, const bundle *b)
{
    char end[MF_DAY_TEXT];
    const mf_job *job = b->job;
    mf_buf_printf(out, "job          %s\n", job->id);
    if (house_held(b)) /* what its entry does not tell here no other text does */
        mf_buf_printf(out, "address, year built, work and start\n             %s\n",
                      mf_cli_word(b->cli, "bundle.withheld"));
    else
        add_house(out, &job->house[0]);
    if (job->n_completion > 0) {
        mf_day_text(job->completion[job->n_completion - 1].on, end);
        mf_buf_printf(out, "completed    %s\n", end);
    }
    mf_buf_printf(out,
                  "openings     %zu, with %zu components and %zu readings\n"
                  "work areas   %zu, with %zu surfaces\n",
                  job->n_opening, job->n_component, job->n_reading, job->n_area, job->n_surface);
}

static void add_lacking(mf_buf *out, const bundle *b, const mf_finding *found, size_t n)
{
    for (size_t i = 0; i < n; i++) {
        const mf_requirement *req = found[i].requirement;
        const char *words = mf_words2(b->cli->lang, "req", req->id);
        if (found[i].verdict == MF_LACKING || found[i].verdict == MF_PENDING)
            mf_buf_printf(out, "    %s: %s (%s)\n", mf_verdict_name(found[i].verdict),
                          words == NULL ? req->id : words, req->citation);
    }
}

static void add_gate(mf_buf *out, const bundle *b, mf_gate gate)
{
    char word[MF_ANSWER_TEXT];
    mf_gate_found answer;
    if (!mf_gate_answer(b->cli, b->job, gate, &answer)) {
        out->failed = true; /* no answer is not "no" */
        return;
    }
    mf_gate_say(b->cli, &answer, word);
    mf_buf_printf(out, "%s  %s\n", mf_gate_question(b->cli, gate), word);
    add_lacking(out, b, answer.found, answer.n);
    free(answer.found);
}

/* Which record lies beside it, so that one that is taken out is missed. */
static void add_record(mf_buf *out, const bundle *b)
{
    char sha256[MF_FINGERPRINT_HEX];
    if (b->record.data == NULL) {
        mf_buf_text(out, "record       none\n");
        return;
    }
    mf_sha256_hex(b->record.data, b->record.len, sha256);
    mf_buf_printf(out, "record       %s\n", sha256);
}

static void add_integrity(mf_buf *out, const bundle *b)
{
    const mf_book_report *r = &b->checked;
    mf_buf_printf(out,
                  "checked now  %" PRId64 " entries (the whole book), %" PRId64 " faults\n"
                  "head         %s\n",
                  r->entries, r->faults, r->head);
    if (r->adopted > 0)
        mf_buf_printf(out, "contradicted %s\n", r->adopted_first);
}

static mf_status add_summary(bundle *b, mf_err *err)
{
    mf_buf out = {0};
    char today[MF_DAY_TEXT];
    mf_day_text(b->cli->today, today);
    mf_buf_printf(&out, "As of %s, written %s.\n\n", today, b->cli->at);
    add_job(&out, b);
    mf_buf_printf(&out, "entries      %zu here, %zu left out\nattachments  %zu\n", b->entries.n,
                  b->entries.n_withheld, b->attachments);
    add_record(&out, b);
    add_integrity(&out, b);
    mf_buf_text(&out, "\n");
    for (int gate = 0; gate < MF_GATE_COUNT; gate++)
        add_gate(&out, b, (mf_gate)gate);
    mf_buf_printf(&out, "\n%s\n", mf_cli_word(b->cli, "caution.short"));
    return mf_pack_take(b->pack, "summary.txt", &out, err);
}

/* ---- attachments and heads
 * ----------------------------------------------------------------------- */

static const char *ending(mf_media media)
{
    static const char *const endings[] = {"jpg", "png", "pdf"};
    return endings[media];
}

static bool packed_before(const bundle *b, size_t index)
{
    const mf_attachment *all = b->job->attachment;
    for (size_t i = 0; i < index; i++)
        if (strcmp(all[i].sha256, all[index].sha256) == 0 &&
            !mf_entries_hold(&b->entries, &all[i].src))
            return true;
    return false;
}

static mf_status add_attachment(bundle *b, const mf_attachment *it, mf_err *err)
{
    char name[120];
    mf_bytes bytes = {0};
    snprintf(name, sizeof name, "attachments/%s.%s", it->sha256, ending(it->media));
    mf_status status = mf_book_attached(b->cli->book, it->sha256, &bytes, err);
    if (status == MF_OK)
        status = mf_pack_add(b->pack, name, bytes.data, bytes.len, err);
    mf_bytes_free(&bytes);
    b->attachments++;
    return status;
}

static mf_status add_attachments(bundle *b, mf_err *err)
{
    mf_buf list = {0};
    mf_status status = MF_OK;
    for (size_t i = 0; status == MF_OK && i < b->job->n_attachment; i++) {
        const mf_attachment *it = &b->job->attachment[i];
        if (mf_entries_hold(&b->entries, &it->src))
            continue;
        mf_buf_printf(&list, "%s.%s\n    entry %s, about %s, %" PRId64 " bytes, \"%s\"%s%s\n",
                      it->sha256, ending(it->media), it->src.entry,
                      it->about[0] ? it->about : "the job", it->size, it->name,
                      it->note[0] ? ": " : "", it->note);
        if (!packed_before(b, i))
            status = add_attachment(b, it, err);
    }
    if (status == MF_OK)
        return mf_pack_take(b->pack, "attachments.txt", &list, err);
    mf_buf_free(&list);
    return status;
}

static bool add_head(const char *device, int64_t seq, const char *hash, void *data)
{
    mf_buf_printf(data, "%s %" PRId64 " %s\n", device, seq, hash);
    return true;
}

static mf_status add_heads(bundle *b, mf_err *err)
{
    mf_buf out = {0};
    mf_buf_printf(&out, "# head of the book: %s\n", b->checked.head);
    mf_status status = mf_book_heads(b->cli->book, add_head, &out, err);
    if (status == MF_OK)
        return mf_pack_take(b->pack, "heads.txt", &out, err);
    mf_buf_free(&out);
    return status;
}

/* ---- the whole ---------------------------------------------------------------------------------
 */

/* The whole book, which is checked once for however many bundles. */
static mf_status look(bundle *b, const mf_bundle_look *before, mf_err *err)
{
    mf_bundle_look now = {.status = MF_OK};
    if (before == NULL) {
        mf_status status = mf_bundle_look_now(b->cli, &now, err);
        if (status != MF_OK)
            return status;
        before = &now;
    }
    b->checked = before->report;
    b->altered = before->altered;
    b->job->integrity = before->status == MF_OK ? MF_INTEGRITY_GOOD : MF_INTEGRITY_BROKEN;
    return MF_OK;
}

static mf_status load(bundle *b, const mf_bundle_ask *ask, mf_err *err)
{
    mf_status status = mf_cli_job(b->cli, ask->job, &b->job, err);
    if (status == MF_OK)
        status = look(b, ask->look, err);
    if (status == MF_OK && ask->record != NULL)
        status = read_record(b, ask->record, err);
    return status == MF_OK ? mf_entries_read(&b->entries, b->cli, b->job, ask->hide, err) : status;
}

static mf_status add_script(bundle *b, mf_err *err)
{
    mf_buf script = {0};
    mf_bundle_verify(&script);
    return mf_pack_take(b->pack, "verify.sh", &script, err);
}

static mf_status add_all(bundle *b, mf_err *err)
{
    mf_entries *e = &b->entries;
    mf_status status =
        mf_pack_add(b->pack, "README.txt", mf_bundle_readme, strlen(mf_bundle_readme), err);
    if (status == MF_OK)
        status = add_script(b, err);
    if (status == MF_OK && b->record.data != NULL)
        status = mf_pack_add(b->pack, "record.pdf", b->record.data, b->record.len, err);
    if (status == MF_OK)
        status = mf_pack_take(b->pack, "entries.jsonl", &e->lines, err);
    if (status == MF_OK)
        status = mf_pack_take(b->pack, "entries.sha256", &e->hashes, err);
    if (status == MF_OK)
        status = mf_pack_take(b->pack, "withheld.txt", &e->withheld, err);
    if (status == MF_OK)
        status = add_attachments(b, err);
    if (status == MF_OK)
        status = add_heads(b, err);
    if (status == MF_OK)
        status = add_summary(b, err);
    return status == MF_OK ? mf_pack_finish(b->pack, err) : status;
}

mf_status mf_bundle_look_now(mf_cli *cli, mf_bundle_look *out, mf_err *err)
{
    *out = (mf_bundle_look){.status = mf_cli_book(cli, err)};
    if (out->status != MF_OK)
        return out->status;
    out->status = mf_book_check(cli->book, &out->report, &out->altered);
    if (out->status == MF_OK || out->status == MF_NO)
        return MF_OK;
    *err = out->altered;
    return out->status;
}

mf_status mf_bundle_make(mf_cli *cli, const mf_bundle_ask *ask, mf_bundle_made *out, mf_err *err)
{
    bundle b = {.cli = cli};
    mf_status status = load(&b, ask, err);
    if (status == MF_OK)
        status = mf_pack_new(&b.pack, ask->path, ask->zip, cli->seconds, err);
    if (status == MF_OK)
        status = add_all(&b, err);
    *out = (mf_bundle_made){b.entries.n,
                            b.entries.n_withheld,
                            b.attachments,
                            b.record.data != NULL,
                            status == MF_OK && house_held(&b),
                            b.altered};
    mf_pack_free(b.pack);
    mf_entries_free(&b.entries);
    mf_bytes_free(&b.record);
    mf_book_job_free(b.job);
    return status;
}

static void say_written(const mf_cli *cli, const mf_bundle_made *made, const char *path)
{
    if (cli->json) {
        printf("{\"entries\": %zu, \"withheld\": %zu, \"attachments\": %zu, \"record\": %s}\n",
               made->entries, made->withheld, made->attachments, made->record ? "true" : "false");
        return;
    }
    printf("wrote %s: %zu entries, %zu left out, %zu attachments, %s\n"
           "whoever gets it checks it with: sh verify.sh\n",
           path, made->entries, made->withheld, made->attachments,
           made->record ? "with the sealed record"
                        : "without a sealed record (give it with --record)");
}

/* What goes together, and what is of one job or of many. */
static mf_status check_options(const mf_args *args, mf_err *err)
{
    const char *record = mf_args_value(args, "record"), *records = mf_args_value(args, "records");
    bool hide = mf_args_value(args, "without-occupants") != NULL, one = args->n_words > 0;
    if (hide && (record != NULL || records != NULL))
        return mf_fail(err, MF_USAGE, "--without-occupants",
                       "the record names the occupants, and a sealed paper cannot be blackened",
                       "what is taken out of it breaks its seal",
                       "leave out one of --record and --without-occupants");
    if (one && (records != NULL || mf_pick_asked(args)))
        return mf_fail(err, MF_USAGE, "--state, --since, --until, --records",
                       "they are of all jobs, and one is named", "",
                       "leave out the job, or the option");
    if (!one && record != NULL)
        return mf_fail(err, MF_USAGE, "--record", "it is the record of one job, and none is named",
                       "", "name the job, or give a folder of records with --records");
    return MF_OK;
}

static mf_status one_bundle(mf_cli *cli, const mf_args *args, mf_err *err)
{
    mf_bundle_made made = {0};
    const mf_bundle_ask ask = {args->word[0],
                               mf_args_value(args, "out"),
                               mf_args_value(args, "record"),
                               mf_args_value(args, "zip") != NULL,
                               mf_args_value(args, "without-occupants") != NULL,
                               NULL};
    mf_status status = mf_bundle_make(cli, &ask, &made, err);
    if (status == MF_OK)
        say_written(cli, &made, ask.path);
    return mf_cli_made(status, &made.altered, err);
}

mf_status mf_cmd_bundle(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    (void)cmd;
    mf_status status = check_options(args, &err);
    if (status == MF_OK)
        status = args->n_words > 0 ? one_bundle(cli, args, &err) : mf_bundle_all(cli, args, &err);
    return status == MF_OK ? MF_OK : mf_cli_fail(&err);
}
