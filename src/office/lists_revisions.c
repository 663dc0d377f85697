// The revisions of a chart, who made each and why, and what differs between two of them.
//
// A revision is named by the key `iron 3`; `iron 3 5` are two that are compared.

#include "office_inner.h"
#include "text.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define THING_MAX (DESK_KEYS * DESK_KEY_MAX)
#define CHANGES_AT_ONCE 16

struct revision_ref {
    char kind[DESK_KEY_MAX];
    int64_t first; // 0: not given
    int64_t second;
};

static struct revision_ref parse(const struct desk_ref *ref) {
    struct revision_ref parsed = {0};
    char *end;
    const char *blank = strchr(ref->key[2], ' ');
    SET(parsed.kind, ref->key[2]);
    if (blank != NULL) {
        parsed.kind[blank - ref->key[2]] = '\0';
        parsed.first = strtoll(blank, &end, 10);
        parsed.second = strtoll(end, NULL, 10);
    }
    return parsed;
}

static enum store_result load(struct office *office, const struct desk_ref *ref, const char *kind,
                              int64_t revision, struct chart *ret_chart) {
    return store_chart_revision(office->store, ref->key[0], ref->key[1], kind, revision, ret_chart);
}

// `pattern` has %1 for the chart's shaft model, %2 flex, %3 kind.
static void title_of(const struct desk_ref *ref, const char *kind, const char *pattern,
                     struct desk_table *table) {
    struct text text = text_open(table->set.title, sizeof table->set.title);
    text_say(&text, pattern, ref->key[0], ref->key[1], csv_words(kind));
}

static void thing_of(const struct desk_ref *ref, const char *kind, char thing[THING_MAX]) {
    snprintf(thing, THING_MAX, "%s\t%s\t%s", ref->key[0], ref->key[1], kind);
}

// --- who, when, why ------------------------------------------------------------------------------

static void who(const struct office *office, const char *badge, char *buffer, size_t size) {
    struct worker worker;
    words_copy(buffer, size,
               store_worker(office->store, badge, &worker) == STORE_OK ? worker.name : badge);
}

// What there is to say about the selected revision, besides its row.
static void about(const struct changed_line *line, struct desk_table *table) {
    char words[VIEW_TEXT_MAX];
    struct text text = text_open(words, sizeof words);
    text_say(&text, line->made ? _("Entry %1, the first of this chart") : _("Entry %1"),
             text_number(line->seq).digits);
    rows_note(table, TONE_PLAIN, words);
    text = text_open(words, sizeof words);
    text_say(&text, _("Why: %1"), line->note[0] != '\0' ? line->note : _("nothing was said"));
    rows_note(table, TONE_PLAIN, words);
    text = text_open(words, sizeof words);
    text_say(&text, _("Changed: %1"), line->words);
    rows_note(table, TONE_PLAIN, words);
    if (line->takes_back > 0 || line->taken_back > 0) {
        text = text_open(words, sizeof words);
        text_say(&text,
                 line->taken_back > 0 ? _("Taken back by entry %1") : _("Takes back entry %1"),
                 text_number(line->taken_back > 0 ? line->taken_back : line->takes_back).digits);
        rows_note(table, TONE_CAUTION, words);
    }
}

static void fill_row(const struct office *office, const struct desk_query *query,
                     const struct changed_line *line, size_t row, struct desk_table *table) {
    char(*cell)[VIEW_CELL_MAX] = table->set.row[row].cell;
    office_when(office, line->wall_ms, cell[2], VIEW_CELL_MAX);
    who(office, line->worker, cell[3], VIEW_CELL_MAX);
    rows_brief(line->note, cell[4]);
    table->set.row[row].tone = line->taken_back > 0 ? TONE_CAUTION : TONE_PLAIN;
    if (query->has_selected &&
        memcmp(&query->selected, &table->ref[row], sizeof query->selected) == 0) {
        about(line, table);
    }
}

// Into the rows, which go from `newest` down.
static enum desk_result fill_changes(const struct office *office, const struct desk_query *query,
                                     const char *kind, int64_t newest, struct desk_table *table) {
    struct changed_line lines[CHANGES_AT_ONCE];
    char thing[THING_MAX];
    int64_t before = 0;
    int64_t rows = (int64_t)table->set.row_count;
    int count;
    thing_of(&query->of, kind, thing);
    do {
        count = store_changes(office->store, "charts", thing, before, lines, CHANGES_AT_ONCE);
        for (int i = 0; i < count; i++) {
            int64_t row = newest - lines[i].revision;
            if (lines[i].revision > 0 && row >= 0 && row < rows) {
                fill_row(office, query, &lines[i], (size_t)row, table);
            }
            before = lines[i].seq;
        }
    } while (count == CHANGES_AT_ONCE);
    return count < 0 ? DESK_FAILED : DESK_DONE;
}

static void revision_key(const struct revision_ref *of, int64_t revision, struct desk_ref *ref) {
    struct text key = text_open(ref->key[2], DESK_KEY_MAX);
    int64_t chosen = of->second > 0 ? of->second : of->first;
    text_add(&key, of->kind);
    if (chosen > 0) {
        text_add(&key, " ");
        text_add_number(&key, chosen);
    }
    text_add(&key, " ");
    text_add_number(&key, revision);
}

enum desk_result list_revisions(struct office *office, const struct desk_query *query,
                                struct desk_table *table) {
    const char *const heads[] = {_("Revision"), _("Columns"), _("When"), _("Who"), _("Why")};
    struct revision_ref of = parse(&query->of);
    struct revision_ref after = parse(&query->after);
    int64_t last = after.second > 0 ? after.second : after.first;
    struct chart chart = {0};
    enum store_result result = load(office, &query->of, of.kind, 0, &chart);
    title_of(&query->of, of.kind,
             of.first > 0 ? _("Compare with, %1 %2, %3") : _("Revisions of %1 %2, %3"), table);
    rows_head(table, heads, sizeof heads / sizeof *heads);
    int64_t newest = last > 0 ? last - 1 : chart.revision;
    for (int64_t revision = newest; result == STORE_OK && revision > 0; revision--) {
        int row = rows_add(table);
        if (row < 0) {
            break;
        }
        result = load(office, &query->of, of.kind, revision, &chart);
        table->ref[row] = query->of;
        revision_key(&of, revision, &table->ref[row]);
        rows_number(revision, table->set.row[row].cell[0], VIEW_CELL_MAX);
        rows_number((int64_t)chart.count, table->set.row[row].cell[1], VIEW_CELL_MAX);
    }
    return result == STORE_OK ? fill_changes(office, query, of.kind, newest, table)
                              : office_result(result);
}

// --- differences ---------------------------------------------------------------------------------

static void column_words(const struct office *office, const struct chart_column *column,
                         char *buffer) {
    char trim[VIEW_CELL_MAX];
    struct text text = text_open(buffer, VIEW_CELL_MAX);
    if (column == NULL) {
        text_add(&text, _("not there"));
        return;
    }
    text_add_mass(&text, column->weight);
    office_length(office, column->tip_trim, trim, sizeof trim);
    text_add(&text, ", ");
    text_add(&text, trim[0] != '\0' ? trim : _("not offered"));
}

static const struct chart_column *column_named(const struct chart *chart, const char *name) {
    for (size_t i = 0; i < chart->count; i++) {
        if (strcmp(chart->column[i].name, name) == 0) {
            return &chart->column[i];
        }
    }
    return NULL;
}

static bool same_column(const struct chart_column *a, const struct chart_column *b) {
    return a != NULL && b != NULL && a->weight == b->weight && a->tip_trim == b->tip_trim;
}

static void difference(const struct office *office, const struct chart_column *before,
                       const struct chart_column *after, struct desk_table *table) {
    int row = same_column(before, after) ? -1 : rows_add(table);
    if (row >= 0) {
        char(*cell)[VIEW_CELL_MAX] = table->set.row[row].cell;
        const char *name = after != NULL ? after->name : before->name;
        SET(table->ref[row].key[0], name);
        SET(cell[0], name);
        column_words(office, before, cell[1]);
        column_words(office, after, cell[2]);
        table->set.row[row].tone = TONE_CAUTION;
    }
}

static void columns(const struct office *office, const struct chart *before,
                    const struct chart *after, struct desk_table *table) {
    for (size_t i = 0; i < after->count; i++) {
        difference(office, column_named(before, after->column[i].name), &after->column[i], table);
    }
    for (size_t i = 0; i < before->count; i++) {
        if (column_named(after, before->column[i].name) == NULL) {
            difference(office, &before->column[i], NULL, table);
        }
    }
}

// The entry that made the newest revision up to `revision` that an entry made; 0: none is known.
static enum desk_result entry_of(const struct office *office, const char *thing, int64_t revision,
                                 int64_t *ret_seq) {
    struct changed_line lines[CHANGES_AT_ONCE];
    int64_t before = 0;
    int count;
    *ret_seq = 0;
    do {
        count = store_changes(office->store, "charts", thing, before, lines, CHANGES_AT_ONCE);
        for (int i = 0; i < count; i++) {
            if (lines[i].revision > 0 && lines[i].revision <= revision) {
                *ret_seq = lines[i].seq;
                return DESK_DONE;
            }
            before = lines[i].seq;
        }
    } while (count == CHANGES_AT_ONCE);
    return count < 0 ? DESK_FAILED : DESK_DONE;
}

// An older change goes before what later ones made of the same cells.
static bool put_before(const struct change *older, struct change *all) {
    for (size_t i = 0; i < older->count; i++) {
        size_t at = 0;
        while (at < all->count && strcmp(all->cell[at].name, older->cell[i].name) != 0) {
            at++;
        }
        if (at == CHANGE_CELLS_MAX) {
            return false;
        }
        if (at == all->count) {
            all->cell[all->count++] = older->cell[i];
        } else {
            memcpy(all->cell[at].before, older->cell[i].before, CHANGE_VALUE_MAX);
        }
    }
    return true;
}

// What was changed of the shaft model by entries after `from` and before `until` (0: to this day).
static enum desk_result model_between(const struct office *office, const char *model, int64_t from,
                                      int64_t until, struct change *all) {
    struct changed_line lines[CHANGES_AT_ONCE];
    int64_t before = until;
    int count;
    do {
        count = store_changes(office->store, "shaft_models", model, before, lines, CHANGES_AT_ONCE);
        for (int i = 0; i < count && lines[i].seq > from; i++) {
            struct entry entry;
            struct change change;
            if (store_entry(office->store, lines[i].seq, &entry) != STORE_OK ||
                !change_read(entry.plan, &change) || !put_before(&change, all)) {
                return DESK_FAILED;
            }
        }
        before = count > 0 ? lines[count - 1].seq : 0;
    } while (count == CHANGES_AT_ONCE && before > from);
    return count < 0 ? DESK_FAILED : DESK_DONE;
}

static void value_words(const char *value, char buffer[VIEW_CELL_MAX]) {
    words_copy(buffer, VIEW_CELL_MAX, value[0] != '\0' ? value : _("not known"));
    for (char *at = buffer; (at = strchr(at, '_')) != NULL;) {
        *at = ' ';
    }
}

static void model_rows(const struct change *all, struct desk_table *table) {
    for (size_t i = 0; i < all->count; i++) {
        const struct change_cell *change = &all->cell[i];
        int row = strcmp(change->before, change->after) == 0 ? -1 : rows_add(table);
        if (row >= 0) {
            char(*cell)[VIEW_CELL_MAX] = table->set.row[row].cell;
            SET(table->ref[row].key[0], change->name);
            SET(cell[0], desk_label(DESK_FORM_SHAFT_MODEL, change->name));
            value_words(change->before, cell[1]);
            value_words(change->after, cell[2]);
            table->set.row[row].tone = TONE_CAUTION;
        }
    }
}

static enum desk_result model_notes(const struct office *office, const struct desk_ref *of,
                                    const char *kind, const int64_t revisions[2], bool newest,
                                    struct desk_table *table) {
    char thing[THING_MAX];
    struct change all;
    int64_t from = 0;
    int64_t until = 0;
    memset(&all, 0, sizeof all);
    thing_of(of, kind, thing);
    enum desk_result result = entry_of(office, thing, revisions[0], &from);
    if (result == DESK_DONE && !newest) {
        result = entry_of(office, thing, revisions[1], &until);
    }
    if (result == DESK_DONE && (newest || until > 0)) {
        result = model_between(office, of->key[0], from, until, &all);
    }
    model_rows(&all, table);
    return result;
}

// Two revisions; of one, itself against the newest; of the newest, against the one before it.
static void choose(const struct revision_ref *of, int64_t newest, int64_t ret_revisions[2]) {
    int64_t first = of->first > 0 ? of->first : newest;
    int64_t second = of->second > 0 ? of->second : first == newest ? newest - 1 : newest;
    ret_revisions[0] = first < second ? first : second;
    ret_revisions[1] = first < second ? second : first;
}

enum desk_result list_differences(struct office *office, const struct desk_query *query,
                                  struct desk_table *table) {
    const char *const heads[] = {_("What"), _("Before"), _("After")};
    struct revision_ref of = parse(&query->of);
    struct chart newest = {0};
    struct chart chart[2] = {0};
    int64_t revisions[2];
    enum store_result result = load(office, &query->of, of.kind, 0, &newest);
    choose(&of, newest.revision, revisions);
    for (size_t i = 0; i < 2 && result == STORE_OK; i++) {
        result = revisions[i] > 0 ? load(office, &query->of, of.kind, revisions[i], &chart[i])
                                  : STORE_OK;
    }
    if (result != STORE_OK) {
        return office_result(result);
    }
    title_of(&query->of, of.kind, _("Differences, %1 %2, %3"), table);
    struct text text = text_open(table->set.subtitle, sizeof table->set.subtitle);
    text_say(&text, _("revision %1 to %2"), text_number(revisions[0]).digits,
             text_number(revisions[1]).digits);
    rows_head(table, heads, sizeof heads / sizeof *heads);
    columns(office, &chart[0], &chart[1], table);
    enum desk_result done =
        model_notes(office, &query->of, of.kind, revisions, revisions[1] == newest.revision, table);
    if (table->set.row_count == 0) {
        rows_note(table, TONE_FINE, _("Nothing differs."));
    }
    return done;
}
