// The bench itself: the kiosk's window, or a script of events for tests.

#include "assets.h"
#include "bench.h"
#include "bench_trouble.h"
#include "boot.h"
#include "command.h"
#include "database.h"
#include "options.h"
#include "settings_file.h"
#include "supervisor.h"

#include <errno.h>
#include <stdio.h>
#include <sys/stat.h>
#include <unistd.h>

struct bench_options {
    const char *db;
    const char *size;
    const char *settings;
    const char *script;
    const char *shots;
    const char *scanner;
    const char *button;
    const char *pepper;
    bool windowed;
    bool trace;
};

static bool read_options(int argc, char **argv, struct bench_options *to) {
    const struct option options[] = {
        {"--db", &to->db, NULL},
        {"--size", &to->size, NULL},
        {"--settings", &to->settings, NULL},
        {"--script", &to->script, NULL},
        {"--shots", &to->shots, NULL},
        {"--scanner", &to->scanner, NULL},
        {"--button", &to->button, NULL},
        {"--pepper", &to->pepper, NULL},
        {"--windowed", NULL, &to->windowed},
        {"--trace", NULL, &to->trace},
    };
    int count;
    return options_read_plain(argc, argv, options, sizeof options / sizeof options[0], 0, 0, "",
                              &count);
}

static bool read_size(const char *text, int *ret_width, int *ret_height) {
    int end = 0;
    if (text == NULL) {
        return true;
    }
    if (sscanf(text, "%5dx%5d%n", ret_width, ret_height, &end) != 2 || text[end] != '\0' ||
        *ret_width < 640 || *ret_height < 480 || *ret_width > 7680 || *ret_height > 7680) {
        fprintf(stderr,
                "kerfside bench: --size %s: write it as 1280x720, from 640x480 to 7680x7680.\n",
                text);
        return false;
    }
    return true;
}

static bool path_option(const char *given, char *path) {
    if (given != NULL && snprintf(path, BENCH_PATH_MAX, "%s", given) >= BENCH_PATH_MAX) {
        fprintf(stderr, "kerfside bench: this path is too long: %s\n", given);
        return false;
    }
    return true;
}

static bool read_settings(const struct bench_options *options, struct bench_settings *settings) {
    return settings_file_read("bench", options->settings, settings) &&
           path_option(options->scanner, settings->scanner[0]) &&
           path_option(options->button, settings->button);
}

// False: there is no database, or no place for one. It may be there and not to be opened: then
// *ret_store stays NULL and `message` says why.
static bool open_store(const char *path, const char *name, struct store **ret_store, char *message,
                       size_t size) {
    struct stat stat;
    if (lstat(path, &stat) != 0 && errno == ENOENT) {
        fprintf(stderr,
                "kerfside bench: there is no database %s. Make one with `kerfside demo` to try, or "
                "`kerfside import` for your own.\n",
                path);
        return false;
    }
    if (store_open(path, STORE_WRITE, name, ret_store, message, size) != STORE_OK) {
        fprintf(stderr, "kerfside bench: %s\n", message);
    }
    return true;
}

static bool open_screen(const struct bench_options *options, const struct bench_settings *settings,
                        struct screen **ret_screen) {
    // A button with a device of its own is read there alone, so that no press counts twice.
    struct screen_options screen = {.windowed = options->windowed || options->script != NULL,
                                    .assets = assets_folder(),
                                    .volume = options->script != NULL ? 0 : settings->volume,
                                    .button_code =
                                        settings->button[0] == '\0' ? settings->button_code : 0};
    char message[512];
    if (!read_size(options->size, &screen.width, &screen.height)) {
        return false;
    }
    if (!screen_open(&screen, ret_screen, message, sizeof message)) {
        fprintf(stderr, "kerfside bench: %s\n", message);
        return false;
    }
    return true;
}

static int run(const struct bench_options *options, struct bench *bench) {
    bench->trace = options->trace || options->script != NULL;
    boot_id(bench->boot);
    if (options->script != NULL) {
        bench->clock = bench_clock_simulated();
    }
    bench_init(bench);
    bench_backup_init(&bench->backup, bench->settings, "/proc/self/exe", store_path(bench->store),
                      bench_clock_us(&bench->clock), bench_clock_wall_ms(&bench->clock));
    bench_labels_init(bench, "/proc/self/exe");
    int status = options->script != NULL ? bench_script(bench, options->script, options->shots)
                                         : bench_loop(bench);
    bench_check_stop(bench);
    return status;
}

int command_bench(int argc, char **argv) {
    static struct bench bench; // large
    struct bench_options options = {0};
    static struct bench_settings settings; // as long as `bench`, which points to it
    char path[DATABASE_PATH_MAX];
    char message[512];
    int status = COMMAND_REFUSED;
    if (!read_options(argc, argv, &options)) {
        return COMMAND_USAGE;
    }
    if (!read_settings(&options, &settings)) {
        return COMMAND_REFUSED;
    }
    bench.settings = &settings;
    if (!database_path(options.db, path) ||
        !open_store(path, settings.station.bench, &bench.store, message, sizeof message)) {
        return COMMAND_REFUSED;
    }
    if (open_screen(&options, &settings, &bench.screen)) {
        const struct bench_trouble trouble = {.screen = bench.screen,
                                              .bench = settings.station.bench,
                                              .path = path,
                                              .shots = options.shots,
                                              .once = options.script != NULL};
        if (bench.store != NULL || bench_trouble(&trouble, message, &bench.store)) {
            // Without its key file the bench cuts all the same; the PIN's screen says what is
            // missing.
            supervisor_pepper(argv[0], options.pepper, settings.pepper, bench.store);
            status = run(&options, &bench);
        }
        screen_close(bench.screen);
    }
    store_close(bench.store);
    return status;
}
