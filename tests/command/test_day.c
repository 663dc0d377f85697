// A day at the bench by the real program: signed with what is on a stick, filed, and its ledger;
// and what is said when the stick is not there.

#include "busy.h"
#include "database.h"
#include "days.h"
#include "run.h"

#include <stdio.h>
#include <stdlib.h>
#include <sys/stat.h>
#include <unistd.h>

#define DAY "2026-03-31"
#define BENCH "bench --windowed --size 1024x600 --settings bench.ini --script "

static struct scratch scratch;
static struct ran ran;

static void judged(const char *oracle, const char *arguments, const char *words) {
    char command[1024];
    char text[2048];
    snprintf(command, sizeof command, "cd '%s' && /usr/bin/python3 %s/tests/command/%s %s 2>&1",
             scratch.folder, KERFSIDE_SOURCE_DIR, oracle, arguments);
    FILE *pipe = popen(command, "re");
    assert_non_null(pipe);
    size_t got = fread(text, 1, sizeof text - 1, pipe);
    text[got] = '\0';
    if (pclose(pipe) != 0) {
        fail_msg("%s", text);
    }
    run_says(text, words);
}

static int opened(void **state) {
    char text[400];
    int64_t midnight;
    (void)state;
    scratch_init(&scratch);
    assert_true(days_midnight(DAY, 0, &midnight));
    busy_day(&scratch, 40, false, midnight + (int64_t)7 * 3600 * 1000, 9);
    scratch_write(&scratch, "pin.txt", "4321\n");
    run_expect(&scratch, &ran, 0, "pin W-0001B <pin.txt");
    assert_int_equal(mkdir(scratch_path(&scratch, "stick"), 0700), 0);
    run_expect(&scratch, &ran, 0, "key stick/k");
    snprintf(text, sizeof text, "[sign]\nkey = %s/stick/k\nwitness = %s/stick\n", scratch.folder,
             scratch.folder);
    scratch_write(&scratch, "bench.ini", text);
    setenv("SDL_VIDEODRIVER", "dummy", 1);
    setenv("SDL_AUDIODRIVER", "dummy", 1);
    return 0;
}

static int closed(void **state) {
    (void)state;
    scratch_release(&scratch);
    return 0;
}

// Steps of the supervisor, from the badge to the day of the log.
static void play(int status, const char *steps) {
    char text[2048];
    snprintf(text, sizeof text,
             "clock " DAY "T18:00\nscan W-00029\nscan W-0001B\nexpect PIN\ntype 4321\npress\n"
             "expect REVIEW\naction DAY\nsee The day\n%s",
             steps);
    scratch_write(&scratch, "steps", text);
    run_expect(&scratch, &ran, status, BENCH "steps");
}

static int64_t signatures(void) {
    return scratch_ask(&scratch, "SELECT count(*) FROM log WHERE kind = 'day_signed'");
}

static void expect_notes(const char *words) {
    char arguments[200];
    struct entry genesis;
    assert_int_equal(store_entry(scratch.store, 1, &genesis), STORE_OK);
    snprintf(arguments, sizeof arguments,
             "check --witness stick/kerfside-%.8s.witness --public stick/k.pub", genesis.note);
    run_expect(&scratch, &ran, 0, arguments);
    run_says(ran.out, words);
}

static void signs_at_the_bench(void **state) {
    (void)state;
    play(0, "see This day is not signed yet\naction SIGN\nsee Sign 31 Mar?\naction SIGN_CONFIRM\n"
            "see Signed: in the log and in the witness.\nsee W-0001B\nsee kerfside/\n");
    assert_int_equal(signatures(), 1);
    expect_notes("1 note");
    assert_int_equal(scratch_ask(&scratch,
                                 "SELECT count(*) FROM log WHERE kind = 'day_signed' AND note "
                                 "LIKE '" DAY " %' AND worker = 'W-0001B' AND bench = 'Bench 1'"),
                     1);
    // and once more, beside the command line, behind the same notes
    play(0, "see Signed by W-0001B\naction SIGN\naction SIGN_CONFIRM\nsee Signed: in the log\n");
    run_expect(&scratch, &ran, 0, "sign --badge W-0001B --key stick/k --witness stick <pin.txt");
    expect_notes("3 notes");
}

static void asks_before_it_signs(void **state) {
    (void)state;
    play(0, "action SIGN\naction BACK\nsee This day is not signed yet\npress\n");
    assert_int_equal(signatures(), 0);
}

static void says_what_is_missing(void **state) {
    (void)state;
    play(0, "action SIGN\naction SIGN_CONFIRM\nsee Signed: in the log\n");
    assert_int_equal(rename(scratch_path(&scratch, "stick"), scratch_path(&scratch, "pocket")), 0);
    play(0, "action SIGN\nsee Not signed.\nsee Could not open the key\n");
    // its folder stays when a stick goes
    assert_int_equal(mkdir(scratch_path(&scratch, "stick"), 0700), 0);
    play(0, "action SIGN\nsee Not signed.\nsee Could not open the key\n");
    // another stick, with the key but no witness
    run_expect(&scratch, &ran, 0, "key stick/k");
    play(0, "action SIGN\nsee Not signed.\nsee Is it another stick?\n");
    chmod(scratch_path(&scratch, "stick/k"), 0644);
    play(0, "action SIGN\nsee Not signed.\nsee others can read it\n");
    assert_int_equal(signatures(), 1);
    scratch_write(&scratch, "bench.ini", "[bench]\nname = Bench 1\n");
    play(0, "action SIGN\nsee Not signed.\nsee No key is set up at this bench\n");
    assert_int_equal(signatures(), 1);
}

// What does not fit the witness is never signed over.
static void does_not_sign_another_log(void **state) {
    (void)state;
    run_expect(&scratch, &ran, 0, "backup older.db");
    play(0, "action SIGN\naction SIGN_CONFIRM\nsee Signed: in the log\n");
    char text[600];
    snprintf(text, sizeof text,
             "clock " DAY "T18:00\nscan W-00029\nscan W-0001B\ntype 4321\npress\naction DAY\n"
             "action SIGN\naction SIGN_CONFIRM\nsee Not signed.\nsee are missing\n");
    scratch_write(&scratch, "steps", text);
    // a copy from before, on which no day was signed yet: its own file is there on the stick
    run_expect(&scratch, &ran, 0, BENCH "steps --db older.db");
    assert_int_equal(signatures(), 1);
}

static void files_the_day(void **state) {
    static char text[SCRATCH_TEXT_MAX];
    char name[200];
    (void)state;
    play(0, "action SIGN\naction SIGN_CONFIRM\naction REPORT\nsee report-" DAY ".pdf\n"
            "action REPORT\nsee report-" DAY "-2.pdf\naction LEDGER\nsee ledger-" DAY ".csv\n");
    assert_int_equal(access(scratch_path(&scratch, "report-" DAY "-2.pdf"), R_OK), 0);
    snprintf(name, sizeof name, "cd '%s' && pdftotext -raw report-" DAY ".pdf -", scratch.folder);
    FILE *pipe = popen(name, "re");
    assert_non_null(pipe);
    text[fread(text, 1, sizeof text - 1, pipe)] = '\0';
    assert_int_equal(pclose(pipe), 0);
    run_says(text, "The code holds"); // with its signature
    run_expect(&scratch, &ran, 0, "log --csv log.csv");
    judged("report_oracle.py", "log.csv report-" DAY ".pdf " DAY, "agreed");
    judged("ledger_oracle.py", "log.csv ledger-" DAY ".csv " DAY " 46 workers.csv", "agreed");
    assert_true(scratch_ask(&scratch, "SELECT count(*) FROM log WHERE kind = 'export'") >= 3);
}

// --- the ledger at the command line --------------------------------------------------------------

// A club used as it is whose measure is withdrawn after all: it is finished no more.
static void withdraw_one_used(void) {
    struct entry about;
    struct entry entry = entry_init(ENTRY_WITHDRAW);
    int64_t seq =
        scratch_ask(&scratch, "SELECT min(refers) FROM log WHERE kind = 'decide' AND cause = 'use' "
                              "AND refers IN (SELECT seq FROM log WHERE kind = 'measure')");
    assert_int_equal(store_entry(scratch.store, seq, &about), STORE_OK);
    database_stamp(&entry);
    entry.refers = seq;
    entry.club_id = about.club_id;
    strcpy(entry.bench, about.bench);
    strcpy(entry.build, about.build);
    strcpy(entry.club, about.club);
    strcpy(entry.head, about.head);
    strcpy(entry.shaft, about.shaft);
    if (store_append(scratch.store, &entry) != STORE_OK) {
        fail_msg("%s", store_message(scratch.store));
    }
}

static void keeps_the_books(void **state) {
    (void)state;
    withdraw_one_used();
    run_expect(&scratch, &ran, 0, "ledger --csv all.csv");
    run_says(ran.out, "all.csv: ");
    run_expect(&scratch, &ran, 0, "ledger --csv day.csv --from " DAY " --to " DAY);
    run_expect(&scratch, &ran, 0, "log --csv log.csv");
    judged("ledger_oracle.py", "log.csv day.csv " DAY " 46 workers.csv", "finished");
    judged("ledger_oracle.py", "log.csv all.csv " DAY " 46 workers.csv", "agreed");
    run_expect(&scratch, &ran, 0, "ledger --csv none.csv --from 2026-04-01 --to 2026-04-30");
    run_says(ran.out, "none.csv: 0 rows");
    run_expect(&scratch, &ran, 0, "ledger --csv - --from 2026-04-01");
    assert_string_equal(ran.out,
                        "date,build,club,head,head_model,shaft,shaft_model,flex,worker,name,result,"
                        "cause,decided_by,note,tip_off,butt_off,length\r\n");
    run_expect(&scratch, &ran, 1, "ledger --csv all.csv");
    run_says(ran.err, "Name a new file");
    run_expect(&scratch, &ran, 1, "ledger --csv /dev/full");
    run_says(ran.err, "/dev/full");
    run_expect(&scratch, &ran, 2, "ledger");
    run_says(ran.err, "--csv");
    run_expect(&scratch, &ran, 2, "ledger --csv x.csv --from tomorrow");
    run_says(ran.err, "is no day");
    run_expect(&scratch, &ran, 1, "ledger --csv x.csv --db none.db");
    assert_int_not_equal(access(scratch_path(&scratch, "x.csv"), F_OK), 0);
}

#define STEP(name) cmocka_unit_test_setup_teardown(name, opened, closed)

int main(void) {
    const struct CMUnitTest tests[] = {
        STEP(signs_at_the_bench),        STEP(asks_before_it_signs), STEP(says_what_is_missing),
        STEP(does_not_sign_another_log), STEP(files_the_day),        STEP(keeps_the_books),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
