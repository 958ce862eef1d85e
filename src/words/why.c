/* Sentences with their placeholders filled: the reason of a finding, an error. */
#include <mistfold/kind.h>
#include <mistfold/words.h>

#include "base/utf8.h"

#include <string.h>

enum { TOLD = 240 }; /* bytes of somebody's words that are quoted; the entry has them all */

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

static void put_text(sink *to, const char *text)
{
    if (text != NULL)
        put(to, text, strlen(text));
}

static void put_day(sink *to, mf_day day)
{
    char text[MF_DAY_TEXT];
    mf_day_text(day, text);
    put(to, text, strlen(text));
}

/* Words of somebody, which may be long: cut at a letter. */
static void put_told(sink *to, const char *told)
{
    char text[TOLD];
    mf_utf8_show(text, sizeof text, told == NULL ? "" : told);
    put(to, text, strlen(text));
}

static void put_held(sink *to, mf_lang lang, const mf_field *field, const void *item)
{
    const mf_value value = mf_item_value(field, item);
    char room[MF_WORDS_HELD];
    put_told(to, mf_words_held(lang, field, &value, room));
}

/* Of names, and of where somebody lives, only that they changed. */
static void put_change(sink *to, mf_lang lang, const mf_field *field, const mf_finding *finding)
{
    put_text(to, mf_words_field(lang, field));
    if ((field->flags & (MF_F_WHO | MF_F_HOME)) != 0)
        return;
    put_text(to, " ");
    put_held(to, lang, field, finding->was);
    put_text(to, " -> ");
    put_held(to, lang, field, finding->fix->now);
}

/* What a correction changed, from what to what. */
static void put_changes(sink *to, mf_lang lang, const mf_finding *finding)
{
    const mf_kind *kind = mf_kind_named(finding->fix->kind);
    const char *between = "";
    for (size_t i = 0; kind != NULL && finding->was != NULL && i < kind->n_fields; i++) {
        if (!mf_field_corrected(kind, &kind->fields[i], finding->was, finding->fix->now))
            continue;
        put_text(to, between);
        put_change(to, lang, &kind->fields[i], finding);
        between = "; ";
    }
}

static bool fill_fix(sink *to, mf_lang lang, const mf_finding *finding, char name)
{
    if (finding->fix == NULL)
        return false;
    if (name == 'k')
        put_text(to, mf_words2(lang, "paper.kind", finding->fix->kind));
    else if (name == 'w')
        put_told(to, finding->fix->src.by);
    else if (name == 'c')
        put_changes(to, lang, finding);
    else
        return false;
    return true;
}

/* Fills one placeholder; false when the name is none of ours. */
typedef bool fill_fn(sink *to, mf_lang lang, const void *source, const char *name, size_t len);

static bool fill_finding(sink *to, mf_lang lang, const void *source, const char *name, size_t len)
{
    const mf_finding *finding = source;
    if (len == 1 && name[0] == 'u')
        put_text(to, finding->in_unit);
    else if (len == 1 && name[0] == 's')
        put_text(to, finding->subject);
    else if (len == 1 && name[0] == 't')
        put_told(to, finding->told);
    else if (len == 1 && name[0] == 'e')
        put_text(to, finding->evidence);
    else if (len == 1 && name[0] == 'o')
        put_text(to, finding->other);
    else if (len == 1 && name[0] == 'f')
        put_text(to, finding->field);
    else if (len == 2 && memcmp(name, "d1", 2) == 0)
        put_day(to, finding->d1);
    else if (len == 2 && memcmp(name, "d2", 2) == 0)
        put_day(to, finding->d2);
    else if (len == 2 && memcmp(name, "n1", 2) == 0)
        put_number(to, lang, finding->n1, finding->unit);
    else if (len == 2 && memcmp(name, "n2", 2) == 0)
        put_number(to, lang, finding->n2, finding->unit);
    else
        return len == 1 && fill_fix(to, lang, finding, name[0]);
    return true;
}

/* {1} to {3}, the parts of an error. */
static bool fill_part(sink *to, mf_lang lang, const void *source, const char *name, size_t len)
{
    const mf_err *err = source;
    (void)lang;
    if (len != 1 || name[0] < '1' || name[0] > '0' + MF_ERR_PARTS)
        return false;
    const char *part = err->part[name[0] - '1'];
    put(to, part, strlen(part));
    return true;
}

static void put_filled(sink *to, mf_lang lang, const char *words, fill_fn *fill, const void *source)
{
    while (*words != '\0') {
        const char *close = *words == '{' ? strchr(words, '}') : NULL;
        if (close != NULL && fill(to, lang, source, words + 1, (size_t)(close - words - 1))) {
            words = close + 1;
        } else {
            put(to, words, 1);
            words++;
        }
    }
}

static size_t finish(const sink *to)
{
    if (to->size > 0)
        to->out[to->len < to->size ? to->len : to->size - 1] = '\0';
    return to->len;
}

static void put_reason(sink *to, mf_lang lang, const mf_finding *finding, const char *name)
{
    const char *words = mf_words2(lang, "why", name);
    /* a reason without words is shown by its name, not hidden */
    put_filled(to, lang, words == NULL ? name : words, fill_finding, finding);
}

static void put_why(sink *to, mf_lang lang, const mf_finding *finding)
{
    const char *of_unit = mf_words(lang, "finding.of-unit");
    if (finding->in_unit != NULL && finding->in_unit[0] != '\0' && of_unit != NULL) {
        put_filled(to, lang, of_unit, fill_finding, finding);
        put(to, " ", 1);
    }
    put_reason(to, lang, finding, finding->why);
    for (size_t i = 0; i < finding->n_also; i++) {
        put(to, " ", 1);
        put_reason(to, lang, finding, finding->also[i]);
    }
}

size_t mf_words_why(mf_lang lang, const mf_finding *finding, char *out, size_t size)
{
    sink to = {out, size, 0};
    put_why(&to, lang, finding);
    return finish(&to);
}

size_t mf_words_asked(mf_lang lang, const mf_finding *finding, char *out, size_t size)
{
    sink to = {out, size, 0};
    const char *asked = mf_words2(lang, "req", finding->requirement->id);
    put(&to, asked, asked == NULL ? 0 : strlen(asked));
    put(&to, " ", asked == NULL ? 0 : 1);
    put_why(&to, lang, finding);
    return finish(&to);
}

size_t mf_words_next(mf_lang lang, const mf_finding *finding, char *out, size_t size)
{
    sink to = {out, size, 0};
    const char *words = mf_words2(lang, "then", finding->why);
    if (words == NULL)
        words = mf_words2(lang, "next", finding->requirement->id);
    put_filled(&to, lang, words == NULL ? "" : words, fill_finding, finding);
    return finish(&to);
}

size_t mf_words_error(mf_lang lang, const mf_err *err, char *out, size_t size)
{
    sink to = {out, size, 0};
    const char *words = err->name[0] == '\0' ? NULL : mf_words2(lang, "error", err->name);
    if (words != NULL) {
        put_filled(&to, lang, words, fill_part, err);
        return finish(&to);
    }
    put(&to, err->what, strlen(err->what));
    if (err->mend[0] != '\0') {
        put(&to, "; ", 2);
        put(&to, err->mend, strlen(err->mend));
    }
    return finish(&to);
}
