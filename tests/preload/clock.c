/* clock.so, for LD_PRELOAD: the clock is CLOCK_AHEAD seconds ahead. */
#define _GNU_SOURCE
#include <stdlib.h>
#include <sys/time.h>
#include <time.h>

time_t time(time_t *out)
{
    struct timespec now;
    const char *ahead = getenv("CLOCK_AHEAD");
    clock_gettime(CLOCK_REALTIME, &now);
    time_t told = now.tv_sec + (ahead == NULL ? 0 : strtol(ahead, NULL, 10));
    if (out != NULL)
        *out = told;
    return told;
}
