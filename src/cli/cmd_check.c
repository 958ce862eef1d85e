/* paper check: the seals of a paper, and with --compare its record against the book. */
#include "base/fail.h"
#include "base/file.h"
#include "cli/compare.h"
#include "cli/json.h"
#include "cli/tsa.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

/* ---- the seals, without the book ------------------------------------------------ */

static const char *const states[] = {"good", "altered", "bad-range", "unreadable", "not-accepted"};

static void print_stamp(const mf_cli *cli, const mf_seal_report *seal)
{
    if (seal->stamp.state == MF_STAMP_NONE || seal->state != MF_SEAL_GOOD)
        return;
    mf_tsa_say(cli, "time stamp   ", &seal->stamp);
    mf_tsa_say_unverified(cli, &seal->stamp);
}

static void print_notes(const mf_cli *cli, const mf_seal_report *seal)
{
    if (seal->clock_ahead)
        mf_cli_wrap(mf_cli_word(cli, "note.clock-ahead"), 0, 0);
    if (seal->out_of_days)
        mf_cli_wrap(mf_cli_word(cli, "note.out-of-days"), 0, 0);
    if (seal->backdated)
        mf_cli_wrap(mf_cli_word(cli, "note.backdated"), 0, 0);
    if (seal->fingerprint[0] != '\0') /* else no certificate could be read */
        mf_cli_wrap(mf_cli_word(cli, seal->self_made ? "note.self-made" : "note.issued"), 0, 0);
}

static const char *state_words(const mf_cli *cli, const mf_seal_report *seal)
{
    return seal->is_stamp && seal->state == MF_SEAL_GOOD
               ? mf_cli_word(cli, "stamp.good")
               : mf_words2(cli->lang, "seal", states[seal->state]);
}

static void print_seal(const mf_cli *cli, const mf_seal_report *seal, int number)
{
    char when[MF_TSA_WHEN];
    printf("%s %d      %s%s\n", seal->is_stamp ? "stamp" : "seal", number,
           seal->is_stamp ? "" : " ", state_words(cli, seal));
    if (seal->changed)
        printf("before it    %s\n", mf_cli_word(cli, "seal.changed"));
    if (number > 1 && seal->look.page > 0)
        printf("drawn on     page %d%s%s\n", seal->look.page, seal->may_cover ? ": " : "",
               seal->may_cover ? mf_cli_word(cli, "seal.may-cover") : "");
    if (seal->taken_off)
        printf("after it     %s\n", mf_cli_word(cli, "seal.taken-off"));
    if (seal->is_stamp) {
        printf("authority    %s\nfingerprint  %s\n", seal->common_name, seal->fingerprint);
        print_stamp(cli, seal);
        return;
    }
    printf("signer       %s%s%s\n", seal->common_name, seal->capacity[0] ? ", " : "",
           seal->capacity);
    printf("fingerprint  %s\n", seal->fingerprint);
    mf_tsa_when(seal->signed_at / 60, when);
    if (seal->signed_at > 0)
        printf("signed at    %s by the signer's clock\n", when);
    else
        printf("signed at    no time given\n");
    print_stamp(cli, seal);
    print_notes(cli, seal);
}

static void print_check(const mf_cli *cli, const mf_seal_check *check)
{
    for (int i = 0; i < check->n; i++)
        print_seal(cli, &check->seal[i], i + 1);
    if (check->n > 0 && check->unsealed_tail > 0)
        printf("after it     %zu bytes that no seal covers\n", check->unsealed_tail);
}

static json_t *json_seal(const mf_seal_report *seal)
{
    char when[MF_TSA_WHEN];
    mf_tsa_when(seal->signed_at / 60, when);
    return json_pack("{s:s, s:s, s:s, s:s, s:o, s:b, s:b, s:b, s:b, s:b, s:i, s:b, s:b, s:b, s:o}",
                     "state", states[seal->state], "signer", seal->common_name, "capacity",
                     seal->capacity, "fingerprint", seal->fingerprint, "signed_at",
                     seal->signed_at > 0 ? json_string(when) : json_null(), "self_made",
                     seal->self_made, "changed", seal->changed, "taken_off", seal->taken_off,
                     "out_of_days", seal->out_of_days, "backdated", seal->backdated, "drawn_on",
                     seal->look.page, "may_cover", seal->may_cover, "is_stamp", seal->is_stamp,
                     "clock_ahead", seal->clock_ahead, "stamp", mf_tsa_json(&seal->stamp));
}

static json_t *json_check(const mf_seal_check *check, mf_status status)
{
    json_t *seals = json_array();
    for (int i = 0; i < check->n; i++)
        json_array_append_new(seals, json_seal(&check->seal[i]));
    return json_pack("{s:b, s:i, s:I, s:o}", "good", status == MF_OK, "seals", check->n,
                     "unsealed_bytes", (json_int_t)check->unsealed_tail, "seal", seals);
}

/* ---- the record against the book ------------------------------------------------- */

typedef struct comparison {
    mf_cli *cli;
    const mf_bytes *pdf;
    const mf_seal_check *check;
    json_t *json; /* of the check, gets what is found; or NULL */
} comparison;

static void say_diff(const mf_record_diff *diff, void *data)
{
    static const char *const words[] = {"added since  ", "corrected    ", "withdrawn    ",
                                        "ALTERED      ", "MISSING      ", "LEFT OUT     "};
    (void)data;
    fputs(words[diff->change], stdout);
    mf_cli_show(diff->entry);
    printf("%s%s", diff->kind[0] == '\0' ? "" : ", ", diff->kind);
    if (diff->field[0] != '\0') {
        printf(": %s was ", diff->field);
        mf_cli_show(diff->was);
        printf(" and is ");
        mf_cli_show(diff->is);
    } else if (diff->change == MF_RECORD_ALTERED) {
        printf(": its hash is another");
    }
    putchar('\n');
}

static void say_logged(const mf_sealed *it)
{
    char day[MF_DAY_TEXT];
    mf_day_text(it->on, day);
    printf("logged as %s%s", it->src.entry, *it->capacity == '\0' ? "" : ", ");
    mf_cli_show(it->capacity);
    printf(", %s, by ", day);
    mf_cli_show(it->person);
    putchar('\n');
}

static void say_known(const mf_seal_found *found)
{
    if (found->stands == MF_SEAL_STRANGE) {
        puts("NOT GOOD HERE: is not logged in this book, which does not know its key");
        return;
    }
    printf("%sis not logged in this book; its key is known: %s, ",
           found->stands == MF_SEAL_UNFIT ? "NOT GOOD HERE: " : "", found->key.entry);
    mf_cli_show(found->key.person);
    printf(", as ");
    mf_cli_show(found->key.capacity[0] ? found->key.capacity : "nobody");
    printf("%s%s\n", found->stands == MF_SEAL_UNFIT ? ", not as " : "",
           found->stands == MF_SEAL_UNFIT ? found->as : "");
}

static void say_seals(const mf_compared *c)
{
    for (int i = 0; i < c->check->n; i++) {
        if (c->check->seal[i].is_stamp) /* nobody of the firm puts it on */
            continue;
        printf("seal %d       ", i + 1);
        if (c->seal[i].logged != NULL)
            say_logged(c->seal[i].logged);
        else
            say_known(&c->seal[i]);
        if (c->seal[i].twin[0] == '\0')
            continue;
        printf("             its name is on another key, too, %.16s...: a name can be chosen, a "
               "fingerprint cannot\n",
               c->seal[i].twin);
    }
}

static void json_seals(json_t *json, const mf_compared *c)
{
    static const char *const stands[] = {"logged", "known", "unfit", "unknown"};
    for (int i = 0; i < c->check->n; i++) {
        const mf_seal_found *it = &c->seal[i];
        if (c->check->seal[i].is_stamp)
            continue;
        json_t *seal = json_array_get(json_object_get(json, "seal"), (size_t)i);
        json_object_set_new(seal, "entry",
                            it->logged == NULL ? json_null() : json_string(it->logged->src.entry));
        json_object_set_new(seal, "key", json_string(stands[it->stands]));
        json_object_set_new(seal, "name_twice", json_boolean(it->twin[0] != '\0'));
    }
}

static void say_compared(const comparison *c, const mf_compared *found)
{
    static const char *const heads[] = {"stands", "never", "untold"};
    const size_t *of = found->of;
    if (c->json != NULL) {
        json_seals(c->json, found);
        json_object_set_new(
            c->json, "compared",
            json_pack(
                "{s:I, s:I, s:I, s:I, s:I, s:I, s:I, s:s, s:b, s:I}", "added",
                (json_int_t)of[MF_RECORD_ADDED], "corrected", (json_int_t)of[MF_RECORD_CHANGED],
                "withdrawn", (json_int_t)of[MF_RECORD_WITHDRAWN], "altered",
                (json_int_t)of[MF_RECORD_ALTERED], "missing", (json_int_t)of[MF_RECORD_MISSING],
                "left_out", (json_int_t)of[MF_RECORD_LEFT_OUT], "not_in_book",
                (json_int_t)of[MF_RECORD_WITHDRAWN] + (json_int_t)of[MF_RECORD_MISSING], "head",
                heads[found->head], "hashes", found->record->links.n_entries > 0, "seals_logged",
                (json_int_t)found->seals_logged));
        return;
    }
    size_t n = 0;
    for (int i = 0; i < MF_RECORD_CHANGES; i++)
        n += of[i];
    if (n == 0)
        printf("the book     has just the entries of the record\n");
    if (found->by_hash > 1)
        printf("             and %zu more whose hashes are others\n", found->by_hash - 1);
    printf("head         %.16s... %s\n", found->record->head,
           found->head == MF_HEAD_STANDS  ? "is one that the book had"
           : found->head == MF_HEAD_NEVER ? "IS NONE THAT THIS BOOK EVER HAD"
                                          : "cannot be followed");
    if (mf_cli_uncompared(found) != NULL)
        mf_cli_wrap(mf_cli_uncompared(found), 0, 0);
}

/* The book is read whole: a change may hide in a chain behind entries of other jobs. */
static mf_status compare(comparison *c, mf_err *err)
{
    mf_err altered = {0};
    mf_book_report report = {0};
    mf_compared found = {.tell_seals = c->json == NULL ? say_seals : NULL,
                         .tell = c->json == NULL ? say_diff : NULL};
    mf_status status = mf_cli_compare(&found, c->cli, c->pdf, c->check, err);
    if (status == MF_OK) {
        say_compared(c, &found);
        status = mf_cli_contradicts(&found, err);
    }
    if (status == MF_OK)
        status = mf_record_agrees(found.record, err);
    if (status == MF_OK && found.of[MF_RECORD_WITHDRAWN] > 0)
        status = mf_failf(
            err, MF_NO, "the record", "an entry says so and why", "see: mistfold entry list JOB",
            "entries of it that were withdrawn since: %zu", found.of[MF_RECORD_WITHDRAWN]);
    if (status == MF_OK) {
        status = mf_cli_look(c->cli, found.job, true, &report, &altered);
        if (status != MF_OK)
            *err = altered;
    }
    mf_cli_compared_free(&found);
    return status;
}

/* ---- an earlier state ------------------------------------------------------------ */

static bool same_file(const char *a, const char *b)
{
    struct stat x, y;
    return stat(a, &x) == 0 && stat(b, &y) == 0 && x.st_dev == y.st_dev && x.st_ino == y.st_ino;
}

/* NULL when it cannot be: err says why. */
static const mf_seal_report *find_under(const char *text, const mf_seal_check *check, mf_err *err)
{
    char *end = NULL;
    long number = strtol(text, &end, 10);
    if (*text < '1' || *text > '9' || *end != '\0' || number > check->n) {
        mf_failf(err, MF_INPUT, "--under", "the paper's seals are numbered from 1",
                 "write --under 1", "the paper has no seal \"%.20s\"", text);
        return NULL;
    }
    if (check->seal[number - 1].state == MF_SEAL_GOOD)
        return &check->seal[number - 1];
    mf_failf(err, MF_NO, "--under", "what it was put on cannot be told", "take a seal that is good",
             "seal %ld is not good", number);
    return NULL;
}

static mf_status check_options(const mf_args *args, mf_err *err)
{
    const char *under = mf_args_value(args, "under"), *out = mf_args_value(args, "out");
    if ((under == NULL) != (out == NULL))
        return mf_fail(err, MF_USAGE, under == NULL ? "--out" : "--under", "it stands alone",
                       "--under says which seal, --out where to write",
                       "write --under 1 --out earlier.pdf");
    if (out != NULL && same_file(args->word[0], out))
        return mf_fail(err, MF_USAGE, "--out", "it is the paper itself",
                       "what came after the seal would be lost", "write to another file");
    return MF_OK;
}

/* The paper as it was when that seal had just been put on. */
static mf_status write_under(comparison *c, const mf_args *args, mf_err *err)
{
    const char *out = mf_args_value(args, "out");
    if (out == NULL)
        return MF_OK;
    const mf_seal_report *seal = find_under(mf_args_value(args, "under"), c->check, err);
    mf_status status =
        seal == NULL ? err->status : mf_cli_put(c->cli, out, c->pdf->data, seal->covered_len, err);
    if (status == MF_OK && c->json == NULL)
        mf_cli_wrote(c->cli, out);
    if (c->json != NULL)
        json_object_set_new(c->json, "written", json_boolean(status == MF_OK));
    return status;
}

/* ---- the command ------------------------------------------------------------------ */

/* The seals and, with roots, who stands behind their time stamps. What is wrong with a seal
 * comes first. */
static mf_status verify(mf_seal_check *check, const mf_cli *cli, const mf_args *args,
                        const mf_bytes *pdf, mf_err *err)
{
    mf_tsa tsa = {0};
    mf_err why = {0};
    mf_status status = mf_tsa_open(&tsa, cli, args, false, err);
    if (status == MF_OK)
        status = mf_cli_verify(check, pdf, err);
    if ((status == MF_OK || status == MF_NO) && mf_tsa_roots(&tsa) != NULL) {
        mf_status stamps = mf_seal_stamps(check, pdf->data, pdf->len, mf_tsa_roots(&tsa), &why);
        if (stamps != MF_OK && (status == MF_OK || stamps != MF_NO)) {
            *err = why;
            status = stamps;
        }
    }
    mf_tsa_close(&tsa);
    return status;
}

static mf_status check_paper(mf_cli *cli, const mf_args *args, const mf_bytes *pdf, mf_err *err)
{
    mf_seal_check check = {0};
    mf_status status = verify(&check, cli, args, pdf, err);
    if (status != MF_OK && status != MF_NO)
        return mf_cli_at(err, args->word[0]);
    comparison c = {.cli = cli, .pdf = pdf, .check = &check};
    if (cli->json)
        c.json = json_check(&check, status);
    else
        print_check(cli, &check);
    if (status == MF_OK && mf_args_value(args, "compare") != NULL)
        status = compare(&c, err);
    if (status != MF_OK)
        mf_cli_at(err, args->word[0]);
    mf_err unwritten = {0};
    mf_status wrote = write_under(&c, args, &unwritten);
    if (wrote != MF_OK) {
        *err = unwritten;
        status = wrote;
    }
    if (cli->json && mf_json_put(c.json, &unwritten) != MF_OK) {
        *err = unwritten;
        status = MF_SYSTEM;
    }
    json_decref(c.json);
    return status;
}

mf_status mf_cmd_paper_check(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    mf_bytes file = {0};
    (void)cmd;
    mf_status status = check_options(args, &err);
    if (status == MF_OK)
        status = mf_file_read(&file, args->word[0], MF_PAPER_FILE_MAX, &err);
    if (status == MF_OK)
        status = check_paper(cli, args, &file, &err);
    mf_bytes_free(&file);
    return status == MF_OK ? MF_OK : mf_cli_fail(&err);
}
