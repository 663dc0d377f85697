#include "words.h"
#include "text.h"
#include "tongue.h"

#include <string.h>

static const char *const texts[WORD_COUNT] = {
#define X(name, text) [WORD_##name] = text,
    WORDS(X)
#undef X
};

static const struct {
    const char *one;
    const char *more;
} counted[COUNTED_WORD_COUNT] = {
#define Y(name, one, more) [WORDS_##name] = {one, more},
    COUNTED_WORDS(Y)
#undef Y
};

const char *word(enum word which) {
    return _(texts[which]);
}

void words_fill(char *buffer, size_t size, enum word which, const char *a, const char *b,
                const char *c) {
    struct text text;
    memset(buffer, 0, size);
    text = text_open(buffer, size);
    text_say(&text, word(which), a, b, c);
}

void words_source(char *buffer, size_t size, enum word which, const char *a, const char *b,
                  const char *c) {
    struct text text;
    memset(buffer, 0, size);
    text = text_open(buffer, size);
    text_say(&text, texts[which], a, b, c);
}

const char *word_source(enum word which) {
    return texts[which];
}

void words_count(char *buffer, size_t size, enum counted_word which, int64_t count, const char *b) {
    char number[LENGTH_TEXT_MAX];
    struct text digits = text_open(number, sizeof number);
    struct text text;
    text_add_number(&digits, count);
    memset(buffer, 0, size);
    text = text_open(buffer, size);
    text_say(&text, tongue_plural(counted[which].one, counted[which].more, (unsigned long)count),
             number, b);
}

void words_copy(char *buffer, size_t size, const char *text) {
    struct text out;
    memset(buffer, 0, size);
    out = text_open(buffer, size);
    text_add(&out, text);
}

void words_add(char *buffer, size_t size, enum word which, const char *a, const char *b,
               const char *c) {
    size_t used = strnlen(buffer, size);
    struct text text = text_open(buffer + used, size - used);
    text_say(&text, word(which), a, b, c);
}
