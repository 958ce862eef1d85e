/* record.h - the sections of the job record, in the order they are drawn. */
#ifndef MF_PAPER_RECORD_H
#define MF_PAPER_RECORD_H

#include "paper/rec.h"

void mf_record_contents_keep(mf_rec *rec);
void mf_record_contents(mf_rec *rec); /* drawn last */
void mf_record_front(mf_rec *rec);    /* title, the questions, cautions */
void mf_record_house(mf_rec *rec);    /* house, firm, people, training, notices */
void mf_record_places(mf_rec *rec);   /* its limits, visits, emergency, assisted housing */
void mf_record_schedule(mf_rec *rec); /* openings by component types */
void mf_record_tests(mf_rec *rec);    /* instruments, readings, kits, chips, determinations */
void mf_record_paint(mf_rec *rec);    /* what the evidence says of each component */
void mf_record_profile(mf_rec *rec);  /* performance profile; called by the tests */
void mf_record_retests(mf_rec *rec);  /* retest check; called by the tests */
void mf_record_plot(mf_rec *rec);     /* readings against the action level */
void mf_record_checks(mf_rec *rec);   /* calibration checks over the day; called by the tests */
void mf_record_areas(mf_rec *rec);    /* containment and practices */
void mf_record_clean(mf_rec *rec);    /* cleaning, verification, dust */
void mf_record_audit(mf_rec *rec);    /* every requirement; the limits used */
void mf_record_fixes(mf_rec *rec);    /* corrections, old and new */
void mf_record_trail(mf_rec *rec);    /* corrections, hand-over, the chain */
void mf_record_photos(mf_rec *rec);   /* appendix */
void mf_record_sign(mf_rec *rec);     /* certifications, seal, hand signatures */

/* The certifications of the record; called by the signatures. */
void mf_record_certify(mf_rec *rec);
/* The sentences that person states, "" = nobody yet; called by the certifications. */
void mf_record_statement(mf_rec *rec, const char *person);
/* Two lines to sign on: name and date. */
void mf_hand_lines(mf_rec *rec, const char *who);

/* The shape of a verdict. */
mf_mark mf_verdict_mark(mf_verdict verdict);
mf_mark mf_paint_mark(mf_paint_verdict verdict);
mf_mark mf_class_mark(mf_paint_class paint_class);
/* A component as people call it: its type and its label. */
const char *mf_component_words(mf_rec *rec, const mf_component *component);
/* A name where there is little room: without what stands in brackets behind it. */
const char *mf_brief_words(mf_rec *rec, const char *words);
/* The reason of a finding as a sentence; the same behind what is asked: "not done yet" alone does
 * not say what. */
const char *mf_why_words(mf_rec *rec, const mf_finding *finding);
const char *mf_asked_words(mf_rec *rec, const mf_finding *finding);
/* What to do about it. */
const char *mf_next_words(mf_rec *rec, const mf_finding *finding);

#endif
