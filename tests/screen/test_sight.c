// Both themes as they are drawn: contrast of every text with what it stands on, for all eyes; and
// whether tones are told apart, by colour and by the shape of their sign.

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "opened.h"
#include "pen.h"
#include "sight.h"
#include "views.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define COLOURS_MAX 64
#define SIDE 64 // of a sign

enum { TONES = 4 };
static const enum view_tone tones[TONES] = {TONE_WORK, TONE_CAUTION, TONE_STOP, TONE_FINE};

static void contrast_is_right(void **state) {
    static const SDL_Color white = {255, 255, 255, 255};
    // Check values worked out from the formula, and a published 4.54 for #767676.
    static const struct {
        SDL_Color colour;
        double on_white;
    } known[] = {{{0, 0, 0, 255}, 21.0},
                 {{0x76, 0x76, 0x76, 255}, 4.5422},
                 {{0x59, 0x59, 0x59, 255}, 7.0047},
                 {{0xFF, 0, 0, 255}, 3.9985},
                 {{0, 0, 0xFF, 255}, 8.5925}};
    (void)state;
    for (size_t i = 0; i < sizeof known / sizeof known[0]; i++) {
        assert_true(fabs(sight_contrast(known[i].colour, white) - known[i].on_white) < 0.0001);
    }
}

// Pairs 1, 4, 7, 10, 17, 20, 34 of the test data of Sharma, Wu, Dalal 2005 (Color Research and
// Application 30:21); values from memory.
static void difference_is_right(void **state) {
    static const struct {
        struct lab a;
        struct lab b;
        double difference;
    } known[] = {{{50.0, 2.6772, -79.7751}, {50.0, 0.0, -82.7485}, 2.0425},
                 {{50.0, -1.3802, -84.2814}, {50.0, 0.0, -82.7485}, 1.0000},
                 {{50.0, 0.0, 0.0}, {50.0, -1.0, 2.0}, 2.3669},
                 {{50.0, 2.49, -0.001}, {50.0, -2.49, 0.0010}, 7.1792},
                 {{50.0, 2.5, 0.0}, {73.0, 25.0, -18.0}, 27.1492},
                 {{60.2574, -34.0099, 36.2677}, {60.4626, -34.1751, 39.4387}, 1.2644},
                 {{2.0776, 0.0795, -1.1350}, {0.9033, -0.0636, -0.5514}, 0.9082}};
    (void)state;
    for (size_t i = 0; i < sizeof known / sizeof known[0]; i++) {
        double found = sight_difference_lab(known[i].a, known[i].b);
        if (fabs(found - known[i].difference) > 0.00006) {
            fail_msg("pair %zu: %.4f, wanted %.4f", i, found, known[i].difference);
        }
    }
}

static SDL_Color grey(int value) {
    return (SDL_Color){(Uint8)value, (Uint8)value, (Uint8)value, 255};
}

// A colour at chromaticity x, y with luminance `shine`.
static SDL_Color coloured(double x, double y, double shine) {
    double big_x = x / y * shine;
    double big_z = (1.0 - x - y) / y * shine;
    double c[3] = {3.2404542 * big_x - 1.5371385 * shine - 0.4985314 * big_z,
                   -0.9692660 * big_x + 1.8760108 * shine + 0.0415560 * big_z,
                   0.0556434 * big_x - 0.2040259 * shine + 1.0572252 * big_z};
    Uint8 byte[3];
    for (int i = 0; i < 3; i++) {
        assert_in_range((int)(c[i] * 1000.0), 0, 1000);
        c[i] = c[i] <= 0.0031308 ? c[i] * 12.92 : 1.055 * pow(c[i], 1.0 / 2.4) - 0.055;
        byte[i] = (Uint8)lround(c[i] * 255.0);
    }
    return (SDL_Color){byte[0], byte[1], byte[2], 255};
}

// Greys stay as they are. Two colours on a line of confusion, which passes through the copunctal
// point (Wyszecki and Stiles, Color Science; values from memory), come much closer to each other;
// two on a line across it stay apart.
static void sight_is_right(void **state) {
    static const struct {
        enum sight sight;
        double x;
        double y;
    } copunctal[] = {{SIGHT_PROTAN, 0.747, 0.253},
                     {SIGHT_MACHADO_PROTAN, 0.747, 0.253},
                     {SIGHT_DEUTAN, 1.080, -0.080},
                     {SIGHT_MACHADO_DEUTAN, 1.080, -0.080},
                     {SIGHT_MACHADO_TRITAN, 0.171, 0.0}};
    const double white_x = 0.3127;
    const double white_y = 0.3290;
    (void)state;
    for (int sight = 0; sight < SIGHT_COUNT; sight++) {
        for (int value = 0; value < 256; value += 15) {
            SDL_Color seen = sight_of((enum sight)sight, grey(value));
            assert_in_range(seen.r + 2, value, value + 4);
            assert_in_range(seen.g + 2, value, value + 4);
            assert_in_range(seen.b + 2, value, value + 4);
        }
    }
    for (size_t i = 0; i < sizeof copunctal / sizeof copunctal[0]; i++) {
        double dx = copunctal[i].x - white_x;
        double dy = copunctal[i].y - white_y;
        double step = 0.05 / hypot(dx, dy);
        SDL_Color a = coloured(white_x + dx * step, white_y + dy * step, 0.2);
        SDL_Color b = coloured(white_x - dx * step, white_y - dy * step, 0.2);
        SDL_Color c = coloured(white_x - dy * step, white_y + dx * step, 0.2);
        SDL_Color d = coloured(white_x + dy * step, white_y - dx * step, 0.2);
        double confused =
            sight_difference(sight_of(copunctal[i].sight, a), sight_of(copunctal[i].sight, b));
        double kept =
            sight_difference(sight_of(copunctal[i].sight, c), sight_of(copunctal[i].sight, d));
        if (confused > 0.35 * sight_difference(a, b) || kept < 0.6 * sight_difference(c, d)) {
            fail_msg("%s: %.1f of %.1f on the line, %.1f of %.1f across",
                     sight_names[copunctal[i].sight], confused, sight_difference(a, b), kept,
                     sight_difference(c, d));
        }
    }
}

struct picture {
    int width;
    int height;
    Uint8 *rgb;
};

static struct picture picture_of(struct screen *screen) {
    struct picture picture = {screen->width, screen->height,
                              malloc((size_t)screen->width * (size_t)screen->height * 3)};
    assert_non_null(picture.rgb);
    assert_int_equal(SDL_RenderReadPixels(screen->renderer, NULL, SDL_PIXELFORMAT_RGB24,
                                          picture.rgb, picture.width * 3),
                     0);
    return picture;
}

static bool same(SDL_Color a, SDL_Color b) {
    return a.r == b.r && a.g == b.g && a.b == b.b;
}

// What most of the box is filled with, beside its text.
static SDL_Color ground_of(const struct picture *picture, const struct drawn *text) {
    struct {
        SDL_Color colour;
        int count;
    } seen[COLOURS_MAX];
    size_t count = 0;
    size_t most = 0;
    for (int y = text->box.y; y < text->box.y + text->box.h; y++) {
        for (int x = text->box.x; x < text->box.x + text->box.w; x++) {
            const Uint8 *at = picture->rgb + 3 * ((size_t)y * (size_t)picture->width + (size_t)x);
            SDL_Color colour = {at[0], at[1], at[2], 255};
            size_t i = 0;
            if (same(colour, text->colour)) {
                continue;
            }
            while (i < count && !same(seen[i].colour, colour)) {
                i++;
            }
            if (i == count && count < COLOURS_MAX) {
                seen[count].colour = colour;
                seen[count++].count = 0;
            }
            if (i < count && ++seen[i].count > seen[most].count) {
                most = i;
            }
        }
    }
    assert_true(count > 0);
    return seen[most].colour;
}

struct least {
    double plain;
    double seen;
};

static void look(struct screen *screen, const char *name, struct least *least, double wanted) {
    struct picture picture = picture_of(screen);
    for (size_t i = 0; i < screen->text_count; i++) {
        const struct drawn *text = &screen->text[i];
        SDL_Color ground = ground_of(&picture, text);
        double ratio = sight_contrast(text->colour, ground);
        least->plain = fmin(least->plain, ratio);
        if (ratio < wanted) {
            fail_msg("%s: contrast %.2f of #%02x%02x%02x on #%02x%02x%02x at %d, %d", name, ratio,
                     text->colour.r, text->colour.g, text->colour.b, ground.r, ground.g, ground.b,
                     text->box.x, text->box.y);
        }
        for (int sight = 0; sight < SIGHT_COUNT; sight++) {
            ratio = sight_contrast(sight_of((enum sight)sight, text->colour),
                                   sight_of((enum sight)sight, ground));
            least->seen = fmin(least->seen, ratio);
        }
    }
    free(picture.rgb);
}

static void text_stands_out(enum screen_theme theme, double wanted, double seen) {
    static struct view view;
    struct screen_options options = {.width = 1280, .height = 720, .theme = theme};
    struct screen *screen = opened_screen(options);
    struct least least = {21.0, 21.0};
    size_t count;
    const struct fixture *fixtures = views_all(&count);
    for (size_t i = 0; i < count; i++) {
        fixtures[i].fill(&view);
        screen_draw(screen, &view);
        look(screen, fixtures[i].name, &least, wanted);
    }
    screen_close(screen);
    print_message("least contrast of text %.2f, %.2f in any simulated sight\n", least.plain,
                  least.seen);
    assert_true(least.seen >= seen);
}

static void text_stands_out_in_normal(void **state) {
    (void)state;
    text_stands_out(SCREEN_THEME_NORMAL, 7.0, 6.0);
}

static void text_stands_out_in_contrast(void **state) {
    (void)state;
    text_stands_out(SCREEN_THEME_CONTRAST, 10.0, 10.0);
}

// By colour alone (CIEDE2000, where 2.3 is just noticeable): at least 20 apart, for the
// colour-blind 7.5, in the theme of high contrast 12. Grey does not tell the three dark ones apart:
// that takes shape and word.
static void tones_differ_in_colour(void **state) {
    static const double wanted[] = {[SCREEN_THEME_NORMAL] = 7.5, [SCREEN_THEME_CONTRAST] = 12.0};
    (void)state;
    for (int name = SCREEN_THEME_NORMAL; name <= SCREEN_THEME_CONTRAST; name++) {
        const struct theme *theme = theme_named((enum screen_theme)name);
        for (int pair = 0; pair < TONES * TONES; pair++) {
            SDL_Color x = theme_tone(theme, tones[pair / TONES]).fill;
            SDL_Color y = theme_tone(theme, tones[pair % TONES]).fill;
            if (pair / TONES <= pair % TONES) {
                continue;
            }
            if (sight_difference(x, y) < 20.0) {
                fail_msg("theme %d: pair %d differs by %.1f", name, pair, sight_difference(x, y));
            }
            for (int sight = 0; sight < SIGHT_GREY; sight++) {
                double seen = sight_difference(sight_of((enum sight)sight, x),
                                               sight_of((enum sight)sight, y));
                if (seen < wanted[name]) {
                    fail_msg("theme %d, %s: pair %d differs by %.1f", name, sight_names[sight],
                             pair, seen);
                }
            }
        }
    }
}

static SDL_Color grey_at(const struct picture *picture, int x, int y) {
    const Uint8 *at = picture->rgb + 3 * (y * picture->width + x);
    return sight_of(SIGHT_GREY, (SDL_Color){at[0], at[1], at[2], 255});
}

// Pixels in which two signs of a row differ, without their colour.
static int shapes_differ(const struct picture *picture, int a, int b) {
    int differ = 0;
    for (int at = 0; at < SIDE * SIDE; at++) {
        int x = at % SIDE;
        int y = at / SIDE;
        double seen =
            sight_difference(grey_at(picture, a * SIDE + x, y), grey_at(picture, b * SIDE + x, y));
        differ += seen >= 20.0 ? 1 : 0;
    }
    return differ;
}

static void tones_differ_in_shape(void **state) {
    static struct view view;
    (void)state;
    for (int name = SCREEN_THEME_NORMAL; name <= SCREEN_THEME_CONTRAST; name++) {
        struct screen_options options = {
            .width = 1280, .height = 720, .theme = (enum screen_theme)name};
        struct screen *screen = opened_screen(options);
        struct picture picture;
        views_fill("ready", &view);
        screen_draw(screen, &view);
        pen_fill(screen, (SDL_Rect){0, 0, TONES * SIDE, SIDE}, screen->theme->panel);
        for (int i = 0; i < TONES; i++) {
            pen_sign(screen, (SDL_Rect){i * SIDE, 0, SIDE, SIDE}, tones[i]);
        }
        picture = picture_of(screen);
        for (int a = 0; a < TONES; a++) {
            for (int b = 0; b < a; b++) {
                int differ = shapes_differ(&picture, a, b);
                if (differ * 100 < SIDE * SIDE * 15) {
                    fail_msg("theme %d: the signs of tones %d and %d differ in %d of %d pixels",
                             name, tones[a], tones[b], differ, SIDE * SIDE);
                }
            }
        }
        free(picture.rgb);
        screen_close(screen);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(contrast_is_right),
        cmocka_unit_test(difference_is_right),
        cmocka_unit_test(sight_is_right),
        cmocka_unit_test(text_stands_out_in_normal),
        cmocka_unit_test(text_stands_out_in_contrast),
        cmocka_unit_test(tones_differ_in_colour),
        cmocka_unit_test(tones_differ_in_shape),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
