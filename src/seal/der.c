#include "seal/der.h"

#define TAG_INTEGER  0x02
#define TAG_SEQUENCE 0x30
#define TAG_SET      0x31
#define TAG_CONTEXT  0xa0 /* [0]; [1] is one more */

#define DEPTH_MAX 32 /* signatures with their certificates stay below twenty */

/* The length at *at. False for forms that are longer than need be. */
static bool read_length(const unsigned char **at, const unsigned char *stop, size_t *out)
{
    const unsigned char *p = *at;
    size_t len = *p++;
    if (len >= 0x80) {
        size_t bytes = len - 0x80;
        if (bytes == 0 || bytes > 4 || (size_t)(stop - p) < bytes || *p == 0)
            return false;
        for (len = 0; bytes > 0; bytes--)
            len = len << 8 | *p++;
        if (len < 0x80)
            return false;
    }
    *at = p;
    *out = len;
    return (size_t)(stop - p) >= len;
}

static bool next(const unsigned char **at, const unsigned char *stop, mf_der *out, int depth);

/* An element of open length: goes over its parts to the end mark 00 00. */
static bool read_open(const unsigned char **at, const unsigned char *stop, mf_der *out, int depth)
{
    const unsigned char *p = *at;
    mf_der part;
    out->content = p;
    for (;;) {
        if (stop - p < 2)
            return false;
        if (p[0] == 0 && p[1] == 0)
            break;
        if (!next(&p, stop, &part, depth - 1))
            return false;
    }
    out->end = p;
    *at = p + 2;
    return true;
}

static bool next(const unsigned char **at, const unsigned char *stop, mf_der *out, int depth)
{
    const unsigned char *p = *at;
    size_t len;
    if (depth == 0 || stop - p < 2 || (*p & 0x1f) == 0x1f || *p == 0)
        return false;
    out->tag = *p++;
    if (*p == 0x80 && (out->tag & 0x20) != 0) {
        p++;
        if (!read_open(&p, stop, out, depth))
            return false;
    } else {
        if (!read_length(&p, stop, &len))
            return false;
        out->content = p;
        out->end = p += len;
    }
    *at = p;
    return true;
}

bool mf_der_next(const unsigned char **at, const unsigned char *stop, mf_der *out)
{
    return next(at, stop, out, DEPTH_MAX);
}

size_t mf_der_length(const unsigned char *bytes, size_t len)
{
    const unsigned char *at = bytes;
    mf_der element;
    return mf_der_next(&at, bytes + len, &element) ? (size_t)(at - bytes) : 0;
}

static bool is_sound(const unsigned char *at, const unsigned char *stop, int depth)
{
    mf_der element;
    while (at != stop) {
        if (depth == 0 || !mf_der_next(&at, stop, &element))
            return false;
        bool built = (element.tag & 0x20) != 0;
        int type = element.tag & 0x1f;
        if ((element.tag & 0xc0) == 0 && built != (type == 0x10 || type == 0x11))
            return false;
        if (built && !is_sound(element.content, element.end, depth - 1))
            return false;
    }
    return true;
}

bool mf_der_is_sound(const unsigned char *bytes, size_t len)
{
    return is_sound(bytes, bytes + len, DEPTH_MAX);
}

/* The next element, which must have this tag. */
static bool take(const unsigned char **at, const unsigned char *stop, unsigned char tag,
                 mf_der *out)
{
    return mf_der_next(at, stop, out) && out->tag == tag;
}

/* Goes into the next element, which must have this tag. */
static bool enter(const unsigned char **at, const unsigned char **stop, unsigned char tag)
{
    mf_der element;
    if (!take(at, *stop, tag, &element))
        return false;
    *at = element.content;
    *stop = element.end;
    return true;
}

static bool take_version(const unsigned char **at, const unsigned char *stop, int *out)
{
    mf_der number;
    if (!take(at, stop, TAG_INTEGER, &number) || number.end - number.content != 1)
        return false;
    *out = number.content[0];
    return true;
}

/* Goes over the rest of a level: the last of its elements. [0] and [1] are certificates
 * and attributes there, which are built of parts. OpenSSL takes them either way, as it
 * does a SET, and what is not built of parts nobody has looked into. */
static bool take_rest(const unsigned char *at, const unsigned char *stop, mf_der *last)
{
    while (at != stop) {
        if (!mf_der_next(&at, stop, last) || (last->tag & 0xe0) == 0x80)
            return false;
    }
    return true;
}

bool mf_der_look(const unsigned char *cms, size_t len, mf_der_cms *out)
{
    const unsigned char *at = cms, *stop = cms + len;
    mf_der skipped, digests, last = {0};
    if (!enter(&at, &stop, TAG_SEQUENCE) || !mf_der_next(&at, stop, &skipped) ||
        !enter(&at, &stop, TAG_CONTEXT) || !enter(&at, &stop, TAG_SEQUENCE) ||
        !take_version(&at, stop, &out->version) || !take(&at, stop, TAG_SET, &digests))
        return false;
    const unsigned char *in = digests.content;
    if (!take(&in, digests.end, TAG_SEQUENCE, &out->digest) || in != digests.end)
        return false;
    /* encapContentInfo, [0] certificates, [1] crls, and last the signers */
    if (!take_rest(at, stop, &last))
        return false;
    at = last.content;
    stop = last.end;
    /* version, whose signature it is, digest, [0] attributes, algorithm, value, [1] more */
    return last.tag == TAG_SET && enter(&at, &stop, TAG_SEQUENCE) &&
           take_version(&at, stop, &out->signer_version) && mf_der_next(&at, stop, &skipped) &&
           take_rest(at, stop, &skipped);
}
