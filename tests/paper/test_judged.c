/* What papers judge of the check of an area and of a notice is what the questions find of it,
 * and the days they print are those of the limits that hold for the job. The jobs are those of
 * fixture_job.h with lines of tests/cases; all is invented. */
#include "support/case_job.h"
#include "support/cmocka_all.h"
#include "support/paper_kit.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { LINES = 4 };

static case_job made;

static void change(const char *base, const char *const lines[LINES])
{
    assert_true(case_base(&made, base));
    for (int i = 0; i < LINES && lines[i] != NULL; i++) {
        char text[500];
        case_line line;
        snprintf(text, sizeof text, "%s", lines[i]);
        case_split(&line, text);
        if (!case_apply(&made, &line))
            fail_msg("%s: %s", lines[i], made.problem);
    }
    made.fx.job = made.job;
    fx_texts(&made.fx);
}

/* Its text with blanks as one; the caller frees it. */
static char *text_of(const paper_world *w, const char *pdf)
{
    char command[200];
    snprintf(command, sizeof command,
             "pdftotext %s - | tr -s '\\n\\f ' ' ' | sed 's/- \\([a-z]\\)/-\\1/g' > judged.txt",
             pdf);
    paper_shell(w->folder, command);
    return paper_slurp(w->folder, "judged.txt");
}

static char *record(const paper_world *w)
{
    mf_paper_ask ask = paper_ask(&made.job);
    ask.today = fx_day(FX_TODAY);
    paper_record_to(w->folder, "judged.pdf", &ask);
    return text_of(w, "judged.pdf");
}

typedef struct expectation {
    const char *base, *lines[LINES], *says, *never;
} expectation;

static void holds(const char *text, const expectation *want)
{
    if (strstr(text, want->says) == NULL)
        fail_msg("%s: not \"%s\" in: %s", want->lines[0], want->says, text);
    if (want->never != NULL && strstr(text, want->never) != NULL)
        fail_msg("%s: \"%s\" in: %s", want->lines[0], want->never, strstr(text, want->never) - 200);
}

static void recorded(const paper_world *w, const expectation *all, size_t n)
{
    for (size_t i = 0; i < n; i++) {
        change(all[i].base, all[i].lines);
        char *text = record(w);
        holds(text, &all[i]);
        free(text);
        case_free(&made);
    }
}

/* 745.85(b), 745.90(b)(1): verified by a certified renovator, after the last cleaning. */
static void an_area_as_the_signs_have_it(void **state)
{
    static const expectation all[] = {
        {"dwelling", {NULL}, "Verified clean on 2026-09-16. By their cloths 2 of 2", NULL},
        {"dwelling",
         {"change verification floor --person lee"},
         "did part of it on 2026-09-16",
         "Verified clean on 2026-09-16. By their"},
        {"dwelling",
         {"add tick --area A1 --step mop --state done --person lee --renovator rosa --on "
          "2026-09-16 --time 15:00"},
         "Not verified clean: ",
         "Verified clean on 2026-09-16. By their cloths 2 of 2"},
    };
    recorded(*state, all, sizeof all / sizeof all[0]);
}

/* 745.84(d)(1), (3); 745.82(b). */
static void a_notice_as_the_questions_have_it(void **state)
{
    static const expectation all[] = {
        {"dwelling", {NULL}, "in time and whole", NULL},
        {"dwelling",
         {"change notice owner --language es", "drop notice tenant"},
         "in time, but: ",
         "in time and whole"},
        {"dwelling",
         {"change notice owner --unit \"99 Other Road\"", "drop notice tenant"},
         "in time, but: ",
         "in time and whole"},
        {"dwelling",
         {"change party tenant --name Ten", "change notice owner --signer ten",
          "drop notice tenant"},
         "in time, but: ",
         "in time and whole"},
        {"dwelling",
         {"add emergency --nature storm --on 2026-09-13 --cause sudden-event --waived pamphlet "
          "--reason rain",
          "change house --emergency yes", "drop notice"},
         "no notice logged: waived in the emergency",
         NULL},
        {"dwelling",
         {NULL},
         "given before it and at most 60 days ahead, or is mailed at least 7 days",
         NULL},
        {"dwelling",
         {"change house --place Exampleton",
          "add local_limit --limit pamphlet-days --value 50 --place Exampleton "
          "--status memory --citation \"Invented Code 1\"",
          "add local_limit --limit mailing-days --value 14 --place Exampleton "
          "--status memory --citation \"Invented Code 2\""},
         "given before it and at most 50 days ahead, or is mailed at least 14 days",
         "at least 7 days"},
    };
    recorded(*state, all, sizeof all / sizeof all[0]);
}

/* By a limit of the place, constructed; of a blank form by the federal one (745.84(a)(1)(ii),
 * 745.86(a), (c)(1)). */
static const char *const stricter[LINES] = {"change house --place Exampleton",
                                            "add local_limit --limit handover-days --value 10 "
                                            "--place Exampleton --status memory --citation I",
                                            "add local_limit --limit mailing-days --value 14 "
                                            "--place Exampleton --status memory --citation I",
                                            "add local_limit --limit retention-years --value 5 "
                                            "--place Exampleton --status memory --citation I"};

static void drawn(const paper_world *w, mf_paper_form form, const mf_job *job, const char *says)
{
    mf_bytes pdf = {0};
    mf_err err = {0};
    mf_paper_ask ask = paper_ask(job);
    ask.signer = NULL;
    ask.today = fx_day(FX_TODAY);
    mf_status status = form == MF_FORM_COUNT ? mf_paper_summary(&pdf, &ask, &err)
                                             : mf_paper_blank(&pdf, form, "", &ask, &err);
    assert_int_equal(status, MF_OK);
    paper_write(w->folder, "form.pdf", &pdf);
    mf_bytes_free(&pdf);
    char *text = text_of(w, "form.pdf");
    if (strstr(text, says) == NULL)
        fail_msg("not \"%s\" in: %s", says, text);
    free(text);
}

static void days_of_the_place(void **state)
{
    const paper_world *w = *state;
    drawn(w, MF_FORM_ACKNOWLEDGEMENT, NULL, "for at least 3 years after the work");
    drawn(w, MF_FORM_SELF_CERTIFICATION, NULL, "mailed at least 7 days before the start");
    change("dwelling", (const char *const[LINES]){NULL});
    drawn(w, MF_FORM_COUNT, &made.job, "within 30 days after the work");
    case_free(&made);
    change("dwelling", stricter);
    drawn(w, MF_FORM_ACKNOWLEDGEMENT, &made.job,
          "for at least 3 years (5 years by the limits of this job) after the work");
    drawn(w, MF_FORM_SELF_CERTIFICATION, &made.job,
          "mailed at least 7 days (14 days by the limits of this job) before the start");
    drawn(w, MF_FORM_COUNT, &made.job,
          "within 30 days (10 days by the limits of this job) after the work");
    char *text = record(w);
    assert_non_null(
        strstr(text, "within 30 days (10 days by the limits of this job) of completion"));
    assert_non_null(
        strstr(text, "keeps its records 3 years (5 years by the limits of this job) after"));
    free(text);
    case_free(&made);
    change("dwelling", stricter);
    made.job.n_completion = made.job.n_invoice = 0;
    drawn(w, MF_FORM_COUNT, &made.job,
          "within 30 days (10 days by the limits of this job) after the work");
    case_free(&made);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(an_area_as_the_signs_have_it),
        cmocka_unit_test(a_notice_as_the_questions_have_it),
        cmocka_unit_test(days_of_the_place),
    };
    return cmocka_run_group_tests(tests, paper_world_small, paper_world_end);
}
