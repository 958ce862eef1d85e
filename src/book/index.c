#include "book/index.h"

#include "base/fail.h"
#include "book/fold.h"
#include <mistfold/audit.h>
#include <stdio.h>
#include <string.h>

const char mf_index_sql[] =
    "CREATE TABLE place ( -- the address of each job, to find others at the same one\n"
    "  job TEXT PRIMARY KEY NOT NULL\n"
    "  , key TEXT NOT NULL -- its letters and digits alone, in lower case\n"
    ") STRICT;\n"
    "CREATE INDEX place_key ON place (key);\n"
    "CREATE TABLE due ( -- what is to be done by which day\n"
    "  job TEXT NOT NULL -- '' for the firm\n"
    "  , what TEXT NOT NULL -- start: work begins; handover: the record is due to owner and\n"
    "                       -- occupants; keep: records are kept through this day;\n"
    "                       -- certificate: it expires\n"
    "  , day TEXT NOT NULL\n"
    "  , who TEXT NOT NULL -- holder of the certificate, else ''\n"
    "  , entry TEXT NOT NULL -- the entry that sets the day\n"
    "  , PRIMARY KEY (job, what, entry)\n"
    ") STRICT;\n"
    "CREATE INDEX due_day ON due (what, day);\n";

bool mf_index_wants(const char *kind)
{
    static const char *const kinds[] = {"house",       "completion", "invoice",   "handover",
                                        "certificate", "party",      "assignment"};
    for (size_t i = 0; i < sizeof kinds / sizeof kinds[0]; i++)
        if (strcmp(kinds[i], kind) == 0)
            return true;
    return false;
}

void mf_place_key(mf_buf *out, const char *address)
{
    for (; *address != '\0'; address++) {
        char c = *address;
        if (c >= 'A' && c <= 'Z')
            c = (char)(c - 'A' + 'a');
        if ((c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || ((unsigned char)c & 0x80U) != 0)
            mf_buf_add(out, &c, 1);
    }
}

/* ---- what the rows should be ------------------------------------------------------------- */

typedef struct want {
    const char *what;
    char day[MF_DAY_TEXT], entry[MF_ENTRY_ID];
} want;

typedef struct wants {
    mf_buf key;
    bool house;
    want due[4];
    size_t n;
} wants;

#define OF_JOB " WHERE job = ?1"

/* The last made of the rows that sql selects: its entry and its third column; the
 * second is when it was logged. */
static mf_status last_row(mf_db *db, const char *sql, const char *job, char entry[MF_ENTRY_ID],
                          mf_buf *text, bool *there, mf_err *err)
{
    mf_stmt stmt;
    char at[32] = "";
    bool row = true;
    *there = false;
    mf_status status = mf_stmt_get(&stmt, db, sql, err);
    if (status != MF_OK)
        return status;
    mf_stmt_text(&stmt, 1, job);
    while (status == MF_OK && row) {
        status = mf_stmt_step(&stmt, &row, err);
        const char *is = row ? mf_stmt_column(&stmt, 0) : "";
        if (!row || (*there && !mf_made_after(mf_stmt_column(&stmt, 1), is, at, entry)))
            continue;
        *there = true;
        snprintf(entry, MF_ENTRY_ID, "%s", is);
        snprintf(at, sizeof at, "%s", mf_stmt_column(&stmt, 1));
        mf_buf_clear(text);
        mf_buf_text(text, mf_stmt_column(&stmt, 2));
    }
    mf_stmt_done(&stmt);
    return status == MF_OK && text->failed ? mf_fail_memory(err) : status;
}

static mf_status last_day(mf_db *db, const char *sql, const char *job, char entry[MF_ENTRY_ID],
                          mf_day *day, mf_err *err)
{
    mf_buf text = {0};
    bool there = false;
    mf_status status = last_row(db, sql, job, entry, &text, &there, err);
    *day = there ? mf_day_parse(mf_buf_str(&text), NULL) : MF_DAY_NONE;
    mf_buf_free(&text);
    return status;
}

static void add_want(wants *w, const char *what, mf_day day, const char *entry)
{
    if (day == MF_DAY_NONE)
        return;
    want *it = &w->due[w->n++];
    it->what = what;
    mf_day_text(day, it->day);
    snprintf(it->entry, sizeof it->entry, "%s", entry);
}

/* Before its completion a job waits for its start, after it for the handover. */
static mf_status want_days(wants *w, mf_db *db, const char *job, const char *house_entry,
                           mf_day start, mf_err *err)
{
    char completed[MF_ENTRY_ID] = "", invoiced[MF_ENTRY_ID] = "", given[MF_ENTRY_ID] = "";
    mf_buf what = {0};
    bool handed = false;
    mf_completion completion = {.on = MF_DAY_NONE};
    mf_invoice invoice = {.on = MF_DAY_NONE};
    mf_status status = last_day(db, "SELECT entry, logged_at, day FROM completion" OF_JOB, job,
                                completed, &completion.on, err);
    if (status == MF_OK)
        status = last_day(db, "SELECT entry, logged_at, day FROM invoice" OF_JOB, job, invoiced,
                          &invoice.on, err);
    if (status == MF_OK)
        status = last_row(db, "SELECT entry, logged_at, what FROM handover" OF_JOB " LIMIT 1", job,
                          given, &what, &handed, err);
    mf_buf_free(&what);
    if (status != MF_OK)
        return status;
    mf_due due;
    mf_job part = {.id = job,
                   .completion = &completion,
                   .n_completion = completion.on != MF_DAY_NONE,
                   .invoice = &invoice,
                   .n_invoice = invoice.on != MF_DAY_NONE};
    mf_due_dates(&part, &due);
    if (completion.on == MF_DAY_NONE)
        add_want(w, "start", start, house_entry);
    else if (!handed)
        add_want(w, "handover", due.handover, due.handover == invoice.on ? invoiced : completed);
    add_want(w, "keep", due.keep_until, completed);
    return MF_OK;
}

static mf_status want_job(wants *w, mf_db *db, const char *job, mf_err *err)
{
    char entry[MF_ENTRY_ID] = "";
    mf_buf address = {0};
    mf_day start = MF_DAY_NONE;
    *w = (wants){.house = false};
    mf_status status = last_row(db, "SELECT entry, logged_at, address FROM house" OF_JOB, job,
                                entry, &address, &w->house, err);
    mf_place_key(&w->key, mf_buf_str(&address));
    mf_buf_free(&address);
    if (status == MF_OK && w->key.failed)
        status = mf_fail_memory(err);
    if (status != MF_OK || !w->house)
        return status;
    status = last_day(db, "SELECT entry, logged_at, \"start\" FROM house" OF_JOB, job, entry,
                      &start, err);
    return status == MF_OK ? want_days(w, db, job, entry, start, err) : status;
}

/* The newest certificate of a holder and a discipline counts. */
#define FIRM_ROWS                                                                                  \
    "SELECT '' AS job, 'certificate' AS what, expires AS day, holder AS who, entry"                \
    " FROM certificate AS c WHERE expires IS NOT NULL AND holder IS NOT NULL AND NOT EXISTS"       \
    " (SELECT 1 FROM certificate AS d WHERE d.holder = c.holder AND d.discipline IS c.discipline"  \
    "  AND (d.expires > c.expires OR (d.expires = c.expires AND d.entry > c.entry)))"

/* ---- making them ----------------------------------------------------------------------------- */

static mf_status insert(mf_db *db, const char *job, const wants *w, mf_err *err)
{
    const char *const place[] = {job, mf_buf_str(&w->key)};
    mf_status status = MF_OK;
    if (w->house)
        status = mf_db_run(db, "INSERT INTO place (job, key) VALUES (?1, ?2)", place, 2, err);
    for (size_t i = 0; status == MF_OK && i < w->n; i++) {
        const char *const row[] = {job, w->due[i].what, w->due[i].day, "", w->due[i].entry};
        status = mf_db_run(db,
                           "INSERT INTO due (job, what, day, who, entry)"
                           " VALUES (?1, ?2, ?3, ?4, ?5)",
                           row, 5, err);
    }
    return status;
}

mf_status mf_index_refresh(mf_db *db, const char *job, mf_err *err)
{
    wants w = {.house = false};
    mf_status status = mf_db_run(db, "DELETE FROM due WHERE job = ?1", &job, 1, err);
    if (status == MF_OK && job[0] == '\0')
        return mf_db_run(db, "INSERT INTO due (job, what, day, who, entry) " FIRM_ROWS, NULL, 0,
                         err);
    if (status == MF_OK)
        status = mf_db_run(db, "DELETE FROM place WHERE job = ?1", &job, 1, err);
    if (status == MF_OK)
        status = want_job(&w, db, job, err);
    if (status == MF_OK)
        status = insert(db, job, &w, err);
    if (status == MF_OK)
        status = mf_settled_refresh(db, job, mf_buf_str(&w.key), w.house, err);
    mf_buf_free(&w.key);
    return status;
}

mf_status mf_index_fill(mf_db *db, mf_err *err)
{
    mf_stmt stmt;
    bool row = true;
    mf_status status = mf_index_refresh(db, "", err);
    if (status == MF_OK)
        status = mf_stmt_get(&stmt, db, "SELECT DISTINCT job FROM house ORDER BY job", err);
    if (status != MF_OK)
        return status;
    while (status == MF_OK && row) {
        status = mf_stmt_step(&stmt, &row, err);
        if (status == MF_OK && row)
            status = mf_index_refresh(db, mf_stmt_column(&stmt, 0), err);
    }
    mf_stmt_done(&stmt);
    return status;
}

/* ---- checking them -------------------------------------------------------------------------- */

static void differs(mf_checker *c, const char *table, const char *job)
{
    char where[64];
    snprintf(where, sizeof where, "job %.40s", job[0] == '\0' ? "of the firm" : job);
    mf_fault(c, false, where, "table %s does not say of it what the journal gives", table);
}

/* The stored rows of a job as one text against the wanted ones. A NUL, which is in no
 * text of ours, shows as another sign that is in none. */
static mf_status stored(mf_db *db, const char *sql, const char *job, mf_buf *out, mf_err *err)
{
    mf_stmt stmt;
    bool row = true;
    mf_status status = mf_stmt_get(&stmt, db, sql, err);
    if (status != MF_OK)
        return status;
    mf_stmt_text(&stmt, 1, job);
    while (status == MF_OK && row) {
        status = mf_stmt_step(&stmt, &row, err);
        if (status != MF_OK || !row)
            break;
        const char *text = mf_stmt_column(&stmt, 0);
        int len = sqlite3_column_bytes(stmt.handle, 0);
        for (int i = 0; i < len; i++)
            mf_buf_add(out, text[i] == '\0' ? "\x01" : text + i, 1);
        mf_buf_text(out, "\n");
    }
    mf_stmt_done(&stmt);
    return status == MF_OK && out->failed ? mf_fail_memory(err) : status;
}

/* The words of a job, and the address of its note. */
static mf_status check_words(mf_checker *c, const char *job, const wants *w, mf_err *err)
{
    mf_buf is = {0}, should = {0};
    mf_db *db = &c->book->db;
    mf_status status =
        stored(db,
               "SELECT s.key || char(10) || ifnull(f.words || char(10) || f.people, '')"
               " FROM settled AS s LEFT JOIN find AS f ON f.rowid = s.id"
               " WHERE s.job = ?1",
               job, &is, err);
    mf_buf_printf(&should, "%s\n", mf_buf_str(&w->key));
    if (status == MF_OK)
        status = mf_find_words(db, job, &should, err);
    mf_buf_text(&should, "\n");
    if (status == MF_OK && should.failed)
        status = mf_fail_memory(err);
    if (status == MF_OK && strcmp(mf_buf_str(&is), w->house ? mf_buf_str(&should) : "") != 0)
        differs(c, "find", job);
    mf_buf_free(&is);
    mf_buf_free(&should);
    return status;
}

static mf_status check_one(mf_checker *c, const char *job, mf_err *err)
{
    wants w = {.house = false};
    mf_buf place = {0}, due = {0}, should = {0};
    mf_db *db = &c->book->db;
    mf_status status = want_job(&w, db, job, err);
    if (status == MF_OK)
        status = stored(db, "SELECT key FROM place WHERE job = ?1", job, &place, err);
    if (status == MF_OK)
        status = stored(db,
                        "SELECT what || ' ' || day || ' ' || who || ' ' || entry FROM due"
                        " WHERE job = ?1 ORDER BY what",
                        job, &due, err);
    if (w.house)
        mf_buf_printf(&should, "%s\n", mf_buf_str(&w.key));
    if (status == MF_OK && should.failed)
        status = mf_fail_memory(err);
    if (status == MF_OK && strcmp(mf_buf_str(&should), mf_buf_str(&place)) != 0)
        differs(c, "place", job);
    mf_buf_clear(&should);
    for (size_t i = 0; i < w.n; i++) /* in the order of their names, as added */
        mf_buf_printf(&should, "%s %s  %s\n", w.due[i].what, w.due[i].day, w.due[i].entry);
    if (status == MF_OK && should.failed)
        status = mf_fail_memory(err);
    if (status == MF_OK && strcmp(mf_buf_str(&should), mf_buf_str(&due)) != 0)
        differs(c, "due", job);
    if (status == MF_OK)
        status = check_words(c, job, &w, err);
    mf_buf_free(&w.key);
    mf_buf_free(&place);
    mf_buf_free(&due);
    mf_buf_free(&should);
    return status;
}

static mf_status check_firm(mf_checker *c, mf_err *err)
{
    int64_t wrong = 0;
    mf_status status =
        mf_db_int(&c->book->db,
                  "SELECT EXISTS (" FIRM_ROWS
                  " EXCEPT SELECT job, what, day, who, entry FROM due WHERE job = '')"
                  " OR EXISTS (SELECT job, what, day, who, entry FROM due WHERE job = '' EXCEPT "
                  "SELECT * FROM (" FIRM_ROWS "))",
                  &wrong, err);
    if (status == MF_OK && wrong != 0)
        differs(c, "due", "");
    return status;
}

static mf_status check_all_jobs(mf_checker *c, mf_err *err)
{
    mf_stmt stmt;
    bool row = true;
    mf_status status = mf_stmt_get(&stmt, &c->book->db,
                                   "SELECT job FROM house UNION SELECT job FROM place"
                                   " UNION SELECT job FROM due WHERE job <> ''"
                                   " UNION SELECT job FROM settled",
                                   err);
    while (status == MF_OK && row) {
        status = mf_stmt_step(&stmt, &row, err);
        if (status == MF_OK && row)
            status = check_one(c, mf_stmt_column(&stmt, 0), err);
    }
    mf_stmt_done(&stmt);
    return status;
}

mf_status mf_index_check(mf_checker *c, const char *job, mf_err *err)
{
    int64_t readable = 0;
    mf_status status =
        mf_db_int(&c->book->db,
                  "SELECT 1 FROM place, due, house, completion, invoice, handover, certificate,"
                  " party, assignment, settled, find WHERE 0",
                  &readable, err);
    if (status != MF_OK && mf_db_lacks(&c->book->db))
        return MF_OK; /* told by the check of the schema */
    if (status == MF_OK)
        status = check_firm(c, err);
    if (status != MF_OK)
        return status;
    if (job == NULL)
        return check_all_jobs(c, err);
    return job[0] == '\0' ? MF_OK : check_one(c, job, err);
}
