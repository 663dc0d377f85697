// A setting is in the file and in the log, or in neither.

#include "bench.h"
#include "bench_change.h"
#include "check.h"

#include <stdio.h>
#include <stdlib.h>
#include <unistd.h>

static char folder[] = "/tmp/kerfside-change-XXXXXX";
static char path[64];
static char before[80];
static struct settings_now now;
static struct bench bench;
static struct office_shop shop;
static enum station_save answer;
static char noted[ENTRY_NOTE_MAX];

static enum station_save save_all(void *ctx, struct entry *entries, size_t count) {
    (void)ctx;
    assert_int_equal(count, 1);
    assert_int_equal(entries[0].kind, ENTRY_SETTINGS);
    strcpy(noted, entries[0].note);
    return answer;
}

static void write_file(const char *text) {
    FILE *file = fopen(path, "w");
    assert_non_null(file);
    assert_true(fputs(text, file) >= 0);
    assert_int_equal(fclose(file), 0);
}

static void expect_file(const char *at, const char *text) {
    char found[65536] = "";
    FILE *file = fopen(at, "r");
    assert_non_null(file);
    assert_true(fread(found, 1, sizeof found - 1, file) > 0);
    fclose(file);
    assert_string_equal(found, text);
}

static int set_up(void **state) {
    (void)state;
    char db[64];
    strcpy(folder + strlen(folder) - 6, "XXXXXX");
    if (mkdtemp(folder) == NULL) {
        return -1;
    }
    snprintf(path, sizeof path, "%s/shop.ini", folder);
    snprintf(before, sizeof before, "%s.before", path);
    snprintf(db, sizeof db, "%s/shop.db", folder);
    write_file("[bench]\nname = Saw 2\n[sound]\nvolume = 30\n");
    memset(&bench, 0, sizeof bench);
    settings_now_read("bench", path, db, &now);
    bench.now = &now;
    bench.settings = &now.settings;
    bench.ops.save_all = save_all;
    shop = bench_change_shop(&bench);
    noted[0] = '\0';
    return 0;
}

static int tear_down(void **state) {
    (void)state;
    char command[96];
    settings_now_release(&now);
    snprintf(command, sizeof command, "rm -r %s", folder);
    return system(command);
}

static enum desk_result save(const char *section, const char *key, const char *value,
                             struct desk_said *said) {
    struct entry entry = entry_init(ENTRY_SETTINGS);
    size_t index;
    memset(said, 0, sizeof *said);
    assert_true(bench_settings_find(section, key, &index));
    return shop.save(shop.ctx, index, value, &entry, said);
}

static void test_not_logged(void **state) {
    (void)state;
    static const enum station_save answers[] = {STATION_SAVE_REFUSED, STATION_SAVE_FAILED,
                                                STATION_SAVE_UNKNOWN};
    struct desk_said said;
    for (size_t i = 0; i < COUNT(answers); i++) {
        answer = answers[i];
        assert_int_equal(save("sound", "volume", "20", &said), DESK_FAILED);
        assert_non_null(strstr(said.message, "NOT SAVED"));
        assert_string_equal(noted, "[sound] volume = 20, was 30"); // it was tried
        expect_file(path, "[bench]\nname = Saw 2\n[sound]\nvolume = 30\n");
        assert_int_equal(now.settings.volume, 30);
    }
    assert_int_equal(access(now.good, F_OK), -1);
}

static void test_changed_meanwhile(void **state) {
    (void)state;
    struct desk_said said;
    answer = STATION_SAVED;
    write_file("[bench]\nname = Saw 3\n[sound]\nvolume = 30\n");
    assert_int_equal(save("sound", "volume", "20", &said), DESK_REFUSED);
    assert_non_null(strstr(said.message, "was changed since"));
    expect_file(path, "[bench]\nname = Saw 3\n[sound]\nvolume = 30\n");
    // As is a file that has become wrong, or is gone.
    write_file("[bench]\nname = Saw 2\n[sound]\nvolume = loud\n");
    assert_int_equal(save("sound", "volume", "20", &said), DESK_REFUSED);
    unlink(path);
    assert_int_equal(save("sound", "volume", "20", &said), DESK_REFUSED);
    assert_int_equal(access(path, F_OK), -1);
    assert_string_equal(noted, "");
}

static void read_again(void) {
    char db[64];
    snprintf(db, sizeof db, "%s/shop.db", folder);
    settings_now_release(&now);
    settings_now_read("bench", path, db, &now);
}

// A file that is not there comes with the entry or not at all; an empty one is right as it is.
static void test_from_nothing(void **state) {
    (void)state;
    struct desk_said said;
    unlink(path);
    read_again();
    answer = STATION_SAVE_FAILED;
    assert_int_equal(save("sound", "volume", "20", &said), DESK_FAILED);
    assert_string_equal(noted, "[sound] volume = 20, was 60");
    assert_int_equal(access(path, F_OK), -1);
    write_file("");
    read_again();
    assert_int_equal(save("sound", "volume", "20", &said), DESK_FAILED);
    assert_int_equal(access(path, F_OK), 0);
    read_again();
    assert_int_equal(now.settings.volume, 60);
    assert_int_equal(now.wrong, 0);
}

static void test_never(void **state) {
    (void)state;
    struct desk_said said;
    answer = STATION_SAVED;
    assert_int_equal(save("sound", "volume", "101", &said), DESK_REFUSED);
    assert_non_null(strstr(said.message, "must be 0 (silent) to 100"));
    assert_int_equal(save("button", "key", "any", &said), DESK_REFUSED); // of no device
    assert_non_null(strstr(said.message, "needs the button's device"));
    assert_int_equal(save("shop", "name", "a ; b", &said), DESK_REFUSED);
    assert_int_equal(save("shop", "name", " a", &said), DESK_REFUSED);
    assert_int_equal(save("sound", "volume", "30", &said), DESK_DONE);
    assert_string_equal(said.message, "Nothing was changed.");
    bench.practice.on = true;
    assert_int_equal(save("sound", "volume", "20", &said), DESK_REFUSED);
    bench.practice.on = false;
    now.path[0] = '\0';
    assert_int_equal(save("sound", "volume", "20", &said), DESK_REFUSED);
    assert_non_null(strstr(said.message, "no file to write it to"));
    assert_string_equal(noted, "");
    expect_file(path, "[bench]\nname = Saw 2\n[sound]\nvolume = 30\n");
}

#define ROW(test) cmocka_unit_test_setup_teardown(test, set_up, tear_down)
int main(void) {
    const struct CMUnitTest tests[] = {ROW(test_not_logged), ROW(test_changed_meanwhile),
                                       ROW(test_from_nothing), ROW(test_never)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
