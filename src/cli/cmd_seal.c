/* paper seal, paper data */
#include "base/fail.h"
#include "base/file.h"
#include "cli/compare.h"
#include "cli/json.h"
#include "cli/key.h"
#include "cli/tsa.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* ---- paper seal ----------------------------------------------------------------- */

static mf_seal_place place_for(const mf_record *record, const char *as)
{
    for (size_t i = 0; record != NULL && as != NULL && i < record->n_places; i++) {
        const mf_record_place *place = &record->places[i];
        if (strcmp(place->as, as) == 0)
            return (mf_seal_place){place->page, place->x, place->y, place->w, place->h};
    }
    return (mf_seal_place){0}; /* invisible, on the first page */
}

static mf_status check_as(const char *as, mf_err *err)
{
    if (as == NULL || strcmp(as, "renovator") == 0 || strcmp(as, "firm") == 0 ||
        strcmp(as, "owner") == 0)
        return MF_OK;
    return mf_fail(err, MF_INPUT, "--as", "is neither renovator, firm nor owner",
                   "the record keeps a place for each", "write --as firm");
}

static const char *reason_of(const char *as)
{
    if (as != NULL && strcmp(as, "owner") == 0)
        return "Witnesses that the record was received by owner or occupant";
    if (as != NULL && strcmp(as, "firm") == 0)
        return "Sealed for the certified firm, 40 CFR 745.86";
    return "Record of a lead-safe renovation, 40 CFR 745.86";
}

#define DRAWN_REASON                                                                               \
    "Witnesses that owner or occupant acknowledged the record by the hand drawn here"

/* What is sealed must be whole: a seal over an altered paper would vouch for it. */
static mf_status check_before(mf_seal_check *check, const mf_bytes *pdf, mf_err *err)
{
    mf_status status = mf_cli_verify(check, pdf, err);
    return status == MF_NO && check->n == 0 ? MF_OK : status;
}

/* One more in the same place would cover the words of the seal that is there. */
static mf_status check_place(const mf_seal_check *check, const mf_record *record, const char *as,
                             mf_err *err)
{
    const mf_seal_place place = place_for(record, as);
    for (int i = 0; i < check->n; i++)
        if (mf_seal_places_meet(&place, &check->seal[i].look))
            return mf_failf(err, MF_NO, "--as", "each seal has a place of its own",
                            "leave --as out: it is then not drawn, and counts as well",
                            "seal %d is in the place for the %s", i + 1, as);
    return MF_OK;
}

/* What one run of "paper seal" holds. */
typedef struct sealing {
    const char *as;
    mf_bytes pdf, sealed, grey;
    mf_record *record; /* NULL: the paper is no record */
    mf_job *job;       /* of the book; NULL: not in one */
    mf_key *key;
    mf_seal_drawing drawing;
    char whose[4400]; /* under the drawing: a name has at most 4000 bytes */
    mf_tsa tsa;
    bool stamp;
    char fingerprint[MF_FINGERPRINT_HEX], entry[MF_ENTRY_ID];
} sealing;

static void free_sealing(sealing *s)
{
    mf_key_free(s->key);
    mf_tsa_close(&s->tsa);
    mf_book_job_free(s->job);
    mf_record_free(s->record);
    mf_bytes_free(&s->grey);
    mf_bytes_free(&s->sealed);
    mf_bytes_free(&s->pdf);
}

/* Under the drawing: whose hand it is, by the record's list, and the day. */
static mf_status whose_hand(const mf_cli *cli, sealing *s, const char *party, mf_err *err)
{
    char day[MF_DAY_TEXT];
    const char *name = mf_cli_word(cli, "hand.anyone");
    const mf_job *job = s->record == NULL ? NULL : s->record->job;
    const mf_party *found = party == NULL || job == NULL ? NULL : mf_job_party(job, party);
    if (party != NULL && s->grey.data == NULL)
        return mf_fail(err, MF_USAGE, "--party", "it goes with --drawn",
                       "it says whose hand was drawn", "add --drawn, or leave --party out");
    if (party != NULL && (found == NULL || *found->name == '\0'))
        return mf_failf(err, MF_INPUT, "--party", "the hand is that of somebody on the record",
                        "see: mistfold party list JOB", "the record names no party \"%s\"", party);
    if (found != NULL)
        name = found->name;
    mf_day_text(cli->today, day);
    snprintf(s->whose, sizeof s->whose, "%s %s, %s", mf_cli_word(cli, "hand.of"), name, day);
    s->drawing.whose = s->whose;
    s->drawing.witness = mf_cli_word(cli, "hand.witness");
    return MF_OK;
}

/* The owner's hand, drawn on a screen and kept as a picture. */
static mf_status read_drawing(sealing *s, const char *path, mf_err *err)
{
    mf_bytes file = {0};
    if (path == NULL)
        return MF_OK;
    if (s->as == NULL || strcmp(s->as, "owner") != 0)
        return mf_fail(err, MF_USAGE, "--drawn", "it goes with --as owner",
                       "the owner draws, and who seals witnesses it", "add --as owner");
    mf_status status = mf_file_read(&file, path, MF_ATTACH_MAX, err);
    const mf_paper_photo drawn = {
        .data = file.data, .len = file.len, .name = path, .entry = "", .about = ""};
    if (status == MF_OK)
        status = mf_paper_drawing(&s->grey, &s->drawing.w, &s->drawing.h, &drawn, err);
    s->drawing.grey = s->grey.data;
    mf_bytes_free(&file);
    return status;
}

/* What is sealed is logged with the head of its record: a paper that the book contradicts is
 * none of its own, and would make the book contradict itself. Whose seals are on it so far
 * is another question. */
static mf_status check_record(mf_cli *cli, const sealing *s, const mf_seal_check *check,
                              mf_err *err)
{
    mf_compared found = {.tell = NULL};
    if (s->job == NULL)
        return MF_OK;
    mf_status status = mf_cli_compare(&found, cli, &s->pdf, check, err);
    if (status == MF_OK)
        status = mf_cli_denies(&found, err);
    mf_cli_compared_free(&found);
    return status;
}

/* Reads everything, and whether the book of this computer knows the job. */
static mf_status prepare(mf_cli *cli, const mf_args *args, sealing *s, mf_err *err)
{
    mf_now now;
    mf_seal_check check = {0};
    mf_status status = check_as(s->as, err);
    if (status == MF_OK)
        status = mf_file_read(&s->pdf, args->word[0], MF_PAPER_FILE_MAX, err);
    if (status == MF_OK)
        status = check_before(&check, &s->pdf, err);
    if (status == MF_OK)
        status = read_drawing(s, mf_args_value(args, "drawn"), err);
    if (status != MF_OK)
        return status;
    status = mf_cli_record_of(&s->record, &s->pdf, err);
    if (status == MF_NO) /* a paper without a record: nothing to log */
        return whose_hand(cli, s, mf_args_value(args, "party"), err);
    if (status == MF_OK)
        status = whose_hand(cli, s, mf_args_value(args, "party"), err);
    if (status == MF_OK)
        status = check_place(&check, s->record, s->as, err);
    if (status == MF_OK)
        status = mf_cli_job_if_known(cli, s->record->job->id, &s->job, err);
    if (status == MF_OK)
        status = check_record(cli, s, &check, err);
    return status == MF_OK && s->job != NULL ? mf_cli_now(cli, &now, err) : status;
}

static mf_status seal_it(const mf_cli *cli, sealing *s, mf_err *err)
{
    mf_paper_outlines *letters = NULL;
    mf_status status = mf_paper_outlines_open(&letters, NULL, err);
    if (status != MF_OK)
        return status;
    mf_seal_ask ask = {.key = s->key,
                       .reason = s->grey.data == NULL ? reason_of(s->as) : DRAWN_REASON,
                       .location = "",
                       .signed_at = cli->seconds,
                       .place = place_for(s->record, s->as),
                       .draw = true,
                       .drawing = s->grey.data == NULL ? NULL : &s->drawing,
                       .outline = mf_paper_outline,
                       .outline_user = letters,
                       .stamp = s->stamp ? mf_tsa_stamp_seal : NULL,
                       .stamp_user = &s->tsa};
    mf_key_fingerprint(s->key, s->fingerprint);
    status = mf_seal_sign(&s->sealed, s->pdf.data, s->pdf.len, &ask, err);
    mf_paper_outlines_free(letters);
    return status;
}

static mf_status keep(mf_cli *cli, sealing *s, const char *path, mf_err *err)
{
    const mf_cli_sealed it = {s->job == NULL ? NULL : s->job->id,
                              s->key,
                              s->record == NULL ? "" : s->record->head,
                              s->record == NULL ? NULL : &s->record->links,
                              s->as == NULL ? "" : s->as,
                              &s->sealed};
    return mf_cli_keep_sealed(cli, &it, path, s->entry, err);
}

static void say_sealed(const mf_cli *cli, const sealing *s, const char *path)
{
    if (cli->json) {
        printf("{\"fingerprint\": \"%s\", \"stamped\": %s, \"entry\": \"%s\"}\n", s->fingerprint,
               s->stamp ? "true" : "false", s->entry);
        return;
    }
    printf("sealed %s by %s\nfingerprint %s\n", path, mf_key_common_name(s->key), s->fingerprint);
    if (s->stamp)
        mf_tsa_say_new(cli, "time stamp  ", &s->tsa.said);
    if (s->job != NULL)
        printf("logged %s\n", s->entry);
    else
        printf("not logged: no book here has its job\n");
}

mf_status mf_cmd_paper_seal(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    sealing s = {.as = mf_args_value(args, "as"), .stamp = mf_args_value(args, "stamp") != NULL};
    const char *path = mf_args_value(args, "out");
    (void)cmd;
    if (path == NULL)
        path = args->word[0];
    mf_status status = s.stamp ? mf_tsa_open(&s.tsa, cli, args, true, &err) : MF_OK;
    if (status == MF_OK)
        status = prepare(cli, args, &s, &err);
    if (status == MF_OK)
        status = mf_cli_key(args, mf_args_value(args, "key"), &s.key, &err);
    if (status == MF_OK)
        status = seal_it(cli, &s, &err);
    if (status == MF_OK)
        status = keep(cli, &s, path, &err);
    if (status == MF_OK)
        say_sealed(cli, &s, path);
    free_sealing(&s);
    return status == MF_OK ? MF_OK : mf_cli_fail(&err);
}

/* ---- paper data ------------------------------------------------------------------ */

mf_status mf_cmd_paper_data(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    mf_bytes pdf = {0}, json = {0};
    mf_buf shown = {0};
    (void)cli;
    (void)cmd;
    mf_status status = mf_file_read(&pdf, args->word[0], MF_PAPER_FILE_MAX, &err);
    if (status == MF_OK)
        status = mf_seal_attached(&json, pdf.data, pdf.len, MF_RECORD_FILE, &err);
    if (status == MF_OK)
        mf_json_seen(&shown, (const char *)json.data, json.len);
    else
        mf_cli_at(&err, args->word[0]);
    if (status == MF_OK && shown.failed)
        status = mf_fail_memory(&err);
    if (status == MF_OK)
        puts(mf_buf_str(&shown));
    mf_buf_free(&shown);
    mf_bytes_free(&json);
    mf_bytes_free(&pdf);
    return status == MF_OK ? MF_OK : mf_cli_fail(&err);
}
