#include "bench_backup.h"
#include "store.h"

#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <spawn.h>
#include <stdio.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

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
    *backup = (struct bench_backup){.settings = settings, .program = program, .db = db, .said = -1};
    if (wanted(backup) && store_backup_newest(db, settings->backup, wall_ms, &backup->last_ms) &&
        backup->last_ms != 0) {
        left = backup->last_ms + every_ms(backup) - wall_ms;
    }
    backup->due_us = now_us + (left * 1000 > FIRST_US ? left * 1000 : FIRST_US);
}

// Words for stderr, and the end of a copy for the bench: nothing else goes to the child.
static bool spawn(struct bench_backup *backup, int said) {
    char keep[12];
    char *const arguments[] = {"kerfside", "backup", "--into", (char *)backup->settings->backup,
                               "--keep",   keep,     "--db",   (char *)backup->db,
                               "--gently", NULL};
    posix_spawn_file_actions_t files;
    posix_spawnattr_t attributes;
    sigset_t all;
    sigset_t none;
    bool done = false;
    snprintf(keep, sizeof keep, "%d", backup->settings->backup_keep);
    sigfillset(&all);
    sigemptyset(&none);
    if (posix_spawn_file_actions_init(&files) != 0) {
        return false;
    }
    if (posix_spawnattr_init(&attributes) == 0) {
        done =
            posix_spawn_file_actions_addopen(&files, 0, "/dev/null", O_RDONLY, 0) == 0 &&
            posix_spawn_file_actions_addopen(&files, 1, "/dev/null", O_WRONLY, 0) == 0 &&
            posix_spawn_file_actions_adddup2(&files, said, 2) == 0 &&
            posix_spawn_file_actions_addclosefrom_np(&files, 3) == 0 &&
            posix_spawnattr_setflags(&attributes, POSIX_SPAWN_SETSIGDEF | POSIX_SPAWN_SETSIGMASK |
                                                      POSIX_SPAWN_SETPGROUP) == 0 &&
            posix_spawnattr_setsigdefault(&attributes, &all) == 0 &&
            posix_spawnattr_setsigmask(&attributes, &none) == 0 &&
            posix_spawn(&backup->child, backup->program, &files, &attributes, arguments, environ) ==
                0;
        posix_spawnattr_destroy(&attributes);
    }
    posix_spawn_file_actions_destroy(&files);
    return done;
}

static void failed(struct bench_backup *backup, int64_t now_us, const char *why) {
    const char *text = strstr(why, ": "); // behind `kerfside backup`
    backup->failing = true;
    backup->due_us = now_us + AGAIN_US;
    snprintf(backup->why, sizeof backup->why, "%.*s", (int)strcspn(text ? text + 2 : why, "\n"),
             text ? text + 2 : why);
    fprintf(stderr, "kerfside bench: no copy was made: %s\n", backup->why);
}

static void begin(struct bench_backup *backup, int64_t now_us) {
    int ends[2];
    backup->due_us = now_us + LONGEST_US;
    if (pipe2(ends, O_CLOEXEC) != 0) {
        failed(backup, now_us, strerror(errno));
        return;
    }
    if (spawn(backup, ends[1])) {
        backup->said = ends[0];
    } else {
        backup->child = 0;
        close(ends[0]);
        failed(backup, now_us, "the program could not be started");
    }
    close(ends[1]);
}

static void forget(struct bench_backup *backup) {
    close(backup->said);
    backup->said = -1;
    backup->child = 0;
}

static void ended(struct bench_backup *backup, int status, int64_t now_us, int64_t wall_ms) {
    char words[512] = "it ended early";
    ssize_t size = status == 0 ? 0 : read(backup->said, words, sizeof words - 1);
    if (size > 0) {
        words[size] = '\0';
    }
    forget(backup);
    if (status != 0) {
        failed(backup, now_us, words);
    } else if (!store_backup_newest(backup->db, backup->settings->backup, wall_ms,
                                    &backup->last_ms)) {
        failed(backup, now_us, strerror(errno));
    } else {
        backup->failing = false;
        backup->due_us = now_us + every_ms(backup) * 1000;
    }
}

bool bench_backup_tick(struct bench_backup *backup, int64_t now_us, int64_t wall_ms) {
    int status;
    if (!wanted(backup)) {
        return false;
    }
    if (backup->child != 0 && waitpid(backup->child, &status, WNOHANG) == backup->child) {
        ended(backup, status, now_us, wall_ms);
        return true;
    }
    if (now_us < backup->due_us) {
        return false;
    }
    if (backup->child != 0) {
        bench_backup_stop(backup);
        failed(backup, now_us, "it took longer than 2 hours");
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
    return backup->child != 0 && left > LOOK_US ? LOOK_US : left;
}

void bench_backup_tell(const struct bench_backup *backup, int64_t wall_ms,
                       struct station_copies *ret_copies) {
    *ret_copies = (struct station_copies){
        .wanted = wanted(backup), .last_ms = backup->last_ms, .failing = backup->failing};
    ret_copies->late = backup->failing && wall_ms - backup->last_ms > 2 * every_ms(backup);
    memcpy(ret_copies->why, backup->why, sizeof ret_copies->why);
}

void bench_backup_stop(struct bench_backup *backup) {
    if (backup->child != 0) {
        kill(backup->child, SIGKILL);
        waitpid(backup->child, NULL, 0);
        forget(backup);
    }
}
