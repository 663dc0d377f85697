// What files say of balance, flex, and shafts to be chosen from stock.

#include "scratch.h"

#include <stdio.h>
#include <stdlib.h>

static struct scratch scratch;

#define SHAFT_MODELS                                                                               \
    "model,material,tip,tip_diameter,butt_diameter,raw_length,weight_g,tip_section,max_tip_trim,"  \
    "max_butt_trim,bore_note,bore_reference,bore_note_kinds"
#define ROD "Rod,steel,parallel,0.335,0.600,46,110,6,4,6,none,,"
#define HEAD_MODELS "model,kind,engraved,weight_g,hosel_bore,insertion,bore_height,loft,lie"
#define KNOB "Knob,fairway,3,210,0.335,1 1/2,1,15,57"
#define SHAFTS "ticket,model,flex,raw_length,weight_g,rack,balance,frequency_cpm,frequency_mass_g\n"
#define BUILDS                                                                                     \
    "build,club,due,head,shaft,playing_length,grip_cap,grip_weight_g,swingweight,step,"            \
    "uniform_flex,shaft_model,flex\n"
#define PROFILES "model,flex,from_tip,stiffness_nm2\n"
#define WISH "2,3,2026-03-01,H-00028,,43,1/8,50,D2,0,no,Rod,R\n"

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

// 0.45 mm is 450 000 nm; 27 1/2 in from the tip end.
static void models_keep_what_older_files_do_not_say(void **state) {
    static const char more[] =
        SHAFT_MODELS ",balance,butt_wall,tip_wall\n" ROD ",27 1/2,0.45 mm,0.018\n";
    (void)state;
    imports("shaft_models.csv", more);
    assert_int_equal(ask("SELECT count(*) FROM shaft_model_revision WHERE revision = 2 AND "
                         "balance = 698500000 AND butt_wall = 450000 AND tip_wall = 457200"),
                     1);
    changes_nothing("shaft_models.csv", more);
    changes_nothing("shaft_models.csv", SHAFT_MODELS "\n" ROD "\n");
    changes_nothing("shaft_models.csv", SHAFT_MODELS ",tip_wall\n" ROD ",\n");
    imports("shaft_models.csv", SHAFT_MODELS ",tip_wall\n" ROD ",0.017\n");
    assert_int_equal(ask("SELECT count(*) FROM shaft_model_revision WHERE revision = 3 AND "
                         "balance = 698500000 AND butt_wall = 450000 AND tip_wall = 431800"),
                     1);
    imports("head_models.csv", HEAD_MODELS ",inertia_gcm2,cg_beyond\n" KNOB ",2900,-0.25\n");
    assert_int_equal(ask("SELECT count(*) FROM head_model_revision WHERE revision = 2 AND "
                         "inertia = 2900 AND cg_beyond = -6350000"),
                     1);
    changes_nothing("head_models.csv", HEAD_MODELS "\n" KNOB "\n");
}

static void shafts_carry_what_was_measured(void **state) {
    (void)state;
    imports("shafts.csv", SHAFTS "S-0001S,Rod,R,46,110,A1,22 3/8,261.5,205\n"
                                 "S-0004M,Rod,R,46,110,A1,,300,200.5\n");
    assert_int_equal(ask("SELECT count(*) FROM shaft WHERE ticket = 'S-0001S' AND "
                         "balance = 568325000 AND raw_frequency = 2615 AND "
                         "frequency_mass = 205000"),
                     1);
    assert_int_equal(ask("SELECT raw_frequency = 3000 AND frequency_mass = 200500 AND "
                         "balance IS NULL FROM shaft WHERE ticket = 'S-0004M'"),
                     1);
    changes_nothing("shafts.csv", SHAFTS "S-0001S,Rod,R,46,110,A1,,,\n");
    changes_nothing("shafts.csv", "ticket,model,flex,raw_length,weight_g,rack\n"
                                  "S-0001S,Rod,R,46,110,A1\n");
    // A new measurement replaces frequency and mass together.
    imports("shafts.csv", SHAFTS "S-0001S,Rod,R,46,110,A1,,262,100\n");
    assert_int_equal(ask("SELECT raw_frequency = 2620 AND frequency_mass = 100000 AND "
                         "balance = 568325000 FROM shaft WHERE ticket = 'S-0001S'"),
                     1);
    // A balance point that is known already must lie on the shaft too.
    assert_int_equal(
        scratch_import_text(&scratch, "shafts.csv", SHAFTS "S-0001S,Rod,R,24,,,23,,\n"), STORE_OK);
    assert_int_equal(scratch_import_text(&scratch, "shafts.csv", SHAFTS "S-0001S,Rod,R,,,,24,,\n"),
                     STORE_REFUSED);
    assert_non_null(strstr(scratch.messages, "shafts.csv:2: column balance: the balance point"));
}

static void a_changed_profile_is_a_new_revision(void **state) {
    static const char first[] = PROFILES "Rod,R,0,12.5\nRod,S,0,14\nRod,R,20.5,30\nRod,S,46,70\n"
                                         "Rod,R,1168.4 mm,62.125\n";
    (void)state;
    imports("profiles.csv", first);
    assert_int_equal(ask("SELECT count(*) FROM shaft_profile WHERE revision = 1"), 5);
    assert_int_equal(ask("SELECT stiffness FROM shaft_profile WHERE flex = 'R' AND "
                         "from_tip = 1168400000"),
                     62125);
    assert_int_equal(ask("SELECT count(*) FROM log WHERE kind = 'import' AND "
                         "note = 'profiles.csv 5 rows, 2 new, 0 changed'"),
                     1);
    changes_nothing("profiles.csv", first);
    // Fewer points, and one that differs; the other flex stays.
    imports("profiles.csv", PROFILES "Rod,R,0,12.5\nRod,R,46,62.125\n");
    assert_int_equal(ask("SELECT count(*) FROM shaft_profile WHERE revision = 2"), 2);
    imports("profiles.csv", PROFILES "Rod,R,0,12.501\nRod,R,46,62.125\nRod,S,0,14\nRod,S,46,70\n");
    assert_int_equal(ask("SELECT max(revision) FROM shaft_profile"), 3);
    assert_int_equal(ask("SELECT max(revision) FROM shaft_profile WHERE flex = 'S'"), 1);
    struct club club;
    assert_int_equal(store_club(scratch.store, 1, &club), STORE_OK);
    assert_int_equal(club.profile.count, 2);
    assert_int_equal(club.profile.point[0].stiffness, 12501);
    // A model that nobody knows.
    assert_int_equal(scratch_import_text(&scratch, "profiles.csv",
                                         PROFILES
                                         "Rod,R,0,12.5\nRod,R,46,62\nRad,R,0,1\nRad,R,1,2\n"),
                     STORE_REFUSED);
    assert_non_null(strstr(scratch.messages,
                           "profiles.csv:4: column model: no shaft model \"Rad\" in the shop"));
}

static void a_shaft_can_be_wished_from_stock(void **state) {
    struct club club;
    int64_t id = 0;
    (void)state;
    imports("builds.csv", BUILDS WISH);
    assert_int_equal(store_club_named(scratch.store, "2", "3", &id), STORE_OK);
    assert_int_equal(store_club(scratch.store, id, &club), STORE_OK);
    assert_string_equal(club.shaft.ticket, "");
    assert_string_equal(club.order.wished_model, "Rod");
    assert_string_equal(club.order.wished_flex, "R");
    changes_nothing("builds.csv", BUILDS WISH);
    // One that was chosen from stock as wished is not let go by the same file.
    scratch_ask(&scratch, "UPDATE shaft SET club = (SELECT id FROM club WHERE build = '2') "
                          "WHERE ticket = 'S-0003O' RETURNING 1");
    changes_nothing("builds.csv", BUILDS WISH);
    imports("builds.csv", BUILDS "2,3,2026-03-02,H-00028,,43,1/8,50,D2,0,no,Rod,R\n");
    assert_int_equal(ask("SELECT count(*) FROM shaft WHERE ticket = 'S-0003O' AND "
                         "club IS NOT NULL"),
                     1);
    // Another wish, or a shaft by its ticket, does.
    imports("builds.csv", BUILDS "2,3,2026-03-02,H-00028,,43,1/8,50,D2,0,no,Rod,S\n");
    assert_int_equal(ask("SELECT count(*) FROM shaft WHERE ticket = 'S-0003O' AND club IS NULL"),
                     1);
    assert_int_equal(ask("SELECT count(*) FROM club WHERE wished_flex = 'S'"), 1);
    imports("builds.csv", BUILDS "2,3,2026-03-02,H-00028,S-0003O,43,1/8,50,D2,0,no,,\n");
    assert_int_equal(ask("SELECT count(*) FROM shaft WHERE ticket = 'S-0003O' AND "
                         "club IS NOT NULL"),
                     1);
    assert_int_equal(ask("SELECT count(*) FROM club WHERE wished_model <> ''"), 0);
}

int main(void) {
#define TEST(name) cmocka_unit_test_setup_teardown(name, workshop, release)
    const struct CMUnitTest tests[] = {
        TEST(models_keep_what_older_files_do_not_say),
        TEST(shafts_carry_what_was_measured),
        TEST(a_changed_profile_is_a_new_revision),
        TEST(a_shaft_can_be_wished_from_stock),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
