// Fills a new database with a shop's years of work for tests/bench/run: clubs, parts, and a log
// with a true hash chain, six entries a club. Writes with raw SQL and no syncs, since only its
// result is wanted; `kerfside check` accepts that result.
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

struct fill {
    sqlite3 *db;
    sqlite3_stmt *build, *club, *head, *shaft, *log, *progress, *left;
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
    snprintf(entry->bench, sizeof entry->bench, "Bench 1");
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
    step(fill, row);
    must(fill, sqlite3_clear_bindings(row));
}

// The club and its shaft as the measure, the fifth entry of six, leaves them.
static void done(struct fill *fill, int64_t id, int64_t measure, length_nm tip, length_nm left) {
    number(fill, fill->progress, 1, tip);
    number(fill, fill->progress, 2, measure - 3);
    number(fill, fill->progress, 3, measure - 1);
    number(fill, fill->progress, 4, measure);
    number(fill, fill->progress, 5, id);
    step(fill, fill->progress);
    number(fill, fill->left, 1, left);
    number(fill, fill->left, 2, id);
    step(fill, fill->left);
}

static void log_club(struct fill *fill, const struct club *club, int64_t entries) {
    static const struct {
        enum entry_kind kind;
        bool planned;
        bool measured;
    } life[] = {{ENTRY_TIP_SHOWN, true, false},  {ENTRY_TIP_CUT, true, false},
                {ENTRY_BUTT_SHOWN, true, false}, {ENTRY_BUTT_CUT, true, false},
                {ENTRY_MEASURE, false, true},    {ENTRY_CARE, false, false}};
    const struct bench_rules rules = BENCH_RULES_DEFAULT;
    struct plan_input input;
    struct plan plan;
    struct record record;
    if (!club_plan(club, &rules, &input, &plan)) {
        fprintf(stderr, "bench_fill: the sample club was refused\n");
        exit(1);
    }
    record_make(&input, &plan, &record);
    for (int64_t i = 0; i < entries; i++) {
        const size_t at = (size_t)i % (sizeof life / sizeof life[0]);
        struct entry entry = entry_init(i < 6 ? life[at].kind : ENTRY_CARE);
        entry.club_id = club->id;
        snprintf(entry.worker, sizeof entry.worker, "W-0001%c", ticket_check_char("W0001", 5));
        memcpy(entry.build, club->order.build, sizeof entry.build);
        memcpy(entry.club, club->order.club, sizeof entry.club);
        memcpy(entry.head, club->head.ticket, sizeof entry.head);
        memcpy(entry.shaft, club->shaft.ticket, sizeof entry.shaft);
        if (entry.kind == ENTRY_CARE) {
            snprintf(entry.cause, sizeof entry.cause, "steel");
        } else if (life[at].measured) {
            entry.planned = plan.butt_mark;
            entry.made = plan.butt_mark;
            entry.verdict = VERDICT_IN;
        } else {
            bool tip = entry.kind == ENTRY_TIP_SHOWN || entry.kind == ENTRY_TIP_CUT;
            entry.planned = tip ? plan.tip_mark : plan.butt_mark;
            if (entry.kind == ENTRY_TIP_CUT || entry.kind == ENTRY_BUTT_CUT) {
                entry.attempt = 1;
                entry.made = entry.planned;
                entry.verdict = VERDICT_IN;
            }
            record_write(&record, entry.plan, sizeof entry.plan);
        }
        log_entry(fill, &entry);
        if (entry.kind == ENTRY_MEASURE) {
            done(fill, club->id, fill->seq, plan.tip_mark, plan.butt_mark);
        }
    }
}

static void catalogue(struct fill *fill) {
    run(fill,
        "INSERT INTO shaft_model VALUES ('Bench Steel');"
        "INSERT INTO shaft_model_revision (model, revision, material, tip, tip_diameter, "
        "butt_diameter, raw_length, weight, tip_section, max_tip_trim, max_butt_trim, bore_note, "
        "bore_reference, note_kinds, note_not_through) VALUES ('Bench Steel', 1, 'steel', "
        "'parallel', 9398000, "
        "15240000, 1041400000, 110000, 203200000, 101600000, 203200000, 'none', NULL, 0, 0);"
        "INSERT INTO chart VALUES (1, 'Bench Steel', 'regular', 'iron', 1);"
        "INSERT INTO chart_column VALUES (1, 240000, '4', 12700000), (1, 247000, '5', 25400000), "
        "(1, 254000, '6', 38100000);"
        "INSERT INTO head_model VALUES ('Bench Iron');"
        "INSERT INTO head_model_revision (model, revision, kind, engraved, weight, hosel_bore, "
        "insertion, bore_height, bore, loft, lie) VALUES ('Bench Iron', 1, 'iron', '5', 247000, "
        "9398000, "
        "25400000, 25400000, 'blind', NULL, NULL);");
    sqlite3_stmt *worker = prepare(
        fill, "INSERT INTO worker (badge, name, role) VALUES (?, 'Bench Builder', 'builder')");
    char badge[TICKET_TEXT_MAX];
    snprintf(badge, sizeof badge, "W-0001%c", ticket_check_char("W0001", 5));
    text(fill, worker, 1, badge);
    step(fill, worker);
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
                  .uniform_reference = LENGTH_UNKNOWN},
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
    step(fill, fill->shaft);
}

static void everything(struct fill *fill, int64_t clubs, int64_t entries) {
    fill->build = prepare(fill, "INSERT INTO build VALUES (?)");
    fill->club = prepare(fill, "INSERT INTO club (id, build, name, position, due, playing_length, "
                               "grip_cap, stage) VALUES (?, ?, ?, ?, '2026-01-01', 965200000, "
                               "3175000, ?)");
    fill->head = prepare(fill, "INSERT INTO head (ticket, model, weight, bore_height, club) VALUES "
                               "(?, 'Bench Iron', 247000, 25400000, ?)");
    fill->shaft = prepare(fill, "INSERT INTO shaft (ticket, model, flex, raw_length, life, club) "
                                "VALUES (?, 'Bench Steel', 'regular', 1041400000, ?, ?)");
    fill->log =
        prepare(fill, "INSERT INTO log (seq, kind, wall_ms, mono_ms, boot, bench, worker, "
                      "club_id, build, club, head, shaft, confirm_id, attempt, planned, made, "
                      "verdict, cause, note, chart_revision, plan, hash) VALUES (?, ?, ?, ?, ?, "
                      "?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)");
    fill->progress = prepare(fill, "UPDATE club SET tip_made = ?, tip_seq = ?, butt_seq = ?, "
                                   "measure_seq = ?, bench = 'Bench 1' WHERE id = ?");
    fill->left = prepare(fill, "UPDATE shaft SET remaining = ? WHERE club = ?");
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
        add_club(fill, &club, i >= built);
        if (i < built) {
            log_club(fill, &club, entries * (i + 1) / built - entries * i / built);
        }
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

    struct fill fill = {.wall_ms = 1700000000000};
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
    run(&fill,
        "DELETE FROM log_quarter; INSERT INTO log_quarter (quarter, first_seq, last_seq, "
        "clubs_done, cuts, out_of_tolerance, holds) SELECT wall_ms / 900000, min(seq), max(seq), "
        "sum(kind = 'measure' AND verdict = 'in'), sum(kind IN ('tip_cut', 'butt_cut')), 0, 0 "
        "FROM log GROUP BY 1");
    run(&fill, "COMMIT; PRAGMA wal_checkpoint(TRUNCATE)");
    printf("%lld clubs, %lld log entries\n", clubs, (long long)fill.seq);
    return 0;
}
