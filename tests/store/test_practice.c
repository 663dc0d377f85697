// Copies to practise on: marked inside, told from a log whatever they are called, and good for
// nothing but practice.

#include "fixture.h"
#include "restore.h"
#include "witness.h"

#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static struct fixture fixture;
static char path[160];
static char message[STORE_MESSAGE_MAX];

static int set_up(void **state) {
    (void)state;
    fixture_open(&fixture);
    snprintf(path, sizeof path, "%s.practice", fixture.path);
    fixture_append(&fixture, ENTRY_SIGN_ON, 0);
    fixture_bring(&fixture, 3, STAGE_TIP_CUT);
    message[0] = '\0';
    return 0;
}

static int tear_down(void **state) {
    (void)state;
    store_practice_away(path, message, sizeof message);
    fixture_close(&fixture);
    return 0;
}

static struct store *open_at(const char *name, enum store_mode mode) {
    struct store *store = NULL;
    if (store_open(name, mode, "bench", &store, message, sizeof message) != STORE_OK) {
        fail_msg("%s", message);
    }
    return store;
}

static void make(void) {
    if (store_practice(fixture.store, path) != STORE_OK) {
        fail_msg("%s", store_message(fixture.store));
    }
}

static void it_is_marked_and_the_original_is_not(void **state) {
    (void)state;
    make();
    struct store *practice = open_at(path, STORE_WRITE);
    assert_true(store_is_practice(practice));
    assert_false(store_is_practice(fixture.store));
    fixture_expect_check(practice);
    store_close(practice);
    fixture_restart(&fixture);
    assert_false(store_is_practice(fixture.store));
}

// The mark goes with it through a checkpoint, a rename, and a plain copy of the file.
static void the_mark_stays(void **state) {
    char other[200];
    (void)state;
    make();
    struct store *practice = open_at(path, STORE_WRITE);
    assert_int_equal(store_checkpoint(practice), STORE_OK);
    store_close(practice);
    snprintf(other, sizeof other, "%s/kerfside.db", fixture.folder);
    assert_int_equal(rename(path, other), 0);
    practice = open_at(other, STORE_READ);
    assert_true(store_is_practice(practice));
    store_close(practice);
    assert_int_equal(store_practice_away(other, message, sizeof message), STORE_OK);
}

static void no_day_of_it_is_signed(void **state) {
    struct store_check check;
    struct checkpoint checkpoint;
    struct entry entry = entry_init(ENTRY_DAY_SIGNED);
    (void)state;
    make();
    struct store *practice = open_at(path, STORE_WRITE);
    assert_int_equal(store_check(practice, &check), STORE_OK);
    snprintf(entry.worker, sizeof entry.worker, "%s", SUPERVISOR);
    assert_int_equal(store_sign_day(practice, &check, &entry, "2026-03-31", &checkpoint),
                     STORE_REFUSED);
    assert_non_null(strstr(store_message(practice), "for practice"));
    store_close(practice);
}

static void nothing_is_gone_on_with_from_it(void **state) {
    struct restored restored;
    char copy[200];
    (void)state;
    make();
    snprintf(copy, sizeof copy, "%s/copy.db", fixture.folder);
    struct store *practice = open_at(path, STORE_READ);
    assert_int_equal(store_backup(practice, copy), STORE_REFUSED);
    assert_int_not_equal(access(copy, F_OK), 0);
    char kept[200];
    assert_int_equal(store_backup_into(practice, fixture.folder, 3, kept, sizeof kept),
                     STORE_REFUSED);
    assert_int_equal(store_practice(practice, copy), STORE_REFUSED);
    store_close(practice);
    store_close(fixture.store);
    fixture.store = NULL;
    assert_int_equal(store_restore(path, fixture.path, "desk", &restored, message, sizeof message),
                     STORE_REFUSED);
    assert_non_null(strstr(message, "for practice"));
    fixture_restart(&fixture);
    assert_false(store_is_practice(fixture.store));
}

// What stands there and is no practice stays, whatever it is.
static void another_file_is_left_alone(void **state) {
    struct stat before;
    struct stat after;
    (void)state;
    assert_int_equal(store_backup(fixture.store, path), STORE_OK); // a log of that name
    assert_int_equal(stat(path, &before), 0);
    assert_int_equal(store_practice(fixture.store, path), STORE_REFUSED);
    assert_int_equal(store_practice_away(path, message, sizeof message), STORE_REFUSED);
    assert_int_equal(stat(path, &after), 0);
    assert_int_equal(before.st_ino, after.st_ino);
    unlink(path);
    FILE *file = fopen(path, "w");
    fputs("short", file);
    fclose(file);
    assert_int_equal(store_practice_away(path, message, sizeof message), STORE_REFUSED);
    unlink(path);
    assert_int_equal(store_practice_away(path, message, sizeof message), STORE_NONE);
}

static void an_older_one_makes_room(void **state) {
    char tail[200];
    (void)state;
    make();
    struct store *practice = open_at(path, STORE_WRITE);
    struct entry entry = fixture_entry(&fixture, ENTRY_SIGN_OFF, 0);
    assert_int_equal(store_append(practice, &entry), STORE_OK);
    store_close(practice);
    make();
    practice = open_at(path, STORE_READ);
    struct entry there;
    assert_int_equal(store_entry(practice, entry.seq, &there), STORE_NONE);
    store_close(practice);
    assert_int_equal(store_practice_away(path, message, sizeof message), STORE_OK);
    static const char *const tails[] = {"", "-wal", "-shm", ".lock", ".ballast", ".part"};
    for (size_t i = 0; i < sizeof tails / sizeof *tails; i++) {
        snprintf(tail, sizeof tail, "%s%s", path, tails[i]);
        assert_int_not_equal(access(tail, F_OK), 0);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(it_is_marked_and_the_original_is_not, set_up, tear_down),
        cmocka_unit_test_setup_teardown(the_mark_stays, set_up, tear_down),
        cmocka_unit_test_setup_teardown(no_day_of_it_is_signed, set_up, tear_down),
        cmocka_unit_test_setup_teardown(nothing_is_gone_on_with_from_it, set_up, tear_down),
        cmocka_unit_test_setup_teardown(another_file_is_left_alone, set_up, tear_down),
        cmocka_unit_test_setup_teardown(an_older_one_makes_room, set_up, tear_down),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
