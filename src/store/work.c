// What an entry may be about.

#include "work.h"
#include "final.h"
#include "people.h"
#include "told.h"
#include "tongue.h"

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
    case ENTRY_FINAL_LOFT:
    case ENTRY_FINAL_LIE:
    case ENTRY_KIT:
    case ENTRY_DAY_SIGNED:
    case ENTRY_CHANGE:
    case ENTRY_TOLD:
    case ENTRY_SETTINGS:
    case ENTRY_RESTORED:
    case ENTRY_NOTE:
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
        work.rank = query_int(&query, 11);
        work.changed_seq = query_id(&query, 12);
    }
    enum store_result result = query_end(&query, N_("look up the club"));
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
    enum consent consent;
    length_nm trim;
    return entry->kind != ENTRY_CONSENT ||
           (consent_from_text(entry->cause, &consent) &&
            (consent != CONSENT_TRIM || entry_trim(entry->note, &trim)));
}

static enum store_result allowed_supervisor(struct store *store, const char *badge) {
    bool yes = false;
    enum store_result result = people_supervisor(store, badge, &yes);
    if (result == STORE_OK && !yes) {
        result =
            connection_say(store, STORE_REFUSED, _("Only a supervisor may decide this, not %s."),
                           badge[0] == '\0' ? "nobody" : badge);
    }
    return result;
}

static bool has_words(const char *text) {
    return text[strspn(text, " ")] != '\0';
}

// Accepted is a value as it was measured last.
static enum store_result allowed_acceptance(struct store *store, const struct entry *about) {
    bool newest = false;
    enum store_result result = final_newest(store, about, &newest);
    if (result == STORE_OK && !newest) {
        result = connection_say(store, STORE_REFUSED,
                                _("Entry %lld is not what was measured last on the assembled club: "
                                  "look at the new value first."),
                                (long long)about->seq);
    }
    return result;
}

// A note stands in the life of the club and parts that its entry is about, and of no others.
static enum store_result allowed_note(struct store *store, const struct entry *entry) {
    struct entry about;
    enum store_result result = store_entry(store, entry->refers, &about);
    if (result == STORE_NONE) {
        return connection_say(store, STORE_REFUSED, _("There is no entry %lld to add a note to."),
                              (long long)entry->refers);
    }
    if (result != STORE_OK) {
        return result;
    }
    if (about.club_id != entry->club_id || strcmp(about.build, entry->build) != 0 ||
        strcmp(about.club, entry->club) != 0 || strcmp(about.head, entry->head) != 0 ||
        strcmp(about.shaft, entry->shaft) != 0) {
        return connection_say(store, STORE_REFUSED,
                              _("Entry %lld is about other parts than this note says."),
                              (long long)entry->refers);
    }
    if (!has_words(entry->note)) {
        return connection_say(store, STORE_REFUSED, _("A note needs words: type them first."));
    }
    return strcmp(entry->cause, ENTRY_ACCEPTED) == 0 ? allowed_acceptance(store, &about) : STORE_OK;
}

static bool shows(enum entry_kind kind) {
    return kind == ENTRY_TIP_SHOWN || kind == ENTRY_BUTT_SHOWN;
}

// A mark that was planned before the order was changed is not cut by before a bench was told, and
// none is shown for an order that is not released.
static enum store_result still_ordered(struct store *store, const struct work *work,
                                       const struct entry *entry) {
    bool at_saw = shows(entry->kind) || work_cuts(entry->kind) || entry->kind == ENTRY_MEASURE;
    if (at_saw && work->changed_seq != 0) {
        return connection_say(store, STORE_REFUSED,
                              _("Order %s was changed after this mark was planned. Scan both parts "
                                "again."),
                              entry->build);
    }
    return shows(entry->kind) && work->rank <= 0
               ? connection_say(store, STORE_REFUSED,
                                _("Order %s is not released: club %s waits. Ask at the desk."),
                                entry->build, entry->club)
               : STORE_OK;
}

enum store_result work_allowed(struct store *store, const struct work *work,
                               const struct entry *entry) {
    bool cut = entry->kind == ENTRY_TIP_CUT || entry->kind == ENTRY_BUTT_CUT;
    bool supervisor = entry->kind == ENTRY_DECIDE || entry->kind == ENTRY_CONSENT ||
                      entry->kind == ENTRY_KIT || entry->kind == ENTRY_DAY_SIGNED ||
                      entry->kind == ENTRY_NOTE;
    if (!same_parts(work, entry)) {
        return connection_say(store, STORE_REFUSED,
                              _("Club %s %s is made of head %s and shaft %s now, not of %s and %s. "
                                "Scan both again."),
                              entry->build, entry->club, work->head, work->shaft, entry->head,
                              entry->shaft);
    }
    if (cut && entry->attempt != work->progress.attempt) {
        return connection_say(store, STORE_REFUSED,
                              _("This cut was begun before another one was withdrawn (attempt %d, "
                                "now %d). Scan both parts again."),
                              entry->attempt, work->progress.attempt);
    }
    if (!known_consent(entry)) {
        return connection_say(
            store, STORE_REFUSED,
            _("Consent is to a column, a shim, a trim or an extension, not to \"%s %s\"."),
            entry->cause, entry->note);
    }
    if (final_kind(entry->kind) && !final_plausible(entry)) {
        return connection_say(store, STORE_REFUSED,
                              _("\"%s\" is no %s that a club has. Measure again."), entry->note,
                              entry_kind_text(entry->kind));
    }
    if (entry->kind == ENTRY_KIT && (work->head[0] == '\0' || work->shaft[0] != '\0')) {
        return connection_say(
            store, STORE_REFUSED,
            _("Club %s %s has head \"%s\" and shaft \"%s\": a shaft is chosen for "
              "a club with a head and none yet."),
            entry->build, entry->club, work->head, work->shaft);
    }
    if (entry->kind == ENTRY_TOLD) {
        return told_allowed(store, entry);
    }
    enum store_result result = still_ordered(store, work, entry);
    if (result == STORE_OK && supervisor) {
        result = allowed_supervisor(store, entry->worker);
    }
    return result == STORE_OK && entry->kind == ENTRY_NOTE ? allowed_note(store, entry) : result;
}
