#include "journal/settles.h"

#include "journal/line.h"
#include <string.h>

/* The part of a list up to its comma; false when it is too long, or nothing. */
static bool take(const char **list, char id[MF_ENTRY_ID])
{
    size_t len = strcspn(*list, ",");
    bool fits = len > 0 && len < MF_ENTRY_ID;
    memcpy(id, *list, fits ? len : 0);
    id[fits ? len : 0] = '\0';
    *list += len + ((*list)[len] == ',');
    return fits;
}

bool mf_settles_next(const char **list, char id[MF_ENTRY_ID])
{
    while (**list != '\0')
        if (take(list, id))
            return true;
    return false;
}

bool mf_takes_place_of(const mf_correction *it, const char *entry)
{
    return strcmp(it->replaces, entry) == 0 || mf_id_in_list(it->settles, entry);
}

bool mf_settles_well(const char *list, size_t len)
{
    char device[MF_DEVICE_MAX + 1], id[MF_ENTRY_ID], before[MF_ENTRY_ID] = "";
    int64_t seq;
    for (size_t at = 0; at <= len; at += strlen(id) + 1) {
        size_t n = 0;
        while (at + n < len && list[at + n] != ',' && n < MF_ENTRY_ID - 1)
            n++;
        memcpy(id, list + at, n);
        id[n] = '\0';
        bool ends = at + n == len || list[at + n] == ',';
        if (!ends || strlen(id) != n || !mf_entry_id_split(id, device, &seq) ||
            strcmp(before, id) >= 0)
            return false;
        memcpy(before, id, sizeof before);
    }
    return true;
}
