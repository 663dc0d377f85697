#ifndef LESSON_H
#define LESSON_H

// Lessons at a bench that practises: what to do next and what will be seen, step by step, a tick
// when it was done, and the tour, which is one more lesson. A pure machine beside the station: it
// looks at where the station has come to and says what stands above the view; it never moves the
// station by itself. What it offers to be touched (a shown ticket, *Do it for me*) comes back as
// events for the station, which only a bench that practises hands on.

#include "station.h"

enum lesson_id {
    LESSON_TOUR, // not in the list of lessons: it is offered by itself
    LESSON_CLUB,
    LESSON_WRONG_PAIR,
    LESSON_UNKNOWN,
    LESSON_TOO_EARLY,
    LESSON_MISCUT,
    LESSON_CUT_ALREADY,
    LESSON_NOT_LOGGED,
    LESSON_POWER_CUT,
    LESSON_COUNT
};

// Tickets a lesson shows; empty: there is none.
enum lesson_offer {
    OFFER_NONE,
    OFFER_BADGE,
    OFFER_HEAD,
    OFFER_SHAFT, // of the same club
    OFFER_OTHER, // a shaft of another club
    OFFER_UNKNOWN,
    OFFER_CUT, // a shaft that is cut
    OFFER_COUNT
};
struct lesson_parts {
    char ticket[OFFER_COUNT][TICKET_TEXT_MAX];
};

// Where the station stands.
struct lesson_seen {
    enum station_state state;
    enum hold_cause cause; // at HOLD
    enum station_saving saving;
};

struct lesson {
    bool list; // the list of lessons is open
    bool running;
    enum lesson_id id;
    int step;
    unsigned done;             // a bit for each lesson
    bool missing;              // the lesson that was chosen has no parts here
    enum station_state stands; // where the station stood last
    struct lesson_parts parts;
};

// Opens the list, or begins the tour.
void lesson_init(struct lesson *lesson, bool tour);

// What whoever has the bench must do about an event.
enum lesson_wish {
    LESSON_PASSES, // it is none of the lessons' business
    LESSON_TAKES,  // nothing more; the view may have changed
    LESSON_DOES,   // hand on `events`
    LESSON_BEGINS, // lay aside what is going on, pick parts, lesson_begin(ret_act->id)
    LESSON_CUTS,   // the power, now
    LESSON_ENDS    // back to the real bench
};
#define LESSON_EVENTS_MAX 2
struct lesson_act {
    enum lesson_id id;
    int count;
    struct event event[LESSON_EVENTS_MAX];
};
// `view` is the station's, as it is on the screen.
enum lesson_wish lesson_event(struct lesson *lesson, const struct event *event,
                              const struct view *view, struct lesson_act *ret_act);

// The lesson at its first step, with parts that the shop has. Without those it needs it stays in
// the list and says so.
void lesson_begin(struct lesson *lesson, enum lesson_id id, const struct lesson_parts *parts);

// The station has moved, or may have. True: the view may have changed.
bool lesson_look(struct lesson *lesson, const struct lesson_seen *seen);

// The disk must refuse what is saved now.
bool lesson_refuses(const struct lesson *lesson);

// Where it is, for a bench that is begun again after the power was cut: `8 4 13 H-0001A S-0001S`.
// False: this is no such text.
#define LESSON_TEXT_MAX 64
void lesson_write(const struct lesson *lesson, char buffer[LESSON_TEXT_MAX]);
bool lesson_read(struct lesson *lesson, const char *text);

// Puts the caption and what can be touched over the station's view, or the list in its place.
void lesson_view(const struct lesson *lesson, struct view *view);

// `wrong_pair`, for tests; NULL: there is none.
const char *lesson_name(enum lesson_id id);

#endif
