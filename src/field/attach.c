/* attach.c - a picture, and a hand that was drawn with a finger. */
#include "base/fail.h"
#include "field/log.h"
#include "field/sha256.h"
#include "journal/media.h"

#include <stdio.h>

static bool is_drawn(const mf_field_page *page)
{
    return json_is_true(json_object_get(page->ask, "sign"));
}

static mf_status check_picture(const mf_field_page *page, int *media, mf_err *err)
{
    bool whole = false;
    *media = page->len == 0 ? -1 : mf_media_of(page->bytes, page->len, &whole);
    if (*media >= 0 && whole && page->len <= MF_ATTACH_MAX)
        return MF_OK;
    mf_fail(err, MF_INPUT, "picture", "it is not a whole picture that can be kept",
            "JPEG, PNG or PDF up to 16 MiB", "take it again, smaller");
    mf_fail_name(err, "phone.picture", NULL, NULL, NULL);
    return MF_INPUT;
}

/* A hand that was drawn is a picture and no seal: it says who drew it, and over what. */
static mf_status note_of(const mf_field_page *page, mf_buf *out, mf_err *err)
{
    char head[MF_HASH_HEX];
    if (!is_drawn(page)) {
        mf_buf_text(out, mf_field_text(page, "note"));
        return out->failed ? mf_fail_memory(err) : MF_OK;
    }
    mf_status status = mf_field_head(page, head, err);
    mf_buf_printf(out, "%s %s, %s %s", mf_field_words(page, "field.drawn-by"),
                  mf_field_text(page, "name"), mf_field_words(page, "field.drawn-over"), head);
    return status == MF_OK && out->failed ? mf_fail_memory(err) : status;
}

static mf_status picture_draft(const mf_field_page *page, mf_draft **out,
                               const char sha256[MF_HASH_HEX], int media, mf_err *err)
{
    char size[24], name[80];
    mf_buf note = {0};
    const char *word = mf_field_named(mf_kind_named(MF_KIND_ATTACHMENT), "media")->choices[media];
    mf_status status = note_of(page, &note, err);
    snprintf(size, sizeof size, "%zu", page->len);
    snprintf(name, sizeof name, "%s-%.12s.%s", is_drawn(page) ? "hand" : "picture", sha256, word);
    const char *const pairs[][2] = {{"about", mf_field_text(page, "about")},
                                    {"sha256", sha256},
                                    {"media", word},
                                    {"size", size},
                                    {"name", name},
                                    {"note", mf_buf_str(&note)}};
    if (status == MF_OK)
        status = mf_draft_of(out, MF_KIND_ATTACHMENT, pairs, sizeof pairs / sizeof pairs[0], "note",
                             page->today, err);
    mf_buf_free(&note);
    return status;
}

/* The file of the reply is the line that must be kept beside the entry's. */
mf_status mf_field_attach(mf_field_page *page, json_t *out, mf_err *err)
{
    char sha256[MF_HASH_HEX];
    int media = -1;
    mf_draft *draft = NULL;
    const char *about = mf_field_text(page, "about");
    if (about[0] != '\0' && mf_field_held(page, about) == NULL)
        return mf_failf(err, MF_INPUT, "about", "", "", "there is no entry %.40s here", about);
    mf_status status = check_picture(page, &media, err);
    if (status != MF_OK)
        return status;
    mf_field_sha256(page->bytes, page->len, sha256);
    status = picture_draft(page, &draft, sha256, media, err);
    if (status == MF_OK)
        status = mf_field_keep(page, sha256, page->bytes, page->len, err);
    if (status == MF_OK)
        status = mf_field_add_draft(page, draft, out, err);
    if (status == MF_OK) {
        mf_entries_put_content(&page->file, sha256, page->bytes, page->len);
        mf_field_put(out, "sha256", sha256);
    }
    mf_draft_free(draft);
    return status;
}
