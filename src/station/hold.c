// Stops: what happened, what to do, and the way out. Each is logged once a sitting; when the store
// cannot take it, it is shown all the same and says so.

#include "station_inner.h"
#include "text.h"
#include "tongue.h"

#include <string.h>

static const struct {
    const char *word;
    const char *title;
} causes[HOLD_CAUSE_COUNT] = {
#define X(name, word, title) {word, title},
    HOLD_CAUSES(X)
#undef X
};

const char *hold_title(enum hold_cause cause) {
    return _(causes[cause].title);
}

const char *hold_title_source(const char *word) {
    for (int i = HOLD_NONE + 1; i < HOLD_CAUSE_COUNT; i++) {
        if (strcmp(causes[i].word, word) == 0) {
            return causes[i].title;
        }
    }
    return NULL;
}

const char *hold_word(enum hold_cause cause) {
    return causes[cause].word;
}

struct hold hold_make(const struct station *s, enum hold_cause cause) {
    struct hold hold;
    memset(&hold, 0, sizeof hold);
    hold.cause = cause;
    hold.back = s->state;
    if (s->state == STATION_HOLD) { // one stop on top of another: the way out stays
        hold.back = s->hold.back;
        hold.start_over = s->hold.start_over;
        hold.unsafe = s->hold.unsafe;
    }
    return hold;
}

void hold_line(struct hold *hold, enum word which, const char *a, const char *b, const char *c) {
    for (int i = 0; i < HOLD_LINES; i++) {
        if (hold->line[i][0] == '\0') {
            words_source(hold->line[i], sizeof hold->line[i], which, a, b, c);
            return;
        }
    }
}

void hold_todo(struct hold *hold, enum word which, const char *a, const char *b, const char *c) {
    for (int i = 0; i < HOLD_TODOS; i++) {
        if (hold->todo[i][0] == '\0') {
            words_fill(hold->todo[i], sizeof hold->todo[i], which, a, b, c);
            return;
        }
    }
}

void hold_todo_count(struct hold *hold, enum counted_word which, int64_t count) {
    for (int i = 0; i < HOLD_TODOS; i++) {
        if (hold->todo[i][0] == '\0') {
            words_count(hold->todo[i], sizeof hold->todo[i], which, count, NULL);
            return;
        }
    }
}

// FNV-1a over the lines: tells a repeated stop from a new one.
static uint32_t digest(const struct hold *hold) {
    uint32_t hash = 2166136261u;
    for (int i = 0; i < HOLD_LINES; i++) {
        for (const char *at = hold->line[i]; *at != '\0'; at++) {
            hash = (hash ^ (unsigned char)*at) * 16777619u;
        }
    }
    return hash;
}

static bool log_stop(struct station *s, const struct hold *hold) {
    struct entry entry = save_entry(s, ENTRY_HOLD);
    SET(entry.cause, causes[hold->cause].word);
    SET(entry.note, causes[hold->cause].title);
    // What was changed is in the log by itself.
    for (int i = 0; i < HOLD_LINES && hold->told == 0 && hold->line[i][0] != '\0'; i++) {
        struct text note = {
            .buffer = entry.note, .size = sizeof entry.note, .used = strlen(entry.note)};
        text_add(&note, ". ");
        text_add(&note, hold->line[i]);
    }
    return save_aside(s, &entry);
}

void hold_show(struct station *s, const struct hold *hold) {
    uint32_t words = digest(hold);
    bool repeated = s->last_cause == hold->cause && s->last_words == words;
    s->hold = *hold;
    s->picked = 0;
    s->hold.logged = repeated || log_stop(s, hold);
    s->last_cause = s->hold.logged ? hold->cause : HOLD_NONE;
    s->last_words = words;
    station_move(s, STATION_HOLD);
    station_sound(s, SOUND_HOLD);
}

void hold_store_failed(struct station *s) {
    struct hold hold = hold_make(s, HOLD_STORE_FAILED);
    hold.start_over = true;
    hold_line(&hold, WORD_HOLD_STORE, NULL, NULL, NULL);
    hold_todo(&hold, WORD_DO_STORE, NULL, NULL, NULL);
    hold_todo(&hold, WORD_DO_START_OVER, NULL, NULL, NULL);
    hold_show(s, &hold);
}

void hold_press(struct station *s) {
    if (s->hold.told != 0) {
        ordering_understood(s);
        return;
    }
    if (s->hold.unsafe && s->club.id != 0 && s->shaft[0] != '\0' && s->head[0] != '\0') {
        s->shown_seq = 0; // whether the mark was cut is asked again
        station_move(s, STATION_CARE);
    } else if (s->hold.start_over) {
        station_home(s);
    } else {
        station_move(s, s->hold.back);
    }
    station_sound(s, SOUND_ACCEPTED);
}

void hold_held(struct station *s) {
    struct hold hold = hold_make(s, HOLD_SUPERVISOR);
    bool holding = s->state == STATION_HOLD;
    if (holding && s->hold.cause == HOLD_SUPERVISOR) {
        return;
    }
    hold_line(&hold, WORD_HOLD_WAIT_CALLED, NULL, NULL, NULL);
    hold_todo(&hold, hold.start_over ? WORD_DO_START_OVER : WORD_DO_PRESS_BACK, NULL, NULL, NULL);
    hold_show(s, &hold);
}
