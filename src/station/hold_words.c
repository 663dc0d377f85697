// The lines of a stop are English, as the log has them; here they are put into the shop's language.

#include "estimate_text.h"
#include "reword.h"
#include "station_inner.h"
#include "text.h"
#include "tongue.h"

#include <string.h>

static void plain(struct text *text, const struct reword_part *part) {
    text_add_bytes(text, part->at, part->size);
}

static void outcome(struct text *text, const struct reword_part *part) {
    char words[ESTIMATE_TEXT_MAX];
    struct text copy = text_open(words, sizeof words);
    text_add_bytes(&copy, part->at, part->size);
    estimate_reword(text, words);
}

static bool is_estimate(const char *line) {
    char words[ESTIMATE_TEXT_MAX];
    char unused[VIEW_TEXT_MAX];
    struct text copy = text_open(words, sizeof words);
    struct text out = text_open(unused, sizeof unused);
    size_t size = strlen(line);
    if (size < 2 || size > sizeof words) {
        return false;
    }
    text_add_bytes(&copy, line, size - 1);
    return estimate_reword(&out, words);
}

static bool of_a_word(struct text *text, const char *line) {
    for (int i = WORD_HOLD_READ; i <= WORD_HOLD_NO_SHAFT; i++) {
        bool figures = i == WORD_HOLD_PAST || i == WORD_HOLD_SHORT || i == WORD_HOLD_PLAYING;
        bool order = i >= WORD_CHANGE_CLUB && i <= WORD_CHANGE_WHO; // not kept in English
        if (i != WORD_OUTCOME && !order &&
            reword(text, word_source((enum word)i), line, figures ? reword_figures : plain)) {
            return true;
        }
    }
    return is_estimate(line) && reword(text, word_source(WORD_OUTCOME), line, outcome);
}

// Appends one line. False, nothing appended: it is none that is made today.
static bool add_line(struct text *text, const char *line) {
    return of_a_word(text, line) || plan_refusal_reword(text, line) ||
           ticket_error_reword(text, line);
}

void hold_line_words(const char *line, char *buffer, size_t size) {
    memset(buffer, 0, size);
    struct text text = text_open(buffer, size);
    if (!add_line(&text, line)) {
        text_add(&text, line);
    }
}

// The longest beginning of `rest` that is a line, up to a full stop or the end; 0: none is.
static size_t take_line(struct text *text, const char *rest) {
    char line[ENTRY_NOTE_MAX];
    for (size_t size = strlen(rest); size > 0; size--) {
        if (rest[size] != '\0' && strncmp(rest + size, ". ", 2) != 0) {
            continue;
        }
        struct text copy = text_open(line, sizeof line);
        text_add_bytes(&copy, rest, size);
        if (add_line(text, line)) {
            return size;
        }
    }
    return 0;
}

void hold_note_words(const struct entry *entry, char *buffer, size_t size) {
    struct text text = text_open(buffer, size);
    const char *title = entry->kind == ENTRY_HOLD ? hold_title_source(entry->cause) : NULL;
    const char *rest = entry->note;
    if (title != NULL && strncmp(rest, title, strlen(title)) == 0) {
        text_add(&text, _(title));
        rest += strlen(title);
        while (strncmp(rest, ". ", 2) == 0) {
            text_add(&text, ". ");
            rest += 2;
            size_t taken = take_line(&text, rest);
            if (taken == 0) {
                break;
            }
            rest += taken;
        }
    }
    text_add(&text, rest); // what a person wrote, or a version before
}
