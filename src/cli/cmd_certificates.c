/* certificate check: the firm's own checklist, which certificates hold and which run out when. */
#include "cli/due.h"
#include "cli/json.h"
#include "cli/mend.h"
#include "cli/screen.h"

#include <inttypes.h>
#include <mistfold/person.h>
#include <stdio.h>
#include <string.h>

/* How a certificate stands on the day. */
typedef enum state {
    HOLDS,
    RUNS_OUT,
    RENEWING,
    OVER,
    NOT_YET,
    UNDATED,
    WRONG_HOLDER,
    SERVES_NOT,
    UNAMENDED,
    AMEND /* there is time to */
} state;

typedef struct list {
    mf_cli *cli;
    const mf_job *firm;
    mf_day day;
    json_t *array; /* NULL = text */
    size_t lacking;
} list;

static const char *const names[] = {[HOLDS] = "holds",           [RUNS_OUT] = "runs-out",
                                    [RENEWING] = "renewing",     [OVER] = "over",
                                    [NOT_YET] = "not-yet",       [UNDATED] = "undated",
                                    [SERVES_NOT] = "serves-not", [UNAMENDED] = "unamended",
                                    [AMEND] = "amend",           [WRONG_HOLDER] = "wrong-holder"};

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
    if (until == MF_DAY_OPEN)
        return RENEWING;
    return until - l->day <= MF_DUE_CERTIFICATE_DAYS ? RUNS_OUT : HOLDS;
}

static bool good(state it)
{
    return it == HOLDS || it == RUNS_OUT || it == RENEWING || it == AMEND;
}

/* Its last day; where no day is the last yet, the one from which it rests on the renewal. */
static mf_day last_of(const list *l, const mf_certificate *it)
{
    mf_day until = mf_certificate_until(l->firm, it);
    return until == MF_DAY_OPEN ? mf_certificate_last_day_for(l->firm, it) : until;
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
    json_object_set_new(row, "expires", mf_json_day(it == NULL ? MF_DAY_NONE : last_of(l, it)));
    json_object_set_new(row, "renewal_sent",
                        mf_json_day(it == NULL ? MF_DAY_NONE : it->renewal_sent));
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

/* What follows the day. */
static void say_rest(const list *l, const mf_certificate *it, state found, char *out, size_t size)
{
    char sent[MF_DAY_TEXT];
    mf_day_text(it->renewal_sent, sent);
    mf_day last = found == AMEND ? mf_certificate_amend_by(l->firm, it, l->day) : last_of(l, it);
    if (found == RUNS_OUT || found == AMEND)
        snprintf(out, size, " (%s: %" PRId64 ")", mf_cli_word(l->cli, "certificate.days"),
                 (int64_t)last - l->day);
    else if (found == RENEWING)
        snprintf(out, size, "; %s %s", mf_cli_word(l->cli, "certificate.by-renewal"), sent);
}

/* By the renewal alone it holds until somebody decides: that is to be watched. */
static bool plain(const list *l, const mf_certificate *it, state found)
{
    return found == HOLDS || (found == RENEWING && l->day <= last_of(l, it));
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
    char day[MF_DAY_TEXT], id[48], line[600];
    mf_day_text(found == AMEND ? mf_certificate_amend_by(l->firm, it, l->day) : last_of(l, it),
                day);
    snprintf(id, sizeof id, "certificate.%s", names[found]);
    int n = snprintf(line, sizeof line, "%.48s, %s %.80s: %s%s%s", it->holder,
                     mf_cli_choice("certificate", "discipline", (int)it->discipline), it->number,
                     mf_cli_word(l->cli, id), day[0] == '\0' ? "" : " ", day);
    bool unsaid = found <= OVER && mf_certificate_if_hands_on(l->firm, it) != MF_DAY_NONE;
    say_rest(l, it, found, line + n, sizeof line - (size_t)n);
    if (good(found))
        fputs(plain(l, it, found) && !unsaid ? "ok" : "! ", stdout);
    else
        mf_screen_shade("NO", MF_SHADE_NO);
    fputs("  ", stdout);
    mf_cli_wrap(line, 4, 4);
    if (unsaid)
        other_reading(l, it);
}

/* The first that is lacking is the next step. */
static void lacks(list *l, const char *holder, const char *discipline)
{
    const mf_slot slots[] = {{"HOLDER", holder}, {"DISCIPLINE", discipline}};
    if (l->lacking++ == 0)
        mf_command_of(l->cli->next,
                      "certificate add --holder HOLDER --discipline DISCIPLINE --number ... "
                      "--issuer ... --issued ... --expires ...",
                      slots, 2);
}

static void one_row(list *l, const mf_certificate *it)
{
    state found = state_of(l, it);
    if (!good(found))
        lacks(l, it->holder, mf_cli_choice("certificate", "discipline", (int)it->discipline));
    if (l->array != NULL)
        json_row(l, it->holder, mf_cli_choice("certificate", "discipline", (int)it->discipline), it,
                 names[found]);
    else
        text_row(l, it, found);
}

/* What no firm may be without: its own certificate, and one renovator's. */
static void none_row(list *l, const char *word, const char *holder, const char *discipline)
{
    lacks(l, holder == NULL ? "" : holder, discipline);
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
