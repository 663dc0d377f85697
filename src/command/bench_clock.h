#ifndef BENCH_CLOCK_H
#define BENCH_CLOCK_H

// The bench's one source of time; a script's stands still until it is moved.

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

struct bench_clock {
    bool simulated;
    int64_t mono_us;
    int64_t wall_ms; // when mono_us was 0
};

// Input and deadlines: CLOCK_MONOTONIC, the kernel's own for input devices.
int64_t bench_clock_us(const struct bench_clock *clock);
// Hour of the local day, 0 to 23.
int bench_clock_hour(int64_t wall_ms);

// The log's "since boot", which goes on while the machine sleeps.
int64_t bench_clock_boot_ms(const struct bench_clock *clock);
int64_t bench_clock_wall_ms(const struct bench_clock *clock);

// A clock that stands at the present until bench_clock_pass.
struct bench_clock bench_clock_simulated(void);
void bench_clock_pass(struct bench_clock *clock, int64_t us);
// Sets the wall clock to local time "2026-03-31T08:15" or with seconds. False: no such time.
bool bench_clock_set(struct bench_clock *clock, const char *text);

// Local midnight before wall_ms; "25 Nov" or "10:42", local.
int64_t bench_clock_day_start(int64_t wall_ms);
// Local midnight that begins "2026-03-31", -1: no such day; and the date of a time, so written.
int64_t bench_clock_day(const char *date);
void bench_clock_date(int64_t wall_ms, char *buffer, size_t size);
void bench_clock_text(int64_t wall_ms, bool date, char *buffer, size_t size);

#endif
