// How well it was cut, as charts: measured less planned with its limits, the change from club to
// club, cuts by hour, stops by cause; and in words whether somebody should look.

#include "cause_text.h"
#include "station_inner.h"
#include "text.h"

#include <math.h>
#include <string.h>

static void decimal(double value, int decimals, char buffer[LENGTH_TEXT_MAX]) {
    struct text text = text_open(buffer, LENGTH_TEXT_MAX);
    text_add_decimal(&text, value, decimals);
}

static void note(struct view_set *view, enum view_tone tone, enum word which, const char *a,
                 const char *b, const char *c) {
    words_fill(view->note[view->note_count], sizeof view->note[0], which, a, b, c);
    view->note_tone[view->note_count] = tone;
    view->note_count++;
}

static void add_point(struct view_plot *plot, double value) {
    plot->point[plot->count].planned_known = true;
    plot->point[plot->count].planned = value;
    plot->low = plot->count == 0 || value < plot->low ? value : plot->low;
    plot->high = plot->count == 0 || value > plot->high ? value : plot->high;
    plot->count++;
}

static void add_level(struct view_plot *plot, double value) {
    plot->level[plot->level_count++] = value;
    plot->low = value < plot->low ? value : plot->low;
    plot->high = value > plot->high ? value : plot->high;
}

static struct view_plot *new_plot(struct view_set *view, enum word title) {
    struct view_plot *plot = &view->plot[view->plot_count++];
    SET(plot->title, word(title));
    plot->odd = -1;
    return plot;
}

static void close_plot(struct view_plot *plot) {
    char text[LENGTH_TEXT_MAX];
    if (plot->high - plot->low < 1) {
        plot->high = plot->low + 1;
    }
    decimal(plot->low, 1, text);
    SET(plot->low_text, text);
    decimal(plot->high, 1, text);
    SET(plot->high_text, text);
}

static void chart_off(const struct cut_stats *stats, const struct cut_sum *sum,
                      struct view_set *view) {
    struct view_plot *plot = new_plot(view, WORD_STATS_OFF);
    for (size_t i = 0; i < stats->count; i++) {
        add_point(plot, stats->off[i]);
    }
    if (sum->limits_known) {
        add_level(plot, sum->limits.low);
        add_level(plot, sum->limits.mean);
        add_level(plot, sum->limits.high);
    }
    if (sum->rule != RUN_NONE) {
        plot->odd = (int)sum->rule_at;
    }
    close_plot(plot);
}

static void chart_range(const struct cut_stats *stats, const struct cut_sum *sum,
                        struct view_set *view) {
    struct view_plot *plot = new_plot(view, WORD_STATS_RANGE);
    for (size_t i = 1; i < stats->count; i++) {
        add_point(plot, fabs(stats->off[i] - stats->off[i - 1]));
    }
    add_level(plot, sum->limits.range_high);
    add_level(plot, 0);
    close_plot(plot);
}

static void chart_hours(const struct cut_stats *stats, struct view_set *view) {
    struct view_plot *plot = new_plot(view, WORD_STATS_HOURS);
    for (int i = 0; i < 24; i++) {
        add_point(plot, (double)stats->by_hour[i]);
    }
    plot->low = 0;
    close_plot(plot);
}

static void causes(const struct cut_stats *stats, struct view_set *view) {
    words_copy(view->head[0], VIEW_CELL_MAX, word(WORD_STATS_CAUSE));
    words_copy(view->head[1], VIEW_CELL_MAX, word(WORD_STATS_COUNT));
    for (size_t i = 0; i < stats->cause_count; i++) {
        char count[LENGTH_TEXT_MAX];
        say_number(stats->cause[i].count, count);
        words_copy(view->row[i].cell[0], VIEW_CELL_MAX, cause_text(stats->cause[i].word));
        words_copy(view->row[i].cell[1], VIEW_CELL_MAX, count);
        view->row_count++;
    }
    view->total = (int)view->row_count;
}

static void say_sum(const struct station *s, const struct cut_stats *stats,
                    const struct cut_sum *sum, struct view_set *view) {
    char a[LENGTH_TEXT_MAX];
    char b[LENGTH_TEXT_MAX];
    char c[LENGTH_TEXT_MAX];
    if (!sum->limits_known) {
        note(view, TONE_PLAIN, WORD_STATS_FEW, NULL, NULL, NULL);
    } else if (sum->rule == RUN_NONE) {
        note(view, TONE_FINE, WORD_STATS_CALM, NULL, NULL, NULL);
    } else {
        note(view, TONE_CAUTION, WORD_STATS_LOOK, run_rule_words(sum->rule), NULL, NULL);
    }
    if (stats->left_out_before_ms != 0) {
        char day[24] = "";
        say_number(stats->facts, a);
        s->ops->time_text(s->ops->ctx, stats->left_out_before_ms, true, day, sizeof day);
        note(view, TONE_PLAIN, WORD_STATS_COVERS, a, day, NULL);
    }
    say_number(stats->measured, a);
    say_number(stats->cuts, b);
    say_number(stats->scrapped, c);
    note(view, TONE_PLAIN, WORD_STATS_MEASURED, a, b, c);
    if (sum->limits_known) {
        decimal(sum->limits.mean, 1, a);
        decimal(sum->limits.low, 1, b);
        decimal(sum->limits.high, 1, c);
        note(view, TONE_PLAIN, WORD_STATS_MEAN, a, b, c);
    }
    if (sum->capability_known) {
        decimal(sum->capability.cp, 2, a);
        decimal(sum->capability.cpk, 2, b);
        say_length(s, s->settings.rules.tolerance, c);
        note(view, TONE_PLAIN, WORD_STATS_CAPABLE, a, b, c);
    } else {
        note(view, TONE_PLAIN, WORD_STATS_NOT_CAPABLE, NULL, NULL, NULL);
    }
}

void view_stats(const struct station *s, struct view *view) {
    struct view_set *to = &view->set;
    struct cut_stats stats;
    struct cut_sum sum;
    char day[VIEW_SHORT_MAX] = "";
    char filters[VIEW_TEXT_MAX];
    memset(&stats, 0, sizeof stats);
    view->body = VIEW_SET;
    to->selected = -1;
    SET(to->title, word(WORD_STATS));
    view_band(view, TONE_PLAIN, false, WORD_STATS_BAND, WORD_EMPTY);
    if (s->review.message[0] != '\0') {
        SET(view->band, s->review.message);
    }
    if (s->ops->stats(s->ops->ctx, &s->review.filter, &stats) != STATION_FOUND) {
        note(to, TONE_STOP, WORD_REVIEW_FAILED, NULL, NULL, NULL);
        return;
    }
    view_days(s, day, sizeof day);
    view_filters(s, filters, sizeof filters);
    SAY(to->subtitle, STATS_WHERE, day, filters, NULL);
    cut_stats_sum(&stats, s->settings.rules.tolerance, &sum);
    cut_stats_sort(&stats);
    if (stats.count > 0) {
        chart_off(&stats, &sum, to);
    }
    if (sum.limits_known) {
        chart_range(&stats, &sum, to);
    }
    if (stats.cuts > 0) {
        chart_hours(&stats, to);
    }
    causes(&stats, to);
    say_sum(s, &stats, &sum, to);
}
