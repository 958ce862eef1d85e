#include "book/component_of.h"

#include "base/fail.h"
#include "base/letters.h"
#include "base/utf8.h"
#include "book/known.h"
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

/* Where a component says what is asked about; looked up once a query. */
typedef struct said_by {
    const mf_kind *kind;
    const mf_field *side, *type;
} said_by;

static said_by component_fields(void)
{
    const mf_kind *kind = mf_kind_named("component");
    return (said_by){kind, mf_field_at(kind, offsetof(mf_component, side)),
                     mf_field_at(kind, offsetof(mf_component, type))};
}

static const char *side_of(const said_by *by, const mf_component *c)
{
    return by->side->choices[c->side];
}

static const char *type_of(const said_by *by, const mf_component *c)
{
    return by->type->choices[c->type];
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
    const mf_folds folds = mf_book_folds(query->book);
    mf_status status = mf_known_mend(&mend, &folds, mf_kind_named(kind), query->job, id, err);
    mf_utf8_show(shown, sizeof shown, id);
    wrong(out, part, why, mf_buf_str(&mend), "there is no %s %s in this job", kind, shown);
    mf_buf_free(&mend);
    return status;
}

/* ---- by id ------------------------------------------------------------------------------ */

static mf_status by_id(const mf_component_query *query, const said_by *by, mf_component_answer *out,
                       mf_err *err)
{
    const mf_kind *kind = by->kind;
    const mf_job_fold *fold = NULL;
    const mf_component *row = NULL;
    mf_status status = mf_known_fold(&fold, query->book, query->job, err);
    size_t n = status == MF_OK ? mf_job_fold_count(fold, kind) : 0;
    for (size_t i = 0; i < n && row == NULL; i++) {
        const mf_component *c = mf_job_fold_item(fold, kind, i);
        row = c != NULL && strcmp(c->id, query->component) == 0 ? c : NULL;
    }
    bool other_side =
        row != NULL && query->side[0] != '\0' && !mf_same_but_case(query->side, side_of(by, row));
    if (row != NULL)
        snprintf(out->id, sizeof out->id, "%s", row->id);
    if (status == MF_OK && row == NULL)
        return no_such(query, out, MF_PART_COMPONENT, "component", query->component,
                       "without an opening the component is named by its id", err);
    if (other_side)
        wrong(out, MF_PART_SIDE, "each component is on one side",
              "correct the side or the component", "the component %s is not on this side", out->id);
    return status;
}

/* ---- by opening, type and side ------------------------------------------------------------ */

static bool is_meant(const mf_component_query *query, const said_by *by, const mf_component *c)
{
    return mf_same_but_case(query->side, side_of(by, c)) &&
           (mf_same_but_case(query->component, type_of(by, c)) ||
            strcmp(query->component, c->id) == 0);
}

/* Calls for the next component of the opening, from *at on; NULL = there is none left. */
static const mf_component *next_of_opening(const mf_component_query *query, const mf_job_fold *fold,
                                           const mf_kind *kind, size_t *at)
{
    for (size_t n = mf_job_fold_count(fold, kind); *at < n;) {
        const mf_component *c = mf_job_fold_item(fold, kind, (*at)++);
        if (c != NULL && strcmp(c->opening, query->opening) == 0)
            return c;
    }
    return NULL;
}

/* What the opening has, for who named none of it. */
static void add_list(mf_buf *out, const mf_component_query *query, const said_by *by,
                     const mf_job_fold *fold)
{
    size_t at = 0;
    const mf_component *c;
    while ((c = next_of_opening(query, fold, by->kind, &at)) != NULL)
        mf_buf_printf(out, "%s%s %s (%s)", out->len == 0 ? "it has: " : ", ", side_of(by, c),
                      type_of(by, c), c->id);
    if (out->len == 0)
        mf_buf_text(out, "log its components first");
}

static mf_status check_opening(const mf_component_query *query, mf_component_answer *out,
                               mf_err *err)
{
    bool known = false;
    const mf_folds folds = mf_book_folds(query->book);
    mf_status status =
        mf_known(&folds, mf_kind_named("opening"), query->job, query->opening, &known, err);
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

static void check_words(const mf_component_query *query, const said_by *by,
                        mf_component_answer *out)
{
    char mend[120] = "write";
    const char *const *known = by->side->choices;
    if (query->component[0] == '\0') {
        no_component(out);
        return;
    }
    for (size_t i = 0; known[i] != NULL; i++) {
        if (mf_same_but_case(known[i], query->side))
            return;
        size_t used = strlen(mend);
        snprintf(mend + used, sizeof mend - used, "%s %s", i == 0 ? "" : " or", known[i]);
    }
    char shown[60];
    mf_utf8_show(shown, sizeof shown, query->side);
    if (query->side[0] == '\0')
        wrong(out, MF_PART_SIDE, "an opening has two sides", mend, "the side is missing");
    else
        wrong(out, MF_PART_SIDE, "an opening has two sides", mend, "\"%s\" is not a side", shown);
}

static mf_status by_place(const mf_component_query *query, const said_by *by,
                          mf_component_answer *out, mf_err *err)
{
    const mf_job_fold *fold = NULL;
    const mf_component *c;
    char shown[60];
    size_t at = 0;
    int count = 0;
    mf_status status = mf_known_fold(&fold, query->book, query->job, err);
    while (status == MF_OK && (c = next_of_opening(query, fold, by->kind, &at)) != NULL)
        if (is_meant(query, by, c) && count++ == 0)
            snprintf(out->id, sizeof out->id, "%s", c->id);
    if (status != MF_OK || count == 1)
        return status;
    mf_buf list = {0};
    mf_utf8_show(shown, sizeof shown, query->component);
    if (count == 0) {
        add_list(&list, query, by, fold);
        wrong(out, MF_PART_COMPONENT, "a reading belongs to one component", mf_buf_str(&list),
              "the opening has no component \"%s\" on this side", shown);
    } else {
        wrong(out, MF_PART_COMPONENT, "a reading belongs to one component",
              "leave the opening empty and write the id of the component",
              "the opening has several components \"%s\" on this side", shown);
    }
    mf_buf_free(&list);
    return MF_OK;
}

mf_status mf_component_of(const mf_component_query *query, mf_component_answer *out, mf_err *err)
{
    const said_by by = component_fields();
    *out = (mf_component_answer){.why = ""};
    if (query->opening[0] == '\0') {
        if (query->component[0] != '\0')
            return by_id(query, &by, out, err);
        no_component(out);
        return MF_OK;
    }
    mf_status status = check_opening(query, out, err);
    if (status != MF_OK || out->what[0] != '\0')
        return status;
    check_words(query, &by, out);
    return out->what[0] != '\0' ? MF_OK : by_place(query, &by, out, err);
}
