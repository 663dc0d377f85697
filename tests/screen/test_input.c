// What the window hands over: keys for the wedge, the button's key, touches, and nothing else.

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "screen_inner.h"
#include "views.h"

#include <SDL_syswm.h>
#include <linux/input-event-codes.h>
#include <pthread.h>
#include <stdlib.h>

static struct screen *screen;

static void draw(const char *name) {
    static struct view view;
    struct screen_input input;
    views_fill(name, &view);
    screen_draw(screen, &view);
    SDL_PumpEvents();
    SDL_FlushEvents(SDL_FIRSTEVENT, SDL_LASTEVENT);
    do {
        screen_wait(screen, 0, &input);
    } while (input.kind != SCREEN_NOTHING);
}

static int open_screen(void **state) {
    struct screen_options options = {.windowed = true,
                                     .width = 1280,
                                     .height = 720,
                                     .assets = KERFSIDE_SOURCE_DIR "/assets",
                                     .button_code = KEY_F13};
    char message[256] = "";
    (void)state;
    setenv("SDL_VIDEODRIVER", "dummy", 1);
    return screen_open(&options, &screen, message, sizeof message) ? 0 : -1;
}

static int close_screen(void **state) {
    (void)state;
    screen_close(screen);
    return 0;
}

// Not 0 ms: SDL then ends a poll where the one before it ended, ahead of what was pushed since.
static struct screen_input take(void) {
    struct screen_input input;
    screen_wait(screen, 10, &input);
    return input;
}

static struct screen_input key(SDL_Scancode scancode, bool down, bool repeat) {
    SDL_Event event = {.type = down ? SDL_KEYDOWN : SDL_KEYUP};
    event.key.keysym.scancode = scancode;
    event.key.state = down ? SDL_PRESSED : SDL_RELEASED;
    event.key.repeat = repeat ? 1 : 0;
    SDL_PushEvent(&event);
    return take();
}

static struct screen_input mouse(int x, int y, Uint8 button, bool down) {
    SDL_Event event = {.type = down ? SDL_MOUSEBUTTONDOWN : SDL_MOUSEBUTTONUP};
    event.button.button = button;
    event.button.x = x;
    event.button.y = y;
    SDL_PushEvent(&event);
    return take();
}

// As X's driver does: its own event, then SDL's.
static void push_x_key(SDL_Scancode scancode, Time ms) {
    static SDL_SysWMmsg message = {.subsystem = SDL_SYSWM_X11};
    SDL_Event system = {.type = SDL_SYSWMEVENT};
    SDL_Event event = {.type = SDL_KEYDOWN};
    message.msg.x11.event.type = KeyPress;
    message.msg.x11.event.xkey.time = ms;
    system.syswm.msg = &message;
    event.key.keysym.scancode = scancode;
    event.key.state = SDL_PRESSED;
    SDL_PushEvent(&system);
    SDL_PushEvent(&event);
}

// Fetched all at once by a bench that was busy: the times are those of the presses. Over the end of
// X's 32 bits too, which count 49 days.
static void keeps_the_times_of_keys(void **state) {
    static const Time begin[] = {5000, 0xFFFFFFB0};
    static const SDL_Scancode keys[] = {SDL_SCANCODE_A, SDL_SCANCODE_B, SDL_SCANCODE_C,
                                        SDL_SCANCODE_D};
    static const int after_ms[] = {0, 40, 160, 165};
    (void)state;
    for (size_t round = 0; round < 2; round++) {
        int64_t first = 0;
        close_screen(NULL);
        assert_int_equal(open_screen(NULL), 0);
        draw("signed-out");
        push_x_key(keys[0], begin[round]);
        first = take().key.time_us;
        SDL_Delay(200);
        for (size_t i = 1; i < sizeof keys / sizeof keys[0]; i++) {
            push_x_key(keys[i], (Time)(Uint32)(begin[round] + (Time)after_ms[i]));
        }
        for (size_t i = 1; i < sizeof keys / sizeof keys[0]; i++) {
            struct screen_input input = take();
            assert_int_equal(input.kind, SCREEN_KEY);
            int64_t gap_us = input.key.time_us - first - after_ms[i] * 1000;
            assert_true(gap_us > -3000 && gap_us < 3000);
        }
        assert_int_equal(take().kind, SCREEN_NOTHING); // X's own events were let no further
    }
}

static void assert_touch(struct screen_input input, enum view_action_id action, bool down) {
    assert_int_equal(input.kind, SCREEN_TOUCH);
    assert_int_equal(input.action, action);
    assert_int_equal(input.down, down);
    assert_true(input.time_us > 0);
}

static void keys_go_to_the_wedge(void **state) {
    struct screen_input input;
    (void)state;
    draw("ready");
    input = key(SDL_SCANCODE_S, true, false);
    assert_int_equal(input.kind, SCREEN_KEY);
    assert_int_equal(input.key.code, KEY_S);
    assert_true(input.key.down);
    assert_int_equal(input.key.time_us, input.time_us);
    SDL_Delay(200);
    assert_int_equal(key(SDL_SCANCODE_S, true, true).kind, SCREEN_NOTHING);
    input = key(SDL_SCANCODE_S, false, false);
    assert_int_equal(input.kind, SCREEN_KEY);
    assert_false(input.key.down);
}

// A scanner's second "0" follows the release of the first within 2 ms: SDL leaves the release out.
static void a_repeat_too_soon_is_a_second_press(void **state) {
    struct screen_input input;
    (void)state;
    draw("ready");
    assert_int_equal(key(SDL_SCANCODE_0, true, false).kind, SCREEN_KEY);
    input = key(SDL_SCANCODE_0, true, true);
    assert_int_equal(input.kind, SCREEN_KEY);
    assert_true(input.key.down);
    assert_int_equal(key(SDL_SCANCODE_1, true, true).kind, SCREEN_NOTHING);
}

static void escape_is_a_key_like_others(void **state) {
    struct screen_input input;
    (void)state;
    draw("tip-cut");
    input = key(SDL_SCANCODE_ESCAPE, true, false);
    assert_int_equal(input.kind, SCREEN_KEY);
    assert_int_equal(input.key.code, KEY_ESC);
}

static void button_key_repeats_are_left_out(void **state) {
    struct screen_input input;
    (void)state;
    draw("tip-cut");
    input = key(SDL_SCANCODE_F13, true, false);
    assert_int_equal(input.kind, SCREEN_BUTTON);
    assert_true(input.down);
    SDL_Delay(200);
    assert_int_equal(key(SDL_SCANCODE_F13, true, true).kind, SCREEN_NOTHING);
    input = key(SDL_SCANCODE_F13, false, false);
    assert_int_equal(input.kind, SCREEN_BUTTON);
    assert_false(input.down);
}

static void a_key_on_an_action_is_a_touch_of_it(void **state) {
    (void)state;
    draw("tip-cut");
    assert_touch(key(SDL_SCANCODE_F3, true, false), ACTION_START_OVER, true);
    assert_touch(take(), ACTION_START_OVER, false);
    draw("pin");
    assert_int_equal(key(SDL_SCANCODE_F6, true, false).kind, SCREEN_KEY);
}

// A digit may be part of a scan: only the wedge can tell.
static void a_digit_on_a_choice_stays_a_key(void **state) {
    (void)state;
    draw("wrong");
    assert_int_equal(key(SDL_SCANCODE_1, true, false).kind, SCREEN_KEY);
}

static void assert_slip(struct screen_input input, enum view_action_id action) {
    assert_int_equal(input.kind, SCREEN_SLIPPED);
    assert_int_equal(input.action, action);
    assert_false(input.down);
}

static struct screen_input other(Uint32 which, int x, int y, bool down) {
    SDL_Event event = {.type = down ? SDL_MOUSEBUTTONDOWN : SDL_MOUSEBUTTONUP};
    event.button.button = SDL_BUTTON_LEFT;
    event.button.which = which;
    event.button.x = x;
    event.button.y = y;
    SDL_PushEvent(&event);
    return take();
}

static struct screen_input finger(SDL_FingerID which, bool down) {
    SDL_Event event = {.type = down ? SDL_FINGERDOWN : SDL_FINGERUP};
    event.tfinger.fingerId = which;
    event.tfinger.x = 0.1f;
    event.tfinger.y = 0.95f;
    SDL_PushEvent(&event);
    return take();
}

static void a_palm_does_nothing(void **state) {
    (void)state;
    draw("tip-cut");
    assert_touch(mouse(200, 680, SDL_BUTTON_LEFT, true), ACTION_PRESS, true);
    assert_int_equal(other(7, 1150, 660, true).kind, SCREEN_NOTHING);
    assert_int_equal(finger(2, true).kind, SCREEN_NOTHING);
    assert_int_equal(finger(2, false).kind, SCREEN_NOTHING);
    assert_int_equal(other(7, 1150, 660, false).kind, SCREEN_NOTHING);
    assert_touch(mouse(200, 680, SDL_BUTTON_LEFT, false), ACTION_PRESS, false);
    // A release that was lost does not stop the next press.
    assert_touch(mouse(200, 680, SDL_BUTTON_LEFT, true), ACTION_PRESS, true);
    assert_touch(mouse(1150, 660, SDL_BUTTON_LEFT, true), ACTION_HELD, true);
    assert_touch(mouse(1150, 660, SDL_BUTTON_LEFT, false), ACTION_HELD, false);
    // Nor, after ten seconds, that of another screen.
    assert_touch(mouse(200, 680, SDL_BUTTON_LEFT, true), ACTION_PRESS, true);
    assert_int_equal(other(7, 1150, 660, true).kind, SCREEN_NOTHING);
    screen->finger_ms -= 10000;
    assert_touch(other(7, 1150, 660, true), ACTION_HELD, true);
    assert_touch(other(7, 1150, 660, false), ACTION_HELD, false);
}

static void touches_go_down_and_up(void **state) {
    (void)state;
    draw("tip-cut");
    assert_touch(mouse(200, 680, SDL_BUTTON_LEFT, true), ACTION_PRESS, true);
    assert_touch(mouse(200, 680, SDL_BUTTON_LEFT, false), ACTION_PRESS, false);
    assert_touch(mouse(1150, 660, SDL_BUTTON_LEFT, true), ACTION_HELD, true);
    // The finger slides off: nothing was meant. It may roll a little.
    assert_slip(mouse(10, 10, SDL_BUTTON_LEFT, false), ACTION_HELD);
    assert_touch(mouse(1150, 660, SDL_BUTTON_LEFT, true), ACTION_HELD, true);
    assert_slip(mouse(600, 660, SDL_BUTTON_LEFT, false), ACTION_HELD);
    assert_touch(mouse(1150, 660, SDL_BUTTON_LEFT, true), ACTION_HELD, true);
    int left = screen->held.box.x;
    assert_touch(mouse(left - 10, 660, SDL_BUTTON_LEFT, false), ACTION_HELD, false);
    assert_touch(mouse(1150, 660, SDL_BUTTON_LEFT, true), ACTION_HELD, true);
    assert_slip(mouse(left - 20, 660, SDL_BUTTON_LEFT, false), ACTION_HELD);
    assert_touch(mouse(1265, 660, SDL_BUTTON_LEFT, true), ACTION_PRESS, true);
    assert_touch(mouse(1261, 664, SDL_BUTTON_LEFT, false), ACTION_PRESS, false);
    assert_touch(mouse(10, 10, SDL_BUTTON_LEFT, true), ACTION_NONE, true);
    assert_touch(mouse(10, 10, SDL_BUTTON_LEFT, false), ACTION_NONE, false);
    assert_int_equal(mouse(200, 680, SDL_BUTTON_RIGHT, true).kind, SCREEN_NOTHING);
}

static void window_events_ask_for_a_drawing(void **state) {
    SDL_Event exposed = {.type = SDL_WINDOWEVENT};
    SDL_Event moved = {.type = SDL_WINDOWEVENT};
    SDL_Event quit = {.type = SDL_QUIT};
    (void)state;
    draw("ready");
    exposed.window.event = SDL_WINDOWEVENT_EXPOSED;
    moved.window.event = SDL_WINDOWEVENT_MOVED;
    SDL_PushEvent(&exposed);
    assert_int_equal(take().kind, SCREEN_DIRTY);
    SDL_PushEvent(&moved);
    assert_int_equal(take().kind, SCREEN_NOTHING);
    SDL_PushEvent(&quit);
    assert_int_equal(take().kind, SCREEN_QUIT);
}

static void *wake(void *context) {
    SDL_Delay(50);
    screen_wake(context);
    return NULL;
}

static void another_thread_wakes_it(void **state) {
    struct screen_input input;
    pthread_t thread;
    Uint64 begun;
    (void)state;
    draw("ready");
    begun = SDL_GetTicks64();
    assert_int_equal(pthread_create(&thread, NULL, wake, screen), 0);
    screen_wait(screen, 20000, &input);
    pthread_join(thread, NULL);
    assert_int_equal(input.kind, SCREEN_NOTHING);
    assert_true(SDL_GetTicks64() - begun < 5000);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(keys_go_to_the_wedge),
        cmocka_unit_test(a_repeat_too_soon_is_a_second_press),
        cmocka_unit_test(escape_is_a_key_like_others),
        cmocka_unit_test(button_key_repeats_are_left_out),
        cmocka_unit_test(a_key_on_an_action_is_a_touch_of_it),
        cmocka_unit_test(a_digit_on_a_choice_stays_a_key),
        cmocka_unit_test(touches_go_down_and_up),
        cmocka_unit_test(a_palm_does_nothing),
        cmocka_unit_test(window_events_ask_for_a_drawing),
        cmocka_unit_test(another_thread_wakes_it),
        cmocka_unit_test(keeps_the_times_of_keys),
    };
    return cmocka_run_group_tests(tests, open_screen, close_screen);
}
