/* merge_signed.c - what comes from elsewhere against the keys of devices and the heads that
 * were noted. A book brings its signatures along and may be adopted all the same; a file of
 * entries brings none, so that it goes on with no chain that signs. */
#include "base/fail.h"
#include "book/merge.h"
#include "book/signed.h"

static bool is_file(const mf_merge *m)
{
    return m->other.handle == NULL;
}

/* Remembers that somebody must say why, and whether somebody did. */
static bool may_stand(mf_merge *m, bool bad)
{
    m->contradicted = m->contradicted || bad;
    return !bad || m->adopt != NULL;
}

mf_status mf_merge_key(mf_merge *m, const mf_line *line, mf_err *err)
{
    char key[MF_SIGN_KEY_HEX];
    mf_status status = mf_last_key(&m->book->db, line->device, key, err);
    if (status != MF_OK || may_stand(m, key[0] != '\0'))
        return status;
    return mf_failf(err, MF_INPUT, m->name,
                    "whoever has a copy of a book can log a key of their own in it; nothing was "
                    "taken over",
                    "ask whoever has the device; to take it over say why: --adopt \"the reason\", "
                    "which is logged",
                    "entry %s/%lld gives device %s another key", line->device, (long long)line->seq,
                    line->device);
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

mf_status mf_merge_signed(mf_merge *m, mf_err *err)
{
    mf_status status = is_file(m) ? MF_OK : mf_signed_merge(m->book, &m->other, err);
    if (status == MF_OK)
        status = own_is_signed(m, err);
    if (status == MF_OK && m->out->added > 0)
        status = mf_check_signed(&m->checker, err);
    if (status != MF_OK || may_stand(m, m->found.faults > 0)) {
        m->found.faults = 0; /* of the other journal there are none */
        return status;
    }
    return mf_failf(err, MF_INPUT, m->name,
                    "what came in is not signed by the key of its device; nothing was taken over",
                    is_file(m) ? "a file brings no signatures: take the book of that device, by "
                                 "\"book merge\""
                               : "ask for the book as the device has it; to take the entries over "
                                 "all the same say why: --adopt \"the reason\", which is logged",
                    "%s", m->found.first);
}

mf_status mf_merge_witnesses(mf_merge *m, mf_err *err)
{
    mf_status status = m->out->added == 0 ? MF_OK : mf_check_witnesses(&m->checker, err);
    if (status != MF_OK || may_stand(m, m->found.faults > 0)) {
        m->found.faults = 0;
        return status;
    }
    return mf_failf(err, MF_INPUT, m->name,
                    "a head that was noted from outside says otherwise than the two together; "
                    "nothing was taken over",
                    is_file(m) ? "find out which was changed; a book may be taken over all the "
                                 "same, by \"book merge\" with --adopt"
                               : "find out which was changed; to take the entries over all the "
                                 "same say why: --adopt \"the reason\", which is logged",
                    "%s", m->found.first);
}
