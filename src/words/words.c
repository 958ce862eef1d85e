/* Looking wording up by its id. */
#include "words/words_data.h"

#include <stdio.h>
#include <string.h>

static bool is_of(const char *code, const char *lang)
{
    return code != NULL && strncmp(code, lang, 2) == 0 &&
           (code[2] == '\0' || code[2] == '-' || code[2] == '_');
}

mf_lang mf_lang_of(const char *code)
{
    return is_of(code, "es") ? MF_LANG_ES : MF_LANG_EN;
}

bool mf_lang_known(const char *code)
{
    return is_of(code, "en") || is_of(code, "es");
}

static const mf_words_row *find(const char *id)
{
    size_t low = 0, high = mf_words_count;
    while (low < high) {
        size_t mid = low + (high - low) / 2;
        int order = strcmp(id, mf_words_rows[mid].id);
        if (order == 0)
            return &mf_words_rows[mid];
        if (order < 0)
            high = mid;
        else
            low = mid + 1;
    }
    return NULL;
}

const char *mf_words(mf_lang lang, const char *id)
{
    const mf_words_row *row = find(id);
    if (row == NULL)
        return NULL;
    return row->text[lang][0] != '\0' ? row->text[lang] : row->text[MF_LANG_EN];
}

const char *mf_words2(mf_lang lang, const char *prefix, const char *id)
{
    char whole[128];
    int len = snprintf(whole, sizeof whole, "%s.%s", prefix, id);
    return len < 0 || (size_t)len >= sizeof whole ? NULL : mf_words(lang, whole);
}
