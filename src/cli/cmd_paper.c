/* paper record: what a job has, printed, with its data, sealed; whose certificate number
 * stands at the seal */
#include "base/fail.h"
#include "cli/key.h"
#include "cli/other_programs.h"
#include "cli/photos.h"
#include "cli/record.h"
#include "cli/tsa.h"

#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* "2026-09-30T16:20:07Z" as people read it. */
static void when_text(const mf_cli *cli, char out[32])
{
    snprintf(out, 32, "%.10s %.5s UTC", cli->at, cli->at + 11);
}

/* What is needed to print one paper, and what it became. */
typedef struct press {
    mf_job *job;
    mf_key *key;
    mf_buf chains;   /* of the head */
    mf_links *links; /* the head, and by what the paper is held against the book */
    char fingerprint[MF_FINGERPRINT_HEX], when[32];
    mf_paper_signer signer;
    mf_paper_ask ask;
    mf_bytes plain, sealed;
    mf_paper_blocks blocks;
    mf_paper_photo *photos;
    mf_tsa tsa;
    bool stamp;     /* the seal is to have the authority's time */
    mf_err altered; /* what is wrong with the book; the paper says that something is */
} press;

static void free_press(press *p)
{
    mf_bytes_free(&p->plain);
    mf_bytes_free(&p->sealed);
    mf_key_free(p->key);
    mf_tsa_close(&p->tsa);
    free(p->photos);
    mf_book_links_free(p->links);
    mf_buf_free(&p->chains);
    mf_book_job_free(p->job);
}

/* The record itself, with the photos that the book keeps. */
static mf_status print(const mf_cli *cli, press *p, mf_err *err)
{
    mf_status status = mf_cli_sheet(cli, &p->ask.size, err);
    mf_cli_chains(&p->chains, p->links);
    p->ask.chains = mf_buf_str(&p->chains);
    if (status == MF_OK && p->chains.failed)
        status = mf_fail_memory(err);
    if (status == MF_OK)
        status = mf_cli_photos(&p->photos, &p->ask.n_photos, p->job, err);
    p->ask.photos = p->photos;
    p->ask.fetch = mf_cli_fetch_photo;
    p->ask.fetch_user = cli->book;
    return status == MF_OK ? mf_paper_record(&p->plain, &p->blocks, &p->ask, err) : status;
}

/* What is sealed leaves the house with the head of the whole book: then all of it is read,
 * as a change may hide in the chain behind entries of other jobs. */
static mf_status load(mf_cli *cli, const mf_args *args, press *p, mf_err *err)
{
    mf_book_report report = {0};
    mf_status status = mf_cli_book(cli, err);
    if (status == MF_OK)
        status = mf_book_links(cli->book, args->word[0], &p->job, &p->links, err);
    if (status == MF_OK) {
        p->ask.head = p->links->head;
        mf_cli_clock_of(cli, p->job);
    }
    if (status == MF_OK)
        status = mf_cli_look(cli, p->job, mf_args_value(args, "key") != NULL, &report, err);
    if (status == MF_NO)
        p->altered = *err;
    return status == MF_NO ? MF_OK : status;
}

/* The certificate of the person whom the key names, whoever prints. Of several people of one name
 * nobody knows whose seal it is: nobody's seal bears the number of another. */
static const char *number_of(const mf_cli *cli, const press *p)
{
    const mf_job *job = p->job;
    const char *number = "";
    for (size_t i = 0, named = 0; i < job->n_person; i++) {
        const mf_person *it = &job->person[i];
        if (strcmp(it->name, p->signer.name) != 0 || mf_job_person(job, it->id) != it)
            continue;
        const mf_certificate *held = mf_certified(job, it->id, MF_DISC_RENOVATOR, cli->today, NULL);
        number = named++ > 0 || held == NULL ? "" : held->number;
    }
    return number;
}

static mf_status open_key(mf_cli *cli, const mf_args *args, press *p, mf_err *err)
{
    mf_now now;
    const char *path = mf_args_value(args, "key");
    if (path == NULL)
        return MF_OK;
    mf_status status = mf_cli_now(cli, &now, err);
    if (status == MF_OK)
        status = mf_cli_key(args, path, &p->key, err);
    if (status != MF_OK)
        return status;
    mf_key_fingerprint(p->key, p->fingerprint);
    p->signer = (mf_paper_signer){.name = mf_key_common_name(p->key),
                                  .capacity = mf_key_capacity(p->key),
                                  .fingerprint = p->fingerprint,
                                  .signed_at = p->when};
    p->signer.certificate = number_of(cli, p);
    p->ask.signer = &p->signer;
    return MF_OK;
}

/* Before the passphrase is asked for. */
static mf_status open_tsa(const mf_cli *cli, const mf_args *args, press *p, mf_err *err)
{
    p->stamp = mf_args_value(args, "stamp") != NULL;
    if (p->stamp && mf_args_value(args, "key") == NULL)
        return mf_fail(err, MF_USAGE, "--stamp", "there is no seal to be stamped",
                       "an authority confirms the time of a seal", "add --key FILE");
    return p->stamp ? mf_tsa_open(&p->tsa, cli, args, true, err) : MF_OK;
}

static mf_status seal(const mf_cli *cli, press *p, mf_err *err)
{
    const mf_paper_block *b = &p->blocks.renovator;
    mf_seal_ask ask = {.key = p->key,
                       .reason = "Record of a lead-safe renovation, 40 CFR 745.86",
                       .location = "",
                       .signed_at = cli->seconds,
                       .place = {b->page, b->x, b->y, b->w, b->h},
                       .stamp = p->stamp ? mf_tsa_stamp_seal : NULL,
                       .stamp_user = &p->tsa};
    return mf_seal_sign(&p->sealed, p->plain.data, p->plain.len, &ask, err);
}

/* What a machine reads of the record, under the seal. */
static mf_status attach(press *p, mf_err *err)
{
    const mf_paper_block *own = &p->blocks.renovator, *firm = &p->blocks.firm,
                         *owner = &p->blocks.owner;
    const mf_record_place places[] = {
        {"renovator", own->page, own->x, own->y, own->w, own->h},
        {"firm", firm->page, firm->x, firm->y, firm->w, firm->h},
        {"owner", owner->page, owner->x, owner->y, owner->w, owner->h}};
    const mf_record_ask ask = {p->job, p->ask.today, p->links->head, p->when, places, 3, p->links};
    mf_bytes json = {0}, grown = {0};
    mf_status status = mf_record_write(&json, &ask, err);
    if (status == MF_OK) {
        const mf_embedded file = {MF_RECORD_FILE, MF_RECORD_MIME,
                                  "The record as data; see docs/record.md", json.data, json.len};
        status = mf_seal_attach(&grown, p->plain.data, p->plain.len, &file, err);
    }
    if (status == MF_OK) {
        mf_bytes_free(&p->plain);
        p->plain = grown;
    }
    mf_bytes_free(&json);
    return status;
}

static mf_status keep(mf_cli *cli, const press *p, const char *path, mf_err *err)
{
    const mf_cli_sealed it = {p->job->id, p->key,      p->links->head,
                              p->links,   "renovator", &p->sealed};
    return p->key == NULL ? mf_cli_put(cli, path, p->plain.data, p->plain.len, err)
                          : mf_cli_keep_sealed(cli, &it, path, NULL, err);
}

static void say_printed(const mf_cli *cli, const press *p, const char *path)
{
    if (cli->json)
        printf("{\"paper\": \"record\", \"sealed\": %s, \"stamped\": %s, \"head\": \"%s\"}\n",
               p->key == NULL ? "false" : "true", p->stamp ? "true" : "false", p->links->head);
    else if (p->key == NULL)
        printf("wrote %s, not sealed: sign it by hand, or give --key\n", path);
    else
        printf("wrote %s, sealed by %s\nfingerprint %s\n", path, p->signer.name, p->fingerprint);
    if (p->stamp && !cli->json)
        mf_tsa_say_new(cli, "time stamp  ", &p->tsa.said);
}

mf_status mf_cmd_paper_record(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    press p = {0};
    const char *path = mf_args_value(args, "out");
    (void)cmd;
    when_text(cli, p.when);
    p.ask = (mf_paper_ask){.lang = cli->lang, .printed_at = p.when};
    mf_status status = mf_cli_day(cli, args, &p.ask.today, &err);
    if (status == MF_OK) /* before the passphrase is asked for */
        status = mf_cli_may_put_paper(cli, path, &err);
    if (status == MF_OK)
        status = open_tsa(cli, args, &p, &err);
    if (status == MF_OK)
        status = load(cli, args, &p, &err);
    p.ask.job = p.job;
    if (status == MF_OK)
        status = mf_cli_none_later(p.job, p.ask.today, &err);
    if (status == MF_OK)
        status = open_key(cli, args, &p, &err);
    if (status == MF_OK)
        status = print(cli, &p, &err);
    if (status == MF_OK)
        status = attach(&p, &err);
    if (status == MF_OK && p.key != NULL)
        status = seal(cli, &p, &err);
    if (status == MF_OK)
        status = keep(cli, &p, path, &err);
    if (status == MF_OK)
        say_printed(cli, &p, path);
    if (status == MF_OK && mf_args_value(args, "open") != NULL)
        status = mf_other_open(path, &err);
    status = mf_cli_made(status, &p.altered, &err);
    free_press(&p);
    return status == MF_OK ? MF_OK : mf_cli_fail(&err);
}

mf_status mf_cli_record(mf_bytes *out, const mf_cli *cli, const mf_job *job, mf_day today,
                        mf_err *err)
{
    press p = {.job = NULL};
    when_text(cli, p.when);
    mf_status status = mf_book_links(cli->book, job->id, &p.job, &p.links, err);
    if (status == MF_OK) {
        p.job->integrity = job->integrity;
        p.job->clock = job->clock;
        p.ask = (mf_paper_ask){.job = p.job,
                               .today = today,
                               .lang = cli->lang,
                               .head = p.links->head,
                               .printed_at = p.when};
        status = print(cli, &p, err);
    }
    if (status == MF_OK)
        status = attach(&p, err);
    if (status == MF_OK) {
        *out = p.plain;
        p.plain = (mf_bytes){0};
    }
    free_press(&p);
    return status;
}

static bool add_chain(const char *device, int64_t seq, const char *hash, void *data)
{
    mf_buf *out = data;
    (void)hash;
    mf_buf_printf(out, "%s%s/%" PRId64, out->len > 0 ? " " : "", device, seq);
    return true;
}

void mf_cli_origin_end(mf_cli_origin *origin)
{
    mf_buf_free(&origin->chains);
}

mf_status mf_cli_print_origin(mf_cli_origin *out, const mf_cli *cli, mf_paper_ask *ask, mf_err *err)
{
    when_text(cli, out->when);
    out->head[0] = '\0';
    ask->head = out->head;
    ask->printed_at = out->when;
    if (ask->job == NULL)
        return MF_OK;
    mf_status status = mf_book_head(cli->book, out->head, err);
    if (status == MF_OK)
        status = mf_book_heads(cli->book, add_chain, &out->chains, err);
    ask->chains = mf_buf_str(&out->chains);
    return status == MF_OK && out->chains.failed ? mf_fail_memory(err) : status;
}
