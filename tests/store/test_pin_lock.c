// Badges that are locked, and who unlocks them; and what a process killed between the count of a
// try and the look at its PIN leaves behind.

#include "fake_clock.h"
#include "fake_hash.h"
#include "pin_try.h"

#include <signal.h>
#include <stdio.h>
#include <sys/wait.h>
#include <unistd.h>

#define SECOND 1000
#define PIN "271828"
#define SECOND_SUPERVISOR "W-30"

static struct fixture fixture;

static int opened(void **state) {
    (void)state;
    fixture_open(&fixture);
    fixture_exec(fixture.store->db, "INSERT INTO worker (badge, name, role) VALUES ('W-30', 'Cal "
                                    "Wren', 'supervisor')");
    fake_clock_reboot(1, 100 * SECOND);
    fake_clock_use(fixture.store);
    assert_int_equal(store_pin_set(fixture.store, SUPERVISOR, PIN), STORE_OK);
    assert_int_equal(store_pin_set(fixture.store, SECOND_SUPERVISOR, PIN), STORE_OK);
    return 0;
}

static int closed(void **state) {
    (void)state;
    fixture_close(&fixture);
    return 0;
}

static int64_t tries_of(const char *badge) {
    char sql[96];
    snprintf(sql, sizeof sql, "SELECT coalesce((SELECT tries FROM pin_try WHERE badge = '%s'), 0)",
             badge);
    return fixture_number(fixture.store->db, sql);
}

// Nine free tries for all supervisors together, whichever badge: then the station waits.
static void walking_from_badge_to_badge_does_not_help(void **state) {
    char sql[128];
    char badge[TICKET_TEXT_MAX];
    int wait = 0;
    (void)state;
    for (int i = 0; i < 10; i++) {
        snprintf(sql, sizeof sql,
                 "INSERT INTO worker (badge, name, role) VALUES ('W-4%c', 'N', 'supervisor')",
                 'A' + i);
        fixture_exec(fixture.store->db, sql);
        snprintf(badge, sizeof badge, "W-4%c", 'A' + i);
        assert_int_equal(store_pin_set(fixture.store, badge, PIN), STORE_OK);
    }
    for (int i = 0; i < 9; i++) {
        snprintf(badge, sizeof badge, "W-4%c", 'A' + i);
        assert_int_equal(store_pin_check(fixture.store, badge, "000000", &wait), PIN_WRONG);
    }
    assert_int_equal(store_pin_check(fixture.store, "W-4J", PIN, &wait), PIN_WAIT);
    assert_int_equal(wait, 30);
    fake_clock_reboot(2, 3600 * SECOND); // no way out of it
    assert_int_equal(store_pin_check(fixture.store, SUPERVISOR, PIN, &wait), PIN_WAIT);
    assert_int_equal(wait, 30);
    fake_clock_ms += 30 * SECOND;
    assert_int_equal(store_pin_check(fixture.store, "W-4J", "000000", &wait), PIN_WRONG);
    assert_int_equal(store_pin_check(fixture.store, SUPERVISOR, PIN, &wait), PIN_WAIT);
    assert_int_equal(wait, 60);
    fake_clock_ms += 60 * SECOND;
    assert_int_equal(store_pin_check(fixture.store, SUPERVISOR, PIN, &wait), PIN_RIGHT);
    // The others' tries still count.
    assert_int_equal(store_pin_check(fixture.store, SUPERVISOR, "000000", &wait), PIN_WRONG);
    assert_int_equal(store_pin_check(fixture.store, SUPERVISOR, PIN, &wait), PIN_WAIT);
    assert_int_equal(wait, 120); // the 11th
}

static void lock_it(const char *badge) {
    int wait = 0;
    for (int i = 0; i < fixture.store->pin_rules.lock_after; i++) {
        fake_clock_ms += 900 * SECOND;
        assert_int_equal(store_pin_check(fixture.store, badge, "000000", &wait), PIN_WRONG);
    }
    assert_int_equal(store_pin_check(fixture.store, badge, PIN, &wait), PIN_LOCKED);
}

static int64_t logged(const char *cause, const char *worker, const char *note) {
    char sql[200];
    snprintf(sql, sizeof sql,
             "SELECT count(*) FROM log WHERE kind = 'pin' AND cause = '%s' AND worker = '%s' AND "
             "note = '%s'",
             cause, worker, note);
    return fixture_number(fixture.store->db, sql);
}

static void only_another_supervisor_unlocks(void **state) {
    struct store *store = fixture.store;
    int wait = 0;
    (void)state;
    assert_int_equal(logged("set", SUPERVISOR, ""), 1);
    assert_int_equal(store_pin_unlock(store, SUPERVISOR, SECOND_SUPERVISOR), STORE_REFUSED);
    lock_it(SUPERVISOR);
    assert_int_equal(logged("locked", SUPERVISOR, ""), 1);
    // Its tries hold nobody up: the other one has three free ones.
    assert_int_equal(store_pin_check(store, SECOND_SUPERVISOR, "000000", &wait), PIN_WRONG);
    assert_int_equal(store_pin_check(store, SECOND_SUPERVISOR, PIN, &wait), PIN_RIGHT);
    fake_clock_ms += 100000000;
    fake_clock_reboot(2, fake_clock_ms);
    assert_int_equal(store_pin_check(store, SUPERVISOR, PIN, &wait), PIN_LOCKED); // for good
    assert_int_equal(logged("locked", SUPERVISOR, ""), 1);
    assert_int_equal(store_pin_unlock(store, SUPERVISOR, SUPERVISOR), STORE_REFUSED);
    assert_int_equal(store_pin_unlock(store, SUPERVISOR, BUILDER), STORE_REFUSED);
    assert_int_equal(store_pin_unlock(store, SUPERVISOR, ""), STORE_REFUSED);
    assert_int_equal(store_pin_set(store, SUPERVISOR, "314159"), STORE_REFUSED); // no way round
    assert_non_null(strstr(store_message(store), "people --unlock W-2H"));
    assert_int_equal(store_pin_check(store, SUPERVISOR, PIN, &wait), PIN_LOCKED);
    assert_int_equal(store_pin_unlock(store, SUPERVISOR, SECOND_SUPERVISOR), STORE_OK);
    assert_int_equal(logged("unlocked", SECOND_SUPERVISOR, SUPERVISOR), 1);
    assert_int_equal(store_pin_check(store, SUPERVISOR, PIN, &wait), PIN_RIGHT);
}

static void the_last_one_is_recovered(void **state) {
    struct store *store = fixture.store;
    int wait = 0;
    (void)state;
    fixture_exec(store->db, "DELETE FROM pin WHERE badge = 'W-30'; DELETE FROM worker WHERE badge "
                            "= 'W-30'");
    lock_it(SUPERVISOR);
    assert_int_equal(store_pin_recover(store, BUILDER, "314159"), STORE_REFUSED);
    assert_int_equal(store_pin_recover(store, SUPERVISOR, "31"), STORE_REFUSED);
    assert_int_equal(store_pin_check(store, SUPERVISOR, PIN, &wait), PIN_LOCKED);
    assert_int_equal(store_pin_recover(store, SUPERVISOR, "314159"), STORE_OK);
    assert_int_equal(logged("recovered", SUPERVISOR, "by root at the console"), 1);
    assert_int_equal(store_pin_check(store, SUPERVISOR, PIN, &wait), PIN_WRONG);
    assert_int_equal(store_pin_check(store, SUPERVISOR, "314159", &wait), PIN_RIGHT);
    fixture_expect_check(store);
}

static void lets_nobody_in_without_memory(void **state) {
    int wait = 0;
    (void)state;
    fake_hash_no_memory = true;
    assert_int_equal(store_pin_check(fixture.store, SUPERVISOR, PIN, &wait), PIN_FAILED);
    assert_int_equal(store_pin_check(fixture.store, BUILDER, PIN, &wait), PIN_FAILED);
    assert_int_equal(store_pin_set(fixture.store, SUPERVISOR, "314159"), STORE_FAILED);
    fake_hash_no_memory = false;
    assert_int_equal(tries_of(SUPERVISOR), 1); // it was one
    assert_int_equal(store_pin_check(fixture.store, SUPERVISOR, PIN, &wait), PIN_RIGHT);
}

// --- killed between the count and the look -----------------------------------------------------

static void die(void) {
    kill(getpid(), SIGKILL);
}

// A try in a process of its own that dies as it begins to look. True: it came to looking.
static bool try_and_die(const char *pin) {
    int status = 0;
    store_close(fixture.store);
    fixture.store = NULL;
    pid_t child = fork();
    assert_true(child >= 0);
    if (child == 0) {
        int wait = 0;
        fixture_restart(&fixture);
        fake_clock_use(fixture.store);
        fake_hash_hook = die;
        enum pin_result result = store_pin_check(fixture.store, SUPERVISOR, pin, &wait);
        _exit(result == PIN_WAIT || result == PIN_LOCKED ? 0 : 1);
    }
    assert_int_equal(waitpid(child, &status, 0), child);
    fixture_restart(&fixture);
    fake_clock_use(fixture.store);
    assert_true(WIFSIGNALED(status) || WEXITSTATUS(status) == 0);
    return WIFSIGNALED(status);
}

static void a_kill_gives_no_try_back(void **state) {
    int wait = 0;
    (void)state;
    for (int i = 1; i <= 3; i++) {
        assert_true(try_and_die("000000"));
        assert_int_equal(tries_of(SUPERVISOR), i);
    }
    assert_false(try_and_die(PIN)); // it waits
    for (int i = 4; i <= 10; i++) {
        fake_clock_ms += 900 * SECOND;
        assert_true(try_and_die(PIN)); // not even the right one comes to anything
        assert_int_equal(tries_of(SUPERVISOR), i);
    }
    fake_clock_ms += 900 * SECOND;
    assert_false(try_and_die(PIN)); // locked, and only now the log could say so
    assert_int_equal(logged("locked", SUPERVISOR, ""), 1);
    assert_int_equal(store_pin_check(fixture.store, SUPERVISOR, PIN, &wait), PIN_LOCKED);
    assert_int_equal(logged("locked", SUPERVISOR, ""), 1);
}

#define STEP(name) cmocka_unit_test_setup_teardown(name, opened, closed)

int main(void) {
    const struct CMUnitTest tests[] = {
        STEP(walking_from_badge_to_badge_does_not_help),
        STEP(only_another_supervisor_unlocks),
        STEP(the_last_one_is_recovered),
        STEP(lets_nobody_in_without_memory),
        STEP(a_kill_gives_no_try_back),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
