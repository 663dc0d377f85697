// One value of every club against a straight line: planned discs, measured rings, a caution sign on
// the club that stands out.

#include "pen.h"

struct area {
    SDL_Rect box;
    const struct view_plot *plot;
};

static int across(const struct area *area, size_t at) {
    size_t gaps = area->plot->count > 1 ? area->plot->count - 1 : 1;
    return area->box.x + (int)((double)area->box.w * (double)at / (double)gaps);
}

static int down(const struct area *area, double value) {
    double range = area->plot->high - area->plot->low;
    double part = range > 0 ? (value - area->plot->low) / range : 0.5;
    return area->box.y + area->box.h - (int)((double)area->box.h * part);
}

static SDL_Rect around(int x, int y, int size) {
    return (SDL_Rect){x - size / 2, y - size / 2, size, size};
}

static void draw_line(struct screen *screen, const struct area *area) {
    const struct view_plot *plot = area->plot;
    int x0 = across(area, 0);
    int x1 = across(area, plot->count - 1);
    int y0 = down(area, plot->at_first);
    int y1 = down(area, plot->at_first + plot->slope * (double)(plot->count - 1));
    int thick = px(screen, 3);
    for (int x = x0; x <= x1; x++) {
        int y = x1 > x0 ? y0 + (y1 - y0) * (x - x0) / (x1 - x0) : y0;
        pen_fill(screen, (SDL_Rect){x, y - thick / 2, 1, thick}, screen->theme->hatch);
    }
}

static void draw_points(struct screen *screen, const struct area *area) {
    const struct view_plot *plot = area->plot;
    int size = px(screen, plot->count > 16 ? 12 : 18);
    for (size_t i = 0; i < plot->count; i++) {
        int x = across(area, i);
        if (plot->point[i].planned_known) {
            int y = down(area, plot->point[i].planned);
            if ((int)i == plot->odd) {
                pen_sign(screen, around(x, y, 2 * size), TONE_CAUTION);
            } else {
                pen_shape(screen, SHAPE_DISC, around(x, y, size), screen->theme->work.fill);
            }
        }
        if (plot->point[i].measured_known) {
            pen_shape(screen, SHAPE_RING, around(x, down(area, plot->point[i].measured), 2 * size),
                      screen->theme->fine.fill);
        }
    }
}

void plot_draw(struct screen *screen, SDL_Rect box, const struct view_plot *plot) {
    struct style title = {.face = FACE_BOLD,
                          .size = 26,
                          .floor = FLOOR_DESK,
                          .colour = screen->theme->ink,
                          .one_line = true};
    struct style scale = {
        .face = FACE_REGULAR, .size = 22, .floor = FLOOR_DESK, .colour = screen->theme->soft};
    struct area area = {.plot = plot};
    SDL_Rect side;
    int wide = pen_width(screen, &scale, plot->high_text);
    int low = pen_width(screen, &scale, plot->low_text);
    pen_text(screen, cut_top(&box, px(screen, 34)), &title, plot->title);
    side = cut_left(&box, (wide > low ? wide : low) + px(screen, 12));
    pen_text(screen, cut_top(&side, px(screen, 28)), &scale, plot->high_text);
    pen_text(screen, cut_bottom(&side, px(screen, 28)), &scale, plot->low_text);
    pen_fill(screen, (SDL_Rect){box.x, box.y, px(screen, 2), box.h}, screen->theme->line);
    pen_fill(screen, (SDL_Rect){box.x, box.y + box.h - px(screen, 2), box.w, px(screen, 2)},
             screen->theme->line);
    area.box = inset(box, px(screen, 22));
    if (plot->count == 0) {
        return;
    }
    for (size_t i = 0; i < plot->level_count; i++) {
        int y = down(&area, plot->level[i]);
        pen_fill(screen, (SDL_Rect){box.x, y, box.w, px(screen, 2)}, screen->theme->hatch);
    }
    if (plot->line_known) {
        draw_line(screen, &area);
    }
    draw_points(screen, &area);
}
