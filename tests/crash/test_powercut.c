// The power goes at any instant of a shift: nothing that was said to be logged is lost, nothing is
// there twice, the chain is whole and every club stands where its entries say. All else that writes
// is in test_usecases.c and test_migrate.c.
//
// And the other way round, so that the harness is known to bite: without syncs, or with too few,
// the same shift does lose entries or the whole file.

#include "disk.h"
#include "shift.h"

#include <stdio.h>
#include <stdlib.h>
#include <unistd.h>

#define CUTS 1500
#define ENTRIES 120
#define CHECKPOINT_EVERY 24
#define SEED 20261125u

static struct script script;

// A shift from the very first write, with everything SQLite did to the disk on the tape.
static void record(struct fixture *fixture, struct notebook *notebook, const char *pragma) {
    char message[STORE_MESSAGE_MAX];
    memset(notebook, 0, sizeof *notebook);
    notebook->script = &script;
    fixture_folder(fixture);
    tape_begin(fixture->path);
    if (store_open(fixture->path, STORE_CREATE, BENCH, &fixture->store, message, sizeof message) !=
        STORE_OK) {
        fail_msg("%s", message);
    }
    if (pragma != NULL) {
        sqlite3_set_authorizer(fixture->store->db, NULL, NULL);
        fixture_exec(fixture->store->db, pragma);
    }
    fixture_seed(fixture->store);
    notebook->seeded = tape_count();
    shift_run(fixture, notebook, CHECKPOINT_EVERY);
    assert_int_equal(notebook->count, ENTRIES);
    assert_int_equal(notebook->note[ENTRIES - 1].result, STORE_OK);
}

static int by_number(const void *a, const void *b) {
    size_t x = *(const size_t *)a;
    size_t y = *(const size_t *)b;
    return x < y ? -1 : x > y;
}

// Cuts the power `cuts` times between `from` and the end of the tape; how many ended how.
static void cut(const struct fixture *fixture, const struct notebook *notebook, size_t from,
                int cuts, int ret_ended[JUDGEMENTS]) {
    char path[128];
    char why[STORE_MESSAGE_MAX] = "";
    size_t *instants = malloc((size_t)cuts * sizeof instants[0]);
    uint32_t seed = SEED;
    struct disk *disk = disk_new();
    snprintf(path, sizeof path, "%s.cut", fixture->path);
    for (int i = 0; i < cuts; i++) {
        seed = seed * 1664525u + 1013904223u;
        instants[i] = from + (seed >> 4) % (tape_count() - from + 1);
    }
    qsort(instants, (size_t)cuts, sizeof instants[0], by_number);
    for (int i = 0; i < JUDGEMENTS; i++) {
        ret_ended[i] = 0;
    }
    for (int i = 0; i < cuts; i++) {
        disk_play(disk, instants[i]);
        disk_cut(disk, path, SEED + (uint32_t)i);
        enum judgement judgement = shift_judge(path, notebook, instants[i], why, sizeof why);
        ret_ended[judgement]++;
        if (judgement != JUDGE_WHOLE && ret_ended[judgement] == 1) {
            print_message("cut %d before operation %zu: %s\n", i, instants[i], why);
        }
    }
    print_message("%d cuts in %zu operations: %d whole, %d lost, %d false, %d corrupt\n", cuts,
                  tape_count(), ret_ended[JUDGE_WHOLE], ret_ended[JUDGE_LOST],
                  ret_ended[JUDGE_FALSE], ret_ended[JUDGE_CORRUPT]);
    disk_free(disk);
    free(instants);
}

static int wanted_cuts(void) {
    const char *wanted = getenv("KERFSIDE_CUTS"); // more: tests/crash/run; fewer: with sanitizers
    int cuts = wanted != NULL ? atoi(wanted) : CUTS;
    assert_true(cuts > 0);
    return cuts;
}

// Of so many, the part that is wanted: all of them but in a run of fewer cuts.
static int part_of(int usual) {
    int cuts = wanted_cuts();
    return cuts < CUTS ? usual * cuts / CUTS : usual;
}

static void survives_every_cut(void **state) {
    struct fixture fixture;
    static struct notebook notebook;
    int ended[JUDGEMENTS];
    int cuts = wanted_cuts();
    (void)state;
    record(&fixture, &notebook, NULL);
    cut(&fixture, &notebook, 0, cuts, ended);
    assert_int_equal(ended[JUDGE_WHOLE], cuts);
    fixture_close(&fixture);
    tape_end();
}

// The birth of a database is short; it gets cuts of its own.
static void survives_its_birth(void **state) {
    struct fixture fixture;
    static struct notebook notebook;
    int ended[JUDGEMENTS];
    int cuts = part_of(400);
    (void)state;
    memset(&notebook, 0, sizeof notebook);
    notebook.script = &script;
    fixture_folder(&fixture);
    tape_begin(fixture.path);
    char message[STORE_MESSAGE_MAX];
    assert_int_equal(
        store_open(fixture.path, STORE_CREATE, BENCH, &fixture.store, message, sizeof message),
        STORE_OK);
    cut(&fixture, &notebook, 0, cuts, ended);
    assert_int_equal(ended[JUDGE_WHOLE], cuts);
    fixture_close(&fixture);
    tape_end();
}

// That the plain run shows is enough: it is about the test.
static void bites(const char *pragma, int least_bad) {
    struct fixture fixture;
    static struct notebook notebook;
    int ended[JUDGEMENTS];
    if (wanted_cuts() < CUTS) {
        skip();
    }
    record(&fixture, &notebook, pragma);
    cut(&fixture, &notebook, notebook.seeded, 120, ended);
    assert_true(ended[JUDGE_LOST] + ended[JUDGE_CORRUPT] >= least_bad);
    fixture_close(&fixture);
    tape_end();
}

static void bites_without_syncs(void **state) {
    (void)state;
    bites("PRAGMA synchronous = OFF", 90);
}

static void bites_with_too_few_syncs(void **state) {
    (void)state;
    bites("PRAGMA synchronous = NORMAL", 60);
}

// A sync fails, Linux forgets the pages, later syncs say yes, and then the power goes.
static void survives_a_lost_sync(void **state) {
    int all[JUDGEMENTS] = {0};
    int cuts = part_of(20);
    (void)state;
    for (int64_t call = 1; call <= 100; call += 7) {
        struct fixture fixture;
        static struct notebook notebook;
        int ended[JUDGEMENTS];
        char message[STORE_MESSAGE_MAX];
        memset(&notebook, 0, sizeof notebook);
        notebook.script = &script;
        fixture_folder(&fixture);
        tape_begin(fixture.path);
        assert_int_equal(
            store_open(fixture.path, STORE_CREATE, BENCH, &fixture.store, message, sizeof message),
            STORE_OK);
        fixture_seed(fixture.store);
        notebook.seeded = tape_count();
        tape_fail_only(TAPE_ON_SYNC, call, false, TAPE_IO);
        shift_run(&fixture, &notebook, CHECKPOINT_EVERY);
        assert_int_equal(notebook.count, ENTRIES); // it went on
        assert_true(tape_calls() >= call);
        tape_fail(0, false, TAPE_IO);
        cut(&fixture, &notebook, notebook.seeded, cuts, ended);
        for (int i = 0; i < JUDGEMENTS; i++) {
            all[i] += ended[i];
        }
        fixture_close(&fixture);
        tape_end();
    }
    assert_int_equal(all[JUDGE_WHOLE], 15 * cuts);
}

static int prepare(void **state) {
    (void)state;
    shift_script(&script, ENTRIES);
    return 0;
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(survives_every_cut),   cmocka_unit_test(survives_its_birth),
        cmocka_unit_test(bites_without_syncs),  cmocka_unit_test(bites_with_too_few_syncs),
        cmocka_unit_test(survives_a_lost_sync),
    };
    return cmocka_run_group_tests(tests, prepare, NULL);
}
