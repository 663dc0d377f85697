#include "base64.h"

#include <string.h>

static const char digits[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";

void base64_write(const uint8_t *bytes, size_t size, char *text) {
    for (size_t i = 0; i < size; i += 3) {
        size_t left = size - i;
        uint32_t group = (uint32_t)bytes[i] << 16 | (left > 1 ? (uint32_t)bytes[i + 1] << 8 : 0) |
                         (left > 2 ? bytes[i + 2] : 0);
        *text++ = digits[group >> 18];
        *text++ = digits[group >> 12 & 63];
        *text++ = left > 1 ? digits[group >> 6 & 63] : '=';
        *text++ = left > 2 ? digits[group & 63] : '=';
    }
    *text = '\0';
}

bool base64_read(const char *text, uint8_t *bytes, size_t size) {
    for (size_t i = 0; i < size; i += 3, text += 4) {
        size_t left = size - i < 3 ? size - i : 3;
        uint32_t group = 0;
        for (size_t place = 0; place < 4; place++) {
            const char *digit = text[place] == '\0' ? NULL : strchr(digits, text[place]);
            if (place > left ? text[place] != '=' : digit == NULL) {
                return false;
            }
            group = group << 6 | (place > left ? 0 : (uint32_t)(digit - digits));
        }
        if ((group & (left == 1 ? 0xFFFFu : left == 2 ? 0xFFu : 0)) != 0) {
            return false;
        }
        for (size_t byte = 0; byte < left; byte++) {
            bytes[i + byte] = (uint8_t)(group >> (16 - 8 * byte));
        }
    }
    return true;
}
