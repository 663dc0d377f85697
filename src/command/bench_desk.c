// The desk at the bench: what is put in goes to it, a supervisor's PIN comes from the station, and
// what it prints becomes files beside the database.

#include "bench.h"
#include "bench_change.h"
#include "tongue.h"

#include <stdio.h>
#include <string.h>

static bool tickets(struct bench *bench, const struct desk_ref *of, struct desk_said *ret_said) {
    char path[VIEW_TEXT_MAX];
    if (!bench_tickets(bench, of->key[0], path, sizeof path)) {
        return false;
    }
    snprintf(ret_said->message, sizeof ret_said->message, _("Tickets are in %.120s"), path);
    return true;
}

// The label of one part, at once.
static enum desk_result label(struct bench *bench, const struct desk_ref *of,
                              struct desk_said *ret_said) {
    const char *const tickets[] = {of->key[0]};
    const struct bench_labels *labels = &bench->labels;
    bool done = bench_print_labels(bench, tickets, 1, ret_said->message);
    bool named = done && !bench->settings->labels_print && labels->waiting_count == 0;
    ret_said->tone = done ? TONE_FINE : TONE_CAUTION;
    if (named) { // else it waits for the one before, and its file is not made yet
        const char *slash = strrchr(labels->path, '/');
        snprintf(ret_said->message, sizeof ret_said->message, _("Its label is %.60s."),
                 slash != NULL ? slash + 1 : labels->path);
    }
    return done ? DESK_DONE : DESK_FAILED;
}

static enum desk_result deed(void *ctx, const struct worker *who, enum desk_deed deed,
                             const struct desk_ref *of, const char *id,
                             struct desk_said *ret_said) {
    struct bench *bench = ctx;
    bool done = false;
    ret_said->tone = TONE_FINE;
    switch ((int)deed) {
    case DESK_DEED_PRACTICE:
    case DESK_DEED_TOUR:
        return bench_practice_ask(bench, deed == DESK_DEED_TOUR, ret_said) ? DESK_DONE
                                                                           : DESK_REFUSED;
    case DESK_DEED_SELFCHECK:
        bench->to_selfcheck = true; // once the desk has done with this event
        return DESK_DONE;
    case DESK_DEED_START_AGAIN:
        return bench_practice_again(bench, ret_said) ? DESK_DONE : DESK_REFUSED;
    case DESK_DEED_RELEASE:
        return office_release(&bench->office, who, of, id, ret_said);
    case DESK_DEED_TICKETS:
        done = tickets(bench, of, ret_said);
        break;
    case DESK_DEED_PART_TICKET:
        return label(bench, of, ret_said);
    case DESK_DEED_STOCK_CSV:
    case DESK_DEED_PICK_CSV:
        return bench_list_csv(bench, deed, of->key[0], ret_said) ? DESK_DONE : DESK_FAILED;
    case DESK_DEED_WORKSHEET:
    case DESK_DEED_CARDS:
    case DESK_DEED_CERTIFICATE:
        return bench_order_paper(bench, deed, of, ret_said) ? DESK_DONE : DESK_REFUSED;
    default:
        break;
    }
    if (!done) {
        snprintf(ret_said->message, sizeof ret_said->message,
                 _("No file could be written beside the database."));
    }
    return done ? DESK_DONE : DESK_FAILED;
}

void bench_desk_init(struct bench *bench) {
    bench->office = (struct office){
        .store = bench->store, .world = &bench->ops, .settings = &bench->settings->station};
    bench->desk_ops = office_ops(&bench->office);
    bench->office.deed = deed;
    bench->office.deed_ctx = bench;
    bench->shop = bench_change_shop(bench);
    bench->office.shop = &bench->shop;
    bench->office.day_text = bench_clock_date;
    desk_init(&bench->desk, &bench->desk_ops);
}

static bool is_sign_out(const struct event *event) {
    return event->kind == EVENT_ACTION && event->action == ACTION_SIGN_OUT;
}

static void station_action(struct bench *bench, enum view_action_id id) {
    struct event event = {.kind = EVENT_ACTION, .action = (int)id};
    station_event(&bench->station, &event);
}

static void stay_awake(struct bench *bench) {
    struct event event = {.kind = EVENT_ELSEWHERE};
    station_event(&bench->station, &event);
}

// True when the station came to the desk with this event.
static bool station_takes(struct bench *bench, const struct event *event) {
    bool changed = station_event(&bench->station, event);
    if (bench->station.state == STATION_DESK) {
        desk_enter(&bench->desk, &bench->station.worker, &bench->station.supervisor);
    }
    return changed;
}

bool bench_desk_event(struct bench *bench, const struct event *event) {
    bool there = bench->station.state == STATION_DESK && bench->station.saving == SAVING_NONE;
    if (event->kind == EVENT_WEIGHT) {
        bool weighed = desk_weigh(&bench->desk, event->weight, event->stable);
        return station_event(&bench->station, event) || (there && weighed);
    }
    if (!there || event->kind == EVENT_TICK || event->kind == EVENT_DEVICE ||
        event->kind == EVENT_SELFCHECK || event->kind == EVENT_FAULT || is_sign_out(event)) {
        return there ? station_event(&bench->station, event) : station_takes(bench, event);
    }
    switch (desk_event(&bench->desk, event)) {
    case DESK_STAYS:
        stay_awake(bench);
        if (bench->to_selfcheck) {
            bench->to_selfcheck = false;
            station_action(bench, ACTION_BACK);
            station_action(bench, ACTION_SELFCHECK);
        }
        break;
    case DESK_LEAVES:
        station_action(bench, ACTION_BACK);
        break;
    case DESK_WANTS_SUPERVISOR:
        station_action(bench, ACTION_SUPERVISOR);
        break;
    }
    return true;
}
