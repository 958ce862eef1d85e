/* The QR code outside a paper, read back by zbarimg: an independent reader. */
#include "support/cmocka_all.h"
#include "support/run.h"
#include <mistfold/qr.h>

#include <stdbool.h>
#include <stdio.h>
#include <string.h>

enum { SCALE = 6, SIDE_MAX = 200 };
static const char url[] =
    "https://field.example:8745/new/J-1926#0123456789abcdefghijklmnopqrstuvwxyzABCDEFG";

static void reads_as(const char *folder, const char *file, const char *text)
{
    char command[120];
    run_result r;
    snprintf(command, sizeof command, "zbarimg -q --raw %s 2>/dev/null | tr -d '\\n'", file);
    run_shell(&r, folder, command);
    assert_string_equal(r.out, text);
}

static FILE *file_in(const char *folder, const char *name)
{
    char path[120];
    snprintf(path, sizeof path, "%s/%s", folder, name);
    FILE *file = fopen(path, "wb");
    assert_non_null(file);
    return file;
}

static void as_a_picture(void **state)
{
    char folder[64];
    mf_bytes png = {0};
    (void)state;
    run_folder(folder);
    assert_int_equal(mf_qr_png(url, &png, NULL), MF_OK);
    FILE *file = file_in(folder, "q.png");
    assert_int_equal(fwrite(png.data, 1, png.len, file), png.len);
    fclose(file);
    reads_as(folder, "q.png", url);
    mf_bytes_free(&png);
    run_remove(folder);
}

/* What a terminal shows: the upper and the lower half of each cell. */
static bool dark[SIDE_MAX][SIDE_MAX];

static int look(const mf_bytes *shown)
{
    static const char *const halves[] = {" ", "\xE2\x96\x84", "\xE2\x96\x80", "\xE2\x96\x88"};
    const char *at = (const char *)shown->data, *end = at + shown->len;
    int x = 0, y = 0, width = 0;
    while (at < end) {
        if (*at == '\033') {
            at = strchr(at, 'm') + 1;
        } else if (*at == '\n') {
            width = x;
            x = 0;
            y += 2;
            at++;
        } else {
            int is = 0;
            while (strncmp(at, halves[is], strlen(halves[is])) != 0)
                assert_true(++is < 4);
            dark[y][x] = (is & 2) != 0;
            dark[y + 1][x++] = (is & 1) != 0;
            at += strlen(halves[is]);
        }
    }
    return width;
}

static void on_a_terminal(void **state)
{
    char folder[64];
    mf_bytes shown = {0};
    (void)state;
    run_folder(folder);
    assert_int_equal(mf_qr_text(url, &shown, NULL), MF_OK);
    int side = look(&shown);
    FILE *file = file_in(folder, "q.pgm");
    fprintf(file, "P5 %d %d 255\n", side * SCALE, side * SCALE);
    for (int y = 0; y < side * SCALE; y++)
        for (int x = 0; x < side * SCALE; x++)
            fputc(dark[y / SCALE][x / SCALE] ? 0 : 255, file);
    fclose(file);
    reads_as(folder, "q.pgm", url);
    mf_bytes_free(&shown);
    run_remove(folder);
}

static void too_long(void **state)
{
    static char text[4000];
    mf_err err = {0};
    mf_bytes out = {0};
    (void)state;
    memset(text, 'a', sizeof text - 1);
    assert_int_equal(mf_qr_text(text, &out, &err), MF_INPUT);
    assert_int_equal(mf_qr_png(text, &out, &err), MF_INPUT);
    assert_string_equal(err.what, "the text is too long for it");
    assert_null(out.data);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(as_a_picture),
        cmocka_unit_test(on_a_terminal),
        cmocka_unit_test(too_long),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
