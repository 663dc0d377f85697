// The charts of the review: measured less planned, the change from club to club, with their limits;
// cuts by the hour, causes; and in words what they say.

#include "day_report_inner.h"
#include "text.h"
#include "tongue.h"

#include <math.h>
#include <stdio.h>

#define TITLE 14.0
#define BETWEEN 22.0
#define LEAST 200.0 // both control charts
#define EMPTY 70.0
#define HOURS 78.0
#define LABELS 40.0 // at the right of the area, for the limits
#define TICKS 22.0

struct graph {
    struct flow *flow;
    struct page_box area;
    double low;
    double high;
    size_t count;
};

static double y_of(const struct graph *graph, double value) {
    return graph->area.y + graph->area.height * (graph->high - value) / (graph->high - graph->low);
}

static double x_of(const struct graph *graph, size_t at) {
    return graph->area.x + graph->area.width * ((double)at + 0.5) / (double)graph->count;
}

static void include(struct graph *graph, double value) {
    graph->low = fmin(graph->low, value);
    graph->high = fmax(graph->high, value);
}

// 1, 2 or 5 times a power of ten, two to five to the axis.
static double tick_step(const struct graph *graph) {
    static const double steps[] = {1, 2, 5};
    double rough = (graph->high - graph->low) / 4;
    double power = pow(10, floor(log10(rough)));
    for (size_t i = 0; i < 3; i++) {
        if (rough <= steps[i] * power) {
            return steps[i] * power;
        }
    }
    return 10 * power;
}

static void ticks(const struct graph *graph) {
    double step = tick_step(graph);
    double first = ceil(graph->low / step);
    for (int i = 0; (first + i) * step <= graph->high; i++) {
        char words[32];
        double y = y_of(graph, (first + i) * step);
        struct text text = text_open(words, sizeof words);
        text_add_decimal(&text, (first + i) * step, step < 1 ? 1 : 0);
        page_line(graph->flow->page, graph->area.x, y, graph->area.x + graph->area.width, y, 0.3,
                  0.8);
        flow_fit(graph->flow, PAGE_REGULAR, REPORT_SMALL, PAGE_RIGHT, graph->area.x - 3,
                 y + PAGE_CAP(REPORT_SMALL) / 2, TICKS - 3, words);
    }
}

static void dashes(const struct graph *graph, double y) {
    double end = graph->area.x + graph->area.width;
    double x = graph->area.x;
    while (x < end) {
        page_line(graph->flow->page, x, y, fmin(x + 3.5, end), y, 0.7, 0.2);
        x += 6;
    }
}

// `y`: of the line's own place; the words may stand a little off it.
static void label(const struct graph *graph, double y, const char *pattern, double value) {
    char words[96];
    char figure[LENGTH_TEXT_MAX];
    struct text text = text_open(figure, sizeof figure);
    text_add_decimal(&text, value, 1);
    text = text_open(words, sizeof words);
    text_say(&text, pattern, figure);
    flow_fit(graph->flow, PAGE_REGULAR, REPORT_SMALL - 0.5, PAGE_LEFT,
             graph->area.x + graph->area.width + 3, y + PAGE_CAP(REPORT_SMALL) / 2, LABELS - 3,
             words);
}

static void points(const struct graph *graph, const double *values) {
    double radius = fmin(1.9, graph->area.width / (double)graph->count / 3);
    for (size_t i = 0; i < graph->count; i++) {
        double x = x_of(graph, i);
        double y = y_of(graph, values[i]);
        if (i > 0) {
            page_line(graph->flow->page, x_of(graph, i - 1), y_of(graph, values[i - 1]), x, y, 0.5,
                      0.45);
        }
        page_dot(graph->flow->page, x, y, radius, true);
    }
}

// False: there is nothing to draw.
static bool open_graph(struct graph *graph, struct flow *flow, const struct page_box *box,
                       const char *title, const double *values, size_t count) {
    *graph = (struct graph){.flow = flow, .low = INFINITY, .high = -INFINITY, .count = count};
    graph->area = (struct page_box){box->x + TICKS, box->y + TITLE + 4, box->width - TICKS - LABELS,
                                    box->height - TITLE - 8};
    flow_fit(flow, PAGE_BOLD, REPORT_TEXT, PAGE_LEFT, box->x, box->y + REPORT_TEXT, box->width,
             title);
    if (count == 0) {
        flow_fit(flow, PAGE_REGULAR, REPORT_SMALL + 0.5, PAGE_LEFT, box->x,
                 box->y + TITLE + REPORT_SMALL, box->width, _("Too few clubs were measured."));
        return false;
    }
    for (size_t i = 0; i < count; i++) {
        include(graph, values[i]);
    }
    return true;
}

static void close_axis(struct graph *graph) {
    double room = fmax(0.06 * (graph->high - graph->low), 0.5);
    graph->low -= room;
    graph->high += room;
    ticks(graph);
}

static void individuals(struct flow *flow, const struct page_box *box, const struct cut_sum *sum) {
    const struct cut_stats *stats = &flow->of->sum->cut;
    struct graph graph;
    if (!open_graph(&graph, flow, box, _("Measured less planned, thousandths of an inch"),
                    stats->off, stats->count)) {
        return;
    }
    if (sum->limits_known) {
        include(&graph, sum->limits.low);
        include(&graph, sum->limits.high);
    }
    close_axis(&graph);
    if (sum->limits_known) {
        double mean = y_of(&graph, sum->limits.mean);
        double high = y_of(&graph, sum->limits.high);
        double low = y_of(&graph, sum->limits.low);
        page_line(flow->page, graph.area.x, mean, graph.area.x + graph.area.width, mean, 0.7, 0.2);
        dashes(&graph, high);
        dashes(&graph, low);
        label(&graph, mean, _("mean %1"), sum->limits.mean);
        label(&graph, fmin(high, mean - 8), _("high %1"), sum->limits.high);
        label(&graph, fmax(low, mean + 8), _("low %1"), sum->limits.low);
    }
    points(&graph, stats->off);
    if (sum->rule != RUN_NONE) {
        double x = x_of(&graph, sum->rule_at);
        double y = y_of(&graph, stats->off[sum->rule_at]);
        page_frame(flow->page, &(struct page_box){x - 4, y - 4, 8, 8}, 0.9);
    }
}

static void ranges(struct flow *flow, const struct page_box *box, const struct cut_sum *sum) {
    const struct cut_stats *stats = &flow->of->sum->cut;
    double range[CUT_STATS_POINTS];
    struct graph graph;
    for (size_t i = 1; i < stats->count; i++) {
        range[i - 1] = fabs(stats->off[i] - stats->off[i - 1]);
    }
    if (!open_graph(&graph, flow, box, _("Change from club to club"), range,
                    stats->count > 0 ? stats->count - 1 : 0)) {
        return;
    }
    include(&graph, 0);
    if (sum->limits_known) {
        include(&graph, sum->limits.range_high);
    }
    close_axis(&graph);
    if (sum->limits_known) {
        double mean = y_of(&graph, sum->limits.range_mean);
        double high = y_of(&graph, sum->limits.range_high);
        page_line(flow->page, graph.area.x, mean, graph.area.x + graph.area.width, mean, 0.7, 0.2);
        dashes(&graph, high);
        label(&graph, mean, _("mean %1"), sum->limits.range_mean);
        label(&graph, fmin(high, mean - 8), _("high %1"), sum->limits.range_high);
    }
    points(&graph, range);
}

// --- in words ------------------------------------------------------------------------------------

struct decimal {
    char words[LENGTH_TEXT_MAX];
};

static struct decimal decimal(double value) {
    struct decimal figure = {0};
    struct text text = text_open(figure.words, sizeof figure.words);
    text_add_decimal(&text, value, 2);
    return figure;
}

static void say(struct flow *flow, const struct cut_sum *sum) {
    const struct cut_stats *stats = &flow->of->sum->cut;
    char words[PAGE_WORDS_MAX];
    char tolerance[48];
    struct text text = text_open(words, sizeof words);
    unsigned long measured = (unsigned long)stats->measured;
    text_say(&text,
             stats->measured > (int64_t)stats->count
                 ? tongue_plural("%1 club measured, the charts show the last %2.",
                                 "%1 clubs measured, the charts show the last %2.", measured)
                 : tongue_plural("%1 club measured.", "%1 clubs measured.", measured),
             text_number(stats->measured).digits, text_number((int64_t)stats->count).digits);
    text_add(&text, " ");
    text_say(&text,
             !sum->limits_known      ? _("Too few for control limits.")
             : sum->rule == RUN_NONE ? _("No run rule speaks up: nothing but the usual scatter.")
                                     : _("Look at this bench: %1 (framed)."),
             run_rule_words(sum->rule));
    text_add(&text, " ");
    flow_length(flow, flow->of->tolerance, true, tolerance, sizeof tolerance);
    text_say(&text,
             sum->capability_known
                 ? _("Capability against the tolerance of %1 both ways: Cp %2, Cpk %3.")
                 : _("Capability is not known."),
             tolerance, decimal(sum->capability.cp).words, decimal(sum->capability.cpk).words);
    flow_words(flow, sum->rule != RUN_NONE ? PAGE_BOLD : PAGE_REGULAR, REPORT_TEXT, words);
}

void flow_charts(struct flow *flow) {
    const struct workday *day = flow->of->sum;
    struct cut_sum sum;
    double stops = bars_height(day->cut.cause_count);
    double scrap = bars_height(day->scrap_count);
    double height = fmax(day->cut.count > 0 ? LEAST : EMPTY, HOURS + stops + scrap + 22);
    double left = 0.6 * (flow_width(flow) - BETWEEN);
    double right = flow_width(flow) - BETWEEN - left;
    double x = PAGE_MARGIN + left + BETWEEN;
    cut_stats_sum(&day->cut, flow->of->tolerance, &sum);
    flow_need(flow, height + 60);
    flow->y += 10;
    double y = flow->y;
    if (flow->drawn) {
        individuals(flow, &(struct page_box){PAGE_MARGIN, y, left, 0.58 * height}, &sum);
        ranges(flow, &(struct page_box){PAGE_MARGIN, y + 0.58 * height, left, 0.42 * height}, &sum);
    }
    hours_draw(flow, &(struct page_box){x, y, right, HOURS}, day->cut.by_hour);
    bars_draw(flow, &(struct page_box){x, y + HOURS + 10, right, stops}, _("Stops by cause"),
              day->cut.cause, day->cut.cause_count, _("No stops."));
    bars_draw(flow, &(struct page_box){x, y + HOURS + stops + 20, right, scrap},
              _("Shafts lost by cause"), day->scrap, day->scrap_count, _("None."));
    flow->y += height + 8;
    say(flow, &sum);
}
