// The mark, why it is where it is, and what comes next.

#include "estimate_text.h"
#include "station_inner.h"
#include "text.h"

#include <string.h>

#define RECEIPT_ROOM 9 // lines beside the mark that stay readable from two metres

static void amount(const struct station *s, length_nm length, bool first, char *buffer,
                   size_t size) {
    char words[LENGTH_TEXT_MAX];
    memset(buffer, 0, size);
    struct text text = text_open(buffer, size);
    struct length_fraction fraction;
    if (length == 0 && !first) {
        return; // explains only
    }
    if (s->settings.metric_first) {
        length_text_mm(length, 1, words);
    } else if (length_split(length, &fraction)) {
        length_text_fraction(length, words);
    } else {
        length_text_inch(length, 3, words);
    }
    text_add(&text, !first && length > 0 ? "+" : "");
    text_add_figure(&text, words);
}

static void receipt_line(const struct station *s, struct view_cut *cut, const char *words,
                         length_nm length) {
    struct view_receipt_line *line = &cut->receipt[cut->receipt_count];
    if (cut->receipt_count == VIEW_LINES_MAX) {
        return;
    }
    SET(line->text, words);
    amount(s, length, cut->receipt_count == 0, line->amount, sizeof line->amount);
    cut->receipt_count++;
}

static void tip_receipt(const struct station *s, const struct record *record,
                        struct view_cut *cut) {
    for (size_t i = 0; i < record->reason_count; i++) {
        char words[PLAN_LINE_TEXT_MAX];
        plan_line_reword(record->reason[i].code, record->reason[i].text, words, sizeof words);
        receipt_line(s, cut, words, record->reason[i].amount);
    }
    SET(cut->total.text, word(WORD_TOTAL_TIP));
    amount(s, record->tip_mark, true, cut->total.amount, sizeof cut->total.amount);
}

static void butt_receipt(const struct station *s, const struct record *record,
                         struct view_cut *cut) {
    receipt_line(s, cut, word(WORD_PLAYING), record->playing_length);
    receipt_line(s, cut, word(WORD_BORE), -record->bore_height);
    receipt_line(s, cut, word(WORD_GRIP_CAP), -record->grip_cap);
    if (record->proud != 0) {
        receipt_line(s, cut, word(WORD_PROUD), record->proud);
    }
    if (record->butt_mark != record->finished) {
        receipt_line(s, cut, word(WORD_NEAREST), record->butt_mark - record->finished);
    }
    SET(cut->total.text, word(WORD_TOTAL_BUTT));
    amount(s, record->butt_mark, true, cut->total.amount, sizeof cut->total.amount);
}

static void warn(struct view_cut *cut, const char *words) {
    if (cut->warning_count < VIEW_LINES_MAX) {
        SET(cut->warning[cut->warning_count], words);
        cut->warning_count++;
    }
}

static void warnings(const struct station *s, const struct record *record, struct view_cut *cut) {
    length_nm part = cut->butt ? 0 : record->shown.tip_part;
    if (record->shown.maybe) {
        warn(cut, word(WORD_MAYBE_CUT));
    }
    if (part != 0) {
        char made[LENGTH_TEXT_MAX];
        char left[LENGTH_TEXT_MAX];
        char words[VIEW_TEXT_MAX];
        say_length(s, part, made);
        say_length(s, record->tip_mark - part, left);
        SAY(words, PARTLY, made, left, NULL);
        warn(cut, words);
    }
    for (size_t i = 0; i < record->warning_count; i++) {
        char words[PLAN_LINE_TEXT_MAX];
        plan_line_reword(record->warning[i].code, record->warning[i].text, words, sizeof words);
        warn(cut, words);
    }
}

// As many as there is room for beside reasons and warnings, which matter more; the log has all.
static void estimates(const struct record *record, struct view_cut *cut) {
    const struct estimate_lines *lines = &record->estimates;
    size_t used = cut->receipt_count + 2 * cut->warning_count; // warnings take two lines
    size_t room = used < RECEIPT_ROOM ? RECEIPT_ROOM - used : 0;
    for (size_t i = 0; i < lines->count && i < VIEW_ESTIMATES_MAX && i < room; i++) {
        estimate_words(lines->line[i], cut->estimate[i]);
        cut->estimate_count++;
    }
}

static void parts(const struct record *record, struct view_cut *cut) {
    char position[LENGTH_TEXT_MAX];
    char count[LENGTH_TEXT_MAX];
    char weight[LENGTH_TEXT_MAX + 2];
    say_number(record->position, position);
    say_number(record->count, count);
    struct text text = text_open(weight, sizeof weight);
    text_add_mass(&text, record->head_weight);
    SAY(cut->build, PAIR_BUILD, record->build, position, count);
    words_fill(cut->head, sizeof cut->head,
               record->engraved[0] != '\0' ? WORD_CUT_HEAD_SOLE : WORD_CUT_HEAD, record->head,
               weight, record->engraved);
    SAY(cut->shaft, CUT_SHAFT, record->shaft, material_words(record->material), record->flex);
}

static void next(const struct station *s, const struct record *record, struct view_cut *cut) {
    char mark[LENGTH_TEXT_MAX];
    if (!cut->butt && record->butt_cut) {
        say_length(s, record->butt_mark, mark);
        SAY(cut->next, NEXT_BUTT, mark, NULL, NULL);
    } else {
        SET(cut->next, word(WORD_NEXT_MEASURE));
    }
}

// All that is shown comes from the record, live or years later, so that the two cannot differ.
static void fill(const struct station *s, const struct record *record, bool butt,
                 struct view_cut *cut) {
    length_nm part = butt ? 0 : record->shown.tip_part;
    cut->butt = butt;
    cut->tip_right = record->shown.tip_right;
    cut->piece = record->shown.piece;
    say_mark(s, butt ? record->butt_mark : record->tip_mark - part, &cut->mark);
    SET(cut->heading, word(butt        ? WORD_BUTT_HEADING
                           : part != 0 ? WORD_TIP_REST
                                       : WORD_TIP_HEADING));
    SET(cut->waste, word(WORD_WASTE));
    SET(cut->keep, word(WORD_KEEP));
    SET(cut->blade, word(WORD_BLADE));
    SET(cut->measure, word(!butt                   ? WORD_MEASURE_TIP
                           : record->shown.new_tip ? WORD_MEASURE_BUTT
                                                   : WORD_MEASURE_BUTT_UNCUT));
    parts(record, cut);
    if (butt) {
        butt_receipt(s, record, cut);
    } else {
        tip_receipt(s, record, cut);
    }
    SAY(cut->why, WHY, cut->total.amount, NULL, NULL);
    warnings(s, record, cut);
    estimates(record, cut);
    next(s, record, cut);
}

void view_cut(const struct station *s, struct view *view) {
    struct record record;
    view->body = VIEW_CUT;
    if (cutting_shown(s, &record)) {
        fill(s, &record, s->state == STATION_BUTT_CUT, &view->cut);
    }
    view_band(view, TONE_WORK, true, s->maybe_cut ? WORD_CUT_BAND_MAYBE : WORD_CUT_BAND,
              WORD_CUT_HINT);
}

bool view_has_shown(const struct entry *entry) {
    return entry->plan[0] != '\0' &&
           (entry->kind == ENTRY_TIP_SHOWN || entry->kind == ENTRY_TIP_CUT ||
            entry->kind == ENTRY_BUTT_SHOWN || entry->kind == ENTRY_BUTT_CUT);
}

// Entries from before the screen's own settings were written down are shown with those of now.
static void assume(const struct station *s, bool butt, struct record *record) {
    bool tip_cut = butt && record->tip_mark > 0;
    record->shown =
        (struct record_shown){.tip_right = s->settings.tip_right,
                              .metric = s->settings.metric_first,
                              .new_tip = tip_cut,
                              .piece = record->raw_length - (tip_cut ? record->tip_mark : 0)};
}

void view_shown(const struct station *s, struct view *view) {
    struct station then = *s; // with the settings of that day
    struct record record;
    struct entry entry;
    char day[24] = "";
    char time[24] = "";
    char seq[LENGTH_TEXT_MAX];
    bool open;
    view->body = VIEW_SHOWN;
    view_band(view, TONE_CAUTION, false, WORD_SHOWN_BAND, WORD_EMPTY);
    if (!review_selected(s, &entry, &open) || !record_read(entry.plan, &record)) {
        SET(view->title, word(WORD_REVIEW_FAILED));
        return;
    }
    bool butt = entry.kind == ENTRY_BUTT_SHOWN || entry.kind == ENTRY_BUTT_CUT;
    if (!record.shown.known) {
        assume(s, butt, &record);
    }
    then.settings.metric_first = record.shown.metric;
    then.settings.rules.mark_step = record.mark_step;
    s->ops->time_text(s->ops->ctx, entry.wall_ms, true, day, sizeof day);
    s->ops->time_text(s->ops->ctx, entry.wall_ms, false, time, sizeof time);
    say_number(entry.seq, seq);
    SAY(view->title, SHOWN_TITLE, seq, day, time);
    fill(&then, &record, butt, &view->cut);
}
