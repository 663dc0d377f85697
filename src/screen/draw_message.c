// Signed out and ready: the one thing to do, the queue, today's counts.

#include "labels.h"
#include "pen.h"

#include <stdio.h>

#define QUEUE_COLUMNS 5

static void draw_row(struct screen *screen, SDL_Rect row, const char *const cells[QUEUE_COLUMNS],
                     const struct style *style) {
    static const int share[QUEUE_COLUMNS] = {18, 18, 24, 24, 16};
    int x = row.x;
    for (int i = 0; i < QUEUE_COLUMNS; i++) {
        int width = row.w * share[i] / 100;
        pen_text(screen, (SDL_Rect){x, row.y, width - px(screen, 12), row.h}, style, cells[i]);
        x += width;
    }
}

static void draw_queue(struct screen *screen, SDL_Rect box, const struct view *view) {
    struct style title = {.face = FACE_BOLD, .size = 40, .floor = FLOOR_BENCH, .colour = THEME_INK};
    struct style head = {
        .face = FACE_REGULAR, .size = 30, .floor = FLOOR_BENCH, .colour = THEME_SOFT};
    struct style cell = {
        .face = FACE_REGULAR, .size = 38, .floor = FLOOR_BENCH, .colour = THEME_INK};
    const char *const heads[QUEUE_COLUMNS] = {view_label(LABEL_BUILD), view_label(LABEL_CLUB),
                                              view_label(LABEL_HEAD), view_label(LABEL_SHAFT),
                                              view_label(LABEL_DUE)};
    int row = px(screen, 58);
    pen_panel(screen, box, THEME_PANEL, THEME_LINE, px(screen, 2));
    box = inset(box, px(screen, 30));
    pen_text(screen, cut_top(&box, px(screen, 52)), &title, view_label(LABEL_NEXT_HERE));
    cut_top(&box, px(screen, 8));
    if (view->queue_count == 0) {
        cell.top = true;
        pen_text(screen, box, &cell, view_label(LABEL_NOTHING_NEXT));
        return;
    }
    draw_row(screen, cut_top(&box, px(screen, 44)), heads, &head);
    for (size_t i = 0; i < view->queue_count && box.h >= row; i++) {
        const struct view_queue_row *line = &view->queue[i];
        const char *const cells[QUEUE_COLUMNS] = {line->build, line->club, line->head, line->shaft,
                                                  line->due};
        draw_row(screen, cut_top(&box, row), cells, &cell);
        pen_fill(screen, (SDL_Rect){box.x, box.y - px(screen, 2), box.w, px(screen, 2)},
                 THEME_LINE);
    }
}

static void draw_today(struct screen *screen, SDL_Rect box, const struct view_today *today) {
    const struct {
        enum view_label label;
        int64_t count;
    } lines[] = {{LABEL_CLUBS_CUT, today->clubs},
                 {LABEL_CUTS_LOGGED, today->cuts},
                 {LABEL_OUT, today->out},
                 {LABEL_HOLDS, today->holds}};
    struct style title = {.face = FACE_BOLD, .size = 40, .floor = FLOOR_BENCH, .colour = THEME_INK};
    struct style name = {
        .face = FACE_REGULAR, .size = 36, .floor = FLOOR_BENCH, .colour = THEME_INK};
    struct style number = {.face = FACE_BOLD,
                           .size = 58,
                           .floor = FLOOR_BENCH,
                           .colour = THEME_INK,
                           .align = ALIGN_RIGHT};
    pen_panel(screen, box, THEME_PANEL, THEME_LINE, px(screen, 2));
    box = inset(box, px(screen, 30));
    pen_text(screen, cut_top(&box, px(screen, 52)), &title, view_label(LABEL_TODAY));
    for (int i = 0; i < 4; i++) {
        char text[24];
        SDL_Rect row = cell_down(box, 4, i, 0);
        SDL_Rect right = cut_right(&row, row.w * 32 / 100);
        snprintf(text, sizeof text, "%lld", (long long)lines[i].count);
        pen_text(screen, row, &name, view_label(lines[i].label));
        pen_text(screen, right, &number, text);
    }
}

void draw_message(struct screen *screen, SDL_Rect body, const struct view *view) {
    struct style title = {.face = FACE_BOLD, .size = 96, .floor = FLOOR_BENCH, .colour = THEME_INK};
    struct style line = {
        .face = FACE_REGULAR, .size = 48, .floor = FLOOR_BENCH, .colour = THEME_SOFT};
    struct style typed = {
        .face = FACE_MONO_BOLD, .size = 60, .floor = FLOOR_BENCH, .colour = THEME_BLUE};
    int gap = px(screen, 28);
    SDL_Rect today;
    SDL_Rect top;
    if (screen->portrait) {
        buttons_draw(screen, &body, view, band_action);
    }
    cut_top(&body, px(screen, 10));
    top = cut_top(&body, px(screen, screen->portrait ? 250 : 130));
    if (!screen->portrait) {
        buttons_beside(screen, &top, view);
    }
    pen_text(screen, top, &title, view->title);
    if (view->typed[0] != '\0') {
        pen_text(screen, cut_top(&body, px(screen, 76)), &typed, view->typed);
    } else {
        pen_text(screen, cut_top(&body, px(screen, 76)), &line, view->subtitle);
    }
    cut_top(&body, px(screen, 20));
    today = screen->portrait ? cut_bottom(&body, body.h * 38 / 100)
                             : cut_right(&body, body.w * 31 / 100);
    if (screen->portrait) {
        cut_bottom(&body, gap);
    } else {
        cut_right(&body, gap);
    }
    draw_queue(screen, body, view);
    draw_today(screen, today, &view->today);
}
