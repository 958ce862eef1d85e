/* Which authority is asked and which are trusted, and what a stamp says to people. */
#include "base/fail.h"
#include "base/file.h"
#include "cli/tsa.h"

#include <stdlib.h>
#include <string.h>

enum { ROOTS_MAX = 4 * 1024 * 1024, WAIT_MOST = 600 };

static const char *given(const mf_cli *cli, const mf_args *args, const char *option,
                         mf_setting_id id)
{
    const char *value = mf_args_value(args, option);
    return value == NULL ? cli->setting[id] : value;
}

mf_status mf_tsa_wait(const char *text, const char *where, long *seconds, mf_err *err)
{
    char *end = NULL;
    *seconds = strtol(text, &end, 10);
    if (*text >= '1' && *text <= '9' && *end == '\0' && *seconds <= WAIT_MOST)
        return MF_OK;
    return mf_failf(err, MF_INPUT, where, "whole seconds, 1 to 600",
                    "set it to 30, see: mistfold settings show", "%.20s is not a time to wait",
                    text);
}

mf_status mf_tsa_url(const char *url, const char *where, mf_err *err)
{
    const char *host = strncmp(url, "https://", 8) == 0  ? url + 8
                       : strncmp(url, "http://", 7) == 0 ? url + 7
                                                         : "";
    if (*host != '\0' && strpbrk(url, " \t") == NULL)
        return MF_OK;
    return mf_failf(err, MF_INPUT, where, "it begins with https:// or http://",
                    "write it like https://tsa.example/",
                    "%.80s is not the address of an authority", url);
}

static mf_status check_url(const char *url, mf_err *err)
{
    if (*url == '\0')
        return mf_fail(err, MF_USAGE, "--tsa", "it is not said which authority is asked",
                       "a time-stamping authority has an address",
                       "write --tsa https://tsa.example/ or set tsa in the settings file");
    return mf_tsa_url(url, "--tsa", err);
}

mf_status mf_tsa_open(mf_tsa *out, const mf_cli *cli, const mf_args *args, bool ask, mf_err *err)
{
    const char *roots = given(cli, args, "tsa-roots", MF_SET_TSA_ROOTS);
    *out = (mf_tsa){.url = given(cli, args, "tsa", MF_SET_TSA)};
    mf_status status = mf_tsa_wait(cli->setting[MF_SET_TSA_WAIT], "tsa-wait", &out->seconds, err);
    if (status == MF_OK && ask)
        status = check_url(out->url, err);
    if (status == MF_OK && *roots != '\0')
        status = mf_file_read(&out->roots, roots, ROOTS_MAX, err);
    return status;
}

void mf_tsa_close(mf_tsa *tsa)
{
    mf_bytes_free(&tsa->roots);
}

const char *mf_tsa_roots(const mf_tsa *tsa)
{
    return (const char *)tsa->roots.data; /* ends in a NUL, mf_file_read */
}

mf_status mf_tsa_stamp(mf_tsa *tsa, const char *sha256, mf_bytes *token, mf_bytes *reply,
                       mf_err *err)
{
    mf_bytes query = {0};
    *token = *reply = (mf_bytes){0};
    mf_status status = mf_stamp_query(&query, sha256, err);
    if (status == MF_OK)
        status = mf_tsa_ask(tsa->url, tsa->seconds, &query, reply, err);
    if (status == MF_OK)
        status = mf_stamp_reply(token, &tsa->said, &query, reply->data, reply->len,
                                mf_tsa_roots(tsa), err);
    mf_bytes_free(&query);
    if (status != MF_OK)
        mf_bytes_free(reply);
    return status;
}

mf_status mf_tsa_stamp_seal(void *user, const char *sha256, mf_bytes *token, mf_err *err)
{
    mf_bytes reply = {0};
    mf_status status = mf_tsa_stamp(user, sha256, token, &reply, err);
    mf_bytes_free(&reply);
    return status;
}

/* ---- for people ---------------------------------------------------------------------- */

void mf_tsa_when(int64_t minutes, char out[MF_TSA_WHEN])
{
    char day[MF_DAY_TEXT], minute[MF_MINUTE_TEXT];
    mf_day_text((mf_day)(minutes / 1440), day);
    mf_minute_text((int32_t)(minutes % 1440), minute);
    snprintf(out, MF_TSA_WHEN, "%s %s UTC", day, minute);
}

void mf_tsa_told(const mf_stamp_report *stamp, char out[MF_TSA_TOLD])
{
    char day[MF_DAY_TEXT];
    const int64_t at = stamp->before;
    mf_day_text((mf_day)(at / 86400), day);
    snprintf(out, MF_TSA_TOLD, "%.10sT%02d:%02d:%02dZ", day, (int)(at / 3600 % 24),
             (int)(at / 60 % 60), (int)(at % 60));
}

/* Ten minutes: a clock that nobody sets. */
#define FAR_APART 600

static void say_clock(const mf_cli *cli, const mf_stamp_report *stamp)
{
    int64_t apart = stamp->at - cli->seconds;
    if (apart < -FAR_APART || apart > FAR_APART)
        mf_cli_wrap(mf_cli_word(cli, "note.stamp-clock"), 0, 0);
}

json_t *mf_tsa_json(const mf_stamp_report *stamp)
{
    char told[MF_TSA_TOLD];
    mf_tsa_told(stamp, told);
    return json_pack("{s:s, s:o, s:s, s:s, s:s, s:s}", "state", mf_stamp_state_name(stamp->state),
                     "before", stamp->before > 0 ? json_string(told) : json_null(), "authority",
                     stamp->authority, "policy", stamp->policy, "serial", stamp->serial,
                     "fingerprint", stamp->fingerprint);
}

void mf_tsa_say(const mf_cli *cli, const char *label, const mf_stamp_report *stamp)
{
    char when[MF_TSA_WHEN];
    fputs(label, stdout);
    fputs(mf_words2(cli->lang, "stamp", mf_stamp_state_name(stamp->state)), stdout);
    if (mf_stamp_holds(stamp->state) || stamp->state == MF_STAMP_UNTRUSTED) {
        mf_tsa_when((stamp->before + 59) / 60, when); /* it existed before */
        printf(" %s, %s ", when, mf_cli_word(cli, "stamp.by"));
        mf_cli_show(stamp->authority);
    }
    putchar('\n');
}

void mf_tsa_say_unverified(const mf_cli *cli, const mf_stamp_report *stamp)
{
    if (stamp->state == MF_STAMP_UNVERIFIED)
        mf_cli_wrap(mf_cli_word(cli, "note.stamp-unverified"), 0, 0);
}

void mf_tsa_say_new(const mf_cli *cli, const char *label, const mf_stamp_report *stamp)
{
    mf_tsa_say(cli, label, stamp);
    say_clock(cli, stamp);
    mf_tsa_say_unverified(cli, stamp);
}
