/* paper records: every job's record into a folder, one job in memory at a time. */
#include "base/fail.h"
#include "base/file.h"
#include "cli/pick.h"
#include "cli/record.h"

#include <dirent.h>
#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

enum { PATH_ROOM = 1024 };

typedef struct job_list {
    char **id;
    size_t n, cap;
    bool failed;
} job_list;

static bool add_job(const char *job, const char *address, mf_day start, void *data)
{
    job_list *list = data;
    (void)address;
    (void)start;
    char **grown = mf_grown(list->id, list->n, &list->cap, sizeof *grown);
    if (grown == NULL) {
        list->failed = true;
        return false;
    }
    list->id = grown;
    list->id[list->n] = strdup(job);
    list->failed = list->id[list->n] == NULL;
    list->n += !list->failed;
    return !list->failed;
}

static void free_list(job_list *list)
{
    for (size_t i = 0; i < list->n; i++)
        free(list->id[i]);
    free(list->id);
}

/* What is the same for every record: the book was checked once. */
typedef struct batch {
    const char *folder;
    mf_day today;
    mf_integrity integrity;
    char head[MF_HASH_HEX];
    size_t written;
    mf_err altered; /* what is wrong with the book; each record says that something is */
} batch;

static mf_status prepare(mf_cli *cli, const mf_args *args, batch *out, job_list *jobs, mf_err *err)
{
    mf_book_report report = {0};
    out->folder = args->word[0];
    mf_status status = mf_cli_day(cli, args, &out->today, err);
    if (status == MF_OK)
        status = mf_cli_book(cli, err);
    if (status == MF_OK)
        status = mf_book_check(cli->book, &report, err);
    mf_cli_adopted(&report);
    if (status != MF_OK && status != MF_NO)
        return status;
    out->integrity = status == MF_OK ? MF_INTEGRITY_GOOD : MF_INTEGRITY_BROKEN;
    if (status == MF_NO)
        out->altered = *err;
    status = mf_book_head(cli->book, out->head, err);
    if (status == MF_OK)
        status = mf_cli_jobs(cli, add_job, jobs, err);
    return status == MF_OK && jobs->failed ? mf_fail_memory(err) : status;
}

static mf_status path_of(const batch *b, const char *id, char path[PATH_ROOM], mf_err *err)
{
    mf_status status = mf_pick_names_file(id, b->folder, err);
    if (status != MF_OK)
        return status;
    int n = snprintf(path, PATH_ROOM, "%s/%s.pdf", b->folder, id);
    if (n >= 0 && n < PATH_ROOM)
        return MF_OK;
    return mf_fail(err, MF_USAGE, b->folder, "the name of the folder is too long", "",
                   "name another one");
}

/* What no record could be written into is said once, not of each job. */
static mf_status is_folder(const char *folder, mf_err *err)
{
    DIR *dir = opendir(folder);
    if (dir == NULL)
        return mf_file_fail(err, folder, "write into", errno);
    closedir(dir);
    return MF_OK;
}

/* All of them before the first is written: nothing that stands there is written over by half. */
static mf_status may_put_all(const mf_cli *cli, const batch *b, const job_list *jobs, mf_err *err)
{
    char path[PATH_ROOM];
    mf_status status = MF_OK;
    for (size_t i = 0; i < jobs->n && status == MF_OK; i++) {
        status = path_of(b, jobs->id[i], path, err);
        if (status == MF_OK)
            status = mf_cli_may_put_paper(cli, path, err);
    }
    return status;
}

static mf_status print_one(mf_cli *cli, batch *b, const char *id, mf_err *err)
{
    char path[PATH_ROOM];
    mf_job *job = NULL;
    mf_bytes pdf = {0};
    mf_status status = path_of(b, id, path, err);
    if (status == MF_OK)
        status = mf_cli_job_of_many(cli, id, &job, err);
    if (job == NULL)
        return status;
    if (status == MF_OK) {
        job->integrity = b->integrity;
        status = mf_cli_none_later(job, b->today, err);
    }
    if (status == MF_OK)
        status = mf_cli_record(&pdf, cli, job, b->today, err);
    if (status == MF_OK)
        status = mf_cli_put(cli, path, pdf.data, pdf.len, err);
    b->written += status == MF_OK;
    mf_bytes_free(&pdf);
    mf_book_job_free(job);
    return status;
}

mf_status mf_cmd_paper_records(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    job_list jobs = {0};
    batch b = {0};
    bool shown = isatty(STDERR_FILENO) != 0 && !cli->json;
    (void)cmd;
    mf_status status = prepare(cli, args, &b, &jobs, &err);
    if (status == MF_OK)
        status = is_folder(b.folder, &err);
    if (status == MF_OK)
        status = may_put_all(cli, &b, &jobs, &err);
    for (size_t i = 0; i < jobs.n && status == MF_OK; i++) {
        if (print_one(cli, &b, jobs.id[i], &err) != MF_OK) /* that one is named, the rest is made */
            mf_cli_lost(cli, jobs.id[i], &err);
        if (shown)
            fprintf(stderr, "\r%zu of %zu", i + 1, jobs.n);
        cli->told = shown;
    }
    mf_cli_watched(cli);
    if (status == MF_OK && cli->json)
        printf("{\"records\": %zu, \"head\": \"%s\"}\n", b.written, b.head);
    else if (status == MF_OK)
        printf("wrote %zu records into %s, not sealed: mistfold paper seal\n", b.written, b.folder);
    status = mf_cli_made(status, &b.altered, &err);
    free_list(&jobs);
    return status == MF_OK ? MF_OK : mf_cli_fail(&err);
}
