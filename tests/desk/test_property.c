// Whatever is touched, typed and scanned, in whatever order: the desk stays whole, says "saved" of
// nothing that is not, loses nothing that a save refused, and is nothing but its struct.

#include "fake.h"

#include <stdio.h>
#include <stdlib.h>

#define STEPS 100000
#define SEED 20260302u
#define COPY_EVERY 37

static uint32_t seed;

static uint32_t any(uint32_t below) {
    seed = seed * 1664525u + 1013904223u;
    return (seed >> 8) % below;
}

// --- what happens next ---------------------------------------------------------------------------

enum step_kind { STEP_EVENT, STEP_ENTER, STEP_ANSWER, STEP_WEIGH };
struct step {
    enum step_kind kind;
    struct event event;
    bool supervised;
    bool other;
    uint32_t number;
};

static struct event touch_of_the_screen(const struct bench *bench) {
    struct event event = {.kind = EVENT_ACTION};
    struct view view = bench_view(bench);
    uint32_t extra = (uint32_t)view.form.field_count + (uint32_t)view.form.choice_count +
                     (uint32_t)view.set.row_count;
    uint32_t which = any((uint32_t)view.action_count + extra);
    if (which < view.action_count) {
        event.action = (int)view.action[which].id;
        event.argument = view.action[which].argument;
        return event;
    }
    which -= (uint32_t)view.action_count;
    event.argument = which;
    event.action = ACTION_FIELD;
    if (which >= view.form.field_count) {
        event.argument = which - (uint32_t)view.form.field_count;
        event.action = view.body == VIEW_SET ? ACTION_ROW : ACTION_CHOICE;
    }
    return event;
}

static struct event touch_of_anything(void) {
    static const int64_t odd[] = {-1, INT64_MAX, INT64_MIN, VIEW_KEY_SIXTEENTH + 3, 4096};
    struct event event = {.kind = EVENT_ACTION, .action = (int)any(ACTION_ID_COUNT)};
    event.argument = any(3) == 0 ? odd[any(COUNT(odd))] : (int64_t)any(40);
    return event;
}

static struct event typed(void) {
    static const char keys[] = "ab 1/2-9Xg\b\b\n\n\t\x01\x7f\xc3";
    return (struct event){.kind = EVENT_KEY, .key = keys[any(sizeof keys - 1)]};
}

static struct event scanned(void) {
    static const char *const codes[] = {"H-0001A", "S-0001S", "9 240 2", "graph",
                                        "",        "a\tb",    "Größe",   "2041-3"};
    struct event event = {.kind = EVENT_SCAN};
    SET(event.text, codes[any(COUNT(codes))]);
    return event;
}

static struct step next_step(const struct bench *bench) {
    struct step step = {.kind = STEP_EVENT, .number = any(1u << 20)};
    uint32_t which = any(100);
    if (which < 45) {
        step.event = touch_of_the_screen(bench);
    } else if (which < 55) {
        step.event = touch_of_anything();
    } else if (which < 82) {
        step.event = typed();
    } else if (which < 88) {
        step.event = scanned();
    } else if (which < 90) {
        step.event.kind = (enum event_kind)any(EVENT_ELSEWHERE + 1);
    } else if (which < 94) {
        step.kind = STEP_ENTER;
        step.supervised = any(3) > 0;
        step.other = any(8) == 0;
    } else if (which < 97) {
        step.kind = STEP_WEIGH;
    } else {
        step.kind = STEP_ANSWER;
    }
    return step;
}

static enum desk_result some_result(uint32_t number) {
    return number % 2 == 0 ? DESK_DONE : (enum desk_result)(number / 2 % 4);
}

static void answer(struct fake_answers *to, uint32_t number) {
    static const char *const cells[] = {"", "", "why", "model", ":", "", "nothing"};
    to->rows = (int)(number % 40);
    to->list = some_result(number >> 2);
    to->begin = some_result(number >> 5);
    to->save = some_result(number >> 8);
    to->deed = some_result(number >> 11);
    to->next = (struct desk_place){.goes = (enum desk_goes)(number >> 3) % 3, .which = 0};
    SET(to->wrong, cells[(number >> 6) % COUNT(cells)]);
    to->wrong_when_empty = number % 3 > 0;
    to->long_texts = number % 7 == 0;
}

static void take(struct bench *bench, const struct step *step) {
    switch (step->kind) {
    case STEP_EVENT:
        bench->wish = desk_event(&bench->desk, &step->event);
        break;
    case STEP_ENTER:
        desk_enter(&bench->desk, step->other ? &fake_other : &fake_builder,
                   step->supervised ? &fake_supervisor : &fake_nobody);
        break;
    case STEP_ANSWER:
        answer(&bench->fake.answer, step->number);
        break;
    case STEP_WEIGH:
        desk_weigh(&bench->desk, step->number % 5 == 0 ? MASS_UNKNOWN : step->number % 400000,
                   step->number % 2 == 0);
        break;
    }
}

// --- what always holds ---------------------------------------------------------------------------

static void expect_pages_whole(const struct desk *desk) {
    assert_true(desk->depth >= 1 && desk->depth <= DESK_DEPTH);
    assert_int_equal(desk->page[0].place.goes, GOES_MENU);
    for (size_t i = 1; i < desk->depth; i++) {
        const struct desk_place *place = &desk->page[i].place;
        bool top = i == desk->depth - 1;
        assert_true(place->goes == GOES_LIST || (place->goes == GOES_FORM && top));
        assert_true(place->which >= 0 &&
                    place->which <
                        (place->goes == GOES_LIST ? (int)DESK_LIST_COUNT : (int)DESK_FORM_COUNT));
        assert_true(desk->page[i].page >= 0 && desk->page[i].page < DESK_PAGES);
    }
}

static void expect_field_whole(const struct desk *desk) {
    struct form_field fields[VIEW_FORM_FIELDS];
    int count = form_fields(&desk->work, fields);
    assert_true(count > 0 && count <= VIEW_FORM_FIELDS);
    assert_true(desk->work.field >= 0 && desk->work.field < count);
    bool free = false;
    for (int i = 0; i < count; i++) {
        free |= !fields[i].fixed;
        assert_non_null(memchr(form_text(&desk->work, &fields[i]), '\0', CHANGE_VALUE_MAX));
    }
    assert_true(!free || !fields[desk->work.field].fixed);
}

static void expect_view_whole(const struct bench *bench) {
    struct view view = bench_view(bench);
    assert_true(view.action_count > 0 && view.action_count <= VIEW_ACTIONS_MAX);
    assert_non_null(memchr(view.band, '\0', sizeof view.band));
    for (size_t i = 0; i < view.action_count; i++) {
        assert_true(view.action[i].label[0] != '\0' && view.action[i].id != ACTION_NONE);
    }
    if (view.body == VIEW_FORM) {
        assert_true(view.form.active >= 0 && view.form.active < (int)view.form.field_count);
        assert_true(view.form.note_count <= VIEW_FORM_NOTES);
        assert_true(view.form.choice_count <= VIEW_CHOICES_MAX);
    } else {
        assert_true(view.body == VIEW_SET || view.body == VIEW_MENU);
    }
}

static void expect_whole(const struct bench *bench) {
    char words[96];
    expect_pages_whole(&bench->desk);
    if (desk_top_of(&bench->desk)->place.goes == GOES_FORM) {
        expect_field_whole(&bench->desk);
    }
    expect_view_whole(bench);
    desk_where(&bench->desk, words, sizeof words);
}

// What lies on the scale may have come into an empty cell; nothing else changes.
static void expect_kept(const struct document *tried, const struct document *now) {
    for (size_t i = 0; i < tried->count; i++) {
        const struct document_cell *cell = &tried->cell[i];
        const char *value = document_value(now, cell->name);
        if (strcmp(value, cell->value) != 0 &&
            (cell->value[0] != '\0' || strcmp(cell->name, "weight_g") != 0)) {
            fail_msg("%s: \"%s\" became \"%s\"", cell->name, cell->value, value);
        }
    }
}

// "Saved" stands there only when the newest save was answered so, and an unsaved form is all there.
static void expect_true(const struct bench *bench, const struct bench *before) {
    bool tried = bench->fake.saves != before->fake.saves;
    bool saved = bench->fake.saved != before->fake.saved;
    bool says = strncmp(bench->desk.message, "Saved", 5) == 0;
    bool said = strcmp(bench->desk.message, before->desk.message) == 0;
    assert_true(!says || saved || said);
    if (tried && !saved) {
        assert_int_equal(desk_top_of(&bench->desk)->place.goes, GOES_FORM);
        expect_kept(&bench->fake.draft.now, &bench->desk.work.draft.now);
        assert_string_equal(bench->desk.work.draft.id, bench->fake.draft.id);
        assert_false(says);
    }
    if (saved) {
        assert_true(says);
    }
    // Nothing that only a supervisor may do was done without one.
    const struct form_spec *spec = form_spec(bench->fake.draft.form);
    const char *cell = spec->supervised;
    if (tried && (spec->supervisor ||
                  (cell != NULL && document_value(&bench->fake.draft.now, cell)[0] != '\0'))) {
        assert_string_equal(bench->fake.saver, fake_supervisor.badge);
    }
}

// The struct is the state: a copy of it goes on in the same way.
static void expect_copy_goes_on(const struct bench *before, const struct step *step,
                                const struct bench *after) {
    static struct bench copy;
    copy = *before;
    copy.ops.ctx = &copy.fake;
    copy.desk.ops = &copy.ops;
    take(&copy, step);
    copy.desk.ops = after->desk.ops;
    copy.fake.asked = after->fake.asked; // by looking at it
    assert_memory_equal(&copy.desk, &after->desk, sizeof copy.desk);
    assert_memory_equal(&copy.fake, &after->fake, sizeof copy.fake);
}

static void stays_whole(void **state) {
    static struct bench bench, before;
    unsigned saved = 0, refused = 0, forms = 0, deepest = 0;
    const char *wanted = getenv("KERFSIDE_DESK_SEED");
    (void)state;
    seed = wanted != NULL ? (uint32_t)strtoul(wanted, NULL, 10) : SEED;
    bench_begin(&bench, true);
    for (int i = 0; i < STEPS; i++) {
        struct step step = next_step(&bench);
        before = bench;
        take(&bench, &step);
        expect_whole(&bench);
        expect_true(&bench, &before);
        if (i % COPY_EVERY == 0) {
            expect_copy_goes_on(&before, &step, &bench);
        }
        saved += bench.fake.saved - before.fake.saved;
        refused += bench.fake.saves - before.fake.saves > bench.fake.saved - before.fake.saved;
        forms += desk_top(&bench.desk)->place.goes == GOES_FORM;
        deepest = bench.desk.depth > deepest ? (unsigned)bench.desk.depth : deepest;
    }
    print_message("%u saved, %u not, %u steps in forms, %u pages deep\n", saved, refused, forms,
                  deepest);
    // It went where there is something to go wrong.
    assert_true(saved > 100 && refused > 100 && forms > STEPS / 10 && deepest > DESK_DEPTH / 2);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(stays_whole),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
