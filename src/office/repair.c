// A repair: a head that no maker's sheet is at hand for and a club to be made on it. The form takes
// what can be measured on the pieces, works out what follows, and makes model, head, order and club
// in one go.

#include "guided.h"
#include "office_inner.h"
#include "plans.h"
#include "text.h"
#include "workshop.h"

#include <stdio.h>
#include <string.h>

#define REPAIR_ENTRIES 4 // model, head, order, club
#define CANDIDATES 40

struct repair {
    struct office *office;
    const struct worker *who;
    struct desk_draft *draft;
    struct desk_remarks *remarks;
    bool good;
    size_t count;
    struct entry entry[REPAIR_ENTRIES];
};

static const char *cell(const struct repair *repair, const char *name) {
    return document_value(&repair->draft->now, name);
}

static void wrong(struct repair *repair, const char *name, const char *text) {
    office_complain(repair->remarks, name, text);
    repair->good = false;
}

// A length that stands in a cell; not known when nothing does. Bare it is in inches, as the store
// reads it and as it is worked out here: the form gives what is typed in millimetres its unit.
static length_nm length_of(struct repair *repair, const char *name) {
    length_nm length = LENGTH_UNKNOWN;
    const char *text = cell(repair, name);
    if (text[0] != '\0' && length_parse(text, LENGTH_UNIT_INCH, &length, NULL) != LENGTH_OK) {
        wrong(repair, name, _("this is no length"));
    }
    return length;
}

// What was worked out stands in its cell, and how in the notes.
static void work_out(struct repair *repair, const char *name, enum guided_problem problem,
                     length_nm length) {
    if (problem != GUIDED_NONE) {
        wrong(repair, name, guided_problem_text(problem));
        return;
    }
    office_set_length(&repair->draft->now, name, length);
}

// What is worked out of two measured lengths.
struct guide {
    const char *first;
    const char *second;
    bool asks; // for the second, where there is the first
    const char *result;
    enum guided_problem (*work)(length_nm first, length_nm second, length_nm *ret_result);
};
static const struct guide by_pins = {"pin_goes", "pin_stops", false, "hosel_bore", guided_bore};
static const struct guide by_rod = {"rod", "rod_outside", false, "insertion", guided_insertion};
static const struct guide by_fit = {"dry_fit_overall", "dry_fit_raw", false, "bore_height",
                                    guided_bore_by_fit};
static const struct guide by_hosel = {"hosel_top", "insertion", true, "bore_height",
                                      guided_bore_by_hosel};

// False: it is not measured.
static bool work(struct repair *repair, const struct guide *guide) {
    length_nm first = length_of(repair, guide->first);
    length_nm second = length_of(repair, guide->second);
    length_nm result = LENGTH_UNKNOWN;
    if (first == LENGTH_UNKNOWN || (second == LENGTH_UNKNOWN && !guide->asks)) {
        return false;
    }
    enum guided_problem problem = guide->work(first, second, &result);
    work_out(repair, guide->result, problem, result);
    return true;
}

// The pieces stand beside each other, `20 1/4, 22`, with commas between. No form gives them a unit.
static void work_playing(struct repair *repair) {
    length_nm pieces[GUIDED_PIECES_MAX];
    length_nm missing = length_of(repair, "missing");
    length_nm playing = LENGTH_UNKNOWN;
    char text[CHANGE_VALUE_MAX];
    char *rest = NULL;
    size_t count = 0;
    enum length_unit unit =
        repair->office->settings->metric_first ? LENGTH_UNIT_MM : LENGTH_UNIT_INCH;
    SET(text, cell(repair, "pieces"));
    const char *between = tongue_now()->decimal_point == ',' ? ";" : ",;";
    for (char *at = strtok_r(text, between, &rest); at != NULL;
         at = strtok_r(NULL, between, &rest)) {
        if (count == GUIDED_PIECES_MAX ||
            length_parse(at, unit, &pieces[count++], NULL) != LENGTH_OK) {
            wrong(repair, "pieces",
                  // TRANSLATORS: semicolons where a comma is the decimal point.
                  _("write each piece's length, with commas between"));
            return;
        }
    }
    if (count > 0) {
        enum guided_problem problem =
            guided_playing(pieces, count, missing == LENGTH_UNKNOWN ? 0 : missing, &playing);
        work_out(repair, "playing_length", problem, playing);
    }
}

// --- what is made --------------------------------------------------------------------------------

struct written {
    struct document *document;
};

static enum store_result write_as_kept(void *ctx, struct store *store) {
    struct written *written = ctx;
    return store_canonical(store, written->document);
}

// The document as the store keeps it once all before it is there, and its entry.
static void add(struct repair *repair, struct document *document) {
    struct written written = {document};
    struct change change;
    if (!repair->good) {
        return;
    }
    enum store_result result = repair->count == 0
                                   ? store_canonical(repair->office->store, document)
                                   : store_rehearse(repair->office->store, repair->entry,
                                                    repair->count, write_as_kept, &written);
    if (result != STORE_OK) {
        office_complaints(repair->office, repair->remarks);
        repair->good = false;
        return;
    }
    change_between(NULL, document, &change);
    if (!office_change(repair->office, repair->who, repair->draft->id, repair->count, &change,
                       cell(repair, "why"), &repair->entry[repair->count])) {
        wrong(repair, "", _("This is more than one change can hold. Write less."));
        return;
    }
    repair->count++;
}

static void copy_cells(const struct repair *repair, struct document *to, const char *const *names,
                       size_t count) {
    for (size_t i = 0; i < count; i++) {
        document_set(to, names[i], cell(repair, names[i]));
    }
}

static void add_model(struct repair *repair) {
    static const char *const cells[] = {"kind", "hosel_bore", "insertion", "bore"};
    const char *keys[] = {cell(repair, "model")};
    struct document model = {.sheet = "head_models"};
    if (keys[0][0] == '\0') {
        wrong(repair, "model", _("name the head, as `from elsewhere 3`"));
        return;
    }
    if (store_document(repair->office->store, "head_models", keys, &model) == STORE_OK) {
        return; // one that is known
    }
    document_set(&model, "model", keys[0]);
    model.keys = 1;
    copy_cells(repair, &model, cells, sizeof cells / sizeof *cells);
    add(repair, &model);
}

static void add_head(struct repair *repair) {
    static const char *const cells[] = {"model", "weight_g", "bore_height"};
    struct document head = {.sheet = "heads"};
    document_set(&head, "ticket", cell(repair, "head"));
    head.keys = 1;
    copy_cells(repair, &head, cells, sizeof cells / sizeof *cells);
    add(repair, &head);
}

static void add_order(struct repair *repair) {
    struct document order = {.sheet = "orders"};
    document_set(&order, "build", cell(repair, "build"));
    order.keys = 1;
    document_set(&order, "status", "released");
    document_set(&order, "priority", "3");
    document_set(&order, "reference", cell(repair, "reference"));
    document_set(&order, "note", "repair");
    add(repair, &order);
}

static void add_club(struct repair *repair) {
    static const char *const cells[] = {"due",          "head",       "shaft",     "playing_length",
                                        "grip_cap",     "given_trim", "extension", "swingweight",
                                        "grip_weight_g"};
    struct document club = {.sheet = "builds"};
    document_set(&club, "build", cell(repair, "build"));
    document_set(&club, "club", "1");
    club.keys = 2;
    copy_cells(repair, &club, cells, sizeof cells / sizeof *cells);
    document_set(&club, "step", "0");
    document_set(&club, "uniform_flex", "no");
    add(repair, &club);
}

static void make(struct repair *repair) {
    work(repair, &by_pins);
    work(repair, &by_rod);
    if (!work(repair, &by_fit)) {
        work(repair, &by_hosel);
    }
    work_playing(repair);
    add_model(repair);
    add_head(repair);
    add_order(repair);
    add_club(repair);
}

// --- which shaft ---------------------------------------------------------------------------------

struct pool {
    size_t count;
    struct shaft shaft[CANDIDATES];
    struct shaft_model model[CANDIDATES];
    struct chart chart[CANDIDATES];
    struct profile profile[CANDIDATES];
};

// One raw shaft of each model and flex that lies in stock.
static void fill_pool(struct office *office, enum chart_kind kind, struct pool *pool) {
    struct stock_line lines[CANDIDATES];
    int count = store_stock_lines(office->store, false, NULL, lines, CANDIDATES);
    for (int i = 0; i < count && pool->count < CANDIDATES; i++) {
        struct stock stock;
        size_t at = pool->count;
        if (lines[i].free > 0 && store_stock(office->store, lines[i].model, lines[i].flex, &stock,
                                             &pool->shaft[at], 1) == 1) {
            pool->model[at] = stock.model;
            pool->chart[at] = stock.chart[kind];
            pool->profile[at] = stock.profile;
            pool->count++;
        }
    }
}

static void rank_notes(const struct pool *pool, const struct guided_flex *ranked,
                       struct desk_remarks *remarks) {
    for (size_t i = 0; i < pool->count && i < 3; i++) {
        const struct shaft *shaft = &pool->shaft[ranked[i].candidate];
        char line[VIEW_TEXT_MAX];
        struct text text = text_open(line, sizeof line);
        if (ranked[i].frequency.gap != ESTIMATE_GAP_NONE) {
            break;
        }
        char cpm[LENGTH_TEXT_MAX];
        struct text figure = text_open(cpm, sizeof cpm);
        text_add_decimal(&figure, ranked[i].frequency.value, 1);
        // TRANSLATORS: a shaft: its ticket, model and flex; %4 cycles a minute.
        text_say(&text, _("%1 %2 %3: about %4 cpm"), shaft->ticket, shaft->model, shaft->flex, cpm);
        office_note(remarks, TONE_PLAIN, line);
    }
}

// Like for like: which shafts in stock come nearest to the flex that the club had.
static enum store_result shafts_near(void *ctx, struct store *store) {
    static struct pool pool; // large
    static struct guided_flex ranked[CANDIDATES];
    static struct guided_candidate candidates[CANDIDATES];
    struct repair *repair = ctx;
    frequency_dcpm frequency;
    struct club club;
    enum chart_kind kind;
    int64_t id;
    if (!entry_frequency(cell(repair, "frequency"), &frequency) ||
        store_club_named(store, cell(repair, "build"), "1", &id) != STORE_OK ||
        store_club(store, id, &club) != STORE_OK || !chart_kind_for_head(club.head.kind, &kind)) {
        return STORE_OK;
    }
    memset(&pool, 0, sizeof pool);
    fill_pool(repair->office, kind, &pool);
    for (size_t i = 0; i < pool.count; i++) {
        candidates[i] = (struct guided_candidate){.shaft = &pool.shaft[i],
                                                  .model = &pool.model[i],
                                                  .chart = &pool.chart[i],
                                                  .profile = &pool.profile[i]};
    }
    guided_flex_rank(&club, (double)frequency / 10, candidates, pool.count,
                     &repair->office->settings->rules, &repair->office->settings->assembly, ranked);
    office_note(repair->remarks, TONE_PLAIN, _("Nearest in flex, by estimate:"));
    rank_notes(&pool, ranked, repair->remarks);
    return STORE_OK;
}

static enum store_result look(void *ctx, struct store *store) {
    struct repair *repair = ctx;
    enum store_result result =
        plans_notes(repair->office, store, cell(repair, "build"), "1", repair->remarks);
    return result == STORE_OK ? shafts_near(ctx, store) : result;
}

// --- the form ------------------------------------------------------------------------------------

enum desk_result repair_begin(struct office *office, struct desk_draft *draft) {
    char heads[1][TICKET_TEXT_MAX];
    char builds[1][TICKET_TEXT_MAX];
    struct ticket ticket;
    memset(&draft->before, 0, sizeof draft->before);
    SET(draft->before.sheet, "repair");
    if (store_next_tickets(office->store, TICKET_BUILD, 1, builds) == STORE_OK &&
        ticket_parse(builds[0], &ticket) == TICKET_OK) {
        ticket_body(&ticket, builds[0]);
    } else {
        builds[0][0] = '\0';
    }
    document_set(&draft->before, "build", builds[0]);
    draft->before.keys = 1;
    if (store_next_tickets(office->store, TICKET_HEAD, 1, heads) == STORE_OK) {
        document_set(&draft->before, "head", heads[0]);
    }
    document_set(&draft->before, "grip_cap", "1/8");
    document_set(&draft->before, "extension", "no");
    draft->now = draft->before;
    return DESK_DONE;
}

void repair_consider(struct office *office, struct desk_draft *draft,
                     struct desk_remarks *remarks) {
    static struct repair repair; // large
    if (orders_note_before(office, draft, remarks)) {
        return;
    }
    memset(&repair, 0, sizeof repair);
    repair = (struct repair){
        .office = office, .who = &office->who, .draft = draft, .remarks = remarks, .good = true};
    make(&repair);
    if (repair.good) {
        store_rehearse(office->store, repair.entry, repair.count, look, &repair);
    }
}

enum desk_result repair_save(struct office *office, const struct worker *who,
                             struct desk_draft *draft, struct desk_said *said) {
    static struct repair repair; // large
    struct desk_remarks remarks = {0};
    if (orders_made_before(office, draft, said)) {
        return DESK_DONE;
    }
    repair = (struct repair){
        .office = office, .who = who, .draft = draft, .remarks = &remarks, .good = true};
    make(&repair);
    if (!repair.good) {
        office_say(said, TONE_STOP, remarks.complaint[0].text);
        return DESK_REFUSED;
    }
    enum desk_result result = office_save(office, repair.entry, repair.count, said);
    if (result == DESK_DONE) {
        orders_to_clubs(draft, said);
    }
    return result;
}
