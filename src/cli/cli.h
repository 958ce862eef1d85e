/* cli.h - what every command of the program shares. */
#ifndef MF_CLI_CLI_H
#define MF_CLI_CLI_H

#include "base/mem.h"
#include "words/value.h"
#include <mistfold.h>
#include <stdio.h>

/* Room for a command that is told. */
enum { MF_COMMAND_MAX = 320 };

/* What may be set once (settings.h). */
typedef enum mf_setting_id {
    MF_SET_BOOK,
    MF_SET_BY,
    MF_SET_LANG,
    MF_SET_QUIET,
    MF_SET_PAGE,
    MF_SET_PLACE,
    MF_SET_STEPS,
    MF_SET_TSA,
    MF_SET_TSA_ROOTS,
    MF_SET_TSA_WAIT,
    MF_SET_COUNT
} mf_setting_id;

/* One run of the program. */
typedef struct mf_cli {
    const char *book_path; /* --book, MISTFOLD_BOOK or the default */
    const char *who;       /* --by or MISTFOLD_BY; "" when not said */
    const char *vetted;    /* who, once the book was asked whether it knows them */
    bool json;
    bool quiet;   /* --quiet or MISTFOLD_QUIET: no next step */
    bool force;   /* --force: over a file of another kind */
    bool walking; /* a walk shows what was logged itself */
    mf_lang lang;
    mf_day today;              /* local day */
    int32_t minute;            /* local minute of that day */
    int64_t ahead_min;         /* minutes by which the zone here is ahead of UTC */
    char time[MF_MINUTE_TEXT]; /* local time now */
    char at[24];               /* UTC now, "YYYY-MM-DDTHH:MM:SSZ" */
    int64_t seconds;           /* the same since 1970 */
    mf_book *book;             /* opened by mf_cli_book */
    mf_job *spare;             /* loaded to look ids up; mf_cli_job hands it over */
    mf_arena ids;              /* ids that were written out in full */
    const char *setting[MF_SET_COUNT], *from[MF_SET_COUNT];
    char next[MF_COMMAND_MAX]; /* the next step, when the command knows it */
    bool told;                 /* progress was written (watch.c) */
    bool lost;                 /* a job of many could not be read (mf_cli_lost) */
} mf_cli;

/* An option of a command: value NULL = a flag. */
typedef struct mf_opt {
    const char *name, *value;
    bool needed;
    const char *doc;
} mf_opt;

typedef struct mf_cmd mf_cmd;
typedef struct mf_args mf_args;
typedef mf_status mf_cmd_fn(mf_cli *cli, const mf_cmd *cmd, const mf_args *args);

/* A command is a row (cmds.c). */
struct mf_cmd {
    const char *group, *action; /* action "" = the group is the command */
    const char *args;           /* positional words, "JOB FILE"; "" = none */
    const char *kind;           /* options are the fields of this kind; NULL = none */
    const char *of;             /* kind it lists or imports, without those options; NULL = none */
    const mf_opt *opts;         /* further options, ended by a NULL name; NULL = none */
    mf_cmd_fn *run;
    const char *summary;
    const char *example;
};

/* Command lines are short: more than this many options or words is refused. */
enum { MF_ARGS_OPTS = 48, MF_ARGS_WORDS = 4 };

struct mf_args {
    const char *word[MF_ARGS_WORDS];
    int n_words;
    char **more; /* of a command whose args end in "...]": all of those, however many */
    int n_more;
    const char *opt[MF_ARGS_OPTS], *value[MF_ARGS_OPTS];
    int n_opts;
};

/* cmds.c */
const mf_cmd *mf_cmds(size_t *count);
/* NULL when there is none; action NULL for a command that is a group of its own. */
const mf_cmd *mf_cmd_named(const char *group, const char *action);
bool mf_cmd_group(const char *group);
/* Whether its first word is a job, though it may be left out. */
bool mf_cmd_of_job(const mf_cmd *cmd);

/* args.c: reads argv after the command words. Says itself what is wrong. */
mf_status mf_args_read(mf_cli *cli, const mf_cmd *cmd, int argc, char **argv, mf_args *out,
                       bool *help, bool *version);
/* Reads the options before the command words; returns the index of the first. */
mf_status mf_args_globals(mf_cli *cli, int argc, char **argv, int *first, bool *help,
                          bool *version);
/* The options every command has, ended by a NULL name. */
const mf_opt *mf_args_common(void);
/* NULL when not given. */
const char *mf_args_value(const mf_args *args, const char *name);

/* help.c */
void mf_help_start(void);
void mf_help_program(void);
void mf_help_group(const char *group);
void mf_help_command(const mf_cmd *cmd);
/* Appends which names a command takes, when they are a list of the program. */
void mf_help_names(const mf_cmd *cmd, mf_buf *out);
/* Where the command cannot do without the field: "(needed)", or in which case; "" = it can, as a
 * walk, which asks for what was not given. Static. */
const char *mf_help_needed(const mf_cmd *cmd, const mf_field *field);
/* How a value of that type is written: "YYYY-MM-DD". */
const char *mf_help_form(mf_field_type type);
/* From how many letters apart on a word of that length stands for no other. */
int mf_help_far(size_t len);
/* Says that words name no command, and what is near. Returns MF_USAGE. */
mf_status mf_help_unknown(const mf_cli *cli, const char *group, const char *action);
void mf_help_version(const mf_cli *cli);
mf_cmd_fn mf_cmd_help, mf_cmd_version;

/* resolve.c: writes out ids of which only the beginning was typed, and says what
 * was meant by one that does not exist. */
mf_status mf_resolve(mf_cli *cli, const mf_cmd *cmd, mf_args *args, mf_err *err);

/* findings.c: the answer of a gate for the whole job today, and its findings, which the caller
 * frees: none of the gate "rule". False: there was no memory; then it is no. */
typedef struct mf_gate_found {
    mf_answer answer;
    bool altered; /* it is not answered, and answer is no */
    mf_finding *found;
    size_t n;
} mf_gate_found;
/* The answer in words, "NOT YET DUE, due through 2026-10-16": not yet names the day, if known. */
enum { MF_ANSWER_TEXT = 96 };
void mf_cli_answer(const mf_cli *cli, mf_answer answer, mf_day due, char out[MF_ANSWER_TEXT]);
bool mf_gate_answer(const mf_cli *cli, const mf_job *job, mf_gate gate, mf_gate_found *out);
/* What was found, in the same words; of a book that was altered, that nothing is answered. */
void mf_gate_say(const mf_cli *cli, const mf_gate_found *it, char out[MF_ANSWER_TEXT]);
/* For programs: "yes", "no", "not-yet", or "altered": not answered. Static. */
const char *mf_gate_code(const mf_gate_found *it);
/* "May demo start?" Static. */
const char *mf_gate_question(const mf_cli *cli, mf_gate gate);
/* Whether a gate answers for the job. An inspector asks whether the book was altered, and
 * has a finding of it. The other questions have none that says so: none is answered from a
 * book that was altered, as a yes would be worth nothing. */
bool mf_gate_speaks(const mf_job *job, mf_gate gate);

/* next.c: the likely next step of a job ("mistfold containment walk J-1926"), and
 * what is said at the end of a command. */
void mf_next_of_job(const mf_job *job, mf_day today, char out[MF_COMMAND_MAX]);
void mf_next_say(mf_cli *cli, const mf_cmd *cmd, const mf_args *args);

/* clock.c: the one place that reads the clock. */
void mf_cli_clock(mf_cli *cli);

/* open.c */
mf_status mf_cli_book(mf_cli *cli, mf_err *err);
mf_status mf_cli_job(mf_cli *cli, const char *id, mf_job **out, mf_err *err);
/* The same as it stood on a day: what is dated later is left out, and told. */
/* By the clock here the times that the job says are judged. */
void mf_cli_clock_of(const mf_cli *cli, mf_job *job);
mf_status mf_cli_job_until(mf_cli *cli, const char *id, mf_day day, mf_job **out, size_t *left_out,
                           mf_err *err);
/* Refuses a paper of the whole job as of a day before some of what it holds: it would answer for
 * that day from what came later. A seal is no part of the work. */
mf_status mf_cli_none_later(const mf_job *job, mf_day day, mf_err *err);
/* Each job of the open book, in the order of ids: one that was opened twice comes once, with its
 * first opening. */
mf_status mf_cli_jobs(const mf_cli *cli, mf_job_fn *fn, void *data, mf_err *err);
/* One of the many a command goes through: when an entry of it cannot be read that is
 * said, *out is NULL and the others follow (MF_OK). */
mf_status mf_cli_job_of_many(mf_cli *cli, const char *id, mf_job **out, mf_err *err);
/* Says that a job cannot be read; the command ends in MF_SYSTEM. */
void mf_cli_lost(mf_cli *cli, const char *job, const mf_err *why);
/* The firm alone, for a paper of no job; *out NULL where there is no book yet. */
mf_status mf_cli_firm(mf_cli *cli, mf_job **out, mf_err *err);
/* Everybody who logs an entry is in the book, but for who makes a new one: as long as nobody is
 * in it, anybody may. What cannot be read is told by whoever writes. MF_INPUT: nobody knows them.
 */
mf_status mf_cli_check_who(mf_cli *cli, mf_err *err);
/* MF_USAGE when nobody said who is writing, MF_INPUT when the book does not know them. */
mf_status mf_cli_now(mf_cli *cli, mf_now *out, mf_err *err);
/* The same for what a device logs of itself: who may be NULL. */
mf_now mf_cli_now_of_device(const mf_cli *cli);

/* What --adopt and --of say; reason NULL = nothing is adopted, else *now is filled in. */
mf_status mf_cli_adopt(mf_adopt *out, mf_cli *cli, const mf_args *args, mf_now *now, mf_err *err);
/* Says as which entry it was logged, or would be; and when nothing was there to be adopted, though
 * somebody asked for it. adopt may be NULL. */
void mf_cli_say_adopted(const mf_cli *cli, const mf_merge_report *report, const mf_adopt *adopt,
                        bool written);
/* The day of an option without its dashes, usual where it was not given. MF_INPUT when it is no
 * date. */
mf_status mf_cli_day_in(const mf_args *args, const char *option, mf_day usual, mf_day *out,
                        mf_err *err);
/* That of --on, or today. */
mf_status mf_cli_day(const mf_cli *cli, const mf_args *args, mf_day *out, mf_err *err);

/* pass.c: the passphrase from --passphrase-fd or the terminal; wiped by
 * mf_pass_wipe. Never from argv or the environment. */
enum { MF_PASS_MAX = 256 };
mf_status mf_pass_read(const mf_args *args, const char *prompt, bool twice, char out[MF_PASS_MAX],
                       mf_err *err);
void mf_pass_wipe(char pass[MF_PASS_MAX]);
/* From here on nothing of the process goes into a file when it crashes. */
void mf_pass_no_core(void);

/* out.c: what people and scripts read. */
mf_status mf_cli_fail(const mf_err *err); /* one line on stderr; returns its status */
/* From here on errors and notes are JSON, an object a line. */
void mf_cli_json_errors(void);
/* Names the file in an error of a room that saw its bytes only; returns its status. */
mf_status mf_cli_at(mf_err *err, const char *path);
/* Checks the book, whole or as one job needs it, and says in the job whether it was
 * altered: MF_OK or MF_NO, else the check could not be made. */
mf_status mf_cli_look(const mf_cli *cli, mf_job *job, bool whole, mf_book_report *out, mf_err *err);
/* For papers that say what the job says without saying whether the book was altered: MF_SYSTEM
 * when it was, as for a gate. job may be NULL: nothing is said of one. */
mf_status mf_cli_unaltered(const mf_cli *cli, mf_job *job, mf_err *err);
/* What was made from an altered book and says so is made, and no success: status, or
 * MF_SYSTEM with altered (what the look said; all 0 when nothing) in err. */
mf_status mf_cli_made(mf_status status, const mf_err *altered, mf_err *err);
/* Text that somebody wrote, maybe elsewhere: what a terminal would not show, or would
 * show as other words, becomes '?' (base/utf8.h). All that is printed for people goes
 * this way, here or in a function below. */
void mf_cli_text(FILE *to, const char *text, size_t len);
void mf_cli_show(const char *text);                    /* on standard output */
void mf_cli_line(const char *label, const char *text); /* "label text", a line of its own */
void mf_cli_note(const mf_cli *cli, const char *format, ...) MF_PRINTF(2, 3); /* stderr */
/* The same, in JSON too, whose members do not say it. */
void mf_cli_warn(const char *format, ...) MF_PRINTF(1, 2);
/* Says that others may read the file, where its mode lets them. */
void mf_cli_warn_mode(const char *path);
/* Notes what contradicts a head that was noted and was taken over all the same. */
void mf_cli_adopted(const mf_book_report *report);
/* A newer version may have logged what an answer hangs on: says so, as a note. In JSON it
 * is the member unknown_entries. */
void mf_cli_unknown(const mf_cli *cli, const mf_book_report *report);
void mf_cli_caution(const mf_cli *cli);
const char *mf_cli_word(const mf_cli *cli, const char *id); /* never NULL */
/* put.c: the one way to write a file that the user named. It is written whole over what
 * stood there when that is of the same kind by its content, or --force was said; never over
 * a book or what belongs to one, a key, or a sealed paper of which the new file keeps not
 * every byte (MF_INPUT). The others only ask; for a paper before it is drawn. */
mf_status mf_cli_put(const mf_cli *cli, const char *path, const void *bytes, size_t len,
                     mf_err *err);
mf_status mf_cli_may_put(const mf_cli *cli, const char *path, const void *bytes, size_t len,
                         mf_err *err);
mf_status mf_cli_may_put_paper(const mf_cli *cli, const char *path, mf_err *err);
/* Says that a file was written. */
void mf_cli_wrote(const mf_cli *cli, const char *path);
/* Characters, not bytes, of the first len bytes of text. */
int mf_cli_characters(const char *text, size_t len);
/* Text padded to a width counted in characters, not bytes. */
void mf_cli_pad(const char *text, int width);
/* How many bytes the first wide letters of text take, of stop bytes at most. */
size_t mf_cli_letters(const char *text, size_t stop, int wide);
/* A line with the job's number where it is stricter than the rule's, which the words of
 * the step name. */
void mf_cli_stricter(const mf_cli *cli, const mf_job *job, const mf_step *step, int indent);
/* Lines with the ground and the reason of a tick that left the step out; none of another. */
void mf_cli_skipped(const mf_cli *cli, const mf_tick *tick, int indent);
/* MF_INPUT when args, those of a tick of one step, leave it out on no ground of its own, on
 * one that the job contradicts, or without the words that the ground wants. */
mf_status mf_cli_check_skipped(const mf_cli *cli, const mf_job *job, const mf_area *area,
                               const mf_step *step, const mf_args *args, mf_err *err);
/* Text wrapped at 78 columns, or as many as a walk's terminal has, after an indent. */
void mf_cli_wrap(const char *text, int indent, int first_column);
/* How many columns that are; a walk sets them, from 30 to 78. */
int mf_cli_columns(void);
void mf_cli_set_columns(int wide);

/* cmd_settings.c: the size of paper that was set or asked for. */
mf_status mf_cli_sheet(const mf_cli *cli, mf_paper_size *out, mf_err *err);
/* MF_INPUT when the language or the size in force, from wherever it comes, is none of ours: also
 * in a command that would not need it, as a slip is told where it is made. */
mf_status mf_cli_check_settings(const mf_cli *cli, mf_err *err);

/* watch.c: progress on stderr, when a person looks at it or asked for it. */
mf_watch mf_cli_watch(mf_cli *cli, const mf_args *args);
/* Ends the line of progress, if one was begun. */
void mf_cli_watched(const mf_cli *cli);

/* Fills a kind's struct from the options, so that core can judge it before it is
 * logged. Text points into argv. */
mf_status mf_cli_fill(const mf_kind *kind, const mf_args *args, mf_day today, void *item,
                      mf_err *err);
/* How one of the values of a choice is typed: "exterior-sill". */
const char *mf_cli_choice(const char *kind, const char *field, int value);
/* Makes a draft from the options. */
mf_status mf_cli_draft(const mf_cli *cli, const mf_kind *kind, const mf_args *args, mf_draft **out,
                       mf_err *err);

/* Puts an option into args as if it had been typed; the text must outlive args. */
void mf_args_put(mf_args *args, const char *name, const char *value);

/* cmd_log.c: the one way to log, for commands and walks. They say nothing of a
 * failure: err has the words. */
/* A new job whose place was not said is at that of the settings: put into args, so that it is
 * logged with the job and what holds for it does not hang on a setting. */
void mf_log_place(const mf_cli *cli, const mf_kind *kind, mf_args *args);
mf_status mf_log_one(mf_cli *cli, const mf_kind *kind, const mf_args *args, mf_err *err);
mf_status mf_log_ticks(mf_cli *cli, const mf_cmd *cmd, const mf_args *args, mf_err *err);
mf_status mf_log_verification(mf_cli *cli, const mf_args *args, mf_err *err);
/* The name of a photo and its digest, which is what an entry keeps of it. */
enum { MF_PHOTO_TEXT = 400 };
mf_status mf_log_photo(const char *path, char out[MF_PHOTO_TEXT], mf_err *err);

/* cmd_list.c: items of a kind as a table, with their entries. */
void mf_list_table(const mf_kind *kind, const void *list, size_t count);

/* first.c: asks who the firm is, at a terminal. */
mf_status mf_first_hour(mf_cli *cli, mf_err *err);

/* Commands, one file a group. */
mf_cmd_fn mf_cmd_book_new, mf_cmd_book_check, mf_cmd_book_rebuild, mf_cmd_book_head,
    mf_cmd_book_witness, mf_cmd_book_key, mf_cmd_book_vouch;
mf_cmd_fn mf_cmd_book_stamp, mf_cmd_paper_stamp;
mf_cmd_fn mf_cmd_attach_add, mf_cmd_attach_export, mf_cmd_bundle;
mf_cmd_fn mf_cmd_sync;
mf_cmd_fn mf_cmd_book_backup, mf_cmd_book_copy, mf_cmd_book_merge;
mf_cmd_fn mf_cmd_log, mf_cmd_log_tick, mf_cmd_log_verification, mf_cmd_log_practice,
    mf_cmd_log_training;
mf_cmd_fn mf_cmd_list;
mf_cmd_fn mf_cmd_walk_steps, mf_cmd_walk_verification, mf_cmd_walk_job, mf_cmd_walk_test;
mf_cmd_fn mf_cmd_import_kind, mf_cmd_import_steps, mf_cmd_import_readings;
mf_cmd_fn mf_cmd_job_open, mf_cmd_job_list, mf_cmd_job_show;
mf_cmd_fn mf_cmd_paint_list, mf_cmd_steps_list, mf_cmd_verification_list;
mf_cmd_fn mf_cmd_due, mf_cmd_certificate_check, mf_cmd_export, mf_cmd_settings_show,
    mf_cmd_settings_set, mf_cmd_settings_unset;
mf_cmd_fn mf_cmd_reading, mf_cmd_opening_schedule, mf_cmd_opening_list, mf_cmd_plan_units,
    mf_cmd_plan_report, mf_cmd_retest;
mf_cmd_fn mf_cmd_combinations, mf_cmd_convert_area, mf_cmd_convert_chip;
mf_cmd_fn mf_cmd_gate, mf_cmd_audit, mf_cmd_limit_list;
mf_cmd_fn mf_cmd_entry_list, mf_cmd_entry_show, mf_cmd_entry_correct, mf_cmd_entry_withdraw;
mf_cmd_fn mf_cmd_entry_export, mf_cmd_entry_import, mf_cmd_field_page;
mf_cmd_fn mf_cmd_field_invite, mf_cmd_field_serve;
mf_cmd_fn mf_cmd_key_new, mf_cmd_key_show, mf_cmd_key_trust;
mf_cmd_fn mf_cmd_paper_record, mf_cmd_paper_check;
mf_cmd_fn mf_cmd_paper_records, mf_cmd_paper_preview;
mf_cmd_fn mf_cmd_paper_seal, mf_cmd_paper_data;
mf_cmd_fn mf_cmd_paper_summary, mf_cmd_paper_blank;

#endif
