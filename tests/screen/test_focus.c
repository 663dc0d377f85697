// The keyboard's ring over every view there is: it gets to all that can be touched but the band,
// and can be seen wherever it is.

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "opened.h"
#include "pen.h"
#include "sight.h"
#include "views.h"

#include <string.h>

static size_t hit_at(const struct screen *screen, enum view_action_id action, int64_t argument) {
    for (size_t i = 0; i < screen->hit_count; i++) {
        if (screen->hit[i].action == action && screen->hit[i].argument == argument) {
            return i;
        }
    }
    return HITS_MAX;
}

static void walk(struct screen *screen, enum screen_way way, bool met[HITS_MAX]) {
    screen_focus_clear(screen);
    for (size_t i = 0; i < screen->hit_count + 1; i++) {
        enum view_action_id action;
        int64_t argument;
        if (screen_focus_move(screen, way) && screen_focus(screen, &action, &argument)) {
            assert_int_not_equal(action, ACTION_PRESS);
            met[hit_at(screen, action, argument)] = true;
        }
    }
}

static void gets_everywhere(void **state) {
    static const int sizes[][2] = {{1280, 720}, {600, 1024}};
    static struct view view;
    size_t count;
    const struct fixture *fixtures = views_all(&count);
    (void)state;
    for (size_t s = 0; s < 2; s++) {
        struct screen *screen =
            opened_screen((struct screen_options){.width = sizes[s][0], .height = sizes[s][1]});
        for (size_t f = 0; f < count; f++) {
            bool there[HITS_MAX + 1] = {0};
            bool back[HITS_MAX + 1] = {0};
            fixtures[f].fill(&view);
            lay_out(screen, &view);
            walk(screen, SCREEN_WAY_NEXT, there);
            walk(screen, SCREEN_WAY_BACK, back);
            for (size_t i = 0; i < screen->hit_count; i++) {
                const struct hit *hit = &screen->hit[i];
                bool first = hit_at(screen, hit->action, hit->argument) == i;
                if (first && hit->action != ACTION_PRESS && (!there[i] || !back[i])) {
                    fail_msg("%s: the ring never gets to action %d, %lld", fixtures[f].name,
                             hit->action, (long long)hit->argument);
                }
            }
            for (size_t i = 0; i < view.action_count; i++) {
                const struct view_action *action = &view.action[i];
                if (action->key[0] == '\0' &&
                    hit_at(screen, action->id, action->argument) == HITS_MAX) {
                    fail_msg("%s: no key and no place for %s", fixtures[f].name, action->label);
                }
            }
        }
        screen_close(screen);
    }
}

static void goes_up_and_down(void **state) {
    static struct view view;
    struct screen *screen = opened_screen((struct screen_options){.width = 1280, .height = 720});
    enum view_action_id action;
    int64_t argument;
    (void)state;
    views_fill("dry-fit", &view);
    lay_out(screen, &view);
    screen->focus = (struct hit){.action = ACTION_KEY, .argument = '5'};
    assert_true(screen_focus_move(screen, SCREEN_WAY_UP));
    assert_true(screen_focus(screen, &action, &argument));
    assert_int_equal(argument, '8');
    assert_true(screen_focus_move(screen, SCREEN_WAY_DOWN));
    assert_true(screen_focus_move(screen, SCREEN_WAY_DOWN));
    assert_true(screen_focus(screen, &action, &argument));
    assert_int_equal(argument, '2');
    screen_close(screen);
}

static SDL_Color pixel(struct screen *screen, int x, int y) {
    Uint8 rgb[3];
    SDL_Rect one = {x, y, 1, 1};
    assert_int_equal(SDL_RenderReadPixels(screen->renderer, &one, SDL_PIXELFORMAT_RGB24, rgb, 3),
                     0);
    return (SDL_Color){rgb[0], rgb[1], rgb[2], 255};
}

// Dark with light on either side: 7:1 against itself, so on any ground there is an edge to see.
static void is_seen(void **state) {
    static struct view view;
    (void)state;
    for (int theme = SCREEN_THEME_NORMAL; theme <= SCREEN_THEME_CONTRAST; theme++) {
        struct screen *screen = opened_screen((struct screen_options){
            .width = 1280, .height = 720, .theme = (enum screen_theme)theme});
        SDL_Rect box;
        views_fill("tip-cut", &view);
        screen_draw(screen, &view);
        while (screen->focus.action != ACTION_START_OVER) {
            assert_true(screen_focus_move(screen, SCREEN_WAY_NEXT));
        }
        screen_draw(screen, &view);
        box = screen->hit[hit_at(screen, ACTION_START_OVER, 0)].box;
        box = inset(box, -px(screen, 5));
        SDL_Color rim = pixel(screen, box.x, box.y + box.h / 2);
        SDL_Color ring = pixel(screen, box.x + px(screen, 3) + 1, box.y + box.h / 2);
        assert_true(sight_contrast(rim, ring) >= 7.0);
        views_fill("ready", &view); // another view: gone
        screen_draw(screen, &view);
        assert_int_equal(screen->focus.action, ACTION_NONE);
        screen_close(screen);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(gets_everywhere),
        cmocka_unit_test(goes_up_and_down),
        cmocka_unit_test(is_seen),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
