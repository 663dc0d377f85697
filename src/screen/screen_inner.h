#ifndef SCREEN_INNER_H
#define SCREEN_INNER_H

// Private to src/screen: the open window and what one drawing of it leaves behind.
//
// All sizes in the drawing code are given for a screen 1080 pixels high (wide, when it stands) and
// go through px(), so that a layout looks the same on every window.

#include "screen.h"

#include <SDL.h>
#include <SDL_ttf.h>

enum face {
    FACE_REGULAR,
    FACE_BOLD,
    FACE_MONO,
    FACE_MONO_BOLD,
    FACE_EAST, // for texts with letters that B612 lacks
    FACE_EAST_BOLD,
    FACE_COUNT
};

#define TEXTS_MAX 320 // text boxes of one drawing, for the check on overlaps
#define HITS_MAX 128
#define PROBLEMS_SIZE 2048

// One line of text as it was drawn.
struct drawn {
    SDL_Rect box;
    SDL_Color colour;
    int caps;  // height of capitals, pixels
    bool must; // be read from where the worker stands
};

struct hit {
    SDL_Rect box;
    enum view_action_id action;
    int64_t argument;
};

// When keys were pressed, by X's clock where there is one (key_times.c).
struct key_times {
    bool known;
    Uint32 offset; // of SDL's clock to X's, ms
    bool fresh;    // ms is of the key that comes next
    Uint32 ms;
};

struct theme;  // theme.h
struct fonts;  // fonts.c
struct images; // images.c

struct screen {
    SDL_Window *window;
    SDL_Renderer *renderer;
    const struct theme *theme;
    int distance_mm;
    int diagonal_mm;
    bool mirrored;
    struct fonts *fonts;
    struct images *images;
    Uint32 wake_event;
    uint16_t button_code;
    int volume;
    SDL_AudioDeviceID audio;
    bool audio_failed;
    bool audio_played;
    bool cursor_free; // a mouse was moved: the cursor is shown
    // the window now
    int width;
    int height;
    bool portrait;
    SDL_Point page; // what the view is laid out for: all of it, or what a lesson leaves
    // the last drawing
    enum view_body body;
    bool dry;   // laid out, not drawn
    bool steps; // there is room for their line
    int must;   // pixels of font that no text which must be read is smaller than; 0: its floor
    int target; // pixels that no touch target is smaller than
    size_t hit_count;
    struct hit hit[HITS_MAX];
    size_t text_count;
    struct drawn text[TEXTS_MAX];
    int problem_count;
    size_t problem_used;
    char problem[PROBLEMS_SIZE];
    size_t key_action_count; // keys that stand on actions
    struct view_action key_action[VIEW_ACTIONS_MAX];
    struct hit focus; // what the keyboard's ring is round, ACTION_NONE: none
    // touch and keys in flight
    bool finger;           // one is down; others do nothing meanwhile
    Uint32 finger_of;      // of this mouse or screen
    Uint32 finger_ms;      // since
    struct hit held;       // what it came down on, ACTION_NONE: nothing
    SDL_Scancode down_key; // the newest press
    Uint32 down_ms;
    struct key_times key_times;
    bool key_up_due; // the second half of a key's down and up
    struct hit key_up;
};

// A design length in pixels of this window, at least 1 for a positive one.
int px(const struct screen *screen, int design);

// --- key_times.c ---------------------------------------------------------------------------------
void key_times_begin(struct screen *screen); // once SDL is there
void key_times_end(void);

// --- images.c: shapes and texts kept as textures, the oldest thrown away first -------------------
bool images_init(struct screen *screen);
void images_destroy(struct screen *screen);
// The texture under `key`, or NULL. ret_size may be NULL.
SDL_Texture *images_find(struct screen *screen, const char *key, SDL_Point *ret_size);
// Takes ownership of `surface` (NULL is let through) and keeps its texture.
SDL_Texture *images_keep(struct screen *screen, const char *key, SDL_Surface *surface);

// --- fonts.c ------------------------------------------------------------------------------------
bool fonts_init(struct screen *screen, const char *assets, char *message, size_t size);
void fonts_destroy(struct screen *screen);
TTF_Font *fonts_get(struct screen *screen, enum face face, int pixels);
// `face`, or the one that has the letters of this text.
enum face fonts_face(enum face face, const char *text);
// Where a face has no bold of its own, its letters are drawn again so many pixels further right.
// None in small letters, which would smear.
int fonts_bolder(enum face face, int pixels);
// Height of capitals and digits in `pixels` of font size.
int fonts_caps(struct screen *screen, enum face face, int pixels);
#define FONTS_CAPS_PERCENT 76 // of the size, near enough
// The other way round.
int fonts_size_for_caps(struct screen *screen, enum face face, int height);

// --- fit.c --------------------------------------------------------------------------------------
// Sets what the drawing of this attempt goes by, from 0; false: there is no such attempt.
bool fit_try(struct screen *screen, int attempt);

// --- draw.c -------------------------------------------------------------------------------------
// All of screen_draw but the drawing: where things lie, and what is wrong with that.
void lay_out(struct screen *screen, const struct view *view);

// --- touch.c ------------------------------------------------------------------------------------
void touch_add(struct screen *screen, SDL_Rect box, enum view_action_id action, int64_t argument);
struct hit touch_find(const struct screen *screen, int x, int y);

// A finding about the drawing, for screen_problems.
void problem(struct screen *screen, const char *what, const char *text);

// --- sound.c ------------------------------------------------------------------------------------
// Closes the audio device once it has played out; true while it is still needed.
bool sound_settle(struct screen *screen);
void sound_close(struct screen *screen);

// --- png.c --------------------------------------------------------------------------------------
bool png_write(const char *path, const void *pixels, int width, int height, int pitch);

// --- keymap.c -----------------------------------------------------------------------------------
// Linux KEY_ code of a key, 0: none.
uint16_t keymap_code(SDL_Scancode scancode);
// Is this the key that an action shows ("F2", "PgDn", "Del")?
bool keymap_named(const char *name, SDL_Scancode scancode);

#endif
