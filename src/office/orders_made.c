// Orders made and copied: one form, and from it the changes that make an order and its clubs.

#include "office_inner.h"
#include "orders.h"
#include "text.h"
#include "workshop.h"

#include <stdio.h>
#include <string.h>

#define CLUBS_MAX (STORE_APPEND_MAX - 1) // the order itself is one change more

// All changes that make an order, and what is wrong with them.
struct making {
    struct office *office;
    const struct desk_draft *draft;
    struct desk_remarks *remarks;
    size_t count;
    struct change change[STORE_APPEND_MAX];
};

void orders_begin_cells(struct desk_draft *draft, const char *sheet, size_t keys,
                        const char *const (*cells)[2], size_t count) {
    memset(&draft->before, 0, sizeof draft->before);
    SET(draft->before.sheet, sheet);
    for (size_t i = 0; i < count; i++) {
        document_set(&draft->before, cells[i][0], cells[i][1]);
    }
    draft->before.keys = keys;
    draft->now = draft->before;
}

// The next number that no order has, as people write it on the order.
static void next_name(struct office *office, char name[TICKET_TEXT_MAX]) {
    char tickets[1][TICKET_TEXT_MAX];
    struct ticket ticket;
    memset(name, 0, TICKET_TEXT_MAX);
    if (store_next_tickets(office->store, TICKET_BUILD, 1, tickets) == STORE_OK &&
        ticket_parse(tickets[0], &ticket) == TICKET_OK) {
        ticket_body(&ticket, name);
    }
}

// --- making --------------------------------------------------------------------------------------

static struct document order_document(const struct desk_draft *draft) {
    static const char *const cells[] = {"priority", "reference", "note"};
    struct document order = {.sheet = "orders"};
    document_set(&order, "build", document_value(&draft->now, "build"));
    order.keys = 1;
    document_set(&order, "status", "draft");
    for (size_t i = 0; i < sizeof cells / sizeof *cells; i++) {
        document_set(&order, cells[i], document_value(&draft->now, cells[i]));
    }
    return order;
}

// As the shop writes it; what is wrong goes to the remarks.
static bool add_made(struct making *making, struct document *document) {
    struct office *office = making->office;
    if (making->count == STORE_APPEND_MAX) {
        office_complain(making->remarks, "clubs", _("an order is made of 31 clubs at most"));
        return false;
    }
    if (store_canonical(office->store, document) != STORE_OK) {
        office_complaints(office, making->remarks);
        return false;
    }
    change_between(NULL, document, &making->change[making->count++]);
    return true;
}

static bool name_is_free(struct making *making) {
    struct order_line line;
    const char *name = document_value(&making->draft->now, "build");
    if (name[0] != '\0' && store_order(making->office->store, name, &line) == STORE_OK) {
        office_complain(making->remarks, "build", _("there is an order of this name"));
        return false;
    }
    return true;
}

// Names between blanks or commas. Returns how many; -1: too many, or one is too long.
static int club_names(const char *text, char names[][PARTS_SHORT_MAX], int max) {
    int count = 0;
    while (*(text += strspn(text, " ,;")) != '\0') {
        size_t size = strcspn(text, " ,;");
        if (count == max || size >= PARTS_SHORT_MAX) {
            return -1;
        }
        memset(names[count], 0, PARTS_SHORT_MAX);
        memcpy(names[count++], text, size);
        text += size;
    }
    return count;
}

// Playing lengths by the rule of the form; not known without a first one.
static bool club_lengths(struct making *making, size_t count, length_nm lengths[]) {
    const char *first = document_value(&making->draft->now, "first_length");
    const char *step = document_value(&making->draft->now, "length_step");
    length_nm from;
    length_nm by = 0;
    for (size_t i = 0; i < count; i++) {
        lengths[i] = LENGTH_UNKNOWN;
    }
    if (first[0] == '\0') {
        return true;
    }
    if (length_parse(first, LENGTH_UNIT_INCH, &from, NULL) != LENGTH_OK) {
        office_complain(making->remarks, "first_length", _("this is no length"));
        return false;
    }
    if (step[0] != '\0' && length_parse(step, LENGTH_UNIT_INCH, &by, NULL) != LENGTH_OK) {
        office_complain(making->remarks, "length_step", _("this is no length"));
        return false;
    }
    if (!order_lengths(from, by, count, lengths)) {
        office_complain(making->remarks, "length_step", _("a club would be no club's length"));
        return false;
    }
    return true;
}

static void club_note(struct making *making, const char *name, length_nm length) {
    char line[VIEW_TEXT_MAX];
    char words[VIEW_CELL_MAX];
    struct text text = text_open(line, sizeof line);
    office_length(making->office, length, words, sizeof words);
    text_say(&text, words[0] != '\0' ? _("Club %1: %2") : _("Club %1: length still to be said"),
             name, words);
    office_note(making->remarks, TONE_PLAIN, line);
}

static bool make_club(struct making *making, const char *name, length_nm length) {
    static const char *const cells[] = {"due",           "shaft_model", "flex", "grip_cap",
                                        "grip_weight_g", "swingweight", "step", "uniform_flex"};
    const struct document *now = &making->draft->now;
    struct document club = {.sheet = "builds"};
    char words[LENGTH_TEXT_MAX];
    document_set(&club, "build", document_value(now, "build"));
    document_set(&club, "club", name);
    club.keys = 2;
    for (size_t i = 0; i < sizeof cells / sizeof *cells; i++) {
        document_set(&club, cells[i], document_value(now, cells[i]));
    }
    if (length != LENGTH_UNKNOWN) {
        length_text_exact(length, words);
        document_set(&club, "playing_length", words);
    }
    if (!add_made(making, &club)) {
        return false;
    }
    club_note(making, name, length);
    return true;
}

static bool named_twice(char names[][PARTS_SHORT_MAX], int count) {
    for (int i = 0; i < count; i++) {
        for (int before = 0; before < i; before++) {
            if (strcmp(names[i], names[before]) == 0) {
                return true;
            }
        }
    }
    return false;
}

static bool make_new(struct making *making) {
    char names[CLUBS_MAX][PARTS_SHORT_MAX];
    length_nm lengths[CLUBS_MAX];
    struct document order = order_document(making->draft);
    int count = club_names(document_value(&making->draft->now, "clubs"), names, CLUBS_MAX);
    if (!name_is_free(making) || !add_made(making, &order)) {
        return false;
    }
    if (count <= 0) {
        office_complain(making->remarks, "clubs",
                        count == 0 ? _("name the clubs, with blanks between")
                                   : _("31 clubs at most, each name of 15 letters at most"));
        return false;
    }
    if (named_twice(names, count)) {
        office_complain(making->remarks, "clubs", _("two of these have one name"));
        return false;
    }
    bool good = club_lengths(making, (size_t)count, lengths);
    for (int i = 0; i < count && good; i++) {
        good = make_club(making, names[i], lengths[i]);
    }
    return good;
}

// --- copying -------------------------------------------------------------------------------------

struct copied {
    size_t count;
    struct {
        char club[PARTS_SHORT_MAX];
        char model[PARTS_NAME_MAX];
        char flex[PARTS_SHORT_MAX];
        bool cancelled;
    } line[CLUBS_MAX];
};

static bool take_line(void *context, const struct club *club, const struct final_values *values) {
    struct copied *copied = context;
    (void)values;
    SET(copied->line[copied->count].club, club->order.club);
    SET(copied->line[copied->count].model, club->shaft.model);
    SET(copied->line[copied->count].flex, club->shaft.flex);
    copied->line[copied->count++].cancelled = club->order.cancelled;
    return copied->count < CLUBS_MAX;
}

static bool copy_club(struct making *making, const struct copied *copied, size_t at) {
    const char *keys[] = {document_value(&making->draft->now, "from"), copied->line[at].club};
    struct document line;
    struct document club;
    struct change change;
    if (copied->line[at].cancelled) {
        return true;
    }
    if (store_document(making->office->store, "builds", keys, &line) != STORE_OK ||
        !order_copy(&line, document_value(&making->draft->now, "build"), copied->line[at].model,
                    copied->line[at].flex, &change) ||
        change_apply(&change, NULL, &club) != NULL) {
        office_complain(making->remarks, "from", _("a club of it cannot be copied"));
        return false;
    }
    document_set(&club, "due", document_value(&making->draft->now, "due"));
    if (!add_made(making, &club)) {
        return false;
    }
    length_nm length = LENGTH_UNKNOWN;
    length_parse(document_value(&club, "playing_length"), LENGTH_UNIT_INCH, &length, NULL);
    club_note(making, copied->line[at].club, length);
    return true;
}

static bool make_copy(struct making *making) {
    struct copied copied = {0};
    struct document order = order_document(making->draft);
    bool good = name_is_free(making) && add_made(making, &order);
    if (good &&
        store_build_clubs(making->office->store, document_value(&making->draft->now, "from"),
                          take_line, &copied) != STORE_OK) {
        office_complain(making->remarks, "from", _("there is no such order"));
        return false;
    }
    for (size_t i = 0; i < copied.count && good; i++) {
        good = copy_club(making, &copied, i);
    }
    return good;
}

// --- forms ---------------------------------------------------------------------------------------

enum desk_result orders_begin_new(struct office *office, struct desk_draft *draft) {
    char name[TICKET_TEXT_MAX] = "";
    next_name(office, name);
    const char *const cells[][2] = {{"build", name},        {"priority", "3"},
                                    {"length_step", "1/2"}, {"grip_cap", "1/8"},
                                    {"uniform_flex", "no"}, {"step", "0"}};
    orders_begin_cells(draft, "new_order", 1, cells, sizeof cells / sizeof *cells);
    return DESK_DONE;
}

enum desk_result orders_begin_copy(struct office *office, struct desk_draft *draft) {
    char name[TICKET_TEXT_MAX] = "";
    next_name(office, name);
    const char *const cells[][2] = {{"from", draft->of.key[0]}, {"build", name}, {"priority", "3"}};
    orders_begin_cells(draft, "new_order", 1, cells, sizeof cells / sizeof *cells);
    draft->exists = true; // what it is a copy of
    return DESK_DONE;
}

static bool make(struct office *office, const struct desk_draft *draft,
                 struct desk_remarks *remarks, struct making *making) {
    *making = (struct making){.office = office, .draft = draft, .remarks = remarks};
    return draft->form == DESK_FORM_COPY_ORDER ? make_copy(making) : make_new(making);
}

void orders_to_clubs(const struct desk_draft *draft, struct desk_said *said) {
    said->next = (struct desk_place){.goes = GOES_LIST, .which = DESK_LIST_CLUBS};
    SET(said->next.of.key[0], document_value(&draft->now, "build"));
}

// What was written since the try that saved it goes into a form of its own.
static bool before(const struct office *office, const struct desk_draft *draft, char *words,
                   size_t size) {
    int64_t seq;
    if (!office_saved_before(office, draft, &seq)) {
        return false;
    }
    snprintf(
        words, size,
        _("The try before has saved it, entry %lld. What was changed here since is not in it."),
        (long long)seq);
    return true;
}

bool orders_note_before(const struct office *office, const struct desk_draft *draft,
                        struct desk_remarks *remarks) {
    char words[VIEW_TEXT_MAX];
    bool there = before(office, draft, words, sizeof words);
    if (there) {
        office_note(remarks, TONE_CAUTION, words);
    }
    return there;
}

bool orders_made_before(const struct office *office, const struct desk_draft *draft,
                        struct desk_said *said) {
    char words[VIEW_TEXT_MAX];
    bool there = before(office, draft, words, sizeof words);
    if (there) {
        orders_to_clubs(draft, said);
        office_say(said, TONE_CAUTION, words);
    }
    return there;
}

void orders_consider_made(struct office *office, struct desk_draft *draft,
                          struct desk_remarks *remarks) {
    struct making making;
    if (orders_note_before(office, draft, remarks)) {
        return;
    }
    make(office, draft, remarks, &making);
}

enum desk_result orders_save_made(struct office *office, const struct worker *who,
                                  struct desk_draft *draft, struct desk_said *said) {
    struct making making;
    struct desk_remarks remarks = {0};
    struct entry entries[STORE_APPEND_MAX];
    if (orders_made_before(office, draft, said)) {
        return DESK_DONE;
    }
    if (!make(office, draft, &remarks, &making)) {
        office_say(said, TONE_STOP, remarks.complaint[0].text);
        return DESK_REFUSED;
    }
    for (size_t i = 0; i < making.count; i++) {
        if (!office_change(office, who, draft->id, i, &making.change[i], "", &entries[i])) {
            office_say(said, TONE_STOP, _("This is more than one change can hold. Write less."));
            return DESK_REFUSED;
        }
    }
    enum desk_result result = office_save(office, entries, making.count, said);
    if (result == DESK_DONE) {
        orders_to_clubs(draft, said);
        office_say(said, TONE_FINE,
                   _("Saved as a draft. Give each club its head, then release it."));
    }
    return result;
}
