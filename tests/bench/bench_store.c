// Durable log entries a second: store_append, with its lock, stage rules, moved club, counters and
// hash chain, against a bare prepared INSERT of the same row into the same table (same indexes and
// triggers) with the same pragmas, one transaction each, turn about in the same run.
//
//     bench_store DATABASE SCRATCH    DATABASE as bench_fill makes it; both are written to

#include "record.h"
#include "store.h"

#include <sqlite3.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#define CLUBS 200
#define ENTRIES 5 // a club: tip shown, tip cut, butt shown, butt cut, measure

static double seconds(void) {
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (double)now.tv_sec + (double)now.tv_nsec / 1e9;
}

static void make_entry(const struct club *club, int step, int number, struct entry *ret) {
    static const enum entry_kind kinds[ENTRIES] = {ENTRY_TIP_SHOWN, ENTRY_TIP_CUT, ENTRY_BUTT_SHOWN,
                                                   ENTRY_BUTT_CUT, ENTRY_MEASURE};
    const struct bench_rules rules = BENCH_RULES_DEFAULT;
    struct plan_input input;
    struct plan plan;
    struct record record;
    *ret = entry_init(kinds[step]);
    ret->wall_ms = 1900000000000 + number * 1000;
    ret->mono_ms = number;
    ret->club_id = club->id;
    snprintf(ret->boot, sizeof ret->boot, "bench");
    snprintf(ret->bench, sizeof ret->bench, "Bench 1");
    snprintf(ret->worker, sizeof ret->worker, "W-0001%c", ticket_check_char("W0001", 5));
    memcpy(ret->build, club->order.build, sizeof ret->build);
    memcpy(ret->club, club->order.club, sizeof ret->club);
    memcpy(ret->head, club->head.ticket, sizeof ret->head);
    memcpy(ret->shaft, club->shaft.ticket, sizeof ret->shaft);
    // Scattered like the random ids that benches make.
    snprintf(ret->confirm_id, sizeof ret->confirm_id, "%016llx%016llx",
             (unsigned long long)(number + 77) * 0x9e3779b97f4a7c15ull,
             0xabcdefull + (unsigned)step);
    club_plan(club, &rules, &input, &plan);
    record_make(&input, &plan, &record);
    record_write(&record, ret->plan, sizeof ret->plan);
    ret->chart_revision = 1;
    ret->planned =
        ret->kind == ENTRY_TIP_SHOWN || ret->kind == ENTRY_TIP_CUT ? plan.tip_mark : plan.butt_mark;
    if (ret->kind == ENTRY_TIP_CUT || ret->kind == ENTRY_BUTT_CUT) {
        ret->made = ret->planned;
        ret->attempt = 1;
    }
    if (ret->kind == ENTRY_MEASURE) {
        ret->made = ret->planned;
        ret->verdict = VERDICT_IN;
    }
}

static sqlite3_stmt *bare_open(const char *path, sqlite3 **ret_db) {
    sqlite3_stmt *insert = NULL;
    if (sqlite3_open(path, ret_db) != SQLITE_OK ||
        sqlite3_exec(*ret_db,
                     "PRAGMA journal_mode=WAL; PRAGMA synchronous=EXTRA; PRAGMA "
                     "wal_autocheckpoint=0; PRAGMA recursive_triggers=ON; PRAGMA foreign_keys=OFF",
                     NULL, NULL, NULL) != SQLITE_OK ||
        sqlite3_prepare_v2(*ret_db,
                           "INSERT INTO log (seq, kind, wall_ms, mono_ms, boot, bench, worker, "
                           "club_id, build, club, head, shaft, confirm_id, attempt, planned, made, "
                           "verdict, cause, note, chart_revision, plan, hash) VALUES ((SELECT "
                           "max(seq) + 1 FROM log), ?, ?, ?, ?, ?, ?, NULL, ?, ?, ?, ?, ?, ?, ?, "
                           "?, ?, '', '', 1, ?, zeroblob(32))",
                           -1, &insert, NULL) != SQLITE_OK) {
        fprintf(stderr, "bench_store: %s\n", sqlite3_errmsg(*ret_db));
        exit(1);
    }
    return insert;
}

static void bare_insert(sqlite3 *db, sqlite3_stmt *insert, const struct entry *entry) {
    const char *const texts[] = {entry_kind_text(entry->kind),
                                 NULL,
                                 NULL,
                                 entry->boot,
                                 entry->bench,
                                 entry->worker,
                                 entry->build,
                                 entry->club,
                                 entry->head,
                                 entry->shaft,
                                 entry->confirm_id};
    for (int i = 0; i < 11; i++) {
        if (texts[i] != NULL) {
            sqlite3_bind_text(insert, i + 1, texts[i], -1, SQLITE_STATIC);
        }
    }
    sqlite3_bind_int64(insert, 2, entry->wall_ms);
    sqlite3_bind_int64(insert, 3, entry->mono_ms);
    sqlite3_bind_int64(insert, 12, entry->attempt);
    sqlite3_bind_int64(insert, 13, entry->planned);
    sqlite3_bind_int64(insert, 14, entry->made == LENGTH_UNKNOWN ? 0 : entry->made);
    sqlite3_bind_text(insert, 15, verdict_text(entry->verdict), -1, SQLITE_STATIC);
    sqlite3_bind_text(insert, 16, entry->plan, -1, SQLITE_STATIC);
    if (sqlite3_step(insert) != SQLITE_DONE) {
        fprintf(stderr, "bench_store: %s\n", sqlite3_errmsg(db));
        exit(1);
    }
    sqlite3_reset(insert);
}

int main(int argc, char **argv) {
    struct store *store = NULL;
    struct club_line lines[CLUBS];
    char message[512];
    double ours = 0;
    double bare = 0;
    int clubs;
    sqlite3 *db = NULL;
    sqlite3_stmt *insert;
    if (argc != 3) {
        fprintf(stderr, "usage: bench_store DATABASE SCRATCH\n");
        return 2;
    }
    if (store_open(argv[1], STORE_WRITE, "Bench 1", &store, message, sizeof message) != STORE_OK) {
        fprintf(stderr, "bench_store: %s\n", message);
        return 1;
    }
    insert = bare_open(argv[2], &db);
    clubs = store_clubs(store, CLUBS_NEXT, lines, CLUBS, NULL);
    for (int i = 0; i < clubs; i++) {
        for (int step = 0; step < ENTRIES; step++) {
            struct club club;
            struct entry entry;
            double start;
            if (store_club(store, lines[i].id, &club) != STORE_OK) {
                fprintf(stderr, "bench_store: %s\n", store_message(store));
                return 1;
            }
            make_entry(&club, step, i * ENTRIES + step, &entry);
            start = seconds();
            bare_insert(db, insert, &entry);
            bare += seconds() - start;
            start = seconds();
            if (store_append(store, &entry) != STORE_OK) {
                fprintf(stderr, "bench_store: %s\n", store_message(store));
                return 1;
            }
            ours += seconds() - start;
        }
    }
    printf("durable log entries a second: %.0f; bare prepared INSERT: %.0f; ratio %.2f (aim 0.8)\n",
           clubs * ENTRIES / ours, clubs * ENTRIES / bare, bare / ours);
    sqlite3_finalize(insert);
    sqlite3_close(db);
    store_close(store);
    return 0;
}
