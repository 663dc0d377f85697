#include "bench_set.h"
#include "camera.h"

#include <ini.h>
#include <linux/input-event-codes.h>
#include <string.h>

struct reader {
    FILE *file;
    const char *name;
    FILE *complaints;
    struct bench_settings *settings;
    int line;
    int wrong;
};

struct bench_settings bench_settings_default(void) {
    return (struct bench_settings){
        .station = {.bench = "Bench 1",
                    .rules = BENCH_RULES_DEFAULT,
                    .assembly = ASSEMBLY_DEFAULT,
                    .finals = ASSEMBLY_TOLERANCE_DEFAULT,
                    .length_method = LENGTH_METHOD_RULER,
                    .idle_sign_off_ms = (int64_t)30 * 60 * 1000},
        .wedge = WEDGE_SETTINGS_DEFAULT,
        .camera_width = CAMERA_WIDTH,
        .camera_height = CAMERA_HEIGHT,
        .baud = 9600,
        .scale_baud = 9600,
        .button_code = KEY_F13,
        .hold_ms = 2000,
        .volume = 60,
        .backup_hours = 24,
        .backup_keep = 14,
    };
}

static void complain(struct reader *reader, const char *what, const char *allowed) {
    fprintf(reader->complaints, "%s:%d: %s: %s\n", reader->name, reader->line, what, allowed);
    reader->wrong++;
}

static const struct bench_key *find(const char *section, const char *key) {
    for (int list = 0; list < 2; list++) {
        size_t count = 0;
        const struct bench_key *keys =
            list == 0 ? bench_keys_work(&count) : bench_keys_devices(&count);
        for (size_t i = 0; i < count; i++) {
            if (strcmp(keys[i].section, section) == 0 && strcmp(keys[i].key, key) == 0) {
                return &keys[i];
            }
        }
    }
    return NULL;
}

static int take(void *user, const char *section, const char *key, const char *value) {
    struct reader *reader = user;
    char what[2 * INI_MAX_LINE + 16];
    const struct bench_key *known = find(section, key);
    if (known != NULL) {
        if (!known->set(reader->settings, value)) {
            char allowed[80];
            snprintf(what, sizeof what, "%s = %s", key, value);
            snprintf(allowed, sizeof allowed, "must be %s", known->allowed);
            complain(reader, what, allowed);
        }
        return 1;
    }
    snprintf(what, sizeof what, "[%s] %s", section, key);
    complain(reader, what, "there is no such setting; kiosk/settings.ini shows all of them");
    return 1;
}

// One call a line, however long: so the line's number is known, which inih does not tell its
// handlers.
static char *next_line(char *buffer, int size, void *stream) {
    struct reader *reader = stream;
    int c = '\n';
    if (fgets(buffer, size, reader->file) == NULL) {
        return NULL;
    }
    reader->line++;
    if (strchr(buffer, '\n') == NULL) {
        c = fgetc(reader->file);
    }
    if (c != '\n' && c != EOF) {
        complain(reader, "too long", "a line has at most 198 characters");
        while (c != '\n' && c != EOF) {
            c = fgetc(reader->file);
        }
    }
    return buffer;
}

// Two readers of one device would take its keys from each other.
static bool named_twice(const struct bench_settings *s) {
    const char *paths[BENCH_SCANNERS_MAX + BENCH_SERIALS_MAX + 2];
    size_t count = 0;
    for (size_t i = 0; i < BENCH_SCANNERS_MAX; i++) {
        paths[count++] = s->scanner[i];
    }
    for (size_t i = 0; i < BENCH_SERIALS_MAX; i++) {
        paths[count++] = s->serial[i];
    }
    paths[count++] = s->button;
    paths[count++] = s->scale;
    for (size_t i = 0; i < count; i++) {
        for (size_t j = 0; j < i; j++) {
            if (paths[i][0] != '\0' && strcmp(paths[i], paths[j]) == 0) {
                return true;
            }
        }
    }
    return false;
}

bool bench_settings_read(FILE *file, const char *name, struct bench_settings *settings,
                         FILE *complaints) {
    struct reader reader = {
        .file = file, .name = name, .complaints = complaints, .settings = settings};
    int line = ini_parse_stream(next_line, &reader, take, &reader);
    if (line != 0) {
        reader.line = line;
        complain(&reader, "not understood", "a line is [section], key = value or ; a comment");
    }
    if (settings->button_code == BENCH_BUTTON_ANY && settings->button[0] == '\0') {
        complain(&reader, "key = any", "needs the button's device");
    }
    if (named_twice(settings)) {
        complain(&reader, "device",
                 "each scanner, the button and the scale must have a path of its own");
    }
    if ((settings->sign_key[0] == '\0') != (settings->sign_witness[0] == '\0')) {
        complain(&reader, "[sign]", "key and witness belong together");
    }
    return reader.wrong == 0;
}
