/* The words a person types and reads for each enum of job.h, in enum order. */
#include "core/kind_rows.h"

const char *const mf_choices_discipline[] = {"firm",          "renovator",       "inspector",
                                             "risk-assessor", "dust-technician", NULL};
const char *const mf_choices_building[] = {"dwelling", "multi-unit", "facility", "other", NULL};
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
const char *const mf_choices_fixture[] = {"opening", "flap", "duct", "sign", "barrier", NULL};
const char *const mf_choices_wall[] = {"north", "east", "south", "west", NULL};
const char *const mf_choices_surface[] = {"sill", "floor", "countertop", NULL};
const char *const mf_choices_tick[] = {"done", "not-needed", "undone", NULL};
const char *const mf_choices_method[] = {"hand",       "open-flame", "machine",  "heat-gun",
                                         "dry-scrape", "dry-sand",   "stripper", "demolition",
                                         "blasting",   NULL};
const char *const mf_choices_event[] = {"look-clean", "look-dirty", "wet-match", "wet-darker",
                                        "recleaned",  "seen-dry",   "dry-wipe",  NULL};
const char *const mf_choices_cloth[] = {"none", "new", "fresh-fold", NULL};
const char *const mf_choices_dust[] = {"floor", "sill", "trough", NULL};
const char *const mf_choices_media[] = {"jpeg", "png", "pdf", NULL};

/* In the order of mf_limit_id; held to the rows of limit_rows.c by a test. */
const char *const mf_choices_limit[] = {
    "year-built",          "paint-loading",     "paint-weight",      "plausible-loading",
    "minor-interior",      "minor-exterior",    "minor-days",        "pamphlet-days",
    "mailing-days",        "floor-sheet",       "ground-sheet",      "exterior-openings",
    "property-line",       "clean-margin",      "heat-gun",          "section-undivided",
    "section-part",        "dry-wait",          "dust-floor",        "dust-sill",
    "dust-trough",         "sample-wait",       "composite-wipes",   "sample-rooms",
    "wipe-floor",          "wipe-sill",         "handover-days",     "retention-years",
    "firm-years",          "renewal-days",      "amend-days",        "course-years",
    "course-online-years", "calibration-hours", "correction-below",  "child-age",
    "zero-bedroom-child",  "visit-days",        "visit-minutes",     "visit-week",
    "visit-year",          "assisted-interior", "assisted-exterior", "assisted-part",
    "assisted-heat-gun",   "dry-spot-interior", "dry-spot-exterior", "stay-minutes",
    "stay-days",           "stay-margin",       "sign-distance",     "sample-outside",
    "blood-lead",          "assessor-years",    "emergency-days",    NULL};
const char *const mf_choices_phase[] = {"contain", "work", "clean", NULL};
const char *const mf_choices_own_side[] = {"interior", "exterior", "both", NULL};
const char *const mf_choices_local_cmp[] = {"as-federal", "below", "up-to",
                                            "at-least",   "above", NULL};
const char *const mf_choices_fact[] = {"verified", "secondary", "memory", "derived", NULL};
const char *const mf_choices_cause[] = {"sudden-event", "elevated-blood-lead", NULL};
const char *const mf_choices_stay[] = {"relocated", "no-hazard", "exterior",
                                       "one-day",   "few-days",  NULL};

/* The parts an opening may lack, in no order of an enum. */
const char *const mf_choices_absent[] = {"sash",
                                         "interior-sill",
                                         "apron",
                                         "interior-casing",
                                         "stop",
                                         "jamb",
                                         "trough",
                                         "exterior-sill",
                                         "exterior-casing",
                                         "door-slab",
                                         "threshold",
                                         "interior",
                                         "exterior",
                                         NULL};
const char *const mf_choices_ground[] = {"own-words",  "none-present", "not-used", "one-story",
                                         "all-carpet", "impossible",   NULL};
const char *const mf_choices_employer[] = {"unsaid", "firm", "owner", "independent", NULL};
const char *const mf_choices_capacity[] = {"renovator", "firm", "owner", NULL};
