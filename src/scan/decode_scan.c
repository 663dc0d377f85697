#include "decode_scan.h"

#include <string.h>
#include <zbar.h>

// ZBar 0.23.92 keeps 176 bytes for each picture with a QR symbol until its scanner goes
// (mchehab/zbar#258).
#define RENEW_AFTER 1000

// The shortest ticket has four characters. Without a least length ZBar gives empty ones.
#define CODE128_LEAST 4

// Lines of a whole picture are so many pixels apart: half the time, and what is so small that it
// falls between them is read from the places cut out, if at all.
#define ALL_APART 2

static void *make(enum decode_scan_kind kind) {
    zbar_image_scanner_t *scanner = zbar_image_scanner_create();
    bool bars = kind != DECODE_SCAN_SQUARES;
    bool squares = kind != DECODE_SCAN_BARS;
    int apart = kind == DECODE_SCAN_ALL ? ALL_APART : 1;
    if (scanner == NULL) {
        return NULL;
    }
    zbar_image_scanner_set_config(scanner, 0, ZBAR_CFG_ENABLE, 0);
    zbar_image_scanner_set_config(scanner, ZBAR_CODE128, ZBAR_CFG_ENABLE, bars);
    zbar_image_scanner_set_config(scanner, ZBAR_EAN13, ZBAR_CFG_ENABLE, bars);
    zbar_image_scanner_set_config(scanner, ZBAR_CODE128, ZBAR_CFG_MIN_LEN, CODE128_LEAST);
    zbar_image_scanner_set_config(scanner, ZBAR_QRCODE, ZBAR_CFG_ENABLE, squares);
    zbar_image_scanner_set_config(scanner, 0, ZBAR_CFG_X_DENSITY, squares ? apart : 0);
    zbar_image_scanner_set_config(scanner, 0, ZBAR_CFG_Y_DENSITY, apart);
    zbar_image_scanner_enable_cache(scanner, 0); // with it, half a QR in view aborts (issue 315)
    return scanner;
}

bool decode_scan_init(struct decode_scan *scan) {
    *scan = (struct decode_scan){0};
    for (int kind = 0; kind < DECODE_SCAN_KIND_COUNT; kind++) {
        scan->scanner[kind] = make((enum decode_scan_kind)kind);
        if (scan->scanner[kind] == NULL) {
            decode_scan_release(scan);
            return false;
        }
    }
    return true;
}

void decode_scan_release(struct decode_scan *scan) {
    for (int kind = 0; kind < DECODE_SCAN_KIND_COUNT; kind++) {
        if (scan->scanner[kind] != NULL) {
            zbar_image_scanner_destroy(scan->scanner[kind]);
            scan->scanner[kind] = NULL;
        }
    }
}

static bool take_symbology(const zbar_symbol_t *symbol, enum code_symbology *ret_symbology) {
    zbar_symbol_type_t type = zbar_symbol_get_type(symbol);
    if (type == ZBAR_CODE128) {
        *ret_symbology = CODE_128;
    } else if (type == ZBAR_QRCODE) {
        *ret_symbology = CODE_QR;
    } else if (type == ZBAR_EAN13) {
        *ret_symbology = CODE_EAN13;
    } else {
        return false;
    }
    return true;
}

// Printable ASCII that fits, else false.
static bool take_text(const zbar_symbol_t *symbol, char *text) {
    const char *data = zbar_symbol_get_data(symbol);
    unsigned size = zbar_symbol_get_data_length(symbol);
    if (data == NULL || size == 0 || size >= WEDGE_TEXT_MAX) {
        return false;
    }
    for (unsigned i = 0; i < size; i++) {
        if (data[i] < ' ' || data[i] > '~') {
            return false;
        }
    }
    memcpy(text, data, size);
    text[size] = '\0';
    return true;
}

static void take_corners(const zbar_symbol_t *symbol, struct code *code) {
    unsigned count = zbar_symbol_get_loc_size(symbol);
    struct code_point low = {FRAME_SIDE_MAX, FRAME_SIDE_MAX};
    struct code_point high = {0, 0};
    if (code->symbology == CODE_QR && count == 4) {
        for (unsigned i = 0; i < 4; i++) {
            code->corner[i].x = zbar_symbol_get_loc_x(symbol, i);
            code->corner[i].y = zbar_symbol_get_loc_y(symbol, i);
        }
        return;
    }
    for (unsigned i = 0; i < count; i++) {
        int x = zbar_symbol_get_loc_x(symbol, i);
        int y = zbar_symbol_get_loc_y(symbol, i);
        low.x = x < low.x ? x : low.x;
        low.y = y < low.y ? y : low.y;
        high.x = x > high.x ? x : high.x;
        high.y = y > high.y ? y : high.y;
    }
    code->corner[0] = low;
    code->corner[1] = (struct code_point){high.x, low.y};
    code->corner[2] = high;
    code->corner[3] = (struct code_point){low.x, high.y};
}

void decode_scan_run(struct decode_scan *scan, enum decode_scan_kind kind, const uint8_t *pixels,
                     int width, int height, struct decode_found *ret_found) {
    zbar_image_t *image = zbar_image_create();
    ret_found->count = 0;
    if (image == NULL) {
        return;
    }
    if (++scan->used[kind] > RENEW_AFTER) {
        void *fresh = make(kind);
        if (fresh != NULL) {
            zbar_image_scanner_destroy(scan->scanner[kind]);
            scan->scanner[kind] = fresh;
            scan->used[kind] = 1;
        }
    }
    zbar_image_set_format(image, zbar_fourcc('Y', '8', '0', '0'));
    zbar_image_set_size(image, (unsigned)width, (unsigned)height);
    zbar_image_set_data(image, pixels, (unsigned long)width * (unsigned long)height, NULL);
    zbar_scan_image(scan->scanner[kind], image);
    for (const zbar_symbol_t *symbol = zbar_image_first_symbol(image);
         symbol != NULL && ret_found->count < FRAME_CODES_MAX; symbol = zbar_symbol_next(symbol)) {
        struct code *code = &ret_found->code[ret_found->count];
        if (take_symbology(symbol, &code->symbology) && take_text(symbol, code->text)) {
            int quality = zbar_symbol_get_quality(symbol);
            code->quality = quality < 1 ? 1 : quality;
            take_corners(symbol, code);
            ret_found->count++;
        }
    }
    zbar_image_destroy(image);
}
