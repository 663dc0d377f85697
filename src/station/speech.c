#include "speech.h"

#include "spoken.h"
#include "text.h"
#include "tongue.h"

#include <string.h>

static bool ends(const char *sentence) {
    static const char *const signs[] = {".", "?",      "!",
                                        ":", "\u3002", "\uff1f"}; // and Japanese ones
    size_t length = strlen(sentence);
    for (size_t i = 0; i < sizeof signs / sizeof signs[0]; i++) {
        size_t size = strlen(signs[i]);
        if (length >= size && strcmp(sentence + length - size, signs[i]) == 0) {
            return true;
        }
    }
    return false;
}

// One sentence more, with its end.
static void add(struct text *out, const char *sentence) {
    if (sentence[0] != '\0') {
        text_add(out, out->used > 0 ? " " : "");
        text_add(out, sentence);
        text_add(out, ends(sentence) ? "" : ".");
    }
}

// `2 5/8 in`, `66.7 mm`.
static void add_mark(struct text *out, const struct view_mark *mark) {
    char length[LENGTH_TEXT_MAX];
    char words[2 * LENGTH_TEXT_MAX];
    struct text text = text_open(words, sizeof words);
    if (mark->fraction) {
        length_text_fraction(mark->value, length);
    }
    text_add(&text, mark->fraction ? length : mark->large);
    text_add(&text, " ");
    text_add(&text, mark->unit);
    add(out, words);
}

static void fill(const struct view *view, struct text *out) {
    switch (view->body) {
    case VIEW_NOTICE:
        add(out, view->notice.title);
        break;
    case VIEW_CARE:
        add(out, view->care.title);
        break;
    case VIEW_CUT:
        add(out, view->cut.heading);
        add_mark(out, &view->cut.mark);
        break;
    case VIEW_NUMBER:
        if (view->number.error[0] != '\0') {
            add(out, view->number.error);
        } else {
            add(out, view->number.result[0] != '\0' ? view->number.result : view->number.question);
        }
        break;
    case VIEW_MESSAGE:
    case VIEW_PAIR:
    case VIEW_PIN:
    case VIEW_CHECK:
        break;
    case VIEW_LOG:
    case VIEW_ENTRY:
    case VIEW_SHOWN:
    case VIEW_SET:
    case VIEW_DAY:
    case VIEW_MENU:
    case VIEW_FORM:
    case VIEW_SELFCHECK:
        return;
    }
    add(out, view->band);
}

void speech_of(const struct view *view, char buffer[SPEECH_MAX]) {
    char written[SPEECH_MAX];
    struct text out = text_open(written, sizeof written);
    memset(written, 0, sizeof written);
    fill(view, &out);
    if (tongue_now() == &tongue_english) {
        spoken_text(written, buffer, SPEECH_MAX);
    } else {
        memcpy(buffer, written, SPEECH_MAX);
    }
}
