/* compare.h - a paper against the book: its record, its head, its seals. */
#ifndef MF_CLI_COMPARE_H
#define MF_CLI_COMPARE_H

#include "cli/record.h"

/* How a seal stands to the book. */
typedef enum mf_seal_stands {
    MF_SEAL_LOGGED, /* the book logged this very seal */
    MF_SEAL_KNOWN,  /* it is by a key that the book knows, in its capacity */
    MF_SEAL_UNFIT,  /* the key is known, in another capacity */
    MF_SEAL_STRANGE /* the book does not know the key */
} mf_seal_stands;

typedef struct mf_seal_found {
    mf_seal_stands stands;
    char as[16];             /* in whose place it is drawn; "" = in none */
    const mf_sealed *logged; /* of the job; NULL = not logged */
    mf_key_known key;
    char twin[MF_FINGERPRINT_HEX]; /* of another key with the same name; "" = none */
} mf_seal_found;

typedef struct mf_compared {
    mf_record *record;
    mf_job *job; /* as the book has it */
    const mf_seal_check *check;
    mf_seal_found seal[MF_SEAL_MAX]; /* nothing of a time stamp */
    size_t seals, seals_logged;      /* no time stamps, which nobody of the firm puts on */
    size_t of[MF_RECORD_CHANGES];
    size_t by_hash;     /* of those altered: in their hash alone, behind one that was */
    char contrary[320]; /* the first that was altered, is missing or left out, in words */
    mf_head_found head;
    /* Told how the seals stand, then each difference, of the hash alone but the first; NULL =
     * nobody. */
    void (*tell_seals)(const struct mf_compared *it);
    void (*tell)(const mf_record_diff *diff, void *data);
    void *data;
} mf_compared;

/* Reads the record of a verified paper and the job of the book, looks how each seal stands, and
 * holds the entries and the head of the record against the book. MF_NO when the paper has no
 * record. Who is told is set before; free it in any case. Whether its
 * findings follow from its entries is asked apart (mf_record_agrees): after a change of the
 * rule, or of this program, those of an older record do not, and it is the book's all the
 * same. */
mf_status mf_cli_compare(mf_compared *out, mf_cli *cli, const mf_bytes *pdf,
                         const mf_seal_check *check, mf_err *err);
void mf_cli_compared_free(mf_compared *it);

/* MF_OK when no entry and no head of the record is another than the book has, else MF_NO. */
mf_status mf_cli_denies(const mf_compared *it, mf_err *err);
/* MF_OK when nothing in the book contradicts the paper and every seal is by a key that the
 * book knows; else MF_NO with the first reason. */
mf_status mf_cli_contradicts(const mf_compared *it, mf_err *err);

/* What could not be compared, as the record is of an older version; NULL = nothing. */
const char *mf_cli_uncompared(const mf_compared *it);

#endif
