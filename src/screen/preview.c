// What the camera sees, small and grey, with the code it found outlined.

#include "pen.h"

static SDL_Texture *paint(struct screen *screen, const struct view_preview *preview) {
    SDL_Texture *texture =
        SDL_CreateTexture(screen->renderer, SDL_PIXELFORMAT_ARGB8888, SDL_TEXTUREACCESS_STREAMING,
                          preview->width, preview->height);
    void *pixels;
    int pitch;
    if (texture == NULL) {
        return NULL;
    }
    if (SDL_LockTexture(texture, NULL, &pixels, &pitch) != 0) {
        SDL_DestroyTexture(texture);
        return NULL;
    }
    for (int y = 0; y < preview->height; y++) {
        Uint32 *row = (Uint32 *)((Uint8 *)pixels + y * pitch);
        for (int x = 0; x < preview->width; x++) {
            Uint32 grey = preview->pixels[y * preview->width + x];
            row[x] = 0xFF000000u | grey << 16 | grey << 8 | grey;
        }
    }
    SDL_UnlockTexture(texture);
    return texture;
}

// Squares along the line from a to b: as thick as wished, without a library for lines.
static void outline(struct screen *screen, SDL_Point a, SDL_Point b, int thick) {
    int dx = b.x - a.x;
    int dy = b.y - a.y;
    int steps = SDL_max(SDL_abs(dx), SDL_abs(dy));
    for (int i = 0; i <= steps; i++) {
        int x = a.x + (steps > 0 ? dx * i / steps : 0);
        int y = a.y + (steps > 0 ? dy * i / steps : 0);
        pen_fill(screen, (SDL_Rect){x - thick / 2, y - thick / 2, thick, thick},
                 screen->theme->fine_lit);
    }
}

static SDL_Point corner(const struct view_preview *preview, SDL_Rect box, int at) {
    int x = SDL_clamp(preview->corner[at].x, 0, preview->width);
    int y = SDL_clamp(preview->corner[at].y, 0, preview->height);
    return (SDL_Point){box.x + box.w * x / preview->width, box.y + box.h * y / preview->height};
}

static void draw(struct screen *screen, SDL_Rect box, const struct view_preview *preview) {
    SDL_Texture *texture = screen->dry ? NULL : paint(screen, preview);
    if (texture == NULL) {
        return;
    }
    SDL_RenderCopy(screen->renderer, texture, NULL, &box);
    SDL_DestroyTexture(texture);
    for (int i = 0; preview->found && i < 4; i++) {
        outline(screen, corner(preview, box, i), corner(preview, box, (i + 1) % 4), px(screen, 6));
    }
}

void preview_draw(struct screen *screen, SDL_Rect *body, const struct view_preview *preview) {
    int gap = px(screen, 28);
    SDL_Rect room;
    SDL_Rect box;
    if (preview->width <= 0 || preview->height <= 0) {
        return;
    }
    if (screen->portrait) {
        room = cut_bottom(body, body->h * 24 / 100);
        cut_bottom(body, gap);
    } else {
        room = cut_hand(screen, body, body->w * 30 / 100);
        cut_hand(screen, body, gap);
    }
    box = (SDL_Rect){room.x, room.y, room.w, room.w * preview->height / preview->width};
    if (box.h > room.h) {
        box.h = room.h;
        box.w = room.h * preview->width / preview->height;
    }
    pen_panel(screen, (SDL_Rect){box.x - 2, box.y - 2, box.w + 4, box.h + 4}, screen->theme->dark,
              screen->theme->dark, 0);
    draw(screen, box, preview);
}
