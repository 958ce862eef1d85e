/* Limits of a place taken in from a file, and other jobs at the same address. Places,
 * codes and jobs are invented; the shipped files are read as they are. */
#include "book_kit.h"

#include <mistfold/house.h>
#include <mistfold/place.h>

#define HEAD "limit,value,comparison,from,until,place,built-before,citation,status,note\n"

static mf_status import(kit *k, const char *csv, bool dry_run)
{
    mf_import_report report;
    k->err = (mf_err){0};
    return mf_import_kind(k->book, "", mf_kind_named("local_limit"), "place.csv", csv, strlen(csv),
                          &k->now, dry_run, &report, &k->err);
}

static mf_job *job_of(kit *k, const char *id)
{
    mf_job *job = NULL;
    assert_int_equal(mf_book_job(k->book, id, &job, &k->err), MF_OK);
    return job;
}

/* ---- the file -------------------------------------------------------------------------- */

static void good_file(void **state)
{
    kit *k = *state;
    static const char csv[] = HEAD
        "minor-interior,1,below,,,Exampleton,,Invented Code 1,verified,\"less than 1, not 6\"\n"
        "retention-years,5,,2020-01-01,,Exampleton,,Invented Code 2,secondary,\n"
        "paint-weight,0.25%,,2021-12-01,2030-12-31,Exampleton-North,1960,Invented Code 3,memory,\n";
    int64_t before = kit_count(k);
    assert_int_equal(import(k, csv, true), MF_OK);
    assert_int_equal(kit_count(k), before);
    assert_int_equal(import(k, csv, false), MF_OK);
    assert_int_equal(kit_count(k), before + 3);
    mf_job *job = job_of(k, "J-1");
    assert_int_equal(job->n_local_limit, 3);
    const mf_local_limit *row = &job->local_limit[0];
    assert_int_equal(row->row.id, MF_LIMIT_MINOR_INTERIOR);
    assert_string_equal(row->row.name, "minor-interior");
    assert_int_equal(row->row.value, 100);
    assert_int_equal(row->row.cmp, MF_LT);
    assert_int_equal(row->row.unit, MF_UNIT_SQFT_100);
    assert_string_equal(row->row.note, "less than 1, not 6");
    row = &job->local_limit[1];
    assert_int_equal(row->row.value, 5);
    assert_int_equal(row->row.cmp, MF_GE);
    assert_int_equal(row->row.from, mf_day_from(2020, 1, 1));
    assert_int_equal(row->row.status, MF_SECONDARY);
    row = &job->local_limit[2];
    assert_int_equal(row->row.value, 2500);
    assert_int_equal(row->built_before, 1960);
    assert_int_equal(mf_limit_for(job, MF_LIMIT_RETENTION_YEARS, k->now.today)->value, 3);
    mf_book_job_free(job); /* the job names no place yet */
    kit_log(k, "house", "J-2", "id", "J-2", "address", "1 Invented Road", "building", "dwelling",
            "owner-occupied", "yes", "work", "repair", "description", "x", "start", "2026-09-21",
            "place", "Exampleton-North");
    job = job_of(k, "J-2");
    assert_int_equal(mf_limit_for(job, MF_LIMIT_RETENTION_YEARS, k->now.today)->value, 5);
    assert_int_equal(mf_limit_for(job, MF_LIMIT_PAINT_WEIGHT, k->now.today)->value, 2500);
    mf_book_job_free(job);
}

/* Refused with its line and column, and nothing goes in. */
static void refused(void **state)
{
    kit *k = *state;
    static const struct {
        const char *line, *where, *what;
    } rows[] = {
        {"minor-interior,7,,,,Exampleton,,Code,verified,", "place.csv:3, column value",
         "it is looser than the federal minor-interior (40 CFR 745.83)"},
        {"dust-floor,10,,2021-06-01,,Exampleton,,Code,verified,", "place.csv:3, column value",
         "it is looser than the federal dust-floor (89 FR 89416; 40 CFR 745.227(e)(8)(viii), from "
         "2026-01-12)"},
        {"minor-interior,one,,,,Exampleton,,Code,verified,", "place.csv:3, column value",
         "the value is not a number in the unit of the limit"},
        {"minor-interior,1,at-least,,,Exampleton,,Code,verified,", "place.csv:3, column comparison",
         "it compares to the other side than the federal rule"},
        {"minor-interior,1,,2026-02-01,2026-01-01,Exampleton,,Code,verified,",
         "place.csv:3, column until", "the last day lies before the first"},
        {"plausible-loading,1,,,,Exampleton,,Code,verified,", "place.csv:3, column limit",
         "no place sets this limit"},
        {"minor-interior,1,,,,US,,Code,verified,", "place.csv:3, column place",
         "US is the place of the federal rule"},
        {"minor-interior,1,,,,US-IO,,Code,verified,", "place.csv:3, column place",
         "\"US-IO\" is not a state or territory"},
        {"minor-interior,1,,,,Exampleton,,,verified,", "place.csv:3, column citation",
         "it is needed and was not given"},
    };
    int64_t before = kit_count(k);
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        char csv[400];
        snprintf(csv, sizeof csv, HEAD "minor-interior,3,,,,Exampleton,,Code,verified,\n%s\n",
                 rows[i].line);
        assert_int_equal(import(k, csv, false), MF_INPUT);
        assert_string_equal(k->err.where, rows[i].where);
        assert_string_equal(k->err.what, rows[i].what);
        assert_true(k->err.mend[0] != '\0');
        assert_int_equal(kit_count(k), before);
    }
}

/* A correction is checked like a new entry. */
static void corrected(void **state)
{
    kit *k = *state;
    mf_draft *draft = NULL;
    kit_log(k, "local_limit", "", "limit", "minor-interior", "value", "3", "place", "Exampleton",
            "citation", "Code", "status", "verified");
    char entry[MF_ENTRY_ID];
    snprintf(entry, sizeof entry, "%s", k->id);
    draft = kit_draft(k, "local_limit", "value", "6.01", NULL);
    assert_int_equal(mf_book_correct(k->book, entry, draft, "typed wrong", &k->now, NULL, &k->err),
                     MF_INPUT);
    mf_draft_free(draft);
    draft = kit_draft(k, "local_limit", "value", "2", NULL);
    assert_int_equal(mf_book_correct(k->book, entry, draft, "typed wrong", &k->now, NULL, &k->err),
                     MF_OK);
    mf_draft_free(draft);
    mf_job *job = job_of(k, "J-1");
    assert_int_equal(job->local_limit[0].row.value, 200);
    mf_book_job_free(job);
}

/* 481-469.3 of Iowa: less than 1 sq ft. COMAR 26.16.01.03: up to 3 in houses built
 * before 1950. */
static void shipped_files(void **state)
{
    kit *k = *state;
    static const char *const names[] = {"US-IA", "US-MD"};
    for (size_t i = 0; i < 2; i++) {
        char path[200], csv[4096];
        snprintf(path, sizeof path, MF_TESTS "/../forms/places/%s.csv", names[i]);
        FILE *file = fopen(path, "rb");
        assert_non_null(file);
        size_t len = fread(csv, 1, sizeof csv - 1, file);
        csv[len] = '\0';
        fclose(file);
        assert_int_equal(import(k, csv, false), MF_OK);
    }
    mf_job *job = job_of(k, "J-1");
    assert_int_equal(job->n_local_limit, 2);
    assert_false(mf_limit_holds(&job->local_limit[0].row, 100));
    assert_true(mf_limit_holds(&job->local_limit[0].row, 99));
    assert_true(mf_limit_holds(&job->local_limit[1].row, 300));
    assert_false(mf_limit_holds(&job->local_limit[1].row, 301));
    assert_int_equal(job->local_limit[1].built_before, 1950);
    for (size_t i = 0; i < 2; i++) {
        assert_string_equal(job->local_limit[i].row.place, names[i]);
        assert_int_equal(job->local_limit[i].row.status, MF_VERIFIED);
    }
    mf_book_job_free(job);
}

/* Of a place that is like what a row names the row's is told. */
static void a_slip_of_a_row(void **state)
{
    kit *k = *state;
    kit_log(k, "local_limit", "", "limit", "minor-interior", "value", "3", "place", "Exampleton",
            "citation", "Code", "status", "verified");
    assert_int_equal(kit_try(k, "house", "J-2", "id", "J-2", "address", "1 Invented Road",
                             "building", "dwelling", "owner-occupied", "yes", "work", "repair",
                             "description", "x", "start", "2026-09-21", "place", "US-IA,Examplton",
                             NULL),
                     MF_INPUT);
    assert_string_equal(k->err.what, "\"Examplton\" is not a place that is known here");
    assert_string_equal(k->err.mend, "did you mean Exampleton?");
}

/* ---- other jobs at the address ------------------------------------------------------------ */

static void open_job(kit *k, const char *id, const char *address, const char *unit,
                     const char *emergency)
{
    kit_log(k, "house", id, "id", id, "address", address, "unit", unit, "building", "dwelling",
            "owner-occupied", "yes", "work", "repair", "description", "x", "start", "2026-09-01",
            "emergency", emergency);
    kit_log(k, "component", id, "id", "C1", "type", "wall", "side", "interior", "room", "kitchen",
            "substrate", "plaster", "disturbed", "2.5", "removed", "no");
}

/* Who tests a part for lead has seen paint on it, though it is logged as not painted: with
 * its own job a positive counts (745.83), here every test does. */
static void tested_parts_of_other_jobs(void **state)
{
    static const char *const parts[] = {"reading", "kit_test", "chip", "untested"};
    kit *k = *state;
    open_job(k, "J-2", "12 Invented Street", "", "no");
    for (size_t i = 0; i < 4; i++) {
        kit_log(k, "component", "J-2", "id", parts[i], "type", "wall", "side", "interior", "room",
                parts[i], "substrate", "plaster", "disturbed", "7", "removed", "no", "painted",
                "no");
        if (i < 3)
            kit_positive(k, parts[i], "J-2", parts[i]);
    }
    mf_job *job = job_of(k, "J-1");
    int64_t sum = 0;
    assert_int_equal(job->n_earlier, 4); /* the kitchen wall of open_job among them */
    for (size_t i = 0; i < job->n_earlier; i++) {
        sum += job->earlier[i].disturbed_sqft_100;
        assert_string_not_equal(job->earlier[i].room, "untested");
    }
    assert_int_equal(sum, 3 * 700 + 250);
    mf_book_job_free(job);
}

/* 12 Invented Street, written otherwise or with its town, may be the same place, and so may a
 * unit where the other job says none; emergencies that somebody described, and no job denies, and
 * other houses are not counted. */
static void other_jobs(void **state)
{
    kit *k = *state;
    open_job(k, "J-2", "12 invented street.", "", "no");
    open_job(k, "J-3", "12, Invented  Street", "", "yes");
    open_job(k, "J-4", "12 Invented Street", "B", "no");
    open_job(k, "J-5", "121 Invented Street", "", "no");
    open_job(k, "J-7", "12 Invented Street, Exampleton", "", "no");
    open_job(k, "J-8", "12 Invented Streetcar Row", "", "no");
    open_job(k, "J-6", "12 INVENTED STREET", "", "yes");
    open_job(k, "J-9", "12 Invented Street", "", "no"); /* which says that it is none */
    kit_log(k, "emergency", "J-6", "nature", "flood", "on", "2026-09-01", "cause", "sudden-event");
    kit_log(k, "emergency", "J-9", "nature", "flood", "on", "2026-09-01", "cause", "sudden-event");
    kit_log(k, "component", "J-2", "id", "C2", "type", "wall", "side", "interior", "room", "hall",
            "substrate", "plaster", "disturbed", "1", "removed", "no", "removed", "yes", "whole",
            "4");
    kit_log(k, "component", "J-2", "id", "C3", "type", "wall", "side", "exterior", "room", "north",
            "substrate", "brick");
    kit_log(k, "component", "J-2", "id", "C4", "type", "wall", "side", "interior", "room", "hall",
            "substrate", "plaster", "disturbed", "1", "removed", "no", "painted", "no");
    kit_log(k, "component", "J-2", "id", "C5", "type", "wall", "side", "interior", "room", "hall",
            "substrate", "plaster", "disturbed", "1", "removed", "no", "affected", "no");
    kit_log(k, "opening", "J-2", "id", "D1", "kind", "door", "room", "bath", "elevation", "east");
    kit_log(k, "component", "J-2", "id", "C6", "opening", "D1", "type", "door-slab", "side",
            "interior", "substrate", "wood", "disturbed", "3", "removed", "no");
    kit_log(k, "completion", "J-2", "on", "2026-09-10");
    mf_job *job = job_of(k, "J-1");
    static const struct {
        const char *room;
        mf_side side;
        int64_t area;
    } want[] = {{"kitchen", MF_SIDE_INTERIOR, 250},
                {"hall", MF_SIDE_INTERIOR, 400},
                {"north", MF_SIDE_EXTERIOR, MF_NUM_NONE},
                {"bath", MF_SIDE_INTERIOR, 300}};
    assert_int_equal(job->n_earlier, 8);
    assert_string_equal(job->earlier[7].job, "J-9");
    assert_string_equal(job->earlier[4].job, "J-3");
    assert_string_equal(job->earlier[5].job, "J-4");
    assert_string_equal(job->earlier[6].job, "J-7");
    for (size_t i = 0; i < 4; i++) {
        size_t at = 0;
        while (at < 4 && strcmp(job->earlier[at].room, want[i].room) != 0)
            at++;
        assert_true(at < 4);
        assert_string_equal(job->earlier[at].job, "J-2");
        assert_int_equal(job->earlier[at].on, mf_day_from(2026, 9, 1));
        assert_int_equal(job->earlier[at].until, mf_day_from(2026, 9, 10));
        assert_int_equal(job->earlier[at].side, want[i].side);
        assert_int_equal(job->earlier[at].disturbed_sqft_100, want[i].area);
    }
    mf_book_job_free(job);
    job = job_of(k, "");
    assert_int_equal(job->n_earlier, 0);
    mf_book_job_free(job);
}

/* The street and the unit as people write them: which jobs of J-2 to J-12 each counts is
 * written down by hand. */
static void written_otherwise(void **state)
{
    kit *k = *state;
    static const struct {
        const char *id, *address, *unit;
        size_t others;
    } jobs[] = {
        {"J-2", "12 N Sample Ln", "2B", 4}, /* J-3, 4, 5, 6 */
        {"J-3", "No. 12 North Sample Lane", "2b", 4},
        {"J-4", "#12 N. SAMPLE LN., Exampleton", "Apt. 2-B", 4},
        {"J-5", "12 north sample lane", "", 5}, /* and of 3C: it may be in either */
        {"J-6", "12 N Sample La", "unit 2B", 4},
        {"J-7", "12 N Sample Ln", "3C", 1}, /* J-5 */
        {"J-8", "12 Sample Ln", "2B", 0},   /* not North */
        {"J-9", "12 N Sample St", "2B", 0}, /* a street, not a lane */
        {"J-10", "7 Ñu Road", "", 2},
        {"J-11", "7 ÑU RD", "", 2},
        {"J-12", "7 Nu Road", "", 2},
    };
    for (size_t i = 0; i < sizeof jobs / sizeof jobs[0]; i++)
        open_job(k, jobs[i].id, jobs[i].address, jobs[i].unit, "no");
    for (size_t i = 0; i < sizeof jobs / sizeof jobs[0]; i++) {
        mf_job *job = job_of(k, jobs[i].id);
        if (job->n_earlier != jobs[i].others)
            fail_msg("%s counts %zu", jobs[i].id, job->n_earlier);
        mf_book_job_free(job);
    }
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, kit_with_house, kit_done)

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(good_file),
        TEST(refused),
        TEST(corrected),
        TEST(a_slip_of_a_row),
        TEST(shipped_files),
        TEST(other_jobs),
        TEST(tested_parts_of_other_jobs),
        TEST(written_otherwise),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
