/* due.h - what the office and the crew must not forget of a job. */
#ifndef MF_CLI_DUE_H
#define MF_CLI_DUE_H

#include "cli/cli.h"

#include <jansson.h>
#include <mistfold/stage.h>

/* For mf_book_unsettled: the name of a stage in which a job has no row in any list
 * of what is due, on whatever day it is asked; else "". */
const char *mf_stage_settled(const mf_job *job, mf_stage stage, mf_day today);

/* How many findings of a gate are lacking, or still owed: those on the steps of the lists, which
 * are the crew's business, and the others, which are the office's. */
typedef struct mf_lack {
    size_t crew, office;
    char first[48]; /* requirement of the first that is the office's, else the crew's */
    char then[600]; /* what was found of it and what to do, in lang */
    mf_lang lang;
} mf_lack;
mf_lack mf_lacking(const mf_job *job, mf_gate gate, mf_lang lang, mf_day today);

/* One thing with a day. */
typedef enum mf_due_what {
    MF_DUE_OFFICE,      /* papers and people before demo starts */
    MF_DUE_CREW,        /* containment before demo starts */
    MF_DUE_SIGNS,       /* cleaning and verification before the work ends */
    MF_DUE_COMPLETE,    /* the planned end has come, nobody said completed */
    MF_DUE_TAKE_DOWN,   /* the containment of a job that was called off */
    MF_DUE_UNVERIFIED,  /* somebody said completed, and the signs may not come down */
    MF_DUE_CERTIFY,     /* the certified renovator's statement */
    MF_DUE_HANDOVER,    /* the records to owner and occupants */
    MF_DUE_CERTIFICATE, /* a certificate runs out */
    MF_DUE_AMEND        /* the firm's certificate says what has changed */
} mf_due_what;

typedef struct mf_due_row {
    mf_due_what what;
    mf_day day;
    char job[48];     /* "" = of the firm */
    char who[48];     /* person id, or "office" */
    size_t n;         /* how many things are lacking */
    char subject[96]; /* certificate: its number; else the first requirement lacking */
    char then[600];   /* MF_DUE_UNVERIFIED: what was found and what to do first; certificate: that
                         its day is presumed; else "" */
} mf_due_row;

/* Ids of the words of a row: "due.office" and so on. */
const char *mf_due_words_id(mf_due_what what);
/* They grow as rows come in; failed = there was no memory for one. */
typedef struct mf_due_list {
    mf_due_row *rows;
    size_t n, cap;
    bool failed;
    mf_lang lang; /* of the sentences in them */
} mf_due_list;

/* Appends the rows of a job that is at this stage. */
void mf_due_of_job(const mf_job *job, mf_stage stage, mf_day today, mf_due_list *list);
/* Certificates are told so many days before they run out. */
enum { MF_DUE_CERTIFICATE_DAYS = 90 };
/* The same for the certificates of the firm that run out within the days given, by the last day
 * on which each holds, and for what is to be amended in one of them. */
void mf_due_of_firm(const mf_job *firm, mf_day today, int within, mf_due_list *list);

/* cmd_due.c: all that is due as of today, in the order of days; the caller frees its rows, also
 * when it fails. silent: jobs that cannot be read are not told. */
mf_status mf_due_today(mf_cli *cli, const mf_watch *watch, bool silent, mf_due_list *out,
                       mf_err *err);
/* Whether such a list has a row that says the same. */
bool mf_due_holds(const mf_due_list *list, const mf_due_row *row);
void mf_due_print(const mf_cli *cli, const mf_due_row *row);
json_t *mf_due_json(const mf_cli *cli, const mf_due_row *row);

#endif
