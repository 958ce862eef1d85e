/* forms.h - the papers for the clipboard, each a function that fills pages. */
#ifndef MF_PAPER_FORMS_H
#define MF_PAPER_FORMS_H

#include "paper/form.h"

/* area NULL = none chosen; rec->job NULL = blank. */
typedef void mf_form_fn(mf_rec *rec, const mf_area *area);

mf_form_fn mf_form_containment, mf_form_verification, mf_form_test_log, mf_form_acknowledgement,
    mf_form_self_certification, mf_form_training, mf_form_sign, mf_form_crew_plan;

#endif
