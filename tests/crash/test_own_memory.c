// Every allocation that this program makes by itself fails, once: opening, an import, a copy, a
// check, the review's charts, a set, a kit list, tickets as a file. Each does its work or says that
// it did not; nothing comes down, and the database stays whole. (SQLite's own are in
// test_memory.c.)

#include "bench.h"
#include "scratch.h"

#include <stdio.h>
#include <stdlib.h>
#include <unistd.h>

static struct scratch scratch;
static struct bench_settings settings;
static int64_t calls;
static int64_t fail_at; // 0: never

void *__real_malloc(size_t size);
void *__real_calloc(size_t count, size_t size);
void *__real_realloc(void *bytes, size_t size);
void *__wrap_malloc(size_t size);
void *__wrap_calloc(size_t count, size_t size);
void *__wrap_realloc(void *bytes, size_t size);

static bool fails(void) {
    return ++calls == fail_at;
}

void *__wrap_malloc(size_t size) {
    return fails() ? NULL : __real_malloc(size);
}

void *__wrap_calloc(size_t count, size_t size) {
    return fails() ? NULL : __real_calloc(count, size);
}

void *__wrap_realloc(void *bytes, size_t size) {
    return fails() ? NULL : __real_realloc(bytes, size);
}

static int done[7]; // how often each came to its end, and
static int refused; // how often one did not

static void count(int which, bool good) {
    done[which] += good;
    refused += !good;
}

static void look_around(struct store *store) {
    static struct bench bench;
    static struct set set;
    static struct kit kit;
    static struct cut_stats stats;
    char path[VIEW_TEXT_MAX];
    struct review_filter all = {0};
    memset(&bench, 0, sizeof bench);
    bench.settings = &settings;
    bench.store = store;
    struct station_ops ops = bench_ops(&bench);
    count(0, ops.set(&bench, "1", &set) == STATION_FOUND);
    count(1, ops.kit(&bench, "1", MATCH_BY_SWINGWEIGHT, &kit) != STATION_LOOKUP_FAILED);
    count(2, ops.stats(&bench, &all, &stats) == STATION_FOUND);
    count(3, ops.tickets(&bench, "1", path, sizeof path));
}

static void everything(void) {
    char message[512] = "";
    char copy[128];
    struct store *store = NULL;
    struct store_check check;
    if (store_open(scratch.db, STORE_WRITE, "desk", &store, message, sizeof message) != STORE_OK) {
        assert_true(strlen(message) > 10);
        refused++;
        return;
    }
    look_around(store);
    snprintf(copy, sizeof copy, "%s", scratch_path(&scratch, "copy.db"));
    unlink(copy);
    enum store_result result = store_backup(store, copy);
    assert_true(result == STORE_OK || strlen(store_message(store)) > 10);
    assert_true((access(copy, F_OK) == 0) == (result == STORE_OK));
    count(4, result == STORE_OK);
    count(5, store_check(store, &check) == STORE_OK);
    store_close(store);
    enum store_result imported = scratch_import_text(
        &scratch, "workers.csv", "badge,name,role\nW-0001B,Somebody Else,supervisor\n");
    assert_true(imported == STORE_OK || strlen(scratch.messages) > 0 ||
                strlen(store_message(scratch.store)) > 10);
    count(6, imported == STORE_OK);
}

static void lacks_memory(void **state) {
    int silence = dup(2);
    (void)state;
    assert_non_null(freopen("/dev/null", "w", stderr)); // the bench complains, as it should
    int64_t at = 0;
    do {
        at++;
        calls = 0;
        fail_at = at;
        everything();
        fail_at = 0;
        struct store_check check;
        assert_int_equal(store_check(scratch.store, &check), STORE_OK);
    } while (calls >= at && at < 3000);
    fflush(stderr);
    dup2(silence, 2);
    close(silence);
    print_message("%d allocations of our own failed; %d times something was refused\n", (int)at - 1,
                  refused);
    assert_true(at > 10 && at < 3000 && refused > 5);
    for (size_t i = 0; i < sizeof done / sizeof done[0]; i++) {
        assert_true(done[i] > 0);
    }
}

static int set_up(void **state) {
    (void)state;
    settings = bench_settings_default();
    scratch_init(&scratch);
    scratch_import_workshop(&scratch);
    return 0;
}

static int tear_down(void **state) {
    (void)state;
    scratch_release(&scratch);
    return 0;
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(lacks_memory, set_up, tear_down)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
