// The alphabet: what can happen at a bench.

#include "bench.h"
#include "explore.h"

#include <stdio.h>
#include <string.h>

struct list {
    struct step *steps;
    size_t count;
    size_t max;
};

static struct step *add(struct list *list, enum event_kind kind) {
    static struct step spare;
    struct step *step = list->count < list->max ? &list->steps[list->count++] : &spare;
    memset(step, 0, sizeof *step);
    step->event.kind = kind;
    step->ms = 500;
    return step;
}

static void scan(struct list *list, enum ticket_kind kind, const char *body) {
    struct step *step = add(list, EVENT_SCAN);
    const char *ticket = shop_ticket(kind, body);
    memcpy(step->event.text, ticket, strlen(ticket) + 1);
}

static void scan_text(struct list *list, const char *text) {
    struct step *step = add(list, EVENT_SCAN);
    memcpy(step->event.text, text, strlen(text) + 1);
}

static void act(struct list *list, enum view_action_id id, int64_t argument) {
    struct step *step = add(list, EVENT_ACTION);
    step->event.action = (int)id;
    step->event.argument = argument;
}

static void numbers(struct list *list, const struct station *station, const struct view *view) {
    for (size_t i = 0; i < view->number.pick_count; i++) {
        if (view->number.pick[i].planned) {
            length_nm mark = view->number.pick[i].mark.value;
            act(list, ACTION_PICK, mark);
            act(list, ACTION_PICK, mark > EIGHTH ? mark - EIGHTH : 0);
            act(list, ACTION_PICK, mark + EIGHTH);
        }
    }
    if (station->state == STATION_DRY_FIT) {
        act(list, ACTION_PICK, 42 * LENGTH_INCH);
        act(list, ACTION_PICK, 48 * LENGTH_INCH);
    }
    if (station->number.text[0][0] == '\0') {
        scan_text(list, "36 7/8"); // a tape that types
    }
}

static void scans(struct list *list) {
    scan(list, TICKET_WORKER, "14");
    scan(list, TICKET_WORKER, "15");
    scan(list, TICKET_WORKER, "3");
    scan(list, TICKET_HEAD, "1");
    scan(list, TICKET_SHAFT, "1");
    scan(list, TICKET_HEAD, "2");
    scan(list, TICKET_SHAFT, "2");
    scan(list, TICKET_HEAD, "3");
    scan(list, TICKET_SHAFT, "3");
    scan(list, TICKET_SHAFT, "99");
    scan_text(list, "S-1X");
    scan(list, TICKET_COMMAND, "BACK");
    scan(list, TICKET_COMMAND, "WRONG");
    scan(list, TICKET_COMMAND, "FIT");
    scan(list, TICKET_COMMAND, "OUT");
}

static void faults(struct list *list, const struct view *view) {
    static const enum shop_fault kinds[] = {SHOP_FAIL, SHOP_UNKNOWN_FOUND, SHOP_UNKNOWN_ABSENT,
                                            SHOP_UNKNOWN_BLIND};
    for (size_t i = 0; i < sizeof kinds / sizeof kinds[0]; i++) {
        struct step *step = add(list, EVENT_PRESS);
        step->fault = kinds[i];
        step->is_fault = true;
    }
    struct step *step = add(list, EVENT_PRESS);
    step->full = true;
    step->is_fault = true;
    step = add(list, EVENT_TICK);
    step->restart = true;
    step->is_fault = true;
    if (view->body == VIEW_MESSAGE || view->body == VIEW_PAIR) {
        scan(list, TICKET_HEAD, "1");
        list->steps[list->count - 1].lost = true;
        list->steps[list->count - 1].is_fault = true;
        scan(list, TICKET_WORKER, "14");
        list->steps[list->count - 1].fault = SHOP_FAIL;
        list->steps[list->count - 1].is_fault = true;
    }
    step = add(list, EVENT_DEVICE);
    step->event.device = DEVICE_SCANNER;
    step->is_fault = true;
    step = add(list, EVENT_PRESS);
    step->changed = true;
    step->is_fault = true;
}

size_t explore_steps(const struct station *station, const struct view *view, bool with_faults,
                     struct step *steps, size_t max) {
    struct list list = {.steps = steps, .max = max};
    if (station->saving != SAVING_NONE) {
        add(&list, EVENT_TICK)->ms = 1000;
        add(&list, EVENT_TICK)->ms = 2000;
        add(&list, EVENT_PRESS);
        scan(&list, TICKET_HEAD, "2");
        struct step *step = add(&list, EVENT_TICK);
        step->restart = true;
        return list.count;
    }
    add(&list, EVENT_PRESS);
    add(&list, EVENT_PRESS)->ms = 0; // bounces
    add(&list, EVENT_HELD)->ms = 2000;
    add(&list, EVENT_TICK)->ms = 8000;
    add(&list, EVENT_TICK)->ms = 11 * 60 * 1000;
    scans(&list);
    for (size_t i = 0; i < view->action_count; i++) {
        enum view_action_id id = view->action[i].id;
        // The self-check touches nothing of a club, and would cost a third more states.
        if (id != ACTION_PRESS && id != ACTION_HELD && id != ACTION_SIGN_OUT &&
            id != ACTION_SELFCHECK) {
            act(&list, id, view->action[i].argument);
        }
    }
    numbers(&list, station, view);
    if (!station->present[DEVICE_SCANNER]) {
        struct step *step = add(&list, EVENT_DEVICE);
        step->event.device = DEVICE_SCANNER;
        step->event.present = true;
    }
    if (with_faults) {
        faults(&list, view);
    }
    return list.count;
}

void explore_apply(const struct step *step, struct station *station, struct shop *shop) {
    shop->now_ms += step->ms;
    shop->full = step->full;
    shop->lost = step->lost ? 1 : 0;
    if (step->changed) {
        shop_change(shop, -LENGTH_INCH / 2);
    }
    if (step->restart) {
        struct station_settings settings = shop_settings();
        const struct station_ops *ops = station->ops;
        station_init(station, &settings, ops);
        // The session ended with the power.
        memset(shop->care, 0, sizeof shop->care);
        memset(shop->worker, 0, sizeof shop->worker);
        shop->moved_ms = 0;
        return;
    }
    if (step->fault != SHOP_NO_FAULT) {
        shop->fault = step->fault;
    }
    enum station_state state = station->state;
    int64_t seq = shop->seq;
    station_event(station, &step->event);
    if (station->state != state || (shop->seq != seq && step->event.kind == EVENT_PRESS)) {
        shop->moved_ms = shop->now_ms;
    }
    if (step->fault != SHOP_NO_FAULT) {
        shop->fault = SHOP_NO_FAULT; // it hits this event or none
    }
}

void explore_name(const struct step *step, char *buffer, size_t size) {
    static const char *const kinds[] = {"tick", "scan",   "key",   "press",
                                        "held", "action", "fault", "device"};
    static const char *const actions[] = {"none",
#define X(name) #name,
                                          VIEW_ACTION_IDS(X)
#undef X
    };
    const char *what = step->event.kind == EVENT_ACTION ? actions[step->event.action] : "";
    snprintf(buffer, size, "%s%s %s%s +%lld ms%s%s%s", step->restart ? "restart " : "",
             kinds[step->event.kind], step->event.text, what, (long long)step->ms,
             step->fault != SHOP_NO_FAULT ? " (save fault)" : "", step->full ? " (disk full)" : "",
             step->lost      ? " (lookup fails)"
             : step->changed ? " (order changed)"
                             : "");
}
