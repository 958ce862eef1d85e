/* wetted.h - when things of a verification happened, and what of a surface still waits to dry. */
#ifndef MF_CORE_WETTED_H
#define MF_CORE_WETTED_H

#include <mistfold/job.h>

/* Minutes since 1970 of an event of the job, by its number. One without a time stands at the
 * latest time known of the events of its area that were entered before it on that day. */
int64_t mf_event_when(const mf_job *job, size_t index);

/* Whether another section of the surface waits for its dry cloth and was not seen dry when the
 * dry cloth of the event was used, of the job or not yet. Sills are each by itself. */
bool mf_wet_elsewhere(const mf_job *job, const mf_surface *surface, const mf_verification *event,
                      int64_t when);

#endif
