// What a plan needs a supervisor for: a column for a head no column fits, a shim, a trim for want
// of a chart, an extension of a butt that is too short (R1, R8, R7).

#include "station_inner.h"
#include "text.h"

#include <string.h>

bool consent_for(const struct station *s, const struct plan *plan, enum consent *ret_consent) {
    enum plan_code code = plan->refusal.code;
    if (code == PLAN_F_BEYOND_COLUMNS || code == PLAN_F_PICK_UNKNOWN) {
        *ret_consent = CONSENT_COLUMN;
    } else if (code == PLAN_F_TIP_SMALL) {
        *ret_consent = CONSENT_SHIM;
    } else if (code == PLAN_F_NO_CHART || code == PLAN_F_CELL_EMPTY) {
        *ret_consent = CONSENT_TRIM;
    } else if (code == PLAN_F_TOO_SHORT_SHAFT &&
               plan->refusal.a <= s->settings.rules.extension_max) {
        *ret_consent = CONSENT_EXTENSION;
    } else {
        return false;
    }
    return true;
}

void consent_open(struct station *s) {
    struct plan_input input;
    struct plan plan;
    enum consent consent;
    memset(&s->number, 0, sizeof s->number);
    cutting_plan(s, &input, &plan);
    if (consent_for(s, &plan, &consent) && consent == CONSENT_TRIM) {
        s->number.kind = NUMBER_GIVEN_TRIM;
        s->number.field_count = 1;
    }
    station_move(s, STATION_CONSENT);
}

static void agree(struct station *s, enum consent consent, const char *note) {
    struct entry entry = save_entry(s, ENTRY_CONSENT);
    SET(entry.worker, s->supervisor.badge);
    SET(entry.cause, consent_text(consent));
    SET(entry.note, note);
    memset(&s->supervisor, 0, sizeof s->supervisor);
    save_begin(s, &entry, THEN_REPLAN);
}

void consent_choose(struct station *s, int64_t index) {
    struct plan_input input;
    struct plan plan;
    enum consent consent;
    cutting_plan(s, &input, &plan);
    if (!consent_for(s, &plan, &consent)) {
        return;
    }
    if (consent == CONSENT_SHIM || consent == CONSENT_EXTENSION) {
        agree(s, consent, "");
    } else if (consent == CONSENT_COLUMN && index >= 0 && index < (int64_t)s->club.chart.count) {
        agree(s, consent, s->club.chart.column[index].name);
    }
}

// In inches, whatever the bench shows, so that the log reads the same everywhere.
void consent_trim(struct station *s, length_nm trim) {
    char figure[LENGTH_TEXT_MAX];
    char note[LENGTH_TEXT_MAX + 4];
    struct text text = text_open(note, sizeof note);
    length_text_short(trim, figure);
    text_add(&text, figure);
    text_add(&text, " in");
    agree(s, CONSENT_TRIM, note);
}
