#ifndef DESK_INNER_H
#define DESK_INNER_H

// How the files of src/desk call each other. Only for them.

#include "desk.h"
#include "tongue.h"
#include "words.h"

// --- specs_*.c: what each menu, list and form offers ---------------------------------------------
struct desk_button {
    const char *label;
    const char *key;
    enum desk_goes goes;
    int which;
    bool row; // about the selected row, and there is none without one
    enum view_tone tone;
};
struct list_spec {
    const struct desk_button *button; // the first about a row opens it
    size_t count;
    bool whole; // nothing is looked for in it
};
const struct list_spec *list_spec(enum desk_list list);

struct field_spec {
    const char *cell;
    const char *label;
    const char *unit;
    bool fixed; // once the thing exists
};
struct form_spec {
    const char *title;
    const struct field_spec *field;
    size_t count;
    bool supervisor;        // nobody else may save it
    const char *supervised; // nor with this cell filled in; NULL: none
    bool run;               // saved, the next one of the kind begins
    const char *scale;      // the cell with a weight that a scale may give
    bool columns;           // a chart's columns follow the fields
    bool why;               // asks for a reason
    const char *passing;    // a cell that is asked and never saved; NULL: none
};
const struct form_spec *form_spec(enum desk_form form);

struct tile_spec {
    const char *label;
    const char *line;
    const char *key;
    enum desk_goes goes;
    int which;
};
const struct tile_spec *tile_specs(size_t *ret_count);

// --- desk.c --------------------------------------------------------------------------------------
struct desk_page *desk_top(struct desk *desk);
const struct desk_page *desk_top_of(const struct desk *desk);
enum desk_wish desk_open(struct desk *desk, const struct desk_place *place);
void desk_back(struct desk *desk);
// The worker who answers for what is done.
const struct worker *desk_who(const struct desk *desk);

// --- list.c --------------------------------------------------------------------------------------
enum desk_wish list_event(struct desk *desk, const struct event *event);
void list_view(const struct desk *desk, struct view *view);

// --- form*.c -----------------------------------------------------------------------------------
// False, and the message says why: there is nothing to fill in.
bool form_open(struct desk *desk, const struct desk_place *place);
enum desk_wish form_event(struct desk *desk, const struct event *event);
bool form_unsaved(const struct desk *desk);
void form_view(const struct desk *desk, struct view *view);

enum form_kind { FIELD_CELL, FIELD_COLUMN, FIELD_EXTRA };
struct form_field {
    enum form_kind kind;
    char cell[CHANGE_NAME_MAX];
    char label[VIEW_SHORT_MAX];
    const char *unit;
    bool fixed;
};
int form_fields(const struct desk_work *work, struct form_field fields[VIEW_FORM_FIELDS]);
// A length of which only the number was typed gets the unit that this bench goes by, so that it is
// never taken for another.
void form_say_unit(struct desk_work *work, const struct form_field *field);
const char *form_text(const struct desk_work *work, const struct form_field *field);
// Choices of a field that begin with what stands there; all of them when nothing was typed.
int form_offered(const struct desk *desk, const struct form_field *field,
                 char texts[][DESK_KEY_MAX], int max);
// Its choices are not all that may stand there: a new flex, a head from elsewhere.
bool form_open_choice(const struct desk_work *work, const struct form_field *field);
// What is still to be filled in is no mistake before somebody wants to save.
bool form_shown(const struct desk_work *work, size_t complaint);
// `Weight: this is no weight`.
void form_complaint(const struct desk_work *work, size_t which, char *buffer, size_t size);
// False: this cannot stand there.
bool form_set(struct desk_work *work, const struct form_field *field, const char *text);
// The line below the columns becomes one, an emptied column goes. False: it is no column.
bool form_settle(struct desk_work *work, const struct form_field *field);
// The active field, if it can be typed into.
bool form_active(const struct desk_work *work, struct form_field *ret_field);
// The office looks at the draft again.
void form_consider(struct desk *desk);
// In a run only what is still empty is asked for, a reason only where one is needed: the first such
// field behind `at`, or -1.
int form_empty(const struct desk_work *work, int at);
// Where a scanned code belongs in a run, whatever field is active; -1: into that one.
int form_home(const struct desk_work *work, const char *text);
// What lies on the scale into the active field, or out of it again. True: it changed.
bool form_weigh(struct desk *desk);
// The weight that was weighed is the part's from now on.
void form_weighed(struct desk *desk);
// What the scale says about the active field, for its unit; false: nothing.
bool form_weight_words(const struct desk *desk, const struct form_field *field, char *buffer,
                       size_t size);
#define FORM_SAVE 0
#define FORM_KEYS 1

#endif
