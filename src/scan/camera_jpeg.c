#include "camera_jpeg.h"

#include <stdlib.h>
#include <string.h>
#include <turbojpeg.h>

struct camera_jpeg {
    tjhandle handle; // NULL: to be made anew
};

struct camera_jpeg *camera_jpeg_init(void) {
    return calloc(1, sizeof(struct camera_jpeg));
}

void camera_jpeg_destroy(struct camera_jpeg *jpeg) {
    if (jpeg != NULL && jpeg->handle != NULL) {
        tjDestroy(jpeg->handle);
    }
    free(jpeg);
}

// Some cameras fill up between the picture and its end mark; the picture is whole for all that.
static bool only_filling(tjhandle handle) {
    return tjGetErrorCode(handle) == TJERR_WARNING &&
           strstr(tjGetErrorStr2(handle), "extraneous bytes") != NULL;
}

static bool is_size(tjhandle handle, const uint8_t *bytes, size_t size, int width, int height) {
    int found_width;
    int found_height;
    int sampling;
    int space;
    return tjDecompressHeader3(handle, bytes, size, &found_width, &found_height, &sampling,
                               &space) == 0 &&
           found_width == width && found_height == height;
}

static bool decode(tjhandle handle, const uint8_t *bytes, size_t size, int width, int height,
                   uint8_t *pixels) {
    return tjDecompress2(handle, bytes, size, pixels, width, width, height, TJPF_GRAY,
                         TJFLAG_LIMITSCANS) == 0;
}

bool camera_jpeg_grey(struct camera_jpeg *jpeg, const uint8_t *bytes, size_t size, int width,
                      int height, uint8_t *pixels) {
    bool whole;
    if (jpeg->handle == NULL) {
        jpeg->handle = tjInitDecompress();
    }
    if (jpeg->handle == NULL) {
        return false;
    }
    whole = is_size(jpeg->handle, bytes, size, width, height);
    if (whole && decode(jpeg->handle, bytes, size, width, height, pixels)) {
        return true;
    }
    whole = whole && only_filling(jpeg->handle);
    // 2.1.5 remembers a warning, and fails at the header of every picture that follows.
    tjDestroy(jpeg->handle);
    jpeg->handle = NULL;
    return whole;
}
