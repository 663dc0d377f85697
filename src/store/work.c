#include "work.h"
#include "final.h"
#include "people.h"

#include <string.h>

bool work_moves(enum entry_kind kind) {
    switch (kind) {
    case ENTRY_TIP_SHOWN:
    case ENTRY_TIP_PARTIAL:
    case ENTRY_TIP_CUT:
    case ENTRY_BUTT_SHOWN:
    case ENTRY_BUTT_CUT:
    case ENTRY_MEASURE:
    case ENTRY_WITHDRAW:
    case ENTRY_DECIDE:
        return true;
    case ENTRY_GENESIS:
    case ENTRY_SIGN_ON:
    case ENTRY_SIGN_OFF:
    case ENTRY_CARE:
    case ENTRY_HOLD:
    case ENTRY_DRY_FIT:
    case ENTRY_CONSENT:
    case ENTRY_PIN:
    case ENTRY_IMPORT:
    case ENTRY_EXPORT:
    case ENTRY_FINAL_LENGTH:
    case ENTRY_FINAL_SWINGWEIGHT:
    case ENTRY_FINAL_FREQUENCY:
    case ENTRY_KIT:
    case ENTRY_KIND_COUNT:
        break;
    }
    return false;
}

bool work_needs_club(enum entry_kind kind) {
    return work_moves(kind) || kind == ENTRY_CONSENT || kind == ENTRY_KIT || final_kind(kind);
}

enum store_result work_load(struct store *store, int64_t club_id, struct work *ret_work) {
    struct work work = {0};
    char stage[16];
    struct query query = query_open(store, STATEMENT_WORK);
    query_bind_number(&query, club_id);
    if (query_step(&query)) {
        query_text(&query, 0, stage, sizeof stage);
        query.odd |= !stage_from_text(stage, &work.progress.stage);
        work.progress.attempt = query_int(&query, 1);
        work.progress.tip_made = query_length(&query, 2);
        work.progress.tip_seq = query_number(&query, 3);
        work.progress.butt_seq = query_number(&query, 4);
        work.progress.measure_seq = query_number(&query, 5);
        work.progress.decision_seq = query_number(&query, 6);
        query_text(&query, 7, work.progress.bench, sizeof work.progress.bench);
        query_text(&query, 8, work.head, sizeof work.head);
        query_text(&query, 9, work.shaft, sizeof work.shaft);
        work.raw_length = query_length(&query, 10);
    }
    enum store_result result = query_end(&query, "look up the club");
    if (result == STORE_OK) {
        *ret_work = work;
    }
    return result;
}

// The parts an entry names must be the ones the club has now; a dry fit is about the head alone.
static bool same_parts(const struct work *work, const struct entry *entry) {
    if ((entry->kind == ENTRY_DRY_FIT && entry->club_id != 0) || entry->kind == ENTRY_KIT) {
        return strcmp(work->head, entry->head) == 0;
    }
    return (!work_moves(entry->kind) && !final_kind(entry->kind)) ||
           (work->head[0] != '\0' && work->shaft[0] != '\0' &&
            strcmp(work->head, entry->head) == 0 && strcmp(work->shaft, entry->shaft) == 0);
}

static bool known_consent(const struct entry *entry) {
    return entry->kind != ENTRY_CONSENT || strcmp(entry->cause, "column") == 0 ||
           strcmp(entry->cause, "shim") == 0;
}

static enum store_result allowed_supervisor(struct store *store, const char *badge) {
    bool yes = false;
    enum store_result result = people_supervisor(store, badge, &yes);
    if (result == STORE_OK && !yes) {
        result = connection_say(store, STORE_REFUSED, "Only a supervisor may decide this, not %s.",
                                badge[0] == '\0' ? "nobody" : badge);
    }
    return result;
}

enum store_result work_allowed(struct store *store, const struct work *work,
                               const struct entry *entry) {
    bool cut = entry->kind == ENTRY_TIP_CUT || entry->kind == ENTRY_BUTT_CUT;
    bool supervisor =
        entry->kind == ENTRY_DECIDE || entry->kind == ENTRY_CONSENT || entry->kind == ENTRY_KIT;
    if (!same_parts(work, entry)) {
        return connection_say(store, STORE_REFUSED,
                              "Club %s %s is made of head %s and shaft %s now, not of %s and %s. "
                              "Scan both again.",
                              entry->build, entry->club, work->head, work->shaft, entry->head,
                              entry->shaft);
    }
    if (cut && entry->attempt != work->progress.attempt) {
        return connection_say(store, STORE_REFUSED,
                              "This cut was begun before another one was withdrawn (attempt %d, "
                              "now %d). Scan both parts again.",
                              entry->attempt, work->progress.attempt);
    }
    if (!known_consent(entry)) {
        return connection_say(store, STORE_REFUSED,
                              "Consent is to a column or shim, not to \"%s\".", entry->cause);
    }
    if (final_kind(entry->kind) && !final_plausible(entry)) {
        return connection_say(store, STORE_REFUSED,
                              "\"%s\" is no %s that a club has. Measure again.", entry->note,
                              entry_kind_text(entry->kind));
    }
    if (entry->kind == ENTRY_KIT && (work->head[0] == '\0' || work->shaft[0] != '\0')) {
        return connection_say(store, STORE_REFUSED,
                              "Club %s %s has head \"%s\" and shaft \"%s\": a shaft is chosen for "
                              "a club with a head and none yet.",
                              entry->build, entry->club, work->head, work->shaft);
    }
    return supervisor ? allowed_supervisor(store, entry->worker) : STORE_OK;
}

static enum store_result save_progress(struct store *store, const struct progress *progress,
                                       int64_t club_id) {
    struct query query = query_open(store, STATEMENT_WORK_SET);
    query_bind_text(&query, stage_text(progress->stage));
    query_bind_number(&query, progress->attempt);
    query_bind_length(&query, progress->tip_made);
    query_bind_id(&query, progress->tip_seq);
    query_bind_id(&query, progress->butt_seq);
    query_bind_id(&query, progress->measure_seq);
    query_bind_id(&query, progress->decision_seq);
    query_bind_text(&query, progress->bench);
    query_bind_number(&query, club_id);
    return query_run(&query, "save how far the club is");
}

static enum store_result shaft_left(struct store *store, enum statement statement, length_nm left,
                                    const char *ticket) {
    struct query query = query_open(store, statement);
    query_bind_length(&query, left);
    query_bind_text(&query, ticket);
    return query_run(&query, "save what is left of the shaft");
}

static length_nm minus(length_nm a, length_nm b) {
    return a == LENGTH_UNKNOWN || b == LENGTH_UNKNOWN || b > a ? LENGTH_UNKNOWN : a - b;
}

static enum store_result dry_fit(struct store *store, const struct entry *entry) {
    struct query query = query_open(store, STATEMENT_WORK_BORE);
    query_bind_length(&query, entry->made);
    query_bind_length(&query, entry->planned);
    query_bind_length(&query, minus(entry->planned, entry->made));
    query_bind_text(&query, entry->head);
    query_step(&query);
    enum store_result result = query_end(&query, "save the dry fit");
    return result == STORE_NONE
               ? connection_say(store, STORE_REFUSED, "There is no head %s to save a dry fit for.",
                                entry->head)
               : result;
}

static enum store_result consent(struct store *store, const struct entry *entry) {
    bool shim = strcmp(entry->cause, "shim") == 0;
    struct query query = query_open(store, shim ? STATEMENT_WORK_SHIM : STATEMENT_WORK_COLUMN);
    if (!shim) {
        query_bind_text(&query, entry->note);
    }
    query_bind_number(&query, entry->club_id);
    return query_run(&query, "save the supervisor's consent");
}

static enum store_result scrap(struct store *store, const char *shaft) {
    struct query query = query_open(store, STATEMENT_WORK_SCRAP);
    query_bind_text(&query, shaft);
    return query_run(&query, "scrap the shaft");
}

static enum store_result recut(struct store *store, const struct work *before,
                               const struct entry *entry) {
    char ticket[ENTRY_NOTE_MAX];
    enum store_result result = scrap(store, before->shaft);
    if (result != STORE_OK) {
        return result;
    }
    memcpy(ticket, entry->note, sizeof ticket);
    ticket[strcspn(ticket, " ")] = '\0';
    struct query query = query_open(store, STATEMENT_WORK_RECUT);
    query_bind_number(&query, entry->club_id);
    query_bind_text(&query, ticket);
    query_bind_text(&query, before->shaft);
    query_step(&query);
    result = query_end(&query, "reserve the new shaft");
    return result == STORE_NONE
               ? connection_say(store, STORE_REFUSED,
                                "%s is no raw, free shaft of the model and flex of %s. Choose "
                                "another one.",
                                ticket, before->shaft)
               : result;
}

static enum store_result decide(struct store *store, const struct work *before,
                                const struct entry *entry) {
    if (strcmp(entry->cause, "recut") == 0) {
        return recut(store, before, entry);
    }
    return strcmp(entry->cause, "scrap") == 0 ? scrap(store, before->shaft) : STORE_OK;
}

// Consents were given to another shaft, if to any.
static enum store_result kit(struct store *store, const struct entry *entry) {
    struct query query = query_open(store, STATEMENT_WORK_KIT);
    query_bind_number(&query, entry->club_id);
    query_bind_text(&query, entry->shaft);
    query_step(&query);
    enum store_result result = query_end(&query, "reserve the shaft");
    if (result != STORE_OK) {
        return result != STORE_NONE
                   ? result
                   : connection_say(store, STORE_REFUSED,
                                    "%s is no raw, free shaft of the model and flex that club %s "
                                    "%s wishes. Match the build again.",
                                    entry->shaft, entry->build, entry->club);
    }
    query = query_open(store, STATEMENT_WORK_NO_CONSENT);
    query_bind_number(&query, entry->club_id);
    return query_run(&query, "take back a consent");
}

// What the entry does to head and shaft. After a withdrawal nobody knows what is left of the shaft,
// and it never counts as raw again (R14).
static enum store_result parts(struct store *store, const struct work *before,
                               const struct entry *entry) {
    switch (entry->kind) {
    case ENTRY_TIP_PARTIAL:
    case ENTRY_TIP_CUT:
        return shaft_left(store, STATEMENT_WORK_CUT, minus(before->raw_length, entry->made),
                          before->shaft);
    case ENTRY_BUTT_CUT:
        return shaft_left(store, STATEMENT_WORK_CUT, entry->made, before->shaft);
    case ENTRY_MEASURE:
        return before->progress.tip_seq != 0 || before->progress.butt_seq != 0
                   ? shaft_left(store, STATEMENT_WORK_LEFT, entry->made, before->shaft)
                   : STORE_OK;
    case ENTRY_WITHDRAW:
        return shaft_left(store, STATEMENT_WORK_LEFT, LENGTH_UNKNOWN, before->shaft);
    case ENTRY_DRY_FIT:
        return dry_fit(store, entry);
    case ENTRY_CONSENT:
        return consent(store, entry);
    case ENTRY_DECIDE:
        return decide(store, before, entry);
    case ENTRY_KIT:
        return kit(store, entry);
    case ENTRY_GENESIS:
    case ENTRY_SIGN_ON:
    case ENTRY_SIGN_OFF:
    case ENTRY_CARE:
    case ENTRY_TIP_SHOWN:
    case ENTRY_BUTT_SHOWN:
    case ENTRY_HOLD:
    case ENTRY_PIN:
    case ENTRY_IMPORT:
    case ENTRY_EXPORT:
    case ENTRY_FINAL_LENGTH:
    case ENTRY_FINAL_SWINGWEIGHT:
    case ENTRY_FINAL_FREQUENCY:
    case ENTRY_KIND_COUNT:
        break;
    }
    return STORE_OK;
}

enum store_result work_apply(struct store *store, const struct work *before,
                             const struct progress *after, const struct entry *entry) {
    enum store_result result = parts(store, before, entry);
    if (result == STORE_OK && work_moves(entry->kind)) {
        result = save_progress(store, after, entry->club_id);
    }
    return result;
}
