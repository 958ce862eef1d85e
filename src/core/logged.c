/* When and on which device an entry was made. Two devices may have two clocks: what they say of the
 * time of day is held against the times at which they logged it, all of them UTC. */
#include "core/logged.h"

#include "core/text.h"
#include "core/when.h"
#include <string.h>

enum { DAY = MF_DAY_TEXT - 1, TIME = MF_MINUTE_TEXT - 1 };

int64_t mf_logged_minute(const char *at)
{
    char day[MF_DAY_TEXT] = "", time[MF_MINUTE_TEXT] = "";
    if (at == NULL || strlen(at) < DAY + 1 + TIME || at[DAY] != 'T')
        return MF_NUM_NONE;
    memcpy(day, at, DAY);
    memcpy(time, at + DAY + 1, TIME);
    mf_day on = mf_day_parse(day, NULL);
    int32_t minute = mf_minute_parse(time);
    return on == MF_DAY_NONE || minute == MF_MINUTE_NONE ? MF_NUM_NONE : mf_when(on, minute);
}

/* An entry is named "device/number". */
static size_t device_len(const char *entry)
{
    return strcspn(mf_or_empty(entry), "/");
}

static bool one_device(const mf_src *a, const mf_src *b)
{
    size_t len = device_len(a->entry);
    return len == device_len(b->entry) &&
           strncmp(mf_or_empty(a->entry), mf_or_empty(b->entry), len) == 0;
}

int64_t mf_logged_apart(const mf_src *first, int64_t first_said, const mf_src *then,
                        int64_t then_said)
{
    enum { A_DAY = 24 * 60 }; /* longer than any zone lies from UTC */
    int64_t from = mf_logged_minute(first->at), to = mf_logged_minute(then->at);
    bool corrected = mf_given(first->correction) || mf_given(then->correction);
    bool known = from != MF_NUM_NONE && to != MF_NUM_NONE;
    if (!known || corrected || one_device(first, then))
        return MF_NUM_NONE;
    return from - first_said > A_DAY || to - then_said > A_DAY ? MF_NUM_NONE : to - from;
}
