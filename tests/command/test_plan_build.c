// Estimates, whole builds and the worksheet, by the real program over the demo workshop.

#include "run.h"

#include <stdio.h>
#include <stdlib.h>
#include <sys/stat.h>

static struct scratch scratch;
static struct ran ran;

static int demo(void **state) {
    (void)state;
    scratch_init(&scratch);
    run(&scratch, &ran, "demo --db demo.db");
    assert_int_equal(ran.status, 0);
    return 0;
}

static int release(void **state) {
    (void)state;
    scratch_release(&scratch);
    return 0;
}

// The example of the README, by hand: 1.4 g an inch of shaft, 42 3/4 in of it are 59.85 g around
// 21 1/2 in from the butt end; head 210 g at the ground line, 44 in; ferrule and epoxy 5 g at
// 42 7/8 in; grip 50 g at 4 in. 210 x 30 + 5 x 28.875 + 59.85 x 7.5 - 50 x 10 = 6393.25 g in =
// 225.52 in oz = D6.9. For D5, 222.25, that is 3.27 in oz less: 92.57 g in over 30 in is 3.1 g.
static void the_readme_by_hand(void **state) {
    (void)state;
    scratch_write(&scratch, "t_shaft_models.csv",
                  "model,material,tip,tip_diameter,butt_diameter,raw_length,weight_g,tip_section,"
                  "max_tip_trim,max_butt_trim,bore_note,bore_reference,bore_note_kinds\n"
                  "Whole,graphite,parallel,0.335,,46,65,8,5,,add_height,,\n");
    scratch_write(&scratch, "t_charts.csv",
                  "model,flex,kind,column,column_weight_g,tip_trim\n"
                  "Whole,S,wood,1,200,1\nWhole,S,wood,3,210,1 1/2\nWhole,S,wood,5,220,2\n");
    scratch_write(&scratch, "t_head_models.csv",
                  "model,kind,engraved,weight_g,hosel_bore,insertion,bore_height,loft,lie\n"
                  "Three,fairway,1,210,0.335,1 1/2,,,\n");
    scratch_write(&scratch, "t_heads.csv",
                  "ticket,model,weight_g,dry_fit_overall,dry_fit_raw,bore_height\n"
                  "H-00010J,Three,210,47 1/8,46,\n");
    scratch_write(&scratch, "t_shafts.csv",
                  "ticket,model,flex,raw_length,weight_g,rack\n"
                  "S-00010I,Whole,S,46,64.4,\n");
    scratch_write(
        &scratch, "t_builds.csv",
        "build,club,due,head,shaft,playing_length,grip_cap,grip_weight_g,swingweight,step,"
        "uniform_flex\n7,3,,H-00010J,S-00010I,44,1/8,50,D5,,\n");
    if (scratch_import(&scratch, "t_builds.csv", "t_shafts.csv", "t_heads.csv", "t_head_models.csv",
                       "t_charts.csv", "t_shaft_models.csv", NULL) != STORE_OK) {
        fail_msg("%s", scratch.messages);
    }
    run(&scratch, &ran, "plan 7-3 --moments");
    assert_int_equal(ran.status, 0);
    run_says(ran.out,
             "\n  Cut off, from the tip end                                              2 5/8 in");
    run_says(ran.out,
             "\n  Swingweight, 225.52 in oz; wished D5                                    D6.9\n");
    run_says(ran.out, "\n  To reach D5: 3.1 g less at the head, or ");
    run_says(ran.out, "  Head                210.00 g  at  44.000 in    30.000 in ");
    run_says(ran.out, "  Shaft, cut           59.85 g  at  21.500 in     7.500 in ");
    run_says(ran.out, "  Ferrule and epoxy     5.00 g  at  42.875 in    28.875 in ");
    run_says(ran.out, "a point 1.75 in oz                            225.52 in oz\n");
    run_says(ran.out, "  Frequency not known: stiffness of the shaft not known\n");
    run_says(ran.out, "  The shaft's balance point is not known: taken as even.\n");
    run_says(ran.out, "  The head's centre of gravity is not known: taken at the ground line.\n");
    run(&scratch, &ran, "plan 7-3 --csv");
    run_says(ran.out, ",D6.9,225.515,");
    run_says(ran.out,
             ",,\"frequency: stiffness of the shaft not known; shaft balance point: not known, "
             "taken as even; head centre of gravity: not known, taken at the ground line\"\r\n");
    // Without ferrule and epoxy: 210 x 30 + 448.875 - 500 = 6248.875 g in = 220.42 in oz.
    run(&scratch, &ran, "plan 7-3 --ferrule 0 --epoxy=0");
    run_says(ran.out, "Swingweight, 220.42 in oz");
    assert_null(strstr(ran.out, "Moments about"));
}

// The bench's settings hold for the plan as well, named or from the environment; options win over
// them. 7 g more than 5 at 28.875 in of the README's club are 7.13 in oz: 232.65, and 10 g less
// than those 12 are 222.46.
static void the_settings_of_the_bench(void **state) {
    (void)state;
    scratch_write(&scratch, "saw.ini", "[bench]\nmark_step = 1 mm\n[assembly]\nepoxy_g = 10\n");
    run(&scratch, &ran, "plan 7-3 --settings saw.ini");
    assert_int_equal(ran.status, 0);
    run_says(ran.out, "Swingweight, 232.65 in oz");
    run(&scratch, &ran, "plan 7-3 --json --settings=saw.ini");
    run_says(ran.out, "\"mark_step\":0.039370079,");
    run(&scratch, &ran, "plan 7-3 --settings saw.ini --epoxy 0 --mark-step 1/64");
    run_says(ran.out, "Swingweight, 222.46 in oz");
    run(&scratch, &ran, "plan 7-3 --json --settings saw.ini --mark-step 1/64");
    run_says(ran.out, "\"mark_step\":0.015625,");
    assert_int_equal(setenv("KERFSIDE_SETTINGS", "saw.ini", 1), 0);
    run(&scratch, &ran, "plan 7-3");
    run_says(ran.out, "Swingweight, 232.65 in oz");
    scratch_write(&scratch, "other.ini", "[assembly]\nferrule_g = 0\n");
    run(&scratch, &ran, "plan 7-3 --settings other.ini"); // named, it goes before the environment's
    run_says(ran.out, "Swingweight, 223.48 in oz");
    assert_int_equal(unsetenv("KERFSIDE_SETTINGS"), 0);
    run(&scratch, &ran, "plan 7-3 --settings none.ini");
    assert_int_equal(ran.status, 1);
    assert_string_equal(
        ran.err, "kerfside plan: cannot read the settings none.ini: No such file or directory.\n");
    scratch_write(&scratch, "saw.ini", "[bench]\nmark_step = 1/3\n");
    run(&scratch, &ran, "plan 7-3 --settings saw.ini");
    assert_int_equal(ran.status, 1);
    assert_string_equal(ran.out, "");
    run_says(ran.err, "saw.ini:2: mark_step = 1/3: must be ");
}

// Uniform flex says what it buys, a step what it does.
static void corrections_say_what_they_buy(void **state) {
    (void)state;
    run(&scratch, &ran, "plan 2042-3H --db demo.db");
    run_says(ran.out,
             "\n  Without the uniform flex correction: about 1.4 cpm stiffer (estimate)\n");
    run(&scratch, &ran, "plan 2046-5H --db demo.db");
    run_says(ran.out, "\n  Without the step: about ");
    run_says(ran.out, " cpm softer (estimate)\n");
}

static void what_is_not_known_is_said(void **state) {
    (void)state;
    run(&scratch, &ran, "plan 2044-3 --csv --db demo.db");
    run_says(ran.out, ",frequency: stiffness of the shaft not known\r\n");
    run(&scratch, &ran, "plan 2050-3 --json --db demo.db");
    run_says(ran.out,
             "\"weight_g\":null,\"swingweight\":null,\"swingweight_in_oz\":null,"
             "\"inertia_kg_cm2\":null,\"frequency_cpm\":null,"
             "\"estimate_gaps\":[\"estimates: no valid plan\"],\"extension\":null,\"proud\":null}");
}

static size_t count_of(const char *text, const char *words) {
    size_t count = 0;
    for (const char *at = strstr(text, words); at != NULL; at = strstr(at + 1, words)) {
        count++;
    }
    return count;
}

static void a_build_is_shown_as_a_set(void **state) {
    char *ticketed;
    (void)state;
    run(&scratch, &ran, "plan 2041 --db demo.db");
    assert_int_equal(ran.status, 0);
    assert_int_equal(count_of(ran.out, "Build 2041, club "), 4);
    run_says(ran.out,
             "\nSet 2041, planned (measured); weight, swingweight and frequency are estimates\n");
    run_says(ran.out, "\n  1                           45.000 ");
    run_says(ran.out, "\n  line, per club              -1.000 ");
    run_says(ran.out, "\n  Club 1: length 1.00 in above the line of the others\n");
    ticketed = strdup(ran.out);
    assert_non_null(ticketed);
    run(&scratch, &ran, "plan B-20416 --db demo.db");
    assert_string_equal(ran.out, ticketed);
    free(ticketed);
    run(&scratch, &ran, "plan 2042 --db demo.db");
    run_says(ran.out, "\n  No club stands out.\n"); // hybrids and irons are no line
}

// A refused club keeps its row, and the build is shown.
static void a_build_with_refused_clubs(void **state) {
    (void)state;
    run(&scratch, &ran, "plan 2045 --db demo.db");
    assert_int_equal(ran.status, 0);
    run_says(ran.out, "No plan: The shaft is too short by 1/8 in.");
    run_says(ran.out,
             "\n  7                        not known          not known          not known ");
    run(&scratch, &ran, "plan 2045 --json --db demo.db");
    assert_int_equal(ran.out[0], '[');
    assert_int_equal(count_of(ran.out, "{\"build\":\"2045\""), 6);
    run(&scratch, &ran, "plan 2045 --csv --db demo.db");
    assert_int_equal(count_of(ran.out, "\n2045,"), 6);
}

static void read_pdf(const char *program, const char *name, char text[SCRATCH_TEXT_MAX]) {
    char command[256];
    snprintf(command, sizeof command, "%s '%s' %s", program, scratch_path(&scratch, name),
             strcmp(program, "pdfinfo") == 0 ? "" : "-");
    FILE *pipe = popen(command, "r");
    assert_non_null(pipe);
    text[fread(text, 1, SCRATCH_TEXT_MAX - 1, pipe)] = '\0';
    assert_int_equal(pclose(pipe), 0);
}

// Every mark of the build's own plan is on the sheet.
static void a_worksheet(void **state) {
    static char text[SCRATCH_TEXT_MAX];
    static const char *const words[] = {"Build 2042",
                                        "8 clubs",
                                        "Saw 2",
                                        "H-00052",
                                        "235.6 g",
                                        "S-0005K",
                                        "rack B1",
                                        "39.625 in",
                                        "1006.5 mm",
                                        "0.250 in",
                                        "6.4 mm",
                                        "D6.2",
                                        "wish D1",
                                        "262",
                                        "2.938 in",
                                        "74.6 mm",
                                        "35.438 in",
                                        "900.1 mm",
                                        "Ullock Straight 115 R for hybrid",
                                        "Kerfside controls no machine"};
    (void)state;
    run(&scratch, &ran, "plan 2042 --pdf set.pdf --bench 'Saw 2' --db demo.db");
    assert_string_equal(ran.err, "");
    assert_int_equal(ran.status, 0);
    assert_string_equal(ran.out, "set.pdf: 8 clubs\n");
    read_pdf("pdfinfo", "set.pdf", text);
    run_says(text, "\nPages:           1\n");
    run_says(text, "(A4)");
    read_pdf("pdftotext -raw", "set.pdf", text);
    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++) {
        run_says(text, words[i]);
    }
    run(&scratch, &ran, "plan B-20416 --pdf set.pdf --paper letter --db demo.db");
    assert_int_equal(ran.status, 0);
    read_pdf("pdfinfo", "set.pdf", text);
    run_says(text, "(letter)");
}

static void what_cannot_be_done_is_said(void **state) {
    struct stat there;
    (void)state;
    run(&scratch, &ran, "plan 2042 --pdf /dev/full --db demo.db");
    assert_int_equal(ran.status, 1);
    assert_string_equal(ran.err,
                        "kerfside plan: Cannot write /dev/full: No space left on device.\n");
    assert_string_equal(ran.out, "");
    run(&scratch, &ran, "plan 9999 --db demo.db");
    assert_int_equal(ran.status, 1);
    run_says(ran.err, "there is no build 9999.");
    run(&scratch, &ran, "plan 9999 --pdf none.pdf --db demo.db");
    assert_int_equal(ran.status, 1);
    run_says(ran.err, "there is no build 9999.");
    assert_int_not_equal(stat(scratch_path(&scratch, "none.pdf"), &there), 0);
    static const char *const usage[] = {
        "plan 2042-5 --pdf x.pdf",     "plan --all --pdf x.pdf",
        "plan 2042 --pdf x.pdf --csv", "plan 2042 --pdf x.pdf --paper a5",
        "plan 2042 --ferrule heavy",   "plan 2042 --epoxy 51",
        "plan 2042 --json --csv",      "plan"};
    for (size_t i = 0; i < sizeof usage / sizeof usage[0]; i++) {
        run(&scratch, &ran, "%s --db demo.db", usage[i]);
        assert_int_equal(ran.status, 2);
        assert_string_equal(ran.out, "");
        run_says(ran.err, "kerfside plan: ");
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_readme_by_hand),
        cmocka_unit_test(the_settings_of_the_bench),
        cmocka_unit_test(corrections_say_what_they_buy),
        cmocka_unit_test(what_is_not_known_is_said),
        cmocka_unit_test(a_build_is_shown_as_a_set),
        cmocka_unit_test(a_build_with_refused_clubs),
        cmocka_unit_test(a_worksheet),
        cmocka_unit_test(what_cannot_be_done_is_said),
    };
    return cmocka_run_group_tests(tests, demo, release);
}
