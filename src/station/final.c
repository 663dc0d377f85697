// What was measured on the assembled club: playing length, swingweight, frequency.

#include "balance.h"
#include "station_inner.h"

#include <string.h>

void final_open(struct station *s, enum view_action_id id) {
    memset(&s->number, 0, sizeof s->number);
    s->number.kind = id == ACTION_FINAL_LENGTH        ? NUMBER_FINAL_LENGTH
                     : id == ACTION_FINAL_SWINGWEIGHT ? NUMBER_FINAL_SWINGWEIGHT
                                                      : NUMBER_FINAL_FREQUENCY;
    s->number.field_count = 1;
    station_move(s, STATION_FINAL);
}

bool final_key(enum number_kind kind, int64_t key) {
    bool digit = (key >= '0' && key <= '9') || key == '.';
    return digit || (kind == NUMBER_FINAL_SWINGWEIGHT && key >= 'A' && key <= 'G');
}

bool final_reads(const struct station *s, const char *text, length_nm *ret_length) {
    enum length_unit unit = s->settings.metric_first ? LENGTH_UNIT_MM : LENGTH_UNIT_INCH;
    double inch_ounces;
    frequency_dcpm frequency;
    length_nm length;
    *ret_length = LENGTH_UNKNOWN;
    if (s->number.kind == NUMBER_FINAL_SWINGWEIGHT) {
        return balance_scale_parse(text, &inch_ounces) == BALANCE_SCALE_OK;
    }
    if (s->number.kind == NUMBER_FINAL_FREQUENCY) {
        return entry_frequency(text, &frequency);
    }
    if (length_parse(text, unit, &length, NULL) != LENGTH_OK || !entry_final_length(length)) {
        return false;
    }
    *ret_length = length;
    return true;
}

static enum entry_kind kind_of(enum number_kind kind) {
    return kind == NUMBER_FINAL_LENGTH        ? ENTRY_FINAL_LENGTH
           : kind == NUMBER_FINAL_SWINGWEIGHT ? ENTRY_FINAL_SWINGWEIGHT
                                              : ENTRY_FINAL_FREQUENCY;
}

static void wrong(struct station *s, enum word which) {
    words_fill(s->number.error, sizeof s->number.error, which, NULL, NULL, NULL);
    station_sound(s, SOUND_HOLD);
}

void final_press(struct station *s) {
    struct set set;
    struct club club;
    length_nm length;
    if (!final_reads(s, s->number.text[0], &length)) {
        wrong(s, s->number.kind == NUMBER_FINAL_LENGTH        ? WORD_FINAL_BAD_LENGTH
                 : s->number.kind == NUMBER_FINAL_SWINGWEIGHT ? WORD_FINAL_BAD_SWINGWEIGHT
                                                              : WORD_FINAL_BAD_FREQUENCY);
        return;
    }
    const struct set_club *of = sets_load(s, &set) ? sets_selected(s, &set) : NULL;
    memset(&club, 0, sizeof club);
    if (of == NULL || s->ops->club(s->ops->ctx, of->club_id, &club) != STATION_FOUND) {
        wrong(s, WORD_REVIEW_FAILED);
        return;
    }
    struct entry entry = save_entry(s, kind_of(s->number.kind));
    SET(entry.worker, s->supervisor.badge);
    entry.club_id = club.id;
    SET(entry.build, club.order.build);
    SET(entry.club, club.order.club);
    SET(entry.head, club.head.ticket);
    SET(entry.shaft, club.shaft.ticket);
    if (length != LENGTH_UNKNOWN) {
        entry.planned = club.order.playing_length;
        entry.made = length;
    } else {
        SET(entry.note, s->number.text[0]);
    }
    save_begin(s, &entry, THEN_FINAL);
}
