// The care reminder for the material, before the wheel turns.

#include "pen.h"

void draw_care(struct screen *screen, SDL_Rect body, const struct view *view) {
    const struct view_care *care = &view->care;
    struct flow flow = {.floor = FLOOR_BENCH};
    struct style foot = {
        .face = FACE_REGULAR, .size = 30, .floor = FLOOR_BENCH, .colour = screen->theme->soft};
    int sign = px(screen, screen->portrait ? 150 : 190);
    SDL_Rect side;
    pen_panel(screen, body, screen->theme->caution.pale, screen->theme->caution.line,
              px(screen, 6));
    body = inset(body, px(screen, 26));
    struct style least = foot;
    least.size = FLOOR_BENCH;
    int room = touch_size(screen, screen->portrait ? 170 : 96);
    int width = buttons_beside_leave(screen, body.w, view);
    int words = screen->must == 0 ? pen_height(screen, &least, care->foot, width) : 0;
    side = cut_bottom(&body, SDL_max(room, words));
    buttons_beside(screen, &side, view);
    pen_text(screen, side, &foot, care->foot);
    cut_bottom(&body, px(screen, 10));
    side = screen->portrait ? cut_top(&body, sign) : cut_left(&body, sign + px(screen, 30));
    pen_sign(screen, (SDL_Rect){side.x, side.y, sign, sign}, TONE_CAUTION);
    flow_add(&flow, (struct flow_line){.text = care->title,
                                       .must = true,
                                       .face = FACE_BOLD,
                                       .size = 62,
                                       .colour = screen->theme->ink});
    flow_add(&flow, (struct flow_line){.text = care->lead,
                                       .face = FACE_REGULAR,
                                       .size = 38,
                                       .colour = screen->theme->soft,
                                       .before = 4});
    for (size_t i = 0; i < care->count; i++) {
        flow_add(&flow, (struct flow_line){.text = care->bullet[i],
                                           .face = FACE_REGULAR,
                                           .size = 46,
                                           .colour = screen->theme->ink,
                                           .before = i == 0 ? 16 : 8,
                                           .bullet = BULLET_DOT});
    }
    flow_draw(screen, body, &flow);
}
