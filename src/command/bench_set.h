#ifndef BENCH_SET_H
#define BENCH_SET_H

// One setting of the file: where it stands, what it does, what is allowed. Private to the bench's
// settings.

#include "bench_settings.h"

struct bench_key {
    const char *section;
    const char *key;
    bool (*set)(struct bench_settings *to, const char *value); // false: not allowed
    const char *allowed;                                       // after `must be`
};

// What the work goes by, and what the bench is plugged into.
const struct bench_key *bench_keys_work(size_t *ret_count);
const struct bench_key *bench_keys_devices(size_t *ret_count);

// The value as one of two words, as a whole number, as a text that fits, as a length; false and
// nothing set when it is none.
bool bench_set_choose(const char *value, const char *no, const char *yes, bool *ret);
bool bench_set_number(const char *value, int low, int high, int *ret);
bool bench_set_text(const char *value, char *buffer, size_t size);
bool bench_set_length(const char *value, length_nm low, length_nm high, length_nm *ret);
// Characters a person can read, whole ones.
bool bench_set_readable(const char *value);

#endif
