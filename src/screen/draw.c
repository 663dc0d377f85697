// One drawing of the whole window: clear, frame, the body of this view, present.

#include "pen.h"

#include <string.h>

static void (*const bodies[])(struct screen *, SDL_Rect, const struct view *) = {
    [VIEW_MESSAGE] = draw_message, [VIEW_PAIR] = draw_pair,     [VIEW_CARE] = draw_care,
    [VIEW_CUT] = draw_cut,         [VIEW_NUMBER] = draw_number, [VIEW_NOTICE] = draw_notice,
    [VIEW_PIN] = draw_pin,         [VIEW_LOG] = draw_log,       [VIEW_ENTRY] = draw_entry,
    [VIEW_SET] = draw_set,         [VIEW_SHOWN] = draw_shown,   [VIEW_CHECK] = draw_check,
    [VIEW_DAY] = draw_day,         [VIEW_MENU] = draw_menu,     [VIEW_FORM] = draw_form,
};

static void start(struct screen *screen, const struct view *view) {
    SDL_GetRendererOutputSize(screen->renderer, &screen->width, &screen->height);
    screen->portrait = screen->height > screen->width;
    screen->body = view->body;
    screen->hit_count = 0;
    screen->text_count = 0;
    screen->problem_count = 0;
    screen->problem_used = 0;
    screen->problem[0] = '\0';
    screen->key_action_count = 0;
    for (size_t i = 0; i < view->action_count; i++) {
        if (view->action[i].enabled && view->action[i].key[0] != '\0') {
            screen->key_action[screen->key_action_count++] = view->action[i];
        }
    }
}

void screen_draw(struct screen *screen, const struct view *view) {
    SDL_Rect body;
    start(screen, view);
    SDL_SetRenderDrawColor(screen->renderer, 0, 0, 0, 0xFF);
    SDL_RenderClear(screen->renderer);
    body = frame_draw(screen, view);
    bodies[view->body](screen, body, view);
    SDL_RenderPresent(screen->renderer);
}
