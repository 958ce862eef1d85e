/* The words a person types and reads for each enum of job.h, in enum order. */
#include "core/kind_rows.h"

const char *const mf_choices_discipline[] = {"firm",          "renovator",       "inspector",
                                             "risk-assessor", "dust-technician", NULL};
const char *const mf_choices_building[] = {"dwelling", "multi-unit", "facility", NULL};
const char *const mf_choices_work[] = {
    "window-replacement", "door-replacement", "repair", "demolition", "other", NULL};
const char *const mf_choices_role[] = {"owner", "occupant", "facility", "parents", "units", NULL};
const char *const mf_choices_side[] = {"interior", "exterior", NULL};
const char *const mf_choices_opening[] = {"window", "door", NULL};
const char *const mf_choices_component[] = {
    "sash",      "interior-sill", "apron",         "interior-casing", "stop",
    "jamb",      "trough",        "exterior-sill", "exterior-casing", "door-slab",
    "threshold", "baseboard",     "wall",          "other",           NULL};
const char *const mf_choices_substrate[] = {"brick",   "concrete", "drywall", "metal",
                                            "plaster", "wood",     NULL};
const char *const mf_choices_purpose[] = {"paint", "calibration", "substrate", "retest", NULL};
const char *const mf_choices_qualifier[] = {"exact", "over", "under", NULL};
const char *const mf_choices_result[] = {"positive", "negative", "inconclusive", NULL};
const char *const mf_choices_delivery[] = {"acknowledged", "mailed",      "self-certified",
                                           "posted",       "unit-notice", NULL};
const char *const mf_choices_duty[] = {"renovator", "worker", NULL};
const char *const mf_choices_surface[] = {"sill", "floor", "countertop", NULL};
const char *const mf_choices_tick[] = {"done", "not-needed", "undone", NULL};
const char *const mf_choices_method[] = {"hand", "open-flame", "machine", "heat-gun", NULL};
const char *const mf_choices_event[] = {"look-clean", "look-dirty", "wet-match", "wet-darker",
                                        "recleaned",  "seen-dry",   "dry-wipe",  NULL};
const char *const mf_choices_cloth[] = {"none", "new", "fresh-fold", NULL};
const char *const mf_choices_dust[] = {"floor", "sill", "trough", NULL};
