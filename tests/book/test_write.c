/* What the book accepts as an entry and what it refuses; corrections. All data
 * are constructed; the rules are those of book.h and kind.h. */
#include "book_kit.h"

#define REFUSED(k, place, words, ...)                                                              \
    do {                                                                                           \
        int64_t before = kit_count(k);                                                             \
        assert_int_equal(kit_try(k, __VA_ARGS__, NULL), MF_INPUT);                                 \
        assert_string_equal((k)->err.where, place);                                                \
        assert_string_equal((k)->err.what, words);                                                 \
        assert_true((k)->err.mend[0] != '\0');                                                     \
        assert_int_equal(kit_count(k), before);                                                    \
    } while (0)

/* ---- fields ----------------------------------------------------------------------------- */

typedef struct slip {
    const char *kind, *field, *text, *what, *mend;
} slip;

static const slip slips[] = {
    {"reading", "on", "2026-02-30", "\"2026-02-30\" does not exist in the calendar",
     "write 2026-02-28 or 2026-03-01"},
    {"reading", "on", "2024-02-30", "\"2024-02-30\" does not exist in the calendar",
     "write 2024-02-29 or 2024-03-01"},
    {"reading", "on", "2026-09-16", "\"2026-09-16\" lies in the future",
     "check the date, and the clock of this computer"},
    {"reading", "on", "9/14/2026", "\"9/14/2026\" is not a date", "write it like 2026-09-14"},
    {"reading", "time", "24:00", "\"24:00\" is not a time of day", "write it like 08:30"},
    {"reading", "result", "1,0", "\"1,0\" has a decimal comma",
     "write a point in place of the comma"},
    {"reading", "result", "abc", "\"abc\" is not a number",
     "write digits, with a point before decimals"},
    {"reading", "number", "-1", "\"-1\" is out of range", "write a number from 0 to 1000000000"},
    {"instrument", "film", "-0.5", "\"-0.5\" is out of range", "write a number from 0 to 100"},
    {"area", "length", "0", "\"0\" is out of range", "write a number from 0.01 to 1000000"},
    {"reading", "substrate", "stone", "\"stone\" is not one of the words known here",
     "write one of: brick, concrete, drywall, metal, plaster, wood"},
    {"component", "id", "W01 sash", "\"W01 sash\" is not an id",
     "write it like W01.sash, without spaces"},
    {"component", "painted", "maybe", "\"maybe\" is neither yes nor no", "write yes or no"},
    {"house", "address", "12\tInvented",
     "\"12?Invented\" has a line break or a control character in it", "write it in one line"},
    {"house", "address",
     "Calle Pe\xF1"
     "a",
     "\"Calle Pe?a\" is not UTF-8 text", "save or export the text as UTF-8"},
    {"house", "address", "12 \xE2\x80\xAEteertS",
     "\"12 ?teertS\" has a line break or a control character in it", "write it in one line"},
    {"house", "address", "   ", "it is empty", "give it"},
};

static void check_slip(void **state)
{
    const slip *s = *state;
    mf_draft *draft = NULL;
    mf_err err = {0};
    assert_int_equal(mf_draft_new(&draft, mf_kind_named(s->kind), NULL), MF_OK);
    assert_int_equal(mf_draft_set(draft, s->field, s->text, "", "here", kit_time().today, &err),
                     MF_INPUT);
    assert_string_equal(err.where, "here");
    assert_string_equal(err.what, s->what);
    assert_string_equal(err.mend, s->mend);
    assert_int_equal(mf_draft_set(draft, s->field, s->text, "", "", kit_time().today, &err),
                     MF_INPUT);
    assert_int_equal(strncmp(err.where, "--", 2), 0);
    assert_string_equal(err.where + 2, s->field);
    mf_draft_free(draft);
}

static void no_such_field(void **state)
{
    kit *k = *state;
    mf_draft *draft = kit_draft(k, "person", NULL);
    mf_err err = {0};
    assert_int_equal(mf_draft_set(draft, "height", "x", "", "--height", 0, &err), MF_USAGE);
    assert_string_equal(err.what, "an entry of kind person has no field height");
    assert_string_equal(err.mend, "its fields are id, name");
    mf_draft_free(draft);
    assert_int_equal(mf_draft_new(&draft, NULL, &err), MF_USAGE);
}

static bool keep_body(const mf_entry *entry, void *data)
{
    snprintf(data, 1000, "%s", entry->body);
    return true;
}

static void body_is(kit *k, const char *id, const char *want)
{
    char body[1000] = "";
    assert_int_equal(mf_book_entry(k->book, id, keep_body, body, NULL), MF_OK);
    assert_string_equal(body, want);
}

/* The body is the RFC 8785 form: keys sorted, units as kind.h says. */
static void body_is_canonical(void **state)
{
    kit *k = *state;
    kit_reading(k, "17", ">9.9");
    body_is(k, k->id,
            "{\"component\":\"W01.sash\",\"day\":\"2026-09-14\",\"instrument\":\"X-100\","
            "\"loading_ug_cm2\":9900,\"number\":17,\"operator\":\"rosa\",\"purpose\":\"paint\","
            "\"qualifier\":\"over\",\"substrate\":\"wood\",\"time\":\"08:30\"}");
    kit_log(k, "area", "J-1", "id", "A1", "side", "interior", "place", "  kitchen ", "openings",
            " W01 ", "length", "12.5", "width", "9", "ducts", "no");
    body_is(k, k->id,
            "{\"ducts\":false,\"id\":\"A1\",\"length_ft_100\":1250,\"openings\":\"W01\","
            "\"place\":\"kitchen\",\"side\":\"interior\",\"width_ft_100\":900}");
}

static void text_is_kept_as_typed(void **state)
{
    kit *k = *state;
    kit_log(k, "person", "", "id", "jose", "name", "Jos\xC3\xA9 \"el \\ Pintor\" Inventado");
    body_is(k, k->id,
            "{\"id\":\"jose\",\"name\":\"Jos\xC3\xA9 \\\"el \\\\ Pintor\\\" Inventado\"}");
}

/* ---- the entry as a whole ------------------------------------------------------------------- */

static void needed(void **state)
{
    kit *k = *state;
    REFUSED(k, "--name", "it is needed and was not given", "person", "", "id", "bob");
    REFUSED(k, "--result", "it is needed and was not given", "reading", "J-1", "number", "1",
            "instrument", "X-100", "operator", "rosa", "purpose", "paint", "component", "W01.sash",
            "substrate", "wood", "on", "2026-09-14");
}

/* A paint reading belongs to a component, a calibration reading to none. */
static void reading_needs_its_component(void **state)
{
    kit *k = *state;
    REFUSED(k, "--component", "it is needed and was not given", "reading", "J-1", "number", "1",
            "instrument", "X-100", "operator", "rosa", "purpose", "paint", "substrate", "wood",
            "on", "2026-09-14", "result", "1.0");
    kit_log(k, "reading", "J-1", "number", "1", "instrument", "X-100", "operator", "rosa",
            "purpose", "calibration", "substrate", "wood", "on", "2026-09-14", "result", "1.0");
}

static void ids_are_unique(void **state)
{
    kit *k = *state;
    REFUSED(k, "--id", "the id rosa is taken by entry office/1 (person)", "person", "", "id",
            "rosa", "name", "Another Invented");
    REFUSED(k, "--id", "the id W01 is taken by entry office/5 (opening)", "opening", "J-1", "id",
            "W01", "kind", "door", "room", "hall", "elevation", "south");
    /* In another job the same id is another opening. */
    kit_log(k, "house", "J-2", "id", "J-2", "address", "14 Invented Street", "building", "dwelling",
            "owner-occupied", "no", "work", "repair", "description", "x", "start", "2026-10-01");
    kit_log(k, "opening", "J-2", "id", "W01", "kind", "door", "room", "hall", "elevation", "south");
}

static void references_exist(void **state)
{
    kit *k = *state;
    REFUSED(k, "--operator", "there is no person bob in the book", "reading", "J-1", "number", "1",
            "instrument", "X-100", "operator", "bob", "purpose", "paint", "component", "W01.sash",
            "substrate", "wood", "on", "2026-09-14", "result", "1.0");
    assert_string_equal(k->err.mend, "there are: ana, rosa");
    REFUSED(k, "--component", "there is no component W01.sach in this job", "reading", "J-1",
            "number", "1", "instrument", "X-100", "operator", "rosa", "purpose", "paint",
            "component", "W01.sach", "substrate", "wood", "on", "2026-09-14", "result", "1.0");
    assert_string_equal(k->err.mend, "did you mean W01.sash? There are: W01.sash, W01.sash-out, "
                                     "W01.sill, wall-n");
}

static void each_of_many_references_exists(void **state)
{
    kit *k = *state;
    kit_log(k, "opening", "J-1", "id", "W02", "kind", "window", "room", "hall", "elevation",
            "north");
    kit_log(k, "area", "J-1", "id", "A1", "side", "interior", "place", "hall", "length", "9",
            "width", "9", "openings", "W01, W02");
    REFUSED(k, "--openings", "there is no opening W09 in this job", "area", "J-1", "id", "A2",
            "side", "interior", "place", "hall", "length", "9", "width", "9", "openings",
            "W01,W09");
}

static void references_do_not_cross_jobs(void **state)
{
    kit *k = *state;
    kit_log(k, "house", "J-2", "id", "J-2", "address", "14 Invented Street", "building", "dwelling",
            "owner-occupied", "no", "work", "repair", "description", "x", "start", "2026-10-01");
    REFUSED(k, "--opening", "there is no opening W01 in this job", "component", "J-2", "id", "c",
            "opening", "W01", "type", "sash", "side", "interior", "substrate", "wood");
    assert_string_equal(k->err.mend, "log the opening first");
}

static void the_firm_holds_certificates(void **state)
{
    kit *k = *state;
    kit_log(k, "certificate", "", "holder", "firm", "discipline", "firm", "number", "NAT-0",
            "issuer", "EPA", "issued", "2025-01-02", "expires", "2030-01-02");
    REFUSED(k, "--holder", "there is no person firma in the book", "certificate", "", "holder",
            "firma", "discipline", "firm", "number", "NAT-0", "issuer", "EPA", "issued",
            "2025-01-02", "expires", "2030-01-02");
}

static void once(void **state)
{
    kit *k = *state;
    kit_log(k, "completion", "J-1", "on", "2026-09-10");
    REFUSED(k, "", "the end of the renovation is logged already: entry office/10", "completion",
            "J-1", "on", "2026-09-11");
}

static void jobs(void **state)
{
    kit *k = *state;
    REFUSED(k, "", "there is no job J-9", "opening", "J-9", "id", "W01", "kind", "door", "room",
            "hall", "elevation", "south");
    assert_int_equal(kit_try(k, "opening", "", "id", "W02", NULL), MF_USAGE);
    assert_int_equal(kit_try(k, "person", "J-1", "id", "bob", "name", "B", NULL), MF_USAGE);
    assert_int_equal(kit_try(k, "house", "J-8", "id", "J-7", NULL), MF_USAGE);
}

static void who_and_when(void **state)
{
    kit *k = *state;
    static const struct {
        const char *at, *who;
        mf_status status;
    } rows[] = {
        {"2026-09-15T14:00:00Z", "", MF_INPUT},
        {"2026-09-15T14:00:00Z", NULL, MF_INPUT},
        {"2026-09-15T14:00:00Z", "a\nb", MF_INPUT},
        {"2026-09-15 14:00:00Z", "rosa", MF_USAGE},
        {"2026-09-15T14:00:00", "rosa", MF_USAGE},
        {"2026-02-30T14:00:00Z", "rosa", MF_USAGE},
        {"2026-09-15T24:00:00Z", "rosa", MF_USAGE},
        {"2026-09-15T14:00:61Z", "rosa", MF_USAGE},
        {NULL, "rosa", MF_USAGE},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        k->now.at = rows[i].at;
        k->now.who = rows[i].who;
        assert_int_equal(kit_try(k, "person", "", "id", "bob", "name", "Bob", NULL),
                         rows[i].status);
    }
    assert_int_equal(kit_count(k), 9);
}

/* ---- groups ------------------------------------------------------------------------------------
 */

static void group_is_whole_or_nothing(void **state)
{
    kit *k = *state;
    assert_int_equal(mf_book_begin(k->book, NULL), MF_OK);
    assert_int_equal(mf_book_begin(k->book, NULL), MF_USAGE);
    kit_reading(k, "1", "1.0");
    assert_int_equal(kit_try(k, "person", "", "id", "bob", NULL), MF_INPUT);
    kit_reading(k, "2", "1.0");
    mf_book_rollback(k->book);
    assert_int_equal(kit_count(k), 9);
    assert_int_equal(mf_book_begin(k->book, NULL), MF_OK);
    kit_reading(k, "1", "1.0");
    assert_int_equal(kit_try(k, "person", "", "id", "bob", NULL), MF_INPUT);
    kit_reading(k, "2", "1.0");
    assert_int_equal(mf_book_commit(k->book, NULL), MF_OK);
    assert_int_equal(kit_count(k), 11);
    assert_int_equal(mf_book_commit(k->book, NULL), MF_USAGE);
    mf_book_rollback(k->book); /* of nothing: harmless */
}

/* ---- corrections
 * --------------------------------------------------------------------------------- */

static mf_status correct(kit *k, const char *target, const char *reason, ...)
{
    va_list args;
    va_start(args, reason);
    const char *kind = va_arg(args, const char *);
    mf_draft *draft = kind == NULL ? NULL : kit_draft_list(k, kind, args);
    va_end(args);
    k->err = (mf_err){0};
    mf_status status = mf_book_correct(k->book, target, draft, reason, &k->now, k->id, &k->err);
    mf_draft_free(draft);
    return status;
}

static mf_job *job_of(kit *k)
{
    mf_job *job = NULL;
    assert_int_equal(mf_book_job(k->book, "J-1", &job, &k->err), MF_OK);
    return job;
}

static void correction_replaces_only_what_it_says(void **state)
{
    kit *k = *state;
    kit_reading(k, "1", ">9.9");
    k->now.at = "2026-09-15T15:00:00Z";
    k->now.who = "ana";
    assert_int_equal(
        correct(k, "office/10", "misread the display", "reading", "result", "0.9", NULL), MF_OK);
    assert_string_equal(k->id, "office/11");
    mf_job *job = job_of(k);
    assert_int_equal(job->n_reading, 1);
    const mf_reading *r = &job->reading[0];
    assert_int_equal(r->loading_ug_cm2, 900);
    assert_int_equal(r->qualifier, MF_QUAL_EXACT);
    assert_int_equal(r->number, 1);
    assert_string_equal(r->component, "W01.sash");
    assert_string_equal(r->src.entry, "office/10");
    assert_string_equal(r->src.at, "2026-09-15T14:00:00Z");
    assert_string_equal(r->src.by, "rosa");
    assert_string_equal(r->src.correction, "office/11");
    assert_int_equal(job->n_correction, 1);
    const mf_correction *c = &job->correction[0];
    assert_string_equal(c->src.entry, "office/11");
    assert_string_equal(c->src.by, "ana");
    assert_string_equal(c->target, "office/10");
    assert_string_equal(c->replaces, "office/10");
    assert_string_equal(c->kind, "reading");
    assert_string_equal(c->reason, "misread the display");
    assert_non_null(strstr(c->before, "\"loading_ug_cm2\":9900"));
    assert_non_null(strstr(c->after, "\"loading_ug_cm2\":900"));
    const mf_reading *was = c->was, *now = c->now;
    assert_int_equal(was->loading_ug_cm2, 9900);
    assert_int_equal(was->qualifier, MF_QUAL_OVER);
    assert_int_equal(now->loading_ug_cm2, 900);
    assert_string_equal(now->component, "W01.sash");
    mf_book_job_free(job);
}

/* The second one names the first as what it replaces, and wins, even when the
 * clock of the computer went back in between. */
static void correction_of_a_correction(void **state)
{
    kit *k = *state;
    kit_reading(k, "1", "1.5");
    assert_int_equal(correct(k, "office/10", "one", "reading", "result", "0.9", NULL), MF_OK);
    k->now.at = "2026-09-15T13:00:00Z";
    assert_int_equal(correct(k, "office/10", "two", "reading", "color", "white", NULL), MF_OK);
    mf_job *job = job_of(k);
    assert_int_equal(job->reading[0].loading_ug_cm2, 900);
    assert_string_equal(job->reading[0].colour, "white");
    assert_string_equal(job->reading[0].src.correction, "office/12");
    assert_int_equal(job->n_correction, 2);
    mf_book_job_free(job);
    body_is(k, "office/12",
            "{\"body\":{\"colour\":\"white\",\"component\":\"W01.sash\",\"day\":\"2026-09-14\","
            "\"instrument\":\"X-100\",\"loading_ug_cm2\":900,\"number\":1,\"operator\":\"rosa\","
            "\"purpose\":\"paint\",\"qualifier\":\"exact\",\"substrate\":\"wood\",\"time\":"
            "\"08:30\"},\"kind\":\"reading\",\"reason\":\"two\",\"replaces\":\"office/11\","
            "\"target\":\"office/10\"}");
    assert_int_equal(correct(k, "office/11", "three", "reading", "color", "red", NULL), MF_INPUT);
    assert_string_equal(k->err.what, "it is itself a correction");
}

static void field_can_be_cleared(void **state)
{
    kit *k = *state;
    kit_reading(k, "1", "1.5");
    assert_int_equal(correct(k, "office/10", "no clock", "reading", "time", "", NULL), MF_OK);
    mf_job *job = job_of(k);
    assert_int_equal(job->reading[0].at_minute, MF_MINUTE_NONE);
    mf_book_job_free(job);
}

static void withdrawal(void **state)
{
    kit *k = *state;
    kit_reading(k, "1", "1.5");
    kit_reading(k, "2", "1.6");
    assert_int_equal(correct(k, "office/10", "wrong house", NULL), MF_OK);
    mf_job *job = job_of(k);
    assert_int_equal(job->n_reading, 1);
    assert_int_equal(job->reading[0].number, 2);
    assert_string_equal(job->correction[0].after, "");
    mf_book_job_free(job);
    assert_int_equal(correct(k, "office/10", "again", "reading", "result", "0.1", NULL), MF_INPUT);
    assert_string_equal(k->err.what, "it was withdrawn");
    kit_reading(k, "1", "1.5"); /* its number is free again */
}

static void correction_is_checked(void **state)
{
    kit *k = *state;
    kit_reading(k, "1", "1.5");
    assert_int_equal(correct(k, "office/10", "x", "reading", "operator", "bob", NULL), MF_INPUT);
    assert_string_equal(k->err.where, "entry office/10, --operator");
    assert_string_equal(k->err.what, "there is no person bob in the book");
    assert_int_equal(correct(k, "office/1", "x", "person", "id", "ana", NULL), MF_INPUT);
    assert_int_equal(correct(k, "office/99", "x", "person", "id", "ana", NULL), MF_INPUT);
    assert_string_equal(k->err.what, "there is no such entry");
    assert_int_equal(correct(k, "nonsense", "x", NULL), MF_INPUT);
    assert_int_equal(correct(k, "office/10", "x", "person", "name", "Z", NULL), MF_USAGE);
    assert_int_equal(correct(k, "office/10", "  ", "reading", "result", "1", NULL), MF_INPUT);
    assert_string_equal(k->err.what, "the reason is missing");
    assert_int_equal(correct(k, "office/10", "a\nb", "reading", "result", "1", NULL), MF_INPUT);
    assert_int_equal(correct(k, "office/10", "x", "reading", "result", "1.5", NULL), MF_INPUT);
    assert_string_equal(k->err.what, "the correction changes nothing");
    assert_int_equal(kit_count(k), 10);
}

/* What others name keeps its id and cannot be withdrawn. */
static void named_things_stay(void **state)
{
    kit *k = *state;
    kit_reading(k, "1", "1.5");
    assert_int_equal(correct(k, "office/6", "x", NULL), MF_INPUT);
    assert_string_equal(k->err.what, "entry office/10 (reading) names it");
    assert_int_equal(correct(k, "office/6", "x", "component", "id", "W1.sash", NULL), MF_INPUT);
    assert_int_equal(correct(k, "office/6", "x", "component", "label", "lower", NULL), MF_OK);
    assert_int_equal(correct(k, "office/2", "left the firm", NULL), MF_OK); /* nobody names ana */
    assert_int_equal(correct(k, "office/1", "x", NULL), MF_INPUT);
    assert_int_equal(correct(k, "office/4", "x", NULL), MF_INPUT); /* the job has entries */
    assert_int_equal(correct(k, "office/4", "x", "house", "id", "J-3", NULL), MF_INPUT);
    assert_string_equal(k->err.what, "the id of a job cannot be changed");
    assert_int_equal(correct(k, "office/4", "x", "house", "year-built", "1925", NULL), MF_OK);
    assert_int_equal(correct(k, "office/7", "no such sill", NULL), MF_OK);
}

/* An id in a list of ids counts as named; a part of an id does not. */
static void named_in_a_list(void **state)
{
    kit *k = *state;
    kit_log(k, "opening", "J-1", "id", "W0", "kind", "window", "room", "hall", "elevation", "n");
    kit_log(k, "opening", "J-1", "id", "W02", "kind", "window", "room", "hall", "elevation", "n");
    kit_log(k, "area", "J-1", "id", "A1", "side", "interior", "place", "hall", "length", "9",
            "width", "9", "openings", "W01,W02");
    assert_int_equal(correct(k, "office/11", "x", NULL), MF_INPUT);
    assert_int_equal(correct(k, "office/10", "x", NULL), MF_OK);
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, kit_with_house, kit_done)
#define N_SLIPS    (sizeof slips / sizeof slips[0])

int main(void)
{
    const struct CMUnitTest others[] = {
        TEST(no_such_field),
        TEST(body_is_canonical),
        TEST(text_is_kept_as_typed),
        TEST(needed),
        TEST(reading_needs_its_component),
        TEST(ids_are_unique),
        TEST(references_exist),
        TEST(each_of_many_references_exists),
        TEST(references_do_not_cross_jobs),
        TEST(the_firm_holds_certificates),
        TEST(once),
        TEST(jobs),
        TEST(who_and_when),
        TEST(group_is_whole_or_nothing),
        TEST(correction_replaces_only_what_it_says),
        TEST(correction_of_a_correction),
        TEST(field_can_be_cleared),
        TEST(withdrawal),
        TEST(correction_is_checked),
        TEST(named_things_stay),
        TEST(named_in_a_list),
    };
    struct CMUnitTest rows[N_SLIPS];
    memset(rows, 0, sizeof rows);
    for (size_t i = 0; i < N_SLIPS; i++) {
        rows[i].name = slips[i].what;
        rows[i].test_func = check_slip;
        rows[i].initial_state = (void *)(uintptr_t)&slips[i];
    }
    int failed = cmocka_run_group_tests_name("slips", rows, NULL, NULL);
    return failed + cmocka_run_group_tests_name("entries", others, NULL, NULL);
}
