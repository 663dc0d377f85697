// How long the review waits for the log: opening it, every filter and every two of them, the life
// of a part, the counts of days, what charts need; then the export, and the check of the chain
// against the bare hash. Warm: each question is asked once before it is measured.
//
//     bench_review DATABASE [ROUNDS]    DATABASE as bench_fill makes it; read only

#include "chain.h"
#include "digest.h"
#include "replay.h"
#include "store.h"

#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

#define ROUNDS 20 // of each question
#define PAGE 12
#define CHART 3000
#define ENTRY_EVERY_MS 20000 // bench_fill's clock
#define HASHED 100000

enum want {
    WANT_DAY,
    WANT_RANGE,
    WANT_BUILD,
    WANT_PART,
    WANT_WORKER,
    WANT_OLDEST, // a worker of the first club alone
    WANT_BENCH,
    WANT_MATERIAL,
    WANT_VERDICT,
    WANT_OPEN,
    WANT_COUNT
};
static const char *const wants[WANT_COUNT] = {"day",    "range", "build",    "part",    "worker",
                                              "oldest", "bench", "material", "verdict", "open"};

struct shop {
    struct store *store;
    int64_t entries;
    int64_t first_ms;
    int64_t last_ms;
    int workers;
    int benches;
    char worker[32][LOG_CHOICE_MAX];
    char bench[32][LOG_CHOICE_MAX];
    uint32_t seed;
};

static double now_ms(clockid_t clock) {
    struct timespec now;
    clock_gettime(clock, &now);
    return (double)now.tv_sec * 1e3 + (double)now.tv_nsec / 1e6;
}

static void must(const struct shop *shop, bool good) {
    if (!good) {
        fprintf(stderr, "bench_review: %s\n", store_message(shop->store));
        exit(1);
    }
}

static int64_t pick(struct shop *shop, int64_t below) {
    shop->seed = shop->seed * 1664525u + 1013904223u;
    return (int64_t)((double)(shop->seed >> 8) / (1 << 24) * (double)below);
}

static struct entry some_entry(struct shop *shop) {
    struct entry entry;
    must(shop, store_entry(shop->store, 2 + pick(shop, shop->entries - 1), &entry) == STORE_OK);
    return entry;
}

static void add(struct shop *shop, enum want want, struct log_filter *filter) {
    const int64_t day = 86400000;
    struct entry entry = some_entry(shop);
    switch (want) {
    case WANT_DAY:
        filter->from_ms = entry.wall_ms / day * day;
        filter->to_ms = filter->from_ms + day;
        break;
    case WANT_RANGE:
        filter->from_ms = entry.wall_ms / day * day;
        filter->to_ms = filter->from_ms + (1 + pick(shop, 2000)) * day;
        // Not as far as the genesis entry, which bench_fill made after the end of its own clock.
        filter->to_ms = filter->to_ms < shop->last_ms ? filter->to_ms : shop->last_ms;
        break;
    case WANT_BUILD:
        memcpy(filter->build, entry.build, sizeof filter->build);
        break;
    case WANT_PART:
        memcpy(filter->ticket, pick(shop, 2) == 0 ? entry.head : entry.shaft,
               sizeof filter->ticket);
        break;
    case WANT_WORKER:
        snprintf(filter->worker, sizeof filter->worker, "%.15s",
                 shop->worker[pick(shop, shop->workers - 1)]);
        break;
    case WANT_OLDEST:
        snprintf(filter->worker, sizeof filter->worker, "%.15s", shop->worker[shop->workers - 1]);
        break;
    case WANT_BENCH:
        snprintf(filter->bench, sizeof filter->bench, "%s", shop->bench[pick(shop, shop->benches)]);
        break;
    case WANT_MATERIAL:
        strcpy(filter->material, pick(shop, 2) == 0 ? "steel" : "graphite");
        break;
    case WANT_VERDICT: // nothing is ever long
        filter->verdict = (enum verdict)(1 + pick(shop, VERDICT_COUNT - 1));
        break;
    case WANT_OPEN:
        filter->needs_decision = true;
        break;
    case WANT_COUNT:
        break;
    }
}

// On the wall, and of the processor alone: what is left of it on a machine with other work.
struct span {
    double wall;
    double busy;
};
#define TIMES_MAX 20000
struct times {
    size_t count;
    double wall[TIMES_MAX];
    double busy[TIMES_MAX];
};

static struct span begin(void) {
    return (struct span){now_ms(CLOCK_MONOTONIC), now_ms(CLOCK_PROCESS_CPUTIME_ID)};
}

static void keep(struct times *times, struct span from) {
    struct span to = begin();
    if (times->count < TIMES_MAX) {
        times->wall[times->count] = to.wall - from.wall;
        times->busy[times->count++] = to.busy - from.busy;
    }
}

static int by_size(const void *a, const void *b) {
    double x = *(const double *)a;
    double y = *(const double *)b;
    return (x > y) - (x < y);
}

static void print(const char *what, struct times *times) {
    size_t count = times->count;
    qsort(times->wall, count, sizeof times->wall[0], by_size);
    qsort(times->busy, count, sizeof times->busy[0], by_size);
    printf("%-42s p50 %6.2f p99 %7.2f longest %8.2f ms; processor p50 %6.2f p99 %6.2f longest "
           "%7.2f (%zu)\n",
           what, times->wall[count / 2], times->wall[count * 99 / 100], times->wall[count - 1],
           times->busy[count / 2], times->busy[count * 99 / 100], times->busy[count - 1], count);
    times->count = 0;
}

// Asked once to have it warm, then measured.
static void ask(struct shop *shop, const struct log_filter *filter, int64_t before, int max,
                struct times *times) {
    static struct log_line lines[CHART];
    must(shop, store_log(shop->store, filter, before, lines, max) >= 0);
    struct span start = begin();
    must(shop, store_log(shop->store, filter, before, lines, max) >= 0);
    keep(times, start);
}

static void filters(struct shop *shop, int rounds) {
    static struct times one, pair;
    double worst = -1;
    const char *slow[2] = {"", ""};
    for (int a = 0; a < WANT_COUNT; a++) {
        for (int b = a; b < WANT_COUNT; b++) {
            for (int i = 0; i < rounds; i++) {
                struct log_filter filter = {0};
                struct times *times = a == b ? &one : &pair;
                add(shop, (enum want)a, &filter);
                add(shop, (enum want)b, &filter);
                ask(shop, &filter, i % 2 == 0 ? 0 : 2 + pick(shop, shop->entries), PAGE, times);
                if (times->busy[times->count - 1] > worst) {
                    worst = times->busy[times->count - 1];
                    slow[0] = wants[a];
                    slow[1] = wants[b];
                }
            }
        }
    }
    print("a page, one filter", &one);
    print("a page, two filters", &pair);
    printf("  the longest by the processor: %s and %s\n", slow[0], slow[1]);
}

static void opening(struct shop *shop, int rounds) {
    static struct times opened, days, year;
    static struct log_line lines[PAGE];
    struct day_count count;
    const int64_t day = 86400000;
    for (int i = 0; i < rounds * 10; i++) {
        int64_t from = some_entry(shop).wall_ms / day * day;
        struct log_filter filter = {.from_ms = from, .to_ms = from + day};
        must(shop, store_log(shop->store, &filter, 0, lines, PAGE) >= 0);
        struct span start = begin();
        must(shop, store_log(shop->store, &filter, 0, lines, PAGE) >= 0);
        must(shop, store_day(shop->store, from, from + day, &count) == STORE_OK);
        keep(&opened, start);
        start = begin();
        must(shop, store_day(shop->store, from, from + day, &count) == STORE_OK);
        keep(&days, start);
        start = begin();
        must(shop, store_day(shop->store, from, from + 365 * day, &count) == STORE_OK);
        keep(&year, start);
    }
    print("opening the review on a day, with its counts", &opened);
    print("counts of a day", &days);
    print("counts of a year", &year);
}

static void lives(struct shop *shop, int rounds) {
    static struct times part, build, charts;
    for (int i = 0; i < rounds * 10; i++) {
        struct log_filter filter = {0};
        add(shop, WANT_PART, &filter);
        ask(shop, &filter, 0, 100, &part);
        filter = (struct log_filter){0};
        add(shop, WANT_BUILD, &filter);
        ask(shop, &filter, 0, 1000, &build);
    }
    for (int i = 0; i < rounds; i++) {
        for (int want = 0; want < WANT_COUNT; want++) {
            struct log_filter filter = {0};
            add(shop, (enum want)want, &filter);
            ask(shop, &filter, 0, CHART, &charts);
        }
    }
    print("the whole life of a part", &part);
    print("the whole life of a build", &build);
    print("the newest 3 000 entries, for charts", &charts);
}

// The same questions without lists: SQLite's way through the table, and pages by offset.
static void otherwise(const struct shop *shop) {
    static const struct {
        const char *what;
        const char *sql;
    } ways[] = {
        {"a worker at a bench never worked at, no list",
         "SELECT seq, kind, worker, bench FROM log NOT INDEXED WHERE worker = (SELECT min(badge) "
         "FROM worker) AND bench = 'Bench 2' ORDER BY seq DESC LIMIT 12"},
        {"page 100 001 by LIMIT and OFFSET",
         "SELECT seq, kind, worker, bench FROM log ORDER BY seq DESC LIMIT 12 OFFSET 1200000"}};
    for (size_t i = 0; i < sizeof ways / sizeof ways[0]; i++) {
        sqlite3_stmt *statement = NULL;
        must(shop,
             sqlite3_prepare_v2(shop->store->db, ways[i].sql, -1, &statement, NULL) == SQLITE_OK);
        double start = now_ms(CLOCK_MONOTONIC);
        while (sqlite3_step(statement) == SQLITE_ROW) {
            // all of the page
        }
        printf("  instead: %-45s %9.1f ms\n", ways[i].what, now_ms(CLOCK_MONOTONIC) - start);
        sqlite3_finalize(statement);
    }
}

static void export(struct shop *shop) {
    int64_t wanted = shop->entries < 1000000 ? shop->entries / 2 : 1000000;
    struct log_filter filter = {.from_ms = shop->first_ms + shop->entries / 2 * ENTRY_EVERY_MS};
    filter.from_ms -= wanted / 2 * ENTRY_EVERY_MS;
    filter.to_ms = filter.from_ms + wanted * ENTRY_EVERY_MS;
    int64_t rows = 0;
    int fd = open("/dev/null", O_WRONLY | O_CLOEXEC);
    double start = now_ms(CLOCK_MONOTONIC);
    double busy = now_ms(CLOCK_PROCESS_CPUTIME_ID);
    must(shop, store_log_csv(shop->store, &filter, fd, &rows) == STORE_OK);
    start = now_ms(CLOCK_MONOTONIC) - start;
    busy = now_ms(CLOCK_PROCESS_CPUTIME_ID) - busy;
    close(fd);
    printf("export of %lld rows: %.0f a second; by processor time %.0f (aim 200000)\n",
           (long long)rows, (double)rows / start * 1e3, (double)rows / busy * 1e3);
}

// The bytes of entries from the middle, as they are hashed, one behind the other.
static size_t encode_some(struct shop *shop, uint8_t *bytes, size_t *sizes) {
    uint8_t hash[ENTRY_HASH_SIZE] = {0};
    size_t used = 0;
    for (int i = 0; i < HASHED; i++) {
        struct entry entry;
        must(shop, store_entry(shop->store, 1 + i % shop->entries, &entry) == STORE_OK);
        sizes[i] = entry_encode(&entry, hash, bytes + used);
        used += sizes[i];
    }
    return used;
}

// Hashes a second of processor time, libsodium's with NULL.
static double hash_some(struct digest *digest, const uint8_t *bytes, const size_t *sizes) {
    uint8_t hash[ENTRY_HASH_SIZE];
    double start = now_ms(CLOCK_PROCESS_CPUTIME_ID);
    for (int i = 0; i < HASHED; i++) {
        digest_run(digest, bytes, sizes[i], hash);
        bytes += sizes[i];
    }
    return HASHED / (now_ms(CLOCK_PROCESS_CPUTIME_ID) - start) * 1e3;
}

static double chain_once(struct shop *shop, bool replayed, const char *what) {
    static struct store_check check;
    struct replay replay = replay_init(shop->store);
    must(shop, connection_read_begin(shop->store) == STORE_OK);
    double start = now_ms(CLOCK_MONOTONIC);
    double busy = now_ms(CLOCK_PROCESS_CPUTIME_ID);
    check = (struct store_check){0};
    must(shop, chain_check(shop->store, &check, NULL, replayed ? &replay : NULL) == STORE_OK);
    start = now_ms(CLOCK_MONOTONIC) - start;
    busy = now_ms(CLOCK_PROCESS_CPUTIME_ID) - busy;
    connection_read_end(shop->store);
    replay_release(&replay);
    double rate = (double)check.entries / start * 1e3;
    printf("%s, %lld entries: %.0f a second; by processor time of both threads %.0f (aim "
           "1000000)\n",
           what, (long long)check.entries, rate, (double)check.entries / busy * 1e3);
    return rate;
}

static void chain(struct shop *shop) {
    uint8_t *bytes = malloc((size_t)HASHED * ENTRY_ENCODED_MAX);
    size_t *sizes = malloc(HASHED * sizeof *sizes);
    struct digest *digest = digest_open();
    must(shop, bytes != NULL && sizes != NULL && digest != NULL);
    size_t used = encode_some(shop, bytes, sizes);
    double sodium = hash_some(NULL, bytes, sizes);
    double crypto = hash_some(digest, bytes, sizes);
    printf("the bare hash of the same bytes, %.0f an entry, one thread: libsodium %.0f a second, "
           "libcrypto %.0f\n",
           (double)used / HASHED, sodium, crypto);
    double rate = chain_once(shop, false, "check of the chain");
    printf("  of the bare hash: %.2f libsodium's, %.2f libcrypto's\n", rate / sodium,
           rate / crypto);
    chain_once(shop, true, "the same, with what the log says of clubs and parts");
    shop->store->shared_from = INT64_MAX;
    chain_once(shop, false, "check of the chain by one thread");
    digest_close(digest);
    free(sizes);
    free(bytes);
    struct store_check check;
    double start = now_ms(CLOCK_MONOTONIC);
    double busy = now_ms(CLOCK_PROCESS_CPUTIME_ID);
    shop->store->shared_from = 0;
    must(shop, store_check(shop->store, &check) == STORE_OK);
    start = now_ms(CLOCK_MONOTONIC) - start;
    busy = now_ms(CLOCK_PROCESS_CPUTIME_ID) - busy;
    printf("all of `kerfside check`, with SQLite's own look at file and references: %.0f entries a "
           "second; by processor time %.0f\n",
           (double)check.entries / start * 1e3, (double)check.entries / busy * 1e3);
}

static int64_t file_size(const char *path) {
    struct stat stat_of;
    return stat(path, &stat_of) == 0 ? stat_of.st_size : 0;
}

int main(int argc, char **argv) {
    static struct shop shop = {.seed = 20261125};
    char message[512];
    struct entry entry;
    struct log_line newest;
    int rounds = argc == 3 ? atoi(argv[2]) : ROUNDS;
    if (argc < 2 || argc > 3 || rounds < 1) {
        fprintf(stderr, "usage: bench_review DATABASE [ROUNDS]\n");
        return 2;
    }
    if (store_open(argv[1], STORE_READ, "Bench 1", &shop.store, message, sizeof message) !=
        STORE_OK) {
        fprintf(stderr, "bench_review: %s\n", message);
        return 1;
    }
    setvbuf(stdout, NULL, _IOLBF, 0);
    sqlite3_set_authorizer(shop.store->db, NULL, NULL); // for the other ways
    struct log_filter none = {0};
    must(&shop, store_log(shop.store, &none, 0, &newest, 1) == 1);
    shop.entries = newest.seq;
    shop.last_ms = newest.wall_ms;
    must(&shop, store_entry(shop.store, 2, &entry) == STORE_OK);
    shop.first_ms = entry.wall_ms;
    shop.workers = store_log_choices(shop.store, LOG_WORKERS, shop.worker, 32);
    shop.benches = store_log_choices(shop.store, LOG_BENCHES, shop.bench, 32);
    must(&shop, shop.workers > 1 && shop.benches > 1);
    opening(&shop, rounds);
    filters(&shop, rounds);
    lives(&shop, rounds);
    otherwise(&shop);
    printf("bytes of the file an entry, with all its parts and orders: %.0f\n",
           (double)file_size(argv[1]) / (double)shop.entries);
    export(&shop);
    chain(&shop);
    store_close(shop.store);
    return 0;
}
