#include "settings_file.h"
#include "settings_write.h"
#include "text.h"
#include "tongue.h"
#include "tongues.h"

#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define GOOD_SUFFIX ".settings"

static const char *named(const char *given) {
    const char *path = given != NULL ? given : getenv("KERFSIDE_SETTINGS");
    return path == NULL ? "" : path;
}

// As a screen has room for.
static const char *base_name(const char *path) {
    const char *slash = strrchr(path, '/');
    return slash == NULL ? path : slash + 1;
}

// NULL, and `message` says why, calling it `shown`.
static FILE *open_file(const char *path, const char *shown, char *message, size_t size) {
    int fd = open(path, O_RDONLY | O_NONBLOCK | O_CLOEXEC);
    struct stat stat;
    if (fd < 0 || fstat(fd, &stat) != 0) {
        snprintf(message, size, _("cannot read the settings %s: %s."), shown, strerror(errno));
    } else if (!S_ISREG(stat.st_mode) || stat.st_size > BENCH_FILE_MAX) {
        snprintf(message, size,
                 _("the settings %s are not a file of at most 1 MiB. Name the file of settings."),
                 shown);
    } else {
        FILE *file = fdopen(fd, "r");
        if (file != NULL) {
            return file;
        }
        snprintf(message, size, _("cannot read the settings %s: %s."), shown, strerror(errno));
    }
    if (fd >= 0) {
        close(fd);
    }
    return NULL;
}

FILE *settings_file_open(const char *command, const char *path) {
    char message[PATH_MAX + 200];
    FILE *file = open_file(path, path, message, sizeof message);
    if (file == NULL) {
        fprintf(stderr, "kerfside %s: %s\n", command, message);
    }
    return file;
}

bool settings_file_read(const char *command, const char *given, struct bench_settings *ret) {
    const char *path = named(given);
    struct bench_settings settings = bench_settings_default();
    if (*path != '\0') {
        FILE *file = settings_file_open(command, path);
        if (file == NULL) {
            return false;
        }
        bool read = bench_settings_read(file, path, &settings, stderr);
        fclose(file);
        if (!read) {
            return false;
        }
    }
    *ret = settings;
    tongues_use(settings.language);
    return true;
}

// --- of a bench ----------------------------------------------------------------------------------

// `line 12: mark_step = 1/7: must be ...` of `shop.ini:12: mark_step = 1/7: must be ...`.
static void first_complaint(const char *said, const char *path, char *buffer, size_t size) {
    const char *at = said + strlen(path) + 1;
    char *end = NULL;
    long line = strtol(at, &end, 10);
    int rest = (int)strcspn(end, "\n");
    struct text text = text_open(buffer, size);
    char whole[2 * BENCH_VALUE_MAX + 200];
    snprintf(whole, sizeof whole, "line %ld%.*s", line, rest, end);
    text_add(&text, whole);
}

static int lines_of(const char *said) {
    int count = 0;
    for (const char *at = said; (at = strchr(at, '\n')) != NULL; at++) {
        count++;
    }
    return count;
}

// True: it is right, and *settings and *lines are what it says. Else what is wrong is counted, its
// first in `first`, and all of it on stderr.
static bool read_file(const char *command, const char *path, struct bench_settings *settings,
                      struct bench_lines *lines, int *ret_wrong, char *first, size_t size) {
    char message[PATH_MAX + 200];
    char *said = NULL;
    size_t said_size = 0;
    *settings = bench_settings_default();
    bench_lines_init(lines);
    FILE *file = open_file(path, base_name(path), message, sizeof message);
    FILE *complaints = file == NULL ? NULL : open_memstream(&said, &said_size);
    bool read =
        complaints != NULL && bench_settings_read_lines(file, path, settings, lines, complaints);
    if (file != NULL) {
        fclose(file);
    }
    if (complaints != NULL) {
        fclose(complaints);
    }
    if (!read && said != NULL && said[0] != '\0') {
        fputs(said, stderr);
        first_complaint(said, path, first, size);
        *ret_wrong = lines_of(said);
    } else if (!read) {
        struct text text = text_open(first, size);
        text_add(&text, message);
        fprintf(stderr, "kerfside %s: %s: %s\n", command, path, message);
        *ret_wrong = 1;
    }
    free(said);
    return read;
}

// The copy of what was right once; a bench that never had one has none, which is no fault.
static bool read_good(struct settings_now *now, struct bench_settings *ret_settings) {
    struct bench_settings settings = bench_settings_default();
    char message[PATH_MAX + 200];
    FILE *file = access(now->good, F_OK) == 0
                     ? open_file(now->good, now->good, message, sizeof message)
                     : NULL;
    if (file == NULL) {
        return false;
    }
    bool read = bench_settings_read_lines(file, now->good, &settings, &now->before, stderr);
    fclose(file);
    if (read) {
        *ret_settings = settings;
    }
    return read;
}

// Right lines of the wrong file that do not hold either: as comments, should it be written anew.
static void keep_others(struct settings_now *now) {
    for (size_t i = 0; i < bench_settings_count(); i++) {
        if (now->wrong_lines.line[i] > 0 &&
            strcmp(now->wrong_lines.value[i], now->lines.value[i]) != 0) {
            bench_lines_keep(&now->wrong_lines, i);
        }
    }
}

static void stand_in(const char *command, struct settings_now *now,
                     const struct bench_settings *good) {
    bench_lines_release(&now->wrong_lines);
    now->wrong_lines = now->lines;
    bench_lines_init(&now->lines);
    now->settings = bench_settings_default();
    now->from = SETTINGS_STANDARD;
    if (now->has_before) {
        now->settings = *good;
        now->from = SETTINGS_LAST_GOOD;
        memcpy(now->lines.value, now->before.value, sizeof now->lines.value);
        memcpy(now->lines.line, now->before.line, sizeof now->lines.line);
    }
    keep_others(now);
    fprintf(stderr, "kerfside %s: %s\n", command,
            now->has_before ? _("the last good settings hold until these are mended.")
                            : _("the standard settings hold until these are mended."));
}

void settings_now_read(const char *command, const char *given, const char *database,
                       struct settings_now *ret) {
    struct bench_settings good;
    memset(ret, 0, sizeof *ret);
    snprintf(ret->path, sizeof ret->path, "%s", named(given));
    snprintf(ret->good, sizeof ret->good, "%s" GOOD_SUFFIX, database);
    bench_lines_init(&ret->lines);
    bench_lines_init(&ret->wrong_lines);
    bench_lines_init(&ret->before);
    ret->settings = bench_settings_default();
    if (ret->path[0] == '\0') {
        return;
    }
    ret->has_before = read_good(ret, &good);
    if (read_file(command, ret->path, &ret->settings, &ret->lines, &ret->wrong, ret->first,
                  sizeof ret->first)) {
        ret->from = SETTINGS_FILE;
    } else {
        stand_in(command, ret, &good);
    }
    tongues_use(ret->settings.language);
}

void settings_now_release(struct settings_now *now) {
    bench_lines_release(&now->lines);
    bench_lines_release(&now->wrong_lines);
    bench_lines_release(&now->before);
}

bool settings_now_keep(const struct settings_now *now, char *message, size_t size) {
    char *text = NULL;
    size_t text_size = 0;
    if (now->from != SETTINGS_FILE ||
        (now->has_before && bench_lines_same(&now->lines, &now->before))) {
        return true;
    }
    FILE *to = open_memstream(&text, &text_size);
    if (to == NULL) {
        snprintf(message, size, _("No memory to keep the settings."));
        return false;
    }
    settings_print(to, &now->lines);
    bool kept = fclose(to) == 0 && settings_replace(now->good, text, text_size, message, size);
    free(text);
    return kept;
}
