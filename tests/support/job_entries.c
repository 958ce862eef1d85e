#include "support/job_entries.h"

#include "base/digest.h"
#include "book/record_json.h"
#include "journal/entries_file.h"
#include <string.h>

typedef struct writer {
    mf_buf *out;
    const char *job;
    char hash[MF_HASH_HEX], prev[MF_HASH_HEX];
    int64_t seq;
    bool good;
} writer;

static bool hash_of(void *data, const void *bytes, size_t len, char out[MF_HASH_HEX])
{
    (void)data;
    return mf_digest_hex(bytes, len, out);
}

static const mf_sha256 by = {hash_of, NULL};

static void put_one(writer *w, const mf_kind *kind, json_t *body)
{
    mf_buf text = {0}, canonical = {0};
    if (strcmp(kind->name, "house") == 0)
        json_object_set_new(body, "id", json_string(w->job));
    w->good = w->good && mf_json_canonical(&text, body);
    const mf_line line = {.device = "case",
                          .seq = ++w->seq,
                          .at = "2026-09-01T08:00:00Z",
                          .who = "rosa",
                          .kind = kind->name,
                          .job = kind->of_firm ? "" : w->job,
                          .body = mf_buf_str(&text),
                          .prev = w->prev,
                          .hash = w->hash};
    w->good = w->good && mf_line_hash(&line, &by, &canonical, w->hash, NULL) == MF_OK;
    mf_entries_put_line(w->out, &line);
    mf_hash_copy(w->prev, w->hash);
    mf_buf_free(&text);
    mf_buf_free(&canonical);
}

static void put_kind(writer *w, const mf_kind *kind, const json_t *all)
{
    json_t *list = json_object_get(all, kind->name);
    for (size_t i = 0; i < json_array_size(list); i++)
        put_one(w, kind, json_object_get(json_array_get(list, i), "body"));
}

bool job_entries(mf_buf *out, const mf_job *job, const char *id)
{
    size_t n;
    const mf_kind *kinds = mf_kinds(&n);
    writer w = {.out = out, .job = id, .good = true};
    mf_entries_head head = {.device = "case"};
    json_t *all = mf_record_entries(job);
    mf_hash_copy(w.prev, mf_zero_hash);
    mf_entries_put_first(out, "2026-09-30T12:00:00Z", "", id);
    for (size_t i = 0; i < n; i++)
        put_kind(&w, &kinds[i], all);
    head.seq = w.seq;
    mf_hash_copy(head.hash, w.hash);
    mf_entries_put_last(out, &head, w.seq > 0);
    bool good = all != NULL && w.good && !out->failed;
    json_decref(all);
    return good;
}
