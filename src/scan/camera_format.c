#include "camera_format.h"

#include <errno.h>
#include <linux/videodev2.h>
#include <string.h>
#include <sys/ioctl.h>

#define RATE_MIN 8 // frames a second; slower is no live picture

// By what it costs to get at the brightness.
static const struct {
    uint32_t fourcc;
    size_t step; // bytes from one brightness to the next; 0: packed by other means
} formats[] = {
    {V4L2_PIX_FMT_GREY, 1},   {V4L2_PIX_FMT_YUYV, 2},  {V4L2_PIX_FMT_NV12, 1},
    {V4L2_PIX_FMT_YUV420, 1}, {V4L2_PIX_FMT_MJPEG, 0},
};
#define FORMATS (sizeof formats / sizeof formats[0])

static size_t step_of(uint32_t fourcc) {
    for (size_t i = 0; i < FORMATS; i++) {
        if (formats[i].fourcc == fourcc) {
            return formats[i].step;
        }
    }
    return 0;
}

static bool set(int fd, uint32_t fourcc, int width, int height, struct camera_format *ret_format) {
    struct v4l2_format format = {.type = V4L2_BUF_TYPE_VIDEO_CAPTURE};
    struct v4l2_pix_format *pix = &format.fmt.pix;
    size_t row;
    errno = 0;
    pix->width = (uint32_t)width;
    pix->height = (uint32_t)height;
    pix->pixelformat = fourcc;
    pix->field = V4L2_FIELD_NONE;
    if (ioctl(fd, VIDIOC_S_FMT, &format) != 0 || pix->pixelformat != fourcc || pix->width == 0 ||
        pix->height == 0 || pix->width > FRAME_SIDE_MAX || pix->height > FRAME_SIDE_MAX) {
        return false;
    }
    *ret_format = (struct camera_format){
        .fourcc = fourcc, .width = (int)pix->width, .height = (int)pix->height};
    row = pix->width * step_of(fourcc);
    ret_format->stride = pix->bytesperline > row ? pix->bytesperline : row; // 0: not said
    return true;
}

// A device that does not tell its rate is taken for fast.
static bool fast(int fd) {
    struct v4l2_streamparm parm = {.type = V4L2_BUF_TYPE_VIDEO_CAPTURE};
    const struct v4l2_fract *interval = &parm.parm.capture.timeperframe;
    return ioctl(fd, VIDIOC_G_PARM, &parm) != 0 || interval->numerator == 0 ||
           (uint64_t)interval->denominator >= (uint64_t)RATE_MIN * interval->numerator;
}

static int64_t area(const struct camera_format *format) {
    return (int64_t)format->width * format->height;
}

enum camera_choice camera_format_choose(int fd, int width, int height,
                                        struct camera_format *ret_format) {
    struct camera_format best = {.width = 0};
    for (size_t i = 0; i < FORMATS; i++) {
        struct camera_format granted;
        if (!set(fd, formats[i].fourcc, width, height, &granted)) {
            if (errno == EBUSY) {
                return CAMERA_BUSY;
            }
            continue;
        }
        if (granted.width >= width && granted.height >= height && fast(fd)) {
            *ret_format = granted;
            return CAMERA_CHOSEN;
        }
        if (area(&granted) > area(&best)) {
            best = granted;
        }
    }
    return best.width > 0 && set(fd, best.fourcc, best.width, best.height, ret_format)
               ? CAMERA_CHOSEN
               : CAMERA_NO_FORMAT;
}

bool camera_format_grey(const struct camera_format *format, struct camera_jpeg *jpeg,
                        const uint8_t *bytes, size_t size, uint8_t *pixels) {
    size_t width = (size_t)format->width;
    size_t height = (size_t)format->height;
    size_t step = step_of(format->fourcc);
    if (step == 0) {
        return camera_jpeg_grey(jpeg, bytes, size, format->width, format->height, pixels);
    }
    if (size < (height - 1) * format->stride + width * step) {
        return false;
    }
    for (size_t y = 0; y < height; y++) {
        const uint8_t *from = bytes + y * format->stride;
        uint8_t *to = pixels + y * width;
        if (step == 1) {
            memcpy(to, from, width);
            continue;
        }
        for (size_t x = 0; x < width; x++) {
            to[x] = from[2 * x];
        }
    }
    return true;
}
