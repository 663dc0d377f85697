#include "desk_fixture.h"

#include <stdio.h>

struct document desk_load(struct fixture *fixture, const char *sheet, const char *a, const char *b,
                          const char *c) {
    const char *const keys[] = {a, b, c};
    struct document document;
    enum store_result result = store_document(fixture->store, sheet, keys, &document);
    if (result != STORE_OK) {
        fail_msg("%s %s: %d %s", sheet, a, result, store_message(fixture->store));
    }
    return document;
}

bool desk_there(struct fixture *fixture, const char *sheet, const char *a, const char *b,
                const char *c) {
    const char *const keys[] = {a, b, c};
    struct document document;
    enum store_result result = store_document(fixture->store, sheet, keys, &document);
    assert_true(result == STORE_OK || result == STORE_NONE);
    return result == STORE_OK;
}

void desk_expect(const struct document *document, const char *name, const char *value) {
    if (strcmp(document_value(document, name), value) != 0) {
        fail_msg("%s: \"%s\", not \"%s\"", name, document_value(document, name), value);
    }
}

struct entry desk_entry(struct fixture *fixture, const struct document *before,
                        const struct document *after, const char *worker) {
    struct entry entry = fixture_entry(fixture, ENTRY_CHANGE, 0);
    struct change change;
    change_between(before, after, &change);
    assert_true(change_write(&change, entry.plan, sizeof entry.plan));
    change_words(&change, entry.note, sizeof entry.note);
    strcpy(entry.worker, worker);
    strcpy(entry.cause, change.sheet);
    return entry;
}

int64_t desk_changes(struct fixture *fixture, const struct document *before,
                     const struct document *after) {
    struct entry entry = desk_entry(fixture, before, after, SUPERVISOR);
    if (store_append(fixture->store, &entry) != STORE_OK) {
        fail_msg("%s", store_message(fixture->store));
    }
    return entry.seq;
}

void desk_refuses(struct fixture *fixture, struct entry entry, const char *cell,
                  const char *words) {
    const struct store_complaint *complaint;
    int64_t entries = fixture_number(fixture->store->db, "SELECT count(*) FROM log");
    enum store_result result = store_append(fixture->store, &entry);
    size_t count = store_complaints(fixture->store, &complaint);
    if (result != STORE_REFUSED || strstr(store_message(fixture->store), words) == NULL) {
        fail_msg("%d %s", result, store_message(fixture->store));
    }
    if (cell != NULL && (count == 0 || strcmp(complaint[0].cell, cell) != 0)) {
        fail_msg("%s is the cell, not %s", count > 0 ? complaint[0].cell : "none", cell);
    }
    assert_int_equal(fixture_number(fixture->store->db, "SELECT count(*) FROM log"), entries);
}

// Takes an entry's change back, as the desk does.
struct entry desk_back(struct fixture *fixture, int64_t seq) {
    struct entry first;
    struct entry entry = fixture_entry(fixture, ENTRY_CHANGE, 0);
    struct change change, back;
    assert_int_equal(store_entry(fixture->store, seq, &first), STORE_OK);
    assert_true(change_read(first.plan, &change));
    change_back(&change, &back);
    assert_true(change_write(&back, entry.plan, sizeof entry.plan));
    strcpy(entry.worker, SUPERVISOR);
    entry.refers = seq;
    return entry;
}
