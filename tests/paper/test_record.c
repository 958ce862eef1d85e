/* The job record as other programs read it: pdftotext, pdffonts and pdfinfo of
 * poppler, qpdf. The job is constructed (support/paper_jobs.c). */
#include "support/cmocka_all.h"
#include "support/paper_kit.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* The text in the order it is drawn, so in the order it is read aloud. */
static char *drawn_text(const paper_world *w, const char *pdf)
{
    char command[128];
    snprintf(command, sizeof command, "pdftotext -raw %s text 2>warnings", pdf);
    paper_shell(w->folder, command);
    char *warnings = paper_slurp(w->folder, "warnings");
    assert_string_equal(warnings, "");
    free(warnings);
    return paper_slurp(w->folder, "text");
}

/* In the order a reader needs it, from the question to the signatures. */
static const char *const order[] = {
    "Job record",
    "J-1926",
    "14 Example Lane, Exampleton",
    "1 Is this house and this work under the rule?",
    "2 May demo start?",
    "NO",
    "3 May the signs come down?",
    "4 Would this file stand up to an inspection?",
    "Cautions",
    "1 House and people",
    "Invented Sash and Door",
    "INV-F-0042",
    "Rosa Peña Ñíguez",
    "Trần Văn Ấn",
    "Søren Mẫu",
    "2 Information before the work",
    "Núria Øster",
    "3 Opening schedule",
    "W01",
    "LEAD",
    "4 What the evidence says of the paint",
    "5 Tests",
    "INV-XRF-1",
    "corrected by",
    ">9.90",
    "6 Readings against the action level",
    "7 Work areas: signs and containment",
    "A1, interior, dining room",
    "A2, exterior, north",
    "heat gun, 1100 °F",
    "prohibited",
    "8 Cleaning",
    "9 Cleaning verification",
    "10 Dust samples",
    "4.9 µg/sq ft",
    "11 Every requirement with its evidence",
    "12 Limits used",
    "from a text",
    "13 Corrections",
    "0.99 mg/cm²",
    "9.9 mg/cm²",
    "one digit was left out",
    "14 Handover and retention",
    "2029-09-18",
    "15 What the journal proves",
    "0123456789abcdef0123456789abcdef0123456789abcdef0123456789abcdef",
    "16 Statement of the certified renovator",
    "17 Seal and signatures",
    "0011 2233 4455 6677"};

static void reads_in_order(void **state)
{
    paper_world *w = *state;
    char *text = drawn_text(w, "record.pdf");
    const char *at = text;
    for (size_t i = 0; i < sizeof order / sizeof order[0]; i++) {
        const char *found = strstr(at, order[i]);
        if (found == NULL) {
            fail_msg("\"%s\" does not come after what was read before it", order[i]);
            break;
        }
        at = found + strlen(order[i]);
    }
    free(text);
}

static void says_it_in_spanish(void **state)
{
    static const char *const parts[] = {"Registro del trabajo", "¿Se puede empezar la demolición?",
                                        "Qué dicen las pruebas", "repisa interior",
                                        "Declaración del renovador certificado"};
    paper_world *w = *state;
    char *text = drawn_text(w, "registro.pdf");
    for (size_t i = 0; i < sizeof parts / sizeof parts[0]; i++)
        assert_non_null(strstr(text, parts[i]));
    assert_non_null(strstr(text, "página 1 de "));
    assert_null(strstr(text, "page 1 of"));
    free(text);
}

static int pages_of(const paper_world *w, const char *pdf)
{
    char command[128];
    snprintf(command, sizeof command, "pdfinfo %s | sed -n 's/^Pages: *//p'", pdf);
    return (int)strtol(paper_shell(w->folder, command), NULL, 10);
}

/* Two parts of D01 that were logged as not affected: the casing comes off all the same, of
 * which the whole surface counts (745.83, minor repair). */
static void lists_what_is_removed(void **state)
{
    const paper_world *w = *state;
    paper_job made;
    paper_job_small(&made);
    for (size_t i = 0; i < made.job.n_component; i++) {
        mf_component *part = (mf_component *)(size_t)&made.job.component[i];
        bool casing = strcmp(part->id, "D01.casing") == 0;
        if (!casing && strcmp(part->id, "D01.slab") != 0)
            continue;
        part->affected = MF_NOT;
        part->removed = casing ? MF_YES : MF_UNKNOWN;
        part->disturbed_sqft_100 = 50;
        part->whole_sqft_100 = 1234;
    }
    mf_paper_ask ask = paper_ask(&made.job);
    paper_record_to(w->folder, "removed.pdf", &ask);
    char *text = drawn_text(w, "removed.pdf");
    char *paint = strstr(text, "\nA component is free of lead-based paint only when");
    if (paint == NULL) {
        fail_msg("no section on the paint");
        return;
    }
    char *end = strstr(paint, "Tests");
    assert_non_null(end);
    *end = '\0';
    assert_non_null(strstr(paint, "D01.casing"));
    assert_non_null(strstr(paint, "12.34"));
    assert_null(strstr(paint, "D01.slab"));
    free(text);
    paper_job_free(&made);
}

/* An opening of which no part is listed is not told as left as it is. */
static void presumes_what_is_not_listed(void **state)
{
    const paper_world *w = *state;
    paper_job made;
    paper_job_small(&made);
    for (size_t i = 0; i < made.job.n_component; i++) {
        mf_component *part = (mf_component *)(size_t)&made.job.component[i];
        if (strcmp(part->opening, "D01") == 0)
            part->opening = "W01";
    }
    mf_paper_ask ask = paper_ask(&made.job);
    paper_record_to(w->folder, "unlisted.pdf", &ask);
    char *text = drawn_text(w, "unlisted.pdf");
    assert_non_null(strstr(text, "no part is listed: presumed"));
    assert_null(strstr(text, "Nothing painted is disturbed at"));
    free(text);
    paper_job_free(&made);
}

static void numbers_its_pages(void **state)
{
    paper_world *w = *state;
    int n = pages_of(w, "record.pdf");
    assert_true(n > 2);
    for (int i = 1; i <= n; i++) {
        char command[128];
        char want[64];
        snprintf(command, sizeof command, "pdftotext -f %d -l %d record.pdf -", i, i);
        snprintf(want, sizeof want, "page %d of %d\n", i, n);
        const char *text = paper_shell(w->folder, command);
        assert_non_null(strstr(text, want));
        assert_non_null(strstr(text, "Job J-1926"));
        assert_non_null(strstr(text, "journal head 0123456789abcdef "));
        assert_non_null(strstr(text, "certifies nothing"));
    }
}

/* pdffonts: name, type (two words), encoding, emb, sub, uni, object. */
static void embeds_its_fonts(void **state)
{
    paper_world *w = *state;
    assert_string_equal(paper_shell(w->folder, "pdffonts record.pdf | tail -n +3 | wc -l"), "3\n");
    assert_string_equal(
        paper_shell(w->folder, "pdffonts record.pdf | tail -n +3 | grep -c 'yes yes yes'"), "3\n");
    assert_string_equal(
        paper_shell(w->folder, "pdffonts record.pdf | tail -n +3 | grep -vc Liberation || true"),
        "0\n");
}

static void is_sound(void **state)
{
    paper_world *w = *state;
    const char *said = paper_shell(w->folder, "qpdf --check record.pdf 2>&1");
    assert_non_null(strstr(said, "No syntax or stream encoding errors found"));
    assert_non_null(strstr(paper_shell(w->folder, "pdfinfo record.pdf"), "612 x 792 pts (letter)"));
}

static void titles_in_unicode(void **state)
{
    paper_world *w = *state;
    paper_job made;
    paper_job_start(&made, "J-Año-Ấ");
    mf_paper_ask ask = paper_ask(&made.job);
    paper_record_to(w->folder, "title.pdf", &ask); /* and a job with nothing in it is drawn */
    assert_non_null(strstr(paper_shell(w->folder, "pdfinfo title.pdf"), "Job record J-Año-Ấ\n"));
    paper_job_free(&made);
}

static void is_the_same_each_time(void **state)
{
    paper_world *w = *state;
    mf_paper_ask ask = paper_ask(&w->made.job);
    paper_record_to(w->folder, "again.pdf", &ask);
    paper_shell(w->folder, "cmp record.pdf again.pdf");
}

/* Every kind of value outside the dictionary of words would be shown as its id. */
static void has_words_for_all(void **state)
{
    static const char *const find =
        "grep -oh 'mf_\\(phrase\\|fill\\|none\\|section\\|subhead\\)(&*rec, \"[^\"]*\"' " MF_TESTS
        "/../src/paper/*.c | sed 's/.*\"\\(.*\\)\"/\\1/'; grep -ohE "
        "'\"(col|blank|caution|cert|limit|check|lab)\\.[a-z0-9-]+\"' " MF_TESTS
        "/../src/paper/*.c | tr -d '\"'; grep -ohE '\"(paper|cover|doubt|refused|paint|side|"
        "step-state|ver)\\.[a-z0-9.-]+\"' " MF_TESTS "/../src/paper/names.c | tr -d '\"'";
    (void)state;
    char *ids = strdup(paper_shell("", find));
    assert_non_null(ids);
    size_t n = 0;
    for (char *id = ids, *end; (end = strchr(id, '\n')) != NULL; id = end + 1, n++) {
        *end = '\0';
        for (int lang = 0; lang < MF_LANG_COUNT; lang++)
            if (mf_words2((mf_lang)lang, "paper", id) == NULL &&
                mf_words((mf_lang)lang, id) == NULL)
                fail_msg("no words for \"%s\"", id);
    }
    assert_true(n > 300);
    free(ids);
}

/* ---- the seal's block ------------------------------------------------------------ */

static void seal_lies_in_its_block(void **state)
{
    paper_world *w = *state;
    mf_paper_ask ask = paper_ask(&w->made.job);
    mf_bytes out = {NULL, 0};
    mf_paper_blocks blocks = {0};
    char command[160];
    assert_int_equal(mf_paper_record(&out, &blocks, &ask, NULL), MF_OK);
    mf_bytes_free(&out);
    int pages = pages_of(w, "record.pdf"); /* lines to sign by hand may flow on after it */
    assert_true(blocks.renovator.page == pages || blocks.renovator.page == pages - 1);
    assert_true(blocks.renovator.x >= 44 && blocks.renovator.x + blocks.renovator.w <= 568 &&
                blocks.renovator.y >= 56);
    /* pdftotext counts from the top left corner, the block from the lower left. */
    snprintf(command, sizeof command,
             "pdftotext -r 72 -f %d -l %d -x %d -y %d -W %d -H %d record.pdf -",
             blocks.renovator.page, blocks.renovator.page, (int)blocks.renovator.x,
             (int)(792 - blocks.renovator.y - blocks.renovator.h), (int)blocks.renovator.w,
             (int)blocks.renovator.h + 1);
    const char *text = paper_shell(w->folder, command);
    static const char *const parts[] = {"Rosa Peña Ñíguez", "certified renovator", "INV-R-1007",
                                        "2026-09-30 16:20 UTC", "eeff\n"};
    for (size_t i = 0; i < sizeof parts / sizeof parts[0]; i++)
        assert_non_null(strstr(text, parts[i]));
    assert_null(strstr(text, "Signatures by hand"));
}

static void unsealed_says_so(void **state)
{
    paper_world *w = *state;
    mf_paper_ask ask = paper_ask(&w->made.job);
    mf_paper_blocks blocks = {{9, 9, 9, 9, 9}, {0}, {0}};
    mf_bytes out = {NULL, 0};
    ask.signer = NULL;
    assert_int_equal(mf_paper_record(&out, &blocks, &ask, NULL), MF_OK);
    assert_int_equal(blocks.renovator.page, 0);
    paper_write(w->folder, "unsealed.pdf", &out);
    mf_bytes_free(&out);
    char *text = drawn_text(w, "unsealed.pdf");
    assert_non_null(strstr(text, "This copy is not sealed"));
    assert_null(strstr(text, "SEALED WITH"));
    assert_non_null(strstr(text, "signature by hand"));
    free(text);
}

/* ---- refusals ----------------------------------------------------------------------- */

/* No character keeps a record from being drawn: it stands there by its number, and the foot
 * says what that is. */
static void spells_what_it_cannot_draw(void **state)
{
    static const struct {
        const char *name, *drawn;
    } rows[] = {
        {"山田", "[U+5C71][U+7530]"},
        {"Ada ☑", "Ada [U+2611]"},
        {"Ada\u200B 👍", "Ada[U+200B] [U+1F44D]"},
    };
    paper_world *w = *state;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        paper_job made;
        paper_job_small(&made);
        ((mf_party *)(size_t)&made.job.party[1])->name = rows[i].name;
        mf_paper_ask ask = paper_ask(&made.job);
        mf_bytes out = {NULL, 0};
        mf_err err = {0};
        assert_int_equal(mf_paper_record(&out, NULL, &ask, &err), MF_OK);
        paper_write(w->folder, "spelled.pdf", &out);
        mf_bytes_free(&out);
        char *text = drawn_text(w, "spelled.pdf");
        assert_non_null(strstr(text, rows[i].drawn));
        assert_non_null(strstr(text, "U+ with a number in brackets stands for a"));
        free(text);
        paper_job_free(&made);
    }
}

static void check_font_failure(const paper_world *w, const char *dir, const char *what)
{
    mf_paper_ask ask = paper_ask(&w->made.job);
    mf_bytes out = {NULL, 0};
    mf_err err = {0};
    ask.font_dir = dir;
    assert_int_equal(mf_paper_record(&out, NULL, &ask, &err), MF_SYSTEM);
    assert_null(out.data);
    assert_non_null(strstr(err.where, dir));
    assert_non_null(strstr(err.where, "LiberationSans-Regular.ttf"));
    assert_non_null(strstr(err.what, what));
    assert_non_null(strstr(err.mend, "fonts-liberation2"));
}

static void needs_its_fonts(void **state)
{
    paper_world *w = *state;
    check_font_failure(w, "/nowhere/fonts", "cannot be read");
    check_font_failure(w, w->folder, "cannot be read");
    paper_shell(w->folder, "mkdir bad && echo no font > bad/LiberationSans-Regular.ttf");
    char dir[96];
    snprintf(dir, sizeof dir, "%s/bad", w->folder);
    check_font_failure(w, dir, "damaged");
    /* The first 2,000 bytes of the real one. */
    paper_shell(w->folder, "head -c 2000 " MF_FONT_DIR
                           "/LiberationSans-Regular.ttf > bad/LiberationSans-Regular.ttf");
    check_font_failure(w, dir, "damaged");
}

static void finds_fonts_in_the_second_directory(void **state)
{
    paper_world *w = *state;
    mf_paper_ask ask = paper_ask(&w->made.job);
    ask.font_dir = "/nowhere/fonts:" MF_FONT_DIR;
    paper_record_to(w->folder, "second.pdf", &ask);
    paper_shell(w->folder, "cmp record.pdf second.pdf");
}

/* ---- the list for the clipboard ------------------------------------------------------- */

static char *list_text(const paper_world *w, const char *area, const mf_job *job, mf_lang lang)
{
    mf_paper_ask ask = paper_ask(job);
    mf_bytes out = {NULL, 0};
    mf_err err = {0};
    ask.lang = lang;
    ask.signer = NULL;
    if (mf_paper_blank(&out, MF_FORM_CONTAINMENT, area, &ask, &err) != MF_OK)
        fail_msg("%s: %s", err.where, err.what);
    paper_write(w->folder, "list.pdf", &out);
    mf_bytes_free(&out);
    paper_shell(w->folder, "qpdf --check list.pdf");
    return drawn_text(w, "list.pdf");
}

/* 40 CFR 745.85(a)(2)(i)(D): six feet of floor; (a)(2)(ii)(C): ten feet of ground. */
static void list_fits_the_side(void **state)
{
    paper_world *w = *state;
    char *inside = list_text(w, "A1", &w->made.job, MF_LANG_EN);
    assert_non_null(strstr(inside, "J-1926"));
    assert_non_null(strstr(inside, "14 Example Lane, Exampleton"));
    assert_non_null(strstr(inside, "Rosa Peña Ñíguez"));
    assert_non_null(strstr(inside, "at least 6 ft"));
    assert_non_null(strstr(inside, "745.85(a)(2)(i)(D)"));
    assert_null(strstr(inside, "at least 10 ft\n"));
    assert_non_null(strstr(inside, "signature by hand"));
    free(inside);
    char *outside = list_text(w, "", NULL, MF_LANG_ES);
    assert_non_null(strstr(outside, "Lista de contención, exterior"));
    assert_non_null(strstr(outside, "al menos 10 pies"));
    assert_null(strstr(outside, "J-1926"));
    free(outside);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(reads_in_order),
        cmocka_unit_test(says_it_in_spanish),
        cmocka_unit_test(lists_what_is_removed),
        cmocka_unit_test(presumes_what_is_not_listed),
        cmocka_unit_test(numbers_its_pages),
        cmocka_unit_test(embeds_its_fonts),
        cmocka_unit_test(is_sound),
        cmocka_unit_test(titles_in_unicode),
        cmocka_unit_test(is_the_same_each_time),
        cmocka_unit_test(has_words_for_all),
        cmocka_unit_test(seal_lies_in_its_block),
        cmocka_unit_test(unsealed_says_so),
        cmocka_unit_test(spells_what_it_cannot_draw),
        cmocka_unit_test(needs_its_fonts),
        cmocka_unit_test(finds_fonts_in_the_second_directory),
        cmocka_unit_test(list_fits_the_side),
    };
    return cmocka_run_group_tests(tests, paper_world_records, paper_world_end);
}
