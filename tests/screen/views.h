#ifndef VIEWS_H
#define VIEWS_H

// Views made by hand, one or more of every body: with the words the bench really says, and with the
// longest the plan and the store can give. No station behind them, so the screen is tested alone.

#include "view.h"

enum fixture_use {
    FIXTURE_KEPT,   // has pictures in tests/golden, and is drawn with longer words too
    FIXTURE_DRAWN,  // drawn, with longer words too
    FIXTURE_LONGEST // as long as English gets
};
struct fixture {
    const char *name;
    void (*fill)(struct view *view);
    enum fixture_use use;
};

const struct fixture *views_all(size_t *ret_count);
void views_fill(const char *name, struct view *view);

// Every text 30 percent longer, as another language may be.
void views_stretch(struct view *view);

// Shared by the files of fixtures.
void views_put(char *to, size_t size, const char *text);
#define PUT(array, text) views_put(array, sizeof(array), text)
void views_base(struct view *view, enum view_body body, int step);
void views_band(struct view *view, enum view_tone tone, bool button, const char *band,
                const char *hint);
void views_action(struct view *view, enum view_action_id id, const char *label, const char *key,
                  enum view_tone tone);
struct view_mark views_mark(length_nm value);
struct view_mark views_mark_mm(length_nm value);

#define SIXTEENTHS(whole, n) ((whole)*LENGTH_INCH + (n) * (LENGTH_INCH / 16))

// views_start.c
void view_signed_out(struct view *view);
void view_ready(struct view *view);
void view_ready_long(struct view *view);
void view_pair_shaft(struct view *view);
void view_pair_long(struct view *view);
void view_care_graphite(struct view *view);
void view_care_steel(struct view *view);
// views_practice.c
void view_practice_tip(struct view *view);
void view_practice_pair(struct view *view);
void view_practice_lessons(struct view *view);
// views_cut.c
void view_tip(struct view *view);
void view_butt(struct view *view);
void view_shown_again(struct view *view);
void view_tip_right_mm(struct view *view);
void view_cut_long(struct view *view);
void view_cut_estimates(struct view *view);
// views_number.c
void view_dry_fit(struct view *view);
void view_measure(struct view *view);
void view_lone_measure(struct view *view);
void view_number_long(struct view *view);
void view_dry_fit_long(struct view *view);
void view_pin_typed(struct view *view);
void view_pin_wait(struct view *view);
// views_notice.c
void view_hold_pair(struct view *view);
void view_hold_long(struct view *view);
void view_wrong(struct view *view);
void view_resume_tip(struct view *view);
void view_logged_club(struct view *view);
void view_not_logged(struct view *view);
void view_safe(struct view *view);
void view_consent_column(struct view *view);
// views_review.c
void view_log_open(struct view *view);
void view_log_note(struct view *view);
void view_log_noting(struct view *view);
void view_log_spare(struct view *view);
void view_log_filters(struct view *view);
void view_log_days(struct view *view);
void view_log_empty(struct view *view);
void view_log_long(struct view *view);
void view_entry_tip(struct view *view);
void view_entry_long(struct view *view);
// views_set.c
void view_set_odd(struct view *view);
void view_set_long(struct view *view);
void view_set_kit(struct view *view);
void view_set_charts(struct view *view);
void view_final_swingweight(struct view *view);
// views_day.c
void view_day_plain(struct view *view);
void view_day_ask(struct view *view);
void view_day_check(struct view *view);
void view_day_signed(struct view *view);
void view_day_refused(struct view *view);
void view_day_longest(struct view *view);
// views_desk.c
void view_menu_desk(struct view *view);
void view_menu_long(struct view *view);
void view_form_chart(struct view *view);
void view_form_keys(struct view *view);
void view_form_long(struct view *view);
void view_list_revisions(struct view *view);
void view_list_orders(struct view *view);
// views_scan.c
void view_check_empty(struct view *view);
void view_check_bad(struct view *view);
void view_selfcheck_some(struct view *view);
void view_selfcheck_good(struct view *view);
void view_selfcheck_long(struct view *view);
void view_check_camera(struct view *view);
void view_check_scale(struct view *view);
void view_ready_camera(struct view *view);
void view_pair_camera(struct view *view);

#endif
