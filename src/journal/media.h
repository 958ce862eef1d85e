/* media.h - what a file is, told by its content. */
#ifndef MF_JOURNAL_MEDIA_H
#define MF_JOURNAL_MEDIA_H

#include <stdbool.h>
#include <stddef.h>

/* The place of what bytes are among the choices of an attachment; -1 when none we keep. *whole
 * tells whether their end is there too. */
int mf_media_of(const unsigned char *bytes, size_t len, bool *whole);

#endif
