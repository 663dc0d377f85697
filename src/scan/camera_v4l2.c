// A V4L2 capture device: https://docs.kernel.org/userspace-api/media/v4l/. Everything is set up at
// open and torn down at close, since a device that was unplugged is never the same one again.

#include "camera_format.h"
#include "camera_source.h"

#include <errno.h>
#include <fcntl.h>
#include <linux/videodev2.h>
#include <poll.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/ioctl.h>
#include <sys/mman.h>
#include <unistd.h>

#define BUFFERS 4
#define BUFFERS_MAX 8
#define PAUSE_US 5000 // after a step without a picture, so that a mad driver costs little

struct device {
    struct camera_source source; // first: what the thread knows
    char name[64];               // for faults
    struct camera_format format;
    struct camera_jpeg *jpeg;
    bool streaming;
    unsigned count;
    struct {
        void *start;
        size_t size;
    } buffer[BUFFERS_MAX];
};

static struct v4l2_buffer empty_buffer(unsigned index) {
    return (struct v4l2_buffer){
        .index = index, .type = V4L2_BUF_TYPE_VIDEO_CAPTURE, .memory = V4L2_MEMORY_MMAP};
}

static bool is_camera(int fd) {
    struct v4l2_capability about = {.capabilities = 0};
    uint32_t can;
    if (ioctl(fd, VIDIOC_QUERYCAP, &about) != 0) {
        return false;
    }
    can = about.capabilities & V4L2_CAP_DEVICE_CAPS ? about.device_caps : about.capabilities;
    return (can & V4L2_CAP_VIDEO_CAPTURE) != 0 && (can & V4L2_CAP_STREAMING) != 0;
}

static bool map_buffers(struct device *d) {
    struct v4l2_requestbuffers request = {
        .count = BUFFERS, .type = V4L2_BUF_TYPE_VIDEO_CAPTURE, .memory = V4L2_MEMORY_MMAP};
    if (ioctl(d->source.fd, VIDIOC_REQBUFS, &request) != 0) {
        return false;
    }
    for (unsigned i = 0; i < request.count && i < BUFFERS_MAX; i++) {
        struct v4l2_buffer buffer = empty_buffer(i);
        void *start;
        if (ioctl(d->source.fd, VIDIOC_QUERYBUF, &buffer) != 0) {
            return false;
        }
        start = mmap(NULL, buffer.length, PROT_READ, MAP_SHARED, d->source.fd, buffer.m.offset);
        if (start == MAP_FAILED) {
            return false;
        }
        d->buffer[i].start = start;
        d->buffer[i].size = buffer.length;
        d->count = i + 1;
        if (ioctl(d->source.fd, VIDIOC_QBUF, &buffer) != 0) {
            return false;
        }
    }
    return true;
}

static bool stream_on(struct device *d) {
    int type = V4L2_BUF_TYPE_VIDEO_CAPTURE;
    d->streaming = ioctl(d->source.fd, VIDIOC_STREAMON, &type) == 0;
    return d->streaming;
}

static void device_close(struct camera_source *source) {
    struct device *d = (struct device *)source;
    int type = V4L2_BUF_TYPE_VIDEO_CAPTURE;
    if (d->streaming) {
        ioctl(source->fd, VIDIOC_STREAMOFF, &type);
    }
    for (unsigned i = 0; i < d->count; i++) {
        munmap(d->buffer[i].start, d->buffer[i].size);
    }
    if (source->fd >= 0) {
        close(source->fd);
    }
    camera_jpeg_destroy(d->jpeg);
    free(d);
}

static enum camera_step lost(struct device *d, int error) {
    snprintf(d->source.fault, sizeof d->source.fault, "%s: %s", d->name,
             error == ENODEV ? "unplugged" : strerrordesc_np(error));
    return CAMERA_LOST;
}

// Dequeues what is filled and gives back all but the newest. Errno is EAGAIN when all went well.
static bool newest(struct device *d, struct v4l2_buffer *ret_buffer) {
    bool found = false;
    for (unsigned i = 0; i < d->count; i++) {
        struct v4l2_buffer buffer = empty_buffer(0);
        if (ioctl(d->source.fd, VIDIOC_DQBUF, &buffer) != 0) {
            return found;
        }
        if (buffer.index >= d->count) {
            errno = EPROTO;
            return found;
        }
        if (found && ioctl(d->source.fd, VIDIOC_QBUF, ret_buffer) != 0) {
            return false;
        }
        *ret_buffer = buffer;
        found = true;
    }
    errno = EAGAIN;
    return found;
}

static bool grey(struct device *d, const struct v4l2_buffer *buffer, struct frame *ret_frame) {
    size_t area = (size_t)d->format.width * (size_t)d->format.height;
    uint8_t *pixels;
    if ((buffer->flags & V4L2_BUF_FLAG_ERROR) != 0 ||
        buffer->bytesused > d->buffer[buffer->index].size) {
        return false;
    }
    pixels = malloc(area);
    if (pixels == NULL || !camera_format_grey(&d->format, d->jpeg, d->buffer[buffer->index].start,
                                              buffer->bytesused, pixels)) {
        free(pixels);
        return false;
    }
    *ret_frame =
        (struct frame){.width = d->format.width, .height = d->format.height, .pixels = pixels};
    return true;
}

static enum camera_step device_take(struct camera_source *source, struct frame *ret_frame) {
    struct device *d = (struct device *)source;
    struct v4l2_buffer buffer;
    bool found = newest(d, &buffer);
    int end = errno;
    bool whole;
    if (end != EAGAIN) {
        return lost(d, end);
    }
    if (!found) {
        source->due_us = camera_now_us() + PAUSE_US;
        return CAMERA_NOTHING;
    }
    whole = grey(d, &buffer, ret_frame);
    if (ioctl(source->fd, VIDIOC_QBUF, &buffer) != 0) {
        end = errno;
        if (whole) {
            free(ret_frame->pixels);
        }
        return lost(d, end);
    }
    source->due_us = whole ? 0 : camera_now_us() + PAUSE_US;
    return whole ? CAMERA_FRAME : CAMERA_BROKEN;
}

// What cannot be done, or NULL.
static const char *set_up(struct device *d, const struct camera_options *options,
                          const char *path) {
    d->source.fd = open(path, O_RDWR | O_NONBLOCK | O_CLOEXEC);
    if (d->source.fd < 0) {
        return errno == EACCES ? "this user may not open it" : strerrordesc_np(errno);
    }
    if (!is_camera(d->source.fd)) {
        return "not a camera";
    }
    switch (camera_format_choose(d->source.fd, options->width, options->height, &d->format)) {
    case CAMERA_CHOSEN:
        break;
    case CAMERA_NO_FORMAT:
        return "sends pictures in no format known here (GREY, YUYV, NV12, YU12, MJPG)";
    case CAMERA_BUSY:
        return "in use by another program";
    }
    d->jpeg = camera_jpeg_init();
    if (d->jpeg == NULL) {
        return "out of memory";
    }
    if (!map_buffers(d) || !stream_on(d)) {
        return errno == EBUSY ? "in use by another program" : strerrordesc_np(errno);
    }
    if (d->count == 0) {
        return "gives no buffers";
    }
    return NULL;
}

bool camera_v4l2_open(const struct camera_options *options, const char *path,
                      struct camera_source **ret_source, char fault[CAMERA_TEXT_MAX]) {
    struct device *d = calloc(1, sizeof *d);
    const char *why = "out of memory";
    if (d != NULL) {
        d->source = (struct camera_source){
            .fd = -1, .steady = true, .take = device_take, .close = device_close};
        snprintf(d->name, sizeof d->name, "%s", path);
        why = set_up(d, options, path);
    }
    if (why != NULL) {
        snprintf(fault, CAMERA_TEXT_MAX, "%.64s: %s", path, why);
        if (d != NULL) {
            device_close(&d->source);
        }
        return false;
    }
    *ret_source = &d->source;
    return true;
}
