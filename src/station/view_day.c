// A day's figures beside its signature, or the question whether it shall be signed.

#include "station_inner.h"
#include "text.h"

#include <string.h>

#define MILLION 1000000

static void fact(struct view_day *view, enum word name, int64_t number) {
    char words[LENGTH_TEXT_MAX];
    say_number(number, words);
    SET(view->fact[view->fact_count].name, word(name));
    SET(view->fact[view->fact_count].value, words);
    view->fact_count++;
}

static void line(struct view_day *view, const char *words) {
    if (words[0] != '\0' && view->line_count < VIEW_DAY_LINES) {
        SET(view->line[view->line_count], words);
        view->line_count++;
    }
}

static void line_of(struct view_day *view, enum word which, int64_t number) {
    char words[VIEW_LONG_MAX];
    char digits[LENGTH_TEXT_MAX];
    say_number(number, digits);
    words_fill(words, sizeof words, which, digits, NULL, NULL);
    line(view, words);
}

static void question(const struct station_day *day, const char *name, struct view_day *view) {
    view->tone = TONE_CAUTION;
    SAY(view->verdict, DAY_ASK, name, NULL, NULL);
    line_of(view, WORD_DAY_ASK_LINE, day->entries);
    if (day->open > 0) {
        line_of(view, WORD_DAY_ASK_OPEN, day->open);
    }
    line(view, word(WORD_DAY_ASK_CHECK));
}

// `3.1`, `10`.
static void say_tenths(int64_t tenths, char buffer[LENGTH_TEXT_MAX]) {
    struct text text = text_open(buffer, LENGTH_TEXT_MAX);
    text_add_number(&text, tenths / 10);
    if (tenths % 10 != 0) {
        text_add(&text, ".");
        text_add_number(&text, tenths % 10);
    }
}

static void checking(const struct station *s, struct view_day *view) {
    const int64_t tenth = MILLION / 10;
    char read[LENGTH_TEXT_MAX];
    char all[LENGTH_TEXT_MAX];
    view->tone = TONE_WORK;
    if (s->day.all >= MILLION) {
        say_tenths(s->day.checked / tenth, read);
        say_tenths(s->day.all / tenth, all);
        SAY(view->verdict, DAY_CHECK_MILLIONS, read, all, NULL);
    } else {
        say_number(s->day.checked, read);
        say_number(s->day.all, all);
        SAY(view->verdict, DAY_CHECK, read, all, NULL);
    }
    if (s->day.all > 0 && s->day.checked == s->day.all) {
        SET(view->verdict, word(WORD_DAY_CHECK_REST));
    }
    line(view, word(WORD_DAY_CHECK_LINE));
}

static void signature(const struct station *s, const struct station_day *day,
                      struct view_day *view) {
    char date[24] = "";
    char time[24] = "";
    if (day->is_signed) {
        s->ops->time_text(s->ops->ctx, day->signed_ms, true, date, sizeof date);
        s->ops->time_text(s->ops->ctx, day->signed_ms, false, time, sizeof time);
        view->tone = TONE_FINE;
        SAY(view->verdict, DAY_SIGNED, day->who, date, time);
        SET(view->brief, day->brief);
    } else {
        view->tone = TONE_PLAIN;
        SET(view->verdict, word(WORD_DAY_NOT_SIGNED));
    }
    if (s->day.message[0] != '\0') {
        view->tone = s->day.tone;
        line(view, s->day.message);
    }
    if (s->day.note[0] != '\0') {
        line(view, word(WORD_DAY_CODE));
        SET(view->note, s->day.note);
    }
}

void view_day(const struct station *s, struct view *view) {
    struct view_day *to = &view->day;
    struct station_day day;
    char name[24] = "";
    bool asking = s->review.mode == REVIEW_SIGN;
    memset(&day, 0, sizeof day);
    view->body = VIEW_DAY;
    s->ops->time_text(s->ops->ctx, s->review.filter.from_ms, true, name, sizeof name);
    SET(to->title, word(WORD_DAY));
    SET(to->subtitle, name);
    view_band(view, TONE_PLAIN, false, asking ? WORD_DAY_BAND_ASK : WORD_DAY_BAND, WORD_EMPTY);
    if (day_checks(s)) {
        view_band(view, TONE_WORK, true, WORD_DAY_BAND_CHECK, WORD_EMPTY);
    } else if (s->review.message[0] != '\0') {
        SET(view->band, s->review.message);
    }
    if (s->ops->day(s->ops->ctx, s->review.filter.from_ms, s->review.filter.to_ms, &day) !=
        STATION_FOUND) {
        to->tone = TONE_STOP;
        SET(to->verdict, word(WORD_REVIEW_FAILED));
        line(to, s->day.message);
        return;
    }
    fact(to, WORD_DAY_DONE, day.today.clubs);
    fact(to, WORD_DAY_CUTS, day.today.cuts);
    fact(to, WORD_DAY_OUT, day.today.out);
    fact(to, WORD_DAY_STOPS, day.today.holds);
    fact(to, WORD_DAY_OPEN, day.open);
    fact(to, WORD_DAY_ENTRIES, day.entries);
    fact(to, WORD_DAY_UNCOVERED, day.uncovered);
    if (day_checks(s)) {
        checking(s, to);
    } else if (asking) {
        question(&day, name, to);
    } else {
        signature(s, &day, to);
    }
}
