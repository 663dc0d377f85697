// The scanner check, and views with a camera's picture.

#include "views.h"

static void fact(struct view_check *check, const char *name, const char *value) {
    PUT(check->fact[check->fact_count].name, name);
    PUT(check->fact[check->fact_count].value, value);
    check->fact_count++;
}

static void advise(struct view_check *check, const char *text) {
    PUT(check->advice[check->advice_count], text);
    check->advice_count++;
}

void view_check_empty(struct view *view) {
    views_base(view, VIEW_CHECK, -1);
    PUT(view->title, "Scanner check");
    PUT(view->subtitle, "Scan any ticket, best the check card. Nothing is done with it.");
    views_action(view, ACTION_PRESS, "Button", "F1", TONE_WORK);
    views_action(view, ACTION_BACK, "Back", "F3", TONE_PLAIN);
    views_band(view, TONE_PLAIN, true, "Scan a ticket, or press to close.", "");
}

void view_check_bad(struct view *view) {
    struct view_check *check = &view->check;
    view_check_empty(view);
    fact(check, "Came from", "Scanner 2, its own device");
    fact(check, "Read as", "H/0001A");
    fact(check, "Bytes", "48 2F 30 30 30 31 41 0D");
    fact(check, "Identifier", "none sent");
    fact(check, "Time", "312 ms, longest gap 61 ms");
    fact(check, "Ended by", "Enter");
    check->tone = TONE_STOP;
    PUT(check->verdict, "The scanner is set to German. Tickets cannot be read so.");
    advise(check, "Set the scanner's keyboard layout to US English.");
    advise(check, "Shorten the gap between characters, best to none.");
    advise(check, "Have it send symbology identifiers before each code.");
}

void view_check_camera(struct view *view) {
    struct view_check *check = &view->check;
    view_check_empty(view);
    fact(check, "Came from", "Camera");
    fact(check, "Read as", "S-0123456789ABG");
    fact(check, "Kind of code", "Code 128");
    fact(check, "Agreed", "2 lines across it, in 2 pictures");
    fact(check, "Time", "118 ms from picture to reading");
    check->tone = TONE_CAUTION;
    PUT(check->verdict, "It counts, but one picture was not enough.");
    advise(check, "Hold it nearer and still, out of glare. A bar should be 3 camera pixels wide.");
}

static void camera(struct view *view) {
    static uint8_t pixels[160 * 120];
    struct view_preview *preview = &view->preview;
    for (int y = 0; y < 120; y++) {
        for (int x = 0; x < 160; x++) {
            bool label = x > 40 && x < 120 && y > 40 && y < 80;
            pixels[y * 160 + x] = (uint8_t)(label ? (x / 3 % 2 == 0 ? 30 : 230) : 90 + y / 4);
        }
    }
    *preview = (struct view_preview){.width = 160, .height = 120, .pixels = pixels, .found = true};
    for (int i = 0; i < 4; i++) {
        preview->corner[i].x = i == 0 || i == 3 ? 40 : 120;
        preview->corner[i].y = i < 2 ? 38 : 82;
    }
    PUT(view->status[view->status_count].label, "Camera");
    view->status_count++;
}

void view_check_scale(struct view *view) {
    struct view_check *check = &view->check;
    view_check_empty(view);
    fact(check, "Came from", "Scale");
    fact(check, "Read as", "ST,GS,+  203.4 g");
    check->tone = TONE_FINE;
    PUT(check->verdict, "203.4 g, gross, stable.");
    // The most a header ever holds.
    PUT(view->status[view->status_count].label, "Camera");
    view->status_count++;
    PUT(view->status[view->status_count].label, "Scale");
    view->status[view->status_count].health = HEALTH_BAD;
    view->status_count++;
    PUT(view->status[view->status_count].label, "Copies");
    view->status[view->status_count].health = HEALTH_WARN;
    view->status_count++;
}

void view_ready_camera(struct view *view) {
    view_ready(view);
    camera(view);
}

void view_pair_camera(struct view *view) {
    view_pair_shaft(view);
    camera(view);
}

static void look(struct view *view, enum view_tone tone, const char *name, const char *value,
                 const char *todo) {
    struct view_selfcheck *all = &view->selfcheck;
    all->line[all->count].tone = tone;
    PUT(all->line[all->count].word, tone == TONE_FINE      ? "good"
                                    : tone == TONE_CAUTION ? "look"
                                                           : "bad");
    PUT(all->line[all->count].name, name);
    PUT(all->line[all->count].value, value);
    PUT(all->line[all->count].todo, todo);
    all->count++;
}

static void selfcheck_base(struct view *view) {
    views_base(view, VIEW_SELFCHECK, -1);
    PUT(view->title, "Self-check");
    views_action(view, ACTION_PRESS, "Button", "F1", TONE_WORK);
    views_action(view, ACTION_BACK, "Back", "F3", TONE_PLAIN);
    views_action(view, ACTION_LOOK_AGAIN, "Look again", "F4", TONE_PLAIN);
    views_action(view, ACTION_SOUNDS, "Play the sounds", "F6", TONE_PLAIN);
    views_action(view, ACTION_OLDER, "More", "PgDn", TONE_PLAIN);
    views_action(view, ACTION_NEWER, "Back up", "PgUp", TONE_PLAIN);
    views_band(view, TONE_PLAIN, true, "Press to go on.", "");
}

void view_selfcheck_some(struct view *view) {
    selfcheck_base(view);
    PUT(view->subtitle, "Bad: 1. To look at: 1.");
    look(view, TONE_STOP, "Settings",
         "line 12: mark_step = 1/7: must be 1/16, 1/32, 1/64, 0.5 mm or 1 mm",
         "The last good settings hold. Mend the line, or save the settings at the desk.");
    look(view, TONE_CAUTION, "Disk", "812 MB free of 31.9 GB, its health is not known",
         "Make room soon: old reports, logs and copies.");
    look(view, TONE_FINE, "Log", "24 118 entries, all of them checked 5 h ago", "");
    look(view, TONE_FINE, "Clock", "kept right by the network", "");
    look(view, TONE_FINE, "Copies", "the newest was made 11 h ago", "");
    look(view, TONE_FINE, "Scanner", "2 of 2 there", "");
    look(view, TONE_FINE, "Screen", "1920 x 1080 at 60 Hz, KMSDRM", "");
}

void view_selfcheck_good(struct view *view) {
    selfcheck_base(view);
    PUT(view->subtitle, "All of it is good.");
    for (int i = 0; i < VIEW_LOOKS_MAX; i++) {
        look(view, TONE_FINE, i % 2 == 0 ? "Disk of the copies" : "Log",
             i % 2 == 0 ? "12.4 GB free of 271 GB, 20 % of its life used"
                        : "1 204 118 entries, 1 004 118 of them read again so far",
             "");
    }
}

void view_selfcheck_long(struct view *view) {
    selfcheck_base(view);
    PUT(view->subtitle, "Bad: 12. To look at: 16.");
    look(
        view, TONE_STOP, "Log",
        "Entry 1204118: the state of club 2024-118-R 10 is not what the log says it should be, and "
        "so is the shaft that belongs to it.",
        "Cut nothing more. Keep the files as they are, call whoever keeps the machine, go back to "
        "the last whole copy.");
    look(view, TONE_STOP, "Disk of the copies", "can only be read, 80 % of its life used",
         "Nothing can be logged. A disk that fails turns so: make a copy elsewhere, then start the "
         "machine again.");
    look(view, TONE_CAUTION, "Settings",
         "cannot read the settings bench-by-the-north-window.ini: Permission denied.",
         "The last good settings hold. Mend the line, or save the settings at the desk.");
    PUT(view->selfcheck.line[2].word, "remarkable"); // other languages have longer words
    look(view, TONE_FINE, "Benches", "programs beside this one that use this database: 2", "");
    look(view, TONE_FINE, "Signature", "the last day was signed 20 h ago, 1284 entries since", "");
    views_band(view, TONE_STOP, false, "The log cannot be trusted. Cut nothing more.", "");
}
