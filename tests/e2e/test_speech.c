// What the bench says aloud, and how: through an espeak-ng of our own that writes down what it
// hears.

#include "hands.h"
#include "tongues.h"

#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

static char folder[] = "/tmp/kerfside-speech-XXXXXX";
static char heard[4096];

static const char *in_folder(const char *name) {
    static char path[128];
    snprintf(path, sizeof path, "%s/%s", folder, name);
    return path;
}

static void write_voice(const char *then) {
    FILE *file = fopen(in_folder("espeak-ng"), "w");
    fprintf(file, "#!/bin/sh\n{ echo \"$*\"; cat; echo; } >>%s/heard\n%s\n", folder, then);
    fclose(file);
    chmod(in_folder("espeak-ng"), 0755);
}

// It goes on talking for a minute, unless it is ended.
static int make_voice(void **state) {
    char path[256];
    (void)state;
    if (mkdtemp(folder) == NULL) {
        return -1;
    }
    write_voice("exec sleep 60");
    snprintf(path, sizeof path, "%s:/usr/bin:/bin", folder);
    return setenv("PATH", path, 1);
}

static int remove_voice(void **state) {
    (void)state;
    unlink(in_folder("espeak-ng"));
    unlink(in_folder("heard"));
    return rmdir(folder);
}

static bool hears(const char *words) {
    FILE *file = fopen(in_folder("heard"), "r");
    heard[0] = '\0';
    if (file != NULL) {
        heard[fread(heard, 1, sizeof heard - 1, file)] = '\0';
        fclose(file);
    }
    return strstr(heard, words) != NULL;
}

static void wait_for(const char *words) {
    const struct timespec while_ = {0, 20000000};
    for (int i = 0; i < 250 && !hears(words); i++) {
        nanosleep(&while_, NULL);
        pass(5);
    }
    if (!hears(words)) {
        fail_msg("not said: %s; but:\n%s", words, heard);
    }
}

static int times(const char *words) {
    int count = 0;
    for (const char *at = heard; (at = strstr(at, words)) != NULL; at++) {
        count++;
    }
    return count;
}

static void says_what_to_do(void **state) {
    (void)state;
    settings.spoken = true;
    scan(TICKET_WORKER, "14", 1);
    wait_for("-v en --stdin\nHalf-cut shafts waiting: S-3V (butt cut next).\n");
    pid_t first = bench.speech.child.pid;
    scan(TICKET_HEAD, "1", 1);
    scan(TICKET_SHAFT, "1", 1);
    wait_for("Steel shaft at the cutoff wheel. All in place? Press the button.\n");
    assert_int_equal(kill(first, 0), -1); // ended when the next began, in the middle of its minute
    press();
    // 1 1/2 in: the same mark that test_flow works out.
    wait_for("one and a half inches. Cut made? Press the button.\n");
    // Nothing new: nothing is said again, however often it is drawn.
    for (int i = 0; i < 5; i++) {
        bench.dirty = true;
        pass(300);
    }
    press();
    wait_for("thirty-six and seven eighths inches. Cut made? Press the button.\n");
    assert_int_equal(times("one and a half inches"), 1);
    scan(TICKET_SHAFT, "2", 1);
    wait_for("Another part while a club is in work.");
    bench_hush(&bench);
    assert_int_equal(bench.speech.child.pid, 0);
}

// Ended, and not left as a zombie.
static void gone(pid_t voice) {
    const struct timespec while_ = {0, 10000000};
    for (int i = 0; i < 500 && bench.speech.child.pid == voice; i++) {
        nanosleep(&while_, NULL);
        pass(5);
    }
    assert_int_equal(kill(voice, 0), -1);
}

static pid_t speaks(const char *words) {
    wait_for(words);
    assert_true(bench.speech.child.pid > 0);
    return bench.speech.child.pid;
}

static void hears_of_its_end(void **state) {
    (void)state;
    unlink(in_folder("heard"));
    write_voice("exec sleep 0.2");
    settings.spoken = true;
    scan(TICKET_WORKER, "14", 1);
    gone(speaks("Half-cut shafts waiting"));
    assert_int_equal(bench_speech_patience(&bench), -1);
    write_voice("exec sleep 60");
}

// One that hangs, in a sound driver for example, keeps neither the bench nor what comes next.
static void does_without_one_that_hangs(void **state) {
    (void)state;
    unlink(in_folder("heard"));
    settings.spoken = true;
    scan(TICKET_WORKER, "14", 1);
    pid_t first = speaks("Half-cut shafts waiting");
    assert_int_equal(kill(first, SIGSTOP), 0);
    scan(TICKET_HEAD, "1", 1);
    pid_t second = speaks("Scan shaft");
    gone(first);
    assert_int_equal(kill(second, SIGSTOP), 0);
    pass(59000);
    assert_int_equal(bench.speech.child.pid, second);
    pass(1100);
    gone(second);
    assert_int_equal(bench.speech.child.pid, 0); // and it is not said again
}

static void says_nothing_that_is_not_read(void **state) {
    (void)state;
    unlink(in_folder("heard"));
    assert_true(tongues_use(5));
    assert_string_equal(tongues_code(), "ja");
    settings.spoken = true;
    scan(TICKET_WORKER, "14", 1);
    pass(1000);
    assert_true(bench.speech.missing);
    assert_int_equal(bench.speech.child.pid, 0);
    assert_true(tongues_use(1));
}

static void is_silent_unless_it_is_wanted(void **state) {
    (void)state;
    unlink(in_folder("heard"));
    scan(TICKET_WORKER, "14", 1);
    pass(1000);
    assert_int_equal(bench.speech.child.pid, 0);
    assert_false(hears("Scan"));
}

static void works_without_a_voice(void **state) {
    (void)state;
    setenv("PATH", "/nonexistent", 1);
    settings.spoken = true;
    scan(TICKET_WORKER, "14", 1);
    assert_true(bench.speech.missing);
    assert_int_equal(bench.station.state, STATION_READY);
    scan(TICKET_HEAD, "1", 1);
    assert_int_equal(bench.station.state, STATION_PAIR);
}

#define BENCH(test) cmocka_unit_test_setup_teardown(test, open_bench, close_bench)

int main(void) {
    const struct CMUnitTest tests[] = {
        BENCH(says_what_to_do),
        BENCH(hears_of_its_end),
        BENCH(does_without_one_that_hangs),
        BENCH(says_nothing_that_is_not_read),
        BENCH(is_silent_unless_it_is_wanted),
        BENCH(works_without_a_voice),
    };
    return cmocka_run_group_tests(tests, make_voice, remove_voice);
}
