// Asks a V4L2 device what it was set to, turns its controls, and shows a picture to it: the test
// driver `vivid` can have its own video output as what its camera sees.
//
//   vm_camera format NODE               the capture format in use, "GREY 1280x720"
//   vm_camera set NODE CONTROL VALUE    a control by its name
//   vm_camera show NODE FILE            plays FILE, one grey picture of the output's size, for ever

#include <fcntl.h>
#include <linux/videodev2.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/ioctl.h>
#include <sys/mman.h>
#include <unistd.h>

#define BUFFERS 4

static _Noreturn void fail(const char *what) {
    perror(what);
    exit(1);
}

static void call(int fd, unsigned long request, void *argument, const char *what) {
    if (ioctl(fd, request, argument) != 0) {
        fail(what);
    }
}

static int print_format(int fd) {
    struct v4l2_format format = {.type = V4L2_BUF_TYPE_VIDEO_CAPTURE};
    const struct v4l2_pix_format *pix = &format.fmt.pix;
    call(fd, VIDIOC_G_FMT, &format, "VIDIOC_G_FMT");
    printf("%.4s %ux%u\n", (const char *)&pix->pixelformat, pix->width, pix->height);
    return 0;
}

static int set(int fd, const char *name, const char *value) {
    struct v4l2_queryctrl query = {.id = V4L2_CTRL_FLAG_NEXT_CTRL};
    while (ioctl(fd, VIDIOC_QUERYCTRL, &query) == 0) {
        if (strcmp((const char *)query.name, name) == 0) {
            struct v4l2_control control = {.id = query.id, .value = atoi(value)};
            call(fd, VIDIOC_S_CTRL, &control, name);
            return 0;
        }
        query.id |= V4L2_CTRL_FLAG_NEXT_CTRL;
    }
    fprintf(stderr, "no control is called %s\n", name);
    return 1;
}

static void read_picture(const char *path, void *to, size_t size) {
    FILE *file = fopen(path, "re");
    if (file == NULL || fread(to, 1, size, file) != size) {
        fail(path);
    }
    fclose(file);
}

static _Noreturn void show(int fd, const char *path) {
    struct v4l2_format format = {.type = V4L2_BUF_TYPE_VIDEO_OUTPUT};
    struct v4l2_requestbuffers request = {
        .count = BUFFERS, .type = V4L2_BUF_TYPE_VIDEO_OUTPUT, .memory = V4L2_MEMORY_MMAP};
    int type = V4L2_BUF_TYPE_VIDEO_OUTPUT;
    call(fd, VIDIOC_G_FMT, &format, "VIDIOC_G_FMT");
    format.fmt.pix.pixelformat = V4L2_PIX_FMT_GREY;
    format.fmt.pix.bytesperline = 0;
    call(fd, VIDIOC_S_FMT, &format, "VIDIOC_S_FMT");
    fprintf(stderr, "shows %ux%u\n", format.fmt.pix.width, format.fmt.pix.height);
    call(fd, VIDIOC_REQBUFS, &request, "VIDIOC_REQBUFS");
    for (unsigned i = 0; i < request.count; i++) {
        struct v4l2_buffer buffer = {
            .index = i, .type = V4L2_BUF_TYPE_VIDEO_OUTPUT, .memory = V4L2_MEMORY_MMAP};
        void *at;
        call(fd, VIDIOC_QUERYBUF, &buffer, "VIDIOC_QUERYBUF");
        at = mmap(NULL, buffer.length, PROT_READ | PROT_WRITE, MAP_SHARED, fd, buffer.m.offset);
        if (at == MAP_FAILED) {
            fail("mmap");
        }
        read_picture(path, at, format.fmt.pix.sizeimage);
        buffer.bytesused = format.fmt.pix.sizeimage;
        call(fd, VIDIOC_QBUF, &buffer, "VIDIOC_QBUF");
    }
    call(fd, VIDIOC_STREAMON, &type, "VIDIOC_STREAMON");
    for (;;) {
        struct v4l2_buffer buffer = {.type = V4L2_BUF_TYPE_VIDEO_OUTPUT,
                                     .memory = V4L2_MEMORY_MMAP};
        call(fd, VIDIOC_DQBUF, &buffer, "VIDIOC_DQBUF");
        call(fd, VIDIOC_QBUF, &buffer, "VIDIOC_QBUF");
    }
}

int main(int argc, char **argv) {
    int fd = argc < 3 ? -1 : open(argv[2], O_RDWR | O_CLOEXEC);
    if (argc >= 3 && fd < 0) {
        fail(argv[2]);
    }
    if (argc == 3 && strcmp(argv[1], "format") == 0) {
        return print_format(fd);
    }
    if (argc == 5 && strcmp(argv[1], "set") == 0) {
        return set(fd, argv[3], argv[4]);
    }
    if (argc == 4 && strcmp(argv[1], "show") == 0) {
        show(fd, argv[3]);
    }
    fprintf(stderr, "usage: vm_camera format NODE | set NODE CONTROL VALUE | show NODE FILE\n");
    return 2;
}
