// Lengths as this bench writes them.

#include "estimate_text.h"
#include "station_inner.h"
#include "text.h"
#include "tongue.h"

#include <string.h>

void say_number(int64_t number, char buffer[LENGTH_TEXT_MAX]) {
    struct text text = text_open(buffer, LENGTH_TEXT_MAX);
    text_add_number(&text, number);
}

void say_length_source(const struct station *s, length_nm length, char buffer[LENGTH_TEXT_MAX]) {
    struct text text = text_open(buffer, LENGTH_TEXT_MAX);
    struct length_fraction fraction;
    char words[LENGTH_TEXT_MAX];
    if (length == LENGTH_UNKNOWN) {
        length_text_fraction(length, buffer);
        return;
    }
    if (s->settings.metric_first) {
        length_text_mm(length, 1, words);
    } else if (length_split(length, &fraction)) {
        length_text_fraction(length, words);
    } else {
        length_text_inch(length, 3, words);
    }
    text_add(&text, words);
    text_add(&text, s->settings.metric_first ? " mm" : " in");
}

void say_length(const struct station *s, length_nm length, char buffer[LENGTH_TEXT_MAX]) {
    char source[LENGTH_TEXT_MAX];
    struct text text = text_open(buffer, LENGTH_TEXT_MAX);
    if (length == LENGTH_UNKNOWN) {
        text_add_length(&text, length);
        return;
    }
    say_length_source(s, length, source);
    text_add_figure(&text, source);
}

static void with_unit(char *buffer, size_t size, const char *number, const char *unit) {
    struct text text = text_open(buffer, size);
    text_add_figure(&text, number);
    text_add(&text, " ");
    text_add(&text, unit);
}

void say_mark(const struct station *s, length_nm length, struct view_mark *ret_mark) {
    struct view_mark mark = {.value = length};
    char inches[LENGTH_TEXT_MAX];
    char millimetres[LENGTH_TEXT_MAX];
    char number[LENGTH_TEXT_MAX];
    char step[LENGTH_TEXT_MAX];
    length_text_inch(length, 3, inches);
    length_text_mm(length, 1, millimetres);
    mark.fraction = !s->settings.metric_first && length_split(length, &mark.split);
    struct text large = text_open(mark.large, sizeof mark.large);
    text_add_figure(&large, s->settings.metric_first ? millimetres : inches);
    SET(mark.unit, s->settings.metric_first ? T_("unit", "mm") : T_("unit", "in"));
    with_unit(mark.inches, sizeof mark.inches, inches, T_("unit", "in"));
    with_unit(mark.millimetres, sizeof mark.millimetres, millimetres, T_("unit", "mm"));
    if (s->settings.rules.mark_step % LENGTH_64TH == 0) {
        length_text_fraction(s->settings.rules.mark_step, number);
        with_unit(step, sizeof step, number, T_("unit", "in"));
    } else {
        length_text_mm(s->settings.rules.mark_step, 1, number);
        with_unit(step, sizeof step, number, T_("unit", "mm"));
    }
    SAY(mark.rounding, NEAREST_STEP, step, NULL, NULL);
    *ret_mark = mark;
}

void estimate_words(const char *source, char buffer[VIEW_TEXT_MAX]) {
    memset(buffer, 0, VIEW_TEXT_MAX);
    struct text text = text_open(buffer, VIEW_TEXT_MAX);
    estimate_reword(&text, source);
}
