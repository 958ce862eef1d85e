/* answer.h - what is sent beside the page of a job: the page without data, its two scripts, and
 * what a browser may do with all of them. */
#ifndef MF_SERVE_ANSWER_H
#define MF_SERVE_ANSWER_H

#include "base/mem.h"

extern const char mf_serve_shell[], mf_serve_boot[], mf_serve_worker[];

/* The policy (CSP level 3) of the shell and its scripts. */
extern const char mf_serve_policy[];
/* That of a page which has everything in it: the scripts and styles of html by their SHA-256,
 * and nothing from elsewhere. html is the page before anybody's data is in it, or a script in
 * those would be let run. False when memory ran out. */
bool mf_serve_page_policy(mf_buf *out, const char *html, size_t len);

/* Headers of every answer, name and value, ended by NULL. */
extern const char *const mf_serve_headers[][2];

#endif
