// Orders that wait, are held, cancelled or changed while they are cut.

#include "desk_fixture.h"
#include "workshop.h"

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

// Ids of the clubs that wait for the bench, as digits of one number.
static int64_t queue(struct fixture *fixture, enum club_list list) {
    struct club_line lines[8];
    int64_t total = -1;
    int64_t ids = 0;
    int count = store_clubs(fixture->store, list, lines, 8, &total);
    assert_int_equal(count, total);
    for (int i = 0; i < count; i++) {
        ids = ids * 10 + lines[i].id;
    }
    return ids;
}

static int64_t set(struct fixture *fixture, const char *sheet, const char *build, const char *club,
                   const char *cell, const char *value) {
    struct document before = desk_load(fixture, sheet, build, club, NULL);
    struct document after = before;
    assert_true(document_set(&after, cell, value));
    assert_true(strcmp(sheet, "orders") == 0 || strcmp(sheet, "builds") == 0 || club == NULL);
    return desk_changes(fixture, &before, &after);
}

static void refuses_to_set(struct fixture *fixture, const char *sheet, const char *build,
                           const char *club, const char *cell, const char *value,
                           const char *words) {
    struct document before = desk_load(fixture, sheet, build, club, NULL);
    struct document after = before;
    assert_true(document_set(&after, cell, value));
    desk_refuses(fixture, desk_entry(fixture, &before, &after, SUPERVISOR), cell, words);
}

static void goes_by_status_and_priority(void **state) {
    struct fixture *fixture = *state;
    assert_int_equal(queue(fixture, CLUBS_NEXT), 23415); // 2042 is due first, 5 has no day
    set(fixture, "orders", "2041", NULL, "priority", "1");
    assert_int_equal(queue(fixture, CLUBS_NEXT), 12345);
    set(fixture, "orders", "2041", NULL, "priority", "5");
    assert_int_equal(queue(fixture, CLUBS_NEXT), 23451);
    set(fixture, "orders", "2042", NULL, "status", "held");
    assert_int_equal(queue(fixture, CLUBS_NEXT), 1);
    assert_int_equal(fixture_club(fixture, 2).order.status, ORDER_HELD);
    int64_t seq = set(fixture, "orders", "2041", NULL, "status", "draft");
    assert_int_equal(queue(fixture, CLUBS_NEXT), 0);
    struct entry back = desk_back(fixture, seq);
    assert_int_equal(store_append(fixture->store, &back), STORE_OK);
    assert_int_equal(queue(fixture, CLUBS_NEXT), 1);
    assert_int_equal(fixture_club(fixture, 1).order.priority, 5);
    refuses_to_set(fixture, "orders", "2041", NULL, "priority", "6", "from 1 to 5");
    refuses_to_set(fixture, "orders", "2041", NULL, "status", "waiting", "is none of");
    struct document before = desk_load(fixture, "orders", "2041", NULL, NULL);
    struct document after = before;
    assert_true(document_set(&after, "status", "held"));
    desk_refuses(fixture, desk_entry(fixture, &before, &after, BUILDER), NULL, "supervisor");
}

// What is half cut is never out of sight, but when it is cancelled, which it cannot be.
static void a_held_order_shows_its_half_cut_shafts(void **state) {
    struct fixture *fixture = *state;
    fixture_bring(fixture, 2, STAGE_TIP_CUT);
    set(fixture, "orders", "2042", NULL, "status", "held");
    assert_int_equal(queue(fixture, CLUBS_HALF_CUT), 2);
    assert_int_equal(queue(fixture, CLUBS_NEXT), 1);
    refuses_to_set(fixture, "orders", "2042", NULL, "status", "cancelled", "club 4h");
    assert_int_equal(fixture_number(fixture->store->db, "SELECT count(*) FROM head WHERE club > 1"),
                     3);
}

static void a_cancelled_order_frees_its_parts(void **state) {
    struct fixture *fixture = *state;
    sqlite3 *db = fixture->store->db;
    struct part part;
    set(fixture, "orders", "2042", NULL, "status", "cancelled");
    assert_int_equal(queue(fixture, CLUBS_NEXT), 1);
    assert_int_equal(store_part(fixture->store, "S-0003O", &part), STORE_OK);
    assert_int_equal(part.club_id, 0);
    assert_int_equal(part.life, PART_RAW);
    assert_int_equal(fixture_number(db, "SELECT count(*) FROM head WHERE club IS NOT NULL"), 1);
    refuses_to_set(fixture, "builds", "2042", "7", "head", "H-00028", "is cancelled");
    // Released again, its clubs wait for parts.
    set(fixture, "orders", "2042", NULL, "status", "released");
    assert_int_equal(queue(fixture, CLUBS_NEXT), 23415);
    set(fixture, "builds", "2042", "7", "head", "H-00028");
    assert_string_equal(fixture_club(fixture, 3).head.ticket, "H-00028");
}

// A club that is done stays done, with its parts.
static void cancelling_spares_what_is_done(void **state) {
    struct fixture *fixture = *state;
    fixture_bring(fixture, 3, STAGE_DONE);
    set(fixture, "orders", "2042", NULL, "status", "cancelled");
    struct club club = fixture_club(fixture, 3);
    assert_string_equal(club.head.ticket, "H-00028");
    assert_string_equal(club.shaft.ticket, "S-0003O");
    assert_string_equal(fixture_club(fixture, 2).head.ticket, "");
}

static void a_cancelled_club_frees_its_parts(void **state) {
    struct fixture *fixture = *state;
    struct document before = desk_load(fixture, "builds", "2042", "7", NULL);
    struct document after = before;
    assert_true(document_set(&after, "cancelled", "yes"));
    struct document said = after; // its parts are kept in the cells, but not in the shop
    desk_refuses(fixture, desk_entry(fixture, &before, &said, SUPERVISOR), "head", "not written");
    assert_int_equal(store_canonical(fixture->store, &after), STORE_OK);
    desk_expect(&after, "head", "");
    desk_expect(&after, "shaft", "");
    int64_t seq = desk_changes(fixture, &before, &after);
    assert_int_equal(queue(fixture, CLUBS_NEXT), 2415);
    assert_int_equal(
        fixture_number(fixture->store->db, "SELECT count(*) FROM shaft WHERE club = 3"), 0);
    assert_true(fixture_club(fixture, 3).order.cancelled);
    struct entry back = desk_back(fixture, seq);
    assert_int_equal(store_append(fixture->store, &back), STORE_OK);
    assert_string_equal(fixture_club(fixture, 3).shaft.ticket, "S-0003O");
    assert_int_equal(queue(fixture, CLUBS_NEXT), 23415);
    // Not once its mark was shown, or its tip is cut.
    fixture_bring(fixture, 3, STAGE_TIP_SHOWN);
    before = desk_load(fixture, "builds", "2042", "7", NULL);
    desk_refuses(fixture, desk_entry(fixture, &before, &after, SUPERVISOR), "head", "was shown");
    fixture_bring(fixture, 3, STAGE_TIP_CUT);
    desk_refuses(fixture, desk_entry(fixture, &before, &after, SUPERVISOR), "head", "is cut");
    desk_refuses(fixture, desk_entry(fixture, &before, NULL, SUPERVISOR), NULL, "");
}

// A line stays in the books: an order that has one cannot be taken back, an empty one can.
static void orders_come_and_go(void **state) {
    struct fixture *fixture = *state;
    struct document order = {.sheet = "orders", .keys = 1};
    assert_true(document_set(&order, "build", "2060"));
    assert_int_equal(store_canonical(fixture->store, &order), STORE_REFUSED); // no status
    assert_true(document_set(&order, "status", "draft"));
    assert_true(document_set(&order, "priority", "3"));
    assert_true(document_set(&order, "reference", "on the blue card"));
    assert_int_equal(store_canonical(fixture->store, &order), STORE_OK);
    int64_t seq = desk_changes(fixture, NULL, &order);
    assert_true(desk_there(fixture, "orders", "2060", NULL, NULL));
    struct document line = desk_load(fixture, "builds", "2042", "9", NULL);
    assert_true(document_set(&line, "build", "2060"));
    desk_changes(fixture, NULL, &line);
    assert_int_equal(queue(fixture, CLUBS_NEXT), 23415); // a draft is not for the bench
    struct entry back = desk_back(fixture, seq);
    desk_refuses(fixture, back, "build", "has clubs");
    desk_refuses(fixture, desk_entry(fixture, &line, NULL, SUPERVISOR), "cancelled", "cancel it");
    assert_true(document_set(&order, "build", "2061"));
    seq = desk_changes(fixture, NULL, &order);
    back = desk_back(fixture, seq);
    assert_int_equal(store_append(fixture->store, &back), STORE_OK);
    assert_false(desk_there(fixture, "orders", "2061", NULL, NULL));
}

// --- what a bench must be told -------------------------------------------------------------------

static void refused(struct fixture *fixture, enum entry_kind kind, int64_t club, int64_t refers,
                    const char *words) {
    struct entry entry = fixture_entry(fixture, kind, club);
    entry.refers = refers;
    assert_int_equal(store_append(fixture->store, &entry), STORE_REFUSED);
    assert_non_null(strstr(store_message(fixture->store), words));
}

static int64_t tells(struct fixture *fixture, int64_t club, int64_t refers) {
    struct entry entry = fixture_entry(fixture, ENTRY_TOLD, club);
    entry.refers = refers;
    if (store_append(fixture->store, &entry) != STORE_OK) {
        fail_msg("%s", store_message(fixture->store));
    }
    return entry.seq;
}

static void a_begun_order_that_changes_is_told(void **state) {
    struct fixture *fixture = *state;
    struct change_line lines[4];
    set(fixture, "builds", "2042", "8", "playing_length", "36"); // nothing is begun yet
    assert_int_equal(fixture_club(fixture, 4).order.changed_seq, 0);
    fixture_bring(fixture, 2, STAGE_TIP_CUT);
    set(fixture, "builds", "2041", "1", "playing_length", "42"); // of another order
    set(fixture, "builds", "2042", "8", "due", "2026-04-01");    // nothing to the saw
    assert_int_equal(fixture_club(fixture, 2).order.changed_seq, 0);
    int64_t first = set(fixture, "builds", "2042", "8", "playing_length", "36 1/4");
    int64_t newest = set(fixture, "builds", "2042", "4h", "playing_length", "39");
    assert_int_equal(fixture_club(fixture, 2).order.changed_seq, first);
    assert_int_equal(fixture_club(fixture, 1).order.changed_seq, 0);
    assert_int_equal(store_order_changes(fixture->store, "2042", first, lines, 4), 2);
    assert_int_equal(lines[0].seq, first);
    assert_string_equal(lines[0].club, "8");
    assert_string_equal(lines[0].words, "playing_length 36 to 36 1/4");
    assert_string_equal(lines[0].worker, SUPERVISOR);
    assert_string_equal(lines[1].club, "4h");
    // No mark is shown and no cut logged before the bench was told of the newest.
    refused(fixture, ENTRY_BUTT_SHOWN, 2, 0, "was changed");
    refused(fixture, ENTRY_TIP_SHOWN, 3, 0, "was changed");
    refused(fixture, ENTRY_TOLD, 2, first, "once more");
    tells(fixture, 2, newest);
    assert_int_equal(fixture_club(fixture, 2).order.changed_seq, 0);
    refused(fixture, ENTRY_TOLD, 2, newest, "another bench was told");
    fixture_bring(fixture, 2, STAGE_DONE);
    assert_int_equal(fixture_club(fixture, 2).order.playing_length, 39 * LENGTH_INCH);
}

// The mark is on the screen while the desk changes the club: the press is not logged.
static void a_mark_that_no_longer_holds_is_not_logged(void **state) {
    struct fixture *fixture = *state;
    fixture_bring(fixture, 1, STAGE_TIP_SHOWN);
    int64_t seq = set(fixture, "builds", "2041", "1", "step", "0");
    refused(fixture, ENTRY_TIP_CUT, 1, 0, "after this mark was planned");
    refused(fixture, ENTRY_TIP_PARTIAL, 1, 0, "after this mark was planned");
    tells(fixture, 1, seq);
    fixture_bring(fixture, 1, STAGE_BUTT_SHOWN);
    seq = set(fixture, "builds", "2041", "1", "grip_cap", "1/8");
    refused(fixture, ENTRY_BUTT_CUT, 1, 0, "after this mark was planned");
    tells(fixture, 1, seq);
    fixture_bring(fixture, 1, STAGE_BUTT_CUT);
    refuses_to_set(fixture, "builds", "2041", "1", "grip_cap", "1/4", "is cut");
}

// A part that is reserved for the order is the order's too; so is the order itself.
static void parts_and_the_order_itself_are_told(void **state) {
    struct fixture *fixture = *state;
    struct change_line line;
    fixture_bring(fixture, 2, STAGE_TIP_CUT);
    struct document before = desk_load(fixture, "heads", "H-00028", NULL, NULL);
    struct document after = before;
    assert_true(document_set(&after, "weight_g", "273"));
    int64_t seq = desk_changes(fixture, &before, &after);
    assert_int_equal(fixture_club(fixture, 3).order.changed_seq, seq);
    assert_int_equal(store_order_changes(fixture->store, "2042", seq, &line, 1), 1);
    assert_string_equal(line.part, "H-00028");
    assert_string_equal(line.club, "7");
    tells(fixture, 3, seq);
    seq = set(fixture, "orders", "2042", NULL, "status", "held");
    assert_int_equal(fixture_club(fixture, 3).order.changed_seq, seq);
    tells(fixture, 3, seq);
    refused(fixture, ENTRY_BUTT_SHOWN, 2, 0, "is not released");
    set(fixture, "orders", "2042", NULL, "status", "released");
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, opened, closed)

int main(void) {
    const struct CMUnitTest tests[] = {
        TEST(goes_by_status_and_priority),         TEST(a_held_order_shows_its_half_cut_shafts),
        TEST(a_cancelled_order_frees_its_parts),   TEST(cancelling_spares_what_is_done),
        TEST(a_cancelled_club_frees_its_parts),    TEST(orders_come_and_go),
        TEST(a_begun_order_that_changes_is_told),  TEST(a_mark_that_no_longer_holds_is_not_logged),
        TEST(parts_and_the_order_itself_are_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
