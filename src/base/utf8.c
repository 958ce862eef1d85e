#include "base/utf8.h"

#include <stdint.h>
#include <string.h>
#include <utf8proc.h>

/* Category Cc, the two Unicode line breaks, and the embeddings and overrides
 * that can make a printed line read differently from what is stored. */
bool mf_utf8_is_control(int32_t c)
{
    return c < 0x20 || (c >= 0x7F && c < 0xA0) || c == 0x2028 || c == 0x2029 ||
           (c >= 0x202A && c <= 0x202E) || (c >= 0x2066 && c <= 0x2069);
}

/* Category Cf holds the marks of direction and of no width; the fillers are letters and
 * marks that Unicode calls Default_Ignorable_Code_Point. */
bool mf_utf8_is_seen(int32_t c)
{
    bool filler = c == 0x034F || c == 0x115F || c == 0x1160 || c == 0x17B4 || c == 0x17B5 ||
                  c == 0x3164 || c == 0xFFA0 || (c >= 0x180B && c <= 0x180F) ||
                  (c >= 0xE0000 && c <= 0xE0FFF);
    return !mf_utf8_is_control(c) && !filler && utf8proc_category(c) != UTF8PROC_CATEGORY_CF;
}

size_t mf_utf8_next(const char *text, size_t len, int32_t *c)
{
    utf8proc_ssize_t n = utf8proc_iterate((const utf8proc_uint8_t *)text, (utf8proc_ssize_t)len, c);
    return n > 0 && *c >= 0 ? (size_t)n : 0;
}

/* How many bytes of ASCII text begins with, in whole words of eight. */
static size_t ascii_words(const char *text, size_t len)
{
    size_t i = 0;
    for (; i + sizeof(uint64_t) <= len; i += sizeof(uint64_t)) {
        uint64_t word;
        memcpy(&word, text + i, sizeof word);
        if ((word & 0x8080808080808080u) != 0)
            break;
    }
    return i;
}

static mf_utf8 walk(const char *text, size_t len, bool controls, size_t *at)
{
    size_t i = controls ? ascii_words(text, len) : 0;
    while (i < len) {
        int32_t c = -1;
        if (text[i] >= ' ' && text[i] <= '~') { /* good in any text, and most of it */
            i++;
            continue;
        }
        size_t n = mf_utf8_next(text + i, len - i, &c);
        mf_utf8 fault = n == 0                                 ? MF_UTF8_INVALID
                        : (!controls && mf_utf8_is_control(c)) ? MF_UTF8_CONTROL
                                                               : MF_UTF8_GOOD;
        if (fault != MF_UTF8_GOOD) {
            if (at != NULL)
                *at = i;
            return fault;
        }
        i += n;
    }
    return MF_UTF8_GOOD;
}

mf_utf8 mf_utf8_check(const char *text, size_t len, size_t *at)
{
    return walk(text, len, false, at);
}

bool mf_utf8_valid(const char *text, size_t len, size_t *at)
{
    return walk(text, len, true, at) == MF_UTF8_GOOD;
}

size_t mf_utf8_mark(const char *text, size_t len)
{
    static const char mark[] = "\xEF\xBB\xBF";
    size_t n = sizeof mark - 1;
    return len >= n && memcmp(text, mark, n) == 0 ? n : 0;
}

void mf_utf8_show(char *out, size_t size, const char *text)
{
    size_t len = strlen(text), used = 0, i = 0;
    while (i < len) {
        int32_t c = -1;
        size_t n = mf_utf8_next(text + i, len - i, &c);
        bool good = n > 0 && mf_utf8_is_seen(c);
        size_t add = good ? n : 1;
        if (used + add + 4 > size) {
            memcpy(out + used, "...", 3);
            used += 3;
            break;
        }
        if (good)
            memcpy(out + used, text + i, n);
        else
            out[used] = '?';
        used += add;
        i += n > 0 ? n : 1;
    }
    out[used] = '\0';
}
