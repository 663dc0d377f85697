// The revisions of a chart: who made each, when, why, and what differs between any two of them.

#include "shop.h"

#include <stdio.h>

#define YEAR_MS (366 * INT64_C(86400000))

static int64_t revise(struct shop *shop, const char *column, const char *value, const char *why) {
    struct desk_draft draft = shop_draft(shop, DESK_FORM_CHART, "Alder 110", "S", "iron");
    shop_set(&draft, column, value);
    shop_set(&draft, "why", why);
    return shop_save(shop, &draft);
}

static int64_t remodel(struct shop *shop, const char *cell, const char *value) {
    struct desk_draft draft = shop_draft(shop, DESK_FORM_SHAFT_MODEL, "Alder 110", NULL, NULL);
    shop_set(&draft, cell, value);
    shop_set(&draft, "why", "x");
    return shop_save(shop, &draft);
}

static struct desk_query query_of(enum desk_list list, const char *key) {
    struct desk_query query;
    memset(&query, 0, sizeof query);
    query.list = list;
    strcpy(query.of.key[0], "Alder 110");
    strcpy(query.of.key[1], "S");
    strcpy(query.of.key[2], key);
    return query;
}

static struct desk_table list(struct shop *shop, const struct desk_query *query) {
    struct desk_table table;
    memset(&table, 0, sizeof table);
    assert_int_equal(shop->ops.list(shop->ops.ctx, query, &table), DESK_DONE);
    return table;
}

static void expect_row(const struct desk_table *table, size_t row, const char *a, const char *b,
                       const char *c, const char *d, const char *e) {
    const char *const cells[] = {a, b, c, d, e};
    assert_true(row < table->set.row_count);
    for (size_t i = 0; i < COUNT(cells); i++) {
        if (strcmp(table->set.row[row].cell[i], cells[i]) != 0) {
            fail_msg("row %zu, cell %zu: \"%s\", not \"%s\"", row, i, table->set.row[row].cell[i],
                     cells[i]);
        }
    }
}

static void expect_note(const struct desk_table *table, size_t at, const char *text) {
    assert_true(at < table->set.note_count);
    assert_string_equal(table->set.note[at], text);
}

// --- revisions -----------------------------------------------------------------------------------

static void says_who_made_each_and_why(void **state) {
    struct shop *shop = *state;
    int64_t second = revise(shop, ":7", "272 2 5/8", "the maker's letter of May");
    shop->now_ms += 60000;
    revise(shop, ":9", "286 3 1/2", "");
    struct desk_query query = query_of(DESK_LIST_REVISIONS, "iron");
    struct desk_table table = list(shop, &query);
    assert_string_equal(table.set.title, "Revisions of Alder 110 S, iron");
    assert_int_equal(table.set.row_count, 3);
    expect_row(&table, 0, "3", "3", "20514 8:31", "Bo Tarn", "");
    expect_row(&table, 1, "2", "2", "20514 8:30", "Bo Tarn", "the maker's letter of May");
    expect_row(&table, 2, "1", "2", "", "", ""); // came with an import
    assert_string_equal(table.ref[1].key[2], "iron 2");
    assert_int_equal(table.set.note_count, 0);
    query.has_selected = true;
    query.selected = table.ref[1];
    table = list(shop, &query);
    char words[32];
    snprintf(words, sizeof words, "Entry %d", (int)second);
    expect_note(&table, 0, words);
    expect_note(&table, 1, "Why: the maker's letter of May");
    expect_note(&table, 2, "Changed: column 7: 272 2 1/2 to 272 2 5/8");
    assert_int_equal(table.set.note_count, 3);
    // Of another year the day alone would mislead.
    shop->now_ms += YEAR_MS;
    table = list(shop, &query);
    expect_row(&table, 1, "2", "2", "20514 2026", "Bo Tarn", "the maker's letter of May");
}

// A long one would make all letters of the table small; the whole of it is said of a chosen row.
static void a_long_reason_leaves_the_table_its_room(void **state) {
    struct shop *shop = *state;
    const char *const why =
        "the maker's letter of May says that the older sheet had a wrong weight";
    revise(shop, ":7", "272 2 5/8", why);
    struct desk_query query = query_of(DESK_LIST_REVISIONS, "iron");
    struct desk_table table = list(shop, &query);
    expect_row(&table, 0, "2", "2", "20514 8:30", "Bo Tarn",
               "the maker's letter of May says that the ...");
    query.has_selected = true;
    query.selected = table.ref[0];
    table = list(shop, &query);
    char words[VIEW_TEXT_MAX];
    snprintf(words, sizeof words, "Why: %s", why);
    expect_note(&table, 1, words);
}

static void shows_what_was_taken_back(void **state) {
    struct shop *shop = *state;
    struct entry first, back;
    struct change change;
    int64_t seq = revise(shop, ":7", "272 2 5/8", "a mistake");
    assert_int_equal(store_entry(shop->fixture.store, seq, &first), STORE_OK);
    assert_true(change_read(first.plan, &change));
    change_back(&change, &change);
    back = fixture_entry(&shop->fixture, ENTRY_CHANGE, 0);
    strcpy(back.worker, SUPERVISOR);
    back.refers = seq;
    assert_true(change_write(&change, back.plan, sizeof back.plan));
    assert_int_equal(store_append(shop->fixture.store, &back), STORE_OK);
    struct desk_query query = query_of(DESK_LIST_REVISIONS, "iron");
    struct desk_table table = list(shop, &query);
    assert_int_equal(table.set.row_count, 3);
    assert_int_equal(table.set.row[1].tone, TONE_CAUTION);
    query.has_selected = true;
    query.selected = table.ref[1];
    table = list(shop, &query);
    char words[48];
    snprintf(words, sizeof words, "Taken back by entry %d", (int)back.seq);
    expect_note(&table, 3, words);
}

static void goes_on_page_by_page(void **state) {
    struct shop *shop = *state;
    char value[24];
    for (int i = 0; i < 40; i++) {
        snprintf(value, sizeof value, "286 %d", 1 + i % 2);
        revise(shop, ":9", value, i == 0 ? "the first" : "x");
    }
    struct desk_query query = query_of(DESK_LIST_REVISIONS, "iron");
    int64_t next = 41;
    for (int page = 0; page < 4; page++) {
        struct desk_table table = list(shop, &query);
        assert_int_equal(table.more, page < 3);
        for (size_t i = 0; i < table.set.row_count; i++) {
            snprintf(value, sizeof value, "%d", (int)next--);
            assert_string_equal(table.set.row[i].cell[0], value);
            assert_string_equal(table.set.row[i].cell[3], next > 0 ? "Bo Tarn" : "");
            assert_string_equal(table.set.row[i].cell[4], next > 1    ? "x"
                                                          : next == 1 ? "the first"
                                                                      : "");
        }
        query.after = table.ref[table.set.row_count - 1];
    }
    assert_int_equal(next, 0);
}

// --- differences ---------------------------------------------------------------------------------

static void compares_with_the_newest_or_the_one_before(void **state) {
    struct shop *shop = *state;
    revise(shop, ":7", "272 2 5/8", "x");
    revise(shop, ":9", "286 3 1/2", "x");
    struct desk_query query = query_of(DESK_LIST_DIFFERENCES, "iron 3");
    struct desk_table table = list(shop, &query);
    assert_string_equal(table.set.subtitle, "revision 2 to 3");
    assert_int_equal(table.set.row_count, 1);
    expect_row(&table, 0, "9", "not there", "286 g, 3 1/2", "", "");
    query = query_of(DESK_LIST_DIFFERENCES, "iron 1");
    table = list(shop, &query);
    assert_string_equal(table.set.subtitle, "revision 1 to 3");
    assert_int_equal(table.set.row_count, 2);
    expect_row(&table, 0, "7", "272 g, 2 1/2", "272 g, 2 5/8", "", "");
    query = query_of(DESK_LIST_DIFFERENCES, "iron 1 2"); // one, then the other
    table = list(shop, &query);
    assert_string_equal(table.set.subtitle, "revision 1 to 2");
    assert_int_equal(table.set.row_count, 1);
    query = query_of(DESK_LIST_DIFFERENCES, "iron 2 1"); // whichever was chosen first
    struct desk_table same = list(shop, &query);
    assert_memory_equal(&same.set, &table.set, sizeof table.set);
    query = query_of(DESK_LIST_DIFFERENCES, "iron 2 2");
    table = list(shop, &query);
    expect_note(&table, 0, "Nothing differs.");
}

static void chooses_one_then_the_other(void **state) {
    struct shop *shop = *state;
    revise(shop, ":7", "272 2 5/8", "x");
    struct desk_query query = query_of(DESK_LIST_REVISIONS, "iron 1");
    struct desk_table table = list(shop, &query);
    assert_string_equal(table.set.title, "Compare with, Alder 110 S, iron");
    assert_string_equal(table.ref[0].key[2], "iron 1 2");
    assert_string_equal(table.ref[1].key[2], "iron 1 1");
}

// The notes of the model say how a chart is read.
static void shows_the_models_notes_too(void **state) {
    struct shop *shop = *state;
    remodel(shop, "max_butt_trim", "7"); // before: none of its business
    revise(shop, ":7", "272 2 5/8", "x");
    remodel(shop, "bore_note", "add height");
    remodel(shop, "max_tip_trim", "5");
    remodel(shop, "max_tip_trim", "4 1/2");
    revise(shop, ":9", "286 3 1/2", "x");
    remodel(shop, "weight_g", "113");
    revise(shop, ":9", "286 3 5/8", "x");
    struct desk_query query = query_of(DESK_LIST_DIFFERENCES, "iron 2 3");
    struct desk_table table = list(shop, &query);
    assert_int_equal(table.set.row_count, 3);
    expect_row(&table, 0, "9", "not there", "286 g, 3 1/2", "", "");
    expect_row(&table, 1, "Most off the tip", "not known", "4 1/2", "", "");
    expect_row(&table, 2, "Bore note", "none", "add height", "", "");
    query = query_of(DESK_LIST_DIFFERENCES, "iron 3");
    table = list(shop, &query);
    assert_int_equal(table.set.row_count, 2);
    expect_row(&table, 1, "Weight", "112", "113", "", "");
    // The newest is the chart as it is read to this day.
    remodel(shop, "bore_note", "none");
    table = list(shop, &query);
    expect_row(&table, 1, "Bore note", "add height", "none", "", "");
}

static void there_is_none_of_what_is_not_there(void **state) {
    struct shop *shop = *state;
    struct desk_table table;
    struct desk_query query = query_of(DESK_LIST_REVISIONS, "putter");
    memset(&table, 0, sizeof table);
    assert_int_equal(shop->ops.list(shop->ops.ctx, &query, &table), DESK_NONE);
    query = query_of(DESK_LIST_DIFFERENCES, "iron 9");
    assert_int_equal(shop->ops.list(shop->ops.ctx, &query, &table), DESK_NONE);
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, shop_opened, shop_closed)

int main(void) {
    const struct CMUnitTest tests[] = {
        TEST(says_who_made_each_and_why),
        TEST(a_long_reason_leaves_the_table_its_room),
        TEST(shows_what_was_taken_back),
        TEST(goes_on_page_by_page),
        TEST(compares_with_the_newest_or_the_one_before),
        TEST(chooses_one_then_the_other),
        TEST(shows_the_models_notes_too),
        TEST(there_is_none_of_what_is_not_there),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
