/* Intake of CSV files: what is right goes in whole, what is wrong is refused with
 * file, line and column, and nothing goes in. All files are constructed. */
#include "import_kit.h"

/* ---- readings: good ------------------------------------------------------------------------ */

static void check_good(kit *k, const mf_import_report *report)
{
    mf_job *job = NULL;
    assert_int_equal(report->rows, 5);
    assert_int_equal(report->readings, 5);
    assert_int_equal(report->calibrations, 1);
    assert_int_equal(mf_book_job(k->book, "J-1", &job, NULL), MF_OK);
    assert_int_equal(job->n_reading, 5);
    static const struct {
        const char *component, *operator_id, *colour;
        int64_t loading;
        mf_qualifier qualifier;
        mf_purpose purpose;
        int32_t minute;
    } want[] = {
        {"", "rosa", "red", 1000, MF_QUAL_EXACT, MF_READ_CALIBRATION, 480},
        {"W01.sash", "rosa", "white", 1430, MF_QUAL_EXACT, MF_READ_PAINT, 485},
        {"W01.sash-out", "ana", "", -100, MF_QUAL_EXACT, MF_READ_PAINT, 486},
        {"wall-n", "rosa", "white, over green", 9900, MF_QUAL_OVER, MF_READ_PAINT, 487},
        {"W01.stop-r", "rosa", "", 430, MF_QUAL_EXACT, MF_READ_PAINT, MF_MINUTE_NONE},
    };
    for (size_t i = 0; i < 5; i++) {
        const mf_reading *r = &job->reading[i];
        assert_int_equal(r->number, i + 1);
        assert_string_equal(r->component, want[i].component);
        assert_string_equal(r->operator_id, want[i].operator_id);
        assert_string_equal(r->colour, want[i].colour);
        assert_int_equal(r->loading_ug_cm2, want[i].loading);
        assert_int_equal(r->qualifier, want[i].qualifier);
        assert_int_equal(r->purpose, want[i].purpose);
        assert_int_equal(r->at_minute, want[i].minute);
        assert_int_equal(r->on, mf_day_from(2026, 9, 14));
    }
    mf_book_job_free(job);
}

static void good_file(void **state)
{
    kit *k = *state;
    mf_import_report report;
    assert_int_equal(import(k, good, false, &report), MF_OK);
    check_good(k, &report);
    assert_int_equal(kit_count(k), 11 + 5 + 1); /* and the intake itself */
    /* The hash of the file by sha256sum(1). */
    run_result result;
    char path[128];
    snprintf(path, sizeof path, "%s/xrf.csv", k->folder);
    FILE *file = fopen(path, "wb");
    assert_non_null(file);
    fputs(good, file);
    fclose(file);
    run_shell(&result, k->folder, "sha256sum xrf.csv | cut -c1-64 | tr -d '\\n'");
    assert_string_equal(result.out, report.sha256);
}

/* The same with a byte order mark, semicolons, CRLF, and columns in another order. */
static void good_file_of_another_make(void **state)
{
    kit *k = *state;
    mf_import_report report;
    static const char csv[] =
        "\xEF\xBB\xBF"
        "result;unit;OPENING;component;side;substrate;number;instrument;operator;date;time;"
        "color\r\n"
        "1.0;mg/cm2;;calibration;;wood;1;X-100;rosa;2026-09-14;08:00;red\r\n"
        "1.43;mg/cm2;W01;sash;interior;wood;2;X-100;rosa;2026-09-14;08:05;white\r\n"
        "-0.1;;W01;sash;exterior;wood;3;X-100;ana;2026-09-14;08:06;\r\n"
        ">9.9;mg/cm2;;wall-n;;plaster;4;X-100;rosa;2026-09-14;08:07;white, over green\r\n"
        "430;ug/cm2;W01;W01.stop-r;interior;wood;5;X-100;rosa;2026-09-14;;\r\n";
    assert_int_equal(import(k, csv, false, &report), MF_OK);
    check_good(k, &report);
}

static void dry_run_writes_nothing(void **state)
{
    kit *k = *state;
    mf_import_report report;
    assert_int_equal(import(k, good, true, &report), MF_OK);
    assert_int_equal(report.readings, 5);
    assert_int_equal(kit_count(k), 11);
    assert_int_equal(import(k, good, false, &report), MF_OK); /* so it can follow */
    assert_int_equal(kit_count(k), 17);
}

/* Inside a group of the caller it is a part of it. */
static void inside_a_group(void **state)
{
    kit *k = *state;
    mf_import_report report;
    assert_int_equal(mf_book_begin(k->book, NULL), MF_OK);
    kit_log(k, "person", "", "id", "bob", "name", "Bob Invented");
    assert_int_equal(import(k, good, true, &report), MF_OK);
    assert_int_equal(import(k, HEAD "x\n", false, &report), MF_INPUT);
    assert_int_equal(import(k, good, false, &report), MF_OK);
    assert_int_equal(mf_book_commit(k->book, NULL), MF_OK);
    assert_int_equal(kit_count(k), 18);
}

static void many_readings(void **state)
{
    kit *k = *state;
    mf_import_report report;
    static char csv[200000] = HEAD;
    size_t used = strlen(csv);
    for (int i = 1; i <= 1500; i++)
        used += (size_t)snprintf(
            csv + used, sizeof csv - used,
            "%d,X-100,rosa,2026-09-14,08:05,W01,sash,interior,wood,white,0.%d,\n", i, i % 10);
    assert_int_equal(import(k, csv, false, &report), MF_OK);
    assert_int_equal(report.readings, 1500);
    mf_book_report check;
    assert_int_equal(mf_book_check(k->book, &check, NULL), MF_OK);
    assert_int_equal(check.entries, 1512);
}

#define ROW2 "1,X-100,rosa,2026-09-14,08:05,W01,sash,interior,wood,white,1.0,mg/cm2\n"

/* ---- readings: bad ------------------------------------------------------------------------------
 */

typedef struct bad {
    const char *name, *csv, *where, *what;
} bad;

static const bad bads[] = {
    {"unknown column", "Number,Mood\n1,2\n", "xrf.csv:1, column Mood", "there is no such column"},
    {"missing column",
     "number,instrument,operator,date,time,opening,component,side,substrate\n1,2,3,4,5,6,7,8,9\n",
     "xrf.csv:1", "the column result is missing"},
    {"column twice", "number,Number\n1,2\n", "xrf.csv:1, column Number",
     "there are two columns of this name"},
    {"column without a head", "number,,date\n1,2,3\n", "xrf.csv:1", "a column has no head"},
    {"only heads", HEAD, "xrf.csv", "there is no line after the heads"},
    {"no number", HEAD ROW2 "2,X-100,rosa,2026-09-14,08:05,W01,sash,interior,wood,white,high,\n",
     "xrf.csv:3, column Result", "\"high\" is not a number"},
    {"no result", HEAD "2,X-100,rosa,2026-09-14,08:05,W01,sash,interior,wood,white,,\n",
     "xrf.csv:2, column Result", "it is needed and was not given"},
    {"decimal comma", HEAD "2,X-100,rosa,2026-09-14,08:05,W01,sash,interior,wood,white,\"1,0\",\n",
     "xrf.csv:2, column Result", "\"1,0\" has a decimal comma"},
    {"unit of a thousandth",
     HEAD "2,X-100,rosa,2026-09-14,08:05,W01,sash,interior,wood,white,430,mg/cm2\n",
     "xrf.csv:2, column Result", "\"430\" looks like ug/cm2"},
    {"unit unknown", HEAD "2,X-100,rosa,2026-09-14,08:05,W01,sash,interior,wood,white,1.0,ppm\n",
     "xrf.csv:2, column Result", "\"1.0\" has a unit that is not known"},
    {"unit g", HEAD "2,X-100,rosa,2026-09-14,08:05,W01,sash,interior,wood,white,0.0014,g/cm2\n",
     "xrf.csv:2, column Result", "\"0.0014\" looks like g/cm2"},
    {"date that does not exist",
     HEAD "2,X-100,rosa,2026-02-30,08:05,W01,sash,interior,wood,white,1.0,\n",
     "xrf.csv:2, column Date", "\"2026-02-30\" does not exist in the calendar"},
    {"date in the future", HEAD "2,X-100,rosa,2026-09-16,08:05,W01,sash,interior,wood,white,1.0,\n",
     "xrf.csv:2, column Date", "\"2026-09-16\" lies in the future"},
    {"date in another form",
     HEAD "2,X-100,rosa,14.09.2026,08:05,W01,sash,interior,wood,white,1.0,\n",
     "xrf.csv:2, column Date", "\"14.09.2026\" is not a date"},
    {"no date", HEAD "2,X-100,rosa,,08:05,W01,sash,interior,wood,white,1.0,\n",
     "xrf.csv:2, column Date", "it is needed and was not given"},
    {"time", HEAD "2,X-100,rosa,2026-09-14,8am,W01,sash,interior,wood,white,1.0,\n",
     "xrf.csv:2, column Time", "\"8am\" is not a time of day"},
    {"unknown opening", HEAD "2,X-100,rosa,2026-09-14,08:05,W1,sash,interior,wood,white,1.0,\n",
     "xrf.csv:2, column Opening", "there is no opening W1 in this job"},
    {"component the opening has not",
     HEAD "2,X-100,rosa,2026-09-14,08:05,W01,apron,interior,wood,white,1.0,\n",
     "xrf.csv:2, column Component", "the opening has no component \"apron\" on this side"},
    {"component on the other side",
     HEAD "2,X-100,rosa,2026-09-14,08:05,W01,interior-sill,exterior,wood,white,1.0,\n",
     "xrf.csv:2, column Component", "the opening has no component \"interior-sill\" on this side"},
    {"two such components",
     HEAD "2,X-100,rosa,2026-09-14,08:05,W01,stop,interior,wood,white,1.0,\n",
     "xrf.csv:2, column Component", "the opening has several components \"stop\" on this side"},
    {"no component", HEAD "2,X-100,rosa,2026-09-14,08:05,W01,,interior,wood,white,1.0,\n",
     "xrf.csv:2, column Component", "the component is missing"},
    {"no component and no opening", HEAD "2,X-100,rosa,2026-09-14,08:05,,,,wood,white,1.0,\n",
     "xrf.csv:2, column Component", "the component is missing"},
    {"no side", HEAD "2,X-100,rosa,2026-09-14,08:05,W01,sash,,wood,white,1.0,\n",
     "xrf.csv:2, column Side", "the side is missing"},
    {"side unknown", HEAD "2,X-100,rosa,2026-09-14,08:05,W01,sash,left,wood,white,1.0,\n",
     "xrf.csv:2, column Side", "\"left\" is not a side"},
    {"unknown component id",
     HEAD "2,X-100,rosa,2026-09-14,08:05,,wall-s,interior,plaster,white,1.0,\n",
     "xrf.csv:2, column Component", "there is no component wall-s in this job"},
    {"component id, other side",
     HEAD "2,X-100,rosa,2026-09-14,08:05,,wall-n,exterior,plaster,white,1.0,\n",
     "xrf.csv:2, column Side", "the component wall-n is not on this side"},
    {"calibration at an opening",
     HEAD "2,X-100,rosa,2026-09-14,08:05,W01,calibration,,wood,red,1.0,\n",
     "xrf.csv:2, column Opening", "a calibration reading has an opening"},
    {"unknown operator", HEAD "2,X-100,bob,2026-09-14,08:05,W01,sash,interior,wood,white,1.0,\n",
     "xrf.csv:2, column Operator", "there is no person bob in the book"},
    {"unknown instrument", HEAD "2,X-101,rosa,2026-09-14,08:05,W01,sash,interior,wood,white,1.0,\n",
     "xrf.csv:2, column Instrument", "there is no instrument X-101 in the book"},
    {"unknown substrate", HEAD "2,X-100,rosa,2026-09-14,08:05,W01,sash,interior,stone,white,1.0,\n",
     "xrf.csv:2, column Substrate", "\"stone\" is not one of the words known here"},
    {"the same number twice in the file", HEAD ROW2 "\n" ROW2, "xrf.csv:4, column Number",
     "reading 1 of this instrument is on line 2 as well"},
    {"the same number in the job",
     HEAD "77,X-100,rosa,2026-09-14,08:05,W01,sash,interior,wood,white,1.0,\n",
     "xrf.csv:2, column Number",
     "reading 77 of this instrument is in the job already: office/12, and says something else"},
    {"a cell too few", HEAD ROW2 "2,X-100\n", "xrf.csv:3",
     "the line has 2 cells, the head line has 12"},
    {"empty file", "", "xrf.csv", "the file is empty"},
};

static void check_bad(void **state)
{
    const bad *b = *state;
    void *fresh = NULL;
    mf_import_report report;
    kit_with_stops(&fresh);
    kit *k = fresh;
    kit_reading(k, "77", "0.5"); /* office/12 */
    for (int dry = 0; dry < 2; dry++) {
        assert_int_equal(import(k, b->csv, dry, &report), MF_INPUT);
        assert_string_equal(k->err.where, b->where);
        assert_string_equal(k->err.what, b->what);
        assert_true(k->err.mend[0] != '\0');
        assert_int_equal(kit_count(k), 12);
    }
    kit_done(&fresh);
}

static void unknown_job(void **state)
{
    kit *k = *state;
    mf_err err = {0};
    assert_int_equal(mf_import_readings(k->book, "J-9", "xrf.csv", good, strlen(good), &k->now,
                                        false, NULL, &err),
                     MF_INPUT);
    assert_string_equal(err.what, "there is no job J-9");
}

static void mends(void **state)
{
    kit *k = *state;
    assert_int_equal(import(k, bads[0].csv, false, NULL), MF_INPUT);
    assert_string_equal(k->err.mend,
                        "take the column out, or say what it is: --map \"Head=column\" (- leaves "
                        "it out); known are: number, instrument, operator, date, time, opening, "
                        "component, side, substrate, color, result, unit, purpose, film, mode");
    assert_int_equal(import(k,
                            HEAD "2,X-100,rosa,2026-09-14,08:05,W1,sash,interior,wood,white,1.0,\n",
                            false, NULL),
                     MF_INPUT);
    assert_string_equal(k->err.mend, "did you mean W01? There are: W01");
    assert_int_equal(
        import(k, HEAD "2,X-100,rosa,2026-09-14,08:05,W01,apron,interior,wood,white,1.0,\n", false,
               NULL),
        MF_INPUT);
    assert_string_equal(k->err.mend,
                        "it has: interior sash (W01.sash), interior interior-sill (W01.sill), "
                        "exterior sash (W01.sash-out), interior stop (W01.stop-l), interior stop "
                        "(W01.stop-r)");
}

/* ---- any kind
 * ---------------------------------------------------------------------------------------- */

static mf_status import_kind(kit *k, const char *kind, const char *job, const char *csv,
                             mf_import_report *report)
{
    k->err = (mf_err){0};
    return mf_import_kind(k->book, job, mf_kind_named(kind), "list.csv", csv, strlen(csv), &k->now,
                          false, report, &k->err);
}

static void openings_and_components(void **state)
{
    kit *k = *state;
    mf_import_report report;
    mf_job *job = NULL;
    assert_int_equal(import_kind(k, "opening", "J-1",
                                 "ID,kind,room,elevation,width\nW02,window,hall,north,36\n"
                                 "D01,door,hall,north,\n",
                                 &report),
                     MF_OK);
    assert_int_equal(report.rows, 2);
    assert_int_equal(
        import_kind(k, "component", "J-1",
                    "opening,id,type,side,substrate\nW02,W02.sash,sash,interior,wood\n", &report),
        MF_OK);
    assert_int_equal(mf_book_job(k->book, "J-1", &job, NULL), MF_OK);
    assert_int_equal(job->n_opening, 3);
    assert_int_equal(job->opening[1].width_in, 36);
    assert_int_equal(job->opening[2].kind, MF_OPENING_DOOR);
    assert_true(job->opening[2].width_in == MF_NUM_NONE);
    assert_string_equal(job->component[job->n_component - 1].id, "W02.sash");
    mf_book_job_free(job);
}

static void unit_column(void **state)
{
    kit *k = *state;
    mf_job *job = NULL;
    assert_int_equal(import_kind(k, "instrument", "",
                                 "serial,film,cal-low,cal-high,unit\nX-200,1040,940,1140,ug/cm2\n",
                                 NULL),
                     MF_OK);
    assert_int_equal(mf_book_job(k->book, "", &job, NULL), MF_OK);
    assert_int_equal(job->instrument[1].film_ug_cm2, 1040);
    mf_book_job_free(job);
}

static void list_of_houses(void **state)
{
    kit *k = *state;
    mf_job *job = NULL;
    assert_int_equal(import_kind(k, "house", "",
                                 "id,address,building,owner-occupied,work,description,start\n"
                                 "J-7,7 Invented Street,dwelling,yes,repair,x,2026-10-01\n"
                                 "J-8,8 Invented Street,dwelling,no,repair,x,2026-10-02\n",
                                 NULL),
                     MF_OK);
    assert_int_equal(mf_book_job(k->book, "J-8", &job, NULL), MF_OK);
    assert_string_equal(job->house[0].address, "8 Invented Street");
    mf_book_job_free(job);
}

static const bad bad_kinds[] = {
    {"opening", "id,kind,room,elevation,color\n", "list.csv:1, column color",
     "there is no such column"},
    {"opening", "id,kind,room\n", "list.csv:1", "the column elevation is missing"},
    {"opening", "id,kind,room,elevation,unit\n", "list.csv:1, column unit",
     "there is no such column"},
    {"opening", "id,kind,room,elevation\nW02,window,hall,\n", "list.csv:2, column elevation",
     "it is needed and was not given"},
    {"opening", "id,kind,Room,elevation\nW02,hatch,hall,north\n", "list.csv:2, column kind",
     "\"hatch\" is not one of the words known here"},
    {"opening", "Id,kind,room,elevation\nW02,window,hall,north\nW02,window,hall,north\n",
     "list.csv:3, column Id", "the id W02 is taken by entry office/12 (opening)"},
    {"component", "id,Opening,type,side,substrate\nc,W09,sash,interior,wood\n",
     "list.csv:2, column Opening", "there is no opening W09 in this job"},
};

static void check_bad_kind(void **state)
{
    const bad *b = *state;
    void *fresh = NULL;
    kit_with_stops(&fresh);
    kit *k = fresh;
    assert_int_equal(import_kind(k, b->name, "J-1", b->csv, NULL), MF_INPUT);
    assert_string_equal(k->err.where, b->where);
    assert_string_equal(k->err.what, b->what);
    assert_int_equal(kit_count(k), 11);
    kit_done(&fresh);
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, kit_with_stops, kit_done)
#define N_BADS     (sizeof bads / sizeof bads[0])
#define N_KINDS    (sizeof bad_kinds / sizeof bad_kinds[0])

static void add(struct CMUnitTest *test, const char *name, CMUnitTestFunction run, const bad *row)
{
    test->name = name;
    test->test_func = run;
    test->initial_state = (void *)(uintptr_t)row;
}

int main(void)
{
    const struct CMUnitTest others[] = {
        TEST(good_file),
        TEST(good_file_of_another_make),
        TEST(dry_run_writes_nothing),
        TEST(inside_a_group),
        TEST(many_readings),
        TEST(unknown_job),
        TEST(mends),
        TEST(openings_and_components),
        TEST(unit_column),
        TEST(list_of_houses),
    };
    struct CMUnitTest rows[N_BADS + N_KINDS];
    memset(rows, 0, sizeof rows);
    for (size_t i = 0; i < N_BADS; i++)
        add(&rows[i], bads[i].name, check_bad, &bads[i]);
    for (size_t i = 0; i < N_KINDS; i++)
        add(&rows[N_BADS + i], bad_kinds[i].what, check_bad_kind, &bad_kinds[i]);
    int failed = cmocka_run_group_tests_name("refused", rows, NULL, NULL);
    return failed + cmocka_run_group_tests_name("taken in", others, NULL, NULL);
}
