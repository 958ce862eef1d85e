/* later.h - the parts of the target "later" that later_files.c needs as well, and the key
 * that the seeds are sealed by (fuzz_paper.c). */
#ifndef TESTS_FUZZ_LATER_H
#define TESTS_FUZZ_LATER_H

#include "base/mem.h"

#include <mistfold/seal.h>

/* A small constructed paper with one seal; of the same length each time. */
void fuzz_later_paper(mf_buf *out);

/* Puts the bytes behind a paper, and what a further seal needs around them. */
void fuzz_later_add(mf_buf *out, const uint8_t *data, size_t len);

/* The key of the seeds; freed at the end. */
const mf_key *fuzz_seed_key(void);

#endif
