/* seen.h - how far the entries of a job reached, on each device, when something was said of them
 * all: the last entry of every device, "office/87 truck/41", in the order of the devices' names. */
#ifndef MF_CORE_SEEN_H
#define MF_CORE_SEEN_H

#include <stdbool.h>

/* Whether the entry, "truck/40", is among what reached so far. A text of any other form tells of
 * nothing that was seen. */
bool mf_seen_has(const char *seen, const char *entry);

#endif
