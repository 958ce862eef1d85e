/* course.h - the courses of one renovator or sampling technician, one after the other. */
#ifndef MF_CORE_COURSE_H
#define MF_CORE_COURSE_H

#include <mistfold/job.h>

/* Whether a course of which nobody said that it had a hands-on part has none before it: it may be a
 * refresher alone (745.90(a)(4)). */
bool mf_certificate_alone(const mf_job *job, const mf_certificate *certificate);

#endif
