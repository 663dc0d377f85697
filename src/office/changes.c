// What was changed, by whom and why, and taking it back by a change the other way round.

#include "office_inner.h"
#include "text.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

// Keys of a document between tabs, as people say them: `2041-3`, `Ullock Straight 115 R iron`.
static void thing_words(const struct changed_line *line, char *buffer, size_t size) {
    struct text text = text_open(buffer, size);
    const char *at = line->thing;
    for (size_t key = 0; *at != '\0'; key++) {
        char word[CHANGE_VALUE_MAX];
        size_t bytes = strcspn(at, "\t");
        struct text copy = text_open(word, sizeof word);
        text_add_bytes(&copy, at, bytes);
        text_add(&text, key == 0 ? "" : strcmp(line->sheet, "builds") == 0 ? "-" : " ");
        text_add(&text, key == 2 ? csv_words(word) : word);
        at += bytes + (at[bytes] == '\t');
    }
}

static const char *sheet_words(const char *sheet) {
    static const struct {
        const char *sheet;
        const char *words;
    } all[] = {{"heads", N_("head")},        {"shafts", N_("shaft")},
               {"head_models", N_("model")}, {"shaft_models", N_("model")},
               {"charts", N_("chart")},      {"builds", N_("club")},
               {"orders", N_("order")},      {"stock_levels", N_("level")}};
    for (size_t i = 0; i < sizeof all / sizeof *all; i++) {
        if (strcmp(all[i].sheet, sheet) == 0) {
            return _(all[i].words);
        }
    }
    return sheet;
}

static void change_row(const struct office *office, const struct changed_line *line, int row,
                       struct desk_table *table) {
    char(*cell)[VIEW_CELL_MAX] = table->set.row[row].cell;
    char thing[VIEW_TEXT_MAX];
    rows_number(line->seq, table->ref[row].key[0], DESK_KEY_MAX);
    office->world->time_text(office->world->ctx, line->wall_ms, true, cell[0], VIEW_CELL_MAX);
    office->world->time_text(office->world->ctx, line->wall_ms, false, cell[1], VIEW_CELL_MAX);
    SET(cell[2], line->worker);
    SET(cell[3], sheet_words(line->sheet));
    thing_words(line, thing, sizeof thing);
    SET(cell[4], thing);
    SET(cell[5], line->taken_back != 0 ? _("taken back")
                 : line->made          ? _("new")
                 : line->taken         ? _("taken away")
                                       : _("changed"));
    table->set.row[row].tone = line->taken_back != 0 ? TONE_CAUTION : TONE_PLAIN;
}

static void change_notes(const struct changed_line *line, struct desk_table *table) {
    char words[VIEW_TEXT_MAX];
    words_copy(words, sizeof words, line->words);
    rows_note(table, TONE_PLAIN, words);
    if (line->note[0] != '\0') {
        struct text text = text_open(words, sizeof words);
        text_say(&text, _("Why: %1"), line->note);
        rows_note(table, TONE_PLAIN, words);
    }
    if (line->takes_back != 0) {
        snprintf(words, sizeof words, _("It took back entry %lld."), (long long)line->takes_back);
        rows_note(table, TONE_PLAIN, words);
    }
    if (line->taken_back != 0) {
        snprintf(words, sizeof words, _("Entry %lld took it back."), (long long)line->taken_back);
        rows_note(table, TONE_CAUTION, words);
    }
}

// Of an order when the list is about one: itself and its clubs.
enum desk_result list_changes(struct office *office, const struct desk_query *query,
                              struct desk_table *table) {
    const char *const heads[] = {_("Day"), _("Time"), _("Who"), _("What"), _("Which"), ""};
    struct changed_line lines[ROWS_ASKED];
    const char *build = query->of.key[0];
    int64_t before = strtoll(query->after.key[0], NULL, 10);
    int count = store_changes(office->store, NULL, build[0] != '\0' ? build : NULL, before, lines,
                              ROWS_ASKED);
    SET(table->set.title, _("Changes"));
    if (build[0] != '\0') {
        struct text text = text_open(table->set.subtitle, sizeof table->set.subtitle);
        text_say(&text, _("of order %1"), build);
    }
    rows_head(table, heads, sizeof heads / sizeof *heads);
    for (int i = 0; i < count; i++) {
        int row = rows_add(table);
        if (row < 0) {
            break;
        }
        change_row(office, &lines[i], row, table);
        if (query->has_selected && strcmp(query->selected.key[0], table->ref[row].key[0]) == 0) {
            change_notes(&lines[i], table);
        }
    }
    return count < 0 ? DESK_FAILED : DESK_DONE;
}

// --- taking back ---------------------------------------------------------------------------------

static enum store_result read_change(const struct office *office, const struct desk_draft *draft,
                                     int64_t *ret_seq, struct change *ret_change) {
    struct entry entry;
    int64_t seq = strtoll(draft->of.key[0], NULL, 10);
    enum store_result result = store_entry(office->store, seq, &entry);
    if (result == STORE_OK &&
        (entry.kind != ENTRY_CHANGE || !change_read(entry.plan, ret_change))) {
        result = STORE_NONE;
    }
    if (result == STORE_OK) {
        *ret_seq = seq;
    }
    return result;
}

enum desk_result changes_begin(struct office *office, struct desk_draft *draft) {
    struct change change;
    int64_t seq;
    enum store_result result = read_change(office, draft, &seq, &change);
    memset(&draft->before, 0, sizeof draft->before);
    SET(draft->before.sheet, "take_back");
    document_set(&draft->before, "entry", draft->of.key[0]);
    draft->before.keys = 1;
    draft->now = draft->before;
    draft->exists = true;
    return office_result(result);
}

static bool back_entry(const struct office *office, const struct worker *who,
                       const struct desk_draft *draft, struct change *ret_back,
                       struct entry *ret_entry) {
    struct change change;
    int64_t seq;
    if (read_change(office, draft, &seq, &change) != STORE_OK) {
        return false;
    }
    change_back(&change, ret_back);
    if (!office_change(office, who, draft->id, 0, ret_back, document_value(&draft->now, "why"),
                       ret_entry)) {
        return false;
    }
    ret_entry->refers = seq;
    return true;
}

static enum store_result nothing_more(void *ctx, struct store *store) {
    (void)ctx;
    (void)store;
    return STORE_OK;
}

void changes_consider(struct office *office, struct desk_draft *draft,
                      struct desk_remarks *remarks) {
    struct change back;
    struct entry entry;
    char words[VIEW_TEXT_MAX];
    if (!back_entry(office, &office->who, draft, &back, &entry)) {
        office_complain(remarks, "entry", _("this change cannot be read"));
        return;
    }
    office_note(remarks, TONE_PLAIN,
                back.taken  ? _("It would be taken away again:")
                : back.made ? _("It would be there again:")
                            : _("This is what would be written:"));
    change_words(&back, words, sizeof words);
    office_note(remarks, TONE_PLAIN, words);
    if (store_rehearse(office->store, &entry, 1, nothing_more, NULL) == STORE_REFUSED) {
        office_complaints(office, remarks);
    }
    if (document_value(&draft->now, "why")[0] == '\0') {
        office_complain(remarks, "why", _("say why it is taken back"));
    }
}

enum desk_result changes_save(struct office *office, const struct worker *who,
                              struct desk_draft *draft, struct desk_said *said) {
    struct change back;
    struct entry entry;
    if (!back_entry(office, who, draft, &back, &entry)) {
        office_say(said, TONE_STOP, _("This change cannot be read."));
        return DESK_REFUSED;
    }
    return office_save(office, &entry, 1, said);
}
