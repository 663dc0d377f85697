// No text of a view is empty where it must not be, or cut off by its buffer.

#include "laws.h"

#include <string.h>

static const char *filled(const char *text, size_t size) {
    return strnlen(text, size) >= size - 1 ? text : NULL;
}

#define CHECK(array)                                                                               \
    do {                                                                                           \
        if (filled(array, sizeof(array)) != NULL) {                                                \
            return array;                                                                          \
        }                                                                                          \
    } while (0)

static const char *cut_view(const struct view_cut *cut) {
    CHECK(cut->heading);
    CHECK(cut->measure);
    CHECK(cut->build);
    CHECK(cut->head);
    CHECK(cut->shaft);
    CHECK(cut->why);
    CHECK(cut->next);
    CHECK(cut->mark.inches);
    CHECK(cut->mark.rounding);
    for (size_t i = 0; i < cut->receipt_count; i++) {
        CHECK(cut->receipt[i].text);
        CHECK(cut->receipt[i].amount);
    }
    for (size_t i = 0; i < cut->warning_count; i++) {
        CHECK(cut->warning[i]);
    }
    return NULL;
}

static const char *notice_view(const struct view_notice *notice) {
    CHECK(notice->title);
    CHECK(notice->foot);
    for (size_t i = 0; i < notice->line_count; i++) {
        CHECK(notice->line[i]);
    }
    for (size_t i = 0; i < notice->todo_count; i++) {
        CHECK(notice->todo[i]);
    }
    return NULL;
}

static const char *other_views(const struct view *view) {
    for (int card = 0; card < 2; card++) {
        CHECK(view->card[card].title);
        for (size_t i = 0; i < view->card[card].line_count; i++) {
            CHECK(view->card[card].line[i]);
        }
    }
    for (size_t i = 0; i < view->care.count; i++) {
        CHECK(view->care.bullet[i]);
    }
    CHECK(view->care.foot);
    CHECK(view->number.question);
    CHECK(view->number.help);
    CHECK(view->number.result);
    CHECK(view->number.error);
    for (size_t i = 0; i < view->number.field_count; i++) {
        CHECK(view->number.field[i].label);
    }
    CHECK(view->log.subtitle);
    CHECK(view->log.filters);
    CHECK(view->day.verdict);
    CHECK(view->day.brief);
    for (size_t i = 0; i < view->day.line_count; i++) {
        CHECK(view->day.line[i]);
    }
    CHECK(view->pin_message);
    for (size_t i = 0; i < view->log.detail_count; i++) {
        CHECK(view->log.detail[i]);
    }
    return NULL;
}

const char *laws_cut_off(const struct view *view) {
    const char *found = cut_view(&view->cut);
    found = found != NULL ? found : notice_view(&view->notice);
    found = found != NULL ? found : other_views(view);
    if (found != NULL) {
        return found;
    }
    CHECK(view->title);
    CHECK(view->subtitle);
    CHECK(view->band);
    CHECK(view->band_hint);
    for (size_t i = 0; i < view->action_count; i++) {
        CHECK(view->action[i].label);
        if (view->action[i].label[0] == '\0') {
            return "an action without a label";
        }
    }
    return NULL;
}
