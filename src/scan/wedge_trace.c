#include "wedge_trace.h"

#include <linux/input-event-codes.h>

// Scanners can be set to wait up to 990 ms between characters; after more it is another code.
#define PAUSE_US 1000000

void wedge_trace_end(struct wedge_recorder *r, uint16_t end, int64_t time_us) {
    if (r->coming.strokes.count == 0) {
        return;
    }
    r->done = r->coming;
    r->done.end = end;
    r->done.end_us = time_us;
    r->fresh = true;
    r->coming.strokes.count = 0;
    r->coming.strokes.over = false;
}

void wedge_trace_key(struct wedge_recorder *r, struct stroke stroke, int64_t time_us) {
    struct strokes *strokes = &r->coming.strokes;
    size_t count = strokes->count;
    if (count > 0 && time_us - r->coming.time_us[count - 1] > PAUSE_US) {
        wedge_trace_end(r, 0, time_us);
    }
    if (stroke.code == KEY_BACKSPACE) {
        strokes->count -= strokes->count > 0 ? 1 : 0;
        return;
    }
    strokes_add(strokes, stroke);
    r->coming.time_us[strokes->count - 1] = time_us;
}
