/* One question a screen; see ask.h. The words are ask.<kind>.<option> and
 * choice.<word> in forms/ask.words, else the field's own line. */
#include "cli/ask_rule.h"

#include "cli/usual.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { SEEN = 6 };  /* answers that stay in sight */
enum { KEYED = 9 }; /* choices with a digit; the keys after them are letters short of q */

static const mf_field guides[] = {
    {.name = MF_ASK_RARE, .option = MF_ASK_RARE, .type = MF_F_YESNO, .doc = ""},
    {.name = MF_ASK_ALIKE,
     .option = MF_ASK_ALIKE,
     .type = MF_F_INT,
     .min = 1,
     .max = 40,
     .doc = ""},
    {.name = MF_ASK_PAPER, .option = MF_ASK_PAPER, .type = MF_F_YESNO, .doc = ""},
    /* what is not said decides nothing: the one or the other job would get what follows */
    {.name = MF_ASK_OTHER,
     .option = MF_ASK_OTHER,
     .type = MF_F_YESNO,
     .flags = MF_F_NEEDED,
     .doc = ""},
};

typedef struct asking {
    mf_cli *cli;
    mf_term *term;
    const mf_kind *kind;
    const char *title;
    const mf_ask *asks;
    mf_asked *asked;
    mf_draft *draft; /* checks what is typed */
} asking;

static mf_ask_given given(const asking *a)
{
    return (mf_ask_given){a->cli, a->asks, a->asked};
}

/* The field of the kind, or what only leads to some. */
static const mf_field *field_at(const asking *a, int at)
{
    const mf_field *field = mf_field_named(a->kind, a->asks[at].option);
    for (size_t i = 0; field == NULL && i < sizeof guides / sizeof guides[0]; i++)
        if (strcmp(guides[i].option, a->asks[at].option) == 0)
            field = &guides[i];
    return field;
}

static bool is_guide(const mf_field *field)
{
    return field >= guides && field < guides + sizeof guides / sizeof guides[0];
}

static const char *question(const asking *a, int at)
{
    char id[96];
    const mf_field *field = field_at(a, at);
    snprintf(id, sizeof id, "ask.%s.%s", a->kind->name, field->option);
    const char *words = mf_words(a->cli->lang, a->asks[at].words == NULL ? id : a->asks[at].words);
    return words == NULL ? field->doc : words;
}

/* The words of a field's list, and where a house has windows and doors replaced, both at once. */
static const char *const *choices_of(const mf_field *field)
{
    enum { MOST = 16 };
    static const char *works[MOST];
    int n = 0;
    if (field->choices == NULL || strcmp(field->option, "work") != 0)
        return field->choices;
    for (; n < MOST - 2 && field->choices[n] != NULL; n++)
        works[n] = field->choices[n];
    works[n] = MF_ASK_BOTH;
    works[n + 1] = NULL;
    return works;
}

/* The key of a choice: 1 to 9, then a, b, c ... */
static int choice_key(int i)
{
    return i < KEYED ? '1' + i : 'a' + i - KEYED;
}

/* As the walks call it, or as the papers do. */
static const char *choice_words(const asking *a, const char *word)
{
    static const char *const families[] = {"paper.component", "paper.substrate", "paper.delivery"};
    const char *words = mf_ask_choice(a->cli->lang, word);
    for (size_t i = 0; words == NULL && i < sizeof families / sizeof families[0]; i++)
        words = mf_words2(a->cli->lang, families[i], word);
    return words == NULL ? word : words;
}

static void print_cut(const char *words, int wide)
{
    size_t all = strlen(words), len = mf_cli_letters(words, all, wide);
    printf("%.*s%s\n", (int)len, words, len < all ? "…" : "");
}

/* One a line; more than nine, which a screen has no room for, in two columns. */
static void print_choices(const asking *a, const char *const *choices)
{
    enum { KEY_WIDTH = 10 };
    int n = 0, wide = mf_cli_columns() / 2 - KEY_WIDTH;
    while (choices[n] != NULL)
        n++;
    int rows = n > KEYED ? (n + 1) / 2 : n;
    for (int i = 0; i < rows; i++)
        for (int at = i; at < n; at += rows) {
            printf("    %c  ", choice_key(at));
            if (at + rows < n)
                mf_cli_pad(choice_words(a, choices[at]), wide);
            else
                print_cut(choice_words(a, choices[at]), n > KEYED ? wide : mf_cli_columns() - 7);
        }
}

/* The question without its sign and what follows its first clause, cut to a column. */
static int print_label(const asking *a, int at)
{
    enum { WIDE = 32, NARROW = 22 };
    int wide = mf_cli_columns() < 78 ? NARROW : WIDE;
    char label[4 * WIDE + 8];
    const char *text = question(a, at);
    text += strncmp(text, "¿", strlen("¿")) == 0 ? strlen("¿") : 0;
    size_t stop = strcspn(text, "?.,:;("), len = mf_cli_letters(text, stop, wide);
    snprintf(label, sizeof label, "%.*s%s", (int)len, text, len < stop ? "…" : "");
    printf("  ");
    mf_cli_pad(label, wide + 3);
    return mf_cli_columns() - wide - 5;
}

/* Answered by one key, not by a line of typing; of a list of words one is taken. */
static bool by_key(const mf_field *field)
{
    return field->type == MF_F_YESNO || field->choices != NULL;
}

static const char *answer_words(const asking *a, const mf_field *field, const char *answer)
{
    return by_key(field) ? choice_words(a, answer) : answer;
}

static void show(const asking *a, const mf_field *field, int at)
{
    mf_term_page(a->term);
    mf_term_title(a->title);
    mf_term_rule_of(a->term);
    /* The last few answers stay in sight. */
    for (int i = at > SEEN ? at - SEEN : 0; i < at; i++) {
        const mf_field *before = field_at(a, i);
        if (a->asked->text[i][0] == '\0')
            continue;
        int wide = print_label(a, i);
        const char *answer = answer_words(a, before, a->asked->text[i]);
        printf("%.*s\n", (int)mf_cli_letters(answer, strlen(answer), wide), answer);
    }
    mf_term_gap();
    printf("  ");
    mf_cli_wrap(question(a, at), 2, 2);
    if (field->choices != NULL)
        print_choices(a, choices_of(field));
    if (a->asked->wrong[0] != '\0') {
        printf("\n  ");
        mf_cli_wrap(a->asked->wrong, 2, 2);
    }
    putchar('\n');
}

/* The keys of this question, and what Enter alone does: it keeps what was answered before,
 * else takes what the program suggests ("" = nothing). NULL = nothing is said of it, as a line
 * that cannot stand as it is stands there. */
static void print_keys(const asking *a, const mf_field *field, const char *keys_id,
                       const char *enter)
{
    char keys[MF_ASK_TEXT + 200];
    bool needed = (field->flags & MF_F_NEEDED) != 0;
    size_t len = (size_t)snprintf(keys, sizeof keys, "%s", mf_cli_word(a->cli, keys_id));
    if (enter != NULL && enter[0] != '\0')
        len += (size_t)snprintf(keys + len, sizeof keys - len, " | %s: %.*s",
                                mf_cli_word(a->cli, "ask.keys-enter"),
                                (int)mf_cli_letters(enter, strlen(enter), 40), enter);
    else if (enter != NULL && !needed)
        snprintf(keys + len, sizeof keys - len, " | %s", mf_cli_word(a->cli, "ask.keys-skip"));
    if (by_key(field) && enter != NULL && enter[0] != '\0' && !needed)
        snprintf(keys + len, sizeof keys - len, " | %s", mf_cli_word(a->cli, "ask.keys-unsay"));
    mf_term_keys(keys, 2);
}

bool mf_ask_yes(int key, mf_lang lang)
{
    return key == 'y' || (key == 's' && lang == MF_LANG_ES);
}

/* What a key answers: a word of the field, "" for not said, NULL for nothing. */
static const char *key_answer(const mf_field *field, int key, const char *before, mf_lang lang)
{
    bool needed = (field->flags & MF_F_NEEDED) != 0;
    bool yes_no = field->type == MF_F_YESNO;
    if ((key == '\r' || key == '\n') && (before[0] != '\0' || !needed))
        return before;
    if (key == '-' && !needed)
        return "";
    if (yes_no)
        return mf_ask_yes(key, lang) ? "yes" : key == 'n' ? "no" : NULL;
    const char *const *choices = choices_of(field);
    for (int i = 0; choices[i] != NULL; i++)
        if (key == choice_key(i))
            return choices[i];
    return NULL;
}

/* A single key for yes or no, or for one of the words. */
static mf_typed ask_key(const asking *a, const mf_field *field, char *io)
{
    bool yes_no = field->type == MF_F_YESNO;
    print_keys(a, field, yes_no ? "ask.keys-yes-no" : "ask.keys-choice",
               io[0] == '\0' ? "" : choice_words(a, io));
    for (bool said = false;; said = true) {
        int key = mf_term_key(a->term, -1);
        if (key == MF_KEY_LEAVE || key == 'q')
            return MF_TYPED_LEAVE;
        if (key == MF_KEY_NONE)
            return MF_TYPED_SIZED;
        if (key == 27)
            return MF_TYPED_BACK;
        const char *answer = key_answer(field, key, io, a->cli->lang);
        if (answer != NULL) {
            memmove(io, answer, strlen(answer) + 1); /* it may be io itself */
            return MF_TYPED_LINE;
        }
        if (!said)
            printf("  %s", mf_cli_word(a->cli, "ask.no-key"));
        fflush(stdout);
    }
}

/* One line; what was answered before stands there to be gone on with. */
static mf_typed ask_text(const asking *a, const mf_field *field, const char *otherwise, char *io,
                         bool on)
{
    const char *suggested = otherwise == NULL ? "" : otherwise;
    bool stands = !on && a->asked->wrong[0] == '\0';
    print_keys(a, field, "ask.keys-text", !stands ? NULL : io[0] == '\0' ? suggested : io);
    mf_typed typed = mf_term_line_sized(a->term, "  >", io, MF_ASK_TEXT, on);
    if (typed == MF_TYPED_LINE && io[0] == '\0' && otherwise != NULL)
        snprintf(io, MF_ASK_TEXT, "%s", otherwise);
    return typed;
}

/* "12 x 10" as the length answers the width too, and then true is returned; feet by feet are so
 * many square feet. */
static bool take_sides(const asking *a, const mf_field *field, int at)
{
    char length[MF_SIDE_TEXT], width[MF_SIDE_TEXT], *answer = a->asked->text[at];
    const char *next = a->asks[at + 1].option;
    if (field->type != MF_F_HUNDREDTHS || !mf_two_sides(answer, length, width))
        return false;
    if (strcmp(field->option, "length") == 0 && next != NULL && strcmp(next, "width") == 0) {
        snprintf(answer, MF_ASK_TEXT, "%s", length);
        snprintf(a->asked->text[at + 1], MF_ASK_TEXT, "%s", width);
        return true;
    }
    if (mf_square_feet(answer, length))
        snprintf(answer, MF_ASK_TEXT, "%s", length);
    return false;
}

/* "oh" is the state US-OH. */
static void take_state(const mf_field *field, char *answer)
{
    char place[8];
    if ((field->flags & MF_F_PLACE) == 0 || strlen(answer) != 2)
        return;
    snprintf(place, sizeof place, "US-%.2s", answer);
    mf_places_write(place);
    if (mf_place_is_state(place, strlen(place)))
        snprintf(answer, MF_ASK_TEXT, "%s", place);
}

/* As it is checked when it is logged; what is no field by its type. */
static bool is_good(const asking *a, const mf_field *field, const char *answer)
{
    mf_err err = {0};
    mf_parsed parsed;
    bool good =
        is_guide(field)
            ? mf_field_parse(field, answer, "", a->cli->today, &parsed) == MF_SLIP_NONE
            : mf_draft_set(a->draft, field->option, answer, "", "", a->cli->today, &err) == MF_OK;
    if (good)
        return true;
    if (is_guide(field))
        snprintf(a->asked->wrong, sizeof a->asked->wrong, "%s", mf_cli_word(a->cli, "ask.range"));
    else
        mf_words_error(a->cli->lang, &err, a->asked->wrong, sizeof a->asked->wrong);
    return false;
}

/* What was typed, as an answer; of two sides both are checked while their line still stands. */
static bool is_taken(const asking *a, const mf_field *field, int at)
{
    char typed[MF_ASK_TEXT], *answer = a->asked->text[at];
    snprintf(typed, sizeof typed, "%s", answer);
    take_state(field, answer);
    bool both = take_sides(a, field, at);
    if (is_good(a, field, answer) &&
        (!both || is_good(a, field_at(a, at + 1), a->asked->text[at + 1])))
        return true;
    if (both) {
        a->asked->text[at + 1][0] = '\0';
        snprintf(answer, MF_ASK_TEXT, "%s", typed);
    }
    return false;
}

/* One question; says what is wrong and asks again when the answer cannot be taken. */
static mf_typed ask_one(asking *a, int at)
{
    const mf_field *field = field_at(a, at);
    char text[MF_ASK_TEXT], before[MF_ASK_TEXT];
    char *answer = a->asked->text[at];
    const mf_ask_given before_it = given(a);
    const char *otherwise = mf_ask_otherwise(&before_it, at, text);
    snprintf(before, sizeof before, "%s", answer);
    for (mf_typed typed = MF_TYPED_LINE;;) {
        show(a, field, at);
        bool on = typed == MF_TYPED_SIZED_ON; /* half a line stands there already */
        typed =
            by_key(field) ? ask_key(a, field, answer) : ask_text(a, field, otherwise, answer, on);
        if (typed == MF_TYPED_SIZED || typed == MF_TYPED_SIZED_ON)
            continue;
        a->asked->wrong[0] = '\0';
        if (typed != MF_TYPED_LINE) /* half a line is no answer, nor is one that was refused */
            snprintf(answer, MF_ASK_TEXT, "%s", before);
        if (typed != MF_TYPED_LINE || (answer[0] == '\0' && !(field->flags & MF_F_NEEDED)))
            return typed;
        if (is_taken(a, field, at))
            return typed;
    }
}

static void take(const asking *a)
{
    memset(&a->asked->args, 0, sizeof a->asked->args);
    for (int i = 0; i < MF_ASK_MAX && a->asks[i].option != NULL; i++)
        if (a->asked->text[i][0] != '\0' && !is_guide(field_at(a, i)))
            mf_args_put(&a->asked->args, a->asks[i].option, a->asked->text[i]);
}

/* The width that came with the length is not asked for. */
static bool came_along(const asking *a, int at, int by, const char *before)
{
    return by > 0 && at > 0 && strcmp(a->asks[at].option, "width") == 0 &&
           strcmp(a->asks[at - 1].option, "length") == 0 && strcmp(a->asked->text[at], before) != 0;
}

/* An answer that follows from another one. */
static void follow(mf_asked *asked, int at, const char *answer)
{
    asked->followed[at] = asked->followed[at] || strcmp(asked->text[at], answer) != 0;
    snprintf(asked->text[at], MF_ASK_TEXT, "%s", answer);
}

/* It follows no more when the question is asked after all: Enter alone is not to stand for it. */
static void unfollow(mf_asked *asked, int at)
{
    if (asked->followed[at])
        asked->text[at][0] = '\0';
    asked->followed[at] = false;
}

/* All questions from the one to begin with; the place behind the last, or < 0 = left. */
static int ask_all(asking *a)
{
    int at = a->asked->from, by = 1;
    const int first = at;
    bool again = a->asked->wrong[0] != '\0'; /* that one is asked whatever its rule */
    char out[MF_ASK_TEXT], width[MF_ASK_TEXT] = "";
    const mf_ask_given all = given(a);
    while (at >= 0 && at < MF_ASK_MAX && a->asks[at].option != NULL) {
        if (!(again && at == first) && mf_ask_passed_over(&all, at, out)) {
            follow(a->asked, at, out);
            at += by;
            continue;
        }
        unfollow(a->asked, at);
        if (came_along(a, at, by, width)) {
            at += by;
            continue;
        }
        if (at + 1 < MF_ASK_MAX)
            snprintf(width, sizeof width, "%s", a->asked->text[at + 1]);
        mf_typed typed = ask_one(a, at);
        if (typed == MF_TYPED_LEAVE) {
            a->asked->broken_off = true;
            return -1;
        }
        by = typed == MF_TYPED_LINE ? 1 : -1;
        at += by;
    }
    return at;
}

bool mf_ask_fields(mf_cli *cli, mf_term *term, const mf_kind *kind, const char *title,
                   const mf_ask *asks, mf_asked *asked)
{
    asking a = {cli, term, kind, title, asks, asked, NULL};
    asked->broken_off = false;
    if (mf_draft_new(&a.draft, kind, NULL) != MF_OK)
        return false;
    int at = ask_all(&a);
    mf_draft_free(a.draft);
    take(&a);
    return at >= 0;
}
