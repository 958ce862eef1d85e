#include "paper/entry.h"

#include <string.h>

/* The house is opened where the books are kept. */
const char *mf_home_device(mf_rec *rec)
{
    const char *entry = rec->house.src.entry;
    const char *slash = strrchr(entry, '/');
    return slash == NULL ? "" : mf_print(rec, "%.*s", (int)(slash - entry), entry);
}

const char *mf_entry_words(mf_rec *rec, const char *entry)
{
    const char *home = rec->house.src.entry;
    const char *slash = strrchr(home, '/');
    size_t n = slash == NULL ? 0 : (size_t)(slash - home) + 1;
    return n > 0 && strncmp(entry, home, n) == 0 && strchr(entry + n, '/') == NULL ? entry + n
                                                                                   : entry;
}

mf_cell mf_entry_cell(mf_rec *rec, const char *entry)
{
    mf_cell cell = mf_small(mf_entry_words(rec, entry));
    cell.link = entry;
    return cell;
}
