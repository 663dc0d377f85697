// The bench as a program: settings, window and database, until it ends or leaves for practice.

#include "bench_run.h"
#include "assets.h"
#include "bench.h"
#include "bench_change.h"
#include "bench_safe.h"
#include "bench_screen.h"
#include "bench_trouble.h"
#include "boot.h"
#include "command.h"
#include "database.h"
#include "practice.h"
#include "settings_file.h"
#include "supervisor.h"
#include "tongue.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static bool read_size(const char *text, int *ret_width, int *ret_height) {
    int end = 0;
    if (text == NULL) {
        return true;
    }
    if (sscanf(text, "%5dx%5d%n", ret_width, ret_height, &end) != 2 || text[end] != '\0' ||
        *ret_width < 640 || *ret_height < 480 || *ret_width > 7680 || *ret_height > 7680) {
        fprintf(stderr,
                _("kerfside bench: --size %s: write it as 1280x720, from 640x480 to 7680x7680.\n"),
                text);
        return false;
    }
    return true;
}

static bool path_option(const char *given, char *path) {
    if (given != NULL && snprintf(path, BENCH_PATH_MAX, "%s", given) >= BENCH_PATH_MAX) {
        fprintf(stderr, _("kerfside bench: this path is too long: %s\n"), given);
        return false;
    }
    return true;
}

// Whatever is wrong with the file of settings, there are some to work with.
static bool read_settings(const struct bench_options *options, const char *database,
                          struct settings_now *now) {
    struct bench_settings *settings = &now->settings;
    settings_now_read("bench", options->settings, database, now);
    snprintf(settings->station.wrong, sizeof settings->station.wrong, "%s", now->first);
    settings->station.last_good = now->from == SETTINGS_LAST_GOOD;
    return path_option(options->scanner, settings->scanner[0]) &&
           path_option(options->button, settings->button);
}

// A bench that is watched over shows that there is no database, since nobody reads what it prints.
static bool no_database(const char *path, bool supervised, char *message, size_t size) {
    snprintf(
        message, size,
        _("There is no database %s. Make one with `kerfside demo` to try, or `kerfside import` "
          "for your own."),
        path);
    fprintf(stderr, "kerfside bench: %s\n", message);
    return supervised;
}

// False: there is no database, or no place for one. It may be there and not to be opened: then
// *ret_store stays NULL and `message` says why.
static bool open_store(const char *path, const char *name, const struct bench_watch *watch,
                       struct store **ret_store, char *message, size_t size) {
    struct stat stat;
    if (lstat(path, &stat) != 0) {
        stat.st_size = 0;
        if (errno == ENOENT) {
            return no_database(path, watch->supervised, message, size);
        }
    }
    // It may have to be copied and brought up to date first.
    bench_watch_extend(watch, BENCH_WATCH_LONG_US + (int64_t)stat.st_size);
    if (store_open(path, STORE_WRITE, name, ret_store, message, size) != STORE_OK) {
        fprintf(stderr, "kerfside bench: %s\n", message);
    }
    return true;
}

static bool open_screen(const struct bench_options *options, const struct bench_settings *settings,
                        struct screen **ret_screen) {
    struct screen_options screen = bench_screen_options(settings);
    char message[512];
    int width;
    int height;
    screen.windowed = options->windowed || options->script != NULL;
    screen.assets = assets_folder();
    screen.volume = options->script != NULL ? 0 : settings->volume;
    if (!read_size(options->size, &screen.width, &screen.height)) {
        return false;
    }
    if (!screen_open(&screen, ret_screen, message, sizeof message)) {
        fprintf(stderr, "kerfside bench: %s\n", message);
        return false;
    }
    screen_size(*ret_screen, &width, &height);
    bench_screen_far(settings, width, height, stderr);
    return true;
}

static int run(const struct bench_options *options, struct bench *bench) {
    const struct bench_begins begins = {
        .tour = options->tour, .badge = options->badge, .resume = options->resume};
    int skip = options->skip == NULL ? 0 : (int)strtol(options->skip, NULL, 10);
    char message[VIEW_TEXT_MAX];
    bench->trace = options->trace || options->script != NULL;
    boot_id(bench->boot);
    if (options->script != NULL) {
        bench->clock = bench_clock_simulated();
        bench->selfcheck.unasked = true;
    }
    bench_init(bench);
    bench_practice_init(bench, &begins, "/proc/self/exe");
    if (!bench->practice.on && bench_change_log(bench) &&
        !settings_now_keep(bench->now, message, sizeof message)) {
        fprintf(stderr, "kerfside bench: %s\n", message);
    }
    bench_backup_init(&bench->backup, bench->settings, "/proc/self/exe", store_path(bench->store),
                      bench_clock_us(&bench->clock), bench_clock_wall_ms(&bench->clock));
    bench_labels_init(bench, "/proc/self/exe");
    int status = options->script != NULL
                     ? bench_script(bench, options->script, options->shots, skip)
                     : bench_loop(bench);
    bench_check_stop(bench);
    bench_practice_stop(bench);
    bench_selfcheck_stop(bench);
    bench_hush(bench);
    return status;
}

// What practice must not do: copies, signatures, and labels that pass for real.
static void practise(struct bench_settings *settings) {
    settings->backup[0] = '\0';
    settings->sign_key[0] = '\0';
    settings->sign_witness[0] = '\0';
    settings->labels_print = false;
}

static void tell_next(const struct bench *bench, struct bench_options *options) {
    snprintf(options->skip_text, sizeof options->skip_text, "%d", bench->script_line);
    options->skip = options->script != NULL ? options->skip_text : NULL;
    snprintf(options->badge_text, sizeof options->badge_text, "%s", bench->practice.badge);
    options->badge = options->badge_text[0] != '\0' ? options->badge_text : NULL;
    lesson_write(&bench->practice.lesson, options->resume_text);
    options->resume = bench->practice.leaves == BENCH_POWER_LOST ? options->resume_text : NULL;
    options->tour = bench->practice.leaves == BENCH_TO_TOUR;
}

// With a store and a screen, or the screen alone that says why there is no store.
static int work(struct bench_options *options, struct bench *bench, struct bench_settings *settings,
                const char *path, const char *message) {
    const struct bench_trouble trouble = {.screen = bench->screen,
                                          .watch = &bench->watch,
                                          .bench = bench->settings->station.bench,
                                          .path = path,
                                          .shots = options->shots,
                                          .once = options->script != NULL};
    if (bench->store == NULL && !bench_trouble(&trouble, message, &bench->store)) {
        return trouble.once ? COMMAND_REFUSED : COMMAND_DONE;
    }
    // Without its key file the bench cuts all the same; the PIN's screen says what is missing.
    supervisor_pepper("bench", options->pepper, bench->settings->pepper, bench->store);
    store_set_pin_rules(bench->store, &bench->settings->pin);
    if (practice_tell("bench", bench->store)) {
        practise(settings);
    }
    int status = run(options, bench);
    tell_next(bench, options);
    return status;
}

static int open_and_work(struct bench_options *options, struct bench *bench,
                         struct bench_settings *settings, const char *real, const char *path) {
    char message[DATABASE_PATH_MAX + 256] = "";
    int status = COMMAND_REFUSED;
    bool goes_on = open_store(path, bench->settings->station.bench, &bench->watch, &bench->store,
                              message, sizeof message);
    if (bench->store == NULL && strcmp(real, path) != 0) {
        bench->practice.leaves = BENCH_TO_WORK; // a copy to practise on is not worth waiting for
        return status;
    }
    if (goes_on &&
        (bench->screen != NULL || open_screen(options, bench->settings, &bench->screen))) {
        status = work(options, bench, settings, path, message);
    }
    if (bench->practice.leaves != BENCH_POWER_LOST) {
        store_close(bench->store);
    }
    return status;
}

// False: it was ended while it waited for somebody.
static bool safe(const struct bench_options *options, struct bench *bench,
                 struct bench_starts *starts) {
    if (!open_screen(options, bench->settings, &bench->screen)) {
        return true; // then as usual: that ends it, with the reason
    }
    const struct bench_safe shown = {.screen = bench->screen,
                                     .settings = bench->settings,
                                     .starts = starts,
                                     .watch = &bench->watch};
    if (!bench_safe(&shown)) {
        return false;
    }
    bench_starts_again(starts);
    return true;
}

int bench_run(struct bench_options *options, const char *real, const char *path,
              enum bench_leaves *ret_leaves) {
    static struct bench bench; // large
    static struct settings_now now;
    struct bench_starts starts = {.count = 0};
    int status = COMMAND_DONE;
    bench_watch_init(&bench.watch, bench_clock_us(&bench.clock));
    if (bench.watch.supervised && options->script == NULL && strcmp(real, path) == 0) {
        bench_starts_begin(&starts, path);
    }
    bool read = read_settings(options, real, &now);
    bench.settings = &now.settings;
    bench.now = &now;
    if (starts.count < BENCH_STARTS_SAFE || safe(options, &bench, &starts)) {
        status = read ? open_and_work(options, &bench, &now.settings, real, path) : COMMAND_REFUSED;
    }
    // Without a display it did nothing that could have ended it.
    if (status == COMMAND_DONE || bench.screen == NULL) {
        bench_starts_end(&starts);
    }
    screen_close(bench.screen);
    settings_now_release(&now);
    *ret_leaves = bench.practice.leaves;
    return status;
}
