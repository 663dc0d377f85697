// Signing a day with a large log: the real bench, drawn without a window, goes on meanwhile.

#include "bench.h"
#include "scratch.h"
#include "witness.h"

#include <stdio.h>
#include <stdlib.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

#define CLUBS 16000
#define ENTRIES 100000

static struct scratch scratch;
static struct bench_settings settings;
static struct bench bench;
static struct screen *screen;

static int64_t now_us(void) {
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (int64_t)now.tv_sec * 1000000 + now.tv_nsec / 1000;
}

static void run(const char *words) {
    char command[1200];
    snprintf(command, sizeof command, "cd '%s' && %s >out.txt 2>&1 || { cat out.txt; exit 1; }",
             scratch.folder, words);
    assert_int_equal(system(command), 0);
}

static int once(void **state) {
    char message[512];
    struct screen_options options = {
        .windowed = true, .width = 1280, .height = 720, .assets = KERFSIDE_SOURCE_DIR "/assets"};
    (void)state;
    setenv("SDL_VIDEODRIVER", "dummy", 1);
    setenv("SDL_AUDIODRIVER", "dummy", 1);
    scratch_init(&scratch);
    scratch_write(&scratch, "workers.csv", "badge,name,role\nW-0001B,Maren Oakshott,supervisor\n");
    scratch_write(&scratch, "pin.txt", "586906\n586906\n");
    assert_int_equal(mkdir(scratch_path(&scratch, "keys"), 0700), 0);
    snprintf(message, sizeof message, KERFSIDE_FILL " large.db %d %d", CLUBS, ENTRIES);
    run(message);
    run(KERFSIDE_PROGRAM " import --db large.db workers.csv");
    run(KERFSIDE_PROGRAM " pin --db large.db W-0001B <pin.txt");
    run(KERFSIDE_PROGRAM " key keys/k");
    settings = bench_settings_default();
    snprintf(settings.sign_key, sizeof settings.sign_key, "%s/keys/k", scratch.folder);
    snprintf(settings.sign_witness, sizeof settings.sign_witness, "%s/witness", scratch.folder);
    if (!screen_open(&options, &screen, message, sizeof message)) {
        fail_msg("%s", message);
    }
    return 0;
}

static int for_all(void **state) {
    (void)state;
    screen_close(screen);
    scratch_release(&scratch);
    return 0;
}

// Lets 5 ms pass; returns how long it really took from the last time on.
static int64_t pass(void) {
    static int64_t last;
    const struct timespec moment = {.tv_nsec = 5000000};
    nanosleep(&moment, NULL);
    bench_clock_pass(&bench.clock, 5000);
    bench_tick(&bench);
    bench_draw(&bench);
    int64_t now = now_us();
    int64_t gap = now - last;
    last = now;
    return gap;
}

static void hand(enum event_kind kind, char key, enum view_action_id action, const char *text) {
    struct event event = {.kind = kind, .key = key, .action = (int)action};
    snprintf(event.text, sizeof event.text, "%s", text);
    bench_clock_pass(&bench.clock, 600000);
    bench_event(&bench, &event);
    pass();
}

static void act(enum view_action_id action) {
    hand(EVENT_ACTION, 0, action, "");
}

// At the question whether the day shall be signed.
static int at_the_question(void **state) {
    char message[512];
    (void)state;
    bench =
        (struct bench){.settings = &settings, .screen = screen, .clock = bench_clock_simulated()};
    bench_clock_set(&bench.clock, "2026-03-31T08:15");
    if (store_open(scratch_path(&scratch, "large.db"), STORE_WRITE, "Bench 1", &bench.store,
                   message, sizeof message) != STORE_OK) {
        fail_msg("%s", message);
    }
    bench_init(&bench);
    hand(EVENT_SCAN, 0, ACTION_NONE, "W-0001B");
    act(ACTION_REVIEW);
    hand(EVENT_SCAN, 0, ACTION_NONE, "W-0001B");
    for (const char *digit = "586906"; *digit != '\0'; digit++) {
        hand(EVENT_KEY, *digit, ACTION_NONE, "");
    }
    hand(EVENT_PRESS, 0, ACTION_NONE, "");
    assert_int_equal(bench.station.state, STATION_REVIEW);
    act(ACTION_DAY);
    act(ACTION_SIGN);
    assert_int_equal(bench.station.review.mode, REVIEW_SIGN);
    return 0;
}

static int closed(void **state) {
    (void)state;
    bench_check_stop(&bench);
    store_close(bench.store);
    return 0;
}

static int64_t entries(void) {
    struct log_filter every = {0};
    struct log_line newest;
    assert_int_equal(store_log(bench.store, &every, 0, &newest, 1), 1);
    return newest.seq;
}

static int64_t signatures(void) {
    struct day_signature newest;
    return store_signature(bench.store, NULL, NULL, &newest) == STORE_OK ? newest.checkpoint.size
                                                                         : 0;
}

// The screen goes on. One longer gap may be the machine's, which looked after something else.
static void draws_while_it_checks(void **state) {
    int64_t before = entries();
    int64_t start = now_us();
    int64_t longest = 0;
    int64_t longest_but_one = 0;
    int64_t told = 0;
    int tellings = 0;
    (void)state;
    act(ACTION_SIGN_CONFIRM);
    assert_true(bench.check.going);
    while (bench.station.review.mode == REVIEW_CHECK) {
        int64_t gap = pass();
        if (bench.station.review.mode != REVIEW_CHECK) {
            break; // that one signed
        }
        longest_but_one = gap > longest ? longest : gap > longest_but_one ? gap : longest_but_one;
        longest = gap > longest ? gap : longest;
        tellings += bench.station.day.checked > told;
        told = bench.station.day.checked;
    }
    print_message("checked %d entries in %d ms, told %d times; longest gaps %d ms, %d ms\n",
                  (int)before, (int)((now_us() - start) / 1000), tellings, (int)(longest / 1000),
                  (int)(longest_but_one / 1000));
    assert_string_equal(bench_view(&bench)->band, "Signed: in the log and in the witness.");
    assert_int_equal(signatures(), before + 1);
    assert_int_equal(entries(), before + 1);
    assert_true(tellings > 3);
    assert_true(longest_but_one < KERFSIDE_LONGEST_MS * 1000);
}

// Once `read` entries are.
static void stop_after(int64_t read) {
    act(ACTION_SIGN_CONFIRM);
    while (bench.station.review.mode == REVIEW_CHECK && bench.station.day.checked < read) {
        pass();
    }
    assert_int_equal(bench.station.review.mode, REVIEW_CHECK);
    int64_t start = now_us();
    act(ACTION_BACK);
    print_message("stopped in %d ms\n", (int)((now_us() - start) / 1000));
    assert_true(now_us() - start < 2 * KERFSIDE_LONGEST_MS * 1000);
    assert_false(bench.check.going);
}

static void stops_at_once(void **state) {
    int64_t before = entries();
    int64_t signed_before = signatures();
    (void)state;
    stop_after(1000);
    act(ACTION_SIGN);
    stop_after(before); // SQLite looks at the pages
    for (int i = 0; i < 20; i++) {
        pass();
    }
    assert_int_equal(entries(), before);
    assert_int_equal(signatures(), signed_before);
    act(ACTION_SIGN); // the witness is free again
    act(ACTION_SIGN_CONFIRM);
    bench_signing_wait(&bench.check);
    bench_clock_pass(&bench.clock, 300000);
    pass();
    assert_int_equal(signatures(), before + 1);
}

// Another program writes meanwhile: what came is signed too, and found whole.
static void signs_what_came_meanwhile(void **state) {
    int64_t before = entries();
    (void)state;
    act(ACTION_SIGN_CONFIRM);
    run(KERFSIDE_PROGRAM " pin --db large.db W-0001B <pin.txt");
    assert_int_equal(entries(), before + 1);
    bench_signing_wait(&bench.check);
    bench_clock_pass(&bench.clock, 300000);
    pass();
    assert_int_equal(signatures(), before + 2);
    run(KERFSIDE_PROGRAM " check --db large.db --witness witness --public keys/k.pub");
}

#define STEP(name) cmocka_unit_test_setup_teardown(name, at_the_question, closed)

int main(void) {
    const struct CMUnitTest tests[] = {
        STEP(draws_while_it_checks),
        STEP(stops_at_once),
        STEP(signs_what_came_meanwhile),
    };
    return cmocka_run_group_tests(tests, once, for_all);
}
