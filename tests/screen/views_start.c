// Signed out, ready, pair, care.

#include "views.h"

#include <stdio.h>

static void queue_row(struct view *view, const char *build, const char *club, const char *head,
                      const char *shaft, const char *due) {
    struct view_queue_row *row = &view->queue[view->queue_count++];
    PUT(row->build, build);
    PUT(row->club, club);
    PUT(row->head, head);
    PUT(row->shaft, shaft);
    PUT(row->due, due);
}

static void fill_message(struct view *view) {
    views_base(view, VIEW_MESSAGE, -1);
    queue_row(view, "2041", "2 of 9", "H-0472X", "S-1187K", "today");
    queue_row(view, "2041", "3 of 9", "H-0473V", "S-1188H", "today");
    queue_row(view, "2043", "1 of 7", "H-0480Q", "S-1190M", "today");
    queue_row(view, "2046", "1 of 1", "H-0491T", "S-1203P", "27 Nov");
    view->has_today = true;
    view->today = (struct view_today){.clubs = 37, .cuts = 74, .out = 1, .holds = 2};
}

void view_signed_out(struct view *view) {
    fill_message(view);
    PUT(view->worker, "Nobody signed on");
    PUT(view->title, "Scan your badge");
    PUT(view->subtitle, "The bench starts when somebody is signed on.");
    views_band(view, TONE_PLAIN, false, "Scan your badge to start.", "");
    views_action(view, ACTION_HELD, "Call supervisor", "F2", TONE_STOP);
}

static void ready_actions(struct view *view) {
    views_action(view, ACTION_HELD, "Something is wrong", "F2", TONE_STOP);
    views_action(view, ACTION_DESK, "Desk", "F5", TONE_PLAIN);
    views_action(view, ACTION_REVIEW, "Cut log", "F6", TONE_PLAIN);
    views_action(view, ACTION_CHECK, "Scanner check", "F7", TONE_PLAIN);
    views_action(view, ACTION_SELFCHECK, "Self-check", "F8", TONE_PLAIN);
    views_action(view, ACTION_SIGN_OUT, "Sign off", "F10", TONE_PLAIN);
}

void view_ready(struct view *view) {
    fill_message(view);
    PUT(view->title, "Scan a head or a shaft");
    PUT(view->subtitle, "Either one first.");
    views_band(view, TONE_PLAIN, false, "Half-cut shafts waiting: S-1179C (butt cut next)",
               "Supervisor: scan badge");
    PUT(view->waits, "9 clubs wait: about 1 h 20 min at this bench's pace");
    ready_actions(view);
}

void view_ready_long(struct view *view) {
    fill_message(view);
    view->queue_count = 0;
    for (int i = 0; i < VIEW_ROWS_MAX; i++) {
        queue_row(view, "2024-118-R", "club 10 of 14", "H-0012345X", "S-0098765W", "late");
        PUT(view->queue[i].next, "butt cut next");
    }
    PUT(view->waits, "1287 clubs wait: about 193 h 10 min at this bench's pace");
    PUT(view->bench, "Bench by the north window");
    PUT(view->worker, "Maximiliane Oberhuber-Lindqvist");
    view->today = (struct view_today){.clubs = 1037, .cuts = 2074, .out = 121, .holds = 202};
    PUT(view->title, "Scan a head or a shaft");
    PUT(view->subtitle, "Either one first.");
    PUT(view->typed, "S-0098765W");
    views_band(view, TONE_PLAIN, false,
               "Half-cut shafts waiting: S-0098765W (butt cut next), S-0098766V (tip cut next), "
               "S-0098767T (measure next)",
               "Supervisor: scan badge");
    ready_actions(view);
}

static void card(struct view_card *to, bool filled, const char *title, const char *const *lines,
                 size_t count) {
    to->filled = filled;
    PUT(to->title, title);
    for (size_t i = 0; i < count; i++) {
        PUT(to->line[i], lines[i]);
    }
    to->line_count = count;
}

static void pair_actions(struct view *view) {
    views_action(view, ACTION_HELD, "Something is wrong", "F2", TONE_STOP);
    views_action(view, ACTION_START_OVER, "Start over", "F3", TONE_PLAIN);
}

void view_pair_shaft(struct view *view) {
    static const char *const head[] = {"Tarn 2 fairway", "210 g, sole says 1",
                                       "Bore height 1 1/8 in"};
    static const char *const shaft[] = {"Larch 65, flex firm", "Rack B 6"};
    views_base(view, VIEW_PAIR, 0);
    PUT(view->title, "Now scan the shaft");
    PUT(view->subtitle, "Build 2041 · club 2 of 9");
    card(&view->card[0], true, "Head H-0472X", head, 3);
    card(&view->card[1], false, "Scan shaft S-1187K", shaft, 2);
    views_band(view, TONE_WORK, false, "Scan shaft S-1187K.", "Hold 2 seconds: something is wrong");
    pair_actions(view);
}

void view_pair_long(struct view *view) {
    static const char *const head[] = {"Tarn 2 tour fairway with adjustable sleeve, left hand",
                                       "1203.5 g, sole says 12 1/2",
                                       "Bore height 1 59/64 in",
                                       "Insertion depth 1 17/32 in",
                                       "Hosel bore 0.350 in",
                                       "Dry-fitted at another bench on 25 Nov"};
    static const char *const shaft[] = {
        "Larch 65 with the long parallel tip section, flex firm-plus", "Raw length 45 61/64 in",
        "Rack B 6, the upper row, slot 12"};
    views_base(view, VIEW_PAIR, 0);
    PUT(view->worker, "Maximiliane Oberhuber-Lindqvist");
    PUT(view->title, "Now scan the head");
    PUT(view->subtitle, "Build 2024-118-R · club 10 of 14");
    PUT(view->typed, "H-00123");
    card(&view->card[0], false, "Scan head H-0012345X", head, 6);
    card(&view->card[1], true, "Shaft S-0098765W", shaft, 3);
    views_band(view, TONE_WORK, false, "Scan head H-0012345X.",
               "Hold 2 seconds: something is wrong");
    pair_actions(view);
}

static void fill_care(struct view *view, const char *title, const char *const *bullets,
                      size_t count) {
    views_base(view, VIEW_CARE, 1);
    PUT(view->care.title, title);
    PUT(view->care.lead, "Before the wheel turns:");
    for (size_t i = 0; i < count; i++) {
        PUT(view->care.bullet[i], bullets[i]);
    }
    view->care.count = count;
    PUT(view->care.foot,
        "A reminder only. The saw maker's manual, the site's risk assessment and local codes come "
        "first. This program controls no machine and is no safety device.");
    views_band(view, TONE_CAUTION, true, "All in place? Press the button.",
               "Hold 2 seconds: not safe to cut");
    views_action(view, ACTION_PRESS, "Button", "F1", TONE_WORK);
    views_action(view, ACTION_HELD, "Not safe", "F2", TONE_STOP);
    views_action(view, ACTION_START_OVER, "Start over", "F3", TONE_PLAIN);
}

void view_care_graphite(struct view *view) {
    static const char *const bullets[] = {
        "Eye and face protection on",
        "Respirator your programme assigns on; extraction running",
        "Hearing protection on",
        "Guards in place; wheel sound, undamaged, rated for the saw's speed",
        "Shaft clamped; hands, hair and sleeves clear; gloves as the site's rules say",
        "Wait for the wheel to stop before you reach in",
        "Collector clear of steel sparks; take dust up by vacuum, never blow it",
        "Cut ends splinter: smooth them before you handle them"};
    fill_care(view, "Graphite shaft at the cutoff wheel", bullets, 8);
}

void view_care_steel(struct view *view) {
    static const char *const bullets[] = {
        "Eye and face protection on",
        "Hearing protection on",
        "Guards in place; wheel sound, undamaged, rated for the saw's speed",
        "Shaft clamped; hands, hair and sleeves clear; gloves as the site's rules say",
        "Wait for the wheel to stop before you reach in",
        "No steel sparks into graphite dust: collector empty or separate",
        "Deburr the cut end: it is sharp"};
    fill_care(view, "Steel shaft at the cutoff wheel", bullets, 7);
}
