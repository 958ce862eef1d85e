/* Devices that meet at a folder. Each script begins with the firm of kit.sh; what is expected
 * follows from mistfold/sync.h, all constructed. */
#include "sync/script.h"

static void all_have_all(void **state)
{
    (void)state;
    script("firm; opening truck W1; opening paul W2; opening office W3; photo truck\n"
           "answer 0 'handed out   truck/' meet truck\n"
           "answer 0 'came in      truck/' meet paul\n"
           "answer 0 'came in      paul/' meet office\n"
           "quietly meet truck; quietly meet paul; same office truck paul\n"
           "answer 0 'handed out   entries: 0, attachments: 0' meet office\n"
           "[ $(ls share/*/*.bytes | wc -l) = 1 ]\n"
           "answer 0 'W2' M truck opening list J-7\n"
           "cmp share/*/*.bytes $SAMPLE/bagged-waste.png\n");
}

/* Nobody writes where another does, and no file is touched again. */
static void each_writes_its_own(void **state)
{
    (void)state;
    script(
        "firm; opening truck W1; sum() { (cd share; sha256sum */* | sort); }\n"
        "sum > before; chmod -w share/office share/office/* share/paul share/paul/*\n"
        "quietly meet truck; sum > after; comm -23 before after > lost; [ ! -s lost ]\n"
        "[ $(comm -13 before after | wc -l) = 1 ]; comm -13 before after | grep -q ' truck/truck'\n"
        "chmod +w share/*; ls -a share/truck | grep -c mistfold > n || true; [ $(cat n) = 0 ]\n");
}

/* The same bytes by two crews are there once; what arrived without them waits. */
static void attachments_wait_for_their_bytes(void **state)
{
    (void)state;
    script("firm; photo truck; quietly meet truck; mkdir away; mv share/truck/*.bytes away\n"
           "answer 1 'the bytes of attachment' meet office; answer 1 waits meet paul\n"
           "opening office W3; answer 1 'handed out   office/' meet office\n"
           "mv away/* share/truck; answer 0 'attachments: 1' meet office; photo paul\n"
           "answer 0 'came in      truck/2' meet paul; quietly meet truck; quietly meet office\n"
           "[ $(ls share/*/*.bytes | wc -l) = 1 ]; same office truck paul\n");
}

/* The service that carries the folder brings files in any order and again. */
static void out_of_order(void **state)
{
    (void)state;
    script("firm; for i in 1 2 3; do opening truck W$i; quietly meet truck; done\n"
           "two=$(segment truck 3) one=$(segment truck 2); mkdir away; mv $one away/first\n"
           "answer 1 'has not arrived' meet office; answer 1 'waits' M office sync folder:share\n"
           "grep -qF 'entry truck/2 has not arrived' said\n"
           "cp $two \"${two%.entries} (1).entries\"\n"
           "answer 1 'not of ours' meet office; mv away/first $one\n"
           "answer 0 'came in' meet office; cp $two share/paul/; quietly meet office\n"
           "answer 0 'came in' meet paul; quietly meet truck; same office truck paul\n");
}

/* What builds on another device's entry comes after it, whoever wrote first. */
static void a_correction_waits_for_what_it_corrects(void **state)
{
    (void)state;
    script("firm; opening truck W1; quietly meet truck; quietly meet office\n"
           "quietly M office entry correct truck/2 --set room=kitchen --reason misread\n"
           "quietly meet office; mkdir away; mv $(segment truck 2) away/t\n"
           "answer 1 'entry truck/2 has not arrived' meet paul\n"
           "mv away/t $(cd share; echo share/truck/truck.2-2.$(sha256sum ../away/t | cut -c1-64)"
           ".entries)\n"
           "answer 0 'came in' meet paul; quietly meet truck; same office truck paul\n"
           "answer 0 kitchen M paul opening list J-7\n");
}

/* Each learned of the other by a book that was carried, before either came to the folder. */
static void two_that_know_each_other(void **state)
{
    (void)state;
    script("firm; opening truck W1; opening paul W2; cp paul.book p.book; mkdir other\n"
           "quietly M truck book merge p.book; cp truck.book t.book; quietly M paul book merge "
           "t.book\n"
           "opening truck W3; opening paul W4\n"
           "quietly meet truck share; mv share/truck/paul* other/; quietly meet paul\n"
           "rm -f share/paul/truck*\n"
           "answer 0 'came in      truck/' meet office; grep -q 'came in      paul/' said\n"
           "mv other/* share/truck/; for i in 1 2; do for b in office truck paul; do\n"
           "quietly meet $b; done; done; same office truck paul\n");
}

/* Nothing is written here or there. */
static void a_try_writes_nothing(void **state)
{
    (void)state;
    script("firm; opening truck W1; photo truck; quietly meet truck; opening office W3\n"
           "find share -type f | sort | xargs sha256sum > before; head_of office > head\n"
           "answer 0 'came in      truck/' M office sync folder:share --dry-run\n"
           "grep -q 'handed out   office/' said; grep -q 'nothing was written' said\n"
           "answer 0 'attachments: 1' M office sync folder:share --status\n"
           "find share -type f | sort | xargs sha256sum > after; cmp before after\n"
           "head_of office | cmp - head; quietly meet office; quietly meet truck; same office "
           "truck\n");
}

static void where_everything_is(void **state)
{
    (void)state;
    script("firm; opening truck W1; opening office W3; quietly meet truck; quietly meet office\n"
           "answer 0 'truck                     2         2' M office sync folder:share --status\n"
           "M office sync folder:share --status --json | python3 -c \"import json,sys; "
           "d=json.load(sys.stdin); assert [x['device'] for x in d['devices']] == "
           "['office','paul','truck'], d; assert all(x['here']==x['there'] for x in "
           "d['devices'])\"\n");
}

/* Pulling at the office says what the crews' entries made due, and what they contradict. */
static void what_became_due(void **state)
{
    (void)state;
    script("firm; quietly M truck job complete J-7 --on 2026-09-17; quietly meet truck\n"
           "answer 0 'became due:' meet office; grep -q J-7 said\n"
           "answer 0 'taken over   entries: 0' meet office; not grep -q 'became due' said\n"
           "two_corrections\n");
}

/* What a phone brought to the office by a file of entries goes on to all. */
static void a_phone_is_handed_on(void **state)
{
    (void)state;
    script(
        "firm; quietly M office book copy --no-key phone.book --device phone; opening phone W9\n"
        "quietly M phone entry export J-7 --out phone.entries\n"
        "quietly M office entry import phone.entries; answer 0 'handed out   phone/' meet office\n"
        "answer 0 'came in      phone/1 to 1' meet truck; quietly meet paul\n"
        "same office truck paul\n");
}

static void a_place_that_is_none(void **state)
{
    (void)state;
    script("firm; answer 3 'cannot open it' meet office nowhere; : > file\n"
           "answer 3 'it is not a folder' meet office file\n"
           "answer 3 'it is not a place where devices can meet' M office sync share\n"
           "answer 2 'PLACE' M office sync; opening office W1; rm -r share; mkdir share\n"
           "answer 3 'none does' meet office; [ -z \"$(ls share)\" ]\n"
           "answer 1 'handed out   office/' M office sync folder:share --refill\n"
           "quietly meet office; answer 1 'gone' M truck sync folder:share --refill\n"
           "same office truck\n");
}

/* A file that was read is known by its time and size; --status reads it all the same. */
static void the_same_time_and_size(void **state)
{
    (void)state;
    script("firm; opening truck W1; quietly meet truck; quietly meet office; quietly meet office\n"
           "f=$(segment truck 2); touch -r $f ref; tr W V < $f > g; cat g > $f; touch -r ref $f\n"
           "answer 0 'taken over   entries: 0' meet office\n"
           "answer 3 'damaged' M office sync folder:share --status\n"
           "grep -q \"its bytes are not those that its name says\" said\n");
}

/* Whoever has the entries and the bytes writes them anew; what is torn is taken away by its own,
 * and missed by whoever saw it there. */
static void torn_files_are_replaced(void **state)
{
    (void)state;
    script("firm; photo truck; quietly meet truck; quietly meet office; opening office W3\n"
           "quietly meet office; f=$(segment office 2); g=$(ls share/truck/*.bytes); cp $g whole\n"
           "printf torn > $f; printf torn > $g; answer 0 \"replaced     its bytes\" meet truck\n"
           "grep -q '^replaced     office/5 to 6' said; cmp $g whole; [ -e $f ]\n"
           "answer 0 'replaced     office/5 to 6' meet office; not test -e $f\n"
           "not grep -q truck/ said; answer 0 'handed out   entries: 0' meet office\n"
           "not grep -q replaced said; answer 1 'gone         office/5 to 6' meet paul\n"
           "quietly meet paul; same office truck paul\n");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(all_have_all),
        cmocka_unit_test(each_writes_its_own),
        cmocka_unit_test(attachments_wait_for_their_bytes),
        cmocka_unit_test(out_of_order),
        cmocka_unit_test(a_correction_waits_for_what_it_corrects),
        cmocka_unit_test(two_that_know_each_other),
        cmocka_unit_test(a_try_writes_nothing),
        cmocka_unit_test(where_everything_is),
        cmocka_unit_test(what_became_due),
        cmocka_unit_test(a_phone_is_handed_on),
        cmocka_unit_test(a_place_that_is_none),
        cmocka_unit_test(the_same_time_and_size),
        cmocka_unit_test(torn_files_are_replaced),
    };
    return cmocka_run_group_tests(tests, script_start, shell_stop);
}
