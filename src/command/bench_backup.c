#include "bench_backup.h"
#include "store.h"
#include "tongue.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>

#define SECOND_US ((int64_t)1000000)
#define FIRST_US (30 * SECOND_US)  // after the bench's start
#define AGAIN_US (600 * SECOND_US) // after one that failed
#define LOOK_US (SECOND_US / 2)    // for the end of one
#define LONGEST_US (2 * 3600 * SECOND_US)
#define HOUR_MS ((int64_t)3600 * 1000)

static bool wanted(const struct bench_backup *backup) {
    return backup->settings != NULL && backup->settings->backup[0] != '\0';
}

static int64_t every_ms(const struct bench_backup *backup) {
    return backup->settings->backup_hours * HOUR_MS;
}

void bench_backup_init(struct bench_backup *backup, const struct bench_settings *settings,
                       const char *program, const char *db, int64_t now_us, int64_t wall_ms) {
    int64_t left = 0;
    *backup = (struct bench_backup){
        .settings = settings, .program = program, .db = db, .child = CHILD_NONE};
    if (wanted(backup) && store_backup_newest(db, settings->backup, wall_ms, &backup->last_ms) &&
        backup->last_ms != 0) {
        left = backup->last_ms + every_ms(backup) - wall_ms;
    }
    backup->due_us = now_us + (left * 1000 > FIRST_US ? left * 1000 : FIRST_US);
}

static void failed(struct bench_backup *backup, int64_t now_us, const char *why) {
    const char *text = strstr(why, ": "); // behind `kerfside backup`
    backup->failing = true;
    backup->due_us = now_us + AGAIN_US;
    snprintf(backup->why, sizeof backup->why, "%.*s", (int)strcspn(text ? text + 2 : why, "\n"),
             text ? text + 2 : why);
    fprintf(stderr, _("kerfside bench: no copy was made: %s\n"), backup->why);
}

static void begin(struct bench_backup *backup, int64_t now_us) {
    char keep[12];
    const char *const arguments[] = {"kerfside", "backup", "--into", backup->settings->backup,
                                     "--keep",   keep,     "--db",   backup->db,
                                     "--gently", NULL};
    snprintf(keep, sizeof keep, "%d", backup->settings->backup_keep);
    backup->due_us = now_us + LONGEST_US;
    if (!child_start(&backup->child, backup->program, arguments)) {
        failed(backup, now_us, _("the program could not be started"));
    }
}

static void ended(struct bench_backup *backup, bool good, const char *words, int64_t now_us,
                  int64_t wall_ms) {
    if (!good) {
        failed(backup, now_us, words[0] != '\0' ? words : _("it ended early"));
    } else if (!store_backup_newest(backup->db, backup->settings->backup, wall_ms,
                                    &backup->last_ms)) {
        failed(backup, now_us, strerror(errno));
    } else {
        backup->failing = false;
        backup->due_us = now_us + every_ms(backup) * 1000;
    }
}

bool bench_backup_tick(struct bench_backup *backup, int64_t now_us, int64_t wall_ms) {
    char words[CHILD_TEXT_MAX];
    bool good;
    if (!wanted(backup)) {
        return false;
    }
    if (child_ended(&backup->child, &good, words)) {
        ended(backup, good, words, now_us, wall_ms);
        return true;
    }
    if (now_us < backup->due_us) {
        return false;
    }
    if (backup->child.pid != 0) {
        bench_backup_stop(backup);
        failed(backup, now_us, _("it took longer than 2 hours"));
    } else {
        begin(backup, now_us);
    }
    return true;
}

int64_t bench_backup_patience(const struct bench_backup *backup, int64_t now_us) {
    int64_t left = backup->due_us > now_us ? backup->due_us - now_us : 0;
    if (!wanted(backup)) {
        return -1;
    }
    return backup->child.pid != 0 && left > LOOK_US ? LOOK_US : left;
}

void bench_backup_tell(const struct bench_backup *backup, int64_t wall_ms,
                       struct station_copies *ret_copies) {
    *ret_copies = (struct station_copies){
        .wanted = wanted(backup), .last_ms = backup->last_ms, .failing = backup->failing};
    ret_copies->late = backup->failing && wall_ms - backup->last_ms > 2 * every_ms(backup);
    memcpy(ret_copies->why, backup->why, sizeof ret_copies->why);
}

void bench_backup_stop(struct bench_backup *backup) {
    child_stop(&backup->child);
}
