/* folder_kit.h - a folder of the test's own, for its set-up and tear-down. */
#ifndef TESTS_SUPPORT_FOLDER_KIT_H
#define TESTS_SUPPORT_FOLDER_KIT_H

#include "support/run.h"

static char folder[64];

static inline int make_folder(void **state)
{
    (void)state;
    run_folder(folder);
    return 0;
}

static inline int remove_folder(void **state)
{
    (void)state;
    run_remove(folder);
    return 0;
}

#endif
