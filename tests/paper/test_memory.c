/* Memory that runs out while a photo is read or a paper drawn says nothing of the photo and
 * nothing of what is logged: each allocation, also those inside libpng, zlib, libjpeg and
 * libqrencode, fails for good in turn (of a paper one in 31). This program's own malloc goes before
 * the C library's for all of them; glibc exports its own under a second name. */
#include "support/cmocka_all.h"
#include "support/paper_kit.h"

#include <mistfold/paper.h>

#include "base/file.h"
#include "paper/photo.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>

#if !defined(__SANITIZE_ADDRESS__) /* whose allocator cannot be gone before */
static long left = -1;             /* allocations that still succeed; -1 = all */

#define OURS __attribute__((visibility("default")))

extern void *__libc_malloc(size_t size);
extern void *__libc_calloc(size_t n, size_t size);
extern void *__libc_realloc(void *at, size_t size);

static bool fails(void)
{
    left -= left > 0;
    if (left == 0)
        errno = ENOMEM;
    return left == 0;
}

OURS void *malloc(size_t size)
{
    return fails() ? NULL : __libc_malloc(size);
}

OURS void *calloc(size_t n, size_t size)
{
    return fails() ? NULL : __libc_calloc(n, size);
}

OURS void *realloc(void *at, size_t size)
{
    return fails() ? NULL : __libc_realloc(at, size);
}

typedef mf_status making(mf_bytes *out, const void *of, mf_err *err);

/* At how many places memory can run out of it; tries one in `step`. */
static long starve(making *make, const void *of, int step)
{
    for (long at = 1; at < 100000; at += step) {
        mf_bytes out = {0};
        mf_err err = {0};
        left = at;
        mf_status status = make(&out, of, &err);
        left = -1;
        mf_bytes_free(&out);
        if (status == MF_OK)
            return at - step;
        if (status != MF_SYSTEM || strstr(err.what, "out of memory") == NULL)
            fail_msg("allocation %ld: %d %s", at, (int)status, err.what);
    }
    fail_msg("it never comes to an end");
    return 0;
}

static mf_status photo(mf_bytes *out, const void *of, mf_err *err)
{
    unsigned w, h;
    return mf_photo_ready(out, &w, &h, of, err);
}

/* Has the code of job and work area, drawn by libqrencode. */
static mf_status form(mf_bytes *out, const void *of, mf_err *err)
{
    return mf_paper_blank(out, MF_FORM_CONTAINMENT, "", of, err);
}
#endif

static void a_png_is_not_called_damaged(void **state)
{
    (void)state;
#if !defined(__SANITIZE_ADDRESS__)
    mf_bytes file = {0};
    assert_int_equal(mf_file_read(&file, MF_SAMPLE "/kitchen-floor.png", 1 << 24, NULL), MF_OK);
    mf_paper_photo png = {.name = "p.png", .entry = "", .data = file.data, .len = file.len};
    assert_true(starve(photo, &png, 1) > 10);
    mf_bytes_free(&file);
#endif
}

static void a_jpeg_is_not_called_damaged(void **state)
{
    (void)state;
#if !defined(__SANITIZE_ADDRESS__)
    mf_bytes file = {0};
    mf_pixels grey = {calloc(300, (size_t)200 * 3), 300, 200};
    assert_non_null(grey.at);
    assert_true(mf_photo_pack(&file, &grey));
    mf_paper_photo jpeg = {.name = "p.jpg", .entry = "", .data = file.data, .len = file.len};
    assert_true(starve(photo, &jpeg, 1) > 10);
    mf_bytes_free(&file);
    mf_pixels_free(&grey);
#endif
}

static void a_form_blames_nobody(void **state)
{
    const paper_world *w = *state;
#if !defined(__SANITIZE_ADDRESS__)
    mf_paper_ask ask = paper_ask(&w->made.job);
    ask.signer = NULL;
    mf_bytes first = {0}; /* libcrypto sets itself up once, and never if memory lacks then */
    assert_int_equal(form(&first, &ask, NULL), MF_OK);
    mf_bytes_free(&first);
    assert_true(starve(form, &ask, 31) > 10);
#endif
    assert_non_null(w);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_png_is_not_called_damaged),
        cmocka_unit_test(a_jpeg_is_not_called_damaged),
        cmocka_unit_test(a_form_blames_nobody),
    };
    return cmocka_run_group_tests(tests, paper_world_small, paper_world_end);
}
