#ifndef FIXTURES_H
#define FIXTURES_H

// Views made by hand, one of each kind and some at their longest, for drawing without a bench.

#include "view.h"

struct fixture {
    const char *name;
    void (*make)(struct view *view);
};
extern const struct fixture fixtures[];
extern const size_t fixture_count;

// Every text 30 percent longer, as another language may be.
void fixture_stretch(struct view *view);

#endif
