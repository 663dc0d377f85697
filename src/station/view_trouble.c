// There is nothing to work with: the log cannot be opened, or the bench does not last.

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

static void begin(const char *bench, enum word title, const enum word *todos, size_t todo_count,
                  struct view *ret_view) {
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
    SET(notice->title, word(title));
    SET(notice->todo_title, word(WORD_NOT_LOGGED_TITLE));
    for (size_t i = 0; i < todo_count; i++) {
        SET(notice->todo[i], word(todos[i]));
    }
    notice->todo_count = todo_count;
}

void station_trouble(const char *bench, const char *message, struct view *ret_view) {
    static const enum word todos[] = {WORD_TROUBLE_CUT_NOT, WORD_TROUBLE_CALL, WORD_TROUBLE_WAIT};
    begin(bench, WORD_TROUBLE, todos, sizeof todos / sizeof todos[0], ret_view);
    break_up(message, &ret_view->notice);
    view_band(ret_view, TONE_STOP, false, WORD_TROUBLE_BAND, WORD_EMPTY);
}

static void say_line(struct view_notice *notice, enum word which, const char *what) {
    words_fill(notice->line[notice->line_count], sizeof notice->line[0], which, what, NULL, NULL);
    notice->line_count++;
}

void station_safe(const char *bench, int starts, enum station_end end, const char *which,
                  struct view *ret_view) {
    static const enum word todos[] = {WORD_SAFE_CUT_NOT, WORD_TROUBLE_CALL, WORD_SAFE_PRESS};
    static const enum word ends[] = {[STATION_END_UNKNOWN] = WORD_SAFE_UNKNOWN,
                                     [STATION_END_STILL] = WORD_SAFE_STILL,
                                     [STATION_END_SIGNAL] = WORD_SAFE_SIGNAL,
                                     [STATION_END_STATUS] = WORD_SAFE_STATUS,
                                     [STATION_END_MEMORY] = WORD_SAFE_MEMORY};
    char number[LENGTH_TEXT_MAX];
    begin(bench, WORD_SAFE, todos, sizeof todos / sizeof todos[0], ret_view);
    say_number(starts, number);
    say_line(&ret_view->notice, WORD_SAFE_LINE, number);
    say_line(&ret_view->notice, ends[end], which);
    say_line(&ret_view->notice, WORD_SAFE_UNTOUCHED, NULL);
    view_band(ret_view, TONE_STOP, true, WORD_SAFE_BAND, WORD_EMPTY);
    offer_press(ret_view);
}
