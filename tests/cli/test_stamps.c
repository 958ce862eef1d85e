/* Time stamps by the program, of an authority of our own on 127.0.0.1 (tsa.py). What is
 * right is verified by openssl, pdfsig and qpdf as well; what is wrong gives one line, a
 * non-zero exit, and nothing is written. Sources: RFC 3161; ETSI EN 319 142-1. */
#include "support/stamp_kit.h"

#include <mistfold/seal.h>
#include <time.h>

#define REWRITE "python3 " MF_TESTS "/forged/books/rewrite.py "

/* ---- the book ----------------------------------------------------------------------------- */

static void a_head_is_stamped(void **state)
{
    (void)state;
    run(M "book head | head -1 > head.txt; " M "book stamp --tsa ${U}good" ROOTS "--out head.tsr");
    answers(0, "PROVED, existed before 2");
    answers(0, ", by Invented Time Authority");
    run("openssl ts -verify -digest $(cat head.txt) -in head.tsr -CAfile tsa/root.pem 2>&1");
    answers(0, "Verification: OK");
    run(M "book check" ROOTS);
    answers(0, "PROVED, existed before 2");
    run(M "book check"); /* nobody vouches for the authority: no proof */
    answers(0, "NOT PROVED, authority unverified");
    assert_null(strstr(r.out, ": PROVED"));
    run(M "book check --tsa-roots tsa/other.pem");
    answers(1, "NOT PROVED, none of the authorities you trust");
    refuses(1, "its time stamp is by no authority that you trust");
    run(M "book check --json" ROOTS "| python3 -c 'import json, sys; s = "
          "json.load(sys.stdin)[\"stamps\"]; print(s[0][\"state\"], s[0][\"policy\"], "
          "s[0][\"head\"] == open(\"head.txt\").read().strip())'");
    answers(0, "proved 1.2.3.4.1 True");
    run("cp head.tsr there; " M "book stamp --tsa ${U}good --out there");
    refuses(3, "there: ");
}

static void in_two_steps(void **state)
{
    (void)state;
    run(M "book head | head -1 > two.txt; " M "book stamp --request two.tsq && " M
          "person add --id teo --name Teo && curl -s -H 'Content-Type: "
          "application/timestamp-query' --data-binary @two.tsq ${U}good -o two.tsr");
    assert_int_equal(r.status, 0);
    run("openssl ts -verify -queryfile two.tsq -in two.tsr -CAfile tsa/root.pem 2>&1");
    answers(0, "Verification: OK");
    run(M "book stamp --reply two.tsr" ROOTS "| head -1 | sed 's/^head *//' | cmp - two.txt");
    assert_int_equal(r.status, 0);
    run(M "book stamp --reply two.tsr");
    refuses(3, "this stamp is in the book already");
    run("curl -s -H 'Content-Type: application/timestamp-query' --data-binary @two.tsq "
        "${U}wrong-nonce -o nonce.tsr; " M "book stamp --reply nonce.tsr");
    refuses(3, "it answers another query");
    run(M "book stamp --reply head.tsr"); /* fetched at once: there was no request */
    refuses(3, "something else than a head that was asked for");
    run("curl -s -H 'Content-Type: application/timestamp-query' --data-binary @two.tsq "
        "${U}unfit -o unfit.tsr; " M "book stamp --reply unfit.tsr");
    refuses(3, "unfit.tsr: its time stamp is by a certificate that is not for time stamps");
    run("head -c 300 two.tsr > cut.tsr; " M "book stamp --reply cut.tsr");
    refuses(3, "cut.tsr: it is not a time stamp, or cut short");
    run(M "book stamp --request a --reply b");
    refuses(2, "it stands beside --request");
    run(M "book stamp --request a --out b");
    refuses(2, "it goes with a stamp that is fetched now");
    run(M "book stamp --request two.tsq");
    refuses(3, "two.tsq: ");
}

/* Each wrong reply: one line, and the book and the folder are as they were. */
static void bad_replies(void **state)
{
    static const struct {
        const char *kind;
        int status;
        const char *line;
    } bad[] = {
        {"wrong-imprint", 3, "it stamps something else than was asked"},
        {"wrong-nonce", 3, "it answers another query"},
        {"no-nonce", 3, "it answers another query"},
        {"expired", 3, "by a certificate that is not for time stamps, or was not valid then"},
        {"unfit", 3, "its time stamp is by a certificate that is not for time stamps"},
        {"stranger", 3, "its time stamp is by no authority that you trust"},
        {"altered", 3, "its time stamp is of something else, or was altered"},
        {"truncated", 3, "it is not a time stamp, or cut short"},
        {"page", 3, "it is not a time stamp, or cut short"},
        {"empty", 3, "it is not a time stamp, or cut short"},
        {"refused", 3, "the authority gave no stamp: not today?[2J"},
        {"huge", 3, "its answer is too long for a time stamp"},
        {"error", 3, "it answers with an error (HTTP 503)"},
        {"redirect", 3, "it answers with a redirect (HTTP 302)"},
        {"slow", 4, "no answer within 1 seconds"},
    };
    char command[600];
    (void)state;
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        snprintf(command, sizeof command,
                 "MISTFOLD_TSA_WAIT=%d " M "book stamp --tsa ${U}%s --out bad.tsr" ROOTS,
                 bad[i].status == 4 ? 1 : 20, bad[i].kind);
        run(M "book head > before");
        run(command);
        refuses(bad[i].status, bad[i].line);
        snprintf(command, sizeof command,
                 "MISTFOLD_TSA_WAIT=%d " M "paper record J --out bad.pdf" KEY
                 "--stamp --tsa ${U}%s" ROOTS,
                 bad[i].status == 4 ? 1 : 20, bad[i].kind);
        run(command);
        refuses(bad[i].status, bad[i].line);
        run(M "book head | cmp - before && ! ls bad.* 2> none");
        assert_int_equal(r.status, 0);
    }
    run(M "book stamp --tsa http://127.0.0.1:1/");
    refuses(4, "the authority cannot be asked");
    run(M "book stamp --tsa file:///etc/passwd");
    refuses(3, "is not the address of an authority");
    run(M "book stamp");
    refuses(2, "it is not said which authority is asked");
    run("MISTFOLD_TSA_WAIT=0 " M "book stamp --tsa ${U}good");
    refuses(3, "0 is not a time to wait");
    run(M "book stamp --tsa ${U}good --tsa-roots right");
    refuses(3, "the roots hold no certificate that can be read");
}

/* All hashes computed anew: nothing shows it but a head that is known elsewhere, here to
 * the authority. */
static void a_rewritten_book(void **state)
{
    (void)state;
    run(M "book backup new.book > log && " REWRITE "new.book replace body Muestra Falsa && " M
          "--book new.book book rebuild && "
          "sqlite3 new.book 'SELECT name FROM person LIMIT 1'");
    answers(0, "Rosa Falsa");
    run(M "--book new.book book check" ROOTS);
    answers(1, "faults    0");
    answers(1, "NOT IN THIS BOOK ANY MORE, the book was rewritten; PROVED");
    refuses(1, "is no longer in the book as it was");
    run(M "--book new.book book stamp --tsa ${U}good"); /* its own hashes are right */
    answers(0, "head");
    /* The stamps thrown away with it: a stamp that was kept elsewhere still knows. */
    run(M "--book bare.book book new --no-key --device t && " M
          "--book bare.book person add --id rosa --name 'Rosa Falsa' && " M
          "--book bare.book book check --stamp head.tsr" ROOTS);
    refuses(1, "is not a head that this book ever had");
    run(M "book check --stamp head.tsr" ROOTS);
    answers(0, "stamp     head.tsr, ");
    run(M "book check --stamp right");
    refuses(3, "right: it is not a time stamp");
}

/* A stamp made on one device holds on another, whose entries came in another order. */
static void on_another_device(void **state)
{
    (void)state;
    run(M "book copy --no-key truck.book --device truck > log && " M
          "--book truck.book person add --id ana --name Ana > log && " M
          "--book truck.book book stamp --tsa ${U}good > log && " M
          "person add --id leo --name Leo > log && " M "book merge truck.book > log && " M
          "book check" ROOTS);
    answers(0, "stamp     truck/2, ");
    answers(0, "faults    0");
}

/* An entry as somebody makes it by hand, with right hashes. */
static void forged(const char *old, const char *new, const char *line)
{
    char command[1200];
    snprintf(command, sizeof command,
             "rm -f forged.book; " M "book backup forged.book > log; first=$(sqlite3 forged.book "
             "\"SELECT hash FROM entry WHERE seq = 1 AND device = 't'\"); second=$(sqlite3 "
             "forged.book \"SELECT hash FROM entry WHERE seq = 2 AND device = 't'\"); " REWRITE
             "forged.book replace body \"%s\" \"%s\" && " M
             "--book forged.book book rebuild > log && " M "--book forged.book book check" ROOTS,
             old, new);
    run(command);
    refuses(1, line);
}

static void entries_made_by_hand(void **state)
{
    (void)state;
    /* without its hash: the head alone tells that it is of t/2, and the next stamp of the rest */
    forged("t/2 $second", "t/2", "entry t/3, which this stamp is of, is no longer");
    forged("Invented Time", "Imagined Time", "the entry tells something else than its stamp");
    forged("\\\"told\\\":\\\"2", "\\\"told\\\":\\\"1",
           "the entry tells something else than its stamp");
    forged("t/2 $second", "t/1 $first", "the head of this stamp is not that of its entries");
    forged("\\\"token\\\":\\\"M", "\\\"token\\\":\\\"N", "its time stamp cannot be read");
    forged("\\\"head\\\":\\\"", "\\\"head\\\":\\\"0", "its time stamp is of something else");
}

/* A device whose clock is ahead: its entry says a later day than the authority that saw it. */
static void a_clock_that_is_ahead(void **state)
{
    (void)state;
    run(M "book backup ahead.book > log && " REWRITE "ahead.book replace logged_at 20 21 && " M
          "--book ahead.book book rebuild > log && " M
          "--book ahead.book book stamp --tsa ${U}good > log && " M "--book ahead.book book check "
          "| grep -c 'ahead'");
    answers(0, "1");
    run(M "book check | grep -c 'clock was ahead'");
    answers(1, "0");
}

/* What is read of an entry is the token's; a correction does not talk it away. */
static void an_entry_that_tells_more(void **state)
{
    (void)state;
    run(M "book backup more.book > log && id=$(sqlite3 more.book \"SELECT entry FROM stamp LIMIT "
          "1\") && " M "--book more.book entry withdraw $id --reason x > log && " M
          "--book more.book book check" ROOTS " | grep -c \"stamp     $id\"");
    answers(0, "1");
    run("sqlite3 more.book \"SELECT token FROM stamp LIMIT 1\" | base64 -d > t.tok && "
        "openssl ts -reply -token_in -in t.tok -text | grep -c 'Time stamp'");
    answers(0, "1"); /* the kept token is one that stock tools read */
}

/* ---- the paper ----------------------------------------------------------------------------- */

static void a_seal_is_stamped(void **state)
{
    (void)state;
    run(M "paper record J --out p.pdf" KEY "--stamp --tsa ${U}good" ROOTS);
    answers(0, "PROVED, existed before 2");
    run("pdfsig p.pdf | grep -c 'Signature is Valid' && qpdf --check p.pdf > log && " M
        "paper check p.pdf" ROOTS);
    answers(0, "1\nseal 1       GOOD");
    answers(0, "time stamp   PROVED, existed before 2");
    run(M "paper check p.pdf");
    answers(0, "NOT PROVED, authority unverified");
    run(M "paper check p.pdf --tsa-roots tsa/other.pem");
    refuses(1, "its time stamp is by no authority that you trust");
    run(M "paper record J --out aged.pdf" KEY "--stamp --tsa ${U}of-aged > log && " M
          "paper check aged.pdf --tsa-roots tsa/aged.pem"); /* its root was over by then */
    answers(1, "time stamp   ");
    refuses(1, "its time stamp is by a certificate that is not for time stamps, or was not valid");
    run(M "paper check p.pdf --json" ROOTS "| grep -c '\"state\": \"proved\"'");
    answers(0, "1");
    /* The token by hand: over the bytes of the signature, which end the SignerInfo. */
    run("python3 " MF_TESTS "/cli/token_of.py p.pdf && openssl ts -verify -token_in -in token.der "
        "-data signature.bin -CAfile tsa/root.pem 2>&1");
    answers(0, "Verification: OK");
    run("cp p.pdf two.pdf; " M "paper seal two.pdf" KEY "--as owner --stamp --tsa ${U}good" ROOTS);
    answers(0, "time stamp  PROVED");
    run("pdfsig two.pdf | grep -c 'Signature is Valid'; " M "paper check two.pdf --compare" ROOTS);
    answers(0, "2\n");
    run(M "paper record J --out q.pdf --stamp");
    refuses(2, "there is no seal to be stamped");
}

/* No key is needed to put a stamp there, as the seal does not cover it: one of another
 * paper is no stamp of this. */
static void a_stamp_of_another_seal(void **state)
{
    (void)state;
    run(M "paper record J --out other.pdf" KEY "--stamp --tsa ${U}good" ROOTS
          "> log && python3 " MF_TESTS "/cli/token_of.py p.pdf other.pdf swapped.pdf && " M
          "paper check swapped.pdf" ROOTS);
    answers(1, "time stamp   WRONG, of something else");
    refuses(1, "its time stamp is of something else, or was altered");
    run("pdfsig swapped.pdf | grep -c 'Signature is Valid'"); /* poppler looks at no stamp */
    answers(0, "1");
}

static void a_document_time_stamp(void **state)
{
    (void)state;
    run("python3 " MF_TESTS "/cli/doc_stamp.py p.pdf d.pdf $U && qpdf --check d.pdf > log && "
        "openssl ts -verify -token_in -in d.pdf.token -data d.pdf.covered -CAfile tsa/root.pem "
        "2>&1 && pdfsig d.pdf 2>&1 | grep -c 'Signature is Valid' && " M
        "paper check d.pdf --compare" ROOTS);
    answers(0, "Verification: OK\n1\n");
    answers(0, "stamp 2      GOOD, unaltered since it was stamped");
    answers(0, "authority    Invented Time Authority");
    answers(0, "seal 1       logged as t/");
    run("python3 " MF_TESTS "/cli/doc_stamp.py p.pdf drawn.pdf $U drawn && " M
        "paper check drawn.pdf" ROOTS);
    refuses(1, "seal 2 is drawn on page 1, where it may cover words");
    run("python3 " MF_TESTS "/cli/doc_stamp.py p.pdf page.pdf $U page && " M
        "paper check page.pdf" ROOTS);
    refuses(1, "the paper was changed before this seal was added");
    run("python3 " MF_TESTS "/cli/doc_stamp.py p.pdf wrong.pdf $U other && " M
        "paper check wrong.pdf" ROOTS);
    refuses(1, "the paper was altered after it was sealed");
    run(M "paper record J --out plain.pdf > log && python3 " MF_TESTS
          "/cli/doc_stamp.py plain.pdf bare.pdf $U && " M "paper check bare.pdf" ROOTS);
    refuses(1, "the paper has a time stamp and no seal");
    run("cp d.pdf three.pdf; " M "paper seal three.pdf" KEY "--as firm && " M
        "paper check three.pdf" ROOTS);
    answers(0, "seal 3       GOOD");
}

/* Ours, and the same paper again gives the same bytes to be stamped. */
static void a_paper_is_stamped_later(void **state)
{
    (void)state;
    run("cp p.pdf own.pdf; " M "paper stamp own.pdf --tsa ${U}good" ROOTS);
    answers(0, "time stamp  PROVED, existed before 2");
    run("qpdf --check own.pdf > log && pdfsig own.pdf 2>&1 | grep -c 'Signature is Valid' && " M
        "paper check own.pdf --compare" ROOTS);
    answers(0, "1\n");
    answers(0, "stamp 2      GOOD, unaltered since it was stamped");
    run("cp p.pdf later.pdf; " M "paper stamp later.pdf --request l.tsq && cmp p.pdf later.pdf && "
        "curl -s -H 'Content-Type: application/timestamp-query' --data-binary @l.tsq ${U}good -o "
        "l.tsr && " M "paper stamp later.pdf --request l.tsq --reply l.tsr --out done.pdf" ROOTS);
    answers(0, "wrote done.pdf\ntime stamp  PROVED");
    run(M "paper check done.pdf" ROOTS);
    answers(0, "stamp 2      GOOD");
    run(M "paper stamp later.pdf --request no.tsq --out no.pdf");
    refuses(2, "--out: no paper is written beside a query");
    run("! ls no.* 2> none");
    assert_int_equal(r.status, 0);
    run(M "paper stamp own.pdf --request l.tsq --reply l.tsr");
    refuses(3, "this query is of another paper");
    run("curl -s -H 'Content-Type: application/timestamp-query' --data-binary @l.tsq "
        "${U}wrong-imprint -o w.tsr; " M "paper stamp later.pdf --request l.tsq --reply w.tsr");
    refuses(3, "it stamps something else than was asked");
    run(M "paper stamp plain.pdf --tsa ${U}good");
    refuses(1, "the paper has no seal");
    run("head -c 9999 p.pdf > half.pdf; " M "paper stamp half.pdf --tsa ${U}good");
    assert_int_not_equal(r.status, 0);
}

/* One check of what left the house: a head, papers, of which one is stamped as a whole and
 * has no seal more by that, and a stamp that was kept. */
static void all_in_one_check(void **state)
{
    (void)state;
    run(M "book check --against head.txt p.pdf d.pdf --stamp head.tsr" ROOTS);
    answers(0, "stamp     head.tsr, ");
    answers(0, "\nholds       head.txt: its head\nagrees      p.pdf: job J, head ");
    answers(0, "\nagrees      d.pdf: job J, head ");
    assert_non_null(strstr(strstr(r.out, "d.pdf"), "..., 1 seal; since then"));
    run(M "book check --against head.txt p.pdf d.pdf --stamp head.tsr --json" ROOTS
          "| python3 -c 'import json, sys; o = json.load(sys.stdin); "
          "print(o[\"faults\"], [p[\"is\"] for p in o[\"papers\"]], o[\"stamps\"][-1][\"entry\"], "
          "o[\"stamps\"][-1][\"elsewhere\"], {s[\"state\"] for s in o[\"stamps\"]})'");
    answers(0, "0 ['agrees', 'agrees'] head.tsr True {'proved'}");
    run(M "paper check d.pdf --compare --json" ROOTS
          "| python3 -c 'import json, sys; s = json.load(sys.stdin)[\"seal\"]; "
          "print(s[0][\"key\"], \"key\" in s[1], s[1][\"is_stamp\"])'");
    answers(0, "logged False True");
    /* The papers come before the stamps; either alone is enough for a no. */
    run(M "book check --against head.txt p.pdf --tsa-roots tsa/other.pem");
    answers(1, "agrees      p.pdf");
    refuses(1, "its time stamp is by no authority that you trust");
    run(M "--book bare.book book check --against p.pdf --stamp head.tsr" ROOTS);
    answers(1, "contradicts p.pdf");
}

/* ---- the token, bit by bit -------------------------------------------------------------- */

static size_t read_file(const char *name, unsigned char *out, size_t size)
{
    char path[128];
    snprintf(path, sizeof path, "%s/%s", folder, name);
    FILE *file = fopen(path, "rb");
    assert_non_null(file);
    size_t len = fread(out, 1, size - 1, file);
    out[len] = '\0';
    assert_int_equal(fclose(file), 0);
    return len;
}

static mf_status ask_by_curl(void *user, const char *sha256, mf_bytes *token, mf_err *err)
{
    static unsigned char reply[MF_STAMP_REPLY_MAX];
    mf_stamp_report report;
    mf_bytes query = {0};
    char path[128];
    (void)user;
    assert_int_equal(mf_stamp_query(&query, sha256, err), MF_OK);
    snprintf(path, sizeof path, "%s/c.tsq", folder);
    FILE *file = fopen(path, "wb");
    assert_non_null(file);
    assert_int_equal(fwrite(query.data, 1, query.len, file), query.len);
    assert_int_equal(fclose(file), 0);
    run("curl -s -H 'Content-Type: application/timestamp-query' --data-binary @c.tsq ${U}good -o "
        "c.tsr");
    size_t len = read_file("c.tsr", reply, sizeof reply);
    mf_status status = mf_stamp_reply(token, &report, &query, reply, len, NULL, err);
    mf_bytes_free(&query);
    return status;
}

/* A signer whose clock is two days ahead of the authority's, and one an hour (constructed). */
static void a_signer_whose_clock_is_ahead(void **state)
{
    static unsigned char pdf[4 * 1024 * 1024];
    const mf_key_holder holder = {"Rosa Muestra", "", "", 9};
    mf_key *key = NULL;
    mf_bytes p12 = {0};
    size_t len = read_file("plain.pdf", pdf, sizeof pdf);
    (void)state;
    assert_int_equal(mf_key_make(&p12, &holder, "right", NULL), MF_OK);
    assert_int_equal(mf_key_open(&key, p12.data, p12.len, "right", NULL), MF_OK);
    for (int hours = 1; hours <= 48; hours += 47) {
        mf_bytes sealed = {0};
        mf_seal_check check;
        mf_seal_ask ask = {.key = key,
                           .reason = "",
                           .location = "",
                           .signed_at = (int64_t)time(NULL) + (int64_t)hours * 3600,
                           .stamp = ask_by_curl};
        assert_int_equal(mf_seal_sign(&sealed, pdf, len, &ask, NULL), MF_OK);
        assert_int_equal(mf_seal_verify(&check, sealed.data, sealed.len, NULL), MF_OK);
        assert_int_equal(check.seal[0].stamp.state, MF_STAMP_UNVERIFIED);
        assert_int_equal(check.seal[0].clock_ahead, hours == 48);
        mf_bytes_free(&sealed);
    }
    mf_key_free(key);
    mf_bytes_free(&p12);
}

/* Whatever is changed: it is proved no more, or tells the same as before. What no signature
 * covers (versions, unsigned attributes, certificates beside) tells nothing here. */
static void no_bit_tells_another_time(void **state)
{
    static unsigned char token[MF_STAMP_REPLY_MAX], roots[65536];
    mf_stamp_report good, bent;
    (void)state;
    size_t len = read_file("token.der", token, sizeof token);
    read_file("tsa/root.pem", roots, sizeof roots);
    assert_int_equal(mf_stamp_judge(&good, token, len, NULL, (char *)roots, NULL), MF_OK);
    assert_int_equal(good.state, MF_STAMP_PROVED);
    for (size_t bit = 0; bit < 8 * len; bit++) {
        token[bit / 8] ^= (unsigned char)(1 << bit % 8);
        if (mf_stamp_judge(&bent, token, len, NULL, (char *)roots, NULL) == MF_OK &&
            bent.state == MF_STAMP_PROVED)
            assert_memory_equal(&bent, &good, sizeof good);
        token[bit / 8] ^= (unsigned char)(1 << bit % 8);
    }
    for (size_t cut = 0; cut < len; cut++) {
        assert_int_equal(mf_stamp_judge(&bent, token, cut, NULL, (char *)roots, NULL), MF_OK);
        assert_int_equal(bent.state, MF_STAMP_UNREADABLE);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_head_is_stamped),
        cmocka_unit_test(in_two_steps),
        cmocka_unit_test(bad_replies),
        cmocka_unit_test(on_another_device),
        cmocka_unit_test(an_entry_that_tells_more),
        cmocka_unit_test(a_rewritten_book),
        cmocka_unit_test(entries_made_by_hand),
        cmocka_unit_test(a_clock_that_is_ahead),
        cmocka_unit_test(a_seal_is_stamped),
        cmocka_unit_test(a_stamp_of_another_seal),
        cmocka_unit_test(a_document_time_stamp),
        cmocka_unit_test(a_paper_is_stamped_later),
        cmocka_unit_test(all_in_one_check),
        cmocka_unit_test(no_bit_tells_another_time),
        cmocka_unit_test(a_signer_whose_clock_is_ahead),
    };
    return cmocka_run_group_tests(tests, set_up, tear_down);
}
