// What the tables say against what the log says. Rows the log says nothing of must look new.

#include "query.h"
#include "replay.h"
#include "tongue.h"
#include "work.h"

#include <stdio.h>
#include <string.h>

static enum store_result differs(struct store_check *check, const char *row, const char *name,
                                 const char *field) {
    snprintf(check->problem, sizeof check->problem, _("%s %s: the %s is not what the log says."),
             _(row), name, _(field));
    return STORE_REFUSED;
}

// A query that is over once a row was wrong.
static enum store_result over(struct query *query, const char *doing, enum store_result found) {
    enum store_result ended = query_end(query, doing);
    if (ended != STORE_OK && ended != STORE_NONE) {
        return ended;
    }
    return found;
}

// --- clubs -------------------------------------------------------------------------------------

struct club_row {
    struct progress progress;
    char head[TICKET_TEXT_MAX];
    char shaft[TICKET_TEXT_MAX];
    char column[PARTS_SHORT_MAX];
    bool shim;
    length_nm trim;
    bool extension;
    char name[2 * PARTS_SHORT_MAX];
};

static void read_club(struct query *query, int64_t *ret_id, struct club_row *row) {
    char stage[16];
    *ret_id = query_number(query, 0);
    query_text(query, 1, stage, sizeof stage);
    query->odd |= !stage_from_text(stage, &row->progress.stage);
    row->progress.attempt = query_int(query, 2);
    row->progress.tip_made = query_length(query, 3);
    row->progress.tip_seq = query_number(query, 4);
    row->progress.butt_seq = query_number(query, 5);
    row->progress.measure_seq = query_number(query, 6);
    row->progress.decision_seq = query_number(query, 7);
    query_text(query, 8, row->progress.bench, sizeof row->progress.bench);
    query_text(query, 9, row->head, sizeof row->head);
    query_text(query, 10, row->shaft, sizeof row->shaft);
    query_text(query, 11, row->column, sizeof row->column);
    row->shim = query_number(query, 12) != 0;
    query_text(query, 13, row->name, sizeof row->name);
    row->trim = query_length(query, 14);
    row->extension = query_number(query, 15) != 0;
}

// NULL: all is as the log says. An order may be changed, and other parts reserved for it, while the
// club is pending; consents may be taken back with that.
static const char *wrong_in_club(const struct club_row *row, const struct replay_club *club) {
    const struct progress *is = &row->progress;
    const struct progress *said = &club->progress;
    bool pending = said->stage == STAGE_PENDING;
    if (is->stage != said->stage) {
        return NT_("row", "stage");
    }
    if (is->attempt != said->attempt) {
        return NT_("row", "number of the attempt");
    }
    if (is->tip_made != said->tip_made) {
        return NT_("row", "length cut off the tip");
    }
    if (is->tip_seq != said->tip_seq) {
        return NT_("row", "entry of its tip cut");
    }
    if (is->butt_seq != said->butt_seq) {
        return NT_("row", "entry of its butt cut");
    }
    if (is->measure_seq != said->measure_seq) {
        return NT_("row", "entry of its measure");
    }
    if (is->decision_seq != said->decision_seq) {
        return NT_("row", "entry to be decided on");
    }
    if (strcmp(is->bench, said->bench) != 0) {
        return NT_("row", "bench");
    }
    if (!pending && strcmp(row->head, club->head) != 0) {
        return NT_("row", "head");
    }
    if (!pending && strcmp(row->shaft, club->shaft) != 0) {
        return NT_("row", "shaft");
    }
    if (row->column[0] != '\0' && strcmp(row->column, club->column) != 0) {
        return NT_("row", "consent to a column");
    }
    if (row->trim != LENGTH_UNKNOWN && row->trim != club->trim) {
        return NT_("row", "consent to a trim");
    }
    if (row->extension && !club->extension) {
        return NT_("row", "consent to an extension");
    }
    return row->shim && !club->shim ? NT_("row", "consent to a shim") : NULL;
}

static enum store_result clubs(const struct replay *replay, struct store_check *check) {
    static const struct replay_club untouched = {
        .progress = {.attempt = 1, .tip_made = LENGTH_UNKNOWN}, .trim = LENGTH_UNKNOWN};
    enum store_result result = STORE_OK;
    struct query query = query_open(replay->store, STATEMENT_CHECK_CLUBS);
    while (result == STORE_OK && query_step(&query)) {
        uint8_t key[TABLE_KEY_SIZE];
        struct club_row row;
        int64_t id;
        read_club(&query, &id, &row);
        replay_number_key(id, key);
        struct replay_club *club = table_find(&replay->clubs, key);
        const char *wrong =
            query.odd ? NULL : wrong_in_club(&row, club == NULL ? &untouched : club);
        if (wrong != NULL) {
            result = differs(check, N_("Club"), row.name, wrong);
        }
        if (club != NULL) {
            club->known = true;
        }
    }
    result = over(&query, N_("compare the clubs with the log"), result);
    for (size_t i = 0; result == STORE_OK && i < replay->clubs.count; i++) {
        const struct replay_club *club = table_at(&replay->clubs, i);
        if (!club->known) {
            snprintf(check->problem, sizeof check->problem,
                     _("A club with head %s and shaft %s is in the log and not in the orders."),
                     club->head, club->shaft);
            result = STORE_REFUSED;
        }
    }
    return result;
}

// --- parts -------------------------------------------------------------------------------------

static const char *wrong_in_shaft(const struct replay_shaft *shaft, const char *life,
                                  length_nm remaining, length_nm raw_length) {
    const char *said = shaft->scrap ? "scrap" : shaft->cut ? "cut" : "raw";
    length_nm left = shaft->kind == ENTRY_GENESIS ? LENGTH_UNKNOWN
                                                  : work_left(shaft->kind, shaft->made, raw_length);
    if (strcmp(life, said) != 0) {
        return NT_("row", "life");
    }
    return remaining != left ? NT_("row", "remaining length") : NULL;
}

static enum store_result shafts(const struct replay *replay, struct store_check *check) {
    static const struct replay_shaft untouched = {.kind = ENTRY_GENESIS};
    enum store_result result = STORE_OK;
    struct query query = query_open(replay->store, STATEMENT_CHECK_SHAFTS);
    while (result == STORE_OK && query_step(&query)) {
        uint8_t key[TABLE_KEY_SIZE];
        char ticket[TICKET_TEXT_MAX];
        char life[8];
        query_text(&query, 0, ticket, sizeof ticket);
        query_text(&query, 1, life, sizeof life);
        length_nm remaining = query_length(&query, 2);
        length_nm raw_length = query_length(&query, 3);
        replay_ticket_key(ticket, key);
        struct replay_shaft *shaft = table_find(&replay->shafts, key);
        const char *wrong = query.odd ? NULL
                                      : wrong_in_shaft(shaft == NULL ? &untouched : shaft, life,
                                                       remaining, raw_length);
        if (wrong != NULL) {
            result = differs(check, N_("Shaft"), ticket, wrong);
        }
        if (shaft != NULL) {
            shaft->known = true;
        }
    }
    result = over(&query, N_("compare the shafts with the log"), result);
    for (size_t i = 0; result == STORE_OK && i < replay->shafts.count; i++) {
        const struct replay_shaft *shaft = table_at(&replay->shafts, i);
        if (!shaft->known) {
            result =
                differs(check, N_("Shaft"), (const char *)shaft->key, NT_("row", "lack of a row"));
        }
    }
    return result;
}

static enum store_result heads(const struct replay *replay, struct store_check *check) {
    enum store_result result = STORE_OK;
    struct query query = query_open(replay->store, STATEMENT_CHECK_HEADS);
    while (result == STORE_OK && query_step(&query)) {
        uint8_t key[TABLE_KEY_SIZE];
        char ticket[TICKET_TEXT_MAX];
        query_text(&query, 0, ticket, sizeof ticket);
        length_nm bore = query_length(&query, 1);
        length_nm overall = query_length(&query, 2);
        length_nm raw = query_length(&query, 3);
        replay_ticket_key(ticket, key);
        struct replay_head *head = table_find(&replay->heads, key);
        if (head == NULL || query.odd) {
            continue; // measured elsewhere
        }
        head->known = true;
        if (bore != head->bore || overall != head->overall ||
            raw != work_minus(head->overall, head->bore)) {
            result = differs(check, N_("Head"), ticket, NT_("row", "dry fit"));
        }
    }
    result = over(&query, N_("compare the heads with the log"), result);
    for (size_t i = 0; result == STORE_OK && i < replay->heads.count; i++) {
        const struct replay_head *head = table_at(&replay->heads, i);
        if (!head->known) {
            result =
                differs(check, N_("Head"), (const char *)head->key, NT_("row", "lack of a row"));
        }
    }
    return result;
}

// --- times -------------------------------------------------------------------------------------

static bool same_quarter(struct query *query, const struct replay_quarter *quarter) {
    const int64_t said[] = {quarter->done, quarter->cuts, quarter->off, quarter->holds};
    bool same = true;
    for (int i = 0; i < (int)(sizeof said / sizeof said[0]); i++) {
        same = query_number(query, i + 1) == said[i] && same;
    }
    return same;
}

static enum store_result quarters(const struct replay *replay, struct store_check *check) {
    enum store_result result = STORE_OK;
    size_t rows = 0;
    struct query query = query_open(replay->store, STATEMENT_CHECK_QUARTERS);
    while (result == STORE_OK && query_step(&query)) {
        uint8_t key[TABLE_KEY_SIZE];
        replay_number_key(query_number(&query, 0), key);
        const struct replay_quarter *quarter = table_find(&replay->quarters, key);
        rows++;
        if (quarter == NULL || !same_quarter(&query, quarter)) {
            result = STORE_REFUSED;
        }
    }
    result = over(&query, N_("compare the counts of the days with the log"), result);
    if (result == STORE_REFUSED || (result == STORE_OK && rows != replay->quarters.count)) {
        snprintf(check->problem, sizeof check->problem,
                 _("The counts of the days are not what the log says."));
        result = STORE_REFUSED;
    }
    return result;
}

static enum store_result spans(const struct replay *replay, struct store_check *check) {
    enum store_result result = STORE_OK;
    size_t rows = 0;
    struct query query = query_open(replay->store, STATEMENT_CHECK_SPANS);
    while (result == STORE_OK && query_step(&query)) {
        uint8_t key[TABLE_KEY_SIZE];
        replay_span_key(query_number(&query, 0), query_number(&query, 1), key);
        const struct replay_span *span = table_find(&replay->spans, key);
        rows++;
        if (span == NULL || query_number(&query, 2) != span->first ||
            query_number(&query, 3) != span->last) {
            result = STORE_REFUSED;
        }
    }
    result = over(&query, N_("compare the times of the entries with the log"), result);
    if (result == STORE_REFUSED || (result == STORE_OK && rows != replay->spans.count)) {
        snprintf(check->problem, sizeof check->problem,
                 _("The list of the times of the entries is not what the log says."));
        result = STORE_REFUSED;
    }
    return result;
}

enum store_result replay_compare(const struct replay *replay, struct store_check *check) {
    if (replay->bad != 0) {
        check->first_bad = replay->bad;
        snprintf(check->problem, sizeof check->problem, "%s", replay->problem);
        return STORE_REFUSED;
    }
    enum store_result result = clubs(replay, check);
    if (result == STORE_OK) {
        result = shafts(replay, check);
    }
    if (result == STORE_OK) {
        result = heads(replay, check);
    }
    if (result == STORE_OK) {
        result = quarters(replay, check);
    }
    if (result == STORE_OK) {
        result = spans(replay, check);
    }
    return result == STORE_OK ? replay_desk(replay, check) : result;
}
