// What a plan needs a supervisor for: a column for a head no column fits, or a shim (R1, R8).

#include "station_inner.h"

#include <string.h>

void consent_choose(struct station *s, int64_t index) {
    struct plan_input input;
    struct plan plan;
    struct entry entry = save_entry(s, ENTRY_CONSENT);
    SET(entry.worker, s->supervisor.badge);
    cutting_plan(s, &input, &plan);
    if (plan.refusal.code == PLAN_F_TIP_SMALL) {
        SET(entry.cause, "shim");
    } else if (index >= 0 && index < (int64_t)s->club.chart.count) {
        SET(entry.cause, "column");
        SET(entry.note, s->club.chart.column[index].name);
    } else {
        return;
    }
    memset(&s->supervisor, 0, sizeof s->supervisor);
    save_begin(s, &entry, THEN_REPLAN);
}
