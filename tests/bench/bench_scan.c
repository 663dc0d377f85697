// Scan to marks: from the Enter that ends the second scan until the mark is on the screen, durable
// entry included, through the functions the live bench uses. Beside it, in the same run, the same
// scan that ends in a refused pair, which draws as much but writes only the stop: the ratio is what
// planning, the care of the mark and its entry cost.
//
//     bench_scan DATABASE ROUNDS WIDTH HEIGHT [PROGRAM FOLDER]
//
// DATABASE as bench_fill makes it. With a PROGRAM (kerfside) the same again while it copies the
// database into FOLDER, as the bench has it done.

#include "bench.h"
#include "layouts.h"

#include <linux/input-event-codes.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#define ROUNDS_MAX 1000

static double seconds(void) {
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (double)now.tv_sec + (double)now.tv_nsec / 1e9;
}

static void pass(struct bench *bench, int64_t us) {
    bench_clock_pass(&bench->clock, us);
    bench_tick(bench);
    bench_draw(bench);
}

static void key(struct bench *bench, uint16_t code, bool down) {
    bench_key(bench, &bench->keys, code, down, bench->clock.mono_us);
}

static void write_text(struct bench *bench, const char *text) {
    for (; *text != '\0'; text++) {
        uint16_t code;
        enum layout_level level;
        if (!layout_key(LAYOUT_US, *text, &code, &level)) {
            fprintf(stderr, "bench_scan: no key for %c\n", *text);
            exit(1);
        }
        bench_clock_pass(&bench->clock, 4000);
        if (level == LEVEL_SHIFT) {
            key(bench, KEY_LEFTSHIFT, true);
        }
        key(bench, code, true);
        key(bench, code, false);
        if (level == LEVEL_SHIFT) {
            key(bench, KEY_LEFTSHIFT, false);
        }
    }
}

// Seconds from the burst's Enter to the end of the drawing.
static double scan(struct bench *bench, const char *text) {
    double start;
    write_text(bench, text);
    bench_clock_pass(&bench->clock, 4000);
    start = seconds();
    key(bench, KEY_ENTER, true);
    bench_draw(bench);
    start = seconds() - start;
    key(bench, KEY_ENTER, false);
    pass(bench, 600000);
    return start;
}

static void press(struct bench *bench) {
    bench_button(bench, true, bench->clock.mono_us);
    pass(bench, 100000);
    bench_button(bench, false, bench->clock.mono_us);
    pass(bench, 600000);
}

static void start_over(struct bench *bench) {
    struct event event = {.kind = EVENT_ACTION, .action = ACTION_START_OVER};
    bench_event(bench, &event);
    pass(bench, 600000);
}

static int by_size(const void *a, const void *b) {
    double left = *(const double *)a;
    double right = *(const double *)b;
    return left < right ? -1 : left > right;
}

static void expect(const struct bench *bench, enum station_state state) {
    if (bench->station.state != state) {
        fprintf(stderr, "bench_scan: the bench is at %s, not %s\n",
                station_state_name(bench->station.state), station_state_name(state));
        exit(1);
    }
}

static void report(const char *what, double *times, int count) {
    qsort(times, (size_t)count, sizeof *times, by_size);
    printf("%s: p50 %.1f ms, p99 %.1f ms, most %.1f ms over %d\n", what, 1e3 * times[count / 2],
           1e3 * times[count * 99 / 100], 1e3 * times[count - 1], count);
}

// The most memory this process, which is the whole bench, had resident.
static void report_memory(void) {
    char line[128];
    FILE *file = fopen("/proc/self/status", "re");
    while (file != NULL && fgets(line, sizeof line, file) != NULL) {
        long kilobytes;
        if (sscanf(line, "VmHWM: %ld", &kilobytes) == 1) {
            printf("resident at most, all this done: %.1f MB (aim 80)\n", (double)kilobytes / 1024);
        }
    }
    if (file != NULL) {
        fclose(file);
    }
}

// Begins a copy when it is due, too.
static bool copying(struct bench *bench) {
    bench_backup_tick(&bench->backup, bench_clock_us(&bench->clock),
                      bench_clock_wall_ms(&bench->clock));
    return bench->backup.child.pid != 0;
}

// As many rounds as are asked for, or as a copy that goes on lasts.
static void measure(struct bench *bench, int rounds, bool beside) {
    static struct club_line lines[ROUNDS_MAX];
    static double marks[ROUNDS_MAX];
    static double stops[ROUNDS_MAX];
    static double heads[ROUNDS_MAX];
    char badge[TICKET_TEXT_MAX];
    int count = store_clubs(bench->store, CLUBS_NEXT, lines, rounds, NULL);
    int marked = 0;
    int done = 0;
    if (count < 4) {
        fprintf(stderr, "bench_scan: no clubs are waiting in this database\n");
        exit(1);
    }
    snprintf(badge, sizeof badge, "W-1001%c", ticket_check_char("W1001", 5));
    scan(bench, badge);
    expect(bench, STATION_READY);
    for (int i = 0; i < count && (!beside || copying(bench)); i++, done++) {
        heads[i] = scan(bench, lines[i].head);
        expect(bench, STATION_PAIR);
        stops[i] = scan(bench, lines[(i + 1) % count].shaft);
        expect(bench, STATION_HOLD);
        press(bench);
        scan(bench, lines[i].head);
        double mark = scan(bench, lines[i].shaft);
        if (bench->station.state == STATION_CARE) {
            press(bench); // the first of its material: not a scan that leads straight to the mark
        } else {
            marks[marked++] = mark;
        }
        expect(bench, STATION_TIP_CUT);
        start_over(bench);
    }
    if (marked == 0) {
        fprintf(stderr, "bench_scan: the copy was made before anything was measured\n");
        exit(1);
    }
    report("scan to mark on the screen (aim p99 under 50 ms)", marks, marked);
    report("  scan to a refused pair on the screen", stops, done);
    printf("  ratio of the medians %.2f\n", marks[marked / 2] / stops[done / 2]);
    report("  scan of a head to its screen, nothing saved", heads, done);
}

// The same beside a copy, which is begun here.
static void measure_beside(struct bench *bench, int rounds, const char *program,
                           const char *folder) {
    struct bench_settings settings = *bench->settings;
    double start = seconds();
    snprintf(settings.backup, sizeof settings.backup, "%s", folder);
    bench_backup_init(&bench->backup, &settings, program, store_path(bench->store),
                      bench_clock_us(&bench->clock), bench_clock_wall_ms(&bench->clock));
    pass(bench, (int64_t)31 * 1000000); // the first is not due at once
    if (!copying(bench)) {
        fprintf(stderr, "bench_scan: no copy was begun\n");
        exit(1);
    }
    printf("while the database is copied:\n");
    measure(bench, rounds, true);
    bool lasted = copying(bench);
    printf("  %s after %.1f s\n", lasted ? "goes on" : "copied", seconds() - start);
    if (bench->backup.failing) {
        fprintf(stderr, "bench_scan: the copy failed: %s\n", bench->backup.why);
        exit(1);
    }
    bench_backup_stop(&bench->backup);
    bench->backup = (struct bench_backup){.child = CHILD_NONE};
}

int main(int argc, char **argv) {
    static struct bench bench;
    struct bench_settings settings = bench_settings_default();
    struct screen_options screen = {.windowed = true, .assets = KERFSIDE_SOURCE_DIR "/assets"};
    char message[512];
    int rounds = argc == 5 || argc == 7 ? atoi(argv[2]) : 0;
    if (rounds < 2 || rounds > ROUNDS_MAX) {
        fprintf(stderr, "usage: bench_scan DATABASE ROUNDS WIDTH HEIGHT [PROGRAM FOLDER]\n");
        return 2;
    }
    screen.width = atoi(argv[3]);
    screen.height = atoi(argv[4]);
    bench.settings = &settings;
    if (store_open(argv[1], STORE_WRITE, "Bench 1", &bench.store, message, sizeof message) !=
            STORE_OK ||
        !screen_open(&screen, &bench.screen, message, sizeof message)) {
        fprintf(stderr, "bench_scan: %s\n", message);
        return 1;
    }
    bench.clock = bench_clock_simulated();
    bench_init(&bench);
    pass(&bench, 1000000);
    measure(&bench, rounds, false);
    if (argc == 7) {
        measure_beside(&bench, ROUNDS_MAX, argv[5], argv[6]);
    }
    report_memory();
    screen_close(bench.screen);
    store_close(bench.store);
    return 0;
}
