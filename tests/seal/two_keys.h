/* two_keys.h - a small constructed paper sealed by a key of ours, and the key of somebody
 * else, who adds to it. */
#ifndef MF_TESTS_TWO_KEYS_H
#define MF_TESTS_TWO_KEYS_H

#include "seal/seal_kit.h"

static mf_key *ours, *theirs;

static int two_keys_setup(void **state)
{
    (void)state;
    ours = kit_key();
    theirs = kit_key();
    return 0;
}

static int two_keys_teardown(void **state)
{
    (void)state;
    mf_key_free(ours);
    mf_key_free(theirs);
    return 0;
}

#define CATALOG  "<</Type/Catalog/Pages 2 0 R>>"
#define PAGES    "<</Type/Pages/Kids[3 0 R]/Count 1>>"
#define PAGE     "<</Type/Page/Parent 2 0 R/MediaBox[0 0 99 99]/Contents 4 0 R>>"
#define CONTENTS "<</Length 9>>stream\n0 0 m 9 w\nendstream"

static mf_bytes sealed_of(const char *page, const char *contents)
{
    const char *const object[] = {CATALOG, PAGES, page, contents, "<</Title(x)>>"};
    return kit_seal(kit_objects(object, 5, "/Size 6/Root 1 0 R/Info 5 0 R"), ours);
}

static mf_bytes sealed(void)
{
    return sealed_of(PAGE, CONTENTS);
}

#endif
