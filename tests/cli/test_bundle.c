/* The inspector's bundle of the sample job, checked by its own script, that is with
 * sha256sum, openssl and pdfsig, and by these directly. */
#include "support/cmocka_all.h"
#include "support/folder_kit.h"

#include <stdio.h>
#include <string.h>

static void sh(run_result *r, const char *script)
{
    static char whole[4000];
    snprintf(whole, sizeof whole, "m=\"$MISTFOLD --book out/demo.book --by rosa\"\njob=J-1926\n%s",
             script);
    run_shell(r, folder, whole);
}

static void sh_good(run_result *r, const char *script)
{
    sh(r, script);
    if (r->status != 0)
        print_error("%s%s", r->out, r->err);
    assert_int_equal(r->status, 0);
}

static int run_demo(void **state)
{
    run_result r;
    (void)state;
    run_folder(folder);
    run_shell(&r, folder, "DEMO_NO_KEY=1 sh " MF_SAMPLE "/demo.sh out > demo.log 2>&1");
    if (r.status != 0)
        return 1;
    sh(&r, "set -e; $m attach add $job out/containment-interior.pdf --about office/30\n"
           "$m job bundle $job --out bundle --record out/job-record.pdf");
    return r.status;
}

static void verifies_with_stock_tools(void **state)
{
    run_result r;
    (void)state;
    sh_good(&r, "sh bundle/verify.sh");
    run_contains(r.out, "pdfsig says its signature is valid");
    run_contains(r.out, "sealed with the certificate");
    run_contains(r.out, "Nothing that the seal and the hashes cover was changed.");
    sh_good(&r, "cd bundle && sha256sum --quiet -c MANIFEST.sha256 && sed -n 100p entries.jsonl |"
                " tr -d '\\n' | openssl dgst -sha256 -r | cut -c1-64 > ../got &&"
                " sed -n 100p entries.sha256 | cut -c1-64 | cmp - ../got");
    sh_good(&r, "cmp bundle/record.pdf out/job-record.pdf; cmp bundle/attachments/*.pdf"
                " out/containment-interior.pdf");
    sh_good(&r, "[ $(wc -l < bundle/entries.jsonl) -eq"
                " $(sqlite3 out/demo.book 'SELECT count(*) FROM entry') ]");
}

static void is_private(void **state)
{
    run_result r;
    (void)state;
    sh_good(&r, "find bundle ! -perm 600 ! -perm 700");
    assert_string_equal(r.out, "");
}

/* Every kind of change makes the script say no. */
static void changes_are_found(void **state)
{
    static const char *const changes[] = {
        "sed -i 's/1926/1927/' summary.txt",
        "sed -i '7s/a/b/' entries.jsonl",
        "sed -i 7d entries.jsonl; sed -i 7d entries.sha256",
        "sed -i '1{s/^0/1/;t;s/^./0/}' entries.sha256",
        "printf x >> record.pdf",
        "printf x >> attachments/*.pdf",
        "rm heads.txt",
        "echo more > more.txt",
        /* as one who makes the manifest anew */
        "sed -i '7s/a/b/' entries.jsonl; M",
        "printf '%%x\\n' >> record.pdf; M",
        "printf x >> attachments/*.pdf; M",
        "sed -i '40{h;d};41{G}' entries.jsonl; M",
        "rm record.pdf; M",
        "mkdir 'heads.txt\nREADME.txt'; M",
        /* and the hashes, too: the next entry names the true one */
        ("sed -i '40s/\"who\":\"rosa\"/\"who\":\"ines\"/' entries.jsonl;"
         " h=$(sed -n 40p entries.jsonl | tr -d '\\n' | sha256sum | cut -c1-64);"
         " sed -i \"40s/^[0-9a-f]*/$h/\" entries.sha256; M"),
    };
    run_result r;
    char script[1200];
    (void)state;
    for (size_t i = 0; i < sizeof changes / sizeof changes[0]; i++) {
        snprintf(
            script, sizeof script,
            "rm -rf forged; cp -r bundle forged; cd forged\n"
            "M() { find . -type f ! -name MANIFEST.sha256 | sed 's|^./||' | sort |"
            " xargs sha256sum > MANIFEST.sha256; }\n"
            "%s\ncmp -s entries.jsonl ../bundle/entries.jsonl && diff -rq . ../bundle >/dev/null"
            " && exit 9\nsh verify.sh",
            changes[i]);
        sh(&r, script);
        if (r.status != 1)
            fail_msg("not found (%d): %s\n%s%s", r.status, changes[i], r.out, r.err);
        run_contains(r.out, "FAILED");
    }
}

static void one_zip_file(void **state)
{
    run_result r;
    (void)state;
    sh_good(&r, "$m job bundle $job --out b.zip --zip --record out/job-record.pdf &&"
                " stat -c %a b.zip && unzip -tq b.zip && unzip -q b.zip -d unzipped &&"
                " sh unzipped/verify.sh");
    run_contains(r.out, "600\n");
    run_contains(r.out, "No errors detected");
    run_contains(r.out, "Nothing that the seal and the hashes cover was changed.");
}

static void occupants_can_be_left_out(void **state)
{
    run_result r;
    (void)state;
    sh_good(&r, "$m job bundle $job --out quiet --without-occupants && sh quiet/verify.sh");
    run_contains(r.out, "1 entries are left out: they name an occupant");
    sh(&r, "grep -rl 'Uk\xC3\xA1zka' quiet");
    assert_int_equal(r.status, 1);
    sh_good(&r, "grep -c 'Uk\xC3\xA1zka' bundle/entries.jsonl");
    sh(&r, "$m job bundle $job --out q2 --without-occupants --record out/job-record.pdf");
    assert_int_equal(r.status, 2);
    run_contains(r.err, "breaks its seal");
}

/* Two books that hold the same entries, which came into them in another order (the merge of
 * a and b here, of b and a there), give the same bytes. Constructed. An attachment is left
 * out with what it is about, also when its device stands before that of the other. */
static void equal_books_give_equal_bundles(void **state)
{
    run_result r;
    (void)state;
    sh_good(
        &r,
        "set -e; $m book copy --no-key a.book --device a; $m book copy --no-key z.book --device z\n"
        "a=\"$MISTFOLD --book a.book --by rosa\"; z=\"$MISTFOLD --book z.book --by rosa\"\n"
        "$z party add $job --id who --role occupant --name 'Ona Invented'\n"
        "$a book merge z.book; for id in p1 p2; do $a party add $job --id $id --role owner "
        "--name Ida; $z party add $job --id $id$id --role owner --name Ida; done\n"
        "$a attach add $job out/sign-es.pdf --about z/1\n"
        "for b in a z; do cp out/demo.book $b$b.book; done\n"
        "$MISTFOLD --book aa.book book merge a.book; $MISTFOLD --book aa.book book merge "
        "z.book; $MISTFOLD --book zz.book book merge z.book; $MISTFOLD --book zz.book book "
        "merge a.book\n"
        "for b in aa zz; do $MISTFOLD --book $b.book job bundle $job --out $b; "
        "$MISTFOLD --book $b.book job bundle $job --without-occupants --out $b.quiet; "
        "done > said\n"
        "for b in aa zz; do sqlite3 $b.book 'SELECT device, seq FROM entry ORDER BY rowid' "
        "> $b.order; done; ! cmp -s aa.order zz.order\n"
        "rm */summary.txt; for f in MANIFEST.sha256; do rm */$f; done\n" /* with the time */
        "diff -r aa zz && diff -r aa.quiet zz.quiet && cat zz.quiet/withheld.txt");
    run_contains(r.out, " z/1\n");
    run_contains(r.out, " a/");
    sh_good(&r, "cut -c67- aa/entries.sha256 | sort -c -t/ -k1,1 -k2,2n");
}

static void refusals_leave_nothing(void **state)
{
    static const char *const scripts[] = {
        "$m job bundle $job --out bundle",
        "$m job bundle $job --out new --record out/containment-interior.pdf",
        "$m job bundle J-9 --out new",
        "$m job bundle $job --out none/new",
        "cp out/job-record.pdf r; echo >> r; $m job bundle $job --out new --record r",
        "touch there.zip; $m job bundle $job --zip --out there.zip",
    };
    run_result r;
    (void)state;
    for (size_t i = 0; i < sizeof scripts / sizeof scripts[0]; i++) {
        sh(&r, scripts[i]);
        assert_int_equal(r.status, 3);
        assert_ptr_equal(strchr(r.err, '\n'), r.err + strlen(r.err) - 1);
        sh_good(&r, "test ! -e new && test ! -e none");
    }
    sh_good(&r, "sh bundle/verify.sh");
}

/* A change among entries of another job, which no answer about this one reads: what leaves
 * the house with the head of the whole book is held against the whole book. */
static void the_whole_book_is_read(void **state)
{
    run_result r;
    (void)state;
    sh_good(&r, "set -e; cp out/demo.book w.book; w=\"$MISTFOLD --book w.book --by rosa\"\n"
                "$w job open --id J-2 --address '7 Invented Street' --year-built 1926 --building "
                "dwelling --owner-occupied yes --work window-replacement --description x --start "
                "2026-09-30\n"
                "for id in o1 o2 o3; do $w party add J-2 --id $id --role owner --name Ida; done\n"
                "$w gate J-2 demo || [ $? -eq 1 ]\n"
                "sqlite3 w.book \"SELECT sql || ';' FROM sqlite_schema WHERE name = "
                "'entry_no_update'\" > trigger.sql\n"
                "sqlite3 w.book \"DROP TRIGGER entry_no_update; UPDATE entry SET who = 'mau' WHERE "
                "job = 'J-2' AND body LIKE '%o2%'; \" \".read trigger.sql\"\n"
                "$w gate $job inspection --on 2026-09-25");
    sh_good(&r, "w=\"$MISTFOLD --book w.book --by rosa\"\n"
                "$w paper record $job --out w.pdf --key out/rosa.p12 --on 2026-09-25 "
                "--passphrase-fd 3 3< " MF_SAMPLE "/passphrase.txt 2> told || [ $? -eq 4 ] && "
                "pdftotext w.pdf - | tr '\\n' ' '");
    run_contains(r.out, "The check found an altered or damaged entry.");
    sh_good(&r, "$MISTFOLD --book w.book job bundle $job --out w > said 2> told || [ $? -eq 4 ] && "
                "cat w/summary.txt");
    run_contains(r.out, "424 entries (the whole book), ");
    assert_null(strstr(r.out, " 0 faults"));
}

/* What an inspector is shown of years of work: a bundle a job, each with its own script, an index,
 * and one script for all. J-2 is invented. */
static void all_jobs_of_three_years(void **state)
{
    run_result r;
    (void)state;
    sh_good(&r,
            "set -e; export MISTFOLD_BOOK=v.book MISTFOLD_BY=rosa; cp out/demo.book v.book\n"
            "$MISTFOLD job open --id J-2 --address '7 <Invented> Street' --year-built 1926 "
            "--building dwelling --owner-occupied yes --work repair --description x --start "
            "2026-10-05 > /dev/null\n"
            "b() { $MISTFOLD job bundle \"$@\"; }\n"
            "b --since 2023-11-29 --until 2026-11-29 --out all --records out --json\n"
            "b --until 2026-10-04 --out early; b --state preparing --out prep; b --zip --out zips "
            "--lang es; ls -d all/job* early/job* prep/job* zips/job*; find all ! -perm 600 ! "
            "-perm 700\n"
            "sh all/verify.sh; sh all/job-J-1926/verify.sh; sh zips/verify.sh");
    run_contains(r.out, "{\"jobs\": 2, \"records\": 1}\n");
    run_contains(r.out, "all/job-J-1926\nall/job-J-2\nearly/job-J-1926\nprep/job-J-2\n"
                        "zips/job-J-1926.zip\nzips/job-J-2.zip\nok ");
    run_contains(r.out, "ok      job-J-1926: Nothing that could be checked here was changed.\n");
    run_contains(
        r.out, "ok      job-J-2.zip: Nothing that could be checked here was changed.\n2 bundles\n");
    sh_good(
        &r,
        "cat all/index.txt; cmp all/job-J-1926/record.pdf out/job-record.pdf; cat all/index.html; "
        "cat zips/index.txt; for g in rule demo signs handover inspection; do $MISTFOLD --book "
        "v.book gate J-1926 $g 2>/dev/null | head -1; done > gates; while read -r line; do grep "
        "-qF \"$line\" all/index.txt || exit 1; done < gates");
    run_contains(r.out, "J-2  7 <Invented> Street\n    2026-10-05, preparing\n");
    run_contains(r.out, "Jobs whose work went on from 2023-11-29 to 2026-11-29.\nJobs here: 2\n");
    run_contains(r.out, "May demo start?  NO. The work is completed.\n");
    run_contains(r.out, "2026-09-14 to 2026-09-16, closed, handed over\n");
    run_contains(r.out, "7 &lt;Invented> Street");
    run_contains(r.out, "<a href=\"job-J-1926/record.pdf\">record.pdf</a>");
    run_contains(r.out, "Archivo: job-J-2.zip; asientos: ");
}

/* The manifest of J-1926, and INDEX.sha256 over what is there. */
#define MADE_ANEW                                                                                  \
    "M() { (cd job-J-1926; find . -type f ! -name MANIFEST.sha256 | sed 's|^./||' | sort | xargs " \
    "sha256sum > MANIFEST.sha256); cut -c67- INDEX.sha256 | xargs sha256sum > new; mv new "        \
    "INDEX.sha256; }\n"

/* What lists that were made anew throughout can no longer tell is said: that a record was sealed,
 * as long as its entry is there. */
static void a_seal_taken_out_is_told(void **state)
{
    run_result r;
    (void)state;
    sh_good(&r,
            MADE_ANEW "rm -rf forged; cp -r all forged; cd forged; rm job-J-1926/record.pdf\n"
                      "sed -i 's/^record   .*/record       none/' job-J-1926/summary.txt\n"
                      "sed -i 's/with its .*/without a sealed record/' index.txt; sed -i "
                      "'s/<a href=.job-J-1926.record.pdf.>[^<]*.*<br>/without<br>/' index.html; M\n"
                      "sh ../all/verify.sh ../forged && sh job-J-1926/verify.sh");
    run_contains(r.out, "unseen  job-J-1926: entry office/");
    run_contains(r.out, " says that a record was sealed, and it is not here\n");
    run_contains(r.out, "unseen  record: entry office/");
}

/* A bundle changed, taken away or put in is found by the script of all, whatever the changed
 * bundle's own script says, and by a copy of it from elsewhere. */
static void changes_among_all_are_found(void **state)
{
    static const char *const changes[] = {
        "rm -r job-J-2",
        "cp -r job-J-2 job-J-3",
        "cp -r job-J-2 .hidden",
        "echo x > .hidden",
        "mkdir empty",
        "mkdir job-J-2/empty",
        "ln -s ../index.txt job-J-2/more",
        "sed -i 's/1926/1927/' job-J-1926/summary.txt",
        "rm job-J-2/verify.sh",
        "rm job-J-2/MANIFEST.sha256",
        "echo 'exit 0' > job-J-2/verify.sh; echo x >> job-J-2/summary.txt",
        "rm job-J-2/verify.sh; sed -i 's/Invented/Other/' job-J-2/entries.jsonl",
        ("echo 'exit 0' > job-J-2/verify.sh; cd job-J-2; sha256sum * > MANIFEST.sha256; cd ..; "
         "M=$(sha256sum < job-J-2/MANIFEST.sha256); sed -i 's/Invented/Other/' "
         "job-J-2/entries.jsonl; sed -i \"s|.*job-J-2/|${M%-}job-J-2/|\" INDEX.sha256"),
        "sed -i 's/YES/NO/' index.txt",
        "sed -i 's/J-2/J-7/' index.html",
        "sed -i /job-J-2/d INDEX.sha256",
        "sed -i /index.html/d INDEX.sha256; rm index.html",
        "sed -i /job-/d INDEX.sha256; rm -r job-*",
        "rm INDEX.sha256",
        "touch MANIFEST.sha256",
        "mkdir \"$(printf 'job-J-1926\\njob-J-2')\"",
        "mkdir \"$(printf 'index.txt\\n.')\"; echo x > index.txt*/x",
        "echo x > \"$(printf 'job-J-2/heads.txt\\n')\"",
        /* as one who makes the lists of hashes anew */
        "rm job-J-1926/record.pdf; M",
        ("rm job-J-1926/record.pdf; sed -i 's/^record   .*/record       none/' "
         "job-J-1926/summary.txt; M"),
        ("rm job-J-1926/record.pdf; sed -i 's/^record   .*/record       none/' "
         "job-J-1926/summary.txt; sed -i 's/with its .*/without a sealed record/' index.txt; M"),
        "rm -r job-J-2; sed -i '/job-J-2/d' INDEX.sha256; M",
    };
    run_result r;
    char script[1000];
    (void)state;
    for (size_t i = 0; i < 2 * sizeof changes / sizeof changes[0]; i++) {
        snprintf(script, sizeof script,
                 MADE_ANEW "rm -rf forged; cp -r all forged; cd forged; %s; %s", changes[i / 2],
                 i % 2 == 0 ? "sh verify.sh" : "sh ../all/verify.sh ../forged");
        sh(&r, script);
        if (r.status != 1)
            fail_msg("not found (%d): %s\n%s%s", r.status, script, r.out, r.err);
        run_contains(r.out, "FAILED");
    }
    sh_good(&r, "cp -r all moved; rm all/verify.sh; ! sh moved/verify.sh all && mv moved again && "
                "cp again/verify.sh own.sh && sh own.sh again && cp -r again all/ && rm -r all && "
                "mv again all");
}

/* Job ids that are names of files of the folder, or mean the folder itself. Constructed. */
static void ids_of_jobs_that_are_names_of_files(void **state)
{
    run_result r;
    (void)state;
    sh_good(
        &r,
        "set -e; export MISTFOLD_BOOK=n.book MISTFOLD_BY=rosa; cp out/demo.book n.book\n"
        "for id in . .. .hid index.txt index.html verify.sh INDEX.sha256 MANIFEST.sha256 J.zip -x; "
        "do $MISTFOLD job open --id=$id --address '7 Invented Street' --year-built 1926 "
        "--building dwelling --owner-occupied yes --work repair --description x --start "
        "2026-10-05 > /dev/null; done\n"
        "$MISTFOLD job bundle --out names > said; $MISTFOLD job bundle --zip --out zipped > said\n"
        "sh names/verify.sh; sh zipped/verify.sh\n"
        "for d in names zipped; do rm -rf f; cp -r $d f; rm -rf f/job-.hid*; ! sh f/verify.sh; "
        "done");
    run_contains(r.out, "11 bundles\n");
    run_contains(r.out, "FAILED  job-.hid.zip is missing");
    run_contains(r.out, "FAILED  job-.hid/MANIFEST.sha256 is missing");
}

/* In the folder of --records files alone are read: what is no file is told, each in a line. */
static void records_are_files(void **state)
{
    run_result r;
    (void)state;
    sh_good(&r,
            "set -e; mkdir rec rec/folder.pdf; mkfifo rec/pipe.pdf; ln -s gone rec/gone.pdf; ln "
            "-s /dev/zero rec/zero.pdf; cp out/job-record.pdf rec/; ln -s job-record.pdf "
            "rec/link.pdf; timeout 60 $m job bundle --records rec --out of-rec > said 2> told; "
            "cat told; head -1 said");
    assert_non_null(strstr(r.out, "1 with their sealed record"));
    for (size_t i = 0; i < 4; i++) {
        static const char *const names[] = {"folder", "pipe", "gone", "zero"};
        char line[120];
        snprintf(line, sizeof line,
                 "note: rec/%s.pdf is no file that can be read, and is passed over\n", names[i]);
        run_contains(r.out, line);
    }
}

/* Nothing is left behind, and what is of one job is not of all. */
static void refusals_of_all(void **state)
{
    static const struct {
        const char *options, *says;
        int status;
    } cases[] = {
        {"--since 2040-01-01 --out none", "no job is like that", 3},
        {"--out all", "there is a file or folder of this name already", 3},
        {"--out v.book-journal", "this name belongs to the book beside it", 3},
        {"--out none --records nowhere", "nowhere", 3},
        {"--out none --state done", "done is not a state", 3},
        {"--out none --record r.pdf", "it is the record of one job, and none is named", 2},
        {"--out none --records out --without-occupants", "breaks its seal", 2},
        {"J-2 --out none --since 2026-01-01", "they are of all jobs, and one is named", 2},
    };
    run_result r;
    char script[300];
    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        snprintf(script, sizeof script, "$MISTFOLD --book v.book job bundle %s", cases[i].options);
        sh(&r, script);
        if (r.status != cases[i].status)
            fail_msg("%s: %d\n%s%s", cases[i].options, r.status, r.out, r.err);
        run_contains(r.err, cases[i].says);
        sh_good(&r, "test ! -e none");
    }
    sh(&r, "$MISTFOLD --book v.book job bundle --without-occupants --out quiet-all && sh "
           "quiet-all/verify.sh && grep -rl 'Uk\xC3\xA1zka' quiet-all");
    assert_int_equal(r.status, 1);
    run_contains(r.out, "2 bundles\n");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(verifies_with_stock_tools),
        cmocka_unit_test(is_private),
        cmocka_unit_test(changes_are_found),
        cmocka_unit_test(one_zip_file),
        cmocka_unit_test(occupants_can_be_left_out),
        cmocka_unit_test(refusals_leave_nothing),
        cmocka_unit_test(the_whole_book_is_read),
        cmocka_unit_test(equal_books_give_equal_bundles),
        cmocka_unit_test(all_jobs_of_three_years),
        cmocka_unit_test(a_seal_taken_out_is_told),
        cmocka_unit_test(changes_among_all_are_found),
        cmocka_unit_test(ids_of_jobs_that_are_names_of_files),
        cmocka_unit_test(records_are_files),
        cmocka_unit_test(refusals_of_all),
    };
    return cmocka_run_group_tests(tests, run_demo, remove_folder);
}
