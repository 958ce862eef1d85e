/* What a segment waits for, and who says of a device that is new what it had. Each script begins
 * with the firm of kit.sh; what is expected follows from mistfold/sync.h, all constructed. */
#include "sync/script.h"

static const char kit[] = "any() { \"$@\" >said 2>&1 || true; }\n"
                          "twin() { cp $1.book $2.book; cp $1.book.$1.key $2.book.$1.key; }\n"
                          "put_back() { rm -f office.book*; cp -p kept/* .; }\n"
                          "has() { M office opening list J-7 | grep -q \"$1\"; }\n"
                          "keep() { rm -rf kept; mkdir kept; cp -p office.book* kept/; }\nfirm\n";

static void wait_script(const char *text)
{
    char all[4000];
    snprintf(all, sizeof all, "%s%s", kit, text);
    script(all);
}

/* Paul knew another history of the truck than the office: it is told with both hashes. */
static void it_knew_another_history(void **state)
{
    (void)state;
    wait_script("twin truck two; opening truck W1; quietly meet truck; quietly meet office\n"
                "mkdir other; opening two W2; any meet two other; any meet paul other\n"
                "opening paul W3; any meet paul other; cp other/paul/paul.* share/paul/\n"
                "answer 3 'forked       paul/2' meet office\n"
                "grep -q 'entry truck/2 says something else here: its hash is .* there' said\n"
                "grep -q 'one device has two histories' said; not has W3; opening office W4\n"
                "answer 3 'handed out   office/' meet office\n");
}

/* The chain of a device without a key, in two pieces; the truck vouches for the end of the last. */
static void one_vouches_for_the_end(void **state)
{
    (void)state;
    wait_script("quietly M office book copy --no-key van.book --device van; quietly meet office\n"
                "for w in W1 W2; do opening van $w; any meet van; done\n"
                "[ $(ls share/van/van.* | wc -l) = 2 ]\n"
                "answer 1 'this book knows no device van' meet office\n"
                "quietly M truck sync folder:share --accept van; opening truck W3\n"
                "quietly meet truck; rm -f share/truck/van.*\n"
                "answer 0 'came in      van/1 to 1' meet office\n"
                "grep -q 'came in      van/2 to 2' said; has W2\n"
                "quietly meet paul; same office truck paul\n");
}

/* What the truck had of us says that more is lacking than what stands there: nothing of ours is
 * taken over until all of it is. */
static void the_truck_had_more_of_us(void **state)
{
    (void)state;
    wait_script(
        "keep; opening office W5; quietly meet office; opening office W6; quietly meet office\n"
        "quietly meet truck; opening truck W7; quietly meet truck; put_back; mkdir away\n"
        "f=$(ls share/office/office.8-8.*); mv $f away/; rm -f office.book.*.sync\n"
        "answer 1 'waits        office/7 to 7' M office sync folder:share --adopt 'the disk "
        "broke'\n"
        "grep -q 'entry office/8 has not arrived' said; not grep -q 'came in' said\n"
        "mv away/* share/office/; answer 0 'why is logged as office/9' "
        "M office sync folder:share --adopt 'the disk broke'\n"
        "has W7; any meet truck; same office truck\n");
}

/* Ours and another key of the truck, for one reason: the entry that says why is told of ours. */
static void ours_and_another(void **state)
{
    (void)state;
    wait_script(
        "mv truck.book.truck.key lost; quietly M truck book key --reason 'the laptop was lost'\n"
        "quietly meet truck; keep; opening office W5; any meet office; put_back\n"
        "answer 3 'refused      truck/' meet office; grep -q 'refused      office/7' said\n"
        "answer 0 'came in      truck/' M office sync folder:share --adopt r --of office,truck\n"
        "grep -q '^1 of them under the name of this device; why is logged as office/8' said\n"
        "opening truck W6; quietly meet truck; quietly meet office; any meet truck\n"
        "same office truck\n");
}

/* Nothing is noted of a device that is accepted while our own chain is in doubt. */
static void accepted_in_doubt(void **state)
{
    (void)state;
    wait_script("quietly M truck book copy van.book --device van; opening van W6; any meet van\n"
                "keep; opening office W5; any meet office; put_back\n"
                "answer 3 'came in      van/' M office sync folder:share --accept van\n"
                "M office book head >heads 2>&1; not grep -q '^office *7' heads\n"
                "answer 0 'why is logged as office/8' M office sync folder:share --adopt r\n"
                "opening van W8; any meet van; quietly meet office; has W8\n");
}

/* The clock of the truck runs ahead: what it logged comes in, and is told. */
static void a_clock_that_is_wrong(void **state)
{
    (void)state;
    wait_script("(export LD_PRELOAD=$MF_BUILD/tests/preload/clock.so CLOCK_AHEAD=864000 "
                "ASAN_OPTIONS=verify_asan_link_order=0\n"
                "opening truck W1); quietly meet truck\n"
                "answer 1 'came in      truck/2' meet office\n"
                "grep -q 'which is still to come; the clock of that device is wrong' said\n"
                "quietly meet office; same office truck\n");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(it_knew_another_history),  cmocka_unit_test(one_vouches_for_the_end),
        cmocka_unit_test(the_truck_had_more_of_us), cmocka_unit_test(ours_and_another),
        cmocka_unit_test(accepted_in_doubt),        cmocka_unit_test(a_clock_that_is_wrong),
    };
    return cmocka_run_group_tests(tests, script_start, shell_stop);
}
