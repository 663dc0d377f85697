#ifndef LAWS_H
#define LAWS_H

// The eight laws of station.h, judged from outside: from the events that went in, the view that
// came out and the facts of the workshop's log. Never from what the station believes, except where
// a law is about just that.

#include "shop.h"

// Before an event: what must be remembered to judge it.
struct laws_before {
    int64_t seq;
    int holds_heard;
    bool saving;
    enum station_state state;
    char head[TICKET_TEXT_MAX];
    char shaft[TICKET_TEXT_MAX];
    char pending_id[CONFIRM_ID_MAX];
    bool dead; // the button is in its dead time
};

void laws_remember(const struct station *station, const struct shop *shop,
                   struct laws_before *ret_before);

// NULL when every law holds after `event`, else which one is broken and how.
const char *laws_judge(const struct station *station, const struct shop *shop,
                       const struct laws_before *before, const struct event *event,
                       const struct view *view);

// Law 7: after a restart the same two scans lead to the exact next step of this club.
const char *laws_restart(const struct shop *shop, int64_t club_id);

// The first text of the view that fills its buffer to the end, NULL when none does.
const char *laws_cut_off(const struct view *view);

#endif
