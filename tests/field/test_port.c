/* What base needs of two libraries is written anew for WebAssembly (src/field/port). Here both
 * stand in one program, ours under other names: every code point, and JSON texts of all sorts,
 * with base/json.c over each. */

/* ---- ours, renamed ---------------------------------------------------------------------- */

#define JANSSON_H                   /* the library's own header stays out */
#define json_array                  port_array
#define json_array_append_new       port_array_append_new
#define json_array_get              port_array_get
#define json_array_size             port_array_size
#define json_boolean                port_boolean
#define json_decref                 port_decref
#define json_equal                  port_equal
#define json_incref                 port_incref
#define json_integer                port_integer
#define json_integer_value          port_integer_value
#define json_loadb                  port_loadb
#define json_null                   port_null
#define json_object                 port_object
#define json_object_get             port_object_get
#define json_object_iter            port_object_iter
#define json_object_iter_key        port_object_iter_key
#define json_object_iter_next       port_object_iter_next
#define json_object_iter_value      port_object_iter_value
#define json_object_set             port_object_set
#define json_object_set_new         port_object_set_new
#define json_object_set_new_nocheck port_object_set_new_nocheck
#define json_object_size            port_object_size
#define json_object_update          port_object_update
#define json_real                   port_real
#define json_real_value             port_real_value
#define json_string                 port_string
#define json_string_length          port_string_length
#define json_string_nocheck         port_string_nocheck
#define json_string_value           port_string_value
#define mf_json_canonical           port_json_canonical
#define mf_json_key                 port_json_key
#define mf_json_number              port_json_number
#define mf_json_parse               port_json_parse
#define mf_json_quote               port_json_quote
#define mf_json_string_of           port_json_string_of
#define utf8proc_category           port_category
#define utf8proc_iterate            port_iterate

#include "field/port/jansson.h"

/* The files themselves, as there is no other way to have their functions under other names.
 * NOLINTBEGIN(bugprone-suspicious-include) */
#include "base/json.c"
#include "base/json_number.c"
#include "field/port/json_load.c"
#include "field/port/utf8proc.c"
#define find   find_member
#define reader value_reader
#define put    put_value
#include "field/port/json_value.c"
#undef find
/* NOLINTEND(bugprone-suspicious-include) */

#undef mf_json_canonical
#undef mf_json_key
#undef mf_json_parse
#undef utf8proc_category
#undef utf8proc_iterate

#include "support/cmocka_all.h"

/* ---- the libraries' ---------------------------------------------------------------------- */

/* Of the library of this project, which was built over the true ones: a value is only handed on. */
struct json_t *mf_json_parse(const char *text, size_t len, mf_err *err);
bool mf_json_canonical(mf_buf *out, const struct json_t *value);
void json_delete(struct json_t *value);
int utf8proc_category(int32_t code);
ptrdiff_t utf8proc_iterate(const uint8_t *text, ptrdiff_t len, int32_t *to);

/* ---- code points ------------------------------------------------------------------------- */

static void every_code_point_is_of_the_same_sort(void **state)
{
    (void)state;
    for (int32_t c = 0; c <= 0x10FFFF; c++) {
        bool ours = port_category(c) == UTF8PROC_CATEGORY_CF;
        if (ours != (utf8proc_category(c) == UTF8PROC_CATEGORY_CF))
            fail_msg("U+%04X is %sof Cf here", (unsigned)c, ours ? "" : "not ");
    }
}

/* All texts of up to two bytes, and those of three and four at every edge. */
static void every_text_is_read_alike(void **state)
{
    static const uint8_t edges[] = {0x00, 0x20, 0x7F, 0x80, 0x8F, 0x90, 0x9F, 0xA0, 0xBF, 0xC0,
                                    0xC1, 0xC2, 0xDF, 0xE0, 0xED, 0xEF, 0xF0, 0xF4, 0xF5, 0xFF};
    enum { N = sizeof edges };
    (void)state;
    for (size_t i = 0; i < (size_t)256 * N * N * N; i++) {
        const uint8_t text[5] = {(uint8_t)(i % 256), edges[i / 256 % N], edges[i / 256 / N % N],
                                 edges[i / 256 / N / N], 0};
        for (ptrdiff_t len = 0; len <= 4; len++) {
            int32_t a = -2, b = -2;
            ptrdiff_t n = port_iterate(text, len, &a), m = utf8proc_iterate(text, len, &b);
            if ((n > 0 ? n : 0) != (m > 0 ? m : 0) || (n > 0 && a != b))
                fail_msg("%02x %02x %02x %02x: %td %d, not %td %d", text[0], text[1], text[2],
                         text[3], n, a, m, b);
        }
    }
}

/* ---- JSON ----------------------------------------------------------------------------------- */

static void same(const char *text, size_t len)
{
    mf_buf ours = {0}, theirs = {0};
    json_t *a = port_json_parse(text, len, NULL);
    struct json_t *b = mf_json_parse(text, len, NULL);
    bool wrote = a != NULL && port_json_canonical(&ours, a);
    bool written = b != NULL && mf_json_canonical(&theirs, b);
    if ((a == NULL) != (b == NULL) || wrote != written ||
        strcmp(mf_buf_str(&ours), mf_buf_str(&theirs)) != 0)
        fail_msg("%.*s: %s, not %s", (int)len, text, a == NULL ? "refused" : mf_buf_str(&ours),
                 b == NULL ? "refused" : mf_buf_str(&theirs));
    json_decref(a);
    if (b != NULL)
        json_delete(b);
    mf_buf_free(&ours);
    mf_buf_free(&theirs);
}

static const char *const texts[] = {
    "{}",
    "[]",
    "{\"a\":1}",
    "{\"a\":1,\"a\":2}",
    "{\"b\":[1,2,{\"c\":null}],\"a\":true}",
    "",
    " ",
    "{",
    "[",
    "[1,]",
    "[,1]",
    "{,}",
    "{\"a\"}",
    "{\"a\":}",
    "{a:1}",
    "[1 2]",
    "1",
    "-1",
    "-0",
    "01",
    "-",
    "+1",
    "1.",
    ".5",
    "1.5",
    "1e5",
    "1E+5",
    "1e",
    "1e400",
    "-1e400",
    "1e-400",
    "0.1",
    "1.0",
    "9007199254740991",
    "9007199254740993",
    "9223372036854775807",
    "9223372036854775808",
    "-9223372036854775808",
    "123456789012345678901234567890",
    "true",
    "tru",
    "True",
    "null",
    "nulll",
    "\"\"",
    "\"a",
    "\"\\n\"",
    "\"\\q\"",
    "\"\\u00e9\"",
    "\"\\u00E9\"",
    "\"\\u12\"",
    "\"\\u0000\"",
    "\"\\ud83d\\ude00\"",
    "\"\\ud83d\"",
    "\"\\ude00\"",
    "\"\\ud83dx\"",
    "\"\\ud83d\\u0041\"",
    "\"\t\"",
    "\"\x7f\"",
    "\"\xc3\xa9\"",
    "\"\xc3\"",
    "\"\xff\"",
    "\"\xed\xa0\x80\"",
    "{\"\xc3\xa9\":1,\"z\":2,\"\xf0\x9f\x98\x80\":3,\"\xef\xbf\xbd\":4}",
    "{\"\xff\":1}",
    "[1]x",
    "[1] ",
    "\n[1\r,\t2 ]\n",
    "\"\\/\\b\\f\\r\\t\\\"\\\\\"",
    "{\"a\":{\"a\":{\"a\":1}}}",
    "[[[[[[[[]]]]]]]]",
    "{\"\\u0061\":1,\"a\":2}",
    "{\"\\u0000\":1}",
    "\xef\xbb\xbf{}",
    "[1,2",
    "{\"a\":1",
    "'a'"};

static void texts_are_read_alike(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++)
        same(texts[i], strlen(texts[i]));
    for (int deep = 1; deep < 80; deep++) {
        char text[200];
        memset(text, '[', (size_t)deep);
        memset(text + deep, ']', (size_t)deep);
        same(text, (size_t)deep * 2);
    }
    same("{\"a\":\"b\0c\"}", 11);
}

/* Numbers drawn by a rule of Park and Miller, the same ones always. */
static unsigned long drawn = 1;
static size_t draw(size_t below)
{
    drawn = drawn * 48271 % 2147483647;
    return (size_t)drawn % below;
}

static void changed_texts_are_read_alike(void **state)
{
    static const char letters[] = "{}[]\",:0123456789.eE+-\\utrfalsn \n\x80\xc3\xa9";
    (void)state;
    for (int i = 0; i < 100000; i++) {
        char text[200];
        const char *from = texts[draw(sizeof texts / sizeof texts[0])];
        size_t len = strlen(from);
        memcpy(text, from, len + 1);
        for (size_t k = draw(4) + 1; len > 0 && k > 0; k--)
            text[draw(len)] = letters[draw(sizeof letters - 1)];
        same(text, len);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_code_point_is_of_the_same_sort),
        cmocka_unit_test(every_text_is_read_alike),
        cmocka_unit_test(texts_are_read_alike),
        cmocka_unit_test(changed_texts_are_read_alike),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
