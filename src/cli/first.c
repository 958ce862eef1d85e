/* The first hour: who the firm is and what its certificates are, asked one after
 * the other when a book is made at a terminal. Each round is an entry; each may
 * be skipped and added later by its command. */
#include "cli/ask.h"

#include <stdio.h>
#include <string.h>

static const mf_ask ask_person[] = {
    {"id", NULL, NULL, NULL}, {"name", NULL, NULL, NULL}, {NULL, NULL, NULL, NULL}};
static const mf_ask ask_firm[] = {{"name", NULL, NULL, NULL},
                                  {"address", NULL, NULL, NULL},
                                  {"phone", NULL, NULL, NULL},
                                  {NULL, NULL, NULL, NULL}};
static const mf_ask ask_firm_cert[] = {{"number", NULL, NULL, NULL},
                                       {"issuer", NULL, NULL, NULL},
                                       {"issued", NULL, NULL, NULL},
                                       {"expires", NULL, NULL, NULL},
                                       {NULL, NULL, NULL, NULL}};
static const mf_ask ask_own_cert[] = {{"number", NULL, NULL, NULL},   {"issuer", NULL, NULL, NULL},
                                      {"issued", NULL, NULL, NULL},   {"expires", NULL, NULL, NULL},
                                      {"hands-on", NULL, NULL, NULL}, {NULL, NULL, NULL, NULL}};

typedef struct first_round {
    const char *kind, *title_id, *discipline; /* discipline NULL = no certificate */
    const mf_ask *asks;
} first_round;

static const first_round rounds[] = {
    {"person", "first.person", NULL, ask_person},
    {"firm", "first.firm", NULL, ask_firm},
    {"certificate", "first.firm-certificate", "firm", ask_firm_cert},
    {"certificate", "first.own-certificate", "renovator", ask_own_cert},
};

/* The first person is the one who writes; the certificates are the firm's and theirs. */
static mf_status log_round(mf_cli *cli, const first_round *round, bool named, mf_asked *asked,
                           mf_err *err)
{
    if (strcmp(round->kind, "person") == 0 && !named) {
        const char *who = mf_arena_text(&cli->ids, mf_args_value(&asked->args, "id"));
        cli->who = who == NULL ? "" : who;
    }
    if (round->discipline != NULL) {
        bool firm = strcmp(round->discipline, "firm") == 0;
        mf_args_put(&asked->args, "holder", firm ? "firm" : cli->who);
        mf_args_put(&asked->args, "discipline", round->discipline);
    }
    return mf_log_one(cli, mf_kind_named(round->kind), &asked->args, err);
}

/* Asks until the book takes it; skipping is no failure. */
static mf_status one_round(mf_cli *cli, mf_term *term, const first_round *round, bool named,
                           mf_err *err)
{
    mf_asked asked = {0};
    mf_status status;
    const mf_kind *kind = mf_kind_named(round->kind);
    do {
        /* Escape goes back, and before the first question there is nothing: Ctrl-C skips. */
        while (
            !mf_ask_fields(cli, term, kind, mf_cli_word(cli, round->title_id), round->asks, &asked))
            if (asked.broken_off)
                return MF_OK;
        status = log_round(cli, round, named, &asked, err);
    } while (mf_ask_again(cli, round->asks, &asked, status, err));
    return status;
}

mf_status mf_first_hour(mf_cli *cli, mf_err *err)
{
    mf_term term;
    mf_status status = mf_term_open(&term, err);
    bool named = cli->who[0] != '\0';
    cli->walking = true;
    for (size_t i = 0; status == MF_OK && i < sizeof rounds / sizeof rounds[0]; i++) {
        /* Without a person nobody can be said to have written anything. */
        if (i == 0 || cli->who[0] != '\0')
            status = one_round(cli, &term, &rounds[i], named, err);
    }
    cli->walking = false;
    mf_term_close(&term);
    if (status == MF_OK && !named && cli->who[0] != '\0') {
        mf_cli_wrap(mf_cli_word(cli, "first.by"), 0, 0);
        printf("    export MISTFOLD_BY=%s\n", cli->who);
    }
    return status;
}
