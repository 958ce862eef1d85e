#include "seal/look.h"

#include "seal/text.h"
#include "seal/when.h"
#include "seal/write.h"

#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>
#include <zlib.h>

#define PAD          6.0F
#define SMALLEST     4.5F
#define DRAWING_PART 0.55F /* of the place's width, when there is a drawing */
#define LABEL        10.0F /* under it: whose hand it is */

/* Appends text in Latin-1 as a PDF string; a character outside it is a question
 * mark here, and whole in the certificate that the reader shows. */
static void put_latin(mf_buf *out, const char *text)
{
    mf_buf_text(out, "<");
    for (const unsigned char *at = (const unsigned char *)text; *at != '\0';) {
        unsigned code = *at++;
        if (code >= 0xC2 && code <= 0xC3 && (*at & 0xC0) == 0x80)
            code = (code & 3) << 6 | (*at++ & 0x3F);
        else if (code >= 0x80) {
            code = '?';
            while ((*at & 0xC0) == 0x80)
                at++;
        }
        mf_buf_printf(out, "%02X", code);
    }
    mf_buf_text(out, ">");
}

/* A line of words, made smaller when it is too long for its room; what is too long
 * at the smallest size is cut at the edge of the place. */
typedef struct look_line {
    bool bold;
    float size, down; /* points; from the line before */
} look_line;

/* Where the words go, and the line they have reached. */
typedef struct look {
    mf_buf *out;
    const mf_seal_ask *ask;
    float left, y, room;
    bool plain; /* words stand in the reader's own face */
} look;

static float fit(float size, float wide, float room)
{
    size = wide * size <= room ? size : room / wide;
    return size < SMALLEST ? SMALLEST : size;
}

/* In a face every reader has. Its letters are on average narrower than 0.6 of their
 * size. */
static void put_plain(look *to, look_line line, const char *text)
{
    to->plain = true;
    mf_buf_printf(to->out, "BT /%s ", line.bold ? "B" : "R");
    mf_write_number(to->out, fit(line.size, 0.6F * (float)mf_text_count(text), to->room));
    mf_buf_text(to->out, "Tf ");
    mf_write_number(to->out, to->left);
    mf_write_number(to->out, to->y);
    mf_buf_text(to->out, "Td ");
    put_latin(to->out, text);
    mf_buf_text(to->out, " Tj ET\n");
}

static void put_line(look *to, look_line line, const char *text)
{
    mf_bytes ops = {0};
    float wide = 0;
    to->y -= line.down;
    if (to->ask->outline == NULL ||
        !to->ask->outline(to->ask->outline_user, line.bold, text, &ops, &wide)) {
        put_plain(to, line, text);
        return;
    }
    float size = fit(line.size, wide, to->room);
    mf_buf_text(to->out, "q ");
    mf_write_number(to->out, size);
    mf_buf_text(to->out, "0 0 ");
    mf_write_number(to->out, size);
    mf_write_number(to->out, to->left);
    mf_write_number(to->out, to->y);
    mf_buf_text(to->out, "cm\n");
    mf_buf_add(to->out, ops.data, ops.len);
    mf_buf_text(to->out, "Q\n");
    mf_bytes_free(&ops);
}

/* Returns whether a face of the reader's program is needed. */
static bool put_words(mf_buf *out, const mf_seal_ask *ask, const mf_seal_place *place, float left)
{
    char print[MF_FINGERPRINT_HEX], line[160], date[MF_WHEN_SIZE] = "";
    look to = {out, ask, left, place->h, place->w - left - PAD, false};
    mf_key_fingerprint(ask->key, print);
    mf_when_print(date, ask->signed_at); /* D:20260930162000Z */
    mf_buf_text(out, "0.5 w 0.5 0.5 ");
    mf_write_number(out, place->w - 1);
    mf_write_number(out, place->h - 1);
    mf_buf_text(out, "re S\n");
    if (ask->drawing != NULL)
        put_line(&to, (look_line){false, 5.5F, 8}, ask->drawing->witness);
    put_line(&to, (look_line){true, 9, ask->drawing == NULL ? 12 : 10},
             mf_key_common_name(ask->key));
    put_line(&to, (look_line){false, 7, 10}, mf_key_capacity(ask->key));
    snprintf(line, sizeof line, "%.4s-%.2s-%.2s %.2s:%.2s UTC", date + 2, date + 6, date + 8,
             date + 10, date + 12);
    put_line(&to, (look_line){false, 7, 9}, line);
    snprintf(line, sizeof line, "SHA-256 %.32s", print);
    put_line(&to, (look_line){false, 5.5F, 8}, line);
    snprintf(line, sizeof line, "%.32s", print + 32);
    put_line(&to, (look_line){false, 5.5F, 6}, line);
    return to.plain;
}

/* The drawing as large as its side of the place allows, its shape kept; whose hand it is
 * stands below, and a rule sets it apart from the seal. Returns as put_words. */
static bool place_drawing(mf_buf *out, const mf_seal_ask *ask, const mf_seal_place *place)
{
    const mf_seal_drawing *drawing = ask->drawing;
    const float side = place->w * DRAWING_PART;
    const float room_w = side - 2 * PAD, room_h = place->h - PAD - LABEL;
    look to = {out, ask, PAD, 4, room_w, false};
    float scale = room_w / (float)drawing->w;
    if (scale * (float)drawing->h > room_h)
        scale = room_h / (float)drawing->h;
    const float w = scale * (float)drawing->w, h = scale * (float)drawing->h;
    mf_buf_text(out, "q ");
    mf_write_number(out, w);
    mf_buf_text(out, "0 0 ");
    mf_write_number(out, h);
    mf_write_number(out, PAD + (room_w - w) / 2);
    mf_write_number(out, LABEL + (room_h - h) / 2);
    mf_buf_text(out, "cm /D Do Q\n0.5 w ");
    mf_write_number(out, side - PAD / 2);
    mf_buf_text(out, "3 m ");
    mf_write_number(out, side - PAD / 2);
    mf_write_number(out, place->h - 3);
    mf_buf_text(out, "l S\n");
    put_line(&to, (look_line){false, 6.5F, 0}, drawing->whose);
    return to.plain;
}

bool mf_look_has_room(const mf_seal_ask *ask, const mf_seal_place *place)
{
    float words = ask->drawing == NULL ? 1 : 1 - DRAWING_PART;
    return place->page > 0 && place->w * words > 40 && place->h > 46;
}

void mf_look_put(mf_buf *out, const mf_seal_ask *ask, const mf_seal_place *place, int64_t image)
{
    mf_buf words = {0};
    bool plain = false;
    if (ask->draw && mf_look_has_room(ask, place)) {
        if (ask->drawing != NULL)
            plain = place_drawing(&words, ask, place);
        plain |=
            put_words(&words, ask, place, ask->drawing == NULL ? PAD : place->w * DRAWING_PART);
    }
    mf_buf_text(out, "\n/Resources << ");
    if (plain)
        mf_buf_text(out, "/Font << "
                         "/R << /Type /Font /Subtype /Type1 /BaseFont /Helvetica /Encoding "
                         "/WinAnsiEncoding >> "
                         "/B << /Type /Font /Subtype /Type1 /BaseFont /Helvetica-Bold /Encoding "
                         "/WinAnsiEncoding >> >> ");
    if (words.len > 0 && ask->drawing != NULL)
        mf_buf_printf(out, "/XObject << /D %" PRId64 " 0 R >> ", image);
    mf_buf_printf(out, ">>\n/Length %zu\n>>\nstream\n", words.len);
    mf_buf_add(out, mf_buf_str(&words), words.len);
    mf_buf_text(out, "\nendstream");
    out->failed = out->failed || words.failed;
    mf_buf_free(&words);
}

void mf_look_drawing(mf_buf *out, const mf_seal_drawing *drawing)
{
    const uLong len = (uLong)drawing->w * drawing->h;
    uLongf packed_len = compressBound(len);
    Bytef *packed = malloc(packed_len);
    if (packed == NULL || compress2(packed, &packed_len, drawing->grey, len, 9) != Z_OK) {
        out->failed = true;
        packed_len = 0;
    }
    mf_buf_printf(out,
                  "<<\n/Type /XObject\n/Subtype /Image\n/Width %u\n/Height %u\n/ColorSpace "
                  "/DeviceGray\n/BitsPerComponent 8\n/Filter /FlateDecode\n/Length %lu\n>>\n"
                  "stream\n",
                  drawing->w, drawing->h, (unsigned long)packed_len);
    if (packed != NULL)
        mf_buf_add(out, packed, packed_len);
    mf_buf_text(out, "\nendstream");
    free(packed);
}
