/* pg_connect.c - an address, and what is asked before anything is sent: off the local socket TLS
 * with the server's certificate checked, and a store of our version behind it. */
#include "base/fail.h"
#include "base/utf8.h"
#include "sync/pg.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { OPTIONS_MAX = 80, LINE_MAX = 240 };

#define SEE "docs/server.md says how a place is named and a login is made"

/* ---- what went wrong ------------------------------------------------------------------------ */

static void first_line(const char *text, char out[LINE_MAX])
{
    char line[LINE_MAX];
    snprintf(line, sizeof line, "%.*s", (int)strcspn(text, "\n"), text);
    mf_utf8_show(out, LINE_MAX, line);
}

mf_status mf_pg_fail(const mf_pg *pg, const PGresult *result, mf_err *err)
{
    char line[LINE_MAX];
    const char *said = PQresultErrorField(result, PG_DIAG_MESSAGE_PRIMARY);
    first_line(said != NULL ? said : PQerrorMessage(pg->conn), line);
    return mf_failf(err, MF_SYSTEM, pg->name, said != NULL ? "" : "the connection broke",
                    "sync again; ask the administrator when it stays so", "the store says: %s",
                    line);
}

bool mf_pg_is_refused(const PGresult *result)
{
    static const char *const classes[] = {"MF", "22", "23", "42501", "54"};
    const char *state = PQresultErrorField(result, PG_DIAG_SQLSTATE);
    for (size_t i = 0; state != NULL && i < sizeof classes / sizeof classes[0]; i++)
        if (strncmp(state, classes[i], strlen(classes[i])) == 0)
            return true;
    return false;
}

mf_status mf_pg_ask(mf_pg *pg, const char *sql, const char *const *values, int n, PGresult **out,
                    mf_err *err)
{
    PGresult *result = PQexecParams(pg->conn, sql, n, NULL, values, NULL, NULL, 0);
    ExecStatusType said = PQresultStatus(result);
    bool good = said == PGRES_TUPLES_OK || said == PGRES_COMMAND_OK || said == PGRES_COPY_IN ||
                said == PGRES_COPY_OUT;
    mf_status status = good ? MF_OK : mf_pg_fail(pg, result, err);
    if (out != NULL)
        *out = result;
    else
        PQclear(result);
    return status;
}

/* ---- the address ---------------------------------------------------------------------------- */

typedef struct keywords {
    const char *name[OPTIONS_MAX], *value[OPTIONS_MAX];
    int n;
} keywords;

static void add(keywords *k, const char *name, const char *value)
{
    if (k->n < OPTIONS_MAX - 1) {
        k->name[k->n] = name;
        k->value[k->n++] = value;
        k->name[k->n] = k->value[k->n] = NULL;
    }
}

static const char *value_of(const PQconninfoOption *options, const char *name)
{
    for (const PQconninfoOption *o = options; o->keyword != NULL; o++)
        if (strcmp(o->keyword, name) == 0 && o->val != NULL)
            return o->val;
    return "";
}

static mf_status look_at(mf_pg *pg, const PQconninfoOption *options, mf_err *err)
{
    char shown[sizeof pg->name];
    const char *host = value_of(options, "host"), *mode = value_of(options, "sslmode");
    snprintf(shown, sizeof shown, "postgresql://%.60s%s%.10s/%.60s",
             host[0] == '\0' ? value_of(options, "hostaddr") : host,
             value_of(options, "port")[0] == '\0' ? "" : ":", value_of(options, "port"),
             value_of(options, "dbname"));
    mf_utf8_show(pg->name, sizeof pg->name, shown);
    if (value_of(options, "password")[0] != '\0' || value_of(options, "sslpassword")[0] != '\0')
        return mf_fail(err, MF_USAGE, "PLACE", "a password stands in it",
                       "whoever lists the programs of this computer reads it",
                       "leave it out, and write it into ~/.pgpass, readable by you alone");
    if (mode[0] != '\0' && strcmp(mode, "verify-full") != 0)
        return mf_failf(err, MF_USAGE, "PLACE",
                        "another server in its place would be given the jobs of the firm",
                        "leave sslmode out, or write verify-full",
                        "sslmode=%.40s does not check whose server it is", mode);
    return MF_OK;
}

static void choose(keywords *k, const PQconninfoOption *options)
{
    for (const PQconninfoOption *o = options; o->keyword != NULL; o++)
        if (o->val != NULL && strcmp(o->keyword, "sslmode") != 0 &&
            strcmp(o->keyword, "gssencmode") != 0 && strcmp(o->keyword, "client_encoding") != 0)
            add(k, o->keyword, o->val);
    add(k, "sslmode", "verify-full"); /* libpq does without TLS on a local socket alone */
    add(k, "gssencmode", "disable");
    add(k, "client_encoding", "UTF8");
    add(k, "fallback_application_name", "mistfold");
    if (value_of(options, "connect_timeout")[0] == '\0')
        add(k, "connect_timeout", "10");
}

static void say_nothing(void *data, const char *text)
{
    (void)data;
    (void)text;
}

static mf_status connect_to(mf_pg *pg, const keywords *k, mf_err *err)
{
    char line[LINE_MAX];
    pg->conn = PQconnectdbParams(k->name, k->value, 0);
    if (pg->conn == NULL)
        return mf_fail_memory(err);
    PQsetNoticeProcessor(pg->conn, say_nothing, NULL);
    if (PQstatus(pg->conn) == CONNECTION_OK)
        return MF_OK;
    first_line(PQerrorMessage(pg->conn), line);
    return mf_failf(err, MF_SYSTEM, pg->name, line, SEE, "the server cannot be reached");
}

/* ---- what stands behind it --------------------------------------------------------------------
 */

static const char settings[] = "SET search_path = pg_catalog; SET statement_timeout = 0;"
                               "SET idle_in_transaction_session_timeout = 0;"
                               "SET standard_conforming_strings = on; SET DateStyle = ISO";

static mf_status set(mf_pg *pg, mf_err *err)
{
    PGresult *result = PQexec(pg->conn, settings);
    mf_status status =
        PQresultStatus(result) == PGRES_COMMAND_OK ? MF_OK : mf_pg_fail(pg, result, err);
    PQclear(result);
    return status;
}

mf_status mf_pg_open(mf_pg *pg, const char *address, mf_err *err)
{
    char *said = NULL;
    keywords k = {.n = 0};
    *pg = (mf_pg){.conn = NULL};
    snprintf(pg->name, sizeof pg->name, "PLACE");
    PQconninfoOption *options = PQconninfoParse(address, &said);
    if (options == NULL && said == NULL)
        return mf_fail_memory(err);
    if (options == NULL) {
        char line[LINE_MAX];
        first_line(said, line);
        PQfreemem(said);
        return mf_failf(err, MF_USAGE, "PLACE", line, SEE, "it is not the address of a database");
    }
    mf_status status = look_at(pg, options, err);
    choose(&k, options);
    if (status == MF_OK)
        status = connect_to(pg, &k, err);
    PQconninfoFree(options);
    return status == MF_OK ? set(pg, err) : status;
}

void mf_pg_close(mf_pg *pg)
{
    PQfinish(pg->conn);
    pg->conn = NULL;
}
