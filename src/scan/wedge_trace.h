#ifndef WEDGE_TRACE_H
#define WEDGE_TRACE_H

// How the keys of one code came: for the scanner check. Written beside the wedge's own reckoning,
// which does not depend on it. Pure.

#include "strokes.h"

struct wedge_trace {
    struct strokes strokes; // keys with a character, Tab, and digits typed with Alt
    int64_t time_us[STROKES_TEXT_MAX - 1];
    uint16_t end;   // KEY_ENTER (CR, LF and the keypad's count as it), KEY_TAB; 0: none came
    int64_t end_us; // when `end` came
};

struct wedge_recorder {
    struct wedge_trace coming;
    struct wedge_trace done;
    bool fresh; // done has not been taken
};

void wedge_trace_key(struct wedge_recorder *recorder, struct stroke stroke, int64_t time_us);
// `end` as above. Nothing when no key came before it.
void wedge_trace_end(struct wedge_recorder *recorder, uint16_t end, int64_t time_us);

#endif
