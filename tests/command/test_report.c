// `kerfside report` by the real program: its numbers against those that Python counts in the CSV of
// the log, its code read back, days with nothing and with two thousand cuts.

#include "busy.h"
#include "days.h"
#include "run.h"

#include <stdio.h>
#include <stdlib.h>
#include <sys/stat.h>
#include <unistd.h>

#define DAY "2026-03-31"

static struct scratch scratch;
static struct ran ran;

static int opened(void **state) {
    (void)state;
    scratch_init(&scratch);
    return 0;
}

static int closed(void **state) {
    (void)state;
    scratch_release(&scratch);
    return 0;
}

static int64_t morning(void) {
    int64_t midnight;
    assert_true(days_midnight(DAY, 0, &midnight));
    return midnight + (int64_t)7 * 3600 * 1000;
}

// Output of a shell command, in the scratch's folder, that must succeed.
static void shell(char *buffer, size_t size, const char *format, ...)
    __attribute__((format(printf, 3, 4)));
static void shell(char *buffer, size_t size, const char *format, ...) {
    char command[1024];
    va_list list;
    int used = snprintf(command, sizeof command, "cd '%s' && ", scratch.folder);
    va_start(list, format);
    vsnprintf(command + used, sizeof command - (size_t)used, format, list);
    va_end(list);
    FILE *pipe = popen(command, "re");
    assert_non_null(pipe);
    size_t got = fread(buffer, 1, size - 1, pipe);
    buffer[got] = '\0';
    int status = pclose(pipe);
    if (status != 0) {
        fail_msg("%s: %d, %s", command, status, buffer);
    }
}

static void keep(const char *name, const char *as) {
    const char *shots = getenv("KERFSIDE_SHOTS");
    char text[8];
    if (shots != NULL) {
        shell(text, sizeof text, "cp '%s' '%s/%s.pdf'", name, shots, as);
    }
}

// Outside judge: every number of the report from the log's CSV, in Python.
static void agree(const char *paper, const char *as) {
    static char text[SCRATCH_TEXT_MAX];
    char arguments[200];
    unlink(scratch_path(&scratch, "log.csv"));
    snprintf(arguments, sizeof arguments, "report --day " DAY " --pdf r.pdf --paper %s", paper);
    run_expect(&scratch, &ran, 0, arguments);
    run_expect(&scratch, &ran, 0, "log --csv log.csv");
    shell(text, sizeof text,
          "/usr/bin/python3 %s/tests/command/report_oracle.py log.csv r.pdf " DAY,
          KERFSIDE_SOURCE_DIR);
    run_says(text, "agreed");
    keep("r.pdf", as);
}

static void numbers_are_the_logs(void **state) {
    (void)state;
    busy_day(&scratch, 60, false, morning(), 7);
    agree("a4", "report-a4");
    agree("letter", "report-letter");
}

static void long_names_too(void **state) {
    static char text[SCRATCH_TEXT_MAX];
    (void)state;
    busy_day(&scratch, 30, true, morning(), 11);
    agree("a4", "report-long");
    shell(text, sizeof text, "pdftotext -raw r.pdf -");
    run_says(text, "W-00029 " BUSY_NAME ": ");
    run_says(text, "GRUNWALD0000-Längste Löß0");
    run_says(text, "Säge, 2");
}

static void two_thousand_cuts(void **state) {
    static char text[SCRATCH_TEXT_MAX];
    (void)state;
    busy_day(&scratch, 1100, false, morning(), 3);
    assert_true(
        scratch_ask(&scratch, "SELECT count(*) FROM log WHERE kind IN ('tip_cut', 'butt_cut')") >
        2000);
    agree("a4", "report-many");
    shell(text, sizeof text, "pdfinfo r.pdf | grep -c 'Pages:  *[4-9][0-9]$'");
    assert_string_equal(text, "1\n");
}

static void a_day_with_nothing(void **state) {
    static char text[SCRATCH_TEXT_MAX];
    (void)state;
    scratch_import_workshop(&scratch);
    run_expect(&scratch, &ran, 0, "report --pdf r.pdf --day " DAY);
    run_says(ran.out, "r.pdf: 1 page\n");
    keep("r.pdf", "report-nothing");
    shell(text, sizeof text, "pdftotext -layout r.pdf -");
    static const char *const words[] = {
        "Tuesday 31 March 2026",        "Nothing was cut.", "No stops.",
        "Too few clubs were measured.", "There were none.", "Not signed yet."};
    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++) {
        run_says(text, words[i]);
    }
    int64_t last = scratch_ask(&scratch, "SELECT max(seq) FROM log");
    char covered[64];
    snprintf(covered, sizeof covered, "No signature covers the last %d entries", (int)last);
    run_says(text, covered);
}

static void millimetres_and_days(void **state) {
    static char text[SCRATCH_TEXT_MAX];
    (void)state;
    busy_day(&scratch, 3, false, morning(), 5);
    scratch_write(&scratch, "mm.ini", "[bench]\nunits = mm\ntolerance = 1 mm\n");
    run_expect(&scratch, &ran, 0,
               "report --pdf r.pdf --from 2026-03-30 --to 2026-04-01 --settings mm.ini");
    shell(text, sizeof text, "pdftotext -layout r.pdf -");
    run_says(text, "30 March 2026 to 1 April 2026");
    run_says(text, "Cuts, in millimetres");
    run_says(text, "12.7"); // the tip mark, 1/2 in
    run_says(text, "31 Mar 07:");
}

// --- what was signed -----------------------------------------------------------------------------

// A whole code, by another's decoder, at the dots of a printer.
static void reads_back(const char *reader, int dots, const char *expected) {
    static char text[SCRATCH_TEXT_MAX];
    shell(text, sizeof text,
          "pdftoppm -r %d -gray -f $(pdfinfo r.pdf | awk '/^Pages/{print $2}') r.pdf page && %s",
          dots, reader);
    if (strstr(text, expected) == NULL) {
        fail_msg("%s at %d read: %s, not: %s", reader, dots, text, expected);
    }
}

static void read_by_both(const char *expected) {
    static const int dots[] = {203, 300};
    for (size_t i = 0; i < 2; i++) {
        reads_back("zbarimg --nodbus -q --raw -Sdisable -Sqrcode.enable page-*.pgm", dots[i],
                   expected);
        reads_back(
            "ZXingReader -noscale -format QRCode page-*.pgm | "
            "/usr/bin/python3 -c 'import sys; "
            "print(sys.stdin.read().replace(\"<U+A>\", chr(10)).replace(\"\\\\n\", chr(10)))'",
            dots[i], expected);
    }
}

static void a_signed_day(void **state) {
    static char text[SCRATCH_TEXT_MAX];
    char note[4096] = "";
    char body[512];
    (void)state;
    busy_day(&scratch, 20, false, morning(), 9);
    scratch_write(&scratch, "pin.txt", "4321\n");
    run_expect(&scratch, &ran, 0, "pin W-0001B <pin.txt");
    assert_int_equal(mkdir(scratch_path(&scratch, "keys"), 0700), 0);
    run_expect(&scratch, &ran, 0, "key keys/k");
    run_expect(&scratch, &ran, 0,
               "sign --badge W-0001B --key keys/k --witness w --day " DAY " <pin.txt");
    FILE *file = fopen(scratch_path(&scratch, "w"), "re");
    assert_non_null(file);
    assert_true(fread(note, 1, sizeof note - 1, file) > 0);
    fclose(file);
    // with the witness: the whole note, which is a witness again
    run_expect(&scratch, &ran, 0,
               "report --day " DAY " --pdf r.pdf --witness w --public keys/k.pub");
    keep("r.pdf", "report-signed");
    read_by_both(note);
    shell(text, sizeof text,
          "pdftoppm -r 300 -gray -f $(pdfinfo r.pdf | awk '/^Pages/{print $2}') "
          "r.pdf page && zbarimg --nodbus -q --raw -Sdisable -Sqrcode.enable "
          "page-*.pgm | head -n -1 >scanned");
    run_expect(&scratch, &ran, 0, "check --witness scanned --public keys/k.pub");
    shell(text, sizeof text, "pdftotext -layout r.pdf -");
    run_says(text, DAY " was signed by Ada Quill, W-0001B");
    run_says(text, "Entries it stands for (size)");
    // without: all but the signature
    run_expect(&scratch, &ran, 0, "report --day " DAY " --pdf r.pdf");
    snprintf(body, sizeof body, "%.*s", (int)(strstr(note, "\n\n") + 1 - note), note);
    read_by_both(body);
    shell(text, sizeof text, "pdftotext -raw r.pdf -");
    run_says(text, "The witness was not at hand");
    // another log's witness, or none
    scratch_write(&scratch, "empty", "");
    run_expect(&scratch, &ran, 0,
               "report --day " DAY " --pdf r.pdf --witness empty --public keys/k.pub");
    shell(text, sizeof text, "pdftotext -raw r.pdf -");
    run_says(text, "Its note is not in the witness");
    run_expect(&scratch, &ran, 1,
               "report --day " DAY " --pdf r.pdf --witness none --public keys/k.pub");
    run_says(ran.err, "Could not read the witness none");
    // the day after has no signature, and the later entries are told
    run_expect(&scratch, &ran, 0, "report --day 2026-04-01 --pdf r.pdf");
    shell(text, sizeof text, "pdftotext -raw r.pdf -");
    run_says(text, "Not signed yet. No signature covers the last 0 entries");
}

static void refuses(void **state) {
    static const struct {
        const char *arguments;
        int status;
        const char *words;
    } rows[] = {
        {"report", 2, "--pdf"},
        {"report --pdf r.pdf --from 2026-03-31", 2, "--from and --to"},
        {"report --pdf r.pdf --from 2026-03-31 --to 2026-03-30", 2, "lies before"},
        {"report --pdf r.pdf --day 2026-02-29", 2, "is no day"},
        {"report --pdf r.pdf --day 2026-03-31 --from 2026-03-31 --to 2026-03-31", 2, "one --day"},
        {"report --pdf r.pdf --paper a5", 2, "a4 or letter"},
        {"report --pdf r.pdf --witness w", 2, "belong together"},
        {"report --pdf none/r.pdf", 1, "none/r.pdf"},
        {"report --pdf r.pdf --db none.db", 1, "none.db"},
        {"report --pdf r.pdf --settings none.ini", 1, "none.ini"},
    };
    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        run_expect(&scratch, &ran, rows[i].status, rows[i].arguments);
        run_says(ran.err, rows[i].words);
    }
    assert_int_not_equal(access(scratch_path(&scratch, "r.pdf"), F_OK), 0);
}

#define STEP(name) cmocka_unit_test_setup_teardown(name, opened, closed)

int main(void) {
    const struct CMUnitTest tests[] = {
        STEP(numbers_are_the_logs),
        STEP(long_names_too),
        STEP(two_thousand_cuts),
        STEP(a_day_with_nothing),
        STEP(millimetres_and_days),
        STEP(a_signed_day),
        STEP(refuses),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
