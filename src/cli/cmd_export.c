/* export [JOB]: a job, or all that are picked, for spreadsheets, scripts and calendars. */
#include "cli/export.h"
#include "cli/pick.h"

#include "base/fail.h"

#include <stdio.h>

typedef enum format { CSV, JSONL, XLSX, ICS } format;
static const char *const formats[] = {"csv", "jsonl", "xlsx", "ics", NULL};

/* The one table of CSV: one that says what follows from the entries, or the entries of a kind. */
typedef enum table { JOBS, DUE, FINDINGS, OF_KIND } table;
static const char *const tables[] = {"jobs", "due", "findings", NULL};

typedef struct exporter {
    mf_cli *cli;
    format format;
    table table;      /* of CSV; OF_KIND for the others */
    const char *kind; /* of the table; NULL = all */
    bool no_names;
    mf_hide hide;   /* of the job at hand */
    mf_names names; /* of all jobs, where they are left out */
    mf_scope scope;
    mf_buf out;
    mf_xlsx *book;
    mf_sink sink;    /* where tables go */
    mf_many many;    /* between, when there are many jobs */
    mf_err altered;  /* what is wrong with the book, where nothing is answered from it */
    int64_t unknown; /* entries of kinds that this version does not know */
} exporter;

/* ---- one job ----------------------------------------------------------------------------- */

/* Whether what is written says what follows from the entries; else it is the entries alone. */
static bool judges(const exporter *e)
{
    return e->format == XLSX || e->format == ICS || (e->format == CSV && e->table != OF_KIND);
}

static mf_status csv_tables(const exporter *e, const mf_job *job, mf_err *err)
{
    switch (e->table) {
    case JOBS:
        return mf_export_job(e->cli, job, &e->hide, &e->sink, err);
    case DUE:
        return mf_export_due(e->cli, job, &e->sink, err);
    case FINDINGS:
        return mf_export_findings(e->cli, job, &e->hide, &e->sink, err);
    case OF_KIND:
        mf_export_kinds(job, e->kind, e->scope, &e->hide, &e->sink);
    }
    return MF_OK;
}

static mf_status xlsx_tables(const exporter *e, const mf_job *job, mf_err *err)
{
    mf_export_jobs_table(&e->sink);
    mf_status status = mf_export_job(e->cli, job, &e->hide, &e->sink, err);
    mf_export_due_table(&e->sink);
    if (status == MF_OK)
        status = mf_export_due(e->cli, job, &e->sink, err);
    if (status == MF_OK)
        status = mf_export_findings(e->cli, job, &e->hide, &e->sink, err);
    if (status == MF_OK)
        mf_export_kinds(job, NULL, e->scope, &e->hide, &e->sink);
    return status;
}

/* As a gate does: what is judged is what was checked just now. Of a job that was altered nothing
 * is answered; its row among the jobs says so. */
static mf_status look(exporter *e, mf_job *job, mf_err *err)
{
    mf_err why = {0};
    mf_book_report report = {0};
    mf_status status = mf_cli_look(e->cli, job, false, &report, &why);
    e->unknown = report.unknown > e->unknown ? report.unknown : e->unknown;
    if (status == MF_NO) {
        e->altered = why;
        e->altered.status = MF_SYSTEM;
        return MF_NO;
    }
    if (status != MF_OK && err != NULL)
        *err = why;
    return status;
}

static mf_status write_job(exporter *e, const mf_job *job, mf_err *err)
{
    switch (e->format) {
    case CSV:
        return csv_tables(e, job, err);
    case JSONL:
        return mf_export_jsonl(job, e->scope, &e->hide, &e->out, err);
    case XLSX:
        return xlsx_tables(e, job, err);
    case ICS:
        mf_ics_job(e->cli, job, &e->hide, &e->out);
    }
    return MF_OK;
}

static mf_status with_hidden(exporter *e, const mf_job *job,
                             mf_status (*fn)(exporter *e, const mf_job *job, mf_err *err),
                             mf_err *err)
{
    mf_status status = mf_hide_begin(&e->hide, e->cli, job, e->no_names, err);
    e->hide.names = &e->names;
    if (status == MF_OK)
        status = fn(e, job, err);
    mf_hide_end(&e->hide);
    return status;
}

static mf_status one_job(mf_job *job, void *data, mf_err *err)
{
    exporter *e = data;
    e->many.job = job->id;
    mf_status status = look(e, job, err);
    const bool a_row = e->format == CSV && e->table == JOBS;
    if (status == MF_NO && judges(e) && !a_row)
        return MF_OK; /* left out; told at the end */
    if (status != MF_OK && status != MF_NO)
        return status;
    return with_hidden(e, job, write_job, err);
}

/* ---- all of them ------------------------------------------------------------------------- */

/* The heads of the one table of CSV, which are there also when no job is. */
static void heads(const exporter *e)
{
    static const mf_job none;
    if (e->format != CSV)
        return;
    switch (e->table) {
    case JOBS:
        mf_export_jobs_table(&e->sink);
        break;
    case DUE:
        mf_export_due_table(&e->sink);
        break;
    case FINDINGS:
        mf_export_findings_table(&e->sink);
        break;
    case OF_KIND:
        mf_export_kinds(&none, e->kind, MF_SCOPE_ALL, &e->hide, &e->sink);
    }
}

/* What is of the firm itself stands beside the jobs, once. */
static mf_status firm_tables(exporter *e, const mf_job *firm, mf_err *err)
{
    e->many.job = "";
    e->scope = MF_SCOPE_FIRM;
    const bool due = e->format == XLSX || e->table == DUE;
    if (e->format == ICS) {
        mf_ics_firm(e->cli, firm, &e->out);
        return MF_OK;
    }
    if (e->format == JSONL)
        return mf_export_jsonl(firm, e->scope, &e->hide, &e->out, err);
    if (due)
        mf_export_due_table(&e->sink);
    mf_status status = due ? mf_export_due_firm(e->cli, firm, &e->sink, err) : MF_OK;
    if (e->format == XLSX || e->table == OF_KIND)
        mf_export_kinds(firm, e->kind, e->scope, &e->hide, &e->sink);
    return status;
}

static mf_status firm_of(exporter *e, mf_err *err)
{
    mf_job *firm = NULL;
    size_t left_out = 0;
    mf_status status = mf_cli_job_until(e->cli, "", e->cli->today, &firm, &left_out, err);
    if (status == MF_OK)
        status = with_hidden(e, firm, firm_tables, err);
    mf_book_job_free(firm);
    return status;
}

static mf_status all_jobs(exporter *e, const mf_args *args, mf_err *err)
{
    mf_pick pick;
    mf_status status = mf_pick_read(&pick, args, err);
    const mf_sink into = e->sink;
    e->many.into = &into;
    e->sink = mf_export_many(&e->many);
    e->scope = MF_SCOPE_JOB;
    heads(e);
    if (status == MF_OK)
        status = mf_pick_each(e->cli, &pick, one_job, e, err);
    if (status == MF_OK)
        status = firm_of(e, err);
    if (status == MF_OK && pick.n == 0)
        mf_cli_note(e->cli, "%s", mf_cli_word(e->cli, "list.none-found"));
    if (status == MF_OK && pick.left_out > 0)
        mf_cli_note(e->cli, "what is dated later counts for nothing here");
    return status;
}

static mf_status the_job(exporter *e, const mf_args *args, mf_err *err)
{
    mf_job *job = NULL;
    size_t left_out = 0;
    mf_status status = mf_cli_job_until(e->cli, args->word[0], e->cli->today, &job, &left_out, err);
    if (status == MF_OK && (e->table == JOBS || e->table == DUE)) /* the others have their own */
        heads(e);
    if (status == MF_OK)
        status = one_job(job, e, err);
    mf_book_job_free(job);
    return status;
}

static mf_status check_kind(exporter *e, const mf_args *args, mf_err *err)
{
    const char *kind = mf_args_value(args, "kind");
    if (e->format != CSV && kind != NULL)
        return mf_fail(err, MF_USAGE, "--kind", "only CSV has one table", "the others hold all",
                       "leave out --kind, or write --format csv");
    if (e->format != CSV)
        return MF_OK;
    if (kind == NULL)
        e->table = args->n_words == 0 ? JOBS : FINDINGS;
    else if (mf_choice(tables, kind) >= 0)
        e->table = (table)mf_choice(tables, kind);
    else
        e->kind = kind;
    if (e->kind == NULL || mf_kind_named(kind) != NULL)
        return MF_OK;
    return mf_failf(
        err, MF_INPUT, "--kind", "",
        "such as jobs, due, findings, component, reading, tick; jsonl and xlsx hold all",
        "there is no kind %s", kind);
}

static mf_status make(exporter *e, const mf_args *args, mf_err *err)
{
    mf_status status = MF_OK;
    if (e->format == XLSX)
        status = mf_xlsx_new(&e->book, err);
    if (status != MF_OK)
        return status;
    e->sink = e->format == XLSX ? mf_xlsx_sink(e->book) : mf_export_csv(&e->out);
    if (e->format == ICS)
        mf_ics_begin(&e->out);
    status = args->n_words == 0 ? all_jobs(e, args, err) : the_job(e, args, err);
    if (e->format == ICS)
        mf_ics_end(&e->out);
    if (status == MF_OK && e->format == XLSX)
        status = mf_xlsx_end(e->book, &e->out, err);
    return status == MF_OK && e->out.failed ? mf_fail_memory(err) : status;
}

static mf_status deliver(mf_cli *cli, const mf_args *args, const mf_buf *out, mf_err *err)
{
    const char *path = mf_args_value(args, "out");
    if (path == NULL) {
        fwrite(out->data, 1, out->len, stdout);
        cli->quiet = true; /* nothing may follow the bytes */
        return MF_OK;
    }
    mf_status status = mf_cli_put(cli, path, out->data, out->len, err);
    if (status == MF_OK && cli->json)
        printf("{\"written\": true}\n");
    else if (status == MF_OK)
        printf("wrote %s, readable by you alone\n", path);
    return status;
}

static mf_status check(exporter *e, const mf_args *args, mf_err *err)
{
    int found = mf_choice(formats, mf_args_value(args, "format"));
    if (found < 0)
        return mf_failf(err, MF_INPUT, "--format", "", "they are csv, jsonl, xlsx, ics",
                        "%s is no format", mf_args_value(args, "format"));
    e->format = (format)found;
    if (e->format == XLSX && mf_args_value(args, "out") == NULL)
        return mf_fail(err, MF_USAGE, "--out", "a workbook needs a file", "", "add --out FILE");
    if (args->n_words > 0 && mf_pick_asked(args))
        return mf_fail(err, MF_USAGE, "--state, --since, --until",
                       "they pick among all jobs, and one is named", "",
                       "leave out the job, or the option");
    return check_kind(e, args, err);
}

mf_status mf_cmd_export(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    (void)cmd;
    exporter e = {
        .cli = cli, .table = OF_KIND, .no_names = mf_args_value(args, "no-names") != NULL};
    mf_status status = check(&e, args, &err);
    if (status == MF_OK)
        status = mf_cli_day(cli, args, &cli->today, &err);
    if (status == MF_OK)
        status = mf_names_begin(&e.names, cli, e.no_names, &err);
    if (status == MF_OK)
        status = make(&e, args, &err);
    /* One job of which nothing can be answered gives no file; of many the others do. */
    bool nothing = e.altered.status != MF_OK && args->n_words > 0 && judges(&e);
    if (status == MF_OK && !nothing)
        status = deliver(cli, args, &e.out, &err);
    if (status == MF_OK)
        mf_cli_unknown(cli, &(mf_book_report){.unknown = e.unknown});
    status = mf_cli_made(status, &e.altered, &err);
    mf_names_end(&e.names);
    mf_xlsx_free(e.book);
    mf_buf_free(&e.out);
    return status == MF_OK ? MF_OK : mf_cli_fail(&err);
}
