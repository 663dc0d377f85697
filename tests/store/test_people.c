// People: listed, and their names taken out of view, of the log and of the file.

#include "fixture.h"
#include "schema.h"

#include <stdio.h>
#include <stdlib.h>

#define SECOND_SUPERVISOR "W-30"
#define NAME "Adelheid Quarrington"

static struct fixture fixture;

static int opened(void **state) {
    (void)state;
    fixture_open(&fixture);
    fixture_exec(fixture.store->db,
                 "INSERT INTO worker (badge, name, role) VALUES ('" SECOND_SUPERVISOR "', '" NAME
                 "', 'supervisor')");
    assert_int_equal(store_pin_set(fixture.store, SECOND_SUPERVISOR, "271828"), STORE_OK);
    return 0;
}

static int closed(void **state) {
    (void)state;
    fixture_close(&fixture);
    return 0;
}

// How often the bytes of NAME stand in the file with this ending.
static int names_in(const char *suffix) {
    static char bytes[4 << 20];
    char path[128];
    int count = 0;
    snprintf(path, sizeof path, "%s%s", fixture.path, suffix);
    FILE *file = fopen(path, "rb");
    if (file == NULL) {
        return 0;
    }
    size_t size = fread(bytes, 1, sizeof bytes, file);
    fclose(file);
    assert_true(size < sizeof bytes);
    for (size_t i = 0; i + strlen(NAME) <= size; i++) {
        count += memcmp(bytes + i, NAME, strlen(NAME)) == 0 ? 1 : 0;
    }
    return count;
}

struct list {
    int count;
    int stop_at;
    struct person person[16];
};

static bool put(void *context, const struct person *person) {
    struct list *list = context;
    list->person[list->count++] = *person;
    return list->count != list->stop_at;
}

static struct list people(int stop_at) {
    struct list list = {.stop_at = stop_at};
    assert_int_equal(store_people(fixture.store, put, &list), STORE_OK);
    return list;
}

static void lists_everybody(void **state) {
    (void)state;
    struct list list = people(0);
    assert_int_equal(list.count, 3);
    assert_string_equal(list.person[0].worker.badge, BUILDER);
    assert_false(list.person[0].pin || list.person[0].locked || list.person[0].withdrawn);
    assert_string_equal(list.person[1].worker.name, "Bo Tarn");
    assert_int_equal(list.person[1].worker.role, ROLE_SUPERVISOR);
    assert_false(list.person[1].pin);
    assert_true(list.person[2].pin && !list.person[2].locked);
    fixture_exec(fixture.store->db, "UPDATE pin_try SET tries = 9 WHERE badge = 'W-30'");
    assert_false(people(0).person[2].locked);
    fixture_exec(fixture.store->db, "UPDATE pin_try SET tries = 10 WHERE badge = 'W-30'");
    assert_true(people(0).person[2].locked);
    assert_int_equal(people(2).count, 2);
}

static void takes_a_name_out_of_view(void **state) {
    struct store *store = fixture.store;
    struct worker worker;
    struct store_check before, after;
    int wait = 0;
    (void)state;
    fixture.ids = 100;
    struct entry entry = fixture_entry(&fixture, ENTRY_SIGN_ON, 0);
    strcpy(entry.worker, SECOND_SUPERVISOR);
    assert_int_equal(store_append(store, &entry), STORE_OK);
    assert_int_equal(store_check(store, &before), STORE_OK);
    assert_int_equal(store_checkpoint(store), STORE_OK);
    assert_true(names_in("") == 1 && names_in("-wal") == 0);

    assert_int_equal(store_withdraw(store, SECOND_SUPERVISOR, SECOND_SUPERVISOR), STORE_REFUSED);
    assert_int_equal(store_withdraw(store, SECOND_SUPERVISOR, BUILDER), STORE_REFUSED);
    assert_int_equal(store_withdraw(store, SECOND_SUPERVISOR, ""), STORE_REFUSED);
    assert_int_equal(store_withdraw(store, "W-9Z", SUPERVISOR), STORE_NONE);
    assert_int_equal(store_worker(store, SECOND_SUPERVISOR, &worker), STORE_OK);
    assert_int_equal(store_withdraw(store, SECOND_SUPERVISOR, SUPERVISOR), STORE_OK);

    // Nobody signs on with it, decides, or has a PIN; badge and role stay.
    assert_int_equal(store_worker(store, SECOND_SUPERVISOR, &worker), STORE_NONE);
    assert_int_equal(store_pin_check(store, SECOND_SUPERVISOR, "271828", &wait), PIN_WRONG);
    assert_int_equal(store_pin_set(store, SECOND_SUPERVISOR, "271828"), STORE_NONE);
    assert_int_equal(store_withdraw(store, BUILDER, SECOND_SUPERVISOR), STORE_REFUSED);
    assert_int_equal(store_withdraw(store, SECOND_SUPERVISOR, SUPERVISOR), STORE_NONE);
    struct person person = people(0).person[2];
    assert_string_equal(person.worker.badge, SECOND_SUPERVISOR);
    assert_string_equal(person.worker.name, "withdrawn");
    assert_int_equal(person.worker.role, ROLE_SUPERVISOR);
    assert_true(person.withdrawn && !person.pin && !person.locked);

    // The chain goes on from what it was, and says who did it.
    assert_int_equal(store_check(store, &after), STORE_OK);
    assert_int_equal(after.entries, before.entries + 1);
    assert_int_equal(fixture_number(store->db, "SELECT count(*) FROM log AS l JOIN worker AS w ON "
                                               "w.withdrawn = l.seq WHERE l.cause = 'withdrawn' "
                                               "AND l.worker = 'W-2H' AND l.note = 'W-30' AND "
                                               "l.seq = (SELECT max(seq) FROM log)"),
                     1);
    // Debian's SQLite overwrites what is removed (SECURE_DELETE): not even the file holds it.
    assert_int_equal(sqlite3_compileoption_used("SECURE_DELETE"), 1);
    assert_int_equal(store_checkpoint(store), STORE_OK);
    assert_int_equal(names_in("") + names_in("-wal") + names_in(".ballast"), 0);
}

// Nothing brings a name back, an import of an old list neither.
static void stays_withdrawn(void **state) {
    sqlite3 *db = fixture.store->db;
    (void)state;
    assert_int_equal(store_withdraw(fixture.store, SECOND_SUPERVISOR, SUPERVISOR), STORE_OK);
    static const char *const tries[] = {
        "UPDATE worker SET name = '" NAME "' WHERE badge = 'W-30'",
        "UPDATE worker SET withdrawn = NULL WHERE badge = 'W-30'",
        "UPDATE worker SET role = 'builder' WHERE badge = 'W-30'",
        "INSERT OR REPLACE INTO worker (badge, name, role) VALUES ('W-30', '" NAME "', 'builder')",
        "UPDATE worker SET withdrawn = 1 WHERE badge = 'W-1J'",
    };
    for (size_t i = 0; i < COUNT(tries); i++) {
        if (sqlite3_exec(db, tries[i], NULL, NULL, NULL) == SQLITE_OK) {
            fail_msg("%s", tries[i]);
        }
    }
    assert_int_equal(people(0).count, 3);
    assert_string_equal(people(0).person[2].worker.name, "withdrawn");
}

// No column of any entry holds a name of anybody.
static void the_log_holds_no_name(void **state) {
    (void)state;
    fixture_bring(&fixture, 1, STAGE_DONE);
    fixture_append(&fixture, ENTRY_SIGN_ON, 0);
    assert_int_equal(store_withdraw(fixture.store, SECOND_SUPERVISOR, SUPERVISOR), STORE_OK);
    fixture_exec(fixture.store->db,
                 "INSERT INTO worker (badge, name, role) VALUES ('W-4Z', '" NAME "', 'builder')");
    assert_int_equal(
        fixture_number(fixture.store->db,
                       "SELECT count(*) FROM log AS l, worker AS w WHERE w.withdrawn IS NULL AND "
                       "instr(l.kind || l.boot || l.bench || l.worker || l.build || l.club || "
                       "l.head || l.shaft || l.confirm_id || l.cause || l.note || l.plan, w.name)"),
        0);
    assert_true(fixture_number(fixture.store->db, "SELECT count(*) FROM log") > 6);
}

// A database of schema 0003, with PINs and tries as its program left them.
static void keeps_pins_and_tries_of_0003(void **state) {
    static struct fixture old;
    char message[STORE_MESSAGE_MAX] = "";
    int wait = 0;
    (void)state;
    fixture_folder(&old);
    fixture_version(old.path, 2);
    sqlite3 *raw = fixture_raw(old.path);
    fixture_exec(raw, schema_migrations[2].sql);
    fixture_exec(raw, "PRAGMA user_version = 3; INSERT INTO pin VALUES ('W-0001B', "
                      "'$argon2id$v=19$m=65536,t=3,p=1$a2VyZnNpZGVzYWx0MTIzNA$"
                      "xq0KIk3G9MXzxCMo11SXFHKORuoms1kjwnyqeH35VDU');"
                      "INSERT INTO pin_try VALUES ('W-0001B', 4, 60000, 160000, 'boot 1')");
    sqlite3_close(raw);
    assert_int_equal(store_open(old.path, STORE_WRITE, BENCH, &old.store, message, sizeof message),
                     STORE_OK);
    assert_int_equal(store_pin_check(old.store, "W-0001B", "271828", &wait), PIN_WAIT);
    assert_int_equal(wait, 60);
    fixture_exec(old.store->db, "UPDATE pin_try SET wait_ms = 0");
    assert_int_equal(store_pin_check(old.store, "W-0001B", "271829", &wait), PIN_WRONG);
    assert_int_equal(fixture_number(old.store->db, "SELECT tries FROM pin_try WHERE badge <> '*'"),
                     5);
    fixture_exec(old.store->db, "UPDATE pin_try SET wait_ms = 0");
    assert_int_equal(store_pin_check(old.store, "W-0001B", "271828", &wait), PIN_RIGHT);
    fixture_expect_check(old.store);
    fixture_close(&old);
}

#define STEP(name) cmocka_unit_test_setup_teardown(name, opened, closed)

int main(void) {
    const struct CMUnitTest tests[] = {
        STEP(lists_everybody),       STEP(takes_a_name_out_of_view),     STEP(stays_withdrawn),
        STEP(the_log_holds_no_name), STEP(keeps_pins_and_tries_of_0003),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
