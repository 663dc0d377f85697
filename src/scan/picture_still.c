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

bool picture_jpeg(const uint8_t *bytes, size_t size, struct frame *ret_frame,
                  struct picture_fault *ret_fault) {
    tjhandle handle = tjInitDecompress();
    struct camera_jpeg *jpeg = camera_jpeg_init();
    struct frame frame = {0};
    int width;
    int height;
    int sampling;
    int space;
    bool done = false;
    if (handle == NULL || jpeg == NULL) {
        picture_wrong(ret_fault, 0, "out of memory");
    } else if (tjDecompressHeader3(handle, bytes, size, &width, &height, &sampling, &space) != 0) {
        picture_wrong(ret_fault, 0, "its JPEG header is damaged");
    } else if (picture_room((size_t)width, (size_t)height, 0, &frame, ret_fault)) {
        done = camera_jpeg_grey(jpeg, bytes, size, width, height, frame.pixels);
        if (!done) {
            free(frame.pixels);
            picture_wrong(ret_fault, 0, "its JPEG data is damaged or cut short");
        }
    }
    if (done) {
        *ret_frame = frame;
    }
    camera_jpeg_destroy(jpeg);
    if (handle != NULL) {
        tjDestroy(handle);
    }
    return done;
}
