// The invented parts of the workshop in memory.

#include "shop.h"
#include "text.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define IN(whole, sixteenths) ((whole)*LENGTH_INCH + (sixteenths)*LENGTH_INCH / 16)

const char *shop_ticket(enum ticket_kind kind, const char *body) {
    static char texts[16][TICKET_TEXT_MAX];
    static int at;
    struct ticket ticket = {0};
    at = (at + 1) % 16;
    if (!ticket_make(kind, body, &ticket)) {
        fprintf(stderr, "shop: %s is never issued\n", body);
        abort();
    }
    memcpy(texts[at], ticket.text, sizeof texts[at]);
    return texts[at];
}

static void put(char *to, const char *from) {
    memcpy(to, from, strlen(from) + 1);
}

static struct shaft_model steel(void) {
    struct shaft_model model = {.material = MATERIAL_STEEL,
                                .tip = TIP_PARALLEL,
                                .tip_diameter = 370 * LENGTH_INCH / 1000,
                                .butt_diameter = 600 * LENGTH_INCH / 1000,
                                .raw_length = IN(41, 0),
                                .weight = 120 * MASS_GRAM,
                                .tip_section = IN(9, 0),
                                .max_tip_trim = IN(5, 0),
                                .max_butt_trim = IN(8, 0),
                                .bore_note = BORE_NOTE_NONE,
                                .bore_reference = LENGTH_UNKNOWN,
                                .revision = 1};
    put(model.name, "Alder 120");
    return model;
}

static struct shaft_model graphite(void) {
    struct shaft_model model = steel();
    model.material = MATERIAL_GRAPHITE;
    model.tip_diameter = 335 * LENGTH_INCH / 1000;
    model.raw_length = IN(46, 0);
    model.weight = 65 * MASS_GRAM;
    model.bore_note = BORE_NOTE_ADD_HEIGHT;
    put(model.name, "Heron 65");
    return model;
}

static struct chart chart(enum chart_kind kind, mass_mg first, mass_mg step, length_nm base) {
    static const char *const names[] = {"A", "B", "C"};
    struct chart chart = {.kind = kind, .revision = 4, .count = 3};
    put(chart.flex, "firm");
    for (int i = 0; i < 3; i++) {
        put(chart.column[i].name, names[i]);
        chart.column[i].weight = first + i * step;
        chart.column[i].tip_trim = base + i * LENGTH_INCH / 2;
    }
    return chart;
}

static void names(struct club *club, int number) {
    char body[8];
    snprintf(body, sizeof body, "%d", number == 4 ? 9 : number); // H-4 is never issued
    put(club->head.ticket, shop_ticket(TICKET_HEAD, body));
    put(club->shaft.ticket, shop_ticket(TICKET_SHAFT, body));
    put(club->shaft.model, club->model.name);
    put(club->shaft.flex, "firm");
    snprintf(club->shaft.rack, sizeof club->shaft.rack, "B, slot %d", number);
    snprintf(club->order.build, sizeof club->order.build, "20%d", 40 + number);
    put(club->order.club, body);
    club->order.position = number;
    club->order.count = 9;
    put(club->order.due, "2026-11-25");
    club->id = number;
    club->progress = (struct progress){.attempt = 1, .tip_made = LENGTH_UNKNOWN};
}

static struct club iron(int number) {
    struct club club;
    memset(&club, 0, sizeof club);
    club.model = steel();
    club.chart = chart(CHART_KIND_IRON, 240 * MASS_GRAM, 7 * MASS_GRAM, IN(1, 0));
    club.head = (struct head){.kind = HEAD_KIND_IRON,
                              .weight = 247 * MASS_GRAM,
                              .hosel_bore = 370 * LENGTH_INCH / 1000,
                              .insertion = IN(1, 4),
                              .bore_height = IN(1, 0),
                              .model_bore_height = IN(1, 0),
                              .bore = BORE_BLIND,
                              .loft = LENGTH_UNKNOWN,
                              .lie = LENGTH_UNKNOWN};
    put(club.head.model, "Cove 5");
    put(club.head.engraved, "B");
    club.shaft.raw_length = IN(41, 0);
    club.shaft.weight = 120 * MASS_GRAM;
    club.order = order_empty();
    club.order.playing_length = IN(38, 0);
    club.order.grip_cap = IN(0, 2);
    club.order.grip_weight = 50 * MASS_GRAM;
    names(&club, number);
    return club;
}

static struct club driver(int number) {
    struct club club = iron(number);
    club.model = graphite();
    club.chart = chart(CHART_KIND_WOOD, 200 * MASS_GRAM, 10 * MASS_GRAM, IN(1, 0));
    club.head.kind = HEAD_KIND_DRIVER;
    club.head.weight = 210 * MASS_GRAM;
    club.head.hosel_bore = 335 * LENGTH_INCH / 1000;
    club.head.bore_height = IN(1, 2);
    put(club.head.model, "Tern 1");
    put(club.head.engraved, "A");
    club.shaft.raw_length = IN(46, 0);
    club.order.playing_length = IN(44, 0);
    names(&club, number);
    return club;
}

static struct part loose(const char *body, enum part_life life) {
    struct part part = {.kind = TICKET_SHAFT, .life = life};
    put(part.ticket, shop_ticket(TICKET_SHAFT, body));
    put(part.model, "Alder 120");
    return part;
}

static struct worker worker(const char *body, const char *name, enum role role) {
    struct worker worker = {.role = role};
    put(worker.badge, shop_ticket(TICKET_WORKER, body));
    put(worker.name, name);
    return worker;
}

void shop_catalogue(struct catalogue *catalogue) {
    memset(catalogue, 0, sizeof *catalogue);
    struct club *club = catalogue->club;
    catalogue->club_count = SHOP_CLUBS;
    club[0] = iron(1);
    club[1] = driver(2);
    club[2] = iron(3);
    club[2].progress.stage = STAGE_TIP_SHOWN;
    put(club[2].progress.bench, "Bench 9");
    club[3] = iron(4);
    club[3].head.bore_height = LENGTH_UNKNOWN;
    club[4] = iron(5);
    club[4].head.weight = 280 * MASS_GRAM;
    club[5] = iron(6);
    club[5].model.tip_diameter = 355 * LENGTH_INCH / 1000;
    club[6] = iron(7);
    club[6].chart.column[1].tip_trim = 0;
    club[6].order.playing_length = IN(42, 2); // finished = raw
    club[7] = iron(8);
    club[7].order.playing_length = IN(45, 0);
    catalogue->loose[0] = loose("51", PART_RAW);
    catalogue->loose[1] = loose("52", PART_CUT);
    catalogue->loose[2] = loose("53", PART_SCRAP);
    catalogue->loose[3] = loose("54", PART_RAW);
    catalogue->worker_count = 3;
    catalogue->worker[0] = worker("14", "Ada Birch", ROLE_BUILDER);
    catalogue->worker[1] = worker("15", "Ben Rowan", ROLE_BUILDER);
    catalogue->worker[2] = worker("3", "Cleo Marsh", ROLE_SUPERVISOR);
}
