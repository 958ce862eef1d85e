#include "paper/pdf_meta.h"

#include "base/digest.h"
#include "base/fail.h"
#include "paper/pdf_icc.h"

#include <stdlib.h>
#include <string.h>

#define CATALOG "1 0 obj\n<<\n"

enum { XREF_ROW = 20 }; /* bytes of a row of the table: ISO 32000-1, 7.5.4 */

/* Where the parts of the old file are. */
typedef struct parts {
    size_t catalog; /* behind its "<<" */
    size_t xref;    /* the table's keyword */
    size_t rows;    /* its first row */
    size_t size;    /* how many rows */
    long root, info;
} parts;

static const char *find_last(const char *text, size_t len, const char *word)
{
    size_t n = strlen(word);
    for (size_t at = len < n ? 0 : len - n + 1; at > 0; at--)
        if (memcmp(text + at - 1, word, n) == 0)
            return text + at - 1;
    return NULL;
}

/* "NAME 12 0 R": the number of the object. 0 = not there. */
static long reference(const char *text, const char *name)
{
    const char *at = strstr(text, name);
    char *end = NULL;
    const long number = at == NULL ? 0 : strtol(at + strlen(name), &end, 10);
    return number > 0 && strncmp(end, " 0 R\n", 5) == 0 ? number : 0;
}

static bool take_apart(parts *out, const char *text, size_t len)
{
    const char *xref = find_last(text, len, "\nxref\n0 ");
    const char *trailer = find_last(text, len, "\ntrailer\n");
    const char *catalog = strstr(text, CATALOG); /* ends at a NUL, which stands far behind it */
    char *end = NULL;
    if (xref == NULL || trailer == NULL || catalog == NULL || xref > trailer || catalog > xref)
        return false;
    out->catalog = (size_t)(catalog - text) + strlen(CATALOG);
    out->xref = (size_t)(xref - text) + 1;
    out->size = (size_t)strtoul(xref + strlen("\nxref\n0 "), &end, 10);
    out->rows = (size_t)(end - text) + 1;
    out->root = reference(trailer, "\n/Root ");
    out->info = reference(trailer, "\n/Info ");
    return *end == '\n' && out->size > 1 &&
           out->rows + out->size * XREF_ROW == (size_t)(trailer - text) + 1 && out->root == 1 &&
           out->info > 0;
}

/* ---- XMP ------------------------------------------------------------------------------ */

static void put_escaped(mf_buf *out, const char *text)
{
    for (; *text != '\0'; text++) {
        if (*text == '&')
            mf_buf_text(out, "&amp;");
        else if (*text == '<')
            mf_buf_text(out, "&lt;");
        else if (*text == '>')
            mf_buf_text(out, "&gt;");
        else
            mf_buf_add(out, text, 1);
    }
}

/* "uuid:" of the first half of a hash. */
static void put_uuid(mf_buf *out, const char *hash)
{
    mf_buf_printf(out, "uuid:%.8s-%.4s-%.4s-%.4s-%.12s", hash, hash + 8, hash + 12, hash + 16,
                  hash + 20);
}

static void put_xmp(mf_buf *out, const mf_pdf_meta *meta, const char *hash)
{
    mf_buf_text(out, "<?xpacket begin=\"\xEF\xBB\xBF\" id=\"W5M0MpCehiHzreSzNTczkc9d\"?>\n"
                     "<x:xmpmeta xmlns:x=\"adobe:ns:meta/\">\n"
                     "<rdf:RDF xmlns:rdf=\"http://www.w3.org/1999/02/22-rdf-syntax-ns#\">\n"
                     "<rdf:Description rdf:about=\"\"\n"
                     " xmlns:dc=\"http://purl.org/dc/elements/1.1/\"\n"
                     " xmlns:pdf=\"http://ns.adobe.com/pdf/1.3/\"\n"
                     " xmlns:xmpMM=\"http://ns.adobe.com/xap/1.0/mm/\">\n"
                     "<dc:format>application/pdf</dc:format>\n"
                     "<dc:title><rdf:Alt><rdf:li xml:lang=\"x-default\">");
    put_escaped(out, meta->title);
    mf_buf_text(out, "</rdf:li></rdf:Alt></dc:title>\n");
    if (*meta->language != '\0') {
        mf_buf_text(out, "<dc:language><rdf:Bag><rdf:li>");
        put_escaped(out, meta->language);
        mf_buf_text(out, "</rdf:li></rdf:Bag></dc:language>\n");
    }
    mf_buf_text(out, "<pdf:Producer>mistfold " MF_VERSION "</pdf:Producer>\n<xmpMM:DocumentID>");
    put_uuid(out, hash);
    mf_buf_text(out, "</xmpMM:DocumentID>\n<xmpMM:InstanceID>");
    put_uuid(out, hash);
    mf_buf_text(out, "</xmpMM:InstanceID>\n</rdf:Description>\n</rdf:RDF>\n</x:xmpmeta>\n"
                     "<?xpacket end=\"r\"?>");
}

/* ---- the new file ----------------------------------------------------------------------- */

static void put_stream(mf_buf *out, size_t number, const char *entries, const mf_buf *body)
{
    mf_buf_printf(out, "%zu 0 obj\n<<\n%s/Length %zu\n>>\nstream\n", number, entries, body->len);
    mf_buf_add(out, mf_buf_str(body), body->len);
    mf_buf_text(out, "\nendstream\nendobj\n");
}

/* The old rows, those of objects behind the catalog's "<<" moved by what was put in there. */
static void put_rows(mf_buf *out, const char *text, const parts *old, size_t moved)
{
    for (size_t i = 0; i < old->size; i++) {
        const char *row = text + old->rows + i * XREF_ROW;
        unsigned long at = strtoul(row, NULL, 10);
        if (row[17] == 'n' && at > old->catalog)
            mf_buf_printf(out, "%010lu%.*s", at + moved, XREF_ROW - 10, row + 10);
        else
            mf_buf_add(out, row, XREF_ROW);
    }
}

static void write_new(mf_buf *out, const char *text, const parts *old, const mf_pdf_meta *meta,
                      const char *hash)
{
    mf_buf xmp = {0}, icc = {0};
    const size_t xmp_no = old->size, icc_no = old->size + 1, tree_no = old->size + 2;
    const size_t n_new = 2 + mf_tags_objects(meta->tags);
    size_t *at = calloc(n_new, sizeof *at);
    if (at == NULL) {
        out->failed = true;
        return;
    }
    put_xmp(&xmp, meta, hash);
    mf_pdf_icc(&icc);
    mf_buf_add(out, text, old->catalog);
    mf_buf_printf(out,
                  "/Metadata %zu 0 R\n/OutputIntents [<< /Type /OutputIntent /S /GTS_PDFA1 "
                  "/OutputConditionIdentifier (sRGB) /Info (sRGB) /DestOutputProfile %zu 0 R >>]\n",
                  xmp_no, icc_no);
    if (n_new > 2)
        mf_buf_printf(out, "/MarkInfo <</Marked true>>\n/StructTreeRoot %zu 0 R\n", tree_no);
    const size_t moved = out->len - old->catalog;
    mf_buf_add(out, text + old->catalog, old->xref - old->catalog);
    at[0] = out->len;
    put_stream(out, xmp_no, "/Type /Metadata /Subtype /XML\n", &xmp);
    at[1] = out->len;
    put_stream(out, icc_no, "/N 3\n", &icc);
    bool whole = mf_tags_write(out, meta->tags, meta->page_no, tree_no, at + 2);
    const size_t xref = out->len;
    mf_buf_printf(out, "xref\n0 %zu\n", old->size + n_new);
    put_rows(out, text, old, moved);
    for (size_t i = 0; i < n_new; i++)
        mf_buf_printf(out, "%010zu 00000 n\r\n", at[i]);
    mf_buf_printf(out,
                  "trailer\n<<\n/Root %ld 0 R\n/Info %ld 0 R\n/Size %zu\n/ID [<%.32s> <%.32s>]\n"
                  ">>\nstartxref\n%zu\n%%%%EOF\n",
                  old->root, old->info, old->size + n_new, hash, hash, xref);
    free(at);
    out->failed = out->failed || !whole || xmp.failed || icc.failed;
    mf_buf_free(&xmp);
    mf_buf_free(&icc);
}

/* "%PDF-1.3" says 1.7: the metadata and the seal are of later versions. */
static void say_version(mf_buf *out)
{
    char *text = out->data;
    if (out->len > 8 && memcmp(text, "%PDF-1.", 7) == 0)
        text[7] = '7';
}

mf_status mf_pdf_meta_add(mf_bytes *pdf, const mf_pdf_meta *meta, mf_err *err)
{
    char hash[MF_DIGEST_HEX];
    parts old = {0};
    mf_buf out = {0};
    char *text = malloc(pdf->len + 1);
    if (text == NULL || !mf_digest_hex(pdf->data, pdf->len, hash)) {
        free(text);
        return mf_fail_memory(err);
    }
    memcpy(text, pdf->data, pdf->len);
    text[pdf->len] = '\0';
    mf_status status = MF_OK;
    if (!take_apart(&old, text, pdf->len))
        status = mf_fail(err, MF_SYSTEM, "paper",
                         "the drawing library wrote a PDF that cannot be "
                         "followed",
                         "its catalog and its table are looked for where they always stand",
                         "report it with the version of the library");
    if (status == MF_OK) {
        write_new(&out, text, &old, meta, hash);
        say_version(&out);
        status = out.failed ? mf_fail_memory(err) : MF_OK;
    }
    free(text);
    if (status == MF_OK) {
        mf_bytes_free(pdf);
        mf_buf_take(&out, pdf);
    } else {
        mf_buf_free(&out);
    }
    return status;
}
