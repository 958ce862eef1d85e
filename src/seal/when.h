/* when.h - PDF dates, "D:20260131093000+01'00'". Source: ISO 32000-1, 7.9.4. */
#ifndef MF_SEAL_WHEN_H
#define MF_SEAL_WHEN_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#define MF_WHEN_SIZE 32

/* Seconds since 1970 as a PDF date in UTC. False before 1970 and after 9999. */
bool mf_when_print(char out[MF_WHEN_SIZE], int64_t seconds);

/* Reads the len characters of a PDF date; 0 when they are none. */
int64_t mf_when_read(const unsigned char *text, size_t len);

#endif
