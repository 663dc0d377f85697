#include "bench_camera.h"
#include "bench_devices.h"
#include "machine_facts.h"

#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <time.h>

#define BEHIND 15 // nice: the screen comes first
#define QUIET_US ((int64_t)120 * 1000000)
#define PRINTER_US ((int64_t)5 * 1000000)
#define DAY_MS ((int64_t)24 * 3600 * 1000)
#define AGAIN_US ((int64_t)600 * 1000000) // after one that failed
#define LOOK_US ((int64_t)100 * 1000)
#define SETTLE_US ((int64_t)5 * 1000000) // a camera sends its first pictures by then

// --- when all was last found whole ---------------------------------------------------------------

static void checked_path(const struct bench *bench, char *path, size_t size) {
    snprintf(path, size, "%s.checked", store_path(bench->store));
}

static void read_checked(struct bench *bench) {
    char path[1100];
    long long wall_ms = 0;
    char word[12] = "";
    checked_path(bench, path, sizeof path);
    FILE *file = fopen(path, "re");
    if (file != NULL) {
        bool read = fscanf(file, "kerfside %11s %lld", word, &wall_ms) == 2;
        bool whole = read && strcmp(word, "checked") == 0 && wall_ms > 0;
        bench->selfcheck.whole_ms = whole ? wall_ms : 0;
        bench->selfcheck.was_broken = read && strcmp(word, "broken") == 0;
        fclose(file);
    }
    bench->selfcheck.known = true;
}

// Lost, it is looked at once more: so it needs no sync.
static void write_checked(struct bench *bench) {
    char path[1100];
    checked_path(bench, path, sizeof path);
    FILE *file = fopen(path, "we");
    if (file != NULL) {
        fprintf(file, "kerfside %s %lld\n", bench->selfcheck.was_broken ? "broken" : "checked",
                (long long)bench->selfcheck.whole_ms);
        fclose(file);
    }
}

// --- the log, by a thread ------------------------------------------------------------------------

static void *run(void *context) {
    struct bench *bench = context;
    struct bench_selfcheck *self = &bench->selfcheck;
    setpriority(PRIO_PROCESS, 0, BEHIND);
    self->result = self->all ? store_check(self->reading, &self->check)
                             : store_check_tail(self->reading, BENCH_TAIL, &self->check);
    atomic_store(&self->ended, true);
    screen_wake(bench->screen);
    return NULL;
}

// Signals are for the thread that waits for them.
static bool start_thread(struct bench *bench) {
    sigset_t all;
    sigset_t before;
    sigfillset(&all);
    pthread_sigmask(SIG_SETMASK, &all, &before);
    bool started = pthread_create(&bench->selfcheck.thread, NULL, run, bench) == 0;
    pthread_sigmask(SIG_SETMASK, &before, NULL);
    return started;
}

// What could not be looked at is not known, and is tried again later.
static void failed(struct bench *bench, const char *why) {
    struct bench_selfcheck *self = &bench->selfcheck;
    fprintf(stderr, "kerfside bench: %s\n", why);
    if (self->all) {
        self->whole = CHAIN_UNKNOWN;
        self->due_us = bench_clock_us(&bench->clock) + AGAIN_US;
    }
}

static void start(struct bench *bench, bool all) {
    struct bench_selfcheck *self = &bench->selfcheck;
    char message[512];
    memset(&self->check, 0, sizeof self->check);
    self->all = all;
    atomic_store(&self->ended, false);
    atomic_store(&self->watch.steps, 0);
    atomic_store(&self->watch.stop, false);
    if (store_open(store_path(bench->store), STORE_READ, bench->settings->station.bench,
                   &self->reading, message, sizeof message) != STORE_OK) {
        failed(bench, message);
        return;
    }
    store_watch(self->reading, &self->watch);
    self->going = start_thread(bench);
    if (!self->going) {
        store_close(self->reading);
        failed(bench, "the log could not be checked: no memory.");
    } else if (all) {
        self->whole = CHAIN_READING;
    }
}

static void join(struct bench_selfcheck *self) {
    pthread_join(self->thread, NULL);
    store_close(self->reading);
    self->going = false;
}

static void take(struct bench *bench) {
    struct bench_selfcheck *self = &bench->selfcheck;
    if (self->result != STORE_OK && self->result != STORE_REFUSED) {
        failed(bench, store_message(self->reading));
        join(self);
        return;
    }
    join(self);
    bool good = self->result == STORE_OK;
    *(self->all ? &self->whole : &self->tail) = good ? CHAIN_WHOLE : CHAIN_BROKEN;
    if (!self->all) {
        self->tail_count = self->check.entries < BENCH_TAIL ? self->check.entries : BENCH_TAIL;
    } else {
        self->whole_ms = good ? bench_clock_wall_ms(&bench->clock) : self->whole_ms;
        self->was_broken = !good;
        write_checked(bench);
    }
    if (!good) {
        snprintf(self->problem, sizeof self->problem, "%.*s", SELFCHECK_TEXT_MAX - 1,
                 self->check.problem);
        fprintf(stderr, "kerfside bench: %s\n", self->check.problem);
    }
}

// --- the printer, by a program -------------------------------------------------------------------

static void ask_printer(struct bench *bench) {
    // Its answer is read in English.
    static const char script[] =
        "export LC_ALL=C; if [ -n \"$1\" ]; then lpstat -a \"$1\" | grep -qF \"$1 accepting\"; "
        "else lpstat -d | grep -q ': '; fi";
    struct bench_selfcheck *self = &bench->selfcheck;
    const char *const arguments[] = {"sh", "-c", script, "sh", bench->settings->labels_queue, NULL};
    if (!bench->settings->labels_print || self->printer.pid != 0) {
        return;
    }
    self->printer = CHILD_NONE;
    if (child_start(&self->printer, "/bin/sh", arguments)) {
        self->printer_is = PRINTER_ASKED;
        self->printer_until_us = bench_clock_us(&bench->clock) + PRINTER_US;
    }
}

static bool hear_printer(struct bench *bench) {
    struct bench_selfcheck *self = &bench->selfcheck;
    char said[CHILD_TEXT_MAX];
    bool good = false;
    if (self->printer.pid == 0) {
        return false;
    }
    if (child_ended(&self->printer, &good, said)) {
        self->printer_is = good ? PRINTER_THERE : PRINTER_MISSING;
        return true;
    }
    if (bench_clock_us(&bench->clock) >= self->printer_until_us) {
        child_stop(&self->printer);
        self->printer_is = PRINTER_SILENT;
        return true;
    }
    return false;
}

// --- in turn -------------------------------------------------------------------------------------

// Nothing else reads or writes for long now, and nobody has used the bench for a while.
static bool quiet(const struct bench *bench) {
    int64_t now = bench_clock_us(&bench->clock);
    bool unused = now - bench->last_input_us >= QUIET_US || bench->selfcheck.was_broken;
    return unused && now >= bench->selfcheck.due_us && !bench->check.going &&
           bench->backup.child.pid == 0 && !bench->practice.on &&
           bench->station.saving == SAVING_NONE;
}

static bool all_due(const struct bench *bench) {
    const struct bench_selfcheck *self = &bench->selfcheck;
    int64_t age = bench_clock_wall_ms(&bench->clock) - self->whole_ms;
    return self->whole != CHAIN_BROKEN && (age > DAY_MS || age < 0);
}

static bool tick(struct bench *bench) {
    struct bench_selfcheck *self = &bench->selfcheck;
    bool news = hear_printer(bench);
    if (!self->known) {
        read_checked(bench);
        self->settle_us = bench_clock_us(&bench->clock) + SETTLE_US;
    }
    if (self->settle_us > 0 && bench_clock_us(&bench->clock) >= self->settle_us) {
        self->settle_us = 0;
        news = true;
    }
    if (self->going && atomic_load(&self->ended)) {
        take(bench);
        news = true;
    } else if (!self->going && !self->begun) {
        self->begun = true;
        start(bench, false);
        ask_printer(bench);
    } else if (!self->going && all_due(bench) && quiet(bench)) {
        start(bench, true);
    }
    return news;
}

void bench_selfcheck_tick(struct bench *bench) {
    if (!bench->selfcheck.unasked && tick(bench)) {
        const struct event news = {.kind = EVENT_SELFCHECK};
        bench_event(bench, &news);
    }
}

int64_t bench_selfcheck_patience(const struct bench *bench) {
    const struct bench_selfcheck *self = &bench->selfcheck;
    bool watched = self->going && self->all && bench->station.state == STATION_SELFCHECK;
    if (self->printer.pid != 0 || watched) {
        return LOOK_US;
    }
    if (self->unasked) {
        return -1;
    }
    if (!self->begun) {
        return 0;
    }
    int64_t now = bench_clock_us(&bench->clock);
    if (self->settle_us > 0) {
        return self->settle_us > now ? self->settle_us - now : 0;
    }
    if (self->going || self->whole == CHAIN_BROKEN) {
        return -1;
    }
    if (!all_due(bench)) {
        return (self->whole_ms + DAY_MS + 1 - bench_clock_wall_ms(&bench->clock)) * 1000;
    }
    int64_t quiet_us = self->was_broken ? now : bench->last_input_us + QUIET_US;
    int64_t left = (quiet_us > self->due_us ? quiet_us : self->due_us) - now;
    // What is in its way now ends with an event of its own.
    return left > 0 ? left : self->was_broken ? LOOK_US : -1;
}

void bench_selfcheck_wait(const struct bench *bench) {
    const struct timespec moment = {.tv_nsec = 1000000};
    while (bench->selfcheck.going && !atomic_load(&bench->selfcheck.ended)) {
        nanosleep(&moment, NULL);
    }
}

void bench_selfcheck_stop(struct bench *bench) {
    struct bench_selfcheck *self = &bench->selfcheck;
    if (self->going) {
        store_stop(self->reading);
        join(self);
    }
    child_stop(&self->printer);
}

void bench_selfcheck_again(void *ctx) {
    struct bench *bench = ctx;
    bench->selfcheck.begun = bench->selfcheck.begun && bench->selfcheck.going;
}

// --- the facts -----------------------------------------------------------------------------------

static void tell_devices(const struct bench *bench, struct selfcheck_facts *facts) {
    const struct bench_settings *settings = bench->settings;
    const bool *present = bench->station.present;
    const struct bench_devices *devices = bench->devices;
    bool settling = bench->selfcheck.settle_us > 0;
    for (size_t i = 0; i < BENCH_SCANNERS_MAX + BENCH_SERIALS_MAX; i++) {
        const char *path = i < BENCH_SCANNERS_MAX ? settings->scanner[i]
                                                  : settings->serial[i - BENCH_SCANNERS_MAX];
        facts->scanner.named += path[0] != '\0';
        facts->scanner.there +=
            path[0] != '\0' && (settling || (devices != NULL && devices->there[i]));
    }
    facts->button.named = settings->button[0] != '\0';
    facts->button.there = facts->button.named && (settling || present[DEVICE_BUTTON]);
    facts->scale.named = settings->scale[0] != '\0';
    facts->scale.there = facts->scale.named && (settling || present[DEVICE_SCALE]);
    facts->camera.named = settings->camera[0] != '\0';
    facts->camera.there = facts->camera.named && (settling || present[DEVICE_CAMERA]);
    facts->camera_frames = settling || (bench->camera != NULL && bench_camera_sees(bench->camera));
}

static void tell_log(struct bench *bench, struct selfcheck_facts *facts) {
    const struct bench_selfcheck *self = &bench->selfcheck;
    int64_t last_ms = 0;
    int64_t signed_seq = 0;
    if (store_last(bench->store, &facts->log.entries, &last_ms) == STORE_OK &&
        last_ms > facts->now_ms) {
        facts->clock.set_back_ms = last_ms - facts->now_ms;
    }
    facts->log.tail = self->tail;
    facts->log.tail_count = self->tail_count;
    facts->log.whole = self->whole;
    facts->log.whole_ms = self->whole_ms;
    facts->log.problem = self->problem;
    if (self->going && self->all) {
        int64_t read = atomic_load(&self->watch.steps) / 2;
        facts->log.read = read < facts->log.entries ? read : facts->log.entries;
    }
    facts->signing.wanted = bench->settings->sign_key[0] != '\0';
    if (store_last_signed(bench->store, &signed_seq, &facts->signing.last_ms) == STORE_OK) {
        facts->signing.uncovered = facts->log.entries - signed_seq;
    }
    store_ballast(bench->store, &facts->reserve_wanted, &facts->reserve);
}

static void tell_copies(struct bench *bench, struct station_copies *copies,
                        struct selfcheck_facts *facts) {
    const char *database = store_path(bench->store);
    bench_backup_tell(&bench->backup, facts->now_ms, copies);
    facts->copies.wanted = copies->wanted;
    facts->copies.late = copies->late;
    facts->copies.failing = copies->failing;
    facts->copies.last_ms = copies->last_ms;
    facts->copies.why = copies->why;
    machine_disk(database, &facts->disk);
    if (copies->wanted) {
        machine_disk(bench->settings->backup, &facts->copies_disk);
        facts->same_disk = machine_same_disk(database, bench->settings->backup);
    }
    facts->others = machine_others(database, (int)bench->backup.child.pid);
}

void bench_selfcheck_tell(void *ctx, struct station_selfcheck *ret_selfcheck) {
    struct bench *bench = ctx;
    struct station_copies copies;
    struct screen_facts screen;
    struct selfcheck_facts facts = {
        .now_ms = bench_clock_wall_ms(&bench->clock),
        .printer = bench->settings->labels_print ? bench->selfcheck.printer_is : PRINTER_UNWANTED,
        .printer_queue = bench->settings->labels_queue,
        .clock.synchronised = machine_clock(MACHINE_CLOCK_TOLD),
        .settings.named = bench->now->path[0] != '\0',
        .settings.wrong = bench->settings->station.wrong,
        .settings.last_good = bench->settings->station.last_good};
    screen_tell(bench->screen, &screen);
    facts.screen.width = screen.width;
    facts.screen.height = screen.height;
    facts.screen.hertz = screen.hertz;
    facts.screen.driver = screen.driver;
    facts.sound = bench->settings->volume == 0 ? SOUND_OFF
                  : screen.mute                ? SOUND_MISSING
                  : screen.played              ? SOUND_PLAYED
                                               : SOUND_UNTRIED;
    tell_devices(bench, &facts);
    tell_log(bench, &facts);
    tell_copies(bench, &copies, &facts);
    selfcheck_judge(&facts, ret_selfcheck->finding);
    ret_selfcheck->stops = selfcheck_stops(&facts);
}
