/* Files of entries that no phone made: each is refused with the line or the entry, and the
 * book is what it was. All constructed. */
#include "entries_kit.h"

static void refused(kit *k, const char *text, size_t len, const char *where, const char *what)
{
    mf_entries_report report;
    int64_t before = kit_entries(k);
    mf_status status = take(k, text, len, &report);
    if (status != MF_INPUT || strstr(k->err.what, what) == NULL ||
        strstr(k->err.where, where) == NULL)
        print_error("%s: %d %s: %s\n", what, status, k->err.where, k->err.what);
    assert_int_equal(status, MF_INPUT);
    assert_non_null(strstr(k->err.what, what));
    assert_non_null(strstr(k->err.where, where));
    assert_true(k->err.mend[0] != '\0');
    assert_int_equal(report.merge.added, 0);
    assert_int_equal(kit_entries(k), before);
}

/* ---- the file itself ----------------------------------------------------------------------- */

/* A good file of two entries and bytes. */
static forged good(void)
{
    char sha256[MF_HASH_HEX], body[300];
    forged f = forge("J-1");
    assert_true(mf_digest_hex(PNG, sizeof(PNG) - 1, sha256));
    mf_entries_put_content(&f.text, sha256, PNG, sizeof(PNG) - 1);
    snprintf(body, sizeof body,
             "{\"media\":\"png\",\"name\":\"a.png\",\"sha256\":\"%s\",\"size\":%zu}", sha256,
             sizeof(PNG) - 1);
    forge_add(&f, "attachment", body);
    forge_add(&f, "opening",
              "{\"elevation\":\"north\",\"id\":\"W02\",\"kind\":\"window\",\"room\":\"hall\"}");
    forge_end(&f);
    return f;
}

static void the_good_one_is_taken(void **state)
{
    kit *k = *state;
    mf_entries_report report;
    forged f = good();
    assert_int_equal(take(k, f.text.data, f.text.len, &report), MF_OK);
    assert_int_equal(report.merge.added, 2);
    check_good(k, 12);
    forge_free(&f);
}

/* Each letter of it changed: never does anything else come in than what is in the good one. */
static void any_letter_changed(void **state)
{
    kit *k = *state;
    forged f = good();
    for (size_t i = 0; i < f.text.len; i++) {
        mf_entries_report report;
        char was = f.text.data[i];
        f.text.data[i] = was == '0' ? '1' : '0';
        bool first = i < (size_t)(strchr(f.text.data, '\n') - f.text.data);
        if (!first) {
            mf_status status = take(k, f.text.data, f.text.len, &report);
            bool cut_end = i + 1 == f.text.len; /* the last line end: cut off, and taken */
            assert_int_equal(status, cut_end ? MF_OK : MF_INPUT);
            assert_int_equal(report.merge.added, cut_end ? 2 : 0);
        }
        f.text.data[i] = was;
    }
    check_good(k, 12);
    forge_free(&f);
}

static void replace(mf_buf *text, const char *from, const char *to)
{
    mf_buf out = {0};
    char *at = strstr(text->data, from);
    assert_non_null(at);
    mf_buf_add(&out, text->data, (size_t)(at - text->data));
    mf_buf_text(&out, to);
    mf_buf_text(&out, at + strlen(from));
    mf_buf_free(text);
    *text = out;
}

static void lines_that_do_not_belong(void **state)
{
    kit *k = *state;
    static const struct {
        const char *from, *to, *where, *what;
    } rows[] = {
        {"{\"at\"", "{\"it\"", "a.entries", "it is not a file of entries"},
        {"\"entries\":1", "\"entries\":2", "a.entries", "it is a file of entries in form 2"},
        {"\"job\":\"J-1\"}\n", "\"job\":\"J-9\"}\n", "a.entries", "there is no job J-9"},
        {"\"job\":\"J-1\"}\n", "\"job\":\"\"}\n", "a.entries", "there is no job"},
        {"W02", "W03", "a.entries:4", "its text does not give its hash"},
        {"{\"hash\"", " {\"hash\"", "a.entries:3", "nothing that a file of entries has"},
        {"{\"hash\":\"", "{\"hash\":\"Z", "a.entries:3", "not an entry and its hash"},
        {"\"base64\":\"", "\"base64\":\"AAAA", "a.entries:2", "do not give its SHA-256"},
        {"{\"attachment\":\"", "{\"attachment\":\"0", "a.entries:2", "not an attachment and its"},
        {"\"seq\":2}]", "\"seq\":3}]", "a.entries:5", "does not name the last entries"},
        {"\"seq\":2}]}\n", "\"seq\":2}]}\n\n", "a.entries:5", "something stands behind"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        forged f = good();
        replace(&f.text, rows[i].from, rows[i].to);
        refused(k, f.text.data, f.text.len, rows[i].where, rows[i].what);
        forge_free(&f);
    }
    refused(k, "", 0, "a.entries", "it is not a file of entries");
    refused(k, "\0\n", 2, "a.entries", "it is not a file of entries");
}

static void lines_in_another_order(void **state)
{
    kit *k = *state;
    forged f = good();
    char *third = strstr(f.text.data, "{\"hash\""), *fourth = strchr(third, '\n') + 1;
    mf_buf out = {0};
    mf_buf_add(&out, f.text.data, (size_t)(third - f.text.data));
    mf_buf_text(&out, fourth); /* without the first entry */
    refused(k, out.data, out.len, "a.entries", "phone/2 does not follow the last one");
    mf_buf_clear(&out);
    mf_buf_add(&out, f.text.data, (size_t)(third - f.text.data));
    mf_buf_add(&out, third, (size_t)(fourth - third));
    mf_buf_text(&out, third); /* with it twice */
    refused(k, out.data, out.len, "a.entries:4", "do not stand in their order");
    mf_buf_free(&out);
    forge_free(&f);
}

static void bytes_that_nobody_names(void **state)
{
    kit *k = *state;
    char sha256[MF_HASH_HEX];
    mf_entries_report report;
    forged f = forge("J-1");
    assert_true(mf_digest_hex("more", 4, sha256));
    mf_entries_put_content(&f.text, sha256, "more", 4);
    assert_int_equal(take(k, f.text.data, f.text.len, &report), MF_OK); /* theirs was cut off */
    assert_int_equal(report.merge.contents, 0);
    forge_end(&f);
    refused(k, f.text.data, f.text.len, "a.entries", "no entry of the journal names it");
    forge_free(&f);
}

static void bytes_that_are_not_there(void **state)
{
    kit *k = *state;
    forged f = good();
    char *bytes = strstr(f.text.data, "{\"attachment\""), *behind = strchr(bytes, '\n') + 1;
    memmove(bytes, behind, strlen(behind) + 1);
    refused(k, f.text.data, strlen(f.text.data), "a.entries",
            "entry phone/1: the bytes of its attachment are missing");
    forge_free(&f);
}

/* ---- what its entries say ------------------------------------------------------------------- */

typedef struct bad {
    const char *kind, *body, *what;
    const char *device, *at, *who, *job; /* NULL = the usual ones */
} bad;

#define OPENING "{\"elevation\":\"north\",\"id\":\"W02\",\"kind\":\"window\",\"room\":\"hall\"}"
static const bad bads[] = {
    {.kind = "opening",
     .body = OPENING,
     .what = "it is of the job J-2, and the file is of J-1",
     .job = "J-2"},
    {.kind = "person",
     .body = "{\"id\":\"eve\",\"name\":\"Eve\"}",
     .what = "it is the firm's, not the job's",
     .job = ""},
    {.kind = "opening",
     .body = OPENING,
     .what = "made by eve, who is not a person of the book",
     .who = "eve"},
    {.kind = "opening",
     .body = OPENING,
     .what = "at a time that is still to come",
     .at = "2026-09-17T00:00:00Z"},
    {.kind = "opening",
     .body = OPENING,
     .what = "its time is no UTC time",
     .at = "2026-09-15 14:00"},
    {.kind = "opening",
     .body = OPENING,
     .what = "its device has no name that a device can have",
     .device = "Phone!"},
    {.kind = "opening",
     .body = OPENING,
     .what = "under the name of this very device",
     .device = "office2"},
    {.kind = "sealed",
     .body = "{\"day\":\"2026-09-15\",\"fingerprint\":\"00\",\"head\":\"00\",\"paper\":\"record\","
             "\"person\":\"rosa\",\"sha256\":\"00\"}",
     .what = "it says that a paper was sealed"},
    {.kind = "flying",
     .body = "{\"id\":\"W02\"}",
     .what = "it is of a kind that is not known here"},
    {.kind = "opening",
     .body = "{\"elevation\":\"north\",\"id\":\"W02\",\"kind\":\"gate\",\"room\":\"hall\"}",
     .what = ""},
    {.kind = "opening",
     .body = "{\"elevation\":\"north\",\"id\":\"W 2\",\"kind\":\"window\",\"room\":\"hall\"}",
     .what = ""},
    {.kind = "opening",
     .body = "{\"elevation\":\"north\",\"id\":7,\"kind\":\"window\",\"room\":\"hall\"}",
     .what = ""},
    {.kind = "opening",
     .body = "{\"elevation\":\"north\",\"id\":\"W02\",\"kind\":\"window\",\"room\":\"\"}",
     .what = ""},
    {.kind = "opening",
     .body =
         "{\"elevation\":\"north\",\"id\":\"W02\",\"kind\":\"window\",\"room\":\"a\\u001b[2J\"}",
     .what = "there is a sign in its text that nobody can type"},
    {.kind = "opening",
     .body =
         "{\"colour\":\"red\",\"elevation\":\"north\",\"id\":\"W02\",\"kind\":\"window\",\"room\":"
         "\"x\"}",
     .what = "it has a field that is not known here"},
    {.kind = "opening", .body = "{\"id\":\"W02\"}", .what = "it is needed and was not given"},
    {.kind = "component",
     .body =
         "{\"id\":\"W09.sash\",\"opening\":\"W09\",\"side\":\"interior\",\"substrate\":\"wood\","
         "\"type\":\"sash\"}",
     .what = "there is no opening W09 in this job"},
    {.kind = "completion", .body = "{\"day\":\"2026-09-16\"}", .what = ""},
    {.kind = "completion", .body = "{\"day\":\"2026-02-30\"}", .what = ""},
    {.kind = "completion", .body = "{\"day\":null}", .what = ""},
    {.kind = "assignment",
     .body = "{\"day\":\"2026-09-15\",\"duty\":\"renovator\",\"person\":\"eve\"}",
     .what = "there is no person eve in the book"},
    {.kind = "house",
     .body = "{\"address\":\"A\",\"building\":\"dwelling\",\"description\":\"d\",\"end\":\"2026-09-"
             "01\","
             "\"id\":\"J-1\",\"owner_occupied\":true,\"start\":\"2026-09-21\",\"work\":\"repair\"}",
     .what = "lies before 2026-09-21"},
    {.kind = "correction",
     .body = "{\"kind\":\"opening\",\"reason\":\"r\",\"replaces\":\"office/"
             "99\",\"target\":\"office/99\"}",
     .what = "it corrects an entry that is not there"},
    {.kind = "correction",
     .body = "{\"kind\":\"reading\",\"reason\":\"r\",\"replaces\":\"office/5\",\"target\":\"office/"
             "5\"}",
     .what = "it corrects an entry that is not there"},
    {.kind = "correction",
     .body =
         "{\"kind\":\"person\",\"reason\":\"r\",\"replaces\":\"office/1\",\"target\":\"office/1\"}",
     .what = "it corrects an entry that is not there"},
    {.kind = "correction",
     .body = "{\"kind\":\"opening\",\"reason\":\"r\",\"replaces\":\"office/6\",\"target\":\"office/"
             "5\"}",
     .what = "it corrects an entry that is not there"},
    {.kind = "correction",
     .body = "{\"kind\":\"opening\",\"reason\":\" "
             "\",\"replaces\":\"office/5\",\"target\":\"office/5\"}",
     .what = "it is not a correction that this program writes"},
    {.kind = "correction",
     .body =
         "{\"body\":{\"address\":\"A\",\"building\":\"dwelling\",\"description\":\"d\",\"id\":\"J-"
         "3\","
         "\"owner_occupied\":true,\"start\":\"2026-09-21\",\"work\":\"repair\"},\"kind\":\"house\","
         "\"reason\":\"r\",\"replaces\":\"office/4\",\"target\":\"office/4\"}",
     .what = "it changes what cannot be changed"},
};

static void what_could_not_be_typed(void **state)
{
    kit *k = *state;
    for (size_t i = 0; i < sizeof bads / sizeof bads[0]; i++) {
        const bad *b = &bads[i];
        forged f = forge("J-1");
        bool own = b->device != NULL && strcmp(b->device, "office2") == 0;
        f.device = own ? "office" : b->device == NULL ? f.device : b->device;
        f.seq = own ? 10 : 0;
        f.at = b->at == NULL ? f.at : b->at;
        f.who = b->who == NULL ? f.who : b->who;
        f.job = b->job == NULL ? f.job : b->job;
        forge_add(&f, b->kind, b->body);
        forge_end(&f);
        refused(k, f.text.data, f.text.len, "a.entries", b->what);
        forge_free(&f);
    }
}

/* kind.h: a text has 4000 bytes. */
static void a_text_that_is_too_long(void **state)
{
    kit *k = *state;
    char body[5000], room[4002];
    memset(room, 'a', sizeof room - 1);
    room[sizeof room - 1] = '\0';
    forged f = forge("J-1");
    snprintf(body, sizeof body,
             "{\"elevation\":\"north\",\"id\":\"W02\",\"kind\":\"window\",\"room\":\"%s\"}", room);
    forge_add(&f, "opening", body);
    forge_end(&f);
    refused(k, f.text.data, f.text.len, "a.entries", "the text is too long");
    forge_free(&f);
}

/* A picture that is none, of another length, of another kind. */
static void attachments_that_lie(void **state)
{
    kit *k = *state;
    static const struct {
        const char *bytes;
        size_t len, said;
        const char *media;
    } rows[] = {{"<html>", 6, 6, "png"},
                {PNG, sizeof(PNG) - 1, 7, "png"},
                {PNG, sizeof(PNG) - 1, sizeof(PNG) - 1, "pdf"},
                {PNG, 20, 20, "png"}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        char sha256[MF_HASH_HEX], body[300];
        forged f = forge("J-1");
        assert_true(mf_digest_hex(rows[i].bytes, rows[i].len, sha256));
        mf_entries_put_content(&f.text, sha256, rows[i].bytes, rows[i].len);
        snprintf(body, sizeof body,
                 "{\"media\":\"%s\",\"name\":\"a\",\"sha256\":\"%s\",\"size\":%zu}", rows[i].media,
                 sha256, rows[i].said);
        forge_add(&f, "attachment", body);
        forge_end(&f);
        refused(k, f.text.data, f.text.len, "a.entries, entry phone/1", "its bytes are not the");
        forge_free(&f);
    }
}

/* ---- two histories --------------------------------------------------------------------------- */

/* A phone that was set up anew under its old name, or put back: both heads are named. */
static void a_fork(void **state)
{
    kit *k = *state;
    mf_entries_report report;
    forged f = good(), other = forge("J-1");
    assert_int_equal(take(k, f.text.data, f.text.len, &report), MF_OK);
    forge_add(&other, "opening", OPENING);
    forge_end(&other);
    refused(k, other.text.data, other.text.len, "a.entries",
            "entry phone/1 says something else in the two books: here it goes on to phone/2 (");
    assert_non_null(strstr(k->err.what, "there to phone/1 ("));
    forge_free(&f);
    forge_free(&other);
}

#define T(name) cmocka_unit_test_setup_teardown(name, start, kit_done)
int main(void)
{
    const struct CMUnitTest tests[] = {
        T(the_good_one_is_taken),    T(any_letter_changed),
        T(lines_that_do_not_belong), T(lines_in_another_order),
        T(bytes_that_nobody_names),  T(bytes_that_are_not_there),
        T(what_could_not_be_typed),  T(a_text_that_is_too_long),
        T(attachments_that_lie),     T(a_fork),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
