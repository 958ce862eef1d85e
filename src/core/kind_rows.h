/* kind_rows.h - the table behind kind.h and the words of its choices. */
#ifndef MF_CORE_KIND_ROWS_H
#define MF_CORE_KIND_ROWS_H

#include <mistfold/kind.h>

extern const mf_kind mf_kind_rows[];
extern const size_t mf_kind_count;

/* Words of the enums, in the order of the enums. */
extern const char *const mf_choices_discipline[];
extern const char *const mf_choices_building[];
extern const char *const mf_choices_work[];
extern const char *const mf_choices_role[];
extern const char *const mf_choices_side[];
extern const char *const mf_choices_opening[];
extern const char *const mf_choices_component[];
extern const char *const mf_choices_substrate[];
extern const char *const mf_choices_purpose[];
extern const char *const mf_choices_qualifier[];
extern const char *const mf_choices_result[];
extern const char *const mf_choices_delivery[];
extern const char *const mf_choices_duty[];
extern const char *const mf_choices_fixture[];
extern const char *const mf_choices_wall[];
extern const char *const mf_choices_surface[];
extern const char *const mf_choices_tick[];
extern const char *const mf_choices_method[];
extern const char *const mf_choices_event[];
extern const char *const mf_choices_cloth[];
extern const char *const mf_choices_dust[];
extern const char *const mf_choices_media[];
extern const char *const mf_choices_limit[];
extern const char *const mf_choices_local_cmp[];
extern const char *const mf_choices_phase[];
extern const char *const mf_choices_own_side[];
extern const char *const mf_choices_fact[];
extern const char *const mf_choices_cause[];
extern const char *const mf_choices_stay[];
extern const char *const mf_choices_absent[];
extern const char *const mf_choices_ground[];
extern const char *const mf_choices_employer[];
extern const char *const mf_choices_capacity[];

#endif
