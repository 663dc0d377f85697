#include "words.h"
#include "text.h"

#include <string.h>

static const char *const texts[WORD_COUNT] = {
#define X(name, text) [WORD_##name] = text,
    WORDS(X)
#undef X
};

const char *word(enum word which) {
    return texts[which];
}

static void fill(struct text *text, const char *pattern, const char *const *arguments) {
    while (*pattern != '\0') {
        size_t plain = strcspn(pattern, "%");
        text_add_bytes(text, pattern, plain);
        pattern += plain;
        if (*pattern == '%') {
            const char *argument = arguments[pattern[1] - '1'];
            text_add(text, argument != NULL ? argument : "");
            pattern += 2;
        }
    }
}

void words_fill(char *buffer, size_t size, enum word which, const char *a, const char *b,
                const char *c) {
    const char *const arguments[] = {a, b, c};
    struct text text;
    memset(buffer, 0, size);
    text = text_open(buffer, size);
    fill(&text, texts[which], arguments);
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
    const char *const arguments[] = {a, b, c};
    struct text text = text_open(buffer + used, size - used);
    fill(&text, texts[which], arguments);
}
