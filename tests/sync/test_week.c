/* The week of a firm that meets at a folder. */
#include "sync/script.h"
#include "sync/week_kit.h"

int main(void)
{
    return weeks_at("folder", script, script_start, shell_stop);
}
