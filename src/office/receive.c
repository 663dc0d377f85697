// Taking in what was delivered, one part after the other: model, delivery and rack stay, the next
// free ticket is proposed, and what is unlike its model is asked about before it is saved.

#include "family.h"
#include "spread.h"
#include "text.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static bool about_heads(const struct desk_draft *draft) {
    return draft->form == DESK_FORM_TAKE_HEADS;
}

// --- the next one --------------------------------------------------------------------------------

enum desk_result receive_begin(struct office *office, struct desk_draft *draft) {
    static const char *const kept[] = {"model", "flex", "lot", "rack"};
    bool heads = about_heads(draft);
    struct document last = draft->now; // of the run so far; without a sheet: nothing yet
    char day[PARTS_LOT_MAX];
    memset(&draft->now, 0, sizeof draft->now);
    SET(draft->now.sheet, heads ? "heads" : "shafts");
    draft->now.keys = 1;
    enum desk_result result = made_propose(office, draft);
    if (last.sheet[0] == '\0') {
        office->day_text(office->world->wall_ms(office->world->ctx), day, sizeof day);
        document_set(&last, "lot", day);
    }
    for (size_t i = 0; i < sizeof kept / sizeof *kept; i++) {
        const char *value = document_value(&last, kept[i]);
        if (value[0] != '\0') {
            document_set(&draft->now, kept[i], value);
        }
    }
    draft->before = draft->now;
    return result;
}

// --- what it is ----------------------------------------------------------------------------------

// A supplier's barcode where the model stands. False: it names none of the kind.
static bool take_code(struct office *office, struct desk_draft *draft,
                      struct desk_remarks *remarks) {
    const char *code = document_value(&draft->now, "model");
    bool heads = about_heads(draft);
    struct code_model model;
    char words[VIEW_TEXT_MAX];
    if (!ticket_gtin_valid(code)) {
        return true;
    }
    enum store_result result = store_model_of_code(office->store, code, &model);
    if (result == STORE_OK && model.is_head == heads) {
        document_set(&draft->now, "model", model.model);
        if (!heads && model.flex[0] != '\0') {
            document_set(&draft->now, "flex", model.flex);
        }
        return true;
    }
    if (result == STORE_OK) {
        snprintf(words, sizeof words,
                 heads ? _("this barcode is of shafts, %s. Take them in as shafts.")
                       : _("this barcode is of heads, %s. Take them in as heads."),
                 model.model);
        office_complain(remarks, "model", words);
    } else {
        office_complain(remarks, "model",
                        result == STORE_NONE
                            ? _("no model here has this barcode. Choose the model by its name.")
                            : store_message(office->store));
    }
    return false;
}

// The model's figure; LENGTH_UNKNOWN, which is MASS_UNKNOWN: the catalogue has none.
struct catalogue {
    mass_mg weight;
    length_nm length; // raw length of a shaft, bore height of a head
};

static struct catalogue look_up(struct office *office, const struct desk_draft *draft) {
    bool heads = about_heads(draft);
    const char *keys[] = {document_value(&draft->now, "model")};
    struct catalogue catalogue = {MASS_UNKNOWN, LENGTH_UNKNOWN};
    struct document model;
    if (keys[0][0] != '\0' && store_document(office->store, heads ? "head_models" : "shaft_models",
                                             keys, &model) == STORE_OK) {
        mass_parse(document_value(&model, "weight_g"), &catalogue.weight);
        length_parse(document_value(&model, heads ? "bore_height" : "raw_length"), LENGTH_UNIT_INCH,
                     &catalogue.length, NULL);
    }
    return catalogue;
}

static mass_mg weight_of(const struct desk_draft *draft) {
    mass_mg weight = MASS_UNKNOWN;
    mass_parse(document_value(&draft->now, "weight_g"), &weight);
    return weight;
}

static length_nm length_of(const struct desk_draft *draft) {
    length_nm length = LENGTH_UNKNOWN;
    length_parse(document_value(&draft->now, about_heads(draft) ? "bore_height" : "raw_length"),
                 LENGTH_UNIT_INCH, &length, NULL);
    return length;
}

// --- is it like the others? ----------------------------------------------------------------------

static bool has_reason(const struct desk_draft *draft) {
    const char *why = document_value(&draft->now, "why");
    return why[strspn(why, " ")] != '\0';
}

// Stands in the way until somebody wrote why it is so. `asks`, or `saved` with a reason, is the
// sentence; %1 how far it is off, %2 its model's figure.
static void question(const struct desk_draft *draft, const char *cell, const char *asks,
                     const char *saved, const char *off, const char *figure,
                     struct desk_remarks *remarks) {
    char line[VIEW_TEXT_MAX];
    struct text text = text_open(line, sizeof line);
    text_say(&text, has_reason(draft) ? saved : asks, off, figure);
    if (has_reason(draft)) {
        office_note(remarks, TONE_CAUTION, line);
    } else {
        office_complain(remarks, cell, line);
    }
}

static void mass_words(mass_mg mass, char buffer[LENGTH_TEXT_MAX]) {
    struct text text = text_open(buffer, LENGTH_TEXT_MAX);
    text_add_mass(&text, mass);
}

static void question_weight(const struct desk_draft *draft, mass_mg weight, mass_mg catalogue,
                            struct desk_remarks *remarks) {
    char words[VIEW_TEXT_MAX];
    char off[LENGTH_TEXT_MAX] = "";
    char figure[LENGTH_TEXT_MAX] = "";
    bool known = weight != MASS_UNKNOWN && catalogue != MASS_UNKNOWN;
    mass_words(known ? llabs(weight - catalogue) : MASS_UNKNOWN, off);
    mass_words(catalogue, figure);
    if (!about_heads(draft) && family_shaft_off(weight, catalogue)) {
        struct text text = text_open(words, sizeof words);
        text_say(&text, _("Weight %1 off its model's %2, more than 5 %."), off, figure);
        office_note(remarks, TONE_CAUTION, words);
    } else if (about_heads(draft) && weight == MASS_UNKNOWN) {
        question(draft, "weight_g", _("not weighed. Weigh it, or write why."),
                 _("Not weighed. It is saved with the reason."), NULL, NULL, remarks);
    } else if (about_heads(draft) && family_head_off(weight, catalogue)) {
        question(draft, "weight_g", _("%1 off its model's %2. Weigh again, or write why."),
                 _("%1 off its model's %2. It is saved with the reason."), off, figure, remarks);
    }
}

static void length_words(const struct office *office, length_nm length,
                         char buffer[LENGTH_TEXT_MAX]) {
    struct text text = text_open(buffer, LENGTH_TEXT_MAX);
    char words[LENGTH_TEXT_MAX];
    office_length(office, length, words, sizeof words);
    text_add(&text, words);
    text_add(&text, " ");
    text_add(&text, office->settings->metric_first ? T_("unit", "mm") : T_("unit", "in"));
}

static void question_length(const struct office *office, const struct desk_draft *draft,
                            length_nm length, length_nm catalogue, struct desk_remarks *remarks) {
    char off[LENGTH_TEXT_MAX];
    char figure[LENGTH_TEXT_MAX];
    if (about_heads(draft)) {
        return; // the catalogue's bore height is a hint only
    }
    if (length == LENGTH_UNKNOWN) {
        question(draft, "raw_length", _("not measured. Measure it, or write why."),
                 _("Not measured. It is saved with the reason."), NULL, NULL, remarks);
    } else if (family_length_off(length, catalogue)) {
        length_words(office, llabs(length - catalogue), off);
        length_words(office, catalogue, figure);
        question(draft, "raw_length", _("%1 off its model's %2. Measure again, or write why."),
                 _("%1 off its model's %2. It is saved with the reason."), off, figure, remarks);
    }
}

// --- beside the fields ---------------------------------------------------------------------------

static void show(const struct spread *spread, struct desk_remarks *remarks) {
    char words[VIEW_TEXT_MAX] = "";
    spread_words(spread, words, sizeof words);
    if (words[0] != '\0') {
        office_note(remarks, TONE_PLAIN, words);
    }
    if (spread_plot(spread, &remarks->plot[remarks->plot_count])) {
        remarks->plot_count++;
    }
}

static void fill(const struct office *office, const struct desk_draft *draft, enum spread_of of,
                 int64_t catalogue, int64_t now, const struct lot_part *parts, int count,
                 struct desk_remarks *remarks) {
    struct spread spread;
    spread_fill(office, of, about_heads(draft), document_value(&draft->now, "model"), catalogue,
                parts, count, &spread);
    spread_now(office, of, now, &spread);
    show(&spread, remarks);
}

static void compare(struct office *office, const struct desk_draft *draft,
                    const struct catalogue *catalogue, struct desk_remarks *remarks) {
    struct lot_part parts[SPREAD_MAX];
    const char *lot = document_value(&draft->now, "lot");
    const char *model = document_value(&draft->now, "model");
    bool heads = about_heads(draft);
    char words[VIEW_TEXT_MAX];
    int same = 0;
    int count = spread_parts(office, lot, heads ? TICKET_HEAD : TICKET_SHAFT, parts);
    for (int i = 0; i < count; i++) {
        same += strcmp(parts[i].model, model) == 0;
    }
    if (model[0] == '\0' || count < 0) {
        return;
    }
    if (lot[0] != '\0') {
        snprintf(words, sizeof words, _("Of this model in delivery %s so far: %d."), lot, same);
        office_note(remarks, TONE_PLAIN, words);
    }
    fill(office, draft, SPREAD_WEIGHT, catalogue->weight, weight_of(draft), parts, count, remarks);
    fill(office, draft, SPREAD_LENGTH, catalogue->length, length_of(draft), parts, count, remarks);
}

// --- the form ------------------------------------------------------------------------------------

void receive_consider(struct office *office, struct desk_draft *draft,
                      struct desk_remarks *remarks) {
    if (!take_code(office, draft, remarks)) {
        return;
    }
    made_ticket(office, draft, remarks);
    sheets_consider(office, draft, remarks);
    struct catalogue catalogue = look_up(office, draft);
    question_weight(draft, weight_of(draft), catalogue.weight, remarks);
    question_length(office, draft, length_of(draft), catalogue.length, remarks);
    compare(office, draft, &catalogue, remarks);
}
