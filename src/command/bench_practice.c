#include "bench_practice.h"
#include "bench.h"
#include "demo.h"
#include "tongue.h"

#include <stdio.h>
#include <string.h>
#include <time.h>

#define LOOK_US 250000 // for the end of the copy
#define IDLE_US ((int64_t)15 * 60 * 1000000)
#define HALF_CUT_MAX 200

static enum station_save refused_all(void *ctx, struct entry *entries, size_t count) {
    struct bench *bench = ctx;
    if (!lesson_refuses(&bench->practice.lesson)) {
        return bench->real_save_all(ctx, entries, count);
    }
    snprintf(bench->why, sizeof bench->why, "%s", _("Practice: the disk refuses on purpose."));
    return STATION_SAVE_FAILED;
}

static enum station_save refused(void *ctx, struct entry *entry) {
    return refused_all(ctx, entry, 1);
}

void bench_practice_init(struct bench *bench, const struct bench_begins *begins,
                         const char *program) {
    struct bench_practice *practice = &bench->practice;
    *practice = (struct bench_practice){
        .on = store_is_practice(bench->store), .program = program, .child = CHILD_NONE};
    practice->unused = !practice->on && demo_folder() != NULL;
    lesson_init(&practice->lesson, begins->tour);
    if (!practice->on) {
        return;
    }
    bench->real_save_all = bench->ops.save_all;
    bench->ops.save_all = refused_all;
    bench->ops.save = refused;
    if (begins->badge != NULL) {
        snprintf(practice->badge, sizeof practice->badge, "%s", begins->badge);
    }
    if (begins->resume != NULL) {
        lesson_read(&practice->lesson, begins->resume);
    }
    bench_lessons_pick(bench, begins->resume != NULL, &practice->lesson.parts);
}

bool bench_practice_barred(struct store *store, const char *bench, char *ret_club, size_t size) {
    static struct club_line lines[HALF_CUT_MAX]; // large
    int count = store_clubs(store, CLUBS_HALF_CUT, lines, HALF_CUT_MAX, NULL);
    for (int i = 0; i < count; i++) {
        if (lines[i].stage != STAGE_DECISION && strcmp(lines[i].bench, bench) == 0) {
            snprintf(ret_club, size, "%s-%s", lines[i].build, lines[i].club);
            return true;
        }
    }
    return false;
}

static bool begin_copy(struct bench *bench, struct desk_said *ret_said) {
    struct bench_practice *practice = &bench->practice;
    const char *const arguments[] = {
        "kerfside", "practice", "--copy", "--db", store_path(bench->store), NULL};
    if (practice->child.pid == 0 && !child_start(&practice->child, practice->program, arguments)) {
        ret_said->tone = TONE_STOP;
        snprintf(ret_said->message, sizeof ret_said->message, "%s",
                 _("No copy to practise on: the program could not be started."));
        return false;
    }
    snprintf(ret_said->message, sizeof ret_said->message, "%s",
             _("A copy to practise on is being made. Practice begins by itself."));
    return true;
}

bool bench_practice_ask(struct bench *bench, bool tour, struct desk_said *ret_said) {
    struct bench_practice *practice = &bench->practice;
    char club[PARTS_BUILD_MAX + PARTS_SHORT_MAX];
    ret_said->tone = TONE_CAUTION;
    if (practice->on) {
        snprintf(ret_said->message, sizeof ret_said->message, "%s", _("This is practice already."));
        return false;
    }
    if (bench_practice_barred(bench->store, bench->settings->station.bench, club, sizeof club)) {
        snprintf(ret_said->message, sizeof ret_said->message,
                 _("Not now: club %.40s is half cut at this bench. Finish it first."), club);
        return false;
    }
    if (tour && demo_folder() == NULL) {
        snprintf(ret_said->message, sizeof ret_said->message, "%s",
                 _("The imaginary workshop's files are not installed here."));
        return false;
    }
    ret_said->tone = TONE_FINE;
    if (tour) {
        practice->leaves = BENCH_TO_TOUR;
        return true;
    }
    return begin_copy(bench, ret_said);
}

// --- events --------------------------------------------------------------------------------------

static void pass_on(struct bench *bench, const struct event *event) {
    bench_desk_event(bench, event);
    bench->stale = true;
}

static bool is_on(const struct bench *bench) {
    return bench->station.worker.badge[0] != '\0';
}

static bool at_rest(const struct bench *bench) {
    return bench->station.saving == SAVING_NONE &&
           (bench->station.state == STATION_READY || bench->station.state == STATION_SIGNED_OUT ||
            bench->station.state == STATION_DESK);
}

static bool on_screen(const struct view *view, enum view_action_id id) {
    for (size_t i = 0; i < view->action_count; i++) {
        if (view->action[i].id == id) {
            return true;
        }
    }
    return false;
}

// What is going on is laid aside by the ways that the screen offers.
static void lay_aside(struct bench *bench) {
    static const enum view_action_id ways[] = {ACTION_START_OVER, ACTION_BACK};
    for (int tries = 0; tries < 6 && !(at_rest(bench) && bench->station.state != STATION_DESK);
         tries++) {
        struct view view;
        station_view(&bench->station, &view);
        struct event event = {.kind = EVENT_PRESS};
        for (size_t i = 0; i < sizeof ways / sizeof *ways; i++) {
            if (on_screen(&view, ways[i])) {
                event = (struct event){.kind = EVENT_ACTION, .action = (int)ways[i]};
                break;
            }
        }
        pass_on(bench, &event);
    }
}

static void begin_lesson(struct bench *bench, enum lesson_id id) {
    struct lesson_parts parts;
    lay_aside(bench);
    bench_lessons_pick(bench, false, &parts);
    lesson_begin(&bench->practice.lesson, id, &parts);
}

static bool is_action(const struct event *event, enum view_action_id id) {
    return event->kind == EVENT_ACTION && event->action == (int)id;
}

// The real bench knows one thing of all this: the tour that it offers while it is unused.
static bool real_event(struct bench *bench, const struct event *event) {
    bool tour = is_action(event, ACTION_TOUR) && bench->practice.unused && at_rest(bench);
    if (tour) {
        bench->practice.leaves = BENCH_TO_TOUR;
    }
    return tour;
}

bool bench_practice_event(struct bench *bench, const struct event *event) {
    struct bench_practice *practice = &bench->practice;
    struct lesson_act act;
    if (!practice->on) {
        return real_event(bench, event);
    }
    switch (lesson_event(&practice->lesson, event, bench_view(bench), &act)) {
    case LESSON_PASSES:
        return false;
    case LESSON_TAKES:
        break;
    case LESSON_DOES:
        for (int i = 0; i < act.count; i++) {
            pass_on(bench, &act.event[i]);
        }
        break;
    case LESSON_BEGINS:
        begin_lesson(bench, act.id);
        break;
    case LESSON_CUTS:
        practice->leaves = BENCH_POWER_LOST;
        break;
    case LESSON_ENDS:
        practice->leaves = BENCH_TO_WORK;
        break;
    }
    return true;
}

bool bench_practice_look(struct bench *bench, const struct event *event) {
    struct bench_practice *practice = &bench->practice;
    const struct lesson_seen seen = {.state = bench->station.state,
                                     .cause = bench->station.hold.cause,
                                     .saving = bench->station.saving};
    bool was_on = practice->signed_on;
    practice->signed_on = is_on(bench);
    if (!practice->on) {
        return false;
    }
    bool idle = bench_clock_us(&bench->clock) - bench->last_input_us >= IDLE_US;
    if (event->kind == EVENT_TICK && (idle || (was_on && !practice->signed_on))) {
        practice->leaves = BENCH_TO_WORK; // nobody practises any more
    }
    return lesson_look(&practice->lesson, &seen);
}

// --- view ----------------------------------------------------------------------------------------

// Nothing was ever cut here, as far as the counts of clubs tell.
static bool still_unused(struct bench *bench) {
    struct club_line line;
    int64_t done = 1;
    int64_t half = 1;
    return store_clubs(bench->store, CLUBS_CUT, &line, 1, &done) >= 0 &&
           store_clubs(bench->store, CLUBS_HALF_CUT, &line, 1, &half) >= 0 && done + half == 0;
}

static void offer_tour(struct bench *bench) {
    struct view *view = &bench->view;
    bool here = bench->station.state == STATION_SIGNED_OUT; // later the desk has it
    bench->practice.unused = bench->practice.unused && (!here || still_unused(bench));
    if (here && bench->practice.unused) {
        view_offer(view, ACTION_TOUR, 0, _("First time? Take the tour"), "F8", TONE_FINE);
    }
}

void bench_practice_view(struct bench *bench) {
    const struct bench_practice *practice = &bench->practice;
    if (practice->on) {
        lesson_view(&practice->lesson, &bench->view);
        return;
    }
    offer_tour(bench);
}

// --- time ----------------------------------------------------------------------------------------

// The copy is there. Whoever has gone on to work meanwhile is not taken away from it.
static void copied(struct bench *bench, bool good, const char *said) {
    struct bench_practice *practice = &bench->practice;
    const char *colon = strstr(said, ": ");
    char words[VIEW_TEXT_MAX];
    char club[PARTS_BUILD_MAX + PARTS_SHORT_MAX];
    if (!good) {
        snprintf(words, sizeof words, "%.*s", (int)strcspn(colon != NULL ? colon + 2 : said, "\n"),
                 colon != NULL ? colon + 2 : said);
        fprintf(stderr, _("kerfside bench: no copy to practise on: %s\n"), words);
        desk_say(&bench->desk, TONE_STOP, words);
    } else if (!at_rest(bench) || bench_view(bench)->body == VIEW_FORM ||
               bench_practice_barred(bench->store, bench->settings->station.bench, club,
                                     sizeof club)) {
        desk_say(&bench->desk, TONE_CAUTION, _("Practice was not begun: work went on meanwhile."));
    } else {
        snprintf(practice->badge, sizeof practice->badge, "%s", bench->station.worker.badge);
        practice->leaves = BENCH_TO_PRACTICE;
    }
}

bool bench_practice_tick(struct bench *bench) {
    struct bench_practice *practice = &bench->practice;
    char said[CHILD_TEXT_MAX];
    bool good;
    if (!child_ended(&practice->child, &good, said)) {
        return false;
    }
    copied(bench, good, said);
    return true;
}

int64_t bench_practice_patience(const struct bench *bench) {
    const struct bench_practice *practice = &bench->practice;
    if (practice->on) {
        int64_t left = bench->last_input_us + IDLE_US - bench_clock_us(&bench->clock);
        return left > 0 ? left : 0;
    }
    return practice->child.pid != 0 ? LOOK_US : -1;
}

void bench_practice_wait(struct bench *bench) {
    const struct timespec moment = {.tv_nsec = 5000000};
    while (bench->practice.child.pid != 0) {
        if (bench_practice_tick(bench)) {
            bench->stale = true;
            bench->dirty = true;
        } else {
            nanosleep(&moment, NULL);
        }
    }
}

bool bench_practice_again(struct bench *bench, struct desk_said *ret_said) {
    if (bench->practice.on || !at_rest(bench)) {
        snprintf(ret_said->message, sizeof ret_said->message, "%s",
                 _("Not now: something else is going on."));
        return false;
    }
    bench->practice.leaves = BENCH_AGAIN;
    return true;
}

void bench_practice_stop(struct bench *bench) {
    enum bench_leaves leaves = bench->practice.leaves;
    child_stop(&bench->practice.child);
    if ((leaves == BENCH_TO_PRACTICE || leaves == BENCH_TO_TOUR || leaves == BENCH_AGAIN) &&
        is_on(bench)) {
        struct event event = {.kind = EVENT_ACTION, .action = ACTION_SIGN_OUT};
        pass_on(bench, &event);
    }
}
