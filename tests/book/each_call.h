/* each_call.h - makes one call of the library into SQLite, or one allocation of its own,
 * fail; tests/sync has others outside (EACH_OUTSIDE) fail, to a server and to a disk. The linker
 * sends those calls here (--wrap, see the Makefile).
 *
 * A calm run finds the calls; of those that are reached in the same way, through the
 * same functions, the first stands for all. */
#ifndef TESTS_EACH_CALL_H
#define TESTS_EACH_CALL_H

#include <errno.h>
#include <execinfo.h>
#include <sqlite3.h>
#include <stdbool.h>
#include <stdlib.h>

typedef enum each_kind { EACH_NONE, EACH_SQLITE, EACH_MEMORY, EACH_OUTSIDE } each_kind;

enum { EACH_WAYS = 20000, EACH_DEEP = 40 };

static struct each_state {
    each_kind kind; /* what is counted; EACH_NONE = nothing */
    long count;     /* of calls since each_begin */
    long fails_at;  /* which of them fails; 0 = none, look for ways instead */
    int code;       /* what SQLite says then */
    bool told;      /* it has just said so */
    int says;       /* what: a value is not bound for want of memory alone */
    size_t n;       /* ways found, and the first call of each */
    unsigned long way[EACH_WAYS];
    long first[EACH_WAYS];
} each;

static inline void each_begin(each_kind kind, long fails_at, int code)
{
    each.kind = kind;
    each.count = 0;
    each.fails_at = fails_at;
    each.code = code;
    each.told = false;
    if (fails_at == 0)
        each.n = 0;
}

static inline void each_end(void)
{
    each.kind = EACH_NONE;
}

/* FNV-1a over the addresses that the call came through. */
static inline unsigned long each_way(void)
{
    void *from[EACH_DEEP];
    int deep = backtrace(from, EACH_DEEP);
    unsigned long way = 14695981039346656037UL;
    for (int i = 0; i < deep; i++)
        way = (way ^ (unsigned long)from[i]) * 1099511628211UL;
    return way;
}

static inline void each_note(void)
{
    unsigned long way = each_way();
    for (size_t i = 0; i < each.n; i++)
        if (each.way[i] == way)
            return;
    if (each.n == EACH_WAYS)
        abort();
    each.way[each.n] = way;
    each.first[each.n++] = each.count;
}

static inline bool each_fails(each_kind kind)
{
    each.told = each.told && kind != EACH_SQLITE;
    if (each.kind != kind)
        return false;
    each.count++;
    if (each.fails_at == 0) {
        each.kind = EACH_NONE; /* backtrace() allocates the first time */
        each_note();
        each.kind = kind;
    }
    return each.count == each.fails_at;
}

static inline bool each_lacks(void)
{
    if (!each_fails(EACH_MEMORY))
        return false;
    errno = ENOMEM;
    return true;
}

static inline bool each_refuses(void)
{
    if (!each_fails(EACH_SQLITE))
        return false;
    each.told = true;
    each.says = each.code;
    return true;
}

static inline bool each_unbound(void)
{
    bool refuses = each_refuses();
    each.says = refuses ? SQLITE_NOMEM : each.says;
    return refuses;
}

/* type name(parameters), and the arguments to hand on. What the linker calls the two. */
#define EACH_WRAP(type, name, parameters, arguments, fails, failed)                                \
    extern type __real_##name parameters;                                                          \
    type __wrap_##name parameters;                                                                 \
    type __wrap_##name parameters                                                                  \
    {                                                                                              \
        return fails ? (failed) : __real_##name arguments;                                         \
    }
#define EACH_SAYS(name, parameters, arguments)                                                     \
    EACH_WRAP(int, name, parameters, arguments, each_refuses(), each.says)
#define EACH_BINDS(name, parameters, arguments)                                                    \
    EACH_WRAP(int, name, parameters, arguments, each_unbound(), each.says)

EACH_SAYS(sqlite3_prepare_v3,
          (sqlite3 * db, const char *sql, int n, unsigned flags, sqlite3_stmt **out,
           const char **tail),
          (db, sql, n, flags, out, tail))
EACH_SAYS(sqlite3_step, (sqlite3_stmt * stmt), (stmt))
EACH_SAYS(sqlite3_exec,
          (sqlite3 * db, const char *sql, int (*fn)(void *, int, char **, char **), void *data,
           char **message),
          (db, sql, fn, data, message))
EACH_BINDS(sqlite3_bind_text,
           (sqlite3_stmt * stmt, int at, const char *text, int n, void (*gone)(void *)),
           (stmt, at, text, n, gone))
EACH_BINDS(sqlite3_bind_text64,
           (sqlite3_stmt * stmt, int at, const char *text, sqlite3_uint64 n, void (*gone)(void *),
            unsigned char coding),
           (stmt, at, text, n, gone, coding))
EACH_BINDS(sqlite3_bind_int64, (sqlite3_stmt * stmt, int at, sqlite3_int64 number),
           (stmt, at, number))
EACH_BINDS(sqlite3_bind_blob64,
           (sqlite3_stmt * stmt, int at, const void *bytes, sqlite3_uint64 n, void (*gone)(void *)),
           (stmt, at, bytes, n, gone))
EACH_SAYS(sqlite3_create_function_v2,
          (sqlite3 * db, const char *name, int n, int coding, void *app,
           void (*fn)(sqlite3_context *, int, sqlite3_value **),
           void (*step)(sqlite3_context *, int, sqlite3_value **), void (*final)(sqlite3_context *),
           void (*gone)(void *)),
          (db, name, n, coding, app, fn, step, final, gone))
EACH_SAYS(sqlite3_backup_step, (sqlite3_backup * backup, int pages), (backup, pages))
EACH_WRAP(sqlite3_backup *, sqlite3_backup_init,
          (sqlite3 * to, const char *to_name, sqlite3 *from, const char *from_name),
          (to, to_name, from, from_name), each_refuses(), NULL)
EACH_WRAP(int, sqlite3_errcode, (sqlite3 * db), (db), each.told, each.says & 0xFF)
EACH_WRAP(int, sqlite3_extended_errcode, (sqlite3 * db), (db), each.told, each.says)
EACH_WRAP(void *, malloc, (size_t size), (size), each_lacks(), NULL)
EACH_WRAP(void *, calloc, (size_t n, size_t size), (n, size), each_lacks(), NULL)
EACH_WRAP(void *, realloc, (void *at, size_t size), (at, size), each_lacks(), NULL)

/* For json_set_alloc_funcs(). Not where jansson's reader makes its text longer, always to
 * a power of two: it does not look whether that went well (load.c, lex_save), and what
 * it then reads is not what was written. */
static inline void *each_json(size_t size)
{
    bool longer = size >= 32 && (size & (size - 1)) == 0;
    return !longer && each_lacks() ? NULL : __real_malloc(size);
}

#endif
