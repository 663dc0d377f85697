// One SDL event in, at most one input out. A key that stands on an action gives a down and an up.

#include "pen.h"

#include <time.h>

#define REPEAT_SOONEST_MS 150

// The base of all times here; SDL's own count from its start.
static int64_t now_us(void) {
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (int64_t)now.tv_sec * 1000000 + now.tv_nsec / 1000;
}

static void touched(struct hit hit, bool down, struct screen_input *ret_input) {
    ret_input->kind = SCREEN_TOUCH;
    ret_input->down = down;
    ret_input->action = hit.action;
    ret_input->argument = hit.argument;
}

static bool key_action(struct screen *screen, SDL_Scancode scancode, struct screen_input *ret) {
    for (size_t i = 0; i < screen->key_action_count; i++) {
        const struct view_action *action = &screen->key_action[i];
        if (keymap_named(action->key, scancode)) {
            screen->key_up = (struct hit){.action = action->id, .argument = action->argument};
            screen->key_up_due = true;
            touched(screen->key_up, true, ret);
            ret->by_key = true;
            return true;
        }
    }
    return false;
}

// SDL takes two presses of one key for a held key's repeat when the release between them is less
// than 2 ms old, as in the "00" of a fast scanner. No keyboard repeats as soon after a press.
static bool is_repeat(struct screen *screen, const SDL_KeyboardEvent *event) {
    bool double_press = event->keysym.scancode == screen->down_key &&
                        event->timestamp - screen->down_ms < REPEAT_SOONEST_MS;
    if (event->type != SDL_KEYDOWN) {
        return false;
    }
    if (event->repeat != 0 && !double_press) {
        return true;
    }
    screen->down_key = event->keysym.scancode;
    screen->down_ms = event->timestamp;
    return false;
}

static void key(struct screen *screen, const SDL_KeyboardEvent *event, struct screen_input *ret) {
    uint16_t code = keymap_code(event->keysym.scancode);
    bool down = event->type == SDL_KEYDOWN;
    // Not when it is looked at, but when it was pressed.
    ret->time_us -= (int64_t)(SDL_GetTicks() - event->timestamp) * 1000;
    if (code == 0 || is_repeat(screen, event)) {
        return;
    }
    if (code == screen->button_code) {
        ret->kind = SCREEN_BUTTON;
        ret->down = down;
        return;
    }
    if (down && key_action(screen, event->keysym.scancode, ret)) {
        return;
    }
    ret->kind = SCREEN_KEY;
    ret->key = (struct wedge_key){.code = code, .down = down, .time_us = ret->time_us};
}

// Events come in window units, which a high-resolution screen has fewer of than pixels.
static SDL_Point pixel_of(const struct screen *screen, const SDL_MouseButtonEvent *event) {
    int width;
    int height;
    SDL_GetWindowSize(screen->window, &width, &height);
    return (SDL_Point){(int)((float)event->x * (float)screen->width / (float)width),
                       (int)((float)event->y * (float)screen->height / (float)height)};
}

// A gloved finger rolls a little; a box is as large as SLACK more on all sides for letting go.
#define SLACK 20

static bool still_on(const struct screen *screen, SDL_Point at) {
    SDL_Rect box = inset(screen->held.box, -px(screen, SLACK));
    return SDL_PointInRect(&at, &box);
}

// A finger that was never seen to leave again holds nobody up for longer.
#define FINGER_LONGEST_MS 10000

static bool beside_another(const struct screen *screen, const SDL_MouseButtonEvent *event) {
    return screen->finger && screen->finger_of != event->which &&
           SDL_GetTicks() - screen->finger_ms < FINGER_LONGEST_MS;
}

// The first finger counts: what comes down beside it, a palm or a second finger, does nothing. Of
// one touch screen SDL makes a mouse of the first finger alone.
static void mouse(struct screen *screen, const SDL_MouseButtonEvent *event,
                  struct screen_input *ret) {
    bool down = event->type == SDL_MOUSEBUTTONDOWN;
    SDL_Point at;
    if (event->button != SDL_BUTTON_LEFT || (down && beside_another(screen, event)) ||
        (!down && (!screen->finger || screen->finger_of != event->which))) {
        return;
    }
    at = pixel_of(screen, event);
    if (down) {
        screen->finger = true;
        screen->finger_of = event->which;
        screen->finger_ms = SDL_GetTicks();
        screen->held = touch_find(screen, at.x, at.y);
        touched(screen->held, true, ret);
        return;
    }
    screen->finger = false;
    touched(screen->held, false, ret);
    if (screen->held.action != ACTION_NONE && !still_on(screen, at)) {
        ret->kind = SCREEN_SLIPPED;
    }
    screen->held = (struct hit){.action = ACTION_NONE};
}

static void window(const SDL_WindowEvent *event, struct screen_input *ret) {
    if (event->event == SDL_WINDOWEVENT_EXPOSED || event->event == SDL_WINDOWEVENT_SIZE_CHANGED) {
        ret->kind = SCREEN_DIRTY;
    }
}

static void motion(struct screen *screen, const SDL_MouseMotionEvent *event) {
    if (!screen->cursor_free && event->which != SDL_TOUCH_MOUSEID &&
        (event->xrel != 0 || event->yrel != 0)) {
        screen->cursor_free = true;
        SDL_ShowCursor(SDL_ENABLE);
    }
}

void screen_wait(struct screen *screen, int64_t timeout_ms, struct screen_input *ret_input) {
    SDL_Event event;
    int wait = timeout_ms < 0 || timeout_ms > 3600000 ? 3600000 : (int)timeout_ms;
    *ret_input = (struct screen_input){.kind = SCREEN_NOTHING, .action = ACTION_NONE};
    if (screen->key_up_due) {
        screen->key_up_due = false;
        ret_input->time_us = now_us();
        touched(screen->key_up, false, ret_input);
        ret_input->by_key = true;
        return;
    }
    if (sound_settle(screen) && wait > 250) {
        wait = 250;
    }
    if (SDL_WaitEventTimeout(&event, wait) == 0) {
        return;
    }
    ret_input->time_us = now_us();
    switch (event.type) {
    case SDL_QUIT:
        ret_input->kind = SCREEN_QUIT;
        break;
    case SDL_KEYDOWN:
    case SDL_KEYUP:
        key(screen, &event.key, ret_input);
        break;
    case SDL_MOUSEBUTTONDOWN:
    case SDL_MOUSEBUTTONUP:
        mouse(screen, &event.button, ret_input);
        break;
    case SDL_MOUSEMOTION:
        motion(screen, &event.motion);
        break;
    case SDL_WINDOWEVENT:
        window(&event.window, ret_input);
        break;
    case SDL_RENDER_TARGETS_RESET:
        ret_input->kind = SCREEN_DIRTY;
        break;
    default:
        break;
    }
}
