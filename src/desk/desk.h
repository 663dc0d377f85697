#ifndef DESK_H
#define DESK_H

// The desk: what there is to do around the saw. Orders, parts, charts, stock, what comes after the
// cut, each as a list or a form that anybody can read. A pure machine beside the station: events
// in, a view out, effects through struct desk_ops. It knows how lists and forms behave, not what
// stands in them; src/office answers for that.
//
// Menus, lists and forms lie on each other; F3 goes back one. A form keeps what was typed until it
// is saved or left twice. What is saved is an entry of the log, on disk before "saved" is said, and
// can be taken back by another.

#include "change.h"
#include "club.h"
#include "event.h"
#include "view.h"

// clang-format off
#define DESK_LISTS(X)                                                                              \
    X(ORDERS)                                                                                      \
    X(CLUBS)                                                                                       \
    X(HEADS) X(SHAFTS) X(HEAD_MODELS) X(SHAFT_MODELS) X(CHARTS) X(REVISIONS) X(DIFFERENCES)        \
        X(LOTS) X(LOT) X(STOCK) X(PICK) X(OFFCUTS) X(SCRAP) X(ASSEMBLY) X(CHANGES) X(SETTINGS)
// clang-format on
enum desk_list {
#define X(name) DESK_LIST_##name,
    DESK_LISTS(X)
#undef X
        DESK_LIST_COUNT
};

// clang-format off
#define DESK_FORMS(X)                                                                              \
    X(NEW_ORDER)                                                                                   \
    X(COPY_ORDER)                                                                                  \
    X(ORDER) X(CLUB) X(ADD_CLUB) X(HEAD) X(SHAFT) X(TAKE_HEADS) X(TAKE_SHAFTS) X(HEAD_MODEL)       \
        X(NEW_HEAD_MODEL) X(SHAFT_MODEL) X(NEW_SHAFT_MODEL) X(CHART) X(NEW_CHART) X(STOCK_LEVEL)   \
            X(OFFCUT) X(REPAIR) X(MEASURED) X(TAKE_BACK) X(SETTING)
// clang-format on
enum desk_form {
#define X(name) DESK_FORM_##name,
    DESK_FORMS(X)
#undef X
        DESK_FORM_COUNT
};

// What is done at once, without a form.
// clang-format off
#define DESK_DEEDS(X)                                                                              \
    X(RELEASE)                                                                                     \
    X(PRACTICE)                                                                                    \
    X(TOUR)                                                                                        \
    X(START_AGAIN)                                                                                 \
    X(SELFCHECK)                                                                                   \
    X(TICKETS) X(PART_TICKET) X(WORKSHEET) X(CARDS) X(CERTIFICATE) X(PICK_CSV) X(STOCK_CSV)
// clang-format on
enum desk_deed {
#define X(name) DESK_DEED_##name,
    DESK_DEEDS(X)
#undef X
        DESK_DEED_COUNT
};

// Which thing: the key cells of its document (change.h), or what a list says of its rows.
#define DESK_KEYS 3
#define DESK_KEY_MAX 48
struct desk_ref {
    char key[DESK_KEYS][DESK_KEY_MAX];
};

struct desk_query {
    enum desk_list list;
    struct desk_ref of;    // what the list is about
    struct desk_ref after; // the last row of the page before this one; empty: from the first
    bool has_selected;
    struct desk_ref selected;
    char find[DESK_KEY_MAX]; // only those with this in them; empty: all
};
// A page of a list: VIEW_ROWS_MAX rows, what there is to say about the selected one, plots.
struct desk_table {
    struct view_set set;
    struct desk_ref ref[VIEW_ROWS_MAX];
    bool more; // rows follow
};

// What a form holds. Cells of `before` and `now` are those of `now.sheet`, and what only the form
// knows; a reason for the log is the cell "why".
struct desk_draft {
    enum desk_form form;
    struct desk_ref of;
    bool exists; // before is of something the shop has
    struct document before;
    struct document now;
    char id[CONFIRM_ID_MAX]; // of what is saved, so that a second try writes nothing twice
};

struct desk_remarks {
    size_t complaint_count;
    struct {
        char cell[CHANGE_NAME_MAX]; // empty: the whole
        char text[VIEW_TEXT_MAX];
    } complaint[8];
    size_t note_count; // what follows from the cells
    char note[VIEW_FORM_NOTES][VIEW_TEXT_MAX];
    enum view_tone note_tone[VIEW_FORM_NOTES];
    size_t plot_count;
    struct view_plot plot[2];
};

enum desk_result {
    DESK_DONE,
    DESK_NONE,    // there is no such thing
    DESK_REFUSED, // the message, or a complaint, says why; nothing was written
    DESK_FAILED   // disk or database; the message says more; the same again may work
};

// Where to go: a list or a form of something.
enum desk_goes { GOES_NOWHERE, GOES_LIST, GOES_FORM, GOES_DEED, GOES_MENU };
struct desk_place {
    enum desk_goes goes;
    int which; // enum desk_list, desk_form, desk_deed
    struct desk_ref of;
};

struct desk_said {
    char message[VIEW_TEXT_MAX];
    enum view_tone tone;
    struct desk_place next; // after a form was saved; GOES_NOWHERE: back to where it was opened
};

#define DESK_CHOICES_MAX 40
struct desk_ops {
    void *ctx;
    bool metric; // a bare number typed as a length is millimetres, else inches
    void (*random_id)(void *ctx, char ret_id[CONFIRM_ID_MAX]);
    // How many wait under a tile of the menu; negative: no number is shown.
    int64_t (*waiting)(void *ctx, const struct desk_place *place);
    enum desk_result (*list)(void *ctx, const struct desk_query *query,
                             struct desk_table *ret_table);
    // Fills before, now and exists of a draft whose form and of are set.
    enum desk_result (*begin)(void *ctx, struct desk_draft *draft);
    // A field was left: writes the cells as the shop does (`1.5` as `1 1/2`), says what is wrong
    // and what follows if `who` saved it now.
    void (*consider)(void *ctx, const struct worker *who, struct desk_draft *draft,
                     struct desk_remarks *ret_remarks);
    // What may stand in a cell; returns how many, 0 for free text.
    int (*choices)(void *ctx, const struct desk_draft *draft, const char *cell,
                   char texts[][DESK_KEY_MAX], int max);
    enum desk_result (*save)(void *ctx, const struct worker *who, struct desk_draft *draft,
                             struct desk_said *ret_said);
    enum desk_result (*deed)(void *ctx, const struct worker *who, enum desk_deed deed,
                             const struct desk_ref *of, const char *id, struct desk_said *ret_said);
    // Where a scanned or typed text leads; false: nowhere.
    bool (*find)(void *ctx, const char *text, struct desk_place *ret_place);
};

#include "desk_state.h" // struct desk: private fields, complete so that it can be copied

void desk_init(struct desk *desk, const struct desk_ops *ops);

// Somebody comes to the desk, or comes back with a supervisor's rights. The same worker finds it as
// it was left, anybody else the menu. `supervisor` with an empty badge: none.
void desk_enter(struct desk *desk, const struct worker *worker, const struct worker *supervisor);

enum desk_wish {
    DESK_STAYS,
    DESK_LEAVES,          // back to the saw
    DESK_WANTS_SUPERVISOR // a badge and PIN, then desk_enter and on with what was asked
};
enum desk_wish desk_event(struct desk *desk, const struct event *event);

// Stands in the band until something else is said there.
void desk_say(struct desk *desk, enum view_tone tone, const char *message);

// What lies on the scale now; MASS_UNKNOWN: nobody knows. A run of parts takes it for the weight
// that is asked for, while it is stable and nothing was typed there. Nobody's doing, so it is no
// event. True: the view may have changed.
bool desk_weigh(struct desk *desk, mass_mg mass, bool stable);

// Fills body, band, actions and what the body shows; the header is the station's.
void desk_view(const struct desk *desk, struct view *view);

// What a form calls a cell, `Bore note`; the cell itself when it has none of that name.
const char *desk_label(enum desk_form form, const char *cell);

// `LIST ORDERS`, `FORM HEAD ticket`: where the desk stands, for tests.
void desk_where(const struct desk *desk, char *buffer, size_t size);

#endif
