// How a value of each kind is read.

#include "bench_set.h"
#include "text.h"

#include <stdlib.h>
#include <string.h>

bool bench_set_choose(const char *value, const char *no, const char *yes, bool *ret) {
    if (strcmp(value, no) != 0 && strcmp(value, yes) != 0) {
        return false;
    }
    *ret = strcmp(value, yes) == 0;
    return true;
}

bool bench_set_number(const char *value, int low, int high, int *ret) {
    char *end;
    long n = strtol(value, &end, 10);
    if (end == value || *end != '\0' || n < low || n > high) {
        return false;
    }
    *ret = (int)n;
    return true;
}

bool bench_set_text(const char *value, char *buffer, size_t size) {
    if (strlen(value) >= size) {
        return false;
    }
    memset(buffer, 0, size);
    memcpy(buffer, value, strlen(value));
    return true;
}

// Characters a person can read, whole ones.
static bool readable(const char *value) {
    size_t left = strlen(value);
    while (left > 0) {
        size_t size = text_utf8_size(value, left);
        if (size == 0 || (unsigned char)*value < ' ' || *value == 0x7F) {
            return false;
        }
        value += size;
        left -= size;
    }
    return true;
}

static bool set_length(const struct bench_key *key, const char *value, length_nm *to) {
    length_nm length;
    if (length_parse(value, LENGTH_UNIT_INCH, &length, NULL) != LENGTH_OK || length < key->low ||
        length > key->high) {
        return false;
    }
    *to = length;
    return true;
}

// The index of the word, into a bool or an enum.
static bool set_choice(const struct bench_key *key, const char *value, void *to) {
    for (int i = 0; key->words[i] != NULL; i++) {
        if (strcmp(key->words[i], value) == 0) {
            if (key->size == sizeof(bool)) {
                *(bool *)to = i != 0;
            } else {
                *(int *)to = i;
            }
            return true;
        }
    }
    return false;
}

bool bench_set(const struct bench_key *key, struct bench_settings *to, const char *value) {
    void *at = (char *)to + key->at;
    if (key->set != NULL) {
        return key->set(to, value);
    }
    switch (key->kind) {
    case BENCH_CHOICE:
        return set_choice(key, value, at);
    case BENCH_WHOLE:
        return bench_set_number(value, (int)key->low, (int)key->high, at);
    case BENCH_LENGTH:
        return set_length(key, value, at);
    case BENCH_TEXT:
        return readable(value) && strlen(value) >= (size_t)key->low &&
               bench_set_text(value, at, key->size);
    case BENCH_PATH:
        return bench_set_text(value, at, key->size);
    case BENCH_OTHER:
        break;
    }
    return false;
}
