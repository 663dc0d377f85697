// A record from a plan.

#include "record.h"
#include "text.h"

static void copy(char *to, size_t size, const char *from) {
    struct text text = text_open(to, size);
    text_add(&text, from);
}

static void make_lines(const struct plan_input *input, const struct plan_line *from, size_t count,
                       struct record_line *to) {
    for (size_t i = 0; i < count; i++) {
        to[i].code = from[i].code;
        to[i].amount = from[i].amount;
        plan_line_source(input, &from[i], to[i].text, sizeof to[i].text);
    }
}

void record_make(const struct plan_input *input, const struct plan *plan,
                 struct record *ret_record) {
    struct record *record = ret_record;
    *record = (struct record){
        .position = input->order->position,
        .count = input->order->count,
        .head_weight = input->head->weight,
        .bore_height = head_bore_height(input->head),
        .material = input->model->material,
        .raw_length = input->shaft->raw_length,
        .playing_length = input->order->playing_length,
        .grip_cap = input->order->grip_cap,
        .mark_step = input->rules->mark_step,
        .tolerance = input->rules->tolerance,
        .chart_revision = input->chart->revision,
        .model_revision = input->model->revision,
        .tip_trim = plan->tip_trim,
        .tip_mark = plan->tip_mark,
        .finished = plan->finished,
        .butt_mark = plan->butt_mark,
        .butt_trim = plan->butt_trim,
        .butt_cut = plan->butt_cut,
        .extension = plan->extension,
        .proud = plan->proud,
        .reason_count = plan->reason_count,
        .warning_count = plan->warning_count,
    };
    copy(record->build, sizeof record->build, input->order->build);
    copy(record->club, sizeof record->club, input->order->club);
    copy(record->head, sizeof record->head, input->head->ticket);
    copy(record->head_model, sizeof record->head_model, input->head->model);
    copy(record->engraved, sizeof record->engraved, input->head->engraved);
    copy(record->shaft, sizeof record->shaft, input->shaft->ticket);
    copy(record->shaft_model, sizeof record->shaft_model, input->model->name);
    copy(record->flex, sizeof record->flex, input->shaft->flex);
    const struct chart_column *column = plan_column(input, plan);
    if (column != NULL) {
        copy(record->column, sizeof record->column, column->name);
    }
    make_lines(input, plan->reason, plan->reason_count, record->reason);
    make_lines(input, plan->warning, plan->warning_count, record->warning);
}

length_nm record_playing(const struct record *record, length_nm made) {
    return made - record->proud + record->bore_height + record->grip_cap;
}
