#include "shift.h"

#include <stdio.h>
#include <unistd.h>

// --- the script --------------------------------------------------------------------------------

static void add(struct script *script, struct fixture *fixture, struct entry entry) {
    if (script->count == SHIFT_MAX) {
        return;
    }
    memset(entry.plan, 'p', 1500); // about as long as a plan's record
    if (store_append(fixture->store, &entry) != STORE_OK) {
        fail_msg("%s: %s", entry_kind_text(entry.kind), store_message(fixture->store));
    }
    script->entry[script->count++] = entry;
}

static void plain(struct script *script, struct fixture *fixture, enum entry_kind kind,
                  int64_t club) {
    add(script, fixture, fixture_entry(fixture, kind, club));
}

static void withdraw(struct script *script, struct fixture *fixture, int64_t club) {
    struct progress progress = fixture_club(fixture, club).progress;
    struct entry entry = fixture_entry(fixture, ENTRY_WITHDRAW, club);
    entry.refers = progress.measure_seq != 0 ? progress.measure_seq
                   : progress.butt_seq != 0  ? progress.butt_seq
                                             : progress.tip_seq;
    add(script, fixture, entry);
}

static void measured_short(struct script *script, struct fixture *fixture, int64_t club,
                           const char *cause, const char *note) {
    struct entry entry = fixture_entry(fixture, ENTRY_MEASURE, club);
    entry.made -= LENGTH_INCH / 2;
    entry.verdict = VERDICT_SHORT;
    add(script, fixture, entry);
    entry = fixture_entry(fixture, ENTRY_DECIDE, club);
    entry.refers = fixture_club(fixture, club).progress.decision_seq;
    strcpy(entry.cause, cause);
    strcpy(entry.note, note);
    add(script, fixture, entry);
}

static void to_butt_cut(struct script *script, struct fixture *fixture, int64_t club) {
    plain(script, fixture, ENTRY_TIP_SHOWN, club);
    struct entry entry = fixture_entry(fixture, ENTRY_TIP_PARTIAL, club);
    entry.made = LENGTH_INCH / 2;
    add(script, fixture, entry);
    plain(script, fixture, ENTRY_TIP_CUT, club);
    withdraw(script, fixture, club);
    plain(script, fixture, ENTRY_TIP_CUT, club);
    plain(script, fixture, ENTRY_BUTT_SHOWN, club);
    plain(script, fixture, ENTRY_BUTT_CUT, club);
}

void shift_script(struct script *script, size_t count) {
    struct fixture fixture;
    fixture_open(&fixture);
    script->count = 0;
    plain(script, &fixture, ENTRY_SIGN_ON, 0);
    plain(script, &fixture, ENTRY_CARE, 0);
    to_butt_cut(script, &fixture, 3);
    plain(script, &fixture, ENTRY_MEASURE, 3);
    struct entry entry = fixture_entry(&fixture, ENTRY_DRY_FIT, 1);
    entry.planned = 47 * LENGTH_INCH;
    entry.made = LENGTH_INCH;
    add(script, &fixture, entry);
    entry = fixture_entry(&fixture, ENTRY_CONSENT, 1);
    strcpy(entry.cause, "column");
    strcpy(entry.note, "3");
    add(script, &fixture, entry);
    to_butt_cut(script, &fixture, 4);
    measured_short(script, &fixture, 4, "recut", "S-0005K half an inch short");
    to_butt_cut(script, &fixture, 4);
    measured_short(script, &fixture, 4, "use", "agreed");
    plain(script, &fixture, ENTRY_HOLD, 2);
    to_butt_cut(script, &fixture, 1);
    while (script->count < count) { // a trembling hand at the last measure
        plain(script, &fixture, ENTRY_MEASURE, 1);
        withdraw(script, &fixture, 1);
        plain(script, &fixture, ENTRY_HOLD, 1);
    }
    script->count = count;
    fixture_close(&fixture);
}

// --- databases to work in ---------------------------------------------------------------------

static void copy_file(const char *from, const char *to) {
    static char bytes[1 << 20];
    FILE *in = fopen(from, "r");
    FILE *out = fopen(to, "w");
    assert_true(in != NULL && out != NULL);
    size_t size = fread(bytes, 1, sizeof bytes, in);
    assert_true(size < sizeof bytes);
    assert_int_equal(fwrite(bytes, 1, size, out), size);
    fclose(in);
    fclose(out);
}

void shift_database(struct fixture *prepared) {
    fixture_open(prepared);
    store_close(prepared->store);
    prepared->store = NULL;
}

void shift_copy(const struct fixture *prepared, struct fixture *fixture) {
    fixture_folder(fixture);
    for (int i = 0; i < 2; i++) { // the database, and its -wal if it has one
        char from[128];
        char to[128];
        snprintf(from, sizeof from, "%s%s", prepared->path, tape_suffix[i]);
        snprintf(to, sizeof to, "%s%s", fixture->path, tape_suffix[i]);
        if (i == 0 || access(from, F_OK) == 0) {
            copy_file(from, to);
        }
    }
}

// --- the shift ---------------------------------------------------------------------------------

// True while the shift can go on.
static bool try_entry(struct fixture *fixture, struct entry *entry, struct note *note) {
    entry->seq = 0;
    note->result = store_append(fixture->store, entry);
    note->seq = entry->seq;
    if (note->result == STORE_UNKNOWN) {
        for (int i = 0; i < 3 && note->result == STORE_UNKNOWN; i++) {
            if (store_reopen(fixture->store) == STORE_OK) {
                enum store_result found =
                    store_confirmed(fixture->store, entry->confirm_id, &note->seq);
                note->result = found == STORE_OK     ? STORE_OK
                               : found == STORE_NONE ? STORE_FAILED
                                                     : STORE_UNKNOWN;
            }
        }
    }
    note->ops = tape_count();
    return note->result == STORE_OK;
}

void shift_run(struct fixture *fixture, struct notebook *notebook, size_t checkpoint_every) {
    const struct script *script = notebook->script;
    static struct entry entry;
    char copy[128];
    size_t first = notebook->count;
    if (first > 0 && notebook->note[first - 1].result != STORE_OK) {
        first--;
    }
    snprintf(copy, sizeof copy, "%s.copy", fixture->path);
    for (size_t i = first; i < script->count; i++) {
        struct note *note = &notebook->note[i];
        entry = script->entry[i];
        notebook->count = i + 1;
        if (!try_entry(fixture, &entry, note) &&
            (note->result == STORE_UNKNOWN || !try_entry(fixture, &entry, note))) {
            return;
        }
        if ((i + 1) % checkpoint_every == 0) {
            store_checkpoint(fixture->store); // may fail; that must do no harm
        }
        if (i == SHIFT_COPY_AT) {
            store_backup(fixture->store, copy);
            unlink(copy);
        }
    }
}

// --- the judge ---------------------------------------------------------------------------------

static enum judgement verdict(enum judgement judgement, char *why, size_t size, const char *what,
                              int64_t number) {
    snprintf(why, size, "%s (%lld)", what, (long long)number);
    return judgement;
}

// Every club stands where its entries, replayed by the rules, put it.
static bool stands_right(struct store *store, int64_t entries) {
    static struct entry entry;
    static struct club club;
    struct progress progress[6];
    for (int i = 0; i < 6; i++) {
        progress[i] = (struct progress){.attempt = 1, .tip_made = LENGTH_UNKNOWN};
    }
    for (int64_t seq = 1; seq <= entries; seq++) {
        if (store_entry(store, seq, &entry) != STORE_OK ||
            (entry.club_id != 0 && !stage_advance(&progress[entry.club_id], &entry))) {
            return false;
        }
    }
    for (int64_t id = 1; id <= 5; id++) {
        enum store_result result = store_club(store, id, &club);
        if (result == STORE_NONE && entries <= 1) {
            continue; // before the workshop came in
        }
        if (result != STORE_OK || memcmp(&club.progress, &progress[id], sizeof progress[id]) != 0) {
            return false;
        }
    }
    return true;
}

static enum judgement ask(struct store *store, const struct notebook *notebook, size_t ops,
                          char *why, size_t size) {
    struct store_check check = {0};
    int64_t said = notebook->seeded != 0 && notebook->seeded <= ops ? 1 : 0; // genesis
    bool open = false; // an entry under way when the power went
    enum store_result result = store_check(store, &check);
    if (result != STORE_OK) {
        return verdict(JUDGE_CORRUPT, why, size,
                       result == STORE_REFUSED ? check.problem : store_message(store), 0);
    }
    for (size_t i = 0; i < notebook->count; i++) {
        const struct note *note = &notebook->note[i];
        const char *id = notebook->script->entry[i].confirm_id;
        int64_t seq = 0;
        bool there = store_confirmed(store, id, &seq) == STORE_OK;
        bool told = note->ops <= ops;
        if (told && note->result == STORE_OK && (!there || seq != note->seq)) {
            return verdict(JUDGE_LOST, why, size, "logged, and gone", (int64_t)i);
        }
        if (told && note->result != STORE_OK && note->result != STORE_UNKNOWN && there) {
            return verdict(JUDGE_FALSE, why, size, "not logged, and there", (int64_t)i);
        }
        said += told && note->result == STORE_OK;
        open |= !told || note->result == STORE_UNKNOWN;
    }
    if (check.entries < said || check.entries > said + (open || said == 0)) {
        return verdict(JUDGE_FALSE, why, size, "so many entries in the log", check.entries);
    }
    return stands_right(store, check.entries)
               ? JUDGE_WHOLE
               : verdict(JUDGE_CORRUPT, why, size, "a club stands elsewhere", check.entries);
}

enum judgement shift_judge(const char *path, const struct notebook *notebook, size_t ops, char *why,
                           size_t size) {
    struct store *store = NULL;
    bool seeded = notebook->seeded != 0 && notebook->seeded <= ops;
    if (store_open(path, seeded ? STORE_WRITE : STORE_CREATE, BENCH, &store, why, size) !=
        STORE_OK) {
        return JUDGE_CORRUPT;
    }
    enum judgement judgement = ask(store, notebook, ops, why, size);
    store_close(store);
    return judgement;
}
