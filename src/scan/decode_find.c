#include "decode_find.h"

#include "decode_cells.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define BRIDGE 2        // cells a dust speck or a wide bar may part
#define FAINTEST 0.04f  // of the strongest cell of a patch: a fifth of its contrast
#define FAINTER 4       // from one strength of cells that patches grow from to the next
#define LINE_LEAST 40.0 // pixels across the bars
#define BARS_LEAST 5    // cells
#define SQUARE_LEAST 4  // cells a side
#define SQUARE_MOST 4   // times as long as wide: more is a line of text

void decode_find_init(struct decode_find *find) {
    *find = (struct decode_find){0};
}

void decode_find_release(struct decode_find *find) {
    free(find->cell);
    free(find->stack);
    decode_find_init(find);
}

// Sums over a patch of cells that belong together.
struct patch {
    int count;
    double weight;
    double cos2; // of the doubled angle
    double sin2;
    double x;
    double y;
    int left;
    int right;
    int top;
    int bottom;
};

static bool alike(const struct decode_cell *a, const struct decode_cell *b) {
    return b->kind == a->kind &&
           (a->kind == DECODE_CELL_SQUARE || a->cos2 * b->cos2 + a->sin2 * b->sin2 > 0.88f);
}

static void add(struct patch *patch, const struct decode_cell *cell, int column, int row) {
    double w = (double)cell->weight;
    patch->count++;
    patch->weight += w;
    patch->cos2 += w * (double)cell->cos2;
    patch->sin2 += w * (double)cell->sin2;
    patch->x += w * column;
    patch->y += w * row;
    patch->left = column < patch->left ? column : patch->left;
    patch->right = column > patch->right ? column : patch->right;
    patch->top = row < patch->top ? row : patch->top;
    patch->bottom = row > patch->bottom ? row : patch->bottom;
}

// Takes all cells that belong with `start`; they are the first of find->stack afterwards.
static struct patch flood(struct decode_find *find, int start) {
    struct patch patch = {.left = find->across, .top = find->down};
    float faintest = find->cell[start].weight * FAINTEST;
    int filled = 0;
    find->stack[filled++] = start;
    find->cell[start].taken = true;
    for (int at = 0; at < filled; at++) {
        int column = find->stack[at] % find->across;
        int row = find->stack[at] / find->across;
        const struct decode_cell *cell = &find->cell[find->stack[at]];
        add(&patch, cell, column, row);
        for (int dy = -BRIDGE; dy <= BRIDGE; dy++) {
            for (int dx = -BRIDGE; dx <= BRIDGE; dx++) {
                int x = column + dx;
                int y = row + dy;
                int next = y * find->across + x;
                if (x >= 0 && y >= 0 && x < find->across && y < find->down &&
                    !find->cell[next].taken && find->cell[next].weight >= faintest &&
                    alike(cell, &find->cell[next])) {
                    find->cell[next].taken = true;
                    find->stack[filled++] = next;
                }
            }
        }
    }
    return patch;
}

static double pixel_of(double cell) {
    return (cell + 0.5) * DECODE_CELL + 1;
}

// Lines across the bars lie across them, or askew when the label is seen askew: the patch's own
// lie tells.
static void lay_line(const struct decode_find *find, const struct patch *patch,
                     struct decode_place *place) {
    double across = 0;
    double both = 0;
    double along = 0;
    for (int i = 0; i < patch->count; i++) {
        int row = find->stack[i] / find->across;
        double x = pixel_of(find->stack[i] % find->across) - place->x;
        double y = pixel_of(row) - place->y;
        double s = x * place->line_x + y * place->line_y;
        double v = x * place->bar_x + y * place->bar_y;
        across += s * s;
        both += s * v;
        along += v * v;
    }
    if (across > 2 * along) { // else too stout to tell
        double slope = fmax(-0.5, fmin(0.5, both / across));
        double x = place->line_x + slope * place->bar_x;
        double y = place->line_y + slope * place->bar_y;
        place->line_x = x / hypot(x, y);
        place->line_y = y / hypot(x, y);
    }
}

static void measure(const struct decode_find *find, const struct patch *patch,
                    struct decode_place *place) {
    double det = place->line_x * place->bar_y - place->line_y * place->bar_x;
    double half = DECODE_CELL / 2.0;
    place->line_from = place->bar_from = INFINITY;
    place->line_to = place->bar_to = -INFINITY;
    for (int i = 0; i < patch->count; i++) {
        int row = find->stack[i] / find->across;
        double x = pixel_of(find->stack[i] % find->across) - place->x;
        double y = pixel_of(row) - place->y;
        double s = (x * place->bar_y - y * place->bar_x) / det;
        double v = (place->line_x * y - place->line_y * x) / det;
        place->line_from = fmin(place->line_from, s - half);
        place->line_to = fmax(place->line_to, s + half);
        place->bar_from = fmin(place->bar_from, v - half);
        place->bar_to = fmax(place->bar_to, v + half);
    }
}

static bool bars_of(const struct decode_find *find, const struct patch *patch,
                    struct decode_place *ret_place) {
    double angle = atan2(patch->sin2, patch->cos2) / 2;
    struct decode_place place = {.bars = true,
                                 .weight = patch->weight,
                                 .x = pixel_of(patch->x / patch->weight),
                                 .y = pixel_of(patch->y / patch->weight),
                                 .line_x = cos(angle),
                                 .line_y = sin(angle),
                                 .bar_x = -sin(angle),
                                 .bar_y = cos(angle)};
    if (patch->count < BARS_LEAST) {
        return false;
    }
    lay_line(find, patch, &place);
    measure(find, patch, &place);
    if (place.line_to - place.line_from < LINE_LEAST) {
        return false;
    }
    *ret_place = place;
    return true;
}

static bool square_of(const struct decode_find *find, const struct patch *patch,
                      struct decode_place *ret_place) {
    int across = patch->right - patch->left + 1;
    int down = patch->bottom - patch->top + 1;
    if (across < SQUARE_LEAST || down < SQUARE_LEAST || across > SQUARE_MOST * down ||
        down > SQUARE_MOST * across ||
        (across > find->across * 3 / 4 && down > find->down * 3 / 4)) {
        return false;
    }
    *ret_place = (struct decode_place){.weight = patch->weight,
                                       .left = patch->left * DECODE_CELL,
                                       .top = patch->top * DECODE_CELL,
                                       .width = across * DECODE_CELL,
                                       .height = down * DECODE_CELL};
    return true;
}

// Keeps the heaviest of a kind, the heaviest first.
static void keep(struct decode_place *kept, size_t *count, const struct decode_place *place) {
    size_t at = *count < DECODE_PLACES_MAX ? (*count)++ : DECODE_PLACES_MAX;
    while (at > 0 && kept[at - 1].weight < place->weight) {
        if (at < DECODE_PLACES_MAX) {
            kept[at] = kept[at - 1];
        }
        at--;
    }
    if (at < DECODE_PLACES_MAX) {
        kept[at] = *place;
    }
}

struct kept {
    size_t bars;
    size_t squares;
    struct decode_place square[DECODE_PLACES_MAX];
};

static void take_patch(struct decode_find *find, int start, struct kept *kept) {
    struct patch patch = flood(find, start);
    struct decode_place place;
    if (find->cell[start].kind == DECODE_CELL_BARS) {
        if (bars_of(find, &patch, &place)) {
            keep(find->place, &kept->bars, &place);
        }
    } else if (square_of(find, &patch, &place)) {
        keep(kept->square, &kept->squares, &place);
    }
}

bool decode_find_run(struct decode_find *find, const uint8_t *pixels, int width, int height) {
    struct kept kept = {0};
    int count;
    float strength = 0;
    find->count = 0;
    if (!decode_cells_measure(find, pixels, width, height)) {
        return false;
    }
    count = find->across * find->down;
    for (int i = 0; i < count; i++) {
        strength = fmaxf(strength, find->cell[i].weight);
    }
    // The strongest first: a patch ends where its surroundings are much fainter.
    strength /= FAINTER;
    while (strength > 0) {
        for (int i = 0; i < count; i++) {
            const struct decode_cell *cell = &find->cell[i];
            if (!cell->taken && cell->kind != DECODE_CELL_PLAIN && cell->weight >= strength) {
                take_patch(find, i, &kept);
            }
        }
        strength = strength < 1 ? 0 : strength / FAINTER;
    }
    memcpy(find->place + kept.bars, kept.square, kept.squares * sizeof kept.square[0]);
    find->count = kept.bars + kept.squares;
    return true;
}
