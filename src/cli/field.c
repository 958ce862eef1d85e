/* Between the options of a command and the struct and draft of a kind. */
#include "base/fail.h"
#include "cli/cli.h"

#include <inttypes.h>
#include <stdio.h>
#include <string.h>

/* Puts a parsed value, or "not given", into the member. */
static void put_member(const mf_field *field, const char *text, const mf_parsed *parsed, void *item)
{
    void *member = (char *)item + field->offset;
    bool given = text != NULL;
    int32_t small;
    int64_t number = given ? parsed->number : MF_NUM_NONE;
    const char *words = given ? text : "";
    switch (field->type) {
    case MF_F_TEXT:
    case MF_F_ID:
    case MF_F_IDS:
        memcpy(member, &words, sizeof words);
        break;
    case MF_F_DATE:
        small = given ? (int32_t)number : MF_DAY_NONE;
        memcpy(member, &small, sizeof small);
        break;
    case MF_F_TIME:
        small = given ? (int32_t)number : MF_MINUTE_NONE;
        memcpy(member, &small, sizeof small);
        break;
    case MF_F_CHOICE:
    case MF_F_YESNO:
        small = given ? (int32_t)number : 0;
        memcpy(member, &small, sizeof small);
        break;
    case MF_F_INT:
    case MF_F_HUNDREDTHS:
    case MF_F_INCHES:
    case MF_F_LOADING:
    case MF_F_DUST:
    case MF_F_PPM:
        memcpy(member, &number, sizeof number);
        break;
    }
}

/* What a draft refuses it refuses in words; here only what it accepts arrives. */
mf_status mf_cli_fill(const mf_kind *kind, const mf_args *args, mf_day today, void *item,
                      mf_err *err)
{
    static const mf_src nowhere = {"", "", "", ""};
    memset(item, 0, kind->size);
    memcpy(item, &nowhere, sizeof nowhere);
    for (size_t i = 0; i < kind->n_fields; i++) {
        const mf_field *field = &kind->fields[i];
        const char *text = mf_args_value(args, field->option);
        mf_parsed parsed = {0, MF_QUAL_EXACT};
        if (text != NULL && mf_field_parse(field, text, "", today, &parsed) != MF_SLIP_NONE)
            return mf_fail(err, MF_INPUT, field->option, "cannot be read", "", field->doc);
        put_member(field, text, &parsed, item);
    }
    return MF_OK;
}

mf_status mf_cli_draft(const mf_cli *cli, const mf_kind *kind, const mf_args *args, mf_draft **out,
                       mf_err *err)
{
    mf_status status = mf_draft_new(out, kind, err);
    for (size_t i = 0; i < kind->n_fields && status == MF_OK; i++) {
        const char *option = kind->fields[i].option;
        const char *text = mf_args_value(args, option);
        char where[64];
        snprintf(where, sizeof where, "--%s", option);
        if (text != NULL)
            status = mf_draft_set(*out, option, text, "", where, cli->today, err);
    }
    return status;
}
