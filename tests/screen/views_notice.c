// Panels: holds, the choice after a long press, logged, not logged.

#include "station.h"
#include "views.h"

static void line(struct view *view, const char *text) {
    PUT(view->notice.line[view->notice.line_count], text);
    view->notice.line_count++;
}

static void todo(struct view *view, const char *text) {
    PUT(view->notice.todo_title, "What to do");
    PUT(view->notice.todo[view->notice.todo_count], text);
    view->notice.todo_count++;
}

static void fill(struct view *view, enum view_tone tone, int step, const char *title) {
    views_base(view, VIEW_NOTICE, step);
    view->notice.tone = tone;
    PUT(view->notice.title, title);
}

void view_hold_pair(struct view *view) {
    fill(view, TONE_STOP, 0, "Do not cut: these two do not belong together");
    line(view, "Head H-0472X is for build 2041, club 2.");
    line(view, "Shaft S-1190M is for build 2043, club 5.");
    todo(view, "Put shaft S-1190M back.");
    todo(view, "Scan shaft S-1187K, rack B 6.");
    PUT(view->notice.foot, "This stop is in the log.");
    views_band(view, TONE_STOP, true, "Scan the right part, or press to start over.",
               "Hold 2 seconds: call the supervisor");
    views_action(view, ACTION_PRESS, "Button", "F1", TONE_WORK);
    views_action(view, ACTION_HELD, "Call supervisor", "F2", TONE_STOP);
    views_action(view, ACTION_START_OVER, "Start over", "F3", TONE_PLAIN);
}

void view_hold_long(struct view *view) {
    fill(view, TONE_STOP, 3, "Do not cut: the plan for this club needs a supervisor's agreement");
    line(view, "At 1203.5 g the head lies beyond the chart's end column fairway 7 (1203.5 g). A "
               "supervisor must pick a column.");
    line(view, "Build 2024-118-R, club 10 waits for a supervisor's decision.");
    line(view, "Measured 42 61/64 in, the mark is 42 63/64 in. 1/32 in short.");
    line(view, "The playing length becomes 44 63/64 in.");
    todo(view, "Lay the shaft aside with its head.");
    todo(view, "Check the ticket. If it is new, have the part entered first.");
    todo(view, "Supervisor: scan your badge, open the log, decide.");
    todo(view, "Finish this club first, or start over and come back to it.");
    todo(view, "Or a supervisor agrees here: touch Supervisor.");
    PUT(view->notice.foot, "The disk did not take this stop: it is NOT in the log.");
    PUT(view->typed, "S-0098765W");
    views_band(view, TONE_STOP, true, "Scan the right part, or press to start over.",
               "Hold 2 seconds: call the supervisor");
    views_action(view, ACTION_PRESS, "Button", "F1", TONE_WORK);
    views_action(view, ACTION_CONSENT, "Supervisor", "F4", TONE_CAUTION);
    views_action(view, ACTION_WRONG_MISCUT, "Measured wrong", "1", TONE_PLAIN);
    views_action(view, ACTION_HELD, "Call supervisor", "F2", TONE_STOP);
    views_action(view, ACTION_START_OVER, "Start over", "F3", TONE_PLAIN);
}

void view_wrong(struct view *view) {
    fill(view, TONE_CAUTION, 3, "What is wrong?");
    line(view, "Nothing is logged until you choose.");
    todo(view, "Stop the wheel.");
    todo(view, "Choose below what is wrong.");
    views_band(view, TONE_CAUTION, true, "Choose, or press to go back.", "");
    views_action(view, ACTION_PRESS, "Button", "F1", TONE_WORK);
    views_action(view, ACTION_WRONG_MISCUT, "Tip is cut off the mark", "1", TONE_PLAIN);
    views_action(view, ACTION_WRONG_TOO_EARLY, "Pressed too early: tip not cut", "2", TONE_PLAIN);
    views_action(view, ACTION_WRONG_NOT_SAFE, "Not safe", "3", TONE_STOP);
    views_action(view, ACTION_WRONG_PARTS, "Wrong parts", "4", TONE_CAUTION);
    views_action(view, ACTION_DRY_FIT, "Dry fit again", "5", TONE_PLAIN);
    views_action(view, ACTION_WRONG_SUPERVISOR, "Call supervisor", "6", TONE_CAUTION);
    views_action(view, ACTION_BACK, "Back", "F3", TONE_PLAIN);
}

void view_resume_tip(struct view *view) {
    fill(view, TONE_CAUTION, 1, "Was shaft S-1187K cut?");
    line(view, "This mark was already on the screen. Measure the shaft before you cut.");
    line(view, "Tip not cut it is 46 in long; cut it is 43 3/8 in.");
    views_band(view, TONE_CAUTION, false, "Measure the shaft, then choose.",
               "Hold 2 seconds: something is wrong");
    views_action(view, ACTION_RESUME_NOT_CUT, "Not cut yet", "1", TONE_WORK);
    views_action(view, ACTION_RESUME_CUT, "Cut at the mark", "2", TONE_FINE);
    views_action(view, ACTION_RESUME_OTHER, "Cut somewhere else", "3", TONE_CAUTION);
    views_action(view, ACTION_HELD, "Something is wrong", "F2", TONE_STOP);
    views_action(view, ACTION_START_OVER, "Start over", "F3", TONE_PLAIN);
}

void view_logged_club(struct view *view) {
    fill(view, TONE_FINE, 5, "Logged: build 2041, club 2");
    line(view, "Tip cut off 2 5/8 in");
    line(view, "Butt mark 41 5/8 in");
    line(view, "Measured 41 5/8 in, within tolerance");
    line(view, "Next club: build 2041, 3 of 9, head H-0473V and shaft S-1188H.");
    todo(view, "Write the club on the shaft and put it with its head.");
    views_band(view, TONE_FINE, true, "Scan the next part, or press.",
               "Hold 2 seconds: something is wrong");
    views_action(view, ACTION_PRESS, "Button", "F1", TONE_WORK);
    views_action(view, ACTION_HELD, "Something is wrong", "F2", TONE_STOP);
}

void view_not_logged(struct view *view) {
    fill(view, TONE_STOP, 2, "NOT LOGGED");
    view->status[2].health = HEALTH_BAD;
    line(view, "The disk does not take the entry. It is tried again every 2 seconds.");
    todo(view, "Write it down: tip cut of shaft S-1187K, build 2041 club 2");
    todo(view, "Start no other cut. Leave the bench running.");
    todo(view, "Call the supervisor if it lasts more than a minute.");
    view->notice.has_mark = true;
    PUT(view->notice.mark_label, "Cut off the tip");
    view->notice.mark = views_mark(SIXTEENTHS(2, 10));
    views_band(view, TONE_STOP, false, "NOT LOGGED. Write it down and wait.", "");
}

void view_safe(struct view *view) {
    station_safe("Bench 2", 3, STATION_END_SIGNAL, "SEGV", view);
}

void view_consent_column(struct view *view) {
    static const char *const columns[] = {"Column driver · 200 g",    "Column 3 · 210 g",
                                          "Column 5 · 220 g",         "Column 7 · 230 g",
                                          "Column hybrid 2 · 233 g",  "Column hybrid 3 · 237.5 g",
                                          "Column hybrid 4 · 241 g",  "Column hybrid 5 · 248 g",
                                          "Column fairway 9 · 240 g", "Column fairway 11 · 250 g"};
    fill(view, TONE_CAUTION, -1, "Jonas Ekholm: what do you agree to?");
    line(view, "At 262 g the head lies beyond the chart's end column fairway 11 (250 g). A "
               "supervisor must pick a column.");
    line(view, "What you choose goes into the log with your name.");
    views_band(view, TONE_CAUTION, false, "Supervisor: choose.", "");
    for (int i = 0; i < 10; i++) {
        const char key[2] = {i < 9 ? (char)('1' + i) : '\0', '\0'};
        views_action(view, ACTION_ROW, columns[i], key, TONE_CAUTION);
        view->action[view->action_count - 1].argument = i;
    }
    views_action(view, ACTION_BACK, "Back", "F3", TONE_PLAIN);
}
