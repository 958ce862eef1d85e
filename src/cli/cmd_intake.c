/* test import: the export of an XRF instrument, streamed, however long it is. */
#include "base/fail.h"
#include "base/file.h"
#include "cli/cli.h"

#include <errno.h>
#include <inttypes.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

enum {
    SHOWN_FAULTS = 20,
    LONG_FILE = 4 * 1024 * 1024, /* progress is shown for files longer than this */
    MANY_READINGS = 4000 /* from here on the next step is not looked for: the job is large */
};

/* ---- the file -------------------------------------------------------------------- */

typedef struct from_file {
    FILE *file;
    const char *path;
} from_file;

static mf_status read_file(void *data, char *to, size_t cap, size_t *got, mf_err *err)
{
    from_file *from = data;
    *got = fread(to, 1, cap, from->file);
    if (*got == 0 && ferror(from->file))
        return mf_file_fail(err, from->path, "read", errno);
    return MF_OK;
}

static mf_status rewind_file(void *data, mf_err *err)
{
    from_file *from = data;
    if (fseek(from->file, 0, SEEK_SET) != 0)
        return mf_file_fail(err, from->path, "read", errno);
    return MF_OK;
}

/* What comes through a pipe is read twice as well: it goes to an unnamed file. 0 or an
 * errno: a part of an export must not pass for all of it. */
static int spool(FILE *from, FILE *to)
{
    char piece[16384];
    size_t got;
    while ((got = fread(piece, 1, sizeof piece, from)) > 0)
        if (fwrite(piece, 1, got, to) != got)
            return errno;
    if (ferror(from) || fflush(to) != 0 || fseek(to, 0, SEEK_SET) != 0)
        return errno;
    return 0;
}

static mf_status open_file(from_file *out, const char *path, int64_t *size, mf_err *err)
{
    struct stat st;
    bool standard = strcmp(path, "-") == 0;
    out->path = path;
    out->file = standard ? stdin : fopen(path, "rb");
    if (out->file == NULL)
        return mf_file_fail(err, path, "read", errno);
    if (fstat(fileno(out->file), &st) == 0 && S_ISREG(st.st_mode)) {
        *size = (int64_t)st.st_size;
        return MF_OK;
    }
    FILE *copy = tmpfile();
    int fault = copy == NULL ? errno : spool(out->file, copy);
    if (!standard)
        fclose(out->file);
    out->file = copy;
    return fault == 0 ? MF_OK : mf_file_fail(err, path, "read", fault);
}

static void close_file(from_file *from)
{
    if (from->file != NULL && from->file != stdin)
        fclose(from->file);
    from->file = NULL;
}

/* ---- what is told on the way --------------------------------------------------------- */

/* Faults of one sort in one column: the first whole, of the others their lines. */
typedef struct fault_group {
    mf_err first;
    int64_t n;
    char lines[160];
} fault_group;

typedef struct teller {
    mf_cli *cli;
    mf_job *firm; /* people and certificates */
    fault_group group[SHOWN_FAULTS];
    int n_groups;
    int64_t faults;
    int64_t loose; /* readings by nobody certified to read */
    char loose_number[24];
    bool print_rows; /* on a dry run */
    char loose_operator[64];
    mf_day loose_on;
    int64_t size;
    int shown; /* percent */
} teller;

static const char *column_in(const mf_err *err)
{
    const char *column = strstr(err->where, ", column ");
    return column == NULL ? "" : column;
}

/* Of what sort a fault is: its name, else its words. */
static bool same_sort(const mf_err *a, const mf_err *b)
{
    bool named = a->name[0] != '\0' && strcmp(a->name, b->name) == 0;
    return strcmp(column_in(a), column_in(b)) == 0 && (named || strcmp(a->what, b->what) == 0);
}

/* The number behind "FILE:". */
static void note_fault_line(fault_group *group, const char *where)
{
    size_t len = strlen(group->lines);
    const char *colon = where, *next;
    while ((next = strchr(colon + 1, ':')) != NULL)
        colon = next;
    size_t digits = *colon == ':' ? strspn(colon + 1, "0123456789") : 0;
    if (digits > 0 && len + digits + 6 < sizeof group->lines)
        snprintf(group->lines + len, sizeof group->lines - len, "%s%.*s", len > 0 ? ", " : "",
                 (int)digits, colon + 1);
    else if (len > 0 && group->lines[len - 1] != '.')
        snprintf(group->lines + len, sizeof group->lines - len, " ...");
}

static void tell_fault(void *data, const mf_err *fault)
{
    teller *t = data;
    t->faults++;
    for (int i = 0; i < t->n_groups; i++)
        if (same_sort(&t->group[i].first, fault)) {
            t->group[i].n++;
            note_fault_line(&t->group[i], fault->where);
            return;
        }
    if (t->n_groups < SHOWN_FAULTS) /* of other sorts the last line has the number */
        t->group[t->n_groups++] = (fault_group){.first = *fault, .n = 1};
}

/* One fault alone is the error itself. */
static void say_faults(const teller *t)
{
    for (int i = 0; i < t->n_groups && t->faults > 1; i++) {
        const fault_group *group = &t->group[i];
        mf_cli_fail(&group->first);
        if (group->n > 1)
            mf_cli_warn("%s %" PRId64 ": %s", mf_cli_word(t->cli, "testing.same-fault"),
                        group->n - 1, group->lines);
    }
}

/* XRF releases a component only in the hands of a certified assessor: whoever
 * imports readings by somebody else is told so at once. */
static void tell_logged(void *data, const mf_import_row *row)
{
    teller *t = data;
    if (t->print_rows) {
        printf("%8s  %-10s ", row->number, row->opening);
        mf_cli_pad(row->component, 20);
        puts(row->result);
    }
    if (t->firm == NULL || mf_certified_assessor(t->firm, row->operator_id, row->on) != NULL)
        return;
    if (t->loose++ > 0)
        return;
    t->loose_on = row->on;
    snprintf(t->loose_number, sizeof t->loose_number, "%s", row->number);
    snprintf(t->loose_operator, sizeof t->loose_operator, "%s", row->operator_id);
}

static void tell_progress(void *data, int64_t bytes)
{
    teller *t = data;
    int percent = t->size <= 0 ? 0 : (int)(bytes * 100 / t->size);
    if (t->size < LONG_FILE || percent == t->shown || isatty(STDERR_FILENO) == 0)
        return;
    t->shown = percent;
    fprintf(stderr, percent >= 100 ? "\r      \r" : "\r%3d %%", percent);
}

static void note_operators(const teller *t)
{
    char day[MF_DAY_TEXT];
    if (t->loose == 0)
        return;
    mf_day_text(t->loose_on, day);
    mf_cli_note(t->cli, "%" PRId64 " readings (from number %s, %s, %s): %s", t->loose,
                t->loose_number, t->loose_operator, day, mf_cli_word(t->cli, "note.operator"));
}

/* ---- the report ------------------------------------------------------------------------- */

static void say_json(const mf_import_report *report, bool dry_run)
{
    printf("{\"rows\": %" PRId64 ", \"readings\": %" PRId64 ", \"calibrations\": %" PRId64
           ", \"skipped\": %" PRId64 ", \"already\": %s, \"map_of\": \"%s\", \"sha256\": \"%s\", "
           "\"written\": %s}\n",
           report->rows, report->readings, report->calibrations, report->skipped,
           report->already ? "true" : "false", report->map_of, report->sha256,
           dry_run || report->already ? "false" : "true");
}

static void say_text(const mf_cli *cli, const mf_import_report *report, bool dry_run)
{
    if (report->already) {
        printf("%s (%s)\n", mf_cli_word(cli, "testing.file-before"), report->before);
        return;
    }
    printf("%s %" PRId64 " readings (file SHA-256 %.16s...)\n",
           dry_run ? "nothing written; would log" : "logged", report->readings, report->sha256);
    if (report->skipped > 0)
        mf_cli_note(cli, "%" PRId64 " %s", report->skipped,
                    mf_cli_word(cli, "testing.rows-before"));
    if (report->columns[0] != '\0')
        mf_cli_note(cli, "%s %s", mf_cli_word(cli, "testing.columns"), report->columns);
    if (report->map_of[0] != '\0')
        mf_cli_note(cli, "%s %s", mf_cli_word(cli, "testing.map-used"), report->map_of);
}

static const char *or_empty(const char *text)
{
    return text == NULL ? "" : text;
}

/* Whether an option says its one other word: MF_INPUT for any other but the usual one. */
static mf_status is_word(const mf_args *args, const char *option, const char *word,
                         const char *usual, bool *out, mf_err *err)
{
    const char *said = or_empty(mf_args_value(args, option));
    char where[32];
    *out = strcmp(said, word) == 0;
    if (*out || said[0] == '\0' || strcmp(said, usual) == 0)
        return MF_OK;
    snprintf(where, sizeof where, "--%s", option);
    return mf_failf(err, MF_INPUT, where, "", "see mistfold test import --help",
                    "it is %s or %s, not %.40s", usual, word, said);
}

static mf_status run(mf_cli *cli, const mf_args *args, from_file *from, teller *t, mf_err *err)
{
    mf_now now;
    mf_import_report report = {0};
    mf_import_source source = {read_file, rewind_file, from, 0};
    bool dry_run = mf_args_value(args, "dry-run") != NULL;
    mf_import_ask ask = {.job = args->word[0],
                         .name = args->word[1],
                         .source = &source,
                         .now = &now,
                         .dry_run = dry_run,
                         .map = or_empty(mf_args_value(args, "map")),
                         .instrument = or_empty(mf_args_value(args, "instrument")),
                         .operator_id = or_empty(mf_args_value(args, "operator")),
                         .fault = tell_fault,
                         .logged = tell_logged,
                         .progress = tell_progress,
                         .data = t};
    mf_status status = is_word(args, "decimal", "comma", "point", &ask.decimal_comma, err);
    if (status == MF_OK)
        status = is_word(args, "dates", "dmy", "ymd", &ask.day_first, err);
    if (status == MF_OK)
        status = mf_cli_now(cli, &now, err);
    if (status == MF_OK)
        status = mf_cli_book(cli, err);
    if (status == MF_OK)
        status = open_file(from, args->word[1], &source.size, err);
    if (status == MF_OK)
        status = mf_book_job(cli->book, "", &t->firm, err);
    t->size = source.size;
    t->print_rows = dry_run && !cli->json;
    if (status == MF_OK)
        status = mf_import_readings_from(cli->book, &ask, &report, err);
    if (status != MF_OK)
        return status;
    if (cli->json)
        say_json(&report, dry_run);
    else
        say_text(cli, &report, dry_run);
    if (report.rows > MANY_READINGS)
        snprintf(cli->next, sizeof cli->next, "mistfold audit %s", ask.job);
    note_operators(t);
    mf_cli_note(cli, "%s", mf_cli_word(cli, "testing.radiation"));
    return MF_OK;
}

mf_status mf_cmd_import_readings(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    from_file from = {0};
    teller t = {.cli = cli};
    (void)cmd;
    mf_status status = run(cli, args, &from, &t, &err);
    say_faults(&t);
    close_file(&from);
    mf_book_job_free(t.firm);
    return status == MF_OK ? MF_OK : mf_cli_fail(&err);
}
