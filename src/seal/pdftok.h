/* pdftok.h - the words of a PDF: tokens, whole values, dictionaries, arrays.
 *
 * Everything here works on bytes that may be hostile. A token is two offsets
 * into them and is never copied. Each read burns fuel, so that no arrangement of
 * objects, however tangled, can keep a reader busy for long: when the fuel is
 * spent every further read is MF_TOK_BAD.
 * Source: ISO 32000-1, 7.2 and 7.3. */
#ifndef MF_SEAL_PDFTOK_H
#define MF_SEAL_PDFTOK_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

typedef struct mf_pdf_src {
    const unsigned char *data;
    size_t len;
    size_t fuel; /* bytes that may still be read, counting those read twice */
} mf_pdf_src;

typedef enum mf_tok_kind {
    MF_TOK_END, /* the bytes ended, or a dictionary has no such key */
    MF_TOK_BAD, /* no PDF syntax, a key given twice, or out of fuel */
    MF_TOK_INT,
    MF_TOK_REAL,
    MF_TOK_NAME,
    MF_TOK_STRING, /* (literal) */
    MF_TOK_HEX,    /* <hex> */
    MF_TOK_ARRAY,  /* as a token "[", as a value all of it */
    MF_TOK_ARRAY_END,
    MF_TOK_DICT, /* as a token "<<", as a value all of it */
    MF_TOK_DICT_END,
    MF_TOK_REF, /* as a value only: "12 0 R" */
    MF_TOK_WORD /* obj, endobj, stream, R, true, null... */
} mf_tok_kind;

typedef struct mf_tok {
    mf_tok_kind kind;
    size_t at, end; /* the bytes [at, end) */
    int64_t number; /* of an integer; the object number of a reference */
    int64_t gen;    /* the generation of a reference */
} mf_tok;

mf_pdf_src mf_pdf_src_of(const unsigned char *data, size_t len);

/* The token that begins at or after at. */
mf_tok mf_tok_next(mf_pdf_src *src, size_t at);
/* The value that begins at or after at; its end is where the next one may begin. */
mf_tok mf_val_next(mf_pdf_src *src, size_t at);

bool mf_tok_is_word(const mf_pdf_src *src, mf_tok tok, const char *word);
/* Compares a name without its slash, after resolving #xx. */
bool mf_tok_is_name(const mf_pdf_src *src, mf_tok tok, const char *name);

/* Steps through a dictionary or an array value. *at is 0 before the first step.
 * False at the end; a broken entry gives true with a value MF_TOK_BAD. */
bool mf_dict_next(mf_pdf_src *src, mf_tok dict, size_t *at, mf_tok *key, mf_tok *val);
bool mf_array_next(mf_pdf_src *src, mf_tok array, size_t *at, mf_tok *val);

/* The value of key; MF_TOK_END when absent, MF_TOK_BAD when given twice, because
 * readers disagree about which of the two counts. */
mf_tok mf_dict_get(mf_pdf_src *src, mf_tok dict, const char *key);

/* The word stream behind a dictionary, which says nothing of what is in it; MF_TOK_END
 * when there is none. */
mf_tok mf_tok_stream(mf_pdf_src *src, mf_tok dict);

bool mf_pdf_is_space(unsigned char c);

#endif
