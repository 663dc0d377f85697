// Tries at a PIN while the power goes or files fail: never is a PIN looked at more often than the
// disk remembers, and nobody is let in who was not looked at.

#include "disk.h"
#include "fake_clock.h"
#include "fake_hash.h"
#include "tape.h"

#include <stdio.h>
#include <unistd.h>

#define PIN "271828"
#define TRIES 5
#define CUTS 400
#define SEED 20261125u

static size_t looked_at[TRIES + 1]; // length of the tape at each look

static void note_look(void) {
    looked_at[fake_hash_looks] = tape_count();
}

static int64_t tries(struct store *store) {
    return fixture_number(store->db, "SELECT coalesce(max(tries), 0) FROM pin_try WHERE badge = "
                                     "'" SUPERVISOR "'");
}

static void open_tape(struct fixture *fixture) {
    char message[STORE_MESSAGE_MAX] = "";
    fixture_folder(fixture);
    tape_begin(fixture->path);
    assert_int_equal(
        store_open(fixture->path, STORE_CREATE, BENCH, &fixture->store, message, sizeof message),
        STORE_OK);
    fixture_seed(fixture->store);
    fake_clock_reboot(1, 100000);
    fake_clock_use(fixture->store);
    assert_int_equal(store_pin_set(fixture->store, SUPERVISOR, PIN), STORE_OK);
    fake_hash_looks = 0;
}

static void a_power_cut_gives_no_try_back(void **state) {
    struct fixture fixture;
    char path[128], lock[160], message[STORE_MESSAGE_MAX] = "";
    uint32_t seed = SEED;
    int ahead = 0, found[TRIES + 1] = {0};
    (void)state;
    open_tape(&fixture);
    fake_hash_hook = note_look;
    size_t from = tape_count();
    for (int i = 0; i < TRIES; i++) {
        int wait = 0;
        fake_clock_ms += 900000;
        assert_int_equal(store_pin_check(fixture.store, SUPERVISOR, "000000", &wait), PIN_WRONG);
    }
    fake_hash_hook = NULL;
    assert_int_equal(store_checkpoint(fixture.store), STORE_OK);
    size_t steps = tape_count() - from;
    snprintf(path, sizeof path, "%s.cut", fixture.path);
    snprintf(lock, sizeof lock, "%s.lock", path);
    struct disk *disk = disk_new();
    for (int i = 0; i < CUTS; i++) {
        struct store *store = NULL;
        size_t at = from + (size_t)i * (steps + 1) / CUTS;
        int looks = 0;
        seed = seed * 1664525u + 1013904223u;
        disk_play(disk, at);
        disk_cut(disk, path, seed);
        assert_int_equal(store_open(path, STORE_WRITE, BENCH, &store, message, sizeof message),
                         STORE_OK);
        while (looks < TRIES && looked_at[looks] <= at) {
            looks++;
        }
        int64_t there = tries(store);
        if (there < looks || there > looks + 1) {
            fail_msg("cut at %d: looked %d times, the disk says %d", (int)at, looks, (int)there);
        }
        ahead += there > looks ? 1 : 0;
        found[there]++;
        fixture_expect_check(store);
        store_close(store);
        unlink(lock);
    }
    disk_free(disk);
    print_message("%d cuts in %zu operations, %d between a count and its look\n", CUTS, steps,
                  ahead);
    for (int i = 0; i <= TRIES; i++) {
        assert_true(found[i] > 0);
    }
    fixture_close(&fixture);
    tape_end();
}

static int seen[PIN_FAILED + 1];

// Right after wrong after right, with one fault. False when it never came.
static bool run(int64_t call, bool for_ever, enum tape_error error) {
    static const char *const pins[] = {"000000", PIN, "000001", PIN};
    struct fixture fixture;
    int wrong = 0;      // looks since the last right PIN that was told
    bool doubt = false; // whether one took the tries away that was not
    open_tape(&fixture);
    tape_fail(call, for_ever, error);
    for (size_t i = 0; i < COUNT(pins); i++) {
        int wait = 0;
        int looks = fake_hash_looks;
        fake_clock_ms += 900000;
        enum pin_result result = store_pin_check(fixture.store, SUPERVISOR, pins[i], &wait);
        bool looked = fake_hash_looks > looks;
        seen[result]++;
        assert_true(result == PIN_FAILED || looked);
        assert_true(result != PIN_RIGHT || strcmp(pins[i], PIN) == 0);
        assert_true(result != PIN_WRONG || strcmp(pins[i], PIN) != 0);
        doubt |= looked && result == PIN_FAILED && strcmp(pins[i], PIN) == 0;
        wrong = result == PIN_RIGHT ? 0 : wrong + (looked ? 1 : 0);
        if (result == PIN_FAILED && store_reopen(fixture.store) == STORE_OK) {
            fake_clock_use(fixture.store);
        }
    }
    bool came = tape_calls() >= call;
    tape_fail(0, false, TAPE_IO);
    fixture_restart(&fixture);
    int64_t there = tries(fixture.store);
    if (there < wrong && !doubt) {
        fail_msg("call %d: %d looks, the disk says %d", (int)call, wrong, (int)there);
    }
    fixture_expect_check(fixture.store);
    fixture_close(&fixture);
    tape_end();
    return came;
}

static void a_fault_lets_nobody_in(void **state) {
    static const enum tape_error errors[] = {TAPE_IO, TAPE_FULL};
    (void)state;
    for (size_t i = 0; i < 2 * COUNT(errors); i++) {
        int64_t call = 1;
        memset(seen, 0, sizeof seen);
        while (run(call, i % 2 == 1, errors[i / 2])) {
            call++;
            assert_true(call < 500);
        }
        print_message("%d calls failed: %d let in, %d refused, %d not checked\n", (int)call - 1,
                      seen[PIN_RIGHT], seen[PIN_WRONG], seen[PIN_FAILED]);
        assert_true(call > 5 && seen[PIN_FAILED] > 0);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_power_cut_gives_no_try_back),
        cmocka_unit_test(a_fault_lets_nobody_in),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
