/* field.h - one job away from its book: text in, text out.
 *
 * A request is a JSON object whose member "do" says what is asked, with at most one file of
 * bytes beside it; the reply is one line of canonical JSON. Whoever draws it holds no limit, no
 * sentence and no verdict. Every request may have
 *   "lang" en or es, "today" 2026-09-14 and "time" 08:30 of the local clock
 * and those that log something
 *   "who" the id of who is writing, "at" the time in UTC, "dry" true = only check it
 *
 *   do        beside it                          reply
 *   load      the bytes of a .entries file       what the job is, who is in it, the banner
 *   device    "device" the name of this install  refused when the file has entries of it
 *   again     lines that "line" gave earlier     takes them in, as what was added here
 *   job                                          as load
 *   gate      "gate", "area"                     the answer, and each finding behind it
 *   steps     "area"                             the lists: before, during, after
 *   verify    "area"                             each surface, and what may follow now
 *   form      "kind", "entry"                    the fields of a kind; as an entry has them
 *   add       "kind", "fields" {option: text}    "entry", "line": what must be kept
 *   attach    a picture, "name" "note" "about"   the same; "sign" true = a drawn signature
 *   correct   "entry" "fields" "reason"          the same; without fields it is withdrawn
 *   entries                                      what was added here
 *   send                                         the file: a .entries file of what was added
 *   receipt   "text"                             which of it is known to have arrived
 *   words     "prefix"                           the wording that begins with it
 * What is refused has the member "error" {"text", "where", "what", "why", "mend"}. */
#ifndef MF_FIELD_FIELD_H
#define MF_FIELD_FIELD_H

#include <mistfold/err.h>
#include <stddef.h>

typedef struct mf_field_page mf_field_page;

/* NULL when memory ran out. */
mf_field_page *mf_field_new(void);
void mf_field_free(mf_field_page *page);

/* The reply, until the next call; never NULL. */
const char *mf_field_ask(mf_field_page *page, const char *request, const void *bytes, size_t len);
/* The file of the last reply, until the next call; *len 0 = it has none. */
const char *mf_field_file(const mf_field_page *page, size_t *len);

#endif
