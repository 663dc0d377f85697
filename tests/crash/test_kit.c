// A kit list of three goes into the log while files fail: all of it is there or
// nothing, its shafts are reserved just then, and what the store said of it is true.

#include "shift.h"

#include <stdio.h>
#include <unistd.h>

#define KITS 3

static struct entry list[KITS];
static struct fixture prepared;

static void make_list(struct fixture *fixture) {
    static const char *const shafts[KITS] = {"S-0009C", "S-0005K", "S-0008E"};
    for (int i = 0; i < KITS; i++) {
        list[i] = fixture_entry(fixture, ENTRY_KIT, 6 + i);
        strcpy(list[i].worker, SUPERVISOR);
        strcpy(list[i].shaft, shafts[i]);
        memset(list[i].plan, 'p', 3000); // more than a page each
    }
}

// How many kits are in the log; their shafts, and no others, are reserved.
static int64_t kits(const char *path) {
    sqlite3 *raw = fixture_raw(path);
    int64_t count = fixture_number(raw, "SELECT count(*) FROM log WHERE kind = 'kit'");
    assert_int_equal(fixture_number(raw, "SELECT count(*) FROM shaft WHERE club > 5"), count);
    assert_int_equal(fixture_number(raw, "SELECT count(*) FROM log AS l JOIN shaft AS s ON "
                                         "s.club = l.club_id AND s.ticket = l.shaft "
                                         "WHERE l.kind = 'kit'"),
                     count);
    sqlite3_close(raw);
    return count;
}

static int seen[STORE_RESULT_COUNT];

// False when the fault never came.
static bool run(int64_t call, bool for_ever, enum tape_error error) {
    struct fixture fixture;
    char message[STORE_MESSAGE_MAX] = "";
    struct entry mine[KITS];
    int64_t seq = 0;
    memcpy(mine, list, sizeof mine);
    shift_copy(&prepared, &fixture);
    tape_begin(fixture.path);
    assert_int_equal(
        store_open(fixture.path, STORE_WRITE, BENCH, &fixture.store, message, sizeof message),
        STORE_OK);
    tape_fail(call, for_ever, error);
    enum store_result result = store_append_all(fixture.store, mine, KITS);
    bool came = tape_calls() >= call;
    tape_fail(0, false, TAPE_IO);
    seen[result]++;
    assert_true((result == STORE_OK) == (mine[KITS - 1].seq != 0));
    if (result == STORE_UNKNOWN) {
        assert_int_equal(store_reopen(fixture.store), STORE_OK);
        result = store_confirmed(fixture.store, mine[1].confirm_id, &seq); // one tells for all
    }
    assert_int_equal(kits(fixture.path), result == STORE_OK ? KITS : 0);
    if (fixture.store->db == NULL || result != STORE_OK) {
        fixture_restart(&fixture);
    }
    assert_int_equal(store_append_all(fixture.store, mine, KITS), STORE_OK);
    assert_int_equal(kits(fixture.path), KITS);
    fixture_expect_check(fixture.store);
    fixture_close(&fixture);
    tape_end();
    return came;
}

static void is_whole_or_not_there(void **state) {
    static const enum tape_error errors[] = {TAPE_IO, TAPE_FULL};
    (void)state;
    for (size_t i = 0; i < 2 * COUNT(errors); i++) {
        int64_t call = 1;
        while (run(call, i % 2 == 1, errors[i / 2])) {
            call++;
            assert_true(call < 500);
        }
        print_message("%d calls failed\n", (int)call - 1);
        assert_true(call > 5);
    }
    assert_true(seen[STORE_UNKNOWN] > 0 && seen[STORE_FULL] > 0 && seen[STORE_OK] > 0);
}

static int prepare(void **state) {
    (void)state;
    fixture_open(&prepared);
    fixture_wish(prepared.store);
    make_list(&prepared);
    store_close(prepared.store);
    prepared.store = NULL;
    return 0;
}

static int clean_up(void **state) {
    (void)state;
    fixture_close(&prepared);
    return 0;
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(is_whole_or_not_there),
    };
    return cmocka_run_group_tests(tests, prepare, clean_up);
}
