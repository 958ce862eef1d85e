/* The visible seal, lines for the hand. */
#include "paper/record.h"

#define SEAL_W         310.0F
#define FREE_W         210.0F
#define FREE_H         48.0F
#define OWNER_W        330.0F /* the owner's drawn hand, and the seal that witnesses it */
#define OWNER_H        58.0F
#define SEAL_SECTION_H 375.0F

/* Two lines to sign on: name and date. */
void mf_hand_lines(mf_rec *rec, const char *who)
{
    mf_page *page = &rec->page;
    mf_page_need(page, 43);
    page->y += 22;
    mf_hand_line(rec, (mf_point){MF_LEFT, page->y}, 330, who);
    mf_hand_line(rec, (mf_point){MF_LEFT + 354, page->y}, mf_across(page) - 354,
                 mf_phrase(rec, "date"));
    page->y += 17;
}

/* ---- the seal ------------------------------------------------------------------------ */

/* Sixteen groups of four: a person can compare them with a copy kept elsewhere. */
static const char *grouped(mf_rec *rec, const char *hex)
{
    mf_buf buf = {0};
    for (size_t i = 0; hex[i] != '\0'; i++) {
        if (i > 0 && i % 4 == 0)
            mf_buf_add(&buf, " ", 1);
        mf_buf_add(&buf, hex + i, 1);
    }
    if (buf.failed)
        mf_page_no_memory(&rec->page);
    const char *text = mf_print(rec, "%s", mf_buf_str(&buf));
    mf_buf_free(&buf);
    return text;
}

/* The words in the block; returns their height. */
static float seal_words(mf_rec *rec, mf_point at, float width, bool draw)
{
    const mf_paper_signer *signer = rec->ask->signer;
    mf_page *page = &rec->page;
    const float top = at.y;
    at.y += mf_page_block(page, MF_ST_SMALL_BOLD, at, width, mf_phrase(rec, "seal.title"), draw);
    at.y += mf_page_block(page, MF_ST_LARGE, at, width, signer->name, draw);
    const char *capacity = signer->capacity;
    capacity = *signer->certificate == '\0' /* the key alone says it */
                   ? mf_fill(rec, "seal.uncertified", capacity, NULL, NULL)
                   : mf_join(rec, capacity, ", ",
                             mf_fill(rec, "seal.certificate", signer->certificate, NULL, NULL));
    at.y += mf_page_block(page, MF_ST_CELL, at, width, capacity, draw);
    at.y += mf_page_block(page, MF_ST_CELL, at, width,
                          mf_fill(rec, "seal.at", signer->signed_at, NULL, NULL), draw) +
            3;
    at.y += mf_page_block(page, MF_ST_SMALL, at, width, mf_phrase(rec, "seal.fingerprint"), draw);
    at.y += mf_page_block(page, MF_ST_MONO, at, width, grouped(rec, signer->fingerprint), draw);
    return at.y - top;
}

static void draw_seal(mf_rec *rec)
{
    mf_page *page = &rec->page;
    const float width = SEAL_W - 22;
    float height = seal_words(rec, (mf_point){0, 0}, width, false) + 14;
    mf_page_need(page, height + 8);
    float y = page->y + 2;
    mf_haru_rect(page->haru, MF_INK_NONE, MF_INK_ACCENT, 1.0F, (mf_point){MF_LEFT, y},
                 (mf_point){SEAL_W, height});
    mf_haru_line(page->haru, MF_INK_ACCENT, 3.0F, (mf_point){MF_LEFT + 3, y},
                 (mf_point){MF_LEFT + 3, y + height});
    seal_words(rec, (mf_point){MF_LEFT + 13, y + 6}, width, true);
    rec->blocks.renovator =
        (mf_paper_block){page->n_pages, MF_LEFT, mf_high(page) - y - height, SEAL_W, height};
    page->y = y + height + 8;
}

/* A place kept free for a further seal, with its words beside it. */
static mf_paper_block seal_place(mf_rec *rec, const char *id, mf_point size)
{
    mf_page *page = &rec->page;
    mf_page_need(page, size.y + 10);
    const mf_point at = {MF_LEFT, page->y};
    mf_haru_dash(page->haru, 2, 2);
    mf_haru_rect(page->haru, MF_INK_NONE, MF_INK_RULE, 0.6F, at, size);
    mf_haru_dash(page->haru, 0, 0);
    mf_page_block(page, MF_ST_SMALL, (mf_point){at.x + size.x + 10, at.y + 2},
                  mf_across(page) - size.x - 10, mf_phrase(rec, id), true);
    page->y += size.y + 10;
    return (mf_paper_block){page->n_pages, at.x, mf_high(page) - at.y - size.y, size.x, size.y};
}

void mf_record_sign(mf_rec *rec)
{
    mf_page *page = &rec->page;
    mf_record_certify(rec);
    mf_page_need(page, SEAL_SECTION_H); /* the seal and the hands on one page */
    mf_section(rec, "seal");
    if (rec->ask->signer == NULL) {
        mf_page_text(page, MF_ST_BOLD, mf_phrase(rec, "seal.none"));
    } else {
        draw_seal(rec);
        mf_page_text(page, MF_ST_BODY, mf_phrase(rec, "seal.proves"));
        mf_page_text(page, MF_ST_BODY, mf_phrase(rec, "seal.proves-not"));
    }
    mf_page_text(page, MF_ST_BODY,
                 mf_phrase(rec, rec->ask->signer == NULL ? "seal.hand-alone" : "seal.hand"));
    mf_hand_lines(rec, mf_phrase(rec, "sign-firm"));
    rec->blocks.firm = seal_place(rec, "seal.place-firm", (mf_point){FREE_W, FREE_H});
    mf_hand_lines(rec, mf_phrase(rec, "sign-received"));
    rec->blocks.owner = seal_place(rec, "seal.place-owner", (mf_point){OWNER_W, OWNER_H});
}
