/* entry export and entry import, as a person types them. What is expected follows from the
 * sample job and the design; all constructed. */
#include "support/shell_kit.h"

#define PHONE                                                                                      \
    "rm -f phone.* && $MISTFOLD --book out/demo.book book copy --no-key phone.book "               \
    "--device phone && "                                                                           \
    "$MISTFOLD --book phone.book --by rosa handover add J-1926 --party owner --what summary "      \
    "--how mail --on 2026-09-22 && $MISTFOLD --book phone.book --by rosa attach add J-1926 "       \
    "out/summary.pdf && $MISTFOLD --book phone.book entry export J-1926 --out phone.entries"
#define M "$MISTFOLD --book out/demo.book --by rosa "

static void good(const char *command)
{
    run(command);
    if (r.status != 0)
        print_error("%s\n%s%s", command, r.out, r.err);
    assert_int_equal(r.status, 0);
}

static int set_up(void **state)
{
    (void)state;
    run_folder(folder);
    run("sh " MF_SAMPLE "/demo.sh out > log 2>&1 && cp out/demo.book fresh.book && " PHONE);
    return r.status;
}

static int fresh(void **state)
{
    (void)state;
    run("rm -f out/demo.book* && cp fresh.book out/demo.book");
    return r.status;
}

static void there_and_back(void **state)
{
    (void)state;
    good(M "entry import phone.entries");
    says("421 entries read, 2 new, 1 attachments new\nreceipt, for the phone:\nhead ");
    says("\noffice 419 ");
    says("\nphone 2 ");
    good(M "entry import phone.entries");
    says("421 entries read, 0 new, 0 attachments new\n");
    good(M "book check && " M "attach list J-1926");
    says("summary.pdf");
    good("head=$($MISTFOLD --book phone.book book head | head -1 | grep -o '[0-9a-f]\\{64\\}'); " M
         "entry import phone.entries --json | grep -c \"$head\"");
    says("1\n");
}

static void readable_by_the_owner_alone(void **state)
{
    (void)state;
    good("stat -c %a phone.entries");
    says("600\n");
    run(M "entry export J-1926 --out out/demo.book");
    assert_int_equal(r.status, 3);
    run(M "entry export J-9 --out x.entries");
    assert_int_equal(r.status, 3);
    run("ls x.entries");
    assert_int_not_equal(r.status, 0);
}

static void cut_off(void **state)
{
    (void)state;
    good("head -c -100 phone.entries > cut.entries; " M "entry import cut.entries");
    says("421 entries read, 2 new, 1 attachments new\n");
    notes("note: cut.entries was cut off: it was taken up to its last whole line");
    good(M "entry import cut.entries --json");
    says("\"cut\": true");
    run("head -c 40 phone.entries > cut.entries; " M "entry import cut.entries");
    assert_int_equal(r.status, 3);
}

/* From a pipe, as the other commands that read a file. */
static void from_standard_input(void **state)
{
    (void)state;
    good("cat phone.entries | " M "entry import -");
    says("2 new");
}

static void a_book_that_cannot_be_written(void **state)
{
    (void)state;
    run(M "entry import nowhere.entries");
    assert_int_equal(r.status, 3);
    run("$MISTFOLD --book none.book entry import phone.entries");
    assert_int_equal(r.status, 3);
}

#define T(name) cmocka_unit_test_setup(name, fresh)
int main(void)
{
    const struct CMUnitTest tests[] = {
        T(there_and_back),      T(readable_by_the_owner_alone),   T(cut_off),
        T(from_standard_input), T(a_book_that_cannot_be_written),
    };
    return cmocka_run_group_tests(tests, set_up, shell_stop);
}
