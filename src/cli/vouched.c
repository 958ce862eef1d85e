/* book vouch: a person signs that a key is that of a device, so that whoever trusts the
 * person's seal need not have seen the device. What "book check" says of it. */
#include "cli/vouched.h"

#include "base/base64.h"
#include "base/fail.h"
#include "cli/key.h"

#include <stdio.h>
#include <string.h>

/* What is signed: "mistfold device", the device and its public key, each with its end of line. */
enum { VOUCH_TEXT = 128 };
static void text_of(char out[VOUCH_TEXT], const char *device, const char *key)
{
    snprintf(out, VOUCH_TEXT, "mistfold device\n%.16s\n%.64s\n", device, key);
}

/* ---- looking -----------------------------------------------------------------------------------
 */

static mf_status judge(mf_seal_report *said, const mf_vouched *it, mf_err *err)
{
    char text[VOUCH_TEXT];
    mf_bytes der = {0};
    mf_status status = MF_OK;
    *said = (mf_seal_report){.state = MF_SEAL_UNREADABLE};
    text_of(text, it->device, it->key);
    if (mf_base64_get(&der, it->signature))
        status = mf_seal_words_check(said, der.data, der.len, text, err);
    mf_bytes_free(&der);
    if (status != MF_OK && status != MF_NO && status != MF_INPUT)
        return status;
    if (said->state == MF_SEAL_GOOD && strcmp(said->fingerprint, it->fingerprint) == 0)
        return MF_OK;
    return mf_failf(err, MF_NO, it->src.entry, "it is of another device or key, or was altered",
                    "rely on it for nothing; ask who logged it",
                    "nobody signed that the key of device %.16s is this one", it->device);
}

mf_status mf_vouched_by(mf_voucher *out, mf_cli *cli, const mf_job *firm, const char *device,
                        const char *key, mf_err *err)
{
    *out = (mf_voucher){.name = ""};
    for (size_t i = 0; i < firm->n_vouched; i++) {
        const mf_vouched *it = &firm->vouched[i];
        mf_seal_report said;
        mf_key_known known = {.known = false};
        if (strcmp(it->device, device) != 0)
            continue;
        mf_status status = judge(&said, it, err);
        if (status == MF_OK)
            status = mf_book_key(cli->book, said.fingerprint, "", &known, err);
        if (status != MF_OK)
            return status;
        if (!known.known || strcmp(it->key, key) != 0) /* of the key before, or by a stranger */
            continue;
        snprintf(out->name, sizeof out->name, "%s", said.common_name);
        snprintf(out->fingerprint, sizeof out->fingerprint, "%s", said.fingerprint);
    }
    return MF_OK;
}

/* ---- vouching ----------------------------------------------------------------------------------
 */

typedef struct vouching {
    const char *device;
    char key[MF_FINGERPRINT_HEX], fingerprint[MF_FINGERPRINT_HEX];
    mf_buf signature;
} vouching;

static bool find(const char *device, const char *entry, const char *key, void *data)
{
    vouching *v = data;
    (void)entry;
    if (strcmp(device, v->device) == 0)
        snprintf(v->key, sizeof v->key, "%s", key);
    return true;
}

static mf_status sign(mf_cli *cli, vouching *v, const mf_args *args, mf_err *err)
{
    char text[VOUCH_TEXT];
    mf_key *key = NULL;
    mf_bytes der = {0};
    mf_key_known known = {.known = false};
    mf_status status = mf_cli_key(args, mf_args_value(args, "key"), &key, err);
    if (status == MF_OK) {
        mf_key_fingerprint(key, v->fingerprint);
        status = mf_book_key(cli->book, v->fingerprint, "", &known, err);
    }
    if (status == MF_OK && !known.known)
        status = mf_fail(err, MF_INPUT, mf_args_value(args, "key"),
                         "the book does not know this key", "the word of a stranger helps nobody",
                         "log it first: mistfold key trust --fingerprint F --person ID --as ROLE");
    text_of(text, v->device, v->key);
    if (status == MF_OK)
        status = mf_seal_words(&der, key, text, err);
    if (status == MF_OK) {
        mf_base64_put(&v->signature, der.data, der.len);
        status = v->signature.failed ? mf_fail_memory(err) : MF_OK;
    }
    mf_bytes_free(&der);
    mf_key_free(key);
    return status;
}

static mf_status log_it(mf_cli *cli, const vouching *v, char id[MF_ENTRY_ID], mf_err *err)
{
    mf_now now;
    mf_draft *draft = NULL;
    const char *const pairs[][2] = {{"device", v->device},
                                    {"key", v->key},
                                    {"fingerprint", v->fingerprint},
                                    {"signature", mf_buf_str(&v->signature)}};
    mf_status status = mf_cli_now(cli, &now, err);
    if (status == MF_OK)
        status = mf_draft_of(&draft, "vouched", pairs, sizeof pairs / sizeof pairs[0], "",
                             cli->today, err);
    if (status == MF_OK)
        status = mf_book_write(cli->book, draft, "", &now, "", id, err);
    mf_draft_free(draft);
    return status;
}

mf_status mf_cmd_book_vouch(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    char id[MF_ENTRY_ID] = "";
    vouching v = {.device = args->word[0]};
    (void)cmd;
    mf_status status = mf_cli_book(cli, &err);
    if (status == MF_OK)
        status = mf_book_devices(cli->book, find, &v, &err);
    if (status == MF_OK && v.key[0] == '\0')
        status = mf_fail(&err, MF_INPUT, v.device, "no chain of that device names a key", "",
                         "see the devices: mistfold book check");
    if (status == MF_OK)
        status = sign(cli, &v, args, &err);
    if (status == MF_OK)
        status = log_it(cli, &v, id, &err);
    mf_buf_free(&v.signature);
    if (status != MF_OK)
        return mf_cli_fail(&err);
    printf(cli->json ? "{\"entry\": \"%s\"}\n" : "logged vouched %s\n", id);
    return MF_OK;
}
