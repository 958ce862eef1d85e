/* What stands in the folder where devices meet and is not as it was written there, and what is
 * remembered of it. Each script begins with the firm of kit.sh; what is expected follows from
 * mistfold/sync.h, all constructed. */
#include "sync/script.h"

/* A whole text under a name that says something else of it. */
static void another_name(void **state)
{
    (void)state;
    script("firm; opening truck W1; quietly meet truck; f=$(segment truck 2); n=${f##*/}\n"
           "h=${n#truck.2-2.}; for name in paul.2-2. truck.3-3. truck.2-3.; do\n"
           "cp $f share/truck/$name$h; answer 3 \"damaged      ${name%%.*}/\" meet paul\n"
           "grep -q 'its bytes are not those that its name says' said\n"
           "rm share/truck/$name$h; done\n"
           "quietly meet office; quietly meet paul; same office truck paul\n");
}

/* Names that are none of ours, and what is no plain file under one that is. */
static void nothing_of_ours(void **state)
{
    (void)state;
    script(
        "firm; opening truck W1; quietly meet truck; f=$(segment truck 2); d=share/truck\n"
        "h=$(sha256sum $f | cut -c1-64)\n"
        "none() { : > \"share/$1\"; answer 0 \"not of ours  $1\" M office sync folder:share "
        "--dry-run\n"
        "rm \"share/$1\"; }\n"
        "none notes.txt; none truck/notes.txt; none truck/truck.2-1.$h.entries\n"
        "none truck/truck.02-2.$h.entries; none truck/truck.2-x.$h.entries\n"
        "none truck/truck.2-2.$h.entry; none truck/truck.2-2.${h%?}.entries\n"
        "none truck/truck.2-2.$h.entries.bak; none truck/Truck.2-2.$h.entries\n"
        "none truck/a-name-of-more-than-16.2-2.$h.entries\n"
        "none truck/truck.1234567890123456-1234567890123456.$h.entries; none truck/${h%?}g.bytes\n"
        "mv $f whole; for kind in 'mkdir' 'mkfifo' 'ln -s ../../whole'; do $kind $f\n"
        "answer 0 \"not of ours  ${f#share/}\" meet office; rm -r $f; done\n"
        "mv whole $f; answer 0 'came in      truck/2' meet office; same office truck\n");
}

/* Of a device that nobody knows, which has nothing whole there. */
static void junk_of_a_stranger(void **state)
{
    (void)state;
    script("firm; echo junk > j; n=$(sha256sum j | cut -c1-64); mkdir share/zed\n"
           "echo other > share/zed/zed.1-1.$n.entries; answer 3 'damaged      zed/1' meet office\n"
           "answer 3 'damaged      zed/1' meet office; [ -e share/zed/zed.1-1.$n.entries ]\n");
}

/* The same bytes twice, and one of the two torn: the other does. */
static void one_of_two_is_torn(void **state)
{
    (void)state;
    script("firm; photo truck; photo paul; mkdir other; quietly meet truck\n"
           "any() { \"$@\" >said 2>&1 || true; }; any meet paul other\n"
           "cp -r other/paul share/; b=$(ls share/truck/*.bytes); cp $b whole\n"
           "for torn in share/truck share/paul; do cp office.book o.book\n"
           "cp office.book.office.key o.book.office.key; echo torn > $torn/${b##*/}\n"
           "answer 0 \"replaced     its bytes\" M o sync folder:share --dry-run; grep -q 'came in  "
           "*truck' said\n"
           "grep -q 'attachments: 1' said; cp whole $torn/${b##*/}; done\n"
           "answer 0 'attachments: 1' meet office; [ $(ls share/*/*.bytes | wc -l) = 2 ]\n");
}

/* Whoever has the bytes needs none of the folder. */
static void bytes_that_are_here(void **state)
{
    (void)state;
    script("firm; photo truck; photo office; quietly meet truck; rm share/truck/*.bytes\n"
           "answer 0 'came in      truck/2' meet office; grep -q 'attachments: 0' said\n"
           "ls share/office/*.bytes; quietly meet truck\n"
           "quietly meet office; same office truck\n");
}

/* A try leaves one's own torn file, of which it says that it is unfinished and nothing is lost; to
 * the others it is damaged. A sync takes it away once a whole one is there. */
static void a_try_takes_nothing_away(void **state)
{
    (void)state;
    script("firm; opening office W1; quietly meet office; f=$(segment office 3); echo torn > $f\n"
           "answer 1 'unfinished' M office sync folder:share --status; [ \"$(cat $f)\" = torn ]\n"
           "grep -q 'the next sync writes it anew' said; not grep -q damaged said\n"
           "answer 3 'damaged' M truck sync folder:share --status\n"
           "answer 0 'replaced' meet office; not grep -q torn $f; quietly meet office\n");
}

/* What is remembered may be cut off or written over: the rest of it holds. */
static void what_is_remembered_is_torn(void **state)
{
    (void)state;
    script(
        "firm; opening truck W1; quietly meet truck; quietly meet office; m=$(ls "
        "office.book.*.sync)\n"
        "cp $m whole; long=$(printf 'n%.0s' $(seq 500))\n"
        "{ cat whole; echo; echo two words; echo $long 1 1 -; echo ${long%????????????}; } > $m\n"
        "answer 0 'taken over   entries: 0' meet office; not grep -q gone said; cmp $m whole\n"
        "{ cat whole; echo elsewhere/x 1 1 -; } > $m; answer 1 'gone' meet office\n"
        "grep -q 'elsewhere/x' said; answer 0 'taken over' meet office\n"
        "echo 'something else' > $m; answer 0 'taken over' meet office; cmp $m whole\n");
}

/* A file that was touched is read again, an attachment, too. */
static void what_was_touched(void **state)
{
    (void)state;
    script(
        "firm; photo truck; quietly meet truck; quietly meet office; b=$(ls share/truck/*.bytes)\n"
        "touch -d '2026-01-02 03:04' $b $(segment truck 2); answer 0 'entries: 0' meet office\n"
        "not grep -q 'damaged\\|gone' said; echo x >> $b; answer 0 'replaced' meet office\n"
        "grep -q 'all of it is here' said\n");
}

/* Its folder has the name of what is remembered of a server's chains. */
static void a_device_named_head(void **state)
{
    (void)state;
    script("firm; quietly M office book copy head.book --device head; opening head W1\n"
           "quietly meet office; answer 0 'handed out   head/' meet head\n"
           "for i in 1 2; do quietly M office sync folder:share --accept head; done\n"
           "quietly meet head; answer 0 'taken over   entries: 0' meet head\n"
           "not grep -q gone said; same office head; rm share/head/head.*\n"
           "answer 1 'gone         head/1 to ' meet office\n");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(another_name),
        cmocka_unit_test(nothing_of_ours),
        cmocka_unit_test(junk_of_a_stranger),
        cmocka_unit_test(one_of_two_is_torn),
        cmocka_unit_test(bytes_that_are_here),
        cmocka_unit_test(a_try_takes_nothing_away),
        cmocka_unit_test(what_is_remembered_is_torn),
        cmocka_unit_test(what_was_touched),
        cmocka_unit_test(a_device_named_head),
    };
    return cmocka_run_group_tests(tests, script_start, shell_stop);
}
