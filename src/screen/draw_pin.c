// A supervisor's PIN: dots, never digits.

#include "pen.h"

#define DOTS 12

static void draw_dots(struct screen *screen, SDL_Rect box, int digits) {
    int size = px(screen, 34);
    int step = box.w / DOTS < size * 3 / 2 ? box.w / DOTS : size * 3 / 2;
    size = step * 2 / 3;
    for (int i = 0; i < digits && i < DOTS; i++) {
        pen_shape(screen, SHAPE_DISC,
                  (SDL_Rect){box.x + i * step, box.y + (box.h - size) / 2, size, size},
                  screen->theme->ink);
    }
}

void draw_pin(struct screen *screen, SDL_Rect body, const struct view *view) {
    struct flow flow = {.floor = FLOOR_BENCH};
    SDL_Rect keys;
    int gap = px(screen, 40);
    SDL_Rect field;
    keys = screen->portrait ? cut_bottom(&body, body.h * 52 / 100)
                            : cut_hand(screen, &body, body.w * 42 / 100);
    if (screen->portrait) {
        cut_bottom(&body, gap);
    } else {
        cut_hand(screen, &body, gap);
    }
    keypad_draw(screen, keys, false);
    field = cut_bottom(&body, touch_size(screen, 120));
    buttons_beside(screen, &field, view);
    pen_panel(screen, field, screen->theme->panel, screen->theme->work.fill, px(screen, 5));
    draw_dots(screen, inset(field, px(screen, 26)), view->pin_digits);
    cut_bottom(&body, px(screen, 24));
    flow_add(&flow, (struct flow_line){.text = view->title,
                                       .must = true,
                                       .face = FACE_BOLD,
                                       .size = 66,
                                       .colour = screen->theme->ink});
    flow_add(&flow, (struct flow_line){.text = view->subtitle,
                                       .face = FACE_REGULAR,
                                       .size = 46,
                                       .colour = screen->theme->soft,
                                       .before = 12});
    flow_add(&flow, (struct flow_line){.text = view->pin_message,
                                       .face = FACE_BOLD,
                                       .size = 42,
                                       .colour = screen->theme->stop.fill,
                                       .bullet = BULLET_SIGN,
                                       .tone = TONE_STOP,
                                       .before = 30});
    flow_draw(screen, body, &flow);
}
