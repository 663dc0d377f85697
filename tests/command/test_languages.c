// What commands say in other languages: whole sentences, and tables that stand in columns.

#include "command.h"
#include "run.h"
#include "text_width.h"

#include <sqlite3.h>
#include <stdlib.h>

static struct scratch scratch;
static struct ran ran;

static int opened(void **state) {
    (void)state;
    scratch_init(&scratch);
    run_expect(&scratch, &ran, 0, "demo --db demo.db");
    return 0;
}

static int closed(void **state) {
    (void)state;
    unsetenv("LANGUAGE");
    scratch_release(&scratch);
    return 0;
}

static void expect(const char *language, int status, const char *arguments) {
    setenv("LANGUAGE", language, 1);
    run_expect(&scratch, &ran, status, arguments);
}

// The columns before `needle` in the line; -1: not there.
static int place(const char *line, const char *needle) {
    char before[SCRATCH_TEXT_MAX];
    const char *found = strstr(line, needle);
    if (found == NULL || (strchr(line, '\n') != NULL && found > strchr(line, '\n'))) {
        return -1;
    }
    memcpy(before, line, (size_t)(found - line));
    before[found - line] = '\0';
    return (int)text_columns(before);
}

// In every line that has `needle` it begins where `head` does in the first line. Returns how many.
static int aligned(const char *head, const char *needle) {
    int lines = 0;
    int wanted = place(ran.out, head);
    assert_true(wanted >= 0);
    for (const char *line = strchr(ran.out, '\n'); line != NULL; line = strchr(line, '\n')) {
        line++;
        int at = place(line, needle);
        if (at >= 0 && at != wanted) {
            fail_msg("%s in column %d, not %d:\n%s", needle, at, wanted, ran.out);
        }
        lines += at >= 0 ? 1 : 0;
    }
    return lines;
}

static void test_tables(void **state) {
    (void)state;
    expect("ja", 0, "queue --db demo.db");
    assert_true(aligned("ヘッド", "H-") > 20);
    assert_true(aligned("シャフト", "S-") > 20);
    expect("ja", 0, "stock --db demo.db");
    assert_true(aligned("モデル", "Skerrow") > 2);
    assert_true(aligned("モデル", "Tarnbeck") > 2);
    expect("ja", 0, "pick 2041 --db demo.db");
    assert_true(aligned("現品票", "H-") > 2);
    expect("de", 0, "queue --db demo.db");
    assert_true(aligned("Kopf", "H-") > 20);
}

// The phrase inside, what a supervisor must do, and what the system says.
static void test_sentences(void **state) {
    (void)state;
    expect("ja", 1, "restore none.db --db put.db");
    run_says(ran.err, "データベースを開くことができません");
    expect("de", 1, "restore none.db --db put.db");
    run_says(ran.err, "Nicht gelungen (die Datenbank öffnen)");
    expect("de", 1, "people --unlock W-0001B --badge W-00029 --db demo.db");
    run_says(ran.err, "ist keine Aufsicht; eine PIN entsperrt nur eine Aufsicht.");
    expect("ja", 1, "key /nowhere/at/all"); // a libc without Japanese says it in English
    run_says(ran.err, "/nowhere/at/all を作れません");
    assert_null(strchr(ran.err, '?'));
}

// What the check found, for a person; a program reads English.
static void test_check(void **state) {
    sqlite3 *db;
    (void)state;
    assert_int_equal(sqlite3_open(scratch_path(&scratch, "demo.db"), &db), SQLITE_OK);
    assert_int_equal(
        sqlite3_exec(db, "UPDATE club SET tip_made = 1 WHERE build = '2041'", NULL, NULL, NULL),
        SQLITE_OK);
    sqlite3_close(db);
    expect("ja", 1, "check --db demo.db");
    run_says(ran.err, "チップカットの長さが記録と合いません");
    expect("ja", 1, "check --json --db demo.db");
    run_says(ran.out, "the length cut off the tip is not what the log says.");
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_tables),
        cmocka_unit_test(test_sentences),
        cmocka_unit_test(test_check),
    };
    return cmocka_run_group_tests(tests, opened, closed);
}
