/* entry list, show, correct, withdraw: the journal itself. */
#include "base/fail.h"
#include "base/json.h"
#include "cli/json.h"
#include "words/refused.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static bool print_line(const mf_entry *entry, void *data)
{
    (void)data;
    mf_cli_pad(entry->id, 14);
    mf_cli_pad(entry->at, 22);
    mf_cli_pad(entry->who, 10);
    mf_cli_pad(entry->kind, 14);
    size_t all = strlen(entry->body), len = mf_cli_letters(entry->body, all, 60);
    mf_cli_text(stdout, entry->body, len);
    puts(len < all ? "..." : "");
    return true;
}

static json_t *json_of(const mf_entry *entry)
{
    json_t *object = json_object();
    json_object_set_new(object, "entry", json_string(entry->id));
    json_object_set_new(object, "at", json_string(entry->at));
    json_object_set_new(object, "who", json_string(entry->who));
    json_object_set_new(object, "kind", json_string(entry->kind));
    json_object_set_new(object, "job", json_string(entry->job));
    json_object_set_new(object, "body", json_loads(entry->body, 0, NULL));
    json_object_set_new(object, "prev", json_string(entry->prev));
    json_object_set_new(object, "hash", json_string(entry->hash));
    return object;
}

static bool collect(const mf_entry *entry, void *data)
{
    return json_array_append_new(data, json_of(entry)) == 0;
}

mf_status mf_cmd_entry_list(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    (void)cmd;
    mf_status status = mf_cli_book(cli, &err);
    json_t *array = cli->json ? json_array() : NULL;
    const char *job = args->word[0];
    if (status == MF_OK)
        status = mf_book_entries(cli->book, job, cli->json ? collect : print_line, array, &err);
    if (status != MF_OK) {
        json_decref(array);
        return mf_cli_fail(&err);
    }
    return cli->json ? mf_json_print(array) : MF_OK;
}

static bool print_whole(const mf_entry *entry, void *data)
{
    const char *const rows[][2] = {
        {"entry  ", entry->id},   {"kind   ", entry->kind}, {"job    ", entry->job},
        {"at     ", entry->at},   {"who    ", entry->who},  {"body   ", entry->body},
        {"prev   ", entry->prev}, {"hash   ", entry->hash},
    };
    (void)data;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        fputs(rows[i][0], stdout);
        mf_cli_show(rows[i][1]);
        putchar('\n');
    }
    return true;
}

mf_status mf_cmd_entry_show(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    (void)cmd;
    mf_status status = mf_cli_book(cli, &err);
    json_t *array = cli->json ? json_array() : NULL;
    if (status == MF_OK)
        status =
            mf_book_entry(cli->book, args->word[0], cli->json ? collect : print_whole, array, &err);
    if (status != MF_OK) {
        json_decref(array);
        return mf_cli_fail(&err);
    }
    return cli->json ? mf_json_print(array) : MF_OK;
}

/* The entry that is corrected or withdrawn. */
typedef struct corrected {
    const mf_kind *kind; /* NULL: of none that can be */
    char job[48];        /* "": of the firm */
} corrected;

static bool take_target(const mf_entry *entry, void *data)
{
    corrected *of = data;
    of->kind = mf_kind_named(entry->kind);
    snprintf(of->job, sizeof of->job, "%s", entry->job);
    return true;
}

/* What was corrected belongs to a job: the next step is the job's. */
static void say_next(mf_cli *cli, const char *id)
{
    mf_job *job = NULL;
    if (cli->quiet || cli->json || id[0] == '\0' || mf_cli_job(cli, id, &job, NULL) != MF_OK)
        return;
    mf_next_of_job(job, cli->today, cli->next);
    mf_book_job_free(job);
}

/* One FIELD=VALUE of --set up to its ';', with \; for a ';' in the value; returns what is
 * behind it. */
static const char *take_part(mf_buf *out, const char *sets)
{
    mf_buf_clear(out);
    for (; *sets != '\0' && *sets != ';'; sets++) {
        sets += sets[0] == '\\' && sets[1] == ';';
        mf_buf_add(out, sets, 1);
    }
    return sets + (*sets == ';');
}

/* By whichever of its names: which of the two values is meant only their writer knows. */
static mf_status once(const mf_kind *kind, bool *said, const char *name, mf_err *err)
{
    const mf_field *field = mf_field_named(kind, name);
    if (field != NULL && said[field - kind->fields])
        return mf_failf(err, MF_INPUT, "--set", "", "give it once", "%s is said twice",
                        field->option);
    if (field != NULL)
        said[field - kind->fields] = true;
    return MF_OK;
}

/* Parted by ';', so that texts may hold commas. */
static mf_status set_fields(const mf_cli *cli, const mf_kind *kind, mf_draft *draft,
                            const char *sets, mf_err *err)
{
    mf_buf part = {0};
    bool *said = kind == NULL ? NULL : calloc(kind->n_fields, sizeof *said);
    mf_status status = MF_OK;
    if (said == NULL)
        return mf_fail_memory(err);
    while (status == MF_OK && *sets != '\0') {
        sets = take_part(&part, sets);
        char *equals = part.failed ? NULL : strchr(mf_buf_str(&part), '=');
        if (part.failed) {
            status = mf_fail_memory(err);
        } else if (equals == NULL) {
            status = mf_failf(err, MF_INPUT, "--set", "",
                              "write --set \"FIELD=VALUE;FIELD=VALUE\", and \\; for a ; in a value",
                              "%.80s has no =", mf_buf_str(&part));
        } else {
            *equals = '\0';
            const char *name = part.data + strspn(part.data, " ");
            status = once(kind, said, name, err);
            if (status == MF_OK)
                status = mf_draft_set(draft, name, equals + 1, "", "--set", cli->today, err);
        }
    }
    free(said);
    mf_buf_free(&part);
    return status;
}

/* ---- what a correction settles -------------------------------------------------------------- */

/* The correction that was made, or one that it settles. */
static bool take_body(const mf_entry *entry, void *data)
{
    json_t **body = data;
    if (*body == NULL)
        *body = json_loads(entry->body, 0, NULL);
    return true;
}

/* The fields in which a settled correction says something else, by the names of the command
 * line. */
static void put_differing(mf_buf *out, const mf_kind *kind, const json_t *settled,
                          const json_t *made)
{
    const json_t *was = json_object_get(settled, "body"), *is = json_object_get(made, "body");
    if (was == NULL) {
        mf_buf_text(out, ", which withdrew it");
        return;
    }
    const char *between = ", which says otherwise of ";
    for (size_t i = 0; kind != NULL && is != NULL && i < kind->n_fields; i++) {
        const char *name = kind->fields[i].name;
        const json_t *a = json_object_get(was, name), *b = json_object_get(is, name);
        if (a == b || (a != NULL && b != NULL && json_equal(a, b)))
            continue;
        mf_buf_printf(out, "%s%s", between, kind->fields[i].option);
        between = ", ";
    }
}

static mf_status say_settled(mf_cli *cli, const mf_kind *kind, const json_t *made, mf_err *err)
{
    mf_status status = MF_OK;
    const char *list = mf_json_string_of(made, "settles");
    if (list[0] == '\0')
        return MF_OK;
    printf("it goes on from %s\n", mf_json_string_of(made, "replaces"));
    while (status == MF_OK && *list != '\0') {
        char id[MF_ENTRY_ID];
        size_t len = strcspn(list, ",");
        json_t *settled = NULL;
        mf_buf words = {0};
        snprintf(id, sizeof id, "%.*s", (int)len, list);
        status = mf_book_entry(cli->book, id, take_body, &settled, err);
        put_differing(&words, kind, settled, made);
        if (status == MF_OK)
            printf("it settles %s%s\n", id, mf_buf_str(&words));
        mf_buf_free(&words);
        json_decref(settled);
        list += len + (list[len] == ',');
    }
    return status;
}

static mf_status say_corrected(mf_cli *cli, const char *id, const char *target, const mf_kind *kind,
                               mf_err *err)
{
    json_t *made = NULL;
    mf_status status = mf_book_entry(cli->book, id, take_body, &made, err);
    const char *settles = mf_json_string_of(made, "settles");
    if (status == MF_OK && cli->json) {
        printf("{\"entry\": \"%s\", \"kind\": \"correction\", \"settles\": \"%s\"}\n", id, settles);
    } else if (status == MF_OK) {
        printf("logged correction %s of %s\n", id, target);
        status = say_settled(cli, kind, made, err);
    }
    json_decref(made);
    return status;
}

/* A head that another device noted is withdrawn here alone, which nobody sees from here. */
static void say_where_withdrawn(const mf_cli *cli, const char *target)
{
    char noter[20];
    snprintf(noter, sizeof noter, "%.*s", (int)strcspn(target, "/"), target);
    if (strcmp(noter, mf_book_device(cli->book)) != 0)
        mf_cli_warn("this counts on this device alone; on all others once %s, which noted the "
                    "head, withdraws it, too, there: entry withdraw %s --reason \"why\"",
                    noter, target);
}

static const mf_tick *tick_of_entry(const mf_job *job, const char *entry)
{
    for (size_t i = 0; i < job->n_tick; i++)
        if (strcmp(job->tick[i].src.entry, entry) == 0)
            return &job->tick[i];
    return NULL;
}

/* The step of a tick is on the list of its work area, as when it was logged: a sheet that tore is
 * not moved to an area that has none. */
static mf_status check_tick(mf_cli *cli, const corrected *of, const char *entry,
                            const mf_draft *draft, mf_err *err)
{
    mf_job *job = NULL;
    const mf_tick *tick = NULL;
    const char *id = mf_draft_text(draft, "area"), *step = mf_draft_text(draft, "step");
    bool ticked = of->kind != NULL && strcmp(of->kind->name, "tick") == 0;
    if (!ticked || (id[0] == '\0' && step[0] == '\0'))
        return MF_OK;
    mf_status status = mf_cli_job(cli, of->job, &job, err);
    if (status == MF_OK && (tick = tick_of_entry(job, entry)) != NULL) {
        const mf_area *area = mf_job_area(job, id[0] == '\0' ? tick->area : id);
        mf_step is;
        if (area != NULL)
            status = mf_step_on_list(job, area, step[0] == '\0' ? tick->step : step, &is, err);
    }
    mf_book_job_free(job);
    return status;
}

static mf_status correct(mf_cli *cli, const mf_args *args, const char *sets, mf_err *err)
{
    mf_now now;
    corrected of = {.kind = NULL};
    mf_draft *draft = NULL;
    char id[MF_ENTRY_ID];
    mf_status status = mf_cli_now(cli, &now, err);
    if (status == MF_OK)
        status = mf_cli_book(cli, err);
    if (status == MF_OK)
        status = mf_book_entry(cli->book, args->word[0], take_target, &of, err);
    if (status == MF_OK && of.kind == NULL)
        status = mf_failf(err, MF_INPUT, args->word[0], "corrections name the entry first made",
                          "correct that one again", "this entry cannot be corrected");
    if (status == MF_OK && sets != NULL) {
        status = mf_draft_new(&draft, of.kind, err);
        if (status == MF_OK)
            status = set_fields(cli, of.kind, draft, sets, err);
        if (status == MF_OK)
            status = check_tick(cli, &of, args->word[0], draft, err);
    }
    if (status == MF_OK)
        status = mf_book_correct(cli->book, args->word[0], draft, mf_args_value(args, "reason"),
                                 &now, id, err);
    mf_draft_free(draft);
    if (status == MF_OK)
        status = say_corrected(cli, id, args->word[0], of.kind, err);
    if (status == MF_OK && sets == NULL && strcmp(of.kind->name, "witness") == 0)
        say_where_withdrawn(cli, args->word[0]);
    if (status == MF_OK)
        say_next(cli, of.job);
    return status;
}

mf_status mf_cmd_entry_correct(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    (void)cmd;
    mf_status status = correct(cli, args, mf_args_value(args, "set"), &err);
    return status == MF_OK ? MF_OK : mf_cli_fail(&err);
}

mf_status mf_cmd_entry_withdraw(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    (void)cmd;
    mf_status status = correct(cli, args, NULL, &err);
    return status == MF_OK ? MF_OK : mf_cli_fail(&err);
}
