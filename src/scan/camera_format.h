#ifndef CAMERA_FORMAT_H
#define CAMERA_FORMAT_H

// Which picture format a V4L2 device is to send, and its brightness as packed grey.

#include "camera.h"
#include "camera_jpeg.h"

struct camera_format {
    uint32_t fourcc; // V4L2_PIX_FMT_*
    int width;
    int height;
    size_t stride; // bytes from row to row; not for MJPEG
};

enum camera_choice { CAMERA_CHOSEN, CAMERA_NO_FORMAT, CAMERA_BUSY };

// Sets the device to the format that gives the whole size asked for at a rate worth having; of
// several, the one that costs least; if none does, the largest. What it granted is in *ret_format.
enum camera_choice camera_format_choose(int fd, int width, int height,
                                        struct camera_format *ret_format);

// Brightness of a picture of `size` bytes into width * height pixels. False: short or damaged.
bool camera_format_grey(const struct camera_format *format, struct camera_jpeg *jpeg,
                        const uint8_t *bytes, size_t size, uint8_t *pixels);

#endif
