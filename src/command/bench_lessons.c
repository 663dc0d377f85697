// Which parts of the copy a lesson is done with: clubs that are planned and wait.

#include "bench.h"
#include "bench_practice.h"

#include <stdio.h>
#include <string.h>

#define CLUBS_LOOKED_AT 60

static void put(struct lesson_parts *parts, enum lesson_offer offer, const char *ticket) {
    snprintf(parts->ticket[offer], sizeof parts->ticket[offer], "%s", ticket);
}

// A club that goes from the pair to the tip's mark without any question.
static bool plain(const struct bench *bench, const struct club *club) {
    struct plan_input input;
    struct plan plan;
    return club->head.ticket[0] != '\0' && club->shaft.ticket[0] != '\0' &&
           club->progress.stage == STAGE_PENDING && club->order.changed_seq == 0 &&
           club_plan(club, &bench->settings->station.rules, &input, &plan) && plan.tip_mark > 0;
}

static void waiting(struct bench *bench, struct lesson_parts *parts) {
    static struct club_line lines[CLUBS_LOOKED_AT]; // large
    int count = store_clubs(bench->store, CLUBS_NEXT, lines, CLUBS_LOOKED_AT, NULL);
    for (int i = 0; i < count; i++) {
        static struct club club; // large
        bool head = parts->ticket[OFFER_HEAD][0] == '\0';
        if (lines[i].head[0] == '\0' || lines[i].shaft[0] == '\0' ||
            (head &&
             (store_club(bench->store, lines[i].id, &club) != STORE_OK || !plain(bench, &club)))) {
            continue;
        }
        if (!head) {
            put(parts, OFFER_OTHER, lines[i].shaft);
            return;
        }
        put(parts, OFFER_HEAD, lines[i].head);
        put(parts, OFFER_SHAFT, lines[i].shaft);
    }
}

// Well formed, and nothing of the shop's.
static void unknown(struct bench *bench, struct lesson_parts *parts) {
    for (int i = 9999; i > 9000; i--) {
        char body[8];
        struct ticket ticket;
        struct part part;
        snprintf(body, sizeof body, "%d", i);
        if (ticket_make(TICKET_HEAD, body, &ticket) &&
            store_part(bench->store, ticket.text, &part) == STORE_NONE) {
            put(parts, OFFER_UNKNOWN, ticket.text);
            return;
        }
    }
}

static bool first_builder(void *context, const struct person *person) {
    char *badge = context;
    if (!person->withdrawn && person->worker.role == ROLE_BUILDER) {
        snprintf(badge, TICKET_TEXT_MAX, "%s", person->worker.badge);
    }
    return badge[0] == '\0';
}

void bench_lessons_pick(struct bench *bench, bool resumes, struct lesson_parts *ret_parts) {
    const struct lesson_parts *now = &bench->practice.lesson.parts;
    struct lesson_parts parts = {0};
    struct club_line cut;
    if (resumes) {
        put(&parts, OFFER_HEAD, now->ticket[OFFER_HEAD]);
        put(&parts, OFFER_SHAFT, now->ticket[OFFER_SHAFT]);
    } else {
        waiting(bench, &parts);
    }
    unknown(bench, &parts);
    if (store_clubs(bench->store, CLUBS_CUT, &cut, 1, NULL) == 1) {
        put(&parts, OFFER_CUT, cut.shaft);
    }
    if (bench->practice.badge[0] == '\0') {
        store_people(bench->store, first_builder, bench->practice.badge);
    }
    put(&parts, OFFER_BADGE, bench->practice.badge);
    *ret_parts = parts;
}
