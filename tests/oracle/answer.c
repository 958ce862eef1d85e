/* What the program answers of many jobs written as text: read from standard input
 * (facts.py says how), one line a job.
 *   7 rule=yes demo=no signs=no handover=not-yet inspection=no demo@A1=no signs@A1=no ...
 * demo and signs also of each work area where there are several.
 * -v adds the findings behind each no, -w the warnings too, -a all findings as they stand, -n
 * a number of what -a says, which is another one when that is; -e FOLDER writes instead what the
 * door of the field page is asked of each job and answers. For the comparison with a second,
 * independent reading of the rule: compare.py. */
#include "support/case_job.h"
#include "support/field_asked.h"

#include <inttypes.h>
#include <mistfold/audit.h>
#include <mistfold/house.h>
#include <mistfold/place.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { LINE = 4000, FINDINGS = 4000, DEVICE = 40 };

static case_job made;
static mf_finding found[FINDINGS];
static const char *folder; /* of -e; NULL = it was not given */

typedef struct reader {
    bool open; /* a job has begun */
    long number;
    mf_day today;
    char device[DEVICE]; /* whose word the next line is; "" = everybody's */
    char logged[DEVICE]; /* when the next line was, UTC; "" = nobody says */
    char entry[DEVICE + 2];
} reader;

typedef void (*telling)(const char *question, size_t n); /* of found */

/* ---- the job as the book has it on the day asked ---------------------------------- */

/* What befell a thing later is not said of it. */
static void unsay_later(const mf_kind *kind, unsigned char *item, mf_day today)
{
    const mf_day none = MF_DAY_NONE;
    for (size_t i = 0; i < kind->n_fields; i++) {
        mf_day day = MF_DAY_NONE;
        if ((kind->fields[i].flags & MF_F_LATER) != 0)
            memcpy(&day, item + kind->fields[i].offset, sizeof day);
        if (day > today)
            memcpy(item + kind->fields[i].offset, &none, sizeof none);
    }
}

static void as_of(mf_day today)
{
    size_t n_kinds;
    const mf_kind *kinds = mf_kinds(&n_kinds);
    for (size_t k = 0; k < n_kinds; k++) {
        for (size_t i = case_count(&made, &kinds[k]); i > 0; i--) {
            unsigned char *item = (unsigned char *)case_item(&made, &kinds[k], i - 1);
            mf_day day = mf_item_day(&kinds[k], item);
            if (day != MF_DAY_NONE && day > today)
                case_take_away(&made, &kinds[k], i - 1);
            else
                unsay_later(&kinds[k], item, today);
        }
    }
}

/* ---- answers -------------------------------------------------------------------------- */

/* yes, no, or not yet: nothing is lacking, and something is owed later. */
static const char *answer(mf_gate gate, size_t n)
{
    return mf_answer_name(mf_audit_answer(found, n, 1u << gate));
}

/* With its numbers, days and evidence: what may change while the answer stays. */
static void put_all(const char *question, const mf_finding *it, char *line, size_t size)
{
    char also[LINE] = "";
    for (size_t k = 0, used = 0; k < it->n_also && used < sizeof also; k++)
        used += (size_t)snprintf(also + used, sizeof also - used, " %s", it->also[k]);
    snprintf(line, size, "   %s %d: %s %s %s %s %s%s %ld %ld %lld %lld %s %s", question,
             (int)it->verdict, it->requirement->id, it->subject, it->why, it->evidence, it->told,
             also, (long)it->d1, (long)it->d2, (long long)it->n1, (long long)it->n2,
             it->limit == NULL ? "" : it->limit->citation,
             it->beside == NULL ? "" : it->beside->citation);
}

static void all(const char *question, size_t n)
{
    char line[2 * LINE];
    for (size_t i = 0; i < n; i++) {
        put_all(question, &found[i], line, sizeof line);
        puts(line);
    }
}

/* FNV-1a. */
static uint64_t hashed(uint64_t hash, const char *text)
{
    for (; *text != '\0'; text++)
        hash = (hash ^ (unsigned char)*text) * UINT64_C(1099511628211);
    return hash;
}

static void number(const char *question, size_t n)
{
    char line[2 * LINE];
    uint64_t hash = UINT64_C(14695981039346656037);
    for (size_t i = 0; i < n; i++) {
        put_all(question, &found[i], line, sizeof line);
        hash = hashed(hash, line);
    }
    printf("   %016" PRIx64 "\n", hash);
}

static void put_reasons(const char *question, size_t n, bool warnings)
{
    for (size_t i = 0; i < n; i++) {
        bool no = found[i].verdict == MF_LACKING || found[i].verdict == MF_NOT_NOW;
        if (no || (warnings && found[i].verdict == MF_WARNING))
            printf("   %s %s: %s %s %s (%s)\n", question, no ? "no" : "warns",
                   found[i].requirement->id, found[i].subject, found[i].why,
                   found[i].requirement->citation);
    }
}

static void reasons(const char *question, size_t n)
{
    put_reasons(question, n, false);
}

static void warnings_too(const char *question, size_t n)
{
    put_reasons(question, n, true);
}

static bool covered(void)
{
    mf_cover_answer cover;
    mf_cover_judge(&made.job, &cover);
    return cover.cover == MF_COVER_YES;
}

static size_t ask(const reader *in, mf_gate gate, const char *area)
{
    const mf_audit_ask asked = {&made.job, in->today, 1u << gate, area};
    size_t n = mf_audit(&asked, found, FINDINGS);
    if (n > FINDINGS) {
        fprintf(stderr, "job %ld: too many findings\n", in->number);
        exit(4);
    }
    return n;
}

/* What a row of a place says of its limit, as it is worked out when a book is read. */
static void fill_limits(void)
{
    const mf_kind *kind = mf_kind_named("local_limit");
    for (size_t i = 0; i < case_count(&made, kind); i++)
        mf_local_limit_fill((mf_local_limit *)(void *)case_item(&made, kind, i));
}

/* The answer of one question, of one work area or (NULL) of all; with how what is found for it. */
static void tell_one(const reader *in, mf_gate gate, const char *area, telling how)
{
    char question[DEVICE];
    size_t n = ask(in, gate, area == NULL ? "" : area);
    snprintf(question, sizeof question, "%s%s%s", mf_gate_name(gate), area == NULL ? "" : "@",
             area == NULL ? "" : area);
    if (how != NULL)
        how(question, n);
    else if (gate != MF_GATE_RULE)
        printf(" %s=%s", question, answer(gate, n));
}

/* Demo and signs also of each work area, as somebody asks in it, where there are several. */
static void tell_all(const reader *in, telling how)
{
    bool rule = how == all || how == number;
    for (int gate = rule ? MF_GATE_RULE : MF_GATE_DEMO; gate < MF_GATE_COUNT; gate++)
        tell_one(in, (mf_gate)gate, NULL, how);
    for (size_t i = 0; made.job.n_area > 1 && i < made.job.n_area; i++) {
        tell_one(in, MF_GATE_DEMO, made.job.area[i].id, how);
        tell_one(in, MF_GATE_SIGNS, made.job.area[i].id, how);
    }
}

static void tell(const reader *in, telling how)
{
    as_of(in->today);
    fill_limits();
    printf("%ld rule=%s", in->number, covered() ? "yes" : "no");
    tell_all(in, NULL);
    putchar('\n');
    if (how != NULL)
        tell_all(in, how);
}

/* ---- lines ------------------------------------------------------------------------------ */

static void begin(reader *in, const case_line *line)
{
    memset(in, 0, sizeof *in);
    in->open = true;
    in->number = line->n > 1 ? strtol(line->word[1], NULL, 10) : 0;
    case_base(&made, "empty");
}

/* Into a file each. */
static void write_asked(const reader *in)
{
    char name[40];
    snprintf(name, sizeof name, "oracle-%ld", in->number);
    if (!field_asked_all(folder, name, &made.job))
        exit(4);
}

static void finish(reader *in, telling how)
{
    if (in->open) {
        if (folder != NULL)
            write_asked(in);
        else
            tell(in, how);
        case_free(&made);
    }
    in->open = false;
}

static void fail(const reader *in)
{
    fprintf(stderr, "job %ld: %s\n", in->number, made.problem);
    exit(3);
}

/* The last house is what another device says. */
static void of_device(reader *in)
{
    const mf_kind *house = mf_kind_named("house");
    size_t n = case_count(&made, house);
    mf_src src;
    if (in->device[0] == '\0' || n == 0)
        return;
    snprintf(in->entry, sizeof in->entry, "%s/1", in->device);
    memcpy(&src, case_item(&made, house, n - 1), sizeof src);
    src.entry = in->entry;
    memcpy(case_item(&made, house, n - 1), &src, sizeof src);
}

/* The last of its kind was logged then. */
static void at_its_time(reader *in, const mf_kind *kind)
{
    size_t n = kind == NULL || in->logged[0] == '\0' ? 0 : case_count(&made, kind);
    mf_src src;
    if (n == 0)
        return;
    memcpy(&src, case_item(&made, kind, n - 1), sizeof src);
    src.at = case_keep(&made, in->logged);
    memcpy(case_item(&made, kind, n - 1), &src, sizeof src);
    in->logged[0] = '\0';
}

static void take(reader *in, case_line *line, telling how)
{
    bool well_formed;
    if (strcmp(line->word[0], "job") == 0) {
        finish(in, how);
        begin(in, line);
    } else if (strcmp(line->word[0], "today") == 0 && line->n == 2) {
        in->today = mf_day_parse(line->word[1], &well_formed);
    } else if (strcmp(line->word[0], "device") == 0 && line->n == 2) {
        snprintf(in->device, sizeof in->device, "%s", line->word[1]);
    } else if (strcmp(line->word[0], "logged") == 0 && line->n == 2) {
        snprintf(in->logged, sizeof in->logged, "%s", line->word[1]);
    } else {
        if (!in->open || !case_apply(&made, line))
            fail(in);
        of_device(in);
        at_its_time(in, line->n > 1 ? mf_kind_named(line->word[1]) : NULL);
        in->device[0] = '\0';
    }
}

int main(int argc, char **argv)
{
    static char text[LINE];
    static case_line line;
    reader in = {0};
    const char *option = argc > 1 ? argv[1] : "";
    telling how = strcmp(option, "-v") == 0   ? reasons
                  : strcmp(option, "-w") == 0 ? warnings_too
                  : strcmp(option, "-a") == 0 ? all
                  : strcmp(option, "-n") == 0 ? number
                                              : NULL;
    folder = argc > 2 && strcmp(option, "-e") == 0 ? argv[2] : NULL;
    while (fgets(text, sizeof text, stdin) != NULL) {
        case_split(&line, text);
        if (line.n > 0)
            take(&in, &line, how);
    }
    finish(&in, how);
    return 0;
}
