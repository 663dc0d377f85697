// The keys that go somewhere. Arrow keys walk the rows of a list; elsewhere they move a ring over
// what can be touched, Enter takes what is in it. A scanner ends its codes with Enter as well: so
// it counts only where nothing is being typed or scanned, a good while after the last character of
// anybody, and shortly after an arrow key, which no scanner has. What confirms the work is never in
// the ring: that is the button's, or F1.

#include "bench.h"

#include <linux/input-event-codes.h>

#define QUIET_US 300000   // an Enter sooner after a character may be the second of a scanner's two
#define LASTS_US 15000000 // after the last arrow

static bool typing(const struct wedge *wedge) {
    return wedge_typed(wedge)[0] != '\0' || wedge_deadline(wedge) >= 0;
}

static bool way_of(struct bench *bench, const struct wedge *wedge, uint16_t code,
                   enum screen_way *ret_way) {
    enum view_body body = bench_view(bench)->body;
    bool fields = body == VIEW_NUMBER && bench->view.number.field_count > 1;
    switch (code) {
    case KEY_RIGHT:
        *ret_way = SCREEN_WAY_NEXT;
        return true;
    case KEY_LEFT:
        *ret_way = SCREEN_WAY_BACK;
        return true;
    case KEY_UP:
        *ret_way = SCREEN_WAY_UP;
        return true;
    case KEY_DOWN:
        *ret_way = SCREEN_WAY_DOWN;
        return true;
    case KEY_TAB:
        *ret_way = SCREEN_WAY_NEXT;
        return body != VIEW_FORM && !fields && !typing(wedge);
    default:
        return false;
    }
}

static bool take(struct bench *bench, const struct wedge *wedge, int64_t time_us) {
    enum view_action_id action;
    int64_t argument;
    if (!screen_focus(bench->screen, &action, &argument) || typing(wedge) ||
        time_us - bench->char_us < QUIET_US || time_us - bench->arrow_us > LASTS_US) {
        return false;
    }
    bench->arrow_us = time_us;
    bench_action(bench, action, argument);
    return true;
}

static bool focuses(struct bench *bench, struct wedge *wedge, uint16_t code, int64_t time_us) {
    enum screen_way way;
    if (code == KEY_ENTER || code == KEY_KPENTER) {
        return take(bench, wedge, time_us);
    }
    if (!way_of(bench, wedge, code, &way)) {
        return false;
    }
    if (bench_has_field(&bench->view)) {
        wedge_clear(wedge); // its characters are in the field already
    }
    if (screen_focus_move(bench->screen, way)) {
        bench->arrow_us = time_us;
        bench->dirty = true;
    }
    return true;
}

static void walk_log(struct bench *bench, int step) {
    const struct view_log *log = &bench->view.log;
    int row = log->selected + step;
    if (row >= 0 && row < (int)log->row_count) {
        bench_action(bench, ACTION_ROW, log->row[row].seq);
    }
}

static void walk_set(struct bench *bench, int step) {
    const struct view_set *set = &bench->view.set;
    int club = set->selected < 0 ? set->first : set->first + set->selected + step;
    if (club >= 0 && club < set->total) {
        bench_action(bench, ACTION_ROW, club);
    }
}

// Up and down walk the rows of the log and the clubs of a set. True: this key did.
static bool walks(struct bench *bench, uint16_t code) {
    int step = code == KEY_DOWN ? 1 : -1;
    if (code != KEY_DOWN && code != KEY_UP) {
        return false;
    }
    switch ((int)bench_view(bench)->body) {
    case VIEW_LOG:
        walk_log(bench, step);
        return true;
    case VIEW_SET:
        walk_set(bench, step);
        return true;
    case VIEW_FORM:
        bench_action(bench, ACTION_FIELD, bench->view.form.active + step);
        return true;
    default:
        return false;
    }
}

// Tab goes on in a form, and so does an Enter that ends nothing; in a list Enter opens the row.
// True: this key did.
static bool goes_on(struct bench *bench, const struct wedge *wedge, uint16_t code) {
    bool form = bench_view(bench)->body == VIEW_FORM;
    bool enter = (code == KEY_ENTER || code == KEY_KPENTER) && wedge_typed(wedge)[0] == '\0' &&
                 wedge_deadline(wedge) < 0;
    if ((enter && bench->station.state == STATION_DESK) || (form && code == KEY_TAB)) {
        bench_write(bench, '\n');
        return true;
    }
    return false;
}

bool bench_moving_key(struct bench *bench, struct wedge *wedge, uint16_t code, int64_t time_us) {
    return walks(bench, code) || focuses(bench, wedge, code, time_us) ||
           goes_on(bench, wedge, code);
}

void bench_focus_clear(struct bench *bench) {
    if (bench_focus_deadline(bench) >= 0) {
        screen_focus_clear(bench->screen);
        bench->dirty = true;
    }
}

int64_t bench_focus_deadline(const struct bench *bench) {
    enum view_action_id action;
    int64_t argument;
    bool ring = bench->screen != NULL && screen_focus(bench->screen, &action, &argument);
    return ring ? bench->arrow_us + LASTS_US : -1;
}
