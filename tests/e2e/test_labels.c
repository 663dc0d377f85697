// Labels at once: the real program makes them beside the bench, and a made-up `lp` is the printer.

#include "bench.h"
#include "scratch.h"

#include <dirent.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

#define SECOND_US ((int64_t)1000000)

static struct scratch scratch;
static struct bench_settings settings;
static struct bench bench;
static char message[VIEW_TEXT_MAX];
static char path_before[4096];

static int set_up(void **state) {
    char path[4200];
    (void)state;
    scratch_init(&scratch);
    scratch_import_workshop(&scratch);
    settings = bench_settings_default();
    bench = (struct bench){
        .settings = &settings, .store = scratch.store, .clock = bench_clock_simulated()};
    bench_clock_set(&bench.clock, "2026-03-31T08:15");
    bench_labels_init(&bench, KERFSIDE_PROGRAM);
    snprintf(path_before, sizeof path_before, "%s", getenv("PATH"));
    snprintf(path, sizeof path, "%s:%s", scratch.folder, path_before);
    setenv("PATH", path, 1);
    return 0;
}

static int tear_down(void **state) {
    (void)state;
    bench_labels_stop(&bench);
    setenv("PATH", path_before, 1);
    scratch_release(&scratch);
    return 0;
}

static void printer(const char *script) {
    char text[1024];
    snprintf(text, sizeof text, "#!/bin/sh\ncd '%s'\n%s", scratch.folder, script);
    scratch_write(&scratch, "lp", text);
    assert_int_equal(chmod(scratch_path(&scratch, "lp"), 0700), 0);
}

static void print(const char *const *tickets, size_t count, const char *said) {
    assert_true(bench_print_labels(&bench, tickets, count, message));
    assert_string_equal(message, said);
}

static void wait_a_moment(void) {
    struct timespec moment = {.tv_nsec = 20000000};
    nanosleep(&moment, NULL);
}

static void until_ended(const char *words) {
    for (int i = 0; i < 1000 && bench.labels.child.pid != 0; i++) {
        assert_in_range(bench_labels_patience(&bench), 1, SECOND_US);
        wait_a_moment();
        bench_labels_tick(&bench);
    }
    assert_int_equal(bench.labels.child.pid, 0);
    assert_string_equal(bench.labels.words, words);
    assert_int_equal(bench_labels_patience(&bench), -1);
    assert_false(bench_labels_tick(&bench));
}

static bool is_there(const char *name) {
    struct stat there;
    return stat(scratch_path(&scratch, name), &there) == 0;
}

// The text of a file or of what a program says.
static void read_text(FILE *stream, char text[4096]) {
    assert_non_null(stream);
    text[fread(text, 1, 4095, stream)] = '\0';
}

static void shows(const char *pdf, const char *words) {
    char command[300];
    char text[4096];
    snprintf(command, sizeof command, "pdftotext '%s' -", scratch_path(&scratch, pdf));
    FILE *pipe = popen(command, "re");
    read_text(pipe, text);
    assert_int_equal(pclose(pipe), 0);
    if (strstr(text, words) == NULL) {
        fail_msg("%s does not show %s: %s", pdf, words, text);
    }
}

static void lp_was_told(const char *words) {
    char text[4096];
    FILE *file = fopen(scratch_path(&scratch, "told"), "re");
    read_text(file, text);
    fclose(file);
    if (strstr(text, words) == NULL) {
        fail_msg("lp was not told %s but %s", words, text);
    }
}

static const char *const head[] = {"h-0001a"};
static const char *const both[] = {"H-0001A", "S-0001S"};

static void a_file_without_a_printer(void **state) {
    (void)state;
    printer("touch told\n");
    print(head, 1, "1 label being made.");
    until_ended("1 label in labels-2026-03-31.pdf, beside the database.");
    assert_false(bench.labels.failed);
    shows("labels-2026-03-31.pdf", "H-0001A");
    print(both, 2, "2 labels being made.");
    until_ended("2 labels in labels-2026-03-31-2.pdf, beside the database.");
    shows("labels-2026-03-31-2.pdf", "S-0001S");
    shows("labels-2026-03-31.pdf", "H-0001A"); // still there
    assert_false(is_there("told"));
}

static void to_the_printer(void **state) {
    (void)state;
    settings.labels_print = true;
    settings.labels_stock = ticket_stock_named("62mm");
    printer("echo \"$@\" >told; for last; do :; done; cp \"$last\" got.pdf\n");
    print(both, 2, "2 labels on the way to the printer.");
    until_ended("2 labels sent to the printer.");
    assert_false(bench.labels.failed);
    lp_was_told("-o print-scaling=none -o media=Custom.62x36mm -- ");
    shows("got.pdf", "S-0001S");
    assert_false(is_there("labels-2026-03-31.pdf")); // the printer has it
    strcpy(settings.labels_queue, "Bench_2");
    print(head, 1, "1 label on the way to the printer.");
    until_ended("1 label sent to the printer.");
    lp_was_told("-d Bench_2");
}

static void what_the_printer_says(void **state) {
    (void)state;
    settings.labels_print = true;
    printer("echo 'lp: Error - The printer or class does not exist.' >&2; exit 1\n");
    print(head, 1, "1 label on the way to the printer.");
    until_ended("Not printed: Error - The printer or class does not exist. The file: "
                "labels-2026-03-31.pdf");
    assert_true(bench.labels.failed);
    shows("labels-2026-03-31.pdf", "H-0001A"); // to be printed by hand
    printer("exit 0\n");
    print(head, 1, "1 label on the way to the printer.");
    until_ended("1 label sent to the printer.");
    assert_false(bench.labels.failed);
}

static void no_lp_at_all(void **state) {
    (void)state;
    settings.labels_print = true;
    setenv("PATH", scratch.folder, 1);
    print(head, 1, "1 label on the way to the printer.");
    until_ended("Not printed: There is no lp here to print with (package cups-client). The "
                "file: labels-2026-03-31.pdf");
}

// The bench goes on; what comes meanwhile waits and is printed together.
static void a_slow_printer(void **state) {
    (void)state;
    settings.labels_print = true;
    printer("while [ ! -e go ]; do sleep 0.02; done; echo >>told; for last; do :; done\n"
            "cp \"$last\" got.pdf\n");
    print(head, 1, "1 label on the way to the printer.");
    for (int i = 0; i < BENCH_LABELS_MAX / 2; i++) {
        print(both, 2, "2 labels on the way to the printer.");
    }
    assert_false(bench_print_labels(&bench, head, 1, message));
    assert_string_equal(message,
                        "Not printed: too many labels wait for the printer. Try again when "
                        "it has printed.");
    scratch_write(&scratch, "go", "");
    until_ended("64 labels sent to the printer.");
    lp_was_told("\n\n"); // twice
}

static void a_printer_that_hangs(void **state) {
    char text[4096];
    (void)state;
    settings.labels_print = true;
    printer("echo $$ >told; exec sleep 600\n");
    print(head, 1, "1 label on the way to the printer.");
    for (int i = 0; i < 1000 && !is_there("told"); i++) {
        wait_a_moment();
    }
    bench_clock_pass(&bench.clock, 59 * SECOND_US);
    assert_false(bench_labels_tick(&bench));
    bench_clock_pass(&bench.clock, SECOND_US);
    assert_true(bench_labels_tick(&bench));
    assert_string_equal(bench.labels.words, "Not printed: the printer does not answer. The file: "
                                            "labels-2026-03-31.pdf");
    // lp has ended with it: nothing is printed when nobody expects it any more.
    FILE *file = fopen(scratch_path(&scratch, "told"), "re");
    read_text(file, text);
    fclose(file);
    snprintf(message, sizeof message, "/proc/%ld/exe", strtol(text, NULL, 10));
    for (int i = 0; i < 250 && access(message, F_OK) == 0; i++) {
        wait_a_moment(); // it is told to at once, and does so when it gets a processor
    }
    assert_int_equal(access(message, F_OK), -1);
}

static void what_is_no_label(void **state) {
    (void)state;
    static const char *const no_ticket[] = {"H-0001A", "--workers"};
    static const char *const nobody[] = {"H-00036"};
    assert_false(bench_print_labels(&bench, no_ticket, 2, message));
    assert_string_equal(message, "Not printed: --workers is no ticket.");
    assert_int_equal(bench.labels.child.pid, 0);
    print(nobody, 1, "1 label being made.");
    until_ended("Not printed: there is nothing called H-00036. Name a build, as 2041, or a whole "
                "ticket, as H-0001A.");
    assert_false(is_there("labels-2026-03-31.pdf")); // not an empty one
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(a_file_without_a_printer, set_up, tear_down),
        cmocka_unit_test_setup_teardown(to_the_printer, set_up, tear_down),
        cmocka_unit_test_setup_teardown(what_the_printer_says, set_up, tear_down),
        cmocka_unit_test_setup_teardown(no_lp_at_all, set_up, tear_down),
        cmocka_unit_test_setup_teardown(a_slow_printer, set_up, tear_down),
        cmocka_unit_test_setup_teardown(a_printer_that_hangs, set_up, tear_down),
        cmocka_unit_test_setup_teardown(what_is_no_label, set_up, tear_down),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
