#include "support/paper_job.h"

#include <mistfold/kind.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* A test that runs out of memory has nothing to say: stop. */
static void *must(void *memory)
{
    if (memory == NULL)
        abort();
    return memory;
}

void paper_job_start(paper_job *made, const char *id)
{
    memset(made, 0, sizeof *made);
    made->job.id = id;
    made->job.integrity = MF_INTEGRITY_GOOD;
}

const char *paper_job_text(paper_job *made, const char *format, ...)
{
    char line[1024];
    va_list args;
    va_start(args, format);
    vsnprintf(line, sizeof line, format, args);
    va_end(args);
    size_t len = strlen(line) + 1;
    made->texts = must(realloc(made->texts, (made->n_texts + 1) * sizeof *made->texts));
    made->texts[made->n_texts] = must(malloc(len));
    memcpy(made->texts[made->n_texts], line, len);
    return made->texts[made->n_texts++];
}

static void blank_field(const mf_field *field, unsigned char *at)
{
    static const char *const no_text = "";
    static const int64_t no_number = MF_NUM_NONE;
    static const mf_day no_day = MF_DAY_NONE;
    static const int32_t no_minute = MF_MINUTE_NONE;
    switch (field->type) {
    case MF_F_TEXT:
    case MF_F_ID:
    case MF_F_IDS:
        memcpy(at + field->offset, &no_text, sizeof no_text);
        break;
    case MF_F_DATE:
        memcpy(at + field->offset, &no_day, sizeof no_day);
        break;
    case MF_F_TIME:
        memcpy(at + field->offset, &no_minute, sizeof no_minute);
        break;
    case MF_F_INT:
    case MF_F_HUNDREDTHS:
    case MF_F_INCHES:
    case MF_F_LOADING:
    case MF_F_DUST:
    case MF_F_PPM:
        memcpy(at + field->offset, &no_number, sizeof no_number);
        break;
    case MF_F_CHOICE:
    case MF_F_YESNO:
        break; /* zero is the first choice, unknown */
    }
}

void *paper_job_add(paper_job *made, const char *kind_name)
{
    const mf_kind *kind = must((void *)(size_t)mf_kind_named(kind_name));
    unsigned char *base = (unsigned char *)&made->job;
    void *list;
    size_t count;
    memcpy(&list, base + kind->list_offset, sizeof list);
    memcpy(&count, base + kind->list_offset + sizeof list, sizeof count);
    list = must(realloc(list, (count + 1) * kind->size));
    unsigned char *at = (unsigned char *)list + count * kind->size;
    count++;
    memcpy(base + kind->list_offset, &list, sizeof list);
    memcpy(base + kind->list_offset + sizeof list, &count, sizeof count);
    memset(at, 0, kind->size);
    for (size_t i = 0; i < kind->n_fields; i++)
        blank_field(&kind->fields[i], at);
    const mf_src src = {paper_job_text(made, "tablet/%lld", (long long)++made->seq),
                        "2026-09-14T12:30:00Z", "rosa", ""};
    memcpy(at, &src, sizeof src); /* every kind begins with its source */
    return at;
}

void paper_job_free(paper_job *made)
{
    size_t n = 0;
    const mf_kind *kinds = mf_kinds(&n);
    unsigned char *base = (unsigned char *)&made->job;
    for (size_t i = 0; i < n; i++) {
        void *list;
        memcpy(&list, base + kinds[i].list_offset, sizeof list);
        free(list);
    }
    free((void *)(size_t)made->job.correction);
    for (size_t i = 0; i < made->n_texts; i++)
        free(made->texts[i]);
    free(made->texts);
    memset(made, 0, sizeof *made);
}
