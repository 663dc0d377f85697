// What the log is filtered by: days, a part, a build, worker, bench, material, verdict, what waits
// for a decision; any of them together.

#include "station_inner.h"
#include "text.h"

#include <string.h>

#define THIRTY_HOURS_MS ((int64_t)30 * 3600 * 1000) // into the next day whatever the clocks do
#define DAY_MS ((int64_t)24 * 3600 * 1000)
#define CHOICES_MAX 24

static const int spans[] = {1, 7, 30, 365}; // days back from today
#define SPANS (int)(sizeof spans / sizeof spans[0])
enum shift { SHIFT_FROM_BACK = SPANS + 1, SHIFT_FROM_ON, SHIFT_TO_BACK, SHIFT_TO_ON, SHIFT_END };

void filters_newest(struct station *s) {
    s->review.page = 0;
    memset(s->review.before, 0, sizeof s->review.before);
    s->review.selected = 0;
}

static int64_t midnight(const struct station *s, int64_t wall_ms) {
    return s->ops->day_start_ms(s->ops->ctx, wall_ms);
}

// The midnight that ends the day which begins at `from`.
static int64_t day_end(const struct station *s, int64_t from) {
    return midnight(s, from + THIRTY_HOURS_MS);
}

void filters_day(struct station *s, int64_t wall_ms) {
    struct review_filter *filter = &s->review.filter;
    filter->from_ms = midnight(s, wall_ms);
    filter->to_ms = day_end(s, filter->from_ms);
    filters_newest(s);
}

void filters_clear(struct station *s) {
    memset(&s->review.filter, 0, sizeof s->review.filter);
    filters_day(s, s->ops->wall_ms(s->ops->ctx));
}

// --- days ----------------------------------------------------------------------------------------

static void last_days(struct station *s, int days) {
    struct review_filter *filter = &s->review.filter;
    filters_day(s, s->ops->wall_ms(s->ops->ctx));
    // Noon of the first day, so that an hour more or less of summer time does not matter.
    filter->from_ms = midnight(s, filter->from_ms + DAY_MS / 2 - (days - 1) * DAY_MS);
}

static void shift(struct station *s, enum shift which) {
    struct review_filter *filter = &s->review.filter;
    if (filter->from_ms == 0) {
        filters_day(s, s->ops->wall_ms(s->ops->ctx));
        return;
    }
    int64_t from = filter->from_ms;
    int64_t to = filter->to_ms;
    from = which == SHIFT_FROM_BACK ? midnight(s, from - 1)
           : which == SHIFT_FROM_ON ? day_end(s, from)
                                    : from;
    to = which == SHIFT_TO_BACK ? midnight(s, to - 1) : which == SHIFT_TO_ON ? day_end(s, to) : to;
    if (from < to) {
        filter->from_ms = from;
        filter->to_ms = to;
        filters_newest(s);
    }
}

static void pick_days(struct station *s, int64_t value) {
    if (value < SPANS) {
        last_days(s, spans[value]);
        s->review.mode = REVIEW_FILTERS;
    } else if (value == SPANS) {
        s->review.filter.from_ms = 0;
        s->review.filter.to_ms = 0;
        filters_newest(s);
        s->review.mode = REVIEW_FILTERS;
    } else {
        shift(s, (enum shift)value);
    }
}

// --- values --------------------------------------------------------------------------------------

static char *place(struct review_filter *filter, enum review_pick pick, size_t *ret_size) {
    switch (pick) {
    case PICK_WORKER:
        *ret_size = sizeof filter->worker;
        return filter->worker;
    case PICK_BENCH:
        *ret_size = sizeof filter->bench;
        return filter->bench;
    case PICK_MATERIAL:
        *ret_size = sizeof filter->material;
        return filter->material;
    case PICK_DAYS:
    case PICK_VERDICT:
    case PICK_COUNT:
        break;
    }
    return NULL;
}

static int choices(const struct station *s, char texts[][STATION_CHOICE_MAX]) {
    static const enum station_choice of[PICK_COUNT] = {[PICK_WORKER] = CHOICE_WORKERS,
                                                       [PICK_BENCH] = CHOICE_BENCHES,
                                                       [PICK_MATERIAL] = CHOICE_MATERIALS};
    int count = s->ops->choices(s->ops->ctx, of[s->review.pick], texts, CHOICES_MAX);
    return count > 0 ? count : 0;
}

const char *filters_material(const char *word) {
    enum material material;
    return material_from_text(word, &material) ? material_words(material) : word;
}

// Value 0 is "any".
static void pick(struct station *s, int64_t value) {
    char texts[CHOICES_MAX][STATION_CHOICE_MAX];
    struct review_filter *filter = &s->review.filter;
    size_t size = 0;
    if (s->review.pick == PICK_DAYS) {
        pick_days(s, value);
        return;
    }
    if (s->review.pick == PICK_VERDICT) {
        filter->verdict = (enum verdict)value;
    } else {
        char *text = place(filter, s->review.pick, &size);
        if (text == NULL) {
            return; // nothing that is picked from a list
        }
        int count = choices(s, texts);
        memset(text, 0, size);
        if (value > 0 && value <= count) {
            words_copy(text, size, texts[value - 1]);
        }
    }
    s->review.mode = REVIEW_FILTERS;
    filters_newest(s);
}

// Sets the build to the selected row's, or takes it off again.
static void by_build(struct station *s) {
    struct review_filter *filter = &s->review.filter;
    struct entry entry;
    bool open;
    if (filter->build[0] != '\0') {
        memset(filter->build, 0, sizeof filter->build);
    } else if (review_selected(s, &entry, &open)) {
        SET(filter->build, entry.build);
    }
    filters_newest(s);
}

void filters_action(struct station *s, enum view_action_id id, int64_t argument) {
    struct review_filter *filter = &s->review.filter;
    if (id == ACTION_FILTER) {
        s->review.mode = REVIEW_FILTERS;
    } else if (id == ACTION_FILTER_PICK) {
        s->review.pick = (enum review_pick)argument;
        s->review.mode = REVIEW_PICK;
    } else if (id == ACTION_FILTER_VALUE) {
        pick(s, argument);
    } else if (id == ACTION_FILTER_BUILD) {
        by_build(s);
    } else if (id == ACTION_FILTER_OPEN) {
        filter->open_only = !filter->open_only;
        filters_newest(s);
    } else if (id == ACTION_FILTER_CLEAR) {
        filters_clear(s);
    } else if (id == ACTION_DAY_BACK || id == ACTION_DAY_ON) {
        bool back = id == ACTION_DAY_BACK;
        filters_day(s, filter->from_ms == 0 ? s->ops->wall_ms(s->ops->ctx)
                       : back               ? filter->from_ms - 1
                                            : filter->to_ms);
    }
}

// --- what can be picked, in words ----------------------------------------------------------------

static int dimensions(const struct station *s, char labels[][VIEW_SHORT_MAX]) {
    const struct review_filter *filter = &s->review.filter;
    const char *any = word(WORD_FILTER_ANY);
    char days[VIEW_SHORT_MAX] = "";
    view_days(s, days, sizeof days);
    SAY(labels[PICK_DAYS], FILTER_DAYS, days, NULL, NULL);
    SAY(labels[PICK_WORKER], FILTER_WORKER, filter->worker[0] != '\0' ? filter->worker : any, NULL,
        NULL);
    SAY(labels[PICK_BENCH], FILTER_BENCH, filter->bench[0] != '\0' ? filter->bench : any, NULL,
        NULL);
    SAY(labels[PICK_MATERIAL], FILTER_MATERIAL,
        filter->material[0] != '\0' ? filters_material(filter->material) : any, NULL, NULL);
    SAY(labels[PICK_VERDICT], FILTER_VERDICT,
        filter->verdict != VERDICT_NONE ? verdict_words(filter->verdict) : any, NULL, NULL);
    return PICK_COUNT;
}

int filters_labels(const struct station *s, char labels[][VIEW_SHORT_MAX], int max) {
    static const enum word days[SHIFT_END] = {
        WORD_FILTER_TODAY,   WORD_FILTER_WEEK,      WORD_FILTER_MONTH,
        WORD_FILTER_YEAR,    WORD_REVIEW_EVERY_DAY, WORD_FILTER_FROM_BACK,
        WORD_FILTER_FROM_ON, WORD_FILTER_TO_BACK,   WORD_FILTER_TO_ON};
    char texts[CHOICES_MAX][STATION_CHOICE_MAX];
    int count = 0;
    if (s->review.mode == REVIEW_FILTERS) {
        return dimensions(s, labels);
    }
    if (s->review.pick == PICK_DAYS) {
        for (; count < SHIFT_END && count < max; count++) {
            words_copy(labels[count], VIEW_SHORT_MAX, word(days[count]));
        }
        return count;
    }
    words_copy(labels[count++], VIEW_SHORT_MAX, word(WORD_FILTER_ANY));
    if (s->review.pick == PICK_VERDICT) {
        for (int i = 1; i < VERDICT_COUNT; i++) {
            words_copy(labels[count++], VIEW_SHORT_MAX, verdict_words((enum verdict)i));
        }
        return count;
    }
    int there = choices(s, texts);
    for (int i = 0; i < there && count < max; i++) {
        words_copy(labels[count++], VIEW_SHORT_MAX,
                   s->review.pick == PICK_MATERIAL ? filters_material(texts[i]) : texts[i]);
    }
    return count;
}

// --- searching -----------------------------------------------------------------------------------

// One day, or the first and the last of several with a slash between (ISO 8601).
static bool search_days(struct station *s, const char *text) {
    struct review_filter *filter = &s->review.filter;
    char first[16] = "";
    const char *slash = strchr(text, '/');
    const char *last = slash != NULL ? slash + 1 : text;
    size_t size = slash != NULL ? (size_t)(slash - text) : strlen(text);
    if (size >= sizeof first) {
        return false;
    }
    memcpy(first, text, size);
    int64_t from = s->ops->date_ms(s->ops->ctx, first);
    int64_t to = s->ops->date_ms(s->ops->ctx, last);
    if (from < 0 || to < from) {
        return false;
    }
    filter->from_ms = from;
    filter->to_ms = day_end(s, to);
    filters_newest(s);
    return true;
}

static bool search_build(struct station *s, const char *text) {
    struct set set;
    if (s->ops->set(s->ops->ctx, text, &set) != STATION_FOUND) {
        return false;
    }
    review_life(s, "");
    SET(s->review.filter.build, set.build);
    return true;
}

void filters_search(struct station *s, const char *text, const struct ticket *ticket) {
    bool part = ticket != NULL && (ticket->kind == TICKET_HEAD || ticket->kind == TICKET_SHAFT);
    bool found = true;
    if (part) {
        review_life(s, ticket->text);
    } else if (ticket != NULL && ticket->kind == TICKET_WORKER) {
        SET(s->review.filter.worker, ticket->text);
        filters_newest(s);
    } else {
        found = search_days(s, text) || search_build(s, ticket != NULL ? ticket->text : text);
    }
    if (found) {
        s->review.mode = REVIEW_LIST;
        station_sound(s, SOUND_ACCEPTED);
    } else {
        SAY(s->review.message, REVIEW_NO_SCAN, NULL, NULL, NULL);
        station_sound(s, SOUND_HOLD);
    }
}
