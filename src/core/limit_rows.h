/* limit_rows.h - the table behind limit.h, in the order of mf_limit_id; the rows
 * of one id follow each other, oldest first. */
#ifndef MF_CORE_LIMIT_ROWS_H
#define MF_CORE_LIMIT_ROWS_H

#include <mistfold/limit.h>

extern const mf_limit mf_limit_table[];
extern const size_t mf_limit_table_count;

#endif
