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

static const char *folder_word(const mf_index *index, const mf_index_row *row)
{
    return word(index, row->zip ? "index.file" : "index.folder");
}

/* "entries: 12; attachments: 1" */
static void counts_text(const mf_index *index, const mf_index_row *row, mf_buf *out)
{
    mf_buf_printf(out, "%s: %zu; %s: %zu", word(index, "index.entries"), row->entries,
                  word(index, "index.attachments"), row->attachments);
}

/* ---- text ---------------------------------------------------------------------------------- */

static void first_day(const mf_index *index, const mf_index_row *row, char out[48])
{
    char day[MF_DAY_TEXT];
    mf_day_text(row->from, day);
    snprintf(out, 48, "%s", row->from == MF_DAY_NONE ? word(index, "index.no-day") : day);
}

static void text_row(const mf_index *index, const mf_index_row *row, mf_buf *out)
{
    char from[48], to[MF_DAY_TEXT];
    first_day(index, row, from);
    mf_day_text(row->to, to);
    mf_buf_printf(out, "\n%s  %s\n    %s", row->job, row->address, from);
    if (row->to != row->from)
        mf_buf_printf(out, " %s %s", word(index, "index.to"), to);
    mf_buf_printf(out, ", %s\n", mf_stage_words(index->cli->lang, row->stage));
    for (int gate = 0; gate < MF_GATE_COUNT; gate++)
        mf_buf_printf(out, "    %s  %s\n", mf_gate_question(index->cli, (mf_gate)gate),
                      row->answer[gate]);
    mf_buf_printf(out, "    %s: %s; ", folder_word(index, row), row->folder);
    counts_text(index, row, out);
    mf_buf_printf(out, "\n    %s\n", word(index, row->record ? "index.record" : "index.no-record"));
}

void mf_index_text(const mf_index *index, mf_buf *out)
{
    char today[MF_DAY_TEXT];
    mf_day_text(index->cli->today, today);
    mf_buf_printf(out, "%s\n\n%s\n%s: %zu\n%s: %s (%s)\n%s: %s\n%s: sh verify.sh\n",
                  word(index, "index.title"), index->picked, word(index, "index.count"), index->n,
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
    mf_buf_printf(out, "<td><a href=\"%s%s\">%s</a><br>", row->folder,
                  row->zip ? "" : "/summary.txt", row->folder);
    if (!row->record || row->zip)
        escaped(out, word(index, row->record ? "index.record" : "index.no-record"));
    else
        mf_buf_printf(out, "<a href=\"%s/record.pdf\">record.pdf</a>", row->folder);
    mf_buf_text(out, "<br>");
    counts_text(index, row, out);
    mf_buf_text(out, "</td>");
}

/* A day is never broken over two lines; the line may break between two. */
static void days_cell(mf_buf *out, const mf_index *index, const mf_index_row *row)
{
    char first[48], day[MF_DAY_TEXT];
    first_day(index, row, first);
    mf_buf_printf(out, "<td><span>%s", first);
    mf_day_text(row->to, day);
    if (row->to != row->from)
        mf_buf_printf(out, " %s</span> <span>%s", word(index, "index.to"), day);
    mf_buf_text(out, "</span></td>");
}

static void html_row(mf_buf *out, const mf_index *index, const mf_index_row *row)
{
    mf_buf_text(out, "<tr>");
    element(out, "th scope=\"row\"", row->job);
    element(out, "td", row->address);
    days_cell(out, index, row);
    element(out, "td", mf_stage_words(index->cli->lang, row->stage));
    for (int gate = 0; gate < MF_GATE_COUNT; gate++)
        element(out, "td", row->answer[gate]);
    link_cell(out, index, row);
    mf_buf_text(out, "</tr>\n");
}

static void html_heads(mf_buf *out, const mf_index *index)
{
    static const char *const first[] = {"index.job", "index.address", "index.days", "index.state"};
    mf_buf_text(out, "<tr>");
    for (size_t i = 0; i < sizeof first / sizeof first[0]; i++)
        element(out, "th", word(index, first[i]));
    for (int gate = 0; gate < MF_GATE_COUNT; gate++)
        element(out, "th", mf_gate_question(index->cli, (mf_gate)gate));
    element(out, "th", index->n > 0 ? folder_word(index, &index->row[0]) : "");
    mf_buf_text(out, "</tr>\n");
}

static void line(mf_buf *out, const char *label, const char *text)
{
    mf_buf_text(out, "<dt>");
    escaped(out, label);
    mf_buf_text(out, "</dt><dd>");
    escaped(out, text);
    mf_buf_text(out, "</dd>\n");
}

static void html_about(mf_buf *out, const mf_index *index)
{
    char today[MF_DAY_TEXT], text[120];
    element(out, "h1", word(index, "index.title"));
    element(out, "p", index->picked);
    mf_buf_text(out, "\n<dl>\n");
    snprintf(text, sizeof text, "%zu", index->n);
    line(out, word(index, "index.count"), text);
    mf_day_text(index->cli->today, today);
    snprintf(text, sizeof text, "%s (%s)", today, index->cli->at);
    line(out, word(index, "index.day"), text);
    line(out, word(index, "index.head"), index->head);
    line(out, word(index, "index.check"), "sh verify.sh");
    mf_buf_text(out, "</dl>\n");
    if (index->cli->lost)
        element(out, "p", word(index, "index.lost"));
}

void mf_index_html(const mf_index *index, mf_buf *out)
{
    mf_buf_printf(out, "<!DOCTYPE html>\n<html lang=\"%s\">\n<meta charset=\"utf-8\">\n<title>",
                  index->cli->lang == MF_LANG_ES ? "es" : "en");
    escaped(out, word(index, "index.title"));
    mf_buf_text(out, "</title>\n<style>body{font-family:sans-serif;margin:1em}"
                     "table{border-collapse:collapse}th,td{border:1px solid #777;padding:.3em;"
                     "text-align:left;vertical-align:top}td span,th[scope]{white-space:nowrap}"
                     "dl{display:grid;grid-template-columns:max-content auto;gap:.2em 1em}"
                     "dd{margin:0;overflow-wrap:anywhere}</style>\n");
    html_about(out, index);
    mf_buf_text(out, "<table>\n");
    html_heads(out, index);
    for (size_t i = 0; i < index->n; i++)
        html_row(out, index, &index->row[i]);
    mf_buf_text(out, "</table>\n");
    element(out, "p", word(index, "caution.short"));
    mf_buf_text(out, "\n</html>\n");
}
