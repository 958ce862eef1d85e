/* rec.h - what the sections of a paper share: the page, the job, the audit's
 * findings, and short ways to say things in the language asked for. Everything
 * said lives in the arena until the paper is done. */
#ifndef MF_PAPER_REC_H
#define MF_PAPER_REC_H

#include "paper/names.h"
#include "paper/page.h"
#include "paper/table.h"

#include <mistfold/paper.h>

typedef struct mf_rec {
    mf_page page;
    mf_arena arena;
    const mf_paper_ask *ask;
    const mf_job *job;
    mf_house house;       /* empty texts when the job has none */
    mf_finding *findings; /* of all questions */
    size_t n_findings;
    const mf_paint_finding *paint; /* by component; NULL until asked for */
    int contents;                  /* page that is kept for the contents */
    int contents_part;             /* and its part of what is read */
    int section;                   /* number of the last section heading */
    mf_paper_blocks blocks;        /* where seals are drawn */
    bool long_days;                /* "September 16, 2026", for who is not of the trade */
} mf_rec;

/* Opens the document and takes over the ask; close with mf_rec_close. */
mf_status mf_rec_open(mf_rec *rec, const mf_paper_ask *ask, const char *title_id, mf_err *err);
/* Runs the audit into rec->findings. */
mf_status mf_rec_audit(mf_rec *rec, mf_err *err);
void mf_rec_close(mf_rec *rec);

/* How the area was found clean, by the question of the signs, or what is lacking. */
mf_area_check mf_rec_check(mf_rec *rec, const mf_area *area);
/* The same where the reason does not matter; *on as there. */
mf_cleared mf_rec_cleared(mf_rec *rec, const mf_area *area, mf_day *on);

/* What the evidence says of the job's component of that index: judged once a paper. */
mf_paint_finding mf_rec_paint(mf_rec *rec, size_t component);
/* All of them, by component; NULL when memory ran out. */
const mf_paint_finding *mf_rec_paints(mf_rec *rec);

/* ---- words ---------------------------------------------------------------- */

/* paper.<id>; the id itself when it has no words. Never NULL. */
const char *mf_phrase(const mf_rec *rec, const char *id);
/* <prefix>.<id>, the same way. */
const char *mf_phrase2(const mf_rec *rec, const char *prefix, const char *id);
/* paper.<id> with {1} {2} {3} filled. */
const char *mf_fill(mf_rec *rec, const char *id, const char *a, const char *b, const char *c);
/* Printed into the arena. */
const char *mf_print(mf_rec *rec, const char *format, ...) MF_PRINTF(2, 3);

/* The words of an enumeration's value. */
const char *mf_enum(const mf_rec *rec, mf_family family, int value);
const char *mf_stated(const mf_rec *rec, const char *text); /* or "not given" */
const char *mf_day_words(mf_rec *rec, mf_day day);
const char *mf_when_words(mf_rec *rec, mf_day day, int32_t minute);
const char *mf_minutes_words(mf_rec *rec, int64_t minutes_since_1970);
/* "2026-09-14T12:30:00Z" as people write it. */
const char *mf_logged_words(mf_rec *rec, const char *at);
/* "English" of "en"; a code without words as it is. */
const char *mf_language_words(mf_rec *rec, const char *code);
const char *mf_tri_words(const mf_rec *rec, mf_tri tri);
const char *mf_number_words(mf_rec *rec, int64_t number, mf_unit unit);
/* The planned start, and the day of the completion, by which limits hold; today where it is not
 * known, or without a job. */
mf_day mf_rec_start(const mf_rec *rec);
mf_day mf_rec_end(const mf_rec *rec);
/* A limit with its unit, by the strictest row that holds for the job, or without a job the
 * federal one; "" = none in force on that day. */
const char *mf_limit_words(mf_rec *rec, mf_limit_id id, mf_day day);
/* The same where the law is quoted: a stricter limit of the place or contract stands beside it. */
const char *mf_law_words(mf_rec *rec, mf_limit_id id, mf_day day);
const char *mf_loading_words(mf_rec *rec, int64_t ug_cm2, mf_qualifier qualifier);
const char *mf_count_words(mf_rec *rec, size_t n);
const char *mf_person_words(const mf_rec *rec, const char *id);
/* a, or a + separator + b when b is not empty. */
const char *mf_join(mf_rec *rec, const char *a, const char *separator, const char *b);

/* An opening's number, with its size when it was measured: "W01, 30 × 54 in". */
const char *mf_opening_words(mf_rec *rec, const mf_opening *opening);
/* A list of the words that are typed as such ("drywall,wood"), each as paper.FAMILY.WORD has it. */
const char *mf_tokens_words(mf_rec *rec, const char *family, const char *list);
/* "A1, kitchen, unit 2B". */
const char *mf_area_place(mf_rec *rec, const mf_area *area);
/* The room of a part, or of its opening, and the unit of its work area, "2B / 3A" where its room
 * is in both, nothing where none is said; whether two parts lie in one place. */
const char *mf_part_place(mf_rec *rec, const mf_component *part);
bool mf_part_beside(const mf_rec *rec, const mf_component *a, const mf_component *b);
/* Which one of its type a part is that is at no opening: its label, with its id where that is not
 * enough; "" = there is one alone, or an opening tells. */
const char *mf_part_own(mf_rec *rec, const mf_component *part);
/* A component by its name and its opening or room: "the stop at W03"; its id when it is not listed.
 */
const char *mf_part_words(mf_rec *rec, const char *id);
/* A list of ids, "a,b", as "a, b": it can wrap. */
const char *mf_list_words(mf_rec *rec, const char *list);

/* The reading beside a verdict; where a chip or a kit decided, its name: the number of another
 * test would read as if it had. */
const char *mf_deciding_words(mf_rec *rec, const mf_paint_finding *found);

/* The laboratory's report of a result: as it was named, with its file and SHA-256
 * when it is attached; "" when nothing is known of it. */
const char *mf_lab_report(mf_rec *rec, const char *entry, const char *report);

/* ---- cells ----------------------------------------------------------------- */

mf_cell mf_plain(const char *text);
mf_cell mf_bold(const char *text);
mf_cell mf_small(const char *text);
mf_cell mf_marked(mf_mark mark, const char *text);
/* A copy in the arena, to hang below another cell; NULL when text is empty. */
const mf_cell *mf_below(mf_rec *rec, mf_cell cell);
/* Text with a note below it when the entry was corrected. */
mf_cell mf_traced(mf_rec *rec, mf_cell cell, const mf_src *src);

/* ---- sections ----------------------------------------------------------------- */

/* A numbered heading, paper.<id>. */
void mf_section(mf_rec *rec, const char *id);
void mf_subhead(mf_rec *rec, const char *id);
/* The foot of every sheet about a job: job, head of the journal, when it was printed. */
const char *mf_rec_foot(mf_rec *rec);
/* The head of the book, as "book witness" takes it; NULL when none was given. */
const char *mf_rec_head(mf_rec *rec);
/* "None recorded." with what is lacking named. */
void mf_none(mf_rec *rec, const char *id);
mf_table mf_table_of(mf_rec *rec, const mf_col *cols, size_t n);
/* A table of n rows, each drawn by row; where there are none, paper.<none>, or nothing when
 * that is NULL. */
typedef void mf_row_fn(mf_rec *rec, mf_table *table, size_t i);
void mf_rows(mf_rec *rec, const mf_col *cols, size_t n_cols, size_t n, mf_row_fn *row,
             const char *none);
/* Pairs of label and value in two columns: label ids (paper.<id>), values. */
void mf_pairs(mf_rec *rec, const char *const *labels, const char *const *values, size_t n);
/* An empty line to write on with words under it. */
void mf_hand_line(mf_rec *rec, mf_point at, float width, const char *words);

#endif
