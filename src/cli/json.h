/* json.h - the values of a kind's struct as JSON, and printing JSON. */
#ifndef MF_CLI_JSON_H
#define MF_CLI_JSON_H

#include "cli/cli.h"

#include <jansson.h>

/* A whole item: its entry, and every field by its name. */
json_t *mf_json_item(const mf_kind *kind, const void *item);
/* One row of a limit; null for NULL. */
json_t *mf_json_limit(const mf_limit *row);
json_t *mf_json_finding(const mf_cli *cli, const mf_job *job, const mf_finding *finding);
/* A day as text, or null. */
json_t *mf_json_day(mf_day day);
/* Prints and frees root; MF_SYSTEM when memory ran out. */
mf_status mf_json_print(json_t *root);
/* Prints root, which stays the caller's, and tells nobody when memory ran out. */
mf_status mf_json_put(const json_t *root, mf_err *err);
/* The same as text, the caller's to free; NULL when memory lacked at any time since
 * mf_json_watch, which comes before all other use of JSON. */
char *mf_json_text(const json_t *root, size_t flags);
void mf_json_watch(void);
/* Appends JSON, maybe of somebody else, in which what may not stand in a field
 * (base/utf8.h) is escaped: the same JSON. What is no UTF-8 becomes '?'. */
void mf_json_seen(mf_buf *out, const char *text, size_t len);

#endif
