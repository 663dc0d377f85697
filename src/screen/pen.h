#ifndef PEN_H
#define PEN_H

// Drawing: panels, shapes, text that fits, columns of lines, fractions. Private to src/screen.

#include "screen_inner.h"
#include "theme.h"

// --- boxes --------------------------------------------------------------------------------------
// Cuts `size` pixels off one side of *box and returns the piece.
SDL_Rect cut_top(SDL_Rect *box, int size);
SDL_Rect cut_bottom(SDL_Rect *box, int size);
SDL_Rect cut_left(SDL_Rect *box, int size);
SDL_Rect cut_right(SDL_Rect *box, int size);
SDL_Rect inset(SDL_Rect box, int by);
// Off the side of the working hand: right, on a mirrored bench left; and off the other side.
SDL_Rect cut_hand(const struct screen *screen, SDL_Rect *box, int size);
SDL_Rect cut_off_hand(const struct screen *screen, SDL_Rect *box, int size);
// Cell `at` of `count` side by side (or one below the other), `gap` pixels between.
SDL_Rect cell_across(SDL_Rect box, int count, int at, int gap);
SDL_Rect cell_down(SDL_Rect box, int count, int at, int gap);

// --- shapes -------------------------------------------------------------------------------------
enum shape {
    SHAPE_DISC,
    SHAPE_RING,
    SHAPE_TRIANGLE,
    SHAPE_OCTAGON,
    SHAPE_TICK,
    SHAPE_CROSS,
    SHAPE_ARROW_LEFT,
    SHAPE_BANG,
    SHAPE_BAR,
    SHAPE_MARK
};
void pen_fill(struct screen *screen, SDL_Rect box, SDL_Color colour);
void pen_shape(struct screen *screen, enum shape shape, SDL_Rect box, SDL_Color colour);
// A panel with round corners and a border of `border` pixels (0: none).
void pen_panel(struct screen *screen, SDL_Rect box, SDL_Color fill, SDL_Color line, int border);
// The sign of a tone in a square box: triangle, octagon, tick in a disc.
void pen_sign(struct screen *screen, SDL_Rect box, enum view_tone tone);

// --- text ---------------------------------------------------------------------------------------
enum align { ALIGN_LEFT, ALIGN_CENTRE, ALIGN_RIGHT };
struct style {
    enum face face;
    int size;  // design pixels of the font
    int floor; // never smaller than this
    SDL_Color colour;
    enum align align;
    bool top;      // at the top of the box, else in the middle of its height
    bool one_line; // shrinks to the floor before it wraps
    bool must;     // be read from where the worker stands: see fit.c
};
// The smallest text on a bench view: lines 7 mm high on a 24 in screen (26 of 1080 pixels).
#define FLOOR_BENCH 26
#define FLOOR_DESK 17

// Draws `text` into `box`: wraps, then shrinks to the floor; what still does not fit is a problem.
void pen_text(struct screen *screen, SDL_Rect box, const struct style *style, const char *text);
// Width of one line at the style's full size.
int pen_width(struct screen *screen, const struct style *style, const char *text);
// Height of the text broken into lines of `width` at full size; negative when a word is wider.
int pen_height(struct screen *screen, const struct style *style, const char *text, int width);
// Height that the text needs at the least size it may have, where it must be read; else, and at
// least, `least`.
int pen_room(struct screen *screen, const struct style *style, const char *text, int width,
             int least);
// Digits whose capitals are exactly `height` high, top left at x, y; returns the width.
// Face and size of the style are not asked for.
int pen_digits(struct screen *screen, int x, int y, int height, const struct style *style,
               const char *text);
int pen_digits_width(struct screen *screen, int height, const char *text);

// --- flow.c: lines below each other, shrunk together until they fit ------------------------------
enum bullet { BULLET_NONE, BULLET_DOT, BULLET_NUMBER, BULLET_SIGN };
struct flow_line {
    const char *text;
    const char *right; // at the right edge, may be NULL
    enum face face;
    int size; // design pixels
    SDL_Color colour;
    int before; // space above, design pixels
    enum bullet bullet;
    int number;
    enum view_tone tone; // of the sign
    bool rule;           // a line drawn above it
    bool boxed;          // in a caution box
    bool must;           // be read from where the worker stands
};
#define FLOW_MAX 40
struct flow {
    size_t count;
    int floor;
    struct flow_line line[FLOW_MAX];
};
void flow_add(struct flow *flow, struct flow_line line);
// The percentage of their sizes at which all lines fit into the box; 0: they do not.
int flow_scale(struct screen *screen, SDL_Rect box, const struct flow *flow);
void flow_draw(struct screen *screen, SDL_Rect box, const struct flow *flow);

// --- table.c ------------------------------------------------------------------------------------
#define TABLE_COLUMNS 7
struct table {
    int columns;
    size_t rows; // row 0 is the head
    const char *cell[1 + VIEW_ROWS_MAX][TABLE_COLUMNS];
    struct style style;
    enum face widest; // the face that cells are measured in
    int width[TABLE_COLUMNS];
};
// Chooses the size and the widths of the columns.
void table_fit(struct screen *screen, struct table *table, int width);
void table_row(struct screen *screen, const struct table *table, SDL_Rect box, size_t row,
               enum face last_face);

// A row that needs a look has its sign and its pale colour; the selected one a frame. `row` begins
// with table_sign_width for the sign.
void table_row_toned(struct screen *screen, const struct table *table, SDL_Rect row, size_t at,
                     enum view_tone tone, bool selected);
int table_sign_width(const struct screen *screen);

// --- plot.c -------------------------------------------------------------------------------------
void plot_draw(struct screen *screen, SDL_Rect box, const struct view_plot *plot);

// --- fraction.c ---------------------------------------------------------------------------------
int mark_width(struct screen *screen, const struct view_mark *mark, int height);
// Whole number and stacked fraction, `height` pixels high, without its unit; returns the width.
int mark_draw(struct screen *screen, const struct view_mark *mark, int x, int y, int height,
              SDL_Color colour);
// In the middle of `box`, as large as fits and at most `height`.
void mark_in_box(struct screen *screen, const struct view_mark *mark, SDL_Rect box, int height,
                 SDL_Color colour);

// --- shaft.c ------------------------------------------------------------------------------------
void shaft_draw(struct screen *screen, SDL_Rect box, const struct view_cut *cut);

// --- fit.c --------------------------------------------------------------------------------------
// Design pixels as pixels, and never less than a finger needs.
int touch_size(const struct screen *screen, int design);

// --- frame.c ------------------------------------------------------------------------------------
// Header, steps and band; returns what is left for the body.
SDL_Rect frame_draw(struct screen *screen, const struct view *view);

// --- buttons.c ----------------------------------------------------------------------------------
// A button of an action.
void button_draw(struct screen *screen, SDL_Rect box, const struct view_action *action);
// The view's buttons in rows at the bottom of *body; those for which `skip` says true are left out.
void buttons_draw(struct screen *screen, SDL_Rect *body, const struct view *view,
                  bool (*skip)(const struct view_action *action));
// The few buttons of a view that is not about choosing: cut off the right end of *row.
void buttons_beside(struct screen *screen, SDL_Rect *row, const struct view *view);
// How much of so wide a row they leave.
int buttons_beside_leave(struct screen *screen, int width, const struct view *view);
// The view's title and the line under it off the top of *body. The buttons stand beside the title
// where that leaves it room, else in rows of their own at the bottom.
struct heading {
    struct style title;
    int title_height; // design pixels, at least
    struct style line;
    int line_height;
};
void heading_draw(struct screen *screen, SDL_Rect *body, const struct view *view,
                  const struct heading *heading);
int buttons_count(const struct view *view);
// PRESS and HELD, the band itself, and what stands in a lesson's caption.
bool band_action(const struct view_action *action);

// --- focus.c ------------------------------------------------------------------------------------
// The ring: what the one button has moved to (view->ring), else the keyboard.
void focus_draw(struct screen *screen, const struct view *view);

// --- one file a body ----------------------------------------------------------------------------
void draw_message(struct screen *screen, SDL_Rect body, const struct view *view);
void draw_pair(struct screen *screen, SDL_Rect body, const struct view *view);
void draw_care(struct screen *screen, SDL_Rect body, const struct view *view);
void draw_cut(struct screen *screen, SDL_Rect body, const struct view *view);
void draw_shown(struct screen *screen, SDL_Rect body, const struct view *view);
void draw_number(struct screen *screen, SDL_Rect body, const struct view *view);
void draw_notice(struct screen *screen, SDL_Rect body, const struct view *view);
void draw_pin(struct screen *screen, SDL_Rect body, const struct view *view);
void draw_log(struct screen *screen, SDL_Rect body, const struct view *view);
void draw_entry(struct screen *screen, SDL_Rect body, const struct view *view);
void draw_set(struct screen *screen, SDL_Rect body, const struct view *view);
void draw_day(struct screen *screen, SDL_Rect body, const struct view *view);
void draw_menu(struct screen *screen, SDL_Rect body, const struct view *view);
void draw_form(struct screen *screen, SDL_Rect body, const struct view *view);
void draw_check(struct screen *screen, SDL_Rect body, const struct view *view);
void draw_selfcheck(struct screen *screen, SDL_Rect body, const struct view *view);

// --- draw_practice.c: nothing of it where there is no practice -----------------------------------
// Cuts the hatched frame off every side of *all.
void practice_frame(struct screen *screen, SDL_Rect *all, const struct view *view);
// The word, at the right or left end of `box`.
void practice_word(struct screen *screen, SDL_Rect box, const struct view *view, bool right);
int practice_word_width(struct screen *screen, const struct view *view);
// Cuts what the lesson says off the top of *all.
void practice_caption(struct screen *screen, SDL_Rect *all, const struct view *view);
bool lesson_action(const struct view_action *action); // stands in the caption

// --- preview.c ----------------------------------------------------------------------------------
// Cuts room for what the camera sees off the right side of *body, or off its bottom on a standing
// screen, and draws it; nothing when there is no camera.
void preview_draw(struct screen *screen, SDL_Rect *body, const struct view_preview *preview);
// Digit keys, shared by number and PIN; `fractions` adds point, slash and space.
void keypad_draw(struct screen *screen, SDL_Rect box, bool fractions);

#endif
