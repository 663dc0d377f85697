// The same views in a language of longer words. Other languages run about 30 percent longer than
// English (common practice, no source).

#include "views.h"

#include <string.h>

static void stretch(char *text, size_t size) {
    size_t length = strlen(text);
    size_t more = length * 3 / 10;
    for (size_t i = 0; i < more && length + i + 1 < size; i++) {
        // Broken by blanks, as words are.
        text[length + i] = i % 7 == 0 ? ' ' : 'n';
        text[length + i + 1] = '\0';
    }
}
#define STRETCH(text) stretch(text, sizeof(text))

void views_stretch(struct view *view) {
    STRETCH(view->title);
    STRETCH(view->notice.todo_title);
    STRETCH(view->notice.mark_label);
    STRETCH(view->care.lead);
    STRETCH(view->number.error);
    STRETCH(view->cut.waste);
    STRETCH(view->cut.total.text);
    STRETCH(view->log.title);
    STRETCH(view->log.subtitle);
    STRETCH(view->log.filters);
    STRETCH(view->entry.title);
    STRETCH(view->subtitle);
    STRETCH(view->band);
    STRETCH(view->band_hint);
    STRETCH(view->care.title);
    STRETCH(view->care.foot);
    STRETCH(view->cut.heading);
    STRETCH(view->cut.keep);
    STRETCH(view->cut.blade);
    STRETCH(view->cut.measure);
    STRETCH(view->cut.next);
    STRETCH(view->number.question);
    STRETCH(view->number.help);
    STRETCH(view->number.result);
    STRETCH(view->notice.title);
    STRETCH(view->notice.foot);
    STRETCH(view->pin_message);
    for (size_t i = 0; i < VIEW_LINES_MAX; i++) {
        STRETCH(view->care.bullet[i]);
        STRETCH(view->cut.receipt[i].text);
        STRETCH(view->cut.warning[i]);
        STRETCH(view->log.detail[i]);
    }
    STRETCH(view->day.verdict);
    for (size_t i = 0; i < view->day.fact_count; i++) {
        STRETCH(view->day.fact[i].name);
    }
    for (size_t i = 0; i < view->day.line_count; i++) {
        STRETCH(view->day.line[i]);
    }
    STRETCH(view->check.verdict);
    for (size_t i = 0; i < view->check.fact_count; i++) {
        STRETCH(view->check.fact[i].name);
    }
    for (size_t i = 0; i < view->check.advice_count; i++) {
        STRETCH(view->check.advice[i]);
    }
    STRETCH(view->set.title);
    STRETCH(view->set.subtitle);
    for (size_t i = 0; i < view->set.note_count; i++) {
        STRETCH(view->set.note[i]);
    }
    for (int i = 0; i < VIEW_CELLS; i++) {
        STRETCH(view->set.head[i]);
    }
    for (size_t i = 0; i < view->set.plot_count; i++) {
        STRETCH(view->set.plot[i].title);
    }
    STRETCH(view->lesson.word);
    STRETCH(view->lesson.title);
    STRETCH(view->lesson.text);
    STRETCH(view->menu.title);
    STRETCH(view->menu.subtitle);
    for (size_t i = 0; i < view->menu.tile_count; i++) {
        STRETCH(view->menu.tile[i].line);
    }
    STRETCH(view->form.title);
    for (size_t i = 0; i < view->form.field_count; i++) {
        STRETCH(view->form.field[i].label);
        STRETCH(view->form.field[i].unit);
    }
    for (size_t i = 0; i < view->form.note_count; i++) {
        STRETCH(view->form.note[i]);
    }
    for (size_t i = 0; i < view->cut.estimate_count; i++) {
        STRETCH(view->cut.estimate[i]);
    }
    for (size_t i = 0; i < view->entry.estimate_count; i++) {
        STRETCH(view->entry.estimate[i]);
    }
    for (size_t i = 0; i < view->number.field_count; i++) {
        STRETCH(view->number.field[i].label);
    }
    for (size_t i = 0; i < 2; i++) {
        STRETCH(view->card[i].title);
        for (size_t j = 0; j < view->card[i].line_count; j++) {
            STRETCH(view->card[i].line[j]);
        }
    }
    for (size_t i = 0; i < view->entry.fact_count; i++) {
        STRETCH(view->entry.fact[i]);
    }
    for (size_t i = 0; i < view->notice.line_count; i++) {
        STRETCH(view->notice.line[i]);
    }
    for (size_t i = 0; i < view->notice.todo_count; i++) {
        STRETCH(view->notice.todo[i]);
    }
    for (size_t i = 0; i < view->action_count; i++) {
        STRETCH(view->action[i].label);
    }
}
