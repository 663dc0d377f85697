// Copies in a folder: named after their moment, so many kept, leftovers taken away.

#include "fixture.h"

#include <dirent.h>
#include <fcntl.h>
#include <stdio.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

static struct fixture fixture;
static char folder[128];

static int set_up(void **state) {
    (void)state;
    fixture_open(&fixture);
    snprintf(folder, sizeof folder, "%s/copies", fixture.folder);
    assert_int_equal(mkdir(folder, 0700), 0);
    return 0;
}

static int tear_down(void **state) {
    DIR *all = opendir(folder);
    (void)state;
    for (const struct dirent *file = readdir(all); file != NULL; file = readdir(all)) {
        unlinkat(dirfd(all), file->d_name, 0);
    }
    closedir(all);
    rmdir(folder);
    fixture_close(&fixture);
    return 0;
}

static const char *in_folder(const char *name) {
    static char path[256];
    snprintf(path, sizeof path, "%s/%s", folder, name);
    return path;
}

static void put(const char *name) {
    FILE *file = fopen(in_folder(name), "w");
    assert_non_null(file);
    fclose(file);
}

static bool there(const char *name) {
    return access(in_folder(name), F_OK) == 0;
}

static int64_t now_ms(void) {
    return (int64_t)time(NULL) * 1000;
}

static int64_t newest(int64_t before_ms) {
    int64_t at = -1;
    assert_true(store_backup_newest(fixture.path, folder, before_ms, &at));
    return at;
}

static void makes_and_keeps(void **state) {
    char path[256] = "";
    char message[STORE_MESSAGE_MAX];
    struct store *copy;
    int64_t begun = now_ms();
    (void)state;
    put("shop-20260101T100000Z.db");
    put("shop-20260102T100000Z.db");
    put("shop-20260103T100000Z.db");
    put("shop-20260104T100000Z.db.part"); // of a copy that was cut short
    // Nobody else's.
    put("shop-20260101T100000.db");
    put("shop-20261301T100000Z.db");
    put("shop-20260101T100000Z.db.part-journal");
    put("other-20260101T100000Z.db");
    put("shop-20260101T100000Z.dbx");
    if (store_backup_into(fixture.store, folder, 3, path, sizeof path) != STORE_OK) {
        fail_msg("%s", store_message(fixture.store));
    }
    assert_false(there("shop-20260101T100000Z.db"));
    assert_true(there("shop-20260102T100000Z.db"));
    assert_true(there("shop-20260103T100000Z.db"));
    assert_false(there("shop-20260104T100000Z.db.part"));
    assert_true(there("shop-20260101T100000.db"));
    assert_true(there("shop-20261301T100000Z.db"));
    assert_true(there("other-20260101T100000Z.db"));
    assert_true(there("shop-20260101T100000Z.dbx"));
    assert_int_equal(store_open(path, STORE_READ, BENCH, &copy, message, sizeof message), STORE_OK);
    fixture_expect_check(copy);
    store_close(copy);
    assert_in_range(newest(now_ms()), begun, now_ms());
}

// A clock that was wrong has made a copy of the future: it does not count, and the new one stays.
static void knows_the_newest(void **state) {
    char path[256];
    struct tm date = {0};
    time_t seconds = (time_t)(now_ms() / 1000) + 86400;
    char future[64];
    (void)state;
    assert_int_equal(newest(now_ms()), 0);
    put("shop-20260331T104205Z.db");
    assert_int_equal(newest(now_ms()), 1774953725000); // date -ud 2026-03-31T10:42:05Z +%s
    gmtime_r(&seconds, &date);
    strftime(future, sizeof future, "shop-%Y%m%dT%H%M%SZ.db", &date);
    put(future);
    assert_int_equal(newest(now_ms()), 1774953725000);
    assert_int_equal(newest(INT64_MAX), (int64_t)seconds * 1000);
    assert_int_equal(store_backup_into(fixture.store, folder, 1, path, sizeof path), STORE_OK);
    assert_int_equal(access(path, F_OK), 0);
    assert_false(there(future));
}

static void says_what_is_wrong(void **state) {
    char path[256] = "none";
    int64_t at = 7;
    (void)state;
    assert_int_equal(store_backup_into(fixture.store, "/nowhere", 3, path, sizeof path),
                     STORE_FAILED);
    assert_non_null(strstr(store_message(fixture.store), "The folder /nowhere for copies"));
    assert_false(store_backup_newest(fixture.path, "/nowhere", INT64_MAX, &at));
    assert_int_equal(at, 7);
    int other = open(folder, O_RDONLY | O_DIRECTORY);
    assert_int_equal(flock(other, LOCK_EX), 0);
    assert_int_equal(store_backup_into(fixture.store, folder, 3, path, sizeof path), STORE_BUSY);
    close(other);
    assert_string_equal(path, "none");
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(makes_and_keeps, set_up, tear_down),
        cmocka_unit_test_setup_teardown(knows_the_newest, set_up, tear_down),
        cmocka_unit_test_setup_teardown(says_what_is_wrong, set_up, tear_down),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
