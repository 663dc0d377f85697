#include "pen.h"

int px(const struct screen *screen, int design) {
    int base = screen->portrait ? screen->page.x : screen->page.y;
    int other = screen->portrait ? screen->page.y : screen->page.x;
    int64_t pixels;
    // A window squarer than 16:9 is measured by its narrow side.
    if (other * 9 < base * 16) {
        base = other * 9 / 16;
    }
    pixels = ((int64_t)design * base + 540) / 1080;
    return pixels == 0 && design > 0 ? 1 : (int)pixels;
}

SDL_Rect cut_top(SDL_Rect *box, int size) {
    SDL_Rect piece = {box->x, box->y, box->w, size};
    box->y += size;
    box->h -= size;
    return piece;
}

SDL_Rect cut_bottom(SDL_Rect *box, int size) {
    box->h -= size;
    return (SDL_Rect){box->x, box->y + box->h, box->w, size};
}

SDL_Rect cut_left(SDL_Rect *box, int size) {
    SDL_Rect piece = {box->x, box->y, size, box->h};
    box->x += size;
    box->w -= size;
    return piece;
}

SDL_Rect cut_right(SDL_Rect *box, int size) {
    box->w -= size;
    return (SDL_Rect){box->x + box->w, box->y, size, box->h};
}

SDL_Rect cut_hand(const struct screen *screen, SDL_Rect *box, int size) {
    return screen->mirrored ? cut_left(box, size) : cut_right(box, size);
}

SDL_Rect cut_off_hand(const struct screen *screen, SDL_Rect *box, int size) {
    return screen->mirrored ? cut_right(box, size) : cut_left(box, size);
}

SDL_Rect inset(SDL_Rect box, int by) {
    return (SDL_Rect){box.x + by, box.y + by, box.w - 2 * by, box.h - 2 * by};
}

SDL_Rect cell_across(SDL_Rect box, int count, int at, int gap) {
    int left = (box.w + gap) * at / count;
    int right = (box.w + gap) * (at + 1) / count - gap;
    return (SDL_Rect){box.x + left, box.y, right - left, box.h};
}

SDL_Rect cell_down(SDL_Rect box, int count, int at, int gap) {
    int top = (box.h + gap) * at / count;
    int bottom = (box.h + gap) * (at + 1) / count - gap;
    return (SDL_Rect){box.x, box.y + top, box.w, bottom - top};
}
