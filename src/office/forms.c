// Which work stands behind each form, and what may stand in its cells.

#include "office_inner.h"

#include <string.h>

// A thing that is not there yet: its key cells, empty.
static enum desk_result begin_new(struct office *office, struct desk_draft *draft) {
    static const char *const names[][DESK_KEYS] = {
        [DESK_FORM_NEW_HEAD_MODEL] = {"model"},
        [DESK_FORM_NEW_SHAFT_MODEL] = {"model"},
        [DESK_FORM_NEW_CHART] = {"model", "flex", "kind"},
    };
    const struct form_work *work = forms_work(draft->form);
    (void)office;
    memset(&draft->before, 0, sizeof draft->before);
    SET(draft->before.sheet, work->sheet);
    draft->before.keys = work->keys;
    for (size_t i = 0; i < work->keys; i++) {
        document_set(&draft->before, names[draft->form][i], "");
    }
    draft->now = draft->before;
    return DESK_DONE;
}

#define SHEET(name, keys) name, keys, sheets_begin, sheets_consider, sheets_save
#define NEW(name, keys) name, keys, begin_new, sheets_consider, sheets_save
#define PLANS(name, keys) name, keys, sheets_begin, effects_consider, sheets_save
#define RECEIVE(name) name, 1, receive_begin, receive_consider, made_save
static const struct form_work works[DESK_FORM_COUNT] = {
    [DESK_FORM_NEW_ORDER] = {NULL, 1, orders_begin_new, orders_consider_made, orders_save_made},
    [DESK_FORM_COPY_ORDER] = {NULL, 1, orders_begin_copy, orders_consider_made, orders_save_made},
    [DESK_FORM_ORDER] = {SHEET("orders", 1)},
    [DESK_FORM_TAKE_BACK] = {NULL, 1, changes_begin, changes_consider, changes_save},
    [DESK_FORM_SETTING] = {NULL, 1, setting_begin, setting_consider, setting_save},
    [DESK_FORM_MEASURED] = {NULL, 2, measured_begin, measured_consider, measured_save},
    [DESK_FORM_REPAIR] = {NULL, 1, repair_begin, repair_consider, repair_save},
    [DESK_FORM_CLUB] = {"builds", 2, sheets_begin, orders_consider_club, sheets_save},
    [DESK_FORM_ADD_CLUB] = {"builds", 2, orders_begin_club, orders_consider_club, sheets_save},
    [DESK_FORM_HEAD] = {SHEET("heads", 1)},
    [DESK_FORM_SHAFT] = {SHEET("shafts", 1)},
    [DESK_FORM_HEAD_MODEL] = {PLANS("head_models", 1)},
    [DESK_FORM_TAKE_HEADS] = {RECEIVE("heads")},
    [DESK_FORM_TAKE_SHAFTS] = {RECEIVE("shafts")},
    [DESK_FORM_OFFCUT] = {"shafts", 1, offcut_begin, offcut_consider, made_save},
    [DESK_FORM_STOCK_LEVEL] = {"stock_levels", 3, level_begin, level_consider, level_save},
    [DESK_FORM_NEW_HEAD_MODEL] = {NEW("head_models", 1)},
    [DESK_FORM_SHAFT_MODEL] = {PLANS("shaft_models", 1)},
    [DESK_FORM_NEW_SHAFT_MODEL] = {NEW("shaft_models", 1)},
    [DESK_FORM_CHART] = {"charts", 3, sheets_begin, charts_consider, sheets_save},
    [DESK_FORM_NEW_CHART] = {"charts", 3, begin_new, charts_consider, sheets_save},
};

const struct form_work *forms_work(enum desk_form form) {
    return &works[form];
}

// --- choices -------------------------------------------------------------------------------------

static int fixed_choices(const char *cell, bool head_models, char texts[][DESK_KEY_MAX], int max) {
    static const struct {
        const char *cell;
        const char *words[7];
    } all[] = {
        {"material", {"steel", "graphite"}},
        {"tip", {"parallel", "taper"}},
        {"bore_note", {"none", "add height", "above reference"}},
        {"bore_note_kinds",
         {"driver fairway", "driver fairway not-through", "hybrid", "iron wedge"}},
        {"bore", {"blind", "through", "short"}},
        {"uniform_flex", {"yes", "no"}},
        {"cancelled", {"yes", "no"}},
        {"extension", {"yes", "no"}},
        {"status", {"draft", "released", "held", "cancelled"}},
        {"priority", {"1", "2", "3", "4", "5"}},
        {"step", {"-2", "-1", "0", "1", "2"}},
    };
    static const char *const heads[] = {"driver", "fairway", "hybrid", "iron", "wedge", "putter"};
    static const char *const charts[] = {"wood", "hybrid", "iron", "wedge"};
    int count = 0;
    if (strcmp(cell, "kind") == 0) {
        const char *const *words = head_models ? heads : charts;
        for (int i = 0; i < (head_models ? 6 : 4) && count < max; i++) {
            words_copy(texts[count++], DESK_KEY_MAX, words[i]);
        }
    }
    for (size_t i = 0; i < sizeof all / sizeof *all; i++) {
        for (int at = 0; strcmp(all[i].cell, cell) == 0 && all[i].words[at] != NULL && count < max;
             at++) {
            words_copy(texts[count++], DESK_KEY_MAX, all[i].words[at]);
        }
    }
    return count;
}

static bool about_heads(enum desk_form form) {
    return form == DESK_FORM_REPAIR || form == DESK_FORM_HEAD || form == DESK_FORM_TAKE_HEADS ||
           form == DESK_FORM_HEAD_MODEL || form == DESK_FORM_NEW_HEAD_MODEL;
}

static int models(struct office *office, bool heads, const char *typed, char texts[][DESK_KEY_MAX],
                  int max) {
    struct model_line lines[DESK_CHOICES_MAX];
    int most = max < DESK_CHOICES_MAX ? max : DESK_CHOICES_MAX;
    int count = heads ? store_head_models(office->store, typed, "", lines, most)
                      : store_shaft_models(office->store, typed, "", lines, most);
    for (int i = 0; i < count; i++) {
        words_copy(texts[i], DESK_KEY_MAX, lines[i].name);
    }
    return count > 0 ? count : 0;
}

static int flexes(struct office *office, const char *model, char texts[][DESK_KEY_MAX], int max) {
    char found[DESK_CHOICES_MAX][PARTS_SHORT_MAX];
    int most = max < DESK_CHOICES_MAX ? max : DESK_CHOICES_MAX;
    int count = store_flexes(office->store, model, found, most);
    for (int i = 0; i < count; i++) {
        words_copy(texts[i], DESK_KEY_MAX, found[i]);
    }
    return count > 0 ? count : 0;
}

// Tickets of parts that nobody has reserved, of the wished model where one is wished.
static int free_parts(struct office *office, const struct document *now, bool heads,
                      char texts[][DESK_KEY_MAX], int max) {
    struct part_line lines[DESK_CHOICES_MAX];
    const char *model = heads ? "" : document_value(now, "shaft_model");
    const char *flex = heads ? "" : document_value(now, "flex");
    char after[TICKET_TEXT_MAX] = "";
    int count = 0;
    int found = DESK_CHOICES_MAX;
    // A shop's free parts may lie behind many that are not; a few pages are looked at.
    for (int page = 0; page < 8 && count < max && found == DESK_CHOICES_MAX; page++) {
        found = heads ? store_heads(office->store, "", after, lines, DESK_CHOICES_MAX)
                      : store_shafts(office->store, model, after, lines, DESK_CHOICES_MAX);
        for (int i = 0; i < found; i++) {
            SET(after, lines[i].ticket);
            if (count < max && lines[i].build[0] == '\0' && lines[i].life == PART_RAW &&
                (flex[0] == '\0' || strcmp(flex, lines[i].flex) == 0)) {
                words_copy(texts[count++], DESK_KEY_MAX, lines[i].ticket);
            }
        }
    }
    return count;
}

int forms_choices(void *ctx, const struct desk_draft *draft, const char *cell,
                  char texts[][DESK_KEY_MAX], int max) {
    const struct document *now = &draft->now;
    bool naming = draft->form == DESK_FORM_NEW_HEAD_MODEL ||
                  draft->form == DESK_FORM_NEW_SHAFT_MODEL; // a name not there yet
    if (draft->form == DESK_FORM_SETTING) {
        return strcmp(cell, "value") == 0 ? setting_choices(ctx, draft, texts, max) : 0;
    }
    if (strcmp(cell, "model") == 0 && !naming) {
        return models(ctx, about_heads(draft->form), "", texts, max);
    }
    if (strcmp(cell, "shaft_model") == 0) {
        return models(ctx, false, "", texts, max);
    }
    if (strcmp(cell, "flex") == 0) {
        const char *model = document_value(now, "shaft_model");
        return flexes(ctx, model[0] != '\0' ? model : document_value(now, "model"), texts, max);
    }
    if (draft->form == DESK_FORM_REPAIR && strcmp(cell, "shaft") == 0) {
        return free_parts(ctx, now, false, texts, max);
    }
    if (draft->form == DESK_FORM_CLUB || draft->form == DESK_FORM_ADD_CLUB) {
        if (strcmp(cell, "head") == 0 || strcmp(cell, "shaft") == 0) {
            return free_parts(ctx, now, cell[0] == 'h', texts, max);
        }
    }
    return fixed_choices(cell, about_heads(draft->form), texts, max);
}
