#include "cli/json.h"
#include "cli/mend.h"

#include "base/fail.h"
#include "base/utf8.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static json_t *text_or_null(const char *text)
{
    return text[0] == '\0' ? json_null() : json_string(text);
}

json_t *mf_json_day(mf_day day)
{
    char text[MF_DAY_TEXT];
    mf_day_text(day, text);
    return text_or_null(text);
}

static json_t *number_or_null(int64_t number)
{
    return number == MF_NUM_NONE ? json_null() : json_integer(number);
}

/* One field of an item: a number, true/false, text, or null when not given. */
static json_t *value_of(const mf_field *field, const void *item)
{
    const mf_value value = mf_item_value(field, item);
    char room[MF_VALUE_WORD];
    if (mf_field_is_number(field->type))
        return number_or_null(value.number);
    if (field->type == MF_F_YESNO && value.given)
        return json_boolean(value.number == MF_YES);
    return text_or_null(mf_value_word(field, &value, room));
}

json_t *mf_json_item(const mf_kind *kind, const void *item)
{
    mf_src src;
    memcpy(&src, item, sizeof src); /* every kind's struct begins with it */
    json_t *object = json_object();
    json_object_set_new(object, "entry", json_string(src.entry));
    json_object_set_new(object, "corrected_by", text_or_null(src.correction));
    for (size_t i = 0; i < kind->n_fields; i++)
        json_object_set_new(object, kind->fields[i].name, value_of(&kind->fields[i], item));
    return object;
}

json_t *mf_json_limit(const mf_limit *row)
{
    if (row == NULL)
        return json_null();
    json_t *object = json_object();
    json_object_set_new(object, "limit", json_string(row->name));
    json_object_set_new(object, "value", json_integer(row->value));
    json_object_set_new(object, "comparison", json_string(mf_cmp_text(row->cmp)));
    json_object_set_new(object, "from", mf_json_day(row->from));
    json_object_set_new(object, "until", mf_json_day(row->until));
    json_object_set_new(object, "place", json_string(row->place));
    json_object_set_new(object, "citation", json_string(row->citation));
    json_object_set_new(object, "fact", json_string(mf_status_of_fact_text(row->status)));
    json_object_set_new(object, "says", json_string(row->says));
    return object;
}

/* "notice-no-unit,notice-unsigned", null when there is but one reason. */
static json_t *json_also(const mf_finding *finding)
{
    mf_buf names = {0};
    for (size_t i = 0; i < finding->n_also; i++) {
        mf_buf_text(&names, i == 0 ? "" : ",");
        mf_buf_text(&names, finding->also[i]);
    }
    json_t *also = names.failed ? NULL : text_or_null(mf_buf_str(&names));
    mf_buf_free(&names);
    return also;
}

json_t *mf_json_finding(const mf_cli *cli, const mf_job *job, const mf_finding *finding)
{
    const mf_requirement *req = finding->requirement;
    char why[1024], command[MF_COMMAND_MAX] = "";
    mf_mend_of(command, job, finding);
    mf_words_why(cli->lang, finding, why, sizeof why);
    json_t *object = json_object();
    json_object_set_new(object, "requirement", json_string(req->id));
    json_object_set_new(object, "citation", json_string(req->citation));
    json_object_set_new(object, "fact", json_string(mf_status_of_fact_text(req->status)));
    json_object_set_new(object, "verdict", json_string(mf_verdict_name(finding->verdict)));
    json_object_set_new(object, "reason", json_string(finding->why));
    json_object_set_new(object, "also", json_also(finding));
    json_object_set_new(object, "reason_text", json_string(why));
    json_object_set_new(object, "command", text_or_null(command));
    json_object_set_new(object, "subject", text_or_null(finding->subject));
    json_object_set_new(object, "in_unit", text_or_null(finding->in_unit));
    json_object_set_new(object, "evidence", text_or_null(finding->evidence));
    json_object_set_new(object, "other", text_or_null(finding->other));
    json_object_set_new(object, "field", text_or_null(finding->field));
    json_object_set_new(object, "day1", mf_json_day(finding->d1));
    json_object_set_new(object, "day2", mf_json_day(finding->d2));
    json_object_set_new(object, "number1", number_or_null(finding->n1));
    json_object_set_new(object, "number2", number_or_null(finding->n2));
    json_object_set_new(object, "limit",
                        finding->limit == NULL ? json_null() : json_string(finding->limit->name));
    json_object_set_new(object, "decided_by", mf_json_limit(finding->limit));
    json_object_set_new(object, "beside", mf_json_limit(finding->beside));
    return object;
}

/* An object to which nothing could be added for want of memory is one without it, and
 * nobody looks at each of the many members: so the program remembers that it lacked. */
static bool lacked;

static void *ask(size_t size)
{
    void *at = malloc(size);
    lacked = lacked || at == NULL;
    return at;
}

void mf_json_watch(void)
{
    json_set_alloc_funcs(ask, free);
}

static void add_unit(mf_buf *out, uint32_t unit)
{
    mf_buf_printf(out, "\\u%04x", (unsigned)unit);
}

/* By RFC 8259, 7: above U+FFFF in two units of UTF-16. */
static void add_escaped(mf_buf *out, uint32_t c)
{
    if (c > 0xFFFF) {
        add_unit(out, 0xD800 + ((c - 0x10000) >> 10));
        add_unit(out, 0xDC00 + ((c - 0x10000) & 0x3FF));
    } else {
        add_unit(out, c);
    }
}

void mf_json_seen(mf_buf *out, const char *text, size_t len)
{
    size_t step = 0;
    for (size_t at = 0; at < len; at += step) {
        int32_t c = -1;
        step = mf_utf8_next(text + at, len - at, &c);
        if (step > 0 && (!mf_utf8_is_control(c) || c == '\n' || c == '\r' || c == '\t'))
            mf_buf_add(out, text + at, step);
        else if (step > 0)
            add_escaped(out, (uint32_t)c);
        else
            mf_buf_text(out, "?");
        step = step == 0 ? 1 : step;
    }
}

/* The text, which is freed or given back; NULL when there is no memory. */
static char *escape_controls(char *text)
{
    mf_buf out = {0};
    mf_bytes bytes = {0};
    size_t len = strlen(text);
    mf_json_seen(&out, text, len);
    bool same = !out.failed && out.len == len;
    if (!same && !out.failed)
        mf_buf_take(&out, &bytes);
    mf_buf_free(&out);
    if (same)
        return text;
    free(text);
    return (char *)bytes.data;
}

char *mf_json_text(const json_t *root, size_t flags)
{
    char *text = root == NULL || lacked ? NULL : json_dumps(root, flags);
    if (text != NULL && !lacked)
        text = escape_controls(text);
    else if (text != NULL) {
        free(text);
        text = NULL;
    }
    return text;
}

mf_status mf_json_put(const json_t *root, mf_err *err)
{
    char *text = mf_json_text(root, JSON_INDENT(2));
    if (text == NULL)
        return mf_fail_memory(err);
    puts(text);
    free(text);
    return MF_OK;
}

mf_status mf_json_print(json_t *root)
{
    mf_err err = {0};
    mf_status status = mf_json_put(root, &err);
    json_decref(root);
    return status == MF_OK ? MF_OK : mf_cli_fail(&err);
}
