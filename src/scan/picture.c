#include "picture.h"

#include "picture_still.h"
#include "y4m.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#define CHUNK ((size_t)1 << 16)
#define INTERVAL_US 33333 // of a video that does not say

struct picture {
    int fd;
    uint8_t *bytes; // all of a still picture, or a chunk of a video
    size_t size;
    size_t room;
    // NULL: a video
    bool (*decode)(const uint8_t *bytes, size_t size, struct frame *ret_frame,
                   struct picture_fault *ret_fault);
    bool ended;
    struct y4m y4m;
    size_t used;   // of the chunk
    size_t before; // bytes of the video ahead of the chunk
    int64_t frames;
};

static void say(char *ret_error, const struct picture_fault *fault) {
    if (fault->byte > 0) {
        snprintf(ret_error, PICTURE_TEXT_MAX, "byte %zu: %s", fault->byte, fault->text);
    } else {
        snprintf(ret_error, PICTURE_TEXT_MAX, "%s", fault->text);
    }
}

// Reads up to `most` bytes more. False: *ret_error says why not.
static bool fill(struct picture *p, size_t most, char *ret_error) {
    size_t end = p->size + most;
    while (p->size < end) {
        ssize_t size;
        if (p->size == p->room) {
            size_t room = p->room == 0 ? CHUNK : 2 * p->room;
            uint8_t *bytes = realloc(p->bytes, room);
            if (bytes == NULL) {
                snprintf(ret_error, PICTURE_TEXT_MAX, "out of memory");
                return false;
            }
            p->bytes = bytes;
            p->room = room;
        }
        size = read(p->fd, p->bytes + p->size, (end < p->room ? end : p->room) - p->size);
        if (size < 0 && errno != EINTR) {
            snprintf(ret_error, PICTURE_TEXT_MAX, "%s", strerror(errno));
            return false;
        }
        if (size == 0) {
            break;
        }
        p->size += size < 0 ? 0 : (size_t)size;
    }
    return true;
}

static bool begins(const struct picture *p, const char *with, size_t size) {
    return p->size >= size && memcmp(p->bytes, with, size) == 0;
}

static bool find_kind(struct picture *p, char *ret_error) {
    if (begins(p, "P5", 2)) {
        p->decode = picture_pgm;
    } else if (begins(p, "\x89PNG\r\n\x1a\n", 8)) {
        p->decode = picture_png;
    } else if (begins(p, "\xff\xd8\xff", 3)) {
        p->decode = picture_jpeg;
    } else if (!begins(p, "YUV4MPEG2", 9)) {
        snprintf(ret_error, PICTURE_TEXT_MAX,
                 p->size == 0 ? "it is empty" : "it is neither PNG, JPEG, PGM (P5) nor Y4M");
        return false;
    }
    return true;
}

static bool load(struct picture *p, char *ret_error) {
    if (!fill(p, CHUNK, ret_error) || !find_kind(p, ret_error)) {
        return false;
    }
    if (p->decode == NULL) {
        return true;
    }
    if (!fill(p, PICTURE_BYTES_MAX + 1 - p->size, ret_error)) {
        return false;
    }
    if (p->size > PICTURE_BYTES_MAX) {
        snprintf(ret_error, PICTURE_TEXT_MAX, "it is larger than %zu MB", PICTURE_BYTES_MAX >> 20);
        return false;
    }
    return true;
}

struct picture *picture_open(const char *path, char *ret_error) {
    struct picture *p = calloc(1, sizeof *p);
    if (p == NULL) {
        snprintf(ret_error, PICTURE_TEXT_MAX, "out of memory");
        return NULL;
    }
    y4m_init(&p->y4m);
    p->fd = open(path, O_RDONLY | O_CLOEXEC);
    if (p->fd < 0) {
        snprintf(ret_error, PICTURE_TEXT_MAX, "%s", strerror(errno));
        free(p);
        return NULL;
    }
    if (!load(p, ret_error)) {
        picture_close(p);
        return NULL;
    }
    return p;
}

void picture_close(struct picture *p) {
    if (p != NULL) {
        y4m_release(&p->y4m);
        close(p->fd);
        free(p->bytes);
        free(p);
    }
}

static enum picture_result next_still(struct picture *p, struct frame *ret_frame, char *ret_error) {
    struct picture_fault fault;
    p->ended = true;
    if (p->decode(p->bytes, p->size, ret_frame, &fault)) {
        return PICTURE_FRAME;
    }
    say(ret_error, &fault);
    return PICTURE_BAD;
}

static enum picture_result end_video(struct picture *p, const char *fault, char *ret_error) {
    struct picture_fault full = {.byte = p->before + p->used};
    p->ended = true;
    if (fault == NULL) {
        return PICTURE_END;
    }
    picture_wrong(&full, full.byte, fault);
    say(ret_error, &full);
    return PICTURE_BAD;
}

static const char *fault_at_end(const struct picture *p) {
    if (p->y4m.state != Y4M_FRAME_LINE || p->y4m.used > 0) {
        return "it ends in the middle of a frame";
    }
    return p->frames == 0 ? "it holds no frame" : NULL;
}

static enum picture_result next_of_video(struct picture *p, struct frame *ret_frame,
                                         char *ret_error) {
    for (;;) {
        size_t used;
        enum y4m_step step = y4m_feed(&p->y4m, p->bytes + p->used, p->size - p->used, &used);
        p->used += used;
        if (step == Y4M_FAULT) {
            return end_video(p, p->y4m.fault, ret_error);
        }
        if (step == Y4M_FRAME) {
            int64_t interval = p->y4m.interval_us > 0 ? p->y4m.interval_us : INTERVAL_US;
            *ret_frame = (struct frame){.width = p->y4m.width,
                                        .height = p->y4m.height,
                                        .pixels = y4m_take_pixels(&p->y4m),
                                        .time_us = p->frames++ * interval};
            return PICTURE_FRAME;
        }
        p->before += p->size;
        p->used = p->size = 0;
        if (!fill(p, CHUNK, ret_error)) {
            p->ended = true;
            return PICTURE_BAD;
        }
        if (p->size == 0) {
            return end_video(p, fault_at_end(p), ret_error);
        }
    }
}

enum picture_result picture_next(struct picture *p, struct frame *ret_frame, char *ret_error) {
    if (p->ended) {
        return PICTURE_END;
    }
    return p->decode != NULL ? next_still(p, ret_frame, ret_error)
                             : next_of_video(p, ret_frame, ret_error);
}
