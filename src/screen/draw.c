// One drawing of the whole window: clear, frame, the body of this view, present.

#include "pen.h"

#include <string.h>

static void (*const bodies[])(struct screen *, SDL_Rect, const struct view *) = {
    [VIEW_MESSAGE] = draw_message,
    [VIEW_PAIR] = draw_pair,
    [VIEW_CARE] = draw_care,
    [VIEW_CUT] = draw_cut,
    [VIEW_NUMBER] = draw_number,
    [VIEW_NOTICE] = draw_notice,
    [VIEW_PIN] = draw_pin,
    [VIEW_LOG] = draw_log,
    [VIEW_ENTRY] = draw_entry,
    [VIEW_SET] = draw_set,
    [VIEW_SHOWN] = draw_shown,
    [VIEW_CHECK] = draw_check,
    [VIEW_SELFCHECK] = draw_selfcheck,
    [VIEW_DAY] = draw_day,
    [VIEW_MENU] = draw_menu,
    [VIEW_FORM] = draw_form,
};

static void forget(struct screen *screen) {
    screen->hit_count = 0;
    screen->text_count = 0;
    screen->problem_count = 0;
    screen->problem_used = 0;
    screen->problem[0] = '\0';
}

static void start(struct screen *screen, const struct view *view) {
    SDL_GetRendererOutputSize(screen->renderer, &screen->width, &screen->height);
    screen->portrait = screen->height > screen->width;
    screen->page = (SDL_Point){screen->width, screen->height};
    if (screen->body != view->body) {
        screen_focus_clear(screen);
    }
    screen->body = view->body;
    screen->key_action_count = 0;
    for (size_t i = 0; i < view->action_count; i++) {
        if (view->action[i].key[0] != '\0') {
            screen->key_action[screen->key_action_count++] = view->action[i];
        }
    }
}

static void draw_once(struct screen *screen, const struct view *view) {
    SDL_Rect body;
    forget(screen);
    screen->page = (SDL_Point){screen->width, screen->height};
    pen_fill(screen, (SDL_Rect){0, 0, screen->width, screen->height}, (SDL_Color){0, 0, 0, 0xFF});
    body = frame_draw(screen, view);
    bodies[view->body](screen, body, view);
    focus_draw(screen, view);
}

// True: this attempt fits.
static bool attempt_fits(struct screen *screen, const struct view *view) {
    char unsaid[1];
    draw_once(screen, view);
    return screen_problems(screen, unsaid, sizeof unsaid) == 0;
}

void lay_out(struct screen *screen, const struct view *view) {
    start(screen, view);
    screen->dry = true;
    for (int attempt = 0; fit_try(screen, attempt); attempt++) {
        if (attempt_fits(screen, view)) {
            break;
        }
    }
    screen->dry = false;
}

// Nearly all fit at once. Nothing is presented before it fits, so what did not is never seen.
void screen_draw(struct screen *screen, const struct view *view) {
    start(screen, view);
    fit_try(screen, 0);
    if (!attempt_fits(screen, view)) {
        lay_out(screen, view);
        draw_once(screen, view);
    }
    SDL_RenderPresent(screen->renderer);
}

void screen_blank(struct screen *screen) {
    static const struct view nothing; // large
    start(screen, &nothing);
    screen->cursor_free = false;
    SDL_ShowCursor(SDL_DISABLE);
    SDL_SetRenderDrawColor(screen->renderer, 0, 0, 0, 0xFF);
    SDL_RenderClear(screen->renderer);
    SDL_RenderPresent(screen->renderer);
}
