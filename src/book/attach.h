/* attach.h - files kept in the book. */
#ifndef MF_BOOK_ATTACH_H
#define MF_BOOK_ATTACH_H

#include "base/json.h"
#include "book/room.h"
#include "journal/amend.h"
#include "journal/media.h"

/* In SQL: the SHA-256 that the body of an entry names, also of a body that is no JSON. */
#define MF_SHA256_OF_BODY "CASE WHEN json_valid(body) THEN body ->> '$.sha256' END"

/* An entry of this kind names bytes that are in the book and, if it says so, an
 * entry that is there. */
mf_status mf_attach_check(mf_book *book, const json_t *body, const char *where, mf_err *err);

/* Whether the book holds the bytes of that SHA-256. */
mf_status mf_content_has(mf_db *db, const char *sha256, bool *has, mf_err *err);

/* Keeps bytes under their SHA-256, once however often they come. */
mf_status mf_content_put(mf_db *db, const char *sha256, const void *bytes, size_t len, mf_err *err);

#endif
