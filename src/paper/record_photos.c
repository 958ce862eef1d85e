/* The appendix: photos two beside one another, each with its caption, its file and
 * its hash; then what else the book keeps of the job. */
#include "paper/photo.h"
#include "paper/record.h"

#include <string.h>

#define GAP       14.0F
#define MOST_HIGH 150.0F

/* A photo as it will be drawn. */
typedef struct shown {
    const mf_paper_photo *photo;
    size_t number;
    mf_bytes jpeg;
    mf_point size;
} shown;

static float column(const mf_rec *rec)
{
    return (mf_across(&rec->page) - GAP) / 2;
}

/* ---- one photo -------------------------------------------------------------------- */

/* The day of what it shows, else the day on which it was put into the book. */
static const char *photo_day(mf_rec *rec, const mf_paper_photo *photo)
{
    const mf_job *job = rec->job;
    for (size_t i = 0; i < job->n_tick; i++)
        if (*photo->about != '\0' && strcmp(job->tick[i].src.entry, photo->about) == 0)
            return mf_fill(rec, "photo-day",
                           mf_when_words(rec, job->tick[i].on, job->tick[i].at_minute), NULL, NULL);
    for (size_t i = 0; i < job->n_attachment; i++)
        if (strcmp(job->attachment[i].src.entry, photo->entry) == 0)
            return mf_fill(rec, "photo-kept", mf_logged_words(rec, job->attachment[i].src.at), NULL,
                           NULL);
    return "";
}

static float caption(mf_rec *rec, const shown *it, mf_point at, bool draw)
{
    const mf_paper_photo *photo = it->photo;
    mf_page *page = &rec->page;
    const float top = at.y;
    const char *words = mf_print(rec, "%zu  %s", it->number, photo->caption);
    const char *day = photo_day(rec, photo);
    const char *file = mf_join(rec, photo->name, ", ", photo->entry);
    if (*photo->about != '\0')
        file = mf_join(rec, file, "; ", mf_fill(rec, "photo-of", photo->about, NULL, NULL));
    at.y += mf_page_block(page, MF_ST_BOLD, at, column(rec), words, draw);
    if (*day != '\0')
        at.y += mf_page_block(page, MF_ST_CELL, at, column(rec), day, draw);
    float height = mf_page_block(page, MF_ST_SMALL, at, column(rec), file, draw);
    if (draw && *photo->about != '\0')
        mf_page_link(page, at, (mf_point){column(rec), height}, photo->about);
    at.y += height;
    const size_t half = strlen(photo->sha256) / 2; /* a column is not wide enough for all of it */
    const char *hash =
        mf_print(rec, "SHA-256 %.*s %s", (int)half, photo->sha256, photo->sha256 + half);
    at.y += mf_page_block(page, MF_ST_MONO, at, column(rec), hash, draw);
    return at.y - top + 12;
}

static mf_status ready(shown *it, const mf_rec *rec, mf_err *err)
{
    const mf_paper_ask *ask = rec->ask;
    mf_bytes fetched = {0};
    mf_paper_photo whole = *it->photo;
    unsigned w = 1, h = 1;
    mf_status status = MF_OK;
    if (whole.data == NULL && ask->fetch != NULL) {
        status = ask->fetch(ask->fetch_user, it->photo, &fetched, err);
        whole.data = fetched.data;
        whole.len = fetched.len;
    }
    if (status == MF_OK)
        status = mf_photo_ready(&it->jpeg, &w, &h, &whole, err);
    mf_bytes_free(&fetched);
    it->size = (mf_point){column(rec), column(rec) * (float)h / (float)w};
    if (it->size.y > MOST_HIGH)
        it->size = (mf_point){MOST_HIGH * (float)w / (float)h, MOST_HIGH};
    return status;
}

/* ---- a row of two ------------------------------------------------------------------ */

static void draw_row(mf_rec *rec, const shown *row, size_t n)
{
    mf_page *page = &rec->page;
    float picture = 0, words = 0;
    for (size_t i = 0; i < n; i++) {
        float own = caption(rec, &row[i], (mf_point){0, 0}, false);
        words = own > words ? own : words;
        picture = row[i].size.y > picture ? row[i].size.y : picture;
    }
    mf_page_need(page, picture + 5 + words);
    for (size_t i = 0; i < n; i++) {
        const mf_point at = {MF_LEFT + (float)i * (column(rec) + GAP), page->y};
        mf_page_anchor(page, row[i].photo->entry);
        mf_haru_begin(page->haru, MF_TAG_FIGURE,
                      mf_fill(rec, "alt.photo", row[i].photo->caption, row[i].photo->name, NULL));
        mf_haru_jpeg(page->haru, &row[i].jpeg, at, row[i].size);
        mf_haru_end(page->haru);
        caption(rec, &row[i], (mf_point){at.x, at.y + picture + 5}, true);
    }
    page->y += picture + 5 + words;
}

static void photos(mf_rec *rec)
{
    const mf_paper_ask *ask = rec->ask;
    mf_err err = {0};
    for (size_t i = 0; i < ask->n_photos && !mf_haru_failed(rec->page.haru); i += 2) {
        shown row[2] = {{.photo = &ask->photos[i], .number = i + 1}};
        size_t n = i + 1 < ask->n_photos ? 2 : 1;
        if (n == 2)
            row[1] = (shown){.photo = &ask->photos[i + 1], .number = i + 2};
        mf_status status = MF_OK;
        for (size_t k = 0; k < n && status == MF_OK; k++)
            status = ready(&row[k], rec, &err);
        if (status == MF_OK)
            draw_row(rec, row, n);
        else
            mf_haru_fail(rec->page.haru, &err);
        mf_bytes_free(&row[0].jpeg);
        mf_bytes_free(&row[1].jpeg);
    }
}

/* ---- what else is kept --------------------------------------------------------------- */

static bool is_shown(const mf_paper_ask *ask, const mf_attachment *file)
{
    for (size_t i = 0; i < ask->n_photos; i++)
        if (strcmp(ask->photos[i].entry, file->src.entry) == 0)
            return true;
    return false;
}

static void other_files(mf_rec *rec)
{
    static const mf_col cols[] = {
        {"col.file", 28, false}, {"col.about", 12, false}, {"col.sha256", 60, false}};
    const mf_job *job = rec->job;
    mf_table table = mf_table_of(rec, cols, 3);
    size_t n = 0;
    for (size_t i = 0; i < job->n_attachment; i++) {
        const mf_attachment *file = &job->attachment[i];
        if (is_shown(rec->ask, file))
            continue;
        if (n++ == 0)
            mf_subhead(rec, "other-files");
        mf_cell what = mf_bold(*file->note == '\0' ? file->name : file->note);
        what.below = mf_below(rec, mf_small(mf_join(rec, file->name, ", ", file->src.entry)));
        mf_cell about = mf_small(file->about);
        about.link = file->about;
        const mf_cell cells[3] = {mf_traced(rec, what, &file->src), about,
                                  (mf_cell){.style = MF_ST_MONO, .text = file->sha256}};
        mf_table_row(&table, cells);
    }
    if (n > 0)
        mf_table_end(&table);
}

void mf_record_photos(mf_rec *rec)
{
    if (rec->ask->n_photos == 0 && rec->job->n_attachment == 0)
        return;
    mf_section(rec, "photos");
    mf_page_heading(&rec->page, MF_ST_BODY, mf_phrase(rec, "photos-note"));
    photos(rec);
    other_files(rec);
}
