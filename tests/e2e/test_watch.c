// What whoever watches over the bench is told, at a socket of the test's; and how the starts that
// did not last are counted.

#include "bench.h"
#include "bench_starts.h"
#include "scratch.h"

#include <stdio.h>
#include <stdlib.h>
#include <sys/socket.h>
#include <sys/un.h>
#include <unistd.h>

#define THIRD_US ((int64_t)1000000)

static struct scratch scratch;
static struct bench_watch watch;
static int listener;
static char heard[256];

static int set_up(void **state) {
    struct sockaddr_un address = {.sun_family = AF_UNIX};
    (void)state;
    scratch_init(&scratch);
    listener = socket(AF_UNIX, SOCK_DGRAM | SOCK_NONBLOCK | SOCK_CLOEXEC, 0);
    snprintf(address.sun_path, sizeof address.sun_path, "%s", scratch_path(&scratch, "notify"));
    assert_int_equal(bind(listener, (struct sockaddr *)&address, sizeof address), 0);
    setenv("NOTIFY_SOCKET", address.sun_path, 1);
    setenv("WATCHDOG_USEC", "3000000", 1);
    bench_watch_init(&watch, 0);
    return 0;
}

static int tear_down(void **state) {
    (void)state;
    close(listener);
    unsetenv("NOTIFY_SOCKET");
    unsetenv("WATCHDOG_USEC");
    scratch_release(&scratch);
    return 0;
}

// The next message, empty when there is none.
static const char *hear(void) {
    ssize_t size = recv(listener, heard, sizeof heard - 1, 0);
    heard[size > 0 ? size : 0] = '\0';
    return heard;
}

static void nobody_watches(void **state) {
    (void)state;
    unsetenv("NOTIFY_SOCKET");
    bench_watch_init(&watch, 0);
    assert_false(watch.supervised);
    assert_int_equal(bench_watch_patience(&watch, 0), -1);
    assert_false(bench_watch_due(&watch, INT64_MAX));
    bench_watch_ready(&watch);
    bench_watch_status(&watch, "words");
    bench_watch_extend(&watch, 1);
    bench_watch_stopping(&watch);
    assert_string_equal(hear(), "");
}

static void says_things_once(void **state) {
    (void)state;
    bench_watch_ready(&watch);
    bench_watch_ready(&watch);
    bench_watch_status(&watch, "works");
    bench_watch_status(&watch, "works");
    bench_watch_status(&watch, "works no more");
    bench_watch_stopping(&watch);
    assert_string_equal(hear(), "READY=1");
    assert_string_equal(hear(), "STATUS=works");
    assert_string_equal(hear(), "STATUS=works no more");
    assert_string_equal(hear(), "STOPPING=1");
    assert_string_equal(hear(), "");
}

// The sign of life is due every third of the time allowed.
static void a_sign_of_life(void **state) {
    (void)state;
    assert_int_equal(watch.every_us, THIRD_US);
    assert_true(bench_watch_due(&watch, 0));
    bench_watch_beat(&watch, true, 0, 10);
    assert_string_equal(hear(), "WATCHDOG=1");
    assert_int_equal(bench_watch_patience(&watch, 10), THIRD_US);
    assert_false(bench_watch_due(&watch, THIRD_US));
    assert_true(bench_watch_due(&watch, THIRD_US + 10));
}

static void no_sign_of_life(void **state) {
    (void)state;
    bench_watch_beat(&watch, false, 0, 10); // the database does not answer
    assert_string_equal(hear(), "");
    assert_int_equal(bench_watch_patience(&watch, 10), THIRD_US);
    bench_watch_beat(&watch, true, 0, THIRD_US); // it took too long
    assert_string_equal(hear(), "");
    bench_watch_beat(&watch, true, 0, THIRD_US - 1);
    assert_string_equal(hear(), "WATCHDOG=1");
}

// Every file that the screen waits for asks for more time before it is begun.
static void a_long_export(void **state) {
    (void)state;
    static struct bench bench; // large
    char path[VIEW_TEXT_MAX];
    bench.store = scratch.store;
    bench.watch = watch;
    int fd = bench_new_file(&bench, "log", 0, "csv", path, sizeof path);
    assert_true(fd >= 0);
    close(fd);
    assert_string_equal(hear(), "EXTEND_TIMEOUT_USEC=300000000");
}

static void ended(const char *line) {
    char file[64];
    snprintf(file, sizeof file, "%s.ended", strrchr(scratch.db, '/') + 1);
    scratch_write(&scratch, file, line);
}

static void what_ended_it(void **state) {
    (void)state;
    static const struct {
        const char *line;
        enum station_end end;
        const char *which;
    } rows[] = {
        {"watchdog killed ABRT\n", STATION_END_STILL, "ABRT"},
        {"signal killed SEGV\n", STATION_END_SIGNAL, "SEGV"},
        {"core-dump dumped ABRT\n", STATION_END_SIGNAL, "ABRT"},
        {"exit-code exited 1\n", STATION_END_STATUS, "1"},
        {"oom-kill killed KILL\n", STATION_END_MEMORY, "KILL"},
        {"success exited 0\n", STATION_END_UNKNOWN, "0"},
        {"signal killed %s%s\n", STATION_END_UNKNOWN, ""},
        {"signal\n", STATION_END_UNKNOWN, ""},
        {"", STATION_END_UNKNOWN, ""},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct bench_starts starts;
        ended(rows[i].line);
        bench_starts_begin(&starts, scratch.db);
        assert_int_equal(starts.end, rows[i].end);
        assert_string_equal(starts.which, rows[i].which);
    }
}

static void starts_are_counted(void **state) {
    (void)state;
    struct bench_starts starts;
    for (int i = 1; i <= 5; i++) {
        bench_starts_begin(&starts, scratch.db);
        assert_int_equal(starts.count, i);
    }
    bench_starts_again(&starts);
    bench_starts_begin(&starts, scratch.db);
    assert_int_equal(starts.count, 6);
    bench_starts_end(&starts);
    bench_starts_begin(&starts, scratch.db);
    assert_int_equal(starts.count, 1);
}

// Where nothing can be written, every start is a first one.
static void nothing_to_count_in(void **state) {
    (void)state;
    struct bench_starts starts;
    for (int i = 0; i < 5; i++) {
        bench_starts_begin(&starts, "/proc/no/kerfside.db");
        assert_int_equal(starts.count, 1);
    }
    bench_starts_end(&starts);
}

// Key and witness may lie on a stick that takes its time.
static void a_stick_is_waited_for(void **state) {
    static struct bench bench;
    static struct bench_settings settings;
    char message[512];
    (void)state;
    settings = bench_settings_default();
    strcpy(settings.sign_key, "/nowhere/key");
    strcpy(settings.sign_witness, "/nowhere/witness");
    bench = (struct bench){.settings = &settings, .store = scratch.store, .watch = watch};
    assert_false(bench_sign_ready(&bench, message, sizeof message));
    assert_string_equal(hear(), "EXTEND_TIMEOUT_USEC=300000000");
    assert_string_equal(hear(), "");
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(nobody_watches, set_up, tear_down),
        cmocka_unit_test_setup_teardown(says_things_once, set_up, tear_down),
        cmocka_unit_test_setup_teardown(a_sign_of_life, set_up, tear_down),
        cmocka_unit_test_setup_teardown(no_sign_of_life, set_up, tear_down),
        cmocka_unit_test_setup_teardown(a_long_export, set_up, tear_down),
        cmocka_unit_test_setup_teardown(a_stick_is_waited_for, set_up, tear_down),
        cmocka_unit_test_setup_teardown(what_ended_it, set_up, tear_down),
        cmocka_unit_test_setup_teardown(starts_are_counted, set_up, tear_down),
        cmocka_unit_test_setup_teardown(nothing_to_count_in, set_up, tear_down),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
