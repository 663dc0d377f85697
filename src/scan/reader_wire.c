#include "reader_wire.h"

static bool text_valid(const char *text) {
    size_t i = 0;
    while (i < WEDGE_TEXT_MAX && text[i] >= ' ' && text[i] <= '~') {
        i++;
    }
    return i > 0 && i < WEDGE_TEXT_MAX && text[i] == '\0';
}

static bool code_valid(const struct code *code, const struct reader_request *request) {
    if ((unsigned)code->symbology >= CODE_SYMBOLOGY_COUNT || code->quality < 1 ||
        !text_valid(code->text)) {
        return false;
    }
    for (int i = 0; i < 4; i++) {
        if (code->corner[i].x < 0 || code->corner[i].x >= request->width || code->corner[i].y < 0 ||
            code->corner[i].y >= request->height) {
            return false;
        }
    }
    return true;
}

bool reader_reply_valid(const struct reader_reply *reply, const struct reader_request *request) {
    if (reply->serial != request->serial || reply->count > FRAME_CODES_MAX) {
        return false;
    }
    for (uint64_t i = 0; i < reply->count; i++) {
        if (!code_valid(&reply->code[i], request)) {
            return false;
        }
    }
    return true;
}
