/* noted.c - heads that were noted and papers that were handed over, against the book. */
#include "cli/noted.h"

#include "base/fail.h"
#include "base/file.h"
#include "cli/compare.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { HEADS_MAX = 1024 * 1024 };

/* ---- the files ------------------------------------------------------------------------------- */

static mf_status take_file(mf_noted *all, const char *path, mf_err *err)
{
    mf_bytes file = {0};
    mf_status status = mf_file_read(&file, path, MF_PAPER_FILE_MAX, err);
    if (status != MF_OK)
        return status;
    all->n_files++;
    if (file.len > 4 && memcmp(file.data, "%PDF", 4) == 0)
        all->paper[all->n_papers++] = path;
    else if (file.len > HEADS_MAX)
        status = mf_fail(err, MF_INPUT, path, "this is no list of heads and no paper",
                         "it is too long for one", "name a PDF, or what \"book head\" printed");
    else
        mf_buf_printf(&all->heads, "%s\n", (const char *)file.data);
    mf_bytes_free(&file);
    return all->heads.failed ? mf_fail_memory(err) : status;
}

mf_status mf_noted_read(mf_noted *all, const mf_args *args, mf_err *err)
{
    const char *first = mf_args_value(args, "against");
    if (first == NULL)
        return args->n_more == 0 ? MF_OK
                                 : mf_fail(err, MF_USAGE, args->more[0], "one word too many",
                                           "heads and papers stand behind --against",
                                           "mistfold book check --against *.pdf");
    all->paper = calloc((size_t)args->n_more + 1, sizeof *all->paper);
    if (all->paper == NULL)
        return mf_fail_memory(err);
    mf_status status = take_file(all, first, err);
    for (int i = 0; i < args->n_more && status == MF_OK; i++)
        status = take_file(all, args->more[i], err);
    return status;
}

void mf_noted_free(mf_noted *all)
{
    mf_buf_free(&all->heads);
    free(all->paper);
    json_decref(all->json);
}

/* ---- one paper --------------------------------------------------------------------------------
 */

typedef enum stand { AGREES, UNSEALED, NO_RECORD, CONTRADICTS } stand;

static void say(const mf_noted *all, const char *path, stand how, const char *words)
{
    static const char *const said[] = {"agrees", "unsealed", "no record", "contradicts"};
    static const char *const json[] = {"agrees", "unsealed", "no-record", "contradicts"};
    if (all->json != NULL) {
        json_array_append_new(all->json, json_pack("{s:s, s:s, s:s}", "file", path, "is", json[how],
                                                   "reason", words));
        return;
    }
    printf("%-11s ", said[how]);
    mf_cli_show(path);
    printf("%s", *words == '\0' ? "" : ": ");
    mf_cli_show(words);
    putchar('\n');
}

/* Other findings than its entries give today are told: the rule may have changed since, or
 * whoever sealed it wrote what he liked. */
static void say_agrees(const mf_noted *all, const char *path, const mf_compared *found)
{
    char words[400];
    bool sealed = found->seals > 0;
    bool follows = mf_record_agrees(found->record, NULL) != MF_NO;
    snprintf(words, sizeof words,
             "%sjob %.40s, head %.16s..., %zu seal%s; since then %zu added, %zu corrected, %zu "
             "withdrawn%s%s",
             sealed ? "" : "the data agrees, the printed words may be anybody's; ",
             found->record->job->id, found->record->head, found->seals,
             found->seals == 1 ? "" : "s", found->of[MF_RECORD_ADDED], found->of[MF_RECORD_CHANGED],
             found->of[MF_RECORD_WITHDRAWN],
             mf_cli_uncompared(found) == NULL ? "" : "; it holds no hashes",
             follows ? "" : "; its findings are not those that its entries give today");
    say(all, path, sealed ? AGREES : UNSEALED, words);
}

static mf_status hold(mf_noted *all, mf_cli *cli, const char *path, const mf_bytes *pdf,
                      mf_err *err)
{
    mf_seal_check check = {0};
    mf_compared found = {.tell = NULL};
    mf_status status = mf_cli_verify(&check, pdf, err);
    bool unsealed = status == MF_NO && check.n == 0;
    if (status == MF_OK || unsealed)
        status = mf_cli_compare(&found, cli, pdf, &check, err);
    if (status == MF_OK)
        status = mf_cli_contradicts(&found, err);
    if (status == MF_OK)
        say_agrees(all, path, &found);
    mf_cli_compared_free(&found);
    return status;
}

/* A sign, a list or a summary holds no record; that is no contradiction. */
static bool holds_record(const mf_bytes *pdf)
{
    mf_bytes json = {0};
    mf_status status = mf_seal_attached(&json, pdf->data, pdf->len, MF_RECORD_FILE, NULL);
    mf_bytes_free(&json);
    return status != MF_NO;
}

static mf_status hold_file(mf_noted *all, mf_cli *cli, const char *path, mf_err *err)
{
    mf_bytes pdf = {0};
    mf_err why = {0};
    mf_status status = mf_file_read(&pdf, path, MF_PAPER_FILE_MAX, err);
    if (status != MF_OK)
        return status;
    if (!holds_record(&pdf)) {
        say(all, path, NO_RECORD,
            "it holds no record, so there is nothing to hold against the book");
        mf_bytes_free(&pdf);
        return MF_OK;
    }
    status = hold(all, cli, path, &pdf, &why);
    if (status == MF_NO || status == MF_INPUT) {
        all->contradict++;
        say(all, path, CONTRADICTS, why.what);
        status = MF_OK;
    } else if (status != MF_OK) {
        *err = why;
    }
    mf_bytes_free(&pdf);
    return status;
}

mf_status mf_noted_papers(mf_noted *all, mf_cli *cli, mf_err *err)
{
    mf_status status = MF_OK;
    for (size_t i = 0; i < all->n_papers && status == MF_OK; i++)
        status = hold_file(all, cli, all->paper[i], err);
    if (status == MF_OK && all->contradict > 0)
        return mf_failf(err, MF_NO, cli->book_path,
                        "a paper that was handed over says what the book said then",
                        "see each: mistfold paper check FILE --compare",
                        "%zu of %zu papers and this book contradict each other", all->contradict,
                        all->n_papers);
    return status;
}
