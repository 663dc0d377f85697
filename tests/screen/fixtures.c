#include "fixtures.h"

#include <stdio.h>
#include <string.h>

#define PUT(to, ...) snprintf(to, sizeof(to), __VA_ARGS__)

static void frame(struct view *view, enum view_body body, int step, enum view_tone tone,
                  const char *band, const char *hint) {
    static const char *const names[] = {"Scanner", "Button", "Log"};
    memset(view, 0, sizeof *view);
    view->body = body;
    view->step = step;
    view->log.selected = -1;
    PUT(view->bench, "Bench 2");
    PUT(view->worker, "Odile Farrow");
    view->status_count = 3;
    for (size_t i = 0; i < 3; i++) {
        PUT(view->status[i].label, "%s", names[i]);
    }
    view->band_tone = tone;
    PUT(view->band, "%s", band);
    PUT(view->band_hint, "%s", hint);
}

static void action(struct view *view, enum view_action_id id, enum view_tone tone,
                   const char *label, const char *key) {
    struct view_action *to = &view->action[view->action_count++];
    to->id = id;
    to->tone = tone;
    to->enabled = true;
    PUT(to->label, "%s", label);
    PUT(to->key, "%s", key);
}

static void press_and_held(struct view *view) {
    view->band_button = true;
    action(view, ACTION_PRESS, TONE_WORK, "Press", "F1");
    action(view, ACTION_HELD, TONE_STOP, "Something is wrong", "F2");
}

static struct view_mark mark(length_nm value) {
    struct view_mark mark = {.value = value, .fraction = true};
    char text[LENGTH_TEXT_MAX];
    length_split(value, &mark.split);
    length_text_inch(value, 3, text);
    PUT(mark.inches, "%.16s in", text);
    length_text_mm(value, 1, text);
    PUT(mark.millimetres, "%.16s mm", text);
    PUT(mark.unit, "in");
    PUT(mark.rounding, "nearest 1/16 in");
    return mark;
}

static void ready(struct view *view) {
    static const char *const due[] = {"late", "today", "today", "27 Nov"};
    frame(view, VIEW_MESSAGE, -1, TONE_PLAIN, "Half-cut shafts waiting: S-0179K (butt cut next)",
          "Supervisor: scan badge");
    PUT(view->title, "Scan a head or a shaft");
    PUT(view->subtitle, "Either one first.");
    for (size_t i = 0; i < 8; i++) {
        struct view_queue_row *row = &view->queue[view->queue_count++];
        PUT(row->build, "%d", 2041 + (int)i / 3);
        PUT(row->club, "%d of 9", (int)i + 1);
        PUT(row->head, "H-%04dX", 472 + (int)i);
        PUT(row->shaft, "S-%04dX", 1187 + (int)i);
        PUT(row->due, "%s", due[i % 4]);
    }
    view->has_today = true;
    view->today = (struct view_today){.clubs = 37, .cuts = 74, .out = 1, .holds = 2};
    action(view, ACTION_HELD, TONE_STOP, "Something is wrong", "F2");
    action(view, ACTION_REVIEW, TONE_PLAIN, "Cut log", "F6");
    action(view, ACTION_SIGN_OUT, TONE_PLAIN, "Sign off", "F10");
}

static void signed_out(struct view *view) {
    frame(view, VIEW_MESSAGE, -1, TONE_PLAIN, "Scan your badge to start.", "");
    PUT(view->worker, "Nobody signed on");
    view->status[0].health = HEALTH_BAD;
    PUT(view->title, "Scan your badge");
    PUT(view->subtitle, "Nobody is signed on at this bench.");
    PUT(view->typed, "W-00");
    view->has_today = true;
}

static void pair(struct view *view) {
    struct view_card *head = &view->card[0];
    struct view_card *shaft = &view->card[1];
    frame(view, VIEW_PAIR, 0, TONE_WORK, "Scan shaft S-1187X.",
          "Hold 2 seconds: something is wrong");
    PUT(view->title, "Now scan its shaft");
    PUT(view->subtitle, "Build 2041, club 2 of 9");
    head->filled = true;
    PUT(head->title, "Head H-0472X");
    PUT(head->line[0], "Larkmoor Arc fairway");
    PUT(head->line[1], "210 g, sole says 1");
    PUT(head->line[2], "Bore height 1 1/8 in");
    head->line_count = 3;
    PUT(shaft->title, "Scan shaft S-1187X");
    PUT(shaft->line[0], "Fenwright Tidal 65, firm");
    PUT(shaft->line[1], "Rack B, slot 6");
    shaft->line_count = 2;
    action(view, ACTION_HELD, TONE_STOP, "Something is wrong", "F2");
    action(view, ACTION_START_OVER, TONE_PLAIN, "Start over", "F3");
}

static void care(struct view *view) {
    static const char *const bullets[] = {
        "Eye and face protection on.",
        "Respirator on; extraction running.",
        "Hearing protection on.",
        "Guard in place; wheel sound, undamaged and rated for this saw's speed.",
        "Shaft clamped; hands and sleeves clear of the wheel.",
        "Wait for the wheel to stop before you reach in.",
        "No sparks into the dust: the collector is empty of steel, or a separate one.",
        "Cut ends splinter: deburr; gloves only as the site's rules say near rotating parts."};
    frame(view, VIEW_CARE, 1, TONE_CAUTION, "All in place? Press the button.",
          "Hold 2 seconds: not safe to cut");
    PUT(view->care.title, "Graphite shaft at the cutoff wheel");
    PUT(view->care.lead, "Before the wheel turns:");
    for (size_t i = 0; i < 8; i++) {
        PUT(view->care.bullet[view->care.count++], "%s", bullets[i]);
    }
    PUT(view->care.foot, "A reminder only. The saw maker's manual, the site's risk assessment and "
                         "local codes come first. This program controls no machine and is no "
                         "safety device.");
    press_and_held(view);
    action(view, ACTION_START_OVER, TONE_PLAIN, "Start over", "F3");
}

static void receipt(struct view_cut *cut, const char *words, const char *amount) {
    struct view_receipt_line *line = &cut->receipt[cut->receipt_count++];
    PUT(line->text, "%s", words);
    PUT(line->amount, "%s", amount);
}

static void tip(struct view *view) {
    struct view_cut *cut = &view->cut;
    frame(view, VIEW_CUT, 2, TONE_WORK, "Cut made? Press the button.",
          "Hold 2 seconds: something is wrong");
    cut->mark = mark(2 * LENGTH_INCH + 10 * LENGTH_INCH / 16);
    cut->piece = 46 * LENGTH_INCH;
    PUT(cut->heading, "Tip end · cut off");
    PUT(cut->waste, "waste");
    PUT(cut->keep, "keep this side");
    PUT(cut->blade, "blade on the waste side of the mark");
    PUT(cut->measure, "Measure from the tip. Mark, then cut.");
    PUT(cut->build, "Build 2041, club 2 of 9");
    PUT(cut->head, "Head H-0472X, 210 g, sole says 1");
    PUT(cut->shaft, "Shaft S-1187X, graphite, firm");
    PUT(cut->why, "Why 2 5/8");
    receipt(cut, "Chart, column 210 g", "1 1/2");
    receipt(cut, "Bore 1 1/8 in, chart asks", "+1 1/8");
    PUT(cut->total.text, "Cut off at the tip");
    PUT(cut->total.amount, "2 5/8");
    PUT(cut->warning[cut->warning_count++], "Weighs like a 3: the chart's column goes by weight.");
    PUT(cut->next, "Next: butt cut at 42 3/4 in");
    press_and_held(view);
    action(view, ACTION_START_OVER, TONE_PLAIN, "Start over", "F3");
}

static void tip_worst(struct view *view) {
    struct view_cut *cut = &view->cut;
    tip(view);
    cut->tip_right = true;
    cut->mark = mark(3 * LENGTH_INCH + 15 * LENGTH_INCH / 16);
    receipt(cut, "Soft-step 1: column 200 g", "");
    receipt(cut, "Uniform flex: bore 3/4 in, set 1 in", "-1/4");
    receipt(cut, "To the nearest mark", "-0.018");
    PUT(cut->warning[cut->warning_count++],
        "The maker's greatest tip trim is not known: nothing checked it.");
    PUT(cut->warning[cut->warning_count++],
        "Playing length 48 1/4 in is over 48 in: the club does not conform to the Rules.");
}

static void butt(struct view *view) {
    struct view_cut *cut = &view->cut;
    tip(view);
    view->step = 3;
    cut->butt = true;
    cut->mark = mark(42 * LENGTH_INCH + 12 * LENGTH_INCH / 16);
    cut->piece = 43 * LENGTH_INCH + 6 * LENGTH_INCH / 16;
    cut->receipt_count = 0;
    cut->warning_count = 0;
    PUT(cut->heading, "Butt end · keep");
    PUT(cut->measure, "Measure from the new tip end. Mark, then cut.");
    PUT(cut->why, "Why 42 3/4");
    receipt(cut, "Playing length", "44");
    receipt(cut, "Bore height", "-1 1/8");
    receipt(cut, "Grip cap", "-1/8");
    PUT(cut->total.text, "Keep from the new tip");
    PUT(cut->total.amount, "42 3/4");
    PUT(cut->next, "Next: measure the shaft.");
    action(view, ACTION_DRY_FIT, TONE_PLAIN, "Dry fit again", "F4");
}

static void metric(struct view *view) {
    tip(view);
    view->cut.mark.fraction = false;
    PUT(view->cut.mark.large, "66.5");
    PUT(view->cut.mark.unit, "mm");
    PUT(view->cut.mark.rounding, "nearest 0.5 mm");
}

static void dry_fit(struct view *view) {
    struct view_number *number = &view->number;
    frame(view, VIEW_NUMBER, 0, TONE_WORK, "Right? Press the button.",
          "Hold 2 seconds: something is wrong");
    PUT(number->question, "Dry fit: how long is it?");
    PUT(number->help, "Push shaft S-1187X home in head H-0472X without glue, sole it, and measure "
                      "the whole length.");
    number->field_count = 2;
    PUT(number->field[0].label, "Whole length");
    PUT(number->field[0].text, "47 1/8");
    number->field[0].active = true;
    PUT(number->field[1].label, "Length of the shaft used");
    PUT(number->field[1].text, "46");
    PUT(number->result, "Bore height 1 1/8 in");
    number->result_tone = TONE_FINE;
    press_and_held(view);
    action(view, ACTION_BACK, TONE_PLAIN, "Back", "F3");
}

static void measure(struct view *view) {
    struct view_number *number = &view->number;
    dry_fit(view);
    view->step = 4;
    number->field_count = 1;
    PUT(number->question, "How long is the cut shaft?");
    PUT(number->field[0].label, "Measured length");
    PUT(number->field[0].text, "42 5/8");
    PUT(number->result, "1/8 in short: a supervisor decides.");
    number->result_tone = TONE_CAUTION;
    number->pick_count = 5;
    for (int i = 0; i < 5; i++) {
        number->pick[i].mark = mark(42 * LENGTH_INCH + (10 + i) * LENGTH_INCH / 16);
        number->pick[i].planned = i == 2;
        number->pick[i].chosen = i == 0;
    }
}

static void hold(struct view *view) {
    struct view_notice *notice = &view->notice;
    frame(view, VIEW_NOTICE, 0, TONE_STOP, "Scan the right shaft, or press to start over.",
          "Hold 2 seconds: call the supervisor");
    notice->tone = TONE_STOP;
    PUT(notice->title, "Do not cut: these two do not belong together");
    PUT(notice->line[0], "Head H-0472X is for build 2041, club 2.");
    PUT(notice->line[1], "Shaft S-1190X is for build 2043, club 5.");
    notice->line_count = 2;
    PUT(notice->todo_title, "What to do");
    PUT(notice->todo[0], "Put shaft S-1190X back.");
    PUT(notice->todo[1], "Scan shaft S-1187X, rack B, slot 6.");
    notice->todo_count = 2;
    PUT(notice->foot, "Nothing was logged as cut. This stop is in the log.");
    press_and_held(view);
    action(view, ACTION_START_OVER, TONE_PLAIN, "Start over", "F3");
}

static void wrong(struct view *view) {
    hold(view);
    view->notice.tone = TONE_CAUTION;
    view->band_tone = TONE_CAUTION;
    PUT(view->notice.title, "What is wrong?");
    action(view, ACTION_WRONG_TOO_EARLY, TONE_PLAIN, "Pressed too early: tip not cut", "1");
    action(view, ACTION_WRONG_MISCUT, TONE_PLAIN, "Tip cut is off the mark", "2");
    action(view, ACTION_WRONG_NOT_SAFE, TONE_STOP, "Not safe to cut", "3");
    action(view, ACTION_WRONG_PARTS, TONE_CAUTION, "Wrong parts", "4");
    action(view, ACTION_DRY_FIT, TONE_PLAIN, "Dry fit again", "5");
    action(view, ACTION_WRONG_SUPERVISOR, TONE_CAUTION, "Call the supervisor", "6");
}

static void logged(struct view *view) {
    struct view_notice *notice = &view->notice;
    hold(view);
    view->step = 5;
    view->band_tone = TONE_FINE;
    notice->tone = TONE_FINE;
    PUT(notice->title, "Logged: build 2041, club 2");
    PUT(notice->line[0], "Tip cut off: 2 5/8 in");
    PUT(notice->line[1], "Made length: 42 3/4 in");
    notice->foot[0] = '\0';
    PUT(view->band, "Scan the next head or shaft.");
}

static void not_logged(struct view *view) {
    hold(view);
    PUT(view->notice.title, "NOT LOGGED");
    PUT(view->notice.line[0],
        "The disk did not take the entry. It is tried again every 2 seconds.");
    view->notice.line_count = 1;
    PUT(view->notice.todo[0], "Write it down: shaft S-1187X, tip cut, build 2041, club 2.");
    view->notice.has_mark = true;
    PUT(view->notice.mark_label, "Cut off the tip");
    view->notice.mark = mark(2 * LENGTH_INCH + 10 * LENGTH_INCH / 16);
}

static void pin(struct view *view) {
    frame(view, VIEW_PIN, -1, TONE_PLAIN, "Enter the PIN, then press the button.", "");
    PUT(view->title, "Supervisor's PIN");
    PUT(view->subtitle, "Marguerite Aldane");
    view->pin_digits = 4;
    PUT(view->pin_message, "That PIN is wrong. Next try in 30 seconds.");
    view->band_button = true;
    action(view, ACTION_PRESS, TONE_WORK, "Press", "F1");
    action(view, ACTION_BACK, TONE_PLAIN, "Back", "F3");
}

static void cut_log(struct view *view) {
    static const enum view_tone tones[] = {TONE_PLAIN, TONE_PLAIN, TONE_STOP, TONE_CAUTION};
    struct view_log *log = &view->log;
    frame(view, VIEW_LOG, -1, TONE_CAUTION, "This cut needs a decision.", "");
    PUT(log->title, "Cut log");
    PUT(log->subtitle, "25 Nov · 74 cuts · 1 out of tolerance · 2 holds");
    PUT(log->filters, "all entries");
    for (int i = 0; i < VIEW_ROWS_MAX; i++) {
        struct view_log_row *row = &log->row[log->row_count++];
        row->seq = i + 1;
        row->tone = tones[i % 4];
        PUT(row->time, "10:%02d", 59 - i);
        PUT(row->build, "2041-%d", i + 1);
        PUT(row->shaft, "S-%04dX", 1187 + i);
        PUT(row->cut, "%s", i % 2 == 0 ? "tip" : "measure");
        PUT(row->plan, "%s", i % 2 == 0 ? "2 5/8" : "42 3/4");
        PUT(row->made, "%s", i % 2 == 0 ? "2 5/8" : "42 5/8");
        PUT(row->verdict, "%s", i % 4 == 3 ? "wrong pair" : i % 4 == 2 ? "1/8 short" : "in");
    }
    log->selected = 2;
    PUT(log->detail_title, "S-1189X measure, short");
    PUT(log->detail[0], "Plan 42 3/4 in, made 42 5/8 in");
    PUT(log->detail[1], "Tolerance 1/16 in");
    PUT(log->detail[2], "Worker W-0014Q, Bench 2, 10:53");
    PUT(log->detail[3], "Playing length becomes 43 7/8 in");
    log->detail_count = 4;
    PUT(log->note, "Owner agrees to a shorter club");
    log->note_active = true;
    action(view, ACTION_DECIDE_USE, TONE_FINE, "Use as it is", "");
    action(view, ACTION_DECIDE_RECUT, TONE_WORK, "Recut on another shaft", "");
    action(view, ACTION_DECIDE_SCRAP, TONE_STOP, "Scrap", "");
    action(view, ACTION_NOTE, TONE_PLAIN, "Note done", "F4");
    action(view, ACTION_BACK, TONE_PLAIN, "Close", "F3");
    action(view, ACTION_OLDER, TONE_PLAIN, "Older", "PgDn");
    action(view, ACTION_NEWER, TONE_PLAIN, "Newer", "PgUp");
    action(view, ACTION_DAY_BACK, TONE_PLAIN, "Day before", "F5");
    action(view, ACTION_DAY_ON, TONE_PLAIN, "Day after", "F6");
    action(view, ACTION_FILTER_BUILD, TONE_PLAIN, "This build", "F7");
    action(view, ACTION_FILTER_WORKER, TONE_PLAIN, "This worker", "F8");
    action(view, ACTION_FILTER_VERDICT, TONE_PLAIN, "Verdict", "F9");
    action(view, ACTION_FILTER_OPEN, TONE_PLAIN, "To decide", "F11");
    action(view, ACTION_FILTER_CLEAR, TONE_PLAIN, "All", "Del");
    action(view, ACTION_OPEN_ENTRY, TONE_PLAIN, "Whole entry", "F12");
    action(view, ACTION_EXPORT, TONE_PLAIN, "Export CSV", "F2");
    action(view, ACTION_SIGN_OUT, TONE_PLAIN, "Sign off", "F10");
}

static void entry(struct view *view) {
    struct view_entry *out = &view->entry;
    frame(view, VIEW_ENTRY, -1, TONE_PLAIN, "Entry 128 of the log.", "");
    PUT(out->title, "Entry 128: tip cut");
    for (int i = 0; i < 14; i++) {
        PUT(out->fact[out->fact_count++], "Fact %d: value of it", i + 1);
    }
    PUT(out->fact[out->fact_count++], "Confirm id: 0123456789abcdef0123456789abcdef");
    PUT(out->receipt[0].text, "Chart, column 210 g");
    PUT(out->receipt[0].amount, "1 1/2 in");
    PUT(out->receipt[1].text, "Bore 1 1/8 in, chart asks");
    PUT(out->receipt[1].amount, "1 1/8 in");
    out->receipt_count = 2;
    PUT(out->total.text, "Cut off at the tip");
    PUT(out->total.amount, "2 5/8 in");
    for (int i = 0; i < 12; i++) {
        struct view_receipt_line *line = &out->plan[out->plan_count++];
        PUT(line->text, "Number %d of the plan", i + 1);
        PUT(line->amount, "43 %d/16 in", i + 1);
    }
    PUT(out->warning[out->warning_count++], "Weighs like a 3: the chart's column goes by weight.");
    action(view, ACTION_BACK, TONE_PLAIN, "Back", "F3");
}

const struct fixture fixtures[] = {
    {"signed_out", signed_out},
    {"ready", ready},
    {"pair", pair},
    {"care", care},
    {"tip", tip},
    {"tip_worst", tip_worst},
    {"butt", butt},
    {"metric", metric},
    {"dry_fit", dry_fit},
    {"measure", measure},
    {"hold", hold},
    {"wrong", wrong},
    {"logged", logged},
    {"not_logged", not_logged},
    {"pin", pin},
    {"log", cut_log},
    {"entry", entry},
};
const size_t fixture_count = sizeof fixtures / sizeof fixtures[0];

static void stretch(char *text, size_t size) {
    size_t length = strlen(text);
    size_t more = length * 3 / 10;
    for (size_t i = 0; i < more && length + i + 1 < size; i++) {
        // Broken by blanks, as words are.
        text[length + i] = i % 7 == 0 ? ' ' : 'n';
        text[length + i + 1] = '\0';
    }
}
#define STRETCH(text) stretch(text, sizeof(text))

void fixture_stretch(struct view *view) {
    STRETCH(view->title);
    STRETCH(view->subtitle);
    STRETCH(view->band);
    STRETCH(view->band_hint);
    STRETCH(view->care.title);
    STRETCH(view->care.foot);
    STRETCH(view->cut.heading);
    STRETCH(view->cut.keep);
    STRETCH(view->cut.blade);
    STRETCH(view->cut.measure);
    STRETCH(view->cut.next);
    STRETCH(view->number.question);
    STRETCH(view->number.help);
    STRETCH(view->number.result);
    STRETCH(view->notice.title);
    STRETCH(view->notice.foot);
    STRETCH(view->pin_message);
    for (size_t i = 0; i < VIEW_LINES_MAX; i++) {
        STRETCH(view->care.bullet[i]);
        STRETCH(view->cut.receipt[i].text);
        STRETCH(view->cut.warning[i]);
        STRETCH(view->log.detail[i]);
    }
    for (size_t i = 0; i < view->notice.line_count; i++) {
        STRETCH(view->notice.line[i]);
    }
    for (size_t i = 0; i < view->notice.todo_count; i++) {
        STRETCH(view->notice.todo[i]);
    }
    for (size_t i = 0; i < view->action_count; i++) {
        STRETCH(view->action[i].label);
    }
}
