#ifndef SCREEN_H
#define SCREEN_H

// The window: draws a struct view, tells what was touched, hands over keys, plays three sounds.
// Decides nothing about the work. Main thread only, but for screen_wake.

#include "view.h"
#include "wedge.h"

struct screen; // opaque

// Capitals that must be read from where a worker stands subtend this angle, in minutes of arc: the
// height that ISO 9241-303 and ANSI/HFES 100 prefer for comfortable reading, 20 to 22 (values from
// memory; both are about capitals).
#define SCREEN_ANGLE 20
#define SCREEN_DISTANCE_MM 2000
#define SCREEN_DIAGONAL_MM 610 // 24 in

enum screen_theme { SCREEN_THEME_NORMAL, SCREEN_THEME_CONTRAST };

struct screen_options {
    bool windowed;
    int width;          // of a window; 0: 1280
    int height;         // 0: 720
    const char *assets; // folder with fonts/ and sounds/
    int volume;         // 0 (mute) to 100
    enum screen_theme theme;
    int distance_mm;      // from the eyes to the screen; 0: SCREEN_DISTANCE_MM
    int diagonal_mm;      // of the screen that the window fills; 0: SCREEN_DIAGONAL_MM
    bool mirrored;        // what is touched lies at the left hand
    uint16_t button_code; // KEY_* of the button, 0: none (read elsewhere)
};

enum screen_input_kind {
    SCREEN_NOTHING, // woken or timed out
    SCREEN_QUIT,    // window closed or SIGTERM's wake
    SCREEN_KEY,     // key, for the wedge; never the button's
    SCREEN_BUTTON,  // down: the button's key, repeats left out
    SCREEN_TOUCH,   // down or up of a touch or mouse on `action` (ACTION_NONE: on nothing)
    SCREEN_SLIPPED, // up again, but not on the `action` where it came down: nothing was meant
    SCREEN_DIRTY    // must be drawn again (exposed, resized)
};
struct screen_input {
    enum screen_input_kind kind;
    struct wedge_key key;
    bool down;
    int64_t time_us;
    enum view_action_id action;
    int64_t argument;
    bool by_key; // a touch that was a key: no finger bounces
};

// On failure returns false and `message` says why.
bool screen_open(const struct screen_options *options, struct screen **ret_screen, char *message,
                 size_t size);
void screen_close(struct screen *screen);
void screen_size(struct screen *screen, int *ret_width, int *ret_height); // in pixels

// For someone sitting with keyboard and mouse: smaller text and buttons.
bool seated_view(enum view_body body);

// Draws `view` and presents it. Text is never cut off: it wraps, then shrinks to a floor.
void screen_draw(struct screen *screen, const struct view *view);

// All black, with nothing to touch and no key that stands on an action.
void screen_blank(struct screen *screen);

// Waits for one input, at most timeout_ms (-1: for ever). Keys without a character that stand on an
// action (view_action.key "F2", "PgDn") come back as SCREEN_TOUCH of that action, down and up. A
// key with a character, such as the digit of a choice, comes as SCREEN_KEY: it may be part of a
// scan, so only the wedge can tell whether a person typed it.
void screen_wait(struct screen *screen, int64_t timeout_ms, struct screen_input *ret_input);

// The ring that a keyboard moves over what can be touched on the screen as it was drawn last, but
// for ACTION_PRESS: only the button and F1 confirm. It is drawn by the next screen_draw, and gone
// when what it was round is.
enum screen_way { SCREEN_WAY_NEXT, SCREEN_WAY_BACK, SCREEN_WAY_UP, SCREEN_WAY_DOWN };
// False: there is nothing to be put into it.
bool screen_focus_move(struct screen *screen, enum screen_way way);
// What is in it; false: there is no ring.
bool screen_focus(const struct screen *screen, enum view_action_id *ret_action,
                  int64_t *ret_argument);
void screen_focus_clear(struct screen *screen);

// Wakes screen_wait from any thread.
void screen_wake(struct screen *screen);

enum screen_sound { SCREEN_SOUND_ACCEPTED, SCREEN_SOUND_HOLD, SCREEN_SOUND_LOGGED };
void screen_play(struct screen *screen, enum screen_sound sound);
void screen_set_volume(struct screen *screen, int volume); // 0 (mute) to 100
// All three, one after the other.
void screen_play_all(struct screen *screen);

struct screen_facts {
    int width; // pixels
    int height;
    int hertz;          // 0: not known
    const char *driver; // of the display; static
    bool mute;          // there is no sound device
    bool played;        // since the start
};
void screen_tell(const struct screen *screen, struct screen_facts *ret_facts);

// How far off, in mm, a screen of so many pixels holds that angle on every view whose words are not
// of the longest. Beyond it the mark, and what short words leave room for, still do.
int screen_reach_mm(int width, int height, int diagonal_mm);

// Writes what is on the screen as a PNG. False on failure.
bool screen_shot(struct screen *screen, const char *path);

// Layout findings of the last screen_draw: texts that had to shrink below the floor or did not
// fit, overlapping boxes, touch targets under the least (22 mm on a 24 in screen of 1080 lines).
// 0 is right; for tests.
int screen_problems(const struct screen *screen, char *buffer, size_t size);

#endif
