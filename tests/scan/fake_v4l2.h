#ifndef FAKE_V4L2_H
#define FAKE_V4L2_H

// A V4L2 capture device that is none: the test's link wraps open, ioctl, mmap, munmap and close
// (`ld --wrap`), so the camera's own code runs with the kernel's own structures. Its node is a
// link to /dev/null in a folder of its own; its fd one end of a socket pair, so that poll is real:
// readable while a picture waits, POLLERR and POLLHUP when it was pulled out.

#include <linux/videodev2.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#define FAKE_FORMATS_MAX 6
#define FAKE_BUFFERS_MAX 8

// What is granted when somebody asks for `fourcc`, whatever size they ask for.
struct fake_format {
    uint32_t fourcc;
    uint32_t granted; // another fourcc, as drivers do that lack the one asked for; 0: the same
    uint32_t width;
    uint32_t height;
    uint32_t stride; // 0: not said
    uint32_t rate;   // frames a second; 0: not said
};

struct fake_v4l2 {
    char folder[64];
    char path[96]; // its node; what stands beside it in the folder has no picture
    // Set before it is plugged in.
    uint32_t capabilities;
    uint32_t device_caps;
    struct fake_format format[FAKE_FORMATS_MAX];
    size_t formats;
    uint32_t buffers;          // most it gives
    uint32_t length;           // of each, in bytes
    int fail_at;               // the ioctl of this number since the start fails; -1: none
    unsigned long fail_always; // so does every one of this request
    int fail_errno;
    bool forge_index; // DQBUF names a buffer that was never given
    // What happened.
    uint32_t asked_width; // first
    uint32_t asked_height;
    uint32_t set_fourcc; // by the last S_FMT that was granted
    int opens;
    int closes;
    int maps;
    int unmaps;
    int ioctls;
    int dequeues;
    bool streaming;
};

// There is one. After fake_init all is set so that a camera of no format can be plugged in.
struct fake_v4l2 *fake_init(void);
void fake_destroy(void);
void fake_grants(const struct fake_format *format);

void fake_plug(void);             // its node appears
void fake_node(const char *name); // another of the same device, without pictures
void fake_unplug(void);           // ENODEV from now on, and the node goes
void fake_fail(void);             // POLLERR without a word why
void fake_mad(void);              // says for ever that there is something to read
// One picture into the next queued buffer, waited for. `used` is what the driver says of it.
void fake_send(const void *bytes, size_t size, uint32_t used, uint32_t flags);
void fake_hold(bool hold); // pictures are kept back, then shown at once
bool fake_streaming(void);
bool fake_closed(void); // nothing is open or mapped, all that was opened is closed

#endif
