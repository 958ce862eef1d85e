/* haru_errors.h - the PDF library's error numbers in words. */
#ifndef MF_PAPER_HARU_ERRORS_H
#define MF_PAPER_HARU_ERRORS_H

#include <stdbool.h>

/* Never NULL; a general sentence for a number that has no row. */
const char *mf_haru_error_words(unsigned long code);

/* Whether a failure is of memory, whatever the file or the stream it happened at. */
bool mf_haru_lacks_memory(unsigned long code, unsigned long detail);

#endif
