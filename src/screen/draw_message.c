// Signed out and ready: the one thing to do, the queue, today's counts.

#include "labels.h"
#include "pen.h"
#include "text.h"

#include <stdio.h>
#include <string.h>

#define QUEUE_COLUMNS 5

static void fill_table(struct table *table, const struct view *view) {
    static const enum view_label heads[QUEUE_COLUMNS] = {LABEL_BUILD, LABEL_CLUB, LABEL_HEAD,
                                                         LABEL_SHAFT, LABEL_DUE};
    for (int i = 0; i < QUEUE_COLUMNS; i++) {
        table->cell[0][i] = view_label(heads[i]);
    }
    for (size_t i = 0; i < view->queue_count; i++) {
        const struct view_queue_row *row = &view->queue[i];
        const char *const cells[QUEUE_COLUMNS] = {row->build, row->club, row->head, row->shaft,
                                                  row->next[0] != '\0' ? row->next : row->due};
        memcpy(table->cell[i + 1], cells, sizeof cells);
    }
    table->columns = QUEUE_COLUMNS;
    table->rows = view->queue_count + 1;
}

// What the queue holds beyond the rows there is room for.
static void draw_more(struct screen *screen, SDL_Rect box, size_t more) {
    struct style style = {.face = FACE_REGULAR,
                          .size = 32,
                          .floor = FLOOR_BENCH,
                          .colour = screen->theme->soft,
                          .align = ALIGN_RIGHT};
    char text[64];
    struct text words = text_open(text, sizeof text);
    text_say(&words, view_label(LABEL_MORE_WAIT), text_number((int64_t)more).digits);
    pen_text(screen, box, &style, text);
}

static void draw_queue(struct screen *screen, SDL_Rect box, const struct view *view) {
    struct style title = {
        .face = FACE_BOLD, .size = 40, .floor = FLOOR_BENCH, .colour = screen->theme->ink};
    struct style cell = {
        .face = FACE_REGULAR, .size = 38, .floor = FLOOR_BENCH, .colour = screen->theme->ink};
    struct table table = {.style = cell, .widest = FACE_REGULAR};
    int height;
    SDL_Rect top;
    size_t room;
    pen_panel(screen, box, screen->theme->panel, screen->theme->line, px(screen, 2));
    box = inset(box, px(screen, 30));
    top = cut_top(&box, px(screen, 52));
    cut_top(&box, px(screen, 8));
    pen_text(screen, top, &title, view_label(LABEL_NEXT_HERE));
    if (view->queue_count == 0) {
        cell.top = true;
        pen_text(screen, box, &cell, view_label(LABEL_NOTHING_NEXT));
        return;
    }
    fill_table(&table, view);
    table_fit(screen, &table, box.w);
    table_row(screen, &table, cut_top(&box, px(screen, 44)), 0, FACE_REGULAR);
    height = SDL_clamp(box.h / (int)view->queue_count, px(screen, 56), px(screen, 80));
    room = (size_t)(box.h / height);
    for (size_t i = 1; i < table.rows && i <= room; i++) {
        SDL_Rect row = cut_top(&box, height);
        table_row(screen, &table, row, i, FACE_REGULAR);
        pen_fill(screen, (SDL_Rect){row.x, box.y - px(screen, 2), row.w, px(screen, 2)},
                 screen->theme->line);
    }
    if (room < view->queue_count) {
        cut_left(&top, pen_width(screen, &title, view_label(LABEL_NEXT_HERE)) + px(screen, 20));
        draw_more(screen, top, view->queue_count - room);
    }
}

static void draw_today(struct screen *screen, SDL_Rect box, const struct view *view) {
    const struct view_today *today = &view->today;
    const struct {
        enum view_label label;
        int64_t count;
    } lines[] = {{LABEL_CLUBS_CUT, today->clubs},
                 {LABEL_CUTS_LOGGED, today->cuts},
                 {LABEL_OUT, today->out},
                 {LABEL_HOLDS, today->holds}};
    struct style title = {
        .face = FACE_BOLD, .size = 40, .floor = FLOOR_BENCH, .colour = screen->theme->ink};
    struct style name = {
        .face = FACE_REGULAR, .size = 36, .floor = FLOOR_BENCH, .colour = screen->theme->ink};
    struct style number = {.face = FACE_BOLD,
                           .size = 58,
                           .floor = FLOOR_BENCH,
                           .colour = screen->theme->ink,
                           .align = ALIGN_RIGHT};
    struct style waits = {
        .face = FACE_REGULAR, .size = 36, .floor = FLOOR_BENCH, .colour = screen->theme->soft};
    pen_panel(screen, box, screen->theme->panel, screen->theme->line, px(screen, 2));
    box = inset(box, px(screen, 30));
    pen_text(screen, cut_top(&box, px(screen, 52)), &title, view_label(LABEL_TODAY));
    bool tight = screen->portrait || (screen->must == 0 && box.h < px(screen, 420)) ||
                 pen_width(screen, &waits, view->waits) <= box.w;
    if (view->waits[0] != '\0') {
        pen_text(screen, cut_bottom(&box, px(screen, tight ? 56 : 110)), &waits, view->waits);
    }
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
    struct heading heading = {
        .title = {.face = FACE_BOLD,
                  .size = 96,
                  .floor = FLOOR_BENCH,
                  .colour = screen->theme->ink,
                  .must = true},
        .title_height = screen->portrait ? 250 : 130,
        .line = {.face = FACE_REGULAR,
                 .size = 48,
                 .floor = FLOOR_BENCH,
                 .colour = screen->theme->soft},
        .line_height = 76,
    };
    int gap = px(screen, 28);
    SDL_Rect today;
    cut_top(&body, px(screen, 10));
    heading_draw(screen, &body, view, &heading);
    cut_top(&body, px(screen, 20));
    today = screen->portrait ? cut_bottom(&body, body.h * 43 / 100)
                             : cut_hand(screen, &body, body.w * 31 / 100);
    if (screen->portrait) {
        cut_bottom(&body, gap);
    } else {
        cut_hand(screen, &body, gap);
    }
    preview_draw(screen, &body, &view->preview);
    draw_queue(screen, body, view);
    draw_today(screen, today, view);
}
