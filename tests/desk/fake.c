#include "fake.h"

#include <stdio.h>
#include <stdlib.h>

const struct worker fake_builder = {"W-1J", "Ada Quill", ROLE_BUILDER};
const struct worker fake_other = {"W-3F", "Cy Marl", ROLE_BUILDER};
const struct worker fake_supervisor = {"W-2H", "Bo Tarn", ROLE_SUPERVISOR};
const struct worker fake_nobody;

// As long as it may be: no end of one is a word's.
static void longest(char *text, size_t size) {
    memset(text, 'm', size - 1);
    text[size - 1] = '\0';
}

static void random_id(void *ctx, char ret_id[CONFIRM_ID_MAX]) {
    struct fake *fake = ctx;
    snprintf(ret_id, CONFIRM_ID_MAX, "%032x", ++fake->ids);
}

static int64_t waiting(void *ctx, const struct desk_place *place) {
    const struct fake *fake = ctx;
    return fake->answer.long_texts ? INT64_MAX : place->which % 2 == 0 ? 12 : -1;
}

static int row_number(const struct desk_ref *ref) {
    return ref->key[0][0] == '\0' ? -1 : atoi(ref->key[0] + 4);
}

static enum desk_result list(void *ctx, const struct desk_query *query,
                             struct desk_table *ret_table) {
    struct fake *fake = ctx;
    int first = row_number(&query->after) + 1;
    fake->asked = *query;
    if (fake->answer.list != DESK_DONE) {
        return fake->answer.list;
    }
    for (int i = first; i < fake->answer.rows; i++) {
        size_t row = ret_table->set.row_count;
        if (row == VIEW_ROWS_MAX) {
            ret_table->more = true;
            break;
        }
        snprintf(ret_table->ref[row].key[0], DESK_KEY_MAX, "row %d", i);
        for (size_t cell = 0; cell < VIEW_CELLS && fake->answer.long_texts; cell++) {
            longest(ret_table->set.row[row].cell[cell], VIEW_CELL_MAX);
        }
        ret_table->set.row_count++;
    }
    SET(ret_table->set.title, "A list");
    return DESK_DONE;
}

static bool is_new(enum desk_form form) {
    return form == DESK_FORM_NEW_ORDER || form == DESK_FORM_NEW_CHART ||
           form == DESK_FORM_NEW_HEAD_MODEL || form == DESK_FORM_NEW_SHAFT_MODEL ||
           form == DESK_FORM_ADD_CLUB;
}

// A document with the fields of the form: the fixed ones are its keys.
static enum desk_result begin(void *ctx, struct desk_draft *draft) {
    static const char *const columns[FAKE_COLUMNS][2] = {
        {":3", "210 1/2"}, {":5", "220 1"}, {":7", "230 1 1/2"}};
    const struct form_spec *spec = form_spec(draft->form);
    struct fake *fake = ctx;
    fake->begun++;
    if (fake->answer.begin != DESK_DONE) {
        return fake->answer.begin;
    }
    memset(&draft->before, 0, sizeof draft->before);
    SET(draft->before.sheet, "things");
    for (size_t i = 0; i < spec->count; i++) {
        char value[CHANGE_VALUE_MAX];
        snprintf(value, sizeof value, "was %zu", i);
        if (fake->answer.long_texts) {
            longest(value, sizeof value);
        }
        draft->exists |= spec->field[i].fixed && !is_new(draft->form);
        draft->before.keys += spec->field[i].fixed && draft->before.keys == i ? 1 : 0;
        if (!spec->run && !is_new(draft->form) &&
            (spec->passing == NULL || strcmp(spec->passing, spec->field[i].cell))) {
            document_set(&draft->before, spec->field[i].cell, value);
        }
    }
    for (size_t i = 0; i < FAKE_COLUMNS && spec->columns; i++) {
        document_set(&draft->before, columns[i][0], columns[i][1]);
    }
    draft->now = draft->before;
    return DESK_DONE;
}

static void consider(void *ctx, const struct worker *who, struct desk_draft *draft,
                     struct desk_remarks *ret_remarks) {
    struct fake *fake = ctx;
    const struct fake_answers *answer = &fake->answer;
    (void)who;
    fake->considered++;
    if (answer->wrong[0] != '\0' &&
        (!answer->wrong_when_empty || document_value(&draft->now, answer->wrong)[0] == '\0')) {
        SET(ret_remarks->complaint[0].cell, answer->wrong);
        SET(ret_remarks->complaint[0].text, "is wrong");
        ret_remarks->complaint_count = 1;
    }
    for (size_t i = 0; i < VIEW_FORM_NOTES && answer->long_texts; i++) {
        longest(ret_remarks->note[ret_remarks->note_count++], VIEW_TEXT_MAX);
    }
}

static int choices(void *ctx, const struct desk_draft *draft, const char *cell,
                   char texts[][DESK_KEY_MAX], int max) {
    static const char *const words[] = {"steel", "graphite", "graphene", "Greenheart"};
    const struct fake *fake = ctx;
    int count = 0;
    (void)draft;
    if (strcmp(cell, "flex") == 0 && !fake->answer.long_texts && max > 1) {
        words_copy(texts[count++], DESK_KEY_MAX, "Stiff");
        words_copy(texts[count++], DESK_KEY_MAX, "S");
    }
    if (strcmp(cell, "material") == 0 || fake->answer.long_texts) {
        for (; count < (int)COUNT(words) && count < max; count++) {
            words_copy(texts[count], DESK_KEY_MAX, words[count]);
        }
    }
    return count;
}

static enum desk_result save(void *ctx, const struct worker *who, struct desk_draft *draft,
                             struct desk_said *ret_said) {
    static const char *const messages[] = {
        [DESK_DONE] = "Saved, entry 7.",
        [DESK_NONE] = "There is no such thing.",
        [DESK_REFUSED] = "A rule says no.",
        [DESK_FAILED] = "NOT SAVED: the disk is full.",
    };
    struct fake *fake = ctx;
    fake->saves++;
    fake->draft = *draft;
    SET(fake->saver, who->badge);
    SET(ret_said->message, messages[fake->answer.save]);
    ret_said->tone = fake->answer.save == DESK_DONE ? TONE_FINE : TONE_STOP;
    if (fake->answer.save == DESK_DONE) {
        fake->saved++;
        ret_said->next = fake->answer.next;
    }
    return fake->answer.save;
}

static enum desk_result deed(void *ctx, const struct worker *who, enum desk_deed which,
                             const struct desk_ref *of, const char *id,
                             struct desk_said *ret_said) {
    struct fake *fake = ctx;
    (void)who;
    (void)id;
    fake->deeds++;
    fake->deed = which;
    fake->deed_of = *of;
    SET(ret_said->message, fake->answer.deed == DESK_DONE ? "It is done." : "It cannot be done.");
    ret_said->tone = TONE_FINE;
    return fake->answer.deed;
}

static bool find(void *ctx, const char *text, struct desk_place *ret_place) {
    (void)ctx;
    if (strcmp(text, "H-0001A") != 0) {
        return false;
    }
    *ret_place = (struct desk_place){.goes = GOES_FORM, .which = DESK_FORM_HEAD};
    SET(ret_place->of.key[0], text);
    return true;
}

void bench_begin(struct bench *bench, bool supervised) {
    memset(bench, 0, sizeof *bench);
    bench->fake.answer.rows = 3;
    bench->ops = (struct desk_ops){.ctx = &bench->fake,
                                   .random_id = random_id,
                                   .waiting = waiting,
                                   .list = list,
                                   .begin = begin,
                                   .consider = consider,
                                   .choices = choices,
                                   .save = save,
                                   .deed = deed,
                                   .find = find};
    desk_init(&bench->desk, &bench->ops);
    desk_enter(&bench->desk, &fake_builder, supervised ? &fake_supervisor : &fake_nobody);
}

static void happens(struct bench *bench, const struct event *event) {
    bench->wish = desk_event(&bench->desk, event);
}

void bench_touch(struct bench *bench, enum view_action_id id, int64_t argument) {
    struct event event = {.kind = EVENT_ACTION, .action = (int)id, .argument = argument};
    happens(bench, &event);
}

static const struct view_action *find_action(const struct view *view, const char *label) {
    for (size_t i = 0; i < view->action_count; i++) {
        if (strcmp(view->action[i].label, label) == 0) {
            return &view->action[i];
        }
    }
    return NULL;
}

void bench_press(struct bench *bench, const char *label) {
    struct view view = bench_view(bench);
    const struct view_action *action = find_action(&view, label);
    if (action == NULL) {
        fail_msg("there is no \"%s\" on the screen", label);
        return;
    }
    bench_touch(bench, action->id, action->argument);
}

bool bench_offers(const struct bench *bench, const char *label) {
    struct view view = bench_view(bench);
    return find_action(&view, label) != NULL;
}

void bench_type(struct bench *bench, const char *text) {
    for (; *text != '\0'; text++) {
        struct event event = {.kind = EVENT_KEY, .key = *text};
        happens(bench, &event);
    }
}

void bench_enter(struct bench *bench) {
    bench_type(bench, "\n");
}

void bench_scan(struct bench *bench, const char *text) {
    struct event event = {.kind = EVENT_SCAN};
    SET(event.text, text);
    happens(bench, &event);
}

void bench_open(struct bench *bench, enum desk_form form) {
    struct desk_place place = {.goes = GOES_FORM, .which = (int)form};
    SET(place.of.key[0], "row 0");
    bench->wish = desk_open(&bench->desk, &place);
}

struct view bench_view(const struct bench *bench) {
    struct view view;
    memset(&view, 0, sizeof view);
    desk_view(&bench->desk, &view);
    return view;
}

void bench_expect(const struct bench *bench, const char *where) {
    char words[96];
    desk_where(&bench->desk, words, sizeof words);
    assert_string_equal(words, where);
}

void bench_expect_message(const struct bench *bench, const char *text) {
    struct view view = bench_view(bench);
    if (strstr(view.band, text) == NULL) {
        fail_msg("\"%s\", not \"%s\"", view.band, text);
    }
}

const char *bench_cell(const struct bench *bench, const char *cell) {
    return document_value(&bench->desk.work.draft.now, cell);
}
