/* What was in front of somebody who said something of all entries of a job: each device numbers its
 * entries without a gap, so the last one of each tells of all. 40 CFR 745.86(b)(6) asks for a
 * certification of the work, and clocks of two devices tell nothing of what one had of the other.
 */
#include "core/seen.h"

#include "core/text.h"
#include <stdint.h>

enum { DIGITS = 15 }; /* of the number of an entry */

typedef struct mark {
    const char *device; /* its len letters */
    size_t len;
    int64_t number;
} mark;

/* The device and number at *at, which goes on behind them; false = that is none. */
static bool read_mark(const char **at, mark *out)
{
    static const char letters[] = "abcdefghijklmnopqrstuvwxyz0123456789-";
    *out = (mark){*at, strspn(*at, letters), 0};
    const char *digit = *at + out->len + 1;
    if (out->len == 0 || (*at)[out->len] != '/' || *digit == '0')
        return false;
    size_t n = strspn(digit, "0123456789");
    for (size_t i = 0; i < n && n <= DIGITS; i++)
        out->number = out->number * 10 + (digit[i] - '0');
    *at = digit + n;
    return n > 0 && n <= DIGITS;
}

/* Whether the names of the devices are in this order, and two. */
static bool in_order(const mark *first, const mark *then)
{
    size_t shared = first->len < then->len ? first->len : then->len;
    int order = strncmp(first->device, then->device, shared);
    return order < 0 || (order == 0 && first->len < then->len);
}

bool mf_seen_has(const char *seen, const char *entry)
{
    mark of, one, last = {"", 0, 0};
    const char *at = mf_or_empty(entry);
    bool has = false;
    if (!read_mark(&at, &of) || *at != '\0')
        return false;
    at = mf_or_empty(seen);
    while (*at != '\0') {
        if (!read_mark(&at, &one) || !in_order(&last, &one))
            return false;
        has = has || (one.len == of.len && strncmp(one.device, of.device, of.len) == 0 &&
                      one.number >= of.number);
        last = one;
        if (*at == ' ' && at[1] != '\0')
            at++;
        else if (*at != '\0')
            return false;
    }
    return has;
}
