#include "qr.h"

#include <string.h>
#include <zint.h>

#define LEVEL_M 2
#define ECI_UTF8 26

bool qr_make(const char *text, struct qr *ret_qr) {
    struct qr qr = {0};
    struct zint_symbol *symbol = ZBarcode_Create();
    if (symbol == NULL) {
        return false;
    }
    symbol->symbology = BARCODE_QRCODE;
    symbol->option_1 = LEVEL_M;
    symbol->input_mode = UNICODE_MODE;
    symbol->eci = ECI_UTF8;
    bool done = ZBarcode_Encode(symbol, (const unsigned char *)text, (int)strlen(text)) == 0 &&
                symbol->width <= QR_SIDE_MAX && symbol->rows == symbol->width;
    if (done) {
        qr.side = symbol->width;
        for (int y = 0; y < qr.side; y++) {
            for (int x = 0; x < qr.side; x++) {
                qr.dark[y][x] = (symbol->encoded_data[y][x / 8] >> x % 8 & 1) != 0;
            }
        }
        *ret_qr = qr;
    }
    ZBarcode_Delete(symbol);
    return done;
}
