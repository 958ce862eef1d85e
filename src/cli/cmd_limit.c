/* limit list: every number of the rule in force on a day. */
#include "cli/json.h"

#include <stdio.h>

static bool in_force(const mf_limit *row, mf_day day)
{
    return (row->from == MF_DAY_NONE || row->from <= day) &&
           (row->until == MF_DAY_NONE || day <= row->until);
}

static json_t *json_of(const mf_limit *row)
{
    static const char *const cmp[] = {"<", "<=", ">=", ">"};
    json_t *object = json_object();
    json_object_set_new(object, "limit", json_string(row->name));
    json_object_set_new(object, "value", json_integer(row->value));
    json_object_set_new(object, "comparison", json_string(cmp[row->cmp]));
    json_object_set_new(object, "from", mf_json_day(row->from));
    json_object_set_new(object, "until", mf_json_day(row->until));
    json_object_set_new(object, "place", json_string(row->place));
    json_object_set_new(object, "citation", json_string(row->citation));
    json_object_set_new(object, "fact", json_string(mf_status_of_fact_text(row->status)));
    json_object_set_new(object, "says", json_string(row->says));
    return object;
}

static void print_one(const mf_cli *cli, const mf_limit *row)
{
    char number[80], from[MF_DAY_TEXT];
    mf_words_number(cli->lang, row->value, row->unit, number, sizeof number);
    mf_day_text(row->from, from);
    mf_cli_pad(row->name, 24);
    mf_cli_pad(number, 18);
    printf("%s [%s]%s%s\n    ", row->citation, mf_status_of_fact_text(row->status),
           from[0] ? " from " : "", from);
    mf_cli_wrap(row->says, 4, 4);
    if (row->note[0] != '\0') {
        printf("    ");
        mf_cli_wrap(row->note, 4, 4);
    }
}

mf_status mf_cmd_limit_list(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    mf_day day;
    size_t count;
    (void)cmd;
    if (mf_cli_day(cli, args, &day, &err) != MF_OK)
        return mf_cli_fail(&err);
    const mf_limit *rows = mf_limit_rows(&count);
    json_t *array = cli->json ? json_array() : NULL;
    for (size_t i = 0; i < count; i++) {
        if (!in_force(&rows[i], day))
            continue;
        if (cli->json)
            json_array_append_new(array, json_of(&rows[i]));
        else
            print_one(cli, &rows[i]);
    }
    if (!cli->json)
        mf_cli_caution(cli);
    return cli->json ? mf_json_print(array) : MF_OK;
}
