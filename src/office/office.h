#ifndef OFFICE_H
#define OFFICE_H

// What the desk asks, answered from the store: what stands in its lists and forms, what follows
// from what was typed, and how a form becomes entries of the log.

#include "desk.h"
#include "station.h"
#include "store.h"

// One setting of the bench, and what may be done with all of them; office knows no file.
#define OFFICE_VALUE_MAX 200
struct office_setting {
    const char *section;
    const char *key;
    const char *label;
    const char *what;
    const char *allowed; // after `must be`
    const char *standard;
    const char *why;
    const char *const *words; // ends with NULL; NULL: no choice
    bool at_once;
    char value[OFFICE_VALUE_MAX];
};
struct office_shop {
    void *ctx;
    bool (*get)(void *ctx, size_t index, struct office_setting *ret_setting); // false: no more
    // Which settings hold, and what is wrong with their file, in words.
    void (*state)(void *ctx, char *buffer, size_t size);
    // False: it cannot stand there, or not now; `message` says why.
    bool (*allowed)(void *ctx, size_t index, const char *value, char *message, size_t size);
    // On disk and in the log, or neither. *entry lacks cause and note.
    enum desk_result (*save)(void *ctx, size_t index, const char *value, struct entry *entry,
                             struct desk_said *ret_said);
};

struct office {
    struct store *store;
    const struct station_ops *world; // clock, chance, and the one way entries are saved
    const struct station_settings *settings;
    // What makes files and prints; the office hands it on.
    enum desk_result (*deed)(void *ctx, const struct worker *who, enum desk_deed deed,
                             const struct desk_ref *of, const char *id, struct desk_said *ret_said);
    void *deed_ctx;
    const struct office_shop *shop; // NULL: settings cannot be looked at here
    // The local day of a moment, `2026-03-31`.
    void (*day_text)(int64_t wall_ms, char *buffer, size_t size);
    struct worker who; // whoever fills in the form now, for what would be if it were saved
};

// Everything a desk needs, with `office` as its ctx.
struct desk_ops office_ops(struct office *office);

// A drafted or held order goes to the bench.
enum desk_result office_release(struct office *office, const struct worker *who,
                                const struct desk_ref *of, const char *id, struct desk_said *said);

#endif
