#include "plans.h"
#include "orders.h"
#include "text.h"
#include "workshop.h"

#include <string.h>

#define OFFCUTS_NAMED 3 // the shortest that will do

static void add_line(struct plans_words *words, enum view_tone tone, const char *text) {
    if (words->line_count < VIEW_LINES_MAX) {
        SET(words->line[words->line_count], text);
        words->tone[words->line_count++] = tone;
    }
}

static void marks(const struct office *office, const struct plan *plan, struct plans_words *words) {
    struct text text = text_open(words->marks, sizeof words->marks);
    office_length(office, plan->tip_mark, words->tip, sizeof words->tip);
    office_length(office, plan->butt_mark, words->butt, sizeof words->butt);
    text_say(&text,
             plan->tip_mark > 0 ? _("Tip mark %1, butt mark %2") : _("Tip mark none, butt mark %2"),
             words->tip, words->butt);
}

static void reasons(const struct office *office, const struct plan_input *input,
                    const struct plan *plan, struct plans_words *words) {
    for (size_t i = 0; i < plan->reason_count; i++) {
        char reason[PLAN_LINE_TEXT_MAX];
        char amount[VIEW_CELL_MAX];
        char line[VIEW_TEXT_MAX];
        struct text text = text_open(line, sizeof line);
        plan_line_text(input, &plan->reason[i], reason, sizeof reason);
        office_length(office, plan->reason[i].amount, amount, sizeof amount);
        text_add(&text, reason);
        if (plan->reason[i].amount != 0) {
            text_add(&text, ": ");
            text_add(&text, amount);
        }
        add_line(words, TONE_PLAIN, line);
    }
    for (size_t i = 0; i < plan->warning_count; i++) {
        char warning[PLAN_LINE_TEXT_MAX];
        plan_line_text(input, &plan->warning[i], warning, sizeof warning);
        add_line(words, TONE_CAUTION, warning);
    }
}

void plans_club(const struct office *office, const struct club *club,
                struct plans_words *ret_words) {
    struct plan_input input;
    struct plan plan;
    memset(ret_words, 0, sizeof *ret_words);
    if (club->head.ticket[0] == '\0' || club->shaft.ticket[0] == '\0') {
        SET(ret_words->missing, club->head.ticket[0] == '\0' && club->shaft.ticket[0] == '\0'
                                    ? _("no head, no shaft yet")
                                : club->head.ticket[0] == '\0' ? _("no head yet")
                                                               : _("no shaft yet"));
        return;
    }
    ret_words->planned = club_plan(club, &office->settings->rules, &input, &plan);
    if (!ret_words->planned) {
        char refusal[PLAN_LINE_TEXT_MAX];
        plan_line_text(&input, &plan.refusal, refusal, sizeof refusal);
        SET(ret_words->refusal, refusal);
        return;
    }
    marks(office, &plan, ret_words);
    reasons(office, &input, &plan, ret_words);
}

static void notes_of(const struct plans_words *words, struct desk_remarks *remarks) {
    if (words->missing[0] != '\0') {
        office_note(remarks, TONE_CAUTION, words->missing);
    } else if (!words->planned) {
        office_note(remarks, TONE_STOP, words->refusal);
    } else {
        office_note(remarks, TONE_FINE, words->marks);
    }
    for (size_t i = 0; i < words->line_count; i++) {
        office_note(remarks, words->tone[i], words->line[i]);
    }
}

// What is left of shafts of the model that the club wishes for, and long enough for it by the plan
// of a whole one.
static void offcut_notes(const struct office *office, struct store *store, struct club *club,
                         struct desk_remarks *remarks) {
    struct offcut_line lines[OFFCUTS_NAMED];
    struct stock stock;
    struct plan_input input;
    struct plan plan;
    enum chart_kind kind;
    if (club->shaft.ticket[0] != '\0' || club->order.wished_model[0] == '\0' ||
        !chart_kind_for_head(club->head.kind, &kind) ||
        store_stock(store, club->order.wished_model, club->order.wished_flex, &stock, &club->shaft,
                    1) < 1) {
        return;
    }
    club->model = stock.model;
    club->chart = stock.chart[kind];
    if (!club_plan(club, &office->settings->rules, &input, &plan)) {
        return;
    }
    int count = store_offcuts(store, club->order.wished_model, club->order.wished_flex,
                              plan.finished, NULL, lines, OFFCUTS_NAMED);
    for (int i = 0; i < count; i++) {
        char line[VIEW_TEXT_MAX];
        char left[VIEW_CELL_MAX];
        struct text text = text_open(line, sizeof line);
        if (order_offcut_fits(lines[i].remaining, plan.finished, plan.tip_trim)) {
            office_length(office, lines[i].remaining, left, sizeof left);
            text_say(&text, _("Left over and long enough: %1, %2"), lines[i].ticket, left);
            office_note(remarks, TONE_PLAIN, line);
        }
    }
}

enum store_result plans_notes(const struct office *office, struct store *store, const char *build,
                              const char *club, struct desk_remarks *remarks) {
    struct plans_words words;
    struct club loaded;
    int64_t id;
    enum store_result result = store_club_named(store, build, club, &id);
    if (result == STORE_OK) {
        result = store_club(store, id, &loaded);
    }
    if (result == STORE_OK) {
        plans_club(office, &loaded, &words);
        notes_of(&words, remarks);
        offcut_notes(office, store, &loaded, remarks);
    }
    return result;
}
