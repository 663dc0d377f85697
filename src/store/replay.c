#include "replay.h"
#include "day.h"
#include "tongue.h"
#include "work.h"

#include <stdio.h>
#include <string.h>

_Static_assert(TICKET_TEXT_MAX == TABLE_KEY_SIZE, "a ticket is a key");
_Static_assert(2 * sizeof(int64_t) == TABLE_KEY_SIZE, "a run and a quarter are a key");

struct replay replay_init(struct store *store) {
    return (struct replay){
        .store = store,
        .clubs = table_init(sizeof(struct replay_club)),
        .shafts = table_init(sizeof(struct replay_shaft)),
        .heads = table_init(sizeof(struct replay_head)),
        .quarters = table_init(sizeof(struct replay_quarter)),
        .spans = table_init(sizeof(struct replay_span)),
        .orders = table_init(sizeof(struct replay_order)),
    };
}

void replay_release(struct replay *replay) {
    table_release(&replay->clubs);
    table_release(&replay->shafts);
    table_release(&replay->heads);
    table_release(&replay->quarters);
    table_release(&replay->spans);
    table_release(&replay->orders);
}

void replay_number_key(int64_t number, uint8_t ret_key[TABLE_KEY_SIZE]) {
    memset(ret_key, 0, TABLE_KEY_SIZE);
    memcpy(ret_key, &number, sizeof number);
}

void replay_span_key(int64_t run, int64_t quarter, uint8_t ret_key[TABLE_KEY_SIZE]) {
    memcpy(ret_key, &run, sizeof run);
    memcpy(ret_key + sizeof run, &quarter, sizeof quarter);
}

void replay_ticket_key(const char *ticket, uint8_t ret_key[TABLE_KEY_SIZE]) {
    memset(ret_key, 0, TABLE_KEY_SIZE);
    memcpy(ret_key, ticket, strnlen(ticket, TABLE_KEY_SIZE));
}

static enum store_result no_memory(const struct replay *replay) {
    return connection_say(replay->store, STORE_FAILED, _("No memory to go through the log of %s."),
                          replay->store->path);
}

static struct replay_shaft *shaft(struct replay *replay, const char *ticket) {
    uint8_t key[TABLE_KEY_SIZE];
    bool new;
    replay_ticket_key(ticket, key);
    return table_take(&replay->shafts, key, &new);
}

// --- times -------------------------------------------------------------------------------------

static bool span(struct replay *replay, int64_t seq, int64_t quarter) {
    uint8_t key[TABLE_KEY_SIZE];
    bool new;
    if (replay->run == 0 || quarter < replay->quarter) {
        replay->run++;
    }
    replay->quarter = quarter;
    replay_span_key(replay->run, quarter, key);
    struct replay_span *span = table_take(&replay->spans, key, &new);
    if (span != NULL) {
        span->first = new ? seq : span->first;
        span->last = seq;
    }
    return span != NULL;
}

static bool count(struct replay *replay, const struct day_change *change) {
    uint8_t key[TABLE_KEY_SIZE];
    bool new;
    replay_number_key(change->quarter, key);
    struct replay_quarter *quarter = table_take(&replay->quarters, key, &new);
    if (quarter != NULL) {
        quarter->done += change->done;
        quarter->cuts += change->cuts;
        quarter->off += change->off;
        quarter->holds += change->holds;
    }
    return quarter != NULL;
}

static enum store_result times(struct replay *replay, const struct entry *entry, enum stage before,
                               enum stage after) {
    struct day_change own = day_own(entry, before, after);
    if (!span(replay, entry->seq, own.quarter) || !count(replay, &own)) {
        return no_memory(replay);
    }
    if (!day_is_about(entry, before, after)) {
        return STORE_OK;
    }
    struct entry about;
    enum store_result result = store_entry(replay->store, entry->refers, &about);
    if (result != STORE_OK) {
        return result == STORE_NONE ? STORE_OK : result; // its club did not let it pass
    }
    struct day_change other = day_of_about(entry, &about, before, after);
    return count(replay, &other) ? STORE_OK : no_memory(replay);
}

// --- parts -------------------------------------------------------------------------------------

static bool dry_fit(struct replay *replay, const struct entry *entry) {
    uint8_t key[TABLE_KEY_SIZE];
    bool new;
    replay_ticket_key(entry->head, key);
    struct replay_head *head = table_take(&replay->heads, key, &new);
    if (head != NULL) {
        head->overall = entry->planned;
        head->bore = entry->made;
    }
    return head != NULL;
}

static void no_consent(struct replay_club *club) {
    club->column[0] = '\0';
    club->shim = false;
    club->trim = LENGTH_UNKNOWN;
    club->extension = false;
}

static void consent(struct replay_club *club, const struct entry *entry) {
    enum consent to;
    if (entry->kind == ENTRY_KIT || !consent_from_text(entry->cause, &to)) {
        no_consent(club); // they were given to another shaft
        return;
    }
    club->shim |= to == CONSENT_SHIM;
    club->extension |= to == CONSENT_EXTENSION;
    if (to == CONSENT_COLUMN) {
        snprintf(club->column, sizeof club->column, "%.*s", PARTS_SHORT_MAX - 1, entry->note);
    } else if (to == CONSENT_TRIM) {
        entry_trim(entry->note, &club->trim);
    }
}

static bool parts(struct replay *replay, struct replay_club *club, const struct progress *before,
                  const struct entry *entry) {
    if (entry->kind == ENTRY_DRY_FIT) {
        return dry_fit(replay, entry);
    }
    if (entry->kind == ENTRY_CONSENT || entry->kind == ENTRY_KIT) {
        consent(club, entry);
        return true;
    }
    if (!work_moves(entry->kind)) {
        return true;
    }
    struct replay_shaft *one = shaft(replay, entry->shaft);
    if (one == NULL) {
        return false;
    }
    memcpy(club->head, entry->head, sizeof club->head);
    memcpy(club->shaft, entry->shaft, sizeof club->shaft);
    if (work_changes_shaft(before, entry)) {
        one->kind = entry->kind;
        one->made = entry->made;
        one->cut |= work_cuts(entry->kind);
    }
    one->scrap |= entry->kind == ENTRY_DECIDE && strcmp(entry->cause, "use") != 0;
    return true;
}

// --- clubs -------------------------------------------------------------------------------------

static struct replay_club *club_of(struct replay *replay, int64_t id) {
    uint8_t key[TABLE_KEY_SIZE];
    bool new;
    replay_number_key(id, key);
    struct replay_club *club = table_take(&replay->clubs, key, &new);
    if (club != NULL && new) {
        club->progress = (struct progress){.attempt = 1, .tip_made = LENGTH_UNKNOWN};
        club->trim = LENGTH_UNKNOWN;
    }
    return club;
}

enum store_result replay_entry(struct replay *replay, const struct entry *entry) {
    struct replay_club nobody = {.progress = {.attempt = 1, .tip_made = LENGTH_UNKNOWN}};
    struct replay_club *club = entry->club_id == 0 ? &nobody : club_of(replay, entry->club_id);
    if (club == NULL) {
        return no_memory(replay);
    }
    if (replay->bad != 0) {
        return STORE_OK;
    }
    struct progress before = club->progress;
    if ((entry->club_id == 0 && work_needs_club(entry->kind)) ||
        !stage_advance(&club->progress, entry)) {
        replay->bad = entry->seq;
        snprintf(replay->problem, sizeof replay->problem,
                 _("Entry %lld: is a %s of club %s %s, which stood at %s then."),
                 (long long)entry->seq, entry_kind_text(entry->kind), entry->build, entry->club,
                 stage_text(before.stage));
        return STORE_OK;
    }
    if (!parts(replay, club, &before, entry) || !replay_order_changes(replay, entry) ||
        !replay_order_moves(replay, entry, before.stage, club->progress.stage)) {
        return no_memory(replay);
    }
    return times(replay, entry, before.stage, club->progress.stage);
}
