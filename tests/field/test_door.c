/* The door of the field page: text in, text out. It answers each job of tests/cases and made-up
 * ones of the second reading as core does, and the same door in WebAssembly, run by node, gives
 * the very same replies. */
#include "base/digest.h"
#include "base/file.h"
#include "core/given.h"
#include "field/sha256.h"
#include "journal/entries_file.h"
#include "support/case_job.h"
#include "support/cmocka_all.h"
#include "support/field_asked.h"
#include "support/folder_kit.h"
#include "support/job_entries.h"
#include "support/sampled.h"

#include <dirent.h>
#include <mistfold/audit.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define WASM "$MF_BUILD/../wasm/field.wasm"

enum { FINDINGS = 4000 };

static case_job made;
static mf_finding found[FINDINGS];

/* ---- SHA-256 --------------------------------------------------------------------------- */

/* FIPS 180-2, appendix B.1 to B.3, and the NIST CAVP byte-oriented short messages of length
 * 0 and 8; the others, at the edges of a block, were computed by sha256sum(1). */
static void sha256_is_that_of_the_standard(void **state)
{
    static const char *const vectors[][2] = {
        {"abc", "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"},
        {"abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq",
         "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1"},
        {"", "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"},
        {"\xd3", "28969cdfa74a12c82f3bad960b0b000aca2ac329deea5c2328ebc6f2ba9802c1"}};
    static char million[1000000];
    char hash[MF_HASH_HEX];
    (void)state;
    for (size_t i = 0; i < COUNT(vectors); i++) {
        mf_field_sha256(vectors[i][0], strlen(vectors[i][0]), hash);
        assert_string_equal(hash, vectors[i][1]);
    }
    memset(million, 'a', sizeof million);
    mf_field_sha256(million, sizeof million, hash);
    assert_string_equal(hash, "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0");
}

/* At every length around the edges of blocks it is what the library computes. */
static void sha256_is_that_of_the_library(void **state)
{
    char text[200], ours[MF_HASH_HEX], theirs[MF_HASH_HEX];
    (void)state;
    for (size_t i = 0; i < sizeof text; i++)
        text[i] = (char)(i * 37);
    for (size_t len = 0; len < sizeof text; len++) {
        mf_field_sha256(text, len, ours);
        assert_true(mf_digest_hex(text, len, theirs));
        assert_string_equal(ours, theirs);
    }
}

/* ---- the cases ------------------------------------------------------------------------- */

typedef struct one_case {
    bool based, differs; /* differs: what a .entries file of one device cannot say */
} one_case;

static void take_line(one_case *it, char *text)
{
    case_line line;
    text[strcspn(text, "#\n")] = '\0';
    case_split(&line, text);
    if (line.n == 0)
        return;
    const char *word = line.word[0];
    if (strcmp(word, "base") == 0)
        it->based = case_base(&made, line.word[1]);
    else if (strcmp(word, "correct") == 0 || strcmp(word, "altered") == 0)
        it->differs = true;
    else if (strcmp(word, "add") == 0 || strcmp(word, "change") == 0 || strcmp(word, "drop") == 0)
        assert_true(case_apply(&made, &line));
}

static one_case read_case(const char *name)
{
    char path[512], text[512];
    one_case it = {false, false};
    snprintf(path, sizeof path, MF_TESTS "/cases/%s", name);
    FILE *file = fopen(path, "r");
    assert_non_null(file);
    while (fgets(text, sizeof text, file) != NULL)
        take_line(&it, text);
    fclose(file);
    assert_true(it.based);
    return it;
}

static void load(mf_field_page *page, const mf_buf *entries)
{
    const char *reply =
        mf_field_ask(page, "{\"do\":\"load\",\"today\":\"2026-10-01\",\"time\":\"14:00\"}",
                     entries->data, entries->len);
    if (strstr(reply, "\"error\"") != NULL)
        fail_msg("%s", reply);
}

/* Each question of the day gets the answer that core gives of the very job. */
static void answers_as_core(const char *name)
{
    mf_buf entries = {0};
    mf_field_page *page = mf_field_new();
    assert_true(job_entries(&entries, &made.job, made.job.id));
    load(page, &entries);
    for (int gate = 0; gate < MF_GATE_COUNT; gate++) {
        char more[60], wanted[40];
        const mf_audit_ask ask = {&made.job, day("2026-10-01"), 1U << gate, ""};
        size_t n = mf_audit(&ask, found, FINDINGS);
        assert_true(n <= FINDINGS);
        snprintf(more, sizeof more, ",\"gate\":\"%s\"", mf_gate_name((mf_gate)gate));
        snprintf(wanted, sizeof wanted, "{\"answer\":\"%s\"",
                 mf_answer_name(mf_audit_answer(found, n, ask.gates)));
        const char *reply = field_asked(page, "gate", "2026-10-01", more, NULL);
        if (gate != MF_GATE_INSPECTION && strncmp(reply, wanted, strlen(wanted)) != 0)
            fail_msg("%s %s: %s, but %.200s", name, mf_gate_name((mf_gate)gate), wanted, reply);
    }
    mf_field_free(page);
    mf_buf_free(&entries);
}

static int is_case(const struct dirent *entry)
{
    size_t len = strlen(entry->d_name);
    return len > 5 && strcmp(entry->d_name + len - 5, ".case") == 0;
}

static void cases_are_answered_as_by_core(void **state)
{
    struct dirent **names;
    int compared = 0, n = scandir(MF_TESTS "/cases", &names, is_case, alphasort);
    (void)state;
    for (int i = 0; i < n; i += ONE_IN) {
        one_case it = read_case(names[i]->d_name);
        if (!it.differs && mf_job_after(&made.job, day("2026-10-01")) == 0) {
            answers_as_core(names[i]->d_name);
            compared++;
        }
        assert_true(field_asked_all(folder, names[i]->d_name, &made.job));
        case_free(&made);
    }
    for (int i = 0; i < n; i++)
        free(names[i]);
    free(names);
    assert_true(compared > 300 / ONE_IN);
}

/* ---- in WebAssembly ------------------------------------------------------------------------- */

static void run(const char *command, int status, const char *says)
{
    run_result r;
    run_shell(&r, "", command);
    if (r.status != status || strstr(r.out, says) == NULL)
        fail_msg("%s\nstatus %d\n%s%s", command, r.status, r.out, r.err);
}

/* Files that somebody made up are refused, or taken, in the very same words. */
static void hostile_files_are_put_to_both(void **state)
{
    struct dirent **names;
    static const char load_it[] =
        "{\"do\":\"load\",\"today\":\"2026-10-01\",\"time\":\"14:00\",\"lang\":\"en\"}";
    int n = scandir(MF_TESTS "/fuzz/seeds/entries", &names, NULL, alphasort), taken = 0;
    (void)state;
    for (int i = 0; i < n; i++) {
        char path[600], name[300];
        mf_bytes file = {0};
        mf_buf entries = {0}, asked = {0};
        snprintf(path, sizeof path, MF_TESTS "/fuzz/seeds/entries/%s", names[i]->d_name);
        snprintf(name, sizeof name, "seed-%s", names[i]->d_name);
        if (names[i]->d_name[0] != '.' && mf_file_read(&file, path, 1 << 22, NULL) == MF_OK) {
            mf_field_page *page = mf_field_new();
            mf_buf_add(&entries, file.data, file.len);
            mf_buf_printf(&asked, "%s\n%s\n", load_it,
                          mf_field_ask(page, load_it, file.data, file.len));
            assert_true(field_asked_write(folder, name, &entries, &asked));
            mf_field_free(page);
            taken++;
        }
        mf_bytes_free(&file);
        mf_buf_free(&entries);
        mf_buf_free(&asked);
        free(names[i]);
    }
    free(names);
    assert_true(taken > 5);
}

static void wasm_gives_the_same_replies(void **state)
{
    char command[400];
    (void)state;
    snprintf(command, sizeof command,
             "cd " MF_TESTS "/oracle && python3 -B -c 'import jobs, sys\nfor n in range(120): "
             "sys.stdout.write(jobs.job(4, n))' | $MF_BUILD/tests/oracle/answer -e '%s'",
             folder);
    run(command, 0, "");
    snprintf(command, sizeof command, "node " MF_TESTS "/field/same.mjs " WASM " '%s'", folder);
    run(command, 0, " 0 different");
}

static void a_changed_reply_is_told(void **state)
{
    char command[400];
    (void)state;
    snprintf(command, sizeof command, "node " MF_TESTS "/field/same.mjs " WASM " '%s' falsify",
             folder);
    run(command, 1, " 1 different");
}

static void too_much_stack_is_a_trap(void **state)
{
    (void)state;
    run("node " MF_TESTS "/field/stack.mjs " WASM, 0, "trapped");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(sha256_is_that_of_the_standard),
        cmocka_unit_test(sha256_is_that_of_the_library),
        cmocka_unit_test(cases_are_answered_as_by_core),
        cmocka_unit_test(hostile_files_are_put_to_both),
        cmocka_unit_test(wasm_gives_the_same_replies),
        cmocka_unit_test(a_changed_reply_is_told),
        cmocka_unit_test(too_much_stack_is_a_trap),
    };
    return cmocka_run_group_tests(tests, make_folder, remove_folder);
}
