#ifndef BENCH_H
#define BENCH_H

// One bench with its workshop, and hands for the tests.

#include "shop.h"

struct bench {
    struct catalogue catalogue;
    struct shop shop;
    struct station_ops ops;
    struct station station;
    struct view view; // after the last event
};

void bench_init(struct bench *bench);
void bench_restart(struct bench *bench); // the power went off and came back

// Each lets half a second pass first, so that the button is never in its dead time.
void bench_scan(struct bench *bench, enum ticket_kind kind, const char *body);
void bench_scan_text(struct bench *bench, const char *text);
void bench_press(struct bench *bench);
void bench_held(struct bench *bench);
void bench_act(struct bench *bench, enum view_action_id id, int64_t argument);
void bench_type(struct bench *bench, const char *text);
void bench_device(struct bench *bench, enum station_device device, bool present);
void bench_fault(struct bench *bench, const char *text);
void bench_wait(struct bench *bench, int64_t ms); // then a tick
void bench_bounce(struct bench *bench);           // a press with no time passed

// Signs on worker 14; scans head and shaft of a club; that and the care list.
void bench_sign_on(struct bench *bench);
void bench_pair(struct bench *bench, const char *club);
void bench_to_mark(struct bench *bench, const char *club);
void bench_to_review(struct bench *bench);

// What a worker does next, whatever the screen shows, to get this club cut. False: it is logged.
bool bench_next(const struct bench *bench, const char *club, struct event *ret_event,
                int64_t *ret_ms);

bool bench_can(const struct bench *bench, enum view_action_id id);

#define EIGHTH (LENGTH_INCH / 8)
#define SIXTEENTH (LENGTH_INCH / 16)

#endif
