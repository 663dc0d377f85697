// A keyboard made by uinput that does as it is told, line by line.
//
//   vm_keyboard NAME
//       type TEXT    a scanner's burst on a US layout, ended with Enter
//       flood N      N keys, as fast as the kernel takes them
//       unplug       ends it, as the end of its input does

#include "layouts.h"

#include <fcntl.h>
#include <linux/uinput.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/ioctl.h>
#include <time.h>
#include <unistd.h>

#define GAP_NS 2000000

static _Noreturn void fail(const char *what) {
    perror(what);
    exit(1);
}

static void put(int fd, uint16_t type, uint16_t code, int value) {
    struct input_event event = {.type = type, .code = code, .value = value};
    if (write(fd, &event, sizeof event) != sizeof event) {
        fail("write");
    }
}

static void put_key(int fd, uint16_t code, int value) {
    put(fd, EV_KEY, code, value);
    put(fd, EV_SYN, SYN_REPORT, 0);
}

static void strike(int fd, uint16_t code, bool shift) {
    if (shift) {
        put_key(fd, KEY_LEFTSHIFT, 1);
    }
    put_key(fd, code, 1);
    put_key(fd, code, 0);
    if (shift) {
        put_key(fd, KEY_LEFTSHIFT, 0);
    }
}

static void type(int fd, const char *text) {
    const struct timespec gap = {.tv_nsec = GAP_NS};
    for (; *text != '\0'; text++) {
        uint16_t code;
        enum layout_level level;
        if (!layout_key(LAYOUT_US, *text, &code, &level)) {
            fprintf(stderr, "no key writes %c\n", *text);
            exit(2);
        }
        strike(fd, code, level == LEVEL_SHIFT);
        nanosleep(&gap, NULL);
    }
    strike(fd, KEY_ENTER, false);
}

static void flood(int fd, long count) {
    for (long i = 0; i < count; i++) {
        strike(fd, (uint16_t)(KEY_1 + i % 10), false);
    }
}

static int plug(const char *name) {
    struct uinput_setup setup = {.id = {.bustype = BUS_USB, .vendor = 0x1209, .product = 1}};
    int fd = open("/dev/uinput", O_WRONLY | O_CLOEXEC);
    snprintf(setup.name, sizeof setup.name, "%s", name);
    if (fd < 0 || ioctl(fd, UI_SET_EVBIT, EV_KEY) != 0) {
        fail("/dev/uinput");
    }
    for (int code = KEY_ESC; code <= KEY_F24; code++) {
        ioctl(fd, UI_SET_KEYBIT, code);
    }
    if (ioctl(fd, UI_DEV_SETUP, &setup) != 0 || ioctl(fd, UI_DEV_CREATE) != 0) {
        fail("uinput");
    }
    return fd;
}

int main(int argc, char **argv) {
    char line[256];
    int fd;
    if (argc != 2) {
        fprintf(stderr, "usage: vm_keyboard NAME\n");
        return 2;
    }
    fd = plug(argv[1]);
    while (fgets(line, sizeof line, stdin) != NULL && strcmp(line, "unplug\n") != 0) {
        line[strcspn(line, "\n")] = '\0';
        if (strncmp(line, "type ", 5) == 0) {
            type(fd, line + 5);
        } else if (strncmp(line, "flood ", 6) == 0) {
            flood(fd, strtol(line + 6, NULL, 10));
        } else {
            fprintf(stderr, "what is %s?\n", line);
            return 2;
        }
    }
    ioctl(fd, UI_DEV_DESTROY);
    return 0;
}
