// A build as a set, for someone sitting: a row a club, a plot a value, what stands out in words.

#include "pen.h"

static void fill_table(struct table *table, const struct view_set *set) {
    for (int i = 0; i < VIEW_CELLS; i++) {
        table->cell[0][i] = set->head[i];
        for (size_t row = 0; row < set->row_count; row++) {
            table->cell[row + 1][i] = set->row[row].cell[i];
        }
    }
    table->columns = VIEW_CELLS;
    table->rows = set->row_count + 1;
}

static void draw_table(struct screen *screen, SDL_Rect box, const struct view_set *set) {
    struct style cell = {
        .face = FACE_REGULAR, .size = 28, .floor = FLOOR_DESK, .colour = screen->theme->ink};
    struct table table = {.style = cell, .widest = FACE_BOLD};
    SDL_Rect head;
    pen_panel(screen, box, screen->theme->panel, screen->theme->line, px(screen, 2));
    box = inset(box, px(screen, 14));
    fill_table(&table, set);
    table_fit(screen, &table, box.w - table_sign_width(screen));
    head = cut_top(&box, px(screen, 40));
    cut_left(&head, table_sign_width(screen));
    table_row(screen, &table, head, 0, FACE_REGULAR);
    for (size_t i = 0; i < set->row_count; i++) {
        SDL_Rect row = cell_down(box, VIEW_ROWS_MAX, (int)i, px(screen, 3));
        touch_add(screen, row, ACTION_ROW, set->first + (int)i);
        table_row_toned(screen, &table, row, i + 1, set->row[i].tone, set->selected == (int)i);
    }
}

static void draw_notes(struct screen *screen, SDL_Rect box, const struct view_set *set, int size) {
    struct flow flow = {.floor = FLOOR_DESK};
    for (size_t i = 0; i < set->note_count; i++) {
        enum view_tone tone = set->note_tone[i];
        flow_add(&flow, (struct flow_line){.text = set->note[i],
                                           .face = FACE_REGULAR,
                                           .size = size,
                                           .colour = screen->theme->ink,
                                           .before = i == 0 ? 0 : 10,
                                           .bullet = tone == TONE_PLAIN ? BULLET_NONE : BULLET_SIGN,
                                           .tone = tone});
    }
    flow_draw(screen, box, &flow);
}

// Two by two; three beside each other, or two below, where there is room.
static void draw_plots(struct screen *screen, SDL_Rect box, const struct view_set *set) {
    int gap = px(screen, 16);
    int count = (int)set->plot_count;
    int across = count == 3 && box.w > box.h * 3 / 2 ? 3 : count < 3 && box.w < box.h ? 1 : 2;
    across = SDL_min(across, count);
    int rows = (count + across - 1) / across;
    for (int i = 0; i < count; i++) {
        SDL_Rect row = cell_down(box, rows, i / across, gap);
        plot_draw(screen, cell_across(row, across, i % across, gap), &set->plot[i]);
    }
}

static void draw_side(struct screen *screen, SDL_Rect box, const struct view_set *set) {
    pen_panel(screen, box, screen->theme->panel, screen->theme->line, px(screen, 2));
    box = inset(box, px(screen, 20));
    if (set->plot_count > 0) {
        draw_plots(screen, cut_top(&box, box.h * 66 / 100), set);
        cut_top(&box, px(screen, 16));
    }
    draw_notes(screen, box, set, 28);
}

// Where nothing is listed: what there is to say instead, in a panel no larger than that needs.
static void draw_empty(struct screen *screen, SDL_Rect body, const struct view_set *set) {
    SDL_Rect box = cut_top(&body, SDL_min(body.h, px(screen, 90 + 90 * (int)set->note_count)));
    pen_panel(screen, box, screen->theme->panel, screen->theme->line, px(screen, 2));
    draw_notes(screen, inset(box, px(screen, 40)), set, 40);
}

#define SIDE 43      // percent of the width for plots and notes
#define SIDE_WIDE 68 // of a table of two columns
#define SIDE_BELOW 54

// What plots and notes have of the room; all of it where there are no rows.
static int side_percent(const struct screen *screen, const struct view_set *set) {
    bool narrow = set->plot_count > 0 && set->head[2][0] == '\0';
    if (set->row_count == 0) {
        return 100;
    }
    return screen->portrait ? SIDE_BELOW : narrow ? SIDE_WIDE : SIDE;
}

void draw_set(struct screen *screen, SDL_Rect body, const struct view *view) {
    const struct view_set *set = &view->set;
    struct style title = {
        .face = FACE_BOLD, .size = 50, .floor = FLOOR_DESK, .colour = screen->theme->ink};
    struct style line = {
        .face = FACE_REGULAR, .size = 30, .floor = FLOOR_DESK, .colour = screen->theme->soft};
    int percent = side_percent(screen, set);
    SDL_Rect head = cut_top(&body, px(screen, screen->portrait ? 124 : 70));
    pen_text(screen,
             screen->portrait
                 ? cut_top(&head, px(screen, 70))
                 : cut_left(&head, pen_width(screen, &title, set->title) + px(screen, 30)),
             &title, set->title);
    pen_text(screen, head, &line, set->subtitle);
    cut_top(&body, px(screen, 8));
    buttons_draw(screen, &body, view, band_action);
    if (set->note_count == 0 && set->plot_count == 0) {
        draw_table(screen, body, set);
        return;
    }
    if (set->row_count == 0 && set->plot_count == 0) {
        draw_empty(screen, body, set);
        return;
    }
    SDL_Rect side = screen->portrait ? cut_bottom(&body, body.h * percent / 100)
                                     : cut_hand(screen, &body, body.w * percent / 100);
    if (percent < 100) {
        screen->portrait ? cut_bottom(&body, px(screen, 18))
                         : cut_hand(screen, &body, px(screen, 18));
        draw_table(screen, body, set);
    }
    draw_side(screen, side, set);
}
