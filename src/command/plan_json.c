#include "json.h"
#include "plan_print.h"

static void put_lines(const struct plan_print *print, FILE *to, const char *key,
                      const struct plan_line *line, size_t count, bool amounts) {
    char text[PLAN_LINE_TEXT_MAX];
    fprintf(to, ",\"%s\":[", key);
    for (size_t i = 0; i < count && print->missing == NULL; i++) {
        fprintf(to, "%s{\"code\":\"%s\"", i > 0 ? "," : "", plan_code_name(line[i].code));
        if (amounts) {
            json_length(to, "amount", line[i].amount);
        }
        plan_line_source(&print->input, &line[i], text, sizeof text);
        json_text(to, "text", text);
        fputc('}', to);
    }
    fputc(']', to);
}

static void put_refusal(const struct plan_print *print, FILE *to) {
    char text[PLAN_LINE_TEXT_MAX];
    if (print->planned) {
        json_null(to, "refusal");
        return;
    }
    plan_print_refusal(print, text, sizeof text);
    fprintf(to, ",\"refusal\":{\"code\":\"%s\"", plan_print_refusal_code(print));
    json_text(to, "text", text);
    fputc('}', to);
}

static void put_value(const struct plan_print *print, FILE *to, const char *key,
                      const struct estimate_value *value, int decimals) {
    if (print->planned && value->gap == ESTIMATE_GAP_NONE) {
        json_decimal(to, key, value->value, decimals);
    } else {
        json_null(to, key);
    }
}

struct gaps {
    FILE *to;
    bool any;
};

static void put_gap(void *of, const char *words) {
    struct gaps *gaps = of;
    fputs(gaps->any ? "," : "", gaps->to);
    json_string(gaps->to, words);
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
        json_text(to, "swingweight", scale);
    } else {
        json_null(to, "swingweight");
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
    json_string(to, club->order.build);
    json_text(to, "club", club->order.club);
    json_text(to, "stage", stage_text(club->progress.stage));
    json_text(to, "head", club->head.ticket);
    json_text(to, "shaft", club->shaft.ticket);
    fprintf(to, ",\"model_revision\":%lld,\"chart_revision\":%lld", (long long)club->model.revision,
            (long long)club->chart.revision);
    json_length(to, "mark_step", print->input.rules->mark_step);
    json_text(to, "column", plan_print_column(print));
    json_length(to, "tip_trim", print->planned ? plan->tip_trim : LENGTH_UNKNOWN);
    json_length(to, "tip_mark", print->planned ? plan->tip_mark : LENGTH_UNKNOWN);
    json_length(to, "finished_length", print->planned ? plan->finished : LENGTH_UNKNOWN);
    json_length(to, "butt_mark", print->planned ? plan->butt_mark : LENGTH_UNKNOWN);
    json_length(to, "butt_trim", print->planned ? plan->butt_trim : LENGTH_UNKNOWN);
    fprintf(to, ",\"butt_cut\":%s", print->planned && plan->butt_cut ? "true" : "false");
    put_lines(print, to, "reasons", plan->reason, plan->reason_count, true);
    put_lines(print, to, "warnings", plan->warning, plan->warning_count, false);
    put_refusal(print, to);
    put_estimates(print, to);
    json_length(to, "extension", print->planned ? plan->extension : LENGTH_UNKNOWN);
    json_length(to, "proud", print->planned ? plan->proud : LENGTH_UNKNOWN);
    fputc('}', to);
}
