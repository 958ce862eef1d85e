/* looks.c - whether a later seal covers what was sealed before it.
 *
 * A seal is drawn on top of the page. Its maker chooses the rectangle and the picture,
 * and every byte is under a good seal: another number over the one that was measured
 * looks as if it had been printed. What is drawn stays in the rectangle
 * (ISO 32000-1, 12.5.5), so it has to lie where nothing is printed. */
#include "base/fail.h"

#include <mistfold/seal.h>

#define SLACK 1.0F /* points: places and rectangles are rounded */

static bool lies_in(const mf_seal_place *look, const mf_seal_place *place)
{
    return look->page == place->page && look->x >= place->x - SLACK &&
           look->y >= place->y - SLACK && look->x + look->w <= place->x + place->w + SLACK &&
           look->y + look->h <= place->y + place->h + SLACK;
}

bool mf_seal_places_meet(const mf_seal_place *a, const mf_seal_place *b)
{
    return a->page > 0 && a->page == b->page && a->x + a->w > b->x + SLACK &&
           b->x + b->w > a->x + SLACK && a->y + a->h > b->y + SLACK && b->y + b->h > a->y + SLACK;
}

static bool is_kept_free(const mf_seal_place *look, const mf_seal_place *places, size_t n)
{
    for (size_t i = 0; i < n; i++)
        if (places[i].page > 0 && lies_in(look, &places[i]))
            return true;
    return false;
}

#define MEND "look at the paper without it: mistfold paper check FILE --under 1 --out FIRST.pdf"

static mf_status judge(const mf_seal_check *check, int i, const mf_seal_place *places, size_t n,
                       mf_err *err)
{
    const char *where = "the PDF";
    const mf_seal_place *look = &check->seal[i].look;
    for (int k = 0; k < i; k++)
        if (mf_seal_places_meet(look, &check->seal[k].look))
            return mf_failf(err, MF_NO, where, "each seal has a place of its own", MEND,
                            "seal %d is drawn over seal %d", i + 1, k + 1);
    if (is_kept_free(look, places, n))
        return MF_OK;
    return mf_failf(err, MF_NO, where, "the paper keeps no place free for a seal there", MEND,
                    "seal %d is drawn on page %d, where it may cover words", i + 1, look->page);
}

mf_status mf_seal_looks(mf_seal_check *check, const mf_seal_place *places, size_t n, mf_err *err)
{
    mf_status first = MF_OK;
    mf_err more = {0}; /* of the second and those behind it */
    for (int i = 1; i < check->n; i++) {
        if (check->seal[i].look.page == 0)
            continue;
        mf_status status = judge(check, i, places, n, first == MF_OK ? err : &more);
        check->seal[i].may_cover = status != MF_OK;
        if (first == MF_OK)
            first = status;
    }
    return first;
}
