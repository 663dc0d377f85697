// What a file may change in the shop, and what it may not.

#include "scratch.h"

#include <stdio.h>
#include <stdlib.h>

static struct scratch scratch;

#define SHAFT_MODELS                                                                               \
    "model,material,tip,tip_diameter,butt_diameter,raw_length,weight_g,tip_section,max_tip_trim,"  \
    "max_butt_trim,bore_note,bore_reference,bore_note_kinds\n"
#define CHARTS "model,flex,kind,column,column_weight_g,tip_trim\n"
#define HEADS "ticket,model,weight_g,dry_fit_overall,dry_fit_raw,bore_height\n"
#define SHAFTS "ticket,model,flex,raw_length,weight_g,rack\n"
#define BUILDS                                                                                     \
    "build,club,due,head,shaft,playing_length,grip_cap,grip_weight_g,swingweight,step,"            \
    "uniform_flex\n"
#define CLUB_3 "1,3,2026-03-01,H-0001A,S-0001S,43,1/8,50,D2,0,no\n"

static int workshop(void **state) {
    (void)state;
    scratch_init(&scratch);
    scratch_import_workshop(&scratch);
    return 0;
}

static int release(void **state) {
    (void)state;
    scratch_release(&scratch);
    return 0;
}

static void imports(const char *name, const char *text) {
    if (scratch_import_text(&scratch, name, text) != STORE_OK) {
        fail_msg("%s%s\n%s", text, scratch.messages, store_message(scratch.store));
    }
}

static void refuses(const char *name, const char *text, const char *words) {
    char *before = scratch_dump(&scratch);
    enum store_result result = scratch_import_text(&scratch, name, text);
    char *after = scratch_dump(&scratch);
    if (result != STORE_REFUSED || strstr(scratch.messages, words) == NULL) {
        fail_msg("%ssaid (%d): %s", text, result, scratch.messages);
    }
    assert_string_equal(before, after);
    free(before);
    free(after);
}

static void changes_nothing(const char *name, const char *text) {
    char *before = scratch_dump(&scratch);
    imports(name, text);
    char *after = scratch_dump(&scratch);
    assert_string_equal(before, after);
    free(before);
    free(after);
}

static int64_t ask(const char *sql) {
    return scratch_ask(&scratch, sql);
}

static void whole(void) {
    struct store_check check;
    if (store_check(scratch.store, &check) != STORE_OK) {
        fail_msg("%s", check.problem);
    }
}

static void one_entry_tells_of_the_import(void **state) {
    struct entry entry;
    (void)state;
    assert_int_equal(ask("SELECT count(*) FROM log WHERE kind = 'import'"), 1);
    assert_int_equal(store_entry(scratch.store, 2, &entry), STORE_OK);
    assert_string_equal(entry.note, "shaft_models.csv 1 rows, 1 new, 0 changed; charts.csv 3 rows, "
                                    "1 new, 0 changed; head_models.csv 1 rows, 1 new, 0 changed; "
                                    "heads.csv 2 rows, 2 new, 0 changed; shafts.csv 3 rows, 3 new, "
                                    "0 changed; builds.csv 2 rows, 2 new, 0 changed; workers.csv 2 "
                                    "rows, 2 new, 0 changed");
    whole();
}

static void the_same_files_again_change_nothing(void **state) {
    char *before = scratch_dump(&scratch);
    (void)state;
    assert_int_equal(scratch_import(&scratch, "workers.csv", "builds.csv", "shafts.csv",
                                    "heads.csv", "head_models.csv", "charts.csv",
                                    "shaft_models.csv", NULL),
                     STORE_OK);
    char *after = scratch_dump(&scratch);
    assert_string_equal(before, after);
    assert_string_equal(scratch.messages, "");
    free(before);
    free(after);
}

// Good rows beside a bad one, in one file and in another.
static void one_bad_cell_keeps_everything_out(void **state) {
    char *before = scratch_dump(&scratch);
    (void)state;
    scratch_write(&scratch, "new-workers.csv", "badge,name,role\nW-00037,Cy Dace,builder\n");
    scratch_write(&scratch, "new-shafts.csv",
                  SHAFTS "S-0004M,Rod,R,46,110,A1\nS-0005K,Rod,R,forty,110,A1\n");
    assert_int_equal(scratch_import(&scratch, "new-workers.csv", "new-shafts.csv", NULL),
                     STORE_REFUSED);
    char *after = scratch_dump(&scratch);
    assert_string_equal(before, after);
    free(before);
    free(after);
    // What only the store can tell, after rows were written in the same transaction.
    scratch_write(&scratch, "new-builds.csv", BUILDS "9,1,,H-0001A,,40,1/8,50,,,\n");
    before = scratch_dump(&scratch);
    assert_int_equal(scratch_import(&scratch, "new-workers.csv", "new-builds.csv", NULL),
                     STORE_REFUSED);
    after = scratch_dump(&scratch);
    assert_string_equal(before, after);
    free(before);
    free(after);
}

// Exact counts of nanometres: 1041.4 mm is 41 in by definition (1 in = 25.4 mm, international
// yard and pound agreement of 1959).
// 1041.4 mm is 41 in by definition: 1 in = 25.4 mm (international yard and pound, 1959).
static void people_write_cells_in_many_ways(void **state) {
    (void)state;
    imports("x_shafts.csv", "\xEF\xBB\xBFrack,weight_g,raw_length,flex,model,ticket\r\n"
                            "\"B, left\", 110.5 , 1041.4 mm ,R,Rod,s-0004m\r\n"
                            "\r\n"
                            ",,45-15/16,R,Rod,S-0005K\r\n");
    assert_int_equal(ask("SELECT raw_length FROM shaft WHERE ticket = 'S-0004M'"), 1041400000);
    assert_int_equal(ask("SELECT weight FROM shaft WHERE ticket = 'S-0004M'"), 110500);
    assert_int_equal(ask("SELECT rack = 'B, left' FROM shaft WHERE ticket = 'S-0004M'"), 1);
    assert_int_equal(ask("SELECT raw_length FROM shaft WHERE ticket = 'S-0005K'"),
                     45 * LENGTH_INCH + 60 * LENGTH_64TH);
    assert_int_equal(ask("SELECT weight IS NULL FROM shaft WHERE ticket = 'S-0005K'"), 1);
    imports("builds.csv", BUILDS "B-20416,3,,,,,,,C9.5,+2,yes\n");
    assert_int_equal(ask("SELECT count(*) FROM club WHERE build = '2041' AND step = 2 "
                         "AND uniform_flex = 1 AND swingweight = 'C9.5' AND due = '' "
                         "AND playing_length IS NULL"),
                     1);
    imports("shaft_models.csv", SHAFT_MODELS
            "Reed,graphite,taper,,,,,,,,above_reference,1 1/2,wood;iron not_through\n");
    // Bits of driver (1), fairway (2) and iron (8), in the order of the kinds in parts.h.
    assert_int_equal(ask("SELECT note_kinds FROM shaft_model_revision WHERE model = 'Reed'"), 11);
    assert_int_equal(ask("SELECT note_not_through FROM shaft_model_revision "
                         "WHERE model = 'Reed'"),
                     1);
}

static void a_changed_model_is_a_new_revision(void **state) {
    static const char changed[] =
        SHAFT_MODELS "Rod,steel,parallel,0.335,0.600,46,110,6,3,6,none,,\n";
    (void)state;
    imports("shaft_models.csv", changed);
    assert_int_equal(ask("SELECT count(*) FROM shaft_model_revision WHERE model = 'Rod'"), 2);
    assert_int_equal(ask("SELECT max_tip_trim FROM shaft_model_revision WHERE revision = 1"),
                     4 * LENGTH_INCH);
    assert_int_equal(ask("SELECT max_tip_trim FROM shaft_model_revision WHERE revision = 2"),
                     3 * LENGTH_INCH);
    changes_nothing("shaft_models.csv", changed);
    imports("head_models.csv",
            "model,kind,engraved,weight_g,hosel_bore,insertion,bore_height,loft,lie\n"
            "Knob,fairway,3,210,0.335,1 1/2,1,15.5,57\n");
    assert_int_equal(ask("SELECT count(*) FROM head_model_revision WHERE model = 'Knob'"), 2);
}

static void a_changed_chart_is_a_new_revision(void **state) {
    static const char changed[] = CHARTS "Rod,R,wood,5,220,1\nRod,R,wood,1,200,0\n"
                                         "Rod,R,wood,3,210,5/8\nRod,R,wood,7,230,\n";
    (void)state;
    imports("charts.csv", changed);
    assert_int_equal(ask("SELECT max(revision) FROM chart"), 2);
    assert_int_equal(ask("SELECT count(*) FROM chart_column"), 3 + 4);
    assert_int_equal(ask("SELECT count(*) FROM chart_column WHERE tip_trim IS NULL"), 1);
    changes_nothing("charts.csv", changed);
    // One column more and nothing else, then one less.
    imports("charts.csv", CHARTS "Rod,R,wood,5,220,1\nRod,R,wood,1,200,0\n"
                                 "Rod,R,wood,3,210,5/8\nRod,R,wood,7,230,\nRod,R,wood,9,240,\n");
    assert_int_equal(ask("SELECT max(revision) FROM chart"), 3);
    imports("charts.csv", changed);
    assert_int_equal(ask("SELECT max(revision) FROM chart"), 4);
}

static void a_trim_that_falls_is_remarked_on(void **state) {
    (void)state;
    imports("charts.csv", CHARTS "Rod,S,wood,1,200,1\nRod,S,wood,2,205,\nRod,S,wood,3,210,1/2\n");
    assert_non_null(strstr(scratch.messages,
                           "charts.csv:4: column tip_trim: remark: a heavier head "
                           "is trimmed less here than in charts.csv:2"));
}

static void more_columns_or_clubs_than_fit_are_refused(void **state) {
    static char text[SCRATCH_TEXT_MAX];
    size_t size = (size_t)snprintf(text, sizeof text, "%s", CHARTS);
    (void)state;
    for (int i = 0; i < CHART_COLUMNS_MAX + 1; i++) {
        size +=
            (size_t)snprintf(text + size, sizeof text - size, "Rod,X,iron,%d,%d,0\n", i, 200 + i);
    }
    refuses("charts.csv", text, "charts.csv:26: column column: the chart has 25 columns");
    size = (size_t)snprintf(text, sizeof text, "%s", BUILDS);
    for (int i = 0; i < 201; i++) {
        size += (size_t)snprintf(text + size, sizeof text - size, "8,%d,,,,40,0,50,,,\n", i);
    }
    refuses("builds.csv", text, "builds.csv:202: column build: a build has at most 200 clubs");
}

static void an_empty_cell_keeps_what_is_known(void **state) {
    (void)state;
    changes_nothing("heads.csv", HEADS "H-0001A,Knob,,,,\n");
    changes_nothing("shafts.csv", SHAFTS "S-0001S,Rod,R,,,\n");
    imports("heads.csv", HEADS "H-0001A,Knob,,47 1/8,46,\n");
    assert_int_equal(ask("SELECT bore_height FROM head WHERE ticket = 'H-0001A'"),
                     9 * LENGTH_INCH / 8);
    assert_int_equal(ask("SELECT weight FROM head WHERE ticket = 'H-0001A'"), 210000);
}

static void two_clubs_may_change_parts(void **state) {
    (void)state;
    imports("builds.csv", BUILDS "1,3,2026-03-01,H-00028,S-0002Q,43,1/8,50,D2,0,no\n"
                                 "1,5,2026-03-01,H-0001A,S-0001S,42,1/8,50,D1,,\n");
    assert_int_equal(ask("SELECT count(*) FROM head JOIN club ON club.id = head.club "
                         "WHERE (ticket, name) IN (('H-00028', '3'), ('H-0001A', '5'))"),
                     2);
    assert_int_equal(ask("SELECT count(*) FROM shaft WHERE club IS NOT NULL"), 2);
    imports("builds.csv", BUILDS "1,3,2026-03-01,,,43,1/8,50,D2,0,no\n");
    assert_int_equal(ask("SELECT count(*) FROM head WHERE club IS NOT NULL"), 1);
    assert_int_equal(ask("SELECT group_concat(position) = '1,2' FROM club"), 1);
}

// A supervisor agreed to one head on one shaft.
static void other_parts_take_a_consent_back(void **state) {
    struct entry entry = entry_init(ENTRY_CONSENT);
    (void)state;
    entry.club_id = ask("SELECT id FROM club WHERE name = '3'");
    strcpy(entry.build, "1");
    strcpy(entry.club, "3");
    strcpy(entry.worker, "W-0001B");
    strcpy(entry.cause, "shim");
    memset(entry.confirm_id, 'a', CONFIRM_ID_MAX - 1);
    assert_int_equal(store_append(scratch.store, &entry), STORE_OK);
    imports("builds.csv", BUILDS "1,3,2026-03-02,H-0001A,S-0001S,43,1/8,50,D2,0,no\n");
    assert_int_equal(ask("SELECT shim_consent FROM club WHERE name = '3'"), 1);
    imports("builds.csv", BUILDS "1,3,2026-03-02,H-0001A,S-0002Q,43,1/8,50,D2,0,no\n");
    assert_int_equal(ask("SELECT shim_consent FROM club WHERE name = '3'"), 0);
}

static void append(enum entry_kind kind, char id, length_nm planned, length_nm made,
                   enum verdict verdict) {
    struct entry entry = entry_init(kind);
    entry.club_id = ask("SELECT id FROM club WHERE name = '3'");
    strcpy(entry.build, "1");
    strcpy(entry.club, "3");
    strcpy(entry.head, "H-0001A");
    strcpy(entry.shaft, "S-0001S");
    strcpy(entry.worker, "W-0001B");
    strcpy(entry.bench, "desk");
    memset(entry.confirm_id, id, CONFIRM_ID_MAX - 1);
    entry.attempt = kind == ENTRY_TIP_CUT ? 1 : 0;
    entry.planned = planned;
    entry.made = made;
    entry.verdict = verdict;
    if (store_append(scratch.store, &entry) != STORE_OK) {
        fail_msg("%s", store_message(scratch.store));
    }
}

static void what_the_bench_measured_stays(void **state) {
    (void)state;
    append(ENTRY_DRY_FIT, 'a', 753 * LENGTH_INCH / 16, 17 * LENGTH_INCH / 16, VERDICT_NONE);
    changes_nothing("heads.csv", HEADS "H-0001A,Knob,210,47,46,\n");
    assert_non_null(strstr(scratch.messages,
                           "heads.csv:2: column bore_height: remark: a dry fit at "
                           "the bench found 1 1/16 in; that stays"));
    imports("heads.csv", HEADS "H-0001A,Knob,212,47,46,\n");
    assert_int_equal(ask("SELECT bore_height FROM head WHERE ticket = 'H-0001A'"),
                     17 * LENGTH_INCH / 16);
    assert_int_equal(ask("SELECT weight FROM head WHERE ticket = 'H-0001A'"), 212000);
}

static void a_club_once_begun_is_not_changed(void **state) {
    (void)state;
    append(ENTRY_TIP_SHOWN, 'a', LENGTH_UNKNOWN, LENGTH_UNKNOWN, VERDICT_NONE);
    append(ENTRY_TIP_CUT, 'b', LENGTH_INCH / 2, LENGTH_INCH / 2, VERDICT_IN);
    changes_nothing("builds.csv", BUILDS CLUB_3);
    changes_nothing("heads.csv", HEADS "H-0001A,Knob,210,47,46,\n");
    changes_nothing("shafts.csv", SHAFTS "S-0001S,Rod,R,46,110,A1\n");
    refuses("builds.csv", BUILDS "1,3,2026-03-01,H-0001A,S-0001S,43 1/2,1/8,50,D2,0,no\n",
            "builds.csv:2: column club: club 3 of build 1 is begun at the saw");
    refuses("builds.csv", BUILDS "1,3,2026-03-01,H-0001A,S-0002Q,43,1/8,50,D2,0,no\n",
            "is begun at the saw");
    refuses("builds.csv", BUILDS "1,3,2026-03-01,H-0001A,,43,1/8,50,D2,0,no\n",
            "is begun at the saw");
    refuses("heads.csv", HEADS "H-0001A,Knob,211,47,46,\n",
            "heads.csv:2: column ticket: club 3 of build 1 is begun at the saw");
    refuses("shafts.csv", SHAFTS "S-0001S,Rod,R,46 1/8,110,A1\n",
            "shafts.csv:2: column ticket: this shaft has been cut");
    imports("shafts.csv", SHAFTS "S-0001S,Rod,R,46,110,B7\n");
    assert_int_equal(ask("SELECT life = 'cut' AND rack = 'B7' FROM shaft "
                         "WHERE ticket = 'S-0001S'"),
                     1);
    whole();
}

static void a_cut_shaft_is_never_raw_stock_again(void **state) {
    struct entry entry = entry_init(ENTRY_DECIDE);
    (void)state;
    append(ENTRY_TIP_SHOWN, 'a', LENGTH_UNKNOWN, LENGTH_UNKNOWN, VERDICT_NONE);
    append(ENTRY_TIP_CUT, 'b', LENGTH_INCH / 2, LENGTH_INCH, VERDICT_SHORT);
    entry.club_id = ask("SELECT id FROM club WHERE name = '3'");
    entry.refers = ask("SELECT max(seq) FROM log");
    strcpy(entry.build, "1");
    strcpy(entry.club, "3");
    strcpy(entry.head, "H-0001A");
    strcpy(entry.shaft, "S-0001S");
    strcpy(entry.worker, "W-0001B");
    strcpy(entry.cause, "recut");
    strcpy(entry.note, "S-0003O slipped");
    memset(entry.confirm_id, 'c', CONFIRM_ID_MAX - 1);
    assert_int_equal(store_append(scratch.store, &entry), STORE_OK);
    assert_int_equal(ask("SELECT count(*) FROM shaft WHERE ticket = 'S-0003O' AND club = 1"), 1);
    refuses("builds.csv", BUILDS CLUB_3, "builds.csv:2: column shaft: S-0001S has been cut");
    refuses("builds.csv", BUILDS "2,1,,,S-0001S,43,1/8,50,D2,0,no\n", "has been cut");
    assert_int_equal(ask("SELECT life = 'scrap' FROM shaft WHERE ticket = 'S-0001S'"), 1);
}

int main(void) {
#define TEST(name) cmocka_unit_test_setup_teardown(name, workshop, release)
    const struct CMUnitTest tests[] = {
        TEST(one_entry_tells_of_the_import),     TEST(the_same_files_again_change_nothing),
        TEST(one_bad_cell_keeps_everything_out), TEST(people_write_cells_in_many_ways),
        TEST(a_changed_model_is_a_new_revision), TEST(a_changed_chart_is_a_new_revision),
        TEST(a_trim_that_falls_is_remarked_on),  TEST(more_columns_or_clubs_than_fit_are_refused),
        TEST(an_empty_cell_keeps_what_is_known), TEST(two_clubs_may_change_parts),
        TEST(other_parts_take_a_consent_back),   TEST(what_the_bench_measured_stays),
        TEST(a_club_once_begun_is_not_changed),  TEST(a_cut_shaft_is_never_raw_stock_again),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
