// What the lessons put over the station's view: the caption, a page of the tour, the list.

#include "lesson_inner.h"

#include <stdio.h>
#include <string.h>

static void list_view(const struct lesson *lesson, struct view *view) {
    view->body = VIEW_MENU;
    view->step = -1;
    view->action_count = 0;
    SET(view->menu.title, _("Practice"));
    SET(view->menu.subtitle,
        _("On a copy: nothing here reaches the log. Keep away from the wheel; cut nothing."));
    for (int i = LESSON_CLUB; i < LESSON_COUNT; i++) {
        const struct lesson_spec *spec = lesson_spec((enum lesson_id)i);
        size_t at = (size_t)(i - LESSON_CLUB);
        char key[2] = {(char)('1' + at), '\0'};
        SET(view->menu.tile[at].line, _(spec->line));
        SET(view->menu.tile[at].count, (lesson->done & 1u << i) != 0 ? _("done") : "");
        view_offer(view, ACTION_TILE, (int64_t)at, _(spec->title), key, TONE_PLAIN);
        view->menu.tile_count = at + 1;
    }
    view_offer(view, ACTION_LESSON_LEAVE, 0, _("End practice"), "F10", TONE_WORK);
    view->band_button = false;
    view->band_tone = lesson->missing ? TONE_CAUTION : TONE_PLAIN;
    SET(view->band_hint, "");
    SET(view->band, lesson->missing
                        ? _("The shop has no parts for this lesson. Do A whole club first, or "
                            "take the tour.")
                        : _("Choose a lesson."));
}

// The tour begins and ends with a page of its own.
static void page_view(const struct lesson *lesson, struct view *view) {
    static const enum word cautions[] = {WORD_CARE_EYES,  WORD_CARE_BREATHING, WORD_CARE_EARS,
                                         WORD_CARE_GUARD, WORD_CARE_CLAMP,     WORD_CARE_STOP,
                                         WORD_CARE_DEBURR};
    bool first = lesson->step == 0;
    memset(&view->care, 0, sizeof view->care);
    view->body = VIEW_CARE;
    view->step = -1;
    view->action_count = 0;
    if (first) {
        SET(view->care.title, _("Kerfside controls no machine"));
        SET(view->care.lead, _("Before any wheel turns:"));
        for (size_t i = 0; i < sizeof cautions / sizeof *cautions; i++) {
            SET(view->care.bullet[i], word(cautions[i]));
        }
        view->care.count = sizeof cautions / sizeof *cautions;
    } else {
        SET(view->care.title, _("That was a club"));
        SET(view->care.lead, _("What to keep in mind:"));
        SET(view->care.bullet[0], _("Scan first. Two parts that do not belong together stop the "
                                    "bench."));
        SET(view->care.bullet[1], _("Press only when it is cut. One press, one cut."));
        SET(view->care.bullet[2],
            _("Something wrong? Hold the button for 2 seconds. Nothing is ever lost."));
        SET(view->care.bullet[3], _("Logged means on disk. NOT LOGGED: write it down, call "
                                    "somebody."));
        view->care.count = 4;
    }
    SET(view->care.foot, word(WORD_CARE_FOOT));
    view->band_button = true;
    view->band_tone = TONE_WORK;
    SET(view->band_hint, "");
    SET(view->band,
        first ? _("Press the button to begin the tour.") : _("Press the button to end the tour."));
    view_offer(view, ACTION_PRESS, 0, "", "F1", TONE_WORK);
}

static const char *next_label(const struct lesson_step *step) {
    switch (step->does) {
    case DOES_POWER:
        return _("Cut the power");
    case DOES_NOTHING:
        return _("Go on");
    case DOES_SCAN:
    case DOES_PRESS:
    case DOES_HOLD:
    case DOES_ACTION:
    case DOES_PLANNED:
    case DOES_PAST:
        break;
    }
    return _("Do it for me");
}

static void offers(const struct lesson *lesson, const struct lesson_step *step, struct view *view) {
    for (size_t i = 0; i < sizeof step->offer / sizeof *step->offer; i++) {
        enum lesson_offer offer = step->offer[i];
        if (offer != OFFER_NONE && lesson->parts.ticket[offer][0] != '\0') {
            view_offer(view, ACTION_LESSON_SCAN, offer, lesson->parts.ticket[offer], "",
                       TONE_PLAIN);
        }
    }
}

static void step_view(const struct lesson *lesson, const struct lesson_step *step,
                      struct view *view) {
    if ((step->where & 1u << lesson->stands) == 0) {
        SET(view->lesson.text, _("This is not where the lesson leads. Do what the screen says, or "
                                 "go back, and try again."));
        view_offer(view, ACTION_LESSON_BACK, 0, _("Go back"), "Home", TONE_PLAIN);
        return;
    }
    SET(view->lesson.text, step->text != NULL ? _(step->text) : "");
    offers(lesson, step, view);
    view_offer(view, ACTION_LESSON_NEXT, 0, next_label(step), "Home",
               step->does == DOES_POWER ? TONE_CAUTION : TONE_PLAIN);
}

static void caption(const struct lesson *lesson, struct view *view) {
    const struct lesson_spec *spec = lesson_spec(lesson->id);
    const struct lesson_step *step = lesson_at(lesson);
    char number[2][12];
    int shown = lesson->step < spec->count ? lesson->step + 1 : spec->count;
    snprintf(number[0], sizeof number[0], "%d", shown);
    snprintf(number[1], sizeof number[1], "%d", spec->count);
    words_fill(view->lesson.title, sizeof view->lesson.title, WORD_LESSON_STEP, _(spec->title),
               number[0], number[1]);
    view->lesson.done = step == NULL;
    if (step == NULL) {
        SET(view->lesson.text, _("Done. Choose another lesson, or go on and try what you like."));
    } else {
        step_view(lesson, step, view);
    }
    if (lesson->id == LESSON_TOUR) {
        view_offer(view, ACTION_LESSON_END, 0, _("End the tour"), "End", TONE_PLAIN);
    }
    if (lesson->id != LESSON_TOUR || step == NULL || lesson->step + 1 == spec->count) {
        view_offer(view, ACTION_LESSON_LIST, 0, _("Lessons"),
                   lesson->id == LESSON_TOUR ? "" : "End", TONE_PLAIN);
    }
}

void lesson_view(const struct lesson *lesson, struct view *view) {
    const struct lesson_step *step = lesson_at(lesson);
    SET(view->lesson.word, _("PRACTICE"));
    if (lesson->list) {
        list_view(lesson, view);
        return;
    }
    if (step != NULL && step->page) {
        page_view(lesson, view);
    }
    caption(lesson, view);
}
