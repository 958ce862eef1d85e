/* occupied_units.h - where in a building the work is: in which units that people live in,
 * and in common areas. Who is told and gets the record follows from it (40 CFR 745.84(a)(2),
 * (b); 745.86(c)). A dwelling is one unit, "". */
#ifndef MF_CORE_OCCUPIED_UNITS_H
#define MF_CORE_OCCUPIED_UNITS_H

#include <mistfold/job.h>

/* Where a work area of a multi-unit building lies. */
typedef enum mf_within {
    MF_WITHIN_UNIT,
    MF_WITHIN_COMMON,
    MF_WITHIN_COMMON_PRESUMED, /* outside, and no unit is said */
    MF_WITHIN_UNSAID,          /* may be either: both duties are presumed */
    MF_WITHIN_BOTH             /* a contradiction: both duties are presumed */
} mf_within;
mf_within mf_area_within(const mf_job *job, const mf_area *area);

/* Whether work in the area is in a common area, or may be. */
bool mf_area_in_common(const mf_job *job, const mf_area *area);

/* Whether it lies in the unit, or may; of NULL, whether nobody said where it lies. */
bool mf_area_of_unit(const mf_job *job, const mf_area *area, const char *unit);

/* The unit of an area: its own or else the job's; "" = none is said. */
const char *mf_area_unit(const mf_job *job, const mf_area *area);

/* The units worked in, each once: *unit is set to its name, or to NULL where an area may lie
 * in any. False for a number from 0 up to mf_units_most under which there is none. */
size_t mf_units_most(const mf_job *job);
bool mf_unit_at(const mf_job *job, size_t i, const char **unit);
bool mf_unit_worked(const mf_job *job, const char *unit);

/* Whether work is in common areas, or may be. */
bool mf_common_worked(const mf_job *job);

/* The unit of an occupant, or of a vacancy; NULL = none is known. */
const char *mf_unit_of(const mf_job *job, const mf_party *occupant);
const char *mf_vacant_unit(const mf_job *job, const mf_vacancy *vacancy);

/* Whether a party is listed as an occupant of the unit; the first of them, or NULL. */
bool mf_lives_in(const mf_job *job, const mf_party *party, const char *unit);
const mf_party *mf_first_occupant(const mf_job *job, const char *unit);

/* What says that nobody lives in the unit, also where it does not count; or NULL. */
const mf_vacancy *mf_vacancy_of(const mf_job *job, const char *unit);

/* Whether it counts: from no later than the day the work begins in it, and nobody is listed. */
bool mf_vacant(const mf_job *job, const char *unit, mf_day begins);

/* Whether the owner lives in the unit and is told as owner. */
bool mf_owner_in(const mf_job *job, const char *unit);

#endif
