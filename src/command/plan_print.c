#include "plan_print.h"
#include "csv.h"
#include "text.h"

#include <string.h>

void plan_print_make(struct plan_print *print, const struct bench_rules *rules) {
    print->missing = NULL;
    if (print->club.head.ticket[0] == '\0') {
        print->missing = "head";
    } else if (print->club.shaft.ticket[0] == '\0') {
        print->missing = "shaft";
    }
    print->planned =
        club_plan(&print->club, rules, &print->input, &print->plan) && print->missing == NULL;
}

void plan_print_refusal(const struct plan_print *print, char *buffer, size_t size) {
    struct text text = text_open(buffer, size);
    if (print->missing != NULL) {
        text_add(&text, "No ");
        text_add(&text, print->missing);
        text_add(&text, " is reserved for this club. Name one in builds.csv and import it.");
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

// --- CSV ---------------------------------------------------------------------------------------

#define JOINED_MAX (PLAN_REASONS_MAX * (PLAN_LINE_TEXT_MAX + LENGTH_TEXT_MAX + 4))

void plan_print_csv_header(FILE *to) {
    fputs("build,club,column,tip_trim,tip_mark,finished_length,butt_mark,butt_trim,warnings,"
          "refusal,reasons\r\n",
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

void plan_print_csv(const struct plan_print *print, FILE *to) {
    const struct plan *plan = &print->plan;
    char joined[JOINED_MAX];
    put_cell(to, print->club.order.build, ",");
    put_cell(to, print->club.order.club, ",");
    put_cell(to, print->planned ? print->club.chart.column[plan->column].name : "", ",");
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
    put_cell(to, print->missing == NULL ? joined : "", "\r\n");
}
