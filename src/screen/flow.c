// Lines below each other in one box: a receipt, a list of cautions, steps to take. They keep their
// sizes relative to each other and shrink together, or grow a little to fill a large box.

#include "pen.h"

#include <stdio.h>

#define SCALE_FROM 118 // percent
#define SCALE_TO 25
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
    return (struct style){
        .face = line->face, .size = size, .floor = size, .colour = line->colour, .top = true};
}

static int bullet_width(struct screen *screen, const struct flow_line *line, int size) {
    return line->bullet == BULLET_NONE ? 0 : px(screen, size * 3 / 2);
}

struct placed {
    int height;
    int text_x;
    int text_w;
    int right_w;
};

static bool place(struct screen *screen, const struct flow *flow, const struct flow_line *line,
                  int scale, int width, struct placed *ret) {
    struct style style = line_style(flow, line, scale);
    int pad = line->boxed ? px(screen, BOX_PAD * scale / 100) : 0;
    struct placed placed = {.text_x = bullet_width(screen, line, style.size) + pad};
    if (line->right != NULL && line->right[0] != '\0') {
        struct style bold = style;
        bold.face = FACE_BOLD;
        placed.right_w = pen_width(screen, &bold, line->right) + px(screen, 24);
    }
    placed.text_w = width - placed.text_x - placed.right_w - pad;
    placed.height = pen_height(screen, &style, line->text, placed.text_w);
    if (placed.height < 0) {
        return false;
    }
    placed.height += 2 * pad;
    *ret = placed;
    return true;
}

static int gap(struct screen *screen, const struct flow_line *line, int scale) {
    return px(screen, line->before * scale / 100);
}

static bool fits(struct screen *screen, SDL_Rect box, const struct flow *flow, int scale) {
    int height = 0;
    for (size_t i = 0; i < flow->count; i++) {
        struct placed placed;
        if (!place(screen, flow, &flow->line[i], scale, box.w, &placed)) {
            return false;
        }
        height += placed.height + gap(screen, &flow->line[i], scale);
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

static void draw_one(struct screen *screen, SDL_Rect box, const struct flow *flow,
                     const struct flow_line *line, int scale, const struct placed *placed) {
    struct style style = line_style(flow, line, scale);
    int pad = line->boxed ? px(screen, BOX_PAD * scale / 100) : 0;
    SDL_Rect text = {box.x + placed->text_x, box.y + pad, placed->text_w,
                     placed->height - 2 * pad + 2};
    if (line->boxed) {
        pen_panel(screen, (SDL_Rect){box.x, box.y, box.w, placed->height}, THEME_AMBER_PALE,
                  THEME_AMBER, px(screen, 3));
    }
    if (line->rule) {
        int above = gap(screen, line, scale) / 2;
        pen_fill(screen, (SDL_Rect){box.x, box.y - above, box.w, px(screen, 3)}, THEME_INK);
    }
    draw_bullet(screen, line, &style, box.x + pad, box.y + pad);
    pen_text(screen, text, &style, line->text);
    if (placed->right_w > 0) {
        style.face = FACE_BOLD;
        style.align = ALIGN_RIGHT;
        pen_text(screen, (SDL_Rect){box.x, text.y, box.w - pad, text.h}, &style, line->right);
    }
}

int flow_scale(struct screen *screen, SDL_Rect box, const struct flow *flow) {
    int good = SCALE_TO;
    int bad = SCALE_FROM + 1;
    if (!fits(screen, box, flow, SCALE_TO)) {
        return 0;
    }
    while (bad - good > 1) {
        int middle = (good + bad) / 2;
        if (fits(screen, box, flow, middle)) {
            good = middle;
        } else {
            bad = middle;
        }
    }
    return good;
}

void flow_draw(struct screen *screen, SDL_Rect box, const struct flow *flow) {
    int scale = flow_scale(screen, box, flow);
    int y = box.y;
    if (scale == 0) {
        problem(screen, "lines do not fit", flow->count > 0 ? flow->line[0].text : "");
        scale = SCALE_TO;
    }
    for (size_t i = 0; i < flow->count; i++) {
        struct placed placed;
        if (!place(screen, flow, &flow->line[i], scale, box.w, &placed)) {
            continue;
        }
        y += gap(screen, &flow->line[i], scale);
        draw_one(screen, (SDL_Rect){box.x, y, box.w, placed.height}, flow, &flow->line[i], scale,
                 &placed);
        y += placed.height;
    }
}
