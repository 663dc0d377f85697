#include "views.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const struct fixture fixtures[] = {
    {"signed-out", view_signed_out, FIXTURE_KEPT},
    {"ready", view_ready, FIXTURE_KEPT},
    {"ready-long", view_ready_long, FIXTURE_LONGEST},
    {"pair", view_pair_shaft, FIXTURE_KEPT},
    {"pair-long", view_pair_long, FIXTURE_LONGEST},
    {"care", view_care_graphite, FIXTURE_KEPT},
    {"care-steel", view_care_steel, FIXTURE_DRAWN},
    {"tip-cut", view_tip, FIXTURE_KEPT},
    {"butt-cut", view_butt, FIXTURE_KEPT},
    {"shown", view_shown_again, FIXTURE_KEPT},
    {"tip-cut-right-mm", view_tip_right_mm, FIXTURE_KEPT},
    {"cut-long", view_cut_long, FIXTURE_LONGEST},
    {"cut-estimates", view_cut_estimates, FIXTURE_LONGEST},
    {"dry-fit", view_dry_fit, FIXTURE_KEPT},
    {"measure", view_measure, FIXTURE_KEPT},
    {"lone-measure", view_lone_measure, FIXTURE_KEPT},
    {"number-long", view_number_long, FIXTURE_LONGEST},
    {"dry-fit-long", view_dry_fit_long, FIXTURE_LONGEST},
    {"pin", view_pin_typed, FIXTURE_KEPT},
    {"pin-wait", view_pin_wait, FIXTURE_LONGEST},
    {"hold", view_hold_pair, FIXTURE_KEPT},
    {"hold-long", view_hold_long, FIXTURE_LONGEST},
    {"wrong", view_wrong, FIXTURE_KEPT},
    {"resume", view_resume_tip, FIXTURE_DRAWN},
    {"logged", view_logged_club, FIXTURE_KEPT},
    {"not-logged", view_not_logged, FIXTURE_KEPT},
    {"safe", view_safe, FIXTURE_KEPT},
    {"consent", view_consent_column, FIXTURE_LONGEST},
    {"log", view_log_open, FIXTURE_KEPT},
    {"log-note", view_log_note, FIXTURE_LONGEST},
    {"log-noting", view_log_noting, FIXTURE_DRAWN},
    {"log-spare", view_log_spare, FIXTURE_LONGEST},
    {"log-filters", view_log_filters, FIXTURE_KEPT},
    {"log-days", view_log_days, FIXTURE_LONGEST},
    {"log-empty", view_log_empty, FIXTURE_DRAWN},
    {"log-long", view_log_long, FIXTURE_LONGEST},
    {"entry", view_entry_tip, FIXTURE_KEPT},
    {"entry-long", view_entry_long, FIXTURE_LONGEST},
    {"set", view_set_odd, FIXTURE_KEPT},
    {"set-kit", view_set_kit, FIXTURE_DRAWN},
    {"charts", view_set_charts, FIXTURE_KEPT},
    {"set-long", view_set_long, FIXTURE_LONGEST},
    {"final", view_final_swingweight, FIXTURE_DRAWN},
    {"day", view_day_plain, FIXTURE_DRAWN},
    {"day-ask", view_day_ask, FIXTURE_KEPT},
    {"day-check", view_day_check, FIXTURE_KEPT},
    {"day-signed", view_day_signed, FIXTURE_KEPT},
    {"day-refused", view_day_refused, FIXTURE_DRAWN},
    {"day-longest", view_day_longest, FIXTURE_LONGEST},
    {"menu", view_menu_desk, FIXTURE_KEPT},
    {"menu-long", view_menu_long, FIXTURE_LONGEST},
    {"practice", view_practice_tip, FIXTURE_KEPT},
    {"practice-pair", view_practice_pair, FIXTURE_LONGEST},
    {"practice-lessons", view_practice_lessons, FIXTURE_KEPT},
    {"form", view_form_chart, FIXTURE_KEPT},
    {"form-keys", view_form_keys, FIXTURE_KEPT},
    {"form-long", view_form_long, FIXTURE_LONGEST},
    {"list", view_list_revisions, FIXTURE_KEPT},
    {"list-long", view_list_orders, FIXTURE_LONGEST},
    {"check", view_check_bad, FIXTURE_KEPT},
    {"check-camera", view_check_camera, FIXTURE_KEPT},
    {"check-scale", view_check_scale, FIXTURE_KEPT},
    {"check-empty", view_check_empty, FIXTURE_DRAWN},
    {"selfcheck", view_selfcheck_some, FIXTURE_KEPT},
    {"selfcheck-good", view_selfcheck_good, FIXTURE_DRAWN},
    {"selfcheck-long", view_selfcheck_long, FIXTURE_LONGEST},
    {"ready-camera", view_ready_camera, FIXTURE_DRAWN},
    {"pair-camera", view_pair_camera, FIXTURE_KEPT},
};

const struct fixture *views_all(size_t *ret_count) {
    *ret_count = sizeof fixtures / sizeof fixtures[0];
    return fixtures;
}

void views_fill(const char *name, struct view *view) {
    for (size_t i = 0; i < sizeof fixtures / sizeof fixtures[0]; i++) {
        if (strcmp(fixtures[i].name, name) == 0) {
            fixtures[i].fill(view);
            return;
        }
    }
    fprintf(stderr, "no view is called %s\n", name);
    abort();
}

void views_put(char *to, size_t size, const char *text) {
    size_t bytes = strlen(text) + 1;
    if (bytes > size) {
        fprintf(stderr, "too long for a view: %s\n", text);
        abort();
    }
    memcpy(to, text, bytes);
}

static void status(struct view *view, const char *label, enum view_health health) {
    struct view_status *at = &view->status[view->status_count++];
    PUT(at->label, label);
    at->health = health;
}

void views_base(struct view *view, enum view_body body, int step) {
    memset(view, 0, sizeof *view);
    view->body = body;
    view->step = step;
    view->log.selected = -1;
    PUT(view->bench, "Bench 2");
    PUT(view->worker, "Ida Brandt");
    status(view, "Scanner", HEALTH_GOOD);
    status(view, "Button", HEALTH_GOOD);
    status(view, "Log", HEALTH_GOOD);
}

void views_band(struct view *view, enum view_tone tone, bool button, const char *band,
                const char *hint) {
    view->band_tone = tone;
    view->band_button = button;
    PUT(view->band, band);
    PUT(view->band_hint, hint);
}

void views_action(struct view *view, enum view_action_id id, const char *label, const char *key,
                  enum view_tone tone) {
    struct view_action *action = &view->action[view->action_count++];
    *action = (struct view_action){.id = id, .tone = tone};
    PUT(action->label, label);
    PUT(action->key, key);
}

struct view_mark views_mark(length_nm value) {
    struct view_mark mark = {.value = value};
    char text[LENGTH_TEXT_MAX];
    mark.fraction = length_split(value, &mark.split);
    length_text_inch(value, 3, text);
    PUT(mark.large, text);
    snprintf(mark.inches, sizeof mark.inches, "%.16s in", text);
    length_text_mm(value, 1, text);
    snprintf(mark.millimetres, sizeof mark.millimetres, "%.16s mm", text);
    PUT(mark.unit, "in");
    PUT(mark.rounding, "nearest 1/16 in");
    return mark;
}

struct view_mark views_mark_mm(length_nm value) {
    struct view_mark mark = views_mark(value);
    char text[LENGTH_TEXT_MAX];
    length_text_mm(value, 1, text);
    PUT(mark.large, text);
    PUT(mark.unit, "mm");
    PUT(mark.rounding, "nearest 0.5 mm");
    mark.fraction = false;
    return mark;
}
