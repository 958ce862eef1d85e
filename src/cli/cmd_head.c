/* book head, book witness: the heads of this book to be kept elsewhere, and those that came
 * back from there. */
#include "base/fail.h"
#include "base/file.h"
#include "cli/noted.h"
#include "cli/record.h"

#include <inttypes.h>
#include <mistfold/qr.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

/* ---- book head ---------------------------------------------------------------------------- */

/* In groups of eight, which a hand copies and an eye compares. */
static void put_groups(mf_buf *out, const char *hash)
{
    for (int i = 0; i < MF_HASH_HEX - 1; i += 8)
        mf_buf_printf(out, "%s%.8s", i == 0 ? "" : " ", hash + i);
    mf_buf_text(out, "\n");
}

static bool add_line(const char *device, int64_t seq, const char *hash, void *data)
{
    mf_buf_printf(data, "%s %" PRId64 " %s\n", device, seq, hash);
    return true;
}

static bool add_groups(const char *device, int64_t seq, const char *hash, void *data)
{
    mf_buf_printf(data, "%s %" PRId64 " ", device, seq);
    put_groups(data, hash);
    return true;
}

static bool add_json(const char *device, int64_t seq, const char *hash, void *data)
{
    return json_array_append_new(data, json_pack("{s:s, s:I, s:s}", "device", device, "seq",
                                                 (json_int_t)seq, "hash", hash)) == 0;
}

static mf_status say_json(mf_cli *cli, const char *head, mf_err *err)
{
    json_t *devices = json_array();
    mf_status status = mf_book_heads(cli->book, add_json, devices, err);
    if (status == MF_OK)
        return mf_json_print(json_pack("{s:s, s:o}", "head", head, "devices", devices));
    json_decref(devices);
    return status;
}

/* The code holds the heads of the devices, each of which says more than the one over them. */
static mf_status show_code(mf_cli *cli, const char *path, const char *heads, mf_err *err)
{
    mf_bytes code = {0};
    mf_status status = path == NULL ? mf_qr_text(heads, &code, err) : mf_qr_png(heads, &code, err);
    if (status == MF_OK && path != NULL)
        status = mf_cli_put(cli, path, code.data, code.len, err);
    if (status == MF_OK && path != NULL && !cli->json)
        mf_cli_wrote(cli, path);
    if (status == MF_OK && path == NULL && !cli->json)
        fwrite(code.data, 1, code.len, stdout);
    mf_bytes_free(&code);
    return status;
}

static void say_heads(const mf_cli *cli, const char *head, const char *heads, bool by_hand)
{
    mf_buf groups = {0};
    put_groups(&groups, head);
    if (by_hand)
        printf("# head of the book on %.10s, %.5s UTC\n%s# the last entry of every device\n",
               cli->at, cli->at + 11, mf_buf_str(&groups));
    else
        printf("%s\n", head);
    fputs(heads, stdout);
    mf_buf_free(&groups);
}

mf_status mf_cmd_book_head(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    char head[MF_HASH_HEX] = "";
    mf_buf heads = {0};
    const char *path = args->n_words > 0 ? args->word[0] : NULL;
    bool code = mf_args_value(args, "qr") != NULL;
    bool by_hand = mf_args_value(args, "by-hand") != NULL && !cli->json && !code;
    (void)cmd;
    mf_status status = path != NULL && !code
                           ? mf_fail(&err, MF_USAGE, path, "one word too many",
                                     "a file goes with --qr", "mistfold book head --qr FILE.png")
                           : mf_cli_book(cli, &err);
    if (status == MF_OK)
        status = mf_book_head(cli->book, head, &err);
    if (status == MF_OK)
        status = mf_book_heads(cli->book, by_hand ? add_groups : add_line, &heads, &err);
    if (status == MF_OK && heads.failed)
        status = mf_fail_memory(&err);
    if (status == MF_OK && code)
        status = show_code(cli, path, mf_buf_str(&heads), &err);
    if (status == MF_OK && cli->json)
        status = say_json(cli, head, &err);
    else if (status == MF_OK)
        say_heads(cli, head, mf_buf_str(&heads), by_hand);
    mf_buf_free(&heads);
    return status == MF_OK ? MF_OK : mf_cli_fail(&err);
}

/* ---- book witness --------------------------------------------------------------------------- */

/* What was received, and from whom. */
typedef struct received {
    char head[MF_HASH_HEX];
    mf_buf heads, from;
} received;

static mf_status take_line(const mf_head_line *line, void *data, mf_err *err)
{
    received *got = data;
    if (line->head[0] != '\0' && got->head[0] != '\0' && strcmp(line->head, got->head) != 0)
        return mf_fail(err, MF_INPUT, "the heads", "two heads of the book are named",
                       "one is noted at a time", "note each by itself");
    if (line->head[0] != '\0')
        snprintf(got->head, sizeof got->head, "%s", line->head);
    if (line->heads[0] != '\0')
        mf_buf_printf(&got->heads, "%s%s", got->heads.len > 0 ? ", " : "", line->heads);
    return got->heads.failed ? mf_fail_memory(err) : MF_OK;
}

/* A paper counts for what its seal is worth; one without is anybody's. */
static mf_status take_paper(received *got, const mf_bytes *pdf, const char *path, mf_err *err)
{
    mf_seal_check check = {0};
    mf_record *record = NULL;
    mf_status status = mf_cli_verify(&check, pdf, err);
    if (status == MF_NO && check.n == 0)
        return mf_fail(err, MF_INPUT, path, "the paper is not sealed",
                       "anybody can have written what stands on it",
                       "give a sealed record, or type the head that its foot names");
    if (status == MF_OK)
        status = mf_cli_record_of(&record, pdf, err);
    if (status != MF_OK)
        return mf_cli_at(err, path);
    snprintf(got->head, sizeof got->head, "%s", record->head);
    mf_buf_text(&got->heads, record->links.heads);
    mf_buf_printf(&got->from, "paper %.200s, sealed by %.100s, %s", mf_file_name(path),
                  check.seal[0].common_name, check.seal[0].fingerprint);
    mf_record_free(record);
    return got->heads.failed || got->from.failed ? mf_fail_memory(err) : MF_OK;
}

static mf_status take_list(received *got, const char *path, const mf_bytes *file, mf_err *err)
{
    mf_status status = mf_cli_is_list(path, file, err);
    return status == MF_OK ? mf_head_lines((const char *)file->data, take_line, got, err) : status;
}

/* The words as one text; that of the file when they are its name, or what comes in on
 * standard input when there are none. */
static mf_status take_words(received *got, const mf_args *args, mf_err *err)
{
    mf_bytes file = {0};
    mf_buf text = {0};
    const char *path = args->n_more == 0 ? "/dev/stdin" : args->more[0];
    mf_status status = MF_OK;
    for (int i = 0; i < args->n_more; i++)
        mf_buf_printf(&text, "%s%s", i > 0 ? " " : "", args->more[i]);
    bool is_file = args->n_more == 0 || (args->n_more == 1 && access(path, F_OK) == 0);
    if (is_file)
        status = mf_file_read(&file, path, MF_PAPER_FILE_MAX, err);
    if (status == MF_OK && file.len > 4 && memcmp(file.data, "%PDF", 4) == 0)
        status = take_paper(got, &file, path, err);
    else if (status == MF_OK && is_file)
        status = take_list(got, path, &file, err);
    else if (status == MF_OK)
        status = text.failed ? mf_fail_memory(err)
                             : mf_head_lines(mf_buf_str(&text), take_line, got, err);
    mf_bytes_free(&file);
    mf_buf_free(&text);
    return status;
}

/* Whether the book has, or had, all that the head names. */
static mf_status is_known(mf_cli *cli, const mf_witness_ask *ask, bool *known, mf_err *err)
{
    mf_head_seen it = {.head = ask->head, .heads = ask->heads, .awaited = "*", .by = ""};
    mf_status status = mf_book_replay(cli->book, &it, 1, err);
    *known = status == MF_OK && it.state == MF_HEAD_HELD;
    return status;
}

static mf_status note(mf_cli *cli, const mf_args *args, const received *got, mf_err *err)
{
    char id[MF_ENTRY_ID] = "";
    mf_now now;
    size_t awaited = 0;
    bool known = false;
    const char *from = mf_args_value(args, "from"), *why = mf_args_value(args, "note");
    const mf_witness_ask ask = {.from = from == NULL ? mf_buf_str(&got->from) : from,
                                .head = got->head,
                                .heads = mf_buf_str(&got->heads),
                                .note = why == NULL ? "" : why};
    if (*ask.from == '\0')
        return mf_fail(err, MF_USAGE, "--from", "it is not said who named the head", "",
                       "add --from truck, or whoever it was");
    mf_status status = mf_cli_now(cli, &now, err);
    if (status == MF_OK)
        status = mf_book_witness(cli->book, &ask, &now, id, &awaited, err);
    if (status != MF_OK)
        return status;
    status = is_known(cli, &ask, &known, err);
    if (status != MF_OK)
        return status;
    if (cli->json)
        return mf_json_print(json_pack("{s:s, s:I, s:b}", "entry", id, "awaited",
                                       (json_int_t)awaited, "known", known));
    printf("logged witness %s\n", id);
    mf_cli_wrap(mf_cli_word(cli, known         ? "witness.known"
                                 : awaited > 0 ? "witness.awaited"
                                               : "witness.unknown"),
                0, 0);
    return MF_OK;
}

mf_status mf_cmd_book_witness(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    received got = {.head = ""};
    (void)cmd;
    mf_status status = mf_cli_book(cli, &err);
    if (status == MF_OK)
        status = take_words(&got, args, &err);
    if (status == MF_OK)
        status = note(cli, args, &got, &err);
    mf_buf_free(&got.heads);
    mf_buf_free(&got.from);
    return status == MF_OK ? MF_OK : mf_cli_fail(&err);
}
