// The bench itself on a disk that fails: each write, sync, opening, truncation and removal once, or
// that kind from then on for ever, by itself or because the disk is full. A worker cuts a club as
// the screen says, then a copy is made. Whatever happens, after every step:
//
//  - what the bench was told is saved is in the log, once;
//  - NOT LOGGED on the screen, and a stop that says it is not in the log, are true;
//  - a step on the screen has the entries that lead to it in the log.
//
// When the fault is over the club is made to its end, by the same bench or after a restart.

#include "bench.h"
#include "boot.h"
#include "shift.h"

#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <unistd.h>

#define HEAD "H-00028"
#define SHAFT "S-0003O"
#define STEPS_MAX 40
#define STUCK 4 // tries of one entry
#define SAID_MAX 60

static struct fixture prepared; // a closed database with the workshop in it, copied for each run
static struct fixture fixture;
static struct bench_settings settings;
static struct bench bench;
static enum station_save (*real_save)(void *ctx, struct entry *entry);
static sqlite3 *outside; // looks at the log past all faults
static int64_t call;     // that fails in this run
static int complaints;

static struct {
    size_t count;
    char id[SAID_MAX][CONFIRM_ID_MAX]; // of entries that the bench was told are saved
    char tried[CONFIRM_ID_MAX];        // of the last stop
} said;

// --- the log as it is -----------------------------------------------------------

static void wrong(const char *what, const char *detail) {
    dup2(complaints, 2);
    fail_msg("call %d, at %s: %s %s", (int)call, station_state_name(bench.station.state), what,
             detail);
}

static int64_t ask(const char *sql, const char *text) {
    sqlite3_stmt *statement = NULL;
    if ((outside == NULL &&
         sqlite3_open_v2(fixture.path, &outside, SQLITE_OPEN_READWRITE, "unix") != SQLITE_OK) ||
        sqlite3_prepare_v2(outside, sql, -1, &statement, NULL) != SQLITE_OK ||
        sqlite3_bind_text(statement, 1, text, -1, SQLITE_STATIC) != SQLITE_OK ||
        sqlite3_step(statement) != SQLITE_ROW) {
        wrong("the log cannot be read:", sqlite3_errmsg(outside));
    }
    int64_t number = sqlite3_column_int64(statement, 0);
    sqlite3_finalize(statement);
    return number;
}

static int64_t with_id(const char *id) {
    return ask("SELECT count(*) FROM log WHERE confirm_id = ?", id);
}

static int64_t of_kind(enum entry_kind kind) {
    return ask("SELECT count(*) FROM log WHERE kind = ? AND club_id = 3", entry_kind_text(kind));
}

// --- the bench -----------------------------------------------------------------------------------

static enum station_save save(void *ctx, struct entry *entry) {
    enum station_save result = real_save(ctx, entry);
    if (result == STATION_SAVED) {
        assert_true(said.count < SAID_MAX);
        strcpy(said.id[said.count++], entry->confirm_id);
    }
    if (entry->kind == ENTRY_HOLD) {
        strcpy(said.tried, entry->confirm_id);
    }
    return result;
}

static void quiet(void *ctx, enum station_sound sound) {
    (void)ctx;
    (void)sound;
}

static bool open_bench(void) {
    char message[STORE_MESSAGE_MAX] = "";
    memset(&bench, 0, sizeof bench);
    bench.settings = &settings;
    bench.clock = bench_clock_simulated();
    boot_id(bench.boot);
    if (store_open(fixture.path, STORE_WRITE, BENCH, &bench.store, message, sizeof message) !=
        STORE_OK) {
        assert_true(strlen(message) > 20);
        return false;
    }
    bench_init(&bench);
    real_save = bench.ops.save;
    bench.ops.save = save;
    bench.ops.sound = quiet;
    return true;
}

static void close_bench(void) {
    store_close(bench.store);
    bench.store = NULL;
}

static void event(enum event_kind kind, const char *text, int action, int64_t argument) {
    struct event it = {.kind = kind, .action = action, .argument = argument};
    strcpy(it.text, text);
    bench_clock_pass(&bench.clock, 600000);
    bench_event(&bench, &it);
}

static void pick_the_mark(void) {
    const struct view_number *number = &bench_view(&bench)->number;
    for (size_t i = 0; i < number->pick_count; i++) {
        if (number->pick[i].planned) {
            event(EVENT_ACTION, "", ACTION_PICK, number->pick[i].mark.value);
            return;
        }
    }
    wrong("there is no mark to pick", "");
}

// What a worker does next. False: the club is logged.
static bool step(void) {
    if (bench.station.saving != SAVING_NONE) {
        bench_clock_pass(&bench.clock, 2000000);
        event(EVENT_TICK, "", 0, 0);
        return true;
    }
    switch ((int)bench.station.state) {
    case STATION_SIGNED_OUT:
        event(EVENT_SCAN, BUILDER, 0, 0);
        return true;
    case STATION_READY:
        event(EVENT_SCAN, HEAD, 0, 0);
        return true;
    case STATION_PAIR:
        event(EVENT_SCAN, SHAFT, 0, 0);
        return true;
    case STATION_RESUME:
        event(EVENT_ACTION, "", ACTION_RESUME_NOT_CUT, 0);
        return true;
    case STATION_MEASURE:
        pick_the_mark();
        event(EVENT_PRESS, "", 0, 0);
        return true;
    case STATION_LOGGED:
        return false;
    default: // care, the cuts, a stop
        event(EVENT_PRESS, "", 0, 0);
        return true;
    }
}

// --- is it true ----------------------------------------------------------------------------------

static void needs(enum entry_kind kind) {
    if (of_kind(kind) != 1) {
        wrong("is shown without its entry, or with two:", entry_kind_text(kind));
    }
}

static void judge_screen(const struct view *view) {
    bool not_logged = view->body == VIEW_NOTICE && strcmp(view->notice.title, "NOT LOGGED") == 0;
    assert_true(not_logged == (bench.station.saving == SAVING_REFUSED));
    if (not_logged && with_id(bench.station.pending.confirm_id) != 0) {
        wrong("NOT LOGGED is on the screen, and the log has it", "");
    }
    if (bench.station.saving != SAVING_NONE) {
        return;
    }
    if (bench.station.state == STATION_HOLD && !bench.station.hold.logged &&
        with_id(said.tried) != 0) {
        wrong("the stop says it is not in the log, and it is:", view->notice.title);
    }
    switch ((int)bench.station.state) {
    case STATION_LOGGED:
        needs(ENTRY_MEASURE);
        // fall through
    case STATION_MEASURE:
        needs(ENTRY_BUTT_CUT);
        // fall through
    case STATION_BUTT_CUT:
        needs(ENTRY_TIP_CUT);
        break;
    case STATION_TIP_CUT:
        assert_true(of_kind(ENTRY_TIP_SHOWN) > 0);
        break;
    default:
        break;
    }
}

static void judge(void) {
    judge_screen(bench_view(&bench));
    for (size_t i = 0; i < said.count; i++) {
        if (with_id(said.id[i]) != 1) {
            wrong("was said to be saved, and is gone or there twice:", said.id[i]);
        }
    }
}

// Until the club is logged, or nothing goes on for long. True when it is logged.
static bool work(void) {
    int stuck = 0;
    for (int i = 0; i < STEPS_MAX && stuck < STUCK; i++) {
        bool more = step();
        judge();
        if (!more) {
            return true;
        }
        stuck = bench.station.saving != SAVING_NONE ? stuck + 1 : 0;
    }
    return false;
}

// How many calls had been made when it was there or not.
static int64_t copy(void) {
    char path[128];
    struct store *store = NULL;
    char message[STORE_MESSAGE_MAX];
    snprintf(path, sizeof path, "%s.copy", fixture.path);
    store_checkpoint(bench.store); // may fail; that must do no harm
    enum store_result result = store_backup(bench.store, path);
    int64_t calls = tape_calls();
    tape_fail(0, false, TAPE_IO);
    if (result == STORE_OK &&
        store_open(path, STORE_READ, BENCH, &store, message, sizeof message) != STORE_OK) {
        wrong("the copy is no database:", message);
    }
    if (result == STORE_OK) {
        fixture_expect_check(store);
        store_close(store);
    } else {
        assert_true(strlen(store_message(bench.store)) > 20);
    }
    return calls;
}

// --- the runs ------------------------------------------------------------------------------------

static int seen[3]; // NOT LOGGED, checking, openings refused

static void finish(bool restart) {
    if (restart && bench.store != NULL) {
        close_bench();
    }
    if (bench.store == NULL) {
        assert_true(open_bench());
    }
    if (of_kind(ENTRY_MEASURE) == 0 && !work()) {
        wrong("the club does not come to its end:", bench_view(&bench)->notice.title);
    }
    needs(ENTRY_TIP_CUT);
    needs(ENTRY_BUTT_CUT);
    needs(ENTRY_MEASURE);
    fixture_expect_check(bench.store);
    close_bench();
}

// One club with one fault. False when the fault never came.
static bool run(unsigned kinds, bool for_ever, enum tape_error error) {
    shift_copy(&prepared, &fixture);
    tape_begin(fixture.path);
    tape_all();
    said.count = 0;
    strcpy(said.tried, "none");
    tape_fail_only(kinds, call, for_ever, error);
    int64_t calls = 0;
    if (open_bench()) {
        bool ended = work();
        seen[0] += bench.station.saving == SAVING_REFUSED;
        seen[1] += bench.station.saving == SAVING_CHECKING;
        calls = ended ? copy() : tape_calls();
    } else {
        calls = tape_calls();
        seen[2]++;
    }
    tape_fail(0, false, TAPE_IO);
    finish(for_ever);
    sqlite3_close(outside);
    outside = NULL;
    fixture.store = NULL;
    fixture_close(&fixture);
    tape_end();
    return calls >= call;
}

// Fewer are wanted with sanitizers, which are about memory and not about the disk.
static int stride(unsigned kinds) {
    const char *wanted = getenv("KERFSIDE_CUTS");
    return kinds == TAPE_ON_WRITE && wanted != NULL && strtol(wanted, NULL, 10) < 1000 ? 4 : 1;
}

static void sweep(unsigned kinds, const char *what, bool for_ever, enum tape_error error) {
    int silence = open("/dev/null", O_WRONLY | O_CLOEXEC);
    complaints = fcntl(2, F_DUPFD_CLOEXEC, 10);
    dup2(silence, 2); // the bench complains, as it should
    call = 1;
    while (run(kinds, for_ever, error)) {
        call += stride(kinds);
        assert_true(call < 2000);
    }
    dup2(complaints, 2);
    close(complaints);
    close(silence);
    print_message("%d %s failed %s\n", ((int)call - 1) / stride(kinds), what,
                  for_ever ? "for ever" : "once");
}

static const struct {
    unsigned kinds;
    const char *what;
    enum tape_error error;
} faults[] = {
    {TAPE_ON_WRITE, "writes", TAPE_IO},    {TAPE_ON_SYNC, "syncs", TAPE_IO},
    {TAPE_ON_OPEN, "openings", TAPE_IO},   {TAPE_ON_TRUNCATE, "truncations", TAPE_IO},
    {TAPE_ON_UNLINK, "removals", TAPE_IO}, {TAPE_ON_WRITE, "writes on a full disk", TAPE_FULL},
};

static void fails_once(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT(faults); i++) {
        sweep(faults[i].kinds, faults[i].what, false, faults[i].error);
    }
}

static void fails_for_ever(void **state) {
    (void)state;
    memset(seen, 0, sizeof seen);
    for (size_t i = 0; i < COUNT(faults); i++) {
        sweep(faults[i].kinds, faults[i].what, true, faults[i].error);
    }
    assert_true(seen[0] > 10 && seen[1] > 0 && seen[2] > 0);
}

static int prepare(void **state) {
    (void)state;
    settings = bench_settings_default();
    strcpy(settings.station.bench, BENCH);
    setenv("KERFSIDE_ROOM_MB", "0", 1);
    shift_database(&prepared);
    return 0;
}

static int clean_up(void **state) {
    (void)state;
    fixture_close(&prepared);
    return 0;
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(fails_once),
        cmocka_unit_test(fails_for_ever),
    };
    return cmocka_run_group_tests(tests, prepare, clean_up);
}
