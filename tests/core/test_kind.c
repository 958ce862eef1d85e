/* The table of kinds: each row sound by itself and against the struct it fills. */
#include "core/given.h"

#include <mistfold/kind.h>
#include <stdio.h>
#include <string.h>

typedef void field_check(const mf_kind *kind, const mf_field *field);

static void each_field(field_check *check)
{
    size_t count = 0;
    const mf_kind *kinds = mf_kinds(&count);
    for (size_t k = 0; k < count; k++) {
        for (size_t f = 0; f < kinds[k].n_fields; f++)
            check(&kinds[k], &kinds[k].fields[f]);
    }
}

/* A name that is safe as an SQL column and a JSON key. */
static bool plain_name(const char *name)
{
    return name[0] != '\0' && strspn(name, "abcdefghijklmnopqrstuvwxyz0123456789_") == strlen(name);
}

static void kinds_are_whole(void **state)
{
    (void)state;
    size_t count = 0;
    const mf_kind *kinds = mf_kinds(&count);
    assert_true(count > 0);
    for (size_t k = 0; k < count; k++) {
        const mf_kind *kind = &kinds[k];
        CHECK_ROW(plain_name(kind->name) && kind->doc[0] != '\0', kind->name);
        CHECK_ROW(kind->n_fields > 0 && kind->fields != NULL, kind->name);
        CHECK_ROW(kind->size > sizeof(mf_src), kind->name);
        CHECK_ROW(kind->list_offset + sizeof(void *) + sizeof(size_t) <= sizeof(mf_job),
                  kind->name);
        CHECK_ROW(mf_kind_named(kind->name) == kind, kind->name);
        for (size_t other = 0; other < k; other++)
            CHECK_ROW(kinds[other].list_offset != kind->list_offset, kind->name);
    }
    assert_null(mf_kind_named("wishes"));
    assert_null(mf_kind_named(""));
    assert_null(mf_kind_named(NULL));
}

/* Every list of mf_job is some kind's, but for the corrections and what other jobs
 * disturb, which the book makes of other entries. */
static void every_list_has_a_kind(void **state)
{
    (void)state;
    size_t count = 0, lists = 0;
    mf_kinds(&count);
    for (size_t at = offsetof(mf_job, firm); at < sizeof(mf_job); lists++)
        at += sizeof(void *) + sizeof(size_t);
    assert_int_equal(count, lists - 2);
}

static void check_names(const mf_kind *kind, const mf_field *field)
{
    CHECK_ROW(plain_name(field->name) && field->doc[0] != '\0', field->name);
    CHECK_ROW(field->option[0] != '\0' && strchr(field->option, '_') == NULL, field->name);
    CHECK_ROW(mf_field_named(kind, field->name) == field, field->name);
    CHECK_ROW(mf_field_named(kind, field->option) == field, field->name);
    for (const mf_field *other = kind->fields; other < field; other++) {
        CHECK_ROW(strcmp(other->name, field->name) != 0, field->name);
        CHECK_ROW(strcmp(other->option, field->option) != 0, field->name);
    }
}

static void names_are_unique(void **state)
{
    (void)state;
    each_field(check_names);
}

static size_t size_of_member(mf_field_type type)
{
    switch (type) {
    case MF_F_TEXT:
    case MF_F_ID:
    case MF_F_IDS:
        return sizeof(char *);
    case MF_F_DATE:
        return sizeof(mf_day);
    case MF_F_TIME:
        return sizeof(int32_t);
    case MF_F_INT:
    case MF_F_HUNDREDTHS:
    case MF_F_INCHES:
    case MF_F_LOADING:
    case MF_F_DUST:
    case MF_F_PPM:
        return sizeof(int64_t);
    case MF_F_CHOICE:
        return sizeof(mf_side);
    case MF_F_YESNO:
        return sizeof(mf_tri);
    }
    return 0;
}

/* Members lie after src, inside the struct, and no two share a byte. */
static void check_member(const mf_kind *kind, const mf_field *field)
{
    size_t size = size_of_member(field->type);
    CHECK_ROW(size > 0 && field->offset % size == 0, field->name);
    CHECK_ROW(field->offset >= sizeof(mf_src), field->name);
    CHECK_ROW(field->offset + size <= kind->size, field->name);
    for (const mf_field *other = kind->fields; other < field; other++) {
        bool apart = other->offset + size_of_member(other->type) <= field->offset ||
                     field->offset + size <= other->offset;
        CHECK_ROW(apart, field->name);
    }
}

static void members_are_inside(void **state)
{
    (void)state;
    each_field(check_member);
}

static void check_choices(const mf_kind *kind, const mf_field *field)
{
    (void)kind;
    bool words = field->choices != NULL;
    CHECK_ROW(field->type == MF_F_CHOICE ? words : !words || field->type == MF_F_IDS, field->name);
    if (field->choices == NULL)
        return;
    int n = 0;
    for (; n < 100 && field->choices[n] != NULL; n++)
        CHECK_ROW(mf_choice(field->choices, field->choices[n]) == n, field->name);
    CHECK_ROW(n >= 2 && n < 100, field->name);
    CHECK_ROW(mf_choice(field->choices, "no such word") == -1, field->name);
}

static void choices_end(void **state)
{
    (void)state;
    each_field(check_choices);
    assert_int_equal(mf_choice(NULL, "x"), -1);
}

static bool has_key(const mf_kind *kind)
{
    for (size_t f = 0; f < kind->n_fields; f++) {
        if ((kind->fields[f].flags & MF_F_KEY) != 0)
            return true;
    }
    return false;
}

static void check_ref(const mf_kind *kind, const mf_field *field)
{
    (void)kind;
    if (field->ref == NULL)
        return;
    CHECK_ROW(field->type == MF_F_ID || field->type == MF_F_IDS, field->name);
    CHECK_ROW(mf_kind_named(field->ref) != NULL, field->name);
    CHECK_ROW(has_key(mf_kind_named(field->ref)), field->name);
}

static void refs_exist(void **state)
{
    (void)state;
    each_field(check_ref);
}

static bool is_number(mf_field_type type)
{
    return type == MF_F_INT || type == MF_F_HUNDREDTHS || type == MF_F_LOADING ||
           type == MF_F_INCHES || type == MF_F_DUST || type == MF_F_PPM;
}

static void check_flags(const mf_kind *kind, const mf_field *field)
{
    CHECK_ROW(field->min <= field->max, field->name);
    CHECK_ROW(is_number(field->type) || (field->min == 0 && field->max == 0), field->name);
    if ((field->flags & MF_F_KEY) != 0)
        CHECK_ROW(field->type == MF_F_ID && (field->flags & MF_F_NEEDED) != 0, field->name);
    if ((field->flags & MF_F_PAST) != 0)
        CHECK_ROW(field->type == MF_F_DATE, field->name);
    if ((field->flags & MF_F_QUALIFIED) != 0) {
        CHECK_ROW(field->type == MF_F_LOADING || field->type == MF_F_DUST, field->name);
        CHECK_ROW(mf_field_named(kind, "qualifier") != NULL, field->name);
        CHECK_ROW(mf_field_named(kind, "qualifier")->type == MF_F_CHOICE, field->name);
    }
}

static void flags_fit(void **state)
{
    (void)state;
    each_field(check_flags);
}

/* Texts that tell neither who lives there nor where (kind.h: MF_F_WHO, MF_F_HOME): of the firm, of
 * its people, of the house inside, of papers; and words that somebody puts into his own. A new
 * text is told by --no-names until it has a flag: say here that it may be. */
static const char tells_nobody[] =
    " house.description house.note opening.room opening.elevation component.label"
    " component.room owner_record.report owner_record.assessor owner_record.number"
    " owner_record.issuer emergency.nature emergency.reason reading.colour"
    " intake.sha256 column_map.head kit_test.maker kit_test.model kit_test.lot"
    " chip.laboratory chip.lab_address chip.report determination.report"
    " determination.method notice.reason notice.deliverers notice.how"
    " scope_change.what training.topics area.place surface.place surface.note tick.reason"
    " practice.note dust_sample.place dust_sample.laboratory"
    " dust_sample.report handover.what handover.how certification.seen sealed.sha256"
    " sealed.fingerprint sealed.head sealed.chains sealed.capacity attachment.about"
    " attachment.sha256 attachment.note invitation.token_sha256 firm.name firm.address firm.phone"
    " person.name certificate.number certificate.issuer instrument.note"
    " profile_row.edition profile_row.note own_step.text own_step.text_es own_step.why"
    " local_limit.value local_limit.citation local_limit.note stamp_request.head"
    " stamp_request.heads stamp_request.nonce stamp.head stamp.heads stamp.told"
    " stamp.authority stamp.policy stamp.serial stamp.token known_key.fingerprint"
    " known_key.note device_key.key device_key.reason vouched.key vouched.fingerprint"
    " vouched.signature witness.from_whom witness.head witness.heads witness.awaited"
    " witness.note adoption.reason adoption.head adoption.first adoption.last"
    " ";

static void check_told(const mf_kind *kind, const mf_field *field)
{
    char name[100];
    unsigned told = field->flags & (MF_F_WHO | MF_F_HOME);
    snprintf(name, sizeof name, " %s.%s ", kind->name, field->name);
    CHECK_ROW(told == 0 || field->type == MF_F_TEXT, name);
    CHECK_ROW(told != (MF_F_WHO | MF_F_HOME), name);
    bool listed = strstr(tells_nobody, name) != NULL;
    CHECK_ROW(field->type != MF_F_TEXT || listed == (told == 0), name);
}

static void who_lives_there_is_flagged(void **state)
{
    (void)state;
    each_field(check_told);
}

static void fields_by_name_or_option(void **state)
{
    (void)state;
    const mf_kind *reading = mf_kind_named("reading");
    assert_non_null(reading);
    const mf_field *loading = mf_field_named(reading, "loading_ug_cm2");
    assert_non_null(loading);
    assert_ptr_equal(mf_field_named(reading, "result"), loading);
    assert_int_equal(loading->type, MF_F_LOADING);
    assert_int_equal(loading->offset, offsetof(mf_reading, loading_ug_cm2));
    assert_null(mf_field_named(reading, "colors"));
    assert_null(mf_field_named(reading, ""));
}

/* By which others name a thing; of a wipe nobody speaks by a name. */
static void things_have_keys(void **state)
{
    (void)state;
    assert_string_equal(mf_kind_key(mf_kind_named("opening"))->name, "id");
    assert_string_equal(mf_kind_key(mf_kind_named("instrument"))->name, "serial");
    assert_null(mf_kind_key(mf_kind_named("verification")));
}

/* What was done counts from its own day, a paper that is signed later from the signature;
 * what is planned or is a thing has no such day. Constructed. */
static void items_have_their_day(void **state)
{
    (void)state;
    const mf_day third = mf_day_from(2026, 9, 3), fifth = mf_day_from(2026, 9, 5);
    const mf_notice given = {.on = third, .signed_on = MF_DAY_NONE};
    const mf_notice late = {.on = third, .signed_on = fifth};
    const mf_verification wipe = {.on = fifth};
    const mf_assignment planned = {.on = fifth};
    const mf_house house = {.start = fifth, .end = fifth};
    const mf_certificate certificate = {
        .issued = third, .expires = fifth, .renewal_sent = fifth, .amended = fifth};
    const mf_component part = {.id = "W01.sash"};
    assert_int_equal(mf_item_day(mf_kind_named("notice"), &given), third);
    assert_int_equal(mf_item_day(mf_kind_named("notice"), &late), fifth);
    assert_int_equal(mf_item_day(mf_kind_named("verification"), &wipe), fifth);
    assert_int_equal(mf_item_day(mf_kind_named("assignment"), &planned), MF_DAY_NONE);
    assert_int_equal(mf_item_day(mf_kind_named("house"), &house), MF_DAY_NONE);
    assert_int_equal(mf_item_day(mf_kind_named("certificate"), &certificate), third);
    assert_int_equal(mf_item_day(mf_kind_named("component"), &part), MF_DAY_NONE);
    const mf_job job = {.notice = &late,
                        .n_notice = 1,
                        .verification = &wipe,
                        .n_verification = 1,
                        .assignment = &planned,
                        .n_assignment = 1};
    assert_int_equal(mf_job_after(&job, third), 2);
    assert_int_equal(mf_job_after(&job, fifth - 1), 2);
    assert_int_equal(mf_job_after(&job, fifth), 0);
    const mf_job firm = {.certificate = &certificate, .n_certificate = 1};
    assert_int_equal(mf_job_after(&firm, third), 1); /* of the renewal nothing is said */
    assert_int_equal(mf_job_after(&firm, fifth), 0);
}

static void slips_have_names(void **state)
{
    (void)state;
    for (int a = 0; a < MF_SLIP_COUNT; a++) {
        const char *name = mf_slip_name((mf_slip)a);
        CHECK_ROW(name[0] != '\0' && strchr(name, '_') == NULL, name);
        for (int b = 0; b < a; b++)
            CHECK_ROW(strcmp(name, mf_slip_name((mf_slip)b)) != 0, name);
    }
    assert_string_equal(mf_slip_name(MF_SLIP_DATE_FUTURE), "date-future");
    assert_string_equal(mf_slip_name(MF_SLIP_DECIMAL_COMMA), "decimal-comma");
    assert_string_equal(mf_slip_name(MF_SLIP_UNIT_UG), "unit-ug");
    assert_string_equal(mf_slip_name(MF_SLIP_UTF8), "utf8");
    assert_string_equal(mf_slip_name(MF_SLIP_COUNT), "");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(kinds_are_whole),
        cmocka_unit_test(every_list_has_a_kind),
        cmocka_unit_test(names_are_unique),
        cmocka_unit_test(members_are_inside),
        cmocka_unit_test(choices_end),
        cmocka_unit_test(refs_exist),
        cmocka_unit_test(flags_fit),
        cmocka_unit_test(who_lives_there_is_flagged),
        cmocka_unit_test(fields_by_name_or_option),
        cmocka_unit_test(slips_have_names),
        cmocka_unit_test(things_have_keys),
        cmocka_unit_test(items_have_their_day),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
