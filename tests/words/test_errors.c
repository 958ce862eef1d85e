/* What a walk says of an answer that cannot be taken, in both languages. The sentences are
 * ours; that each slip has one, with its parts in place, is what is checked. */
#include "support/cmocka_all.h"

#include <mistfold/book.h>
#include <mistfold/words.h>

#include "base/fail.h"
#include "words/words_data.h"

#include <stdio.h>
#include <string.h>

typedef struct slip_case {
    const char *kind, *field, *text;
    const char *es;
} slip_case;

/* Constructed: one typing for each slip a field can have. */
static const slip_case cases[] = {
    {"opening", "id", "W 01", "\"W 01\" no sirve como nombre corto"},
    {"opening", "id", "", "Está vacío; escríbalo."},
    {"house", "start", "mañana", "\"mañana\" no es una fecha"},
    {"house", "start", "2026-02-30", "escriba 2026-02-28 o 2026-03-01."},
    {"house", "start", "2026-13-01", "busque la fecha."},
    {"tick", "on", "2031-01-01", "\"2031-01-01\" está en el futuro"},
    {"tick", "time", "25:00", "\"25:00\" no es una hora del día"},
    {"area", "length", "diez", "\"diez\" no es un número"},
    {"area", "length", "10,5", "\"10,5\" lleva coma decimal"},
    {"area", "length", "10.123", "\"10.123\" tiene más decimales"},
    {"area", "length", "-1", "\"-1\" está fuera de lo posible; escriba un número de 0"},
    {"area", "side", "up", "escriba una de estas: interior, exterior."},
    {"area", "carpet", "tal vez", "\"tal vez\" no es ni sí ni no"},
    {"area", "place", "a\tb", "carácter de control"},
    {"area", "place", "\xff", "no es texto UTF-8"},
};

static void each_slip_is_said_in_spanish(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        const slip_case *it = &cases[i];
        mf_draft *draft = NULL;
        mf_err err = {0};
        char es[600], en[600];
        assert_int_equal(mf_draft_new(&draft, mf_kind_named(it->kind), NULL), MF_OK);
        mf_status status =
            mf_draft_set(draft, it->field, it->text, "", "", mf_day_from(2026, 9, 14), &err);
        if (status != MF_INPUT)
            fail_msg("%s.%s takes \"%s\"", it->kind, it->field, it->text);
        mf_words_error(MF_LANG_ES, &err, es, sizeof es);
        mf_words_error(MF_LANG_EN, &err, en, sizeof en);
        if (strstr(es, it->es) == NULL)
            fail_msg("\"%s\" is not in: %s", it->es, es);
        assert_null(strchr(es, '{'));
        assert_null(strchr(en, '{'));
        mf_draft_free(draft);
    }
}

/* kind.h: 4000 bytes of what a person types, 64 KiB of what a machine writes. */
static void how_much_is_kept_is_said(void **state)
{
    static const struct {
        const char *kind, *field;
        size_t most;
        const char *en, *es;
    } rows[] = {{"house", "note", 4000, "4000 bytes are kept", "se guardan 4000 bytes"},
                {"stamp", "token", 65536, "65536 bytes are kept", "se guardan 65536 bytes"}};
    static char text[65538];
    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        mf_draft *draft = NULL;
        mf_err err = {0};
        char en[200], es[200];
        assert_int_equal(mf_draft_new(&draft, mf_kind_named(rows[i].kind), NULL), MF_OK);
        memset(text, 'a', sizeof text);
        text[rows[i].most] = '\0';
        assert_int_equal(mf_draft_set(draft, rows[i].field, text, "", "", 0, &err), MF_OK);
        text[rows[i].most] = 'a';
        text[rows[i].most + 1] = '\0';
        assert_int_equal(mf_draft_set(draft, rows[i].field, text, "", "", 0, &err), MF_INPUT);
        assert_string_equal(err.why, rows[i].en);
        mf_words_error(MF_LANG_EN, &err, en, sizeof en);
        mf_words_error(MF_LANG_ES, &err, es, sizeof es);
        assert_non_null(strstr(en, rows[i].en));
        assert_non_null(strstr(es, rows[i].es));
        mf_draft_free(draft);
    }
}

/* Every slip by its name, also those of a laboratory's file, which no walk asks for. */
static void no_slip_is_without_words(void **state)
{
    (void)state;
    for (int slip = MF_SLIP_EMPTY; slip < MF_SLIP_COUNT; slip++) {
        char id[64];
        snprintf(id, sizeof id, "error.slip.%s", mf_slip_name((mf_slip)slip));
        if (mf_words(MF_LANG_EN, id) == NULL)
            fail_msg("no words: %s", id);
    }
}

/* A part that one language leaves out would hide what was typed. */
static void both_languages_say_the_same_parts(void **state)
{
    static const char *const parts[] = {"{1}", "{2}", "{3}"};
    (void)state;
    for (size_t i = 0; i < mf_words_count; i++)
        for (size_t p = 0; p < 3; p++) {
            const mf_words_row *row = &mf_words_rows[i];
            bool en = strstr(row->text[MF_LANG_EN], parts[p]) != NULL;
            if (strncmp(row->id, "error.", 6) == 0 &&
                en != (strstr(row->text[MF_LANG_ES], parts[p]) != NULL))
                fail_msg("[%s] says %s in one language only", row->id, parts[p]);
        }
}

/* An error without a name is said as it is, in its own English. */
static void an_error_without_a_name(void **state)
{
    mf_err err = {0};
    char out[64], cut[8];
    (void)state;
    mf_fail(&err, MF_INPUT, "here", "it is so", "", "mend it");
    assert_int_equal(mf_words_error(MF_LANG_ES, &err, out, sizeof out), 17);
    assert_string_equal(out, "it is so; mend it");
    mf_words_error(MF_LANG_EN, &err, cut, sizeof cut);
    assert_string_equal(cut, "it is s");
    mf_fail_name(&err, "no-such-name", "x", NULL, NULL);
    mf_words_error(MF_LANG_ES, &err, out, sizeof out);
    assert_string_equal(out, "it is so; mend it");
    mf_fail(&err, MF_INPUT, "", "bare", "", ""); /* a new failure has no old name */
    mf_words_error(MF_LANG_ES, &err, out, sizeof out);
    assert_string_equal(out, "bare");
    assert_string_equal(err.name, "");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_slip_is_said_in_spanish),
        cmocka_unit_test(how_much_is_kept_is_said),
        cmocka_unit_test(no_slip_is_without_words),
        cmocka_unit_test(both_languages_say_the_same_parts),
        cmocka_unit_test(an_error_without_a_name),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
