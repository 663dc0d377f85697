// The table of settings, the file written from it, and what a bench goes by when its file is wrong.

#include "bench_set.h"
#include "check.h"
#include "settings_file.h"
#include "settings_write.h"

#include <stdio.h>
#include <stdlib.h>
#include <sys/stat.h>
#include <unistd.h>

static char folder[] = "/tmp/kerfside-settings-XXXXXX";
static char path[64];
static char db[64];
static struct settings_now now;

static int set_up(void **state) {
    (void)state;
    strcpy(folder + strlen(folder) - 6, "XXXXXX");
    if (mkdtemp(folder) == NULL) {
        return -1;
    }
    snprintf(path, sizeof path, "%s/shop.ini", folder);
    snprintf(db, sizeof db, "%s/shop.db", folder);
    return unsetenv("KERFSIDE_SETTINGS");
}

static int tear_down(void **state) {
    (void)state;
    char command[96];
    settings_now_release(&now);
    snprintf(command, sizeof command, "rm -r %s", folder);
    return system(command);
}

static void write_file(const char *to, const char *text) {
    FILE *file = fopen(to, "w");
    assert_non_null(file);
    assert_true(fputs(text, file) >= 0);
    assert_int_equal(fclose(file), 0);
}

static char *read_whole(const char *from) {
    char *text = calloc(1, 65536);
    FILE *file = fopen(from, "r");
    assert_non_null(file);
    assert_non_null(text);
    assert_true(fread(text, 1, 65535, file) > 0);
    fclose(file);
    return text;
}

static char *printed(const struct bench_lines *lines) {
    char *text = NULL;
    size_t size = 0;
    FILE *to = open_memstream(&text, &size);
    assert_non_null(to);
    settings_print(to, lines);
    fclose(to);
    return text;
}

static void start(void) {
    settings_now_release(&now);
    settings_now_read("bench", path, db, &now);
}

static void keep(void) {
    char message[VIEW_TEXT_MAX] = "";
    assert_true(settings_now_keep(&now, message, sizeof message));
}

static const char *value(const char *section, const char *key) {
    size_t index;
    assert_true(bench_settings_find(section, key, &index));
    return now.lines.value[index];
}

// --- the table -----------------------------------------------------------------------------------

static void test_table(void **state) {
    (void)state;
    assert_true(bench_settings_count() <= BENCH_KEYS_MAX);
    for (size_t i = 0; i < bench_settings_count(); i++) {
        const struct bench_key *key = bench_settings_key(i);
        struct bench_settings settings = bench_settings_default();
        size_t found;
        assert_true(bench_settings_find(key->section, key->key, &found));
        assert_int_equal(found, i); // none stands there twice
        assert_true(key->label[0] != '\0' && strlen(key->label) < VIEW_SHORT_MAX);
        assert_true(key->what[0] != '\0' && key->why[0] != '\0' && key->allowed[0] != '\0');
        assert_true(key->what[strlen(key->what) - 1] == '.');
        assert_true(key->why[strlen(key->why) - 1] == '.');
        assert_true(bench_set(key, &settings, key->standard));
        for (int w = 0; key->kind == BENCH_CHOICE && key->words[w] != NULL; w++) {
            assert_true(bench_set(key, &settings, key->words[w]));
        }
        assert_false(key->kind == BENCH_CHOICE && bench_set(key, &settings, "none of them"));
        if (key->kind == BENCH_WHOLE) {
            char number[24];
            snprintf(number, sizeof number, "%lld", (long long)key->low - 1);
            assert_false(bench_set(key, &settings, number));
            snprintf(number, sizeof number, "%lld", (long long)key->high + 1);
            assert_false(bench_set(key, &settings, number));
        }
    }
}

// Those of the core, which the tests of plans go by.
static void test_standards(void **state) {
    (void)state;
    struct bench_settings settings = bench_settings_default();
    struct bench_rules rules = BENCH_RULES_DEFAULT;
    struct assembly assembly = ASSEMBLY_DEFAULT;
    struct assembly_tolerance finals = ASSEMBLY_TOLERANCE_DEFAULT;
    struct pin_rules pin = PIN_RULES_DEFAULT;
    assert_int_equal(settings.station.rules.mark_step, rules.mark_step);
    assert_int_equal(settings.station.rules.tolerance, rules.tolerance);
    assert_int_equal(settings.station.rules.limit_46, rules.limit_46);
    assert_int_equal(settings.station.rules.extension_max, rules.extension_max);
    assert_int_equal(settings.station.rules.through_allowance, rules.through_allowance);
    assert_int_equal(settings.station.assembly.ferrule, assembly.ferrule);
    assert_int_equal(settings.station.assembly.epoxy, assembly.epoxy);
    assert_int_equal(settings.station.assembly.grip_balance, assembly.grip_balance);
    assert_memory_equal(settings.station.finals.off, finals.off, sizeof finals.off);
    assert_int_equal(settings.station.finals.wanted, finals.wanted);
    assert_memory_equal(&settings.pin, &pin, sizeof pin);
    assert_string_equal(settings.station.bench, "Bench 1");
    assert_int_equal(settings.station.idle_sign_off_ms, 30 * 60 * 1000);
    assert_int_equal(settings.hold_ms, 2000);
    assert_int_equal(settings.volume, 60);
    assert_int_equal(settings.camera_width, 1280);
    assert_int_equal(settings.camera_height, 720);
}

static void test_the_file_in_the_tree(void **state) {
    (void)state;
    static struct bench_lines lines;
    bench_lines_init(&lines);
    char *text = printed(&lines);
    char *kept = read_whole(KERFSIDE_SOURCE_DIR "/kiosk/settings.ini");
    assert_string_equal(kept, text); // made by `kerfside settings --sample`
    free(text);
    free(kept);
}

// --- a person's own lines, and wrong ones --------------------------------------------------------

static void test_own_lines_stay(void **state) {
    (void)state;
    write_file(path, "# the left saw\n; written anew\n[bench]\n# as on the door\nname = Saw 2\n"
                     "[sound]\nvolume = 5 ; night shift\n# the end\n");
    start();
    assert_int_equal(now.from, SETTINGS_FILE);
    char *text = printed(&now.lines);
    assert_non_null(strstr(text, "\n# the left saw\n# as on the door\nname = Saw 2\n"));
    assert_non_null(strstr(text, "\n# night shift\nvolume = 5\n\n# the end\n"));
    assert_null(strstr(text, "written anew\n["));
    write_file(path, text);
    start();
    char *again = printed(&now.lines);
    assert_string_equal(again, text);
    free(again);
    free(text);
}

static void test_wrong_lines_stay(void **state) {
    (void)state;
    write_file(path, "[bench]\nmark_step = 1/7\nlamp = on\nwhat\nunits = mm\n");
    start();
    assert_int_equal(now.wrong, 3); // each of them
    char *text = printed(&now.wrong_lines);
    assert_non_null(strstr(text, "\n# not taken: line 2: mark_step = 1/7\nmark_step = 1/16\n"));
    assert_non_null(strstr(text, "\n# not taken: line 3: lamp = on\n# not taken: line 4: what\n"
                                 "# not taken: line 5: units = mm\nunits = mm\n"));
    free(text);
}

// --- the last good ones --------------------------------------------------------------------------

static void test_last_good(void **state) {
    (void)state;
    write_file(path, "[bench]\nname = Saw 2\nmark_step = 1/32\n");
    start();
    assert_int_equal(now.from, SETTINGS_FILE);
    assert_false(now.has_before);
    keep();
    // One wrong line, one good one: neither holds.
    write_file(path, "[bench]\nname = Saw 3\n\nmark_step = 1/7\n");
    start();
    assert_int_equal(now.from, SETTINGS_LAST_GOOD);
    assert_string_equal(now.settings.station.bench, "Saw 2");
    assert_int_equal(now.settings.station.rules.mark_step, LENGTH_INCH / 32);
    assert_string_equal(value("bench", "mark_step"), "1/32");
    assert_string_equal(now.first,
                        "line 4: mark_step = 1/7: must be 1/16, 1/32, 1/64, 0.5 mm or 1 mm");
    keep(); // writes nothing
    // Mended, it holds, and is what is kept.
    write_file(path, "[bench]\nname = Saw 3\n");
    start();
    assert_int_equal(now.from, SETTINGS_FILE);
    assert_true(now.has_before);
    assert_string_equal(value("bench", "name"), "Saw 3");
    keep();
    unlink(path);
    start();
    assert_int_equal(now.from, SETTINGS_LAST_GOOD);
    assert_int_equal(now.wrong, 1);
    assert_string_equal(now.settings.station.bench, "Saw 3");
    assert_non_null(strstr(now.first, "cannot read the settings"));
}

static void test_no_last_good(void **state) {
    (void)state;
    write_file(path, "[bench]\nname = Saw 3\nunits = feet\n");
    start();
    assert_int_equal(now.from, SETTINGS_STANDARD);
    assert_string_equal(now.settings.station.bench, "Bench 1");
    assert_string_equal(now.first, "line 3: units = feet: must be inch or mm");
    keep();
    assert_int_equal(access(now.good, F_OK), -1);
    // A copy that is damaged is none.
    write_file(now.good, "[bench]\nname = Saw 9\n[[\n");
    start();
    assert_int_equal(now.from, SETTINGS_STANDARD);
    assert_string_equal(value("bench", "name"), "Bench 1");
    // A folder in its place.
    unlink(path);
    assert_int_equal(mkdir(path, 0700), 0);
    start();
    assert_int_equal(now.from, SETTINGS_STANDARD);
    assert_int_equal(now.wrong, 1);
}

static void test_no_file_named(void **state) {
    (void)state;
    settings_now_release(&now);
    settings_now_read("bench", NULL, db, &now);
    assert_int_equal(now.from, SETTINGS_STANDARD);
    assert_int_equal(now.wrong, 0);
    assert_string_equal(now.first, "");
    keep();
    assert_int_equal(access(now.good, F_OK), -1);
}

// --- writing -------------------------------------------------------------------------------------

static void test_replace(void **state) {
    (void)state;
    char message[VIEW_TEXT_MAX] = "";
    char made[80];
    struct stat stat_now;
    snprintf(made, sizeof made, "%s.new", path);
    write_file(path, "old");
    write_file(made, "left behind by a power cut");
    assert_int_equal(chmod(path, 0640), 0);
    assert_true(settings_replace(path, "new one\n", 8, message, sizeof message));
    char *text = read_whole(path);
    assert_string_equal(text, "new one\n");
    free(text);
    assert_int_equal(stat(path, &stat_now), 0);
    assert_int_equal(stat_now.st_mode & 0777, 0640);
    assert_int_equal(access(made, F_OK), -1);
    assert_false(settings_replace("/nonexistent/shop.ini", "x", 1, message, sizeof message));
    assert_non_null(strstr(message, "could not be written"));
}

#define ROW(test) cmocka_unit_test_setup_teardown(test, set_up, tear_down)
int main(void) {
    const struct CMUnitTest tests[] = {
        ROW(test_table),          ROW(test_standards),        ROW(test_the_file_in_the_tree),
        ROW(test_own_lines_stay), ROW(test_wrong_lines_stay), ROW(test_last_good),
        ROW(test_no_last_good),   ROW(test_no_file_named),    ROW(test_replace),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
