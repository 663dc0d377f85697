// The plan as a receipt: the lines add up to each mark, from top to bottom.

#include "columns.h"
#include "plan_print.h"
#include "text.h"
#include "tongue.h"

#include <string.h>

#define WORDS 64  // columns for words
#define FIGURE 12 // columns for a figure

void plan_print_figure(FILE *to, const char *words, const char *figure) {
    fputs("  ", to);
    columns_put(to, words, -WORDS);
    fprintf(to, "%*s\n", FIGURE, figure);
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
    char line[4 * LENGTH_TEXT_MAX];
    char shown[sizeof line];
    struct text text = text_open(shown, sizeof shown);
    for (int i = 0; i < WORDS + FIGURE; i++) {
        fputs(i == 0 ? "  -" : "-", to);
    }
    length_text_fraction(amount, figure);
    length_text_inch(amount, 3, inch);
    length_text_mm(amount, 1, mm);
    fputs("\n  ", to);
    columns_put(to, words, -WORDS);
    snprintf(line, sizeof line, "%*s in   %s in   %s mm", FIGURE, figure, inch, mm);
    text_add_figure(&text, line);
    fprintf(to, "%s\n", shown);
}

static void put_part(FILE *to, const char *what, const char *ticket, const char *model,
                     const char *more) {
    static const struct column part = {"", -6, " ", {N_("Head"), N_("Shaft")}};
    columns_cell(to, &part, what);
    fprintf(to, "%-16s%s%s%s\n", ticket, model, *more == '\0' ? "" : " ", more);
}

static void add_length(struct text *text, const char *pattern, length_nm length) {
    char words[LENGTH_TEXT_MAX];
    struct text figure = text_open(words, sizeof words);
    text_add_length(&figure, length);
    text_say(text, pattern, words);
}

static void put_head(const struct head *head, FILE *to) {
    char more[160];
    struct text text = text_open(more, sizeof more);
    if (head->engraved[0] != '\0') {
        text_say(&text, _("engraved %1"), head->engraved);
        text_add(&text, ", ");
    }
    text_add_mass(&text, head->weight);
    text_add(&text, ", ");
    if (head->bore == BORE_THROUGH) {
        text_add(&text, _("bore through"));
    } else {
        add_length(&text, _("bore %1"), head->bore_height);
    }
    put_part(to, _("Head"), head->ticket, head->model, more);
}

static void put_shaft(const struct shaft *shaft, FILE *to) {
    char more[160];
    struct text text = text_open(more, sizeof more);
    text_add(&text, shaft->flex);
    text_add(&text, ", ");
    add_length(&text, _("raw %1"), shaft->raw_length);
    put_part(to, _("Shaft"), shaft->ticket, shaft->model, more);
}

static void put_parts(const struct club *club, FILE *to) {
    const struct order *order = &club->order;
    if (order->due[0] == '\0') {
        fprintf(to, _("Build %s, club %s (%d of %d)\n"), order->build, order->club, order->position,
                order->count);
    } else {
        fprintf(to, _("Build %s, club %s (%d of %d), due %s\n"), order->build, order->club,
                order->position, order->count, order->due);
    }
    if (club->head.ticket[0] != '\0') {
        put_head(&club->head, to);
    }
    if (club->shaft.ticket[0] != '\0') {
        put_shaft(&club->shaft, to);
    }
}

static void put_tip(const struct plan_print *print, FILE *to) {
    const struct plan *plan = &print->plan;
    char words[PLAN_LINE_TEXT_MAX];
    for (size_t i = 0; i < plan->reason_count; i++) {
        plan_line_text(&print->input, &plan->reason[i], words, sizeof words);
        put_line(to, words, plan->reason[i].amount, i > 0);
    }
    put_total(to,
              plan->tip_mark > 0 ? _("Cut off, from the tip end") : _("Nothing is cut off the tip"),
              plan->tip_mark);
}

static void put_butt(const struct plan_print *print, FILE *to) {
    const struct plan *plan = &print->plan;
    const struct order *order = &print->club.order;
    put_line(to, _("Playing length"), order->playing_length, false);
    put_line(to, _("Bore height"), -head_bore_height(&print->club.head), true);
    put_line(to, _("Grip cap"), -order->grip_cap, true);
    if (plan->proud > 0) {
        put_line(to, _("To be ground off at the sole"), plan->proud, true);
    }
    if (plan->butt_mark != plan->finished) {
        put_line(to, _("To the nearest mark"), plan->butt_mark - plan->finished, true);
    }
    put_total(to,
              plan->butt_cut ? _("Keep, from the new tip end") : _("Nothing is cut off the butt"),
              plan->butt_mark);
    if (plan->extension > 0) {
        put_line(to, _("Of it, extension of the butt"), plan->extension, false);
    }
    put_line(to, _("Butt trim, exact: raw less tip mark less finished length"), plan->butt_trim,
             false);
}

void plan_print_receipt(const struct plan_print *print, bool moments, FILE *to) {
    char words[PLAN_LINE_TEXT_MAX];
    put_parts(&print->club, to);
    if (print->planned) {
        fprintf(to, "\n%s\n", _("Tip"));
        put_tip(print, to);
        fprintf(to, "\n%s\n", _("Butt"));
        put_butt(print, to);
        plan_print_estimates(print, moments, to);
    }
    for (size_t i = 0; print->missing == NULL && i < print->plan.warning_count; i++) {
        plan_line_text(&print->input, &print->plan.warning[i], words, sizeof words);
        fprintf(to, _("\nWarning: %s\n"), words);
    }
    if (!print->planned) {
        plan_print_refusal(print, words, sizeof words);
        fprintf(to, _("\nNo plan: %s\n"), words);
    }
}
