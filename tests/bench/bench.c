/* bench: what a book of N jobs costs against one of 10. Makes both books (invented
 * jobs), then times what people do; prints milliseconds, best of several runs.
 *
 *   bench FOLDER JOBS        exit 1 when a question costs more than 1.3 times as
 *                            much in the large book, or the due list 50 ms
 *   bench FOLDER JOBS check  also times the whole check against hashing the file
 *   bench BOOK JOBS add N    adds so many jobs to a book that is there, from number N on */
#include <mistfold.h>

#include <fcntl.h>
#include <openssl/evp.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

enum { SMALL = 10, ROUNDS = 15, GROUP = 500 };
static const double ratio_limit = 1.3, due_limit_ms = 50;

static double now_ms(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec * 1000 + (double)t.tv_nsec / 1e6;
}

static void need(mf_status status, const mf_err *err)
{
    if (status == MF_OK || status == MF_NO)
        return;
    fprintf(stderr, "bench: %s: %s\n", err->where, err->what);
    exit(2);
}

/* ---- making a book -------------------------------------------------------------------------- */

typedef struct maker {
    mf_book *book;
    mf_now now;
    mf_err err;
} maker;

/* "field=text;field=text" */
static void put(maker *m, const char *kind, const char *job, const char *fields)
{
    mf_draft *draft = NULL;
    char text[400];
    snprintf(text, sizeof text, "%s", fields);
    need(mf_draft_new(&draft, mf_kind_named(kind), &m->err), &m->err);
    for (char *at = text; *at != '\0';) {
        size_t len = strcspn(at, ";");
        char *next = at + len + (at[len] == ';');
        at[len] = '\0';
        char *value = strchr(at, '=');
        *value++ = '\0';
        need(mf_draft_set(draft, at, value, "", "", m->now.today, &m->err), &m->err);
        at = next;
    }
    need(mf_book_write(m->book, draft, job, &m->now, "", NULL, &m->err), &m->err);
    mf_draft_free(draft);
}

static void put_firm(maker *m)
{
    put(m, "firm", "", "name=Muster (invented);address=1 Sample Street");
    put(m, "person", "", "id=rosa;name=Rosa Muestra");
    put(m, "person", "", "id=teo;name=Teo Modelo");
    put(m, "instrument", "", "serial=X-1;film=1.02;cal-low=0.8;cal-high=1.2");
    put(m, "certificate", "",
        "holder=rosa;discipline=renovator;number=R-1;issuer=Provider;issued=2024-03-06;"
        "expires=2029-03-06");
}

/* Ten entries; all but every thousandth job are over and handed over. */
static void put_job(maker *m, long number, int year)
{
    char id[24], fields[300];
    snprintf(id, sizeof id, "J-%06ld", number);
    snprintf(fields, sizeof fields,
             "id=%s;address=%ld Sample Lane;year-built=%d;building=dwelling;owner-occupied=no;"
             "work=window-replacement;description=one window;start=2026-0%ld-1%ld",
             id, number, year, 1 + number % 8, number % 9);
    put(m, "house", id, fields);
    put(m, "party", id, "id=owner;role=owner;name=Ida Sample");
    put(m, "opening", id, "id=W1;kind=window;room=kitchen;elevation=north");
    put(m, "component", id, "id=W1.sash;opening=W1;type=sash;side=interior;substrate=wood");
    for (int i = 1; i <= 3; i++) {
        snprintf(fields, sizeof fields,
                 "number=%d;instrument=X-1;operator=rosa;purpose=paint;component=W1.sash;"
                 "substrate=wood;result=1.%d;on=2026-01-05;time=09:3%d",
                 i, i, i);
        put(m, "reading", id, fields);
    }
    put(m, "area", id, "id=A1;side=interior;place=kitchen;openings=W1;length=14;width=12");
    if (number % 1000 == 3)
        return;
    put(m, "completion", id, "on=2026-09-01");
    put(m, "handover", id, "party=owner;what=record;how=by hand;on=2026-09-10");
}

static void put_jobs(maker *m, long first, long jobs, int year)
{
    need(mf_book_begin(m->book, &m->err), &m->err);
    if (first == 0)
        put_firm(m);
    for (long i = 0; i < jobs; i++) {
        put_job(m, first + i, year);
        if (i % GROUP != GROUP - 1)
            continue;
        need(mf_book_commit(m->book, &m->err), &m->err);
        need(mf_book_begin(m->book, &m->err), &m->err);
    }
    need(mf_book_commit(m->book, &m->err), &m->err);
    mf_book_close(m->book);
}

static maker maker_at(void)
{
    return (maker){.now = {mf_day_from(2026, 9, 15), "2026-09-15T14:00:00Z", "rosa", NULL}};
}

static void make(const char *path, long jobs)
{
    maker m = maker_at();
    double from = now_ms();
    if (access(path, F_OK) == 0)
        return; /* of an earlier run */
    need(mf_book_new(&m.book, path, "office", &m.err), &m.err);
    put_jobs(&m, 0, jobs, 1926);
    printf("made %s: %ld jobs in %.0f s\n", path, jobs, (now_ms() - from) / 1000);
}

static int add_to(const char *path, long first, long jobs)
{
    maker m = maker_at();
    need(mf_book_open(&m.book, path, &m.err), &m.err);
    put_jobs(&m, first, jobs, 1990); /* nothing is due of them */
    return 0;
}

/* ---- what is timed ------------------------------------------------------------------------------
 */

typedef void action(mf_book *book);

static const char job_id[] = "J-000003";

static mf_job *load(mf_book *book)
{
    mf_err err = {0};
    mf_job *job = NULL;
    need(mf_book_job(book, job_id, &job, &err), &err);
    return job;
}

static void load_job(mf_book *book)
{
    mf_book_job_free(load(book));
}

static void ask(mf_book *book, unsigned gates)
{
    mf_job *job = load(book);
    mf_finding found[600];
    mf_audit_ask question = {job, mf_day_from(2026, 9, 15), gates, ""};
    mf_audit(&question, found, 600);
    mf_book_job_free(job);
}

static void ask_gate(mf_book *book)
{
    ask(book, 1U << MF_GATE_DEMO);
}

static void check_job(mf_book *book)
{
    mf_err err = {0};
    mf_book_report report;
    need(mf_book_check_job(book, job_id, &report, &err), &err);
    if (report.faults > 0)
        exit(2);
}

static void ask_audit(mf_book *book)
{
    check_job(book);
    ask(book, 0);
}

static bool count_due(const mf_due_item *item, void *data)
{
    (void)item;
    ++*(long *)data;
    return true;
}

static void list_due(mf_book *book)
{
    long n = 0;
    mf_err err = {0};
    need(mf_book_due(book, NULL, mf_day_from(2026, 12, 31), count_due, &n, &err), &err);
}

static void head(mf_book *book)
{
    char hash[MF_HASH_HEX];
    need(mf_book_head(book, hash, NULL), NULL);
}

/* Best of several, with the book opened anew each time when asked to. */
static double best(const char *path, action *act, bool reopen)
{
    double least = 1e9;
    mf_err err = {0};
    mf_book *book = NULL;
    for (int i = 0; i < ROUNDS; i++) {
        double from = now_ms();
        if (book == NULL)
            need(mf_book_open(&book, path, &err), &err);
        if (!reopen)
            from = now_ms();
        if (act != NULL)
            act(book);
        double took = now_ms() - from;
        least = took < least ? took : least;
        if (reopen) {
            mf_book_close(book);
            book = NULL;
        }
    }
    mf_book_close(book);
    return least;
}

typedef struct timed {
    const char *name;
    action *act;
    bool reopen;
    double limit_ms; /* of the large book alone; 0 = the ratio counts */
} timed;

static const timed all[] = {
    {"open the book", NULL, true, 0},
    {"open it and load a job", load_job, true, 0},
    {"open it and ask a gate", ask_gate, true, 0},
    {"open it, check and audit a job", ask_audit, true, 0},
    {"load a job", load_job, false, 0},
    {"check a job", check_job, false, 0},
    {"head", head, false, 0},
    {"due list (open jobs: 1 in 1000)", list_due, false, 50},
};

static bool compare(const char *small, const char *large)
{
    bool good = true;
    printf("%-34s %10s %10s %7s\n", "", "small, ms", "large, ms", "ratio");
    for (size_t i = 0; i < sizeof all / sizeof all[0]; i++) {
        double a = best(small, all[i].act, all[i].reopen);
        double b = best(large, all[i].act, all[i].reopen);
        bool fine = all[i].limit_ms > 0 ? b <= due_limit_ms : b <= a * ratio_limit;
        printf("%-34s %10.3f %10.3f %7.2f%s\n", all[i].name, a, b, b / a, fine ? "" : "  TOO SLOW");
        good = good && fine;
    }
    return good;
}

/* ---- the whole check
 * ------------------------------------------------------------------------------ */

static double hash_file(const char *path)
{
    static unsigned char chunk[1 << 16];
    unsigned char digest[EVP_MAX_MD_SIZE];
    double from = now_ms();
    size_t n;
    FILE *file = fopen(path, "rb");
    EVP_MD_CTX *context = EVP_MD_CTX_new();
    if (file == NULL || context == NULL)
        exit(2);
    EVP_DigestInit_ex(context, EVP_sha256(), NULL);
    while ((n = fread(chunk, 1, sizeof chunk, file)) > 0)
        EVP_DigestUpdate(context, chunk, n);
    EVP_DigestFinal_ex(context, digest, NULL);
    EVP_MD_CTX_free(context);
    fclose(file);
    return now_ms() - from;
}

/* What a person would run to hash the file. */
static double hash_by_program(const char *path)
{
    int status = -1;
    double from = now_ms();
    fflush(stdout);
    pid_t child = fork();
    if (child == 0) {
        int null = open("/dev/null", O_WRONLY | O_CLOEXEC);
        if (null >= 0 && dup2(null, STDOUT_FILENO) >= 0)
            execlp("sha256sum", "sha256sum", path, (char *)NULL);
        _exit(127);
    }
    if (child < 0 || waitpid(child, &status, 0) != child || status != 0)
        exit(2);
    return now_ms() - from;
}

static double processor_ms(void)
{
    struct rusage used;
    getrusage(RUSAGE_SELF, &used);
    return (double)(used.ru_utime.tv_sec + used.ru_stime.tv_sec) * 1000 +
           (double)(used.ru_utime.tv_usec + used.ru_stime.tv_usec) / 1e3;
}

static void check_whole(const char *path)
{
    mf_err err = {0};
    mf_book *book = NULL;
    mf_book_report report;
    hash_file(path); /* into the cache of the system */
    double hashing = hash_file(path), program = hash_by_program(path);
    need(mf_book_open(&book, path, &err), &err);
    double from = now_ms(), used = processor_ms();
    need(mf_book_check(book, &report, &err), &err);
    double took = now_ms() - from;
    used = processor_ms() - used;
    mf_book_close(book);
    printf("check of %lld entries: %.1f s; hashing the file: %.1f s; %.1f times (goal: 4; "
           "docs/book.md says where the time goes)\n",
           (long long)report.entries, took / 1000, hashing / 1000, took / hashing);
    printf(
        "check of the same: %.1f s; sha256sum(1): %.1f s; %.1f times; %.1f s of processor time\n",
        took / 1000, program / 1000, took / program, used / 1000);
}

int main(int argc, char **argv)
{
    char small[400], large[400];
    if (argc < 3) {
        fputs("bench FOLDER JOBS [check]\nbench BOOK JOBS add N\n", stderr);
        return 2;
    }
    if (argc > 4)
        return add_to(argv[1], strtol(argv[4], NULL, 10), strtol(argv[2], NULL, 10));
    snprintf(small, sizeof small, "%s/small.book", argv[1]);
    snprintf(large, sizeof large, "%s/large-%s.book", argv[1], argv[2]);
    make(small, SMALL);
    make(large, strtol(argv[2], NULL, 10));
    bool good = compare(small, large);
    if (argc > 3)
        check_whole(large);
    return good ? 0 : 1;
}
