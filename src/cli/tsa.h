/* tsa.h - time-stamping authorities: who is asked, whom one trusts, and what they said. */
#ifndef MF_CLI_TSA_H
#define MF_CLI_TSA_H

#include "cli/cli.h"

#include <jansson.h>

/* tsa.c, the one place that uses a network: carries a query to the authority and its reply
 * back (RFC 3161, 3.4), within so many seconds. Follows no redirect. MF_SYSTEM when it cannot
 * be reached, MF_INPUT when what it answers cannot be a reply. The caller frees *reply. */
mf_status mf_tsa_ask(const char *url, long seconds, const mf_bytes *query, mf_bytes *reply,
                     mf_err *err);

/* tsa_who.c: the authority to ask and the roots of those one trusts, from options or settings. */
typedef struct mf_tsa {
    const char *url;
    long seconds;
    mf_bytes roots;       /* PEM text; none: nobody vouches for an authority */
    mf_stamp_report said; /* of the last stamp */
} mf_tsa;
/* MF_INPUT, of where, when that is no address of an authority. */
mf_status mf_tsa_url(const char *url, const char *where, mf_err *err);
/* How long it is waited for an authority, from the text of the setting; MF_INPUT names where. */
mf_status mf_tsa_wait(const char *text, const char *where, long *seconds, mf_err *err);
/* MF_INPUT when the roots cannot be read; with ask MF_USAGE when there is no authority. */
mf_status mf_tsa_open(mf_tsa *out, const mf_cli *cli, const mf_args *args, bool ask, mf_err *err);
void mf_tsa_close(mf_tsa *tsa);
/* NULL when there are none. */
const char *mf_tsa_roots(const mf_tsa *tsa);

/* Has the SHA-256 stamped: the token, and the reply as it came; both are the caller's. */
mf_status mf_tsa_stamp(mf_tsa *tsa, const char *sha256, mf_bytes *token, mf_bytes *reply,
                       mf_err *err);
/* The same for a seal (mf_seal_stamp_fn); user is a mf_tsa. */
mf_status mf_tsa_stamp_seal(void *user, const char *sha256, mf_bytes *token, mf_err *err);

/* Minutes since 1970, as people read them: "2026-11-29 14:03 UTC". */
enum { MF_TSA_WHEN = 32 };
void mf_tsa_when(int64_t minutes, char out[MF_TSA_WHEN]);
/* The time of a stamp to the second: "2026-11-29T14:02:07Z". */
enum { MF_TSA_TOLD = 24 };
void mf_tsa_told(const mf_stamp_report *stamp, char out[MF_TSA_TOLD]);
/* What a stamp says, as an object of JSON, the caller's. */
json_t *mf_tsa_json(const mf_stamp_report *stamp);
/* A line for people, behind a label: "existed before 2026-11-29 14:03 UTC, by NAME". */
void mf_tsa_say(const mf_cli *cli, const char *label, const mf_stamp_report *stamp);
/* A sentence behind it, when nobody vouches for the authority. */
void mf_tsa_say_unverified(const mf_cli *cli, const mf_stamp_report *stamp);
/* Both, of a stamp made now; and a sentence when this computer's clock and the authority's
 * are far apart. */
void mf_tsa_say_new(const mf_cli *cli, const char *label, const mf_stamp_report *stamp);

/* stamped.c: the stamps that are in the book. What "book check" needs of them. */
typedef struct mf_stamped mf_stamped;
/* Judges all of them, also those that were withdrawn: MF_OK, or MF_NO with the first that
 * contradicts the book in err. Free it always. */
mf_status mf_stamped_read(mf_stamped **out, const mf_cli *cli, const mf_tsa *tsa, mf_err *err);
void mf_stamped_free(mf_stamped *stamped);
/* A stamp that was kept elsewhere, as a file. Its head goes to heads, for
 * mf_book_check_against, unless a stamp in the book is of it too. MF_INPUT when it is none. */
mf_status mf_stamped_elsewhere(mf_stamped *stamped, const char *path, const mf_tsa *tsa,
                               mf_buf *heads, mf_err *err);
/* Of none that could be read (NULL) nothing is told. */
void mf_stamped_say(const mf_stamped *stamped, const mf_cli *cli);
/* As a list, the caller's; NULL when memory ran out. */
json_t *mf_stamped_json(const mf_stamped *stamped);

/* What the head of the book is of, "device/seq hash, device/seq hash", and the head. */
mf_status mf_stamped_heads(mf_buf *out, char head[MF_HASH_HEX], mf_book *book, mf_err *err);

#endif
