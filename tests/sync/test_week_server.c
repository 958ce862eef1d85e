/* The week of a firm that meets at a server. */
#include "sync/pg_script.h"
#include "sync/week_kit.h"

int main(void)
{
    return weeks_at("server", pg_script, pg_start, pg_stop);
}
