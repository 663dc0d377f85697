#include "picture_still.h"

#include "camera_jpeg.h"

#include <stdio.h>
#include <stdlib.h>
#include <turbojpeg.h>

bool picture_wrong(struct picture_fault *ret_fault, size_t byte, const char *text) {
    ret_fault->byte = byte;
    snprintf(ret_fault->text, sizeof ret_fault->text, "%s", text);
    return false;
}

bool picture_room(size_t width, size_t height, size_t byte, struct frame *ret_frame,
                  struct picture_fault *ret_fault) {
    uint8_t *pixels;
    if (width < 1 || height < 1 || width > FRAME_SIDE_MAX || height > FRAME_SIDE_MAX) {
        return picture_wrong(ret_fault, byte, "its size is not 1 to 4096 pixels a side");
    }
    pixels = malloc(width * height);
    if (pixels == NULL) {
        return picture_wrong(ret_fault, byte, "out of memory");
    }
    *ret_frame = (struct frame){.width = (int)width, .height = (int)height, .pixels = pixels};
    return true;
}

// Pictures of a telephone are larger than any frame: half of it is enough to read, and
// libjpeg-turbo makes no more of it.
static bool decode_jpeg(tjhandle handle, const uint8_t *bytes, size_t size,
                        const struct frame *frame, bool halved) {
    struct camera_jpeg *jpeg;
    bool done;
    if (halved) {
        return tjDecompress2(handle, bytes, size, frame->pixels, frame->width, frame->width,
                             frame->height, TJPF_GRAY, TJFLAG_LIMITSCANS) == 0;
    }
    jpeg = camera_jpeg_init();
    done = jpeg != NULL &&
           camera_jpeg_grey(jpeg, bytes, size, frame->width, frame->height, frame->pixels);
    camera_jpeg_destroy(jpeg);
    return done;
}

static bool read_jpeg(tjhandle handle, const uint8_t *bytes, size_t size, struct frame *ret_frame,
                      struct picture_fault *ret_fault) {
    struct frame frame;
    int width;
    int height;
    int sampling;
    int space;
    bool halved;
    if (tjDecompressHeader3(handle, bytes, size, &width, &height, &sampling, &space) != 0) {
        return picture_wrong(ret_fault, 0, "its JPEG header is damaged");
    }
    if (space == TJCS_CMYK || space == TJCS_YCCK) {
        return picture_wrong(ret_fault, 0, "it is a JPEG in printers' colours (CMYK)");
    }
    halved = width > FRAME_SIDE_MAX || height > FRAME_SIDE_MAX;
    if (!picture_room((size_t)(halved ? (width + 1) / 2 : width),
                      (size_t)(halved ? (height + 1) / 2 : height), 0, &frame, ret_fault)) {
        return false;
    }
    if (!decode_jpeg(handle, bytes, size, &frame, halved)) {
        free(frame.pixels);
        return picture_wrong(ret_fault, 0, "its JPEG data is damaged or cut short");
    }
    *ret_frame = frame;
    return true;
}

bool picture_jpeg(const uint8_t *bytes, size_t size, struct frame *ret_frame,
                  struct picture_fault *ret_fault) {
    tjhandle handle = tjInitDecompress();
    bool done;
    if (handle == NULL) {
        return picture_wrong(ret_fault, 0, "out of memory");
    }
    done = read_jpeg(handle, bytes, size, ret_frame, ret_fault);
    tjDestroy(handle);
    return done;
}
