// There is no log to work with: what is wrong with it, in the words of whoever looked.

#include "station_inner.h"

#include <string.h>

// How much of a long text goes into one line: whole sentences, else whole words.
static size_t line_size(const char *text, size_t most) {
    size_t sentence = 0;
    size_t words = 0;
    if (strlen(text) <= most) {
        return strlen(text);
    }
    for (size_t i = 1; i <= most; i++) {
        words = text[i] == ' ' ? i : words;
        sentence = text[i] == ' ' && text[i - 1] == '.' ? i : sentence;
    }
    return sentence > 0 ? sentence : words > 0 ? words : most;
}

static void break_up(const char *message, struct view_notice *notice) {
    size_t most = sizeof notice->line[0] - 1;
    while (*message != '\0' && notice->line_count < sizeof notice->line / sizeof notice->line[0]) {
        size_t size = line_size(message, most);
        memcpy(notice->line[notice->line_count++], message, size);
        message += size;
        message += *message == ' ' ? 1 : 0;
    }
}

void station_trouble(const char *bench, const char *message, struct view *ret_view) {
    static const enum word todos[] = {WORD_TROUBLE_CUT_NOT, WORD_TROUBLE_CALL, WORD_TROUBLE_WAIT};
    struct view_notice *notice = &ret_view->notice;
    memset(ret_view, 0, sizeof *ret_view);
    ret_view->body = VIEW_NOTICE;
    ret_view->step = -1;
    ret_view->log.selected = -1;
    SET(ret_view->bench, bench);
    SET(ret_view->status[0].label, word(WORD_STATUS_LOG));
    ret_view->status[0].health = HEALTH_BAD;
    ret_view->status_count = 1;
    notice->tone = TONE_STOP;
    SET(notice->title, word(WORD_TROUBLE));
    break_up(message, notice);
    SET(notice->todo_title, word(WORD_NOT_LOGGED_TITLE));
    for (size_t i = 0; i < sizeof todos / sizeof todos[0]; i++) {
        SET(notice->todo[i], word(todos[i]));
    }
    notice->todo_count = sizeof todos / sizeof todos[0];
    view_band(ret_view, TONE_STOP, false, WORD_TROUBLE_BAND, WORD_EMPTY);
}
