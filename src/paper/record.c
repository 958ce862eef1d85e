/* The job record: its sections in order. */
#include "paper/record.h"

#include "base/fail.h"

static void finish(mf_rec *rec)
{
    const mf_running running = {.head_left =
                                    mf_print(rec, "%s %s", mf_phrase(rec, "record"), rec->job->id),
                                .head_right = rec->house.address,
                                .foot_left = mf_rec_foot(rec),
                                .foot_note = mf_phrase(rec, "foot-caution"),
                                .foot_signs = mf_phrase(rec, "foot-signs"),
                                .page_of = mf_phrase(rec, "page-of")};
    mf_page_finish(&rec->page, &running);
}

mf_status mf_paper_record(mf_bytes *out, mf_paper_blocks *blocks, const mf_paper_ask *ask,
                          mf_err *err)
{
    static void (*const sections[])(mf_rec *) = {
        mf_record_front, mf_record_contents_keep, mf_record_house, mf_record_schedule,
        mf_record_paint, mf_record_tests,         mf_record_plot,  mf_record_areas,
        mf_record_clean, mf_record_audit,         mf_record_trail, mf_record_photos,
        mf_record_sign};
    if (ask->job == NULL)
        return mf_fail(err, MF_USAGE, "paper", "a job record needs a job", "", "name the job");
    mf_rec rec;
    mf_status status = mf_rec_open(&rec, ask, "record", err);
    if (status == MF_OK)
        status = mf_rec_audit(&rec, err);
    if (status != MF_OK)
        goto done;
    for (size_t i = 0; i < sizeof sections / sizeof sections[0]; i++)
        sections[i](&rec);
    mf_record_contents(&rec);
    finish(&rec);
    status = mf_haru_save(rec.page.haru, out, err);
    if (status == MF_OK && blocks != NULL)
        *blocks = rec.blocks;
done:
    mf_rec_close(&rec);
    return status;
}
