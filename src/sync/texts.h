/* texts.h - the files of src/sync/sql in the program, each ended by a NUL. */
#ifndef MF_SYNC_TEXTS_H
#define MF_SYNC_TEXTS_H

extern const unsigned char mf_text_store[];    /* store.sql, office.sql and end.sql */
extern const unsigned char mf_text_shape_of[]; /* shape.sql */
extern const unsigned char mf_text_shape[]; /* store.shape: what shape.sql gives of such a store */

#endif
