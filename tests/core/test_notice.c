/* Pamphlet deliveries by method, party and day. 40 CFR 745.84(a)-(c); the window
 * is the one of section 11 of the rule digest: start 2026-06-30, 2026-05-01 is 60
 * days before, 2026-06-23 is 7 days before. Notices constructed. */
#include "core/given.h"

#include <mistfold/notice.h>

static mf_notice whole(mf_delivery method, const char *on)
{
    return (mf_notice){.party = "p",
                       .method = method,
                       .on = day(on),
                       .signed_on = day(on),
                       .signer = "A. Example",
                       .unit = "12 Invented Lane",
                       .language = "en",
                       .reason = "refused",
                       .deliverers = "B. Example",
                       .how = "under the door",
                       .has_statement = MF_YES};
}

static void windows(void **state)
{
    (void)state;
    static const struct {
        mf_delivery method;
        mf_role role;
        const char *on;
        mf_notice_fault fault;
    } rows[] = {
        /* acknowledged: start-60 <= d < start */
        {MF_DELIVERY_ACKNOWLEDGED, MF_ROLE_OWNER, "2026-04-30", MF_NOTICE_TOO_EARLY},
        {MF_DELIVERY_ACKNOWLEDGED, MF_ROLE_OWNER, "2026-05-01", MF_NOTICE_GOOD},
        {MF_DELIVERY_ACKNOWLEDGED, MF_ROLE_OWNER, "2026-06-29", MF_NOTICE_GOOD},
        {MF_DELIVERY_ACKNOWLEDGED, MF_ROLE_OWNER, "2026-06-30", MF_NOTICE_TOO_LATE},
        {MF_DELIVERY_ACKNOWLEDGED, MF_ROLE_OWNER, "2026-07-01", MF_NOTICE_TOO_LATE},
        /* mailed: start-60 <= m <= start-7 */
        {MF_DELIVERY_MAILED, MF_ROLE_OWNER, "2026-04-30", MF_NOTICE_TOO_EARLY},
        {MF_DELIVERY_MAILED, MF_ROLE_OWNER, "2026-05-01", MF_NOTICE_GOOD},
        {MF_DELIVERY_MAILED, MF_ROLE_OWNER, "2026-06-23", MF_NOTICE_GOOD},
        {MF_DELIVERY_MAILED, MF_ROLE_OWNER, "2026-06-24", MF_NOTICE_TOO_LATE},
        {MF_DELIVERY_MAILED, MF_ROLE_OCCUPANT, "2026-06-24", MF_NOTICE_TOO_LATE},
        {MF_DELIVERY_SELF_CERTIFIED, MF_ROLE_OCCUPANT, "2026-06-29", MF_NOTICE_GOOD},
        {MF_DELIVERY_SELF_CERTIFIED, MF_ROLE_OCCUPANT, "2026-06-30", MF_NOTICE_TOO_LATE},
        {MF_DELIVERY_SELF_CERTIFIED, MF_ROLE_OCCUPANT, "2026-04-30", MF_NOTICE_TOO_EARLY},
        {MF_DELIVERY_UNIT_NOTICE, MF_ROLE_UNITS, "2026-06-29", MF_NOTICE_GOOD},
        {MF_DELIVERY_UNIT_NOTICE, MF_ROLE_UNITS, "2026-06-30", MF_NOTICE_TOO_LATE},
        {MF_DELIVERY_MAILED, MF_ROLE_UNITS, "2026-06-23", MF_NOTICE_GOOD},
        {MF_DELIVERY_MAILED, MF_ROLE_UNITS, "2026-06-24", MF_NOTICE_TOO_LATE},
        /* (c)(2)(i): parents by mail or hand, no days named; before the start all the same */
        {MF_DELIVERY_MAILED, MF_ROLE_PARENTS, "2026-04-30", MF_NOTICE_TOO_EARLY},
        {MF_DELIVERY_MAILED, MF_ROLE_PARENTS, "2026-06-25", MF_NOTICE_GOOD},
        {MF_DELIVERY_MAILED, MF_ROLE_PARENTS, "2026-06-29", MF_NOTICE_GOOD},
        {MF_DELIVERY_MAILED, MF_ROLE_PARENTS, "2026-06-30", MF_NOTICE_TOO_LATE},
        {MF_DELIVERY_MAILED, MF_ROLE_FACILITY, "2026-06-24", MF_NOTICE_TOO_LATE},
        /* signs go up by the first morning */
        {MF_DELIVERY_POSTED, MF_ROLE_UNITS, "2026-06-30", MF_NOTICE_GOOD},
        {MF_DELIVERY_POSTED, MF_ROLE_UNITS, "2026-07-01", MF_NOTICE_TOO_LATE},
        {MF_DELIVERY_POSTED, MF_ROLE_PARENTS, "2026-06-29", MF_NOTICE_GOOD},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        mf_notice notice = whole(rows[i].method, rows[i].on);
        mf_notice_fault fault = mf_notice_check_for(NULL, &notice, rows[i].role, day("2026-06-30"));
        if (fault != rows[i].fault)
            fail_msg("row %zu (%s): fault %d", i, rows[i].on, (int)fault);
    }
}

/* 745.84(a)(1) owner; (a)(2) occupant; (b)(2) units; (c)(1)-(2) facility, parents. */
static void methods_by_party(void **state)
{
    (void)state;
    enum { ACK = 1, MAIL = 2, SELF = 4, POST = 8, UNIT = 16 };
    static const struct {
        mf_role role;
        unsigned serve;
    } rows[] = {
        {MF_ROLE_OWNER, ACK | MAIL},           {MF_ROLE_OCCUPANT, ACK | MAIL | SELF},
        {MF_ROLE_FACILITY, ACK | MAIL | SELF}, {MF_ROLE_PARENTS, ACK | MAIL | POST | UNIT},
        {MF_ROLE_UNITS, MAIL | POST | UNIT},
    };
    static const mf_delivery methods[] = {MF_DELIVERY_ACKNOWLEDGED, MF_DELIVERY_MAILED,
                                          MF_DELIVERY_SELF_CERTIFIED, MF_DELIVERY_POSTED,
                                          MF_DELIVERY_UNIT_NOTICE};
    for (size_t i = 0; i < COUNT(rows); i++) {
        for (size_t m = 0; m < COUNT(methods); m++) {
            mf_notice notice = whole(methods[m], "2026-06-01");
            bool serves = (rows[i].serve & 1u << m) != 0;
            assert_int_equal(mf_notice_check_for(NULL, &notice, rows[i].role, day("2026-06-30")),
                             serves ? MF_NOTICE_GOOD : MF_NOTICE_WRONG_METHOD);
        }
    }
}

static mf_notice_fault fault_of(const mf_notice *notice, mf_role role)
{
    return mf_notice_check_for(NULL, notice, role, day("2026-06-30"));
}

static void signatures(void **state)
{
    (void)state;
    mf_notice notice = whole(MF_DELIVERY_ACKNOWLEDGED, "2026-06-01");
    notice.signer = "";
    assert_int_equal(fault_of(&notice, MF_ROLE_OWNER), MF_NOTICE_UNSIGNED);
    notice = whole(MF_DELIVERY_ACKNOWLEDGED, "2026-06-01");
    notice.signed_on = MF_DAY_NONE;
    assert_int_equal(fault_of(&notice, MF_ROLE_OWNER), MF_NOTICE_UNSIGNED);
    notice.signed_on = day("2026-06-29");
    assert_int_equal(fault_of(&notice, MF_ROLE_OWNER), MF_NOTICE_GOOD);
    /* an acknowledgment signed on the first day is not one before the start */
    notice.signed_on = day("2026-06-30");
    assert_int_equal(fault_of(&notice, MF_ROLE_OWNER), MF_NOTICE_TOO_LATE);
    /* a certificate of mailing needs no signature of the owner */
    notice = whole(MF_DELIVERY_MAILED, "2026-06-01");
    notice.signer = "";
    notice.signed_on = MF_DAY_NONE;
    assert_int_equal(fault_of(&notice, MF_ROLE_OWNER), MF_NOTICE_GOOD);
}

/* 745.84(a)(2)(i): reason, names of those delivering, method, address, signature, date. */
static void self_certification(void **state)
{
    (void)state;
    const mf_notice good = whole(MF_DELIVERY_SELF_CERTIFIED, "2026-06-01");
    mf_notice notice = good;
    assert_int_equal(fault_of(&notice, MF_ROLE_OCCUPANT), MF_NOTICE_GOOD);
    notice.reason = "";
    assert_int_equal(fault_of(&notice, MF_ROLE_OCCUPANT), MF_NOTICE_INCOMPLETE);
    notice = good;
    notice.deliverers = "";
    assert_int_equal(fault_of(&notice, MF_ROLE_OCCUPANT), MF_NOTICE_INCOMPLETE);
    notice = good;
    notice.how = "";
    assert_int_equal(fault_of(&notice, MF_ROLE_OCCUPANT), MF_NOTICE_INCOMPLETE);
    assert_int_equal(mf_notice_gaps(&notice, MF_ROLE_OCCUPANT), 1u << MF_GAP_HOW);
    notice = good;
    notice.unit = "";
    assert_int_equal(fault_of(&notice, MF_ROLE_FACILITY), MF_NOTICE_INCOMPLETE);
    notice = good;
    notice.signer = "";
    assert_int_equal(fault_of(&notice, MF_ROLE_OCCUPANT), MF_NOTICE_UNSIGNED);
    assert_int_equal(fault_of(&good, MF_ROLE_OWNER), MF_NOTICE_WRONG_METHOD);
}

/* 745.84(b)(3), (c)(3): signed, dated statement of the steps taken. */
static void statements(void **state)
{
    (void)state;
    static const struct {
        mf_role role;
        mf_delivery method;
        mf_notice_fault without;
    } rows[] = {
        {MF_ROLE_UNITS, MF_DELIVERY_UNIT_NOTICE, MF_NOTICE_NO_STATEMENT},
        {MF_ROLE_UNITS, MF_DELIVERY_POSTED, MF_NOTICE_NO_STATEMENT},
        {MF_ROLE_PARENTS, MF_DELIVERY_POSTED, MF_NOTICE_NO_STATEMENT},
        {MF_ROLE_OWNER, MF_DELIVERY_ACKNOWLEDGED, MF_NOTICE_GOOD},
        {MF_ROLE_FACILITY, MF_DELIVERY_ACKNOWLEDGED, MF_NOTICE_GOOD},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        mf_notice notice = whole(rows[i].method, "2026-06-01");
        notice.has_statement = MF_NOT;
        assert_int_equal(fault_of(&notice, rows[i].role), rows[i].without);
        notice.has_statement = MF_UNKNOWN;
        assert_int_equal(fault_of(&notice, rows[i].role), rows[i].without);
    }
}

static void dates_that_are_lacking(void **state)
{
    (void)state;
    mf_notice notice = whole(MF_DELIVERY_ACKNOWLEDGED, "2026-06-01");
    assert_int_equal(mf_notice_check_for(NULL, &notice, MF_ROLE_OWNER, MF_DAY_NONE),
                     MF_NOTICE_INCOMPLETE);
    notice.on = MF_DAY_NONE;
    assert_int_equal(fault_of(&notice, MF_ROLE_OWNER), MF_NOTICE_INCOMPLETE);
}

static void the_best_notice(void **state)
{
    (void)state;
    mf_notice notices[3] = {whole(MF_DELIVERY_ACKNOWLEDGED, "2026-06-01"),
                            whole(MF_DELIVERY_MAILED, "2026-06-28"),
                            whole(MF_DELIVERY_ACKNOWLEDGED, "2026-06-01")};
    const mf_job job = {.notice = notices, .n_notice = 3};
    const mf_party owner = {.id = "p", .role = MF_ROLE_OWNER};
    const mf_party other = {.id = "q", .role = MF_ROLE_OWNER};
    const mf_notice *which = NULL;
    notices[2].party = "someone";
    assert_int_equal(mf_notice_best(&job, &owner, day("2026-06-30"), &which), MF_NOTICE_GOOD);
    assert_ptr_equal(which, &notices[0]);
    /* the start slips to August: neither serves; the fault is that of the latest */
    assert_int_equal(mf_notice_best(&job, &owner, day("2026-08-31"), &which), MF_NOTICE_TOO_EARLY);
    assert_ptr_equal(which, &notices[1]);
    assert_int_equal(mf_notice_best(&job, &owner, day("2026-06-01"), &which), MF_NOTICE_TOO_LATE);
    assert_int_equal(mf_notice_best(&job, &other, day("2026-06-30"), &which), MF_NOTICE_NONE);
    assert_null(which);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(windows),         cmocka_unit_test(methods_by_party),
        cmocka_unit_test(signatures),      cmocka_unit_test(self_certification),
        cmocka_unit_test(statements),      cmocka_unit_test(dates_that_are_lacking),
        cmocka_unit_test(the_best_notice),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
