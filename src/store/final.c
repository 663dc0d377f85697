#include "final.h"
#include "balance.h"
#include "club_read.h"
#include "query.h"

#include <string.h>

static const enum entry_kind kinds[ASSEMBLY_VALUE_COUNT] = {
    [ASSEMBLY_LENGTH] = ENTRY_FINAL_LENGTH,
    [ASSEMBLY_SWINGWEIGHT] = ENTRY_FINAL_SWINGWEIGHT,
    [ASSEMBLY_FREQUENCY] = ENTRY_FINAL_FREQUENCY,
    [ASSEMBLY_LOFT] = ENTRY_FINAL_LOFT,
    [ASSEMBLY_LIE] = ENTRY_FINAL_LIE,
};

// ASSEMBLY_VALUE_COUNT: of none.
static enum assembly_value value_of(enum entry_kind kind) {
    int value = 0;
    while (value < ASSEMBLY_VALUE_COUNT && kinds[value] != kind) {
        value++;
    }
    return (enum assembly_value)value;
}

bool final_kind(enum entry_kind kind) {
    return value_of(kind) != ASSEMBLY_VALUE_COUNT;
}

// Takes the entry's value into *values. False when it is none.
static bool take(const struct entry *entry, struct final_values *values) {
    double inch_ounces;
    if (entry->kind == ENTRY_FINAL_FREQUENCY) {
        return entry_frequency(entry->note, &values->frequency);
    }
    if (entry->kind == ENTRY_FINAL_LOFT || entry->kind == ENTRY_FINAL_LIE) {
        return entry_angle(entry->kind, entry->note,
                           entry->kind == ENTRY_FINAL_LOFT ? &values->loft : &values->lie);
    }
    if (entry->kind == ENTRY_FINAL_LENGTH) {
        values->length = entry->made;
        return entry_final_length(entry->made) &&
               length_method_from_text(entry->cause, &values->method);
    }
    if (strlen(entry->note) >= sizeof values->swingweight ||
        balance_scale_parse(entry->note, &inch_ounces) != BALANCE_SCALE_OK) {
        return false;
    }
    strcpy(values->swingweight, entry->note);
    return true;
}

bool final_plausible(const struct entry *entry) {
    struct final_values values;
    return take(entry, &values);
}

enum store_result store_final_values(struct store *store, int64_t club_id,
                                     struct final_values *ret_values) {
    struct final_values values = final_values_none();
    struct entry entry = {0};
    char kind[ENTRY_CAUSE_MAX];
    struct query query = query_open(store, STATEMENT_FINALS);
    query_bind_number(&query, club_id);
    while (query_step(&query)) {
        query_text(&query, 0, kind, sizeof kind);
        entry.made = query_length(&query, 1);
        query_text(&query, 2, entry.note, sizeof entry.note);
        query_text(&query, 3, entry.cause, sizeof entry.cause);
        query.odd |= !entry_kind_from_text(kind, &entry.kind) || !final_kind(entry.kind) ||
                     !take(&entry, &values);
        if (!query.odd) {
            values.seq[value_of(entry.kind)] = query_number(&query, 4);
            values.accepted[value_of(entry.kind)] = query_id(&query, 5);
        }
    }
    enum store_result result = query_end(&query, N_("look up what was measured"));
    if (result == STORE_OK || result == STORE_NONE) {
        *ret_values = values;
        return STORE_OK;
    }
    return result;
}

enum store_result final_newest(struct store *store, const struct entry *entry, bool *ret_newest) {
    struct final_values values;
    enum assembly_value value = value_of(entry->kind);
    enum store_result result = store_final_values(store, entry->club_id, &values);
    if (result == STORE_OK) {
        *ret_newest = value != ASSEMBLY_VALUE_COUNT && values.seq[value] == entry->seq;
    }
    return result;
}

static enum store_result each_club(struct store *store, const char *build, store_club_each *each,
                                   void *context) {
    enum store_result result = STORE_OK;
    struct query query = query_open(store, STATEMENT_BUILD_CLUBS);
    query_bind_text(&query, build);
    for (bool more = true; more && result == STORE_OK && query_step(&query);) {
        struct club club = {.id = query_number(&query, 0)};
        struct final_values values;
        result = club_read(store, &club);
        if (result == STORE_OK) {
            result = store_final_values(store, club.id, &values);
        }
        more = result == STORE_OK && each(context, &club, &values);
    }
    enum store_result read = query_end(&query, N_("list the clubs of a build"));
    return result == STORE_OK ? read : result;
}

enum store_result store_build_clubs(struct store *store, const char *build, store_club_each *each,
                                    void *context) {
    struct ticket ticket;
    char body[TICKET_TEXT_MAX];
    enum store_result result = connection_read_begin(store);
    if (result != STORE_OK) {
        return result;
    }
    result = each_club(store, build, each, context);
    if (result == STORE_NONE && ticket_parse(build, &ticket) == TICKET_OK &&
        ticket.kind == TICKET_BUILD) {
        ticket_body(&ticket, body);
        result = each_club(store, body, each, context);
    }
    connection_read_end(store);
    return result;
}

enum store_result store_build_beside(struct store *store, const char *build, bool before,
                                     char ret_build[PARTS_BUILD_MAX]) {
    char name[PARTS_BUILD_MAX] = "";
    struct query query = query_open(store, before ? STATEMENT_BUILD_BEFORE : STATEMENT_BUILD_AFTER);
    query_bind_text(&query, build);
    while (query_step(&query)) {
        query_text(&query, 0, name, sizeof name);
    }
    enum store_result result = query_end(&query, N_("look for the next build"));
    if (result == STORE_OK && name[0] != '\0') {
        memcpy(ret_build, name, sizeof name);
    }
    return result == STORE_OK && name[0] == '\0' ? STORE_NONE : result;
}
