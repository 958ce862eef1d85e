/* Exports as people have them: read twice, in pieces, with heads of their own, with
 * many faults. All files are constructed. */
#include "book/room.h"
#include "import_kit.h"

#define ROW2 "1,X-100,rosa,2026-09-14,08:05,W01,sash,interior,wood,white,1.0,mg/cm2\n"

/* The same file again is recognised by its hash; rows that overlap are skipped
 * when they say the same and refused when they differ. */
static void again(void **state)
{
    kit *k = *state;
    mf_import_report report;
    assert_int_equal(import(k, HEAD ROW2, false, &report), MF_OK);
    int64_t before = kit_count(k);
    assert_int_equal(import(k, HEAD ROW2, false, &report), MF_OK);
    assert_true(report.already);
    assert_true(report.before[0] != '\0');
    assert_int_equal(report.readings, 0);
    assert_int_equal(kit_count(k), before);
    assert_int_equal(
        import(k, HEAD ROW2 "2,X-100,rosa,2026-09-14,08:06,W01,sash,interior,wood,white,1.0,\n",
               false, &report),
        MF_OK);
    assert_false(report.already);
    assert_int_equal(report.readings, 1);
    assert_int_equal(report.skipped, 1);
    assert_int_equal(kit_count(k), before + 2); /* the reading and the intake */
}

/* What is in force counts: a number that a correction gave or took away, a reading that was
 * withdrawn. */
static void numbers_that_were_corrected(void **state)
{
    static const char row1[] = HEAD ROW2,
                      row7[] =
                          HEAD "7,X-100,rosa,2026-09-14,08:06,W01,sash,interior,wood,white,1.0,\n";
    kit *k = *state;
    mf_import_report report;
    char id[MF_ENTRY_ID];
    assert_int_equal(import(k, row1, false, &report), MF_OK);
    snprintf(id, sizeof id, "office/%lld", (long long)kit_count(k) - 1); /* the intake is last */
    mf_draft *draft = kit_draft(k, "reading", "number", "7", NULL);
    assert_int_equal(mf_book_correct(k->book, id, draft, "x", &k->now, k->id, &k->err), MF_OK);
    mf_draft_free(draft);
    assert_int_equal(import(k, row7, false, &report), MF_INPUT);
    assert_non_null(strstr(k->err.what, "reading 7 of this instrument is in the job already"));
    assert_int_equal(import(k, HEAD ROW2 "\n", false, &report), MF_OK); /* 1 is free again */
    assert_int_equal(report.readings, 1);
    assert_int_equal(mf_book_correct(k->book, id, NULL, "x", &k->now, k->id, &k->err), MF_OK);
    assert_int_equal(import(k, row7, false, &report), MF_OK); /* and 7 */
    assert_int_equal(report.readings, 1);
}

typedef struct told {
    int n;
    mf_err last;
} told;

static void tell(void *data, const mf_err *fault)
{
    told *t = data;
    t->n++;
    t->last = *fault;
}

typedef struct text_source {
    const char *text;
    size_t len, at, step;
} text_source;

/* Hands out few bytes at a time, so that every cell is cut somewhere. */
static mf_status read_text(void *data, char *to, size_t cap, size_t *got, mf_err *err)
{
    text_source *from = data;
    (void)err;
    *got = from->len - from->at;
    if (*got > from->step)
        *got = from->step;
    if (*got > cap)
        *got = cap;
    memcpy(to, from->text + from->at, *got);
    from->at += *got;
    return MF_OK;
}

static mf_status rewind_text(void *data, mf_err *err)
{
    (void)err;
    ((text_source *)data)->at = 0;
    return MF_OK;
}

static mf_status import_from(kit *k, const char *csv, size_t step, const char *map, told *t,
                             mf_import_report *report)
{
    text_source from = {csv, strlen(csv), 0, step};
    const mf_import_source source = {read_text, rewind_text, &from, 0};
    const mf_import_ask ask = {.job = "J-1",
                               .name = "xrf.csv",
                               .source = &source,
                               .now = &k->now,
                               .map = map,
                               .instrument = "X-100",
                               .operator_id = "rosa",
                               .fault = t == NULL ? NULL : tell,
                               .data = t};
    return mf_import_readings_from(k->book, &ask, report, &k->err);
}

static void in_small_parts(void **state)
{
    kit *k = *state;
    mf_import_report report;
    assert_int_equal(import_from(k, good, 1, "", NULL, &report), MF_OK);
    assert_int_equal(report.rows, 5);
    assert_int_equal(report.readings, 5);
    mf_job *job = NULL;
    assert_int_equal(mf_book_job(k->book, "J-1", &job, NULL), MF_OK);
    assert_string_equal(job->reading[3].colour, "white, over green");
    assert_int_equal(job->reading[3].loading_ug_cm2, 9900);
    mf_book_job_free(job);
}

/* An American export says "Color". */
static void color_is_colour(void **state)
{
    kit *k = *state;
    mf_import_report report;
    mf_job *job = NULL;
    char csv[4000];
    const char *at = strstr(good, "olour");
    assert_non_null(at);
    snprintf(csv, sizeof csv, "%.*solor%s", (int)(at - good), good, at + strlen("olour"));
    assert_int_equal(import_from(k, csv, 100, "", NULL, &report), MF_OK);
    assert_int_equal(mf_book_job(k->book, "J-1", &job, NULL), MF_OK);
    assert_string_equal(job->reading[3].colour, "white, over green");
    mf_book_job_free(job);
}

/* Every wrong row is told, and nothing is written. */
static void all_faults_are_told(void **state)
{
    kit *k = *state;
    told t = {0};
    mf_import_report report;
    int64_t before = kit_count(k);
    static const char csv[] =
        HEAD ROW2 "2,X-100,rosa,2026-09-14,08:06,W09,sash,interior,wood,white,1.0,\n"
                  "3,X-100,rosa\n"
                  "4,X-100,rosa,2026-09-14,08:07,W01,sash,interior,wood,white,high,\n";
    assert_int_equal(import_from(k, csv, 7, "", &t, &report), MF_INPUT);
    assert_int_equal(t.n, 3);
    assert_int_equal(report.faults, 3);
    assert_string_equal(t.last.where, "xrf.csv:5, column Result");
    assert_string_equal(k->err.what, "3 rows are wrong");
    assert_int_equal(kit_count(k), before);
}

/* An export with heads of its own; the unit stands in the head; the map is kept. */
static void a_map_is_kept(void **state)
{
    kit *k = *state;
    mf_import_report report;
    mf_job *job = NULL;
    static const char first[] = "\xEF\xBB\xBFReading No|Mood|Day|Hour|Part|Mat|\"Pb [ug/cm2]\"\r\n"
                                "1|fine|2026-09-14|08:05|W01.sash|wood|430\r\n";
    static const char next[] = "Reading No|Mood|Day|Hour|Part|Mat|\"Pb [ug/cm2]\"\r\n"
                               "2|fine|2026-09-14|08:06|W01.sash|wood|440\r\n";
    assert_int_equal(import_from(k, next, 99, "", NULL, &report), MF_INPUT);
    assert_string_equal(k->err.where, "xrf.csv:1, column Reading No");
    assert_int_equal(import_from(k, first, 99,
                                 "Reading No=number,Mood=-,Day=date,Hour=time,Part=component,"
                                 "Mat=substrate,Pb=result",
                                 NULL, &report),
                     MF_OK);
    assert_int_equal(import_from(k, next, 99, "", NULL, &report), MF_OK);
    assert_string_equal(report.map_of, "X-100");
    assert_int_equal(mf_book_job(k->book, "J-1", &job, NULL), MF_OK);
    assert_int_equal(job->n_reading, 2);
    assert_int_equal(job->reading[1].loading_ug_cm2, 440);
    assert_string_equal(job->reading[1].operator_id, "rosa");
    assert_int_equal(job->n_intake, 2);
    mf_book_job_free(job);
    assert_int_equal(import_from(k, next, 99, "Mood=smell", NULL, &report), MF_OK); /* known file */
    assert_true(report.already);
    assert_int_equal(import_from(k, first + 3, 99, "Mood=smell", NULL, &report), MF_INPUT);
    assert_string_equal(k->err.where, "--map");
}

/* A firm that gives its map with every file: constructed. Fifty files of seven heads came
 * to more pairs than there was room for, and logged each head fifty times. */
static void the_same_map_with_every_file(void **state)
{
    kit *k = *state;
    mf_import_report report;
    mf_job *job = NULL;
    char csv[200];
    for (int i = 1; i <= 50; i++) {
        snprintf(csv, sizeof csv,
                 "No,Mood,Day,Hour,Part,Mat,Pb\n%d,fine,2026-09-14,08:05,W01.sash,wood,0.4\n", i);
        assert_int_equal(
            import_from(
                k, csv, 999,
                "No=number,Mood=-,Day=date,Hour=time,Part=component,Mat=substrate,Pb=result", NULL,
                &report),
            MF_OK);
    }
    assert_int_equal(mf_book_job(k->book, "J-1", &job, NULL), MF_OK);
    assert_int_equal(job->n_reading, 50);
    assert_int_equal(job->n_column_map, 7);
    mf_book_job_free(job);
    assert_int_equal(
        import_from(k, "No,Mood,Day,Hour,Part,Mat,Pb\n99,x,2026-09-14,08:05,W01.sash,wood,1\n", 999,
                    "Mood=colour", NULL, &report),
        MF_OK); /* another meaning is kept, the last one said holds */
    assert_int_equal(mf_book_job(k->book, "J-1", &job, NULL), MF_OK);
    assert_int_equal(job->n_column_map, 8);
    assert_string_equal(job->reading[50].colour, "x");
    mf_book_job_free(job);
}

static void purposes(void **state)
{
    kit *k = *state;
    mf_import_report report;
    mf_job *job = NULL;
    static const char csv[] = "number,date,time,component,substrate,result,purpose,film,mode\n"
                              "1,2026-09-14,08:05,W01.sash,wood,0.4,,,fast\n"
                              "2,2026-09-14,08:06,substrate,metal,1.2,,1.04,\n"
                              "3,2026-09-14,08:07,W01.sash,wood,0.5,retest,,\n";
    assert_int_equal(import_from(k, csv, 99, "", NULL, &report), MF_OK);
    assert_int_equal(mf_book_job(k->book, "J-1", &job, NULL), MF_OK);
    assert_int_equal(job->reading[0].purpose, MF_READ_PAINT);
    assert_string_equal(job->reading[0].mode, "fast");
    assert_int_equal(job->reading[1].purpose, MF_READ_SUBSTRATE);
    assert_int_equal(job->reading[1].film_ug_cm2, 1040);
    assert_int_equal(job->reading[2].purpose, MF_READ_RETEST);
    assert_string_equal(job->reading[2].component, "W01.sash");
    mf_book_job_free(job);
}

/* ---- many at a time ------------------------------------------------------------------- */

/* A row of a constructed export, and what it says word by word. */
typedef struct said {
    const char *purpose, *component, *substrate, *colour, *result, *unit;
    const char *cells; /* opening, component, side as in the export */
} said;

static const said kinds_of_row[] = {
    {"paint", "W01.sash", "wood", "white", "1.4", "mg/cm2", "W01,Sash,interior"},
    {"paint", "W01.sash-out", "wood", "", "-0.1", "mg/cm2", "W01,sash,EXTERIOR"},
    {"calibration", "", "wood", "red", "1.0", "mg/cm2", ",calibration,"},
    {"paint", "W01.sill", "wood", "white, over green", ">9.9", "mg/cm2", "W01,W01.sill,interior"},
    {"paint", "wall-n", "plaster", "called \"bone\"", "430", "ug/cm2", ",wall-n,interior"},
    {"paint", "W01.sash", "wood", "gr\xC3\xBCn", "<0.3", "mg/cm2", "W01,sash,interior"},
};
enum { MANY = 300, KINDS_OF_ROW = sizeof kinds_of_row / sizeof kinds_of_row[0] };

/* Numbers go up, with a step back now and then. */
static int number_of(int i)
{
    return i % 10 == 3 ? 2 * i - 5 : 2 * i + 10;
}

static void quoted(char out[80], const char *text)
{
    size_t used = 0;
    out[used++] = '"';
    for (; *text != '\0'; text++) {
        if (*text == '"')
            out[used++] = '"';
        out[used++] = *text;
    }
    out[used++] = '"';
    out[used] = '\0';
}

static void add_row(char *out, size_t size, int i)
{
    const said *row = &kinds_of_row[i % KINDS_OF_ROW];
    char colour[80];
    size_t used = strlen(out);
    quoted(colour, row->colour);
    snprintf(out + used, size - used, "%d,X-100,%s,2026-09-14,%02d:%02d,%s,%s,%s,%s,%s\n",
             number_of(i), i % 7 == 0 ? "ana" : "rosa", 8 + i / 60, i % 60, row->cells,
             row->substrate, colour, row->result, row->unit);
}

static void log_row(kit *k, int i)
{
    const said *row = &kinds_of_row[i % KINDS_OF_ROW];
    char number[24], at[24];
    snprintf(number, sizeof number, "%d", number_of(i));
    snprintf(at, sizeof at, "%02d:%02d", 8 + i / 60, i % 60);
    mf_draft *draft = kit_draft(k, "reading", "number", number, "instrument", "X-100", "operator",
                                i % 7 == 0 ? "ana" : "rosa", "on", "2026-09-14", "time", at,
                                "purpose", row->purpose, "substrate", row->substrate, NULL);
    if (row->component[0] != '\0')
        assert_int_equal(
            mf_draft_set(draft, "component", row->component, "", "", k->now.today, &k->err), MF_OK);
    if (row->colour[0] != '\0')
        assert_int_equal(mf_draft_set(draft, "colour", row->colour, "", "", k->now.today, &k->err),
                         MF_OK);
    assert_int_equal(
        mf_draft_set(draft, "result", row->result, row->unit, "", k->now.today, &k->err), MF_OK);
    assert_int_equal(mf_book_write(k->book, draft, "J-1", &k->now, "", k->id, &k->err), MF_OK);
    mf_draft_free(draft);
}

/* The entries of a file read in are those of its rows logged one by one: the same
 * chain of hashes, and the same derived rows. */
static void as_one_by_one(void **state)
{
    static char csv[64 * 1024];
    kit *k = *state, other;
    mf_import_report report;
    char head[MF_HASH_HEX], by_hand[MF_HASH_HEX], skipped[24];
    snprintf(csv, sizeof csv, "%s", HEAD);
    for (int i = 0; i < MANY; i++)
        add_row(csv, sizeof csv, i);
    assert_int_equal(import(k, csv, false, &report), MF_OK);
    assert_int_equal(report.readings, MANY);

    void *fresh = NULL;
    other = *k; /* a kit has one place for a book: keep the first aside */
    assert_int_equal(kit_with_stops(&fresh), 0);
    kit *second = fresh;
    for (int i = 0; i < MANY; i++)
        log_row(second, i);
    snprintf(skipped, sizeof skipped, "%d", (int)report.calibrations);
    kit_log(second, "intake", "J-1", "sha256", report.sha256, "file", "xrf.csv", "readings", "300",
            "calibrations", skipped, "skipped", "0");
    assert_int_equal(mf_book_head(other.book, head, NULL), MF_OK);
    assert_int_equal(mf_book_head(second->book, by_hand, NULL), MF_OK);
    assert_string_equal(head, by_hand);

    mf_book_report checked;
    assert_int_equal(mf_book_check(other.book, &checked, &k->err), MF_OK);
    assert_int_equal(checked.faults, 0);
    kit_stop(second);
    *k = other;
}

/* A number twice in one file is refused with both lines, near and far. */
static void twice(void **state)
{
    static char csv[64 * 1024];
    static const int again_at[] = {1, 5, 200};
    kit *k = *state;
    mf_import_report report;
    for (size_t t = 0; t < 3; t++) {
        char want[80];
        snprintf(csv, sizeof csv, "%s", HEAD);
        for (int i = 0; i < MANY; i++)
            add_row(csv, sizeof csv, i == 250 ? 250 - again_at[t] : i);
        assert_int_equal(import(k, csv, false, &report), MF_INPUT);
        assert_non_null(strstr(k->err.where, "xrf.csv:252"));
        snprintf(want, sizeof want, "is on line %d as well", 252 - again_at[t]);
        assert_non_null(strstr(k->err.what, want));
    }
}

static int triggers_of(const kit *k)
{
    int on = -1;
    sqlite3_db_config(k->book->db.handle, SQLITE_DBCONFIG_ENABLE_TRIGGER, -1, &on);
    return on;
}

/* Code in the file does not run on our connection: neither while many rows are
 * written nor after it, however it ended. */
static void no_triggers(void **state)
{
    kit *k = *state;
    mf_import_report report;
    assert_int_equal(triggers_of(k), 0);
    assert_int_equal(import(k, good, true, &report), MF_OK);
    assert_int_equal(triggers_of(k), 0);
    assert_int_equal(import(k, HEAD ROW2 "x" ROW2, false, &report), MF_INPUT);
    assert_int_equal(triggers_of(k), 0);
    assert_int_equal(import(k, good, false, &report), MF_OK);
    assert_int_equal(triggers_of(k), 0);
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, kit_with_stops, kit_done)

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(again),
        TEST(numbers_that_were_corrected),
        TEST(in_small_parts),
        TEST(color_is_colour),
        TEST(all_faults_are_told),
        TEST(a_map_is_kept),
        TEST(the_same_map_with_every_file),
        TEST(purposes),
        TEST(as_one_by_one),
        TEST(twice),
        TEST(no_triggers),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
