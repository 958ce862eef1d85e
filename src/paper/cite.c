#include "paper/cite.h"

#include <stdbool.h>
#include <string.h>

const char *mf_cite(const char *citation)
{
    static const char title[] = "40 CFR ", part[] = "745.";
    const char *at = citation + strlen(title);
    bool ours =
        strncmp(citation, title, strlen(title)) == 0 && strncmp(at, part, strlen(part)) == 0;
    return ours ? at : citation;
}
