#ifndef HANDS_H
#define HANDS_H

// A bench with a window that nobody sees and a workshop of the station's tests behind it, and hands
// for it: keys, a button, a scanner, a finger. Its clock stands until it is moved.

#include "bench.h"
#include "check.h"
#include "shop.h"

extern struct bench_settings settings;
extern struct bench bench;
extern struct catalogue catalogue;
extern struct shop shop;
extern struct station_ops ops;

// For cmocka.
int open_bench(void **state);
int close_bench(void **state);

void pass(int64_t ms);
void key(uint16_t code);
void press(void);
// As a scanner types it, `enters` times Enter at its end.
void scan(enum ticket_kind kind, const char *body, int enters);
void touch(enum view_action_id action, int64_t argument, bool slips);

#endif
