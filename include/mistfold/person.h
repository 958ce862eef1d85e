/* mistfold/person.h - was this person or firm certified on that day?
 *
 * Sources: 40 CFR 745.89(a) (firm, at most 5 years), (b)(1)(i) (renewal sent early enough), (c)
 * (amended after a change), 745.90(a)(4) (renovator
 * and dust sampling technician: 5 years from a course with a hands-on part, 3
 * years from a refresher without one), 745.226(e) (inspector, risk assessor: the
 * printed date, at most 5 years, from memory, and none of before the first program). The printed
 * expiry governs; where the course would have run out earlier than the printed date, the earlier
 * day is used. Both ends count.
 */
#ifndef MISTFOLD_PERSON_H
#define MISTFOLD_PERSON_H

#include <mistfold/job.h>

#ifdef __cplusplus
extern "C" {
#endif

/* Last day a certificate can be relied on, by the strictest limits of the job's places;
 * job NULL = by the federal ones alone. */
MF_API mf_day mf_certificate_last_day_for(const mf_job *job, const mf_certificate *certificate);

/* The last day that it would have were its course said to have had a hands-on part, where nobody
 * said so and that alone makes it shorter (745.90(a)(4)); else MF_DAY_NONE. */
MF_API mf_day mf_certificate_if_hands_on(const mf_job *job, const mf_certificate *certificate);

/* The last day on which it holds: the same, but for a firm whose renewal was postmarked in
 * time, 745.89(b)(1)(i), where it is the later of that day and the agency's decision. */
#define MF_DAY_OPEN (INT32_MAX - 1) /* not decided yet: no day is the last */
MF_API mf_day mf_certificate_until(const mf_job *job, const mf_certificate *certificate);

/* The last day on which the firm may work though what its certificate says changed and, as of day,
 * is not amended (745.89(c)). MF_DAY_NONE = nothing is open. */
MF_API mf_day mf_certificate_amend_by(const mf_job *job, const mf_certificate *certificate,
                                      mf_day day);
/* Whether on that day a change of what a firm's certificate says had not been amended in
 * time, so that the firm may not work (745.89(c)). */
MF_API bool mf_certificate_unamended(const mf_job *job, const mf_certificate *certificate,
                                     mf_day day);
/* The course before a refresher without a hands-on part, when it had none either: the
 * refresher then serves for nothing (745.90(a)(4)). NULL = it serves. A course of which nobody
 * said whether it had one counts as one without, here and below. */
MF_API const mf_certificate *mf_certificate_twice_online(const mf_job *job,
                                                         const mf_certificate *certificate);

/* Whether the one before it had ended when it was issued: then the initial course was to be taken
 * again, 745.90(a)(4). */
MF_API bool mf_certificate_after_lapse(const mf_job *job, const mf_certificate *certificate);
/* The same of a course without a hands-on part, which is not the initial one: it does not serve. */
MF_API bool mf_certificate_refreshed_late(const mf_job *job, const mf_certificate *certificate);

/* Whether it is, for one of these two reasons or as a refresher alone, a course that serves for
 * nothing: on no day is anybody certified by it. */
MF_API bool mf_certificate_serves_not(const mf_job *job, const mf_certificate *certificate);

/* Whether one of the same holder, discipline and programs that serves holds longer: then it is no
 * news that this one ends. */
MF_API bool mf_certificate_replaced(const mf_job *job, const mf_certificate *certificate);

/* Of a course that serves for nothing the one of which nobody said whether it had a hands-on part,
 * itself or the one before it, where that alone is why; NULL = it serves, or was said. */
MF_API const mf_certificate *mf_certificate_presumed_online(const mf_job *job,
                                                            const mf_certificate *certificate);

/* The holder's certificate of that discipline valid on day, or NULL. *near (may
 * be NULL) is then the one that came closest (expired or not yet issued), or
 * NULL when the person holds none. Holder "firm" with MF_DISC_FIRM is the firm. */
MF_API const mf_certificate *mf_certified(const mf_job *job, const char *holder,
                                          mf_discipline discipline, mf_day day,
                                          const mf_certificate **near);

/* The same, by a certificate that counts under a program (program.h). */
MF_API const mf_certificate *mf_certified_under(const mf_job *job, const char *holder,
                                                mf_discipline discipline, mf_day day,
                                                const char *program);

/* Whether holder was a certified inspector or risk assessor on day. */
MF_API const mf_certificate *mf_certified_assessor(const mf_job *job, const char *holder,
                                                   mf_day day);

/* The first topic of a training, of a list with ';' between them, that no task goes by: its
 * length in bytes from *at on, 0 = there is none. English and Spanish words are known. */
MF_API size_t mf_topic_unknown(const char *topics, const char **at);

#ifdef __cplusplus
}
#endif
#endif
