/* odd.c - what no program of ours writes although every hash is right. A name from elsewhere
 * may name a file or move the cursor of whoever reads it. */
#include "base/utf8.h"
#include "book/check.h"
#include "book/make.h"
#include "journal/draft.h"
#include "journal/settles.h"
#include <string.h>

static bool is_id(const char *text)
{
    mf_parsed parsed;
    const mf_field *field = mf_field_named(mf_kind_named("house"), "id");
    return mf_field_parse(field, text, "", MF_DAY_NONE, &parsed) == MF_SLIP_NONE;
}

static bool is_plain(const char *text)
{
    return mf_utf8_check(text, strlen(text), NULL) == MF_UTF8_GOOD;
}

/* All texts of a value that was read with mf_json_parse, which bounds its depth. */
static bool is_plain_value(const json_t *value)
{
    size_t i;
    const char *key;
    json_t *part, *shared = (json_t *)(uintptr_t)value; /* jansson's loops are not const */
    if (json_is_string(value))
        return is_plain(json_string_value(value));
    json_array_foreach(shared, i, part)
    {
        if (!is_plain_value(part))
            return false;
    }
    json_object_foreach(shared, key, part)
    {
        if (!is_plain(key) || !is_plain_value(part))
            return false;
    }
    return true;
}

/* What a correction settles, if anything, is a list of entries. */
static bool settles_well(const mf_body *body)
{
    size_t len;
    bool is;
    int64_t number;
    const char *list = mf_body_text(body, "settles", &len);
    if (list != NULL)
        return mf_settles_well(list, len);
    return body->is_flat
               ? !mf_body_int(body, "settles", &number) && !mf_body_bool(body, "settles", &is)
               : json_object_get(body->tree, "settles") == NULL;
}

/* Of the kinds of a newer version it is not known to whom they belong. */
const char *mf_line_oddity(const mf_line *line, const mf_body *body)
{
    const mf_kind *kind = mf_kind_named(line->kind);
    const mf_now made = {.at = line->at, .who = line->who};
    if (!mf_is_device(line->device))
        return "its device has no name that a device can have";
    if (mf_now_check(&made, NULL) != MF_OK)
        return "its time is no UTC time, or nobody is named who wrote it";
    if (!is_plain(line->job) || !is_plain(line->kind) ||
        (!body->is_flat && !is_plain_value(body->tree)))
        return "there is a sign in its text that nobody can type";
    if (line->job[0] != '\0' && !is_id(line->job))
        return "its job has no id that a job can have";
    if (strcmp(line->kind, MF_KIND_CORRECTION) == 0)
        return settles_well(body) ? NULL : "what it settles is not a list of entries";
    if (kind == NULL)
        return NULL;
    if (kind->of_firm && line->job[0] != '\0')
        return "it is the firm's and names a job";
    return kind->of_firm || line->job[0] != '\0' ? NULL : "it names no job";
}
