// Shapes as coverage of a unit square, sampled four by four a pixel and kept as textures.

#include "pen.h"

#include <math.h>
#include <stdio.h>

#define SAMPLES 4

// Distance from a point to the segment a-b.
static float to_segment(float x, float y, float ax, float ay, float bx, float by) {
    float dx = bx - ax;
    float dy = by - ay;
    float t = ((x - ax) * dx + (y - ay) * dy) / (dx * dx + dy * dy);
    t = t < 0.0f ? 0.0f : t > 1.0f ? 1.0f : t;
    return hypotf(x - ax - t * dx, y - ay - t * dy);
}

static bool in_triangle(float x, float y) {
    // Rounded by keeping inside an offset triangle or near its edges.
    const float round = 0.045f;
    const float top = 0.11f;
    const float base = 0.90f;
    float half = (y - top) / (base - top) * 0.43f;
    return (y >= top && y <= base && fabsf(x - 0.5f) <= half) ||
           to_segment(x, y, 0.5f, top, 0.07f, base) < round ||
           to_segment(x, y, 0.5f, top, 0.93f, base) < round ||
           to_segment(x, y, 0.07f, base, 0.93f, base) < round;
}

static bool inside(enum shape shape, float x, float y) {
    float dx = fabsf(x - 0.5f);
    float dy = fabsf(y - 0.5f);
    float r = hypotf(dx, dy);
    switch (shape) {
    case SHAPE_DISC:
        return r <= 0.5f;
    case SHAPE_RING:
        return r <= 0.5f && r >= 0.345f;
    case SHAPE_TRIANGLE:
        return in_triangle(x, y);
    case SHAPE_OCTAGON:
        return dx <= 0.5f && dy <= 0.5f && dx + dy <= 0.7071f;
    case SHAPE_TICK:
        return to_segment(x, y, 0.12f, 0.55f, 0.40f, 0.82f) < 0.085f ||
               to_segment(x, y, 0.40f, 0.82f, 0.88f, 0.20f) < 0.085f;
    case SHAPE_CROSS:
        return to_segment(x, y, 0.15f, 0.15f, 0.85f, 0.85f) < 0.085f ||
               to_segment(x, y, 0.15f, 0.85f, 0.85f, 0.15f) < 0.085f;
    case SHAPE_ARROW_LEFT:
        return to_segment(x, y, 0.15f, 0.5f, 0.9f, 0.5f) < 0.06f ||
               to_segment(x, y, 0.15f, 0.5f, 0.42f, 0.24f) < 0.06f ||
               to_segment(x, y, 0.15f, 0.5f, 0.42f, 0.76f) < 0.06f;
    case SHAPE_BANG:
        return to_segment(x, y, 0.5f, 0.40f, 0.5f, 0.63f) < 0.055f ||
               hypotf(x - 0.5f, y - 0.78f) < 0.062f;
    case SHAPE_BAR:
        return dx <= 0.33f && dy <= 0.085f;
    case SHAPE_MARK:
        return y <= 0.9f && dx <= (0.9f - y) * 0.55f;
    }
    return false;
}

static SDL_Surface *paint(enum shape shape, int width, int height, SDL_Color colour) {
    SDL_Surface *surface =
        SDL_CreateRGBSurfaceWithFormat(0, width, height, 32, SDL_PIXELFORMAT_ARGB8888);
    if (surface == NULL) {
        return NULL;
    }
    for (int y = 0; y < height; y++) {
        Uint32 *row = (Uint32 *)((Uint8 *)surface->pixels + y * surface->pitch);
        for (int x = 0; x < width; x++) {
            unsigned hits = 0;
            for (int s = 0; s < SAMPLES * SAMPLES; s++) {
                int line = s / SAMPLES;
                float sx = ((float)x + ((float)(s % SAMPLES) + 0.5f) / SAMPLES) / (float)width;
                float sy = ((float)y + ((float)line + 0.5f) / SAMPLES) / (float)height;
                hits += inside(shape, sx, sy) ? 1 : 0;
            }
            row[x] = hits * 255 / (SAMPLES * SAMPLES) << 24 | (Uint32)colour.r << 16 |
                     (Uint32)colour.g << 8 | colour.b;
        }
    }
    return surface;
}

static SDL_Texture *shape_texture(struct screen *screen, enum shape shape, int width, int height,
                                  SDL_Color colour) {
    char key[64];
    SDL_Texture *texture;
    snprintf(key, sizeof key, "\x01%d %d %d %02x%02x%02x", shape, width, height, colour.r, colour.g,
             colour.b);
    texture = images_find(screen, key, NULL);
    return texture != NULL ? texture
                           : images_keep(screen, key, paint(shape, width, height, colour));
}

void pen_fill(struct screen *screen, SDL_Rect box, SDL_Color colour) {
    if (screen->dry) {
        return;
    }
    SDL_SetRenderDrawColor(screen->renderer, colour.r, colour.g, colour.b, colour.a);
    SDL_RenderFillRect(screen->renderer, &box);
}

void pen_shape(struct screen *screen, enum shape shape, SDL_Rect box, SDL_Color colour) {
    if (box.w > 0 && box.h > 0 && !screen->dry) {
        SDL_RenderCopy(screen->renderer, shape_texture(screen, shape, box.w, box.h, colour), NULL,
                       &box);
    }
}

static void rounded(struct screen *screen, SDL_Rect box, int radius, SDL_Color colour) {
    SDL_Texture *disc = NULL;
    if (screen->dry) {
        return;
    }
    disc = shape_texture(screen, SHAPE_DISC, 2 * radius, 2 * radius, colour);
    pen_fill(screen, (SDL_Rect){box.x + radius, box.y, box.w - 2 * radius, box.h}, colour);
    pen_fill(screen, (SDL_Rect){box.x, box.y + radius, radius, box.h - 2 * radius}, colour);
    pen_fill(screen, (SDL_Rect){box.x + box.w - radius, box.y + radius, radius, box.h - 2 * radius},
             colour);
    for (int corner = 0; corner < 4; corner++) {
        int right = corner % 2;
        int low = corner / 2;
        SDL_Rect from = {right * radius, low * radius, radius, radius};
        SDL_Rect to = {box.x + right * (box.w - radius), box.y + low * (box.h - radius), radius,
                       radius};
        SDL_RenderCopy(screen->renderer, disc, &from, &to);
    }
}

void pen_panel(struct screen *screen, SDL_Rect box, SDL_Color fill, SDL_Color line, int border) {
    int radius = px(screen, 12);
    if (border > 0) {
        border += px(screen, screen->theme->outline);
        rounded(screen, box, radius, line);
        box = inset(box, border);
        radius = radius > border ? radius - border : 1;
    }
    rounded(screen, box, radius, fill);
}

void pen_sign(struct screen *screen, SDL_Rect box, enum view_tone tone) {
    struct theme_tone colours = theme_tone(screen->theme, tone);
    switch (tone) {
    case TONE_CAUTION:
        pen_shape(screen, SHAPE_TRIANGLE, box, screen->theme->ink);
        pen_shape(screen, SHAPE_TRIANGLE,
                  (SDL_Rect){box.x + box.w * 5 / 100, box.y + box.h * 6 / 100, box.w * 90 / 100,
                             box.h * 90 / 100},
                  colours.fill);
        pen_shape(screen, SHAPE_BANG, box, screen->theme->ink);
        break;
    case TONE_STOP:
        pen_shape(screen, SHAPE_OCTAGON, box, colours.fill);
        pen_shape(screen, SHAPE_BAR, box, colours.text);
        break;
    case TONE_FINE:
        pen_shape(screen, SHAPE_DISC, box, colours.fill);
        pen_shape(screen, SHAPE_TICK, inset(box, box.w / 5), colours.text);
        break;
    case TONE_PLAIN:
    case TONE_WORK:
        pen_shape(screen, SHAPE_RING, box, colours.fill);
        break;
    }
}
