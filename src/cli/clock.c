/* The one place that reads the clock. */
#include "cli/cli.h"

#include <time.h>

static int64_t minutes_of(const struct tm *it)
{
    int64_t day = mf_day_from(it->tm_year + 1900, it->tm_mon + 1, it->tm_mday);
    return (day * 24 + it->tm_hour) * 60 + it->tm_min;
}

void mf_cli_clock(mf_cli *cli)
{
    time_t now = time(NULL);
    struct tm local, utc;
    localtime_r(&now, &local);
    gmtime_r(&now, &utc);
    cli->seconds = (int64_t)now;
    cli->today = mf_day_from(local.tm_year + 1900, local.tm_mon + 1, local.tm_mday);
    cli->minute = local.tm_hour * 60 + local.tm_min;
    cli->ahead_min = minutes_of(&local) - minutes_of(&utc);
    strftime(cli->time, sizeof cli->time, "%H:%M", &local);
    strftime(cli->at, sizeof cli->at, "%Y-%m-%dT%H:%M:%SZ", &utc);
}
