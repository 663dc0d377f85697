#include "picture_still.h"

#include <png.h>
#include <stdlib.h>
#include <string.h>

struct reading {
    const uint8_t *bytes;
    size_t size;
    size_t at;
    struct picture_fault *fault;
    struct frame frame;
    png_bytep rows[FRAME_SIDE_MAX];
};

static void stop(png_structp png, png_const_charp message) {
    struct reading *r = png_get_error_ptr(png);
    picture_wrong(r->fault, r->at, message);
    png_longjmp(png, 1);
}

// Odd but readable: colour profiles nobody needs, and the like.
static void ignore(png_structp png, png_const_charp message) {
    (void)png;
    (void)message;
}

static void give(png_structp png, png_bytep to, size_t size) {
    struct reading *r = png_get_io_ptr(png);
    if (size > r->size - r->at) {
        r->at = r->size;
        png_error(png, "it ends too soon");
    }
    memcpy(to, r->bytes + r->at, size);
    r->at += size;
}

// Whatever it is, to grey of 8 bits; what one can see through lies on white.
static void ask_for_grey(png_structp png, png_infop info) {
    const png_color_16 white = {.red = 255, .green = 255, .blue = 255, .gray = 255};
    png_set_expand(png);
    png_set_strip_16(png);
    if (png_get_color_type(png, info) & PNG_COLOR_MASK_COLOR) {
        png_set_rgb_to_gray_fixed(png, PNG_ERROR_ACTION_NONE, PNG_RGB_TO_GRAY_DEFAULT,
                                  PNG_RGB_TO_GRAY_DEFAULT);
    }
    png_set_background_fixed(png, &white, PNG_BACKGROUND_GAMMA_SCREEN, 0, PNG_FP_1);
    png_set_interlace_handling(png);
    png_read_update_info(png, info);
}

// Everything behind here may be left by png_longjmp; what it changes lies in *r.
static bool read_all(png_structp png, png_infop info, struct reading *r) {
    if (setjmp(png_jmpbuf(png)) != 0) {
        return false;
    }
    png_set_read_fn(png, r, give);
    png_set_keep_unknown_chunks(png, PNG_HANDLE_CHUNK_NEVER, NULL, 0);
    png_read_info(png, info);
    if (!picture_room(png_get_image_width(png, info), png_get_image_height(png, info), r->at,
                      &r->frame, r->fault)) {
        return false;
    }
    ask_for_grey(png, info);
    if (png_get_rowbytes(png, info) != (size_t)r->frame.width) {
        png_error(png, "its colours cannot be made grey");
    }
    for (int y = 0; y < r->frame.height; y++) {
        r->rows[y] = r->frame.pixels + (size_t)y * (size_t)r->frame.width;
    }
    png_read_image(png, r->rows);
    png_read_end(png, NULL);
    return true;
}

bool picture_png(const uint8_t *bytes, size_t size, struct frame *ret_frame,
                 struct picture_fault *ret_fault) {
    struct reading *r = calloc(1, sizeof *r);
    png_structp png = NULL;
    png_infop info = NULL;
    bool done = false;
    if (r != NULL) {
        *r = (struct reading){.bytes = bytes, .size = size, .fault = ret_fault};
        png = png_create_read_struct(PNG_LIBPNG_VER_STRING, r, stop, ignore);
    }
    if (png != NULL) {
        info = png_create_info_struct(png);
    }
    if (info != NULL) {
        done = read_all(png, info, r);
    } else {
        picture_wrong(ret_fault, 0, "out of memory");
    }
    if (done) {
        *ret_frame = r->frame;
    } else if (r != NULL) {
        free(r->frame.pixels);
    }
    png_destroy_read_struct(&png, &info, NULL);
    free(r);
    return done;
}
