// Where a touch means something, and what was found wrong with the drawing.

#include "pen.h"

#include <stdio.h>

bool seated_view(enum view_body body) {
    return body == VIEW_LOG || body == VIEW_ENTRY || body == VIEW_SET || body == VIEW_DAY ||
           body == VIEW_MENU || body == VIEW_FORM;
}

void problem(struct screen *screen, const char *what, const char *text) {
    int written;
    screen->problem_count++;
    written = snprintf(screen->problem + screen->problem_used,
                       sizeof screen->problem - screen->problem_used, "%s: %s\n", what, text);
    if (written > 0 && (size_t)written < sizeof screen->problem - screen->problem_used) {
        screen->problem_used += (size_t)written;
    }
}

void touch_add(struct screen *screen, SDL_Rect box, enum view_action_id action, int64_t argument) {
    bool bench = !seated_view(screen->body);
    if (bench && (box.w < screen->target || box.h < screen->target)) {
        char size[32];
        snprintf(size, sizeof size, "%d, %d x %d", action, box.w, box.h);
        problem(screen, "touch target too small", size);
    }
    if (screen->hit_count == HITS_MAX) {
        problem(screen, "too many touch targets", "");
        return;
    }
    screen->hit[screen->hit_count++] = (struct hit){box, action, argument};
}

// The newest of those under the point: a hint drawn on the band lies over the band.
struct hit touch_find(const struct screen *screen, int x, int y) {
    SDL_Point point = {x, y};
    for (size_t i = screen->hit_count; i > 0; i--) {
        if (SDL_PointInRect(&point, &screen->hit[i - 1].box)) {
            return screen->hit[i - 1];
        }
    }
    return (struct hit){.action = ACTION_NONE};
}

int screen_problems(const struct screen *screen, char *buffer, size_t size) {
    SDL_Rect all = {0, 0, screen->width, screen->height};
    int overlaps = 0;
    int outside = 0;
    for (size_t i = 0; i < screen->text_count; i++) {
        SDL_Rect common;
        if (!SDL_IntersectRect(&screen->text[i].box, &all, &common) ||
            !SDL_RectEquals(&common, &screen->text[i].box)) {
            outside++;
        }
        for (size_t j = 0; j < i; j++) {
            overlaps += SDL_HasIntersection(&screen->text[i].box, &screen->text[j].box) ? 1 : 0;
        }
    }
    snprintf(buffer, size, "%s%d texts overlap, %d reach outside", screen->problem, overlaps,
             outside);
    return screen->problem_count + overlaps + outside;
}
