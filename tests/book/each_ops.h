/* each_ops.h - one call of the library for each thing that can be done with a book, for
 * test_each_call.c: on the book of book_kit.h, gone on with in test_each_call.c. */
#ifndef TESTS_EACH_OPS_H
#define TESTS_EACH_OPS_H

#include "book_kit.h"
#include "each_sync.h"
#include "support/fixture_job.h"
#include <mistfold/device.h>
#include <mistfold/heads.h>
#include <mistfold/record.h>
#include <mistfold/segment.h>
#include <unistd.h>

typedef mf_status op_fn(kit *k, mf_err *err);

typedef struct op {
    const char *name;
    op_fn *run;
    int64_t adds; /* entries, when it ends well */
    bool closed;  /* it opens the book itself */
    bool parts;   /* where it fails, what came in before stays */
} op;

static const char *in_folder(const kit *k, const char *name)
{
    static char path[2][160];
    static int turn;
    turn = !turn;
    snprintf(path[turn], sizeof path[turn], "%s/%s", k->folder, name);
    return path[turn];
}

/* ---- writing ------------------------------------------------------------------------------ */

#define PNG                                                                                        \
    "\x89PNG\r\n\x1A\n\0\0\0\rIHDR\0\0\0\1\0\0\0\1\b\0\0\0\0invented\0\0\0\0IEND\xAE\x42\x60\x82"
#define PDF "%PDF-1.4\ninvented\n%%EOF\n"

static const char *const reading[] = {
    "number",  "9",     "instrument", "X-100",      "operator",  "rosa",
    "purpose", "paint", "component",  "W01.sash",   "substrate", "wood",
    "result",  "0.9",   "on",         "2026-09-14", NULL};
static const char *const wall[] = {"id",   "wall-e",  "type",      "wall",    "side", "interior",
                                   "room", "kitchen", "substrate", "plaster", NULL};
static const char *const address[] = {"address", "14 Invented Street", NULL};
static const char *const result[] = {"result", "0.5", NULL};

static mf_status draft_of(kit *k, mf_draft **out, const char *kind, const char *const *pairs,
                          mf_err *err)
{
    mf_status status = mf_draft_new(out, mf_kind_named(kind), err);
    for (size_t i = 0; status == MF_OK && pairs[i] != NULL; i += 2)
        status = mf_draft_set(*out, pairs[i], pairs[i + 1], "", "", k->now.today, err);
    return status;
}

static mf_status write_one(kit *k, const char *kind, const char *const *pairs, mf_err *err)
{
    mf_draft *draft = NULL;
    mf_status status = draft_of(k, &draft, kind, pairs, err);
    if (status == MF_OK)
        status = mf_book_write(k->book, draft, "J-1", &k->now, "", k->id, err);
    mf_draft_free(draft);
    return status;
}

static mf_status correct_one(kit *k, const char *entry, const char *kind, const char *const *pairs,
                             mf_err *err)
{
    mf_draft *draft = NULL;
    mf_status status = pairs == NULL ? MF_OK : draft_of(k, &draft, kind, pairs, err);
    if (status == MF_OK)
        status = mf_book_correct(k->book, entry, draft, "misread", &k->now, k->id, err);
    mf_draft_free(draft);
    return status;
}

static mf_status op_log(kit *k, mf_err *err)
{
    return write_one(k, "reading", reading, err);
}

static mf_status op_group(kit *k, mf_err *err)
{
    mf_status status = mf_book_begin(k->book, err);
    if (status == MF_OK)
        status = write_one(k, "component", wall, err);
    if (status == MF_OK)
        status = write_one(k, "reading", reading, err);
    if (status == MF_OK)
        return mf_book_commit(k->book, err);
    mf_book_rollback(k->book);
    return status;
}

static mf_status op_correct(kit *k, mf_err *err)
{
    return correct_one(k, "office/11", "reading", result, err);
}

static mf_status op_correct_house(kit *k, mf_err *err)
{
    return correct_one(k, "office/4", "house", address, err);
}

static mf_status op_withdraw(kit *k, mf_err *err)
{
    return correct_one(k, "office/14", "reading", NULL, err);
}

static mf_status op_attach(kit *k, mf_err *err)
{
    const mf_attach_ask ask = {"J-1", "office/11", PDF, sizeof(PDF) - 1, "report.pdf", "all pages"};
    return mf_book_attach(k->book, &ask, &k->now, k->id, NULL, err);
}

/* ---- CSV ----------------------------------------------------------------------------------- */

#define HEAD                                                                                       \
    "no.,Instrument,Operator,Date,Time,Opening,Component,Side,Substrate,Color,Pb (mg/cm2)\n"
static const char readings[] =
    HEAD "21,X-100,rosa,2026-09-14,08:00,,Calibration,,wood,red,1.0\n"
         "22,X-100,rosa,2026-09-14,08:05,W01,sash,interior,wood,white,1.43\n"
         "23,X-100,ana,2026-09-14,,W01,sash,exterior,wood,,-0.1\n"
         "1,X-100,rosa,2026-09-14,08:30,W01,sash,interior,wood,,1.4\n" /* office/11 */
         "24,X-100,rosa,2026-09-14,08:07,,wall-n,interior,plaster,\"white, red\",>9.9\n";
static const char bad_readings[] =
    HEAD "21,X-100,rosa,2026-09-14,08:00,W09,sash,,wood,red,1.0\n"
         "22,X-100,bob,2026-09-14,08:05,W01,sash,interior,wood,,high\n";
static const char walls[] = "id,type,side,room,substrate\n"
                            "a,wall,interior,kitchen,wood\n"
                            "b,wall,interior,\"kitchen, left\",plaster\n";

typedef struct csv {
    const char *text;
    size_t at;
} csv;

static mf_status read_csv(void *data, char *to, size_t cap, size_t *got, mf_err *err)
{
    csv *c = data;
    (void)err;
    *got = strnlen(c->text + c->at, cap);
    memcpy(to, c->text + c->at, *got);
    c->at += *got;
    return MF_OK;
}

static mf_status rewind_csv(void *data, mf_err *err)
{
    (void)err;
    ((csv *)data)->at = 0;
    return MF_OK;
}

static void ignore_fault(void *data, const mf_err *fault)
{
    (void)data;
    (void)fault;
}

static mf_status import(kit *k, const char *text, bool all_faults, mf_err *err)
{
    mf_import_report report = {0};
    csv c = {text, 0};
    const mf_import_source source = {read_csv, rewind_csv, &c, 0};
    const mf_import_ask ask = {.job = "J-1",
                               .name = "xrf.csv",
                               .source = &source,
                               .now = &k->now,
                               .map = "no.=number,Pb (mg/cm2)=result",
                               .instrument = "",
                               .operator_id = "",
                               .fault = all_faults ? ignore_fault : NULL};
    return mf_import_readings_from(k->book, &ask, &report, err);
}

static mf_status op_import(kit *k, mf_err *err)
{
    return import(k, readings, false, err);
}

static mf_status op_import_bad(kit *k, mf_err *err)
{
    return import(k, bad_readings, true, err);
}

static mf_status op_import_kind(kit *k, mf_err *err)
{
    mf_import_report report = {0};
    return mf_import_kind(k->book, "J-1", mf_kind_named("component"), "walls.csv", walls,
                          sizeof walls - 1, &k->now, false, &report, err);
}

/* ---- other books ----------------------------------------------------------------------------- */

static mf_status op_open(kit *k, mf_err *err)
{
    return mf_book_open(&k->book, k->path, err);
}

static mf_status op_new(kit *k, mf_err *err)
{
    mf_book *book = NULL;
    unlink(in_folder(k, "new.book"));
    mf_status status = mf_book_new(&book, in_folder(k, "new.book"), NULL, err);
    mf_book_close(book);
    return status;
}

static mf_status op_earlier(kit *k, mf_err *err)
{
    mf_book *book = NULL;
    mf_status status = mf_book_open(&book, in_folder(k, "earlier.book"), err);
    mf_book_close(book);
    return status;
}

static mf_status op_backup(kit *k, mf_err *err)
{
    unlink(in_folder(k, "new.book"));
    return mf_book_backup(k->book, in_folder(k, "new.book"), NULL, err);
}

static mf_status op_copy(kit *k, mf_err *err)
{
    unlink(in_folder(k, "new.book"));
    return mf_book_copy(k->book, in_folder(k, "new.book"), "van", NULL, err);
}

static void ignore_note(const char *line, void *data)
{
    (void)line;
    (void)data;
}

static mf_status op_merge(kit *k, mf_err *err)
{
    mf_merge_report report = {0};
    const mf_watch watch = {.note = ignore_note};
    return mf_book_merge(k->book, in_folder(k, "truck.book"), NULL, &watch, &report, err);
}

/* What the book itself handed out: nothing of it is new. */
static mf_status op_segment(kit *k, mf_err *err)
{
    mf_bytes bytes = {0};
    mf_segment segment = {.from = 0};
    mf_merge_report report;
    mf_status status = mf_book_segment(k->book, "office", 1, "2026-09-20T12:00:00Z", &bytes, err);
    if (status == MF_OK)
        status = mf_segment_read("segment", bytes.data, bytes.len, &segment, err);
    const mf_segment_text text = {"segment", bytes.data, bytes.len};
    const mf_segments_ask ask = {.at = &text, .n = 1, .content = kit_no_content};
    if (status == MF_OK)
        status = mf_book_merge_segments(k->book, &ask, &report, err);
    mf_segment_free(&segment);
    mf_bytes_free(&bytes);
    return status;
}

/* ---- reading ------------------------------------------------------------------------------------
 */

static mf_status op_job(kit *k, mf_err *err)
{
    mf_job *job = NULL;
    mf_status status = mf_book_job(k->book, "J-1", &job, err);
    mf_book_job_free(job);
    return status;
}

static bool any_entry(const mf_entry *entry, void *data)
{
    (void)data;
    return entry->id[0] != '\0';
}
static bool any_job(const char *job, const char *at, mf_day day, void *data)
{
    (void)at;
    (void)day;
    (void)data;
    return job[0] != '\0';
}
static bool any_settled(const char *job, const char *at, mf_day day, const char *stage, void *data)
{
    (void)at;
    (void)day;
    (void)data;
    return job[0] != '\0' && stage[0] != '\0';
}
static bool any_due(const mf_due_item *item, void *data)
{
    (void)data;
    return item->what[0] != '\0';
}
static bool any_head(const char *device, int64_t seq, const char *hash, void *data)
{
    (void)data;
    return device[0] != '\0' && seq > 0 && hash[0] != '\0';
}

static mf_status op_entries(kit *k, mf_err *err)
{
    mf_status status = mf_book_entries(k->book, "J-1", any_entry, NULL, err);
    return status == MF_OK ? mf_book_entries(k->book, NULL, any_entry, NULL, err) : status;
}
static mf_status op_entry(kit *k, mf_err *err)
{
    return mf_book_entry(k->book, "office/12", any_entry, NULL, err);
}
static mf_status op_jobs(kit *k, mf_err *err)
{
    return mf_book_jobs(k->book, any_job, NULL, err);
}
static mf_status op_find(kit *k, mf_err *err)
{
    return mf_book_find(k->book, "invented win", any_job, NULL, err);
}
static mf_status op_due(kit *k, mf_err *err)
{
    return mf_book_due(k->book, NULL, MF_DAY_NONE, any_due, NULL, err);
}
static mf_status op_heads(kit *k, mf_err *err)
{
    char head[MF_HASH_HEX];
    mf_status status = mf_book_head(k->book, head, err);
    return status == MF_OK ? mf_book_heads(k->book, any_head, NULL, err) : status;
}

static mf_status op_witness(kit *k, mf_err *err)
{
    static const char head[] = "0123456789abcdef0123456789abcdef0123456789abcdef0123456789abcdef";
    char heads[120];
    size_t awaited = 0;
    snprintf(heads, sizeof heads, "phone/3 %s", head);
    const mf_witness_ask ask = {"phone", "", heads, "seen on its screen"};
    return mf_book_witness(k->book, &ask, &k->now, k->id, &awaited, err);
}

static bool any_device(const char *device, const char *entry, const char *key, void *data)
{
    (void)device;
    (void)entry;
    (void)key;
    (void)data;
    return true;
}

static mf_status op_sign(kit *k, mf_err *err)
{
    unlink(in_folder(k, "firm.book.office.key")); /* of the run before */
    return mf_book_key_make(k->book, "", &k->now, k->id, err);
}
static mf_status op_devices(kit *k, mf_err *err)
{
    return mf_book_devices(k->book, any_device, NULL, err);
}

static const char *judge(const mf_job *job, void *data)
{
    (void)data;
    return strcmp(job->id, "J-1") == 0 ? "" : "closed";
}

static mf_status op_settled(kit *k, mf_err *err)
{
    mf_status status = mf_book_unsettled(k->book, judge, NULL, NULL, NULL, err);
    return status == MF_OK ? mf_book_settled(k->book, NULL, any_settled, NULL, err) : status;
}

static char photo[MF_HASH_HEX]; /* of the attachment that is in the book */

static mf_status op_attached(kit *k, mf_err *err)
{
    mf_bytes bytes = {0};
    mf_status status = mf_book_attached(k->book, photo, &bytes, err);
    mf_bytes_free(&bytes);
    return status;
}

/* ---- proving
 * ---------------------------------------------------------------------------------------- */

static char heads[MF_HASH_HEX + 1];

static mf_status op_check(kit *k, mf_err *err)
{
    mf_book_report report = {0};
    return mf_book_check_against(k->book, heads, NULL, &report, err);
}

static mf_status op_check_job(kit *k, mf_err *err)
{
    mf_book_report report = {0};
    return mf_book_check_job(k->book, "J-1", &report, err);
}

static mf_status op_rebuild(kit *k, mf_err *err)
{
    return mf_book_rebuild(k->book, err);
}

/* A record of the job as it is, read back and compared with the job. */
static void ignore_change(const mf_record_diff *diff, void *data)
{
    (void)diff;
    (void)data;
}

static mf_status op_record(kit *k, mf_err *err)
{
    mf_bytes json = {0};
    mf_job *job = NULL;
    mf_links *links = NULL;
    mf_record *record = NULL;
    mf_head_found head;
    const mf_record_place place = {"firm", 3, 48, 100.5F, 210, 48};
    mf_status status = mf_book_links(k->book, "J-1", &job, &links, err);
    const mf_record_ask ask = {job, k->now.today, "0123abcd", "2026-09-25 10:00 UTC", &place,
                               1,   links};
    if (status == MF_OK)
        status = mf_record_write(&json, &ask, err);
    if (status == MF_OK)
        status = mf_record_read(&record, (const char *)json.data, json.len, err);
    if (status == MF_OK)
        status = mf_record_agrees(record, err);
    if (status == MF_OK)
        status = mf_record_compare(record, k->book, job, ignore_change, NULL, err);
    if (status == MF_OK)
        status = mf_record_head(record, k->book, &head, err);
    mf_record_free(record);
    mf_bytes_free(&json);
    mf_book_links_free(links);
    mf_book_job_free(job);
    return status;
}

static const op ops[] = {
    {"open", op_open, 0, true, false},
    {"open an earlier book", op_earlier, 0, true, false},
    {"new", op_new, 0, true, false},
    {"log", op_log, 1, false, false},
    {"group", op_group, 2, false, false},
    {"correct", op_correct, 1, false, false},
    {"correct the house", op_correct_house, 1, false, false},
    {"withdraw", op_withdraw, 1, false, false},
    {"attach", op_attach, 1, false, false},
    {"import", op_import, 7, false, false},
    {"import what is refused", op_import_bad, 0, false, false},
    {"import components", op_import_kind, 2, false, false},
    {"backup", op_backup, 0, false, false},
    {"copy", op_copy, 0, false, false},
    {"merge", op_merge, 5, false, false},
    {"segment", op_segment, 0, false, false},
    {"sync", op_sync, 7, false, true},
    {"sync, untold", op_sync_untold, 7, false, true},
    {"where a sync stands", op_sync_state, 0, false, false},
    {"job", op_job, 0, false, false},
    {"entries", op_entries, 0, false, false},
    {"entry", op_entry, 0, false, false},
    {"jobs", op_jobs, 0, false, false},
    {"find", op_find, 0, false, false},
    {"due", op_due, 0, false, false},
    {"heads", op_heads, 0, false, false},
    {"witness", op_witness, 1, false, false},
    {"sign", op_sign, 1, false, false},
    {"devices", op_devices, 0, false, false},
    {"settled", op_settled, 0, false, false},
    {"attached", op_attached, 0, false, false},
    {"check", op_check, 0, false, false},
    {"check of a job", op_check_job, 0, false, false},
    {"rebuild", op_rebuild, 0, false, false},
    {"record", op_record, 0, false, false},
};

#endif
