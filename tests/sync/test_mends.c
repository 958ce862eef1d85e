/* What a message of a sync or of a merge says to do mends it: each is made to happen, and the very
 * words of the message are followed. The firm is invented (kit.sh). */
#include "sync/script.h"

/* followed TEXT PATTERN BOOK ...: the command, with what of the last message the pattern fits, does
 * well and says the text. */
static const char kit[] =
    "followed() { text=$1; mend=$(grep -oE -- \"$2\" said | head -1); shift 2\n"
    "  [ -n \"$mend\" ] || { echo 'it says no such mend:'; cat said; exit 96; }\n"
    "  eval \"answer 0 '$text' M $* $mend\"; }\n"
    "any() { \"$@\" >said 2>&1 || true; }\n"
    "AB=$(printf 'ab%.0s' $(seq 32))\n"
    "mistyped() { quietly M truck book witness \"office 99 $AB\" --from office\n"
    "  wrong=truck/$(M truck book head | sed -n 's|^truck *||p' | cut -d' ' -f1); }\n"
    "put_back() { rm -f office.book*; cp -p kept/* .; }\n"
    "keep() { rm -rf kept; mkdir kept; cp -p office.book* kept/; }\n"
    "mute() { ! M \"$1\" book head 2>&1 | grep note || exit 94; }\n"
    "firm\n";

static void follow(const char *text)
{
    char all[6000];
    snprintf(all, sizeof all, "%s%s", kit, text);
    script(all);
}

/* ---- a head that was noted ----------------------------------------------------------------- */

/* The truck typed it wrongly, handed it out, and withdraws it by what it hands out later. */
static void it_is_withdrawn(void **state)
{
    (void)state;
    follow("mistyped; quietly meet truck; answer 3 'entry office/99: it was there' meet office\n"
           "grep -qF 'is withdrawn at truck' said; M office person list 2>&1 | grep -q note:\n"
           "quietly M truck entry withdraw $wrong --reason 'typed wrong'; opening truck W1\n"
           "quietly meet truck; answer 0 'came in      truck/' meet office; mute office\n"
           "M office opening list J-7 | grep -q W1\n"
           "quietly meet paul; quietly meet truck; quietly meet office; same office truck paul\n");
}

/* ... and others went on from it before. */
static void others_went_on_from_it(void **state)
{
    (void)state;
    follow("mistyped; quietly meet truck; quietly meet paul; opening paul W2; quietly meet paul\n"
           "answer 3 'entry truck/' meet office; grep -q '^waits        paul/' said\n"
           "quietly meet truck; quietly M truck entry withdraw $wrong --reason 'typed wrong'\n"
           "quietly meet truck; answer 0 'came in      paul/' meet office; mute office\n"
           "quietly meet paul; quietly meet truck; same office truck paul\n");
}

/* ... or it stays, and the office takes it over by what the message says. */
static void it_is_adopted(void **state)
{
    (void)state;
    follow("mistyped; opening truck W1; quietly meet truck; cp truck.book t.book\n"
           "answer 3 'refused      truck/' meet office\n"
           "cp office.book o.book; cp office.book.office.key o.book.office.key\n"
           "followed 'why is logged as office/' '--adopt \"[^\"]*\" --of [a-z,]*' office "
           "sync folder:share\n"
           "M office opening list J-7 | grep -q W1\n"
           "answer 3 'entry office/99: it was there' M o book merge t.book\n"
           "followed 'why is logged as office/' '--adopt \"[^\"]*\" --of [a-z,]*' o "
           "book merge t.book\n");
}

/* ... or somebody else withdraws it, which counts there alone, and is told. */
static void another_withdraws_it(void **state)
{
    (void)state;
    follow("quietly M truck book witness \"paul 41 $AB\" --from paul; quietly meet truck\n"
           "quietly meet office; wrong=truck/$(M truck book head | sed -n 's|^truck *||p' | cut "
           "-d' ' -f1)\n"
           "answer 0 'this counts on this device alone' M office entry withdraw $wrong --reason t\n"
           "cp said told; opening office W1; quietly meet office\n"
           "answer 3 'is withdrawn at truck: entry withdraw truck/' meet paul; cp said line\n"
           "answer 3 'nothing of truck was there to be adopted' M paul sync folder:share --adopt r "
           "--of truck\n"
           "quietly meet truck; cp truck.book keep.book; cp truck.book.truck.key "
           "keep.book.truck.key\n"
           "for from in told line; do cp keep.book truck.book; cp $from said\n"
           "followed 'logged correction truck/' 'entry withdraw [a-z/0-9]* --reason \"[^\"]*\"' "
           "truck\n"
           "not grep -q 'counts on this device alone' said; done\n"
           "answer 3 'it was withdrawn' M truck entry withdraw $wrong --reason again\n"
           "quietly meet truck; answer 0 'came in      office/' meet paul; mute paul\n"
           "M paul opening list J-7 | grep -q W1; quietly meet office; quietly meet truck\n"
           "same office truck paul\n");
}

/* ... or this one does, once what it noted is here. */
static void the_office_withdraws_it_too(void **state)
{
    (void)state;
    follow("mistyped; opening truck W1; quietly meet truck; quietly meet paul\n"
           "quietly M paul entry withdraw $wrong --reason t; quietly meet paul\n"
           "answer 3 'refused      truck/' meet office\n"
           "followed 'why is logged as office/' '--adopt \"[^\"]*\" --of [a-z,]*' office "
           "sync folder:share\n"
           "answer 0 'this counts on this device alone' M office entry withdraw $wrong --reason t\n"
           "answer 0 '1 more withdrawn' M office book check\n");
}

/* The manual's own example (docs/book.md): the truck has another entry than was noted of it. */
static void what_the_truck_has(void **state)
{
    (void)state;
    follow("quietly M office book witness \"truck 2 $AB\" --from truck; opening truck W1\n"
           "answer 3 'entry truck/2' M office book merge truck.book; quietly meet truck\n"
           "answer 3 'refused      truck/2' meet office; cp office.book o.book\n"
           "cp office.book.office.key o.book.office.key\n"
           "answer 0 'why is logged as office/' M office sync folder:share --adopt why --of truck\n"
           "answer 0 'why is logged as office/' M o book merge truck.book --adopt why --of truck\n"
           "answer 0 'nothing of truck was there to be adopted, and no reason is logged' "
           "M o book merge truck.book --adopt why --of truck\n"
           "answer 1 'taken over all the same by office/' M office book check\n");
}

/* The book of the truck is merged: what is noted of it goes when it is mended. */
static void a_merge_takes_it_back(void **state)
{
    (void)state;
    follow("mistyped; answer 3 'entry office/99: it was there' M office book merge truck.book\n"
           "M office person list 2>&1 | grep -q 'went on to entry office/99'\n"
           "quietly M truck entry withdraw $wrong --reason 'typed wrong'\n"
           "quietly M office book merge truck.book; mute office\n");
}

/* ---- a book that was put back ---------------------------------------------------------------- */

static void what_it_lacks_comes_in(void **state)
{
    (void)state;
    follow(
        "keep; opening office W7; quietly meet office; cp office.book full.book\n"
        "put_back; answer 3 'under the name of this very device' meet office\n"
        "answer 3 'was logged on this device and is not here' M office person add --id z --name Z\n"
        "for how in 'book merge full.book' 'sync folder:share'; do\n"
        "  put_back; any meet office\n"
        "  answer 3 'take it over first' M office person add --id z --name Z\n"
        "  followed 'why is logged as' '--adopt \"[^\"]*\"' office $how\n"
        "  quietly M office person add --id z --name Z; done\n");
}

/* Nothing there has it any more but the book of the truck, which the message asks for. */
static void a_book_that_has_it(void **state)
{
    (void)state;
    follow("keep; opening office W7; quietly meet office; quietly meet truck; opening truck W1\n"
           "quietly meet truck; rm share/*/office.*; put_back; rm -f office.book.*.sync\n"
           "answer 1 'log nothing here until that is found out' meet office; cp truck.book t.book\n"
           "sed -i 's/FILE/t.book/; s/REASON/\"the disk was lost\"/' said\n"
           "followed 'why is logged as' 'book merge t.book --adopt \"[^\"]*\"' office\n"
           "quietly M office sync folder:share --refill; any meet truck; mute office\n"
           "same office truck\n");
}

/* ... and the last of it is torn where it stands: nothing of it is taken over until that is whole.
 */
static void what_it_lacks_is_torn(void **state)
{
    (void)state;
    follow("keep; opening office W7; quietly meet office; opening office W8; quietly meet office\n"
           "put_back; f=$(ls share/office/office.8-8.*); cp $f whole; printf torn > $f\n"
           "answer 3 'under the name of this very device' meet office\n"
           "answer 3 'the file that names it is damaged' M office sync folder:share --adopt lost\n"
           "grep -q '^waits        office/7 to 7; entry office/8 has not arrived' said\n"
           "answer 3 'take it over first' M office person add --id z --name Z; cp whole $f\n"
           "answer 0 'came in      office/8' M office sync folder:share --adopt lost\n"
           "M office opening list J-7 | grep -q W8; mute office\n");
}

/* A try writes nothing, the note neither. */
static void a_try_notes_nothing(void **state)
{
    (void)state;
    follow(
        "keep; opening office W7; quietly meet office; put_back\n"
        "answer 3 'under the name of this very device' M office sync folder:share --dry-run\n"
        "answer 3 'under the name of this very device' M office sync folder:share --status\n"
        "mute office\n"
        "answer 0 'why would be logged as office/' M office sync folder:share --dry-run --adopt r\n"
        "answer 0 'why is logged as office/' M office sync folder:share --adopt r\n");
}

/* ... and gone on with: that book logs nothing more, and says so, with the way out. */
static void a_book_with_two_histories(void **state)
{
    (void)state;
    follow(
        "keep; opening office W7; quietly meet office; put_back; opening office W8\n"
        "quietly meet truck\n"
        "answer 3 'one device has two histories' meet office; M office person list >said 2>&1\n"
        "grep -q 'note: entry office/.* is another one than was logged on this device before: "
        "nothing can be logged' said; not grep -q 'came in' said\n"
        "sed -i 's/FILE/new.book/; s/NEW/new/' said\n"
        "followed '' 'book copy new.book --device new' truck\n"
        "answer 0 'W7' M new opening list J-7; opening new W8; any meet new\n"
        "quietly M truck sync folder:share --accept new; M truck opening list J-7 | grep -q W8\n");
}

/* ---- a file of somebody else, a device that is new ------------------------------------------- */

/* It is under our own name and is none of ours: once it is gone, nothing tells of it. */
static void a_stranger_of_our_name(void **state)
{
    (void)state;
    follow(
        "echo junk > j; n=$(sha256sum j | cut -c1-64); f=share/office/office.901-901.$n.entries\n"
        "cp j $f; answer 3 'damaged' meet office\n"
        "M office person list 2>&1 | grep -q 'went on to entry office/901'\n"
        "answer 3 'damaged' meet office; M office person list 2>&1 | grep -q office/901\n"
        "rm $f; quietly meet office; mute office\n");
}

/* Whose chain is not signed: each way that the message names. */
static void a_chain_that_is_not_signed(void **state)
{
    (void)state;
    follow("quietly M office book copy --no-key one.book --device one; quietly meet office\n"
           "opening one W4; quietly meet one; answer 1 'knows no device one' meet office\n"
           "answer 0 'came in      one/' M office sync folder:share --accept one\n"
           "opening one W5; quietly meet one; answer 1 'of one is not signed' meet office\n"
           "answer 0 'came in      one/' M office sync folder:share --accept one\n"
           "opening one W7; quietly M one book key; quietly meet one\n"
           "answer 1 'of one is not signed' meet office\n"
           "answer 0 'came in      one/' M office sync folder:share --accept one\n"
           "opening one W8; quietly meet one; answer 0 'came in      one/' meet office\n");
}

static void a_device_with_another_key(void **state)
{
    (void)state;
    follow("mv truck.book.truck.key lost; quietly M truck book key --reason 'the laptop was lost'\n"
           "quietly meet truck; answer 3 'gives device truck another key' meet office\n"
           "followed 'why is logged as' '--adopt \"[^\"]*\" --of [a-z,]*' office sync "
           "folder:share\n");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(it_is_withdrawn),
        cmocka_unit_test(others_went_on_from_it),
        cmocka_unit_test(it_is_adopted),
        cmocka_unit_test(another_withdraws_it),
        cmocka_unit_test(the_office_withdraws_it_too),
        cmocka_unit_test(what_the_truck_has),
        cmocka_unit_test(a_merge_takes_it_back),
        cmocka_unit_test(what_it_lacks_comes_in),
        cmocka_unit_test(a_book_that_has_it),
        cmocka_unit_test(what_it_lacks_is_torn),
        cmocka_unit_test(a_try_notes_nothing),
        cmocka_unit_test(a_book_with_two_histories),
        cmocka_unit_test(a_stranger_of_our_name),
        cmocka_unit_test(a_chain_that_is_not_signed),
        cmocka_unit_test(a_device_with_another_key),
    };
    return cmocka_run_group_tests(tests, script_start, NULL);
}
