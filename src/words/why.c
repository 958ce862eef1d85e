/* A finding's reason as a sentence: the wording with its placeholders filled. */
#include <mistfold/words.h>

#include <string.h>

typedef struct sink {
    char *out;
    size_t size, len; /* len counts what is needed, also beyond size */
} sink;

static void put(sink *to, const char *text, size_t len)
{
    for (size_t i = 0; i < len; i++, to->len++)
        if (to->len + 1 < to->size)
            to->out[to->len] = text[i];
}

static void put_number(sink *to, mf_lang lang, int64_t number, mf_unit unit)
{
    char text[80];
    if (number == MF_NUM_NONE)
        return;
    mf_words_number(lang, number, unit, text, sizeof text);
    put(to, text, strlen(text));
}

static void put_day(sink *to, mf_day day)
{
    char text[MF_DAY_TEXT];
    mf_day_text(day, text);
    put(to, text, strlen(text));
}

/* Fills one placeholder; false when the name is none of ours. */
static bool fill(sink *to, mf_lang lang, const mf_finding *finding, const char *name, size_t len)
{
    if (len == 1 && name[0] == 's')
        put(to, finding->subject, strlen(finding->subject));
    else if (len == 2 && memcmp(name, "d1", 2) == 0)
        put_day(to, finding->d1);
    else if (len == 2 && memcmp(name, "d2", 2) == 0)
        put_day(to, finding->d2);
    else if (len == 2 && memcmp(name, "n1", 2) == 0)
        put_number(to, lang, finding->n1, finding->unit);
    else if (len == 2 && memcmp(name, "n2", 2) == 0)
        put_number(to, lang, finding->n2, finding->unit);
    else
        return false;
    return true;
}

size_t mf_words_why(mf_lang lang, const mf_finding *finding, char *out, size_t size)
{
    sink to = {out, size, 0};
    const char *words = mf_words2(lang, "why", finding->why);
    if (words == NULL) /* a reason without words is shown by its name, not hidden */
        words = finding->why;
    while (*words != '\0') {
        const char *close = *words == '{' ? strchr(words, '}') : NULL;
        if (close != NULL && fill(&to, lang, finding, words + 1, (size_t)(close - words - 1))) {
            words = close + 1;
        } else {
            put(&to, words, 1);
            words++;
        }
    }
    if (size > 0)
        out[to.len < size ? to.len : size - 1] = '\0';
    return to.len;
}
