// The cut log for someone sitting: a dense table, the selected line beside it, what can be done.

#include "labels.h"
#include "pen.h"

#include <string.h>

#define COLUMNS 7

static void fill_table(struct table *table, const struct view_log *log) {
    static const enum view_label heads[COLUMNS] = {LABEL_TIME, LABEL_BUILD, LABEL_SHAFT,  LABEL_CUT,
                                                   LABEL_PLAN, LABEL_MADE,  LABEL_VERDICT};
    for (int i = 0; i < COLUMNS; i++) {
        table->cell[0][i] = view_label(heads[i]);
    }
    for (size_t i = 0; i < log->row_count; i++) {
        const struct view_log_row *row = &log->row[i];
        const char *const cells[COLUMNS] = {row->time, row->build, row->shaft,  row->cut,
                                            row->plan, row->made,  row->verdict};
        memcpy(table->cell[i + 1], cells, sizeof cells);
    }
    table->columns = COLUMNS;
    table->rows = log->row_count + 1;
}

static void draw_table(struct screen *screen, SDL_Rect box, const struct view_log *log) {
    struct style cell = {
        .face = FACE_REGULAR, .size = 28, .floor = FLOOR_DESK, .colour = screen->theme->ink};
    struct table table = {.style = cell, .widest = FACE_BOLD};
    SDL_Rect head;
    pen_panel(screen, box, screen->theme->panel, screen->theme->line, px(screen, 2));
    box = inset(box, px(screen, 14));
    fill_table(&table, log);
    table_fit(screen, &table, box.w - table_sign_width(screen));
    head = cut_top(&box, px(screen, 40));
    cut_left(&head, table_sign_width(screen));
    table_row(screen, &table, head, 0, FACE_REGULAR);
    if (log->row_count == 0) {
        pen_text(screen, inset(cell_down(box, 3, 0, 0), px(screen, 44)), &cell,
                 view_label(LABEL_NO_ENTRIES));
    }
    for (size_t i = 0; i < log->row_count; i++) {
        SDL_Rect row = cell_down(box, VIEW_ROWS_MAX, (int)i, px(screen, 3));
        touch_add(screen, row, ACTION_ROW, log->row[i].seq);
        table_row_toned(screen, &table, row, i + 1, log->row[i].tone, log->selected == (int)i);
    }
}

// Decisions and spare shafts stand beside the entry they are about.
static bool beside(const struct view_action *action) {
    return action->id == ACTION_DECIDE_USE || action->id == ACTION_DECIDE_RECUT ||
           action->id == ACTION_DECIDE_SCRAP || action->id == ACTION_SPARE ||
           action->id == ACTION_NOTE || action->id == ACTION_FILTER_PICK ||
           action->id == ACTION_FILTER_VALUE;
}

static void draw_beside_buttons(struct screen *screen, SDL_Rect *box, const struct view *view) {
    bool narrow = screen->portrait || view->log.note_active || view->log.note[0] != '\0';
    int height;
    int gap = px(screen, 10);
    int across;
    int count = 0;
    int at = 0;
    SDL_Rect area;
    for (size_t i = 0; i < view->action_count; i++) {
        count += beside(&view->action[i]) ? 1 : 0;
    }
    if (count == 0) {
        return;
    }
    across = count > 4 ? box->w / px(screen, 200) : narrow ? 2 : 1;
    height = px(screen, across == 2 && count <= 4 ? 70 : 58);
    area = cut_bottom(box, (count + across - 1) / across * (height + gap) - gap);
    for (size_t i = 0; i < view->action_count; i++) {
        if (beside(&view->action[i])) {
            SDL_Rect row = cell_down(area, (count + across - 1) / across, at / across, gap);
            button_draw(screen, cell_across(row, across, at % across, gap), &view->action[i]);
            at++;
        }
    }
    cut_bottom(box, px(screen, 16));
}

static void draw_detail(struct screen *screen, SDL_Rect box, const struct view *view) {
    const struct view_log *log = &view->log;
    struct flow flow = {.floor = FLOOR_DESK};
    pen_panel(screen, box, screen->theme->panel, screen->theme->line, px(screen, 2));
    box = inset(box, px(screen, 24));
    draw_beside_buttons(screen, &box, view);
    if (log->note_active || log->note[0] != '\0') {
        struct style label = {
            .face = FACE_REGULAR, .size = 24, .floor = FLOOR_DESK, .colour = screen->theme->soft};
        struct style note = {
            .face = FACE_REGULAR, .size = 28, .floor = FLOOR_DESK, .colour = screen->theme->ink};
        SDL_Rect field = cut_bottom(&box, px(screen, 124));
        pen_panel(screen, field, log->note_active ? screen->theme->work.pale : screen->theme->panel,
                  log->note_active ? screen->theme->work.fill : screen->theme->soft, px(screen, 3));
        pen_text(screen, inset(field, px(screen, 12)), &note, log->note);
        pen_text(screen, cut_bottom(&box, px(screen, 34)), &label, view_label(LABEL_NOTE));
    }
    flow_add(&flow,
             (struct flow_line){.text = log->detail_title[0] != '\0' ? log->detail_title
                                                                     : view_label(LABEL_SELECT),
                                .face = log->detail_title[0] != '\0' ? FACE_BOLD : FACE_REGULAR,
                                .size = 34,
                                .colour = screen->theme->ink});
    for (size_t i = 0; i < log->detail_count; i++) {
        flow_add(&flow, (struct flow_line){.text = log->detail[i],
                                           .face = FACE_REGULAR,
                                           .size = 28,
                                           .colour = screen->theme->ink,
                                           .before = 12});
    }
    flow_draw(screen, box, &flow);
}

static bool not_in_toolbar(const struct view_action *action) {
    return beside(action) || band_action(action);
}

void draw_log(struct screen *screen, SDL_Rect body, const struct view *view) {
    const struct view_log *log = &view->log;
    struct style title = {
        .face = FACE_BOLD, .size = 54, .floor = FLOOR_DESK, .colour = screen->theme->ink};
    struct style line = {
        .face = FACE_REGULAR, .size = 32, .floor = FLOOR_DESK, .colour = screen->theme->soft};
    SDL_Rect head = cut_top(&body, px(screen, screen->portrait ? 130 : 72));
    SDL_Rect detail;
    SDL_Rect name;
    if (screen->portrait) {
        name = cut_top(&head, px(screen, 70));
    } else {
        name = cut_left(&head, pen_width(screen, &title, log->title) + px(screen, 30));
    }
    pen_text(screen, name, &title, log->title);
    pen_text(screen, cell_across(head, 2, 0, px(screen, 16)), &line, log->subtitle);
    line.align = ALIGN_RIGHT;
    pen_text(screen, cell_across(head, 2, 1, px(screen, 16)), &line, log->filters);
    cut_top(&body, px(screen, 8));
    buttons_draw(screen, &body, view, not_in_toolbar);
    detail = screen->portrait ? cut_bottom(&body, body.h * 40 / 100)
                              : cut_hand(screen, &body, body.w * 31 / 100);
    if (screen->portrait) {
        cut_bottom(&body, px(screen, 18));
    } else {
        cut_hand(screen, &body, px(screen, 18));
    }
    draw_table(screen, body, log);
    draw_detail(screen, detail, view);
}
