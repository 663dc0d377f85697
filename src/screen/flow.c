// Lines below each other in one box: a receipt, a list of cautions, steps to take. They keep their
// sizes relative to each other and shrink together, or grow a little to fill a large box.

#include "pen.h"

#include <stdio.h>

#define SCALE_FROM 132 // percent
#define SCALE_TO 10
#define BOX_PAD 18

void flow_add(struct flow *flow, struct flow_line line) {
    if (flow->count < FLOW_MAX && line.text[0] != '\0') {
        flow->line[flow->count++] = line;
    }
}

static int line_size(const struct flow *flow, const struct flow_line *line, int scale) {
    int size = line->size * scale / 100;
    int floor = line->size < flow->floor ? line->size : flow->floor;
    return size < floor ? floor : size;
}

static struct style line_style(const struct flow *flow, const struct flow_line *line, int scale) {
    int size = line_size(flow, line, scale);
    return (struct style){.face = line->face,
                          .size = size,
                          .floor = size,
                          .colour = line->colour,
                          .top = true,
                          .must = line->must};
}

static int bullet_width(struct screen *screen, const struct flow_line *line, int size) {
    return line->bullet == BULLET_NONE ? 0 : px(screen, size * 3 / 2);
}

struct placed {
    int before; // empty above
    int height; // with the padding of its box
    int text_x;
    int text_y;
    int text_w;
    int text_h;
    int right_w;
};

// Boxed lines that follow each other share one box.
static bool box_begins(const struct flow *flow, size_t at) {
    return flow->line[at].boxed && (at == 0 || !flow->line[at - 1].boxed);
}

static bool box_ends(const struct flow *flow, size_t at) {
    return flow->line[at].boxed && (at + 1 == flow->count || !flow->line[at + 1].boxed);
}

static bool place(struct screen *screen, const struct flow *flow, size_t at, int scale, int width,
                  struct placed *ret) {
    const struct flow_line *line = &flow->line[at];
    struct style style = line_style(flow, line, scale);
    int pad = line->boxed ? px(screen, BOX_PAD) : 0;
    int above = box_begins(flow, at) ? pad * scale / 100 : 0;
    int below = box_ends(flow, at) ? pad * scale / 100 : 0;
    struct placed placed = {.before = px(screen, line->before * scale / 100),
                            .text_x = bullet_width(screen, line, style.size) + pad,
                            .text_y = above};
    if (line->right != NULL && line->right[0] != '\0') {
        struct style bold = style;
        bold.face = FACE_BOLD;
        placed.right_w = pen_width(screen, &bold, line->right) + px(screen, 24);
    }
    placed.text_w = width - placed.text_x - placed.right_w - pad;
    placed.text_h = pen_height(screen, &style, line->text, placed.text_w);
    if (placed.text_h < 0) {
        return false;
    }
    if (placed.right_w > 0) { // of another font when the words are Japanese, and higher
        struct style bold = style;
        bold.face = FACE_BOLD;
        placed.text_h =
            SDL_max(placed.text_h, pen_height(screen, &bold, line->right, placed.right_w));
    }
    placed.height = placed.text_h + above + below;
    *ret = placed;
    return true;
}

static bool place_all(struct screen *screen, SDL_Rect box, const struct flow *flow, int scale,
                      struct placed placed[FLOW_MAX]) {
    int height = 0;
    for (size_t i = 0; i < flow->count; i++) {
        if (!place(screen, flow, i, scale, box.w, &placed[i])) {
            return false;
        }
        height += placed[i].before + placed[i].height;
    }
    return height <= box.h;
}

static void draw_bullet(struct screen *screen, const struct flow_line *line,
                        const struct style *style, int x, int y) {
    int size = px(screen, style->size);
    if (line->bullet == BULLET_DOT) {
        pen_shape(screen, SHAPE_DISC,
                  (SDL_Rect){x + size / 4, y + size * 4 / 10, size / 2, size / 2}, line->colour);
    } else if (line->bullet == BULLET_SIGN) {
        pen_sign(screen, (SDL_Rect){x, y + size / 10, size * 11 / 10, size * 11 / 10}, line->tone);
    } else if (line->bullet == BULLET_NUMBER) {
        struct style number = *style;
        char text[16];
        number.face = FACE_BOLD;
        snprintf(text, sizeof text, "%d", line->number);
        pen_text(screen, (SDL_Rect){x, y, size * 3 / 2, size * 2}, &number, text);
    }
}

static void draw_box(struct screen *screen, SDL_Rect box, const struct flow *flow, size_t at,
                     const struct placed *placed) {
    int height = placed[at].height;
    for (size_t i = at; !box_ends(flow, i); i++) {
        height += placed[i + 1].before + placed[i + 1].height;
    }
    pen_panel(screen, (SDL_Rect){box.x, box.y, box.w, height}, screen->theme->caution.pale,
              screen->theme->caution.line, px(screen, 3));
}

static void draw_one(struct screen *screen, SDL_Rect box, const struct flow *flow,
                     const struct flow_line *line, int scale, const struct placed *placed) {
    struct style style = line_style(flow, line, scale);
    int pad = line->boxed ? px(screen, BOX_PAD) : 0;
    SDL_Rect text = {box.x + placed->text_x, box.y + placed->text_y, placed->text_w,
                     placed->text_h};
    if (line->rule) {
        pen_fill(screen, (SDL_Rect){box.x, box.y - placed->before / 2, box.w, px(screen, 3)},
                 screen->theme->ink);
    }
    draw_bullet(screen, line, &style, box.x + pad, text.y);
    pen_text(screen, text, &style, line->text);
    if (placed->right_w > 0) {
        style.face = FACE_BOLD;
        style.align = ALIGN_RIGHT;
        pen_text(screen, (SDL_Rect){box.x, text.y, box.w - pad, text.h}, &style, line->right);
    }
}

int flow_scale(struct screen *screen, SDL_Rect box, const struct flow *flow) {
    struct placed placed[FLOW_MAX];
    int good = SCALE_TO;
    int bad = SCALE_FROM + 1;
    if (!place_all(screen, box, flow, SCALE_TO, placed)) {
        return 0;
    }
    while (bad - good > 1) {
        int middle = (good + bad) / 2;
        if (place_all(screen, box, flow, middle, placed)) {
            good = middle;
        } else {
            bad = middle;
        }
    }
    return good;
}

void flow_draw(struct screen *screen, SDL_Rect box, const struct flow *flow) {
    struct placed placed[FLOW_MAX] = {0};
    int scale = flow_scale(screen, box, flow);
    int y = box.y;
    if (scale == 0) {
        problem(screen, "lines do not fit", flow->count > 0 ? flow->line[0].text : "");
        scale = SCALE_TO;
    }
    place_all(screen, box, flow, scale, placed);
    for (size_t i = 0; i < flow->count; i++) {
        SDL_Rect line = {box.x, y + placed[i].before, box.w, placed[i].height};
        if (box_begins(flow, i)) {
            draw_box(screen, line, flow, i, placed);
        }
        draw_one(screen, line, flow, &flow->line[i], scale, &placed[i]);
        y = line.y + line.h;
    }
}
