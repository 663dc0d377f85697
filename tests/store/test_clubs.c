// Parts, whole clubs, lists and their counts.

#include "fixture.h"

#include <stdio.h>

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

static void finds_parts(void **state) {
    static const struct {
        const char *ticket, *model, *rack, *build, *club;
        enum ticket_kind kind;
        enum part_life life;
        int64_t id;
    } rows[] = {
        {"H-0001A", "Heron 3", "", "2041", "1", TICKET_HEAD, PART_RAW, 1},
        {"H-00052", "Plover 8", "", "", "", TICKET_HEAD, PART_RAW, 0},
        {"S-0004M", "Alder 110", "B1", "2042", "8", TICKET_SHAFT, PART_RAW, 4},
        {"S-0006I", "Alder 110", "", "", "", TICKET_SHAFT, PART_SCRAP, 0},
    };
    struct fixture *fixture = *state;
    struct part part;
    fixture_scrap(fixture->store, true);
    for (size_t i = 0; i < COUNT(rows); i++) {
        assert_int_equal(store_part(fixture->store, rows[i].ticket, &part), STORE_OK);
        assert_string_equal(part.ticket, rows[i].ticket);
        assert_string_equal(part.model, rows[i].model);
        assert_string_equal(part.rack, rows[i].rack);
        assert_string_equal(part.build, rows[i].build);
        assert_string_equal(part.club, rows[i].club);
        assert_int_equal(part.kind, rows[i].kind);
        assert_int_equal(part.life, rows[i].life);
        assert_int_equal(part.club_id, rows[i].id);
    }
    fixture_scrap(fixture->store, false);
    struct part before = part;
    assert_int_equal(store_part(fixture->store, "H-9999X", &part), STORE_NONE);
    assert_int_equal(store_part(fixture->store, "", &part), STORE_NONE);
    assert_int_equal(store_part(fixture->store, "'; DROP TABLE head; --", &part), STORE_NONE);
    assert_memory_equal(&before, &part, sizeof part);
}

// Every field of club 1 as workshop.sql has it; model, head and chart in their newest revision.
static void loads_a_whole_club(void **state) {
    struct fixture *fixture = *state;
    struct club club = fixture_club(fixture, 1);
    assert_int_equal(club.id, 1);
    assert_string_equal(club.order.build, "2041");
    assert_string_equal(club.order.club, "1");
    assert_int_equal(club.order.position, 1);
    assert_int_equal(club.order.count, 1);
    assert_string_equal(club.order.due, "2026-03-09");
    assert_int_equal(club.order.playing_length, 43 * LENGTH_INCH);
    assert_int_equal(club.order.grip_cap, LENGTH_INCH / 4);
    assert_int_equal(club.order.grip_weight, 50 * MASS_GRAM);
    assert_string_equal(club.order.swingweight, "D2");
    assert_int_equal(club.order.step, -1);
    assert_false(club.order.uniform_flex);
    assert_string_equal(club.order.picked_column, "");
    assert_false(club.order.shim_consent);
    assert_true(club.order.uniform_reference == LENGTH_UNKNOWN); // its only head is unmeasured

    assert_string_equal(club.head.ticket, "H-0001A");
    assert_string_equal(club.head.model, "Heron 3");
    assert_int_equal(club.head.kind, HEAD_KIND_FAIRWAY);
    assert_string_equal(club.head.engraved, "3");
    assert_int_equal(club.head.weight, 211500);
    assert_int_equal(club.head.hosel_bore, 8509000);
    assert_int_equal(club.head.insertion, 31750000);
    assert_true(club.head.bore_height == LENGTH_UNKNOWN); // never the model's figure
    assert_int_equal(club.head.model_bore_height, 38100000);
    assert_int_equal(club.head.bore, BORE_SHORT);
    assert_int_equal(club.head.cg_beyond, -LENGTH_INCH / 10);
    assert_int_equal(club.head.inertia, 2800);

    assert_string_equal(club.shaft.ticket, "S-0001S");
    assert_string_equal(club.shaft.model, "Reed 60");
    assert_string_equal(club.shaft.flex, "R");
    assert_int_equal(club.shaft.raw_length, 46 * LENGTH_INCH);
    assert_int_equal(club.shaft.weight, 62300);
    assert_string_equal(club.shaft.rack, "A1");
    assert_int_equal(club.shaft.balance, 24 * LENGTH_INCH);
    assert_int_equal(club.shaft.raw_frequency, 2455);
    assert_int_equal(club.shaft.frequency_mass, 205 * MASS_GRAM);

    assert_string_equal(club.model.name, "Reed 60");
    assert_int_equal(club.model.material, MATERIAL_GRAPHITE);
    assert_int_equal(club.model.tip, TIP_PARALLEL);
    assert_int_equal(club.model.tip_diameter, 8509000);
    assert_int_equal(club.model.butt_diameter, 15240000);
    assert_int_equal(club.model.raw_length, 46 * LENGTH_INCH);
    assert_int_equal(club.model.weight, 62500);
    assert_int_equal(club.model.tip_section, 6 * LENGTH_INCH);
    assert_int_equal(club.model.max_tip_trim, 3 * LENGTH_INCH);
    assert_int_equal(club.model.max_butt_trim, 6 * LENGTH_INCH);
    assert_int_equal(club.model.bore_note, BORE_NOTE_ABOVE_REFERENCE);
    assert_int_equal(club.model.bore_reference, 38100000);
    assert_int_equal(club.model.note_kinds, 3);
    assert_true(club.model.note_not_through);
    assert_int_equal(club.model.revision, 2);
    assert_true(club.model.balance == LENGTH_UNKNOWN && club.model.tip_wall == LENGTH_UNKNOWN &&
                club.model.butt_wall == LENGTH_UNKNOWN);

    assert_int_equal(club.profile.count, 3); // the newest revision, from the tip on
    assert_int_equal(club.profile.point[0].from_tip, 0);
    assert_int_equal(club.profile.point[0].stiffness, 10125);
    assert_int_equal(club.profile.point[1].from_tip, 20 * LENGTH_INCH);
    assert_int_equal(club.profile.point[2].from_tip, 46 * LENGTH_INCH);
    assert_string_equal(club.order.wished_model, "");

    assert_int_equal(club.chart.kind, CHART_KIND_WOOD);
    assert_string_equal(club.chart.flex, "R");
    assert_int_equal(club.chart.revision, 2);
    assert_int_equal(club.chart.count, 4);
    static const char *const names[] = {"D", "3", "5", "7"}; // by weight, not as they came in
    for (size_t i = 0; i < 4; i++) {
        assert_string_equal(club.chart.column[i].name, names[i]);
        assert_int_equal(club.chart.column[i].weight, 200000 + 10000 * (int)i);
    }
    assert_int_equal(club.chart.column[1].tip_trim, LENGTH_INCH / 2);
    assert_true(club.chart.column[3].tip_trim == LENGTH_UNKNOWN);
    assert_int_equal(club.progress.stage, STAGE_PENDING);
    assert_int_equal(club.progress.attempt, 1);
    assert_true(club.progress.tip_made == LENGTH_UNKNOWN);

    struct club before = club;
    assert_int_equal(store_club(fixture->store, 99, &club), STORE_NONE);
    assert_memory_equal(&before, &club, sizeof club);
}

// R4, common practice, no source: irons of 1 in are the reference of the 3/4 in hybrid on the same
// model. The maker has no hybrid chart, and that is known too.
static void finds_the_uniform_reference(void **state) {
    struct fixture *fixture = *state;
    struct club club = fixture_club(fixture, 2);
    assert_int_equal(club.order.count, 4);
    assert_true(club.order.uniform_flex);
    assert_int_equal(club.head.bore_height, 3 * LENGTH_INCH / 4);
    assert_int_equal(club.order.uniform_reference, LENGTH_INCH);
    assert_int_equal(club.chart.kind, CHART_KIND_HYBRID);
    assert_string_equal(club.chart.flex, "S");
    assert_int_equal(club.chart.count, 0);
    assert_int_equal(club.chart.revision, 0);
    assert_true(club.model.max_tip_trim == LENGTH_UNKNOWN);
    // Only clubs on the same model count: on another model the hybrid is its own reference.
    fixture_exec(fixture->store->db, "UPDATE shaft SET club = NULL WHERE club = 2;"
                                     "UPDATE shaft SET club = 2 WHERE ticket = 'S-0007G'");
    assert_int_equal(fixture_club(fixture, 2).order.uniform_reference, 3 * LENGTH_INCH / 4);
}

static void loads_a_club_without_parts(void **state) {
    struct fixture *fixture = *state;
    struct club club = fixture_club(fixture, 5);
    assert_string_equal(club.head.ticket, "");
    assert_string_equal(club.shaft.ticket, "");
    assert_int_equal(club.chart.count, 0);
    assert_true(club.order.playing_length == LENGTH_UNKNOWN);
    assert_true(club.order.grip_weight == MASS_UNKNOWN);
    assert_true(club.head.weight == MASS_UNKNOWN);
    assert_true(club.shaft.raw_length == LENGTH_UNKNOWN);
    assert_string_equal(club.order.due, "");
    // A shaft to be chosen: the order's words, and nothing made up from them.
    assert_string_equal(club.order.wished_model, "Alder 110");
    assert_string_equal(club.order.wished_flex, "S");
    assert_string_equal(club.model.name, "");
    assert_true(club.model.tip_diameter == LENGTH_UNKNOWN);
    assert_int_equal(club.profile.count, 0);
    // The reference of the heads that will share the model: 1 in, clubs 7 and 8.
    assert_int_equal(club.order.uniform_reference, LENGTH_INCH);
    fixture_exec(fixture->store->db, "UPDATE club SET wished_model = '', wished_flex = ''");
    club = fixture_club(fixture, 5);
    assert_true(club.order.uniform_reference == LENGTH_UNKNOWN);
}

// A steel model: its walls; a wished shaft's head counts for the reference of its mates.
static void loads_a_steel_club(void **state) {
    struct fixture *fixture = *state;
    struct club club = fixture_club(fixture, 3);
    assert_int_equal(club.model.balance, 43 * LENGTH_INCH / 2);
    assert_int_equal(club.model.tip_wall, 18 * LENGTH_INCH / 1000);
    assert_int_equal(club.model.butt_wall, 15 * LENGTH_INCH / 1000);
    assert_true(club.head.cg_beyond == LENGTH_UNKNOWN && club.head.inertia == LENGTH_UNKNOWN);
    assert_true(club.shaft.raw_frequency == FREQUENCY_UNKNOWN);
    assert_true(club.shaft.balance == LENGTH_UNKNOWN);
    assert_int_equal(club.profile.count, 0);
    // 4h 3/4 in, 7 and 8 1 in; were two wished clubs 3/4 in too, that would be the most.
    assert_int_equal(club.order.uniform_reference, LENGTH_INCH);
    fixture_exec(fixture->store->db,
                 "UPDATE head SET bore_height = 19050000, club = 5 WHERE ticket = 'H-00052';"
                 "INSERT INTO club (id, build, name, position, wished_model, wished_flex) "
                 "VALUES (6, '2042', 'P', 5, 'Alder 110', 'S');"
                 "INSERT INTO head (ticket, model, bore_height, club) "
                 "VALUES ('H-00060', 'Plover 8', 19050000, 6)");
    assert_int_equal(fixture_club(fixture, 3).order.uniform_reference, 3 * LENGTH_INCH / 4);
    assert_int_equal(fixture_club(fixture, 5).order.uniform_reference, 3 * LENGTH_INCH / 4);
}

static void finds_clubs_by_name(void **state) {
    struct fixture *fixture = *state;
    int64_t id = 0;
    assert_int_equal(store_club_named(fixture->store, "2042", "7", &id), STORE_OK);
    assert_int_equal(id, 3);
    assert_int_equal(store_club_named(fixture->store, "B-20424", "4h", &id), STORE_OK);
    assert_int_equal(id, 2);
    assert_int_equal(store_club_named(fixture->store, "b-20416", "1", &id), STORE_OK);
    assert_int_equal(id, 1);
    assert_int_equal(store_club_named(fixture->store, "B-20425", "4h", &id), STORE_NONE); // misread
    assert_int_equal(store_club_named(fixture->store, "2042", "1", &id), STORE_NONE);
    assert_int_equal(id, 1);
}

// Ids of a list as one number: 324 is clubs 3, 2, 4.
static int64_t list(struct fixture *fixture, enum club_list which, int max, int64_t *ret_total) {
    struct club_line lines[8];
    int64_t digits = 0;
    int count = store_clubs(fixture->store, which, lines, max, ret_total);
    assert_true(count >= 0);
    for (int i = 0; i < count; i++) {
        digits = digits * 10 + lines[i].id;
    }
    return digits;
}

static void lists_clubs(void **state) {
    struct fixture *fixture = *state;
    struct club_line lines[8];
    int64_t total = -1;
    // By due date, then build and position; no date at all comes last.
    assert_int_equal(list(fixture, CLUBS_NEXT, 8, &total), 23415);
    assert_int_equal(total, 5);
    assert_int_equal(list(fixture, CLUBS_NEXT, 2, &total), 23);
    assert_int_equal(total, 5);
    assert_int_equal(list(fixture, CLUBS_ALL, 8, &total), 12345);
    assert_int_equal(total, 5);
    assert_int_equal(list(fixture, CLUBS_HALF_CUT, 8, &total), 0);
    assert_int_equal(total, 0);

    fixture_bring(fixture, 4, STAGE_TIP_SHOWN);
    fixture_bring(fixture, 3, STAGE_DECISION);
    fixture_bring(fixture, 2, STAGE_DONE);
    assert_int_equal(list(fixture, CLUBS_NEXT, 8, &total), 15);
    assert_int_equal(total, 2);
    assert_int_equal(list(fixture, CLUBS_HALF_CUT, 8, &total), 34);
    assert_int_equal(total, 2);
    assert_int_equal(list(fixture, CLUBS_DECISION, 8, &total), 3);
    assert_int_equal(total, 1);
    assert_int_equal(list(fixture, CLUBS_ALL, 8, NULL), 12345);

    assert_int_equal(store_clubs(fixture->store, CLUBS_HALF_CUT, lines, 8, NULL), 2);
    assert_string_equal(lines[1].build, "2042");
    assert_string_equal(lines[1].club, "8");
    assert_int_equal(lines[1].position, 3);
    assert_int_equal(lines[1].count, 4);
    assert_string_equal(lines[1].head, "H-00044");
    assert_string_equal(lines[1].shaft, "S-0004M");
    assert_string_equal(lines[1].due, "2026-03-02");
    assert_int_equal(lines[1].stage, STAGE_TIP_SHOWN);
    assert_string_equal(lines[1].bench, BENCH);
}

// A pending club that is another bench's is not offered here.
static void leaves_other_benches_their_clubs(void **state) {
    struct fixture *fixture = *state;
    int64_t total = 0;
    fixture_exec(fixture->store->db, "UPDATE club SET bench = 'Bench 2' WHERE id = 3;"
                                     "UPDATE club SET bench = 'Bench 1' WHERE id = 4");
    assert_int_equal(list(fixture, CLUBS_NEXT, 8, &total), 2415);
    assert_int_equal(total, 4);
    assert_int_equal(list(fixture, CLUBS_ALL, 8, &total), 12345);
    assert_int_equal(total, 5);
}

// The kept counts against a count, after inserts, moves and a removal.
static void keeps_count(void **state) {
    struct fixture *fixture = *state;
    sqlite3 *db = fixture->store->db;
    fixture_bring(fixture, 1, STAGE_BUTT_CUT);
    fixture_bring(fixture, 3, STAGE_DONE);
    fixture_exec(db, "INSERT INTO club (build, name, position) VALUES ('2041', 'x', 2);"
                     "DELETE FROM club WHERE id = 5;"
                     "UPDATE club SET stage = 'tip_shown', bench = 'Bench 9' WHERE name = 'x'");
    assert_int_equal(fixture_number(db, "SELECT count(*) FROM (SELECT stage, bench, clubs FROM "
                                        "club_count WHERE clubs > 0 EXCEPT SELECT stage, bench, "
                                        "count(*) FROM club GROUP BY stage, bench)"),
                     0);
    assert_int_equal(fixture_number(db, "SELECT sum(clubs) FROM club_count"), 5);
}

static void finds_spares(void **state) {
    struct fixture *fixture = *state;
    struct part parts[4];
    assert_int_equal(store_spare_shafts(fixture->store, "S-0003O", parts, 4), 1);
    assert_string_equal(parts[0].ticket, "S-0005K");
    assert_string_equal(parts[0].rack, "B2");
    assert_int_equal(parts[0].life, PART_RAW);
    assert_int_equal(parts[0].kind, TICKET_SHAFT);
    assert_int_equal(store_spare_shafts(fixture->store, "S-0007G", parts, 4), 0); // itself
    assert_int_equal(store_spare_shafts(fixture->store, "S-9999X", parts, 4), 0);
    fixture_exec(fixture->store->db, "UPDATE shaft SET club = NULL WHERE club IN (3, 4)");
    assert_int_equal(store_spare_shafts(fixture->store, "S-0002Q", parts, 4), 3);
    assert_string_equal(parts[0].ticket, "S-0003O"); // by ticket
    assert_string_equal(parts[2].ticket, "S-0005K");
    assert_int_equal(store_spare_shafts(fixture->store, "S-0002Q", parts, 2), 2);
}

static void keeps_revisions(void **state) {
    static const char *const attempts[] = {
        "UPDATE shaft_model_revision SET weight = 1",
        "DELETE FROM shaft_model_revision",
        "UPDATE head_model_revision SET weight = 1",
        "DELETE FROM head_model_revision",
        "UPDATE chart SET revision = 9",
        "DELETE FROM chart",
        "UPDATE chart_column SET tip_trim = 1",
        "DELETE FROM chart_column",
        "UPDATE shaft_profile SET stiffness = 1",
        "DELETE FROM shaft_profile",
        "INSERT OR REPLACE INTO shaft_profile VALUES ('Reed 60', 'R', 2, 0, 1)",
        "INSERT OR REPLACE INTO chart_column (chart, weight, name) VALUES (3, 272000, 'x')",
    };
    struct fixture *fixture = *state;
    for (size_t i = 0; i < COUNT(attempts); i++) {
        assert_int_equal(sqlite3_exec(fixture->store->db, attempts[i], NULL, NULL, NULL),
                         SQLITE_CONSTRAINT_TRIGGER);
    }
}

static void says_when_a_value_is_odd(void **state) {
    struct fixture *fixture = *state;
    struct club club;
    struct club before;
    sqlite3 *raw = fixture_raw(fixture->path);
    fixture_exec(raw, "PRAGMA ignore_check_constraints = ON;"
                      "UPDATE club SET stage = 'half way' WHERE id = 3");
    memset(&club, 0x5A, sizeof club);
    before = club;
    assert_int_equal(store_club(fixture->store, 3, &club), STORE_FAILED);
    assert_non_null(strstr(store_message(fixture->store), "kerfside check"));
    assert_memory_equal(&before, &club, sizeof club);
    fixture_exec(raw, "UPDATE club SET stage = 'pending' WHERE id = 3;"
                      "UPDATE head SET ticket = 'H-0002800000000000000000' WHERE club = 3");
    assert_int_equal(store_club(fixture->store, 3, &club), STORE_FAILED);
    fixture_exec(raw, "UPDATE head SET ticket = 'H-00028' WHERE club = 3");
    assert_int_equal(store_club(fixture->store, 3, &club), STORE_OK);
    sqlite3_close(raw);
}

#define STEP(name) cmocka_unit_test_setup_teardown(name, opened, closed)

int main(void) {
    const struct CMUnitTest tests[] = {
        STEP(finds_parts),
        STEP(loads_a_whole_club),
        STEP(finds_the_uniform_reference),
        STEP(loads_a_club_without_parts),
        STEP(loads_a_steel_club),
        STEP(finds_clubs_by_name),
        STEP(lists_clubs),
        STEP(leaves_other_benches_their_clubs),
        STEP(keeps_count),
        STEP(finds_spares),
        STEP(keeps_revisions),
        STEP(says_when_a_value_is_odd),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
