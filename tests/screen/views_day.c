// A day of the review.

#include "views.h"

#include <string.h>

static void fact(struct view_day *day, const char *name, const char *value) {
    PUT(day->fact[day->fact_count].name, name);
    PUT(day->fact[day->fact_count].value, value);
    day->fact_count++;
}

static void line(struct view_day *day, const char *words) {
    PUT(day->line[day->line_count], words);
    day->line_count++;
}

static void day_of(struct view *view) {
    struct view_day *day = &view->day;
    views_base(view, VIEW_DAY, -1);
    PUT(view->worker, "Jonas Ekholm");
    PUT(day->title, "The day");
    PUT(day->subtitle, "25 Nov");
    fact(day, "Clubs done", "36");
    fact(day, "Cuts", "74");
    fact(day, "Out of tolerance", "1");
    fact(day, "Stops", "2");
    fact(day, "To be decided, all days", "1");
    fact(day, "Entries of the whole log", "12416");
    fact(day, "Of those, after the last signature", "231");
    views_action(view, ACTION_BACK, "Back", "F3", TONE_PLAIN);
}

static void papers(struct view *view) {
    views_action(view, ACTION_REPORT, "Day report", "F2", TONE_PLAIN);
    views_action(view, ACTION_LEDGER, "Ledger CSV", "F6", TONE_PLAIN);
    views_action(view, ACTION_SIGN, "Sign the day", "F4", TONE_WORK);
    views_action(view, ACTION_SIGN_OUT, "Sign off", "F10", TONE_PLAIN);
}

// Modules as a code of so many would have them, though it says nothing.
static void code(struct view_code *to, int side) {
    uint32_t seed = 20261125;
    to->side = side;
    for (int y = 0; y < side; y++) {
        for (int x = 0; x < side; x++) {
            seed = seed * 1664525u + 1013904223u;
            to->dark[y][x] = seed >> 31 != 0;
        }
    }
    for (int i = 0; i < 3; i++) {
        int left = i == 1 ? side - 7 : 0;
        int top = i == 2 ? side - 7 : 0;
        for (int y = -1; y < 8; y++) {
            for (int x = -1; x < 8; x++) {
                bool inside = x >= 0 && x < 7 && y >= 0 && y < 7;
                bool ring = x == 0 || x == 6 || y == 0 || y == 6;
                bool core = x >= 2 && x <= 4 && y >= 2 && y <= 4;
                if (left + x >= 0 && left + x < side && top + y >= 0 && top + y < side) {
                    to->dark[top + y][left + x] = inside && (ring || core);
                }
            }
        }
    }
}

void view_day_plain(struct view *view) {
    day_of(view);
    papers(view);
    PUT(view->day.verdict, "This day is not signed yet");
    views_band(view, TONE_PLAIN, false, "Back to the list: F3", "");
}

void view_day_ask(struct view *view) {
    day_of(view);
    views_action(view, ACTION_SIGN_CONFIRM, "Sign it", "F4", TONE_FINE);
    view->day.tone = TONE_CAUTION;
    PUT(view->day.verdict, "Sign 25 Nov?");
    line(&view->day,
         "You sign all 12416 entries of the log as they are now. A note of it goes to the "
         "witness.");
    line(&view->day, "Cuts that still wait for a decision: 1.");
    line(&view->day, "The whole log is checked first, which takes a while with a large one.");
    views_band(view, TONE_PLAIN, false, "Sure? Sign it, or go back.", "");
}

void view_day_check(struct view *view) {
    day_of(view);
    PUT(view->day.fact[5].value, "10000000");
    view->action_count = 0;
    views_action(view, ACTION_PRESS, "Button", "F1", TONE_WORK);
    views_action(view, ACTION_BACK, "Stop", "F3", TONE_PLAIN);
    view->day.tone = TONE_WORK;
    PUT(view->day.verdict, "Checking the log: 3.1 of 10 million entries");
    line(&view->day, "It is signed when all is whole. Nothing is signed yet.");
    views_band(view, TONE_WORK, true, "Press to stop the check. Nothing is signed then.", "");
}

void view_day_signed(struct view *view) {
    day_of(view);
    papers(view);
    view->day.tone = TONE_FINE;
    PUT(view->day.verdict, "Signed by W-0001B, 25 Nov 17:02");
    line(&view->day, "The code is the signed note. Scanned into a file, it is a witness too.");
    PUT(view->day.brief, "2026-11-25 12417 9F86-D081-884C-7D65");
    PUT(view->day.note, "kerfside/");
    code(&view->day.code, 69);
    views_band(view, TONE_PLAIN, false, "Signed: in the log and in the witness.", "");
}

void view_day_refused(struct view *view) {
    day_of(view);
    papers(view);
    view->day.tone = TONE_STOP;
    PUT(view->day.verdict, "This day is not signed yet");
    line(&view->day,
         "Could not read the witness /media/kerfside/kerfside-77c4b441.witness: No such "
         "file or directory. Is its stick plugged in?");
    views_band(view, TONE_PLAIN, false, "Not signed.", "");
}

void view_day_longest(struct view *view) {
    char words[VIEW_LONG_MAX];
    day_of(view);
    papers(view);
    for (size_t i = 0; i < sizeof words; i++) {
        words[i] = i % 9 == 8 ? ' ' : 'n';
    }
    words[sizeof words - 1] = '\0';
    view->day.tone = TONE_CAUTION;
    PUT(view->day.verdict, "Signed by W-ABCDEFGHIJK9, 25 Nov 17:02");
    line(&view->day, words);
    line(&view->day, "The code is the signed note. Scanned into a file, it is a witness too.");
    PUT(view->day.brief, "2026-11-25 999999999999999999 9F86-D081-884C-7D65");
    PUT(view->day.note, "kerfside/");
    code(&view->day.code, VIEW_CODE_MAX);
    views_band(view, TONE_PLAIN, false, "Signed in the log, but the witness does not have it.", "");
}
