/* pg_check.c - whether a store is just the one that our SQL makes: structure, triggers, policies
 * and grants, line by line. */
#include "base/fail.h"
#include "sync/pg.h"
#include "sync/texts.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

MF_API const char *mf_store_sql(void)
{
    return (const char *)mf_text_store;
}

typedef struct comparing {
    const PGresult *there; /* in the order of bytes, as the lines of ours are */
    int at;
    mf_store_odd_fn *fn;
    void *data;
    bool more;
} comparing;

static void tell(comparing *c, const char *line, bool missing)
{
    c->more = c->more && c->fn(line, missing, c->data);
}

/* What the store has in front of that line, and not it. */
static void pass(comparing *c, const char *line)
{
    int order = -1;
    for (; order < 0 && c->at < PQntuples(c->there); c->at += order <= 0) {
        order = line == NULL ? -1 : strcmp(PQgetvalue(c->there, c->at, 0), line);
        if (order < 0)
            tell(c, PQgetvalue(c->there, c->at, 0), false);
    }
    if (line != NULL && order != 0)
        tell(c, line, true);
}

static mf_status compare(comparing *c, mf_err *err)
{
    char *rest = NULL, *ours = strdup((const char *)mf_text_shape);
    if (ours == NULL)
        return mf_fail_memory(err);
    for (char *line = strtok_r(ours, "\n", &rest); line != NULL; line = strtok_r(NULL, "\n", &rest))
        pass(c, line);
    pass(c, NULL);
    free(ours);
    return MF_OK;
}

MF_API mf_status mf_store_postgresql_check(const char *address, mf_store_odd_fn *fn, void *data,
                                           mf_err *err)
{
    mf_pg pg = {.conn = NULL};
    PGresult *result = NULL;
    comparing c = {.fn = fn, .data = data, .more = true};
    mf_status status = mf_pg_open(&pg, address, err);
    if (status == MF_OK)
        status = mf_pg_ask(&pg, (const char *)mf_text_shape_of, NULL, 0, &result, err);
    c.there = result;
    if (status == MF_OK)
        status = compare(&c, err);
    PQclear(result);
    mf_pg_close(&pg);
    return status;
}
