/* A damaged index gives the jobs of a book in the wrong order. Whoever checks each of
 * them while they are listed ends, all the same (found by fuzzing: it did not). The book
 * is that of the fuzz seeds with two texts of one page exchanged. */
#include "base/file.h"
#include "support/cmocka_all.h"
#include "support/run.h"

#include <mistfold/book.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { PAGE = 512 };
static char folder[64], path[80];

static int set_up(void **state)
{
    (void)state;
    run_folder(folder);
    snprintf(path, sizeof path, "%s/order.book", folder);
    return 0;
}

static int tear_down(void **state)
{
    (void)state;
    run_remove(folder);
    return 0;
}

static void read_book(mf_bytes *book, const char *from)
{
    assert_int_equal(mf_file_read(book, from, (size_t)1 << 20, NULL), MF_OK);
}

static void write_book(const mf_bytes *book)
{
    FILE *file = fopen(path, "wb");
    assert_non_null(file);
    assert_int_equal(fwrite(book->data, 1, book->len, file), book->len);
    fclose(file);
}

/* Where the page of the index of place begins. */
static size_t index_page(void)
{
    run_result r;
    run_shell(&r, folder,
              "sqlite3 order.book \"SELECT rootpage FROM sqlite_schema WHERE name = "
              "'sqlite_autoindex_place_1'\"");
    size_t page = (size_t)strtoul(r.out, NULL, 10);
    assert_true(page > 1);
    return (page - 1) * PAGE;
}

static void exchange(mf_bytes *book)
{
    int n = 0;
    size_t from = index_page();
    for (size_t at = from; at + 3 <= from + PAGE; at++)
        if (memcmp(book->data + at, "J-2", 3) == 0 || memcmp(book->data + at, "J-3", 3) == 0) {
            book->data[at + 2] = (unsigned char)(book->data[at + 2] == '2' ? '3' : '2');
            n++;
        }
    assert_true(n >= 2);
}

typedef struct look {
    mf_book *book;
    int jobs;
} look;

static bool check_it(const char *job, const char *address, mf_day start, void *data)
{
    look *l = data;
    mf_book_report report;
    (void)address;
    (void)start;
    mf_book_check_job(l->book, job, &report, NULL);
    return ++l->jobs < 20;
}

static void listed(look *l, mf_status wanted)
{
    mf_err err = {0};
    *l = (look){0};
    assert_int_equal(mf_book_open(&l->book, path, &err), MF_OK);
    assert_int_equal(mf_book_jobs(l->book, check_it, l, &err), wanted);
    if (wanted != MF_OK)
        assert_string_equal(err.what, "its jobs are out of order");
    mf_book_close(l->book);
}

static void out_of_order(void **state)
{
    look l;
    mf_bytes book = {0};
    (void)state;
    read_book(&book, MF_TESTS "/fuzz/seeds/book/two.book");
    write_book(&book);
    mf_bytes_free(&book);
    listed(&l, MF_OK);
    assert_int_equal(l.jobs, 2);
    read_book(&book, path); /* its tables may have been older than the program's, and made anew */
    exchange(&book);
    write_book(&book);
    listed(&l, MF_SYSTEM);
    assert_true(l.jobs <= 2);
    mf_bytes_free(&book);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(out_of_order)};
    return cmocka_run_group_tests(tests, set_up, tear_down);
}
