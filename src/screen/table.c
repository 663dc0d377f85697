// Tables whose cells stay on one line: columns as wide as their widest cell, the letters as large
// as the box allows.

#include "pen.h"

#define COLUMN_GAP 18
#define SIGN_WIDTH 44

static int column_width(struct screen *screen, const struct table *table, int column, int size) {
    struct style style = {.face = table->widest, .size = size};
    int widest = 0;
    for (size_t row = 0; row < table->rows; row++) {
        int width = pen_width(screen, &style, table->cell[row][column]);
        widest = width > widest ? width : widest;
    }
    return widest + px(screen, COLUMN_GAP);
}

static int all_columns(struct screen *screen, struct table *table, int size) {
    int total = 0;
    for (int i = 0; i < table->columns; i++) {
        table->width[i] = column_width(screen, table, i, size);
        total += table->width[i];
    }
    return total;
}

void table_fit(struct screen *screen, struct table *table, int width) {
    int total = all_columns(screen, table, table->style.size);
    while (total > width && table->style.size > table->style.floor) {
        table->style.size--;
        total = all_columns(screen, table, table->style.size);
    }
    for (int i = 0; i < table->columns; i++) {
        table->width[i] = total > width ? table->width[i] * width / total
                                        : table->width[i] + (width - total) / table->columns;
    }
}

void table_row(struct screen *screen, const struct table *table, SDL_Rect box, size_t row,
               enum face last_face) {
    for (int i = 0; i < table->columns; i++) {
        struct style style = table->style;
        SDL_Rect cell = cut_left(&box, table->width[i]);
        cell.w -= px(screen, COLUMN_GAP) / 2;
        style.colour = row == 0 ? screen->theme->soft : style.colour;
        style.face = i == table->columns - 1 ? last_face : style.face;
        pen_text(screen, cell, &style, table->cell[row][i]);
    }
}

int table_sign_width(const struct screen *screen) {
    return px(screen, SIGN_WIDTH);
}

void table_row_toned(struct screen *screen, const struct table *table, SDL_Rect row, size_t at,
                     enum view_tone tone, bool selected) {
    bool plain = tone == TONE_PLAIN;
    int size = row.h < px(screen, 32) ? row.h : px(screen, 32);
    SDL_Rect sign = cut_left(&row, table_sign_width(screen));
    SDL_Rect all = {sign.x, row.y, sign.w + row.w, row.h};
    if (!plain || selected) {
        SDL_Color pale = plain ? screen->theme->work.pale : theme_tone(screen->theme, tone).pale;
        pen_panel(screen, all, pale, selected ? screen->theme->work.fill : pale,
                  px(screen, selected ? 4 : 1));
    }
    if (!plain) {
        pen_sign(screen,
                 (SDL_Rect){sign.x + px(screen, 8), sign.y + (sign.h - size) / 2, size, size},
                 tone);
    }
    table_row(screen, table, row, at, plain ? FACE_REGULAR : FACE_BOLD);
}
