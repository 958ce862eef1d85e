/* A page of the record as a picture, and a paper that the desktop is asked to open: by programs of
 * others, which may be absent. The one that opens is a script that notes what it was given. */
#include "support/shell_kit.h"

#include <stdio.h>

#define M "\"$MISTFOLD\" "
#define A_DESK                                                                                     \
    "mkdir -p bin && printf '#!/bin/sh\\nprintf \"%%s\" \"$1\" > opened\\n' > bin/xdg-open && "    \
    "chmod +x bin/xdg-open; rm -f opened; "
#define WAIT "; for i in 1 2 3 4 5 6 7 8 9; do [ -s opened ] && break; sleep 0.3; done; cat opened"

/* PNG: its signature, then width and height, ISO/IEC 15948, 11.2.2: Letter at 100 dpi. */
static void the_first_page(void **state)
{
    (void)state;
    run(M "paper preview J-1926 --out page.png --on 2026-09-25");
    answers(0, "wrote page.png");
    run("od -An -tx1 -N8 page.png | tr -d ' '; od -An -tu1 -j16 -N8 page.png | tr -s ' '");
    assert_string_equal(r.out, "89504e470d0a1a0a\n 0 0 3 82 0 0 4 76\n");
    run("tesseract page.png - 2>/dev/null "
        "| grep -c 'May demo start'");
    assert_string_equal(r.out, "1\n");
}

static void another_page(void **state)
{
    (void)state;
    run(M "paper preview J-1926 --out third.png --number 3 --on 2026-09-25");
    answers(0, "wrote third.png");
    run("tesseract third.png - 2>/dev/null | grep -c 'Opening schedule'");
    assert_string_equal(r.out, "1\n");
    run(M "paper preview J-1926 --out none.png --number 99");
    assert_int_equal(r.status, 4);
    assert_non_null(strstr(r.err, "a page that the record has"));
    run("ls none.png 2>/dev/null");
    assert_string_equal(r.out, "");
    run(M "paper preview J-1926 --out none.png --number 0");
    assert_int_equal(r.status, 3);
}

/* A picture never takes the place of a book or a key. */
static void nothing_is_written_over(void **state)
{
    (void)state;
    run("sha256sum out/demo.book > before; " M
        "paper preview J-1926 --out out/demo.book --force; sha256sum -c --status before");
    assert_int_equal(r.status, 0);
}

static void the_desk_is_asked(void **state)
{
    (void)state;
    run(A_DESK "PATH=$PWD/bin:$PATH " M "paper record J-1926 --out 'of today.pdf' --open" WAIT);
    assert_non_null(strstr(r.out, "of today.pdf"));
    assert_null(strstr(r.err, "cannot be run"));
    run("cat opened");
    assert_string_equal(r.out, "of today.pdf");
    run(A_DESK "PATH=$PWD/bin:$PATH " M "paper preview J-1926 --out p.png --open" WAIT
               "; cat opened");
    assert_non_null(strstr(r.out, "p.png"));
}

/* Where there is none, the paper is written all the same, and it is said. */
static void no_desk(void **state)
{
    (void)state;
    run("PATH=/nonexistent \"$MISTFOLD\" paper record J-1926 --out alone.pdf --open");
    assert_int_equal(r.status, 4);
    assert_non_null(strstr(r.err, "xdg-open"));
    run("pdfinfo alone.pdf | grep -c Pages");
    assert_string_equal(r.out, "1\n");
    run("PATH=/nonexistent \"$MISTFOLD\" paper preview J-1926 --out gone.png");
    assert_int_equal(r.status, 4);
    assert_non_null(strstr(r.err, "install poppler-utils"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_first_page),
        cmocka_unit_test(another_page),
        cmocka_unit_test(nothing_is_written_over),
        cmocka_unit_test(the_desk_is_asked),
        cmocka_unit_test(no_desk),
    };
    return cmocka_run_group_tests(tests, shell_demo, shell_stop);
}
