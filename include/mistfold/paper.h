/* mistfold/paper.h - printed papers as PDF bytes.
 *
 * US Letter or A4, embedded TrueType fonts, UTF-8, page n of m, cautions, no brand.
 * Black on white with one accent; a shape or a word carries each meaning, so
 * that a fax or a photocopy reads the same. This room judges by asking core,
 * takes its words from forms and writes no file.
 */
#ifndef MISTFOLD_PAPER_H
#define MISTFOLD_PAPER_H

#include <mistfold/cleared.h>
#include <mistfold/job.h>
#include <mistfold/words.h>

#ifdef __cplusplus
extern "C" {
#endif

/* Who will seal the paper; drawn as the visible block. */
typedef struct mf_paper_signer {
    const char *name, *capacity; /* of the key's certificate */
    const char *certificate;     /* the person's certificate number, may be "" */
    const char *fingerprint;     /* SHA-256 of the key's certificate, 64 hex digits */
    const char *signed_at;       /* "2026-09-30 16:20 UTC" */
} mf_paper_signer;

/* A photo for the record's appendix, as the file it was. No text is NULL. */
typedef struct mf_paper_photo {
    const unsigned char
        *data; /* JPEG or PNG: at most 32 MiB and 50 million pixels; NULL: fetched */
    size_t len;
    const char *name;    /* of the file, for messages and the caption */
    const char *caption; /* what it shows */
    const char *sha256;  /* of data, 64 hex digits */
    const char *entry;   /* that holds it, or "" */
    const char *about;   /* the entry that it shows, or "": that one links to it */
} mf_paper_photo;

/* Reads the bytes of a photo whose data is NULL; the paper frees them. It is called
 * when the photo is drawn, so that one is in memory at a time. */
typedef mf_status mf_paper_fetch_fn(void *user, const mf_paper_photo *photo, mf_bytes *out,
                                    mf_err *err);

/* US Letter, 8.5 x 11 inches, or A4 of ISO 216, 210 x 297 mm. */
typedef enum mf_paper_size { MF_SIZE_LETTER, MF_SIZE_A4, MF_SIZE_COUNT } mf_paper_size;

/* "letter", "a4"; NULL for no size. */
MF_API const char *mf_paper_size_name(mf_paper_size size);
/* MF_SIZE_COUNT when there is none of that name. */
MF_API mf_paper_size mf_paper_size_named(const char *name);

typedef struct mf_paper_ask {
    const mf_job *job;
    const mf_job *firm; /* without a job: whose own steps stand on its lists; or NULL */
    mf_day today;       /* the day the questions are answered for */
    mf_lang lang;
    const char *head;              /* journal head hash, 64 hex digits */
    const char *chains;            /* "office/413 truck/20": the entries it is over; or NULL */
    const char *printed_at;        /* "2026-09-30 16:20 UTC" */
    const mf_paper_signer *signer; /* NULL: unsealed, hand signature only */
    /* Where the Liberation fonts lie; several directories with ':' between them,
     * the first that has a face wins. NULL = the built-in ones. */
    const char *font_dir;
    const mf_paper_photo *photos; /* of the record; each is scaled down */
    size_t n_photos;
    mf_paper_fetch_fn *fetch; /* of photos whose data is NULL */
    void *fetch_user;
    mf_paper_size size; /* of the sheets; 0 = Letter */
} mf_paper_ask;

/* Where the visible seal block was drawn: page (1-based, 0 = none) and points. */
typedef struct mf_paper_block {
    int page;
    float x, y, w, h;
} mf_paper_block;

/* Of the record: where the seal of ask->signer was drawn, and the places that are
 * kept free for further seals. */
typedef struct mf_paper_blocks {
    mf_paper_block renovator, firm, owner;
} mf_paper_blocks;

/* The job record. Fails MF_INPUT when a character cannot be drawn or a photo cannot
 * be read (named), and
 * MF_SYSTEM when a font is absent (path named), memory ran out or the PDF
 * library failed. The caller frees *out. */
MF_API mf_status mf_paper_record(mf_bytes *out, mf_paper_blocks *blocks, const mf_paper_ask *ask,
                                 mf_err *err);

/* Whether a photo can be shown on a paper; MF_INPUT says what is wrong with it. */
MF_API mf_status mf_paper_photo_check(const mf_paper_photo *photo, mf_err *err);

/* What somebody drew by hand, as rows of 8-bit grey whose longer side is at most
 * 800: for the seal of who witnesses it. Fails like mf_paper_photo_check. The
 * caller frees *grey. */
MF_API mf_status mf_paper_drawing(mf_bytes *grey, unsigned *w, unsigned *h,
                                  const mf_paper_photo *photo, mf_err *err);

/* The letters of text as filled outlines, for words that are put on a paper after it
 * was made: no font is needed to read them. Open once; font_dir as in mf_paper_ask.
 * Fails MF_SYSTEM when a font is absent or memory ran out. */
typedef struct mf_paper_outlines mf_paper_outlines;
MF_API mf_status mf_paper_outlines_open(mf_paper_outlines **out, const char *font_dir, mf_err *err);
MF_API void mf_paper_outlines_free(mf_paper_outlines *outlines);

/* PDF operators that draw text from the origin, one unit high, and its width in that
 * unit; a mf_seal_outline_fn with the outlines as user. A letter that the font lacks
 * is a question mark. false = not valid UTF-8, or no memory. The caller frees *ops. */
MF_API bool mf_paper_outline(void *outlines, bool bold, const char *text, mf_bytes *ops,
                             float *width);

/* The summary for owner and occupant, in plain words: two pages with what
 * 40 CFR 745.86(c)-(d) asks for. Fails like mf_paper_record; the caller frees *out. */
MF_API mf_status mf_paper_summary(mf_bytes *out, const mf_paper_ask *ask, mf_err *err);

/* Papers for the clipboard, blank or with what the job says already. */
typedef enum mf_paper_form {
    MF_FORM_CONTAINMENT,        /* of one work area, of each of the job, or blank for both sides */
    MF_FORM_VERIFICATION,       /* cleaning verification, with the grid of sections */
    MF_FORM_TEST_LOG,           /* tests of the paint */
    MF_FORM_ACKNOWLEDGEMENT,    /* receipt of the pamphlet, a sheet for each of the job who signs */
    MF_FORM_SELF_CERTIFICATION, /* of a delivery that nobody signed for */
    MF_FORM_TRAINING,           /* on the job */
    MF_FORM_SIGN,               /* warning sign, large letters */
    MF_FORM_CREW_PLAN,          /* what each opening needs */
    MF_FORM_COUNT
} mf_paper_form;

/* "containment", "verification", "test-log", "acknowledgement",
 * "self-certification", "training", "sign", "crew-plan"; NULL for no form. */
MF_API const char *mf_paper_form_name(mf_paper_form form);
/* MF_FORM_COUNT when there is none of that name. */
MF_API mf_paper_form mf_paper_form_named(const char *name);

/* ask->job may be NULL: all is left to the hand. area: id of a work area of the
 * job, or "". Fails MF_INPUT when the job has no such work area, else like
 * mf_paper_record. */
MF_API mf_status mf_paper_blank(mf_bytes *out, mf_paper_form form, const char *area,
                                const mf_paper_ask *ask, mf_err *err);

#ifdef __cplusplus
}
#endif
#endif
