/* A sync that is ended anywhere is made again. Each system call fails once, or it and all after
 * it (tests/preload/fault.c), and the program is killed at random instants: no file in the
 * folder is ever half there, and the next sync brings everything everywhere. "make check"
 * tries some, "make torture" all of them. */
#include "support/torture.h"
#include "sync/script.h"

#define ROUND                                                                                      \
    "firm; opening truck W1; photo truck; quietly meet truck; opening office W2; mkdir keep\n"     \
    "cp -r share *.book* keep/\n"                                                                  \
    "back() { rm -rf share *.book*; cp -r keep/* .; }\n"                                           \
    "whole() { for f in share/*/*; do case $f in *.entries|*.bytes) h=${f%.*}; h=${h##*[./]}\n"    \
    "[ $(sha256sum < $f | cut -c1-64) = $h ] || { echo $f is torn; return 1; };; esac; done; }\n"  \
    "again() { whole; quietly meet office; quietly meet truck; quietly meet paul\n"                \
    "same office truck paul; [ -z \"$(find share -name '.mistfold*')\" ]; }\n"

/* What it says of a failure: 0 when it did no harm, 3 or 4. */
#define FAULTS                                                                                     \
    "lib=$MF_BUILD/tests/preload/fault.so\n"                                                       \
    "try() { FAULT_KIND=$1 FAULT_AT=$2 FAULT_SAYS=says LD_PRELOAD=$lib ${3:-} $MISTFOLD --book "   \
    "office.book --by rosa sync folder:share >out 2>&1; }\n"                                       \
    "each() { back; try $1 0 || true; n=$(cut -d' ' -f1 says); i=1; while [ $i -le $n ]; do\n"     \
    "for l in '' 'env FAULT_LASTS=1'; do back; s=0; try $1 $i \"$l\" || s=$?\n"                    \
    "case $s in 0|3|4) ;; *) echo $1 $i $l: $s; cat out; exit 9;; esac\n"                          \
    "again || { echo after $1 $i $l; exit 9; }; done; i=$((i + STEP)); done; }\n"

static void each(const char *kind, const char *few, const char *all)
{
#if defined(__SANITIZE_ADDRESS__) /* it has an allocator of its own */
    skip();
#endif
    setenv("STEP", torture(1, 0) ? few : all, 1);
    setenv("KIND", kind, 1);
    script(ROUND FAULTS "each $KIND\n");
}

static void every_call_fails(void **state)
{
    (void)state;
    each("call", "97", "3");
}

static void memory_runs_out(void **state)
{
    (void)state;
    each("alloc", "1999", "61");
}

/* kill -9 as in signal(7), after so many thousandths of a second. */
static void killed_at_any_time(void **state)
{
    (void)state;
    setenv("KILLS", torture(1, 0) ? "12" : "300", 1);
    /* The shell waits for what it killed: a process that nobody waited for still seems to write. */
    script(ROUND "i=0; while [ $i -lt $KILLS ]; do back\n"
                 "$MISTFOLD --book office.book --by rosa sync folder:share >out 2>&1 & p=$!\n"
                 "sleep 0.$(printf %03d $((1 + i * 7 % 60))); kill -9 $p 2>/dev/null || true\n"
                 "wait $p 2>/dev/null || true\n"
                 "again || { find share -name '.m*'; echo after kill $i; exit 9; }\n"
                 "i=$((i + 1)); done\n");
}

/* The place of its folder is taken: what could be taken over is. */
static void a_folder_that_cannot_be_written(void **state)
{
    (void)state;
    script(ROUND "rm -r share/office; : > share/office\n"
                 "answer 3 'a part of the path is not a folder' meet office\n"
                 "answer 0 W1 M office opening list J-7; rm share/office\n"
                 "answer 1 gone meet office; answer 1 gone meet truck\n"
                 "answer 1 gone meet paul; again\n");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_call_fails),
        cmocka_unit_test(memory_runs_out),
        cmocka_unit_test(killed_at_any_time),
        cmocka_unit_test(a_folder_that_cannot_be_written),
    };
    return cmocka_run_group_tests(tests, script_start, shell_stop);
}
