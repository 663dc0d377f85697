// The cut views.

#include "views.h"

static void receipt(struct view_cut *cut, const char *text, const char *amount) {
    struct view_receipt_line *line = &cut->receipt[cut->receipt_count++];
    PUT(line->text, text);
    PUT(line->amount, amount);
}

static void estimate(struct view_cut *cut, const char *text) {
    PUT(cut->estimate[cut->estimate_count], text);
    cut->estimate_count++;
}

static void warning(struct view_cut *cut, const char *text) {
    PUT(cut->warning[cut->warning_count], text);
    cut->warning_count++;
}

static void fill(struct view *view, bool butt) {
    struct view_cut *cut = &view->cut;
    views_base(view, VIEW_CUT, butt ? 3 : 2);
    cut->butt = butt;
    PUT(cut->waste, "waste");
    PUT(cut->keep, "keep this side");
    PUT(cut->blade, "blade on the waste side of the mark");
    PUT(cut->build, "Build 2041 · club 2 of 9");
    PUT(cut->head, "Head H-0472X · 210 g · sole says 1");
    PUT(cut->shaft, "Shaft S-1187K · graphite · firm");
    views_band(view, TONE_WORK, true, "Cut made? Press the button.",
               "Hold 2 seconds: something is wrong");
    views_action(view, ACTION_PRESS, "Button", "F1", TONE_WORK);
    views_action(view, ACTION_HELD, "Something is wrong", "F2", TONE_STOP);
    views_action(view, ACTION_START_OVER, "Start over", "F3", TONE_PLAIN);
    if (butt) {
        views_action(view, ACTION_DRY_FIT, "Dry fit again", "F4", TONE_PLAIN);
    }
}

// In the review, years later.
void view_shown_again(struct view *view) {
    view_tip(view);
    view->body = VIEW_SHOWN;
    view->step = -1;
    view->action_count = 0;
    PUT(view->worker, "Jonas Ekholm");
    PUT(view->title, "As it was shown: entry 12308, 25 Nov 10:42");
    views_band(view, TONE_CAUTION, false, "Not for cutting. Back to the entry: F3", "");
    views_action(view, ACTION_BACK, "Back", "F3", TONE_PLAIN);
}

// Bore 1 1/8 on a chart that asks for it: 1 1/2 + 1 1/8 = 2 5/8.
void view_tip(struct view *view) {
    struct view_cut *cut = &view->cut;
    fill(view, false);
    cut->mark = views_mark(SIXTEENTHS(2, 10));
    cut->piece = SIXTEENTHS(46, 0);
    PUT(cut->heading, "Tip end · cut off");
    PUT(cut->measure, "Measure from the tip. Mark, then cut.");
    PUT(cut->why, "Why 2 5/8");
    receipt(cut, "Chart, column 3 (210 g)", "1 1/2");
    receipt(cut, "Bore 1 1/8 in, chart asks for all of it", "+1 1/8");
    PUT(cut->total.text, "Cut off at the tip");
    PUT(cut->total.amount, "2 5/8");
    estimate(cut, "Estimate: swingweight about D1.8 for D2, about 254.1 cpm");
    estimate(cut, "Without the bore height: about 4.2 cpm softer (estimate)");
    warning(cut,
            "Engraved 1, but at 210 g it weighs like column 3 (210 g). The chart goes by weight.");
    PUT(cut->next, "Next: butt cut at 41 5/8 in");
}

// 43 - 1 1/8 - 1/4 = 41 5/8.
void view_butt(struct view *view) {
    struct view_cut *cut = &view->cut;
    fill(view, true);
    cut->mark = views_mark(SIXTEENTHS(41, 10));
    cut->piece = SIXTEENTHS(43, 6);
    PUT(cut->heading, "Butt end · keep");
    PUT(cut->measure, "Measure from the new tip end. Mark, then cut.");
    PUT(cut->why, "Why 41 5/8");
    receipt(cut, "Playing length", "43");
    receipt(cut, "Bore height", "-1 1/8");
    receipt(cut, "Grip cap", "-1/4");
    PUT(cut->total.text, "Keep, from the tip end");
    PUT(cut->total.amount, "41 5/8");
    estimate(cut, "Estimate: swingweight about D1.8 for D2, about 254.1 cpm");
    PUT(cut->next, "Next: measure the shaft");
}

void view_tip_right_mm(struct view *view) {
    struct view_cut *cut = &view->cut;
    view_tip(view);
    cut->tip_right = true;
    cut->mark = views_mark_mm(66700000);
    cut->warning_count = 0;
    PUT(cut->why, "Why 66.7");
    cut->receipt_count = 0;
    receipt(cut, "Chart, column 3 (210 g)", "38.1");
    receipt(cut, "Bore 28.6 mm, chart asks for all of it", "+28.6");
    PUT(cut->total.amount, "66.7");
    PUT(cut->next, "Next: butt cut at 1057.3 mm");
}

void view_cut_long(struct view *view) {
    struct view_cut *cut = &view->cut;
    fill(view, true);
    PUT(view->worker, "Maximiliane Oberhuber-Lindqvist");
    PUT(view->typed, "S-0098765W");
    PUT(view->bench, "Bench by the north window");
    view->status[0].health = HEALTH_BAD;
    view->status[2].health = HEALTH_WARN;
    cut->mark = views_mark(SIXTEENTHS(42, 0) + 63 * LENGTH_64TH);
    cut->piece = SIXTEENTHS(45, 15);
    PUT(cut->heading, "Tip end · still to cut off");
    PUT(cut->measure, "Measure from the new tip end. Mark, then cut.");
    PUT(cut->build, "Build 2024-118-R · club 10 of 14");
    PUT(cut->head, "Head H-0012345X · 1203.5 g · sole says 12 1/2");
    PUT(cut->shaft, "Shaft S-0098765W · graphite · firm-plus");
    PUT(cut->why, "Why 42 63/64");
    receipt(cut, "Chart, column fairway 7 (1203.5 g), picked by a supervisor", "1 59/64");
    receipt(cut, "Soft-step 2, column fairway 9 (1210.5 g)", "-1/2");
    receipt(cut, "Bore 1 59/64 in, chart is written for 1 17/32 in", "+25/64");
    receipt(cut, "Uniform flex, the chart's bore note already does it", "");
    receipt(cut, "To the nearest mark, from 42 61/64 in", "+1/32");
    PUT(cut->total.text, "Keep, from the tip end");
    PUT(cut->total.amount, "42 63/64");
    warning(cut, "You said it is cut already. Measure once more, then press. Do not cut twice.");
    warning(cut, "Engraved 12 1/2, but at 1203.5 g it weighs like column fairway 7 (1203.5 g). The "
                 "chart goes by weight.");
    warning(cut,
            "The length of the parallel tip is not known. Check that it still fills the hosel.");
    warning(cut, "Playing length 48 1/2 in is over 48 in: not conforming.");
    PUT(cut->next, "Next: measure the shaft");
    PUT(view->band, "Already cut? Press the button.");
}

void view_cut_estimates(struct view *view) {
    struct view_cut *cut = &view->cut;
    view_cut_long(view);
    cut->warning_count = 1;
    estimate(cut, "Estimate: swingweight about D11.8 for D2.5, about 254.1 cpm");
    estimate(cut, "Without the bore height: about 14.2 cpm softer (estimate)");
}
