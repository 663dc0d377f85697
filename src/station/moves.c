// One table of what may follow what, one function that moves.

#include "station_inner.h"

#include <string.h>

#define TO(name) (1u << STATION_##name)
// SELFCHECK is home while the log cannot be trusted.
#define HOME (TO(READY) | TO(SIGNED_OUT) | TO(SELFCHECK) | TO(HOLD))
#define CUTS (TO(RESUME) | TO(TIP_CUT) | TO(BUTT_CUT) | TO(MEASURE) | TO(MISCUT))

static const unsigned moves[STATION_STATE_COUNT] = {
    [STATION_SIGNED_OUT] = TO(READY) | TO(HOLD) | TO(SELFCHECK),
    [STATION_READY] =
        TO(SIGNED_OUT) | TO(PAIR) | TO(PIN) | TO(CHECK) | TO(DESK) | TO(HOLD) | TO(SELFCHECK),
    [STATION_PAIR] = HOME | TO(DRY_FIT) | TO(CARE) | CUTS,
    [STATION_DRY_FIT] = HOME | TO(CARE) | CUTS,
    [STATION_CARE] = HOME | TO(DRY_FIT) | CUTS,
    [STATION_RESUME] = HOME | TO(TIP_CUT) | TO(BUTT_CUT) | TO(MISCUT),
    [STATION_TIP_CUT] = HOME | TO(BUTT_CUT) | TO(MEASURE),
    [STATION_BUTT_CUT] = HOME | TO(DRY_FIT) | TO(MEASURE),
    [STATION_MEASURE] = HOME | TO(BUTT_CUT) | TO(LOGGED),
    [STATION_LOGGED] = HOME | TO(PAIR),
    [STATION_HOLD] = HOME | TO(PAIR) | TO(DRY_FIT) | TO(CARE) | CUTS | TO(LOGGED) | TO(PIN) |
                     TO(CONSENT) | TO(REVIEW) | TO(SET) | TO(FINAL) | TO(CHECK) | TO(DESK),
    [STATION_MISCUT] = HOME | CUTS,
    [STATION_PIN] = HOME | TO(CONSENT) | TO(REVIEW) | TO(DESK),
    [STATION_CONSENT] = HOME | TO(DRY_FIT) | TO(CARE) | CUTS,
    [STATION_REVIEW] = HOME | TO(SET),
    [STATION_SET] = HOME | TO(REVIEW) | TO(FINAL),
    [STATION_FINAL] = HOME | TO(SET),
    [STATION_CHECK] = HOME,
    [STATION_DESK] = HOME | TO(PIN),
    [STATION_SELFCHECK] = HOME,
};

static const char *const names[STATION_STATE_COUNT] = {
#define X(name) #name,
    STATION_STATES(X)
#undef X
};

const char *station_state_name(enum station_state state) {
    return names[state];
}

bool station_may_move(enum station_state from, enum station_state to) {
    return (moves[from] & 1u << to) != 0;
}

void station_move(struct station *s, enum station_state to) {
    if (s->state == to) {
        return;
    }
    if (!station_may_move(s->state, to)) {
        struct hold hold = hold_make(s, HOLD_ILLEGAL_MOVE);
        hold.start_over = true;
        hold_line(&hold, WORD_HOLD_MOVE_LINE, names[s->state], names[to], NULL);
        hold_todo(&hold, WORD_DO_MEASURE_FIRST, NULL, NULL, NULL);
        hold_todo(&hold, WORD_DO_START_OVER, NULL, NULL, NULL);
        hold_show(s, &hold);
        return;
    }
    if (s->state == STATION_HOLD) {
        memset(&s->hold, 0, sizeof s->hold);
    }
    day_stop(s); // a stop that comes between
    s->state = to;
    s->picked = 0;
    s->entered_ms = station_now(s);
    station_dead_time(s);
}
