#include "spread.h"
#include "family.h"
#include "statistics.h"
#include "text.h"

#include <math.h>
#include <string.h>

int spread_parts(struct office *office, const char *lot, enum ticket_kind kind,
                 struct lot_part parts[SPREAD_MAX]) {
    int total = 0;
    int count = 1;
    while (lot[0] != '\0' && count > 0 && total < SPREAD_MAX) {
        const char *after = total > 0 ? parts[total - 1].ticket : "";
        count = store_lot_parts(office->store, lot, kind, after, &parts[total], SPREAD_MAX - total);
        total += count > 0 ? count : 0;
    }
    return count < 0 ? -1 : total;
}

// --- values --------------------------------------------------------------------------------------

static double in_unit(const struct office *office, enum spread_of of, int64_t value) {
    double per = of == SPREAD_WEIGHT              ? (double)MASS_GRAM
                 : office->settings->metric_first ? (double)LENGTH_MM
                                                  : (double)LENGTH_INCH;
    return (double)value / per;
}

static struct spread begin(const struct office *office, enum spread_of of, bool heads) {
    struct spread spread = {.heads = heads, .worst = -1};
    bool weight = of == SPREAD_WEIGHT;
    spread.title = weight ? _("Weight") : heads ? _("Bore height") : _("Raw length");
    spread.unit = weight ? _("g") : office->settings->metric_first ? _("mm") : _("in");
    spread.decimals = weight || office->settings->metric_first ? 1 : 3;
    spread.least = weight ? 1 : office->settings->metric_first ? 3 : 0.125;
    return spread;
}

static int64_t measured(const struct lot_part *part, enum spread_of of) {
    return of == SPREAD_WEIGHT ? part->weight : part->length;
}

static int64_t catalogued(const struct lot_part *part, enum spread_of of) {
    return of == SPREAD_WEIGHT ? part->model_weight : part->model_length;
}

bool spread_off(const struct lot_part *part, enum spread_of of) {
    if (part->kind == TICKET_HEAD) {
        return of == SPREAD_WEIGHT && family_head_off(part->weight, part->model_weight);
    }
    return of == SPREAD_WEIGHT ? family_shaft_off(part->weight, part->model_weight)
                               : family_length_off(part->length, part->model_length);
}

// What is out of family lies beyond the limit, so the furthest of all is the furthest of those.
static void add(struct spread *spread, double value, bool off) {
    double worst = spread->worst < 0 ? 0 : fabs(spread->value[spread->worst] - spread->figure);
    if (off && fabs(value - spread->figure) > worst) {
        spread->worst = (ptrdiff_t)spread->count;
    }
    spread->off += off;
    spread->value[spread->count++] = value;
}

static double limit(const struct office *office, enum spread_of of, bool heads, int64_t catalogue) {
    if (heads) {
        return of == SPREAD_WEIGHT ? in_unit(office, of, FAMILY_HEAD) : 0;
    }
    return of == SPREAD_LENGTH ? in_unit(office, of, FAMILY_LENGTH)
                               : in_unit(office, of, catalogue) * FAMILY_SHAFT_PERCENT / 100;
}

void spread_fill(const struct office *office, enum spread_of of, bool heads, const char *model,
                 int64_t catalogue, const struct lot_part *parts, int count,
                 struct spread *ret_spread) {
    *ret_spread = begin(office, of, heads);
    ret_spread->figure_known = catalogue != LENGTH_UNKNOWN;
    if (ret_spread->figure_known) {
        ret_spread->figure = in_unit(office, of, catalogue);
        ret_spread->limit = limit(office, of, heads, catalogue);
    }
    for (int i = 0; i < count; i++) {
        if (strcmp(parts[i].model, model) == 0 && measured(&parts[i], of) != LENGTH_UNKNOWN) {
            add(ret_spread, in_unit(office, of, measured(&parts[i], of)),
                spread_off(&parts[i], of));
        }
    }
}

void spread_now(const struct office *office, enum spread_of of, int64_t value,
                struct spread *spread) {
    spread->now_known = value != LENGTH_UNKNOWN;
    spread->now = spread->now_known ? in_unit(office, of, value) : 0;
}

void spread_differences(const struct office *office, enum spread_of of, bool heads,
                        const struct lot_part *parts, int count, struct spread *ret_spread) {
    bool limited = heads == (of == SPREAD_WEIGHT); // the limit is no share of the figure
    *ret_spread = begin(office, of, heads);
    ret_spread->figure_known = true;
    ret_spread->limit = limited ? limit(office, of, heads, 0) : 0;
    for (int i = 0; i < count; i++) {
        int64_t made = measured(&parts[i], of);
        int64_t figure = catalogued(&parts[i], of);
        if (made != LENGTH_UNKNOWN && figure != LENGTH_UNKNOWN) {
            add(ret_spread, in_unit(office, of, made - figure), spread_off(&parts[i], of));
        }
    }
}

// --- plot ----------------------------------------------------------------------------------------

static void widen(struct view_plot *plot, double value) {
    plot->low = value < plot->low ? value : plot->low;
    plot->high = value > plot->high ? value : plot->high;
}

static void add_value(const struct spread *spread, double value, int decimals, struct text *text) {
    text_add_decimal(text, value, decimals);
    text_add(text, " ");
    text_add(text, spread->unit);
}

static void scale_text(const struct spread *spread, double value, char *buffer, size_t size) {
    struct text text = text_open(buffer, size);
    add_value(spread, value, spread->decimals, &text);
}

static void levels(const struct spread *spread, struct view_plot *plot) {
    if (spread->figure_known) {
        plot->level[plot->level_count++] = spread->figure;
    }
    if (spread->figure_known && spread->limit > 0) {
        plot->level[plot->level_count++] = spread->figure - spread->limit;
        plot->level[plot->level_count++] = spread->figure + spread->limit;
    }
}

// The newest, and a ring for the one that is not among them yet.
static void points(const struct spread *spread, struct view_plot *plot) {
    size_t max = VIEW_POINTS_MAX - (spread->now_known ? 1 : 0);
    size_t first = spread->count > max ? spread->count - max : 0;
    plot->odd = spread->worst >= (ptrdiff_t)first ? (int)(spread->worst - (ptrdiff_t)first) : -1;
    for (size_t i = first; i < spread->count; i++) {
        plot->point[plot->count].planned_known = true;
        plot->point[plot->count++].planned = spread->value[i];
    }
    if (spread->now_known) {
        plot->point[plot->count].measured_known = true;
        plot->point[plot->count++].measured = spread->now;
    }
}

bool spread_plot(const struct spread *spread, struct view_plot *ret_plot) {
    struct view_plot plot;
    memset(&plot, 0, sizeof plot);
    points(spread, &plot);
    if (plot.count == 0) {
        return false;
    }
    struct text title = text_open(plot.title, sizeof plot.title);
    text_say(&title, spread->heads ? _("%1, heads") : _("%1, shafts"), spread->title);
    levels(spread, &plot);
    plot.low = spread->now_known ? spread->now : spread->value[spread->count - 1];
    plot.high = plot.low;
    for (size_t i = 0; i < plot.count; i++) {
        widen(&plot, plot.point[i].planned_known ? plot.point[i].planned : plot.point[i].measured);
    }
    for (size_t i = 0; i < plot.level_count; i++) {
        widen(&plot, plot.level[i]);
    }
    if (plot.high - plot.low < spread->least) {
        plot.low -= spread->least / 2;
        plot.high += spread->least / 2;
    }
    scale_text(spread, plot.low, plot.low_text, sizeof plot.low_text);
    scale_text(spread, plot.high, plot.high_text, sizeof plot.high_text);
    *ret_plot = plot;
    return true;
}

// --- words ---------------------------------------------------------------------------------------

struct counted {
    char words[32];
};

// `3 heads`.
static struct counted counted(const struct spread *spread) {
    struct counted counted;
    struct text text = text_open(counted.words, sizeof counted.words);
    text_say(&text,
             spread->heads ? tongue_plural("%1 head", "%1 heads", spread->count)
                           : tongue_plural("%1 shaft", "%1 shafts", spread->count),
             text_number((int64_t)spread->count).digits);
    return counted;
}

void spread_words(const struct spread *spread, char *buffer, size_t size) {
    struct text text = text_open(buffer, size);
    double mean;
    double deviation;
    if (!statistics_mean(spread->value, spread->count, &mean)) {
        return;
    }
    bool spreads = statistics_deviation(spread->value, spread->count, &deviation);
    char average[LENGTH_TEXT_MAX];
    char wide[LENGTH_TEXT_MAX];
    struct text figure = text_open(average, sizeof average);
    add_value(spread, mean, spread->decimals, &figure);
    figure = text_open(wide, sizeof wide);
    add_value(spread, spreads ? deviation : 0, spread->decimals < 3 ? spread->decimals + 1 : 3,
              &figure);
    // TRANSLATORS: %1 what was measured, as `Weight`; %2 how many heads or shafts; %5 how many of
    // them lie too far from the others.
    text_say(&text,
             spread->off > 0 ? spreads ? _("%1 of %2: mean %3, standard deviation %4, %5 out of "
                                           "family.")
                                       : _("%1 of %2: mean %3, %5 out of family.")
             : spreads ? _("%1 of %2: mean %3, standard deviation %4.")
                             : _("%1 of %2: mean %3."),
             spread->title, counted(spread).words, average, wide,
             text_number((int64_t)spread->off).digits);
}
