// The life of a club at the saw: one table of what is allowed where, one function that moves.
//
//   entry        allowed at                          moves to
//   TIP_SHOWN    PENDING, TIP_SHOWN                  TIP_SHOWN, the club is this bench's
//   TIP_PARTIAL  TIP_SHOWN                           stays, tip_made = made
//   TIP_CUT      TIP_SHOWN                           TIP_CUT; past the mark: DECISION
//   BUTT_SHOWN   PENDING, TIP_CUT, BUTT_SHOWN        BUTT_SHOWN, the club is this bench's
//   BUTT_CUT     BUTT_SHOWN                          BUTT_CUT
//   MEASURE      BUTT_CUT, and with cause            in: DONE; long: stays; short: DECISION
//                no_butt_cut PENDING, TIP_CUT,
//                BUTT_SHOWN
//   WITHDRAW     tip cut: TIP_CUT, BUTT_SHOWN,       TIP_SHOWN
//                DECISION about it
//                butt cut: BUTT_CUT                  BUTT_SHOWN
//                measure: DONE, DECISION about it    BUTT_CUT, or TIP_CUT or PENDING when
//                                                    no butt was cut
//   DECIDE       DECISION about what it refers to    use: TIP_CUT after a tip cut, else DONE
//                                                    recut, scrap: PENDING, all forgotten
//   KIT          PENDING                             stays
//   FINAL_...    DONE                                stays
//
// A club in work is one bench's: from another bench all but the last three is refused.

#include "entry.h"

#include <string.h>

#define AT(stage) (1u << STAGE_##stage)

static const unsigned allowed[ENTRY_KIND_COUNT] = {
    [ENTRY_TIP_SHOWN] = AT(PENDING) | AT(TIP_SHOWN),
    [ENTRY_TIP_PARTIAL] = AT(TIP_SHOWN),
    [ENTRY_TIP_CUT] = AT(TIP_SHOWN),
    [ENTRY_BUTT_SHOWN] = AT(PENDING) | AT(TIP_CUT) | AT(BUTT_SHOWN),
    [ENTRY_BUTT_CUT] = AT(BUTT_SHOWN),
    [ENTRY_MEASURE] = AT(BUTT_CUT) | AT(PENDING) | AT(TIP_CUT) | AT(BUTT_SHOWN),
    [ENTRY_WITHDRAW] = AT(TIP_CUT) | AT(BUTT_SHOWN) | AT(BUTT_CUT) | AT(DECISION) | AT(DONE),
    [ENTRY_DECIDE] = AT(DECISION),
    [ENTRY_KIT] = AT(PENDING),
    [ENTRY_FINAL_LENGTH] = AT(DONE),
    [ENTRY_FINAL_SWINGWEIGHT] = AT(DONE),
    [ENTRY_FINAL_FREQUENCY] = AT(DONE),
    [ENTRY_FINAL_LOFT] = AT(DONE),
    [ENTRY_FINAL_LIE] = AT(DONE),
};

static void show(struct progress *progress, const struct entry *entry, enum stage stage) {
    progress->stage = stage;
    memcpy(progress->bench, entry->bench, sizeof progress->bench);
}

static bool tip_cut(struct progress *progress, const struct entry *entry) {
    if (entry->made == LENGTH_UNKNOWN) {
        return false;
    }
    progress->tip_made = entry->made;
    progress->tip_seq = entry->seq;
    progress->stage = STAGE_TIP_CUT;
    if (entry->verdict == VERDICT_SHORT) {
        progress->stage = STAGE_DECISION;
        progress->decision_seq = entry->seq;
    }
    return true;
}

static bool measure(struct progress *progress, const struct entry *entry) {
    bool no_butt_cut = entry->planned != LENGTH_UNKNOWN && strcmp(entry->cause, "no_butt_cut") == 0;
    if (entry->verdict == VERDICT_NONE || (progress->stage != STAGE_BUTT_CUT && !no_butt_cut)) {
        return false;
    }
    if (entry->verdict == VERDICT_LONG) {
        return true; // cut again, measure again
    }
    progress->measure_seq = entry->seq;
    progress->stage = STAGE_DONE;
    if (entry->verdict == VERDICT_SHORT) {
        progress->stage = STAGE_DECISION;
        progress->decision_seq = entry->seq;
    }
    return true;
}

// Where a club stands whose measure does not count.
static enum stage unmeasured(const struct progress *progress) {
    if (progress->butt_seq != 0) {
        return STAGE_BUTT_CUT;
    }
    return progress->tip_seq != 0 ? STAGE_TIP_CUT : STAGE_PENDING;
}

static bool withdraw(struct progress *progress, const struct entry *entry) {
    int64_t refers = entry->refers;
    enum stage stage = progress->stage;
    bool decision = stage == STAGE_DECISION;
    if (refers == 0 || (decision && refers != progress->decision_seq)) {
        return false;
    }
    if (refers == progress->tip_seq &&
        (decision || stage == STAGE_TIP_CUT || stage == STAGE_BUTT_SHOWN)) {
        progress->stage = STAGE_TIP_SHOWN;
        progress->tip_made = LENGTH_UNKNOWN;
        progress->tip_seq = 0;
    } else if (refers == progress->butt_seq && stage == STAGE_BUTT_CUT) {
        progress->stage = STAGE_BUTT_SHOWN;
        progress->butt_seq = 0;
    } else if (refers == progress->measure_seq && (decision || stage == STAGE_DONE)) {
        progress->stage = unmeasured(progress);
        progress->measure_seq = 0;
    } else {
        return false;
    }
    progress->decision_seq = 0;
    progress->attempt++;
    return true;
}

static bool decide(struct progress *progress, const struct entry *entry) {
    if (entry->refers == 0 || entry->refers != progress->decision_seq) {
        return false;
    }
    if (strcmp(entry->cause, "use") == 0) {
        progress->stage = progress->decision_seq == progress->tip_seq ? STAGE_TIP_CUT : STAGE_DONE;
        progress->decision_seq = 0;
        return true;
    }
    if (strcmp(entry->cause, "recut") == 0 || strcmp(entry->cause, "scrap") == 0) {
        *progress =
            (struct progress){.stage = STAGE_PENDING, .attempt = 1, .tip_made = LENGTH_UNKNOWN};
        return true;
    }
    return false;
}

static bool move(struct progress *progress, const struct entry *entry) {
    switch (entry->kind) {
    case ENTRY_TIP_SHOWN:
        show(progress, entry, STAGE_TIP_SHOWN);
        return true;
    case ENTRY_TIP_PARTIAL:
        if (entry->made == LENGTH_UNKNOWN) {
            return false;
        }
        progress->tip_made = entry->made;
        return true;
    case ENTRY_TIP_CUT:
        return tip_cut(progress, entry);
    case ENTRY_BUTT_SHOWN:
        show(progress, entry, STAGE_BUTT_SHOWN);
        return true;
    case ENTRY_BUTT_CUT:
        progress->butt_seq = entry->seq;
        progress->stage = STAGE_BUTT_CUT;
        return true;
    case ENTRY_MEASURE:
        return measure(progress, entry);
    case ENTRY_WITHDRAW:
        return withdraw(progress, entry);
    case ENTRY_DECIDE:
        return decide(progress, entry);
    case ENTRY_FINAL_LENGTH:
        return entry->made != LENGTH_UNKNOWN;
    case ENTRY_FINAL_SWINGWEIGHT:
    case ENTRY_FINAL_FREQUENCY:
    case ENTRY_FINAL_LOFT:
    case ENTRY_FINAL_LIE:
    case ENTRY_KIT:
        return true;
    case ENTRY_GENESIS:
    case ENTRY_SIGN_ON:
    case ENTRY_SIGN_OFF:
    case ENTRY_CARE:
    case ENTRY_HOLD:
    case ENTRY_DRY_FIT:
    case ENTRY_CONSENT:
    case ENTRY_PIN:
    case ENTRY_IMPORT:
    case ENTRY_EXPORT:
    case ENTRY_DAY_SIGNED:
    case ENTRY_CHANGE:
    case ENTRY_TOLD:
    case ENTRY_SETTINGS:
    case ENTRY_RESTORED:
    case ENTRY_NOTE:
    case ENTRY_KIND_COUNT:
        break;
    }
    return false;
}

// Supervisors decide, choose and measure anywhere.
static bool from_anywhere(enum entry_kind kind) {
    return kind == ENTRY_DECIDE || kind == ENTRY_KIT || kind == ENTRY_FINAL_LENGTH ||
           kind == ENTRY_FINAL_SWINGWEIGHT || kind == ENTRY_FINAL_FREQUENCY ||
           kind == ENTRY_FINAL_LOFT || kind == ENTRY_FINAL_LIE;
}

bool stage_advance(struct progress *progress, const struct entry *entry) {
    bool elsewhere = progress->bench[0] != '\0' && strcmp(progress->bench, entry->bench) != 0;
    struct progress next = *progress;
    if (allowed[entry->kind] == 0) {
        return true; // about no stage
    }
    if ((allowed[entry->kind] & 1u << progress->stage) == 0 || entry->seq <= 0 ||
        (elsewhere && !from_anywhere(entry->kind)) || !move(&next, entry)) {
        return false;
    }
    *progress = next;
    return true;
}
