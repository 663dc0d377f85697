// A walk through the desk by whatever is on the screen: in every list and form that comes up each
// action has a key, or a place that the keyboard's ring gets to.

#include "fake.h"

#include "opened.h"
#include "pen.h"

#include <stdio.h>

#define STEPS 20000
#define PAGES_MAX 256

static uint32_t seed = 20260330u;

static uint32_t any(uint32_t below) {
    seed = seed * 1664525u + 1013904223u;
    return (seed >> 8) % below;
}

static struct event touch(const struct view *view) {
    struct event event = {.kind = EVENT_ACTION, .action = ACTION_FIELD};
    uint32_t which = any((uint32_t)(view->action_count + view->form.field_count + 1));
    if (which < view->action_count) {
        event.action = (int)view->action[which].id;
        event.argument = view->action[which].argument;
    } else {
        event.argument = which - (uint32_t)view->action_count;
        event.action = view->body == VIEW_SET ? ACTION_ROW : ACTION_FIELD;
    }
    return event;
}

static bool gets_to(struct screen *screen, enum view_action_id wanted, int64_t argument) {
    screen_focus_clear(screen);
    for (size_t i = 0; i < screen->hit_count; i++) {
        enum view_action_id action;
        int64_t at;
        if (screen_focus_move(screen, SCREEN_WAY_NEXT) && screen_focus(screen, &action, &at) &&
            action == wanted && at == argument) {
            return true;
        }
    }
    return false;
}

static void look(struct screen *screen, const struct view *view, const char *where) {
    char problems[2048];
    lay_out(screen, view);
    if (screen_problems(screen, problems, sizeof problems) != 0) {
        fail_msg("%s: %s", where, problems);
    }
    for (size_t i = 0; i < view->action_count; i++) {
        const struct view_action *action = &view->action[i];
        if (action->key[0] == '\0' && !gets_to(screen, action->id, action->argument)) {
            fail_msg("%s: neither a key nor the ring for %s", where, action->label);
        }
    }
    for (size_t i = 0; view->body == VIEW_FORM && i < view->form.choice_count; i++) {
        if (!gets_to(screen, ACTION_CHOICE, (int64_t)i)) {
            fail_msg("%s: the ring never gets to %s", where, view->form.choice[i]);
        }
    }
}

static void keys_reach_everything(void **state) {
    static char seen[PAGES_MAX][64];
    static struct bench bench;
    static struct view view;
    struct screen *screen = opened_screen((struct screen_options){.width = 1280, .height = 720});
    size_t pages = 0;
    (void)state;
    for (int i = 0; i < STEPS; i++) {
        char where[64];
        size_t at = 0;
        if (i % 500 == 0) {
            bench_begin(&bench, true);
        }
        struct event event = touch(&view);
        desk_event(&bench.desk, &event);
        if (any(40) == 0) {
            bench_open(&bench, (enum desk_form)any(DESK_FORM_COUNT));
        }
        view = bench_view(&bench);
        desk_where(&bench.desk, where, sizeof where);
        while (at < pages && strcmp(seen[at], where) != 0) {
            at++;
        }
        if (at == pages && pages < PAGES_MAX) {
            SET(seen[pages], where);
            pages++;
            look(screen, &view, where);
        }
    }
    screen_close(screen);
    print_message("%zu lists and forms\n", pages);
    assert_true(pages >= DESK_FORM_COUNT);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(keys_reach_everything),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
