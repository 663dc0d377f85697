// The mark: one number that is read across the shop, the picture that says where, and beside it
// why.

#include "pen.h"

#define PAD 24        // design pixels, inside both panels
#define MARK_GAP 22   // right of the mark
#define STACK_MIN 150 // design pixels that decimal inches and millimetres need beside the mark

// At least a quarter of the screen's height, whatever its shape.
static int mark_height(const struct screen *screen) {
    int wish = px(screen, 272);
    int quarter = screen->page.y / 4 + 2;
    return wish > quarter ? wish : quarter;
}

// What the panel of the mark must be wide for the mark to keep its height.
static int mark_panel_min(struct screen *screen, const struct view_mark *mark) {
    return mark_width(screen, mark, mark_height(screen)) +
           px(screen, MARK_GAP + STACK_MIN + 2 * PAD) + 2;
}

static void draw_rest(struct screen *screen, SDL_Rect box, const struct view_mark *mark,
                      bool with_unit) {
    const char *const lines[] = {mark->inches, mark->millimetres};
    struct style number = {
        .face = FACE_BOLD, .size = 56, .floor = FLOOR_BENCH, .colour = screen->theme->ink};
    struct style unit = {
        .face = FACE_BOLD, .size = 64, .floor = FLOOR_BENCH, .colour = screen->theme->soft};
    struct style small = {
        .face = FACE_REGULAR, .size = 34, .floor = FLOOR_BENCH, .colour = screen->theme->soft};
    int rows = with_unit ? 4 : 3;
    if (with_unit) {
        pen_text(screen, cell_down(box, rows, 0, 0), &unit, mark->unit);
    }
    // Both numbers the same size, whatever their length.
    while (number.size > number.floor && (pen_width(screen, &number, lines[0]) > box.w ||
                                          pen_width(screen, &number, lines[1]) > box.w)) {
        number.size--;
    }
    pen_text(screen, cell_down(box, rows, rows - 3, 0), &number, lines[0]);
    pen_text(screen, cell_down(box, rows, rows - 2, 0), &number, lines[1]);
    pen_text(screen, cell_down(box, rows, rows - 1, 0), &small, mark->rounding);
}

// The mark, its unit, and the same length otherwise written: to the right of the unit when there is
// room, else under it.
static void draw_mark(struct screen *screen, SDL_Rect box, const struct view_mark *mark) {
    struct style unit = {.face = FACE_BOLD,
                         .size = 76,
                         .floor = FLOOR_BENCH,
                         .colour = screen->theme->soft,
                         .must = true};
    int gap = px(screen, MARK_GAP);
    int unit_width = pen_width(screen, &unit, mark->unit) + px(screen, 6);
    int room = box.w - px(screen, STACK_MIN) - gap;
    int height = box.h;
    int width = mark_width(screen, mark, height);
    int rest;
    if (width > room) {
        height = height * room / width;
        width = mark_width(screen, mark, height);
    }
    if (!screen->portrait && height * 4 < screen->page.y) {
        problem(screen, "mark below a quarter of the height", mark->inches);
    }
    mark_draw(screen, mark, box.x, box.y + (box.h - height) / 2, height, screen->theme->ink);
    cut_left(&box, width + gap);
    rest = box.w - unit_width - 2 * gap;
    if (rest < px(screen, 240)) {
        draw_rest(screen, box, mark, true);
        return;
    }
    pen_text(screen,
             (SDL_Rect){box.x, box.y + (box.h + height) / 2 - px(screen, 84), unit_width,
                        px(screen, 84)},
             &unit, mark->unit);
    cut_left(&box, unit_width + gap);
    rest = px(screen, 400) < box.w ? px(screen, 400) : box.w;
    draw_rest(screen, cut_right(&box, rest), mark, false);
}

static void draw_left(struct screen *screen, SDL_Rect box, const struct view *view) {
    const struct view_cut *cut = &view->cut;
    SDL_Rect foot;
    struct style heading = {
        .face = FACE_BOLD, .size = 44, .floor = FLOOR_BENCH, .colour = screen->theme->soft};
    struct style measure = {
        .face = FACE_BOLD, .size = 40, .floor = FLOOR_BENCH, .colour = screen->theme->ink};
    pen_panel(screen, box, screen->theme->panel, screen->theme->line, px(screen, 2));
    box = inset(box, px(screen, PAD));
    SDL_Rect top = cut_top(&box, px(screen, 48));
    practice_word(screen, top, view, true);
    cut_right(&top, practice_word_width(screen, view));
    pen_text(screen, top, &heading, cut->heading);
    cut_top(&box, px(screen, 20));
    struct style least = measure;
    least.size = FLOOR_BENCH;
    int width = buttons_beside_leave(screen, box.w, view);
    int words = screen->must == 0 ? pen_height(screen, &least, cut->measure, width) : 0;
    foot = cut_bottom(&box, SDL_max(touch_size(screen, 84), words));
    cut_bottom(&box, px(screen, 10));
    buttons_beside(screen, &foot, view);
    pen_text(screen,
             screen->portrait && buttons_count(view) > 1 ? cut_bottom(&box, px(screen, 84)) : foot,
             &measure, cut->measure);
    draw_mark(screen,
              cut_top(&box, screen->portrait ? box.h - px(screen, 226) : mark_height(screen)),
              &cut->mark);
    cut_top(&box, px(screen, 16));
    shaft_draw(screen, box, cut);
}

static struct flow make_why(const struct screen *screen, const struct view_cut *cut) {
    struct flow flow = {.floor = FLOOR_BENCH};
    const struct flow_line plain = {
        .face = FACE_REGULAR, .size = 33, .colour = screen->theme->ink, .before = 8};
    struct flow_line line;
    flow_add(&flow,
             (struct flow_line){
                 .text = cut->build, .face = FACE_BOLD, .size = 40, .colour = screen->theme->ink});
    line = plain;
    line.colour = screen->theme->soft;
    line.text = cut->head;
    flow_add(&flow, line);
    line.text = cut->shaft;
    flow_add(&flow, line);
    flow_add(&flow, (struct flow_line){.text = cut->why,
                                       .face = FACE_BOLD,
                                       .size = 40,
                                       .colour = screen->theme->ink,
                                       .before = 30});
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
                                       .colour = screen->theme->ink,
                                       .before = 24,
                                       .rule = true});
    for (size_t i = 0; i < cut->estimate_count; i++) {
        line = plain;
        line.text = cut->estimate[i];
        line.colour = screen->theme->soft;
        line.before = i == 0 ? 14 : 4;
        flow_add(&flow, line);
    }
    for (size_t i = 0; i < cut->warning_count; i++) {
        line = plain;
        line.text = cut->warning[i];
        line.boxed = true;
        line.bullet = BULLET_SIGN;
        line.tone = TONE_CAUTION;
        line.before = i == 0 ? 20 : 6;
        flow_add(&flow, line);
    }
    line = plain;
    line.text = cut->next;
    line.colour = screen->theme->soft;
    line.before = 24;
    flow_add(&flow, line);
    return flow;
}

// A club with much to say about it gets a wider slip, higher on a standing screen.
static SDL_Rect find_why(struct screen *screen, SDL_Rect body, const struct flow *flow, int most) {
    static const int across[] = {37, 42, 45, 47};
    static const int down[] = {42, 46, 50, 52};
    SDL_Rect box = body;
    for (int i = 0; i < 4; i++) {
        SDL_Rect rest = body;
        box = screen->portrait ? cut_bottom(&rest, body.h * down[i] / 100)
                               : cut_hand(screen, &rest, SDL_min(body.w * across[i] / 100, most));
        if (flow_scale(screen, inset(box, px(screen, PAD)), flow) >= 90) {
            break;
        }
    }
    return box;
}

void draw_cut(struct screen *screen, SDL_Rect body, const struct view *view) {
    struct flow flow = make_why(screen, &view->cut);
    int gap = px(screen, 24);
    SDL_Rect why =
        find_why(screen, body, &flow, body.w - gap - mark_panel_min(screen, &view->cut.mark));
    if (screen->portrait) {
        body.h -= why.h + gap;
    } else {
        cut_hand(screen, &body, why.w + gap);
    }
    draw_left(screen, body, view);
    pen_panel(screen, why, screen->theme->panel, screen->theme->line, px(screen, 2));
    flow_draw(screen, inset(why, px(screen, PAD)), &flow);
}

// Never to be taken for a mark to cut at: it says so above, and in the band.
void draw_shown(struct screen *screen, SDL_Rect body, const struct view *view) {
    struct style style = {.face = FACE_BOLD,
                          .size = 40,
                          .floor = FLOOR_BENCH,
                          .colour = screen->theme->ink,
                          .one_line = true};
    SDL_Rect title = cut_top(&body, px(screen, 84));
    SDL_Rect sign;
    cut_top(&body, px(screen, 16));
    pen_panel(screen, title, screen->theme->caution.pale, screen->theme->caution.line,
              px(screen, 3));
    title = inset(title, px(screen, 14));
    sign = cut_left(&title, title.h);
    pen_sign(screen, sign, TONE_CAUTION);
    cut_left(&title, px(screen, 20));
    pen_text(screen, title, &style, view->title);
    draw_cut(screen, body, view);
}
