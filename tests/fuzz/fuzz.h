#ifndef FUZZ_H
#define FUZZ_H

// A fuzz target: called with any bytes, aborts when something that must hold does not. Built with
// libFuzzer, or with replay.c as an ordinary test.

#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

// Holds in release builds too.
#define HOLDS(condition)                                                                           \
    do {                                                                                           \
        if (!(condition)) {                                                                        \
            fprintf(stderr, "%s:%d: does not hold: %s\n", __FILE__, __LINE__, #condition);         \
            abort();                                                                               \
        }                                                                                          \
    } while (0)

// The bytes as a string of its own size on the heap, so that a sanitizer sees a step too far.
static inline char *fuzz_string(const uint8_t *data, size_t size) {
    char *text = malloc(size + 1);
    HOLDS(text != NULL);
    if (size > 0) {
        memcpy(text, data, size);
    }
    text[size] = '\0';
    return text;
}

#endif
