/* Photos: decoded with limits, set upright, scaled down; a damaged one is an error
 * that names the file. Pictures are made here: a red left half and a blue right
 * half, with a green upper left corner. */
#include "support/cmocka_all.h"
#include "support/paper_kit.h"
#include "support/run.h"

#include "paper/photo.h"

#include <stdio.h>

#include <jpeglib.h>
#include <png.h>
#include <stdlib.h>
#include <string.h>

static mf_pixels picture(unsigned w, unsigned h)
{
    mf_pixels out = {calloc((size_t)w * h, 3), w, h};
    assert_non_null(out.at);
    for (unsigned y = 0; y < h; y++)
        for (unsigned x = 0; x < w; x++) {
            unsigned char *to = out.at + ((size_t)y * w + x) * 3;
            bool corner = x < w / 4 && y < h / 4;
            to[corner ? 1 : x < w / 2 ? 0 : 2] = 220;
        }
    return out;
}

static mf_bytes png_of(unsigned w, unsigned h)
{
    mf_pixels pixels = picture(w, h);
    png_image image;
    memset(&image, 0, sizeof image);
    image.version = PNG_IMAGE_VERSION;
    image.format = PNG_FORMAT_RGB;
    image.width = w;
    image.height = h;
    png_alloc_size_t size = 0;
    assert_true(png_image_write_get_memory_size(image, size, 0, pixels.at, 0, NULL));
    mf_bytes out = {malloc(size), size};
    assert_non_null(out.data);
    assert_true(png_image_write_to_memory(&image, out.data, &size, 0, pixels.at, 0, NULL));
    out.len = size;
    mf_pixels_free(&pixels);
    return out;
}

static mf_bytes jpeg_of(unsigned w, unsigned h)
{
    mf_pixels pixels = picture(w, h);
    mf_bytes out = {0};
    assert_true(mf_photo_pack(&out, &pixels));
    mf_pixels_free(&pixels);
    return out;
}

/* 'r', 'g' or 'b': what a pixel mostly is. */
static char color(const mf_pixels *in, unsigned x, unsigned y)
{
    const unsigned char *at = in->at + ((size_t)y * in->w + x) * 3;
    return at[0] > 120 ? 'r' : at[1] > 120 ? 'g' : at[2] > 120 ? 'b' : '?';
}

/* One color in four inks, through libjpeg itself; with the marker APP14 a value is the
 * light that an ink lets through. */
static mf_bytes inks_of(const unsigned char ink[4], bool adobe)
{
    enum { SIDE = 16 };
    struct jpeg_compress_struct out;
    struct jpeg_error_mgr err;
    unsigned char row[SIDE * 4], *data = NULL;
    unsigned long len = 0;
    JSAMPROW rows[] = {row};
    mf_bytes file = {0};
    for (int x = 0; x < SIDE; x++)
        memcpy(row + (size_t)x * 4, ink, 4);
    out.err = jpeg_std_error(&err);
    jpeg_create_compress(&out);
    jpeg_mem_dest(&out, &data, &len);
    out.image_width = out.image_height = SIDE;
    out.input_components = 4;
    out.in_color_space = JCS_CMYK;
    jpeg_set_defaults(&out);
    jpeg_set_quality(&out, 100, TRUE);
    out.write_Adobe_marker = adobe;
    jpeg_start_compress(&out, TRUE);
    for (int y = 0; y < SIDE; y++)
        jpeg_write_scanlines(&out, rows, 1);
    jpeg_finish_compress(&out);
    jpeg_destroy_compress(&out);
    file.data = data;
    file.len = len;
    return file;
}

/* Red is magenta and yellow without cyan and black, however the file counts; black ink is
 * black. */
static void inks_are_read(void **state)
{
    static const struct {
        unsigned char ink[4];
        bool adobe;
        unsigned char rgb[3];
    } rows[] = {
        {{255, 0, 0, 255}, true, {255, 0, 0}},     {{0, 255, 255, 0}, false, {255, 0, 0}},
        {{255, 255, 255, 0}, true, {0, 0, 0}},     {{0, 0, 0, 255}, false, {0, 0, 0}},
        {{255, 255, 0, 128}, true, {128, 128, 0}},
    };
    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        mf_bytes file = inks_of(rows[i].ink, rows[i].adobe);
        mf_pixels out = {0};
        int turn = 0;
        assert_null(mf_photo_jpeg(&out, &turn, file.data, file.len));
        for (int k = 0; k < 3; k++)
            assert_in_range(out.at[k] + 3, rows[i].rgb[k], rows[i].rgb[k] + 6);
        mf_pixels_free(&out);
        mf_bytes_free(&file);
    }
}

static mf_paper_photo photo_of(const mf_bytes *bytes, const char *name)
{
    return (mf_paper_photo){bytes->data,
                            bytes->len,
                            name,
                            "Kitchen before the work",
                            "00112233445566778899aabbccddeeff00112233445566778899aabbccddeeff",
                            "office/7",
                            ""};
}

static void both_kinds_are_read(void **state)
{
    (void)state;
    for (int kind = 0; kind < 2; kind++) {
        mf_pixels out = {0};
        int turn = 0;
        mf_bytes file = kind == 0 ? png_of(400, 200) : jpeg_of(400, 200);
        assert_null(kind == 0 ? mf_photo_png(&out, file.data, file.len)
                              : mf_photo_jpeg(&out, &turn, file.data, file.len));
        assert_int_equal(out.w, 400);
        assert_int_equal(out.h, 200);
        assert_int_equal(color(&out, 10, 10), 'g');
        assert_int_equal(color(&out, 10, 190), 'r');
        assert_int_equal(color(&out, 390, 10), 'b');
        mf_pixels_free(&out);
        mf_bytes_free(&file);
    }
}

static void large_ones_are_scaled(void **state)
{
    (void)state;
    for (int kind = 0; kind < 2; kind++) {
        mf_err err = {0};
        mf_bytes file = kind == 0 ? png_of(4000, 3000) : jpeg_of(4000, 3000), small = {0};
        mf_paper_photo photo = photo_of(&file, "a.jpg");
        unsigned w = 0, h = 0;
        assert_int_equal(mf_photo_ready(&small, &w, &h, &photo, &err), MF_OK);
        assert_int_equal(w, MF_PHOTO_SIDE);
        assert_int_equal(h, 825);
        assert_true(small.len < 200000);
        mf_bytes_free(&small);
        mf_bytes_free(&file);
    }
}

/* Exif 2.3: 6 = the camera was turned, row 0 of the file is seen on the right. The
 * green corner of the file, upper left, is then seen at the upper right; for 3 at
 * the lower right, for 8 at the lower left, for 2 at the upper right. */
typedef struct turn_case {
    int turn;
    unsigned w, h, x, y; /* of what is seen; where green is */
} turn_case;

static const turn_case turns[] = {{1, 40, 20, 1, 1},   {2, 40, 20, 38, 1}, {3, 40, 20, 38, 18},
                                  {4, 40, 20, 1, 18},  {5, 20, 40, 1, 1},  {6, 20, 40, 18, 1},
                                  {7, 20, 40, 18, 38}, {8, 20, 40, 1, 38}};

static void turned_upright(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof turns / sizeof turns[0]; i++) {
        mf_pixels in = picture(40, 20);
        assert_true(mf_photo_upright(&in, turns[i].turn));
        assert_int_equal(in.w, turns[i].w);
        assert_int_equal(in.h, turns[i].h);
        if (color(&in, turns[i].x, turns[i].y) != 'g')
            fail_msg("turn %d", turns[i].turn);
        mf_pixels_free(&in);
    }
}

/* TIFF 6.0: II = little, MM = big; one entry 0x0112, SHORT, count 1. */
static void reads_the_turn(void **state)
{
    static const unsigned char little[] = "Exif\0\0II*\0\x08\0\0\0\x01\0\x12\x01\x03\0\x01\0\0\0"
                                          "\x06\0\0\0";
    static const unsigned char big[] = "Exif\0\0MM\0*\0\0\0\x08\0\x01\x01\x12\0\x03\0\0\0\x01"
                                       "\0\x08\0\0";
    static const unsigned char far[] = "Exif\0\0II*\0\xff\xff\xff\xff\x01\0\x12\x01\x03\0\x01";
    (void)state;
    assert_int_equal(mf_photo_exif_turn(little, sizeof little - 1), 6);
    assert_int_equal(mf_photo_exif_turn(big, sizeof big - 1), 8);
    assert_int_equal(mf_photo_exif_turn(far, sizeof far - 1), 1);
    for (size_t len = 0; len < sizeof little - 1; len++)
        mf_photo_exif_turn(little, len);
}

/* Cut short at every 40th of its length, and changed bytes: an error that names the
 * file, or a picture; never an end of the program. */
static void damaged_ones_are_named(void **state)
{
    (void)state;
    for (int kind = 0; kind < 2; kind++) {
        mf_bytes file = kind == 0 ? png_of(300, 200) : jpeg_of(300, 200), small = {0};
        unsigned w = 0, h = 0;
        for (size_t i = 0; i < 40; i++) {
            mf_err err = {0};
            mf_paper_photo photo = photo_of(&file, "kitchen.jpg");
            photo.len = file.len * i / 40;
            assert_int_equal(mf_photo_ready(&small, &w, &h, &photo, &err), MF_INPUT);
            assert_string_equal(err.where, "office/7");
        }
        for (size_t i = 0; i < file.len; i += 3) {
            mf_paper_photo photo = photo_of(&file, "kitchen.jpg");
            file.data[i] ^= 0x55;
            mf_status status = mf_photo_ready(&small, &w, &h, &photo, NULL);
            assert_true(status == MF_OK || status == MF_INPUT);
            mf_bytes_free(&small);
            file.data[i] ^= 0x55;
        }
        mf_bytes_free(&file);
    }
}

/* A header that claims 60,000 x 60,000 pixels is refused before memory is taken. */
static void too_large_is_refused(void **state)
{
    (void)state;
    mf_err err = {0};
    mf_bytes file = jpeg_of(64, 64), small = {0};
    unsigned w = 0, h = 0;
    size_t at = 0;
    while (file.data[at] != 0xFF || file.data[at + 1] != 0xC0) /* SOF0: length, depth, size */
        at++;
    memset(file.data + at + 5, 0xEA, 4);
    mf_paper_photo photo = photo_of(&file, "huge.jpg");
    assert_int_equal(mf_photo_ready(&small, &w, &h, &photo, &err), MF_INPUT);
    assert_non_null(strstr(err.what, "50 million"));
    photo = (mf_paper_photo){(const unsigned char *)"GIF89a", 6, "a.gif", "", "", "", ""};
    assert_int_equal(mf_photo_ready(&small, &w, &h, &photo, &err), MF_INPUT);
    assert_non_null(strstr(err.what, "neither a JPEG nor a PNG"));
    mf_bytes_free(&file);
}

/* In the record: picture, caption and hash; poppler sees the images. */
static void stand_in_the_record(void **state)
{
    (void)state;
    char folder[64];
    paper_job made;
    mf_bytes a = png_of(800, 600), b = jpeg_of(600, 800);
    mf_paper_photo photos[2] = {photo_of(&a, "before.png"), photo_of(&b, "after.jpg")};
    run_folder(folder);
    paper_job_small(&made);
    mf_paper_ask ask = paper_ask(&made.job);
    ask.photos = photos;
    ask.n_photos = 2;
    paper_record_to(folder, "photos.pdf", &ask);
    assert_string_equal(
        paper_shell(folder, "pdfimages -list photos.pdf | tail -n +3 | awk '{print $4, $5, $9}'"),
        "800 600 jpeg\n600 800 jpeg\n");
    assert_string_equal(paper_shell(folder, "pdftotext photos.pdf - | grep -c '^SHA-256 0011'"),
                        "2\n");
    assert_string_equal(paper_shell(folder, "pdftotext photos.pdf - | grep -c 'before.png, off'"),
                        "1\n");
    paper_job_free(&made);
    run_remove(folder);
    mf_bytes_free(&a);
    mf_bytes_free(&b);
}

static const char sha_of_photo[] =
    "00112233445566778899aabbccddeeff00112233445566778899aabbccddeeff";

static mf_status give(void *user, const mf_paper_photo *photo, mf_bytes *out, mf_err *err)
{
    (void)err;
    assert_string_equal(photo->sha256, sha_of_photo);
    ++*(int *)user;
    *out = png_of(80, 60);
    return MF_OK;
}

/* Links of the file that lead to the page of the caption, as qpdf reads them. */
static int links_to_its_page(const char *folder)
{
    static const char script[] =
        "import json, subprocess\n"
        "def page_text(n):\n"
        "    return subprocess.run(['pdftotext', '-f', str(n), '-l', str(n), 'linked.pdf', '-'],\n"
        "                          capture_output=True).stdout\n"
        "read = json.load(open('linked.json'))\n"
        "objects = read['qpdf'][1]\n"
        "n = next(i for i in range(len(read['pages'])) if b'before.png, off' in page_text(i + 1))\n"
        "want, sum = read['pages'][n]['object'], 0\n"
        "contents = objects['obj:' + read['pages'][1]['object']]['value'].get('/Annots', [])\n"
        "for name, it in objects.items():\n"
        "    link = it.get('value')\n"
        "    if name[4:] in contents:\n" /* of the table of contents */
        "        continue\n"
        "    if isinstance(link, dict) and link.get('/Subtype') == '/Link':\n"
        "        sum += objects['obj:' + link['/Dest']]['value'][0] == want\n"
        "print(sum)\n";
    const mf_bytes text = {(unsigned char *)(uintptr_t)script, sizeof script - 1};
    paper_write(folder, "links.py", &text);
    return (int)strtol(
        paper_shell(folder, "qpdf --json linked.pdf > linked.json; python3 links.py"), NULL, 10);
}

/* A step and the finding about it lead to the photo about the step's entry; its bytes
 * are fetched once, when it is drawn. A photo that a step names by its hash is found
 * too; one that the book does not hold is told. */
static void steps_lead_to_their_photos(void **state)
{
    (void)state;
    char folder[64];
    paper_job made;
    int fetched = 0;
    run_folder(folder);
    paper_job_small(&made);
    mf_tick *ticks = (mf_tick *)(uintptr_t)made.job.tick, *tick = &ticks[2]; /* ours to change */
    mf_paper_photo photo = {.name = "before.png",
                            .caption = "Kitchen",
                            .sha256 = sha_of_photo,
                            .entry = "office/7",
                            .about = ""};
    mf_paper_ask ask = paper_ask(&made.job);
    ask.photos = &photo;
    ask.n_photos = 1;
    ask.fetch = give;
    ask.fetch_user = &fetched;
    paper_record_to(folder, "linked.pdf", &ask);
    int before = links_to_its_page(folder);
    photo.about = tick->src.entry;
    paper_record_to(folder, "linked.pdf", &ask);
    assert_int_equal(fetched, 2); /* one a paper */
    int after = links_to_its_page(folder);
    if (after < before + 2)
        fail_msg("%d links to the photo's page, %d before", after, before);
    assert_string_equal(paper_shell(folder, "pdftotext linked.pdf - | grep -c 'see photo 1'"),
                        "2\n");
    photo.about = "";
    tick->photo = paper_job_text(&made, "before.png sha256:%s", sha_of_photo);
    ticks[3].photo = "gone.png sha256:ffff";
    paper_record_to(folder, "linked.pdf", &ask);
    assert_string_equal(paper_shell(folder,
                                    "pdftotext linked.pdf - | tr '\\n' ' ' | grep -o -e 'see "
                                    "photo 1' -e 'elsewhere: gone' | sort"),
                        "elsewhere: gone\nsee photo 1\n");
    paper_job_free(&made);
    run_remove(folder);
}

static void a_damaged_one_stops_the_record(void **state)
{
    (void)state;
    paper_job made;
    mf_err err = {0};
    mf_bytes a = png_of(80, 60), out = {0};
    mf_paper_photo photo = photo_of(&a, "before.png");
    photo.len /= 2;
    paper_job_small(&made);
    mf_paper_ask ask = paper_ask(&made.job);
    ask.photos = &photo;
    ask.n_photos = 1;
    assert_int_equal(mf_paper_record(&out, NULL, &ask, &err), MF_INPUT);
    assert_string_equal(err.where, "office/7"); /* the attachment, and which file it was */
    assert_non_null(strstr(err.what, "before.png: the PNG file is damaged"));
    assert_null(out.data);
    paper_job_free(&made);
    mf_bytes_free(&a);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(both_kinds_are_read),
        cmocka_unit_test(inks_are_read),
        cmocka_unit_test(large_ones_are_scaled),
        cmocka_unit_test(turned_upright),
        cmocka_unit_test(reads_the_turn),
        cmocka_unit_test(damaged_ones_are_named),
        cmocka_unit_test(too_large_is_refused),
        cmocka_unit_test(stand_in_the_record),
        cmocka_unit_test(a_damaged_one_stops_the_record),
        cmocka_unit_test(steps_lead_to_their_photos),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
