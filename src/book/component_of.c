#include "book/component_of.h"

#include "base/fail.h"
#include "base/letters.h"
#include "base/utf8.h"
#include "book/known.h"
#include "book/row.h"
#include "book/tables.h"
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

/* The columns of the component table, in the order they are selected. */
enum { ID, OPENING, TYPE, SIDE, N_COLUMNS };

static const mf_field *column(int at)
{
    static const size_t members[N_COLUMNS] = {
        [ID] = offsetof(mf_component, id),
        [OPENING] = offsetof(mf_component, opening),
        [TYPE] = offsetof(mf_component, type),
        [SIDE] = offsetof(mf_component, side),
    };
    return mf_field_at(mf_kind_named("component"), members[at]);
}

static void wrong(mf_component_answer *out, mf_component_part part, const char *why,
                  const char *mend, const char *format, ...) MF_PRINTF(5, 6);

static void wrong(mf_component_answer *out, mf_component_part part, const char *why,
                  const char *mend, const char *format, ...)
{
    va_list args;
    va_start(args, format);
    vsnprintf(out->what, sizeof out->what, format, args);
    va_end(args);
    out->part = part;
    out->why = why;
    snprintf(out->mend, sizeof out->mend, "%s", mend);
}

static mf_status no_such(const mf_component_query *query, mf_component_answer *out,
                         mf_component_part part, const char *kind, const char *id, const char *why,
                         mf_err *err)
{
    mf_buf mend = {0};
    char shown[60];
    mf_status status = mf_known_mend(&mend, query->book, mf_kind_named(kind), query->job, id, err);
    mf_utf8_show(shown, sizeof shown, id);
    wrong(out, part, why, mf_buf_str(&mend), "there is no %s %s in this job", kind, shown);
    mf_buf_free(&mend);
    return status;
}

/* SELECT id, opening, type, side FROM component WHERE job = ?1 AND <by> = ?2 */
static mf_status select_by(mf_stmt *out, const mf_component_query *query, int by, const char *value,
                           mf_err *err)
{
    mf_buf sql = {0};
    mf_buf_text(&sql, "SELECT ");
    for (int i = 0; i < N_COLUMNS; i++) {
        mf_buf_text(&sql, i == 0 ? "" : ", ");
        mf_sql_name(&sql, column(i)->name);
    }
    mf_buf_text(&sql, " FROM component WHERE job = ?1 AND ");
    mf_sql_name(&sql, column(by)->name);
    mf_buf_text(&sql, " = ?2 ORDER BY " MF_ORDER_MADE);
    mf_status status = mf_stmt_take(out, &query->book->db, &sql, err);
    if (status == MF_OK) {
        mf_stmt_text(out, 1, query->job);
        mf_stmt_text(out, 2, value);
    }
    return status;
}

/* ---- by id ------------------------------------------------------------------------------ */

static mf_status by_id(const mf_component_query *query, mf_component_answer *out, mf_err *err)
{
    mf_stmt stmt;
    bool row = false;
    mf_status status = select_by(&stmt, query, ID, query->component, err);
    if (status == MF_OK)
        status = mf_stmt_step(&stmt, &row, err);
    bool other_side = row && query->side[0] != '\0' &&
                      !mf_same_but_case(query->side, mf_stmt_column(&stmt, SIDE));
    if (row)
        snprintf(out->id, sizeof out->id, "%s", mf_stmt_column(&stmt, ID));
    mf_stmt_done(&stmt);
    if (status == MF_OK && !row)
        return no_such(query, out, MF_PART_COMPONENT, "component", query->component,
                       "without an opening the component is named by its id", err);
    if (other_side)
        wrong(out, MF_PART_SIDE, "each component is on one side",
              "correct the side or the component", "the component %s is not on this side", out->id);
    return status;
}

/* ---- by opening, type and side ------------------------------------------------------------ */

typedef struct matches {
    int count;
    char list[200]; /* of the opening's components */
} matches;

static void consider(const mf_component_query *query, mf_stmt *stmt, matches *m,
                     mf_component_answer *out)
{
    size_t used = strlen(m->list);
    snprintf(m->list + used, sizeof m->list - used, "%s%s %s (%s)", used == 0 ? "" : ", ",
             mf_stmt_column(stmt, SIDE), mf_stmt_column(stmt, TYPE), mf_stmt_column(stmt, ID));
    bool same_side = mf_same_but_case(query->side, mf_stmt_column(stmt, SIDE));
    bool same = mf_same_but_case(query->component, mf_stmt_column(stmt, TYPE)) ||
                strcmp(query->component, mf_stmt_column(stmt, ID)) == 0;
    if (!same_side || !same)
        return;
    m->count++;
    snprintf(out->id, sizeof out->id, "%s", mf_stmt_column(stmt, ID));
}

static mf_status check_opening(const mf_component_query *query, mf_component_answer *out,
                               mf_err *err)
{
    bool known = false;
    mf_status status =
        mf_known(query->book, mf_kind_named("opening"), query->job, query->opening, &known, err);
    if (status != MF_OK || known)
        return status;
    return no_such(query, out, MF_PART_OPENING, "opening", query->opening,
                   "openings are numbered as on the opening schedule", err);
}

static void no_component(mf_component_answer *out)
{
    wrong(out, MF_PART_COMPONENT, "a reading says what was read",
          "write the component, or calibration", "the component is missing");
}

static void check_words(const mf_component_query *query, mf_component_answer *out)
{
    char mend[120] = "write";
    const char *const *sides = column(SIDE)->choices;
    if (query->component[0] == '\0') {
        no_component(out);
        return;
    }
    for (size_t i = 0; sides[i] != NULL; i++) {
        if (mf_same_but_case(sides[i], query->side))
            return;
        size_t used = strlen(mend);
        snprintf(mend + used, sizeof mend - used, "%s %s", i == 0 ? "" : " or", sides[i]);
    }
    char shown[60];
    mf_utf8_show(shown, sizeof shown, query->side);
    if (query->side[0] == '\0')
        wrong(out, MF_PART_SIDE, "an opening has two sides", mend, "the side is missing");
    else
        wrong(out, MF_PART_SIDE, "an opening has two sides", mend, "\"%s\" is no side", shown);
}

static mf_status by_place(const mf_component_query *query, mf_component_answer *out, mf_err *err)
{
    mf_stmt stmt;
    bool row = true;
    matches m = {0};
    mf_status status = select_by(&stmt, query, OPENING, query->opening, err);
    while (status == MF_OK && row) {
        status = mf_stmt_step(&stmt, &row, err);
        if (status == MF_OK && row)
            consider(query, &stmt, &m, out);
    }
    mf_stmt_done(&stmt);
    if (status != MF_OK || m.count == 1)
        return status;
    char mend[300];
    snprintf(mend, sizeof mend, "%s%s",
             m.list[0] == '\0' ? "log its components first" : "it has: ", m.list);
    char shown[60];
    mf_utf8_show(shown, sizeof shown, query->component);
    if (m.count == 0)
        wrong(out, MF_PART_COMPONENT, "a reading belongs to one component", mend,
              "the opening has no component \"%s\" on this side", shown);
    else
        wrong(out, MF_PART_COMPONENT, "a reading belongs to one component",
              "leave the opening empty and write the id of the component",
              "the opening has several components \"%s\" on this side", shown);
    return status;
}

mf_status mf_component_of(const mf_component_query *query, mf_component_answer *out, mf_err *err)
{
    *out = (mf_component_answer){.why = ""};
    if (query->opening[0] == '\0') {
        if (query->component[0] != '\0')
            return by_id(query, out, err);
        no_component(out);
        return MF_OK;
    }
    mf_status status = check_opening(query, out, err);
    if (status != MF_OK || out->what[0] != '\0')
        return status;
    check_words(query, out);
    return out->what[0] != '\0' ? MF_OK : by_place(query, out, err);
}
