/* paper_kit.h - what the tests of the papers share: making a paper, looking at it
 * with programs that are not ours, and reading pixels. */
#ifndef MF_TESTS_PAPER_KIT_H
#define MF_TESTS_PAPER_KIT_H

#include "support/paper_job.h"

#include <mistfold/paper.h>

/* An ask for that job on 2026-09-30, in English, sealed by an invented person. */
mf_paper_ask paper_ask(const mf_job *job);

/* The job record written to folder/name; aborts the test when it fails. */
void paper_record_to(const char *folder, const char *name, const mf_paper_ask *ask);
void paper_write(const char *folder, const char *name, const mf_bytes *bytes);

/* For a group of tests: a folder, and a job to draw papers of. */
typedef struct paper_world {
    char folder[64];
    paper_job made;
    mf_paper_size size; /* of what is drawn */
} paper_world;

/* Puts into *state one with the small job (paper_job.h); with its records too, in English
 * record.pdf and in Spanish registro.pdf. */
int paper_world_small(void **state);
int paper_world_records(void **state);
int paper_world_end(void **state);

/* A whole file as text; the caller frees it. */
char *paper_slurp(const char *folder, const char *name);

/* Runs a command in folder and returns what it wrote to standard output. */
const char *paper_shell(const char *folder, const char *command);

/* A grey picture; 0 = black, 255 = white. */
typedef struct paper_picture {
    int w, h;
    unsigned char *at;
} paper_picture;

/* Page of a PDF at dpi, by pdftoppm. */
void paper_picture_of(paper_picture *out, const char *folder, const char *pdf, int page, int dpi);
void paper_picture_free(paper_picture *picture);

/* The smallest box that holds all ink darker than half. w 0 when there is none. */
typedef struct paper_box {
    int x, y, w, h;
} paper_box;
paper_box paper_ink(const paper_picture *picture);

#endif
