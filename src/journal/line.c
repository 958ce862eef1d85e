#include "journal/line.h"

#include "base/fail.h"
#include "base/json.h"
#include <stdio.h>
#include <string.h>

const char mf_zero_hash[MF_HASH_HEX] =
    "0000000000000000000000000000000000000000000000000000000000000000";

void mf_hash_copy(char out[MF_HASH_HEX], const char *hash)
{
    size_t len = strnlen(hash, MF_HASH_HEX - 1);
    memcpy(out, hash, len);
    out[len] = '\0';
}

/* ---- the line ------------------------------------------------------------------------ */

/* The keys stand in RFC 8785 order; body is canonical already. The view entry_line of a
 * book says the same in SQL. */
void mf_line_text(mf_buf *out, const mf_line *line)
{
    mf_json_key(out, "{\"at\":", line->at);
    mf_buf_text(out, ",\"body\":");
    mf_buf_text(out, line->body);
    mf_json_key(out, ",\"device\":", line->device);
    mf_json_key(out, ",\"job\":", line->job);
    mf_json_key(out, ",\"kind\":", line->kind);
    mf_json_key(out, ",\"prev\":", line->prev);
    mf_buf_text(out, ",\"seq\":");
    mf_buf_number(out, line->seq);
    mf_json_key(out, ",\"who\":", line->who);
    mf_buf_text(out, "}");
}

MF_API bool mf_entry_line(const mf_entry *entry, mf_bytes *out)
{
    char device[MF_DEVICE_MAX + 1];
    mf_buf text = {0};
    mf_line line = {.device = device,
                    .at = entry->at,
                    .who = entry->who,
                    .kind = entry->kind,
                    .job = entry->job,
                    .body = entry->body,
                    .prev = entry->prev};
    *out = (mf_bytes){0};
    if (!mf_entry_id_split(entry->id, device, &line.seq))
        return false;
    mf_line_text(&text, &line);
    bool whole = !text.failed;
    if (whole)
        mf_buf_take(&text, out);
    mf_buf_free(&text);
    return whole;
}

mf_status mf_line_hash(const mf_line *line, const mf_sha256 *by, mf_buf *text,
                       char out[MF_HASH_HEX], mf_err *err)
{
    mf_buf_clear(text);
    mf_line_text(text, line);
    bool good = !text->failed && by->hash(by->data, text->data, text->len, out);
    return good ? MF_OK : mf_fail_memory(err);
}

/* ---- its name ------------------------------------------------------------------------ */

void mf_line_id(const mf_line *line, char out[MF_ENTRY_ID])
{
    snprintf(out, MF_ENTRY_ID, "%s/%lld", line->device, (long long)line->seq);
}

bool mf_is_device(const char *name)
{
    size_t len = strspn(name, "abcdefghijklmnopqrstuvwxyz0123456789-");
    return len > 0 && len <= MF_DEVICE_MAX && name[len] == '\0';
}

bool mf_entry_id_split(const char *text, char device[MF_DEVICE_MAX + 1], int64_t *seq)
{
    const char *slash = strchr(text, '/');
    size_t len = slash == NULL ? 0 : (size_t)(slash - text);
    if (len == 0 || len > MF_DEVICE_MAX)
        return false;
    memcpy(device, text, len);
    device[len] = '\0';
    const char *digits = slash + 1;
    size_t n = strspn(digits, "0123456789");
    if (n == 0 || n > 15 || digits[n] != '\0' || digits[0] == '0')
        return false;
    *seq = 0;
    for (; *digits != '\0'; digits++)
        *seq = *seq * 10 + (*digits - '0');
    return true;
}

bool mf_made_after(const char *at, const char *entry, const char *other_at, const char *other)
{
    char device[2][MF_DEVICE_MAX + 1] = {"", ""};
    int64_t seq[2] = {0, 0};
    int order = strcmp(at, other_at);
    if (order != 0)
        return order > 0;
    mf_entry_id_split(entry, device[0], &seq[0]);
    mf_entry_id_split(other, device[1], &seq[1]);
    order = strcmp(device[0], device[1]);
    return order == 0 ? seq[0] > seq[1] : order > 0;
}
