// The ring round what a key would take: moved by arrow keys, one hit after the other as they were
// drawn, or up and down to the nearest. What confirms the work, the band, is never in it.

#include "pen.h"

#define RING 7        // design pixels thick
#define RING_LARGE 12 // of the one button, seen from where the worker stands
#define RIM 3         // of it, light on either side, so that it shows on every ground
#define OUTSIDE 5     // of the box

static int find(const struct screen *screen, enum view_action_id action, int64_t argument) {
    for (size_t i = 0; i < screen->hit_count; i++) {
        if (screen->hit[i].action == action && screen->hit[i].argument == argument) {
            return (int)i;
        }
    }
    return -1;
}

// The first of those that do the same.
static bool can_hold(const struct screen *screen, int at) {
    const struct hit *hit = &screen->hit[at];
    return hit->action != ACTION_PRESS && hit->action != ACTION_NONE &&
           find(screen, hit->action, hit->argument) == at;
}

static int focused(const struct screen *screen) {
    return screen->focus.action == ACTION_NONE
               ? -1
               : find(screen, screen->focus.action, screen->focus.argument);
}

// The next one, or the one before; from nowhere the first, or the last.
static int beside(const struct screen *screen, int from, int step) {
    int count = (int)screen->hit_count;
    int at = from < 0 ? (step > 0 ? -1 : count) : from;
    for (int tries = 0; tries < count; tries++) {
        at = (at + step + count) % count;
        if (can_hold(screen, at)) {
            return at;
        }
    }
    return -1;
}

static SDL_Point middle(const struct screen *screen, int at) {
    const SDL_Rect *box = &screen->hit[at].box;
    return (SDL_Point){box->x + box->w / 2, box->y + box->h / 2};
}

// The nearest above (-1) or below (1), straight before aside; none: where it is.
static int towards(const struct screen *screen, int from, int step) {
    SDL_Point here = middle(screen, from);
    int best = from;
    int least = INT32_MAX;
    for (int i = 0; i < (int)screen->hit_count; i++) {
        SDL_Point there = middle(screen, i);
        int down = (there.y - here.y) * step;
        int far = down + 3 * SDL_abs(there.x - here.x);
        if (i != from && can_hold(screen, i) && down > px(screen, 20) && far < least) {
            least = far;
            best = i;
        }
    }
    return best;
}

bool screen_focus_move(struct screen *screen, enum screen_way way) {
    int at = focused(screen);
    if (at < 0) {
        at = beside(screen, -1, way == SCREEN_WAY_BACK || way == SCREEN_WAY_UP ? -1 : 1);
    } else if (way == SCREEN_WAY_NEXT || way == SCREEN_WAY_BACK) {
        at = beside(screen, at, way == SCREEN_WAY_NEXT ? 1 : -1);
    } else {
        at = towards(screen, at, way == SCREEN_WAY_DOWN ? 1 : -1);
    }
    if (at < 0) {
        return false;
    }
    screen->focus = screen->hit[at];
    return true;
}

bool screen_focus(const struct screen *screen, enum view_action_id *ret_action,
                  int64_t *ret_argument) {
    int at = focused(screen);
    if (at < 0) {
        return false;
    }
    *ret_action = screen->hit[at].action;
    *ret_argument = screen->hit[at].argument;
    return true;
}

void screen_focus_clear(struct screen *screen) {
    screen->focus = (struct hit){.action = ACTION_NONE};
}

static void frame(struct screen *screen, SDL_Rect box, int thick, SDL_Color colour) {
    pen_fill(screen, (SDL_Rect){box.x, box.y, box.w, thick}, colour);
    pen_fill(screen, (SDL_Rect){box.x, box.y + box.h - thick, box.w, thick}, colour);
    pen_fill(screen, (SDL_Rect){box.x, box.y, thick, box.h}, colour);
    pen_fill(screen, (SDL_Rect){box.x + box.w - thick, box.y, thick, box.h}, colour);
}

static void draw(struct screen *screen, SDL_Rect box, int thick) {
    SDL_Rect all = {0, 0, screen->width, screen->height};
    int rim = px(screen, RIM);
    box = inset(box, -px(screen, OUTSIDE));
    SDL_IntersectRect(&box, &all, &box);
    frame(screen, box, px(screen, thick) + 2 * rim, screen->theme->light);
    frame(screen, inset(box, rim), px(screen, thick), screen->theme->ink);
}

void focus_draw(struct screen *screen, const struct view *view) {
    bool lone = view->ring != ACTION_NONE;
    int at = lone ? find(screen, view->ring, view->ring_argument) : focused(screen);
    if (at >= 0) {
        draw(screen, screen->hit[at].box, lone ? RING_LARGE : RING);
    }
}
