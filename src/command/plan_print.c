#include "plan_print.h"
#include "csv.h"
#include "text.h"
#include "tongue.h"

#include <string.h>

void plan_print_make(struct plan_print *print, const struct bench_rules *rules,
                     const struct assembly *assembly) {
    print->missing = NULL;
    if (print->club.head.ticket[0] == '\0') {
        print->missing = "head";
    } else if (print->club.shaft.ticket[0] == '\0') {
        print->missing = "shaft";
    }
    print->planned =
        club_plan(&print->club, rules, &print->input, &print->plan) && print->missing == NULL;
    print->assembly = *assembly;
    estimate_make(&print->club, &print->plan, assembly, &print->estimate);
}

void plan_print_refusal(const struct plan_print *print, char *buffer, size_t size) {
    struct text text = text_open(buffer, size);
    if (print->missing != NULL) {
        text_add(&text,
                 strcmp(print->missing, "head") == 0
                     ? _("No head is reserved for this club. Name one in builds.csv and import it.")
                     : _("No shaft is reserved for this club. Name one in builds.csv and import "
                         "it."));
    } else if (!print->planned) {
        plan_line_text(&print->input, &print->plan.refusal, buffer, size);
    }
}

const char *plan_print_refusal_code(const struct plan_print *print) {
    if (print->missing != NULL) {
        return strcmp(print->missing, "head") == 0 ? "NO_HEAD" : "NO_SHAFT";
    }
    return print->planned ? "" : plan_code_name(print->plan.refusal.code);
}

static void give_gap(const char *what, enum estimate_gap gap,
                     void (*each)(void *of, const char *words), void *of) {
    char words[96];
    struct text text = text_open(words, sizeof words);
    if (gap != ESTIMATE_GAP_NONE) {
        text_add(&text, what);
        text_add(&text, ": ");
        text_add(&text, estimate_gap_text(gap));
        each(of, words);
    }
}

// Weight, swingweight and inertia share their gap.
void plan_print_gaps(const struct plan_print *print, void (*each)(void *of, const char *words),
                     void *of) {
    const struct estimate *estimate = &print->estimate;
    if (!print->planned) {
        give_gap("estimates", ESTIMATE_GAP_PLAN, each, of);
        return;
    }
    give_gap("weight and balance", estimate->swingweight.gap, each, of);
    give_gap("frequency", estimate->frequency.gap, each, of);
    if (estimate->swingweight.gap == ESTIMATE_GAP_NONE && estimate->balance_assumed) {
        each(of, "shaft balance point: not known, taken as even");
    }
    if (estimate->reach_assumed && (estimate->swingweight.gap == ESTIMATE_GAP_NONE ||
                                    estimate->frequency.gap == ESTIMATE_GAP_NONE)) {
        each(of, "head centre of gravity: not known, taken at the ground line");
    }
}

// --- CSV ---------------------------------------------------------------------------------------

#define JOINED_MAX (PLAN_REASONS_MAX * (PLAN_LINE_TEXT_MAX + LENGTH_TEXT_MAX + 4))

void plan_print_csv_header(FILE *to) {
    fputs("build,club,column,tip_trim,tip_mark,finished_length,butt_mark,butt_trim,warnings,"
          "refusal,reasons,weight_g,swingweight,swingweight_in_oz,inertia_kg_cm2,frequency_cpm,"
          "estimate_gaps\r\n",
          to);
}

static void put_cell(FILE *to, const char *text, const char *after) {
    char cell[2 * JOINED_MAX + 4];
    size_t size = csv_cell(text, cell, sizeof cell);
    fwrite(cell, 1, size, to);
    fputs(after, to);
}

static void put_length(FILE *to, const struct plan_print *print, length_nm length) {
    char text[LENGTH_TEXT_MAX] = "";
    if (print->planned) {
        length_text_exact(length, text);
    }
    put_cell(to, text, ",");
}

// The lines in words, with what each adds when they are reasons.
static void join(const struct plan_print *print, const struct plan_line *line, size_t count,
                 bool amounts, char buffer[JOINED_MAX]) {
    char words[PLAN_LINE_TEXT_MAX];
    struct text text = text_open(buffer, JOINED_MAX);
    for (size_t i = 0; i < count; i++) {
        plan_line_text(&print->input, &line[i], words, sizeof words);
        text_add(&text, i > 0 ? "; " : "");
        text_add(&text, words);
        if (amounts) {
            length_text_exact(line[i].amount, words);
            text_add(&text, ": ");
            text_add(&text, words);
        }
    }
}

static void put_value(FILE *to, const struct plan_print *print, const struct estimate_value *value,
                      int decimals) {
    char words[LENGTH_TEXT_MAX];
    struct text text = text_open(words, sizeof words);
    if (print->planned && value->gap == ESTIMATE_GAP_NONE) {
        text_add_decimal(&text, value->value, decimals);
    }
    put_cell(to, words, ",");
}

static void join_gap(void *of, const char *words) {
    struct text *text = of;
    text_add(text, text->used > 0 ? "; " : "");
    text_add(text, words);
}

static void put_estimates(const struct plan_print *print, FILE *to) {
    const struct estimate *estimate = &print->estimate;
    char scale[BALANCE_SCALE_TEXT_MAX] = "";
    char gaps[256];
    struct text text = text_open(gaps, sizeof gaps);
    if (print->planned && estimate->swingweight.gap == ESTIMATE_GAP_NONE) {
        balance_scale_text(estimate->swingweight.value, scale);
    }
    put_value(to, print, &estimate->weight, 1);
    put_cell(to, scale, ",");
    put_value(to, print, &estimate->swingweight, 3);
    put_value(to, print, &estimate->inertia, 1);
    put_value(to, print, &estimate->frequency, 1);
    plan_print_gaps(print, join_gap, &text);
    put_cell(to, gaps, "\r\n");
}

const char *plan_print_column(const struct plan_print *print) {
    const struct chart_column *column =
        print->planned ? plan_column(&print->input, &print->plan) : NULL;
    return column != NULL ? column->name : "";
}

void plan_print_csv(const struct plan_print *print, FILE *to) {
    const struct plan *plan = &print->plan;
    char joined[JOINED_MAX];
    put_cell(to, print->club.order.build, ",");
    put_cell(to, print->club.order.club, ",");
    put_cell(to, plan_print_column(print), ",");
    put_length(to, print, plan->tip_trim);
    put_length(to, print, plan->tip_mark);
    put_length(to, print, plan->finished);
    put_length(to, print, plan->butt_mark);
    put_length(to, print, plan->butt_trim);
    join(print, plan->warning, plan->warning_count, false, joined);
    put_cell(to, print->missing == NULL ? joined : "", ",");
    plan_print_refusal(print, joined, sizeof joined);
    put_cell(to, joined, ",");
    join(print, plan->reason, plan->reason_count, true, joined);
    put_cell(to, print->missing == NULL ? joined : "", ",");
    put_estimates(print, to);
}
