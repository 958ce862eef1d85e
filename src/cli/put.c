/* The one way in which the program writes a file where the user says. What stands there is
 * known by its content: a book, a key and a sealed paper are never written over. */
#include "base/fail.h"
#include "base/file.h"
#include "base/file_kind.h"
#include "cli/record.h"

#include <string.h>
#include <sys/stat.h>

/* ---- what stands there ---------------------------------------------------------------- */

typedef struct standing {
    mf_file_kind kind;
    bool sealed; /* a PDF that cannot be followed, too: nobody can say that it is not */
    bool kept;   /* and the new file begins with every byte of it */
} standing;

static mf_status look_at_seal(standing *s, const mf_bytes *there, mf_err *err)
{
    mf_seal_check check = {0};
    mf_status status = mf_seal_verify(&check, there->data, there->len, err);
    s->sealed = check.n > 0 || status == MF_OK || status == MF_INPUT;
    return status == MF_SYSTEM ? status : MF_OK;
}

/* A link is followed: it is what it leads to. A file that is too long to be looked at whole
 * is told by its beginning, and as a PDF counts as sealed. */
static mf_status look(standing *s, const char *path, const void *bytes, size_t len, mf_err *err)
{
    struct stat st;
    mf_bytes there = {0};
    *s = (standing){.kind = MF_FILE_EMPTY};
    if (stat(path, &st) != 0 || !S_ISREG(st.st_mode))
        return MF_OK; /* new, or writing it has words of its own */
    bool whole = st.st_size <= MF_PAPER_FILE_MAX;
    mf_status status = whole ? mf_file_read(&there, path, MF_PAPER_FILE_MAX, err)
                             : mf_file_read_head(&there, path, 65536, err);
    if (status != MF_OK)
        return status;
    s->kind = mf_file_kind_of(there.data, there.len);
    if (s->kind == MF_FILE_PDF && whole)
        status = look_at_seal(s, &there, err);
    s->sealed = s->sealed || (s->kind == MF_FILE_PDF && !whole);
    s->kept = whole && len >= there.len && memcmp(bytes, there.data, there.len) == 0;
    mf_bytes_free(&there);
    return status;
}

/* ---- whether it may go ---------------------------------------------------------------- */

#define ELSEWHERE "choose another name, or move that file away"

/* Never, whatever was asked for. What somebody sealed is evidence, perhaps the only copy,
 * and no second sealing gives the same bytes. A further seal keeps all of them in front. */
static mf_status never(const standing *s, const char *path, mf_err *err)
{
    if (s->kind == MF_FILE_BOOK)
        return mf_fail(err, MF_INPUT, path, "a book stands there", "a book is never written over",
                       ELSEWHERE);
    if (s->kind == MF_FILE_LOG)
        return mf_fail(err, MF_INPUT, path, "a part of a book stands there",
                       "entries may be in it that are nowhere else", ELSEWHERE);
    if (s->kind == MF_FILE_KEY)
        return mf_fail(err, MF_INPUT, path, "a key or a certificate stands there",
                       "a key that is written over is lost for good", ELSEWHERE);
    if (s->sealed && !s->kept)
        return mf_fail(err, MF_INPUT, path, "a sealed paper stands there",
                       "what was sealed is evidence and is never written over",
                       "choose another name, or move that paper away");
    return MF_OK;
}

static mf_status other_kind(mf_file_kind there, mf_file_kind ours, const char *path, mf_err *err)
{
    static const char *const names[MF_FILE_KINDS] = {
        [MF_FILE_EMPTY] = "empty",
        [MF_FILE_BOOK] = "a book",
        [MF_FILE_LOG] = "part of a book",
        [MF_FILE_KEY] = "a key",
        [MF_FILE_PDF] = "a PDF",
        [MF_FILE_WORKBOOK] = "a workbook",
        [MF_FILE_PICTURE] = "a picture",
        [MF_FILE_TEXT] = "a text",
        [MF_FILE_OTHER] = "of no kind known here",
    };
    char why[80];
    snprintf(why, sizeof why, "it is %s, and %s would take its place", names[there], names[ours]);
    return mf_fail(err, MF_INPUT, path, "a file of another kind stands there", why,
                   "choose another name, or say --force");
}

mf_status mf_cli_may_put(const mf_cli *cli, const char *path, const void *bytes, size_t len,
                         mf_err *err)
{
    standing s;
    mf_file_kind ours = mf_file_kind_of(bytes, len);
    mf_status status = look(&s, path, bytes, len, err);
    if (status == MF_OK)
        status = never(&s, path, err);
    if (status != MF_OK || cli->force || s.kind == MF_FILE_EMPTY)
        return status;
    return s.kind == ours && s.kind != MF_FILE_OTHER ? MF_OK : other_kind(s.kind, ours, path, err);
}

mf_status mf_cli_may_put_paper(const mf_cli *cli, const char *path, mf_err *err)
{
    return mf_cli_may_put(cli, path, "%PDF-", 5, err);
}

mf_status mf_cli_put(const mf_cli *cli, const char *path, const void *bytes, size_t len,
                     mf_err *err)
{
    mf_status status = mf_cli_may_put(cli, path, bytes, len, err);
    return status == MF_OK ? mf_file_write(path, bytes, len, 0600, err) : status;
}
