/* Whether a question is answered yes, as a walk and the phone's lists ask it. */
#include "core/given.h"
#include "support/fixture_job.h"

#include <mistfold/audit.h>

enum { MAX_FINDINGS = 400 };

static fixture fx;
static mf_finding found[MAX_FINDINGS];

/* What a walk and the phone go by: where nothing lacks and demo is over for the time alone, work
 * does not go on. 745.85(a)(2): before beginning. */
static void opens_by_its_answer(void **state)
{
    static const struct {
        const char *today;
        unsigned gates;
        bool open;
    } rows[] = {{FX_TODAY, 1u << MF_GATE_DEMO, false},
                {"2026-09-01", 1u << MF_GATE_DEMO, false},
                {FX_TODAY, 1u << MF_GATE_SIGNS, true}};
    (void)state;
    fx_good(&fx);
    for (size_t i = 0; i < COUNT(rows); i++) {
        size_t lacking = 9;
        const mf_audit_ask question = {&fx.job, fx_day(rows[i].today), rows[i].gates, "A1"};
        size_t n = mf_audit(&question, found, MAX_FINDINGS);
        assert_int_equal(mf_gate_open(&question, &lacking), rows[i].open);
        assert_int_equal(mf_audit_answer(found, n, rows[i].gates) == MF_ANSWER_YES, rows[i].open);
        if (i != 1)
            assert_int_equal(lacking, 0);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(opens_by_its_answer)};
    return cmocka_run_group_tests_name("gate open", tests, NULL, NULL);
}
