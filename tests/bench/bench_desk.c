// How long it takes to say what an edited chart does to 1 000 open clubs, and to 500. On a copy of
// a database of bench_fill, which is changed. Prints; never fails on time.
//
//     bench_desk DATABASE

#include "office.h"

#include <sqlite3.h>
#include <stdio.h>
#include <string.h>
#include <time.h>

#define RUNS 10
#define SUPERVISOR "W-9999B"

static double now_ms(void) {
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (double)now.tv_sec * 1e3 + (double)now.tv_nsec / 1e6;
}

static int64_t clock_ms(void *ctx) {
    (void)ctx;
    return 1;
}

static void random_id(void *ctx, char ret_id[CONFIRM_ID_MAX]) {
    (void)ctx;
    snprintf(ret_id, CONFIRM_ID_MAX, "%032d", 7);
}

static bool prepare(const char *path) {
    sqlite3 *db = NULL;
    bool done = sqlite3_open(path, &db) == SQLITE_OK &&
                sqlite3_exec(db,
                             "INSERT OR IGNORE INTO worker (badge, name, role) VALUES "
                             "('" SUPERVISOR "', 'Bench', 'supervisor');"
                             "UPDATE shaft SET model = 'Bench Steel' WHERE life = 'raw'",
                             NULL, NULL, NULL) == SQLITE_OK;
    sqlite3_close(db);
    return done;
}

static bool measure(struct desk_ops *ops, const char *column) {
    struct worker who = {.badge = SUPERVISOR, .role = ROLE_SUPERVISOR};
    struct desk_draft draft = {.form = DESK_FORM_CHART, .of = {{"Bench Steel", "regular", "iron"}}};
    struct desk_remarks remarks;
    double best = 1e9;
    if (ops->begin(ops->ctx, &draft) != DESK_DONE || !document_set(&draft.now, ":5", column)) {
        return false;
    }
    random_id(NULL, draft.id);
    for (int i = 0; i < RUNS; i++) {
        memset(&remarks, 0, sizeof remarks);
        double from = now_ms();
        ops->consider(ops->ctx, &who, &draft, &remarks);
        double took = now_ms() - from;
        best = took < best ? took : best;
    }
    printf("a chart left, best of %d: %.1f ms; \"%s\"\n", RUNS, best,
           remarks.note_count > 0 ? remarks.note[0] : "nothing");
    return remarks.note_count > 0;
}

int main(int argc, char **argv) {
    struct store *store = NULL;
    char message[256] = "";
    struct station_settings settings = {.rules = BENCH_RULES_DEFAULT, .bench = "Bench 1"};
    struct station_ops world = {.mono_ms = clock_ms, .wall_ms = clock_ms, .random_id = random_id};
    if (argc != 2 || !prepare(argv[1]) ||
        store_open(argv[1], STORE_WRITE, "Bench 1", &store, message, sizeof message) != STORE_OK) {
        fprintf(stderr, "bench_desk: %s\n", message);
        return 1;
    }
    struct office office = {.store = store, .world = &world, .settings = &settings};
    struct desk_ops ops = office_ops(&office);
    bool good = measure(&ops, "247 1 1/8") && measure(&ops, "247 -");
    store_close(store);
    return good ? 0 : 1;
}
