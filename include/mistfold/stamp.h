/* mistfold/stamp.h - time stamps by an authority: bytes in, bytes out.
 *
 * Answers: since when does this SHA-256 exist, and who says so? A time-stamping
 * authority signs the digest together with its own time, a number and its policy (a
 * token). That proves that the bytes existed before that time, as far as the authority
 * is believed; not that they are true, who made them or how old they were then.
 *
 * Nothing here reads a clock or a network: the caller carries the query to the authority
 * and its reply back. Certificates are judged as of the time in the token. Lists of
 * withdrawn certificates are not asked.
 * Sources: RFC 3161 (time stamps), RFC 5816 (ESSCertIDv2), RFC 5652 (CMS).
 */
#ifndef MISTFOLD_STAMP_H
#define MISTFOLD_STAMP_H

#include <mistfold/err.h>
#include <stdbool.h>
#include <stdint.h>

#ifdef __cplusplus
extern "C" {
#endif

#define MF_STAMP_HEX        65                  /* 64 hex digits of SHA-256 and a NUL */
#define MF_STAMP_REPLY_MAX  ((size_t)32 * 1024) /* a longer reply is refused */
#define MF_STAMP_SERIAL_MAX 44 /* up to 160 bits in hex (RFC 3161, 2.4.2), a sign and a NUL */

typedef enum mf_stamp_state {
    MF_STAMP_NONE,       /* there is no stamp */
    MF_STAMP_PROVED,     /* right, and its authority leads to one of the given roots */
    MF_STAMP_UNVERIFIED, /* right, but no roots were given: anybody may call themselves so */
    MF_STAMP_UNTRUSTED,  /* right, but its authority leads to none of the given roots */
    MF_STAMP_WRONG,      /* of other bytes, or altered */
    /* The certificate is not one for time stamps alone (extendedKeyUsage timeStamping, RFC
     * 3161, 2.3), or was not valid at the time of the stamp */
    MF_STAMP_UNFIT,
    MF_STAMP_UNREADABLE, /* no token, or by a digest older than SHA-2 */
    MF_STAMP_STATES
} mf_stamp_state;

/* "none", "proved", "unverified", "untrusted", "wrong", "unfit", "unreadable". */
MF_API const char *mf_stamp_state_name(mf_stamp_state state);
/* It is right, and nobody is known to doubt its authority: MF_STAMP_PROVED or UNVERIFIED. */
MF_API bool mf_stamp_holds(mf_stamp_state state);
/* Says in err what is wrong with a stamp of a state that does not hold; returns status. where
 * and mend go into the message; a stamp by an authority that is not trusted has a mend of its
 * own. */
MF_API mf_status mf_stamp_fault(mf_stamp_state state, mf_status status, const char *where,
                                const char *mend, mf_err *err);

typedef struct mf_stamp_report {
    mf_stamp_state state;
    int64_t at; /* seconds since 1970-01-01 UTC as the token says, its fraction left out */
    /* What it is of existed before: the same and the accuracy that the token claims, rounded
     * up to a whole second. 0 when absent. */
    int64_t before;
    char authority[128];              /* common name of its certificate */
    char fingerprint[MF_STAMP_HEX];   /* SHA-256 of that certificate */
    char policy[80];                  /* "1.2.3.4" */
    char serial[MF_STAMP_SERIAL_MAX]; /* hex */
    char imprint[2 * MF_STAMP_HEX];   /* what was stamped, hex; SHA-256, -384 or -512 */
} mf_stamp_report;

/* A query for the SHA-256, with a random nonce; asks for the certificate in the reply.
 * MF_USAGE when sha256 is no 64 lower-case hex digits, MF_SYSTEM when OpenSSL fails. The
 * caller frees *out. */
MF_API mf_status mf_stamp_query(mf_bytes *out, const char *sha256, mf_err *err);

/* Makes the query of an earlier time anew from what was kept of it: the same bytes. nonce is
 * that of mf_stamp_query_nonce. */
MF_API mf_status mf_stamp_query_of(mf_bytes *out, const char *sha256, const char *nonce,
                                   mf_err *err);
/* The nonce of a query made here, hex. MF_SYSTEM when it has none. */
MF_API mf_status mf_stamp_query_nonce(char out[MF_STAMP_HEX], const unsigned char *query,
                                      size_t len, mf_err *err);

/* The token in a reply that answers this query and no other: granted, same imprint, same
 * nonce, right signature, fit certificate. roots is PEM text with the certificates of the
 * authorities that are believed, or NULL: then the state is MF_STAMP_UNVERIFIED. MF_INPUT
 * with what is wrong in err, else the token, which the caller frees. */
MF_API mf_status mf_stamp_reply(mf_bytes *token, mf_stamp_report *out, const mf_bytes *query,
                                const unsigned char *reply, size_t len, const char *roots,
                                mf_err *err);

/* The reply's own imprint and nonce, to find the query it answers; MF_INPUT when it is no
 * reply that grants a stamp. Nothing is judged. */
MF_API mf_status mf_stamp_reply_peek(char sha256[MF_STAMP_HEX], char nonce[MF_STAMP_HEX],
                                     const unsigned char *reply, size_t len, mf_err *err);

/* Judges a token, or a whole reply, of the SHA-256; NULL = of whatever it says. MF_OK with
 * the state in out, MF_INPUT when roots hold no certificate, MF_SYSTEM. */
MF_API mf_status mf_stamp_judge(mf_stamp_report *out, const unsigned char *token, size_t len,
                                const char *sha256, const char *roots, mf_err *err);

#ifdef __cplusplus
}
#endif
#endif
