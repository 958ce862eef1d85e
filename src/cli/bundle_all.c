/* bundle_all.c - job bundle without a job: what an inspector is shown of years of work. Each job
 * has a bundle of its own; an index says which jobs there are and how they stand. */
#define _XOPEN_SOURCE 700 /* nftw */
#include "base/digest.h"
#include "base/fail.h"
#include "base/file.h"
#include "cli/bundle.h"
#include "cli/pick.h"
#include "cli/record.h"

#include <dirent.h>
#include <errno.h>
#include <ftw.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

enum { PATH_ROOM = 1100 };

/* A paper that may be a sealed record of one of the jobs. */
typedef struct paper {
    char path[PATH_ROOM], sha256[MF_DIGEST_HEX];
} paper;

typedef struct all {
    mf_cli *cli;
    const char *out;
    bool zip, hide, made; /* made: the folder is ours */
    mf_bundle_look look;
    mf_index index;
    paper *papers;
    size_t n_papers, cap;
    mf_buf sums; /* INDEX.sha256 */
} all;

/* ---- sealed records, known by their hash whatever they are called ---------------------------- */

/* A pipe or a device would be waited for; a link may lead nowhere. */
static bool is_file(const mf_cli *cli, const char *path)
{
    struct stat st;
    if (stat(path, &st) == 0 && S_ISREG(st.st_mode))
        return true;
    mf_cli_note(cli, "%s is no file that can be read, and is passed over", path);
    return false;
}

static mf_status note_paper(all *a, const char *folder, const char *name, mf_err *err)
{
    mf_bytes bytes = {0};
    paper *grown = mf_grown(a->papers, a->n_papers, &a->cap, sizeof *grown);
    if (grown == NULL)
        return mf_fail_memory(err);
    a->papers = grown;
    paper *it = &a->papers[a->n_papers];
    if (snprintf(it->path, sizeof it->path, "%s/%s", folder, name) >= (int)sizeof it->path)
        return MF_OK; /* no name that we wrote */
    if (!is_file(a->cli, it->path))
        return MF_OK;
    mf_status status = mf_file_read(&bytes, it->path, MF_PAPER_FILE_MAX, err);
    if (status == MF_OK && !mf_digest_hex(bytes.data, bytes.len, it->sha256))
        status = mf_fail_memory(err);
    a->n_papers += status == MF_OK;
    mf_bytes_free(&bytes);
    return status;
}

static mf_status read_papers(all *a, const char *folder, mf_err *err)
{
    mf_status status = MF_OK;
    DIR *dir = folder == NULL ? NULL : opendir(folder);
    if (dir == NULL)
        return folder == NULL ? MF_OK : mf_file_fail(err, folder, "read", errno);
    /* cppcheck-suppress readdirCalled ; a stream of its own, which no other thread has */
    for (struct dirent *entry; status == MF_OK && (entry = readdir(dir)) != NULL;) {
        size_t len = strlen(entry->d_name);
        if (len > 4 && strcmp(entry->d_name + len - 4, ".pdf") == 0)
            status = note_paper(a, folder, entry->d_name, err);
    }
    closedir(dir);
    return status;
}

/* The record that was sealed last, of those that are there. */
static const char *record_of(const all *a, const mf_job *job)
{
    for (size_t i = job->n_sealed; i > 0; i--)
        for (size_t k = 0; k < a->n_papers; k++)
            if (strcmp(a->papers[k].sha256, job->sealed[i - 1].sha256) == 0)
                return a->papers[k].path;
    return NULL;
}

/* ---- the jobs -------------------------------------------------------------------------------- */

/* A no that is for the time alone; of what is completed also where something lacked, and of what
 * was called off for that alone. */
static const char *for_the_time(const mf_cli *cli, const mf_job *job, const mf_gate_found *found)
{
    bool out_of_time = false;
    for (size_t i = 0; i < found->n; i++) {
        if (strcmp(found->found[i].why, "job-called-off") == 0)
            return mf_cli_word(cli, "index.called-off");
        out_of_time = out_of_time || found->found[i].verdict == MF_NOT_NOW;
    }
    if (out_of_time && job->n_completion > 0)
        return mf_cli_word(cli, "index.over");
    return found->answer == MF_ANSWER_NOT_NOW ? mf_cli_word(cli, "index.ahead") : NULL;
}

static mf_status answer_row(const all *a, const mf_job *job, mf_index_row *row, mf_err *err)
{
    for (int gate = 0; gate < MF_GATE_COUNT; gate++) {
        char word[MF_ANSWER_TEXT];
        mf_gate_found found;
        if (!mf_gate_answer(a->cli, job, (mf_gate)gate, &found))
            return mf_fail_memory(err);
        mf_gate_say(a->cli, &found, word);
        const char *why = for_the_time(a->cli, job, &found);
        snprintf(row->answer[gate], sizeof row->answer[gate], why == NULL ? "%s" : "%s. %s", word,
                 why);
        free(found.found);
    }
    return MF_OK;
}

static void fill_row(const all *a, const mf_job *job, mf_index_row *row)
{
    const mf_house *house = &job->house[0];
    *row = (mf_index_row){.stage = mf_stage_of(job, a->cli->today)};
    snprintf(row->job, sizeof row->job, "%s", job->id);
    snprintf(row->address, sizeof row->address, "%.150s%s%.40s", house->address,
             house->unit[0] ? ", " : "", house->unit);
    mf_work_days(job, &row->from, &row->to);
}

/* What the bundle of the job does not tell of the house, the index does not: other entries say on
 * which days there was work. */
static void hold_house(const all *a, const mf_job *job, mf_index_row *row)
{
    mf_job others = *job;
    others.n_house = 0;
    mf_work_days(&others, &row->from, &row->to);
    snprintf(row->address, sizeof row->address, "%s", mf_cli_word(a->cli, "bundle.withheld"));
}

static mf_status one_job(mf_job *job, void *data, mf_err *err)
{
    all *a = data;
    mf_index_row *grown = mf_grown(a->index.row, a->index.n, &a->index.cap, sizeof *grown);
    if (grown == NULL)
        return mf_fail_memory(err);
    a->index.row = grown;
    mf_index_row *row = &a->index.row[a->index.n++];
    fill_row(a, job, row);
    job->integrity = a->look.status == MF_OK ? MF_INTEGRITY_GOOD : MF_INTEGRITY_BROKEN;
    mf_status status = answer_row(a, job, row, err);
    if (status == MF_OK)
        status = mf_pick_names_file(job->id, a->out, err);
    if (status != MF_OK)
        return status;
    char path[PATH_ROOM];
    mf_bundle_made made = {0};
    row->zip = a->zip;
    /* No job is called so that this could be the folder itself or a file beside it. */
    snprintf(row->folder, sizeof row->folder, "job-%s%s", job->id, a->zip ? ".zip" : "");
    snprintf(path, sizeof path, "%s/%s", a->out, row->folder);
    const mf_bundle_ask ask = {job->id, path, record_of(a, job), a->zip, a->hide, &a->look};
    status = mf_bundle_make(a->cli, &ask, &made, err);
    row->record = made.record;
    row->entries = made.entries;
    row->attachments = made.attachments;
    if (made.house_held)
        hold_house(a, job, row);
    return status;
}

/* ---- the index and its hashes ---------------------------------------------------------------- */

/* As sha256sum(1) writes it: of a folder its manifest, which has the hashes of the rest. */
static mf_status sum(all *a, const char *name, mf_err *err)
{
    char path[PATH_ROOM], hash[MF_DIGEST_HEX];
    mf_bytes bytes = {0};
    snprintf(path, sizeof path, "%s/%s", a->out, name);
    mf_status status = mf_file_read(&bytes, path, (size_t)2 << 30, err);
    if (status == MF_OK && !mf_digest_hex(bytes.data, bytes.len, hash))
        status = mf_fail_memory(err);
    if (status == MF_OK)
        mf_buf_printf(&a->sums, "%s  %s\n", hash, name);
    mf_bytes_free(&bytes);
    return status;
}

static mf_status put(all *a, const char *name, mf_buf *text, mf_err *err)
{
    char path[PATH_ROOM];
    snprintf(path, sizeof path, "%s/%s", a->out, name);
    mf_status status = text->failed
                           ? mf_fail_memory(err)
                           : mf_file_write_new(path, mf_buf_str(text), text->len, 0600, err);
    mf_buf_free(text);
    return status;
}

static mf_status write_index(all *a, mf_err *err)
{
    mf_buf text = {0}, html = {0}, script = {0};
    mf_index_text(&a->index, &text);
    mf_index_html(&a->index, &html);
    mf_bundle_verify(&script);
    mf_status first = put(a, "index.txt", &text, err);
    mf_status second = first == MF_OK ? put(a, "index.html", &html, err) : first;
    mf_status status = second == MF_OK ? put(a, "verify.sh", &script, err) : second;
    mf_buf_free(&html);
    mf_buf_free(&script);
    for (size_t i = 0; status == MF_OK && i < a->index.n; i++) {
        char name[100];
        snprintf(name, sizeof name, "%s%s", a->index.row[i].folder,
                 a->zip ? "" : "/MANIFEST.sha256");
        status = sum(a, name, err);
    }
    static const char *const ours[] = {"index.txt", "index.html", "verify.sh"};
    for (size_t i = 0; status == MF_OK && i < sizeof ours / sizeof ours[0]; i++)
        status = sum(a, ours[i], err);
    return status == MF_OK ? put(a, "INDEX.sha256", &a->sums, err) : status;
}

/* ---- the whole ------------------------------------------------------------------------------- */

static int take_one(const char *path, const struct stat *st, int flag, struct FTW *ftw)
{
    (void)st;
    (void)flag;
    (void)ftw;
    return remove(path);
}

/* Which jobs these are, for whoever reads the index. */
static void say_picked(all *a, const mf_pick *pick, const mf_args *args)
{
    char since[MF_DAY_TEXT], until[MF_DAY_TEXT], days[200];
    const mf_cli *cli = a->cli;
    mf_day_text(pick->since, since);
    mf_day_text(pick->until, until);
    if (since[0] != '\0' && until[0] != '\0')
        snprintf(days, sizeof days, "%s %s %s %s", mf_cli_word(cli, "index.between"), since,
                 mf_cli_word(cli, "index.to"), until);
    else if (since[0] != '\0' || until[0] != '\0')
        snprintf(days, sizeof days, "%s %s%s",
                 mf_cli_word(cli, since[0] != '\0' ? "index.since" : "index.until"), since, until);
    else
        snprintf(days, sizeof days, "%s", mf_cli_word(cli, "index.all"));
    if (mf_args_value(args, "state") == NULL)
        snprintf(a->index.picked, sizeof a->index.picked, "%s.", days);
    else
        snprintf(a->index.picked, sizeof a->index.picked, "%s; %s: %s.", days,
                 mf_cli_word(cli, "show.state"), mf_stage_words(cli->lang, pick->stage));
}

static mf_status make(all *a, const mf_args *args, mf_pick *pick, mf_err *err)
{
    mf_status status = read_papers(a, mf_args_value(args, "records"), err);
    if (status == MF_OK)
        status = mf_bundle_look_now(a->cli, &a->look, err);
    if (status == MF_OK)
        status = mf_pack_folder(a->out, err);
    a->made = status == MF_OK;
    /* Of an altered book nothing is answered; which jobs were altered their states say. */
    pick->mark = a->look.status != MF_OK;
    if (status == MF_OK)
        status = mf_pick_each(a->cli, pick, one_job, a, err);
    if (status == MF_OK && pick->n == 0)
        status = mf_fail(err, MF_INPUT, "job bundle", "no job is like that",
                         "a job goes on from its start until it is completed",
                         "see \"job list\", and choose other days or another state");
    snprintf(a->index.head, sizeof a->index.head, "%s", a->look.report.head);
    say_picked(a, pick, args);
    return status == MF_OK ? write_index(a, err) : status;
}

static void say_written(const all *a)
{
    size_t records = 0;
    for (size_t i = 0; i < a->index.n; i++)
        records += a->index.row[i].record;
    if (a->cli->json)
        printf("{\"jobs\": %zu, \"records\": %zu}\n", a->index.n, records);
    else
        printf("wrote %s: %zu job%s, %zu with their sealed record%s\nindex.html and index.txt say "
               "which; whoever gets it checks it with: sh verify.sh\n",
               a->out, a->index.n, a->index.n == 1 ? "" : "s", records,
               records < a->index.n ? " (give the folder of the others with --records)" : "");
}

mf_status mf_bundle_all(mf_cli *cli, const mf_args *args, mf_err *err)
{
    mf_pick pick;
    all a = {.cli = cli,
             .out = mf_args_value(args, "out"),
             .zip = mf_args_value(args, "zip") != NULL,
             .hide = mf_args_value(args, "without-occupants") != NULL,
             .index = {.cli = cli}};
    mf_status status = mf_pick_read(&pick, args, err);
    if (status == MF_OK)
        status = make(&a, args, &pick, err);
    if (status == MF_OK)
        say_written(&a);
    else if (a.made) /* half of it would look like all */
        nftw(a.out, take_one, 16, FTW_DEPTH | FTW_PHYS);
    status = mf_cli_made(status, &a.look.altered, err);
    mf_buf_free(&a.sums);
    free(a.papers);
    free(a.index.row);
    return status;
}
