/* One question a screen; see ask.h. The words are ask.<kind>.<option> and
 * choice.<word> in forms/ask.words, else the field's own line. */
#include "cli/ask.h"

#include <stdio.h>
#include <string.h>

enum { KEYED = 9 }; /* choices with a digit; the keys after them are letters short of q */

typedef struct asking {
    mf_cli *cli;
    mf_term *term;
    const mf_kind *kind;
    const char *title;
    const mf_ask *asks;
    mf_asked *asked;
    mf_draft *draft; /* checks what is typed */
} asking;

static const char *question(const asking *a, const mf_field *field)
{
    char id[96];
    snprintf(id, sizeof id, "ask.%s.%s", a->kind->name, field->option);
    const char *words = mf_words(a->cli->lang, id);
    return words == NULL ? field->doc : words;
}

/* The key of a choice: 1 to 9, then a, b, c ... */
static int choice_key(int i)
{
    return i < KEYED ? '1' + i : 'a' + i - KEYED;
}

/* As the walks call it, or as the papers do. */
static const char *choice_words(const asking *a, const char *word)
{
    static const char *const families[] = {"choice", "paper.component", "paper.substrate",
                                           "paper.delivery"};
    for (size_t i = 0; i < sizeof families / sizeof families[0]; i++) {
        const char *words = mf_words2(a->cli->lang, families[i], word);
        if (words != NULL)
            return words;
    }
    return word;
}

/* One a line; more than nine, which a screen has no room for, in two columns. */
static void print_choices(const asking *a, const char *const *choices)
{
    int n = 0;
    while (choices[n] != NULL)
        n++;
    int rows = n > KEYED ? (n + 1) / 2 : n;
    for (int i = 0; i < rows; i++)
        for (int at = i; at < n; at += rows) {
            printf("    %c  ", choice_key(at));
            if (at + rows < n)
                mf_cli_pad(choice_words(a, choices[at]), 30);
            else
                puts(choice_words(a, choices[at]));
        }
}

/* The question without its sign and what follows its first clause, cut to a column. */
static void print_label(const asking *a, const mf_field *field)
{
    enum { WIDE = 32 };
    char label[4 * WIDE + 8];
    const char *text = question(a, field);
    text += strncmp(text, "¿", strlen("¿")) == 0 ? strlen("¿") : 0;
    size_t stop = strcspn(text, "?.,:;("), len = mf_cli_letters(text, stop, WIDE);
    snprintf(label, sizeof label, "%.*s%s", (int)len, text, len < stop ? "…" : "");
    printf("  ");
    mf_cli_pad(label, WIDE + 3);
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
    mf_term_bold(a->term, a->title);
    puts("\n------------------------------------------------------------------------------");
    /* The last few answers stay in sight. */
    for (int i = at > 6 ? at - 6 : 0; i < at; i++) {
        const mf_field *before = mf_field_named(a->kind, a->asks[i].option);
        if (a->asked->text[i][0] == '\0')
            continue;
        print_label(a, before);
        const char *answer = answer_words(a, before, a->asked->text[i]);
        printf("%.*s\n", (int)mf_cli_letters(answer, strlen(answer), 40), answer);
    }
    printf("\n  ");
    mf_cli_wrap(question(a, field), 2, 2);
    if (field->choices != NULL)
        print_choices(a, field->choices);
    if (a->asked->wrong[0] != '\0') {
        printf("\n  ");
        mf_cli_wrap(a->asked->wrong, 2, 2);
    }
    putchar('\n');
}

/* The keys of this question, and what Enter alone does: it keeps what was answered before,
 * else takes what the program suggests. */
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
    else if (!needed)
        snprintf(keys + len, sizeof keys - len, " | %s", mf_cli_word(a->cli, "ask.keys-skip"));
    if (by_key(field) && enter != NULL && enter[0] != '\0' && !needed)
        snprintf(keys + len, sizeof keys - len, " | %s", mf_cli_word(a->cli, "ask.keys-unsay"));
    mf_term_keys(keys, 2);
}

/* What a key answers: a word of the field, "" for not said, NULL for nothing. s is "sí", and in
 * English the key that skips in every list. */
static const char *key_answer(const mf_field *field, int key, const char *before, mf_lang lang)
{
    bool needed = (field->flags & MF_F_NEEDED) != 0;
    bool yes_no = field->type == MF_F_YESNO;
    if ((key == '\r' || key == '\n') && (before[0] != '\0' || !needed))
        return before;
    if (key == '-' && !needed)
        return "";
    if (yes_no)
        return key == 'y' || (key == 's' && lang == MF_LANG_ES) ? "yes" : key == 'n' ? "no" : NULL;
    for (int i = 0; field->choices[i] != NULL; i++)
        if (key == choice_key(i))
            return field->choices[i];
    return NULL;
}

/* A single key for yes or no, or for one of the words. */
static mf_typed ask_key(const asking *a, const mf_field *field, char *io)
{
    bool yes_no = field->type == MF_F_YESNO;
    print_keys(a, field, yes_no ? "ask.keys-yes-no" : "ask.keys-choice",
               io[0] == '\0' ? NULL : choice_words(a, io));
    for (bool said = false;; said = true) {
        int key = mf_term_key(a->term, -1);
        if (key == MF_KEY_LEAVE || key == 'q')
            return MF_TYPED_LEAVE;
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
static mf_typed ask_text(const asking *a, const mf_field *field, const char *otherwise, char *io)
{
    print_keys(a, field, "ask.keys-text", io[0] == '\0' ? otherwise : io);
    mf_typed typed = mf_term_line(a->term, "\n  >", io, MF_ASK_TEXT);
    if (typed == MF_TYPED_LINE && io[0] == '\0' && otherwise != NULL)
        snprintf(io, MF_ASK_TEXT, "%s", otherwise);
    return typed;
}

/* The answer before this one to the option that a rule such as "=role ..." names. */
static const char *answer_for(const asking *a, int at, const char *rule)
{
    size_t len = strcspn(rule, " ") - 1;
    for (int by = 0; by < at; by++)
        if (strlen(a->asks[by].option) == len && strncmp(a->asks[by].option, rule + 1, len) == 0)
            return a->asked->text[by];
    return "";
}

/* Whether the question is of no use after what was answered. */
static bool passed_over(const asking *a, int at)
{
    const char *rule = a->asks[at].otherwise;
    if (rule == NULL || rule[0] != '?')
        return false;
    const char *answer = answer_for(a, at, rule);
    for (rule += strcspn(rule, " "); *rule != '\0'; rule += strcspn(rule, ",")) {
        rule++;
        if (strlen(answer) == strcspn(rule, ",") && strncmp(rule, answer, strlen(answer)) == 0)
            return false;
    }
    return true;
}

/* What Enter alone stands for, by an earlier answer where it says so. */
static const char *otherwise_of(const asking *a, int at, char out[MF_ASK_TEXT])
{
    const char *text = a->asks[at].otherwise;
    char key[MF_ASK_TEXT];
    if (text == NULL || text[0] != '=')
        return text == NULL || text[0] == '?' ? NULL : text;
    snprintf(key, sizeof key, " %.250s:", answer_for(a, at, text));
    const char *found = strstr(text, key);
    found = found == NULL ? "" : found + strlen(key);
    snprintf(out, MF_ASK_TEXT, "%.*s", (int)strcspn(found, " "), found);
    return out;
}

/* One question; says what is wrong and asks again when the answer cannot be taken. */
static mf_typed ask_one(asking *a, int at)
{
    const mf_field *field = mf_field_named(a->kind, a->asks[at].option);
    char text[MF_ASK_TEXT], before[MF_ASK_TEXT];
    char *answer = a->asked->text[at];
    const char *otherwise = otherwise_of(a, at, text);
    for (;;) {
        mf_err err = {0};
        show(a, field, at);
        snprintf(before, sizeof before, "%s", answer);
        mf_typed typed =
            by_key(field) ? ask_key(a, field, answer) : ask_text(a, field, otherwise, answer);
        a->asked->wrong[0] = '\0';
        if (typed != MF_TYPED_LINE)
            snprintf(answer, MF_ASK_TEXT, "%s", before); /* half a line is no answer */
        if (typed != MF_TYPED_LINE || (answer[0] == '\0' && !(field->flags & MF_F_NEEDED)))
            return typed;
        if (mf_draft_set(a->draft, field->option, answer, "", "", a->cli->today, &err) == MF_OK)
            return typed;
        mf_words_error(a->cli->lang, &err, a->asked->wrong, sizeof a->asked->wrong);
    }
}

static void take(const mf_ask *asks, mf_asked *asked)
{
    memset(&asked->args, 0, sizeof asked->args);
    for (int i = 0; i < MF_ASK_MAX && asks[i].option != NULL; i++)
        if (asked->text[i][0] != '\0')
            mf_args_put(&asked->args, asks[i].option, asked->text[i]);
}

bool mf_ask_fields(mf_cli *cli, mf_term *term, const mf_kind *kind, const char *title,
                   const mf_ask *asks, mf_asked *asked)
{
    asking a = {cli, term, kind, title, asks, asked, NULL};
    int at = asked->from, by = 1;
    if (mf_draft_new(&a.draft, kind, NULL) != MF_OK)
        return false;
    while (at >= 0 && at < MF_ASK_MAX && asks[at].option != NULL) {
        if (passed_over(&a, at)) {
            asked->text[at][0] = '\0';
            at += by;
            continue;
        }
        mf_typed typed = ask_one(&a, at);
        by = typed == MF_TYPED_LINE ? 1 : -1;
        at = typed == MF_TYPED_LEAVE ? -1 : at + by;
    }
    mf_draft_free(a.draft);
    if (at >= 0)
        take(asks, asked);
    return at >= 0;
}

/* The question about the option that "--openings" or "a.csv:3, --openings" names. */
static int question_of(const mf_ask *asks, const char *where)
{
    const char *option = strstr(where, "--");
    int at = 0;
    for (; option != NULL && at < MF_ASK_MAX && asks[at].option != NULL; at++)
        if (strcmp(asks[at].option, option + 2) == 0)
            return at;
    return 0;
}

bool mf_ask_again(const mf_cli *cli, const mf_ask *asks, mf_asked *asked, mf_status status,
                  mf_err *err)
{
    char words[600];
    if (status == MF_OK || status == MF_SYSTEM)
        return false;
    mf_words_error(cli->lang, err, words, sizeof words);
    snprintf(asked->wrong, sizeof asked->wrong, "%s %s", mf_cli_word(cli, "walk.refused"), words);
    asked->from = question_of(asks, err->where);
    memset(err, 0, sizeof *err);
    return true;
}
