/* The table of targets, and what several of them need. */
#include "fuzz/fuzz.h"

#include <stdio.h>
#include <string.h>
#include <unistd.h>

const fuzz_target fuzz_targets[] = {
    {"csv", fuzz_csv},         {"intake", fuzz_intake},
    {"lists", fuzz_lists},     {"json", fuzz_json},
    {"record", fuzz_record},   {"settings", fuzz_settings},
    {"values", fuzz_values},   {"pdf", fuzz_pdf},
    {"attach", fuzz_attach},   {"cms", fuzz_cms},
    {"key", fuzz_key},         {"photo", fuzz_photo},
    {"book", fuzz_book},       {"schema", fuzz_schema},
    {"draw", fuzz_draw},       {"later", fuzz_later},
    {"stamp", fuzz_stamp},     {"entries", fuzz_entries},
    {"request", fuzz_request}, {NULL, NULL},
};

static char folder[64];

/* Only names that the targets write: nothing is searched or followed. */
static void clean_up(void)
{
    static const char *const names[] = {"other.book",         "other.book-wal",    "other.book-shm",
                                        "other.book-journal", "ours.book",         "ours.book-wal",
                                        "ours.book-shm",      "mistfold/settings", "mistfold"};
    char path[160];
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++)
        remove(fuzz_path(path, names[i]));
    rmdir(folder);
}

const char *fuzz_folder(void)
{
    if (folder[0] != '\0')
        return folder;
    const char *where = access("/dev/shm", W_OK) == 0 ? "/dev/shm" : "/tmp";
    snprintf(folder, sizeof folder, "%s/mistfold-fuzz-XXXXXX", where);
    FUZZ_HOLDS(mkdtemp(folder) != NULL);
    atexit(clean_up);
    return folder;
}

const char *fuzz_path(char out[160], const char *name)
{
    snprintf(out, 160, "%s/%s", fuzz_folder(), name);
    return out;
}

void fuzz_write(const char *path, const void *bytes, size_t len)
{
    FILE *file = fopen(path, "wb");
    FUZZ_HOLDS(file != NULL);
    FUZZ_HOLDS(fwrite(bytes, 1, len, file) == len);
    FUZZ_HOLDS(fclose(file) == 0);
}

char *fuzz_text(const uint8_t *data, size_t len)
{
    char *text = malloc(len + 1);
    FUZZ_HOLDS(text != NULL);
    if (len > 0)
        memcpy(text, data, len);
    text[len] = '\0';
    return text;
}
