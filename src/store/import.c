#include "import.h"
#include "append.h"
#include "import_check.h"
#include "import_file.h"
#include "import_write.h"
#include "text.h"
#include "tongue.h"

#include <string.h>
#include <time.h>

typedef enum store_result row_writer(struct import_write *write, const void *row);

// Every row of a kind, in the order they stood.
static enum store_result write_rows(struct import_write *write, enum import_kind kind,
                                    row_writer *writer) {
    enum store_result result = STORE_OK;
    for (size_t i = 0; result == STORE_OK && i < write->set->table[kind].count; i++) {
        result = writer(write, import_set_row(write->set, kind, i));
    }
    return result;
}

static enum store_result write_charts(struct import_write *write) {
    const struct import_table *table = &write->set->table[IMPORT_CHARTS];
    enum store_result result = STORE_OK;
    for (size_t i = 0, next; result == STORE_OK && i < table->count; i = next) {
        next = import_set_chart_end(write->set, i);
        result = import_write_chart(write, table->sorted + i, next - i);
    }
    return result;
}

static enum store_result write_profiles(struct import_write *write) {
    const struct import_table *table = &write->set->table[IMPORT_PROFILES];
    enum store_result result = STORE_OK;
    for (size_t i = 0, next; result == STORE_OK && i < table->count; i = next) {
        next = import_set_profile_end(write->set, i);
        result = import_write_profile(write, table->sorted + i, next - i);
    }
    return result;
}

// What others refer to comes first.
static enum store_result write_all(struct import_write *write) {
    enum store_result result = write_rows(write, IMPORT_SHAFT_MODELS, import_write_shaft_model);
    if (result == STORE_OK) {
        result = write_charts(write);
    }
    if (result == STORE_OK) {
        result = write_profiles(write);
    }
    if (result == STORE_OK) {
        result = write_rows(write, IMPORT_HEAD_MODELS, import_write_head_model);
    }
    if (result == STORE_OK) {
        result = write_rows(write, IMPORT_GTINS, import_write_gtin);
    }
    if (result == STORE_OK) {
        result = write_rows(write, IMPORT_WORKERS, import_write_worker);
    }
    if (result == STORE_OK) {
        result = write_rows(write, IMPORT_HEADS, import_write_head);
    }
    if (result == STORE_OK) {
        result = write_rows(write, IMPORT_SHAFTS, import_write_shaft);
    }
    if (result == STORE_OK) {
        result = write_rows(write, IMPORT_STOCK_LEVELS, import_write_stock_level);
    }
    if (result == STORE_OK) {
        result = write_rows(write, IMPORT_ORDERS, import_write_order);
    }
    if (result == STORE_OK) {
        result = write_rows(write, IMPORT_BUILDS, import_write_club);
    }
    if (result == STORE_OK) {
        result = write_rows(write, IMPORT_BUILDS, import_write_club_parts);
    }
    return result;
}

// `heads.csv 12 rows, 3 new, 1 changed; ...`. True when anything was new or changed.
static bool note(const struct import_write *write, char buffer[ENTRY_NOTE_MAX]) {
    struct text text = text_open(buffer, ENTRY_NOTE_MAX);
    size_t moved = 0;
    for (int i = 0; i < IMPORT_KIND_COUNT; i++) {
        const struct import_count *count = &write->count[i];
        size_t rows = write->set->table[i].count;
        if (rows == 0) {
            continue;
        }
        text_add(&text, text.used > 0 ? "; " : "");
        text_add(&text, import_kind_name((enum import_kind)i));
        text_add(&text, ".csv ");
        text_add_number(&text, (int64_t)rows);
        text_add(&text, " rows, ");
        text_add_number(&text, (int64_t)count->added);
        text_add(&text, " new, ");
        text_add_number(&text, (int64_t)count->changed);
        text_add(&text, " changed");
        moved += count->added + count->changed;
    }
    return moved > 0;
}

// Inside the write transaction. `*ret_moved` false: nothing to commit.
static enum store_result bring_in(struct import_write *write, struct entry *entry,
                                  bool *ret_moved) {
    enum store_result result = import_check_references(write->store, write->set, write->say);
    if (result == STORE_OK && write->say->complaints == 0) {
        result = write_all(write);
    }
    if (result != STORE_OK) {
        return result;
    }
    if (write->say->complaints > 0) {
        return connection_say(
            write->store, STORE_REFUSED,
            _("%zu wrong; nothing was imported. Mend the files and import again."),
            write->say->complaints);
    }
    *ret_moved = note(write, entry->note);
    return *ret_moved ? append_entry(write->store, entry) : STORE_OK;
}

static enum store_result transaction(struct import_write *write, struct entry *entry) {
    bool moved = false;
    enum store_result result = connection_begin(write->store);
    if (result != STORE_OK) {
        return result;
    }
    result = bring_in(write, entry, &moved);
    if (result == STORE_OK && moved) {
        return connection_commit(write->store);
    }
    connection_rollback(write->store);
    return result;
}

static void shift_due(struct import_club *club, int days) {
    struct tm day = {.tm_hour = 12};
    if (sscanf(club->order.due, "%4d-%2d-%2d", &day.tm_year, &day.tm_mon, &day.tm_mday) != 3) {
        return; // not known
    }
    day.tm_year -= 1900;
    day.tm_mon--;
    day.tm_mday += days;
    timegm(&day); // brings the days into their month
    strftime(club->order.due, sizeof club->order.due, "%Y-%m-%d", &day);
}

// False: no memory.
static bool read_all(const struct import_source *source, struct import_set *set,
                     struct import_say *say) {
    for (size_t i = 0; i < source->count; i++) {
        if (!import_file(source->paths[i], set, say)) {
            return false;
        }
    }
    for (size_t i = 0; source->due_shift_days != 0 && i < set->table[IMPORT_BUILDS].count; i++) {
        shift_due((struct import_club *)set->table[IMPORT_BUILDS].rows + i, source->due_shift_days);
    }
    return import_set_sort(set) && import_check_set(set, say);
}

enum store_result import_files(struct store *store, const struct import_source *source,
                               struct entry *entry, FILE *messages) {
    struct import_set set = import_set_init();
    struct import_say say = {.messages = messages};
    struct import_write write = {.store = store, .set = &set, .say = &say};
    struct entry copy = *entry;
    enum store_result result = STORE_OK;
    if (!read_all(source, &set, &say)) {
        result = connection_say(store, STORE_FAILED,
                                _("Not enough memory for these files. Import fewer at a time."));
    }
    if (result == STORE_OK) {
        result = transaction(&write, &copy);
    }
    if (result == STORE_OK) {
        *entry = copy;
    }
    import_say_end(&say);
    import_set_release(&set);
    return result;
}
