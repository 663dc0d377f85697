#ifndef FAKE_H
#define FAKE_H

// Somebody at a desk that has nothing behind it: what it asks is answered as the test wants, and
// what it asked is kept.

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "desk_inner.h"

#define COUNT(array) (sizeof(array) / sizeof(array)[0])
#define FAKE_COLUMNS 3 // of a chart's document

struct fake_answers {
    int rows;                    // of every list
    enum desk_result list;       // of every list
    enum desk_result begin;      // of every form
    enum desk_result save;       // of every form
    enum desk_result deed;       // of every deed
    struct desk_place next;      // where a saved form leads
    char wrong[CHANGE_NAME_MAX]; // a cell that is complained about; empty: none
    bool wrong_when_empty;       // only while it is empty
    bool long_texts;             // as long as they may be
};

// Nothing but what decides what comes next: two of them that are equal answer the same.
struct fake {
    struct fake_answers answer;
    unsigned ids;
    unsigned begun;
    unsigned considered;
    unsigned saves; // asked for
    unsigned saved; // answered DESK_DONE
    unsigned deeds;
    struct desk_query asked;     // the newest list
    struct desk_draft draft;     // that was to be saved
    char saver[TICKET_TEXT_MAX]; // who
    enum desk_deed deed;
    struct desk_ref deed_of;
};

struct bench {
    struct fake fake;
    struct desk_ops ops;
    struct desk desk;
    enum desk_wish wish; // of the newest event
};

extern const struct worker fake_builder, fake_other, fake_supervisor, fake_nobody;

// Everything works; a builder stands at the desk, `supervised` with a supervisor's rights.
void bench_begin(struct bench *bench, bool supervised);

void bench_touch(struct bench *bench, enum view_action_id id, int64_t argument);
// Presses the button with this label on the screen; fails the test when it is not there.
void bench_press(struct bench *bench, const char *label);
bool bench_offers(const struct bench *bench, const char *label);
void bench_type(struct bench *bench, const char *text);
void bench_enter(struct bench *bench);
void bench_scan(struct bench *bench, const char *text);
// From the menu into a form, whatever opens it in truth.
void bench_open(struct bench *bench, enum desk_form form);

struct view bench_view(const struct bench *bench);
void bench_expect(const struct bench *bench, const char *where);
void bench_expect_message(const struct bench *bench, const char *text);
const char *bench_cell(const struct bench *bench, const char *cell);

#endif
