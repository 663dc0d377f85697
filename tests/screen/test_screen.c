// Draws every view at every size that matters and asks the drawing what went wrong; checks contrast
// and touch targets; compares with the pictures kept in tests/golden.

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "golden.h"
#include "opened.h"
#include "pen.h"
#include "views.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const int sizes[][2] = {{1920, 1080}, {1280, 720},  {1024, 600}, {1080, 1920},
                               {3840, 2160}, {1280, 1024}, {600, 1024}};

static struct screen *open_screen(int width, int height) {
    return opened_screen((struct screen_options){.width = width, .height = height});
}

static int lay_out_all(struct screen_options options, bool stretched) {
    static struct view view;
    struct screen *screen = opened_screen(options);
    char problems[4096];
    int found = 0;
    size_t fixture_count;
    const struct fixture *fixtures = views_all(&fixture_count);
    for (size_t i = 0; i < fixture_count; i++) {
        int count;
        if (stretched && fixtures[i].use == FIXTURE_LONGEST) {
            continue;
        }
        fixtures[i].fill(&view);
        if (stretched) {
            views_stretch(&view);
        }
        lay_out(screen, &view);
        count = screen_problems(screen, problems, sizeof problems);
        if (count != 0) {
            print_error("%s at %dx%d%s: %s\n", fixtures[i].name, options.width, options.height,
                        stretched ? ", stretched" : "", problems);
        }
        found += count;
    }
    screen_close(screen);
    return found;
}

static struct screen_options sized(size_t at) {
    return (struct screen_options){.width = sizes[at][0], .height = sizes[at][1]};
}

static void fits_every_size(void **state) {
    (void)state;
    for (size_t i = 0; i < sizeof sizes / sizeof sizes[0]; i++) {
        assert_int_equal(lay_out_all(sized(i), false), 0);
    }
}

static void fits_longer_words(void **state) {
    (void)state;
    for (size_t i = 0; i < 5; i++) {
        assert_int_equal(lay_out_all(sized(i), true), 0);
    }
}

static void fits_mirrored_and_in_contrast(void **state) {
    (void)state;
    for (size_t i = 0; i < sizeof sizes / sizeof sizes[0]; i++) {
        struct screen_options options = sized(i);
        options.mirrored = true;
        options.theme = SCREEN_THEME_CONTRAST;
        assert_int_equal(lay_out_all(options, false), 0);
    }
}

static void notices_what_does_not_fit(void **state) {
    static struct view view;
    struct screen *screen = open_screen(1024, 600);
    char problems[4096];
    (void)state;
    views_fill("pair", &view);
    for (size_t i = 0; i < sizeof view.card[0].title - 1; i++) {
        view.card[0].title[i] = 'W';
    }
    view.card[0].title[sizeof view.card[0].title - 1] = '\0';
    screen_draw(screen, &view);
    assert_true(screen_problems(screen, problems, sizeof problems) > 0);
    screen_close(screen);
}

// The tallest text of a cut view, in landscape, against the height of the screen.
static void mark_fills_a_quarter(void **state) {
    static const char *const names[] = {"tip-cut", "butt-cut", "tip-cut-right-mm", "cut-long"};
    static struct view view;
    (void)state;
    for (size_t i = 0; i < 3; i++) {
        struct screen *screen = open_screen(sizes[i][0], sizes[i][1]);
        for (size_t n = 0; n < sizeof names / sizeof names[0]; n++) {
            int tallest = 0;
            views_fill(names[n], &view);
            screen_draw(screen, &view);
            for (size_t t = 0; t < screen->text_count; t++) {
                tallest = screen->text[t].box.h > tallest ? screen->text[t].box.h : tallest;
            }
            assert_true(tallest * 4 >= sizes[i][1]);
        }
        screen_close(screen);
    }
}

static struct hit hit_of(const struct screen *screen, enum view_action_id action,
                         int64_t argument) {
    for (size_t i = 0; i < screen->hit_count; i++) {
        if (screen->hit[i].action == action && screen->hit[i].argument == argument) {
            return screen->hit[i];
        }
    }
    fail_msg("nothing to touch for action %d, %lld", action, (long long)argument);
    return screen->hit[0];
}

static void touches_reach_their_action(void **state) {
    static struct view view;
    struct screen *screen = open_screen(1280, 720);
    static const struct {
        const char *view;
        enum view_action_id action;
        int64_t argument;
    } wanted[] = {{"tip-cut", ACTION_PRESS, 0},
                  {"tip-cut", ACTION_HELD, 0},
                  {"tip-cut", ACTION_START_OVER, 0},
                  {"dry-fit", ACTION_KEY, '7'},
                  {"dry-fit", ACTION_KEY, '\b'},
                  {"dry-fit", ACTION_KEY, VIEW_KEY_SIXTEENTH + 15},
                  {"dry-fit", ACTION_FIELD, 1},
                  {"measure", ACTION_PICK, 41 * LENGTH_INCH + 10 * LENGTH_INCH / 16},
                  {"pin", ACTION_KEY, '0'},
                  {"log", ACTION_ROW, 12303},
                  {"log", ACTION_DECIDE_SCRAP, 0}};
    (void)state;
    for (size_t i = 0; i < sizeof wanted / sizeof wanted[0]; i++) {
        struct hit wish;
        struct hit found;
        views_fill(wanted[i].view, &view);
        screen_draw(screen, &view);
        wish = hit_of(screen, wanted[i].action, wanted[i].argument);
        found = touch_find(screen, wish.box.x + 3, wish.box.y + 3);
        assert_int_equal(found.action, wanted[i].action);
        assert_int_equal(found.argument, wanted[i].argument);
    }
    assert_int_equal(touch_find(screen, -1, -1).action, ACTION_NONE);
    screen_close(screen);
}

static void keys_have_their_codes(void **state) {
    (void)state;
    // linux/input-event-codes.h: KEY_A 30, KEY_ENTER 28, KEY_F13 183, KEY_KP1 79.
    assert_int_equal(keymap_code(SDL_SCANCODE_A), 30);
    assert_int_equal(keymap_code(SDL_SCANCODE_RETURN), 28);
    assert_int_equal(keymap_code(SDL_SCANCODE_F13), 183);
    assert_int_equal(keymap_code(SDL_SCANCODE_KP_1), 79);
    assert_int_equal(keymap_code(SDL_SCANCODE_UNKNOWN), 0);
    assert_true(keymap_named("F3", SDL_SCANCODE_F3));
    assert_false(keymap_named("F3", SDL_SCANCODE_F4));
    assert_false(keymap_named("1", SDL_SCANCODE_1));
}

static const int kept[][2] = {{1280, 720}, {1024, 600}, {720, 1280}};

static void looks_as_it_did(void **state) {
    static struct view view;
    int different = 0;
    size_t fixture_count;
    const struct fixture *fixtures = views_all(&fixture_count);
    (void)state;
    for (size_t s = 0; s < 3; s++) {
        struct screen *screen = open_screen(kept[s][0], kept[s][1]);
        for (size_t i = 0; i < fixture_count; i++) {
            char name[64];
            if (fixtures[i].use != FIXTURE_KEPT) {
                continue;
            }
            fixtures[i].fill(&view);
            screen_draw(screen, &view);
            snprintf(name, sizeof name, "%s-%dx%d", fixtures[i].name, kept[s][0], kept[s][1]);
            different += golden_same(screen, name) ? 0 : 1;
        }
        screen_close(screen);
    }
    assert_int_equal(different, 0);
}

static int kept_differ(const char *kind, struct screen_options options, const char *const *names,
                       size_t count) {
    int different = 0;
    for (size_t s = 0; s < sizeof kept / sizeof kept[0]; s++) {
        static struct view view;
        struct screen *screen;
        options.width = kept[s][0];
        options.height = kept[s][1];
        screen = opened_screen(options);
        for (size_t i = 0; i < count; i++) {
            char name[64];
            views_fill(names[i], &view);
            screen_draw(screen, &view);
            snprintf(name, sizeof name, "%s-%s-%dx%d", kind, names[i], kept[s][0], kept[s][1]);
            different += golden_same(screen, name) ? 0 : 1;
        }
        screen_close(screen);
    }
    return different;
}

static void looks_as_it_did_in_contrast(void **state) {
    static const char *const names[] = {"tip-cut", "hold", "dry-fit", "log"};
    struct screen_options options = {.theme = SCREEN_THEME_CONTRAST};
    (void)state;
    assert_int_equal(kept_differ("contrast", options, names, 4), 0);
}

static void looks_as_it_did_mirrored(void **state) {
    static const char *const names[] = {"tip-cut", "dry-fit"};
    struct screen_options options = {.mirrored = true};
    (void)state;
    assert_int_equal(kept_differ("mirrored", options, names, 2), 0);
}

static void looks_as_it_did_from_afar(void **state) {
    static const char *const names[] = {"tip-cut", "hold"};
    struct screen_options options = {.distance_mm = 3000};
    (void)state;
    assert_int_equal(kept_differ("afar", options, names, 2), 0);
}

// What is touched lies at the hand: keys and buttons, each against the same of the other bench.
static void mirrors_what_is_touched(void **state) {
    static const struct {
        const char *view;
        enum view_action_id action;
        int64_t argument;
        int slack;
    } wanted[] = {{"tip-cut", ACTION_START_OVER, 0, 8}, {"tip-cut", ACTION_HELD, 0, 8},
                  {"dry-fit", ACTION_KEY, '8', 300},    {"dry-fit", ACTION_BACK, 0, 8},
                  {"pin", ACTION_KEY, '5', 8},          {"log", ACTION_DECIDE_SCRAP, 0, 8}};
    (void)state;
    for (size_t i = 0; i < sizeof wanted / sizeof wanted[0]; i++) {
        static struct view view;
        int middle[2];
        views_fill(wanted[i].view, &view);
        for (int mirrored = 0; mirrored < 2; mirrored++) {
            struct screen *screen = opened_screen(
                (struct screen_options){.width = 1280, .height = 720, .mirrored = mirrored == 1});
            SDL_Rect box;
            lay_out(screen, &view);
            box = hit_of(screen, wanted[i].action, wanted[i].argument).box;
            middle[mirrored] = box.x + box.w / 2;
            screen_close(screen);
        }
        // Keys keep their order, so the seven is not where the nine was.
        if (abs(middle[0] + middle[1] - 1280) > wanted[i].slack) {
            fail_msg("%s: action %d lies at %d, mirrored at %d", wanted[i].view, wanted[i].action,
                     middle[0], middle[1]);
        }
    }
}

int main(int argc, char **argv) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(fits_every_size),
        cmocka_unit_test(fits_longer_words),
        cmocka_unit_test(notices_what_does_not_fit),
        cmocka_unit_test(mark_fills_a_quarter),
        cmocka_unit_test(touches_reach_their_action),
        cmocka_unit_test(keys_have_their_codes),
        cmocka_unit_test(looks_as_it_did),
        cmocka_unit_test(looks_as_it_did_in_contrast),
        cmocka_unit_test(looks_as_it_did_mirrored),
        cmocka_unit_test(looks_as_it_did_from_afar),
        cmocka_unit_test(mirrors_what_is_touched),
        cmocka_unit_test(fits_mirrored_and_in_contrast),
    };
    golden_update = argc > 1 && strcmp(argv[1], "--update") == 0;
    return cmocka_run_group_tests(tests, NULL, NULL);
}
