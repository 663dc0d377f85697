// Shafts in stock, and shafts chosen from it.

#include "fixture.h"

static int opened(void **state) {
    static struct fixture fixture;
    fixture_open(&fixture);
    *state = &fixture;
    return 0;
}

static int closed(void **state) {
    fixture_expect_check((*(struct fixture **)state)->store);
    fixture_close(*state);
    return 0;
}

static void finds_stock(void **state) {
    struct fixture *fixture = *state;
    struct stock stock;
    struct shaft shafts[8];
    // Reserved and scrapped ones are no stock.
    assert_int_equal(store_stock(fixture->store, "Alder 110", "S", &stock, shafts, 8), 1);
    assert_string_equal(shafts[0].ticket, "S-0005K");
    assert_string_equal(shafts[0].model, "Alder 110");
    assert_string_equal(shafts[0].flex, "S");
    assert_int_equal(shafts[0].raw_length, 41 * LENGTH_INCH);
    assert_int_equal(shafts[0].weight, 112300);
    assert_string_equal(shafts[0].rack, "B2");
    assert_true(shafts[0].raw_frequency == FREQUENCY_UNKNOWN);
    assert_string_equal(stock.model.name, "Alder 110");
    assert_int_equal(stock.model.tip_wall, 457200);
    assert_int_equal(stock.chart[CHART_KIND_IRON].count, 2);
    assert_int_equal(stock.chart[CHART_KIND_IRON].column[1].weight, 279000);
    assert_int_equal(stock.chart[CHART_KIND_WOOD].count, 0);
    assert_int_equal(stock.chart[CHART_KIND_WOOD].kind, CHART_KIND_WOOD);
    assert_int_equal(stock.profile.count, 0);

    fixture_exec(fixture->store->db, "UPDATE shaft SET club = NULL WHERE club IS NOT NULL;"
                                     "UPDATE shaft SET life = 'cut' WHERE ticket = 'S-0003O'");
    assert_int_equal(store_stock(fixture->store, "Alder 110", "S", &stock, shafts, 8), 3);
    assert_string_equal(shafts[0].ticket, "S-0002Q"); // by ticket
    assert_string_equal(shafts[1].ticket, "S-0004M");
    assert_int_equal(store_stock(fixture->store, "Alder 110", "S", &stock, shafts, 2), 2);
    assert_int_equal(store_stock(fixture->store, "Reed 60", "R", &stock, shafts, 8), 2);
    assert_int_equal(shafts[0].raw_frequency, 2455);
    assert_int_equal(shafts[0].frequency_mass, 205 * MASS_GRAM);
    assert_int_equal(shafts[0].balance, 24 * LENGTH_INCH);
    assert_true(shafts[1].weight == MASS_UNKNOWN);
    assert_int_equal(stock.profile.count, 3);
    assert_int_equal(stock.chart[CHART_KIND_WOOD].revision, 2);

    assert_int_equal(store_stock(fixture->store, "Reed 60", "X", &stock, shafts, 8), 0);
    assert_int_equal(stock.model.revision, 2); // the model is there, the flex is not
    assert_int_equal(stock.profile.count, 0);
    assert_int_equal(store_stock(fixture->store, "Nobody", "S", &stock, shafts, 8), 0);
    assert_string_equal(stock.model.name, "");
}

static void says_when_stock_cannot_be_read(void **state) {
    struct fixture *fixture = *state;
    struct stock stock;
    struct stock before;
    struct shaft shaft;
    sqlite3 *raw = fixture_raw(fixture->path);
    memset(&stock, 0x5A, sizeof stock);
    before = stock;
    fixture_exec(raw, "PRAGMA ignore_check_constraints = ON;"
                      "UPDATE shaft SET ticket = 'S-000000000000000000' WHERE ticket = 'S-0005K'");
    assert_int_equal(store_stock(fixture->store, "Alder 110", "S", &stock, &shaft, 1), -1);
    assert_non_null(strstr(store_message(fixture->store), "kerfside check"));
    assert_memory_equal(&before, &stock, sizeof stock);
    fixture_exec(raw, "UPDATE shaft SET ticket = 'S-0005K' WHERE length(ticket) > 15");
    sqlite3_close(raw);
    assert_int_equal(store_stock(fixture->store, "Alder 110", "S", &stock, &shaft, 1), 1);
}

#define STEP(name) cmocka_unit_test_setup_teardown(name, opened, closed)

int main(void) {
    const struct CMUnitTest tests[] = {
        STEP(finds_stock),
        STEP(says_when_stock_cannot_be_read),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
