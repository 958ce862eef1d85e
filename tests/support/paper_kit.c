#include "support/paper_kit.h"

#include "support/run.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static void stop(const char *what, const char *detail)
{
    fprintf(stderr, "%s: %s\n", what, detail);
    abort();
}

mf_paper_ask paper_ask(const mf_job *job)
{
    static const mf_paper_signer signer = {
        "Rosa Peña Ñíguez", "certified renovator", "INV-R-1007",
        "00112233445566778899aabbccddeeff00112233445566778899aabbccddeeff", "2026-09-30 16:20 UTC"};
    mf_paper_ask ask = {0};
    ask.job = job;
    ask.today = mf_day_parse("2026-09-30", NULL);
    ask.lang = MF_LANG_EN;
    ask.head = "0123456789abcdef0123456789abcdef0123456789abcdef0123456789abcdef";
    ask.printed_at = "2026-09-30 16:20 UTC";
    ask.signer = &signer;
    return ask;
}

static FILE *open_in(const char *folder, const char *name, const char *mode)
{
    char path[512];
    snprintf(path, sizeof path, "%s/%s", folder, name);
    FILE *file = fopen(path, mode);
    if (file == NULL)
        stop("cannot open", path);
    return file;
}

void paper_write(const char *folder, const char *name, const mf_bytes *bytes)
{
    FILE *file = open_in(folder, name, "wb");
    if (fwrite(bytes->data, 1, bytes->len, file) != bytes->len || fclose(file) != 0)
        stop("cannot write", name);
}

void paper_record_to(const char *folder, const char *name, const mf_paper_ask *ask)
{
    mf_bytes out = {NULL, 0};
    mf_err err = {0};
    if (mf_paper_record(&out, NULL, ask, &err) != MF_OK)
        stop(err.where, err.what);
    paper_write(folder, name, &out);
    mf_bytes_free(&out);
}

char *paper_slurp(const char *folder, const char *name)
{
    FILE *file = open_in(folder, name, "rb");
    size_t len = 0;
    size_t cap = 1 << 16;
    char *text = malloc(cap);
    while (text != NULL) {
        len += fread(text + len, 1, cap - len - 1, file);
        if (len + 1 < cap)
            break;
        cap *= 2;
        char *more = realloc(text, cap);
        if (more == NULL)
            free(text);
        text = more;
    }
    fclose(file);
    if (text == NULL)
        stop("out of memory", name);
    text[len] = '\0';
    return text;
}

const char *paper_shell(const char *folder, const char *command)
{
    static run_result result; /* large; one at a time */
    run_shell(&result, folder, command);
    if (result.status != 0)
        stop(command, result.err);
    return result.out;
}

/* A PGM's head as poppler writes it: three lines, "P5", width and height, 255. */
void paper_picture_of(paper_picture *out, const char *folder, const char *pdf, int page, int dpi)
{
    char command[256];
    snprintf(command, sizeof command, "pdftoppm -gray -singlefile -r %d -f %d -l %d %s picture",
             dpi, page, page, pdf);
    paper_shell(folder, command);
    FILE *file = open_in(folder, "picture.pgm", "rb");
    char head[32];
    char *rest = head;
    if (fgets(head, sizeof head, file) == NULL || strcmp(head, "P5\n") != 0 ||
        fgets(head, sizeof head, file) == NULL)
        stop("no PGM", pdf);
    out->w = (int)strtol(head, &rest, 10);
    out->h = (int)strtol(rest, &rest, 10);
    if (fgets(head, sizeof head, file) == NULL || strcmp(head, "255\n") != 0)
        stop("no PGM of 255 greys", pdf);
    size_t size = (size_t)out->w * (size_t)out->h;
    out->at = malloc(size);
    if (out->at == NULL || fread(out->at, 1, size, file) != size)
        stop("short PGM", pdf);
    fclose(file);
}

void paper_picture_free(paper_picture *picture)
{
    free(picture->at);
    *picture = (paper_picture){0};
}

paper_box paper_ink(const paper_picture *picture)
{
    int left = picture->w;
    int right = -1;
    int top = picture->h;
    int bottom = -1;
    for (int y = 0; y < picture->h; y++)
        for (int x = 0; x < picture->w; x++) {
            if (picture->at[y * picture->w + x] >= 128)
                continue;
            left = x < left ? x : left;
            right = x > right ? x : right;
            top = y < top ? y : top;
            bottom = y;
        }
    return right < 0 ? (paper_box){0} : (paper_box){left, top, right - left + 1, bottom - top + 1};
}

int paper_world_small(void **state)
{
    static paper_world w;
    run_folder(w.folder);
    paper_job_small(&w.made);
    *state = &w;
    return 0;
}

int paper_world_records(void **state)
{
    paper_world_small(state);
    const paper_world *w = *state;
    mf_paper_ask ask = paper_ask(&w->made.job);
    paper_record_to(w->folder, "record.pdf", &ask);
    ask.lang = MF_LANG_ES;
    paper_record_to(w->folder, "registro.pdf", &ask);
    return 0;
}

int paper_world_end(void **state)
{
    paper_world *w = *state;
    paper_job_free(&w->made);
    run_remove(w->folder);
    return 0;
}
