// Files that hold names are nobody's else, and a link or a pipe in their place is not followed.

#include "run.h"

#include <stdio.h>
#include <stdlib.h>
#include <sys/stat.h>
#include <unistd.h>

#define COUNT(array) (sizeof(array) / sizeof(array)[0])

static struct scratch scratch;
static struct ran ran;

static int opened(void **state) {
    (void)state;
    umask(0);
    scratch_init(&scratch);
    scratch_write(&scratch, "pin.txt", "4321\n");
    scratch_import_workshop(&scratch);
    store_close(scratch.store);
    scratch.store = NULL;
    run_expect(&scratch, &ran, 0, "pin W-0001B <pin.txt");
    assert_int_equal(mkdir(scratch_path(&scratch, "keys"), 0700), 0);
    run_expect(&scratch, &ran, 0, "key keys/k");
    return 0;
}

static int closed(void **state) {
    (void)state;
    scratch_release(&scratch);
    return 0;
}

static void expect_mode(const char *name, mode_t most) {
    struct stat stat_of;
    if (stat(scratch_path(&scratch, name), &stat_of) != 0 ||
        (stat_of.st_mode & 0777 & ~most) != 0) {
        fail_msg("%s: mode %o, at most %o", name, (unsigned)stat_of.st_mode & 0777, (unsigned)most);
    }
}

// Whatever the umask of whoever calls it; here it keeps nothing back.
static void nobody_else_reads_them(void **state) {
    static const struct {
        const char *arguments, *file;
    } made[] = {{"backup copy.db", "copy.db"},
                {"log --csv log.csv", "log.csv"},
                {"ledger --csv ledger.csv", "ledger.csv"},
                {"report --pdf report.pdf", "report.pdf"},
                {"tickets --workers --pdf badges.pdf", "badges.pdf"},
                {"plan 1 --pdf sheet.pdf", "sheet.pdf"},
                {"sign --badge W-0001B --key keys/k --witness w <pin.txt", "w"},
                {"restore copy.db", NULL},
                {"demo --db new.db", "new.db"},
                {"pin --new-pepper pepper", "pepper"}};
    const char *db = strrchr(scratch.db, '/') + 1;
    (void)state;
    for (size_t i = 0; i < COUNT(made); i++) {
        run_expect(&scratch, &ran, 0, made[i].arguments);
        expect_mode(made[i].file == NULL ? db : made[i].file, 0660);
    }
    expect_mode("keys/k", 0600);
    expect_mode("pepper", 0600);
    assert_int_equal(chmod(scratch.db, 0644), 0);
    run_expect(&scratch, &ran, 0, "check");
    run_says(ran.out, "Everybody on this machine may open it");
    assert_int_equal(chmod(scratch.db, 0640), 0);
    run_expect(&scratch, &ran, 0, "check");
    assert_null(strstr(ran.out, "Everybody"));
}

static void link_to_victim(const char *name) {
    char path[256];
    snprintf(path, sizeof path, "%s", scratch_path(&scratch, name));
    unlink(path);
    assert_int_equal(symlink(scratch_path(&scratch, "victim"), path), 0);
}

static void expect_unhurt(const char *how) {
    char text[32] = "";
    FILE *file = fopen(scratch_path(&scratch, "victim"), "re");
    assert_non_null(file);
    assert_non_null(fgets(text, sizeof text, file));
    fclose(file);
    if (strcmp(text, "somebody's own\n") != 0) {
        fail_msg("%s: the file that the link points to is changed", how);
    }
}

static void follows_no_link(void **state) {
    static const struct {
        const char *link, *arguments;
        int status; // a report takes the place of the link
    } tries[] = {{"copy.db", "backup copy.db", 1},
                 {"log.csv", "log --csv log.csv", 1},
                 {"ledger.csv", "ledger --csv ledger.csv", 1},
                 {"report.pdf", "report --pdf report.pdf", 0},
                 {"sheet.pdf", "plan 1 --pdf sheet.pdf", 0},
                 {"copy2.db.part", "backup copy2.db", 0},
                 {"w", "sign --badge W-0001B --key keys/k --witness w <pin.txt", 1},
                 {"pepper", "pin --new-pepper pepper", 1},
                 {"keys/k2", "key keys/k2", 1},
                 {"other.db", "check --db other.db", 1},
                 {"new.db", "demo --db new.db", 1}};
    (void)state;
    scratch_write(&scratch, "victim", "somebody's own\n");
    for (size_t i = 0; i < COUNT(tries); i++) {
        link_to_victim(tries[i].link);
        run_expect(&scratch, &ran, tries[i].status, tries[i].arguments);
        expect_unhurt(tries[i].arguments);
    }
    // An empty file would be a witness to be begun.
    scratch_write(&scratch, "victim", "");
    run_expect(&scratch, &ran, 1, "sign --badge W-0001B --key keys/k --witness w <pin.txt");
    struct stat victim;
    assert_int_equal(stat(scratch_path(&scratch, "victim"), &victim), 0);
    assert_int_equal(victim.st_size, 0);
    run_says(ran.err, "it is a link; name the file itself");
}

// Neither waits for a pipe that nobody writes to nor reads a file without end.
static void reads_files_of_a_size(void **state) {
    static const struct {
        const char *arguments, *words;
    } tries[] = {{"plan 1 --settings pipe", "not a file of at most 1 MiB"},
                 {"plan 1 --settings large", "not a file of at most 1 MiB"},
                 {"check --db pipe", "is no file"},
                 {"restore pipe", "is no file"},
                 {"import heads.csv", "is not a file of at most 64 MiB"},
                 {"check --witness large --public keys/k.pub", "large"}};
    (void)state;
    assert_int_equal(mkfifo(scratch_path(&scratch, "pipe"), 0600), 0);
    scratch_write(&scratch, "large", "x");
    scratch_write(&scratch, "heads.csv", "x");
    assert_int_equal(truncate(scratch_path(&scratch, "large"), (off_t)9 << 20), 0);
    assert_int_equal(truncate(scratch_path(&scratch, "heads.csv"), (off_t)65 << 20), 0);
    for (size_t i = 0; i < COUNT(tries); i++) {
        run_expect(&scratch, &ran, 1, tries[i].arguments);
        run_says(ran.err, tries[i].words);
    }
}

// That all of a log was checked says nothing of the one that takes its place.
static void restored_is_not_checked(void **state) {
    char path[128];
    (void)state;
    run_expect(&scratch, &ran, 0, "backup other.db");
    snprintf(path, sizeof path, "%s.checked", scratch.db);
    scratch_write(&scratch, strrchr(path, '/') + 1, "kerfside checked 1774944900000\n");
    run_expect(&scratch, &ran, 1, "restore none.db");
    assert_int_equal(access(path, F_OK), 0); // that log is still there
    run_expect(&scratch, &ran, 0, "restore other.db");
    assert_int_equal(access(path, F_OK), -1);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(nobody_else_reads_them, opened, closed),
        cmocka_unit_test_setup_teardown(follows_no_link, opened, closed),
        cmocka_unit_test_setup_teardown(reads_files_of_a_size, opened, closed),
        cmocka_unit_test_setup_teardown(restored_is_not_checked, opened, closed),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
