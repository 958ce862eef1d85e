/* The table of the papers for the clipboard. */
#include "paper/forms.h"

#include "base/fail.h"

#include <string.h>

/* What stands on a paper beside what its function draws. */
typedef enum frame {
    ONE_SHEET, /* title and code on its first page, feet on each */
    SHEETS,    /* of several sheets, each opened by the function; feet on each page */
    WHOLE_PAGE /* nothing else */
} frame;

typedef struct form_row {
    const char *name;
    const char *title; /* paper.<title> */
    mf_form_fn *fill;
    frame frame;
} form_row;

static const form_row rows[MF_FORM_COUNT] = {
    [MF_FORM_CONTAINMENT] = {"containment", "blank.title", mf_form_containment, SHEETS},
    [MF_FORM_VERIFICATION] = {"verification", "form.verification", mf_form_verification, ONE_SHEET},
    [MF_FORM_TEST_LOG] = {"test-log", "form.test-log", mf_form_test_log, ONE_SHEET},
    [MF_FORM_ACKNOWLEDGEMENT] = {"acknowledgement", "form.acknowledgement", mf_form_acknowledgement,
                                 SHEETS},
    [MF_FORM_SELF_CERTIFICATION] = {"self-certification", "form.self-certification",
                                    mf_form_self_certification, ONE_SHEET},
    [MF_FORM_TRAINING] = {"training", "form.training", mf_form_training, ONE_SHEET},
    [MF_FORM_SIGN] = {"sign", "form.sign", mf_form_sign, WHOLE_PAGE},
    [MF_FORM_CREW_PLAN] = {"crew-plan", "form.crew-plan", mf_form_crew_plan, ONE_SHEET},
};

const char *mf_paper_form_name(mf_paper_form form)
{
    return form >= 0 && form < MF_FORM_COUNT ? rows[form].name : NULL;
}

mf_paper_form mf_paper_form_named(const char *name)
{
    for (int i = 0; i < MF_FORM_COUNT; i++)
        if (strcmp(rows[i].name, name) == 0)
            return (mf_paper_form)i;
    return MF_FORM_COUNT;
}

static mf_status find_area(const mf_area **out, const mf_paper_ask *ask, const char *id,
                           mf_err *err)
{
    *out = NULL;
    if (*id == '\0')
        return MF_OK;
    if (ask->job != NULL)
        *out = mf_job_area(ask->job, id);
    if (*out == NULL)
        return mf_failf(err, MF_INPUT, "the work area", "a paper is filled in for one of the job",
                        "see: mistfold area list JOB", "the job has no work area \"%s\"", id);
    return MF_OK;
}

static mf_status draw(mf_bytes *out, const form_row *row, const mf_area *area,
                      const mf_paper_ask *ask, mf_err *err)
{
    mf_rec rec;
    mf_status status = mf_rec_open(&rec, ask, row->title, err);
    if (status == MF_OK) {
        if (row->frame == ONE_SHEET) {
            mf_form_open(&rec, row->title, row->name, area == NULL ? "" : area->id);
            mf_form_called_off(&rec);
        }
        row->fill(&rec, area);
        if (row->frame != WHOLE_PAGE)
            mf_form_finish(&rec, row->title);
        status = mf_haru_save(rec.page.haru, out, err);
    }
    mf_rec_close(&rec);
    return status;
}

mf_status mf_paper_blank(mf_bytes *out, mf_paper_form form, const char *area,
                         const mf_paper_ask *ask, mf_err *err)
{
    const mf_area *found = NULL;
    if (form < 0 || form >= MF_FORM_COUNT)
        return mf_fail(err, MF_USAGE, "paper", "there is no such paper", "",
                       "name one of the list");
    mf_status status = find_area(&found, ask, area, err);
    return status == MF_OK ? draw(out, &rows[form], found, ask, err) : status;
}
