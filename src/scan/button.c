#include "button.h"

void button_init(struct button *button, int64_t hold_us) {
    *button = (struct button){.hold_us = hold_us};
}

int64_t button_deadline(const struct button *button) {
    return button->down && !button->held ? button->down_us + button->hold_us : -1;
}

enum button_output button_tick(struct button *button, int64_t now_us) {
    int64_t due = button_deadline(button);
    if (due < 0 || now_us < due) {
        return BUTTON_NOTHING;
    }
    button->held = true;
    return BUTTON_HELD;
}

enum button_output button_key(struct button *button, bool down, int64_t time_us) {
    enum button_output output = BUTTON_NOTHING;
    if (down == button->down) {
        return BUTTON_NOTHING;
    }
    if (down) {
        button->down_us = time_us;
        button->held = false;
    } else if (!button->held) {
        // Let go late, before anybody looked at the clock: still held, never a press.
        output = time_us - button->down_us < button->hold_us ? BUTTON_PRESS : BUTTON_HELD;
    }
    button->down = down;
    return output;
}

void button_forget(struct button *button) {
    button->down = false;
    button->held = false;
}
