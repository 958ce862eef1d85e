#include "seal/look.h"

#include <inttypes.h>
#include <stdio.h>

#include "seal/when.h"
#include "seal/write.h"

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

static void put_line(mf_buf *out, const char *font, const char *text, float down)
{
    mf_buf_printf(out, "%s Tf 0 -", font);
    mf_write_number(out, down);
    mf_buf_text(out, "Td ");
    put_latin(out, text);
    mf_buf_text(out, " Tj\n");
}

static void put_words(mf_buf *out, const mf_seal_ask *ask, const mf_seal_place *place)
{
    char print[MF_FINGERPRINT_HEX], line[160], date[MF_WHEN_SIZE] = "";
    mf_key_fingerprint(ask->key, print);
    mf_when_print(date, ask->signed_at); /* D:20260930162000Z */
    mf_buf_text(out, "0.5 w 0.5 0.5 ");
    mf_write_number(out, place->w - 1);
    mf_write_number(out, place->h - 1);
    mf_buf_text(out, "re S\nBT 6 ");
    mf_write_number(out, place->h);
    mf_buf_text(out, "Td\n");
    put_line(out, "/B 9", mf_key_common_name(ask->key), 12);
    snprintf(line, sizeof line, "%s  %.4s-%.2s-%.2s %.2s:%.2s UTC", mf_key_capacity(ask->key),
             date + 2, date + 6, date + 8, date + 10, date + 12);
    put_line(out, "/R 7", line, 11);
    snprintf(line, sizeof line, "SHA-256 %.32s", print);
    put_line(out, "/R 6", line, 10);
    snprintf(line, sizeof line, "%.32s", print + 32);
    put_line(out, "/R 6", line, 8);
    mf_buf_text(out, "ET");
}

void mf_look_put(mf_buf *out, const mf_seal_ask *ask, const mf_seal_place *place)
{
    mf_buf words = {0};
    if (ask->draw && place->page > 0 && place->w > 40 && place->h > 44)
        put_words(&words, ask, place);
    mf_buf_text(out, "\n/Resources << ");
    if (words.len > 0)
        mf_buf_text(out, "/Font << "
                         "/R << /Type /Font /Subtype /Type1 /BaseFont /Helvetica /Encoding "
                         "/WinAnsiEncoding >> "
                         "/B << /Type /Font /Subtype /Type1 /BaseFont /Helvetica-Bold /Encoding "
                         "/WinAnsiEncoding >> >> ");
    mf_buf_printf(out, ">>\n/Length %zu\n>>\nstream\n", words.len);
    mf_buf_add(out, mf_buf_str(&words), words.len);
    mf_buf_text(out, "\nendstream");
    out->failed = out->failed || words.failed;
    mf_buf_free(&words);
}
