// The look at everything the bench is made of: by itself when the start found something, else from
// READY. A press goes on to the saw, unless the log cannot be trusted.

#include "station_inner.h"
#include "text.h"

#include <string.h>

#define PAGE_UNITS 11 // a line is one, with what to do two more

static void look(const struct station *s, struct station_selfcheck *ret) {
    memset(ret, 0, sizeof *ret);
    s->ops->selfcheck(s->ops->ctx, ret);
}

static int units(const struct selfcheck_finding *finding) {
    return finding->todo[0] == '\0' ? 1 : 3;
}

// The first finding of a page, SELFCHECK_COUNT behind the last.
static int page_begin(const struct station_selfcheck *all, int page) {
    int at = 0;
    for (; page > 0 && at < SELFCHECK_COUNT; page--) {
        for (int used = 0; at < SELFCHECK_COUNT; at++) {
            used += units(&all->finding[at]);
            if (used > PAGE_UNITS) {
                break;
            }
        }
    }
    return at;
}

static void open(struct station *s) {
    s->looked_page = 0;
    station_move(s, STATION_SELFCHECK);
}

void selfchecks_open(struct station *s) {
    s->ops->selfcheck_again(s->ops->ctx);
    open(s);
}

bool selfchecks_keep_out(struct station *s) {
    if (s->untrusted && s->state != STATION_SELFCHECK) {
        open(s);
    }
    return s->untrusted;
}

bool selfchecks_news(struct station *s) {
    struct station_selfcheck all;
    bool before = s->state == STATION_SIGNED_OUT || s->state == STATION_READY ||
                  s->state == STATION_PAIR || s->state == STATION_CARE;
    look(s, &all);
    s->untrusted = all.stops;
    if (s->saving == SAVING_NONE && before) {
        bool tell = false;
        for (int i = 0; i < SELFCHECK_COUNT; i++) {
            tell = tell || all.finding[i].tell;
        }
        if (all.stops || (tell && !s->begun && s->state == STATION_SIGNED_OUT)) {
            open(s);
            return true;
        }
    }
    return s->state == STATION_SELFCHECK;
}

bool selfchecks_more(const struct station *s) {
    struct station_selfcheck all;
    look(s, &all);
    return page_begin(&all, s->looked_page + 1) < SELFCHECK_COUNT;
}

void selfchecks_action(struct station *s, enum view_action_id id) {
    if (id == ACTION_LOOK_AGAIN) {
        s->ops->selfcheck_again(s->ops->ctx);
        s->looked_page = 0;
    } else if (id == ACTION_SOUNDS) {
        s->ops->sounds(s->ops->ctx);
    } else if (id == ACTION_NEWER) {
        s->looked_page -= s->looked_page > 0;
    } else if (selfchecks_more(s)) {
        s->looked_page++;
    }
}

static void add(struct view_selfcheck *to, const struct selfcheck_finding *finding) {
    static const enum view_tone tones[] = {
        [SELFCHECK_GOOD] = TONE_FINE, [SELFCHECK_LOOK] = TONE_CAUTION, [SELFCHECK_BAD] = TONE_STOP};
    static const enum word words[] = {[SELFCHECK_GOOD] = WORD_SELFCHECK_GOOD,
                                      [SELFCHECK_LOOK] = WORD_SELFCHECK_LOOK,
                                      [SELFCHECK_BAD] = WORD_SELFCHECK_BAD};
    to->line[to->count].tone = tones[finding->state];
    SET(to->line[to->count].word, word(words[finding->state]));
    SET(to->line[to->count].name, finding->name);
    SET(to->line[to->count].value, finding->value);
    SET(to->line[to->count].todo, finding->todo);
    to->count++;
}

void view_selfcheck(const struct station *s, struct view *view) {
    struct station_selfcheck all;
    int count[SELFCHECK_BAD + 1] = {0};
    char bad[LENGTH_TEXT_MAX];
    char some[LENGTH_TEXT_MAX];
    look(s, &all);
    for (int i = 0; i < SELFCHECK_COUNT; i++) {
        count[all.finding[i].state]++;
    }
    say_number(count[SELFCHECK_BAD], bad);
    say_number(count[SELFCHECK_LOOK], some);
    view->body = VIEW_SELFCHECK;
    SET(view->title, word(WORD_SELFCHECK));
    if (count[SELFCHECK_BAD] + count[SELFCHECK_LOOK] == 0) {
        SET(view->subtitle, word(WORD_SELFCHECK_ALL_GOOD));
    } else {
        SAY(view->subtitle, SELFCHECK_COUNTS, bad, some, NULL);
    }
    int last = page_begin(&all, s->looked_page + 1);
    for (int i = page_begin(&all, s->looked_page); i < last; i++) {
        add(&view->selfcheck, &all.finding[i]);
    }
    if (all.stops) {
        view_band(view, TONE_STOP, false, WORD_SELFCHECK_STOP, WORD_EMPTY);
    } else {
        view_band(view, TONE_PLAIN, true, WORD_SELFCHECK_BAND, WORD_EMPTY);
    }
}
