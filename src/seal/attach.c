/* A file attached to a paper by an update of our own (libharu writes the path on
 * this computer into the paper), and taken out again. Source: ISO 32000-1, 7.11.4
 * and 7.7.4; /AF and /AFRelationship: ISO 32000-2, 14.13. */
#include "base/fail.h"
#include "seal/sigfind.h"
#include "seal/text.h"
#include "seal/write.h"

#include <mistfold/seal.h>

#include <inttypes.h>
#include <stdlib.h>
#include <string.h>
#include <zlib.h>

/* A name that needs no escape in a PDF string or name. */
static bool plain(const char *text, const char *more)
{
    if (text == NULL || *text == '\0' || strlen(text) > 100)
        return false;
    for (; *text != '\0'; text++) {
        bool letter = (*text >= 'a' && *text <= 'z') || (*text >= 'A' && *text <= 'Z') ||
                      (*text >= '0' && *text <= '9');
        if (!letter && strchr(more, *text) == NULL)
            return false;
    }
    return true;
}

/* "application/json" as a PDF name: the slash is written #2F. */
static void put_mime(mf_buf *out, const char *mime)
{
    mf_buf_text(out, "/");
    for (; *mime != '\0'; mime++) {
        if (*mime == '/')
            mf_buf_text(out, "#2F");
        else
            mf_buf_add(out, mime, 1);
    }
}

static mf_status put_file(mf_writer *w, int64_t num, const mf_embedded *file, mf_err *err)
{
    uLongf packed_len = compressBound((uLong)file->len);
    Bytef *packed = malloc(packed_len);
    if (packed == NULL)
        return mf_fail_memory(err);
    if (compress2(packed, &packed_len, file->data, (uLong)file->len, 9) != Z_OK) {
        free(packed);
        return mf_fail_memory(err);
    }
    mf_write_begin(w, num, 0);
    mf_buf_text(w->out, "<<\n/Type /EmbeddedFile\n/Subtype ");
    put_mime(w->out, file->mime);
    mf_buf_printf(w->out,
                  "\n/Params << /Size %zu >>\n/Filter /FlateDecode\n/Length %lu\n>>\nstream\n",
                  file->len, (unsigned long)packed_len);
    mf_buf_add(w->out, packed, packed_len);
    mf_buf_text(w->out, "\nendstream");
    mf_write_end(w);
    free(packed);
    return MF_OK;
}

static void put_spec(mf_writer *w, int64_t num, int64_t file_num, const mf_embedded *file)
{
    mf_write_begin(w, num, 0);
    mf_buf_printf(w->out, "<<\n/Type /Filespec\n/F (%s)\n/UF (%s)\n/AFRelationship /Data\n/Desc ",
                  file->name, file->name);
    mf_text_pdf(w->out, file->what);
    mf_buf_printf(w->out, "\n/EF << /F %" PRId64 " 0 R /UF %" PRId64 " 0 R >>\n>>", file_num,
                  file_num);
    mf_write_end(w);
}

static mf_status put_catalog(mf_writer *w, int64_t spec, const mf_embedded *file, mf_err *err)
{
    mf_pdf *pdf = w->pdf;
    mf_tok catalog = mf_pdf_object(pdf, pdf->root);
    mf_tok names = mf_pdf_get(pdf, catalog, "Names");
    if (names.kind != MF_TOK_DICT && names.kind != MF_TOK_END)
        return mf_write_not_followed(err, "its names cannot be read");
    if (mf_pdf_get(pdf, names, "EmbeddedFiles").kind != MF_TOK_END ||
        mf_pdf_get(pdf, catalog, "AF").kind != MF_TOK_END)
        return mf_fail(err, MF_INPUT, "the PDF", "it has attachments already",
                       "one file is attached to a paper", "take the PDF as mistfold wrote it");
    mf_write_begin(w, pdf->root.number, pdf->root.gen);
    mf_buf_text(w->out, "<<\n");
    mf_write_entries(w, catalog, "Names", "AF");
    mf_buf_text(w->out, "/Names <<\n");
    mf_write_entries(w, names, "EmbeddedFiles", "EmbeddedFiles");
    mf_buf_printf(
        w->out, "/EmbeddedFiles << /Names [(%s) %" PRId64 " 0 R] >>\n>>\n/AF [%" PRId64 " 0 R]\n>>",
        file->name, spec, spec);
    mf_write_end(w);
    return MF_OK;
}

static mf_status build(mf_writer *w, const mf_embedded *file, mf_err *err)
{
    mf_sig_list seals = {0};
    int64_t num = w->pdf->next_num;
    mf_sig_find_fields(&seals, w->pdf);
    if (seals.n > 0 || !seals.fields_known)
        return mf_fail(err, MF_INPUT, "the PDF", "it is sealed already",
                       "what is attached must lie under the seal", "attach first, then seal");
    mf_write_old(w);
    mf_status status = put_catalog(w, num + 1, file, err);
    if (status == MF_OK)
        status = put_file(w, num, file, err);
    if (status != MF_OK)
        return status;
    put_spec(w, num + 1, num, file);
    mf_write_tail(w, num + 2);
    return w->out->failed ? mf_fail_memory(err) : MF_OK;
}

mf_status mf_seal_attach(mf_bytes *out, const unsigned char *pdf, size_t len,
                         const mf_embedded *file, mf_err *err)
{
    mf_pdf in = {0};
    mf_buf grown = {0};
    *out = (mf_bytes){0};
    if (!plain(file->name, "._-") || !plain(file->mime, "/+.-") || mf_text_count(file->what) < 0 ||
        file->len > MF_ATTACHED_MAX)
        return mf_fail(err, MF_USAGE, "the attachment", "its name, its type or its size cannot be",
                       "letters, digits and . _ - in the name; at most 64 MiB", "");
    mf_status status = mf_pdf_open(&in, pdf, len, err);
    mf_writer w = {.out = &grown, .pdf = &in};
    if (status == MF_OK)
        status = build(&w, file, err);
    if (status == MF_OK)
        mf_buf_take(&grown, out);
    mf_buf_free(&grown);
    mf_pdf_close(&in);
    return status;
}

/* ---- out again -------------------------------------------------------------------- */

static mf_status no_file(mf_err *err)
{
    return mf_fail(err, MF_NO, "the PDF", "no such file is attached to it", "",
                   "take the PDF as mistfold wrote it");
}

static mf_status broken(mf_err *err)
{
    return mf_fail(err, MF_INPUT, "the PDF", "its attachment cannot be read",
                   "it is damaged, too large or of a kind that is not known here",
                   "take the PDF as mistfold wrote it");
}

static bool is_text(const mf_pdf *pdf, mf_tok tok, const char *text)
{
    size_t len = strlen(text);
    return tok.kind == MF_TOK_STRING && tok.end - tok.at == len + 2 &&
           memcmp(pdf->src.data + tok.at + 1, text, len) == 0;
}

/* The dictionary of the attached file's stream; MF_TOK_END when there is none. */
static mf_tok find_file(mf_pdf *pdf, const char *name)
{
    mf_tok names = mf_pdf_get(pdf, mf_pdf_object(pdf, pdf->root), "Names");
    mf_tok list = mf_pdf_get(pdf, mf_pdf_get(pdf, names, "EmbeddedFiles"), "Names"), key, val;
    for (size_t at = 0; list.kind == MF_TOK_ARRAY && mf_array_next(&pdf->src, list, &at, &key) &&
                        mf_array_next(&pdf->src, list, &at, &val);)
        if (is_text(pdf, key, name))
            return mf_pdf_get(pdf, mf_pdf_get(pdf, mf_pdf_resolve(pdf, val), "EF"), "F");
    return (mf_tok){.kind = MF_TOK_END};
}

/* Where the stream's bytes begin, and how many there are. */
static bool find_stream(mf_pdf *pdf, mf_tok dict, size_t *at, size_t *len)
{
    mf_tok word = mf_tok_stream(&pdf->src, dict);
    mf_tok length = mf_pdf_get(pdf, dict, "Length");
    const unsigned char *data = pdf->src.data;
    if (word.kind != MF_TOK_WORD || length.kind != MF_TOK_INT || length.number < 0)
        return false;
    *at = word.end;
    if (*at < pdf->src.len && data[*at] == '\r')
        ++*at;
    if (*at >= pdf->src.len || data[*at] != '\n')
        return false;
    ++*at;
    *len = (size_t)length.number;
    return *len <= pdf->src.len - *at;
}

static mf_status unpack(mf_bytes *out, const unsigned char *packed, size_t len, size_t size,
                        mf_err *err)
{
    uLongf got = (uLongf)size;
    unsigned char *data = malloc(size + 1);
    if (data == NULL)
        return mf_fail_memory(err);
    if (uncompress(data, &got, packed, (uLong)len) != Z_OK || got != size) {
        free(data);
        return broken(err);
    }
    data[size] = '\0';
    out->data = data;
    out->len = size;
    return MF_OK;
}

static mf_status take_out(mf_bytes *out, mf_pdf *pdf, const char *name, mf_err *err)
{
    size_t at = 0, len = 0;
    mf_tok dict = find_file(pdf, name);
    if (dict.kind == MF_TOK_END)
        return no_file(err);
    mf_tok size = mf_pdf_get(pdf, mf_pdf_get(pdf, dict, "Params"), "Size");
    mf_tok filter = mf_pdf_get(pdf, dict, "Filter");
    if (dict.kind != MF_TOK_DICT || !find_stream(pdf, dict, &at, &len) ||
        !mf_tok_is_name(&pdf->src, filter, "FlateDecode") || size.kind != MF_TOK_INT ||
        size.number < 0 || size.number > (int64_t)MF_ATTACHED_MAX)
        return broken(err);
    return unpack(out, pdf->src.data + at, len, (size_t)size.number, err);
}

mf_status mf_seal_attached(mf_bytes *out, const unsigned char *pdf, size_t len, const char *name,
                           mf_err *err)
{
    mf_pdf in = {0};
    *out = (mf_bytes){0};
    mf_status status = mf_pdf_open(&in, pdf, len, err);
    if (status == MF_OK)
        status = take_out(out, &in, name, err);
    mf_pdf_close(&in);
    return status;
}
