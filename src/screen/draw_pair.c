// One part scanned, the other expected: two cards, the empty one says what to scan.

#include "pen.h"

// A barcode's bars, to say "scan" without a word.
static void draw_bars(struct screen *screen, SDL_Rect box, SDL_Color colour) {
    static const int bars[] = {3, 1, 2, 1, 1, 2, 4, 1, 1, 3, 2, 1, 3, 1, 1, 2, 2, 4, 1, 1, 3};
    int total = 0;
    int at = 0;
    for (size_t i = 0; i < sizeof bars / sizeof bars[0]; i++) {
        total += bars[i];
    }
    for (size_t i = 0; i < sizeof bars / sizeof bars[0]; i++) {
        int left = box.w * at / total;
        int right = box.w * (at + bars[i]) / total;
        if (i % 2 == 0) {
            pen_fill(screen, (SDL_Rect){box.x + left, box.y, right - left, box.h}, colour);
        }
        at += bars[i];
    }
}

static void draw_card(struct screen *screen, SDL_Rect box, const struct view_card *card) {
    struct flow flow = {.floor = FLOOR_BENCH};
    int sign = px(screen, 92);
    SDL_Rect top;
    pen_panel(screen, box, card->filled ? screen->theme->panel : screen->theme->work.pale,
              card->filled ? screen->theme->line : screen->theme->work.fill,
              px(screen, card->filled ? 2 : 6));
    box = inset(box, px(screen, 36));
    top = cut_top(&box, sign);
    cut_top(&box, px(screen, 20));
    if (card->filled) {
        pen_sign(screen, (SDL_Rect){top.x, top.y, sign, sign}, TONE_FINE);
    } else {
        draw_bars(screen, (SDL_Rect){top.x, top.y, sign * 2, sign}, screen->theme->work.fill);
    }
    flow_add(&flow, (struct flow_line){.text = card->title,
                                       .face = FACE_BOLD,
                                       .size = 58,
                                       .colour = card->filled ? screen->theme->ink
                                                              : screen->theme->work.fill});
    for (size_t i = 0; i < card->line_count; i++) {
        flow_add(&flow, (struct flow_line){.text = card->line[i],
                                           .face = FACE_REGULAR,
                                           .size = 42,
                                           .colour = screen->theme->ink,
                                           .before = 14});
    }
    flow_draw(screen, box, &flow);
}

void draw_pair(struct screen *screen, SDL_Rect body, const struct view *view) {
    struct heading heading = {
        .title = {.face = FACE_BOLD,
                  .size = 76,
                  .floor = FLOOR_BENCH,
                  .colour = screen->theme->ink,
                  .must = true},
        .title_height = screen->portrait ? 190 : 96,
        .line = {.face = FACE_REGULAR,
                 .size = 44,
                 .floor = FLOOR_BENCH,
                 .colour = screen->theme->soft},
        .line_height = 60,
    };
    int gap = px(screen, 28);
    heading_draw(screen, &body, view, &heading);
    cut_top(&body, px(screen, 14));
    preview_draw(screen, &body, &view->preview);
    for (int i = 0; i < 2; i++) {
        draw_card(screen,
                  screen->portrait ? cell_down(body, 2, i, gap) : cell_across(body, 2, i, gap),
                  &view->card[i]);
    }
}
