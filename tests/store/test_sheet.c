// Documents of what the store knows, and changes of them with their entries.

#include "desk_fixture.h"

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

static void reads_what_is_known(void **state) {
    struct fixture *fixture = *state;
    struct document head = desk_load(fixture, "heads", "H-00036", NULL, NULL);
    struct document shaft = desk_load(fixture, "shafts", "S-0001S", NULL, NULL);
    struct document model = desk_load(fixture, "shaft_models", "Reed 60", NULL, NULL);
    struct document heron = desk_load(fixture, "head_models", "Heron 3", NULL, NULL);
    struct document chart = desk_load(fixture, "charts", "Reed 60", "R", "wood");
    struct document club = desk_load(fixture, "builds", "2041", "1", NULL);
    desk_expect(&head, "model", "Plover 4h");
    desk_expect(&head, "weight_g", "231");
    desk_expect(&head, "bore_height", "3/4");
    desk_expect(&shaft, "raw_length", "46");
    desk_expect(&shaft, "frequency_cpm", "245.5");
    desk_expect(&shaft, "frequency_mass_g", "205");
    desk_expect(&model, "material", "graphite");
    desk_expect(&model, "tip_diameter", "0.335");
    desk_expect(&model, "bore_note", "above_reference");
    desk_expect(&model, "bore_reference", "1 1/2");
    desk_expect(&model, "bore_note_kinds", "driver fairway not_through");
    desk_expect(&heron, "cg_beyond", "-0.1");
    desk_expect(&heron, "inertia_gcm2", "2800");
    desk_expect(&heron, "lie", "57.5");
    desk_expect(&heron, "bore", "short");
    desk_expect(&chart, ":D", "200 0");
    desk_expect(&chart, ":3", "210 1/2");
    desk_expect(&chart, ":7", "230 -");
    desk_expect(&club, "playing_length", "43");
    desk_expect(&club, "step", "-1");
    desk_expect(&club, "uniform_flex", "no");
    desk_expect(&club, "swingweight", "D2");
    desk_expect(&club, "head", "H-0001A");
    assert_false(desk_there(fixture, "heads", "H-9", NULL, NULL));
    assert_false(desk_there(fixture, "charts", "Reed 60", "R", "iron"));
    assert_false(desk_there(fixture, "charts", "Reed 60", "R", "nonsense"));
}

// What was read is canonical: taken as it stands, whatever the sheet.
static void what_is_read_is_canonical(void **state) {
    static const char *const all[][4] = {
        {"heads", "H-00036"},
        {"heads", "H-00052"},
        {"shafts", "S-0001S"},
        {"shafts", "S-0007G"},
        {"head_models", "Heron 3"},
        {"head_models", "Plover 4h"},
        {"shaft_models", "Reed 60"},
        {"shaft_models", "Alder 110"},
        {"builds", "2041", "1"},
        {"builds", "2042", "9"},
        {"orders", "2042"},
        {"charts", "Reed 60", "R", "wood"},
        {"charts", "Alder 110", "S", "iron"},
    };
    for (size_t i = 0; i < COUNT(all); i++) {
        struct document document = desk_load(*state, all[i][0], all[i][1], all[i][2], all[i][3]);
        struct document again = document;
        struct fixture *fixture = *state;
        if (store_canonical(fixture->store, &again) != STORE_OK) {
            fail_msg("%s %s: %s", all[i][0], all[i][1], store_message(fixture->store));
        }
        assert_memory_equal(&again, &document, sizeof again);
    }
}

static void writes_cells_as_the_store_does(void **state) {
    struct fixture *fixture = *state;
    struct document shaft = {.sheet = "shafts", .keys = 1};
    const struct store_complaint *complaint;
    assert_true(document_set(&shaft, "ticket", "S-0001S"));
    assert_true(document_set(&shaft, "model", "Reed 60"));
    assert_true(document_set(&shaft, "flex", "R"));
    assert_true(document_set(&shaft, "raw_length", "1168.4 mm"));
    assert_int_equal(store_canonical(fixture->store, &shaft), STORE_OK);
    desk_expect(&shaft, "raw_length", "46");
    assert_true(document_set(&shaft, "raw_length", "4"));
    assert_true(document_set(&shaft, "weight_g", "heavy"));
    assert_true(document_set(&shaft, "model", "Unheard of"));
    assert_int_equal(store_canonical(fixture->store, &shaft), STORE_REFUSED);
    assert_int_equal(store_complaints(fixture->store, &complaint), 2);
    assert_string_equal(complaint[0].cell, "raw_length");
    assert_string_equal(complaint[1].cell, "weight_g");
    assert_true(document_set(&shaft, "raw_length", "46"));
    assert_true(document_set(&shaft, "weight_g", ""));
    assert_int_equal(store_canonical(fixture->store, &shaft), STORE_REFUSED);
    assert_string_equal(complaint[0].cell, "model");
}

static void changes_a_head_and_takes_it_back(void **state) {
    struct fixture *fixture = *state;
    struct document before = desk_load(fixture, "heads", "H-00052", NULL, NULL);
    struct document after = before;
    assert_true(document_set(&after, "weight_g", "280.5"));
    assert_true(document_set(&after, "bore_height", "1"));
    int64_t seq = desk_changes(fixture, &before, &after);
    struct document now = desk_load(fixture, "heads", "H-00052", NULL, NULL);
    assert_memory_equal(&now, &after, sizeof now);
    struct entry back = desk_back(fixture, seq);
    assert_int_equal(store_append(fixture->store, &back), STORE_OK);
    now = desk_load(fixture, "heads", "H-00052", NULL, NULL);
    assert_memory_equal(&now, &before, sizeof now); // an empty cell is not known again
    assert_int_equal(fixture_number(fixture->store->db,
                                    "SELECT count(*) FROM head WHERE ticket = 'H-00052' "
                                    "AND weight IS NULL AND bore_height IS NULL"),
                     1);
}

static void receives_a_shaft_and_takes_it_back(void **state) {
    struct fixture *fixture = *state;
    struct document shaft = desk_load(fixture, "shafts", "S-0007G", NULL, NULL);
    assert_true(document_set(&shaft, "ticket", "S-0010Q"));
    assert_true(document_set(&shaft, "weight_g", "60"));
    struct entry made = desk_entry(fixture, NULL, &shaft, BUILDER);
    assert_int_equal(store_append(fixture->store, &made), STORE_OK);
    assert_true(desk_there(fixture, "shafts", "S-0010Q", NULL, NULL));
    struct entry again = desk_entry(fixture, NULL, &shaft, BUILDER);
    desk_refuses(fixture, again, "ticket", "there already");
    struct entry back = desk_back(fixture, made.seq);
    assert_int_equal(store_append(fixture->store, &back), STORE_OK);
    assert_false(desk_there(fixture, "shafts", "S-0010Q", NULL, NULL));
    assert_true(document_set(&shaft, "weight_g", "")); // once more, and not weighed
    desk_changes(fixture, NULL, &shaft);
    // One that is reserved or was worked on stays.
    struct document used = desk_load(fixture, "shafts", "S-0003O", NULL, NULL);
    desk_refuses(fixture, desk_entry(fixture, &used, NULL, SUPERVISOR), "ticket", "stays");
}

static void revises_a_chart(void **state) {
    struct fixture *fixture = *state;
    struct document before = desk_load(fixture, "charts", "Reed 60", "R", "wood");
    struct document after = before;
    assert_true(document_set(&after, ":3", "210 5/8"));
    int64_t seq = desk_changes(fixture, &before, &after);
    assert_int_equal(fixture_number(fixture->store->db, "SELECT max(revision) FROM chart WHERE "
                                                        "model = 'Reed 60' AND flex = 'R'"),
                     3);
    struct club club = fixture_club(fixture, 1);
    assert_int_equal(club.chart.revision, 3);
    assert_int_equal(club.chart.column[1].tip_trim, 5 * LENGTH_INCH / 8);
    struct entry back = desk_back(fixture, seq);
    assert_int_equal(store_append(fixture->store, &back), STORE_OK);
    club = fixture_club(fixture, 1);
    assert_int_equal(club.chart.revision, 4);
    assert_int_equal(club.chart.column[1].tip_trim, LENGTH_INCH / 2);
}

static void a_new_chart_comes_and_goes(void **state) {
    struct fixture *fixture = *state;
    struct document chart = {.sheet = "charts", .keys = 3};
    assert_true(document_set(&chart, "model", "Reed 60"));
    assert_true(document_set(&chart, "flex", "X"));
    assert_true(document_set(&chart, "kind", "wood"));
    desk_refuses(fixture, desk_entry(fixture, NULL, &chart, SUPERVISOR), ":", "no column");
    assert_true(document_set(&chart, ":1", "200 1/4"));
    assert_true(document_set(&chart, ":3", "210 1/2"));
    int64_t seq = desk_changes(fixture, NULL, &chart);
    assert_true(desk_there(fixture, "charts", "Reed 60", "X", "wood"));
    struct entry back = desk_back(fixture, seq);
    assert_int_equal(store_append(fixture->store, &back), STORE_OK);
    assert_false(desk_there(fixture, "charts", "Reed 60", "X", "wood"));
    desk_changes(fixture, NULL, &chart); // and is there once more, as revision 3
    struct document now = desk_load(fixture, "charts", "Reed 60", "X", "wood");
    assert_memory_equal(&now, &chart, sizeof now);
}

static void refuses_wrong_charts(void **state) {
    static const struct {
        const char *column, *value, *cell, *words;
    } rows[] = {
        {":3", "210", ":3", "no trim"},
        {":3", "210 ", ":3", "no trim"},
        {":3", "heavy 1/2", ":3", "not a weight"},
        {":3", "210 5/7", ":3", "5/7"},
        {":3", "200 1/2", "column_weight_g", "same weight"},
        {":9", "205.0 1/2", ":9", "not written"},
        {"other", "1", "other", "is no cell"},
    };
    struct fixture *fixture = *state;
    struct document before = desk_load(fixture, "charts", "Reed 60", "R", "wood");
    for (size_t i = 0; i < COUNT(rows); i++) {
        struct document after = before;
        assert_true(document_set(&after, rows[i].column, rows[i].value));
        desk_refuses(fixture, desk_entry(fixture, &before, &after, SUPERVISOR), rows[i].cell,
                     rows[i].words);
    }
}

static void changes_an_order_line(void **state) {
    struct fixture *fixture = *state;
    struct document before = desk_load(fixture, "builds", "2042", "9", NULL);
    struct document after = before;
    assert_true(document_set(&after, "playing_length", "36"));
    assert_true(document_set(&after, "head", "H-00052"));
    int64_t seq = desk_changes(fixture, &before, &after);
    struct club club = fixture_club(fixture, 5);
    assert_string_equal(club.head.ticket, "H-00052");
    assert_int_equal(club.order.playing_length, 36 * LENGTH_INCH);
    struct entry back = desk_back(fixture, seq);
    assert_int_equal(store_append(fixture->store, &back), STORE_OK);
    club = fixture_club(fixture, 5);
    assert_string_equal(club.head.ticket, "");
    fixture_bring(fixture, 4, STAGE_TIP_CUT);
    before = desk_load(fixture, "builds", "2042", "8", NULL);
    after = before;
    assert_true(document_set(&after, "playing_length", "36"));
    assert_true(document_set(&after, "step", "1"));
    desk_refuses(fixture, desk_entry(fixture, &before, &after, SUPERVISOR), "step", "is cut");
}

static void only_who_may(void **state) {
    struct fixture *fixture = *state;
    struct document before = desk_load(fixture, "charts", "Reed 60", "R", "wood");
    struct document after = before;
    struct document head = desk_load(fixture, "heads", "H-00052", NULL, NULL);
    struct document weighed = head;
    assert_true(document_set(&after, ":3", "210 5/8"));
    assert_true(document_set(&weighed, "weight_g", "281"));
    desk_refuses(fixture, desk_entry(fixture, &before, &after, BUILDER), NULL, "supervisor");
    desk_refuses(fixture, desk_entry(fixture, &before, &after, ""), NULL, "supervisor");
    desk_refuses(fixture, desk_entry(fixture, &head, &weighed, "W-9Z"), NULL, "badge");
    struct entry entry = desk_entry(fixture, &head, &weighed, BUILDER);
    assert_int_equal(store_append(fixture->store, &entry), STORE_OK);
}

static void refuses_what_is_not_as_it_was(void **state) {
    struct fixture *fixture = *state;
    struct document before = desk_load(fixture, "heads", "H-00052", NULL, NULL);
    struct document one = before, other = before;
    assert_true(document_set(&one, "weight_g", "281"));
    assert_true(document_set(&other, "weight_g", "282"));
    int64_t seq = desk_changes(fixture, &before, &one);
    desk_refuses(fixture, desk_entry(fixture, &before, &other, SUPERVISOR), "weight_g",
                 "as it was");
    struct entry back = desk_back(fixture, seq);
    struct entry wrong = back;
    wrong.refers = seq - 1;
    desk_refuses(fixture, wrong, NULL, "no change to be taken back");
    wrong = desk_entry(fixture, &one, &other, SUPERVISOR);
    wrong.refers = seq;
    desk_refuses(fixture, wrong, NULL, "does not take back");
    wrong = back;
    strcpy(wrong.plan, "kerfside-change\t2\n");
    desk_refuses(fixture, wrong, NULL, "well formed");
}

// All or none.
static void two_changes_are_one(void **state) {
    struct fixture *fixture = *state;
    struct document before = desk_load(fixture, "heads", "H-00052", NULL, NULL);
    struct document after = before;
    struct document chart = desk_load(fixture, "charts", "Reed 60", "R", "wood");
    struct document wrong = chart;
    assert_true(document_set(&after, "weight_g", "281"));
    assert_true(document_set(&wrong, ":3", "210 5/7"));
    struct entry entries[] = {desk_entry(fixture, &before, &after, SUPERVISOR),
                              desk_entry(fixture, &chart, &wrong, SUPERVISOR)};
    assert_int_equal(store_append_all(fixture->store, entries, 2), STORE_REFUSED);
    struct document now = desk_load(fixture, "heads", "H-00052", NULL, NULL);
    assert_memory_equal(&now, &before, sizeof now);
}

// What a supervisor gives for one club, and an offcut with the ticket it had before.
static void gives_a_trim(void **state) {
    struct fixture *fixture = *state;
    struct document before = desk_load(fixture, "builds", "2042", "7", NULL);
    struct document after = before;
    desk_expect(&before, "given_trim", "");
    desk_expect(&before, "extension", "no");
    desk_expect(&before, "loft", "");
    assert_true(document_set(&after, "given_trim", "1.5"));
    assert_true(document_set(&after, "extension", "yes"));
    assert_true(document_set(&after, "loft", "34.5"));
    assert_true(document_set(&after, "lie", "62"));
    assert_int_equal(store_canonical(fixture->store, &after), STORE_OK);
    desk_expect(&after, "given_trim", "1 1/2");
    struct entry entry = desk_entry(fixture, &before, &after, BUILDER);
    desk_refuses(fixture, entry, NULL, "Only a supervisor");
    int64_t seq = desk_changes(fixture, &before, &after);
    struct club club = fixture_club(fixture, 3);
    assert_int_equal(club.order.given_trim, 3 * LENGTH_INCH / 2);
    assert_true(club.order.extension);
    assert_int_equal(club.order.loft, 34500);
    assert_int_equal(club.order.lie, 62000);
    struct plan_input input;
    struct plan plan;
    struct bench_rules rules = BENCH_RULES_DEFAULT;
    assert_true(club_plan(&club, &rules, &input, &plan));
    assert_int_equal(plan.tip_mark, 3 * LENGTH_INCH / 2);
    assert_int_equal(plan.reason[0].code, PLAN_R_GIVEN);
    struct entry back = desk_back(fixture, seq);
    assert_int_equal(store_append(fixture->store, &back), STORE_OK);
    assert_true(fixture_club(fixture, 3).order.given_trim == LENGTH_UNKNOWN);
    assert_false(fixture_club(fixture, 3).order.extension);
    after = desk_load(fixture, "builds", "2042", "7", NULL);
    assert_memory_equal(&after, &before, sizeof after);
    assert_true(document_set(&after, "given_trim", "-1/2"));
    assert_int_equal(store_canonical(fixture->store, &after), STORE_REFUSED);
}

static void takes_in_an_offcut(void **state) {
    struct fixture *fixture = *state;
    struct document offcut = {.keys = 1};
    struct part part;
    strcpy(offcut.sheet, "shafts");
    assert_true(document_set(&offcut, "ticket", "S-0010Q"));
    assert_true(document_set(&offcut, "model", "Alder 110"));
    assert_true(document_set(&offcut, "flex", "S"));
    assert_true(document_set(&offcut, "raw_length", "38"));
    assert_true(document_set(&offcut, "tip_cut", "2.5"));
    assert_true(document_set(&offcut, "from_shaft", "S-0003O"));
    if (store_canonical(fixture->store, &offcut) != STORE_OK) {
        fail_msg("%s", store_message(fixture->store));
    }
    desk_refuses(fixture, desk_entry(fixture, NULL, &offcut, BUILDER), "from_shaft", "never cut");
    fixture_bring(fixture, 3, STAGE_TIP_CUT);
    struct document wrong = offcut;
    assert_true(document_set(&wrong, "from_shaft", "S-0009C"));
    desk_refuses(fixture, desk_entry(fixture, NULL, &wrong, BUILDER), "from_shaft",
                 "there is no shaft");
    struct entry entry = desk_entry(fixture, NULL, &offcut, BUILDER);
    if (store_append(fixture->store, &entry) != STORE_OK) {
        fail_msg("%s", store_message(fixture->store));
    }
    struct document now = desk_load(fixture, "shafts", "S-0010Q", NULL, NULL);
    desk_expect(&now, "tip_cut", "2 1/2");
    desk_expect(&now, "from_shaft", "S-0003O");
    // The offcut is raw stock under its own ticket; the old ticket stays what it was (R14).
    assert_int_equal(store_part(fixture->store, "S-0010Q", &part), STORE_OK);
    assert_int_equal(part.life, PART_RAW);
    assert_int_equal(store_part(fixture->store, "S-0003O", &part), STORE_OK);
    assert_int_equal(part.life, PART_CUT);
    struct stock stock;
    struct shaft shafts[8];
    int count = store_stock(fixture->store, "Alder 110", "S", &stock, shafts, 8);
    assert_int_equal(count, 2); // by ticket: S-0005K, S-0010Q
    assert_int_equal(shafts[1].tip_cut, 5 * LENGTH_INCH / 2);
    assert_string_equal(shafts[1].from_shaft, "S-0003O");
    assert_true(shafts[0].tip_cut == LENGTH_UNKNOWN);
}

static enum store_result look(void *ctx, struct store *store) {
    struct club club;
    enum store_result result = store_club(store, 1, &club);
    *(length_nm *)ctx = club.chart.column[1].tip_trim;
    return result;
}

static void rehearses(void **state) {
    struct fixture *fixture = *state;
    struct document before = desk_load(fixture, "charts", "Reed 60", "R", "wood");
    struct document after = before;
    length_nm seen = 0;
    assert_true(document_set(&after, ":3", "210 5/8"));
    struct entry entry = desk_entry(fixture, &before, &after, SUPERVISOR);
    int64_t entries = fixture_number(fixture->store->db, "SELECT count(*) FROM log");
    assert_int_equal(store_rehearse(fixture->store, &entry, 1, look, &seen), STORE_OK);
    assert_int_equal(seen, 5 * LENGTH_INCH / 8);
    assert_int_equal(fixture_club(fixture, 1).chart.column[1].tip_trim, LENGTH_INCH / 2);
    assert_int_equal(fixture_number(fixture->store->db, "SELECT count(*) FROM log"), entries);
    assert_int_equal(store_append(fixture->store, &entry), STORE_OK);
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, opened, closed)

int main(void) {
    const struct CMUnitTest tests[] = {
        TEST(reads_what_is_known),
        TEST(what_is_read_is_canonical),
        TEST(writes_cells_as_the_store_does),
        TEST(changes_a_head_and_takes_it_back),
        TEST(receives_a_shaft_and_takes_it_back),
        TEST(revises_a_chart),
        TEST(a_new_chart_comes_and_goes),
        TEST(refuses_wrong_charts),
        TEST(changes_an_order_line),
        TEST(only_who_may),
        TEST(refuses_what_is_not_as_it_was),
        TEST(two_changes_are_one),
        TEST(gives_a_trim),
        TEST(takes_in_an_offcut),
        TEST(rehearses),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
