#ifndef EXPECT_H
#define EXPECT_H

// What the tests of the plan's rules ask of a sample club. Each fails the test when it is not so.

#include "sample.h"

// Plans it; only says whether the plan is valid.
bool expect_made(const struct sample *sample, struct plan *ret_plan);
bool expect_has(const struct plan_line *line, size_t count, enum plan_code code);

// A valid plan, with or without this warning.
void expect_warning(const struct sample *sample, enum plan_code code, bool expected);

// Refused for this, and no length is left to be read off.
void expect_refusal(const struct sample *sample, enum plan_code code);

// The exact tip trim of a valid plan.
length_nm expect_tip_trim(const struct sample *sample);

#endif
