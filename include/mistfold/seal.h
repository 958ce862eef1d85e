/* mistfold/seal.h - the digital signature on a paper: bytes in, bytes out.
 *
 * Answers: was this file altered since this key signed it? It does not answer
 * who holds the key: with a certificate somebody made for themselves only the
 * SHA-256 fingerprint, kept elsewhere too, ties the key to a person.
 *
 * A seal is a PAdES baseline signature (SubFilter ETSI.CAdES.detached, SHA-256)
 * added to a PDF as an incremental update, so that the bytes that were sealed
 * stay as they were. Papers that mistfold did not make can be checked as well.
 *
 * With a time stamp of an authority over the signature (PAdES B-T) it is proved that the
 * seal existed before that time, whatever the signer's clock says.
 *
 * This room knows nothing of jobs, books or how a paper is drawn.
 * Sources: ISO 32000-1 (PDF), ETSI EN 319 142-1 (PAdES), RFC 5652 (CMS),
 * RFC 5035 (signing-certificate-v2), RFC 7292 (PKCS #12).
 */
#ifndef MISTFOLD_SEAL_H
#define MISTFOLD_SEAL_H

#include <mistfold/err.h>
#include <mistfold/stamp.h>
#include <stdbool.h>
#include <stdint.h>

#ifdef __cplusplus
extern "C" {
#endif

#define MF_FINGERPRINT_HEX 65 /* 64 hex digits of SHA-256 and a NUL */

/* A private key with its certificate, opened from a PKCS #12 file. */
typedef struct mf_key mf_key;

/* Who a newly made key is for. All text UTF-8; common_name must not be empty. */
typedef struct mf_key_holder {
    const char *common_name;  /* the person or the firm */
    const char *organization; /* the firm, may be "" */
    const char *capacity;     /* "certified renovator", may be ""; stored as the subject's title */
    int valid_days;           /* from now, at least 1 */
} mf_key_holder;

/* Makes a P-256 key and a self-signed certificate and returns them as PKCS #12
 * bytes under the passphrase. Reads the clock for the certificate's dates.
 * Fails MF_USAGE on an empty name, no days or an empty passphrase, and on text of
 * more than 64 characters or with control characters; MF_SYSTEM when OpenSSL
 * fails. The caller frees *p12. */
MF_API mf_status mf_key_make(mf_bytes *p12, const mf_key_holder *holder, const char *passphrase,
                             mf_err *err);

/* Opens PKCS #12 bytes. Fails MF_INPUT with "wrong passphrase" told apart from
 * "no PKCS #12 file" and from "holds no private key". The caller frees *out. */
MF_API mf_status mf_key_open(mf_key **out, const unsigned char *p12, size_t len,
                             const char *passphrase, mf_err *err);

/* Accepts NULL; wipes what it held. */
MF_API void mf_key_free(mf_key *key);

/* The certificate's SHA-256 fingerprint, lower-case hex. */
MF_API void mf_key_fingerprint(const mf_key *key, char out[MF_FINGERPRINT_HEX]);

/* The subject's common name and title; live as long as the key. */
MF_API const char *mf_key_common_name(const mf_key *key);
MF_API const char *mf_key_capacity(const mf_key *key);

/* Where the visible block of the seal lies. The words in it are drawn by the
 * paper before it is sealed; the signature's widget covers this rectangle. */
typedef struct mf_seal_place {
    int page;         /* 1-based; 0 = an invisible seal on the first page */
    float x, y, w, h; /* PDF points from the page's lower left corner */
} mf_seal_place;

/* What somebody drew by hand: rows of 8-bit grey without gaps, 255 = white. */
typedef struct mf_seal_drawing {
    const unsigned char *grey;
    unsigned w, h; /* at least 1, at most MF_SEAL_DRAWING_SIDE */
    /* UTF-8, needed: under it, whose hand it is and when; above the words of the seal, that
     * whoever seals was the witness. */
    const char *whose, *witness;
} mf_seal_drawing;
#define MF_SEAL_DRAWING_SIDE 4096

/* Gives PDF operators that draw text from the origin, one unit high, without any
 * font, and its width; false when it cannot. The seal frees *ops. */
typedef bool mf_seal_outline_fn(void *user, bool bold, const char *text, mf_bytes *ops,
                                float *width);

/* Has an authority stamp the SHA-256 (stamp.h): the token, which the seal frees. */
typedef mf_status mf_seal_stamp_fn(void *user, const char *sha256, mf_bytes *token, mf_err *err);

typedef struct mf_seal_ask {
    const mf_key *key;
    const char *reason;   /* UTF-8, may be "" */
    const char *location; /* UTF-8, may be "" */
    int64_t signed_at;    /* seconds since 1970-01-01 UTC, the signer's clock */
    mf_seal_place place;
    bool draw; /* the paper does not hold the words of the seal: draw them in its place */
    const mf_seal_drawing *drawing; /* on the left of these words; NULL = none. Needs draw. */
    /* Draws the words; NULL = in Helvetica, which the reader's program must have and
     * which shows a letter outside Latin-1 as a question mark. */
    mf_seal_outline_fn *outline;
    void *outline_user;
    mf_seal_stamp_fn *stamp; /* NULL = no time stamp */
    void *stamp_user;
} mf_seal_ask;

/* Appends one signature. May be called again on its own output: each seal is a
 * further update and covers all bytes before it. Fails MF_USAGE when the page, the
 * place, the time, the text or the drawing cannot be, MF_INPUT when pdf is not an open PDF with
 * a classic cross-reference table, has MF_SEAL_MAX seals, or is so damaged that mf_seal_verify
 * does not find the new seal good and its stamp right; as ask->stamp fails; MF_SYSTEM when OpenSSL
 * or memory fails. The caller frees *out. pdf is not changed. */
MF_API mf_status mf_seal_sign(mf_bytes *out, const unsigned char *pdf, size_t len,
                              const mf_seal_ask *ask, mf_err *err);

/* Appends a document time stamp: an authority's token over all bytes before it, with nothing
 * drawn. The same paper gives the same SHA-256 every time, so that a reply may be taken later.
 * Fails as stamp does, and as mf_seal_sign. The caller frees *out. */
MF_API mf_status mf_seal_stamp(mf_bytes *out, const unsigned char *pdf, size_t len,
                               mf_seal_stamp_fn *stamp, void *user, mf_err *err);

typedef enum mf_seal_state {
    MF_SEAL_GOOD,       /* unaltered since this key signed */
    MF_SEAL_ALTERED,    /* the signed bytes are not what was signed */
    MF_SEAL_BAD_RANGE,  /* the byte range leaves bytes uncovered or is malformed */
    MF_SEAL_UNREADABLE, /* the signature itself cannot be read */
    /* What was signed is as it was, but the signature calls itself CAdES and does not sign
     * which certificate is meant (signing-certificate-v2, ETSI EN 319 122-1, 5.2.2) */
    MF_SEAL_NOT_ACCEPTED
} mf_seal_state;

typedef struct mf_seal_report {
    mf_seal_state state;
    char common_name[128];
    char capacity[128];
    char fingerprint[MF_FINGERPRINT_HEX];
    int64_t signed_at; /* as the signer's clock said; 0 when absent */
    bool self_made;    /* the certificate signed itself: who holds the key is not proved */
    bool covers_whole; /* nothing follows the bytes it covers */
    bool taken_off;    /* a later update hid it: its bytes are there, no reader shows it */
    bool changed;      /* between the seal before and this one more was done than sealing, or
                        * the paper cannot be followed so that nobody knows */
    /* Of a good seal: what it draws lies in here; page 0 = it draws nothing. More than any
     * page when nothing bounds what a later one draws, in every reader */
    mf_seal_place look;
    bool may_cover;         /* set by mf_seal_looks: a later seal, drawn where words may be */
    bool out_of_days;       /* signed_at is not among the days of the certificate: no proof of
                             * anything, as both may be chosen, but worth a question */
    bool backdated;         /* signed_at is more than a day before that of the seal before */
    size_t covered_len;     /* length of the revision it covers */
    size_t gap_at, gap_end; /* where its own bytes stand, which it leaves out */
    /* A document time stamp (ETSI EN 319 142-1, 5.4.3): an authority's token over the bytes in
     * place of a signer's seal. state says whether it is of these bytes, common_name and
     * fingerprint are the authority's, signed_at is 0. */
    bool is_stamp;
    /* Of the seal's signature (PAdES B-T), or the document time stamp itself. mf_seal_verify
     * knows no roots: then nobody vouches for the authority (MF_STAMP_UNVERIFIED). */
    mf_stamp_report stamp;
    /* The signer's clock is more than a day ahead of an authority's that stamped this seal */
    bool clock_ahead;
} mf_seal_report;

#define MF_SEAL_MAX 16 /* more signatures than this on one paper are refused */

typedef struct mf_seal_check {
    int n;
    mf_seal_report seal[MF_SEAL_MAX]; /* in the order they were made */
    size_t unsealed_tail;             /* bytes after the last good seal's revision; 0 = none */
} mf_seal_check;

/* Checks every signature of a PDF. Never trusts an offset, length or name in it.
 * Returns MF_OK when there is at least one seal of a signer, all seals and stamps are good and
 * the last one covers the whole file; MF_NO when the file has no seal, was altered, has bytes
 * that no seal covers, had a seal taken off or was changed between two seals (err says which; out
 * is filled as far as it could be); MF_INPUT when it is no PDF or has more than MF_SEAL_MAX seals.
 * Whether all seals are by the right key is the caller's to compare, and whether a
 * later one is drawn over words of the paper mf_seal_looks tells. */
MF_API mf_status mf_seal_verify(mf_seal_check *out, const unsigned char *pdf, size_t len,
                                mf_err *err);

/* Judges the time stamps of a paper that was verified once more, against the authorities'
 * roots (PEM text): MF_OK when all there are lead to one of them, MF_NO with the first that does
 * not in err, MF_INPUT when roots hold no certificate. */
MF_API mf_status mf_seal_stamps(mf_seal_check *check, const unsigned char *pdf, size_t len,
                                const char *roots, mf_err *err);

/* Of a paper that was verified: MF_OK when what each seal after the first draws lies in
 * one of the places that the paper keeps free for seals, with no other seal in it; MF_NO
 * with the first that does not in err: it may cover words. Sets may_cover of each. Places may be
 * NULL when n is 0. */
MF_API mf_status mf_seal_looks(mf_seal_check *check, const mf_seal_place *places, size_t n,
                               mf_err *err);

/* Whether they have more than a point in common; a seal in the one covers one in the other. */
MF_API bool mf_seal_places_meet(const mf_seal_place *a, const mf_seal_place *b);

/* A file that is attached to a paper. */
#define MF_ATTACHED_MAX ((size_t)64 * 1024 * 1024)
typedef struct mf_embedded {
    const char *name; /* letters, digits and . _ - */
    const char *mime; /* "application/json" */
    const char *what; /* UTF-8, what a reader shows beside it */
    const unsigned char *data;
    size_t len;
} mf_embedded;

/* Attaches a file by an update of our own. Fails MF_USAGE on a name that cannot be,
 * MF_INPUT when pdf is sealed already (attach first), has attachments or is no PDF
 * that can be followed, MF_SYSTEM when memory ran out. The caller frees *out. */
MF_API mf_status mf_seal_attach(mf_bytes *out, const unsigned char *pdf, size_t len,
                                const mf_embedded *file, mf_err *err);

/* Takes an attached file out, whether sealed or not; verify first. MF_NO when there
 * is none of that name, MF_INPUT when it cannot be read, MF_SYSTEM when memory ran out.
 * The bytes end in a NUL that is not counted. The caller frees *out. */
MF_API mf_status mf_seal_attached(mf_bytes *out, const unsigned char *pdf, size_t len,
                                  const char *name, mf_err *err);

/* SHA-256 of bytes as lower-case hex; "" when memory ran out. */
MF_API void mf_sha256_hex(const unsigned char *data, size_t len, char out[MF_FINGERPRINT_HEX]);

/* A signature of a text that is no paper, as CMS in DER, which the caller frees; MF_SYSTEM when
 * OpenSSL or memory fails. And its check: state, names and fingerprint of *out are filled;
 * MF_SYSTEM when memory ran out. */
MF_API mf_status mf_seal_words(mf_bytes *der, const mf_key *key, const char *text, mf_err *err);
MF_API mf_status mf_seal_words_check(mf_seal_report *out, const unsigned char *der, size_t len,
                                     const char *text, mf_err *err);

#ifdef __cplusplus
}
#endif
#endif
