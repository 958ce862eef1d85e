/* How fast papers are drawn: pages a second of the big job's record, of the same
 * words by bare libharu, and how much memory many papers take.
 *   paper_speed record N      writes record.pdf, prints the seconds for N and how
 *                             many of them went into judging, which is not drawing
 *   paper_speed bare FILE N   seconds for N papers of the words in FILE
 *   paper_speed many N        N records one after another, peak memory in KiB at
 *                             a tenth and at the end */
#include "support/paper_kit.h"

#include <hpdf.h>
#include <mistfold.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <time.h>

typedef struct bench_word {
    int page;
    float x, y, size;
    char *text;
} bench_word;

static double now(void)
{
    struct timespec at;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &at);
    return (double)at.tv_sec + (double)at.tv_nsec / 1e9;
}

static size_t draw(const mf_job *job, const char *path)
{
    mf_bytes out = {0};
    mf_err err = {0};
    mf_paper_ask ask = paper_ask(job);
    if (mf_paper_record(&out, NULL, &ask, &err) != MF_OK) {
        fprintf(stderr, "%s: %s\n", err.where, err.what);
        exit(1);
    }
    FILE *file = path == NULL ? NULL : fopen(path, "wb");
    if (file != NULL) {
        fwrite(out.data, 1, out.len, file);
        fclose(file);
    }
    size_t len = out.len;
    mf_bytes_free(&out);
    return len;
}

/* What a record asks of core: the audit, the paint of each component, and for each
 * reading whether it lies between good checks. */
static double judging(const mf_job *job, int times)
{
    static mf_finding findings[8192];
    mf_paint_finding paint;
    size_t sum = 0;
    double begin = now();
    for (int i = 0; i < times; i++) {
        const mf_audit_ask ask = {.job = job, .today = mf_day_from(2026, 9, 30), .area = ""};
        sum += mf_audit(&ask, NULL, 0) + mf_audit(&ask, findings, 8192);
        for (size_t k = 0; k < job->n_component; k++)
            mf_paint_judge(job, &job->component[k], &paint);
        for (size_t k = 0; k < job->n_reading; k++)
            sum += mf_reading_enclosed(job, &job->reading[k]);
    }
    return sum == 0 ? 0 : now() - begin;
}

/* With its readings in order, as the book hands a job out; to be freed after it. */
static void *big_job(paper_job *made)
{
    paper_job_big(made);
    void *room = malloc(mf_readings_room(&made->job));
    if (room == NULL)
        exit(1);
    mf_readings_order(&made->job, room);
    return room;
}

static int record(int times)
{
    paper_job made;
    void *room = big_job(&made);
    draw(&made.job, "record.pdf");
    double begin = now();
    for (int i = 0; i < times; i++)
        draw(&made.job, NULL);
    double all = now() - begin;
    printf("%.4f %.4f\n", all, judging(&made.job, times));
    paper_job_free(&made);
    free(room);
    return 0;
}

static size_t read_words(bench_word **out, const char *path)
{
    char line[8192];
    size_t n = 0, cap = 0;
    FILE *file = fopen(path, "r");
    while (file != NULL && fgets(line, sizeof line, file) != NULL) {
        if (n == cap) {
            cap = cap == 0 ? 4096 : cap * 2;
            *out = realloc(*out, cap * sizeof **out);
        }
        bench_word *word = &(*out)[n++];
        char *at = line;
        word->page = (int)strtol(at, &at, 10);
        word->x = strtof(at, &at);
        word->y = strtof(at, &at);
        word->size = strtof(at, &at);
        at[strcspn(at, "\n")] = '\0';
        word->text = strdup(at + 1);
    }
    if (file != NULL)
        fclose(file);
    return n;
}

static void bare_once(const bench_word *words, size_t n)
{
    HPDF_Doc doc = HPDF_New(NULL, NULL);
    HPDF_SetCompressionMode(doc, HPDF_COMP_ALL);
    HPDF_UseUTFEncodings(doc);
    /* The three faces of a record; which word has which is not in the list. */
    static const char *const faces[] = {"Sans-Regular", "Sans-Bold", "Mono-Regular"};
    HPDF_Font fonts[3];
    for (int i = 0; i < 3; i++) {
        char path[128];
        snprintf(path, sizeof path, "/usr/share/fonts/truetype/liberation/Liberation%s.ttf",
                 faces[i]);
        fonts[i] = HPDF_GetFont(doc, HPDF_LoadTTFontFromFile(doc, path, HPDF_TRUE), "UTF-8");
    }
    HPDF_Page page = NULL;
    int number = 0;
    for (size_t i = 0; i < n; i++) {
        if (words[i].page != number) {
            page = HPDF_AddPage(doc);
            number = words[i].page;
        }
        HPDF_Page_BeginText(page);
        HPDF_Page_SetFontAndSize(page, fonts[i % 5 == 0 ? 1 : i % 400 == 1 ? 2 : 0], words[i].size);
        HPDF_Page_TextOut(page, words[i].x, words[i].y, words[i].text);
        HPDF_Page_EndText(page);
    }
    HPDF_SaveToStream(doc);
    HPDF_Free(doc);
}

static int bare(const char *path, int times)
{
    bench_word *words = NULL;
    size_t n = read_words(&words, path);
    double begin = now();
    for (int i = 0; i < times; i++)
        bare_once(words, n);
    printf("%.4f\n", now() - begin);
    for (size_t i = 0; i < n; i++)
        free(words[i].text);
    free(words);
    return n == 0;
}

static long peak(void)
{
    struct rusage use;
    getrusage(RUSAGE_SELF, &use);
    return use.ru_maxrss;
}

static int many(int times)
{
    paper_job made;
    long early = 0;
    paper_job_small(&made);
    for (int i = 0; i < times; i++) {
        draw(&made.job, NULL);
        if (i == times / 10)
            early = peak();
    }
    printf("%ld %ld\n", early, peak());
    paper_job_free(&made);
    return 0;
}

int main(int argc, char **argv)
{
    if (argc == 3 && strcmp(argv[1], "record") == 0)
        return record((int)strtol(argv[2], NULL, 10));
    if (argc == 4 && strcmp(argv[1], "bare") == 0)
        return bare(argv[2], (int)strtol(argv[3], NULL, 10));
    if (argc == 3 && strcmp(argv[1], "many") == 0)
        return many((int)strtol(argv[2], NULL, 10));
    return 2;
}
