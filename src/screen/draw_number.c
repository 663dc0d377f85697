// A number to be entered: the question, the fields, quick picks, the keypad with its sixteenths.

#include "pen.h"

static void draw_field(struct screen *screen, SDL_Rect box, const struct view_field *field,
                       int at) {
    struct style label = {
        .face = FACE_REGULAR, .size = 32, .floor = FLOOR_BENCH, .colour = screen->theme->soft};
    struct style text = {.face = FACE_MONO_BOLD,
                         .size = 58,
                         .must = true,
                         .floor = FLOOR_BENCH,
                         .colour = screen->theme->ink};
    SDL_Rect name = cut_top(&box, px(screen, 42));
    SDL_Rect inner;
    int width;
    pen_text(screen, name, &label, field->label);
    pen_panel(screen, box, field->active ? screen->theme->work.pale : screen->theme->panel,
              field->active ? screen->theme->work.fill : screen->theme->soft,
              px(screen, field->active ? 5 : 2));
    touch_add(screen, box, ACTION_FIELD, at);
    inner = inset(box, px(screen, 14));
    pen_text(screen, inner, &text, field->text);
    width = field->text[0] != '\0' ? pen_width(screen, &text, field->text) : 0;
    if (field->active && width < inner.w) {
        pen_fill(screen,
                 (SDL_Rect){inner.x + width + px(screen, 4), inner.y + inner.h / 6, px(screen, 4),
                            inner.h * 2 / 3},
                 screen->theme->work.fill);
    }
}

static void draw_picks(struct screen *screen, SDL_Rect box, const struct view_number *number) {
    for (size_t i = 0; i < number->pick_count; i++) {
        SDL_Rect cell = cell_across(box, (int)number->pick_count, (int)i, px(screen, 12));
        bool chosen = number->pick[i].chosen;
        pen_panel(screen, cell, chosen ? screen->theme->work.fill : screen->theme->panel,
                  number->pick[i].planned ? screen->theme->work.fill : screen->theme->soft,
                  px(screen, number->pick[i].planned ? 6 : 2));
        touch_add(screen, cell, ACTION_PICK, number->pick[i].mark.value);
        mark_in_box(screen, &number->pick[i].mark, inset(cell, px(screen, 16)), px(screen, 60),
                    chosen ? screen->theme->light : screen->theme->ink);
        if (number->pick[i].planned) {
            int size = px(screen, 30);
            pen_shape(screen, SHAPE_MARK,
                      (SDL_Rect){cell.x + (cell.w - size) / 2, cell.y - size / 4, size, size},
                      screen->theme->stop.fill);
        }
    }
}

static void draw_sixteenths(struct screen *screen, SDL_Rect box) {
    const int across = 3;
    for (int n = 1; n <= 15; n++) {
        struct view_mark mark = {.fraction = true};
        SDL_Rect cell = cell_across(cell_down(box, 5, (n - 1) / across, px(screen, 10)), across,
                                    (n - 1) % across, px(screen, 10));
        length_split(n * (LENGTH_INCH / 16), &mark.split);
        pen_panel(screen, cell, screen->theme->panel, screen->theme->soft, px(screen, 2));
        touch_add(screen, cell, ACTION_KEY, VIEW_KEY_SIXTEENTH + n);
        mark_in_box(screen, &mark, inset(cell, px(screen, 8)), px(screen, 70), screen->theme->ink);
    }
}

static void draw_words(struct screen *screen, SDL_Rect box, const struct view_number *number) {
    struct flow flow = {.floor = FLOOR_BENCH};
    bool wrong = number->error[0] != '\0';
    const char *say = wrong ? number->error : number->result;
    flow_add(&flow, (struct flow_line){.text = number->question,
                                       .face = FACE_BOLD,
                                       .size = 52,
                                       .must = true,
                                       .colour = screen->theme->ink});
    flow_add(&flow, (struct flow_line){.text = number->help,
                                       .face = FACE_REGULAR,
                                       .size = 36,
                                       .colour = screen->theme->soft,
                                       .before = 12});
    if (say[0] != '\0') {
        enum view_tone tone = wrong ? TONE_STOP : number->result_tone;
        flow_add(&flow, (struct flow_line){.text = say,
                                           .face = FACE_BOLD,
                                           .size = 44,
                                           .must = true,
                                           .colour = tone == TONE_STOP   ? screen->theme->stop.fill
                                                     : tone == TONE_FINE ? screen->theme->fine.fill
                                                                         : screen->theme->ink,
                                           .bullet = tone == TONE_PLAIN ? BULLET_NONE : BULLET_SIGN,
                                           .tone = tone,
                                           .boxed = tone == TONE_CAUTION,
                                           .before = 24});
    }
    flow_draw(screen, box, &flow);
}

// One field leaves room for the buttons beside it; two stand above them.
static void draw_fields(struct screen *screen, SDL_Rect *body, const struct view *view) {
    const struct view_number *number = &view->number;
    SDL_Rect row = cut_bottom(body, touch_size(screen, 96));
    SDL_Rect fields;
    buttons_beside(screen, &row, view);
    if (number->field_count > 1) {
        cut_bottom(body, px(screen, 14));
        fields = cut_bottom(body, touch_size(screen, 100) + px(screen, 42));
    } else {
        fields = cut_bottom(body, px(screen, 46));
        fields.h += row.h;
        fields.x = row.x;
        fields.w = row.w;
    }
    for (size_t i = 0; i < number->field_count; i++) {
        draw_field(screen, cell_across(fields, (int)number->field_count, (int)i, px(screen, 20)),
                   &number->field[i], (int)i);
    }
    cut_bottom(body, px(screen, 14));
}

void draw_number(struct screen *screen, SDL_Rect body, const struct view *view) {
    const struct view_number *number = &view->number;
    int gap = px(screen, 28);
    SDL_Rect keys;
    if (screen->portrait) {
        int least = 5 * screen->target + px(screen, 5 * 10);
        keys = cut_bottom(&body, SDL_max(body.h * 46 / 100, least));
        cut_bottom(&body, gap);
    } else {
        int least = 6 * screen->target + px(screen, 5 * 10 + 24);
        keys = cut_hand(screen, &body, SDL_max(body.w * 46 / 100, least));
        cut_hand(screen, &body, gap);
    }
    keypad_draw(screen, cell_across(keys, 2, 0, px(screen, 24)), true);
    draw_sixteenths(screen, cell_across(keys, 2, 1, px(screen, 24)));
    if (number->pick_count > 0) {
        draw_picks(screen, cut_bottom(&body, touch_size(screen, 120)), number);
        cut_bottom(&body, px(screen, 18));
    }
    draw_fields(screen, &body, view);
    draw_words(screen, body, number);
}
