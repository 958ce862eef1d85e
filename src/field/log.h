/* log.h - adding an entry: what log.c does for pictures and corrections as well. */
#ifndef MF_FIELD_LOG_H
#define MF_FIELD_LOG_H

#include "field/page.h"
#include "journal/amend.h"

/* Whether an entry of that kind is made at the house. */
bool mf_field_is_logged_here(const char *kind);
/* MF_INPUT: it is not. */
mf_status mf_field_not_here(const char *kind, mf_err *err);
/* Clock and hand of the request. */
mf_now mf_field_now(const mf_field_page *page);
/* The draft of a kind with the fields of the request. */
mf_status mf_field_draft(const mf_field_page *page, const mf_kind *kind, mf_draft **out,
                         mf_err *err);
/* What core will not have logged, beside what no draft may be. */
mf_status mf_field_check_judged(const mf_field_page *page, const mf_kind *kind, const json_t *body,
                                mf_err *err);
/* Checks the draft and adds it. */
mf_status mf_field_add_draft(mf_field_page *page, mf_draft *draft, json_t *out, mf_err *err);
/* Adds an entry with a body that was checked; "dry" only says whether it could be. */
mf_status mf_field_append(mf_field_page *page, const char *kind, const json_t *body, json_t *out,
                          mf_err *err);

#endif
