// A part that is new in the shop: its ticket, its entry, its label.

#include "office_inner.h"
#include "text.h"
#include "workshop.h"

#include <stdio.h>
#include <string.h>

enum desk_result made_propose(struct office *office, struct desk_draft *draft) {
    char tickets[1][TICKET_TEXT_MAX];
    bool head = strcmp(draft->now.sheet, "heads") == 0;
    enum store_result result =
        store_next_tickets(office->store, head ? TICKET_HEAD : TICKET_SHAFT, 1, tickets);
    document_set(&draft->now, "ticket", result == STORE_OK ? tickets[0] : "");
    return result == STORE_REFUSED ? DESK_DONE : office_result(result);
}

void made_ticket(struct office *office, struct desk_draft *draft, struct desk_remarks *remarks) {
    char ticket[TICKET_TEXT_MAX];
    char words[VIEW_TEXT_MAX];
    struct part part;
    int64_t seq;
    words_copy(ticket, sizeof ticket, document_value(&draft->now, "ticket"));
    if (ticket[0] == '\0' || store_part(office->store, ticket, &part) != STORE_OK ||
        office_saved_before(office, draft, &seq)) {
        return;
    }
    if (strcmp(ticket, document_value(&draft->before, "ticket")) != 0 ||
        made_propose(office, draft) != DESK_DONE) {
        office_complain(remarks, "ticket", _("another part has this ticket. Scan another."));
        return;
    }
    document_set(&draft->before, "ticket", document_value(&draft->now, "ticket"));
    snprintf(words, sizeof words, _("%s was given out meanwhile: this one is %s."), ticket,
             document_value(&draft->now, "ticket"));
    office_note(remarks, TONE_CAUTION, words);
}

// The label at once; what became of it behind what was said of the entry.
static void print_label(struct office *office, const struct worker *who, struct desk_draft *draft,
                        struct desk_said *said) {
    struct desk_said label;
    struct desk_ref of;
    char words[VIEW_TEXT_MAX];
    memset(&label, 0, sizeof label);
    memset(&of, 0, sizeof of);
    SET(of.key[0], document_value(&draft->now, "ticket"));
    enum desk_result result =
        office->deed(office->deed_ctx, who, DESK_DEED_PART_TICKET, &of, draft->id, &label);
    struct text text = text_open(words, sizeof words);
    text_add(&text, of.key[0]);
    text_add(&text, ": ");
    text_add(&text, said->message);
    text_add(&text, " ");
    text_add(&text, label.message);
    office_say(said, result == DESK_DONE ? said->tone : TONE_CAUTION, words);
}

enum desk_result made_save(struct office *office, const struct worker *who,
                           struct desk_draft *draft, struct desk_said *said) {
    struct desk_remarks remarks;
    struct document after;
    struct change change;
    struct entry entry;
    memset(&remarks, 0, sizeof remarks);
    forms_work(draft->form)->consider(office, draft, &remarks);
    if (remarks.complaint_count > 0) {
        office_say(said, TONE_STOP, remarks.complaint[0].text);
        return DESK_REFUSED;
    }
    sheets_document(draft, &draft->now, &after);
    change_between(NULL, &after, &change);
    if (!office_change(office, who, draft->id, 0, &change, document_value(&draft->now, "why"),
                       &entry)) {
        office_say(said, TONE_STOP, _("This is more than one change can hold. Write less."));
        return DESK_REFUSED;
    }
    enum desk_result result = office_save(office, &entry, 1, said);
    if (result == DESK_DONE) {
        print_label(office, who, draft, said);
    }
    return result;
}
