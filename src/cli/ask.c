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
    mf_draft *draft; /* checks what is typed */
    char wrong[700]; /* what was wrong with the last answer */
    char answer[MF_ASK_MAX][MF_ASK_TEXT];
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

static void show(const asking *a, const mf_field *field, int at)
{
    mf_term_page(a->term);
    mf_term_bold(a->term, a->title);
    puts("\n------------------------------------------------------------------------------");
    /* The last few answers stay in sight. */
    for (int i = at > 6 ? at - 6 : 0; i < at; i++)
        if (a->answer[i][0] != '\0')
            printf("  %-18s %.58s\n", a->asks[i].option, a->answer[i]);
    printf("\n  ");
    mf_cli_wrap(question(a, field), 2, 2);
    if (field->choices != NULL)
        print_choices(a, field->choices);
    if (a->wrong[0] != '\0') {
        printf("\n  ");
        mf_cli_wrap(a->wrong, 2, 2);
    }
    putchar('\n');
}

/* A single key for yes or no, or for one of the words; Enter leaves out what is not
 * needed. */
static mf_typed ask_key(const asking *a, const mf_field *field, char *out)
{
    bool yes_no = field->type == MF_F_YESNO;
    printf("  %s", mf_cli_word(a->cli, yes_no ? "ask.keys-yes-no" : "ask.keys-choice"));
    if (!(field->flags & MF_F_NEEDED))
        printf(" | %s", mf_cli_word(a->cli, "ask.keys-skip"));
    for (bool said = false;; said = true) {
        int key = mf_term_key(a->term, -1);
        if (key == MF_KEY_LEAVE || key == 'q')
            return MF_TYPED_LEAVE;
        if (key == 27)
            return MF_TYPED_BACK;
        if ((key == '\r' || key == '\n') && !(field->flags & MF_F_NEEDED)) {
            out[0] = '\0';
            return MF_TYPED_LINE;
        }
        if (yes_no && (key == 'y' || key == 's' || key == 'n')) {
            snprintf(out, MF_ASK_TEXT, "%s", key == 'n' ? "no" : "yes");
            return MF_TYPED_LINE;
        }
        for (int i = 0; !yes_no && field->choices[i] != NULL; i++)
            if (key == choice_key(i)) {
                snprintf(out, MF_ASK_TEXT, "%s", field->choices[i]);
                return MF_TYPED_LINE;
            }
        if (!said)
            printf("\n  %s", mf_cli_word(a->cli, "ask.no-key"));
        fflush(stdout);
    }
}

static mf_typed ask_text(const asking *a, const mf_field *field, const char *otherwise, char *out)
{
    char prompt[MF_ASK_TEXT + 16];
    printf("  %s", mf_cli_word(a->cli, "ask.keys-text"));
    if (!(field->flags & MF_F_NEEDED))
        printf(" | %s", mf_cli_word(a->cli, "ask.keys-skip"));
    if (otherwise != NULL && otherwise[0] != '\0')
        snprintf(prompt, sizeof prompt, "\n\n  [%s] >", otherwise);
    else
        snprintf(prompt, sizeof prompt, "\n\n  >");
    mf_typed typed = mf_term_line(a->term, prompt, out, MF_ASK_TEXT);
    if (typed == MF_TYPED_LINE && out[0] == '\0' && otherwise != NULL)
        snprintf(out, MF_ASK_TEXT, "%s", otherwise);
    return typed;
}

/* The answer before this one to the option that a rule such as "=role ..." names. */
static const char *answer_for(const asking *a, int at, const char *rule)
{
    size_t len = strcspn(rule, " ") - 1;
    for (int by = 0; by < at; by++)
        if (strlen(a->asks[by].option) == len && strncmp(a->asks[by].option, rule + 1, len) == 0)
            return a->answer[by];
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

/* One question; sets wrong and asks again when the answer cannot be taken. */
static mf_typed ask_one(asking *a, int at)
{
    const mf_field *field = mf_field_named(a->kind, a->asks[at].option);
    bool by_key = field->type == MF_F_YESNO || field->type == MF_F_CHOICE;
    mf_err err = {0};
    char text[MF_ASK_TEXT];
    const char *otherwise = otherwise_of(a, at, text);
    a->wrong[0] = '\0';
    for (;;) {
        show(a, field, at);
        mf_typed typed = by_key ? ask_key(a, field, a->answer[at])
                                : ask_text(a, field, otherwise, a->answer[at]);
        if (typed != MF_TYPED_LINE)
            return typed;
        if (a->answer[at][0] == '\0' && !(field->flags & MF_F_NEEDED))
            return typed;
        if (mf_draft_set(a->draft, field->option, a->answer[at], "", "", a->cli->today, &err) ==
            MF_OK)
            return typed;
        snprintf(a->wrong, sizeof a->wrong, "%s; %s", err.what, err.mend);
    }
}

static void take(const asking *a, mf_asked *out)
{
    memset(out, 0, sizeof *out);
    for (int i = 0; i < MF_ASK_MAX && a->asks[i].option != NULL; i++) {
        snprintf(out->text[i], MF_ASK_TEXT, "%s", a->answer[i]);
        if (out->text[i][0] != '\0')
            mf_args_put(&out->args, a->asks[i].option, out->text[i]);
    }
}

bool mf_ask_fields(mf_cli *cli, mf_term *term, const mf_kind *kind, const char *title,
                   const mf_ask *asks, mf_asked *out)
{
    asking a = {.cli = cli, .term = term, .kind = kind, .title = title, .asks = asks};
    int at = 0, by = 1;
    if (mf_draft_new(&a.draft, kind, NULL) != MF_OK)
        return false;
    while (at >= 0 && at < MF_ASK_MAX && asks[at].option != NULL) {
        if (passed_over(&a, at)) {
            a.answer[at][0] = '\0';
            at += by;
            continue;
        }
        mf_typed typed = ask_one(&a, at);
        by = typed == MF_TYPED_LINE ? 1 : -1;
        at = typed == MF_TYPED_LEAVE ? -1 : at + by;
    }
    mf_draft_free(a.draft);
    if (at >= 0)
        take(&a, out);
    return at >= 0;
}
