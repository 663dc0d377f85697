#include "scene_label.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>
#include <zint.h>

#define QUIET 12 // modules around the symbol
#define WORDS 14 // modules for the line of text below

static int zint_number(enum scene_symbol symbol) {
    static const int numbers[] = {
        [SCENE_CODE128] = BARCODE_CODE128,
        [SCENE_QR] = BARCODE_QRCODE,
        [SCENE_EAN13] = BARCODE_EANX,
        [SCENE_CODE39] = BARCODE_CODE39,
        [SCENE_ITF] = BARCODE_C25INTER,
        [SCENE_CODABAR] = BARCODE_CODABAR,
        [SCENE_DATAMATRIX] = BARCODE_DATAMATRIX,
    };
    return numbers[symbol];
}

static void fill(struct label *label, int left, int top, int width, int height, float ink) {
    for (int y = top < 0 ? 0 : top; y < top + height && y < label->height; y++) {
        for (int x = left < 0 ? 0 : left; x < left + width && x < label->width; x++) {
            label->ink[y * label->width + x] = ink;
        }
    }
}

// Letters nobody can read, as tall and as black as the real ones.
static void draw_words(struct label *label, uint64_t *random, int top) {
    int dot = LABEL_DOTS;
    for (int x = label->symbol_left; x + 6 * dot < label->width - dot; x += 7 * dot) {
        for (int cell = 0; cell < 35; cell++) {
            if (scene_random(random) % 2 == 0) {
                fill(label, x + cell % 5 * dot, top + cell / 5 * dot, dot, dot, 1);
            }
        }
    }
}

static void draw_symbol(struct label *label, const struct zint_symbol *symbol, double torn) {
    int row_height = label->symbol_height / symbol->rows;
    int kept = (int)((1 - torn) * symbol->width);
    for (int row = 0; row < symbol->rows; row++) {
        for (int column = 0; column < kept; column++) {
            if ((symbol->encoded_data[row][column >> 3] >> (column & 7)) & 1) {
                fill(label, label->symbol_left + column * LABEL_DOTS,
                     label->symbol_top + row * row_height, LABEL_DOTS, row_height, 1);
            }
        }
    }
}

static void spoil(const struct scene *scene, struct label *label, uint64_t *random) {
    int strips = (int)(scene->scratch * label->height / (2.0 * LABEL_DOTS) + 0.5);
    for (int i = 0; i < scene->dust; i++) {
        double radius = LABEL_DOTS * scene_between(random, 0.4, 1.6);
        int x = label->symbol_left + (int)scene_between(random, 0, label->symbol_width);
        int y = label->symbol_top + (int)scene_between(random, 0, label->symbol_height);
        float ink = scene_random(random) % 2 == 0 ? 1 : 0;
        for (int row = (int)-radius; row <= radius; row++) {
            int half = (int)sqrt(radius * radius - row * row);
            fill(label, x - half, y + row, 2 * half + 1, 1, ink);
        }
    }
    for (int i = 0; i < strips; i++) {
        int top = (int)scene_between(random, 0, label->height);
        double slope = scene_between(random, -0.3, 0.3);
        for (int x = 0; x < label->width; x++) {
            fill(label, x, top + (int)(slope * x), 1, 2 * LABEL_DOTS, 0);
        }
    }
}

bool label_draw(const struct scene *scene, uint64_t *random, struct label *ret_label) {
    struct zint_symbol *symbol = NULL;
    struct label label = {.symbol_left = QUIET * LABEL_DOTS, .symbol_top = QUIET * LABEL_DOTS};
    int modules = 60;
    int tall = 30;
    if (scene->symbol != SCENE_NOTHING) {
        symbol = ZBarcode_Create();
        if (symbol == NULL) {
            return false;
        }
        symbol->symbology = zint_number(scene->symbol);
        symbol->option_1 = scene->symbol == SCENE_QR ? 2 : -1; // error correction M
        if (ZBarcode_Encode(symbol, (const unsigned char *)scene->text, 0) >= ZINT_ERROR) {
            ZBarcode_Delete(symbol);
            return false;
        }
        modules = symbol->width;
        tall = symbol->rows > 1 ? symbol->rows : 24 + modules / 8;
    }
    label.symbol_width = modules * LABEL_DOTS;
    label.symbol_height = tall * LABEL_DOTS;
    label.width = (modules + 2 * QUIET) * LABEL_DOTS;
    label.height = (tall + 2 * QUIET + WORDS) * LABEL_DOTS;
    label.ink = calloc((size_t)label.width * (size_t)label.height, sizeof label.ink[0]);
    if (label.ink != NULL) {
        if (symbol != NULL) {
            draw_symbol(&label, symbol, scene->torn);
        }
        draw_words(&label, random, label.symbol_top + label.symbol_height + 8 * LABEL_DOTS);
        spoil(scene, &label, random);
        *ret_label = label;
    }
    ZBarcode_Delete(symbol);
    return label.ink != NULL;
}
