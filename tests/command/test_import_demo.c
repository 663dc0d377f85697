// The demo workshop, as its files give it: its estimates are those of real clubs, some are not
// known, and build 2050 has shafts to choose from.

#include "run.h"

#include "balance.h"
#include "estimate.h"

#include <stdio.h>
#include <stdlib.h>

static struct scratch scratch;
static struct ran ran;
static struct store *store;

static int demo(void **state) {
    char message[512] = "";
    (void)state;
    scratch_init(&scratch);
    run(&scratch, &ran, "demo --db demo.db");
    assert_int_equal(ran.status, 0);
    if (store_open(scratch_path(&scratch, "demo.db"), STORE_READ, "desk", &store, message,
                   sizeof message) != STORE_OK) {
        fail_msg("%s", message);
    }
    return 0;
}

static int release(void **state) {
    (void)state;
    store_close(store);
    scratch_release(&scratch);
    return 0;
}

static struct estimate estimate_of(const struct club *club) {
    const struct bench_rules rules = BENCH_RULES_DEFAULT;
    const struct assembly assembly = ASSEMBLY_DEFAULT;
    struct plan_input input;
    struct plan plan;
    struct estimate estimate;
    club_plan(club, &rules, &input, &plan);
    estimate_make(club, &plan, &assembly, &estimate);
    return estimate;
}

static struct estimate estimate_named(const char *build, const char *name) {
    struct club club;
    int64_t id = 0;
    assert_int_equal(store_club_named(store, build, name, &id), STORE_OK);
    assert_int_equal(store_club(store, id, &club), STORE_OK);
    return estimate_of(&club);
}

// Common practice, no source: without grip, drivers and fairway woods swing at 215 to 270 cycles a
// minute, hybrids to 290, irons at 280 to 330, wedges to 360.
static void estimates_are_those_of_real_clubs(void **state) {
    static const struct {
        double low, high;
    } ranges[HEAD_KIND_COUNT] = {
        [HEAD_KIND_DRIVER] = {215, 270}, [HEAD_KIND_FAIRWAY] = {230, 270},
        [HEAD_KIND_HYBRID] = {255, 290}, [HEAD_KIND_IRON] = {280, 330},
        [HEAD_KIND_WEDGE] = {300, 360},  [HEAD_KIND_PUTTER] = {240, 300},
    };
    static struct club_line lines[100];
    int known = 0, not_known = 0;
    int count = store_clubs(store, CLUBS_ALL, lines, 100, NULL);
    (void)state;
    assert_true(count > 40);
    for (int i = 0; i < count; i++) {
        struct club club;
        assert_int_equal(store_club(store, lines[i].id, &club), STORE_OK);
        struct estimate estimate = estimate_of(&club);
        if (estimate.frequency.gap == ESTIMATE_GAP_PLAN ||
            club.order.playing_length < 30 * LENGTH_INCH) { // refused, or a child's club
            continue;
        }
        assert_int_equal(estimate.swingweight.gap, ESTIMATE_GAP_NONE);
        if (estimate.frequency.gap != ESTIMATE_GAP_NONE) {
            assert_int_equal(estimate.frequency.gap, ESTIMATE_GAP_STIFFNESS);
            not_known++;
            continue;
        }
        double cpm = estimate.frequency.value;
        if (cpm < ranges[club.head.kind].low || cpm > ranges[club.head.kind].high) {
            fail_msg("%s-%s: %.1f cpm", lines[i].build, lines[i].club, cpm);
        }
        known++;
    }
    assert_int_equal(known, 23);
    assert_int_equal(not_known, 3);
}

// The same clubs as a row of 3000 point masses whose bending is summed up twice, written apart from
// the program, by hand: 286.14 and 240.59 cpm.
static void estimates_agree_with_another_computation(void **state) {
    double iron = estimate_named("2042", "7").frequency.value;
    double driver = estimate_named("2041", "1").frequency.value;
    (void)state;
    assert_true(iron > 285.9 && iron < 286.4);
    assert_true(driver > 240.4 && driver < 240.8);
}

// Its mates lie on a line: about 4 cpm a half inch.
static void one_club_of_a_set_is_off_its_line(void **state) {
    double five = estimate_named("2042", "5").frequency.value;
    double six = estimate_named("2042", "6").frequency.value;
    double seven = estimate_named("2042", "7").frequency.value;
    double eight = estimate_named("2042", "8").frequency.value;
    (void)state;
    assert_true(seven - six > 3 && seven - six < 5);
    assert_true(eight - seven > 3 && eight - seven < 5);
    assert_true(five > six);
}

static bool wishes(void *context, const struct club *club, const struct final_values *values) {
    int *count = context;
    assert_string_equal(club->shaft.ticket, "");
    assert_string_equal(club->order.wished_model, "Ullock Straight 115");
    assert_string_equal(club->order.wished_flex, "S");
    assert_true(club->head.weight > 240 * MASS_GRAM && club->head.bore_height == LENGTH_INCH);
    assert_true(values->length == LENGTH_UNKNOWN);
    ++*count;
    return true;
}

static void a_build_waits_for_its_shafts(void **state) {
    static struct shaft shafts[100];
    struct stock stock;
    int clubs = 0, complete = 0;
    (void)state;
    assert_int_equal(store_build_clubs(store, "2050", wishes, &clubs), STORE_OK);
    assert_int_equal(clubs, 8);
    int count = store_stock(store, "Ullock Straight 115", "S", &stock, shafts, 100);
    assert_int_equal(count, 26);
    assert_int_equal(stock.chart[CHART_KIND_IRON].count, 8);
    assert_int_equal(stock.profile.count, 6);
    for (int i = 0; i < count; i++) {
        bool weighed = shafts[i].weight != MASS_UNKNOWN;
        assert_true(llabs(shafts[i].raw_length - 41 * LENGTH_INCH) <= LENGTH_INCH / 8);
        assert_true(!weighed || llabs(shafts[i].weight - 115 * MASS_GRAM) <= 2 * MASS_GRAM);
        complete += weighed && shafts[i].raw_frequency != FREQUENCY_UNKNOWN;
    }
    assert_int_equal(complete, 24);
    // The last to be due: what is to be done first stays first.
    static struct club_line lines[100];
    int next = store_clubs(store, CLUBS_NEXT, lines, 100, NULL);
    for (int i = 0; i < 8; i++) {
        assert_string_equal(lines[next - 1 - i].build, "2050");
    }
}

struct codes {
    int heads, shafts;
};

static void look_up(const char *gtin, struct codes *codes) {
    struct code_model model;
    assert_int_equal(store_model_of_code(store, gtin, &model), STORE_OK);
    codes->heads += model.is_head;
    codes->shafts += !model.is_head;
    assert_true(model.is_head || model.flex[0] != '\0');
}

// Every code of the file can be looked up. GS1 General Specifications, 1.4: prefixes 200 to 299 are
// for use inside a company, so these are nobody's.
static void codes_name_every_model(void **state) {
    FILE *file = fopen(KERFSIDE_SOURCE_DIR "/db/demo/gtins.csv", "re");
    struct codes codes = {0};
    char line[128];
    (void)state;
    assert_non_null(file);
    assert_non_null(fgets(line, sizeof line, file));
    while (fgets(line, sizeof line, file) != NULL) {
        assert_true(line[0] == '2' && strcspn(line, ",") == 13);
        line[13] = '\0';
        look_up(line, &codes);
    }
    fclose(file);
    assert_int_equal(codes.heads, 27);  // head_models.csv
    assert_int_equal(codes.shafts, 12); // models and flexes of charts.csv
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(estimates_are_those_of_real_clubs),
        cmocka_unit_test(estimates_agree_with_another_computation),
        cmocka_unit_test(one_club_of_a_set_is_off_its_line),
        cmocka_unit_test(a_build_waits_for_its_shafts),
        cmocka_unit_test(codes_name_every_model),
    };
    return cmocka_run_group_tests(tests, demo, release);
}
