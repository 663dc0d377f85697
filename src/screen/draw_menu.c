// What there is to do at the desk, as tiles.

#include "pen.h"

static void draw_tile(struct screen *screen, SDL_Rect box, const struct view *view, size_t at) {
    const struct view_action *action = &view->action[at];
    struct style title = {.face = FACE_BOLD,
                          .size = 40,
                          .floor = FLOOR_DESK,
                          .colour = screen->theme->ink,
                          .one_line = true};
    struct style line = {.face = FACE_REGULAR,
                         .size = 26,
                         .floor = FLOOR_DESK,
                         .colour = screen->theme->soft,
                         .top = true};
    struct style key = {
        .face = FACE_MONO, .size = 26, .floor = FLOOR_DESK, .colour = screen->theme->soft};
    struct style count = {.face = FACE_BOLD,
                          .size = 44,
                          .floor = FLOOR_DESK,
                          .colour = screen->theme->work.fill,
                          .align = ALIGN_RIGHT};
    const char *waiting = view->menu.tile[at].count;
    pen_panel(screen, box, screen->theme->panel, screen->theme->soft, px(screen, 3));
    touch_add(screen, box, action->id, action->argument);
    box = inset(box, px(screen, 18));
    SDL_Rect top = cut_top(&box, box.h * 46 / 100);
    pen_text(screen, cut_left(&top, px(screen, 66)), &key, action->key);
    if (waiting[0] != '\0') {
        pen_text(screen, cut_right(&top, pen_width(screen, &count, waiting) + px(screen, 8)),
                 &count, waiting);
    }
    pen_text(screen, top, &title, action->label);
    cut_left(&box, px(screen, 66));
    pen_text(screen, box, &line, view->menu.tile[at].line);
}

static bool tile_or_band(const struct view_action *action) {
    return action->id == ACTION_TILE || band_action(action);
}

void draw_menu(struct screen *screen, SDL_Rect body, const struct view *view) {
    struct style title = {
        .face = FACE_BOLD, .size = 50, .floor = FLOOR_DESK, .colour = screen->theme->ink};
    struct style line = {
        .face = FACE_REGULAR, .size = 30, .floor = FLOOR_DESK, .colour = screen->theme->soft};
    int across = screen->portrait ? 2 : 3;
    int count = (int)view->menu.tile_count;
    int rows = (count + across - 1) / across;
    pen_text(screen, cut_top(&body, px(screen, 70)), &title, view->menu.title);
    pen_text(screen, cut_top(&body, px(screen, 50)), &line, view->menu.subtitle);
    cut_top(&body, px(screen, 12));
    buttons_draw(screen, &body, view, tile_or_band);
    for (int i = 0; i < count; i++) {
        SDL_Rect row = cell_down(body, rows, i / across, px(screen, 18));
        draw_tile(screen, cell_across(row, across, i % across, px(screen, 18)), view, (size_t)i);
    }
}
