// Every allocation SQLite makes in a shift fails, once or from then on for ever: no crash, what the
// store says is true, and with memory again the shift goes on to its end.

#include "shift.h"

#include <stdio.h>

#define ENTRIES 5
#define CHECKPOINT_EVERY 4

static struct script script;
static struct fixture prepared;
static sqlite3_mem_methods real;
static int64_t calls;
static int64_t fail_at; // 0: never
static bool fail_on;    // and all that come after

static bool fails(void) {
    calls++;
    return fail_at > 0 && (calls == fail_at || (fail_on && calls > fail_at));
}

static void *allocate(int size) {
    return fails() ? NULL : real.xMalloc(size);
}

static void *reallocate(void *bytes, int size) {
    return fails() ? NULL : real.xRealloc(bytes, size);
}

static void fail_from(int64_t call, bool for_ever) {
    calls = 0;
    fail_at = call;
    fail_on = for_ever;
}

static void judge(const struct fixture *fixture, const struct notebook *notebook, int64_t call) {
    char why[STORE_MESSAGE_MAX] = "";
    enum judgement judgement = shift_judge(fixture->path, notebook, SIZE_MAX, why, sizeof why);
    if (judgement != JUDGE_WHOLE) {
        fail_msg("allocation %d: judgement %d, %s", (int)call, (int)judgement, why);
    }
}

// One shift. False when no allocation was left to fail.
static bool run(int64_t call, bool for_ever) {
    struct fixture fixture;
    struct notebook notebook = {.script = &script, .seeded = 1};
    char message[STORE_MESSAGE_MAX];
    shift_copy(&prepared, &fixture);
    tape_begin(fixture.path); // quick: its syncs do nothing
    fail_from(call, for_ever);
    enum store_result opened =
        store_open(fixture.path, STORE_WRITE, BENCH, &fixture.store, message, sizeof message);
    if (opened == STORE_OK) {
        shift_run(&fixture, &notebook, CHECKPOINT_EVERY);
    } else {
        assert_true(strlen(message) > 20);
    }
    bool came = calls >= call;
    fail_from(0, false);
    store_close(fixture.store);
    fixture.store = NULL;
    judge(&fixture, &notebook, call);
    fixture_restart(&fixture);
    shift_run(&fixture, &notebook, CHECKPOINT_EVERY);
    assert_int_equal(notebook.note[ENTRIES - 1].result, STORE_OK);
    store_close(fixture.store);
    fixture.store = NULL;
    judge(&fixture, &notebook, call);
    fixture_close(&fixture);
    tape_end();
    return came;
}

// The first allocations one by one, later ones (the same statements again) in growing steps.
static void sweep(bool for_ever) {
    int64_t call = 1;
    int runs = 0;
    while (run(call, for_ever)) {
        call += 1 + call / 40;
        runs++;
    }
    print_message("%d of %d allocations failed %s\n", runs, (int)call,
                  for_ever ? "for ever" : "once");
    assert_true(runs > 100);
}

static void lacks_memory_once(void **state) {
    (void)state;
    sweep(false);
}

static void lacks_memory_for_ever(void **state) {
    (void)state;
    sweep(true);
}

static int prepare(void **state) {
    (void)state;
    assert_int_equal(sqlite3_config(SQLITE_CONFIG_GETMALLOC, &real), SQLITE_OK);
    sqlite3_mem_methods methods = real;
    methods.xMalloc = allocate;
    methods.xRealloc = reallocate;
    assert_int_equal(sqlite3_config(SQLITE_CONFIG_MALLOC, &methods), SQLITE_OK);
    assert_int_equal(sqlite3_config(SQLITE_CONFIG_LOOKASIDE, 0, 0), SQLITE_OK);
    shift_script(&script, ENTRIES);
    shift_database(&prepared);
    return 0;
}

static int clean_up(void **state) {
    (void)state;
    fixture_close(&prepared);
    return 0;
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(lacks_memory_once),
                                       cmocka_unit_test(lacks_memory_for_ever)};
    return cmocka_run_group_tests(tests, prepare, clean_up);
}
