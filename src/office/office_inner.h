#ifndef OFFICE_INNER_H
#define OFFICE_INNER_H

// How the files of src/office call each other. Only for them.

#include "lists.h"
#include "office.h"
#include "tongue.h"
#include "words.h"

// --- office.c ------------------------------------------------------------------------------------
// An entry about no club, by `who`, now. `id` is made its own by `at`.
struct entry office_entry(const struct office *office, enum entry_kind kind,
                          const struct worker *who, const char *id, size_t at);
// The entry of a change; false: it does not fit into the log.
bool office_change(const struct office *office, const struct worker *who, const char *id, size_t at,
                   const struct change *change, const char *why, struct entry *ret_entry);
// All of them or none. What was wrong goes into *ret_said.
enum desk_result office_save(const struct office *office, struct entry *entries, size_t count,
                             struct desk_said *ret_said);
// Saved already, by a try whose outcome nobody could tell: *ret_seq is the first entry of it.
bool office_saved_before(const struct office *office, const struct desk_draft *draft,
                         int64_t *ret_seq);
enum desk_result office_result(enum store_result result);
void office_say(struct desk_said *said, enum view_tone tone, const char *message);
// `25 Nov 10:42`, of another year `25 Nov 2025`.
void office_when(const struct office *office, int64_t wall_ms, char *buffer, size_t size);
// A length, a weight as this bench writes them; empty when not known.
void office_length(const struct office *office, length_nm length, char *buffer, size_t size);
void office_weight(mass_mg weight, char *buffer, size_t size);
// A length into a cell, exact, in inches as the store reads a bare number; nothing when not known.
void office_set_length(struct document *document, const char *cell, length_nm length);

// --- notes of a form -----------------------------------------------------------------------------
void office_note(struct desk_remarks *remarks, enum view_tone tone, const char *text);
void office_complain(struct desk_remarks *remarks, const char *cell, const char *text);
// What the store had against the newest document or change.
void office_complaints(const struct office *office, struct desk_remarks *remarks);

// --- forms.c: what each form is ------------------------------------------------------------------
struct form_work {
    const char *sheet; // of the document; NULL: the form's own
    size_t keys;
    enum desk_result (*begin)(struct office *office, struct desk_draft *draft);
    void (*consider)(struct office *office, struct desk_draft *draft, struct desk_remarks *remarks);
    enum desk_result (*save)(struct office *office, const struct worker *who,
                             struct desk_draft *draft, struct desk_said *said);
};
const struct form_work *forms_work(enum desk_form form);
int forms_choices(void *ctx, const struct desk_draft *draft, const char *cell,
                  char texts[][DESK_KEY_MAX], int max);

// --- sheets.c: a form over one document ----------------------------------------------------------
enum desk_result sheets_begin(struct office *office, struct desk_draft *draft);
void sheets_consider(struct office *office, struct desk_draft *draft, struct desk_remarks *remarks);
enum desk_result sheets_save(struct office *office, const struct worker *who,
                             struct desk_draft *draft, struct desk_said *said);
// The document without the cells that only the form knows.
void sheets_document(const struct desk_draft *draft, const struct document *cells,
                     struct document *ret_document);

// --- effects.c: charts and models that open clubs go by ------------------------------------------
// As sheets_consider, then which marks change; those need a reason. And the cell `try`.
void effects_consider(struct office *office, struct desk_draft *draft,
                      struct desk_remarks *remarks);
// --- receive.c: taking in what was delivered -----------------------------------------------------
enum desk_result receive_begin(struct office *office, struct desk_draft *draft);
void receive_consider(struct office *office, struct desk_draft *draft,
                      struct desk_remarks *remarks);

// --- offcut.c: what is left of a shaft as a shaft again ------------------------------------------
enum desk_result offcut_begin(struct office *office, struct desk_draft *draft);
void offcut_consider(struct office *office, struct desk_draft *draft, struct desk_remarks *remarks);

// --- made.c: a part that is new in the shop ------------------------------------------------------
// The next free ticket into a draft of sheet heads or shafts; none when no numbers are left: then
// one is scanned.
enum desk_result made_propose(struct office *office, struct desk_draft *draft);
// Another desk may have been given the proposed number: then it is the next one. A ticket that was
// scanned and is another part's is wrong.
void made_ticket(struct office *office, struct desk_draft *draft, struct desk_remarks *remarks);
// Its entry, with the cell "why" for a note, and its label.
enum desk_result made_save(struct office *office, const struct worker *who,
                           struct desk_draft *draft, struct desk_said *said);

// --- level.c: how much of a model should lie there -----------------------------------------------
enum desk_result level_begin(struct office *office, struct desk_draft *draft);
void level_consider(struct office *office, struct desk_draft *draft, struct desk_remarks *remarks);
enum desk_result level_save(struct office *office, const struct worker *who,
                            struct desk_draft *draft, struct desk_said *said);

// --- charts.c ------------------------------------------------------------------------------------
// As effects_consider, and says where a heavier head is trimmed less.
void charts_consider(struct office *office, struct desk_draft *draft, struct desk_remarks *remarks);
// --- orders_made.c, orders.c ---------------------------------------------------------------------
// A draft of these cells, each a name and a value, the first `keys` of them its keys.
void orders_begin_cells(struct desk_draft *draft, const char *sheet, size_t keys,
                        const char *const (*cells)[2], size_t count);
enum desk_result orders_begin_new(struct office *office, struct desk_draft *draft);
enum desk_result orders_begin_copy(struct office *office, struct desk_draft *draft);
enum desk_result orders_begin_club(struct office *office, struct desk_draft *draft);
void orders_consider_made(struct office *office, struct desk_draft *draft,
                          struct desk_remarks *remarks);
enum desk_result orders_save_made(struct office *office, const struct worker *who,
                                  struct desk_draft *draft, struct desk_said *said);
void orders_consider_club(struct office *office, struct desk_draft *draft,
                          struct desk_remarks *remarks);

void orders_to_clubs(const struct desk_draft *draft, struct desk_said *said);
// Orders and repairs: whether a try before has made this one, and it is said; the second leads to
// its clubs.
bool orders_note_before(const struct office *office, const struct desk_draft *draft,
                        struct desk_remarks *remarks);
bool orders_made_before(const struct office *office, const struct desk_draft *draft,
                        struct desk_said *said);

// --- changes.c -----------------------------------------------------------------------------------
enum desk_result changes_begin(struct office *office, struct desk_draft *draft);
void changes_consider(struct office *office, struct desk_draft *draft,
                      struct desk_remarks *remarks);
enum desk_result changes_save(struct office *office, const struct worker *who,
                              struct desk_draft *draft, struct desk_said *said);

// --- settings.c ----------------------------------------------------------------------------------
enum desk_result setting_begin(struct office *office, struct desk_draft *draft);
void setting_consider(struct office *office, struct desk_draft *draft,
                      struct desk_remarks *remarks);
enum desk_result setting_save(struct office *office, const struct worker *who,
                              struct desk_draft *draft, struct desk_said *said);
int setting_choices(struct office *office, const struct desk_draft *draft,
                    char texts[][DESK_KEY_MAX], int max);

// --- measured.c ----------------------------------------------------------------------------------
enum desk_result measured_begin(struct office *office, struct desk_draft *draft);
void measured_consider(struct office *office, struct desk_draft *draft,
                       struct desk_remarks *remarks);
enum desk_result measured_save(struct office *office, const struct worker *who,
                               struct desk_draft *draft, struct desk_said *said);

// --- repair.c ------------------------------------------------------------------------------------
enum desk_result repair_begin(struct office *office, struct desk_draft *draft);
void repair_consider(struct office *office, struct desk_draft *draft, struct desk_remarks *remarks);
enum desk_result repair_save(struct office *office, const struct worker *who,
                             struct desk_draft *draft, struct desk_said *said);

// --- lists of each kind --------------------------------------------------------------------------
typedef enum desk_result office_list(struct office *office, const struct desk_query *query,
                                     struct desk_table *table);
office_list list_assembly, list_heads, list_shafts, list_head_models, list_shaft_models,
    list_charts, list_revisions, list_differences;
office_list list_lots, list_lot, list_stock, list_pick, list_offcuts, list_scrap;
// How many models are to be ordered again; -1: the database cannot be read.
int64_t stock_to_order(struct office *office);
office_list list_orders, list_clubs;
office_list list_changes, list_settings;

// --- rows.c --------------------------------------------------------------------------------------
// Rows that a list asks for at once: one more than a page holds tells whether there are more.
#define ROWS_ASKED (VIEW_ROWS_MAX + 1)
// Adds a row; returns its number, or -1 when the page is full: then more is set.
int rows_add(struct desk_table *table);
void rows_head(struct desk_table *table, const char *const *heads, size_t count);
// Whether a row with these texts is looked for: one of them has in it what was typed.
bool rows_wanted(const struct desk_query *query, const char *a, const char *b);
// What somebody wrote, cut at a word, with dots, so that it leaves other cells their room.
void rows_brief(const char *text, char cell[VIEW_CELL_MAX]);
void rows_number(int64_t number, char *buffer, size_t size);
void rows_note(struct desk_table *table, enum view_tone tone, const char *text);

#endif
