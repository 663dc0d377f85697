// `kerfside plan` over the demo workshop and over the trade's check values, by the real program.

#include "run.h"

#include "plan.h"

#include <stdio.h>
#include <stdlib.h>
#include <unistd.h>

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

// Worked out by hand from db/demo with the rules in DEVELOPERS.md; inches.
static const struct {
    const char *row; // build to butt_trim
    const char *why;
} by_hand[] = {
    {"2041,1,3,0.5,0.5,43.375,43.375,2.25,",
     "210 g is column 3 whatever is engraved: 1/2; 45 - 1 1/2 - 1/8; 46 1/8 - 1/2 - 43 3/8"},
    {"2041,5,3,0.5,0.5,40.75,40.75,4.6875,",
     "215 g lies between 210 and 220: the lighter; 42 - 1 1/8 - 1/8; 45 15/16 - 1/2 - 40 3/4"},
    {"2041,7,7,1.5,1.5,39.75,39.75,4.75,",
     "dry fit 47 1/8 - 46 = 1 1/8; 41 - 1 1/8 - 1/8; 46 - 1 1/2 - 39 3/4"},
    {"2042,3H,3,0.25,0.25,39.625,39.625,1.125,",
     "1/2, and 3/4 of bore against the irons' 1: 1/4 less; 40 1/2 - 3/4 - 1/8; 41 - 1/4 - 39 5/8"},
    {"2042,8,8,2.9375,2.9375,35.4375,35.4375,2.625,",
     "1041.4 mm = 41; 3 - 1/16; 36 1/2 - 15/16 - 1/8; 41 - 2 15/16 - 35 7/16"},
    {"2044,1,1,1.25,1.25,46.875,46.875,1.875,",
     "the chart wants the whole bore: 0 + 1 1/4; 48 1/4 - 1 1/4 - 1/8; 50 - 1 1/4 - 46 7/8"},
    {"2044,3,3,0,0,41.75,41.75,2.25,",
     "0 + 1 1/8 - 1 1/2 is below 0; 43 - 1 1/8 - 1/8; 44 - 0 - 41 3/4"},
    {"2044,5,5,0.125,0.125,40.75,40.75,3.125,",
     "1/2 + 1 1/8 - 1 1/2; 42 - 1 1/8 - 1/8; 44 - 1/8 - 40 3/4"},
    {"2044,7,7,1,1,41.125,41.125,1.8125,",
     "bored through: the note spares it; 41 - 0 - 1/8 + 1/4 to be ground off; "
     "43 15/16 - 1 - 41 1/8"},
    {"2046,3S,1,0,0,41.75,41.75,4.25,", "one softer than column 3 is column 1: 0"},
    {"2046,5H,7,1.5,1.5,40.75,40.75,3.75,", "one harder than column 5 is column 7: 1 1/2"},
    {"2049,3H,3,0.25,0.25,39.625,39.625,1.125,", "1/2 + 3/4 - 1, a note for hybrids"},
    {"2049,7,7,2.5,2.5,35.875,35.875,2.625,", "the same chart's note leaves the iron alone"},
    {"2048,7,7,2.5,2.5,16.875,16.875,21.625,", "18 - 1 - 1/8; 41 - 2 1/2 - 16 7/8"},
};

static void the_demo_comes_out_as_by_hand(void **state) {
    (void)state;
    run(&scratch, &ran, "plan --all --csv --db demo.db");
    assert_int_equal(ran.status, 0);
    assert_string_equal(ran.err, "");
    assert_ptr_equal(strstr(ran.out, "build,club,column,tip_trim,tip_mark,finished_length,"
                                     "butt_mark,butt_trim,warnings,refusal,reasons,weight_g,"
                                     "swingweight,swingweight_in_oz,inertia_kg_cm2,frequency_cpm,"
                                     "estimate_gaps\r\n"),
                     ran.out);
    for (size_t i = 0; i < sizeof by_hand / sizeof by_hand[0]; i++) {
        char line[128];
        snprintf(line, sizeof line, "\n%s", by_hand[i].row);
        if (strstr(ran.out, line) == NULL) {
            fail_msg("no %s (%s) in\n%s", by_hand[i].row, by_hand[i].why, ran.out);
        }
    }
}

// 1/2 in is 12.7 mm: the mark is 13 mm. 43 3/8 in is 1101.725 mm: 1102 mm. Exact figures stay:
// 46 1/8 in = 1171.575 mm, less 13 less 1101.725 is 56.85 mm = 2.238188976 in.
static void marks_follow_the_step(void **state) {
    (void)state;
    run(&scratch, &ran, "plan 2041-1 --csv --mark-step '1 mm' --db demo.db");
    assert_non_null(strstr(ran.out, "\n2041,1,3,0.5,0.511811024,43.375,43.385826772,2.238188976,"));
}

static void a_refused_plan_has_a_reason_and_no_numbers(void **state) {
    (void)state;
    run(&scratch, &ran, "plan 2043-5 --csv --db demo.db");
    assert_int_equal(ran.status, 1);
    assert_non_null(strstr(ran.out, "\n2043,5,,,,,,,,The bore height of this head is not known. "
                                    "Dry-fit and measure it.,,,,,,,estimates: no valid plan\r\n"));
    run(&scratch, &ran, "plan 2045-7 --db demo.db");
    assert_int_equal(ran.status, 1);
    assert_non_null(strstr(ran.out, "No plan: The shaft is too short by 1/8 in."));
    assert_null(strstr(ran.out, "Cut off"));
}

static void json_carries_the_whole_plan(void **state) {
    (void)state;
    run(&scratch, &ran, "plan B-20416-3H --json --db demo.db");
    assert_int_equal(ran.status, 1); // build 2041 has none
    run(&scratch, &ran, "plan 2042-3H --json --db demo.db");
    assert_int_equal(ran.status, 0);
    assert_string_equal(
        ran.out,
        "{\"build\":\"2042\",\"club\":\"3H\",\"stage\":\"pending\",\"head\":\"H-00052\","
        "\"shaft\":\"S-0005K\",\"model_revision\":1,\"chart_revision\":1,\"mark_step\":0.0625,"
        "\"column\":\"3\",\"tip_trim\":0.25,\"tip_mark\":0.25,\"finished_length\":39.625,"
        "\"butt_mark\":39.625,\"butt_trim\":1.125,\"butt_cut\":true,\"reasons\":["
        "{\"code\":\"R_COLUMN\",\"amount\":0.5,\"text\":\"Chart, column 3 (235 g)\"},"
        "{\"code\":\"R_BORE_NONE\",\"amount\":0,\"text\":\"Bore 3/4 in, chart adds nothing\"},"
        "{\"code\":\"R_UNIFORM\",\"amount\":-0.25,"
        "\"text\":\"Uniform flex, bore 3/4 in against 1 in\"}],"
        "\"warnings\":[],\"refusal\":null,\"weight_g\":401.3,\"swingweight\":\"D6.2\","
        "\"swingweight_in_oz\":224.379,\"inertia_kg_cm2\":2887.8,\"frequency_cpm\":261.7,"
        "\"estimate_gaps\":[],\"extension\":0,\"proud\":0}\n");
    run(&scratch, &ran, "plan b-20416-1 --json --db demo.db");
    assert_int_equal(ran.status, 0);
    assert_non_null(strstr(ran.out, "\"warnings\":[{\"code\":\"W_NOT_ENGRAVED\",\"text\":"));
}

static void the_receipt_adds_up(void **state) {
    (void)state;
    run(&scratch, &ran, "plan 2044-5 --db demo.db");
    assert_int_equal(ran.status, 0);
    static const char *const lines[] = {
        "Build 2044, club 5 (3 of 5), due ",
        "\n  Chart, column 5 (220 g)                                                  1/2\n",
        "\n  Bore 1 1/8 in, chart is written for 1 1/2 in                            -3/8\n",
        "\n  Cut off, from the tip end                                                1/8 in   "
        "0.125 in   3.2 mm\n",
        "\n  Playing length                                                            42\n",
        "\n  Bore height                                                           -1 1/8\n",
        "\n  Grip cap                                                                -1/8\n",
        "\n  Keep, from the new tip end                                            40 3/4 in   "
        "40.750 in   1035.1 mm\n",
        "less finished length               3 1/8\n"};
    for (size_t i = 0; i < sizeof lines / sizeof lines[0]; i++) {
        if (strstr(ran.out, lines[i]) == NULL) {
            fail_msg("no \"%s\" in\n%s", lines[i], ran.out);
        }
    }
}

// What a plan of clubs nobody has begun can say, and orders can bring about. Not among them:
// what needs a supervisor (R_COLUMN_PICKED, W_SHIM, F_PICK_UNKNOWN) or a tip already cut
// (R_TIP_MADE, W_TIP_OFF_PLAN); what import refuses (F_BORE_RANGE, F_NOTHING_LEFT); and
// F_NO_UNIFORM_REFERENCE, for a club that has a bore height is its own set.
static const enum plan_code met[] = {
    PLAN_R_COLUMN,           PLAN_R_STEP,
    PLAN_R_BORE_ADD,         PLAN_R_BORE_REFERENCE,
    PLAN_R_BORE_NONE,        PLAN_R_UNIFORM,
    PLAN_R_UNIFORM_IN_CHART, PLAN_R_ROUND,
    PLAN_W_NOT_ENGRAVED,     PLAN_W_ONE_COLUMN,
    PLAN_W_SHORTFALL,        PLAN_W_TIP_LIMIT_UNKNOWN,
    PLAN_W_BUTT_MAX,         PLAN_W_TIP_SECTION_UNKNOWN,
    PLAN_W_TOO_LONG,         PLAN_W_TOO_SHORT,
    PLAN_F_NO_WEIGHT,        PLAN_F_NO_BORE_HEIGHT,
    PLAN_F_NO_RAW_LENGTH,    PLAN_F_NO_PLAYING_LENGTH,
    PLAN_F_NO_GRIP_CAP,      PLAN_F_NO_INSERTION,
    PLAN_F_NO_DIAMETER,      PLAN_F_NO_BORE_REFERENCE,
    PLAN_F_NO_BORE_KIND,     PLAN_F_NO_CHART,
    PLAN_F_BEYOND_COLUMNS,   PLAN_F_CELL_EMPTY,
    PLAN_F_STEP_OFF_END,     PLAN_F_TIP_MAX,
    PLAN_F_TIP_SECTION,      PLAN_F_TAPER,
    PLAN_F_TOO_SHORT_SHAFT,  PLAN_F_TIP_SMALL,
    PLAN_F_TIP_LARGE,
};

static void the_demo_meets_every_rule(void **state) {
    (void)state;
    run(&scratch, &ran, "plan --all --json --db demo.db");
    for (size_t i = 0; i < sizeof met / sizeof met[0]; i++) {
        char code[64];
        snprintf(code, sizeof code, "\"code\":\"%s\"", plan_code_name(met[i]));
        if (strstr(ran.out, code) == NULL) {
            fail_msg("no club of the demo shows %s", plan_code_name(met[i]));
        }
    }
    assert_null(strstr(ran.out, "W_TOO_LONG_46"));
    run(&scratch, &ran, "plan --all --json --limit-46 --db demo.db");
    assert_null(strstr(ran.out, "W_TOO_LONG_46")); // over 48 says it already
}

// Equipment Rules, optional local rule of 46 in: 46 1/16 is over it, 46 is not.
static void the_local_rule_is_asked_for(void **state) {
    (void)state;
    scratch_import_workshop(&scratch);
    assert_int_equal(scratch_import_text(&scratch, "builds.csv",
                                         "build,club,due,head,shaft,playing_length,grip_cap,"
                                         "grip_weight_g,swingweight,step,uniform_flex\n"
                                         "1,3,,H-0001A,S-0001S,46,1/8,50,,,\n"
                                         "1,5,,H-00028,S-0002Q,46 1/16,1/8,50,,,\n"),
                     STORE_OK);
    run(&scratch, &ran, "plan 1-3 --json --limit-46");
    assert_null(strstr(ran.out, "W_TOO_LONG"));
    run(&scratch, &ran, "plan 1-5 --json --limit-46");
    assert_non_null(strstr(ran.out, "W_TOO_LONG_46"));
    scratch_write(&scratch, "saw.ini", "[bench]\nlimit_46 = yes\n");
    run(&scratch, &ran, "plan 1-5 --json --settings saw.ini");
    assert_non_null(strstr(ran.out, "W_TOO_LONG_46"));
    run(&scratch, &ran, "plan 1-5 --json");
    assert_null(strstr(ran.out, "W_TOO_LONG"));
}

#define SHAFT_MODELS                                                                               \
    "model,material,tip,tip_diameter,butt_diameter,raw_length,weight_g,tip_section,max_tip_trim,"  \
    "max_butt_trim,bore_note,bore_reference,bore_note_kinds\n"

// Common practice, no source: raw 46 and overall 47 is a bore height of 1; overall 47 1/4 is
// 1 1/4, added whole when the chart is written for bored-through heads and not at all when it is
// not; an iron at 42 and a hybrid at 41 3/4 over raw 41, uniform flex: the hybrid 1/4 less; a
// 3-wood head as heavy as a 5-wood takes the 5-wood's column.
static void the_trades_check_values(void **state) {
    (void)state;
    scratch_write(&scratch, "t_shaft_models.csv",
                  SHAFT_MODELS "Plain,graphite,parallel,0.335,,46,65,8,5,,none,,\n"
                               "Whole,graphite,parallel,0.335,,46,65,8,5,,add_height,,\n"
                               "Mixed,steel,parallel,0.335,,41,115,8,5,,none,,\n");
    scratch_write(&scratch, "t_charts.csv",
                  "model,flex,kind,column,column_weight_g,tip_trim\n"
                  "Plain,S,wood,3,210,1/2\nPlain,S,wood,5,220,1\n"
                  "Whole,S,wood,3,210,1/2\nWhole,S,wood,5,220,1\n"
                  "Mixed,S,iron,5,256,1\nMixed,S,hybrid,3,235,1\n");
    scratch_write(&scratch, "t_head_models.csv",
                  "model,kind,engraved,weight_g,hosel_bore,insertion,bore_height,loft,lie\n"
                  "Three,fairway,3,210,0.335,1 1/2,,,\n"
                  "Iron,iron,5,256,0.335,1 1/4,,,\nHybrid,hybrid,3,235,0.335,1 1/4,,,\n");
    scratch_write(&scratch, "t_heads.csv",
                  "ticket,model,weight_g,dry_fit_overall,dry_fit_raw,bore_height\n"
                  "H-00010J,Three,210,47,46,\nH-00011H,Three,210,47 1/4,46,\n"
                  "H-00012F,Three,210,47 1/4,46,\nH-00013D,Iron,256,42,41,\n"
                  "H-00014B,Hybrid,235,41 3/4,41,\nH-000159,Three,220,47,46,\n");
    scratch_write(&scratch, "t_shafts.csv",
                  "ticket,model,flex,raw_length,weight_g,rack\n"
                  "S-00010I,Plain,S,46,,\nS-00011G,Whole,S,46,,\n"
                  "S-00012E,Plain,S,46,,\nS-00013C,Mixed,S,41,,\n"
                  "S-00014A,Mixed,S,41,,\nS-000158,Plain,S,46,,\n");
    scratch_write(
        &scratch, "t_builds.csv",
        "build,club,due,head,shaft,playing_length,grip_cap,grip_weight_g,swingweight,step,"
        "uniform_flex\n"
        "7,1,,H-00010J,S-00010I,43,1/8,50,,,\n7,2,,H-00011H,S-00011G,43,1/8,50,,,\n"
        "7,3,,H-00012F,S-00012E,43,1/8,50,,,\n8,I,,H-00013D,S-00013C,38,1/8,50,,,yes\n"
        "8,H,,H-00014B,S-00014A,38,1/8,50,,,yes\n7,4,,H-000159,S-000158,43,1/8,50,,,\n");
    if (scratch_import(&scratch, "t_builds.csv", "t_shafts.csv", "t_heads.csv", "t_head_models.csv",
                       "t_charts.csv", "t_shaft_models.csv", NULL) != STORE_OK) {
        fail_msg("%s", scratch.messages);
    }
    run(&scratch, &ran, "plan --all --csv");
    assert_int_equal(ran.status, 0);
    assert_non_null(strstr(ran.out, "\n7,1,3,0.5,0.5,41.875,")); // 43 - 1 - 1/8
    assert_non_null(strstr(ran.out, "\n7,2,3,1.75,1.75,41.625,"));
    assert_non_null(strstr(ran.out, "\n7,3,3,0.5,0.5,41.625,"));
    assert_non_null(strstr(ran.out, "\n7,4,5,1,1,41.875,"));
    assert_non_null(strstr(ran.out, "\n8,I,5,1,1,"));
    assert_non_null(strstr(ran.out, "\n8,H,3,0.75,0.75,"));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_demo_comes_out_as_by_hand),
        cmocka_unit_test(marks_follow_the_step),
        cmocka_unit_test(a_refused_plan_has_a_reason_and_no_numbers),
        cmocka_unit_test(json_carries_the_whole_plan),
        cmocka_unit_test(the_receipt_adds_up),
        cmocka_unit_test(the_demo_meets_every_rule),
        cmocka_unit_test(the_local_rule_is_asked_for),
        cmocka_unit_test(the_trades_check_values),
    };
    return cmocka_run_group_tests(tests, demo, release);
}
