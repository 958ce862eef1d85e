/* key new, key show, key trust */
#include "base/fail.h"
#include "base/file.h"
#include "cli/key.h"

#include <ctype.h>
#include <stdio.h>
#include <string.h>

enum { KEY_MAX = 1024 * 1024, KEY_DAYS = 5 * 365, PASS_LETTERS = 8 };

mf_status mf_cli_key(const mf_args *args, const char *path, mf_key **out, mf_err *err)
{
    mf_bytes file = {0};
    char pass[MF_PASS_MAX] = "";
    mf_status status = mf_file_read(&file, path, KEY_MAX, err);
    if (status == MF_OK)
        status = mf_pass_read(args, "passphrase of the key: ", false, pass, err);
    if (status == MF_OK && mf_key_open(out, file.data, file.len, pass, err) != MF_OK)
        status = mf_cli_at(err, path);
    if (status == MF_OK)
        mf_cli_warn_mode(path);
    mf_pass_wipe(pass);
    mf_bytes_free(&file);
    return status;
}

static void print_key(const mf_cli *cli, const mf_key *key, const char *path)
{
    char fingerprint[MF_FINGERPRINT_HEX];
    mf_key_fingerprint(key, fingerprint);
    if (cli->json) {
        printf("{\"fingerprint\": \"%s\"}\n", fingerprint);
        return;
    }
    printf("key          %s\nname         %s\ncapacity     %s\nfingerprint  %s\n", path,
           mf_key_common_name(key), mf_key_capacity(key), fingerprint);
    mf_cli_wrap(mf_cli_word(cli, "note.key"), 0, 0);
}

/* *is_short: of fewer letters than take long to guess. */
static mf_status make(mf_bytes *p12, mf_key **key, const mf_args *args, bool *is_short, mf_err *err)
{
    char pass[MF_PASS_MAX] = "";
    const char *firm = mf_args_value(args, "firm"), *capacity = mf_args_value(args, "capacity");
    mf_key_holder holder = {mf_args_value(args, "name"), firm == NULL ? "" : firm,
                            capacity == NULL ? "" : capacity, KEY_DAYS};
    mf_status status = mf_pass_read(args, "passphrase for the new key: ", true, pass, err);
    if (status == MF_OK)
        status = mf_key_make(p12, &holder, pass, err);
    if (status == MF_OK)
        status = mf_key_open(key, p12->data, p12->len, pass, err);
    *is_short = mf_cli_characters(pass, strlen(pass)) < PASS_LETTERS;
    mf_pass_wipe(pass);
    return status;
}

mf_status mf_cmd_key_new(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    mf_bytes p12 = {0};
    mf_key *key = NULL;
    bool is_short = false;
    (void)cmd;
    /* A key that is overwritten is lost for good: before the passphrase is asked for ... */
    mf_status status = mf_file_is_free(args->word[0], &err);
    if (status == MF_OK)
        status = make(&p12, &key, args, &is_short, &err);
    if (status == MF_OK) /* ... and for what came in between */
        status = mf_file_write_new(args->word[0], p12.data, p12.len, 0600, &err);
    if (status == MF_OK)
        print_key(cli, key, args->word[0]);
    if (status == MF_OK && is_short)
        mf_cli_warn("the passphrase has fewer than %d letters: whoever gets the file can guess "
                    "it and sign in this name; better make another key with a longer one",
                    PASS_LETTERS);
    mf_key_free(key);
    mf_bytes_free(&p12);
    return status == MF_OK ? MF_OK : mf_cli_fail(&err);
}

mf_status mf_cmd_key_show(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    mf_key *key = NULL;
    (void)cmd;
    mf_status status = mf_cli_key(args, args->word[0], &key, &err);
    if (status == MF_OK)
        print_key(cli, key, args->word[0]);
    mf_key_free(key);
    return status == MF_OK ? MF_OK : mf_cli_fail(&err);
}

/* As other programs print it, "SHA256 Fingerprint=AB:CD:..", or as ours do. */
static mf_status plain_fingerprint(const char *text, char out[MF_FINGERPRINT_HEX], mf_err *err)
{
    const char *sign = strchr(text, '=');
    size_t n = 0;
    for (const char *at = sign == NULL ? text : sign + 1; *at != '\0'; at++) {
        if (*at == ':' || *at == ' ')
            continue;
        if (!isxdigit((unsigned char)*at) || n == MF_FINGERPRINT_HEX - 1) {
            n = 0;
            break;
        }
        out[n++] = (char)tolower((unsigned char)*at);
    }
    out[n] = '\0';
    if (n == MF_FINGERPRINT_HEX - 1)
        return MF_OK;
    return mf_fail(err, MF_INPUT, "--fingerprint", "this is not the fingerprint of a certificate",
                   "it is 64 hex digits, with or without colons",
                   "copy it from \"key show\" or from the paper");
}

mf_status mf_cmd_key_trust(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    char fingerprint[MF_FINGERPRINT_HEX];
    mf_args own = *args;
    for (int i = 0; i < own.n_opts; i++)
        if (strcmp(own.opt[i], "fingerprint") == 0) {
            if (plain_fingerprint(own.value[i], fingerprint, &err) != MF_OK)
                return mf_cli_fail(&err);
            own.value[i] = fingerprint;
        }
    return mf_cmd_log(cli, cmd, &own);
}
