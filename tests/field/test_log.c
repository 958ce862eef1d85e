/* What the door of the field page takes in and hands out: drafts refused as in the book, a chain
 * of its own, corrections, pictures, the file that goes back and the receipt. */
#include "base/base64.h"
#include "field/field.h"
#include "support/case_job.h"
#include "support/cmocka_all.h"
#include "support/job_entries.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* A PNG of one dot, made by hand by the published format. */
static const char dot[] =
    "iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5E"
    "rkJggg==";

static case_job made;
static mf_field_page *page;
static int minute; /* of the clock of the phone, from 08:00 on */

static const char *ask_with(const char *what, const char *more, const void *bytes, size_t len)
{
    char request[2000];
    snprintf(request, sizeof request,
             "{\"do\":\"%s\",\"who\":\"rosa\",\"today\":\"2026-09-14\",\"time\":\"%02d:%02d\","
             "\"at\":\"2026-09-14T%02d:%02d:00Z\"%s}",
             what, 8 + minute / 60, minute % 60, 8 + minute / 60, minute % 60, more);
    return mf_field_ask(page, request, bytes, len);
}

static const char *ask(const char *what, const char *more)
{
    return ask_with(what, more, "", 0);
}

static void says(const char *reply, const char *words)
{
    if (strstr(reply, words) == NULL)
        fail_msg("wanted %s in %s", words, reply);
}

static void refused(const char *reply, const char *words)
{
    says(reply, "\"error\"");
    says(reply, words);
}

static void load(void)
{
    mf_buf entries = {0};
    page = mf_field_new();
    assert_non_null(page);
    assert_true(job_entries(&entries, &made.job, "J-1"));
    says(ask_with("load", "", entries.data, entries.len), "\"entries\"");
    says(ask("device", ",\"device\":\"f-0123456789\""), "f-0123456789");
    mf_buf_free(&entries);
}

static int begin(void **state)
{
    (void)state;
    minute = 0;
    assert_true(case_base(&made, "before"));
    load();
    return 0;
}

static int end(void **state)
{
    (void)state;
    mf_field_free(page);
    case_free(&made);
    return 0;
}

#define TICK(step, more)                                                                           \
    ",\"kind\":\"tick\",\"fields\":{\"area\":\"A1\",\"step\":\"" step                              \
    "\",\"state\":\"done\",\"person\":\"rosa\",\"renovator\":\"rosa\",\"on\":\"2026-09-14\"," more \
    "\"time\":\"08:00\"}"

/* ---- how an area stands ---------------------------------------------------------------- */

/* As the question of the signs finds it: 745.85(b), 745.90(b)(1) have a certified renovator do it
 * in person. */
static void the_wrong_hands_show_nothing(void **state)
{
    static const char *const by[] = {"rosa", "lee"};
    (void)state;
    for (size_t i = 0; i < 2; i++) {
        end(NULL);
        assert_true(case_base(&made, "dwelling"));
        char text[80];
        case_line line;
        snprintf(text, sizeof text, "change verification A2 --person %s", by[i]);
        case_split(&line, text);
        assert_true(case_apply(&made, &line));
        load();
        const char *reply = mf_field_ask(
            page, "{\"do\":\"verify\",\"area\":\"A2\",\"today\":\"2026-10-01\",\"time\":\"08:00\"}",
            "", 0);
        says(reply, i == 0 ? "\"verified\":true" : "\"verified\":false");
        says(reply, i == 0 ? "\"why\":\"\"" : "lee");
    }
}

/* The state of a step in a reply, where members stand by their letters: "state" before "step". */
static bool is_state(const char *reply, const char *step, const char *state)
{
    char name[60], member[60];
    const char *found = NULL;
    snprintf(name, sizeof name, "\"step\":\"%s\"", step);
    snprintf(member, sizeof member, "\"state\":\"%s\"", state);
    const char *end = strstr(reply, name);
    assert_non_null(end);
    for (const char *at = reply; (at = strstr(at, "\"state\":")) != NULL && at < end; at++)
        found = at;
    return found != NULL && strncmp(found, member, strlen(member)) == 0;
}

static const char *asked_on(const char *day, const char *what)
{
    char request[160];
    snprintf(request, sizeof request,
             "{\"do\":%s,\"area\":\"A1\",\"today\":\"%s\",\"time\":\"08:00\"}", what, day);
    return mf_field_ask(page, request, "", 0);
}

/* 745.85(a)(2), (a)(4)(ii): barriers and waste are looked at on each day of work, as the walk at
 * the terminal asks; what is set up once stays settled. */
static void each_day_of_work_asks_again(void **state)
{
    (void)state;
    end(NULL);
    assert_true(case_base(&made, "contained"));
    load();
    says(ask("add", TICK("barriers-whole", "")), "\"line\"");
    says(asked_on("2026-09-14", "\"gate\",\"gate\":\"demo\""), "\"answer\":\"yes\"");
    assert_true(is_state(asked_on("2026-09-14", "\"steps\""), "barriers-whole", "done"));
    says(asked_on("2026-09-15", "\"gate\",\"gate\":\"demo\""), "\"answer\":\"yes\"");
    assert_true(is_state(asked_on("2026-09-15", "\"steps\""), "barriers-whole", "open"));
    assert_true(is_state(asked_on("2026-09-15", "\"steps\""), "signs", "done"));
}

/* ---- what is refused ------------------------------------------------------------------- */

static void drafts_are_checked(void **state)
{
    (void)state;
    refused(ask("add", TICK("no-such-step", "")), "there is no step no-such-step");
    refused(ask("add", TICK("signs", "\"measured\":\"1,5\",")), "1,5");
    refused(ask("add", ",\"kind\":\"tick\",\"fields\":{\"area\":\"A1\"}"), "it is needed");
    refused(ask("add",
                ",\"kind\":\"tick\",\"fields\":{\"area\":\"A9\",\"step\":\"signs\",\"state\":"
                "\"done\",\"person\":\"rosa\",\"on\":\"2026-09-14\"}"),
            "A9");
    refused(ask("add", TICK("signs", "\"nonsense\":\"1\",")), "has no field nonsense");
    refused(ask("add", ",\"kind\":\"house\",\"fields\":{\"id\":\"J-2\"}"), "is not made here");
    refused(ask("add", ",\"kind\":\"certificate\",\"fields\":{}"), "is not made here");
    says(ask("job", ""), "\"added\":0");
}

static void a_day_to_come_is_refused(void **state)
{
    (void)state;
    refused(ask("add",
                ",\"kind\":\"tick\",\"fields\":{\"area\":\"A1\",\"step\":\"signs\",\"state\":"
                "\"done\",\"person\":\"rosa\",\"on\":\"2026-09-15\"}"),
            "2026-09-15");
}

/* An entry is of one day. */
static void work_past_midnight_is_two_entries(void **state)
{
    static const char night[] =
        ",\"lang\":\"%s\",\"kind\":\"practice\",\"fields\":{\"area\":\"A1\",\"method\":\"hand\","
        "\"person\":\"rosa\",\"on\":\"2026-09-14\",\"began\":\"07:50\",\"time\":\"07:49\"}";
    char more[400];
    (void)state;
    snprintf(more, sizeof more, night, "en");
    refused(ask("add", more), "log work past midnight as two entries, one for each day");
    snprintf(more, sizeof more, night, "es");
    refused(ask("add", more), "como dos asientos, uno por d\u00eda");
}

static void a_step_is_left_out_on_its_grounds_alone(void **state)
{
    (void)state;
    refused(ask("add",
                ",\"kind\":\"tick\",\"fields\":{\"area\":\"A1\",\"step\":\"signs\",\"state\":"
                "\"not-needed\",\"ground\":\"none-present\",\"person\":\"rosa\",\"on\":"
                "\"2026-09-14\"}"),
            "never left out");
    refused(ask("add", ",\"kind\":\"tick\",\"fields\":{\"area\":\"A1\",\"step\":\"windows-closed\","
                       "\"state\":\"not-needed\",\"ground\":\"none-present\",\"person\":\"rosa\","
                       "\"on\":\"2026-09-14\"}"),
            "W01");
}

/* Every way in which core refuses a step that is said not to be needed. Constructed. */
static void a_step_that_is_not_left_out_is_told_in_spanish(void **state)
{
    (void)state;
    static const char *const rows[][3] = {
        {"signs", "\"ground\":\"none-present\"", "Este paso nunca se deja de hacer"},
        {"floor-sheet", "\"ground\":\"one-story\"",
         "Este paso no se deja de hacer por este motivo"},
        {"floor-sheet", "\"ground\":\"impossible\"", "Ninguna palabra dice por qu\u00e9"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        char more[400];
        snprintf(more, sizeof more,
                 ",\"lang\":\"es\",\"kind\":\"tick\",\"fields\":{\"area\":\"A1\",\"step\":\"%s\","
                 "\"state\":\"not-needed\",%s,\"person\":\"rosa\",\"on\":\"2026-09-14\"}",
                 rows[i][0], rows[i][1]);
        refused(ask("add", more), rows[i][2]);
    }
}

static void cloths_keep_their_order(void **state)
{
    (void)state;
    refused(ask("add", ",\"kind\":\"verification\",\"fields\":{\"area\":\"A1\",\"surface\":"
                       "\"W01-sill\",\"event\":\"dry-wipe\",\"cloth\":\"new\",\"person\":\"rosa\","
                       "\"on\":\"2026-09-14\",\"time\":\"08:00\"}"),
            "40 CFR 745.85(b)");
    says(ask("job", ""), "\"added\":0");
}

static void what_is_dry_is_not_kept(void **state)
{
    (void)state;
    assert_null(strstr(ask("add", ",\"dry\":true" TICK("signs", "")), "\"line\""));
    says(ask("job", ""), "\"added\":0");
}

static void the_clock_goes_forward(void **state)
{
    (void)state;
    minute = 30;
    says(ask("add", TICK("signs", "")), "\"entry\":\"f-0123456789/1\"");
    minute = 29;
    refused(ask("add", TICK("isolate", "")), "the clock of this phone is behind its last entry");
    minute = 30;
    says(ask("add", TICK("isolate", "")), "\"entry\":\"f-0123456789/2\"");
}

static void names_are_of_one_install(void **state)
{
    (void)state;
    refused(ask("device", ",\"device\":\"case\""), "cannot be this install's");
    refused(ask("device", ",\"device\":\"Upper\""), "cannot be this install's");
    refused(ask("device", ",\"device\":\"\""), "cannot be this install's");
    says(ask("add", TICK("signs", "")), "\"line\"");
    refused(ask("device", ",\"device\":\"f-another\""), "cannot be this install's");
}

/* ---- what is kept, and taken in again ------------------------------------------------------ */

/* The value of a member of a reply, its JSON escapes for quotes taken off. */
static void member(const char *reply, const char *name, char *out, size_t size)
{
    char key[40];
    size_t n = 0;
    snprintf(key, sizeof key, "\"%s\":\"", name);
    const char *at = strstr(reply, key);
    assert_non_null(at);
    for (at += strlen(key); *at != '"' && n + 1 < size; at++) {
        if (*at == '\\' && *++at == 'n')
            out[n++] = '\n';
        else
            out[n++] = *at;
    }
    out[n] = '\0';
}

static void entries_are_there_again(void **state)
{
    char line[2][4000], lines[8000], head[80], again[80];
    (void)state;
    const char *const steps[] = {TICK("signs", ""), TICK("isolate", "")};
    for (size_t i = 0; i < 2; i++)
        member(ask("add", steps[i]), "line", line[i], sizeof line[i]);
    snprintf(lines, sizeof lines, "%s%s", line[0], line[1]);
    member(ask("job", ""), "head", head, sizeof head);
    mf_field_free(page);
    load();
    says(ask_with("again", "", lines, strlen(lines)), "\"added\":2");
    member(ask("job", ""), "head", again, sizeof again);
    assert_string_equal(head, again);
    mf_field_free(page);
    load();
    refused(ask_with("again", "", lines, strlen(lines) - 3), "is not whole");
    mf_field_free(page);
    load();
    lines[strlen(lines) / 2] ^= 1;
    refused(ask_with("again", "", lines, strlen(lines)), "this phone:");
}

static void corrections_say_why(void **state)
{
    (void)state;
    says(ask("add", TICK("floor-sheet", "\"measured\":\"5.5\",")), "/1");
    refused(ask("correct", ",\"entry\":\"f-0123456789/1\",\"fields\":{\"measured\":\"6.5\"}"),
            "the reason is missing");
    refused(ask("correct", ",\"entry\":\"f-0123456789/9\",\"reason\":\"x\""),
            "there is no such entry");
    refused(ask("correct", ",\"entry\":\"case/1\",\"reason\":\"x\""), "corrected in the office");
    refused(ask("correct",
                ",\"entry\":\"f-0123456789/1\",\"reason\":\"x\",\"fields\":{\"measured\":"
                "\"5.5\"}"),
            "changes nothing");
    says(ask("correct", ",\"entry\":\"f-0123456789/1\",\"reason\":\"read the tape again\","
                        "\"fields\":{\"measured\":\"6.5\"}"),
         "/2");
    says(ask("entries", ""), "\"corrected\":\"f-0123456789/2\"");
    says(ask("correct", ",\"entry\":\"f-0123456789/1\",\"reason\":\"another room\""), "/3");
    says(ask("entries", ""), "\"withdrawn\":true");
    refused(ask("correct", ",\"entry\":\"f-0123456789/1\",\"reason\":\"again\""),
            "it was withdrawn");
}

static void a_drawn_hand_names_what_it_stood_under(void **state)
{
    mf_bytes png = {0};
    char head[80], sha256[80];
    size_t len;
    (void)state;
    assert_true(mf_base64_get(&png, dot));
    member(ask("job", ""), "head", head, sizeof head);
    member(ask_with("attach", ",\"sign\":true,\"name\":\"Ida Sample\"", png.data, png.len),
           "sha256", sha256, sizeof sha256);
    says(mf_field_file(page, &len), sha256);
    says(ask("entries", ""), head);
    says(ask("entries", ""), "a picture and not a seal");
    refused(ask_with("attach", ",\"name\":\"x\"", "no picture", 10), "not a whole picture");
    refused(ask_with("attach", ",\"name\":\"x\"", png.data, png.len - 4), "not a whole picture");
    ask("send", "");
    const char *file = mf_field_file(page, &len);
    const char *bytes = strstr(file, "{\"attachment\""), *entry = strstr(file, "{\"hash\"");
    assert_true(bytes != NULL && entry != NULL && bytes < entry);
    says(file, "{\"heads\":[{\"device\":\"f-0123456789\"");
    mf_bytes_free(&png);
}

static void a_receipt_names_an_entry_of_its_own(void **state)
{
    char line[4000], hash[80], text[300];
    (void)state;
    member(ask("add", TICK("signs", "")), "line", line, sizeof line);
    member(line, "hash", hash, sizeof hash);
    says(ask("job", ""), "\"unsent\":1");
    snprintf(text, sizeof text, ",\"text\":\"f-0123456789 1 %064d\"", 0);
    refused(ask("receipt", text), "does not name an entry of this phone");
    refused(ask("receipt", ",\"text\":\"\""), "does not name an entry of this phone");
    snprintf(text, sizeof text, ",\"text\":\"head x\\noffice 7 %064d\\nf-0123456789 1 %s\\n\"", 0,
             hash);
    says(ask("receipt", text), "\"unsent\":0");
}

static void odd_requests_are_refused(void **state)
{
    (void)state;
    static const char *const odd[] = {
        "",
        "{",
        "[]",
        "{\"do\":1}",
        "{\"do\":\"gate\"}",
        "{\"do\":\"nothing\",\"today\":\"2026-09-14\",\"time\":\"08:00\"}"};
    for (size_t i = 0; i < sizeof odd / sizeof odd[0]; i++)
        says(mf_field_ask(page, odd[i], NULL, 0), "\"error\"");
    refused(ask("gate", ",\"gate\":\"party\""), "no such question");
    refused(ask("steps", ",\"area\":\"A77\""), "no work area A77");
    refused(ask_with("load", "", "hello\n", 6), "not a file of entries");
    refused(ask("gate", ",\"gate\":\"demo\""), "no job is loaded");
}

#define DOOR_TEST(name) cmocka_unit_test_setup_teardown(name, begin, end)

int main(void)
{
    const struct CMUnitTest tests[] = {
        DOOR_TEST(the_wrong_hands_show_nothing),
        DOOR_TEST(each_day_of_work_asks_again),
        DOOR_TEST(drafts_are_checked),
        DOOR_TEST(a_day_to_come_is_refused),
        DOOR_TEST(work_past_midnight_is_two_entries),
        DOOR_TEST(a_step_is_left_out_on_its_grounds_alone),
        DOOR_TEST(a_step_that_is_not_left_out_is_told_in_spanish),
        DOOR_TEST(cloths_keep_their_order),
        DOOR_TEST(what_is_dry_is_not_kept),
        DOOR_TEST(the_clock_goes_forward),
        DOOR_TEST(names_are_of_one_install),
        DOOR_TEST(entries_are_there_again),
        DOOR_TEST(corrections_say_why),
        DOOR_TEST(a_drawn_hand_names_what_it_stood_under),
        DOOR_TEST(a_receipt_names_an_entry_of_its_own),
        DOOR_TEST(odd_requests_are_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
