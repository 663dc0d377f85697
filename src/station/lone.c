// One button and a scanner, nothing else: where there is something to choose, a press moves on to
// the next choice and holding takes the one it has moved to. Where there is one thing to confirm,
// the button is what it always is. With nothing chosen, holding says that something is wrong.

#include "station_inner.h"

#include <string.h>

#define CHOICES_MAX (VIEW_ACTIONS_MAX + 8)

struct choice {
    enum view_action_id id;
    int64_t argument;
    char label[VIEW_TEXT_MAX];
};

struct choices {
    size_t count;
    struct choice choice[CHOICES_MAX];
};

// Is there something to choose? What needs a keyboard is left to those who have one.
static bool chooses(const struct station *s) {
    if (!s->settings.one_button || s->saving != SAVING_NONE) {
        return false;
    }
    switch ((int)s->state) {
    case STATION_READY:
    case STATION_PAIR:
    case STATION_RESUME:
    case STATION_DRY_FIT:
    case STATION_MISCUT:
    case STATION_MEASURE:
        return true;
    case STATION_HOLD:
        return s->hold.cause == HOLD_SOMETHING_WRONG || s->hold.cause == HOLD_TIP_PAST ||
               s->hold.cause == HOLD_BUTT_SHORT;
    default:
        return false;
    }
}

static void add(struct choices *choices, enum view_action_id id, int64_t argument,
                const char *label) {
    struct choice *choice = &choices->choice[choices->count];
    if (choices->count < CHOICES_MAX) {
        *choice = (struct choice){.id = id, .argument = argument};
        SET(choice->label, label);
        choices->count++;
    }
}

// The number as entered; then the planned one, one mark longer, one shorter, two longer, two
// shorter.
static void add_numbers(const struct station *s, struct choices *choices) {
    static const int order[] = {0, 1, -1, 2, -2};
    struct view view;
    char text[VIEW_TEXT_MAX];
    char length[LENGTH_TEXT_MAX];
    if (s->number.text[0][0] != '\0') {
        SAY(text, LONE_ENTER, s->number.text[0], NULL, NULL);
        add(choices, ACTION_PRESS, 0, text);
    }
    memset(&view, 0, sizeof view);
    view_number(s, &view);
    for (size_t i = 0; i < sizeof order / sizeof order[0]; i++) {
        for (size_t at = 0; at < view.number.pick_count; at++) {
            length_nm value = view.number.pick[at].mark.value;
            size_t planned = 0;
            while (planned < view.number.pick_count && !view.number.pick[planned].planned) {
                planned++;
            }
            if ((int)at - (int)planned == order[i]) {
                say_length(s, value, length);
                SAY(text, LONE_ENTER, length, NULL, NULL);
                add(choices, ACTION_PICK, value, text);
            }
        }
    }
}

static bool left_out(const struct station *s, const struct view_action *action) {
    bool wrong = s->state == STATION_HOLD && s->hold.cause == HOLD_SOMETHING_WRONG;
    return action->id == ACTION_REVIEW || action->id == ACTION_DESK || action->id == ACTION_CHECK ||
           action->id == ACTION_SELFCHECK || action->id == ACTION_CONSENT ||
           (action->id == ACTION_PRESS && (wrong || s->state != STATION_HOLD));
}

static void list(const struct station *s, struct choices *choices) {
    struct view view;
    choices->count = 0;
    if (station_asks_number(s)) {
        add_numbers(s, choices);
    }
    actions_fill(s, &view);
    for (size_t i = 0; i < view.action_count; i++) {
        const struct view_action *action = &view.action[i];
        if (!left_out(s, action)) {
            bool press = action->id == ACTION_PRESS;
            add(choices, action->id, action->argument,
                press ? word(WORD_LONE_GO_ON) : action->label);
        }
    }
}

bool lone_press(struct station *s) {
    struct choices choices;
    if (!chooses(s)) {
        return false;
    }
    list(s, &choices);
    s->picked = choices.count == 0 ? 0 : s->picked % (int)choices.count + 1;
    return true;
}

bool lone_held(struct station *s, enum view_action_id *ret_id, int64_t *ret_argument) {
    struct choices choices;
    if (!chooses(s) || s->picked == 0) {
        return false;
    }
    list(s, &choices);
    if (s->picked > (int)choices.count) {
        return false;
    }
    *ret_id = choices.choice[s->picked - 1].id;
    *ret_argument = choices.choice[s->picked - 1].argument;
    return true;
}

static enum word hint(const struct station *s) {
    if (s->picked > 0) {
        return WORD_LONE_NEXT;
    }
    return s->state == STATION_HOLD ? WORD_LONE_FIRST_ONLY : WORD_LONE_FIRST;
}

void lone_view(const struct station *s, struct view *view) {
    struct choices choices;
    if (!chooses(s)) {
        return;
    }
    list(s, &choices);
    SET(view->band_hint, word(hint(s)));
    view->band_button = true;
    if (s->picked > 0 && s->picked <= (int)choices.count) {
        const struct choice *choice = &choices.choice[s->picked - 1];
        SAY(view->band, LONE_TAKE, choice->label, NULL, NULL);
        view->ring = choice->id;
        view->ring_argument = choice->argument;
    } else if (station_asks_number(s)) {
        bool entered = s->number.text[0][0] != '\0';
        SET(view->band, word(entered ? WORD_LONE_ENTERED : WORD_LONE_NUMBER));
    } else if (s->state == STATION_HOLD) {
        SET(view->band, word(WORD_LONE_CHOOSE));
    }
}
