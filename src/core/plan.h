#ifndef PLAN_H
#define PLAN_H

// The cut plan: from one head, one shaft, the shaft maker's chart and the order line to two marks,
// with the reasons in order, every warning, or a refusal that says what is missing and what to do.
//
// One pure function over plain structs; no allocation, no formatting (texts come from
// plan_line_text), so that a whole shop can be replanned in a blink. Rules R1 to R14 are set out
// in DEVELOPERS.md.

#include "parts.h"

struct plan_input {
    const struct head *head;
    const struct shaft *shaft;
    const struct shaft_model *model;
    const struct chart *chart;
    const struct order *order;
    const struct bench_rules *rules;
    length_nm tip_made; // LENGTH_UNKNOWN before the tip cut, else what was cut off the tip: only
                        // the butt cut is still open and is planned from this (R12, R13)
};

// Every line a plan can carry. R: reason, W: warning, F: refusal. The text of each stands in
// plan_text.c, beside what its arguments mean.
#define PLAN_CODES(X)                                                                              \
    X(R_COLUMN)               /* R1 nearest column by weight */                                    \
    X(R_COLUMN_PICKED)        /* R1 supervisor's pick */                                           \
    X(R_STEP)                 /* R5 */                                                             \
    X(R_BORE_ADD)             /* R3 whole bore height */                                           \
    X(R_BORE_REFERENCE)       /* R3 above the chart's reference */                                 \
    X(R_BORE_NONE)            /* R3 chart carries no note, or not for this head: adds nothing */   \
    X(R_UNIFORM)              /* R4 */                                                             \
    X(R_UNIFORM_IN_CHART)     /* R4 asked for, but the chart's note already does it */             \
    X(R_GIVEN)                /* a supervisor's trim instead of R1 to R5 */                        \
    X(R_TIP_CUT)              /* what is off an offcut's tip already */                            \
    X(R_ROUND)                /* R9 to the nearest mark */                                         \
    X(R_TIP_MADE)             /* R13 planned from what was cut off */                              \
    X(W_NOT_ENGRAVED)         /* R1 weighs like another number */                                  \
    X(W_ONE_COLUMN)           /* R1 chart has a single column, written for another weight */       \
    X(W_SHORTFALL)            /* R6 sum below zero */                                              \
    X(W_TIP_LIMIT_UNKNOWN)    /* R6 maker's maximum not known */                                   \
    X(W_TIP_SECTION_UNKNOWN)  /* R6 parallel section not known */                                  \
    X(W_BUTT_MAX)             /* R7 above the model's maximum butt trim */                         \
    X(W_EXTEND)               /* R7 too short, the butt is extended */                             \
    X(W_THROUGH)              /* R7 the shaft passes the sole */                                   \
    X(W_SHIM)                 /* R8 supervisor agreed to a shim */                                 \
    X(W_TOO_LONG)             /* R10 over 48 in */                                                 \
    X(W_TOO_LONG_46)          /* R10 over 46 in, local rule */                                     \
    X(W_TOO_SHORT)            /* R10 18 in and under */                                            \
    X(W_TIP_OFF_PLAN)         /* R13 tip already cut differs from what the plan asks now */        \
    X(F_NO_WEIGHT)            /* R1 */                                                             \
    X(F_NO_BORE_HEIGHT)       /* R7, never the model's figure */                                   \
    X(F_NO_RAW_LENGTH)        /* R7 */                                                             \
    X(F_NO_PLAYING_LENGTH)    /* R7 */                                                             \
    X(F_NO_GRIP_CAP)          /* R7 */                                                             \
    X(F_NO_INSERTION)         /* R6 */                                                             \
    X(F_NO_DIAMETER)          /* R8 */                                                             \
    X(F_NO_BORE_REFERENCE)    /* R3 */                                                             \
    X(F_NO_BORE_KIND)         /* R3 note spares bored-through heads */                             \
    X(F_BORE_RANGE)           /* R11 bore height outside 0 to 2 in */                              \
    X(F_NO_CHART)             /* R2 */                                                             \
    X(F_BEYOND_COLUMNS)       /* R1 */                                                             \
    X(F_PICK_UNKNOWN)         /* R1 */                                                             \
    X(F_CELL_EMPTY)           /* R2 */                                                             \
    X(F_STEP_OFF_END)         /* R5 */                                                             \
    X(F_TIP_MAX)              /* R6 */                                                             \
    X(F_TIP_SECTION)          /* R6 */                                                             \
    X(F_TAPER)                /* R6 */                                                             \
    X(F_TIP_OVERCUT)          /* R6 more is off an offcut's tip than is wanted */                  \
    X(F_TOO_SHORT_SHAFT)      /* R7 */                                                             \
    X(F_EXTENSION_MAX)        /* R7 shorter than an extension may make up for */                   \
    X(F_TIP_SMALL)            /* R8 */                                                             \
    X(F_TIP_LARGE)            /* R8 */                                                             \
    X(F_NO_UNIFORM_REFERENCE) /* R4 */                                                             \
    X(F_NOTHING_LEFT)         /* R7 */
enum plan_code {
    PLAN_NONE,
#define X(name) PLAN_##name,
    PLAN_CODES(X)
#undef X
        PLAN_CODE_COUNT
};

// One line of the receipt. `amount` is what it adds to the tip trim (0 for lines that only
// explain); the other arguments are lengths, masses or counts as the code's text says.
struct plan_line {
    enum plan_code code;
    length_nm amount;
    int64_t a;
    int64_t b;
};

#define PLAN_REASONS_MAX 8
#define PLAN_WARNINGS_MAX 10
#define PLAN_COLUMN_NONE SIZE_MAX

struct plan {
    struct plan_line refusal; // code PLAN_NONE: the plan is valid. Else every length is unknown
                              // and the lines only tell how far it got
    length_nm tip_trim;       // exact, before rounding; without what an offcut lacks already
    length_nm tip_mark;       // to be cut off, measured from the tip end; 0: no tip cut
    length_nm finished;       // exact finished shaft length S (R7), with `proud` and `extension`
    length_nm butt_mark;      // to be kept, measured from the new tip end
    length_nm butt_trim;      // raw + extension - tip_mark - finished, exact
    bool butt_cut;            // false: the butt mark lies at or past the end, nothing to cut
    length_nm extension;      // to be added at the butt, 0: none
    length_nm proud;          // past the sole, ground off after gluing; 0: it stops in the head
    size_t column;            // index into the chart, after pick and step; PLAN_COLUMN_NONE: the
                              // trim is not the chart's
    size_t reason_count;
    size_t warning_count;
    struct plan_line reason[PLAN_REASONS_MAX];
    struct plan_line warning[PLAN_WARNINGS_MAX];
};

// Always fills *ret_plan. Returns true when the plan is valid.
// Invariants of a valid plan: tip_mark is a multiple of the mark step unless tip_made is given;
// |butt_mark - finished| <= mark_step / 2; raw + extension == tip_mark + finished + butt_trim;
// the reasons' amounts add up to tip_mark (R_ROUND carries the rounding, and the shortfall).
// With tip_made the chart is no more than a comparison: what it lacks refuses nothing, and
// R_TIP_MADE is the only reason.
bool plan_make(const struct plan_input *input, struct plan *ret_plan);

// How deep the plug of an extension must sit in the shaft: twice what it adds, 1 in at least
// (common practice, no source).
length_nm plan_plug_depth(length_nm extension);

#define PLAN_SOURCE_TEXT_MAX 200 // of plan_line_source
#define PLAN_LINE_TEXT_MAX 400

// The chart's column the plan uses; NULL: none, or the plan is not valid.
const struct chart_column *plan_column(const struct plan_input *input, const struct plan *plan);

// One line in words, in the shop's language. Buffers hold PLAN_LINE_TEXT_MAX.
void plan_line_text(const struct plan_input *input, const struct plan_line *line, char *buffer,
                    size_t size);
// The same in English whatever the language: for the log and for programs.
void plan_line_source(const struct plan_input *input, const struct plan_line *line, char *buffer,
                      size_t size);
// What plan_line_source once made, in the shop's language; a line that is none of today's as it is.
void plan_line_reword(enum plan_code code, const char *source, char *buffer, size_t size);
// The same of any refusal, appended. False: it is none.
struct text;
bool plan_refusal_reword(struct text *text, const char *source);

// "R_COLUMN" etc., stable for scripts and the log.
const char *plan_code_name(enum plan_code code);

// R4: the bore height shared by most clubs of the build on one shaft model, whether or not they
// wish uniform flex; ties go to the irons, then to the smaller height. Unknown heights are passed
// over; LENGTH_UNKNOWN when none is known.
struct plan_bore {
    enum head_kind kind;
    length_nm bore_height;
};
length_nm plan_uniform_reference(const struct plan_bore *bores, size_t count);

// R11: overall dry-fit length minus the raw length of the shaft used. False when the result is
// outside 0 to 2 in (then *ret_height is untouched): measure again before anything is cut.
bool plan_dry_fit(length_nm overall, length_nm raw, length_nm *ret_height);

// R13 for a made length against its mark.
enum verdict { VERDICT_NONE, VERDICT_IN, VERDICT_LONG, VERDICT_SHORT, VERDICT_COUNT };
enum verdict plan_verdict(length_nm made, length_nm mark, length_nm tolerance);
const char *verdict_text(enum verdict verdict);  // "", "in", "long", "short"
const char *verdict_words(enum verdict verdict); // for a person

#endif
