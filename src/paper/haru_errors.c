/* haru_errors.c - libharu 2.3.0 has numbers only; these are the ones that a
 * document made by this room can meet. The numbers are part of its interface
 * (hpdf_error.h) and are repeated here so that only haru.c includes it. */
#include "paper/haru_errors.h"

#include <errno.h>
#include <stddef.h>
#include <zlib.h>

typedef struct error_row {
    unsigned long code;
    const char *words;
} error_row;

static const error_row rows[] = {
    {0x1015, "the PDF library ran out of memory"},
    {0x1016, "a file could not be read"},
    {0x1017, "a file could not be opened"},
    {0x1019, "a font was loaded twice"},
    {0x1025, "the document was already broken by an earlier failure"},
    {0x1027, "the text encoding is not known to the PDF library"},
    {0x102D, "the font file is damaged"},
    {0x102E, "the font file is of a kind the PDF library cannot use"},
    {0x102F, "the font has no usable name"},
    {0x1033, "an object of the document is not valid"},
    {0x1037, "a page is not valid"},
    {0x1039, "a value handed to the PDF library was refused"},
    {0x104E, "a page was written on before a font was chosen"},
    {0x1050, "a font size was refused"},
    {0x1051, "a drawing command was given out of turn"},
    {0x1057, "a coordinate is out of range"},
    {0x105B, "a text is too long for the PDF library"},
    {0x105D, "the font does not permit embedding"},
    {0x105E, "the font has no character map the PDF library can read"},
    {0x105F, "the font file is not TrueType"},
    {0x1060, "the font file lacks a table"},
    {0x1066, "compressing a page failed"},
};

const char *mf_haru_error_words(unsigned long code)
{
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        if (rows[i].code == code)
            return rows[i].words;
    return "the PDF library failed";
}

/* The detail is an errno where a file failed, and what zlib returned where that did. */
bool mf_haru_lacks_memory(unsigned long code, unsigned long detail)
{
    return code == 0x1015 || ((code == 0x1016 || code == 0x1017) && detail == ENOMEM) ||
           (code == 0x1066 && detail == (unsigned long)Z_MEM_ERROR);
}
