#include "support/field_asked.h"

#include "support/job_entries.h"
#include <mistfold/audit.h>
#include <stdio.h>

const char *field_asked(mf_field_page *page, const char *what, const char *day, const char *more,
                        mf_buf *asked)
{
    mf_buf ask = {0};
    mf_buf_printf(&ask, "{\"do\":\"%s\",\"today\":\"%s\",\"time\":\"14:00\",\"lang\":\"es\"%s}",
                  what, day, more);
    const char *reply = mf_field_ask(page, mf_buf_str(&ask), NULL, 0);
    if (asked != NULL)
        mf_buf_printf(asked, "%s\n%s\n", mf_buf_str(&ask), reply);
    mf_buf_free(&ask);
    return reply;
}

static void ask_day(mf_field_page *page, const mf_job *job, const char *day, mf_buf *asked)
{
    char more[120];
    field_asked(page, "job", day, "", asked);
    for (int gate = 0; gate < MF_GATE_COUNT; gate++) {
        snprintf(more, sizeof more, ",\"gate\":\"%s\"", mf_gate_name((mf_gate)gate));
        field_asked(page, "gate", day, more, asked);
    }
    for (size_t i = 0; i < job->n_area; i++) {
        snprintf(more, sizeof more, ",\"area\":\"%.60s\"", job->area[i].id);
        field_asked(page, "steps", day, more, asked);
        field_asked(page, "verify", day, more, asked);
    }
}

static bool write_file(const char *folder, const char *name, const char *end, const mf_buf *text)
{
    char path[600];
    snprintf(path, sizeof path, "%s/%s.%s", folder, name, end);
    FILE *file = fopen(path, "wb");
    bool good = file != NULL && fwrite(text->data, 1, text->len, file) == text->len;
    return file != NULL && fclose(file) == 0 && good;
}

bool field_asked_write(const char *folder, const char *name, const mf_buf *entries,
                       const mf_buf *asked)
{
    return !asked->failed && write_file(folder, name, "entries", entries) &&
           write_file(folder, name, "asked", asked);
}

bool field_asked_all(const char *folder, const char *name, const mf_job *job)
{
    static const char load[] =
        "{\"do\":\"load\",\"today\":\"2026-10-01\",\"time\":\"14:00\",\"lang\":\"en\"}";
    mf_buf entries = {0}, asked = {0};
    mf_field_page *page = mf_field_new();
    bool good = page != NULL && job_entries(&entries, job, "J-CASE");
    if (good) {
        mf_buf_printf(&asked, "%s\n%s\n", load,
                      mf_field_ask(page, load, mf_buf_str(&entries), entries.len));
        ask_day(page, job, "2026-09-14", &asked);
        ask_day(page, job, "2026-10-01", &asked);
    }
    good = good && field_asked_write(folder, name, &entries, &asked);
    mf_field_free(page);
    mf_buf_free(&entries);
    mf_buf_free(&asked);
    return good;
}
