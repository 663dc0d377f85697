// After the cut: what was measured on assembled clubs, held against what was planned.

#include "builds.h"
#include "office_inner.h"
#include "text.h"

#include <stdlib.h>
#include <string.h>

#define LATELY 60 // clubs cut at this bench, when nobody asks for an order

static const struct {
    const char *cell;
    const char *label;
    const char *wrong;
    enum entry_kind entry;
} values[ASSEMBLY_VALUE_COUNT] = {
    [ASSEMBLY_LENGTH] = {"length", N_("Length"), N_("a club is 10 to 70 in long"),
                         ENTRY_FINAL_LENGTH},
    [ASSEMBLY_SWINGWEIGHT] = {"swingweight", N_("Swingweight"), N_("write it as D2 or D2.3"),
                              ENTRY_FINAL_SWINGWEIGHT},
    [ASSEMBLY_FREQUENCY] = {"frequency", N_("Frequency"), N_("50 to 600 cycles a minute"),
                            ENTRY_FINAL_FREQUENCY},
    [ASSEMBLY_LOFT] = {"loft", N_("Loft"), N_("write degrees, as 28.5"), ENTRY_FINAL_LOFT},
    [ASSEMBLY_LIE] = {"lie", N_("Lie"), N_("write degrees, as 61.5"), ENTRY_FINAL_LIE},
};

static enum length_unit unit_of(const struct office *office) {
    return office->settings->metric_first ? LENGTH_UNIT_MM : LENGTH_UNIT_INCH;
}

// --- the list ------------------------------------------------------------------------------------

static void assembly_row(const struct office *office, const struct club *club,
                         const struct final_values *measured, struct desk_table *table) {
    struct assembly_values made;
    char missing[VIEW_TEXT_MAX];
    struct text text = text_open(missing, sizeof missing);
    int row = rows_add(table);
    if (row < 0) {
        return;
    }
    char(*cell)[VIEW_CELL_MAX] = table->set.row[row].cell;
    bool cut = club->progress.stage == STAGE_DONE;
    bool done =
        cut && builds_club_done(club, measured, &office->settings->rules,
                                &office->settings->assembly, &office->settings->finals, &text);
    assembly_measured(measured, &made);
    SET(table->ref[row].key[0], club->order.build);
    SET(table->ref[row].key[1], club->order.club);
    text = text_open(cell[0], VIEW_CELL_MAX);
    text_add(&text, club->order.build);
    text_add(&text, "-");
    text_add(&text, club->order.club);
    for (int i = 0; i < ASSEMBLY_VALUE_COUNT; i++) {
        char words[ASSEMBLY_TEXT_MAX];
        assembly_text((enum assembly_value)i, made.value[i], words);
        words_copy(cell[1 + i], VIEW_CELL_MAX, made.value[i] == ASSEMBLY_UNKNOWN ? "" : words);
    }
    SET(cell[6], !cut ? _("not cut") : done ? _("done") : _("open"));
    table->set.row[row].tone = done ? TONE_FINE : cut ? TONE_CAUTION : TONE_PLAIN;
}

struct rows {
    const struct office *office;
    const struct desk_query *query;
    struct desk_table *table;
    bool from; // the page has begun
};

static void take_row(struct rows *rows, const struct club *club,
                     const struct final_values *measured) {
    const struct desk_ref *after = &rows->query->after;
    if (rows->from && !club->order.cancelled) {
        assembly_row(rows->office, club, measured, rows->table);
    }
    rows->from = rows->from || (strcmp(after->key[0], club->order.build) == 0 &&
                                strcmp(after->key[1], club->order.club) == 0);
}

static bool take_club(void *context, const struct club *club, const struct final_values *measured) {
    take_row(context, club, measured);
    return true;
}

static enum store_result lately(struct office *office, struct rows *rows) {
    struct club_line lines[LATELY];
    int count = store_clubs(office->store, CLUBS_CUT, lines, LATELY, NULL);
    enum store_result result = count < 0 ? STORE_FAILED : STORE_OK;
    for (int i = 0; i < count && result == STORE_OK; i++) {
        struct club club;
        struct final_values measured;
        result = store_club(office->store, lines[i].id, &club);
        if (result == STORE_OK) {
            result = store_final_values(office->store, lines[i].id, &measured);
        }
        if (result == STORE_OK) {
            take_row(rows, &club, &measured);
        }
    }
    return result;
}

static void check_notes(const struct office *office, const struct club *club,
                        const struct final_values *measured, struct desk_remarks *remarks) {
    struct assembly_values planned;
    struct assembly_values made;
    struct assembly_check check;
    assembly_planned(club, &office->settings->rules, &office->settings->assembly, &planned);
    assembly_measured(measured, &made);
    assembly_check(&planned, &made, &office->settings->finals, &check);
    for (int i = 0; i < ASSEMBLY_VALUE_COUNT; i++) {
        static const enum view_tone tones[] = {[ASSEMBLY_MISSING] = TONE_PLAIN,
                                               [ASSEMBLY_IN] = TONE_FINE,
                                               [ASSEMBLY_OUT] = TONE_STOP,
                                               [ASSEMBLY_TAKEN] = TONE_PLAIN};
        char line[VIEW_TEXT_MAX];
        char words[ASSEMBLY_TEXT_MAX];
        struct text text = text_open(line, sizeof line);
        text_add(&text, _(values[i].label));
        if (planned.value[i] == ASSEMBLY_UNKNOWN) {
            text_add(&text, _(": nothing is planned"));
        } else {
            assembly_text((enum assembly_value)i, planned.value[i], words);
            text_add(&text, _(": planned "));
            text_add(&text, words);
            assembly_tolerance_text((enum assembly_value)i, office->settings->finals.off[i], words);
            text_add(&text, _(", up to "));
            text_add(&text, words);
            text_add(&text, _(" off"));
        }
        if (check.wanted[i] && check.state[i] == ASSEMBLY_MISSING) {
            text_add(&text, _("; still to be measured"));
        }
        office_note(remarks, tones[check.state[i]], line);
    }
}

static enum store_result load_club(struct office *office, const char *build, const char *name,
                                   struct club *ret_club, struct final_values *ret_measured) {
    int64_t id;
    enum store_result result = store_club_named(office->store, build, name, &id);
    if (result == STORE_OK) {
        result = store_club(office->store, id, ret_club);
    }
    if (result == STORE_OK) {
        result = store_final_values(office->store, id, ret_measured);
    }
    return result;
}

enum desk_result list_assembly(struct office *office, const struct desk_query *query,
                               struct desk_table *table) {
    const char *const heads[] = {_("Club"), _("Length"), _("Swingweight"), _("Frequency"),
                                 _("Loft"), _("Lie"),    _("State")};
    struct rows rows = {
        .office = office, .query = query, .table = table, .from = query->after.key[0][0] == '\0'};
    const char *build = query->of.key[0];
    enum store_result result = build[0] == '\0'
                                   ? lately(office, &rows)
                                   : store_build_clubs(office->store, build, take_club, &rows);
    SET(table->set.title, _("After the cut"));
    struct text text = text_open(table->set.subtitle, sizeof table->set.subtitle);
    text_add(&text, build[0] == '\0' ? _("the clubs cut last at this bench") : _("order "));
    text_add(&text, build);
    rows_head(table, heads, sizeof heads / sizeof *heads);
    if (query->has_selected) {
        struct club club;
        struct final_values measured;
        struct desk_remarks remarks = {0};
        if (load_club(office, query->selected.key[0], query->selected.key[1], &club, &measured) ==
            STORE_OK) {
            check_notes(office, &club, &measured, &remarks);
        }
        for (size_t i = 0; i < remarks.note_count; i++) {
            rows_note(table, remarks.note_tone[i], remarks.note[i]);
        }
    }
    return result == STORE_NONE ? DESK_DONE : office_result(result);
}

// --- what was measured ---------------------------------------------------------------------------

enum desk_result measured_begin(struct office *office, struct desk_draft *draft) {
    struct club club;
    struct final_values measured;
    struct assembly_values made;
    enum store_result result =
        load_club(office, draft->of.key[0], draft->of.key[1], &club, &measured);
    memset(&draft->before, 0, sizeof draft->before);
    SET(draft->before.sheet, "measured");
    document_set(&draft->before, "build", draft->of.key[0]);
    document_set(&draft->before, "club", draft->of.key[1]);
    draft->before.keys = 2;
    if (result == STORE_OK) {
        assembly_measured(&measured, &made);
        for (int i = 0; i < ASSEMBLY_VALUE_COUNT; i++) {
            char words[ASSEMBLY_TEXT_MAX] = "";
            if (made.value[i] != ASSEMBLY_UNKNOWN) {
                assembly_text((enum assembly_value)i, made.value[i], words);
            }
            // Without its unit it is what somebody would type.
            words[i == ASSEMBLY_LENGTH ? strcspn(words, "i") : strcspn(words, " ")] = '\0';
            document_set(&draft->before, values[i].cell, words);
        }
    }
    draft->now = draft->before;
    draft->exists = true;
    return office_result(result);
}

// What was typed, over what was known. False: a cell cannot be read; it is complained of.
static bool read_values(const struct office *office, const struct desk_draft *draft,
                        struct final_values *measured, struct desk_remarks *remarks) {
    bool good = true;
    for (int i = 0; i < ASSEMBLY_VALUE_COUNT; i++) {
        const char *text = document_value(&draft->now, values[i].cell);
        const char *was = document_value(&draft->before, values[i].cell);
        if (strcmp(text, was) == 0) {
            continue;
        }
        if (text[0] == '\0') {
            office_complain(remarks, values[i].cell,
                            _("what was measured stays; write a new value"));
            good = false;
        } else if (!final_values_read((enum assembly_value)i, text, unit_of(office), measured)) {
            office_complain(remarks, values[i].cell, _(values[i].wrong));
            good = false;
        }
    }
    return good;
}

void measured_consider(struct office *office, struct desk_draft *draft,
                       struct desk_remarks *remarks) {
    struct club club;
    struct final_values measured;
    if (load_club(office, draft->of.key[0], draft->of.key[1], &club, &measured) != STORE_OK) {
        office_complain(remarks, "", store_message(office->store));
        return;
    }
    if (club.progress.stage != STAGE_DONE) {
        office_complain(remarks, "", _("this club is not cut yet"));
        return;
    }
    read_values(office, draft, &measured, remarks);
    check_notes(office, &club, &measured, remarks);
}

enum desk_result measured_save(struct office *office, const struct worker *who,
                               struct desk_draft *draft, struct desk_said *said) {
    struct entry entries[ASSEMBLY_VALUE_COUNT];
    struct desk_remarks remarks = {0};
    struct final_values measured;
    struct club club;
    size_t count = 0;
    if (load_club(office, draft->of.key[0], draft->of.key[1], &club, &measured) != STORE_OK) {
        office_say(said, TONE_STOP, store_message(office->store));
        return DESK_FAILED;
    }
    if (!read_values(office, draft, &measured, &remarks)) {
        office_say(said, TONE_STOP, remarks.complaint[0].text);
        return DESK_REFUSED;
    }
    for (size_t i = 0; i < ASSEMBLY_VALUE_COUNT; i++) {
        const char *text = document_value(&draft->now, values[i].cell);
        if (strcmp(text, document_value(&draft->before, values[i].cell)) == 0) {
            continue;
        }
        struct entry entry = office_entry(office, values[i].entry, who, draft->id, i);
        entry.club_id = club.id;
        SET(entry.build, club.order.build);
        SET(entry.club, club.order.club);
        SET(entry.head, club.head.ticket);
        SET(entry.shaft, club.shaft.ticket);
        if (i == ASSEMBLY_LENGTH) {
            entry.planned = club.order.playing_length;
            entry.made = measured.length;
            SET(entry.cause, length_method_text(office->settings->length_method));
        } else {
            SET(entry.note, text);
        }
        entries[count++] = entry;
    }
    if (count == 0) {
        office_say(said, TONE_PLAIN, _("Nothing was changed."));
        return DESK_DONE;
    }
    return office_save(office, entries, count, said);
}
