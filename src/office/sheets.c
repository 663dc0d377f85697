// Forms over one document of the shop: a head, a shaft, a model, a chart, an order, a club.

#include "office_inner.h"

#include <string.h>

// Words of the store that nobody would write that way, `above_reference`.
static void respell(struct document *document, bool shown) {
    static const struct {
        const char *cell;
        char kept, shown;
    } spelled[] = {{"bore_note", '_', ' '}, {"bore_note_kinds", '_', '-'}};
    for (size_t i = 0; i < document->count; i++) {
        for (size_t at = 0; at < sizeof spelled / sizeof *spelled; at++) {
            char from = shown ? spelled[at].kept : spelled[at].shown;
            char *value = document->cell[i].value;
            while (strcmp(document->cell[i].name, spelled[at].cell) == 0 &&
                   (value = strchr(value, from)) != NULL) {
                *value = shown ? spelled[at].shown : spelled[at].kept;
            }
        }
    }
}

void sheets_document(const struct desk_draft *draft, const struct document *cells,
                     struct document *ret_document) {
    *ret_document = *cells;
    SET(ret_document->sheet, forms_work(draft->form)->sheet);
    document_drop(ret_document, "why");
    document_drop(ret_document, "try");
    respell(ret_document, false);
}

enum desk_result sheets_begin(struct office *office, struct desk_draft *draft) {
    const struct form_work *work = forms_work(draft->form);
    const char *keys[DESK_KEYS] = {"", "", ""};
    enum store_result result = STORE_NONE;
    memset(&draft->before, 0, sizeof draft->before);
    for (size_t i = 0; i < work->keys; i++) {
        keys[i] = draft->of.key[i];
    }
    if (keys[0][0] != '\0') {
        result = store_document(office->store, work->sheet, keys, &draft->before);
    }
    if (result != STORE_OK) {
        return office_result(result);
    }
    respell(&draft->before, true);
    draft->exists = true;
    draft->now = draft->before;
    return DESK_DONE;
}

// The shop's own writing of the cells takes the place of what was typed.
static void rewrite(struct desk_draft *draft, const struct document *canonical) {
    for (size_t i = draft->now.keys; i < draft->now.count; i++) {
        const struct document_cell *cell = &draft->now.cell[i];
        if (cell->name[0] == ':' && document_value(canonical, cell->name)[0] == '\0') {
            document_drop(&draft->now, cell->name);
            i--;
        }
    }
    for (size_t i = 0; i < canonical->count; i++) {
        document_set(&draft->now, canonical->cell[i].name, canonical->cell[i].value);
    }
}

void sheets_consider(struct office *office, struct desk_draft *draft,
                     struct desk_remarks *remarks) {
    struct document document;
    sheets_document(draft, &draft->now, &document);
    if (store_canonical(office->store, &document) == STORE_OK) {
        respell(&document, true);
        rewrite(draft, &document);
    } else {
        office_complaints(office, remarks);
    }
}

enum desk_result sheets_save(struct office *office, const struct worker *who,
                             struct desk_draft *draft, struct desk_said *said) {
    struct document before;
    struct document after;
    struct change change;
    struct entry entry;
    sheets_document(draft, &draft->now, &after);
    sheets_document(draft, &draft->before, &before);
    change_between(draft->exists ? &before : NULL, &after, &change);
    if (change_empty(&change)) {
        office_say(said, TONE_PLAIN, _("Nothing was changed."));
        return DESK_DONE;
    }
    if (!office_change(office, who, draft->id, 0, &change, document_value(&draft->now, "why"),
                       &entry)) {
        office_say(said, TONE_STOP, _("This is more than one change can hold. Write less."));
        return DESK_REFUSED;
    }
    return office_save(office, &entry, 1, said);
}
