// What the desk asks: lists of orders, lots, new tickets, stock, what to fetch, the bench's pace.

#include "desk_fixture.h"
#include "workshop.h"

#include <stdio.h>

static int opened(void **state) {
    static struct fixture fixture;
    fixture_open(&fixture);
    *state = &fixture;
    return 0;
}

static int closed(void **state) {
    fixture_close(*state);
    return 0;
}

static void run(struct fixture *fixture, const char *sql) {
    fixture_exec(fixture->store->db, sql);
}

static void lists_orders(void **state) {
    struct fixture *fixture = *state;
    struct order_line lines[4];
    enum order_status held = ORDER_HELD;
    int64_t counts[ORDER_STATUS_COUNT];
    run(fixture, "INSERT INTO build (name, status, priority, reference, note) VALUES "
                 "('2050', 'held', 1, 'card 7', 'by Friday'), ('2040', 'held', 2, '', '')");
    fixture_bring(fixture, 2, STAGE_DONE);
    fixture_bring(fixture, 3, STAGE_TIP_CUT);
    assert_int_equal(store_orders(fixture->store, NULL, "", lines, 4), 4);
    assert_string_equal(lines[0].build, "2040");
    const struct order_line *line = &lines[2];
    assert_string_equal(line->build, "2042");
    assert_int_equal(line->status, ORDER_RELEASED);
    assert_int_equal(line->priority, 3);
    assert_string_equal(line->due, "2026-03-02");
    assert_int_equal(line->clubs, 4);
    assert_int_equal(line->done, 1);
    assert_int_equal(line->begun, 1);
    assert_int_equal(line->short_parts, 1); // club 9 has nothing yet
    assert_false(line->bench_waits);
    assert_string_equal(lines[3].reference, "card 7");
    assert_string_equal(lines[3].note, "by Friday");
    assert_string_equal(lines[3].due, "");
    assert_int_equal(store_orders(fixture->store, NULL, "2041", lines, 4), 2);
    assert_string_equal(lines[0].build, "2042");
    assert_int_equal(store_orders(fixture->store, &held, "", lines, 4), 2);
    assert_string_equal(lines[1].build, "2050");
    assert_int_equal(store_orders(fixture->store, &held, "2050", lines, 4), 0);
    run(fixture, "UPDATE club SET cancelled = 1 WHERE id = 5; UPDATE build SET changed_seq = 1 "
                 "WHERE name = '2042'");
    assert_int_equal(store_order(fixture->store, "2042", lines), STORE_OK);
    assert_int_equal(lines[0].clubs, 3);
    assert_int_equal(lines[0].short_parts, 0);
    assert_true(lines[0].bench_waits);
    assert_int_equal(store_order(fixture->store, "9999", lines), STORE_NONE);
    assert_int_equal(store_order_counts(fixture->store, counts), STORE_OK);
    assert_int_equal(counts[ORDER_RELEASED], 2);
    assert_int_equal(counts[ORDER_HELD], 2);
    assert_int_equal(counts[ORDER_DRAFT], 0);
}

// The number after the highest. Debian's python3-stdnum (iso7064.mod_37_2) finds 24 bodies between
// 0006 and 0529 whose check character would be `*`: the 500th ticket is 0529.
static void gives_new_tickets(void **state) {
    struct fixture *fixture = *state;
    static char tickets[NEXT_TICKETS_MAX][TICKET_TEXT_MAX];
    struct ticket ticket;
    assert_int_equal(store_next_tickets(fixture->store, TICKET_HEAD, NEXT_TICKETS_MAX, tickets),
                     STORE_OK);
    assert_string_equal(tickets[0], "H-00060"); // after H-00052
    for (int i = 0; i < NEXT_TICKETS_MAX; i++) {
        assert_int_equal(ticket_parse(tickets[i], &ticket), TICKET_OK);
        assert_int_equal(ticket.kind, TICKET_HEAD);
        assert_true(i == 0 || strcmp(tickets[i - 1], tickets[i]) < 0);
    }
    int last = 0;
    assert_int_equal(sscanf(tickets[NEXT_TICKETS_MAX - 1], "H-%4d", &last), 1);
    assert_int_equal(last, 529);
    // What was received meanwhile counts, whatever its model; letters do not.
    run(fixture, "INSERT INTO shaft (ticket, model, flex) VALUES ('S-0120I', 'Reed 60', 'R'), "
                 "('S-ZZ99K', 'Reed 60', 'R')");
    assert_int_equal(store_next_tickets(fixture->store, TICKET_SHAFT, 1, tickets), STORE_OK);
    assert_int_equal(strncmp(tickets[0], "S-0121", 6), 0);
    run(fixture, "DELETE FROM shaft WHERE ticket = 'S-0120I'"); // its number is not given again
    assert_int_equal(store_next_tickets(fixture->store, TICKET_SHAFT, 1, tickets), STORE_OK);
    assert_int_equal(strncmp(tickets[0], "S-0121", 6), 0);
    assert_int_equal(store_next_tickets(fixture->store, TICKET_BUILD, 1, tickets), STORE_OK);
    assert_int_equal(strncmp(tickets[0], "B-2043", 6), 0);
    assert_int_equal(store_next_tickets(fixture->store, TICKET_WORKER, 1, tickets), STORE_OK);
    assert_int_equal(strncmp(tickets[0], "W-0003", 6), 0);
    assert_int_equal(store_next_tickets(fixture->store, TICKET_COMMAND, 1, tickets), STORE_REFUSED);
    assert_int_equal(store_next_tickets(fixture->store, TICKET_HEAD, 0, tickets), STORE_REFUSED);
    assert_int_equal(store_next_tickets(fixture->store, TICKET_HEAD, NEXT_TICKETS_MAX + 1, tickets),
                     STORE_REFUSED);
    run(fixture, "UPDATE ticket_number SET number = 999999999999 WHERE kind = 'H'");
    assert_int_equal(store_next_tickets(fixture->store, TICKET_HEAD, 1, tickets), STORE_REFUSED);
    assert_non_null(strstr(store_message(fixture->store), "by hand"));
}

static void lists_lots(void **state) {
    struct fixture *fixture = *state;
    struct lot_line lots[4];
    struct lot_part parts[4];
    run(fixture, "UPDATE head SET lot = 'March' WHERE ticket IN ('H-00028', 'H-00044', 'H-00052');"
                 "UPDATE shaft SET lot = 'April' WHERE ticket >= 'S-0003';"
                 "UPDATE shaft SET lot = 'March' WHERE ticket = 'S-0007G';"
                 "UPDATE head SET lot = '' WHERE ticket = 'H-00028'");
    assert_int_equal(store_lots(fixture->store, 0, lots, 4), 2);
    assert_string_equal(lots[0].lot, "April"); // the newest
    assert_int_equal(lots[0].heads, 0);
    assert_int_equal(lots[0].shafts, 3);
    assert_string_equal(lots[1].lot, "March");
    assert_int_equal(lots[1].heads, 2);
    assert_int_equal(lots[1].shafts, 1);
    assert_int_equal(store_lots(fixture->store, lots[0].id, lots, 4), 1);
    assert_string_equal(lots[0].lot, "March");
    assert_int_equal(store_lot_parts(fixture->store, "March", TICKET_HEAD, "", parts, 4), 2);
    assert_string_equal(parts[0].ticket, "H-00044");
    assert_int_equal(parts[0].weight, 279100);
    assert_int_equal(parts[0].model_weight, 279000);
    assert_int_equal(parts[0].length, LENGTH_INCH);
    assert_int_equal(parts[0].model_length, LENGTH_INCH);
    assert_int_equal(parts[1].weight, MASS_UNKNOWN);
    assert_int_equal(store_lot_parts(fixture->store, "March", TICKET_SHAFT, "", parts, 4), 1);
    assert_string_equal(parts[0].model, "Reed 60");
    assert_string_equal(parts[0].flex, "R");
    assert_int_equal(parts[0].model_weight, 62500); // of the newest revision
    assert_int_equal(parts[0].model_length, 46 * LENGTH_INCH);
    assert_int_equal(store_lot_parts(fixture->store, "April", TICKET_SHAFT, "S-0003O", parts, 4),
                     2);
    assert_string_equal(parts[0].ticket, "S-0004M");
    run(fixture, "UPDATE shaft SET lot = '' WHERE lot = 'April'"); // an empty lot is none
    assert_int_equal(store_lots(fixture->store, 0, lots, 4), 1);
}

static void counts_the_stock(void **state) {
    struct fixture *fixture = *state;
    struct stock_line lines[8];
    fixture_wish(fixture->store); // clubs 6 to 8 wish for an Alder 110 S, and so does club 5
    run(fixture, "INSERT INTO stock_level VALUES ('shaft', 'Alder 110', 'S', 2, 10), "
                 "('shaft', 'Reed 60', 'X', 1, 4), ('head', 'Heron 3', '', 1, 3)");
    assert_int_equal(store_stock_lines(fixture->store, false, NULL, lines, 8), 3);
    assert_string_equal(lines[0].model, "Alder 110");
    assert_string_equal(lines[0].flex, "S");
    assert_int_equal(lines[0].free, 3);
    assert_int_equal(lines[0].reserved, 3);
    assert_int_equal(lines[0].needed, 4);
    assert_int_equal(lines[0].short_by, 1);
    assert_true(lines[0].levelled);
    assert_int_equal(lines[0].reorder, 11); // -1 would be left
    assert_string_equal(lines[1].model, "Reed 60");
    assert_string_equal(lines[1].flex, "R");
    assert_int_equal(lines[1].free, 1);
    assert_int_equal(lines[1].reserved, 1);
    assert_false(lines[1].levelled);
    assert_int_equal(lines[1].reorder, 0);
    assert_string_equal(lines[2].flex, "X"); // none there
    assert_int_equal(lines[2].free, 0);
    assert_int_equal(lines[2].reorder, 4);
    assert_int_equal(store_stock_lines(fixture->store, false, &lines[1], lines, 8), 1);
    assert_string_equal(lines[0].flex, "X");
    // A held order needs nothing, and what is cut is no stock.
    run(fixture, "UPDATE build SET status = 'held' WHERE name = '2050'");
    fixture_bring(fixture, 3, STAGE_TIP_CUT);
    assert_int_equal(store_stock_lines(fixture->store, false, NULL, lines, 1), 1);
    assert_int_equal(lines[0].needed, 1);
    assert_int_equal(lines[0].short_by, 0);
    assert_int_equal(lines[0].reserved, 2);
    assert_int_equal(store_stock_lines(fixture->store, true, NULL, lines, 8), 4);
    assert_string_equal(lines[0].model, "Heron 3");
    assert_int_equal(lines[0].free, 0);
    assert_int_equal(lines[0].reserved, 1);
    assert_int_equal(lines[0].reorder, 3);
    assert_string_equal(lines[2].model, "Plover 7");
    assert_int_equal(lines[2].reserved, 1); // that of club 3 is begun; club 6 has one
}

struct picked {
    char text[1024];
    int stop_after;
};
static bool picks(void *context, const struct pick_line *line) {
    struct picked *picked = context;
    size_t used = strlen(picked->text);
    static const char kinds[] = "HShs";
    snprintf(picked->text + used, sizeof picked->text - used, "%c %s %s %s;", kinds[line->what],
             line->rack, line->what < PICK_NO_HEAD ? line->ticket : line->model, line->club);
    return --picked->stop_after != 0;
}

static void lists_what_to_fetch(void **state) {
    struct fixture *fixture = *state;
    struct picked picked = {.text = ""};
    fixture_bring(fixture, 4, STAGE_TIP_CUT); // its parts are at the saw
    assert_int_equal(store_pick(fixture->store, "2042", "", picks, &picked), STORE_OK);
    assert_string_equal(picked.text, "H  H-00028 7;H  H-00036 4h;S B1 S-0002Q 4h;S B1 S-0003O 7;"
                                     "h   9;s  Alder 110 9;");
    picked = (struct picked){.stop_after = 2};
    assert_int_equal(store_pick(fixture->store, "", "2026-03-31", picks, &picked), STORE_OK);
    assert_string_equal(picked.text, "H  H-0001A 1;H  H-00028 7;");
    picked = (struct picked){.text = ""};
    assert_int_equal(store_pick(fixture->store, "", "2026-03-01", picks, &picked), STORE_NONE);
    run(fixture, "UPDATE build SET status = 'held' WHERE name = '2042'");
    assert_int_equal(store_pick(fixture->store, "", "2026-03-31", picks, &picked), STORE_OK);
    assert_string_equal(picked.text, "H  H-0001A 1;S A1 S-0001S 1;");
    picked = (struct picked){.stop_after = 1}; // one order is listed whatever it is
    assert_int_equal(store_pick(fixture->store, "2042", "", picks, &picked), STORE_OK);
}

static void lists_what_is_left(void **state) {
    struct fixture *fixture = *state;
    struct offcut_line lines[4];
    run(fixture, "UPDATE shaft SET life = 'scrap', remaining = 900000000 WHERE ticket = 'S-0005K';"
                 "INSERT INTO shaft (ticket, model, flex, life, remaining) VALUES "
                 "('S-0010Q', 'Alder 110', 'S', 'scrap', 1000000000), "
                 "('S-0011O', 'Alder 110', 'S', 'scrap', NULL), "
                 "('S-0012M', 'Alder 110', 'R', 'scrap', 1000000000), "
                 "('S-0013K', 'Alder 110', 'S', 'cut', 950000000), "
                 "('S-0014I', 'Alder 110', 'S', 'cut', 900000000)");
    assert_int_equal(store_offcuts(fixture->store, "Alder 110", "S", 900000000, NULL, lines, 4), 4);
    assert_string_equal(lines[0].ticket, "S-0005K");
    assert_string_equal(lines[0].rack, "B2");
    assert_int_equal(lines[0].life, PART_SCRAP);
    assert_string_equal(lines[1].ticket, "S-0014I");
    assert_int_equal(lines[1].life, PART_CUT);
    assert_string_equal(lines[3].ticket, "S-0010Q");
    assert_int_equal(
        store_offcuts(fixture->store, "Alder 110", "S", 900000000, &lines[1], lines, 4), 2);
    assert_string_equal(lines[0].ticket, "S-0013K");
    assert_int_equal(store_offcuts(fixture->store, "Alder 110", "S", 1000000001, NULL, lines, 4),
                     0);
}

// Clubs finished at this bench 9 minutes apart; those of another bench do not count.
static void knows_the_pace(void **state) {
    struct fixture *fixture = *state;
    int64_t pace = -1;
    assert_int_equal(store_pace(fixture->store, &pace), STORE_NONE);
    assert_int_equal(pace, -1);
    for (int64_t id = 1; id <= 7; id++) {
        char sql[400];
        snprintf(sql, sizeof sql,
                 "INSERT INTO log SELECT max(seq) + 1, 'measure', 0, %lld, 'boot', 'Bench 1', '', "
                 "NULL, '', '', '', '', substr('%032lld', -32), 0, NULL, NULL, NULL, 'in', '', '', "
                 "0, '', zeroblob(32) FROM log; INSERT INTO club (build, name, position, stage, "
                 "bench, measure_seq) SELECT '2041', 'x%lld', 10 + %lld, 'done', '%s', max(seq) "
                 "FROM log",
                 (long long)(id * 540000), (long long)id, (long long)id, (long long)id,
                 id == 7 ? "Bench 2" : "Bench 1");
        run(fixture, sql);
        assert_int_equal(store_pace(fixture->store, &pace), id < 6 ? STORE_NONE : STORE_OK);
    }
    assert_int_equal(pace, 540000);
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, opened, closed)

int main(void) {
    const struct CMUnitTest tests[] = {
        TEST(lists_orders),     TEST(gives_new_tickets),   TEST(lists_lots),
        TEST(counts_the_stock), TEST(lists_what_to_fetch), TEST(lists_what_is_left),
        TEST(knows_the_pace),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
