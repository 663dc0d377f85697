#include "busy.h"
#include "connection.h"
#include "database.h"
#include "plan.h"
#include "record.h"

#include <stdio.h>
#include <stdlib.h>

struct busy {
    struct scratch *scratch;
    uint32_t seed;
    int64_t now_ms;
    int64_t step_ms;
    int clubs;
    int spare; // the next one
};

static uint32_t pick(struct busy *busy, uint32_t below) {
    busy->seed = busy->seed * 1664525u + 1013904223u;
    return (busy->seed >> 8) % below;
}

// --- what is to be cut ---------------------------------------------------------------------------

static void ticket_of(enum ticket_kind kind, int number, char ticket[TICKET_TEXT_MAX]) {
    char body[8];
    struct ticket made;
    do { // those that have no check character are left out
        snprintf(body, sizeof body, "%05d", number);
        number += 20000;
    } while (!ticket_make(kind, body, &made));
    memcpy(ticket, made.text, sizeof made.text);
}

static void put_order(FILE *file, int i, bool long_names) {
    char head[TICKET_TEXT_MAX];
    char shaft[TICKET_TEXT_MAX];
    ticket_of(TICKET_HEAD, 100 + i, head);
    ticket_of(TICKET_SHAFT, 100 + i, shaft);
    fprintf(file, long_names ? "GRUNWALD%04d," : "%d,", (long_names ? 0 : 3000) + i / 10);
    fprintf(file, long_names ? "Längste Löß%d," : "%d,", i % 10);
    fprintf(file, "2026-03-31,%s,%s,43,1/8,50,D2,0,no\n", head, shaft);
}

static void put_parts(const struct scratch *scratch, int clubs, bool long_names) {
    char ticket[TICKET_TEXT_MAX];
    FILE *heads = fopen(scratch_path(scratch, "busy_heads.csv"), "we");
    FILE *shafts = fopen(scratch_path(scratch, "busy_shafts.csv"), "we");
    FILE *orders = fopen(scratch_path(scratch, "busy_builds.csv"), "we");
    assert_true(heads != NULL && shafts != NULL && orders != NULL);
    fputs("ticket,model,weight_g,dry_fit_overall,dry_fit_raw,bore_height\n", heads);
    fputs("ticket,model,flex,raw_length,weight_g,rack\n", shafts);
    fputs("build,club,due,head,shaft,playing_length,grip_cap,grip_weight_g,swingweight,step,"
          "uniform_flex\n",
          orders);
    for (int i = 0; i < clubs + BUSY_SPARES; i++) {
        ticket_of(TICKET_SHAFT, 100 + i, ticket);
        fprintf(shafts, "%s,Rod,R,46,110,\n", ticket);
        if (i < clubs) {
            ticket_of(TICKET_HEAD, 100 + i, ticket);
            fprintf(heads, "%s,Knob,210,,,1\n", ticket);
            put_order(orders, i, long_names);
        }
    }
    assert_true(fclose(heads) == 0 && fclose(shafts) == 0 && fclose(orders) == 0);
}

static void bring(struct scratch *scratch, int clubs, bool long_names) {
    scratch_import_workshop(scratch);
    put_parts(scratch, clubs, long_names);
    assert_int_equal(
        rename(scratch_path(scratch, "busy_heads.csv"), scratch_path(scratch, "heads.csv")), 0);
    assert_int_equal(
        rename(scratch_path(scratch, "busy_shafts.csv"), scratch_path(scratch, "shafts.csv")), 0);
    assert_int_equal(
        rename(scratch_path(scratch, "busy_builds.csv"), scratch_path(scratch, "builds.csv")), 0);
    scratch_write(
        scratch, "workers.csv",
        long_names ? "badge,name,role\nW-0001B,Ada Quill,supervisor\nW-00029," BUSY_NAME
                     ",builder\n"
                   : "badge,name,role\nW-0001B,Ada Quill,supervisor\nW-00029,Ben Rusk,builder\n");
    if (scratch_import(scratch, "heads.csv", "shafts.csv", "builds.csv", "workers.csv", NULL) !=
        STORE_OK) {
        fail_msg("%s\n%s", scratch->messages, store_message(scratch->store));
    }
}

// --- the day -------------------------------------------------------------------------------------

static struct entry new_entry(struct busy *busy, enum entry_kind kind, const struct club *club) {
    struct entry entry = entry_init(kind);
    database_stamp(&entry);
    busy->now_ms += busy->step_ms;
    entry.wall_ms = busy->now_ms;
    strcpy(entry.bench, club->id % 7 == 0 ? "Säge, 2" : "Bench 1");
    strcpy(entry.worker, club->id % 4 == 0 ? "W-0001B" : "W-00029");
    entry.club_id = club->id;
    strcpy(entry.build, club->order.build);
    strcpy(entry.club, club->order.club);
    strcpy(entry.head, club->head.ticket);
    strcpy(entry.shaft, club->shaft.ticket);
    entry.attempt = kind == ENTRY_TIP_CUT || kind == ENTRY_BUTT_CUT ? club->progress.attempt : 0;
    return entry;
}

static int64_t append(struct busy *busy, struct entry *entry, struct club *club) {
    if (store_append(busy->scratch->store, entry) != STORE_OK ||
        store_club(busy->scratch->store, club->id, club) != STORE_OK) {
        fail_msg("%s %s-%s: %s", entry_kind_text(entry->kind), entry->build, entry->club,
                 store_message(busy->scratch->store));
    }
    return entry->seq;
}

// A cut or measure with its plan, so much off its mark.
static int64_t cut(struct busy *busy, struct club *club, enum entry_kind kind, length_nm off,
                   enum verdict verdict) {
    static const struct bench_rules rules = BENCH_RULES_DEFAULT;
    struct plan_input input;
    struct plan plan;
    struct record record;
    struct entry entry = new_entry(busy, kind, club);
    assert_true(club_plan(club, &rules, &input, &plan));
    record_make(&input, &plan, &record);
    assert_true(record_write(&record, entry.plan, sizeof entry.plan));
    entry.planned =
        kind == ENTRY_TIP_CUT || kind == ENTRY_TIP_SHOWN ? plan.tip_mark : plan.butt_mark;
    if (kind != ENTRY_TIP_SHOWN && kind != ENTRY_BUTT_SHOWN) {
        entry.made = entry.planned + off;
        entry.verdict = verdict;
    }
    return append(busy, &entry, club);
}

static void withdraw(struct busy *busy, struct club *club, int64_t refers) {
    struct entry entry = new_entry(busy, ENTRY_WITHDRAW, club);
    entry.refers = refers;
    append(busy, &entry, club);
}

static void decide(struct busy *busy, struct club *club, int64_t refers) {
    static const char *const why[] = {
        "=the customer was asked, and takes it a \"little\" shorter",
        "Spalt im Rohr, nicht mehr zu halten; Ærø and more words, as somebody careful does",
        "-1/8 is no harm here"};
    char spare[TICKET_TEXT_MAX] = "";
    uint32_t how = pick(busy, 5);
    if (how == 4) {
        return; // somebody decides another day
    }
    struct entry entry = new_entry(busy, ENTRY_DECIDE, club);
    strcpy(entry.worker, "W-0001B");
    entry.refers = refers;
    if (how == 3 && busy->spare < BUSY_SPARES) {
        ticket_of(TICKET_SHAFT, 100 + busy->clubs + busy->spare++, spare);
    }
    strcpy(entry.cause, spare[0] != '\0' ? "recut" : how == 0 ? "scrap" : "use");
    snprintf(entry.note, sizeof entry.note, "%s%s%s", spare, spare[0] != '\0' ? " " : "",
             why[pick(busy, 3)]);
    append(busy, &entry, club);
}

static void note(struct busy *busy, struct club *club, int64_t about) {
    struct entry entry = new_entry(busy, ENTRY_NOTE, club);
    strcpy(entry.worker, "W-0001B");
    entry.refers = about;
    strcpy(entry.note, "=looked at, and the edge is clean");
    append(busy, &entry, club);
}

static bool tip(struct busy *busy, struct club *club) {
    cut(busy, club, ENTRY_TIP_SHOWN, 0, VERDICT_NONE);
    if (pick(busy, 11) == 0) {
        int64_t seq = cut(busy, club, ENTRY_TIP_CUT, 0, VERDICT_IN);
        withdraw(busy, club, seq);
        cut(busy, club, ENTRY_TIP_SHOWN, 0, VERDICT_NONE);
    }
    if (pick(busy, 10) == 0) {
        decide(busy, club, cut(busy, club, ENTRY_TIP_CUT, LENGTH_INCH / 8, VERDICT_SHORT));
        return club->progress.stage == STAGE_TIP_CUT;
    }
    int64_t seq = cut(busy, club, ENTRY_TIP_CUT, 0, VERDICT_IN);
    if (club->id % 2 == 1) {
        note(busy, club, seq);
    }
    return true;
}

static void measure(struct busy *busy, struct club *club) {
    length_nm off = (length_nm)pick(busy, 7) * LENGTH_64TH - 3 * LENGTH_64TH;
    if (pick(busy, 12) == 0) {
        cut(busy, club, ENTRY_MEASURE, 9 * LENGTH_64TH, VERDICT_LONG);
    }
    if (pick(busy, 14) == 0) {
        withdraw(busy, club, cut(busy, club, ENTRY_MEASURE, 0, VERDICT_IN));
    }
    if (pick(busy, 9) == 0) {
        decide(busy, club, cut(busy, club, ENTRY_MEASURE, -LENGTH_INCH / 8, VERDICT_SHORT));
    } else {
        cut(busy, club, ENTRY_MEASURE, off, VERDICT_IN);
    }
}

static void hold(struct busy *busy, struct club *club) {
    static const char *const causes[] = {"wrong_pair", "already_cut", "bad_code",
                                         "not_safe",   "wrong_pair",  "supervisor"};
    struct entry entry = new_entry(busy, ENTRY_HOLD, club);
    strcpy(entry.cause, causes[pick(busy, 6)]);
    append(busy, &entry, club);
}

void busy_day(struct scratch *scratch, int clubs, bool long_names, int64_t begin_ms,
              uint32_t seed) {
    struct busy busy = {.scratch = scratch, .seed = seed, .now_ms = begin_ms, .clubs = clubs};
    struct club club;
    assert_true(clubs <= BUSY_CLUBS_MAX);
    bring(scratch, clubs, long_names);
    sqlite3_set_authorizer(scratch->store->db, NULL, NULL);
    assert_int_equal(sqlite3_exec(scratch->store->db, "PRAGMA synchronous=OFF", NULL, NULL, NULL),
                     SQLITE_OK); // made up, and thrown away
    busy.step_ms = (int64_t)36000000 / (clubs * 9 + 1);
    int64_t first = scratch_ask(scratch, "SELECT min(id) FROM club WHERE build <> '1'");
    for (int64_t id = first; id < first + clubs; id++) {
        assert_int_equal(store_club(scratch->store, id, &club), STORE_OK);
        if (pick(&busy, 5) == 0) {
            hold(&busy, &club);
        }
        if (tip(&busy, &club)) {
            cut(&busy, &club, ENTRY_BUTT_SHOWN, 0, VERDICT_NONE);
            cut(&busy, &club, ENTRY_BUTT_CUT, 0, VERDICT_NONE);
            measure(&busy, &club);
        }
    }
}
