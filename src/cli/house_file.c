/* job open --from FILE: a whole house from one text file (docs/house-file.md). Each [section]
 * is an entry, or one for each id that it names; its lines are the options of the command that
 * logs one. Everything wrong is told at once, and then nothing is kept. */
#include "base/fail.h"
#include "base/file.h"
#include "base/letters.h"
#include "base/utf8.h"
#include "cli/usual.h"

#include <stdio.h>
#include <string.h>

enum { FILE_MAX = 1024 * 1024, SHOWN_FAULTS = 50 };

/* What a section is called, which kind that is, and the option its words are. */
typedef struct section_kind {
    const char *name, *kind, *option;
} section_kind;

static const section_kind sections[] = {
    {"job", "house", "id"},
    {"party", "party", "id"},
    {"vacancy", "vacancy", "unit"},
    {"opening", "opening", "id"},
    {"component", "component", "id"},
    {"area", "area", "id"},
    {"surface", "surface", "id"},
    {"crew", "assignment", "person"},
    {"training", "training", "worker"},
    {"notice", "notice", "party"},
};
enum { SECTIONS = sizeof sections / sizeof sections[0] };

typedef struct reading_file {
    mf_batch *batch;
    const section_kind *section; /* NULL = before the first, or one that is not known */
    size_t first;                /* its first row */
    bool begun;                  /* a section head was read, be it a wrong one */
    int line;
    const char *parts, *surfaces; /* "usual-parts" and "usual-surfaces" of this section */
    int parts_line, surfaces_line;
} reading_file;

static void wrong(reading_file *r, const char *what, const char *mend)
{
    mf_err err = {0};
    mf_fail(&err, MF_INPUT, "", what, "", mend);
    mf_batch_fault(r->batch, r->line, &err);
}

/* ---- what comes with a section --------------------------------------------------------- */

static const char *value_of(const reading_file *r, size_t row, const char *option)
{
    const char *value = mf_args_value(&r->batch->row[row].args, option);
    return value == NULL ? "" : value;
}

/* The kind of the opening in that row; < 0 = it says none that there is. */
static int opening_kind(const reading_file *r, size_t row)
{
    const mf_field *field = mf_field_named(mf_kind_named("opening"), "kind");
    return mf_choice(field->choices, value_of(r, row, "kind"));
}

/* Rows are named by number: adding one moves them. */
static void add_parts(reading_file *r, size_t row)
{
    int kind = opening_kind(r, row);
    if (kind >= 0)
        mf_usual_parts(r->batch, value_of(r, row, "id"), (mf_opening_kind)kind,
                       value_of(r, row, "absent"), r->parts, r->parts_line);
}

/* Those among the ids that have a sill, with commas. What stands in no section before is left to
 * the book, which says so. */
static void sills_of(const reading_file *r, const char *ids, char *out, size_t size)
{
    size_t len = 0;
    out[0] = '\0';
    for (size_t i = 0; i < r->batch->n && len < size; i++) {
        bool named = strcmp(r->batch->row[i].kind->name, "opening") == 0 &&
                     mf_id_in_list(ids, value_of(r, i, "id"));
        int kind = named ? opening_kind(r, i) : -1;
        if (kind >= 0 && mf_usual_sill((mf_opening_kind)kind, value_of(r, i, "absent")))
            len += (size_t)snprintf(out + len, size - len, "%s%s", len > 0 ? "," : "",
                                    value_of(r, i, "id"));
    }
}

static void add_surfaces(reading_file *r, size_t row)
{
    char sills[2000], sill[MF_SIDE_TEXT] = "", floor[MF_SIDE_TEXT] = "", both[80];
    mf_usual_room room = {value_of(r, row, "id"), value_of(r, row, "place"), sills, sill, floor};
    if (strcmp(value_of(r, row, "side"), "interior") != 0) {
        wrong(r, "usual-surfaces is for a work area inside", "leave it out here");
        return;
    }
    sills_of(r, value_of(r, row, "openings"), sills, sizeof sills);
    if (!mf_square_feet(r->surfaces, sill))
        snprintf(sill, sizeof sill, "%s", r->surfaces); /* square feet as they are */
    snprintf(both, sizeof both, "%.30s x %.30s", value_of(r, row, "length"),
             value_of(r, row, "width"));
    if (strcmp(value_of(r, row, "carpet"), "yes") != 0 && !mf_square_feet(both, floor))
        floor[0] = '\0'; /* the sizes are wrong, and that is told */
    mf_usual_surfaces(r->batch, &room, r->surfaces_line);
}

static void end_section(reading_file *r)
{
    size_t stop = r->batch->n;
    int line = r->line;
    r->line = r->surfaces_line;
    for (size_t i = r->first; r->section != NULL && i < stop; i++) {
        if (r->parts != NULL)
            add_parts(r, i);
        if (r->surfaces != NULL)
            add_surfaces(r, i);
    }
    r->line = line;
    r->parts = r->surfaces = NULL;
}

/* ---- lines ------------------------------------------------------------------------------ */

static const section_kind *section_named(const char *name, size_t len)
{
    for (size_t i = 0; i < SECTIONS; i++)
        if (strlen(sections[i].name) == len && strncmp(sections[i].name, name, len) == 0)
            return &sections[i];
    return NULL;
}

/* A row for each word behind the name, one where there is none. */
static void begin_rows(reading_file *r, char *words)
{
    do {
        words += strspn(words, " ,\t");
        size_t len = strcspn(words, " ,\t");
        char *rest = words + len + (words[len] != '\0');
        words[len] = '\0';
        mf_batch_row *row = mf_batch_add(r->batch, r->section->kind, r->line);
        if (row == NULL)
            return;
        if (len > 0)
            mf_batch_put(r->batch, row, r->section->option, words, r->line);
        words = rest + strspn(rest, " ,\t");
    } while (*words != '\0');
}

static void begin_section(reading_file *r, char *text)
{
    size_t len = strlen(text);
    end_section(r);
    r->first = r->batch->n;
    r->section = NULL;
    r->begun = true;
    if (text[len - 1] != ']') {
        wrong(r, "the section has no ] at its end", "write it like [opening W01]");
        return;
    }
    text[len - 1] = '\0';
    text = mf_trim(text + 1);
    size_t name = strcspn(text, " \t");
    r->section = section_named(text, name);
    if (r->section == NULL)
        wrong(r, "there is no such section",
              "write one of: job, party, vacancy, opening, component, area, surface, crew, "
              "training, notice");
    else
        begin_rows(r, text + name);
}

/* In a list of ids no blank stands beside a comma. */
static void close_up(char *list)
{
    char *to = list;
    for (const char *from = list; *from != '\0'; from++) {
        bool beside = to > list && to[-1] == ',';
        if (*from == ' ' && (beside || from[strspn(from, " ")] == ','))
            continue;
        *to++ = *from;
    }
    *to = '\0';
}

static void said_twice(reading_file *r)
{
    wrong(r, "it is said twice in this section", "leave one of them out");
}

static void put(reading_file *r, const char *option, const char *value)
{
    for (size_t i = r->first; i < r->batch->n; i++) {
        mf_batch_row *row = &r->batch->row[i];
        if (mf_args_value(&row->args, option) != NULL) {
            said_twice(r);
            return;
        }
        mf_batch_put(r->batch, row, option, value, r->line);
    }
}

/* What comes with the section is added at its end. */
static void put_usual(reading_file *r, const char **usual, int *line, const char *value)
{
    if (*usual != NULL)
        said_twice(r);
    *usual = value;
    *line = r->line;
}

static void put_size(reading_file *r, const char *value)
{
    char length[MF_SIDE_TEXT], width[MF_SIDE_TEXT];
    if (!mf_two_sides(value, length, width)) {
        wrong(r, "the size of a work area is length x width in feet", "write it like 12 x 10");
        return;
    }
    put(r, "length", length);
    put(r, "width", width);
}

/* Square feet may be written as feet by feet. */
static void put_field(reading_file *r, const mf_field *field, char *value)
{
    char area[MF_SIDE_TEXT];
    if (field->type == MF_F_IDS)
        close_up(value);
    bool by = field->type == MF_F_HUNDREDTHS && mf_square_feet(value, area);
    put(r, field->option, by ? area : value);
}

static void take_value(reading_file *r, const char *key, char *value)
{
    const char *kind = r->section->kind;
    const mf_field *field = mf_field_named(mf_kind_named(kind), key);
    mf_err err = {0};
    if (strcmp(kind, "area") == 0 && strcmp(key, "size") == 0) {
        put_size(r, value);
    } else if (strcmp(kind, "opening") == 0 && strcmp(key, "usual-parts") == 0) {
        put_usual(r, &r->parts, &r->parts_line, value);
    } else if (strcmp(kind, "area") == 0 && strcmp(key, "usual-surfaces") == 0) {
        put_usual(r, &r->surfaces, &r->surfaces_line, value);
    } else if (field != NULL) {
        put_field(r, field, value);
    } else {
        mf_failf(&err, MF_INPUT, "", "", "docs/house-file.md says what may stand here",
                 "there is no %.40s in a section %s", key, r->section->name);
        mf_batch_fault(r->batch, r->line, &err);
    }
}

static void take_line(reading_file *r, char *text)
{
    text = mf_trim(text);
    char *equals = strchr(text, '=');
    if (text[0] == '\0' || text[0] == '#')
        return;
    if (text[0] == '[') {
        begin_section(r, text);
    } else if (equals == NULL) {
        wrong(r, "the line is neither [section] nor name = value", "begin a remark with #");
    } else if (r->section != NULL) {
        *equals = '\0';
        take_value(r, mf_trim(text), mf_trim(equals + 1));
    } else if (!r->begun) {
        wrong(r, "it stands in no section", "begin with [job ID]");
    }
}

/* ---- the file ------------------------------------------------------------------------------ */

static size_t count_of(const mf_batch *batch, const char *kind)
{
    size_t n = 0;
    for (size_t i = 0; i < batch->n; i++)
        n += strcmp(batch->row[i].kind->name, kind) == 0;
    return n;
}

static void check_job(reading_file *r)
{
    size_t houses = count_of(r->batch, "house");
    r->line = 1;
    if (houses == 0 && r->batch->n_fault > 0)
        return; /* its line may be the one that is wrong */
    if (houses != 1 || strcmp(r->batch->row[0].kind->name, "house") != 0)
        wrong(r, "the file does not begin with one section [job ID]",
              "a file is one house: begin it with [job ID]");
}

/* The text is cut into its lines in place and must outlive what is read. */
static void read_lines(reading_file *r, char *text, size_t len)
{
    if (strlen(text) != len) {
        r->line = 1;
        wrong(r, "the file is not UTF-8 text", "save it as plain text, UTF-8");
        return;
    }
    text += mf_utf8_mark(text, len);
    while (*text != '\0') {
        size_t stop = strcspn(text, "\n");
        char *next = text + stop + (text[stop] != '\0');
        text[stop] = '\0';
        r->line++;
        take_line(r, text);
        text = next;
    }
    end_section(r);
    check_job(r);
}

static void say_counts(const mf_batch *batch)
{
    const char *between = "";
    for (size_t i = 0; i < SECTIONS; i++) {
        size_t n = count_of(batch, sections[i].kind);
        if (n == 0)
            continue;
        printf("%s%zu %s", between, n, sections[i].kind);
        between = ", ";
    }
}

static void say_next(mf_cli *cli, const char *id)
{
    mf_job *job = NULL;
    if (mf_cli_job(cli, id, &job, NULL) != MF_OK)
        return;
    mf_next_of_job(job, cli->today, cli->next);
    mf_book_job_free(job);
}

static void say_taken(mf_cli *cli, const mf_batch *batch, bool dry_run)
{
    const char *job = mf_args_value(&batch->row[0].args, "id");
    if (cli->json) {
        printf("{\"job\": \"%s\", \"entries\": %zu, \"written\": %s}\n", job, batch->n,
               dry_run ? "false" : "true");
        return;
    }
    printf("%s ", dry_run ? "nothing written; would log" : "logged");
    say_counts(batch);
    putchar('\n');
    if (count_of(batch, "component") > 0)
        mf_cli_note(cli, "%s", mf_cli_word(cli, "note.presumed"));
    if (!dry_run)
        say_next(cli, job);
}

/* All of them, to a number that can be read. */
static mf_status say_faults(const mf_cli *cli, const mf_batch *batch)
{
    for (size_t i = 0; i < batch->n_fault && i < SHOWN_FAULTS; i++)
        mf_cli_fail(&batch->fault[i].err);
    if (batch->n_fault > 1)
        mf_cli_note(cli, "%zu %s", batch->n_fault, mf_cli_word(cli, "note.nothing-kept"));
    return MF_INPUT;
}

static mf_status open_from(mf_cli *cli, const char *path, bool dry_run)
{
    mf_err err = {0};
    mf_bytes file = {0};
    mf_batch batch = {.file = path};
    reading_file r = {.batch = &batch};
    mf_status status = mf_file_read(&file, path, FILE_MAX, &err);
    char *text = status == MF_OK ? mf_arena_piece(&batch.text, (char *)file.data, file.len) : NULL;
    if (status == MF_OK && text == NULL)
        status = mf_fail_memory(&err);
    if (text != NULL) {
        read_lines(&r, text, file.len);
        status = mf_batch_write(cli, &batch, "", dry_run, &err);
    }
    if (status == MF_OK)
        say_taken(cli, &batch, dry_run);
    else
        status =
            batch.n_fault > 0 && status == MF_INPUT ? say_faults(cli, &batch) : mf_cli_fail(&err);
    mf_batch_free(&batch);
    mf_bytes_free(&file);
    return status;
}

/* The options of a house, or the file alone. */
mf_status mf_cmd_job_open(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    const char *path = mf_args_value(args, "from");
    bool dry_run = mf_args_value(args, "dry-run") != NULL;
    if (path == NULL && !dry_run)
        return mf_cmd_log(cli, cmd, args);
    if (path != NULL && args->n_opts == 1 + dry_run)
        return open_from(cli, path, dry_run);
    mf_fail(&err, MF_USAGE, "--from", "the file says all of the house", "",
            "give --from FILE, and --dry-run or nothing beside it");
    return mf_cli_fail(&err);
}
