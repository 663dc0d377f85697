#ifndef STATION_INNER_H
#define STATION_INNER_H

// How the files of src/station call each other. Only for them.

#include "record.h"
#include "station.h"
#include "words.h"

// --- moves.c -----------------------------------------------------------------------------------
// The only function that changes the state. A move the table forbids becomes a logged hold.
void station_move(struct station *s, enum station_state to);

// --- station.c ---------------------------------------------------------------------------------
int64_t station_now(const struct station *s);
void station_sound(const struct station *s, enum station_sound sound);
bool station_signed_on(const struct station *s);
bool station_asks_number(const struct station *s); // a state with a keypad for lengths
// Lays the club aside and goes to READY, or to SIGNED_OUT when nobody is signed on.
void station_home(struct station *s);
void station_sign_off(struct station *s, const char *cause);
// PRESS and HELD do nothing for a while.
void station_dead_time(struct station *s);

// --- react.c -----------------------------------------------------------------------------------
void react_key(struct station *s, int64_t key);
// Pressed, or else held.
void react_button(struct station *s, bool pressed);
// A touch; nothing, unless it is among what actions_fill offers.
void react_action(struct station *s, enum view_action_id id, int64_t argument);

// --- idle.c ------------------------------------------------------------------------------------
// Time passed. True: the view may have changed.
bool idle_tick(struct station *s);

// --- save.c ------------------------------------------------------------------------------------
// An entry of `kind` about the worker and club at hand, with a fresh confirm id.
struct entry save_entry(const struct station *s, enum entry_kind kind);
// Saves; on disk or not, `then` happens only once it is there.
void save_begin(struct station *s, const struct entry *entry, enum save_then then);
void save_tick(struct station *s);
// An entry nothing waits for; true when it is on disk.
bool save_aside(const struct station *s, struct entry *entry);

// --- hold.c ------------------------------------------------------------------------------------
struct hold hold_make(const struct station *s, enum hold_cause cause);
void hold_line(struct hold *hold, enum word which, const char *a, const char *b, const char *c);
void hold_todo(struct hold *hold, enum word which, const char *a, const char *b, const char *c);
void hold_todo_count(struct hold *hold, enum counted_word which, int64_t count);
void hold_show(struct station *s, const struct hold *hold);
void hold_press(struct station *s);
void hold_held(struct station *s);
void hold_store_failed(struct station *s);
const char *hold_title(enum hold_cause cause);
// The English title of the stop with this word in the log; NULL: none of them.
const char *hold_title_source(const char *word);
// A stop's line, which is English, in the shop's language; and a note of the log with such lines.
void hold_line_words(const char *line, char *buffer, size_t size);
void hold_note_words(const struct entry *entry, char *buffer, size_t size);
const char *hold_word(enum hold_cause cause);

// --- wrong.c: what can be chosen when something is wrong -----------------------------------------
void wrong_open(struct station *s); // the button was held
void wrong_choose(struct station *s, enum view_action_id id);

// --- lone.c: everything by one button ------------------------------------------------------------
// True: there is something to choose, and the press moved on to the next choice.
bool lone_press(struct station *s);
// True: what holding the button takes.
bool lone_held(struct station *s, enum view_action_id *ret_id, int64_t *ret_argument);
void lone_view(const struct station *s, struct view *view);

// --- scanning.c --------------------------------------------------------------------------------
void scanning_scan(struct station *s, const char *text);

// --- pairing.c ---------------------------------------------------------------------------------
void pairing_scan(struct station *s, const struct ticket *ticket);

// --- cutting.c ---------------------------------------------------------------------------------
// Head and shaft are matched: checks, plan, dry fit, care, resume, then the next cut.
void cutting_proceed(struct station *s);
// The next cut or measure of this sitting, nothing asked.
void cutting_step(struct station *s);
void cutting_show_butt(struct station *s);
void cutting_press(struct station *s);
// What was cut off the tip by the worker's own measure, on its way into the log.
void cutting_tip_made(struct station *s, length_nm made);
// The butt was cut, though not under the mark on the screen.
void cutting_butt_made(struct station *s, length_nm left);
void cutting_withdraw(struct station *s, int64_t refers, enum save_then then);
bool cutting_reload(struct station *s);
bool cutting_plan(const struct station *s, struct plan_input *ret_input, struct plan *ret_plan);
// Where the tip mark is, or was before the tip was cut. LENGTH_UNKNOWN without a plan for it.
length_nm cutting_tip_mark(const struct station *s);
// The plan as the screen shows it now, and as it goes into the log. False: there is none.
bool cutting_shown(const struct station *s, struct record *ret_record);
void cutting_record(const struct station *s, struct entry *entry);
// Law 1, asked after every event and again by the view.
bool cutting_mark_allowed(const struct station *s);
// Cut off so far while the tip mark is up, 0 when nothing is.
length_nm cutting_tip_part(const struct station *s);

// --- ordering.c ----------------------------------------------------------------------------------
// Each true: a stop is shown. The order of `club` is not for the bench.
bool ordering_waits(struct station *s, const struct club *club);
// The order of the club at hand was changed and no bench was told; a press says that it was heard.
bool ordering_changed(struct station *s);
void ordering_understood(struct station *s);
// The store refused an entry about the club at hand for one of these.
bool ordering_refused(struct station *s);
// How many clubs wait and how long they take here; empty: none.
void ordering_wait_text(const struct station *s, char *buffer, size_t size);

// --- after.c -------------------------------------------------------------------------------------
void after_save(struct station *s, enum save_then then, const struct entry *saved);

// --- number.c ----------------------------------------------------------------------------------
void number_open(struct station *s, enum number_kind kind);
void number_key(struct station *s, int64_t key);
void number_pick(struct station *s, length_nm length);
void number_field(struct station *s, int64_t field);
bool number_scan(struct station *s, const char *text);
// A command ticket that types. True: it went into the field.
bool number_ticket(struct station *s, const char *text);
bool number_value(const struct station *s, int field, length_nm *ret_length);
void number_text(const struct station *s, length_nm length, char buffer[NUMBER_TEXT_MAX]);

// --- answer.c ------------------------------------------------------------------------------------
void answer_press(struct station *s);
// The longest this piece can be: raw, less what is cut off the tip for good.
length_nm answer_piece(const struct station *s);

// --- resume.c ----------------------------------------------------------------------------------
void resume_choose(struct station *s, enum view_action_id id);
// Length of the shaft with the mark on offer not yet cut, and cut.
void resume_lengths(const struct station *s, length_nm *ret_uncut, length_nm *ret_cut);

// --- pin.c, consent.c --------------------------------------------------------------------------
void pin_open(struct station *s, enum pin_purpose purpose, const struct worker *supervisor);
void pin_badge(struct station *s, const char *badge);
void pin_key(struct station *s, int64_t key);
void pin_unlock(struct station *s); // another supervisor is asked for
void pin_press(struct station *s);
// What a supervisor can agree to so that a refused plan becomes one. False: nothing.
bool consent_for(const struct station *s, const struct plan *plan, enum consent *ret_consent);
void consent_open(struct station *s);
void consent_choose(struct station *s, int64_t index);
void consent_trim(struct station *s, length_nm trim);

// --- filters.c ---------------------------------------------------------------------------------
void filters_newest(struct station *s); // the first page again
void filters_day(struct station *s, int64_t wall_ms);
void filters_clear(struct station *s);
void filters_action(struct station *s, enum view_action_id id, int64_t argument);
// A ticket, a build's name or days (2026-03-01, 2026-03-01/2026-03-31) scanned or typed to the log.
void filters_search(struct station *s, const char *text, const struct ticket *ticket);
// A material's word in the log, as a person reads it.
const char *filters_material(const char *word);
// Labels of what can be picked now, in order; returns how many.
int filters_labels(const struct station *s, char labels[][VIEW_SHORT_MAX], int max);

// --- review.c, decide.c ------------------------------------------------------------------------
void review_open(struct station *s);
void review_action(struct station *s, enum view_action_id id, int64_t argument);
void review_life(struct station *s, const char *ticket);
// The build whose set can be opened from the log. False: none.
bool review_build(const struct station *s, char build[PARTS_BUILD_MAX]);
void review_key(struct station *s, int64_t key);
int review_rows(const struct station *s, struct view_log_row *rows);
// The selected entry, and true in *ret_open when a supervisor must still decide on it.
bool review_selected(const struct station *s, struct entry *ret_entry, bool *ret_open);
void decide(struct station *s, enum view_action_id id, int64_t argument);
// Whether a note for the selected entry is typed, and the press that saves it.
bool decide_has_note(const struct station *s);
void decide_note(struct station *s);

// --- day.c -------------------------------------------------------------------------------------
void day_action(struct station *s, enum view_action_id id);
// The log is checked, so that the day can be signed: looked after at every tick, true when what is
// to be seen changed, and given up when somebody asks or the review is left.
bool day_checks(const struct station *s);
bool day_tick(struct station *s);
void day_stop(struct station *s);
// The log shows one day, which can have a report and a signature.
bool day_shown(const struct station *s);

// --- sets.c, kits.c, final.c -------------------------------------------------------------------
void sets_open(struct station *s, const char *build);
void sets_action(struct station *s, enum view_action_id id, int64_t argument);
void sets_back(struct station *s);
// A build's ticket, or a part of it, was scanned while its set or the log is looked at.
void sets_scan(struct station *s, const struct ticket *ticket);
bool sets_load(const struct station *s, struct set *ret_set);
// The club that is selected; NULL: there is none, or it is in the set no more.
const struct set_club *sets_selected(const struct station *s, const struct set *set);
void kits_lay(struct station *s); // what is shown from now on
void kits_accept(struct station *s);
void final_open(struct station *s, enum view_action_id id);
void final_press(struct station *s);
// What a key may put into the field of a final value.
bool final_key(enum number_kind kind, int64_t key);
// True when `text` reads as the value that is asked for; the others are unknown in *ret_values.
bool final_reads(const struct station *s, const char *text, struct final_values *ret_values);
// The club it is asked for.
bool final_club(const struct station *s, struct club *ret_club);
struct final_kind {
    enum view_action_id action;
    enum number_kind number;
    enum entry_kind entry;
    enum word question;
    enum word field;
    enum word bad;
};
extern const struct final_kind final_kinds[ASSEMBLY_VALUE_COUNT];
enum assembly_value final_value(const struct station *s); // of what is asked for

// --- texts -------------------------------------------------------------------------------------
void say_number(int64_t number, char buffer[LENGTH_TEXT_MAX]);
// A length as this bench writes it, with its unit: `2 5/8 in`, `66.7 mm`.
void say_length(const struct station *s, length_nm length, char buffer[LENGTH_TEXT_MAX]);
// The same in English with a decimal point: for the log.
void say_length_source(const struct station *s, length_nm length, char buffer[LENGTH_TEXT_MAX]);
// One of estimate_text.h's English lines in the shop's language.
void estimate_words(const char *source, char buffer[VIEW_TEXT_MAX]);
void say_mark(const struct station *s, length_nm length, struct view_mark *ret_mark);

// --- actions.c, actions_review.c, the views -----------------------------------------------------
// What can be touched now; also what is accepted (react.c asks it).
void actions_fill(const struct station *s, struct view *view);
void offer(struct view *view, enum view_action_id id, enum word label, const char *key,
           enum view_tone tone);
void offer_press(struct view *view);
void review_actions(const struct station *s, struct view *view);
void set_actions(const struct station *s, struct view *view);
void final_actions(const struct station *s, struct view *view);
bool actions_allow(const struct station *s, enum view_action_id id, int64_t argument);
void view_message(const struct station *s, struct view *view);
void view_check(struct view *view);
void view_pair(const struct station *s, struct view *view);
void view_care(const struct station *s, struct view *view);
void view_cut(const struct station *s, struct view *view);
// The mark of the selected entry as it was on the screen, from the entry alone.
void view_shown(const struct station *s, struct view *view);
bool view_has_shown(const struct entry *entry);
void view_number(const struct station *s, struct view *view);
void view_hold(const struct station *s, const struct hold *hold, struct view *view);
void view_resume(const struct station *s, struct view *view);
void view_logged(const struct station *s, struct view *view);
void view_saving(const struct station *s, struct view *view);
void view_pin(const struct station *s, struct view *view);
void view_consent(const struct station *s, struct view *view);
void view_review(const struct station *s, struct view *view);
void view_set(const struct station *s, struct view *view);
void view_stats(const struct station *s, struct view *view);
void view_day(const struct station *s, struct view *view);
// --- view_copies.c -------------------------------------------------------------------------------
// False: the bench makes no copies.
bool copies_health(const struct station *s, enum view_health *ret_health);
// There is no copy as fresh as there should be.
bool copies_late(const struct station *s);
// How old the newest copy is, in words.
void copies_words(const struct station *s, char *buffer, size_t size);
// True when the last one failed; why, in words.
bool copies_failing(const struct station *s, char *buffer, size_t size);
// The days and what else the log is filtered by, in words.
void view_days(const struct station *s, char *buffer, size_t size);
void view_filters(const struct station *s, char *buffer, size_t size);
// A value of the set as people read it: `43 1/2 in`, `D1.8`, `318.4 g`, `261.5`.
void set_point_text(const struct station *s, enum set_value value, double number, char *buffer,
                    size_t size);
void final_fields(const struct station *s, struct view_number *number);
void view_one_entry(const struct station *s, struct view *view);
void view_band(struct view *view, enum view_tone tone, bool button, enum word band, enum word hint);

// --- selfchecks.c --------------------------------------------------------------------------------
void selfchecks_open(struct station *s);
void selfchecks_action(struct station *s, enum view_action_id id);
bool selfchecks_more(const struct station *s); // findings after the page that is shown
// There is news of it. True: the view may have changed.
bool selfchecks_news(struct station *s);
// True: the log cannot be trusted, and the screen says so instead of going on.
bool selfchecks_keep_out(struct station *s);
void view_selfcheck(const struct station *s, struct view *view);

#endif
