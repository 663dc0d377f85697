// The log as the review shows and exports it.

#include "bench.h"
#include "cause_text.h"
#include "paper_size.h"
#include "practice.h"
#include "text.h"
#include "tickets.h"
#include "tongue.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

#define EXPORTS_A_DAY 1000
#define STATS_LINES 3000 // more than a bench cuts in a day

static struct log_filter filter_of(const struct review_filter *filter) {
    struct log_filter to = {.from_ms = filter->from_ms,
                            .to_ms = filter->to_ms,
                            .verdict = filter->verdict,
                            .needs_decision = filter->open_only};
    memcpy(to.ticket, filter->ticket, sizeof to.ticket);
    memcpy(to.build, filter->build, sizeof to.build);
    memcpy(to.worker, filter->worker, sizeof to.worker);
    memcpy(to.bench, filter->bench, sizeof to.bench);
    memcpy(to.material, filter->material, sizeof to.material);
    return to;
}

static void add_length(const struct bench *bench, length_nm length, struct text *to) {
    char words[LENGTH_TEXT_MAX] = "";
    if (bench->settings->station.metric_first) {
        length_text_mm(length, 1, words);
    } else {
        length_text_fraction(length, words);
    }
    text_add_figure(to, words);
}

static void length_words(const struct bench *bench, length_nm length, char *buffer, size_t size) {
    struct text to = text_open(buffer, size);
    if (length != LENGTH_UNKNOWN) {
        add_length(bench, length, &to);
    }
}

// `1/8 short`, `in`, or why it was stopped.
static void outcome_words(const struct bench *bench, const struct log_line *line, char *buffer,
                          size_t size) {
    struct text to = text_open(buffer, size);
    if (line->verdict == VERDICT_LONG || line->verdict == VERDICT_SHORT) {
        add_length(bench,
                   line->made > line->planned ? line->made - line->planned
                                              : line->planned - line->made,
                   &to);
        text_add(&to, " ");
    }
    text_add(&to, line->verdict != VERDICT_NONE ? verdict_words(line->verdict)
                                                : cause_text(line->cause));
}

static void fill_row(const struct bench *bench, const struct log_line *line, bool days,
                     struct view_log_row *row) {
    *row = (struct view_log_row){.seq = line->seq};
    if (days) {
        bench_clock_date(line->wall_ms, row->time, sizeof row->time);
    } else {
        bench_clock_text(line->wall_ms, false, row->time, sizeof row->time);
    }
    snprintf(row->build, sizeof row->build, "%s%s%.7s", line->build,
             line->club[0] != '\0' ? "-" : "", line->club);
    snprintf(row->shaft, sizeof row->shaft, "%s", line->shaft);
    snprintf(row->cut, sizeof row->cut, "%s", entry_kind_words(line->kind));
    length_words(bench, line->planned, row->plan, sizeof row->plan);
    length_words(bench, line->made, row->made, sizeof row->made);
    outcome_words(bench, line, row->verdict, sizeof row->verdict);
    row->tone = line->open                     ? TONE_STOP
                : line->kind == ENTRY_HOLD     ? TONE_CAUTION
                : line->kind == ENTRY_WITHDRAW ? TONE_CAUTION
                                               : TONE_PLAIN;
}

int bench_choices(void *ctx, enum station_choice choice, char texts[][STATION_CHOICE_MAX],
                  int max) {
    static const enum log_choice of[] = {[CHOICE_WORKERS] = LOG_WORKERS,
                                         [CHOICE_BENCHES] = LOG_BENCHES,
                                         [CHOICE_MATERIALS] = LOG_MATERIALS};
    const struct bench *bench = ctx;
    return store_log_choices(bench->store, of[choice], texts, max);
}

int bench_log_rows(void *ctx, const struct review_filter *filter, int64_t before,
                   struct view_log_row *rows, int max) {
    const struct bench *bench = ctx;
    struct log_filter wanted = filter_of(filter);
    struct log_line lines[STATION_ROWS_MAX];
    bool days = filter->from_ms == 0 ||
                bench_clock_day_start(filter->to_ms - 1) != filter->from_ms; // more than one
    int count = store_log(bench->store, &wanted, before, lines,
                          max < STATION_ROWS_MAX ? max : STATION_ROWS_MAX);
    for (int i = 0; i < count; i++) {
        fill_row(bench, &lines[i], days, &rows[i]);
    }
    return count;
}

struct remarks {
    struct station_remark *remark;
    int max;
    int64_t total;
};

// The newest of all that come, in a ring.
static bool remember(void *context, const struct entry *entry) {
    struct remarks *to = context;
    struct station_remark *remark = &to->remark[to->total++ % to->max];
    *remark = (struct station_remark){.kind = entry->kind, .wall_ms = entry->wall_ms};
    memcpy(remark->worker, entry->worker, sizeof remark->worker);
    memcpy(remark->cause, entry->cause, sizeof remark->cause);
    memcpy(remark->note, entry->note, sizeof remark->note);
    return true;
}

enum station_lookup bench_about(void *ctx, int64_t seq, struct station_remark *remarks, int max,
                                int *ret_count, int64_t *ret_total) {
    const struct bench *bench = ctx;
    struct station_remark ring[VIEW_SAID_MAX] = {0};
    struct remarks to = {.remark = ring, .max = max < VIEW_SAID_MAX ? max : VIEW_SAID_MAX};
    if (store_log_about(bench->store, seq, seq, remember, &to) != STORE_OK) {
        return STATION_LOOKUP_FAILED;
    }
    int count = to.total < to.max ? (int)to.total : to.max;
    for (int i = 0; i < count; i++) {
        remarks[i] = ring[(to.total - count + i) % to.max];
    }
    *ret_count = count;
    *ret_total = to.total;
    return count > 0 ? STATION_FOUND : STATION_ABSENT;
}

struct newest {
    struct log_line *line; // newest first
    int count;
    bool withdrawn[STATS_LINES];
};

// Marks the line that a later entry takes back.
static bool take_back(void *context, const struct entry *entry) {
    struct newest *newest = context;
    int low = 0;
    int high = newest->count;
    while (low < high) {
        int middle = low + (high - low) / 2;
        if (newest->line[middle].seq > entry->refers) {
            low = middle + 1;
        } else {
            high = middle;
        }
    }
    if (entry->kind == ENTRY_WITHDRAW && low < newest->count &&
        newest->line[low].seq == entry->refers) {
        newest->withdrawn[low] = true;
    }
    return true;
}

static bool read_newest(struct store *store, const struct log_filter *wanted,
                        struct newest *newest) {
    newest->line = calloc(STATS_LINES, sizeof *newest->line);
    newest->count =
        newest->line != NULL ? store_log(store, wanted, 0, newest->line, STATS_LINES) : -1;
    return newest->count == 0 ||
           (newest->count > 0 &&
            store_log_about(store, newest->line[newest->count - 1].seq, newest->line[0].seq,
                            take_back, newest) == STORE_OK);
}

// The newest entries of the filter, told from the oldest on: what charts of a day or a build need.
enum station_lookup bench_stats(void *ctx, const struct review_filter *filter,
                                struct cut_stats *ret_stats) {
    const struct bench *bench = ctx;
    struct log_filter wanted = filter_of(filter);
    struct newest *newest = calloc(1, sizeof *newest);
    bool read = newest != NULL && read_newest(bench->store, &wanted, newest);
    for (int i = read ? newest->count - 1 : -1; i >= 0; i--) {
        const struct log_line *line = &newest->line[i];
        struct cut_fact fact = {.kind = line->kind,
                                .planned = line->planned,
                                .made = line->made,
                                .cause = line->cause,
                                .hour = bench_clock_hour(line->wall_ms),
                                .withdrawn = newest->withdrawn[i]};
        cut_stats_add(ret_stats, &fact);
    }
    if (read && newest->count == STATS_LINES) {
        ret_stats->left_out_before_ms = newest->line[STATS_LINES - 1].wall_ms;
    }
    if (newest != NULL) {
        free(newest->line);
        free(newest);
    }
    return read ? STATION_FOUND : STATION_LOOKUP_FAILED;
}

bool bench_tickets(void *ctx, const char *build, char *ret_path, size_t size) {
    const struct bench *bench = ctx;
    const char *db = store_path(bench->store);
    const char *slash = strrchr(db, '/');
    int folder = slash == NULL ? 0 : (int)(slash - db) + 1;
    char path[VIEW_TEXT_MAX];
    char message[256] = "";
    if (snprintf(path, sizeof path, "%.*s%stickets-%s.pdf", folder, db, practice_prefix(), build) >=
            (int)sizeof path ||
        tickets_build(bench->store, build, path,
                      ticket_stock_named(paper_size_name(paper_size(bench->settings->paper))),
                      message, sizeof message) != STORE_OK) {
        fprintf(stderr, "kerfside bench: %s\n", message);
        return false;
    }
    snprintf(ret_path, size, "%s", path);
    return true;
}

int bench_new_file(const struct bench *bench, const char *begin, int64_t day_ms, const char *end,
                   char *ret_path, size_t size) {
    const char *db = store_path(bench->store);
    const char *slash = strrchr(db, '/');
    int folder = slash == NULL ? 0 : (int)(slash - db) + 1;
    time_t seconds = (time_t)(day_ms / 1000);
    struct tm date = {0};
    char day[32] = "";
    bench_watch_extend(&bench->watch, BENCH_WATCH_LONG_US);
    localtime_r(&seconds, &date);
    strftime(day, sizeof day, "%Y-%m-%d", &date);
    for (int i = 1; i <= EXPORTS_A_DAY; i++) {
        char number[16] = "";
        int fd;
        if (i > 1) {
            snprintf(number, sizeof number, "-%d", i);
        }
        if (snprintf(ret_path, size, "%.*s%s%s-%s%s.%s", folder, db, practice_prefix(), begin, day,
                     number, end) >= (int)size) {
            errno = ENAMETOOLONG;
            return -1;
        }
        fd = open(ret_path, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0660);
        if (fd >= 0 || errno != EEXIST) {
            return fd;
        }
    }
    return -1;
}

bool bench_export(void *ctx, const struct review_filter *filter, char *ret_path, size_t size) {
    const struct bench *bench = ctx;
    struct log_filter wanted = filter_of(filter);
    char path[VIEW_TEXT_MAX];
    int64_t rows;
    bool written;
    int64_t day = filter->from_ms != 0 ? filter->from_ms : bench_clock_wall_ms(&bench->clock);
    int fd = bench_new_file(bench, "log", day, "csv", path, sizeof path);
    if (fd < 0) {
        fprintf(stderr, _("kerfside bench: cannot make a file for the log beside %s: %s.\n"),
                store_path(bench->store), strerror(errno));
        return false;
    }
    written = store_log_csv(bench->store, &wanted, fd, &rows) == STORE_OK && fsync(fd) == 0;
    if (close(fd) != 0 || !written) {
        unlink(path);
        return false;
    }
    snprintf(ret_path, size, "%s", path);
    return true;
}
