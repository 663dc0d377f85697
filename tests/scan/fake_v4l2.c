#include "fake_v4l2.h"

#include "check.h"
#include "viewer.h"

#include <errno.h>
#include <fcntl.h>
#include <pthread.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/mman.h>
#include <sys/socket.h>
#include <sys/types.h>
#include <unistd.h>

int __real_open(const char *path, int flags, ...);
int __real_ioctl(int fd, unsigned long request, ...);
void *__real_mmap(void *at, size_t size, int access, int flags, int fd, off_t offset);
int __real_munmap(void *at, size_t size);
int __real_close(int fd);
int __wrap_open(const char *path, int flags, ...);
int __wrap_ioctl(int fd, unsigned long request, ...);
void *__wrap_mmap(void *at, size_t size, int access, int flags, int fd, off_t offset);
int __wrap_munmap(void *at, size_t size);
int __wrap_close(int fd);

enum buffer_state { BUFFER_OURS, BUFFER_QUEUED, BUFFER_FILLED };

static struct fake_v4l2 fake;
static pthread_mutex_t mutex = PTHREAD_MUTEX_INITIALIZER;
static int fd = -1;
static int peer = -1;
static bool gone;
static bool holding;
static bool no_pictures; // the node that was opened is one without
static struct {
    enum buffer_state state;
    void *start;
    uint32_t used;
    uint32_t flags;
    int order;
} buffer[FAKE_BUFFERS_MAX];
static int order;

struct fake_v4l2 *fake_init(void) {
    fake = (struct fake_v4l2){.folder = "/tmp/kerfside-camera-XXXXXX",
                              .capabilities = V4L2_CAP_DEVICE_CAPS | V4L2_CAP_VIDEO_CAPTURE,
                              .device_caps = V4L2_CAP_VIDEO_CAPTURE | V4L2_CAP_STREAMING,
                              .buffers = 4,
                              .length = 1 << 16,
                              .fail_at = -1};
    assert_non_null(mkdtemp(fake.folder));
    snprintf(fake.path, sizeof fake.path, "%s/video-index5", fake.folder);
    fd = peer = -1;
    gone = holding = false;
    return &fake;
}

void fake_destroy(void) {
    char command[128];
    if (peer >= 0) {
        __real_close(peer);
    }
    snprintf(command, sizeof command, "rm -r %s", fake.folder);
    assert_int_equal(system(command), 0);
}

void fake_grants(const struct fake_format *format) {
    fake.format[fake.formats++] = *format;
}

void fake_plug(void) {
    pthread_mutex_lock(&mutex);
    gone = false;
    pthread_mutex_unlock(&mutex);
    assert_int_equal(symlink("/dev/null", fake.path), 0);
}

void fake_node(const char *name) {
    char path[128];
    snprintf(path, sizeof path, "%s/%s", fake.folder, name);
    assert_int_equal(symlink("/dev/null", path), 0);
}

static void hang_up(void) {
    if (peer >= 0) {
        __real_close(peer);
        peer = -1;
    }
}

void fake_unplug(void) {
    pthread_mutex_lock(&mutex);
    gone = true;
    unlink(fake.path);
    hang_up();
    pthread_mutex_unlock(&mutex);
}

void fake_fail(void) {
    pthread_mutex_lock(&mutex);
    hang_up();
    pthread_mutex_unlock(&mutex);
}

static void ring(void) {
    assert_int_equal(write(peer, "", 1), 1);
}

void fake_mad(void) {
    pthread_mutex_lock(&mutex);
    ring();
    pthread_mutex_unlock(&mutex);
}

void fake_hold(bool hold) {
    pthread_mutex_lock(&mutex);
    holding = hold;
    for (size_t i = 0; i < FAKE_BUFFERS_MAX && !hold; i++) {
        if (buffer[i].state == BUFFER_FILLED) {
            ring();
        }
    }
    pthread_mutex_unlock(&mutex);
}

// The buffer in this state that came into it first, or -1.
static int first(enum buffer_state state) {
    int found = -1;
    for (int i = 0; i < FAKE_BUFFERS_MAX; i++) {
        if (buffer[i].state == state && (found < 0 || buffer[i].order < buffer[found].order)) {
            found = i;
        }
    }
    return found;
}

static void move(int i, enum buffer_state state) {
    buffer[i].state = state;
    buffer[i].order = order++;
}

void fake_send(const void *bytes, size_t size, uint32_t used, uint32_t flags) {
    int64_t start = viewer_now_ms();
    assert_true(size <= fake.length);
    for (;;) {
        int i;
        pthread_mutex_lock(&mutex);
        i = fake.streaming ? first(BUFFER_QUEUED) : -1;
        if (i >= 0) {
            memcpy(buffer[i].start, bytes, size);
            buffer[i].used = used;
            buffer[i].flags = flags;
            move(i, BUFFER_FILLED);
            if (!holding) {
                ring();
            }
        }
        pthread_mutex_unlock(&mutex);
        if (i >= 0) {
            return;
        }
        assert_true(viewer_now_ms() - start < VIEWER_WAIT_MS);
        viewer_sleep_ms(1);
    }
}

bool fake_streaming(void) {
    bool streaming;
    pthread_mutex_lock(&mutex);
    streaming = fake.streaming;
    pthread_mutex_unlock(&mutex);
    return streaming;
}

bool fake_closed(void) {
    bool closed;
    pthread_mutex_lock(&mutex);
    closed = fd < 0 && fake.opens == fake.closes && fake.maps == fake.unmaps && !fake.streaming;
    pthread_mutex_unlock(&mutex);
    return closed;
}

// In the camera's thread, where no test can be failed.
static void must(bool true_of_every_camera) {
    if (!true_of_every_camera) {
        abort();
    }
}

static bool is_ours(const char *path) {
    return fake.folder[0] != '\0' && strncmp(path, fake.folder, strlen(fake.folder)) == 0;
}

int __wrap_open(const char *path, int flags, ...) {
    int pair[2];
    if (!is_ours(path)) {
        return __real_open(path, flags);
    }
    must((flags & O_ACCMODE) == O_RDWR); // V4L2: open()
    must((flags & O_NONBLOCK) != 0 && (flags & O_CLOEXEC) != 0);
    if (socketpair(AF_UNIX, SOCK_STREAM | SOCK_NONBLOCK | SOCK_CLOEXEC, 0, pair) != 0) {
        return -1;
    }
    pthread_mutex_lock(&mutex);
    must(fd == -1);
    hang_up();
    fd = pair[0];
    peer = pair[1];
    must(write(fd, "", 1) == 1); // unread at hang_up: POLLERR
    no_pictures = strcmp(path, fake.path) != 0;
    fake.opens++;
    memset(buffer, 0, sizeof buffer);
    pthread_mutex_unlock(&mutex);
    return pair[0];
}

static int refuse(int error) {
    errno = error;
    return -1;
}

static int query_capability(struct v4l2_capability *about) {
    about->capabilities = fake.capabilities;
    about->device_caps =
        no_pictures ? V4L2_CAP_META_CAPTURE | V4L2_CAP_STREAMING : fake.device_caps;
    return 0;
}

static int set_format(struct v4l2_format *format) {
    struct v4l2_pix_format *pix = &format->fmt.pix;
    if (fake.asked_width == 0) {
        fake.asked_width = pix->width;
        fake.asked_height = pix->height;
    }
    for (size_t i = 0; i < fake.formats; i++) {
        const struct fake_format *f = &fake.format[i];
        if (f->fourcc == pix->pixelformat) {
            pix->pixelformat = f->granted != 0 ? f->granted : f->fourcc;
            pix->width = f->width;
            pix->height = f->height;
            pix->bytesperline = f->stride;
            pix->sizeimage = fake.length;
            fake.set_fourcc = f->fourcc;
            return 0;
        }
    }
    return refuse(EINVAL);
}

static int get_rate(struct v4l2_streamparm *parm) {
    for (size_t i = 0; i < fake.formats; i++) {
        if (fake.format[i].fourcc == fake.set_fourcc && fake.format[i].rate > 0) {
            parm->parm.capture.timeperframe =
                (struct v4l2_fract){.numerator = 1, .denominator = fake.format[i].rate};
            return 0;
        }
    }
    return refuse(ENOTTY);
}

static int queue(const struct v4l2_buffer *b) {
    if (b->index >= fake.buffers || buffer[b->index].state != BUFFER_OURS) {
        return refuse(EINVAL);
    }
    move((int)b->index, BUFFER_QUEUED);
    return 0;
}

static int dequeue(struct v4l2_buffer *b) {
    int i = holding ? -1 : first(BUFFER_FILLED);
    char bell;
    fake.dequeues++;
    if (i < 0) {
        return refuse(EAGAIN);
    }
    must(read(fd, &bell, 1) == 1);
    move(i, BUFFER_OURS);
    b->index = fake.forge_index ? 77 : (uint32_t)i;
    b->bytesused = buffer[i].used;
    b->flags = buffer[i].flags;
    return 0;
}

static int control(unsigned long request, void *argument) {
    struct v4l2_requestbuffers *wanted = argument;
    struct v4l2_buffer *b = argument;
    if (fake.ioctls++ == fake.fail_at || request == fake.fail_always) {
        return refuse(fake.fail_errno);
    }
    if (gone) {
        return refuse(ENODEV);
    }
    switch (request) {
    case VIDIOC_QUERYCAP:
        return query_capability(argument);
    case VIDIOC_S_FMT:
        return set_format(argument);
    case VIDIOC_G_PARM:
        return get_rate(argument);
    case VIDIOC_REQBUFS:
        wanted->count = wanted->count < fake.buffers ? wanted->count : fake.buffers;
        return 0;
    case VIDIOC_QUERYBUF:
        b->length = fake.length;
        b->m.offset = b->index * fake.length;
        return 0;
    case VIDIOC_QBUF:
        return queue(b);
    case VIDIOC_DQBUF:
        return dequeue(b);
    case VIDIOC_STREAMON:
        fake.streaming = true;
        return 0;
    case VIDIOC_STREAMOFF:
        fake.streaming = false;
        return 0;
    default:
        return refuse(ENOTTY);
    }
}

int __wrap_ioctl(int on, unsigned long request, ...) {
    va_list list;
    void *argument;
    int result;
    va_start(list, request);
    argument = va_arg(list, void *);
    va_end(list);
    pthread_mutex_lock(&mutex);
    result = on == fd ? control(request, argument) : __real_ioctl(on, request, argument);
    pthread_mutex_unlock(&mutex);
    return result;
}

void *__wrap_mmap(void *at, size_t size, int access, int flags, int on, off_t offset) {
    void *start;
    bool ours;
    pthread_mutex_lock(&mutex);
    ours = on >= 0 && on == fd;
    pthread_mutex_unlock(&mutex);
    if (!ours) {
        return __real_mmap(at, size, access, flags, on, offset);
    }
    must(size == fake.length);
    start = __real_mmap(NULL, size, PROT_READ | PROT_WRITE, MAP_PRIVATE | MAP_ANONYMOUS, -1, 0);
    pthread_mutex_lock(&mutex);
    buffer[(size_t)offset / fake.length].start = start;
    fake.maps++;
    pthread_mutex_unlock(&mutex);
    return start;
}

int __wrap_munmap(void *at, size_t size) {
    pthread_mutex_lock(&mutex);
    for (size_t i = 0; i < FAKE_BUFFERS_MAX; i++) {
        if (buffer[i].start == at) {
            buffer[i].start = NULL;
            fake.unmaps++;
        }
    }
    pthread_mutex_unlock(&mutex);
    return __real_munmap(at, size);
}

int __wrap_close(int on) {
    pthread_mutex_lock(&mutex);
    if (on == fd) {
        fd = -1;
        fake.closes++;
        fake.streaming = false; // as the kernel does, whatever the program forgot
        hang_up();
    }
    pthread_mutex_unlock(&mutex);
    return __real_close(on);
}
