/* merge_signed.c - what comes from elsewhere against the keys of devices and the heads that
 * were noted. A book brings its signatures along, and whoever says why may adopt of a device that
 * it has another key, or another history than was noted. A file of entries brings none, so that
 * it goes on with no chain that signs. */
#include "base/fail.h"
#include "book/merge.h"
#include "book/signed.h"

#include <stdio.h>
#include <string.h>

static bool is_file(const mf_merge *m)
{
    return m->other.handle == NULL;
}

mf_status mf_merge_key(mf_merge *m, const mf_line *line, mf_err *err)
{
    char key[MF_SIGN_KEY_HEX], mend[160];
    mf_status status = mf_last_key(&m->book->db, line->device, key, err);
    if (status != MF_OK || key[0] == '\0' || mf_merge_adopts(m, line->device, line->seq))
        return status;
    snprintf(mend, sizeof mend,
             "ask whoever has the device; to take it over say why: --adopt \"the reason\" --of "
             "%s, which is logged",
             line->device);
    return mf_failf(err, MF_INPUT, m->name,
                    "whoever has a copy of a book can log a key of their own in it; nothing was "
                    "taken over",
                    mend, "entry %s/%lld gives device %s another key", line->device,
                    (long long)line->seq, line->device);
}

/* Nobody adopts for this device what it did not sign: with the next entry it would sign that, and
 * no check would tell of it any more. */
static mf_status own_is_signed(mf_merge *m, mf_err *err)
{
    bool good = true;
    mf_status status = m->out->own == 0 ? MF_OK : mf_own_is_signed(m->book, &good, err);
    if (status != MF_OK || good)
        return status;
    return mf_failf(
        err, MF_INPUT, m->name, "whoever made it has no key of this device; nothing was taken over",
        "find out who did; log what is missing as new entries",
        "the chain of %s, as it comes in, does not end as this device signed it", m->book->device);
}

/* Nor for another one: no device writes into its chain without its key. */
mf_status mf_merge_signed(mf_merge *m, mf_err *err)
{
    mf_status status = is_file(m) ? MF_OK : mf_signed_merge(m->book, &m->other, err);
    if (status == MF_OK)
        status = own_is_signed(m, err);
    if (status == MF_OK && m->out->added > 0)
        status = mf_check_signed(&m->checker, err);
    if (status != MF_OK || m->found.faults == 0)
        return status;
    return mf_failf(err, MF_INPUT, m->name,
                    "what came in is not signed by the key of its device; nothing was taken over",
                    is_file(m) ? "a file brings no signatures: take the book of that device, by "
                                 "\"book merge\""
                               : "ask for the book as the device has it; no reason is taken for "
                                 "what it did not sign",
                    "%s", m->found.first);
}

/* Where a witness names no entries nobody can say whose they are, and nothing is adopted. */
static void contrary_mend(const mf_merge *m, char out[320])
{
    static const char find[] = "find out which was changed";
    char withdraw[100];
    const char *by = m->checker.contrary_by;
    snprintf(withdraw, sizeof withdraw,
             "a head noted wrongly is withdrawn at %.*s: entry withdraw %.24s --reason \"why\"",
             (int)strcspn(by, "/"), by, by);
    if (m->checker.contrary_unsaid)
        snprintf(out, 320, "%s; %s", find, withdraw);
    else if (is_file(m))
        snprintf(out, 320,
                 "%s; %s; a book may be taken over all the same, by \"book merge\" with --adopt",
                 find, withdraw);
    else
        snprintf(out, 320,
                 "%s; %s; to take over all the same: --adopt \"the reason\" --of %s, which is "
                 "logged",
                 find, withdraw, m->checker.contrary);
}

mf_status mf_merge_witnesses(mf_merge *m, mf_err *err)
{
    char mend[320];
    mf_status status = m->out->added == 0 ? MF_OK : mf_check_witnesses(&m->checker, err);
    if (status != MF_OK || m->found.faults == 0)
        return status;
    contrary_mend(m, mend);
    return mf_failf(err, MF_INPUT, m->name,
                    "a head that was noted from outside says otherwise than the two together; "
                    "nothing was taken over",
                    mend, "%s", m->found.first);
}
