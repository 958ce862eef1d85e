/* The appendix of photos: each with its caption, its file and its hash. */
#include "paper/photo.h"
#include "paper/record.h"

#define MOST_HIGH 270.0F

static void caption(mf_rec *rec, const mf_paper_photo *photo, size_t number)
{
    mf_page *page = &rec->page;
    const char *words = mf_print(rec, "%zu  %s", number, photo->caption);
    page->y += mf_page_block(page, MF_ST_BOLD, (mf_point){MF_LEFT, page->y}, MF_WIDTH, words, true);
    const char *file = mf_join(rec, photo->name, ", ", photo->entry);
    page->y += mf_page_block(page, MF_ST_SMALL, (mf_point){MF_LEFT, page->y}, MF_WIDTH, file, true);
    page->y += mf_page_block(page, MF_ST_MONO, (mf_point){MF_LEFT, page->y}, MF_WIDTH,
                             mf_join(rec, "SHA-256", " ", photo->sha256), true);
    page->y += 12;
}

static float caption_height(mf_rec *rec, const mf_paper_photo *photo)
{
    return mf_page_block(&rec->page, MF_ST_BOLD, (mf_point){0, 0}, MF_WIDTH - 20, photo->caption,
                         false) +
           mf_page_block(&rec->page, MF_ST_SMALL, (mf_point){0, 0}, MF_WIDTH, photo->name, false) +
           40;
}

static void draw_photo(mf_rec *rec, const mf_paper_photo *photo, size_t number)
{
    mf_page *page = &rec->page;
    mf_bytes jpeg = {0};
    mf_err err = {0};
    unsigned w = 1;
    unsigned h = 1;
    if (mf_haru_failed(page->haru))
        return;
    if (mf_photo_ready(&jpeg, &w, &h, photo, &err) != MF_OK) {
        mf_haru_fail(page->haru, &err);
        return;
    }
    float wide = MF_WIDTH;
    float high = wide * (float)h / (float)w;
    if (high > MOST_HIGH) {
        wide *= MOST_HIGH / high;
        high = MOST_HIGH;
    }
    mf_page_need(page, high + 5 + caption_height(rec, photo));
    mf_page_anchor(page, photo->entry);
    mf_haru_jpeg(page->haru, &jpeg, (mf_point){MF_LEFT, page->y}, (mf_point){wide, high});
    page->y += high + 5;
    caption(rec, photo, number);
    mf_bytes_free(&jpeg);
}

void mf_record_photos(mf_rec *rec)
{
    if (rec->ask->n_photos == 0)
        return;
    mf_section(rec, "photos");
    mf_page_heading(&rec->page, MF_ST_BODY, mf_phrase(rec, "photos-note"));
    for (size_t i = 0; i < rec->ask->n_photos; i++)
        draw_photo(rec, &rec->ask->photos[i], i + 1);
}
