// What the desk did to the order meanwhile: it waits, is cancelled, or was changed while it is cut.

#include "station_inner.h"
#include "text.h"

#include <string.h>

static enum word waits(const struct order *order) {
    if (order->cancelled) {
        return WORD_HOLD_CLUB_CANCELLED;
    }
    switch (order->status) {
    case ORDER_DRAFT:
        return WORD_HOLD_DRAFT;
    case ORDER_HELD:
        return WORD_HOLD_HELD;
    case ORDER_CANCELLED:
        return WORD_HOLD_CANCELLED;
    case ORDER_RELEASED:
    case ORDER_STATUS_COUNT:
        break;
    }
    return WORD_EMPTY;
}

bool ordering_waits(struct station *s, const struct club *club) {
    const struct order *order = &club->order;
    enum word why = waits(order);
    if (why == WORD_EMPTY) {
        return false;
    }
    struct hold hold = hold_make(s, HOLD_NOT_RELEASED);
    hold.start_over = true;
    hold_line(&hold, why, order->build, order->club, NULL);
    hold_todo(&hold, WORD_DO_ASIDE_BOTH, NULL, NULL, NULL);
    hold_todo(&hold, WORD_DO_ASK_DESK, NULL, NULL, NULL);
    hold_todo(&hold, WORD_DO_NEXT_LIST, NULL, NULL, NULL);
    hold_show(s, &hold);
    return true;
}

// `Club 3: playing_length 39 to 38 1/2. Bo Tarn, 10:42.`
static void change_line(const struct station *s, const struct station_change *change,
                        char line[VIEW_TEXT_MAX]) {
    const struct station_ops *ops = s->ops;
    struct worker worker;
    char when[VIEW_SHORT_MAX];
    char tail[VIEW_TEXT_MAX];
    int64_t today = ops->day_start_ms(ops->ctx, ops->wall_ms(ops->ctx));
    memset(&worker, 0, sizeof worker);
    bool named = ops->worker(ops->ctx, change->worker, &worker) == STATION_FOUND;
    ops->time_text(ops->ctx, change->wall_ms, change->wall_ms < today, when, sizeof when);
    words_fill(tail, sizeof tail, WORD_CHANGE_WHO, named ? worker.name : change->worker, when,
               NULL);
    memset(line, 0, VIEW_TEXT_MAX);
    if (change->part[0] != '\0') {
        words_fill(line, VIEW_TEXT_MAX, WORD_CHANGE_PART, change->part, change->words, NULL);
    } else if (change->club[0] != '\0') {
        words_fill(line, VIEW_TEXT_MAX, WORD_CHANGE_CLUB, change->club, change->words, NULL);
    } else {
        words_fill(line, VIEW_TEXT_MAX, WORD_CHANGE_ORDER, change->words, NULL, NULL);
    }
    // Who and when are there even when the words are many.
    size_t most = VIEW_TEXT_MAX - strlen(tail) - 1;
    size_t used = strnlen(line, most);
    while (used > 0 && ((unsigned char)line[used] & 0xC0) == 0x80) {
        used--; // never through a character
    }
    memset(line + used, 0, VIEW_TEXT_MAX - used);
    memcpy(line + used, tail, strlen(tail));
}

static void changed(struct station *s, const struct station_changes *changes) {
    const enum stage stage = s->club.progress.stage;
    struct hold hold = hold_make(s, HOLD_ORDER_CHANGED);
    hold.start_over = true;
    hold.told = changes->newest;
    for (int i = 0; i < changes->shown; i++) {
        change_line(s, &changes->row[i], hold.line[i]);
    }
    hold_todo(&hold, WORD_DO_UNDERSTOOD, NULL, NULL, NULL);
    if (changes->count > changes->shown) {
        hold_todo_count(&hold, WORDS_DO_MORE_CHANGES, changes->count - changes->shown);
    }
    if (stage == STAGE_TIP_SHOWN || stage == STAGE_BUTT_SHOWN) {
        hold_todo(&hold, WORD_DO_SAY_CUT, NULL, NULL, NULL);
    }
    hold_show(s, &hold);
}

bool ordering_changed(struct station *s) {
    struct station_changes changes;
    memset(&changes, 0, sizeof changes);
    if (s->club.order.changed_seq == 0) {
        return false;
    }
    s->shown_seq = 0; // a mark from before is none any more
    if (s->ops->changes(s->ops->ctx, s->club.order.build, s->club.order.changed_seq, &changes) !=
        STATION_FOUND) {
        hold_store_failed(s);
    } else {
        changed(s, &changes);
    }
    return true;
}

void ordering_understood(struct station *s) {
    struct entry entry = save_entry(s, ENTRY_TOLD);
    entry.refers = s->hold.told;
    save_begin(s, &entry, THEN_REPLAN);
}

bool ordering_refused(struct station *s) {
    struct club club;
    memset(&club, 0, sizeof club);
    if (s->club.id == 0 || s->ops->club(s->ops->ctx, s->club.id, &club) != STATION_FOUND) {
        return false;
    }
    if (club.order.changed_seq == 0 && waits(&club.order) == WORD_EMPTY) {
        return false;
    }
    s->club = club;
    return ordering_changed(s) || ordering_waits(s, &club);
}

void ordering_wait_text(const struct station *s, char *buffer, size_t size) {
    struct station_wait wait;
    char pace[PACE_TEXT_MAX] = "";
    memset(&wait, 0, sizeof wait);
    memset(buffer, 0, size);
    s->ops->wait(s->ops->ctx, &wait);
    if (wait.clubs <= 0) {
        return;
    }
    if (wait.pace_ms <= 0) {
        words_count(buffer, size, WORDS_WAITS, wait.clubs, NULL);
        return;
    }
    pace_text(wait.clubs * wait.pace_ms, pace);
    words_count(buffer, size, WORDS_WAITS_PACE, wait.clubs, pace);
}
