#include "decode_cells.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define AREA (DECODE_CELL * DECODE_CELL)
#define FLOOR_STEPS 4096
#define FLOOR_SHARE 5 // one cell of so many shows nothing but noise

// A change of so much, squared, a pixel, is worth a look even without noise.
#define BARS_LEAST 12.0
#define SQUARE_LEAST 20.0
#define ONE_WAY 0.55 // share of the change, noise left out, that goes one way: bars

static bool make_room(struct decode_find *find, size_t count) {
    if (count > find->room) {
        free(find->cell);
        free(find->stack);
        find->cell = calloc(count, sizeof find->cell[0]);
        find->stack = malloc(count * sizeof find->stack[0]);
        find->room = find->cell != NULL && find->stack != NULL ? count : 0;
    }
    return count <= find->room;
}

// One row of cells, whose pixels begin at `pixels`: there is one more all around.
static void sum_row(struct decode_cell *cells, int across, const uint8_t *pixels, int width) {
    static _Thread_local int32_t xx[FRAME_SIDE_MAX];
    static _Thread_local int32_t yy[FRAME_SIDE_MAX];
    static _Thread_local int32_t xy[FRAME_SIDE_MAX];
    int count = across * DECODE_CELL;
    memset(xx, 0, (size_t)count * sizeof xx[0]);
    memset(yy, 0, (size_t)count * sizeof yy[0]);
    memset(xy, 0, (size_t)count * sizeof xy[0]);
    for (int row = 0; row < DECODE_CELL; row++) {
        const uint8_t *here = pixels + (ptrdiff_t)row * width;
        const uint8_t *above = here - width;
        const uint8_t *below = here + width;
        for (int x = 0; x < count; x++) {
            int32_t gx = here[x + 1] - here[x - 1];
            int32_t gy = below[x] - above[x];
            xx[x] += gx * gx;
            yy[x] += gy * gy;
            xy[x] += gx * gy;
        }
    }
    for (int i = 0; i < across; i++) {
        struct decode_cell cell = {0};
        for (int x = i * DECODE_CELL; x < (i + 1) * DECODE_CELL; x++) {
            cell.xx += xx[x];
            cell.yy += yy[x];
            cell.xy += xy[x];
        }
        cells[i] = cell;
    }
}

static double find_floor(const struct decode_find *find) {
    static _Thread_local int steps[FLOOR_STEPS];
    int count = find->across * find->down;
    int below = 0;
    memset(steps, 0, sizeof steps);
    for (int i = 0; i < count; i++) {
        int step = (find->cell[i].xx + find->cell[i].yy) / AREA;
        steps[step < FLOOR_STEPS ? step : FLOOR_STEPS - 1]++;
    }
    for (int step = 0; step < FLOOR_STEPS; step++) {
        below += steps[step];
        if (below * FLOOR_SHARE >= count) {
            return step;
        }
    }
    return FLOOR_STEPS;
}

// Judges a cell with its neighbours, so that noise evens out.
static void judge(struct decode_find *find, int column, int row) {
    struct decode_cell *cell = &find->cell[row * find->across + column];
    double xx = 0;
    double yy = 0;
    double xy = 0;
    double count = 0;
    for (int y = row - 1; y <= row + 1; y++) {
        for (int x = column - 1; x <= column + 1; x++) {
            if (x >= 0 && y >= 0 && x < find->across && y < find->down) {
                const struct decode_cell *next = &find->cell[y * find->across + x];
                xx += next->xx;
                yy += next->yy;
                xy += next->xy;
                count += AREA;
            }
        }
    }
    double own = (double)(cell->xx + cell->yy) / AREA;
    double whole = (xx + yy) / count - find->floor;
    double one_way = hypot(xx - yy, 2 * xy) / count;
    if (own < 0.3 * whole) {
        return; // beside something, not part of it
    }
    if (one_way > fmax(BARS_LEAST, find->floor) && one_way > ONE_WAY * whole) {
        cell->kind = DECODE_CELL_BARS;
        cell->cos2 = (float)((xx - yy) / count / one_way);
        cell->sin2 = (float)(2 * xy / count / one_way);
        cell->weight = (float)one_way;
    } else if (whole > fmax(SQUARE_LEAST, find->floor)) {
        cell->kind = DECODE_CELL_SQUARE;
        cell->weight = (float)whole;
    }
}

bool decode_cells_measure(struct decode_find *find, const uint8_t *pixels, int width, int height) {
    find->across = (width - 2) / DECODE_CELL;
    find->down = (height - 2) / DECODE_CELL;
    if (find->across < 1 || find->down < 1) {
        find->across = find->down = 0;
        return true;
    }
    if (!make_room(find, (size_t)find->across * (size_t)find->down)) {
        return false;
    }
    for (int row = 0; row < find->down; row++) {
        sum_row(find->cell + (size_t)row * (size_t)find->across, find->across,
                pixels + (size_t)(row * DECODE_CELL + 1) * (size_t)width + 1, width);
    }
    find->floor = find_floor(find);
    for (int row = 0; row < find->down; row++) {
        for (int column = 0; column < find->across; column++) {
            judge(find, column, row);
        }
    }
    return true;
}
