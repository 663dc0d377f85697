#ifndef BENCH_PRACTICE_H
#define BENCH_PRACTICE_H

// Practice at the bench. The real bench makes a copy of its database by a process of its own and
// then becomes `kerfside practice`, which has that copy open and nothing else; at its end that
// becomes the bench again. So there is no moment at which one process has both.
//
// What only practice may do (a ticket touched on the screen counts as scanned, a disk that refuses
// on purpose) hangs on the mark inside the database that is open, and on nothing else.

#include "child.h"
#include "desk.h"
#include "lesson.h"
#include "store.h"

struct bench;

// Why the bench ends by itself.
enum bench_leaves {
    BENCH_STAYS,
    BENCH_TO_PRACTICE,
    BENCH_TO_TOUR,
    BENCH_TO_WORK,   // practice is over
    BENCH_AGAIN,     // to start again, with other settings
    BENCH_POWER_LOST // in practice: ends without closing the database, and starts again
};

// How a bench that practises begins.
struct bench_begins {
    bool tour;
    const char *badge;  // shown to be touched, NULL: one of the shop's
    const char *resume; // of lesson_write, after the power was cut; NULL: from the beginning
};

struct bench_practice {
    bool on;     // this bench practises
    bool unused; // nothing was ever cut at this one: the tour is offered
    bool signed_on;
    enum bench_leaves leaves;
    char badge[TICKET_TEXT_MAX];
    struct lesson lesson;
    const char *program; // this one
    struct child child;  // makes the copy
};

// After bench_init. `program` must outlive it.
void bench_practice_init(struct bench *bench, const struct bench_begins *begins,
                         const char *program);

// From the desk: begins the copy, or the tour at once. False: the message says why not.
bool bench_practice_ask(struct bench *bench, bool tour, struct desk_said *ret_said);

// True: this event was for practice, or for the tour, and nobody else takes it.
bool bench_practice_event(struct bench *bench, const struct event *event);
// After any event. True: the view may have changed.
bool bench_practice_look(struct bench *bench, const struct event *event);
// Puts what practice has to say into bench->view.
void bench_practice_view(struct bench *bench);

// Hears of the copy. True when there is news.
bool bench_practice_tick(struct bench *bench);
// How long nothing is due, in microseconds; -1 for ever.
int64_t bench_practice_patience(const struct bench *bench);
// Waits for the copy, if one is being made: for scripts, whose clock stands still meanwhile.
void bench_practice_wait(struct bench *bench);
// At the end of the bench: gives the copy up, and signs off who goes practising.
void bench_practice_stop(struct bench *bench);

// The club of `bench` that is half cut, "2041-3", because of which nobody may practise now; false:
// there is none.
bool bench_practice_barred(struct store *store, const char *bench, char *ret_club, size_t size);

// --- bench_lessons.c: parts for a lesson ---------------------------------------------------------
// `resumes`: of a lesson that goes on after the power was cut.
void bench_lessons_pick(struct bench *bench, bool resumes, struct lesson_parts *ret_parts);

// The bench ends and starts again, as its settings ask for. False, and *ret_said says why: not now.
bool bench_practice_again(struct bench *bench, struct desk_said *ret_said);

#endif
