/* certificate check: the firm's own checklist, which certificates hold and which run out when. */
#include "cli/due.h"
#include "cli/json.h"
#include "cli/screen.h"

#include <inttypes.h>
#include <mistfold/person.h>
#include <stdio.h>
#include <string.h>

/* How a certificate stands on the day. */
typedef enum state {
    HOLDS,
    RUNS_OUT,
    OVER,
    NOT_YET,
    UNDATED,
    WRONG_HOLDER,
    SERVES_NOT,
    UNAMENDED,
    AMEND /* there is time to */
} state;

typedef struct list {
    const mf_cli *cli;
    const mf_job *firm;
    mf_day day;
    json_t *array; /* NULL = text */
    size_t lacking;
} list;

static const char *const names[] = {
    [HOLDS] = "holds",         [RUNS_OUT] = "runs-out", [OVER] = "over",
    [NOT_YET] = "not-yet",     [UNDATED] = "undated",   [SERVES_NOT] = "serves-not",
    [UNAMENDED] = "unamended", [AMEND] = "amend",       [WRONG_HOLDER] = "wrong-holder"};

/* The firm is asked for its own certificate, a person for every other (745.89(a), 745.90). */
static bool held_by_its_own(const mf_certificate *it)
{
    return (strcmp(it->holder, "firm") == 0) == (it->discipline == MF_DISC_FIRM);
}

static state state_of(const list *l, const mf_certificate *it)
{
    mf_day until = mf_certificate_until(l->firm, it);
    if (!held_by_its_own(it))
        return WRONG_HOLDER;
    if (it->issued == MF_DAY_NONE || until == MF_DAY_NONE)
        return UNDATED;
    if (l->day < it->issued)
        return NOT_YET;
    if (l->day > until)
        return OVER;
    if (mf_certificate_twice_online(l->firm, it) != NULL ||
        mf_certificate_refreshed_late(l->firm, it))
        return SERVES_NOT;
    if (mf_certificate_unamended(l->firm, it, l->day))
        return UNAMENDED;
    mf_day by = mf_certificate_amend_by(l->firm, it, l->day);
    if (by != MF_DAY_NONE && by < until)
        return AMEND;
    return until - l->day <= MF_DUE_CERTIFICATE_DAYS ? RUNS_OUT : HOLDS;
}

static bool good(state it)
{
    return it == HOLDS || it == RUNS_OUT || it == AMEND;
}

/* "" where no day is the last: a renewal is not decided yet. */
static void day_text(mf_day day, char out[MF_DAY_TEXT])
{
    mf_day_text(day == MF_DAY_OPEN ? MF_DAY_NONE : day, out);
}

static json_t *text_or_null(const char *text)
{
    return text == NULL ? json_null() : json_string(text);
}

/* it NULL: nobody holds one that holds. */
static void json_row(const list *l, const char *holder, const char *discipline,
                     const mf_certificate *it, const char *word)
{
    json_t *row = json_object();
    mf_day until = it == NULL ? MF_DAY_NONE : mf_certificate_until(l->firm, it);
    json_object_set_new(row, "holder", text_or_null(holder));
    json_object_set_new(row, "discipline", json_string(discipline));
    json_object_set_new(row, "number", text_or_null(it == NULL ? NULL : it->number));
    json_object_set_new(row, "until", mf_json_day(until == MF_DAY_OPEN ? MF_DAY_NONE : until));
    json_object_set_new(
        row, "amend_by",
        mf_json_day(it == NULL ? MF_DAY_NONE : mf_certificate_amend_by(l->firm, it, l->day)));
    json_object_set_new(
        row, "if_hands_on",
        mf_json_day(it == NULL ? MF_DAY_NONE : mf_certificate_if_hands_on(l->firm, it)));
    json_object_set_new(row, "state", json_string(word));
    json_object_set_new(row, "entry", text_or_null(it == NULL ? NULL : it->src.entry));
    json_array_append_new(l->array, row);
}

/* The other reading of a course of which it is not said whether it had a hands-on part. */
static void other_reading(const list *l, const mf_certificate *it)
{
    char day[MF_DAY_TEXT], line[400];
    mf_day_text(mf_certificate_if_hands_on(l->firm, it), day);
    snprintf(line, sizeof line, "%s %s", mf_cli_word(l->cli, "certificate.hands-on-unsaid"), day);
    fputs("    ", stdout);
    mf_cli_wrap(line, 4, 4);
}

static void text_row(const list *l, const mf_certificate *it, state found)
{
    mf_day until = found == AMEND ? mf_certificate_amend_by(l->firm, it, l->day)
                                  : mf_certificate_until(l->firm, it);
    char day[MF_DAY_TEXT], id[48], line[400];
    day_text(until, day);
    snprintf(id, sizeof id, "certificate.%s", names[found]);
    int n = snprintf(line, sizeof line, "%.48s, %s %.80s: %s%s%s", it->holder,
                     mf_cli_choice("certificate", "discipline", (int)it->discipline), it->number,
                     mf_cli_word(l->cli, id), day[0] == '\0' ? "" : " ", day);
    if (found == RUNS_OUT || found == AMEND)
        snprintf(line + n, sizeof line - (size_t)n, " (%s: %" PRId64 ")",
                 mf_cli_word(l->cli, "certificate.days"), (int64_t)until - l->day);
    bool unsaid = found <= OVER && mf_certificate_if_hands_on(l->firm, it) != MF_DAY_NONE;
    if (good(found))
        fputs(found == HOLDS && !unsaid ? "ok" : "! ", stdout);
    else
        mf_screen_shade("NO", MF_SHADE_NO);
    fputs("  ", stdout);
    mf_cli_wrap(line, 4, 4);
    if (unsaid)
        other_reading(l, it);
}

static void one_row(list *l, const mf_certificate *it)
{
    state found = state_of(l, it);
    l->lacking += !good(found);
    if (l->array != NULL)
        json_row(l, it->holder, mf_cli_choice("certificate", "discipline", (int)it->discipline), it,
                 names[found]);
    else
        text_row(l, it, found);
}

/* What no firm may be without: its own certificate, and one renovator's. */
static void none_row(list *l, const char *word, const char *holder, const char *discipline)
{
    l->lacking++;
    if (l->array != NULL) {
        json_row(l, holder, discipline, NULL, "none");
        return;
    }
    mf_screen_shade("NO", MF_SHADE_NO);
    fputs("  ", stdout);
    mf_cli_wrap(mf_cli_word(l->cli, word), 4, 4);
}

/* Whether somebody holds one that holds on the day. */
static bool held(const list *l, mf_discipline discipline)
{
    bool any = false;
    for (size_t i = 0; i < l->firm->n_certificate; i++)
        any = any || (l->firm->certificate[i].discipline == discipline &&
                      good(state_of(l, &l->firm->certificate[i])));
    return any;
}

static void all_rows(list *l)
{
    for (size_t i = 0; i < l->firm->n_certificate; i++)
        if (!mf_due_replaced(l->firm, &l->firm->certificate[i]))
            one_row(l, &l->firm->certificate[i]);
    if (!held(l, MF_DISC_FIRM))
        none_row(l, "certificate.no-firm", "firm", "firm");
    if (!held(l, MF_DISC_RENOVATOR))
        none_row(l, "certificate.no-renovator", NULL, "renovator");
}

mf_status mf_cmd_certificate_check(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    mf_job *firm = NULL;
    size_t later = 0;
    (void)cmd;
    list l = {.cli = cli, .array = cli->json ? json_array() : NULL};
    mf_status status = mf_cli_day(cli, args, &l.day, &err);
    if (status == MF_OK)
        status = mf_cli_job_until(cli, "", l.day, &firm, &later, &err);
    if (status == MF_OK)
        status = mf_cli_unaltered(cli, firm, &err);
    if (status != MF_OK) {
        json_decref(l.array);
        mf_book_job_free(firm);
        return mf_cli_fail(&err);
    }
    l.firm = firm;
    all_rows(&l);
    if (l.array != NULL)
        status = mf_json_print(l.array);
    else
        mf_cli_caution(cli);
    mf_book_job_free(firm);
    return status != MF_OK ? status : l.lacking == 0 ? MF_OK : MF_NO;
}
