/* Lists of what was logged, one for every kind. */
#include "cli/json.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { CELL = 200, COLUMNS_MAX = 24 };

/* A value for one line of a table: what is longer ends in a mark, never inside a letter. */
static void cell_text(const mf_field *field, const void *item, char out[CELL])
{
    static const char more[] = "…";
    char room[MF_VALUE_TEXT];
    const char *text = mf_words_value(field, item, room);
    size_t len = strlen(text);
    bool whole = len < CELL;
    if (!whole)
        len = CELL - sizeof more;
    while (!whole && ((unsigned char)text[len] & 0xC0) == 0x80)
        len--;
    snprintf(out, CELL, "%.*s%s", (int)len, text, whole ? "" : more);
}

/* Widths of the columns; 0 for a column in which nothing was given. */
static void measure(const mf_kind *kind, const char *items, size_t count, int widths[COLUMNS_MAX])
{
    char cell[CELL];
    for (size_t f = 0; f < kind->n_fields && f < COLUMNS_MAX; f++) {
        widths[f] = 0;
        for (size_t i = 0; i < count; i++) {
            cell_text(&kind->fields[f], items + i * kind->size, cell);
            int n = mf_cli_characters(cell, strlen(cell));
            widths[f] = n > widths[f] ? n : widths[f];
        }
        const char *option = kind->fields[f].option;
        int head = mf_cli_characters(option, strlen(option));
        if (widths[f] > 0 && widths[f] < head)
            widths[f] = head;
    }
}

void mf_list_table(const mf_kind *kind, const void *list, size_t count)
{
    const char *items = list;
    int widths[COLUMNS_MAX];
    char cell[CELL];
    measure(kind, items, count, widths);
    for (size_t f = 0; f < kind->n_fields && f < COLUMNS_MAX; f++)
        if (widths[f] > 0)
            mf_cli_pad(kind->fields[f].option, widths[f] + 2);
    puts("entry");
    for (size_t i = 0; i < count; i++) {
        const char *item = items + i * kind->size;
        mf_src src;
        memcpy(&src, item, sizeof src);
        for (size_t f = 0; f < kind->n_fields && f < COLUMNS_MAX; f++) {
            cell_text(&kind->fields[f], item, cell);
            if (widths[f] > 0)
                mf_cli_pad(cell, widths[f] + 2);
        }
        printf("%s%s%s\n", src.entry, src.correction[0] ? " corrected by " : "", src.correction);
    }
}

static mf_status print_json(const mf_kind *kind, const char *items, size_t count)
{
    json_t *array = json_array();
    for (size_t i = 0; i < count; i++)
        json_array_append_new(array, mf_json_item(kind, items + i * kind->size));
    return mf_json_print(array);
}

mf_status mf_cmd_list(mf_cli *cli, const mf_cmd *cmd, const mf_args *args)
{
    mf_err err = {0};
    mf_job *job = NULL;
    size_t count = 0;
    const mf_kind *kind = mf_kind_named(cmd->of);
    const char *id = args->n_words > 0 && !kind->of_firm ? args->word[0] : "";
    mf_status status = mf_cli_job(cli, id, &job, &err);
    if (status != MF_OK)
        return mf_cli_fail(&err);
    const char *items = mf_kind_items(job, kind, &count);
    if (cli->json)
        status = print_json(kind, items, count);
    else if (count == 0)
        printf("no %s was logged yet\n", kind->name);
    else
        mf_list_table(kind, items, count);
    mf_book_job_free(job);
    return status;
}
