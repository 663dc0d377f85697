#include "bench_change.h"
#include "bench.h"
#include "bench_set.h"
#include "settings_write.h"
#include "text.h"
#include "tongue.h"

#include <errno.h>
#include <sodium.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static struct bench *of(void *ctx) {
    return ctx;
}

static bool get(void *ctx, size_t index, struct office_setting *ret_setting) {
    if (index >= bench_settings_count()) {
        return false;
    }
    const struct bench_key *key = bench_settings_key(index);
    *ret_setting = (struct office_setting){.section = key->section,
                                           .key = key->key,
                                           .label = key->label,
                                           .what = key->what,
                                           .allowed = key->allowed,
                                           .standard = key->standard,
                                           .why = key->why,
                                           .words = key->words,
                                           .at_once = key->holds == HOLDS_AT_ONCE};
    snprintf(ret_setting->value, sizeof ret_setting->value, "%s", of(ctx)->now->lines.value[index]);
    return true;
}

static void state(void *ctx, char *buffer, size_t size) {
    const struct settings_now *now = of(ctx)->now;
    const char *slash = strrchr(now->path, '/');
    struct text text = text_open(buffer, size);
    char words[VIEW_TEXT_MAX * 2];
    if (now->path[0] == '\0') {
        snprintf(
            words, sizeof words, "%s",
            _("The bench was started without a file of settings: standards, not to be changed."));
    } else if (now->wrong > 0) {
        snprintf(words, sizeof words,
                 now->from == SETTINGS_LAST_GOOD ? _("The last good settings hold: %s")
                                                 : _("The standard settings hold: %s"),
                 now->first);
    } else {
        snprintf(words, sizeof words, _("From the file %.100s"),
                 slash == NULL ? now->path : slash + 1);
    }
    text_add(&text, words);
}

// --- whether it may stand there ------------------------------------------------------------------

// All settings as they would be. False: `message` says what is wrong with them then.
static bool whole(const struct bench *bench, size_t index, const char *value,
                  struct bench_settings *ret_settings, char **ret_text, char *message,
                  size_t size) {
    static struct bench_lines lines; // large
    static struct bench_lines back;
    char *text = NULL;
    char *said = NULL;
    size_t text_size = 0;
    size_t said_size = 0;
    lines = bench->now->wrong > 0 ? bench->now->wrong_lines : bench->now->lines; // own lines
    memcpy(lines.value, bench->now->lines.value, sizeof lines.value);
    snprintf(lines.value[index], sizeof lines.value[index], "%s", value);
    struct bench_settings settings = bench_settings_default();
    bench_lines_init(&back);
    FILE *to = open_memstream(&text, &text_size);
    if (to != NULL) {
        settings_print(to, &lines);
        fclose(to);
    }
    FILE *from = text == NULL ? NULL : fmemopen(text, text_size, "r");
    FILE *complaints = open_memstream(&said, &said_size);
    bool read = from != NULL && complaints != NULL &&
                bench_settings_read_lines(from, "settings", &settings, &back, complaints);
    if (from != NULL) {
        fclose(from);
    }
    if (complaints != NULL) {
        fclose(complaints);
    }
    if (!read && said != NULL && said[0] != '\0') {
        const char *at = strchr(said, ' ');
        snprintf(message, size, "%.*s", (int)strcspn(at + 1, "\n"), at + 1);
    } else if (!read) {
        snprintf(message, size, "%s", _("there is no memory for it"));
    } else if (!bench_lines_same(&back, &lines)) {
        read = false; // a comment begins in it, or a blank ends it
        snprintf(message, size, "%s", _("a line of the file cannot hold it"));
    }
    bench_lines_release(&back);
    free(said);
    *ret_settings = settings;
    *ret_text = read ? text : NULL;
    if (!read) {
        free(text);
    }
    return read;
}

static bool half_cut(const struct bench *bench) {
    struct club_line line;
    return store_clubs(bench->store, CLUBS_HALF_CUT, &line, 1, NULL) != 0;
}

static bool may(const struct bench *bench, size_t index, char *message, size_t size) {
    const struct bench_key *key = bench_settings_key(index);
    if (bench->practice.on) {
        snprintf(message, size, "%s", _("practice changes no settings"));
    } else if (bench->now->path[0] == '\0') {
        snprintf(message, size, "%s",
                 _("there is no file to write it to: start the bench with --settings FILE"));
    } else if (key->whole_clubs && half_cut(bench)) {
        snprintf(message, size, "%s",
                 _("not while a shaft is half cut: its marks hang on it. Finish that club first"));
    } else {
        return true;
    }
    return false;
}

static bool allowed(void *ctx, size_t index, const char *value, char *message, size_t size) {
    const struct bench *bench = ctx;
    const struct bench_key *key = bench_settings_key(index);
    struct bench_settings settings = bench_settings_default();
    char *text = NULL;
    if (strcmp(value, bench->now->lines.value[index]) == 0) {
        return true;
    }
    if (!may(bench, index, message, size)) {
        return false;
    }
    if (!bench_set(key, &settings, value)) {
        snprintf(message, size, _("must be %s"), _(key->allowed));
        return false;
    }
    bool good = whole(bench, index, value, &settings, &text, message, size);
    free(text);
    return good;
}

// --- saving --------------------------------------------------------------------------------------

// The file as it is; an empty text when it is not there. NULL: it cannot be read.
static char *file_text(const char *path, size_t *ret_size, bool *ret_there) {
    FILE *file = fopen(path, "re");
    char *text = calloc(1, BENCH_FILE_MAX);
    *ret_there = file != NULL;
    if (text != NULL && file != NULL) {
        *ret_size = fread(text, 1, BENCH_FILE_MAX, file);
    } else if (text != NULL && errno == ENOENT) {
        *ret_size = 0;
    }
    bool bad = (file == NULL && errno != ENOENT) || (file != NULL && ferror(file));
    if (file != NULL) {
        fclose(file);
    }
    if (bad || (text != NULL && *ret_size == BENCH_FILE_MAX)) {
        free(text);
        return NULL;
    }
    return text;
}

// Somebody has changed the file since the bench has read it.
static bool changed_meanwhile(const struct bench *bench, const char *text, size_t size,
                              bool there) {
    static struct bench_lines lines; // large
    const struct settings_now *now = bench->now;
    struct bench_settings settings = bench_settings_default();
    char *said = NULL;
    size_t said_size = 0;
    FILE *from = there ? fmemopen((void *)(uintptr_t)text, size, "r") : NULL;
    FILE *complaints = open_memstream(&said, &said_size);
    bench_lines_init(&lines);
    bool read = from != NULL && complaints != NULL &&
                bench_settings_read_lines(from, "settings", &settings, &lines, complaints);
    if (from != NULL) {
        fclose(from);
    }
    if (complaints != NULL) {
        fclose(complaints);
    }
    free(said);
    const struct bench_lines *known = now->wrong > 0 ? &now->wrong_lines : &now->lines;
    bool same = read == (now->wrong == 0) && bench_lines_same(&lines, known);
    bench_lines_release(&lines);
    return !same;
}

static void refuse(struct desk_said *said, const char *message) {
    struct text text = text_open(said->message, sizeof said->message);
    text_add(&text, message);
    said->tone = TONE_STOP;
}

// `old` NULL: there was none.
static void put_back(const char *path, const char *old, size_t old_size) {
    char message[VIEW_TEXT_MAX];
    if (old == NULL) {
        unlink(path);
    } else {
        settings_replace(path, old, old_size, message, sizeof message);
    }
}

static bool put(const char *path, const char *text, const char *old, size_t old_size, char *message,
                size_t size) {
    bool done = settings_replace(path, text, strlen(text), message, size);
    if (!done) {
        put_back(path, old, old_size); // it may be there all the same
    }
    return done;
}

// The old file beside it, then the new one, then the entry; without the entry the old one again, or
// none.
static enum desk_result write_all(struct bench *bench, const char *text, struct entry *entry,
                                  struct desk_said *said) {
    const char *path = bench->now->path;
    char before[PATH_MAX + 8];
    char message[VIEW_TEXT_MAX];
    size_t old_size = 0;
    bool there;
    char *old = file_text(path, &old_size, &there);
    snprintf(before, sizeof before, "%s.before", path);
    if (old == NULL || changed_meanwhile(bench, old, old_size, there)) {
        refuse(said, _("The file was changed since the bench was started. Start the bench again."));
        free(old);
        return DESK_REFUSED;
    }
    enum desk_result result = DESK_FAILED;
    if ((old_size > 0 && !settings_replace(before, old, old_size, message, sizeof message)) ||
        !put(path, text, there ? old : NULL, old_size, message, sizeof message)) {
        refuse(said, message);
    } else {
        switch (bench->ops.save_all(bench, entry, 1)) {
        case STATION_SAVED:
            result = DESK_DONE;
            break;
        case STATION_SAVE_REFUSED:
        case STATION_SAVE_FAILED:
        case STATION_SAVE_UNKNOWN:
            // Unknown: the next start finds what the file says, and logs what differs.
            put_back(path, there ? old : NULL, old_size);
            refuse(said, _("NOT SAVED: the disk did not take the log's entry."));
            break;
        }
    }
    free(old);
    return result;
}

// From now on.
static void hold(struct bench *bench, size_t index, const char *value) {
    const struct bench_key *key = bench_settings_key(index);
    struct settings_now *now = bench->now;
    char message[VIEW_TEXT_MAX];
    if (now->wrong > 0) { // mended: the person's own lines are of that file
        struct bench_lines values = now->lines;
        now->lines = now->wrong_lines;
        memcpy(now->lines.value, values.value, sizeof values.value);
        bench_lines_init(&now->wrong_lines);
        now->wrong = 0;
        now->first[0] = '\0';
        now->settings.station.wrong[0] = '\0';
    }
    snprintf(now->lines.value[index], sizeof now->lines.value[index], "%s", value);
    now->from = SETTINGS_FILE;
    if (key->holds == HOLDS_AT_ONCE) {
        bench_set(key, &now->settings, value); // it was allowed
    }
    station_settle(&bench->station, &now->settings.station);
    bench->desk_ops.metric = now->settings.station.metric_first;
    store_set_pin_rules(bench->store, &now->settings.pin);
    if (!bench->clock.simulated) { // a script is silent
        screen_set_volume(bench->screen, now->settings.volume);
    }
    if (!settings_now_keep(now, message, sizeof message)) {
        fprintf(stderr, "kerfside bench: %s\n", message);
    } else {
        memcpy(now->before.value, now->lines.value, sizeof now->before.value);
        now->has_before = true;
    }
}

static void note(const struct bench_key *key, const char *to, const char *from, const char *cause,
                 struct entry *entry) {
    char words[2 * BENCH_VALUE_MAX + 120];
    snprintf(entry->cause, sizeof entry->cause, "%s", cause);
    snprintf(words, sizeof words, "[%s] %s = %s, was %s", key->section, key->key,
             to[0] == '\0' ? "nothing" : to, from[0] == '\0' ? "nothing" : from);
    struct text text = text_open(entry->note, sizeof entry->note);
    text_add(&text, words);
}

static enum desk_result save(void *ctx, size_t index, const char *value, struct entry *entry,
                             struct desk_said *ret_said) {
    struct bench *bench = ctx;
    const struct bench_key *key = bench_settings_key(index);
    struct bench_settings settings;
    char message[VIEW_TEXT_MAX];
    char *text = NULL;
    bool same = strcmp(value, bench->now->lines.value[index]) == 0;
    if (same && bench->now->wrong == 0) {
        struct text words = text_open(ret_said->message, sizeof ret_said->message);
        text_add(&words, _("Nothing was changed."));
        return DESK_DONE;
    }
    if (!may(bench, index, message, sizeof message) ||
        !whole(bench, index, value, &settings, &text, message, sizeof message)) {
        refuse(ret_said, message);
        return DESK_REFUSED;
    }
    note(key, value, bench->now->lines.value[index], "desk", entry);
    if (same) { // whoever saves a wrong file unchanged mends it
        snprintf(entry->note, sizeof entry->note, "the file was wrong and was written anew: %s",
                 bench->now->first);
    }
    enum desk_result result = write_all(bench, text, entry, ret_said);
    free(text);
    if (result == DESK_DONE) {
        hold(bench, index, value);
        snprintf(ret_said->message, sizeof ret_said->message,
                 key->holds == HOLDS_AT_ONCE
                     ? _("Saved, entry %lld. It holds from now on.")
                     : _("Saved, entry %lld. It holds from the next start of the bench: F6 starts "
                         "it again."),
                 (long long)entry->seq);
        ret_said->tone = TONE_FINE;
    }
    return result;
}

struct office_shop bench_change_shop(struct bench *bench) {
    return (struct office_shop){
        .ctx = bench, .get = get, .state = state, .allowed = allowed, .save = save};
}

// --- changed by hand -----------------------------------------------------------------------------

// The same for the same change away from the same copy of the last good settings, so that a start
// that could not log all of them, or not renew the copy, leaves nothing to be logged twice.
static void change_id(const struct settings_now *now, const struct stat *copy, size_t index,
                      char id[CONFIRM_ID_MAX]) {
    const struct bench_key *key = bench_settings_key(index);
    char words[2 * BENCH_VALUE_MAX + 200];
    unsigned char hash[(CONFIRM_ID_MAX - 1) / 2];
    snprintf(words, sizeof words, "%lld.%09ld %llu [%s] %s = %s, was %s",
             (long long)copy->st_mtim.tv_sec, copy->st_mtim.tv_nsec,
             (unsigned long long)copy->st_ino, key->section, key->key, now->lines.value[index],
             now->before.value[index]);
    crypto_generichash(hash, sizeof hash, (const unsigned char *)words, strlen(words), NULL, 0);
    sodium_bin2hex(id, CONFIRM_ID_MAX, hash, sizeof hash);
}

bool bench_change_log(struct bench *bench) {
    const struct settings_now *now = bench->now;
    struct stat copy;
    bool logged = true;
    if (now->from != SETTINGS_FILE || !now->has_before) {
        return true;
    }
    if (stat(now->good, &copy) != 0) {
        return false;
    }
    for (size_t i = 0; logged && i < bench_settings_count(); i++) {
        if (strcmp(now->lines.value[i], now->before.value[i]) != 0) {
            struct entry entry = entry_init(ENTRY_SETTINGS);
            snprintf(entry.bench, sizeof entry.bench, "%s", now->settings.station.bench);
            entry.wall_ms = bench->ops.wall_ms(bench);
            entry.mono_ms = bench->ops.mono_ms(bench);
            change_id(now, &copy, i, entry.confirm_id);
            note(bench_settings_key(i), now->lines.value[i], now->before.value[i], "file", &entry);
            logged = bench->ops.save_all(bench, &entry, 1) == STATION_SAVED;
        }
    }
    return logged;
}
