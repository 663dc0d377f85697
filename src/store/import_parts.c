// Heads, shafts and workers. An empty cell keeps what the store knows; what the bench measured or
// cut is never taken back by a file.

#include "catalogue.h"
#include "import_row.h"
#include "import_write.h"
#include "tongue.h"

#include <string.h>

static void count(struct import_write *write, enum import_kind kind, bool added) {
    write->count[kind].added += added ? 1 : 0;
    write->count[kind].changed += added ? 0 : 1;
}

int64_t import_or_known(const struct import_write *write, int64_t cell, int64_t known) {
    return cell == LENGTH_UNKNOWN && !write->exact ? known : cell;
}

void import_keep_text(char *wanted, const char *known, size_t size) {
    if (wanted[0] == '\0') {
        memcpy(wanted, known, size);
    }
}

bool import_write_begun(struct import_write *write, struct import_at at, const char *column,
                        enum stage stage, const char *build, const char *club) {
    if (stage == STAGE_PENDING) {
        return false;
    }
    import_complain(write->say, at, column,
                    _("club %s of build %s is begun at the saw, so no file changes it any more; "
                      "take the row out"),
                    club, build);
    return true;
}

static enum store_result no_consent(struct store *store, int64_t club) {
    struct query query = query_open(store, STATEMENT_WORK_NO_CONSENT);
    query_bind_number(&query, club);
    return query_run(&query, N_("take back a consent"));
}

// The club a part is reserved for.
struct holder {
    int64_t id; // 0: none
    char build[PARTS_BUILD_MAX];
    char club[PARTS_SHORT_MAX];
    enum stage stage;
};

static void read_holder(struct query *query, int column, struct holder *holder) {
    char word[16];
    holder->stage = STAGE_PENDING;
    holder->id = query_number(query, column);
    if (holder->id != 0) {
        query_text(query, column + 1, holder->build, sizeof holder->build);
        query_text(query, column + 2, holder->club, sizeof holder->club);
        query_text(query, column + 3, word, sizeof word);
        query->odd |= !stage_from_text(word, &holder->stage);
    }
}

// --- heads -------------------------------------------------------------------------------------

static enum store_result known_head(struct store *store, const char *ticket,
                                    struct import_head *ret_head, struct holder *ret_holder,
                                    bool *ret_fitted) {
    struct import_head head = {0};
    struct holder holder = {0};
    bool fitted = false;
    struct query query = query_open(store, STATEMENT_IMPORT_HEAD);
    query_bind_text(&query, ticket);
    if (query_step(&query)) {
        query_text(&query, 0, head.model, sizeof head.model);
        head.weight = query_length(&query, 1);
        head.dry_fit_overall = query_length(&query, 2);
        head.dry_fit_raw = query_length(&query, 3);
        head.bore_height = query_length(&query, 4);
        query_text(&query, 5, head.lot, sizeof head.lot);
        read_holder(&query, 6, &holder);
        fitted = query_int(&query, 10) != 0;
    }
    enum store_result result = query_end(&query, N_("look up a head"));
    if (result == STORE_OK) {
        *ret_head = head;
        *ret_holder = holder;
        *ret_fitted = fitted;
    }
    return result;
}

static enum store_result save_head(struct store *store, enum statement statement,
                                   const struct import_head *head) {
    struct query query = query_open(store, statement);
    query_bind_text(&query, head->model);
    query_bind_length(&query, head->weight);
    query_bind_length(&query, head->dry_fit_overall);
    query_bind_length(&query, head->dry_fit_raw);
    query_bind_length(&query, head->bore_height);
    query_bind_text(&query, head->lot);
    query_bind_text(&query, head->ticket);
    return query_run(&query, N_("save a head"));
}

enum store_result import_known_head(struct store *store, struct import_head *row) {
    struct import_head head;
    struct holder holder;
    bool fitted;
    enum store_result result = known_head(store, row->ticket, &head, &holder, &fitted);
    if (result == STORE_OK) {
        memcpy(head.ticket, row->ticket, sizeof head.ticket);
        *row = head;
    }
    return result;
}

// The bore height goes with the dry fit it came from.
static void keep_bore(struct import_write *write, struct import_head *wanted,
                      const struct import_head *known, bool fitted) {
    char words[LENGTH_TEXT_MAX];
    if (fitted && wanted->bore_height != LENGTH_UNKNOWN &&
        wanted->bore_height != known->bore_height) {
        length_text_fraction(known->bore_height, words);
        import_remark(write->say, wanted->at, "bore_height",
                      _("a dry fit at the bench found %s in; that stays"), words);
    }
    if (fitted || wanted->bore_height == LENGTH_UNKNOWN) {
        wanted->bore_height = known->bore_height;
        wanted->dry_fit_overall = known->dry_fit_overall;
        wanted->dry_fit_raw = known->dry_fit_raw;
    }
}

enum store_result import_write_head(struct import_write *write, const void *row) {
    struct import_head wanted = *(const struct import_head *)row;
    struct import_head known;
    struct holder holder;
    bool fitted;
    enum store_result result = known_head(write->store, wanted.ticket, &known, &holder, &fitted);
    if (result == STORE_NONE) {
        count(write, IMPORT_HEADS, true);
        return save_head(write->store, STATEMENT_IMPORT_ADD_HEAD, &wanted);
    }
    if (result != STORE_OK) {
        return result;
    }
    wanted.weight = import_or_known(write, wanted.weight, known.weight);
    if (!write->exact) {
        keep_bore(write, &wanted, &known, fitted);
        import_keep_text(wanted.lot, known.lot, sizeof wanted.lot);
    }
    bool other = strcmp(wanted.model, known.model) != 0 || wanted.weight != known.weight;
    bool measured = wanted.bore_height != known.bore_height ||
                    wanted.dry_fit_overall != known.dry_fit_overall ||
                    wanted.dry_fit_raw != known.dry_fit_raw;
    if (!other && !measured && strcmp(wanted.lot, known.lot) == 0) {
        return STORE_OK;
    }
    if ((other || measured) &&
        import_write_begun(write, wanted.at, "ticket", holder.stage, holder.build, holder.club)) {
        return STORE_OK;
    }
    if (other && holder.id != 0) {
        result = no_consent(write->store, holder.id);
    }
    count(write, IMPORT_HEADS, false);
    return result == STORE_OK ? save_head(write->store, STATEMENT_IMPORT_SET_HEAD, &wanted)
                              : result;
}

// --- shafts ------------------------------------------------------------------------------------

static enum store_result known_shaft(struct store *store, const char *ticket,
                                     struct shaft *ret_shaft, bool *ret_raw,
                                     struct holder *ret_holder) {
    struct shaft shaft = {0};
    struct holder holder = {0};
    char life[8] = "";
    struct query query = query_open(store, STATEMENT_IMPORT_SHAFT);
    query_bind_text(&query, ticket);
    if (query_step(&query)) {
        catalogue_shaft(&query, &shaft);
        query_text(&query, 12, life, sizeof life);
        read_holder(&query, 13, &holder);
    }
    enum store_result result = query_end(&query, N_("look up a shaft"));
    if (result == STORE_OK) {
        *ret_shaft = shaft;
        *ret_raw = strcmp(life, "raw") == 0;
        *ret_holder = holder;
    }
    return result;
}

static enum store_result save_shaft(struct store *store, enum statement statement,
                                    const struct shaft *shaft) {
    struct query query = query_open(store, statement);
    query_bind_text(&query, shaft->model);
    query_bind_text(&query, shaft->flex);
    query_bind_length(&query, shaft->raw_length);
    query_bind_length(&query, shaft->weight);
    query_bind_text(&query, shaft->rack);
    query_bind_length(&query, shaft->balance);
    query_bind_length(&query, shaft->raw_frequency);
    query_bind_length(&query, shaft->frequency_mass);
    query_bind_length(&query, shaft->tip_cut);
    query_bind_text(&query, shaft->from_shaft);
    query_bind_text(&query, shaft->lot);
    query_bind_text(&query, shaft->ticket);
    return query_run(&query, N_("save a shaft"));
}

enum store_result import_known_shaft(struct store *store, struct import_shaft *row) {
    struct import_shaft shaft = {0};
    struct holder holder;
    bool raw;
    enum store_result result = known_shaft(store, row->shaft.ticket, &shaft.shaft, &raw, &holder);
    if (result == STORE_OK) {
        *row = shaft;
    }
    return result;
}

// What is known stays where the file says nothing; frequency and its mass are one measurement.
static void keep_known(const struct import_write *write, struct shaft *wanted,
                       const struct shaft *known) {
    if (write->exact) {
        return;
    }
    wanted->raw_length = import_or_known(write, wanted->raw_length, known->raw_length);
    wanted->weight = import_or_known(write, wanted->weight, known->weight);
    wanted->balance = import_or_known(write, wanted->balance, known->balance);
    if (wanted->raw_frequency == FREQUENCY_UNKNOWN) {
        wanted->raw_frequency = known->raw_frequency;
        wanted->frequency_mass = known->frequency_mass;
    }
    import_keep_text(wanted->rack, known->rack, sizeof wanted->rack);
    import_keep_text(wanted->lot, known->lot, sizeof wanted->lot);
    wanted->tip_cut = import_or_known(write, wanted->tip_cut, known->tip_cut);
    import_keep_text(wanted->from_shaft, known->from_shaft, sizeof wanted->from_shaft);
}

static bool same_figures(const struct shaft *a, const struct shaft *b) {
    return a->raw_length == b->raw_length && a->weight == b->weight && a->balance == b->balance &&
           a->raw_frequency == b->raw_frequency && a->frequency_mass == b->frequency_mass &&
           a->tip_cut == b->tip_cut && strcmp(a->from_shaft, b->from_shaft) == 0;
}

// An offcut names the shaft it was cut from, which is one that was cut (R14).
static enum store_result offcut(struct import_write *write, struct import_at at,
                                const struct shaft *shaft) {
    struct part from;
    if (shaft->from_shaft[0] == '\0') {
        return STORE_OK;
    }
    enum store_result result = store_part(write->store, shaft->from_shaft, &from);
    if (result == STORE_NONE) {
        import_complain(write->say, at, "from_shaft", _("there is no shaft %s; look at its ticket"),
                        shaft->from_shaft);
        return STORE_OK;
    }
    if (result == STORE_OK && from.life == PART_RAW) {
        import_complain(
            write->say, at, "from_shaft",
            _("%s was never cut, so nothing of it can be used again; look at its ticket"),
            shaft->from_shaft);
    }
    return result;
}

enum store_result import_write_shaft(struct import_write *write, const void *row) {
    const struct import_shaft *given = row;
    struct shaft wanted = given->shaft;
    struct shaft known;
    struct holder holder;
    bool raw;
    enum store_result result = known_shaft(write->store, wanted.ticket, &known, &raw, &holder);
    size_t complaints = write->say->complaints;
    if (result == STORE_OK || result == STORE_NONE) {
        enum store_result found = offcut(write, given->at, &wanted);
        result = found == STORE_OK ? result : found;
    }
    if (write->say->complaints > complaints) {
        return STORE_OK;
    }
    if (result == STORE_NONE) {
        count(write, IMPORT_SHAFTS, true);
        return save_shaft(write->store, STATEMENT_IMPORT_ADD_SHAFT, &wanted);
    }
    if (result != STORE_OK) {
        return result;
    }
    keep_known(write, &wanted, &known);
    bool other = strcmp(wanted.model, known.model) != 0 || strcmp(wanted.flex, known.flex) != 0;
    bool measured = !same_figures(&wanted, &known);
    if (!other && !measured && strcmp(wanted.rack, known.rack) == 0 &&
        strcmp(wanted.lot, known.lot) == 0) {
        return STORE_OK;
    }
    if (!import_row_balance(write->say, given->at, wanted.balance, wanted.raw_length)) {
        return STORE_OK;
    }
    if (!raw && (other || measured)) {
        import_complain(
            write->say, given->at, "ticket",
            _("this shaft has been cut: only its rack and lot may change; take the row out or "
              "leave it as it was"));
        return STORE_OK;
    }
    if (raw && (other || measured) &&
        import_write_begun(write, given->at, "ticket", holder.stage, holder.build, holder.club)) {
        return STORE_OK;
    }
    if (other && holder.id != 0) {
        result = no_consent(write->store, holder.id);
    }
    count(write, IMPORT_SHAFTS, false);
    return result == STORE_OK ? save_shaft(write->store, STATEMENT_IMPORT_SET_SHAFT, &wanted)
                              : result;
}

// --- workers -----------------------------------------------------------------------------------

enum store_result import_write_worker(struct import_write *write, const void *row) {
    const struct worker *wanted = &((const struct import_worker *)row)->worker;
    char name[PARTS_NAME_MAX] = "";
    char role[16] = "";
    struct query query = query_open(write->store, STATEMENT_IMPORT_WORKER);
    query_bind_text(&query, wanted->badge);
    if (query_step(&query)) {
        query_text(&query, 0, name, sizeof name);
        query_text(&query, 1, role, sizeof role);
    }
    enum store_result result = query_end(&query, N_("look up a badge"));
    if (result != STORE_OK && result != STORE_NONE) {
        return result;
    }
    if (strcmp(name, wanted->name) == 0 && strcmp(role, role_text(wanted->role)) == 0) {
        return STORE_OK;
    }
    count(write, IMPORT_WORKERS, result == STORE_NONE);
    query = query_open(write->store, result == STORE_NONE ? STATEMENT_IMPORT_ADD_WORKER
                                                          : STATEMENT_IMPORT_SET_WORKER);
    query_bind_text(&query, wanted->name);
    query_bind_text(&query, role_text(wanted->role));
    query_bind_text(&query, wanted->badge);
    return query_run(&query, N_("save a worker"));
}
