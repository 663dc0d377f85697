// The picture is the instruction: the shaft as it lies, waste hatched, keep solid, the blade on the
// waste side of the mark, the ruler's zero at the end it is measured from. Not to scale along its
// length, and broken to say so: a mark of an inch on a four-foot shaft would not be seen.

#include "pen.h"

#include <math.h>
#include <stdio.h>

#define WASTE_MIN 23 // percent of the picture's width
#define WASTE_MAX 38
#define TIP_THICK 70 // percent of the butt's thickness
#define BREAK_AT 82  // percent of the kept part, seen from the mark
#define SAMPLES 2

struct picture {
    const struct theme *theme;
    SDL_Rect shaft;
    int mark;        // x of the mark
    int gap;         // x of the middle of the break
    bool waste_left; // the waste lies on the left of the mark
    bool tip_left;
};

static struct picture plan_picture(const struct theme *theme, SDL_Rect box,
                                   const struct view_cut *cut) {
    struct picture picture = {.theme = theme, .shaft = box, .tip_left = !cut->tip_right};
    length_nm waste = cut->butt ? cut->piece - cut->mark.value : cut->mark.value;
    int64_t percent = cut->piece > 0 ? waste * 250 / cut->piece : WASTE_MIN;
    int width;
    percent = percent < WASTE_MIN ? WASTE_MIN : percent > WASTE_MAX ? WASTE_MAX : percent;
    picture.waste_left = cut->butt ? cut->tip_right : !cut->tip_right;
    width = (int)(box.w * percent / 100);
    picture.mark = picture.waste_left ? box.x + width : box.x + box.w - width;
    width = (box.w - width) * BREAK_AT / 100;
    picture.gap = picture.waste_left ? picture.mark + width : picture.mark - width;
    return picture;
}

struct ink {
    SDL_Color colour;
    bool clear;
};

// What is at x, y of the tube's own box; `pen` is the thickness of its outline.
static struct ink ink_at(const struct picture *picture, float x, float y, float pen) {
    float width = (float)picture->shaft.w;
    float height = (float)picture->shaft.h;
    float along = picture->tip_left ? x / width : 1.0f - x / width;
    float half = height * (TIP_THICK + (100 - TIP_THICK) * along) / 200.0f;
    float off = fabsf(y - height / 2.0f);
    float slant = (y - height / 2.0f) * 0.3f;
    float from_gap = fabsf(x - (float)(picture->gap - picture->shaft.x) - slant);
    bool waste = (x < (float)(picture->mark - picture->shaft.x)) == picture->waste_left;
    if (off > half || from_gap < 2.0f * pen) {
        return (struct ink){picture->theme->ink, true};
    }
    if (off > half - pen || from_gap < 3.0f * pen || x < pen || x > width - pen) {
        return (struct ink){picture->theme->ink, false};
    }
    if (waste) {
        bool line = fmodf(x + y, 6.0f * pen) < 2.0f * pen;
        return (struct ink){line ? picture->theme->hatch : picture->theme->waste, false};
    }
    return (struct ink){picture->theme->steel, false};
}

static Uint32 pixel_at(const struct picture *picture, int x, int y, float pen) {
    unsigned sum[4] = {0, 0, 0, 0};
    unsigned seen = 0;
    for (int s = 0; s < SAMPLES * SAMPLES; s++) {
        int line = s / SAMPLES;
        struct ink ink = ink_at(picture, (float)x + ((float)(s % SAMPLES) + 0.5f) / SAMPLES,
                                (float)y + ((float)line + 0.5f) / SAMPLES, pen);
        if (!ink.clear) {
            seen++;
            sum[0] += ink.colour.r;
            sum[1] += ink.colour.g;
            sum[2] += ink.colour.b;
        }
    }
    if (seen == 0) {
        return 0;
    }
    return seen * 255 / (SAMPLES * SAMPLES) << 24 | sum[0] / seen << 16 | sum[1] / seen << 8 |
           sum[2] / seen;
}

static SDL_Surface *paint(const struct picture *picture, float pen) {
    SDL_Surface *surface = SDL_CreateRGBSurfaceWithFormat(0, picture->shaft.w, picture->shaft.h, 32,
                                                          SDL_PIXELFORMAT_ARGB8888);
    if (surface == NULL) {
        return NULL;
    }
    for (int y = 0; y < surface->h; y++) {
        Uint32 *row = (Uint32 *)((Uint8 *)surface->pixels + y * surface->pitch);
        for (int x = 0; x < surface->w; x++) {
            row[x] = pixel_at(picture, x, y, pen);
        }
    }
    return surface;
}

static void draw_tube(struct screen *screen, const struct picture *picture) {
    char key[64];
    SDL_Texture *texture;
    if (screen->dry) {
        return;
    }
    snprintf(key, sizeof key, "\x03%d %d %d %d %d", picture->shaft.w, picture->shaft.h,
             picture->mark - picture->shaft.x, picture->waste_left, picture->tip_left);
    texture = images_find(screen, key, NULL);
    if (texture == NULL) {
        texture = images_keep(screen, key, paint(picture, (float)px(screen, 3)));
    }
    SDL_RenderCopy(screen->renderer, texture, NULL, &picture->shaft);
}

// The ruler from its zero, at the end the mark is measured from, to the mark.
static void draw_ruler(struct screen *screen, const struct picture *picture, SDL_Rect box) {
    int line = px(screen, 3);
    int zero = picture->tip_left ? picture->shaft.x : picture->shaft.x + picture->shaft.w - line;
    int from = zero < picture->mark ? zero : picture->mark;
    int to = zero < picture->mark ? picture->mark : zero;
    int tick = px(screen, 20);
    int width = px(screen, 40);
    struct style style = {.face = FACE_BOLD,
                          .size = 30,
                          .floor = FLOOR_BENCH,
                          .colour = screen->theme->ink,
                          .top = true};
    pen_fill(screen, (SDL_Rect){from, box.y, to - from, line}, screen->theme->ink);
    pen_fill(screen, (SDL_Rect){zero, box.y, line, tick}, screen->theme->ink);
    pen_fill(screen, (SDL_Rect){picture->mark - line / 2, box.y, line, tick}, screen->theme->ink);
    for (int i = 1; i < 8; i++) {
        int x = from + (to - from) * i / 8;
        pen_fill(screen, (SDL_Rect){x, box.y, px(screen, 2), i == 4 ? tick * 3 / 4 : tick / 2},
                 screen->theme->ink);
    }
    style.align = picture->tip_left ? ALIGN_LEFT : ALIGN_RIGHT;
    pen_text(screen,
             (SDL_Rect){picture->tip_left ? zero + 2 * line : zero - width - line, box.y + line,
                        width, box.h},
             &style, "0");
}

static void draw_blade(struct screen *screen, const struct picture *picture, int top, int bottom) {
    int kerf = px(screen, 9);
    int line = px(screen, 3);
    int x = picture->waste_left ? picture->mark - kerf : picture->mark;
    int head = px(screen, 38);
    pen_fill(screen, (SDL_Rect){x, top + head / 2, kerf, bottom - top - head / 2},
             screen->theme->stop.fill);
    pen_shape(screen, SHAPE_MARK, (SDL_Rect){x + kerf / 2 - head / 2, top, head, head},
              screen->theme->stop.fill);
    pen_fill(screen, (SDL_Rect){picture->mark - line / 2, top + head, line, bottom - top - head},
             screen->theme->ink);
}

// The words stand in the shaft itself, those of the waste on a plate, clear of its hatching.
static void draw_words(struct screen *screen, const struct picture *picture,
                       const struct view_cut *cut) {
    SDL_Rect left = picture->shaft;
    SDL_Rect right = picture->shaft;
    SDL_Rect *keep_box = picture->waste_left ? &right : &left;
    SDL_Rect *waste_box = picture->waste_left ? &left : &right;
    struct style waste = {.face = FACE_REGULAR,
                          .size = 34,
                          .floor = FLOOR_BENCH,
                          .colour = screen->theme->ink,
                          .align = ALIGN_CENTRE};
    struct style keep = {.face = FACE_BOLD,
                         .size = 38,
                         .floor = FLOOR_BENCH,
                         .colour = screen->theme->ink,
                         .align = picture->waste_left ? ALIGN_LEFT : ALIGN_RIGHT};
    int edge = px(screen, 26);
    int width;
    left.w = picture->mark - left.x - edge;
    right.x = picture->mark + edge;
    right.w = picture->shaft.x + picture->shaft.w - right.x;
    width = pen_width(screen, &waste, cut->waste) + px(screen, 24);
    width = width < waste_box->w ? width : waste_box->w;
    waste_box->x += (waste_box->w - width) / 2;
    waste_box->w = width;
    waste_box->y += (waste_box->h - px(screen, 44)) / 2;
    waste_box->h = px(screen, 44);
    pen_panel(screen, *waste_box, screen->theme->waste, screen->theme->waste, 0);
    pen_text(screen, *waste_box, &waste, cut->waste);
    if (picture->waste_left) {
        keep_box->w = picture->gap - px(screen, 24) - keep_box->x;
    } else {
        cut_left(keep_box, picture->gap + px(screen, 24) - keep_box->x);
    }
    pen_text(screen, *keep_box, &keep, cut->keep);
}

void shaft_draw(struct screen *screen, SDL_Rect box, const struct view_cut *cut) {
    struct style blade = {
        .face = FACE_BOLD, .size = 32, .floor = FLOOR_BENCH, .colour = screen->theme->stop.fill};
    SDL_Rect above = cut_top(&box, px(screen, 46));
    SDL_Rect ruler = cut_bottom(&box, px(screen, 46));
    int tall = px(screen, 100);
    SDL_Rect tube = {box.x, box.y + px(screen, 4), box.w,
                     (box.h < tall ? box.h : tall) - px(screen, 8)};
    struct picture picture = plan_picture(screen->theme, tube, cut);
    int edge = px(screen, 32);
    ruler.y = tube.y + tube.h + px(screen, 4);
    above.w =
        picture.waste_left ? tube.x + tube.w - picture.mark - edge : picture.mark - tube.x - edge;
    above.x = picture.waste_left ? picture.mark + edge : tube.x;
    blade.align = picture.waste_left ? ALIGN_LEFT : ALIGN_RIGHT;
    draw_tube(screen, &picture);
    draw_ruler(screen, &picture, ruler);
    draw_blade(screen, &picture, above.y, ruler.y + px(screen, 20));
    pen_text(screen, above, &blade, cut->blade);
    draw_words(screen, &picture, cut);
}
