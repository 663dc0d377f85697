// Shafts that are lost, by cause: counted on the day a supervisor said scrap or recut, as in the
// ledger.

#include "office_inner.h"
#include "record.h"
#include "text.h"

#include <stdlib.h>
#include <string.h>

#define DAY_MS ((int64_t)86400000)
#define DAYS 30            // without days typed: the last ones
#define DECISIONS_MAX 2000 // that are looked at
#define GROUPS_MAX 200     // of cause and model; what comes later counts as another model

struct group {
    bool tip; // past its mark; else too short
    bool recut;
    char model[PARTS_NAME_MAX];
    char flex[PARTS_SHORT_MAX];
    int64_t shafts;
};
struct scrap {
    size_t count;
    bool more;
    struct {
        int64_t about;
        bool recut;
    } decision[DECISIONS_MAX];
    size_t group_count;
    struct group group[GROUPS_MAX + 1];
};

static bool keep(void *context, const struct entry *entry) {
    struct scrap *scrap = context;
    if (entry->kind != ENTRY_DECIDE || strcmp(entry->cause, "use") == 0) {
        return true;
    }
    if (scrap->count == DECISIONS_MAX) {
        scrap->more = true;
        return false;
    }
    scrap->decision[scrap->count].about = entry->refers;
    scrap->decision[scrap->count++].recut = strcmp(entry->cause, "recut") == 0;
    return true;
}

static bool same(const struct group *a, const struct group *b) {
    return a->tip == b->tip && a->recut == b->recut && strcmp(a->model, b->model) == 0 &&
           strcmp(a->flex, b->flex) == 0;
}

static void count(struct scrap *scrap, const struct group *lost) {
    size_t at = 0;
    while (at < scrap->group_count && !same(&scrap->group[at], lost)) {
        at++;
    }
    if (at == scrap->group_count && at <= GROUPS_MAX) {
        scrap->group[scrap->group_count++] = *lost;
        if (at == GROUPS_MAX) {
            memset(scrap->group[at].model, 0, sizeof scrap->group[at].model);
        }
    }
    scrap->group[at <= GROUPS_MAX ? at : GROUPS_MAX].shafts++;
}

// What was cut, out of the entry that was decided about.
static enum store_result look_up(struct office *office, struct scrap *scrap) {
    for (size_t i = 0; i < scrap->count; i++) {
        struct entry about;
        struct record record;
        struct group lost;
        enum store_result result = store_entry(office->store, scrap->decision[i].about, &about);
        if (result != STORE_OK) {
            return result;
        }
        memset(&lost, 0, sizeof lost);
        lost.tip = about.kind == ENTRY_TIP_CUT;
        lost.recut = scrap->decision[i].recut;
        if (record_read(about.plan, &record)) {
            SET(lost.model, record.shaft_model);
            SET(lost.flex, record.flex);
        }
        count(scrap, &lost);
    }
    return STORE_OK;
}

static int most_first(const void *a, const void *b) {
    const struct group *first = a;
    const struct group *second = b;
    return first->shafts != second->shafts ? (first->shafts < second->shafts ? 1 : -1)
                                           : strcmp(first->model, second->model);
}

// --- days ----------------------------------------------------------------------------------------

// `2026-03-01`, `2026-03-01/2026-03-31`, nothing: the last ones. False: something else.
static bool days(const struct office *office, const char *typed, int64_t *ret_from,
                 int64_t *ret_to) {
    const struct station_ops *world = office->world;
    char first[12] = "";
    const char *slash = strchr(typed, '/');
    const char *last = slash != NULL ? slash + 1 : typed;
    int64_t now = world->wall_ms(world->ctx);
    if (typed[0] == '\0') {
        *ret_from = world->day_start_ms(world->ctx, now - (DAYS - 1) * DAY_MS);
        *ret_to = now + 1;
        return true;
    }
    words_copy(first, sizeof first, typed);
    first[slash != NULL && slash - typed < 11 ? slash - typed : 11] = '\0';
    int64_t from = world->date_ms(world->ctx, first);
    int64_t to = world->date_ms(world->ctx, last);
    if (from < 0 || to < from) {
        return false;
    }
    *ret_from = from;
    *ret_to = world->day_start_ms(world->ctx, to + DAY_MS + DAY_MS / 2); // days of 23 to 25 hours
    return true;
}

static void subtitle(const struct office *office, int64_t from, int64_t to,
                     struct desk_table *table) {
    char first[16];
    char last[16];
    struct text text = text_open(table->set.subtitle, sizeof table->set.subtitle);
    office->day_text(from, first, sizeof first);
    office->day_text(to - 1, last, sizeof last);
    text_say(&text, _("%1 to %2. Type other days: 2026-03-01/2026-03-31"), first, last);
}

// --- the list ------------------------------------------------------------------------------------

static void add_group(const struct group *group, size_t at, struct desk_table *table) {
    int row = rows_add(table);
    if (row >= 0) {
        char(*cell)[VIEW_CELL_MAX] = table->set.row[row].cell;
        rows_number((int64_t)at + 1, table->ref[row].key[0], DESK_KEY_MAX);
        SET(cell[0], group->tip ? _("tip past the mark") : _("too short"));
        SET(cell[1], group->recut ? _("another shaft cut") : _("scrapped"));
        SET(cell[2], group->model[0] != '\0' ? group->model : _("others"));
        SET(cell[3], group->flex);
        rows_number(group->shafts, cell[4], VIEW_CELL_MAX);
    }
}

static void total(const struct scrap *scrap, struct desk_table *table) {
    char words[VIEW_TEXT_MAX];
    struct text text = text_open(words, sizeof words);
    text_say(&text, _("Shafts lost: %1."), text_number((int64_t)scrap->count).digits);
    rows_note(table, scrap->count > 0 ? TONE_CAUTION : TONE_FINE, words);
    if (scrap->more) {
        rows_note(table, TONE_CAUTION,
                  _("More than can be counted here: choose fewer days, or look into the ledger."));
    }
}

enum desk_result list_scrap(struct office *office, const struct desk_query *query,
                            struct desk_table *table) {
    const char *const heads[] = {_("Why"), _("What then"), _("Shaft model"), _("Flex"),
                                 _("Shafts")};
    struct scrap *scrap = NULL;
    struct log_filter filter;
    size_t passed = (size_t)strtoull(query->after.key[0], NULL, 10);
    memset(&filter, 0, sizeof filter);
    SET(table->set.title, _("Scrap"));
    rows_head(table, heads, sizeof heads / sizeof *heads);
    if (!days(office, query->find, &filter.from_ms, &filter.to_ms)) {
        SET(table->set.subtitle, _("These are no days. As an example: 2026-03-01/2026-03-31"));
        return DESK_DONE;
    }
    subtitle(office, filter.from_ms, filter.to_ms, table);
    scrap = calloc(1, sizeof *scrap);
    if (scrap == NULL) {
        return DESK_FAILED;
    }
    enum store_result result = store_log_each(office->store, &filter, keep, scrap);
    result = result == STORE_OK ? look_up(office, scrap) : result;
    qsort(scrap->group, scrap->group_count, sizeof scrap->group[0], most_first);
    for (size_t i = passed; i < scrap->group_count; i++) {
        add_group(&scrap->group[i], i, table);
    }
    total(scrap, table);
    free(scrap);
    return office_result(result);
}
