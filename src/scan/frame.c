#include "frame.h"

const char *code_symbology_text(enum code_symbology symbology) {
    static const char *const texts[CODE_SYMBOLOGY_COUNT] = {
        [CODE_128] = "Code 128", [CODE_QR] = "QR", [CODE_EAN13] = "EAN-13"};
    return texts[symbology];
}
