// The cut log for someone sitting: a dense table, the selected line beside it, what can be done.

#include "labels.h"
#include "pen.h"

#define COLUMNS 7

static const int share[COLUMNS] = {11, 14, 15, 13, 15, 15, 17}; // percent

static void draw_cells(struct screen *screen, SDL_Rect row, const char *const cells[COLUMNS],
                       const struct style *style, bool last_bold) {
    int x = row.x + px(screen, 14);
    int width = row.w - px(screen, 28);
    for (int i = 0; i < COLUMNS; i++) {
        struct style cell = *style;
        int wide = width * share[i] / 100;
        cell.face = last_bold && i == COLUMNS - 1 ? FACE_BOLD : style->face;
        pen_text(screen, (SDL_Rect){x, row.y, wide - px(screen, 8), row.h}, &cell, cells[i]);
        x += wide;
    }
}

static void draw_table(struct screen *screen, SDL_Rect box, const struct view_log *log) {
    const char *const heads[COLUMNS] = {view_label(LABEL_TIME),   view_label(LABEL_BUILD),
                                        view_label(LABEL_SHAFT),  view_label(LABEL_CUT),
                                        view_label(LABEL_PLAN),   view_label(LABEL_MADE),
                                        view_label(LABEL_VERDICT)};
    struct style head = {
        .face = FACE_REGULAR, .size = 26, .floor = FLOOR_DESK, .colour = THEME_SOFT};
    struct style cell = {
        .face = FACE_REGULAR, .size = 28, .floor = FLOOR_DESK, .colour = THEME_INK};
    pen_panel(screen, box, THEME_PANEL, THEME_LINE, px(screen, 2));
    box = inset(box, px(screen, 14));
    draw_cells(screen, cut_top(&box, px(screen, 40)), heads, &head, false);
    if (log->row_count == 0) {
        pen_text(screen, cell_down(box, 3, 0, 0), &cell, view_label(LABEL_NO_ENTRIES));
    }
    for (size_t i = 0; i < log->row_count; i++) {
        const struct view_log_row *line = &log->row[i];
        const char *const cells[COLUMNS] = {line->time, line->build, line->shaft,  line->cut,
                                            line->plan, line->made,  line->verdict};
        SDL_Rect row = cell_down(box, VIEW_ROWS_MAX, (int)i, px(screen, 3));
        bool selected = log->selected == (int)i;
        if (line->tone != TONE_PLAIN || selected) {
            pen_panel(screen, row,
                      line->tone == TONE_PLAIN ? THEME_BLUE_PALE : theme_tone(line->tone).pale,
                      selected ? THEME_BLUE : theme_tone(line->tone).pale,
                      px(screen, selected ? 4 : 1));
        }
        touch_add(screen, row, ACTION_ROW, line->seq);
        draw_cells(screen, row, cells, &cell, line->tone != TONE_PLAIN);
    }
}

// Decisions and spare shafts stand beside the entry they are about.
static bool beside(const struct view_action *action) {
    return action->id == ACTION_DECIDE_USE || action->id == ACTION_DECIDE_RECUT ||
           action->id == ACTION_DECIDE_SCRAP || action->id == ACTION_SPARE ||
           action->id == ACTION_NOTE;
}

static void draw_beside_buttons(struct screen *screen, SDL_Rect *box, const struct view *view) {
    int height = px(screen, 58);
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
    across = count > 3 ? 2 : 1;
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
    pen_panel(screen, box, THEME_PANEL, THEME_LINE, px(screen, 2));
    box = inset(box, px(screen, 24));
    draw_beside_buttons(screen, &box, view);
    if (log->note_active || log->note[0] != '\0') {
        struct style label = {
            .face = FACE_REGULAR, .size = 24, .floor = FLOOR_DESK, .colour = THEME_SOFT};
        struct style note = {
            .face = FACE_REGULAR, .size = 28, .floor = FLOOR_DESK, .colour = THEME_INK};
        SDL_Rect field = cut_bottom(&box, px(screen, 92));
        pen_panel(screen, field, log->note_active ? THEME_BLUE_PALE : THEME_PANEL,
                  log->note_active ? THEME_BLUE : THEME_SOFT, px(screen, 3));
        pen_text(screen, inset(field, px(screen, 12)), &note, log->note);
        pen_text(screen, cut_bottom(&box, px(screen, 34)), &label, view_label(LABEL_NOTE));
    }
    flow_add(&flow,
             (struct flow_line){.text = log->detail_title[0] != '\0' ? log->detail_title
                                                                     : view_label(LABEL_SELECT),
                                .face = log->detail_title[0] != '\0' ? FACE_BOLD : FACE_REGULAR,
                                .size = 34,
                                .colour = THEME_INK});
    for (size_t i = 0; i < log->detail_count; i++) {
        flow_add(&flow, (struct flow_line){.text = log->detail[i],
                                           .face = FACE_REGULAR,
                                           .size = 28,
                                           .colour = THEME_INK,
                                           .before = 12});
    }
    flow_draw(screen, box, &flow);
}

static bool not_in_toolbar(const struct view_action *action) {
    return beside(action) || band_action(action);
}

void draw_log(struct screen *screen, SDL_Rect body, const struct view *view) {
    const struct view_log *log = &view->log;
    struct style title = {.face = FACE_BOLD, .size = 54, .floor = FLOOR_DESK, .colour = THEME_INK};
    struct style line = {
        .face = FACE_REGULAR, .size = 32, .floor = FLOOR_DESK, .colour = THEME_SOFT};
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
    buttons_draw(screen, &body, view, not_in_toolbar);
    detail = screen->portrait ? cut_bottom(&body, body.h * 40 / 100)
                              : cut_right(&body, body.w * 31 / 100);
    if (screen->portrait) {
        cut_bottom(&body, px(screen, 18));
    } else {
        cut_right(&body, px(screen, 18));
    }
    draw_table(screen, body, log);
    draw_detail(screen, detail, view);
}
