// The mark: one number that is read across the shop, the picture that says where, and beside it
// why.

#include "pen.h"

static void draw_beside(struct screen *screen, SDL_Rect box, const struct view_mark *mark) {
    struct style number = {
        .face = FACE_BOLD, .size = 56, .floor = FLOOR_BENCH, .colour = THEME_INK};
    struct style small = {
        .face = FACE_REGULAR, .size = 34, .floor = FLOOR_BENCH, .colour = THEME_SOFT};
    pen_text(screen, cell_down(box, 3, 0, 0), &number, mark->inches);
    pen_text(screen, cell_down(box, 3, 1, 0), &number, mark->millimetres);
    pen_text(screen, cell_down(box, 3, 2, 0), &small, mark->rounding);
}

static void draw_mark(struct screen *screen, SDL_Rect box, const struct view_mark *mark) {
    struct style unit = {.face = FACE_BOLD, .size = 76, .floor = FLOOR_BENCH, .colour = THEME_SOFT};
    SDL_Rect beside = cut_right(&box, box.w * (screen->portrait ? 36 : 33) / 100);
    int gap = px(screen, 26);
    int unit_width = pen_width(screen, &unit, mark->unit) + px(screen, 6);
    int height = box.h;
    int width = mark_width(screen, mark, height);
    int room = box.w - unit_width - 2 * gap;
    if (width > room) {
        height = height * room / width;
        width = mark_width(screen, mark, height);
    }
    mark_draw(screen, mark, box.x, box.y + (box.h - height) / 2, height, THEME_INK);
    pen_text(screen,
             (SDL_Rect){box.x + width + gap, box.y + (box.h + height) / 2 - px(screen, 84),
                        unit_width, px(screen, 84)},
             &unit, mark->unit);
    draw_beside(screen, beside, mark);
}

// At least a quarter of the screen's height, whatever its shape.
static int mark_height(const struct screen *screen) {
    int wish = px(screen, 276);
    int quarter = screen->height / 4 + 2;
    return wish > quarter ? wish : quarter;
}

static void draw_left(struct screen *screen, SDL_Rect box, const struct view *view) {
    const struct view_cut *cut = &view->cut;
    SDL_Rect foot;
    struct style heading = {
        .face = FACE_BOLD, .size = 46, .floor = FLOOR_BENCH, .colour = THEME_SOFT};
    struct style measure = {
        .face = FACE_BOLD, .size = 40, .floor = FLOOR_BENCH, .colour = THEME_INK};
    pen_panel(screen, box, THEME_PANEL, THEME_LINE, px(screen, 2));
    box = inset(box, px(screen, 28));
    pen_text(screen, cut_top(&box, px(screen, 54)), &heading, cut->heading);
    cut_top(&box, px(screen, 8));
    foot = cut_bottom(&box, px(screen, 96));
    buttons_beside(screen, &foot, view);
    pen_text(screen,
             screen->portrait && buttons_count(view) > 1 ? cut_bottom(&box, px(screen, 84)) : foot,
             &measure, cut->measure);
    draw_mark(screen,
              cut_top(&box, screen->portrait ? box.h - px(screen, 240) : mark_height(screen)),
              &cut->mark);
    shaft_draw(screen, box, cut);
}

static void draw_why(struct screen *screen, SDL_Rect box, const struct view_cut *cut) {
    struct flow flow = {.floor = FLOOR_BENCH};
    const struct flow_line plain = {
        .face = FACE_REGULAR, .size = 33, .colour = THEME_INK, .before = 8};
    struct flow_line line;
    pen_panel(screen, box, THEME_PANEL, THEME_LINE, px(screen, 2));
    box = inset(box, px(screen, 28));
    flow_add(&flow, (struct flow_line){
                        .text = cut->build, .face = FACE_BOLD, .size = 40, .colour = THEME_INK});
    line = plain;
    line.colour = THEME_SOFT;
    line.text = cut->head;
    flow_add(&flow, line);
    line.text = cut->shaft;
    flow_add(&flow, line);
    flow_add(
        &flow,
        (struct flow_line){
            .text = cut->why, .face = FACE_BOLD, .size = 40, .colour = THEME_INK, .before = 30});
    for (size_t i = 0; i < cut->receipt_count; i++) {
        line = plain;
        line.text = cut->receipt[i].text;
        line.right = cut->receipt[i].amount;
        flow_add(&flow, line);
    }
    flow_add(&flow, (struct flow_line){.text = cut->total.text,
                                       .right = cut->total.amount,
                                       .face = FACE_BOLD,
                                       .size = 36,
                                       .colour = THEME_INK,
                                       .before = 24,
                                       .rule = true});
    for (size_t i = 0; i < cut->warning_count; i++) {
        line = plain;
        line.text = cut->warning[i];
        line.boxed = true;
        line.before = 14;
        flow_add(&flow, line);
    }
    line = plain;
    line.text = cut->next;
    line.colour = THEME_SOFT;
    line.before = 24;
    flow_add(&flow, line);
    flow_draw(screen, box, &flow);
}

void draw_cut(struct screen *screen, SDL_Rect body, const struct view *view) {
    int gap = px(screen, 24);
    // A club with much to say about it gets a wider slip; the mark keeps its height.
    int share = view->cut.warning_count + view->cut.receipt_count > 6 ? 46 : 37;
    SDL_Rect why = screen->portrait ? cut_bottom(&body, body.h * (share > 40 ? 49 : 44) / 100)
                                    : cut_right(&body, body.w * share / 100);
    if (screen->portrait) {
        cut_bottom(&body, gap);
    } else {
        cut_right(&body, gap);
    }
    draw_left(screen, body, view);
    draw_why(screen, why, &view->cut);
}
