// What can be touched now. The same list says what is accepted, so that a touch that comes a
// moment too late does nothing.

#include "station_inner.h"
#include "text.h"

#include <string.h>

struct spec {
    enum view_action_id id;
    int64_t argument;
    enum view_tone tone;
    const char *label;
    const char *key;
};

static void add(struct view *view, const struct spec *spec) {
    struct view_action *action = &view->action[view->action_count];
    if (!ACTION_FITS(view)) {
        return;
    }
    *action = (struct view_action){
        .id = spec->id, .argument = spec->argument, .tone = spec->tone, .enabled = true};
    SET(action->label, spec->label);
    SET(action->key, spec->key);
    view->action_count++;
}

static void put(struct view *view, enum view_action_id id, enum word label, const char *key,
                enum view_tone tone) {
    struct spec spec = {.id = id, .label = word(label), .key = key, .tone = tone};
    add(view, &spec);
}

// A choice with the next free number as its key.
static void choice(struct view *view, enum view_action_id id, enum word label,
                   enum view_tone tone) {
    char key[2] = {'1', '\0'};
    for (size_t i = 0; i < view->action_count; i++) {
        char taken = view->action[i].key[0];
        if (view->action[i].key[1] == '\0' && taken >= key[0] && taken < '9') {
            key[0] = (char)(taken + 1);
        }
    }
    put(view, id, label, key, tone);
}

static void put_press(struct view *view) {
    put(view, ACTION_PRESS, WORD_L_PRESS, "F1", TONE_WORK);
}

static void put_held(struct view *view, enum word label) {
    put(view, ACTION_HELD, label, "F2", TONE_STOP);
}

static void wrong_choices(const struct station *s, struct view *view) {
    const struct progress *progress = &s->club.progress;
    enum station_state at = s->hold.back;
    bool at_cut = at == STATION_TIP_CUT || at == STATION_BUTT_CUT;
    if (at == STATION_TIP_CUT || (at == STATION_BUTT_CUT && progress->tip_seq != 0)) {
        choice(view, ACTION_WRONG_MISCUT, WORD_L_TIP_OFF, TONE_PLAIN);
    }
    if (at == STATION_BUTT_CUT && progress->tip_seq != 0) {
        choice(view, ACTION_WRONG_TOO_EARLY, WORD_L_EARLY_TIP, TONE_PLAIN);
    }
    if ((at == STATION_MEASURE || at == STATION_LOGGED) && progress->butt_seq != 0) {
        choice(view, ACTION_WRONG_TOO_EARLY, WORD_L_EARLY_BUTT, TONE_PLAIN);
    }
    if (at == STATION_LOGGED) {
        choice(view, ACTION_WRONG_MISCUT, WORD_L_MEASURED_WRONG, TONE_PLAIN);
    } else {
        choice(view, ACTION_WRONG_NOT_SAFE, WORD_L_NOT_SAFE, TONE_STOP);
        choice(view, ACTION_WRONG_PARTS, WORD_L_WRONG_PARTS, TONE_CAUTION);
    }
    if (at_cut && at == STATION_BUTT_CUT && s->club.head.bore != BORE_THROUGH) {
        choice(view, ACTION_DRY_FIT, WORD_L_DRY_FIT, TONE_PLAIN);
    }
    choice(view, ACTION_WRONG_SUPERVISOR, WORD_L_CALL, TONE_CAUTION);
    put(view, ACTION_BACK, WORD_L_BACK, "F3", TONE_PLAIN);
}

static void hold_actions(const struct station *s, struct view *view) {
    put_press(view);
    if (s->hold.cause == HOLD_SOMETHING_WRONG) {
        wrong_choices(s, view);
        return;
    }
    if (s->hold.consent) {
        put(view, ACTION_CONSENT, WORD_L_CONSENT, "F4", TONE_CAUTION);
    }
    if (s->hold.cause == HOLD_TIP_PAST || s->hold.cause == HOLD_BUTT_SHORT) {
        choice(view, ACTION_WRONG_MISCUT, WORD_L_MEASURED_WRONG, TONE_PLAIN);
    }
    if (s->hold.cause != HOLD_SUPERVISOR) {
        put_held(view, WORD_L_CALL);
    }
    if (station_signed_on(s)) {
        put(view, ACTION_START_OVER, WORD_L_START_OVER, "F3", TONE_PLAIN);
    }
}

static void consent_actions(const struct station *s, struct view *view) {
    struct plan_input input;
    struct plan plan;
    enum consent consent;
    cutting_plan(s, &input, &plan);
    bool known = consent_for(s, &plan, &consent);
    if (station_asks_number(s)) {
        put_press(view);
    } else if (known && consent != CONSENT_COLUMN) {
        choice(view, ACTION_ROW,
               consent == CONSENT_SHIM ? WORD_CONSENT_SHIM : WORD_CONSENT_EXTENSION, TONE_CAUTION);
    } else {
        for (size_t i = 0; i < s->club.chart.count; i++) {
            const struct chart_column *column = &s->club.chart.column[i];
            char label[VIEW_SHORT_MAX];
            char weight[LENGTH_TEXT_MAX + 2];
            char key[2] = {i < 9 ? (char)('1' + i) : '\0', '\0'};
            struct spec spec = {.id = ACTION_ROW, .argument = (int64_t)i, .tone = TONE_CAUTION};
            struct text grams = text_open(weight, sizeof weight);
            text_add_mass(&grams, column->weight);
            SAY(label, CONSENT_COLUMN, column->name, weight, NULL);
            spec.label = label;
            spec.key = key;
            add(view, &spec);
        }
    }
    put(view, ACTION_BACK, WORD_L_BACK, "F3", TONE_PLAIN);
}

static void spare_actions(const struct station *s, const struct entry *entry, struct view *view) {
    struct part spares[STATION_ROWS_MAX];
    int count = s->ops->spares(s->ops->ctx, entry->shaft, spares, STATION_ROWS_MAX);
    for (int i = 0; i < count; i++) {
        char key[2] = {i < 9 ? (char)('1' + i) : '\0', '\0'};
        struct spec spec = {.id = ACTION_SPARE,
                            .argument = i,
                            .label = spares[i].ticket,
                            .key = s->review.note_active ? "" : key};
        add(view, &spec);
    }
    put(view, ACTION_BACK, WORD_L_BACK, "F3", TONE_PLAIN);
}

static void filter_actions(const struct station *s, struct view *view) {
    char labels[VIEW_ACTIONS_MAX][VIEW_SHORT_MAX];
    bool values = s->review.mode == REVIEW_PICK;
    int count = filters_labels(s, labels, VIEW_ACTIONS_MAX - 4);
    for (int i = 0; i < count; i++) {
        char key[2] = {i < 9 ? (char)('1' + i) : '\0', '\0'};
        struct spec spec = {.id = values ? ACTION_FILTER_VALUE : ACTION_FILTER_PICK,
                            .argument = i,
                            .label = labels[i],
                            .key = key};
        add(view, &spec);
    }
    put(view, ACTION_BACK, WORD_L_BACK, "F3", TONE_PLAIN);
    put(view, ACTION_FILTER_OPEN, WORD_L_OPEN, "F11", TONE_PLAIN);
    put(view, ACTION_FILTER_CLEAR, WORD_L_CLEAR, "Del", TONE_PLAIN);
}

static void decisions(const struct station *s, struct view *view) {
    bool typing = s->review.note_active;
    put(view, ACTION_DECIDE_USE, WORD_L_USE, typing ? "" : "1", TONE_FINE);
    put(view, ACTION_DECIDE_RECUT, WORD_L_RECUT, typing ? "" : "2", TONE_WORK);
    put(view, ACTION_DECIDE_SCRAP, WORD_L_SCRAP, typing ? "" : "3", TONE_STOP);
}

static void note_actions(const struct station *s, struct view *view) {
    if (decide_has_note(s)) {
        put_press(view);
    }
    put(view, ACTION_NOTE, s->review.note_active ? WORD_L_NOTE_DONE : WORD_L_NOTE, "F4",
        TONE_PLAIN);
}

static void day_actions(const struct station *s, struct view *view) {
    if (s->review.mode == REVIEW_CHECK) {
        put_press(view);
        put(view, ACTION_BACK, WORD_L_STOP_CHECK, "F3", TONE_PLAIN);
        return;
    }
    put(view, ACTION_BACK, WORD_L_BACK, "F3", TONE_PLAIN);
    if (s->review.mode == REVIEW_SIGN) {
        put(view, ACTION_SIGN_CONFIRM, WORD_L_SIGN_CONFIRM, "F4", TONE_FINE);
        return;
    }
    put(view, ACTION_REPORT, WORD_L_REPORT, "F2", TONE_PLAIN);
    put(view, ACTION_LEDGER, WORD_L_LEDGER, "F6", TONE_PLAIN);
    put(view, ACTION_SIGN, WORD_L_SIGN, "F4", TONE_WORK);
    put(view, ACTION_SIGN_OUT, WORD_L_SIGN_OUT, "F10", TONE_PLAIN);
}

static void review_actions(const struct station *s, struct view *view) {
    struct entry entry;
    char build[PARTS_BUILD_MAX];
    bool open = false;
    bool selected = review_selected(s, &entry, &open);
    if (s->review.mode == REVIEW_DAY || s->review.mode == REVIEW_SIGN ||
        s->review.mode == REVIEW_CHECK) {
        day_actions(s, view);
        return;
    }
    if (s->review.mode == REVIEW_ENTRY || s->review.mode == REVIEW_STATS ||
        s->review.mode == REVIEW_SHOWN) {
        put(view, ACTION_BACK, WORD_L_BACK, "F3", TONE_PLAIN);
        if (s->review.mode == REVIEW_ENTRY && selected && view_has_shown(&entry)) {
            put(view, ACTION_SHOWN, WORD_L_SHOWN, "F12", TONE_PLAIN);
        }
        return;
    }
    if (s->review.mode == REVIEW_SPARE && selected) {
        spare_actions(s, &entry, view);
        return;
    }
    if (s->review.mode == REVIEW_FILTERS || s->review.mode == REVIEW_PICK) {
        filter_actions(s, view);
        return;
    }
    if (open) {
        decisions(s, view);
    }
    if (selected) {
        note_actions(s, view);
    }
    put(view, ACTION_BACK, WORD_L_CLOSE, "F3", TONE_PLAIN);
    put(view, ACTION_OLDER, WORD_L_OLDER, "PgDn", TONE_PLAIN);
    put(view, ACTION_NEWER, WORD_L_NEWER, "PgUp", TONE_PLAIN);
    put(view, ACTION_DAY_BACK, WORD_L_DAY_BACK, "F5", TONE_PLAIN);
    put(view, ACTION_DAY_ON, WORD_L_DAY_ON, "F6", TONE_PLAIN);
    put(view, ACTION_FILTER_BUILD, WORD_L_BUILD, "F7", TONE_PLAIN);
    put(view, ACTION_FILTER, WORD_L_FILTER, "F8", TONE_WORK);
    put(view, ACTION_FILTER_OPEN, WORD_L_OPEN, "F11", TONE_PLAIN);
    put(view, ACTION_FILTER_CLEAR, WORD_L_CLEAR, "Del", TONE_PLAIN);
    if (selected) {
        put(view, ACTION_OPEN_ENTRY, WORD_L_ENTRY, "F12", TONE_PLAIN);
    }
    if (selected && (entry.shaft[0] != '\0' || entry.head[0] != '\0')) {
        put(view, ACTION_LIFE, WORD_L_LIFE, "F9", TONE_PLAIN);
    }
    if (review_build(s, build)) {
        put(view, ACTION_SET, WORD_L_SET, "Ins", TONE_PLAIN);
        put(view, ACTION_TICKETS, WORD_L_TICKETS, "", TONE_PLAIN);
    }
    if (day_shown(s)) {
        put(view, ACTION_DAY, WORD_L_DAY, "End", TONE_PLAIN);
    }
    put(view, ACTION_STATS, WORD_L_STATS, "Home", TONE_PLAIN);
    put(view, ACTION_EXPORT, WORD_L_EXPORT, "F2", TONE_PLAIN);
    put(view, ACTION_SIGN_OUT, WORD_L_SIGN_OUT, "F10", TONE_PLAIN);
}

static void set_actions(const struct station *s, struct view *view) {
    struct set set;
    bool known = sets_load(s, &set);
    const struct set_club *club = known ? sets_selected(s, &set) : NULL;
    bool waits = false;
    for (size_t i = 0; known && i < set.count; i++) {
        waits = waits || (set.club[i].shaft[0] == '\0' && set.club[i].stage == STAGE_PENDING);
    }
    put(view, ACTION_BACK, WORD_L_BACK, "F3", TONE_PLAIN);
    if (s->set.mode == SET_KIT) {
        put(view, ACTION_KIT_ACCEPT, WORD_L_KIT_ACCEPT, "F4", TONE_FINE);
        put(view, ACTION_KIT_SWINGWEIGHT, WORD_L_KIT_SWINGWEIGHT, "F7", TONE_PLAIN);
        put(view, ACTION_KIT_FLEX, WORD_L_KIT_FLEX, "F8", TONE_PLAIN);
    } else {
        put(view, ACTION_BUILD_BACK, WORD_L_BUILD_BACK, "F5", TONE_PLAIN);
        put(view, ACTION_BUILD_ON, WORD_L_BUILD_ON, "F6", TONE_PLAIN);
        put(view, ACTION_TICKETS, WORD_L_TICKETS, "F2", TONE_PLAIN);
        if (waits) {
            put(view, ACTION_KIT, WORD_L_KIT, "F4", TONE_WORK);
        }
        if (club != NULL) {
            put(view, ACTION_LIFE, WORD_L_LIFE, "F11", TONE_PLAIN);
        }
        if (club != NULL && club->stage == STAGE_DONE) {
            put(view, ACTION_FINAL_LENGTH, WORD_L_FINAL_LENGTH, "F7", TONE_PLAIN);
            put(view, ACTION_FINAL_SWINGWEIGHT, WORD_L_FINAL_SWINGWEIGHT, "F8", TONE_PLAIN);
            put(view, ACTION_FINAL_FREQUENCY, WORD_L_FINAL_FREQUENCY, "F9", TONE_PLAIN);
            put(view, ACTION_FINAL_LOFT, WORD_L_FINAL_LOFT, "F12", TONE_PLAIN);
            put(view, ACTION_FINAL_LIE, WORD_L_FINAL_LIE, "Ins", TONE_PLAIN);
        }
    }
    put(view, ACTION_SIGN_OUT, WORD_L_SIGN_OUT, "F10", TONE_PLAIN);
}

static void final_actions(const struct station *s, struct view *view) {
    put_press(view);
    put(view, ACTION_BACK, WORD_L_BACK, "F3", TONE_PLAIN);
    for (char letter = 'C'; s->number.kind == NUMBER_FINAL_SWINGWEIGHT && letter <= 'E'; letter++) {
        const char label[2] = {letter, '\0'};
        struct spec spec = {.id = ACTION_KEY, .argument = letter, .label = label, .key = ""};
        add(view, &spec);
    }
}

static void number_actions(const struct station *s, struct view *view) {
    put_press(view);
    put_held(view, WORD_L_HELD);
    if (s->state == STATION_MEASURE) {
        put(view, ACTION_START_OVER, WORD_L_START_OVER, "F3", TONE_PLAIN);
    } else {
        put(view, ACTION_BACK, WORD_L_BACK, "F3", TONE_PLAIN);
    }
}

static void cut_actions(const struct station *s, struct view *view) {
    put_press(view);
    put_held(view, s->state == STATION_CARE ? WORD_L_NOT_SAFE : WORD_L_HELD);
    put(view, ACTION_START_OVER, WORD_L_START_OVER, "F3", TONE_PLAIN);
    if (s->state == STATION_BUTT_CUT && s->club.head.bore != BORE_THROUGH) {
        put(view, ACTION_DRY_FIT, WORD_L_DRY_FIT, "F4", TONE_PLAIN);
    }
}

void actions_fill(const struct station *s, struct view *view) {
    view->action_count = 0;
    if (s->saving != SAVING_NONE) {
        return;
    }
    switch (s->state) {
    case STATION_SIGNED_OUT:
        put_held(view, WORD_L_CALL);
        break;
    case STATION_READY:
        put_held(view, WORD_L_HELD);
        put(view, ACTION_DESK, WORD_L_DESK, "F5", TONE_PLAIN);
        put(view, ACTION_REVIEW, WORD_L_REVIEW, "F6", TONE_PLAIN);
        put(view, ACTION_CHECK, WORD_L_CHECK, "F7", TONE_PLAIN);
        put(view, ACTION_SELFCHECK, WORD_L_SELFCHECK, "F8", TONE_PLAIN);
        put(view, ACTION_SIGN_OUT, WORD_L_SIGN_OUT, "F10", TONE_PLAIN);
        break;
    case STATION_PAIR:
        put_held(view, WORD_L_HELD);
        put(view, ACTION_START_OVER, WORD_L_START_OVER, "F3", TONE_PLAIN);
        break;
    case STATION_CARE:
    case STATION_TIP_CUT:
    case STATION_BUTT_CUT:
        cut_actions(s, view);
        break;
    case STATION_DRY_FIT:
    case STATION_MISCUT:
    case STATION_MEASURE:
        number_actions(s, view);
        break;
    case STATION_RESUME:
        choice(view, ACTION_RESUME_NOT_CUT, WORD_L_NOT_CUT, TONE_WORK);
        choice(view, ACTION_RESUME_CUT, WORD_L_CUT, TONE_FINE);
        choice(view, ACTION_RESUME_OTHER, WORD_L_OTHER, TONE_CAUTION);
        put_held(view, WORD_L_HELD);
        put(view, ACTION_START_OVER, WORD_L_START_OVER, "F3", TONE_PLAIN);
        break;
    case STATION_LOGGED:
        put_press(view);
        put_held(view, WORD_L_HELD);
        break;
    case STATION_HOLD:
        hold_actions(s, view);
        break;
    case STATION_PIN:
        put_press(view);
        if (s->pin.locked) {
            put(view, ACTION_UNLOCK, WORD_L_UNLOCK, "F4", TONE_CAUTION);
        }
        put(view, ACTION_BACK, WORD_L_BACK, "F3", TONE_PLAIN);
        break;
    case STATION_CHECK:
        put_press(view);
        put(view, ACTION_BACK, WORD_L_BACK, "F3", TONE_PLAIN);
        break;
    case STATION_SELFCHECK:
        if (!s->untrusted) {
            put_press(view);
            put(view, ACTION_BACK, WORD_L_BACK, "F3", TONE_PLAIN);
        }
        put(view, ACTION_LOOK_AGAIN, WORD_L_LOOK_AGAIN, "F4", TONE_PLAIN);
        put(view, ACTION_SOUNDS, WORD_L_SOUNDS, "F6", TONE_PLAIN);
        put(view, ACTION_OLDER, WORD_L_MORE, "PgDn", TONE_PLAIN);
        put(view, ACTION_NEWER, WORD_L_LESS, "PgUp", TONE_PLAIN);
        break;
    case STATION_CONSENT:
        consent_actions(s, view);
        break;
    case STATION_REVIEW:
        review_actions(s, view);
        break;
    case STATION_DESK:
        put(view, ACTION_BACK, WORD_L_LEAVE, "F3", TONE_PLAIN);
        if (s->supervisor.badge[0] == '\0') {
            put(view, ACTION_SUPERVISOR, WORD_L_SUPERVISOR, "F9", TONE_PLAIN);
        }
        put(view, ACTION_SIGN_OUT, WORD_L_SIGN_OUT, "F10", TONE_PLAIN);
        break;
    case STATION_SET:
        set_actions(s, view);
        break;
    case STATION_FINAL:
        final_actions(s, view);
        break;
    case STATION_STATE_COUNT:
        break;
    }
}

// Keys, fields, picks and rows the screen makes itself (view.h).
static bool made_by_screen(const struct station *s, enum view_action_id id) {
    bool number = station_asks_number(s);
    if (id == ACTION_FIELD || id == ACTION_PICK) {
        return number;
    }
    if (id == ACTION_KEY) {
        return number || s->state == STATION_PIN || s->state == STATION_REVIEW;
    }
    return id == ACTION_ROW && (s->state == STATION_SET ||
                                (s->state == STATION_REVIEW && s->review.mode == REVIEW_LIST));
}

bool actions_allow(const struct station *s, enum view_action_id id, int64_t argument) {
    struct view view;
    if (made_by_screen(s, id)) {
        return true;
    }
    actions_fill(s, &view);
    for (size_t i = 0; i < view.action_count; i++) {
        if (view.action[i].id == id && view.action[i].argument == argument) {
            return true;
        }
    }
    return false;
}
