// Is everything whole: the chain first, because it can name the entry.

#include "check.h"
#include "chain.h"
#include "replay.h"
#include "text.h"
#include "tongue.h"
#include "witness_compare.h"

#include <stdio.h>

// `pattern`: marked with N_, %1 for `detail`.
static enum store_result found(struct store_check *check, const char *pattern, const char *detail) {
    struct text text = text_open(check->problem, sizeof check->problem);
    text_say(&text, _(pattern), detail);
    return STORE_REFUSED;
}

// A file that SQLite calls damaged is an answer, not a failure to look.
static enum store_result ended(struct store *store, struct query *query, const char *doing,
                               struct store_check *check) {
    enum store_result result = query_end(query, doing);
    int code = store->db == NULL ? SQLITE_OK : sqlite3_errcode(store->db) & 0xFF;
    if (result == STORE_FAILED && (code == SQLITE_CORRUPT || code == SQLITE_NOTADB)) {
        return found(check, "%1", store_message(store));
    }
    return result;
}

static enum store_result integrity(struct store *store, struct store_check *check) {
    char answer[160] = "";
    struct query query = query_open(store, STATEMENT_CHECK_INTEGRITY);
    if (query_step(&query)) {
        const char *text = (const char *)sqlite3_column_text(query.statement, 0);
        query.failed |= text == NULL; // no memory
        snprintf(answer, sizeof answer, "%s", text == NULL ? "" : text);
    }
    enum store_result result = ended(store, &query, N_("check the file"), check);
    if (result == STORE_OK && sqlite3_stricmp(answer, "ok") != 0) {
        result = found(check, N_("The file is damaged: %1"), answer);
    }
    return result;
}

static enum store_result foreign_keys(struct store *store, struct store_check *check) {
    char table[48] = "";
    struct query query = query_open(store, STATEMENT_CHECK_FOREIGN_KEYS);
    if (query_step(&query)) {
        query_text(&query, 0, table, sizeof table);
    }
    enum store_result result = ended(store, &query, N_("check references"), check);
    if (result == STORE_OK) {
        return found(check, N_("A row refers to something that is not there: table %1"), table);
    }
    return result == STORE_NONE ? STORE_OK : result;
}

// Of a copy of an older schema: whether its times are kept as db/0010 has them.
static enum store_result has_spans(struct store *store, struct store_check *check, bool *ret) {
    struct query query = query_open(store, STATEMENT_CHECK_HAS_SPANS);
    if (query_step(&query)) {
        *ret = query_number(&query, 0) != 0;
    }
    return ended(store, &query, N_("read what is kept of times"), check);
}

// The spans of time know the last entry too: a tail that was cut off shows.
static enum store_result tail(struct store *store, struct store_check *check) {
    int64_t last = 0;
    bool spans = true;
    enum store_result asked = has_spans(store, check, &spans);
    if (asked != STORE_OK) {
        return asked;
    }
    struct query query =
        query_open(store, spans ? STATEMENT_CHECK_TAIL : STATEMENT_CHECK_TAIL_BEFORE_SPANS);
    if (query_step(&query)) {
        last = query_number(&query, 0);
    }
    enum store_result result = ended(store, &query, N_("check the end of the log"), check);
    if (result == STORE_OK && last > check->entries) {
        check->first_bad = check->entries + 1;
        result = found(check, N_("Entries are missing at the end of the log."), "");
    } else if (result == STORE_OK && last < check->entries) {
        result =
            found(check, N_("The times of the entries do not know the last ones of the log."), "");
    }
    return result;
}

// The review finds entries by their facets: one that had none, or another's, would be hidden.
static enum store_result facets_fit(struct store *store, struct store_check *check) {
    int64_t count = 0;
    int64_t wrong = 0;
    struct query query = query_open(store, STATEMENT_CHECK_FACETS);
    if (query_step(&query)) {
        count = query_number(&query, 0);
        wrong = query_number(&query, 1);
    }
    enum store_result result = ended(store, &query, N_("check the facets of the log"), check);
    if (result == STORE_OK && (wrong != 0 || count != check->entries)) {
        result =
            found(check, N_("The lists that the review finds entries by do not fit the log."), "");
    }
    return result;
}

struct rule {
    enum statement statement; // gives the name of a row that breaks it
    const char *problem;      // as `found` takes it
};

static enum store_result keep_rules(struct store *store, struct store_check *check,
                                    const struct rule *rules, size_t count) {
    char name[96];
    enum store_result result = STORE_OK;
    for (size_t i = 0; result == STORE_OK && i < count; i++) {
        struct query query = query_open(store, rules[i].statement);
        if (query_step(&query)) {
            query_text(&query, 0, name, sizeof name);
        }
        result = ended(store, &query, N_("check what belongs together"), check);
        result = result == STORE_OK     ? found(check, rules[i].problem, name)
                 : result == STORE_NONE ? STORE_OK
                                        : result;
    }
    return result;
}

// What no foreign key can say. A copy of an older schema has none of it.
static enum store_result estimates(struct store *store, struct store_check *check) {
    static const struct rule rules[] = {
        {STATEMENT_CHECK_WISHES, N_("A club wishes a shaft model that is not there: club %1")},
        {STATEMENT_CHECK_PROFILES, N_("A profile has too few or too many points: %1")},
    };
    return store->older ? STORE_OK
                        : keep_rules(store, check, rules, sizeof rules / sizeof rules[0]);
}

static enum store_result file(struct store *store, struct store_check *check,
                              struct witness_compare *compare, struct replay *replay) {
    enum store_result result = chain_check(store, check, compare, replay);
    if (result == STORE_FAILED && (sqlite3_errcode(store->db) & 0xFF) == SQLITE_CORRUPT) {
        result = found(check, "%1", store_message(store));
    }
    if (result == STORE_OK) {
        result = tail(store, check);
    }
    if (result == STORE_OK) {
        result = integrity(store, check);
    }
    if (result == STORE_OK) {
        result = foreign_keys(store, check);
    }
    return result == STORE_OK ? estimates(store, check) : result;
}

// The file and whether the log explains what the tables say.
static enum store_result all(struct store *store, struct store_check *check,
                             struct witness_compare *compare) {
    static const struct rule rules[] = {
        {STATEMENT_CHECK_RANKS, N_("What the bench goes by is not what the order says: club %1")},
        {STATEMENT_CHECK_COUNTS,
         N_("The counts of clubs at a stage are not those of the orders: %1")},
        {STATEMENT_CHECK_LOTS, N_("The counts of a lot are not those of its parts: %1")},
        {STATEMENT_CHECK_CHANGES, N_("The list of what was changed does not fit the log: %1")},
    };
    struct replay replay = replay_init(store);
    enum store_result result = file(store, check, compare, &replay);
    if (result == STORE_OK) {
        result = replay_compare(&replay, check);
    }
    replay_release(&replay);
    if (result == STORE_OK) {
        result = facets_fit(store, check);
    }
    return result == STORE_OK ? keep_rules(store, check, rules, sizeof rules / sizeof rules[0])
                              : result;
}

static enum store_result look(struct store *store, struct store_check *ret_check,
                              struct witness_compare *compare, bool explained) {
    struct store_check check = {0};
    enum store_result result = connection_read_begin(store);
    if (result != STORE_OK) {
        return result;
    }
    result = explained ? all(store, &check, compare) : file(store, &check, NULL, NULL);
    connection_read_end(store);
    if (result == STORE_OK || result == STORE_REFUSED) {
        *ret_check = check;
    }
    return result;
}

enum store_result check_file(struct store *store, struct store_check *ret_check) {
    return look(store, ret_check, NULL, false);
}

enum store_result store_check(struct store *store, struct store_check *ret_check) {
    return look(store, ret_check, NULL, true);
}

// Between two steps of a statement, of which the walk makes one an entry.
static int asked_to_stop(void *context) {
    struct store_watch *watch = context;
    return atomic_load(&watch->stop);
}

void store_watch(struct store *store, struct store_watch *watch) {
    store->watch = watch;
    sqlite3_progress_handler(store->db, watch == NULL ? 0 : 10000,
                             watch == NULL ? NULL : asked_to_stop, watch);
}

void store_stop(struct store *store) {
    atomic_store(&store->watch->stop, true);
    sqlite3_interrupt(store->db); // the check of the file is one long step
}

enum store_result store_check_witness(struct store *store, const struct witness *witness,
                                      struct store_check *ret_check,
                                      struct witness_finding *ret_finding) {
    struct witness_compare compare = {.witness = witness};
    enum store_result result = look(store, ret_check, &compare, true);
    if (result == STORE_OK || result == STORE_REFUSED) {
        *ret_finding = compare.finding;
    }
    return result;
}
