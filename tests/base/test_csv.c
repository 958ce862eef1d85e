/* CSV after RFC 4180, and the refusals with their places. Texts are constructed. */
#include "base/csv.h"
#include "support/cmocka_all.h"
#include <string.h>

/* The cells of all rows with '|' between cells and '/' after rows. */
static void flatten(const mf_csv *csv, mf_buf *out)
{
    for (size_t r = 0; r < csv->n_rows; r++) {
        for (size_t i = 0; i < csv->rows[r].n_cells; i++)
            mf_buf_printf(out, "%s%s", i == 0 ? "" : "|", csv->rows[r].cells[i]);
        mf_buf_text(out, "/");
    }
}

typedef struct good {
    const char *name, *text, *want;
    char separator;
} good;

static const good goods[] = {
    {"rfc4180 2.1 CRLF", "aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n", "aaa|bbb|ccc/zzz|yyy|xxx/", ','},
    {"rfc4180 2.2 no break at the end", "aaa,bbb,ccc\r\nzzz,yyy,xxx", "aaa|bbb|ccc/zzz|yyy|xxx/",
     ','},
    {"rfc4180 2.5 quoted", "\"aaa\",\"bbb\",\"ccc\"\r\nzzz,yyy,xxx", "aaa|bbb|ccc/zzz|yyy|xxx/",
     ','},
    {"rfc4180 2.6 break in quotes", "\"aaa\",\"b\r\nbb\",\"ccc\"\r\nzzz,yyy,xxx",
     "aaa|b\r\nbb|ccc/zzz|yyy|xxx/", ','},
    {"rfc4180 2.7 doubled quote", "\"aaa\",\"b\"\"bb\",\"ccc\"", "aaa|b\"bb|ccc/", ','},
    {"LF alone", "a,b\nc,d\n", "a|b/c|d/", ','},
    {"byte order mark",
     "\xEF\xBB\xBF"
     "a,b\nc,d\n",
     "a|b/c|d/", ','},
    {"byte order mark before a quote", "\xEF\xBB\xBF\"a\",b\n", "a|b/", ','},
    {"semicolon", "a;b;c\n1,5;2;3\n", "a|b|c/1,5|2|3/", ';'},
    {"tab", "a\tb\n1\t2\n", "a|b/1|2/", '\t'},
    {"separator in a quoted head", "\"a,b\";c\n1;2\n", "a,b|c/1|2/", ';'},
    {"one column", "a\n1\n", "a/1/", ','},
    {"blanks around cells", " a , b \n 1 ,\" 2 \" \n", "a|b/1| 2 /", ','},
    {"empty cells", "a,b,c\n,,\n", "a|b|c/||/", ','},
    {"empty cell at a tab", "a\tb\n\t2\n", "a|b/|2/", '\t'},
    {"blank lines are skipped", "\n\na,b\n\n1,2\n\n", "a|b/1|2/", ','},
    {"CR inside a cell stays", "a,b\n1\r2,3\n", "a|b/1\r2|3/", ','},
    {"UTF-8",
     "room,b\ncocina peque\xC3\xB1"
     "a,2\n",
     "room|b/cocina peque\xC3\xB1"
     "a|2/",
     ','},
};

/* The way of an import: the text, then each row against the head. */
static mf_status whole(mf_csv *csv, const char *name, const char *text, size_t len, mf_err *err)
{
    mf_status status = mf_csv_begin(csv, name, text, len, err);
    for (size_t row = 1; status == MF_OK && row < csv->n_rows; row++)
        status = mf_csv_cells(csv, name, row, err);
    if (status != MF_OK)
        mf_csv_free(csv);
    return status;
}

static void check_good(void **state)
{
    const good *g = *state;
    mf_csv csv;
    mf_buf flat = {0};
    mf_err err = {0};
    assert_int_equal(whole(&csv, "f.csv", g->text, strlen(g->text), &err), MF_OK);
    flatten(&csv, &flat);
    assert_string_equal(mf_buf_str(&flat), g->want);
    assert_int_equal(csv.separator, g->separator);
    mf_csv_free(&csv);
    mf_buf_free(&flat);
}

typedef struct bad {
    const char *name, *text;
    size_t len; /* 0 = strlen */
    const char *where, *what;
} bad;

static const bad bads[] = {
    {"empty file", "", 0, "f.csv", "the file is empty"},
    {"only blank lines", "\n\r\n", 0, "f.csv", "the file is empty"},
    {"UTF-16 little-endian",
     "\xFF\xFE"
     "a\0,\0",
     6, "f.csv", "the file is UTF-16"},
    {"UTF-16 big-endian", "\xFE\xFF\0a\0,", 6, "f.csv", "the file is UTF-16"},
    {"UTF-16 without a mark", "a\0,\0b\0", 6, "f.csv", "the file is UTF-16"},
    {"NUL", "a,b\n1,\0002\n", 9, "f.csv:2", "there is a NUL byte in it"},
    {"Latin-1 on line 3", "a,b\n1,2\nJos\xE9,3\n", 0, "f.csv:3", "this line is not UTF-8"},
    {"quote never closed", "a,b\n1,\"2\n3,4\n", 0, "f.csv:2, column 2",
     "the quote that opens here is never closed"},
    {"text after a quote", "a,b\n1,\"2\"x\n", 0, "f.csv:2, column 2",
     "there is text after the closing quote"},
    {"quote inside", "a,b\n1,2\"x\n", 0, "f.csv:2, column 2", "there is a quote inside the cell"},
    {"a cell too few", "a,b,c\n1,2,3\n1,2\n", 0, "f.csv:3",
     "the line has 2 cells, the head line has 3"},
    {"a cell too many", "a,b\n1,2,3\n", 0, "f.csv:2", "the line has 3 cells, the head line has 2"},
    {"place after a break in quotes", "a,b\n\"x\ny\",1\n1,2,3\n", 0, "f.csv:4",
     "the line has 3 cells, the head line has 2"},
};

static void check_bad(void **state)
{
    const bad *b = *state;
    mf_csv csv;
    mf_err err = {0};
    size_t len = b->len == 0 ? strlen(b->text) : b->len;
    assert_int_equal(whole(&csv, "f.csv", b->text, len, &err), MF_INPUT);
    assert_string_equal(err.where, b->where);
    assert_string_equal(err.what, b->what);
    assert_true(err.mend[0] != '\0');
    assert_null(csv.rows);
}

static void lines_are_counted(void **state)
{
    (void)state;
    static const char text[] = "\na,b\r\n\"x\n\ny\",1\n\n5,6";
    mf_csv csv;
    assert_int_equal(whole(&csv, "f.csv", text, sizeof text - 1, NULL), MF_OK);
    assert_int_equal(csv.n_rows, 3);
    assert_int_equal(csv.rows[0].line, 2);
    assert_int_equal(csv.rows[1].line, 3);
    assert_int_equal(csv.rows[2].line, 7);
    mf_csv_free(&csv);
}

static void too_many_cells(void **state)
{
    (void)state;
    char text[MF_CSV_MAX_CELLS + 8];
    mf_csv csv;
    memset(text, ',', sizeof text);
    assert_int_equal(whole(&csv, "f.csv", text, MF_CSV_MAX_CELLS - 1, NULL), MF_OK);
    mf_csv_free(&csv);
    assert_int_equal(whole(&csv, "f.csv", text, MF_CSV_MAX_CELLS, NULL), MF_INPUT);
}

#define N_GOOD (sizeof goods / sizeof goods[0])
#define N_BAD  (sizeof bads / sizeof bads[0])

static void add(struct CMUnitTest *test, const char *name, CMUnitTestFunction run, const void *row)
{
    test->name = name;
    test->test_func = run;
    test->initial_state = (void *)(uintptr_t)row;
}

int main(void)
{
    struct CMUnitTest tests[N_GOOD + N_BAD + 2];
    memset(tests, 0, sizeof tests);
    for (size_t i = 0; i < N_GOOD; i++)
        add(&tests[i], goods[i].name, check_good, &goods[i]);
    for (size_t i = 0; i < N_BAD; i++)
        add(&tests[N_GOOD + i], bads[i].name, check_bad, &bads[i]);
    add(&tests[N_GOOD + N_BAD], "lines are counted", lines_are_counted, NULL);
    add(&tests[N_GOOD + N_BAD + 1], "too many cells", too_many_cells, NULL);
    return cmocka_run_group_tests(tests, NULL, NULL);
}
