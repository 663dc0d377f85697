// Fills a new database with a shop's years of work for tests/bench/run: clubs, parts, and a log
// with a true hash chain, six entries a club and what stopped it: four benches with three workers
// each, two materials, cuts off the mark of which some wait for a decision. Writes with raw SQL and
// no syncs, since only its result is wanted; `kerfside check` accepts that result.
//
//     bench_fill DATABASE CLUBS ENTRIES

#include "record.h"
#include "store.h"

#include <sodium.h>
#include <sqlite3.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define PER_BUILD 10
#define PENDING_CLUBS 1000 // the last clubs are still to be built
#define BENCHES 4
#define WORKERS 13 // worker i at bench i % BENCHES; the last one made the first club and no other
#define SHORT_EVERY 40
#define OPEN_EVERY 4000 // of the clubs, still to be decided on

struct fill {
    sqlite3 *db;
    sqlite3_stmt *build, *club, *head, *shaft, *log, *progress, *left, *open;
    uint8_t hash[ENTRY_HASH_SIZE];
    int64_t seq;
    int64_t wall_ms;
};

static void must(struct fill *fill, int result) {
    if (result != SQLITE_OK && result != SQLITE_DONE && result != SQLITE_ROW) {
        fprintf(stderr, "bench_fill: %s\n", sqlite3_errmsg(fill->db));
        exit(1);
    }
}

static void run(struct fill *fill, const char *sql) {
    must(fill, sqlite3_exec(fill->db, sql, NULL, NULL, NULL));
}

static sqlite3_stmt *prepare(struct fill *fill, const char *sql) {
    sqlite3_stmt *statement = NULL;
    must(fill, sqlite3_prepare_v2(fill->db, sql, -1, &statement, NULL));
    return statement;
}

static void text(struct fill *fill, sqlite3_stmt *statement, int at, const char *value) {
    must(fill, sqlite3_bind_text(statement, at, value, -1, SQLITE_TRANSIENT));
}

static void number(struct fill *fill, sqlite3_stmt *statement, int at, int64_t value) {
    must(fill, sqlite3_bind_int64(statement, at, value));
}

static void length(struct fill *fill, sqlite3_stmt *statement, int at, length_nm value) {
    must(fill, value == LENGTH_UNKNOWN ? sqlite3_bind_null(statement, at)
                                       : sqlite3_bind_int64(statement, at, value));
}

static void step(struct fill *fill, sqlite3_stmt *statement) {
    must(fill, sqlite3_step(statement));
    must(fill, sqlite3_reset(statement));
}

// The next ticket at or after *counter whose check character may be issued.
static void ticket(enum ticket_kind kind, int64_t *counter, char ret_ticket[TICKET_TEXT_MAX]) {
    struct ticket made;
    char body[TICKET_BODY_MAX + 1];
    do {
        snprintf(body, sizeof body, "%08lld", (long long)(*counter)++);
    } while (!ticket_make(kind, body, &made));
    memcpy(ret_ticket, made.text, TICKET_TEXT_MAX);
}

static void log_entry(struct fill *fill, struct entry *entry) {
    static uint8_t encoded[ENTRY_ENCODED_MAX];
    entry->seq = ++fill->seq;
    entry->wall_ms = fill->wall_ms += 20000;
    entry->mono_ms = fill->seq * 20000;
    snprintf(entry->boot, sizeof entry->boot, "bench");
    snprintf(entry->confirm_id, sizeof entry->confirm_id, "%016llx%016llx",
             (unsigned long long)fill->seq * 0x9e3779b97f4a7c15ull, (unsigned long long)fill->seq);
    crypto_hash_sha256(fill->hash, encoded, entry_encode(entry, fill->hash, encoded));

    sqlite3_stmt *row = fill->log;
    number(fill, row, 1, entry->seq);
    text(fill, row, 2, entry_kind_text(entry->kind));
    number(fill, row, 3, entry->wall_ms);
    number(fill, row, 4, entry->mono_ms);
    text(fill, row, 5, entry->boot);
    text(fill, row, 6, entry->bench);
    text(fill, row, 7, entry->worker);
    if (entry->club_id != 0) {
        number(fill, row, 8, entry->club_id);
    }
    text(fill, row, 9, entry->build);
    text(fill, row, 10, entry->club);
    text(fill, row, 11, entry->head);
    text(fill, row, 12, entry->shaft);
    text(fill, row, 13, entry->confirm_id);
    number(fill, row, 14, entry->attempt);
    length(fill, row, 15, entry->planned);
    length(fill, row, 16, entry->made);
    text(fill, row, 17, verdict_text(entry->verdict));
    text(fill, row, 18, entry->cause);
    text(fill, row, 19, entry->note);
    number(fill, row, 20, entry->chart_revision);
    text(fill, row, 21, entry->plan);
    must(fill, sqlite3_bind_blob(row, 22, fill->hash, ENTRY_HASH_SIZE, SQLITE_TRANSIENT));
    if (entry->refers != 0) {
        number(fill, row, 23, entry->refers);
    }
    step(fill, row);
    must(fill, sqlite3_clear_bindings(row));
}

// The club and its shaft as the measure, the fifth entry, leaves them.
static void done(struct fill *fill, const struct club *club, const struct entry *measure,
                 length_nm tip, bool open) {
    number(fill, fill->progress, 1, tip);
    number(fill, fill->progress, 2, measure->seq - 3);
    number(fill, fill->progress, 3, measure->seq - 1);
    number(fill, fill->progress, 4, measure->seq);
    text(fill, fill->progress, 5, measure->bench);
    number(fill, fill->progress, 6, club->id);
    step(fill, fill->progress);
    number(fill, fill->left, 1, measure->made);
    number(fill, fill->left, 2, club->id);
    step(fill, fill->left);
    if (open) {
        number(fill, fill->open, 1, club->id);
        number(fill, fill->open, 2, measure->seq);
        step(fill, fill->open);
    }
}

static void badge(int worker, char ret_badge[TICKET_TEXT_MAX]) {
    struct ticket made;
    char body[16];
    snprintf(body, sizeof body, "%04d", 1001 + worker * 7);
    if (!ticket_make(TICKET_WORKER, body, &made)) {
        fprintf(stderr, "bench_fill: no badge %s\n", body);
        exit(1);
    }
    memcpy(ret_badge, made.text, TICKET_TEXT_MAX);
}

// What stops a bench between two clubs.
static void fill_stop(int64_t at, struct entry *entry) {
    static const char *const causes[] = {"wrong_pair", "bad_code", "plan_refused", "already_cut",
                                         "not_safe"};
    if (at % 3 == 0) {
        *entry = entry_init(ENTRY_HOLD);
        snprintf(entry->cause, sizeof entry->cause, "%s",
                 causes[(size_t)(at / 3) % (sizeof causes / sizeof causes[0])]);
    } else {
        *entry = entry_init(ENTRY_CARE);
        snprintf(entry->cause, sizeof entry->cause, "%s", at % 2 == 0 ? "graphite" : "steel");
    }
}

static bool is_short(const struct club *club) {
    return club->id % SHORT_EVERY == 7;
}

static bool is_open(const struct club *club) {
    return club->id % OPEN_EVERY == 7;
}

static void measured(const struct club *club, const struct plan *plan, struct entry *entry) {
    const int64_t scatter = (int64_t)((uint64_t)club->id * 0x9e3779b97f4a7c15ull >> 61) - 4;
    entry->planned = plan->butt_mark;
    entry->made = plan->butt_mark + scatter * LENGTH_INCH / 128;
    entry->verdict = VERDICT_IN;
    if (is_short(club)) {
        entry->made = plan->butt_mark - LENGTH_INCH / 8;
        entry->verdict = VERDICT_SHORT;
    }
}

static void log_club(struct fill *fill, const struct club *club, int64_t entries) {
    static const enum entry_kind life[] = {ENTRY_TIP_SHOWN, ENTRY_TIP_CUT, ENTRY_BUTT_SHOWN,
                                           ENTRY_BUTT_CUT, ENTRY_MEASURE};
    const struct bench_rules rules = BENCH_RULES_DEFAULT;
    struct plan_input input;
    struct plan plan;
    struct record record;
    int64_t measure = 0;
    int worker = club->id == 1 ? WORKERS - 1 : (int)(club->id / PER_BUILD % (WORKERS - 1));
    if (!club_plan(club, &rules, &input, &plan)) {
        fprintf(stderr, "bench_fill: the sample club was refused\n");
        exit(1);
    }
    record_make(&input, &plan, &record);
    for (int64_t i = 0; i < entries; i++) {
        struct entry entry = entry_init(i < 5 ? life[i] : ENTRY_DECIDE);
        if (i > 5 || (i == 5 && (!is_short(club) || is_open(club)))) {
            fill_stop(club->id + i, &entry);
        }
        entry.club_id = club->id;
        badge(worker, entry.worker);
        snprintf(entry.bench, sizeof entry.bench, "Bench %d", 1 + worker % BENCHES);
        memcpy(entry.build, club->order.build, sizeof entry.build);
        memcpy(entry.club, club->order.club, sizeof entry.club);
        memcpy(entry.head, club->head.ticket, sizeof entry.head);
        memcpy(entry.shaft, club->shaft.ticket, sizeof entry.shaft);
        if (entry.kind == ENTRY_MEASURE) {
            measured(club, &plan, &entry);
        } else if (entry.kind == ENTRY_DECIDE) {
            entry.refers = measure;
            snprintf(entry.cause, sizeof entry.cause, "use");
        } else if (i < 4) {
            entry.planned = i < 2 ? plan.tip_mark : plan.butt_mark;
            entry.attempt = entry.kind == ENTRY_TIP_CUT || entry.kind == ENTRY_BUTT_CUT;
            entry.made = entry.attempt > 0 ? entry.planned : LENGTH_UNKNOWN;
            entry.chart_revision = 1;
            record_write(&record, entry.plan, sizeof entry.plan);
        }
        log_entry(fill, &entry);
        if (entry.kind == ENTRY_MEASURE) {
            measure = entry.seq;
            done(fill, club, &entry, plan.tip_mark, is_open(club));
        }
    }
}

static void catalogue(struct fill *fill) {
    run(fill,
        "INSERT INTO shaft_model VALUES ('Bench Steel'), ('Bench Graphite');"
        "INSERT INTO shaft_model_revision (model, revision, material, tip, tip_diameter, "
        "butt_diameter, raw_length, weight, tip_section, max_tip_trim, max_butt_trim, bore_note) "
        "SELECT name, 1, lower(substr(name, 7)), 'parallel', 9398000, 15240000, 1041400000, "
        "110000, 203200000, 101600000, 203200000, 'none' FROM shaft_model;"
        "INSERT INTO chart SELECT row_number() OVER (ORDER BY name DESC), name, 'regular', 'iron', "
        "1 FROM shaft_model;"
        "INSERT INTO chart_column (chart, weight, name, tip_trim) SELECT id, column1, column2, "
        "column3 FROM chart, (VALUES (240000, '4', 12700000), (247000, '5', 25400000), "
        "(254000, '6', 38100000));"
        "INSERT INTO head_model VALUES ('Bench Iron');"
        "INSERT INTO head_model_revision (model, revision, kind, engraved, weight, hosel_bore, "
        "insertion, bore_height, bore) VALUES ('Bench Iron', 1, 'iron', '5', 247000, 9398000, "
        "25400000, 25400000, 'blind');");
    sqlite3_stmt *worker = prepare(fill, "INSERT INTO worker (badge, name, role) VALUES (?, 'Bench "
                                         "Builder', 'builder')");
    for (int i = 0; i < WORKERS; i++) {
        char ticket[TICKET_TEXT_MAX];
        badge(i, ticket);
        text(fill, worker, 1, ticket);
        step(fill, worker);
    }
    sqlite3_finalize(worker);
}

static struct club sample(void) {
    struct club club = {
        .head = {.model = "Bench Iron",
                 .kind = HEAD_KIND_IRON,
                 .engraved = "5",
                 .weight = 247 * MASS_GRAM,
                 .hosel_bore = 9398000,
                 .insertion = LENGTH_INCH,
                 .bore_height = LENGTH_INCH},
        .shaft = {.model = "Bench Steel", .flex = "regular", .raw_length = 41 * LENGTH_INCH},
        .model = {.name = "Bench Steel",
                  .tip = TIP_PARALLEL,
                  .tip_diameter = 9398000,
                  .raw_length = 41 * LENGTH_INCH,
                  .tip_section = 8 * LENGTH_INCH,
                  .max_tip_trim = 4 * LENGTH_INCH,
                  .max_butt_trim = 8 * LENGTH_INCH,
                  .revision = 1},
        .chart = {.kind = CHART_KIND_IRON,
                  .flex = "regular",
                  .revision = 1,
                  .count = 3,
                  .column = {{"4", 240 * MASS_GRAM, LENGTH_INCH / 2},
                             {"5", 247 * MASS_GRAM, LENGTH_INCH},
                             {"6", 254 * MASS_GRAM, LENGTH_INCH * 3 / 2}}},
        .order = {.count = PER_BUILD,
                  .playing_length = 38 * LENGTH_INCH,
                  .grip_cap = LENGTH_INCH / 8,
                  .uniform_reference = LENGTH_UNKNOWN,
                  .given_trim = LENGTH_UNKNOWN,
                  .trim_consent = LENGTH_UNKNOWN},
    };
    return club;
}

static void add_club(struct fill *fill, struct club *club, bool pending) {
    if (club->order.position == 1) {
        text(fill, fill->build, 1, club->order.build);
        step(fill, fill->build);
    }
    number(fill, fill->club, 1, club->id);
    text(fill, fill->club, 2, club->order.build);
    text(fill, fill->club, 3, club->order.club);
    number(fill, fill->club, 4, club->order.position);
    text(fill, fill->club, 5, pending ? "pending" : "done");
    step(fill, fill->club);
    text(fill, fill->head, 1, club->head.ticket);
    number(fill, fill->head, 2, club->id);
    step(fill, fill->head);
    text(fill, fill->shaft, 1, club->shaft.ticket);
    text(fill, fill->shaft, 2, pending ? "raw" : "cut");
    number(fill, fill->shaft, 3, club->id);
    text(fill, fill->shaft, 4, club->shaft.model);
    step(fill, fill->shaft);
}

static void everything(struct fill *fill, int64_t clubs, int64_t entries) {
    fill->build = prepare(fill, "INSERT INTO build (name) VALUES (?)");
    fill->club = prepare(fill, "INSERT INTO club (id, build, name, position, due, playing_length, "
                               "grip_cap, stage) VALUES (?, ?, ?, ?, '2026-01-01', 965200000, "
                               "3175000, ?)");
    fill->head = prepare(fill, "INSERT INTO head (ticket, model, weight, bore_height, club) VALUES "
                               "(?, 'Bench Iron', 247000, 25400000, ?)");
    fill->shaft = prepare(fill, "INSERT INTO shaft (ticket, model, flex, raw_length, life, club) "
                                "VALUES (?1, ?4, 'regular', 1041400000, ?2, ?3)");
    fill->progress = prepare(fill, "UPDATE club SET tip_made = ?, tip_seq = ?, butt_seq = ?, "
                                   "measure_seq = ?, bench = ? WHERE id = ?");
    fill->left = prepare(fill, "UPDATE shaft SET remaining = ? WHERE club = ?");
    fill->open =
        prepare(fill, "UPDATE club SET stage = 'decision', decision_seq = ?2 WHERE id = ?1");
    fill->log =
        prepare(fill, "INSERT INTO log (seq, kind, wall_ms, mono_ms, boot, bench, worker, "
                      "club_id, build, club, head, shaft, confirm_id, attempt, planned, made, "
                      "verdict, cause, note, chart_revision, plan, hash, refers) VALUES (?, ?, "
                      "?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)");
    const int64_t built = clubs - PENDING_CLUBS;
    int64_t head = 1;
    int64_t shaft = 1;
    for (int64_t i = 0; i < clubs; i++) {
        struct club club = sample();
        club.id = i + 1;
        club.order.position = (int)(i % PER_BUILD) + 1;
        snprintf(club.order.build, sizeof club.order.build, "%u", (unsigned)(i / PER_BUILD) + 1);
        snprintf(club.order.club, sizeof club.order.club, "%d", club.order.position);
        ticket(TICKET_HEAD, &head, club.head.ticket);
        ticket(TICKET_SHAFT, &shaft, club.shaft.ticket);
        if (i / PER_BUILD % 2 == 1) {
            club.model.material = MATERIAL_GRAPHITE;
            snprintf(club.model.name, sizeof club.model.name, "Bench Graphite");
            memcpy(club.shaft.model, club.model.name, sizeof club.shaft.model);
        }
        add_club(fill, &club, i >= built);
        if (i >= built) {
            continue;
        }
        log_club(fill, &club, entries * (i + 1) / built - entries * i / built);
    }
}

int main(int argc, char **argv) {
    const long long clubs = argc == 4 ? atoll(argv[2]) : 0;
    const long long entries = argc == 4 ? atoll(argv[3]) : 0;
    if (clubs <= PENDING_CLUBS || entries < 6 * clubs || sodium_init() < 0) {
        fprintf(stderr, "usage: bench_fill DATABASE CLUBS ENTRIES (over 1000 clubs, at least six "
                        "entries a club)\n");
        return 2;
    }
    struct store *store = NULL;
    char message[256];
    if (store_open(argv[1], STORE_CREATE, "Bench 1", &store, message, sizeof message) != STORE_OK) {
        fprintf(stderr, "bench_fill: %s\n", message);
        return 1;
    }
    store_close(store);

    struct fill fill = {.wall_ms = 1560000000000};
    must(&fill, sqlite3_open(argv[1], &fill.db));
    run(&fill,
        "PRAGMA synchronous=OFF; PRAGMA cache_size=-1000000; PRAGMA foreign_keys=OFF; BEGIN");
    sqlite3_stmt *last = prepare(&fill, "SELECT seq, hash FROM log ORDER BY seq DESC LIMIT 1");
    must(&fill, sqlite3_step(last));
    fill.seq = sqlite3_column_int64(last, 0);
    memcpy(fill.hash, sqlite3_column_blob(last, 1), ENTRY_HASH_SIZE);
    sqlite3_finalize(last);
    catalogue(&fill);
    everything(&fill, clubs, entries);
    run(&fill, "DELETE FROM log_quarter; INSERT INTO log_quarter (quarter, "
               "clubs_done, cuts, out_of_tolerance, holds) SELECT wall_ms / 900000, "
               "sum(kind = 'measure' AND (SELECT stage FROM club WHERE id = club_id) = 'done'), "
               "sum(kind IN ('tip_cut', 'butt_cut')), sum(kind = 'measure' AND verdict = 'short'), "
               "sum(kind = 'hold') FROM log GROUP BY 1;"
               "INSERT INTO log_span (run, quarter, first_seq, last_seq) "
               "SELECT 2, wall_ms / 900000, min(seq), max(seq) FROM log "
               "WHERE seq > (SELECT max(last_seq) FROM log_span) GROUP BY 2");
    run(&fill, "COMMIT; PRAGMA wal_checkpoint(TRUNCATE)");
    sqlite3_stmt *open = sqlite3_next_stmt(fill.db, NULL);
    while (open != NULL) {
        sqlite3_finalize(open);
        open = sqlite3_next_stmt(fill.db, NULL);
    }
    must(&fill, sqlite3_close(fill.db));
    printf("%lld clubs, %lld log entries\n", clubs, (long long)fill.seq);
    return 0;
}
