/* Heads of the book that leave it and come back: as text, as a QR code that zbarimg reads,
 * in the foot of a paper; noted as witnesses, awaited, held against every book that is merged. */
#include "support/shell_kit.h"

#include <stdio.h>

#define HERE "export MISTFOLD_BOOK=o.book MISTFOLD_BY=rosa MISTFOLD_QUIET=1; m=$MISTFOLD; "
#define ON   HERE "t() { $m --book t.book --by teo \"$@\"; }; "

/* On either stream. */
static void tells(int status, const char *part)
{
    if (r.status != status || (strstr(r.out, part) == NULL && strstr(r.err, part) == NULL))
        fail_msg("wanted %d and \"%s\", got %d:\n%s%s", status, part, r.status, r.out, r.err);
}

static int set_up(void **state)
{
    (void)state;
    run_folder(folder);
    run(HERE
        "$m book new --no-key --device office && $m person add --id rosa --name Rosa && "
        "$m job open --id J --address A --building dwelling --owner-occupied yes --work repair "
        "--description d --start 2026-09-14 && $m --book t.book book new --no-key --device truck "
        "&& "
        "$m --book t.book person add --id teo --name Teo");
    return r.status;
}

static void a_head_is_told(void **state)
{
    (void)state;
    run(HERE "$m book head | sed 1d | cut -d' ' -f1,2");
    assert_string_equal(r.out, "office 2\n");
    run(HERE "[ \"$($m book head | sed 1d | cut -d' ' -f3)\" = $(sqlite3 o.book 'SELECT hash FROM "
             "entry WHERE seq = 2') ] && $m book head --json | python3 -c 'import json, sys; h = "
             "json.load(sys.stdin); print(len(h[\"head\"]), h[\"devices\"][0][\"seq\"])'");
    tells(0, "64 2");
    run(HERE "$m book head --qr h.png > log && zbarimg -q --raw h.png | head -1 > seen && "
             "$m book head | sed 1d | cmp - seen && $m book head --qr | head -3 | tail -1");
    tells(0, "    \xe2\x96\x88\xe2\x96\x80");
    run(HERE "$m book head x.png");
    tells(2, "a file goes with --qr");
    run(HERE "cp o.book there; $m book head --qr there");
    tells(3, "a book stands there");
}

static void each_form_is_read(void **state)
{
    static const char *const forms[] = {
        "$(head -1 heads)",
        "$(sed 1d heads)",
        "$(head -1 heads) of office/2",
        "\"Cabeza del libro $(head -1 heads) de office/2\"",
        "\"mistfold job=J paper=record head=$(head -1 heads) of=office/2\"",
        "\"$($m book head --by-hand | sed -n 2p)\" office/2",
        "\"$(cat heads)\""};
    (void)state;
    for (size_t i = 0; i < sizeof forms / sizeof forms[0]; i++) {
        char line[400];
        snprintf(line, sizeof line,
                 ON "cp o.book f.book; $m book head > heads; $m --book f.book book witness %s "
                    "--from truck && $m --book f.book person add --id x --name X && $m --book "
                    "f.book book check",
                 forms[i]);
        run(line);
        tells(0, "witnesses 1 noted, 1 held\n");
    }
    run(HERE "$m book witness nothing.txt --from truck");
    tells(3, "it holds no head");
    run(HERE "$m book head | tr 0-9 1-90 | $m book witness --from truck");
    tells(1, "nothing was noted");
    run(HERE "$m book witness office 3 $(printf %064d 0) --from truck"); /* of this very device */
    tells(1, "it was there when its hash was noted, and is missing");
}

static void what_is_ahead_is_awaited(void **state)
{
    (void)state;
    run(ON "cp o.book a.book; cp t.book u.book; o() { $m --book a.book \"$@\"; }; "
           "t book head --qr t.png > log; o book witness \"$(zbarimg -q --raw t.png)\" --from "
           "truck && o book check");
    tells(0, "of 1 an entry is not here yet");
    tells(0, "are not in this book yet");
    run(ON "$m --book a.book book merge t.book && $m --book a.book book check");
    tells(0, "witnesses 1 noted, 1 held\n");
    /* the same entry, logged anew beside it: another time, another hash */
    run(ON
        "cp o.book a.book; o() { $m --book a.book \"$@\"; }; o book witness $(t book head | tail "
        "-1) --from truck > log; rm u.book; sleep 1; $m --book u.book book new --no-key --device "
        "truck && "
        "$m --book u.book --by teo person add --id teo --name Teo > log; o book merge u.book");
    tells(3, "witness office/3 of truck, entry truck/1");
    tells(3, "the chain was made anew");
    run(ON "o() { $m --book a.book \"$@\"; }; o entry withdraw office/3 --reason 'misheard' && "
           "o book merge u.book && o book check");
    tells(0, "; 1 more withdrawn");
}

static void the_foot_names_it(void **state)
{
    (void)state;
    run(HERE "$m paper summary J --out s.pdf && $m paper record J --lang es --out r.pdf && "
             "pdftotext -layout s.pdf - | grep -c \"Head of the book $($m book head | head -1) of "
             "office/2\"");
    assert_int_equal(r.status, 0);
    run(HERE "$m paper blank sign --out b.pdf && pdftotext b.pdf - | grep -c 'Head of the book'");
    tells(1, "0"); /* of no job: it comes from no book */
}

/* One digit that was mistyped: of a book of several devices nobody can tell that it is wrong, only
 * that this book does not know it. */
static void a_lone_head_is_known_or_not(void **state)
{
    (void)state;
    run(ON "cp o.book a.book; m=\"$m --book a.book\"; $m book merge t.book > log; $m book witness "
           "$($m book head | head -1) --from truck");
    tells(0, "This book has, or had, what it names.\n");
    run(HERE "$m --book a.book book witness $($m --book a.book book head | head -1 | tr 0-9a-f "
             "1-9a-f0) --from rosa");
    tells(0, "This book knows no such head");
    run(HERE "$m --book a.book book check");
    tells(0, "witnesses 2 noted, 1 held; of 1 an entry is not here yet, or this book knows no such "
             "head\n");
    run(HERE "$m --book a.book --json book witness $(printf '%064d' 0) --from rosa");
    tells(0, "\"known\": false");
}

/* A list in which no head is was never compared: that is no yes. */
static void a_list_without_a_head(void **state)
{
    (void)state;
    run(HERE ": > empty.txt; $m book check --against empty.txt");
    tells(3, "empty.txt: no head is in it");
    assert_string_equal(r.out, "");
    run(HERE "printf '# noted on Friday\n\n' > remarks.txt; $m book head > heads.txt; "
             "$m book check --against heads.txt remarks.txt");
    tells(3, "remarks.txt: no head is in it");
    run(HERE "printf '\\0' | cat heads.txt - > nul.txt; echo nonsense >> nul.txt; $m book check "
             "--against nul.txt");
    tells(3, "nul.txt: this is neither a list of heads nor a paper");
    run(HERE "$m book witness nul.txt --from truck");
    tells(3, "nul.txt: this is neither a list of heads nor a paper");
    run(HERE "printf 'office 1\n' > bad.txt; $m book check --against heads.txt bad.txt");
    tells(3, "bad.txt, line 1 of the heads: it holds no head");
}

static void each_file_is_told(void **state)
{
    (void)state;
    run(HERE "$m book head > heads.txt; printf '%064d\n' 0 | cat heads.txt - > more.txt; "
             "$m book check --against heads.txt");
    tells(0, "\nholds       heads.txt: each of its 2 heads\n");
    run(HERE "$m book check --against heads.txt more.txt");
    tells(1, "\nholds       heads.txt: each of its 2 heads\n");
    tells(1,
          "\ncontradicts more.txt: 1 of its 3 heads: head: 0000000000000000... is not a head that");
    run(HERE "$m --json book check --against heads.txt more.txt | python3 -c 'import json, sys; "
             "print([(n[\"file\"], n[\"is\"], n[\"heads\"], n[\"held\"]) for n in "
             "json.load(sys.stdin)[\"noted\"]])'");
    tells(0, "[('heads.txt', 'holds', 2, 2), ('more.txt', 'contradicts', 3, 2)]");
}

/* What could not be compared is no yes, and no contradiction. */
static void papers_that_say_little(void **state)
{
    (void)state;
    run(HERE "cp o.book p.book; m=\"$m --book p.book\"; echo word > pass; $m key new k.p12 --name "
             "Rosa --passphrase-fd 3 3< pass > log && $m paper record J --out u.pdf && $m paper "
             "summary J --out s.pdf && $m book check --against u.pdf");
    tells(0, "unsealed    u.pdf: the data agrees, the printed words may be anybody's; job J");
    run(HERE "m=\"$m --book p.book\"; $m book check --against u.pdf s.pdf");
    tells(1, "unsealed    u.pdf: ");
    tells(1, "no record   s.pdf: ");
    tells(1, "1 of 2 papers holds no record: not compared");
    run(HERE "m=\"$m --book p.book\"; $m paper record J --out k.pdf --key k.p12 --passphrase-fd 3 "
             "3< pass > log; $m book check --against u.pdf k.pdf");
    tells(1, "unsealed    u.pdf: it has no seal, and the book logged 1 of this job: ");
    tells(1, "agrees      k.pdf: ");
    tells(1, "1 of 2 papers has no seal where the book logged one");
    run(HERE "m=\"$m --book p.book\"; cp k.pdf more.pdf; printf x >> more.pdf; $m book check "
             "--against more.pdf k.pdf");
    tells(1, "not good    more.pdf: 1 bytes at the end are under no seal\n");
    tells(1, "agrees      k.pdf: ");
    tells(1, "1 of 2 papers is not as sealed: not compared");
    run(HERE "m=\"$m --book p.book\"; cp more.pdf most.pdf; $m book check --against more.pdf "
             "most.pdf k.pdf");
    tells(1, "2 of 3 papers are not as sealed: not compared");
}

/* A truck that is ahead contradicts nothing; what a book lacks of its own does. */
static void a_truck_that_is_ahead(void **state)
{
    (void)state;
    run(ON "cp o.book a.book; $m --book a.book book merge t.book > log; cp t.book ahead.book; $m "
           "--book ahead.book --by teo person add --id p9 --name Ida > log && $m --book ahead.book "
           "book head > ahead.txt; $m --book a.book book check --against ahead.txt");
    tells(1,
          "waits       ahead.txt: 2 of its 2 heads: entry truck/2: it is not here: it has not come "
          "in yet");
    tells(1, "what was noted and is not here: 2 ");
    assert_null(strstr(r.out, "contradicts"));
    assert_null(strstr(r.out, "altered"));
    run(HERE "$m --book a.book --json book check --against ahead.txt | python3 -c 'import json, "
             "sys; print(json.load(sys.stdin)[\"noted\"][0][\"is\"])'");
    tells(0, "waits\n");
    run(HERE "$m --book a.book book merge ahead.book > log; $m --book a.book book check --against "
             "ahead.txt");
    tells(0, "holds       ahead.txt: ");
    run(HERE "printf 'office 900 %064d\n' 0 > own.txt; $m --book a.book book check --against "
             "own.txt");
    tells(1, "contradicts own.txt: 1 of its 1 heads: entry office/900: it was there");
}

/* What cannot be read stops none of the others, and is no yes. */
static void one_file_among_many(void **state)
{
    (void)state;
    run(HERE "cp o.book m.book; m=\"$m --book m.book\"; $m book head > good.txt; (printf "
             "'\\357\\273\\277'; cat good.txt) > bom.txt; echo word > bad.txt; mkdir -p folder; $m "
             "paper record J --out whole.pdf > log; head -c 3000 whole.pdf > torn.pdf; $m book "
             "check --against bad.txt folder torn.pdf bom.txt good.txt whole.pdf");
    tells(3, "unreadable  bad.txt: it holds no head\n");
    tells(3, "unreadable  folder: ");
    tells(3, "unreadable  torn.pdf: ");
    tells(3, "holds       bom.txt: each of its 2 heads\n");
    tells(3, "holds       good.txt: each of its 2 heads\n");
    tells(3, "unsealed    whole.pdf: ");
    tells(3, "mistfold: bad.txt, line 1 of the heads: it holds no head");
    assert_null(strstr(r.out, "contradicts"));
    run(HERE "$m --book m.book book check --against bom.txt");
    tells(0, "holds       bom.txt: ");
    run(HERE "$m --book m.book book check --against good.txt torn.pdf --json");
    tells(3, "\"is\": \"unreadable\"");
    run(HERE "printf 'office 1 %064d\n' 0 > wrong.txt; $m --book m.book book check --against "
             "folder wrong.txt");
    tells(1, "contradicts wrong.txt: ");
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(a_head_is_told),
                                       cmocka_unit_test(a_truck_that_is_ahead),
                                       cmocka_unit_test(one_file_among_many),
                                       cmocka_unit_test(each_form_is_read),
                                       cmocka_unit_test(what_is_ahead_is_awaited),
                                       cmocka_unit_test(the_foot_names_it),
                                       cmocka_unit_test(a_lone_head_is_known_or_not),
                                       cmocka_unit_test(a_list_without_a_head),
                                       cmocka_unit_test(each_file_is_told),
                                       cmocka_unit_test(papers_that_say_little)};
    return cmocka_run_group_tests(tests, set_up, shell_stop);
}
