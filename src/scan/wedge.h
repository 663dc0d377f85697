#ifndef WEDGE_H
#define WEDGE_H

// From keys to codes: tells a scanner's burst from a person typing, by prefix, timing and suffix,
// reads key codes with one US table whatever the host's layout, and names a scanner whose layout
// is set wrong. Pure: takes key events with times, gives codes, typed characters or faults.
//
// Key codes are Linux input-event codes (KEY_A ...); SDL scancodes are mapped to them by the
// caller. One struct wedge a device; with SDL, which cannot tell keyboards apart, one for all.

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#define WEDGE_TEXT_MAX 128

struct wedge_settings {
    char prefix[8];       // characters the scanner sends first, stripped; empty: none
    bool suffix_tab;      // Tab ends a code too (Enter always does)
    int64_t burst_gap_us; // keys closer than this may be a scanner's; default 35 ms
    int64_t silence_us;   // an unfinished burst is dropped after this; default 300 ms. A burst that
                          // began sooner after what was typed goes on from it: the machine was busy
    int burst_min;        // shortest burst in keys, its Enter counted; default 4
    bool dedicated;       // the device is known to be a scanner: everything is a code
};
#define WEDGE_SETTINGS_DEFAULT                                                                     \
    { .burst_gap_us = 35000, .silence_us = 300000, .burst_min = 4 }

struct wedge_key {
    uint16_t code; // KEY_*
    bool down;     // repeats are not fed
    int64_t time_us;
};

enum wedge_kind {
    WEDGE_NOTHING,
    WEDGE_CODE, // text: a whole code, prefix and AIM identifier stripped, by a scanner's burst
    WEDGE_LINE, // text: typed by a person and ended with Enter
    WEDGE_CHAR, // key: a typed character that is not part of a burst ('\b' for Backspace)
    WEDGE_FAULT // text: a sentence, what is wrong with the code or with the scanner's settings
};
struct wedge_output {
    enum wedge_kind kind;
    char text[WEDGE_TEXT_MAX];
    char key;
    char aim[4]; // "]C0" if the scanner sent one, else empty
};

struct wedge; // plain value, see wedge_state.h
#include "wedge_state.h"

void wedge_init(struct wedge *wedge, const struct wedge_settings *settings);

// Feeds one key. Calls `take` for each output, in order; never more than WEDGE_TEXT_MAX times.
// Modifiers are tracked inside; keys without a character (F-keys, arrows) give nothing.
void wedge_feed(struct wedge *wedge, const struct wedge_key *key,
                void (*take)(void *ctx, const struct wedge_output *output), void *ctx);

// Lets time pass: characters that turned out to be typed are given out, dead bursts dropped.
void wedge_tick(struct wedge *wedge, int64_t now_us,
                void (*take)(void *ctx, const struct wedge_output *output), void *ctx);

// When wedge_tick is due, or -1.
int64_t wedge_deadline(const struct wedge *wedge);

// What has been typed by hand so far of a line, for the screen.
const char *wedge_typed(const struct wedge *wedge);

// Forgets that line: what was typed has gone somewhere else.
void wedge_clear(struct wedge *wedge);

// How the last code or line came, or a burst that had no end. False when there is no new one.
bool wedge_take_trace(struct wedge *wedge, struct wedge_trace *ret_trace);

#endif
