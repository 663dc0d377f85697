// stage_advance from every stage with every entry, against a table written apart from the program:
// a row allows, everything no row allows must be refused and move nothing.

#include "check.h"
#include "entry.h"

#include <stdio.h>

enum refers { NOTHING, TIP, BUTT, MEASURED, WRONG, REFERS_COUNT };
static const int64_t seqs[REFERS_COUNT] = {0, 11, 12, 13, 99};
static const char *const causes[] = {"", "no_butt_cut", "use", "recut", "scrap", "other"};
enum { ANY = -1 };

// Every place a club can be in. The numbers say which entries stand.
static const struct place {
    enum stage stage;
    bool tip;
    bool butt;
    bool measured;
    enum refers decision;
} places[] = {
    {STAGE_PENDING, false, false, false, NOTHING},
    {STAGE_TIP_SHOWN, false, false, false, NOTHING},
    {STAGE_TIP_CUT, true, false, false, NOTHING},
    {STAGE_BUTT_SHOWN, true, false, false, NOTHING},
    {STAGE_BUTT_SHOWN, false, false, false, NOTHING},
    {STAGE_BUTT_CUT, true, true, false, NOTHING},
    {STAGE_BUTT_CUT, false, true, false, NOTHING},
    {STAGE_DECISION, true, false, false, TIP},
    {STAGE_DECISION, true, true, true, MEASURED},
    {STAGE_DECISION, true, false, true, MEASURED},
    {STAGE_DECISION, false, false, true, MEASURED},
    {STAGE_DONE, true, true, true, NOTHING},
    {STAGE_DONE, false, true, true, NOTHING},
    {STAGE_DONE, true, false, true, NOTHING},
    {STAGE_DONE, false, false, true, NOTHING},
};

static const struct rule {
    enum entry_kind kind;
    int stage;         // ANY or a stage
    int tip;           // ANY, or whether a tip cut stands
    int butt;          // same for a butt cut
    int decision;      // ANY, or what the decision is about
    int refers;        // ANY or which entry
    const char *cause; // NULL: any
    int verdict;       // ANY or a verdict
    enum stage to;
} rules[] = {
    {ENTRY_TIP_SHOWN, STAGE_PENDING, ANY, ANY, ANY, ANY, NULL, ANY, STAGE_TIP_SHOWN},
    {ENTRY_TIP_SHOWN, STAGE_TIP_SHOWN, ANY, ANY, ANY, ANY, NULL, ANY, STAGE_TIP_SHOWN},
    {ENTRY_TIP_PARTIAL, STAGE_TIP_SHOWN, ANY, ANY, ANY, ANY, NULL, ANY, STAGE_TIP_SHOWN},
    {ENTRY_TIP_CUT, STAGE_TIP_SHOWN, ANY, ANY, ANY, ANY, NULL, VERDICT_SHORT, STAGE_DECISION},
    {ENTRY_TIP_CUT, STAGE_TIP_SHOWN, ANY, ANY, ANY, ANY, NULL, VERDICT_IN, STAGE_TIP_CUT},
    {ENTRY_TIP_CUT, STAGE_TIP_SHOWN, ANY, ANY, ANY, ANY, NULL, VERDICT_LONG, STAGE_TIP_CUT},
    {ENTRY_TIP_CUT, STAGE_TIP_SHOWN, ANY, ANY, ANY, ANY, NULL, VERDICT_NONE, STAGE_TIP_CUT},
    {ENTRY_BUTT_SHOWN, STAGE_PENDING, ANY, ANY, ANY, ANY, NULL, ANY, STAGE_BUTT_SHOWN},
    {ENTRY_BUTT_SHOWN, STAGE_TIP_CUT, ANY, ANY, ANY, ANY, NULL, ANY, STAGE_BUTT_SHOWN},
    {ENTRY_BUTT_SHOWN, STAGE_BUTT_SHOWN, ANY, ANY, ANY, ANY, NULL, ANY, STAGE_BUTT_SHOWN},
    {ENTRY_BUTT_CUT, STAGE_BUTT_SHOWN, ANY, ANY, ANY, ANY, NULL, ANY, STAGE_BUTT_CUT},
    {ENTRY_MEASURE, STAGE_BUTT_CUT, ANY, ANY, ANY, ANY, NULL, VERDICT_IN, STAGE_DONE},
    {ENTRY_MEASURE, STAGE_BUTT_CUT, ANY, ANY, ANY, ANY, NULL, VERDICT_LONG, STAGE_BUTT_CUT},
    {ENTRY_MEASURE, STAGE_BUTT_CUT, ANY, ANY, ANY, ANY, NULL, VERDICT_SHORT, STAGE_DECISION},
#define NO_BUTT(stage, to, verdict)                                                                \
    { ENTRY_MEASURE, stage, ANY, ANY, ANY, ANY, "no_butt_cut", verdict, to }
    NO_BUTT(STAGE_PENDING, STAGE_DONE, VERDICT_IN),
    NO_BUTT(STAGE_PENDING, STAGE_PENDING, VERDICT_LONG),
    NO_BUTT(STAGE_PENDING, STAGE_DECISION, VERDICT_SHORT),
    NO_BUTT(STAGE_TIP_CUT, STAGE_DONE, VERDICT_IN),
    NO_BUTT(STAGE_TIP_CUT, STAGE_TIP_CUT, VERDICT_LONG),
    NO_BUTT(STAGE_TIP_CUT, STAGE_DECISION, VERDICT_SHORT),
    NO_BUTT(STAGE_BUTT_SHOWN, STAGE_DONE, VERDICT_IN),
    NO_BUTT(STAGE_BUTT_SHOWN, STAGE_BUTT_SHOWN, VERDICT_LONG),
    NO_BUTT(STAGE_BUTT_SHOWN, STAGE_DECISION, VERDICT_SHORT),
    {ENTRY_WITHDRAW, STAGE_TIP_CUT, true, ANY, ANY, TIP, NULL, ANY, STAGE_TIP_SHOWN},
    {ENTRY_WITHDRAW, STAGE_BUTT_SHOWN, true, ANY, ANY, TIP, NULL, ANY, STAGE_TIP_SHOWN},
    {ENTRY_WITHDRAW, STAGE_DECISION, true, ANY, TIP, TIP, NULL, ANY, STAGE_TIP_SHOWN},
    {ENTRY_WITHDRAW, STAGE_BUTT_CUT, ANY, true, ANY, BUTT, NULL, ANY, STAGE_BUTT_SHOWN},
    {ENTRY_WITHDRAW, STAGE_DONE, ANY, true, ANY, MEASURED, NULL, ANY, STAGE_BUTT_CUT},
    {ENTRY_WITHDRAW, STAGE_DONE, true, false, ANY, MEASURED, NULL, ANY, STAGE_TIP_CUT},
    {ENTRY_WITHDRAW, STAGE_DONE, false, false, ANY, MEASURED, NULL, ANY, STAGE_PENDING},
    {ENTRY_WITHDRAW, STAGE_DECISION, ANY, true, MEASURED, MEASURED, NULL, ANY, STAGE_BUTT_CUT},
    {ENTRY_WITHDRAW, STAGE_DECISION, true, false, MEASURED, MEASURED, NULL, ANY, STAGE_TIP_CUT},
    {ENTRY_WITHDRAW, STAGE_DECISION, false, false, MEASURED, MEASURED, NULL, ANY, STAGE_PENDING},
    {ENTRY_DECIDE, STAGE_DECISION, ANY, ANY, TIP, TIP, "use", ANY, STAGE_TIP_CUT},
    {ENTRY_DECIDE, STAGE_DECISION, ANY, ANY, MEASURED, MEASURED, "use", ANY, STAGE_DONE},
    {ENTRY_DECIDE, STAGE_DECISION, ANY, ANY, TIP, TIP, "recut", ANY, STAGE_PENDING},
    {ENTRY_DECIDE, STAGE_DECISION, ANY, ANY, MEASURED, MEASURED, "recut", ANY, STAGE_PENDING},
    {ENTRY_DECIDE, STAGE_DECISION, ANY, ANY, TIP, TIP, "scrap", ANY, STAGE_PENDING},
    {ENTRY_DECIDE, STAGE_DECISION, ANY, ANY, MEASURED, MEASURED, "scrap", ANY, STAGE_PENDING},
    {ENTRY_KIT, STAGE_PENDING, ANY, ANY, ANY, ANY, NULL, ANY, STAGE_PENDING},
    {ENTRY_FINAL_LENGTH, STAGE_DONE, ANY, ANY, ANY, ANY, NULL, ANY, STAGE_DONE},
    {ENTRY_FINAL_SWINGWEIGHT, STAGE_DONE, ANY, ANY, ANY, ANY, NULL, ANY, STAGE_DONE},
    {ENTRY_FINAL_FREQUENCY, STAGE_DONE, ANY, ANY, ANY, ANY, NULL, ANY, STAGE_DONE},
    {ENTRY_FINAL_LOFT, STAGE_DONE, ANY, ANY, ANY, ANY, NULL, ANY, STAGE_DONE},
    {ENTRY_FINAL_LIE, STAGE_DONE, ANY, ANY, ANY, ANY, NULL, ANY, STAGE_DONE},
};

static const enum entry_kind about_no_stage[] = {
    ENTRY_GENESIS,  ENTRY_SIGN_ON, ENTRY_SIGN_OFF, ENTRY_CARE,    ENTRY_HOLD,       ENTRY_DRY_FIT,
    ENTRY_CONSENT,  ENTRY_PIN,     ENTRY_IMPORT,   ENTRY_EXPORT,  ENTRY_DAY_SIGNED, ENTRY_CHANGE,
    ENTRY_RESTORED, ENTRY_NOTE,    ENTRY_TOLD,     ENTRY_SETTINGS};

static struct progress progress_at(const struct place *place, const char *bench) {
    struct progress progress = {
        .stage = place->stage,
        .attempt = 1,
        .tip_made = place->tip ? LENGTH_INCH : LENGTH_UNKNOWN,
        .tip_seq = place->tip ? seqs[TIP] : 0,
        .butt_seq = place->butt ? seqs[BUTT] : 0,
        .measure_seq = place->measured ? seqs[MEASURED] : 0,
        .decision_seq = seqs[place->decision],
    };
    strcpy(progress.bench, bench);
    return progress;
}

static bool fits(int wanted, int found) {
    return wanted == ANY || wanted == found;
}

static const struct rule *rule_for(const struct place *place, const struct entry *entry,
                                   enum refers refers) {
    for (size_t i = 0; i < COUNT(rules); i++) {
        const struct rule *rule = &rules[i];
        if (rule->kind == entry->kind && fits(rule->stage, (int)place->stage) &&
            fits(rule->tip, place->tip) && fits(rule->butt, place->butt) &&
            fits(rule->decision, (int)place->decision) && fits(rule->refers, (int)refers) &&
            fits(rule->verdict, (int)entry->verdict) &&
            (rule->cause == NULL || strcmp(rule->cause, entry->cause) == 0)) {
            return rule;
        }
    }
    return NULL;
}

static bool no_stage(enum entry_kind kind) {
    for (size_t i = 0; i < COUNT(about_no_stage); i++) {
        if (about_no_stage[i] == kind) {
            return true;
        }
    }
    return false;
}

// What a supervisor does does not wait for the bench that had the club last.
static bool at_any_bench(enum entry_kind kind) {
    static const enum entry_kind kinds[] = {
        ENTRY_DECIDE,          ENTRY_KIT,        ENTRY_FINAL_LENGTH, ENTRY_FINAL_SWINGWEIGHT,
        ENTRY_FINAL_FREQUENCY, ENTRY_FINAL_LOFT, ENTRY_FINAL_LIE};
    for (size_t i = 0; i < COUNT(kinds); i++) {
        if (kinds[i] == kind) {
            return true;
        }
    }
    return false;
}

static bool stays(enum entry_kind kind) {
    return kind != ENTRY_DECIDE && at_any_bench(kind);
}

// What the entry leaves behind: a cut and what was cut, or nothing of what it withdrew.
static void check_traces(const struct progress *progress, const struct entry *entry,
                         enum refers refers) {
    if (entry->kind == ENTRY_TIP_SHOWN || entry->kind == ENTRY_BUTT_SHOWN) {
        assert_string_equal(progress->bench, entry->bench);
    } else if (entry->kind == ENTRY_TIP_CUT) {
        assert_int_equal(progress->tip_seq, entry->seq);
        assert_int_equal(progress->tip_made, entry->made);
    } else if (entry->kind == ENTRY_TIP_PARTIAL) {
        assert_int_equal(progress->tip_seq, 0);
        assert_int_equal(progress->tip_made, entry->made);
    } else if (entry->kind == ENTRY_BUTT_CUT) {
        assert_int_equal(progress->butt_seq, entry->seq);
    } else if (entry->kind == ENTRY_MEASURE) {
        assert_int_equal(progress->measure_seq, entry->verdict == VERDICT_LONG ? 0 : entry->seq);
    } else if (entry->kind == ENTRY_WITHDRAW) {
        assert_int_equal(refers == TIP ? progress->tip_seq : 0, 0);
        assert_int_equal(refers == BUTT ? progress->butt_seq : 0, 0);
        assert_int_equal(refers == MEASURED ? progress->measure_seq : 0, 0);
        assert_int_equal(progress->tip_made == LENGTH_UNKNOWN, progress->tip_seq == 0);
    }
}

// 0 refused, 1 moved or allowed.
static int try_one(const struct place *place, const struct entry *entry, enum refers refers,
                   const char *bench) {
    struct progress progress = progress_at(place, bench);
    struct progress before = progress;
    const struct rule *rule = rule_for(place, entry, refers);
    bool elsewhere = bench[0] != '\0' && strcmp(bench, entry->bench) != 0;
    bool needs_made = entry->kind == ENTRY_TIP_CUT || entry->kind == ENTRY_TIP_PARTIAL ||
                      entry->kind == ENTRY_FINAL_LENGTH;
    bool needs_planned = entry->kind == ENTRY_MEASURE && place->stage != STAGE_BUTT_CUT;
    bool allowed = rule != NULL && !(elsewhere && !at_any_bench(entry->kind)) &&
                   !(needs_made && entry->made == LENGTH_UNKNOWN) &&
                   !(needs_planned && entry->planned == LENGTH_UNKNOWN);
    bool moved = stage_advance(&progress, entry);
    if (no_stage(entry->kind)) {
        assert_true(moved);
        assert_memory_equal(&progress, &before, sizeof before);
        return 0;
    }
    if (moved != allowed) {
        fail_msg("%s at %s: %s", entry_kind_text(entry->kind), stage_text(place->stage),
                 moved ? "taken" : "refused");
    }
    if (!moved || stays(entry->kind)) {
        assert_memory_equal(&progress, &before, sizeof before);
        return moved ? 1 : 0;
    }
    if (progress.stage != rule->to) {
        fail_msg("%s at %s moved to %s", entry_kind_text(entry->kind), stage_text(place->stage),
                 stage_text(progress.stage));
    }
    assert_int_equal(progress.decision_seq != 0, progress.stage == STAGE_DECISION);
    assert_int_equal(progress.attempt, entry->kind == ENTRY_WITHDRAW ? 2 : 1);
    check_traces(&progress, entry, refers);
    return 1;
}

static void test_every_stage_with_every_entry(void **state) {
    (void)state;
    static const char *const benches[] = {"", "saw 1", "saw 2"};
    size_t tried = 0;
    size_t taken = 0;
    for (size_t place = 0; place < COUNT(places); place++) {
        for (int kind = 0; kind < ENTRY_KIND_COUNT; kind++) {
            // refers, cause, verdict, bench, lengths known
            size_t variants = REFERS_COUNT * COUNT(causes) * VERDICT_COUNT * COUNT(benches) * 3;
            for (size_t variant = 0; variant < variants; variant++) {
                size_t rest = variant;
                struct entry entry = entry_init((enum entry_kind)kind);
                enum refers refers = (enum refers)(rest % REFERS_COUNT);
                rest /= REFERS_COUNT;
                strcpy(entry.cause, causes[rest % COUNT(causes)]);
                rest /= COUNT(causes);
                entry.verdict = (enum verdict)(rest % VERDICT_COUNT);
                rest /= VERDICT_COUNT;
                entry.seq = 50;
                entry.refers = seqs[refers];
                strcpy(entry.bench, "saw 1");
                entry.made = rest / COUNT(benches) == 1 ? LENGTH_UNKNOWN : LENGTH_INCH;
                entry.planned = rest / COUNT(benches) == 2 ? LENGTH_UNKNOWN : LENGTH_INCH;
                taken +=
                    (size_t)try_one(&places[place], &entry, refers, benches[rest % COUNT(benches)]);
                tried++;
            }
        }
    }
    print_message("%zu places, %d kinds: %zu entries tried, %zu moves allowed\n", COUNT(places),
                  ENTRY_KIND_COUNT, tried, taken);
    assert_true(taken > 1000);
}

// An entry the store has not numbered could never be withdrawn: it moves nothing.
static void test_entry_needs_its_number(void **state) {
    (void)state;
    struct progress progress = progress_at(&places[1], "saw 1");
    struct entry entry = entry_init(ENTRY_TIP_CUT);
    strcpy(entry.bench, "saw 1");
    entry.made = LENGTH_INCH;
    assert_false(stage_advance(&progress, &entry));
    entry.seq = 1;
    assert_true(stage_advance(&progress, &entry));
    assert_int_equal(progress.tip_seq, 1);
    assert_int_equal(progress.tip_made, LENGTH_INCH);
}

static void test_recut_forgets_everything(void **state) {
    (void)state;
    struct progress progress = progress_at(&places[8], "saw 1");
    struct progress fresh = progress_at(&places[0], "");
    struct entry entry = entry_init(ENTRY_DECIDE);
    progress.attempt = 4;
    entry.seq = 50;
    entry.refers = seqs[MEASURED];
    strcpy(entry.cause, "recut");
    strcpy(entry.bench, "office"); // a supervisor decides from anywhere
    assert_true(stage_advance(&progress, &entry));
    assert_int_equal(progress.stage, fresh.stage);
    assert_int_equal(progress.attempt, 1);
    assert_int_equal(progress.tip_made, LENGTH_UNKNOWN);
    assert_int_equal(progress.tip_seq + progress.butt_seq + progress.measure_seq, 0);
    assert_int_equal(progress.decision_seq, 0);
    assert_string_equal(progress.bench, "");
}

// --- every sequence: one shaft, one tip cut, one butt cut ---------------------------------------

struct walk {
    struct progress progress;
    int tips; // cuts that stand on the shaft in hand
    int butts;
    int64_t seq;
};
static size_t walked;

static const struct {
    enum entry_kind kind;
    enum verdict verdict;
    const char *cause;
} moves[] = {
    {ENTRY_TIP_SHOWN, VERDICT_NONE, ""},
    {ENTRY_TIP_PARTIAL, VERDICT_NONE, ""},
    {ENTRY_TIP_CUT, VERDICT_IN, ""},
    {ENTRY_TIP_CUT, VERDICT_SHORT, ""},
    {ENTRY_BUTT_SHOWN, VERDICT_NONE, ""},
    {ENTRY_BUTT_CUT, VERDICT_NONE, ""},
    {ENTRY_MEASURE, VERDICT_IN, ""},
    {ENTRY_MEASURE, VERDICT_LONG, ""},
    {ENTRY_MEASURE, VERDICT_SHORT, ""},
    {ENTRY_MEASURE, VERDICT_IN, "no_butt_cut"},
    {ENTRY_MEASURE, VERDICT_SHORT, "no_butt_cut"},
    {ENTRY_WITHDRAW, VERDICT_NONE, ""},
    {ENTRY_DECIDE, VERDICT_NONE, "use"},
    {ENTRY_DECIDE, VERDICT_NONE, "recut"},
};

static void check_standing(const struct walk *walk) {
    const struct progress *progress = &walk->progress;
    assert_true(walk->tips >= 0 && walk->tips <= 1);
    assert_true(walk->butts >= 0 && walk->butts <= 1);
    assert_int_equal(progress->tip_seq != 0, walk->tips == 1);
    assert_int_equal(progress->butt_seq != 0, walk->butts == 1);
    if (progress->stage == STAGE_PENDING || progress->stage == STAGE_TIP_SHOWN) {
        assert_int_equal(walk->tips + walk->butts, 0);
    }
    if (progress->stage == STAGE_BUTT_CUT) {
        assert_int_equal(walk->butts, 1);
    }
    if (progress->stage == STAGE_DONE) {
        assert_int_not_equal(progress->measure_seq, 0);
    }
}

static void explore(struct walk from, int depth) {
    walked++;
    check_standing(&from);
    if (depth == 0) {
        return;
    }
    const int64_t refers[] = {from.progress.tip_seq, from.progress.butt_seq,
                              from.progress.measure_seq};
    for (size_t i = 0; i < COUNT(moves); i++) {
        bool about = moves[i].kind == ENTRY_WITHDRAW || moves[i].kind == ENTRY_DECIDE;
        for (size_t k = 0; k < (about ? COUNT(refers) : 1); k++) {
            struct walk to = from;
            struct entry entry = entry_init(moves[i].kind);
            entry.seq = ++to.seq;
            entry.verdict = moves[i].verdict;
            entry.made = LENGTH_INCH;
            entry.planned = LENGTH_INCH;
            entry.refers = about ? refers[k] : 0;
            strcpy(entry.cause, moves[i].cause);
            if (!stage_advance(&to.progress, &entry)) {
                continue;
            }
            to.tips += moves[i].kind == ENTRY_TIP_CUT ? 1 : 0;
            to.butts += moves[i].kind == ENTRY_BUTT_CUT ? 1 : 0;
            if (moves[i].kind == ENTRY_WITHDRAW) {
                to.tips -= k == 0 ? 1 : 0;
                to.butts -= k == 1 ? 1 : 0;
            }
            if (moves[i].kind == ENTRY_DECIDE && strcmp(moves[i].cause, "recut") == 0) {
                to.tips = 0; // another shaft
                to.butts = 0;
            }
            explore(to, depth - 1);
        }
    }
}

static void test_every_sequence(void **state) {
    (void)state;
    struct walk start = {
        .progress = {.stage = STAGE_PENDING, .attempt = 1, .tip_made = LENGTH_UNKNOWN}};
    explore(start, 10);
    print_message("%zu sequences of up to 10 accepted entries\n", walked);
    assert_true(walked > 100000);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_every_stage_with_every_entry),
        cmocka_unit_test(test_entry_needs_its_number),
        cmocka_unit_test(test_recut_forgets_everything),
        cmocka_unit_test(test_every_sequence),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
