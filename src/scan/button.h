#ifndef BUTTON_H
#define BUTTON_H

// One physical key: a short press counts when it is let go, a long one when it has been down for
// hold_us, once. Pure; key repeats and bounces within what is already down change nothing.

#include <stdbool.h>
#include <stdint.h>

enum button_output { BUTTON_NOTHING, BUTTON_PRESS, BUTTON_HELD };

struct button {
    int64_t hold_us;
    bool down;
    bool held; // HELD was given for what is down now
    int64_t down_us;
};

void button_init(struct button *button, int64_t hold_us);
enum button_output button_key(struct button *button, bool down, int64_t time_us);
enum button_output button_tick(struct button *button, int64_t now_us);

// When button_tick is due, or -1.
int64_t button_deadline(const struct button *button);

// The device is gone: what was down never becomes a press.
void button_forget(struct button *button);

#endif
