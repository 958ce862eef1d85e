/* cmocka_all.h - cmocka with the headers it wants before it. */
#ifndef TESTS_SUPPORT_CMOCKA_ALL_H
#define TESTS_SUPPORT_CMOCKA_ALL_H

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

/* The first tests are those of a table whose rows have a name: fn with the row as state. */
#define EACH_ROW(tests, rows, fn)                                                                  \
    for (size_t row_ = 0; row_ < sizeof(rows) / sizeof(rows)[0]; row_++)                           \
        (tests)[row_] = (struct CMUnitTest)                                                        \
        {                                                                                          \
            (rows)[row_].name, fn, NULL, NULL, (void *)(uintptr_t) & (rows)[row_]                  \
        }

#endif
