// `kerfside tickets` by the real program: which tickets are printed, on what, and how they go to
// the printer. That the codes can be read, tests/paper shows.

#include "run.h"

#include "tickets.h"

#include <stdio.h>
#include <stdlib.h>
#include <sys/stat.h>

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

static bool is_there(const char *name) {
    struct stat there;
    return stat(scratch_path(&scratch, name), &there) == 0;
}

// The numbers of all tickets of a PDF, each with a blank behind.
static void numbers(const char *name, char buffer[1024]) {
    char command[400];
    char line[200];
    struct ticket ticket;
    snprintf(command, sizeof command, "pdftotext '%s' -", scratch_path(&scratch, name));
    FILE *pipe = popen(command, "r");
    assert_non_null(pipe);
    buffer[0] = '\0';
    while (fgets(line, sizeof line, pipe) != NULL) {
        const char *word = line[0] == '\f' ? line + 1 : line;
        if (ticket_parse(word, &ticket) == TICKET_OK) {
            strcat(strcat(buffer, ticket.text), " ");
        }
    }
    assert_int_equal(pclose(pipe), 0);
}

static void prints(const char *arguments, const char *tickets, const char *said) {
    char found[1024];
    run(&scratch, &ran, "tickets %s --on 62mm --pdf t.pdf", arguments);
    assert_string_equal(ran.err, "");
    assert_int_equal(ran.status, 0);
    assert_string_equal(ran.out, said);
    numbers("t.pdf", found);
    assert_string_equal(found, tickets);
    remove(scratch_path(&scratch, "t.pdf"));
}

// One page a ticket, in this order.
static void which_tickets(void **state) {
    (void)state;
    prints("1", "B-1T H-0001A S-0001S ", "t.pdf: 3 tickets on 3 pages of 62mm\n");
    prints("B-1T", "B-1T H-0001A S-0001S ", "t.pdf: 3 tickets on 3 pages of 62mm\n");
    prints("s-0001s H-0001A", "S-0001S H-0001A ", "t.pdf: 2 tickets on 2 pages of 62mm\n");
    prints("H-00028 S-0002Q", "H-00028 S-0002Q ", "t.pdf: 2 tickets on 2 pages of 62mm\n");
    prints("W-00029", "W-00029 ", "t.pdf: 1 ticket on 1 page of 62mm\n");
    prints("--workers", "W-0001B W-00029 ", "t.pdf: 2 tickets on 2 pages of 62mm\n");
    prints("--stock Rod,R", "S-0002Q S-0003O ", "t.pdf: 2 tickets on 2 pages of 62mm\n");
    run(&scratch, &ran, "tickets --commands --pdf t.pdf");
    assert_string_equal(ran.out, "t.pdf: 6 tickets on 1 page of a4\n");
}

// What the store knows stands on them.
static void words_of_the_parts(void **state) {
    char command[200];
    char text[4096];
    (void)state;
    run(&scratch, &ran, "tickets 1 W-0001B --stock Rod,R --pdf t.pdf");
    assert_int_equal(ran.status, 0);
    snprintf(command, sizeof command, "pdftotext '%s' -", scratch_path(&scratch, "t.pdf"));
    FILE *pipe = popen(command, "r");
    assert_non_null(pipe);
    text[fread(text, 1, sizeof text - 1, pipe)] = '\0';
    assert_int_equal(pclose(pipe), 0);
    static const char *const words[] = {
        "2 clubs: 3, 5", "Due 2026-03-01",   "Head, engraved 3",        "Measured 210 g",
        "Club 1-3",      "Rod, flex R",      "Shaft, raw 46 in, 110 g", "Rack A2",
        "Ada Quill",     "Badge, supervisor"};
    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++) {
        run_says(text, words[i]);
    }
}

static void who_was_withdrawn_has_no_badge(void **state) {
    (void)state;
    assert_int_equal(store_withdraw(scratch.store, "W-00029", "W-0001B"), STORE_OK);
    prints("--workers", "W-0001B ", "t.pdf: 1 ticket on 1 page of 62mm\n");
    run(&scratch, &ran, "tickets W-00029 --pdf t.pdf");
    assert_int_equal(ran.status, 1);
    assert_false(is_there("t.pdf"));
}

// --- wrong use and failures --------------------------------------------------------------------

static void what_is_not_there_is_said(void **state) {
    static const struct {
        const char *arguments;
        const char *words;
    } rows[] = {
        {"9", "there is nothing called 9. Name a build"},
        {"H-00036", "there is nothing called H-00036."},
        {"H-0001B", "there is nothing called H-0001B."}, // its check character is another
        {"K-NOPE5", "there is nothing called K-NOPE5."},
        {"1 S-0009Z", "there is nothing called S-0009Z."},
        {"--stock Rod,S", "no raw, unreserved shaft of Rod,S. Name model and flex"},
        {"--stock Rod", "no raw, unreserved shaft of Rod."},
    };
    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        run(&scratch, &ran, "tickets %s --pdf none.pdf", rows[i].arguments);
        assert_int_equal(ran.status, 1);
        run_says(ran.err, rows[i].words);
        assert_string_equal(ran.out, "");
        assert_false(is_there("none.pdf"));
    }
}

static void wrong_use_is_said(void **state) {
    static const struct {
        const char *arguments;
        const char *words;
    } rows[] = {
        {"1", "name the file with --pdf."},
        {"--pdf none.pdf", "name builds or tickets, or --workers"},
        {"1 --pdf none.pdf --on a5", "no paper is a5; it can be a4, letter, 63.5x38.1, 62mm or "
                                     "2.25x1.25."},
        {"1 --pdf none.pdf --from 0", "--from 0 is no place on a4; it has 21."},
        {"1 --pdf none.pdf --from 22", "--from 22 is no place"},
        {"1 --pdf none.pdf --from 3x", "--from 3x is no place"},
        {"1 --pdf none.pdf --on 62mm --from 2", "--from 2 is no place on 62mm; it has 1."},
        {"1 --pdf none.pdf --queue scratch", "--queue belongs to --print."},
    };
    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        run(&scratch, &ran, "tickets %s", rows[i].arguments);
        assert_int_equal(ran.status, 2);
        run_says(ran.err, rows[i].words);
        assert_false(is_there("none.pdf"));
    }
}

static void what_cannot_be_written_is_said(void **state) {
    (void)state;
    run(&scratch, &ran, "tickets 1 --pdf no/such/folder.pdf");
    assert_int_equal(ran.status, 1);
    run_says(ran.err,
             "kerfside tickets: Cannot write no/such/folder.pdf: No such file or directory.");
    setenv("KERFSIDE_ASSETS", "/nowhere", 1);
    run(&scratch, &ran, "tickets 1 --pdf none.pdf");
    unsetenv("KERFSIDE_ASSETS");
    assert_int_equal(ran.status, 1);
    run_says(ran.err, "/nowhere/fonts/B612-Regular.otf");
    assert_false(is_there("none.pdf"));
}

static void a_used_sheet(void **state) {
    (void)state;
    run(&scratch, &ran, "tickets 1 --pdf t.pdf --from 19");
    run_says(ran.out, "t.pdf: 3 tickets on 1 page of a4");
    run(&scratch, &ran, "tickets 1 --pdf t.pdf --from 20");
    run_says(ran.out, "t.pdf: 3 tickets on 2 pages of a4");
}

// --- printing ----------------------------------------------------------------------------------

// An `lp` that notes its arguments, one a line, says what CUPS says, and ends with this status.
static void stub_lp(int status) {
    char script[400];
    snprintf(
        script, sizeof script,
        "#!/bin/sh\nprintf '%%s\\n' \"$@\" >'%s/lp.txt'\necho request id is scratch-7\nexit %d\n",
        scratch.folder, status);
    mkdir(scratch_path(&scratch, "bin"), 0755);
    scratch_write(&scratch, "bin/lp", script);
    assert_int_equal(chmod(scratch_path(&scratch, "bin/lp"), 0755), 0);
}

static void lp_was_given(const char *arguments) {
    char text[1024] = "";
    FILE *file = fopen(scratch_path(&scratch, "lp.txt"), "re");
    assert_non_null(file);
    text[fread(text, 1, sizeof text - 1, file)] = '\0';
    fclose(file);
    assert_string_equal(text, arguments);
    remove(scratch_path(&scratch, "lp.txt"));
}

static void set_path(const char *folder, const char *after, char kept[4096]) {
    char path[8192];
    snprintf(kept, 4096, "%s", getenv("PATH"));
    snprintf(path, sizeof path, "%s%s", scratch_path(&scratch, folder), after);
    setenv("PATH", path, 1);
}

static void sends_it_unscaled(void **state) {
    char kept[4096];
    (void)state;
    stub_lp(0);
    set_path("bin", ":/usr/bin:/bin", kept);
    run(&scratch, &ran, "tickets 1 --pdf t.pdf --print");
    assert_int_equal(ran.status, 0);
    assert_string_equal(ran.out, "t.pdf: 3 tickets on 1 page of a4\nrequest id is scratch-7\n");
    lp_was_given("-o\nprint-scaling=none\n-o\nmedia=A4\n--\nt.pdf\n");
    run(&scratch, &ran, "tickets 1 --pdf 'a b;$x.pdf' --on 2.25x1.25 --print --queue 'saw 1'");
    assert_int_equal(ran.status, 0);
    lp_was_given("-o\nprint-scaling=none\n-o\nmedia=Custom.2.25x1.25in\n-d\nsaw 1\n--\n"
                 "a b;$x.pdf\n");
    run(&scratch, &ran, "tickets 1 --pdf t.pdf"); // only when asked to
    assert_false(is_there("lp.txt"));
    run(&scratch, &ran, "tickets 9 --pdf t.pdf --print"); // and when there is something
    assert_int_equal(ran.status, 1);
    assert_false(is_there("lp.txt"));
    setenv("PATH", kept, 1);
}

static void a_printer_that_refuses(void **state) {
    char kept[4096];
    (void)state;
    stub_lp(1);
    set_path("bin", ":/usr/bin:/bin", kept);
    run(&scratch, &ran, "tickets 1 --pdf t.pdf --print");
    setenv("PATH", kept, 1);
    assert_int_equal(ran.status, 1);
    run_says(ran.err, "kerfside tickets: lp did not take t.pdf.");
    assert_true(is_there("t.pdf"));
}

static void no_lp_at_all(void **state) {
    char kept[4096];
    (void)state;
    mkdir(scratch_path(&scratch, "empty"), 0755);
    set_path("empty", "", kept);
    run(&scratch, &ran, "tickets 1 --pdf t.pdf --print");
    setenv("PATH", kept, 1);
    assert_int_equal(ran.status, 1);
    run_says(ran.err, "There is no lp here to print with (package cups-client). Print t.pdf with "
                      "another program, at 100 %.");
    assert_true(is_there("t.pdf"));
}

// --- for the bench -----------------------------------------------------------------------------

static void a_build_at_once(void **state) {
    const struct ticket_stock *stock = ticket_stock_named("62mm");
    char message[256] = "";
    char found[1024];
    (void)state;
    assert_int_equal(tickets_build(scratch.store, "1", scratch_path(&scratch, "b.pdf"), stock,
                                   message, sizeof message),
                     STORE_OK);
    numbers("b.pdf", found);
    assert_string_equal(found, "B-1T H-0001A S-0001S ");
    assert_int_equal(tickets_build(scratch.store, "9", scratch_path(&scratch, "n.pdf"), stock,
                                   message, sizeof message),
                     STORE_NONE);
    assert_string_equal(message, "There are no tickets for a build 9.");
    assert_int_equal(tickets_build(scratch.store, "1", scratch_path(&scratch, "no/n.pdf"), stock,
                                   message, sizeof message),
                     STORE_FAILED);
    run_says(message, "no/n.pdf: No such file or directory.");
}

// B-168 would have the check character `*`, so no ticket can carry it: the parts have theirs, and a
// build with none of those has nothing.
static void a_build_without_a_ticket_of_its_own(void **state) {
    static const char header[] = "build,club,due,head,shaft,playing_length,grip_cap,grip_weight_g,"
                                 "swingweight,step,uniform_flex\n";
    char rows[400];
    (void)state;
    snprintf(rows, sizeof rows, "%s168,3,,H-00028,,43,1/8,50,,,\n176,3,,,,43,1/8,50,,,\n", header);
    if (scratch_import_text(&scratch, "builds.csv", rows) != STORE_OK) {
        fail_msg("%s", scratch.messages);
    }
    prints("168", "H-00028 ", "t.pdf: 1 ticket on 1 page of 62mm\n");
    run(&scratch, &ran, "tickets 176 --pdf none.pdf");
    assert_int_equal(ran.status, 1);
    run_says(ran.err, "there is nothing to print.");
    assert_false(is_there("none.pdf"));
}

// More names than fit 160 bytes are counted: twelve take 9 x 11 + 3 x 12 + 11 x 2 = 157.
static void a_build_of_thirty(void **state) {
    struct tickets tickets = {0};
    char rows[8192] = "build,club,due,head,shaft,playing_length,grip_cap,grip_weight_g,"
                      "swingweight,step,uniform_flex\n";
    (void)state;
    for (int i = 1; i <= 30; i++) {
        snprintf(rows + strlen(rows), sizeof rows - strlen(rows),
                 "30,long club %d,2026-%02d-01,,,43,1/8,50,,,\n", i, 12 - i % 9);
    }
    assert_int_equal(scratch_import_text(&scratch, "builds.csv", rows), STORE_OK);
    assert_int_equal(tickets_add_build(&tickets, scratch.store, "30"), STORE_OK);
    assert_int_equal(tickets.count, 1);
    assert_string_equal(tickets.label[0].words[0], "Build 30");
    run_says(tickets.label[0].words[1], "30 clubs: long club 1, long club 2, ");
    run_says(tickets.label[0].words[1], ", long club 12 and 18 more");
    assert_string_equal(tickets.label[0].words[2], "Due 2026-04-01"); // the first of them
    tickets_release(&tickets);
    assert_null(tickets.label);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(which_tickets),
        cmocka_unit_test(words_of_the_parts),
        cmocka_unit_test(what_is_not_there_is_said),
        cmocka_unit_test(wrong_use_is_said),
        cmocka_unit_test(what_cannot_be_written_is_said),
        cmocka_unit_test(a_used_sheet),
        cmocka_unit_test(sends_it_unscaled),
        cmocka_unit_test(a_printer_that_refuses),
        cmocka_unit_test(no_lp_at_all),
        cmocka_unit_test(a_build_at_once),
        cmocka_unit_test(a_build_without_a_ticket_of_its_own),
        cmocka_unit_test(a_build_of_thirty),
        cmocka_unit_test(who_was_withdrawn_has_no_badge),
    };
    return cmocka_run_group_tests(tests, workshop, release);
}
