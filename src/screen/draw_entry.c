// One entry of the log with every field, and its plan as the worker saw it.

#include "labels.h"
#include "pen.h"

static void draw_facts(struct screen *screen, SDL_Rect box, const struct view_entry *entry) {
    struct flow flow = {.floor = FLOOR_DESK};
    pen_panel(screen, box, screen->theme->panel, screen->theme->line, px(screen, 2));
    for (size_t i = 0; i < entry->fact_count; i++) {
        flow_add(&flow, (struct flow_line){.text = entry->fact[i],
                                           .face = FACE_REGULAR,
                                           .size = 29,
                                           .colour = screen->theme->ink,
                                           .before = i == 0 ? 0 : 6});
    }
    for (size_t i = 0; i < entry->said_count; i++) {
        if (i == 0) {
            flow_add(&flow, (struct flow_line){.text = view_label(LABEL_SAID),
                                               .face = FACE_BOLD,
                                               .size = 29,
                                               .colour = screen->theme->ink,
                                               .before = 20});
        }
        flow_add(&flow, (struct flow_line){.text = entry->said[i],
                                           .face = FACE_REGULAR,
                                           .size = 29,
                                           .colour = screen->theme->ink,
                                           .before = 6});
    }
    flow_draw(screen, inset(box, px(screen, 26)), &flow);
}

static void draw_plan(struct screen *screen, SDL_Rect box, const struct view_entry *entry) {
    struct flow flow = {.floor = FLOOR_DESK};
    pen_panel(screen, box, screen->theme->panel, screen->theme->line, px(screen, 2));
    flow_add(&flow, (struct flow_line){.text = view_label(LABEL_WHY_PLAN),
                                       .face = FACE_BOLD,
                                       .size = 32,
                                       .colour = screen->theme->ink});
    for (size_t i = 0; i < entry->receipt_count; i++) {
        flow_add(&flow, (struct flow_line){.text = entry->receipt[i].text,
                                           .right = entry->receipt[i].amount,
                                           .face = FACE_REGULAR,
                                           .size = 28,
                                           .colour = screen->theme->ink,
                                           .before = 10});
    }
    flow_add(&flow, (struct flow_line){.text = entry->total.text,
                                       .right = entry->total.amount,
                                       .face = FACE_BOLD,
                                       .size = 30,
                                       .colour = screen->theme->ink,
                                       .before = 22,
                                       .rule = entry->receipt_count > 0});
    for (size_t i = 0; i < entry->plan_count; i++) {
        flow_add(&flow, (struct flow_line){.text = entry->plan[i].text,
                                           .right = entry->plan[i].amount,
                                           .face = FACE_REGULAR,
                                           .size = 26,
                                           .colour = screen->theme->soft,
                                           .before = i == 0 ? 20 : 6});
    }
    for (size_t i = 0; i < entry->estimate_count; i++) {
        flow_add(&flow, (struct flow_line){.text = entry->estimate[i],
                                           .face = FACE_REGULAR,
                                           .size = 26,
                                           .colour = screen->theme->soft,
                                           .before = i == 0 ? 16 : 6});
    }
    for (size_t i = 0; i < entry->warning_count; i++) {
        flow_add(&flow, (struct flow_line){.text = entry->warning[i],
                                           .face = FACE_REGULAR,
                                           .size = 28,
                                           .colour = screen->theme->ink,
                                           .before = i == 0 ? 16 : 4,
                                           .bullet = BULLET_SIGN,
                                           .tone = TONE_CAUTION,
                                           .boxed = true});
    }
    flow_draw(screen, inset(box, px(screen, 26)), &flow);
}

void draw_entry(struct screen *screen, SDL_Rect body, const struct view *view) {
    struct style title = {
        .face = FACE_BOLD, .size = 50, .floor = FLOOR_DESK, .colour = screen->theme->ink};
    int gap = px(screen, 20);
    buttons_draw(screen, &body, view, band_action);
    pen_text(screen, cut_top(&body, px(screen, 70)), &title, view->entry.title);
    if (screen->portrait) {
        draw_facts(screen, cell_down(body, 2, 0, gap), &view->entry);
        draw_plan(screen, cell_down(body, 2, 1, gap), &view->entry);
    } else {
        draw_facts(screen, cut_off_hand(screen, &body, body.w * 40 / 100), &view->entry);
        cut_off_hand(screen, &body, gap);
        draw_plan(screen, body, &view->entry);
    }
}
