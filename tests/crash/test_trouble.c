// What can be wrong with a database besides a failing disk. Each ends in words that the bench puts
// on its screen, writes nothing, and brings nothing down.

#include "bench.h"
#include "boot.h"
#include "lock.h"
#include "shift.h"

#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/mount.h>
#include <sys/stat.h>
#include <unistd.h>

#define DAY_S 86400

static struct fixture fixture;
static struct bench_settings settings;
static struct bench bench;
static char message[STORE_MESSAGE_MAX];

static int set_up(void **state) {
    (void)state;
    setenv("KERFSIDE_ROOM_MB", "0", 1);
    settings = bench_settings_default();
    strcpy(settings.station.bench, BENCH);
    fixture_open(&fixture);
    fixture_append(&fixture, ENTRY_SIGN_ON, 0);
    assert_int_equal(store_checkpoint(fixture.store), STORE_OK);
    return 0;
}

static int tear_down(void **state) {
    (void)state;
    fixture_close(&fixture);
    return 0;
}

static void close_it(void) {
    char path[128];
    store_close(fixture.store);
    fixture.store = NULL;
    snprintf(path, sizeof path, "%s-wal", fixture.path);
    unlink(path); // empty
    snprintf(path, sizeof path, "%s-shm", fixture.path);
    unlink(path);
}

// --- it cannot be opened -------------------------------------------------------------------------

// These words are in one of the lines that the screen shows.
static bool shown(const struct view_notice *notice, const char *words) {
    for (size_t i = 0; i < notice->line_count; i++) {
        if (strstr(notice->line[i], words) != NULL) {
            return true;
        }
    }
    return false;
}

static void refuses(const char *words) {
    static struct view view;
    struct store *store = NULL;
    if (store_open(fixture.path, STORE_WRITE, BENCH, &store, message, sizeof message) == STORE_OK) {
        fail_msg("it opened; wanted: %s", words);
    }
    station_trouble(BENCH, message, &view);
    assert_string_equal(view.notice.title, "The log cannot be opened");
    if (!shown(&view.notice, words)) {
        fail_msg("%s", message);
    }
}

static void execute(const char *sql) {
    sqlite3 *raw = fixture_raw(fixture.path);
    fixture_exec(raw, sql);
    sqlite3_close(raw);
}

static void a_newer_schema(void **state) {
    (void)state;
    close_it();
    execute("PRAGMA user_version = 99");
    refuses("was written by a newer Kerfside (schema 99");
    execute("PRAGMA user_version = 5; PRAGMA application_id = 7");
    refuses("is no Kerfside database");
}

// Somebody applied the beginning of a migration by hand: nothing of the rest is applied.
static void a_half_applied_migration(void **state) {
    (void)state;
    close_it();
    assert_int_equal(unlink(fixture.path), 0);
    fixture_version(fixture.path, 2);
    execute("CREATE TABLE supplier_code (code TEXT)");
    refuses("its table \"supplier_code\" was not made by Kerfside");
    sqlite3 *raw = fixture_raw(fixture.path);
    assert_int_equal(fixture_number(raw, "PRAGMA user_version"), 2);
    assert_int_equal(fixture_number(raw, "SELECT count(*) FROM log"), VERSION2_ENTRIES);
    assert_int_equal(
        fixture_number(raw, "SELECT count(*) FROM sqlite_schema WHERE name = 'head_spare'"), 0);
    sqlite3_close(raw);
}

static void no_database_at_all(void **state) {
    (void)state;
    close_it();
    FILE *file = fopen(fixture.path, "w");
    assert_non_null(file);
    fputs("ticket,model,flex\nS-0001S,Reed 60,R\nS-0002Q,Alder 110,S\nS-0003O,Alder 110,S\n", file);
    fclose(file);
    refuses("The file is damaged or no database");
    assert_int_equal(truncate(fixture.path, 0), 0);
    refuses("is no Kerfside database");
}

static void a_lock_that_is_kept(void **state) {
    char path[128];
    (void)state;
    snprintf(path, sizeof path, "%s.lock", fixture.path);
    int lock = lock_open(path);
    assert_true(lock_take(lock, 0));
    close_it();
    refuses("Another program keeps"); // after 5 seconds
    close(lock);
}

// --- damaged pages -------------------------------------------------------------------------------

static unsigned char whole[1 << 20];
static unsigned char found[1 << 20];

static size_t read_all(unsigned char *bytes) {
    FILE *file = fopen(fixture.path, "r");
    assert_non_null(file);
    size_t size = fread(bytes, 1, sizeof whole, file);
    fclose(file);
    assert_true(size > 0 && size < sizeof whole);
    return size;
}

static void write_all(const unsigned char *bytes, size_t size) {
    FILE *file = fopen(fixture.path, "w");
    assert_non_null(file);
    assert_int_equal(fwrite(bytes, 1, size, file), size);
    fclose(file);
}

// Opened, looked at and walked through, as the bench and the check do. True: the damage was named.
static bool named(void) {
    struct store *store = NULL;
    struct store_check check = {0};
    struct club_line lines[8];
    if (store_open(fixture.path, STORE_WRITE, BENCH, &store, message, sizeof message) != STORE_OK) {
        return strlen(message) > 20;
    }
    store_clubs(store, CLUBS_NEXT, lines, 8, NULL);
    enum store_result result = store_check(store, &check);
    bool told = (result == STORE_REFUSED && strlen(check.problem) > 10) ||
                (result == STORE_FAILED && strlen(store_message(store)) > 20);
    store_close(store);
    return told;
}

static void every_page_damaged(void **state) {
    (void)state;
    close_it();
    execute("VACUUM; PRAGMA wal_checkpoint(TRUNCATE)"); // a page nobody uses cannot be damaged
    size_t size = read_all(whole);
    size_t page = (size_t)whole[16] << 8 | whole[17]; // sqlite.org/fileformat2.html, offset 16
    int count = 0;
    assert_true(page >= 512 && size % page == 0);
    for (size_t at = 0; at < size; at += page) {
        for (int way = 0; way < 3; way++) {
            static unsigned char bad[sizeof whole];
            memcpy(bad, whole, size);
            for (size_t i = 0; i < page; i++) {
                bad[at + i] = (unsigned char)(way == 0   ? 0
                                              : way == 1 ? 0xA5
                                                         : bad[at + i] ^ (i % 7 == 3 ? 0x10 : 0));
            }
            write_all(bad, size);
            if (!named()) {
                fail_msg("page %zu, damaged in way %d: %s", at / page + 1, way, message);
            }
            assert_int_equal(read_all(found), size);
            if (memcmp(found, bad, size) != 0) {
                fail_msg("page %zu, damaged in way %d: it was written to", at / page + 1, way);
            }
            count++;
        }
    }
    print_message("%d kinds of damage to %zu pages, all named\n", count, size / page);
    write_all(whole, size);
}

// --- the bench at work ---------------------------------------------------------------------------

static void quiet(void *ctx, enum station_sound sound) {
    (void)ctx;
    (void)sound;
}

static void open_bench(void) {
    memset(&bench, 0, sizeof bench);
    bench.settings = &settings;
    bench.clock = bench_clock_simulated();
    boot_id(bench.boot);
    bench.store = fixture.store;
    bench_init(&bench);
    bench.ops.sound = quiet;
}

static void scan(const char *text) {
    struct event event = {.kind = EVENT_SCAN};
    strcpy(event.text, text);
    bench_clock_pass(&bench.clock, 600000);
    bench_event(&bench, &event);
}

static void wait_s(int seconds) {
    struct event event = {.kind = EVENT_TICK};
    bench_clock_pass(&bench.clock, (int64_t)seconds * 1000000);
    bench_event(&bench, &event);
}

// NOT LOGGED and why; nobody is signed on meanwhile.
static void not_logged(const char *words) {
    const struct view *view = bench_view(&bench);
    assert_string_equal(view->notice.title, "NOT LOGGED");
    if (!shown(&view->notice, words)) {
        fail_msg("%s", view->notice.line[1]);
    }
    assert_int_equal(bench.station.state, STATION_SIGNED_OUT);
}

static void locked_by_others(void **state) {
    char path[128];
    (void)state;
    open_bench();
    fixture.store->lock_wait_ms = 20;
    snprintf(path, sizeof path, "%s.lock", fixture.path);
    int lock = lock_open(path);
    assert_true(lock_take(lock, 0));
    scan(BUILDER);
    not_logged("Another program has been writing to ");
    close(lock);
    // And by a program that knows nothing of our lock.
    sqlite3 *raw = fixture_raw(fixture.path);
    fixture_exec(raw, "BEGIN IMMEDIATE");
    sqlite3_busy_timeout(fixture.store->db, 20);
    wait_s(3);
    not_logged("another program is writing to ");
    fixture_exec(raw, "COMMIT");
    sqlite3_close(raw);
    wait_s(3);
    assert_int_equal(bench.station.state, STATION_READY);
    fixture_expect_check(fixture.store);
}

// A file system that turns read-only, as Linux makes it after an error.
static void read_only(void **state) {
    (void)state;
    if (mount("tmpfs", fixture.folder, "tmpfs", 0, "size=8m") != 0) {
        print_message("no file system can be mounted here, so none turns read-only\n");
        skip();
    }
    store_close(fixture.store);
    assert_int_equal(
        store_open(fixture.path, STORE_CREATE, BENCH, &fixture.store, message, sizeof message),
        STORE_OK);
    fixture_seed(fixture.store);
    open_bench();
    store_close(fixture.store); // a file open for writing keeps it from turning
    assert_int_equal(mount(NULL, fixture.folder, NULL, MS_REMOUNT | MS_RDONLY, NULL), 0);
    refuses("Look at the path and its access rights");
    assert_int_equal(mount(NULL, fixture.folder, NULL, MS_REMOUNT, NULL), 0);
    assert_int_equal(
        store_open(fixture.path, STORE_WRITE, BENCH, &fixture.store, message, sizeof message),
        STORE_OK);
    open_bench();
    // SQLite gives this connection the answer that a disk turned read-only under it would give.
    sqlite3_set_authorizer(fixture.store->db, NULL, NULL);
    fixture_exec(fixture.store->db, "PRAGMA query_only = ON");
    scan(BUILDER);
    not_logged("attempt to write a readonly database");
    store_close(fixture.store);
    fixture.store = NULL;
    umount2(fixture.folder, MNT_DETACH);
}

// Times are for people: the order of entries is that of their numbers, whatever the clock says.
static void the_clock_is_set(void **state) {
    static const int steps[] = {-DAY_S, 2 * DAY_S, -DAY_S};
    int64_t seq = 2;
    (void)state;
    open_bench();
    for (size_t i = 0; i < COUNT(steps); i++) {
        bench.clock.wall_ms += (int64_t)steps[i] * 1000;
        scan(BUILDER);
        assert_int_equal(bench.station.state, STATION_READY);
        struct entry entry;
        assert_int_equal(store_entry(fixture.store, ++seq, &entry), STORE_OK);
        assert_int_equal(entry.kind, ENTRY_SIGN_ON);
        struct event off = {.kind = EVENT_ACTION, .action = ACTION_SIGN_OUT};
        bench_clock_pass(&bench.clock, 600000);
        bench_event(&bench, &off);
        assert_int_equal(bench.station.state, STATION_SIGNED_OUT);
        seq++;
        fixture_expect_check(fixture.store);
    }
    struct log_filter all = {0};
    struct log_line lines[2];
    assert_int_equal(store_log(fixture.store, &all, 0, lines, 2), 2);
    assert_int_equal(lines[0].seq, seq);
    assert_int_equal(lines[1].seq, seq - 1);
}

int main(void) {
    const struct CMUnitTest tests[] = {
#define TEST(name) cmocka_unit_test_setup_teardown(name, set_up, tear_down)
        TEST(a_newer_schema),      TEST(a_half_applied_migration), TEST(no_database_at_all),
        TEST(a_lock_that_is_kept), TEST(every_page_damaged),       TEST(locked_by_others),
        TEST(read_only),           TEST(the_clock_is_set),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
