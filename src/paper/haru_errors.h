/* haru_errors.h - the PDF library's error numbers in words. */
#ifndef MF_PAPER_HARU_ERRORS_H
#define MF_PAPER_HARU_ERRORS_H

/* Never NULL; a general sentence for a number that has no row. */
const char *mf_haru_error_words(unsigned long code);

#endif
