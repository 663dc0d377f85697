// The plan as a receipt: the lines add up to each mark, from top to bottom.

#include "plan_print.h"
#include "text.h"
#include "tongue.h"

#include <string.h>

#define WORDS 64  // columns for words
#define FIGURE 12 // columns for a figure
#define MARK_WORDS "Cut off, from the tip end"
#define KEEP_WORDS "Keep, from the new tip end"

void plan_print_figure(FILE *to, const char *words, const char *figure) {
    fprintf(to, "  %-*s%*s\n", WORDS, words, FIGURE, figure);
}

static void put_line(FILE *to, const char *words, length_nm amount, bool sign) {
    char figure[LENGTH_TEXT_MAX + 1] = "";
    bool plus = sign && amount > 0;
    length_text_fraction(amount, figure + (plus ? 1 : 0));
    if (plus) {
        figure[0] = '+';
    }
    plan_print_figure(to, words, figure);
}

static void put_total(FILE *to, const char *words, length_nm amount) {
    char inch[LENGTH_TEXT_MAX];
    char mm[LENGTH_TEXT_MAX];
    char figure[LENGTH_TEXT_MAX];
    for (int i = 0; i < WORDS + FIGURE; i++) {
        fputs(i == 0 ? "  -" : "-", to);
    }
    length_text_fraction(amount, figure);
    length_text_inch(amount, 3, inch);
    length_text_mm(amount, 1, mm);
    fprintf(to, "\n  %-*s%*s in   %s in   %s mm\n", WORDS, words, FIGURE, figure, inch, mm);
}

static void put_part(FILE *to, const char *what, const char *ticket, const char *model,
                     const char *more) {
    fprintf(to, "%-7s%-16s%s%s%s\n", what, ticket, model, *more == '\0' ? "" : " ", more);
}

static void put_parts(const struct club *club, FILE *to) {
    char more[160];
    struct text text = text_open(more, sizeof more);
    const struct order *order = &club->order;
    fprintf(to, _("Build %s, club %s (%d of %d)%s%s\n"), order->build, order->club, order->position,
            order->count, order->due[0] == '\0' ? "" : ", due ", order->due);
    if (club->head.ticket[0] != '\0') {
        if (club->head.engraved[0] != '\0') {
            text_add(&text, "engraved ");
            text_add(&text, club->head.engraved);
            text_add(&text, ", ");
        }
        text_add_mass(&text, club->head.weight);
        text_add(&text, ", bore ");
        if (club->head.bore == BORE_THROUGH) {
            text_add(&text, "through");
        } else {
            text_add_length(&text, club->head.bore_height);
        }
        put_part(to, "Head", club->head.ticket, club->head.model, more);
    }
    if (club->shaft.ticket[0] != '\0') {
        text = text_open(more, sizeof more);
        text_add(&text, club->shaft.flex);
        text_add(&text, ", raw ");
        text_add_length(&text, club->shaft.raw_length);
        put_part(to, "Shaft", club->shaft.ticket, club->shaft.model, more);
    }
}

static void put_tip(const struct plan_print *print, FILE *to) {
    const struct plan *plan = &print->plan;
    char words[PLAN_LINE_TEXT_MAX];
    for (size_t i = 0; i < plan->reason_count; i++) {
        plan_line_text(&print->input, &plan->reason[i], words, sizeof words);
        put_line(to, words, plan->reason[i].amount, i > 0);
    }
    put_total(to, plan->tip_mark > 0 ? MARK_WORDS : "Nothing is cut off the tip", plan->tip_mark);
}

static void put_butt(const struct plan_print *print, FILE *to) {
    const struct plan *plan = &print->plan;
    const struct order *order = &print->club.order;
    put_line(to, "Playing length", order->playing_length, false);
    put_line(to, "Bore height", -head_bore_height(&print->club.head), true);
    put_line(to, "Grip cap", -order->grip_cap, true);
    if (plan->proud > 0) {
        put_line(to, "To be ground off at the sole", plan->proud, true);
    }
    if (plan->butt_mark != plan->finished) {
        put_line(to, "To the nearest mark", plan->butt_mark - plan->finished, true);
    }
    put_total(to, plan->butt_cut ? KEEP_WORDS : "Nothing is cut off the butt", plan->butt_mark);
    if (plan->extension > 0) {
        put_line(to, "Of it, extension of the butt", plan->extension, false);
    }
    put_line(to, "Butt trim, exact: raw less tip mark less finished length", plan->butt_trim,
             false);
}

void plan_print_receipt(const struct plan_print *print, bool moments, FILE *to) {
    char words[PLAN_LINE_TEXT_MAX];
    put_parts(&print->club, to);
    if (print->planned) {
        fputs("\nTip\n", to);
        put_tip(print, to);
        fputs("\nButt\n", to);
        put_butt(print, to);
        plan_print_estimates(print, moments, to);
    }
    for (size_t i = 0; print->missing == NULL && i < print->plan.warning_count; i++) {
        plan_line_text(&print->input, &print->plan.warning[i], words, sizeof words);
        fprintf(to, "\nWarning: %s\n", words);
    }
    if (!print->planned) {
        plan_print_refusal(print, words, sizeof words);
        fprintf(to, "\nNo plan: %s\n", words);
    }
}
