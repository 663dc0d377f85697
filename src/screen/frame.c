// What surrounds every view: header, steps, buttons, and the band that says the one thing to do.

#include "labels.h"
#include "pen.h"

#include <string.h>

static const SDL_Color health_colour[] = {
    [HEALTH_GOOD] = {0x7B, 0xDB, 0x9C, 0xFF},
    [HEALTH_WARN] = {0xF2, 0xB1, 0x34, 0xFF},
    [HEALTH_BAD] = {0xFF, 0xA3, 0xA0, 0xFF},
};
static const enum shape health_shape[] = {
    [HEALTH_GOOD] = SHAPE_TICK, [HEALTH_WARN] = SHAPE_BANG, [HEALTH_BAD] = SHAPE_CROSS};

// From the right edge: each status as shape and word. Returns what is left of the row.
static SDL_Rect draw_status(struct screen *screen, SDL_Rect row, const struct view *view) {
    struct style style = {.face = FACE_REGULAR, .size = 30, .floor = FLOOR_BENCH};
    for (size_t i = view->status_count; i > 0; i--) {
        const struct view_status *status = &view->status[i - 1];
        int size = px(screen, 32);
        SDL_Rect text;
        SDL_Rect sign;
        style.colour = status->health == HEALTH_GOOD ? THEME_DIM : health_colour[status->health];
        style.face = status->health == HEALTH_GOOD ? FACE_REGULAR : FACE_BOLD;
        text = cut_right(&row, pen_width(screen, &style, status->label) + px(screen, 4));
        sign = cut_right(&row, size + px(screen, 10));
        pen_shape(screen, health_shape[status->health],
                  (SDL_Rect){sign.x, sign.y + (sign.h - size) / 2, size, size},
                  health_colour[status->health]);
        pen_text(screen, text, &style, status->label);
        cut_right(&row, px(screen, 28));
    }
    return row;
}

static void draw_header(struct screen *screen, SDL_Rect box, const struct view *view) {
    struct style name = {
        .face = FACE_BOLD, .size = 40, .floor = FLOOR_BENCH, .colour = THEME_LIGHT};
    struct style bench = {
        .face = FACE_REGULAR, .size = 34, .floor = FLOOR_BENCH, .colour = THEME_DIM};
    struct style worker = {
        .face = FACE_REGULAR, .size = 36, .floor = FLOOR_BENCH, .colour = THEME_LIGHT};
    SDL_Rect row;
    pen_fill(screen, box, THEME_DARK);
    box.x += px(screen, 40);
    box.w -= px(screen, 80);
    row = screen->portrait ? cut_top(&box, box.h / 2) : box;
    pen_text(screen, cut_left(&row, pen_width(screen, &name, view_label(LABEL_PROGRAM)) + 4), &name,
             view_label(LABEL_PROGRAM));
    cut_left(&row, px(screen, 60));
    if (screen->portrait) {
        worker.align = ALIGN_RIGHT;
        pen_text(screen, cell_across(row, 2, 0, px(screen, 20)), &bench, view->bench);
        pen_text(screen, cell_across(row, 2, 1, px(screen, 20)), &worker, view->worker);
        draw_status(screen, box, view);
        return;
    }
    row = draw_status(screen, row, view);
    worker.align = ALIGN_RIGHT;
    cut_right(&row, px(screen, 30));
    pen_text(screen, cell_across(row, 2, 0, px(screen, 20)), &bench, view->bench);
    pen_text(screen, cell_across(row, 2, 1, px(screen, 20)), &worker, view->worker);
}

static void draw_steps(struct screen *screen, SDL_Rect box, int step) {
    const int count = 6;
    for (int i = 0; i < count; i++) {
        SDL_Rect cell = cell_across(box, count, i, px(screen, 10));
        struct style style = {.face = i == step ? FACE_BOLD : FACE_REGULAR,
                              .size = 32,
                              .floor = FLOOR_BENCH,
                              .colour = i == step ? THEME_INK : THEME_SOFT};
        pen_fill(screen, cut_top(&cell, px(screen, 12)), i <= step ? THEME_BLUE : THEME_LINE);
        pen_text(screen, cell, &style, view_label((enum view_label)(LABEL_STEP_PAIR + i)));
    }
}

static const struct view_action *find_action(const struct view *view, enum view_action_id id) {
    for (size_t i = 0; i < view->action_count; i++) {
        if (view->action[i].id == id && view->action[i].enabled) {
            return &view->action[i];
        }
    }
    return NULL;
}

bool band_action(const struct view_action *action) {
    return action->id == ACTION_PRESS || action->id == ACTION_HELD;
}

static void draw_hint(struct screen *screen, SDL_Rect box, const struct view *view,
                      SDL_Color text) {
    const struct view_action *held = find_action(view, ACTION_HELD);
    struct style style = {.face = FACE_REGULAR, .size = 34, .floor = FLOOR_BENCH, .colour = text};
    if (held == NULL) {
        style.align = screen->portrait ? ALIGN_LEFT : ALIGN_RIGHT;
        pen_text(screen, box, &style, view->band_hint);
        return;
    }
    box = inset(box, px(screen, 14));
    pen_panel(screen, box, theme_tone(view->band_tone).fill, text, px(screen, 3));
    touch_add(screen, box, ACTION_HELD, held->argument);
    style.align = ALIGN_CENTRE;
    pen_text(screen, inset(box, px(screen, 12)), &style,
             view->band_hint[0] != '\0' ? view->band_hint : held->label);
}

static void draw_band(struct screen *screen, SDL_Rect box, const struct view *view) {
    struct theme_tone tone = theme_tone(view->band_tone);
    const struct view_action *press = find_action(view, ACTION_PRESS);
    struct style style = {.face = FACE_BOLD, .size = 58, .floor = FLOOR_BENCH, .colour = tone.text};
    int ring = px(screen, 100);
    bool hint = view->band_hint[0] != '\0' || find_action(view, ACTION_HELD) != NULL;
    pen_fill(screen, box, tone.fill);
    if (press != NULL) {
        touch_add(screen, box, ACTION_PRESS, press->argument);
    }
    box.x += px(screen, 40);
    box.w -= px(screen, 60);
    if (hint) {
        SDL_Rect side = screen->portrait ? cut_bottom(&box, box.h * 48 / 100)
                                         : cut_right(&box, box.w * 30 / 100);
        draw_hint(screen, side, view, tone.text);
    }
    if (view->band_button) {
        SDL_Rect cell = cut_left(&box, ring + px(screen, 40));
        int size = ring < cell.h - px(screen, 16) ? ring : cell.h - px(screen, 16);
        pen_shape(screen, SHAPE_RING,
                  (SDL_Rect){cell.x + px(screen, 10), cell.y + (cell.h - size) / 2, size, size},
                  tone.text);
    }
    pen_text(screen, box, &style, view->band);
}

void button_draw(struct screen *screen, SDL_Rect box, const struct view_action *action) {
    struct theme_tone tone = theme_tone(action->tone);
    bool plain = action->tone == TONE_PLAIN;
    bool desk = screen->body == VIEW_LOG || screen->body == VIEW_ENTRY;
    struct style style = {.face = FACE_BOLD,
                          .size = desk ? 26 : 34,
                          .floor = desk ? FLOOR_DESK : FLOOR_BENCH,
                          .colour = plain ? THEME_INK : tone.text,
                          .align = ALIGN_CENTRE};
    SDL_Rect text = inset(box, px(screen, 8));
    pen_panel(screen, box, plain ? THEME_PANEL : tone.fill, plain ? THEME_SOFT : tone.fill,
              px(screen, 3));
    touch_add(screen, box, action->id, action->argument);
    if (action->key[0] != '\0') {
        struct style key = {.face = FACE_MONO,
                            .size = desk ? 20 : 26,
                            .floor = desk ? FLOOR_DESK : FLOOR_BENCH,
                            .colour = plain ? THEME_SOFT : tone.text};
        SDL_Rect side = cut_left(&text, pen_width(screen, &key, action->key) + px(screen, 6));
        pen_text(screen, side, &key, action->key);
        cut_left(&text, px(screen, 6));
    }
    pen_text(screen, text, &style, action->label);
}

void buttons_draw(struct screen *screen, SDL_Rect *body, const struct view *view,
                  bool (*skip)(const struct view_action *action)) {
    const struct view_action *shown[VIEW_ACTIONS_MAX];
    bool desk = screen->body == VIEW_LOG || screen->body == VIEW_ENTRY;
    int across = screen->portrait ? (desk ? 4 : 2) : desk ? 7 : 4;
    int height = px(screen, desk ? 54 : 92);
    int gap = px(screen, desk ? 10 : 16);
    int count = 0;
    int rows;
    for (size_t i = 0; i < view->action_count; i++) {
        if (!skip(&view->action[i])) {
            shown[count++] = &view->action[i];
        }
    }
    if (count == 0) {
        return;
    }
    rows = (count + across - 1) / across;
    across = (count + rows - 1) / rows;
    SDL_Rect area = cut_bottom(body, rows * height + (rows - 1) * gap);
    cut_bottom(body, px(screen, 20));
    for (int i = 0; i < count; i++) {
        SDL_Rect row = cell_down(area, rows, i / across, gap);
        int in_row = i / across < rows - 1 ? across : count - across * (rows - 1);
        if (rows == 1 && row.w / in_row > px(screen, 430)) {
            row.w = px(screen, 430) * in_row;
        }
        button_draw(screen, cell_across(row, in_row, i % across, gap), shown[i]);
    }
}

void buttons_beside(struct screen *screen, SDL_Rect *row, const struct view *view) {
    const int width = px(screen, 320);
    const int height = row->h < px(screen, 92) ? row->h : px(screen, 92);
    for (size_t i = view->action_count; i > 0; i--) {
        if (!band_action(&view->action[i - 1])) {
            SDL_Rect box = cut_right(row, width);
            box.y += (box.h - height) / 2;
            box.h = height;
            button_draw(screen, box, &view->action[i - 1]);
            cut_right(row, px(screen, 20));
        }
    }
}

int buttons_count(const struct view *view) {
    int count = 0;
    for (size_t i = 0; i < view->action_count; i++) {
        count += band_action(&view->action[i]) ? 0 : 1;
    }
    return count;
}

SDL_Rect frame_draw(struct screen *screen, const struct view *view) {
    SDL_Rect all = {0, 0, screen->width, screen->height};
    bool portrait = screen->portrait;
    SDL_Rect header = cut_top(&all, px(screen, portrait ? 132 : 88));
    bool desk = view->body == VIEW_LOG || view->body == VIEW_ENTRY;
    SDL_Rect band = cut_bottom(&all, px(screen, desk ? 110 : portrait ? 236 : 168));
    pen_fill(screen, all, THEME_GROUND);
    draw_header(screen, header, view);
    draw_band(screen, band, view);
    all = inset(all, px(screen, 24));
    cut_left(&all, px(screen, 16));
    cut_right(&all, px(screen, 16));
    if (view->step >= 0) {
        draw_steps(screen, cut_top(&all, px(screen, 62)), view->step);
        cut_top(&all, px(screen, 18));
    }
    return all;
}
