#include "check.h"
#include "record.h"
#include "sample.h"

#include <stdlib.h>

static struct sample eventful(void) {
    struct sample sample = sample_make();
    sample.head.weight = GRAMS(216);
    sample.chart.column[2].tip_trim += LENGTH_64TH;
    sample.order.step = -1;
    sample.model.max_butt_trim = IN(1, 0, 1);
    sample.order.uniform_flex = true;
    sample.order.uniform_reference = IN(1, 1, 64);
    sample.rules.tolerance = IN(0, 1, 32);
    return sample;
}

static struct record make(const struct sample *sample) {
    struct plan_input input = sample_input(sample);
    struct plan plan;
    struct record record;
    assert_true(plan_make(&input, &plan));
    record_make(&input, &plan, &record);
    record.estimates =
        (struct estimate_lines){2, {"Estimate: about 254.1 cpm", "Without the step"}};
    strcpy(record.outcome, "As cut: about 1.1 cpm stiffer (estimate)");
    record.shown = (struct record_shown){.known = true,
                                         .metric = true,
                                         .maybe = true,
                                         .piece = 46 * LENGTH_INCH,
                                         .tip_part = LENGTH_INCH / 2};
    return record;
}

static void test_record_tells_the_plan(void **state) {
    (void)state;
    struct sample sample = eventful();
    struct record record = make(&sample);
    assert_string_equal(record.build, "B-0001X");
    assert_string_equal(record.club, "3W");
    assert_int_equal(record.position, 2);
    assert_int_equal(record.count, 4);
    assert_string_equal(record.head, "H-0001A");
    assert_string_equal(record.head_model, "Heron 3 wood");
    assert_string_equal(record.engraved, "3");
    assert_int_equal(record.head_weight, GRAMS(216));
    assert_int_equal(record.bore_height, IN(1, 0, 1));
    assert_string_equal(record.shaft, "S-0001S");
    assert_string_equal(record.shaft_model, "Reed 60");
    assert_string_equal(record.flex, "R");
    assert_int_equal(record.material, MATERIAL_GRAPHITE);
    assert_int_equal(record.raw_length, IN(46, 0, 1));
    assert_int_equal(record.playing_length, IN(43, 0, 1));
    assert_int_equal(record.grip_cap, IN(0, 1, 8));
    assert_int_equal(record.mark_step, IN(0, 1, 16));
    assert_int_equal(record.tolerance, IN(0, 1, 32));
    assert_int_equal(record.chart_revision, 7);
    assert_int_equal(record.model_revision, 4);
    assert_string_equal(record.column, "3");
    assert_int_equal(record.tip_trim, IN(0, 31, 64));
    assert_int_equal(record.tip_mark, IN(0, 1, 2));
    assert_int_equal(record.finished, IN(41, 7, 8));
    assert_int_equal(record.butt_mark, IN(41, 7, 8));
    assert_int_equal(record.butt_trim, IN(3, 5, 8));
    assert_true(record.butt_cut);
    assert_int_equal(record.reason_count, 5);
    assert_int_equal(record.reason[1].code, PLAN_R_STEP);
    assert_int_equal(record.reason[1].amount, IN(0, 1, 2));
    assert_string_equal(record.reason[1].text, "Soft-step 1, column 3 (210 g)");
    assert_int_equal(record.warning_count, 2);
    assert_int_equal(record.warning[1].code, PLAN_W_BUTT_MAX);
}

static void expect_same_lines(const struct record_line *a, const struct record_line *b,
                              size_t count) {
    for (size_t i = 0; i < count; i++) {
        assert_int_equal(a[i].code, b[i].code);
        assert_int_equal(a[i].amount, b[i].amount);
        assert_string_equal(a[i].text, b[i].text);
    }
}

static void expect_same(const struct record *a, const struct record *b) {
#define NUMBER(field) assert_int_equal(a->field, b->field)
#define TEXT(field) assert_string_equal(a->field, b->field)
    TEXT(build);
    TEXT(club);
    NUMBER(position);
    NUMBER(count);
    TEXT(head);
    TEXT(head_model);
    TEXT(engraved);
    NUMBER(head_weight);
    NUMBER(bore_height);
    TEXT(shaft);
    TEXT(shaft_model);
    TEXT(flex);
    NUMBER(material);
    NUMBER(raw_length);
    NUMBER(playing_length);
    NUMBER(grip_cap);
    NUMBER(mark_step);
    NUMBER(tolerance);
    NUMBER(chart_revision);
    NUMBER(model_revision);
    TEXT(column);
    NUMBER(tip_trim);
    NUMBER(tip_mark);
    NUMBER(finished);
    NUMBER(butt_mark);
    NUMBER(butt_trim);
    NUMBER(butt_cut);
    NUMBER(reason_count);
    NUMBER(warning_count);
    NUMBER(estimates.count);
    TEXT(estimates.line[0]);
    TEXT(estimates.line[1]);
    TEXT(outcome);
    assert_memory_equal(&a->shown, &b->shown, sizeof a->shown);
#undef NUMBER
#undef TEXT
    expect_same_lines(a->reason, b->reason, a->reason_count);
    expect_same_lines(a->warning, b->warning, a->warning_count);
}

// A shaft that is extended and one that passes the sole, at once; nothing of it is said of others.
static void test_extension_and_sole(void **state) {
    (void)state;
    struct sample sample = eventful();
    struct record record = make(&sample);
    struct record back;
    char text[ENTRY_PLAN_MAX];
    assert_true(record_write(&record, text, sizeof text));
    assert_null(strstr(text, "extension"));
    assert_null(strstr(text, "proud"));
    sample.head.bore = BORE_THROUGH;
    sample.order.extension = true;
    sample.shaft.raw_length = IN(43, 0, 1);
    record = make(&sample);
    assert_int_equal(record.proud, IN(0, 1, 4));
    assert_true(record.extension > 0);
    assert_int_equal(record.bore_height, 0);
    assert_int_equal(record_playing(&record, record.finished), sample.order.playing_length);
    assert_true(record_write(&record, text, sizeof text));
    assert_true(record_read(text, &back));
    assert_int_equal(back.proud, record.proud);
    assert_int_equal(back.extension, record.extension);
}

static void test_round_trip(void **state) {
    (void)state;
    struct sample sample = eventful();
    for (int cut = 0; cut < 2; cut++) {
        struct record record = make(&sample);
        struct record back;
        char text[ENTRY_PLAN_MAX];
        assert_true(record_write(&record, text, sizeof text));
        assert_true(record_read(text, &back));
        expect_same(&back, &record);
        sample.tip_made = IN(0, 33, 64);
        sample.model.material = MATERIAL_STEEL;
        sample.shaft.raw_length = IN(42, 25, 64); // nothing left to cut off the butt
        assert_int_equal(record.butt_cut, cut == 0);
    }
}

// Fields that tell nothing and numbers at their ends survive too.
static void test_round_trip_of_the_unknown(void **state) {
    (void)state;
    struct sample sample = sample_make();
    struct record record;
    struct record back;
    char text[ENTRY_PLAN_MAX];
    sample.tip_made = 0;
    sample.head.weight = MASS_UNKNOWN;
    strcpy(sample.head.engraved, "");
    sample.chart.count = 0;
    record = make(&sample);
    record.chart_revision = INT64_MAX;
    record.model_revision = -INT64_MAX;
    assert_true(record_write(&record, text, sizeof text));
    assert_true(record_read(text, &back));
    assert_int_equal(back.head_weight, MASS_UNKNOWN);
    assert_int_equal(back.chart_revision, INT64_MAX);
    assert_int_equal(back.model_revision, -INT64_MAX);
    assert_string_equal(back.column, "");
    assert_string_equal(back.engraved, "");
}

static void test_every_truncation_is_refused(void **state) {
    (void)state;
    struct sample sample = eventful();
    struct record record = make(&sample);
    struct record back = {.count = -7};
    char text[ENTRY_PLAN_MAX];
    assert_true(record_write(&record, text, sizeof text));
    for (size_t size = 0; size < strlen(text); size++) {
        char *cut = strndup(text, size); // on the heap, so that a sanitizer sees a step too far
        assert_false(record_read(cut, &back));
        free(cut);
    }
    assert_int_equal(back.count, -7);
}

// No byte of a record can be flipped unseen, but for bytes of names and words: those read back as
// other words, which the hash of the log is there to find.
static void test_damage(void **state) {
    (void)state;
    struct sample sample = eventful();
    struct record record = make(&sample);
    struct record back;
    char text[ENTRY_PLAN_MAX];
    char again[ENTRY_PLAN_MAX];
    size_t refused = 0;
    assert_true(record_write(&record, text, sizeof text));
    for (size_t at = 0; at < strlen(text); at++) {
        for (int bit = 0; bit < 8; bit++) {
            text[at] = (char)(text[at] ^ 1 << bit);
            if (record_read(text, &back)) {
                assert_true(record_write(&back, again, sizeof again));
                assert_string_equal(text, again); // what was read is what stood there
            } else {
                refused++;
            }
            text[at] = (char)(text[at] ^ 1 << bit);
        }
    }
    assert_true(refused > strlen(text) * 4);
}

static void replace(const char *text, const char *old, const char *new, char *buffer) {
    const char *at = strstr(text, old);
    assert_non_null(at);
    memcpy(buffer, text, (size_t)(at - text));
    strcpy(buffer + (at - text), new);
    strcat(buffer, at + strlen(old));
}

static void test_near_misses_are_refused(void **state) {
    (void)state;
    static const struct {
        const char *old;
        const char *new;
    } rows[] = {
        {"kerfside-plan\t1\n", "kerfside-plan\t2\n"},
        {"build\tB", "bench\tB"},                 // unknown key
        {"estimate\tE", "estimates\tE"},          //
        {"outcome\tA", "outcome\tA\noutcome\tA"}, //
        {"shown\tleft", "shown\tup"},
        {"shown\tleft\tmm", "shown\tleft\tcm"},
        {"mm\tmaybe", "mm\tperhaps"},
        {"maybe\ttip\t", "maybe\tbutt\t"},
        {"club\t3W\n", ""},                       // missing key
        {"club\t3W\n", "club\t3W\nclub\t3W\n"},   // doubled key
        {"position\t2", "position\t02"},          // another way to write it
        {"position\t2", "position\t+2"},          //
        {"position\t2", "position\t4294967298"},  // 2 once cut to 32 bits
        {"position\t2", "position\t"},            //
        {"position\t2", "position\t-0"},          //
        {"butt_cut\tyes", "butt_cut\tmaybe"},     //
        {"material\tgraphite", "material\twood"}, //
        {"head_weight\t216000", "head_weight\t99999999999999999999"},
        {"R_COLUMN", "W_SHIM"},  // a warning among the reasons
        {"R_COLUMN", "R_OTHER"}, //
        {"R_COLUMN", "NONE"},    //
        {"end\tkerfside-plan\n", "end\tkerfside-plan\n\n"},
        {"end\tkerfside-plan\n", "end\tkerfside-plan"},
        {"B-0001X", "B-0001X-AND-MORE-THAN-FITS"},
        {"B-0001X", "B-\t001X"},
        {"\nreason\t", "\r\nreason\t"},
    };
    struct sample sample = eventful();
    struct record record = make(&sample);
    struct record back;
    char text[ENTRY_PLAN_MAX];
    assert_true(record_write(&record, text, sizeof text));
    for (size_t i = 0; i < COUNT(rows); i++) {
        char changed[2 * ENTRY_PLAN_MAX];
        replace(text, rows[i].old, rows[i].new, changed);
        if (record_read(changed, &back)) {
            fail_msg("row %zu was read", i);
        }
    }
}

static void test_control_characters_are_not_written(void **state) {
    (void)state;
    struct sample sample = sample_make();
    char text[ENTRY_PLAN_MAX];
    for (char c = 1; c < 0x20; c++) {
        struct record record = make(&sample);
        record.head_model[3] = c;
        assert_false(record_write(&record, text, sizeof text));
    }
    struct record record = make(&sample);
    record.warning_count = PLAN_WARNINGS_MAX + 1;
    assert_false(record_write(&record, text, sizeof text));
    record = make(&sample);
    memset(record.flex, 'F', sizeof record.flex); // no end
    assert_false(record_write(&record, text, sizeof text));
}

static void fill(char *text, size_t size) {
    memset(text, 'm', size - 1);
    text[size - 1] = '\0';
}

// The longest names, the largest numbers and every line a plan can carry at once fit the entry.
static void test_largest_record_fits(void **state) {
    (void)state;
    struct sample sample = eventful();
    struct record record;
    struct record back;
    char text[ENTRY_PLAN_MAX];
    fill(sample.order.build, sizeof sample.order.build);
    fill(sample.order.club, sizeof sample.order.club);
    fill(sample.head.model, sizeof sample.head.model);
    fill(sample.head.engraved, sizeof sample.head.engraved);
    fill(sample.model.name, sizeof sample.model.name);
    fill(sample.shaft.flex, sizeof sample.shaft.flex);
    for (size_t i = 0; i < sample.chart.count; i++) {
        fill(sample.chart.column[i].name, sizeof sample.chart.column[i].name);
    }
    record = make(&sample);
    record.reason_count = PLAN_REASONS_MAX;
    record.warning_count = PLAN_WARNINGS_MAX;
    for (size_t i = 0; i < PLAN_REASONS_MAX; i++) {
        record.reason[i] = record.reason[1];
        record.reason[i].amount = -LENGTH_LIMIT;
    }
    for (size_t i = 0; i < PLAN_WARNINGS_MAX; i++) {
        record.warning[i] = record.warning[0]; // the longest words of any warning
    }
    record.extension = LENGTH_LIMIT;
    record.proud = LENGTH_LIMIT;
    record.estimates.count = ESTIMATE_LINES_MAX;
    for (size_t i = 0; i < ESTIMATE_LINES_MAX; i++) {
        fill(record.estimates.line[i], ESTIMATE_TEXT_MAX);
    }
    fill(record.outcome, ESTIMATE_TEXT_MAX);
    assert_true(record_write(&record, text, sizeof text));
    assert_true(record_read(text, &back));
    assert_false(record_write(&record, text, strlen(text)));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_record_tells_the_plan),
        cmocka_unit_test(test_extension_and_sole),
        cmocka_unit_test(test_round_trip),
        cmocka_unit_test(test_round_trip_of_the_unknown),
        cmocka_unit_test(test_every_truncation_is_refused),
        cmocka_unit_test(test_damage),
        cmocka_unit_test(test_near_misses_are_refused),
        cmocka_unit_test(test_control_characters_are_not_written),
        cmocka_unit_test(test_largest_record_fits),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
