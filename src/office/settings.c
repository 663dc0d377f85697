// The settings of this bench as a list, and one of them as a form. Where they are kept and what
// they mean, office->shop says.

#include "office_inner.h"
#include "text.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static bool find(const struct office *office, const struct desk_ref *of,
                 struct office_setting *ret_setting, size_t *ret_index) {
    for (size_t i = 0; office->shop != NULL && office->shop->get(office->shop->ctx, i, ret_setting);
         i++) {
        if (strcmp(ret_setting->section, of->key[0]) == 0 &&
            strcmp(ret_setting->key, of->key[1]) == 0) {
            *ret_index = i;
            return true;
        }
    }
    return false;
}

static bool is_standard(const struct office_setting *setting) {
    return strcmp(setting->value, setting->standard) == 0;
}

// What it is, what may stand there, why its standard, from when a change holds.
static size_t words(const struct office_setting *setting, char lines[4][VIEW_TEXT_MAX * 2]) {
    snprintf(lines[0], sizeof lines[0], "%s", _(setting->what));
    snprintf(lines[1], sizeof lines[1], _("Allowed: %s."), _(setting->allowed));
    if (setting->standard[0] == '\0') {
        snprintf(lines[2], sizeof lines[2], _("Standard, nothing: %s"), _(setting->why));
    } else {
        snprintf(lines[2], sizeof lines[2], _("Standard, %s: %s"), setting->standard,
                 _(setting->why));
    }
    snprintf(lines[3], sizeof lines[3], "%s",
             setting->at_once ? _("A change holds at once.")
                              : _("A change holds from the next start of the bench."));
    return 4;
}

// A line of the view holds VIEW_TEXT_MAX: longer ones go on in the next, between words.
static size_t piece(const char *text) {
    size_t size = strlen(text);
    if (size < VIEW_TEXT_MAX) {
        return size;
    }
    size = VIEW_TEXT_MAX - 1;
    while (size > 0 && text[size] != ' ') {
        size--;
    }
    return size > 0 ? size : strlen(text);
}

static void row_notes(const struct office_setting *setting, struct desk_table *table) {
    char lines[4][VIEW_TEXT_MAX * 2];
    size_t count = words(setting, lines);
    for (size_t i = 0; i < count; i++) {
        for (const char *at = lines[i]; *at != '\0'; at += strspn(at, " ")) {
            char line[VIEW_TEXT_MAX];
            size_t size = piece(at);
            snprintf(line, sizeof line, "%.*s", (int)size, at);
            rows_note(table, TONE_PLAIN, line);
            at += size;
        }
    }
}

static void add_row(const struct office_setting *setting, const struct desk_query *query,
                    struct desk_table *table) {
    int row = rows_add(table);
    if (row < 0) {
        return;
    }
    char(*cell)[VIEW_CELL_MAX] = table->set.row[row].cell;
    SET(table->ref[row].key[0], setting->section);
    SET(table->ref[row].key[1], setting->key);
    SET(cell[0], setting->section);
    SET(cell[1], _(setting->label));
    SET(cell[2], setting->value);
    SET(cell[3], is_standard(setting) ? _("standard") : _("set here"));
    SET(cell[4], setting->at_once ? _("at once") : _("next start"));
    if (query->has_selected &&
        memcmp(&query->selected, &table->ref[row], sizeof query->selected) == 0) {
        row_notes(setting, table);
    }
}

enum desk_result list_settings(struct office *office, const struct desk_query *query,
                               struct desk_table *table) {
    const char *const heads[] = {_("Section"), _("Setting"), _("Now"), "", _("Holds")};
    struct office_setting setting;
    bool from = query->after.key[0][0] == '\0';
    SET(table->set.title, _("Settings"));
    if (office->shop != NULL) {
        office->shop->state(office->shop->ctx, table->set.subtitle, sizeof table->set.subtitle);
    }
    rows_head(table, heads, sizeof heads / sizeof *heads);
    for (size_t i = 0;
         office->shop != NULL && !table->more && office->shop->get(office->shop->ctx, i, &setting);
         i++) {
        if (from && (rows_wanted(query, _(setting.label), setting.key) ||
                     rows_wanted(query, setting.section, setting.value))) {
            add_row(&setting, query, table);
        }
        from = from || (strcmp(setting.section, query->after.key[0]) == 0 &&
                        strcmp(setting.key, query->after.key[1]) == 0);
    }
    return DESK_DONE;
}

// --- one of them ---------------------------------------------------------------------------------

enum desk_result setting_begin(struct office *office, struct desk_draft *draft) {
    struct office_setting setting;
    size_t index;
    char line[DESK_KEY_MAX * 2];
    if (!find(office, &draft->of, &setting, &index)) {
        return DESK_NONE;
    }
    memset(&draft->before, 0, sizeof draft->before);
    SET(draft->before.sheet, "settings");
    snprintf(line, sizeof line, "[%s] %s", setting.section, setting.key);
    document_set(&draft->before, "setting", _(setting.label));
    document_set(&draft->before, "line", line);
    document_set(&draft->before, "standard",
                 setting.standard[0] != '\0' ? setting.standard : _("nothing"));
    document_set(&draft->before, "value", setting.value); // empty when it is too long for a form
    draft->before.keys = 1;
    draft->now = draft->before;
    draft->exists = true;
    return DESK_DONE;
}

void setting_consider(struct office *office, struct desk_draft *draft,
                      struct desk_remarks *remarks) {
    struct office_setting setting;
    char lines[4][VIEW_TEXT_MAX * 2];
    char message[VIEW_TEXT_MAX];
    size_t index;
    if (!find(office, &draft->of, &setting, &index)) {
        return;
    }
    size_t count = words(&setting, lines);
    for (size_t i = 0; i < count; i++) {
        for (const char *at = lines[i]; *at != '\0'; at += strspn(at, " ")) {
            char line[VIEW_TEXT_MAX];
            size_t size = piece(at);
            snprintf(line, sizeof line, "%.*s", (int)size, at);
            office_note(remarks, TONE_PLAIN, line);
            at += size;
        }
    }
    if (strlen(setting.value) >= CHANGE_VALUE_MAX) {
        office_complain(remarks, "value",
                        _("what stands there is longer than a form holds: change it in the file"));
    } else if (!office->shop->allowed(office->shop->ctx, index,
                                      document_value(&draft->now, "value"), message,
                                      sizeof message)) {
        office_complain(remarks, "value", message);
    }
}

enum desk_result setting_save(struct office *office, const struct worker *who,
                              struct desk_draft *draft, struct desk_said *said) {
    struct office_setting setting;
    size_t index;
    if (!find(office, &draft->of, &setting, &index)) {
        return DESK_NONE;
    }
    const char *value = document_value(&draft->now, "value");
    struct entry entry = office_entry(office, ENTRY_SETTINGS, who, draft->id, 0);
    return office->shop->save(office->shop->ctx, index, value, &entry, said);
}

int setting_choices(struct office *office, const struct desk_draft *draft,
                    char texts[][DESK_KEY_MAX], int max) {
    struct office_setting setting;
    size_t index;
    int count = 0;
    if (!find(office, &draft->of, &setting, &index) || setting.words == NULL) {
        return 0;
    }
    for (int i = 0; setting.words[i] != NULL && count < max; i++) {
        if (setting.words[i][0] != '\0') {
            words_copy(texts[count++], DESK_KEY_MAX, setting.words[i]);
        }
    }
    return count;
}
