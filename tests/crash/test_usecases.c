// The power goes at any instant of everything else that writes: import, a kit list, values measured
// after assembly, notes, changes, a day signed, people and their PINs, checkpoints, copies, and a
// copy put back. The database holds exactly what it held after the last commit before the cut, or
// after the one under way; a copy with its name is whole; nothing that is replaced is lost.

#include "desk_fixture.h"
#include "disk.h"
#include "fake_clock.h"
#include "fake_hash.h"
#include "import.h"
#include "moments.h"
#include "pin_try.h"
#include "restore.h"
#include "shift.h"
#include "witness.h"
#include "workshop.h"

#include <dirent.h>
#include <stdio.h>
#include <stdlib.h>
#include <unistd.h>

#define CUTS 1500
#define SEED 20261125u
#define SECOND_SUPERVISOR "W-30"
#define PIN "271828"

static struct fixture fixture;
static char message[STORE_MESSAGE_MAX];

static void done(enum store_result result) {
    if (result != STORE_OK) {
        fail_msg("%s", store_message(fixture.store));
    }
}

static void begin(void) {
    fixture_folder(&fixture);
    tape_begin(fixture.path);
    tape_all();
    assert_int_equal(
        store_open(fixture.path, STORE_CREATE, BENCH, &fixture.store, message, sizeof message),
        STORE_OK);
    fixture_seed(fixture.store);
    fixture_wish(fixture.store);
    fixture_exec(fixture.store->db, "INSERT INTO worker (badge, name, role) VALUES "
                                    "('" SECOND_SUPERVISOR "', 'Second', 'supervisor')");
    fake_clock_reboot(1, 1000000);
    fake_clock_use(fixture.store);
    moments_begin(&fixture);
}

static int end(void **state) {
    (void)state;
    fixture_close(&fixture);
    tape_end();
    return 0;
}

// --- the use cases -------------------------------------------------------------------------------

static void imports(void) {
    char path[128];
    const char *const paths[] = {path};
    const struct import_source source = {.paths = paths, .count = 1};
    struct entry entry = fixture_entry(&fixture, ENTRY_IMPORT, 0);
    FILE *messages = tmpfile();
    snprintf(path, sizeof path, "%s/shafts.csv", fixture.folder);
    FILE *file = fopen(path, "w");
    assert_true(file != NULL && messages != NULL);
    fputs("ticket,model,flex,raw_length,weight_g,rack\n", file);
    for (int i = 0; i < 400; i++) { // several pages
        char body[8];
        struct ticket ticket;
        snprintf(body, sizeof body, "%04d", 1000 + i);
        if (ticket_make(TICKET_SHAFT, body, &ticket)) {
            fprintf(file, "%s,Alder 110,S,41,112,Rack %d\n", ticket.text, i);
        }
    }
    fclose(file);
    done(import_files(fixture.store, &source, &entry, messages));
    assert_true(entry.seq > 0);
    fclose(messages);
}

static void takes_a_kit_list(void) {
    static const char *const shafts[] = {"S-0009C", "S-0005K", "S-0008E"};
    struct entry list[COUNT(shafts)];
    for (size_t i = 0; i < COUNT(shafts); i++) {
        list[i] = fixture_entry(&fixture, ENTRY_KIT, 6 + (int64_t)i);
        strcpy(list[i].worker, SUPERVISOR);
        strcpy(list[i].shaft, shafts[i]);
        memset(list[i].plan, 'p', 3000); // more than a page each
    }
    done(store_append_all(fixture.store, list, COUNT(shafts)));
}

static void measures_the_assembled_club(void) {
    struct entry entry = fixture_entry(&fixture, ENTRY_FINAL_LENGTH, 3);
    entry.planned = 37 * LENGTH_INCH;
    entry.made = 37 * LENGTH_INCH;
    done(store_append(fixture.store, &entry));
    entry = fixture_entry(&fixture, ENTRY_FINAL_FREQUENCY, 3);
    strcpy(entry.note, "261.5");
    done(store_append(fixture.store, &entry));
    entry = fixture_entry(&fixture, ENTRY_FINAL_LOFT, 3);
    strcpy(entry.note, "33.5");
    done(store_append(fixture.store, &entry));
    entry = fixture_entry(&fixture, ENTRY_FINAL_LIE, 3);
    strcpy(entry.note, "62");
    done(store_append(fixture.store, &entry));
}

// Before the cut: a trim for want of a chart, a butt to be extended.
static void agrees_at_the_bench(void) {
    struct entry entry = fixture_entry(&fixture, ENTRY_CONSENT, 4);
    strcpy(entry.worker, SUPERVISOR);
    strcpy(entry.cause, "trim");
    strcpy(entry.note, "1 1/2 in");
    done(store_append(fixture.store, &entry));
    entry = fixture_entry(&fixture, ENTRY_CONSENT, 4);
    strcpy(entry.worker, SUPERVISOR);
    strcpy(entry.cause, "extension");
    done(store_append(fixture.store, &entry));
}

static void signs_the_day(void) {
    struct entry entry = fixture_entry(&fixture, ENTRY_DAY_SIGNED, 0);
    struct checkpoint checkpoint;
    struct store_check checked;
    strcpy(entry.worker, SUPERVISOR);
    done(store_check(fixture.store, &checked));
    done(store_sign_day(fixture.store, &checked, &entry, "2026-03-02", &checkpoint));
}

static void adds_notes(void) {
    struct club club = fixture_club(&fixture, 3);
    struct entry entry = fixture_entry(&fixture, ENTRY_NOTE, 3);
    strcpy(entry.worker, SUPERVISOR);
    entry.refers = club.progress.tip_seq;
    memset(entry.note, 'n', sizeof entry.note - 1);
    done(store_append(fixture.store, &entry));
    struct entry both[] = {fixture_entry(&fixture, ENTRY_FINAL_LIE, 3),
                           fixture_entry(&fixture, ENTRY_NOTE, 3)};
    strcpy(both[0].note, "70");
    strcpy(both[1].worker, SUPERVISOR);
    strcpy(both[1].cause, ENTRY_ACCEPTED);
    strcpy(both[1].note, "as ordered by telephone");
    both[1].refers = -1;
    done(store_append_all(fixture.store, both, COUNT(both)));
    entry = fixture_entry(&fixture, ENTRY_NOTE, 0);
    strcpy(entry.worker, SUPERVISOR);
    strcpy(entry.note, "the log begins");
    entry.refers = 1;
    done(store_append(fixture.store, &entry));
}

static void changes_what_the_shop_knows(void) {
    static const char *const keys[] = {"Reed 60", "R", "wood"};
    struct document before, after;
    struct change change;
    struct entry entry = fixture_entry(&fixture, ENTRY_CHANGE, 0);
    done(store_document(fixture.store, "charts", keys, &before));
    after = before;
    assert_true(document_set(&after, ":3", "210 5/8"));
    change_between(&before, &after, &change);
    assert_true(change_write(&change, entry.plan, sizeof entry.plan));
    strcpy(entry.worker, SUPERVISOR);
    done(store_append(fixture.store, &entry));
    int64_t refers = entry.seq;
    change_back(&change, &change);
    entry = fixture_entry(&fixture, ENTRY_CHANGE, 0);
    assert_true(change_write(&change, entry.plan, sizeof entry.plan));
    strcpy(entry.worker, SUPERVISOR);
    entry.refers = refers;
    done(store_append(fixture.store, &entry));
}

static void sets(const char *sheet, const char *build, const char *club, const char *cell,
                 const char *value) {
    struct document before = desk_load(&fixture, sheet, build, club, NULL);
    struct document after = before;
    assert_true(document_set(&after, cell, value));
    done(store_canonical(fixture.store, &after));
    desk_changes(&fixture, &before, &after);
}

static void makes(const char *sheet, size_t keys, const char *const cells[][2], size_t count) {
    struct document made = {.keys = keys};
    strcpy(made.sheet, sheet);
    for (size_t i = 0; i < count; i++) {
        assert_true(document_set(&made, cells[i][0], cells[i][1]));
    }
    done(store_canonical(fixture.store, &made));
    desk_changes(&fixture, NULL, &made);
}

// A new order with a club, parts of a lot, a level; an order held, and one cancelled whose parts
// are free; a club of a begun order changed, cancelled, and the bench told of both.
static void works_at_the_desk(void) {
    static const char *const order[][2] = {
        {"build", "2060"}, {"status", "draft"}, {"priority", "2"}, {"note", "by Friday"}};
    static const char *const line[][2] = {
        {"build", "2060"}, {"club", "7"}, {"due", "2026-04-01"}, {"playing_length", "37"}};
    static const char *const level[][2] = {{"head_model", "Plover 8"},
                                           {"shaft_model", ""},
                                           {"flex", ""},
                                           {"least", "2"},
                                           {"wanted", "6"}};
    struct change_line told = {0};
    struct entry entry;
    makes("orders", 1, order, COUNT(order));
    makes("builds", 2, line, COUNT(line));
    makes("stock_levels", 3, level, COUNT(level));
    sets("heads", "H-00052", NULL, "lot", "March");
    sets("orders", "2060", NULL, "status", "released");
    sets("orders", "2060", NULL, "status", "held");
    sets("orders", "2041", NULL, "status", "cancelled");
    sets("builds", "2042", "8", "cancelled", "yes");
    sets("builds", "2042", "4h", "playing_length", "39");
    struct club club = fixture_club(&fixture, 2);
    assert_true(club.order.changed_seq != 0);
    for (int64_t from = club.order.changed_seq;
         store_order_changes(fixture.store, "2042", from, &told, 1) == 1; from = told.seq + 1) {
        // to the newest
    }
    entry = fixture_entry(&fixture, ENTRY_TOLD, 2);
    entry.refers = told.seq;
    done(store_append(fixture.store, &entry));
}

static void tries(const char *pin, enum pin_result expected) {
    int wait_s = 0;
    fake_clock_ms += 3600 * 1000;
    assert_int_equal(store_pin_check(fixture.store, SUPERVISOR, pin, &wait_s), expected);
}

static void tries_pins(void) {
    char pepper[128];
    done(store_pin_set(fixture.store, SUPERVISOR, PIN));
    done(store_pin_set(fixture.store, SECOND_SUPERVISOR, "314159"));
    tries("1111", PIN_WRONG);
    tries(PIN, PIN_RIGHT);
    snprintf(pepper, sizeof pepper, "%s/pepper", fixture.folder);
    assert_int_equal(store_new_pepper(pepper, message, sizeof message), STORE_OK);
    done(store_set_pepper(fixture.store, pepper));
    tries(PIN, PIN_RIGHT); // made anew with it
    for (int i = 0; i < fixture.store->pin_rules.lock_after; i++) {
        tries("1111", PIN_WRONG);
    }
    tries(PIN, PIN_LOCKED);
    done(store_pin_unlock(fixture.store, SUPERVISOR, SECOND_SUPERVISOR));
    done(store_pin_recover(fixture.store, SECOND_SUPERVISOR, "161803"));
    done(store_withdraw(fixture.store, SECOND_SUPERVISOR, SUPERVISOR));
}

static void whole_day(void) {
    void (*const cases[])(void) = {imports,
                                   takes_a_kit_list,
                                   measures_the_assembled_club,
                                   agrees_at_the_bench,
                                   adds_notes,
                                   changes_what_the_shop_knows,
                                   works_at_the_desk,
                                   signs_the_day,
                                   tries_pins};
    fixture_bring(&fixture, 3, STAGE_DONE);
    for (size_t i = 0; i < COUNT(cases); i++) {
        cases[i]();
        done(store_checkpoint(fixture.store));
    }
}

// --- cutting -------------------------------------------------------------------------------------

static int cuts(int usual) {
    const char *wanted = getenv("KERFSIDE_CUTS"); // a long run: tests/crash/run
    return wanted != NULL ? atoi(wanted) : usual;
}

static void remove_cut(const char *path) {
    DIR *folder = opendir(fixture.folder);
    const char *name = strrchr(path, '/') + 1;
    for (const struct dirent *file = readdir(folder); file != NULL; file = readdir(folder)) {
        if (strncmp(file->d_name, name, strlen(name)) == 0) {
            unlinkat(dirfd(folder), file->d_name, 0);
        }
    }
    closedir(folder);
}

// Cuts between `from` and the end of the tape, and has each judged.
static void cut_all(size_t from, int count, void (*judge)(const char *path, size_t at)) {
    char path[128];
    uint32_t seed = SEED;
    struct disk *disk = disk_new();
    size_t steps = tape_count() - from;
    snprintf(path, sizeof path, "%s.cut", fixture.path);
    for (int i = 0; i < count; i++) {
        size_t at = from + (size_t)i * (steps + 1) / (size_t)count;
        seed = seed * 1664525u + 1013904223u;
        disk_play(disk, at);
        disk_cut(disk, path, seed);
        judge(path, at);
        remove_cut(path);
    }
    disk_free(disk);
    print_message("%d cuts in %zu operations\n", count, steps);
}

static struct store *open_whole(const char *path, enum store_mode mode, size_t at) {
    struct store *store = NULL;
    struct store_check check = {0};
    if (store_open(path, mode, BENCH, &store, message, sizeof message) != STORE_OK) {
        fail_msg("cut before operation %zu: %s", at, message);
    }
    if (store_check(store, &check) != STORE_OK) {
        fail_msg("cut before operation %zu: %s%s", at, check.problem, store_message(store));
    }
    return store;
}

static void judge_day(const char *path, size_t at) {
    struct store *store = open_whole(path, STORE_WRITE, at);
    if (!moments_allow(store->db, at)) {
        fail_msg("cut before operation %zu: what it holds was never there", at);
    }
    store_close(store);
}

static void survives_every_use_case(void **state) {
    (void)state;
    begin();
    size_t from = tape_count();
    whole_day();
    print_message("%zu commits: ", moments_count());
    assert_true(moments_count() > 30);
    cut_all(from, cuts(CUTS), judge_day);
}

// --- copies --------------------------------------------------------------------------------------

static size_t told; // the operation before which the store had said that it is done
static char copy[128];
static int seen[3];

static bool there(const char *path, const char *suffix) {
    char name[200];
    snprintf(name, sizeof name, "%s%s", path, suffix);
    return access(name, F_OK) == 0;
}

static void judge_copy(const char *path, size_t at) {
    char name[200];
    judge_day(path, at);
    snprintf(name, sizeof name, "%s.copy", path);
    bool made = access(name, F_OK) == 0;
    assert_true(made || at < told);
    seen[made]++;
    if (made) {
        struct store *store = open_whole(name, STORE_READ, at);
        assert_true(moments_know(store->db, at));
        store_close(store);
    }
}

static void copies_are_whole_or_not_there(void **state) {
    (void)state;
    begin();
    fixture_bring(&fixture, 3, STAGE_TIP_CUT); // partly in the write-ahead log
    size_t from = tape_count();
    snprintf(copy, sizeof copy, "%s.copy", fixture.path);
    memset(seen, 0, sizeof seen);
    done(store_backup(fixture.store, copy));
    told = tape_count();
    fixture_bring(&fixture, 3, STAGE_DONE);
    cut_all(from, cuts(CUTS) / 5, judge_copy);
    assert_true(seen[0] > 10 && seen[1] > 10);
}

// The database is the old one, the new one, or missing, and then the old one is set aside whole.
static void judge_restore(const char *path, size_t at) {
    struct restored restored = {0};
    char from[200];
    if (!there(path, "")) {
        seen[2]++;
        assert_true(at < told);
        snprintf(from, sizeof from, "%s.copy", path);
        if (store_restore(from, path, BENCH, &restored, message, sizeof message) != STORE_OK) {
            fail_msg("cut before operation %zu: %s", at, message);
        }
    }
    struct store *store = open_whole(path, STORE_WRITE, at);
    bool new = fixture_number(store->db, "SELECT count(*) FROM log WHERE kind = 'restored'") == 1;
    assert_true(new || (at < told && moments_allow(store->db, at)));
    seen[new]++;
    store_close(store);
    if (new) { // what was replaced is beside it, with its write-ahead log
        bool found = false;
        for (int i = 0; tape_name(i) != NULL; i++) {
            const char *suffix = tape_name(i);
            size_t size = strlen(suffix);
            if (strncmp(suffix, ".replaced-", 10) == 0 && size == 26 && there(path, suffix)) {
                snprintf(from, sizeof from, "%s%s", path, suffix);
                store = open_whole(from, STORE_READ, at);
                found = moments_allow(store->db, at);
                store_close(store);
            }
        }
        assert_true(found);
    }
}

static void a_copy_is_put_back_or_not(void **state) {
    struct restored restored;
    (void)state;
    begin();
    fixture_bring(&fixture, 3, STAGE_TIP_CUT);
    snprintf(copy, sizeof copy, "%s.copy", fixture.path);
    done(store_backup(fixture.store, copy));
    fixture_bring(&fixture, 3, STAGE_DONE);
    store_close(fixture.store);
    fixture.store = NULL;
    size_t from = tape_count();
    memset(seen, 0, sizeof seen);
    if (store_restore(copy, fixture.path, BENCH, &restored, message, sizeof message) != STORE_OK) {
        fail_msg("%s", message);
    }
    told = tape_count();
    cut_all(from, cuts(CUTS) / 5, judge_restore);
    print_message("old %d, new %d, of which missing at first %d\n", seen[0], seen[1], seen[2]);
    assert_true(seen[0] > 10 && seen[1] > 3 && seen[2] > 0);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_teardown(survives_every_use_case, end),
        cmocka_unit_test_teardown(copies_are_whole_or_not_there, end),
        cmocka_unit_test_teardown(a_copy_is_put_back_or_not, end),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
