// Shafts in stock, and shafts chosen from it.

#include "fixture.h"

static int opened(void **state) {
    static struct fixture fixture;
    fixture_open(&fixture);
    *state = &fixture;
    return 0;
}

static int closed(void **state) {
    fixture_expect_file((*(struct fixture **)state)->store);
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

// --- kits --------------------------------------------------------------------------------------

static struct entry kit(struct fixture *fixture, int64_t club, const char *shaft) {
    struct entry entry = fixture_entry(fixture, ENTRY_KIT, club);
    strcpy(entry.worker, SUPERVISOR);
    strcpy(entry.shaft, shaft);
    return entry;
}

static int64_t count(struct fixture *fixture, const char *sql) {
    return fixture_number(fixture->store->db, sql);
}

static void consents(struct fixture *fixture) {
    fixture_exec(fixture->store->db,
                 "UPDATE club SET picked_column = '8', shim_consent = 1 WHERE id = 6");
}

static void takes_a_kit_list(void **state) {
    struct fixture *fixture = *state;
    int64_t seq = 0;
    fixture_wish(fixture->store);
    consents(fixture);
    struct entry list[] = {kit(fixture, 6, "S-0009C"), kit(fixture, 7, "S-0005K"),
                           kit(fixture, 8, "S-0008E")};
    assert_int_equal(store_append_all(fixture->store, list, 3), STORE_OK);
    for (int i = 0; i < 3; i++) {
        assert_int_equal(list[i].seq, 2 + i); // after genesis
        assert_string_equal(fixture_club(fixture, 6 + i).shaft.ticket, list[i].shaft);
        assert_int_equal(fixture_club(fixture, 6 + i).progress.stage, STAGE_PENDING);
    }
    struct club club = fixture_club(fixture, 6);
    assert_string_equal(club.order.picked_column, ""); // given to another shaft
    assert_false(club.order.shim_consent);
    assert_string_equal(club.order.wished_model, "Alder 110"); // the order's words stay
    assert_string_equal(club.model.name, "Alder 110");
    assert_int_equal(club.chart.count, 2);
    // Again: nothing is written twice, and each answer is the first one.
    struct entry again[] = {list[0], list[1], list[2]};
    again[0].seq = again[1].seq = again[2].seq = 0;
    assert_int_equal(store_append_all(fixture->store, again, 3), STORE_OK);
    assert_int_equal(again[2].seq, 4);
    assert_int_equal(store_confirmed(fixture->store, list[1].confirm_id, &seq), STORE_OK);
    assert_int_equal(seq, 3);
    assert_int_equal(count(fixture, "SELECT max(seq) FROM log"), 4);
    // Then the club is built as any other.
    fixture_bring(fixture, 7, STAGE_DONE);
}

// Every way in which the last of three is refused takes the other two back.
static void refuses_a_kit_list_as_a_whole(void **state) {
    static const struct {
        int64_t club;
        const char *shaft, *words;
    } bad[] = {
        {8, "S-0005K", "S-0005K is no raw, free shaft"}, // taken by the second
        {8, "S-0004M", "S-0004M is no raw, free shaft"}, // club 4's
        {8, "S-0006I", "S-0006I is no raw, free shaft"}, // scrap
        {8, "S-0007G", "model and flex that club 2050 9 wishes"},
        {8, "S-9999Z", "S-9999Z is no raw, free shaft"},
        {4, "S-0008E", "has head \"H-00044\" and shaft \"S-0004M\""},
        {5, "S-0008E", "a shaft is chosen for a club with a head"},
        {99, "S-0008E", "no club"},
        {0, "S-0008E", "A kit entry needs a club"},
    };
    struct fixture *fixture = *state;
    fixture_wish(fixture->store);
    consents(fixture);
    fixture_scrap(fixture->store, true);
    for (size_t i = 0; i < COUNT(bad); i++) {
        struct entry list[] = {kit(fixture, 6, "S-0009C"), kit(fixture, 7, "S-0005K"),
                               kit(fixture, bad[i].club < 9 ? bad[i].club : 0, bad[i].shaft)};
        list[2].club_id = bad[i].club;
        if (store_append_all(fixture->store, list, 3) != STORE_REFUSED ||
            strstr(store_message(fixture->store), bad[i].words) == NULL) {
            fail_msg("%s: %s", bad[i].words, store_message(fixture->store));
        }
        assert_int_equal(list[0].seq + list[1].seq + list[2].seq, 0);
        assert_int_equal(count(fixture, "SELECT max(seq) FROM log"), 1);
        assert_int_equal(count(fixture, "SELECT count(*) FROM shaft WHERE club > 5"), 0);
        assert_int_equal(count(fixture, "SELECT shim_consent FROM club WHERE id = 6"), 1);
        assert_true(sqlite3_get_autocommit(fixture->store->db));
    }
    fixture_scrap(fixture->store, false);
}

static void refuses_a_kit(struct fixture *fixture, struct entry *entry, const char *words) {
    if (store_append(fixture->store, entry) != STORE_REFUSED ||
        strstr(store_message(fixture->store), words) == NULL) {
        fail_msg("%s: %s", words, store_message(fixture->store));
    }
}

static void refuses_kits_that_are_not_a_supervisors(void **state) {
    struct fixture *fixture = *state;
    fixture_wish(fixture->store);
    struct entry entry = kit(fixture, 6, "S-0005K");
    strcpy(entry.worker, BUILDER);
    refuses_a_kit(fixture, &entry, "Only a supervisor");
    entry = kit(fixture, 6, "S-0005K");
    strcpy(entry.head, "H-0007Z");
    refuses_a_kit(fixture, &entry, "made of head H-00060");
    fixture_exec(fixture->store->db, "UPDATE club SET stage = 'tip_shown' WHERE id = 6");
    entry = kit(fixture, 6, "S-0005K");
    refuses_a_kit(fixture, &entry, "kit is not possible there");
    fixture_exec(fixture->store->db,
                 "UPDATE club SET stage = 'pending', wished_model = '', wished_flex = '' "
                 "WHERE id = 6");
    entry = kit(fixture, 6, "S-0005K"); // nothing wished
    refuses_a_kit(fixture, &entry, "is no raw, free shaft");
    assert_int_equal(count(fixture, "SELECT max(seq) FROM log"), 1);
}

// A list of which a part is in the log is a mistake of its maker, not a retry.
static void refuses_lists_half_known(void **state) {
    struct fixture *fixture = *state;
    fixture_wish(fixture->store);
    struct entry list[] = {kit(fixture, 6, "S-0009C"), kit(fixture, 7, "S-0005K")};
    struct entry alone = list[1];
    assert_int_equal(store_append(fixture->store, &alone), STORE_OK);
    assert_int_equal(store_append_all(fixture->store, list, 2), STORE_REFUSED);
    assert_non_null(strstr(store_message(fixture->store), "1 of these 2 entries"));
    assert_int_equal(list[1].seq, 0);
    assert_int_equal(count(fixture, "SELECT max(seq) FROM log"), 2);
    assert_int_equal(store_append_all(fixture->store, list, 0), STORE_REFUSED);
    assert_int_equal(store_append_all(fixture->store, list, STORE_APPEND_MAX + 1), STORE_REFUSED);
    list[1] = list[0]; // the same confirm id twice
    assert_int_equal(store_append_all(fixture->store, list, 2), STORE_REFUSED);
    assert_int_equal(count(fixture, "SELECT max(seq) FROM log"), 2);
}

#define STEP(name) cmocka_unit_test_setup_teardown(name, opened, closed)

int main(void) {
    const struct CMUnitTest tests[] = {
        STEP(finds_stock),
        STEP(says_when_stock_cannot_be_read),
        STEP(takes_a_kit_list),
        STEP(refuses_a_kit_list_as_a_whole),
        STEP(refuses_kits_that_are_not_a_supervisors),
        STEP(refuses_lists_half_known),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
