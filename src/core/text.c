#include "text.h"
#include "tongue.h"

#include <math.h>
#include <string.h>

#define QUOTED_MAX 40
#define TEXT_UNKNOWN N_("not known")

struct text text_open(char *buffer, size_t size) {
    if (size > 0) {
        buffer[0] = '\0';
    }
    return (struct text){.buffer = buffer, .size = size};
}

void text_add_bytes(struct text *text, const char *bytes, size_t count) {
    size_t room = text->size > text->used ? text->size - text->used - 1 : 0;
    if (text->cut || count == 0) {
        return;
    }
    if (count > room) {
        text->cut = true;
        count = room;
        // Never leave half a character behind.
        while (count > 0 && ((unsigned char)bytes[count] & 0xC0) == 0x80) {
            count--;
        }
    }
    if (count > 0) {
        memcpy(text->buffer + text->used, bytes, count);
        text->used += count;
        text->buffer[text->used] = '\0';
    }
}

void text_add(struct text *text, const char *words) {
    text_add_bytes(text, words, strlen(words));
}

void text_fill(struct text *text, const char *pattern, const char *const *arguments, size_t count) {
    while (*pattern != '\0') {
        size_t plain = strcspn(pattern, "%");
        text_add_bytes(text, pattern, plain);
        pattern += plain;
        if (pattern[0] == '%' && pattern[1] >= '1' && pattern[1] <= '9') {
            size_t which = (size_t)(pattern[1] - '1');
            text_add(text, which < count && arguments[which] != NULL ? arguments[which] : "");
            pattern += 2;
        } else if (pattern[0] == '%') {
            text_add(text, "%");
            pattern++;
        }
    }
}

void text_add_number(struct text *text, int64_t number) {
    char digits[24];
    size_t at = sizeof digits;
    uint64_t rest = number < 0 ? -(uint64_t)number : (uint64_t)number;
    do {
        digits[--at] = (char)('0' + rest % 10);
        rest /= 10;
    } while (rest > 0);
    if (number < 0) {
        digits[--at] = '-';
    }
    text_add_bytes(text, digits + at, sizeof digits - at);
}

struct text_number text_number(int64_t number) {
    struct text_number words = {0};
    struct text text = text_open(words.digits, sizeof words.digits);
    text_add_number(&text, number);
    return words;
}

void text_add_decimal(struct text *text, double value, int decimals) {
    static const long long scales[] = {1, 10, 100, 1000};
    long long scale = scales[decimals];
    long long whole = llround(fabs(value) * (double)scale);
    text_add(text, value < 0 && whole != 0 ? "-" : "");
    text_add_number(text, whole / scale);
    for (long long digit = scale / 10; digit > 0; digit /= 10) {
        if (digit == scale / 10) {
            text_add_bytes(text, text->source ? "." : &tongue_now()->decimal_point, 1);
        }
        text_add_number(text, whole / digit % 10);
    }
}

void text_add_figure(struct text *text, const char *figure) {
    for (; *figure != '\0'; figure++) {
        text_add_bytes(text,
                       *figure == '.' && !text->source ? &tongue_now()->decimal_point : figure, 1);
    }
}

void text_to_point(char *typed) {
    for (; *typed != '\0'; typed++) {
        *typed = *typed == ',' ? '.' : *typed;
    }
}

void text_add_quoted(struct text *text, const char *words) {
    size_t left = strlen(words);
    size_t shown = 0;
    text_add(text, "\"");
    while (left > 0 && shown < QUOTED_MAX) {
        size_t size = text_utf8_size(words, left);
        bool control = size == 1 && ((unsigned char)*words < 0x20 || *words == 0x7F);
        if (size == 0 || control) {
            text_add(text, "?");
            size = 1;
        } else {
            text_add_bytes(text, words, size);
        }
        words += size;
        left -= size;
        shown += size;
    }
    text_add(text, left > 0 ? "...\"" : "\"");
}

void text_add_length(struct text *text, length_nm length) {
    char words[LENGTH_TEXT_MAX];
    if (length == LENGTH_UNKNOWN) {
        text_add(text, text->source ? TEXT_UNKNOWN : _(TEXT_UNKNOWN));
        return;
    }
    length_text_fraction(length, words);
    text_add_figure(text, words);
    text_add(text, " in");
}

void text_add_mass(struct text *text, mass_mg mass) {
    char words[LENGTH_TEXT_MAX];
    if (mass == MASS_UNKNOWN) {
        text_add(text, text->source ? TEXT_UNKNOWN : _(TEXT_UNKNOWN));
        return;
    }
    mass_text(mass, words);
    text_add_figure(text, words);
    text_add(text, " g");
}

// RFC 3629: no overlong forms, no surrogates, nothing above U+10FFFF.
size_t text_utf8_size(const char *bytes, size_t left) {
    const unsigned char *b = (const unsigned char *)bytes;
    size_t size = 0;
    unsigned char low = 0x80;
    unsigned char high = 0xBF;
    if (left == 0) {
        return 0;
    }
    if (b[0] < 0x80) {
        return 1;
    }
    if (b[0] >= 0xC2 && b[0] <= 0xDF) {
        size = 2;
    } else if (b[0] >= 0xE0 && b[0] <= 0xEF) {
        size = 3;
        low = b[0] == 0xE0 ? 0xA0 : 0x80;
        high = b[0] == 0xED ? 0x9F : 0xBF;
    } else if (b[0] >= 0xF0 && b[0] <= 0xF4) {
        size = 4;
        low = b[0] == 0xF0 ? 0x90 : 0x80;
        high = b[0] == 0xF4 ? 0x8F : 0xBF;
    } else {
        return 0;
    }
    if (left < size || b[1] < low || b[1] > high) {
        return 0;
    }
    for (size_t i = 2; i < size; i++) {
        if (b[i] < 0x80 || b[i] > 0xBF) {
            return 0;
        }
    }
    return size;
}

static char small(char c) {
    return c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c;
}

bool text_same(const char *a, const char *b) {
    size_t a_size;
    size_t b_size;
    while (*a == ' ') {
        a++;
    }
    while (*b == ' ') {
        b++;
    }
    a_size = strlen(a);
    b_size = strlen(b);
    while (a_size > 0 && a[a_size - 1] == ' ') {
        a_size--;
    }
    while (b_size > 0 && b[b_size - 1] == ' ') {
        b_size--;
    }
    if (a_size != b_size) {
        return false;
    }
    for (size_t i = 0; i < a_size; i++) {
        if (small(a[i]) != small(b[i])) {
            return false;
        }
    }
    return true;
}
