// The log: a day's table with the selected entry beside it, or one entry with its whole plan.

#include "cause_text.h"
#include "record.h"
#include "station_inner.h"
#include "text.h"

#include <string.h>

static void add_filter(char *buffer, size_t size, enum word which, const char *argument) {
    if (buffer[0] != '\0') {
        words_add(buffer, size, WORD_REVIEW_AND, NULL, NULL, NULL);
    }
    words_add(buffer, size, which, argument, NULL, NULL);
}

void view_filters(const struct station *s, char *buffer, size_t size) {
    const struct review_filter *filter = &s->review.filter;
    memset(buffer, 0, size);
    if (filter->ticket[0] != '\0') {
        add_filter(buffer, size, WORD_REVIEW_LIFE, filter->ticket);
    }
    if (filter->build[0] != '\0') {
        add_filter(buffer, size, WORD_REVIEW_BUILD, filter->build);
    }
    if (filter->worker[0] != '\0') {
        add_filter(buffer, size, WORD_REVIEW_WORKER, filter->worker);
    }
    if (filter->bench[0] != '\0') {
        add_filter(buffer, size, WORD_REVIEW_BENCH, filter->bench);
    }
    if (filter->material[0] != '\0') {
        add_filter(buffer, size, WORD_REVIEW_MATERIAL, filters_material(filter->material));
    }
    if (filter->verdict != VERDICT_NONE) {
        add_filter(buffer, size, WORD_REVIEW_VERDICT, verdict_words(filter->verdict));
    }
    if (filter->open_only) {
        add_filter(buffer, size, WORD_REVIEW_OPEN, NULL);
    }
    if (buffer[0] == '\0') {
        add_filter(buffer, size, WORD_REVIEW_ALL, NULL);
    }
}

static void detail(struct view_log *log, enum word which, const char *a, const char *b,
                   const char *c) {
    if (log->detail_count < VIEW_LINES_MAX) {
        words_fill(log->detail[log->detail_count], sizeof log->detail[0], which, a, b, c);
        log->detail_count++;
    }
}

// What a cut off its mark makes of the club.
static void outcome(const struct station *s, const struct entry *entry, const struct record *record,
                    struct view_log *log) {
    char text[LENGTH_TEXT_MAX];
    if (entry->verdict != VERDICT_SHORT) {
        return;
    }
    if (entry->kind == ENTRY_MEASURE) {
        say_length(s, record_playing(record, entry->made), text);
        detail(log, WORD_DETAIL_PLAYING, text, NULL, NULL);
    }
    if (record->outcome[0] != '\0') {
        char words[VIEW_TEXT_MAX];
        estimate_words(record->outcome, words);
        detail(log, WORD_OUTCOME, words, NULL, NULL);
    }
}

static void details(const struct station *s, const struct entry *entry, struct view_log *log) {
    char planned[LENGTH_TEXT_MAX];
    char made[LENGTH_TEXT_MAX];
    char tolerance[LENGTH_TEXT_MAX];
    char time[24] = "";
    char refers[LENGTH_TEXT_MAX];
    struct record record;
    bool recorded = record_read(entry->plan, &record);
    s->ops->time_text(s->ops->ctx, entry->wall_ms, false, time, sizeof time);
    SAY(log->detail_title, DETAIL, entry->shaft, entry_kind_words(entry->kind),
        entry->verdict != VERDICT_NONE ? verdict_words(entry->verdict) : entry->build);
    if (entry->planned != LENGTH_UNKNOWN) {
        say_length(s, entry->planned, planned);
        say_length(s, entry->made, made);
        detail(log, WORD_DETAIL_PLAN, planned, made, NULL);
    }
    if (entry->planned != LENGTH_UNKNOWN && recorded) { // the one it was judged by
        say_length(s, record.tolerance, tolerance);
        detail(log, WORD_DETAIL_TOLERANCE, tolerance, NULL, NULL);
    }
    detail(log, WORD_DETAIL_WHO, entry->worker, entry->bench, time);
    if (recorded) {
        outcome(s, entry, &record, log);
    }
    if (entry->cause[0] != '\0') {
        detail(log, WORD_DETAIL_CAUSE, cause_text(entry->cause), NULL, NULL);
    }
    if (entry->note[0] != '\0') {
        char note[VIEW_TEXT_MAX];
        hold_note_words(entry, note, sizeof note);
        detail(log, WORD_DETAIL_NOTE, note, NULL, NULL);
    }
    if (entry->refers != 0) {
        say_number(entry->refers, refers);
        detail(log, WORD_DETAIL_REFERS, refers, NULL, NULL);
    }
}

void view_days(const struct station *s, char *buffer, size_t size) {
    const struct review_filter *filter = &s->review.filter;
    char first[24] = "";
    char last[24] = "";
    if (filter->from_ms == 0) {
        words_copy(buffer, size, word(WORD_REVIEW_EVERY_DAY));
        return;
    }
    s->ops->time_text(s->ops->ctx, filter->from_ms, true, first, sizeof first);
    s->ops->time_text(s->ops->ctx, filter->to_ms - 1, true, last, sizeof last);
    if (s->ops->day_start_ms(s->ops->ctx, filter->to_ms - 1) == filter->from_ms) {
        words_copy(buffer, size, first);
    } else {
        words_fill(buffer, size, WORD_REVIEW_DAYS, first, last, NULL);
    }
}

static void subtitle(const struct station *s, struct view_log *log) {
    int64_t today_ms = s->ops->day_start_ms(s->ops->ctx, s->ops->wall_ms(s->ops->ctx));
    view_days(s, log->subtitle, sizeof log->subtitle);
    if (s->review.filter.from_ms == today_ms) {
        struct view_today today = {0};
        char cuts[VIEW_CELL_MAX];
        char out[VIEW_CELL_MAX];
        char holds[VIEW_CELL_MAX];
        s->ops->today(s->ops->ctx, &today);
        words_count(cuts, sizeof cuts, WORDS_REVIEW_CUTS, today.cuts, NULL);
        words_count(out, sizeof out, WORDS_REVIEW_OUT, today.out, NULL);
        words_count(holds, sizeof holds, WORDS_REVIEW_STOPS, today.holds, NULL);
        words_add(log->subtitle, sizeof log->subtitle, WORD_REVIEW_SUM, cuts, out, holds);
    }
}

static void table(const struct station *s, struct view *view) {
    struct view_log *log = &view->log;
    struct entry entry;
    bool open = false;
    bool filtering = s->review.mode == REVIEW_FILTERS || s->review.mode == REVIEW_PICK;
    int count = review_rows(s, log->row);
    view->body = VIEW_LOG;
    SET(log->title, word(WORD_REVIEW));
    subtitle(s, log);
    view_filters(s, log->filters, sizeof log->filters);
    log->row_count = count > 0 ? (size_t)count : 0;
    for (size_t i = 0; i < log->row_count; i++) {
        if (log->row[i].seq == s->review.selected) {
            log->selected = (int)i;
        }
    }
    if (filtering) {
        SET(log->detail_title, word(WORD_FILTER_TITLE));
        detail(log, WORD_FILTER_HINT, NULL, NULL, NULL);
        detail(log, WORD_FILTER_TYPE, NULL, NULL, NULL);
    } else if (review_selected(s, &entry, &open)) {
        details(s, &entry, log);
    }
    SET(log->note, s->review.note);
    log->note_active = s->review.note_active;
    view_band(view, open ? TONE_CAUTION : TONE_PLAIN, false,
              count < 0                        ? WORD_REVIEW_FAILED
              : s->review.mode == REVIEW_SPARE ? WORD_REVIEW_BAND_SPARE
              : filtering                      ? WORD_REVIEW_BAND_FILTER
              : count == 0                     ? WORD_REVIEW_EMPTY
              : open                           ? WORD_REVIEW_BAND_OPEN
                                               : WORD_REVIEW_BAND,
              WORD_EMPTY);
    if (decide_has_note(s)) {
        char about[LENGTH_TEXT_MAX];
        say_number(s->review.selected, about);
        view->band_tone = TONE_WORK;
        view->band_button = true;
        SAY(view->band, REVIEW_BAND_NOTE, about, NULL, NULL);
    }
    copies_words(s, view->band_hint, sizeof view->band_hint);
    if (s->review.message[0] != '\0') {
        SET(view->band, s->review.message);
    } else if (copies_failing(s, view->band, sizeof view->band)) {
        view->band_tone = TONE_CAUTION;
    }
}

void view_review(const struct station *s, struct view *view) {
    if (s->review.mode == REVIEW_ENTRY) {
        view_one_entry(s, view);
    } else if (s->review.mode == REVIEW_SHOWN) {
        view_shown(s, view);
    } else if (s->review.mode == REVIEW_STATS) {
        view_stats(s, view);
    } else if (s->review.mode == REVIEW_DAY || s->review.mode == REVIEW_SIGN ||
               s->review.mode == REVIEW_CHECK) {
        view_day(s, view);
    } else {
        table(s, view);
    }
}
