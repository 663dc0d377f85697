// Speed and the numbers a real device comes back under need real hardware.

#include "check.h"
#include "serial.h"
#include "terminal.h"

#include <errno.h>
#include <fcntl.h>
#include <semaphore.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/ioctl.h>
#include <termios.h>
#include <time.h>
#include <unistd.h>

#define NEVER_MS 600000

static struct terminal terminal;
static struct serial *serial;
static sem_t woken;

static void wake(void *ctx) {
    (void)ctx;
    sem_post(&woken);
}

static void start(int retry_ms) {
    struct serial_options options = {
        .path = terminal.path, .prefix = "", .baud = 9600, .retry_ms = retry_ms, .wake = wake};
    serial = serial_init(&options);
    assert_non_null(serial);
    assert_true(serial_start(serial));
}

static int set_up(void **state) {
    (void)state;
    terminal_init(&terminal);
    sem_init(&woken, 0, 0);
    serial = NULL;
    return 0;
}

static int tear_down(void **state) {
    (void)state;
    if (serial != NULL) {
        serial_stop(serial);
        serial_join(serial);
        serial_destroy(serial);
    }
    terminal_destroy(&terminal);
    sem_destroy(&woken);
    return 0;
}

static bool no_more(void) {
    struct serial_event event;
    return !serial_next(serial, &event);
}

static struct serial_event next(void) {
    struct serial_event event;
    struct timespec until;
    clock_gettime(CLOCK_REALTIME, &until);
    until.tv_sec += TERMINAL_WAIT_MS / 1000;
    while (!serial_next(serial, &event)) {
        if (sem_timedwait(&woken, &until) != 0 && errno == ETIMEDOUT) {
            fail_msg("nothing came within %d ms", TERMINAL_WAIT_MS);
        }
    }
    return event;
}

static void expect_kind(enum serial_kind kind) {
    assert_int_equal(next().kind, kind);
}

static void expect(enum wedge_kind kind, const char *text) {
    struct serial_event event = next();
    assert_int_equal(event.kind, SERIAL_RECORD);
    assert_int_equal(event.record.output.kind, kind);
    if (text != NULL) {
        assert_string_equal(event.record.output.text, text);
    }
}

static void send(const char *bytes, size_t size) {
    terminal_send(&terminal, bytes, size);
}

static void plugged(int retry_ms) {
    terminal_plug_in(&terminal);
    start(retry_ms);
    terminal_wait_raw(&terminal);
}

static int64_t monotonic_us(void) {
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (int64_t)now.tv_sec * 1000000 + now.tv_nsec / 1000;
}

static void test_codes(void **state) {
    (void)state;
    static const char *const sent[] = {"]C0H-0001A\r", "S-0001S\n", "W-27QM\r\n"};
    static const char *const read[] = {"H-0001A", "S-0001S", "W-27QM"};
    int64_t before = monotonic_us();
    plugged(20);
    for (size_t i = 0; i < 10 * COUNT(sent); i++) {
        send(sent[i % 3], strlen(sent[i % 3]));
        struct serial_event event = next();
        assert_string_equal(event.record.output.text, read[i % 3]);
        assert_true(event.time_us >= before && event.time_us <= monotonic_us());
    }
    assert_true(no_more());
}

static void test_cut_anywhere(void **state) {
    (void)state;
    static const char sent[] = "]Q1H-0001A\r\n";
    plugged(20);
    for (size_t i = 0; i < sizeof sent - 1; i++) {
        send(&sent[i], 1);
        wait_ms(2);
    }
    expect(WEDGE_CODE, "H-0001A");
    for (size_t cut = 1; cut < sizeof sent - 1; cut++) {
        const char *other = cut % 2 == 0 ? "S-0001S\r" : "W-27QM\r"; // or the next is folded
        send(other, strlen(other));
        expect(WEDGE_CODE, NULL);
        send(sent, cut);
        wait_ms(3);
        send(sent + cut, sizeof sent - 1 - cut);
        expect(WEDGE_CODE, "H-0001A");
    }
    assert_true(no_more());
}

// termios(3): a cooked line takes 0x03 for an interrupt, 0x04 for an end, 0x11 and 0x13 for flow
// control, CR for LF, and 0x7F and 0x15 for rubbing out. A raw one hands all on.
static void test_raw(void **state) {
    (void)state;
    static const char sent[] = "A\x03\x04\x11\x13\x15\x16\x1a\x1c\x1d\x7fZ\r";
    struct serial_event event;
    char echo;
    plugged(20);
    send(sent, sizeof sent - 1);
    event = next();
    assert_int_equal(event.record.trace.count, sizeof sent - 2);
    assert_memory_equal(event.record.trace.byte, sent, sizeof sent - 2);
    assert_string_equal(event.record.trace.end, "\r");
    assert_int_equal(event.record.output.kind, WEDGE_FAULT);
    assert_int_equal(read(terminal.master, &echo, 1), -1); // no echo to the scanner either
    assert_int_equal(errno, EAGAIN);
    char high[] = {'B', (char)0xff, (char)0x80, '\r'};
    send(high, sizeof high); // no marks for parity put in
    event = next();
    assert_int_equal(event.record.trace.count, 3);
    assert_memory_equal(event.record.trace.byte, high, 3);
}

static void test_line_settings(void **state) {
    (void)state;
    struct termios line;
    plugged(20);
    assert_int_equal(tcgetattr(terminal.master, &line), 0);
    assert_int_equal(cfgetispeed(&line), B9600);
    assert_int_equal(line.c_cflag & CSIZE, CS8);
    assert_int_equal(line.c_cflag & (PARENB | CSTOPB | CRTSCTS), 0);
    assert_int_equal(line.c_cflag & (CLOCAL | CREAD), CLOCAL | CREAD);
    assert_int_equal(line.c_iflag & (IXON | IXOFF | ICRNL | INLCR | IGNCR | ISTRIP), 0);
    assert_int_equal(line.c_cc[VMIN], 0);
    assert_int_equal(line.c_cc[VTIME], 0);
    int exclusive = 0;
    int other = open(terminal.path, O_RDWR | O_NOCTTY | O_NONBLOCK | O_CLOEXEC);
    if (other >= 0) { // root may open it all the same, and can ask
        assert_int_equal(ioctl(other, TIOCGEXCL, &exclusive), 0);
        assert_int_equal(exclusive, 1);
        close(other);
    } else {
        assert_int_equal(errno, EBUSY);
    }
}

static void test_bauds(void **state) {
    (void)state;
    static const int known[] = {1200,  2400,   4800,   9600,   19200, 38400,
                                57600, 115200, 230400, 460800, 921600};
    static const int unknown[] = {0, -1, 1, 300, 9601, 921601};
    for (size_t i = 0; i < COUNT(known); i++) {
        assert_true(serial_baud_known(known[i]));
    }
    for (size_t i = 0; i < COUNT(unknown); i++) {
        assert_false(serial_baud_known(unknown[i]));
    }
}

static void test_half_a_code_ends_by_itself(void **state) {
    (void)state;
    plugged(20);
    send("H-000", 5);
    expect(WEDGE_FAULT, NULL);
    send("H-0001A\r", 8);
    expect(WEDGE_CODE, "H-0001A");
}

static bool is_open(const char *what) {
    char link[64];
    char target[128];
    for (int fd = 3; fd < 64; fd++) {
        ssize_t size;
        snprintf(link, sizeof link, "/proc/self/fd/%d", fd);
        size = readlink(link, target, sizeof target - 1);
        target[size > 0 ? size : 0] = '\0';
        target[strcspn(target, " ")] = '\0'; // ` (deleted)`
        if (strcmp(target, what) == 0) {
            return true;
        }
    }
    return false;
}

static void test_unplug_and_return(void **state) {
    (void)state;
    plugged(20);
    for (int i = 0; i < 3; i++) {
        char slave[64];
        assert_int_equal(ptsname_r(terminal.master, slave, sizeof slave), 0);
        send("H-00", 4); // half a code
        terminal_plug_out(&terminal);
        expect_kind(SERIAL_LOST);
        expect_kind(SERIAL_GONE);
        assert_false(is_open(slave)); // an open one would keep its number taken
        terminal_plug_in(&terminal);
        expect_kind(SERIAL_BACK);
        wait_ms(5);
        send("S-0001S\r", 8);
        expect(WEDGE_CODE, "S-0001S");
        wait_ms(310); // not to be folded with the next
    }
}

static void test_watched_for_and_idle_meanwhile(void **state) {
    (void)state;
    int64_t used;
    start(NEVER_MS);
    expect_kind(SERIAL_GONE);
    used = processor_us();
    wait_ms(200);
    assert_true(processor_us() - used < 50000);
    terminal_plug_in(&terminal);
    expect_kind(SERIAL_BACK);
    wait_ms(5);
    send("H-0001A\r", 8);
    expect(WEDGE_CODE, "H-0001A");
}

// The device is gone and its link is still there: nothing spins, and it is found when it is back.
static void test_a_link_to_nothing(void **state) {
    (void)state;
    int64_t used;
    plugged(50);
    close(terminal.master);
    terminal.master = -1;
    expect_kind(SERIAL_LOST);
    expect_kind(SERIAL_GONE);
    used = processor_us();
    wait_ms(300);
    assert_true(processor_us() - used < 60000);
    unlink(terminal.path);
    terminal_plug_in(&terminal);
    expect_kind(SERIAL_BACK);
}

static void test_a_plain_file_is_no_line(void **state) {
    (void)state;
    FILE *file = fopen(terminal.path, "w");
    assert_non_null(file);
    fputs("H-0001A\r", file);
    fclose(file);
    start(10);
    expect_kind(SERIAL_GONE);
    wait_ms(50);
    assert_true(no_more());
}

// 10 MB of different codes nobody takes: bounded, told, and the newest world is read on.
static void test_ten_megabytes(void **state) {
    (void)state;
    static char block[8192];
    struct serial_event event = {.kind = SERIAL_RECORD};
    int records = 0;
    for (size_t i = 0; i + 16 <= sizeof block; i += 16) {
        memcpy(block + i, i / 16 % 2 == 0 ? "H-0001A\rW-27QM\r\r" : "S-0001S\rW-27QM\r\r", 16);
    }
    plugged(20);
    for (int i = 0; i < 1280; i++) {
        send(block, sizeof block);
    }
    wait_ms(50);
    while (event.kind == SERIAL_RECORD) {
        event = next();
        records += event.kind == SERIAL_RECORD;
    }
    assert_int_equal(event.kind, SERIAL_FLOOD);
    assert_int_equal(records, SERIAL_QUEUE_MAX);
    wait_ms(310);
    while (serial_next(serial, &event)) {
        continue;
    }
    send("S-0002Q\r", 8);
    expect(WEDGE_CODE, "S-0002Q");
}

static void test_stop_in_the_middle_of_a_stream(void **state) {
    (void)state;
    char block[4000];
    memset(block, 'H', sizeof block);
    plugged(20);
    for (int i = 0; i < 20; i++) {
        send(block, sizeof block);
    }
    expect(WEDGE_FAULT, NULL);
    assert_true(no_more());
}

static void test_stop_any_time(void **state) {
    (void)state;
    for (int i = 0; i < 30; i++) {
        if (i % 2 == 0) {
            terminal_plug_in(&terminal);
        }
        start(i % 3 == 0 ? 1 : NEVER_MS);
        serial_stop(serial);
        serial_join(serial);
        serial_destroy(serial);
        serial = NULL;
        if (terminal.master >= 0) {
            terminal_plug_out(&terminal);
        }
    }
    serial_destroy(NULL);
}

#define EACH(name) cmocka_unit_test_setup_teardown(name, set_up, tear_down)

int main(void) {
    const struct CMUnitTest tests[] = {
        EACH(test_codes),
        EACH(test_cut_anywhere),
        EACH(test_raw),
        EACH(test_line_settings),
        cmocka_unit_test(test_bauds),
        EACH(test_half_a_code_ends_by_itself),
        EACH(test_unplug_and_return),
        EACH(test_watched_for_and_idle_meanwhile),
        EACH(test_a_link_to_nothing),
        EACH(test_a_plain_file_is_no_line),
        EACH(test_ten_megabytes),
        EACH(test_stop_in_the_middle_of_a_stream),
        EACH(test_stop_any_time),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
