// Tries at PINs against a model of their own, in every order of a few steps and in a long walk.

#include "fake_clock.h"
#include "fake_hash.h"
#include "tape.h"

#include <stdio.h>

#define SECOND 1000
#define PIN "271828"
#define SECOND_SUPERVISOR "W-30"

// --- the model ---------------------------------------------------------------------------------

enum who { BO, CAL, STRANGER, STATION, WHO_COUNT };
static const char *const badges[] = {SUPERVISOR, SECOND_SUPERVISOR, BUILDER};

struct counter {
    int tries;
    int64_t wait;  // granted
    int64_t since; // when
    int boot;
};
struct model {
    struct counter counter[WHO_COUNT];
    int64_t now;
    int boot;
};

// Seconds to wait after so many tries: 3 free, 30 s doubling to 15 min (NIST SP 800-63B 5.2.2 asks
// for waits that grow from, say, 30 s).
static int64_t earned(int tries) {
    static const int64_t seconds[] = {0, 0, 0, 30, 60, 120, 240, 480};
    return tries < 0 ? 0 : tries < 8 ? seconds[tries] * SECOND : 900 * SECOND;
}

static int64_t left(const struct model *m, enum who who) {
    const struct counter *c = &m->counter[who];
    int64_t passed = m->boot == c->boot && m->now > c->since ? m->now - c->since : 0;
    return passed < c->wait ? c->wait - passed : 0;
}

static void grant(struct model *m, enum who who, int64_t wait) {
    m->counter[who].wait = wait;
    m->counter[who].since = m->now;
    m->counter[who].boot = m->boot;
}

static int together(const struct model *m) {
    int bo = m->counter[BO].tries, cal = m->counter[CAL].tries;
    return (bo < 10 ? bo : 0) + (cal < 10 ? cal : 0);
}

static enum pin_result model_try(struct model *m, enum who who, bool right, int *ret_wait_s) {
    bool known = who != STRANGER;
    *ret_wait_s = 0;
    if (known && m->counter[who].tries >= 10) {
        return PIN_LOCKED;
    }
    int64_t own = left(m, who);
    int64_t all = known ? left(m, STATION) : 0;
    if (own > 0 || all > 0) {
        grant(m, who, own);
        if (known) {
            grant(m, STATION, all);
        }
        *ret_wait_s = (int)(((own > all ? own : all) + SECOND - 1) / SECOND);
        return PIN_WAIT;
    }
    m->counter[who].tries++;
    grant(m, who, earned(m->counter[who].tries));
    if (known) {
        grant(m, STATION, earned(together(m) - 6));
        if (right) {
            m->counter[who].tries = 0;
            grant(m, who, 0);
            grant(m, STATION, 0);
            return PIN_RIGHT;
        }
        if (m->counter[who].tries == 10) {
            grant(m, who, 0);
        }
    }
    return PIN_WRONG;
}

// --- both side by side -------------------------------------------------------------------------

static struct fixture fixture;
static struct model model;
static int64_t compared;

enum step {
    BO_WRONG,
    BO_RIGHT,
    CAL_WRONG,
    CAL_RIGHT,
    STRANGER_TRIES,
    WAIT_A_BIT,
    WAIT_LONG,
    CLOCK_BACK,
    REBOOT,
    STEP_COUNT
};

static int64_t tries_of(enum who who) {
    char sql[96];
    snprintf(sql, sizeof sql, "SELECT coalesce((SELECT tries FROM pin_try WHERE badge = '%s'), 0)",
             who == STRANGER ? "" : badges[who]);
    return fixture_number(fixture.store->db, sql);
}

static void both_try(enum who who, bool right, const char *path) {
    int wait_model = 0, wait = 0;
    int looks = fake_hash_looks;
    enum pin_result expected = model_try(&model, who, right, &wait_model);
    enum pin_result got =
        store_pin_check(fixture.store, badges[who], right ? PIN : "000000", &wait);
    bool looked = fake_hash_looks > looks;
    if (got != expected || wait != wait_model || tries_of(who) != model.counter[who].tries ||
        (who != STRANGER && looked != (expected == PIN_RIGHT || expected == PIN_WRONG))) {
        fail_msg("%s: %d, %d s, %d tries; expected %d, %d s, %d tries", path, (int)got, wait,
                 (int)tries_of(who), (int)expected, wait_model, model.counter[who].tries);
    }
    compared++;
}

static void take(enum step step, const char *path) {
    switch (step) {
    case BO_WRONG:
    case BO_RIGHT:
        both_try(BO, step == BO_RIGHT, path);
        break;
    case CAL_WRONG:
    case CAL_RIGHT:
        both_try(CAL, step == CAL_RIGHT, path);
        break;
    case STRANGER_TRIES:
        both_try(STRANGER, true, path);
        break;
    case WAIT_A_BIT:
        model.now += 29 * SECOND;
        break;
    case WAIT_LONG:
        model.now += 900 * SECOND;
        break;
    case CLOCK_BACK:
        model.now = model.now > 3600 * SECOND ? model.now - 3600 * SECOND : 0;
        break;
    case REBOOT:
        model.boot++;
        model.now = 5 * SECOND;
        break;
    case STEP_COUNT:
        break;
    }
    fake_clock_reboot(model.boot, model.now);
}

// What stands in the table, as SQL that puts it back.
static void snapshot(char *sql, size_t size) {
    sqlite3_stmt *row = NULL;
    assert_int_equal(
        sqlite3_prepare_v2(fixture.store->db,
                           "SELECT 'DELETE FROM pin_try;' || coalesce(group_concat('INSERT INTO "
                           "pin_try VALUES (' || quote(badge) || ',' || tries || ',' || wait_ms || "
                           "',' || until_ms || ',' || quote(boot) || ',' || quote(locked) || "
                           "');', ''), '') FROM pin_try",
                           -1, &row, NULL),
        SQLITE_OK);
    assert_int_equal(sqlite3_step(row), SQLITE_ROW);
    assert_true(snprintf(sql, size, "%s", (const char *)sqlite3_column_text(row, 0)) < (int)size);
    sqlite3_finalize(row);
}

static void explore(int depth, char *path, size_t at) {
    char sql[1024];
    struct model before = model;
    if (depth == 0) {
        return;
    }
    snapshot(sql, sizeof sql);
    for (int step = 0; step < STEP_COUNT; step++) {
        path[at] = (char)('a' + step);
        path[at + 1] = '\0';
        take((enum step)step, path);
        explore(depth - 1, path, at + 1);
        model = before;
        fake_clock_reboot(model.boot, model.now);
        fixture_exec(fixture.store->db, sql);
    }
}

static int opened(void **state) {
    (void)state;
    char message[STORE_MESSAGE_MAX];
    fixture_folder(&fixture);
    tape_begin(fixture.path); // quick: its syncs do nothing
    assert_int_equal(
        store_open(fixture.path, STORE_CREATE, BENCH, &fixture.store, message, sizeof message),
        STORE_OK);
    fixture_seed(fixture.store);
    fixture_exec(fixture.store->db, "INSERT INTO worker (badge, name, role) VALUES ('W-30', 'Cal "
                                    "Wren', 'supervisor')");
    memset(&model, 0, sizeof model);
    model.now = 100 * SECOND;
    model.boot = 1;
    fake_clock_reboot(1, model.now);
    fake_clock_use(fixture.store);
    assert_int_equal(store_pin_set(fixture.store, SUPERVISOR, PIN), STORE_OK);
    assert_int_equal(store_pin_set(fixture.store, SECOND_SUPERVISOR, PIN), STORE_OK);
    return 0;
}

static int closed(void **state) {
    (void)state;
    fixture_close(&fixture);
    tape_end();
    return 0;
}

// From a new station, from one that Bo has nearly locked, and from one that both have tried at.
static void keeps_to_the_model(void **state) {
    static const struct { int bo, cal; } starts[] = {{0, 0}, {2, 0}, {9, 0}, {4, 4}};
    char path[16] = "";
    (void)state;
    for (size_t i = 0; i < COUNT(starts); i++) {
        for (int n = 0; n < starts[i].bo; n++) {
            take(WAIT_LONG, "start");
            take(BO_WRONG, "start");
        }
        for (int n = 0; n < starts[i].cal; n++) {
            take(WAIT_LONG, "start");
            take(CAL_WRONG, "start");
        }
        explore(4, path, 0);
        fixture_exec(fixture.store->db, "DELETE FROM pin_try");
        memset(model.counter, 0, sizeof model.counter);
    }
    print_message("%d tries as the model has them\n", (int)compared);
    assert_true(compared > 10000);
}

static void keeps_to_the_model_on_a_long_walk(void **state) {
    uint32_t seed = 20261125u;
    int seen[8] = {0};
    (void)state;
    for (int i = 0; i < 6000; i++) {
        char path[24];
        snprintf(path, sizeof path, "step %d", i);
        seed = seed * 1664525u + 1013904223u;
        uint32_t step = (seed >> 16) % 16;
        take(step < STEP_COUNT ? (enum step)step : step % 2 == 0 ? BO_WRONG : WAIT_LONG, path);
        for (enum who who = BO; who <= CAL; who++) {
            if (model.counter[who].tries == 10 && seed % 5 == 0) {
                assert_int_equal(store_pin_unlock(fixture.store, badges[who], badges[1 - who]),
                                 STORE_OK);
                model.counter[who].tries = 0;
                grant(&model, who, 0);
                grant(&model, STATION, 0);
                seen[0]++;
            }
        }
    }
    print_message("%d badges unlocked\n", seen[0]);
    assert_true(seen[0] > 20);
    // Each lock is in the log once, and each unlocking.
    assert_true(fixture_number(fixture.store->db, "SELECT count(*) FROM log WHERE cause = "
                                                  "'locked'") >= seen[0]);
    assert_int_equal(
        fixture_number(fixture.store->db, "SELECT count(*) FROM log WHERE cause = 'unlocked'"),
        seen[0]);
    fixture_expect_check(fixture.store);
}

#define STEP(name) cmocka_unit_test_setup_teardown(name, opened, closed)

int main(void) {
    const struct CMUnitTest tests[] = {
        STEP(keeps_to_the_model),
        STEP(keeps_to_the_model_on_a_long_walk),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
