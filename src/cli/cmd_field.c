/* field page: one HTML file with the job, the wording and the judgment, for a phone. */
#include "base/base64.h"
#include "base/fail.h"
#include "cli/field_page.h"

#include <mistfold/entries.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <zlib.h>

enum { GZIP = 16 + MAX_WBITS };

/* As the page unpacks it: gzip, in base64. The same bytes give the same text. */
static mf_status pack(const mf_bytes *in, mf_buf *out, mf_err *err)
{
    z_stream z = {.next_in = in->data, .avail_in = (uInt)in->len};
    if (deflateInit2(&z, Z_BEST_COMPRESSION, Z_DEFLATED, GZIP, 9, Z_DEFAULT_STRATEGY) != Z_OK)
        return mf_fail_memory(err);
    uLong most = deflateBound(&z, (uLong)in->len);
    unsigned char *bytes = malloc(most);
    z.next_out = bytes;
    z.avail_out = (uInt)most;
    bool good = bytes != NULL && deflate(&z, Z_FINISH) == Z_STREAM_END;
    if (good)
        mf_base64_put(out, bytes, z.total_out);
    deflateEnd(&z);
    free(bytes);
    return good && !out->failed ? MF_OK : mf_fail_memory(err);
}

/* ---- filling in ------------------------------------------------------------------------- */

typedef struct hole {
    const char *name, *text;
} hole;

/* Text of somebody else stands in HTML, and in a JSON string of it. */
static void put_escaped(mf_buf *out, const char *text)
{
    for (; *text != '\0'; text++) {
        if (strchr("<>&\"'\\", *text) != NULL)
            mf_buf_printf(out, "&#%d;", *text);
        else
            mf_buf_add(out, text, 1);
    }
}

/* Which hole stands here, NULL = none does. */
static const hole *hole_at(const hole *holes, const char *at, size_t left)
{
    for (; holes->name != NULL; holes++) {
        size_t len = strlen(holes->name);
        if (len <= left && memcmp(at, holes->name, len) == 0)
            return holes;
    }
    return NULL;
}

static void fill(mf_buf *out, const hole *holes)
{
    const char *at = (const char *)mf_field_page_html, *end = at + mf_field_page_len;
    while (at < end) {
        const char *mark = memchr(at, '@', (size_t)(end - at));
        const char *stop = mark == NULL ? end : mark;
        const hole *it = mark == NULL ? NULL : hole_at(holes, mark, (size_t)(end - mark));
        mf_buf_add(out, at, (size_t)(stop - at));
        if (it != NULL)
            mf_buf_text(out, it->text);
        else if (mark != NULL)
            mf_buf_add(out, "@", 1);
        at = mark == NULL ? end : mark + (it == NULL ? 1 : strlen(it->name));
    }
}

mf_status mf_cli_field_page(mf_lang lang, const char *name, const char *person,
                            const mf_bytes *entries, mf_bytes *out, mf_err *err)
{
    mf_buf job = {0}, old = {0}, escaped = {0}, html = {0};
    mf_status status = pack(entries, &job, err);
    put_escaped(&escaped, name);
    for (int i = 0; i < MF_LANG_COUNT; i++) {
        put_escaped(&old, mf_words((mf_lang)i, "field.page.too-old"));
        mf_buf_text(&old, i + 1 < MF_LANG_COUNT ? "<br>" : "");
    }
    const hole holes[] = {{"@JOB@", mf_buf_str(&job)}, {"@LANG@", lang == MF_LANG_ES ? "es" : "en"},
                          {"@PERSON@", person},        {"@NAME@", mf_buf_str(&escaped)},
                          {"@OLD@", mf_buf_str(&old)}, {NULL, NULL}};
    if (status == MF_OK)
        fill(&html, holes);
    if (status == MF_OK && (html.failed || old.failed || escaped.failed))
        status = mf_fail_memory(err);
    if (status == MF_OK)
        mf_buf_take(&html, out);
    mf_buf_free(&job);
    mf_buf_free(&old);
    mf_buf_free(&escaped);
    mf_buf_free(&html);
    return status;
}

/* ---- the command ------------------------------------------------------------------------- */

/* A person of the book; its id has no letter that HTML takes for its own. */
static mf_status check_person(mf_cli *cli, const char *job_id, const char *person, mf_err *err)
{
    mf_job *job = NULL;
    mf_status status = mf_cli_job(cli, job_id, &job, err);
    bool known = person[0] == '\0' || (status == MF_OK && mf_job_person(job, person) != NULL);
    mf_book_job_free(job);
    if (status == MF_OK && !known)
        status = mf_failf(err, MF_INPUT, "--person", "", "see \"person list\"",
                          "there is no person %.40s in the book", person);
    return status;
}

mf_status mf_cmd_field_page(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    mf_bytes entries = {0}, html = {0};
    const char *path = mf_args_value(args, "out"), *job = args->word[0];
    const char *person = mf_args_value(args, "person");
    (void)cmd;
    mf_status status = mf_cli_check_settings(cli, &err);
    if (status == MF_OK)
        status = mf_cli_book(cli, &err);
    if (status == MF_OK)
        status = check_person(cli, job, person == NULL ? "" : person, &err);
    if (status == MF_OK)
        status = mf_book_export_page(cli->book, job, cli->at, &entries, &err);
    if (status == MF_OK)
        status =
            mf_cli_field_page(cli->lang, job, person == NULL ? "" : person, &entries, &html, &err);
    if (status == MF_OK)
        status = mf_cli_put(cli, path, html.data, html.len, &err);
    mf_bytes_free(&entries);
    mf_bytes_free(&html);
    if (status != MF_OK)
        return mf_cli_fail(&err);
    mf_cli_wrote(cli, path);
    return MF_OK;
}
