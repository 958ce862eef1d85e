/* Every kept case of "make fuzz" goes through its target again, whatever the
 * compiler: what once crashed, leaked or hung stays mended. The targets abort when
 * something is not as it must be. Also handed: every case cut short, which is a
 * cheap way to try the ends of all readers. */
#include "fuzz/fuzz.h"
#include "support/cmocka_all.h"
#include "support/torture.h"

#include <dirent.h>
#include <stdio.h>
#include <string.h>

enum { CASE_MAX = 2 * 1024 * 1024, CUTS = 6 };

static size_t read_case(const char *path, unsigned char *bytes)
{
    FILE *file = fopen(path, "rb");
    assert_non_null(file);
    size_t len = fread(bytes, 1, CASE_MAX, file);
    assert_int_equal(ferror(file), 0);
    fclose(file);
    return len;
}

/* A copy of just that size, so that a read past the end is seen. */
static void hand(const fuzz_target *target, const unsigned char *bytes, size_t len)
{
    unsigned char *copy = malloc(len + (len == 0));
    assert_non_null(copy);
    memcpy(copy, bytes, len);
    target->run(copy, len);
    free(copy);
}

static void replay(void **state)
{
    static unsigned char bytes[CASE_MAX];
    const fuzz_target *target = *state;
    char path[400];
    int n = 0, cuts = torture(CUTS, 200);
    snprintf(path, sizeof path, MF_TESTS "/fuzz/seeds/%s", target->name);
    DIR *folder = opendir(path);
    assert_non_null(folder);
    for (struct dirent *it = readdir(folder); it != NULL; it = readdir(folder)) {
        if (it->d_name[0] == '.')
            continue;
        snprintf(path, sizeof path, MF_TESTS "/fuzz/seeds/%s/%.200s", target->name, it->d_name);
        size_t len = read_case(path, bytes);
        hand(target, bytes, len);
        for (int i = 0; i < cuts; i++)
            hand(target, bytes, len * (size_t)i / (size_t)cuts);
        n++;
    }
    closedir(folder);
    assert_true(n > 0); /* a target without a case tries nothing */
}

int main(void)
{
    struct CMUnitTest tests[32];
    size_t n = 0;
    for (const fuzz_target *t = fuzz_targets; t->name != NULL; t++, n++)
        tests[n] = (struct CMUnitTest){t->name, replay, NULL, NULL, (void *)(uintptr_t)t};
    return _cmocka_run_group_tests("seeds", tests, n, NULL, NULL);
}
