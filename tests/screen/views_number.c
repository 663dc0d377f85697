// Number entry and the PIN.

#include "views.h"

static void field(struct view_number *number, const char *label, const char *text, bool active) {
    struct view_field *to = &number->field[number->field_count++];
    PUT(to->label, label);
    PUT(to->text, text);
    to->active = active;
}

static void number_actions(struct view *view, const char *third) {
    views_action(view, ACTION_PRESS, "Button", "F1", TONE_WORK);
    views_action(view, ACTION_HELD, "Something is wrong", "F2", TONE_STOP);
    views_action(view, ACTION_BACK, third, "F3", TONE_PLAIN);
}

void view_dry_fit(struct view *view) {
    struct view_number *number = &view->number;
    views_base(view, VIEW_NUMBER, 0);
    PUT(number->question, "Dry fit: how long are head and shaft together?");
    PUT(number->help,
        "Push shaft S-1187K home in head H-0472X without glue, sole the head, measure.");
    field(number, "Overall length", "47 1/8", true);
    field(number, "Length of the shaft used", "46", false);
    PUT(number->result, "Bore height 1 1/8 in");
    number->result_tone = TONE_FINE;
    views_band(view, TONE_WORK, true, "Right? Press the button.",
               "Hold 2 seconds: something is wrong");
    number_actions(view, "Back");
}

static void picks(struct view_number *number, length_nm mark, int chosen) {
    for (int i = 0; i < 5; i++) {
        number->pick[i].mark = views_mark(mark + (i - 2) * (LENGTH_INCH / 16));
        number->pick[i].planned = i == 2;
        number->pick[i].chosen = i == chosen;
    }
    number->pick_count = 5;
}

void view_measure(struct view *view) {
    struct view_number *number = &view->number;
    views_base(view, VIEW_NUMBER, 4);
    PUT(number->question, "How long is the cut shaft?");
    PUT(number->help, "Wait for the wheel to stop. Measure S-1187K from tip end to butt end.");
    field(number, "Measured length", "41 1/2", true);
    picks(number, SIXTEENTHS(41, 10), 0);
    PUT(number->result, "1/8 in too short.");
    number->result_tone = TONE_STOP;
    views_band(view, TONE_WORK, true, "Right? Press the button.",
               "Hold 2 seconds: something is wrong");
    number_actions(view, "Start over");
}

void view_number_long(struct view *view) {
    struct view_number *number = &view->number;
    view_measure(view);
    number->field_count = 0;
    PUT(number->question, "How long is the shaft now, tip end to butt end?");
    PUT(number->help, "Wait for the wheel to stop. Measure S-0098765W from tip end to butt end.");
    field(number, "Cut off the tip, all together", "1015 15/16 in 2540.55 mm 99 123", true);
    picks(number, SIXTEENTHS(142, 15), 2);
    PUT(number->error, "\"2540.5.5 mm 1/7\": 1/7 is not a fraction a ruler has. Use halves, "
                       "quarters, eighths, sixteenths, 32nds or 64ths.");
}

void view_dry_fit_long(struct view *view) {
    struct view_number *number = &view->number;
    view_dry_fit(view);
    number->field_count = 0;
    PUT(number->help, "Push shaft S-0098765W home in head H-0012345X without glue, sole the head, "
                      "measure.");
    field(number, "Overall length", "1015 15/16 in 2540.55 mm 99 123", false);
    field(number, "Length of the shaft used", "2540.5 mm", true);
    PUT(number->error, "That makes the bore height 15 59/64 in. It must lie between 0 and 2 in: "
                       "measure again.");
}

static void pin(struct view *view, int digits, const char *message) {
    views_base(view, VIEW_PIN, -1);
    PUT(view->title, "Supervisor: type your PIN");
    PUT(view->subtitle, "Jonas Ekholm");
    view->pin_digits = digits;
    PUT(view->pin_message, message);
    views_band(view, TONE_PLAIN, true, "Type the PIN, then press.", "");
    views_action(view, ACTION_PRESS, "Button", "F1", TONE_WORK);
    views_action(view, ACTION_BACK, "Back", "F3", TONE_PLAIN);
}

void view_pin_typed(struct view *view) {
    pin(view, 4, "The PIN is wrong. Try again.");
}

void view_pin_wait(struct view *view) {
    pin(view, 12, "Maximiliane Oberhuber-Lindqvist has no PIN yet. It is set on the command line.");
    PUT(view->subtitle, "Maximiliane Oberhuber-Lindqvist");
}

void view_lone_measure(struct view *view) {
    view_measure(view);
    PUT(view->band, "Enter 41 5/8 in: hold 2 seconds");
    PUT(view->band_hint, "Press: the next one");
    view->ring = ACTION_PICK;
    view->ring_argument = SIXTEENTHS(41, 10);
}
