// What goes on beside the bench and what it makes of that: a check of the log that fails, a copy to
// practise on that is ready while somebody works.

#include "bench.h"
#include "machine_facts.h"
#include "scratch.h"

#include <errno.h>
#include <fcntl.h>
#include <linux/filter.h>
#include <linux/seccomp.h>
#include <signal.h>
#include <stddef.h>
#include <stdlib.h>
#include <sys/prctl.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

#define HOUR_MS ((int64_t)3600 * 1000)

static struct scratch scratch;
static struct bench_settings settings;
static struct settings_now now;
static struct bench bench;
static struct screen *screen;

static int once(void **state) {
    char message[512];
    struct screen_options options = {
        .windowed = true, .width = 800, .height = 600, .assets = KERFSIDE_SOURCE_DIR "/assets"};
    (void)state;
    setenv("SDL_VIDEODRIVER", "dummy", 1);
    setenv("SDL_AUDIODRIVER", "dummy", 1);
    if (!screen_open(&options, &screen, message, sizeof message)) {
        fail_msg("%s", message);
    }
    return 0;
}

static int for_all(void **state) {
    (void)state;
    screen_close(screen);
    return 0;
}

static int set_up(void **state) {
    char message[512];
    (void)state;
    scratch_init(&scratch);
    scratch_import_workshop(&scratch);
    store_close(scratch.store);
    scratch.store = NULL;
    settings = bench_settings_default();
    bench = (struct bench){
        .settings = &settings, .now = &now, .screen = screen, .clock = bench_clock_simulated()};
    if (store_open(scratch.db, STORE_WRITE, "Bench 1", &bench.store, message, sizeof message) !=
        STORE_OK) {
        fail_msg("%s", message);
    }
    bench_init(&bench);
    bench_practice_init(&bench, &(struct bench_begins){0}, "/bin/true");
    return 0;
}

static int tear_down(void **state) {
    (void)state;
    bench_practice_stop(&bench);
    store_close(bench.store);
    scratch_release(&scratch);
    return 0;
}

// --- a program that cannot be ended --------------------------------------------------------------

static int64_t now_ms(void) {
    struct timespec at;
    clock_gettime(CLOCK_MONOTONIC, &at);
    return (int64_t)at.tv_sec * 1000 + at.tv_nsec / 1000000;
}

// One that waits for a disk which does not answer outlives every signal. Here none reaches it: it
// is in no group of its own.
static void test_child_stays(void **state) {
    const struct timespec moment = {.tv_nsec = 10000000};
    struct child child = {.pid = fork(), .said = open("/dev/null", O_RDONLY)};
    (void)state;
    if (child.pid == 0) {
        nanosleep(&(struct timespec){.tv_nsec = 900000000}, NULL);
        _exit(0);
    }
    pid_t pid = child.pid;
    int64_t began = now_ms();
    child_stop(&child);
    assert_in_range(now_ms() - began, 0, 600);
    assert_int_equal(child.pid, 0);
    assert_int_equal(kill(pid, 0), 0); // it is there all the same
    while (kill(pid, 0) == 0 && now_ms() - began < 5000) {
        child_stop(&child); // none is left behind for ever
        assert_true(child_start(&child, "/bin/true", (const char *const[]){"true", NULL}));
        nanosleep(&moment, NULL);
    }
    assert_int_equal(kill(pid, 0), -1);
    child_stop(&child);
}

// --- the check of the log ------------------------------------------------------------------------

static void *nothing(void *ctx) {
    return ctx;
}

// A check of everything that has ended so.
static void checked(enum store_result result) {
    struct bench_selfcheck *self = &bench.selfcheck;
    char message[512];
    self->known = true;
    self->begun = true;
    self->whole = CHAIN_READING;
    self->going = true;
    self->all = true;
    self->result = result;
    assert_int_equal(
        store_open(scratch.db, STORE_READ, "Bench 1", &self->reading, message, sizeof message),
        STORE_OK);
    assert_int_equal(pthread_create(&self->thread, NULL, nothing, NULL), 0);
    atomic_store(&self->ended, true);
    bench_selfcheck_tick(&bench);
    assert_false(self->going);
}

static void test_check_ends(void **state) {
    (void)state;
    checked(STORE_OK);
    assert_int_equal(bench.selfcheck.whole, CHAIN_WHOLE);
    checked(STORE_REFUSED);
    assert_int_equal(bench.selfcheck.whole, CHAIN_BROKEN);
}

// What could not be read is not being read.
static void test_check_fails(void **state) {
    (void)state;
    checked(STORE_FAILED);
    assert_int_equal(bench.selfcheck.whole, CHAIN_UNKNOWN);
    assert_int_equal(bench.selfcheck.whole_ms, 0);
}

// Nobody else wakes a bench that is left alone.
static void test_check_next_day(void **state) {
    (void)state;
    bench.selfcheck.known = true;
    bench.selfcheck.begun = true;
    bench.selfcheck.whole_ms = bench_clock_wall_ms(&bench.clock) - 23 * HOUR_MS;
    bench.last_input_us = bench_clock_us(&bench.clock);
    int64_t left = bench_selfcheck_patience(&bench);
    assert_in_range(left, HOUR_MS * 1000, (HOUR_MS + 1000) * 1000);
    bench_clock_pass(&bench.clock, left);
    assert_int_equal(bench_selfcheck_patience(&bench), -1); // it has been quiet: the tick begins
    assert_true(bench_clock_wall_ms(&bench.clock) - bench.selfcheck.whole_ms > 24 * HOUR_MS);
}

// --- the clock, where the kernel may not be asked
// -------------------------------------------------

// As the unit's SystemCallFilter= does (seccomp(2)).
static void bar_clock(void) {
    struct sock_filter filter[] = {
        BPF_STMT(BPF_LD | BPF_W | BPF_ABS, offsetof(struct seccomp_data, nr)),
        BPF_JUMP(BPF_JMP | BPF_JEQ | BPF_K, SYS_adjtimex, 1, 0),
        BPF_JUMP(BPF_JMP | BPF_JEQ | BPF_K, SYS_clock_adjtime, 0, 1),
        BPF_STMT(BPF_RET | BPF_K, SECCOMP_RET_ERRNO | EPERM),
        BPF_STMT(BPF_RET | BPF_K, SECCOMP_RET_ALLOW),
    };
    struct sock_fprog program = {.len = sizeof filter / sizeof *filter, .filter = filter};
    if (prctl(PR_SET_NO_NEW_PRIVS, 1, 0, 0, 0) != 0 ||
        prctl(PR_SET_SECCOMP, SECCOMP_MODE_FILTER, &program) != 0) {
        _exit(99);
    }
}

// What machine_clock says there.
static int barred_clock(const char *told) {
    int status = 0;
    pid_t pid = fork();
    if (pid == 0) {
        bar_clock();
        _exit(machine_clock(told) + 1);
    }
    assert_int_equal(waitpid(pid, &status, 0), pid);
    assert_true(WIFEXITED(status));
    return WEXITSTATUS(status) - 1;
}

static void test_clock(void **state) {
    char folder[128];
    char file[160];
    (void)state;
    snprintf(folder, sizeof folder, "%s", scratch_path(&scratch, "timesync"));
    assert_int_equal(barred_clock(folder), -1);
    assert_int_equal(mkdir(folder, 0755), 0);
    assert_int_equal(barred_clock(folder), 0);
    snprintf(file, sizeof file, "%s/synchronized", folder);
    int fd = open(file, O_WRONLY | O_CREAT | O_CLOEXEC, 0644);
    assert_true(fd >= 0);
    close(fd);
    assert_int_equal(barred_clock(folder), 1);
}

// --- the copy to practise on ---------------------------------------------------------------------

static void act(enum view_action_id action, int64_t argument) {
    struct event event = {.kind = EVENT_ACTION, .action = (int)action, .argument = argument};
    bench_clock_pass(&bench.clock, 600000);
    bench_event(&bench, &event);
}

// At the desk, with a copy being made.
static void copying(void) {
    struct event badge = {.kind = EVENT_SCAN, .text = "W-0001B"};
    struct desk_said said = {.tone = TONE_PLAIN};
    bench_event(&bench, &badge);
    act(ACTION_DESK, 0);
    assert_int_equal(bench.station.state, STATION_DESK);
    assert_true(bench_practice_ask(&bench, false, &said));
}

static void test_copy_is_there(void **state) {
    (void)state;
    copying();
    bench_practice_wait(&bench);
    assert_int_equal(bench.practice.leaves, BENCH_TO_PRACTICE);
    assert_string_equal(bench.practice.badge, "W-0001B");
}

// What stands in a form is not thrown away.
static void test_copy_waits_for_a_form(void **state) {
    (void)state;
    copying();
    act(ACTION_TILE, 1); // Take in heads
    assert_int_equal(bench_view(&bench)->body, VIEW_FORM);
    bench_practice_wait(&bench);
    assert_int_equal(bench.practice.leaves, BENCH_STAYS);
    assert_string_equal(bench.desk.message, "Practice was not begun: work went on meanwhile.");
}

// A checkpoint would wait for whoever reads, and the screen with it.
static void test_copy_before_checkpoint(void **state) {
    (void)state;
    copying();
    bench.checkpoint_due = true;
    bench_clock_pass(&bench.clock, 60 * (int64_t)1000000);
    bench_tidy(&bench);
    assert_true(bench.checkpoint_due);
    bench_practice_wait(&bench);
    bench_tidy(&bench);
    assert_false(bench.checkpoint_due);
}

// A checkpoint that fails is nobody who has come: the screen may go dark all the same.
static void test_checkpoint_fails(void **state) {
    char message[512];
    (void)state;
    struct store *writable = bench.store;
    assert_int_equal(
        store_open(scratch.db, STORE_READ, "Bench 1", &bench.store, message, sizeof message),
        STORE_OK);
    int64_t before = bench.last_input_us;
    bench.checkpoint_due = true;
    bench_clock_pass(&bench.clock, 31 * (int64_t)1000000);
    bench_tidy(&bench);
    assert_true(bench.checkpoint_due);
    assert_int_equal(bench.last_input_us, before);
    store_close(bench.store);
    bench.store = writable;
    bench_tidy(&bench); // not at once again
    assert_true(bench.checkpoint_due);
    bench_clock_pass(&bench.clock, 31 * (int64_t)1000000);
    bench_tidy(&bench);
    assert_false(bench.checkpoint_due);
}

// Why there is no file is said of this one.
static void test_file_name(void **state) {
    char name[VIEW_TEXT_MAX];
    char path[VIEW_TEXT_MAX];
    (void)state;
    memset(name, 'x', sizeof name);
    name[sizeof name - 1] = '\0';
    errno = 0;
    assert_int_equal(bench_new_file(&bench, name, 0, "csv", path, sizeof path), -1);
    assert_int_equal(errno, ENAMETOOLONG);
}

#define ROW(test) cmocka_unit_test_setup_teardown(test, set_up, tear_down)
int main(void) {
    const struct CMUnitTest tests[] = {ROW(test_child_stays),
                                       ROW(test_check_ends),
                                       ROW(test_check_fails),
                                       ROW(test_check_next_day),
                                       ROW(test_clock),
                                       ROW(test_copy_is_there),
                                       ROW(test_copy_waits_for_a_form),
                                       ROW(test_copy_before_checkpoint),
                                       ROW(test_checkpoint_fails),
                                       ROW(test_file_name)};
    return cmocka_run_group_tests(tests, once, for_all);
}
