#include "field/port/utf8proc.h"

enum { INVALID = -3 };

/* How many bytes a first byte asks for, and the least code point that may take so many. */
static int length_of(uint8_t lead, int32_t *least)
{
    *least = lead < 0x80 ? 0 : lead < 0xE0 ? 0x80 : lead < 0xF0 ? 0x800 : 0x10000;
    return lead < 0x80   ? 1
           : lead < 0xC2 ? 0
           : lead < 0xE0 ? 2
           : lead < 0xF0 ? 3
           : lead < 0xF5 ? 4
                         : 0;
}

utf8proc_ssize_t utf8proc_iterate(const utf8proc_uint8_t *text, utf8proc_ssize_t len,
                                  utf8proc_int32_t *to)
{
    int32_t least;
    *to = -1;
    if (len == 0)
        return 0;
    int n = length_of(text[0], &least);
    if (n == 0 || (len > 0 && n > len))
        return INVALID;
    int32_t code = n == 1 ? text[0] : text[0] & (0x7F >> n);
    for (int i = 1; i < n; i++) {
        if ((text[i] & 0xC0) != 0x80)
            return INVALID;
        code = code << 6 | (text[i] & 0x3F);
    }
    if (code < least || code > 0x10FFFF || (code >= 0xD800 && code < 0xE000))
        return INVALID;
    *to = code;
    return n;
}

/* Unicode's Cf, of the version of the library that the other programs are built with. */
static const struct {
    int32_t from, to;
} format[] = {
    {0x00AD, 0x00AD},   {0x0600, 0x0605},   {0x061C, 0x061C},   {0x06DD, 0x06DD},
    {0x070F, 0x070F},   {0x0890, 0x0891},   {0x08E2, 0x08E2},   {0x180E, 0x180E},
    {0x200B, 0x200F},   {0x202A, 0x202E},   {0x2060, 0x2064},   {0x2066, 0x206F},
    {0xFEFF, 0xFEFF},   {0xFFF9, 0xFFFB},   {0x110BD, 0x110BD}, {0x110CD, 0x110CD},
    {0x13430, 0x1343F}, {0x1BCA0, 0x1BCA3}, {0x1D173, 0x1D17A}, {0xE0001, 0xE0001},
    {0xE0020, 0xE007F},
};

utf8proc_category_t utf8proc_category(utf8proc_int32_t code)
{
    for (size_t i = 0; i < sizeof format / sizeof format[0]; i++)
        if (code >= format[i].from && code <= format[i].to)
            return UTF8PROC_CATEGORY_CF;
    return UTF8PROC_CATEGORY_CN;
}
