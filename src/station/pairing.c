// One part scanned, then the other: finding the club, and every way the two can be wrong.

#include "station_inner.h"

#include <string.h>

static enum word of_kind(enum ticket_kind kind, enum word head, enum word shaft) {
    return kind == TICKET_HEAD ? head : shaft;
}

static void put_back(struct hold *hold, enum ticket_kind kind, const char *ticket) {
    hold_todo(hold, of_kind(kind, WORD_DO_PUT_BACK_HEAD, WORD_DO_PUT_BACK_SHAFT), ticket, NULL,
              NULL);
}

static void unknown_part(struct station *s, const struct ticket *ticket) {
    struct hold hold = hold_make(s, HOLD_UNKNOWN_PART);
    hold_line(&hold, of_kind(ticket->kind, WORD_HOLD_UNKNOWN_HEAD, WORD_HOLD_UNKNOWN_SHAFT),
              ticket->text, NULL, NULL);
    hold_todo(&hold, WORD_DO_RECEIVE, NULL, NULL, NULL);
    hold_todo(&hold, WORD_DO_NEXT_LIST, NULL, NULL, NULL);
    hold_show(s, &hold);
}

// "Head H-0001A is for build 2041, club 2."
static void belongs(struct hold *hold, enum ticket_kind kind, const char *ticket, const char *build,
                    const char *club) {
    if (build[0] == '\0') {
        hold_line(hold, of_kind(kind, WORD_HOLD_NO_CLUB_HEAD, WORD_HOLD_NO_CLUB_SHAFT), ticket,
                  NULL, NULL);
        return;
    }
    hold_line(hold, of_kind(kind, WORD_HOLD_FOR_HEAD, WORD_HOLD_FOR_SHAFT), ticket, build, club);
}

static void expected(const struct station *s, struct hold *hold) {
    if (s->head[0] == '\0') {
        hold_todo(hold, WORD_DO_SCAN_HEAD, s->club.head.ticket, NULL, NULL);
    } else if (s->club.shaft.rack[0] != '\0') {
        hold_todo(hold, WORD_DO_SCAN_SHAFT_RACK, s->club.shaft.ticket, s->club.shaft.rack, NULL);
    } else {
        hold_todo(hold, WORD_DO_SCAN_SHAFT, s->club.shaft.ticket, NULL, NULL);
    }
}

static void wrong_pair(struct station *s, const struct part *part) {
    struct hold hold = hold_make(s, HOLD_WRONG_PAIR);
    bool head_first = s->head[0] != '\0';
    hold.start_over = true;
    belongs(&hold, head_first ? TICKET_HEAD : TICKET_SHAFT, head_first ? s->head : s->shaft,
            s->club.order.build, s->club.order.club);
    belongs(&hold, part->kind, part->ticket, part->build, part->club);
    put_back(&hold, part->kind, part->ticket);
    expected(s, &hold);
    hold_show(s, &hold);
}

static void same_kind(struct station *s, const struct ticket *ticket) {
    struct hold hold = hold_make(s, HOLD_SAME_KIND);
    hold.start_over = true;
    hold_line(&hold, WORD_HOLD_READ, ticket->text, NULL, NULL);
    put_back(&hold, ticket->kind, ticket->text);
    expected(s, &hold);
    hold_show(s, &hold);
}

static void no_build(struct station *s, const struct part *part) {
    bool cut = part->life == PART_CUT;
    struct hold hold = hold_make(s, cut ? HOLD_ALREADY_CUT : HOLD_NO_BUILD);
    if (cut) {
        hold_line(&hold, WORD_HOLD_LEFT, part->ticket, NULL, NULL);
        put_back(&hold, part->kind, part->ticket);
        hold_todo(&hold, WORD_DO_RAW, NULL, NULL, NULL);
    } else {
        hold_line(&hold, of_kind(part->kind, WORD_HOLD_NO_CLUB_HEAD, WORD_HOLD_NO_CLUB_SHAFT),
                  part->ticket, NULL, NULL);
        put_back(&hold, part->kind, part->ticket);
        hold_todo(&hold, WORD_DO_ASK_BUILD, NULL, NULL, NULL);
    }
    hold_show(s, &hold);
}

static void scrap(struct station *s, const struct part *part) {
    struct hold hold = hold_make(s, HOLD_SCRAP);
    hold_line(&hold, WORD_HOLD_LEFT, part->ticket, NULL, NULL);
    put_back(&hold, part->kind, part->ticket);
    hold_todo(&hold, WORD_DO_RAW, NULL, NULL, NULL);
    hold_show(s, &hold);
}

static void club_done(struct station *s, const struct part *part, const struct club *club) {
    bool shaft = part->kind == TICKET_SHAFT;
    struct hold hold = hold_make(s, shaft ? HOLD_ALREADY_CUT : HOLD_CLUB_DONE);
    hold_line(&hold, WORD_HOLD_DONE, club->order.build, club->order.club, NULL);
    if (shaft) {
        hold_line(&hold, WORD_HOLD_LEFT, part->ticket, NULL, NULL);
    }
    put_back(&hold, part->kind, part->ticket);
    hold_todo(&hold, WORD_DO_NEXT_LIST, NULL, NULL, NULL);
    hold_show(s, &hold);
}

static void no_partner(struct station *s, const struct club *club) {
    struct hold hold = hold_make(s, HOLD_NO_PARTNER);
    hold_line(&hold, club->head.ticket[0] == '\0' ? WORD_HOLD_NO_HEAD : WORD_HOLD_NO_SHAFT,
              club->order.build, club->order.club, NULL);
    hold_todo(&hold, WORD_DO_ASK_BUILD, NULL, NULL, NULL);
    hold_todo(&hold, WORD_DO_NEXT_LIST, NULL, NULL, NULL);
    hold_show(s, &hold);
}

static void take(struct station *s, const struct part *part) {
    if (part->kind == TICKET_HEAD) {
        SET(s->head, part->ticket);
    } else {
        SET(s->shaft, part->ticket);
    }
    station_sound(s, SOUND_ACCEPTED);
}

static void first_part(struct station *s, const struct part *part) {
    struct club club;
    memset(&club, 0, sizeof club);
    if (part->life == PART_SCRAP) {
        scrap(s, part);
        return;
    }
    if (part->club_id == 0) {
        no_build(s, part);
        return;
    }
    if (s->ops->club(s->ops->ctx, part->club_id, &club) != STATION_FOUND) {
        hold_store_failed(s);
        return;
    }
    if (club.progress.stage == STAGE_DONE) {
        club_done(s, part, &club);
    } else if (club.head.ticket[0] == '\0' || club.shaft.ticket[0] == '\0') {
        no_partner(s, &club);
    } else if (!ordering_waits(s, &club)) {
        s->club = club;
        take(s, part);
        station_move(s, STATION_PAIR);
    }
}

static void second_part(struct station *s, const struct part *part) {
    const char *wanted = part->kind == TICKET_HEAD ? s->club.head.ticket : s->club.shaft.ticket;
    if (part->life == PART_SCRAP) {
        scrap(s, part);
    } else if (part->club_id != s->club.id || strcmp(part->ticket, wanted) != 0) {
        wrong_pair(s, part);
    } else {
        take(s, part);
        if (cutting_reload(s)) {
            cutting_proceed(s);
        }
    }
}

void pairing_scan(struct station *s, const struct ticket *ticket) {
    bool head = ticket->kind == TICKET_HEAD;
    const char *same = head ? s->head : s->shaft;
    const char *other = head ? s->shaft : s->head;
    struct part part;
    memset(&part, 0, sizeof part);
    if (strcmp(same, ticket->text) == 0) {
        return; // the same part once more
    }
    switch (s->ops->part(s->ops->ctx, ticket->text, &part)) {
    case STATION_ABSENT:
        unknown_part(s, ticket);
        return;
    case STATION_LOOKUP_FAILED:
        hold_store_failed(s);
        return;
    case STATION_FOUND:
        break;
    }
    if (same[0] != '\0') {
        same_kind(s, ticket);
    } else if (other[0] != '\0') {
        second_part(s, &part);
    } else {
        first_part(s, &part);
    }
}
