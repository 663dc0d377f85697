// A copy put back: the work goes on from it, the log says so, and nothing of what was there is
// lost.

#include "fixture.h"
#include "restore.h"

#include <signal.h>
#include <stdio.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

static struct fixture fixture;
static struct restored restored;
static char copy[128];
static char message[STORE_MESSAGE_MAX];

static int set_up(void **state) {
    (void)state;
    fixture_open(&fixture);
    snprintf(copy, sizeof copy, "%s/copy.db", fixture.folder);
    fixture_append(&fixture, ENTRY_SIGN_ON, 0);
    fixture_bring(&fixture, 3, STAGE_TIP_CUT); // in the midst of a club
    assert_int_equal(store_backup(fixture.store, copy), STORE_OK);
    fixture_bring(&fixture, 3, STAGE_DONE);
    memset(&restored, 0, sizeof restored);
    message[0] = '\0';
    return 0;
}

static int tear_down(void **state) {
    (void)state;
    fixture_close(&fixture);
    return 0;
}

static void close_it(void) {
    store_close(fixture.store);
    fixture.store = NULL;
}

static enum store_result put_back(const char *from) {
    return store_restore(from, fixture.path, "desk", &restored, message, sizeof message);
}

static void put_back_well(void) {
    if (put_back(copy) != STORE_OK) {
        fail_msg("%s", message);
    }
    fixture_restart(&fixture);
    fixture_expect_check(fixture.store);
}

static struct entry last_entry(int64_t seq) {
    struct entry entry;
    assert_int_equal(store_entry(fixture.store, seq, &entry), STORE_OK);
    return entry;
}

static void no_file(const char *suffix) {
    char path[160];
    snprintf(path, sizeof path, "%s%s", fixture.path, suffix);
    assert_int_not_equal(access(path, F_OK), 0);
}

static void goes_on_from_a_half_cut_club(void **state) {
    struct store_check check;
    struct store *old;
    char head[2][17];
    (void)state;
    assert_int_equal(store_check(fixture.store, &check), STORE_OK);
    for (int i = 0; i < 8; i++) {
        snprintf(head[1] + 2 * i, 3, "%02x", check.head[i]);
    }
    close_it();
    put_back_well();
    assert_int_equal(restored.entries, 4);
    assert_int_equal(fixture_club(&fixture, 3).progress.stage, STAGE_TIP_CUT);
    struct entry entry = last_entry(5);
    assert_int_equal(entry.kind, ENTRY_RESTORED);
    assert_int_equal(strncmp(entry.note, "goes on from 4 entries, head ", 29), 0);
    assert_non_null(strstr(entry.note, "; takes the place of 7 entries, head "));
    assert_string_equal(strrchr(entry.note, ' ') + 1, head[1]);
    fixture_bring(&fixture, 3, STAGE_DONE); // the next step, and so on to the end
    fixture_expect_check(fixture.store);
    no_file(".restored");
    no_file(".restored-wal");
    no_file(".restored.lock");
    // What was there is whole, with what stood in its write-ahead log.
    assert_int_equal(store_open(restored.aside, STORE_READ, BENCH, &old, message, sizeof message),
                     STORE_OK);
    assert_int_equal(store_check(old, &check), STORE_OK);
    assert_int_equal(check.entries, 7);
    store_close(old);
    // The copy itself is as it was, and may be put back again.
    close_it();
    put_back_well();
    assert_int_equal(last_entry(5).kind, ENTRY_RESTORED);
    assert_string_not_equal(last_entry(5).confirm_id, entry.confirm_id);
}

static void takes_the_place_of_what_cannot_be_read(void **state) {
    (void)state;
    assert_int_equal(store_checkpoint(fixture.store), STORE_OK);
    close_it();
    FILE *file = fopen(fixture.path, "r+");
    assert_non_null(file);
    fputs("this is no database any more", file);
    fclose(file);
    put_back_well();
    assert_non_null(strstr(last_entry(5).note, "; takes the place of one that cannot be read"));
    close_it();
    assert_int_equal(unlink(fixture.path), 0);
    put_back_well();
    assert_non_null(strstr(last_entry(5).note, "; takes the place of none"));
    assert_string_equal(restored.aside, "");
}

// An open bench, and one that begins while the copy is put in place.
static void keeps_off_while_others_work(void **state) {
    int ready[2];
    int go[2];
    char byte = 0;
    (void)state;
    close_it();
    assert_true(pipe(ready) == 0 && pipe(go) == 0);
    pid_t child = fork();
    if (child == 0) {
        struct store *other;
        char words[STORE_MESSAGE_MAX];
        struct worker worker;
        bool opened =
            store_open(fixture.path, STORE_WRITE, BENCH, &other, words, sizeof words) == STORE_OK &&
            store_worker(other, BUILDER, &worker) == STORE_OK;
        _exit(!opened || write(ready[1], "x", 1) != 1 || read(go[0], &byte, 1) < 0);
    }
    assert_int_equal(read(ready[0], &byte, 1), 1);
    assert_int_equal(put_back(copy), STORE_BUSY); // it only has it open
    assert_non_null(strstr(message, "is in use. End the bench"));
    assert_int_equal(write(go[1], "x", 1), 1);
    int status;
    assert_int_equal(waitpid(child, &status, 0), child);
    assert_int_equal(status, 0);
    put_back_well();
    assert_int_equal(last_entry(5).kind, ENTRY_RESTORED);
}

static void leaves_all_as_it_is_when_the_copy_is_bad(void **state) {
    struct stat before;
    struct stat after;
    (void)state;
    sqlite3 *raw = fixture_raw(copy);
    fixture_strike(raw, "UPDATE log SET note = 'x' WHERE seq = 2");
    sqlite3_close(raw);
    close_it();
    assert_int_equal(stat(fixture.path, &before), 0);
    assert_int_equal(put_back(copy), STORE_FAILED);
    assert_non_null(strstr(message, "Entry 2"));
    assert_int_equal(put_back("/nowhere/copy.db"), STORE_FAILED);
    assert_int_equal(stat(fixture.path, &after), 0);
    assert_true(before.st_ino == after.st_ino && before.st_size == after.st_size);
    no_file(".restored");
    fixture_restart(&fixture);
    assert_int_equal(fixture_club(&fixture, 3).progress.stage, STAGE_DONE);
}

static void brings_an_older_copy_up_to_date(void **state) {
    (void)state;
    assert_int_equal(unlink(copy), 0);
    fixture_version(copy, 2);
    close_it();
    put_back_well();
    assert_int_equal(restored.entries, VERSION2_ENTRIES);
    assert_int_equal(last_entry(VERSION2_ENTRIES + 1).kind, ENTRY_RESTORED);
}

int main(void) {
    const struct CMUnitTest tests[] = {
#define TEST(name) cmocka_unit_test_setup_teardown(name, set_up, tear_down)
        TEST(goes_on_from_a_half_cut_club),    TEST(takes_the_place_of_what_cannot_be_read),
        TEST(keeps_off_while_others_work),     TEST(leaves_all_as_it_is_when_the_copy_is_bad),
        TEST(brings_an_older_copy_up_to_date),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
