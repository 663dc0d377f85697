// A club of an order at the desk, with the plan as it would be; and releasing an order.

#include "plans.h"

#include <stdio.h>
#include <string.h>

enum desk_result orders_begin_club(struct office *office, struct desk_draft *draft) {
    const char *const cells[][2] = {
        {"build", draft->of.key[0]}, {"club", ""}, {"grip_cap", "1/8"}, {"step", "0"},
        {"uniform_flex", "no"},
    };
    (void)office;
    orders_begin_cells(draft, "builds", 2, cells, sizeof cells / sizeof *cells);
    return DESK_DONE;
}

// --- one club ------------------------------------------------------------------------------------

struct what_if {
    const struct office *office;
    const char *build;
    const char *club;
    struct desk_remarks *remarks;
};

static enum store_result look(void *ctx, struct store *store) {
    const struct what_if *what = ctx;
    return plans_notes(what->office, store, what->build, what->club, what->remarks);
}

void orders_consider_club(struct office *office, struct desk_draft *draft,
                          struct desk_remarks *remarks) {
    struct document before;
    struct document after;
    struct change change;
    struct entry entry;
    struct what_if what = {.office = office,
                           .build = document_value(&draft->now, "build"),
                           .club = document_value(&draft->now, "club"),
                           .remarks = remarks};
    sheets_consider(office, draft, remarks);
    if (remarks->complaint_count > 0) {
        return;
    }
    sheets_document(draft, &draft->now, &after);
    sheets_document(draft, &draft->before, &before);
    change_between(draft->exists ? &before : NULL, &after, &change);
    if (change_empty(&change)) {
        plans_notes(office, office->store, what.build, what.club, remarks);
        return;
    }
    if (office_change(office, &office->who, draft->id, 0, &change, "", &entry) &&
        store_rehearse(office->store, &entry, 1, look, &what) == STORE_REFUSED) {
        office_complaints(office, remarks);
    }
}

// --- release -------------------------------------------------------------------------------------

struct unready {
    const struct office *office;
    int clubs;
};

static bool count_unready(void *context, const struct club *club,
                          const struct final_values *values) {
    struct unready *unready = context;
    struct plans_words words;
    (void)values;
    plans_club(unready->office, club, &words);
    unready->clubs += words.planned || club->order.cancelled ? 0 : 1;
    return true;
}

enum desk_result office_release(struct office *office, const struct worker *who,
                                const struct desk_ref *of, const char *id, struct desk_said *said) {
    const char *keys[] = {of->key[0]};
    struct unready unready = {.office = office};
    struct document before;
    struct document after;
    struct change change;
    struct entry entry;
    enum store_result found = store_document(office->store, "orders", keys, &before);
    if (found != STORE_OK) {
        office_say(said, TONE_STOP, _("There is no such order."));
        return office_result(found);
    }
    after = before;
    document_set(&after, "status", "released");
    change_between(&before, &after, &change);
    if (change_empty(&change)) {
        office_say(said, TONE_PLAIN, _("It is released already."));
        return DESK_DONE;
    }
    office_change(office, who, id, 0, &change, "", &entry);
    enum desk_result result = office_save(office, &entry, 1, said);
    if (result == DESK_DONE) {
        store_build_clubs(office->store, of->key[0], count_unready, &unready);
        said->tone = unready.clubs > 0 ? TONE_CAUTION : TONE_FINE;
        snprintf(said->message, sizeof said->message,
                 unready.clubs > 0
                     ? tongue_plural("Released to the bench. %d of its clubs has no plan yet.",
                                     "Released to the bench. %d of its clubs have no plan yet.",
                                     (unsigned long)unready.clubs)
                     : _("Released to the bench."),
                 unready.clubs);
    }
    return result;
}
