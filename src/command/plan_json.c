#include "plan_print.h"
#include "text.h"

#include <string.h>

static void put_string(FILE *to, const char *text) {
    fputc('"', to);
    for (const unsigned char *at = (const unsigned char *)text; *at != '\0'; at++) {
        if (*at == '"' || *at == '\\') {
            fprintf(to, "\\%c", *at);
        } else if (*at < 0x20 || *at == 0x7F) {
            fprintf(to, "\\u%04x", *at);
        } else {
            fputc(*at, to);
        }
    }
    fputc('"', to);
}

static void put_text(FILE *to, const char *key, const char *text) {
    fprintf(to, ",\"%s\":", key);
    put_string(to, text);
}

// Inches, exact; null when not known.
static void put_length(FILE *to, const char *key, length_nm length) {
    char text[LENGTH_TEXT_MAX] = "null";
    if (length != LENGTH_UNKNOWN) {
        length_text_exact(length, text);
    }
    fprintf(to, ",\"%s\":%s", key, text);
}

static void put_lines(const struct plan_print *print, FILE *to, const char *key,
                      const struct plan_line *line, size_t count, bool amounts) {
    char text[PLAN_LINE_TEXT_MAX];
    fprintf(to, ",\"%s\":[", key);
    for (size_t i = 0; i < count && print->missing == NULL; i++) {
        fprintf(to, "%s{\"code\":\"%s\"", i > 0 ? "," : "", plan_code_name(line[i].code));
        if (amounts) {
            put_length(to, "amount", line[i].amount);
        }
        plan_line_text(&print->input, &line[i], text, sizeof text);
        put_text(to, "text", text);
        fputc('}', to);
    }
    fputc(']', to);
}

static void put_refusal(const struct plan_print *print, FILE *to) {
    char text[PLAN_LINE_TEXT_MAX];
    if (print->planned) {
        fputs(",\"refusal\":null", to);
        return;
    }
    plan_print_refusal(print, text, sizeof text);
    fprintf(to, ",\"refusal\":{\"code\":\"%s\"", plan_print_refusal_code(print));
    put_text(to, "text", text);
    fputc('}', to);
}

static void put_value(const struct plan_print *print, FILE *to, const char *key,
                      const struct estimate_value *value, int decimals) {
    char words[LENGTH_TEXT_MAX] = "null";
    if (print->planned && value->gap == ESTIMATE_GAP_NONE) {
        struct text text = text_open(words, sizeof words);
        text_add_decimal(&text, value->value, decimals);
    }
    fprintf(to, ",\"%s\":%s", key, words);
}

struct gaps {
    FILE *to;
    bool any;
};

static void put_gap(void *of, const char *words) {
    struct gaps *gaps = of;
    fputs(gaps->any ? "," : "", gaps->to);
    put_string(gaps->to, words);
    gaps->any = true;
}

// A swingweight off the scale is null beside its swingweight_in_oz.
static void put_estimates(const struct plan_print *print, FILE *to) {
    const struct estimate *estimate = &print->estimate;
    char scale[BALANCE_SCALE_TEXT_MAX];
    struct gaps gaps = {.to = to};
    put_value(print, to, "weight_g", &estimate->weight, 1);
    if (print->planned && estimate->swingweight.gap == ESTIMATE_GAP_NONE &&
        balance_scale_text(estimate->swingweight.value, scale)) {
        put_text(to, "swingweight", scale);
    } else {
        fputs(",\"swingweight\":null", to);
    }
    put_value(print, to, "swingweight_in_oz", &estimate->swingweight, 3);
    put_value(print, to, "inertia_kg_cm2", &estimate->inertia, 1);
    put_value(print, to, "frequency_cpm", &estimate->frequency, 1);
    fputs(",\"estimate_gaps\":[", to);
    plan_print_gaps(print, put_gap, &gaps);
    fputc(']', to);
}

void plan_print_json(const struct plan_print *print, FILE *to) {
    const struct club *club = &print->club;
    const struct plan *plan = &print->plan;
    fputs("{\"build\":", to);
    put_string(to, club->order.build);
    put_text(to, "club", club->order.club);
    put_text(to, "stage", stage_text(club->progress.stage));
    put_text(to, "head", club->head.ticket);
    put_text(to, "shaft", club->shaft.ticket);
    fprintf(to, ",\"model_revision\":%lld,\"chart_revision\":%lld", (long long)club->model.revision,
            (long long)club->chart.revision);
    put_length(to, "mark_step", print->input.rules->mark_step);
    put_text(to, "column", print->planned ? club->chart.column[plan->column].name : "");
    put_length(to, "tip_trim", print->planned ? plan->tip_trim : LENGTH_UNKNOWN);
    put_length(to, "tip_mark", print->planned ? plan->tip_mark : LENGTH_UNKNOWN);
    put_length(to, "finished_length", print->planned ? plan->finished : LENGTH_UNKNOWN);
    put_length(to, "butt_mark", print->planned ? plan->butt_mark : LENGTH_UNKNOWN);
    put_length(to, "butt_trim", print->planned ? plan->butt_trim : LENGTH_UNKNOWN);
    fprintf(to, ",\"butt_cut\":%s", print->planned && plan->butt_cut ? "true" : "false");
    put_lines(print, to, "reasons", plan->reason, plan->reason_count, true);
    put_lines(print, to, "warnings", plan->warning, plan->warning_count, false);
    put_refusal(print, to);
    put_estimates(print, to);
    fputc('}', to);
}
