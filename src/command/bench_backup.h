#ifndef BENCH_BACKUP_H
#define BENCH_BACKUP_H

// Copies of the database on a schedule: `kerfside backup --into FOLDER --gently` as a process of
// its own, so that whatever it meets, a slow disk or a dead one, does not hold the bench up.

#include "bench_settings.h"
#include "child.h"
#include "station.h"

struct bench_backup {
    const struct bench_settings *settings; // NULL: makes none
    const char *program;                   // this one
    const char *db;
    int64_t due_us;     // of the clock that bench_clock_us reads
    struct child child; // the copy that is being made
    int64_t last_ms;    // when the newest good copy was begun, Unix; 0: there is none
    bool failing;       // the last try did
    char why[VIEW_TEXT_MAX];
};

// Makes none yet. `program` and `db` must outlive it.
void bench_backup_init(struct bench_backup *backup, const struct bench_settings *settings,
                       const char *program, const char *db, int64_t now_us, int64_t wall_ms);
// Begins a copy when one is due, and hears of one that has ended. True when there is news.
bool bench_backup_tick(struct bench_backup *backup, int64_t now_us, int64_t wall_ms);
// How long nothing is due, in microseconds; -1 for ever.
int64_t bench_backup_patience(const struct bench_backup *backup, int64_t now_us);
// What a supervisor should know of it.
void bench_backup_tell(const struct bench_backup *backup, int64_t wall_ms,
                       struct station_copies *ret_copies);
// Gives up a copy that is being made.
void bench_backup_stop(struct bench_backup *backup);

#endif
