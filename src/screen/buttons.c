// Buttons of actions: in rows, or a few at the end of a row of text.

#include "pen.h"

#include <limits.h>

bool band_action(const struct view_action *action) {
    return action->id == ACTION_PRESS || action->id == ACTION_HELD || lesson_action(action);
}

void button_draw(struct screen *screen, SDL_Rect box, const struct view_action *action) {
    struct theme_tone tone = theme_tone(screen->theme, action->tone);
    bool plain = action->tone == TONE_PLAIN;
    bool desk = seated_view(screen->body);
    struct style style = {.face = FACE_BOLD,
                          .size = desk ? 26 : 34,
                          .floor = desk ? FLOOR_DESK : FLOOR_BENCH,
                          .colour = plain ? screen->theme->ink : tone.text,
                          .align = ALIGN_CENTRE};
    SDL_Rect text = inset(box, px(screen, 8));
    pen_panel(screen, box, plain ? screen->theme->panel : tone.fill,
              plain ? screen->theme->soft : tone.fill, px(screen, 3));
    touch_add(screen, box, action->id, action->argument);
    if (action->key[0] != '\0') {
        struct style key = {.face = FACE_MONO,
                            .size = desk ? 20 : 26,
                            .floor = desk ? FLOOR_DESK : FLOOR_BENCH,
                            .colour = plain ? screen->theme->soft : tone.text};
        SDL_Rect side;
        cut_left(&text, px(screen, desk ? 4 : 8));
        side = cut_left(&text, pen_width(screen, &key, action->key) + px(screen, 10));
        pen_text(screen, side, &key, action->key);
    }
    pen_text(screen, text, &style, action->label);
}

// Do the labels fit into buttons of this size, in their least letters?
static bool labels_fit(struct screen *screen, const struct view *view, int width, int floor,
                       int height) {
    const struct style label = {.face = FACE_BOLD, .size = floor};
    const struct style key = {.face = FACE_MONO, .size = floor};
    for (size_t i = 0; i < view->action_count; i++) {
        const struct view_action *action = &view->action[i];
        int side =
            action->key[0] != '\0' ? pen_width(screen, &key, action->key) + px(screen, 18) : 0;
        int high = band_action(action)
                       ? 0
                       : pen_height(screen, &label, action->label, width - side - px(screen, 30));
        if (high < 0 || high > height - px(screen, 12)) {
            return false;
        }
    }
    return true;
}

void buttons_draw(struct screen *screen, SDL_Rect *body, const struct view *view,
                  bool (*skip)(const struct view_action *action)) {
    const struct view_action *shown[VIEW_ACTIONS_MAX];
    bool desk = seated_view(screen->body);
    int across;
    int height = touch_size(screen, desk ? 54 : 92);
    int gap = px(screen, desk ? 10 : 16);
    int count = 0;
    int rows;
    for (size_t i = 0; i < view->action_count; i++) {
        if (!skip(&view->action[i])) {
            shown[count++] = &view->action[i];
        }
    }
    if (count == 0) {
        return;
    }
    if (screen->portrait) {
        bool crowded =
            count > 4 && (screen->target > px(screen, 92) || // for large fingers, three
                          (screen->body == VIEW_MESSAGE &&
                           labels_fit(screen, view, (body->w - 2 * gap) / 3, FLOOR_BENCH, height)));
        across = desk ? (count > 16 && labels_fit(screen, view, (body->w - 4 * gap) / 5, FLOOR_DESK,
                                                  height)
                             ? 5
                             : 4)
                 : crowded ? 3
                           : 2;
    } else {
        across = desk                                                                        ? 7
                 : screen->body == VIEW_MESSAGE && (body->w - 5 * gap) / 6 >= screen->target ? 6
                                                                                             : 4;
    }
    rows = (count + across - 1) / across;
    across = (count + rows - 1) / rows;
    SDL_Rect area = cut_bottom(body, rows * height + (rows - 1) * gap);
    cut_bottom(body, px(screen, 20));
    for (int i = 0; i < count; i++) {
        SDL_Rect row = cell_down(area, rows, i / across, gap);
        int in_row = desk || i / across < rows - 1 ? across : count - across * (rows - 1);
        if (rows == 1 && row.w / in_row > px(screen, 430)) {
            row.w = px(screen, 430) * in_row;
        }
        button_draw(screen, cell_across(row, in_row, i % across, gap), shown[i]);
    }
}

#define BESIDE_GAP 20

// Width that the longest label of the buttons beside a text needs in two lines of the least size.
static int beside_need(struct screen *screen, const struct view *view) {
    const struct style label = {.face = FACE_BOLD, .size = FLOOR_BENCH};
    const struct style key = {.face = FACE_MONO, .size = FLOOR_BENCH};
    int need = 0;
    for (size_t i = 0; i < view->action_count; i++) {
        const struct view_action *action = &view->action[i];
        if (!band_action(action)) {
            int side = action->key[0] != '\0'
                           ? pen_width(screen, &key, action->key) + px(screen, 10 + 8)
                           : 0;
            int words = pen_width(screen, &label, action->label) * 68 / 100; // lines are uneven
            need = SDL_max(need, words + side + px(screen, 40));
        }
    }
    return need;
}

// Width of each of the buttons beside a text, in a row so wide.
static int beside_width(struct screen *screen, int width, const struct view *view) {
    int count = buttons_count(view);
    int room = count > 0 ? (width - px(screen, 340)) / count - px(screen, BESIDE_GAP) : 0;
    if (count > 0 && count * (screen->target + px(screen, BESIDE_GAP)) + px(screen, 240) < width) {
        room = SDL_max(room, screen->target);
    }
    return SDL_min(
        room, SDL_max(px(screen, 320),
                      screen->must == 0 ? SDL_min(beside_need(screen, view), px(screen, 460)) : 0));
}

// Would the title break into more lines with the buttons beside it than alone?
static bool title_squeezed(struct screen *screen, int width, const struct view *view,
                           const struct style *title) {
    return pen_height(screen, title, view->title, buttons_beside_leave(screen, width, view)) !=
           pen_height(screen, title, view->title, width);
}

// Do the buttons need rows of their own below, instead of room beside a title in a row so wide?
static bool buttons_below(struct screen *screen, int width, const struct view *view,
                          const struct style *title) {
    if (screen->portrait ||
        (buttons_count(view) > 0 && title_squeezed(screen, width, view, title))) {
        return true;
    }
    // A screen whose size is known has its own order of what gives way (fit.c).
    return screen->must == 0 && !labels_fit(screen, view, beside_width(screen, width, view),
                                            FLOOR_BENCH, touch_size(screen, 92));
}

int buttons_beside_leave(struct screen *screen, int width, const struct view *view) {
    return width -
           buttons_count(view) * (beside_width(screen, width, view) + px(screen, BESIDE_GAP));
}

void buttons_beside(struct screen *screen, SDL_Rect *row, const struct view *view) {
    int width = beside_width(screen, row->w, view);
    const int height = SDL_min(row->h, touch_size(screen, 92));
    for (size_t i = view->action_count; i > 0; i--) {
        if (!band_action(&view->action[i - 1])) {
            SDL_Rect box = cut_hand(screen, row, width);
            box.y += (box.h - height) / 2;
            box.h = height;
            button_draw(screen, box, &view->action[i - 1]);
            cut_hand(screen, row, px(screen, BESIDE_GAP));
        }
    }
}

#define ONE_LINE 78 // percent of its size that a title on a standing screen shrinks to for one line

// The title's style, and how high its row is at least.
static int title_row(struct screen *screen, int width, const struct view *view,
                     const struct heading *heading, struct style *ret_title) {
    struct style small = heading->title;
    *ret_title = heading->title;
    small.size = small.size * ONE_LINE / 100;
    if (screen->portrait && pen_height(screen, &small, view->title, width) ==
                                pen_height(screen, &small, view->title, INT_MAX)) {
        ret_title->one_line = true;
        return px(screen, heading->title.size * 3 / 2);
    }
    return px(screen, heading->title_height);
}

void heading_draw(struct screen *screen, SDL_Rect *body, const struct view *view,
                  const struct heading *heading) {
    struct style title;
    bool below = buttons_below(screen, body->w, view, &heading->title);
    int least = title_row(screen, body->w, view, heading, &title);
    int width = below ? body->w : buttons_beside_leave(screen, body->w, view);
    if (below) {
        buttons_draw(screen, body, view, band_action);
    } else if (buttons_count(view) > 0) {
        least = touch_size(screen, heading->title_height);
    }
    SDL_Rect row = cut_top(body, pen_room(screen, &title, view->title, width, least));
    if (!below) {
        buttons_beside(screen, &row, view);
    } else if (!screen->portrait) {
        int first = pen_width(screen, &title, view->title) + px(screen, 40);
        if (first + pen_width(screen, &heading->line, view->subtitle) <= row.w) {
            pen_text(screen, cut_left(&row, first), &title, view->title);
            pen_text(screen, row, &heading->line, view->subtitle);
            return;
        }
    }
    pen_text(screen, row, &title, view->title);
    pen_text(screen, cut_top(body, px(screen, heading->line_height)), &heading->line,
             view->subtitle);
}

int buttons_count(const struct view *view) {
    int count = 0;
    for (size_t i = 0; i < view->action_count; i++) {
        count += band_action(&view->action[i]) ? 0 : 1;
    }
    return count;
}
