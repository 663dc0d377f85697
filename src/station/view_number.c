// Number entry: what is asked, what was typed, what it would mean.

#include "estimate_text.h"
#include "station_inner.h"

#include <string.h>

static void field(struct view_number *number, const struct station *s, int at, enum word label) {
    struct view_field *to = &number->field[at];
    SET(to->label, word(label));
    SET(to->text, s->number.text[at]);
    to->active = s->number.active == at;
    number->field_count = (size_t)at + 1;
}

static void result(struct view_number *number, enum view_tone tone, enum word which,
                   const char *a) {
    words_fill(number->result, sizeof number->result, which, a, NULL, NULL);
    number->result_tone = tone;
}

static void dry_fit(const struct station *s, struct view_number *number) {
    length_nm overall;
    length_nm raw;
    length_nm height;
    char text[LENGTH_TEXT_MAX];
    SET(number->question, word(WORD_DRY_ASK));
    SAY(number->help, DRY_HELP, s->club.shaft.ticket, s->club.head.ticket, NULL);
    field(number, s, 0, WORD_DRY_OVERALL);
    field(number, s, 1, WORD_DRY_RAW);
    if (!number_value(s, 0, &overall) || !number_value(s, 1, &raw) || overall < raw) {
        return;
    }
    say_length(s, overall - raw, text);
    if (plan_dry_fit(overall, raw, &height)) {
        result(number, TONE_FINE, WORD_DRY_RESULT, text);
    } else {
        result(number, TONE_STOP, WORD_DRY_RANGE, text);
    }
}

static void picks(const struct station *s, length_nm mark, struct view_number *number) {
    length_nm step = s->settings.rules.mark_step;
    length_nm entered = LENGTH_UNKNOWN;
    if (mark == LENGTH_UNKNOWN) {
        return;
    }
    number_value(s, 0, &entered);
    for (int i = -2; i <= 2; i++) {
        length_nm value = mark + i * step;
        if (value >= 0) {
            size_t at = number->pick_count++;
            say_mark(s, value, &number->pick[at].mark);
            number->pick[at].planned = i == 0;
            number->pick[at].chosen = value == entered;
        }
    }
}

static void too_much(const struct station *s, length_nm made, length_nm tip_mark,
                     struct view_number *number) {
    struct club club = s->club;
    struct plan_input input;
    struct plan plan;
    char over[LENGTH_TEXT_MAX];
    char outcome[ESTIMATE_TEXT_MAX];
    club.progress.stage = STAGE_TIP_SHOWN; // the plan that the mark came from
    club_plan(&club, &s->settings.rules, &input, &plan);
    estimate_say_tip(&club, &plan, made, outcome);
    say_length(s, made - tip_mark, over);
    result(number, TONE_STOP, WORD_MADE_MORE, over);
    if (outcome[0] != '\0') {
        char words[VIEW_TEXT_MAX];
        estimate_words(outcome, words);
        words_add(number->result, sizeof number->result, WORD_MADE_OUTCOME, words, NULL, NULL);
    }
}

static void tip_made(const struct station *s, struct view_number *number) {
    length_nm made;
    length_nm tip_mark = cutting_tip_mark(s);
    length_nm raw = s->club.shaft.raw_length;
    char text[LENGTH_TEXT_MAX];
    char mark[LENGTH_TEXT_MAX];
    say_length(s, tip_mark, mark);
    say_length(s, raw, text);
    SET(number->question, word(WORD_MADE_ASK));
    SAY(number->help, MADE_HELP, mark, text, NULL);
    field(number, s, 0, WORD_MADE_FIELD);
    if (tip_mark == LENGTH_UNKNOWN) {
        return;
    }
    picks(s, tip_mark, number);
    if (!number_value(s, 0, &made)) {
        return;
    }
    switch (plan_verdict(raw - made, raw - tip_mark, s->settings.rules.tolerance)) {
    case VERDICT_LONG:
        say_length(s, tip_mark - made, text);
        result(number, TONE_CAUTION, WORD_MADE_LESS, text);
        break;
    case VERDICT_SHORT:
        too_much(s, made, tip_mark, number);
        break;
    case VERDICT_IN:
    case VERDICT_NONE:
    case VERDICT_COUNT:
        result(number, TONE_FINE, WORD_MADE_IN, NULL);
        break;
    }
}

// Against the butt mark, for both questions about the length of the shaft.
static void verdict(const struct station *s, length_nm mark, struct view_number *number) {
    length_nm made;
    char text[LENGTH_TEXT_MAX];
    if (!number_value(s, 0, &made)) {
        return;
    }
    switch (plan_verdict(made, mark, s->settings.rules.tolerance)) {
    case VERDICT_LONG:
        say_length(s, made - mark, text);
        result(number, TONE_CAUTION, WORD_MEASURE_LONG, text);
        break;
    case VERDICT_SHORT:
        say_length(s, mark - made, text);
        result(number, TONE_STOP, WORD_MEASURE_SHORT, text);
        break;
    case VERDICT_IN:
    case VERDICT_NONE:
    case VERDICT_COUNT:
        say_length(s, s->settings.rules.tolerance, text);
        result(number, TONE_FINE, WORD_MEASURE_IN, text);
        break;
    }
}

static void butt_left(const struct station *s, const struct plan *plan,
                      struct view_number *number) {
    char uncut[LENGTH_TEXT_MAX];
    char cut[LENGTH_TEXT_MAX];
    say_length(s, answer_piece(s), uncut);
    say_length(s, plan->butt_mark, cut);
    SET(number->question, word(WORD_LEFT_ASK));
    SAY(number->help, LEFT_HELP, uncut, cut, NULL);
    field(number, s, 0, WORD_LEFT_FIELD);
    verdict(s, plan->butt_mark, number);
    picks(s, plan->butt_mark, number);
}

// What the plan becomes with it.
static void given_trim(const struct station *s, const struct plan_input *input,
                       const struct plan *refused, struct view_number *number) {
    struct club club = s->club;
    struct plan_input with;
    struct plan plan;
    char why[PLAN_LINE_TEXT_MAX];
    char tip[LENGTH_TEXT_MAX];
    char butt[LENGTH_TEXT_MAX];
    SAY(number->question, TRIM_ASK, s->supervisor.name, NULL, NULL);
    plan_line_text(input, &refused->refusal, why, sizeof why);
    SAY(number->help, TRIM_HELP, why, NULL, NULL);
    field(number, s, 0, WORD_TRIM_FIELD);
    if (!number_value(s, 0, &club.order.trim_consent) || club.order.trim_consent < 0) {
        return;
    }
    if (club_plan(&club, &s->settings.rules, &with, &plan)) {
        say_length(s, plan.tip_mark, tip);
        say_length(s, plan.butt_mark, butt);
        words_fill(number->result, sizeof number->result, WORD_TRIM_RESULT, tip, butt, NULL);
        number->result_tone = TONE_FINE;
    } else {
        plan_line_text(&with, &plan.refusal, why, sizeof why);
        SET(number->result, why);
        number->result_tone = TONE_STOP;
    }
}

static void measure(const struct station *s, const struct plan *plan, struct view_number *number) {
    char extension[LENGTH_TEXT_MAX];
    SET(number->question, word(WORD_MEASURE_ASK));
    SAY(number->help, MEASURE_HELP, s->club.shaft.ticket, NULL, NULL);
    if (plan->refusal.code == PLAN_NONE && plan->extension > 0) {
        say_length(s, plan->extension, extension);
        SAY(number->help, MEASURE_EXTENDED, extension, s->club.shaft.ticket, NULL);
    }
    field(number, s, 0, WORD_MEASURE_FIELD);
    verdict(s, plan->butt_mark, number);
    picks(s, plan->butt_mark, number);
    if (number->result[0] == '\0' && s->number.note[0] != '\0') {
        SET(number->result, s->number.note);
        number->result_tone = TONE_CAUTION;
    }
}

void view_number(const struct station *s, struct view *view) {
    struct view_number *number = &view->number;
    struct plan_input input;
    struct plan plan;
    bool entered = s->number.text[0][0] != '\0';
    view->body = VIEW_NUMBER;
    cutting_plan(s, &input, &plan);
    view_band(view, TONE_WORK, true, entered ? WORD_DRY_BAND : WORD_NUMBER_BAND, WORD_NUMBER_HINT);
    switch (s->number.kind) {
    case NUMBER_DRY_FIT:
        dry_fit(s, number);
        break;
    case NUMBER_TIP_MADE:
        tip_made(s, number);
        break;
    case NUMBER_BUTT_LEFT:
        butt_left(s, &plan, number);
        break;
    case NUMBER_MEASURE:
        measure(s, &plan, number);
        view_band(view, TONE_WORK, true, entered ? WORD_MEASURE_BAND_READY : WORD_MEASURE_BAND,
                  WORD_NUMBER_HINT);
        break;
    case NUMBER_FINAL_LENGTH:
    case NUMBER_FINAL_SWINGWEIGHT:
    case NUMBER_FINAL_FREQUENCY:
    case NUMBER_FINAL_LOFT:
    case NUMBER_FINAL_LIE:
        final_fields(s, number);
        view_band(view, TONE_WORK, true, WORD_FINAL_BAND, WORD_EMPTY);
        break;
    case NUMBER_GIVEN_TRIM:
        given_trim(s, &input, &plan, number);
        view_band(view, TONE_CAUTION, true, WORD_TRIM_BAND, WORD_EMPTY);
        break;
    }
    SET(number->error, s->number.error);
}
