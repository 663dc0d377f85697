// Entry of what was measured on an assembled club, beside what was planned.

#include "balance.h"
#include "station_inner.h"
#include "text.h"

#include <string.h>

static void planned_text(const struct station *s, const struct set_club *club, char *buffer,
                         size_t size) {
    enum set_value value = s->number.kind == NUMBER_FINAL_LENGTH        ? SET_LENGTH
                           : s->number.kind == NUMBER_FINAL_SWINGWEIGHT ? SET_SWINGWEIGHT
                                                                        : SET_FREQUENCY;
    const struct set_point *point = &club->point[value];
    if (point->gap != ESTIMATE_GAP_NONE) {
        words_copy(buffer, size, word(WORD_SET_UNKNOWN));
    } else {
        set_point_text(s, value, point->planned, buffer, size);
    }
}

void final_fields(const struct station *s, struct view_number *number) {
    struct view_field *field = &number->field[0];
    struct set set;
    char planned[VIEW_CELL_MAX] = "";
    const struct set_club *club = sets_load(s, &set) ? sets_selected(s, &set) : NULL;
    SET(number->question,
        word(s->number.kind == NUMBER_FINAL_LENGTH        ? WORD_FINAL_LENGTH
             : s->number.kind == NUMBER_FINAL_SWINGWEIGHT ? WORD_FINAL_SWINGWEIGHT
                                                          : WORD_FINAL_FREQUENCY));
    if (club != NULL) {
        planned_text(s, club, planned, sizeof planned);
        SAY(number->help, FINAL_HELP, s->set.build, club->club, planned);
    }
    SET(field->label,
        word(s->number.kind == NUMBER_FINAL_LENGTH        ? WORD_FINAL_FIELD_LENGTH
             : s->number.kind == NUMBER_FINAL_SWINGWEIGHT ? WORD_FINAL_FIELD_SWINGWEIGHT
                                                          : WORD_FINAL_FIELD_FREQUENCY));
    SET(field->text, s->number.text[0]);
    field->active = true;
    number->field_count = 1;
}
