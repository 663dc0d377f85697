// `kerfside key`, `sign` and `check --witness` by the real program.

#include "run.h"

#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>

#define SIGN "sign --badge W-0001B --key keys/k --witness w <pin.txt"
#define CHECK "check --witness w --public keys/k.pub"

static struct scratch scratch;
static struct ran ran;

// The whole witness, with a NUL.
static size_t witness(char *bytes, size_t most) {
    FILE *file = fopen(scratch_path(&scratch, "w"), "re");
    assert_non_null(file);
    size_t size = fread(bytes, 1, most - 1, file);
    fclose(file);
    bytes[size] = '\0';
    return size;
}

static int opened(void **state) {
    (void)state;
    scratch_init(&scratch);
    scratch_import_workshop(&scratch);
    scratch_write(&scratch, "pin.txt", "4321\n");
    scratch_write(&scratch, "wrong.txt", "1234\n");
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

static void signs_and_checks(void **state) {
    char text[4096];
    (void)state;
    int64_t before = scratch_ask(&scratch, "SELECT max(seq) FROM log");
    char words[80];
    run_expect(&scratch, &ran, 0, SIGN);
    witness(text, sizeof text);
    run_says(ran.out, text); // what is printed is what was written
    run_expect(&scratch, &ran, 0, CHECK);
    snprintf(words, sizeof words, "1 note, the last over %d entries.\n", (int)before + 2);
    run_says(ran.out, words); // the PIN is an entry too
    run_expect(&scratch, &ran, 0,
               "sign --badge w-0001b --day 2026-03-31 --key keys/k --witness w <pin.txt");
    run_says(ran.out, "day 2026-03-31\n");
    run_expect(&scratch, &ran, 1, "sign --badge W-0001B --key keys/k --witness w <wrong.txt");
    run_says(ran.err, "that is not the PIN; nothing was signed.");
    run_expect(&scratch, &ran, 0, CHECK);
    snprintf(words, sizeof words, "2 notes, the last over %d entries.", (int)before + 4);
    run_says(ran.out, words);
    run_says(ran.out, "No note covers the last 1 yet");
    setenv("KERFSIDE_KEY", "keys/k", 1);
    run_expect(&scratch, &ran, 0, "sign --badge W-0001B --witness w <pin.txt");
    unsetenv("KERFSIDE_KEY");
    assert_int_equal(scratch_ask(&scratch, "SELECT count(*) FROM log WHERE kind = 'day_signed' AND "
                                           "worker = 'W-0001B' AND note GLOB '20*-*-* *'"),
                     3);
}

// Outside judge: Python alone reads the notes and verifies them (RFC 8032).
static void agrees_with_python(void **state) {
    char command[512];
    char line[16] = "";
    (void)state;
    run_expect(&scratch, &ran, 0, SIGN);
    run_expect(&scratch, &ran, 0, SIGN);
    snprintf(command, sizeof command, "/usr/bin/python3 %s/tests/store/witness_oracle.py %s %s %s",
             KERFSIDE_SOURCE_DIR, scratch.db, scratch_path(&scratch, "w"),
             scratch_path(&scratch, "keys/k.pub"));
    FILE *pipe = popen(command, "re");
    assert_non_null(pipe);
    assert_non_null(fgets(line, sizeof line, pipe));
    assert_int_equal(pclose(pipe), 0);
    assert_string_equal(line, "2\n");
}

// In a folder each log has a file of its own.
static void keeps_a_witness_a_log(void **state) {
    char command[200];
    (void)state;
    assert_int_equal(mkdir(scratch_path(&scratch, "stick"), 0700), 0);
    run_expect(&scratch, &ran, 0, "sign --badge W-0001B --key keys/k --witness stick <pin.txt");
    run_expect(&scratch, &ran, 0, "sign --badge W-0001B --key keys/k --witness stick/ <pin.txt");
    struct entry genesis;
    assert_int_equal(store_entry(scratch.store, 1, &genesis), STORE_OK);
    snprintf(command, sizeof command,
             "check --witness stick/kerfside-%.8s.witness --public keys/k.pub", genesis.note);
    run_expect(&scratch, &ran, 0, command);
    run_says(ran.out, "2 notes");
}

// Everything that can be known before is known before anything is signed.
static void refuses(void **state) {
    static const struct {
        const char *arguments;
        int status;
        const char *words;
    } rows[] = {
        {"sign --badge W-0001B --witness w <pin.txt", 2, "--key"},
        {"sign --key keys/k --witness w <pin.txt", 2, "--badge"},
        {"sign --badge W-0001B --key keys/k <pin.txt", 2, "--witness"},
        {"sign --badge W-0001B --key keys/k --witness w --day 2026-02-29 <pin.txt", 2, "a day"},
        {"sign --badge W-0001C --key keys/k --witness w <pin.txt", 1, "W-0001C"},
        {"sign --badge W-00029 --key keys/k --witness w <pin.txt", 1, "is no supervisor"},
        {"sign --badge W-0001B --key keys/k --witness w", 1, "no PIN was given"},
        {"sign --badge W-0001B --key keys/none --witness w <pin.txt", 1, "kerfside key FILE"},
        {"sign --badge W-0001B --key keys/k.pub --witness w <pin.txt", 1, "public half"},
        {"sign --badge W-0001B --key k --witness w <pin.txt", 1, "folder of the database"},
        {"sign --badge W-0001B --key keys/k --witness none/w <pin.txt", 1, "Could not read"},
        {"sign --badge W-0001B --key keys/k --witness pin.txt <pin.txt", 1, "line 1"},
        {"key keys/k", 1, "never overwritten"},
        {"key", 2, "the file to make"},
        {"check --witness w", 2, "belong together"},
        {"check --public keys/k.pub", 2, "belong together"},
        {"check --witness none --public keys/k.pub", 1, "Could not read the witness none"},
        {"check --witness empty --public keys/k.pub", 1, "holds no note"},
        {"check --witness empty --public keys/k", 1, "secret half"},
        {"check --witness empty --public none", 1, "Could not open the key none"},
    };
    (void)state;
    run_expect(&scratch, &ran, 0, "key k");
    scratch_write(&scratch, "empty", "");
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        run_expect(&scratch, &ran, rows[i].status, rows[i].arguments);
        run_says(ran.err, rows[i].words);
    }
    assert_int_equal(scratch_ask(&scratch, "SELECT count(*) FROM log WHERE kind = 'day_signed'"),
                     0);
}

// A log that does not fit its witness is not signed over, and the check says where.
static void finds_what_was_done(void **state) {
    char text[4096];
    (void)state;
    run_expect(&scratch, &ran, 0, SIGN);
    run_expect(&scratch, &ran, 0, "backup older.db");
    run_expect(&scratch, &ran, 0, SIGN);
    run_expect(&scratch, &ran, 1, CHECK " --db older.db");
    run_says(ran.err, "are missing");
    run_says(ran.err, "First bad log entry: ");
    run_expect(&scratch, &ran, 1,
               "sign --badge W-0001B --key keys/k --witness w --db older.db <pin.txt");
    run_says(ran.err, "Nothing was signed.");
    run_expect(&scratch, &ran, 0, CHECK);
    size_t size = witness(text, sizeof text);
    text[size / 2 + 40] ^= 1; // in the second note
    scratch_write(&scratch, "w", text);
    run_expect(&scratch, &ran, 1, CHECK);
    run_says(ran.err, "The witness w is damaged or not of this key: line ");
    run_says(ran.out, "is whole"); // the log itself, and the first note
    run_expect(&scratch, &ran, 1, SIGN);
    run_says(ran.err, "line ");
    run_expect(&scratch, &ran, 0, "key keys/other");
    scratch_write(&scratch, "w", "");
    run_expect(&scratch, &ran, 0, SIGN);
    run_expect(&scratch, &ran, 1, "check --witness w --public keys/other.pub");
    run_says(ran.err, "line 1: the note is signed by another key");
}

// The disk of the witness takes no more: the entry is in the log, that is said, and signing again
// covers it. (A limit on the size of files stands for the full disk; the database is below it.)
static void says_when_the_witness_is_full(void **state) {
    struct rlimit before;
    struct rlimit limit;
    char text[4096];
    struct stat stats;
    (void)state;
    run_expect(&scratch, &ran, 0, SIGN);
    size_t size = witness(text, sizeof text);
    FILE *file = fopen(scratch_path(&scratch, "w"), "ae");
    assert_non_null(file);
    for (size_t i = 0; i < 5000; i++) {
        assert_int_equal(fwrite(text, 1, size, file), size);
    }
    assert_int_equal(fclose(file), 0);
    assert_int_equal(stat(scratch_path(&scratch, "w"), &stats), 0);
    off_t full = stats.st_size;
    assert_int_equal(getrlimit(RLIMIT_FSIZE, &before), 0);
    limit = before;
    limit.rlim_cur = (rlim_t)full + 100;
    signal(SIGXFSZ, SIG_IGN);
    assert_int_equal(setrlimit(RLIMIT_FSIZE, &limit), 0);
    run(&scratch, &ran, SIGN);
    assert_int_equal(setrlimit(RLIMIT_FSIZE, &before), 0);
    assert_int_equal(ran.status, 1);
    run_says(ran.err, "is in the log, but not in the witness.");
    run_says(ran.err, "Sign once more");
    assert_int_equal(stat(scratch_path(&scratch, "w"), &stats), 0);
    assert_int_equal(stats.st_size, full); // no half of a note
    assert_int_equal(scratch_ask(&scratch, "SELECT count(*) FROM log WHERE kind = 'day_signed'"),
                     2);
    run_expect(&scratch, &ran, 0, CHECK);
    run_says(ran.out, "No note covers the last 2 yet");
    run_expect(&scratch, &ran, 0, SIGN);
    run_expect(&scratch, &ran, 0, CHECK);
    assert_null(strstr(ran.out, "No note covers"));
}

#define STEP(name) cmocka_unit_test_setup_teardown(name, opened, closed)

int main(void) {
    const struct CMUnitTest tests[] = {
        STEP(signs_and_checks), STEP(agrees_with_python),  STEP(keeps_a_witness_a_log),
        STEP(refuses),          STEP(finds_what_was_done), STEP(says_when_the_witness_is_full),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
