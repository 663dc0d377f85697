#ifndef TYPIST_H
#define TYPIST_H

// A scanner or a person at the keys: turns text into key events for a wedge and keeps what comes
// out.

#include "layouts.h"
#include "wedge.h"

#define TYPIST_OUTPUTS 4096

struct typist {
    struct wedge wedge;
    int64_t now_us;
    int64_t gap_us;     // before each key
    enum layout layout; // of the sender
    bool flipped;       // Shift the wrong way round
    size_t count;
    struct wedge_output output[TYPIST_OUTPUTS];
};

void typist_init(struct typist *typist, const struct wedge_settings *settings);

// One key, down and up, with the modifiers its level needs.
void typist_key(struct typist *typist, uint16_t code, enum layout_level level);
void typist_modifier(struct typist *typist, uint16_t code, bool down);
// False when the layout cannot write one of the characters; '\n' is Enter, '\t' Tab, '\b'
// Backspace.
bool typist_write(struct typist *typist, const char *text);
// Nothing for so long.
void typist_wait(struct typist *typist, int64_t us);
void typist_forget(struct typist *typist); // the outputs so far

#endif
