// What was measured on the assembled club: playing length, swingweight, frequency, loft, lie.

#include "station_inner.h"
#include "text.h"

#include <string.h>

const struct final_kind final_kinds[ASSEMBLY_VALUE_COUNT] = {
    [ASSEMBLY_LENGTH] = {ACTION_FINAL_LENGTH, NUMBER_FINAL_LENGTH, ENTRY_FINAL_LENGTH,
                         WORD_FINAL_LENGTH, WORD_FINAL_FIELD_LENGTH, WORD_FINAL_BAD_LENGTH},
    [ASSEMBLY_SWINGWEIGHT] = {ACTION_FINAL_SWINGWEIGHT, NUMBER_FINAL_SWINGWEIGHT,
                              ENTRY_FINAL_SWINGWEIGHT, WORD_FINAL_SWINGWEIGHT,
                              WORD_FINAL_FIELD_SWINGWEIGHT, WORD_FINAL_BAD_SWINGWEIGHT},
    [ASSEMBLY_FREQUENCY] = {ACTION_FINAL_FREQUENCY, NUMBER_FINAL_FREQUENCY, ENTRY_FINAL_FREQUENCY,
                            WORD_FINAL_FREQUENCY, WORD_FINAL_FIELD_FREQUENCY,
                            WORD_FINAL_BAD_FREQUENCY},
    [ASSEMBLY_LOFT] = {ACTION_FINAL_LOFT, NUMBER_FINAL_LOFT, ENTRY_FINAL_LOFT, WORD_FINAL_LOFT,
                       WORD_FINAL_FIELD_ANGLE, WORD_FINAL_BAD_LOFT},
    [ASSEMBLY_LIE] = {ACTION_FINAL_LIE, NUMBER_FINAL_LIE, ENTRY_FINAL_LIE, WORD_FINAL_LIE,
                      WORD_FINAL_FIELD_ANGLE, WORD_FINAL_BAD_LIE},
};

enum assembly_value final_value(const struct station *s) {
    int value = 0;
    while (value + 1 < ASSEMBLY_VALUE_COUNT && final_kinds[value].number != s->number.kind) {
        value++;
    }
    return (enum assembly_value)value;
}

void final_open(struct station *s, enum view_action_id id) {
    memset(&s->number, 0, sizeof s->number);
    s->number.field_count = 1;
    for (int i = 0; i < ASSEMBLY_VALUE_COUNT; i++) {
        if (final_kinds[i].action == id) {
            s->number.kind = final_kinds[i].number;
        }
    }
    station_move(s, STATION_FINAL);
}

bool final_key(enum number_kind kind, int64_t key) {
    bool digit = (key >= '0' && key <= '9') || key == '.' || key == ',';
    return digit || (kind == NUMBER_FINAL_SWINGWEIGHT && key >= 'A' && key <= 'G');
}

bool final_reads(const struct station *s, const char *text, struct final_values *ret_values) {
    enum length_unit unit = s->settings.metric_first ? LENGTH_UNIT_MM : LENGTH_UNIT_INCH;
    struct final_values values = final_values_none();
    bool reads = final_values_read(final_value(s), text, unit, &values);
    if (reads) {
        *ret_values = values;
    }
    return reads;
}

bool final_club(const struct station *s, struct club *ret_club) {
    struct set set;
    const struct set_club *of = sets_load(s, &set) ? sets_selected(s, &set) : NULL;
    memset(ret_club, 0, sizeof *ret_club);
    return of != NULL && s->ops->club(s->ops->ctx, of->club_id, ret_club) == STATION_FOUND;
}

static void wrong(struct station *s, enum word which) {
    words_fill(s->number.error, sizeof s->number.error, which, NULL, NULL, NULL);
    station_sound(s, SOUND_HOLD);
}

void final_press(struct station *s) {
    const struct final_kind *kind = &final_kinds[final_value(s)];
    struct final_values values;
    struct club club;
    struct set set;
    if (!final_reads(s, s->number.text[0], &values)) {
        wrong(s, kind->bad);
        return;
    }
    if (!final_club(s, &club)) {
        wrong(s, sets_load(s, &set) && sets_selected(s, &set) == NULL ? WORD_SET_GONE
                                                                      : WORD_REVIEW_FAILED);
        return;
    }
    struct entry entry = save_entry(s, kind->entry);
    SET(entry.worker, s->supervisor.badge);
    entry.club_id = club.id;
    SET(entry.build, club.order.build);
    SET(entry.club, club.order.club);
    SET(entry.head, club.head.ticket);
    SET(entry.shaft, club.shaft.ticket);
    if (values.length != LENGTH_UNKNOWN) {
        entry.planned = club.order.playing_length;
        entry.made = values.length;
        SET(entry.cause, length_method_text(s->settings.length_method));
    } else {
        SET(entry.note, s->number.text[0]);
        text_to_point(entry.note);
    }
    save_begin(s, &entry, THEN_FINAL);
}
