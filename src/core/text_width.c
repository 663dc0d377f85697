#include "text_width.h"

#include "text.h"

#include <string.h>

struct span {
    uint32_t first;
    uint32_t last;
};

// From EastAsianWidth.txt, blocks as a whole where all their letters are wide.
static const struct span wide[] = {
    {0x1100, 0x115F}, {0x2E80, 0x303E}, {0x3041, 0x33FF},   {0x3400, 0x4DBF},   {0x4E00, 0x9FFF},
    {0xA000, 0xA4CF}, {0xA960, 0xA97F}, {0xAC00, 0xD7A3},   {0xF900, 0xFAFF},   {0xFE30, 0xFE6F},
    {0xFF01, 0xFF60}, {0xFFE0, 0xFFE6}, {0x1F300, 0x1F64F}, {0x1F900, 0x1F9FF}, {0x20000, 0x3FFFD},
};
static const struct span combining[] = {
    {0x0300, 0x036F}, {0x0483, 0x0489}, {0x200B, 0x200F},
    {0x302A, 0x302D}, {0x3099, 0x309A}, {0xFE00, 0xFE0F},
};

static bool within(const struct span *spans, size_t count, uint32_t letter) {
    for (size_t i = 0; i < count; i++) {
        if (letter >= spans[i].first && letter <= spans[i].last) {
            return true;
        }
    }
    return false;
}

static uint32_t decode(const char *bytes, size_t size) {
    static const uint8_t first_bits[] = {0, 0x7F, 0x1F, 0x0F, 0x07};
    uint32_t letter = (uint8_t)bytes[0] & first_bits[size];
    for (size_t i = 1; i < size; i++) {
        letter = letter << 6 | ((uint8_t)bytes[i] & 0x3F);
    }
    return letter;
}

static size_t columns_of(uint32_t letter) {
    if (within(combining, sizeof combining / sizeof combining[0], letter)) {
        return 0;
    }
    return within(wide, sizeof wide / sizeof wide[0], letter) ? 2 : 1;
}

size_t text_columns(const char *words) {
    size_t columns = 0;
    for (size_t left = strlen(words), size; left > 0; words += size, left -= size) {
        size = text_utf8_size(words, left);
        columns += size > 0 ? columns_of(decode(words, size)) : 1;
        size = size > 0 ? size : 1;
    }
    return columns;
}
