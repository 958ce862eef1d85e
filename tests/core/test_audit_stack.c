/* How much stack a question needs, as audit.h says: on a thread whose stack is painted
 * first, and looked at after. Bounds by measure, no source; the sanitizers' own room is
 * no part of it, so there it is only asked that the answers come. */
#include "support/cmocka_all.h"
#include "support/fixture_job.h"

#include <mistfold/audit.h>
#include <pthread.h>
#include <stdlib.h>
#include <string.h>

enum { STACK = 8 << 20, PAINT = 0xA5, MANY = 4096, FINDINGS = 4000 };

#if defined(__SANITIZE_ADDRESS__)
enum { MEASURES = 0 };
#elif defined(__has_feature)
#if __has_feature(address_sanitizer)
enum { MEASURES = 0 };
#else
enum { MEASURES = 1 };
#endif
#else
enum { MEASURES = 1 };
#endif

static fixture fx;
static mf_reading many[MANY];
static mf_finding found[FINDINGS];

static void *audit_all(void *unused)
{
    (void)unused;
    const mf_audit_ask ask = {&fx.job, fx_day("2026-09-22"), 0, ""};
    assert_true(mf_audit(&ask, found, FINDINGS) > 0);
    return NULL;
}

static void *nothing(void *unused)
{
    return unused;
}

/* Bytes of the stack that the function wrote to. */
static size_t stack_of(void *(*function)(void *))
{
    unsigned char *stack = aligned_alloc(4096, STACK);
    pthread_attr_t attr;
    pthread_t thread;
    size_t clean = 0;
    assert_non_null(stack);
    memset(stack, PAINT, STACK);
    assert_int_equal(pthread_attr_init(&attr), 0);
    assert_int_equal(pthread_attr_setstack(&attr, stack, STACK), 0);
    assert_int_equal(pthread_create(&thread, &attr, function, NULL), 0);
    assert_int_equal(pthread_join(thread, NULL), 0);
    pthread_attr_destroy(&attr);
    while (clean < STACK && stack[clean] == PAINT)
        clean++;
    free(stack);
    return STACK - clean;
}

static void holds(void *(*function)(void *), size_t most)
{
    size_t used = stack_of(function) - stack_of(nothing);
    if (MEASURES != 0 && (used > most || used < most / 2))
        fail_msg("%zu bytes of stack, and the header says up to %zu", used, most);
}

/* The order and the index of the readings are kept there: a full one and a small job alike. */
static void a_question(void **state)
{
    (void)state;
    fx_good(&fx);
    holds(audit_all, MF_AUDIT_STACK);
    for (size_t i = 0; i < MANY; i++)
        many[i] = fx.reading[0];
    fx.job.reading = many;
    fx.job.n_reading = MANY;
    holds(audit_all, MF_AUDIT_STACK);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(a_question)};
    return cmocka_run_group_tests_name("audit_stack", tests, NULL, NULL);
}
