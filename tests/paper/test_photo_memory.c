/* Memory that runs out while a photo is read says nothing of the photo: each allocation, also
 * those inside libpng, zlib and libjpeg, fails for good in turn. This program's own malloc
 * goes before the C library's for all of them; glibc exports its own under a second name. */
#include "support/cmocka_all.h"

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
    if (left == 0)
        errno = ENOMEM;
    left -= left > 0;
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

/* How many places it has at which memory can run out. */
static long starve(const mf_paper_photo *photo)
{
    for (long at = 1; at < 10000; at++) {
        mf_bytes out = {0};
        mf_err err = {0};
        unsigned w, h;
        left = at;
        mf_status status = mf_photo_ready(&out, &w, &h, photo, &err);
        left = -1;
        mf_bytes_free(&out);
        if (status == MF_OK)
            return at - 1;
        if (status != MF_SYSTEM || strcmp(err.what, "out of memory") != 0)
            fail_msg("allocation %ld: %d %s", at, (int)status, err.what);
    }
    fail_msg("it never comes to an end");
    return 0;
}
#endif

static void a_png_is_not_called_damaged(void **state)
{
    (void)state;
#if !defined(__SANITIZE_ADDRESS__)
    mf_bytes file = {0};
    assert_int_equal(mf_file_read(&file, MF_SAMPLE "/kitchen-floor.png", 1 << 24, NULL), MF_OK);
    mf_paper_photo photo = {.name = "p.png", .entry = "", .data = file.data, .len = file.len};
    assert_true(starve(&photo) > 10);
    mf_bytes_free(&file);
#endif
}

static void a_jpeg_is_not_called_damaged(void **state)
{
    (void)state;
#if !defined(__SANITIZE_ADDRESS__)
    mf_bytes file = {0};
    mf_pixels grey = {calloc(300, 200 * 3), 300, 200};
    assert_non_null(grey.at);
    assert_true(mf_photo_pack(&file, &grey));
    mf_paper_photo photo = {.name = "p.jpg", .entry = "", .data = file.data, .len = file.len};
    assert_true(starve(&photo) > 10);
    mf_bytes_free(&file);
    mf_pixels_free(&grey);
#endif
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_png_is_not_called_damaged),
        cmocka_unit_test(a_jpeg_is_not_called_damaged),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
