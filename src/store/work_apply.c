// What an entry does to its club and the club's parts.

#include "sheet.h"
#include "told.h"
#include "tongue.h"
#include "work.h"

#include <string.h>

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
    return query_run(&query, N_("save how far the club is"));
}

static enum store_result shaft_left(struct store *store, enum statement statement, length_nm left,
                                    const char *ticket) {
    struct query query = query_open(store, statement);
    query_bind_length(&query, left);
    query_bind_text(&query, ticket);
    return query_run(&query, N_("save what is left of the shaft"));
}

length_nm work_minus(length_nm a, length_nm b) {
    length_nm left;
    return a == LENGTH_UNKNOWN || b == LENGTH_UNKNOWN || b > a ||
                   __builtin_sub_overflow(a, b, &left)
               ? LENGTH_UNKNOWN
               : left;
}

// Nobody knows what is left after a withdrawal, and the shaft never counts as raw again (R14).
bool work_changes_shaft(const struct progress *before, const struct entry *entry) {
    bool begun = before->tip_seq != 0 || before->butt_seq != 0;
    return work_cuts(entry->kind) || entry->kind == ENTRY_WITHDRAW ||
           (entry->kind == ENTRY_MEASURE && begun);
}

bool work_cuts(enum entry_kind kind) {
    return kind == ENTRY_TIP_PARTIAL || kind == ENTRY_TIP_CUT || kind == ENTRY_BUTT_CUT;
}

length_nm work_left(enum entry_kind kind, length_nm made, length_nm raw_length) {
    if (kind == ENTRY_TIP_PARTIAL || kind == ENTRY_TIP_CUT) {
        return work_minus(raw_length, made);
    }
    return kind == ENTRY_WITHDRAW ? LENGTH_UNKNOWN : made;
}

static enum store_result dry_fit(struct store *store, const struct entry *entry) {
    struct query query = query_open(store, STATEMENT_WORK_BORE);
    query_bind_length(&query, entry->made);
    query_bind_length(&query, entry->planned);
    query_bind_length(&query, work_minus(entry->planned, entry->made));
    query_bind_text(&query, entry->head);
    query_step(&query);
    enum store_result result = query_end(&query, N_("save the dry fit"));
    return result == STORE_NONE
               ? connection_say(store, STORE_REFUSED,
                                _("There is no head %s to save a dry fit for."), entry->head)
               : result;
}

static enum store_result consent(struct store *store, const struct entry *entry) {
    static const enum statement statements[CONSENT_COUNT] = {
        [CONSENT_COLUMN] = STATEMENT_WORK_COLUMN,
        [CONSENT_SHIM] = STATEMENT_WORK_SHIM,
        [CONSENT_TRIM] = STATEMENT_WORK_TRIM,
        [CONSENT_EXTENSION] = STATEMENT_WORK_EXTENSION,
    };
    enum consent to;
    length_nm trim;
    if (!consent_from_text(entry->cause, &to)) {
        return STORE_REFUSED; // work_allowed has said so
    }
    struct query query = query_open(store, statements[to]);
    if (to == CONSENT_COLUMN) {
        query_bind_text(&query, entry->note);
    } else if (to == CONSENT_TRIM && entry_trim(entry->note, &trim)) {
        query_bind_length(&query, trim);
    }
    query_bind_number(&query, entry->club_id);
    return query_run(&query, N_("save the supervisor's consent"));
}

static enum store_result scrap(struct store *store, const char *shaft) {
    struct query query = query_open(store, STATEMENT_WORK_SCRAP);
    query_bind_text(&query, shaft);
    return query_run(&query, N_("scrap the shaft"));
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
    result = query_end(&query, N_("reserve the new shaft"));
    return result == STORE_NONE
               ? connection_say(store, STORE_REFUSED,
                                _("%s is no raw, free shaft of the model and flex of %s. Choose "
                                  "another one."),
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
    enum store_result result = query_end(&query, N_("reserve the shaft"));
    if (result != STORE_OK) {
        return result != STORE_NONE
                   ? result
                   : connection_say(store, STORE_REFUSED,
                                    _("%s is no raw, free shaft of the model and flex that club %s "
                                      "%s wishes. Match the build again."),
                                    entry->shaft, entry->build, entry->club);
    }
    query = query_open(store, STATEMENT_WORK_NO_CONSENT);
    query_bind_number(&query, entry->club_id);
    return query_run(&query, N_("take back a consent"));
}

// What the entry does to head and shaft.
static enum store_result parts(struct store *store, const struct work *before,
                               const struct entry *entry) {
    if (work_changes_shaft(&before->progress, entry)) {
        return shaft_left(store, work_cuts(entry->kind) ? STATEMENT_WORK_CUT : STATEMENT_WORK_LEFT,
                          work_left(entry->kind, entry->made, before->raw_length), before->shaft);
    }
    switch (entry->kind) {
    case ENTRY_DRY_FIT:
        return dry_fit(store, entry);
    case ENTRY_CONSENT:
        return consent(store, entry);
    case ENTRY_DECIDE:
        return decide(store, before, entry);
    case ENTRY_KIT:
        return kit(store, entry);
    case ENTRY_CHANGE:
        return sheet_change(store, entry);
    case ENTRY_TOLD:
        return told_clear(store, entry);
    case ENTRY_GENESIS:
    case ENTRY_SIGN_ON:
    case ENTRY_SIGN_OFF:
    case ENTRY_CARE:
    case ENTRY_TIP_SHOWN:
    case ENTRY_TIP_PARTIAL:
    case ENTRY_TIP_CUT:
    case ENTRY_BUTT_SHOWN:
    case ENTRY_BUTT_CUT:
    case ENTRY_MEASURE:
    case ENTRY_WITHDRAW:
    case ENTRY_HOLD:
    case ENTRY_PIN:
    case ENTRY_IMPORT:
    case ENTRY_EXPORT:
    case ENTRY_FINAL_LENGTH:
    case ENTRY_FINAL_SWINGWEIGHT:
    case ENTRY_FINAL_FREQUENCY:
    case ENTRY_FINAL_LOFT:
    case ENTRY_FINAL_LIE:
    case ENTRY_DAY_SIGNED:
    case ENTRY_SETTINGS:
    case ENTRY_RESTORED:
    case ENTRY_NOTE:
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
