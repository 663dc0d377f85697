// A panel with its sign, what happened, and what to do: holds, questions, logged, not logged.

#include "pen.h"

static void draw_kept_mark(struct screen *screen, SDL_Rect box, const struct view_notice *notice) {
    struct style label = {
        .face = FACE_BOLD, .size = 36, .floor = FLOOR_BENCH, .colour = screen->theme->ink};
    struct style unit = {
        .face = FACE_BOLD, .size = 44, .floor = FLOOR_BENCH, .colour = screen->theme->ink};
    pen_panel(screen, box, screen->theme->panel, theme_tone(screen->theme, notice->tone).line,
              px(screen, 4));
    box = inset(box, px(screen, 22));
    pen_text(screen, cut_top(&box, px(screen, 50)), &label, notice->mark_label);
    pen_text(screen, cut_bottom(&box, px(screen, 56)), &unit, notice->mark.inches);
    mark_in_box(screen, &notice->mark, inset(box, px(screen, 10)), px(screen, 270),
                screen->theme->ink);
}

static void fill_flow(const struct screen *screen, struct flow *flow,
                      const struct view_notice *notice) {
    flow_add(flow, (struct flow_line){.text = notice->title,
                                      .face = FACE_BOLD,
                                      .size = 60,
                                      .must = true,
                                      .colour = screen->theme->ink});
    for (size_t i = 0; i < notice->line_count; i++) {
        flow_add(flow, (struct flow_line){.text = notice->line[i],
                                          .face = FACE_REGULAR,
                                          .size = 44,
                                          .colour = screen->theme->ink,
                                          .before = i == 0 ? 14 : 8});
    }
    if (notice->todo_count > 0) {
        flow_add(flow, (struct flow_line){.text = notice->todo_title,
                                          .face = FACE_BOLD,
                                          .size = 44,
                                          .colour = screen->theme->ink,
                                          .before = 34});
    }
    for (size_t i = 0; i < notice->todo_count; i++) {
        flow_add(flow, (struct flow_line){.text = notice->todo[i],
                                          .face = FACE_REGULAR,
                                          .size = 44,
                                          .colour = screen->theme->ink,
                                          .before = 8,
                                          .bullet = BULLET_NUMBER,
                                          .number = (int)i + 1});
    }
}

void draw_notice(struct screen *screen, SDL_Rect body, const struct view *view) {
    const struct view_notice *notice = &view->notice;
    struct theme_tone tone = theme_tone(screen->theme, notice->tone);
    struct style foot = {
        .face = FACE_REGULAR, .size = 32, .floor = FLOOR_BENCH, .colour = screen->theme->soft};
    struct flow flow = {.floor = FLOOR_BENCH};
    int sign = px(screen, screen->portrait ? 150 : 180);
    SDL_Rect side;
    bool choices = buttons_count(view) > (screen->portrait ? 1 : 2);
    if (choices) {
        buttons_draw(screen, &body, view, band_action);
    }
    pen_panel(screen, body, tone.pale, tone.line, px(screen, 6));
    body = inset(body, px(screen, 34));
    if (notice->foot[0] != '\0' || (!choices && buttons_count(view) > 0)) {
        side = cut_bottom(&body,
                          choices && !screen->portrait ? px(screen, 48) : touch_size(screen, 96));
        if (!choices) {
            buttons_beside(screen, &side, view);
        }
        pen_text(screen, side, &foot, notice->foot);
        cut_bottom(&body, px(screen, 8));
    }
    if (notice->has_mark) {
        SDL_Rect mark = screen->portrait ? cut_bottom(&body, body.h * 36 / 100)
                                         : cut_hand(screen, &body, body.w * 32 / 100);
        draw_kept_mark(screen, mark, notice);
        if (screen->portrait) {
            cut_bottom(&body, px(screen, 20));
        } else {
            cut_hand(screen, &body, px(screen, 30));
        }
    }
    side = screen->portrait ? cut_top(&body, sign + px(screen, 20))
                            : cut_left(&body, sign + px(screen, 36));
    pen_sign(screen, (SDL_Rect){side.x, side.y, sign, sign}, notice->tone);
    fill_flow(screen, &flow, notice);
    flow_draw(screen, body, &flow);
}
