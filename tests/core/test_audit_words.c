/* Everything the judgment can say has words, in English and in Spanish. The ids
 * come from the tables of core; that they are worded is checked against forms/. */
#include "core/given.h"
#include "support/fixture_job.h"

#include <mistfold/audit.h>
#include <mistfold/contain.h>
#include <mistfold/words.h>
#include <string.h>

enum { MAX_FINDINGS = 400 };

static void has_words(const char *prefix, const char *id)
{
    for (int lang = 0; lang < MF_LANG_COUNT; lang++) {
        const char *words = mf_words2((mf_lang)lang, prefix, id);
        if (words == NULL || words[0] == '\0')
            fail_msg("no words for %s.%s", prefix, id);
    }
    /* Spanish falls back to English: the two must differ to be there. */
    if (strcmp(mf_words2(MF_LANG_EN, prefix, id), mf_words2(MF_LANG_ES, prefix, id)) == 0)
        fail_msg("no Spanish words for %s.%s", prefix, id);
}

static void test_words_of_rows(void **state)
{
    (void)state;
    size_t n;
    const mf_requirement *const *all = mf_requirements(&n);
    for (size_t i = 0; i < n; i++) {
        has_words("req", all[i]->id);
        has_words("next", all[i]->id);
    }
    const mf_step *steps = mf_steps(&n);
    for (size_t i = 0; i < n; i++) {
        char why[64];
        has_words("step", steps[i].id);
        assert_true(strlen(steps[i].id) < sizeof why - 5);
        memcpy(why, steps[i].id, strlen(steps[i].id));
        memcpy(why + strlen(steps[i].id), ".why", 5);
        has_words("step", why);
    }
}

/* Every reason the predicates can give; a new one is added here and in forms/. */
static const char *const reasons[] = {
#include "core/reasons.inc"
};

static void test_words_of_reasons(void **state)
{
    (void)state;
    for (size_t i = 0; i < COUNT(reasons); i++)
        has_words("why", reasons[i]);
    static fixture fx;
    static mf_finding found[MAX_FINDINGS];
    fx_good(&fx);
    mf_audit_ask question = {.job = &fx.job, .today = fx_day(FX_TODAY), .area = ""};
    size_t n = mf_audit(&question, found, MAX_FINDINGS);
    assert_true(n > 0 && n <= MAX_FINDINGS);
    for (size_t i = 0; i < n; i++) {
        char text[512];
        size_t len = mf_words_why(MF_LANG_ES, &found[i], text, sizeof text);
        CHECK_ROW(len > 0 && len < sizeof text, found[i].why);
        CHECK_ROW(strchr(text, '{') == NULL, found[i].why);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_words_of_rows),
        cmocka_unit_test(test_words_of_reasons),
    };
    return cmocka_run_group_tests_name("audit_words", tests, NULL, NULL);
}
