#include "cut_stats.h"
#include "text.h"

#include <string.h>

static void add_point(struct cut_stats *stats, double off) {
    if (stats->count == CUT_STATS_POINTS) {
        memmove(stats->off, stats->off + 1, sizeof stats->off - sizeof stats->off[0]);
        stats->count--;
    }
    stats->off[stats->count++] = off;
    stats->measured++;
}

void cut_cause_add(struct cut_cause *causes, size_t *count, const char *word) {
    size_t at = 0;
    while (at < *count && strcmp(causes[at].word, word) != 0) {
        at++;
    }
    if (at == CUT_STATS_CAUSES) {
        at--; // no room for another word
        word = "other";
    }
    if (at == *count || strcmp(word, "other") == 0) {
        struct text text = text_open(causes[at].word, sizeof causes[at].word);
        text_add(&text, word);
        *count = at == *count ? at + 1 : *count;
    }
    causes[at].count++;
}

void cut_stats_add(struct cut_stats *stats, const struct cut_fact *fact) {
    bool cut = fact->kind == ENTRY_TIP_CUT || fact->kind == ENTRY_BUTT_CUT;
    stats->facts++;
    if (fact->withdrawn) {
        return;
    }
    if (cut) {
        stats->cuts++;
        stats->by_hour[fact->hour]++;
    } else if (fact->kind == ENTRY_MEASURE) {
        add_point(stats, CUT_STATS_THOU(fact->made - fact->planned));
    } else if (fact->kind == ENTRY_HOLD) {
        stats->holds++;
        cut_cause_add(stats->cause, &stats->cause_count, fact->cause);
    } else if (fact->kind == ENTRY_DECIDE && strcmp(fact->cause, "use") != 0) {
        stats->scrapped++;
    }
}

void cut_stats_sum(const struct cut_stats *stats, length_nm tolerance, struct cut_sum *ret_sum) {
    struct cut_sum sum = {.rule = RUN_NONE};
    double deviation;
    double wide = CUT_STATS_THOU(tolerance);
    sum.limits_known = statistics_limits(stats->off, stats->count, &sum.limits);
    if (sum.limits_known) {
        double sigma = (sum.limits.high - sum.limits.mean) / 3;
        sum.rule = runs_last(stats->off, stats->count, sum.limits.mean, sigma, &sum.rule_at);
        sum.capability_known =
            statistics_deviation(stats->off, stats->count, &deviation) &&
            statistics_capability(-wide, wide, sum.limits.mean, deviation, &sum.capability);
    }
    *ret_sum = sum;
}

void cut_cause_sort(struct cut_cause *causes, size_t count) {
    for (size_t i = 1; i < count; i++) {
        for (size_t k = i; k > 0 && causes[k].count > causes[k - 1].count; k--) {
            struct cut_cause less = causes[k - 1];
            causes[k - 1] = causes[k];
            causes[k] = less;
        }
    }
}

void cut_stats_sort(struct cut_stats *stats) {
    cut_cause_sort(stats->cause, stats->cause_count);
}
