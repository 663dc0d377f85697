#ifndef PARTS_H
#define PARTS_H

// What the shop works with, as plain values: models, charts, measured parts, order lines.
// A text is NUL-terminated UTF-8; empty means not known. LENGTH_UNKNOWN / MASS_UNKNOWN likewise.
// What only estimates use (balance points, walls, profiles, raw frequency, centre of gravity,
// inertia) is also not known when 0, so that a zeroed struct claims nothing.

#include "length.h"
#include "ticket.h"

#define PARTS_NAME_MAX 48  // model names
#define PARTS_SHORT_MAX 16 // flex, column, engraved number, club
#define PARTS_BUILD_MAX 16
#define PARTS_RACK_MAX 24
#define PARTS_LOT_MAX 24
#define ORDER_REFERENCE_MAX 48
#define ORDER_NOTE_MAX 128
#define CHART_COLUMNS_MAX 24
#define PROFILE_POINTS_MAX 32

// Each list: name, word in CSV files, words for a person.
#define HEAD_KINDS(X)                                                                              \
    X(DRIVER, "driver", "driver")                                                                  \
    X(FAIRWAY, "fairway", "fairway wood")                                                          \
    X(HYBRID, "hybrid", "hybrid")                                                                  \
    X(IRON, "iron", "iron")                                                                        \
    X(WEDGE, "wedge", "wedge")                                                                     \
    X(PUTTER, "putter", "putter")
enum head_kind {
#define X(name, csv, words) HEAD_KIND_##name,
    HEAD_KINDS(X)
#undef X
        HEAD_KIND_COUNT
};

// Kinds of chart; `wood` serves driver and fairway. A putter has no chart.
#define CHART_KINDS(X)                                                                             \
    X(WOOD, "wood", "wood")                                                                        \
    X(HYBRID, "hybrid", "hybrid")                                                                  \
    X(IRON, "iron", "iron")                                                                        \
    X(WEDGE, "wedge", "wedge")
enum chart_kind {
#define X(name, csv, words) CHART_KIND_##name,
    CHART_KINDS(X)
#undef X
        CHART_KIND_COUNT
};

enum material { MATERIAL_STEEL, MATERIAL_GRAPHITE, MATERIAL_COUNT };
enum tip_kind { TIP_PARALLEL, TIP_TAPER, TIP_KIND_COUNT };

// How the shaft stops in the head: at the bottom of the bore, near the sole, well above it, or not
// at all: through a head that is bored through it passes the sole and is ground flush there.
enum bore_kind { BORE_UNKNOWN, BORE_BLIND, BORE_THROUGH, BORE_SHORT, BORE_KIND_COUNT };

// The chart's own footnote about bore height (rule R3).
enum bore_note { BORE_NOTE_NONE, BORE_NOTE_ADD_HEIGHT, BORE_NOTE_ABOVE_REFERENCE, BORE_NOTE_COUNT };

// How far the shop is with an order. Only a released one is for the bench; an order that nobody
// said anything about is released.
enum order_status { ORDER_RELEASED, ORDER_DRAFT, ORDER_HELD, ORDER_CANCELLED, ORDER_STATUS_COUNT };
#define ORDER_PRIORITY_URGENT 1
#define ORDER_PRIORITY_DEFAULT 3
#define ORDER_PRIORITY_LAST 5

// CSV words of the enums above; *_from_text returns false for an unknown word.
const char *head_kind_text(enum head_kind kind);
const char *chart_kind_text(enum chart_kind kind);
const char *material_text(enum material material);
const char *tip_kind_text(enum tip_kind tip);
const char *bore_kind_text(enum bore_kind bore);
const char *bore_note_text(enum bore_note note);
const char *order_status_text(enum order_status status);
// Words for a person, in the shop's language; in English for the log.
const char *head_kind_words(enum head_kind kind);
const char *head_kind_source(enum head_kind kind);
const char *chart_kind_words(enum chart_kind kind);
const char *material_words(enum material material);
// Any of the CSV words above in the shop's language; another word as it is.
const char *csv_words(const char *word);
bool head_kind_from_text(const char *text, enum head_kind *ret);
bool chart_kind_from_text(const char *text, enum chart_kind *ret);
bool material_from_text(const char *text, enum material *ret);
bool tip_kind_from_text(const char *text, enum tip_kind *ret);
bool bore_kind_from_text(const char *text, enum bore_kind *ret);
bool bore_note_from_text(const char *text, enum bore_note *ret);
bool order_status_from_text(const char *text, enum order_status *ret);

// The chart a head of this kind reads. False for a putter: nothing is trimmed by chart there.
bool chart_kind_for_head(enum head_kind kind, enum chart_kind *ret);

struct shaft_model {
    char name[PARTS_NAME_MAX];
    enum material material;
    enum tip_kind tip;
    length_nm tip_diameter;
    length_nm butt_diameter;
    length_nm raw_length;  // catalogue
    mass_mg weight;        // catalogue, uncut
    length_nm tip_section; // parallel part of the uncut tip
    length_nm max_tip_trim;
    length_nm max_butt_trim;
    enum bore_note bore_note;
    length_nm bore_reference; // only for BORE_NOTE_ABOVE_REFERENCE
    length_nm balance;        // balance point of the uncut shaft, from the tip end
    length_nm tip_wall;       // wall of the tube at its ends, for steel
    length_nm butt_wall;
    unsigned note_kinds;   // bit 1u << head_kind; 0 = every kind
    bool note_not_through; // the note spares heads that are bored through
    int64_t revision;      // of model and notes, in the store; 0 = never stored
};

// Bending stiffness of the uncut shaft along its length, for one model and flex. Points lie at
// rising distances from the tip end; straight between them, level beyond the first and last.
struct profile_point {
    length_nm from_tip;
    int64_t stiffness; // EI in thousandths of a newton square metre
};
struct profile {
    size_t count; // 0: not known
    struct profile_point point[PROFILE_POINTS_MAX];
};

struct chart_column {
    char name[PARTS_SHORT_MAX];
    mass_mg weight;     // head weight the column was written for
    length_nm tip_trim; // LENGTH_UNKNOWN: the maker does not offer it
};

// Columns run from the lightest to the heaviest head, weights strictly rising.
struct chart {
    enum chart_kind kind;
    char flex[PARTS_SHORT_MAX];
    int64_t revision;
    size_t count; // 0: the maker has no chart for this model, flex and kind
    struct chart_column column[CHART_COLUMNS_MAX];
};

struct head {
    char ticket[TICKET_TEXT_MAX];
    char model[PARTS_NAME_MAX];
    enum head_kind kind;
    char engraved[PARTS_SHORT_MAX]; // number on the sole
    mass_mg weight;                 // measured
    length_nm hosel_bore;           // diameter
    length_nm insertion;
    length_nm bore_height;       // bottom of bore to ground line, measured on this head
    length_nm model_bore_height; // the maker's figure, a hint for the dry fit; never planned with
    enum bore_kind bore;
    length_nm cg_beyond; // centre of gravity beyond the shaft's end, along its axis, to the ground;
                         // not known: estimate_reach assumes it
    int64_t inertia;     // about its centre of gravity, across the swing's plane, in g cm2
    char lot[PARTS_LOT_MAX]; // the delivery it came with
    int64_t loft;            // its model's, thousandths of a degree
    int64_t lie;
};

// The bore height that counts: 0 where the shaft passes the sole, whatever was measured, since its
// end is ground off at the ground line; else as measured.
length_nm head_bore_height(const struct head *head);

// Tenths of a cycle a minute.
typedef int64_t frequency_dcpm;
#define FREQUENCY_UNKNOWN INT64_MIN

struct shaft {
    char ticket[TICKET_TEXT_MAX];
    char model[PARTS_NAME_MAX];
    char flex[PARTS_SHORT_MAX];
    length_nm raw_length; // measured
    mass_mg weight;
    char rack[PARTS_RACK_MAX];
    length_nm balance;            // measured on the uncut shaft, from the tip end
    frequency_dcpm raw_frequency; // of the uncut shaft, clamped over the last 5 in of the butt
    mass_mg frequency_mass;       // on its tip while that was measured
    char lot[PARTS_LOT_MAX];      // the delivery it came with
    length_nm tip_cut; // off its tip already when it got its ticket, as an offcut used again has;
                       // not known or 0: nothing. All other figures are those of the piece
    char from_shaft[TICKET_TEXT_MAX]; // the ticket it had before it was cut, empty: none
};

// What is off its tip already, 0: nothing.
length_nm shaft_tip_cut(const struct shaft *shaft);

// One line of an order: one club.
struct order {
    char build[PARTS_BUILD_MAX];
    char club[PARTS_SHORT_MAX];
    int position; // this is club `position` of `count` in the build, from 1
    int count;
    char due[12]; // YYYY-MM-DD
    length_nm playing_length;
    length_nm grip_cap;
    mass_mg grip_weight;
    char swingweight[8];
    int step; // negative soft, positive hard (R5)
    bool uniform_flex;
    length_nm uniform_reference;         // from plan_uniform_reference (R4)
    char picked_column[PARTS_SHORT_MAX]; // a supervisor's pick, empty = by weight (R1)
    bool shim_consent;                   // a supervisor agreed to a shim (R8)
    char wished_model[PARTS_NAME_MAX];   // shaft to be chosen from stock for this club
    char wished_flex[PARTS_SHORT_MAX];
    bool cancelled;           // this line alone
    enum order_status status; // of the whole build, as the next two
    int priority;             // ORDER_PRIORITY_URGENT first; 0: nobody said
    int64_t changed_seq;      // entry of the first change no bench was told of yet, 0 none
    length_nm given_trim;     // by a supervisor, instead of the chart's; from the maker's tip end
    length_nm trim_consent;   // the same, given at the bench for this head and shaft
    bool extension;           // a butt that is too short may be extended
    bool extension_consent;   // a supervisor agreed to that at the bench
    int64_t loft;             // to be made, thousandths of a degree; not known: the head model's
    int64_t lie;
};

// True, and the trim, when a supervisor gave one.
bool order_given_trim(const struct order *order, length_nm *ret_trim);
// An order that says nothing: lengths not known, texts empty.
struct order order_empty(void);

// Settings of the bench that rules depend on. Common practice, no source: an extension of 1 in at
// most, 1/4 in to be ground off.
struct bench_rules {
    length_nm mark_step;         // 1/16, 1/32, 1/64 in, 0.5 or 1 mm
    length_nm tolerance;         // of the made length, both ways
    bool limit_46;               // shop plays under the optional 46 in local rule
    length_nm extension_max;     // a butt is extended by this much at most
    length_nm through_allowance; // stands proud of the sole before it is ground flush
};

#define BENCH_RULES_DEFAULT                                                                        \
    {                                                                                              \
        .mark_step = LENGTH_INCH / 16, .tolerance = LENGTH_INCH / 16, .limit_46 = false,           \
        .extension_max = LENGTH_INCH, .through_allowance = LENGTH_INCH / 4                         \
    }

#endif
