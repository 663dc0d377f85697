#ifndef VIEW_H
#define VIEW_H

// What is to be seen: plain data from the station to the screen. The station decides every word,
// number and colour tone; the screen decides only where it goes and how large it is.
// All texts UTF-8, NUL-terminated, one line unless said otherwise (the screen wraps).

#include "length.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#define VIEW_TEXT_MAX 320 // bytes: other languages are longer, Japanese has 3 a character
#define VIEW_SHORT_MAX 112
#define VIEW_LINES_MAX 10
#define VIEW_ESTIMATES_MAX 4
#define VIEW_ACTIONS_MAX 40
#define VIEW_ROWS_MAX 12
#define VIEW_SAID_MAX 3
#define VIEW_SAID_TEXT_MAX 400 // all that can be typed here, who and when

// How the screen lays the body out.
enum view_body {
    VIEW_MESSAGE,  // large title and line, queue table and today's counts if any: signed out, ready
    VIEW_PAIR,     // two cards, head and shaft, one filled, the other says what to scan
    VIEW_CARE,     // caution panel: title, lead, bullets, footnote
    VIEW_CUT,      // the mark
    VIEW_NUMBER,   // number entry: fields, keypad, quick picks
    VIEW_NOTICE,   // panel with shape, title, lines, "what to do" steps, choices: hold, resume,
                   // logged
    VIEW_PIN,      // digits shown as dots, keypad
    VIEW_LOG,      // review: table, detail panel
    VIEW_ENTRY,    // review: one entry, its plan redrawn as a receipt
    VIEW_SHOWN,    // review: the mark as it was on the screen, under a title that says so
    VIEW_SET,      // review: a build as a set: table, plots, what stands out
    VIEW_DAY,      // review: a day's figures, its papers, its signature
    VIEW_MENU,     // desk: what there is to do, as tiles
    VIEW_FORM,     // desk: fields to fill in, and what follows from them
    VIEW_CHECK,    // what a scanner sent, what is wrong with it and what to change
    VIEW_SELFCHECK // what the bench is made of: each as a sign and a word, in figures, what to do
};

// Never colour alone: each tone has its own shape and word (ISO 3864, ANSI Z535).
enum view_tone {
    TONE_PLAIN,   // dark band
    TONE_WORK,    // blue
    TONE_CAUTION, // amber, triangle
    TONE_STOP,    // red, octagon
    TONE_FINE     // green, tick
};

// Everything that can be touched, or chosen by its key on a keyboard.
// clang-format off
#define VIEW_ACTION_IDS(X)                                                                         \
    X(PRESS)       /* the band itself: same as the button */                                       \
    X(HELD)        /* "something is wrong" by touch */                                             \
    X(SIGN_OUT) X(START_OVER) X(BACK) X(DRY_FIT)                                                   \
    X(WRONG_TOO_EARLY) X(WRONG_MISCUT) X(WRONG_NOT_SAFE) X(WRONG_PARTS) X(WRONG_SUPERVISOR)        \
    X(RESUME_NOT_CUT) X(RESUME_CUT) X(RESUME_OTHER)                                                \
    X(FIELD)       /* argument: field index */                                                     \
    X(KEY)         /* argument: character for the active field, '\b' rubs out */                   \
    X(PICK)        /* argument: length in nm */                                                    \
    X(REVIEW) X(CONSENT) X(CHECK) X(UNLOCK) X(SELFCHECK) X(LOOK_AGAIN) X(SOUNDS)                                                        \
    X(DESK) X(SUPERVISOR)                                                                          \
    X(DESK_BUTTON) X(TILE) X(CHOICE) /* argument: index; the desk's */                             \
    X(ROW)         /* argument: seq of the entry or index of the club */                                         \
    X(OLDER) X(NEWER) X(DAY_BACK) X(DAY_ON)                                                        \
    X(FILTER) X(FILTER_PICK) X(FILTER_VALUE) X(FILTER_BUILD) X(FILTER_OPEN) X(FILTER_CLEAR)              \
    X(STATS) X(LIFE) X(TICKETS) X(SET) X(BUILD_BACK) X(BUILD_ON) X(FINAL_LENGTH) X(FINAL_SWINGWEIGHT) X(FINAL_FREQUENCY)       \
    X(FINAL_LOFT) X(FINAL_LIE)                                                                     \
    X(KIT) X(KIT_SWINGWEIGHT) X(KIT_FLEX) X(KIT_ACCEPT)                                            \
    X(DAY) X(REPORT) X(LEDGER) X(SIGN) X(SIGN_CONFIRM)                                             \
    X(TOUR)        /* of a bench that was never used */                                            \
    X(LESSON_SCAN) /* argument: a ticket shown by a lesson; only a bench that practises hears it */\
    X(LESSON_NEXT) X(LESSON_BACK) X(LESSON_LIST) X(LESSON_END) X(LESSON_LEAVE)                     \
    X(OPEN_ENTRY) X(SHOWN) X(DECIDE_USE) X(DECIDE_RECUT) X(DECIDE_SCRAP) X(NOTE) X(SPARE) X(EXPORT)
// clang-format on
enum view_action_id {
    ACTION_NONE,
#define X(name) ACTION_##name,
    VIEW_ACTION_IDS(X)
#undef X
        ACTION_ID_COUNT
};

struct view_action {
    enum view_action_id id;
    int64_t argument;
    char label[VIEW_SHORT_MAX];
    char key[8]; // keyboard key as shown, "F2", "1"; empty: none
    enum view_tone tone;
};

enum view_health { HEALTH_GOOD, HEALTH_WARN, HEALTH_BAD };
struct view_status {
    char label[VIEW_SHORT_MAX]; // "Scanner", "Button", "Log"
    enum view_health health;
};

struct view_queue_row {
    char build[16];
    char club[40]; // "2 of 9"
    char head[16];
    char shaft[16];
    char due[48];              // "today", "27 Nov", "late"
    char next[VIEW_SHORT_MAX]; // half-cut: "butt cut next"; else empty
};
struct view_today {
    int64_t clubs;
    int64_t cuts;
    int64_t out;
    int64_t holds;
};

// A number as a person marks it. Large: fraction or mm, as the shop sets; the rest beside it.
struct view_mark {
    length_nm value;
    bool fraction; // draw whole + numerator/denominator; else `large` as text
    struct length_fraction split;
    char large[24];                // "66.7"
    char unit[24];                 // "in", "mm"
    char inches[48];               // "2.625 in"
    char millimetres[48];          // "66.7 mm"
    char rounding[VIEW_SHORT_MAX]; // "nearest 1/16 in"
};

struct view_receipt_line {
    char text[VIEW_TEXT_MAX];
    char amount[VIEW_SHORT_MAX]; // "1 1/2", "+1 1/8"; empty: explains only
};

struct view_cut {
    bool butt;                    // which end
    bool tip_right;               // picture: where the tip lies
    char heading[VIEW_SHORT_MAX]; // "Tip end · cut off"
    struct view_mark mark;
    length_nm piece;             // length of the piece on the saw now, for the picture
    char waste[VIEW_SHORT_MAX];  // "waste"
    char keep[VIEW_SHORT_MAX];   // "keep this side"
    char blade[VIEW_SHORT_MAX];  // "blade on the waste side of the mark"
    char measure[VIEW_TEXT_MAX]; // "Measure from the tip. Mark, then cut."
    char build[VIEW_SHORT_MAX];  // "Build 2041 · club 2 of 9"
    char head[VIEW_TEXT_MAX];
    char shaft[VIEW_TEXT_MAX];
    char why[VIEW_SHORT_MAX]; // "Why 2 5/8"
    size_t receipt_count;
    struct view_receipt_line receipt[VIEW_LINES_MAX];
    struct view_receipt_line total;
    size_t estimate_count;
    char estimate[VIEW_ESTIMATES_MAX][VIEW_TEXT_MAX];
    size_t warning_count;
    char warning[VIEW_LINES_MAX][VIEW_TEXT_MAX];
    char next[VIEW_TEXT_MAX]; // "Next: butt cut at 42 3/4 in"
};

struct view_card { // one part on the pair view
    bool filled;
    char title[VIEW_SHORT_MAX]; // "Head H-0472X" or "Scan the shaft"
    size_t line_count;
    char line[6][VIEW_TEXT_MAX];
};

struct view_field {
    char label[VIEW_SHORT_MAX];
    char text[32]; // as typed so far
    bool active;
};
struct view_number {
    char question[VIEW_TEXT_MAX];
    char help[VIEW_TEXT_MAX];
    size_t field_count;
    struct view_field field[2];
    char result[VIEW_TEXT_MAX]; // "Bore height 1 1/8 in", "1/8 in short"
    enum view_tone result_tone;
    char error[VIEW_TEXT_MAX];
    size_t pick_count; // quick picks, drawn as fractions
    struct {
        struct view_mark mark;
        bool chosen;
        bool planned;
    } pick[5];
};

struct view_notice {
    enum view_tone tone;
    char title[VIEW_TEXT_MAX];
    size_t line_count;
    char line[6][VIEW_TEXT_MAX];
    char todo_title[VIEW_SHORT_MAX];
    size_t todo_count;
    char todo[5][VIEW_TEXT_MAX];
    char foot[VIEW_TEXT_MAX];
    bool has_mark; // NOT LOGGED keeps the numbers: drawn large with mark_label
    char mark_label[VIEW_SHORT_MAX];
    struct view_mark mark;
};

struct view_care {
    char title[VIEW_TEXT_MAX];
    char lead[VIEW_SHORT_MAX];
    size_t count;
    char bullet[VIEW_LINES_MAX][VIEW_TEXT_MAX];
    char foot[VIEW_TEXT_MAX * 2];
};

struct view_log_row {
    int64_t seq;
    char time[32];
    char build[24]; // "2041-2"
    char shaft[16];
    char cut[VIEW_SHORT_MAX]; // "tip", "butt", "measure", "stop"
    char plan[48];
    char made[48];
    char verdict[VIEW_SHORT_MAX];
    enum view_tone tone; // PLAIN, STOP: needs a decision, CAUTION: a stop
};
struct view_log {
    char title[VIEW_SHORT_MAX];
    char subtitle[VIEW_TEXT_MAX];
    char filters[VIEW_TEXT_MAX]; // what is filtered now, in words
    size_t row_count;
    struct view_log_row row[VIEW_ROWS_MAX];
    int selected; // -1 none
    char detail_title[VIEW_TEXT_MAX];
    size_t detail_count;
    char detail[VIEW_LINES_MAX][VIEW_TEXT_MAX];
    char note[VIEW_TEXT_MAX]; // being typed
    bool note_active;
};

struct view_entry {
    char title[VIEW_TEXT_MAX];
    size_t fact_count;
    char fact[16][VIEW_TEXT_MAX];
    size_t receipt_count;
    struct view_receipt_line receipt[VIEW_LINES_MAX];
    struct view_receipt_line total;
    size_t plan_count; // the rest of the plan: what was measured, the butt mark, the rounding
    struct view_receipt_line plan[12];
    size_t estimate_count;
    char estimate[VIEW_ESTIMATES_MAX + 1][VIEW_TEXT_MAX]; // the last: what a cut off its mark did
    size_t warning_count;
    char warning[VIEW_LINES_MAX][VIEW_TEXT_MAX];
    size_t said_count; // by later entries about this one
    char said[VIEW_SAID_MAX + 1][VIEW_SAID_TEXT_MAX];
};

// One value of every club of a build, from `low` to `high`: planned dots, measured rings, the line
// they should lie on, the club that stands out.
#define VIEW_PLOTS_MAX 4
#define VIEW_POINTS_MAX 60
struct view_plot {
    char title[VIEW_SHORT_MAX]; // "Swingweight"
    char low_text[48];
    char high_text[48];
    double low;
    double high;
    size_t count;
    struct {
        bool planned_known;
        bool measured_known;
        double planned;
        double measured;
    } point[VIEW_POINTS_MAX];
    bool line_known;
    double at_first;
    double slope;       // a club
    int odd;            // -1 none
    size_t level_count; // level lines: limits of a control chart
    double level[3];
};

#define VIEW_CELLS 7
#define VIEW_CELL_MAX VIEW_SHORT_MAX
struct view_set {
    char title[VIEW_TEXT_MAX];
    char subtitle[VIEW_TEXT_MAX];
    char head[VIEW_CELLS][VIEW_CELL_MAX];
    size_t row_count;
    int first;    // index in the build of the first row shown
    int total;    // clubs of the build
    int selected; // row, -1 none
    struct {
        char cell[VIEW_CELLS][VIEW_CELL_MAX];
        enum view_tone tone;
    } row[VIEW_ROWS_MAX];
    size_t note_count;
    char note[VIEW_LINES_MAX][VIEW_TEXT_MAX];
    enum view_tone note_tone[VIEW_LINES_MAX];
    size_t plot_count;
    struct view_plot plot[VIEW_PLOTS_MAX];
};

#define VIEW_TILES_MAX 18
struct view_menu {
    char title[VIEW_TEXT_MAX];
    char subtitle[VIEW_TEXT_MAX];
    size_t tile_count; // the view's first actions, drawn as tiles
    struct {
        char line[VIEW_TEXT_MAX];
        char count[24]; // what waits there, empty: none
    } tile[VIEW_TILES_MAX];
};

#define VIEW_FORM_FIELDS 34
#define VIEW_CHOICES_MAX 12
#define VIEW_FORM_NOTES 14
struct view_form {
    char title[VIEW_TEXT_MAX];
    char subtitle[VIEW_TEXT_MAX];
    size_t field_count;
    int active;
    struct {
        char label[VIEW_SHORT_MAX];
        char text[VIEW_TEXT_MAX];
        char unit[VIEW_SHORT_MAX]; // or how it is written, `2026-03-31`
        bool fixed;                // shown, not to be changed
        bool changed;              // differs from what is kept
        bool selected;             // what is typed next takes the place of the text
        enum view_tone tone;       // STOP: a note says what is wrong
    } field[VIEW_FORM_FIELDS];
    size_t choice_count; // for the active field
    char choice[VIEW_CHOICES_MAX][VIEW_SHORT_MAX];
    bool keys; // letters and digits to be touched
    size_t note_count;
    char note[VIEW_FORM_NOTES][VIEW_TEXT_MAX];
    enum view_tone note_tone[VIEW_FORM_NOTES];
    size_t plot_count;
    struct view_plot plot[2];
};

// Filled by whoever hears the scanners; the station gives title and instructions.
#define VIEW_FACTS_MAX 8
#define VIEW_ADVICE_MAX 4
struct view_check {
    size_t fact_count; // 0: nothing has arrived yet
    struct {
        char name[VIEW_SHORT_MAX];
        char value[VIEW_TEXT_MAX];
    } fact[VIEW_FACTS_MAX];
    enum view_tone tone;
    char verdict[VIEW_TEXT_MAX];
    size_t advice_count;
    char advice[VIEW_ADVICE_MAX][VIEW_TEXT_MAX];
};

#define VIEW_LOOKS_MAX 11
struct view_selfcheck {
    size_t count;
    struct {
        enum view_tone tone; // FINE, CAUTION, STOP
        char word[VIEW_SHORT_MAX];
        char name[VIEW_SHORT_MAX];
        char value[VIEW_TEXT_MAX];
        char todo[VIEW_TEXT_MAX];
    } line[VIEW_LOOKS_MAX];
};

// A code to be scanned off the screen; filled by whoever can make one of view_day's note.
#define VIEW_CODE_MAX 97
struct view_code {
    int side; // modules, without the quiet zone of 4; 0: none
    bool dark[VIEW_CODE_MAX][VIEW_CODE_MAX];
};
#define VIEW_NOTE_MAX 1216
#define VIEW_LONG_MAX 800
#define VIEW_DAY_LINES 3
struct view_day {
    char title[VIEW_SHORT_MAX];
    char subtitle[VIEW_TEXT_MAX];
    size_t fact_count;
    struct {
        char name[VIEW_SHORT_MAX];
        char value[VIEW_TEXT_MAX];
    } fact[VIEW_FACTS_MAX];
    enum view_tone tone;
    char verdict[VIEW_TEXT_MAX];
    size_t line_count;
    char line[VIEW_DAY_LINES][VIEW_LONG_MAX];
    char brief[VIEW_TEXT_MAX]; // below the code
    char note[VIEW_NOTE_MAX];  // what the code holds, lines and all; empty: no code
    struct view_code code;
};

// At a bench that practises: the word for it, and what the lesson says above every view.
struct view_lesson {
    char word[VIEW_SHORT_MAX]; // empty: this bench is the real one
    char title[VIEW_TEXT_MAX]; // empty: no caption
    char text[VIEW_LONG_MAX];
    bool done; // a tick before the title
};

// What the camera sees, small; filled by whoever has the camera. Grey, row after row.
struct view_preview {
    int width; // 0: no camera
    int height;
    const uint8_t *pixels;
    bool found; // a code, around which the corners lie
    struct {
        int x;
        int y;
    } corner[4];
};

struct view {
    enum view_body body;
    // header
    char bench[VIEW_SHORT_MAX];
    char worker[VIEW_SHORT_MAX];
    size_t status_count;
    struct view_status status[7];
    // steps: Pair, Care, Tip cut, Butt cut, Measure, Logged; -1: no step line
    int step;
    // body
    char title[VIEW_TEXT_MAX]; // message, pair
    char subtitle[VIEW_TEXT_MAX];
    char typed[32]; // characters of a ticket being typed by hand, empty if none
    size_t queue_count;
    struct view_queue_row queue[VIEW_ROWS_MAX];
    bool has_today;
    char waits[VIEW_TEXT_MAX]; // below today's counts: how many clubs wait, and how long they take
    struct view_today today;
    struct view_card card[2];
    struct view_care care;
    struct view_cut cut;
    struct view_number number;
    struct view_notice notice;
    int pin_digits;
    char pin_message[VIEW_TEXT_MAX];
    struct view_log log;
    struct view_entry entry;
    struct view_set set;
    struct view_menu menu;
    struct view_form form;
    struct view_check check;
    struct view_selfcheck selfcheck;
    struct view_day day;
    struct view_preview preview; // ready and pair
    struct view_lesson lesson;
    // band
    enum view_tone band_tone;
    bool band_button; // draw the button's ring
    char band[VIEW_TEXT_MAX];
    char band_hint[VIEW_TEXT_MAX];
    // what a press of the one button has moved on to, drawn with a ring; ACTION_NONE: nothing
    enum view_action_id ring;
    int64_t ring_argument;
    // touch and keys
    size_t action_count;
    struct view_action action[VIEW_ACTIONS_MAX];
};

// Keypad keys (digits, fraction picks 1/16 to 15/16, rub out) and table rows are not listed as
// actions: the screen makes ACTION_KEY, ACTION_FIELD, ACTION_PICK, ACTION_ROW of them itself for
// VIEW_NUMBER, VIEW_PIN, VIEW_LOG, VIEW_SET and VIEW_FORM (fields, choices, keys). A sixteenths key
// sends ACTION_KEY with VIEW_KEY_SIXTEENTH + n (n 1 to 15): it sets the fraction of the active
// field.
#define VIEW_KEY_SIXTEENTH 1000

// One action more that can be touched now; too many are left out.
void view_offer(struct view *view, enum view_action_id id, int64_t argument, const char *label,
                const char *key, enum view_tone tone);

#endif
