#ifndef STATION_STATE_H
#define STATION_STATE_H

// Private to src/station; complete only so that a bench can be copied by value. Texts are filled
// up with zero bytes and nothing but `ops` is a pointer, so that equal benches are equal bytes.

// Causes of a hold: name, word in the log, title on the screen.
#define HOLD_CAUSES(X)                                                                             \
    X(NONE, "", "")                                                                                \
    X(BAD_CODE, "bad_code", "This code could not be read as a ticket")                             \
    X(MAKERS_CODE, "makers_code", "This is a maker's barcode")                                     \
    X(UNKNOWN_PART, "unknown_ticket", "This ticket is not known here")                             \
    X(UNKNOWN_BADGE, "unknown_badge", "This badge is not known here")                              \
    X(NOT_SIGNED_ON, "not_signed_on", "Nobody is signed on")                                       \
    X(BUILD_TICKET, "build_ticket", "This is the ticket of a whole build")                         \
    X(BADGE_NOW, "badge_now", "Another badge while a club is in work")                             \
    X(COMMAND_NOW, "command_now", "This command does nothing here")                                \
    X(WRONG_PAIR, "wrong_pair", "Do not cut: these two do not belong together")                    \
    X(SAME_KIND, "same_kind", "Do not cut: two parts of the same kind")                            \
    X(OTHER_PART, "other_part", "Another part while a club is in work")                            \
    X(NO_BUILD, "no_build", "This part is in no build")                                            \
    X(NO_PARTNER, "no_partner", "This club has no second part yet")                                \
    X(ALREADY_CUT, "already_cut", "Do not cut: this shaft is already cut")                         \
    X(CLUB_DONE, "club_done", "Do not cut: this club is done")                                     \
    X(SCRAP, "scrap", "Do not cut: this shaft is scrap")                                           \
    X(NOT_RELEASED, "not_released", "Do not cut: this order is not released")                      \
    X(ORDER_CHANGED, "order_changed", "This order was changed")                                    \
    X(OTHER_BENCH, "other_bench", "Do not cut: this job belongs to another bench")                 \
    X(DECISION, "decision", "Do not cut: a supervisor must decide first")                          \
    X(PLAN_REFUSED, "plan_refused", "Do not cut: there is no plan for this club")                  \
    X(DISK_FULL, "disk_full", "Disk nearly full: no cut may start")                                \
    X(STORE_FAILED, "store_failed", "Do not cut: the log cannot be read")                          \
    X(SCANNER_GONE, "scanner_gone", "The scanner is gone")                                         \
    X(SCAN_FAULT, "scan_fault", "The scanner sends wrong characters")                              \
    X(ALREADY_LOGGED, "already_logged", "Stop: the log did not take this step")                    \
    X(SOMETHING_WRONG, "something_wrong", "What is wrong?")                                        \
    X(NOT_SAFE, "not_safe", "Stop: not safe to cut")                                               \
    X(WRONG_PARTS, "wrong_parts", "Stop: wrong parts at the saw")                                  \
    X(SUPERVISOR, "supervisor", "Supervisor called")                                               \
    X(TIP_PAST, "tip_past_mark", "The tip is cut past the mark")                                   \
    X(BUTT_SHORT, "butt_short", "The shaft is too short")                                          \
    X(GUARD, "guard", "Stop: this mark must not be shown")                                         \
    X(ILLEGAL_MOVE, "illegal_move", "Stop: the program went wrong")
enum hold_cause {
#define X(name, word, title) HOLD_##name,
    HOLD_CAUSES(X)
#undef X
        HOLD_CAUSE_COUNT
};

#define HOLD_LINES 3
#define HOLD_TODOS 4
struct hold {
    enum hold_cause cause;
    enum station_state back; // where it came from
    bool start_over;         // the button starts over; else it goes back
    bool unsafe;             // the care list must be confirmed again
    bool logged;             // the stop is in the log
    bool consent;            // a supervisor can lift it
    int64_t told;            // newest change that the button says was heard of, 0: none
    char line[HOLD_LINES][VIEW_TEXT_MAX];
    char todo[HOLD_TODOS][VIEW_TEXT_MAX];
};

// What to do once the open entry is on disk.
enum save_then {
    THEN_NOTHING,
    THEN_READY,    // signed on
    THEN_CARE,     // care confirmed
    THEN_TIP_MARK, // the mark may be shown
    THEN_BUTT_MARK,
    THEN_TIP_CUT,
    THEN_TIP_AGAIN, // partly cut or withdrawn: show what is still to cut
    THEN_TIP_PAST,
    THEN_BUTT_CUT,
    THEN_BUTT_AGAIN, // withdrawn: show the mark again
    THEN_LOGGED,
    THEN_LONG,
    THEN_SHORT,
    THEN_MEASURE,    // measure withdrawn: measure again
    THEN_UNMEASURED, // measure withdrawn on the way to the butt cut
    THEN_MISCUT_TIP, // tip cut withdrawn: what was really cut comes next
    THEN_REPLAN,     // dry fit or consent
    THEN_DECIDED,
    THEN_NOTED,
    THEN_FINAL // a value measured after assembly
};

enum number_kind {
    NUMBER_DRY_FIT,
    NUMBER_TIP_MADE,
    NUMBER_BUTT_LEFT,
    NUMBER_MEASURE,
    NUMBER_FINAL_LENGTH,
    NUMBER_FINAL_SWINGWEIGHT,
    NUMBER_FINAL_FREQUENCY,
    NUMBER_FINAL_LOFT,
    NUMBER_FINAL_LIE,
    NUMBER_GIVEN_TRIM // at CONSENT: what a supervisor gives for want of a chart
};
#define NUMBER_FIELDS 2
#define NUMBER_TEXT_MAX 32
struct number {
    enum number_kind kind;
    int field_count;
    int active;
    bool touched[NUMBER_FIELDS]; // typed into since it was prefilled
    char text[NUMBER_FIELDS][NUMBER_TEXT_MAX];
    char error[VIEW_TEXT_MAX];
    char note[VIEW_TEXT_MAX]; // `1/8 in too long ...`
};

enum pin_purpose { PIN_FOR_REVIEW, PIN_FOR_CONSENT, PIN_FOR_DESK };
#define PIN_MAX 12
struct pin {
    enum pin_purpose purpose;
    bool locked;                  // the PIN asked for is
    char unlock[TICKET_TEXT_MAX]; // badge whose PIN another supervisor unlocks, empty: none
    char digits[PIN_MAX + 1];
    char message[VIEW_TEXT_MAX];
};

enum review_mode {
    REVIEW_LIST,
    REVIEW_ENTRY,
    REVIEW_SHOWN, // its mark as it was on the screen
    REVIEW_SPARE,
    REVIEW_STATS,
    REVIEW_FILTERS, // what the list is filtered by
    REVIEW_PICK,    // values of one of them
    REVIEW_DAY,
    REVIEW_SIGN, // a day: sure?
    REVIEW_CHECK // yes: the log is checked before it is signed
};
enum review_pick { PICK_DAYS, PICK_WORKER, PICK_BENCH, PICK_MATERIAL, PICK_VERDICT, PICK_COUNT };
#define REVIEW_PAGES 32
struct review {
    enum review_mode mode;
    struct review_filter filter;
    int page;                     // how far below the newest
    int64_t before[REVIEW_PAGES]; // seq each page starts below, 0 newest
    int64_t selected;             // seq, 0 none
    enum review_pick pick;
    bool note_active;
    char note[VIEW_TEXT_MAX];
    char message[VIEW_TEXT_MAX];
};

// What became of signing a day, while the day is on the screen.
struct day_state {
    enum view_tone tone;
    char message[VIEW_LONG_MAX]; // what went wrong and what to do
    char note[VIEW_NOTE_MAX];    // that was signed just now
    int64_t checked;             // entries of `all`, while the log is checked
    int64_t all;
};

enum set_mode { SET_PLOTS, SET_KIT };
struct set_state {
    enum set_mode mode;
    char build[PARTS_BUILD_MAX];
    int64_t selected; // club_id, 0: none. Another program may change what stands in which row
    int first;        // row at the top
    enum match_by by;
    struct kit kit; // as it is shown; count 0: none
    char message[VIEW_TEXT_MAX];
};

struct station {
    struct station_settings settings;
    const struct station_ops *ops;
    enum station_state state;
    enum station_saving saving;

    int picked; // choice that the one button has moved on to, from 1; 0: none

    int64_t dead_until_ms; // PRESS and HELD do nothing before
    int64_t last_input_ms; // for signing off
    int64_t entered_ms;    // the state
    int64_t retry_ms;      // of the open entry
    bool present[DEVICE_COUNT];
    bool begun;      // somebody has put something in since the start
    bool untrusted;  // the log cannot be trusted: nothing is cut
    int looked_page; // of SELFCHECK

    struct worker worker;           // badge empty: nobody
    bool care_done[MATERIAL_COUNT]; // by this worker, this session
    struct worker supervisor;       // during PIN, CONSENT, REVIEW

    char head[TICKET_TEXT_MAX]; // as scanned, empty: not yet
    char shaft[TICKET_TEXT_MAX];
    struct club club; // id 0: none

    // The mark on the screen.
    int64_t shown_seq; // entry that says it was shown, 0 none
    length_nm shown_mark;
    bool maybe_cut;              // after RESUME: the worker says it is cut already
    char cut_id[CONFIRM_ID_MAX]; // confirm id of the cut, made when its mark appeared

    struct hold hold;
    enum hold_cause last_cause; // last stop logged, so that repeats are logged once
    uint32_t last_words;
    struct number number;
    length_nm tip_made; // answer of MISCUT on its way to the log, LENGTH_UNKNOWN none
    struct pin pin;
    struct review review;
    struct day_state day;
    struct set_state set;

    enum save_then then;
    struct entry pending; // kind GENESIS and no confirm id: none
};

#endif
