// The supervisor's look at the log: a day, filters, pages by key. What is on the screen is asked
// from the store anew each time, so that nothing shown here is older than the last entry.

#include "station_inner.h"

#include <string.h>

void review_open(struct station *s) {
    memset(&s->review, 0, sizeof s->review);
    filters_clear(s);
    station_move(s, STATION_REVIEW);
}

int review_rows(const struct station *s, struct view_log_row *rows) {
    return s->ops->log(s->ops->ctx, &s->review.filter, s->review.before[s->review.page], rows,
                       STATION_ROWS_MAX);
}

bool review_selected(const struct station *s, struct entry *ret_entry, bool *ret_open) {
    struct club club;
    if (s->review.selected == 0 ||
        s->ops->entry(s->ops->ctx, s->review.selected, ret_entry) != STATION_FOUND) {
        return false;
    }
    *ret_open = ret_entry->club_id != 0 &&
                s->ops->club(s->ops->ctx, ret_entry->club_id, &club) == STATION_FOUND &&
                club.progress.stage == STAGE_DECISION &&
                club.progress.decision_seq == ret_entry->seq;
    return true;
}

static void older(struct station *s) {
    struct review *review = &s->review;
    struct view_log_row rows[STATION_ROWS_MAX];
    int count = review_rows(s, rows);
    if (count < STATION_ROWS_MAX) {
        return; // this is the last page
    }
    if (review->page == REVIEW_PAGES - 1) {
        memmove(review->before, review->before + 1,
                sizeof review->before - sizeof review->before[0]);
    } else {
        review->page++;
    }
    review->before[review->page] = rows[count - 1].seq;
    review->selected = 0;
}

static void newer(struct station *s) {
    if (s->review.page == 0) {
        filters_newest(s);
        return;
    }
    s->review.before[s->review.page] = 0;
    s->review.page--;
    s->review.selected = 0;
}

static void export(struct station *s) {
    char path[VIEW_TEXT_MAX] = "";
    if (s->ops->export_csv(s->ops->ctx, &s->review.filter, path, sizeof path)) {
        struct entry entry = save_entry(s, ENTRY_EXPORT);
        SET(entry.worker, s->supervisor.badge);
        SET(entry.note, path);
        save_aside(s, &entry);
        SAY(s->review.message, REVIEW_EXPORTED, path, NULL, NULL);
        station_sound(s, SOUND_ACCEPTED);
    } else {
        SAY(s->review.message, REVIEW_NOT_EXPORTED, NULL, NULL, NULL);
        station_sound(s, SOUND_HOLD);
    }
}

// The set of the selected entry's build, else of what the log is filtered by.
bool review_build(const struct station *s, char build[PARTS_BUILD_MAX]) {
    struct entry entry;
    struct part part;
    bool open;
    memset(build, 0, PARTS_BUILD_MAX);
    if (review_selected(s, &entry, &open)) {
        words_copy(build, PARTS_BUILD_MAX, entry.build);
    } else if (s->review.filter.build[0] != '\0') {
        words_copy(build, PARTS_BUILD_MAX, s->review.filter.build);
    } else if (s->review.filter.ticket[0] != '\0' &&
               s->ops->part(s->ops->ctx, s->review.filter.ticket, &part) == STATION_FOUND) {
        words_copy(build, PARTS_BUILD_MAX, part.build);
    }
    return build[0] != '\0';
}

static void open_set(struct station *s) {
    char build[PARTS_BUILD_MAX];
    if (review_build(s, build)) {
        sets_open(s, build);
    }
}

// The life of the selected entry's shaft, or of its head while there is no shaft.
static void life_of_row(struct station *s) {
    struct entry entry;
    bool open;
    if (review_selected(s, &entry, &open)) {
        review_life(s, entry.shaft[0] != '\0' ? entry.shaft : entry.head);
    }
}

// Every entry about one part, from its first day on.
void review_life(struct station *s, const char *ticket) {
    memset(&s->review, 0, sizeof s->review);
    SET(s->review.filter.ticket, ticket);
    if (s->state != STATION_REVIEW) {
        station_move(s, STATION_REVIEW);
    }
}

static void select_row(struct station *s, int64_t seq) {
    struct view_log_row rows[STATION_ROWS_MAX];
    int count = review_rows(s, rows);
    for (int i = 0; i < count; i++) {
        if (rows[i].seq == seq) {
            s->review.selected = seq;
        }
    }
}

void review_action(struct station *s, enum view_action_id id, int64_t argument) {
    memset(s->review.message, 0, sizeof s->review.message);
    if (id == ACTION_ROW) {
        select_row(s, argument);
    } else if (id == ACTION_OLDER) {
        older(s);
    } else if (id == ACTION_NEWER) {
        newer(s);
    } else if (id == ACTION_STATS) {
        s->review.mode = REVIEW_STATS;
    } else if (id == ACTION_SET) {
        open_set(s);
    } else if (id == ACTION_OPEN_ENTRY) {
        s->review.mode = REVIEW_ENTRY;
    } else if (id == ACTION_SHOWN) {
        s->review.mode = REVIEW_SHOWN;
    } else if (id == ACTION_NOTE) {
        s->review.note_active = !s->review.note_active;
    } else if (id == ACTION_EXPORT) {
        export(s);
    } else if (id == ACTION_LIFE) {
        life_of_row(s);
    } else {
        filters_action(s, id, argument);
    }
}

void review_key(struct station *s, int64_t key) {
    size_t size = strlen(s->review.note);
    if (!s->review.note_active) {
        return;
    }
    if (key == '\b' && size > 0) {
        s->review.note[size - 1] = '\0';
    } else if (key >= ' ' && key < 0x7F && size + 1 < sizeof s->review.note) {
        s->review.note[size] = (char)key;
    }
}
