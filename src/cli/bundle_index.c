/* bundle_index.c - which jobs a folder of bundles holds, as text and as HTML. */
#include "cli/bundle.h"
#include "cli/pick.h"

#include <inttypes.h>
#include <stdio.h>
#include <string.h>

static const char *word(const mf_index *index, const char *id)
{
    return mf_cli_word(index->cli, id);
}

static void days_text(const mf_index_row *row, char out[2 * MF_DAY_TEXT + 8])
{
    char from[MF_DAY_TEXT], to[MF_DAY_TEXT];
    mf_day_text(row->from, from);
    mf_day_text(row->to, to);
    snprintf(out, 2 * MF_DAY_TEXT + 8, "%s - %s", from, to);
}

/* ---- text ---------------------------------------------------------------------------------- */

static void text_row(const mf_index *index, const mf_index_row *row, mf_buf *out)
{
    char days[2 * MF_DAY_TEXT + 8];
    days_text(row, days);
    mf_buf_printf(out, "\n%s  %s\n    %s, %s\n", row->job, row->address, days,
                  mf_stage_words(index->cli->lang, row->stage));
    for (int gate = 0; gate < MF_GATE_COUNT; gate++)
        mf_buf_printf(out, "    %s  %s\n", mf_gate_question(index->cli, (mf_gate)gate),
                      row->answer[gate]);
    mf_buf_printf(out, "    %s: %s (%zu, %zu)\n", word(index, "index.folder"), row->folder,
                  row->entries, row->attachments);
    mf_buf_printf(out, "    %s\n", word(index, row->record ? "index.record" : "index.no-record"));
}

void mf_index_text(const mf_index *index, mf_buf *out)
{
    char today[MF_DAY_TEXT];
    mf_day_text(index->cli->today, today);
    mf_buf_printf(out, "%s\n%s: %s, %zu\n%s: %s (%s)\n%s: %s\n\n%s: sh verify.sh\n",
                  word(index, "index.title"), word(index, "index.picked"), index->picked, index->n,
                  word(index, "index.day"), today, index->cli->at, word(index, "index.head"),
                  index->head, word(index, "index.check"));
    if (index->cli->lost)
        mf_buf_printf(out, "\n%s\n", word(index, "index.lost"));
    for (size_t i = 0; i < index->n; i++)
        text_row(index, &index->row[i], out);
    mf_buf_printf(out, "\n%s\n", word(index, "caution.short"));
}

/* ---- HTML ---------------------------------------------------------------------------------- */

static void escaped(mf_buf *out, const char *text)
{
    for (; *text != '\0'; text++)
        switch (*text) {
        case '&':
            mf_buf_text(out, "&amp;");
            break;
        case '<':
            mf_buf_text(out, "&lt;");
            break;
        case '"':
            mf_buf_text(out, "&quot;");
            break;
        default:
            mf_buf_add(out, text, 1);
        }
}

static void element(mf_buf *out, const char *name, const char *text)
{
    mf_buf_printf(out, "<%s>", name);
    escaped(out, text);
    mf_buf_printf(out, "</%.*s>", (int)strcspn(name, " "), name);
}

/* Ids of jobs have nothing that a link would read otherwise. */
static void link_cell(mf_buf *out, const mf_index *index, const mf_index_row *row)
{
    const bool zip = row->zip;
    mf_buf_text(out, "<td>");
    mf_buf_printf(out, "<a href=\"%s%s\">%s</a>", row->folder, zip ? "" : "/summary.txt",
                  row->folder);
    if (!row->record) {
        mf_buf_text(out, "<br>");
        escaped(out, word(index, "index.no-record"));
    } else if (!zip) {
        mf_buf_printf(out, ", <a href=\"%s/record.pdf\">record.pdf</a>", row->folder);
    }
    mf_buf_text(out, "</td>");
}

static void html_row(mf_buf *out, const mf_index *index, const mf_index_row *row)
{
    char days[2 * MF_DAY_TEXT + 8];
    days_text(row, days);
    mf_buf_text(out, "<tr>");
    element(out, "th scope=\"row\"", row->job);
    element(out, "td", row->address);
    element(out, "td", days);
    element(out, "td", mf_stage_words(index->cli->lang, row->stage));
    for (int gate = 0; gate < MF_GATE_COUNT; gate++)
        element(out, "td", row->answer[gate]);
    link_cell(out, index, row);
    mf_buf_text(out, "</tr>\n");
}

static void html_heads(mf_buf *out, const mf_index *index)
{
    mf_buf_text(out, "<tr>");
    element(out, "th", word(index, "index.job"));
    element(out, "th", word(index, "index.address"));
    element(out, "th", word(index, "index.days"));
    element(out, "th", word(index, "show.state"));
    for (int gate = 0; gate < MF_GATE_COUNT; gate++)
        element(out, "th", mf_gate_question(index->cli, (mf_gate)gate));
    element(out, "th", word(index, "index.folder"));
    mf_buf_text(out, "</tr>\n");
}

void mf_index_html(const mf_index *index, mf_buf *out)
{
    char line[400], today[MF_DAY_TEXT];
    mf_day_text(index->cli->today, today);
    mf_buf_printf(out, "<!DOCTYPE html>\n<html lang=\"%s\">\n<meta charset=\"utf-8\">\n<title>",
                  index->cli->lang == MF_LANG_ES ? "es" : "en");
    escaped(out, word(index, "index.title"));
    mf_buf_text(out, "</title>\n<style>body{font-family:sans-serif;margin:1em}"
                     "table{border-collapse:collapse}th,td{border:1px solid #777;padding:.3em;"
                     "text-align:left;vertical-align:top}</style>\n");
    element(out, "h1", word(index, "index.title"));
    snprintf(line, sizeof line, "%s: %s, %zu", word(index, "index.picked"), index->picked,
             index->n);
    element(out, "p", line);
    snprintf(line, sizeof line, "%s: %s (%s). %s: %s", word(index, "index.day"), today,
             index->cli->at, word(index, "index.head"), index->head);
    element(out, "p", line);
    snprintf(line, sizeof line, "%s: sh verify.sh", word(index, "index.check"));
    element(out, "p", line);
    if (index->cli->lost)
        element(out, "p", word(index, "index.lost"));
    mf_buf_text(out, "\n<table>\n");
    html_heads(out, index);
    for (size_t i = 0; i < index->n; i++)
        html_row(out, index, &index->row[i]);
    mf_buf_text(out, "</table>\n");
    element(out, "p", word(index, "caution.short"));
    mf_buf_text(out, "\n</html>\n");
}
