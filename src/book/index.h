/* index.h - derived tables that answer questions about all jobs without going
 * through them: place (which jobs are at one address), due (what must be done by
 * which day), and those of settled.h. */
#ifndef MF_BOOK_INDEX_H
#define MF_BOOK_INDEX_H

#include "book/settled.h"

/* The SQL of place and due and their indexes. */
extern const char mf_index_sql[];
/* Their names, with a blank before each. */
#define MF_INDEX_TABLES " place due" MF_SETTLED_TABLES

/* Appends what table place has of an address (mf_address_key). It finds the addresses that
 * may be the same (mf_may_be_one_place). */
void mf_place_key(mf_buf *out, const char *address);

/* SELECT of what due should say of the firm: the newest certificate of a holder and a
 * discipline counts. */
#define MF_FIRM_ROWS                                                                               \
    "SELECT '' AS job, 'certificate' AS what, expires AS day, holder AS who, entry"                \
    " FROM certificate AS c WHERE expires IS NOT NULL AND holder IS NOT NULL AND NOT EXISTS"       \
    " (SELECT 1 FROM certificate AS d WHERE d.holder = c.holder AND d.discipline IS c.discipline"  \
    "  AND (d.expires > c.expires OR (d.expires = c.expires AND d.entry > c.entry)))"

/* Whether rows depend on an entry of this kind. */
bool mf_index_wants(const char *kind);
/* Makes the rows of one job anew from the other derived tables; job "" is the firm. */
mf_status mf_index_refresh(mf_db *db, const char *job, mf_err *err);
/* Of the firm and of all jobs. */
mf_status mf_index_fill(mf_db *db, mf_err *err);

/* The rows of job (NULL = of all) against what they should be. */
mf_status mf_index_check(mf_checker *c, const char *job, mf_err *err);

#endif
