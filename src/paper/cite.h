/* cite.h - citations where there are many: 40 CFR 745 is the whole paper's subject, so that a
 * citation of it goes without its title; beside the meaning of the marks that is said. */
#ifndef MF_PAPER_CITE_H
#define MF_PAPER_CITE_H

/* "745.85(a)(1)" of "40 CFR 745.85(a)(1)"; another title's as it is. */
const char *mf_cite(const char *citation);

#endif
