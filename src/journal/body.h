/* body.h - what an entry says: a JSON object, read in place where it is flat, else as a
 * tree. */
#ifndef MF_JOURNAL_BODY_H
#define MF_JOURNAL_BODY_H

#include "base/json.h"
#include "base/json_flat.h"
#include <mistfold/book.h>
#include <mistfold/kind.h>

typedef struct mf_body {
    const char *text;
    bool is_flat;
    json_t *tree; /* NULL = not read as one so far, or no JSON */
    mf_flat flat;
} mf_body;

/* Reads text, which must live as long; MF_SYSTEM when memory ran out. A text that is no
 * JSON says nothing. mf_body_free accepts one that was never read. */
mf_status mf_body_read(mf_body *body, const char *text, mf_err *err);
/* Reads it as a tree whatever its form; the tree stays NULL when it is no JSON. */
mf_status mf_body_tree(mf_body *body, mf_err *err);
void mf_body_free(mf_body *body);

/* The text of a member, which is ended by *len alone; NULL when there is none of the type. */
const char *mf_body_text(const mf_body *body, const char *key, size_t *len);
bool mf_body_int(const mf_body *body, const char *key, int64_t *number);
bool mf_body_bool(const mf_body *body, const char *key, bool *is);

typedef enum mf_body_slip {
    MF_BODY_GOOD,         /* also where nothing is said of the field */
    MF_BODY_OTHER,        /* it is not of the field's type, or no day or time */
    MF_BODY_UNKNOWN_WORD, /* no choice of the field */
    MF_BODY_NO_MEMORY
} mf_body_slip;

/* What the body says of a field: the one place where its JSON is read. Not given where it
 * returns a slip; a text comes from the arena. */
mf_body_slip mf_body_value(const mf_body *body, const mf_field *field, mf_arena *arena,
                           mf_value *out);

/* Sets the member of a field in an item of its kind (kind.h: how a field looks in each
 * place); texts come from the arena. A member of the body that is not of the field's type
 * reads as not given. entry is for messages: a word that is no choice of the field is
 * MF_SYSTEM, named MF_ERR_UNREAD. */
mf_status mf_body_put(void *item, const mf_field *field, const mf_body *body, const char *entry,
                      mf_arena *arena, mf_err *err);
/* All fields of the kind; the first failure, though the others are set. */
mf_status mf_body_put_all(void *item, const mf_kind *kind, const mf_body *body, const char *entry,
                          mf_arena *arena, mf_err *err);

/* The item of a kind that says what a body says, itself from the arena, too; a word that is not
 * known reads as not given. NULL where there is no kind or no body. */
mf_status mf_body_item(const void **out, const mf_kind *kind, const char *body, mf_arena *arena,
                       mf_err *err);

/* The first field of the kind whose member starts at offset of its struct. */
const mf_field *mf_field_at(const mf_kind *kind, size_t offset);

#endif
