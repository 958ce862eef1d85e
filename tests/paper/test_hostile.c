/* Values no line was made for: 120 characters, twelve numbers of openings, on every paper that
 * is filled in. A blank that a long value leaves empty reads as if nobody had said it. The job
 * is the small one of paper_job.h with such values. */
#include "support/cmocka_all.h"
#include "support/paper_kit.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define OPENINGS "W01,W02,W03,W04,W05,W06,W07,W08,W09,W10,W11,W12"

static const char *const values[] = {
    "Address of 120 characters: 14 Example Lane North, second house behind the carriage yard, "
    "Exampleton, Sample County, IN 0",
    "Unit 2B of the rear building, up the outside stairs, the door past the boiler room, one "
    "hundred and twenty characters now",
    "Firm of 120 characters: Invented Sash, Door, Stair, Shutter, Screen and Storefront "
    "Restoration Works of Exampleton, Limited",
    "Rosa Maria de los Milagros Montserrat Guadalupe Hernandez-Fernandez y Rodriguez-Gutierrez "
    "de la Torre Vda de Sample-Example",
    "Dining room, back parlor, butler's pantry, back stair hall and the landing between first "
    "and second floor, up to the closet",
    "Owner of 120 characters: Ida Anna Katharina Sample-Example, trustee of the Sample family "
    "trust of nineteen ninety nine, Est.",
};

/* Letters and digits alone: however it was parted into lines. */
static void squeeze(char *text)
{
    char *to = text;
    for (const char *at = text; *at != '\0'; at++)
        if (*at != ' ' && *at != '\n' && *at != '\f')
            *to++ = *at;
    *to = '\0';
}

static void hostile(paper_job *made)
{
    mf_job *job = &made->job;
    mf_house *house = (mf_house *)(size_t)job->house;
    house->address = values[0];
    house->unit = values[1];
    ((mf_firm *)(size_t)job->firm)->name = values[2];
    for (size_t i = 0; i < job->n_person; i++)
        ((mf_person *)(size_t)&job->person[i])->name = values[3];
    for (size_t i = 0; i < job->n_area; i++) {
        ((mf_area *)(size_t)&job->area[i])->place = values[4];
        ((mf_area *)(size_t)&job->area[i])->openings = OPENINGS;
    }
    for (size_t i = 0; i < job->n_party; i++)
        ((mf_party *)(size_t)&job->party[i])->name = values[5];
}

static char *drawn(const paper_world *w, mf_paper_form form, const char *area, mf_lang lang)
{
    mf_bytes pdf = {0};
    mf_err err = {0};
    mf_paper_ask ask = paper_ask(&w->made.job);
    ask.signer = NULL;
    ask.lang = lang;
    if (mf_paper_blank(&pdf, form, area, &ask, &err) != MF_OK)
        fail_msg("%s: %s, %s", mf_paper_form_name(form), err.where, err.what);
    paper_write(w->folder, "hostile.pdf", &pdf);
    mf_bytes_free(&pdf);
    paper_shell(w->folder, "pdftotext -raw hostile.pdf hostile.txt");
    char *text = paper_slurp(w->folder, "hostile.txt");
    squeeze(text);
    return text;
}

static void holds(const paper_world *w, mf_paper_form form, const char *area, unsigned which,
                  bool openings)
{
    for (int lang = 0; lang < MF_LANG_COUNT; lang++) {
        char *text = drawn(w, form, area, (mf_lang)lang);
        for (size_t i = 0; i < sizeof values / sizeof values[0]; i++) {
            char wanted[160];
            assert_true(strlen(values[i]) >= 118 && strlen(values[i]) < sizeof wanted);
            memcpy(wanted, values[i], strlen(values[i]) + 1);
            squeeze(wanted);
            if ((which & (1U << i)) != 0 && strstr(text, wanted) == NULL)
                fail_msg("%s does not hold \"%s\"", mf_paper_form_name(form), values[i]);
        }
        if (openings && strstr(text, OPENINGS) == NULL)
            fail_msg("%s does not hold the twelve openings", mf_paper_form_name(form));
        free(text);
    }
}

enum { ADDRESS = 1, UNIT = 2, FIRM = 4, RENOVATOR = 8, PLACE = 16, OWNER = 32 };

static void every_blank_holds_what_is_said(void **state)
{
    const paper_world *w = *state;
    const unsigned head = ADDRESS | UNIT | RENOVATOR | PLACE;
    holds(w, MF_FORM_CONTAINMENT, "A1", head, true);
    holds(w, MF_FORM_VERIFICATION, "A1", head, true);
    holds(w, MF_FORM_TEST_LOG, "A1", head, true);
    holds(w, MF_FORM_TRAINING, "A1", head, true);
    holds(w, MF_FORM_CREW_PLAN, "A1", head, true);
    holds(w, MF_FORM_ACKNOWLEDGEMENT, "", ADDRESS | UNIT | FIRM | OWNER, false);
    holds(w, MF_FORM_SELF_CERTIFICATION, "", ADDRESS | UNIT | FIRM, false);
}

/* No letter stands outside the margins of 48 points, on any of them. */
static void none_runs_off_the_sheet(void **state)
{
    const paper_world *w = *state;
    for (int form = 0; form < MF_FORM_COUNT; form++) {
        free(drawn(w, (mf_paper_form)form, "A1", MF_LANG_EN));
        const char *out = paper_shell(
            w->folder, "pdftotext -bbox hostile.pdf - | awk -F'\"' '/<word/ && ($2 < 40 || $6 > "
                       "572 || $8 > 780) { n++ } END { print n + 0 }'");
        if (strcmp(out, "0\n") != 0)
            fail_msg("%s runs off the sheet: %s words", mf_paper_form_name((mf_paper_form)form),
                     out);
    }
}

/* A running head has one line: what does not fit ends in a sign that it goes on. */
static void a_cut_head_says_so(void **state)
{
    static char twice[300];
    const paper_world *w = *state;
    mf_house *house = (mf_house *)(size_t)w->made.job.house;
    mf_paper_ask ask = paper_ask(&w->made.job);
    snprintf(twice, sizeof twice, "%s; %s", values[0], values[0]);
    house->address = twice;
    paper_record_to(w->folder, "cut.pdf", &ask);
    house->address = values[0];
    const char *heads = paper_shell(w->folder, "pdftotext -raw cut.pdf - | grep -c '…$'");
    assert_true(strtol(heads, NULL, 10) > 5);
}

static void the_record_holds_them(void **state)
{
    const paper_world *w = *state;
    mf_paper_ask ask = paper_ask(&w->made.job);
    paper_record_to(w->folder, "long.pdf", &ask);
    paper_shell(w->folder, "pdftotext -raw long.pdf long.txt");
    char *text = paper_slurp(w->folder, "long.txt");
    squeeze(text);
    for (size_t i = 0; i < sizeof values / sizeof values[0]; i++) {
        char wanted[160];
        memcpy(wanted, values[i], strlen(values[i]) + 1);
        squeeze(wanted);
        if (strstr(text, wanted) == NULL)
            fail_msg("the record does not hold \"%s\"", values[i]);
    }
    free(text);
}

static int start(void **state)
{
    if (paper_world_small(state) != 0)
        return -1;
    hostile(&((paper_world *)*state)->made);
    return 0;
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_blank_holds_what_is_said),
        cmocka_unit_test(none_runs_off_the_sheet),
        cmocka_unit_test(a_cut_head_says_so),
        cmocka_unit_test(the_record_holds_them),
    };
    return cmocka_run_group_tests(tests, start, paper_world_end);
}
