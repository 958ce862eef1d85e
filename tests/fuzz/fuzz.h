/* fuzz.h - the ways in for bytes that somebody else wrote, each as one function.
 *
 * "make fuzz" hands them to libFuzzer; test_seeds.c hands them, with any compiler,
 * every kept case in tests/fuzz/seeds/<name>/. A target takes any bytes and must
 * come back soon, leak nothing and keep what it promises: it aborts when not.
 *
 * Not here: the wordings of forms/, which are ours and are read when the program is built;
 * bundles, which are only written. */
#ifndef TESTS_FUZZ_FUZZ_H
#define TESTS_FUZZ_FUZZ_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

typedef void fuzz_fn(const uint8_t *data, size_t len);

typedef struct fuzz_target {
    const char *name;
    fuzz_fn *run;
} fuzz_target;

/* Ended by a NULL name. */
extern const fuzz_target fuzz_targets[];

fuzz_fn fuzz_csv, fuzz_intake, fuzz_lists, fuzz_json, fuzz_record, fuzz_settings, fuzz_values;
fuzz_fn fuzz_pdf, fuzz_attach, fuzz_cms, fuzz_key, fuzz_photo, fuzz_book, fuzz_schema, fuzz_draw;
fuzz_fn fuzz_later, fuzz_stamp, fuzz_entries, fuzz_request;

/* What a target promises; unlike assert it is never compiled out. */
#define FUZZ_HOLDS(condition)                                                                      \
    do {                                                                                           \
        if (!(condition))                                                                          \
            abort();                                                                               \
    } while (0)

/* A folder of this process for files, on memory where there is such a place; taken
 * away at the end. */
const char *fuzz_folder(void);
/* The path of name in it, and a file written there. */
const char *fuzz_path(char out[160], const char *name);
void fuzz_write(const char *path, const void *bytes, size_t len);

/* A book of this process with a firm, an instrument and the job J-1 (fuzz_book.c). */
struct mf_book *fuzz_our_book(void);

/* The bytes as text that ends in a NUL; the caller frees it. */
char *fuzz_text(const uint8_t *data, size_t len);

#endif
