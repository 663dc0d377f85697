#include "assembly_card.h"

#include "text.h"

#include <string.h>

#define HOUR_MS ((int64_t)3600 * 1000)

static void copy(char *to, size_t size, const char *from) {
    struct text text = text_open(to, size);
    text_add(&text, from);
}

static struct text step(struct assembly_card *card, const char *what, bool caution) {
    struct card_step *next = &card->step[card->step_count++];
    next->caution = caution;
    copy(next->what, sizeof next->what, what);
    return text_open(next->how, sizeof next->how);
}

static const struct plan_line *warning(const struct plan *plan, enum plan_code code) {
    for (size_t i = 0; i < plan->warning_count; i++) {
        if (plan->warning[i].code == code) {
            return &plan->warning[i];
        }
    }
    return NULL;
}

// As far as the hosel takes it, and no further: what shows above the ferrule stays whole.
static void abrade(const struct card_input *input, const struct plan *plan,
                   struct assembly_card *card) {
    struct text text = step(card, "Abrade the tip", false);
    if (input->club->head.insertion == LENGTH_UNKNOWN) {
        text_add(&text, "insertion depth not known: measure the hosel first");
        return;
    }
    text_add_length(&text, input->club->head.insertion + plan->proud);
    text_add(&text, input->club->model.material == MATERIAL_GRAPHITE
                        ? ", through the paint only, never into the fibres"
                        : ", to bare metal");
}

static void shim(const struct plan_input *in, const struct plan *plan, struct assembly_card *card) {
    const struct plan_line *line = warning(plan, PLAN_W_SHIM);
    char words[PLAN_LINE_TEXT_MAX];
    if (line != NULL) {
        struct text text = step(card, "Shim", true);
        plan_line_text(in, line, words, sizeof words);
        text_add(&text, words);
    }
}

static void glue(const struct card_input *input, struct assembly_card *card) {
    struct text text = step(card, "Ferrule", false);
    text_add(&text,
             input->shop->ferrule[0] != '\0' ? input->shop->ferrule : "of the shop's choice");
    text = step(card, "Epoxy", false);
    text_add(&text, input->shop->epoxy[0] != '\0' ? input->shop->epoxy : "of the shop's choice");
    if (input->shop->cure_hours > 0) {
        text_add(&text, ", cures ");
        text_add_number(&text, input->shop->cure_hours);
        text_add(&text, input->shop->cure_hours == 1 ? " hour" : " hours");
    } else {
        text_add(&text, ", cures as its maker says");
    }
}

static void finish(const struct plan *plan, struct assembly_card *card) {
    if (plan->proud > 0) {
        struct text text = step(card, "Sole", true);
        text_add(&text, "the shaft stands ");
        text_add_length(&text, plan->proud);
        text_add(&text, " past the ground line; grind it flush after the epoxy has cured");
    }
    if (plan->extension > 0) {
        struct text text = step(card, "Extend the butt", true);
        text_add(&text, "by ");
        text_add_length(&text, plan->extension);
        text_add(&text, ", the plug glued at least ");
        text_add_length(&text, plan_plug_depth(plan->extension));
        text_add(&text, " deep, before the grip goes on");
    }
}

static void grip(const struct order *order, struct assembly_card *card) {
    struct text text = step(card, "Grip", false);
    text_add_mass(&text, order->grip_weight);
    text_add(&text, order->grip_weight == MASS_UNKNOWN ? " weight, cap " : ", cap ");
    text_add_length(&text, order->grip_cap);
}

bool assembly_card_make(const struct card_input *input, struct assembly_card *ret_card,
                        char ret_refusal[PLAN_LINE_TEXT_MAX]) {
    const struct club *club = input->club;
    struct assembly_card card = {.position = club->order.position,
                                 .count = club->order.count,
                                 .tolerance = *input->tolerance};
    struct plan_input in;
    struct plan plan;
    if (!club_plan(club, input->rules, &in, &plan)) {
        plan_line_text(&in, &plan.refusal, ret_refusal, PLAN_LINE_TEXT_MAX);
        return false;
    }
    copy(card.build, sizeof card.build, club->order.build);
    copy(card.club, sizeof card.club, club->order.club);
    copy(card.head, sizeof card.head, club->head.ticket);
    copy(card.head_model, sizeof card.head_model, club->head.model);
    copy(card.shaft, sizeof card.shaft, club->shaft.ticket);
    copy(card.shaft_model, sizeof card.shaft_model, club->shaft.model);
    copy(card.flex, sizeof card.flex, club->shaft.flex);
    abrade(input, &plan, &card);
    shim(&in, &plan, &card);
    glue(input, &card);
    finish(&plan, &card);
    grip(&club->order, &card);
    assembly_planned(club, input->rules, input->assembly, &card.planned);
    assembly_measured(input->values, &card.measured);
    assembly_check(&card.planned, &card.measured, assembly_accepted(input->values),
                   input->tolerance, &card.check);
    if (input->cut_ms != 0 && input->shop->cure_hours > 0) {
        card.ready_ms = input->cut_ms + input->shop->cure_hours * HOUR_MS;
    }
    *ret_card = card;
    return true;
}
