#include "typist.h"

#include <linux/input-event-codes.h>
#include <stdlib.h>

static void take(void *ctx, const struct wedge_output *output) {
    struct typist *t = ctx;
    if (t->count == TYPIST_OUTPUTS) {
        abort();
    }
    t->output[t->count++] = *output;
}

void typist_init(struct typist *t, const struct wedge_settings *settings) {
    *t = (struct typist){.now_us = 1000000, .gap_us = 5000};
    wedge_init(&t->wedge, settings);
}

static void feed(struct typist *t, uint16_t code, bool down) {
    struct wedge_key key = {.code = code, .down = down, .time_us = t->now_us};
    wedge_feed(&t->wedge, &key, take, t);
}

void typist_modifier(struct typist *t, uint16_t code, bool down) {
    feed(t, code, down);
}

void typist_key(struct typist *t, uint16_t code, enum layout_level level) {
    bool shift = (level == LEVEL_SHIFT) != t->flipped && level != LEVEL_ALTGR;
    t->now_us += t->gap_us;
    if (shift) {
        feed(t, KEY_LEFTSHIFT, true);
    }
    if (level == LEVEL_ALTGR) {
        feed(t, KEY_RIGHTALT, true);
    }
    feed(t, code, true);
    feed(t, code, false);
    if (level == LEVEL_ALTGR) {
        feed(t, KEY_RIGHTALT, false);
    }
    if (shift) {
        feed(t, KEY_LEFTSHIFT, false);
    }
}

static bool write_char(struct typist *t, char c) {
    static const struct {
        char c;
        uint16_t code;
    } others[] = {{'\n', KEY_ENTER}, {'\t', KEY_TAB}, {'\b', KEY_BACKSPACE}};
    for (size_t i = 0; i < sizeof others / sizeof others[0]; i++) {
        if (others[i].c == c) {
            bool flipped = t->flipped;
            t->flipped = false;
            typist_key(t, others[i].code, LEVEL_PLAIN);
            t->flipped = flipped;
            return true;
        }
    }
    uint16_t code;
    enum layout_level level;
    if (layout_key(t->layout, c, &code, &level)) {
        typist_key(t, code, level);
        return true;
    }
    return false;
}

bool typist_write(struct typist *t, const char *text) {
    for (; *text != '\0'; text++) {
        if (!write_char(t, *text)) {
            return false;
        }
    }
    return true;
}

void typist_wait(struct typist *t, int64_t us) {
    t->now_us += us;
    wedge_tick(&t->wedge, t->now_us, take, t);
}

void typist_forget(struct typist *t) {
    t->count = 0;
}
