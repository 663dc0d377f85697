#include "check.h"
#include "club.h"

// Words of the CSV files, as the importer's users write them.
static void test_words(void **state) {
    (void)state;
    static const char *const heads[] = {"driver", "fairway", "hybrid", "iron", "wedge", "putter"};
    static const char *const charts[] = {"wood", "hybrid", "iron", "wedge"};
    static const char *const materials[] = {"steel", "graphite"};
    static const char *const tips[] = {"parallel", "taper"};
    static const char *const bores[] = {"", "blind", "through", "short"};
    static const char *const notes[] = {"none", "add_height", "above_reference"};
    static const char *const roles[] = {"builder", "supervisor"};
    static const char *const statuses[] = {"released", "draft", "held", "cancelled"};
    assert_int_equal(COUNT(heads), HEAD_KIND_COUNT);
    assert_int_equal(COUNT(charts), CHART_KIND_COUNT);
#define CHECK(type, name, words)                                                                   \
    for (size_t i = 0; i < COUNT(words); i++) {                                                    \
        enum type value = (enum type)0;                                                            \
        assert_string_equal(name##_text((enum type)i), words[i]);                                  \
        assert_true(name##_from_text(words[i], &value));                                           \
        assert_int_equal(value, i);                                                                \
        value = (enum type)1;                                                                      \
        assert_false(name##_from_text("Driver ", &value));                                         \
        assert_int_equal(value, 1);                                                                \
    }
    CHECK(head_kind, head_kind, heads)
    CHECK(chart_kind, chart_kind, charts)
    CHECK(material, material, materials)
    CHECK(tip_kind, tip_kind, tips)
    CHECK(bore_kind, bore_kind, bores)
    CHECK(bore_note, bore_note, notes)
    CHECK(order_status, order_status, statuses)
    CHECK(role, role, roles)
#undef CHECK
    assert_string_equal(head_kind_words(HEAD_KIND_FAIRWAY), "fairway wood");
}

static void test_chart_of_a_head(void **state) {
    (void)state;
    static const struct {
        enum head_kind head;
        enum chart_kind chart;
    } rows[] = {
        {HEAD_KIND_DRIVER, CHART_KIND_WOOD},   {HEAD_KIND_FAIRWAY, CHART_KIND_WOOD},
        {HEAD_KIND_HYBRID, CHART_KIND_HYBRID}, {HEAD_KIND_IRON, CHART_KIND_IRON},
        {HEAD_KIND_WEDGE, CHART_KIND_WEDGE},
    };
    enum chart_kind kind = CHART_KIND_COUNT;
    assert_false(chart_kind_for_head(HEAD_KIND_PUTTER, &kind));
    assert_int_equal(kind, CHART_KIND_COUNT);
    for (size_t i = 0; i < COUNT(rows); i++) {
        assert_true(chart_kind_for_head(rows[i].head, &kind));
        assert_int_equal(kind, rows[i].chart);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_words),
        cmocka_unit_test(test_chart_of_a_head),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
