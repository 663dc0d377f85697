// What the bench is made of, a line each: sign and word, name, figures, and below what to do.

#include "pen.h"

#include <string.h>

#define TODO_UNITS 2 // of height, as the station counts a page
#define UNIT_MOST 84
#define UNIT_MOST_UPRIGHT 112

static int units(const struct view_selfcheck *all) {
    int count = 0;
    for (size_t i = 0; i < all->count; i++) {
        count += all->line[i].todo[0] == '\0' ? 1 : 1 + TODO_UNITS;
    }
    return count;
}

// What the longest of the words needs in its least size.
static int word_width(struct screen *screen, const struct view_selfcheck *all) {
    const struct style word = {.face = FACE_REGULAR, .size = FLOOR_BENCH};
    int width = px(screen, 96);
    for (size_t i = 0; i < all->count; i++) {
        width = SDL_max(width, pen_width(screen, &word, all->line[i].word) + px(screen, 4));
    }
    return width;
}

// Sign, the name, its word.
static void draw_name(struct screen *screen, SDL_Rect box, const struct view_selfcheck *all,
                      size_t at) {
    struct style name = {.face = FACE_BOLD,
                         .size = 34,
                         .floor = FLOOR_BENCH,
                         .colour = screen->theme->ink,
                         .one_line = true};
    struct style word = {.face = FACE_REGULAR,
                         .size = 30,
                         .floor = FLOOR_BENCH,
                         .colour = screen->theme->soft,
                         .one_line = true,
                         .align = ALIGN_RIGHT};
    int size = box.h < px(screen, 44) ? box.h : px(screen, 44);
    SDL_Rect sign = cut_left(&box, size + px(screen, 14));
    pen_sign(screen, (SDL_Rect){sign.x, sign.y + (sign.h - size) / 2, size, size},
             all->line[at].tone);
    pen_text(screen, cut_right(&box, word_width(screen, all)), &word, all->line[at].word);
    pen_text(screen, box, &name, all->line[at].name);
}

static void draw_line(struct screen *screen, SDL_Rect box, int unit,
                      const struct view_selfcheck *all, size_t at) {
    struct theme_tone tone = theme_tone(screen->theme, all->line[at].tone);
    struct style value = {
        .face = FACE_REGULAR, .size = 32, .floor = FLOOR_BENCH, .colour = screen->theme->ink};
    struct style todo = {
        .face = FACE_BOLD, .size = 32, .floor = FLOOR_BENCH, .colour = screen->theme->ink};
    int name = box.w * (screen->portrait ? 44 : 30) / 100;
    if (all->line[at].tone != TONE_FINE) {
        pen_panel(screen, box, tone.pale, tone.line, px(screen, 3));
    }
    box = inset(box, px(screen, 4));
    box.x += px(screen, 10);
    box.w -= px(screen, 20);
    SDL_Rect below = box;
    SDL_Rect row = cut_top(&below, unit - px(screen, 4));
    bool has_todo = all->line[at].todo[0] != '\0';
    draw_name(screen, cut_left(&row, name), all, at);
    cut_left(&row, px(screen, 24));
    if (has_todo) {
        // Both beside the name: the figures above, what to do below.
        SDL_Rect side = {row.x, box.y, row.w, box.h};
        int shown = (int)strlen(all->line[at].value);
        int done = (int)strlen(all->line[at].todo);
        int share = shown * 100 / (shown + done);
        share = share < 40 ? 40 : share > 60 ? 60 : share;
        pen_text(screen, cut_top(&side, side.h * share / 100), &value, all->line[at].value);
        pen_text(screen, side, &todo, all->line[at].todo);
        return;
    }
    pen_text(screen, row, &value, all->line[at].value);
}

void draw_selfcheck(struct screen *screen, SDL_Rect body, const struct view *view) {
    const struct view_selfcheck *all = &view->selfcheck;
    struct style title = {
        .face = FACE_BOLD, .size = 56, .floor = FLOOR_BENCH, .colour = screen->theme->ink};
    struct style line = {
        .face = FACE_REGULAR, .size = 36, .floor = FLOOR_BENCH, .colour = screen->theme->soft};
    int gap = px(screen, 6);
    SDL_Rect top;
    if (screen->portrait) {
        buttons_draw(screen, &body, view, band_action);
    }
    top = cut_top(&body, px(screen, 92));
    if (!screen->portrait) {
        buttons_beside(screen, &top, view);
    }
    pen_text(screen, top, &title, view->title);
    pen_text(screen, cut_top(&body, px(screen, 52)), &line, view->subtitle);
    cut_top(&body, px(screen, 8));
    int count = units(all);
    int unit = count == 0 ? 0 : body.h / count;
    int most = px(screen, screen->portrait ? UNIT_MOST_UPRIGHT : UNIT_MOST);
    unit = unit < most ? unit : most;
    for (size_t i = 0; i < all->count; i++) {
        int height = all->line[i].todo[0] == '\0' ? unit : (1 + TODO_UNITS) * unit;
        draw_line(screen, cut_top(&body, height - gap), unit, all, i);
        cut_top(&body, gap);
    }
}
