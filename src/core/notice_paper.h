/* notice_paper.h - whether a delivery's paper is of this house and signed by whom it is for. */
#ifndef MF_CORE_NOTICE_PAPER_H
#define MF_CORE_NOTICE_PAPER_H

#include <mistfold/job.h>

/* What a paper names that takes it away from this delivery, as the name of a reason; NULL = nothing
 * does. *asks is set to what is only doubtful, or to NULL. */
const char *mf_paper_elsewhere(const mf_job *job, const mf_party *party, const mf_notice *notice,
                               const char **asks);
const char *mf_paper_wrong_signer(const mf_job *job, const mf_party *party, const mf_notice *notice,
                                  const char **asks);

/* Whether it serves as far as these go. */
bool mf_paper_serves(const mf_job *job, const mf_party *party, const mf_notice *notice);

#endif
