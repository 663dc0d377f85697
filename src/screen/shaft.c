// The picture is the instruction: the shaft as it lies, waste hatched, keep solid, the blade on the
// waste side of the mark, the ruler's zero at the end it is measured from. Not to scale along its
// length: a mark of an inch on a four-foot shaft would not be seen.

#include "pen.h"

#define WASTE_MIN 20 // percent of the picture's width
#define WASTE_MAX 38

struct picture {
    SDL_Rect shaft;
    int mark;        // x of the mark
    bool waste_left; // the waste lies on the left of it
    bool tip_left;
};

static struct picture plan_picture(SDL_Rect box, const struct view_cut *cut) {
    struct picture picture = {.tip_left = !cut->tip_right};
    length_nm waste = cut->butt ? cut->piece - cut->mark.value : cut->mark.value;
    int64_t percent = cut->piece > 0 ? waste * 250 / cut->piece : WASTE_MIN;
    int width;
    percent = percent < WASTE_MIN ? WASTE_MIN : percent > WASTE_MAX ? WASTE_MAX : percent;
    picture.shaft = box;
    picture.waste_left = cut->butt ? cut->tip_right : !cut->tip_right;
    width = (int)(box.w * percent / 100);
    picture.mark = picture.waste_left ? box.x + width : box.x + box.w - width;
    return picture;
}

// Thickness of the shaft at x: the tip is thin, the butt thick.
static int thickness(const struct picture *picture, int x) {
    int along = picture->tip_left ? x - picture->shaft.x : picture->shaft.x + picture->shaft.w - x;
    return picture->shaft.h * (58 + 42 * along / picture->shaft.w) / 100;
}

static void draw_tube(struct screen *screen, const struct picture *picture) {
    const SDL_Rect *shaft = &picture->shaft;
    int step = px(screen, 16);
    for (int x = shaft->x; x < shaft->x + shaft->w; x++) {
        bool waste = (x < picture->mark) == picture->waste_left;
        int thick = thickness(picture, x);
        SDL_Rect column = {x, shaft->y + (shaft->h - thick) / 2, 1, thick};
        pen_fill(screen, column, waste ? THEME_WASTE : THEME_STEEL);
        if (waste) {
            for (int y = 0; y < thick; y++) {
                if ((x + y) % step < step * 2 / 5) {
                    pen_fill(screen, (SDL_Rect){x, column.y + y, 1, 1}, THEME_HATCH);
                }
            }
        }
        pen_fill(screen, (SDL_Rect){x, column.y, 1, px(screen, 3)}, THEME_INK);
        pen_fill(screen, (SDL_Rect){x, column.y + thick - px(screen, 3), 1, px(screen, 3)},
                 THEME_INK);
    }
}

// The ruler from its zero, at the end the mark is measured from, to the mark.
static void draw_ruler(struct screen *screen, const struct picture *picture, int y) {
    bool zero_left = picture->tip_left;
    int zero = zero_left ? picture->shaft.x : picture->shaft.x + picture->shaft.w - px(screen, 3);
    int from = zero < picture->mark ? zero : picture->mark;
    int to = zero < picture->mark ? picture->mark : zero;
    int tick = px(screen, 22);
    struct style style = {
        .face = FACE_BOLD, .size = 28, .floor = FLOOR_BENCH, .colour = THEME_INK, .top = true};
    int width = px(screen, 40);
    pen_fill(screen, (SDL_Rect){from, y + tick / 2, to - from, px(screen, 3)}, THEME_INK);
    pen_fill(screen, (SDL_Rect){zero, y, px(screen, 3), tick}, THEME_INK);
    for (int i = 1; i < 8; i++) {
        int x = from + (to - from) * i / 8;
        pen_fill(screen, (SDL_Rect){x, y + tick / 2, px(screen, 2), tick / 2}, THEME_INK);
    }
    style.align = zero_left ? ALIGN_LEFT : ALIGN_RIGHT;
    pen_text(screen,
             (SDL_Rect){zero_left ? zero : zero - width, y + tick + px(screen, 2), width,
                        px(screen, 38)},
             &style, "0");
}

static void draw_blade(struct screen *screen, const struct picture *picture, int top, int bottom) {
    int kerf = px(screen, 9);
    int x = picture->waste_left ? picture->mark - kerf : picture->mark;
    int head = px(screen, 34);
    pen_fill(screen, (SDL_Rect){x, top + head, kerf, bottom - top - head}, THEME_RED);
    pen_shape(screen, SHAPE_MARK, (SDL_Rect){x + kerf / 2 - head / 2, top, head, head}, THEME_RED);
}

void shaft_draw(struct screen *screen, SDL_Rect box, const struct view_cut *cut) {
    struct style blade = {.face = FACE_BOLD, .size = 32, .floor = FLOOR_BENCH, .colour = THEME_RED};
    struct style waste = {
        .face = FACE_REGULAR, .size = 36, .floor = FLOOR_BENCH, .colour = THEME_SOFT};
    struct style keep = {.face = FACE_BOLD, .size = 38, .floor = FLOOR_BENCH, .colour = THEME_INK};
    SDL_Rect labels = cut_bottom(&box, px(screen, 52));
    SDL_Rect ruler = cut_bottom(&box, px(screen, 64));
    SDL_Rect above = cut_top(&box, box.h * 42 / 100);
    SDL_Rect tube = box;
    struct picture picture = plan_picture(tube, cut);
    SDL_Rect left = {tube.x, labels.y, picture.mark - tube.x, labels.h};
    SDL_Rect right = {picture.mark, labels.y, tube.x + tube.w - picture.mark, labels.h};
    SDL_Rect keep_box = picture.waste_left ? right : left;
    SDL_Rect waste_box = picture.waste_left ? left : right;
    SDL_Rect blade_box = {keep_box.x, above.y, keep_box.w, above.h};
    int edge = px(screen, 30);
    draw_tube(screen, &picture);
    draw_ruler(screen, &picture, ruler.y + px(screen, 4));
    draw_blade(screen, &picture, above.y, ruler.y + px(screen, 4));
    if (picture.waste_left) {
        cut_left(&blade_box, edge);
        cut_left(&keep_box, edge / 2);
    } else {
        cut_right(&blade_box, edge);
        cut_right(&keep_box, edge / 2);
        blade.align = keep.align = ALIGN_RIGHT;
        waste.align = ALIGN_RIGHT;
    }
    pen_text(screen, blade_box, &blade, cut->blade);
    pen_text(screen, waste_box, &waste, cut->waste);
    pen_text(screen, keep_box, &keep, cut->keep);
}
