// A supervisor's decision on a cut out of tolerance: use it, cut another shaft, or scrap it. And a
// note on any entry, which decides nothing.

#include "station_inner.h"
#include "text.h"

#include <string.h>

static void message(struct station *s, enum word which) {
    words_fill(s->review.message, sizeof s->review.message, which, NULL, NULL, NULL);
    station_sound(s, SOUND_HOLD);
}

// By the supervisor, about what `about` is about.
static struct entry entry_about(const struct station *s, enum entry_kind kind,
                                const struct entry *about) {
    struct entry entry = save_entry(s, kind);
    SET(entry.worker, s->supervisor.badge);
    entry.club_id = about->club_id;
    SET(entry.build, about->build);
    SET(entry.club, about->club);
    SET(entry.head, about->head);
    SET(entry.shaft, about->shaft);
    entry.refers = about->seq;
    return entry;
}

static bool has_note(const struct station *s) {
    return s->review.note[strspn(s->review.note, " ")] != '\0';
}

static void write(struct station *s, const struct entry *about, const char *cause,
                  const char *spare) {
    struct entry entry = entry_about(s, ENTRY_DECIDE, about);
    struct text note;
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
    } else if (!has_note(s)) {
        s->review.note_active = true;
        message(s, WORD_REVIEW_NOTE_FIRST);
    } else {
        write(s, &about, id == ACTION_DECIDE_USE ? "use" : "scrap", NULL);
    }
}

bool decide_has_note(const struct station *s) {
    return s->review.mode == REVIEW_LIST && s->review.selected != 0 && has_note(s);
}

void decide_note(struct station *s) {
    struct entry about;
    bool open;
    memset(s->review.message, 0, sizeof s->review.message);
    if (!decide_has_note(s)) {
        return;
    }
    if (!review_selected(s, &about, &open)) {
        message(s, WORD_REVIEW_FAILED);
        return;
    }
    struct entry entry = entry_about(s, ENTRY_NOTE, &about);
    SET(entry.note, s->review.note);
    save_begin(s, &entry, THEN_NOTED);
}
