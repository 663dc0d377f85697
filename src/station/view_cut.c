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
    text_add(&text, words);
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

static void tip_receipt(const struct station *s, const struct plan_input *input,
                        const struct plan *plan, struct view_cut *cut) {
    for (size_t i = 0; i < plan->reason_count; i++) {
        char words[PLAN_LINE_TEXT_MAX];
        plan_line_text(input, &plan->reason[i], words, sizeof words);
        receipt_line(s, cut, words, plan->reason[i].amount);
    }
    SET(cut->total.text, word(WORD_TOTAL_TIP));
    amount(s, plan->tip_mark, true, cut->total.amount, sizeof cut->total.amount);
}

static void butt_receipt(const struct station *s, const struct plan *plan, struct view_cut *cut) {
    receipt_line(s, cut, word(WORD_PLAYING), s->club.order.playing_length);
    receipt_line(s, cut, word(WORD_BORE), -s->club.head.bore_height);
    receipt_line(s, cut, word(WORD_GRIP_CAP), -s->club.order.grip_cap);
    if (plan->butt_mark != plan->finished) {
        receipt_line(s, cut, word(WORD_NEAREST), plan->butt_mark - plan->finished);
    }
    SET(cut->total.text, word(WORD_TOTAL_BUTT));
    amount(s, plan->butt_mark, true, cut->total.amount, sizeof cut->total.amount);
}

static void warn(struct view_cut *cut, const char *words) {
    if (cut->warning_count < VIEW_LINES_MAX) {
        SET(cut->warning[cut->warning_count], words);
        cut->warning_count++;
    }
}

static void warnings(const struct station *s, const struct plan_input *input,
                     const struct plan *plan, struct view_cut *cut) {
    length_nm part = cut->butt ? 0 : cutting_tip_part(s);
    if (s->maybe_cut) {
        warn(cut, word(WORD_MAYBE_CUT));
    }
    if (part != 0) {
        char made[LENGTH_TEXT_MAX];
        char left[LENGTH_TEXT_MAX];
        char words[VIEW_TEXT_MAX];
        say_length(s, part, made);
        say_length(s, plan->tip_mark - part, left);
        SAY(words, PARTLY, made, left, NULL);
        warn(cut, words);
    }
    for (size_t i = 0; i < plan->warning_count; i++) {
        char words[PLAN_LINE_TEXT_MAX];
        plan_line_text(input, &plan->warning[i], words, sizeof words);
        warn(cut, words);
    }
}

// As many as there is room for beside reasons and warnings, which matter more; the log has all.
static void estimates(const struct station *s, const struct plan_input *input,
                      const struct plan *plan, struct view_cut *cut) {
    struct estimate_lines lines;
    size_t used = cut->receipt_count + 2 * cut->warning_count; // warnings take two lines
    size_t room = used < RECEIPT_ROOM ? RECEIPT_ROOM - used : 0;
    estimate_say(&s->club, input, plan, &s->settings.assembly, &lines);
    for (size_t i = 0; i < lines.count && i < VIEW_ESTIMATES_MAX && i < room; i++) {
        SET(cut->estimate[i], lines.line[i]);
        cut->estimate_count++;
    }
}

static void parts(const struct station *s, struct view_cut *cut) {
    const struct club *club = &s->club;
    char position[LENGTH_TEXT_MAX];
    char count[LENGTH_TEXT_MAX];
    char weight[LENGTH_TEXT_MAX + 2];
    say_number(club->order.position, position);
    say_number(club->order.count, count);
    mass_text(club->head.weight, weight);
    words_add(weight, sizeof weight, WORD_GRAM, NULL, NULL, NULL);
    SAY(cut->build, PAIR_BUILD, club->order.build, position, count);
    words_fill(cut->head, sizeof cut->head,
               club->head.engraved[0] != '\0' ? WORD_CUT_HEAD_SOLE : WORD_CUT_HEAD,
               club->head.ticket, weight, club->head.engraved);
    SAY(cut->shaft, CUT_SHAFT, club->shaft.ticket, material_text(club->model.material),
        club->shaft.flex);
}

static void next(const struct station *s, const struct plan *plan, struct view_cut *cut) {
    char mark[LENGTH_TEXT_MAX];
    if (!cut->butt && plan->butt_cut) {
        say_length(s, plan->butt_mark, mark);
        SAY(cut->next, NEXT_BUTT, mark, NULL, NULL);
    } else {
        SET(cut->next, word(WORD_NEXT_MEASURE));
    }
}

void view_cut(const struct station *s, struct view *view) {
    struct view_cut *cut = &view->cut;
    struct plan_input input;
    struct plan plan;
    length_nm part = cutting_tip_part(s);
    bool butt = s->state == STATION_BUTT_CUT;
    bool new_tip = s->club.progress.tip_seq != 0;
    cutting_plan(s, &input, &plan);
    view->body = VIEW_CUT;
    cut->butt = butt;
    cut->tip_right = s->settings.tip_right;
    cut->piece = answer_piece(s);
    say_mark(s, butt ? plan.butt_mark : plan.tip_mark - part, &cut->mark);
    SET(cut->heading, word(butt        ? WORD_BUTT_HEADING
                           : part != 0 ? WORD_TIP_REST
                                       : WORD_TIP_HEADING));
    SET(cut->waste, word(WORD_WASTE));
    SET(cut->keep, word(WORD_KEEP));
    SET(cut->blade, word(WORD_BLADE));
    SET(cut->measure, word(!butt     ? WORD_MEASURE_TIP
                           : new_tip ? WORD_MEASURE_BUTT
                                     : WORD_MEASURE_BUTT_UNCUT));
    parts(s, cut);
    if (butt) {
        butt_receipt(s, &plan, cut);
    } else {
        tip_receipt(s, &input, &plan, cut);
    }
    SAY(cut->why, WHY, cut->total.amount, NULL, NULL);
    warnings(s, &input, &plan, cut);
    estimates(s, &input, &plan, cut);
    next(s, &plan, cut);
    view_band(view, TONE_WORK, true, s->maybe_cut ? WORD_CUT_BAND_MAYBE : WORD_CUT_BAND,
              WORD_CUT_HINT);
}
