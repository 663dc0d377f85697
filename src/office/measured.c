// What is measured on an assembled club, one form; and a supervisor's word for what is out.

#include "assembly.h"
#include "office_inner.h"
#include "text.h"

#include <stdio.h>
#include <string.h>

static enum length_unit unit_of(const struct office *office) {
    return office->settings->metric_first ? LENGTH_UNIT_MM : LENGTH_UNIT_INCH;
}

// The cell, shown to nobody, with the entry whose value somebody looks at.
static void seen_cell(int value, char name[CHANGE_NAME_MAX]) {
    snprintf(name, CHANGE_NAME_MAX, "%s_entry", assembly_fields[value].cell);
}

enum desk_result measured_begin(struct office *office, struct desk_draft *draft) {
    struct club club;
    struct final_values measured;
    struct assembly_values made;
    enum store_result result =
        assembly_load(office, draft->of.key[0], draft->of.key[1], &club, &measured);
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
            // Without its unit, its last word, it is what somebody would type.
            char *unit = strrchr(words, ' ');
            if (unit != NULL) {
                *unit = '\0';
            }
            document_set(&draft->before, assembly_fields[i].cell, words);
            char name[CHANGE_NAME_MAX];
            char seq[24];
            seen_cell(i, name);
            snprintf(seq, sizeof seq, "%lld", (long long)measured.seq[i]);
            document_set(&draft->before, name, seq);
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
        const char *text = document_value(&draft->now, assembly_fields[i].cell);
        const char *was = document_value(&draft->before, assembly_fields[i].cell);
        if (strcmp(text, was) == 0) {
            continue;
        }
        if (text[0] == '\0') {
            office_complain(remarks, assembly_fields[i].cell,
                            _("what was measured stays; write a new value"));
            good = false;
        } else if (!final_values_read((enum assembly_value)i, text, unit_of(office), measured)) {
            office_complain(remarks, assembly_fields[i].cell, _(assembly_fields[i].wrong));
            good = false;
        }
    }
    return good;
}

// Why it is used all the same; empty: nobody wants that.
static const char *reason(const struct desk_draft *draft) {
    const char *text = document_value(&draft->now, "accept");
    return text[strspn(text, " ")] != '\0' ? text : "";
}

static bool any_out(const struct assembly_check *check) {
    for (int i = 0; i < ASSEMBLY_VALUE_COUNT; i++) {
        if (check->state[i] == ASSEMBLY_OUT) {
            return true;
        }
    }
    return false;
}

static void consider_reason(const struct office *office, const struct club *club,
                            const struct final_values *measured, struct desk_remarks *remarks) {
    struct assembly_values planned;
    struct assembly_check check;
    assembly_check_club(office, club, measured, &planned, &check);
    if (office->who.role != ROLE_SUPERVISOR) {
        office_complain(remarks, "accept", _("a supervisor's badge and PIN first: F9"));
    } else if (!any_out(&check)) {
        office_complain(remarks, "accept", _("nothing is out of its tolerance"));
    }
}

void measured_consider(struct office *office, struct desk_draft *draft,
                       struct desk_remarks *remarks) {
    struct club club;
    struct final_values measured;
    if (assembly_load(office, draft->of.key[0], draft->of.key[1], &club, &measured) != STORE_OK) {
        office_complain(remarks, "", store_message(office->store));
        return;
    }
    if (club.progress.stage != STAGE_DONE) {
        office_complain(remarks, "", _("this club is not cut yet"));
        return;
    }
    if (read_values(office, draft, &measured, remarks) && reason(draft)[0] != '\0') {
        consider_reason(office, &club, &measured, remarks);
    }
    assembly_notes(office, &club, &measured, remarks);
}

// The entries of one save: values, then why those that are out are used all the same.
struct saving {
    const struct office *office;
    const struct worker *who;
    const struct desk_draft *draft;
    struct club club;
    struct final_values measured;
    size_t count;
    struct entry entry[2 * ASSEMBLY_VALUE_COUNT];
    size_t at[ASSEMBLY_VALUE_COUNT]; // place of a new value's entry
};

static struct entry *add_entry(struct saving *saving, enum entry_kind kind, size_t id) {
    struct entry *entry = &saving->entry[saving->count++];
    *entry = office_entry(saving->office, kind, saving->who, saving->draft->id, id);
    entry->club_id = saving->club.id;
    SET(entry->build, saving->club.order.build);
    SET(entry->club, saving->club.order.club);
    SET(entry->head, saving->club.head.ticket);
    SET(entry->shaft, saving->club.shaft.ticket);
    return entry;
}

static void add_values(struct saving *saving) {
    for (size_t i = 0; i < ASSEMBLY_VALUE_COUNT; i++) {
        const char *text = document_value(&saving->draft->now, assembly_fields[i].cell);
        if (strcmp(text, document_value(&saving->draft->before, assembly_fields[i].cell)) == 0) {
            continue;
        }
        saving->at[i] = saving->count;
        struct entry *entry = add_entry(saving, assembly_fields[i].entry, i);
        if (i == ASSEMBLY_LENGTH) {
            entry->planned = saving->club.order.playing_length;
            entry->made = saving->measured.length;
            SET(entry->cause, length_method_text(saving->office->settings->length_method));
        } else {
            SET(entry->note, text);
            text_to_point(entry->note);
        }
    }
}

static bool seen(const struct saving *saving, int value) {
    char name[CHANGE_NAME_MAX];
    char seq[24];
    seen_cell(value, name);
    snprintf(seq, sizeof seq, "%lld", (long long)saving->measured.seq[value]);
    return strcmp(document_value(&saving->draft->before, name), seq) == 0;
}

// A value that is accepted already is so again, for the newer reason: a second try has the same
// entries. False: another desk measured it since, and nobody here has looked at that.
static bool add_reasons(struct saving *saving, struct desk_said *said) {
    struct assembly_values planned;
    struct assembly_check check;
    assembly_check_club(saving->office, &saving->club, &saving->measured, &planned, &check);
    for (int i = 0; i < ASSEMBLY_VALUE_COUNT; i++) {
        if (check.state[i] != ASSEMBLY_OUT) {
            continue;
        }
        int64_t seq = saving->measured.seq[i];
        if (seq != 0 && !seen(saving, i)) {
            snprintf(said->message, sizeof said->message,
                     _("%s was measured again in the meantime: go back and look at it first."),
                     _(assembly_fields[i].label));
            said->tone = TONE_STOP;
            return false;
        }
        int64_t back = (int64_t)saving->count - (int64_t)saving->at[i];
        struct entry *entry =
            add_entry(saving, ENTRY_NOTE, (size_t)ASSEMBLY_VALUE_COUNT + (size_t)i);
        entry->refers = seq != 0 ? seq : -back; // of this save: its number is not known yet
        SET(entry->cause, ENTRY_ACCEPTED);
        SET(entry->note, reason(saving->draft));
    }
    return true;
}

enum desk_result measured_save(struct office *office, const struct worker *who,
                               struct desk_draft *draft, struct desk_said *said) {
    struct saving saving = {.office = office, .who = who, .draft = draft};
    struct desk_remarks remarks = {0};
    if (assembly_load(office, draft->of.key[0], draft->of.key[1], &saving.club, &saving.measured) !=
        STORE_OK) {
        office_say(said, TONE_STOP, store_message(office->store));
        return DESK_FAILED;
    }
    if (!read_values(office, draft, &saving.measured, &remarks)) {
        office_say(said, TONE_STOP, remarks.complaint[0].text);
        return DESK_REFUSED;
    }
    add_values(&saving);
    if (reason(draft)[0] != '\0' && !add_reasons(&saving, said)) {
        return DESK_REFUSED;
    }
    if (saving.count == 0) {
        office_say(said, TONE_PLAIN, _("Nothing was changed."));
        return DESK_DONE;
    }
    return office_save(office, saving.entry, saving.count, said);
}
