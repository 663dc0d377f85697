#include "ticket_code.h"

#include <string.h>
#include <zint.h>

#define LEVEL_Q 3

static bool encode(int symbology, int level, const char *text, struct ticket_code *ret_code) {
    struct ticket_code code = {0};
    struct zint_symbol *symbol = ZBarcode_Create();
    if (symbol == NULL) {
        return false;
    }
    symbol->symbology = symbology;
    symbol->option_1 = level;
    bool done = ZBarcode_Encode(symbol, (const unsigned char *)text, 0) == 0 &&
                symbol->width <= TICKET_CODE_WIDTH_MAX && symbol->rows <= TICKET_CODE_ROWS_MAX;
    if (done) {
        code.width = symbol->width;
        code.rows = symbol->rows;
        for (int y = 0; y < code.rows; y++) {
            for (int x = 0; x < code.width; x++) {
                code.dark[y][x] = (symbol->encoded_data[y][x / 8] >> x % 8 & 1) != 0;
            }
        }
        *ret_code = code;
    }
    ZBarcode_Delete(symbol);
    return done;
}

bool ticket_code_bars(const char *text, struct ticket_code *ret_code) {
    return encode(BARCODE_CODE128, -1, text, ret_code);
}

bool ticket_code_qr(const char *text, struct ticket_code *ret_code) {
    return encode(BARCODE_QRCODE, LEVEL_Q, text, ret_code);
}
