#include "day_papers.h"
#include "assets.h"
#include "day_seal.h"
#include "days.h"
#include "text.h"
#include "tongue.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#define PEOPLE_MAX 200
#define BENCHES_MAX 12 // more are others

struct made {
    struct day_facts facts;
    struct workday sum;
    struct day_report_cut *cuts;
    size_t cut_count;
    struct day_report_decision *decisions;
    size_t decision_count;
    struct day_report_person people[PEOPLE_MAX];
    size_t person_count;
    char bench[BENCHES_MAX][ENTRY_BENCH_MAX];
    size_t bench_count;
    struct day_report_seal seal;
};

static int hour_of(int64_t wall_ms) {
    time_t seconds = (time_t)(wall_ms / 1000);
    struct tm date = {.tm_hour = 0};
    localtime_r(&seconds, &date);
    return date.tm_hour;
}

static bool more_days(const struct made *made) {
    return made->facts.to_ms - made->facts.from_ms > (int64_t)26 * 3600 * 1000;
}

static void club_words(const struct day_fact *fact, char *buffer, size_t size) {
    snprintf(buffer, size, "%s-%s", fact->build, fact->club);
}

// --- part by part --------------------------------------------------------------------------------

static void add_bench(struct made *made, const char *bench) {
    size_t at = 0;
    while (at < made->bench_count && strcmp(made->bench[at], bench) != 0) {
        at++;
    }
    if (at == made->bench_count && at < BENCHES_MAX) {
        memcpy(made->bench[made->bench_count++], bench, ENTRY_BENCH_MAX);
    }
}

static void bench_words(const struct made *made, char *buffer, size_t size) {
    struct text text = text_open(buffer, size);
    char names[BENCHES_MAX * (ENTRY_BENCH_MAX + 2)];
    struct text list = text_open(names, sizeof names);
    for (size_t i = 0; i < made->bench_count; i++) {
        text_add(&list, i > 0 ? ", " : "");
        text_add(&list, made->bench[i]);
    }
    text_say(&text, made->bench_count == BENCHES_MAX ? _("%1 and others") : "%1", names);
}

static void add_person(struct made *made, const struct day_fact *fact) {
    size_t at = 0;
    while (at < made->person_count && strcmp(made->people[at].badge, fact->worker) != 0) {
        at++;
    }
    if (at == PEOPLE_MAX) {
        return;
    }
    if (at == made->person_count) {
        made->people[made->person_count++] = (struct day_report_person){.cuts = 0};
        memcpy(made->people[at].badge, fact->worker, sizeof made->people[at].badge);
    }
    made->people[at].cuts += !fact->withdrawn && fact->kind != ENTRY_MEASURE;
}

static void add_cut(struct made *made, const struct day_fact *fact) {
    struct day_report_cut *cut = &made->cuts[made->cut_count++];
    *cut = (struct day_report_cut){.kind = fact->kind,
                                   .planned = fact->planned,
                                   .made = fact->made,
                                   .verdict = fact->verdict,
                                   .withdrawn = fact->withdrawn,
                                   .open = day_fact_open(fact)};
    days_time(fact->wall_ms, more_days(made), cut->time, sizeof cut->time);
    memcpy(cut->worker, fact->worker, sizeof cut->worker);
    memcpy(cut->shaft, fact->shaft, sizeof cut->shaft);
    club_words(fact, cut->club, sizeof cut->club);
    add_person(made, fact);
}

static void add_decision(struct made *made, struct store *store, const struct day_fact *fact,
                         const struct entry *about) {
    struct day_report_decision *decision = &made->decisions[made->decision_count++];
    *decision = (struct day_report_decision){.kind = fact->kind,
                                             .about = about->kind,
                                             .about_seq = about->seq,
                                             .planned = about->planned,
                                             .made = about->made};
    days_time(fact->wall_ms, more_days(made), decision->time, sizeof decision->time);
    day_seal_who(store, fact->worker, decision->who, sizeof decision->who);
    if (fact->club[0] != '\0') {
        club_words(fact, decision->club, sizeof decision->club);
    }
    memcpy(decision->shaft, fact->shaft, sizeof decision->shaft);
    memcpy(decision->cause, fact->cause, sizeof decision->cause);
    memcpy(decision->why, fact->note, sizeof decision->why);
}

static bool take(struct made *made, struct store *store, const struct day_fact *fact) {
    struct entry entry = entry_init(fact->kind);
    struct entry about;
    bool note = fact->kind == ENTRY_NOTE;
    bool decision = fact->kind == ENTRY_DECIDE || note;
    struct workday_later later = {.withdrawn = fact->withdrawn,
                                  .open = day_fact_open(fact),
                                  .decided = fact->decided,
                                  .hour = hour_of(fact->wall_ms)};
    entry.planned = fact->planned;
    entry.made = fact->made;
    entry.verdict = fact->verdict;
    memcpy(entry.cause, fact->cause, sizeof entry.cause);
    if (decision && store_entry(store, fact->refers, &about) != STORE_OK) {
        return false;
    }
    if (!note) { // words count nowhere
        workday_add(&made->sum, &entry, decision ? &about : NULL, &later);
        add_bench(made, decision ? about.bench : fact->bench);
    }
    if (decision) {
        add_decision(made, store, fact, &about);
    } else if (fact->kind != ENTRY_HOLD) {
        add_cut(made, fact);
    }
    return true;
}

static void name_people(struct made *made, struct store *store) {
    for (size_t i = 0; i < made->person_count; i++) {
        struct worker worker;
        if (store_worker(store, made->people[i].badge, &worker) == STORE_OK) {
            memcpy(made->people[i].name, worker.name, sizeof made->people[i].name);
        }
    }
}

static bool fill(struct made *made, struct store *store, const struct day_papers *papers,
                 char *message, size_t size) {
    enum store_result result = day_facts_read(store, papers->from_ms, papers->to_ms, &made->facts);
    if (result != STORE_OK) {
        snprintf(message, size, "%s", store_message(store));
        return false;
    }
    made->cuts = calloc(made->facts.count + 1, sizeof *made->cuts);
    made->decisions = calloc(made->facts.count + 1, sizeof *made->decisions);
    if (made->cuts == NULL || made->decisions == NULL || made->facts.no_memory) {
        snprintf(message, size, _("No memory for so many entries."));
        return false;
    }
    for (size_t i = 0; i < made->facts.count; i++) {
        if (!take(made, store, &made->facts.fact[i])) {
            snprintf(message, size, "%s", store_message(store));
            return false;
        }
    }
    workday_sort(&made->sum);
    name_people(made, store);
    return day_seal_make(store, papers, &made->facts, &made->seal, message, size);
}

static bool write(const struct made *made, const struct day_papers *papers, const char *path,
                  size_t *ret_pages, char *message, size_t size) {
    char title[DAYS_TITLE_MAX];
    char day[CHECKPOINT_DAY_MAX];
    char time[32];
    char printed[48];
    char bench[BENCHES_MAX * (ENTRY_BENCH_MAX + 2) + 16];
    char fonts[1100];
    bench_words(made, bench, sizeof bench);
    days_title(papers->from_ms, papers->to_ms, title);
    days_text(papers->now_ms, day);
    days_time(papers->now_ms, false, time, sizeof time);
    snprintf(printed, sizeof printed, "%s %s", day, time);
    snprintf(fonts, sizeof fonts, "%.1000s/fonts", assets_folder());
    struct day_report report = {.title = title,
                                .bench = bench,
                                .printed = printed,
                                .sum = &made->sum,
                                .tolerance = papers->tolerance,
                                .metric = papers->metric,
                                .cuts = made->cuts,
                                .cut_count = made->cut_count,
                                .decisions = made->decisions,
                                .decision_count = made->decision_count,
                                .people = made->people,
                                .person_count = made->person_count,
                                .seal = &made->seal,
                                .paper = papers->paper,
                                .fonts = fonts};
    return day_report_write(&report, path, NULL, ret_pages, message, size);
}

bool day_papers_report(struct store *store, const struct day_papers *papers, const char *path,
                       size_t *ret_pages, char *message, size_t size) {
    struct made *made = calloc(1, sizeof *made);
    if (made == NULL) {
        snprintf(message, size, _("No memory for a report."));
        return false;
    }
    bool done = fill(made, store, papers, message, size) &&
                write(made, papers, path, ret_pages, message, size);
    day_facts_release(&made->facts);
    free(made->cuts);
    free(made->decisions);
    free(made);
    return done;
}
