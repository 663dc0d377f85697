#ifndef SPREAD_H
#define SPREAD_H

// How much the parts of a delivery spread about their model's figure: in words and as a plot.

#include "office_inner.h"
#include "workshop.h"

// The parts of a delivery that are looked at; of a larger one the first by ticket.
#define SPREAD_MAX 1000

struct spread {
    bool heads; // else shafts
    const char *title;
    const char *unit;
    int decimals;
    double least; // of what a plot shows, so that a hair does not look like a fault
    size_t count;
    double value[SPREAD_MAX];
    size_t off;        // of them out of family
    ptrdiff_t worst;   // the furthest of those, -1 none
    bool figure_known; // the catalogue's
    double figure;
    double limit;   // on both sides of it, 0: none
    bool now_known; // one that is not among them yet
    double now;
};

// The heads or shafts of a delivery; -1: the database cannot be read.
int spread_parts(struct office *office, const char *lot, enum ticket_kind kind,
                 struct lot_part parts[SPREAD_MAX]);

enum spread_of { SPREAD_WEIGHT, SPREAD_LENGTH };
// What was measured of parts of one model, against the catalogue's figure, MASS_UNKNOWN or
// LENGTH_UNKNOWN if it has none.
void spread_fill(const struct office *office, enum spread_of of, bool heads, const char *model,
                 int64_t catalogue, const struct lot_part *parts, int count,
                 struct spread *ret_spread);
// One more that is measured just now; not known: none.
void spread_now(const struct office *office, enum spread_of of, int64_t value,
                struct spread *spread);
// The same of whatever models, each less its own model's figure.
void spread_differences(const struct office *office, enum spread_of of, bool heads,
                        const struct lot_part *parts, int count, struct spread *ret_spread);

bool spread_plot(const struct spread *spread, struct view_plot *ret_plot);
// `Weight of 14 heads: mean 203.4 g, standard deviation 0.84 g, 1 out of family.`; empty when there
// is none.
void spread_words(const struct spread *spread, char *buffer, size_t size);

// Whether that of a part is out of family.
bool spread_off(const struct lot_part *part, enum spread_of of);

#endif
