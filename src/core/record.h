#ifndef RECORD_H
#define RECORD_H

// The plan as it was shown, as text for the log: every number, every line in words, the chart
// revision and the rounding, so that months later the screen can be redrawn from the entry alone.
//
// Format: lines `key<TAB>value`, first `kerfside-plan<TAB>1`; lengths in nanometres, masses in
// milligrams; `extension` and `proud` only when there are any; reasons and warnings as
// `reason<TAB>CODE<TAB>amount<TAB>words`, estimates as `estimate<TAB>words`, an outcome as
// `outcome<TAB>words`, and last how the screen showed it, which older entries do not say:
// `shown<TAB>left or right<TAB>in or mm<TAB>sure or maybe<TAB>tip or new tip<TAB>piece<TAB>part`.
// Control characters never occur in values. Unknown keys are refused.

#include "estimate_text.h"

struct record_line {
    enum plan_code code;
    length_nm amount;
    char text[PLAN_SOURCE_TEXT_MAX]; // of plan_line_source
};

// What the picture of a mark showed besides the plan.
struct record_shown {
    bool known;
    bool tip_right;
    bool metric;        // millimetres were the large number
    bool maybe;         // the worker had said that it might be cut already
    bool new_tip;       // the tip was cut
    length_nm piece;    // on the saw
    length_nm tip_part; // cut off the tip already while its mark was up
};

struct record {
    char build[PARTS_BUILD_MAX];
    char club[PARTS_SHORT_MAX];
    int position;
    int count;
    char head[TICKET_TEXT_MAX];
    char head_model[PARTS_NAME_MAX];
    char engraved[PARTS_SHORT_MAX];
    mass_mg head_weight;
    length_nm bore_height;
    char shaft[TICKET_TEXT_MAX];
    char shaft_model[PARTS_NAME_MAX];
    char flex[PARTS_SHORT_MAX];
    enum material material;
    length_nm raw_length;
    length_nm playing_length;
    length_nm grip_cap;
    length_nm mark_step;
    length_nm tolerance;
    int64_t chart_revision;
    int64_t model_revision;
    char column[PARTS_SHORT_MAX];
    length_nm tip_trim;
    length_nm tip_mark;
    length_nm finished;
    length_nm butt_mark;
    length_nm butt_trim;
    bool butt_cut;
    length_nm extension; // 0: none
    length_nm proud;     // 0: none
    size_t reason_count;
    size_t warning_count;
    struct record_line reason[PLAN_REASONS_MAX];
    struct record_line warning[PLAN_WARNINGS_MAX];
    struct estimate_lines estimates;
    char outcome[ESTIMATE_TEXT_MAX]; // what a cut off its mark does to the club, else empty
    struct record_shown shown;
};

// Only for valid plans. Leaves estimates, outcome and shown empty.
void record_make(const struct plan_input *input, const struct plan *plan,
                 struct record *ret_record);

// The playing length of a club whose shaft is `made` long, or came out so.
length_nm record_playing(const struct record *record, length_nm made);

// False if it does not fit (it always fits ENTRY_PLAN_MAX for texts within their limits).
bool record_write(const struct record *record, char *buffer, size_t size);

// Reads bytes from a log that may be damaged: false on anything but what record_write makes.
bool record_read(const char *text, struct record *ret_record);

#endif
