#ifndef ESTIMATE_TEXT_H
#define ESTIMATE_TEXT_H

// Estimates in words: what the plan's corrections do to the flex, and what the club comes out at.
// Every line says that it is an estimate; what is not known makes no line. What goes into the log
// is English; estimate_reword shows it.

#include "estimate.h"
#include "text.h"

#define ESTIMATE_LINES_MAX 4
#define ESTIMATE_TEXT_MAX 120
struct estimate_lines {
    size_t count;
    char line[ESTIMATE_LINES_MAX][ESTIMATE_TEXT_MAX];
};

// Appends one of the English lines of this header, in the shop's language; a line that is none of
// them (older, or damaged) as it is, and false.
bool estimate_reword(struct text *text, const char *source);

// `input` and `plan` as club_plan made them. Empty for a refused plan.
void estimate_say(const struct club *club, const struct plan_input *input, const struct plan *plan,
                  const struct assembly *assembly, struct estimate_lines *ret_lines);

// What a tip cut off its mark does to the flex, `As cut: about 1.1 cpm stiffer (estimate)`; what a
// cut shaft of another length than planned does to the balance, `As measured: swingweight about
// D0.4, planned D1.8 (estimate)`. Empty when not known. `plan` is the one the mark came from.
void estimate_say_tip(const struct club *club, const struct plan *plan, length_nm made,
                      char buffer[ESTIMATE_TEXT_MAX]);
void estimate_say_length(const struct club *club, const struct plan *plan,
                         const struct assembly *assembly, length_nm made,
                         char buffer[ESTIMATE_TEXT_MAX]);

// `about 1.1 cpm stiffer`, `about 0.4 cpm softer`, `less than 0.1 cpm`. False, and an empty text,
// when not known. In the shop's language.
bool estimate_change_text(const struct estimate_value *change, char buffer[ESTIMATE_TEXT_MAX]);

#endif
