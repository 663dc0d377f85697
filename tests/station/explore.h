#ifndef EXPLORE_H
#define EXPLORE_H

// Every event sequence to a depth, breadth first, states told apart by what can matter: times as
// what is left of them, entries by whether they stand, ids by whether they are used.

#include "laws.h"

#define EXPLORE_EVENTS 72

struct explore_limits {
    int depth;
    int faults;        // faults on one path
    size_t max_states; // stop and say so
    double seconds;
};

struct explore_report {
    int depth; // all sequences of this many events were tried
    size_t states;
    size_t transitions;
    double paths; // sequences of exactly that many events
    size_t restarts;
    size_t at_depth[64];
    bool complete;      // nothing new was found any more
    size_t logged;      // states in which a club was logged
    const char *broken; // NULL: the laws hold
    char path[4096];    // the events that broke it
};

void explore(const struct explore_limits *limits, struct explore_report *ret_report);

// The events that make sense here, faults among them while `faults` are left.
struct step {
    struct event event;
    int64_t ms;            // that pass before
    enum shop_fault fault; // set before the event
    bool full;             // the disk fills before the event
    bool lost;             // the next lookup fails
    bool restart;          // instead of an event
    bool changed;          // the desk changes the order before the event
    bool is_fault;
};
size_t explore_steps(const struct station *station, const struct view *view, bool faults,
                     struct step *steps, size_t max);
void explore_apply(const struct step *step, struct station *station, struct shop *shop);
void explore_name(const struct step *step, char *buffer, size_t size);

#endif
