// Entry of what was measured on an assembled club, beside what was planned.

#include "balance.h"
#include "station_inner.h"
#include "text.h"

#include <string.h>

static void planned_text(const struct station *s, const struct set_club *club,
                         const struct assembly_values *planned, char *buffer, size_t size) {
    static const enum set_value values[] = {SET_LENGTH, SET_SWINGWEIGHT, SET_FREQUENCY};
    enum assembly_value value = final_value(s);
    char words[ASSEMBLY_TEXT_MAX];
    if (value == ASSEMBLY_LOFT || value == ASSEMBLY_LIE) {
        assembly_text(value, planned->value[value], words);
        words_copy(buffer, size, words);
        return;
    }
    const struct set_point *point = &club->point[values[value]];
    if (point->gap != ESTIMATE_GAP_NONE) {
        words_copy(buffer, size, word(WORD_SET_UNKNOWN));
    } else {
        set_point_text(s, values[value], point->planned, buffer, size);
    }
}

// Whether what is typed lies within the tolerance.
static void judge(const struct station *s, const struct assembly_values *planned,
                  struct view_number *number) {
    enum assembly_value value = final_value(s);
    struct final_values values;
    struct assembly_values measured;
    struct assembly_check check;
    char off[ASSEMBLY_TEXT_MAX];
    if (!final_reads(s, s->number.text[0], &values)) {
        return;
    }
    assembly_measured(&values, &measured);
    assembly_check(planned, &measured, 0, &s->settings.finals, &check);
    if (check.state[value] != ASSEMBLY_IN && check.state[value] != ASSEMBLY_OUT) {
        return;
    }
    assembly_tolerance_text(value, s->settings.finals.off[value], off);
    if (value == ASSEMBLY_LENGTH) {
        say_length(s, s->settings.finals.off[value], off);
    }
    bool in = check.state[value] == ASSEMBLY_IN;
    words_fill(number->result, sizeof number->result, in ? WORD_FINAL_IN : WORD_FINAL_OUT, off,
               NULL, NULL);
    number->result_tone = in ? TONE_FINE : TONE_CAUTION;
}

void final_fields(const struct station *s, struct view_number *number) {
    const struct final_kind *kind = &final_kinds[final_value(s)];
    struct view_field *field = &number->field[0];
    struct set set;
    struct club club;
    struct assembly_values planned;
    char words[VIEW_CELL_MAX] = "";
    const struct set_club *of = sets_load(s, &set) ? sets_selected(s, &set) : NULL;
    bool rules =
        kind->number == NUMBER_FINAL_LENGTH && s->settings.length_method == LENGTH_METHOD_RULES;
    SET(number->question, word(rules ? WORD_FINAL_LENGTH_RULES : kind->question));
    if (of != NULL && final_club(s, &club)) {
        assembly_planned(&club, &s->settings.rules, &s->settings.assembly, &planned);
        planned_text(s, of, &planned, words, sizeof words);
        SAY(number->help, FINAL_HELP, s->set.build, of->club, words);
        judge(s, &planned, number);
    }
    SET(field->label, word(kind->field));
    SET(field->text, s->number.text[0]);
    field->active = true;
    number->field_count = 1;
}
