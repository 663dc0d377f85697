// How large things must be for the eyes at this distance and for gloved fingers, and what is given
// up when a view cannot hold all of it.

#include "pen.h"

#include <math.h>

#define TARGET_MM 22.0  // the breadth of a gloved finger
#define TARGET_LEAST 79 // design pixels of it on a 24 in screen: no window gives less
#define MUST_MOST 112   // design pixels of font that no view could hold more of
#define FINE 1000       // so that no pixel is rounded: the shape of a screen says it all
#define MUST_BASE 56    // that every view holds, but for the longest words

static double mm_per_pixel(int width, int height, int diagonal_mm) {
    return diagonal_mm / hypot(width, height);
}

// Twice the tangent of half the angle.
static double angle_span(void) {
    return 2.0 * tan(SCREEN_ANGLE / 2.0 / 60.0 * acos(-1.0) / 180.0);
}

int screen_reach_mm(int width, int height, int diagonal_mm) {
    struct screen screen = {.width = width * FINE,
                            .height = height * FINE,
                            .portrait = height > width,
                            .page = {width * FINE, height * FINE}};
    double caps = px(&screen, MUST_BASE) * FONTS_CAPS_PERCENT / 100.0;
    return (int)(caps * mm_per_pixel(screen.width, screen.height, diagonal_mm) / angle_span());
}

static int must_wish(struct screen *screen, double mm) {
    int caps = (int)ceil(screen->distance_mm * angle_span() / mm);
    int must = fonts_size_for_caps(screen, FACE_BOLD, caps);
    while (fonts_caps(screen, FACE_BOLD, must) < caps) {
        must++;
    }
    return SDL_min(must, px(screen, MUST_MOST));
}

// The first attempt that a view fits is drawn. The line of steps only says where one is, so it goes
// before anything shrinks; then fingers have to be more careful; then letters shrink.
bool fit_try(struct screen *screen, int attempt) {
    static const int targets[] = {100, 100, 82, 69}; // percent
    double mm = mm_per_pixel(screen->width, screen->height, screen->diagonal_mm);
    int least = px(screen, TARGET_LEAST);
    int base = px(screen, MUST_BASE);
    int percent = targets[attempt < 4 ? attempt : 3];
    if (seated_view(screen->body)) {
        screen->steps = true;
        screen->target = 0;
        screen->must = 0;
        return attempt == 0;
    }
    screen->steps = attempt == 0;
    screen->target = SDL_max(least, (int)ceil(TARGET_MM / mm * percent / 100.0));
    screen->must = must_wish(screen, mm);
    for (int i = 4; i <= attempt; i++) {
        if (screen->must == 0) {
            return false;
        }
        if (screen->steps) {
            screen->must = 0;
        } else if (screen->must * 92 / 100 > base) {
            screen->must = screen->must * 92 / 100;
        } else {
            screen->must = SDL_min(screen->must, base);
            screen->target = least;
            screen->steps = true;
        }
    }
    return true;
}

int touch_size(const struct screen *screen, int design) {
    return SDL_max(px(screen, design), screen->target);
}
