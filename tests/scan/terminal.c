#include "terminal.h"
#include "check.h"

#include <errno.h>
#include <fcntl.h>
#include <poll.h>
#include <stdio.h>
#include <stdlib.h>
#include <termios.h>
#include <time.h>
#include <unistd.h>

void wait_ms(int ms) {
    struct timespec time = {.tv_sec = ms / 1000, .tv_nsec = ms % 1000 * 1000000L};
    nanosleep(&time, NULL);
}

int64_t processor_us(void) {
    struct timespec used;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &used);
    return (int64_t)used.tv_sec * 1000000 + used.tv_nsec / 1000;
}

void terminal_init(struct terminal *t) {
    *t = (struct terminal){.folder = "/tmp/kerfside-serial-XXXXXX", .master = -1};
    assert_non_null(mkdtemp(t->folder));
    snprintf(t->path, sizeof t->path, "%s/usb-device", t->folder);
}

void terminal_destroy(struct terminal *t) {
    if (t->master >= 0) {
        terminal_plug_out(t);
    }
    unlink(t->path);
    rmdir(t->folder);
}

void terminal_plug_in(struct terminal *t) {
    char slave[64];
    t->master = posix_openpt(O_RDWR | O_NOCTTY | O_CLOEXEC | O_NONBLOCK);
    assert_true(t->master >= 0);
    assert_int_equal(grantpt(t->master), 0);
    assert_int_equal(unlockpt(t->master), 0);
    assert_int_equal(ptsname_r(t->master, slave, sizeof slave), 0);
    assert_int_equal(symlink(slave, t->path), 0);
}

void terminal_plug_out(struct terminal *t) {
    unlink(t->path);
    close(t->master);
    t->master = -1;
}

void terminal_wait_raw(const struct terminal *t) {
    struct termios line;
    for (int i = 0; i < TERMINAL_WAIT_MS; i++) {
        assert_int_equal(tcgetattr(t->master, &line), 0); // the pair's, as the slave set it
        if ((line.c_lflag & ICANON) == 0) {
            wait_ms(5);
            return;
        }
        wait_ms(1);
    }
    fail_msg("the line was never made raw");
}

void terminal_send(const struct terminal *t, const char *bytes, size_t size) {
    while (size > 0) {
        ssize_t sent = write(t->master, bytes, size);
        if (sent < 0) {
            struct pollfd room = {.fd = t->master, .events = POLLOUT};
            assert_int_equal(errno, EAGAIN);
            poll(&room, 1, TERMINAL_WAIT_MS);
            continue;
        }
        bytes += sent;
        size -= (size_t)sent;
    }
}
