// How much of a model should lie there.

#include "office_inner.h"

#include <string.h>

// The form names the model once; the sheet has a cell for heads and one for shafts.
#define NAME "model"

static void level_document(const struct desk_draft *draft, const struct document *cells,
                           struct document *ret_document) {
    sheets_document(draft, cells, ret_document);
    document_drop(ret_document, NAME);
}

static bool is_set(const struct document *document) {
    return document_value(document, "wanted")[0] != '\0';
}

enum desk_result level_begin(struct office *office, struct desk_draft *draft) {
    bool head = strcmp(draft->of.key[0], "head") == 0;
    const char *const keys[] = {head ? draft->of.key[1] : "", head ? "" : draft->of.key[1],
                                draft->of.key[2]};
    struct document *now = &draft->now;
    if (draft->of.key[1][0] == '\0') {
        return DESK_NONE;
    }
    enum store_result result = store_document(office->store, "stock_levels", keys, now);
    if (result == STORE_NONE) {
        memset(now, 0, sizeof *now);
        SET(now->sheet, "stock_levels");
        now->keys = 3;
        document_set(now, "head_model", keys[0]);
        document_set(now, "shaft_model", keys[1]);
        document_set(now, "flex", keys[2]);
        result = STORE_OK;
    }
    document_set(now, NAME, draft->of.key[1]);
    draft->before = *now;
    draft->exists = true; // the model does, whether it has a level or not
    return office_result(result);
}

void level_consider(struct office *office, struct desk_draft *draft, struct desk_remarks *remarks) {
    struct document document;
    level_document(draft, &draft->now, &document);
    office_note(remarks, TONE_PLAIN,
                _("When fewer than the first are left free, the stock list says how many to order "
                  "to come to the second."));
    if (store_canonical(office->store, &document) != STORE_OK) {
        office_complaints(office, remarks);
        return;
    }
    document_set(&draft->now, "least", document_value(&document, "least"));
    document_set(&draft->now, "wanted", document_value(&document, "wanted"));
}

enum desk_result level_save(struct office *office, const struct worker *who,
                            struct desk_draft *draft, struct desk_said *said) {
    struct document before;
    struct document after;
    struct change change;
    struct entry entry;
    level_document(draft, &draft->before, &before);
    level_document(draft, &draft->now, &after);
    change_between(is_set(&before) ? &before : NULL, &after, &change);
    if (change_empty(&change)) {
        office_say(said, TONE_PLAIN, _("Nothing was changed."));
        return DESK_DONE;
    }
    if (!office_change(office, who, draft->id, 0, &change, "", &entry)) {
        office_say(said, TONE_STOP, _("This is more than one change can hold. Write less."));
        return DESK_REFUSED;
    }
    return office_save(office, &entry, 1, said);
}
