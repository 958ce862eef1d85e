/* reading.h - the instrument's own numbers of readings, for whoever logs one by hand. */
#ifndef MF_CLI_READING_H
#define MF_CLI_READING_H

#include "cli/cli.h"

/* One more than the highest number of this instrument in the job. */
int64_t mf_reading_free_number(const mf_job *job, const char *instrument);
/* The reading of that instrument with that number on that day; NULL = none. An instrument may
 * begin to count anew on another day. */
const mf_reading *mf_reading_clash(const mf_job *job, const char *instrument, int64_t number,
                                   mf_day on);

#endif
