#include "pile.h"

#include <stdio.h>
#include <stdlib.h>

#define W15 "WWWWWWWWWWWWWWW"
#define W47 W15 W15 W15 "WW"

static void saw(void *of, const char *words, const struct page_box *box) {
    struct job_seen *seen = of;
    assert_true(seen->count < JOB_BOXES_MAX);
    snprintf(seen->words[seen->count], sizeof seen->words[0], "%s", words != NULL ? words : "");
    seen->box[seen->count++] = *box;
}

struct pile *pile_make(const char *stock) {
    struct pile *pile = calloc(1, sizeof *pile);
    assert_non_null(pile);
    pile->sheet = (struct ticket_sheet){
        .labels = pile->label,
        .stock = ticket_stock_named(stock),
        .from = 1,
        .title = "Tickets",
        .fonts = KERFSIDE_SOURCE_DIR "/assets/fonts",
    };
    assert_non_null(pile->sheet.stock);
    pile->watch = (struct page_watch){.saw = saw, .of = &pile->seen};
    return pile;
}

static void put(struct pile *pile, struct ticket_label label) {
    assert_true(pile->sheet.count < PILE_MAX);
    pile->label[pile->sheet.count++] = label;
}

// The next ticket of this kind that is allowed, after *number.
static struct ticket number(enum ticket_kind kind, bool longest, int *at) {
    struct ticket ticket;
    char body[32];
    do {
        snprintf(body, sizeof body, longest ? "WWWWWWWWWX%02d" : "%04d", ++*at);
    } while (!ticket_make(kind, body, &ticket));
    return ticket;
}

void pile_build(struct pile *pile, int clubs, bool long_names) {
    struct sample sample = sample_make();
    int at = 0;
    char names[200] = "";
    struct ticket ticket = number(TICKET_BUILD, long_names, &at);
    for (int i = 1; i <= clubs && strlen(names) < 140; i++) {
        snprintf(names + strlen(names), sizeof names - strlen(names), "%s%s%d", i > 1 ? ", " : "",
                 long_names ? W15 : "", i);
    }
    put(pile,
        ticket_label_build(&ticket, long_names ? W15 : "2071", (size_t)clubs, names, "2026-12-01"));
    for (int i = 0; i < clubs; i++) {
        char club[16];
        struct head head = sample.head;
        struct shaft shaft = sample.shaft;
        snprintf(club, sizeof club, "%d", i + 1);
        ticket = number(TICKET_HEAD, long_names, &at);
        memcpy(head.ticket, ticket.text, sizeof head.ticket);
        ticket = number(TICKET_SHAFT, long_names, &at);
        memcpy(shaft.ticket, ticket.text, sizeof shaft.ticket);
        if (long_names) {
            snprintf(head.model, sizeof head.model, W47);
            snprintf(head.engraved, sizeof head.engraved, W15);
            snprintf(shaft.model, sizeof shaft.model, W47);
            snprintf(shaft.flex, sizeof shaft.flex, W15);
            snprintf(shaft.rack, sizeof shaft.rack, W15 "WWWWWWWW");
            head.weight += 123;
            shaft.weight += 123;
            shaft.raw_length = IN(45, 63, 64);
        }
        put(pile, ticket_label_head(&head, long_names ? W15 : "2071", long_names ? W15 : club));
        put(pile, ticket_label_shaft(&shaft, LENGTH_INCH * 335 / 1000));
    }
}

void pile_people(struct pile *pile) {
    struct ticket_label label;
    int at = 0;
    put(pile, ticket_label_worker(number(TICKET_WORKER, false, &at).text, "Maren Oakshott",
                                  "supervisor"));
    put(pile, ticket_label_worker(number(TICKET_WORKER, true, &at).text, W47, "builder"));
    for (int i = 0; ticket_label_command(i, &label); i++) {
        put(pile, label);
    }
}

bool pile_write(struct pile *pile, const char *name) {
    snprintf(pile->path, sizeof pile->path, "%s%s%s", *name == '/' ? "" : job_folder(),
             *name == '/' ? "" : "/", name);
    pile->seen.count = 0;
    return ticket_sheet_write(&pile->sheet, pile->path, &pile->watch, pile->message,
                              sizeof pile->message);
}
