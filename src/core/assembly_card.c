#include "assembly_card.h"

#include "text.h"
#include "tongue.h"

#include <string.h>

#define HOUR_MS ((int64_t)3600 * 1000)

static void copy(char *to, size_t size, const char *from) {
    struct text text = text_open(to, size);
    text_add(&text, from);
}

static void length_words(length_nm length, char buffer[LENGTH_TEXT_MAX]) {
    struct text text = text_open(buffer, LENGTH_TEXT_MAX);
    text_add_length(&text, length);
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
    struct text text = step(card, _("Abrade the tip"), false);
    if (input->club->head.insertion == LENGTH_UNKNOWN) {
        text_add(&text, _("insertion depth not known: measure the hosel first"));
        return;
    }
    char depth[LENGTH_TEXT_MAX];
    length_words(input->club->head.insertion + plan->proud, depth);
    text_say(&text,
             input->club->model.material == MATERIAL_GRAPHITE
                 ? _("%1, through the paint only, never into the fibres")
                 : _("%1, to bare metal"),
             depth);
}

static void shim(const struct plan_input *in, const struct plan *plan, struct assembly_card *card) {
    const struct plan_line *line = warning(plan, PLAN_W_SHIM);
    char words[PLAN_LINE_TEXT_MAX];
    if (line != NULL) {
        struct text text = step(card, _("Shim"), true);
        plan_line_text(in, line, words, sizeof words);
        text_add(&text, words);
    }
}

static void glue(const struct card_input *input, struct assembly_card *card) {
    struct text text = step(card, _("Ferrule"), false);
    const char *epoxy = input->shop->epoxy;
    char hours[LENGTH_TEXT_MAX];
    struct text number = text_open(hours, sizeof hours);
    text_add(&text,
             input->shop->ferrule[0] != '\0' ? input->shop->ferrule : _("of the shop's choice"));
    text = step(card, _("Epoxy"), false);
    epoxy = epoxy[0] != '\0' ? epoxy : _("of the shop's choice");
    text_add_number(&number, input->shop->cure_hours);
    // TRANSLATORS: %1 which epoxy; %2 a number.
    text_say(&text,
             input->shop->cure_hours > 0 ? tongue_plural("%1, cures %2 hour", "%1, cures %2 hours",
                                                         (unsigned long)input->shop->cure_hours)
                                         : _("%1, cures as its maker says"),
             epoxy, hours);
}

static void finish(const struct plan *plan, struct assembly_card *card) {
    char length[LENGTH_TEXT_MAX];
    if (plan->proud > 0) {
        struct text text = step(card, _("Sole"), true);
        length_words(plan->proud, length);
        text_say(&text,
                 _("the shaft stands %1 past the ground line; grind it flush after the epoxy has "
                   "cured"),
                 length);
    }
    if (plan->extension > 0) {
        struct text text = step(card, _("Extend the butt"), true);
        char plug[LENGTH_TEXT_MAX];
        length_words(plan->extension, length);
        length_words(plan_plug_depth(plan->extension), plug);
        text_say(&text, _("by %1, the plug glued at least %2 deep, before the grip goes on"),
                 length, plug);
    }
}

static void grip(const struct order *order, struct assembly_card *card) {
    struct text text = step(card, _("Grip"), false);
    char weight[LENGTH_TEXT_MAX];
    char cap[LENGTH_TEXT_MAX];
    struct text grams = text_open(weight, sizeof weight);
    text_add_mass(&grams, order->grip_weight);
    length_words(order->grip_cap, cap);
    // TRANSLATORS: of a grip; %1 its weight, %2 how thick its cap is.
    text_say(&text,
             order->grip_weight == MASS_UNKNOWN ? _("weight not known, cap %2") : _("%1, cap %2"),
             weight, cap);
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
