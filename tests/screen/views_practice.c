// A bench that practises: the mark, the list of lessons, and the longest caption.

#include "views.h"

static void touch(struct view *view, enum view_action_id id, const char *label, const char *key) {
    views_action(view, id, label, key, TONE_PLAIN);
}

static void practise(struct view *view, const char *title, const char *text) {
    PUT(view->lesson.word, "PRACTICE");
    PUT(view->lesson.title, title);
    PUT(view->lesson.text, text);
}

void view_practice_tip(struct view *view) {
    view_tip(view);
    practise(view, "Pressed too early · 5 of 7",
             "Press now, as if by mistake: nothing is cut yet. The bench takes it as cut and shows "
             "the next mark.");
    touch(view, ACTION_LESSON_NEXT, "Do it for me", "Home");
    touch(view, ACTION_LESSON_LIST, "Lessons", "End");
}

void view_practice_pair(struct view *view) {
    view_pair_long(view);
    practise(view, "Wrong pair · 3 of 4",
             "Scan the other one. They belong together, so the care list comes, or the mark when "
             "you have confirmed the list already.");
    touch(view, ACTION_LESSON_SCAN, "S-0002Q", "");
    touch(view, ACTION_LESSON_SCAN, "H-0001A", "");
    touch(view, ACTION_LESSON_NEXT, "Do it for me", "Home");
    touch(view, ACTION_LESSON_LIST, "Lessons", "End");
}

void view_practice_lessons(struct view *view) {
    static const char *const names[] = {"A whole club",      "Wrong pair",       "Unknown ticket",
                                        "Pressed too early", "Cut off the mark", "Cut already",
                                        "NOT LOGGED",        "Power cut"};
    views_base(view, VIEW_MENU, -1);
    practise(view, "", "");
    PUT(view->menu.title, "Practice");
    PUT(view->menu.subtitle,
        "On a copy: nothing here reaches the log. Keep away from the wheel; cut nothing.");
    for (size_t i = 0; i < sizeof names / sizeof *names; i++) {
        char key[2] = {(char)('1' + i), '\0'};
        PUT(view->menu.tile[i].line, "A head and a shaft of two different clubs");
        PUT(view->menu.tile[i].count, i < 3 ? "done" : "");
        views_action(view, ACTION_TILE, names[i], key, TONE_PLAIN);
        view->menu.tile_count = i + 1;
    }
    views_action(view, ACTION_LESSON_LEAVE, "End practice", "F10", TONE_WORK);
    views_band(view, TONE_PLAIN, false, "Choose a lesson.", "");
}
