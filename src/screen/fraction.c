// Fractions drawn as fractions: the whole number tall, numerator over denominator beside it. The
// digits of a fraction are a little under half as high, so that both together stand as tall.

#include "pen.h"

#include <stdio.h>

#define PART 43 // percent of the height that numerator and denominator each take
#define BAR 5   // percent, thickness of the bar
#define GAP 9   // percent, between whole and fraction

struct parts {
    char whole[24];
    char numerator[8];
    char denominator[8];
    bool fraction;
};

static struct parts parts_of(const struct view_mark *mark) {
    struct parts parts = {.fraction = mark->fraction && mark->split.numerator != 0};
    if (!mark->fraction) {
        SDL_strlcpy(parts.whole, mark->large, sizeof parts.whole);
        return parts;
    }
    if (mark->split.whole != 0 || mark->split.numerator == 0) {
        snprintf(parts.whole, sizeof parts.whole, "%s%lld", mark->split.negative ? "-" : "",
                 (long long)mark->split.whole);
    }
    snprintf(parts.numerator, sizeof parts.numerator, "%d", mark->split.numerator);
    snprintf(parts.denominator, sizeof parts.denominator, "%d", mark->split.denominator);
    return parts;
}

static int fraction_width(struct screen *screen, const struct parts *parts, int height) {
    int top = pen_digits_width(screen, height * PART / 100, parts->numerator);
    int bottom = pen_digits_width(screen, height * PART / 100, parts->denominator);
    return (top > bottom ? top : bottom) + height * 8 / 100;
}

int mark_width(struct screen *screen, const struct view_mark *mark, int height) {
    struct parts parts = parts_of(mark);
    int width = parts.whole[0] != '\0' ? pen_digits_width(screen, height, parts.whole) : 0;
    if (parts.fraction) {
        width += (width > 0 ? height * GAP / 100 : 0) + fraction_width(screen, &parts, height);
    }
    return width;
}

static void draw_fraction(struct screen *screen, const struct parts *parts, int x, int y,
                          int height, const struct style *style) {
    int part = height * PART / 100;
    int bar = height * BAR / 100 > 0 ? height * BAR / 100 : 1;
    int width = fraction_width(screen, parts, height);
    int top = pen_digits_width(screen, part, parts->numerator);
    int bottom = pen_digits_width(screen, part, parts->denominator);
    pen_digits(screen, x + (width - top) / 2, y, part, style, parts->numerator);
    pen_fill(screen, (SDL_Rect){x, y + (height - bar) / 2, width, bar}, style->colour);
    pen_digits(screen, x + (width - bottom) / 2, y + height - part, part, style,
               parts->denominator);
}

static int draw_mark(struct screen *screen, const struct view_mark *mark, int x, int y, int height,
                     const struct style *style) {
    struct parts parts = parts_of(mark);
    int at = x;
    if (parts.whole[0] != '\0') {
        at += pen_digits(screen, x, y, height, style, parts.whole);
    }
    if (parts.fraction) {
        at += at > x ? height * GAP / 100 : 0;
        draw_fraction(screen, &parts, at, y, height, style);
        at += fraction_width(screen, &parts, height);
    }
    return at - x;
}

int mark_draw(struct screen *screen, const struct view_mark *mark, int x, int y, int height,
              SDL_Color colour) {
    const struct style style = {.face = FACE_BOLD, .colour = colour, .must = true};
    return draw_mark(screen, mark, x, y, height, &style);
}

void mark_in_box(struct screen *screen, const struct view_mark *mark, SDL_Rect box, int height,
                 SDL_Color colour) {
    const struct style style = {.face = FACE_BOLD, .colour = colour};
    int width;
    height = height > box.h ? box.h : height;
    width = mark_width(screen, mark, height);
    if (width > 0 && width > box.w) { // a mark without anything to draw has no width
        height = height * box.w / width;
        width = mark_width(screen, mark, height);
    }
    draw_mark(screen, mark, box.x + (box.w - width) / 2, box.y + (box.h - height) / 2, height,
              &style);
}
