/* A calendar by RFC 5545: the days of the work, what is due, and how long the
 * records are kept. Events of whole days; their UIDs stay the same from export to
 * export, so that a calendar updates them. */
#include "cli/due.h"
#include "cli/export.h"

#include <mistfold/person.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { LINE_OCTETS = 75 };

/* RFC 5545 3.1: a content line, folded before it is longer than 75 octets and
 * never inside a character. */
static void content_line(mf_buf *out, const char *name, const char *value)
{
    size_t column = strlen(name) + 1;
    mf_buf_printf(out, "%s:", name);
    while (*value != '\0') {
        size_t len = 1;
        while (((unsigned char)value[len] & 0xC0) == 0x80)
            len++;
        if (column + len > LINE_OCTETS) {
            mf_buf_text(out, "\r\n ");
            column = 1;
        }
        mf_buf_add(out, value, len);
        column += len;
        value += len;
    }
    mf_buf_text(out, "\r\n");
}

/* RFC 5545 3.3.11: backslash, comma and semicolon are escaped. */
static void text_line(mf_buf *out, const char *name, const char *text)
{
    mf_buf escaped = {0}, plain = {0};
    mf_export_text(&plain, text);
    escaped.failed = plain.failed;
    for (text = mf_buf_str(&plain); *text != '\0'; text++) {
        if (strchr("\\,;", *text) != NULL)
            mf_buf_text(&escaped, "\\");
        mf_buf_add(&escaped, text, 1);
    }
    out->failed = out->failed || escaped.failed;
    content_line(out, name, mf_buf_str(&escaped));
    mf_buf_free(&escaped);
    mf_buf_free(&plain);
}

static void day_line(mf_buf *out, const char *name, mf_day day)
{
    int year, month, dom;
    mf_day_parts(day, &year, &month, &dom);
    mf_buf_printf(out, "%s;VALUE=DATE:%04d%02d%02d\r\n", name, year, month, dom);
}

/* "2026-09-14T07:40:00Z" without its signs. */
static void stamp_line(mf_buf *out, const char *at)
{
    mf_buf_text(out, "DTSTAMP:");
    for (; *at != '\0'; at++)
        if (strchr("-:", *at) == NULL)
            mf_buf_add(out, at, 1);
    mf_buf_text(out, "\r\n");
}

/* id is of the job, or of the certificate. */
static void event(const mf_cli *cli, const char *id, const char *what, mf_day from, mf_day to,
                  const char *summary, mf_buf *out)
{
    mf_buf text = {0};
    if (from == MF_DAY_NONE || from == MF_DAY_OPEN)
        return;
    mf_buf_text(out, "BEGIN:VEVENT\r\n");
    mf_buf_printf(&text, "%s.%s@mistfold.invalid", id, what);
    content_line(out, "UID", mf_buf_str(&text));
    stamp_line(out, cli->at);
    day_line(out, "DTSTART", from);
    day_line(out, "DTEND", to + 1); /* the day after, RFC 5545 3.6.1 */
    mf_buf_clear(&text);
    mf_buf_printf(&text, "%s: %s", id, summary);
    text_line(out, "SUMMARY", mf_buf_str(&text));
    content_line(out, "TRANSP", "TRANSPARENT");
    mf_buf_text(out, "END:VEVENT\r\n");
    out->failed = out->failed || text.failed;
    mf_buf_free(&text);
}

static void due_events(const mf_cli *cli, const mf_job *job, mf_buf *out)
{
    mf_due_list list = {.lang = cli->lang};
    char what[64], summary[300];
    mf_due_of_job(job, mf_stage_of(job, cli->today), cli->today, &list);
    for (size_t i = 0; i < list.n; i++) {
        snprintf(what, sizeof what, "%s", mf_due_words_id(list.rows[i].what));
        snprintf(summary, sizeof summary, "%s (%s)", mf_cli_word(cli, what), list.rows[i].who);
        event(cli, job->id, what, list.rows[i].day, list.rows[i].day, summary, out);
    }
    out->failed = out->failed || list.failed;
    free(list.rows);
}

void mf_ics_begin(mf_buf *out)
{
    mf_buf_text(out, "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//mistfold//" MISTFOLD_VERSION
                     "//EN\r\nCALSCALE:GREGORIAN\r\n");
}

void mf_ics_end(mf_buf *out)
{
    mf_buf_text(out, "END:VCALENDAR\r\n");
}

void mf_ics_job(const mf_cli *cli, const mf_job *job, const mf_hide *hide, mf_buf *out)
{
    const mf_house *house = &job->house[0];
    mf_buf work = {0};
    mf_due due;
    mf_due_dates(job, &due);
    mf_buf_printf(&work, "%s", mf_cli_word(cli, "ics.work"));
    if (!hide->home) /* else it is where the owner lives */
        mf_buf_printf(&work, ", %s", house->address);
    if (!mf_called_off(job, cli->today))
        event(cli, job->id, "work", house->start,
              house->end == MF_DAY_NONE ? house->start : house->end, mf_buf_str(&work), out);
    out->failed = out->failed || work.failed;
    mf_buf_free(&work);
    due_events(cli, job, out);
    event(cli, job->id, "keep-until", due.keep_until, due.keep_until, mf_cli_word(cli, "ics.keep"),
          out);
}

static void amend_event(const mf_cli *cli, const mf_job *firm, const mf_certificate *it,
                        mf_buf *out)
{
    char what[64], summary[300];
    mf_day by = mf_certificate_amend_by(firm, it, cli->today);
    snprintf(what, sizeof what, "amend.%s", it->src.entry);
    snprintf(summary, sizeof summary, "%s %.80s", mf_cli_word(cli, "due.amend"), it->number);
    event(cli, it->holder, what, by, by, summary, out);
}

/* Its entry tells one certificate from another, whatever stands on it. */
void mf_ics_firm(const mf_cli *cli, const mf_job *firm, mf_buf *out)
{
    char what[64], summary[300];
    for (size_t i = 0; i < firm->n_certificate; i++) {
        const mf_certificate *it = &firm->certificate[i];
        mf_day until = mf_certificate_until(firm, it);
        if (mf_certificate_replaced(firm, it))
            continue;
        snprintf(what, sizeof what, "certificate.%s", it->src.entry);
        bool presumed = mf_certificate_if_hands_on(firm, it) != MF_DAY_NONE;
        snprintf(summary, sizeof summary, "%s %.80s%s%s", mf_cli_word(cli, "due.certificate"),
                 it->number, presumed ? "; " : "",
                 presumed ? mf_cli_word(cli, "due.presumed") : "");
        if (!mf_certificate_serves_not(firm, it)) /* else it never held */
            event(cli, it->holder, what, until, until, summary, out);
        amend_event(cli, firm, it, out);
    }
}
