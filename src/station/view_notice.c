// Panels: a hold, the question after a restart, logged, not logged, consent.

#include "station_inner.h"

#include <string.h>

static void line(struct view_notice *notice, const char *text) {
    if (notice->line_count < sizeof notice->line / sizeof notice->line[0]) {
        SET(notice->line[notice->line_count], text);
        notice->line_count++;
    }
}

static void todo(struct view_notice *notice, const char *text) {
    if (notice->todo_count < sizeof notice->todo / sizeof notice->todo[0]) {
        SET(notice->todo[notice->todo_count], text);
        notice->todo_count++;
    }
}

static enum word hold_band(const struct station *s, const struct hold *hold) {
    bool one_part = (s->head[0] == '\0') != (s->shaft[0] == '\0');
    if (hold->cause == HOLD_SOMETHING_WRONG) {
        return WORD_BAND_CHOOSE;
    }
    if (hold->told != 0) {
        return WORD_BAND_UNDERSTOOD;
    }
    if (hold->unsafe && s->club.id != 0) {
        return WORD_BAND_CARE;
    }
    if (hold->back == STATION_SIGNED_OUT) {
        return WORD_BAND_BADGE;
    }
    if (hold->start_over) {
        return one_part ? WORD_BAND_START_OVER : WORD_BAND_START_OVER_ONLY;
    }
    return WORD_BAND_BACK;
}

void view_hold(const struct station *s, const struct hold *hold, struct view *view) {
    struct view_notice *notice = &view->notice;
    bool choose = hold->cause == HOLD_SOMETHING_WRONG;
    bool called = hold->cause == HOLD_SUPERVISOR;
    enum view_tone tone = choose ? TONE_CAUTION : TONE_STOP;
    view->body = VIEW_NOTICE;
    notice->tone = tone;
    SET(notice->title, hold_title(hold->cause));
    for (int i = 0; i < HOLD_LINES && hold->line[i][0] != '\0'; i++) {
        char words[VIEW_TEXT_MAX];
        hold_line_words(hold->line[i], words, sizeof words);
        line(notice, hold->told != 0 ? hold->line[i] : words);
    }
    for (int i = 0; i < HOLD_TODOS && hold->todo[i][0] != '\0'; i++) {
        todo(notice, hold->todo[i]);
    }
    SET(notice->todo_title, word(WORD_WHAT_TO_DO));
    SET(notice->foot, word(hold->logged ? WORD_STOP_LOGGED : WORD_STOP_NOT_LOGGED));
    view_band(view, tone, true, hold_band(s, hold), choose || called ? WORD_EMPTY : WORD_BAND_HINT);
}

void view_resume(const struct station *s, struct view *view) {
    struct view_notice *notice = &view->notice;
    bool butt = s->club.progress.stage == STAGE_BUTT_SHOWN;
    char uncut[LENGTH_TEXT_MAX];
    char cut[LENGTH_TEXT_MAX];
    char text[VIEW_TEXT_MAX];
    length_nm lengths[2];
    resume_lengths(s, &lengths[0], &lengths[1]);
    say_length(s, lengths[0], uncut);
    say_length(s, lengths[1], cut);
    view->body = VIEW_NOTICE;
    notice->tone = TONE_CAUTION;
    SAY(notice->title, RESUME, s->club.shaft.ticket, NULL, NULL);
    line(notice, word(WORD_RESUME_LINE));
    words_fill(text, sizeof text, butt ? WORD_RESUME_BUTT : WORD_RESUME_TIP, uncut, cut, NULL);
    line(notice, text);
    view_band(view, TONE_CAUTION, false, WORD_RESUME_BAND, WORD_CUT_HINT);
}

static void next_club(const struct station *s, struct view_notice *notice) {
    struct view_queue_row row;
    char text[VIEW_TEXT_MAX];
    if (s->ops->queue(s->ops->ctx, false, &row, 1) < 1) {
        line(notice, word(WORD_LOGGED_NO_NEXT));
        return;
    }
    struct text out = text_open(text, sizeof text);
    text_say(&out, word(WORD_LOGGED_NEXT), row.build, row.club, row.head, row.shaft);
    line(notice, text);
}

void view_logged(const struct station *s, struct view *view) {
    struct view_notice *notice = &view->notice;
    const struct progress *progress = &s->club.progress;
    struct plan_input input;
    struct plan plan;
    length_nm made;
    char number[LENGTH_TEXT_MAX];
    char text[VIEW_TEXT_MAX];
    view->body = VIEW_NOTICE;
    notice->tone = TONE_FINE;
    SAY(notice->title, LOGGED, s->club.order.build, s->club.order.club, NULL);
    if (progress->tip_seq != 0) {
        say_length(s, progress->tip_made, number);
        SAY(text, LOGGED_TIP, number, NULL, NULL);
        line(notice, text);
    }
    if (cutting_plan(s, &input, &plan)) {
        say_length(s, plan.butt_mark, number);
        SAY(text, LOGGED_BUTT, number, NULL, NULL);
        line(notice, text);
    }
    if (number_value(s, 0, &made)) {
        say_length(s, made, number);
        SAY(text, LOGGED_MADE, number, NULL, NULL);
        line(notice, text);
    }
    next_club(s, notice);
    SET(notice->todo_title, word(WORD_LOGGED_TODO));
    todo(notice, word(WORD_LOGGED_MARK));
    view_band(view, TONE_FINE, true, WORD_LOGGED_BAND, WORD_CUT_HINT);
}

// What the open entry is about, for a slip of paper, and its number.
static enum word open_words(const struct entry *entry, enum word *ret_mark) {
    *ret_mark = WORD_EMPTY;
    switch (entry->kind) {
    case ENTRY_TIP_CUT:
    case ENTRY_TIP_PARTIAL:
        *ret_mark = WORD_MARK_TIP;
        return WORD_OPEN_TIP;
    case ENTRY_BUTT_CUT:
        *ret_mark = WORD_MARK_BUTT;
        return WORD_OPEN_BUTT;
    case ENTRY_MEASURE:
        *ret_mark = WORD_MARK_MEASURE;
        return WORD_OPEN_MEASURE;
    case ENTRY_DRY_FIT:
        *ret_mark = WORD_MARK_FIT;
        return WORD_OPEN_FIT;
    case ENTRY_GENESIS:
    case ENTRY_SIGN_ON:
    case ENTRY_SIGN_OFF:
    case ENTRY_CARE:
    case ENTRY_TIP_SHOWN:
    case ENTRY_BUTT_SHOWN:
    case ENTRY_WITHDRAW:
    case ENTRY_HOLD:
    case ENTRY_CONSENT:
    case ENTRY_DECIDE:
    case ENTRY_PIN:
    case ENTRY_IMPORT:
    case ENTRY_EXPORT:
    case ENTRY_FINAL_LENGTH:
    case ENTRY_FINAL_SWINGWEIGHT:
    case ENTRY_FINAL_FREQUENCY:
    case ENTRY_FINAL_LOFT:
    case ENTRY_FINAL_LIE:
    case ENTRY_KIT:
    case ENTRY_DAY_SIGNED:
    case ENTRY_CHANGE:
    case ENTRY_TOLD:
    case ENTRY_SETTINGS:
    case ENTRY_RESTORED:
    case ENTRY_NOTE:
    case ENTRY_KIND_COUNT:
        break;
    }
    return entry->club_id != 0 ? WORD_OPEN_CLUB : WORD_OPEN_OTHER;
}

void view_saving(const struct station *s, struct view *view) {
    struct view_notice *notice = &view->notice;
    const struct entry *entry = &s->pending;
    bool refused = s->saving == SAVING_REFUSED;
    bool shown = entry->kind == ENTRY_TIP_SHOWN || entry->kind == ENTRY_BUTT_SHOWN;
    char what[VIEW_TEXT_MAX];
    char text[VIEW_TEXT_MAX];
    enum word mark;
    words_fill(what, sizeof what, open_words(entry, &mark), entry->shaft, entry->build,
               entry->club);
    view->body = VIEW_NOTICE;
    notice->tone = refused ? TONE_STOP : TONE_CAUTION;
    SET(notice->title, word(refused ? WORD_NOT_LOGGED : WORD_CHECKING));
    line(notice, word(refused ? WORD_NOT_LOGGED_LINE : WORD_CHECKING_LINE));
    if (refused) {
        s->ops->why(s->ops->ctx, text, sizeof text);
        line(notice, text);
    }
    if (shown) {
        line(notice, word(WORD_NOT_LOGGED_MARK));
    }
    SET(notice->todo_title, word(WORD_NOT_LOGGED_TITLE));
    if (!shown) {
        SAY(text, NOT_LOGGED_WRITE, what, NULL, NULL);
        todo(notice, text);
    }
    todo(notice, word(WORD_NOT_LOGGED_WAIT));
    todo(notice, word(WORD_NOT_LOGGED_CALL));
    notice->has_mark = mark != WORD_EMPTY && entry->made != LENGTH_UNKNOWN;
    if (notice->has_mark) {
        SET(notice->mark_label, word(mark));
        say_mark(s, entry->made, &notice->mark);
    }
    view_band(view, notice->tone, false, refused ? WORD_NOT_LOGGED_BAND : WORD_CHECKING_BAND,
              WORD_EMPTY);
}

void view_pin(const struct station *s, struct view *view) {
    bool badge = s->supervisor.badge[0] != '\0';
    view->body = VIEW_PIN;
    SET(view->title, word(badge ? WORD_PIN_TITLE : WORD_PIN_BADGE));
    SET(view->subtitle, s->supervisor.name);
    view->pin_digits = (int)strlen(s->pin.digits);
    SET(view->pin_message, s->pin.message);
    view_band(view, TONE_PLAIN, badge, badge ? WORD_PIN_BAND : WORD_PIN_BADGE_BAND, WORD_EMPTY);
}

void view_consent(const struct station *s, struct view *view) {
    struct view_notice *notice = &view->notice;
    struct plan_input input;
    struct plan plan;
    char text[PLAN_LINE_TEXT_MAX];
    cutting_plan(s, &input, &plan);
    plan_line_text(&input, &plan.refusal, text, sizeof text);
    view->body = VIEW_NOTICE;
    notice->tone = TONE_CAUTION;
    SAY(notice->title, CONSENT, s->supervisor.name, NULL, NULL);
    line(notice, text);
    line(notice, word(WORD_CONSENT_LINE));
    view_band(view, TONE_CAUTION, false, WORD_CONSENT_BAND, WORD_EMPTY);
}
