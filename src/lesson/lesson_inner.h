#ifndef LESSON_INNER_H
#define LESSON_INNER_H

// How the files of src/lesson call each other. Only for them.

#include "lesson.h"
#include "tongue.h"
#include "words.h"

// What *Do it for me* does.
enum lesson_does {
    DOES_NOTHING, // the next step
    DOES_SCAN,    // the first ticket offered
    DOES_PRESS,
    DOES_HOLD,
    DOES_ACTION,  // `action`
    DOES_PLANNED, // the planned length, and the press
    DOES_PAST,    // two marks past it, and the press
    DOES_POWER
};

// States as a set.
#define AT(name) (1u << STATION_##name)
#define ANYWHERE (~0u)

struct lesson_step {
    unsigned where;   // states that the caption is about
    const char *text; // what to do, and what will be seen
    enum lesson_offer offer[2];
    enum lesson_does does;
    enum view_action_id action;
    unsigned done;         // states it leads to
    enum hold_cause cause; // of HOLD; NONE: any
    bool refused;          // done when NOT LOGGED is on the screen
    bool refuses;          // the disk does, from here on
    bool page;             // a page of its own, not a caption
};

struct lesson_spec {
    const char *name;
    const char *title;
    const char *line; // what it is about
    const struct lesson_step *step;
    int count;
    unsigned needs; // bits of enum lesson_offer
};
const struct lesson_spec *lesson_spec(enum lesson_id id);

const struct lesson_step *lesson_at(const struct lesson *lesson); // NULL: none is running

#endif
