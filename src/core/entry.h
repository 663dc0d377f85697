#ifndef ENTRY_H
#define ENTRY_H

// One entry of the cut log: a fact, written once and never changed. A correction is a new entry
// that refers to the old one. Entries are ordered by `seq`, never by time.
//
// Pure: the encoding is here, the hash over it (SHA-256) is taken by the store.

#include "plan.h"

#include <stdint.h>

// name, stable word in the log
#define ENTRY_KINDS(X)                                                                             \
    X(GENESIS, "genesis") /* first entry: bench in `bench`, incarnation in `note` */               \
    X(SIGN_ON, "sign_on")                                                                          \
    X(SIGN_OFF, "sign_off")                                                                        \
    X(CARE, "care")               /* care reminder confirmed; cause = material */                  \
    X(TIP_SHOWN, "tip_shown")     /* tip mark came on the screen: the club is this bench's now */  \
    X(TIP_PARTIAL, "tip_partial") /* cut short of the mark; made = cut off so far */               \
    X(TIP_CUT, "tip_cut")         /* planned = mark, made = cut off; verdict short = past mark */  \
    X(BUTT_SHOWN, "butt_shown")                                                                    \
    X(BUTT_CUT, "butt_cut") /* planned = mark */                                                   \
    X(MEASURE, "measure")   /* planned = butt mark, made = measured length, verdict */             \
    X(WITHDRAW, "withdraw") /* refers = the tip_cut, butt_cut or measure pressed too early */      \
    X(HOLD, "hold")         /* cause says why; no stage moves */                                   \
    X(DRY_FIT, "dry_fit")   /* planned = overall, made = bore height found */                      \
    X(CONSENT, "consent")   /* supervisor; cause column, shim, trim or extension; note = column,   \
                               or the trim as `1 1/2 in` */                                        \
    X(DECIDE, "decide")     /* supervisor; refers; cause use, recut or scrap; recut: note's        \
                               first word is the new shaft's ticket */                             \
    X(PIN, "pin")           /* cause: refused, accepted, waiting, set, locked, recovered; unlocked \
                               or withdrawn: note = the badge this was done to */                  \
    X(IMPORT, "import")     /* note: files and row counts */                                       \
    X(EXPORT, "export")                                                                            \
    X(FINAL_LENGTH, "final_length") /* measured on the assembled club, as the next four; planned = \
                                       playing length, made = measured, cause = rules or ruler */  \
    X(FINAL_SWINGWEIGHT, "final_swingweight") /* note: `D2.3` */                                   \
    X(FINAL_FREQUENCY, "final_frequency")     /* note: `261.5`, cycles a minute */                 \
    X(FINAL_LOFT, "final_loft")               /* note: `58.5`, degrees */                          \
    X(FINAL_LIE, "final_lie")                 /* the same */                                       \
    X(KIT, "kit")               /* supervisor; this shaft from stock is the club's now */          \
    X(DAY_SIGNED, "day_signed") /* supervisor; note: checkpoint_short of all before this entry */  \
    X(CHANGE, "change") /* of what the shop knows, at the desk; plan: change_write; refers = the   \
                           change it takes back, 0 none */                                         \
    X(RESTORED, "restored") /* a copy was put back; note: how many entries it goes on from, and    \
                               what it took the place of */                                        \
    X(NOTE, "note") /* supervisor; note: words about the entry it refers to; names the club and    \
                       parts that one names; cause ENTRY_ACCEPTED: that measured value is used all \
                       the same */                                                                 \
    X(TOLD, "told") /* a bench was told that its order was changed; refers = the newest change */  \
    X(SETTINGS,                                                                                    \
      "settings") /* of this bench; cause: desk, or file when the file was changed; note:          \
                     `[bench] mark_step = 1/32, was 1/16` */
enum entry_kind {
#define X(name, text) ENTRY_##name,
    ENTRY_KINDS(X)
#undef X
        ENTRY_KIND_COUNT
};

#define ENTRY_ACCEPTED "accepted"

#define ENTRY_BENCH_MAX 24
#define ENTRY_CAUSE_MAX 24
#define ENTRY_NOTE_MAX 400
#define ENTRY_PLAN_MAX 4096
#define ENTRY_BOOT_MAX 40
#define CONFIRM_ID_MAX 33 // 128 random bits in small hexadecimal + NUL

struct entry {
    int64_t seq; // set by the store
    enum entry_kind kind;
    int64_t wall_ms; // Unix time; for people, never for order
    int64_t mono_ms; // since boot
    char boot[ENTRY_BOOT_MAX];
    char bench[ENTRY_BENCH_MAX];
    char worker[TICKET_TEXT_MAX]; // badge, empty when nobody is signed on
    int64_t club_id;              // 0: about no club
    char build[PARTS_BUILD_MAX];
    char club[PARTS_SHORT_MAX];
    char head[TICKET_TEXT_MAX];
    char shaft[TICKET_TEXT_MAX];
    char confirm_id[CONFIRM_ID_MAX]; // UNIQUE in the log, made before the entry is tried
    int attempt;                     // of the cut on this shaft, from 1; 0 for other kinds
    int64_t refers;                  // seq of the entry this one is about, 0 none
    length_nm planned;               // LENGTH_UNKNOWN when it has none
    length_nm made;
    enum verdict verdict;
    char cause[ENTRY_CAUSE_MAX];
    char note[ENTRY_NOTE_MAX];
    int64_t chart_revision;
    char plan[ENTRY_PLAN_MAX]; // record.h text: the plan as it was shown, empty for other kinds
};

// An empty entry of `kind` with every length unknown.
struct entry entry_init(enum entry_kind kind);

const char *entry_kind_text(enum entry_kind kind);
bool entry_kind_from_text(const char *text, enum entry_kind *ret);

// Tenths of a cycle a minute as people write them, `305`, `261.5`; the note of a final_frequency.
// False on anything else, and outside 50 to 600; *ret_frequency untouched then.
bool entry_frequency(const char *text, frequency_dcpm *ret_frequency);

// Thousandths of a degree, `58`, `58.5`; the note of a final_loft or final_lie. False on anything
// else, finer than a tenth, and outside 0 to 75 of loft, 45 to 80 of lie (common practice, no
// source).
bool entry_angle(enum entry_kind kind, const char *text, int64_t *ret_angle);

// What a supervisor agrees to at the bench when there is no plan otherwise; the cause of a consent.
#define CONSENTS(X)                                                                                \
    X(COLUMN, "column")       /* of the chart, named in the note (R1) */                           \
    X(SHIM, "shim")           /* a smaller tip in this bore (R8) */                                \
    X(TRIM, "trim")           /* instead of the chart's, in the note */                            \
    X(EXTENSION, "extension") /* of a butt that is too short (R7) */
enum consent {
#define X(name, text) CONSENT_##name,
    CONSENTS(X)
#undef X
        CONSENT_COUNT
};
const char *consent_text(enum consent consent);
bool consent_from_text(const char *text, enum consent *ret);

// What is to be cut off a tip, `1 1/2`, `1 1/2 in`, `38.1 mm`, 0 to 80 in; the note of a consent to
// a trim. False on anything else; *ret_trim untouched then.
bool entry_trim(const char *text, length_nm *ret_trim);

// Whether a club can be that long, 10 to 70 in (common practice, no source: a child's first club to
// a broom putter or long drive).
bool entry_final_length(length_nm length);

#define ENTRY_HASH_SIZE 32
#define ENTRY_ENCODED_MAX (ENTRY_PLAN_MAX + ENTRY_NOTE_MAX + 1024)

// Canonical bytes to be hashed: "kerfside/log/1" NUL, the previous hash, then every field in the
// order of the struct, each as an 8-byte big-endian length and its bytes; numbers as 8-byte
// big-endian two's complement; enums by their stable word. Returns the size, at most
// ENTRY_ENCODED_MAX. Two entries that differ in any field encode differently.
size_t entry_encode(const struct entry *entry, const uint8_t previous[ENTRY_HASH_SIZE],
                    uint8_t buffer[ENTRY_ENCODED_MAX]);

// --- the life of a club at the saw -------------------------------------------------------------
//
//  PENDING -> TIP_SHOWN -> TIP_CUT -> BUTT_SHOWN -> BUTT_CUT -> DONE
//                |  ^        |            ^            |
//                +--+        +-> DECISION +            +-> DECISION
//             (partial)   (past the mark)           (measured short)
//
// A plan without a tip cut goes from PENDING to BUTT_SHOWN, one without a butt cut from TIP_CUT
// (or PENDING) by its measure. A withdrawal goes one cut back. A kit names the shaft of a PENDING
// club, final values are measured on a DONE one; neither moves it.
#define STAGES(X)                                                                                  \
    X(PENDING, "pending")                                                                          \
    X(TIP_SHOWN, "tip_shown")                                                                      \
    X(TIP_CUT, "tip_cut")                                                                          \
    X(BUTT_SHOWN, "butt_shown")                                                                    \
    X(BUTT_CUT, "butt_cut")                                                                        \
    X(DECISION, "decision")                                                                        \
    X(DONE, "done")
enum stage {
#define X(name, text) STAGE_##name,
    STAGES(X)
#undef X
        STAGE_COUNT
};
const char *stage_text(enum stage stage);
bool stage_from_text(const char *text, enum stage *ret);

// What the store keeps of a club besides its order line; moved only by stage_advance.
struct progress {
    enum stage stage;
    int attempt;        // of the shaft's next cut of its kind, from 1
    length_nm tip_made; // cut off so far, LENGTH_UNKNOWN before any cut
    int64_t tip_seq;    // entry of the tip cut that stands, 0 none
    int64_t butt_seq;
    int64_t measure_seq;
    int64_t decision_seq;        // entry a supervisor must decide on, 0 none
    char bench[ENTRY_BENCH_MAX]; // whose job it is, empty: anybody's
};

// Moves *progress by `entry` (with its seq set). False, and nothing moved, when the entry is not
// allowed at this stage: a second tip cut, a cut on another bench's club, a withdrawal of a cut
// that does not stand, a decision on the wrong entry. Kinds about no stage always pass unmoved.
// The store calls it inside the transaction that appends, so the rule holds for every writer.
bool stage_advance(struct progress *progress, const struct entry *entry);

#endif
