// The desk's questions, each to whoever answers it, and the one way an answer becomes entries.

#include "office_inner.h"
#include "text.h"

#include <stdio.h>
#include <string.h>

// --- entries -------------------------------------------------------------------------------------

struct entry office_entry(const struct office *office, enum entry_kind kind,
                          const struct worker *who, const char *id, size_t at) {
    struct entry entry = entry_init(kind);
    char tail[3];
    SET(entry.bench, office->settings->bench);
    SET(entry.worker, who->badge);
    SET(entry.confirm_id, id);
    entry.wall_ms = office->world->wall_ms(office->world->ctx);
    entry.mono_ms = office->world->mono_ms(office->world->ctx);
    if (at > 0) {
        // Made of the draft's, so that a second try has the same ones.
        snprintf(tail, sizeof tail, "%02x", (unsigned)at & 0xFFU);
        for (size_t i = 0; i < 2; i++) {
            char *digit = &entry.confirm_id[i];
            int a = *digit <= '9' ? *digit - '0' : *digit - 'a' + 10;
            int b = tail[i] <= '9' ? tail[i] - '0' : tail[i] - 'a' + 10;
            *digit = "0123456789abcdef"[a ^ b];
        }
    }
    return entry;
}

bool office_change(const struct office *office, const struct worker *who, const char *id, size_t at,
                   const struct change *change, const char *why, struct entry *ret_entry) {
    struct entry entry = office_entry(office, ENTRY_CHANGE, who, id, at);
    SET(entry.note, why);
    if (!change_write(change, entry.plan, sizeof entry.plan)) {
        return false;
    }
    *ret_entry = entry;
    return true;
}

void office_say(struct desk_said *said, enum view_tone tone, const char *message) {
    SET(said->message, message);
    said->tone = tone;
}

enum desk_result office_result(enum store_result result) {
    return result == STORE_OK        ? DESK_DONE
           : result == STORE_NONE    ? DESK_NONE
           : result == STORE_REFUSED ? DESK_REFUSED
                                     : DESK_FAILED;
}

enum desk_result office_save(const struct office *office, struct entry *entries, size_t count,
                             struct desk_said *ret_said) {
    char why[VIEW_TEXT_MAX] = "";
    struct text said;
    switch (office->world->save_all(office->world->ctx, entries, count)) {
    case STATION_SAVED:
        snprintf(why, sizeof why, _("Saved, entry %lld."), (long long)entries[count - 1].seq);
        office_say(ret_said, TONE_FINE, why);
        return DESK_DONE;
    case STATION_SAVE_REFUSED:
        office->world->why(office->world->ctx, why, sizeof why);
        office_say(ret_said, TONE_STOP, why);
        return DESK_REFUSED;
    case STATION_SAVE_FAILED:
        office->world->why(office->world->ctx, why, sizeof why);
        said = text_open(ret_said->message, sizeof ret_said->message);
        text_say(&said, _("NOT SAVED: %1"), why);
        ret_said->tone = TONE_STOP;
        return DESK_FAILED;
    case STATION_SAVE_UNKNOWN:
        office_say(ret_said, TONE_STOP,
                   _("Nobody can say whether it was saved. Save once more: it is never saved "
                     "twice."));
        return DESK_FAILED;
    }
    return DESK_FAILED;
}

bool office_saved_before(const struct office *office, const struct desk_draft *draft,
                         int64_t *ret_seq) {
    return store_confirmed(office->store, draft->id, ret_seq) == STORE_OK;
}

// --- words ---------------------------------------------------------------------------------------

static int64_t year_begins(const struct office *office, int64_t year) {
    char date[32];
    snprintf(date, sizeof date, "%04lld-01-01", (long long)year);
    return office->world->date_ms(office->world->ctx, date);
}

void office_when(const struct office *office, int64_t wall_ms, char *buffer, size_t size) {
    const struct station_ops *world = office->world;
    char date[24];
    char time[24];
    int64_t year = 1970 + wall_ms / 31556952000; // a Gregorian year, on average
    year += year_begins(office, year + 1) <= wall_ms ? 1 : 0;
    year -= year_begins(office, year) > wall_ms ? 1 : 0;
    world->time_text(world->ctx, wall_ms, true, date, sizeof date);
    world->time_text(world->ctx, wall_ms, false, time, sizeof time);
    struct text text = text_open(buffer, size);
    text_add(&text, date);
    text_add(&text, " ");
    if (year_begins(office, year + 1) <= world->wall_ms(world->ctx)) {
        text_add_number(&text, year);
    } else {
        text_add(&text, time);
    }
}

void office_length(const struct office *office, length_nm length, char *buffer, size_t size) {
    char words[LENGTH_TEXT_MAX] = "";
    if (length != LENGTH_UNKNOWN && office->settings->metric_first) {
        length_text_mm(length, 1, words);
    } else if (length != LENGTH_UNKNOWN) {
        length_text_fraction(length, words);
    }
    struct text text = text_open(buffer, size);
    text_add_figure(&text, words);
}

void office_set_length(struct document *document, const char *cell, length_nm length) {
    char words[LENGTH_TEXT_MAX];
    if (length == LENGTH_UNKNOWN) {
        return;
    }
    length_text_short(length, words);
    document_set(document, cell, words);
}

void office_weight(mass_mg weight, char *buffer, size_t size) {
    char words[LENGTH_TEXT_MAX] = "";
    if (weight != MASS_UNKNOWN) {
        mass_text(weight, words);
    }
    struct text text = text_open(buffer, size);
    text_add_figure(&text, words);
}

void office_note(struct desk_remarks *remarks, enum view_tone tone, const char *text) {
    if (remarks->note_count < VIEW_FORM_NOTES) {
        SET(remarks->note[remarks->note_count], text);
        remarks->note_tone[remarks->note_count++] = tone;
    }
}

void office_complain(struct desk_remarks *remarks, const char *cell, const char *text) {
    size_t max = sizeof remarks->complaint / sizeof *remarks->complaint;
    for (size_t i = 0; i < remarks->complaint_count; i++) {
        if (strcmp(remarks->complaint[i].cell, cell) == 0 &&
            strncmp(remarks->complaint[i].text, text, VIEW_TEXT_MAX - 1) == 0) {
            return; // a chart says it of every column
        }
    }
    if (remarks->complaint_count < max) {
        SET(remarks->complaint[remarks->complaint_count].cell, cell);
        SET(remarks->complaint[remarks->complaint_count].text, text);
        remarks->complaint_count++;
    }
}

void office_complaints(const struct office *office, struct desk_remarks *remarks) {
    const struct store_complaint *complaints;
    size_t count = store_complaints(office->store, &complaints);
    for (size_t i = 0; i < count; i++) {
        office_complain(remarks, complaints[i].cell, complaints[i].text);
    }
    if (count == 0) {
        office_complain(remarks, "", store_message(office->store));
    }
}

// --- lists ---------------------------------------------------------------------------------------

static office_list *const lists[DESK_LIST_COUNT] = {
    [DESK_LIST_ORDERS] = list_orders,
    [DESK_LIST_CLUBS] = list_clubs,
    [DESK_LIST_CHANGES] = list_changes,
    [DESK_LIST_SETTINGS] = list_settings,
    [DESK_LIST_ASSEMBLY] = list_assembly,
    [DESK_LIST_HEADS] = list_heads,
    [DESK_LIST_SHAFTS] = list_shafts,
    [DESK_LIST_HEAD_MODELS] = list_head_models,
    [DESK_LIST_SHAFT_MODELS] = list_shaft_models,
    [DESK_LIST_CHARTS] = list_charts,
    [DESK_LIST_REVISIONS] = list_revisions,
    [DESK_LIST_DIFFERENCES] = list_differences,
    [DESK_LIST_LOTS] = list_lots,
    [DESK_LIST_LOT] = list_lot,
    [DESK_LIST_STOCK] = list_stock,
    [DESK_LIST_PICK] = list_pick,
    [DESK_LIST_OFFCUTS] = list_offcuts,
    [DESK_LIST_SCRAP] = list_scrap,
};

static enum desk_result list(void *ctx, const struct desk_query *query,
                             struct desk_table *ret_table) {
    office_list *fill = lists[query->list];
    return fill != NULL ? fill(ctx, query, ret_table) : DESK_NONE;
}

// --- the desk's other questions ------------------------------------------------------------------

static void random_id(void *ctx, char ret_id[CONFIRM_ID_MAX]) {
    const struct office *office = ctx;
    office->world->random_id(office->world->ctx, ret_id);
}

static int64_t waiting(void *ctx, const struct desk_place *place) {
    bool stock = place->goes == GOES_LIST && place->which == DESK_LIST_STOCK;
    int64_t count = stock ? stock_to_order(ctx) : 0;
    return count > 0 ? count : -1;
}

static enum desk_result begin(void *ctx, struct desk_draft *draft) {
    const struct form_work *work = forms_work(draft->form);
    return work->begin != NULL ? work->begin(ctx, draft) : DESK_NONE;
}

static void consider(void *ctx, const struct worker *who, struct desk_draft *draft,
                     struct desk_remarks *ret_remarks) {
    struct office *office = ctx;
    office->who = *who;
    forms_work(draft->form)->consider(office, draft, ret_remarks);
}

static enum desk_result save(void *ctx, const struct worker *who, struct desk_draft *draft,
                             struct desk_said *ret_said) {
    return forms_work(draft->form)->save(ctx, who, draft, ret_said);
}

static enum desk_result deed(void *ctx, const struct worker *who, enum desk_deed which,
                             const struct desk_ref *of, const char *id,
                             struct desk_said *ret_said) {
    const struct office *office = ctx;
    return office->deed(office->deed_ctx, who, which, of, id, ret_said);
}

static bool find(void *ctx, const char *text, struct desk_place *ret_place) {
    struct ticket ticket;
    (void)ctx;
    if (ticket_parse(text, &ticket) != TICKET_OK) {
        return false;
    }
    memset(ret_place, 0, sizeof *ret_place);
    SET(ret_place->of.key[0], ticket.text);
    switch ((int)ticket.kind) {
    case TICKET_HEAD:
    case TICKET_SHAFT:
        ret_place->goes = GOES_FORM;
        ret_place->which = ticket.kind == TICKET_HEAD ? DESK_FORM_HEAD : DESK_FORM_SHAFT;
        return true;
    case TICKET_BUILD:
        ret_place->goes = GOES_LIST;
        ret_place->which = DESK_LIST_CLUBS;
        ticket_body(&ticket, ret_place->of.key[0]);
        return true;
    default:
        return false;
    }
}

struct desk_ops office_ops(struct office *office) {
    return (struct desk_ops){.ctx = office,
                             .metric = office->settings->metric_first,
                             .random_id = random_id,
                             .waiting = waiting,
                             .list = list,
                             .begin = begin,
                             .consider = consider,
                             .choices = forms_choices,
                             .save = save,
                             .deed = deed,
                             .find = find};
}
