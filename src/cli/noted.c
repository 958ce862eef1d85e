/* noted.c - heads that were noted and papers that were handed over, against the book. */
#include "cli/noted.h"

#include "base/fail.h"
#include "base/file.h"
#include "base/mem.h"
#include "base/utf8.h"
#include "cli/compare.h"

#include <mistfold/heads.h>

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { HEADS_MAX = 1024 * 1024 };

/* ---- the files ------------------------------------------------------------------------------- */

mf_status mf_cli_is_list(const char *path, const mf_bytes *file, mf_err *err)
{
    bool text = file->len == 0 || memchr(file->data, '\0', file->len) == NULL;
    if (text && file->len <= HEADS_MAX)
        return MF_OK;
    return mf_fail(err, MF_INPUT, path, "this is neither a list of heads nor a paper",
                   text ? "it is too long for one" : "it is not text",
                   "name a PDF, or what \"book head\" printed");
}

static mf_status count(const mf_head_line *line, void *data, mf_err *err)
{
    (void)line, (void)err;
    ++*(size_t *)data;
    return MF_OK;
}

/* A list without a head was lost on its way: it says nothing. */
static mf_status check_list(const char *path, const mf_bytes *file, mf_err *err)
{
    size_t n = 0;
    mf_err why = {0};
    mf_status status = mf_cli_is_list(path, file, err);
    if (status == MF_OK)
        status = mf_head_lines((const char *)file->data, count, &n, &why);
    if (why.status != MF_OK) {
        *err = why;
        snprintf(err->where, sizeof err->where, "%.100s, %.50s", path, why.where);
    }
    if (status == MF_OK && n == 0)
        status = mf_fail(err, MF_INPUT, path, "no head is in it",
                         "a list of heads has one a line: 64 hex digits, or \"device seq hash\"",
                         "name the file that \"book head\" was written to");
    return status;
}

/* One list behind another; a byte order mark may only begin a text. */
static void add_list(mf_buf *heads, const mf_bytes *file)
{
    const char *text = (const char *)file->data;
    mf_buf_printf(heads, "%s\n", text + mf_utf8_mark(text, file->len));
}

static mf_status take_file(mf_noted *all, const char *path, mf_err *err)
{
    mf_bytes file = {0};
    mf_noted_list *list = &all->list[all->n_lists];
    mf_status status = mf_file_read(&file, path, MF_PAPER_FILE_MAX, &list->why);
    if (status == MF_OK && file.len > 4 && memcmp(file.data, "%PDF", 4) == 0) {
        all->paper[all->n_papers++] = path;
        mf_bytes_free(&file);
        return MF_OK;
    }
    if (status == MF_OK)
        status = check_list(path, &file, &list->why);
    if (status == MF_OK)
        add_list(&all->heads, &file);
    else if (all->unreadable.status == MF_OK) {
        all->unreadable = list->why;
        all->unreadable.status = MF_INPUT;
    }
    list->path = path;
    list->text = file;
    all->n_lists++;
    return all->heads.failed ? mf_fail_memory(err) : MF_OK;
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
    all->list = calloc((size_t)args->n_more + 1, sizeof *all->list);
    if (all->paper == NULL || all->list == NULL)
        return mf_fail_memory(err);
    mf_status status = take_file(all, first, err);
    for (int i = 0; i < args->n_more && status == MF_OK; i++)
        status = take_file(all, args->more[i], err);
    bool none = all->n_papers == 0 && all->heads.len == 0;
    if (status != MF_OK || !none)
        return status;
    *err = all->unreadable; /* of one file there is nothing else to do */
    return err->status;
}

void mf_noted_free(mf_noted *all)
{
    mf_buf_free(&all->heads);
    for (size_t i = 0; i < all->n_lists; i++)
        mf_bytes_free(&all->list[i].text);
    free(all->list);
    free(all->paper);
    json_decref(all->json);
    json_decref(all->json_lists);
}

/* ---- one list of heads ------------------------------------------------------------------------
 */

typedef struct named {
    mf_head_seen *at;
    size_t n, cap;
    mf_arena arena;
} named;

static mf_status add(const mf_head_line *line, void *data, mf_err *err)
{
    named *all = data;
    mf_head_seen *grown = mf_grown(all->at, all->n, &all->cap, sizeof *grown);
    const char *head = mf_arena_text(&all->arena, line->head);
    const char *of = mf_arena_text(&all->arena, line->heads);
    if (grown == NULL || head == NULL || of == NULL)
        return mf_fail_memory(err);
    all->at = grown;
    grown[all->n++] =
        (mf_head_seen){.head = head, .heads = of, .awaited = MF_AWAITS_OTHERS, .by = ""};
    return MF_OK;
}

static void put_list(const mf_noted *all, const char *path, const char *is, const named *heads,
                     size_t held, const char *why)
{
    size_t n = heads->n;
    if (all->json_lists != NULL) {
        json_array_append_new(all->json_lists, json_pack("{s:s, s:s, s:I, s:I, s:s}", "file", path,
                                                         "is", is, "heads", (json_int_t)n, "held",
                                                         (json_int_t)held, "reason", why));
        return;
    }
    printf("%-11s ", is);
    mf_cli_show(path);
    if (n == 0)
        printf(": %s\n", why);
    else if (held == n && n == 1)
        puts(": its head");
    else if (held == n)
        printf(": each of its %zu heads\n", n);
    else
        printf(": %zu of its %zu heads: %s\n", n - held, n, why);
}

/* What contradicts is told before what only is not here. */
static void say_list(const mf_noted *all, const char *path, const named *heads)
{
    char first[MF_HEAD_WORDS] = "";
    size_t held = 0, waits = 0;
    for (size_t i = 0; i < heads->n; i++) {
        held += heads->at[i].state == MF_HEAD_HELD;
        waits += heads->at[i].state == MF_HEAD_AWAITED;
    }
    bool contradicts = held + waits < heads->n;
    for (size_t i = 0; i < heads->n && first[0] == '\0'; i++) {
        mf_head_state state = heads->at[i].state;
        if (state != MF_HEAD_HELD && (!contradicts || state != MF_HEAD_AWAITED))
            mf_head_words(&heads->at[i], first);
    }
    put_list(all, path,
             contradicts ? "contradicts"
             : waits > 0 ? "waits"
                         : "holds",
             heads, held, first);
}

static mf_status one_list(const mf_noted *all, const mf_noted_list *list, mf_cli *cli, mf_err *err)
{
    named heads = {0};
    if (list->why.status != MF_OK) {
        put_list(all, list->path, "unreadable", &heads, 0, list->why.what);
        return MF_OK;
    }
    mf_status status = mf_head_lines((const char *)list->text.data, add, &heads, err);
    if (status == MF_OK)
        status = mf_book_replay(cli->book, heads.at, heads.n, err);
    if (status == MF_OK)
        say_list(all, list->path, &heads);
    free(heads.at);
    mf_arena_free(&heads.arena);
    return status;
}

mf_status mf_noted_lists(const mf_noted *all, mf_cli *cli, mf_err *err)
{
    mf_status status = MF_OK;
    for (size_t i = 0; status == MF_OK && i < all->n_lists; i++)
        status = one_list(all, &all->list[i], cli, err);
    return status;
}

/* ---- one paper --------------------------------------------------------------------------------
 */

typedef enum stand { AGREES, UNSEALED, NO_RECORD, CONTRADICTS, NOT_GOOD, UNREADABLE } stand;

static void say(const mf_noted *all, const char *path, stand how, const char *words)
{
    static const char *const said[] = {"agrees",      "unsealed", "no record",
                                       "contradicts", "not good", "unreadable"};
    static const char *const json[] = {"agrees",      "unsealed", "no-record",
                                       "contradicts", "not-good", "unreadable"};
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

/* A copy that was printed before the seal, or by somebody else: nobody can tell which. */
static void say_unsealed(mf_noted *all, const char *path, const mf_compared *found)
{
    char words[200];
    snprintf(words, sizeof words,
             "it has no seal, and the book logged %zu of this job: the data agrees, the printed "
             "words may be anybody's",
             found->job->n_sealed);
    all->unsealed++;
    say(all, path, UNSEALED, words);
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
    if (status == MF_NO && !unsealed) { /* that is of the paper alone */
        all->not_good++;
        say(all, path, NOT_GOOD, err->what);
        return MF_OK;
    }
    if (status == MF_OK || unsealed)
        status = mf_cli_compare(&found, cli, pdf, &check, err);
    if (status == MF_OK)
        status = unsealed ? mf_cli_denies(&found, err) : mf_cli_contradicts(&found, err);
    if (status == MF_OK && unsealed && found.job->n_sealed > 0)
        say_unsealed(all, path, &found);
    else if (status == MF_OK)
        say_agrees(all, path, &found);
    mf_cli_compared_free(&found);
    return status;
}

/* MF_NO: a sign, a list or a summary holds no record; that is no contradiction. */
static mf_status look_for_record(const mf_bytes *pdf, mf_err *err)
{
    mf_bytes json = {0};
    mf_status status = mf_seal_attached(&json, pdf->data, pdf->len, MF_RECORD_FILE, err);
    mf_bytes_free(&json);
    return status;
}

static mf_status hold_whole(mf_noted *all, mf_cli *cli, const char *path, const mf_bytes *pdf,
                            mf_err *err)
{
    mf_err why = {0};
    mf_status status = look_for_record(pdf, &why);
    if (status == MF_NO) {
        all->no_record++;
        say(all, path, NO_RECORD, "a sign, a list and a summary hold none: nothing was compared");
        return MF_OK;
    }
    if (status == MF_INPUT) { /* it was torn on its way, or is no paper of ours */
        say(all, path, UNREADABLE, why.what);
        mf_cli_at(&why, path);
        all->unreadable = all->unreadable.status == MF_OK ? why : all->unreadable;
        return MF_OK;
    }
    status = status == MF_OK ? hold(all, cli, path, pdf, &why) : status;
    if (status == MF_NO || status == MF_INPUT) {
        all->contradict++;
        say(all, path, CONTRADICTS, why.what);
        return MF_OK;
    }
    if (status != MF_OK)
        *err = why;
    return status;
}

static mf_status hold_file(mf_noted *all, mf_cli *cli, const char *path, mf_err *err)
{
    mf_bytes pdf = {0};
    mf_status status = mf_file_read(&pdf, path, MF_PAPER_FILE_MAX, err);
    if (status == MF_OK)
        status = hold_whole(all, cli, path, &pdf, err);
    mf_bytes_free(&pdf);
    return status;
}

/* What was not compared, or by its data alone, is no yes. */
static mf_status refuse_rest(const mf_noted *all, const mf_cli *cli, mf_err *err)
{
    if (all->not_good > 0)
        return mf_failf(err, MF_NO, cli->book_path, "what was altered says nothing about the book",
                        "see each: mistfold paper check FILE; ask for it as it was sealed",
                        "%zu of %zu papers %s not as sealed: not compared", all->not_good,
                        all->n_papers, all->not_good == 1 ? "is" : "are");
    if (all->unreadable.status != MF_OK) {
        *err = all->unreadable;
        return err->status;
    }
    if (all->no_record > 0)
        return mf_failf(err, MF_NO, cli->book_path, "",
                        "name the record of the job; of another paper hold the head in its foot "
                        "against the book: write it into a file of its own",
                        "%zu of %zu papers %s no record: not compared", all->no_record,
                        all->n_papers, all->no_record == 1 ? "holds" : "hold");
    if (all->unsealed > 0)
        return mf_failf(err, MF_NO, cli->book_path,
                        "its data is the book's, its printed words may be anybody's",
                        "do not rely on it: ask for the sealed one",
                        "%zu of %zu papers %s no seal where the book logged one", all->unsealed,
                        all->n_papers, all->unsealed == 1 ? "has" : "have");
    return MF_OK;
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
    return status == MF_OK ? refuse_rest(all, cli, err) : status;
}
