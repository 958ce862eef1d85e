/* JPEG by libjpeg, which leaves through longjmp when a file is damaged: everything
 * that jumps is in this file. */
#include "paper/photo.h"

#include "base/mem.h"

#include <setjmp.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <jpeglib.h>

#include <jerror.h>

typedef struct trap {
    struct jpeg_error_mgr base; /* first: libjpeg hands a pointer to it around */
    jmp_buf out;
} trap;

static void leave(j_common_ptr info)
{
    trap *t = (trap *)info->err;
    longjmp(t->out, 1);
}

/* A truncated photo is only a warning to libjpeg, which fills the rest with grey. */
static void on_warning(j_common_ptr info, int level)
{
    if (level < 0)
        leave(info);
}

static void set_trap(trap *t, struct jpeg_error_mgr **err)
{
    *err = jpeg_std_error(&t->base);
    t->base.error_exit = leave;
    t->base.emit_message = on_warning;
}

static int turn_of(const struct jpeg_decompress_struct *in)
{
    for (jpeg_saved_marker_ptr m = in->marker_list; m != NULL; m = m->next)
        if (m->marker == JPEG_APP0 + 1)
            return mf_photo_exif_turn(m->data, m->data_length);
    return 1;
}

/* The largest reduction that still leaves MF_PHOTO_SIDE. */
static unsigned eighths(unsigned longer)
{
    unsigned divide = 1;
    while (divide < 8 && longer / (divide * 2) >= MF_PHOTO_SIDE)
        divide *= 2;
    return divide;
}

typedef struct reading {
    struct jpeg_decompress_struct in;
    trap trap;
    mf_pixels pixels;
    const char *fault;
} reading;

/* Of inks: cyan, magenta, yellow, black, as scanners and presses write them. */
static bool of_inks(const struct jpeg_decompress_struct *in)
{
    return in->jpeg_color_space == JCS_CMYK || in->jpeg_color_space == JCS_YCCK;
}

/* What is left of white paper under the inks. Files with the marker APP14 say how much
 * light each ink lets through, the others how much it takes. */
static void inks_to_rgb(const struct jpeg_decompress_struct *in, unsigned char *row)
{
    for (unsigned x = 0; x < in->output_width; x++) {
        const unsigned char *ink = row + (size_t)x * 4;
        unsigned black = in->saw_Adobe_marker ? ink[3] : 255U - ink[3];
        for (int i = 0; i < 3; i++) {
            unsigned light = in->saw_Adobe_marker ? ink[i] : 255U - ink[i];
            row[(size_t)x * 3 + (size_t)i] = (unsigned char)(light * black / 255U);
        }
    }
}

/* Rows of four inks, each turned into three colors where it will stand. */
static void read_inks(reading *r)
{
    struct jpeg_decompress_struct *in = &r->in;
    unsigned char *row =
        in->mem->alloc_large((j_common_ptr)in, JPOOL_IMAGE, (size_t)in->output_width * 4);
    while (in->output_scanline < in->output_height) {
        unsigned char *at = r->pixels.at + (size_t)in->output_scanline * in->output_width * 3;
        jpeg_read_scanlines(in, &row, 1);
        inks_to_rgb(in, row);
        memcpy(at, row, (size_t)in->output_width * 3);
    }
}

static void read_rows(reading *r)
{
    struct jpeg_decompress_struct *in = &r->in;
    in->scale_num = 1;
    in->scale_denom =
        eighths(in->image_width > in->image_height ? in->image_width : in->image_height);
    in->out_color_space = of_inks(in) ? JCS_CMYK : JCS_RGB;
    jpeg_start_decompress(in);
    r->pixels = (mf_pixels){malloc((size_t)in->output_width * in->output_height * 3),
                            in->output_width, in->output_height};
    if (r->pixels.at == NULL) {
        r->fault = mf_photo_no_memory;
        return;
    }
    if (of_inks(in))
        read_inks(r);
    while (in->output_scanline < in->output_height) {
        JSAMPROW row = r->pixels.at + (size_t)in->output_scanline * in->output_width * 3;
        jpeg_read_scanlines(in, &row, 1);
    }
    jpeg_finish_decompress(in);
}

/* The reading lives on the heap, so that longjmp leaves nothing of it undefined. */
static void decode(reading *r, int *turn, const unsigned char *data, size_t len)
{
    set_trap(&r->trap, &r->in.err);
    if (setjmp(r->trap.out) != 0) {
        r->fault = r->trap.base.msg_code == JERR_OUT_OF_MEMORY
                       ? mf_photo_no_memory
                       : "the JPEG file is damaged, cut short or of a kind that is not known here";
        return;
    }
    jpeg_create_decompress(&r->in);
    r->in.mem->max_memory_to_use = 256L * 1024 * 1024;
    jpeg_mem_src(&r->in, data, (unsigned long)len);
    jpeg_save_markers(&r->in, JPEG_APP0 + 1, 0xFFFF);
    jpeg_read_header(&r->in, TRUE);
    *turn = turn_of(&r->in);
    if ((uint64_t)r->in.image_width * r->in.image_height > MF_PHOTO_PIXELS)
        r->fault = "the picture has more than 50 million pixels";
    else
        read_rows(r);
}

mf_photo_fault mf_photo_jpeg(mf_pixels *out, int *turn, const unsigned char *data, size_t len)
{
    reading *r = calloc(1, sizeof *r);
    *turn = 1;
    if (r == NULL)
        return mf_photo_no_memory;
    decode(r, turn, data, len);
    jpeg_destroy_decompress(&r->in);
    const char *fault = r->fault;
    if (fault == NULL)
        *out = r->pixels;
    else
        free(r->pixels.at);
    free(r);
    return fault;
}

/* ---- writing ------------------------------------------------------------------------ */

/* A destination of our own: jpeg_mem_dest leaves a pointer to freed memory behind when
 * memory runs out while its buffer grows. */
typedef struct sink {
    struct jpeg_destination_mgr base; /* first, as in the trap */
    mf_buf out;
    JOCTET chunk[16384];
} sink;

typedef struct packing {
    struct jpeg_compress_struct out;
    trap trap;
    sink sink;
    bool good;
} packing;

static void begin_chunk(j_compress_ptr out)
{
    sink *to = (sink *)out->dest;
    to->base.next_output_byte = to->chunk;
    to->base.free_in_buffer = sizeof to->chunk;
}

static void keep_chunk(j_compress_ptr out, size_t len)
{
    sink *to = (sink *)out->dest;
    mf_buf_add(&to->out, to->chunk, len);
    if (to->out.failed)
        leave((j_common_ptr)out);
}

static boolean next_chunk(j_compress_ptr out)
{
    keep_chunk(out, sizeof((sink *)out->dest)->chunk);
    begin_chunk(out);
    return TRUE;
}

static void last_chunk(j_compress_ptr out)
{
    sink *to = (sink *)out->dest;
    keep_chunk(out, sizeof to->chunk - to->base.free_in_buffer);
}

static void encode(packing *p, const mf_pixels *pixels)
{
    set_trap(&p->trap, &p->out.err);
    if (setjmp(p->trap.out) != 0)
        return;
    jpeg_create_compress(&p->out);
    p->sink.base = (struct jpeg_destination_mgr){.init_destination = begin_chunk,
                                                 .empty_output_buffer = next_chunk,
                                                 .term_destination = last_chunk};
    p->out.dest = &p->sink.base;
    p->out.image_width = pixels->w;
    p->out.image_height = pixels->h;
    p->out.input_components = 3;
    p->out.in_color_space = JCS_RGB;
    jpeg_set_defaults(&p->out);
    jpeg_set_quality(&p->out, 82, TRUE);
    jpeg_start_compress(&p->out, TRUE);
    while (p->out.next_scanline < p->out.image_height) {
        JSAMPROW row = pixels->at + (size_t)p->out.next_scanline * pixels->w * 3;
        jpeg_write_scanlines(&p->out, &row, 1);
    }
    jpeg_finish_compress(&p->out);
    p->good = true;
}

bool mf_photo_pack(mf_bytes *out, const mf_pixels *pixels)
{
    packing *p = calloc(1, sizeof *p);
    if (p == NULL)
        return false;
    encode(p, pixels);
    jpeg_destroy_compress(&p->out);
    bool good = p->good;
    if (good)
        mf_buf_take(&p->sink.out, out);
    mf_buf_free(&p->sink.out);
    free(p);
    return good;
}
