/* certificate check: the firm's own checklist, which certificates hold and which run out when. */
#include "cli/due.h"
#include "cli/json.h"
#include "cli/mend.h"
#include "cli/screen.h"

#include <inttypes.h>
#include <mistfold/person.h>
#include <stdio.h>
#include <string.h>

/* How a certificate stands on the day; up to OVER by its last day alone. */
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
    AMEND, /* there is time to */
    NONE   /* nobody holds one that holds */
} state;

/* With the days that say so. */
typedef struct standing {
    const mf_certificate *it;
    state state;
    mf_day until, last; /* last: where no day is, the one from which it rests on the renewal */
    mf_day amend_by, if_hands_on;
    const mf_certificate *unsaid; /* the course of which nobody said whether it was hands-on, where
                                     for that it is presumed to serve for nothing */
} standing;

typedef struct list {
    mf_cli *cli;
    const mf_job *firm;
    mf_day day;
    json_t *array; /* NULL = text */
    size_t lacking;
} list;

static const char *const names[] = {[HOLDS] = "holds",
                                    [RUNS_OUT] = "runs-out",
                                    [RENEWING] = "renewing",
                                    [OVER] = "over",
                                    [NOT_YET] = "not-yet",
                                    [UNDATED] = "undated",
                                    [SERVES_NOT] = "serves-not",
                                    [UNAMENDED] = "unamended",
                                    [AMEND] = "amend",
                                    [WRONG_HOLDER] = "wrong-holder",
                                    [NONE] = "none"};

/* The firm is asked for its own certificate, a person for every other (745.89(a), 745.90). */
static bool held_by_its_own(const mf_certificate *it)
{
    return (strcmp(it->holder, "firm") == 0) == (it->discipline == MF_DISC_FIRM);
}

static state state_of(const list *l, const mf_certificate *it, mf_day until, mf_day amend_by)
{
    if (!held_by_its_own(it))
        return WRONG_HOLDER;
    if (it->issued == MF_DAY_NONE || until == MF_DAY_NONE)
        return UNDATED;
    if (l->day < it->issued)
        return NOT_YET;
    if (mf_certificate_serves_not(l->firm, it))
        return SERVES_NOT; /* it never held, also when it would be over by now */
    if (l->day > until)
        return OVER;
    if (mf_certificate_unamended(l->firm, it, l->day))
        return UNAMENDED;
    if (amend_by != MF_DAY_NONE && amend_by < until)
        return AMEND;
    if (until == MF_DAY_OPEN)
        return RENEWING;
    return until - l->day <= MF_DUE_CERTIFICATE_DAYS ? RUNS_OUT : HOLDS;
}

static standing look(const list *l, const mf_certificate *it)
{
    standing s = {.it = it,
                  .until = mf_certificate_until(l->firm, it),
                  .last = mf_certificate_last_day_for(l->firm, it),
                  .amend_by = mf_certificate_amend_by(l->firm, it, l->day),
                  .if_hands_on = mf_certificate_if_hands_on(l->firm, it),
                  .unsaid = mf_certificate_presumed_online(l->firm, it)};
    if (s.until != MF_DAY_OPEN)
        s.last = s.until;
    s.state = state_of(l, it, s.until, s.amend_by);
    return s;
}

static bool good(state it)
{
    return it == HOLDS || it == RUNS_OUT || it == RENEWING || it == AMEND;
}

static const char *discipline_of(const mf_certificate *it)
{
    return mf_cli_choice("certificate", "discipline", (int)it->discipline);
}

static json_t *text_or_null(const char *text)
{
    return text == NULL ? json_null() : json_string(text);
}

/* Whether it is judged as it is because nobody said whether a course had a hands-on part. */
static bool presumed(const standing *s)
{
    return s->state == SERVES_NOT ? s->unsaid != NULL
                                  : s->state <= OVER && s->if_hands_on != MF_DAY_NONE;
}

static void json_row(const list *l, const standing *s)
{
    json_t *row = json_object();
    json_object_set_new(row, "holder", text_or_null(s->it->holder));
    json_object_set_new(row, "discipline", json_string(discipline_of(s->it)));
    json_object_set_new(row, "number", text_or_null(s->it->number));
    bool no_day = s->until == MF_DAY_OPEN || s->state == SERVES_NOT;
    json_object_set_new(row, "until", mf_json_day(no_day ? MF_DAY_NONE : s->until));
    json_object_set_new(row, "expires", mf_json_day(s->it->expires));
    json_object_set_new(row, "renewal_sent", mf_json_day(s->it->renewal_sent));
    json_object_set_new(row, "amend_by", mf_json_day(s->amend_by));
    json_object_set_new(row, "if_hands_on", mf_json_day(s->if_hands_on));
    json_object_set_new(row, "presumed", json_boolean(presumed(s)));
    json_object_set_new(row, "state", json_string(names[s->state]));
    json_object_set_new(row, "entry", text_or_null(s->it->src.entry));
    json_array_append_new(l->array, row);
}

/* The day that is told first, and how far away it is. */
static mf_day told_day(const standing *s)
{
    return s->state == AMEND ? s->amend_by : s->state == SERVES_NOT ? s->it->expires : s->last;
}

/* What follows the day. */
static void say_rest(const list *l, const standing *s, char *out, size_t size)
{
    char sent[MF_DAY_TEXT];
    mf_day_text(s->it->renewal_sent, sent);
    if (s->state == RUNS_OUT || s->state == AMEND)
        snprintf(out, size, " (%s: %" PRId64 ")", mf_cli_word(l->cli, "certificate.days"),
                 (int64_t)told_day(s) - l->day);
    else if (s->state == RENEWING)
        snprintf(out, size, "; %s %s", mf_cli_word(l->cli, "certificate.by-renewal"), sent);
}

/* By the renewal alone it holds until somebody decides: that is to be watched. */
static bool plain(const list *l, const standing *s)
{
    return s->state == HOLDS || (s->state == RENEWING && l->day <= s->last);
}

/* What would be so if it had: until when it would hold; or of which course it is to be said. */
static void other_reading(const list *l, const standing *s)
{
    char day[MF_DAY_TEXT], line[400];
    bool serves_not = s->state == SERVES_NOT;
    mf_day_text(s->if_hands_on, day);
    snprintf(line, sizeof line, "%s %.80s",
             mf_cli_word(l->cli, serves_not ? "certificate.presumed-online"
                                            : "certificate.hands-on-unsaid"),
             serves_not ? s->unsaid->number : day);
    fputs("    ", stdout);
    mf_cli_wrap(line, 4, 4);
}

/* The last correction of the entry; NULL = it stands as it was logged. */
static const mf_correction *correction_of(const mf_job *firm, const mf_certificate *it)
{
    for (size_t i = 0; i < firm->n_correction; i++)
        if (it->src.correction != NULL &&
            strcmp(firm->correction[i].src.entry, it->src.correction) == 0)
            return &firm->correction[i];
    return NULL;
}

/* What was corrected in it, as an answer about a job tells it, too. */
static void corrected(const list *l, const mf_certificate *it)
{
    char line[600];
    const mf_correction *fix = correction_of(l->firm, it);
    const mf_finding told = {.why = "correction-of-result",
                             .subject = it->src.entry,
                             .told = fix == NULL ? "" : fix->reason,
                             .fix = fix,
                             .was = fix == NULL ? NULL : mf_corrected_from(l->firm, fix)};
    if (told.was == NULL)
        return;
    mf_words_why(l->cli->lang, &told, line, sizeof line);
    fputs("    ", stdout);
    mf_cli_wrap(line, 4, 4);
}

static void text_row(const list *l, const standing *s)
{
    char day[MF_DAY_TEXT], id[48], line[600];
    mf_day_text(told_day(s), day);
    snprintf(id, sizeof id, "certificate.%s", names[s->state]);
    int n =
        snprintf(line, sizeof line, "%.48s, %s %.80s: %s%s%s", s->it->holder, discipline_of(s->it),
                 s->it->number, mf_cli_word(l->cli, id), day[0] == '\0' ? "" : " ", day);
    bool unsaid = presumed(s);
    say_rest(l, s, line + n, sizeof line - (size_t)n);
    if (good(s->state))
        fputs(plain(l, s) && !unsaid ? "ok" : "! ", stdout);
    else
        mf_screen_shade("NO", MF_SHADE_NO);
    fputs("  ", stdout);
    mf_cli_wrap(line, 4, 4);
    if (unsaid)
        other_reading(l, s);
    corrected(l, s->it);
}

/* What mends it: a new one, or what is wrong in this one. */
static const char *mend_of(const standing *s)
{
    switch (s->state) {
    case UNDATED:
        return s->it->issued == MF_DAY_NONE ? "entry correct ENTRY --set issued=... --reason ..."
                                            : "entry correct ENTRY --set expires=... --reason ...";
    case WRONG_HOLDER: /* the same words with another holder would be of somebody else */
        return "entry withdraw ENTRY --reason ...";
    case UNAMENDED:
        return "entry correct ENTRY --set amended=... --reason ...";
    case SERVES_NOT:
        if (s->unsaid != NULL)
            return "entry correct ENTRY --set hands-on=... --reason ...";
        return "certificate add --holder HOLDER --discipline DISCIPLINE --hands-on yes "
               "--number ... --issuer ... --issued ... --expires ...";
    default:
        return "certificate add --holder HOLDER --discipline DISCIPLINE --number ... "
               "--issuer ... --issued ... --expires ...";
    }
}

/* The first that is lacking is the next step. */
static void lacks(list *l, const standing *s)
{
    const mf_certificate *it = s->it,
                         *to_say = s->state == SERVES_NOT && s->unsaid != NULL ? s->unsaid : it;
    const mf_slot slots[] = {{"HOLDER", it->holder == NULL ? "" : it->holder},
                             {"DISCIPLINE", discipline_of(it)},
                             {"ENTRY", to_say->src.entry == NULL ? "" : to_say->src.entry}};
    if (l->lacking++ == 0)
        mf_command_of(l->cli->next, mend_of(s), slots, sizeof slots / sizeof slots[0]);
}

static void one_row(list *l, const mf_certificate *it)
{
    const standing found = look(l, it);
    if (!good(found.state))
        lacks(l, &found);
    if (l->array != NULL)
        json_row(l, &found);
    else
        text_row(l, &found);
}

/* What no firm may be without: its own certificate, and one renovator's. */
static void none_row(list *l, const char *word, const char *holder, mf_discipline discipline)
{
    const mf_certificate nobodys = {.holder = holder,
                                    .discipline = discipline,
                                    .expires = MF_DAY_NONE,
                                    .renewal_sent = MF_DAY_NONE};
    const standing none = {&nobodys,    NONE,        MF_DAY_NONE, MF_DAY_NONE,
                           MF_DAY_NONE, MF_DAY_NONE, NULL};
    lacks(l, &none);
    if (l->array != NULL) {
        json_row(l, &none);
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
                      good(look(l, &l->firm->certificate[i]).state));
    return any;
}

static void all_rows(list *l)
{
    for (size_t i = 0; i < l->firm->n_certificate; i++)
        if (!mf_certificate_replaced(l->firm, &l->firm->certificate[i]))
            one_row(l, &l->firm->certificate[i]);
    if (!held(l, MF_DISC_FIRM))
        none_row(l, "certificate.no-firm", "firm", MF_DISC_FIRM);
    if (!held(l, MF_DISC_RENOVATOR))
        none_row(l, "certificate.no-renovator", NULL, MF_DISC_RENOVATOR);
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
