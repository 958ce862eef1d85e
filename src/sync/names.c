/* names.c - a name is read from its beginning, and each part of it to the sign that ends it. */
#include "sync/names.h"

#include "base/hex.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static bool take_device(const char **at, char out[MF_DEVICE_MAX + 1], char end)
{
    const char *stop = strchr(*at, end);
    size_t len = stop == NULL ? SIZE_MAX : (size_t)(stop - *at);
    if (len > MF_DEVICE_MAX)
        return false;
    snprintf(out, MF_DEVICE_MAX + 1, "%.*s", (int)len, *at);
    *at += len + 1;
    return mf_is_device(out);
}

static bool take_number(const char **at, int64_t *out, char end)
{
    size_t len = strspn(*at, "0123456789");
    if (len == 0 || len > 15 || (*at)[len] != end || (*at)[0] == '0')
        return false;
    *out = strtoll(*at, NULL, 10);
    *at += len + 1;
    return true;
}

/* The digest and what stands behind it. */
static bool take_end(const char *at, char sha256[MF_HASH_HEX], const char *end)
{
    snprintf(sha256, MF_HASH_HEX, "%s", at);
    return strlen(at) == MF_HASH_HEX - 1 + strlen(end) && mf_hex_is(sha256, MF_HASH_HEX - 1) &&
           strcmp(at + MF_HASH_HEX - 1, end) == 0;
}

static bool is_piece(const char *file, mf_sync_named *out)
{
    return take_device(&file, out->device, '.') && take_number(&file, &out->from, '-') &&
           take_number(&file, &out->to, '.') && out->from <= out->to &&
           take_end(file, out->sha256, ".entries");
}

bool mf_sync_name_split(const char *name, mf_sync_named *out)
{
    *out = (mf_sync_named){.from = 0};
    if (!take_device(&name, out->writer, '/'))
        return false;
    if (is_piece(name, out))
        return true;
    out->device[0] = '\0';
    out->from = out->to = 0;
    return take_end(name, out->sha256, ".bytes");
}
