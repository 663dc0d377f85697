// Every write, sync, truncation, removal and opening of a file fails once, or from then on for
// ever, by itself or because the disk is full. What the store says of each entry is true, and when
// the fault is over the shift goes on to its end.

#include "shift.h"

#include <stdio.h>
#include <unistd.h>

#define ENTRIES 9
#define CHECKPOINT_EVERY 4

static struct script script;
static struct fixture prepared; // a closed database with the workshop in it, copied for each run

static void judge(const struct fixture *fixture, const struct notebook *notebook, const char *when,
                  int64_t call) {
    char why[STORE_MESSAGE_MAX] = "";
    enum judgement judgement = shift_judge(fixture->path, notebook, SIZE_MAX, why, sizeof why);
    if (judgement != JUDGE_WHOLE) {
        fail_msg("call %d, %s: judgement %d, %s", (int)call, when, (int)judgement, why);
    }
}

// The fault is over: an open question is answered, and the answer does not change.
static void settle_question(struct fixture *fixture, struct notebook *notebook) {
    struct note *note = &notebook->note[notebook->count - 1];
    struct entry entry = script.entry[notebook->count - 1];
    int64_t found = 0;
    char sql[128];
    enum store_result there = store_confirmed(fixture->store, entry.confirm_id, &found);
    assert_true(there == STORE_OK || there == STORE_NONE);
    snprintf(sql, sizeof sql, "SELECT count(*) FROM log WHERE confirm_id = '%s'", entry.confirm_id);
    assert_int_equal(fixture_number(fixture->store->db, sql), there == STORE_OK);
    entry.seq = 0;
    assert_int_equal(store_append(fixture->store, &entry), STORE_OK);
    assert_true(there == STORE_NONE || entry.seq == found);
    assert_int_equal(fixture_number(fixture->store->db, sql), 1);
    *note = (struct note){.result = STORE_OK, .seq = entry.seq};
}

static int seen[STORE_RESULT_COUNT];

// One shift with one fault. False when the fault never came: all calls have had theirs.
static bool run(int64_t call, bool for_ever, enum tape_error error) {
    struct fixture fixture;
    struct notebook notebook = {.script = &script, .seeded = 1};
    char message[STORE_MESSAGE_MAX];
    shift_copy(&prepared, &fixture);
    tape_begin(fixture.path);
    tape_fail(call, for_ever, error);
    if (store_open(fixture.path, STORE_WRITE, BENCH, &fixture.store, message, sizeof message) ==
        STORE_OK) {
        shift_run(&fixture, &notebook, CHECKPOINT_EVERY);
    }
    bool came = tape_calls() >= call;
    if (notebook.count > 0) {
        seen[notebook.note[notebook.count - 1].result]++;
    }
    tape_fail(0, false, TAPE_IO);
    store_close(fixture.store);
    fixture.store = NULL;
    judge(&fixture, &notebook, "as it was left", call);
    fixture_restart(&fixture);
    if (notebook.count > 0) {
        settle_question(&fixture, &notebook);
    }
    shift_run(&fixture, &notebook, CHECKPOINT_EVERY);
    assert_int_equal(notebook.count, ENTRIES);
    assert_int_equal(notebook.note[ENTRIES - 1].result, STORE_OK);
    store_close(fixture.store);
    fixture.store = NULL;
    judge(&fixture, &notebook, "at the end", call);
    fixture_close(&fixture);
    tape_end();
    return came;
}

static int64_t sweep(bool for_ever, enum tape_error error) {
    int64_t call = 1;
    while (run(call, for_ever, error)) {
        call++;
        assert_true(call < 2000);
    }
    print_message("%d calls failed %s\n", (int)call - 1, for_ever ? "for ever" : "once");
    return call - 1;
}

static void fails_once(void **state) {
    (void)state;
    assert_true(sweep(false, TAPE_IO) > 100);
}

static void fails_for_ever(void **state) {
    (void)state;
    seen[STORE_UNKNOWN] = 0;
    assert_true(sweep(true, TAPE_IO) > 100);
    assert_true(seen[STORE_UNKNOWN] > 0); // a sync that fails for ever leaves the question open
}

static void is_full_once(void **state) {
    (void)state;
    assert_true(sweep(false, TAPE_FULL) > 100);
}

static void is_full_for_ever(void **state) {
    (void)state;
    seen[STORE_FULL] = 0;
    seen[STORE_UNKNOWN] = 0;
    assert_true(sweep(true, TAPE_FULL) > 100);
    assert_true(seen[STORE_FULL] > 0);
    assert_int_equal(seen[STORE_UNKNOWN], 0); // a full disk is a plain no
}

static int prepare(void **state) {
    (void)state;
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
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(fails_once),
        cmocka_unit_test(fails_for_ever),
        cmocka_unit_test(is_full_once),
        cmocka_unit_test(is_full_for_ever),
    };
    return cmocka_run_group_tests(tests, prepare, clean_up);
}
