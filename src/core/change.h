#ifndef CHANGE_H
#define CHANGE_H

// What the workshop knows of one thing (a head, a shaft, a model, a chart, a club of an order) as
// cells of text, and what was changed of it: each cell before and after. A change goes into the log
// as text, so that it can be read months later, and taken back by the change the other way round.
//
// Names and values are those of the CSV files; see sheet.h of the store for which sheet has which.
// Pure functions. Texts are NUL-terminated UTF-8 without control characters.

#include <stdbool.h>
#include <stddef.h>

#define CHANGE_NAME_MAX 24
#define CHANGE_VALUE_MAX 128
#define CHANGE_CELLS_MAX 32
#define CHANGE_KEYS_MAX 3
#define CHANGE_TEXT_MAX 4096 // of change_write, as long as the log takes

struct document_cell {
    char name[CHANGE_NAME_MAX];
    char value[CHANGE_VALUE_MAX]; // empty: not known
};
struct document {
    char sheet[CHANGE_NAME_MAX]; // "heads"
    size_t keys;                 // the first cells, which say what it is: `ticket`; `build`, `club`
    size_t count;                // all cells
    struct document_cell cell[CHANGE_CELLS_MAX];
};

// Empty value: no such cell, or not known.
const char *document_value(const struct document *document, const char *name);
// Sets a cell, adding it at the end when it is not there. False when name or value is too long, has
// a control character or invalid UTF-8 in it, or no cell is free; nothing is changed then.
bool document_set(struct document *document, const char *name, const char *value);
// Takes a cell away that is no key; nothing when it is not there.
void document_drop(struct document *document, const char *name);

struct change_cell {
    char name[CHANGE_NAME_MAX];
    char before[CHANGE_VALUE_MAX];
    char after[CHANGE_VALUE_MAX];
};
struct change {
    char sheet[CHANGE_NAME_MAX];
    bool made;  // it was not there before
    bool taken; // it is not there afterwards
    size_t keys;
    struct document_cell key[CHANGE_KEYS_MAX];
    size_t count; // cells that differ, keys left out
    struct change_cell cell[CHANGE_CELLS_MAX];
};

// From `before` to `after`; NULL: not there. One of them at least is given, and both have the same
// sheet and keys. A cell that one of them lacks is empty there.
void change_between(const struct document *before, const struct document *after,
                    struct change *ret_change);

// Nothing differs.
bool change_empty(const struct change *change);

// What takes `change` back.
void change_back(const struct change *change, struct change *ret_back);

// `now` with the change applied; NULL: it is not there. *ret_after is not written when the change
// takes the thing away. Returns NULL, or the name of what is not as the change found it: a cell's,
// or a key's when the thing is there or not there against what the change says.
const char *change_apply(const struct change *change, const struct document *now,
                         struct document *ret_after);

// One line for people: `weight_g 203 to 204.5; rack A1 to none`, `column 3: 210 1/2 to 210 5/8`.
// Cut at a whole character.
void change_words(const struct change *change, char *buffer, size_t size);

// The text for the log. Lines `key<TAB>value`, first `kerfside-change<TAB>1`. False when it does
// not fit.
bool change_write(const struct change *change, char *buffer, size_t size);
// Reads bytes from a log that may be damaged: false on anything but what change_write makes.
bool change_read(const char *text, struct change *ret_change);

#endif
