// What stands in for a camera: a Y4M file, which is played at its own rate, or a FIFO, which is
// read as its writer fills it.

#include "camera_source.h"
#include "y4m.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#define READ_MAX 65536
#define INTERVAL_DEFAULT_US 40000 // of a file that does not say
#define INTERVAL_MIN_US 16000     // and no faster, whoever writes

struct video {
    struct camera_source source; // first: what the thread knows
    char name[100];              // for faults
    bool fifo;
    bool once;
    bool any; // a frame since the file's start
    int64_t next_us;
    struct y4m y4m;
    size_t at;   // of what was read, taken
    size_t size; // read
    uint8_t bytes[READ_MAX];
};

static void video_close(struct camera_source *source) {
    struct video *v = (struct video *)source;
    y4m_release(&v->y4m);
    close(source->fd);
    free(v);
}

static enum camera_step end(struct video *v, enum camera_step step, const char *why) {
    snprintf(v->source.fault, sizeof v->source.fault, "%s: %s", v->name, why);
    return step;
}

static enum camera_step at_end(struct video *v) {
    if (v->fifo) {
        return end(v, CAMERA_LOST, "nobody writes to it any more");
    }
    if (!v->any) {
        return end(v, CAMERA_LOST, "it holds no whole frame");
    }
    if (v->once) {
        return end(v, CAMERA_END, "the video is at its end");
    }
    if (lseek(v->source.fd, 0, SEEK_SET) != 0) {
        return end(v, CAMERA_LOST, strerrordesc_np(errno));
    }
    y4m_release(&v->y4m);
    y4m_init(&v->y4m);
    v->any = false;
    return CAMERA_NOTHING;
}

// When the next frame may be read. A file keeps its rate over the long run; one that was held up
// does not hurry to catch up.
static void pace(struct video *v) {
    int64_t now = camera_now_us();
    int64_t interval = v->y4m.interval_us > 0 ? v->y4m.interval_us : INTERVAL_DEFAULT_US;
    if (v->fifo || interval < INTERVAL_MIN_US) {
        interval = INTERVAL_MIN_US;
    }
    v->next_us += interval;
    v->next_us = v->next_us < now ? now : v->next_us;
    v->source.due_us = v->next_us;
}

static enum camera_step feed(struct video *v, struct frame *ret_frame) {
    size_t used;
    enum y4m_step step = y4m_feed(&v->y4m, v->bytes + v->at, v->size - v->at, &used);
    v->at += used;
    v->source.ready = v->at < v->size;
    switch (step) {
    case Y4M_MORE:
        break;
    case Y4M_FAULT:
        return end(v, CAMERA_LOST, v->y4m.fault);
    case Y4M_FRAME:
        v->any = true;
        *ret_frame = (struct frame){
            .width = v->y4m.width, .height = v->y4m.height, .pixels = y4m_take_pixels(&v->y4m)};
        pace(v);
        return CAMERA_FRAME;
    }
    return CAMERA_NOTHING;
}

// One read at most, so that the order to stop is never far.
static enum camera_step video_take(struct camera_source *source, struct frame *ret_frame) {
    struct video *v = (struct video *)source;
    if (v->at == v->size) {
        ssize_t got = read(source->fd, v->bytes, sizeof v->bytes);
        if (got < 0) {
            return errno == EAGAIN || errno == EINTR ? CAMERA_NOTHING
                                                     : end(v, CAMERA_LOST, strerrordesc_np(errno));
        }
        if (got == 0) {
            return at_end(v);
        }
        v->at = 0;
        v->size = (size_t)got;
    }
    return feed(v, ret_frame);
}

// An open FIFO without a writer reads as at its end, one with a writer as empty.
static void ask_for_writer(struct video *v) {
    ssize_t got = read(v->source.fd, v->bytes, sizeof v->bytes);
    v->size = got > 0 ? (size_t)got : 0;
    v->source.ready = got > 0;
    v->source.waiting = got == 0;
    end(v, CAMERA_NOTHING, "nobody writes to it");
}

bool camera_y4m_open(const struct camera_options *options, const char *path, bool fifo,
                     struct camera_source **ret_source, char fault[CAMERA_TEXT_MAX]) {
    int fd = open(path, O_RDONLY | O_NONBLOCK | O_CLOEXEC);
    struct video *v = fd < 0 ? NULL : calloc(1, sizeof *v);
    if (v == NULL) {
        snprintf(fault, CAMERA_TEXT_MAX, "%.100s: %s", path, strerrordesc_np(errno));
        if (fd >= 0) {
            close(fd);
        }
        return false;
    }
    v->source = (struct camera_source){.fd = fd, .take = video_take, .close = video_close};
    snprintf(v->name, sizeof v->name, "%s", path);
    v->fifo = fifo;
    v->once = options->once;
    v->next_us = camera_now_us();
    y4m_init(&v->y4m);
    if (fifo) {
        ask_for_writer(v);
    }
    *ret_source = &v->source;
    return true;
}
