/* job walk: opens a job by asking, then offers what follows from what is known, as long as
 * somebody wants to. Each answer that can be an entry is one at once. */
#include "cli/walk_job.h"

#include <stdio.h>
#include <string.h>

static void show_menu(mf_walk *walk)
{
    char left[120], next[MF_WALK_LINE];
    mf_cover_answer cover;
    mf_cover_judge(walk->job, &cover);
    snprintf(left, sizeof left, "%.60s", walk->job->house[0].address);
    mf_walk_head(walk, left);
    mf_term_gap();
    if (!mf_term_low() || walk->said[0] == '\0') { /* what was just said goes first */
        printf("  ");
        mf_cli_wrap(mf_words_cover(walk->cli->lang, cover.why), 2, 2);
    }
    mf_term_gap();
    int wide = mf_cli_columns() - 10;
    for (int i = 0; i < MF_ROUNDS; i++) {
        char title[200];
        const char *words = mf_walk_word(walk, mf_round_at(i)->title_id);
        snprintf(title, sizeof title, "%.*s", (int)mf_cli_letters(words, strlen(words), wide),
                 words);
        printf("  %d  ", i + 1);
        mf_cli_pad(title, wide < 52 ? wide : 52);
        printf(" %zu\n", mf_round_count(walk->job, i));
    }
    mf_offer_words(walk, next);
    if (next[0] != '\0') {
        mf_term_gap();
        const char *words = mf_walk_word(walk, "jobwalk.next");
        printf("  %s ", words);
        mf_cli_wrap(next, 2, 2 + mf_cli_characters(words, strlen(words)) + 1);
    }
    mf_walk_foot(walk, next[0] == '\0' ? "jobwalk.keys" : "jobwalk.keys-next");
}

/* What follows, one after the other, until nothing does or somebody goes back to the menu. */
static mf_status offer(mf_walk *walk, mf_err *err)
{
    bool done = true;
    mf_status status = MF_OK;
    while (status == MF_OK && done)
        status = mf_offer_run(walk, &done, err);
    return status == MF_NO ? MF_OK : status;
}

static bool is_covered(const mf_walk *walk)
{
    mf_cover_answer cover;
    mf_cover_judge(walk->job, &cover);
    return cover.cover == MF_COVER_YES;
}

static mf_status menu_key(mf_walk *walk, int key, mf_err *err)
{
    mf_status status = MF_OK;
    if (key == '\r' || key == '\n')
        status = offer(walk, err);
    else if (key >= '1' && key < '1' + MF_ROUNDS)
        status = mf_round_run(walk, mf_round_at(key - '1'), NULL, NULL, 0, err);
    else if (key == 'l' || key == 'u')
        status = mf_walk_back(walk, key == 'u', NULL, err);
    else
        mf_walk_no_key(walk, key);
    return status == MF_NO ? MF_OK : status;
}

static mf_status go_on(mf_walk *walk, mf_err *err)
{
    mf_status status = MF_OK;
    while (status == MF_OK) {
        show_menu(walk);
        int key = mf_term_key(&walk->term, -1);
        if (key == 'q' || key == MF_KEY_LEAVE)
            return MF_NO;
        status = menu_key(walk, key, err);
    }
    return status;
}

mf_status mf_cmd_walk_job(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    mf_walk walk = {.cli = cli, .cmd = cmd, .gate = MF_GATE_DEMO};
    const char *id = mf_args_value(args, "job");
    mf_status status =
        mf_walk_begin(&walk, id == NULL ? "" : id, "use \"mistfold job open\" instead", &err);
    if (status == MF_OK && id == NULL) {
        status = mf_round_house(&walk, args, &err);
        /* else the menu says so at once, or that one is in a job that was open */
        if (status == MF_OK && walk.logged > 0 && is_covered(&walk))
            status = offer(&walk, &err);
    }
    if (status == MF_OK)
        status = go_on(&walk, &err);
    return mf_walk_close(&walk, status, &err);
}
