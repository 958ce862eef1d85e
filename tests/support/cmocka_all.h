/* cmocka_all.h - cmocka with the headers it wants before it. */
#ifndef TESTS_SUPPORT_CMOCKA_ALL_H
#define TESTS_SUPPORT_CMOCKA_ALL_H

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#endif
