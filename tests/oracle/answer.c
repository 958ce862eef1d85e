/* What the program answers of many jobs written as text: read from standard input
 * (facts.py says how), one line a job.
 *   7 rule=yes demo=no signs=no handover=not-yet inspection=no
 * -v adds the findings behind each no, -w the warnings too; -e FOLDER writes instead what the door of the field page is
 * asked of each job and answers. For the comparison with a second, independent
 * reading of the rule: compare.py. */
#include "support/case_job.h"
#include "support/field_asked.h"

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

typedef struct shown {
    bool verbose, warnings; /* -v, -w */
} shown;

typedef struct reader {
    bool open; /* a job has begun */
    long number;
    mf_day today;
    char device[DEVICE]; /* whose word the next line is; "" = everybody's */
    char entry[DEVICE + 2];
} reader;

/* ---- the job as the book has it on the day asked ---------------------------------- */

static void as_of(mf_day today)
{
    size_t n_kinds;
    const mf_kind *kinds = mf_kinds(&n_kinds);
    for (size_t k = 0; k < n_kinds; k++) {
        for (size_t i = case_count(&made, &kinds[k]); i > 0; i--) {
            mf_day day = mf_item_day(&kinds[k], case_item(&made, &kinds[k], i - 1));
            if (day != MF_DAY_NONE && day > today)
                case_take_away(&made, &kinds[k], i - 1);
        }
    }
}

/* ---- answers -------------------------------------------------------------------------- */

/* yes, no, or not yet: nothing is lacking, and something is owed later. */
static const char *answer(mf_gate gate, size_t n)
{
    return mf_answer_name(mf_audit_answer(found, n, 1u << gate));
}

static void reasons(mf_gate gate, size_t n, bool warnings)
{
    for (size_t i = 0; i < n; i++) {
        bool no = found[i].verdict == MF_LACKING || found[i].verdict == MF_NOT_NOW;
        if (no || (warnings && found[i].verdict == MF_WARNING))
            printf("   %s %s: %s %s %s (%s)\n", mf_gate_name(gate), no ? "no" : "warns",
                   found[i].requirement->id, found[i].subject, found[i].why,
                   found[i].requirement->citation);
    }
}

static bool covered(void)
{
    mf_cover_answer cover;
    mf_cover_judge(&made.job, &cover);
    return cover.cover == MF_COVER_YES;
}

static size_t ask(const reader *in, mf_gate gate)
{
    const mf_audit_ask asked = {&made.job, in->today, 1u << gate, ""};
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

static void tell(const reader *in, const shown *how)
{
    as_of(in->today);
    fill_limits();
    printf("%ld rule=%s", in->number, covered() ? "yes" : "no");
    for (int gate = MF_GATE_DEMO; gate < MF_GATE_COUNT; gate++) {
        size_t n = ask(in, (mf_gate)gate);
        printf(" %s=%s", mf_gate_name((mf_gate)gate), answer((mf_gate)gate, n));
    }
    putchar('\n');
    for (int gate = MF_GATE_DEMO; how->verbose && gate < MF_GATE_COUNT; gate++)
        reasons((mf_gate)gate, ask(in, (mf_gate)gate), how->warnings);
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

static void finish(reader *in, const shown *how)
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

static void take(reader *in, case_line *line, const shown *how)
{
    bool well_formed;
    if (strcmp(line->word[0], "job") == 0) {
        finish(in, how);
        begin(in, line);
    } else if (strcmp(line->word[0], "today") == 0 && line->n == 2) {
        in->today = mf_day_parse(line->word[1], &well_formed);
    } else if (strcmp(line->word[0], "device") == 0 && line->n == 2) {
        snprintf(in->device, sizeof in->device, "%s", line->word[1]);
    } else {
        if (!in->open || !case_apply(&made, line))
            fail(in);
        of_device(in);
        in->device[0] = '\0';
    }
}

int main(int argc, char **argv)
{
    static char text[LINE];
    static case_line line;
    reader in = {0};
    shown how = {argc > 1 && (strcmp(argv[1], "-v") == 0 || strcmp(argv[1], "-w") == 0),
               argc > 1 && strcmp(argv[1], "-w") == 0};
    folder = argc > 2 && strcmp(argv[1], "-e") == 0 ? argv[2] : NULL;
    while (fgets(text, sizeof text, stdin) != NULL) {
        case_split(&line, text);
        if (line.n > 0)
            take(&in, &line, &how);
    }
    finish(&in, &how);
    return 0;
}
