/* One thing, one word: forms/glossary says which Spanish word the papers use, and which never.
 * Units of a Spanish sentence are written out. */
#include "support/cmocka_all.h"
#include "words/words_data.h"

#include <ctype.h>
#include <stdio.h>
#include <string.h>

static bool letter(unsigned char c)
{
    return isalpha(c) || c >= 0x80;
}

/* The word in the text, as a word of its own; small and capital letters differ. */
static bool holds(const char *text, const char *word)
{
    size_t len = strlen(word);
    for (const char *at = strstr(text, word); at != NULL; at = strstr(at + 1, word)) {
        bool starts = at == text || !letter((unsigned char)at[-1]);
        bool ends = !letter((unsigned char)word[len - 1]) || !letter((unsigned char)at[len]);
        if (starts && ends)
            return true;
    }
    return false;
}

/* What a person types on the command line stands in English. */
static const char *spanish(size_t i)
{
    return mf_words_rows[i].text[MF_LANG_ES];
}

static void never(const char *word)
{
    for (size_t i = 0; i < mf_words_count; i++)
        if (holds(spanish(i), word))
            fail_msg("[%s] says \"%s\": see forms/glossary", mf_words_rows[i].id, word);
}

static void used(const char *word)
{
    for (size_t i = 0; i < mf_words_count; i++)
        if (strstr(spanish(i), word) != NULL)
            return;
    fail_msg("no wording says \"%s\", which forms/glossary asks for", word);
}

/* Cuts the next part off at the sign, without the blanks around it. */
static char *part(char **rest, const char *sign)
{
    char *from = *rest + strspn(*rest, " ");
    char *end = from + strcspn(from, sign);
    *rest = *end == '\0' ? end : end + 1;
    *end = '\0';
    while (end > from && (end[-1] == ' ' || end[-1] == '\n'))
        *--end = '\0';
    return from;
}

static void one_thing_one_word(void **state)
{
    char line[512];
    size_t terms = 0;
    (void)state;
    FILE *file = fopen(MF_SAMPLE "/../forms/glossary", "r");
    assert_non_null(file);
    while (fgets(line, sizeof line, file) != NULL) {
        char *rest = line;
        if (*line == '#')
            continue;
        part(&rest, "|");
        used(part(&rest, "|"));
        while (*rest != '\0') {
            const char *word = part(&rest, ",\n");
            if (*word != '\0')
                never(word);
        }
        terms++;
    }
    fclose(file);
    assert_true(terms > 20);
}

/* Two signs side by side give the same level: a warning is no danger. */
static void signal_words_are_of_one_level(void **state)
{
    (void)state;
    assert_string_equal(mf_words2(MF_LANG_EN, "paper", "form.sign-warning"), "WARNING");
    assert_string_equal(mf_words2(MF_LANG_ES, "paper", "form.sign-warning"), "\u00A1ADVERTENCIA!");
    assert_string_equal(mf_words2(MF_LANG_EN, "paper", "form.danger"), "DANGER");
    assert_string_equal(mf_words2(MF_LANG_ES, "paper", "form.danger"), "PELIGRO");
}

/* The check must be able to fail. */
static void a_second_name_is_seen(void **state)
{
    (void)state;
    assert_true(holds("Con l\u00E1mina", "l\u00E1mina"));
    assert_false(holds("Con l\u00E1minas", "l\u00E1mina"));
    assert_true(holds("de 10 ft.", "ft"));
    assert_false(holds("aft", "ft"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(one_thing_one_word),
        cmocka_unit_test(signal_words_are_of_one_level),
        cmocka_unit_test(a_second_name_is_seen),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
