#include "reword.h"

#include "tongue.h"

#include <string.h>

struct match {
    size_t count;
    struct reword_part part[REWORD_PARTS_MAX];
};

static bool matches(const char *pattern, const char *stored, struct match *match) {
    size_t plain = strcspn(pattern, "%");
    if (strncmp(pattern, stored, plain) != 0) {
        return false;
    }
    pattern += plain;
    stored += plain;
    if (pattern[0] == '\0' || pattern[1] == '\0') {
        return strcmp(pattern, stored) == 0;
    }
    if (match->count == REWORD_PARTS_MAX) {
        return false;
    }
    size_t at = match->count++;
    size_t most = strlen(stored);
    for (size_t size = 0; size <= most; size++) {
        match->part[at] = (struct reword_part){pattern[1], stored, size};
        match->count = at + 1;
        if (matches(pattern + 2, stored + size, match)) {
            return true;
        }
    }
    return false;
}

bool reword(struct text *text, const char *pattern, const char *stored, reword_part_fn *part) {
    struct match match = {.count = 0};
    if (!matches(pattern, stored, &match)) {
        return false;
    }
    for (const char *at = _(pattern); *at != '\0';) {
        size_t plain = strcspn(at, "%");
        text_add_bytes(text, at, plain);
        at += plain;
        if (at[0] == '\0' || at[1] == '\0') {
            text_add(text, at);
            break;
        }
        for (size_t i = 0; i < match.count; i++) {
            if (match.part[i].which == at[1]) {
                part(text, &match.part[i]);
                break;
            }
        }
        at += 2;
    }
    return true;
}

static bool digit(char c) {
    return c >= '0' && c <= '9';
}

void reword_figures(struct text *text, const struct reword_part *part) {
    for (size_t i = 0; i < part->size; i++) {
        bool point = part->at[i] == '.' && i > 0 && i + 1 < part->size && digit(part->at[i - 1]) &&
                     digit(part->at[i + 1]);
        text_add_bytes(text, point ? &tongue_now()->decimal_point : part->at + i, 1);
    }
}
