#ifndef BENCH_H
#define BENCH_H

// The bench put together: station, store, scanners, button and window. Private to bench_*.c and
// command_bench.c.

#include "button.h"
#include "desk.h"
#include "office.h"
#include "report.h"
#include "screen.h"
#include "station.h"
#include "store.h"
#include "wedge.h"

#include "bench_backup.h"
#include "bench_clock.h"
#include "bench_labels.h"
#include "bench_practice.h"
#include "bench_selfcheck.h"
#include "bench_settings.h"
#include "bench_signing.h"
#include "bench_speech.h"
#include "bench_watch.h"
#include "settings_file.h"

struct bench {
    const struct bench_settings *settings; // those of `now`
    struct settings_now *now;              // and where they are from
    struct store *store;
    struct screen *screen;
    struct bench_clock clock;
    char boot[ENTRY_BOOT_MAX];
    bool trace;            // states drawn and entries saved go to stdout
    bool checkpoint_due;   // something was saved since the last checkpoint
    int64_t tidied_us;     // when one was tried last, in vain
    int64_t last_input_us; // checkpoints wait for quiet
    struct bench_watch watch;
    bool blank;        // the screen is dark
    bool blank_button; // what is down only made it light
    struct bench_backup backup;
    struct bench_labels labels;
    struct signing signing; // open while a day's log is checked, and until it is signed
    bool signing_open;
    int64_t signing_all; // entries to be checked
    struct bench_signing check;
    char why[VIEW_TEXT_MAX]; // the last entry could not be saved

    struct station_ops ops;
    enum station_save (*real_save_all)(void *ctx, struct entry *entries, size_t count);
    struct bench_practice practice;
    int script_line; // the last one worked off
    struct station station;
    struct office office;
    struct office_shop shop;
    bool to_selfcheck; // the desk asks for it
    struct desk_ops desk_ops;
    struct desk desk;                         // what the station's DESK is
    struct wedge keys;                        // every keyboard of the window
    struct wedge scanner[BENCH_SCANNERS_MAX]; // each read by a thread
    struct button button;
    struct button band; // the band of the screen, pressed like the button

    int64_t char_us;             // the newest key that was no arrow
    int64_t arrow_us;            // the newest that moved the ring
    enum view_action_id touched; // the newest touch
    int64_t touched_argument;
    int64_t touched_us;

    struct scan_report report; // of the newest scan while scanners are checked
    bool reported;

    mass_mg weight; // on the scale now, MASS_UNKNOWN: nothing is known
    bool weight_stable;

    struct bench_selfcheck selfcheck;
    const struct bench_devices *devices; // NULL: none are read
    const struct bench_camera *camera;   // NULL: none; ready and pair show what it sees

    struct view view;
    struct bench_speech speech;

    bool stale; // view is not of the station as it is now
    bool dirty; // the screen shows something else
};

// --- bench_ops.c, bench_log.c --------------------------------------------------------------------
struct station_ops bench_ops(struct bench *bench);
int bench_choices(void *ctx, enum station_choice choice, char texts[][STATION_CHOICE_MAX], int max);
int bench_log_rows(void *ctx, const struct review_filter *filter, int64_t before,
                   struct view_log_row *rows, int max);
enum station_lookup bench_stats(void *ctx, const struct review_filter *filter,
                                struct cut_stats *ret_stats);
bool bench_tickets(void *ctx, const char *build, char *ret_path, size_t size);
enum station_lookup bench_about(void *ctx, int64_t seq, struct station_remark *remarks, int max,
                                int *ret_count, int64_t *ret_total);
bool bench_export(void *ctx, const struct review_filter *filter, char *ret_path, size_t size);

// Makes a new file beside the database, `log-2026-03-31.csv`, then `log-2026-03-31-2.csv`. Returns
// its descriptor, or -1 with errno. Whoever fills it may take BENCH_WATCH_LONG_US.
int bench_new_file(const struct bench *bench, const char *begin, int64_t day_ms, const char *end,
                   char *ret_path, size_t size);

// --- bench_day.c ---------------------------------------------------------------------------------
enum station_lookup bench_day(void *ctx, int64_t from_ms, int64_t to_ms,
                              struct station_day *ret_day);
bool bench_day_report(void *ctx, int64_t from_ms, int64_t to_ms, char *ret_path, size_t size);
bool bench_ledger(void *ctx, int64_t from_ms, int64_t to_ms, char *ret_path, size_t size);
bool bench_sign_ready(void *ctx, char *message, size_t size);
bool bench_check_start(void *ctx, char *message, size_t size);
enum station_check bench_check_step(void *ctx, struct station_checked *ret_checked, char *message,
                                    size_t size);
void bench_check_stop(void *ctx);
enum station_sign bench_sign(void *ctx, struct entry *entry, int64_t day_ms,
                             char ret_note[VIEW_NOTE_MAX], char *message, size_t size);
// Makes the code of the note that the view shows.
void bench_show_code(struct view_day *day);

// --- bench_desk.c --------------------------------------------------------------------------------
void bench_desk_init(struct bench *bench);
// Hands an event to the desk or the station, whichever is there. True: the view may have changed.
bool bench_desk_event(struct bench *bench, const struct event *event);

// --- bench_lists.c -------------------------------------------------------------------------------
// The stock, or the pick list of an order or (empty) of all, as CSV. False: no file is left.
bool bench_list_csv(struct bench *bench, enum desk_deed deed, const char *build,
                    struct desk_said *ret_said);

// --- bench_papers.c ------------------------------------------------------------------------------
// Worksheet, cards or certificate of an order as a new file beside the database. False: the message
// says why there is none.
bool bench_order_paper(struct bench *bench, enum desk_deed deed, const struct desk_ref *of,
                       struct desk_said *ret_said);

// --- bench_input.c -------------------------------------------------------------------------------
void bench_init(struct bench *bench);
// What is to be seen now, without drawing it.
const struct view *bench_view(struct bench *bench);
void bench_draw(struct bench *bench); // if anything changed
void bench_show(struct bench *bench); // in any case
// `HOLD wrong_pair`, `TIP_CUT not_logged`: where the bench stands, for tests.
void bench_state(const struct bench *bench, char *buffer, size_t size);
void bench_event(struct bench *bench, const struct event *event);
void bench_key(struct bench *bench, struct wedge *wedge, uint16_t code, bool down, int64_t time_us);
void bench_button(struct bench *bench, bool down, int64_t time_us);
void bench_touch(struct bench *bench, const struct screen_input *input);
// What a scan tells about its scanner; shown while scanners are checked, else forgotten.
void bench_report(struct bench *bench, const struct scan_report *report);
void bench_device(struct bench *bench, enum station_device device, bool present);
// Lets time pass: everything that is due. Only when all input so far has been taken.
void bench_tick(struct bench *bench);
// How long nothing is due, in microseconds; -1 for ever.
int64_t bench_patience(const struct bench *bench);

// --- bench_blank.c -------------------------------------------------------------------------------
// Makes the screen dark when that is due.
void bench_blank_tick(struct bench *bench);
// Until then, in microseconds; -1: never.
int64_t bench_blank_patience(const struct bench *bench);
// Somebody or something is there: light again.
void bench_blank_wake(struct bench *bench);
// The same by the button. True: this press or release did that, and nothing else.
bool bench_blank_takes(struct bench *bench, bool down);

// Typed characters go into a field of this view.
bool bench_has_field(const struct view *view);
// A key that writes into a field of the view, or '\n': it goes on.
void bench_write(struct bench *bench, char key);
void bench_action(struct bench *bench, enum view_action_id action, int64_t argument);

// --- bench_focus.c -------------------------------------------------------------------------------
// True: this key of the window's keyboard walked a list, moved the ring, took what is in it, or
// went on in a form.
bool bench_moving_key(struct bench *bench, struct wedge *wedge, uint16_t code, int64_t time_us);
void bench_focus_clear(struct bench *bench);
int64_t bench_focus_deadline(const struct bench *bench); // when the ring goes, or -1

// --- bench_loop.c, bench_script.c ----------------------------------------------------------------
// Brings the write-ahead log into the database when it has been quiet for a while.
void bench_tidy(struct bench *bench);
// Both return the exit status, and end when practice says so.
int bench_loop(struct bench *bench);
// `skip`: lines that were worked off before.
int bench_script(struct bench *bench, const char *path, const char *shots, int skip);

#endif
