// The other subcommands, by the real program: exit statuses, messages, round trips.

#include "run.h"

#include <stdio.h>
#include <stdlib.h>
#include <time.h>
#include <unistd.h>

static struct scratch scratch;
static struct ran ran;

static int workshop(void **state) {
    (void)state;
    scratch_init(&scratch);
    scratch_import_workshop(&scratch);
    return 0;
}

static int release(void **state) {
    (void)state;
    scratch_release(&scratch);
    return 0;
}

// Exit status: 0 done, 1 refused or found wrong, 2 usage.
static const struct {
    const char *arguments;
    int status;
    const char *err;
} statuses[] = {
    {"", 2, "say what to do"},
    {"cut", 2, "there is no command cut"},
    {"--help", 0, ""},
    {"plan --help", 0, ""},
    {"--version", 0, ""},
    {"plan", 2, "name one club"},
    {"plan --all 1-3", 2, "name one club"},
    {"plan --all --json --csv", 2, "one of --json and --csv"},
    {"plan 1-3 1-5", 2, "too much: 1-5"},
    {"plan 1-3 --colour", 2, "there is no option --colour"},
    {"plan 1-3 --db", 2, "a value is missing after --db"},
    {"plan 1-3 --all=yes", 2, "no value belongs to --all"},
    {"plan 1-3 --mark-step 1/10", 2, "no mark step is 1/10"},
    {"plan 1-3", 0, ""},
    {"plan B-1T-3", 0, ""},
    {"plan 1-5", 1, ""}, // has no parts
    {"plan 1-7", 1, "there is no club 7 in build 1"},
    {"plan seven", 1, "there is no build seven"},
    {"plan 1", 0, ""},
    {"plan 1-3 --pdf one.pdf", 2, "--pdf takes one build"},
    {"plan --all", 0, ""},
    {"plan --all --db nowhere.db", 1, "there is no database nowhere.db"},
    {"plan --all --db workers.csv", 1, "workers.csv"},
    {"import", 2, "missing: the CSV files"},
    {"import workers.csv", 0, ""},
    {"import nobody-workers.csv", 1, "nobody-workers.csv: cannot be read"},
    {"log", 0, ""},
    {"log all", 2, "too much: all"},
    {"log --from 2026-02-30", 2, "--from 2026-02-30 is no day"},
    {"log --to tomorrow", 2, "--to tomorrow is no day"},
    {"log --csv workers.csv", 1, "cannot make workers.csv: File exists"},
    {"check", 0, ""},
    {"check --db nowhere.db", 1, "there is no database"},
    {"backup", 2, "missing: the file to copy to"},
    {"backup workers.csv", 1, "exists already"},
    {"backup none/copy.db", 1, "none/copy.db"},
    {"backup a.db b.db", 2, "one file to copy to, or --into FOLDER"},
    {"backup a.db --into .", 2, "one file to copy to, or --into FOLDER"},
    {"backup --into . --keep 0", 2, "--keep 0: a number from 1 to 1000"},
    {"backup --into none", 1, "The folder none for copies cannot be opened"},
    {"restore", 2, "missing: the copy to go on from"},
    {"restore workers.csv", 1, "is in use. End the bench"}, // this test has it open
    {"restore workers.csv --db put.db", 1, "The file is damaged or no database"},
    {"restore none.db --db put.db", 1, "Could not open the database"},
    {"demo", 1, "exists already and was left alone"},
    {"pin", 2, "missing: the supervisor's badge"},
    {"pin W-0001C", 1, "misread"},
    {"pin W-00029 <workers.csv", 1, ""},
    {"pin W-0001B", 1, "no PIN was given"},
};

static void exit_statuses(void **state) {
    (void)state;
    for (size_t i = 0; i < sizeof statuses / sizeof statuses[0]; i++) {
        run(&scratch, &ran, "%s", statuses[i].arguments);
        if (ran.status != statuses[i].status || strstr(ran.err, statuses[i].err) == NULL ||
            (ran.status == 0 && ran.err[0] != '\0')) {
            fail_msg("kerfside %s: %d, %s", statuses[i].arguments, ran.status, ran.err);
        }
    }
}

static void what_cannot_be_written_is_not_done(void **state) {
    static const char *const commands[] = {"--help",      "--version", "plan --all",        "log",
                                           "log --csv -", "check",     "import workers.csv"};
    (void)state;
    for (size_t i = 0; i < sizeof commands / sizeof commands[0]; i++) {
        run(&scratch, &ran, "%s >/dev/full", commands[i]);
        if (ran.status != 1 || strstr(ran.err, "rite") == NULL) {
            fail_msg("%s: %d %s", commands[i], ran.status, ran.err);
        }
    }
}

static void help_names_every_command(void **state) {
    static const char *const names[] = {"import", "plan",      "log",        "check",
                                        "backup", "demo",      "pin",        "bench",
                                        "match",  "--version", "KERFSIDE_DB"};
    (void)state;
    run(&scratch, &ran, "--help");
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        assert_non_null(strstr(ran.out, names[i]));
    }
    assert_non_null(strstr(ran.out, "no safety device"));
    run(&scratch, &ran, "--version");
    assert_string_equal(ran.out, "kerfside " KERFSIDE_VERSION "\n");
}

static void import_says_what_was_new(void **state) {
    (void)state;
    scratch_write(&scratch, "spare_shafts.csv",
                  "ticket,model,flex,raw_length,weight_g,rack\n"
                  "S-0004M,Rod,R,46,110,A1\nS-0001S,Rod,R,46,110,A3\n");
    run(&scratch, &ran, "import spare_shafts.csv");
    assert_int_equal(ran.status, 0);
    assert_string_equal(ran.out, "shafts.csv 2 rows, 1 new, 1 changed\n");
    run(&scratch, &ran, "import spare_shafts.csv");
    assert_string_equal(ran.out, "shafts.csv 2 rows, 0 new, 0 changed: nothing to change\n");
    scratch_write(&scratch, "spare_shafts.csv",
                  "ticket,model,flex,raw_length,weight_g,rack\n"
                  "S-0004M,Rod,R,forty,110,A1\nS-0005K,Rod,,46,110,A1\n");
    run(&scratch, &ran, "import spare_shafts.csv");
    assert_int_equal(ran.status, 1);
    assert_non_null(strstr(ran.err, "spare_shafts.csv:2: column raw_length: "));
    assert_non_null(strstr(ran.err, "spare_shafts.csv:3: column flex: "));
    assert_non_null(strstr(ran.err, "2 wrong; nothing was imported."));
    run(&scratch, &ran, "import workers.csv --db new/folder/made.db");
    assert_int_equal(ran.status, 0);
    assert_int_equal(access(scratch_path(&scratch, "new/folder/made.db"), F_OK), 0);
    run(&scratch, &ran, "import spare_shafts.csv --db empty.db");
    assert_int_equal(ran.status, 1);
    assert_int_not_equal(access(scratch_path(&scratch, "empty.db"), F_OK), 0);
}

static void a_backup_is_whole_and_plans_the_same(void **state) {
    static struct ran original;
    (void)state;
    run(&scratch, &ran, "backup copy.db");
    assert_int_equal(ran.status, 0);
    run(&scratch, &ran, "backup copy.db");
    assert_int_equal(ran.status, 1);
    run(&scratch, &ran, "check --db copy.db");
    assert_int_equal(ran.status, 0);
    assert_non_null(strstr(ran.out, "copy.db is whole: 2 log entries, incarnation "));
    run(&scratch, &original, "plan --all --json");
    run(&scratch, &ran, "plan --all --json --db copy.db");
    assert_string_equal(ran.out, original.out);
}

// The last bytes of the note of the import are altered in the copy's file.
static void check_finds_an_altered_entry(void **state) {
    static char bytes[4 << 20];
    FILE *file;
    size_t size;
    char *note;
    (void)state;
    run(&scratch, &ran, "backup copy.db");
    file = fopen(scratch_path(&scratch, "copy.db"), "r+e");
    assert_non_null(file);
    size = fread(bytes, 1, sizeof bytes, file);
    note = memmem(bytes, size, "workers.csv 2 rows, 2 new", 25);
    assert_non_null(note);
    assert_int_equal(fseek(file, note - bytes + 20, SEEK_SET), 0);
    fputc('3', file);
    fclose(file);
    run(&scratch, &ran, "check --db copy.db");
    assert_int_equal(ran.status, 1);
    assert_non_null(strstr(ran.err, "First bad log entry: 2."));
    assert_string_equal(ran.out, "");
}

static void the_log_goes_to_a_file_of_its_days(void **state) {
    char today[16];
    time_t now = time(NULL);
    (void)state;
    strftime(today, sizeof today, "%Y-%m-%d", localtime(&now));
    run(&scratch, &ran, "log --csv log.csv");
    assert_string_equal(ran.out, "log.csv: 2 entries\n");
    run(&scratch, &ran, "log --csv -");
    assert_ptr_equal(strstr(ran.out, "seq,time,kind,bench,"), ran.out);
    assert_non_null(strstr(ran.out, "\n1,"));
    assert_non_null(strstr(ran.out, ",genesis,desk,"));
    assert_non_null(strstr(ran.out, "\n2,"));
    assert_non_null(strstr(ran.out, ",import,desk,"));
    run(&scratch, &ran, "log --csv - --from %s --to %s", today, today);
    assert_non_null(strstr(ran.out, ",import,desk,"));
    run(&scratch, &ran, "log --csv - --to 2020-02-29");
    assert_null(strstr(ran.out, "\n1,"));
    run(&scratch, &ran, "log --from 2199-01-01");
    assert_int_equal(ran.status, 0);
    assert_null(strstr(ran.out, "genesis"));
    run(&scratch, &ran, "log");
    assert_true(strstr(ran.out, "import") < strstr(ran.out, "genesis")); // newest first
    assert_non_null(strstr(ran.out, today));
}

static void a_pin_is_set_from_stdin(void **state) {
    int wait;
    (void)state;
    scratch_write(&scratch, "pin.txt", "271828\n");
    run(&scratch, &ran, "pin w-0001b <pin.txt");
    assert_int_equal(ran.status, 0);
    assert_string_equal(ran.out, "The PIN of W-0001B is set.\n");
    assert_int_equal(store_pin_check(scratch.store, "W-0001B", "271828", &wait), PIN_RIGHT);
    assert_int_equal(store_pin_check(scratch.store, "W-0001B", "271829", &wait), PIN_WRONG);
    run(&scratch, &ran, "pin W-00029 <pin.txt");
    assert_int_equal(ran.status, 1);
    assert_non_null(strstr(ran.err, "no supervisor"));
    scratch_write(&scratch, "pin.txt", "abc\n");
    run(&scratch, &ran, "pin W-0001B <pin.txt");
    assert_int_equal(ran.status, 1);
    assert_non_null(strstr(ran.err, "4 to 12 digits"));
}

static void the_demo_is_ready_to_try(void **state) {
    char today[16];
    char due[32];
    char pin[8];
    struct store *store;
    char message[512];
    int wait;
    time_t now = time(NULL);
    (void)state;
    strftime(today, sizeof today, "%Y-%m-%d", localtime(&now));
    run(&scratch, &ran, "demo --db demo.db");
    assert_int_equal(ran.status, 0);
    assert_string_equal(ran.err, "");
    assert_non_null(strstr(ran.out, "supervisor  W-0001B"));
    assert_int_equal(sscanf(strstr(ran.out, "  PIN ") + 6, "%7[0-9]", pin), 1);
    assert_int_equal(strlen(pin), 6);
    assert_int_equal(store_open(scratch_path(&scratch, "demo.db"), STORE_WRITE, "desk", &store,
                                message, sizeof message),
                     STORE_OK);
    assert_int_equal(store_pin_check(store, "W-0001B", pin, &wait), PIN_RIGHT);
    store_close(store);
    run(&scratch, &ran, "plan 2041-1 --db demo.db");
    snprintf(due, sizeof due, "due %s\n", today);
    assert_non_null(strstr(ran.out, due));
    run(&scratch, &ran, "check --db demo.db");
    assert_int_equal(ran.status, 0);
    run(&scratch, &ran, "demo --db demo.db");
    assert_int_equal(ran.status, 1);
}

// A demo that could not be made leaves nothing behind.
static void a_failed_demo_goes_away(void **state) {
    (void)state;
    scratch_write(&scratch, "shaft_models.csv", "model\n");
    setenv("KERFSIDE_DATA", scratch.folder, 1);
    run(&scratch, &ran, "demo --db demo.db");
    unsetenv("KERFSIDE_DATA");
    assert_int_equal(ran.status, 1);
    assert_non_null(strstr(ran.err, "shaft_models.csv:1: column material: is missing"));
    assert_int_not_equal(access(scratch_path(&scratch, "demo.db"), F_OK), 0);
    assert_int_not_equal(access(scratch_path(&scratch, "demo.db.lock"), F_OK), 0);
}

int main(void) {
#define TEST(name) cmocka_unit_test_setup_teardown(name, workshop, release)
    const struct CMUnitTest tests[] = {
        TEST(exit_statuses),
        TEST(what_cannot_be_written_is_not_done),
        TEST(help_names_every_command),
        TEST(import_says_what_was_new),
        TEST(a_backup_is_whole_and_plans_the_same),
        TEST(check_finds_an_altered_entry),
        TEST(the_log_goes_to_a_file_of_its_days),
        TEST(a_pin_is_set_from_stdin),
        TEST(the_demo_is_ready_to_try),
        TEST(a_failed_demo_goes_away),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
