#ifndef BENCH_SELFCHECK_H
#define BENCH_SELFCHECK_H

// Gathers what the self-check goes by. What takes time is done beside the bench: the chain of the
// last entries at the start, all that `kerfside check` looks at once a day while nobody uses the
// bench, by a thread with a connection of its own; the printer's queue by a program that is given
// up after some seconds.

#include "child.h"
#include "selfcheck.h"
#include "store.h"

#include <pthread.h>

#define BENCH_TAIL 1000

struct bench_selfcheck {
    bool unasked; // a script has not asked for it: nothing here hangs on the machine it runs on
    bool going;   // a thread, to be joined; these are its own until it has ended:
    bool all;     // it looks at everything
    pthread_t thread;
    struct store *reading;
    struct store_watch watch;
    struct store_check check;
    enum store_result result;
    atomic_bool ended;

    int64_t settle_us; // until then devices may still be on their way, 0: no longer
    bool begun;        // the last entries have been looked at, or are being
    bool known;        // whole_ms has been read
    int64_t whole_ms;  // when all was last found whole, 0: not known
    bool was_broken;   // the last time: it is looked at again without waiting for quiet
    int64_t due_us;    // all of it not before, on the clock of bench_clock_us
    enum selfcheck_chain tail;
    enum selfcheck_chain whole;
    int64_t tail_count;
    char problem[SELFCHECK_TEXT_MAX];

    struct child printer;
    int64_t printer_until_us;
    enum selfcheck_printer printer_is;
};

struct bench;
struct station_selfcheck;

// What there is to know now, judged.
void bench_selfcheck_tell(void *ctx, struct station_selfcheck *ret_selfcheck);
// Somebody looks: asks the printer again, and for the last entries.
void bench_selfcheck_again(void *ctx);
// Begins what is due, hears of what has ended and tells the station.
void bench_selfcheck_tick(struct bench *bench);
// How long nothing is due, in microseconds; -1 for ever.
int64_t bench_selfcheck_patience(const struct bench *bench);
// Until what is being looked at has ended.
void bench_selfcheck_wait(const struct bench *bench);
void bench_selfcheck_stop(struct bench *bench);

#endif
