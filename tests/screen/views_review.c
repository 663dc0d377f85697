// The log and one entry of it.

#include "views.h"

#include <stdio.h>

static void row(struct view_log *log, const char *const cells[7], enum view_tone tone) {
    struct view_log_row *to = &log->row[log->row_count++];
    to->seq = 12300 + (int64_t)log->row_count;
    to->tone = tone;
    PUT(to->time, cells[0]);
    PUT(to->build, cells[1]);
    PUT(to->shaft, cells[2]);
    PUT(to->cut, cells[3]);
    PUT(to->plan, cells[4]);
    PUT(to->made, cells[5]);
    PUT(to->verdict, cells[6]);
}

static void detail(struct view_log *log, const char *text) {
    PUT(log->detail[log->detail_count], text);
    log->detail_count++;
}

static void toolbar(struct view *view) {
    views_action(view, ACTION_BACK, "Close the log", "F3", TONE_PLAIN);
    views_action(view, ACTION_OLDER, "Older", "PgDn", TONE_PLAIN);
    views_action(view, ACTION_NEWER, "Newer", "PgUp", TONE_PLAIN);
    views_action(view, ACTION_DAY_BACK, "Day before", "F5", TONE_PLAIN);
    views_action(view, ACTION_DAY_ON, "Day after", "F6", TONE_PLAIN);
    views_action(view, ACTION_FILTER_BUILD, "This build", "F7", TONE_PLAIN);
    views_action(view, ACTION_FILTER, "Filter", "F8", TONE_WORK);
    views_action(view, ACTION_FILTER_OPEN, "Open only", "F11", TONE_PLAIN);
    views_action(view, ACTION_FILTER_CLEAR, "Clear filters", "Del", TONE_PLAIN);
    views_action(view, ACTION_OPEN_ENTRY, "Open entry", "F12", TONE_PLAIN);
    views_action(view, ACTION_LIFE, "Its log", "F9", TONE_PLAIN);
    views_action(view, ACTION_SET, "The set", "Ins", TONE_PLAIN);
    views_action(view, ACTION_TICKETS, "Tickets", "", TONE_PLAIN);
    views_action(view, ACTION_DAY, "The day", "End", TONE_PLAIN);
    views_action(view, ACTION_STATS, "Charts", "Home", TONE_PLAIN);
    views_action(view, ACTION_EXPORT, "Export CSV", "F2", TONE_PLAIN);
    views_action(view, ACTION_SIGN_OUT, "Sign off", "F10", TONE_PLAIN);
}

static void decisions(struct view *view, bool typing) {
    views_action(view, ACTION_DECIDE_USE, "Use as it is", typing ? "" : "1", TONE_FINE);
    views_action(view, ACTION_DECIDE_RECUT, "Recut on a new shaft", typing ? "" : "2", TONE_WORK);
    views_action(view, ACTION_DECIDE_SCRAP, "Scrap", typing ? "" : "3", TONE_STOP);
    views_action(view, ACTION_NOTE, typing ? "Note done" : "Type a note", "F4", TONE_PLAIN);
}

static void fill(struct view *view) {
    static const char *const rows[][7] = {
        {"11:07", "2043-1", "S-1191J", "butt", "37 5/8", "37 5/8", "in"},
        {"11:05", "2043-1", "S-1191J", "tip", "1", "1", "in"},
        {"11:02", "2043-1", "S-1190M", "stop", "", "", "wrong pair"},
        {"10:53", "2041-3", "S-1188H", "measure", "42 1/4", "42 1/8", "short"},
        {"10:52", "2041-3", "S-1188H", "butt", "42 1/4", "42 1/4", ""},
        {"10:51", "2041-3", "S-1188H", "tip", "2 1/8", "2 1/8", "in"},
        {"10:44", "2041-2", "S-1187K", "butt", "42 3/4", "42 3/4", "in"},
        {"10:42", "2041-2", "S-1187K", "tip", "2 5/8", "2 5/8", "in"},
        {"10:31", "2041-1", "S-1186N", "measure", "43 7/16", "43 7/16", "in"},
        {"10:30", "2041-1", "S-1186N", "butt", "43 7/16", "43 7/16", ""},
        {"10:27", "2041-1", "S-1186N", "tip", "3/4", "3/4", "in"}};
    views_base(view, VIEW_LOG, -1);
    PUT(view->worker, "Jonas Ekholm");
    PUT(view->log.title, "Cut log");
    PUT(view->log.subtitle, "25 Nov · 74 cuts · 1 out of tolerance · 2 stops");
    PUT(view->log.filters, "All entries");
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        row(&view->log, rows[i], i == 2 ? TONE_CAUTION : i == 3 ? TONE_STOP : TONE_PLAIN);
    }
}

static void select_short(struct view *view) {
    struct view_log *log = &view->log;
    log->selected = 3;
    PUT(log->detail_title, "S-1188H measured, short");
    detail(log, "Plan 42 1/4 in, made 42 1/8 in");
    detail(log, "Tolerance 1/16 in");
    detail(log, "Ida Brandt, Bench 2, 10:53");
    detail(log, "Playing length becomes 43 3/8 in");
    views_band(view, TONE_CAUTION, false, "This cut waits for a decision.", "");
}

void view_log_open(struct view *view) {
    fill(view);
    select_short(view);
    decisions(view, false);
    toolbar(view);
}

void view_log_noting(struct view *view) {
    fill(view);
    view->log.selected = 5;
    PUT(view->log.detail_title, "S-1188H tip cut, in");
    detail(&view->log, "Plan 2 1/8 in, made 2 1/8 in");
    detail(&view->log, "Tolerance 1/16 in");
    detail(&view->log, "Ida Brandt, Bench 2, 10:51");
    PUT(view->log.note, "Edge was burred, wheel dressed.");
    views_band(view, TONE_WORK, true, "Press to save the note with entry 12306.", "");
    views_action(view, ACTION_PRESS, "Press", "F1", TONE_WORK);
    views_action(view, ACTION_NOTE, "Type a note", "F4", TONE_PLAIN);
    toolbar(view);
}

void view_log_note(struct view *view) {
    fill(view);
    select_short(view);
    PUT(view->log.note, "Customer was asked and takes it an eighth shorter; grip goes on one wrap "
                        "further down so that the swingweight holds.");
    view->log.note_active = true;
    decisions(view, true);
    toolbar(view);
}

void view_log_spare(struct view *view) {
    fill(view);
    select_short(view);
    views_band(view, TONE_PLAIN, false, "Choose the shaft for the recut.", "");
    for (int i = 0; i < 12; i++) {
        char ticket[16];
        const char key[2] = {i < 9 ? (char)('1' + i) : '\0', '\0'};
        snprintf(ticket, sizeof ticket, "S-00%d7K", 1200 + i);
        views_action(view, ACTION_SPARE, ticket, key, TONE_PLAIN);
        view->action[view->action_count - 1].argument = i;
    }
    views_action(view, ACTION_BACK, "Back", "F3", TONE_PLAIN);
}

static void filter_choices(struct view *view, enum view_action_id id, const char *const *labels,
                           int count) {
    PUT(view->log.detail_title, "Show only");
    detail(&view->log, "A scanned or typed ticket shows the whole life of its part or build.");
    detail(&view->log, "Days may be typed too: 2026-03-31, or 2026-03-01/2026-03-31.");
    views_band(view, TONE_PLAIN, false, "Show what? Choose, or go back to the list: F3", "");
    for (int i = 0; i < count; i++) {
        const char key[2] = {i < 9 ? (char)('1' + i) : '\0', '\0'};
        views_action(view, id, labels[i], key, TONE_PLAIN);
        view->action[view->action_count - 1].argument = i;
    }
    views_action(view, ACTION_BACK, "Back", "F3", TONE_PLAIN);
    views_action(view, ACTION_FILTER_OPEN, "Open only", "F11", TONE_PLAIN);
    views_action(view, ACTION_FILTER_CLEAR, "Clear filters", "Del", TONE_PLAIN);
}

void view_log_filters(struct view *view) {
    static const char *const labels[] = {"Days: 1 Nov to 25 Nov", "Worker: W-0014G",
                                         "Bench: Bench 2", "Material: graphite", "Verdict: short"};
    fill(view);
    PUT(view->log.subtitle, "1 Nov to 25 Nov");
    PUT(view->log.filters, "Worker W-0014G · Bench 2 · graphite · Verdict short");
    filter_choices(view, ACTION_FILTER_PICK, labels, 5);
}

void view_log_days(struct view *view) {
    static const char *const labels[] = {"Today",         "Last 7 days",   "Last 30 days",
                                         "Last 365 days", "Every day",     "First day back",
                                         "First day on",  "Last day back", "Last day on"};
    fill(view);
    PUT(view->log.subtitle, "1 Nov to 25 Nov");
    filter_choices(view, ACTION_FILTER_VALUE, labels, 9);
}

void view_log_empty(struct view *view) {
    fill(view);
    view->log.row_count = 0;
    PUT(view->log.subtitle, "24 Nov");
    views_band(view, TONE_PLAIN, false, "No entries here.", "");
    toolbar(view);
}

void view_log_long(struct view *view) {
    static const char *const cells[7] = {"10:53:07",       "2024-118-R-10", "S-0098765W",
                                         "tip partly cut", "42 63/64 in",   "42 61/64 in",
                                         "wrong pair"};
    struct view_log *log = &view->log;
    fill(view);
    log->row_count = 0;
    for (int i = 0; i < VIEW_ROWS_MAX; i++) {
        row(log, cells, (enum view_tone)(i % 5));
    }
    PUT(view->worker, "Maximiliane Oberhuber-Lindqvist");
    PUT(log->subtitle, "25 Nov · 1074 cuts · 121 out of tolerance · 202 stops");
    PUT(log->filters, "Build 2024-118-R · Worker W-00143 · Verdict short · Waiting for a decision");
    log->selected = 5;
    PUT(log->detail_title, "S-0098765W tip partly cut, 2024-118-R");
    detail(log, "Plan 42 63/64 in, made 42 61/64 in");
    detail(log, "Tolerance 1/16 in");
    detail(log, "Maximiliane Oberhuber-Lindqvist, Bench by the north window, 10:53");
    detail(log, "Playing length becomes 44 63/64 in");
    detail(log, "Why: Measured 42 61/64 in, the mark is 42 63/64 in.");
    detail(log, "Note: Customer was asked and takes it an eighth shorter; grip goes on one wrap "
                "further down so that the swingweight holds.");
    detail(log, "About entry 10012398");
    views_band(view, TONE_PLAIN, false,
               "Written to /var/lib/kerfside/export/kerfside-log-2024-11-25-105307.csv", "");
    decisions(view, false);
    toolbar(view);
}

static void fact(struct view_entry *entry, const char *text) {
    PUT(entry->fact[entry->fact_count], text);
    entry->fact_count++;
}

static void receipt(struct view_entry *entry, const char *text, const char *amount) {
    struct view_receipt_line *line = &entry->receipt[entry->receipt_count++];
    PUT(line->text, text);
    PUT(line->amount, amount);
}

static void plan(struct view_entry *entry, const char *text, const char *amount) {
    struct view_receipt_line *line = &entry->plan[entry->plan_count++];
    PUT(line->text, text);
    PUT(line->amount, amount);
}

static void plan_rest(struct view_entry *entry) {
    plan(entry, "Butt mark, from the new tip", "41 5/8 in");
    plan(entry, "Finished length, exact", "41 5/8 in");
    plan(entry, "Playing length", "43 in");
    plan(entry, "Grip cap", "1/4 in");
    plan(entry, "Raw length", "46 in");
    plan(entry, "Head weight", "210 g");
    plan(entry, "Sole says", "1");
    plan(entry, "Bore height", "1 1/8 in");
    plan(entry, "Marks to the nearest", "1/16 in");
    plan(entry, "Tolerance", "1/16 in");
    plan(entry, "Shaft", "Larch 65");
    plan(entry, "Flex", "firm");
}

static void fill_entry(struct view *view, const char *title) {
    views_base(view, VIEW_ENTRY, -1);
    PUT(view->worker, "Jonas Ekholm");
    PUT(view->entry.title, title);
    views_band(view, TONE_PLAIN, false, "Back to the list: F3", "");
    views_action(view, ACTION_BACK, "Back", "F3", TONE_PLAIN);
}

void view_entry_tip(struct view *view) {
    static const char *const facts[] = {
        "Time: 25 Nov 10:42", "Bench: Bench 2",    "Worker: W-0014G",
        "Build: 2041",        "Club: 2",           "Head: H-0472X",
        "Shaft: S-1187K",     "Plan: 2 5/8 in",    "Made: 2 5/8 in",
        "Attempt: 1",         "Chart revision: 3", "Confirm id: 5f1c09a7be22d4e8"};
    struct view_entry *entry = &view->entry;
    fill_entry(view, "Entry 12308: tip cut");
    for (size_t i = 0; i < sizeof facts / sizeof facts[0]; i++) {
        fact(entry, facts[i]);
    }
    receipt(entry, "Chart, column 3 (210 g)", "1 1/2 in");
    receipt(entry, "Bore 1 1/8 in, chart asks for all of it", "1 1/8 in");
    views_action(view, ACTION_SHOWN, "As it was shown", "F12", TONE_PLAIN);
    PUT(entry->total.text, "Cut off at the tip");
    PUT(entry->total.amount, "2 5/8 in");
    plan_rest(entry);
    PUT(entry->estimate[0], "Estimate: swingweight about D1.8 for D2, about 254.1 cpm");
    PUT(entry->estimate[1], "As cut: about 1.1 cpm stiffer (estimate)");
    entry->estimate_count = 2;
    PUT(entry->warning[0],
        "Engraved 1, but at 210 g it weighs like column 3 (210 g). The chart goes by weight.");
    entry->warning_count = 1;
    PUT(entry->said[0], "25 Nov 11:20 W-0003K, note: Edge was burred, wheel dressed.");
    entry->said_count = 1;
}

void view_entry_long(struct view *view) {
    struct view_entry *entry = &view->entry;
    fill_entry(view, "Entry 10012398: care list confirmed");
    for (int i = 0; i < 14; i++) {
        fact(entry, "Bench: Bench by the north window");
    }
    PUT(entry->said[0], "1000 more entries before these.");
    for (int i = 1; i <= VIEW_SAID_MAX; i++) {
        PUT(entry->said[i],
            "25 Nov 11:20 W-0003K, decision recut: S-0120K Customer was asked and takes it an "
            "eighth shorter; grip goes on one wrap further down so that the swingweight holds, as "
            "somebody careful writes. More.");
    }
    entry->said_count = VIEW_SAID_MAX + 1;
    fact(entry, "Note: Customer was asked and takes it an eighth shorter; grip goes on one wrap "
                "further down so that the swingweight holds.");
    fact(entry, "Why: Measured 42 61/64 in, the mark is 42 63/64 in, 1/32 in short of it.");
    for (int i = 0; i < 5; i++) {
        receipt(entry, "Bore 1 59/64 in, chart is written for 1 17/32 in", "+1 59/64 in");
        PUT(entry->warning[i],
            "The length of the parallel tip is not known. Check that it still fills the hosel.");
    }
    plan_rest(entry);
    entry->warning_count = 4;
    PUT(entry->total.text, "Cut off at the tip");
    PUT(entry->total.amount, "42 63/64 in");
}
