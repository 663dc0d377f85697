#include "changes.h"
#include "lists.h"
#include "text.h"

#include <stdint.h>
#include <string.h>

enum store_result changes_add(struct store *store, int64_t seq, const struct change *change) {
    char thing[CHANGED_THING_MAX];
    struct text text = text_open(thing, sizeof thing);
    for (size_t i = 0; i < change->keys; i++) {
        text_add(&text, i > 0 ? "\t" : "");
        text_add(&text, change->key[i].value);
    }
    struct query query = query_open(store, STATEMENT_CHANGE_ADD);
    query_bind_number(&query, seq);
    query_bind_text(&query, change->sheet);
    query_bind_text(&query, thing);
    for (size_t i = 0; i < CHANGE_KEYS_MAX; i++) {
        query_bind_text(&query, i < change->keys ? change->key[i].value : "");
    }
    return query_run(&query, N_("save what was changed"));
}

static void read_line(struct query *query, struct changed_line *line) {
    char plan[ENTRY_PLAN_MAX];
    struct change change;
    memset(line, 0, sizeof *line);
    line->seq = query_number(query, 0);
    line->wall_ms = query_number(query, 1);
    query_text(query, 2, line->worker, sizeof line->worker);
    query_text(query, 3, line->sheet, sizeof line->sheet);
    query_text(query, 4, line->thing, sizeof line->thing);
    line->revision = query_number(query, 5);
    query_text(query, 6, line->note, sizeof line->note);
    line->takes_back = query_number(query, 7);
    line->taken_back = query_number(query, 8);
    query_text(query, 9, plan, sizeof plan);
    if (!change_read(plan, &change)) {
        query->odd = true;
        return;
    }
    line->made = change.made;
    line->taken = change.taken;
    change_words(&change, line->words, sizeof line->words);
}

int store_changes(struct store *store, const char *sheet, const char *thing, int64_t before,
                  struct changed_line *lines, int max) {
    int count = 0;
    struct query query = query_open(store, sheet == NULL   ? STATEMENT_LIST_CHANGES
                                           : thing == NULL ? STATEMENT_LIST_SHEET_CHANGES
                                                           : STATEMENT_LIST_THING_CHANGES);
    query_bind_number(&query, before > 0 ? before : INT64_MAX);
    query_bind_number(&query, max);
    if (sheet != NULL) {
        query_bind_text(&query, sheet);
    }
    if (sheet != NULL && thing != NULL) {
        query_bind_text(&query, thing);
    }
    while (count < max && query_step(&query)) {
        read_line(&query, &lines[count++]);
    }
    enum store_result result = query_end(&query, N_("list the changes"));
    return result == STORE_OK || result == STORE_NONE ? count : -1;
}
