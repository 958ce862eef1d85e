/* minor.h - minor repair and maintenance by area. 40 CFR 745.83. */
#ifndef MF_CORE_MINOR_H
#define MF_CORE_MINOR_H

#include <mistfold/house.h>

/* The component's room: its own, or that of its opening; "" = not known. */
const char *mf_room_of(const mf_job *job, const mf_component *component);

/* The first and the last day of work, also where it began before the plan or went on after it;
 * MF_DAY_NONE. A last day that is neither planned nor told by a completion is not known. */
void mf_days_of_job(const mf_job *job, const mf_house *house, mf_day *first, mf_day *last);

/* Whether two entries put one opening into different rooms. */
bool mf_room_disputed(const mf_job *job);

/* A method that 745.85(a)(3) prohibits or restricts, or demolition. */
bool mf_method_never_minor(mf_method method);

/* Whether all is minor; fills place and minor_* of the answer. */
bool mf_minor(const mf_job *job, mf_cover_answer *out);

/* Whether nobody said if it comes off, neither of it nor of its opening; and the surface that then
 * counts for minor work, where it may count whole. MF_NUM_NONE = not known. */
bool mf_removal_unsaid(const mf_job *job, const mf_component *component);
int64_t mf_minor_area(const mf_job *job, const mf_component *component);

#endif
