// From keys, touches and time to the station's events, and from its view to the screen.

#include "bench_camera.h"
#include "tongue.h"

#include <linux/input-event-codes.h>
#include <stdio.h>
#include <string.h>

#define TOUCH_DEAD_US 400000 // as long as the button's
#define TOUCH_OFTEN_US 120000

void bench_init(struct bench *bench) {
    const struct bench_settings *settings = bench->settings;
    struct wedge_settings scanner = settings->wedge;
    scanner.dedicated = true;
    wedge_init(&bench->keys, &settings->wedge);
    for (size_t i = 0; i < BENCH_SCANNERS_MAX; i++) {
        wedge_init(&bench->scanner[i], &scanner);
    }
    button_init(&bench->button, (int64_t)settings->hold_ms * 1000);
    button_init(&bench->band, (int64_t)settings->hold_ms * 1000);
    bench->speech = (struct bench_speech){.child = CHILD_NONE};
    bench->ops = bench_ops(bench);
    station_init(&bench->station, &settings->station, &bench->ops);
    bench_desk_init(bench);
    bench->last_input_us = bench_clock_us(&bench->clock);
    bench->weight = MASS_UNKNOWN;
    bench->stale = true;
    bench->dirty = true;
}

// Where typed characters go into a field of their own.
bool bench_has_field(const struct view *view) {
    return view->body == VIEW_NUMBER || view->body == VIEW_PIN || view->body == VIEW_FORM ||
           (view->body == VIEW_LOG && view->log.note_active);
}

static void add_fact(struct view_check *check, const char *name, const char *value) {
    if (value[0] != '\0') {
        snprintf(check->fact[check->fact_count].name, VIEW_SHORT_MAX, "%s", name);
        snprintf(check->fact[check->fact_count].value, VIEW_TEXT_MAX, "%s", value);
        check->fact_count++;
    }
}

static void show_report(const struct scan_report *report, struct view_check *check) {
    static const enum view_tone tones[] = {
        [REPORT_GOOD] = TONE_FINE, [REPORT_WORKS] = TONE_CAUTION, [REPORT_BAD] = TONE_STOP};
    add_fact(check, _("Came from"), _(report->source));
    add_fact(check, _("Read as"), report->text);
    add_fact(check, _("Bytes"), report->bytes);
    add_fact(check, _("Identifier"), report->aim);
    add_fact(check, _("Kind of code"), report->symbology);
    add_fact(check, _("Agreed"), report->agreed);
    add_fact(check, _("Took"), report->timing);
    add_fact(check, _("Ended by"), report->ending);
    check->tone = tones[report->verdict];
    snprintf(check->verdict, sizeof check->verdict, "%s", report->verdict_text);
    for (size_t i = 0; i < report->advice_count && i < VIEW_ADVICE_MAX; i++) {
        snprintf(check->advice[i], sizeof check->advice[0], "%s", report->advice[i]);
        check->advice_count++;
    }
}

void bench_report(struct bench *bench, const struct scan_report *report) {
    if (bench->station.state == STATION_CHECK) {
        bench->report = *report;
        bench->reported = true;
        bench->stale = true;
        bench->dirty = true;
    }
}

const struct view *bench_view(struct bench *bench) {
    if (bench->stale) {
        bool had_field = bench_has_field(&bench->view);
        station_view(&bench->station, &bench->view);
        if (bench->station.state == STATION_DESK) {
            desk_view(&bench->desk, &bench->view);
            if (bench->labels.failed) { // until one comes out again
                snprintf(bench->view.band_hint, sizeof bench->view.band_hint, "%s",
                         bench->labels.words);
            }
        }
        bench_practice_view(bench);
        bench->stale = false;
        bench->reported = bench->reported && bench->view.body == VIEW_CHECK;
        if (bench->reported) {
            show_report(&bench->report, &bench->view.check);
        }
        bench_show_code(&bench->view.day);
        if (had_field && !bench_has_field(&bench->view)) {
            wedge_clear(&bench->keys); // what was typed there is no ticket
        }
    }
    bench->view.preview.width = 0;
    if (bench->camera != NULL &&
        (bench->view.body == VIEW_PAIR || bench->station.state == STATION_READY)) {
        bench_camera_preview(bench->camera, &bench->view.preview);
    }
    if (!bench_has_field(&bench->view)) {
        snprintf(bench->view.typed, sizeof bench->view.typed, "%.31s", wedge_typed(&bench->keys));
    }
    return &bench->view;
}

void bench_state(const struct bench *bench, char *buffer, size_t size) {
    static const char *const savings[] = {
        [SAVING_NONE] = "", [SAVING_CHECKING] = " checking", [SAVING_REFUSED] = " not_logged"};
    static const char *const causes[] = {
#define X(name, word, title) [HOLD_##name] = " " word,
        HOLD_CAUSES(X)
#undef X
    };
    const struct station *station = &bench->station;
    char where[40] = "";
    if (bench->practice.on && bench->practice.lesson.list) {
        snprintf(buffer, size, "LESSONS");
        return;
    }
    if (station->state == STATION_DESK) {
        desk_where(&bench->desk, where, sizeof where);
    }
    snprintf(buffer, size, "%s%s%s%s%s%s", station_state_name(station->state),
             station->state == STATION_HOLD ? causes[station->hold.cause] : "",
             where[0] != '\0' ? " " : "", where, savings[station->saving],
             bench->blank ? " dark" : "");
}

void bench_show(struct bench *bench) {
    if (bench->blank) {
        screen_blank(bench->screen);
    } else {
        screen_draw(bench->screen, bench_view(bench));
    }
}

void bench_draw(struct bench *bench) {
    if (bench->dirty) {
        bench_show(bench);
        bench_speak(bench);
        bench->dirty = false;
        if (bench->trace) {
            char state[64];
            bench_state(bench, state, sizeof state);
            printf("state %s\n", state);
            fflush(stdout);
        }
    }
}

void bench_event(struct bench *bench, const struct event *event) {
    if (event->kind != EVENT_TICK && event->kind != EVENT_WEIGHT &&
        event->kind != EVENT_SELFCHECK && event->kind != EVENT_ACTION) {
        bench_focus_clear(bench);
    }
    bool changed = bench_practice_event(bench, event) || bench_desk_event(bench, event);
    if (bench_practice_look(bench, event) || changed) {
        bench->stale = true;
        bench->dirty = true;
    }
    if (event->kind != EVENT_TICK && event->kind != EVENT_WEIGHT &&
        event->kind != EVENT_SELFCHECK) {
        bench_blank_wake(bench);
    }
}

static void text_event(struct bench *bench, enum event_kind kind, const char *text) {
    struct event event = {.kind = kind};
    snprintf(event.text, sizeof event.text, "%s", text);
    bench_event(bench, &event);
}

void bench_write(struct bench *bench, char key) {
    struct event event = {.kind = EVENT_KEY, .key = key};
    bench_event(bench, &event);
}

void bench_action(struct bench *bench, enum view_action_id action, int64_t argument) {
    struct event event = {.kind = EVENT_ACTION, .action = (int)action, .argument = argument};
    bench_event(bench, &event);
}

// A digit that stands on a choice, and is not part of a ticket being typed.
static bool chosen(struct bench *bench, char key) {
    const struct view *view = bench_view(bench);
    const char only[2] = {key, '\0'};
    if (strcmp(wedge_typed(&bench->keys), only) != 0) {
        return false;
    }
    for (size_t i = 0; i < view->action_count; i++) {
        if (strcmp(view->action[i].key, only) == 0) {
            enum view_action_id action = view->action[i].id;
            int64_t argument = view->action[i].argument;
            wedge_clear(&bench->keys);
            bench_action(bench, action, argument);
            return true;
        }
    }
    return false;
}

static void typed(struct bench *bench, char key) {
    if (bench_has_field(bench_view(bench))) {
        bench_write(bench, key);
    } else if (!chosen(bench, key)) {
        bench->dirty = true; // shows what has been typed of a ticket
        bench->last_input_us = bench_clock_us(&bench->clock);
    }
}

// A number that was typed has gone into its field character by character already.
static bool typed_number(struct bench *bench, const char *text) {
    length_nm length;
    return bench_view(bench)->body == VIEW_NUMBER &&
           length_parse(text, LENGTH_UNIT_INCH, &length, NULL) == LENGTH_OK;
}

static void take(void *ctx, const struct wedge_output *output) {
    struct bench *bench = ctx;
    switch (output->kind) {
    case WEDGE_CODE:
        text_event(bench, EVENT_SCAN, output->text);
        break;
    case WEDGE_LINE:
        bench->dirty = true;
        if (bench_view(bench)->body == VIEW_FORM) {
            bench_write(bench, '\n'); // the rest went into its field already
        } else if (!typed_number(bench, output->text)) {
            text_event(bench, EVENT_SCAN, output->text);
        }
        break;
    case WEDGE_CHAR:
        typed(bench, output->key);
        break;
    case WEDGE_FAULT:
        text_event(bench, EVENT_FAULT, output->text);
        break;
    case WEDGE_NOTHING:
        break;
    }
}

// What the last code tells about the scanner that sent it; number 0 is the window's keyboard.
static void report_wedge(struct bench *bench, struct wedge *wedge, int number) {
    struct wedge_trace trace;
    struct scan_report report;
    if (wedge_take_trace(wedge, &trace)) {
        report_keys(&trace, &wedge->settings, number, &report);
        bench_report(bench, &report);
    }
}

static void report_wedges(struct bench *bench) {
    report_wedge(bench, &bench->keys, 0);
    for (int i = 0; i < BENCH_SCANNERS_MAX; i++) {
        report_wedge(bench, &bench->scanner[i], i + 1);
    }
}

void bench_key(struct bench *bench, struct wedge *wedge, uint16_t code, bool down,
               int64_t time_us) {
    struct wedge_key key = {.code = code, .down = down, .time_us = time_us};
    bool own = down && wedge == &bench->keys;
    if (down) {
        bench_blank_wake(bench);
    }
    if (own && (code == KEY_TAB || code == KEY_UP || code == KEY_DOWN || code == KEY_LEFT ||
                code == KEY_RIGHT)) {
        wedge_tick(wedge, time_us + wedge->settings.burst_gap_us + 1, take, bench);
    }
    if (own && bench_moving_key(bench, wedge, code, time_us)) {
        return;
    }
    if (down) {
        bench->char_us = time_us;
    }
    wedge_feed(wedge, &key, take, bench);
    report_wedges(bench);
}

static void button_event(struct bench *bench, enum button_output output) {
    struct event event = {.kind = output == BUTTON_HELD ? EVENT_HELD : EVENT_PRESS};
    if (output != BUTTON_NOTHING) {
        bench_event(bench, &event);
    }
}

void bench_button(struct bench *bench, bool down, int64_t time_us) {
    if (bench_blank_takes(bench, down)) {
        return;
    }
    button_event(bench, button_key(&bench->button, down, time_us));
}

static void band_event(struct bench *bench, enum button_output output) {
    if (output != BUTTON_NOTHING) {
        bench_action(bench, output == BUTTON_HELD ? ACTION_HELD : ACTION_PRESS, 0);
    }
}

// The same touched again so soon is one finger that bounced; sooner still where one thing is meant
// to be touched many times, as a digit, or `older` by somebody with a mouse.
static bool bounced(struct bench *bench, const struct screen_input *input) {
    int64_t now = bench_clock_us(&bench->clock);
    bool same = bench->touched == input->action && bench->touched_argument == input->argument;
    bool often = input->action == ACTION_KEY || seated_view(bench->view.body);
    int64_t dead = often ? TOUCH_OFTEN_US : TOUCH_DEAD_US;
    if (same && now - bench->touched_us < dead) {
        return true;
    }
    bench->touched = input->action;
    bench->touched_argument = input->argument;
    bench->touched_us = now;
    return false;
}

void bench_touch(struct bench *bench, const struct screen_input *input) {
    bench_blank_wake(bench); // of a dark screen nothing was touched
    bench_focus_clear(bench);
    if (input->kind == SCREEN_SLIPPED) {
        button_forget(&bench->band);
    } else if (input->action == ACTION_PRESS) {
        band_event(bench, button_key(&bench->band, input->down, bench_clock_us(&bench->clock)));
    } else if (!input->down && input->action != ACTION_NONE &&
               (input->by_key || !bounced(bench, input))) {
        bench_action(bench, input->action, input->argument);
    }
}

void bench_device(struct bench *bench, enum station_device device, bool present) {
    struct event event = {.kind = EVENT_DEVICE, .device = device, .present = present};
    bench_event(bench, &event);
}

void bench_tick(struct bench *bench) {
    int64_t now = bench_clock_us(&bench->clock);
    struct event event = {.kind = EVENT_TICK};
    wedge_tick(&bench->keys, now, take, bench);
    for (size_t i = 0; i < BENCH_SCANNERS_MAX; i++) {
        wedge_tick(&bench->scanner[i], now, take, bench);
    }
    report_wedges(bench);
    button_event(bench, button_tick(&bench->button, now));
    band_event(bench, button_tick(&bench->band, now));
    bench_event(bench, &event);
    bench_blank_tick(bench);
    bench_speech_tick(bench);
    if (bench_focus_deadline(bench) >= 0 && now >= bench_focus_deadline(bench)) {
        bench_focus_clear(bench);
    }
}

static void sooner(int64_t *patience, int64_t due, int64_t now) {
    int64_t left = due > now ? due - now : 0;
    if (due >= 0 && (*patience < 0 || left < *patience)) {
        *patience = left;
    }
}

int64_t bench_patience(const struct bench *bench) {
    int64_t now = bench_clock_us(&bench->clock);
    int64_t boot = bench_clock_boot_ms(&bench->clock);
    int64_t station = station_deadline(&bench->station);
    int64_t patience = -1;
    sooner(&patience, wedge_deadline(&bench->keys), now);
    for (size_t i = 0; i < BENCH_SCANNERS_MAX; i++) {
        sooner(&patience, wedge_deadline(&bench->scanner[i]), now);
    }
    sooner(&patience, button_deadline(&bench->button), now);
    sooner(&patience, button_deadline(&bench->band), now);
    sooner(&patience, bench_focus_deadline(bench), now);
    if (station >= 0) {
        sooner(&patience, station * 1000, boot * 1000);
    }
    int64_t practice = bench_practice_patience(bench);
    int64_t blank = bench_blank_patience(bench);
    sooner(&patience, practice < 0 ? -1 : now + practice, now);
    sooner(&patience, blank < 0 ? -1 : now + blank, now);
    int64_t speech = bench_speech_patience(bench);
    sooner(&patience, speech < 0 ? -1 : now + speech, now);
    return patience;
}
