#ifndef BENCH_LABELS_H
#define BENCH_LABELS_H

// Labels at once, as when a part has been entered: `kerfside tickets` as a process of its own makes
// the file beside the database and, if the settings say so, sends it to the printer, so that no
// printer holds the bench up.

#include "child.h"
#include "ticket.h"
#include "view.h"

#include <stdint.h>

struct bench;

#define BENCH_LABELS_MAX 64 // that wait

struct bench_labels {
    const char *program; // this one; NULL: prints none
    struct child child;
    int64_t until_us;                                // it may take
    char path[VIEW_TEXT_MAX];                        // the file it makes
    size_t count;                                    // labels in it
    char waiting[BENCH_LABELS_MAX][TICKET_TEXT_MAX]; // for the one before to end
    size_t waiting_count;
    bool failed;               // the newest that ended
    char words[VIEW_TEXT_MAX]; // what became of it, for a person; empty: none has ended yet
};

// `program` must outlive it.
void bench_labels_init(struct bench *bench, const char *program);

// Tickets of heads, shafts, builds and badges, which the database knows. False: none of them will
// be printed. `message` then says why, and else what will become of them; how it ended is in
// `words` later, and when it failed on stderr too.
bool bench_print_labels(struct bench *bench, const char *const *tickets, size_t count,
                        char message[VIEW_TEXT_MAX]);

// Hears of one that has ended, and begins the next. True when there is news.
bool bench_labels_tick(struct bench *bench);
// How long nothing is due, in microseconds; -1 for ever.
int64_t bench_labels_patience(const struct bench *bench);
// Gives up what is not done.
void bench_labels_stop(struct bench *bench);

#endif
