#include "line_break.h"

#include "text.h"

#include <stdbool.h>
#include <stdint.h>
#include <string.h>

static uint32_t character(const char *at, size_t *ret_size) {
    const unsigned char *b = (const unsigned char *)at;
    size_t size = text_utf8_size(at, strlen(at));
    *ret_size = size > 0 ? size : 1;
    switch (size) {
    case 2:
        return (uint32_t)(b[0] & 0x1F) << 6 | (b[1] & 0x3F);
    case 3:
        return (uint32_t)(b[0] & 0x0F) << 12 | (uint32_t)(b[1] & 0x3F) << 6 | (b[2] & 0x3F);
    case 4:
        return (uint32_t)(b[0] & 0x07) << 18 | (uint32_t)(b[1] & 0x3F) << 12 |
               (uint32_t)(b[2] & 0x3F) << 6 | (b[3] & 0x3F);
    default:
        return b[0];
    }
}

// Kana, kanji, their punctuation, full-width forms.
static bool wide(uint32_t c) {
    return (c >= 0x2E80 && c <= 0x9FFF) || (c >= 0xF900 && c <= 0xFAFF) ||
           (c >= 0xFF00 && c <= 0xFFEF) || c >= 0x20000;
}

static bool among(uint32_t c, const char *set) {
    for (size_t size; *set != '\0'; set += size) {
        if (character(set, &size) == c) {
            return true;
        }
    }
    return false;
}

static bool never_first(uint32_t c) {
    return among(c, "、。，．・：；？！）］｝」』】〕〉》’”ー〜々ゝゞヽヾ％"
                    "ぁぃぅぇぉっゃゅょゎァィゥェォッャュョヮヵヶ"
                    ")]},.:;?!%");
}

static bool never_last(uint32_t c) {
    return among(c, "（［｛「『【〔〈《‘“([{");
}

size_t line_unit(const char *at) {
    size_t used;
    size_t size;
    if (*at == '\0') {
        return 0;
    }
    uint32_t before = character(at, &used);
    while (at[used] != '\0' && at[used] != ' ') {
        uint32_t next = character(at + used, &size);
        bool number = before >= '0' && before <= '9';
        if ((wide(before) || wide(next)) && !number && !never_first(next) && !never_last(before)) {
            break;
        }
        before = next;
        used += size;
    }
    return used;
}
