#ifndef PLAN_TIP_H
#define PLAN_TIP_H

// The tip half of the cut plan, rules R1 to R6 and the tip's part of R9, and how lines are added.
// Only for plan.c; everything else calls plan_make.

#include "plan.h"

// Sets tip_trim, tip_mark, column and the lines of *plan. False when it refused.
bool plan_tip(const struct plan_input *in, struct plan *plan);

void plan_reason(struct plan *plan, enum plan_code code, length_nm amount, int64_t a, int64_t b);
void plan_warn(struct plan *plan, enum plan_code code, int64_t a, int64_t b);

// Always false, so that a rule can `return plan_refuse(...)`.
bool plan_refuse(struct plan *plan, enum plan_code code, int64_t a, int64_t b);

#endif
