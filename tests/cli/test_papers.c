/* Papers by the program, on the book of the invented sample job: several seals, what
 * was logged since, the data of the record, blank papers, all read with poppler. */
#include "support/shell_kit.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define M    "\"$MISTFOLD\" --book demo.book --by rosa "
#define PASS " --passphrase-fd 3 3<" MF_SAMPLE "/passphrase.txt"

static int set_up(void **state)
{
    (void)state;
    run_folder(folder);
    run("DEMO_NO_KEY=1 sh " MF_SAMPLE
        "/demo.sh out > log 2>&1 && cp out/demo.book out/job-record.pdf "
        "out/rosa.p12 .");
    if (r.status != 0)
        fprintf(stderr, "the demo failed: %s\n", r.err);
    return r.status;
}

static void renovator_firm_owner(void **state)
{
    (void)state;
    run("cp job-record.pdf three.pdf; " M "key new firm.p12 --name 'Firm (invented)' "
        "--capacity 'certified firm'" PASS);
    assert_int_equal(r.status, 0);
    run(M "paper seal three.pdf --key firm.p12 --as firm" PASS);
    answers(0, "sealed three.pdf by Firm (invented)");
    run(M "paper seal three.pdf --key rosa.p12 --as owner" PASS);
    answers(0, "sealed three.pdf by Rosa Muestra");
    run("pdfsig three.pdf | grep -c 'Signature is Valid'");
    assert_string_equal(r.out, "3\n");
    run("\"$MISTFOLD\" paper check three.pdf"); /* without the book */
    answers(0, "seal 3");
    answers(0, "certified firm");
    /* The words of the firm's seal are outlines: read them as an eye would. */
    run("n=$(pdfinfo three.pdf | awk '/^Pages/ { print $2 }'); pdftoppm -r 200 -gray -f $n -l $n "
        "three.pdf seals && tesseract seals-*.pgm - 2> ocr.err | grep -c 'Firm (inv'");
    assert_string_equal(r.out, "1\n");
}

/* An authority that anybody makes takes the caution about a self-made certificate away;
 * another stands in its place (openssl makes both; RFC 5280, 6: no path is checked). */
static void an_authority_of_ones_own(void **state)
{
    (void)state;
    run("new='-newkey ec -pkeyopt ec_paramgen_curve:prime256v1 -nodes -subj'; (openssl req "
        "-x509 $new '/CN=Invented Authority' -keyout ca.key -out ca.pem; openssl req $new "
        "'/CN=Rosa Muestra' -keyout r.key -out r.csr; openssl x509 -req -in r.csr -CA ca.pem "
        "-CAkey ca.key -set_serial 7 -days 9 -out r.pem; openssl pkcs12 -export -inkey r.key "
        "-in r.pem -passout file:" MF_SAMPLE "/passphrase.txt -out r.p12) 2> openssl.err; "
        "cp job-record.pdf issued.pdf; " M "paper seal issued.pdf --key r.p12" PASS);
    assert_int_equal(r.status, 0);
    run("\"$MISTFOLD\" paper check issued.pdf | sed -n '/seal 2/,$p'");
    answers(0, "Somebody issued the certificate; who, was not checked here");
    answers(0, "Compare the fingerprint");
}

/* An update without a key that puts a catalog without the seal in place (constructed;
 * ISO 32000-1, 7.5.6): the line of the seal says what became of it. */
static void the_seal_is_taken_off(void **state)
{
    (void)state;
    run("cp job-record.pdf off.pdf; at=$(wc -c < off.pdf); prev=$(tail -n 2 off.pdf | head -n "
        "1); printf '1 0 obj\n<</Type/Catalog/Pages 2 0 R>>\nendobj\n' >> off.pdf; "
        "table=$(wc -c < off.pdf); printf 'xref\n1 1\n%010d 00000 n\r\ntrailer\n<</Size "
        "9999/Root 1 0 R/Prev %d>>\nstartxref\n%d\n%%%%EOF\n' $at $prev $table >> off.pdf; "
        "\"$MISTFOLD\" paper check off.pdf");
    answers(1, "GOOD, unaltered since it was sealed\nafter it     TAKEN OFF");
}

/* A signature without /M (ISO 32000-1, 12.8.1 has it optional) names no time, and none is
 * made up for it. That the name is gone alters the paper too. */
static void a_seal_without_a_time(void **state)
{
    (void)state;
    run("LC_ALL=C sed 's|/M (D:|/N (D:|' job-record.pdf > timeless.pdf; \"$MISTFOLD\" paper "
        "check timeless.pdf");
    answers(1, "signed at    no time given\n");
    assert_null(strstr(r.out, "1970"));
}

/* The owner draws, the renovator witnesses: the picture is in the paper, the seals
 * stand, the book has logged them and knows them again. */
static void the_owner_draws(void **state)
{
    (void)state;
    run("cp job-record.pdf drawn.pdf; " M "paper seal drawn.pdf --key rosa.p12 --as owner "
        "--drawn " MF_SAMPLE "/owner-hand.png --party nobody" PASS);
    assert_int_equal(r.status, 3);
    assert_non_null(strstr(r.err, "the record names no party \"nobody\""));
    run(M "paper seal drawn.pdf --key rosa.p12 --as owner --drawn " MF_SAMPLE
          "/owner-hand.png --party owner" PASS);
    answers(0, "logged office/");
    run("pdfsig drawn.pdf | grep -c 'Signature is Valid'; qpdf --check drawn.pdf");
    answers(0, "2\n");
    /* poppler: dark pixels of the drawn line in the owner's place on the last page, below
     * the words "Received by the owner"; none before */
    run("n=$(pdfinfo drawn.pdf | awk '/^Pages/ { print $2 }'); y=$(pdftotext -bbox -f $n -l $n "
        "job-record.pdf - | awk -F'\"' '/>Received</ { print int($8) + 14 }'); "
        "for f in job-record drawn; do pdftoppm -r 72 -gray -f $n -l $n -x 60 -y $y -W 160 "
        "-H 40 $f.pdf | tail -c 6400 | od -An -v -tu1 -w1 | awk '$1 < 100 { n++ } END { print "
        "(n > 60) }'; done");
    assert_string_equal(r.out, "0\n1\n");
    /* below the drawing, whose hand it is and the day: letters, drawn as outlines */
    run("n=$(pdfinfo drawn.pdf | awk '/^Pages/ { print $2 }'); y=$(pdftotext -bbox -f $n -l $n "
        "job-record.pdf - | awk -F'\"' '/>Received</ { print int($8) + 64 }'); "
        "for f in job-record drawn; do pdftoppm -r 72 -gray -f $n -l $n -x 52 -y $y -W 120 "
        "-H 6 $f.pdf | tail -c 720 | od -An -v -tu1 -w1 | awk '$1 < 128 { n++ } END { print "
        "(n > 40) }'; done");
    assert_string_equal(r.out, "0\n1\n");
    run(M "paper check drawn.pdf --compare");
    answers(0, "owner, 20");
    answers(0, "just the entries of the record");
    run("sqlite3 demo.book \"SELECT capacity, sha256 FROM sealed ORDER BY seq DESC LIMIT 1\";"
        " sha256sum < drawn.pdf");
    assert_int_equal(r.status, 0);
    assert_memory_equal(r.out, "owner|", 6);
    assert_memory_equal(r.out + 6, strchr(r.out, '\n') + 1, 64);
}

/* Refused, and the paper stays as it was. */
static void drawings_that_cannot_be(void **state)
{
    (void)state;
    run("cp job-record.pdf d.pdf; " M "paper seal d.pdf --key rosa.p12 --as firm --drawn " MF_SAMPLE
        "/owner-hand.png" PASS);
    assert_int_equal(r.status, 2);
    run("head -c 700 " MF_SAMPLE "/owner-hand.png > torn.png; " M
        "paper seal d.pdf --key rosa.p12 --as owner --drawn torn.png" PASS);
    assert_int_equal(r.status, 3);
    assert_non_null(strstr(r.err, "torn.png: the PNG file is damaged"));
    run("cp out/sign-es.pdf sign.pdf; " M
        "paper seal sign.pdf --key rosa.p12 --as owner --drawn " MF_SAMPLE "/owner-hand.png" PASS);
    assert_int_equal(r.status, 2);
    run("cmp d.pdf job-record.pdf && cmp sign.pdf out/sign-es.pdf");
    assert_int_equal(r.status, 0);
}

/* Without a book, or in a book of other jobs, sealing works and says that it was not
 * logged; the book of the job does not know that seal, and takes it for good once somebody
 * said that its key may seal for the firm. */
static void sealed_elsewhere(void **state)
{
    (void)state;
    run("cp job-record.pdf away.pdf; \"$MISTFOLD\" --book none.book paper seal away.pdf --key "
        "rosa.p12 --as firm" PASS);
    answers(0, "not logged");
    run(M "paper check away.pdf --compare");
    answers(1, "seal 1       logged as office/");
    answers(1, "seal 2       NOT GOOD HERE: is not logged in this book; its key is known: office/");
    run("cp demo.book trust.book; \"$MISTFOLD\" --book trust.book --by rosa key "
        "trust --fingerprint $(\"$MISTFOLD\" key show rosa.p12" PASS
        " | sed -n 's/^fingerprint *//p') --person rosa --as renovator,firm && "
        "\"$MISTFOLD\" --book trust.book paper check away.pdf --compare");
    answers(0, "seal 2       is not logged in this book; its key is known: office/");
}

/* The book's own data under other people's words: whoever has a record can take its data
 * out, print what they like around it and seal that. The book logged other seals. */
static void sealed_by_nobody_we_know(void **state)
{
    (void)state;
    run(M "paper record J-1926 --out new.pdf > wrote && \"$MISTFOLD\" --book none.book paper "
          "seal new.pdf --key rosa.p12" PASS " > sealed; " M "paper check new.pdf --compare");
    answers(1, "seal 1       is not logged in this book; its key is known");
    assert_non_null(strstr(r.err, "none of its seals is among the "));
    run(M "--json paper check new.pdf --compare > n.json; python3 -c \"import json; d = "
          "json.load(open('n.json')); print(d['good'], d['seals'], d['seal'][0]['state'], "
          "d['seal'][0]['entry'], d['compared']['seals_logged'], "
          "d['compared']['not_in_book'])\"");
    assert_string_equal(r.out, "True 1 good None 0 0\n");
    run(M "--json paper check job-record.pdf --compare | python3 -c \"import json, sys; d = "
          "json.load(sys.stdin); print(d['seal'][0]['entry'][:7], "
          "d['seal'][0]['self_made'], d['compared']['seals_logged'])\"");
    assert_string_equal(r.out, "office/ True 1\n");
}

/* What stood on the paper before a further seal is there to be looked at: the bytes. */
static void as_it_was_under_a_seal(void **state)
{
    (void)state;
    run("cp job-record.pdf two.pdf; \"$MISTFOLD\" --book none.book paper seal two.pdf --key "
        "rosa.p12 --as firm" PASS " > sealed; " M
        "paper check two.pdf --under 1 --out one.pdf && cmp one.pdf job-record.pdf");
    answers(0, "wrote one.pdf");
    run(M "paper check two.pdf --under 3 --out no.pdf");
    assert_int_equal(r.status, 3);
    run(M "paper check two.pdf --under 1 --out ./two.pdf");
    assert_int_equal(r.status, 2);
    run(M "paper check two.pdf --out no.pdf");
    assert_int_equal(r.status, 2);
    run("sed 's/Rosa Muestra/Rosa Muestro/' two.pdf > torn.pdf; " M
        "paper check torn.pdf --under 1 --out no.pdf");
    answers(1, "ALTERED");
    run("test ! -e no.pdf");
    assert_int_equal(r.status, 0);
}

static void no_seal_over_an_altered_paper(void **state)
{
    (void)state;
    run("sed 's/Rosa Muestra/Rosa Muestro/' job-record.pdf > altered.pdf; cp altered.pdf "
        "before.pdf; " M "paper seal altered.pdf --key rosa.p12" PASS);
    assert_int_not_equal(r.status, 0);
    run("cmp altered.pdf before.pdf");
    assert_int_equal(r.status, 0);
    run(M "paper seal job-record.pdf --key rosa.p12 --as mayor" PASS);
    assert_int_equal(r.status, 3);
}

static void tells_what_was_logged_since(void **state)
{
    (void)state;
    run(M "paper check job-record.pdf --compare");
    answers(0, "just the entries of the record");
    run("cp demo.book since.book; \"$MISTFOLD\" --book since.book --by rosa handover add "
        "J-1926 --party owner --what summary --how mail --on 2026-09-22 && \"$MISTFOLD\" "
        "--book since.book paper check job-record.pdf --compare");
    answers(0, "added since");
    answers(0, "handover");
    run("id=$(\"$MISTFOLD\" --book demo.book entry list J-1926 | awk '$4 == \"handover\" "
        "{ print $1; exit }') && \"$MISTFOLD\" --book since.book --by rosa entry withdraw "
        "\"$id\" --reason 'wrong house' && \"$MISTFOLD\" --book since.book paper check "
        "job-record.pdf --compare");
    answers(1, "withdrawn    office/");
    answers(1, ", handover");
}

/* pdfdetach gives the same bytes as our own reading; another program reads them. */
static void the_data_comes_out(void **state)
{
    (void)state;
    run(M "paper data job-record.pdf > ours.json && pdfdetach -save 1 -o theirs.json "
          "job-record.pdf && printf '%s\\n' \"$(cat theirs.json)\" | cmp - ours.json");
    assert_int_equal(r.status, 0);
    run("python3 -c \"import json; d = json.load(open('ours.json')); print(d['format'], "
        "d['job'], len(d['entries']['reading']))\"");
    assert_string_equal(r.out, "mistfold-record J-1926 147\n");
    run(M "paper data out/sign-es.pdf");
    assert_int_equal(r.status, 1);
}

/* One file a job, each with its data; memory does not grow with their number. */
static void every_record(void **state)
{
    (void)state;
    run("cp demo.book all.book; for i in 1 2 3 4 5 6 7 8 9; do \"$MISTFOLD\" --book all.book "
        "--by rosa job open --id J-$i --address \"$i Sample Lane\" --building dwelling "
        "--owner-occupied no --work window-replacement --description x --start 2026-09-14 "
        "|| exit 1; done > opened; mkdir all; \"$MISTFOLD\" --book all.book paper records "
        "all");
    answers(0, "wrote 10 records");
    run("ls all | wc -l; \"$MISTFOLD\" paper data all/J-7.pdf");
    answers(0, "10\n");
    answers(0, "7 Sample Lane");
    run(M "paper records nowhere");
    assert_int_equal(r.status, 3);
    assert_string_equal(r.err, "mistfold: nowhere: cannot write into it (there is no such file or "
                               "folder); check the name and the folder\n");
    run("mkdir -p some/J-3.pdf; \"$MISTFOLD\" --book all.book paper records some"); /* no paper */
    answers(4, "wrote 9 records");
    assert_non_null(strstr(r.err, "mistfold: J-3, some/J-3.pdf: cannot write it"));
    run("ls some | wc -l; test -s some/J-9.pdf");
    answers(0, "10\n");
}

/* Nothing that was typed keeps a record from being printed: neither an emoji nor what nobody
 * sees; the entries inside hold it as it was typed. */
static void any_character_prints(void **state)
{
    (void)state;
    run("cp demo.book odd.book; \"$MISTFOLD\" --book odd.book --by rosa practice add J-1926 --area "
        "A1 "
        "--method hand --person teo --on 2026-09-15 --note \"$(printf 'ok\\342\\200\\213 "
        "\\360\\237\\221\\215')\" >/dev/null && \"$MISTFOLD\" --book odd.book paper record J-1926 "
        "--out odd.pdf && pdftotext -layout odd.pdf - | tr -s ' ' | grep -o 'ok\\[U.*D]\\|U+ with "
        "a "
        "number in brackets' | sort | uniq -c | sort -n | sed 's/^ *[0-9]* //'");
    answers(0, "ok[U+200B] [U+1F44D]\nU+ with a number in brackets\n");
    run("\"$MISTFOLD\" paper data odd.pdf | grep -c \"$(printf 'ok\\342\\200\\213 "
        "\\360\\237\\221\\215')\"");
    answers(0, "1\n");
}

/* Whatever is to be written where a sealed paper stands is refused in one line before
 * anything else is asked or done; a further seal keeps every byte of it. Constructed. */
static void no_sealed_paper_is_written_over(void **state)
{
    static const char *const commands[] = {
        "paper record J-1926 --out kept.pdf",
        "paper record J-1926 --out kept.pdf --key rosa.p12 --passphrase-fd 9",
        "paper records .",
        "paper summary J-1926 --out kept.pdf",
        "paper blank sign --out kept.pdf",
        "paper blank containment --out kept.pdf",
        ("paper seal out/sign-es.pdf --key rosa.p12 --out kept.pdf" PASS),
        "export J-1926 --format csv --out kept.pdf",
    };
    char line[700];
    (void)state;
    run("cp job-record.pdf kept.pdf; cp kept.pdf J-1926.pdf; cp kept.pdf two.pdf; "
        "\"$MISTFOLD\" --book none.book paper seal two.pdf --key firm.p12" PASS);
    assert_int_equal(r.status, 0);
    for (size_t i = 0; i < sizeof commands / sizeof commands[0]; i++) {
        snprintf(line, sizeof line, "cp demo.book o.book; \"$MISTFOLD\" --book o.book --by rosa %s",
                 commands[i]);
        run(line);
        if (r.status != 3 || strstr(r.err, "a sealed paper stands there") == NULL ||
            strchr(r.err, '\n') != r.err + strlen(r.err) - 1)
            fail_msg("%s: %d %s", commands[i], r.status, r.err);
        run("cmp kept.pdf job-record.pdf && cmp J-1926.pdf job-record.pdf");
        assert_int_equal(r.status, 0);
    }
    run(/* a changed one is evidence too; the same and more is no loss */
        "sed 's/Rosa Muestra/Rosa Muestro/' kept.pdf > torn.pdf; " M
        "paper record J-1926 --out torn.pdf; " M "paper seal kept.pdf --key firm.p12" PASS "; " M
        "paper check out/job-record-received.pdf --under 2 --out two.pdf; "
        "cmp -n $(wc -c < job-record.pdf) kept.pdf job-record.pdf && " M
        "paper check two.pdf --under 1 --out J-1926.pdf && echo good");
    answers(0, "good\n");
    assert_non_null(strstr(r.err, "torn.pdf: a sealed paper stands there"));
    assert_non_null(strstr(r.err, "two.pdf: a sealed paper stands there"));
    run(/* without a seal it is drawn anew, as before */
        M "paper record J-1926 --out plain.pdf && " M "paper record J-1926 --out plain.pdf");
    assert_int_equal(r.status, 0);
}

static void blank_papers(void **state)
{
    (void)state;
    run(M "paper blank sign --lang es --out s.pdf && pdftotext s.pdf - | grep -c 'NO ENTRE'");
    answers(0, "1\n");
    run(M "paper blank nothing --out n.pdf");
    assert_int_equal(r.status, 3);
    assert_non_null(strstr(r.err, "verification"));
    run(M "paper blank verification --job J-1926 --area A9 --out n.pdf");
    assert_int_equal(r.status, 3);
    run("test ! -e n.pdf");
    assert_int_equal(r.status, 0);
}

/* 745.84(a)(1)(i), (a)(2)(i): the owner signs, and an adult occupant: a sheet for each of the
 * job. Parents are told by a sign, 745.84(c)(2)(ii), and sign nothing. The names are constructed.
 */
static void a_receipt_for_each_who_signs(void **state)
{
    (void)state;
    run("cp demo.book p.book; export MISTFOLD_BOOK=p.book MISTFOLD_BY=rosa m=\"$MISTFOLD\"; "
        "$m party add J-1926 --id upstairs --role occupant --name 'Ada Beispiel' --unit 2B; "
        "$m party add J-1926 --id all --role parents; "
        "$m paper blank acknowledgement --job J-1926 --out p.pdf; for p in 1 2 3; do "
        "pdftotext -f $p -l $p -layout p.pdf - | grep -E '^Ida|^Lud|^Ada|Exampleton, 2B|page'; "
        "done");
    answers(0, "Ida Sample");
    answers(0, "owner\n");
    answers(0, "page 1 of 3\nLudv");
    answers(0, "page 2 of 3\nAda Beispiel");
    answers(0, "12 Sample Lane, Exampleton, 2B");
    run(M "paper blank acknowledgement --out p.pdf; pdfinfo p.pdf | grep Pages");
    answers(0, "Pages:           1\n");
}

/* ISO 216: A4 is 210 x 297 mm, 595.276 x 841.89 points of 1/72 inch; Letter is 8.5 x 11
 * inches, 612 x 792. pdfinfo of poppler reads the size from each page. */
static void papers_are_of_the_size_asked_for(void **state)
{
    static const char *const papers[] = {
        "paper record J-1926 --out z.pdf", "paper summary J-1926 --out z.pdf",
        "paper blank sign --out z.pdf", "paper blank containment --out z.pdf"};
    char line[512];
    (void)state;
    for (size_t i = 0; i < sizeof papers / sizeof papers[0]; i++) {
        snprintf(line, sizeof line,
                 M "%s >z.txt && pdfinfo -l 99 z.pdf | grep ' pts ' | sed 's/^[^:]*: *//'"
                   " | sort | uniq",
                 papers[i]);
        run(line);
        assert_string_equal(r.out, "612 x 792 pts (letter)\n");
        snprintf(line, sizeof line,
                 "export MISTFOLD_PAGE=a4; " M "%s >z.txt && pdfinfo -l 99 z.pdf | grep ' pts ' | "
                 "sed 's/^[^:]*: *//' | sort | uniq",
                 papers[i]);
        run(line);
        assert_string_equal(r.out, "595.276 x 841.89 pts (A4)\n");
    }
    run("export MISTFOLD_PAGE=a5; " M "paper blank sign --out y.pdf");
    assert_int_equal(r.status, 3);
    assert_non_null(strstr(r.err, "MISTFOLD_PAGE: a5 is not a paper size"));
    run(M "--page A4 paper blank sign --out y.pdf");
    assert_non_null(strstr(r.err, "--page: A4 is not a paper size"));
    run(M "--page a4 paper blank sign --out y.pdf && pdfinfo y.pdf");
    answers(0, "(A4)");
}

/* A step of the firm is shown and ticked; no gate and no audit asks for it. Constructed. */
static void a_step_of_the_firm(void **state)
{
    static const char add[] =
        "cp demo.book own.book; export MISTFOLD_BOOK=own.book MISTFOLD_BY=rosa m=\"$MISTFOLD\"; "
        "$m gate J-1926 demo --all --quiet > before; $m audit J-1926 > audit.before; "
        "$m step add --id shoe-covers --phase contain --side both --text 'Shoe covers by the door' "
        "  --text-es 'Cubrezapatos en la puerta' --from 2026-09-01 --quiet; "
        "$m step add --id later --phase contain --side both --text 'Not yet asked' "
        "  --from 2999-01-01 --quiet; "
        "$m step add --id gone --phase contain --side both --text 'No longer asked' "
        "  --from 2020-01-01 --until 2020-12-31 --quiet; "
        "$m gate J-1926 demo --all --quiet | cmp - before && $m audit J-1926 | cmp - audit.before "
        "&& echo same; ";
    char line[1600];
    (void)state;
    snprintf(line, sizeof line,
             "%s$m containment list J-1926 --area A1; $m --lang es containment list J-1926", add);
    run(line);
    answers(0, "\nsame\n");
    answers(0, "[ ] shoe-covers           open  firm's own step\n    Shoe covers by the door");
    answers(0, "    Cubrezapatos en la puerta");
    assert_null(strstr(r.out, "Not yet asked"));
    run("export MISTFOLD_BOOK=own.book MISTFOLD_BY=rosa m=\"$MISTFOLD\"; "
        "$m containment tick J-1926 --area A1 --step shoe-covers --state done --person rosa "
        "--on 2026-09-14; $m gate J-1926 demo --all --quiet | cmp - before && echo same; "
        "$m paper record J-1926 --out o.pdf; pdftotext -layout o.pdf - | grep 'Shoe covers'; "
        "$m paper blank containment --area A1 --job J-1926 --out o.pdf; "
        "pdftotext -layout o.pdf - | grep -c \"Shoe covers.*firm's own\"; $m book check");
    answers(0, "\nsame\n");
    answers(0, "done");
    answers(0, "\n1\n");
    answers(0, "faults    0");
    /* A list for any job: those of today, from the book; without a book the rule's alone. */
    run("m=\"$MISTFOLD\"; for book in own.book none.book; do $m --book $book paper blank "
        "containment --out o.pdf; pdftotext -layout o.pdf - > $book.txt; done; "
        "grep -c 'Shoe covers' own.book.txt; grep -c 'Shoe covers' none.book.txt; "
        "grep -c 'Not yet asked' own.book.txt; grep -c 'No longer' own.book.txt; "
        "$m --complete --book own.book containment tick J-1926 --step sh");
    answers(0, "\n2\n0\n0\n0\nshoe-covers\n");
}

/* Of a job a list for each of its work areas, or for the one that is named. */
static void a_list_for_each_area(void **state)
{
    (void)state;
    run("for a in '' '--area A2'; do " M "paper blank containment --job J-1926 $a --out l.pdf; "
        "pdftotext -layout l.pdf - | grep -E '^Containment list|^A[12], '; echo; done");
    answers(0, "Containment list, interior");
    answers(0, "A1, ");
    answers(0, "A2, ");
    assert_non_null(strstr(r.out, "\n\n"));
    assert_null(strstr(strstr(r.out, "\n\n"), "interior"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(renovator_firm_owner),
        cmocka_unit_test(an_authority_of_ones_own),
        cmocka_unit_test(the_seal_is_taken_off),
        cmocka_unit_test(a_seal_without_a_time),
        cmocka_unit_test(the_owner_draws),
        cmocka_unit_test(drawings_that_cannot_be),
        cmocka_unit_test(sealed_elsewhere),
        cmocka_unit_test(sealed_by_nobody_we_know),
        cmocka_unit_test(as_it_was_under_a_seal),
        cmocka_unit_test(no_seal_over_an_altered_paper),
        cmocka_unit_test(tells_what_was_logged_since),
        cmocka_unit_test(the_data_comes_out),
        cmocka_unit_test(every_record),
        cmocka_unit_test(any_character_prints),
        cmocka_unit_test(no_sealed_paper_is_written_over),
        cmocka_unit_test(blank_papers),
        cmocka_unit_test(a_receipt_for_each_who_signs),
        cmocka_unit_test(papers_are_of_the_size_asked_for),
        cmocka_unit_test(a_step_of_the_firm),
        cmocka_unit_test(a_list_for_each_area),
    };
    return cmocka_run_group_tests(tests, set_up, shell_stop);
}
