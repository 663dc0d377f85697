// What surrounds every view: header, steps, buttons, and the band that says the one thing to do.

#include "labels.h"
#include "pen.h"

#include <string.h>

static SDL_Color health_colour(const struct screen *screen, enum view_health health) {
    return health == HEALTH_GOOD   ? screen->theme->fine_lit
           : health == HEALTH_WARN ? screen->theme->caution_lit
                                   : screen->theme->stop_lit;
}

static void draw_health(struct screen *screen, SDL_Rect box, enum view_health health) {
    static const enum shape shapes[] = {
        [HEALTH_GOOD] = SHAPE_TICK, [HEALTH_WARN] = SHAPE_TRIANGLE, [HEALTH_BAD] = SHAPE_CROSS};
    pen_shape(screen, shapes[health], box, health_colour(screen, health));
    if (health == HEALTH_WARN) {
        pen_shape(screen, SHAPE_BANG, box, screen->theme->dark);
    }
}

// From the right edge: each status as shape and word. Returns what is left of the row.
static SDL_Rect draw_status(struct screen *screen, SDL_Rect row, const struct view *view) {
    struct style style = {.face = FACE_REGULAR, .size = 30, .floor = FLOOR_BENCH};
    for (size_t i = view->status_count; i > 0; i--) {
        const struct view_status *status = &view->status[i - 1];
        int size = px(screen, 32);
        SDL_Rect text;
        SDL_Rect sign;
        style.colour = status->health == HEALTH_GOOD ? screen->theme->dim
                                                     : health_colour(screen, status->health);
        style.face = status->health == HEALTH_GOOD ? FACE_REGULAR : FACE_BOLD;
        text = cut_right(&row, pen_width(screen, &style, status->label) + px(screen, 4));
        sign = cut_right(&row, size + px(screen, 10));
        draw_health(screen, (SDL_Rect){sign.x, sign.y + (sign.h - size) / 2, size, size},
                    status->health);
        pen_text(screen, text, &style, status->label);
        cut_right(&row, px(screen, 28));
    }
    return row;
}

// The bench, or what is being typed of a ticket; the worker.
static void draw_names(struct screen *screen, SDL_Rect row, const struct view *view) {
    struct style bench = {.face = FACE_REGULAR,
                          .size = 34,
                          .floor = FLOOR_BENCH,
                          .colour = screen->theme->dim,
                          .one_line = true};
    struct style typed = {
        .face = FACE_MONO_BOLD, .size = 42, .floor = FLOOR_BENCH, .colour = screen->theme->ink};
    struct style worker = {.face = FACE_REGULAR,
                           .size = 36,
                           .floor = FLOOR_BENCH,
                           .colour = screen->theme->light,
                           .align = ALIGN_RIGHT,
                           .one_line = true};
    SDL_Rect left = cell_across(row, 2, 0, px(screen, 20));
    pen_text(screen, cell_across(row, 2, 1, px(screen, 20)), &worker, view->worker);
    if (view->typed[0] == '\0') {
        pen_text(screen, left, &bench, view->bench);
        return;
    }
    left.y += (left.h - px(screen, 60)) / 2;
    left.h = px(screen, 60);
    pen_panel(screen, left, screen->theme->panel, screen->theme->panel, 0);
    pen_text(screen, inset(left, px(screen, 10)), &typed, view->typed);
}

static void draw_header(struct screen *screen, SDL_Rect box, const struct view *view) {
    struct style name = {
        .face = FACE_BOLD, .size = 40, .floor = FLOOR_BENCH, .colour = screen->theme->light};
    SDL_Rect row;
    pen_fill(screen, box, screen->theme->dark);
    box.x += px(screen, 40);
    box.w -= px(screen, 80);
    row = box;
    if (screen->portrait) {
        box = inset(box, px(screen, 6));
        row = cut_top(&box, box.h * 54 / 100);
        practice_word(screen, draw_status(screen, box, view), view, false);
    }
    pen_text(screen, cut_left(&row, pen_width(screen, &name, view_label(LABEL_PROGRAM)) + 4), &name,
             view_label(LABEL_PROGRAM));
    cut_left(&row, px(screen, 60));
    if (!screen->portrait) {
        practice_word(screen, row, view, false);
        cut_left(&row, practice_word_width(screen, view));
        cut_left(&row, view->lesson.word[0] != '\0' ? px(screen, 30) : 0);
        row = draw_status(screen, row, view);
        cut_right(&row, px(screen, 30));
    }
    draw_names(screen, row, view);
}

#define STEPS 6

// A line more when a step's name does not fit into one on a standing screen.
static int steps_height(struct screen *screen, int width) {
    const struct style style = {.face = FACE_BOLD, .size = FLOOR_BENCH};
    int cell = (width - (STEPS - 1) * px(screen, 10)) / STEPS;
    bool long_name = false;
    for (int i = 0; i < STEPS; i++) {
        long_name =
            long_name ||
            pen_width(screen, &style, view_label((enum view_label)(LABEL_STEP_PAIR + i))) > cell;
    }
    return px(screen, screen->portrait && long_name ? 96 : 62);
}

static void draw_steps(struct screen *screen, SDL_Rect box, int step) {
    for (int i = 0; i < STEPS; i++) {
        SDL_Rect cell = cell_across(box, STEPS, i, px(screen, 10));
        struct style style = {.face = i == step ? FACE_BOLD : FACE_REGULAR,
                              .size = 32,
                              .floor = FLOOR_BENCH,
                              .colour = i == step ? screen->theme->ink : screen->theme->soft};
        SDL_Rect bar = cut_top(&cell, px(screen, 12));
        if (i > step && screen->theme->outline > 0) {
            cut_top(&bar, bar.h * 2 / 3); // thin as well as of another colour
        }
        pen_fill(screen, bar, i <= step ? screen->theme->work.fill : screen->theme->line);
        pen_text(screen, cell, &style, view_label((enum view_label)(LABEL_STEP_PAIR + i)));
    }
}

static const struct view_action *find_action(const struct view *view, enum view_action_id id) {
    for (size_t i = 0; i < view->action_count; i++) {
        if (view->action[i].id == id) {
            return &view->action[i];
        }
    }
    return NULL;
}

// Beside the button's ring the hint says what holding it does, and can be touched for it. Without
// the ring the hint is a remark, and "something is wrong" has a button of its own under it.
static void draw_hint(struct screen *screen, SDL_Rect box, const struct view *view,
                      SDL_Color text) {
    const struct view_action *held = find_action(view, ACTION_HELD);
    struct style style = {.face = FACE_REGULAR, .size = 34, .floor = FLOOR_BENCH, .colour = text};
    const char *label = view->band_hint;
    box = inset(box, px(screen, 8));
    if (held == NULL || view->ring != ACTION_NONE) { // the one button: nothing to be touched
        style.align = screen->portrait ? ALIGN_LEFT : ALIGN_RIGHT;
        pen_text(screen, box, &style, view->band_hint);
        return;
    }
    style.align = ALIGN_CENTRE;
    if (!view->band_button || label[0] == '\0') {
        SDL_Rect button = box;
        if (label[0] != '\0') {
            button = screen->portrait ? cut_hand(screen, &box, box.w / 2)
                                      : cut_bottom(&box, touch_size(screen, 80));
            style.one_line = true;
            pen_text(screen, box, &style, label);
            style.one_line = false;
        }
        label = held->label;
        box = button;
    }
    pen_panel(screen, box, theme_tone(screen->theme, view->band_tone).fill, text, px(screen, 3));
    touch_add(screen, box, ACTION_HELD, held->argument);
    pen_text(screen, inset(box, px(screen, 8)), &style, label);
}

static struct style band_style(const struct screen *screen, const struct view *view) {
    return (struct style){.face = FACE_BOLD,
                          .size = 58,
                          .floor = FLOOR_BENCH,
                          .colour = theme_tone(screen->theme, view->band_tone).text,
                          .must = true};
}

static bool band_hinted(const struct view *view) {
    return view->band_hint[0] != '\0' || find_action(view, ACTION_HELD) != NULL;
}

#define BAND_SIDES 60  // design pixels left and right of all that stands in it
#define BAND_RING 100  // the button's sign
#define BAND_BESIDE 40 // of its cell, beside it
#define BAND_GAP 24
#define HINT_ACROSS 30    // percent of the band that the hint has
#define HINT_LINE 48      // design pixels of a remark above what can be touched
#define BAND_STANDING 236 // its height on a standing screen
#define HINT_DOWN 48      // on a standing screen

// On a standing screen the hint lies below the words.
static int hint_below(const struct screen *screen, const struct view *view) {
    if (!screen->portrait || !band_hinted(view)) {
        return 0;
    }
    if (seated_view(view->body) && find_action(view, ACTION_HELD) == NULL) {
        return px(screen, 56); // a remark
    }
    return SDL_max(px(screen, BAND_STANDING) * HINT_DOWN / 100, screen->target + px(screen, 16));
}

// Between the hint and the words that begin beside it.
static int band_gap(const struct screen *screen) {
    return screen->mirrored && !screen->portrait ? px(screen, BAND_GAP) : 0;
}

// As high as its words need, but no more than leaves the body its room.
static int band_height(struct screen *screen, const struct view *view) {
    struct style style = band_style(screen, view);
    int below = hint_below(screen, view);
    int height = seated_view(view->body) ? px(screen, 110) + below * 2 / 3
                                         : px(screen, screen->portrait ? BAND_STANDING : 168);
    int width = screen->page.x - px(screen, BAND_SIDES);
    if (screen->must == 0) {
        return height;
    }
    width -= band_hinted(view) && below == 0 ? width * HINT_ACROSS / 100 + band_gap(screen) : 0;
    width -= view->band_button ? px(screen, BAND_RING + BAND_BESIDE) : 0;
    height = SDL_max(height, below + px(screen, 12) +
                                 pen_room(screen, &style, view->band, width - px(screen, 12), 0));
    if (find_action(view, ACTION_HELD) != NULL && below == 0) {
        bool remark = !view->band_button && view->band_hint[0] != '\0';
        height = SDL_max(height, screen->target + px(screen, remark ? 16 + HINT_LINE : 16));
    }
    return SDL_min(height, screen->page.y * 42 / 100);
}

static void draw_band(struct screen *screen, SDL_Rect box, const struct view *view) {
    struct style style = band_style(screen, view);
    const struct view_action *press = find_action(view, ACTION_PRESS);
    int ring = px(screen, BAND_RING);
    pen_fill(screen, box, theme_tone(screen->theme, view->band_tone).fill);
    if (press != NULL) {
        touch_add(screen, box, ACTION_PRESS, press->argument);
    }
    cut_off_hand(screen, &box, px(screen, BAND_SIDES - 20));
    cut_hand(screen, &box, px(screen, 20));
    if (band_hinted(view)) {
        SDL_Rect side = screen->portrait ? cut_bottom(&box, hint_below(screen, view))
                                         : cut_hand(screen, &box, box.w * HINT_ACROSS / 100);
        draw_hint(screen, side, view, style.colour);
        cut_left(&box, band_gap(screen));
    }
    if (view->band_button) {
        SDL_Rect cell = cut_left(&box, ring + px(screen, BAND_BESIDE));
        int size = ring < cell.h - px(screen, 16) ? ring : cell.h - px(screen, 16);
        pen_shape(screen, SHAPE_RING,
                  (SDL_Rect){cell.x + px(screen, 10), cell.y + (cell.h - size) / 2, size, size},
                  style.colour);
    }
    pen_text(screen, inset(box, px(screen, 6)), &style, view->band);
}

SDL_Rect frame_draw(struct screen *screen, const struct view *view) {
    SDL_Rect all = {0, 0, screen->width, screen->height};
    bool portrait = screen->portrait;
    practice_frame(screen, &all, view);
    SDL_Rect header = cut_top(&all, px(screen, portrait ? 132 : 88));
    pen_fill(screen, all, screen->theme->ground);
    draw_header(screen, header, view);
    practice_caption(screen, &all, view);
    SDL_Rect band = cut_bottom(&all, band_height(screen, view));
    draw_band(screen, band, view);
    all = inset(all, px(screen, 24));
    cut_left(&all, px(screen, 16));
    cut_right(&all, px(screen, 16));
    if (view->step >= 0 && screen->steps) {
        draw_steps(screen, cut_top(&all, steps_height(screen, all.w)), view->step);
        cut_top(&all, px(screen, 18));
    }
    return all;
}
