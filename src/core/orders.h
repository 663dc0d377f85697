#ifndef ORDERS_H
#define ORDERS_H

// What the desk may do with orders, by rule: lengths of a new one, a copy of an earlier one, what
// of a club may still be changed, and what a bench must be told of. Pure functions.

#include "change.h"
#include "entry.h"

// Playing lengths of clubs one after another, each shorter by `step` than the one before (common
// practice: half an inch in a set of irons). A negative step makes them longer. False, and nothing
// written, when one would be no club's, 10 to 70 in (entry_final_length).
bool order_lengths(length_nm start, length_nm step, size_t count, length_nm *ret_lengths);

// The change that makes the order `build` itself: of sheet `orders`, a draft without reference and
// note. Its clubs come after it. False: no name of a build.
bool order_make(const char *build, struct change *ret_change);

// The change that makes the same club in the order `build`: of sheet `builds`, from its document
// `line`. Head and shaft are left out, and so is the day it is due. `model` and `flex` of the shaft
// it had become what is wished for; empty: what it wished. False: the line was cancelled, or
// something does not fit.
bool order_copy(const struct document *line, const char *build, const char *model, const char *flex,
                struct change *ret_change);

// What of a change of a club (sheet `builds`) comes too late: the name of the first such cell, or
// NULL. Once the tip mark was shown the parts stay and the club cannot be cancelled. Once its tip
// is cut step, uniform_flex, given_trim and the wish stay too; once its butt is cut playing_length,
// grip_cap and extension. A club that is done stays as it is. `cut`: its shaft is not raw any more.
const char *order_too_late(const struct change *change, const struct progress *progress, bool cut);

// Whether a bench must hear of a change once something of the order is begun: not of rack, lot,
// reference, priority and due alone.
bool order_change_tells(const struct change *change);

// How many of a model to order so that `wanted` lie there when all that is needed is taken; 0 while
// no less than `least` would be left.
int64_t order_again(int64_t free, int64_t needed, int64_t least, int64_t wanted);

// Whether what is left of a shaft is long enough for another club: the finished length, and what
// its plan trims off the tip. False when one of them is not known.
bool order_offcut_fits(length_nm remaining, length_nm finished, length_nm tip_trim);

#endif
