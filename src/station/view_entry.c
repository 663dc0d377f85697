// One entry of the log, every field, and its plan redrawn from what was written down.

#include "cause_text.h"
#include "change.h"
#include "record.h"
#include "station_inner.h"
#include "text.h"
#include "tongue.h"

#include <string.h>

static void fact(struct view_entry *view, const char *name, const char *value) {
    if (view->fact_count < sizeof view->fact / sizeof view->fact[0] && value[0] != '\0') {
        SAY(view->fact[view->fact_count], FACT, name, value, NULL);
        view->fact_count++;
    }
}

static void fact_number(struct view_entry *view, const char *name, int64_t number) {
    char text[LENGTH_TEXT_MAX];
    say_number(number, text);
    fact(view, name, number != 0 ? text : "");
}

static void fact_length(const struct station *s, struct view_entry *view, const char *name,
                        length_nm length) {
    char text[LENGTH_TEXT_MAX];
    say_length(s, length, text);
    fact(view, name, length != LENGTH_UNKNOWN ? text : "");
}

static void facts(const struct station *s, const struct entry *entry, struct view_entry *view) {
    char time[64] = "";
    char clock[24] = "";
    struct text text;
    s->ops->time_text(s->ops->ctx, entry->wall_ms, true, time, sizeof time);
    s->ops->time_text(s->ops->ctx, entry->wall_ms, false, clock, sizeof clock);
    text = (struct text){.buffer = time, .size = sizeof time, .used = strlen(time)};
    text_add(&text, " ");
    text_add(&text, clock);
    fact(view, _("Time"), time);
    fact(view, _("Bench"), entry->bench);
    fact(view, _("Worker"), entry->worker);
    fact(view, _("Build"), entry->build);
    fact(view, _("Club"), entry->club);
    fact(view, _("Head"), entry->head);
    fact(view, _("Shaft"), entry->shaft);
    fact_length(s, view, _("Plan"), entry->planned);
    fact_length(s, view, _("Made"), entry->made);
    fact(view, _("Verdict"), verdict_words(entry->verdict));
    fact_number(view, _("Attempt"), entry->attempt);
    fact_number(view, _("About entry"), entry->refers);
    fact(view, _("Why"), cause_text(entry->cause));
    char note[VIEW_TEXT_MAX];
    hold_note_words(entry, note, sizeof note);
    fact(view, _("Note"), note);
    fact_number(view, _("Chart revision"), entry->chart_revision);
    fact(view, _("Confirm id"), entry->confirm_id);
}

static void plan_line(struct view_entry *view, const char *name, const char *value) {
    struct view_receipt_line *line = &view->plan[view->plan_count];
    if (view->plan_count < sizeof view->plan / sizeof view->plan[0] && value[0] != '\0') {
        SET(line->text, name);
        SET(line->amount, value);
        view->plan_count++;
    }
}

static void plan_length(const struct station *s, struct view_entry *view, const char *name,
                        length_nm length) {
    char text[LENGTH_TEXT_MAX];
    say_length(s, length, text);
    plan_line(view, name, text);
}

static void plan_rest(const struct station *s, const struct record *record,
                      struct view_entry *view) {
    char weight[LENGTH_TEXT_MAX + 2];
    struct text text = text_open(weight, sizeof weight);
    text_add_mass(&text, record->head_weight);
    plan_length(s, view, _("Butt mark, from the new tip"), record->butt_mark);
    plan_length(s, view, _("Finished length, exact"), record->finished);
    plan_length(s, view, _("Playing length"), record->playing_length);
    plan_length(s, view, _("Grip cap"), record->grip_cap);
    plan_length(s, view, _("Raw length"), record->raw_length);
    plan_line(view, _("Head weight"), weight);
    plan_line(view, _("Sole says"), record->engraved);
    plan_length(s, view, _("Bore height"), record->bore_height);
    if (record->proud != 0) {
        plan_length(s, view, _("Ground off at the sole"), record->proud);
    }
    if (record->extension != 0) {
        plan_length(s, view, _("Extension of the butt"), record->extension);
    }
    plan_length(s, view, _("Marks to the nearest"), record->mark_step);
    plan_length(s, view, _("Tolerance"), record->tolerance);
    plan_line(view, _("Shaft"), record->shaft_model);
    plan_line(view, _("Flex"), record->flex);
}

static void receipt(const struct station *s, const struct record *record, struct view_entry *view) {
    char amount[LENGTH_TEXT_MAX];
    char words[PLAN_LINE_TEXT_MAX];
    for (size_t i = 0; i < record->reason_count; i++) {
        struct view_receipt_line *line = &view->receipt[view->receipt_count++];
        plan_line_reword(record->reason[i].code, record->reason[i].text, words, sizeof words);
        SET(line->text, words);
        if (record->reason[i].amount != 0 || i == 0) {
            say_length(s, record->reason[i].amount, amount);
            SET(line->amount, amount);
        }
    }
    SET(view->total.text, word(WORD_TOTAL_TIP));
    say_length(s, record->tip_mark, amount);
    SET(view->total.amount, amount);
    plan_rest(s, record, view);
    for (size_t i = 0; i < record->estimates.count; i++) {
        estimate_words(record->estimates.line[i], view->estimate[view->estimate_count]);
        view->estimate_count++;
    }
    if (record->outcome[0] != '\0') {
        estimate_words(record->outcome, view->estimate[view->estimate_count]);
        view->estimate_count++;
    }
    for (size_t i = 0; i < record->warning_count; i++) {
        plan_line_reword(record->warning[i].code, record->warning[i].text, words, sizeof words);
        SET(view->warning[view->warning_count], words);
        view->warning_count++;
    }
}

static const char *known(const char *value) {
    return value[0] != '\0' ? value : word(WORD_CHANGE_NONE);
}

static void change_lines(const struct change *change, struct view_entry *view) {
    bool both = !change->made && !change->taken;
    enum word what = change->made    ? WORD_CHANGE_MADE
                     : change->taken ? WORD_CHANGE_TAKEN
                                     : WORD_CHANGE_OF;
    words_fill(view->total.text, sizeof view->total.text, what, change->sheet, NULL, NULL);
    for (size_t i = 0; i < change->count; i++) {
        const struct change_cell *cell = &change->cell[i];
        struct view_receipt_line *line = &view->receipt[view->receipt_count];
        if (view->receipt_count == VIEW_LINES_MAX - 1 && change->count > VIEW_LINES_MAX) {
            char more[LENGTH_TEXT_MAX];
            say_number((int64_t)(change->count - i), more);
            SAY(line->text, CHANGE_MORE, more, NULL, NULL);
            view->receipt_count++;
            return;
        }
        if (both) {
            SAY(line->text, CHANGE_CELL, cell->name, known(cell->before), known(cell->after));
        } else {
            SAY(line->text, CHANGE_ONE, cell->name, change->made ? cell->after : cell->before,
                NULL);
        }
        view->receipt_count++;
    }
}

// Who said what about it later; a decision with what it came to.
static void said(const struct station *s, const struct entry *entry, struct view_entry *view) {
    struct station_remark remarks[VIEW_SAID_MAX];
    int64_t total = 0;
    int count = 0;
    if (s->ops->about(s->ops->ctx, entry->seq, remarks, VIEW_SAID_MAX, &count, &total) ==
        STATION_LOOKUP_FAILED) {
        SET(view->said[0], word(WORD_REVIEW_FAILED));
        view->said_count = 1;
        return;
    }
    if (total > count) {
        words_count(view->said[0], sizeof view->said[0], WORDS_SAID_EARLIER, total - count, NULL);
        view->said_count = 1;
    }
    for (int i = 0; i < count; i++) {
        const struct station_remark *remark = &remarks[i];
        char *to = view->said[view->said_count++];
        char day[24] = "";
        char clock[24] = "";
        s->ops->time_text(s->ops->ctx, remark->wall_ms, true, day, sizeof day);
        s->ops->time_text(s->ops->ctx, remark->wall_ms, false, clock, sizeof clock);
        char what[VIEW_SHORT_MAX];
        struct text kind = text_open(what, sizeof what);
        text_add(&kind, entry_kind_words(remark->kind));
        text_add(&kind, remark->cause[0] != '\0' ? " " : "");
        text_add(&kind, cause_text(remark->cause));
        struct text text = text_open(to, VIEW_SAID_TEXT_MAX);
        text_say(&text, word(remark->note[0] != '\0' ? WORD_SAID_NOTE : WORD_SAID), day, clock,
                 remark->worker, what, remark->note);
    }
}

void view_one_entry(const struct station *s, struct view *view) {
    struct view_entry *out = &view->entry;
    struct record record;
    struct change change;
    struct entry entry;
    char seq[LENGTH_TEXT_MAX];
    bool open;
    view->body = VIEW_ENTRY;
    view_band(view, TONE_PLAIN, false, WORD_ENTRY_BAND, WORD_EMPTY);
    if (s->review.message[0] != '\0') {
        SET(view->band, s->review.message);
    }
    if (!review_selected(s, &entry, &open)) {
        SET(out->title, word(WORD_REVIEW_FAILED));
        return;
    }
    say_number(entry.seq, seq);
    SAY(out->title, ENTRY_TITLE, seq, entry_kind_words(entry.kind), NULL);
    facts(s, &entry, out);
    said(s, &entry, out);
    if (entry.plan[0] == '\0') {
        SET(out->total.text, word(WORD_FACT_NO_PLAN));
    } else if (entry.kind == ENTRY_CHANGE && change_read(entry.plan, &change)) {
        change_lines(&change, out);
    } else if (record_read(entry.plan, &record)) {
        receipt(s, &record, out);
    } else {
        SET(out->total.text, word(WORD_FACT_BAD_PLAN));
    }
}
