/* Layout by ICC.1:2001-04: a header of 128 bytes, a table of tags, the tags; numbers begin
 * with the high byte; s15Fixed16 counts in 65536ths. */
#include "paper/pdf_icc.h"

enum { HEADER = 128, ENTRY = 12, TAGS = 9 };

#define NAME      "mistfold papers: sRGB primaries, gamma 2.2"
#define COPYRIGHT "no copyright"

/* Adapted to the white of the connection space, D50, in 65536ths. */
static const int32_t white[3] = {63190, 65536, 54061};
static const int32_t red[3] = {28578, 14583, 912};
static const int32_t green[3] = {25240, 46983, 6361};
static const int32_t blue[3] = {9378, 3970, 46799};

static void put32(mf_buf *out, uint32_t number)
{
    const unsigned char bytes[] = {(unsigned char)(number >> 24), (unsigned char)(number >> 16),
                                   (unsigned char)(number >> 8), (unsigned char)number};
    mf_buf_add(out, bytes, sizeof bytes);
}

static void put_zeros(mf_buf *out, size_t n)
{
    static const unsigned char zeros[HEADER];
    mf_buf_add(out, zeros, n);
}

static void put_xyz(mf_buf *out, const int32_t value[3])
{
    mf_buf_text(out, "XYZ ");
    put32(out, 0);
    for (int i = 0; i < 3; i++)
        put32(out, (uint32_t)value[i]);
}

/* textDescriptionType: the name in ASCII; no other alphabets. */
static void put_description(mf_buf *out)
{
    mf_buf_text(out, "desc");
    put32(out, 0);
    put32(out, sizeof NAME);
    mf_buf_add(out, NAME, sizeof NAME);
    put_zeros(out, 8 + 2 + 1 + 67);
}

static void put_text(mf_buf *out)
{
    mf_buf_text(out, "text");
    put32(out, 0);
    mf_buf_add(out, COPYRIGHT, sizeof COPYRIGHT);
}

/* One entry of u8Fixed8: a power, 2.2 = 563 / 256. */
static void put_curve(mf_buf *out)
{
    mf_buf_text(out, "curv");
    put32(out, 0);
    put32(out, 1);
    put32(out, 563U << 16);
}

static void align(mf_buf *out)
{
    put_zeros(out, (4 - out->len % 4) % 4);
}

static void put_header(mf_buf *out, size_t size)
{
    const size_t from = out->len;
    put32(out, (uint32_t)size);
    put32(out, 0);
    put32(out, 0x02100000U);
    mf_buf_text(out, "mntrRGB XYZ ");
    const unsigned char date[] = {0x07, 0xEA, 0, 1, 0, 1, 0, 0, 0, 0, 0, 0}; /* 2026-01-01 */
    mf_buf_add(out, date, sizeof date);
    mf_buf_text(out, "acsp");
    put_zeros(out, 28);
    put32(out, (uint32_t)white[0]);
    put32(out, (uint32_t)white[1]);
    put32(out, (uint32_t)white[2]);
    put_zeros(out, HEADER - (out->len - from));
}

void mf_pdf_icc(mf_buf *out)
{
    static const char *const names[TAGS] = {"desc", "cprt", "wtpt", "rXYZ", "gXYZ",
                                            "bXYZ", "rTRC", "gTRC", "bTRC"};
    const int32_t *const colors[] = {white, red, green, blue};
    mf_buf tags = {0}, whole = {0};
    size_t at[TAGS] = {0}, len[TAGS] = {0};
    const size_t start = HEADER + 4 + TAGS * ENTRY;
    for (int i = 0; i < TAGS; i++) {
        at[i] = i > 6 ? at[6] : start + tags.len; /* one curve for the three */
        const size_t from = tags.len;
        if (i == 0)
            put_description(&tags);
        else if (i == 1)
            put_text(&tags);
        else if (i < 6)
            put_xyz(&tags, colors[i - 2]);
        else if (i == 6)
            put_curve(&tags);
        len[i] = i > 6 ? len[6] : tags.len - from;
        align(&tags);
    }
    put_header(&whole, start + tags.len);
    put32(&whole, TAGS);
    for (int i = 0; i < TAGS; i++) {
        mf_buf_text(&whole, names[i]);
        put32(&whole, (uint32_t)at[i]);
        put32(&whole, (uint32_t)len[i]);
    }
    mf_buf_add(&whole, mf_buf_str(&tags), tags.len);
    mf_buf_add(out, mf_buf_str(&whole), whole.len);
    out->failed = out->failed || whole.failed || tags.failed;
    mf_buf_free(&whole);
    mf_buf_free(&tags);
}
