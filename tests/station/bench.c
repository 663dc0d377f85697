#include "bench.h"

#include <string.h>

static void send(struct bench *bench, const struct event *event, int64_t ms) {
    bench->shop.now_ms += ms;
    station_event(&bench->station, event);
    station_view(&bench->station, &bench->view);
}

void bench_restart(struct bench *bench) {
    struct station_settings settings = shop_settings();
    bench->ops = shop_ops_for(&bench->shop);
    station_init(&bench->station, &settings, &bench->ops);
    station_view(&bench->station, &bench->view);
}

void bench_init(struct bench *bench) {
    shop_catalogue(&bench->catalogue);
    shop_init(&bench->shop, &bench->catalogue);
    bench_restart(bench);
}

void bench_scan_text(struct bench *bench, const char *text) {
    struct event event = {.kind = EVENT_SCAN};
    memcpy(event.text, text, strlen(text) + 1);
    send(bench, &event, 500);
}

void bench_scan(struct bench *bench, enum ticket_kind kind, const char *body) {
    bench_scan_text(bench, shop_ticket(kind, body));
}

void bench_press(struct bench *bench) {
    struct event event = {.kind = EVENT_PRESS};
    send(bench, &event, 500);
}

void bench_bounce(struct bench *bench) {
    struct event event = {.kind = EVENT_PRESS};
    send(bench, &event, 0);
}

void bench_held(struct bench *bench) {
    struct event event = {.kind = EVENT_HELD};
    send(bench, &event, 2000);
}

void bench_act(struct bench *bench, enum view_action_id id, int64_t argument) {
    struct event event = {.kind = EVENT_ACTION, .action = (int)id, .argument = argument};
    send(bench, &event, 500);
}

void bench_type(struct bench *bench, const char *text) {
    for (; *text != '\0'; text++) {
        struct event event = {.kind = EVENT_KEY, .key = *text};
        send(bench, &event, 100);
    }
}

void bench_device(struct bench *bench, enum station_device device, bool present) {
    struct event event = {.kind = EVENT_DEVICE, .device = device, .present = present};
    send(bench, &event, 500);
}

void bench_fault(struct bench *bench, const char *text) {
    struct event event = {.kind = EVENT_FAULT};
    memcpy(event.text, text, strlen(text) + 1);
    send(bench, &event, 500);
}

void bench_wait(struct bench *bench, int64_t ms) {
    struct event event = {.kind = EVENT_TICK};
    send(bench, &event, ms);
}

void bench_sign_on(struct bench *bench) {
    bench_scan(bench, TICKET_WORKER, "14");
}

void bench_pair(struct bench *bench, const char *club) {
    bench_sign_on(bench);
    bench_scan(bench, TICKET_HEAD, club);
    bench_scan(bench, TICKET_SHAFT, club);
}

void bench_to_mark(struct bench *bench, const char *club) {
    bench_pair(bench, club);
    bench_press(bench);
}

void bench_to_review(struct bench *bench) {
    bench_scan(bench, TICKET_WORKER, "3");
    bench_type(bench, "4711");
    bench_press(bench);
}

bool bench_can(const struct bench *bench, enum view_action_id id) {
    for (size_t i = 0; i < bench->view.action_count; i++) {
        if (bench->view.action[i].id == id) {
            return true;
        }
    }
    return false;
}

bool bench_next(const struct bench *bench, const char *club, struct event *ret_event,
                int64_t *ret_ms) {
    const struct station *station = &bench->station;
    struct event event = {.kind = EVENT_PRESS};
    const char *scan = NULL;
    *ret_ms = 500;
    if (station->saving != SAVING_NONE) {
        event.kind = EVENT_TICK;
        *ret_ms = 2000;
    } else if (station->state == STATION_SIGNED_OUT) {
        scan = shop_ticket(TICKET_WORKER, "14");
    } else if (station->state == STATION_READY) {
        scan = shop_ticket(TICKET_HEAD, club);
    } else if (station->state == STATION_PAIR && station->head[0] == '\0') {
        scan = station->club.head.ticket;
    } else if (station->state == STATION_PAIR) {
        scan = station->club.shaft.ticket;
    } else if (station->state == STATION_RESUME) {
        event.kind = EVENT_ACTION;
        event.action = ACTION_RESUME_NOT_CUT;
    } else if (bench->view.body == VIEW_NUMBER && station->number.text[0][0] == '\0' &&
               bench->view.number.pick_count > 2) {
        event.kind = EVENT_ACTION;
        event.action = ACTION_PICK;
        event.argument = bench->view.number.pick[2].mark.value;
    } else if (station->state == STATION_LOGGED) {
        return false;
    }
    if (scan != NULL) {
        event.kind = EVENT_SCAN;
        memcpy(event.text, scan, strlen(scan) + 1);
    }
    *ret_event = event;
    return true;
}
