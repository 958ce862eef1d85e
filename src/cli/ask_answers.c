/* What was answered on the screens of ask.c, and the way back to the question
 * whose answer was refused. */
#include "cli/ask.h"

#include <stdio.h>
#include <string.h>

const char *mf_ask_choice(mf_lang lang, const char *word)
{
    return mf_words2(lang, "choice", strcmp(word, MF_ASK_BOTH) == 0 ? "windows-and-doors" : word);
}

const char *mf_ask_answer(const mf_ask *asks, const mf_asked *asked, const char *option)
{
    for (int i = 0; i < MF_ASK_MAX && asks[i].option != NULL; i++)
        if (strcmp(asks[i].option, option) == 0)
            return asked->text[i];
    return "";
}

bool mf_ask_enough(const mf_kind *kind, const mf_args *args)
{
    for (size_t i = 0; i < kind->n_fields; i++)
        if ((kind->fields[i].flags & MF_F_NEEDED) != 0 &&
            mf_args_value(args, kind->fields[i].option) == NULL)
            return false;
    return true;
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
