// A form: labelled fields on the left, what may stand in the active one and what follows from all
// of them on the right; letters and digits to be touched below when they are asked for.

#include "pen.h"

#include <string.h>

#define ROWS_MAX 13 // of one column of fields

static void draw_text(struct screen *screen, SDL_Rect box, const struct view_form *form, int at) {
    bool active = at == form->active;
    bool fixed = form->field[at].fixed;
    struct style style = {.face = form->field[at].changed ? FACE_BOLD : FACE_REGULAR,
                          .size = 32,
                          .floor = FLOOR_DESK,
                          .colour = fixed ? THEME_SOFT : THEME_INK,
                          .one_line = true};
    const char *text = form->field[at].text;
    SDL_Rect inner = inset(box, px(screen, 6));
    SDL_Color fill = fixed ? THEME_GROUND : THEME_PANEL;
    bool wrong = form->field[at].tone == TONE_STOP;
    pen_panel(screen, box, wrong ? THEME_RED_PALE : fill,
              wrong    ? THEME_RED
              : active ? THEME_BLUE
                       : THEME_LINE,
              px(screen, active || wrong ? 4 : 2));
    cut_left(&inner, px(screen, 6));
    if (wrong) {
        int size = inner.h < px(screen, 36) ? inner.h : px(screen, 36);
        SDL_Rect sign = cut_right(&inner, size);
        pen_sign(screen, (SDL_Rect){sign.x, sign.y + (sign.h - size) / 2, size, size}, TONE_STOP);
    }
    int width = pen_width(screen, &style, text);
    if (active && form->field[at].selected && text[0] != '\0') {
        SDL_Rect behind = inner;
        behind.w = width + px(screen, 8) < inner.w ? width + px(screen, 8) : inner.w;
        pen_fill(screen, behind, THEME_BLUE_PALE);
    }
    pen_text(screen, inner, &style, text);
    if (active && !form->field[at].selected) {
        int x = inner.x + (width < inner.w - px(screen, 8) ? width : inner.w - px(screen, 8));
        pen_fill(screen, (SDL_Rect){x + px(screen, 3), inner.y, px(screen, 4), inner.h},
                 THEME_BLUE);
    }
}

static void draw_field(struct screen *screen, SDL_Rect box, const struct view_form *form, int at) {
    struct style label = {.face = FACE_REGULAR,
                          .size = 26,
                          .floor = FLOOR_DESK,
                          .colour = THEME_SOFT,
                          .align = ALIGN_RIGHT};
    struct style unit = {
        .face = FACE_REGULAR, .size = 22, .floor = FLOOR_DESK, .colour = THEME_SOFT};
    SDL_Rect left = cut_left(&box, box.w * 30 / 100);
    cut_right(&left, px(screen, 12));
    pen_text(screen, left, &label, form->field[at].label);
    SDL_Rect right = cut_right(&box, box.w * 30 / 100);
    cut_left(&right, px(screen, 12));
    pen_text(screen, right, &unit, form->field[at].unit);
    if (!form->field[at].fixed) {
        touch_add(screen, box, ACTION_FIELD, at);
    }
    draw_text(screen, box, form, at);
}

static void draw_fields(struct screen *screen, SDL_Rect box, const struct view_form *form) {
    int count = (int)form->field_count;
    int columns = (count + ROWS_MAX - 1) / ROWS_MAX;
    int rows = (count + columns - 1) / columns;
    int gap = px(screen, 10);
    int height = (box.h - (rows - 1) * gap) / rows;
    int most = px(screen, 62);
    if (height > most) {
        box.h = most * rows + gap * (rows - 1);
    }
    for (int i = 0; i < count; i++) {
        SDL_Rect column = cell_across(box, columns, i / rows, px(screen, 20));
        draw_field(screen, cell_down(column, rows, i % rows, gap), form, i);
    }
}

static void draw_choices(struct screen *screen, SDL_Rect *side, const struct view_form *form) {
    int count = (int)form->choice_count;
    int rows = (count + 1) / 2;
    int gap = px(screen, 10);
    struct style style = {.face = FACE_BOLD,
                          .size = 28,
                          .floor = FLOOR_DESK,
                          .colour = THEME_INK,
                          .align = ALIGN_CENTRE};
    if (count == 0) {
        return;
    }
    SDL_Rect area = cut_top(side, rows * px(screen, 54) + (rows - 1) * gap);
    cut_top(side, px(screen, 18));
    for (int i = 0; i < count; i++) {
        SDL_Rect box = cell_across(cell_down(area, rows, i / 2, gap), 2, i % 2, gap);
        bool now = strcmp(form->choice[i], form->field[form->active].text) == 0;
        pen_panel(screen, box, now ? THEME_BLUE_PALE : THEME_GROUND, now ? THEME_BLUE : THEME_SOFT,
                  px(screen, now ? 4 : 2));
        touch_add(screen, box, ACTION_CHOICE, i);
        pen_text(screen, inset(box, px(screen, 6)), &style, form->choice[i]);
    }
}

static void draw_notes(struct screen *screen, SDL_Rect box, const struct view_form *form) {
    struct flow flow = {.floor = FLOOR_DESK};
    for (size_t i = 0; i < form->note_count; i++) {
        enum view_tone tone = form->note_tone[i];
        flow_add(&flow, (struct flow_line){.text = form->note[i],
                                           .face = tone == TONE_STOP ? FACE_BOLD : FACE_REGULAR,
                                           .size = 28,
                                           .colour = THEME_INK,
                                           .before = i == 0 ? 0 : 8,
                                           .bullet = tone == TONE_PLAIN ? BULLET_NONE : BULLET_SIGN,
                                           .tone = tone});
    }
    flow_draw(screen, box, &flow);
}

static void draw_side(struct screen *screen, SDL_Rect box, const struct view_form *form) {
    pen_panel(screen, box, THEME_PANEL, THEME_LINE, px(screen, 2));
    box = inset(box, px(screen, 20));
    draw_choices(screen, &box, form);
    if (form->plot_count > 0) {
        SDL_Rect plots = cut_bottom(&box, box.h * 45 / 100);
        cut_bottom(&box, px(screen, 12));
        for (size_t i = 0; i < form->plot_count; i++) {
            plot_draw(screen, cell_across(plots, (int)form->plot_count, (int)i, px(screen, 14)),
                      &form->plot[i]);
        }
    }
    draw_notes(screen, box, form);
}

// The US layout, since that is what scanners and the typed fields go by.
static void draw_keys(struct screen *screen, SDL_Rect box) {
    static const char *const rows[] = {"1234567890-", "QWERTYUIOP/", "ASDFGHJKL.,", "ZXCVBNM \b\n"};
    struct style style = {.face = FACE_BOLD,
                          .size = 34,
                          .floor = FLOOR_DESK,
                          .colour = THEME_INK,
                          .align = ALIGN_CENTRE};
    for (int row = 0; row < 4; row++) {
        SDL_Rect line = cell_down(box, 4, row, px(screen, 8));
        int count = (int)strlen(rows[row]);
        for (int i = 0; i < count; i++) {
            char text[2] = {rows[row][i], '\0'};
            SDL_Rect key = cell_across(line, count, i, px(screen, 8));
            const char *label = text[0] == '\b'   ? "<"
                                : text[0] == '\n' ? "OK"
                                : text[0] == ' '  ? "_"
                                                  : text;
            pen_panel(screen, key, THEME_PANEL, THEME_SOFT, px(screen, 2));
            touch_add(screen, key, ACTION_KEY, text[0]);
            pen_text(screen, key, &style, label);
        }
    }
}

void draw_form(struct screen *screen, SDL_Rect body, const struct view *view) {
    const struct view_form *form = &view->form;
    struct style title = {.face = FACE_BOLD, .size = 50, .floor = FLOOR_DESK, .colour = THEME_INK};
    struct style line = {
        .face = FACE_REGULAR, .size = 34, .floor = FLOOR_DESK, .colour = THEME_SOFT};
    SDL_Rect head = cut_top(&body, px(screen, 70));
    pen_text(screen, cut_left(&head, pen_width(screen, &title, form->title) + px(screen, 30)),
             &title, form->title);
    pen_text(screen, head, &line, form->subtitle);
    cut_top(&body, px(screen, 8));
    buttons_draw(screen, &body, view, band_action);
    if (form->keys) {
        draw_keys(screen, cut_bottom(&body, px(screen, screen->portrait ? 380 : 280)));
        cut_bottom(&body, px(screen, 16));
    }
    SDL_Rect side = screen->portrait ? cut_bottom(&body, body.h * 42 / 100)
                                     : cut_right(&body, body.w * 36 / 100);
    if (screen->portrait) {
        cut_bottom(&body, px(screen, 18));
    } else {
        cut_right(&body, px(screen, 20));
    }
    draw_fields(screen, body, form);
    draw_side(screen, side, form);
}
