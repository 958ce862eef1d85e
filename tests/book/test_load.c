/* Every field of every kind goes from typed text into the member of its struct,
 * by the table of kind.h; and absent ones read as "not given". */
#include "record_kit.h"

static int start(void **state)
{
    static kit k;
    kit_start(&k);
    kit_house(&k);
    kit_log(&k, "party", "J-1", "id", "owner", "role", "owner", "name", "Olga Invented");
    kit_log(&k, "area", "J-1", "id", "A1", "side", "interior", "place", "kitchen", "length", "12",
            "width", "9");
    kit_log(&k, "surface", "J-1", "id", "S1", "area", "A1", "kind", "sill", "place", "kitchen",
            "size", "2");
    *state = &k;
    return 0;
}

/* ---- generic: what is typed, and what the member must then be ---------------------------- */

/* An id of that kind that kit_house and start have logged. */
static const char *known_id(const char *kind)
{
    static const char *const ids[][2] = {
        {"person", "rosa"}, {"instrument", "X-100"}, {"opening", "W01"}, {"component", "W01.sash"},
        {"party", "owner"}, {"area", "A1"},          {"surface", "S1"},
    };
    for (size_t i = 0; i < sizeof ids / sizeof ids[0]; i++)
        if (strcmp(ids[i][0], kind) == 0)
            return ids[i][1];
    fail_msg("no id of kind %s", kind);
    return "";
}

/* Fields that take no text of their type: years, and the number of a local limit,
 * which must be at least as strict as 1.0 mg/cm2 of 40 CFR 745.82(a). */
static const char *special(const mf_field *field)
{
    static const char *const texts[][2] = {{"year_built", "1926"},
                                           {"built_before", "1926"},
                                           {"value", "0.4"},
                                           {"comparison", "at-least"}};
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++)
        if (strcmp(texts[i][0], field->name) == 0)
            return texts[i][1];
    return NULL;
}

/* Text by type, table of kind.h "typed by a person". Each is in the range of
 * every field of its type but the year. */
static const char *typed(const mf_field *field, char room[80])
{
    if (field->ref != NULL)
        return known_id(field->ref);
    if (special(field) != NULL)
        return special(field);
    if ((field->flags & MF_F_PLACE) != 0)
        return "US-IA";
    switch (field->type) {
    case MF_F_TEXT:
        snprintf(room, 80, "text of %.60s", field->name);
        return room;
    case MF_F_ID:
    case MF_F_IDS:
        snprintf(room, 80, "id-%.30s", field->name);
        return field->choices == NULL ? room : field->choices[1];
    case MF_F_DATE:
        return "2024-02-29";
    case MF_F_TIME:
        return "08:30";
    case MF_F_INT:
        return "17";
    case MF_F_HUNDREDTHS:
        return "6.25";
    case MF_F_INCHES:
        return "11 5/8";
    case MF_F_LOADING:
        return (field->flags & MF_F_QUALIFIED) != 0 ? ">0.4" : "0.4";
    case MF_F_DUST:
        return "<4.9";
    case MF_F_PPM:
        return "0.5%";
    case MF_F_CHOICE:
        return field->choices[1];
    case MF_F_YESNO:
        return "yes";
    }
    return "";
}

static void check_text(const unsigned char *member, const char *want)
{
    const char *text;
    memcpy(&text, member, sizeof text);
    assert_string_equal(text, want);
}

static void check_number(const unsigned char *member, int64_t want)
{
    int64_t number;
    memcpy(&number, member, sizeof number);
    assert_true(number == want);
}

static void check_int(const unsigned char *member, int want)
{
    int number;
    memcpy(&number, member, sizeof number);
    assert_int_equal(number, want);
}

/* The member for the text of typed(): units of kind.h. 2024-02-29 is day 19782:
 * date(1) -u -d 2024-02-29 +%s / 86400. */
static void check_member(const unsigned char *item, const mf_field *field)
{
    char room[80];
    const unsigned char *member = item + field->offset;
    switch (field->type) {
    case MF_F_TEXT:
    case MF_F_ID:
    case MF_F_IDS:
        check_text(member, typed(field, room));
        break;
    case MF_F_DATE:
        check_int(member, 19782);
        break;
    case MF_F_TIME:
        check_int(member, 510);
        break;
    case MF_F_INT:
        check_number(member, special(field) != NULL ? 1926 : 17);
        break;
    case MF_F_HUNDREDTHS:
        check_number(member, 625);
        break;
    case MF_F_INCHES:
        check_number(member, 18600); /* 11.625 x 1600 */
        break;
    case MF_F_LOADING:
        check_number(member, 400);
        break;
    case MF_F_DUST:
        check_number(member, 4900);
        break;
    case MF_F_PPM:
        check_number(member, 5000);
        break;
    case MF_F_CHOICE:
        check_int(member, special(field) != NULL ? MF_AT_LEAST : 1);
        break;
    case MF_F_YESNO:
        check_int(member, MF_YES);
        break;
    }
}

/* Absent: job.h, first comment. */
static void check_absent(const unsigned char *item, const mf_field *field)
{
    const unsigned char *member = item + field->offset;
    switch (field->type) {
    case MF_F_TEXT:
    case MF_F_ID:
    case MF_F_IDS:
        check_text(member, "");
        break;
    case MF_F_DATE:
        check_int(member, MF_DAY_NONE);
        break;
    case MF_F_TIME:
        check_int(member, MF_MINUTE_NONE);
        break;
    case MF_F_INT:
    case MF_F_HUNDREDTHS:
    case MF_F_INCHES:
    case MF_F_LOADING:
    case MF_F_DUST:
    case MF_F_PPM:
        check_number(member, MF_NUM_NONE);
        break;
    case MF_F_CHOICE:
        check_int(member, 0);
        break;
    case MF_F_YESNO:
        check_int(member, MF_UNKNOWN);
        break;
    }
}

/* Whether a field is set by another: the qualifier by the number. */
static bool is_qualifier(const mf_field *field)
{
    return strcmp(field->name, "qualifier") == 0;
}

/* A house is logged by the kit; an attachment names bytes (test_attach.c), a seal and a witness a
 * head that the book had (tests/forged). */
static bool logged_here(const mf_kind *kind)
{
    return strcmp(kind->name, "house") != 0 && strcmp(kind->name, "attachment") != 0 &&
           strcmp(kind->name, "sealed") != 0 && strcmp(kind->name, "witness") != 0;
}

static const char *job_for(const mf_kind *kind)
{
    if (kind->of_firm)
        return "";
    return strcmp(kind->name, "house") == 0 ? "id-id" : "J-1";
}

/* Logs one entry of the kind, all fields or only the needed ones. */
static void log_kind(kit *k, const mf_kind *kind, bool all)
{
    char room[80];
    mf_draft *draft = NULL;
    assert_int_equal(mf_draft_new(&draft, kind, NULL), MF_OK);
    for (size_t i = 0; i < kind->n_fields; i++) {
        const mf_field *field = &kind->fields[i];
        bool needed = (field->flags & MF_F_NEEDED) != 0;
        if (is_qualifier(field) || !mf_field_is_typed(field) || (!all && !needed))
            continue;
        mf_status status =
            mf_draft_set(draft, field->option, typed(field, room), "", "", k->now.today, &k->err);
        if (status != MF_OK)
            print_error("%s %s: %s\n", kind->name, field->name, k->err.what);
        assert_int_equal(status, MF_OK);
    }
    mf_status status = mf_book_write(k->book, draft, job_for(kind), &k->now, "", k->id, &k->err);
    if (status != MF_OK)
        print_error("%s: %s\n", kind->name, k->err.what);
    assert_int_equal(status, MF_OK);
    mf_draft_free(draft);
}

/* The last element of the kind's list. */
static const unsigned char *last_of(const mf_job *job, const mf_kind *kind)
{
    const unsigned char *list, *at = (const unsigned char *)job + kind->list_offset;
    size_t count;
    memcpy(&list, at, sizeof list);
    memcpy(&count, at + sizeof list, sizeof count);
    assert_true(count > 0);
    return list + (count - 1) * kind->size;
}

static void check_src(const kit *k, const unsigned char *item)
{
    mf_src src;
    memcpy(&src, item, sizeof src);
    assert_string_equal(src.entry, k->id);
    assert_string_equal(src.at, "2026-09-15T14:00:00Z");
    assert_string_equal(src.by, "rosa");
    assert_string_equal(src.correction, "");
}

static void check_kind(kit *k, const mf_kind *kind, bool all)
{
    mf_job *job = NULL;
    log_kind(k, kind, all);
    assert_int_equal(mf_book_job(k->book, job_for(kind), &job, &k->err), MF_OK);
    assert_int_equal(job->integrity, MF_INTEGRITY_UNCHECKED);
    const unsigned char *item = last_of(job, kind);
    check_src(k, item);
    for (size_t i = 0; i < kind->n_fields; i++) {
        const mf_field *field = &kind->fields[i];
        if (is_qualifier(field))
            check_int(item + field->offset, strcmp(kind->name, "dust_sample") != 0 ? MF_QUAL_OVER
                                            : all                                  ? MF_QUAL_UNDER
                                                                                   : MF_QUAL_EXACT);
        else if (!mf_field_is_typed(field))
            continue; /* written by the book: test_certified.c */
        else if (all || (field->flags & MF_F_NEEDED) != 0)
            check_member(item, field);
        else
            check_absent(item, field);
    }
    mf_book_job_free(job);
    mf_record *record = kit_record(k, *job_for(kind) == '\0' ? "J-1" : job_for(kind), false);
    kit_differs(k, record, MF_HEAD_STANDS, ""); /* what a record says is what the journal does */
    mf_record_free(record);
}

static void all_fields(void **state)
{
    void *fresh = NULL;
    start(&fresh);
    check_kind(fresh, *state, true);
    kit_done(&fresh);
}

static void needed_fields(void **state)
{
    void *fresh = NULL;
    start(&fresh);
    check_kind(fresh, *state, false);
    kit_done(&fresh);
}

/* A refilled table gives the same value. */
static void all_fields_after_rebuild(void **state)
{
    kit *k = *state;
    size_t count = 0;
    const mf_kind *kinds = mf_kinds(&count);
    mf_job *job = NULL;
    mf_book_report report;
    for (size_t i = 0; i < count; i++)
        if (logged_here(&kinds[i]))
            log_kind(k, &kinds[i], true);
    assert_int_equal(mf_book_rebuild(k->book, &k->err), MF_OK);
    assert_int_equal(mf_book_check(k->book, &report, &k->err), MF_OK);
    assert_int_equal(mf_book_job(k->book, "J-1", &job, NULL), MF_OK);
    for (size_t i = 0; i < count; i++)
        for (size_t j = 0; j < kinds[i].n_fields; j++)
            if (logged_here(&kinds[i]) && !is_qualifier(&kinds[i].fields[j]) &&
                mf_field_is_typed(&kinds[i].fields[j]))
                check_member(last_of(job, &kinds[i]), &kinds[i].fields[j]);
    mf_book_job_free(job);
}

/* ---- jobs -------------------------------------------------------------------------------------
 */

static void no_such_job(void **state)
{
    kit *k = *state;
    mf_job *job = NULL;
    mf_err err = {0};
    assert_int_equal(mf_book_job(k->book, "J-9", &job, &err), MF_INPUT);
    assert_string_equal(err.what, "there is no job J-9");
    assert_null(job);
    assert_int_equal(mf_book_job(k->book, "' OR 1=1 --", &job, &err), MF_INPUT);
}

static void firm_alone(void **state)
{
    kit *k = *state;
    mf_job *job = NULL;
    assert_int_equal(mf_book_job(k->book, "", &job, NULL), MF_OK);
    assert_int_equal(job->n_person, 2);
    assert_int_equal(job->n_instrument, 1);
    assert_int_equal(job->n_house, 0);
    assert_int_equal(job->n_component, 0);
    assert_string_equal(job->id, "");
    mf_book_job_free(job);
    mf_book_job_free(NULL);
}

/* In the order the entries were made, "office/9" before "office/10". */
static void order_made(void **state)
{
    kit *k = *state;
    mf_job *job = NULL;
    for (int i = 1; i <= 12; i++) {
        char number[8];
        snprintf(number, sizeof number, "%d", 100 - i);
        kit_reading(k, number, "0.1");
    }
    assert_int_equal(mf_book_job(k->book, "J-1", &job, NULL), MF_OK);
    assert_int_equal(job->n_reading, 12);
    for (int i = 1; i <= 12; i++)
        assert_int_equal(job->reading[i - 1].number, 100 - i);
    assert_int_equal(job->n_component, 4);
    assert_string_equal(job->component[0].id, "W01.sash");
    assert_string_equal(job->component[3].id, "wall-n");
    mf_book_job_free(job);
}

/* Also when what was made later came into the book first, as from another tablet. */
static void order_made_earlier(void **state)
{
    kit *k = *state;
    mf_job *job = NULL;
    static const char *const at[] = {"2026-09-15T14:00:02Z", "2026-09-15T14:00:00Z",
                                     "2026-09-15T14:00:01Z"};
    for (int i = 0; i < 3; i++) {
        k->now.at = at[i];
        kit_reading(k, i == 0 ? "30" : i == 1 ? "10" : "20", "0.1");
    }
    assert_int_equal(mf_book_job(k->book, "J-1", &job, NULL), MF_OK);
    for (size_t i = 0; i < 3; i++)
        assert_int_equal(job->reading[i].number, 10 * (i + 1));
    mf_book_job_free(job);
}

static bool collect_job(const char *job, const char *address, mf_day day, void *data)
{
    char *out = data;
    size_t used = strlen(out);
    snprintf(out + used, 200 - used, "%s|%s|%d/", job, address, day);
    return strcmp(job, "J-0") != 0;
}

static void list_of_jobs(void **state)
{
    kit *k = *state;
    char out[200] = "";
    assert_int_equal(mf_book_jobs(k->book, collect_job, out, NULL), MF_OK);
    assert_string_equal(out, "J-1|12 Invented Street|20717/"); /* date -u -d 2026-09-21 */
    kit_log(k, "house", "J-0", "id", "J-0", "address", "1 Invented Lane", "building", "dwelling",
            "owner-occupied", "no", "work", "repair", "description", "x", "start", "1970-01-02");
    out[0] = '\0';
    assert_int_equal(mf_book_jobs(k->book, collect_job, out, NULL), MF_OK);
    assert_string_equal(out, "J-0|1 Invented Lane|1/"); /* sorted, and stopped there */
}

static bool count_entry(const mf_entry *entry, void *data)
{
    int *count = data;
    assert_int_equal(strlen(entry->hash), 64);
    return ++*count < 3;
}

static bool count_all(const mf_entry *entry, void *data)
{
    int *count = data;
    char id[40];
    snprintf(id, sizeof id, "office/%d", ++*count);
    assert_string_equal(entry->id, id);
    return true;
}

static void entries(void **state)
{
    kit *k = *state;
    int count = 0;
    assert_int_equal(mf_book_entries(k->book, NULL, count_all, &count, NULL), MF_OK);
    assert_int_equal(count, 12);
    count = 0;
    assert_int_equal(mf_book_entries(k->book, "J-1", count_entry, &count, NULL), MF_OK);
    assert_int_equal(count, 3); /* stopped */
    count = -100;
    assert_int_equal(mf_book_entries(k->book, "", count_entry, &count, NULL), MF_OK);
    assert_int_equal(count, -97); /* the firm's: two persons and the instrument */
    mf_err err = {0};
    assert_int_equal(mf_book_entry(k->book, "office/13", count_entry, &count, &err), MF_INPUT);
    assert_string_equal(err.what, "there is no entry office/13");
    assert_int_equal(mf_book_entry(k->book, "office/012", count_entry, &count, &err), MF_INPUT);
    assert_int_equal(mf_book_entry(k->book, "office", count_entry, &count, &err), MF_INPUT);
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, start, kit_done)
#define MAX_KINDS  64

int main(void)
{
    const struct CMUnitTest others[] = {
        TEST(all_fields_after_rebuild), TEST(no_such_job),  TEST(firm_alone), TEST(order_made),
        TEST(order_made_earlier),       TEST(list_of_jobs), TEST(entries),
    };
    size_t count = 0;
    const mf_kind *kinds = mf_kinds(&count);
    if (count == 0 || count > MAX_KINDS)
        return 1;
    int failed = 0;
    for (size_t i = 0; i < count; i++) {
        if (strcmp(kinds[i].name, "attachment") == 0)
            continue;
        struct CMUnitTest rows[2];
        memset(rows, 0, sizeof rows);
        rows[0].name = "all fields";
        rows[0].test_func = all_fields;
        rows[1].name = "needed fields";
        rows[1].test_func = needed_fields;
        rows[0].initial_state = rows[1].initial_state = (void *)(uintptr_t)&kinds[i];
        failed += cmocka_run_group_tests_name(kinds[i].name, rows, NULL, NULL);
    }
    return failed + cmocka_run_group_tests_name("jobs", others, NULL, NULL);
}
