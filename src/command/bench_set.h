#ifndef BENCH_SET_H
#define BENCH_SET_H

// The table of all settings: where each stands in the file, what may stand there, what holds
// without it and why, and what it does. The one source of kiosk/settings.ini, of the settings view,
// and of what is said about a wrong line. Private to the bench's settings.

#include "bench_settings.h"
#include "tongue.h"

enum bench_kind {
    BENCH_CHOICE, // one of `words`; unless `set` says otherwise its index goes into a bool or enum
    BENCH_WHOLE,  // a whole number, `low` to `high`, into an int
    BENCH_LENGTH, // a length, `low` to `high` nanometres
    BENCH_TEXT,   // characters a person can read, at least `low` of them
    BENCH_PATH,   // of a file, a folder or a device, or nothing
    BENCH_OTHER   // as `set` reads it
};

enum bench_holds { HOLDS_AT_ONCE, HOLDS_NEXT_START };

struct bench_key {
    const char *section;
    const char *key;
    const char *label; // as people call it
    enum bench_kind kind;
    size_t at; // offset in struct bench_settings, and size there
    size_t size;
    const char *const *words; // ends with NULL
    int64_t low;
    int64_t high;
    bool (*set)(struct bench_settings *to, const char *value); // false: not allowed
    const char *allowed;                                       // after `must be`
    const char *standard; // what holds without a line, as it is written; may be empty
    enum bench_holds holds;
    bool whole_clubs; // marks of a half-cut club hang on it: not to be changed meanwhile
    const char *what;
    const char *why; // this standard
};

// What the work goes by, the screen, and what the bench is plugged into.
const struct bench_key *bench_keys_work(size_t *ret_count);
const struct bench_key *bench_keys_screen(size_t *ret_count);
const struct bench_key *bench_keys_devices(size_t *ret_count);

// False: the value is not allowed there; *to may hold a part of it.
bool bench_set(const struct bench_key *key, struct bench_settings *to, const char *value);

// Those of `set` in the tables.
bool bench_set_mark_step(struct bench_settings *to, const char *value);
bool bench_set_idle(struct bench_settings *to, const char *value);
bool bench_set_ferrule(struct bench_settings *to, const char *value);
bool bench_set_epoxy(struct bench_settings *to, const char *value);
bool bench_set_distance(struct bench_settings *to, const char *value);
bool bench_set_diagonal(struct bench_settings *to, const char *value);
bool bench_set_method(struct bench_settings *to, const char *value);
bool bench_set_wanted(struct bench_settings *to, const char *value);
bool bench_set_swingweight_off(struct bench_settings *to, const char *value);
bool bench_set_frequency_off(struct bench_settings *to, const char *value);
bool bench_set_loft_off(struct bench_settings *to, const char *value);
bool bench_set_lie_off(struct bench_settings *to, const char *value);
bool bench_set_prefix(struct bench_settings *to, const char *value);
bool bench_set_baud(struct bench_settings *to, const char *value);
bool bench_set_scale_baud(struct bench_settings *to, const char *value);
bool bench_set_key(struct bench_settings *to, const char *value);
bool bench_set_size(struct bench_settings *to, const char *value);
bool bench_set_stock(struct bench_settings *to, const char *value);
bool bench_set_queue(struct bench_settings *to, const char *value);

// The value as one of two words, as a whole number, as a text that fits, as a length; false and
// nothing set when it is none.
bool bench_set_choose(const char *value, const char *no, const char *yes, bool *ret);
bool bench_set_number(const char *value, int low, int high, int *ret);
bool bench_set_text(const char *value, char *buffer, size_t size);

#endif
