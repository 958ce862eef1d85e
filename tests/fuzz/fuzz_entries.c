/* Files of entries: as they come, and with right hashes around whatever is made up, as
 * somebody would write one who means it. */
#include "base/digest.h"
#include "fuzz/fuzz.h"
#include "journal/entries_file.h"

#include <mistfold/entries.h>
#include <string.h>

static bool sha256(void *data, const void *bytes, size_t len, char out[MF_HASH_HEX])
{
    (void)data;
    return mf_digest_hex(bytes, len, out);
}

/* ---- a file with right hashes ------------------------------------------------------------ */

/* Up to the next tab, or all; moves on behind it. */
static char *word(char **at)
{
    char *from = *at, *tab = strchr(from, '\t');
    *at = tab == NULL ? from + strlen(from) : tab + 1;
    if (tab != NULL)
        *tab = '\0';
    return from;
}

/* A line is KIND, JOB, WHO, TIME and BODY with tabs between; "@" and text is bytes. */
static void put_line(mf_buf *out, mf_entries_heads *heads, char *text, char prev[MF_HASH_HEX],
                     int64_t *seq)
{
    char hash[MF_HASH_HEX];
    mf_buf canonical = {0};
    const mf_sha256 by = {sha256, NULL};
    if (text[0] == '@') {
        FUZZ_HOLDS(mf_digest_hex(text + 1, strlen(text + 1), hash));
        mf_entries_put_content(out, hash, text + 1, strlen(text + 1));
        return;
    }
    const char *kind = word(&text), *job = word(&text), *who = word(&text), *at = word(&text);
    mf_line line = {"phone", ++*seq, at, who, kind, job, text, prev, hash};
    FUZZ_HOLDS(mf_line_hash(&line, &by, &canonical, hash, NULL) == MF_OK);
    mf_entries_put_line(out, &line);
    FUZZ_HOLDS(mf_entries_head_note(heads, &line));
    memcpy(prev, hash, sizeof hash);
    mf_buf_free(&canonical);
}

static void make(mf_buf *out, char *text)
{
    char prev[MF_HASH_HEX];
    int64_t seq = 0;
    mf_entries_heads heads = {0};
    memcpy(prev, mf_zero_hash, sizeof prev);
    mf_entries_put_first(out, "2026-09-15T14:00:00Z", "", "J-1");
    while (*text != '\0') {
        char *end = strchr(text, '\n'), *next = end == NULL ? text + strlen(text) : end + 1;
        if (end != NULL)
            *end = '\0';
        put_line(out, &heads, text, prev, &seq);
        text = next;
    }
    mf_entries_put_last(out, heads.at, heads.n);
    free(heads.at);
}

/* ---- taking it ----------------------------------------------------------------------------- */

/* What was taken can be loaded, and leaves a book that passes its check; what was refused
 * leaves it as it was. Taken back in the end. */
static void take(const void *bytes, size_t len)
{
    mf_err err = {0};
    mf_job *job = NULL;
    mf_entries_report out;
    char before[MF_HASH_HEX], after[MF_HASH_HEX];
    mf_book *book = fuzz_our_book();
    const mf_now at = {mf_day_from(2026, 9, 15), "2026-09-15T14:00:00Z", "rosa", NULL};
    const mf_entries_ask ask = {.name = "x.entries", .bytes = bytes, .len = len, .now = &at};
    FUZZ_HOLDS(mf_book_head(book, before, &err) == MF_OK);
    FUZZ_HOLDS(mf_book_begin(book, &err) == MF_OK);
    mf_status status = mf_book_import_entries(book, &ask, &out, &err);
    FUZZ_HOLDS(status == MF_OK || status == MF_INPUT);
    FUZZ_HOLDS(status == MF_OK || (err.what[0] != '\0' && err.mend[0] != '\0'));
    FUZZ_HOLDS(mf_book_head(book, after, &err) == MF_OK);
    FUZZ_HOLDS((strcmp(before, after) != 0) == (status == MF_OK && out.merge.added > 0));
    if (status == MF_OK && out.merge.added > 0) {
        FUZZ_HOLDS(mf_book_job(book, "J-1", &job, &err) == MF_OK);
        FUZZ_HOLDS(job->integrity != MF_INTEGRITY_BROKEN);
        mf_book_job_free(job);
    }
    mf_book_rollback(book);
}

/* Bytes that begin with ! are lines to be made a file of (put_line). */
void fuzz_entries(const uint8_t *data, size_t len)
{
    mf_buf made = {0};
    if (len == 0 || data[0] != '!') {
        take(len == 0 ? "" : (const char *)data, len);
        return;
    }
    char *text = fuzz_text(data + 1, len - 1);
    make(&made, text);
    take(made.data, made.len);
    mf_buf_free(&made);
    free(text);
}
