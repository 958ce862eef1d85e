/* The one place that reads the clock. */
#include "cli/cli.h"

#include <time.h>

void mf_cli_clock(mf_cli *cli)
{
    time_t now = time(NULL);
    struct tm local, utc;
    localtime_r(&now, &local);
    gmtime_r(&now, &utc);
    cli->seconds = (int64_t)now;
    cli->today = mf_day_from(local.tm_year + 1900, local.tm_mon + 1, local.tm_mday);
    cli->minute = local.tm_hour * 60 + local.tm_min;
    strftime(cli->time, sizeof cli->time, "%H:%M", &local);
    strftime(cli->at, sizeof cli->at, "%Y-%m-%dT%H:%M:%SZ", &utc);
}
