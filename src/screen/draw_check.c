// What a scanner sent: the facts, the verdict, and what to change.

#include "pen.h"

static void draw_facts(struct screen *screen, SDL_Rect box, const struct view_check *check) {
    struct flow flow = {.floor = FLOOR_BENCH};
    pen_panel(screen, box, screen->theme->panel, screen->theme->line, px(screen, 2));
    for (size_t i = 0; i < check->fact_count; i++) {
        flow_add(&flow, (struct flow_line){.text = check->fact[i].name,
                                           .face = FACE_REGULAR,
                                           .size = 28,
                                           .colour = screen->theme->soft,
                                           .before = i == 0 ? 0 : 12});
        flow_add(&flow, (struct flow_line){.text = check->fact[i].value,
                                           .face = FACE_BOLD,
                                           .size = 34,
                                           .colour = screen->theme->ink,
                                           .before = 2});
    }
    flow_draw(screen, inset(box, px(screen, 26)), &flow);
}

static void draw_verdict(struct screen *screen, SDL_Rect box, const struct view_check *check) {
    struct flow flow = {.floor = FLOOR_BENCH};
    pen_panel(screen, box, theme_tone(screen->theme, check->tone).pale,
              theme_tone(screen->theme, check->tone).line, px(screen, 4));
    flow_add(&flow, (struct flow_line){.text = check->verdict,
                                       .face = FACE_BOLD,
                                       .size = 48,
                                       .must = true,
                                       .colour = screen->theme->ink,
                                       .bullet = BULLET_SIGN,
                                       .tone = check->tone});
    for (size_t i = 0; i < check->advice_count; i++) {
        flow_add(&flow, (struct flow_line){.text = check->advice[i],
                                           .face = FACE_REGULAR,
                                           .size = 38,
                                           .colour = screen->theme->ink,
                                           .before = 18,
                                           .bullet = BULLET_DOT});
    }
    flow_draw(screen, inset(box, px(screen, 30)), &flow);
}

void draw_check(struct screen *screen, SDL_Rect body, const struct view *view) {
    struct heading heading = {
        .title = {.face = FACE_BOLD,
                  .size = 76,
                  .floor = FLOOR_BENCH,
                  .colour = screen->theme->ink,
                  .must = true},
        .title_height = 110,
        .line = {.face = FACE_REGULAR,
                 .size = 44,
                 .floor = FLOOR_BENCH,
                 .colour = screen->theme->soft},
        .line_height = screen->portrait ? 110 : 64,
    };
    int gap = px(screen, 28);
    heading_draw(screen, &body, view, &heading);
    cut_top(&body, px(screen, 14));
    if (view->check.fact_count == 0) {
        return;
    }
    for (int i = 0; i < 2; i++) {
        SDL_Rect box = screen->portrait ? cell_down(body, 2, i, gap) : cell_across(body, 2, i, gap);
        i == 0 ? draw_facts(screen, box, &view->check) : draw_verdict(screen, box, &view->check);
    }
}
