#include "bench_set.h"
#include "tongue.h"

#include <ini.h>
#include <stdarg.h>
#include <stdlib.h>
#include <string.h>

#define LINE_SIZE_MAX (INI_MAX_LINE - 2)

struct reader {
    FILE *file;
    const char *name;
    FILE *complaints;
    struct bench_settings *settings;
    struct bench_lines *lines; // NULL: nobody asks
    char raw[INI_MAX_LINE];
    char *own; // of the person's, not before a setting yet; NULL: none
    int line;
    int heard; // the newest line that was a setting
    int wrong;
};

static const struct bench_key *(*const lists[])(size_t *) = {bench_keys_work, bench_keys_screen,
                                                             bench_keys_devices};
#define LISTS (sizeof lists / sizeof lists[0])

size_t bench_settings_count(void) {
    size_t all = 0;
    for (size_t i = 0; i < LISTS; i++) {
        size_t count = 0;
        lists[i](&count);
        all += count;
    }
    return all;
}

const struct bench_key *bench_settings_key(size_t index) {
    for (size_t i = 0; i < LISTS; i++) {
        size_t count = 0;
        const struct bench_key *keys = lists[i](&count);
        if (index < count) {
            return &keys[index];
        }
        index -= count;
    }
    abort(); // an index is below the count
}

bool bench_settings_find(const char *section, const char *key, size_t *ret_index) {
    for (size_t i = 0; i < bench_settings_count(); i++) {
        const struct bench_key *at = bench_settings_key(i);
        if (strcmp(at->section, section) == 0 && strcmp(at->key, key) == 0) {
            *ret_index = i;
            return true;
        }
    }
    return false;
}

// What follows from others.
static void settle(struct bench_settings *settings) {
    settings->station.camera = settings->camera[0] != '\0';
    settings->station.scale = settings->scale[0] != '\0';
}

struct bench_settings bench_settings_default(void) {
    struct bench_settings settings = {.wedge = WEDGE_SETTINGS_DEFAULT};
    for (size_t i = 0; i < bench_settings_count(); i++) {
        const struct bench_key *key = bench_settings_key(i);
        bench_set(key, &settings, key->standard); // tests/e2e holds that each is allowed
    }
    settle(&settings);
    return settings;
}

void bench_lines_init(struct bench_lines *lines) {
    *lines = (struct bench_lines){0};
    for (size_t i = 0; i < bench_settings_count(); i++) {
        snprintf(lines->value[i], sizeof lines->value[i], "%s", bench_settings_key(i)->standard);
    }
}

bool bench_lines_same(const struct bench_lines *a, const struct bench_lines *b) {
    for (size_t i = 0; i < bench_settings_count(); i++) {
        if (strcmp(a->value[i], b->value[i]) != 0) {
            return false;
        }
    }
    return true;
}

void bench_lines_release(struct bench_lines *lines) {
    for (size_t i = 0; i <= BENCH_KEYS_MAX; i++) {
        free(lines->own[i]);
        lines->own[i] = NULL;
    }
}

// One line more of a person's own; without the memory for it, it is left out and `.before` has it.
static void __attribute__((format(printf, 2, 3)))
keep_own(struct reader *reader, const char *format, ...) {
    va_list arguments;
    va_list again;
    if (reader->lines == NULL) {
        return;
    }
    va_start(arguments, format);
    va_copy(again, arguments);
    size_t before = reader->own == NULL ? 0 : strlen(reader->own);
    size_t size = (size_t)vsnprintf(NULL, 0, format, arguments);
    char *more = realloc(reader->own, before + size + 2);
    if (more != NULL) {
        vsnprintf(more + before, size + 1, format, again);
        memcpy(more + before + size, "\n", 2);
        reader->own = more;
    }
    va_end(again);
    va_end(arguments);
}

void bench_lines_keep(struct bench_lines *lines, size_t index) {
    struct reader reader = {.lines = lines, .own = lines->own[index]};
    keep_own(&reader, "# not taken: line %d: %s = %s", lines->line[index],
             bench_settings_key(index)->key, lines->value[index]);
    lines->own[index] = reader.own;
}

// The person's own lines so far belong to this setting; those of an earlier line of it stay.
static void own_to(struct reader *reader, size_t index) {
    char *later = reader->own;
    reader->own = reader->lines->own[index];
    if (later != NULL && reader->own != NULL) {
        keep_own(reader, "%.*s", (int)strlen(later) - 1, later);
        free(later);
    } else if (later != NULL) {
        reader->own = later;
    }
    reader->lines->own[index] = reader->own;
    reader->own = NULL;
}

// `volume = 0 ; night shift`: what is behind the semicolon.
static void keep_behind(struct reader *reader) {
    const char *at = strchr(reader->raw, '=');
    while (at != NULL && (at = strchr(at + 1, ';')) != NULL) {
        if (at[-1] == ' ' || at[-1] == '\t') {
            keep_own(reader, "# %s", at + 1 + strspn(at + 1, " \t"));
            return;
        }
    }
}

static void complain(struct reader *reader, const char *what, const char *allowed) {
    fprintf(reader->complaints, "%s:%d: %s: %s\n", reader->name, reader->line, what, allowed);
    reader->wrong++;
}

static void complain_line(struct reader *reader, const char *what, const char *allowed) {
    complain(reader, what, allowed);
    keep_own(reader, "# not taken: line %d: %s", reader->line, reader->raw);
}

static int take(void *user, const char *section, const char *key, const char *value) {
    struct reader *reader = user;
    char what[2 * INI_MAX_LINE + 16];
    size_t index;
    reader->heard = reader->line;
    if (!bench_settings_find(section, key, &index)) {
        snprintf(what, sizeof what, "[%s] %s", section, key);
        complain_line(reader, what,
                      _("there is no such setting; kiosk/settings.ini shows all of them"));
        return 1;
    }
    const struct bench_key *known = bench_settings_key(index);
    if (strlen(key) + strlen("=") + strlen(value) > LINE_SIZE_MAX) { // continued over lines
        complain_line(reader, key, _("a line has at most 198 characters"));
        return 1;
    }
    if (!bench_set(known, reader->settings, value)) {
        char allowed[120];
        snprintf(what, sizeof what, "%s = %s", key, value);
        snprintf(allowed, sizeof allowed, _("must be %s"), known->allowed);
        complain_line(reader, what, allowed);
        if (reader->lines != NULL) {
            own_to(reader, index);
        }
    } else if (reader->lines != NULL) {
        keep_behind(reader);
        own_to(reader, index);
        snprintf(reader->lines->value[index], sizeof reader->lines->value[index], "%s", value);
        reader->lines->line[index] = reader->line;
    }
    return 1;
}

// A line that is neither a setting nor a section, empty or a comment. inih names the first alone.
static void not_understood(struct reader *reader) {
    const char *at = reader->raw + strspn(reader->raw, " \t\r\xEF\xBB\xBF");
    bool fine = *at == '\0' || *at == ';' || *at == '#' || (*at == '[' && strchr(at, ']') != NULL);
    if (reader->line > 0 && !fine && reader->heard != reader->line) {
        complain_line(reader, _("not understood"),
                      _("a line is [section], key = value or ; a comment"));
    }
}

// One call a line, however long: so the line's number is known, which inih does not tell its
// handlers.
static char *next_line(char *buffer, int size, void *stream) {
    struct reader *reader = stream;
    int c = '\n';
    not_understood(reader);
    reader->raw[0] = '\0';
    if (fgets(buffer, size, reader->file) == NULL) {
        return NULL;
    }
    reader->line++;
    snprintf(reader->raw, sizeof reader->raw, "%.*s", (int)strcspn(buffer, "\r\n"), buffer);
    const char *first = reader->raw + strspn(reader->raw, " \t");
    if (*first == '#') {
        keep_own(reader, "%s", first);
    }
    if (strchr(buffer, '\n') == NULL) {
        c = fgetc(reader->file);
    }
    if (c != '\n' && c != EOF) {
        complain_line(reader, _("too long"), _("a line has at most 198 characters"));
        while (c != '\n' && c != EOF) {
            c = fgetc(reader->file);
        }
        reader->heard = reader->line;
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

bool bench_settings_read_lines(FILE *file, const char *name, struct bench_settings *settings,
                               struct bench_lines *lines, FILE *complaints) {
    struct reader reader = {
        .file = file, .name = name, .complaints = complaints, .settings = settings, .lines = lines};
    int line = ini_parse_stream(next_line, &reader, take, &reader);
    if (line != 0 && reader.wrong == 0) {
        reader.line = line;
        complain(&reader, _("not understood"),
                 _("a line is [section], key = value or ; a comment"));
    }
    if (settings->button_code == BENCH_BUTTON_ANY && settings->button[0] == '\0') {
        complain(&reader, "key = any", _("needs the button's device"));
    }
    if (named_twice(settings)) {
        complain(&reader, "device",
                 _("each scanner, the button and the scale must have a path of its own"));
    }
    settle(settings);
    if (lines != NULL) {
        own_to(&reader, BENCH_KEYS_MAX);
    }
    return reader.wrong == 0;
}

bool bench_settings_read(FILE *file, const char *name, struct bench_settings *settings,
                         FILE *complaints) {
    return bench_settings_read_lines(file, name, settings, NULL, complaints);
}
