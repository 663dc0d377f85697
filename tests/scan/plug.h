#ifndef PLUG_H
#define PLUG_H

// A device made of a FIFO, and the reader at the other end. Waits are bounded: a test that would
// wait for ever fails.

#include "evdev.h"

#include <semaphore.h>

#define PLUG_WAIT_MS 5000

struct plug {
    char folder[64];
    char path[96];
    int writer; // -1: unplugged
    struct evdev *evdev;
    sem_t woken;
};

void plug_init(struct plug *plug);
void plug_in(struct plug *plug);   // makes the FIFO
void plug_open(struct plug *plug); // once the reader has it
void plug_out(struct plug *plug);
void plug_start(struct plug *plug, int retry_ms);
void plug_destroy(struct plug *plug);

void plug_event(struct plug *plug, uint16_t type, uint16_t code, int32_t value);
void plug_key(struct plug *plug, uint16_t code); // down, report, up, report
// H, hyphen, zeros, 1, A: the keys of `H-0001A`, without Shift.
void plug_ticket(struct plug *plug);

// The next event, waited for.
struct evdev_event plug_next(struct plug *plug);

#endif
