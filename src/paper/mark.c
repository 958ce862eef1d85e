#include "paper/mark.h"

/* Points in a unit square, scaled into place. */
static void path(mf_haru *haru, mf_ink fill, mf_ink edge, float thick, mf_point at, float size,
                 const mf_point *unit, size_t n)
{
    mf_point points[32];
    for (size_t i = 0; i < n; i++)
        points[i] = (mf_point){at.x + unit[i].x * size, at.y + unit[i].y * size};
    mf_haru_path(haru, fill, edge, thick, points, n);
}

static void box(mf_haru *haru, mf_ink fill, mf_point at, float size)
{
    mf_haru_rect(haru, fill, MF_INK_BLACK, size * 0.08F, at, (mf_point){size, size});
}

static void tick(mf_haru *haru, mf_point at, float size)
{
    static const mf_point stroke[] = {{0.20F, 0.52F}, {0.43F, 0.76F}, {0.84F, 0.20F}};
    box(haru, MF_INK_NONE, at, size);
    path(haru, MF_INK_NONE, MF_INK_BLACK, size * 0.15F, at, size, stroke, 3);
}

static void cross(mf_haru *haru, mf_point at, float size)
{
    static const mf_point down[] = {{0.22F, 0.22F}, {0.78F, 0.78F}};
    static const mf_point up[] = {{0.22F, 0.78F}, {0.78F, 0.22F}};
    box(haru, MF_INK_BLACK, at, size);
    path(haru, MF_INK_NONE, MF_INK_WHITE, size * 0.16F, at, size, down, 2);
    path(haru, MF_INK_NONE, MF_INK_WHITE, size * 0.16F, at, size, up, 2);
}

static void dash(mf_haru *haru, mf_point at, float size)
{
    static const mf_point bar[] = {{0.22F, 0.5F}, {0.78F, 0.5F}};
    box(haru, MF_INK_NONE, at, size);
    path(haru, MF_INK_NONE, MF_INK_BLACK, size * 0.14F, at, size, bar, 2);
}

static void warn(mf_haru *haru, mf_point at, float size)
{
    static const mf_point triangle[] = {{0.5F, 0.0F}, {1.0F, 0.96F}, {0.0F, 0.96F}};
    static const mf_point stem[] = {{0.5F, 0.34F}, {0.5F, 0.64F}};
    path(haru, MF_INK_WHITE, MF_INK_BLACK, size * 0.10F, at, size, triangle, 3);
    path(haru, MF_INK_NONE, MF_INK_BLACK, size * 0.12F, at, size, stem, 2);
    mf_haru_disc(haru, MF_INK_BLACK, MF_INK_NONE, 0,
                 (mf_point){at.x + 0.5F * size, at.y + 0.79F * size}, 0.065F * size);
}

static void disc(mf_haru *haru, mf_ink fill, mf_point at, float size)
{
    mf_haru_disc(haru, fill, MF_INK_BLACK, size * 0.10F,
                 (mf_point){at.x + size / 2, at.y + size / 2}, size * 0.45F);
}

/* The left half of a unit disc, every 15 degrees. */
static const mf_point left_half[] = {
    {0.500F, 0.050F}, {0.384F, 0.065F}, {0.275F, 0.110F}, {0.182F, 0.182F}, {0.110F, 0.275F},
    {0.065F, 0.384F}, {0.050F, 0.500F}, {0.065F, 0.616F}, {0.110F, 0.725F}, {0.182F, 0.818F},
    {0.275F, 0.890F}, {0.384F, 0.935F}, {0.500F, 0.950F}};

static void half(mf_haru *haru, mf_point at, float size)
{
    disc(haru, MF_INK_WHITE, at, size);
    path(haru, MF_INK_BLACK, MF_INK_NONE, 0, at, size, left_half,
         sizeof left_half / sizeof left_half[0]);
}

static void draw(mf_haru *haru, mf_mark mark, mf_point at, float size)
{
    switch (mark) {
    case MF_MARK_TICK:
        tick(haru, at, size);
        break;
    case MF_MARK_CROSS:
        cross(haru, at, size);
        break;
    case MF_MARK_OPEN:
        box(haru, MF_INK_NONE, at, size);
        break;
    case MF_MARK_DASH:
        dash(haru, at, size);
        break;
    case MF_MARK_WARN:
        warn(haru, at, size);
        break;
    case MF_MARK_FULL:
        disc(haru, MF_INK_BLACK, at, size);
        break;
    case MF_MARK_HALF:
        half(haru, at, size);
        break;
    case MF_MARK_RING:
        disc(haru, MF_INK_WHITE, at, size);
        break;
    case MF_MARK_BAR:
        mf_haru_line(haru, MF_INK_BLACK, size * 0.14F,
                     (mf_point){at.x + size * 0.1F, at.y + size / 2},
                     (mf_point){at.x + size * 0.9F, at.y + size / 2});
        break;
    case MF_MARK_NONE:
    case MF_MARK_COUNT:
        break;
    }
}

/* The character each stands for, to who has the paper read aloud. */
void mf_mark_draw(mf_haru *haru, mf_mark mark, mf_point at, float size)
{
    static const char *const characters[MF_MARK_COUNT] = {
        [MF_MARK_TICK] = "\u2611", [MF_MARK_CROSS] = "\u2612", [MF_MARK_OPEN] = "\u2610",
        [MF_MARK_DASH] = "\u229F", [MF_MARK_WARN] = "\u26A0",  [MF_MARK_FULL] = "\u25CF",
        [MF_MARK_HALF] = "\u25D0", [MF_MARK_RING] = "\u25CB",  [MF_MARK_BAR] = "\u2013"};
    if (mark <= MF_MARK_NONE || mark >= MF_MARK_COUNT)
        return;
    mf_haru_begin(haru, MF_TAG_MARK, characters[mark]);
    draw(haru, mark, at, size);
    mf_haru_end(haru);
}
