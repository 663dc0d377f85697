// Large digit keys, and stacked sixteenths, for gloved fingers.

#include "pen.h"
#include "tongue.h"

static void key_box(struct screen *screen, SDL_Rect box, int64_t argument) {
    pen_panel(screen, box, screen->theme->panel, screen->theme->soft, px(screen, 2));
    touch_add(screen, box, ACTION_KEY, argument);
}

static void char_key(struct screen *screen, SDL_Rect box, char character) {
    struct style style = {.face = FACE_BOLD,
                          .size = screen->body == VIEW_PIN ? 76 : 60,
                          .floor = FLOOR_BENCH,
                          .colour = screen->theme->ink,
                          .align = ALIGN_CENTRE};
    char text[2] = {character, '\0'};
    key_box(screen, box, character);
    if (character == '\b') {
        int size = box.h * 6 / 10;
        pen_shape(screen, SHAPE_ARROW_LEFT,
                  (SDL_Rect){box.x + (box.w - size) / 2, box.y + (box.h - size) / 2, size, size},
                  screen->theme->ink);
    } else if (character == ' ') {
        // A blank: the open box that stands for it on keys.
        SDL_Rect at = {box.x + box.w / 3, box.y + box.h / 2, box.w / 3, px(screen, 5)};
        int side = px(screen, 18);
        pen_fill(screen, (SDL_Rect){at.x, at.y + side - at.h, at.w, at.h}, screen->theme->ink);
        pen_fill(screen, (SDL_Rect){at.x, at.y, at.h, side}, screen->theme->ink);
        pen_fill(screen, (SDL_Rect){at.x + at.w - at.h, at.y, at.h, side}, screen->theme->ink);
    } else {
        pen_text(screen, box, &style, text);
    }
}

void keypad_draw(struct screen *screen, SDL_Rect box, bool fractions) {
    const char digits[4][3] = {
        {'7', '8', '9'}, {'4', '5', '6'}, {'1', '2', '3'}, {tongue_now()->decimal_point, '0', '/'}};
    int rows = fractions ? 5 : 4;
    int gap = px(screen, 10);
    for (int row = 0; row < 4; row++) {
        SDL_Rect line = cell_down(box, rows, row, gap);
        for (int column = 0; column < 3; column++) {
            SDL_Rect cell = cell_across(line, 3, column, gap);
            if (fractions || (digits[row][column] >= '0' && digits[row][column] <= '9')) {
                char_key(screen, cell, digits[row][column]);
            } else if (column == 2) {
                char_key(screen, cell, '\b');
            }
        }
    }
    if (fractions) {
        SDL_Rect line = cell_down(box, rows, 4, gap);
        char_key(screen, cell_across(line, 2, 0, gap), ' ');
        char_key(screen, cell_across(line, 2, 1, gap), '\b');
    }
}
