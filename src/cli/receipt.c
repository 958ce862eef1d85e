#include "cli/receipt.h"

#include <inttypes.h>

void mf_receipt_begin(mf_receipt *r)
{
    *r = (mf_receipt){.devices = json_array()};
}

bool mf_receipt_head(const char *device, int64_t seq, const char *hash, void *data)
{
    mf_receipt *r = data;
    mf_buf_printf(&r->lines, "%s %" PRId64 " %s\n", device, seq, hash);
    return json_array_append_new(r->devices, json_pack("{s:s, s:I, s:s}", "device", device, "seq",
                                                       (json_int_t)seq, "hash", hash)) == 0;
}

json_t *mf_receipt_json(const mf_receipt *r, const mf_entries_report *out)
{
    const mf_merge_report *m = &out->merge;
    return json_pack("{s:I, s:I, s:I, s:I, s:I, s:b, s:I, s:s, s:O}", "read", (json_int_t)m->read,
                     "added", (json_int_t)m->added, "attachments", (json_int_t)m->contents,
                     "contradictions", (json_int_t)m->contradictions, "doubles",
                     (json_int_t)m->doubles, "cut", (int)out->cut, "left", (json_int_t)out->left,
                     "head", out->head, "devices", r->devices);
}

char *mf_receipt_text(const mf_receipt *r, const mf_entries_report *out)
{
    json_t *all = mf_receipt_json(r, out);
    char *text = all == NULL ? NULL : json_dumps(all, JSON_COMPACT);
    json_decref(all);
    return text;
}

void mf_receipt_end(mf_receipt *r)
{
    json_decref(r->devices);
    mf_buf_free(&r->lines);
}
