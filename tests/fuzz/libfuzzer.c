/* libFuzzer's way in: FUZZ_TARGET names the target. Linked by "make fuzz" alone. */
#include "fuzz/fuzz.h"

#include <stdio.h>
#include <string.h>

int LLVMFuzzerInitialize(int *argc, char ***argv);
int LLVMFuzzerTestOneInput(const uint8_t *data, size_t len);

static fuzz_fn *chosen;

int LLVMFuzzerInitialize(int *argc, char ***argv)
{
    const char *name = getenv("FUZZ_TARGET");
    (void)argc;
    (void)argv;
    for (const fuzz_target *t = fuzz_targets; t->name != NULL; t++)
        if (name != NULL && strcmp(t->name, name) == 0)
            chosen = t->run;
    if (chosen == NULL) {
        fputs("FUZZ_TARGET names no target\n", stderr);
        exit(2);
    }
    return 0;
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t len)
{
    chosen(data, len);
    return 0;
}
