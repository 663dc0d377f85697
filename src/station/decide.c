// A supervisor's decision on a cut out of tolerance: use it, cut another shaft, or scrap it.

#include "station_inner.h"
#include "text.h"

#include <string.h>

static void message(struct station *s, enum word which) {
    words_fill(s->review.message, sizeof s->review.message, which, NULL, NULL, NULL);
    station_sound(s, SOUND_HOLD);
}

static void write(struct station *s, const struct entry *about, const char *cause,
                  const char *spare) {
    struct entry entry = save_entry(s, ENTRY_DECIDE);
    struct text note;
    SET(entry.worker, s->supervisor.badge);
    entry.club_id = about->club_id;
    SET(entry.build, about->build);
    SET(entry.club, about->club);
    SET(entry.head, about->head);
    SET(entry.shaft, about->shaft);
    entry.refers = about->seq;
    SET(entry.cause, cause);
    note = text_open(entry.note, sizeof entry.note);
    if (spare != NULL) {
        text_add(&note, spare);
        text_add(&note, s->review.note[0] != '\0' ? " " : "");
    }
    text_add(&note, s->review.note);
    save_begin(s, &entry, THEN_DECIDED);
}

static void recut(struct station *s, const struct entry *about, int64_t index) {
    struct part spares[STATION_ROWS_MAX];
    int count = s->ops->spares(s->ops->ctx, about->shaft, spares, STATION_ROWS_MAX);
    if (index >= 0 && index < count) {
        write(s, about, "recut", spares[index].ticket);
    } else {
        message(s, WORD_REVIEW_NO_SPARE);
    }
}

void decide(struct station *s, enum view_action_id id, int64_t argument) {
    struct entry about;
    bool open;
    memset(s->review.message, 0, sizeof s->review.message);
    if (!review_selected(s, &about, &open)) {
        message(s, WORD_REVIEW_FAILED);
    } else if (!open) {
        message(s, WORD_REVIEW_GONE);
    } else if (id == ACTION_DECIDE_RECUT) {
        s->review.mode = REVIEW_SPARE;
    } else if (id == ACTION_SPARE) {
        recut(s, &about, argument);
    } else if (s->review.note[strspn(s->review.note, " ")] == '\0') {
        s->review.note_active = true;
        message(s, WORD_REVIEW_NOTE_FIRST);
    } else {
        write(s, &about, id == ACTION_DECIDE_USE ? "use" : "scrap", NULL);
    }
}
