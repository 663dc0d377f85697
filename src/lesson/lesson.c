// Steps forward and back, by where the station has come to.

#include "lesson_inner.h"

#include <stdio.h>
#include <string.h>

void lesson_init(struct lesson *lesson, bool tour) {
    memset(lesson, 0, sizeof *lesson);
    lesson->list = !tour;
    lesson->running = tour;
    lesson->id = LESSON_TOUR;
}

const struct lesson_step *lesson_at(const struct lesson *lesson) {
    const struct lesson_spec *spec = lesson_spec(lesson->id);
    return lesson->running && !lesson->list && lesson->step < spec->count
               ? &spec->step[lesson->step]
               : NULL;
}

void lesson_begin(struct lesson *lesson, enum lesson_id id, const struct lesson_parts *parts) {
    unsigned needs = lesson_spec(id)->needs;
    lesson->missing = false;
    for (int i = 0; i < OFFER_COUNT; i++) {
        lesson->missing |= (needs & 1u << i) != 0 && parts->ticket[i][0] == '\0';
    }
    lesson->parts = *parts;
    if (!lesson->missing) {
        lesson->list = false;
        lesson->running = true;
        lesson->id = id;
        lesson->step = 0;
    }
}

static bool is_done(const struct lesson_step *step, const struct lesson_seen *seen) {
    if (step->refused) {
        return seen->saving == SAVING_REFUSED;
    }
    return seen->saving == SAVING_NONE && (step->done & 1u << seen->state) != 0 &&
           (seen->state != STATION_HOLD || step->cause == HOLD_NONE || step->cause == seen->cause);
}

// Somebody went back: to the nearest earlier step that is about where the station stands now.
static bool step_back(struct lesson *lesson, const struct lesson_seen *seen) {
    const struct lesson_step *steps = lesson_spec(lesson->id)->step;
    for (int i = lesson->step - 1; i >= 0; i--) {
        if (steps[i].where != ANYWHERE && (steps[i].where & 1u << seen->state) != 0) {
            lesson->step = i;
            return true;
        }
    }
    return false;
}

static void finish(struct lesson *lesson) {
    if (lesson->running && lesson->step >= lesson_spec(lesson->id)->count) {
        lesson->done |= 1u << lesson->id;
    }
}

bool lesson_look(struct lesson *lesson, const struct lesson_seen *seen) {
    const struct lesson_step *step = lesson_at(lesson);
    bool changed = lesson->stands != seen->state;
    lesson->stands = seen->state;
    while (step != NULL && !step->page && is_done(step, seen)) {
        lesson->step++;
        changed = true;
        step = lesson_at(lesson);
    }
    finish(lesson);
    if (step != NULL && seen->saving == SAVING_NONE && (step->where & 1u << seen->state) == 0) {
        changed = step_back(lesson, seen) || changed;
    }
    return changed;
}

bool lesson_refuses(const struct lesson *lesson) {
    const struct lesson_step *step = lesson_at(lesson);
    return step != NULL && step->refuses;
}

void lesson_write(const struct lesson *lesson, char buffer[LESSON_TEXT_MAX]) {
    snprintf(buffer, LESSON_TEXT_MAX, "%d %d %u %s %s", (int)lesson->id, lesson->step, lesson->done,
             lesson->parts.ticket[OFFER_HEAD], lesson->parts.ticket[OFFER_SHAFT]);
}

static bool is_part(const char *text, enum ticket_kind kind) {
    struct ticket ticket;
    return ticket_parse(text, &ticket) == TICKET_OK && ticket.kind == kind;
}

bool lesson_read(struct lesson *lesson, const char *text) {
    char head[TICKET_TEXT_MAX];
    char shaft[TICKET_TEXT_MAX];
    int id;
    int step;
    unsigned done;
    int end = 0;
    if (sscanf(text, "%2d %3d %9u %15s %15s%n", &id, &step, &done, head, shaft, &end) != 5 ||
        text[end] != '\0' || id < 0 || id >= LESSON_COUNT || step < 0 ||
        step > lesson_spec((enum lesson_id)id)->count || !is_part(head, TICKET_HEAD) ||
        !is_part(shaft, TICKET_SHAFT)) {
        return false;
    }
    lesson->list = false;
    lesson->running = true;
    lesson->id = (enum lesson_id)id;
    lesson->step = step;
    lesson->done = done;
    SET(lesson->parts.ticket[OFFER_HEAD], head);
    SET(lesson->parts.ticket[OFFER_SHAFT], shaft);
    return true;
}

// --- events --------------------------------------------------------------------------------------

static void give(struct lesson_act *act, enum event_kind kind) {
    act->event[act->count++] = (struct event){.kind = kind};
}

static void give_action(struct lesson_act *act, enum view_action_id id, int64_t argument) {
    act->event[act->count++] =
        (struct event){.kind = EVENT_ACTION, .action = (int)id, .argument = argument};
}

static void give_scan(const struct lesson *lesson, enum lesson_offer offer,
                      struct lesson_act *act) {
    struct event *event = &act->event[act->count++];
    *event = (struct event){.kind = EVENT_SCAN};
    SET(event->text, lesson->parts.ticket[offer]);
}

static bool can(const struct view *view, enum view_action_id id) {
    for (size_t i = 0; i < view->action_count; i++) {
        if (view->action[i].id == id) {
            return true;
        }
    }
    return false;
}

// Of two tickets, the one that is not scanned yet.
static enum lesson_offer wanted(const struct lesson_step *step, const struct view *view) {
    bool head_there = view->body == VIEW_PAIR && view->card[0].filled;
    bool shaft_there = view->body == VIEW_PAIR && view->card[1].filled;
    bool swap = (step->offer[0] == OFFER_SHAFT && shaft_there) ||
                (step->offer[0] == OFFER_HEAD && head_there);
    return swap && step->offer[1] != OFFER_NONE ? step->offer[1] : step->offer[0];
}

// Back to where the step can be done.
static void find_back(const struct view *view, struct lesson_act *act) {
    if (can(view, ACTION_START_OVER)) {
        give_action(act, ACTION_START_OVER, 0);
    } else if (can(view, ACTION_BACK)) {
        give_action(act, ACTION_BACK, 0);
    } else {
        give(act, EVENT_PRESS);
    }
}

static void pick(const struct view *view, bool planned, struct lesson_act *act) {
    const struct view_number *number = &view->number;
    for (size_t i = 0; i < number->pick_count; i++) {
        if (planned ? number->pick[i].planned : i + 1 == number->pick_count) {
            give_action(act, ACTION_PICK, number->pick[i].mark.value);
        }
    }
    give(act, EVENT_PRESS);
}

static enum lesson_wish go_on(struct lesson *lesson, const struct lesson_step *step,
                              const struct view *view, struct lesson_act *act) {
    switch (step->does) {
    case DOES_NOTHING:
        lesson->step++;
        finish(lesson);
        return LESSON_TAKES;
    case DOES_POWER:
        return LESSON_CUTS;
    case DOES_SCAN:
        give_scan(lesson, wanted(step, view), act);
        break;
    case DOES_PRESS:
        give(act, EVENT_PRESS);
        break;
    case DOES_HOLD:
        give(act, EVENT_HELD);
        break;
    case DOES_ACTION:
        can(view, step->action) ? give_action(act, step->action, 0) : find_back(view, act);
        break;
    case DOES_PLANNED:
    case DOES_PAST:
        pick(view, step->does == DOES_PLANNED, act);
        break;
    }
    return LESSON_DOES;
}

static bool is_input(const struct event *event) {
    return event->kind == EVENT_SCAN || event->kind == EVENT_KEY || event->kind == EVENT_PRESS ||
           event->kind == EVENT_HELD || event->kind == EVENT_ACTION;
}

static enum lesson_wish list_event(const struct event *event, struct lesson_act *act) {
    if (event->kind == EVENT_ACTION && event->action == ACTION_LESSON_LEAVE) {
        return LESSON_ENDS;
    }
    if (event->kind == EVENT_ACTION && event->action == ACTION_TILE && event->argument >= 0 &&
        event->argument < LESSON_COUNT - LESSON_CLUB) {
        act->id = (enum lesson_id)(LESSON_CLUB + event->argument);
        return LESSON_BEGINS;
    }
    return is_input(event) ? LESSON_TAKES : LESSON_PASSES;
}

static enum lesson_wish action_event(struct lesson *lesson, const struct event *event,
                                     const struct view *view, struct lesson_act *act) {
    const struct lesson_step *step = lesson_at(lesson);
    switch (event->action) {
    case ACTION_LESSON_LIST:
        lesson->list = true;
        lesson->missing = false;
        return LESSON_TAKES;
    case ACTION_LESSON_END:
        return LESSON_ENDS;
    case ACTION_LESSON_SCAN:
        if (step != NULL && event->argument > OFFER_NONE && event->argument < OFFER_COUNT &&
            (event->argument == (int64_t)step->offer[0] ||
             event->argument == (int64_t)step->offer[1])) {
            give_scan(lesson, (enum lesson_offer)event->argument, act);
            return LESSON_DOES;
        }
        return LESSON_TAKES;
    case ACTION_LESSON_NEXT:
        return step != NULL ? go_on(lesson, step, view, act) : LESSON_TAKES;
    case ACTION_LESSON_BACK:
        find_back(view, act);
        return LESSON_DOES;
    default:
        return LESSON_PASSES;
    }
}

enum lesson_wish lesson_event(struct lesson *lesson, const struct event *event,
                              const struct view *view, struct lesson_act *ret_act) {
    const struct lesson_step *step = lesson_at(lesson);
    memset(ret_act, 0, sizeof *ret_act);
    if (lesson->list) {
        return list_event(event, ret_act);
    }
    if (event->kind == EVENT_ACTION) {
        enum lesson_wish wish = action_event(lesson, event, view, ret_act);
        if (wish != LESSON_PASSES) {
            return wish;
        }
    }
    if (step == NULL || !step->page || !is_input(event)) {
        return LESSON_PASSES;
    }
    bool press = event->kind == EVENT_PRESS ||
                 (event->kind == EVENT_ACTION && event->action == ACTION_PRESS);
    if (!press) {
        return LESSON_TAKES;
    }
    go_on(lesson, step, view, ret_act);
    return lesson_at(lesson) == NULL ? LESSON_ENDS : LESSON_TAKES;
}
