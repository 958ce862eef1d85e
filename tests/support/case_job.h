/* case_job.h - jobs written as lines of text (tests/cases/README.md): a base job of
 * fixture_job.h, and entries in the words of the command line's options. */
#ifndef MF_TESTS_CASE_JOB_H
#define MF_TESTS_CASE_JOB_H

#include "support/fixture_job.h"
#include <mistfold/kind.h>

enum { CASE_WORDS = 60, CASE_LIST = 200, CASE_KINDS = 52, CASE_TEXT = 20000 };

typedef struct case_job {
    fixture fx;
    mf_job job;             /* lists with room for more */
    void *list[CASE_KINDS]; /* one per kind, CASE_LIST long */
    char text[CASE_TEXT];   /* texts of the entries */
    size_t used;
    char problem[300]; /* why the last line could not be read */
} case_job;

/* A line cut into words; "quoted words" are one. The text is changed. */
typedef struct case_line {
    char *word[CASE_WORDS];
    int n;
} case_line;
void case_split(case_line *out, char *text);

/* Starts from a base: dwelling, facility, units, assisted, assisted-minor, before
 * (the dwelling before any work), or empty (nothing said). False when there is none of
 * that name. */
bool case_base(case_job *made, const char *name);
void case_free(case_job *made);

/* The lines that change the job. False with a problem when they cannot be read:
 *   add KIND --option value ...
 *   change KIND WORD ... --option value ...   the last entry that holds all words;
 *                                             value none = not given
 *   drop KIND [WORD ...]                      all entries that hold all words
 *   correct ENTRY BY-ENTRY BODY               a correction made on another device
 *   altered                                   the check of the book found a change */
bool case_apply(case_job *made, const case_line *line);

/* The entries of a kind, one by one: how many, where the i-th lies, one taken away
 * and put back as it was; a field of one made as if it had not been given (false when it was not).
 */
size_t case_count(case_job *made, const mf_kind *kind);
unsigned char *case_item(case_job *made, const mf_kind *kind, size_t i);
void case_take_away(case_job *made, const mf_kind *kind, size_t i);
void case_put_back(case_job *made, const mf_kind *kind, size_t i, const void *item);
const char *case_keep(case_job *made, const char *text); /* as long as the job */
bool case_blank(const mf_field *field, unsigned char *item);

/* A field that holds no text: how many bytes it takes, and another number in it. */
size_t case_width(const mf_field *field);
void case_set_number(const mf_field *field, unsigned char *item, int64_t number);

#endif
