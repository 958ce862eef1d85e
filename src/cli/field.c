/* Between the options of a command and the struct and draft of a kind. */
#include "base/fail.h"
#include "cli/cli.h"

#include <stdio.h>
#include <string.h>

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
        const mf_value value = {text != NULL, parsed.number, text};
        mf_item_put(field, item, &value);
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

const char *mf_cli_choice(const char *kind, const char *field, int value)
{
    return mf_field_named(mf_kind_named(kind), field)->choices[value];
}
