// After the cut: what was measured on assembled clubs, held against what was planned.

#include "assembly.h"
#include "builds.h"
#include "office_inner.h"
#include "text.h"

#include <string.h>

#define LATELY 60 // clubs cut at this bench, when nobody asks for an order

const struct assembly_field assembly_fields[ASSEMBLY_VALUE_COUNT] = {
    [ASSEMBLY_LENGTH] = {"length", N_("Length"), N_("a club is 10 to 70 in long"),
                         ENTRY_FINAL_LENGTH},
    [ASSEMBLY_SWINGWEIGHT] = {"swingweight", N_("Swingweight"), N_("write it as D2 or D2.3"),
                              ENTRY_FINAL_SWINGWEIGHT},
    [ASSEMBLY_FREQUENCY] = {"frequency", N_("Frequency"), N_("50 to 600 cycles a minute"),
                            ENTRY_FINAL_FREQUENCY},
    [ASSEMBLY_LOFT] = {"loft", N_("Loft"), N_("write degrees, as 28.5"), ENTRY_FINAL_LOFT},
    [ASSEMBLY_LIE] = {"lie", N_("Lie"), N_("write degrees, as 61.5"), ENTRY_FINAL_LIE},
};

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

void assembly_check_club(const struct office *office, const struct club *club,
                         const struct final_values *measured, struct assembly_values *ret_planned,
                         struct assembly_check *ret_check) {
    struct assembly_values made;
    assembly_planned(club, &office->settings->rules, &office->settings->assembly, ret_planned);
    assembly_measured(measured, &made);
    assembly_check(ret_planned, &made, assembly_accepted(measured), &office->settings->finals,
                   ret_check);
}

// `Loft: accepted by W-0003K: the customer likes it`
static void accepted_note(const struct office *office, int value, int64_t seq,
                          struct desk_remarks *remarks) {
    char line[VIEW_TEXT_MAX];
    struct text text = text_open(line, sizeof line);
    struct entry entry;
    bool found = store_entry(office->store, seq, &entry) == STORE_OK;
    // TRANSLATORS: %1 what was measured, as `Loft`; %2 a person's badge, %3 the reason given.
    text_say(&text, found ? _("%1: accepted by %2: %3") : "%1: %3", _(assembly_fields[value].label),
             found ? entry.worker : "", found ? entry.note : store_message(office->store));
    office_note(remarks, TONE_CAUTION, line);
}

void assembly_notes(const struct office *office, const struct club *club,
                    const struct final_values *measured, struct desk_remarks *remarks) {
    struct assembly_values planned;
    struct assembly_check check;
    assembly_check_club(office, club, measured, &planned, &check);
    for (int i = 0; i < ASSEMBLY_VALUE_COUNT; i++) {
        static const enum view_tone tones[] = {[ASSEMBLY_MISSING] = TONE_PLAIN,
                                               [ASSEMBLY_IN] = TONE_FINE,
                                               [ASSEMBLY_OUT] = TONE_STOP,
                                               [ASSEMBLY_TAKEN] = TONE_PLAIN};
        char line[VIEW_TEXT_MAX];
        char words[ASSEMBLY_TEXT_MAX];
        struct text text = text_open(line, sizeof line);
        char off[ASSEMBLY_TEXT_MAX];
        bool open = check.wanted[i] && check.state[i] == ASSEMBLY_MISSING;
        bool known = planned.value[i] != ASSEMBLY_UNKNOWN;
        assembly_text((enum assembly_value)i, planned.value[i], words);
        assembly_tolerance_text((enum assembly_value)i, office->settings->finals.off[i], off);
        // TRANSLATORS: %1 what is measured, as `Loft`; %2 the planned value; %3 by how much it may
        // be off.
        text_say(&text,
                 known  ? open ? _("%1: planned %2, up to %3 off; still to be measured")
                               : _("%1: planned %2, up to %3 off")
                  : open ? _("%1: nothing is planned; still to be measured")
                        : _("%1: nothing is planned"),
                 _(assembly_fields[i].label), words, off);
        office_note(remarks, check.accepted[i] ? TONE_CAUTION : tones[check.state[i]], line);
        if (check.accepted[i]) {
            accepted_note(office, i, measured->accepted[i], remarks);
        }
    }
}

enum store_result assembly_load(struct office *office, const char *build, const char *name,
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
    text_say(&text, build[0] == '\0' ? _("the clubs cut last at this bench") : _("order %1"),
             build);
    rows_head(table, heads, sizeof heads / sizeof *heads);
    if (query->has_selected) {
        struct club club;
        struct final_values measured;
        struct desk_remarks remarks = {0};
        if (assembly_load(office, query->selected.key[0], query->selected.key[1], &club,
                          &measured) == STORE_OK) {
            assembly_notes(office, &club, &measured, &remarks);
        }
        for (size_t i = 0; i < remarks.note_count; i++) {
            rows_note(table, remarks.note_tone[i], remarks.note[i]);
        }
    }
    return result == STORE_NONE ? DESK_DONE : office_result(result);
}
