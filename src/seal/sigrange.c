#include "seal/sigrange.h"

#include <string.h>

/* The four numbers, or false. Indirect ones are refused: they could lie outside
 * what is covered. */
static bool read_numbers(mf_pdf_src *src, mf_tok array, size_t number[4])
{
    mf_tok val;
    size_t n = 0;
    if (array.kind != MF_TOK_ARRAY)
        return false;
    for (size_t at = 0; mf_array_next(src, array, &at, &val); n++) {
        if (n == 4 || val.kind != MF_TOK_INT || val.number < 0 || (uint64_t)val.number > src->len)
            return false;
        number[n] = (size_t)val.number;
    }
    return n == 4;
}

bool mf_sig_range_read(mf_pdf_src *src, mf_tok dict, mf_sig_range *out)
{
    size_t number[4];
    mf_tok contents = mf_dict_get(src, dict, "Contents");
    if (contents.kind != MF_TOK_HEX ||
        !read_numbers(src, mf_dict_get(src, dict, "ByteRange"), number))
        return false;
    size_t first = number[0], gap_at = number[1], gap_end = number[2], rest = number[3];
    if (first != 0 || gap_at != contents.at || gap_end != contents.end ||
        rest > src->len - gap_end || gap_end + rest < dict.end)
        return false;
    *out = (mf_sig_range){gap_at, gap_end, gap_end + rest};
    return true;
}

bool mf_sig_range_at_revision(const mf_pdf_src *src, size_t end)
{
    const char mark[] = "%%EOF";
    const size_t len = sizeof mark - 1;
    if (end > 0 && src->data[end - 1] == '\n')
        end--;
    if (end > 0 && src->data[end - 1] == '\r')
        end--;
    return end >= len && memcmp(src->data + end - len, mark, len) == 0;
}

bool mf_sig_contents(const mf_pdf_src *src, const mf_sig_range *range, unsigned char *out)
{
    bool small = false, capital = false;
    size_t n = range->gap_end - range->gap_at - 2;
    const unsigned char *hex = src->data + range->gap_at + 1;
    for (size_t i = 0; i < n; i++) {
        unsigned char c = hex[i], digit;
        if (c >= '0' && c <= '9') {
            digit = (unsigned char)(c - '0');
        } else if (c >= 'a' && c <= 'f') {
            small = true;
            digit = (unsigned char)(c - 'a' + 10);
        } else if (c >= 'A' && c <= 'F') {
            capital = true;
            digit = (unsigned char)(c - 'A' + 10);
        } else {
            return false;
        }
        if (i % 2 == 0)
            out[i / 2] = (unsigned char)(digit << 4);
        else
            out[i / 2] |= digit;
    }
    return n % 2 == 0 && !(small && capital);
}
