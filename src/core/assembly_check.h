#ifndef ASSEMBLY_CHECK_H
#define ASSEMBLY_CHECK_H

// What was measured on an assembled club, held against what was planned.
//
// Every value is a whole number in its own unit, so that a limit is a limit: length in nanometres,
// swingweight in tenths of a point (A0 is 0, D2.3 is 323), frequency in tenths of a cycle a minute,
// loft and lie in thousandths of a degree.

#include "estimate.h"

// name, word in settings and words for people
#define ASSEMBLY_VALUES(X)                                                                         \
    X(LENGTH, "length")                                                                            \
    X(SWINGWEIGHT, "swingweight")                                                                  \
    X(FREQUENCY, "frequency")                                                                      \
    X(LOFT, "loft")                                                                                \
    X(LIE, "lie")
enum assembly_value {
#define X(name, text) ASSEMBLY_##name,
    ASSEMBLY_VALUES(X)
#undef X
        ASSEMBLY_VALUE_COUNT
};
const char *assembly_value_text(enum assembly_value value);
const char *assembly_value_words(enum assembly_value value); // in the shop's language
bool assembly_value_from_text(const char *text, enum assembly_value *ret);

#define ASSEMBLY_UNKNOWN INT64_MIN
struct assembly_values {
    int64_t value[ASSEMBLY_VALUE_COUNT]; // ASSEMBLY_UNKNOWN: not known
};

// How far each may lie from what was planned, both ways, and which are wanted at all: bit
// 1u << value. Defaults: common practice, no source.
struct assembly_tolerance {
    int64_t off[ASSEMBLY_VALUE_COUNT];
    unsigned wanted;
};
#define ASSEMBLY_TOLERANCE_DEFAULT                                                                 \
    {                                                                                              \
        .off = {LENGTH_INCH / 8, 10, 20, 1000, 1000},                                              \
        .wanted = 1u << ASSEMBLY_LENGTH | 1u << ASSEMBLY_SWINGWEIGHT                               \
    }

// How the playing length was taken: after the Equipment Rules, Part 2, 1c (sole on the ground
// against a plane at 60 degrees, from where the two planes meet to the end of the grip), or with
// the shop's ruler along the shaft, ground to end of grip cap.
enum length_method {
    LENGTH_METHOD_UNKNOWN,
    LENGTH_METHOD_RULES,
    LENGTH_METHOD_RULER,
    LENGTH_METHOD_COUNT
};
const char *length_method_text(enum length_method method); // "", "rules", "ruler"
bool length_method_from_text(const char *text, enum length_method *ret);

// What was measured on the assembled club since it was last done; the latest of each.
struct final_values {
    length_nm length;         // playing length, LENGTH_UNKNOWN: not measured
    char swingweight[8];      // empty: not measured
    frequency_dcpm frequency; // FREQUENCY_UNKNOWN: not measured
    int64_t loft;             // thousandths of a degree, LENGTH_UNKNOWN: not measured
    int64_t lie;
    enum length_method method;              // of the length
    int64_t seq[ASSEMBLY_VALUE_COUNT];      // of the entry that tells it, 0: none does
    int64_t accepted[ASSEMBLY_VALUE_COUNT]; // of the note that accepts it, 0: none does
};
struct final_values final_values_none(void);
// Reads one of them as people write it, a length without a unit in `unit`. False: it is none that a
// club has; *values untouched then. What is read has no entry yet and nobody has accepted it.
bool final_values_read(enum assembly_value value, const char *text, enum length_unit unit,
                       struct final_values *values);

// What the order wants: its own figures; else of loft and lie the head model's, of swingweight and
// frequency the plan's estimate.
void assembly_planned(const struct club *club, const struct bench_rules *rules,
                      const struct assembly *assembly, struct assembly_values *ret_planned);
void assembly_measured(const struct final_values *values, struct assembly_values *ret_measured);
// Those a supervisor uses all the same: bit 1u << value.
unsigned assembly_accepted(const struct final_values *values);

enum assembly_state {
    ASSEMBLY_MISSING, // not measured
    ASSEMBLY_IN,
    ASSEMBLY_OUT,
    ASSEMBLY_TAKEN // measured, and nothing was planned to hold it against
};
struct assembly_check {
    enum assembly_state state[ASSEMBLY_VALUE_COUNT];
    int64_t off[ASSEMBLY_VALUE_COUNT]; // measured less planned; 0 unless IN or OUT
    bool wanted[ASSEMBLY_VALUE_COUNT];
    bool accepted[ASSEMBLY_VALUE_COUNT]; // out, and used all the same
    bool done; // every wanted value is measured and none of them is out that is not accepted
};
// Exactly at the tolerance is in. `accepted`: as assembly_accepted says it.
void assembly_check(const struct assembly_values *planned, const struct assembly_values *measured,
                    unsigned accepted, const struct assembly_tolerance *tolerance,
                    struct assembly_check *ret_check);

// `43 1/2 in`, `D2.3`, `261.5 cpm`, `58.5 deg`; `not known`.
#define ASSEMBLY_TEXT_MAX 112
void assembly_text(enum assembly_value value, int64_t number, char buffer[ASSEMBLY_TEXT_MAX]);
// The same of a tolerance: `1/8 in`, `1 point`, `2 cpm`, `1 deg`.
void assembly_tolerance_text(enum assembly_value value, int64_t number,
                             char buffer[ASSEMBLY_TEXT_MAX]);

#endif
