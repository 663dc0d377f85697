// PINs: right, wrong, and how long one waits, whatever is done to the plug or the clock.

#include "fixture.h"
#include "lock.h"
#include "pin_try.h"

#include <stdio.h>
#include <unistd.h>

static int64_t now_ms;
static char now_boot[ENTRY_BOOT_MAX];

static int64_t since_boot(void) {
    return now_ms;
}

static void boot(char ret_boot[ENTRY_BOOT_MAX]) {
    memcpy(ret_boot, now_boot, ENTRY_BOOT_MAX);
}

static void set_clock(struct fixture *fixture) {
    fixture->store->clock = (struct store_clock){since_boot, boot};
}

static int opened(void **state) {
    static struct fixture fixture;
    fixture_open(&fixture);
    now_ms = 100000;
    memset(now_boot, 0, sizeof now_boot);
    strcpy(now_boot, "first");
    set_clock(&fixture);
    assert_int_equal(store_pin_set(fixture.store, SUPERVISOR, "271828"), STORE_OK);
    *state = &fixture;
    return 0;
}

static int closed(void **state) {
    fixture_close(*state);
    return 0;
}

static enum pin_result try_pin(struct fixture *fixture, const char *pin, int *ret_wait_s) {
    *ret_wait_s = 0;
    return store_pin_check(fixture->store, SUPERVISOR, pin, ret_wait_s);
}

static void expect(struct fixture *fixture, const char *pin, enum pin_result result, int wait_s) {
    int wait;
    enum pin_result got = try_pin(fixture, pin, &wait);
    if (got != result || wait != wait_s) {
        fail_msg("%s: %d, %d s to wait; expected %d, %d s", pin, (int)got, wait, (int)result,
                 wait_s);
    }
}

static void knows_the_right_one(void **state) {
    struct fixture *fixture = *state;
    expect(fixture, "271828", PIN_RIGHT, 0);
    expect(fixture, "271829", PIN_WRONG, 0);
    expect(fixture, "", PIN_WRONG, 0);
    expect(fixture, "271828", PIN_RIGHT, 0); // and the count begins again
    expect(fixture, "2718280", PIN_WRONG, 0);
    expect(fixture, "27182", PIN_WRONG, 0);
    expect(fixture, "271828", PIN_RIGHT, 0);
}

// Made by the reference implementation's own command, Debian's package argon2 (0~20171227):
// echo -n 271828 | argon2 kerfsidesalt1234 -id -t 3 -m 16 -p 1 -e
static void agrees_with_the_reference(void **state) {
    struct fixture *fixture = *state;
    assert_int_equal(fixture_number(fixture->store->db,
                                    "SELECT hash GLOB '$argon2id$v=19$m=65536,t=3,p=1$*' FROM pin"),
                     1);
    fixture_exec(fixture->store->db,
                 "UPDATE pin SET hash = '$argon2id$v=19$m=65536,t=3,p=1$a2VyZnNpZGVzYWx0MTIzNA$"
                 "xq0KIk3G9MXzxCMo11SXFHKORuoms1kjwnyqeH35VDU'");
    expect(fixture, "271829", PIN_WRONG, 0);
    expect(fixture, "271828", PIN_RIGHT, 0);
}

static void makes_one_wait(void **state) {
    // Three free tries, then 30 s, doubling to 15 min.
    static const int64_t seconds[] = {0, 0, 0, 30, 60, 120, 240, 480, 900, 900};
    struct fixture *fixture = *state;
    for (size_t i = 0; i < COUNT(seconds); i++) {
        assert_int_equal(pin_try_wait_ms((int64_t)i, 3), seconds[i] * 1000);
    }
    assert_int_equal(pin_try_wait_ms(1000000000, 3), 900000);
    expect(fixture, "1111", PIN_WRONG, 0);
    expect(fixture, "2222", PIN_WRONG, 0);
    expect(fixture, "3333", PIN_WRONG, 0);
    expect(fixture, "271828", PIN_WAIT, 30); // even the right one
    now_ms += 29001;
    expect(fixture, "271828", PIN_WAIT, 1);
    now_ms += 999;
    expect(fixture, "4444", PIN_WRONG, 0);
    expect(fixture, "271828", PIN_WAIT, 60);
    now_ms += 60000;
    expect(fixture, "271828", PIN_RIGHT, 0);
    expect(fixture, "1111", PIN_WRONG, 0);
    expect(fixture, "271828", PIN_RIGHT, 0);
}

// A pulled plug gives nothing back: not the tries, and what was left to wait begins again.
static void waits_through_restarts(void **state) {
    struct fixture *fixture = *state;
    for (int i = 0; i < 3; i++) {
        expect(fixture, "1111", PIN_WRONG, 0);
        fixture_restart(fixture);
        set_clock(fixture);
    }
    expect(fixture, "271828", PIN_WAIT, 30);
    now_ms += 20000;
    strcpy(now_boot, "second");
    now_ms = 500; // since the new boot
    expect(fixture, "271828", PIN_WAIT, 30);
    now_ms += 10000;
    fixture_restart(fixture);
    set_clock(fixture);
    expect(fixture, "271828", PIN_WAIT, 20); // the same boot goes on counting
    strcpy(now_boot, "third");               // off and on again, and again
    now_ms = 900000000;
    expect(fixture, "271828", PIN_WAIT, 20);
    strcpy(now_boot, "first"); // a clock that goes back never frees or lengthens a wait
    now_ms = 0;
    expect(fixture, "271828", PIN_WAIT, 20);
    now_ms += 20000;
    expect(fixture, "271828", PIN_RIGHT, 0);
}

// The try is on disk before the PIN is looked at.
static void counts_before_it_looks(void **state) {
    struct fixture *fixture = *state;
    char path[128];
    int wait;
    snprintf(path, sizeof path, "%s.lock", fixture->path);
    int fd = lock_open(path);
    assert_true(fd >= 0 && lock_take(fd, 0));
    fixture->store->lock_wait_ms = 0;
    // A try that cannot be counted is none, and tells nothing.
    assert_int_equal(try_pin(fixture, "271828", &wait), PIN_FAILED);
    assert_int_equal(try_pin(fixture, "1111", &wait), PIN_FAILED);
    lock_release(fd);
    close(fd);
    expect(fixture, "1111", PIN_WRONG, 0);
    assert_int_equal(fixture_number(fixture->store->db, "SELECT tries FROM pin_try"), 1);
}

static void treats_strangers_alike(void **state) {
    static const char *const badges[] = {BUILDER, "W-9Z", "", "nonsense"};
    struct fixture *fixture = *state;
    int wait = 0;
    // They share one count, so nobody gets on by trying badge after badge.
    for (size_t i = 0; i < 3; i++) {
        assert_int_equal(store_pin_check(fixture->store, badges[i], "271828", &wait), PIN_WRONG);
    }
    assert_int_equal(store_pin_check(fixture->store, badges[3], "271828", &wait), PIN_WAIT);
    assert_int_equal(wait, 30);
    expect(fixture, "271828", PIN_RIGHT, 0); // which does not shut the supervisor out
    assert_int_equal(store_pin_check(fixture->store, BUILDER, "271828", &wait), PIN_WAIT);
}

static void sets_only_good_ones(void **state) {
    static const char *const bad[] = {"", "123", "1234567890123", "12a4", " 1234", "12 34", "-123"};
    struct fixture *fixture = *state;
    int wait = 0;
    for (size_t i = 0; i < COUNT(bad); i++) {
        assert_int_equal(store_pin_set(fixture->store, SUPERVISOR, bad[i]), STORE_REFUSED);
    }
    assert_int_equal(store_pin_set(fixture->store, BUILDER, "1234"), STORE_REFUSED);
    assert_int_equal(store_pin_set(fixture->store, "W-9Z", "1234"), STORE_NONE);
    expect(fixture, "271828", PIN_RIGHT, 0);
    assert_int_equal(store_pin_set(fixture->store, SUPERVISOR, "123456789012"), STORE_OK);
    expect(fixture, "271828", PIN_WRONG, 0);
    expect(fixture, "123456789012", PIN_RIGHT, 0);
    fixture_exec(
        fixture->store->db,
        "INSERT INTO worker (badge, name, role) VALUES ('W-30', 'Cal Wren', 'supervisor')");
    assert_int_equal(store_pin_check(fixture->store, "W-30", "1234", &wait), PIN_NOT_SET);
    // Nowhere in the file stands a PIN.
    assert_int_equal(fixture_number(fixture->store->db,
                                    "SELECT count(*) FROM log WHERE instr(note || cause || plan, "
                                    "'123456789012')"),
                     0);
}

static void knows_workers(void **state) {
    struct fixture *fixture = *state;
    struct worker worker;
    assert_int_equal(store_worker(fixture->store, SUPERVISOR, &worker), STORE_OK);
    assert_string_equal(worker.badge, SUPERVISOR);
    assert_string_equal(worker.name, "Bo Tarn");
    assert_int_equal(worker.role, ROLE_SUPERVISOR);
    assert_int_equal(store_worker(fixture->store, BUILDER, &worker), STORE_OK);
    assert_int_equal(worker.role, ROLE_BUILDER);
    struct worker before = worker;
    assert_int_equal(store_worker(fixture->store, "W-9Z", &worker), STORE_NONE);
    assert_memory_equal(&before, &worker, sizeof worker);
}

#define STEP(name) cmocka_unit_test_setup_teardown(name, opened, closed)

int main(void) {
    const struct CMUnitTest tests[] = {
        STEP(knows_the_right_one),    STEP(agrees_with_the_reference),
        STEP(makes_one_wait),         STEP(waits_through_restarts),
        STEP(counts_before_it_looks), STEP(treats_strangers_alike),
        STEP(sets_only_good_ones),    STEP(knows_workers),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
